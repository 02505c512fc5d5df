package installation

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Currents are the greatest of a circuit, by kinds of cases. One is unset where no case
// of its kind occurs, and where one has no operating point.
type Currents struct {
	DesignA      decimal.NullDecimal `json:"design_a"` // the greatest of the normal cases
	DesignCase   string              `json:"design_case"`
	AtLeastA     decimal.NullDecimal `json:"at_least_a"` // where a case that heats has no operating point: the greatest of those that have one
	AtLeastCase  string              `json:"at_least_case"`
	LostA        decimal.NullDecimal `json:"lost_a"` // the greatest with a battery lost
	LostCase     string              `json:"lost_case"`
	UnequalA     decimal.NullDecimal `json:"unequal_a"` // the greatest while a full bank feeds an empty one
	UnequalCase  string              `json:"unequal_case"`
	BriefA       decimal.NullDecimal `json:"brief_a"` // the greatest in starts and peaks
	BriefCase    string              `json:"brief_case"`
	CrankingA    decimal.NullDecimal `json:"starter_a"` // the greatest while an engine is started; unset too: none flows here
	CrankingCase string              `json:"starter_case"`
}

// CircuitResult is what was found of a circuit; what is not known is unset, and Missing
// says why.
type CircuitResult struct {
	Name string `json:"name"`
	Currents
	AmpacityA  decimal.NullDecimal `json:"ampacity_a"`
	ConductorC decimal.NullDecimal `json:"conductor_c"` // of its hottest section
	DropV      decimal.NullDecimal `json:"drop_v"`      // of this circuit at DesignA
	Missing    string              `json:"missing"`
	Working    working.Working     `json:"working"`
}

// Currents returns the greatest currents of a circuit, to 0.000001 A, without their
// working: see [Solved.Circuit].
func (s *Solved) Currents(name string) (Currents, error) {
	i, err := s.circuit("circuit", name)
	if err != nil {
		return Currents{}, err
	}
	c, _ := s.currents(i)
	return c, nil
}

// Circuit returns what was found of a circuit:
//
//	I   = max(I_b, I_ls, I_uq)
//	T_c = T_a + (T_r − T_a) × (I ÷ I_c)²         of each section
//	ΔU  = I_b × R ÷ 1000
//
// with R as of [Installation.Solve], currents to 0.000001 A. The working begins with
// the lines that gave the figures of what takes part in the deciding case.
func (s *Solved) Circuit(name string) (CircuitResult, error) {
	i, err := s.circuit("circuit", name)
	if err != nil {
		return CircuitResult{}, err
	}
	return s.result(i), nil
}

// result lays out what was found of a circuit.
func (s *Solved) result(i int) CircuitResult {
	r := CircuitResult{Name: s.plan.in.Circuits[i].Name}
	var missing []string
	r.Currents, missing = s.currents(i)
	missing = append(missing, s.heat(i, &r)...)
	r.Missing = strings.Join(missing, "; ")
	return r
}

// currents are the greatest of a circuit, and says what is missing.
func (s *Solved) currents(i int) (r Currents, missing []string) {
	p, of, k := s.plan, s.found[s.plan.partOfCircuit(i)], s.plan.placeInPart(i)
	for kind, to := range []struct {
		ampere *decimal.NullDecimal
		from   *string
	}{{&r.DesignA, &r.DesignCase}, {&r.BriefA, &r.BriefCase}, {&r.LostA, &r.LostCase}, {&r.CrankingA, &r.CrankingCase}, {&r.UnequalA, &r.UnequalCase}} {
		if text := s.stuck(of, CaseKind(kind)); text != "" {
			missing = append(missing, text)
			if CaseKind(kind) != Cranking {
				continue
			}
		}
		x := of.peaks[kind][k]
		flows := x.ampere >= leastAmpere
		if x.at >= 0 && (flows || CaseKind(kind) != Cranking) {
			*to.ampere = fixed(x.ampere, 6)
		}
		if flows {
			*to.from = p.cases[x.at].Name
		}
	}
	for at, c := range p.cases {
		if c.Kind == AtLimit && p.counts(at, i) && of.stuck[at] != -1 {
			missing = append(missing, s.noPoint(of, at))
			r.DesignA, r.DesignCase = decimal.NullDecimal{}, ""
		}
	}
	r.atLeast(p, of, k, !r.DesignA.Valid && of.missing[Normal] < 0)
	return r, missing
}

