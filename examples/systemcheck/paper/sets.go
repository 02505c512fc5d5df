package paper

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"example.org/extralow/examples/systemcheck/rules"
)

// Sets writes how a job fares under every rule set, side by side, and names the
// strictest by each rule.
func Sets(out io.Writer, name string, all []rules.SetVerdict) error {
	p := &page{}
	p.para(0, name+": the same job under every rule set, each by its own figures alone")
	p.WriteString("\n")
	rows := [][]string{{"rule"}}
	for i := range all {
		rows[0] = append(rows[0], fmt.Sprintf("(%d)", i+1))
	}
	for k, r := range all[0].Rules {
		row := []string{r.ID + " " + r.Title}
		for _, set := range all {
			row = append(row, cell(set.Rules[k]))
		}
		rows = append(rows, row)
	}
	most := min(46, room(rows, 2))
	t := tabwriter.NewWriter(p, 0, 0, 2, ' ', 0)
	for _, row := range rows {
		fmt.Fprintln(t, short(row[0], most)+"\t"+strings.Join(row[1:], "\t"))
	}
	t.Flush()
	p.WriteString("\n")
	for i, set := range all {
		text := fmt.Sprintf("(%d) %s", i+1, set.Set.Name)
		if set.Yardstick {
			text += "; written for " + set.Set.Applies + ", here a yardstick"
		}
		p.hang(4, text)
	}
	p.para(0, "f fail, p pass, - silent: the set has no such rule, or no figure for this job.")
	p.title("Strictest by each rule")
	for _, r := range all[0].Rules {
		set, rule, ok := rules.StrictestSet(all, r.ID)
		if !ok {
			p.hang(4, fmt.Sprintf("%s %s: every set is silent", r.ID, r.Title))
			continue
		}
		f := rule.Tightest
		demand, limit := MeterPair(f.Demand, f.Limit, f.Unit)
		p.hang(4, fmt.Sprintf("%s %s: %s, where %s has %s against %s (%s)", r.ID, r.Title, set.Set.Name, f.Where, demand, limit, f.Verdict()))
	}
	p.cautions()
	_, err := io.WriteString(out, p.String())
	return err
}

// cell counts a rule under one set: "2f 11p".
func cell(r rules.RuleVerdict) string {
	switch {
	case r.Fails+r.Passes == 0:
		return "-"
	case r.Fails == 0:
		return fmt.Sprintf("%dp", r.Passes)
	default:
		return fmt.Sprintf("%df %dp", r.Fails, r.Passes)
	}
}
