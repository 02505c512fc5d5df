package facts

import (
	"math"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// equivalent is the steady current that heats each run on the way to a load no less than
// its short duty does; unset where the file does not say that the duty is short, or where
// it is not for one of the cables. What flows while it runs counts for volts, contacts and
// devices.
func (m *Facts) equivalent(l job.Load) (decimal.NullDecimal, error) {
	peak := m.peakA(l)
	if !l.LongestRunS.Valid || !peak.IsPositive() || l.Cranking {
		return decimal.NullDecimal{}, nil
	}
	worst := decimal.Zero
	for _, r := range m.ToBattery(l.At, "") {
		a, err := r.heatsAs(l, peak)
		if err != nil {
			return decimal.NullDecimal{}, err
		}
		worst = decimal.Max(worst, a)
	}
	short := worst.IsPositive() && worst.LessThan(peak.Mul(decimal.New(9, -1))) // else it is solved as it is
	return decimal.NullDecimal{Decimal: worst, Valid: short}, nil
}

// ShortOn is the longest run of the loads of short duty that draw through a run; nought
// where none does.
func (m *Facts) ShortOn(r *Run) (longestS decimal.Decimal) {
	for _, l := range m.Job.Loads {
		if m.loads[l.Name].EquivalentA.Valid && m.OnTheWay(r, l.At) {
			longestS = decimal.Max(longestS, l.LongestRunS.Decimal)
		}
	}
	return longestS
}

// peakA is the most that a load draws while it runs: a constant power at the lowest
// voltage at which it works, or a tenth below that of the bank nearly empty; a resistance
// at the highest of its part of the network.
func (m *Facts) peakA(l job.Load) decimal.Decimal {
	switch l.Behaves {
	case "power":
		low := l.LeastV.Decimal
		if !l.LeastV.Valid {
			low = m.lowestBankV().Mul(decimal.New(9, -1))
		}
		return m.watts(l).DivRound(low, 4)
	case "resistance":
		n := m.Job.SystemV
		return m.watts(l).Mul(m.HighestV(l.At)).DivRound(n.Mul(n), 4)
	}
	return m.watts(l).DivRound(m.Job.SystemV, 4)
}

// heatsAs is the steady current that makes a run as warm as the duty of a load does.
func (r *Run) heatsAs(l job.Load, peak decimal.Decimal) (decimal.Decimal, error) {
	if r.NoAmps != nil {
		return peak, nil
	}
	warmest, err := r.warmestBy(l, peak.DivRound(decimal.NewFromInt(int64(r.Sharing())), 9).RoundCeil(4))
	if err != nil {
		return peak, err
	}
	a := r.Overall()
	share := warmest.Sub(a.AmbientC).DivRound(a.InsulationC.Sub(a.AmbientC), 9).InexactFloat64()
	if !(share >= 0 && share < 1e6) {
		return peak, nil
	}
	as := decimal.NewFromFloat(a.CableA.InexactFloat64() * math.Sqrt(share)).RoundCeil(2)
	return decimal.Min(peak, as), nil
}

// warmestBy is the temperature that a duty brings a cable to: no more than all that the
// load runs in a day brings it to in one go, from the ambient, nor, where it rests between
// runs, than its longest run does on top of what the duty comes to (Joule heat).
func (r *Run) warmestBy(l job.Load, each decimal.Decimal) (decimal.Decimal, error) {
	area, err := r.Size.Area()
	if err != nil {
		return decimal.Zero, err
	}
	o := wire.Overload{Ampacity: r.one(), AreaMM2: area.Value, CurrentA: each}
	inOne, err := o.Temperature(l.HoursADay.Mul(l.Percent).Mul(decimal.NewFromInt(36)))
	if err != nil || !l.Percent.LessThan(decimal.NewFromInt(100)) {
		return inOne.ConductorC, err
	}
	run := l.LongestRunS.Decimal
	th, err := wire.Duty{Pulses: []wire.Pulse{{CurrentA: each, TimeS: run}}, PeriodS: run.Shift(2).DivRound(l.Percent, 4)}.Equivalent()
	if err != nil {
		return inOne.ConductorC, nil // a period of more than a day is no duty
	}
	mean, err := o.Ampacity.Temperature(th.CurrentA)
	if err != nil {
		return inOne.ConductorC, err
	}
	o.StartC = decimal.NewNullDecimal(mean.ConductorC)
	after, err := o.Temperature(run)
	return decimal.Min(inOne.ConductorC, after.ConductorC), err
}

// one is the ampacity of one of its cables, overall.
func (r *Run) one() wire.Ampacity {
	if r.Bundle.Set != "" {
		return r.Bundle.One
	}
	return r.One
}