// atLeast sets the greatest current that is known where not all are.
func (r *Currents) atLeast(p *plan, of *found, k int, unknown bool) {
	known, most := !unknown, peak{at: -1}
	for kind, peaks := range of.peaks {
		if !CaseKind(kind).heats() {
			continue
		}
		known = known && of.missing[kind] < 0
		if x := peaks[k]; x.at >= 0 {
			most.higher(x.ampere, x.at)
		}
	}
	if !known && most.at >= 0 {
		r.AtLeastA, r.AtLeastCase = fixed(most.ampere, 6), p.cases[most.at].Name
	}
}

// leastAmpere is a current that counts as any.
const leastAmpere = 1e-6

// stuck says that a kind of case has no answer in a part, if so.
func (s *Solved) stuck(of *found, kind CaseKind) string {
	if at := of.missing[kind]; at >= 0 {
		return s.noPoint(of, at)
	}
	return ""
}

// noPoint says that a case has no answer in a part.
func (s *Solved) noPoint(of *found, at int) string {
	if of.stuck[at] < 0 {
		return s.plan.cases[at].Name + ": no operating point was found"
	}
	return s.plan.cases[at].Name + ": no operating point exists, the loads ask for more than there is"
}

// heat lays out ampacity, temperature and drop, and says what is missing.
func (s *Solved) heat(i int, r *CircuitResult) (missing []string) {
	l, of := &s.plan.lines[i], s.found[s.plan.partOfCircuit(i)]
	known := of.missing[Normal] < 0 && of.missing[BatteryLost] < 0 && of.missing[Unequal] < 0
	w := working.Start(s.plan.basis(of, i), l.Basis)
	heat := decimal.Zero
	if known {
		heat = r.currents(&w)
	}
	t, err := l.layOut(&w, heat, known)
	switch {
	case l.unrated != nil:
		missing = append(missing, "the rules give it no ampacity: "+l.unrated.Error())
	case len(l.Sections) == 0:
		missing = append(missing, "no cable: its ampacity is not known here")
	default:
		r.AmpacityA = t.ampacity
	}
	if known && l.unrated == nil && len(l.Sections) > 0 {
		r.ConductorC = t.hottest
	}
	if err != nil {
		missing = append(missing, "a section would be hotter than 250 °C: its resistance is not known there")
	}
	if known && err == nil && r.DesignA.Valid {
		drop := w.Calc("ΔU", "I_b × R ÷ 1000", r.DesignA.Decimal.Mul(t.milliohm).Shift(-3), ohm)
		r.DropV = decimal.NewNullDecimal(drop)
	}
	r.Working = slices.Clip(w)
	return missing
}

// currents adds the lines of those that heat.
func (r *CircuitResult) currents(w *working.Working) decimal.Decimal {
	if len(*w) > 0 {
		w.Part(r.Name)
	}
	if !r.DesignA.Valid && !r.LostA.Valid && !r.UnequalA.Valid {
		return w.Given("I", decimal.Zero)
	}
	var symbols []string
	for _, x := range []struct {
		symbol string
		ampere decimal.NullDecimal
		from   string
	}{{"I_b", r.DesignA, r.DesignCase}, {"I_ls", r.LostA, r.LostCase}, {"I_uq", r.UnequalA, r.UnequalCase}} {
		if x.ampere.Valid {
			w.Step(x.symbol, x.ampere.Decimal, kirchhoff)
			w.Note(x.from + ", solved with the whole installation")
			symbols = append(symbols, x.symbol)
		}
	}
	return w.Calc("I", extreme("max", symbols), decimal.Max(r.DesignA.Decimal, r.LostA.Decimal, r.UnequalA.Decimal), arithmetic)
}

