package rules

import (
	"fmt"
	"slices"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// onResistance are the rules whose pass rests on how large the resistance of a
// battery is.
var onResistance = []string{"W01", "W02", "W04", "P01", "P09", "P17", "B01", "B02", "B05", "B22", "C06", "C10"}

// tellable takes back a pass that rests on currents which nobody knows, or on a
// resistance.
func tellable(m *facts.Facts, c working.Check) working.Check {
	if c.Verdict() == working.Passes && slices.Contains(onCurrents, c.ID) && m.Collapsed() {
		return working.Check{ID: c.ID, Title: c.Title, Silent: collapsedText}
	}
	name := m.Unknown()
	if name == "" || !slices.Contains(onResistance, c.ID) || c.Verdict() != working.Passes {
		return c
	}
	return working.Check{ID: c.ID, Title: c.Title, Missing: "measure the resistance of " + name + " first (see B17): no typical range is listed for such a battery"}
}

// resistanceKnown asks for the resistance of each battery that states none.
func resistanceKnown(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for i, b := range m.Job.Batteries {
		if b.LowMilliohm.Valid && b.HighMilliohm.Valid {
			continue
		}
		stands := "Until then a typical range stands in, from memory"
		if m.Unknown() == b.Name {
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
		var w working.Working
		w.Step("I_so", worst, cite.Kirchhoff.At("", cite.Published))
		w.Given("I_bm", b.MaxDischargeA.Decimal)
		f.Check, f.Corner = w.Check(id, "", "I_so", "I_bm"), corner
		all = append(all, f)
	}
	return all, nil
}

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
	f := Finding{Where: "the house bank", Path: "needs.autonomy_days", Check: working.Check{ID: "B03"}}
	use, err := m.Use()
	if err != nil {
		return nil, err
	}
	f.Corner = use.PartWhere
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
			f.Corner = "the first to reach it is " + name
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
		f := Finding{Where: inv.Name, Path: fmt.Sprintf("inverters[%d]", i)}
		for k := range m.Job.States {
			s := &m.Job.States[k]
			if !m.InverterOut(inv, s).IsPositive() {
				continue
			}
			for _, of := range m.Absences(s) {
				out, how := m.HardestOut(inv, s)
				c, err := m.AtSurge(inv, of, out)
				if err != nil {
					return nil, working.In(f.Path, err)
				}
				if check := holdsSurge(c, inv); f.ID == "" || check.Margin().LessThan(f.Margin()) {
					f.Check, f.Corner = check, of.Name+", "+how
				}
			}
		}
		if f.ID == "" {
			f.Check = working.Check{ID: "B05", Silent: "no state uses it"}
		}
		all = append(all, f)
	}
	return all, nil
}

// holdsSurge compares the voltage at an inverter with its cut-out.
func holdsSurge(c facts.Solved, inv job.Inverter) working.Check {
	v, _ := c.Voltage(inv.Name)
	check := voltsAt(c, inv.Name, v, inv.CutOutV)
	check.ID, check.Below = "B05", true
	return check
}
