package rules

import (
	"example.org/extralow/battery"
	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// keepsItsStart asks of each bank besides that of the house whether what loads take
// from it in a day, while nothing charges it, leaves the charge that its design
// keeps for the engine.
func keepsItsStart(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, k := range m.Banks[1:] {
		f := Finding{
			Where: k.Name + ", by what it feeds uncharged", Path: m.BatteryPath(k.Batteries[0].Name), Check: working.Check{ID: "B03"},
			Danger: "the engine does not start", Corner: "in one day",
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
