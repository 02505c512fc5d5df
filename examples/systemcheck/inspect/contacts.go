package inspect

import (
	"slices"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/protect"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// contacts runs one question over the switches of a kind, in every run that has
// one.
func (m *model) contacts(isolator bool, ask func(r *run) ([]working.Check, error)) ([]Finding, error) {
	var all []Finding
	for _, r := range m.runs {
		if r.Switch == nil || (r.Switch.Kind == "isolator") != isolator {
			continue
		}
		path := r.path + ".switch"
		checks, err := ask(r)
		if err != nil {
			return nil, working.In(path, err)
		}
		for _, c := range checks {
			all = append(all, Finding{Check: c, Where: r.Name + ", its " + r.Switch.Kind, Path: path, Corner: r.worst})
		}
	}
	return all, nil
}

// isolates compares what passes each isolator at the worst, without end and
// while something starts, with its ratings.
func isolates(m *model) ([]Finding, error) {
	all, err := m.contacts(true, m.isolator)
	if len(all) == 0 && err == nil {
		all = notHere("P15", "the circuits", "circuits", "the job states no isolator")
	}
	return all, err
}

func (m *model) isolator(r *run) ([]working.Check, error) {
	i := protect.Isolator{CurrentA: decimal.NewNullDecimal(r.designA), RatingA: r.Switch.RatingA}
	full, err := i.Checks()
	if err != nil {
		return nil, err
	}
	hardest, lines := m.hardestStart(r) // unset: nothing starts
	i.StartA, i.From = decimal.NewNullDecimal(hardest.Decimal), lines
	if i.ShortTimeA = r.Switch.ShortTimeA; !i.ShortTimeA.Valid && i.StartA.Decimal.LessThanOrEqual(i.RatingA) {
		i.ShortTimeA = decimal.NewNullDecimal(i.RatingA) // what it bears without end it bears for a while
	}
	start, err := i.Checks()
	if err != nil {
		return nil, err
	}
	return []working.Check{full[0], start[1]}, nil
}

// hardestStart is the most that a run carries while something starts: what the
// job states of its switch, or a load that the run feeds on top of all others.
// It is unset where nothing does.
func (m *model) hardestStart(r *run) (decimal.NullDecimal, working.Working) {
	hardest, lines := r.Switch.StartA, working.Working(nil)
	for _, l := range m.job.Loads {
		if !startsHard(l) || !m.onTheWay(r, l.Node()) {
			continue
		}
		w, ok := m.starting(r, l)
		if a, _ := w.Value("I_sg"); ok && a.GreaterThan(hardest.Decimal) {
			hardest, lines = decimal.NewNullDecimal(a), w
		}
	}
	if lines != nil {
		lines.Calc("I_st", "I_sg", hardest.Decimal, sums)
	}
	return hardest, lines
}

// onTheWay reports whether a run lies between a node and a source.
func (m *model) onTheWay(r *run, node string) bool {
	return m.between(r, node, m.sourceNodes())
}

// switches compares the rating of each switch and relay that makes and breaks a
// load with what its kind of load asks, and a start that the job states with what
// it may close on.
func switches(m *model) ([]Finding, error) {
	all, err := m.contacts(false, func(r *run) ([]working.Check, error) {
		c, err := m.contact(r).Check()
		return []working.Check{c}, err
	})
	if err != nil {
		return nil, err
	}
	starts, err := m.contacts(false, func(r *run) ([]working.Check, error) {
		s := m.contact(r)
		if s.StartA, s.From = m.hardestStart(r); !s.StartA.Valid {
			return nil, nil
		}
		c, err := s.Start()
		return []working.Check{c}, err
	})
	for _, f := range starts {
		f.Where, f.Corner = f.Where+", as it closes on a start", ""
		all = append(all, f)
	}
	if len(all) == 0 && err == nil {
		all = notHere("P14", "the circuits", "circuits", "the job states no switch but isolators")
	}
	if err != nil {
		return nil, err
	}
	carried, err := m.contacts(false, m.cranksThrough)
	return append(all, carried...), err
}

// cranksThrough asks of a relay in the way to a starter what it bears for as long
// as the engine is cranked: to make a current is a matter of milliseconds.
func (m *model) cranksThrough(r *run) ([]working.Check, error) {
	if !slices.ContainsFunc(m.job.Loads, func(l job.Load) bool { return l.Cranking && m.onTheWay(r, l.At) }) {
		return nil, nil
	}
	checks, err := m.isolator(r)
	if err != nil {
		return nil, err
	}
	return checks[1:], nil
}

// contact is a switch or relay with what it carries at the worst. One that is
// said to switch a resistive load and feeds what starts hard switches a motor.
func (m *model) contact(r *run) protect.Switch {
	s := protect.Switch{SystemV: m.job.SystemV, CurrentA: decimal.Max(r.designA, least), Load: r.Switch.Load, RatingA: r.Switch.RatingA, MakesA: r.Switch.MakesA}
	for _, l := range m.job.Loads {
		if s.Load == "resistive" && l.At != "" && startsHard(l) && m.onTheWay(r, l.At) && (l.Cranking || l.SurgeW.Decimal.GreaterThan(m.watts(l))) {
			s.Load = "motor"
			s.From.Given("P_su", l.SurgeW.Decimal)
			s.From.Note("what " + l.Name + " takes to start is no resistive load: judged as a motor")
		}
	}
	return s
}

// closesGently asks of each inverter what closes on its input: through a
// resistor, or on a discharged capacitor, which is a short circuit at the first
// moment. Where the capacitance is not known, a lithium bank and a switch in the
// inverter's own feed make it a question: the bank's resistance alone does not tame
// the current, and such a switch closes on the inverter each time.
func closesGently(m *model) ([]Finding, error) {
	var all []Finding
	for i, inv := range m.job.Inverters {
		f := Finding{Where: inv.Name, Path: indexed("inverters", i)}
		sw := m.weakestContact(inv.Name)
		switch {
		case sw == nil:
			f.Check = working.Check{ID: "P26", Silent: "no switch stands in its feed"}
		case !inv.InputUF.Valid && m.onLithium(inv.Name) && m.hasOwnContact(inv.Name):
			f.Check = working.Check{ID: "P26", Missing: "ask the maker for the capacitance at its input, and state input_uf: a switch closes on it"}
		case !inv.InputUF.Valid:
			f.Check = working.Check{ID: "P26", Silent: "the capacitance of its input is not stated"}
		default:
			c, err := m.closing(inv, sw)
			if err != nil {
				return nil, working.In(f.Path, err)
			}
			f.Check = c
		}
		all = append(all, f)
	}
	return all, nil
}

// hasOwnContact reports whether a switch stands in the run that ends at a node.
func (m *model) hasOwnContact(node string) bool {
	return slices.ContainsFunc(m.runs, func(r *run) bool { return r.Switch != nil && r.otherEnd(node) != "" })
}

// onLithium reports whether cables join a node to a lithium battery.
func (m *model) onLithium(node string) bool {
	return slices.ContainsFunc(m.job.Batteries, func(b job.Battery) bool {
		return b.Chemistry.Is(tables.LiIon) && m.joined(b.Name, node)
	})
}

func (m *model) closing(inv job.Inverter, sw *job.Switch) (working.Check, error) {
	symbol, limit := momentary(sw), bears(sw)
	if inv.PrechargeOhm.Valid {
		filled, err := m.fills(inv)
		w := working.Start(filled.Working)
		w.Given(symbol, limit)
		return w.Check("P26", "", "I_pc", symbol), err
	}
	f, err := m.fault(inv.Name)
	w := working.Start(f.Working)
	w.Note("a discharged capacitor is a short circuit at the first moment")
	w.Given(symbol, limit)
	return w.Check("P26", "", "I_k", symbol), err
}

// fills is the filling of an inverter's input: through its resistor, taken down
// to 0.01 Ω, or with what the installation gives into a short circuit.
func (m *model) fills(inv job.Inverter) (protect.Resistor, error) {
	if !inv.PrechargeOhm.Valid {
		f, err := m.fault(inv.Name)
		if err != nil {
			return protect.Resistor{}, err
		}
		filled, err := m.filling(inv, one)
		filled.PeakA = f.CurrentA
		return filled, err
	}
	const places = 9
	ohm := inv.PrechargeOhm.Decimal.RoundFloor(2)
	return m.filling(inv, m.highestV(inv.Name).DivRound(ohm, places).Add(decimal.New(1, -places)))
}

// one ampere is as good as any where only the energy is wanted, which does not
// depend on the current.
var one = decimal.NewFromInt(1)

// filling is the filling of an inverter's input with a greatest current.
func (m *model) filling(inv job.Inverter, limitA decimal.Decimal) (protect.Resistor, error) {
	return protect.Precharge{
		HighestV: m.highestV(inv.Name), CapacitanceUF: inv.InputUF.Decimal, LimitA: limitA,
	}.Resistor()
}

// weakestContact is the switch on the way from the batteries to a node that
// bears least, or nil.
func (m *model) weakestContact(node string) *job.Switch {
	var weakest *job.Switch
	for _, r := range m.runs {
		if r.Switch == nil || !m.onTheWay(r, node) {
			continue
		}
		if weakest == nil || bears(r.Switch).LessThan(bears(weakest)) {
			weakest = r.Switch
		}
	}
	return weakest
}

// momentary is the symbol of what a contact bears for a moment.
func momentary(s *job.Switch) string {
	if s.ShortTimeA.Valid {
		return "I_cw"
	}
	return "I_sw"
}

// bears is what a contact bears for a moment, as far as the job states it.
func bears(s *job.Switch) decimal.Decimal {
	if s.ShortTimeA.Valid {
		return s.ShortTimeA.Decimal
	}
	return s.RatingA
}
