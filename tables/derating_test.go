package tables_test

import (
	"testing"

	"example.org/extralow/tables"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestDeratingRowsAndSlopes compares with the rows of the table: gG links carry
// 0.5 % less for each K above 40 °C, a 630 A link by its own row, EEE-INST-002
// halves a cartridge at 25 °C and takes 0.5 % a K from there.
func TestDeratingRowsAndSlopes(t *testing.T) {
	for _, c := range []struct{ family, rating, ambient, want, note string }{
		{"IEC 60269 gG", "100", "40", "1", ""},
		{"IEC 60269 gG", "100", "10", "1", "the next hotter row for 10 °C"},
		{"IEC 60269 gG", "100", "60", "0.9", "1 at 40 °C, -0.005 for each K above"},
		{"IEC 60269 gG", "630", "50", "0.857", ""},
		{"EEE-INST-002 cartridge", "10", "45", "0.4", "0.5 at 25 °C, -0.005 for each K above"},
		{"ISO 8820-3 E", "40", "85", "0.75", ""},
		{"ISO 8820-3 E", "40", "86", "0.625", "the next hotter row for 86 °C"},
	} {
		f, err := tables.DeviceDerating(c.family, number(c.rating), number(c.ambient))
		require.NoError(t, err, c)
		assert.True(t, f.Value.Equal(number(c.want)), "%v: %s", c, f.Value)
		if c.note != "" {
			assert.Contains(t, f.Note, c.note)
		}
	}
	for _, c := range []struct{ family, rating, ambient string }{
		{"IEC 60269 gG", "100", "240"}, // nothing is left
		{"IEC 60269 gG", "630", "51"},  // the row of 630 A has no slope
		{"ISO 8820-3 E", "40", "126"},
	} {
		_, err := tables.DeviceDerating(c.family, number(c.rating), number(c.ambient))
		assert.ErrorIs(t, err, tables.ErrOutside, c)
	}
}

// TestSelfDischarge spans the tables of a chemistry and refuses one that is not
// known.
func TestSelfDischarge(t *testing.T) {
	least, most, err := tables.SelfDischarge("NiCd") // 15 to 20 and 20 % a month
	require.NoError(t, err)
	assert.Equal(t, "15", least.Value.String())
	assert.Equal(t, "20", most.Value.String())
	least, most, err = tables.SelfDischarge("NiMH") // old types 30, others 4 % a month
	require.NoError(t, err)
	assert.Equal(t, "4", least.Value.String())
	assert.Equal(t, "30", most.Value.String())
	_, _, err = tables.SelfDischarge("mercury")
	assert.ErrorContains(t, err, "mercury")
}
