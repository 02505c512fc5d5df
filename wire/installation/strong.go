package installation

import (
	"math"
	"sync"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire/internal/nodal"
	"github.com/shopspring/decimal"
)

// strong is a part as it feeds the greatest fault: every source and every switch
// connected, batteries full and new, all cables at 20 °C, no contacts, no loads. It
// is eliminated once, as if every source were its EMF behind its resistance; a
// fault, and each source that is at its limit or gives nothing, is then a column.
type strong struct {
	*plan
	of   *part
	once sync.Once

	milliohm []float64
	elements []nodal.Element
	factors  *nodal.Factors
	rest     []float64   // volts without a fault
	columns  [][]float64 // of each feeder: volts by one ampere more of it
}

// struck is a part with a short circuit at a node.
type struck struct {
	volts  []float64
	gives  []float64 // A of each feeder
	ampere float64   // into the fault
}

// unlimited is what multiple of its greatest current a source that does not limit
// itself drives into a fault.
func unlimited() (working.Figure, error) { return tables.FaultSource("alternator-unlimited") }

// prepare eliminates the part.
func (s *strong) prepare() {
	s.milliohm = make([]float64, len(s.of.circuits))
	for k, i := range s.of.circuits {
		s.milliohm[k] = s.lines[i].bolted()
	}
	set := s.bare()
	for _, i := range s.of.feeders {
		set.feeders[i] = s.fullest(i)
	}
	s.elements = s.of.elements(set, s.milliohm, set.own)
	c := s.of.base.With(s.elements)
	s.factors = c.Factor()
	current := make([]float64, len(s.of.nodes))
	for _, e := range s.elements[:len(s.of.feeders)] {
		current[e.From] += e.EMF * e.Siemens
		current[e.To] -= e.EMF * e.Siemens
	}
	s.rest = s.factors.Volts(current)
	for _, e := range s.elements[:len(s.of.feeders)] {
		one := make([]float64, len(s.of.nodes))
		one[e.From], one[e.To] = 1, -1
		s.columns = append(s.columns, s.factors.Volts(one))
	}
}

// bare is a setup in which nothing feeds or draws, every switch closed.
func (p *plan) bare() setup {
	return setup{open: make([]bool, len(p.lines)), feeders: make([]nodal.Element, len(p.feeders)), draws: make([]nodal.Element, len(p.draws)),
		own: make([]float64, len(p.in.Sources)), inputs: make([]float64, len(p.in.Sources))}
}

// fullest is a battery or a source as it feeds the greatest fault. A battery that
// would take current is left out, as a source is.
func (p *plan) fullest(feeder int) nodal.Element {
	if feeder < len(p.in.Batteries) {
		b := p.in.Batteries[feeder]
		return nodal.Element{EMF: float(b.FullV), Siemens: 1000 / float(b.LowMilliohm), Limit: math.MaxFloat64}
	}
	s := p.in.Sources[feeder-len(p.in.Batteries)]
	return nodal.Element{EMF: float(s.HeldV), Siemens: p.regulated, Limit: float(s.drives())}
}

// drives is the most that a source drives into a fault.
func (s Source) drives() decimal.Decimal {
	_, most := s.shorted(&working.Working{}, "")
	return most
}

// shorted adds the lines of that, the symbols with an ending where several are listed,
// and returns its formula.
func (s Source) shorted(w *working.Working, ending string) (formula string, most decimal.Decimal) {
	if s.ShortA.Valid {
		return "I_shc" + ending, w.Given("I_shc"+ending, s.ShortA.Decimal)
	}
	most = w.Given("I_max"+ending, s.GreatestA)
	figure, err := unlimited()
	if s.LimitsItself || err != nil {
		return "I_max" + ending, most
	}
	return "I_max" + ending + " × k_ul" + ending, most.Mul(w.LookUp("k_ul"+ending, figure))
}

// at strikes the part at one of its nodes. The sources that are at their limit or
// give nothing are found by trying: from one guess to the next until it holds.
func (s *strong) at(node int) struck {
	s.once.Do(s.prepare)
	one := make([]float64, len(s.of.nodes))
	one[node] = -1
	column := s.factors.Volts(one)
	held := map[int]float64{} // feeders whose current is known, and it
	for range 4 * (len(s.of.feeders) + 2) {
		x := s.balance(node, column, held)
		if next := s.held(x); next == nil || same(next, held) {
			if next != nil {
				return x
			}
			break
		} else {
			held = next
		}
	}
	return s.stepwise(node)
}

