package battery_test

import (
	"testing"

	"example.org/extralow/battery"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// threeRatings is a battery of three ratings: ampere-hours and hours, slow to fast.
func threeRatings(figures ...string) battery.KineticRatings {
	at := func(n int) battery.HourRating {
		return battery.HourRating{CapacityAh: d(figures[n]), RateH: d(figures[n+1])}
	}
	return battery.KineticRatings{Slow: at(0), Middle: at(2), Fast: at(4)}
}

// TestKineticEnds: both ends of the rates that a fit looks through. Ratings of two
// even wells (c = 0.5) of 100 Ah in all by the law of Manwell and McGowan,
// C(t) = q k c t ÷ (1 − e + c (k t − 1 + e)) with e = exp(−k t), by hand:
//
//	k = 0.001, t = 1000 h: e = 0.367879, 50 ÷ (0.632121 + 0.5 × 0.367879) = 61.26998
//	            t = 100 h: e = 0.904837,  5 ÷ (0.095163 + 0.5 × 0.004837) = 51.23933
//	             t = 10 h: e = 0.990050, 0.5 ÷ (0.009950 + 0.5 × 0.000050) = 50.12490
//	k = 5,       t = 10 h: e = 0,      2500 ÷ (1 + 0.5 × 49)               = 98.03922
//	              t = 2 h: e = 0.000045, 500 ÷ (0.999955 + 0.5 × 9.000045) = 90.90947
//	            t = 0.2 h: e = 0.367879, 50 ÷ (0.632121 + 0.5 × 0.367879)  = 61.26998
//
// Slower or faster than those ends, an end is the nearest.
func TestKineticEnds(t *testing.T) {
	for rate, r := range map[string]battery.KineticRatings{
		"0.001": threeRatings("61.269983678", "1000", "51.239330303", "100", "50.124895574", "10"),
		"5":     threeRatings("98.039215686", "10", "90.909466117", "2", "61.269983678", "0.2"),
	} {
		m, err := r.Fit()
		require.NoError(t, err)
		assert.Equal(t, rate, m.RatePerHour.String())
		assert.InDelta(t, 0.5, m.Share.InexactFloat64(), 0.00001)
		assert.InDelta(t, 100, m.WholeAh.InexactFloat64(), 0.002) // c to 0.00001
	}
	m, err := threeRatings("98.039984320", "10", "90.912769080", "2", "61.273951309", "0.2").Fit() // k = 5.002
	require.NoError(t, err)
	assert.Equal(t, "5", m.RatePerHour.String())
}

// TestKineticPlaces: no figure promises more places than its doc comment.
func TestKineticPlaces(t *testing.T) {
	m, err := wells().Fit()
	require.NoError(t, err)
	full, err := m.At(d("33.33"))
	require.NoError(t, err)
	next, err := m.Step(battery.KineticStep{State: full, CurrentA: d("490"), TimeH: d("0.7")})
	require.NoError(t, err)
	for _, figure := range []decimal.Decimal{m.WholeAh, full.AvailableAh, full.BoundAh, next.DeliveredA, next.AvailableAh, next.BoundAh} {
		assert.GreaterOrEqual(t, figure.Exponent(), int32(-4), figure)
	}
}

// TestKineticRefuses: ratings out of order name the place, and each end of each
// range is allowed and what lies beyond it is not.
func TestKineticRefuses(t *testing.T) {
	_, err := threeRatings("100", "20", "93", "30", "60", "1").Fit()
	assert.ErrorContains(t, err, "slow.")
	_, err = threeRatings("100", "20", "93", "10", "60", "15").Fit()
	assert.ErrorContains(t, err, "middle.")
	level := func(rate, whole string) error {
		_, err := battery.Kinetic{RatePerHour: d(rate), Share: d("0.4"), WholeAh: d(whole)}.At(d("50"))
		return err
	}
	assert.NoError(t, level("10", "100000"))
	assert.NoError(t, level("0.001", "0.1"))
	for _, beyond := range []string{"10.001", "0.0009"} {
		assert.ErrorContains(t, level(beyond, "100"), "flow_per_hour")
	}
	for _, beyond := range []string{"100000.1", "0.09"} {
		assert.ErrorContains(t, level("1", beyond), "whole_ah")
	}
	step := func(ah, bound, amps, hours string) error {
		_, err := kinetic().Step(battery.KineticStep{
			State: battery.KineticState{AvailableAh: d(ah), BoundAh: d(bound)}, CurrentA: d(amps), TimeH: d(hours),
		})
		return err
	}
	assert.NoError(t, step("100000", "100000", "10000", "1000"))
	assert.NoError(t, step("0", "0", "0", "0.001"))
	assert.ErrorContains(t, step("100000.1", "1", "1", "1"), "available_ah")
	assert.ErrorContains(t, step("1", "100000.1", "1", "1"), "bound_ah")
	assert.ErrorContains(t, step("1", "1", "10000.1", "1"), "current_a")
	assert.ErrorContains(t, step("1", "1", "1", "1000.1"), "step_h")
}
