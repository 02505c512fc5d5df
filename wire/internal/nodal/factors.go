package nodal

import "slices"

// Factors is a circuit of nothing but conductances, eliminated once: the voltages
// of any currents then cost one walk over its nodes.
type Factors struct{ e *elimination }

// Factor eliminates the nodes of a circuit as if every element were its
// conductance.
func (c *Circuit) Factor() *Factors {
	c.Prepare()
	f := &Factors{c.order.again()}
	siemens := make([]float64, len(c.Elements))
	for k, e := range c.Elements {
		siemens[k] = e.Siemens
	}
	f.e.solve(siemens, make([]float64, len(c.Fixed)))
	return f
}

// Prepare finds the order in which the nodes are eliminated, so that a circuit can
// be read from several goroutines.
func (c *Circuit) Prepare() {
	if c.order == nil {
		c.order = newElimination(c)
	}
}

// Volts returns the voltages at which the conductances draw the current of each
// node; of nodes that nothing holds it is 0. Currents of nodes at 0 V do not
// count. It may be called from several goroutines.
func (f *Factors) Volts(current []float64) []float64 {
	x := slices.Clone(current)
	for k, s := range f.e.steps {
		if pivot := f.e.pivots[k]; pivot > 0 {
			for b, far := range s.far {
				x[far] += f.e.edge[s.edge[b]] / pivot * x[s.node]
			}
		}
	}
	for _, held := range f.e.held {
		x[held] = 0
	}
	for k, s := range slices.Backward(f.e.steps) {
		pivot, sum := f.e.pivots[k], x[s.node]
		if x[s.node] = 0; pivot > 0 {
			for b, far := range s.far {
				sum += f.e.edge[s.edge[b]] * x[far]
			}
			x[s.node] = sum / pivot
		}
	}
	return x
}
