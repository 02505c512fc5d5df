package facts

import (
	"errors"
	"slices"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
)

// place is where a run with a switch lies: those between the same two nodes open
// together.
func (r *Run) place() string {
	if r.Switch == nil {
		return ""
	}
	return min(r.From, r.To) + "\n" + max(r.From, r.To)
}

// usuallyClosedLinks names a run of each place that links two banks and is not closed in
// need alone.
func (m *Facts) usuallyClosedLinks() []string {
	var all []string
	for _, place := range m.links() {
		if !m.usuallyOpen(place) {
			all = append(all, m.Runs[slices.IndexFunc(m.Runs, func(r *Run) bool { return r.place() == place })].Name)
		}
	}
	return all
}

// usuallyOpen reports whether a place is a link that is closed in need alone.
func (m *Facts) usuallyOpen(place string) bool {
	return slices.Contains(m.links(), place) &&
		!slices.ContainsFunc(m.Runs, func(r *Run) bool { return r.place() == place && !r.Switch.UsuallyOpen })
}

// usuallyOpenLinks wants every switch that is said to be usually open to link two banks:
// elsewhere everything would have to be judged with it open.
func (m *Facts) usuallyOpenLinks() error {
	var all []error
	for _, r := range m.Runs {
		if r.Switch != nil && r.Switch.UsuallyOpen && !slices.Contains(m.links(), r.place()) {
			all = append(all, &working.InputError{
				Field: r.Path + ".switch.usually_open", Got: "true", Want: "it left out: opened alone, this switch does not part two banks of which each has something to feed",
			})
		}
	}
	return errors.Join(all...)
}

// links lists the places of switches that link two banks.
func (m *Facts) links() []string { return m.linkedBy }

// findLinks finds them: opened, they part a battery of the house bank from one of
// another, and leave each battery of the house bank something to feed. What does
// not is the battery's own switch.
func (m *Facts) findLinks() []string {
	var all []string
	for _, r := range m.Runs {
		place := r.place()
		if place != "" && !slices.Contains(all, place) && m.partsBanks(place) {
			all = append(all, place)
		}
	}
	return all
}

func (m *Facts) partsBanks(place string) bool {
	for _, b := range m.Job.Batteries {
		if b.Bank == "house" && !m.reaches(b.Name, place, func(node string) bool { return slices.Contains(m.consumers(), node) }) {
			return false
		}
	}
	return slices.ContainsFunc(m.Job.Batteries, func(b job.Battery) bool {
		return b.Bank != "house" && m.OfHouse(b.Name) && !m.reaches(b.Name, place, m.calledHouse)
	})
}

// calledHouse reports whether a node is a battery that the file puts into the house
// bank.
func (m *Facts) calledHouse(node string) bool {
	return slices.ContainsFunc(m.Job.Batteries, func(b job.Battery) bool { return b.Bank == "house" && b.Name == node })
}

// reaches reports whether cables lead from a node to another with the switches of
// a place open.
func (m *Facts) reaches(node, place string, isEnd func(node string) bool) bool {
	_, _, ok := m.reach(node, nil, func(r *Run, _ string) bool { return r.place() != place }, isEnd)
	return ok
}
