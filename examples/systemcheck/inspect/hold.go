package inspect

import (
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/charge"
	"github.com/shopspring/decimal"
)

// drive names what charges on the road in a balance, all sources together.
const drive = "driving"

// held says how many hours of driving a day would hold the balance of a month
// that rule C08 finds too weak. It begins half way between the floor and full,
// as on an ordinary morning.
func (m *model) held(f Finding) string {
	month := 1 + max(0, slices.IndexFunc(monthNames[:], func(name string) bool { return strings.HasSuffix(f.Where, name) }))
	b, hours, err := m.driven(month)
	if err != nil || !hours.IsPositive() {
		return advice["C08"]
	}
	floor := decimal.NewFromInt(100).Sub(m.house()[0].DepthPercent)
	b.StartPercent = floor.Add(decimal.NewFromInt(100)).Mul(decimal.New(5, -1))
	h, err := b.LeastDriving(drive, decimal.NewNullDecimal(floor))
	switch {
	case err != nil:
		return advice["C08"]
	case !h.Exists:
		return fmt.Sprintf("no driving of up to %s h a day holds it: %s", h.GreatestH.RoundFloor(1), advice["C08"])
	}
	return fmt.Sprintf("drive %s h a day in place of %s h; or %s", h.TimeH.RoundCeil(1), hours.RoundFloor(1), advice["C08"])
}

// driven is the balance of a month with all that charges in each state on the
// road as one drive, and the hours of driving in a day.
func (m *model) driven(month int) (b charge.Balance, hours decimal.Decimal, err error) {
	if b, err = m.balance(month); err != nil {
		return b, hours, err
	}
	for i, at := range m.spans() {
		s := &m.job.States[i]
		if s.Engine != "road" || !at.hours().IsPositive() {
			continue
		}
		supplies, err := m.countedOn(s)
		if err != nil {
			return b, hours, err
		}
		all := charge.DutyPeriod{Name: drive, FromH: at.from, ToH: at.to}
		for _, x := range supplies {
			all.CurrentA = all.CurrentA.Add(x.leastA)
			b.Sources = slices.DeleteFunc(b.Sources, func(spell charge.DutyPeriod) bool { return spell.Name == spellName(x, s) })
		}
		if all.CurrentA.IsPositive() {
			b.Sources, hours = append(b.Sources, all), hours.Add(at.hours())
		}
	}
	return b, hours, nil
}
