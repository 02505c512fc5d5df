package tables_test

import (
	"encoding/json"
	"testing"

	"example.org/extralow/tables"
	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// readBack returns a value as it comes back from JSON.
func readBack[T any](t *testing.T, v T) (back T) {
	t.Helper()
	text, err := json.Marshal(v)
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, &back))
	return back
}

// TestColumnAnswersAfterJSON: a column that was written and read lists the same sizes
// and the same ampacities.
func TestColumnAnswersAfterJSON(t *testing.T) {
	back := readBack(t, column)
	require.NotEmpty(t, column.Sizes())
	assert.Equal(t, column.Sizes(), back.Sizes())
	for _, s := range column.Sizes() {
		want, err := column.At(s)
		require.NoError(t, err)
		got, err := back.At(s)
		assert.NoError(t, err)
		assert.Equal(t, want, got)
	}
	other := column
	other.Method = "no such method"
	assert.ErrorIs(t, second(other.At(sixteen)), tables.ErrNotListed)
}

// TestRuleSetsComeBackFromJSON: every set, and every figure of it, is whole after it
// was written and read, and so is every family of devices.
func TestRuleSetsComeBackFromJSON(t *testing.T) {
	same := cmp.AllowUnexported(tables.Size{})
	for _, set := range tables.RuleSets() {
		assert.Empty(t, cmp.Diff(set, readBack(t, set), same), set.Key)
	}
	for _, family := range tables.Families() {
		assert.Empty(t, cmp.Diff(family, readBack(t, family), same), family.Name)
	}
	for _, place := range tables.Insolations() {
		assert.Empty(t, cmp.Diff(place, readBack(t, place), same), place.Place)
	}
}

// TestWhatIsReturnedIsTheCallersOwn: to change an answer changes no other.
func TestWhatIsReturnedIsTheCallersOwn(t *testing.T) {
	set := mustRules("european")
	set.Craft[0], set.Ampacity.Metric[0] = "changed", "changed"
	assert.NotEqual(t, "changed", mustRules("european").Craft[0])
	assert.NotEqual(t, "changed", mustRules("european").Ampacity.Metric[0])
	rule, err := tables.AmpacityRuleOf("european")
	require.NoError(t, err)
	assert.NotEqual(t, "changed", rule.Metric[0])
	listed := mustRules("us-rv")
	listed.Device.BySize[0].Size, listed.Ampacity.Terminals.Ratings[0].ToSize = sixteen, sixteen
	for _, again := range tables.RuleSets() {
		if again.Key == "us-rv" {
			assert.NotEqual(t, sixteen, again.Device.BySize[0].Size)
			assert.NotEqual(t, sixteen, again.Ampacity.Terminals.Ratings[0].ToSize)
		}
	}
	family, err := tables.FamilyOf("ISO 8820-3 C")
	require.NoError(t, err)
	family.Breaking[0].Note = "changed"
	again, err := tables.FamilyOf("ISO 8820-3 C")
	require.NoError(t, err)
	assert.NotEqual(t, "changed", again.Breaking[0].Note)
	assert.NotEqual(t, "changed", tables.Families()[0].Breaking[0].Note)
}
