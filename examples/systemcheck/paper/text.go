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
	"github.com/shopspring/decimal"
)

const width = 80

// All asks for the whole working.
const All = "all"

// Text writes the report, and with a working also the lines that led to its findings:
// [All], or those of one rule or of one circuit, by name; "" for none. A name that no
// finding bears is a [working.InputError].
func Text(out io.Writer, file string, r Report, whose string) error {
	p := &page{}
	p.head(file, r)
	p.failures(r)
	p.questions(r)
	p.schedule(r)
	p.volts(r)
	p.audit(r)
	p.bank(r)
	p.further(r)
	p.passes(r)
	p.silent(r)
	p.unjudged(r)
	p.assumed(r)
	p.rests(r)
	if whose != "" {
		if err := p.working(r, whose); err != nil {
			return err
		}
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

// passes prints one line a rule: how many pass, and the tightest of them, that which
// is nearest to its limit first.
func (p *page) passes(r Report) {
	p.title("What passes, the nearest to its limit first")
	groups := byRule(r, working.Passes)
	slices.SortStableFunc(groups, func(a, b []rules.Finding) int { return used(b).Cmp(used(a)) })
	for _, group := range groups {
		tight := tightest(group)
		demand, limit := MeterPair(tight.Demand, tight.Limit, tight.Unit)
		line := fmt.Sprintf("%s: %s, %s %s, %s %s", tight.Title, tight.Where, tight.Asks, demand, tight.Allows, limit)
		if u, ok := tight.Utilisation(); ok {
			line += fmt.Sprintf(" (%s %%)", u.Shift(2))
		}
		if c := weakest(group); c != cite.Published && c != cite.Unstated && c != cite.Given {
			line += "; weakest figure: " + c.String()
		}
		p.item(fmt.Sprintf("%s %3d  ", tight.ID, len(group)), line)
	}
}

// item writes text behind a head, in lines of the page's width that begin where the
// first does.
func (p *page) item(head, text string) {
	indent := utf8.RuneCountInString(head)
	for i, line := range working.Wrap(text, width-indent) {
		if i > 0 {
			head = strings.Repeat(" ", indent)
		}
		p.WriteString(head + line + "\n")
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

// used is the share of its limit that the tightest of a group takes; -1 where ratios
// have no meaning, and of what is counted.
func used(group []rules.Finding) decimal.Decimal {
	if f := tightest(group); f.Unit != "" {
		if u, ok := f.Utilisation(); ok {
			return u
		}
	}
	return decimal.NewFromInt(-1)
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

// working prints the lines that led to the findings of a rule, of a circuit or of
// all, and with all how the bank was reckoned.
func (p *page) working(r Report, whose string) error {
	asked := slices.DeleteFunc(slices.Clone(r.Findings), func(f rules.Finding) bool {
		return whose != All && whose != f.Circuit && !strings.EqualFold(whose, f.ID) && !strings.EqualFold(whose, f.Rule)
	})
	if len(asked) == 0 {
		return &working.InputError{Field: "-working", Got: whose, Want: "all, a rule, as P09, or a circuit of the job"}
	}
	p.title("Working")
	for _, f := range asked {
		if len(f.Working) == 0 {
			continue
		}
		p.WriteString("\n")
		p.para(0, fmt.Sprintf("[%s] %s: %s", f.ID, f.Where, f.Title))
		p.lines(f.Working)
		p.para(4, fmt.Sprintf("%s: %s.", f.Title, f.Verdict()))
	}
	if whose == All {
		p.bankWorking(r)
	}
	return nil
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
