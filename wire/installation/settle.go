package installation

import (
	"encoding/binary"
	"math"
	"slices"

	"example.org/extralow/wire/internal/nodal"
)

// found is what a part came to in all cases.
type found struct {
	milliohm []float64     // of each circuit, as hot as it gets
	heat     []float64     // A that make each circuit so hot
	volts    [][]float64   // of each case and node; nil: nothing reaches the part, or no operating point
	stuck    []int         // of each case: the node where it shows that there is none; -1: there is, -2: not found out
	peaks    [kinds][]peak // of each kind of case and circuit
	missing  [kinds]int    // of each kind: the first case without an operating point; -1: none
	output   [][]float64   // of each case: the share of its full output that each source gives
}

// peak is the greatest current of a circuit and the case that makes it; -1: none.
type peak struct {
	ampere float64
	at     int
}

// higher takes a greater current; one that is equal but for rounding is none.
func (p *peak) higher(ampere float64, at int) {
	if a := math.Abs(ampere); p.at < 0 || a > p.ampere*(1+1e-9)+1e-9 {
		*p = peak{a, at}
	}
}

// fellow solves the cases of one part.
type fellow struct {
	*plan
	of     *part
	found  *found
	alike  []int // of each case: the first that is the same for this part; -1: nothing reaches it
	output [][]float64
	room   *nodal.Circuit
}

// settleAll solves all parts, what converters alone feed before what feeds these.
func (p *plan) settleAll() []*found {
	all := make([]*found, len(p.parts))
	for _, i := range p.order {
		all[i] = p.settle(i, all)
	}
	return all
}

// settle solves the cases of a part with its cables at ambient, at the temperature
// that their insulation bears, and as hot as the greatest current of all these
// makes them, until that rises no more.
func (p *plan) settle(part int, before []*found) *found {
	f := p.fellow(part, before)
	n := len(f.of.circuits)
	for k := range f.found.peaks {
		f.found.peaks[k] = make([]peak, n)
		for i := range f.found.peaks[k] {
			f.found.peaks[k][i].at = -1
		}
	}
	ambient, rated := make([]float64, n), make([]float64, n)
	for k, i := range f.of.circuits {
		ambient[k], rated[k] = p.lines[i].atAmbient(), p.lines[i].atRated()
	}
	f.solve(ambient, func(k CaseKind) bool { return k != Cranking })
	f.solve(rated, CaseKind.heats)
	f.climb()
	f.solve(f.found.milliohm, func(k CaseKind) bool { return !k.heats() })
	f.finish()
	return f.found
}

// longestClimb is more rounds than any part was seen to need.
const longestClimb = 200

// climb solves with each circuit as hot as the greatest current so far makes it, until
// none gets warmer. Where there is no end to that the cases are not answered.
func (f *fellow) climb() {
	f.warm()
	for range longestClimb {
		if f.solve(f.found.milliohm, CaseKind.heats); !f.warm() {
			return
		}
	}
	for i, c := range f.cases {
		if c.Kind.heats() && f.alike[i] >= 0 {
			f.found.volts[i], f.found.stuck[i] = nil, -2
		}
	}
}

// fellow finds which cases are the same for a part.
func (p *plan) fellow(part int, before []*found) *fellow {
	of := p.parts[part]
	f := &fellow{plan: p, of: of, room: of.base.With(nil), alike: make([]int, len(p.cases)), found: &found{
		volts: make([][]float64, len(p.cases)), stuck: make([]int, len(p.cases)),
		milliohm: make([]float64, len(of.circuits)), heat: make([]float64, len(of.circuits)),
	}}
	first := map[string]int{}
	ones := make([]float64, len(of.circuits))
	for k := range ones {
		ones[k] = 1000
	}
	for i := range p.cases {
		f.output = append(f.output, p.outputsBefore(i, before))
		if p.linear(p.cases[i]) {
			f.alike[i] = i
			continue
		}
		elements := of.elements(p.setups[i], ones, f.output[i])
		if !of.fed(elements) {
			f.alike[i] = -1
			continue
		}
		key := key(elements)
		if _, ok := first[key]; !ok {
			first[key] = i
		}
		f.alike[i] = first[key]
	}
	return f
}

// outputsBefore is the share of its full output that each source gives in a case, where
// a part that was solved before tells.
func (p *plan) outputsBefore(at int, before []*found) []float64 {
	all := make([]float64, len(p.in.Sources))
	for i := range all {
		all[i] = 1
		if of := before[p.partOf[p.feeders[len(p.in.Batteries)+i][0]]]; of != nil && of.output != nil {
			all[i] = of.output[at][i]
		}
	}
	return all
}

// fed reports whether anything feeds the part.
func (of *part) fed(elements []nodal.Element) bool {
	return slices.ContainsFunc(elements[:len(of.feeders)], func(e nodal.Element) bool { return e.Siemens > 0 })
}

