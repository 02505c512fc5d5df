package charge_test

import (
	"fmt"

	"example.org/extralow/charge"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// fourCells is a lithium bank of 12 V, charged between 0 and 40 °C.
func fourCells() charge.VoltageWindow {
	return charge.VoltageWindow{Chemistry: "LiFePO4", Cells: 4, ColdestC: some("0"), HottestC: some("40")}
}

// leadAcidSetting is a charger as it comes for flooded batteries: it follows the
// temperature by 5 mV/°C a cell and equalises.
func leadAcidSetting() charge.Setting {
	return charge.Setting{
		HeldV: d("14.4"), MilliVPerC: decimal.NewNullDecimal(d("-30")), EqualiseV: decimal.NewNullDecimal(d("15.5")),
	}
}

// verdicts prints each of several checks.
func verdicts(checks []working.Check, err error) {
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range checks {
		verdict(c, nil)
	}
}

// A charger that is still set for lead-acid, on a lithium bank: at 25 °C its
// voltage would do.
func ExampleVoltageWindow_Checks() {
	checks, err := fourCells().Checks(leadAcidSetting())
	verdicts(checks, err)
	fmt.Print(checks[0].Working)
	// Output:
	// C11 Highest charging voltage: fails
	// highest voltage that the source charges at 15.15 V, highest charging voltage of the battery 14.6 V
	// C11 Lowest charging voltage: passes
	// float voltage of the battery, which only keeps it full 13.6 V, lowest voltage that the source charges at 13.95 V
	// C11 Equalising voltage: fails
	// highest voltage that the source charges at 16.25 V, highest charging voltage of the battery 14.6 V
	// U_h = 14.4 V                          voltage that the source is set to hold
	//                                       (given)
	// k_h = -30 mV/°C                       change of the source's voltage with
	//                                       the battery's temperature (given)
	// T_b = 0 °C                            temperature of the battery (given)
	// U_h2 = U_h + k_h × (T_b − 25) ÷ 1000
	//      = 14.4 + (-30) × (0 − 25) ÷ 1000
	//      = 15.15 V                        highest voltage that the source
	//                                       charges at [arithmetic]
	// n_c = 4                               cells in series (given)
	// U_z2 = 3.65 V                         highest charging voltage of a cell
	//                                       [common practice, two trade articles,
	//                                       LiFePO4, limit]
	// U_b2 = n_c × U_z2                     highest charging voltage of the
	//      = 4 × 3.65                       battery [arithmetic]
	//      = 14.6 V
}

// The reverse: a charger set to hold lithium at its float voltage, on a sealed
// lead-acid bank.
func ExampleVoltageWindow_Checks_reverse() {
	sealed := charge.VoltageWindow{ColdestC: some("0"), Chemistry: "lead-acid AGM", Cells: 6, HottestC: some("30")}
	verdicts(sealed.Checks(charge.Setting{HeldV: d("13.6")}))
	// Output:
	// C11 Highest charging voltage: passes
	// highest voltage that the source charges at 13.6 V, highest charging voltage of the battery 14.7 V
	// C11 Lowest charging voltage: fails
	// float voltage of the battery, which only keeps it full 13.8 V, lowest voltage that the source charges at 13.6 V
}

func ExampleVoltageWindow_CheckClosed() {
	v := fourCells()
	v.CutOutV = decimal.NewNullDecimal(d("14.8"))
	for _, s := range []charge.Setting{
		{HeldV: d("14.2"), ToleranceV: decimal.NewNullDecimal(d("0.2"))},
		leadAcidSetting(),
	} {
		verdict(v.CheckClosed(s))
	}
	// Output:
	// C12 Management unit, voltage: passes
	// highest voltage that the source charges at 14.4 V, voltage at which its management unit opens under charge 14.8 V
	// C12 Management unit, voltage: fails
	// highest voltage that the source charges at 16.25 V, voltage at which its management unit opens under charge 14.8 V
}

// Two management units of 60 A each: with one of them gone the other has all of
// the chargers.
func ExampleCombinedSources_CheckClosed() {
	verdicts(charge.CombinedSources{
		Supplies: []charge.Supply{{Name: "converter", CurrentA: d("40")}, {Name: "mains charger", CurrentA: d("30")}},
		LimitsA:  []charge.NamedLimit{{Name: "battery 1", CurrentA: d("60")}, {Name: "battery 2", CurrentA: d("60")}},
	}.CheckClosed())
	// Output:
	// C12 Management unit, current: passes
	// charging current of all sources together 70 A, charging current at which the management units open 120 A
	// C12 Management unit, current, without battery 1: fails
	// charging current of all sources together 70 A, charging current at which the management units open 60 A
	// C12 Management unit, current, without battery 2: fails
	// charging current of all sources together 70 A, charging current at which the management units open 60 A
}

// A mains charger that follows the temperature, in a hard frost.
func ExampleSetting_Highest() {
	v, err := charge.Setting{HeldV: d("28.8"), MilliVPerC: some("-48"), ToleranceV: some("0.3")}.Highest(d("-12"))
	page(v.Working, err)
	// Output:
	// U_h = 28.8 V                          voltage that the source is set to hold
	//                                       (given)
	// k_h = -48 mV/°C                       change of the source's voltage with
	//                                       the battery's temperature (given)
	// T_b = -12 °C                          temperature of the battery (given)
	// U_tol = 0.3 V                         how far the source's voltage may stray
	//                                       (given)
	// U_h2 = U_h + k_h × (T_b − 25) ÷ 1000 + U_tol
	//      = 28.8 + (-48) × ((-12) − 25) ÷ 1000 + 0.3
	//      = 30.876 V                       highest voltage that the source
	//                                       charges at [arithmetic]
}
