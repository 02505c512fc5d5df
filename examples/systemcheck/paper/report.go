package paper

import (
	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/examples/systemcheck/mend"
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

// ReportOn judges a job by every rule. The error joins what is wrong with the
// input, each [working.InputError] with its path in the job file; a rule that
// fails is a finding, not an error. A job that no file was read for is put
// through the same judgement of its keys first.
func ReportOn(j job.Job) (Report, error) {
	if err := j.Check(); err != nil {
		return Report{}, err
	}
	m, err := facts.New(j)
	if err != nil {
		return Report{}, err
	}
	findings, err := rules.Judge(m)
	if err != nil {
		return Report{}, err
	}
	for i, text := range mend.Remedies(m, findings) {
		findings[i].Remedy = text
	}
	return gather(m, findings)
}

// Passes reports whether every rule that applies to a job passes, without the rest
// of an inspection.
func Passes(j job.Job) (bool, error) {
	if err := j.Check(); err != nil {
		return false, err
	}
	m, err := facts.New(j)
	if err != nil {
		return false, err
	}
	findings, err := rules.Judge(m)
	return Report{Findings: findings}.Passes(), err
}

// gather adds the tables that a fitter reads to the findings.
func gather(m *facts.Facts, findings []rules.Finding) (Report, error) {
	r := Report{Job: m.Job, Set: m.SetName(), Findings: findings, Volts: m.Volts(), Assumed: m.Assumed(), Unjudged: m.Unjudged()}
	var err error
	if r.Circuits, err = m.Circuits(); err != nil {
		return r, err
	}
	return r, bankTables(m, &r)
}

// bankTables adds what a customer asks of the bank: what a day takes from it,
// how large it should be, and how it is filled.
func bankTables(m *facts.Facts, r *Report) (err error) {
	if r.Audit, err = m.AuditInFull(); err != nil {
		return err
	}
	if r.Bank, err = m.BankInShort(); err != nil {
		return err
	}
	if r.Sizing, err = rules.Sized(m, r.Findings); err != nil {
		return err
	}
	if r.Charging, err = m.ChargingInFull(r.Bank, r.Audit.ChargeAh); err != nil {
		return err
	}
	r.Months, err = rules.MonthsInFull(m)
	return err
}
