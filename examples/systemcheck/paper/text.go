// Package paper prints what an inspection found: as text for a terminal of 80
// columns and as JSON.
package paper

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"example.org/extralow/examples/systemcheck/rules"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
)

const width = 80

// Text writes the report. With the working, every finding is followed by the
// lines that led to it.
func Text(out io.Writer, file string, r Report, withWorking bool) error {
	p := &page{}
	p.head(file, r)
	p.failures(r)
	p.questions(r)
	p.schedule(r)
	p.volts(r)
	p.audit(r)
	p.bank(r)
	p.passes(r)
	p.silent(r)
	p.unjudged(r)
	p.assumed(r)
	if withWorking {
		p.working(r)
		p.bankWorking(r)
	}
	p.cautions()
	_, err := io.WriteString(out, p.String())
	return err
}

type page struct{ strings.Builder }

// para writes text in lines of the page's width.
func (p *page) para(indent int, text string) {
	for _, line := range working.Wrap(text, width-indent) {
		p.WriteString(strings.Repeat(" ", indent) + line + "\n")
	}
}

func (p *page) title(text string) {
	fmt.Fprintf(p, "\n%s\n%s\n", text, strings.Repeat("-", utf8.RuneCountInString(text)))
}

func (p *page) head(file string, r Report) {
	fails, unknown := r.Count(working.Fails), r.Count(working.CannotTell)
	counts := fmt.Sprintf("%d pass, %d do not apply", r.Count(working.Passes), r.Count(working.NotApplicable))
	p.para(0, fmt.Sprintf("%s: %s V, %s", r.Job.Name, r.Job.SystemV, r.Job.Craft))
	p.para(0, strings.TrimSuffix(fmt.Sprintf("%s, written %s", file, r.Job.Date), ", written "))
	p.para(0, "Judged by: "+r.Set)
	p.WriteString("\n")
	if n := len(r.Unjudged); n > 0 {
		counts += fmt.Sprintf("; %d not judged", n)
	}
	if r.Passes() {
		p.para(0, fmt.Sprintf("EVERY CHECK PASSES: %s.", counts))
		return
	}
	p.para(0, fmt.Sprintf("DO NOT ENERGISE: %d fail, %d cannot be told, %s.", fails, unknown, counts))
}

func (p *page) failures(r Report) {
	if r.Count(working.Fails) == 0 {
		return
	}
	p.title("What fails, most dangerous first")
	n := 0
	for _, f := range r.Findings {
		if f.Verdict() != working.Fails {
			continue
		}
		n++
		demand, limit := MeterPair(f.Demand, f.Limit, f.Unit)
		p.para(0, fmt.Sprintf("%2d. %s: %s", n, f.Where, f.Title))
		p.para(4, fmt.Sprintf("%s %s, %s %s%s", f.Asks, demand, f.Allows, limit, corner(f)))
		p.para(4, "Danger: "+f.Danger)
		p.para(4, "Change: "+f.Remedy)
		p.para(4, "Rule:   "+ruleLine(f))
	}
}

func corner(f rules.Finding) string {
	if f.Case == "" {
		return ""
	}
	return " (" + f.Case + ")"
}

// ruleLine names the rule, its source and how sure its figures are.
func ruleLine(f rules.Finding) string {
	line := f.ID
	if f.Source.Key != "" {
		line += ", " + f.Source.String()
	}
	if c := f.Working.Confidence(); c != cite.Published && c != cite.Unstated && c != f.Source.Confidence {
		line += "; weakest figure: " + c.String()
	}
	return line
}

func (p *page) questions(r Report) {
	if r.Count(working.CannotTell) == 0 {
		return
	}
	p.title("Measure or ask first")
	for _, f := range r.Findings {
		if f.Verdict() == working.CannotTell {
			p.para(0, fmt.Sprintf(" -  %s: %s", f.Where, f.Title))
			p.para(4, f.Missing)
			p.para(4, "Rule: "+ruleLine(f))
		}
	}
}

// passes prints one line a rule: how many pass, and the tightest of them.
func (p *page) passes(r Report) {
	p.title("What passes, and the tightest of each")
	for _, group := range byRule(r, working.Passes) {
		tight := tightest(group)
		demand, limit := MeterPair(tight.Demand, tight.Limit, tight.Unit)
		line := fmt.Sprintf("%s %3d  %s: %s, %s %s, %s %s", tight.ID, len(group), tight.Title, tight.Where, tight.Asks, demand, tight.Allows, limit)
		if u, ok := tight.Utilisation(); ok {
			line += fmt.Sprintf(" (%s %%)", u.Shift(2))
		}
		if c := weakest(group); c != cite.Published && c != cite.Unstated && c != cite.Given {
			line += "; weakest figure: " + c.String()
		}
		p.hang(9, line)
	}
}

