package wire

import (
	"errors"
	"fmt"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Conductor is a copper cable as it lies. What is left out is the side that
// carries less or loses more.
type Conductor struct {
	Size               tables.Size         `json:"size"`
	Class              tables.Class        `json:"class"`                       // IEC 60228; of a gauge size it decides nothing
	PlainCopper        bool                `json:"plain_copper"`                // false: tinned strands, up to 3 % more resistance
	Method             string              `json:"method"`                      // of laying, as the table names it: IEC 60364-5-52 A, B, C or F
	InsulationC        decimal.Decimal     `json:"insulation_c"`                // 60 to 250
	AmbientC           decimal.NullDecimal `json:"ambient_c"`                   // unset: that of the table, and a line says so; -40 to 120
	Grouped            int                 `json:"grouped"`                     // circuits that lie together, itself counted; 1 to 60
	GroupedConductors  int                 `json:"grouped_conductors,omitzero"` // of these circuits, that carry current; 0: two a circuit; 1 to 240, no fewer than the circuits
	InsulatedM         decimal.NullDecimal `json:"insulated_m"`                 // length that thermal insulation surrounds; unset: none, or not asked; 0 to 1000
	OutsideEngineSpace bool                `json:"outside_engine_space"`        // false: in one, where the set has rules for it
	TerminalC          decimal.NullDecimal `json:"terminal_c"`                  // what the terminals at its ends bear; unset: as the set says; 40 to 250
	OwnAmpacityA       decimal.NullDecimal `json:"own_ampacity_a"`              // of its data sheet, in place of the set's table; above 0 to 10 000
	OwnAmbientC        decimal.NullDecimal `json:"own_ambient_c"`               // at which that holds; -40 to 120
	ConvertAmbient     bool                `json:"convert_ambient"`             // carry a factor for ampacities of another ambient over by the heating law; false: refuse it
}

func (c Conductor) check() error {
	return errors.Join(
		c.checkKind(),
		working.Between("insulation_c", c.InsulationC, 60, 250),
		checkOptional("ambient_c", c.AmbientC, -40, 120),
		c.checkGroup(),
		checkOptional("insulated_m", c.InsulatedM, 0, 1000),
		checkOptional("terminal_c", c.TerminalC, 40, 250),
		c.checkOwn(),
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

func (c Conductor) checkGroup() error {
	if err := working.Between("grouped", decimal.NewFromInt(int64(c.Grouped)), 1, 60); err != nil || c.GroupedConductors == 0 {
		return err
	}
	return working.Between("grouped_conductors", decimal.NewFromInt(int64(c.GroupedConductors)), int64(c.Grouped), 240)
}

// bundle is what lies together, counted both ways.
func (c Conductor) bundle() tables.Bundle {
	b := tables.Bundle{Circuits: c.Grouped, Conductors: c.GroupedConductors}
	if b.Conductors == 0 {
		b.Conductors = 2 * c.Grouped
	}
	return b
}

func (c Conductor) checkOwn() error {
	ambient, ampacity := checkOptional("own_ambient_c", c.OwnAmbientC, -40, 120), checkAbove("own_ampacity_a", c.OwnAmpacityA, greatestAmperes)
	switch {
	case c.OwnAmpacityA.Valid && !c.OwnAmbientC.Valid:
		ambient = &working.InputError{Field: "own_ambient_c", Got: "unset", Want: "the ambient that the data sheet's ampacity holds at"}
	case c.OwnAmbientC.Valid && !c.OwnAmpacityA.Valid:
		ampacity = &working.InputError{Field: "own_ampacity_a", Got: "unset", Want: "the ampacity that the data sheet states at own_ambient_c"}
	case ambient == nil && c.OwnAmbientC.Valid && c.OwnAmbientC.Decimal.GreaterThanOrEqual(c.InsulationC):
		ambient = &working.InputError{Field: "own_ambient_c", Got: c.OwnAmbientC.Decimal.String(), Want: "below insulation_c"}
	}
	return errors.Join(ambient, ampacity)
}

// checkMethod tells a method that the rule's tables do not know from what else
// they lack.
func (c Conductor) checkMethod(r tables.AmpacityRule, lacking error) error {
	if _, err := r.Column(c.Size, c.Method, decimal.NewFromInt(hottest)); err == nil || len(r.Metric)+len(r.Gauge) == 0 {
		return lacking
	}
	return &working.InputError{Field: "method", Got: fmt.Sprintf("%.60q", c.Method), Want: "a method of the table: " + lacking.Error()}
}
