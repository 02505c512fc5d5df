package tables

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// ChargeBand is what one table makes of a reading: no less and no more charged
// than its rows on either side.
type ChargeBand struct {
	Table    string         `json:"table"`
	Least    working.Figure `json:"least"`    // %
	Greatest working.Figure `json:"greatest"` // %
}

// chargeRow is one state of charge of a table and the readings that belong to it.
type chargeRow struct {
	table, chemistry, quantity string
	low, high                  decimal.Decimal
	soc                        working.Figure
}

var leadCharge = load("ocv-lead-acid", func(r *record) chargeRow {
	soc := r.figure("soc_percent", "%", r.text("table"), r.text("condition"))
	low, high := r.optional("value_min"), r.optional("value_max")
	if !low.Valid { // "11.7 V or less"
		low = high
	}
	if !high.Valid { // "12.6 V or more"
		high = low
	}
	quantity := r.text("quantity")
	if quantity == "voltage_12v" {
		quantity = cellVolts // of six cells
	}
	return chargeRow{r.text("table"), r.text("chemistry"), quantity, low.Decimal, high.Decimal, soc}
})

// cellVolts and gravity are the quantities that tell a state of charge.
const (
	cellVolts = "voltage"
	gravity   = "specific_gravity"
)

// lithiumCharge leaves the curves of a discharge at a low rate aside: they lie
// 20 to 90 mV below a rested cell.
var lithiumCharge = load("ocv-lithium-nickel", func(r *record) chargeRow {
	v, quantity := r.number("ocv_v_per_cell"), cellVolts
	if r.text("condition") == "low-rate discharge curve" {
		quantity = "voltage under load"
	}
	return chargeRow{r.text("table"), r.text("chemistry"), quantity, v, v,
		r.figure("soc_percent", "%", r.text("table"), r.text("chemistry"), v.String()+" V a cell")}
})

// ChargeByVoltage returns what each table makes of the rested voltage of one
// cell, from its lowest to its highest possible reading. The tables of lead-acid
// are printed for six cells. Tables that differ are all returned; those without
// a published source only where there is no other. None is [ErrNotListed].
func ChargeByVoltage(chemistry Chemistry, lowV, highV decimal.Decimal) ([]ChargeBand, error) {
	if err := errors.Join(chemistry.Check("chemistry"), inOrder("cell_v", lowV, highV, 100)); err != nil {
		return nil, err
	}
	bands, err := chargeBands(lithiumCharge(), chemistry, cellVolts, lowV, highV)
	if errors.Is(err, ErrNotListed) {
		six := decimal.NewFromInt(6)
		bands, err = chargeBands(leadCharge(), chemistry, cellVolts, lowV.Mul(six), highV.Mul(six))
	}
	if err != nil {
		return nil, fmt.Errorf("rested voltage of %s: %w", chemistry, err)
	}
	return bands, nil
}

// ChargeByDensity is [ChargeByVoltage] for the density of the electrolyte,
// referred to 80 °F (26.7 °C): flooded lead-acid.
func ChargeByDensity(chemistry Chemistry, low, high decimal.Decimal) ([]ChargeBand, error) {
	if err := errors.Join(chemistry.Check("chemistry"), inOrder("density", low, high, 2)); err != nil {
		return nil, err
	}
	bands, err := chargeBands(leadCharge(), chemistry, gravity, low, high)
	if err != nil {
		return nil, fmt.Errorf("density of %s: %w", chemistry, err)
	}
	return bands, nil
}

// inOrder checks the two ends of a reading.
func inOrder(field string, low, high decimal.Decimal, greatest int64) error {
	err := errors.Join(working.Above(field, low, 0, greatest), working.Above(field, high, 0, greatest))
	if err == nil && low.GreaterThan(high) {
		err = &working.InputError{Field: field, Got: low.String() + " to " + high.String(), Want: "the lowest possible reading before the highest"}
	}
	return err
}

func chargeBands(all []chargeRow, chemistry Chemistry, quantity string, low, high decimal.Decimal) ([]ChargeBand, error) {
	rows, err := chemistryRows(all, chemistry, func(r chargeRow, name string) bool {
		return r.chemistry == name && r.quantity == quantity
	})
	if err != nil {
		return nil, err
	}
	published := slices.ContainsFunc(rows, chargeRow.published)
	byTable := map[string][]chargeRow{}
	var order []string
	for _, r := range rows {
		if published && !r.published() {
			continue
		}
		if byTable[r.table] == nil {
			order = append(order, r.table)
		}
		byTable[r.table] = append(byTable[r.table], r)
	}
	var bands []ChargeBand
	for _, name := range order {
		bands = append(bands, band(name, byTable[name], low, high))
	}
	return bands, nil
}

