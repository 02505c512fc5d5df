package tables_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// byName asks a look-up with a name of a kind and with all else as usual. Where a
// name goes only with some of what it is asked with, the usual is that of its row.
var byName = map[string]func(name string) error{
	"absorption_rule":  func(n string) error { return second(tables.AbsorptionRule("LiFePO4", n)) },
	"air_constant":     func(n string) error { return second(tables.AirConstant(n)) },
	"aircraft_device":  func(n string) error { return second(tables.AircraftProtector(mustSize("AWG 10"), n)) },
	"alternator_state": func(n string) error { return second(tables.AlternatorOutput(first("machine"), n)) },
	"alternator_term":  func(n string) error { return second(tables.AlternatorDefinition(n, number("12"))) },
	"ambient_table": func(n string) error {
		return second(tables.AmpacityBase{InsulationC: number("90"), AmbientC: number("30")}.AmbientFactor(n, number("40")))
	},
	"ampacity_rule":          func(n string) error { return second(tables.AmpacityRuleOf(n)) },
	"bond":                   func(n string) error { return second(tables.BondOf(n)) },
	"cable":                  func(n string) error { return second(tables.BendMultiple(n, number("8"))) },
	"category":               func(n string) error { return erring2(tables.CategoryFactors(n)) },
	"cell_temperature_model": func(n string) error { return second(tables.CellTemperature(n, first("mounting"), first("parameter"))) },
	"characteristic":         func(n string) error { return second(tables.CharacteristicMeaning(n)) },
	"charger":                func(n string) error { return second(tables.TractionGasCurrent("lead-acid flooded", n)) },
	"chemistry":              func(n string) error { return second(tables.CycleLives(tables.Chemistry(n), number("50"))) },
	"code":                   func(n string) error { return second(tables.SmallConductors(n)) },
	"code_letter":            func(n string) error { _, _, _, err := tables.LockedRotor(n); return err },
	"condition":              func(n string) error { return second(tables.RunningVoltageOf(n, "voltage", number("12"))) },
	"conductor":              func(n string) error { return second(tables.AdiabaticOf(n, "PVC 70 C", number("16"))) },
	"converter":              func(n string) error { return second(tables.ConverterEfficiency(n)) },
	"cranking_test":          func(n string) error { return second(tables.CrankingTestOf(n)) },
	"device_rule":            func(n string) error { return second(tables.DeviceRuleOf(n)) },
	"engine_space_table":     func(n string) error { return second(tables.EngineSpaceFactor(n, number("105"))) },
	"family":                 func(n string) error { return second(tables.FamilyOf(n)) },
	"fusing_material":        func(n string) error { return second(tables.FusingConstant(n)) },
	"charge":                 func(n string) error { return second(tables.GasCurrent("lead-acid flooded", n)) },
	"gas_constant":           func(n string) error { return second(tables.GasConstants(n)) },
	"grouping_table": func(n string) error {
		return second(tables.GroupingFactor(n, tables.Bundle{Circuits: 2, Conductors: 4}))
	},
	"installation_rule": func(n string) error { return second(tables.InstallationRule(n)) },
	"insulation":        func(n string) error { return second(tables.AdiabaticOf("copper", n, number("16"))) },
	"limit":             func(n string) error { return second(tables.BatteryLimits("LiFePO4", n)) },
	"load_kind":         func(n string) error { return erring2(tables.PowerFactor(n)) },
	"machine":           func(n string) error { return second(tables.AlternatorOutput(n, "hot")) },
	"metal":             func(n string) error { return second(tables.Material(n, "density_20c")) },
	"material_constant": func(n string) error { return second(tables.Material("copper", n)) },
	"method":            func(n string) error { return second(european().Ampacity.Column(mustSize("16 mm2"), n, number("90"))) },
	"mounting":          func(n string) error { return second(tables.CellTemperature("SAPM", n, "a")) },
	"parameter":         func(n string) error { return second(tables.CellTemperature("SAPM", "open rack glass/glass", n)) },
	"place":             func(n string) error { return second(tables.InsolationOf(n, "horizontal")) },
	"position":          func(n string) error { return second(tables.CoolingFactorsOf(n)) },
	"quantity":          func(n string) error { return second(tables.RunningVoltageOf("fixed regulator", n, number("12"))) },
	"rested_table":      func(n string) error { return second(tables.ChargeByVoltageInterpolated(n, "LiFePO4", number("3.3"))) },
	"rules":             func(n string) error { return second(tables.RuleSetOf(n)) },
	"selectivity_rule":  func(n string) error { return second(tables.SelectivityRatio(n)) },
	"sizing_figure":     func(n string) error { return second(tables.SizingFigure(n)) },
	"solar_rule":        func(n string) error { return second(tables.SolarCurrentFactor(n)) },
	"stage":             func(n string) error { return second(tables.CellVoltages("LiFePO4", n)) },
	"supply_code":       func(n string) error { return second(tables.SupplyCodeOf(n)) },
	"load":              func(n string) error { return second(tables.SwitchFactor(number("12"), n)) },
	"system":            func(n string) error { return tables.System(n).Check("system") },
	"table":             func(n string) error { return second(tables.TableOf(n)) },
	"terminal":          func(n string) error { return second(tables.Torque(n, number("6"), "")) },
	"tilt":              func(n string) error { return second(tables.InsolationOf(first("place"), n)) },
	"torque_column":     func(n string) error { return second(tables.Torque("screw terminal", number("6"), n)) },
	"trait":             func(n string) error { _, _, err := tables.LiFePO4.TraitSource(tables.Trait(n)); return err },
	"typical_load":      func(n string) error { return second(tables.TypicalLoads(n)) },
	"voltage_test":      func(n string) error { return second(tables.VoltageTest(n, number("12"))) },
	"material":          func(n string) error { return second(tables.HeatTransfer(n)) },
}

