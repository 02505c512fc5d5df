// Package mend looks for what would make a failing job pass: the smallest change that
// cures a finding and makes no new one anywhere, tried on the whole job.
package mend

import (
	"cmp"
	"fmt"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/rules"
	"example.org/extralow/tables/working"
)

// Remedies returns the remedy of each finding that fails, "" for the others; as
// many are looked for at once as there are processors.
func Remedies(m *facts.Facts, findings []rules.Finding) []string {
	all := make([]string, len(findings))
	var next atomic.Int64
	var done sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		done.Go(func() {
			for i := next.Add(1) - 1; i < int64(len(findings)); i = next.Add(1) - 1 {
				if findings[i].Verdict() == working.Fails {
					all[i] = remedy(m, findings[i], findings)
				}
			}
		})
	}
	done.Wait()
	return all
}

// remedy returns the smallest change that makes a finding pass without making
// a new one anywhere, in words; each change is tried by judging the job again.
func remedy(m *facts.Facts, f rules.Finding, before []rules.Finding) string {
	rule, _ := rules.Find(f.Rule)
	reason, hopeless := "", false
	if rule.Reason != nil {
		reason, hopeless = rule.Reason(m, f)
	}
	for _, c := range hopeful(m, f, candidates(m, f, rule)) {
		text, ok := cures(m, c, f, before)
		switch {
		case ok && hopeless:
			return reason + ". The smallest change: " + text
		case ok:
			return rule.First + text
		}
	}
	return cmp.Or(reason, rule.Advised(m, f), "no single change of this circuit cures it: plan it anew")
}

// hopeful leaves out the sizes of a run on the way to a thing of which not even the
// thickest takes the finding away: what loses volts loses the more the thinner it is.
func hopeful(m *facts.Facts, f rules.Finding, all []Change) []Change {
	if rule, _ := rules.Find(f.Rule); !slices.Contains(rule.Tries, rules.ThickerPath) {
		return all
	}
	thickest := map[string]Change{}
	for _, c := range all {
		thickest[c.Circuit] = c // they come by size
	}
	vain := map[string]bool{}
	for name, c := range thickest {
		after, err := tried(m, c)
		vain[name] = err == nil && stays(after, f)
	}
	return slices.DeleteFunc(all, func(c Change) bool { return vain[c.Circuit] })
}

// cures tries a change on a copy of the job and returns it in words. A first
// look tells whether the finding stays; only where it does not, the trial is
// made whole and every rule asked that the change bears on.
func cures(m *facts.Facts, c Change, f rules.Finding, before []rules.Finding) (text string, ok bool) {
	after, err := tried(m, c)
	if err != nil {
		return "", false
	}
	text = c.Text
	if c.relays() {
		refitted, err := refit(after, c.Circuit)
		if err != nil {
			return "", false
		}
		text += refitted
	}
	if stays(after, f) {
		return "", false
	}
	wholly(after, m, c)
	for _, r := range quickFirst {
		if c.touches(r) && harms(after, r, f, before) {
			return "", false
		}
	}
	return text, true
}

// stays reports whether a finding still fails.
func stays(m *facts.Facts, f rules.Finding) bool {
	rule, _ := rules.Find(f.Rule)
	found, err := rules.Ask(m, rule)
	return err != nil || slices.ContainsFunc(found, func(now rules.Finding) bool { return sameFinding(now, f) && now.Verdict() == working.Fails })
}

// quickFirst are the rules that wiring bears on, those last that work the faults
// out: most changes that cure nothing show it before.
var quickFirst = func() []rules.Rule {
	wired := slices.DeleteFunc(rules.Rules(), func(r rules.Rule) bool { return r.Changes == 0 })
	slices.SortStableFunc(wired, func(a, b rules.Rule) int { return cost(a) - cost(b) })
	return wired
}()

func cost(r rules.Rule) int {
	if r.Slow {
		return 1
	}
	return 0
}

// harms reports whether a rule finds what is worse than before, or cannot be
// asked.
func harms(m *facts.Facts, r rules.Rule, cured rules.Finding, before []rules.Finding) bool {
	found, err := rules.Ask(m, r)
	return err != nil || slices.ContainsFunc(found, func(now rules.Finding) bool { return worse(now, cured, before) })
}

// tried returns the facts of the job with a change, as far as a first look at a
// finding needs it: of the devices the one that is another.
func tried(m *facts.Facts, c Change) (*facts.Facts, error) {
	after := *m
	after.Job = c.Applied(m.Job)
	if c.relays() {
		return &after, after.Relaid(c.Circuit)
	}
	after.Refitted(c.place(m.Job))
	return &after, nil
}

// wholly makes a trial of another device whole: it asks about every end that sees it,
// which has something else behind it than before.
func wholly(m *facts.Facts, before *facts.Facts, c Change) {
	if c.relays() {
		return
	}
	at := c.place(m.Job)
	for i, r := range m.Runs {
		for _, e := range []facts.End{r.EndAt(r.From), r.EndAt(r.To)} {
			if m.Sees(e, at) && !m.Behind(e.Node, r).Same(before.Behind(e.Node, before.Runs[i]), at) {
				m.Only[e.Path] = true
			}
		}
	}
}

// worse reports whether a finding is the one to cure, still there, or one that
// was not there before.
func worse(f rules.Finding, cured rules.Finding, before []rules.Finding) bool {
	if v := f.Verdict(); v != working.Fails && v != working.CannotTell {
		return false
	}
	stood := slices.ContainsFunc(before, func(b rules.Finding) bool { return sameFinding(b, f) && b.Verdict() == f.Verdict() })
	return sameFinding(f, cured) || !stood
}

// refit gives the devices of a run that no longer suit it the best rating of
// their window, and says so.
func refit(m *facts.Facts, name string) (text string, err error) {
	for _, e := range m.Ends() {
		if e.Fitted == nil || e.Name != name {
			continue
		}
		r, err := m.Window(e)
		if err != nil {
			return "", err
		}
		unfit := slices.ContainsFunc(rules.JudgeWindow(r, e.Fitted.RatingA).Checks, func(c working.Check) bool { return c.Verdict() == working.Fails })
		if unfit && r.Window.BestA.Valid {
			e.Fitted.Refit(r.Window.BestA.Decimal)
			text += fmt.Sprintf(", with %s A at %s", e.Fitted.RatingA, e.Node)
			m.Rated(e.Path)
		}
	}
	return text, nil
}

// sameFinding reports whether two findings answer one rule about one thing.
func sameFinding(f rules.Finding, g rules.Finding) bool { return f.ID == g.ID && f.Where == g.Where }
