package paper

import (
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/examples/systemcheck/rules"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
)

// inDetail is how many failures the first page tells in full.
const inDetail = 5

// A matter is findings that one thing cures: one change, or one answer.
type matter []rules.Finding

// failures are the matters that fail, the gravest first: findings of one rule with
// one consequence and one change.
func failures(r Report) []matter {
	return gathered(r, working.Fails, func(f rules.Finding) string {
		return strings.Join([]string{f.Grade.String(), f.ID, f.Danger, f.Remedy}, "\n")
	})
}

// questions are the matters that cannot be told: whatever rules they keep from an
// answer, findings that the same answer would tell.
func questions(r Report) []matter {
	return gathered(r, working.CannotTell, func(f rules.Finding) string { return f.Missing })
}

// gathered puts findings of one verdict together by a key, in order of the first of
// each.
func gathered(r Report, v working.Verdict, key func(rules.Finding) string) []matter {
	var all []matter
	at := map[string]int{}
	for _, f := range r.Findings {
		if f.Verdict() != v {
			continue
		}
		i, ok := at[key(f)]
		if !ok {
			i = len(all)
			at[key(f)] = i
			all = append(all, nil)
		}
		all[i] = append(all[i], f)
	}
	return all
}

// places lists where the findings of a matter are, each once.
func (m matter) places() string {
	var all []string
	for _, f := range m {
		if !slices.Contains(all, f.Where) {
			all = append(all, f.Where)
		}
	}
	return strings.Join(all, "; ")
}

// Headline is the verdict in a line: what a danger forbids; or what is to be measured
// first, and whether it would serve.
func (r Report) Headline() string {
	if acts := r.Forbids(); len(acts) > 0 {
		return "DO NOT " + strings.ToUpper(strings.Join(acts, ", do not "))
	}
	var all []string
	if asks := len(questions(r)); asks > 0 {
		all = append(all, "NOT CLEARED, measure or ask "+number(asks, "thing"))
	}
	switch {
	case r.fail(rules.WillNotServe) > 0:
		all = append(all, "WILL NOT SERVE")
	case r.fail(rules.Minor) > 0:
		all = append(all, "NOT AS IT OUGHT TO BE")
	case len(all) == 0:
		all = append(all, "EVERY CHECK MADE PASSES")
	}
	return strings.Join(all, "; ")
}

// Forbids are the acts that the dangers of a job forbid, in words. What may not be
// switched on may not be charged either.
func (r Report) Forbids() []string {
	forbidden := func(a rules.Act) bool {
		return slices.ContainsFunc(r.Findings, func(f rules.Finding) bool {
			return f.Verdict() == working.Fails && f.Grade == rules.Dangerous && f.Forbids == a
		})
	}
	acts := []string{}
	for _, a := range []rules.Act{rules.Energise, rules.Charge, rules.Drive} {
		if forbidden(a) && (a != rules.Charge || len(acts) == 0) {
			acts = append(acts, a.Aboard(r.Job.Craft))
		}
	}
	return acts
}

// fail counts the failures of a grade.
func (r Report) fail(g rules.Grade) int {
	n := 0
	for _, f := range r.Findings {
		if f.Verdict() == working.Fails && f.Grade == g {
			n++
		}
	}
	return n
}

