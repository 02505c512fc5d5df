package installation

import (
	"fmt"
	"slices"

	"example.org/extralow/tables/working"
)

// With is the same installation with one circuit replaced: between the same nodes
// and with the same switch, by its name. The answers are those of
// [Installation.Solve] within the solver's tolerance; only the part of the circuit
// is solved again, and what feeds that through converters. What was asked goes on
// answering for the circuit that was. Ranges and errors as of
// [Installation.Solve].
func (s *Solved) With(c Circuit) (*Solved, error) {
	i, err := s.circuit("name", c.Name)
	if err != nil {
		return nil, err
	}
	old := s.plan.in.Circuits[i]
	for _, x := range []struct{ field, got, want string }{
		{"from_node", c.From, old.From}, {"to_node", c.To, old.To}, {"switch", c.Switch.String(), old.Switch.String()},
	} {
		if x.got != x.want {
			return nil, &working.InputError{Field: x.field, Got: fmt.Sprintf("%.60q", x.got), Want: fmt.Sprintf("%q, as it was", x.want)}
		}
	}
	if err := c.check(); err != nil {
		return nil, err
	}
	l, err := c.line(s.plan.in.Rule)
	if err != nil {
		return nil, err
	}
	p := *s.plan
	p.in.Circuits, p.lines = slices.Clone(p.in.Circuits), slices.Clone(p.lines)
	p.in.Circuits[i], p.lines[i] = c, l
	return s.again(&p, p.partOfCircuit(i)), nil
}

// again solves a part again, and those upstream of it whose converters feed it
// alone. The rest stays.
func (s *Solved) again(p *plan, part int) *Solved {
	found := slices.Clone(s.found)
	changed := make([]bool, len(p.parts))
	changed[part] = true
	for _, i := range p.order {
		for _, source := range p.parts[i].inputs {
			out := p.partOf[p.feeders[len(p.in.Batteries)+source][0]]
			changed[i] = changed[i] || changed[out] && p.parts[out].supplied()
		}
		if changed[i] {
			found[i] = p.settle(i, found)
		}
	}
	next := newSolved(p, found)
	for i := range p.parts {
		if i != part {
			next.strong[i], next.weak[i] = s.strong[i], s.weak[i]
		}
	}
	return next
}