func (r chargeRow) published() bool { return r.soc.Source.Confidence == cite.Published }

// band takes the highest row that the lower reading reaches and the lowest that
// the higher one does not pass; beyond the ends the battery is empty or full.
func band(table string, rows []chargeRow, low, high decimal.Decimal) ChargeBand {
	b := ChargeBand{Table: table, Least: rows[0].soc, Greatest: rows[0].soc}
	b.Least.Value, b.Least.Note = decimal.Zero, "the reading lies below its rows"
	b.Greatest.Value, b.Greatest.Note = decimal.NewFromInt(100), "the reading lies above its rows"
	for _, r := range rows {
		if r.high.LessThanOrEqual(low) && (b.Least.Note != "" || r.soc.Value.GreaterThan(b.Least.Value)) {
			b.Least = r.soc
		}
		if r.low.GreaterThanOrEqual(high) && (b.Greatest.Note != "" || r.soc.Value.LessThan(b.Greatest.Value)) {
			b.Greatest = r.soc
		}
	}
	return b
}

var densitySlopes = load("density-slopes", func(r *record) working.Figure {
	f := r.figure("value", "SG per 10 °F", r.text("rule"))
	f.Note = "about " + r.text("reference_temperature")
	return f
})

// DensitySlope returns the correction of a hydrometer reading for each 10 °F
// away from 80 °F: 0.004, the rule of the Army manuals. Other texts have 0.0033
// and 0.003.
func DensitySlope() working.Figure { return densitySlopes()[0] }

type freezingRow struct {
	table   string
	density decimal.Decimal
	figure  working.Figure
}

var freezingPoints = load("freezing-point", func(r *record) freezingRow {
	return freezingRow{r.text("table"), r.number("specific_gravity"), r.figure("freezing_f", "°F", "density "+r.text("specific_gravity"))}
})

// LeastDensity returns the lowest density (at 80 °F) that a published table gives
// flooded lead-acid at a state of charge, each by its own row or that of the next
// lower state: 0 to 100 %.
func LeastDensity(socPercent decimal.Decimal) (working.Figure, error) {
	if err := working.Between("soc_percent", socPercent, 0, 100); err != nil {
		return working.Figure{}, err
	}
	below := map[string]chargeRow{} // by table: the row taken
	for _, r := range leadCharge() {
		if r.quantity != gravity || !r.published() || r.soc.Value.GreaterThan(socPercent) {
			continue
		}
		if had, ok := below[r.table]; !ok || r.soc.Value.GreaterThan(had.soc.Value) {
			below[r.table] = r
		}
	}
	least := slices.MinFunc(slices.Collect(maps.Values(below)), func(a, b chargeRow) int {
		return cmp.Or(a.low.Cmp(b.low), cmp.Compare(a.table, b.table))
	})
	f := working.Figure{Value: least.low, Source: least.soc.Source}
	return noteRow(f, least.soc.Value.Equal(socPercent), "the next lower state of charge for %s %%", socPercent), nil
}

// FreezingPoint returns the temperature in °F at which the electrolyte of a
// density (at 80 °F) freezes, by the first table: its own row or that of the
// next lower density, which freezes sooner. It runs from 1.000; a density
// above its end takes the last row, which is on the safe side up to 1.30, where
// the freezing point is lowest, and above that is [ErrOutside].
func FreezingPoint(density decimal.Decimal) (working.Figure, error) {
	if err := working.Between("density", density, 0, 2); err != nil {
		return working.Figure{}, err
	}
	if density.GreaterThan(decimal.New(130, -2)) {
		return working.Figure{}, fmt.Errorf("freezing point at density %s: %w; it rises again above 1.30", density, ErrOutside)
	}
	var best freezingRow
	for _, r := range freezingPoints() {
		if r.table == freezingPoints()[0].table && r.density.LessThanOrEqual(density) && (best.table == "" || r.density.GreaterThan(best.density)) {
			best = r
		}
	}
	if best.table == "" {
		return working.Figure{}, fmt.Errorf("freezing point at density %s: %w", density, ErrOutside)
	}
	return noteRow(best.figure, best.density.Equal(density), "the next lower density for %s", density), nil
}
