package installation

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Device is an overcurrent device as far as a cable sees it.
type Device struct {
	End     End             `json:"end"`
	RatingA decimal.Decimal `json:"rating_a"`
}

// Infeed is what can flow in behind an end of a circuit without opening a device.
type Infeed struct {
	LimitA  decimal.NullDecimal `json:"infeed_a"`          // unset: no limit, a battery without a device; 0: nothing feeds it
	Fed     bool                `json:"fed"`               // by any source at all
	Battery bool                `json:"battery"`           // by a battery, devices between or not
	Devices []Device            `json:"devices,omitempty"` // the nearest that set the limit together
	SourceA decimal.Decimal     `json:"source_limit_a"`    // the part of the limit that sources set themselves
	Working working.Working     `json:"working"`
}

// FedFrom looks from an end of a circuit away from the circuit, and returns the most
// that can flow in there for long without opening one of some devices, every source
// and every switch connected at once:
//
//	I_in = I_n1 + I_n2 + ... + I_s
//
// It is the greatest flow through devices and limited sources: of ways side by side
// each counts, a device that they share counts once. A source that does not limit
// itself counts with what it drives into a short circuit. Ratings above 0 to
// 10 000 A, up to one device an end. Source: the theorem of the greatest flow and the
// least cut (Ford and Fulkerson 1956, from memory).
func (s *Solved) FedFrom(end End, devices []Device) (Infeed, error) {
	i, at, err := s.end(end)
	if err != nil {
		return Infeed{}, err
	}
	f, err := s.flow(i, devices)
	if err != nil {
		return Infeed{}, err
	}
	return f.from(at), nil
}

// flow is the search for the greatest flow into a node from all but one circuit.
type flow struct {
	*plan
	but     int
	limits  []decimal.NullDecimal // of each circuit; unset: none
	devices []Device              // of each circuit the smallest
	through []decimal.Decimal     // of each circuit, towards its To
	given   []decimal.Decimal     // of each feeder
	met     []step                // of each node, the last step of the way to it
	queue   []int
}

// step leads along a circuit down to a node.
type step struct {
	circuit, down int
	taken         bool
}

func (s *Solved) flow(but int, devices []Device) (*flow, error) {
	n := len(s.plan.lines)
	f := &flow{plan: s.plan, but: but, limits: make([]decimal.NullDecimal, n), devices: make([]Device, n), through: make([]decimal.Decimal, n),
		given: make([]decimal.Decimal, len(s.plan.feeders)), met: make([]step, len(s.plan.nodes))}
	seen := map[End]bool{}
	var faults []error
	for k, d := range devices {
		i, _, err := s.end(d.End)
		if seen[d.End] {
			err = &working.InputError{Field: "end", Got: d.End.Circuit + " at " + d.End.Node, Want: "one device an end"}
		}
		seen[d.End] = true
		if err = errors.Join(working.In("end", err), working.Above("rating_a", d.RatingA, 0, greatestAmperes)); err != nil {
			faults = append(faults, working.In(fmt.Sprintf("devices[%d]", k), err))
			continue
		}
		if !f.limits[i].Valid || d.RatingA.LessThan(f.limits[i].Decimal) {
			f.limits[i], f.devices[i] = decimal.NewNullDecimal(d.RatingA), d
		}
	}
	return f, errors.Join(faults...)
}

// from adds flow along the shortest way that still carries some, until none does.
func (f *flow) from(node int) Infeed {
	in := f.look(node)
	if !in.Fed {
		var w working.Working
		in.LimitA = decimal.NewNullDecimal(w.Calc("I_in", "0", decimal.Zero, arithmetic))
		in.Working = slices.Clip(w)
		return in
	}
	total := decimal.Zero
	for {
		end, ok := f.reach(node, f.room, f.spare)
		if !ok {
			return f.bound(in, total)
		}
		most := f.spareOf(end)
		for at := end; at != node; at = f.met[at].down {
			most = lesser(most, f.left(f.met[at]))
		}
		if !most.Valid {
			return in
		}
		f.push(node, end, most.Decimal)
		total = total.Add(most.Decimal)
	}
}

// look finds whether anything feeds a node at all, and whether a battery does.
func (f *flow) look(node int) (in Infeed) {
	f.reach(node, func(step) bool { return true }, func(at int) bool {
		if k := f.feederAt[at]; k >= 0 {
			in.Fed, in.Battery = true, in.Battery || k < len(f.in.Batteries)
		}
		return false
	})
	return in
}

