package wire

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
)

// TestFixedRoundsAsWritten wants the digits that a number is written with
// rounded, a five away from nought: also beside the middle of two last places.
func TestFixedRoundsAsWritten(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 100_000 {
		places := int32(r.IntN(10))
		x := (r.Float64() - 0.5) * math.Pow10(r.IntN(9)-3)
		if r.IntN(2) == 0 { // on a middle, or a step of float64 beside it
			x = (math.Floor(x*math.Pow10(int(places))) + 0.5) / math.Pow10(int(places))
			x = math.Nextafter(x, []float64{x, -1e9, 1e9}[r.IntN(3)])
		}
		got, err := fixed(x, places)
		assert.NoError(t, err)
		assert.Equal(t, decimal.NewFromFloat(x).Round(places).String(), got.String(), "%v to %d", x, places)
	}
}

// TestFixedRefuses: what is no number is no answer.
func TestFixedRefuses(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, err := fixed(x, 3)
		assert.ErrorIs(t, err, errNoNumber)
		_, err = calcFixed(nil, "T_c", "1", x, 1, arithmetic)
		assert.ErrorIs(t, err, errNoNumber)
	}
}