// key tells apart what differs for a part.
func key(elements []nodal.Element) string {
	var b []byte
	for _, e := range elements {
		for _, x := range [...]float64{e.Siemens, e.Ampere, e.Watt, e.EMF, e.Limit} {
			if x != 0 {
				b = binary.LittleEndian.AppendUint64(append(b, 1), math.Float64bits(x))
			} else {
				b = append(b, 0)
			}
		}
	}
	return string(b)
}

// solve solves the cases of some kinds, and keeps their voltages and the greatest
// currents.
func (f *fellow) solve(milliohm []float64, kinds func(CaseKind) bool) {
	atLimit := &unloaded{milliohm: milliohm}
	for i, c := range f.cases {
		switch {
		case !kinds(c.Kind):
			continue
		case f.alike[i] < 0:
			f.found.stuck[i] = -1
			continue
		}
		switch same := f.alike[i]; {
		case same != i:
			f.found.volts[i], f.found.stuck[i] = f.found.volts[same], f.found.stuck[same]
		case f.linear(c):
			f.found.volts[i], f.found.stuck[i] = atLimit.solve(f, c)
		default:
			f.found.volts[i], f.found.stuck[i] = f.network(i, milliohm)
		}
		if v := f.found.volts[i]; v != nil {
			f.note(i, v, milliohm)
		}
		if f.found.stuck[i] != -1 {
			f.found.volts[i] = nil
		}
	}
}

// network solves one case.
func (f *fellow) network(i int, milliohm []float64) (v []float64, stuck int) {
	f.room.Elements = f.of.elements(f.setups[i], milliohm, f.output[i])
	return f.operate(f.cases[i], f.room)
}

// operate finds the operating point of a case in a part; stuck is -1 where there is
// one, -2 where none was found. A starter that draws a constant current has it divide
// among its leads even where no voltage would be left.
func (p *plan) operate(c Case, room *nodal.Circuit) (v []float64, stuck int) {
	v, stuck, err := room.Solve()
	switch {
	case err != nil:
		return nil, -2
	case stuck >= 0 && !(c.Kind == Cranking && p.load(c.Starting).cranking().CurrentA.Valid):
		return nil, stuck
	}
	return v, stuck
}

// note keeps the greatest current of each circuit, by the kind of the case. A thing at
// its limit counts as a state does, for its own line.
func (f *fellow) note(at int, v, milliohm []float64) {
	kind, open := f.cases[at].Kind, f.setups[at].open
	if kind == AtLimit {
		kind = Normal
	}
	peaks := f.found.peaks[kind]
	for k, i := range f.of.circuits {
		ampere := 0.0
		if !f.counts(at, i) {
			continue
		}
		if !open[i] {
			ampere = (v[f.local[f.wires[i][0]]] - v[f.local[f.wires[i][1]]]) * 1000 / milliohm[k]
		}
		peaks[k].higher(ampere, at)
	}
}

// warm sets each circuit as hot as the greatest current so far makes it, and
// reports whether any is warmer than before.
func (f *fellow) warm() (warmer bool) {
	for k, i := range f.of.circuits {
		heat := 0.0
		for kind, peaks := range f.found.peaks {
			if CaseKind(kind).heats() {
				heat = math.Max(heat, peaks[k].ampere)
			}
		}
		now := f.lines[i].loaded(heat)
		warmer = warmer || now != f.found.milliohm[k]
		f.found.heat[k], f.found.milliohm[k] = heat, now
	}
	return warmer
}

// finish notes which kinds of case have no answer, and what sources give.
func (f *fellow) finish() {
	f.found.missing = [kinds]int{-1, -1, -1, -1, -1, -1}
	for i, c := range f.cases {
		if f.found.stuck[i] != -1 && f.found.missing[c.Kind] < 0 {
			f.found.missing[c.Kind] = i
		}
	}
	if !f.of.supplied() {
		return
	}
	for i, c := range f.cases {
		output := slices.Repeat([]float64{1}, len(f.in.Sources))
		if !f.linear(c) {
			f.outputs(f.of, f.found.volts[i], f.setups[i], output)
		}
		f.found.output = append(f.found.output, output)
	}
}

// outputs sets the share of its full output, in W, that each source of a part without a
// battery gives; all of it where no operating point exists.
func (p *plan) outputs(of *part, v []float64, s setup, output []float64) {
	if !of.supplied() || v == nil {
		return
	}
	for _, i := range of.feeders {
		x := p.in.Sources[i-len(p.in.Batteries)]
		u := v[p.local[p.feeders[i][0]]] - v[p.local[p.feeders[i][1]]]
		gives, _ := s.feeders[i].Through(u, 1)
		output[i-len(p.in.Batteries)] = math.Min(1, -gives*u/(float(x.HeldV)*float(x.GreatestA)))
	}
}
