package rules

import (
	"errors"
	"fmt"

	"slices"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"example.org/extralow/wire/installation"
	"github.com/shopspring/decimal"
)

var ofWiring = []Rule{
	{
		ID: "W01", Title: "The cable carries its current",
		Danger:  "the insulation softens and the cable fails, with or without a device",
		Why:     "the ampacity holds for the ambient, the grouping and the terminals",
		Sources: []string{"IEC 60364-4-43"},
		Grade:   Dangerous, Rank: 150,
		RestsOn: Currents | Resistance,
		Changes: Cables,
		OfSet:   true,
		Tries:   []Try{ThickerRun, LaidApart},
		Worse: []Growth{
			{"circuits.size", "thinner"}, {"circuits.ambient_c", "+15"}, {"circuits.grouped", "×3"},
			{"circuits.terminal_c", "-15"}, {"circuits.insulation_c", "-10"}, {"chargers.max_a", "×1.6"},
			{"inverters.efficiency_percent", "÷1.15"}, {"loads.power_w", "×1.6"}, {"loads.current_a", "×1.6"},
		},
		Judge: carries,
	},
	{
		ID: "W03", Title: "The conductor is not too small for the rule",
		Danger:  "thin conductors break under vibration",
		Why:     "codes set a least size for strength",
		Sources: []string{"33 CFR 183"},
		Grade:   WillNotServe, Rank: 250,
		Changes: Cables,
		OfSet:   true,
		Tries:   []Try{ThickerRun},
		Worse: []Growth{
			{"circuits.size", "thinner"},
		},
		Judge: bigEnough,
	},
	{
		ID: "W02", Title: "The voltage drop is within the limit",
		Danger:  "lamps dim, motors heat, electronics reset",
		Why:     "the whole path counts, with everything on that runs together",
		Sources: []string{"Ohm's law", "Kirchhoff's laws"},
		Grade:   WillNotServe, Rank: 510,
		RestsOn: Currents | Resistance,
		Changes: Cables,
		OfSet:   true,
		Tries:   []Try{ThickerPath},
		Worse: []Growth{
			{"circuits.length_m", "×3.5"}, {"circuits.size", "thinner"}, {"circuits.contacts_milliohm", "×3"},
			{"circuits.chassis_milliohm", "×4"}, {"loads.power_w", "×1.6"}, {"loads.current_a", "×1.6"},
		},
		Judge: dropInside,
	},
	{
		ID: "W04", Title: "Every load gets its lowest voltage",
		Danger:  "the load does not start or drops out",
		Why:     "the bank is nearly empty and aged, and the path is warm",
		Sources: []string{"Kirchhoff's laws", "Ohm's law"},
		Grade:   WillNotServe, Rank: 520,
		RestsOn: Currents | Resistance,
		Changes: Cables,
		Tries:   []Try{ThickerPath},
		Worse: []Growth{
			{"circuits.length_m", "×3.5"}, {"circuits.size", "thinner"}, {"circuits.contacts_milliohm", "×3"},
			{"circuits.chassis_milliohm", "×4"}, {"batteries.high_milliohm", "×3"}, {"batteries.empty_v", "÷1.05"},
			{"inverters.cut_out_v", "×1.06"}, {"loads.power_w", "×1.6"}, {"loads.current_a", "×1.6"},
			{"loads.least_v", "×1.06"},
		},
		Judge: voltsLeft,
		Sags:  true,
	},
}

// carries compares each run's greatest steady current with its ampacity.
func carries(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, r := range m.Runs {
		f := Finding{Where: r.Name, Circuit: r.Name, Path: r.Path, RuleSet: m.Set.Name, Case: r.Lasting().In}
		switch {
		case r.NoAmps == nil:
			w := working.Start(r.Ampacity.Working)
			w.Given("I", r.Lasting().A) // nought where no case puts any on it
			f.Check, f.Source = w.Check("W01", "", "I", "I_z"), w[0].Source
		case errors.Is(r.NoAmps, tables.ErrOutside):
			f.Check = beyondTable(r)
		default:
			f.Check = working.Check{ID: "W01", Missing: noAmpacityText + " (" + r.NoAmps.Error() + ")"}
		}
		all = append(all, f)
		if r.Bundle.Set != "" {
			all = append(all, carriesBundled(r))
		}
	}
	cranked, err := crankedHeat(m)
	return append(all, cranked...), err
}

