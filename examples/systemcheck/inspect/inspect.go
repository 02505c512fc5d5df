package inspect

import (
	"cmp"
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
	Corner     string          // where it carries that
	AmpacityA  decimal.Decimal
	ConductorC decimal.Decimal
	DropV      decimal.Decimal // of the run itself at DesignA
	FaultA     decimal.Decimal // the greatest at its ends
}

// Inspect judges a job by every rule. The error joins what is wrong with the
// input, each [working.InputError] with its path in the job file; a rule that
// fails is a finding, not an error. A job that no file was read for is put
// through the same judgement of its keys first.
func Inspect(j job.Job) (Report, error) {
	if err := j.Check(); err != nil {
		return Report{}, err
	}
	m, err := newModel(j)
	if err != nil {
		return Report{}, err
	}
	findings, err := m.judge(rules)
	if err != nil {
		return Report{}, err
	}
	for i, text := range m.remedies(findings) {
		findings[i].Remedy = text
	}
	return m.report(findings)
}

// Passes reports whether every rule that applies to a job passes, without the rest
// of an inspection.
func Passes(j job.Job) (bool, error) {
	if err := j.Check(); err != nil {
		return false, err
	}
	m, err := newModel(j)
	if err != nil {
		return false, err
	}
	findings, err := m.judge(rules)
	return Report{Findings: findings}.Passes(), err
}

// report adds the tables that a fitter reads to the findings.
func (m *model) report(findings []Finding) (Report, error) {
	r := Report{Job: m.job, Set: m.setName(), Findings: findings, Volts: m.volts(), Assumed: m.assumed(), Unjudged: m.unjudged()}
	var err error
	if r.Circuits, err = m.circuits(); err != nil {
		return r, err
	}
	return r, m.bankTables(&r)
}

// bankTables adds what a customer asks of the bank: what a day takes from it,
// how large it should be, and how it is filled.
func (m *model) bankTables(r *Report) (err error) {
	if r.Audit, err = m.auditInFull(); err != nil {
		return err
	}
	if r.Bank, err = m.bankInShort(); err != nil {
		return err
	}
	if r.Sizing, err = m.sized(r.Findings); err != nil {
		return err
	}
	if r.Charging, err = m.chargingInFull(r.Bank, r.Audit.ChargeAh); err != nil {
		return err
	}
	r.Months, err = m.monthsInFull()
	return err
}

// judge asks the rules, and sorts the findings by danger.
func (m *model) judge(asked []rule) ([]Finding, error) {
	var all []Finding
	for _, r := range asked {
		found, err := r.judge(m)
		if err != nil {
			return nil, err
		}
		for _, f := range found {
			f.Check = m.tellable(f.Check)
			f.Title = r.title
			f.Danger, f.Rank = cmp.Or(f.Danger, r.danger), rankOf(r.id)
			all = append(all, f)
		}
	}
	sortFindings(all)
	return all, nil
}

// setName names the rule set, and says where it only serves as a yardstick.
func (m *model) setName() string {
	if m.set.Yardstick(m.job.Craft) {
		return m.set.Name + "; it is written for " + m.set.Applies + " and serves here as a yardstick"
	}
	return m.set.Name
}

// assumed lists what the job does not state and a figure of ours stands in for.
func (m *model) assumed() []string {
	var all []string
	for _, r := range m.runs {
		if !r.TerminalC.Valid {
			all = append(all, "Terminals without a stated rating bear 70 °C (common practice).")
			break
		}
	}
	for _, b := range m.job.Batteries {
		if !b.LowMilliohm.Valid || !b.HighMilliohm.Valid {
			all = append(all, "The resistance of "+b.Name+" is a typical range, from memory.")
		}
	}
	if !m.set.Drop.Other.Stated() && !m.set.Drop.Critical.Stated() {
		all = append(all, fmt.Sprintf("No voltage drop is judged: the rule set sets no limit at %s V. Rule W04 holds each load to its lowest voltage.", m.job.SystemV))
	}
	for _, l := range m.job.Loads {
		if listed := m.listedHours(l.Name); !l.Cranking && m.ofHouse(l.Node()) && listed.LessThan(l.HoursADay) {
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
func (m *model) unlisted() []string {
	var all []string
	for _, a := range m.job.Alternators {
		all = append(all, a.Name)
	}
	for _, c := range m.job.Chargers {
		if c.Kind != "solar" {
			all = append(all, c.Name)
		}
	}
	return slices.DeleteFunc(all, func(name string) bool {
		return slices.ContainsFunc(m.job.States, func(s job.State) bool { return slices.Contains(s.Sources, name) })
	})
}

// listedHours is how long a day the states last that list a load.
func (m *model) listedHours(load string) decimal.Decimal {
	hours := decimal.Zero
	for _, s := range m.job.States {
		if slices.Contains(s.Loads, load) {
			hours = hours.Add(s.HoursDay)
		}
	}
	return hours
}

func (m *model) circuits() ([]Circuit, error) {
	var all []Circuit
	for _, r := range m.runs {
		drop, err := r.drop(r.designA)
		if err != nil {
			return nil, working.In(r.path, err)
		}
		c := Circuit{Name: r.Name, DesignA: r.designA, Corner: r.worst, DropV: drop.DropV, ConductorC: r.atC}
		if r.noAmps == nil {
			c.AmpacityA = r.ampacity.AmpacityA
		}
		for _, node := range []string{r.From, r.To} {
			f, err := m.fault(node)
			if err != nil {
				return nil, working.In(r.path, err)
			}
			c.FaultA = decimal.Max(c.FaultA, f.CurrentA)
		}
		all = append(all, c)
	}
	return all, nil
}

// rankOf is the place of a rule in the order of danger, 1 first.
func rankOf(id string) int {
	return 1 + slices.IndexFunc(rules, func(r rule) bool { return r.id == id })
}
