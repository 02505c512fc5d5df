package tables

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

type ambientRow struct {
	table                        string
	baseC, insulationC, ambientC decimal.Decimal
	figure                       working.Figure
}

var ambientFactors = load("ambient-factors", func(r *record) ambientRow {
	insulation, ambient := r.number("insulation_c"), r.number("ambient_c")
	return ambientRow{r.text("table"), r.number("reference_c"), insulation, ambient,
		r.figure("factor", "", insulation.String()+" °C insulation", ambient.String()+" °C")}
})

// ambientColumn holds the factors of one table for one insulation, coolest first.
type ambientColumn []ambientRow

var ambientTables = indexed("ambient_table", sync.OnceValue(func() []ambientColumn {
	var all []ambientColumn
	for _, row := range ambientFactors() {
		i := slices.IndexFunc(all, func(c ambientColumn) bool { return c[0].table == row.table && c[0].insulationC.Equal(row.insulationC) })
		if i < 0 {
			i, all = len(all), append(all, nil)
		}
		all[i] = append(all[i], row)
	}
	for _, c := range all {
		slices.SortFunc(c, func(a, b ambientRow) int { return a.ambientC.Cmp(b.ambientC) })
	}
	return all
}), func(c ambientColumn) string { return c[0].table })

// AmbientTables returns the names of the tables of factors for ambient
// temperature.
func AmbientTables() []string { return ambientTables().all() }

// AmbientFactor returns the factor of a table (see [AmbientTables]) for an
// ambient temperature, on an ampacity of that base. The insulation takes its own
// column or that of the next lower temperature, the ambient the next hotter row;
// below the coolest row that row holds. Above the hottest it is [ErrOutside]: the
// conductor carries nothing there. A table of factors on ampacities of another
// ambient is refused: a factor of a 45 °C table gives a 30 °C ampacity a quarter
// too much. [AmpacityBase.AmbientFactorConverted] carries it over.
func (b AmpacityBase) AmbientFactor(table string, ambientC decimal.Decimal) (working.Figure, error) {
	rows, err := b.ambientColumn(table)
	if err := errors.Join(err, inKelvins("ambient_c", ambientC)); err != nil {
		return working.Figure{}, err
	}
	if !rows[0].baseC.Equal(b.AmbientC) {
		return working.Figure{}, otherBase(rows[0], b)
	}
	return ambientAt(rows, ambientC)
}

func otherBase(row ambientRow, b AmpacityBase) error {
	return &working.InputError{Field: "table_ambient_c", Got: b.AmbientC.String(),
		Want: fmt.Sprintf("%s: the factors of %s multiply ampacities of that ambient", row.baseC, row.table)}
}

func ambientAt(rows ambientColumn, ambientC decimal.Decimal) (working.Figure, error) {
	for i := range rows {
		if row := &rows[i]; row.ambientC.GreaterThanOrEqual(ambientC) {
			return noteRow(row.figure, row.ambientC.Equal(ambientC), "the next hotter row for %s °C", ambientC), nil
		}
	}
	return working.Figure{}, tooHot(rows, ambientC)
}

// AmbientFactorConverted is [AmpacityBase.AmbientFactor] for a table of factors
// on ampacities of another ambient: the row's factor C is carried from its base
// T_f to the ampacity's T_at by the law that the heat of a conductor goes with the
// square of its current,
//
//	C × √((T_r − T_f) ÷ (T_r − T_at))
//
// rounded down to four places, T_r the temperature of the insulation. The law is
// ours to apply: no table prints the product. On the same base it is the row.
// Neither base may reach T_r.
func (b AmpacityBase) AmbientFactorConverted(table string, ambientC decimal.Decimal) (working.Figure, error) {
	rows, err := b.ambientColumn(table)
	if err := errors.Join(err, inKelvins("ambient_c", ambientC)); err != nil {
		return working.Figure{}, err
	}
	f, err := ambientAt(rows, ambientC)
	if err != nil || rows[0].baseC.Equal(b.AmbientC) {
		return f, err
	}
	return b.carried(f, rows[0].baseC)
}

// carried takes a factor from the base of its table to that of the ampacity.
func (b AmpacityBase) carried(f working.Figure, fromC decimal.Decimal) (working.Figure, error) {
	own, other := b.InsulationC.Sub(b.AmbientC), b.InsulationC.Sub(fromC)
	if !own.IsPositive() || !other.IsPositive() {
		return working.Figure{}, fmt.Errorf("ambient factor from %s to %s °C for %s °C insulation: %w", fromC, b.AmbientC, b.InsulationC, ErrOutside)
	}
	root, err := other.DivRound(own, 16).PowWithPrecision(decimal.New(5, -1), 12)
	if err != nil {
		return working.Figure{}, fmt.Errorf("ambient factor from %s to %s °C: %w", fromC, b.AmbientC, err)
	}
	note := fmt.Sprintf("%s in its own table, which holds for ampacities in %s °C; carried to %s °C by the square-root law", f.Value, fromC, b.AmbientC)
	f.Note = strings.TrimPrefix(f.Note+"; "+note, "; ")
	f.Value = f.Value.Mul(root).RoundFloor(4)
	return f, nil
}

