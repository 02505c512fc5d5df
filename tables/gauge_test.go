package tables_test

import (
	"fmt"
	"testing"

	"example.org/extralow/tables"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestGaugeClass: IEC 60228 table 3 gives 10 mm² class 5 1.91 mΩ/m, the largest
// with no more copper than the 12.1 mm² of SAE 6. The class changes nothing.
func TestGaugeClass(t *testing.T) {
	size, err := tables.ParseSize("SAE 6")
	require.NoError(t, err)
	for _, class := range []tables.Class{0, tables.Stranded, tables.Flexible} {
		r, err := tables.Resistance(size, class)
		require.NoError(t, err)
		assert.Equal(t, "1.91", r.Figure.Value.String())
	}
}

// TestOurReading: NFPA 70 advises on branch circuits, not on critical ones, and
// clause 13.1.5 of ISO 13297 is for a.c.
func TestOurReading(t *testing.T) {
	rv, err := tables.RuleSetOf("us-rv")
	require.NoError(t, err)
	assert.Contains(t, rv.Drop.Critical.Note, "our reading")
	craft, err := tables.RuleSetOf("iso-craft")
	require.NoError(t, err)
	assert.Equal(t, "from memory", craft.Device.OfAmpacity.Source.Confidence.String())
	assert.NotContains(t, craft.Device.OfAmpacity.Source.String(), "13.1.5")
}

func ExampleEngineSpaceAmbient() {
	f, err := tables.EngineSpaceAmbient("ISO 10133 annex A", decimal.NewFromInt(70))
	fmt.Println(f.Value, f.Unit, err)
	// Output:
	// 60 °C <nil>
}

func ExampleTinnedResistance() {
	size, err := tables.ParseSize("10 mm2")
	if err != nil {
		panic(err)
	}
	r, err := tables.TinnedResistance(size, tables.Flexible)
	fmt.Println(r.Figure.Value, r.Figure.Unit, r.AtC, err)
	// Output:
	// 1.95 mΩ/m 20 <nil>
}
