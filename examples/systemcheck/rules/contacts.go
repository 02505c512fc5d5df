package rules

import (
	"fmt"
	"slices"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/protect"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var ofContacts = []Rule{
	{
		ID: "P26", Title: "The contact closes on a filled inverter",
		Danger:  "the contact welds: it can no longer be opened, in a fault either",
		Why:     "a discharged capacitor is a short circuit at the first moment; a resistor fills it first",
		Sources: []string{"law of the capacitor", "Kirchhoff's laws"},
		Grade:   Dangerous, Rank: 100,
		Changes: Cables, Slow: true,
		Worse: []Growth{
			{"inverters.input_uf", "×4"},
		},
		Judge:  closesGently,
		Advise: prefill,
	},
	{
		ID: "P15", Also: []string{"P16"}, Title: "The isolator carries everything at once",
		Danger:  "it overheats, melts or welds, and cannot be opened",
		Why:     "it carries all that is on behind it without end, and more while something starts",
		Sources: []string{"Ohm's law", "data sheet"},
		Grade:   Dangerous, Rank: 190,
		RestsOn: Currents,
		Changes: Cables,
		Advice:  "fit an isolator that is rated for that current without end",
		AdviceFor: map[string]string{
			"P16": "fit an isolator that bears that for as long as the start lasts, or start the load unloaded",
		},
		Worse: []Growth{
			{"circuits.switch.rating_a", "÷2"}, {"circuits.switch.short_time_a", "÷2"},
		},
		Judge: isolates,
	},
	{
		ID: "P14", Also: []string{"P16"}, Title: "The switch bears its kind of load",
		Danger:  "its contacts weld shut or burn away",
		Why:     "a cold lamp or a starting motor draws several times its current, a coil draws an arc; an a.c. rating does not serve",
		Sources: []string{"FAA AC 43.13-1B", "IEC 60947-4-1"},
		Grade:   Dangerous, Rank: 220,
		RestsOn: Currents,
		Changes: Cables,
		Advice:  "fit a switch of that rating, d.c., or let it work a relay of that rating; what its maker lets it close on goes into makes_a",
		AdviceFor: map[string]string{
			"P16": "fit an isolator that bears that for as long as the start lasts, or start the load unloaded",
		},
		Worse: []Growth{
			{"circuits.switch.rating_a", "÷2"},
		},
		Judge: switches,
	},
}

// contacts runs one question over the switches of a kind, in every run that has
// one.
func contacts(m *facts.Facts, isolator bool, in func(*facts.Run) string, ask func(r *facts.Run) ([]working.Check, error)) ([]Finding, error) {
	var all []Finding
	for _, r := range m.Runs {
		if r.Switch == nil || (r.Switch.Kind == "isolator") != isolator {
			continue
		}
		path := r.Path + ".switch"
		checks, err := ask(r)
		if err != nil {
			return nil, working.In(path, err)
		}
		for _, c := range checks {
			all = append(all, Finding{Check: c, Where: r.Name + ", its " + r.Switch.Kind, Circuit: r.Name, Path: path, Case: in(r)})
		}
	}
	return all, nil
}

func lastingIn(r *facts.Run) string { return r.Lasting().In }

func switchedIn(r *facts.Run) string { return r.Switched().In }

// isolates compares what passes each isolator at the worst, without end and
// while something starts, with its ratings.
func isolates(m *facts.Facts) ([]Finding, error) {
	all, err := contacts(m, true, lastingIn, func(r *facts.Run) ([]working.Check, error) { return isolator(m, r) })
	if len(all) == 0 && err == nil {
		all = notHere("P15", "the circuits", "circuits", "the job states no isolator")
	}
	return all, err
}

