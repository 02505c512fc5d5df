package installation

import (
	"container/heap"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// Ladder lays out the drops on the way of least resistance from the posts of the
// nearest battery or source at work down to a node:
//
//	U_t  = the voltage at the posts
//	ΔU_k = I_br × R ÷ 1000
//	U_k  = U_k−1 − ΔU_k
//
// DropV is the sum of the drops, contacts in it and the source's own resistance not.
// Each circuit's resistance is laid out as [Solved.Circuit] does. Where the case has no
// operating point it is [wire.ErrNoOperatingPoint]; a node that nothing reaches in it
// is refused. Currents to 0.000000001 A. Sources: Kirchhoff's laws, Ohm's law.
func (x *CaseResult) Ladder(node string) (wire.Ladder, error) {
	at, err := x.from().node(node)
	if err != nil {
		return wire.Ladder{}, err
	}
	part := x.solved.plan.partOf[at]
	if x.stuck[part] != -1 {
		return wire.Ladder{}, fmt.Errorf("ladder to %s, %s: %w", node, x.Name, wire.ErrNoOperatingPoint)
	}
	l := x.ladder()
	from, way, ok := l.way(at)
	if !ok || x.volts[part] == nil || !x.reaches(at) {
		return wire.Ladder{}, &working.InputError{Field: "node", Got: fmt.Sprintf("%.60q", node), Want: "a node that something feeds in " + x.Name}
	}
	return l.layOut(from, way), nil
}

// ladder is the way down from a source in a case.
type ladder struct {
	*Solved
	open    []bool
	feeders []bool // at work
	volts   []float64
	of      Case // how the batteries are in it
}

func (x *CaseResult) ladder() *ladder {
	p := x.solved.plan
	l := &ladder{Solved: x.solved, feeders: make([]bool, len(p.feeders)), open: x.setup.open, of: x.Case, volts: make([]float64, len(p.nodes))}
	for i, of := range p.parts {
		for k, node := range of.nodes {
			if v := x.volts[i]; v != nil {
				l.volts[node] = v[k]
			}
		}
	}
	if p.linear(x.Case) {
		l.of = x.batteries()
		l.of.Name = x.Name
	}
	for k := range l.feeders {
		if p.linear(x.Case) {
			l.feeders[k] = k < len(p.in.Batteries) || x.source == k-len(p.in.Batteries)+1 && !x.Input
		} else {
			l.feeders[k] = x.setup.feeders[k].Siemens > 0
		}
	}
	return l
}

// reachedAt is a node on the way and how much resistance lies between it and the
// one that is asked for.
type reachedAt struct {
	node     int
	milliohm float64
}

// nearest is a heap ([container/heap]) of nodes, that of the least resistance on top.
type nearest []reachedAt

// Len is how many nodes wait.
func (n nearest) Len() int { return len(n) }

// Less puts the node of less resistance first.
func (n nearest) Less(i, j int) bool { return n[i].milliohm < n[j].milliohm }

// Swap exchanges two nodes.
func (n nearest) Swap(i, j int) { n[i], n[j] = n[j], n[i] }

// Push adds a node at the end, from where the heap lifts it.
func (n *nearest) Push(x any) { *n = append(*n, x.(reachedAt)) }

// Pop takes the last node off.
func (n *nearest) Pop() any {
	last := len(*n) - 1
	x := (*n)[last]
	*n = (*n)[:last]
	return x
}

// way finds the circuits of least resistance from the nearest feeder to a node, in
// that direction (Dijkstra).
func (x *ladder) way(to int) (feeder int, way []int, ok bool) {
	p, by, done := x.plan, map[int]int{to: -1}, map[int]bool{}
	best := map[int]float64{to: 0}
	for queue := (&nearest{{to, 0}}); queue.Len() > 0; {
		at := heap.Pop(queue).(reachedAt)
		if done[at.node] {
			continue
		}
		done[at.node] = true
		for k, ends := range p.feeders {
			if x.feeders[k] && ends[0] == at.node {
				for node := at.node; by[node] >= 0; node = p.other(by[node], node) {
					way = append(way, by[node])
				}
				return k, way, true
			}
		}
		for _, i := range p.touching[at.node] {
			far, milliohm := p.other(i, at.node), at.milliohm+x.milliohm(i)
			if known, met := best[far]; far == 0 || x.open[i] || met && known <= milliohm {
				continue
			}
			best[far], by[far] = milliohm, i
			heap.Push(queue, reachedAt{far, milliohm})
		}
	}
	return 0, nil, false
}

// milliohm is that of a circuit as hot as it gets.
func (x *ladder) milliohm(i int) float64 {
	return x.Solved.found[x.plan.partOfCircuit(i)].milliohm[x.plan.placeInPart(i)]
}

// layOut adds the rungs.
func (x *ladder) layOut(feeder int, way []int) wire.Ladder {
	p, node := x.plan, x.plan.feeders[feeder][0]
	var w working.Working
	w.Part(p.feeder(feeder))
	u := x.posts(&w, feeder)
	above, lost, drops := "U_t", decimal.Zero, []string(nil)
	for _, i := range way {
		drop, symbol := x.rung(&w, i, node, len(drops)+1)
		drops = append(drops, symbol)
		u = w.Calc("U_k", above+" − "+symbol, u.Sub(drop), kirchhoff)
		above, lost, node = "U_k", lost.Add(drop), p.other(i, node)
	}
	w.Part("At " + p.nodes[node])
	w.Calc("U_L", above, u, kirchhoff)
	w.Calc("ΔU", strings.Join(append(drops, "0")[:max(1, len(drops))], " + "), lost, kirchhoff)
	return wire.Ladder{VoltageV: u, DropV: lost, Working: slices.Clip(w)}
}

// posts adds the lines of the voltage at the posts of a battery or a source: of a battery
// on the common return what its own resistance leaves.
func (x *ladder) posts(w *working.Working, feeder int) decimal.Decimal {
	p, volts := x.plan, fixed(x.volts[x.plan.feeders[feeder][0]], 9).Decimal
	if feeder >= len(p.in.Batteries) {
		*w = append(*w, p.in.Sources[feeder-len(p.in.Batteries)].From...)
	} else {
		b := p.in.Batteries[feeder]
		*w = append(*w, b.From...)
		if p.feeders[feeder][1] == 0 {
			emf, milliohm := p.state(x.of, b)
			e := w.Given("E_0", emf)
			a := w.Step("I_so", fixed((float(emf)-x.volts[p.feeders[feeder][0]])*1000/float(milliohm), 9).Decimal, kirchhoff)
			w.Note(x.of.Name + ", solved with the whole installation")
			return w.Calc("U_t", "E_0 − I_so × R_i ÷ 1000", e.Sub(a.Mul(w.Given("R_i", milliohm)).Shift(-3)), ohm)
		}
	}
	u := w.Step("U_t", volts, kirchhoff)
	w.Note("against the common return, " + x.of.Name)
	return u
}

// rung adds the lines of one circuit, walked from a node.
func (x *ladder) rung(w *working.Working, i, from, number int) (decimal.Decimal, string) {
	p := x.plan
	ampere := (x.volts[from] - x.volts[p.other(i, from)]) * 1000 / x.milliohm(i)
	l, of := &p.lines[i], x.Solved.found[p.partOfCircuit(i)]
	heat := fixed(of.heat[p.placeInPart(i)], 6).Decimal
	w.Part(l.Name + ", as hot as its greatest current makes it")
	*w = append(*w, l.Basis...)
	t, err := l.layOut(w, heat, true)
	if err != nil {
		t.milliohm = w.Given("R", decimal.NewFromFloat(x.milliohm(i)).Round(9))
		w.Note("a section would be hotter than 250 °C: reckoned at that")
	}
	a := w.Step("I_br", fixed(ampere, 9).Decimal, kirchhoff)
	symbol := fmt.Sprintf("ΔU.%d", number)
	return w.Calc(symbol, "I_br × R ÷ 1000", a.Mul(t.milliohm).Shift(-3), ohm), symbol
}
