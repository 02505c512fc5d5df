package wire_test

import (
	"fmt"

	"example.org/extralow/tables"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

var d = decimal.RequireFromString

// A 16 mm² feeder with four circuits in one duct at 40 °C.
func ExampleConductor_Ampacity() {
	size, err := tables.ParseSize("16 mm2")
	if err != nil {
		fmt.Println(err)
		return
	}
	european, err := tables.RuleSetOf("european")
	if err != nil {
		fmt.Println(err)
		return
	}
	feeder := wire.Conductor{
		Size: size, Class: tables.Flexible, Method: "B",
		InsulationC: d("90"), AmbientC: decimal.NewNullDecimal(d("40")), Grouped: 4,
	}
	a, err := feeder.Ampacity(european.Ampacity)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(a.Working)
	// Output:
	// I_t = 100 A                           ampacity in the table [BS 7671:2008,
	//                                       appendix 4 table 4E1A, method B, 90
	//                                       °C, 16 mm2]
	// C_a = 0.91                            factor for ambient temperature [BS
	//                                       7671:1992, appendix 4, ambient
	//                                       factors, 90 °C insulation, 40 °C;
	//                                       second hand]
	// C_g = 0.65                            factor for grouping [BS 7671:2008,
	//                                       appendix 4 table 4C1, bunched in air,
	//                                       on a surface, embedded or enclosed, 4
	//                                       circuits]
	// I_c = I_t × C_a × C_g                 ampacity of the cable by itself [BS
	//     = 100 × 0.91 × 0.65               7671:2008]
	//     = 59.15 A
	// T_r = 90 °C                           highest conductor temperature of the
	//                                       insulation [BS 7671:2008]; of the
	//                                       column taken
	// T_a = 40 °C                           ambient temperature (given)
	// T_t = 70 °C                           highest temperature of the terminals
	//                                       [common practice, terminals without a
	//                                       stated rating]
	// I_z = floor(I_c × sqrt((T_t − T_a) ÷ (T_r − T_a)) × 100) ÷ 100
	//     = floor(59.15 × sqrt((70 − 40) ÷ (90 − 40)) × 100) ÷ 100
	//     = 45.81 A                         ampacity as installed [BS 7671:2008,
	//                                       appendix 4, clause 6.1; second hand]
}

// What 18 A lose in 6.5 m of 4 mm² at its working temperature.
func ExampleRun_Drop() {
	run := wire.Run{
		CurrentA: d("18"), LengthM: d("6.5"), MilliohmPerM: d("5.5"), JointsMilliohm: d("1.2"),
	}
	drop, err := run.Drop()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(drop.Working)
	// Output:
	// R_T = 5.5 mΩ/m                        resistance at the conductor's
	//                                       temperature (given)
	// L = 6.5 m                             one-way length (given)
	// R_j = 1.2 mΩ                          joints and contacts in the loop
	//                                       (given)
	// R = 2 × L × R_T + R_j                 resistance of the loop, out and back
	//   = 2 × 6.5 × 5.5 + 1.2               [Ohm's law]
	//   = 72.7 mΩ
	// I = 18 A                              current (given)
	// ΔU = I × R ÷ 1000                     voltage drop [Ohm's law]
	//    = 18 × 72.7 ÷ 1000
	//    = 1.3086 V
}
