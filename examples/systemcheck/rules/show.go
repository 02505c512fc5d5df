package rules

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"example.org/extralow/tables/working"
)

// List prints every rule in a line: its id, what a failure would come to, its title.
func List(out io.Writer) error {
	for _, r := range every {
		ids := strings.Join(append([]string{r.ID}, r.Also...), " ")
		if _, err := fmt.Fprintf(out, "%-11s %-14s %s\n", ids, r.Grade, r.Title); err != nil {
			return err
		}
	}
	return nil
}

// Show prints everything that is known about a rule, by its id or a further one.
func Show(out io.Writer, id string) error {
	r, ok := Find(strings.ToUpper(strings.TrimSpace(id)))
	if !ok {
		return working.OneOf("rule", id, ids()...)
	}
	lines := []string{
		r.ID + "  " + r.Title,
		"Grade: " + r.Grade.String(),
		"Danger: " + r.Danger,
		"Why: " + r.Why,
		"Law: " + strings.Join(r.Sources, "; "),
	}
	if len(r.Also) > 0 {
		lines = append(lines, "Answers also as: "+strings.Join(r.Also, ", "))
	}
	if r.Grade == Dangerous {
		lines = append(lines, "While it fails, do not "+r.Forbids.String()+".")
	}
	if r.OfSet {
		lines = append(lines, "Figures: those that the rule set of the job states; see -sets")
	}
	for _, x := range append([]string{r.ID}, r.Also...) {
		if text := r.advice(x); text != "" && (x == r.ID || text != r.Advice) {
			lines = append(lines, "What to do, "+x+": "+r.First+text)
		}
	}
	if worse := r.worse(); worse != "" {
		lines = append(lines, "Never better as these grow worse: "+worse)
	}
	lines = append(lines, "What can change it: "+r.Changes.String(), "Rests on: "+r.RestsOn.String())
	for _, line := range lines {
		if _, err := fmt.Fprintln(out, strings.Join(working.Wrap(line, 76), "\n    ")); err != nil {
			return err
		}
	}
	return nil
}

// worse lists the keys whose danger makes a rule worse, once each.
func (r Rule) worse() string {
	var keys []string
	for _, g := range r.Worse {
		if !slices.Contains(keys, g.Key) {
			keys = append(keys, g.Key)
		}
	}
	return strings.Join(keys, ", ")
}

// ids lists every id that a rule answers under.
func ids() []string {
	var all []string
	for _, r := range every {
		all = append(append(all, r.ID), r.Also...)
	}
	slices.Sort(all)
	return slices.Compact(all)
}
