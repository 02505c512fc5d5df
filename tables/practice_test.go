package tables_test

import (
	"fmt"
	"testing"

	"example.org/extralow/tables"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func ExampleCategoryFactors() {
	makes, breaks, err := tables.CategoryFactors("DC-1")
	fmt.Println(makes.Value, breaks.Value, makes.Source, err)
	// Output:
	// 1.5 1.5 IEC 60947-4-1, table 7, category DC-1; from memory <nil>
}

func ExampleHotOutputs() {
	for _, f := range tables.HotOutputs() {
		fmt.Println(f.Value, f.Source)
	}
	// Output:
	// 0.8 common practice, alternators, hot output, ordinary duty
	// 0.6 common practice, alternators, hot output, long bulk charging; from memory
}

func ExampleFaultSource() {
	f, err := tables.FaultSource("dc-motor-safe")
	fmt.Println(f.Value, f.Source, err)
	_, err = tables.FaultSource("dc-motors")
	fmt.Println(err != nil)
	// Output:
	// 10 IEEE 946, annex D, running d.c. motor, at its terminals, safe estimate; second hand <nil>
	// true
}

func ExampleThermalInsulation() {
	for _, m := range []string{"0.05", "0.15", "0.45", "3"} {
		f, err := tables.ThermalInsulation(num(m))
		fmt.Println(m, f.Value, f.Source, f.Note, err)
	}
	// Output:
	// 0.05 0.88 BS 7671:2018, table 52.2, 0.05 m; from memory  <nil>
	// 0.15 0.63 BS 7671:2018, table 52.2, 0.2 m; from memory the row above 0.15 m <nil>
	// 0.45 0.5 BS 7671:2018, 523.9, 0.5 m; from memory the row above 0.45 m <nil>
	// 3 0.5 BS 7671:2018, 523.9, 0.5 m; from memory the last row, for 0.5 m and more <nil>
}

func ExampleRestedSpread() {
	fmt.Println(tables.RestedSpread("lead-acid AGM").Value, tables.RestedSpread("LiFePO4").Value, tables.RestedSpread("lead-acid").Value)
	// Output:
	// 0.017 0.01 0
}

func ExampleWidestCharge() {
	fmt.Println(tables.WidestCharge().Value, tables.WidestCharge().Source)
	// Output:
	// 35 common practice, charge by rested voltage, any
}

// TestThermalInsulationFalls: more length in insulation is never better, and half
// is the least (BS 7671 523.9).
func TestThermalInsulationFalls(t *testing.T) {
	last := num("1")
	for _, m := range []string{"0.001", "0.05", "0.050001", "0.1", "0.2", "0.399", "0.4", "0.401", "0.5", "0.51", "1000"} {
		f, err := tables.ThermalInsulation(num(m))
		require.NoError(t, err)
		assert.True(t, f.Value.LessThanOrEqual(last), m)
		last = f.Value
	}
	assert.Equal(t, "0.5", last.String())
	for _, m := range []string{"0", "-1", "1001"} {
		_, err := tables.ThermalInsulation(num(m))
		assert.Error(t, err, m)
	}
}

// TestFaultSourcesAreStated: an id that is asked for is there, whatever it is.
func TestFaultSourcesAreStated(t *testing.T) {
	for id, want := range map[string]string{
		"dc-motor": "7", "dc-motor-resistance-low": "0.1", "dc-motor-resistance-high": "0.15",
		"alternator-unlimited": "10", "battery-warm": "0.4", "regulated": "1",
	} {
		f, err := tables.FaultSource(id)
		require.NoError(t, err)
		assert.True(t, f.Value.Equal(num(want)), id)
		assert.True(t, f.Source.Confidence != 0, id)
	}
}

// TestUnknownKindSpreadsAsItsKinds: a sealed battery whose kind is not known is read
// no more closely than either kind.
func TestUnknownKindSpreadsAsItsKinds(t *testing.T) {
	for _, kind := range []tables.Chemistry{tables.AGM, tables.Gel} {
		unknown := tables.RestedSpread(tables.VRLA).Value
		if unknown.LessThan(tables.RestedSpread(kind).Value) {
			t.Errorf("%s: %s V", kind, unknown)
		}
	}
}
