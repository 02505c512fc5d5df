package rules

import (
	"example.org/extralow/examples/systemcheck/facts"
)

// MonthsInFull gathers the months that rule C08 judges, the worst first.
func MonthsInFull(m *facts.Facts) ([]facts.Month, error) {
	ledgers, err := m.Ledgers()
	if err != nil {
		return nil, err
	}
	var all []facts.Month
	for _, x := range ledgers {
		if x.Cold != "" {
			continue
		}
		c, err := holds(m, x)
		if err != nil {
			return nil, err
		}
		all = append(all, facts.Month{
			Month: x.Name, Weeks: x.Weeks, LowestPercent: x.LeastPercent, EndPercent: x.EndPercent, ShedH: x.ShedH, Verdict: c.Verdict(),
		})
	}
	return all, nil
}
