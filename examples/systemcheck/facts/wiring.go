package facts

import (
	"slices"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// Lost is the drop along a path whose runs carry some currents.
func Lost(path []*Run, amps []decimal.Decimal) decimal.Decimal {
	sum := decimal.Zero
	for i, r := range path {
		sum = sum.Add(amps[i].Mul(r.HotMilliohm).Shift(-3))
	}
	return sum
}

func (m *Facts) IsBattery(node string) bool {
	for _, b := range m.Job.Batteries {
		if b.Name == node {
			return true
		}
	}
	return false
}

// DropAlong lays out the drop of each run of a path whose runs carry some currents,
// and their sum.
func DropAlong(path []*Run, amps []decimal.Decimal) (wire.PathDrop, error) {
	all := make([]wire.PathRun, len(path))
	for i, r := range path {
		drop, err := r.drop(amps[i])
		if err != nil {
			return wire.PathDrop{}, working.In(r.Path, err)
		}
		all[i] = wire.PathRun{Name: r.Name, Drop: drop}
	}
	return wire.AlongPath(all)
}

func ChargeLine(name string) string { return name + ", line to the batteries" }

func (m *Facts) ChargesThrough(r *Run) bool {
	leads := func(name string) bool { return slices.Contains(m.Path(name, m.chargedBy(name)), r) }
	return slices.ContainsFunc(m.Job.Chargers, func(c job.Charger) bool { return leads(c.Name) }) ||
		slices.ContainsFunc(m.Job.Alternators, func(a job.Alternator) bool { return m.OfHouse(a.Name) && leads(a.Name) })
}

// chargedBy tells the batteries that a source charges: those of the house bank
// where cables join it to them, though a starter battery may lie on the way.
func (m *Facts) chargedBy(source string) func(node string) bool {
	if !m.OfHouse(source) {
		return m.IsBattery
	}
	return m.calledHouse
}

// WorstChargeDrop is the drop along a source's line at its full current into one
// battery, in the state where what else charges takes most of the same runs.
func (m *Facts) WorstChargeDrop(alone Supply) (lost wire.PathDrop, corner string, err error) {
	path := m.Path(alone.Name, m.chargedBy(alone.Name))
	worst, corner := m.takenTogether(path, []Supply{alone}), "its full current into one battery"
	same := func(x Supply) bool { return x.Name == alone.Name }
	for i := range m.Job.States {
		s := &m.Job.States[i]
		others, err := m.SuppliesIn(s)
		if err != nil {
			return lost, "", err
		}
		others = append(others, m.sunIn(s)...)
		if !slices.ContainsFunc(others, same) && !slices.Contains(s.Sources, alone.Name) {
			continue
		}
		full := m.takenTogether(path, append(slices.DeleteFunc(others, same), alone))
		if Lost(path, full).GreaterThan(Lost(path, worst)) {
			worst, corner = full, s.Name+", with all that charges over the same line, into one battery"
		}
	}
	lost, err = DropAlong(path, worst)
	return lost, corner, err
}

// takenTogether takes through every run of a source's path the greatest currents
// of all the supplies whose way to a battery shares it.
func (m *Facts) takenTogether(path []*Run, all []Supply) []decimal.Decimal {
	sums := make([]decimal.Decimal, len(path))
	for _, x := range all {
		way := m.Path(x.Name, m.chargedBy(x.Name))
		for i, r := range path {
			if slices.Contains(way, r) {
				sums[i] = sums[i].Add(x.MostA)
			}
		}
	}
	return sums
}

// KeptFrom is the voltage from which a load runs: its lowest, or where it must run
// or is critical also that at which a device takes it off.
func KeptFrom(l job.Load) decimal.Decimal {
	if l.ShedsV.Valid && (l.MustRun || l.Critical) {
		return decimal.Max(l.LeastV.Decimal, l.ShedsV.Decimal)
	}
	return l.LeastV.Decimal
}

// WorstFor is the case, on the batteries alone, in which a load gets its lowest
// voltage: nought where the case collapses.
func (m *Facts) WorstFor(name, node string) (worst Solved, lowest decimal.Decimal, ok bool) {
	for _, c := range m.Cases {
		if c.Sources || !m.Feeds(c, name) {
			continue
		}
		if v, _ := c.Voltage(node); !ok || v.LessThan(lowest) {
			worst, lowest, ok = c, v, true
		}
	}
	return worst, lowest, ok
}
