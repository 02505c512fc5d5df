package facts

import (
	"slices"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// GuardA is the larger rating of the devices of a run: the return carries whatever
// they let pass; 0 where it has none.
func (r *Run) GuardA() decimal.Decimal {
	most := decimal.Zero
	for _, d := range []*job.Device{r.Device, r.FarDevice} {
		if d != nil {
			most = decimal.Max(most, d.RatingA)
		}
	}
	return most
}

// ReturnRule is what the set asks to bring the current back, and where it asks
// nothing what another one of the same craft does if that is a boat: water makes a
// hull that carries current corrode, whoever judges it.
func (m *Facts) ReturnRule() (working.Figure, string) {
	if m.Set.Return.Stated() || m.Job.Craft != "boat" {
		return m.Set.Return, m.Set.Name
	}
	of := tables.RuleSets()
	i := slices.IndexFunc(of, func(s tables.RuleSet) bool { return s.Return.Stated() && !s.Yardstick(m.Job.Craft) })
	return of[i].Return, of[i].Name
}
