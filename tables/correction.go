package tables

import (
	"fmt"
	"slices"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

type ambientRow struct {
	table                 string
	insulationC, ambientC decimal.Decimal
	figure                working.Figure
}

var ambientFactors = load("ambient-factors", func(r *record) ambientRow {
	insulation, ambient := r.number("insulation_c"), r.number("ambient_c")
	return ambientRow{r.text("table"), insulation, ambient,
		r.figure("factor", "", insulation.String()+" °C insulation", ambient.String()+" °C")}
})

// AmbientFactor returns the factor of a table for an ambient temperature. The
// insulation takes its own column or that of the next lower temperature, the
// ambient the next hotter row; below the coolest row that row holds. Above the
// hottest it is [ErrOutside]: the conductor carries nothing there.
func AmbientFactor(table string, insulationC, ambientC decimal.Decimal) (working.Figure, error) {
	rows, err := ambientColumn(table, insulationC)
	if err != nil {
		return working.Figure{}, err
	}
	for _, row := range rows {
		if row.ambientC.GreaterThanOrEqual(ambientC) {
			return noteRow(row.figure, row.ambientC.Equal(ambientC), "the next hotter row for %s °C", ambientC), nil
		}
	}
	return working.Figure{}, tooHot(rows, ambientC)
}

// ambientColumn returns a table's rows for an insulation, or for that of the
// next lower temperature, coolest first.
func ambientColumn(table string, insulationC decimal.Decimal) ([]ambientRow, error) {
	var rows []ambientRow
	for _, row := range ambientFactors() {
		if row.table != table || row.insulationC.GreaterThan(insulationC) {
			continue
		}
		if len(rows) > 0 && row.insulationC.GreaterThan(rows[0].insulationC) {
			rows = nil
		}
		if len(rows) == 0 || row.insulationC.Equal(rows[0].insulationC) {
			rows = append(rows, row)
		}
	}
	if len(rows) == 0 {
		return nil, fmt.Errorf("ambient factor for %s °C insulation in %s: %w", insulationC, table, ErrNotListed)
	}
	slices.SortFunc(rows, func(a, b ambientRow) int { return a.ambientC.Cmp(b.ambientC) })
	return rows, nil
}

func tooHot(rows []ambientRow, ambientC decimal.Decimal) error {
	last := rows[len(rows)-1]
	return fmt.Errorf("ambient %s °C for %s °C insulation in %s: %w; it ends at %s °C",
		ambientC, last.insulationC, last.table, ErrOutside, last.ambientC)
}

// noteRow says so where a figure is not the very row that was asked for.
func noteRow(f working.Figure, exact bool, format string, asked any) working.Figure {
	if !exact {
		f.Note = fmt.Sprintf(format, asked)
	}
	return f
}

type groupRow struct {
	table, arrangement, counts string
	from                       int64
	to                         decimal.NullDecimal // unset: and above
	figure                     working.Figure
}

var groupingFactors = load("grouping-factors", func(r *record) groupRow {
	from := r.number("count_from")
	return groupRow{r.text("table"), r.text("arrangement"), r.text("counts"), from.IntPart(), r.optional("count_to"),
		r.figure("factor", "", r.text("arrangement"), from.String()+" "+r.text("counts"))}
})

// GroupingFactor returns the factor of a table for conductors that lie
// together, in its first arrangement: bunched. A table that counts conductors
// takes two a circuit. A number between two rows takes the row above; one below
// the first row needs no factor and gets the figure 1; one above the last row
// is [ErrOutside], except where the table's last row says "and above".
func GroupingFactor(table string, circuits int) (working.Figure, error) {
	var rows []groupRow
	for _, row := range groupingFactors() {
		if row.table == table && (len(rows) == 0 || row.arrangement == rows[0].arrangement) {
			rows = append(rows, row)
		}
	}
	if len(rows) == 0 {
		return working.Figure{}, fmt.Errorf("grouping factors %q: %w", table, ErrNotListed)
	}
	count := int64(circuits)
	if rows[0].counts == "conductors" {
		count *= 2
	}
	return groupAt(rows, table, count)
}

func groupAt(rows []groupRow, table string, count int64) (working.Figure, error) {
	slices.SortFunc(rows, func(a, b groupRow) int { return int(a.from - b.from) })
	last := rows[len(rows)-1]
	if count < rows[0].from {
		first := rows[0].figure
		first.Value, first.Note = decimal.NewFromInt(1), fmt.Sprintf("the table begins at %d %s", rows[0].from, rows[0].counts)
		return first, nil
	}
	for _, row := range rows {
		if row.to.Valid && row.to.Decimal.IntPart() >= count {
			return noteRow(row.figure, row.from <= count, "the next row above %d", count), nil
		}
	}
	if !last.to.Valid {
		return last.figure, nil
	}
	return working.Figure{}, fmt.Errorf("%d %s in %s: %w; it ends at %s", count, last.counts, table, ErrOutside, last.to.Decimal)
}

type engineRow struct {
	table                 string
	insulationC, ambientC decimal.Decimal
	figure                working.Figure
}

var engineFactors = load("engine-space-factors", func(r *record) engineRow {
	insulation := r.number("insulation_c")
	return engineRow{r.text("table"), insulation, r.number("ambient_c"), r.figure("factor", "", insulation.String()+" °C insulation")}
})

// EngineSpaceFactor returns the factor of a table for conductors in an engine
// space, in the row of their insulation or of the next lower temperature. It
// stands in place of an ambient factor, up to the ambient of
// [EngineSpaceAmbient].
func EngineSpaceFactor(table string, insulationC decimal.Decimal) (working.Figure, error) {
	row, err := engineSpace(table, insulationC)
	if err != nil {
		return working.Figure{}, err
	}
	return noteRow(row.figure, row.insulationC.Equal(insulationC), "the next lower row for %s °C insulation", insulationC), nil
}

// EngineSpaceAmbient returns the ambient, in °C, that the row of
// [EngineSpaceFactor] is stated for. In hotter air the factor is too large.
func EngineSpaceAmbient(table string, insulationC decimal.Decimal) (working.Figure, error) {
	row, err := engineSpace(table, insulationC)
	if err != nil {
		return working.Figure{}, err
	}
	return working.Figure{Value: row.ambientC, Unit: "°C", Source: row.figure.Source}, nil
}

// engineSpace returns the row of an insulation or of the next lower temperature.
func engineSpace(table string, insulationC decimal.Decimal) (engineRow, error) {
	var best engineRow
	for _, row := range engineFactors() {
		if row.table == table && row.insulationC.LessThanOrEqual(insulationC) &&
			(best.table == "" || row.insulationC.GreaterThan(best.insulationC)) {
			best = row
		}
	}
	if best.table == "" {
		return engineRow{}, fmt.Errorf("engine-space factor for %s °C insulation in %s: %w", insulationC, table, ErrNotListed)
	}
	return best, nil
}