// ambientColumn returns a table's factors for the insulation, or for that of the
// next lower temperature.
func (b AmpacityBase) ambientColumn(table string) (ambientColumn, error) {
	listed, err := ambientTables().of(table)
	err = errors.Join(err, inKelvins("insulation_c", b.InsulationC), inKelvins("table_ambient_c", b.AmbientC))
	if err != nil {
		return nil, err
	}
	var best ambientColumn
	for _, c := range listed {
		if c[0].insulationC.LessThanOrEqual(b.InsulationC) && (best == nil || c[0].insulationC.GreaterThan(best[0].insulationC)) {
			best = c
		}
	}
	if best == nil {
		return nil, fmt.Errorf("ambient factor for %s °C insulation in %s: %w", b.InsulationC, table, ErrNotListed)
	}
	return best, nil
}

func tooHot(rows ambientColumn, ambientC decimal.Decimal) error {
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

// groupingTables holds each table's first arrangement; its rows rise, as a test
// of the data holds.
var groupingTables = indexed("grouping_table", sync.OnceValue(func() []groupRow {
	first := map[string]string{}
	return slices.DeleteFunc(slices.Clone(groupingFactors()), func(r groupRow) bool {
		if _, ok := first[r.table]; !ok {
			first[r.table] = r.arrangement
		}
		return r.arrangement != first[r.table]
	})
}), func(r groupRow) string { return r.table })

// GroupingTables returns the names of the tables of factors for conductors that
// lie together.
func GroupingTables() []string { return groupingTables().all() }

// Bundle is what lies together, counted both ways: the wiring codes of Europe
// count circuits, those of the United States conductors that carry current. A
// circuit has one conductor in the bundle where it returns by the chassis, and
// two where its return lies with it.
type Bundle struct {
	Circuits   int `json:"circuits"`
	Conductors int `json:"conductors"`
}

func (b Bundle) check() error {
	return errors.Join(
		working.Between("circuits", decimal.NewFromInt(int64(b.Circuits)), 1, 1000),
		working.Between("conductors", decimal.NewFromInt(int64(b.Conductors)), int64(b.Circuits), 10000))
}

// GroupingFactor returns the factor of a table (see [GroupingTables]) for what
// lies together, in the table's first arrangement: bunched. The table counts
// circuits or conductors, see [GroupingCounts]. A number between two rows takes
// the row above; one below the first row needs no factor and gets the figure 1;
// one above the last row is [ErrOutside], except where the table's last row says
// "and above". A bundle has from 1 to 1000 circuits, and no fewer conductors than
// circuits.
func GroupingFactor(table string, bundle Bundle) (working.Figure, error) {
	rows, err := groupingTables().of(table)
	if err := errors.Join(err, bundle.check()); err != nil {
		return working.Figure{}, err
	}
	count := bundle.Circuits
	if rows[0].counts == countsConductors {
		count = bundle.Conductors
	}
	return groupAt(rows, table, int64(count))
}

const countsConductors = "conductors"

// GroupingCounts returns what a table of grouping factors counts: "circuits" or
// "conductors".
func GroupingCounts(table string) (string, error) {
	row, err := groupingTables().first(table)
	return row.counts, err
}

func groupAt(rows []groupRow, table string, count int64) (working.Figure, error) {
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

var engineTables = indexed("engine_space_table", engineFactors, func(r engineRow) string { return r.table })

// EngineSpaceTables returns the names of the tables of factors for engine spaces.
func EngineSpaceTables() []string { return engineTables().all() }

// EngineSpaceFactor returns the factor of a table (see [EngineSpaceTables]) for
// conductors in an engine space, in the row of their insulation or of the next lower temperature. It
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
	rows, err := engineTables().of(table)
	if err := errors.Join(err, inKelvins("insulation_c", insulationC)); err != nil {
		return engineRow{}, err
	}
	var best engineRow
	for _, row := range rows {
		if row.insulationC.LessThanOrEqual(insulationC) &&
			(best.table == "" || row.insulationC.GreaterThan(best.insulationC)) {
			best = row
		}
	}
	if best.table == "" {
		return engineRow{}, fmt.Errorf("engine-space factor for %s °C insulation in %s: %w", insulationC, table, ErrNotListed)
	}
	return best, nil
}
