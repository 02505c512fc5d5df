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

// Conductor is a copper cable as it lies.
type Conductor struct {
	Size        tables.Size         `json:"size"`
	Class       tables.Class        `json:"class"`  // IEC 60228; of a gauge size it decides nothing
	Tinned      bool                `json:"tinned"` // strands with a metal coat: up to 3 % more resistance
	Method      string              `json:"method"` // IEC 60364-5-52: A, B, C or F
	InsulationC decimal.Decimal     `json:"insulation_c"`
	AmbientC    decimal.NullDecimal `json:"ambient_c"` // unset: that of the table, and a line says so
	Grouped     int                 `json:"grouped"`   // circuits that lie together, itself counted
	EngineSpace bool                `json:"engine_space"`
	TerminalC   decimal.NullDecimal `json:"terminal_c"` // rating of the terminals; unset: 70 °C
}

// Ampacity is what a conductor may carry without end.
type Ampacity struct {
	AmpacityA   decimal.Decimal `json:"ampacity_a"`
	CableA      decimal.Decimal `json:"cable_ampacity_a"` // before the terminals cap it
	AmbientC    decimal.Decimal `json:"ambient_c"`
	InsulationC decimal.Decimal `json:"insulation_c"` // of the column used
	Working     working.Working `json:"working"`
}

// Ampacity returns the current that the conductor may carry without end:
//
//	I_c = I_t × C_a × C_g                          the cable by itself
//	I_z = I_c × √((T_t − T_a) ÷ (T_r − T_a))       no hotter than its terminals bear
//
// I_t is the figure of the rule set's table in the column of the insulation, or
// of the next cooler insulation listed. C_a is the factor for the ambient,
// which C_e replaces in an engine space where the set defines one; C_g is for
// grouping. Each condition takes the next worse row; where the set has no
// factor for grouping the line is left out and nothing is derated for it.
//
// In air hotter than its table holds at (T_at), where the set has no factors
// for the ambient, and in an engine space hotter than C_e is stated for, the
// law of the conductor's temperature caps the cable, rounded down to 0.01 A:
//
//	I_c = min(I_c, I_t × C_g × √((T_r − T_a) ÷ (T_r − T_at)))
//
// Without C_g where nothing is grouped. The line of I_z
// holds where the terminals bear less (T_t, 70 °C where unset) than the
// insulation (T_r); it is rounded down to 0.01 A.
//
// Ambient -40 to 120 °C (needed in an engine space), insulation 60 to 250 °C,
// 1 to 60 circuits. An ambient beyond the table on the hot side, or where the
// set has no table one that the insulation does not outlast, is
// [tables.ErrOutside]: the cable carries nothing there.
// Sources: the table and factors named in the lines; BS 7671 appendix 4,
// clause 6.1, for the temperature rising with the square of the current.
func (c Conductor) Ampacity(r tables.AmpacityRule) (Ampacity, error) {
	if err := c.check(); err != nil {
		return Ampacity{}, err
	}
	column, err := r.Column(c.Size, c.Method, c.InsulationC)
	if err != nil {
		return Ampacity{}, err
	}
	factors, err := c.factors(r, column)
	if err != nil {
		return Ampacity{}, err
	}
	return c.ampacityIn(column, factors)
}

// ampacityIn asks one column; the factors are the same for all its sizes.
func (c Conductor) ampacityIn(column tables.AmpacityColumn, factors factors) (Ampacity, error) {
	table, err := c.tabulated(column)
	if err != nil {
		return Ampacity{}, err
	}
	var w working.Working
	cable, formula := w.LookUp("I_t", table), "I_t"
	for _, f := range factors.list {
		cable, formula = cable.Mul(w.LookUp(f.symbol, f.figure)), formula+" × "+f.symbol
	}
	w.Calc("I_c", formula, cable, table.Source.Document())
	w.LookUp("T_r", insulation(column, table.Source))
	a := Ampacity{CableA: cable, AmbientC: c.ambient(column, table.Source, &w), InsulationC: column.InsulationC}
	if factors.why != "" {
		a.CableA = factors.cap(a, column, table, &w)
	}
	a.AmpacityA = c.atTerminals(a, &w)
	a.Working = slices.Clip(w)
	return a, nil
}

