package battery

import (
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Rested is a battery long at rest, with a voltmeter on its posts.
type Rested struct {
	Chemistry tables.Chemistry    `json:"chemistry"`
	VoltageV  decimal.Decimal     `json:"rested_v"`
	Cells     int                 `json:"cells"`           // in series: 6 of a 12 V lead-acid battery, 4 of a 12.8 V LiFePO4 one
	MeterV    decimal.NullDecimal `json:"meter_v"`         // how far the meter may be wrong, either way
	Table     string              `json:"table,omitempty"` // one of the tables by name; empty: all that are published
	From      working.Working     `json:"from,omitempty"`
}

// StateOfCharge is a range, as narrow as the tables allow.
type StateOfCharge struct {
	LeastPercent    decimal.Decimal `json:"least_soc_percent"`
	GreatestPercent decimal.Decimal `json:"greatest_soc_percent"`
	Missing         string          `json:"missing,omitempty"` // what to do instead, where the range says too little
	Working         working.Working `json:"working"`
}

// StateOfCharge returns the range of charge that the rested voltage leaves
// open:
//
//	U_c1 = (U_rs − U_mt) ÷ n_c − U_sp   [V a cell]
//	U_c2 = (U_rs + U_mt) ÷ n_c + U_sp
//	s_1 = min over the tables of the row below, s_2 = max of the row above
//
// Nothing is interpolated, and tables that differ widen the range. A range of
// more than 35 points is no answer: Missing says what to do. That is so on the
// flat part of lithium iron phosphate, and soon after charging or discharging.
// Voltage 1 to 100 V, 1 to 30 cells, meter 0 to 1 V. Sources: each line.
func (r Rested) StateOfCharge() (StateOfCharge, error) {
	if err := r.check(); err != nil {
		return StateOfCharge{}, err
	}
	w := working.Start(r.From)
	u, m := w.Given("U_rs", r.VoltageV), w.Given("U_mt", r.MeterV.Decimal)
	cells := w.Given("n_c", whole(r.Cells))
	differ := w.LookUp("U_sp", tables.RestedSpread(r.Chemistry))
	low := w.Calc("U_c1", "(U_rs − U_mt) ÷ n_c − U_sp", u.Sub(m).DivRound(cells, 6).Sub(differ), arithmetic)
	high := w.Calc("U_c2", "(U_rs + U_mt) ÷ n_c + U_sp", u.Add(m).DivRound(cells, 6).Add(differ), arithmetic)
	bands, err := tables.ChargeByVoltage(r.Chemistry, low, high)
	if err != nil {
		return StateOfCharge{}, err
	}
	return charged(w, bands, r.Table, "count the ampere-hours in and out (a shunt), or charge until full and count from there")
}

// charged adds the range of several tables, or of the one named.
func charged(w working.Working, bands []tables.ChargeBand, table, instead string) (StateOfCharge, error) {
	var lows, highs, names []string
	for k, b := range bands {
		names = append(names, b.Table)
		if table != "" && b.Table != table {
			continue
		}
		w.LookUp(nth("s_1", k), b.Least)
		w.LookUp(nth("s_2", k), b.Greatest)
		lows, highs = append(lows, nth("s_1", k)), append(highs, nth("s_2", k))
	}
	if len(lows) == 0 {
		return StateOfCharge{}, working.OneOf("table", table, names...)
	}
	var s StateOfCharge
	s.LeastPercent = w.Calc("s_1", "min("+joined(lows)+")", least(w, lows), arithmetic)
	s.GreatestPercent = w.Calc("s_2", "max("+joined(highs)+")", greatest(w, highs), arithmetic)
	if s.GreatestPercent.Sub(s.LeastPercent).GreaterThan(tables.WidestCharge().Value) {
		s.Missing = fmt.Sprintf("%s to %s %% is no answer: %s", s.LeastPercent, s.GreatestPercent, instead)
	}
	s.Working = slices.Clip(w)
	return s, nil
}

func (r Rested) check() error {
	return errors.Join(
		r.Chemistry.Check("chemistry"),
		working.Between("rested_v", r.VoltageV, 1, 100),
		working.Between("cells", whole(r.Cells), 1, 30),
		stated("meter_v", r.MeterV, 0, 1),
	)
}

// Electrolyte is what a hydrometer and a thermometer show in a flooded
// lead-acid cell.
type Electrolyte struct {
	Reading decimal.Decimal     `json:"density_reading"` // relative density, 1.250; 1 to 2
	Table   string              `json:"table"`           // of the state of charge: "full 1.265" where that is its density when full; empty: all
	AtC     decimal.NullDecimal `json:"electrolyte_c"`   // -60 to 80
	From    working.Working     `json:"from,omitempty"`
}

// Density is a relative density referred to 80 °F (26.7 °C).
type Density struct {
	Density decimal.Decimal `json:"density"`
	Working working.Working `json:"working"`
}

// Density refers the reading to 80 °F (26.7 °C):
//
//	T_F = T_el × 9 ÷ 5 + 32          [°F]
//	D = D_m + k_D × (T_F − 80) ÷ 10
//
// A cold cell reads high and a warm one low. Reading 1.000 to 1.400,
// temperature -60 to 80 °C. Source: TM 5-4210-230-14&P (0.004 for each 10 °F);
// other texts have 0.0033 and 0.003.
func (e Electrolyte) Density() (Density, error) {
	if err := e.check(); err != nil {
		return Density{}, err
	}
	w := working.Start(e.From)
	d := e.density(&w)
	return Density{Density: d, Working: slices.Clip(w)}, nil
}

func (e Electrolyte) density(w *working.Working) decimal.Decimal {
	reading, c := w.Given("D_m", e.Reading), w.Given("T_el", e.AtC.Decimal)
	f := w.Calc("T_F", "T_el × 9 ÷ 5 + 32", c.Mul(decimal.New(18, -1)).Add(decimal.NewFromInt(32)), arithmetic)
	slope := tables.DensitySlope()
	k := w.LookUp("k_D", slope)
	return w.Calc("D", "D_m + k_D × (T_F − 80) ÷ 10", reading.Add(k.Mul(f.Sub(decimal.NewFromInt(80))).Shift(-1)), slope.Source)
}

// StateOfCharge returns the range of charge that the density leaves open, in
// the way of [Rested.StateOfCharge]: tables differ by the density that their
// batteries are filled with.
func (e Electrolyte) StateOfCharge() (StateOfCharge, error) {
	if err := e.check(); err != nil {
		return StateOfCharge{}, err
	}
	w := working.Start(e.From)
	d := e.density(&w)
	bands, err := tables.ChargeByDensity("lead-acid flooded", d, d)
	if err != nil {
		return StateOfCharge{}, err
	}
	return charged(w, bands, e.Table, "charge until the density no longer rises, and take that as full")
}

// Freezing is the temperature at which an electrolyte freezes.
type Freezing struct {
	FreezingC decimal.Decimal `json:"freezing_c"`
	Working   working.Working `json:"working"`
}

// Freezing returns the freezing point of the electrolyte:
//
//	T_fz = (T_fF − 32) × 5 ÷ 9   [°C], rounded up to 0.1
//
// by the row of its density or of the next lower one, which freezes sooner.
// Densities from 1.000 to 1.30, referred to 80 °F. Source: OD1002 and TM 5-1185.
// Corrected density 0 to 2.
func (e Electrolyte) Freezing() (Freezing, error) {
	if err := e.check(); err != nil {
		return Freezing{}, err
	}
	w := working.Start(e.From)
	c, err := freezing(e.density(&w), &w)
	if err != nil {
		return Freezing{}, err
	}
	return Freezing{FreezingC: c, Working: slices.Clip(w)}, nil
}

// freezing adds the freezing point of a density.
func freezing(density decimal.Decimal, w *working.Working) (decimal.Decimal, error) {
	f, err := tables.FreezingPoint(density)
	if err != nil {
		return decimal.Decimal{}, err
	}
	at := w.LookUp("T_fF", f)
	above := at.Sub(decimal.NewFromInt(32)).Mul(decimal.NewFromInt(5))
	return w.CalcUp("T_fz", "(T_fF − 32) × 5 ÷ 9", above, decimal.NewFromInt(9), 1, arithmetic), nil
}

// CheckFreezing judges the freezing point against the coldest that the battery
// stands in: B07.
// Coldest -60 to 80 °C, density 0 to 2.
func (e Electrolyte) CheckFreezing(coldestC decimal.NullDecimal) (working.Check, error) {
	if err := errors.Join(e.check(), stated("battery_c", coldestC, -60, 80)); err != nil {
		return working.Check{}, err
	}
	w := working.Start(e.From)
	return checkFreezing(e.density(&w), coldestC.Decimal, w)
}

// CheckFreezing judges a lead-acid battery run down to a state of charge, as
// [Electrolyte.CheckFreezing] does, by the lowest density that a table gives it
// there, on the line between its rows, and the row of freezing of that or of the next
// lower density: 0 to 100 %. Sources: [tables.LeastDensityInterpolated], OD1002.
// Coldest -60 to 80 °C.
func CheckFreezing(socPercent decimal.Decimal, coldestC decimal.NullDecimal) (working.Check, error) {
	if err := errors.Join(working.Between("soc_percent", socPercent, 0, 100), stated("battery_c", coldestC, -60, 80)); err != nil {
		return working.Check{}, err
	}
	least, err := tables.LeastDensityInterpolated(socPercent)
	if err != nil {
		return working.Check{}, err
	}
	var w working.Working
	w.Given("s", socPercent)
	return checkFreezing(w.LookUp("D", least), coldestC.Decimal, w)
}

func checkFreezing(density, coldestC decimal.Decimal, w working.Working) (working.Check, error) {
	if _, err := freezing(density, &w); err != nil {
		return working.Check{}, err
	}
	w.Given("T_b", coldestC)
	c := w.Check("B07", "Electrolyte does not freeze", "T_fz", "T_b")
	c.Below = true
	return c, nil
}

func (e Electrolyte) check() error {
	err := working.Between("density_reading", e.Reading, 1, 2)
	if err == nil && e.Reading.GreaterThan(decimal.New(14, -1)) {
		err = &working.InputError{Field: "density_reading", Got: e.Reading.String(), Want: "1 to 1.4"}
	}
	return errors.Join(err, stated("electrolyte_c", e.AtC, -60, 80))
}
