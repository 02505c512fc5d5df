package wire

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Ampacity is what a conductor may carry without end.
type Ampacity struct {
	AmpacityA   decimal.Decimal     `json:"ampacity_a"`
	CableA      decimal.Decimal     `json:"cable_ampacity_a"`    // before the terminals cap it
	TerminalA   decimal.NullDecimal `json:"terminal_ampacity_a"` // by the terminals; unset: they bear what the cable does, or nothing is known of them
	AmbientC    decimal.Decimal     `json:"ambient_c"`
	InsulationC decimal.Decimal     `json:"insulation_c"` // of the column used
	Working     working.Working     `json:"working"`
}

// Ampacity returns the current that the conductor may carry without end:
//
//	I_c  = I_t × C_a × C_g                         the cable by itself
//	I_zt = I_tt × C_at × C_g                       by its terminals
//	I_z  = min(I_c, I_zt)
//
// I_t is the figure of the rule set's table in the column of the insulation, or
// of the next cooler insulation listed; or the ampacity of the cable's own data
// sheet. C_a is the factor for the ambient, which C_e replaces in an engine space
// where the set defines one; C_g is for grouping, by circuits or by conductors as
// the set counts. Each condition takes the next worse row; where the set has no
// factor for grouping the line is left out and nothing is derated for it. A table
// of factors for another ambient than the ampacity's is refused, unless
// ConvertAmbient asks for [tables.AmpacityBase.AmbientFactorConverted].
//
// The lines of I_zt hold where the terminals bear less (T_t) than the insulation
// (T_r): I_tt is then the figure of the table that stands there, in the column
// that they bear (T_rt), with its own factors for ambient and engine space. A
// cable for 90 °C on terminals for 70 °C carries what the table for 70 °C says.
// Unstated terminals bear what the set says of them; where it is silent they cap
// nothing, and a line says so: ask what they bear. Where the coolest column is
// hotter than they bear, and where there is no column (a data sheet under a set
// without tables), the law of the conductor's temperature takes the rest, rounded
// down to 0.01 A; from T_t on they carry nothing:
//
//	I_zt = I_zt × √((T_t − T_a) ÷ (T_rt − T_a))
//
// In free air (method F) the tables begin at larger sizes than clipped direct: a
// smaller one takes the figure of method C, which is no higher, and the line says
// so.
//
// Where thermal insulation surrounds a length of the cable, I_t is no more than
// what it carries clipped direct (method C, or the only way of laying that the
// table has), or by its data sheet, times C_i; so is I_tt:
//
//	I_t = min(I_t, I_cd × C_i)
//
// In air hotter than its table holds at (T_at), where the set has no factors
// for the ambient, and in an engine space hotter than C_e is stated for, that law
// caps the cable as well, rounded down to 0.01 A, without C_g where nothing is
// grouped:
//
//	I_c = min(I_c, I_t × C_g × √((T_r − T_a) ÷ (T_r − T_at)))
//
// Ambient -40 to 120 °C (needed in an engine space where the set has rules for
// it), insulation 60 to 250 °C, 1 to 60 circuits of no fewer conductors, a data
// sheet's ampacity 0.01 to 10 000 A. An ambient beyond the table on the hot side,
// or where the set has no table one that the insulation does not outlast, is
// [tables.ErrOutside]: the cable carries nothing there.
// Sources: the tables, factors and rules named in the lines; BS 7671 appendix 4,
// clause 6.1, for the temperature rising with the square of the current.
func (c Conductor) Ampacity(r tables.AmpacityRule) (Ampacity, error) {
	return c.ampacity(r, true)
}

// ampacity leaves the terminals out of a length that has none.
func (c Conductor) ampacity(r tables.AmpacityRule, ends bool) (Ampacity, error) {
	if err := c.check(); err != nil {
		return Ampacity{}, err
	}
	l, err := c.lay(r)
	if err != nil {
		return Ampacity{}, err
	}
	return l.ampacity(c.Size, ends)
}

