package tables_test

import (
	"fmt"

	"example.org/extralow/tables"
)

// SAE 6 stands in no table of resistance: it is judged as 10 mm².
func ExampleResistance() {
	for _, size := range []string{"16 mm2", "AWG 6", "SAE 6"} {
		r, err := tables.Resistance(mustSize(size), tables.Flexible)
		fmt.Println(r.Figure.Value, r.Figure.Unit, "at", r.AtC, "°C;", r.Figure.Source, r.Figure.Note, err)
	}
	// Output:
	// 1.21 mΩ/m at 20 °C; IEC 60228:2004, table 3, class 5, 16 mm2  <nil>
	// 1.6109 mΩ/m at 75 °C; NFPA 70, chapter 9 table 8, AWG 6 printed as 0.491 Ω per 1000 ft <nil>
	// 1.91 mΩ/m at 20 °C; IEC 60228:2004, table 3, class 5, 10 mm2 SAE 6 is not listed: 10 mm2 has no more copper <nil>
}

func ExampleMaterial() {
	f, err := tables.Material("copper", "temperature_coefficient_20c")
	fmt.Println(f.Value, f.Unit, f.Source, err)
	_, err = tables.Material("tin", "density_20c")
	fmt.Println(err)
	// Output:
	// 0.00393 per K IEC 60028, coefficient at constant mass, copper <nil>
	// metal is "tin": want one of copper, aluminium, tin-plated terminal, circular mil
}

// Two documents differ by ten on aluminium; both stay.
func ExampleConstants() {
	for _, f := range must(tables.Constants("aluminium", "zero_resistance_constant")) {
		fmt.Println(f.Value, f.Unit, f.Source)
	}
	// Output:
	// 228.1 K IEC 60889, from the coefficient, aluminium; from memory
	// 238.1 K FAA AC 43.13-1B, 11-66d(4), aluminium
}

func ExampleLeastDensityInterpolated() {
	f, err := tables.LeastDensityInterpolated(number("70"))
	fmt.Println(f.Value, f.Note, err)
	// Output:
	// 1.218 interpolated between 1.19 (at 50) and 1.225 (at 75) <nil>
}

func ExampleFreezingPointInterpolated() {
	f, err := tables.FreezingPointInterpolated(number("1.225"))
	fmt.Println(f.Value, f.Unit, f.Note, err)
	_, err = tables.FreezingPointInterpolated(number("1.29"))
	fmt.Println(err)
	// Output:
	// -39 °F interpolated between -16 (at 1.2) and -62 (at 1.25) <nil>
	// freezing point at density 1.29: outside the table; it has 1 to 1.28
}

// 5 mV are 10 points on the flat of a lithium iron phosphate cell.
func ExampleChargeByVoltageInterpolated() {
	for _, v := range []string{"3.300", "3.305"} {
		f, err := tables.ChargeByVoltageInterpolated("Sunil 2025", "LiFePO4", number(v))
		fmt.Println(f.Value, f.Unit, err)
	}
	f, err := tables.ChargeByVoltageInterpolated("full 1.265", "lead-acid flooded", number("2.06"))
	fmt.Println(f.Value, f.Note, err)
	// Output:
	// 52.3684 % <nil>
	// 62.3684 % <nil>
	// 64.2857 interpolated between 50 (at 12.24) and 75 (at 12.45) <nil>
}