// reach walks breadth first from a node to the first that is wanted, and leaves the
// last step of the way to each in met.
func (f *flow) reach(node int, open func(step) bool, wanted func(int) bool) (end int, ok bool) {
	clear(f.met)
	f.met[node] = step{-1, node, true}
	f.queue = append(f.queue[:0], node)
	for next := 0; next < len(f.queue); next++ {
		at := f.queue[next]
		if wanted(at) {
			return at, true
		}
		for _, i := range f.touching[at] {
			far := f.other(i, at)
			s := step{i, at, true}
			if i == f.but || far == 0 || f.met[far].taken || !open(s) {
				continue
			}
			f.met[far] = s
			f.queue = append(f.queue, far)
		}
	}
	return 0, false
}

// left is what a circuit still carries down to a node; unset: no limit.
func (f *flow) left(s step) decimal.NullDecimal {
	left := f.limits[s.circuit]
	if !left.Valid {
		return left
	}
	if s.down == f.wires[s.circuit][1] {
		left.Decimal = left.Decimal.Sub(f.through[s.circuit])
	} else {
		left.Decimal = left.Decimal.Add(f.through[s.circuit])
	}
	return left
}

func (f *flow) room(s step) bool {
	left := f.left(s)
	return !left.Valid || left.Decimal.IsPositive()
}

func (f *flow) spare(node int) bool {
	if f.feederAt[node] < 0 {
		return false
	}
	left := f.spareOf(node)
	return !left.Valid || left.Decimal.IsPositive()
}

// spareOf is what the source at a node can still give; unset: a battery.
func (f *flow) spareOf(node int) decimal.NullDecimal {
	k := f.feederAt[node]
	if k < len(f.in.Batteries) {
		return decimal.NullDecimal{}
	}
	return decimal.NewNullDecimal(f.in.Sources[k-len(f.in.Batteries)].drives().Sub(f.given[k]))
}

// push adds flow along the way that was found.
func (f *flow) push(node, end int, ampere decimal.Decimal) {
	for at := end; at != node; at = f.met[at].down {
		s := f.met[at]
		add := ampere
		if s.down == f.wires[s.circuit][0] {
			add = add.Neg()
		}
		f.through[s.circuit] = f.through[s.circuit].Add(add)
	}
	k := f.feederAt[end]
	f.given[k] = f.given[k].Add(ampere)
}

// bound lists the devices between the nodes that no more flow reaches and the rest,
// and what the sources on this side of them give.
func (f *flow) bound(in Infeed, total decimal.Decimal) Infeed {
	in.LimitA, in.SourceA = decimal.NewNullDecimal(total), total
	var w working.Working
	var terms []string
	for i, ends := range f.wires {
		if i == f.but || f.met[ends[0]].taken == f.met[ends[1]].taken || ends[0] == 0 || ends[1] == 0 {
			continue
		}
		in.Devices = append(in.Devices, f.devices[i])
		in.SourceA = in.SourceA.Sub(f.devices[i].RatingA)
		symbol := fmt.Sprintf("I_n.%d", len(terms)+1)
		terms = append(terms, symbol)
		w.Given(symbol, f.devices[i].RatingA)
		w.Note("in " + f.devices[i].End.Circuit + " at " + f.devices[i].End.Node)
	}
	return f.layOut(in, w, terms)
}

// layOut adds the lines of the sources on this side of the devices, and of the sum.
func (f *flow) layOut(in Infeed, w working.Working, terms []string) Infeed {
	var sources []string
	for k, s := range f.in.Sources {
		node := f.feeders[len(f.in.Batteries)+k][0]
		if !f.met[node].taken {
			continue
		}
		w.Part(s.Name)
		w = append(w, s.From...)
		formula, _ := s.shorted(&w, fmt.Sprintf(".%d", len(sources)+1))
		sources = append(sources, formula)
	}
	w.Part("Together")
	if len(sources) > 0 {
		w.Calc("I_s", join(sources), in.SourceA, arithmetic)
		terms = append(terms, "I_s")
	}
	w.Calc("I_in", join(terms), in.LimitA.Decimal, arithmetic)
	in.Working = slices.Clip(w)
	return in
}

// join writes a sum.
func join(terms []string) string {
	if len(terms) == 0 {
		return "0"
	}
	return strings.Join(terms, " + ")
}

// lesser is the smaller of two limits; an unset one is none.
func lesser(a, b decimal.NullDecimal) decimal.NullDecimal {
	if !a.Valid || b.Valid && b.Decimal.LessThan(a.Decimal) {
		return b
	}
	return a
}
