package charge

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// StageVoltage is the voltage of one stage as a data sheet or a table gives it:
// for one cell, at one temperature.
type StageVoltage struct {
	CellV      decimal.Decimal     `json:"cell_v"`
	Cells      int                 `json:"cells"` // in series
	ReferenceC decimal.Decimal     `json:"voltage_reference_c"`
	MilliVPerC decimal.Decimal     `json:"compensation_mv_per_c"` // of a cell; negative: lower when hot
	LowC       decimal.NullDecimal `json:"compensation_low_c"`    // the charger compensates from here
	HighC      decimal.NullDecimal `json:"compensation_high_c"`   // to here, and holds the voltage beyond
	From       working.Working     `json:"from,omitempty"`        // the lines that gave any of it
}

// Voltage is that of a whole battery.
type Voltage struct {
	VoltageV decimal.Decimal `json:"stage_v"`
	Working  working.Working `json:"working"`
}

// At returns the voltage of the whole battery at its temperature:
//
//	T_k = T_b, held between the limits of the compensation where there are any
//	U_s = n_c × (U_z + α × (T_k − T_u) ÷ 1000)   [V]
//
// Cells 1 to 400, cell voltage above 0 to 5 V, compensation -10 to 0 mV/°C a
// cell, temperatures -60 to 100 °C. Source: BCI practice; the coefficients of
// other sources differ, see [tables.Compensations].
func (v StageVoltage) At(batteryC decimal.Decimal) (Voltage, error) {
	if err := errors.Join(v.check(), working.Between("battery_c", batteryC, -60, 100)); err != nil {
		return Voltage{}, err
	}
	w := working.Start(v.From)
	n, z := w.Given("n_c", count(v.Cells)), w.Given("U_z", v.CellV)
	ref, slope := w.Given("T_u", v.ReferenceC), w.Given("α", v.MilliVPerC)
	t := v.held(w.Given("T_b", batteryC), &w)
	volts := n.Mul(z.Add(slope.Mul(t.Sub(ref)).Shift(-3)))
	w.Calc("U_s", "n_c × (U_z + α × (T_k − T_u) ÷ 1000)", volts, cite.BCI.At("temperature compensation", cite.Published))
	return Voltage{VoltageV: volts, Working: slices.Clip(w)}, nil
}

// held adds the line of the temperature that the compensation works with.
func (v StageVoltage) held(t decimal.Decimal, w *working.Working) decimal.Decimal {
	formula := "T_b"
	if v.LowC.Valid {
		t, formula = greatest(t, v.LowC.Decimal), fmt.Sprintf("max(%s, %s)", formula, v.LowC.Decimal)
	}
	if v.HighC.Valid {
		t, formula = least(t, v.HighC.Decimal), fmt.Sprintf("min(%s, %s)", formula, v.HighC.Decimal)
	}
	return w.Calc("T_k", formula, t, sums)
}

func (v StageVoltage) check() error {
	errs := []error{
		working.Above("cell_v", v.CellV, 0, 5), working.Between("cells", count(v.Cells), 1, 400),
		working.Between("voltage_reference_c", v.ReferenceC, -60, 100),
		working.Between("compensation_mv_per_c", v.MilliVPerC, -10, 0),
		checkOptional("compensation_low_c", v.LowC, -60, 100), checkOptional("compensation_high_c", v.HighC, -60, 100),
	}
	if errors.Join(errs...) == nil && v.LowC.Valid && v.HighC.Valid && v.LowC.Decimal.GreaterThan(v.HighC.Decimal) {
		errs = append(errs, &working.InputError{Field: "compensation_low_c", Got: v.LowC.Decimal.String(), Want: "at most compensation_high_c"})
	}
	return errors.Join(errs...)
}

