package rules

import (
	"fmt"
	"slices"

	"example.org/extralow/charge"
	"example.org/extralow/examples/systemcheck/facts"
	"github.com/shopspring/decimal"
)

// drive names what charges on the road in a balance, all sources together.
const drive = "driving"

const useLess = "use less, or charge longer or with more"

// driveMore says how many hours of driving a day would hold the balance of a month
// that rule C08 finds too weak. It begins half way between the floor and full,
// as on an ordinary morning.
func driveMore(m *facts.Facts, f Finding) string {
	b, hours, err := driven(m, f.Month)
	if err != nil || !hours.IsPositive() {
		return ""
	}
	floor := decimal.NewFromInt(100).Sub(m.House()[0].DepthPercent)
	b.StartPercent = floor.Add(decimal.NewFromInt(100)).Mul(decimal.New(5, -1))
	h, err := b.LeastDriving(drive, decimal.NewNullDecimal(floor))
	switch {
	case err != nil:
		return ""
	case !h.Exists:
		return fmt.Sprintf("no driving of up to %s h a day holds it: %s", h.GreatestH.RoundFloor(1), useLess)
	}
	return fmt.Sprintf("drive %s h a day in place of %s h; or %s", h.TimeH.RoundCeil(1), hours.RoundFloor(1), useLess)
}

// driven is the balance of a month with all that charges in each state on the
// road as one drive, and the hours of driving in a day.
func driven(m *facts.Facts, month int) (b charge.Balance, hours decimal.Decimal, err error) {
	if b, err = m.Balance(month); err != nil {
		return b, hours, err
	}
	for i, at := range m.Spans() {
		s := &m.Job.States[i]
		if s.Engine != "road" || !at.Hours().IsPositive() {
			continue
		}
		supplies, err := m.CountedOn(s)
		if err != nil {
			return b, hours, err
		}
		all := charge.DutyPeriod{Name: drive, FromH: at.From, ToH: at.To}
		for _, x := range supplies {
			all.CurrentA = all.CurrentA.Add(x.LeastA)
			b.Sources = slices.DeleteFunc(b.Sources, func(spell charge.DutyPeriod) bool { return spell.Name == facts.SpellName(x, s) })
		}
		if all.CurrentA.IsPositive() {
			b.Sources, hours = append(b.Sources, all), hours.Add(at.Hours())
		}
	}
	return b, hours, nil
}
