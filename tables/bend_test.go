package tables_test

import (
	"errors"
	"fmt"
	"testing"

	"example.org/extralow/tables"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func ExampleBendMultiple() {
	f, err := tables.BendMultiple("flexible PVC, fixed", decimal.RequireFromString("14.5"))
	fmt.Println(f.Value, "times the diameter:", f.Source, err)
	// Output:
	// 4 times the diameter: VDE 0298-3, bend radii, flexible PVC, fixed; from memory <nil>
}

func ExampleBendCables() {
	for _, cable := range tables.BendCables() {
		fmt.Println(cable)
	}
	// Output:
	// wire or cable in aircraft
	// wire bundle in aircraft
	// single wire held at both ends of the bend
	// wiring in recreational vehicles
	// unshielded conductor above 1000 V
	// shielded conductor above 1000 V
	// PVC or XLPE, circular, not armoured
	// PVC or XLPE, single-core circular stranded, in conduit
	// armoured
	// flexible PVC, fixed
}

// TestBendMultipleByDiameter: a row holds up to its last diameter, the next
// from there on; a thicker cable never bends more tightly for its diameter.
func TestBendMultipleByDiameter(t *testing.T) {
	for _, cable := range tables.BendCables() {
		before := decimal.Zero
		for _, mm := range []string{"1", "10", "10.01", "12", "12.01", "25", "25.01", "80"} {
			f, err := tables.BendMultiple(cable, decimal.RequireFromString(mm))
			if errors.Is(err, tables.ErrOutside) {
				assert.Equal(t, "PVC or XLPE, single-core circular stranded, in conduit", cable, "the only kind whose table ends, at 25 mm")
				continue
			}
			require.NoError(t, err, "%s %s", cable, mm)
			assert.True(t, f.Value.GreaterThanOrEqual(before), "%s %s mm", cable, mm)
			before = f.Value
		}
	}
	_, err := tables.BendMultiple("rope", decimal.NewFromInt(1))
	assert.ErrorIs(t, err, tables.ErrNotListed)
}
