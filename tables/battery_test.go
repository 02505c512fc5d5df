package tables_test

import (
	"fmt"
	"testing"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var num = decimal.RequireFromString

func ExampleBatteryLimits() {
	spans, err := tables.BatteryLimits("LiFePO4", "charge_temperature")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range spans {
		fmt.Printf("%q: %s to %s %s, %s\n", s.Condition, s.Least.Value, s.Greatest.Value, s.Least.Unit, s.Least.Source)
	}
	// Output:
	// "": 0 to 45 °C, common practice, charging and discharging temperatures, LiFePO4
	// "fast charge": 5 to 45 °C, common practice, charging and discharging temperatures, LiFePO4, fast charge
	// "best": 10 to 30 °C, common practice, charging and discharging temperatures, LiFePO4, best
}

func ExampleInternalResistance() {
	low, high, err := tables.InternalResistance("lead-acid flooded", num("12"), num("100"))
	fmt.Println(low.Value, "to", high.Value, low.Unit, low.Source, err)
	_, _, err = tables.InternalResistance("LiFePO4", num("12.8"), num("280"))
	fmt.Println(err)
	// Output:
	// 4 to 8 mΩ battery data sheets, typical values, lead-acid flooded, starter, 12 V, 90 to 100 Ah; from memory <nil>
	// resistance of a LiFePO4 battery of 12.8 V and 280 Ah: not in the table
}

func ExampleColdCapacity() {
	f, err := tables.ColdCapacity("lead-acid gel", num("7"))
	fmt.Println(f.Value, f.Source, "-", f.Note, err)
	f, err = tables.ColdCapacity("LiFePO4", num("0"))
	fmt.Println(f.Value, f.Unit, f.Source, err)
	_, err = tables.ColdCapacity("LiFePO4", num("-30"))
	fmt.Println(err)
	// Output:
	// 1.3 PV sizing worksheet, battery temperature multiplier, lead-acid, 4.4 °C - the next colder row for 7 °C <nil>
	// 85 % battery data sheets, typical values, LiFePO4, 0 °C; from memory <nil>
	// capacity of LiFePO4 at -30 °C: outside the table on the cold side
}

func ExampleCellSizeFactor() {
	f, err := tables.CellSizeFactor(num("63"))
	fmt.Println(f.Value, f.Source, "-", f.Note, err)
	// Output:
	// 1.11 IEEE 485, table 1, 60 °F - the next colder row for 63 °F <nil>
}

func ExampleSizingFigure() {
	f, err := tables.SizingFigure("ageing_factor")
	fmt.Println(f.Value, f.Source, err)
	// Output:
	// 1.25 UFC 3-520-01:2002, appendix E-2, lead-acid <nil>
}

func ExamplePeukertExponents() {
	least, most, err := tables.PeukertExponents("lead-acid AGM")
	fmt.Println(least.Value, "to", most.Value, least.Source, err)
	// Output:
	// 1.05 to 1.15 Peukert's law, ranges, lead-acid AGM; from memory <nil>
}

func ExampleChargeByVoltage() {
	bands, err := tables.ChargeByVoltage("lead-acid AGM", num("2.06"), num("2.08"))
	for _, b := range bands {
		fmt.Println(b.Table+":", b.Least.Value, "to", b.Greatest.Value, b.Greatest.Unit, b.Greatest.Source)
	}
	fmt.Println(err)
	// Output:
	// VRLA typical: 50 to 75 % battery data sheets, typical values, VRLA typical, AGM or gel; from memory
	// <nil>
}

func ExampleChargeByDensity() {
	bands, err := tables.ChargeByDensity("lead-acid flooded", num("1.21"), num("1.21"))
	for _, b := range bands {
		fmt.Println(b.Table+":", b.Least.Value, "to", b.Greatest.Value, b.Greatest.Unit)
	}
	fmt.Println(err)
	// Output:
	// full 1.265: 50 to 75 %
	// TM 5-1185: 25 to 50 %
	// TM 10-6140-200-14: 25 to 50 %
	// <nil>
}

func ExampleDensitySlope() {
	f := tables.DensitySlope()
	fmt.Println(f.Value, f.Unit, f.Source)
	// Output:
	// 0.004 SG per 10 °F TM 5-4210-230-14&P-1, hydrometer correction, 0.004 per 10 F
}

func ExampleFreezingPoint() {
	f, err := tables.FreezingPoint(num("1.22"))
	fmt.Println(f.Value, f.Unit, f.Source, "-", f.Note, err)
	_, err = tables.FreezingPoint(num("1.31"))
	fmt.Println(err)
	// Output:
	// -16 °F OD1002, tropical climates, density 1.2 - the next lower density for 1.22 <nil>
	// freezing point at density 1.31: outside the table; it rises again above 1.30
}

func ExampleCrankingTestOf() {
	t, err := tables.CrankingTestOf("SAE CCA")
	fmt.Println(t.AtC.Value, t.AtC.Unit, t.TimeS.Value, t.TimeS.Unit, t.EndV.Value, t.EndV.Unit, t.EndV.Source, err)
	// Output:
	// -18 °C 30 s 7.2 V SAE J537, cold cranking, SAE CCA <nil>
}

// TestCrankingTestsAreWhole: a rated current says nothing without the cold, the
// time and the voltage of its test.
func TestCrankingTestsAreWhole(t *testing.T) {
	for _, rating := range must(tables.Names("cranking_test")) {
		test := must(tables.CrankingTestOf(rating))
		assert.True(t, test.AtC.Stated() && test.TimeS.Stated() && test.EndV.Stated(), rating)
	}
}

func ExampleSelfDischarge() {
	least, most, err := tables.SelfDischarge("lead-acid flooded")
	fmt.Println(least.Value, "to", most.Value, most.Unit, "a month", most.Source, err)
	// Output:
	// 4 to 6 % a month Encyclopedia of Alternative Energy, self-discharge, lead-acid, room temperature <nil>
}

func ExampleCycleLives() {
	all, err := tables.CycleLives("lead-acid flooded", num("45"))
	for _, f := range all {
		fmt.Println(f.Value, f.Source, "-", f.Note)
	}
	fmt.Println(err)
	// Output:
	// 200 GB/T 19064-2003, cycle life, lead-acid, shallow cycle, 50 % depth; second hand - to 80 % of the capacity
	// 600 GB/T 19064-2003, cycle life, lead-acid, deep cycle, 80 % depth; second hand - to 80 % of the capacity
	// 400 common practice, cycle life by depth, lead-acid, starter and general, 50 % depth; from memory - to 70 % of the capacity
	// <nil>
}

func ExampleGasCurrent() {
	f, err := tables.GasCurrent("lead-acid gel", "boost")
	fmt.Println(f.Value, f.Unit, f.Source, err)
	_, err = tables.GasCurrent("LiFePO4", "boost")
	fmt.Println(err)
	// Output:
	// 8 mA/Ah IEC 62485-2, table 1, lead-acid VRLA, boost <nil>
	// gas current of LiFePO4 on boost: not in the table
}

func ExampleTractionGasCurrent() {
	f, err := tables.TractionGasCurrent("lead-acid flooded", "W taper")
	fmt.Println(f.Value, f.Unit, f.Source, err)
	_, err = tables.TractionGasCurrent("lead-acid flooded", "W")
	fmt.Println(err)
	// Output:
	// 7 A/100Ah IEC 62485-3, gas current, lead-acid flooded, W taper; second hand <nil>
	// charger is "W": want one of IU, limited to 2.4 V per cell; IUI, no voltage limit in last stage; W taper
}

func ExampleGasConstants() {
	all, err := tables.GasConstants("flow_constant")
	for _, f := range all {
		fmt.Println(f.Value, f.Unit, f.Source)
	}
	fmt.Println(err)
	// Output:
	// 0.05 m³/Ah IEC 62485-2, 8.2, flow constant
	// 0.055 m³/Ah IEC 62485-3, a newer reproduction, flow constant; second hand
	// <nil>
}

func ExampleCoolingFactorsOf() {
	f, err := tables.CoolingFactorsOf("in a row, on a wall")
	fmt.Println(f.HeightWidth.Value, f.HeightDepth.Value, f.WidthDepth.Value, f.WidthDepth.Source, err)
	// Output:
	// 1.4 1 1.4 VDE 0660-500, effective cooling area, in a row, on a wall, width x depth <nil>
}

func ExampleHeatTransfer() {
	f, err := tables.HeatTransfer("stainless steel")
	fmt.Println(f.Value, f.Unit, f.Source, err)
	// Output:
	// 3.6 W/(m² K) common practice, third calculation form of the trade, heat transfer, stainless steel <nil>
}

func ExampleAirConstant() {
	f, err := tables.AirConstant("air_density")
	fmt.Println(f.Value, f.Unit, f.Source, err)
	// Output:
	// 1.2 kg/m³ properties of air, density, air density, for design; from memory <nil>
}

func ExampleInstallationRule() {
	f, err := tables.InstallationRule("nec551-vent-area")
	fmt.Println(f.Value, f.Unit, f.Source, err)
	// Output:
	// 1100 mm² NFPA 70, 551.10(D), opening to the outside, at the top and again at the bottom; from memory <nil>
}

func ExampleLoadKinds() {
	fmt.Println(tables.LoadKinds()[0])
	// Output:
	// resistive heater, toaster, kettle
}

func ExampleSurgeMultiple() {
	least, most, err := tables.SurgeMultiple("induction motor, compressor start")
	fmt.Println(least.Value, "to", most.Value, most.Source, err)
	// Output:
	// 3 to 7 common practice, load lists, induction motor, compressor start, surge multiple <nil>
}

func ExamplePowerFactor() {
	least, most, err := tables.PowerFactor("microwave oven")
	fmt.Println(least.Value, "to", most.Value, most.Source, err)
	// Output:
	// 0.9 to 0.95 equipment data sheets, typical values, microwave oven, power factor; from memory <nil>
}

func ExampleLockedRotor() {
	least, middle, most, err := tables.LockedRotor("F")
	fmt.Println(least.Value, middle.Value, most.Value, most.Unit, most.Source, err)
	// Output:
	// 5 5.3 5.59 kVA/hp NFPA 70, 430.7(B), letter F <nil>
}

func ExampleTypicalLoads() {
	all, err := tables.TypicalLoads("fan window")
	for _, l := range all {
		fmt.Println(l.Quantity, l.Least.Value, "to", l.Greatest.Value, l.Greatest.Unit, l.Greatest.Source)
	}
	fmt.Println(err)
	// Output:
	// power 55 to 250 W DOE appliance list, typical wattages, fan window
	// <nil>
}

func ExampleTypicalLoadNames() {
	fmt.Println(len(tables.TypicalLoadNames()) > 50, tables.TypicalLoadNames()[0])
	// Output:
	// true aquarium
}

// Every name that the load and enclosure tables list has an answer.
func TestBatteryTablesAnswer(t *testing.T) {
	for _, kind := range tables.LoadKinds() {
		least, most, err := tables.SurgeMultiple(kind)
		require.NoError(t, err)
		assert.True(t, least.Value.LessThanOrEqual(most.Value), kind)
		least, most, err = tables.PowerFactor(kind)
		require.NoError(t, err)
		assert.True(t, least.Value.LessThanOrEqual(most.Value) && most.Value.LessThanOrEqual(num("1")), kind)
	}
	for _, name := range tables.TypicalLoadNames() {
		all, err := tables.TypicalLoads(name)
		require.NoError(t, err)
		assert.NotEmpty(t, all)
	}
	for _, kind := range []string{"free on all sides", "single, on a wall", "end of a row, free", "end of a row, on a wall", "in a row, free", "in a row, on a wall", "in a row, on a wall, top covered"} {
		f, err := tables.CoolingFactorsOf(kind)
		require.NoError(t, err)
		assert.True(t, f.HeightDepth.Value.IsPositive() && f.WidthDepth.Value.IsPositive(), kind)
	}
}

// The rows of VDE 0660-500 for a box of 2.0 x 0.8 x 0.6 m, worked by hand from
// the printed formulas.
func TestCoolingAreasOfOneBox(t *testing.T) {
	h, w, d := num("2"), num("0.8"), num("0.6")
	for position, area := range map[string]string{
		"free on all sides": "5.712", "single, on a wall": "5.072", "end of a row, free": "5.232", "end of a row, on a wall": "4.592",
		"in a row, free": "4.752", "in a row, on a wall": "4.112", "in a row, on a wall, top covered": "3.776",
	} {
		f, err := tables.CoolingFactorsOf(position)
		require.NoError(t, err)
		got := f.HeightWidth.Value.Mul(h).Mul(w).Add(f.HeightDepth.Value.Mul(h).Mul(d)).Add(f.WidthDepth.Value.Mul(w).Mul(d))
		assert.True(t, got.Equal(num(area)), "%s: %s", position, got)
	}
}

// A colder row never grants more capacity, and a lighter electrolyte never
// freezes later.
func TestColdTablesFall(t *testing.T) {
	for _, chemistry := range []tables.Chemistry{"lead-acid flooded", "LiFePO4", "NMC"} {
		var last decimal.Decimal
		for c := 60; c > -21; c-- {
			f, err := tables.ColdCapacity(chemistry, decimal.NewFromInt(int64(c)))
			if err != nil {
				assert.ErrorIs(t, err, tables.ErrOutside)
				break
			}
			share := f.Value
			if f.Unit == "" {
				share = num("100").Div(f.Value)
			}
			assert.True(t, last.IsZero() || share.LessThanOrEqual(last), "%s at %d °C", chemistry, c)
			last = share
		}
	}
	last := num("40")
	for thousandths := int64(1000); thousandths <= 1300; thousandths += 5 {
		f, err := tables.FreezingPoint(decimal.New(thousandths, -3))
		require.NoError(t, err)
		assert.True(t, f.Value.LessThanOrEqual(last))
		last = f.Value
	}
}

func TestBatteryNamesMatchExactly(t *testing.T) {
	_, err := tables.BatteryLimits("lead acid", "charge_temperature")
	assert.ErrorContains(t, err, "lead-acid AGM")
	_, err = tables.BatteryLimits("NiMH", "depth_of_discharge_design")
	assert.ErrorIs(t, err, tables.ErrNotListed)
	_, err = tables.SizingFigure("colour")
	assert.ErrorIs(t, err, tables.ErrNotListed)
	_, err = tables.HeatTransfer("cardboard")
	assert.ErrorContains(t, err, "painted sheet steel")
	_, err = tables.InstallationRule("cfr33-vent")
	assert.Error(t, err, "a rule without a figure")
	_, err = tables.CellSizeFactor(num("24"))
	assert.ErrorIs(t, err, tables.ErrOutside)
	_, err = tables.CycleLives("NMC", num("101"))
	assert.Len(t, working.Inputs(err), 1, "no battery gives more than all")
	_, _, err = tables.SelfDischarge("tin")
	assert.Error(t, err)
}

func ExampleLeastDensity() {
	f, err := tables.LeastDensity(num("60"))
	fmt.Println(f.Value, f.Source, err)
	fmt.Println(f.Note)
	// Output:
	// 1.19 BCI practice, five-point table, full 1.265, rested <nil>
	// the next lower state of charge for 60 %
}

func TestLeastDensity(t *testing.T) {
	for soc, want := range map[string]string{"100": "1.265", "75": "1.225", "99": "1.225", "25": "1.155", "0": "1.12"} { // the five-point table
		f, err := tables.LeastDensity(num(soc))
		require.NoError(t, err)
		assert.Equal(t, want, f.Value.String(), soc)
	}
	for _, soc := range []string{"-1", "100.1"} {
		_, err := tables.LeastDensity(num(soc))
		assert.Len(t, working.Inputs(err), 1, soc)
	}
}
