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

func ExampleCellVoltages() {
	rows, err := tables.CellVoltages("lead-acid AGM", "absorption")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, v := range rows {
		fmt.Printf("%s to %s V at %s °C [%s]\n", v.Least.Value, v.Greatest.Value, v.ReferenceC, v.Least.Source)
	}
	// Output:
	// 2.38 to 2.45 V at 25 °C [common practice, AGM charging, lead-acid AGM, absorption; from memory]
}

func ExampleCompensations() {
	rows, err := tables.Compensations("lead-acid flooded")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range rows {
		fmt.Printf("%s mV/°C a cell about %s °C, %s\n", c.Slope.Value, c.ReferenceC, c.Condition)
	}
	// Output:
	// -3 mV/°C a cell about 25 °C, float and absorption
	// -5 mV/°C a cell about 25 °C, in Celsius
	// -5.04 mV/°C a cell about 26.7 °C, in Fahrenheit
	// -4.48 mV/°C a cell about 25 °C, gassing voltage
	// -1.67 mV/°C a cell about 20 °C, engine alternator regulator
	// -1.75 mV/°C a cell about 20 °C, car alternator regulator, set 1
	// -1.67 mV/°C a cell about 20 °C, car alternator regulator, set 2
}

func ExampleAcceptPerHour() {
	law, err := tables.AcceptPerHour("lead-acid gel")
	fmt.Println(law.Value, law.Unit, law.Source, err)
	_, err = tables.AcceptPerHour("LiFePO4")
	fmt.Println(err)
	// Output:
	// 1 A/Ah Woodbridge 1935, ampere-hour law, greatest current by missing ampere-hour; second hand <nil>
	// greatest current by missing ampere-hour of LiFePO4: not in the table
}

func ExampleAbsorptionRule() {
	tail, err := tables.AbsorptionRule("LiFePO4", "tail current")
	fmt.Println(tail.Value, tail.Unit, tail.Note, err)
	// Output:
	// 0.05 A/Ah current by capacity; 0.1 is printed too <nil>
}

func ExampleRechargeFactors() {
	rows, err := tables.RechargeFactors("lead-acid flooded")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range rows {
		fmt.Println(r.Factor.Value, r.Factor.Source)
	}
	// Output:
	// 1.4 common practice, tutorials on charging time, lead-acid, tutorials, 40 % loss allowed
	// 1.15 Woodbridge 1935, ampere-hour law, lead-acid, over-charge of 15 %; second hand
	// 1.2 common practice, lead-acid charging, lead-acid flooded; from memory
	// 1.25 common practice, lead-acid charging, lead-acid, by reserve capacity in minutes; from memory
}

func ExampleStandingLoadFactor() {
	f := tables.StandingLoadFactor()
	fmt.Println(f.Value, f.Source)
	// Output:
	// 1.1 IEEE 946, charger sizing, lead-acid, stationary; from memory
}

func ExamplePlateCurrent() {
	f := tables.PlateCurrent()
	fmt.Println(f.Value, f.Unit, f.Source)
	// Output:
	// 1 A per plate TM 5-4210-230-14&P-1, battery charging, lead-acid, slow charge by plates
}

func ExampleCharacteristicMeaning() {
	meaning, err := tables.CharacteristicMeaning("IUoU")
	fmt.Println(meaning, err)
	// Output:
	// bulk, absorption and float <nil>
}

func ExampleCoulombicEfficiencies() {
	rows, err := tables.CoulombicEfficiencies("LiFePO4")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, e := range rows {
		fmt.Println(e.Kind, e.Least.Value, "to", e.Greatest.Value, e.Least.Source)
	}
	// Output:
	// coulombic, overall 0.99 to 0.999 common practice, lithium cells, LiFePO4, coulombic, overall; from memory
}

// No cell is charged higher than any source asks in any stage.
func ExampleGreatestCellVoltage() {
	for _, chemistry := range []tables.Chemistry{"LiFePO4", "lead-acid AGM", "lead-acid flooded"} {
		f, err := tables.GreatestCellVoltage(chemistry)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(chemistry, f.Value, f.Unit)
	}
	// Output:
	// LiFePO4 3.65 V
	// lead-acid AGM 2.45 V
	// lead-acid flooded 2.7 V
}

func ExampleColdChargeRate() {
	for _, celsius := range []string{"-5", "5", "15"} {
		rate, err := tables.ColdChargeRate("LiFePO4", decimal.RequireFromString(celsius))
		fmt.Println(celsius, "°C:", rate.Value, rate.Unit, err)
	}
	// Output:
	// -5 °C: 0  charging rate of LiFePO4 at -5 °C: not in the table
	// 5 °C: 0.2 A/Ah <nil>
	// 15 °C: 0  charging rate of LiFePO4 at 15 °C: not in the table
}

