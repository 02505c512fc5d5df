package wire_test

import (
	"testing"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working/workingtest"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// lying is a cable alone in the air of its table.
func lying(size, method, insulation string) wire.Conductor {
	return wire.Conductor{Size: must(tables.ParseSize(size)), Class: tables.Flexible, PlainCopper: true, Method: method,
		InsulationC: d(insulation), Grouped: 1, OutsideEngineSpace: true}
}

// TestTerminalsTakeTheirTable holds every cell of the 90 °C table of BS 7671 to
// the note that asks for the 70 °C table (4D1A for 4E1A) on equipment for 70 °C:
// at 30 °C to that very figure, at other ambients and in groups with the factors
// of 70 °C insulation. The figures are read from the files.
func TestTerminalsTakeTheirTable(t *testing.T) {
	rule := european().Ampacity
	cooler := map[string]string{}
	rows := published(t, "ampacity-bs7671")
	for _, row := range rows {
		if row["table"] == "BS 7671 4D1A" {
			cooler[row["method"]+row["size"]] = row["ampacity_a"]
		}
	}
	seen := 0
	for _, row := range rows {
		if row["table"] != "BS 7671 4E1A" {
			continue
		}
		seen++
		c := lying(row["size"], row["method"], "90")
		a := must(c.Ampacity(rule))
		want := decimal.Min(d(row["ampacity_a"]), d(cooler[row["method"]+row["size"]]))
		assert.Equal(t, want.String(), a.AmpacityA.String(), "%s %s", row["method"], row["size"])
		assert.Equal(t, want.String(), a.TerminalA.Decimal.String())
		for _, ambient := range []string{"20", "40", "60"} {
			for _, grouped := range []int{1, 3, 7} {
				c.AmbientC, c.Grouped = some(ambient), grouped
				a := must(c.Ampacity(rule))
				workingtest.Guard(t, a.Working)
				c.InsulationC = d("70")
				limit := must(c.Ampacity(rule)).AmpacityA
				assert.Equal(t, limit.String(), a.AmpacityA.String(), "%s %s at %s °C", row["method"], row["size"], ambient)
				c.InsulationC = d("90")
			}
		}
	}
	assert.Equal(t, 75, seen)
}

// TestTerminalsOfNFPA70: 110.14(C)(1): what the 60 °C column says up to AWG 1, what
// that of 75 °C says above, on the table of 33 CFR 183.425 that has both; unstated.
func TestTerminalsOfNFPA70(t *testing.T) {
	rule := must(tables.RuleSetOf("us-boat")).Ampacity
	rule.Terminals = must(tables.AmpacityRuleOf("us-rv")).Terminals
	for size, want := range map[string]string{"AWG 6": "80", "AWG 1": "165", "AWG 1/0": "230"} {
		a := must(lying(size, "", "105").Ampacity(rule))
		workingtest.Guard(t, a.Working)
		assert.Equal(t, want, a.AmpacityA.String(), size)
		assert.Equal(t, cite.SecondHand, a.Working.Confidence())
	}
}

// TestSilentOnTerminals: 33 CFR 183 says nothing of terminals. Unstated ones cap
// nothing, and a line says so; stated ones cap by the column that they bear: AWG 6
// carries 120 A in the column of 105 °C and 95 A in that of 75 °C.
func TestSilentOnTerminals(t *testing.T) {
	for _, key := range []string{"us-boat", "us-voluntary-craft"} {
		rule := must(tables.RuleSetOf(key)).Ampacity
		c := lying("AWG 6", "", "105")
		a := must(c.Ampacity(rule))
		assert.Equal(t, "120", a.AmpacityA.String())
		assert.False(t, a.TerminalA.Valid)
		assert.Contains(t, a.Working[len(a.Working)-1].Note, "the rules are silent on it")
		c.TerminalC = some("75")
		a = must(c.Ampacity(rule))
		workingtest.Guard(t, a.Working)
		assert.Equal(t, "95", a.AmpacityA.String())
	}
}

// TestTerminalsCoolerThanAnyTable: 60 °C terminals on 4 mm² in method A. No table
// is that cool, so the law takes the rest from the 70 °C one: by hand
// 26 × √(30 ÷ 40) = 22.516 A. In 60 °C air they carry nothing.
func TestTerminalsCoolerThanAnyTable(t *testing.T) {
	c := lying("4 mm2", "A", "90")
	c.TerminalC = some("60")
	a := must(c.Ampacity(european().Ampacity))
	workingtest.Guard(t, a.Working)
	assert.Equal(t, "22.51", a.AmpacityA.String())
	c.AmbientC = some("60")
	a = must(c.Ampacity(european().Ampacity))
	workingtest.Guard(t, a.Working)
	assert.True(t, a.AmpacityA.IsZero())
}

// TestTerminalsNeverRaise: over all sets, cooler terminals never allow more, and no
// terminals more than the cable.
func TestTerminalsNeverRaise(t *testing.T) {
	for _, name := range tables.AmpacityRules() {
		rule := must(tables.AmpacityRuleOf(name))
		for _, size := range []string{"2.5 mm2", "16 mm2", "AWG 6"} {
			for _, ambient := range []string{"10", "30", "45", "58"} {
				c := lying(size, "C", "90")
				c.AmbientC = some(ambient)
				before := decimal.Zero
				for terminal := int64(40); terminal <= 100; terminal += 5 {
					c.TerminalC = decimal.NewNullDecimal(decimal.NewFromInt(terminal))
					a, err := c.Ampacity(rule)
					if err != nil {
						continue // the table, or the ambient, has none
					}
					workingtest.Guard(t, a.Working)
					assert.True(t, a.AmpacityA.GreaterThanOrEqual(before), "%s %s %s °C, terminals %d °C", name, size, ambient, terminal)
					assert.True(t, a.AmpacityA.LessThanOrEqual(a.CableA))
					before = a.AmpacityA
				}
			}
		}
	}
}

// TestTerminalsAtTheirEnd: a route from 30 °C air through 60 °C to 30 °C air again.
// Its terminals lie in 30 °C and bear what the 70 °C table says there (4 mm², method
// A: 26 A by BS 7671 table 4D1A); the hot stretch carries what the 90 °C table says
// (35 A × 0.71 = 24.85 A, second hand) and no terminal of 70 °C caps it.
func TestTerminalsAtTheirEnd(t *testing.T) {
	cool, hot := lying("4 mm2", "A", "90"), lying("4 mm2", "A", "90")
	hot.AmbientC = some("60")
	rule := european().Ampacity
	r := wire.Route{Sections: []wire.Section{{cool, d("1")}, {hot, d("1")}, {cool, d("1")}}, CurrentA: d("5")}
	a := must(r.Ampacity(rule))
	workingtest.Guard(t, a.Working)
	assert.Equal(t, "26", a.Sections[0].AmpacityA.String())
	assert.Equal(t, a.Sections[1].CableA.String(), a.Sections[1].AmpacityA.String())
	assert.Equal(t, 1, a.Weakest)
	assert.True(t, must(hot.Ampacity(rule)).AmpacityA.LessThan(a.AmpacityA), "an end in there would be capped")

	r.Sections = r.Sections[:2]
	assert.True(t, must(r.Ampacity(rule)).AmpacityA.LessThan(a.AmpacityA), "now the hot section has the terminal")
	r.Sections = append(r.Sections, wire.Section{cool, d("1")})
	r.Sections[1].Conductor.TerminalC = some("90")
	_, err := r.Ampacity(rule)
	assert.ErrorContains(t, err, "sections[1].conductor.terminal_c")
}

// TestOtherBase: a 45 °C table's factor on a 30 °C ampacity would allow 87 A in
// place of 69 A for 16 mm² (method C). It is refused; asked for by name it is
// carried over by the heating law.
func TestOtherBase(t *testing.T) {
	rule := european().Ampacity
	rule.Ambient = "IEC 60092 ship cable"
	c := lying("16 mm2", "C", "70")
	c.AmbientC = some("45")
	_, err := c.Ampacity(rule)
	require.ErrorContains(t, err, "table_ambient_c")
	c.ConvertAmbient = true
	a := must(c.Ampacity(rule))
	workingtest.Guard(t, a.Working)
	own := must(lying("16 mm2", "C", "70").Ampacity(rule)).AmpacityA.InexactFloat64()
	assert.InDelta(t, own*0.79, a.AmpacityA.InexactFloat64(), own*0.01) // √(25 ÷ 40) = 0.79
}

// TestDataSheet: a cable's own 48 A in 25 °C air, by hand: in 50 °C with 105 °C
// insulation 48 × √(55 ÷ 80) = 39.79 A where the set has no factors for it; four
// circuits take 0.65 of it by BS 7671 table 4C1.
func TestDataSheet(t *testing.T) {
	own := wire.Conductor{Size: must(tables.ParseSize("4 mm2")), Class: tables.Flexible, InsulationC: d("105"), Grouped: 1,
		OwnAmpacityA: some("48"), OwnAmbientC: some("25"), AmbientC: some("50"), TerminalC: some("105")}
	a := must(own.Ampacity(tables.AmpacityRule{Grouping: "BS 7671 4C1"}))
	workingtest.Guard(t, a.Working)
	assert.Equal(t, "39.79", a.AmpacityA.String())
	assert.Equal(t, cite.SecondHand, a.Working.Confidence(), "of the heating law")
	own.AmbientC, own.Grouped = some("25"), 4
	a = must(own.Ampacity(tables.AmpacityRule{Grouping: "BS 7671 4C1"}))
	assert.Equal(t, "31.2", a.AmpacityA.String())
	assert.Equal(t, cite.Given, a.Working[0].Source.Confidence)

	own.AmbientC, own.Grouped, own.Method = some("40"), 1, "C"
	_, err := own.Ampacity(european().Ampacity)
	assert.ErrorContains(t, err, "table_ambient_c is 25", "the set's factors hold for 30 °C")
	own.TerminalC = decimal.NullDecimal{}
	own.ConvertAmbient = true
	a = must(own.Ampacity(european().Ampacity))
	workingtest.Guard(t, a.Working)
	assert.True(t, a.AmpacityA.LessThanOrEqual(must(lying("4 mm2", "C", "70").Ampacity(european().Ampacity)).AmpacityA))

	own.OwnAmbientC = decimal.NullDecimal{}
	_, err = own.Ampacity(european().Ampacity)
	assert.ErrorContains(t, err, "own_ambient_c is unset")
}

// TestConductorsCount: the voluntary small-craft code counts the conductors that
// carry current: three circuits are six of them, and three where each returns by
// the chassis.
func TestConductorsCount(t *testing.T) {
	rule := must(tables.RuleSetOf("us-voluntary-craft")).Ampacity
	c := lying("AWG 10", "", "105")
	c.Grouped = 3
	six := must(c.Ampacity(rule))
	c.GroupedConductors = 3
	three := must(c.Ampacity(rule))
	c.GroupedConductors = 6
	assert.Equal(t, six.AmpacityA.String(), must(c.Ampacity(rule)).AmpacityA.String())
	for count, a := range map[int]wire.Ampacity{6: six, 3: three} {
		f := must(tables.GroupingFactor(rule.Grouping, tables.Bundle{Circuits: 3, Conductors: count}))
		table, _ := a.Working.Value("I_t")
		assert.Equal(t, table.Mul(f.Value).String(), a.CableA.String())
	}
	c.GroupedConductors = 2
	_, err := c.Ampacity(rule)
	assert.ErrorContains(t, err, "grouped_conductors")
}

// TestInsideThermalInsulation: BS 7671 523.9 (from memory): half of what the cable
// carries clipped direct where thermal insulation surrounds more than 0.5 m. 4 mm²
// of 70 °C: 37 A in method C (table 4D1A), so 18.5 A, less than in method A (26 A); in
// 0.1 m 0.78 of it, 28.86 A, and method A governs.
func TestInsideThermalInsulation(t *testing.T) {
	rule := european().Ampacity
	for method, want := range map[string][2]string{"A": {"18.5", "26"}, "C": {"18.5", "28.86"}} {
		for i, length := range []string{"2", "0.1"} {
			for _, insulation := range []string{"70", "90"} { // 90 °C on terminals for 70 °C
				c := lying("4 mm2", method, insulation)
				c.InsulatedM = some(length)
				a := must(c.Ampacity(rule))
				workingtest.Guard(t, a.Working)
				assert.Equal(t, want[i], a.AmpacityA.String(), "%s, %s m, %s °C", method, length, insulation)
			}
		}
	}
	own := wire.Conductor{Size: must(tables.ParseSize("4 mm2")), Class: tables.Flexible, InsulationC: d("105"), Grouped: 1,
		OwnAmpacityA: some("48"), OwnAmbientC: some("25"), TerminalC: some("105"), InsulatedM: some("0.7")}
	assert.Equal(t, "24", must(own.Ampacity(tables.AmpacityRule{})).AmpacityA.String())
	boat := lying("AWG 10", "", "105")
	boat.InsulatedM = some("1")
	workingtest.Guard(t, must(boat.Ampacity(must(tables.RuleSetOf("us-boat")).Ampacity)).Working)
	zero := lying("4 mm2", "C", "70")
	zero.InsulatedM = some("0")
	assert.Equal(t, "37", must(zero.Ampacity(rule)).AmpacityA.String())
}
