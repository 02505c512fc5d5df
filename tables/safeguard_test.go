package tables_test

import (
	"fmt"
	"testing"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ExampleSafeguardPractice prints what a set asks of a cable at an edge, and what
// common practice asks of an isolator, of which that set says nothing.
func ExampleSafeguardPractice() {
	set, err := tables.RuleSetOf("us-boat")
	fmt.Println(set.Guards.Edge.Value, set.Guards.Edge.Source.Key, set.Guards.Edge.Source.Where, err)
	practice := tables.SafeguardPractice()
	fmt.Println(set.Guards.Isolator.Stated(), practice.Isolator.Value, practice.Isolator.Source.Confidence)
	// Output:
	// 1 33 CFR 183 183.445(a) <nil>
	// false 1 common practice
}

// TestSafeguardsOfSets: a set states what its own documents do. ISO 10133 asks a
// switch near the battery (from memory), 33 CFR 183.445(a) and 183.410(a) guards at
// hard surfaces and no ignition (from memory); no set holds practice of the trade.
func TestSafeguardsOfSets(t *testing.T) {
	of := func(key string) tables.SafeguardRule {
		set, err := tables.RuleSetOf(key)
		require.NoError(t, err)
		return set.Guards
	}
	assert.Equal(t, "ISO 10133:2012", of("iso-craft").Isolator.Source.Key)
	assert.Equal(t, "183.410(a)", of("us-boat").Ignition.Source.Where)
	assert.Equal(t, "BS 7671:2008", of("european").Edge.Source.Key)
	for _, set := range tables.RuleSets() {
		for _, f := range []cite.Source{set.Guards.Edge.Source, set.Guards.Isolator.Source, set.Guards.Reach.Source, set.Guards.Ignition.Source, set.Guards.Sensor.Source} {
			assert.NotEqual(t, cite.CommonPractice, f.Confidence, set.Key)
		}
	}
}

// TestReturnOfRecreationalVehicles: NFPA 70 552.10(C) lets a frame bring the
// current back (second hand).
func TestReturnOfRecreationalVehicles(t *testing.T) {
	set, err := tables.RuleSetOf("us-rv")
	require.NoError(t, err)
	assert.True(t, set.Return.Stated())
	assert.True(t, set.Return.Value.IsZero())
}
