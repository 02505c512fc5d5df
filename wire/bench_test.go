package wire_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// feeders is a network as it is built: a bank, a distribution tree of three
// branches at every node, constant-power loads at the ends.
func feeders(nodes int) wire.Network {
	n := wire.Network{Sources: []wire.NodeSource{{Name: "bank", Node: "n0", EMFV: d("26.4"), Milliohm: d("2")}}}
	for i := 1; i < nodes; i++ {
		n.Branches = append(n.Branches, wire.Branch{Name: fmt.Sprint("b", i), From: fmt.Sprint("n", (i-1)/3), To: fmt.Sprint("n", i), Milliohm: d("0.8")})
		if 3*i >= nodes {
			n.Loads = append(n.Loads, wire.NodeLoad{Name: fmt.Sprint("l", i), Node: fmt.Sprint("n", i), PowerW: some("3")})
		}
	}
	return n
}

func BenchmarkNetwork(b *testing.B) {
	for _, nodes := range []int{10, 100, 1000} {
		n := feeders(nodes)
		b.Run(fmt.Sprint(nodes), func(b *testing.B) {
			for b.Loop() {
				if s, err := n.Solve(); err != nil || s.CollapsedAt != "" {
					b.Fatal(err, s.CollapsedAt)
				}
			}
		})
	}
}

func BenchmarkBank16(b *testing.B) {
	n := bank(16, "0.1", 1, 16)
	for b.Loop() {
		if _, err := n.Solve(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkLoops(b *testing.B) {
	n := random(rand.New(rand.NewPCG(5, 6)), 200)
	for b.Loop() {
		if _, err := n.Solve(); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkLookUp reads one figure of a column already chosen.
func BenchmarkLookUp(b *testing.B) {
	size := feeder().Size
	column := must(european().Ampacity.Column(size, "B", d("90")))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := column.At(size); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAmpacity(b *testing.B) {
	c, rules := feeder(), european().Ampacity
	for b.Loop() {
		if _, err := c.Ampacity(rules); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkDrop is a drop with its working.
func BenchmarkDrop(b *testing.B) {
	run := wire.Run{CurrentA: d("18"), LengthM: d("6.5"), MilliohmPerM: d("5.5"), JointsMilliohm: d("1.2")}
	for b.Loop() {
		if _, err := run.Drop(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSmallest(b *testing.B) {
	s := fridge()
	s.CurrentA, s.SurgeA = d("60"), decimal.NewNullDecimal(d("90"))
	for b.Loop() {
		if _, err := s.LeastSize(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFault(b *testing.B) {
	n := van()
	for b.Loop() {
		if _, err := n.Fault("busbar", decimal.Zero); err != nil {
			b.Fatal(err)
		}
	}
}