func isolator(m *facts.Facts, r *facts.Run) ([]working.Check, error) {
	i := protect.Isolator{CurrentA: decimal.NewNullDecimal(r.Lasting().A), RatingA: r.Switch.RatingA}
	full, err := i.Checks()
	if err != nil {
		return nil, err
	}
	hardest, lines := m.HardestStart(r) // unset: nothing starts
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

// switches compares the rating of each switch and relay that makes and breaks a
// load with what its kind of load asks, and a start that the job states with what
// it may close on.
func switches(m *facts.Facts) ([]Finding, error) {
	all, err := contacts(m, false, switchedIn, func(r *facts.Run) ([]working.Check, error) {
		c, err := m.Contact(r).Check()
		return []working.Check{c}, err
	})
	if err != nil {
		return nil, err
	}
	banks, err := contacts(m, false, lastingIn, func(r *facts.Run) ([]working.Check, error) { return bearsBanks(r), nil })
	if err != nil {
		return nil, err
	}
	all = append(all, banks...)
	starts, err := contacts(m, false, lastingIn, func(r *facts.Run) ([]working.Check, error) {
		s := m.Contact(r)
		if s.StartA, s.From = m.HardestStart(r); !s.StartA.Valid {
			return nil, nil
		}
		c, err := s.Start()
		return []working.Check{c}, err
	})
	for _, f := range starts {
		f.Where, f.Case = f.Where+", as it closes on a start", ""
		all = append(all, f)
	}
	if len(all) == 0 && err == nil {
		all = notHere("P14", "the circuits", "circuits", "the job states no switch but isolators")
	}
	if err != nil {
		return nil, err
	}
	carried, err := contacts(m, false, lastingIn, func(r *facts.Run) ([]working.Check, error) { return cranksThrough(m, r) })
	return append(all, carried...), err
}

// bearsBanks asks of a contact between banks what it carries while a full one feeds an
// empty one: for minutes, and without breaking it.
func bearsBanks(r *facts.Run) []working.Check {
	if !r.Lasting().A.GreaterThan(r.Switched().A) {
		return nil
	}
	var w working.Working
	w.Given("I_b", r.Lasting().A)
	w.Given("I_sw", r.Switch.RatingA)
	return []working.Check{w.Check("P14", "", "I_b", "I_sw")}
}

// cranksThrough asks of a relay in the way to a starter what it bears for as long
// as the engine is cranked: to make a current is a matter of milliseconds.
func cranksThrough(m *facts.Facts, r *facts.Run) ([]working.Check, error) {
	if !slices.ContainsFunc(m.Job.Loads, func(l job.Load) bool { return l.Cranking && m.OnTheWay(r, l.At) }) {
		return nil, nil
	}
	checks, err := isolator(m, r)
	if err != nil {
		return nil, err
	}
	return checks[1:], nil
}

// closesGently asks of each inverter what closes on its input: through a
// resistor, or on a discharged capacitor, which is a short circuit at the first
// moment. Where the capacitance is not known, a lithium bank and a switch in the
// inverter's own feed make it a question: the bank's resistance alone does not tame
// the current, and such a switch closes on the inverter each time.
func closesGently(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for i, inv := range m.Job.Inverters {
		f := Finding{Where: inv.Name, Node: inv.Name, Path: facts.Indexed("inverters", i)}
		sw := m.WeakestContact(inv.Name)
		switch {
		case sw == nil:
			f.Check = working.Check{ID: "P26", Silent: "no switch stands in its feed"}
		case !inv.InputUF.Valid && m.OnLithium(inv.Name) && m.HasOwnContact(inv.Name):
			f.Check = working.Check{ID: "P26", Missing: "ask the maker for the capacitance at its input, and state input_uf: a switch closes on it"}
		case !inv.InputUF.Valid:
			f.Check = working.Check{ID: "P26", Silent: "the capacitance of its input is not stated"}
		default:
			c, err := closing(m, inv, sw)
			if err != nil {
				return nil, working.In(f.Path, err)
			}
			f.Check = c
		}
		all = append(all, f)
	}
	return all, nil
}

func closing(m *facts.Facts, inv job.Inverter, sw *job.Switch) (working.Check, error) {
	symbol, limit := facts.Momentary(sw), facts.Bears(sw)
	if inv.PrechargeOhm.Valid {
		filled, err := m.Fills(inv)
		w := working.Start(filled.Working)
		w.Given(symbol, limit)
		return w.Check("P26", "", "I_pc", symbol), err
	}
	f, err := m.Fault(inv.Name)
	w := working.Start(f.Working)
	w.Note("a discharged capacitor is a short circuit at the first moment")
	w.Given(symbol, limit)
	return w.Check("P26", "", "I_k", symbol), err
}

// prefill says what resistor keeps the current within what the contact bears.
func prefill(m *facts.Facts, f Finding) string {
	inv, _ := m.Inverter(f.Node)
	r, err := m.Filling(inv, facts.Bears(m.WeakestContact(inv.Name)))
	if err != nil {
		return "fill the input through a resistor before the contact closes, and state precharge_ohm"
	}
	return fmt.Sprintf("fill the input through a resistor before the contact closes, %s ohm or more; it takes %s J at each charge. State it as precharge_ohm",
		r.Ohm, r.EnergyJ.Round(2))
}
