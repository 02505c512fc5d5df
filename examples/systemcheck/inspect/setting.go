package inspect

import (
	"fmt"
	"strings"

	"example.org/extralow/charge"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// holder is something that charges a bank, by the voltage that it holds.
type holder struct {
	name, path string
	setting    charge.Setting
}

// holders are the chargers and controllers of a bank, converters at their output,
// and the alternators that cables join to it.
func (m *model) holders(k bank) []holder {
	var all []holder
	for i, c := range m.job.Chargers {
		if m.reachesBank(c.Name, k) {
			all = append(all, holder{k.at(c.Name), m.chargerPath(i), settingOf(c)})
		}
	}
	for i, a := range m.job.Alternators {
		if m.reachesBank(a.Name, k) {
			all = append(all, holder{k.at(a.Name), fmt.Sprintf("alternators[%d]", i), k.regulated(a)})
		}
	}
	return all
}

// regulated is how an alternator holds a bank. A vehicle that varies its voltage
// does so for the sake of its own battery, which is full at times: the highest must
// charge it. A house bank asks for more, whenever the engine runs.
func (k bank) regulated(a job.Alternator) charge.Setting {
	if !k.house {
		return charge.Setting{HeldV: a.RunsAtV}
	}
	return charge.Setting{HeldV: a.RunsAtV, LeastV: a.LeastV}
}

func settingOf(c job.Charger) charge.Setting {
	return charge.Setting{HeldV: c.OutputV, EqualiseV: c.EqualiseV, MilliVPerC: c.MilliVPerC, ToleranceV: c.ToleranceV}
}

// findHeights works out the highest voltage that each source ever holds.
func (m *model) findHeights() error {
	m.heights = map[string]decimal.Decimal{}
	for _, b := range m.job.Batteries {
		m.heights[b.Name] = b.FullV
	}
	for _, a := range m.job.Alternators {
		m.heights[a.Name] = a.RunsAtV
	}
	for i, c := range m.job.Chargers {
		highest, err := settingOf(c).Highest(m.job.ColdestC)
		if err != nil {
			return working.In(m.chargerPath(i), err)
		}
		m.heights[c.Name] = highest.VoltageV
	}
	return nil
}

// voltageWindow is a battery as the voltage of a charger meets it. It is charged
// from the coldest that its unit lets it be to the hottest air that the job
// states round it.
func (m *model) voltageWindow(b job.Battery) charge.VoltageWindow {
	cells := int64(6) // of 12 V
	if b.Chemistry.Is(tables.LiFePO4) {
		cells = 4
	}
	v := charge.VoltageWindow{
		Chemistry: b.Chemistry, Cells: int(m.job.SystemV.Mul(decimal.NewFromInt(cells)).DivRound(decimal.NewFromInt(12), 0).IntPart()),
		LeastV: b.ChargeLeastV, GreatestV: b.ChargeMostV, CutOutV: b.ChargeCutOutV,
	}
	coldest := m.beginsC(b)
	if b.LeastChargeC.Valid { // C02 judges whether it is charged below that
		coldest = decimal.Max(coldest, b.LeastChargeC.Decimal)
	}
	hottest := decimal.Max(coldest, decimal.Min(m.hottestAt(b), decimal.NewFromInt(100)))
	v.ColdestC, v.HottestC = decimal.NewNullDecimal(coldest), decimal.NewNullDecimal(hottest)
	return v
}

// voltageSuits compares what each holder holds with what the batteries of its bank
// may be charged with: of several batteries the one that it suits least decides.
func voltageSuits(m *model) ([]Finding, error) {
	var all []Finding
	for _, k := range m.banks {
		found, err := m.voltageSuitsOn(k)
		if err != nil {
			return nil, err
		}
		all = append(all, found...)
	}
	return all, nil
}

func (m *model) voltageSuitsOn(k bank) ([]Finding, error) {
	var all []Finding
	for _, h := range m.holders(k) {
		var bySide [3][]working.Check // highest, lowest, equalising
		for _, b := range k.batteries {
			checks, err := m.voltageWindow(b).Checks(h.setting)
			if err != nil {
				return nil, working.In(h.path, err)
			}
			for side, c := range checks {
				bySide[side] = append(bySide[side], c)
			}
		}
		for _, checks := range bySide {
			if worst, ok := working.Strictest(checks...); ok {
				c := checks[worst]
				all = append(all, Finding{Check: c, Where: h.name + ", " + strings.ToLower(c.Title), Path: h.path})
			}
		}
	}
	if len(all) == 0 {
		all = append(all, Finding{Where: k.name, Path: "chargers", Check: working.Check{ID: "C11", Silent: "nothing charges it"}})
	}
	return all, nil
}

// staysClosed compares the highest voltage that anything holds on a bank with the
// one at which each battery's management unit opens, and all charging currents
// together with those at which they open.
func staysClosed(m *model) ([]Finding, error) {
	var all []Finding
	for i, b := range m.job.Batteries {
		f := Finding{Where: b.Name, Path: indexed("batteries", i), Check: working.Check{ID: "C12", Silent: "nothing charges it"}}
		for _, h := range m.holders(m.bankWith(b.Name)) {
			c, err := m.voltageWindow(b).CheckClosed(h.setting)
			if err != nil {
				return nil, working.In(f.Path, err)
			}
			if f.Working == nil || c.Margin().LessThan(f.Margin()) {
				f.Check, f.Corner = c, "charged by "+h.name
			}
		}
		if f.Verdict() == working.NotApplicable {
			f.Corner = ""
		}
		if !b.Chemistry.Has(tables.ManagementUnit) && !b.ChargeCutOutV.Valid {
			f.Silent = "no management unit is stated, and lead-acid needs none"
		}
		all = append(all, f)
	}
	for _, k := range m.banks {
		byCurrent, err := m.closedByCurrent(k)
		if err != nil {
			return nil, err
		}
		all = append(all, byCurrent...)
	}
	return all, nil
}

// closedByCurrent judges the currents where every battery states its own.
func (m *model) closedByCurrent(k bank) ([]Finding, error) {
	t, state, err := m.together(k)
	if err != nil || len(t.Supplies) == 0 {
		return nil, err
	}
	for _, b := range k.batteries {
		if !b.ChargeCutOutA.Valid {
			return nil, nil
		}
		t.LimitsA = append(t.LimitsA, charge.NamedLimit{Name: b.Name, CurrentA: b.ChargeCutOutA.Decimal})
	}
	checks, err := t.CheckClosed()
	var all []Finding
	for i, c := range checks {
		f := Finding{Check: c, Where: k.name + ", by current", Path: "chargers", Corner: state}
		if i > 0 {
			f.Where += ", without " + t.LimitsA[i-1].Name
		}
		all = append(all, f)
	}
	return all, err
}
