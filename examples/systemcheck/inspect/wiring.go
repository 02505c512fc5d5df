package inspect

import (
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// carries compares each run's greatest steady current with its ampacity.
func carries(m *model) ([]Finding, error) {
	var all []Finding
	for _, r := range m.runs {
		f := Finding{Where: r.Name, Path: r.path, RuleSet: m.set.Name, Corner: r.worst}
		switch {
		case r.noAmps == nil:
			w := working.Start(r.ampacity.Working)
			w.Given("I", r.designA) // nought where no case puts any on it
			f.Check, f.Source = w.Check("W01", "", "I", "I_z"), w[0].Source
		case errors.Is(r.noAmps, tables.ErrOutside):
			f.Check = beyondTable(r)
		default:
			f.Check = working.Check{ID: "W01", Missing: noAmpacityText + " (" + r.noAmps.Error() + ")"}
		}
		all = append(all, f)
		if r.bundle.set != "" {
			all = append(all, r.carriesBundled())
		}
	}
	cranked, err := m.crankedHeat()
	return append(all, cranked...), err
}

// beyondTable is a run in air so hot that the table ends: it carries nothing.
func beyondTable(r *run) working.Check {
	var w working.Working
	w.Given("I_b", r.designA)
	w.Calc("I_z", "0", decimal.Zero, cite.Arithmetic.At("", cite.Published))
	w.Note(r.noAmps.Error())
	return w.Check("W01", "", "I_b", "I_z")
}

// bigEnough compares each run with the smallest size that the set allows.
func bigEnough(m *model) ([]Finding, error) {
	var all []Finding
	for _, r := range m.runs {
		least := m.set.Size.Single
		if r.Sheathed {
			least = m.set.Size.Sheathed
		}
		c, err := wire.CheckLeastSize(least, r.Size)
		if err != nil {
			return nil, working.In(r.path, err)
		}
		all = append(all, Finding{Check: c, Where: r.Name, Path: r.path, RuleSet: m.set.Name, Source: least.Source})
	}
	return all, nil
}

// dropInside compares the drop along the whole path to each load, in the worst
// of the cases that feed it from the batteries, with the set's limit; and that
// of each directly coupled charging line at its full current.
func dropInside(m *model) ([]Finding, error) {
	var all []Finding
	for i, l := range m.job.Loads {
		if l.At == "" || l.Cranking {
			continue
		}
		limit := m.set.Drop.Other
		if l.Critical {
			limit = m.set.Drop.Critical
		}
		f, ok, err := m.worstDrop(l.Name, l.At, limit)
		if err != nil {
			return nil, working.In(fmt.Sprintf("loads[%d]", i), err)
		}
		if !ok {
			f, ok = m.unsolved("W02", l.Name)
		}
		if f.Path = fmt.Sprintf("loads[%d]", i); ok {
			all = append(all, f)
		}
	}
	for i, inv := range m.job.Inverters {
		f, ok, err := m.worstDrop(inv.Name, inv.Name, m.set.Drop.Other)
		if err != nil {
			return nil, err
		}
		if !ok {
			f, ok = m.unsolved("W02", inv.Name)
		}
		if f.Path = fmt.Sprintf("inverters[%d]", i); ok {
			all = append(all, f)
		}
	}
	charging, err := m.chargeLines()
	return append(all, charging...), err
}

// worstDrop finds the case in which the load at a node loses most, and lays
// that drop out run by run.
func (m *model) worstDrop(name, node string, limit working.Figure) (Finding, bool, error) {
	var worst solved
	var path []*run
	most := decimal.NewFromInt(-1)
	for _, c := range m.cases {
		if !c.loads || c.sources || c.CollapsedAt != "" || !c.feeds(name) {
			continue
		}
		way := m.toBattery(node, c.missing)
		if lost := c.lost(way); lost.GreaterThan(most) {
			worst, path, most = c, way, lost
		}
	}
	if most.IsNegative() {
		return Finding{}, false, nil
	}
	w, err := m.dropAlong(worst, path)
	return m.judgeDrop(name, w, worst.name, limit), true, err
}

// lost is the drop along a path in a case.
func (c solved) lost(path []*run) decimal.Decimal {
	sum := decimal.Zero
	for _, r := range path {
		sum = sum.Add(c.current(r.Name).Abs().Mul(r.hotMilliohm).Shift(-3))
	}
	return sum
}

func (c solved) feeds(load string) bool {
	for _, l := range c.Loads {
		if l.Name == load {
			return true
		}
	}
	return false
}

func (m *model) isBattery(node string) bool {
	for _, b := range m.job.Batteries {
		if b.Name == node {
			return true
		}
	}
	return false
}

// total is the drop of a whole path.
func total(w working.Working) decimal.Decimal {
	v, _ := w.Value("ΔU_p")
	return v
}

// dropAlong lays out the drop of each run of a path in a case, and their sum.
func (m *model) dropAlong(c solved, path []*run) (working.Working, error) {
	drops, lines := make([]wire.Drop, len(path)), 2
	for i, r := range path {
		var err error
		if drops[i], err = r.drop(c.current(r.Name).Abs()); err != nil {
			return nil, working.In(r.path, err)
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

// judgeDrop compares a drop with a limit in V or in percent of the nominal
// voltage.
func (m *model) judgeDrop(name string, w working.Working, corner string, limit working.Figure) Finding {
	f := Finding{Where: name, RuleSet: m.set.Name, Source: limit.Source, Corner: corner}
	switch {
	case !limit.Stated():
		f.Check = working.Check{ID: "W02", Silent: fmt.Sprintf("%s sets no limit at %s V", m.set.Name, m.job.SystemV)}
		return f
	case limit.Unit == "V":
		w.LookUp("ΔU_max", limit)
	default:
		u, p := w.Given("U_n", m.job.SystemV), w.LookUp("p_max", limit)
		w.Calc("ΔU_max", "U_n × p_max ÷ 100", u.Mul(p).Shift(-2), limit.Source)
	}
	f.Check = w.Check("W02", "", "ΔU_p", "ΔU_max")
	return f
}

// chargeLines judges the line from each charger, and from each alternator that
// cables join to it, to the house bank at its full current. A charger that senses
// the voltage at the battery makes up for the line, and a converter's input is
// judged by its lowest voltage (C10).
func (m *model) chargeLines() ([]Finding, error) {
	var all []Finding
	for i, c := range m.job.Chargers {
		if c.RemoteSense {
			all = append(all, Finding{Where: chargeLine(c.Name), Path: m.chargerPath(i), RuleSet: m.set.Name, Check: working.Check{ID: "W02", Silent: "it senses the voltage at the battery"}})
			continue
		}
		f, err := m.judgeLine(supply{name: c.Name, mostA: c.MaxA}, m.chargerPath(i))
		if err != nil {
			return nil, err
		}
		all = append(all, f)
	}
	for i, a := range m.job.Alternators {
		if !m.ofHouse(a.Name) {
			continue
		}
		draw, err := m.bankDraw(a)
		if err != nil {
			return nil, working.In(indexed("alternators", i), err)
		}
		f, err := m.judgeLine(supply{name: a.Name, mostA: decimal.Min(spareOf(a.RatedA, a), draw)}, indexed("alternators", i))
		if err != nil {
			return nil, err
		}
		all = append(all, f)
	}
	return append(all, m.otherChargeLines()...), nil
}

func chargeLine(name string) string { return name + ", line to the batteries" }

func (m *model) judgeLine(x supply, path string) (Finding, error) {
	w, corner, err := m.worstChargeDrop(x)
	if err != nil {
		return Finding{}, err
	}
	f := m.judgeDrop(chargeLine(x.name), w, corner, m.set.Drop.Charge)
	f.Path = path
	return f, nil
}

// otherChargeLines says of each run that is marked as a charge line, and that no
// source of the job charges through, why it is not judged as one.
func (m *model) otherChargeLines() []Finding {
	var all []Finding
	for _, r := range m.runs {
		if r.Purpose != "charge line" || m.chargesThrough(r) {
			continue
		}
		why := "no charger or alternator of the job charges the house bank through it"
		if !m.ofHouse(r.From) {
			why = "it does not lead to the house bank: a converter's input is judged by its lowest voltage (C10)"
		}
		all = append(all, Finding{Where: r.Name, Path: r.path, RuleSet: m.set.Name, Check: working.Check{ID: "W02", Silent: why}})
	}
	return all
}

func (m *model) chargesThrough(r *run) bool {
	leads := func(name string) bool { return slices.Contains(m.path(name, m.chargedBy(name)), r) }
	return slices.ContainsFunc(m.job.Chargers, func(c job.Charger) bool { return leads(c.Name) }) ||
		slices.ContainsFunc(m.job.Alternators, func(a job.Alternator) bool { return m.ofHouse(a.Name) && leads(a.Name) })
}

// chargedBy tells the batteries that a source charges: those of the house bank
// where cables join it to them, though a starter battery may lie on the way.
func (m *model) chargedBy(source string) func(node string) bool {
	if !m.ofHouse(source) {
		return m.isBattery
	}
	return m.calledHouse
}

// worstChargeDrop is the drop along a source's line at its full current into one
// battery, in the state where what else charges takes most of the same runs.
func (m *model) worstChargeDrop(alone supply) (w working.Working, corner string, err error) {
	path := m.path(alone.name, m.chargedBy(alone.name))
	worst, corner := m.takenTogether(path, []supply{alone}), "its full current into one battery"
	same := func(x supply) bool { return x.name == alone.name }
	for i := range m.job.States {
		s := &m.job.States[i]
		others, err := m.suppliesIn(s)
		if err != nil {
			return nil, "", err
		}
		others = append(others, m.sunIn(s)...)
		if !slices.ContainsFunc(others, same) && !slices.Contains(s.Sources, alone.name) {
			continue
		}
		full := m.takenTogether(path, append(slices.DeleteFunc(others, same), alone))
		if full.lost(path).GreaterThan(worst.lost(path)) {
			worst, corner = full, s.Name+", with all that charges over the same line, into one battery"
		}
	}
	w, err = m.dropAlong(worst, path)
	return w, corner, err
}

// takenTogether takes through every run of a source's path the greatest currents
// of all the supplies whose way to a battery shares it.
func (m *model) takenTogether(path []*run, all []supply) (full solved) {
	sums := make([]decimal.Decimal, len(path))
	for _, x := range all {
		way := m.path(x.name, m.chargedBy(x.name))
		for i, r := range path {
			if slices.Contains(way, r) {
				sums[i] = sums[i].Add(x.mostA)
			}
		}
	}
	for i, r := range path {
		full.Branches = append(full.Branches, wire.BranchCurrent{Name: r.Name, CurrentA: sums[i]})
	}
	return full
}

// voltsLeft compares the voltage that each load gets at the worst with the
// lowest at which it works, and at which an inverter stays on.
func voltsLeft(m *model) ([]Finding, error) {
	var all []Finding
	for i, l := range m.job.Loads {
		path := fmt.Sprintf("loads[%d]", i)
		if l.At == "" || l.Cranking {
			continue
		}
		if !l.LeastV.Valid && l.WorksFromV.Valid {
			all = append(all, Finding{Where: l.Name, Path: path, Check: working.Check{ID: "W04", Silent: "its range of supply voltage is judged: see P17"}})
			continue
		}
		if !l.LeastV.Valid {
			all = append(all, Finding{Where: l.Name, Path: path, Check: working.Check{ID: "W04", Missing: "ask for the lowest voltage at which it works, and state least_v"}})
			continue
		}
		if f, ok := m.lowestVolts(l.Name, l.At, keptFrom(l)); ok {
			f.Path = path
			all = append(all, f)
		}
	}
	for i, inv := range m.job.Inverters {
		if f, ok := m.lowestVolts(inv.Name, inv.Name, inv.CutOutV); ok {
			f.Path = fmt.Sprintf("inverters[%d]", i)
			all = append(all, f)
		}
	}
	return all, nil
}

// keptFrom is the voltage from which a load runs: its lowest, or where it must run
// or is critical also that at which a device takes it off.
func keptFrom(l job.Load) decimal.Decimal {
	if l.ShedsV.Valid && (l.MustRun || l.Critical) {
		return decimal.Max(l.LeastV.Decimal, l.ShedsV.Decimal)
	}
	return l.LeastV.Decimal
}

func (m *model) lowestVolts(name, node string, least decimal.Decimal) (Finding, bool) {
	c, v, ok := m.worstFor(name, node)
	if !ok {
		return m.unsolved("W04", name)
	}
	return Finding{Where: name, Corner: c.name, Check: voltsAt(c, node, v, least)}, true
}

// worstFor is the case, on the batteries alone, in which a load gets its lowest
// voltage: nought where the case collapses.
func (m *model) worstFor(name, node string) (worst solved, lowest decimal.Decimal, ok bool) {
	for _, c := range m.cases {
		if !c.loads || c.sources || !c.feeds(name) {
			continue
		}
		if v, _ := c.voltage(node); !ok || v.LessThan(lowest) {
			worst, lowest, ok = c, v, true
		}
	}
	return worst, lowest, ok
}

// voltsAt lays out the ladder of drops down to a node and what is left there.
func voltsAt(c solved, node string, v, least decimal.Decimal) working.Check {
	ladder, err := c.Ladder(node)
	if err != nil || c.CollapsedAt != "" {
		var w working.Working
		w.Given("U_lo", least)
		w.Calc("U_L", "0", decimal.Zero, cite.Kirchhoff.At("", cite.Published))
		w.Note("no voltage holds: the loads ask more than the sources can give, at " + c.CollapsedAt)
		return w.Check("W04", "", "U_lo", "U_L")
	}
	w := working.Start(ladder.Working)
	w.Given("U_lo", least)
	return w.Check("W04", "", "U_lo", "U_L")
}
