package facts

import (
	"fmt"
	"slices"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/cite"
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

// Total is the drop of a whole path.
func Total(w working.Working) decimal.Decimal {
	v, _ := w.Value("ΔU_p")
	return v
}

// DropAlong lays out the drop of each run of a path whose runs carry some currents,
// and their sum.
func DropAlong(path []*Run, amps []decimal.Decimal) (working.Working, error) {
	drops, lines := make([]wire.Drop, len(path)), 2
	for i, r := range path {
		var err error
		if drops[i], err = r.drop(amps[i]); err != nil {
			return nil, working.In(r.Path, err)
		}
		lines += len(drops[i].Working) + 2
	}
	w := make(working.Working, 0, lines)
	sum, formula := decimal.Zero, ""
	for i, drop := range drops {
		w.Part(path[i].Name)
		w = append(w, drop.Working...)
		part := fmt.Sprintf("ΔU.%d", i+1)
		w.Calc(part, "ΔU", drop.DropV, cite.OhmsLaw.At("", cite.Published))
		sum = sum.Add(drop.DropV)
		if i > 0 {
			formula += " + "
		}
		formula += part
	}
	w.Part("The whole path")
	w.Calc("ΔU_p", formula, sum, cite.Kirchhoff.At("", cite.Published))
	return w, nil
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
func (m *Facts) WorstChargeDrop(alone Supply) (w working.Working, corner string, err error) {
	path := m.Path(alone.Name, m.chargedBy(alone.Name))
	worst, corner := m.takenTogether(path, []Supply{alone}), "its full current into one battery"
	same := func(x Supply) bool { return x.Name == alone.Name }
	for i := range m.Job.States {
		s := &m.Job.States[i]
		others, err := m.SuppliesIn(s)
		if err != nil {
			return nil, "", err
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
	w, err = DropAlong(path, worst)
	return w, corner, err
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
