package rules

import (
	"cmp"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/tables/working"
)

// Judge asks every rule, several at once, and sorts the findings by danger. What only
// starves is asked first: to step through weeks of charging takes longest.
func Judge(m *facts.Facts) ([]Finding, error) {
	found, faults := make([][]Finding, len(every)), make([]error, len(every))
	var next atomic.Int64
	next.Store(int64(len(every)))
	var done sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		done.Go(func() {
			for i := next.Add(-1); i >= 0; i = next.Add(-1) {
				found[i], faults[i] = every[i].ask(m)
			}
		})
	}
	done.Wait()
	for _, err := range faults {
		if err != nil {
			return nil, err
		}
	}
	all := slices.Concat(found...)
	sortFindings(all)
	return all, nil
}

// Ask asks one rule, and sorts its findings by danger.
func Ask(m *facts.Facts, r Rule) ([]Finding, error) {
	all, err := r.ask(m)
	sortFindings(all)
	return all, err
}

func (r Rule) ask(m *facts.Facts) ([]Finding, error) {
	all, err := r.Judge(m)
	for i := range all {
		f := &all[i]
		f.Check = r.tellable(m, f.Check)
		f.Rule, f.Title, f.Rank = r.ID, r.Title, rankOf(r)
		f.Danger = cmp.Or(f.Danger, r.Danger)
		f.Grade, f.Forbids = r.Grade, r.Forbids
		if r.Grade == WillNotServe && m.StopsSafety(f.Path, f.Circuit) {
			f.Grade, f.Forbids = Dangerous, Drive
		}
	}
	return all, err
}

// tellable takes back a pass that rests on currents which nobody knows, or on a
// resistance.
func (r Rule) tellable(m *facts.Facts, c working.Check) working.Check {
	if c.Verdict() != working.Passes {
		return c
	}
	if r.RestsOn&Currents != 0 && m.Collapsed() {
		return working.Check{ID: c.ID, Title: c.Title, Silent: collapsedText}
	}
	unknown := m.Unknown()
	if len(unknown) == 0 || r.RestsOn&Resistance == 0 {
		return c
	}
	return working.Check{ID: c.ID, Title: c.Title, Missing: "measure the resistance of " + strings.Join(unknown, " and ") + " first (see B17): no typical range is listed for it"}
}
