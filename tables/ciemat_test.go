package tables_test

import (
	"fmt"
	"math"
	"testing"

	"example.org/extralow/tables"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ExampleLeadAcidConstant looks up the voltage at which a cell begins to gas with
// no current.
func ExampleLeadAcidConstant() {
	f, err := tables.LeadAcidConstant("gassing voltage per cell", "g0")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(f.Value, f.Source)
	// Output: 2.24 Copetti 1993, gassing voltage per cell, g0; second hand
}

// TestLeadAcidGassing: the ten-hour current gasses a cell at 25 °C from 2.43 V.
func TestLeadAcidGassing(t *testing.T) {
	constant := func(name string) float64 {
		f, err := tables.LeadAcidConstant("gassing voltage per cell", name)
		require.NoError(t, err)
		return f.Value.InexactFloat64()
	}
	assert.InDelta(t, 2.43, constant("g0")+constant("g1")*math.Log(1.1), 0.005)
}

func TestLeadAcidConstantRefuses(t *testing.T) {
	_, err := tables.LeadAcidConstant("gassing voltage", "g0")
	assert.ErrorContains(t, err, "charge voltage per cell c0")
	f, err := tables.LeadAcidConstant("discharge voltage per cell", "d5")
	require.NoError(t, err)
	assert.Equal(t, "1.2", f.Value.String(), "the version that was read")
}