// beyondTable is a run in air so hot that the table ends: it carries nothing.
func beyondTable(r *facts.Run) working.Check {
	var w working.Working
	w.Given("I_b", r.Lasting().A)
	w.Calc("I_z", "0", decimal.Zero, cite.Arithmetic.At("", cite.Published))
	w.Note(r.NoAmps.Error())
	return w.Check("W01", "", "I_b", "I_z")
}

// bigEnough compares each run with the smallest size that the set allows.
func bigEnough(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, r := range m.Runs {
		least := m.Set.Size.Single
		if r.Sheathed {
			least = m.Set.Size.Sheathed
		}
		c, err := wire.CheckLeastSize(least, r.Size)
		if err != nil {
			return nil, working.In(r.Path, err)
		}
		all = append(all, Finding{Check: c, Where: r.Name, Circuit: r.Name, Path: r.Path, RuleSet: m.Set.Name, Source: least.Source})
	}
	return all, nil
}

// dropInside compares the drop along the whole path to each load, in the worst
// of the cases that feed it from the batteries, with the set's limit; and that
// of each directly coupled charging line at its full current.
func dropInside(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for i, l := range m.Job.Loads {
		if l.At == "" || l.Cranking {
			continue
		}
		limit := m.Set.Drop.Other
		if l.Critical {
			limit = m.Set.Drop.Critical
		}
		f, ok, err := worstDrop(m, l.Name, l.At, limit)
		if err != nil {
			return nil, working.In(fmt.Sprintf("loads[%d]", i), err)
		}
		if !ok {
			f, ok = unsolved(m, "W02", l.Name)
		}
		if f.Path = fmt.Sprintf("loads[%d]", i); ok {
			all = append(all, f)
		}
	}
	for i, inv := range m.Job.Inverters {
		f, ok, err := worstDrop(m, inv.Name, inv.Name, m.Set.Drop.Other)
		if err != nil {
			return nil, err
		}
		if !ok {
			f, ok = unsolved(m, "W02", inv.Name)
		}
		if f.Path = fmt.Sprintf("inverters[%d]", i); ok {
			all = append(all, f)
		}
	}
	charging, err := chargeLines(m)
	return append(all, charging...), err
}

// worstDrop finds the case in which the load at a node loses most, and lays
// that drop out run by run.
func worstDrop(m *facts.Facts, name, node string, limit working.Figure) (Finding, bool, error) {
	var worst facts.Solved
	var path []*facts.Run
	most := decimal.NewFromInt(-1)
	for _, c := range m.Cases {
		if c.Sources || c.Starting != "" && c.Kind == installation.Brief || c.CollapsedAt() != "" || !m.Feeds(c, name) {
			continue
		}
		way := m.ToBattery(node, c.BatteryMissing)
		if lost := c.LostTo(way); lost.GreaterThan(most) {
			worst, path, most = c, way, lost
		}
	}
	if most.IsNegative() {
		return Finding{}, false, nil
	}
	lost, err := worst.Along(path)
	if err != nil {
		return Finding{}, false, err
	}
	f, err := judgeDrop(m, name, node, lost, worst.Name, limit)
	return f, true, err
}

// judgeDrop compares a drop with a limit in V or in percent of the nominal
// voltage.
func judgeDrop(m *facts.Facts, name, node string, lost wire.PathDrop, corner string, limit working.Figure) (Finding, error) {
	c, err := lost.Check(limit, m.Job.SystemV)
	if !limit.Stated() {
		c.Silent = fmt.Sprintf("%s sets no limit at %s V", m.Set.Name, m.Job.SystemV)
	}
	return Finding{Check: c, Where: name, Node: node, RuleSet: m.Set.Name, Source: limit.Source, Case: corner}, err
}

// chargeLines judges the line from each charger, and from each alternator that
// cables join to it, to the house bank at its full current. A charger that senses
// the voltage at the battery makes up for the line, and a converter's input is
// judged by its lowest voltage (C10).
func chargeLines(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for i, c := range m.Job.Chargers {
		if c.RemoteSense {
			all = append(all, Finding{Where: facts.ChargeLine(c.Name), Path: m.ChargerPath(i), RuleSet: m.Set.Name, Check: working.Check{ID: "W02", Silent: "it senses the voltage at the battery"}})
			continue
		}
		f, err := judgeLine(m, facts.Supply{Name: c.Name, MostA: c.MaxA}, m.ChargerPath(i))
		if err != nil {
			return nil, err
		}
		all = append(all, f)
	}
	for i, a := range m.Job.Alternators {
		if !m.OfHouse(a.Name) {
			continue
		}
		draw, err := m.BankDraw(a)
		if err != nil {
			return nil, working.In(facts.Indexed("alternators", i), err)
		}
		f, err := judgeLine(m, facts.Supply{Name: a.Name, MostA: decimal.Min(facts.SpareOf(a.RatedA, a), draw)}, facts.Indexed("alternators", i))
		if err != nil {
			return nil, err
		}
		all = append(all, f)
	}
	return append(all, otherChargeLines(m)...), nil
}

