package rules

import (
	"fmt"
	"slices"

	"example.org/extralow/battery"
	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var ofBank = []Rule{
	{
		ID: "B01", Title: "Each battery bears its discharge",
		Danger:  "its management unit opens and everything goes dark, or it overheats",
		Why:     "a battery's share follows the resistances, not the labels",
		Sources: []string{"Kirchhoff's laws"},
		Grade:   WillNotServe, Rank: 380,
		RestsOn: Currents | Resistance,
		Changes: Cables,
		Advice:  "run less at once, or add a battery",
		Worse: []Growth{
			{"batteries.max_discharge_a", "÷2"}, {"inverters.efficiency_percent", "÷1.15"}, {"loads.power_w", "×1.6"},
			{"loads.current_a", "×1.6"},
		},
		Judge: dischargeInside,
	},
	{
		ID: "B17", Title: "Each battery's resistance is known",
		Danger:  "faults and voltages rest on a guess",
		Why:     "one figure decides what a fuse must break, another what voltage is left",
		Sources: []string{"common practice"},
		Grade:   WillNotServe, Rank: 390,
		Judge: resistanceKnown,
	},
	{
		ID: "B02", Title: "The bank bears the loss of a battery",
		Danger:  "the remaining battery trips or overheats when its neighbour is gone",
		Why:     "one of two batteries can switch itself off at any time",
		Sources: []string{"Kirchhoff's laws"},
		Grade:   WillNotServe, Rank: 400,
		RestsOn: Currents | Resistance,
		Changes: Cables,
		Advice:  "run less at once, add a battery, or have the loads shed when one drops out",
		Worse: []Growth{
			{"batteries.max_discharge_a", "÷2"},
		},
		Judge: dischargeWithout,
	},
	{
		ID: "B04", Title: "Loads switch off before the battery does",
		Danger:  "the battery's own unit cuts everything off at once, chargers included",
		Why:     "the order of switching off goes from loads to battery",
		Sources: []string{"arithmetic"},
		Grade:   Minor, Rank: 470,
		Advice: "set the load's cut-out above the battery's",
		Worse: []Growth{
			{"batteries.cut_out_v", "×1.1"},
		},
		Judge: cutOutOrder,
	},
	{
		ID: "B18", Title: "The inverter is large enough",
		Danger:  "the inverter switches off when everything runs or something starts",
		Why:     "it has a continuous and a short-time rating in watts",
		Sources: []string{"arithmetic"},
		Grade:   WillNotServe, Rank: 490,
		Advice: "fit a larger inverter, or run less through it",
		Worse: []Growth{
			{"inverters.rated_w", "÷1.6"}, {"inverters.surge_w", "÷1.6"}, {"loads.surge_w", "×2"},
		},
		Judge: inverterBigEnough,
	},
	{
		ID: "B05", Title: "The inverter holds through a surge",
		Danger:  "the inverter switches off when a motor starts",
		Why:     "its terminals see the battery's voltage less the drop of the whole path",
		Sources: []string{"Kirchhoff's laws", "Ohm's law"},
		Grade:   WillNotServe, Rank: 500,
		RestsOn: Resistance,
		Changes: Cables,
		Tries:   []Try{ThickerPath},
		Advice:  "shorten or thicken the path to the inverter, or start the load unloaded",
		Worse: []Growth{
			{"circuits.length_m", "×3.5"}, {"circuits.size", "thinner"}, {"circuits.contacts_milliohm", "×3"},
			{"batteries.high_milliohm", "×3"}, {"batteries.empty_v", "÷1.05"}, {"inverters.cut_out_v", "×1.06"},
			{"loads.surge_w", "×2"},
		},
		Judge: surgeHolds,
		Sags:  true,
	},
	{
		ID: "B03", Title: "The bank lasts as long as the customer asks",
		Danger:  "the bank is empty before the time",
		Why:     "usable energy is depth, age and temperature of the rated one",
		Sources: []string{"PV sizing worksheet", "TM 10-6140-200-14"},
		Grade:   WillNotServe, Rank: 610,
		Advice: "add capacity, use less, ask for fewer days, or feed what runs with the engine off from the house bank",
		Worse: []Growth{
			{"batteries.capacity_ah", "÷1.6"}, {"batteries.ageing_percent", "÷1.15"}, {"bank_c", "-6"},
			{"inverters.efficiency_percent", "÷1.15"}, {"loads.power_w", "×1.6"}, {"loads.current_a", "×1.6"},
			{"loads.hours_a_day", "×1.6"}, {"needs.autonomy_days", "×2"},
		},
		Judge:  lasts,
		Advise: enlarge,
	},
}

// resistanceKnown asks for the resistance of each battery that states none.
func resistanceKnown(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for i, b := range m.Job.Batteries {
		if b.LowMilliohm.Valid && b.HighMilliohm.Valid {
			continue
		}
		stands := "Until then a typical range stands in, from memory"
		if slices.Contains(m.Unknown(), b.Name) {
			stands = "Until then no rule that rests on it can pass: no typical range is listed for such a battery"
		}
		all = append(all, Finding{Where: b.Name, Path: fmt.Sprintf("batteries[%d]", i), Check: working.Check{
			ID: "B17",
			Missing: "ask the maker for its resistance new and full, and at the end of its life; or measure volts and amperes at two loads " +
				"(IEC 60896-21, with a voltmeter at the posts and a clamp meter). " + stands,
		}})
	}
	return all, nil
}

// dischargeInside compares each battery's share of the steady current with its
// limit, in the worst case with all batteries there: aged, new or of unlike age.
func dischargeInside(m *facts.Facts) ([]Finding, error) {
	return discharge(m, "B01", m.Job.Batteries, false)
}

// dischargeWithout does so with each of the others missing in turn.
func dischargeWithout(m *facts.Facts) ([]Finding, error) {
	if len(m.Several()) == 0 {
		return []Finding{{Where: "the house bank", Path: "batteries", Check: working.Check{ID: "B02", Silent: "it has one battery"}}}, nil
	}
	return discharge(m, "B02", m.Droppable(), true)
}

func discharge(m *facts.Facts, id string, batteries []job.Battery, missing bool) ([]Finding, error) {
	var all []Finding
	for _, b := range batteries {
		f := Finding{Where: b.Name, Path: m.BatteryPath(b.Name)}
		if !b.MaxDischargeA.Valid {
			f.Check = working.Check{ID: id, Silent: "its discharge limit is not stated"}
			if b.Chemistry.Has(tables.ManagementUnit) { // whose management unit opens beyond it
				f.Silent, f.Missing = "", "ask the maker for its greatest steady discharge current"
			}
			all = append(all, f)
			continue
		}
		worst, corner, err := m.MostGiven(b, missing)
		if err != nil {
			return nil, working.In(f.Path, err)
		}
		share := battery.DischargeShare{Battery: b.Name, CurrentA: decimal.NewNullDecimal(worst), LimitA: b.MaxDischargeA, Lost: missing}
		share.From.Step("I_so", worst, cite.Kirchhoff.At("", cite.Published))
		if f.Check, err = share.Check(); err != nil {
			return nil, working.In(f.Path, err)
		}
		f.Case = corner
		all = append(all, f)
	}
	return all, nil
}

// ofAutonomy is the key by which the house bank is asked how long it lasts.
const ofAutonomy = "needs.autonomy_days"

// lasts compares the usable energy of the house bank with what the loads take
// in the days that the customer asks for.
func lasts(m *facts.Facts) ([]Finding, error) {
	house, err := houseLasts(m)
	if err != nil {
		return nil, err
	}
	others, err := keepsItsStart(m)
	return append(house, others...), err
}

func houseLasts(m *facts.Facts) ([]Finding, error) {
	f := Finding{Where: "the house bank", Path: ofAutonomy, Check: working.Check{ID: "B03"}}
	use, err := m.Use()
	if err != nil {
		return nil, err
	}
	f.Case = use.PartWhere
	c, err := use.Check()
	if facts.NoCapacity(err) {
		f.Missing = facts.CapacityText
		return []Finding{f}, nil
	}
	f.Check = c
	return []Finding{f}, err
}

// cutOutOrder compares the voltage at which each battery's own unit opens with
// the lowest at which anything that need not run to the last gives up.
func cutOutOrder(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for i, b := range m.Job.Batteries {
		k := m.BankWith(b.Name)
		lowest, name := m.LowestCutOut(k)
		f := Finding{Where: b.Name, Path: fmt.Sprintf("batteries[%d]", i)}
		if name == "" && !k.House && (b.CutOutV.Valid || !b.Chemistry.Has(tables.ManagementUnit)) {
			f.Check = working.Check{ID: "B04", Silent: "nothing that it feeds says at what voltage it gives up"}
			all = append(all, f)
			continue
		}
		c, err := m.BankOf([]job.Battery{b}).CheckCutOut(lowest)
		f.Check = c
		if name != "" {
			f.Case = "the first to reach it is " + name
		}
		if err != nil {
			return nil, facts.OfOne(err, f.Path)
		}
		all = append(all, f)
	}
	return all, nil
}

// inverterBigEnough compares what runs through each inverter with its rating,
// and the start of the hardest load with its surge rating.
func inverterBigEnough(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for i, inv := range m.Job.Inverters {
		steady, surge := decimal.Zero, decimal.Zero
		for k := range m.Job.States {
			steady = decimal.Max(steady, m.SurgeOut(inv, &m.Job.States[k], facts.StartLasts))
			surge = decimal.Max(surge, m.SurgeOut(inv, &m.Job.States[k], facts.AnyStart))
		}
		path := fmt.Sprintf("inverters[%d]", i)
		all = append(all,
			Finding{Check: compareW("B18", "P", steady, "P_r", inv.RatedW), Where: inv.Name + ", steady", Path: path},
			Finding{Check: compareW("B18", "P_su", surge, "P_rs", inv.SurgeW), Where: inv.Name + ", at a start", Path: path})
	}
	return all, nil
}

func compareW(id, demand string, d decimal.Decimal, limit string, l decimal.Decimal) working.Check {
	var w working.Working
	w.Given(demand, d)
	w.Given(limit, l)
	return w.Check(id, "", demand, limit)
}

// surgeHolds solves each state with the inverter at its surge, on the batteries
// alone, whole and with each missing, and compares the voltage at its terminals
// with its cut-out.
func surgeHolds(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for i, inv := range m.Job.Inverters {
		f := Finding{Where: inv.Name, Node: inv.Name, Path: fmt.Sprintf("inverters[%d]", i)}
		surges, err := surgesOf(m, inv)
		if err != nil {
			return nil, working.In(f.Path, err)
		}
		worst, ok := facts.LeastAt(surges, inv.Name)
		if f.Check = (working.Check{ID: "B05", Silent: "no state uses it"}); ok {
			_, how := m.HardestOut(inv, worst.State)
			f.Case = worst.Name + ", " + how
			if f.Check, err = holdsSurge(worst, inv); err != nil {
				return nil, working.In(f.Path, err)
			}
		}
		all = append(all, f)
	}
	return all, nil
}

// surgesOf are the cases in which an inverter is at its hardest.
func surgesOf(m *facts.Facts, inv job.Inverter) ([]facts.Solved, error) {
	var all []facts.Solved
	for k := range m.Job.States {
		s := &m.Job.States[k]
		if !m.InverterOut(inv, s).IsPositive() {
			continue
		}
		out, _ := m.HardestOut(inv, s)
		for _, of := range m.Absences(s) {
			c, err := m.AtSurge(inv, of, k, out)
			if err != nil {
				return nil, err
			}
			all = append(all, c)
		}
	}
	return all, nil
}

// holdsSurge compares the voltage at an inverter with its cut-out.
func holdsSurge(c facts.Solved, inv job.Inverter) (working.Check, error) {
	left, err := c.CheckVoltage(inv.Name, decimal.NullDecimal{})
	if err != nil {
		return working.Check{}, err
	}
	v, _ := left.Working.Value("U_L")
	return battery.SurgeVoltage{TerminalV: v, CutOutV: decimal.NewNullDecimal(inv.CutOutV), From: left.Working}.Check()
}

// keepsItsStart asks of each bank besides that of the house whether what loads take
// from it in a day, while nothing charges it, leaves the charge that its design
// keeps for the engine.
func keepsItsStart(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, k := range m.Banks[1:] {
		f := Finding{
			Where: k.Name + ", by what it feeds uncharged", Path: m.BatteryPath(k.Batteries[0].Name), Check: working.Check{ID: "B03"},
			Danger: "the engine does not start", Case: "in one day",
		}
		drawn, err := m.DrawnUncharged(k)
		if err != nil {
			return nil, working.In(f.Path, err)
		}
		if !drawn.EnergyWh.IsPositive() {
			continue
		}
		c, err := battery.BankAutonomy{Bank: m.BankOf(k.Batteries), EnergyWh: drawn.EnergyWh, Days: decimal.NewFromInt(1), From: drawn.Working}.Check()
		switch {
		case facts.NoCapacity(err):
			f.Missing = facts.CapacityText
		case err != nil:
			return nil, working.In(f.Path, err)
		default:
			f.Check = c
		}
		all = append(all, f)
	}
	return all, nil
}