// extreme writes the formula of the least or greatest of several.
func extreme(which string, symbols []string) string {
	if len(symbols) == 1 {
		return symbols[0]
	}
	return which + "(" + strings.Join(symbols, ", ") + ")"
}

// laid is what the lines of a circuit came to, and the symbols of its sections.
type laid struct {
	ampacity, hottest               decimal.NullDecimal
	milliohm                        decimal.Decimal
	ampacities, temperatures, loops []string
}

// layOut adds the lines of ampacity, temperature and resistance; without a current
// those of ampacity alone.
func (l *line) layOut(w *working.Working, heat decimal.Decimal, known bool) (laid, error) {
	var t laid
	var faults error
	for i := range l.Sections {
		faults = errors.Join(faults, l.stretchOut(w, &t, i, heat, known))
	}
	w.Part(l.Name)
	if len(t.ampacities) > 1 {
		w.Calc("I_z", extreme("min", t.ampacities), t.ampacity.Decimal, arithmetic)
	}
	if faults != nil || !known {
		endOn(w)
		return t, faults
	}
	if len(t.temperatures) > 1 {
		w.Calc("T_c", extreme("max", t.temperatures), t.hottest.Decimal, arithmetic)
	}
	if l.ReturnMilliohm.Valid {
		t.loops = append(t.loops, "R_rt")
		t.milliohm = t.milliohm.Add(w.Given("R_rt", l.ReturnMilliohm.Decimal))
	}
	t.milliohm = t.milliohm.Add(w.Given("R_j", l.JointsMilliohm))
	w.Calc("R", strings.Join(append(t.loops, "R_j"), " + "), t.milliohm, ohm)
	return t, nil
}

// stretchOut adds the lines of one section.
func (l *line) stretchOut(w *working.Working, t *laid, i int, heat decimal.Decimal, known bool) error {
	w.Part(fmt.Sprintf("%s, section %d", l.Name, i+1))
	celsius, err := l.section(w, i, heat)
	if l.ampacities != nil {
		t.ampacities = append(t.ampacities, l.numbered(w, "I_z", i, l.ampacities[i].AmpacityA))
		lower(&t.ampacity, l.ampacities[i].AmpacityA)
	}
	if !known || err != nil {
		return err
	}
	t.temperatures = append(t.temperatures, l.numbered(w, "T_c", i, celsius))
	higher(&t.hottest, celsius)
	symbol := fmt.Sprintf("R.%d", i+1)
	t.loops = append(t.loops, symbol)
	t.milliohm = t.milliohm.Add(l.loop(w, i, symbol))
	return nil
}

// numbered gives the value of one of several sections a symbol of its own.
func (l *line) numbered(w *working.Working, symbol string, i int, v decimal.Decimal) string {
	own := fmt.Sprintf("%s.%d", symbol, i+1)
	if len(l.Sections) > 1 {
		w.Calc(own, symbol, v, arithmetic)
	}
	return own
}

// endOn takes headings off the end.
func endOn(w *working.Working) {
	for n := len(*w); n > 0 && (*w)[n-1].Kind == working.Part; n = len(*w) {
		*w = (*w)[:n-1]
	}
}

// section adds the lines of a section's ampacity and of its resistance at a
// temperature: that of the current, or without an ampacity that which the
// insulation bears.
func (l *line) section(w *working.Working, i int, heat decimal.Decimal) (decimal.Decimal, error) {
	c := l.Sections[i].Conductor
	celsius := c.InsulationC
	if l.ampacities != nil {
		t, err := l.ampacities[i].Temperature(heat)
		if err != nil {
			return celsius, err
		}
		*w = working.Start(*w, t.Working)
		celsius = t.ConductorC
	}
	r, err := c.Resistance(celsius)
	if err != nil {
		return celsius, err
	}
	*w = working.Start(*w, r.Working)
	return celsius, nil
}

