package facts

import (
	"fmt"
	"strings"

	"example.org/extralow/charge"
	"example.org/extralow/examples/systemcheck/job"
	"github.com/shopspring/decimal"
)

// draws is when a day's use is drawn from the house bank, in Wh.
type draws struct {
	AllDay decimal.Decimal   // evenly
	States []decimal.Decimal // in each state, evenly through it
}

func (d draws) Sum() decimal.Decimal { return d.AllDay.Add(decimal.Sum(decimal.Zero, d.States...)) }

// Draws shares a day's use out among the states that list the loads: what is used
// for longer than they last draws the rest all day long, and so do loads that no
// state lists, and standby. An inverter's loss goes with its loads, its idling with
// the states in which it feeds any.
func (m *Facts) Draws() draws {
	d := draws{States: make([]decimal.Decimal, len(m.Job.States))}
	spans := m.Spans()
	for _, c := range m.onHouse() {
		m.consumes(&d, c, spans)
	}
	for _, inv := range m.Job.Inverters {
		for i := range m.Job.States {
			if m.OfHouse(inv.Name) && m.InverterOut(inv, &m.Job.States[i]).IsPositive() {
				d.States[i] = d.States[i].Add(inv.IdleW.Mul(spans[i].Hours()))
			}
		}
	}
	return d
}

func (m *Facts) consumes(d *draws, l consumer, spans []span) {
	listed := decimal.Zero
	for i, s := range m.Job.States {
		if l.runsIn(s) {
			listed = listed.Add(spans[i].Hours())
		}
	}
	taken := func(w decimal.Decimal) decimal.Decimal { return w.DivRound(m.share(l.Load), 9) }
	runs := taken(m.watts(l.Load).Mul(l.Percent).Shift(-2))
	within := decimal.Min(l.HoursADay, listed)
	off := DayH.Sub(l.HoursADay.Mul(l.Percent).Shift(-2))
	d.AllDay = d.AllDay.Add(runs.Mul(l.HoursADay.Sub(within))).Add(taken(l.StandbyW.Decimal.Mul(off)))
	for i, s := range m.Job.States {
		if listed.IsPositive() && l.runsIn(s) {
			d.States[i] = d.States[i].Add(runs.Mul(within).Mul(spans[i].Hours()).DivRound(listed, 9))
		}
	}
}

// share is the share of what is drawn for a load that reaches it: through an
// inverter its efficiency.
func (m *Facts) share(l job.Load) decimal.Decimal {
	for _, inv := range m.Job.Inverters {
		if inv.Name == l.Inverter {
			return inv.EfficiencyPercent.Shift(-2)
		}
	}
	return decimal.NewFromInt(1)
}

// DrawnIn lays the charge of a day's use into the hours in which it is drawn.
func (m *Facts) DrawnIn(dayAh decimal.Decimal) []charge.DutyPeriod {
	d, spans := m.Draws(), m.Spans()
	sum := d.Sum()
	if !sum.IsPositive() {
		return []charge.DutyPeriod{{Name: "all loads, evenly", CurrentA: perHour(dayAh, DayH), ToH: DayH}}
	}
	var spells []charge.DutyPeriod
	if d.AllDay.IsPositive() {
		spells = append(spells, charge.DutyPeriod{Name: "all day long", CurrentA: perHour(dayAh.Mul(d.AllDay).DivRound(sum, 9), DayH), ToH: DayH})
	}
	for i, s := range m.Job.States {
		if d.States[i].IsPositive() {
			spells = append(spells, charge.DutyPeriod{
				Name: "loads, " + s.Name, CurrentA: perHour(dayAh.Mul(d.States[i]).DivRound(sum, 9), spans[i].Hours()), FromH: spans[i].From, ToH: spans[i].To,
			})
		}
	}
	return spells
}

// WorstPart is the part of a day, of so many hours on end, that takes most of a
// day's use, the states one behind the other. What a window takes is straight
// between the moments at which it begins or ends with a state, so that the worst
// begins or ends with one.
func (m *Facts) WorstPart(hours, dayWh decimal.Decimal) (most decimal.Decimal, where string) {
	d, spans := m.Draws(), m.Spans()
	var begins []decimal.Decimal
	for _, s := range spans {
		begins = append(begins, s.From, s.To, s.From.Sub(hours).Add(DayH).Mod(DayH), s.To.Sub(hours).Add(DayH).Mod(DayH))
	}
	if !d.Sum().IsPositive() || len(begins) == 0 {
		return dayWh.Mul(hours).DivRound(DayH, 9).RoundCeil(2), "evenly"
	}
	for _, from := range begins {
		taken, in := d.within(from, from.Add(hours), spans)
		if taken.GreaterThan(most) || where == "" {
			var names []string
			for _, i := range in {
				names = append(names, m.Job.States[i].Name)
			}
			most, where = taken, fmt.Sprintf("the %s h that take most: %s", hours, strings.Join(names, ", "))
		}
	}
	return decimal.Min(dayWh, most.Mul(dayWh).DivRound(d.Sum(), 9).RoundCeil(2)), where
}

// within is what is drawn between two moments, the second up to a day later, and
// the states that reach into it.
func (d draws) within(from, to decimal.Decimal, spans []span) (taken decimal.Decimal, in []int) {
	taken = d.AllDay.Mul(to.Sub(from)).DivRound(DayH, 9)
	for _, day := range []decimal.Decimal{decimal.Zero, DayH} {
		for i, s := range spans {
			common := decimal.Min(to, s.To.Add(day)).Sub(decimal.Max(from, s.From.Add(day)))
			if common.IsPositive() {
				taken = taken.Add(d.States[i].Mul(common).DivRound(s.Hours(), 9))
				in = append(in, i)
			}
		}
	}
	return taken, in
}
