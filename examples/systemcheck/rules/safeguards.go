package rules

import (
	"slices"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var ofSafeguards = []Rule{
	{
		ID: "P33", Title: "The holder bears its device and its load",
		Danger:  "the holder melts and burns round a device that is whole",
		Why:     "a device only guards what is rated for it, and its holder is rated by itself",
		Sources: []string{"common practice"},
		Grade:   Dangerous, Rank: 170,
		Changes: Cables | Devices,
		Advice:  "fit a holder or block rated for the device and the load, at the temperature round it",
		Worse: []Growth{
			{"circuits.device.holder_a", "÷1.3"},
		},
		Judge: holdersBear,
	},
	{
		ID: "W10", Title: "Each cable is guarded where it passes an edge",
		Danger:  "it chafes through, and what touches the metal burns",
		Why:     "vehicles and craft shake for years, and sheet metal cuts",
		Sources: []string{"BS 7671:2008", "common practice"},
		Grade:   Dangerous, Rank: 180,
		Advice: "fit a grommet or gland in the hole, or a sheath over the edge, and clip the cable on both sides of it",
		Judge:  edgesGuarded,
	},
	{
		ID: "P32", Title: "The isolator is within reach",
		Danger:  "nobody gets at it in time when something burns",
		Why:     "who smells smoke has seconds, and no tool in hand",
		Sources: []string{"common practice"},
		Grade:   Dangerous, Rank: 210,
		Advice: "move it, or clear the way to it, so that a hand reaches it without a tool; mark where it is",
		Judge:  isolatorsReached,
	},
	{
		ID: "B23", Title: "The battery's sensor counts every current",
		Danger:  "the vehicle takes its battery for fuller than it is: it charges too little, or stops the engine and cannot start it",
		Why:     "a sensor on the negative post counts only what returns through it",
		Sources: []string{"common practice"},
		Grade:   WillNotServe, Rank: 640,
		Advice: "move that return from the post to the chassis or the stud beyond the sensor",
		Worse: []Growth{
			{"circuits.return_at", "gone"},
		},
		Judge: returnsPastSensor,
	},
}

// guarded judges one safeguard that is there, is not, or of which nobody says.
func guarded(m *facts.Facts, f Finding, id, missing string, there bool, of func(tables.SafeguardRule) working.Figure) Finding {
	rule, set := m.Due(of)
	f.RuleSet, f.Source = set, rule.Source
	if missing != "" {
		f.Check = working.Check{ID: id, Missing: missing}
		return f
	}
	var w working.Working
	w.LookUp("n_sd", rule)
	w.Given("n_sf", facts.Counted(there))
	f.Check = w.Check(id, "", "n_sd", "n_sf")
	return f
}

// edgesGuarded asks of each run that passes an edge what guards it there: a cable
// that chafes through is live on the metal before any device opens.
func edgesGuarded(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, r := range m.Runs {
		guard := r.EdgeGuard
		if guard == "" && r.Sheathed {
			guard = "sheath"
		}
		missing := ""
		switch {
		case !r.PassesEdge && r.EdgeGuard == "":
			continue
		case guard == "":
			missing = "look what guards the cable where it passes an edge or a bulkhead, and state edge_guard"
		}
		all = append(all, guarded(m, Finding{Where: r.Name, Path: r.Path}, "W10", missing, guard != "none",
			func(g tables.SafeguardRule) working.Figure { return g.Edge }))
	}
	if len(all) == 0 {
		return notHere("W10", "the circuits", "circuits", "none is said to pass an edge"), nil
	}
	return all, nil
}

// isolatorsReached asks of each isolator of which the job tells it whether a hand
// gets at it.
func isolatorsReached(m *facts.Facts) ([]Finding, error) {
	all, err := contacts(m, true, lastingIn, func(r *facts.Run) ([]working.Check, error) {
		if r.Switch.Reached == "" {
			return nil, nil
		}
		return []working.Check{{ID: "P32"}}, nil
	})
	reach := func(g tables.SafeguardRule) working.Figure { return g.Reach }
	for i, f := range all {
		at := slices.IndexFunc(m.Runs, func(r *facts.Run) bool { return r.Path+".switch" == f.Path })
		all[i] = guarded(m, Finding{Where: f.Where, Path: f.Path}, "P32", "", m.Runs[at].Switch.Reached == "by hand", reach)
	}
	if len(all) == 0 && err == nil {
		all = notHere("P32", "the isolators", "circuits", "of none the job says how it is reached")
	}
	return all, err
}

// holdersBear asks of each device whose holder is stated whether that bears both the
// rating of the device and what the circuit carries: contacts too weak for either
// burn round a device that is whole.
func holdersBear(m *facts.Facts) ([]Finding, error) {
	all, err := fitted(m, func(e facts.End) (working.Check, error) {
		if !e.Fitted.HolderA.Valid {
			return working.Check{ID: "P33", Silent: facts.Unstated}, nil
		}
		var w working.Working
		rating, design := w.Given("I_n", e.Fitted.RatingA), w.Given("I_b", e.Lasting().A)
		w.Calc("I_hd", "max(I_n, I_b)", decimal.Max(rating, design), facts.Sums)
		w.Given("I_hr", e.Fitted.HolderA.Decimal)
		return w.Check("P33", "", "I_hd", "I_hr"), nil
	})
	all = slices.DeleteFunc(all, func(f Finding) bool { return f.Silent == facts.Unstated })
	for i := range all {
		all[i].RuleSet = "" // the article's own limit
	}
	if len(all) == 0 && err == nil {
		all = notHere("P33", "the devices", "circuits", "of none the job states the holder")
	}
	return all, err
}

// returnsPastSensor asks of each run that ends at a battery with a current sensor on
// its negative post where its return is joined: what goes to the post itself the
// sensor never counts.
func returnsPastSensor(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, b := range m.Job.Batteries {
		for _, r := range m.Runs {
			if !b.PostSensor || r.OtherEnd(b.Name) == "" {
				continue
			}
			missing := ""
			if r.ReturnAt == "" {
				missing = "look where its return is joined to " + b.Name + ", on the post or past the sensor, and state return_at"
			}
			all = append(all, guarded(m, Finding{Where: r.Name + ", at " + b.Name, Path: r.Path}, "B23", missing, r.ReturnAt == "past the sensor",
				func(g tables.SafeguardRule) working.Figure { return g.Sensor }))
		}
	}
	if len(all) == 0 {
		return notHere("B23", "the batteries", "batteries", "none has a sensor on its post"), nil
	}
	return all, nil
}
