package inspect

import (
	"slices"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Month is how the bank fares through weeks of a month's mean days, by rule C08:
// aged, full at the start, with the sources and loads of every day.
type Month struct {
	Month         string          // "" where no array makes one month unlike another
	Weeks         int             // four, or more where it still sank
	LowestPercent decimal.Decimal // of the capacity left to it
	EndPercent    decimal.Decimal // after these weeks
	ShedH         decimal.Decimal // hours in which the loads went short
	Verdict       working.Verdict
}

// monthsOf reads the months out of the findings of rule C08, the worst first.
func (m *model) monthsOf(findings []Finding) ([]Month, error) {
	months, err := m.months()
	if err != nil {
		return nil, err
	}
	var all []Month
	for _, n := range months {
		one, where := Month{}, "the house bank"
		if one.Month = m.monthName(n); one.Month != "" {
			where += ", " + one.Month
		}
		i := slices.IndexFunc(findings, func(f Finding) bool { return f.ID == "C08" && f.Where == where })
		if i < 0 || len(findings[i].Working) == 0 {
			continue
		}
		one.Verdict = findings[i].Verdict()
		days, _ := findings[i].Working.Value("N_b")
		one.Weeks = whole(days) / 7
		one.LowestPercent, _ = findings[i].Working.Value("s_min")
		one.EndPercent, _ = findings[i].Working.Value("s_e")
		one.ShedH, _ = findings[i].Working.Value("t_shed")
		all = append(all, one)
	}
	return all, nil
}
