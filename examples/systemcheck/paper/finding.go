package paper

import (
	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/examples/systemcheck/rules"
	"example.org/extralow/tables/working"
)

// Report is what an inspection found, most dangerous first.
type Report struct {
	Job      job.Job
	Set      string // the rule set that judged
	Findings []rules.Finding
	Circuits []facts.Circuit // in the order of the job
	Volts    []facts.LoadVolts
	Audit    facts.Audit
	Bank     facts.BankSummary
	Sizing   rules.Sizing   // the capacity that the published worksheet asks for
	Charging facts.Charging // a day's use put back by each source alone, and by rules of thumb
	Months   []facts.Month  // the worst and the best for the sun
	Assumed  []string       // values that the job does not state
	Unjudged []string       // what no rule judged, because the job says nothing of it
}

// Count returns how many findings have that verdict.
func (r Report) Count(v working.Verdict) int {
	n := 0
	for _, f := range r.Findings {
		if f.Verdict() == v {
			n++
		}
	}
	return n
}

// Passes reports whether every rule that applies passes.
func (r Report) Passes() bool {
	return r.Count(working.Fails) == 0 && r.Count(working.CannotTell) == 0
}
