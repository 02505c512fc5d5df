package nodal

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestFactorsAreTheSolver: of a circuit of batteries, resistances and constant
// currents, the voltages from the factors are those of the solver, and satisfy
// Kirchhoff's law at every node.
func TestFactorsAreTheSolver(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 200 {
		c := drawn(r)
		want, stuck, err := c.Solve()
		require.NoError(t, err)
		require.Equal(t, -1, stuck)
		current := make([]float64, len(c.Fixed))
		for _, e := range c.Elements {
			current[e.From] += e.EMF*e.Siemens - e.Ampere
			current[e.To] -= e.EMF*e.Siemens - e.Ampere
		}
		got := c.Factor().Volts(current)
		for i := range want {
			assert.InDelta(t, want[i], got[i], 1e-9)
		}
		for _, e := range c.Elements {
			current[e.From] -= (got[e.From] - got[e.To]) * e.Siemens
			current[e.To] += (got[e.From] - got[e.To]) * e.Siemens
		}
		for i := 1; i < len(current); i++ {
			assert.InDelta(t, 0, current[i], 1e-6)
		}
	}
}

// drawn is a tree with some loops, two batteries and a few currents that charge.
func drawn(r *rand.Rand) *Circuit {
	nodes := 3 + r.IntN(20)
	var elements []Element
	for i := range 2 {
		elements = append(elements, Element{From: 1 + i, EMF: 12 + float64(i), Siemens: 100 + 400*r.Float64(), Limit: math.Inf(1)})
	}
	for i := 2; i < nodes; i++ {
		elements = append(elements, Element{From: i, To: 1 + r.IntN(i-1), Siemens: 10 + 1000*r.Float64()})
	}
	branches := len(elements) - 2
	for i := 3; i < nodes; i += 2 {
		elements = append(elements, Element{From: i, Ampere: -5 * r.Float64()})
	}
	return New(nodes, elements, 2, branches)
}

// TestNothingHolds: a node that no conductance holds stays at 0 V, whatever current
// it has, and no neighbour of it moves.
func TestNothingHolds(t *testing.T) {
	c := New(4, []Element{{From: 1, EMF: 12, Siemens: 100, Limit: math.Inf(1)}, {From: 1, To: 2}, {From: 2, To: 3}}, 1, 2)
	v := c.Factor().Volts([]float64{0, 1200, 0, 0})
	assert.Equal(t, []float64{0, 12, 0, 0}, v)
}
