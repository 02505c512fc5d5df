package battery_test

import (
	"testing"

	"example.org/extralow/battery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestParkedWithoutSelfDischarge: by hand 10 000 Ah ÷ (1 A × 24 h) = 416.67 d, of
// which whole hundredths count.
func TestParkedWithoutSelfDischarge(t *testing.T) {
	s, err := battery.Parked{Chemistry: "LiFePO4", CapacityAh: d("10000"), SpareAh: d("10000"), DrainA: n("1"), MonthPercent: n("0")}.Days()
	require.NoError(t, err)
	assert.Equal(t, "416.66", s.Days.String())
}

// TestRangesAreSharp: what a doc comment allows is answered to its ends, and what
// lies beyond is refused by name. A power or a time of nought is a forgotten one.
func TestRangesAreSharp(t *testing.T) {
	cranking := func(amps, volts string) error {
		_, err := battery.CrankingRating{Rating: "EN1", RatedA: d(amps), RestedV: d(volts)}.Resistance()
		return err
	}
	backup := func(watts, hours string) error {
		_, err := battery.Backup{PowerW: d(watts), EfficiencyPercent: d("88"), TimeH: d(hours), EndCellV: d("1.75"), Cells: 12,
			TemperatureFactor: d("1"), AgeingFactor: n("1.25"), DesignMargin: n("1.1")}.Size()
		return err
	}
	lead := func(milliohm string) error {
		b := rated()
		for i := range b.Batteries {
			b.Batteries[i].LeadMilliohm = n(milliohm)
		}
		_, err := b.Usable()
		return err
	}
	curve := func(points int) error {
		i := battery.Inverter{RatingW: n("1000"), IdleW: n("0")}
		for k := range points {
			i.Curve = append(i.Curve, battery.EfficiencyPoint{LoadPercent: num(k), EfficiencyPercent: d("90")})
		}
		_, err := i.Draw(d("500"), d("12"))
		return err
	}
	for _, err := range []error{
		cranking("1", "10"), cranking("10000", "15"), backup("100000", "200"), lead("0"), lead("1000"), curve(100),
	} {
		assert.NoError(t, err)
	}
	for field, errs := range map[string][]error{
		"cranking_rating_a": {cranking("0.9", "12.6"), cranking("10000.1", "12.6")},
		"rested_v":          {cranking("680", "9.9"), cranking("680", "15.1")},
		"power_w":           {backup("0", "2"), backup("100000.1", "2")},
		"backup_h":          {backup("600", "0"), backup("600", "200.1")},
		"lead_milliohm":     {lead("-0.1"), lead("1000.1")},
		"curve":             {curve(101)},
	} {
		for _, err := range errs {
			assert.ErrorContains(t, err, field)
		}
	}
}
