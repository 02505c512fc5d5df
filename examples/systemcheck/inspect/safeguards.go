package inspect

import (
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// due is what the set asks where an inspector looks for a safeguard, and where it says
// nothing what the trade itself does; then no set is named.
func (m *model) due(of func(tables.SafeguardRule) working.Figure) (working.Figure, string) {
	if own := of(m.set.Guards); own.Stated() {
		return own, m.set.Name
	}
	return of(tables.SafeguardPractice()), ""
}

// guarded judges one safeguard that is there, is not, or of which nobody says.
func (m *model) guarded(f Finding, id, missing string, there bool, of func(tables.SafeguardRule) working.Figure) Finding {
	rule, set := m.due(of)
	f.RuleSet, f.Source = set, rule.Source
	if missing != "" {
		f.Check = working.Check{ID: id, Missing: missing}
		return f
	}
	var w working.Working
	w.LookUp("n_sd", rule)
	w.Given("n_sf", counted(there))
	f.Check = w.Check(id, "", "n_sd", "n_sf")
	return f
}

func counted(there bool) decimal.Decimal {
	if there {
		return one
	}
	return decimal.Zero
}

// edgesGuarded asks of each run that passes an edge what guards it there: a cable
// that chafes through is live on the metal before any device opens.
func edgesGuarded(m *model) ([]Finding, error) {
	var all []Finding
	for _, r := range m.runs {
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
		all = append(all, m.guarded(Finding{Where: r.Name, Path: r.path}, "W10", missing, guard != "none",
			func(g tables.SafeguardRule) working.Figure { return g.Edge }))
	}
	if len(all) == 0 {
		return notHere("W10", "the circuits", "circuits", "none is said to pass an edge"), nil
	}
	return all, nil
}

// isolatorsReached asks of each isolator of which the job tells it whether a hand
// gets at it.
func isolatorsReached(m *model) ([]Finding, error) {
	all, err := m.contacts(true, func(r *run) ([]working.Check, error) {
		if r.Switch.Reached == "" {
			return nil, nil
		}
		return []working.Check{{ID: "P32"}}, nil
	})
	reach := func(g tables.SafeguardRule) working.Figure { return g.Reach }
	for i, f := range all {
		at := slices.IndexFunc(m.runs, func(r *run) bool { return r.path+".switch" == f.Path })
		all[i] = m.guarded(Finding{Where: f.Where, Path: f.Path}, "P32", "", m.runs[at].Switch.Reached == "by hand", reach)
	}
	if len(all) == 0 && err == nil {
		all = notHere("P32", "the isolators", "circuits", "of none the job says how it is reached")
	}
	return all, err
}

// holdersBear asks of each device whose holder is stated whether that bears both the
// rating of the device and what the circuit carries: contacts too weak for either
// burn round a device that is whole.
func holdersBear(m *model) ([]Finding, error) {
	all, err := m.fitted(func(e end) (working.Check, error) {
		if !e.device.HolderA.Valid {
			return working.Check{ID: "P33", Silent: unstated}, nil
		}
		var w working.Working
		rating, design := w.Given("I_n", e.device.RatingA), w.Given("I_b", e.designA)
		w.Calc("I_hd", "max(I_n, I_b)", decimal.Max(rating, design), sums)
		w.Given("I_hr", e.device.HolderA.Decimal)
		return w.Check("P33", "", "I_hd", "I_hr"), nil
	})
	all = slices.DeleteFunc(all, func(f Finding) bool { return f.Silent == unstated })
	for i := range all {
		all[i].RuleSet = "" // the article's own limit
	}
	if len(all) == 0 && err == nil {
		all = notHere("P33", "the devices", "circuits", "of none the job states the holder")
	}
	return all, err
}

const unstated = "unstated"

// returnsPastSensor asks of each run that ends at a battery with a current sensor on
// its negative post where its return is joined: what goes to the post itself the
// sensor never counts.
func returnsPastSensor(m *model) ([]Finding, error) {
	var all []Finding
	for _, b := range m.job.Batteries {
		for _, r := range m.runs {
			if !b.PostSensor || r.otherEnd(b.Name) == "" {
				continue
			}
			missing := ""
			if r.ReturnAt == "" {
				missing = "look where its return is joined to " + b.Name + ", on the post or past the sensor, and state return_at"
			}
			all = append(all, m.guarded(Finding{Where: r.Name + ", at " + b.Name, Path: r.path}, "B23", missing, r.ReturnAt == "past the sensor",
				func(g tables.SafeguardRule) working.Figure { return g.Sensor }))
		}
	}
	if len(all) == 0 {
		return notHere("B23", "the batteries", "batteries", "none has a sensor on its post"), nil
	}
	return all, nil
}
