package tables_test

import (
	"slices"
	"testing"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestRuleSets: the six sets, the default first; each says what it applies to,
// and no figure of it is without a source.
func TestRuleSets(t *testing.T) {
	var keys []string
	for _, r := range tables.RuleSets() {
		keys = append(keys, r.Key)
		assert.NotEmpty(t, r.Name, r.Key)
		assert.NotEmpty(t, r.Applies, r.Key)
		assert.NotEmpty(t, r.Craft, r.Key)
		for name, f := range figures(r) {
			assert.Equal(t, f.Stated(), f.Value.IsPositive(), "%s: %s", r.Key, name)
		}
		for _, craft := range []string{"vehicle", "trailer", "boat"} {
			assert.Equal(t, !slices.Contains(r.Craft, craft), r.Yardstick(craft), "%s for a %s", r.Key, craft)
		}
	}
	assert.Equal(t, []string{"european", "iso-craft", "us-boat", "us-voluntary-craft", "us-rv", "au-nz"}, keys)
	_, err := tables.RuleSetOf("")
	require.Len(t, working.Inputs(err), 1)
}

func figures(r tables.RuleSet) map[string]working.Figure {
	return map[string]working.Figure{
		"of ampacity": r.Device.OfAmpacity, "operating": r.Device.OperatingCurrent, "load": r.Device.LoadOfRating,
		"bare": r.Place.Bare, "sheathed": r.Place.Sheathed, "at battery": r.Place.AtBattery, "charging": r.Place.Charging,
		"charge": r.Drop.Charge, "critical": r.Drop.Critical, "other": r.Drop.Other, "constant": r.Drop.Constant,
	}
}

// TestFiguresOfTheCodes compares the sets with the codes that they stand for: 33
// CFR 183.455 and 183.460, ISO 10133, IEC 60364-4-43, EN 1648-2, NFPA 70 and
// AS/NZS 3001.2.
func TestFiguresOfTheCodes(t *testing.T) {
	sets := map[string]tables.RuleSet{}
	for _, r := range tables.RuleSets() {
		sets[r.Key] = r
	}
	for _, c := range []struct {
		got        working.Figure
		want, unit string
	}{
		{sets["us-boat"].Device.OfAmpacity, "1.5", ""},
		{sets["us-boat"].Place.Bare, "177.8", "mm"},       // 7 in
		{sets["us-boat"].Place.Sheathed, "1016", "mm"},    // 40 in
		{sets["us-boat"].Place.AtBattery, "1828.8", "mm"}, // 72 in
		{sets["european"].Device.OperatingCurrent, "1.45", ""},
		{sets["european"].Drop.Charge, "0.2", "V"},
		{sets["iso-craft"].Place.Bare, "200", "mm"},
		{sets["iso-craft"].Place.Charging, "1800", "mm"},
		{sets["iso-craft"].Drop.Critical, "3", "%"},
		{sets["us-voluntary-craft"].Drop.Other, "10", "%"},
		{sets["us-rv"].Device.LoadOfRating, "0.8", ""}, // the rating is 125 % of a continuous load
		{sets["us-rv"].Device.BriefRun, "10800", "s"},  // continuous is 3 h or more
		{sets["us-rv"].Place.Bare, "457.2", "mm"},      // 18 in
		{sets["au-nz"].Drop.Other, "5", "%"},
	} {
		assert.True(t, c.got.Value.Equal(number(c.want)), "%s: %s", c.got.Source, c.got.Value)
		assert.Equal(t, c.unit, c.got.Unit, c.got.Source)
	}
	assert.False(t, sets["us-boat"].Drop.Critical.Stated(), "33 CFR 183 has no rule of drop")
	assert.Equal(t, "AWG 16", sets["us-boat"].Size.Single.Size.String())
}

// TestSmallConductorsOfRecreationalVehicles compares with NFPA 70 551.10(E)(1),
// from memory: 6, 8, 15, 20 and 30 A on AWG 18 to 10, and no other set has such a
// list.
func TestSmallConductorsOfRecreationalVehicles(t *testing.T) {
	want := []struct{ size, rating string }{{"AWG 18", "6"}, {"AWG 16", "8"}, {"AWG 14", "15"}, {"AWG 12", "20"}, {"AWG 10", "30"}}
	for _, r := range tables.RuleSets() {
		if r.Key != "us-rv" {
			assert.Empty(t, r.Device.BySize, r.Key)
			continue
		}
		require.Len(t, r.Device.BySize, len(want))
		for i, b := range r.Device.BySize {
			assert.Equal(t, want[i].size, b.Size.String())
			assert.Equal(t, want[i].rating, b.Rating.Value.String())
			assert.Equal(t, "A", b.Rating.Unit)
		}
		assert.Empty(t, r.At(number("24")).Device.BySize, "the list holds at 12 V")
		assert.Len(t, r.At(number("12")).Device.BySize, len(want))
	}
	_, err := tables.SmallConductors("none")
	assert.Len(t, working.Inputs(err), 1)
}

// TestAtSilencesOtherVoltages: limits in volts hold at the voltage that they are
// stated for, limits in percent at any.
func TestAtSilencesOtherVoltages(t *testing.T) {
	r := european()
	for volts, stated := range map[string]bool{"12": true, "12.0": true, "24": false, "0": false} {
		at := r.At(number(volts))
		assert.Equal(t, stated, at.Drop.Charge.Stated(), volts)
		assert.Equal(t, stated, at.Drop.Other.Stated(), volts)
		assert.Equal(t, r.Device, at.Device)
	}
	assert.True(t, r.Drop.Charge.Stated(), "the set itself stays as it was")
	for _, key := range []string{"iso-craft", "us-voluntary-craft", "us-rv", "au-nz"} {
		set, err := tables.RuleSetOf(key)
		require.NoError(t, err)
		assert.Equal(t, set.Drop, set.At(number("24")).Drop, key)
	}
}