// loop adds the resistance of a section, out and back, as warm as it stands.
func (l *line) loop(w *working.Working, i int, symbol string) decimal.Decimal {
	perM, _ := w.Value("R_T")
	length := w.Given("L", l.Sections[i].LengthM)
	r, formula := length.Mul(perM), "L × R_T"
	if !l.ReturnMilliohm.Valid {
		r, formula = r.Mul(decimal.NewFromInt(2)), "2 × L × R_T"
	}
	if n := decimal.NewFromFloat(l.sharing); l.sharing > 1 {
		w.Given("n_cb", n)
		r, formula = r.DivRound(n, 9), formula+" ÷ n_cb"
	}
	return w.Calc(symbol, formula, r, ohm)
}

func lower(v *decimal.NullDecimal, than decimal.Decimal) {
	if !v.Valid || than.LessThan(v.Decimal) {
		*v = decimal.NewNullDecimal(than)
	}
}

func higher(v *decimal.NullDecimal, than decimal.Decimal) {
	if !v.Valid || than.GreaterThan(v.Decimal) {
		*v = decimal.NewNullDecimal(than)
	}
}

// partOfCircuit is the part that a circuit lies in.
func (p *plan) partOfCircuit(i int) int { return p.partAt(p.wires[i]) }

// placeInPart is its number there.
func (p *plan) placeInPart(i int) int {
	k, _ := slices.BinarySearch(p.parts[p.partOfCircuit(i)].circuits, i)
	return k
}

// basis is the lines that gave the figures of what takes part in the cases that
// decide a circuit.
func (p *plan) basis(of *found, circuit int) working.Working {
	var w working.Working
	told := map[string]bool{}
	for _, kind := range []CaseKind{Normal, BatteryLost, Unequal} {
		if x := of.peaks[kind][p.placeInPart(circuit)]; x.at >= 0 && of.missing[kind] < 0 {
			p.tell(&w, told, p.partOfCircuit(circuit), p.cases[x.at])
		}
	}
	return w
}

// tell adds the lines behind batteries, sources and loads of a part in a case, each
// once.
func (p *plan) tell(w *working.Working, told map[string]bool, part int, c Case) {
	add := func(name string, from working.Working) {
		if len(from) > 0 && !told[name] {
			told[name] = true
			w.Part(name)
			*w = append(*w, from...)
		}
	}
	for i, b := range p.in.Batteries {
		if b.Name != c.BatteryMissing && p.partOf[p.feeders[i][0]] == part {
			add(b.Name, b.From)
		}
	}
	for i, x := range p.limits(c) {
		if (x > 0 || c.source == i+1) && p.meets(i, part) {
			add(p.in.Sources[i].Name, p.in.Sources[i].From)
		}
	}
	if c.load > 0 {
		add(c.AtLimitOf+" at its limit", p.most(c).From)
	}
	if c.State >= 0 {
		p.tellState(part, c, add)
	}
}

// meets reports whether a source gives to a part or takes from it.
func (p *plan) meets(source, part int) bool {
	input := p.inputs[source]
	return p.partOf[p.feeders[len(p.in.Batteries)+source][0]] == part || input > 0 && p.partOf[input] == part
}

func (p *plan) tellState(part int, c Case, add func(string, working.Working)) {
	s := p.in.States[c.State]
	for _, x := range s.Sources {
		if c.Sources && p.meets(p.source(x.Source), part) {
			add(x.Source+" in "+s.Name, x.From)
		}
	}
	for _, x := range s.Loads {
		if from := c.demand(p.load(x.Load), &x).From; len(from) > 0 && c.Loads && p.partOf[p.draws[p.loads[x.Load]][0]] == part {
			add(x.Load+" in "+s.Name, from)
		}
	}
}