// Characteristic is what a charger does, in the letters of DIN 41772: I constant
// current, U constant voltage, o automatic change-over, a automatic end.
type Characteristic struct {
	Letters     string              `json:"characteristic"` // I, Ia, U, IU, IUIa or IUoU
	Chemistry   tables.Chemistry    `json:"chemistry"`
	Cells       int                 `json:"cells"`
	CapacityAh  decimal.Decimal     `json:"capacity_ah"`           // above 0 to 100 000
	AbsorptionV decimal.NullDecimal `json:"absorption_cell_v"`     // a cell; unset: the lowest of the tables
	FloatV      decimal.NullDecimal `json:"float_cell_v"`          // a cell, no more than in absorption; unset: the lowest of the tables
	ReferenceC  decimal.NullDecimal `json:"voltage_reference_c"`   // of the voltages given; unset: 25 °C
	MilliVPerC  decimal.NullDecimal `json:"compensation_mv_per_c"` // a cell; unset: the tables'
	TailA       decimal.NullDecimal `json:"tail_a"`                // unset: the tables' share of the capacity; 0 to 10 000
	FinishA     decimal.NullDecimal `json:"finish_a"`              // IUIa only: the constant current at its end; 0 to 10 000
	FinishH     decimal.NullDecimal `json:"finish_h"`              // I, Ia and IUIa: how long the last part lasts
}

// Profile is a characteristic in volts and amperes for one battery.
type Profile struct {
	Stages     []Stage             `json:"stages,omitempty"`
	MilliVPerC decimal.NullDecimal `json:"compensation_mv_per_c"` // a cell, by which its voltages follow the temperature; unset: it holds none
	Working    working.Working     `json:"working"`
}

// Stages returns the stages of the characteristic at the battery's temperature:
// U_s by [StageVoltage.At], the absorption stage's end by
//
//	I_tail = r_t × C   [A]
//
// Where no voltage is given the lowest figure of the tables for the chemistry
// serves, which charges slowest and harms least. Of a W characteristic, whose
// current follows the mains voltage, no stages can be told without the charger's
// own curve; it is an error. Cells 1 to 400, capacity above 0 to 100 000 Ah,
// temperature -60 to 100 °C. Source: DIN 41772, DIN 41773.
func (c Characteristic) Stages(batteryC decimal.Decimal) (Profile, error) {
	if err := errors.Join(c.check(), working.Between("battery_c", batteryC, -60, 100)); err != nil {
		return Profile{}, err
	}
	var w working.Working
	volts, err := c.voltages(batteryC, &w)
	if err != nil {
		return Profile{}, err
	}
	var stages []Stage
	for _, p := range partsOf[c.Letters] {
		stage, err := c.stage(p, volts, &w)
		if err != nil {
			return Profile{}, err
		}
		stages = append(stages, stage)
	}
	return Profile{Stages: stages, MilliVPerC: volts.milliVPerC, Working: slices.Clip(w)}, nil
}

// Equalising returns the voltage of an equalising charge at the battery's
// temperature, by [StageVoltage.At]: the voltage stated for a cell or, unset, the
// lowest of the tables. It is for flooded batteries, at a small current, with
// the caps' vents free and the density read every half-hour until no cell has
// risen for four hours (NAVEDTRA 14113); the tables have no voltage for sealed
// ones, which it dries out, nor for lithium.
func (c Characteristic) Equalising(cellV decimal.NullDecimal, batteryC decimal.Decimal) (Voltage, error) {
	err := errors.Join(c.check(), checkOptional("equalise_cell_v", cellV, 1, 5), working.Between("battery_c", batteryC, -60, 100))
	if err != nil {
		return Voltage{}, err
	}
	var w working.Working
	volts, _, err := c.voltage("equalise", cellV, batteryC, &w)
	if err != nil {
		return Voltage{}, err
	}
	return Voltage{volts.Decimal, slices.Clip(w)}, nil
}

// part is one part of a characteristic.
type part uint8

const (
	bulk       part = iota // I up to the absorption voltage
	absorption             // U until the tail current
	held                   // U without end
	float                  // U at the float voltage, without end
	finish                 // I for a time
)

var partsOf = map[string][]part{
	"I": {finish}, "Ia": {finish}, "U": {held}, "IU": {bulk, held},
	"IUIa": {bulk, absorption, finish}, "IUoU": {bulk, absorption, float},
}