func ExampleChemistries() {
	for _, name := range tables.Chemistries() {
		fmt.Println(name)
	}
	// Output:
	// lead-acid flooded
	// lead-acid AGM
	// lead-acid gel
	// lead-acid VRLA
	// lead-acid
	// LiFePO4
	// NMC
	// Li-ion
	// NiCd
	// NiMH
}

func ExampleRunningVoltageOf() {
	on, err := tables.RunningVoltageOf("fixed regulator", "on", decimal.NewFromInt(24))
	fmt.Println(on.Least.Value, on.Least.Unit, on.Least.Source, err)
	// Output:
	// 26.6 V common practice, two thresholds, fixed regulator; from memory <nil>
}

func ExampleRunningVoltages() {
	for _, v := range must(tables.RunningVoltages(decimal.NewFromInt(12))) {
		if v.Quantity != "voltage" {
			fmt.Println(v.Condition, v.Quantity, v.Least.Value)
		}
	}
	// Output:
	// fixed regulator on 13.3
	// fixed regulator off 12.8
	// second battery coupled on 13
}

func ExampleAlternatorDefinition() {
	speed, err := tables.AlternatorDefinition("speed nL for IL", decimal.NewFromInt(12))
	fmt.Println(speed.Value, speed.Unit, speed.Source, err)
	// Output:
	// 1500 1/min ISO 8854:2012, definitions, speed nL for IL, speed of the alternator, idle; from memory <nil>
}

func ExampleAlternatorOutput() {
	points, err := tables.AlternatorOutput("50 A class, 12 V", "hot")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range points {
		fmt.Println(p.PerMin, "1/min", p.Output.Value, p.Output.Unit)
	}
	// Output:
	// 1300 1/min 16 A
	// 2500 1/min 41 A
	// 5000 1/min 48 A
}

func ExampleConverterEfficiency() {
	s, err := tables.ConverterEfficiency("converter, switching")
	fmt.Println(s.Least.Value, s.Typical.Value, s.Greatest.Value, s.Typical.Source, err)
	// Output:
	// 0.85 0.9 0.95 common practice, typical band, converter, switching; from memory <nil>
}

func ExampleMonthRadiation() {
	f, err := tables.MonthRadiation(decimal.NewFromInt(52), 6)
	fmt.Println(f.Value, f.Unit, f.Source, err)
	// Output:
	// 41.6 MJ/m² FAO-56, annex 2 table 2.6, latitude 52°, month 6 <nil>
}

func ExampleMonthDaylight() {
	f, err := tables.MonthDaylight(decimal.NewFromInt(52), 12)
	fmt.Println(f.Value, f.Unit, f.Source, err)
	// Output:
	// 7.5 h FAO-56, annex 2 table 2.7, latitude 52°, month 12 <nil>
}

func ExampleMeanDayRadiation() {
	f, err := tables.MeanDayRadiation(decimal.NewFromInt(45), 1)
	fmt.Println(f.Value, f.Unit, f.Source, err)
	// Output:
	// 12.2 MJ/m² Duffie and Beckman 2013, table 1.10.1, latitude 45°, month 1; second hand <nil>
}

func ExampleRadiationLatitudes() {
	all := tables.RadiationLatitudes()
	fmt.Println(len(all), "from", all[0], "to", all[len(all)-1])
	// Output:
	// 71 from 70 to -70
}

func ExampleMeanDay() {
	day, err := tables.MeanDay(2)
	fmt.Println(day.Value, day.Source, err)
	// Output:
	// 47 Duffie and Beckman 2013, table 1.6.1, month 2 <nil>
}

func ExampleInsolationOf() {
	place, err := tables.InsolationOf("Edinburgh", "horizontal")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(place.LatitudeDeg, place.Data)
	for _, month := range []int{1, 6, 12} {
		f := place.Months[month-1]
		fmt.Println(month, f.Value, f.Unit)
	}
	// Output:
	// 55.95 NASA POWER 2001 to 2020
	// 1 0.55 kWh/m²
	// 6 4.57 kWh/m²
	// 12 0.4 kWh/m²
}

func ExampleInsolations() {
	fmt.Println(len(tables.Insolations()), "places and surfaces")
	// Output:
	// 44 places and surfaces
}

// Between two whole degrees the colder row holds.
func ExampleOpenCircuitFactor() {
	f, err := tables.OpenCircuitFactor(decimal.RequireFromString("-10.5"))
	fmt.Println(f.Value, f.Source, err)
	// Output:
	// 1.16 NFPA 70, table 690.7(A), from -15 °C; second hand <nil>
}

func ExampleCellTemperature() {
	f, err := tables.CellTemperature("NOCT stand-off adder", "0 to 0.5 in gap", "adder")
	fmt.Println(f.Value, f.Unit, f.Source, err)
	// Output:
	// 18 °C PVPMC modelling guide, NOCT, NOCT stand-off adder, 0 to 0.5 in gap, adder <nil>
}

