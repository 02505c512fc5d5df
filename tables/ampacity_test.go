package tables_test

import (
	"strings"
	"testing"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func columnOf(t *testing.T, rule tables.AmpacityRule, size, method, insulation string) tables.AmpacityColumn {
	t.Helper()
	c, err := rule.Column(mustSize(size), method, number(insulation))
	require.NoError(t, err)
	return c
}

// TestAmpacityColumns takes the column of the same or the next lower
// temperature, never of a higher one.
func TestAmpacityColumns(t *testing.T) {
	rules := map[string]tables.AmpacityRule{}
	for _, r := range tables.RuleSets() {
		rules[r.Key] = r.Ampacity
	}
	for _, c := range []struct{ set, size, method, insulation, table, column string }{
		{"european", "16 mm2", "B", "70", "BS 7671 4D1A", "70"},
		{"european", "16 mm2", "B", "89.9", "BS 7671 4D1A", "70"},
		{"european", "16 mm2", "B", "90", "BS 7671 4E1A", "90"},
		{"european", "AWG 6", "B", "200", "BS 7671 4E1A", "90"}, // it has no table for gauges
		{"us-boat", "AWG 6", "", "104", "33 CFR 183.425 table 5", "90"},
		{"us-boat", "AWG 6", "B", "105", "33 CFR 183.425 table 5", "105"}, // its table knows no methods
		{"us-boat", "16 mm2", "", "105", "33 CFR 183.425 table 5", "105"}, // nor one for metric sizes
		{"us-boat", "SAE 6", "", "250", "33 CFR 183.425 table 5", "200"},
		{"iso-craft", "16 mm2", "", "105", "ISO 10133 annex A", "105"},
		{"iso-craft", "AWG 6", "", "70", "ISO 10133 annex A", "70"},
	} {
		column := columnOf(t, rules[c.set], c.size, c.method, c.insulation)
		assert.Equal(t, c.table, column.Table, c)
		assert.Equal(t, c.column, column.InsulationC.String(), c)
		assert.Equal(t, "30", column.AmbientC.String(), c)
	}
	for _, c := range []struct{ set, method, insulation string }{
		{"european", "B", "69.9"}, {"european", "", "90"}, {"european", "b", "90"}, {"us-boat", "", "59"}, {"us-rv", "", "90"},
	} {
		_, err := rules[c.set].Column(mustSize("16 mm2"), c.method, number(c.insulation))
		assert.ErrorIs(t, err, tables.ErrNotListed, c)
	}
}

// TestCorners compares corners of the tables with the documents: BS 7671
// appendix 4, 33 CFR 183.425 and AC 43.13-1B table 11-9.
func TestCorners(t *testing.T) {
	aircraft := tables.AmpacityRule{Gauge: []string{"AC 43.13-1B table 11-9"}}
	cfr := tables.AmpacityRule{Gauge: []string{"33 CFR 183.425 table 5"}}
	for _, c := range []struct {
		rule                             tables.AmpacityRule
		size, method, insulation, ampere string
	}{
		{european().Ampacity, "1 mm2", "A", "70", "11"},
		{european().Ampacity, "240 mm2", "C", "70", "515"},
		{european().Ampacity, "1 mm2", "A", "90", "14"},
		{european().Ampacity, "16 mm2", "C", "90", "109"},
		{cfr, "AWG 18", "", "60", "10"},
		{cfr, "AWG 4/0", "", "200", "510"},
		{cfr, "AWG 6", "", "105", "120"},
		{aircraft, "AWG 24", "", "105", "2.5"},
		{aircraft, "AWG 10", "", "150", "26"},
	} {
		a, err := columnOf(t, c.rule, c.size, c.method, c.insulation).At(mustSize(c.size))
		require.NoError(t, err)
		assert.Equal(t, c.ampere, a.Value.String(), c)
		assert.Equal(t, "A", a.Unit)
	}
	assert.Equal(t, "70", columnOf(t, aircraft, "AWG 10", "", "150").AmbientC.String())
}

// TestNoLarger: across the systems the answer never has more copper than what
// was asked for, is the largest such, and is the size itself where it is listed.
func TestNoLarger(t *testing.T) {
	columns := []tables.AmpacityColumn{
		columnOf(t, european().Ampacity, "16 mm2", "B", "90"),
		columnOf(t, tables.AmpacityRule{Gauge: []string{"33 CFR 183.425 table 5"}}, "AWG 6", "", "105"),
		columnOf(t, tables.AmpacityRule{Gauge: []string{"AC 43.13-1B table 11-9"}}, "AWG 6", "", "105"),
	}
	for _, column := range columns {
		listed := column.Sizes()
		least := area(t, listed[0])
		for _, system := range []tables.System{tables.Metric, tables.AWG, tables.SAE} {
			for _, s := range tables.Sizes(system) {
				got, figure, err := column.NoLarger(s)
				if err != nil {
					assert.ErrorIs(t, err, tables.ErrNotListed)
					assert.True(t, area(t, s).LessThan(least), "%s in %s", s, column.Table)
					continue
				}
				assert.True(t, area(t, got).LessThanOrEqual(area(t, s)), "%s for %s", got, s)
				for _, other := range listed {
					larger := area(t, other).GreaterThan(area(t, got)) && area(t, other).LessThanOrEqual(area(t, s))
					assert.False(t, larger, "%s lies between %s and %s", other, got, s)
				}
				at, err := column.At(got)
				require.NoError(t, err)
				assert.Equal(t, at, figure)
				if _, err := column.At(s); err == nil {
					assert.Equal(t, s, got)
				}
			}
		}
	}
	_, _, err := columns[0].NoLarger(tables.Size{})
	assert.ErrorIs(t, err, tables.ErrNotListed)
}

func area(t *testing.T, s tables.Size) decimal.Decimal {
	t.Helper()
	f, err := s.Area()
	require.NoError(t, err)
	return f.Value
}

// TestEveryListedSizeIsOne: what a column lists can be looked up in it and reads
// back as a size.
func TestEveryListedSizeIsOne(t *testing.T) {
	for _, name := range []string{"BS 7671 4D1A", "BS 7671 4E1A", "33 CFR 183.425 table 5", "ABYC E-11 105 C", "ISO 10133 annex A", "AC 43.13-1B table 11-9", "AC 43.13-1B table 11-10"} {
		rule := tables.AmpacityRule{Metric: []string{name}}
		for _, method := range []string{"", "A", "B", "C", "F", "G horizontal", "G vertical"} {
			c, err := rule.Column(mustSize("16 mm2"), method, number("300"))
			if err != nil {
				continue
			}
			for _, s := range c.Sizes() {
				_, err := tables.ParseSize(s.String())
				require.NoError(t, err)
				a, err := c.At(s)
				require.NoError(t, err)
				assert.True(t, a.Value.IsPositive() && a.Source.Confidence != cite.Unstated)
			}
			_, err = c.At(mustSize("SAE 22"))
			assert.ErrorIs(t, err, tables.ErrNotListed)
			assert.ErrorContains(t, err, "it has "+c.Sizes()[0].String()+" to ")
		}
	}
}

// TestColumnsListWhatCanBeAsked: every size that any column lists, in rising order,
// reads back as a size and has a resistance. BS 7671 4F2A goes on to 630 mm2, of
// which no table of conductors here has the resistance: those are refused with the
// sizes that there are, and no column offers them.
func TestColumnsListWhatCanBeAsked(t *testing.T) {
	for _, table := range tables.Catalogue() {
		if !strings.HasPrefix(table.Name, "ampacity-") {
			continue
		}
		for _, row := range cellsOf(t, table.Name) {
			column := tables.AmpacityColumn{Table: row["table"], Method: row["method"], AmpacityBase: tables.AmpacityBase{InsulationC: number(row["insulation_c"])}}
			var before decimal.Decimal
			for _, s := range column.Sizes() {
				_, err := tables.ParseSize(s.String())
				require.NoError(t, err, row["table"])
				area, err := s.Area()
				require.NoError(t, err)
				assert.True(t, area.Value.GreaterThan(before), "%s: %s", row["table"], s)
				before = area.Value
			}
		}
	}
	flexible := tables.AmpacityColumn{Table: "BS 7671 4F2A", Method: "two single-core touching", AmpacityBase: tables.AmpacityBase{InsulationC: number("90")}}
	_, err := flexible.At(mustSize("0.5 mm2"))
	assert.ErrorContains(t, err, "to 240 mm2")
	for _, large := range []string{"300 mm2", "400 mm2", "500 mm2", "630 mm2"} {
		_, err := tables.ParseSize(large)
		assert.ErrorContains(t, err, "want one of 0.5 mm2, ")
		assert.ErrorContains(t, err, "185 mm2, 240 mm2")
	}
}

func BenchmarkColumnAt(b *testing.B) {
	column, err := european().Ampacity.Column(mustSize("16 mm2"), "B", number("90"))
	if err != nil {
		b.Fatal(err)
	}
	last := mustSize("240 mm2")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := column.At(last); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkColumnNoLarger(b *testing.B) {
	column, err := european().Ampacity.Column(mustSize("AWG 6"), "B", number("90"))
	if err != nil {
		b.Fatal(err)
	}
	gauge := mustSize("AWG 6")
	for b.Loop() {
		if _, _, err := column.NoLarger(gauge); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkParseSize(b *testing.B) {
	for b.Loop() {
		if _, err := tables.ParseSize("16 mm2"); err != nil {
			b.Fatal(err)
		}
	}
}

// TestColumnAtAllocatesNothing holds the promise of a look-up without memory of its own.
func TestColumnAtAllocatesNothing(t *testing.T) {
	column := columnOf(t, european().Ampacity, "16 mm2", "B", "90")
	size := mustSize("240 mm2")
	assert.Zero(t, testing.AllocsPerRun(100, func() { _, _ = column.At(size) }))
}

// TestNoTableNamed wants the reason in words where a rule set names no table.
func TestNoTableNamed(t *testing.T) {
	size, err := tables.ParseSize("AWG 10")
	require.NoError(t, err)
	_, err = tables.AmpacityRule{}.Column(size, "F", decimal.NewFromInt(105))
	assert.ErrorIs(t, err, tables.ErrNotListed)
	assert.EqualError(t, err, "ampacity: not in the table; the rule set names no table of ampacities")
}
