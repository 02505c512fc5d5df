package rules

import (
	"strings"

	"example.org/extralow/charge"
	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
)

var ofSetting = []Rule{
	{
		ID: "C11", Title: "The charger's voltage suits the battery",
		Danger:  "too high, it overcharges: lithium cells swell and vent, lead-acid dries out; too low, the bank is never full",
		Why:     "each chemistry has a voltage of its own, and a charger keeps the setting of the battery before",
		Sources: []string{"common practice"},
		Grade:   Dangerous, Forbids: Charge, Rank: 130,
		Advice: "set the charger for the battery's chemistry, without equalising or following the temperature where it asks for neither, or fit one that has such a setting; what the battery's data sheet allows goes into charge_least_v and charge_most_v",
		Worse: []Growth{
			{"chargers.output_v", "×1.04"}, {"chargers.output_v", "÷1.04"}, {"solar.output_v", "×1.04"},
		},
		Judge: voltageSuits,
	},
	{
		ID: "C12", Title: "The management unit stays closed while charging",
		Danger:  "it opens under charge: the voltage of everything on the bus leaps, with an alternator as in a load dump",
		Why:     "the charger's own limit must act first; the management unit is for when that fails",
		Sources: []string{"data sheet"},
		Grade:   Dangerous, Forbids: Charge, Rank: 300,
		Advice: "set the chargers lower, or to less current, or ask the maker of the battery for its charging voltage and for a unit that opens above it",
		Worse: []Growth{
			{"chargers.output_v", "×1.04"}, {"solar.output_v", "×1.04"},
		},
		Judge: staysClosed,
	},
}

// voltageSuits compares what each holder holds with what the batteries of its bank
// may be charged with: of several batteries the one that it suits least decides.
func voltageSuits(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, k := range m.Banks {
		found, err := voltageSuitsOn(m, k)
		if err != nil {
			return nil, err
		}
		all = append(all, found...)
	}
	return all, nil
}

func voltageSuitsOn(m *facts.Facts, k facts.Bank) ([]Finding, error) {
	var all []Finding
	for _, h := range m.Holders(k) {
		var bySide [3][]working.Check // highest, lowest, equalising
		for _, b := range k.Batteries {
			checks, err := m.VoltageWindow(b).Checks(h.Setting)
			if err != nil {
				return nil, working.In(h.Path, err)
			}
			for side, c := range checks {
				bySide[side] = append(bySide[side], c)
			}
		}
		for _, checks := range bySide {
			if worst, ok := working.Strictest(checks...); ok {
				c := checks[worst]
				all = append(all, Finding{Check: c, Where: h.Name + ", " + strings.ToLower(c.Title), Path: h.Path})
			}
		}
	}
	if len(all) == 0 {
		all = append(all, Finding{Where: k.Name, Path: "chargers", Check: working.Check{ID: "C11", Silent: "nothing charges it"}})
	}
	return all, nil
}

// staysClosed compares the highest voltage that anything holds on a bank with the
// one at which each battery's management unit opens, and all charging currents
// together with those at which they open.
func staysClosed(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for i, b := range m.Job.Batteries {
		f := Finding{Where: b.Name, Path: facts.Indexed("batteries", i), Check: working.Check{ID: "C12", Silent: "nothing charges it"}}
		for _, h := range m.Holders(m.BankWith(b.Name)) {
			c, err := m.VoltageWindow(b).CheckClosed(h.Setting)
			if err != nil {
				return nil, working.In(f.Path, err)
			}
			if f.Working == nil || c.Margin().LessThan(f.Margin()) {
				f.Check, f.Case = c, "charged by "+h.Name
			}
		}
		if f.Verdict() == working.NotApplicable {
			f.Case = ""
		}
		if !b.Chemistry.Has(tables.ManagementUnit) && !b.ChargeCutOutV.Valid {
			f.Silent = "no management unit is stated, and lead-acid needs none"
		}
		all = append(all, f)
	}
	for _, k := range m.Banks {
		byCurrent, err := closedByCurrent(m, k)
		if err != nil {
			return nil, err
		}
		all = append(all, byCurrent...)
	}
	return all, nil
}

// closedByCurrent judges the currents where every battery states its own.
func closedByCurrent(m *facts.Facts, k facts.Bank) ([]Finding, error) {
	t, state, err := m.Together(k)
	if err != nil || len(t.Supplies) == 0 {
		return nil, err
	}
	for _, b := range k.Batteries {
		if !b.ChargeCutOutA.Valid {
			return nil, nil
		}
		t.LimitsA = append(t.LimitsA, charge.NamedLimit{Name: b.Name, CurrentA: b.ChargeCutOutA.Decimal})
	}
	checks, err := t.CheckClosed()
	var all []Finding
	for i, c := range checks {
		f := Finding{Check: c, Where: k.Name + ", by current", Path: "chargers", Case: state}
		if i > 0 {
			f.Where += ", without " + t.LimitsA[i-1].Name
		}
		all = append(all, f)
	}
	return all, err
}
