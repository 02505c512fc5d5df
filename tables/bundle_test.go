package tables_test

import (
	"fmt"
	"testing"

	"example.org/extralow/tables"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func ExampleBundleFactor() {
	f, err := tables.BundleFactor(7, decimal.NewFromInt(50))
	fmt.Println(f.Value, f.Source, err)
	fmt.Println(f.Note)
	// Output:
	// 0.625 MIL-W-5088L, bundle figure, 7 wires, 60 % loading; second hand <nil>
	// the next worse point for 7 wires, 50 %
}

func ExampleAltitudeFactor() {
	f, err := tables.AltitudeFactor(decimal.NewFromInt(3000))
	fmt.Println(f.Value, f.Source, err)
	fmt.Println(f.Note)
	// Output:
	// 0.91 FAA AC 43.13-1B, figure 11-5, 20000 ft <nil>
	// the next higher point for 3000 m
}

// TestBundleFactorFalls: more wires and more loading never carry more. FAA AC
// 43.13-1B reads 0.43 off the same curve for 12 wires fully loaded.
func TestBundleFactorFalls(t *testing.T) {
	for loading := int64(10); loading <= 100; loading += 10 {
		before := decimal.NewFromInt(1)
		for wires := 1; wires <= 19; wires++ {
			f, err := tables.BundleFactor(wires, decimal.NewFromInt(loading))
			require.NoError(t, err)
			assert.True(t, f.Value.LessThanOrEqual(before), "%d wires, %d %%", wires, loading)
			more, err := tables.BundleFactor(wires, decimal.NewFromInt(min(100, loading+10)))
			require.NoError(t, err)
			assert.True(t, more.Value.LessThanOrEqual(f.Value), "%d wires, %d %%", wires, loading)
			before = f.Value
		}
	}
	f, err := tables.BundleFactor(12, decimal.NewFromInt(100))
	require.NoError(t, err)
	assert.Equal(t, "0.43", f.Value.String())
	_, err = tables.BundleFactor(20, decimal.NewFromInt(20))
	assert.ErrorIs(t, err, tables.ErrOutside)
	_, err = tables.AltitudeFactor(decimal.NewFromInt(18_289))
	assert.ErrorIs(t, err, tables.ErrOutside)
}