func ExampleSystemLosses() {
	for _, l := range tables.SystemLosses() {
		fmt.Println(l.Name, l.Percent.Value)
	}
	// Output:
	// soiling 2
	// shading 3
	// snow 0
	// mismatch 2
	// wiring 2
	// connections 0.5
	// light-induced degradation 1.5
	// nameplate rating 1
	// age 0
	// availability 3
}

func ExampleSolarCurrentFactor() {
	f, err := tables.SolarCurrentFactor("greatest circuit current")
	fmt.Println(f.Value, f.Source, err)
	// Output:
	// 1.25 NFPA 70, 690.8(A), greatest circuit current <nil>
}

// TestChemistryNamesOfChargingTables: no row of a charging table hides behind a
// name that no chemistry reaches.
func TestChemistryNamesOfChargingTables(t *testing.T) {
	for _, stage := range []string{"absorption", "float", "boost", "equalise", "limit"} {
		found := false
		for _, chemistry := range tables.Chemistries() {
			rows, err := tables.CellVoltages(chemistry, stage)
			if err != nil {
				assert.ErrorIs(t, err, tables.ErrNotListed)
				continue
			}
			found = true
			for _, v := range rows {
				assert.True(t, v.Least.Value.LessThanOrEqual(v.Greatest.Value), "%s %s", chemistry, stage)
				assert.Equal(t, stage, v.Stage)
			}
		}
		assert.True(t, found, stage)
	}
}

// TestChargingRefusals: unknown names say what there is.
func TestChargingRefusals(t *testing.T) {
	_, err := tables.CellVoltages("alkaline", "float")
	var bad *working.InputError
	require.ErrorAs(t, err, &bad)
	assert.Equal(t, "chemistry", bad.Field)
	_, err = tables.Compensations("NMC")
	assert.ErrorIs(t, err, tables.ErrNotListed)
	_, err = tables.RechargeFactors("lithium")
	assert.ErrorContains(t, err, "LiFePO4")
	_, err = tables.CharacteristicMeaning("IUW")
	assert.ErrorContains(t, err, "IUoU")
	_, err = tables.MonthRadiation(decimal.NewFromInt(51), 6)
	assert.ErrorIs(t, err, tables.ErrNotListed)
	_, err = tables.OpenCircuitFactor(decimal.NewFromInt(-41))
	assert.ErrorIs(t, err, tables.ErrOutside)
	_, err = tables.MeanDay(13)
	assert.ErrorContains(t, err, "1 to 12")
	_, err = tables.CellTemperature("SAPM", "roof", "a")
	assert.ErrorContains(t, err, "insulated back glass/polymer")
	_, err = tables.AlternatorOutput("unknown", "hot")
	assert.ErrorIs(t, err, tables.ErrNotListed)
	_, err = tables.RunningVoltageOf("fixed regulator", "on", decimal.NewFromInt(48))
	assert.ErrorIs(t, err, tables.ErrNotListed)
	_, err = tables.InsolationOf("Atlantis", "horizontal")
	assert.ErrorIs(t, err, tables.ErrNotListed)
	_, err = tables.SolarCurrentFactor("none")
	assert.ErrorIs(t, err, tables.ErrNotListed)
	_, err = tables.ConverterEfficiency("none")
	assert.ErrorContains(t, err, "MPPT controller")
	_, err = tables.AlternatorDefinition("none", decimal.NewFromInt(12))
	assert.ErrorIs(t, err, tables.ErrNotListed)
}

// TestColdRatesAreRead: every row of the tables that names a stretch of
// temperature is understood.
func TestColdRatesAreRead(t *testing.T) {
	for chemistry, want := range map[tables.Chemistry][3]string{ // at -10, 3 and 8 °C
		"lead-acid AGM": {"0.3", "", ""}, "LiFePO4": {"", "0.2", "0.2"}, "NiMH": {"0.1", "0.3", ""}, "NiCd": {"0.1", "0.3", ""},
	} {
		for i, celsius := range []int64{-10, 3, 8} {
			rate, err := tables.ColdChargeRate(chemistry, decimal.NewFromInt(celsius))
			if want[i] == "" {
				assert.ErrorIs(t, err, tables.ErrNotListed, "%s at %d °C", chemistry, celsius)
				continue
			}
			require.NoError(t, err)
			assert.Equal(t, want[i], rate.Value.String(), "%s at %d °C", chemistry, celsius)
		}
	}
}

// TestSystemLossesGiveTheTotal holds the list to the total printed under it.
func TestSystemLossesGiveTheTotal(t *testing.T) {
	left := decimal.NewFromInt(1)
	for _, l := range tables.SystemLosses() {
		left = left.Mul(decimal.NewFromInt(100).Sub(l.Percent.Value).Shift(-2))
	}
	assert.Equal(t, "14.0757", decimal.NewFromInt(1).Sub(left).Shift(2).StringFixed(4))
}

func BenchmarkCellVoltages(b *testing.B) {
	for b.Loop() {
		if _, err := tables.CellVoltages("LiFePO4", "float"); err != nil {
			b.Fatal(err)
		}
	}
}
