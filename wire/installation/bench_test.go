package installation_test

import (
	"fmt"
	"testing"

	"example.org/extralow/wire/installation"
	"github.com/shopspring/decimal"
)

// fleet is an installation of so many circuits: a bank of two, a starter battery
// behind a link, three sources, panels of nine loads, three states, a few starts.
func fleet(circuits int) installation.Installation {
	in := craft()
	in.States[0].Loads, in.States[1].Loads = in.States[0].Loads[:2], in.States[1].Loads[:1]
	for i := 0; len(in.Circuits) < circuits; i++ {
		panel := fmt.Sprint("panel ", i)
		in.Circuits = append(in.Circuits, run("bus", panel, "2", "16 mm2"))
		for k := 0; k < 9 && len(in.Circuits) < circuits; k++ {
			name := fmt.Sprintf("load %d.%d", i, k)
			in.Circuits = append(in.Circuits, run(panel, name, "2", "2.5 mm2"))
			l := installation.Load{Name: name, Node: name, Takes: installation.Demand{PowerW: decimal.NewNullDecimal(decimal.NewFromInt(900).DivRound(decimal.NewFromInt(int64(circuits)), 3))}}
			if k == 0 && i%4 == 0 {
				l.Starts = installation.Demand{PowerW: some("20")}
			}
			if k == 1 {
				l.Full, l.LeastV = installation.Demand{PowerW: some("10")}, some("10.5")
			}
			in.Loads = append(in.Loads, l)
			for s := range in.States[:1+k%2] {
				in.States[s].Loads = append(in.States[s].Loads, installation.LoadUse{Load: name})
			}
		}
	}
	return in
}

var sizes = []int{10, 40, 300, 1000}

func BenchmarkSolve(b *testing.B) {
	for _, n := range sizes {
		in := fleet(n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := in.Solve(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkWith replaces one circuit of the house.
func BenchmarkWith(b *testing.B) {
	for _, n := range sizes {
		s := must(fleet(n).Solve())
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				if _, err := s.With(thicker()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkFaults asks for all faults at once: the greatest through both ends of each
// circuit and the least past both.
func BenchmarkFaults(b *testing.B) {
	for _, n := range sizes {
		in := fleet(n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				b.StopTimer()
				s := must(in.Solve())
				b.StartTimer()
				for _, c := range in.Circuits {
					for _, node := range []string{c.From, c.To} {
						must(s.ThroughEnd(installation.End{Circuit: c.Name, Node: node}))
						must(s.LeastFault(installation.End{Circuit: c.Name, Node: node}, c.To))
					}
				}
			}
		})
	}
}

// BenchmarkInfeeds asks at each end what stands behind it.
func BenchmarkInfeeds(b *testing.B) {
	for _, n := range sizes {
		in := fleet(n)
		s := must(in.Solve())
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				for _, c := range in.Circuits {
					must(s.FedFrom(installation.End{Circuit: c.Name, Node: c.From}, fuses()))
				}
			}
		})
	}
}

// BenchmarkResults lays out every circuit.
func BenchmarkResults(b *testing.B) {
	for _, n := range sizes {
		in := fleet(n)
		s := must(in.Solve())
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				for _, c := range in.Circuits {
					must(s.Circuit(c.Name))
				}
			}
		})
	}
}

// BenchmarkBank is a bank of thirty batteries, each with an isolator, behind an
// engine's starter.
func BenchmarkBank(b *testing.B) {
	in := craft()
	for i := range 28 {
		x := in.Batteries[0]
		x.Name = fmt.Sprint("B", i)
		in.Batteries = append(in.Batteries, x)
		lead := run(x.Name, "bus", "0.6", "35 mm2")
		lead.Switch = installation.UsuallyClosed
		in.Circuits = append(in.Circuits, lead)
	}
	for b.Loop() {
		s, err := in.Solve()
		if err != nil {
			b.Fatal(err)
		}
		for _, c := range in.Circuits {
			must(s.LeastFault(installation.End{Circuit: c.Name, Node: c.From}, c.To))
		}
	}
}
