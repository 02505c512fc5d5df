package tables

import (
	"errors"
	"fmt"
	"maps"
	"slices"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// point is a row of a table on its way to a straight line: y is the answer, with
// the citation of its row.
type point struct {
	x decimal.Decimal
	y working.Figure
}

// onLine returns the value at x on the straight lines through points of rising
// x, to four places, by round; ok is false outside of them. The note says which
// rows stand on either side.
func onLine(points []point, x decimal.Decimal, round func(decimal.Decimal, int32) decimal.Decimal) (f working.Figure, ok bool) {
	for i, p := range points {
		if p.x.Equal(x) {
			return p.y, true
		}
		if i > 0 && p.x.GreaterThan(x) && points[i-1].x.LessThan(x) {
			before := points[i-1]
			rise := p.y.Value.Sub(before.y.Value).Mul(x.Sub(before.x))
			f = p.y
			f.Value = round(before.y.Value.Add(rise.DivRound(p.x.Sub(before.x), 12)), 4)
			f.Note = fmt.Sprintf("interpolated between %s (at %s) and %s (at %s)", before.y.Value, before.x, p.y.Value, p.x)
			return f, true
		}
	}
	return working.Figure{}, false
}

func down(v decimal.Decimal, places int32) decimal.Decimal { return v.RoundFloor(places) }
func up(v decimal.Decimal, places int32) decimal.Decimal   { return v.RoundCeil(places) }

// AmbientFactorInterpolated is [AmpacityBase.AmbientFactor] on the straight line between two
// rows, rounded down to four places. The factors follow a curve that bends down,
// so the line lies below it: on the safe side, by less than 0.01 between rows 5 °C
// apart but near the end of the column. Below the coolest row that row holds;
// above the hottest it is [ErrOutside].
func (b AmpacityBase) AmbientFactorInterpolated(table string, ambientC decimal.Decimal) (working.Figure, error) {
	rows, err := b.ambientColumn(table)
	if err := errors.Join(err, inKelvins("ambient_c", ambientC)); err != nil {
		return working.Figure{}, err
	}
	if !rows[0].baseC.Equal(b.AmbientC) {
		return working.Figure{}, otherBase(rows[0], b)
	}
	if ambientC.LessThan(rows[0].ambientC) {
		return noteRow(rows[0].figure, false, "the coolest row for %s °C", ambientC), nil
	}
	var points []point
	for _, row := range rows {
		points = append(points, point{row.ambientC, row.figure})
	}
	f, ok := onLine(points, ambientC, down)
	if !ok {
		return working.Figure{}, tooHot(rows, ambientC)
	}
	return f, nil
}

// FreezingPointInterpolated is [FreezingPoint] on the straight line between two
// rows of the first table, rounded up: densities from 1.000 to 1.280 at 80 °F. The
// points lie on a curve that bends down, so the line between them is too cold, by
// up to 4 °F near 1.225 (FAA AC 43.13-1B has a row there): keep a margin. Outside
// it is [ErrOutside].
func FreezingPointInterpolated(density decimal.Decimal) (working.Figure, error) {
	if err := working.Between("density", density, 0, 2); err != nil {
		return working.Figure{}, err
	}
	var points []point
	for _, r := range freezingPoints() {
		if r.table == freezingPoints()[0].table {
			points = append(points, point{r.density, r.figure})
		}
	}
	f, ok := onLine(points, density, up)
	if !ok {
		return working.Figure{}, fmt.Errorf("freezing point at density %s: %w; it has %s to %s",
			density, ErrOutside, points[0].x, points[len(points)-1].x)
	}
	return f, nil
}

// LeastDensityInterpolated is [LeastDensity] on the straight lines between the rows of
// each published table, rounded down to four places: of a table that begins above the
// state of charge nothing is taken. Density falls by the acid that a discharge binds,
// in proportion to its ampere-hours, so that between rows the line is the law.
func LeastDensityInterpolated(socPercent decimal.Decimal) (working.Figure, error) {
	if err := working.Between("soc_percent", socPercent, 0, 100); err != nil {
		return working.Figure{}, err
	}
	lines := map[string][]point{}
	for _, r := range leadCharge() {
		if r.quantity == gravity && r.published() {
			lines[r.table] = append(lines[r.table], point{r.soc.Value, working.Figure{Value: r.low, Source: r.soc.Source}})
		}
	}
	var least working.Figure
	for _, table := range slices.Sorted(maps.Keys(lines)) {
		points := lines[table]
		slices.SortFunc(points, func(a, b point) int { return a.x.Cmp(b.x) })
		if f, ok := onLine(points, socPercent, down); ok && (!least.Stated() || f.Value.LessThan(least.Value)) {
			least = f
		}
	}
	return least, nil
}

var restedTables = indexed("rested_table", where(func() []chargeRow { return slices.Concat(lithiumCharge(), leadCharge()) },
	func(r chargeRow) bool { return r.quantity == cellVolts }), func(r chargeRow) string { return r.table })

// ChargeByVoltageInterpolated returns the state of charge, in percent and rounded
// down, that one table gives for the rested voltage of one cell, on the straight
// line between two of its rows. [ChargeByVoltage] says which tables there are
// and, without a line between rows, how little they can tell: where the curve is
// flat (LiFePO4 from 20 to 95 %) a reading wrong by 5 mV moves the answer by tens
// of percent. [Names] "rested_table" lists the tables; each has its own
// chemistry. A voltage beyond its rows is [ErrOutside].
func ChargeByVoltageInterpolated(table string, chemistry Chemistry, cellV decimal.Decimal) (working.Figure, error) {
	rows, err := restedTables().of(table)
	if err := errors.Join(chemistry.Check("chemistry"), err, inVolts("cell_v", cellV)); err != nil {
		return working.Figure{}, err
	}
	if rows, err = named(rows, "chemistry", string(chemistry), func(r chargeRow) string { return r.chemistry }); err != nil {
		return working.Figure{}, err
	}
	cells := decimal.NewFromInt(1)
	if chemistry.Is(LeadAcid) {
		cells = decimal.NewFromInt(6) // its tables are printed for six cells
	}
	var points []point
	for _, r := range rows {
		points = append(points, point{r.low, r.soc})
	}
	slices.SortFunc(points, func(a, b point) int { return a.x.Cmp(b.x) })
	f, ok := onLine(points, cellV.Mul(cells), down)
	if !ok {
		return working.Figure{}, fmt.Errorf("%s V a cell of %s in table %q: %w; it has %s to %s V", cellV, chemistry, table, ErrOutside,
			points[0].x.DivRound(cells, 3), points[len(points)-1].x.DivRound(cells, 3))
	}
	return f, nil
}
