package inspect

import (
	"slices"

	"example.org/extralow/battery"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// letsGo is the voltage at which a load is shed, or else gives up.
func letsGo(l job.Load) decimal.NullDecimal {
	if l.ShedsV.Valid {
		return l.ShedsV
	}
	return l.LeastV
}

// mustRunLast asks of each load that must run, in every state in which it does,
// whether the rest at its bank is switched off before it starves.
func mustRunLast(m *model) ([]Finding, error) {
	var all []Finding
	for i, l := range m.job.Loads {
		if !l.MustRun {
			continue
		}
		f := Finding{Where: l.Name, Path: indexed("loads", i)}
		states := m.statesOf(l)
		if len(states) == 0 {
			f.Check = working.Check{ID: "B20", Silent: starved}
		}
		for _, c := range states {
			check, err := m.outlasts(l, c)
			if err != nil {
				return nil, working.In(f.Path, err)
			}
			if f.ID == "" || check.Margin().LessThan(f.Margin()) {
				f.Check, f.Corner = check, c.name
			}
		}
		all = append(all, f)
	}
	if len(all) == 0 {
		all = []Finding{{Where: "the loads", Path: "loads", Check: working.Check{ID: "B20", Silent: "none is marked must_run"}}}
	}
	return all, nil
}

// statesOf are the plain cases in which a load runs on the batteries alone and
// the voltage holds.
func (m *model) statesOf(l job.Load) []solved {
	return slices.DeleteFunc(slices.Clone(m.cases), func(c solved) bool {
		return !c.alone() || !slices.Contains(c.state.Loads, l.Name) || c.CollapsedAt != ""
	})
}

// outlasts judges a load that must run against the rest in a case. Behind an
// inverter it lasts as long as that.
func (m *model) outlasts(l job.Load, c solved) (working.Check, error) {
	last := battery.MustRun{Name: l.Name, LowestV: l.LeastV}
	if inv, ok := m.inverter(l.Inverter); ok {
		last.LowestV = decimal.NewNullDecimal(inv.CutOutV)
	}
	if last.LowestV.Valid && l.ShedsV.Valid && l.ShedsV.Decimal.GreaterThan(last.LowestV.Decimal) {
		last.LowestV = l.ShedsV
	}
	feeder := slices.IndexFunc(m.job.Batteries, func(b job.Battery) bool { return m.joined(b.Name, l.Node()) })
	if feeder < 0 {
		return working.Check{ID: "B20", Silent: "no battery feeds it"}, nil
	}
	var err error
	if last.From, err = m.lostOnTheWay(c, l.Node()); err != nil {
		return working.Check{}, err
	}
	last.DropV = decimal.NewNullDecimal(total(last.From))
	rest, err := m.others(l, c)
	if err != nil {
		return working.Check{}, err
	}
	return m.bankOf(m.job.Batteries[feeder:feeder+1]).CheckOutlasts(last, rest)
}

// lostOnTheWay lays out what is lost between the nearest battery and a node;
// nothing where the node is its posts.
func (m *model) lostOnTheWay(c solved, node string) (working.Working, error) {
	path := m.path(node, m.isBattery)
	if len(path) == 0 {
		return nil, nil
	}
	return m.dropAlong(c, path)
}

// others are what draws on the bank of a load that must run and need not run as
// long. An inverter measures at its own terminals, and one that feeds a load
// that must run sheds nothing. Where the device of a load measures is not known:
// at the bank, which is strict.
func (m *model) others(than job.Load, c solved) ([]battery.ShedLoad, error) {
	var all []battery.ShedLoad
	for _, inv := range m.job.Inverters {
		if !m.joined(inv.Name, than.Node()) || m.feedsMustRun(inv.Name) {
			continue
		}
		laid, err := m.lostOnTheWay(c, inv.Name)
		if err != nil {
			return nil, err
		}
		all = append(all, battery.ShedLoad{Name: inv.Name, AtV: decimal.NewNullDecimal(inv.CutOutV), DropV: total(laid), From: laid})
	}
	for _, l := range m.job.Loads {
		if !l.MustRun && m.joined(l.Node(), than.Node()) && (l.Inverter == "" || m.feedsMustRun(l.Inverter)) {
			all = append(all, battery.ShedLoad{Name: l.Name, AtV: l.ShedsV})
		}
	}
	return all, nil
}

func (m *model) feedsMustRun(inverter string) bool {
	return slices.ContainsFunc(m.job.Loads, func(l job.Load) bool { return l.MustRun && l.Inverter == inverter })
}

func (m *model) inverter(name string) (job.Inverter, bool) {
	i := slices.IndexFunc(m.job.Inverters, func(inv job.Inverter) bool { return inv.Name == name })
	if i < 0 {
		return job.Inverter{}, false
	}
	return m.job.Inverters[i], true
}
