package facts

import (
	"errors"
	"slices"
	"sync"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"example.org/extralow/wire/installation"
	"github.com/shopspring/decimal"
)

// Solved is a case of a state with its currents and voltages.
type Solved struct {
	*installation.CaseResult
	State *job.State
	Index int // of the state
}

// solve asks for the cases of all states; what is alone at its limit, and an engine that
// is started, stand in no state.
func (m *Facts) solve(s *installation.Solved) error {
	m.solved, m.Cases = s, nil
	for i, c := range s.Cases() {
		if c.State < 0 {
			continue
		}
		x, err := s.Case(i)
		if err != nil {
			return err
		}
		m.Cases = append(m.Cases, Solved{x, &m.Job.States[c.State], c.State})
	}
	return nil
}

// ask solves a case that is not listed, in a state as the loads that are listed change it.
func (m *Facts) ask(c installation.Case, state int, instead ...installation.LoadUse) (Solved, error) {
	s := m.states[state]
	s.Loads = slices.Clone(s.Loads)
	for _, u := range instead {
		if i := slices.IndexFunc(s.Loads, func(x installation.LoadUse) bool { return x.Load == u.Load }); i >= 0 {
			s.Loads[i] = u
		}
	}
	return m.askIn(c, state, s)
}

func (m *Facts) askIn(c installation.Case, state int, as installation.State) (Solved, error) {
	x, err := m.solved.Ask(c, as)
	return Solved{x, &m.Job.States[state], state}, err
}

// short reports whether a case is too short to heat anything, or to empty a battery: a
// start.
func (c Solved) short() bool { return c.Kind == installation.Brief && !c.Peaks }

// alone reports the plain case of a state: its loads on all batteries.
func (c Solved) alone() bool {
	return c.Case == installation.Case{Name: c.Name, State: c.Index, Loads: true}
}

// Voltage returns a node's voltage in a case; not ok where none holds.
func (c Solved) Voltage(node string) (decimal.Decimal, bool) {
	v, err := c.CaseResult.Voltage(node)
	return v.Decimal, err == nil && v.Valid
}

// LeftAt is what is left at a node in a case, nought where its part of the network has
// no operating point; not ok where nothing reaches it.
func (c Solved) LeftAt(node string) (decimal.Decimal, bool) {
	if v, ok := c.Voltage(node); ok {
		return v, true
	}
	_, err := c.Ladder(node)
	return decimal.Zero, errors.Is(err, wire.ErrNoOperatingPoint)
}

// LeastAt is the case that leaves least at a node, the first of several, of those that
// count; not ok where nothing reaches it in any.
func LeastAt(cases []Solved, node string) (worst Solved, ok bool) {
	lowest := decimal.Zero
	for _, c := range cases {
		if v, reached := c.LeftAt(node); reached && (!ok || v.LessThan(lowest)) {
			worst, lowest, ok = c, v, true
		}
	}
	return worst, ok
}

// current returns a run's current in a case, nought where none holds.
func (c Solved) current(name string) decimal.Decimal {
	a, _ := c.Current(name)
	return a.Decimal
}

// given is what a source gives in a case.
func (c Solved) given(name string) decimal.Decimal {
	a, _ := c.Given(name)
	return a.Decimal
}

// Feeds reports whether a load, or an inverter, runs in a case, and a voltage holds.
func (m *Facts) Feeds(c Solved, load string) bool {
	drawn, err := c.Drawn(load)
	return err == nil && drawn.Valid && c.Loads && slices.ContainsFunc(m.states[c.Index].Loads, func(u installation.LoadUse) bool { return u.Load == load })
}

// along is what each run of a path carries in a case.
func (c Solved) along(path []*Run) []decimal.Decimal {
	all := make([]decimal.Decimal, len(path))
	for i, r := range path {
		all[i] = c.current(r.Name).Abs()
	}
	return all
}

// LostTo is the drop along a path in a case.
func (c Solved) LostTo(path []*Run) decimal.Decimal { return Lost(path, c.along(path)) }

// Along lays that out.
func (c Solved) Along(path []*Run) (wire.PathDrop, error) { return DropAlong(path, c.along(path)) }

// regulated is the resistance of a source that holds its voltage up to its
// limit: small, for the solver's sake.
var regulated = sync.OnceValue(func() decimal.Decimal {
	f, err := tables.FaultSource("regulated")
	return Tabled(f, err)
})

// Tabled is a figure that the tables are known to hold; a library without it is
// broken.
func Tabled(f working.Figure, err error) decimal.Decimal {
	if err != nil {
		panic(err)
	}
	return f.Value
}
