package charge_test

import (
	"testing"

	"example.org/extralow/charge"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestCompensationHolds: beyond its limits the charger holds the voltage, and the
// line says with what temperature it works. The figures are those of a car's
// regulator in the tables, -20 to 80 °C.
func TestCompensationHolds(t *testing.T) {
	v := charge.StageVoltage{CellV: d("2.4"), Cells: 6, ReferenceC: d("20"), MilliVPerC: d("-1.67"), LowC: some("-20"), HighC: some("80")}
	for celsius, want := range map[string]string{"-40": "14.8008", "-20": "14.8008", "20": "14.4", "80": "13.7988", "95": "13.7988"} {
		got, err := v.At(d(celsius))
		require.NoError(t, err)
		workingtest.Guard(t, got.Working)
		assert.Equal(t, want, got.VoltageV.String(), celsius)
	}
	v.LowC = some("90")
	_, err := v.At(d("20"))
	assert.ErrorContains(t, err, "compensation_low_c is 90: want at most compensation_high_c")
}

// TestStatedVoltagesWin: what the data sheet states replaces the tables.
func TestStatedVoltagesWin(t *testing.T) {
	c := charge.Characteristic{
		Letters: "IUoU", Chemistry: "LiFePO4", Cells: 4, CapacityAh: d("200"), AbsorptionV: some("3.55"), FloatV: some("3.375"),
		ReferenceC: some("25"), MilliVPerC: some("0"), TailA: some("8"),
	}
	p, err := c.Stages(d("5"))
	require.NoError(t, err)
	workingtest.Guard(t, p.Working)
	require.Len(t, p.Stages, 3)
	assert.Equal(t, "14.2", p.Stages[0].VoltageV.Decimal.String())
	assert.Equal(t, "14.2", p.Stages[1].VoltageV.Decimal.String())
	assert.Equal(t, "8", p.Stages[1].TailA.Decimal.String())
	assert.Equal(t, "13.5", p.Stages[2].VoltageV.Decimal.String())
	c.Chemistry, c.AbsorptionV = "NMC", decimal.NullDecimal{}
	_, err = c.Stages(d("5"))
	assert.ErrorIs(t, err, tables.ErrNotListed)
}

// TestSeriesControllerLoses: behind a series controller the same day gives less,
// by the ratio of the voltages.
func TestSeriesControllerLoses(t *testing.T) {
	y := charge.SolarYield{Module: module(), SunKWhPerM2: d("4"), DayCellC: d("25"), LossesPercent: some("50"), Efficiency: d("1"), Tracking: true}
	tracking, err := y.Day()
	require.NoError(t, err)
	assert.Equal(t, "400", tracking.EnergyWh.String(), "half of 200 W for four hours at full sun")
	whole := y
	whole.LossesPercent = some("0")
	all, err := whole.Day()
	require.NoError(t, err)
	assert.Equal(t, "800", all.EnergyWh.String(), "no loss is a loss that can be stated")
	y.BatteryV, y.Tracking = some("13.6"), false
	series, err := y.Day()
	require.NoError(t, err)
	workingtest.Guard(t, series.Working)
	assert.Equal(t, "266.7", series.EnergyWh.String(), "13.6 of 20.4 V, to four places")
	y.BatteryV = some("26")
	_, err = y.Day()
	assert.ErrorContains(t, err, "charging_v is 26: want at most working_v")
}

// TestSpeedCurveEnds: above the last point the output is the last one's, below
// the first nothing is known.
func TestSpeedCurveEnds(t *testing.T) {
	curve := charge.SpeedCurve{PulleyRatio: d("2"), Points: []charge.SpeedPoint{{PerMin: d("1500"), OutputA: d("50")}, {PerMin: d("6000"), OutputA: d("120")}}}
	for engine, want := range map[string]string{"750": "50", "3000": "120", "4500": "120"} {
		o, err := curve.OutputInterpolated(d(engine))
		require.NoError(t, err)
		workingtest.Guard(t, o.Working)
		assert.Equal(t, want, o.OutputA.String(), engine)
	}
	_, err := curve.OutputInterpolated(d("700"))
	assert.ErrorContains(t, err, "alternator at 1400: want at least the curve's first speed, 1500")
	curve.Points[1].PerMin = d("1500")
	_, err = curve.OutputInterpolated(d("2000"))
	assert.ErrorContains(t, err, "points[1].alternator_per_min is 1500: want above the point before")
}

func TestRefusals(t *testing.T) {
	for want, err := range map[string]error{
		"idle_output_a is unset":                 second(charge.Alternator{RatedA: d("140"), VehicleA: some("45")}.AtIdle()),
		"rated_a is 0":                           second(charge.Alternator{}.OnRoad()),
		"hot_factor is 1.1":                      second(charge.Alternator{RatedA: d("1"), HotFactor: some("1.1")}.CheckRoad(some("1"))),
		"plates is 8: want an odd number":        second(charge.PlateRate(8)),
		"plates is 1":                            second(charge.PlateRate(1)),
		"missing_ah is 70: want at most":         second(charge.Taper{MissingAh: d("60"), AcceptPerHour: d("1"), LimitA: d("5")}.Until(d("70"))),
		"sleep_v is 13: want at most wake_v":     second(charge.Trigger{WakeV: d("12"), SleepV: d("13"), WakeS: d("1"), SleepS: d("1"), InputA: d("1"), InputMilliohm: some("1")}.Drive([]charge.DrivePhase{{TimeS: d("5")}})),
		"phases is 0":                            second(trigger().Drive(nil)),
		"input_v is 0":                           second(charge.Converter{OutputV: d("14"), OutputA: d("1"), Efficiency: d("0.9")}.Input()),
		"power_factor is 0":                      second(charge.MainsCharger{OutputV: d("14"), OutputA: d("1"), MainsV: d("230"), Efficiency: d("0.9")}.Input()),
		"loop_milliohm is 0":                     second(charge.Coupled{VehicleV: d("14"), BankV: d("13")}.Current()),
		"supplies is 0":                          second(charge.CombinedSources{}.Checks()),
		"short_circuit_a is 0":                   second(charge.Module{}.Circuit(1)),
		"tap_h is 25":                            second(charge.CentreTap{TapH: d("25")}.Check()),
		"losses_percent is unset":                second(charge.SolarYield{Module: module(), SunKWhPerM2: d("4"), DayCellC: d("25"), Efficiency: d("1"), Tracking: true}.Day()),
		"losses is 0":                            second(charge.CombinedLosses()),
		"soc_percent is 101":                     second(charge.LeadAcidEfficiency(d("101"), d("1"), d("1"))),
		"ten_hour_a is 0":                        second(charge.LeadAcidSteps(d("1"), d("0"))),
		"available_h is 0":                       second(charge.ChargerFor(d("1"), d("1"), d("0"))),
		"floor_percent is 120":                   second(charge.Ledger{}.Check(some("120"))),
		"guard_c is -99":                         second(lithium().ColdCharge(some("0"), some("-99"))),
		"controller_v is 0":                      second(charge.ColdString{}.CheckController(d("0"))),
		"day_high_c is 5: want at least":         second(southernWinter().FromTemperatures(d("5"), d("6"), false)),
		"height_m is 9000":                       second(southernWinter().ClearSky(d("9000"))),
		"module_efficiency is 2":                 second(noon().CellByHeatLoss(d("15"), d("0"), d("0.9"), d("2"))),
		"still_loss is 0":                        second(noon().ModuleByWind(d("0"), d("0"))),
		"nominal_cell_c is 10":                   second(noon().CellByNOCT(d("10"), "open rack")),
		"source_efficiency is 0: want above 0":   second(charge.Tracking(d("1"), d("12"), d("0"))),
		"bulk_a is 0":                            second(charge.AbsorptionTime("lead-acid AGM", d("1"), d("0"))),
		"within_h is 9000":                       second(charge.Simulation{WithinH: d("9000")}.Run()),
		"a number of absurd size":                second(charge.Taper{MissingAh: decimal.New(1, 1_000_000)}.After(d("1"))),
		"emf is 0: want 2 to 1000":               second(charge.Simulation{}.Run()),
		"efficiency is 0: want 1 to 1000":        second(charge.Simulation{}.Run()),
		"stages is none: want at least one":      second(charge.Simulation{}.Run()),
		"finish_a is unset: want finish_a and":   second(charge.Characteristic{Letters: "IUIa", Chemistry: "lead-acid", Cells: 6, CapacityAh: d("9")}.Stages(d("5"))),
		"irradiance_w_per_m2 is 2000: want 0 to": second(module().Power(d("2000"), d("20"))),
	} {
		assert.ErrorContains(t, err, want)
	}
	_, err := noon().CellByMounting("thatched roof")
	assert.ErrorContains(t, err, `mounting is "thatched roof"`)
	_, err = noon().CellByNOCT(d("45"), "no gap")
	assert.ErrorContains(t, err, `gap is "no gap"`)
}

// second drops an answer and keeps what was wrong with the question.
func second[T any](_ T, err error) error { return err }

// A profile tells what its voltages follow the temperature by; one of current alone
// has no voltage to follow anything.
func TestProfileTellsItsCompensation(t *testing.T) {
	c := charge.Characteristic{Letters: "IUoU", Chemistry: "lead-acid flooded", Cells: 6, CapacityAh: d("220")}
	p, err := c.Stages(d("5"))
	require.NoError(t, err)
	assert.Equal(t, "-3", p.MilliVPerC.Decimal.String(), "mV/°C, of the tables")
	c.MilliVPerC = some("-4.5")
	p, err = c.Stages(d("5"))
	require.NoError(t, err)
	assert.Equal(t, "-4.5", p.MilliVPerC.Decimal.String(), "its own")
	c = charge.Characteristic{Letters: "I", Chemistry: "lead-acid flooded", Cells: 6, CapacityAh: d("220"), FinishA: some("5"), FinishH: some("8")}
	p, err = c.Stages(d("5"))
	require.NoError(t, err)
	assert.False(t, p.MilliVPerC.Valid)
}
