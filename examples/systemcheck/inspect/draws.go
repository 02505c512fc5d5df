package inspect

import (
	"fmt"
	"strings"

	"example.org/extralow/charge"
	"example.org/extralow/examples/systemcheck/job"
	"github.com/shopspring/decimal"
)

// draws is when a day's use is drawn from the house bank, in Wh.
type draws struct {
	allDay decimal.Decimal   // evenly
	states []decimal.Decimal // in each state, evenly through it
}

func (d draws) sum() decimal.Decimal { return d.allDay.Add(decimal.Sum(decimal.Zero, d.states...)) }

// draws shares a day's use out among the states that list the loads: what is used
// for longer than they last draws the rest all day long, and so do loads that no
// state lists, and standby. An inverter's loss goes with its loads, its idling with
// the states in which it feeds any.
func (m *model) draws() draws {
	d := draws{states: make([]decimal.Decimal, len(m.job.States))}
	spans := m.spans()
	for _, c := range m.onHouse() {
		m.consumes(&d, c, spans)
	}
	for _, inv := range m.job.Inverters {
		for i := range m.job.States {
			if m.ofHouse(inv.Name) && m.inverterOut(inv, &m.job.States[i]).IsPositive() {
				d.states[i] = d.states[i].Add(inv.IdleW.Mul(spans[i].hours()))
			}
		}
	}
	return d
}

func (m *model) consumes(d *draws, l consumer, spans []span) {
	listed := decimal.Zero
	for i, s := range m.job.States {
		if l.runsIn(s) {
			listed = listed.Add(spans[i].hours())
		}
	}
	taken := func(w decimal.Decimal) decimal.Decimal { return w.DivRound(m.share(l.Load), 9) }
	runs := taken(m.watts(l.Load).Mul(l.Percent).Shift(-2))
	within := decimal.Min(l.HoursADay, listed)
	off := dayH.Sub(l.HoursADay.Mul(l.Percent).Shift(-2))
	d.allDay = d.allDay.Add(runs.Mul(l.HoursADay.Sub(within))).Add(taken(l.StandbyW.Decimal.Mul(off)))
	for i, s := range m.job.States {
		if listed.IsPositive() && l.runsIn(s) {
			d.states[i] = d.states[i].Add(runs.Mul(within).Mul(spans[i].hours()).DivRound(listed, 9))
		}
	}
}

// share is the share of what is drawn for a load that reaches it: through an
// inverter its efficiency.
func (m *model) share(l job.Load) decimal.Decimal {
	for _, inv := range m.job.Inverters {
		if inv.Name == l.Inverter {
			return inv.EfficiencyPercent.Shift(-2)
		}
	}
	return decimal.NewFromInt(1)
}

// drawnIn lays the charge of a day's use into the hours in which it is drawn.
func (m *model) drawnIn(dayAh decimal.Decimal) []charge.DutyPeriod {
	d, spans := m.draws(), m.spans()
	sum := d.sum()
	if !sum.IsPositive() {
		return []charge.DutyPeriod{{Name: "all loads, evenly", CurrentA: perHour(dayAh, dayH), ToH: dayH}}
	}
	var spells []charge.DutyPeriod
	if d.allDay.IsPositive() {
		spells = append(spells, charge.DutyPeriod{Name: "all day long", CurrentA: perHour(dayAh.Mul(d.allDay).DivRound(sum, 9), dayH), ToH: dayH})
	}
	for i, s := range m.job.States {
		if d.states[i].IsPositive() {
			spells = append(spells, charge.DutyPeriod{
				Name: "loads, " + s.Name, CurrentA: perHour(dayAh.Mul(d.states[i]).DivRound(sum, 9), spans[i].hours()), FromH: spans[i].from, ToH: spans[i].to,
			})
		}
	}
	return spells
}

// worstPart is the part of a day, of so many hours on end, that takes most of a
// day's use, the states one behind the other. What a window takes is straight
// between the moments at which it begins or ends with a state, so that the worst
// begins or ends with one.
func (m *model) worstPart(hours, dayWh decimal.Decimal) (most decimal.Decimal, where string) {
	d, spans := m.draws(), m.spans()
	var begins []decimal.Decimal
	for _, s := range spans {
		begins = append(begins, s.from, s.to, s.from.Sub(hours).Add(dayH).Mod(dayH), s.to.Sub(hours).Add(dayH).Mod(dayH))
	}
	if !d.sum().IsPositive() || len(begins) == 0 {
		return dayWh.Mul(hours).DivRound(dayH, 9).RoundCeil(2), "evenly"
	}
	for _, from := range begins {
		taken, in := d.within(from, from.Add(hours), spans)
		if taken.GreaterThan(most) || where == "" {
			var names []string
			for _, i := range in {
				names = append(names, m.job.States[i].Name)
			}
			most, where = taken, fmt.Sprintf("the %s h that take most: %s", hours, strings.Join(names, ", "))
		}
	}
	return decimal.Min(dayWh, most.Mul(dayWh).DivRound(d.sum(), 9).RoundCeil(2)), where
}

// within is what is drawn between two moments, the second up to a day later, and
// the states that reach into it.
func (d draws) within(from, to decimal.Decimal, spans []span) (taken decimal.Decimal, in []int) {
	taken = d.allDay.Mul(to.Sub(from)).DivRound(dayH, 9)
	for _, day := range []decimal.Decimal{decimal.Zero, dayH} {
		for i, s := range spans {
			common := decimal.Min(to, s.to.Add(day)).Sub(decimal.Max(from, s.from.Add(day)))
			if common.IsPositive() {
				taken = taken.Add(d.states[i].Mul(common).DivRound(s.hours(), 9))
				in = append(in, i)
			}
		}
	}
	return taken, in
}
