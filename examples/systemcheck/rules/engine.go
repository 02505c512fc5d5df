package rules

import (
	"fmt"
	"slices"
	"sync"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var ofEngine = []Rule{
	{
		ID: "B22", Title: "The engine can be cranked",
		Danger:  "the engine does not start",
		Why:     "a cold, aged battery and everything in the starter's way take their share of the volts",
		Sources: []string{"SAE J537"},
		Grade:   WillNotServe, Rank: 530,
		RestsOn: Resistance,
		Changes: Cables,
		Advice:  "thicken or shorten the starter's cable, clean and tighten its joints, or fit a battery of more cranking amperes",
		Worse: []Growth{
			{"circuits.contacts_milliohm", "×3"}, {"circuits.chassis_milliohm", "×4"},
			{"batteries.high_milliohm", "×3"},
		},
		Judge: cranksOver,
	},
	{
		ID: "C14", Title: "The alternator holds its battery up",
		Danger:  "the battery that starts the engine is emptied while the engine runs",
		Why:     "what the alternator's lead loses is missing at the battery, and below its voltage at rest it gives in place of taking",
		Sources: []string{"Kirchhoff's laws"},
		Grade:   WillNotServe, Rank: 540,
		Changes: Cables,
		Advice:  "thicken or shorten the alternator's lead, clean and tighten its joints and those of its return, or have its regulator seen to",
		Worse: []Growth{
			{"circuits.contacts_milliohm", "×3"}, {"circuits.chassis_milliohm", "×4"},
			{"alternators.runs_at_v", "÷1.04"},
		},
		Judge: holdsUp,
	},
}

// cranksOver compares the voltage at each starter while it cranks with the least at
// which it turns the engine, on each battery that it can be switched to, nearly
// empty, aged and cold.
func cranksOver(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for i, l := range m.Job.Loads {
		if !l.Cranking {
			continue
		}
		path := facts.Indexed("loads", i)
		found, err := crankedOn(m, l)
		if err != nil {
			return nil, working.In(path, err)
		}
		for _, f := range found {
			f.Path = path
			all = append(all, f)
		}
	}
	if len(all) == 0 {
		all = couldCrank(m)
	}
	if len(all) == 0 {
		return notHere("B22", "the batteries", "batteries", "none starts an engine"), nil
	}
	return all, nil
}

// couldCrank asks of each battery that starts an engine, where no load says with how
// much, whether any engine of its size is cranked with what it gives at its posts
// before it sinks to the least cranking voltage.
func couldCrank(m *facts.Facts) []Finding {
	var all []Finding
	perAh, err := tables.SizingFigure("cranking_per_ah")
	perAh.Value = facts.Tabled(perAh, err)
	for i, b := range m.Job.Batteries {
		if b.Bank != "starter" {
			continue
		}
		var w working.Working
		least := m.TurnsAt(&w, decimal.NullDecimal{})
		e, r := w.Given("E_e", b.EmptyV), w.Given("R_hi", m.High(b))
		w.CalcDown("I_ce", "(E_e − U_lo) × 1000 ÷ R_hi", e.Sub(least).Shift(3), r, 1, cite.OhmsLaw.At("", cite.Published))
		k, c := w.LookUp("k_ce", perAh), w.Given("C", b.CapacityAh)
		w.Calc("I_cel", "k_ce × C", k.Mul(c), perAh.Source)
		check := w.Check("B22", "", "I_cel", "I_ce")
		if smallest := leastStarterAh(); check.Verdict() == working.Passes && c.LessThan(smallest) {
			check = working.Check{ID: "B22", Missing: fmt.Sprintf("measure with a clamp meter what the starter draws while it cranks and state it as a load with cranking: true: a battery of less than %s Ah cranks few engines", smallest)}
		}
		all = append(all, Finding{
			Check: check, Where: b.Name, Path: facts.Indexed("batteries", i), Case: "nearly empty, aged and cold; no load says what cranks the engine",
		})
	}
	return all
}

// leastStarterAh is the capacity below which a battery is not believed to crank an
// engine unless the file says which.
var leastStarterAh = sync.OnceValue(func() decimal.Decimal {
	f, err := tables.SizingFigure("least_starter_ah")
	return facts.Tabled(f, err)
})

// crankedOn asks so on the batteries of the starter's own bank, those together that
// no switch parts.
func crankedOn(m *facts.Facts, l job.Load) ([]Finding, error) {
	var all []Finding
	own, asked := m.OwnBank(l.At), map[string]bool{}
	for _, b := range m.Job.Batteries {
		if asked[b.Name] || !slices.Contains(own, b.Name) || !m.Joined(b.Name, l.At) {
			continue
		}
		together := m.Side(b.Name, func(r *facts.Run, _ string) bool { return r.Switch == nil })
		for name := range together {
			asked[name] = true
		}
		f := Finding{Where: l.Name + ", on " + b.Name, Case: "nearly empty, aged and cold"}
		var err error
		if f.Check, err = turnsOver(m, l, together); err != nil {
			return nil, err
		}
		all = append(all, f)
	}
	if len(all) == 0 {
		all = []Finding{{Where: l.Name, Check: working.Check{ID: "B22", Silent: "no battery feeds it"}}}
	}
	return all, nil
}

// turnsOver asks whether some batteries alone turn a starter.
func turnsOver(m *facts.Facts, l job.Load, on map[string]bool) (working.Check, error) {
	w, err := m.CrankedOn(l, on)
	if err != nil {
		return working.Check{}, err
	}
	m.TurnsAt(&w, l.LeastV)
	return w.Check("B22", "", "U_lo", "U_L"), nil
}

// holdsUp asks of each alternator whether the battery that it ends at is still
// charged while it gives all that it gives hot: the voltage that it holds less what
// its lead loses, against that of the battery at rest, full. One whose voltage the
// vehicle varies is asked at that which charges.
func holdsUp(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for i, a := range m.Job.Alternators {
		f := Finding{Where: a.Name, Path: facts.Indexed("alternators", i), Case: "at full output, hot"}
		var err error
		if f.Check, err = heldUp(m, a); err != nil {
			return nil, working.In(f.Path, err)
		}
		all = append(all, f)
	}
	if len(all) == 0 {
		return notHere("C14", "the alternators", "alternators", "the job has none"), nil
	}
	return all, nil
}

func heldUp(m *facts.Facts, a job.Alternator) (working.Check, error) {
	path := m.ToBattery(a.Name, "")
	if len(path) == 0 {
		return working.Check{ID: "C14", Silent: "no run leads from it to a battery"}, nil
	}
	most, err := m.Output(a, "road")
	if err != nil {
		return working.Check{}, err
	}
	lost, err := facts.DropAlong(path, facts.Carrying(path, most))
	if err != nil {
		return working.Check{}, err
	}
	w := lost.Working
	held := facts.Lowest(a)
	if a.Variable {
		held = a.RunsAtV
	}
	u := w.Given("U_v", held)
	w.Given("E_b", m.RestedAt(a.Name, path))
	w.Calc("U_lf", "U_v − ΔU_p", u.Sub(lost.DropV), cite.Kirchhoff.At("", cite.Published))
	c := w.Check("C14", "", "E_b", "U_lf")
	c.Below = true
	return c, nil
}
