package charge_test

import (
	"testing"

	"example.org/extralow/charge"
	"example.org/extralow/tables/working/workingtest"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Two modules of 500 Wh each, one string, at 14.4 V: 1000 ÷ 14.4 are 69.4 Ah.
func ExampleArrayDay_Charge() {
	c, err := charge.ArrayDay{EnergyWh: d("500"), InSeries: 2, Strings: 1, ChargingV: d("14.4"), LimitA: d("20")}.Charge()
	page(c.Working, err)
	// Output:
	// E_pv = 500 Wh                         energy of a day from the sun (given)
	// U_bat = 14.4 V                        voltage of the battery while it
	//                                       charges (given)
	// I_max = 20 A                          greatest current of the source (given)
	// n_ser = 2                             modules in series (given)
	// n_par = 1                             strings in parallel (given)
	// Q_pv = floor(min(E_pv × n_ser × n_par, 7.639 × I_max × U_bat) ÷ U_bat
	//       × 100) ÷ 100                    charge of a day from the sun
	//      = floor(min(500 × 2 × 1, 7.639 × 20 × 14.4) ÷ 14.4 × 100) ÷ 100
	//      = 69.44 Ah                       [arithmetic, half a sine of twelve
	//                                       hours]
}

// TestArrayDayHeldDown: half a sine of peak I over twelve hours holds the
// integral of I × sin(π t ÷ 12), that is I × 24 ÷ π: of 10 A 76.39 Ah. A
// controller of 10 A puts in no more, whatever the roof.
func TestArrayDayHeldDown(t *testing.T) {
	a := charge.ArrayDay{EnergyWh: d("900"), InSeries: 2, Strings: 3, ChargingV: d("14.4"), LimitA: d("10")}
	c, err := a.Charge()
	require.NoError(t, err)
	assert.Equal(t, "76.39", c.ChargeAh.String())
	workingtest.Guard(t, c.Working)
	a.LimitA = d("3.33") // 25.437 Ah
	c, err = a.Charge()
	require.NoError(t, err)
	assert.Equal(t, "25.43", c.ChargeAh.String())
	a.Strings, a.ChargingV, a.LimitA = 0, d("0"), d("-1")
	_, err = a.Charge()
	for _, field := range []string{"strings", "charging_v", "limit_a"} {
		assert.ErrorContains(t, err, field)
	}
}
