package facts

import (
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/examples/systemcheck/job"
)

// Unjudged lists what no rule judged because the job says nothing of it, where that
// decides no danger but only whether all serves as it should.
func (m *Facts) Unjudged() []string {
	var all []string
	list := func(text string, names []string) {
		if len(names) > 0 {
			all = append(all, fmt.Sprintf(text, strings.Join(names, ", ")))
		}
	}
	list("Starts, of which no surge_w is stated: whether device and inverter ride through them, and what is left meanwhile: %s.", m.loadsWith(func(l job.Load) bool {
		return !l.Cranking && !l.SurgeW.Valid
	}))
	list("Short circuits of cranking cables, which no device guards, as is common practice: %s. Run them sheathed, short and clear of edges.", m.unfused())
	list("Stalls, of which no stall_a and stall_s are stated: whether device or protector opens before a motor burns: %s.", m.loadsWith(func(l job.Load) bool {
		return !l.Cranking && l.SurgeW.Valid && !l.StallA.Valid
	}))
	list("Ranges of supply voltage, of which no works_from_v, works_to_v or supply_code is stated: %s.", m.unranged())
	if m.Job.Bay == nil {
		all = append(all, "The bay, which is not described: whether the batteries fit and stay cool.")
	}
	if !m.Job.Needs.ParkedDays.Valid {
		all = append(all, "The time of standing, of which no parked_days is stated: what drains the batteries meanwhile.")
	}
	if m.Job.Needs.ParkedDays.Valid {
		list("What the vehicle itself draws while it stands, of which no vehicle_parked_a is stated: it is not in the drain of %s.", m.unmetered())
	}
	return append(all, m.unlooked()...)
}

// unfused are the cranking cables that no device guards.
func (m *Facts) unfused() (names []string) {
	for _, r := range m.Runs {
		if r.Cranking && r.Device == nil && r.FarDevice == nil {
			names = append(names, r.Name)
		}
	}
	return names
}

// unmetered are the banks that start an engine or hang on its alternator, of which
// nobody says what the vehicle draws on them while it stands.
func (m *Facts) unmetered() (names []string) {
	for _, k := range m.Banks {
		driven := !k.House || slices.ContainsFunc(m.Job.Alternators, func(a job.Alternator) bool { return m.drawsOn(k, a.Name) })
		if driven && !VehicleParked(k).Valid {
			names = append(names, k.Name)
		}
	}
	return names
}

// unlooked lists what an inspector would have to look at.
func (m *Facts) unlooked() (all []string) {
	holders, edges, reached := 0, 0, 0
	for _, r := range m.Runs {
		for _, d := range []*job.Device{r.Device, r.FarDevice} {
			if d != nil && !d.HolderA.Valid {
				holders++
			}
		}
		if !r.PassesEdge && r.EdgeGuard == "" {
			edges++
		}
		if r.Switch != nil && r.Switch.Kind == "isolator" && r.Switch.Reached == "" {
			reached++
		}
	}
	count := func(text string, n int) {
		if n > 0 {
			all = append(all, fmt.Sprintf(text, n))
		}
	}
	count("Holders of devices, of which no holder_a is stated: %d.", holders)
	count("Edges and bulkheads, of which neither passes_edge nor edge_guard is stated: circuits that may pass one, %d.", edges)
	count("Isolators, of which it is not stated how they are reached: %d.", reached)
	if len(m.Job.Spaces) == 0 {
		all = append(all, "Spaces in which petrol vapour or liquefied gas may gather, of which none is stated: whether what stands there is ignition protected.")
	}
	return all
}

func (m *Facts) loadsWith(holds func(job.Load) bool) (names []string) {
	for _, l := range m.Job.Loads {
		if holds(l) {
			names = append(names, l.Name)
		}
	}
	return names
}

// unranged are the units of which nothing is said and nothing asked.
func (m *Facts) unranged() (names []string) {
	for _, u := range m.Units() {
		if !u.Ranged() && !m.Decides(u) {
			names = append(names, u.Name)
		}
	}
	return names
}