// stageVolts are the voltages of a battery's stages, and what they follow the
// temperature by, where the characteristic has them.
type stageVolts struct{ absorption, float, milliVPerC decimal.NullDecimal }

func (c Characteristic) voltages(batteryC decimal.Decimal, w *working.Working) (volts stageVolts, err error) {
	parts := partsOf[c.Letters]
	if !slices.Equal(parts, []part{finish}) {
		volts.absorption, volts.milliVPerC, err = c.voltage("absorption", c.AbsorptionV, batteryC, w)
	}
	if err == nil && slices.Contains(parts, float) {
		if volts.float, _, err = c.voltage("float", c.FloatV, batteryC, w); err == nil {
			err = c.checkFloat(volts)
		}
	}
	return volts, err
}

// checkFloat refuses to hold a battery at more than it was charged with.
func (c Characteristic) checkFloat(volts stageVolts) error {
	switch above := volts.float.Decimal.GreaterThan(volts.absorption.Decimal); {
	case above && c.FloatV.Valid:
		return &working.InputError{Field: "float_cell_v", Got: c.FloatV.Decimal.String(), Want: "no more than the absorption voltage"}
	case above:
		return &working.InputError{Field: "absorption_cell_v", Got: c.AbsorptionV.Decimal.String(), Want: "no less than the float voltage"}
	default:
		return nil
	}
}

func (c Characteristic) stage(p part, volts stageVolts, w *working.Working) (Stage, error) {
	switch p {
	case bulk:
		return Stage{Name: "bulk", Letter: "I", VoltageV: volts.absorption}, nil
	case absorption:
		tail, err := c.tail(w)
		return Stage{Name: "absorption", Letter: "U", VoltageV: volts.absorption, TailA: decimal.NewNullDecimal(tail)}, err
	case held:
		return Stage{Name: "absorption", Letter: "U", VoltageV: volts.absorption}, nil
	case float:
		return Stage{Name: "float", Letter: "U", VoltageV: volts.float}, nil
	default:
		return Stage{Name: "constant current", Letter: "I", CurrentA: c.FinishA, AfterH: c.FinishH}, nil
	}
}

// voltage adds the lines of a stage's voltage, and returns its compensation too.
func (c Characteristic) voltage(kind string, stated decimal.NullDecimal, batteryC decimal.Decimal, w *working.Working) (volts, milliVPerC decimal.NullDecimal, err error) {
	none := decimal.NullDecimal{}
	v := StageVoltage{Cells: c.Cells, CellV: stated.Decimal, ReferenceC: roomC}
	if c.ReferenceC.Valid {
		v.ReferenceC = c.ReferenceC.Decimal
	}
	if !stated.Valid {
		listed, err := lowestVoltage(c.Chemistry, kind)
		if err != nil {
			return none, none, err
		}
		v.CellV, v.ReferenceC = w.LookUp("U_z", listed.Least), listed.ReferenceC
	}
	if err := c.compensate(&v, w); err != nil {
		return none, none, err
	}
	v.From = *w
	got, err := v.At(batteryC)
	if err != nil {
		return none, none, err
	}
	*w = got.Working
	w.Note(kind)
	return decimal.NewNullDecimal(got.VoltageV), decimal.NewNullDecimal(v.MilliVPerC), nil
}

var roomC = decimal.NewFromInt(25)

// lowestVoltage returns the row of the tables with the lowest voltage of a stage
// at 25 °C, the first of equals. Rows for stationary batteries are left out.
func lowestVoltage(chemistry tables.Chemistry, stage string) (tables.CellVoltage, error) {
	rows, err := tables.CellVoltages(chemistry, stage)
	if err != nil {
		return tables.CellVoltage{}, err
	}
	var lowest tables.CellVoltage
	for _, r := range rows {
		if strings.HasPrefix(r.Condition, "stationary") || !r.ReferenceC.Equal(roomC) {
			continue
		}
		if lowest.Stage == "" || r.Least.Value.LessThan(lowest.Least.Value) {
			lowest = r
		}
	}
	if lowest.Stage == "" {
		return lowest, &working.InputError{
			Field: stage + "_cell_v", Got: "unset",
			Want: "the data sheet's voltage: the tables have none at 25 °C for " + string(chemistry),
		}
	}
	return lowest, nil
}