// hang writes text in lines of the page's width, all but the first indented.
func (p *page) hang(indent int, text string) {
	for i, line := range working.Wrap(text, width-indent) {
		if i > 0 {
			line = strings.Repeat(" ", indent) + line
		}
		p.WriteString(line + "\n")
	}
}

// Hang breaks a line that is too long for the page, and indents what follows.
func Hang(line string) string {
	if utf8.RuneCountInString(line) <= width {
		return line
	}
	return strings.Join(working.Wrap(line, width-4), "\n    ")
}

// byRule groups the findings of one verdict by rule, in order of danger.
func byRule(r Report, v working.Verdict) [][]rules.Finding {
	var all [][]rules.Finding
	at := map[string]int{}
	for _, f := range r.Findings {
		if f.Verdict() != v {
			continue
		}
		i, ok := at[f.ID]
		if !ok {
			i = len(all)
			at[f.ID] = i
			all = append(all, nil)
		}
		all[i] = append(all[i], f)
	}
	return all
}

// tightest returns the finding with the highest utilisation or, where ratios
// have no meaning, the least margin.
func tightest(group []rules.Finding) rules.Finding {
	return slices.MaxFunc(group, func(a, b rules.Finding) int {
		u, okA := a.Utilisation()
		v, okB := b.Utilisation()
		if okA && okB && a.Unit == "A" && b.Unit == "A" {
			return u.Cmp(v)
		}
		return b.Margin().Cmp(a.Margin())
	})
}

func weakest(group []rules.Finding) cite.Confidence {
	least := cite.Unstated
	for _, f := range group {
		least = cite.Weakest(least, f.Working.Confidence())
	}
	return least
}

// silent prints one line a rule and reason.
func (p *page) silent(r Report) {
	if r.Count(working.NotApplicable) == 0 {
		return
	}
	p.title("What does not apply")
	for _, group := range byRule(r, working.NotApplicable) {
		count := map[string]int{}
		for _, f := range group {
			if count[f.Silent]++; count[f.Silent] > 1 {
				continue
			}
			where := f.Where
			if more := same(group, f.Silent) - 1; more > 0 {
				where += fmt.Sprintf(" and %d more", more)
			}
			p.hang(5, fmt.Sprintf("%s  %s: %s", f.ID, where, f.Silent))
		}
	}
}

func same(group []rules.Finding, reason string) int {
	n := 0
	for _, f := range group {
		if f.Silent == reason {
			n++
		}
	}
	return n
}

func (p *page) assumed(r Report) {
	if len(r.Assumed) == 0 {
		return
	}
	p.title("Taken for granted, because the file does not say")
	for _, a := range r.Assumed {
		p.para(0, a)
	}
}

// unjudged prints what a pass does not cover.
func (p *page) unjudged(r Report) {
	if len(r.Unjudged) == 0 {
		return
	}
	p.title("What was not judged, because the file does not say")
	for _, u := range r.Unjudged {
		p.para(0, u)
	}
}

func (p *page) working(r Report) {
	p.title("Working")
	for _, f := range r.Findings {
		if len(f.Working) == 0 {
			continue
		}
		p.WriteString("\n")
		p.para(0, fmt.Sprintf("[%s] %s: %s", f.ID, f.Where, f.Title))
		p.lines(f.Working)
		p.para(4, fmt.Sprintf("%s: %s.", f.Title, f.Verdict()))
	}
}

// lines prints a working, indented.
func (p *page) lines(w working.Working) {
	for line := range strings.Lines(w.String()) {
		p.WriteString("    " + line)
	}
}

// cautions end every whole check.
var cautions = []string{
	"This is a design aid, not a certificate. A competent person answers for the installation.",
	"The figures hold for the edition, ambient, grouping and terminal ratings stated. Local codes come first.",
	"A fuse does not protect against a bad joint: measure the millivolts across each under load.",
	"Before work: switch off every source, solar modules too, disconnect and insulate the battery, take off rings and watch.",
	"Mains wiring, gas, seats and structure, airbag, brake and steering circuits, and type approval belong to licensed or approved people.",
}

func (p *page) cautions() {
	p.title("Cautions")
	for _, c := range cautions {
		p.para(0, c)
	}
}
