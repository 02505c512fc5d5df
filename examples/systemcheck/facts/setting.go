package facts

import (
	"fmt"

	"example.org/extralow/charge"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// holder is something that charges a bank, by the voltage that it holds.
type holder struct {
	Name, Path string
	Setting    charge.Setting
}

// Holders are the chargers and controllers of a bank, converters at their output,
// and the alternators that cables join to it.
func (m *Facts) Holders(k Bank) []holder {
	var all []holder
	for i, c := range m.Job.Chargers {
		if m.reachesBank(c.Name, k) {
			all = append(all, holder{k.at(c.Name), m.ChargerPath(i), settingOf(c)})
		}
	}
	for i, a := range m.Job.Alternators {
		if m.reachesBank(a.Name, k) {
			all = append(all, holder{k.at(a.Name), fmt.Sprintf("alternators[%d]", i), k.regulated(a)})
		}
	}
	return all
}

// regulated is how an alternator holds a bank. A vehicle that varies its voltage
// does so for the sake of its own battery, which is full at times: the highest must
// charge it. A house bank asks for more, whenever the engine runs.
func (k Bank) regulated(a job.Alternator) charge.Setting {
	if !k.House {
		return charge.Setting{HeldV: a.RunsAtV}
	}
	return charge.Setting{HeldV: a.RunsAtV, LeastV: a.LeastV}
}

func settingOf(c job.Charger) charge.Setting {
	return charge.Setting{HeldV: c.OutputV, EqualiseV: c.EqualiseV, MilliVPerC: c.MilliVPerC, ToleranceV: c.ToleranceV}
}

// findHeights works out the highest voltage that each source ever holds.
func (m *Facts) findHeights() error {
	m.heights = map[string]decimal.Decimal{}
	for _, b := range m.Job.Batteries {
		m.heights[b.Name] = b.FullV
	}
	for _, a := range m.Job.Alternators {
		m.heights[a.Name] = a.RunsAtV
	}
	for i, c := range m.Job.Chargers {
		highest, err := settingOf(c).Highest(m.Job.ColdestC)
		if err != nil {
			return working.In(m.ChargerPath(i), err)
		}
		m.heights[c.Name] = highest.VoltageV
	}
	return nil
}

// VoltageWindow is a battery as the voltage of a charger meets it. It is charged
// from the coldest that its unit lets it be to the hottest air that the job
// states round it.
func (m *Facts) VoltageWindow(b job.Battery) charge.VoltageWindow {
	cells := int64(6) // of 12 V
	if b.Chemistry.Is(tables.LiFePO4) {
		cells = 4
	}
	v := charge.VoltageWindow{
		Chemistry: b.Chemistry, Cells: int(m.Job.SystemV.Mul(decimal.NewFromInt(cells)).DivRound(decimal.NewFromInt(12), 0).IntPart()),
		LeastV: b.ChargeLeastV, GreatestV: b.ChargeMostV, CutOutV: b.ChargeCutOutV,
	}
	coldest := m.BeginsC(b)
	if b.LeastChargeC.Valid { // C02 judges whether it is charged below that
		coldest = decimal.Max(coldest, b.LeastChargeC.Decimal)
	}
	hottest := decimal.Max(coldest, decimal.Min(m.HottestAt(b), decimal.NewFromInt(100)))
	v.ColdestC, v.HottestC = decimal.NewNullDecimal(coldest), decimal.NewNullDecimal(hottest)
	return v
}
