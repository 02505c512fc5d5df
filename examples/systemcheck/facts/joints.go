package facts

import (
	"example.org/extralow/examples/systemcheck/job"
)

// StarterMotors lists the loads that crank engines.
func (m *Facts) StarterMotors() []job.Load {
	var all []job.Load
	for _, l := range m.Job.Loads {
		if l.Cranking {
			all = append(all, l)
		}
	}
	return all
}
