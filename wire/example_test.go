package wire_test

import (
	"fmt"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

var d = decimal.RequireFromString

// must keeps the examples short: a program handles the error.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// european is the rule set of most of these examples.
func european() tables.RuleSet { return must(tables.RuleSetOf("european")) }

// feeder is a 16 mm² feeder with four circuits in one duct at 40 °C.
func feeder() wire.Conductor {
	return wire.Conductor{
		Size: must(tables.ParseSize("16 mm2")), Class: tables.Flexible, PlainCopper: true, Method: "B",
		InsulationC: d("90"), AmbientC: decimal.NewNullDecimal(d("40")), Grouped: 4,
	}
}

// printed shows the working, or what went wrong.
func printed(w working.Working, err error) {
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(w)
}

// A 16 mm² feeder with four circuits in one duct at 40 °C.
func ExampleConductor_Ampacity() {
	a, err := feeder().Ampacity(european().Ampacity)
	printed(a.Working, err)
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
	//                                       [BS 7671:2008, 512.1.2; 523.1 note b,
	//                                       fixed wiring, unless the maker
	//                                       confirms more; second hand]
	// I_tt = 76 A                           ampacity in the table that stands at
	//                                       the terminals [BS 7671:2008, appendix
	//                                       4 table 4D1A, method B, 70 °C, 16 mm2]
	// C_at = 0.87                           factor for ambient temperature in that
	//                                       table [BS 7671:1992, appendix 4,
	//                                       ambient factors, 70 °C insulation, 40
	//                                       °C; second hand]
	// I_zt = I_tt × C_at × C_g              ampacity by the terminals [BS
	//      = 76 × 0.87 × 0.65               7671:2008, note to the 90 C tables of
	//      = 42.978 A                       appendix 4; second hand]
	// I_z = min(I_c, I_zt)                  ampacity as installed [arithmetic]
	//     = min(59.15, 42.978)
	//     = 42.978 A
}

// How hot the feeder is at 38 A.
func ExampleAmpacity_Temperature() {
	a := must(feeder().Ampacity(european().Ampacity))
	t, err := a.Temperature(d("38"))
	fmt.Println(t.ConductorC, "°C", err)
	// Output:
	// 60.6 °C <nil>
}

// The feeder's resistance at that temperature.
func ExampleConductor_Resistance() {
	r, err := feeder().Resistance(d("60.6"))
	printed(r.Working, err)
	// Output:
	// R_ref = 1.21 mΩ/m                     resistance in the table [IEC
	//                                       60228:2004, table 3, class 5, 16 mm2]
	// T_ref = 20 °C                         temperature at which the table gives
	//                                       it [IEC 60228:2004]
	// T_c = 60.6 °C                         conductor temperature (given)
	// T_0 = 234.5 °C                        temperature of zero resistance, as a
	//                                       positive number [IEC 60028, from the
	//                                       coefficient, copper]
	// R_T = R_ref × (T_0 + T_c) ÷ (T_0 + T_ref)
	//     = 1.21 × (234.5 + 60.6) ÷ (234.5 + 20)
	//     = 1.403 mΩ/m                      resistance at the conductor's
	//                                       temperature [FAA AC 43.13-1B,
	//                                       11-66d(4)]
}

// lampCable is what the README asks: 4 mm² of unknown plating with three circuits
// together.
func lampCable() wire.Cable {
	return wire.Cable{
		Conductor: wire.Conductor{
			Size: must(tables.ParseSize("4 mm2")), Class: tables.Flexible, Method: "B",
			InsulationC: d("90"), Grouped: 3,
		},
		CurrentA: d("18"), LengthM: d("6.5"), JointsMilliohm: d("1.2"),
	}
}

// What a cable loses at the temperature that its current gives it, in one call.
func ExampleCable_Drop() {
	drop, err := lampCable().Drop(european().Ampacity)
	fmt.Println(drop.DropV, "V at", drop.ConductorC.Decimal, "°C;", drop.Working.Confidence(), err)
	printed(drop.Working, nil)
	// Output:
	// 1.36476 V at 52.5 °C; second hand <nil>
	// I_t = 42 A                            ampacity in the table [BS 7671:2008,
	//                                       appendix 4 table 4E1A, method B, 90
	//                                       °C, 4 mm2]
	// C_g = 0.7                             factor for grouping [BS 7671:2008,
	//                                       appendix 4 table 4C1, bunched in air,
	//                                       on a surface, embedded or enclosed, 3
	//                                       circuits]
	// I_c = I_t × C_g                       ampacity of the cable by itself [BS
	//     = 42 × 0.7                        7671:2008]
	//     = 29.4 A
	// T_r = 90 °C                           highest conductor temperature of the
	//                                       insulation [BS 7671:2008]; of the
	//                                       column taken
	// T_a = 30 °C                           ambient temperature [BS 7671:2008];
	//                                       not stated: that of the table
	// T_t = 70 °C                           highest temperature of the terminals
	//                                       [BS 7671:2008, 512.1.2; 523.1 note b,
	//                                       fixed wiring, unless the maker
	//                                       confirms more; second hand]
	// I_tt = 32 A                           ampacity in the table that stands at
	//                                       the terminals [BS 7671:2008, appendix
	//                                       4 table 4D1A, method B, 70 °C, 4 mm2]
	// I_zt = I_tt × C_g                     ampacity by the terminals [BS
	//      = 32 × 0.7                       7671:2008, note to the 90 C tables of
	//      = 22.4 A                         appendix 4; second hand]
	// I_z = min(I_c, I_zt)                  ampacity as installed [arithmetic]
	//     = min(29.4, 22.4)
	//     = 22.4 A
	// I = 18 A                              current (given)
	// T_c = T_a + (T_r − T_a) × I × I ÷ (I_c × I_c)
	//     = 30 + (90 − 30) × 18 × 18 ÷ (29.4 × 29.4)
	//     = 52.5 °C                         conductor temperature [BS 7671:2008,
	//                                       appendix 4, clause 6.1; second hand]
	// R_ref = 5.09 mΩ/m                     resistance in the table [IEC
	//                                       60228:2004, table 3, class 5, 4 mm2]
	// T_ref = 20 °C                         temperature at which the table gives
	//                                       it [IEC 60228:2004]
	// T_0 = 234.5 °C                        temperature of zero resistance, as a
	//                                       positive number [IEC 60028, from the
	//                                       coefficient, copper]
	// R_T = R_ref × (T_0 + T_c) ÷ (T_0 + T_ref)
	//     = 5.09 × (234.5 + 52.5) ÷ (234.5 + 20)
	//     = 5.74 mΩ/m                       resistance at the conductor's
	//                                       temperature [FAA AC 43.13-1B,
	//                                       11-66d(4)]
	// L = 6.5 m                             one-way length (given)
	// R_j = 1.2 mΩ                          joints and contacts in the loop
	//                                       (given)
	// R = 2 × L × R_T + R_j                 resistance of the loop, out and back
	//   = 2 × 6.5 × 5.74 + 1.2              [Ohm's law]
	//   = 75.82 mΩ
	// ΔU = I × R ÷ 1000                     voltage drop [Ohm's law]
	//    = 18 × 75.82 ÷ 1000
	//    ≈ 1.3648 V
}

// The same cable in a short peak of 30 A, no warmer for it.
func ExampleCable_Loop() {
	loop, err := lampCable().Loop(european().Ampacity)
	fmt.Println(loop.LoopMilliohm, "mΩ", err)
	peak, err := loop.Drop(d("30"))
	fmt.Println(peak.DropV, "V", err)
	// Output:
	// 75.82 mΩ <nil>
	// 2.2746 V <nil>
}

// Two such cables side by side, each counted in the group.
func ExampleCable_Ampacity() {
	cable := lampCable()
	cable.Cables = 2
	a, err := cable.Ampacity(european().Ampacity)
	fmt.Println(a.AmpacityA, "A", err)
	// Output:
	// 44.8 A <nil>
}

// The resistance of a loop, before anybody knows the current.
func ExampleRun_Loop() {
	loop, err := wire.Run{LengthM: d("6.5"), MilliohmPerM: d("5.5"), JointsMilliohm: d("1.2")}.Loop()
	fmt.Println(loop.LoopMilliohm, "mΩ", err)
	// Output:
	// 72.7 mΩ <nil>
}

func ExampleLoop_Drop() {
	loop := must(wire.Run{LengthM: d("6.5"), MilliohmPerM: d("5.5"), JointsMilliohm: d("1.2")}.Loop())
	drop, err := loop.Drop(d("18"))
	fmt.Println(drop.DropV, "V", err)
	// Output:
	// 1.3086 V <nil>
}

func ExampleRoute_Loop() {
	loop, err := route().Loop(european().Ampacity)
	fmt.Println(loop.LoopMilliohm, "mΩ", err)
	// Output:
	// 16.5473 mΩ <nil>
}

// What 18 A lose in 6.5 m of 4 mm² at its working temperature.
func ExampleRun_Drop() {
	run := wire.Run{
		CurrentA: d("18"), LengthM: d("6.5"), MilliohmPerM: d("5.5"), JointsMilliohm: d("1.2"),
	}
	drop, err := run.Drop()
	printed(drop.Working, err)
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

// A tail lamp that returns through the frame, two cables side by side.
func ExampleRun_Drop_chassis() {
	run := wire.Run{
		CurrentA: d("8"), LengthM: d("7"), MilliohmPerM: d("8.2"), JointsMilliohm: d("3"),
		Cables: 2, ReturnMilliohm: decimal.NewNullDecimal(d("2.5")),
	}
	drop, err := run.Drop()
	printed(drop.Working, err)
	// Output:
	// R_T = 8.2 mΩ/m                        resistance at the conductor's
	//                                       temperature (given)
	// L = 7 m                               one-way length (given)
	// R_j = 3 mΩ                            joints and contacts in the loop
	//                                       (given)
	// R_rt = 2.5 mΩ                         return path in place of a cable
	//                                       (given)
	// n_cb = 2                              cables in parallel (given)
	// R = L × R_T ÷ n_cb + R_rt + R_j       resistance of the loop, out and back
	//   = 7 × 8.2 ÷ 2 + 2.5 + 3             [Ohm's law]
	//   = 34.2 mΩ
	// I = 8 A                               current (given)
	// ΔU = I × R ÷ 1000                     voltage drop [Ohm's law]
	//    = 8 × 34.2 ÷ 1000
	//    = 0.2736 V
}

func ExampleDrop_VoltageLeft() {
	drop := must(wire.Run{CurrentA: d("18"), LengthM: d("6.5"), MilliohmPerM: d("5.5")}.Drop())
	left, err := drop.VoltageLeft(d("12.4"))
	fmt.Println(left.LeftV, "V left,", left.DropPercent, "% lost", err)
	// Output:
	// 11.113 V left, 10.379 % lost <nil>
}

func ExampleDrop_Loss() {
	drop := must(wire.Run{CurrentA: d("180"), LengthM: d("1.2"), MilliohmPerM: d("0.32")}.Drop())
	loss, err := drop.Loss()
	fmt.Println(loss.LossW, "W", err)
	// Output:
	// 24.8832 W <nil>
}

// The drop against what the rule set allows at 12 V.
func ExampleDrop_Check() {
	drop := must(wire.Run{CurrentA: d("18"), LengthM: d("6.5"), MilliohmPerM: d("5.5")}.Drop())
	check, err := drop.Check(european().At(d("12")).Drop.Other, d("12"))
	fmt.Println(check.ID, check.Title, check.Verdict(), "by", check.Margin(), check.Unit, err)
	// Output:
	// W02 Voltage drop fails by -0.487 V <nil>
}

// How far 18 A reach on that cable within 0.8 V.
func ExampleRun_GreatestLength() {
	run := wire.Run{CurrentA: d("18"), MilliohmPerM: d("5.5"), JointsMilliohm: d("1.2")}
	l, err := run.GreatestLength(d("0.8"))
	printed(l.Working, err)
	// Output:
	// ΔU_max = 0.8 V                        greatest voltage drop allowed (given)
	// R_T = 5.5 mΩ/m                        resistance at the conductor's
	//                                       temperature (given)
	// R_j = 1.2 mΩ                          joints and contacts in the loop
	//                                       (given)
	// I = 18 A                              current (given)
	// L_max = floor(((ΔU_max × 1000 − I × R_j) ÷ (I × 2 × R_T)) × 100) ÷ 100
	//       = floor(((0.8 × 1000 − 18 × 1.2) ÷ (18 × 2 × 5.5)) × 100) ÷ 100
	//       = 3.93 m                        longest one-way length [Ohm's law]
}

// The drop by the set's own formula; the hot drop is greater.
func ExampleCodeDrop_Drop() {
	code := wire.CodeDrop{CurrentA: d("18"), LengthM: d("6.5"), AreaMM2: d("4"), Constant: european().Drop.Constant}
	drop, err := code.Drop()
	printed(drop.Working, err)
	// Output:
	// L = 6.5 m                             one-way length (given)
	// S = 4 mm²                             conductor cross-section (given)
	// K_d = 0.01989 Ω mm²/m                 drop constant of the code [EN 1648-2,
	//                                       cable calculation, copper; second
	//                                       hand]
	// R = 2 × L × K_d × 1000 ÷ S            resistance of the loop, out and back
	//   = 2 × 6.5 × 0.01989 × 1000 ÷ 4      [EN 1648-2, cable calculation, copper;
	//   ≈ 64.643 mΩ                         second hand]
	// I = 18 A                              current (given)
	// ΔU = I × R ÷ 1000                     voltage drop [EN 1648-2, cable
	//    = 18 × 64.643 ÷ 1000               calculation, copper; second hand]
	//    ≈ 1.1636 V
}

func ExampleCodeDrop_LeastArea() {
	craft := must(tables.RuleSetOf("us-voluntary-craft"))
	code := wire.CodeDrop{CurrentA: d("10"), LengthM: d("3.2004"), Constant: craft.Drop.Constant}
	area, err := code.LeastArea(d("0.36"))
	printed(area.Working, err)
	// Output:
	// L = 3.2004 m                          one-way length (given)
	// I = 10 A                              current (given)
	// ΔU_max = 0.36 V                       greatest voltage drop allowed (given)
	// K_c = 10.75 Ω cmil/ft                 drop constant of the code [ABYC E-11,
	//                                       drop formula CM = K I L / E, copper]
	// A_c = ceil(2 × L × K_c × I ÷ (0.3048 × ΔU_max))
	//     = ceil(2 × 3.2004 × 10.75 × 10 ÷ (0.3048 × 0.36))
	//     = 6271 cmil                       area in circular mils [ABYC E-11, drop
	//                                       formula CM = K I L / E, copper]
	// S_min = A_c × 0.00050670748           smallest cross-section allowed
	//       = 6271 × 0.00050670748          [arithmetic]
	//       ≈ 3.1776 mm²
}

func ExampleLeastArea_LeastSize() {
	craft := must(tables.RuleSetOf("us-voluntary-craft"))
	code := wire.CodeDrop{CurrentA: d("10"), LengthM: d("3.2004"), Constant: craft.Drop.Constant}
	choice, err := must(code.LeastArea(d("0.36"))).LeastSize(tables.AWG)
	fmt.Println(choice.Size, choice.Found, err)
	// Output:
	// AWG 12 true <nil>
}

func ExampleCodeDrop_GreatestCurrent() {
	craft := must(tables.RuleSetOf("iso-craft"))
	code := wire.CodeDrop{LengthM: d("5"), AreaMM2: d("10"), Constant: craft.Drop.Constant}
	i, err := code.GreatestCurrent(d("0.36"))
	fmt.Println(i.CurrentA, "A", err)
	// Output:
	// 21.95 A <nil>
}

// fridge is a circuit whose size is wanted.
func fridge() wire.Sizing {
	lay := feeder()
	lay.Size = tables.Size{}
	set := european().At(d("12"))
	return wire.Sizing{
		Lay: lay, System: tables.Metric, CurrentA: d("9"), SurgeA: decimal.NewNullDecimal(d("25")),
		LengthM: d("6"), JointsMilliohm: d("2"), SystemV: d("12"),
		Ampacity: set.Ampacity, Drop: set.Drop.Other, Least: set.Size.Single,
	}
}

// The smallest cable for a refrigerator that starts with 25 A.
func ExampleSizing_LeastSize() {
	choice, err := fridge().LeastSize()
	fmt.Println(choice.Size, choice.Found, choice.Governs)
	printed(choice.Working, err)
	// Output:
	// 10 mm2 true [voltage drop in the surge]
	// I_t = 75 A                            ampacity in the table [BS 7671:2008,
	//                                       appendix 4 table 4E1A, method B, 90
	//                                       °C, 10 mm2]
	// C_a = 0.91                            factor for ambient temperature [BS
	//                                       7671:1992, appendix 4, ambient
	//                                       factors, 90 °C insulation, 40 °C;
	//                                       second hand]
	// C_g = 0.65                            factor for grouping [BS 7671:2008,
	//                                       appendix 4 table 4C1, bunched in air,
	//                                       on a surface, embedded or enclosed, 4
	//                                       circuits]
	// I_c = I_t × C_a × C_g                 ampacity of the cable by itself [BS
	//     = 75 × 0.91 × 0.65                7671:2008]
	//     ≈ 44.363 A
	// T_r = 90 °C                           highest conductor temperature of the
	//                                       insulation [BS 7671:2008]; of the
	//                                       column taken
	// T_a = 40 °C                           ambient temperature (given)
	// T_t = 70 °C                           highest temperature of the terminals
	//                                       [BS 7671:2008, 512.1.2; 523.1 note b,
	//                                       fixed wiring, unless the maker
	//                                       confirms more; second hand]
	// I_tt = 57 A                           ampacity in the table that stands at
	//                                       the terminals [BS 7671:2008, appendix
	//                                       4 table 4D1A, method B, 70 °C, 10 mm2]
	// C_at = 0.87                           factor for ambient temperature in that
	//                                       table [BS 7671:1992, appendix 4,
	//                                       ambient factors, 70 °C insulation, 40
	//                                       °C; second hand]
	// I_zt = I_tt × C_at × C_g              ampacity by the terminals [BS
	//      = 57 × 0.87 × 0.65               7671:2008, note to the 90 C tables of
	//      ≈ 32.234 A                       appendix 4; second hand]
	// I_z = min(I_c, I_zt)                  ampacity as installed [arithmetic]
	//     = min(44.363, 32.234)
	//     ≈ 32.234 A
	// I = 9 A                               current (given)
	// T_c = T_a + (T_r − T_a) × I × I ÷ (I_c × I_c)
	//     = 40 + (90 − 40) × 9 × 9 ÷ (44.363 × 44.363)
	//     = 42.1 °C                         conductor temperature [BS 7671:2008,
	//                                       appendix 4, clause 6.1; second hand]
	// R_ref = 1.91 mΩ/m                     resistance in the table [IEC
	//                                       60228:2004, table 3, class 5, 10 mm2]
	// T_ref = 20 °C                         temperature at which the table gives
	//                                       it [IEC 60228:2004]
	// T_0 = 234.5 °C                        temperature of zero resistance, as a
	//                                       positive number [IEC 60028, from the
	//                                       coefficient, copper]
	// R_T = R_ref × (T_0 + T_c) ÷ (T_0 + T_ref)
	//     = 1.91 × (234.5 + 42.1) ÷ (234.5 + 20)
	//     = 2.0759 mΩ/m                     resistance at the conductor's
	//                                       temperature [FAA AC 43.13-1B,
	//                                       11-66d(4)]
	// L = 6 m                               one-way length (given)
	// R_j = 2 mΩ                            joints and contacts in the loop
	//                                       (given)
	// R = 2 × L × R_T + R_j                 resistance of the loop, out and back
	//   = 2 × 6 × 2.0759 + 2                [Ohm's law]
	//   ≈ 26.911 mΩ
	// ΔU = I × R ÷ 1000                     voltage drop [Ohm's law]
	//    = 9 × 26.911 ÷ 1000
	//    ≈ 0.2422 V
	// ΔU_max = 0.8 V                        greatest voltage drop allowed [EN
	//                                       1648-2, voltage drop, other lines;
	//                                       second hand]
	// I_sg = 25 A                           short surge current (given)
	// ΔU_sg = I_sg × R ÷ 1000               voltage drop in the surge [Ohm's law]
	//       = 25 × 26.911 ÷ 1000
	//       = 0.67277 V
	// S = 10 mm²                            conductor cross-section [IEC
	//   so that I ≤ I_z                     60228:2004, table 3, class 5, 10 mm2]
	//   that is 9 ≤ 32.234
	// S = 10 mm²                            conductor cross-section [IEC
	//   so that ΔU ≤ ΔU_max                 60228:2004, table 3, class 5, 10 mm2]
	//   that is 0.2422 ≤ 0.8
	// S = 10 mm²                            conductor cross-section [IEC
	//   so that ΔU_sg ≤ ΔU_max              60228:2004, table 3, class 5, 10 mm2];
	//   that is 0.67277 ≤ 0.8               10 mm2; 6 mm2 fails by voltage drop in
	//                                       the surge
}

// How far the same circuit reaches on 6 mm².
func ExampleSizing_GreatestLength() {
	s := fridge()
	s.Lay.Size = must(tables.ParseSize("6 mm2"))
	l, err := s.GreatestLength()
	fmt.Println(l.LengthM, "m", err)
	// Output:
	// 4.15 m <nil>
}

// What 6 m of 6 mm² carry within ampacity and drop.
func ExampleSizing_GreatestCurrent() {
	s := fridge()
	s.Lay.Size = must(tables.ParseSize("6 mm2"))
	i, err := s.GreatestCurrent()
	fmt.Println(i.CurrentA, "A", err)
	// Output:
	// 17.04 A <nil>
}

// route is a cable that passes an engine space and a duct.
func route() wire.Route {
	hot, cool := feeder(), feeder()
	hot.AmbientC, hot.Grouped = decimal.NewNullDecimal(d("60")), 1
	return wire.Route{
		Sections: []wire.Section{{Conductor: hot, LengthM: d("1.5")}, {Conductor: cool, LengthM: d("4")}},
		CurrentA: d("38"), JointsMilliohm: d("1"),
	}
}

func ExampleRoute_Ampacity() {
	a, err := route().Ampacity(european().Ampacity)
	fmt.Println(a.AmpacityA, "A, by section", a.Weakest+1, err)
	// Output:
	// 38 A, by section 1 <nil>
}

func ExampleRoute_Drop() {
	drop, err := route().Drop(european().Ampacity)
	fmt.Println(drop.LoopMilliohm, "mΩ,", drop.DropV, "V", err)
	// Output:
	// 16.5473 mΩ, 0.6287974 V <nil>
}

// Two such cables side by side.
func ExampleAmpacity_InParallel() {
	both, err := must(feeder().Ampacity(european().Ampacity)).InParallel(2)
	fmt.Println(both.AmpacityA, "A", err)
	// Output:
	// 85.956 A <nil>
}

func ExampleAmpacity_Check() {
	a := must(feeder().Ampacity(european().Ampacity))
	check, err := a.Check(d("50"))
	fmt.Println(check.ID, check.Title, check.Verdict(), "by", check.Margin(), check.Unit, err)
	// Output:
	// W01 Ampacity fails by -7.022 A <nil>
}

func ExampleCheckLeastSize() {
	craft := must(tables.RuleSetOf("iso-craft"))
	check, err := wire.CheckLeastSize(craft.Size.Single, must(tables.ParseSize("0.75 mm2")))
	fmt.Println(check.ID, check.Title, check.Verdict(), "by", check.Margin(), check.Unit, err)
	// Output:
	// W03 Smallest size fails by -0.25 mm² <nil>
}

func ExampleKnownResistance_Resistance() {
	r, err := wire.KnownResistance{Metal: "aluminium", MilliohmPerM: d("1.2"), KnownC: some("20"), ConductorC: some("70")}.Resistance()
	printed(r.Working, err)
	// Output:
	// R_1 = 1.2 mΩ/m                        resistance at the known temperature
	//                                       (given)
	// T_1 = 20 °C                           temperature at which it is known
	//                                       (given)
	// T_c = 70 °C                           conductor temperature (given)
	// T_0 = 228.1 °C                        temperature of zero resistance, as a
	//                                       positive number [IEC 60889, from the
	//                                       coefficient, aluminium; from memory]
	// R_T = R_1 × (T_0 + T_c) ÷ (T_0 + T_1)
	//     = 1.2 × (228.1 + 70) ÷ (228.1 + 20)
	//     = 1.4418 mΩ/m                     resistance at the conductor's
	//                                       temperature [FAA AC 43.13-1B,
	//                                       11-66d(4)]
}

func ExampleSolidConductor_Resistance() {
	r, err := wire.SolidConductor{Metal: "copper", AreaMM2: d("60"), ConductorC: some("50")}.Resistance()
	printed(r.Working, err)
	// Output:
	// ρ_20 = 0.017241 Ω mm²/m               resistivity at 20 °C [NBS Handbook
	//                                       100, international annealed copper
	//                                       standard, copper; second hand]
	// S = 60 mm²                            conductor cross-section (given)
	// R_20 = ρ_20 × 1000 ÷ S                resistance at 20 °C [Ohm's law]
	//      = 0.017241 × 1000 ÷ 60
	//      = 0.28735 mΩ/m
	// T_ref = 20 °C                         temperature at which the table gives
	//                                       it (given)
	// T_c = 50 °C                           conductor temperature (given)
	// T_0 = 234.5 °C                        temperature of zero resistance, as a
	//                                       positive number [IEC 60028, from the
	//                                       coefficient, copper]
	// R_T = R_20 × (T_0 + T_c) ÷ (T_0 + T_ref)
	//     = 0.28735 × (234.5 + 50) ÷ (234.5 + 20)
	//     = 0.3212 mΩ/m                     resistance at the conductor's
	//                                       temperature [FAA AC 43.13-1B,
	//                                       11-66d(4)]
}

func ExampleAWG() {
	g, err := wire.AWG(must(tables.ParseSize("AWG 6")))
	printed(g.Working, err)
	// Output:
	// n_g = 6                               number of the gauge: 4/0 is −3 (given)
	// d_w = 0.127 × 92 ^ ((36 − n_g) ÷ 39)
	//     = 0.127 × 92 ^ ((36 − 6) ÷ 39)    diameter of the wire [ASTM B258,
	//     ≈ 4.1154 mm                       diameter series]
	// A_c = 25 × 92 ^ ((36 − n_g) ÷ 19.5)   area in circular mils [ASTM B258,
	//     = 25 × 92 ^ ((36 − 6) ÷ 19.5)     diameter series]
	//     ≈ 26251 cmil
	// S = pi ÷ 4 × 0.127 × 0.127 × 92 ^ ((36 − n_g) ÷ 19.5)
	//   = pi ÷ 4 × 0.127 × 0.127 × 92 ^ ((36 − 6) ÷ 19.5)
	//   ≈ 13.302 mm²                        conductor cross-section [ASTM B258,
	//                                       diameter series]
}

func ExampleStrands_Geometry() {
	g, err := wire.Strands{Wires: 126, DiameterMM: d("0.4")}.Geometry()
	printed(g.Working, err)
	// Output:
	// n_w = 126                             number of wires (given)
	// d_w = 0.4 mm                          diameter of the wire (given)
	// A_c = n_w × d_w × d_w ÷ (0.0254 × 0.0254)
	//     = 126 × 0.4 × 0.4 ÷ (0.0254 × 0.0254)
	//     ≈ 31248 cmil                      area in circular mils [arithmetic]
	// S = n_w × pi ÷ 4 × d_w × d_w          conductor cross-section [arithmetic]
	//   = 126 × pi ÷ 4 × 0.4 × 0.4
	//   ≈ 15.834 mm²
}

// A winch: 90 A for 20 s, twice in ten minutes.
func ExampleDuty_Equivalent() {
	i, err := wire.Duty{
		Pulses:  []wire.Pulse{{CurrentA: d("90"), TimeS: d("20")}, {CurrentA: d("90"), TimeS: d("20")}},
		PeriodS: d("600"),
	}.Equivalent()
	printed(i.Working, err)
	// Output:
	// I.1 = 90 A                            current (1) (given)
	// t.1 = 20 s                            time (1) (given)
	// I.2 = 90 A                            current (2) (given)
	// t.2 = 20 s                            time (2) (given)
	// T_p = 600 s                           period of the duty (given)
	// I_th = 23.24 A                        thermally equivalent current [Ohm's
	//      so that I.1 × I.1 × t.1 + I.2 × I.2 × t.2 ≤ T_p × I_th × I_th
	//      that is 90 × 90 × 20 + 90 × 90 × 20 ≤ 600 × 23.24 × 23.24
	//                                       law]; the least that is, to 0.01 A
}

// winch is the feeder with twice its ampacity in it.
func winch() wire.Overload {
	return wire.Overload{Ampacity: must(feeder().Ampacity(european().Ampacity)), AreaMM2: d("16"), CurrentA: d("120")}
}

func ExampleOverload_Temperature() {
	t, err := winch().Temperature(d("60"))
	fmt.Println(t.ConductorC, "°C after a minute", err)
	// Output:
	// 57.8 °C after a minute <nil>
}

func ExampleOverload_TimeTo() {
	t, err := winch().TimeTo(d("90"))
	fmt.Println(t.Reached, t.TimeS, "s", err)
	// Output:
	// true {174.7 true} s <nil>
}

func ExampleMeltingPreece() {
	i, err := wire.MeltingPreece("copper", d("0.25"))
	printed(i.Working, err)
	// Output:
	// a_P = 10244 A/in^1.5                  fusing constant [Preece, I = a d^1.5,
	//                                       copper]
	// d_w = 0.25 mm                         diameter of the wire (given)
	// I_me = a_P × (d_w ÷ 25.4) ^ 1.5       current that melts the wire [Preece, I
	//      = 10244 × (0.25 ÷ 25.4) ^ 1.5    = a d^1.5]; melts the wire: for
	//      = 10 A                           information, no limit of design
}

func ExampleMelting_Onderdonk() {
	i, err := wire.Melting{AreaMM2: d("0.5"), AmbientC: some("25"), TimeS: d("1")}.Onderdonk()
	printed(i.Working, err)
	// Output:
	// S = 0.5 mm²                           conductor cross-section (given)
	// A_c = S ÷ 0.00050670748               area in circular mils [arithmetic]
	//     = 0.5 ÷ 0.00050670748
	//     = 986.8 cmil
	// T_m = 1083 °C                         melting point [Onderdonk's equation,
	//                                       constant of the equation, copper;
	//                                       second hand]
	// T_a = 25 °C                           ambient temperature (given)
	// t = 1 s                               time (given)
	// I_me = A_c × sqrt(log((T_m − T_a) ÷ (234 + T_a) + 1) ÷ (33 × t))
	//      = 986.8 × sqrt(log((1083 − 25) ÷ (234 + 25) + 1) ÷ (33 × 1))
	//      = 144.4 A                        current that melts the wire
	//                                       [Onderdonk's equation, in circular
	//                                       mils; second hand]; melts the wire:
	//                                       for information, no limit of design
}

func ExampleAircraftBundle_GreatestCurrent() {
	i, err := wire.AircraftBundle{FreeAirA: d("47"), Wires: 8, LoadingPercent: d("60"), AltitudeM: some("3000")}.GreatestCurrent()
	printed(i.Working, err)
	// Output:
	// I_fa = 47 A                           current of one wire in free air
	//                                       (given)
	// k_bu = 0.595                          factor for the bundle [MIL-W-5088L,
	//                                       bundle figure, 8 wires, 60 % loading;
	//                                       second hand]
	// k_al = 0.91                           factor for altitude [FAA AC 43.13-1B,
	//                                       figure 11-5, 20000 ft]; the next
	//                                       higher point for 3000 m
	// I_w = I_fa × k_bu × k_al              current of one wire in the bundle [FAA
	//     = 47 × 0.595 × 0.91               AC 43.13-1B, 11-67]
	//     ≈ 25.448 A
}

func ExampleHarnessCurrent() {
	i, err := wire.HarnessCurrent(d("40"), wire.HarnessWires{Wires: 6, CurrentA: d("9")}, wire.HarnessWires{Wires: 4, CurrentA: d("16")})
	fmt.Println(i.CurrentA, "A", err)
	// Output:
	// 47.2 A <nil>
}

func ExampleAircraftWire_Temperature() {
	t, err := wire.AircraftWire{AmbientC: some("50"), InsulationC: d("150"), CurrentA: d("9"), GreatestA: d("16")}.Temperature()
	fmt.Println(t.ConductorC, "°C", err)
	// Output:
	// 125 °C <nil>
}

// 12 mV across a bolted joint at 250 A.
func ExampleJoint_Reading() {
	r, err := wire.Joint{MilliV: d("12"), CurrentA: d("250")}.Reading()
	fmt.Println(r.Milliohm, "mΩ,", r.LossW, "W", err)
	// Output:
	// 0.048 mΩ, 3 W <nil>
}

// A lug of 0.4 mΩ on a fully loaded cable: 24 mV, 1.4 W and some 60 K.
func ExampleHotJoint_Rise() {
	j := wire.HotJoint{Milliohm: d("0.4"), CurrentA: d("59"), Ampacity: must(feeder().Ampacity(european().Ampacity)), AreaMM2: d("16")}
	r, err := j.Rise()
	fmt.Println(r.MilliV, "mV,", r.LossW, "W,", r.RiseK, "K", err)
	// Output:
	// 23.6 mV, 1.3924 W, 58.5 K <nil>
}

func ExampleHotJoint_Check() {
	j := wire.HotJoint{Milliohm: d("10"), CurrentA: d("50"), Ampacity: must(feeder().Ampacity(european().Ampacity)), AreaMM2: d("16")}
	c, err := j.Check()
	fmt.Println(c.ID, c.Verdict(), err)
	// Output:
	// W09 fails <nil>
}

// The same joint beside two made alike.
func ExampleJoint_AgainstTwins() {
	joint := wire.Joint{MilliV: d("34"), CurrentA: d("250")}
	check, err := joint.AgainstTwins(
		wire.Joint{MilliV: d("12"), CurrentA: d("250")},
		wire.Joint{MilliV: d("14"), CurrentA: d("250")},
	)
	fmt.Println(check.ID, check.Verdict(), "by", check.Margin(), check.Unit)
	printed(check.Working, err)
	// Output:
	// W05 fails by -0.04 mΩ
	// Best of its twins:
	// U_j = 12 mV                           voltage across the joint (given)
	// I = 250 A                             current (given)
	// R_jt = U_j ÷ I                        resistance of the joint [Ohm's law]
	//      = 12 ÷ 250
	//      = 0.048 mΩ
	// P_jt = U_j × I ÷ 1000                 heat in the joint [Ohm's law]
	//      = 12 × 250 ÷ 1000
	//      = 3 W
	// R_tw = R_jt                           resistance of the best of its twins
	//      = 0.048                          [arithmetic]
	//      = 0.048 mΩ
	// k_tw = 2                              resistance of a joint ÷ that of its
	//                                       twin, at most [common practice, joints
	//                                       made alike]; guidance: no published
	//                                       limit is known
	// R_jm = k_tw × R_tw                    greatest resistance of the joint
	//      = 2 × 0.048                      [common practice, joints made alike]
	//      = 0.096 mΩ
	// This joint:
	// U_j = 34 mV                           voltage across the joint (given)
	// I = 250 A                             current (given)
	// R_jt = U_j ÷ I                        resistance of the joint [Ohm's law]
	//      = 34 ÷ 250
	//      = 0.136 mΩ
	// P_jt = U_j × I ÷ 1000                 heat in the joint [Ohm's law]
	//      = 34 × 250 ÷ 1000
	//      = 8.5 W
}

// What a test sheet should foretell for a fuse holder.
func ExampleExpectedReading_MilliVolts() {
	u, err := wire.ExpectedReading{Milliohm: d("0.25"), CurrentA: d("100")}.MilliVolts()
	fmt.Println(u.MilliV, "mV", err)
	// Output:
	// 25 mV <nil>
}

func ExampleBend_LeastRadius() {
	r, err := wire.Bend{Cable: "flexible PVC, fixed", DiameterMM: d("14.5")}.LeastRadius()
	printed(r.Working, err)
	// Output:
	// D_o = 14.5 mm                         outer diameter of the cable (given)
	// k_bd = 4                              bend radius ÷ diameter, at least [VDE
	//                                       0298-3, bend radii, flexible PVC,
	//                                       fixed; from memory]
	// r_min = k_bd × D_o                    least bend radius [VDE 0298-3, bend
	//       = 4 × 14.5                      radii, flexible PVC, fixed; from
	//       = 58 mm                         memory]
}

func ExampleBend_Check() {
	check, err := wire.Bend{Cable: "flexible PVC, fixed", DiameterMM: d("14.5")}.Check(d("50"))
	fmt.Println(check.ID, check.Title, check.Verdict(), "by", check.Margin(), check.Unit, err)
	// Output:
	// W06 Bend radius fails by -8 mm <nil>
}

func ExampleBusbar_Guess() {
	i, err := wire.Busbar{WidthMM: d("25"), ThicknessMM: d("5")}.Guess()
	printed(i.Working, err)
	// Output:
	// J_b = 2 A/mm²                         current for each mm² [common practice,
	//                                       copper busbars, a first guess]; no
	//                                       rating: the heat of the box and the
	//                                       joints decides
	// b_w = 25 mm                           width of the bar (given)
	// b_t = 5 mm                            thickness of the bar (given)
	// I_bb = J_b × b_w × b_t                guessed rating of the busbar [common
	//      = 2 × 25 × 5                     practice, copper busbars, a first
	//      = 250 A                          guess]
}

// 14 m of 70 mm² in all.
func ExampleCopperMass() {
	m, err := wire.CopperMass(must(tables.ParseSize("70 mm2")), d("14"))
	printed(m.Working, err)
	// Output:
	// γ = 8.89 g/cm³                        density [NBS Handbook 100,
	//                                       international annealed copper
	//                                       standard, copper]
	// S = 70 mm²                            conductor cross-section [IEC
	//                                       60228:2004, table 3, class 5, 70 mm2];
	//                                       70 mm2
	// L_t = 14 m                            length of all conductors together
	//                                       (given)
	// m_c = γ × S × L_t ÷ 1000              mass of the metal [arithmetic]
	//     = 8.89 × 70 × 14 ÷ 1000
	//     = 8.7122 kg
}

// van is a small installation: a bank, a converter that charges it, an inverter
// and a pump on a busbar.
func van() wire.Network {
	return wire.Network{
		Sources: []wire.NodeSource{
			{Name: "bank", Node: "posts", EMFV: d("13.1"), Milliohm: d("3")},
			{Name: "converter", Node: "busbar", EMFV: d("14.4"), Milliohm: d("8"), LimitA: decimal.NewNullDecimal(d("30"))},
		},
		Branches: []wire.Branch{
			{Name: "main cable, fuse and switch", From: "posts", To: "busbar", Milliohm: d("1.6")},
			{Name: "inverter cable", From: "busbar", To: "inverter", Milliohm: d("0.7")},
			{Name: "pump cable", From: "busbar", To: "pump", Milliohm: d("45")},
		},
		Loads: []wire.NodeLoad{
			{Name: "inverter", Node: "inverter", PowerW: decimal.NewNullDecimal(d("2000")), TripV: decimal.NewNullDecimal(d("11"))},
			{Name: "pump", Node: "pump", CurrentA: decimal.NewNullDecimal(d("6"))},
		},
	}
}

// The pump sees what the inverter draws through the shared cable.
func ExampleNetwork_Solve() {
	s, err := van().Solve()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, src := range s.Sources {
		fmt.Println(src.Name, src.CurrentA.Round(2), "A, at its limit:", src.AtLimit)
	}
	for _, l := range s.Loads {
		fmt.Println(l.Name, l.CurrentA.Round(2), "A at", l.VoltageV.Round(3), "V, below trip:", l.BelowTrip)
	}
	// Output:
	// bank 137.91 A, at its limit: false
	// converter 30 A, at its limit: true
	// inverter 161.91 A at 12.352 V, below trip: false
	// pump 6 A at 12.196 V, below trip: false
}

// An inverter that asks for more than bank and cables can bring.
func ExampleNetwork_Solve_collapse() {
	n := van()
	n.Loads[0].PowerW = decimal.NewNullDecimal(d("12000"))
	s, err := n.Solve()
	fmt.Println("no operating point at:", s.CollapsedAt, err)
	// Output:
	// no operating point at: inverter <nil>
}

// The inverter's cable in half the copper, all else as before.
func ExampleSolution_With() {
	s := must(van().Solve())
	var milliohm []decimal.Decimal
	for _, b := range van().Branches {
		if b.Name == "inverter cable" {
			b.Milliohm = b.Milliohm.Mul(d("2"))
		}
		milliohm = append(milliohm, b.Milliohm)
	}
	thinner, err := s.With(milliohm)
	fmt.Println(s.Loads[0].Name, s.Loads[0].VoltageV.Round(3), "V, then", thinner.Loads[0].VoltageV.Round(3), "V", err)
	// Output:
	// inverter 12.352 V, then 12.229 V <nil>
}

func ExampleSolution_Ladder() {
	l, err := must(van().Solve()).Ladder("inverter")
	printed(l.Working, err)
	// Output:
	// bank at posts:
	// E_0 = 13.1 V                          voltage of the source at rest (given)
	// I_so ≈ 137.91 A                       current of the source [Kirchhoff's
	//                                       laws]; solved with the whole network
	// R_i = 3 mΩ                            resistance of the source (given)
	// U_t = E_0 − I_so × R_i ÷ 1000         voltage at the terminals [Ohm's law]
	//     = 13.1 − 137.91 × 3 ÷ 1000
	//     ≈ 12.686 V
	// main cable, fuse and switch, posts to busbar:
	// I_br ≈ 137.91 A                       current in the branch [Kirchhoff's
	//                                       laws]
	// R_b = 1.6 mΩ                          resistance of the branch (given)
	// ΔU.1 = I_br × R_b ÷ 1000              voltage drop (1) [Ohm's law]
	//      = 137.91 × 1.6 ÷ 1000
	//      ≈ 0.22066 V
	// U_k = U_t − ΔU.1                      voltage behind the branch [Kirchhoff's
	//     = 12.686 − 0.22066                laws]
	//     ≈ 12.466 V
	// inverter cable, busbar to inverter:
	// I_br ≈ 161.91 A                       current in the branch [Kirchhoff's
	//                                       laws]
	// R_b = 0.7 mΩ                          resistance of the branch (given)
	// ΔU.2 = I_br × R_b ÷ 1000              voltage drop (2) [Ohm's law]
	//      = 161.91 × 0.7 ÷ 1000
	//      ≈ 0.11334 V
	// U_k = U_k − ΔU.2                      voltage behind the branch [Kirchhoff's
	//     = 12.466 − 0.11334                laws]
	//     ≈ 12.352 V
	// At inverter:
	// U_L = U_k                             voltage at the load [Kirchhoff's laws]
	//     = 12.352
	//     ≈ 12.352 V
	// inverter:
	// P = 2000 W                            power (given)
	// I_L ≈ 161.91 A                        current of the load [Ohm's law]
	//     where I_L = P ÷ U_L
	//     that is 2000 ÷ 12.352
	// ΔU = ΔU.1 + ΔU.2                      voltage drop [Kirchhoff's laws]
	//    = 0.22066 + 0.11334
	//    ≈ 0.334 V
}

// A load between two named nodes: the frame carries the return.
func ExampleSolution_LoadLadder() {
	n := wire.Network{
		Sources: []wire.NodeSource{{Name: "battery", Node: "plus", EMFV: d("12.6"), Milliohm: d("5")}},
		Branches: []wire.Branch{
			{Name: "lamp wire", From: "plus", To: "lamp", Milliohm: d("20")},
			{Name: "frame", From: "rear frame", To: wire.CommonReturn, Milliohm: d("4")},
		},
		Loads: []wire.NodeLoad{{Name: "lamp", Node: "lamp", Return: "rear frame", Ohm: decimal.NewNullDecimal(d("2.4"))}},
	}
	l, err := must(n.Solve()).LoadLadder("lamp")
	printed(l.Working, err)
	// Output:
	// frame, rear frame to return:
	// I_br ≈ 5.1873 A                       current in the branch [Kirchhoff's
	//                                       laws]
	// R_b = 4 mΩ                            resistance of the branch (given)
	// ΔU.1 = I_br × R_b ÷ 1000              voltage drop (1) [Ohm's law]
	//      = 5.1873 × 4 ÷ 1000
	//      ≈ 0.020749 V
	// U_k = 0 − ΔU.1                        voltage behind the branch [Kirchhoff's
	//     = 0 − 0.020749                    laws]
	//     ≈ -0.020749 V
	// battery at plus:
	// E_0 = 12.6 V                          voltage of the source at rest (given)
	// I_so ≈ 5.1873 A                       current of the source [Kirchhoff's
	//                                       laws]; solved with the whole network
	// R_i = 5 mΩ                            resistance of the source (given)
	// U_t = E_0 − I_so × R_i ÷ 1000         voltage at the terminals [Ohm's law]
	//     = 12.6 − 5.1873 × 5 ÷ 1000
	//     ≈ 12.574 V
	// U_k = U_k + U_t                       voltage behind the branch [Kirchhoff's
	//     = (-0.020749) + 12.574            laws]
	//     ≈ 12.553 V
	// lamp wire, plus to lamp:
	// I_br ≈ 5.1873 A                       current in the branch [Kirchhoff's
	//                                       laws]
	// R_b = 20 mΩ                           resistance of the branch (given)
	// ΔU.2 = I_br × R_b ÷ 1000              voltage drop (2) [Ohm's law]
	//      = 5.1873 × 20 ÷ 1000
	//      ≈ 0.10375 V
	// U_k = U_k − ΔU.2                      voltage behind the branch [Kirchhoff's
	//     = 12.553 − 0.10375                laws]
	//     ≈ 12.45 V
	// At lamp:
	// U_L = U_k                             voltage at the load [Kirchhoff's laws]
	//     = 12.45
	//     ≈ 12.45 V
	// lamp:
	// R_L = 2.4 Ω                           resistance of the load (given)
	// I_L ≈ 5.1873 A                        current of the load [Ohm's law]
	//     where I_L = U_L ÷ R_L
	//     that is 12.45 ÷ 2.4
	// ΔU = ΔU.1 + ΔU.2                      voltage drop [Kirchhoff's laws]
	//    = 0.020749 + 0.10375
	//    ≈ 0.1245 V
}

func ExampleSolution_LoadCheck() {
	check, err := must(van().Solve()).LoadCheck("inverter")
	fmt.Println(check.ID, check.Title, check.Verdict(), "with", check.Margin().Round(3), check.Unit, err)
	// Output:
	// W04 Voltage at the load passes with 1.352 V <nil>
}

// A short circuit at the busbar.
func ExampleNetwork_Fault() {
	f, err := van().Fault("busbar", d("0"))
	printed(f.Working, err)
	// Output:
	// bank at posts:
	// E_0 = 13.1 V                          voltage of the source at rest (given)
	// R_i = 3 mΩ                            resistance of the source (given)
	// I_so ≈ 2847.8 A                       current of the source [Kirchhoff's
	//                                       laws]; solved with the whole network
	// converter at busbar:
	// E_0 = 14.4 V                          voltage of the source at rest (given)
	// R_i = 8 mΩ                            resistance of the source (given)
	// I_so = 30 A                           current of the source [Kirchhoff's
	//                                       laws]; its limit
	// I_k = I_so                            prospective fault current [Kirchhoff's
	//     = 30                              laws]
	//     = 30 A
	// main cable, fuse and switch:
	// R_b = 1.6 mΩ                          resistance of the branch (given)
	// I_br ≈ 2847.8 A                       current in the branch [Kirchhoff's
	//                                       laws]
	// I_k = I_k + I_br                      prospective fault current [Kirchhoff's
	//     = 30 + 2847.8                     laws]
	//     ≈ 2877.8 A
}

// A pump behind a feeder that it shares with lamps, against the limit of a rule set.
func ExampleAlongPath() {
	feeder := must(wire.Run{CurrentA: d("15"), LengthM: d("3"), MilliohmPerM: d("2.1")}.Drop())
	pump := must(wire.Run{CurrentA: d("5"), LengthM: d("2"), MilliohmPerM: d("5.4")}.Drop())
	path, err := wire.AlongPath([]wire.PathRun{{Name: "feeder", Drop: feeder}, {Name: "pump", Drop: pump}})
	if err != nil {
		fmt.Println(err) // every bad field, what it got and what it wants
		return
	}
	fmt.Println(path.DropV, "V")
	// Output:
	// 0.297 V
}

// The same path against the limit of a rule set.
func ExamplePathDrop_Check() {
	run := must(wire.Run{CurrentA: d("15"), LengthM: d("3"), MilliohmPerM: d("2.1")}.Drop())
	path := must(wire.AlongPath([]wire.PathRun{{Name: "feeder", Drop: run}}))
	check, err := path.Check(must(tables.RuleSetOf("iso-craft")).Drop.Critical, d("12"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(check.ID, check.Verdict())
	// Output:
	// W02 passes
}