// laid is a conductor in its place under a rule: what holds for all its sizes.
type laid struct {
	Conductor
	rule  tables.AmpacityRule
	cable bed
	ends  []end // as they are asked for
}

// bed is where an ampacity is taken from, with the factors of the place.
type bed struct {
	signs
	base    tables.AmpacityBase
	column  tables.AmpacityColumn // of a data sheet: that of the set for the same insulation, if any
	own     working.Figure        // of a data sheet
	direct  tables.AmpacityColumn // clipped direct; no table: the set has none
	inside  working.Figure        // the factor on that; the zero figure: no length is surrounded
	factors []factor
	hotter  string // why the law of the conductor's temperature caps them; empty: it does not
}

type factor struct {
	symbol string
	figure working.Figure
}

// signs are the symbols of an ampacity.
type signs struct{ table, clipped, ambient, engine, ampacity, limit, holds string }

var (
	ofCable     = signs{"I_t", "I_cd", "C_a", "C_e", "I_c", "T_r", "T_at"}
	ofTerminals = signs{"I_tt", "I_cdt", "C_at", "C_et", "I_zt", "T_rt", "T_att"}
)

// lay looks up what holds for all sizes.
func (c Conductor) lay(r tables.AmpacityRule) (*laid, error) {
	column, err := r.Column(c.Size, c.Method, c.InsulationC)
	unlisted := len(r.Metric)+len(r.Gauge) == 0 && c.OwnAmpacityA.Valid
	if err != nil && !unlisted {
		return nil, c.checkMethod(r, err)
	}
	l := &laid{Conductor: c, rule: r}
	l.cable, err = l.bed(ofCable, column)
	return l, err
}

// bed looks up the factors on a column's ampacities, or on those of the data
// sheet.
func (l *laid) bed(s signs, column tables.AmpacityColumn) (bed, error) {
	b := bed{signs: s, column: column, base: column.AmpacityBase}
	if s == ofCable && l.OwnAmpacityA.Valid {
		b.base = tables.AmpacityBase{InsulationC: l.InsulationC, AmbientC: l.OwnAmbientC.Decimal}
		b.own = working.Figure{Value: l.OwnAmpacityA.Decimal, Unit: "A", Source: cite.DataSheet.At("ampacity", cite.Given)}
	}
	var err error
	if b.direct, err = l.rule.Column(l.Size, "C", column.InsulationC); err == nil && b.direct.Table != column.Table { // of another insulation: that of the terminals
		b.direct, _ = l.rule.AtTerminals(b.direct, column.InsulationC)
	}
	return b, errors.Join(l.insulate(&b), l.derate(&b))
}

// insulate looks up the factor for a length inside thermal insulation. It is on
// what the cable carries clipped direct.
func (l *laid) insulate(b *bed) error {
	if !l.InsulatedM.Decimal.IsPositive() {
		return nil
	}
	var err error
	if b.inside, err = tables.ThermalInsulation(l.InsulatedM.Decimal); err != nil || b.own.Stated() {
		return err
	}
	if b.direct.Table == "" {
		return &working.InputError{Field: "insulated_m", Got: l.InsulatedM.Decimal.String(),
			Want: "unset where the rules list no ampacity clipped direct (method C), on which the factor is"}
	}
	return nil
}

// start adds the lines of the ampacity before its factors: of its way of laying,
// or what is left where thermal insulation surrounds it, if that is less.
func (b *bed) start(size tables.Size, w *working.Working) (working.Figure, error) {
	table, err := b.figure(b.column, size)
	if err != nil {
		return table, err
	}
	w.LookUp(b.table, table)
	if !b.inside.Stated() {
		return table, nil
	}
	direct, err := b.figure(b.direct, size)
	if err != nil {
		return table, err
	}
	i := w.LookUp(b.clipped, direct)
	c, known := w.Value("C_i")
	if !known {
		c = w.LookUp("C_i", b.inside)
	}
	table.Value = w.Calc(b.table, "min("+b.table+", "+b.clipped+" × C_i)", decimal.Min(table.Value, i.Mul(c)), b.inside.Source)
	return table, nil
}