func first(kind string) string { return must(tables.Names(kind))[0] }

// together are the kinds of which a name goes only with some of the others; such
// a name is refused with those that go.
var together = []string{
	"alternator_state", "cell_temperature_model", "condition", "conductor", "insulation", "metal", "material_constant", "method",
	"mounting", "parameter", "quantity", "rested_table", "terminal", "tilt", "torque_column", "voltage_test",
}

// TestEveryListedNameIsAccepted: over all look-ups by name. A listed name is never
// refused as a name: at most its table has no row for what else is asked. One that
// is not listed is refused with the list, in the field of its kind, and one slip
// of the pen is answered with the name that was meant.
func TestEveryListedNameIsAccepted(t *testing.T) {
	assert.Equal(t, tables.Kinds(), slices.Sorted(keysOf(byName)), "each kind has its look-up here")
	for kind, ask := range byName {
		names, err := tables.Names(kind)
		require.NoError(t, err)
		require.NotEmpty(t, names, kind)
		accepted := 0
		for _, name := range names {
			refused := slices.ContainsFunc(working.Inputs(ask(name)), func(e *working.InputError) bool { return e.Field == kind })
			assert.True(t, !refused || slices.Contains(together, kind), "%s %q: %v", kind, name, ask(name))
			if !refused {
				accepted++
			}
		}
		assert.Positive(t, accepted, kind)
		refusal := working.Inputs(ask("no such name"))
		require.Len(t, refusal, 1, "%s: %v", kind, ask("no such name"))
		assert.Equal(t, kind, refusal[0].Field)
		assert.True(t, strings.HasPrefix(refusal[0].Want, "one of "), refusal[0].Want)
		assert.ErrorIs(t, ask("no such name"), tables.ErrNotListed, kind)
		if !slices.Contains(together, kind) {
			want := strings.Join(names, ", ")
			if strings.Count(want, ",") >= len(names) { // one of them holds a comma
				want = strings.Join(names, "; ")
			}
			assert.Equal(t, "one of "+want, refusal[0].Want, kind)
		}
	}
}

func keysOf(m map[string]func(string) error) func(yield func(string) bool) {
	return func(yield func(string) bool) {
		for k := range m {
			if !yield(k) {
				return
			}
		}
	}
}

// TestNamesOfFamilies: of a family that no table has, every look-up says which
// there are; of one that a table is silent about, that it is.
func TestNamesOfFamilies(t *testing.T) {
	ten := decimal.NewFromInt(10)
	for name, ask := range map[string]func(family string) error{
		"ratings":      func(f string) error { return second(tables.Ratings(f)) },
		"colour":       func(f string) error { _, _, err := tables.Colour(f, ten); return err },
		"gates":        func(f string) error { return second(tables.Gates(f, ten)) },
		"release":      func(f string) error { return second(tables.ReleaseOf(f)) },
		"conventional": func(f string) error { return second(tables.ConventionalOf(f, ten)) },
		"energy":       func(f string) error { return second(tables.PreArcing(f, ten)) },
		"derating":     func(f string) error { return second(tables.DeviceDerating(f, ten, ten)) },
	} {
		refusal := working.Inputs(ask("ISO 8820-3 Q"))
		require.Len(t, refusal, 1, name)
		assert.Equal(t, "family", refusal[0].Field)
		assert.Contains(t, refusal[0].Want, "nearest: ISO 8820-3 ", name)
		for _, f := range tables.Families() {
			if err := ask(f.Name); err != nil {
				assert.ErrorIs(t, err, tables.ErrNotListed, "%s of %s", name, f.Name)
				assert.Empty(t, working.Inputs(err), "%s of %s: %v", name, f.Name, err)
			}
		}
	}
}

func ExampleNames() {
	names, err := tables.Names("position")
	fmt.Println(strings.Join(names, "\n"), err)
	_, err = tables.Names("positions")
	fmt.Println(strings.HasSuffix(err.Error(), "nearest: position"))
	// Output:
	// free on all sides
	// single, on a wall
	// end of a row, free
	// end of a row, on a wall
	// in a row, free
	// in a row, on a wall
	// in a row, on a wall, top covered <nil>
	// true
}

func ExampleKinds() {
	fmt.Println(tables.Kinds()[:5])
	// Output:
	// [absorption_rule air_constant aircraft_device alternator_state alternator_term]
}

func ExamplePlaces() {
	fmt.Println(tables.Places()[:3])
	// Output:
	// [Amsterdam Mannheim Zurich-Kloten]
}
