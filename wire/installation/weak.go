package installation

import (
	"math"
	"slices"
	"sync"

	"example.org/extralow/tables/working"
	"example.org/extralow/wire/internal/nodal"
	"github.com/shopspring/decimal"
)

// LeastFault is the smallest fault current that a battery drives past an end.
type LeastFault struct {
	FaultA  decimal.NullDecimal `json:"least_fault_a"` // unset: no battery drives any
	Case    string              `json:"case"`
	Working working.Working     `json:"working"`
}

// weak is a part as it feeds the smallest fault: batteries at the lowest rested
// voltage at which each is still connected and at their high resistance, cables as
// hot as their insulation bears, every contact, no source, no load. One battery of a
// bank may be missing, and one link may stand the other way.
type weak struct {
	*plan
	of   *part
	once sync.Once

	milliohm []float64
	variants []variant
}

// variant is one of these, eliminated once.
type variant struct {
	name    string
	missing string
	open    []bool
	factors *nodal.Factors
	rest    []float64
}

func (x *weak) prepare() {
	for _, i := range x.of.circuits {
		x.milliohm = append(x.milliohm, x.lines[i].atRated())
	}
	ways := []Case{{}}
	for _, l := range x.places {
		if name := x.in.Circuits[l.circuits[0]].Name; l.links || l.usuallyOpen {
			c := Case{Open: name}
			if l.usuallyOpen {
				c = Case{Closed: name}
			}
			ways = append(ways, c)
		}
	}
	missing := []string{""}
	for _, b := range x.standIns() {
		if slices.Contains(x.of.feeders, x.battery(b)) {
			missing = append(missing, b)
		}
	}
	for _, c := range ways {
		for _, c.BatteryMissing = range missing {
			x.variants = append(x.variants, x.variant(c))
		}
	}
}

func (x *weak) variant(c Case) variant {
	s := x.bare()
	s.open = x.opened(c)
	for i, b := range x.in.Batteries {
		if b.Name != c.BatteryMissing {
			s.feeders[i] = nodal.Element{EMF: float(b.LeastV), Siemens: 1000 / float(b.HighMilliohm), Limit: infinite}
		}
	}
	elements := x.of.elements(s, x.milliohm, s.own)
	current := make([]float64, len(x.of.nodes))
	for _, e := range elements[:x.of.batteries] {
		current[e.From] += e.EMF * e.Siemens
		current[e.To] -= e.EMF * e.Siemens
	}
	v := variant{name: c.leastName(), missing: c.BatteryMissing, open: s.open, factors: x.of.base.With(elements).Factor()}
	v.rest = v.factors.Volts(current)
	return v
}

func (c Case) leastName() string {
	name := "everything there"
	if c.BatteryMissing != "" {
		name = "without " + c.BatteryMissing
	}
	switch {
	case c.Open != "":
		name += ", " + c.Open + " open"
	case c.Closed != "":
		name += ", " + c.Closed + " closed"
	}
	return name + ", aged, at the lowest rested voltage"
}

// LeastFault returns the smallest current that passes an end of a circuit in a short
// circuit at a node: of all ways to have one battery of a bank missing and one link
// as it does not usually stand, that which gives least and still any.
//
//	I_kl = I_br
//
// Batteries are at their LeastV and high resistance, cables at the temperature that
// their insulation bears, with every contact; no source helps. The fault is to the
// return of what hangs at the node, a frame between that and the sources counted.
// Current to 0.000001 A. Sources: Kirchhoff's laws, Ohm's law.
func (s *Solved) LeastFault(e End, node string) (LeastFault, error) {
	i, _, err := s.end(e)
	if err != nil {
		return LeastFault{}, err
	}
	at, err := s.faulty(node)
	if err != nil {
		return LeastFault{}, err
	}
	part := s.plan.partOfCircuit(i)
	if s.plan.partOf[at] != part {
		return LeastFault{}, nil
	}
	x := s.weak[part]
	x.once.Do(x.prepare)
	least, volts, by := math.Inf(1), []float64(nil), -1
	for k := range x.variants {
		if a, v := x.through(&x.variants[k], i, at); a < least*(1-1e-9) {
			least, volts, by = a, v, k
		}
	}
	if by < 0 {
		return LeastFault{}, nil
	}
	return x.layOut(&x.variants[by], i, volts, least), nil
}

// nothing is a share of a fault current that counts as none.
const nothing = 1e-7

// through is what passes a circuit in a fault at a node, +Inf where that is nothing.
func (x *weak) through(v *variant, circuit, at int) (ampere float64, volts []float64) {
	k := x.placeInPart(circuit)
	ends := [2]int{x.local[at], x.local[x.faultReturn(at)]}
	column := make([]float64, len(x.of.nodes))
	column[ends[0]], column[ends[1]] = -1, 1
	column = v.factors.Volts(column)
	own := column[ends[1]] - column[ends[0]]
	if v.open[circuit] || own <= 0 {
		return math.Inf(1), nil
	}
	fault := (v.rest[ends[0]] - v.rest[ends[1]]) / own
	for n := range column {
		column[n] = v.rest[n] + fault*column[n]
	}
	a, b := x.local[x.wires[circuit][0]], x.local[x.wires[circuit][1]]
	if ampere = math.Abs(column[a]-column[b]) * 1000 / x.milliohm[k]; ampere <= nothing*fault {
		return math.Inf(1), nil
	}
	return ampere, column
}

// faultReturn is the return of what hangs at a node.
func (p *plan) faultReturn(node int) int {
	for _, d := range p.draws {
		if d[0] == node {
			return d[1]
		}
	}
	return 0
}

// layOut lays out the smallest fault: its batteries, and what passes the circuit.
func (x *weak) layOut(v *variant, circuit int, volts []float64, least float64) LeastFault {
	var w working.Working
	for _, i := range x.of.feeders[:x.of.batteries] {
		b := x.in.Batteries[i]
		if b.Name == v.missing {
			continue
		}
		w.Part(b.Name)
		w = append(w, b.From...)
		e, r := w.Given("E_0", b.LeastV), w.Given("R_i", b.HighMilliohm)
		u := volts[x.local[x.feeders[i][0]]] - volts[x.local[x.feeders[i][1]]]
		w.Step("I_so", fixed((float(e)-u)*1000/float(r), 6).Decimal, kirchhoff)
		w.Note("solved with the whole installation")
	}
	l := &x.lines[circuit]
	w.Part(l.Name)
	w = append(w, l.Basis...)
	w.Given("R_b", decimal.NewFromFloat(x.milliohm[x.placeInPart(circuit)]).Round(9))
	w.Note("as hot as its insulation bears, with its contacts")
	a := w.Step("I_br", fixed(least, 6).Decimal, kirchhoff)
	w.Calc("I_kl", "I_br", a, kirchhoff)
	return LeastFault{decimal.NewNullDecimal(a), v.name, slices.Clip(w)}
}
