package rules

import (
	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/protect"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var ofSupply = []Rule{
	{
		ID: "P19", Title: "Each unit survives a load dump",
		Danger:  "a battery that drops out while the alternator charges destroys the electronics",
		Why:     "the alternator's field dies away slowly, and its voltage leaps meanwhile",
		Sources: []string{"ISO 16750-2:2012"},
		Grade:   Dangerous, Rank: 280,
		Advice: "fit a unit or a suppressor for that transient, or an alternator that clamps it; never open a battery switch while it charges",
		Judge:  survivesDump,
	},
	{
		ID: "P28", Title: "Each unit survives a mishap with its supply",
		Danger:  "it is destroyed, and may burn",
		Why:     "leads are swapped and flat batteries are helped by a lorry's: ISO 16750-2 tests units for it",
		Sources: []string{"ISO 16750-2:2012"},
		Grade:   Dangerous, Rank: 290,
		Advice: "fit a unit for that, or a fuse and diode that guard it; mark the leads and check them before the last bolt",
		Judge:  survivesMishaps,
	},
	{
		ID: "P17", Also: []string{"P18"}, Title: "Each unit suits its supply",
		Danger:  "it is destroyed or drops out",
		Why:     "its data sheet or its code states from what voltage to what it works",
		Sources: []string{"ISO 16750-2:2010", "data sheet"},
		Grade:   Dangerous, Rank: 310,
		RestsOn: Currents | Resistance,
		Changes: Cables,
		Advice:  "thicken or shorten its path, or fit a unit that works from that voltage",
		AdviceFor: map[string]string{
			"P18": "fit a unit for that voltage, or feed it through a converter that holds its output",
		},
		Worse: []Growth{
			{"chargers.output_v", "×1.04"}, {"inverters.works_to_v", "÷1.1"}, {"loads.works_from_v", "×1.06"},
		},
		Judge: suitsSupply,
	},
}

const (
	rangeText = "its range of supply voltage is not stated"
	highText  = "ask for the highest supply voltage that it bears (its data sheet, or its code of ISO 16750-2), and state works_to_v or supply_code"
	idleText  = "no state runs it on the batteries"
	starved   = "too little voltage reaches it in the first place: see W04"
)

// suitsSupply compares the range of supply voltage of each unit that states one
// with the lowest voltage that reaches it and the highest in its part of the
// network.
func suitsSupply(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, u := range m.Units() {
		checks, corner, err := supplied(m, u)
		if err != nil {
			return nil, working.In(u.Path, err)
		}
		for _, c := range checks {
			f := Finding{Check: c, Where: u.Name, Path: u.Path}
			if c.ID == "P17" {
				f.Case = corner
			}
			all = append(all, f)
		}
	}
	return all, nil
}

func supplied(m *facts.Facts, u facts.Unit) (checks []working.Check, corner string, err error) {
	worst, low, ok := m.WorstFor(u.Name, u.Node)
	switch {
	case !u.Ranged() && m.Decides(u):
		return []working.Check{{ID: "P18", Missing: highText}}, "", nil
	case !u.Ranged():
		return []working.Check{{ID: "P17", Silent: rangeText}}, "", nil
	case !ok:
		return []working.Check{{ID: "P17", Silent: idleText}}, "", nil
	}
	x := protect.ConnectedUnit{
		LeastSupplyV: decimal.NewNullDecimal(low), GreatestSupplyV: m.HighestV(u.Node), Code: u.SupplyCode, LeastV: u.WorksFromV, GreatestV: u.WorksToV,
	}
	high, err := x.Checks()
	if err != nil {
		return nil, "", err
	}
	x.From = facts.LadderTo(worst, u.Node, low)
	lowest, err := x.Checks()
	if err != nil {
		return nil, "", err
	}
	checks = []working.Check{lowest[0], high[1]}
	if checks[0].Verdict() == working.CannotTell { // W04 holds it to the lowest
		checks[0].Missing, checks[0].Silent = "", rangeText
	}
	if checks[1].Verdict() == working.CannotTell {
		checks[1].Missing = highText
	}
	if u.LeastV.Valid && low.LessThan(u.LeastV.Decimal) {
		checks[0].Silent = starved
	}
	return checks, worst.Name, nil
}

// survivesDump asks of each unit that shares its part of the network with an
// alternator whether it survives a battery that drops out while that charges.
func survivesDump(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, u := range m.Units() {
		f := Finding{Where: u.Name, Path: u.Path, Check: working.Check{ID: "P19"}}
		charged, clamped := m.AlternatorsAt(u.Node)
		switch {
		case !charged:
			f.Silent = "no alternator charges its part of the network"
		case !u.SurvivesV.Valid:
			f.Missing = "ask what load dump it survives (ISO 16750-2), and state survives_v"
		default:
			c, err := protect.LoadDump{NominalV: m.Job.SystemV, Suppressed: clamped, SurvivesV: u.SurvivesV}.Check()
			if err != nil {
				return nil, working.In(u.Path, err)
			}
			f.Check = c
		}
		all = append(all, f)
	}
	converters, err := convertersSurvive(m)
	return append(all, converters...), err
}

// convertersSurvive asks the same of each converter's input, where a switch can part a
// running alternator from every battery and leave it the converter.
func convertersSurvive(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for i, c := range m.Job.Chargers {
		by, clamped := m.PartedWith(c)
		if by == "" {
			continue
		}
		f := Finding{Where: c.Name + ", its input", Node: c.FedAt, Path: m.ChargerPath(i), Case: "as the switch of " + by + " opens"}
		var err error
		if f.Check, err = convertersDump(m, c, clamped); err != nil {
			return nil, working.In(f.Path, err)
		}
		all = append(all, f)
	}
	return all, nil
}

func convertersDump(m *facts.Facts, c job.Charger, clamped bool) (working.Check, error) {
	if !c.SurvivesV.Valid {
		return working.Check{ID: "P19", Missing: "ask what load dump it survives (ISO 16750-2), and state survives_v; or take that switch out of the alternator's lead"}, nil
	}
	return protect.LoadDump{NominalV: m.Job.SystemV, Suppressed: clamped, SurvivesV: c.SurvivesV}.Check()
}

// survivesMishaps asks of each unit that states it whether it survives a supply
// the wrong way round and, where an alternator is, a jump start.
func survivesMishaps(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, u := range m.Units() {
		started, _ := m.AlternatorsAt(u.Node)
		for _, x := range []struct {
			kind  string
			bears decimal.NullDecimal
			may   bool
		}{
			{"reversed voltage", u.SurvivesReversedV, true},
			{"jump start", u.SurvivesJumpV, started && m.Job.SystemV.Equal(decimal.NewFromInt(12))}, // no table has that of 24 V
		} {
			if !x.bears.Valid || !x.may {
				continue
			}
			c, err := protect.SupplyTest{NominalV: m.Job.SystemV, Kind: x.kind, SurvivesV: x.bears}.Check()
			if err != nil {
				return nil, working.In(u.Path, err)
			}
			all = append(all, Finding{Check: c, Where: u.Name + ", " + x.kind, Path: u.Path})
		}
	}
	if len(all) == 0 {
		return notHere("P28", "the loads", "loads", "none states what it survives the wrong way round or in a jump start"), nil
	}
	return all, nil
}