// figure returns the ampacity of a size before its factors, or of the largest
// size listed with no more copper. In free air (method F) a cable carries no less
// than clipped direct, where its sizes begin lower.
func (b *bed) figure(column tables.AmpacityColumn, wanted tables.Size) (working.Figure, error) {
	if b.own.Stated() {
		return b.own, nil
	}
	size, f, err := column.NoLarger(wanted)
	if err != nil && column.Method == "F" && b.direct.Table == column.Table {
		if size, f, err = b.direct.NoLarger(wanted); err == nil {
			f.Note = strings.TrimPrefix(f.Note+fmt.Sprintf("; method F begins at %s, in method C it carries no more", column.Sizes()[0]), "; ")
		}
	}
	if err == nil && size != wanted {
		f.Note = strings.TrimPrefix(f.Note+fmt.Sprintf("; %s is not listed, %s has no more copper", wanted, size), "; ")
	}
	return f, err
}

// ampacity asks for one size.
func (l *laid) ampacity(size tables.Size, ends bool) (Ampacity, error) {
	var w working.Working
	table, err := l.cable.start(size, &w)
	if err != nil {
		return Ampacity{}, err
	}
	a := Ampacity{CableA: l.cable.derated(table, &w), InsulationC: l.cable.base.InsulationC}
	w.LookUp("T_r", working.Figure{Value: a.InsulationC, Source: table.Source.Document(), Note: l.cable.ofWhat()})
	a.AmbientC = l.ambient(table.Source, &w)
	if a.CableA, err = l.cable.cap(a.CableA, a.AmbientC, table, &w); err != nil {
		return Ampacity{}, err
	}
	if !ends {
		a.AmpacityA = w.Calc("I_z", "I_c", a.CableA, arithmetic)
		w.Note("no terminal here")
	} else if err := l.atTerminals(&a, size, &w); err != nil {
		return Ampacity{}, err
	}
	a.Working = slices.Clip(w)
	return a, nil
}

// derated adds the lines of the factors, and of the ampacity with them.
func (b *bed) derated(table working.Figure, w *working.Working) decimal.Decimal {
	ampacity, formula := table.Value, b.table
	for _, f := range b.factors {
		formula += " × " + f.symbol
		if v, known := w.Value(f.symbol); known { // the terminals lie in the cable's group
			ampacity = ampacity.Mul(v)
			continue
		}
		ampacity = ampacity.Mul(w.LookUp(f.symbol, f.figure))
	}
	return w.Calc(b.signs.ampacity, formula, ampacity, table.Source.Document())
}

func (b *bed) ofWhat() string {
	if b.own.Stated() {
		return "of the cable"
	}
	return "of the column taken"
}

// ambient adds the line of the air temperature that the ampacity holds at.
func (l *laid) ambient(from cite.Source, w *working.Working) decimal.Decimal {
	if l.AmbientC.Valid {
		return w.Given("T_a", l.AmbientC.Decimal)
	}
	return w.LookUp("T_a", working.Figure{
		Value: l.cable.base.AmbientC, Source: from.Document(), Note: "not stated: that of the table",
	})
}

// temperatureLaw: the temperature of a conductor rises with the square of its
// current.
var temperatureLaw = cite.BS7671.At("appendix 4, clause 6.1", cite.SecondHand)

// derate looks up the factors that the rule set defines for this conductor.
func (l *laid) derate(b *bed) error {
	var err error
	if b.hotter, err = l.tooHot(b); err != nil {
		return err
	}
	if b.factors, err = l.surround(b); err != nil || l.Grouped <= 1 || l.rule.Grouping == "" {
		return err
	}
	if b.signs == ofTerminals { // they lie in the cable's group
		b.factors = append(b.factors, l.cable.factors[len(l.cable.factors)-1])
		return nil
	}
	f, err := tables.GroupingFactor(l.rule.Grouping, l.bundle())
	b.factors = append(b.factors, factor{"C_g", f})
	return err
}

// inEngineSpace reports whether the set has rules for where the cable lies.
func (l *laid) inEngineSpace() bool { return !l.OutsideEngineSpace && l.rule.EngineSpace != "" }

