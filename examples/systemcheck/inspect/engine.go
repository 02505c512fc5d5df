package inspect

import (
	"slices"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// cranksOver compares the voltage at each starter while it cranks with the least at
// which it turns the engine, on each battery that it can be switched to, nearly
// empty, aged and cold.
func cranksOver(m *model) ([]Finding, error) {
	var all []Finding
	for i, l := range m.job.Loads {
		if !l.Cranking {
			continue
		}
		path := indexed("loads", i)
		found, err := m.crankedOn(l)
		if err != nil {
			return nil, working.In(path, err)
		}
		for _, f := range found {
			f.Path = path
			all = append(all, f)
		}
	}
	if len(all) == 0 {
		all = m.couldCrank()
	}
	if len(all) == 0 {
		return notHere("B22", "the batteries", "batteries", "none starts an engine"), nil
	}
	return all, nil
}

// couldCrank asks of each battery that starts an engine, where no load says with how
// much, whether any engine of its size is cranked with what it gives at its posts
// before it sinks to the least cranking voltage.
func (m *model) couldCrank() []Finding {
	var all []Finding
	perAh, err := tables.SizingFigure("cranking_per_ah")
	perAh.Value = tabled(perAh, err)
	for i, b := range m.job.Batteries {
		if b.Bank != "starter" {
			continue
		}
		var w working.Working
		least := m.turnsAt(&w, decimal.NullDecimal{})
		e, r := w.Given("E_e", b.EmptyV), w.Given("R_hi", m.high(b))
		w.CalcDown("I_ce", "(E_e − U_lo) × 1000 ÷ R_hi", e.Sub(least).Shift(3), r, 1, cite.OhmsLaw.At("", cite.Published))
		k, c := w.LookUp("k_ce", perAh), w.Given("C", b.CapacityAh)
		w.Calc("I_cel", "k_ce × C", k.Mul(c), perAh.Source)
		all = append(all, Finding{
			Check: w.Check("B22", "", "I_cel", "I_ce"), Where: b.Name, Path: indexed("batteries", i), Corner: "nearly empty, aged and cold; no load says what cranks the engine",
		})
	}
	return all
}

// crankedOn asks so on the batteries of the starter's own bank, those together that
// no switch parts.
func (m *model) crankedOn(l job.Load) ([]Finding, error) {
	var all []Finding
	own, asked := m.ownBank(l.At), map[string]bool{}
	for _, b := range m.job.Batteries {
		if asked[b.Name] || !slices.Contains(own, b.Name) || !m.joined(b.Name, l.At) {
			continue
		}
		together := m.side(b.Name, func(r *run, _ string) bool { return r.Switch == nil })
		for name := range together {
			asked[name] = true
		}
		f := Finding{Where: l.Name + ", on " + b.Name, Corner: "nearly empty, aged and cold"}
		var err error
		if f.Check, err = m.turnsOver(l, together); err != nil {
			return nil, err
		}
		all = append(all, f)
	}
	if len(all) == 0 {
		all = []Finding{{Where: l.Name, Check: working.Check{ID: "B22", Silent: "no battery feeds it"}}}
	}
	return all, nil
}

// turnsOver solves the network with the starter alone on some batteries.
func (m *model) turnsOver(l job.Load, on map[string]bool) (working.Check, error) {
	n := wire.Network{Branches: slices.DeleteFunc(m.branches(func(r *run) decimal.Decimal { return r.hotMilliohm }),
		func(b wire.Branch) bool { return !m.joined(b.From, l.At) || !m.joined(b.To, l.At) })}
	for _, b := range m.job.Batteries {
		if on[b.Name] {
			n.Sources = append(n.Sources, m.source(b, setting{}))
		}
	}
	drawn := m.cranking(l)
	a, _ := drawn.Value("I_sg")
	n.Loads = []wire.NodeLoad{{Name: l.Name, Node: l.At, CurrentA: decimal.NewNullDecimal(a)}}
	solution, err := n.Solve()
	if err != nil {
		return working.Check{}, err
	}
	w, err := solved{Solution: solution}.crankedAt(l.At)
	if err != nil {
		return working.Check{}, err
	}
	m.turnsAt(&w, l.LeastV)
	return w.Check("B22", "", "U_lo", "U_L"), nil
}

// crankedAt lays the drops down to a starter out; where no voltage holds, nothing is
// left there.
func (c solved) crankedAt(node string) (working.Working, error) {
	if c.CollapsedAt == "" {
		ladder, err := c.Ladder(node)
		return working.Start(ladder.Working), err
	}
	var w working.Working
	w.Calc("U_L", "0", decimal.Zero, cite.Kirchhoff.At("", cite.Published))
	w.Note("no voltage holds: the starter asks more than the batteries can give")
	return w, nil
}

// turnsAt adds the least voltage at which a starter cranks: its own, or that to which
// SAE J537 lets a battery of 12 V sink while it cranks.
func (m *model) turnsAt(w *working.Working, own decimal.NullDecimal) decimal.Decimal {
	if own.Valid {
		return w.Given("U_lo", own.Decimal)
	}
	test, err := tables.CrankingTestOf("SAE CCA")
	end := w.LookUp("U_e", working.Figure{Value: tabled(test.EndV, err), Source: test.EndV.Source, Note: "of a battery of 12 V"})
	return w.Calc("U_lo", "U_e × U_n ÷ 12", end.Mul(w.Given("U_n", m.job.SystemV)).DivRound(decimal.NewFromInt(12), 9), test.EndV.Source)
}

// holdsUp asks of each alternator whether the battery that it ends at is still
// charged while it gives all that it gives hot: the voltage that it holds less what
// its lead loses, against that of the battery at rest, full. One whose voltage the
// vehicle varies is asked at that which charges.
func holdsUp(m *model) ([]Finding, error) {
	var all []Finding
	for i, a := range m.job.Alternators {
		f := Finding{Where: a.Name, Path: indexed("alternators", i), Corner: "at full output, hot"}
		var err error
		if f.Check, err = m.heldUp(a); err != nil {
			return nil, working.In(f.Path, err)
		}
		all = append(all, f)
	}
	if len(all) == 0 {
		return notHere("C14", "the alternators", "alternators", "the job has none"), nil
	}
	return all, nil
}

func (m *model) heldUp(a job.Alternator) (working.Check, error) {
	path := m.toBattery(a.Name, "")
	if len(path) == 0 {
		return working.Check{ID: "C14", Silent: "no run leads from it to a battery"}, nil
	}
	most, err := m.output(a, "road")
	if err != nil {
		return working.Check{}, err
	}
	w, err := m.dropAlong(carrying(path, most), path)
	if err != nil {
		return working.Check{}, err
	}
	held := lowest(a)
	if a.Variable {
		held = a.RunsAtV
	}
	u := w.Given("U_v", held)
	w.Given("E_b", m.restedAt(a.Name, path))
	w.Calc("U_lf", "U_v − ΔU_p", u.Sub(total(w)), cite.Kirchhoff.At("", cite.Published))
	c := w.Check("C14", "", "E_b", "U_lf")
	c.Below = true
	return c, nil
}

// carrying is a path on which every run carries the same.
func carrying(path []*run, a decimal.Decimal) (c solved) {
	for _, r := range path {
		c.Branches = append(c.Branches, wire.BranchCurrent{Name: r.Name, CurrentA: a})
	}
	return c
}

// restedAt is the voltage of the battery at the end of a path, full and at rest.
func (m *model) restedAt(node string, path []*run) decimal.Decimal {
	for _, r := range path {
		node = r.otherEnd(node)
	}
	i := slices.IndexFunc(m.job.Batteries, func(b job.Battery) bool { return b.Name == node })
	return m.job.Batteries[i].FullV
}
