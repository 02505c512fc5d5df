package tables_test

import (
	"fmt"
	"testing"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func ruleOf(t *testing.T, name string) tables.AmpacityRule {
	t.Helper()
	r, err := tables.AmpacityRuleOf(name)
	require.NoError(t, err)
	return r
}

// TestUnstatedTerminals compares with BS 7671 512.1.2 (70 °C) and NFPA 70
// 110.14(C)(1): 60 °C up to 100 A or AWG 1, 75 °C above.
func TestUnstatedTerminals(t *testing.T) {
	for _, c := range []struct{ rule, size, equipment, want string }{
		{"european", "16 mm2", "", "70"}, {"european", "240 mm2", "600", "70"},
		{"us-rv", "AWG 14", "", "60"}, {"us-rv", "AWG 1", "", "60"}, {"us-rv", "AWG 1/0", "", "75"},
		{"us-rv", "AWG 1/0", "100", "60"}, {"us-rv", "AWG 1/0", "100.1", "75"}, {"us-rv", "AWG 2", "101", "75"},
		{"us-rv", "35 mm2", "", "60"}, {"us-rv", "50 mm2", "", "75"}, // AWG 1 has 42.4 mm²
		{"us-rv", "", "", "60"}, // nothing known: the least
	} {
		var size tables.Size
		if c.size != "" {
			size = mustSize(c.size)
		}
		var rated decimal.NullDecimal
		if c.equipment != "" {
			rated = decimal.NewNullDecimal(number(c.equipment))
		}
		f, ok := ruleOf(t, c.rule).Terminals.Unstated(size, rated)
		require.True(t, ok, c)
		assert.Equal(t, c.want, f.Value.String(), c)
		assert.Equal(t, cite.SecondHand, f.Source.Confidence)
	}
	for _, silent := range []string{"us-boat", "us-voluntary-craft", "iso-craft", "au-nz", "iec60364-5-52"} {
		_, ok := ruleOf(t, silent).Terminals.Unstated(mustSize("AWG 6"), decimal.NullDecimal{})
		assert.False(t, ok, silent)
	}
}

// TestTableAtTerminals: 4 mm² in method A carries 26 A by BS 7671 table 4D1A, which
// the note to table 4E1A (35 A) asks for on 70 °C terminals. A square-root law would
// allow 35 × √(40 ÷ 60) = 28.5 A.
func TestTableAtTerminals(t *testing.T) {
	rule := ruleOf(t, "european")
	hot, err := rule.Column(mustSize("4 mm2"), "A", number("90"))
	require.NoError(t, err)
	for terminal, want := range map[string]string{"70": "26", "75": "26", "89.9": "26", "90": "35", "105": "35"} {
		column, from := rule.AtTerminals(hot, number(terminal))
		a, err := column.At(mustSize("4 mm2"))
		require.NoError(t, err)
		assert.Equal(t, want, a.Value.String(), terminal)
		assert.Equal(t, want == "26", from != cite.Source{}, "%s: the note to the table", terminal)
	}
	cool, _ := rule.AtTerminals(hot, number("60"))
	assert.Equal(t, "BS 7671 4D1A", cool.Table)
	assert.Equal(t, "70", cool.InsulationC.String(), "no table is cooler: the law takes the rest")
}

// TestColumnAtTerminalsOfOneTable: 33 CFR 183.425 table 5 has a column for each
// insulation; AWG 6 carries 120 A in that of 105 °C and 95 A in that of 75 °C.
func TestColumnAtTerminalsOfOneTable(t *testing.T) {
	rule := ruleOf(t, "us-boat")
	hot, err := rule.Column(mustSize("AWG 6"), "", number("105"))
	require.NoError(t, err)
	column, from := rule.AtTerminals(hot, number("75"))
	a, err := column.At(mustSize("AWG 6"))
	require.NoError(t, err)
	assert.Equal(t, "95", a.Value.String())
	assert.Zero(t, from, "the regulation is silent")
}

// TestNeverHotterThanTheTerminals: whatever the table, the column at terminals is
// no hotter than they bear where one is that cool, and lists no more than the
// column of the insulation.
func TestNeverHotterThanTheTerminals(t *testing.T) {
	for _, name := range tables.AmpacityRules() {
		rule := ruleOf(t, name)
		for _, method := range []string{"", "A", "B", "C", "F", "B2", "two-core"} {
			hot, err := rule.Column(mustSize("AWG 2"), method, number("250"))
			if err != nil {
				continue
			}
			for terminal := int64(40); terminal <= 260; terminal += 5 {
				at, _ := rule.AtTerminals(hot, decimal.NewFromInt(terminal))
				assert.True(t, at.InsulationC.LessThanOrEqual(hot.InsulationC))
				for _, s := range at.Sizes() {
					little, err := at.At(s)
					require.NoError(t, err)
					if much, err := hot.At(s); err == nil {
						assert.True(t, little.Value.LessThanOrEqual(much.Value), "%s %s at %d: %s", name, method, terminal, s)
					}
				}
			}
		}
	}
}

// TestAmpacityRuleOf: IEC 60364-5-52 method C, 70 °C, three loaded conductors, 2.5
// mm²: 24 A (table B.52.4), and 0.94 of it in 35 °C (table B.52.14).
func TestAmpacityRuleOf(t *testing.T) {
	rule := ruleOf(t, "iec60364-5-52")
	column, err := rule.Column(mustSize("2.5 mm2"), "C", number("70"))
	require.NoError(t, err)
	a, err := column.At(mustSize("2.5 mm2"))
	require.NoError(t, err)
	assert.Equal(t, "24", a.Value.String())
	f, err := column.AmbientFactor(rule.Ambient, number("35"))
	require.NoError(t, err)
	assert.Equal(t, "0.94", f.Value.String())
	for _, name := range tables.AmpacityRules() {
		rule := ruleOf(t, name)
		for _, table := range []struct {
			name   string
			listed []string
		}{{rule.Ambient, tables.AmbientTables()}, {rule.Grouping, tables.GroupingTables()}, {rule.EngineSpace, tables.EngineSpaceTables()}} {
			if table.name != "" {
				assert.Contains(t, table.listed, table.name, name)
			}
		}
	}
}

// A 90 °C cable on terminals that state nothing: the 70 °C table, as the note to
// the 90 °C one asks.
func ExampleAmpacityRule_AtTerminals() {
	rule := european().Ampacity
	column, err := rule.Column(mustSize("4 mm2"), "A", number("90"))
	fmt.Println(column.Table, err)
	terminal, ok := rule.Terminals.Unstated(mustSize("4 mm2"), decimal.NullDecimal{})
	fmt.Println(terminal.Value, terminal.Unit, ok)
	column, from := rule.AtTerminals(column, terminal.Value)
	fmt.Println(column.Table, "by", from)
	// Output:
	// BS 7671 4E1A <nil>
	// 70 °C true
	// BS 7671 4D1A by BS 7671:2008, note to the 90 C tables of appendix 4; second hand
}

// NFPA 70: 60 °C up to 100 A, 75 °C above. 33 CFR 183 is silent.
func ExampleTerminalRule_Unstated() {
	for _, name := range []string{"us-rv", "us-boat"} {
		rule, err := tables.AmpacityRuleOf(name)
		if err != nil {
			panic(err)
		}
		for _, equipment := range []string{"100", "150"} {
			f, ok := rule.Terminals.Unstated(mustSize("AWG 2/0"), decimal.NewNullDecimal(number(equipment)))
			fmt.Println(name, equipment, "A:", f.Value, ok)
		}
	}
	// Output:
	// us-rv 100 A: 60 true
	// us-rv 150 A: 75 true
	// us-boat 100 A: 0 false
	// us-boat 150 A: 0 false
}

func ExampleAmpacityRuleOf() {
	rule, err := tables.AmpacityRuleOf("iec60364-5-52")
	fmt.Println(rule.Metric, rule.Ambient, err)
	_, err = tables.AmpacityRuleOf("iec")
	fmt.Println(err)
	// Output:
	// [IEC 60364-5-52] IEC 60364-5-52 B.52.14 <nil>
	// ampacity_rule is "iec": want one of european, iso-craft, us-boat, us-voluntary-craft, us-rv, au-nz, iec60364-5-52, bs7671-4f1a, bs7671-4f2a
}

func ExampleAmpacityRules() {
	fmt.Println(tables.AmpacityRules())
	// Output:
	// [european iso-craft us-boat us-voluntary-craft us-rv au-nz iec60364-5-52 bs7671-4f1a bs7671-4f2a]
}
