package paper

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/examples/systemcheck/rules"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
)

// Remembered is a place in a document whose figures are written from memory and
// took part in verdicts.
type Remembered struct {
	Source   cite.Source `json:"source"`
	Rules    []string    `json:"rules"`
	Verdicts int         `json:"verdicts"`
}

// Remembered lists what the verdicts of a report take from memory, that which most
// of them take first, and how many verdicts there are of all: passes and failures.
func (r Report) Remembered() (all []Remembered, resting, of int) {
	at := map[cite.Source]int{}
	for _, f := range r.Findings {
		if v := f.Verdict(); v != working.Passes && v != working.Fails {
			continue
		}
		of++
		sources := remembered(f)
		if len(sources) > 0 {
			resting++
		}
		for _, s := range sources {
			i, ok := at[s]
			if !ok {
				i = len(all)
				at[s] = i
				all = append(all, Remembered{Source: s})
			}
			all[i].Verdicts++
			if !slices.Contains(all[i].Rules, f.ID) {
				all[i].Rules = append(all[i].Rules, f.ID)
			}
		}
	}
	slices.SortStableFunc(all, func(a, b Remembered) int {
		return cmp.Or(cmp.Compare(b.Verdicts, a.Verdicts), cmp.Compare(a.Source.String(), b.Source.String()))
	})
	return all, resting, of
}

// remembered lists the sources from memory of one finding, each once.
func remembered(f rules.Finding) []cite.Source {
	var all []cite.Source
	add := func(s cite.Source) {
		if s.Confidence == cite.FromMemory && !slices.Contains(all, s) {
			all = append(all, s)
		}
	}
	add(f.Source)
	for i := range f.Working {
		add(f.Working[i].Source)
	}
	return all
}

// rests ends the tables with what a reader has to look up before he relies on them.
func (p *page) rests(r Report) {
	all, resting, of := r.Remembered()
	if resting == 0 {
		return
	}
	p.title("What rests on memory")
	p.para(0, fmt.Sprintf("%d of %d verdicts use a figure that is written here from memory. Read it where it stands before you rely on a near limit:", resting, of))
	for _, m := range all {
		where := m.Source
		where.Confidence = cite.Published
		slices.Sort(m.Rules)
		p.item(fmt.Sprintf("%3d  ", m.Verdicts), fmt.Sprintf("%s (%s)", where, strings.Join(m.Rules, ", ")))
	}
}
