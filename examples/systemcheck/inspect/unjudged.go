package inspect

import (
	"fmt"
	"strings"

	"example.org/extralow/examples/systemcheck/job"
)

// unjudged lists what no rule judged because the job says nothing of it, where that
// decides no danger but only whether all serves as it should.
func (m *model) unjudged() []string {
	var all []string
	list := func(text string, names []string) {
		if len(names) > 0 {
			all = append(all, fmt.Sprintf(text, strings.Join(names, ", ")))
		}
	}
	list("Starts, of which no surge_w is stated: whether device and inverter ride through them, and what is left meanwhile: %s.", m.loadsWith(func(l job.Load) bool {
		return !l.Cranking && !l.SurgeW.Valid
	}))
	list("Ranges of supply voltage, of which no works_from_v, works_to_v or supply_code is stated: %s.", m.unranged())
	if m.job.Bay == nil {
		all = append(all, "The bay, which is not described: whether the batteries fit and stay cool.")
	}
	if !m.job.Needs.ParkedDays.Valid {
		all = append(all, "The time of standing, of which no parked_days is stated: what drains the batteries meanwhile.")
	}
	return all
}

func (m *model) loadsWith(holds func(job.Load) bool) (names []string) {
	for _, l := range m.job.Loads {
		if holds(l) {
			names = append(names, l.Name)
		}
	}
	return names
}

// unranged are the units of which nothing is said and nothing asked.
func (m *model) unranged() (names []string) {
	for _, u := range m.units() {
		if !u.ranged() && !m.decides(u) {
			names = append(names, u.name)
		}
	}
	return names
}
