package installation

import (
	"encoding/json"
	"errors"
	"maps"
	"math"
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var (
	kirchhoff  = cite.Kirchhoff.At("", cite.Published)
	ohm        = cite.OhmsLaw.At("", cite.Published)
	arithmetic = cite.Arithmetic.At("", cite.Published)
)

// Solved is an installation solved in every case that can occur. It may be asked
// from several goroutines. It remembers the solver: as JSON it gives its cases and
// circuits, and does not come back.
type Solved struct {
	plan   *plan
	found  []*found  // of each part
	strong []*strong // of each part
	weak   []*weak
}

// Solve solves the installation in every case that can occur; [Solved.Cases] lists
// them. Of each circuit it finds the greatest current, the temperature that this
// makes it, and its resistance there:
//
//	I_b = the greatest current of all normal cases
//	T_c = T_a + (T_r − T_a) × (I ÷ I_c)², I the greatest of I_b, that with a battery lost
//	      and that while a full bank feeds an empty one
//	R   = L_1 × R_T1 + L_2 × R_T2 + ... + R_rt + R_j
//
// A normal case is solved with all cables at ambient, as hot as they get and at the
// temperature that their insulation bears, and no current of it exceeds I_b in any
// of the three; where currents rise with that heat they are climbed after until
// they rise no more. Voltages are those of cables as hot as they get. Where loads
// ask for more than their part of the installation can bring, its circuits are not
// answered, and those of other parts are.
//
// 1 to 4000 circuits, batteries, sources and loads together in at most 100 states;
// a circuit has up to 20 sections of up to 1000 m and 1 to 20 cables, joints and
// return 0 to 1000 mΩ; a conductor is one of [wire.Conductor], insulation 60 to 250 °C,
// ambient -40 to 120 °C, terminals 40 to 250 °C, in a group of 1 to 60 circuits with up
// to 240 conductors; voltages above 0 to 1000 V, resistances of batteries 0.001 to
// 1 000 000 mΩ, currents to 10 000 A, powers to 1 000 000 W. All faults are told at
// once. Sources: Kirchhoff's laws, Ohm's law; BS 7671 appendix 4, clause 6.1, for the
// temperature; the tables of the rule for ampacity and resistance.
func (in Installation) Solve() (*Solved, error) {
	faults := in.check()
	if len(in.Circuits) > greatestThings {
		return nil, faults
	}
	lines, err := in.lines()
	if err = errors.Join(faults, err); err != nil {
		return nil, err
	}
	p, err := newPlan(in, lines)
	if err != nil {
		return nil, err
	}
	return newSolved(p, p.settleAll()), nil
}

func newSolved(p *plan, found []*found) *Solved {
	s := &Solved{plan: p, found: found}
	for _, of := range p.parts {
		s.strong, s.weak = append(s.strong, &strong{plan: p, of: of}), append(s.weak, &weak{plan: p, of: of})
	}
	return s
}

// errUnsolved is what a handle that nothing solved answers.
var errUnsolved = &working.InputError{Field: "solved", Got: "empty", Want: "one that an installation gave"}

// Cases lists the cases that can occur, in the order in which [CaseVoltage] counts
// them.
func (s *Solved) Cases() []Case {
	if s == nil || s.plan == nil {
		return nil
	}
	return slices.Clone(s.plan.cases)
}

// CaseVoltage is the voltage of a node in a case.
type CaseVoltage struct {
	Case     int                 `json:"case"`      // index in Cases
	VoltageV decimal.NullDecimal `json:"voltage_v"` // unset: no operating point
}

// Volts returns the voltage of a node in each case that reaches it, to 0.000001 V,
// against the common return: cables as hot as they get, every contact in it.
func (s *Solved) Volts(node string) ([]CaseVoltage, error) {
	at, err := s.node(node)
	if err != nil {
		return nil, err
	}
	f := s.found[s.plan.partOf[at]]
	var all []CaseVoltage
	for i := range s.plan.cases {
		switch reaches := s.plan.reaches(s.plan.cases[i], s.plan.setups[i].alive, at); {
		case reaches && f.stuck[i] != -1:
			all = append(all, CaseVoltage{Case: i})
		case reaches && f.volts[i] != nil:
			all = append(all, CaseVoltage{i, fixed(f.volts[i][s.plan.local[at]], 6)})
		}
	}
	return all, nil
}

// reaches reports whether something feeds a node in a case.
func (p *plan) reaches(c Case, alive []bool, node int) bool {
	own := !p.linear(c) || p.partOfLimited(c) == p.parts[p.partOf[node]]
	return own && alive[node]
}

// node is the number of a live node.
func (s *Solved) node(name string) (int, error) {
	if s == nil || s.plan == nil {
		return 0, errUnsolved
	}
	at, ok := s.plan.index[name]
	if !ok || at == 0 {
		return 0, unknown("node", name, "live node", s.plan.nodes[1:])
	}
	return at, nil
}

// circuit is the number of a circuit.
func (s *Solved) circuit(field, name string) (int, error) {
	if s == nil || s.plan == nil {
		return 0, errUnsolved
	}
	if i, ok := s.plan.circuits[name]; ok {
		return i, nil
	}
	return 0, unknown(field, name, "circuit", slices.Sorted(maps.Keys(s.plan.circuits)))
}

// fixed turns a solver's float into a decimal of the places that its model can
// claim; NaN and Inf are no number.
func fixed(x float64, places int32) decimal.NullDecimal {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return decimal.NullDecimal{}
	}
	const exact = 1 << 53 // whole numbers that a float64 tells apart
	if whole := math.Round(x * math.Pow10(int(places))); math.Abs(whole) < exact {
		return decimal.NewNullDecimal(decimal.New(int64(whole), -places))
	}
	return decimal.NewNullDecimal(decimal.NewFromFloat(x).Round(places))
}

// MarshalJSON writes the cases and what was found of each circuit.
func (s *Solved) MarshalJSON() ([]byte, error) {
	var out struct {
		Cases    []Case          `json:"cases"`
		Circuits []CircuitResult `json:"circuits"`
	}
	out.Cases = s.Cases()
	if s != nil && s.plan != nil {
		for i := range s.plan.lines {
			out.Circuits = append(out.Circuits, s.result(i))
		}
	}
	return json.Marshal(out)
}