// tabulated returns the table's figure for the size, or for the largest size
// listed with no more copper.
func (c Conductor) tabulated(column tables.AmpacityColumn) (working.Figure, error) {
	size, f, err := column.NoLarger(c.Size)
	if err == nil && size != c.Size {
		f.Note = strings.TrimPrefix(f.Note+fmt.Sprintf("; %s is not listed, %s has no more copper", c.Size, size), "; ")
	}
	return f, err
}

// insulation is the temperature of the column that the ampacity was taken from.
func insulation(column tables.AmpacityColumn, from cite.Source) working.Figure {
	return working.Figure{Value: column.InsulationC, Unit: "°C", Source: from.Document(), Note: "of the column taken"}
}

// ambient adds the line of the air temperature that the ampacity holds at.
func (c Conductor) ambient(column tables.AmpacityColumn, from cite.Source, w *working.Working) decimal.Decimal {
	if c.AmbientC.Valid {
		return w.Given("T_a", c.AmbientC.Decimal)
	}
	return w.LookUp("T_a", working.Figure{
		Value: column.AmbientC, Unit: "°C", Source: from.Document(), Note: "not stated: that of the table",
	})
}

// temperatureLaw: the temperature of a conductor rises with the square of its
// current.
var temperatureLaw = cite.BS7671.At("appendix 4, clause 6.1", cite.SecondHand)

// terminal is the rating of terminals that state none: common practice, from
// the 70 °C column that wiring codes take for them.
var terminal = working.Figure{
	Value: decimal.NewFromInt(70), Unit: "°C",
	Source: cite.Practice.At("terminals without a stated rating", cite.CommonPractice),
}

// atTerminals adds the lines that cap the cable's ampacity by its terminals.
func (c Conductor) atTerminals(a Ampacity, w *working.Working) decimal.Decimal {
	ta, tr := a.AmbientC, a.InsulationC
	law := temperatureLaw
	var tt decimal.Decimal
	if c.TerminalC.Valid {
		tt = w.Given("T_t", c.TerminalC.Decimal)
	} else {
		tt = w.LookUp("T_t", terminal)
	}
	switch {
	case tt.GreaterThanOrEqual(tr):
		return w.Calc("I_z", "I_c", a.CableA, law)
	case ta.GreaterThanOrEqual(tt):
		return w.Calc("I_z", "max(0, T_t − T_a)", decimal.Zero, law)
	}
	share := tt.Sub(ta).Div(tr.Sub(ta)).InexactFloat64()
	capped := floorCents(a.CableA.InexactFloat64() * math.Sqrt(share))
	return w.Calc("I_z", "floor(I_c × sqrt((T_t − T_a) ÷ (T_r − T_a)) × 100) ÷ 100", capped, law)
}

// floorCents rounds down to 0.01, so that no rounding leads to a pass.
func floorCents(x float64) decimal.Decimal {
	return fixed(math.Floor(x*100)/100, 2)
}

type factor struct {
	symbol string
	figure working.Figure
}

// factors are those on a table's ampacities.
type factors struct {
	list []factor
	why  string // why the law of the conductor's temperature caps them; empty: it does not
}

// factors returns those that the rule set defines for this conductor.
func (c Conductor) factors(r tables.AmpacityRule, column tables.AmpacityColumn) (factors, error) {
	why, err := c.tooHot(r, column)
	if err != nil {
		return factors{}, err
	}
	all, err := c.surround(r, column)
	if err != nil {
		return factors{}, err
	}
	if c.Grouped > 1 && r.Grouping != "" {
		f, err := tables.GroupingFactor(r.Grouping, tables.Bundle{Circuits: c.Grouped, Conductors: 2 * c.Grouped})
		if err != nil {
			return factors{}, err
		}
		all = append(all, factor{"C_g", f})
	}
	return factors{all, why}, nil
}