func number(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// counts tells how many findings there are of each kind.
func (r Report) counts() string {
	var all []string
	if fails := r.Count(working.Fails); fails > 0 {
		var grades []string
		for _, g := range []rules.Grade{rules.Dangerous, rules.WillNotServe, rules.Minor} {
			if n := r.fail(g); n > 0 {
				grades = append(grades, fmt.Sprintf("%s %d", g, n))
			}
		}
		all = append(all, fmt.Sprintf("%d fail (%s), %s to put right", fails, strings.Join(grades, ", "), number(len(failures(r)), "thing")))
	}
	if n := r.Count(working.CannotTell); n > 0 {
		all = append(all, fmt.Sprintf("%d cannot be told", n))
	}
	all = append(all, fmt.Sprintf("%d pass, %d do not apply", r.Count(working.Passes), r.Count(working.NotApplicable)))
	if n := len(r.Unjudged); n > 0 {
		all = append(all, number(n, "thing")+" not judged")
	}
	return strings.Join(all, "; ")
}

func (p *page) head(file string, r Report) {
	p.para(0, fmt.Sprintf("%s: %s V, %s", r.Job.Name, r.Job.SystemV, r.Job.Craft))
	p.para(0, strings.TrimSuffix(fmt.Sprintf("%s, written %s", file, r.Job.Date), ", written "))
	p.para(0, "Judged by: "+r.Set)
	p.WriteString("\n")
	p.para(0, r.Headline()+": "+r.counts()+".")
}

// graded heads the failures of a grade.
var graded = map[rules.Grade]string{rules.Dangerous: "A danger", rules.WillNotServe: "Will not serve", rules.Minor: "Minor"}

// failures tells the gravest in full and the others in a line each.
func (p *page) failures(r Report) {
	all := failures(r)
	if len(all) == 0 {
		return
	}
	p.title("What fails, the gravest first")
	for i, m := range all {
		if g := m[0].Grade; i == 0 || g != all[i-1][0].Grade {
			p.WriteString(graded[g] + ":\n")
		}
		if i < inDetail {
			p.failure(i, m)
		} else {
			p.item(fmt.Sprintf("%2d. ", i+1), fmt.Sprintf("%s (%s)", m.told(), m[0].ID))
		}
	}
	if len(all) > inDetail {
		p.para(0, fmt.Sprintf("Those from %d on are told in full behind the tables.", inDetail+1))
	}
}

// further tells in full what the first page has in a line.
func (p *page) further(r Report) {
	all := failures(r)
	if len(all) <= inDetail {
		return
	}
	p.title("The other failures in full")
	for i, m := range all[inDetail:] {
		p.failure(inDetail+i, m)
	}
}

// told is a failure by its consequence.
func (m matter) told() string {
	return fmt.Sprintf("%s: %s", m.places(), m[0].Danger)
}

// failure tells where, what it would do, demand and limit, what to change and why.
func (p *page) failure(i int, m matter) {
	p.item(fmt.Sprintf("%2d. ", i+1), m.told())
	for _, f := range m {
		demand, limit := MeterPair(f.Demand, f.Limit, f.Unit)
		line := fmt.Sprintf("%s %s, %s %s%s", f.Asks, demand, f.Allows, limit, corner(f))
		if len(m) > 1 {
			line = f.Where + ": " + line
		}
		p.para(4, line)
	}
	p.para(4, "Change: "+m[0].Remedy)
	p.para(4, "Rule:   "+ruleLine(m[0]))
}

func corner(f rules.Finding) string {
	if f.Case == "" {
		return ""
	}
	return " (" + f.Case + ")"
}

// ruleLine names the rule, its source and how sure its figures are.
func ruleLine(f rules.Finding) string {
	line := f.ID + " " + f.Title
	if f.Source.Key != "" {
		line += ", " + f.Source.String()
	}
	if c := f.Working.Confidence(); c != cite.Published && c != cite.Unstated && c != f.Source.Confidence {
		line += "; weakest figure: " + c.String()
	}
	return line
}

// questions tells each thing to measure or to ask once, with the rules that wait
// for it.
func (p *page) questions(r Report) {
	all := questions(r)
	if len(all) == 0 {
		return
	}
	p.title("Measure or ask first")
	for i, m := range all {
		p.item(fmt.Sprintf("%2d. ", i+1), m[0].Missing)
		for _, waits := range byRule(Report{Findings: m}, working.CannotTell) {
			p.item("    "+waits[0].ID+" ", fmt.Sprintf("%s: %s", waits[0].Title, matter(waits).places()))
		}
	}
}
