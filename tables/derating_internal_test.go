package tables

import (
	"testing"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestSlopeStartsAtItsOwnRow: of several rows the one at the ambient of the slope
// is carried on, wherever it stands. By hand: 0.8 at 40 °C and 0.01 less for each
// K above give 0.75 at 45 °C and nothing from 120 °C on.
func TestSlopeStartsAtItsOwnRow(t *testing.T) {
	num := decimal.RequireFromString
	row := func(ambient, quantity, value string) deratingRow {
		return deratingRow{ambientC: num(ambient), quantity: quantity, figure: working.Figure{Value: num(value)}}
	}
	rows := []deratingRow{row("30", "factor", "0.9"), row("40", "slope", "-0.01"), row("40", "factor", "0.8")}
	for ambient, want := range map[string]string{"45": "0.75", "119": "0.01"} {
		f, err := deratingAt(rows, num(ambient))
		require.NoError(t, err)
		assert.Equal(t, want, f.Value.String())
	}
	_, err := deratingAt(rows, num("120"))
	assert.ErrorIs(t, err, ErrOutside)
}