// balance finds the fault's current and those that bring the feeders in the list to
// theirs.
func (s *strong) balance(node int, column []float64, held map[int]float64) struck {
	var list []int
	for k := range s.of.feeders {
		if _, ok := held[k]; ok {
			list = append(list, k)
		}
	}
	x := eliminate(s.equations(node, column, list, held))
	out := struck{volts: make([]float64, len(s.rest)), gives: make([]float64, len(s.of.feeders)), ampere: x[len(list)]}
	for i := range out.volts {
		out.volts[i] = s.rest[i] + out.ampere*column[i]
		for j, k := range list {
			out.volts[i] += x[j] * s.columns[k][i]
		}
	}
	out.volts[node] = 0
	for k := range s.of.feeders {
		out.gives[k] = s.elements[k].Siemens * (s.elements[k].EMF - s.across(out.volts, k))
	}
	return out
}

// across is the voltage at a feeder.
func (s *strong) across(v []float64, k int) float64 {
	return v[s.elements[k].From] - v[s.elements[k].To]
}

// equations are that no voltage is left at the node of the fault, and that each
// feeder in the list gives its current. The unknowns are what is added to each of
// these beyond its EMF behind its resistance, and last the fault's current.
func (s *strong) equations(node int, column []float64, list []int, held map[int]float64) [][]float64 {
	n := len(list) + 1
	a := make([][]float64, n)
	for row := range a {
		a[row] = make([]float64, n+1)
	}
	for j, k := range list {
		a[0][j] = s.columns[k][node]
		siemens := s.elements[k].Siemens
		for m, other := range list {
			a[j+1][m] = -siemens * s.across(s.columns[other], k)
		}
		a[j+1][j]++
		a[j+1][n-1] = -siemens * s.across(column, k)
		a[j+1][n] = held[k] - siemens*(s.elements[k].EMF-s.across(s.rest, k))
	}
	a[0][n-1], a[0][n] = column[node], -s.rest[node]
	return a
}

// held sets the currents of the feeders that would take current or give more than
// their limit, and puts these in their place in what was found; nil where that is no
// number.
func (s *strong) held(x struck) map[int]float64 {
	next := map[int]float64{}
	for k, gives := range x.gives {
		limit := s.elements[k].Limit
		switch {
		case math.IsNaN(gives):
			return nil
		case gives <= 0:
			next[k], x.gives[k] = 0, 0
		case gives >= limit:
			next[k], x.gives[k] = limit, limit
		}
	}
	return next
}

func same(a, b map[int]float64) bool {
	if len(a) != len(b) {
		return false
	}
	for k, v := range a {
		if w, ok := b[k]; !ok || v != w {
			return false
		}
	}
	return true
}

// stepwise has the solver find the fault where trying found no end.
func (s *strong) stepwise(node int) struck {
	c := nodal.New(len(s.of.nodes), s.elements, len(s.of.feeders), len(s.of.circuits))
	c.Fixed[node] = true
	v, stuck, err := c.Solve()
	out := struck{volts: v, gives: make([]float64, len(s.of.feeders)), ampere: math.NaN()}
	if err != nil || stuck >= 0 {
		return out
	}
	out.ampere = 0
	for k, e := range s.elements {
		i, _ := e.Through(v[e.From]-v[e.To], 1)
		if k < len(out.gives) {
			out.gives[k] = -i
		}
		switch node {
		case e.From:
			out.ampere -= i
		case e.To:
			out.ampere += i
		}
	}
	return out
}

// eliminate solves a few equations, the right side last in each row (Gauss, the
// greatest pivot first).
func eliminate(a [][]float64) []float64 {
	n := len(a)
	for col := range n {
		best := col
		for row := col; row < n; row++ {
			if math.Abs(a[row][col]) > math.Abs(a[best][col]) {
				best = row
			}
		}
		a[col], a[best] = a[best], a[col]
		for row := col + 1; row < n; row++ {
			share := a[row][col] / a[col][col]
			for k := col; k <= n; k++ {
				a[row][k] -= share * a[col][k]
			}
		}
	}
	x := make([]float64, n)
	for row := n - 1; row >= 0; row-- {
		sum := a[row][n]
		for k := row + 1; k < n; k++ {
			sum -= a[row][k] * x[k]
		}
		x[row] = sum / a[row][row]
	}
	return x
}