// tooHot says why no factor of the set reaches the ambient, if none does.
func (c Conductor) tooHot(r tables.AmpacityRule, column tables.AmpacityColumn) (string, error) {
	holds, why := column.AmbientC, "the rules have no factor for an ambient"
	switch {
	case c.EngineSpace && r.EngineSpace != "":
		f, err := tables.EngineSpaceAmbient(r.EngineSpace, column.InsulationC)
		if err != nil {
			return "", err
		}
		holds, why = f.Value, "C_e is stated for "+f.Value.String()+" °C, and this is hotter"
	case r.Ambient != "":
		return "", nil // its table knows where it ends
	}
	if !c.AmbientC.Valid || c.AmbientC.Decimal.LessThanOrEqual(holds) {
		return "", nil
	}
	if c.AmbientC.Decimal.GreaterThanOrEqual(column.InsulationC) {
		return "", fmt.Errorf("ambient %s °C for %s °C insulation in %s: %w; the cable carries nothing there",
			c.AmbientC.Decimal, column.InsulationC, column.Table, tables.ErrOutside)
	}
	return why, nil
}

// cap adds the lines that hold the cable to the law of its temperature: the heat
// of the current, as its square, to what the air still takes.
func (f factors) cap(a Ampacity, column tables.AmpacityColumn, table working.Figure, w *working.Working) decimal.Decimal {
	holds := w.LookUp("T_at", working.Figure{Value: column.AmbientC, Unit: "°C", Source: table.Source.Document()})
	share := a.InsulationC.Sub(a.AmbientC).Div(a.InsulationC.Sub(holds)).InexactFloat64()
	current, formula := table.Value, "I_t"
	for _, one := range f.list {
		if one.symbol == "C_g" {
			current, formula = current.Mul(one.figure.Value), "I_t × C_g"
		}
	}
	law := floorCents(current.InexactFloat64() * math.Sqrt(share))
	formula = "min(I_c, floor(" + formula + " × sqrt((T_r − T_a) ÷ (T_r − T_at)) × 100) ÷ 100)"
	capped := w.Calc("I_c", formula, decimal.Min(a.CableA, law), temperatureLaw)
	w.Note(f.why)
	return capped
}

// surround returns the factor for what is round the cable: an engine-space
// factor replaces the ambient factor, in the set that defines one.
func (c Conductor) surround(r tables.AmpacityRule, column tables.AmpacityColumn) ([]factor, error) {
	if c.EngineSpace && r.EngineSpace != "" {
		f, err := tables.EngineSpaceFactor(r.EngineSpace, column.InsulationC)
		return []factor{{"C_e", f}}, err
	}
	if !c.AmbientC.Valid || r.Ambient == "" || c.AmbientC.Decimal.Equal(column.AmbientC) {
		return nil, nil
	}
	f, err := column.AmbientFactor(r.Ambient, c.AmbientC.Decimal)
	return []factor{{"C_a", f}}, err
}

func (c Conductor) check() error {
	return errors.Join(
		c.checkKind(),
		working.Between("insulation_c", c.InsulationC, 60, 250),
		c.checkAmbient(),
		working.Between("grouped", decimal.NewFromInt(int64(c.Grouped)), 1, 60),
		checkOptional("terminal_c", c.TerminalC, 40, 250),
	)
}

func (c Conductor) checkKind() error {
	if c.Size.IsZero() {
		return &working.InputError{Field: "size", Got: "unset", Want: "a conductor size such as 16 mm2 or AWG 6"}
	}
	if c.Size.System() == tables.Metric && c.Class != tables.Stranded && c.Class != tables.Flexible {
		return &working.InputError{Field: "class", Got: fmt.Sprint(uint8(c.Class)), Want: "2 (stranded) or 5 (flexible)"}
	}
	return nil
}

func (c Conductor) checkAmbient() error {
	if c.EngineSpace && !c.AmbientC.Valid {
		return &working.InputError{Field: "ambient_c", Got: "unset", Want: "the temperature of the engine space"}
	}
	return checkOptional("ambient_c", c.AmbientC, -40, 120)
}

func checkOptional(field string, v decimal.NullDecimal, low, high int64) error {
	if !v.Valid {
		return nil
	}
	return working.Between(field, v.Decimal, low, high)
}