func judgeLine(m *facts.Facts, x facts.Supply, path string) (Finding, error) {
	lost, corner, err := m.WorstChargeDrop(x)
	if err != nil {
		return Finding{}, err
	}
	f, err := judgeDrop(m, facts.ChargeLine(x.Name), x.Name, lost, corner, m.Set.Drop.Charge)
	f.Path = path
	return f, err
}

// otherChargeLines says of each run that is marked as a charge line, and that no
// source of the job charges through, why it is not judged as one.
func otherChargeLines(m *facts.Facts) []Finding {
	var all []Finding
	for _, r := range m.Runs {
		if r.Purpose != "charge line" || m.ChargesThrough(r) {
			continue
		}
		why := "no charger or alternator of the job charges the house bank through it"
		if !m.OfHouse(r.From) {
			why = "it does not lead to the house bank: a converter's input is judged by its lowest voltage (C10)"
		}
		all = append(all, Finding{Where: r.Name, Circuit: r.Name, Path: r.Path, RuleSet: m.Set.Name, Check: working.Check{ID: "W02", Silent: why}})
	}
	return all
}

// voltsLeft compares the voltage that each load gets at the worst with the
// lowest at which it works, and at which an inverter stays on.
func voltsLeft(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for i, l := range m.Job.Loads {
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
		f, ok, err := lowestVolts(m, l.Name, l.At, facts.KeptFrom(l))
		if err != nil {
			return nil, working.In(path, err)
		}
		if f.Path = path; ok {
			all = append(all, f)
		}
	}
	for i, inv := range m.Job.Inverters {
		f, ok, err := lowestVolts(m, inv.Name, inv.Name, inv.CutOutV)
		if f.Path = facts.Indexed("inverters", i); err != nil {
			return nil, working.In(f.Path, err)
		}
		if ok {
			all = append(all, f)
		}
	}
	return all, nil
}

func lowestVolts(m *facts.Facts, name, node string, least decimal.Decimal) (Finding, bool, error) {
	c, _, ok := m.WorstFor(name, node)
	if !ok {
		f, ok := unsolved(m, "W04", name)
		return f, ok, nil
	}
	check, err := c.CheckVoltage(node, decimal.NewNullDecimal(least))
	return Finding{Check: check, Where: name, Node: node, Case: c.Name}, true, err
}

// carriesBundled compares the current of a run among others with what it carries
// overall.
func carriesBundled(r *facts.Run) Finding {
	w := working.Start(r.Bundle.Working)
	w.Given("I", r.Lasting().A)
	return Finding{Check: w.Check("W01", "", "I", "I_z"), Where: r.Name + ", overall", Circuit: r.Name, Path: r.Path, RuleSet: r.Bundle.Set, Source: w[0].Source, Case: r.Lasting().In}
}

// crankedHeat asks of each run on any way to an engine's starter how hot it is
// after it was cranked for as long as a battery is rated for: no fuse need guard
// it, so that the copper has to bear it.
func crankedHeat(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, l := range m.StarterMotors() {
		for _, r := range m.Cranked(l) {
			f := Finding{Where: r.Name + whileCranked, Circuit: r.Name, Path: r.Path, RuleSet: m.Set.Name, Case: cranks()}
			var err error
			if f.Check, err = crankedFor(m, r, l); err != nil {
				return nil, working.In(r.Path, err)
			}
			all = append(all, f)
		}
	}
	return all, nil
}

func crankedFor(m *facts.Facts, r *facts.Run, l job.Load) (working.Check, error) {
	if r.NoAmps != nil {
		return working.Check{ID: "W01", Missing: noAmpacityText}, nil
	}
	area, err := r.Size.Area()
	if err != nil {
		return working.Check{}, err
	}
	drawn, _ := m.Cranking(l).Value("I_sg")
	each := drawn.DivRound(decimal.NewFromInt(int64(r.Sharing())), 9).RoundCeil(2)
	t, err := wire.Overload{Ampacity: r.One, AreaMM2: area.Value, CurrentA: each}.Temperature(facts.CranksFor())
	if err != nil {
		return working.Check{}, err
	}
	w := slices.Clone(t.Working)
	w.Given("T_r", r.InsulationC)
	return w.Check("W01", "", "T_c", "T_r"), nil
}