// tooHot says why no factor of the set reaches the ambient, if none does.
func (l *laid) tooHot(b *bed) (string, error) {
	holds, why := b.base.AmbientC, "the rules have no factor for an ambient"
	switch {
	case l.inEngineSpace():
		f, err := l.engineAmbient(b)
		if err != nil {
			return "", err
		}
		holds, why = f, "C_e is stated for "+f.String()+" °C, and this is hotter"
	case l.rule.Ambient != "":
		return "", nil // its table knows where it ends
	}
	if !l.AmbientC.Valid || l.AmbientC.Decimal.LessThanOrEqual(holds) {
		return "", nil
	}
	if l.AmbientC.Decimal.GreaterThanOrEqual(b.base.InsulationC) {
		return "", fmt.Errorf("ambient %s °C for %s °C insulation in %s: %w; the cable carries nothing there",
			l.AmbientC.Decimal, b.base.InsulationC, b.column.Table, tables.ErrOutside)
	}
	return why, nil
}

// engineAmbient is what the factor for engine spaces is stated for, on ampacities
// of the tables that it belongs to.
func (l *laid) engineAmbient(b *bed) (decimal.Decimal, error) {
	if !l.AmbientC.Valid {
		return decimal.Zero, &working.InputError{Field: "ambient_c", Got: "unset", Want: "the temperature of the engine space, or outside_engine_space"}
	}
	if b.own.Stated() && !b.base.AmbientC.Equal(b.column.AmbientC) {
		return decimal.Zero, &working.InputError{Field: "own_ambient_c", Got: b.base.AmbientC.String(),
			Want: b.column.AmbientC.String() + ", which the factors for engine spaces hold for"}
	}
	f, err := tables.EngineSpaceAmbient(l.rule.EngineSpace, b.base.InsulationC)
	return f.Value, err
}

// cap adds the lines that hold an ampacity to the law of the conductor's
// temperature where that is hotter than its factors reach: the heat of the
// current, as its square, to what the air still takes.
func (b *bed) cap(ampacity, ambient decimal.Decimal, table working.Figure, w *working.Working) (decimal.Decimal, error) {
	if b.hotter == "" {
		return ampacity, nil
	}
	holds := w.LookUp(b.holds, working.Figure{Value: b.base.AmbientC, Source: table.Source.Document()})
	share := b.base.InsulationC.Sub(ambient).Div(b.base.InsulationC.Sub(holds)).InexactFloat64()
	current, formula := table.Value, b.table
	for _, one := range b.factors {
		if one.symbol == "C_g" {
			current, formula = current.Mul(one.figure.Value), formula+" × C_g"
		}
	}
	law, err := fixed(floorTo(current.InexactFloat64()*math.Sqrt(share), 2), 2)
	if err != nil {
		return law, err
	}
	formula = fmt.Sprintf("min(%s, floor(%s × sqrt((%s − T_a) ÷ (%s − %s)) × 100) ÷ 100)", b.signs.ampacity, formula, b.limit, b.limit, b.holds)
	capped := w.Calc(b.signs.ampacity, formula, decimal.Min(ampacity, law), temperatureLaw)
	w.Note(b.hotter)
	return capped, nil
}

// surround returns the factor for what is round the cable: an engine-space
// factor replaces the ambient factor, in the set that defines one.
func (l *laid) surround(b *bed) ([]factor, error) {
	if l.inEngineSpace() {
		f, err := tables.EngineSpaceFactor(l.rule.EngineSpace, b.base.InsulationC)
		return []factor{{b.engine, f}}, err
	}
	if !l.AmbientC.Valid || l.rule.Ambient == "" || l.AmbientC.Decimal.Equal(b.base.AmbientC) {
		return nil, nil
	}
	look := b.base.AmbientFactor
	if l.ConvertAmbient {
		look = b.base.AmbientFactorConverted
	}
	f, err := look(l.rule.Ambient, l.AmbientC.Decimal)
	return []factor{{b.ambient, f}}, err
}