// compensate sets the temperature coefficient: the one given, else the first of
// the tables for the chemistry.
func (c Characteristic) compensate(v *StageVoltage, w *working.Working) error {
	if c.MilliVPerC.Valid {
		v.MilliVPerC = c.MilliVPerC.Decimal
		return nil
	}
	listed, err := tables.Compensations(c.Chemistry)
	if err != nil {
		return err
	}
	v.MilliVPerC = w.LookUp("α", listed[0].Slope)
	return nil
}

// tail adds the lines of the tail current.
func (c Characteristic) tail(w *working.Working) (decimal.Decimal, error) {
	if c.TailA.Valid {
		return w.Given("I_tail", c.TailA.Decimal), nil
	}
	share, err := tables.AbsorptionRule(c.Chemistry, "tail current")
	if err != nil {
		return decimal.Zero, err
	}
	r := w.LookUp("r_t", share)
	return w.Calc("I_tail", "r_t × C", r.Mul(w.Given("C", c.CapacityAh)), sums), nil
}

func (c Characteristic) check() error {
	errs := []error{
		c.checkLetters(),
		c.Chemistry.Check("chemistry"),
		working.Between("cells", count(c.Cells), 1, 400), working.Above("capacity_ah", c.CapacityAh, 0, 100_000),
		checkOptional("absorption_cell_v", c.AbsorptionV, 1, 5), checkOptional("float_cell_v", c.FloatV, 1, 5),
		checkOptional("compensation_mv_per_c", c.MilliVPerC, -10, 0),
		checkOptional("voltage_reference_c", c.ReferenceC, -60, 100),
		checkOptional("tail_a", c.TailA, 0, 10_000),
		checkOptional("finish_a", c.FinishA, 0, 10_000), checkOptional("finish_h", c.FinishH, 0, 1000),
	}
	return errors.Join(errs...)
}

func (c Characteristic) checkLetters() error {
	if _, err := tables.CharacteristicMeaning(c.Letters); err != nil {
		return err
	}
	parts, ok := partsOf[c.Letters]
	if !ok {
		return &working.InputError{
			Field: "characteristic", Got: c.Letters,
			Want: "I, Ia, U, IU, IUIa or IUoU: a W part follows the mains and needs the charger's own curve",
		}
	}
	if slices.Contains(parts, finish) && (!c.FinishA.Valid || !c.FinishH.Valid) {
		return &working.InputError{Field: "finish_a", Got: "unset", Want: "finish_a and finish_h: " + c.Letters + " has no voltage to end it"}
	}
	return nil
}

// Absorption is a stage of constant voltage timed by rule.
type Absorption struct {
	TimeH   decimal.Decimal `json:"absorption_h"`
	Working working.Working `json:"working"`
}

// AbsorptionTime returns how long absorption lasts by a common rule:
//
//	t_ab = k_t × C ÷ I_bulk   [h], to 0.01
//
// k_t is 0.42 for lead-acid, from memory and widely repeated; other chemistries
// end by their tail current. Capacity above 0 to 100 000 Ah, bulk current above
// 0 to 10 000 A.
func AbsorptionTime(chemistry tables.Chemistry, capacityAh, bulkA decimal.Decimal) (Absorption, error) {
	err := errors.Join(working.Above("capacity_ah", capacityAh, 0, 100_000), working.Above("bulk_a", bulkA, 0, 10_000))
	if err != nil {
		return Absorption{}, err
	}
	rule, err := tables.AbsorptionRule(chemistry, "absorption time")
	if err != nil {
		return Absorption{}, err
	}
	var w working.Working
	k, c, i := w.LookUp("k_t", rule), w.Given("C", capacityAh), w.Given("I_bulk", bulkA)
	t := w.Calc("t_ab", "k_t × C ÷ I_bulk", k.Mul(c).DivRound(i, 2), rule.Source.Document())
	return Absorption{TimeH: t, Working: slices.Clip(w)}, nil
}
