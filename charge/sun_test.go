package charge_test

import (
	"fmt"
	"testing"
	"time"

	"example.org/extralow/charge"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// midMonth is the day of the year of the 15th of each month.
var midMonth = [12]int{15, 46, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349}

// TestAgainstFAOTables holds the equations to FAO-56 tables 2.6 and 2.7 whole:
// 71 latitudes, 12 months. The tables are printed to 0.1; our greatest
// differences, on the 15th of the month, are 0.142 MJ/m² and 0.077 h. They are the
// tables' own constants: with 0.0172 for 2π ÷ 365 and 37.6 for 24 × 60 ÷ π × 0.0820
// package tables finds every cell to its last digit.
func TestAgainstFAOTables(t *testing.T) {
	latitudes := tables.RadiationLatitudes()
	require.Len(t, latitudes, 71)
	var worstMJ, worstH float64
	for _, latitude := range latitudes {
		for month, day := range midMonth {
			got, err := charge.Sky{LatitudeDeg: latitude, Day: day}.Radiation()
			require.NoError(t, err)
			workingtest.Guard(t, got.Working)
			listed, err := tables.MonthRadiation(latitude, month+1)
			require.NoError(t, err)
			off := got.MJPerM2.Sub(listed.Value).Abs()
			assert.True(t, off.LessThan(d("0.15")), "radiation at %s°, month %d: %s, the table has %s", latitude, month+1, got.MJPerM2, listed.Value)
			worstMJ = max(worstMJ, off.InexactFloat64())
			daylight, err := tables.MonthDaylight(latitude, month+1)
			require.NoError(t, err)
			off = got.DaylightH.Sub(daylight.Value).Abs()
			assert.True(t, off.LessThan(d("0.08")), "daylight at %s°, month %d: %s, the table has %s", latitude, month+1, got.DaylightH, daylight.Value)
			worstH = max(worstH, off.InexactFloat64())
		}
	}
	assert.InDelta(t, 0.142, worstMJ, 0.001, "the difference stated above")
	assert.InDelta(t, 0.077, worstH, 0.001, "the difference stated above")
}

// TestAgainstMonthlyMeans holds the other convention to Duffie and Beckman table
// 1.10.1, as far as it was read: it is the mean over all days of the month, to
// its last digit (0.0502 MJ/m²: one cell lies on the edge).
func TestAgainstMonthlyMeans(t *testing.T) {
	rows := 0
	for _, latitude := range []string{"85", "45", "30", "15", "0", "-10", "-45", "-60", "-90"} {
		first := time.Date(2001, time.January, 1, 0, 0, 0, 0, time.UTC)
		for ; first.Year() == 2001; first = first.AddDate(0, 1, 0) {
			listed, err := tables.MeanDayRadiation(d(latitude), int(first.Month()))
			if err != nil {
				assert.ErrorIs(t, err, tables.ErrNotListed)
				continue
			}
			rows++
			var days []decimal.Decimal
			for day := first; day.Month() == first.Month(); day = day.AddDate(0, 0, 1) {
				got, err := charge.Sky{LatitudeDeg: d(latitude), Day: day.YearDay()}.MeanDayRadiation()
				require.NoError(t, err)
				days = append(days, got.MJPerM2)
			}
			mean := decimal.Avg(days[0], days[1:]...)
			assert.InDelta(t, listed.Value.InexactFloat64(), mean.InexactFloat64(), 0.0502, "%s°, %s", latitude, first.Month())
		}
	}
	assert.Greater(t, rows, 100)
}

// TestConventionsAgree bounds how far the two conventions differ where vehicles
// go: the difference that the documentation of MeanDayRadiation states.
func TestConventionsAgree(t *testing.T) {
	for latitude := -66; latitude <= 66; latitude += 6 {
		for day := 1; day <= 365; day += 7 {
			s := charge.Sky{LatitudeDeg: d(fmt.Sprint(latitude)), Day: day}
			a, err := s.Radiation()
			require.NoError(t, err)
			b, err := s.MeanDayRadiation()
			require.NoError(t, err)
			assert.True(t, a.MJPerM2.Sub(b.MJPerM2).Abs().LessThan(d("0.5")), "%d°, day %d: %s and %s", latitude, day, a.MJPerM2, b.MJPerM2)
		}
	}
}

// TestNightAndDay: the two hemispheres mirror each other half a year apart only
// in daylight, N(φ) + N(−φ) = 24 h; at the equator it is 12 h all year.
func TestNightAndDay(t *testing.T) {
	for day := 1; day <= 366; day++ {
		for _, latitude := range []string{"0", "23.5", "51", "68", "90"} {
			north, err := charge.Sky{LatitudeDeg: d(latitude), Day: day}.Radiation()
			require.NoError(t, err)
			south, err := charge.Sky{LatitudeDeg: d(latitude).Neg(), Day: day}.Radiation()
			require.NoError(t, err)
			assert.InDelta(t, 24, north.DaylightH.Add(south.DaylightH).InexactFloat64(), 2e-4)
		}
	}
}

// TestLevelSlope: a slope of 0° gets what the ground gets, in either hemisphere.
func TestLevelSlope(t *testing.T) {
	for _, latitude := range []string{"50", "-35", "0"} {
		s, err := charge.Slope{LatitudeDeg: d(latitude), Day: 105, TiltDeg: d("0"), GroundMJ: d("14.5"), Albedo: d("0.2")}.Monthly()
		require.NoError(t, err)
		workingtest.Guard(t, s.Working)
		assert.Equal(t, "14.5", s.MJPerM2.String())
	}
}

func TestSunRefuses(t *testing.T) {
	_, err := charge.Sky{LatitudeDeg: d("91"), Day: 0}.Radiation()
	assert.ErrorContains(t, err, "latitude_deg is 91: want -90 to 90")
	assert.ErrorContains(t, err, "day_of_year is 0: want 1 to 366")
	_, err = charge.Slope{LatitudeDeg: d("80"), Day: 17, TiltDeg: d("60"), GroundMJ: d("1"), Albedo: d("0.2")}.Monthly()
	assert.ErrorContains(t, err, "day_of_year is 17: want a day on which the sun rises")
	_, err = charge.Slope{LatitudeDeg: d("50"), Day: 105, TiltDeg: d("60"), GroundMJ: d("33"), Albedo: d("0.2")}.Monthly()
	assert.ErrorContains(t, err, "ground_mj_per_m2 is 33: want 0.3 to 0.8")
	// 31.5 MJ/m² above the atmosphere (FAO 56, annex 2, table 2.6), of which 0.3 is 9.45
	_, err = charge.Slope{LatitudeDeg: d("50"), Day: 105, TiltDeg: d("60"), GroundMJ: d("9"), Albedo: d("0.2")}.Monthly()
	assert.ErrorContains(t, err, "ground_mj_per_m2 is 9: want 0.3 to 0.8")
	_, err = charge.Slope{LatitudeDeg: d("50"), Day: 105, TiltDeg: d("60"), GroundMJ: d("10"), Albedo: d("0.2")}.Monthly()
	assert.NoError(t, err)
	night, err := charge.Sky{LatitudeDeg: d("80"), Day: 1}.Radiation()
	require.NoError(t, err)
	_, err = night.FromSunshine(d("0"))
	assert.ErrorContains(t, err, "of a day that has any")
	_, err = charge.Module{OpenV: d("24")}.ColdVoltage(some("-45"), 1)
	assert.ErrorIs(t, err, tables.ErrOutside)
	_, err = charge.Module{PowerW: d("100"), WorkingV: d("12")}.Series(d("80"), d("12.8"))
	assert.ErrorContains(t, err, "behind a series controller")
}
