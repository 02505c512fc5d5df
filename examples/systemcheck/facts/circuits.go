package facts

import (
	"fmt"
	"slices"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Circuit is what was worked out about one run.
type Circuit struct {
	Name       string
	DesignA    decimal.Decimal // greatest steady current in any state
	Case       string          // where it carries that
	AmpacityA  decimal.Decimal
	ConductorC decimal.Decimal
	DropV      decimal.Decimal // of the run itself at DesignA
	FaultA     decimal.Decimal // the greatest at its ends
}

// SetName names the rule set, and says where it only serves as a yardstick.
func (m *Facts) SetName() string {
	if m.Set.Yardstick(m.Job.Craft) {
		return m.Set.Name + "; it is written for " + m.Set.Applies + " and serves here as a yardstick"
	}
	return m.Set.Name
}

// Assumed lists what the job does not state and a figure of ours stands in for.
func (m *Facts) Assumed() []string {
	var all []string
	for _, r := range m.Runs {
		if !r.TerminalC.Valid {
			all = append(all, "Terminals without a stated rating bear 70 °C (common practice).")
			break
		}
	}
	for _, b := range m.Job.Batteries {
		if !b.LowMilliohm.Valid || !b.HighMilliohm.Valid {
			all = append(all, "The resistance of "+b.Name+" is a typical range, from memory.")
		}
	}
	if !m.Set.Drop.Other.Stated() && !m.Set.Drop.Critical.Stated() {
		all = append(all, fmt.Sprintf("No voltage drop is judged: the rule set sets no limit at %s V. Rule W04 holds each load to its lowest voltage.", m.Job.SystemV))
	}
	for _, l := range m.Job.Loads {
		if listed := m.listedHours(l.Name); !l.Cranking && m.OfHouse(l.Node()) && listed.LessThan(l.HoursADay) {
			all = append(all, fmt.Sprintf("%s: in use for %s h a day, but the states that list it last %s h; the rest counts as spread over the day.", l.Name, l.HoursADay, listed))
		}
	}
	for _, name := range m.unlisted() {
		all = append(all, name+": no state uses it; its line is judged at its full output all the same.")
	}
	return all
}

// unlisted names the alternators and chargers that no state lists. The sun needs
// no list.
func (m *Facts) unlisted() []string {
	var all []string
	for _, a := range m.Job.Alternators {
		all = append(all, a.Name)
	}
	for _, c := range m.Job.Chargers {
		if c.Kind != "solar" {
			all = append(all, c.Name)
		}
	}
	return slices.DeleteFunc(all, func(name string) bool {
		return slices.ContainsFunc(m.Job.States, func(s job.State) bool { return slices.Contains(s.Sources, name) })
	})
}

// listedHours is how long a day the states last that list a load.
func (m *Facts) listedHours(load string) decimal.Decimal {
	hours := decimal.Zero
	for _, s := range m.Job.States {
		if slices.Contains(s.Loads, load) {
			hours = hours.Add(s.HoursDay)
		}
	}
	return hours
}

func (m *Facts) Circuits() ([]Circuit, error) {
	var all []Circuit
	for _, r := range m.Runs {
		drop, err := r.drop(r.DesignA)
		if err != nil {
			return nil, working.In(r.Path, err)
		}
		c := Circuit{Name: r.Name, DesignA: r.DesignA, Case: r.Worst, DropV: drop.DropV, ConductorC: r.atC}
		if r.NoAmps == nil {
			c.AmpacityA = r.Ampacity.AmpacityA
		}
		for _, node := range []string{r.From, r.To} {
			f, err := m.Fault(node)
			if err != nil {
				return nil, working.In(r.Path, err)
			}
			c.FaultA = decimal.Max(c.FaultA, f.FaultA)
		}
		all = append(all, c)
	}
	return all, nil
}
