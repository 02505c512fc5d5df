package charge_test

import (
	"fmt"

	"example.org/extralow/charge"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var d = decimal.RequireFromString

// page prints a working, or what is wrong with the question.
func page(w working.Working, err error) {
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(w)
}

// verdict prints a check's verdict, its two sides and what they are.
func verdict(c working.Check, err error) {
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s %s: %s\n", c.ID, c.Title, c.Verdict())
	if c.Missing != "" {
		fmt.Println("wanted:", c.Missing)
		return
	}
	fmt.Printf("%s %s %s, %s %s %s\n", c.Asks, c.Demand, c.Unit, c.Allows, c.Limit, c.Unit)
}

// lithium is a bank of four lithium iron phosphate cells in a van.
func lithium() charge.BatteryOnCharge {
	return charge.BatteryOnCharge{
		Chemistry: "LiFePO4", CapacityAh: d("200"), BatteryC: d("15"),
		ChargeA: decimal.NewNullDecimal(d("100")), InternalMilliohm: d("8"),
		EMF: []charge.EMFPoint{
			{SoCPercent: d("0"), EMFV: d("10.8")}, {SoCPercent: d("5"), EMFV: d("12.4")}, {SoCPercent: d("20"), EMFV: d("13.0")},
			{SoCPercent: d("60"), EMFV: d("13.2")}, {SoCPercent: d("95"), EMFV: d("13.36")}, {SoCPercent: d("100"), EMFV: d("14.0")},
		},
		Efficiency: []charge.EfficiencyStep{{FromPercent: d("0"), Efficiency: d("0.99")}},
	}
}

// flooded is the house battery of a small boat.
func flooded() charge.BatteryOnCharge {
	return charge.BatteryOnCharge{
		Chemistry: "lead-acid flooded", CapacityAh: d("220"), BatteryC: d("15"),
		Cells: 6, Strings: 2, InternalMilliohm: d("6"),
		EMF: []charge.EMFPoint{
			{SoCPercent: d("0"), EMFV: d("11.6")}, {SoCPercent: d("50"), EMFV: d("12.2")}, {SoCPercent: d("100"), EMFV: d("12.7")},
		},
		Efficiency: []charge.EfficiencyStep{
			{FromPercent: d("0"), Efficiency: d("0.95")}, {FromPercent: d("80"), Efficiency: d("0.7")}, {FromPercent: d("90"), Efficiency: d("0.5")},
		},
	}
}

// A flooded battery nearly full takes little, whatever the charger gives.
func ExampleBatteryOnCharge_Acceptance() {
	a, err := flooded().Acceptance(d("92"))
	page(a.Working, err)
	// Output:
	// C = 220 Ah                            capacity (given)
	// T_b = 15 °C                           temperature of the battery (given)
	// T_lo = -20 °C                         lowest temperature at which it may be
	//                                       charged [common practice, charging and
	//                                       discharging temperatures, lead-acid]
	// T_hi = 50 °C                          highest temperature at which it may be
	//                                       charged [common practice, charging and
	//                                       discharging temperatures, lead-acid]
	// r_c = 0.1 A/Ah                        greatest charging current by capacity
	//                                       [common practice, guidance, lead-acid
	//                                       flooded; from memory]; usual; take the
	//                                       data sheet's limit
	// I_r = r_c × C                         greatest charging current at this
	//     = 0.1 × 220                       temperature [arithmetic]
	//     = 22 A
	// k_a = 1 A/Ah                          most current for each ampere-hour
	//                                       missing [Woodbridge 1935, ampere-hour
	//                                       law, greatest current by missing
	//                                       ampere-hour; second hand]
	// s = 92 %                              state of charge (given)
	// Q_m = C × (100 − s) ÷ 100             charge missing [arithmetic]
	//     = 220 × (100 − 92) ÷ 100
	//     = 17.6 Ah
	// I_ah = k_a × Q_m                      most current by the ampere-hour law
	//      = 1 × 17.6                       [Woodbridge 1935, ampere-hour law;
	//      = 17.6 A                         second hand]
	// I_acc = min(I_r, I_ah)                most current that the battery takes
	//       = min(22, 17.6)                 [arithmetic]
	//       = 17.6 A
}

// Just above freezing a lithium battery takes a fifth of its capacity in an hour.
func ExampleBatteryOnCharge_Acceptance_cold() {
	b := lithium()
	b.BatteryC = d("4")
	a, err := b.Acceptance(d("50"))
	page(a.Working, err)
	// Output:
	// C = 200 Ah                            capacity (given)
	// T_b = 4 °C                            temperature of the battery (given)
	// T_lo = 0 °C                           lowest temperature at which it may be
	//                                       charged [common practice, charging and
	//                                       discharging temperatures, LiFePO4]
	// T_hi = 45 °C                          highest temperature at which it may be
	//                                       charged [common practice, charging and
	//                                       discharging temperatures, LiFePO4]
	// I_cm = 100 A                          greatest charge current of the bank
	//                                       [data sheet]
	// r_k = 0.2 A/Ah                        greatest charging current by capacity
	//                                       at this temperature [common practice,
	//                                       article on lithium cells, greatest
	//                                       charging current, 0 to 10 C]
	// I_r = min(I_cm, r_k × C)              greatest charging current at this
	//     = min(100, 0.2 × 200)             temperature [arithmetic]
	//     = 40 A
	// I_acc = I_r                           most current that the battery takes
	//       = 40                            [arithmetic]
	//       = 40 A
}

// A van that winters outside, first without a guard, then with a management unit
// that stops the charge below 2 °C.
func ExampleBatteryOnCharge_ColdCharge() {
	verdict(lithium().ColdCharge(some("-12"), decimal.NullDecimal{}))
	verdict(lithium().ColdCharge(some("-12"), decimal.NewNullDecimal(d("2"))))
	// Output:
	// C02 Charging in the cold: fails
	// lowest temperature at which it may be charged 0 °C, lowest temperature at which it is charged -12 °C
	// C02 Charging in the cold: passes
	// lowest temperature at which it may be charged 0 °C, lowest temperature at which it is charged 2 °C
}

// The float voltage of a 24 V bank in a cold shed.
func ExampleStageVoltage_At() {
	v, err := charge.StageVoltage{CellV: d("2.27"), Cells: 12, ReferenceC: d("25"), MilliVPerC: d("-3")}.At(d("5"))
	page(v.Working, err)
	// Output:
	// n_c = 12                              cells in series (given)
	// U_z = 2.27 V                          voltage of a cell at the reference
	//                                       temperature (given)
	// T_u = 25 °C                           temperature at which the voltage holds
	//                                       (given)
	// α = -3 mV/°C                          change of the voltage of a cell with
	//                                       temperature (given)
	// T_b = 5 °C                            temperature of the battery (given)
	// T_k = T_b                             temperature that the compensation
	//     = 5                               works with [arithmetic]
	//     = 5 °C
	// U_s = n_c × (U_z + α × (T_k − T_u) ÷ 1000)
	//     = 12 × (2.27 + (-3) × (5 − 25) ÷ 1000)
	//     = 27.96 V                         voltage of the stage [BCI practice,
	//                                       temperature compensation]
}

// A three-stage charger on six flooded cells at 5 °C.
func ExampleCharacteristic_Stages() {
	p, err := charge.Characteristic{Letters: "IUoU", Chemistry: "lead-acid flooded", Cells: 6, CapacityAh: d("220")}.Stages(d("5"))
	page(p.Working, err)
	// Output:
	// U_z = 2.37 V                          voltage of a cell at the reference
	//                                       temperature [common practice,
	//                                       deep-cycle charging, lead-acid
	//                                       flooded, absorption, deep-cycle; from
	//                                       memory]
	// α = -3 mV/°C                          change of the voltage of a cell with
	//                                       temperature [common practice, tutorial
	//                                       on batteries, lead-acid, float and
	//                                       absorption]
	// n_c = 6                               cells in series (given)
	// T_u = 25 °C                           temperature at which the voltage holds
	//                                       (given)
	// T_b = 5 °C                            temperature of the battery (given)
	// T_k = T_b                             temperature that the compensation
	//     = 5                               works with [arithmetic]
	//     = 5 °C
	// U_s = n_c × (U_z + α × (T_k − T_u) ÷ 1000)
	//     = 6 × (2.37 + (-3) × (5 − 25) ÷ 1000)
	//     = 14.58 V                         voltage of the stage [BCI practice,
	//                                       temperature compensation]; absorption
	// U_z = 2.2 V                           voltage of a cell at the reference
	//                                       temperature [common practice,
	//                                       deep-cycle charging, lead-acid
	//                                       flooded, float, deep-cycle; from
	//                                       memory]
	// α = -3 mV/°C                          change of the voltage of a cell with
	//                                       temperature [common practice, tutorial
	//                                       on batteries, lead-acid, float and
	//                                       absorption]
	// T_k = T_b                             temperature that the compensation
	//     = 5                               works with [arithmetic]
	//     = 5 °C
	// U_s = n_c × (U_z + α × (T_k − T_u) ÷ 1000)
	//     = 6 × (2.2 + (-3) × (5 − 25) ÷ 1000)
	//     = 13.56 V                         voltage of the stage [BCI practice,
	//                                       temperature compensation]; float
	// r_t = 0.02 A/Ah                       tail current by capacity [common
	//                                       practice, lead-acid charging,
	//                                       lead-acid, tail current; from memory];
	//                                       current by capacity; 0.01 to 0.04
	//                                       usual
	// C = 220 Ah                            capacity (given)
	// I_tail = r_t × C                      tail current that ends absorption
	//        = 0.02 × 220                   [arithmetic]
	//        = 4.4 A
}

func ExampleAbsorptionTime() {
	a, err := charge.AbsorptionTime("lead-acid AGM", d("180"), d("40"))
	page(a.Working, err)
	// Output:
	// k_t = 0.42 h A/Ah                     absorption time by capacity and
	//                                       current [common practice, lead-acid
	//                                       charging, lead-acid, absorption time;
	//                                       from memory]; I = bulk current; widely
	//                                       repeated
	// C = 180 Ah                            capacity (given)
	// I_bulk = 40 A                         current of the bulk stage (given)
	// t_ab = k_t × C ÷ I_bulk               time of absorption [common practice;
	//      = 0.42 × 180 ÷ 40                from memory]
	//      = 1.89 h
}

// A charger of 30 A on a battery that lacks 60 Ah, after an hour and a half.
func ExampleTaper_After() {
	t, err := charge.Taper{MissingAh: d("60"), AcceptPerHour: d("1"), LimitA: d("30")}.After(d("1.5"))
	page(t.Working, err)
	// Output:
	// Q_0 = 60 Ah                           charge missing at the start (given)
	// k_a = 1 A/Ah                          most current for each ampere-hour
	//                                       missing (given)
	// I_max = 30 A                          greatest current of the source (given)
	// t_x = max(0, (Q_0 − I_max ÷ k_a) ÷ I_max)
	//     = max(0, (60 − 30 ÷ 1) ÷ 30)      time at the source's limit [Woodbridge
	//     = 1 h                             1935, ampere-hour law; second hand]
	// Q_x = Q_0 − I_max × t_x               charge missing when the source's limit
	//     = 60 − 30 × 1                     ends [arithmetic]
	//     = 30 Ah
	// t_c = 1.5 h                           time of charging (given)
	// Q_m = Q_x × exp(−k_a × (t_c − t_x))   charge missing [Woodbridge 1935,
	//     = 30 × exp(−1 × (1.5 − 1))        ampere-hour law; second hand]
	//     ≈ 18.196 Ah
	// I = min(I_max, k_a × Q_m)             current [Woodbridge 1935, ampere-hour
	//   = min(30, 1 × 18.196)               law; second hand]
	//   ≈ 18.196 A
}

// The same, until 6 Ah are missing.
func ExampleTaper_Until() {
	t, err := charge.Taper{MissingAh: d("60"), AcceptPerHour: d("1"), LimitA: d("30")}.Until(d("6"))
	page(t.Working, err)
	// Output:
	// Q_0 = 60 Ah                           charge missing at the start (given)
	// k_a = 1 A/Ah                          most current for each ampere-hour
	//                                       missing (given)
	// I_max = 30 A                          greatest current of the source (given)
	// t_x = max(0, (Q_0 − I_max ÷ k_a) ÷ I_max)
	//     = max(0, (60 − 30 ÷ 1) ÷ 30)      time at the source's limit [Woodbridge
	//     = 1 h                             1935, ampere-hour law; second hand]
	// Q_x = Q_0 − I_max × t_x               charge missing when the source's limit
	//     = 60 − 30 × 1                     ends [arithmetic]
	//     = 30 Ah
	// Q_m = 6 Ah                            charge missing (given)
	// t_c = t_x + ln(Q_x ÷ Q_m) ÷ k_a       time of charging [Woodbridge 1935,
	//     = 1 + ln(30 ÷ 6) ÷ 1              ampere-hour law; second hand]
	//     = 2.6094 h
}

// overnight is a mains charger on a boat's battery with a fridge running.
func overnight() charge.Simulation {
	volts := func(v string) decimal.NullDecimal { return decimal.NewNullDecimal(d(v)) }
	return charge.Simulation{
		Battery: flooded(),
		Source:  charge.ChargingSource{CurrentA: d("25"), Efficiency: d("0.88"), CableMilliohm: d("5")},
		Stages: []charge.Stage{
			{Name: "bulk", Letter: "I", VoltageV: volts("14.5")},
			{Name: "absorption", Letter: "U", VoltageV: volts("14.5"), TailA: volts("4.4")},
			{Name: "float", Letter: "U", VoltageV: volts("13.5")},
		},
		LoadA: d("3"), StartPercent: d("40"), WithinH: d("12"), StepS: 60,
		MarkPercent: []decimal.Decimal{d("80"), d("90"), d("100")},
	}
}

// How long until 80, 90 and 100 %, and what flows where a stage ends.
func ExampleSimulation_Run() {
	c, err := overnight().Run()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, m := range c.Marks {
		if m.TimeH.Valid {
			fmt.Printf("%s %% after %s h\n", m.SoCPercent, m.TimeH.Decimal)
		} else {
			fmt.Printf("%s %% not within %s h\n", m.SoCPercent, c.TimeH)
		}
	}
	for _, s := range c.Trace {
		fmt.Printf("%7s h  %-10s  %s %%  %s V  %s A\n", s.TimeH, s.Stage, s.SoCPercent, s.BatteryV, s.BatteryA)
	}
	fmt.Print(c.Working)
	// Output:
	// 80 % after 4.895 h
	// 90 % after 9.1211 h
	// 100 % not within 12 h
	//  2.5246 h  bulk        63.984 %  14.375 V  22 A
	//  9.9945 h  absorption  90.923 %  14.463 V  4.4 A
	//      12 h  float       91.572 %  13.478 V  1.366 A
	// C = 220 Ah                            capacity (given)
	// T_b = 15 °C                           temperature of the battery (given)
	// T_lo = -20 °C                         lowest temperature at which it may be
	//                                       charged [common practice, charging and
	//                                       discharging temperatures, lead-acid]
	// T_hi = 50 °C                          highest temperature at which it may be
	//                                       charged [common practice, charging and
	//                                       discharging temperatures, lead-acid]
	// r_c = 0.1 A/Ah                        greatest charging current by capacity
	//                                       [common practice, guidance, lead-acid
	//                                       flooded; from memory]; usual; take the
	//                                       data sheet's limit
	// I_r = r_c × C                         greatest charging current at this
	//     = 0.1 × 220                       temperature [arithmetic]
	//     = 22 A
	// k_a = 1 A/Ah                          most current for each ampere-hour
	//                                       missing [Woodbridge 1935, ampere-hour
	//                                       law, greatest current by missing
	//                                       ampere-hour; second hand]
	// v_T = 0.025 1/°C                      charging voltage of a cell, by
	//                                       temperature [Copetti 1993, charge
	//                                       voltage per cell, cT; second hand]
	// e_0 = 2.45 V                          final charging voltage of a cell,
	//                                       without current [Copetti 1993, final
	//                                       charge voltage per cell, e0; second
	//                                       hand]
	// e_1 = 2.011 V                         final charging voltage of a cell, by
	//                                       current [Copetti 1993, final charge
	//                                       voltage per cell, e1; second hand]
	// e_T = 0.002 1/°C                      final charging voltage of a cell, by
	//                                       temperature [Copetti 1993, final
	//                                       charge voltage per cell, eT; second
	//                                       hand]
	// v_0 = 2 V                             charging voltage of a cell, constant
	//                                       [Copetti 1993, charge voltage per
	//                                       cell, c0; second hand]
	// v_1 = 0.16 V                          charging voltage of a cell, by state
	//                                       of charge [Copetti 1993, charge
	//                                       voltage per cell, c1; second hand]
	// v_2 = 6 V h                           charging voltage of a cell, by current
	//                                       [Copetti 1993, charge voltage per
	//                                       cell, c2; second hand]
	// v_3 = 0.86                            charging voltage of a cell, power of
	//                                       the current in A [Copetti 1993, charge
	//                                       voltage per cell, c3; second hand]
	// v_4 = 0.48 V h                        charging voltage of a cell, by charge
	//                                       missing [Copetti 1993, charge voltage
	//                                       per cell, c4; second hand]
	// v_5 = 1.2                             charging voltage of a cell, power of
	//                                       the charge missing [Copetti 1993,
	//                                       charge voltage per cell, c5; second
	//                                       hand]
	// v_6 = 0.036 V h                       charging voltage of a cell, resistance
	//                                       [Copetti 1993, charge voltage per
	//                                       cell, c6; second hand]
	// n_c = 6                               cells in series (given)
	// n_par = 2                             strings in parallel (given)
	// C_10 = C ÷ n_par                      ten-hour capacity of one string of the
	//      = 220 ÷ 2                        battery [arithmetic]
	//      = 110 Ah
	// s_0 = 40 %                            state of charge at the start (given)
	// R_int = 6 mΩ                          internal resistance of the battery
	//                                       (given)
	// I_max = 25 A                          greatest current of the source (given)
	// η_s = 0.88                            efficiency of the source, output by
	//                                       input (given)
	// R_w = 5 mΩ                            resistance of the cable between source
	//                                       and battery, out and back (given)
	// I_ld = 3 A                            current of the loads that run (given)
	// U_s.1 = 14.5 V                        voltage of the stage (1) (given); bulk
	// U_s.2 = 14.5 V                        voltage of the stage (2) (given);
	//                                       absorption
	// U_s.3 = 13.5 V                        voltage of the stage (3) (given);
	//                                       float
	// E_in ≈ 2709.1 Wh                      energy taken from the supply
	//                                       [Kirchhoff's laws, EMF behind a
	//                                       resistance, stepped through time]
	// E_st ≈ 1401.9 Wh                      energy stored in the battery
	//                                       [Kirchhoff's laws, EMF behind a
	//                                       resistance, stepped through time]
	// E_ld ≈ 510.09 Wh                      energy given to the loads [Kirchhoff's
	//                                       laws, EMF behind a resistance, stepped
	//                                       through time]
	// E_lost = E_in − E_st − E_ld           energy lost in source, cable and
	//        = 2709.1 − 1401.9 − 510.09     battery [arithmetic]
	//        ≈ 797.14 Wh
	// s_e = 91.572 %                        state of charge at the end
	//                                       [Kirchhoff's laws, EMF behind a
	//                                       resistance, stepped through time]
	// t_c = 12 h                            time of charging [Kirchhoff's laws,
	//                                       EMF behind a resistance, stepped
	//                                       through time]
}

// workshopVan drives on working days, stands in the sun and runs a fridge and
// tools.
func workshopVan() charge.Balance {
	return charge.Balance{
		Battery: lithium(), VoltageV: d("14.0"), StartPercent: d("80"), Days: 14, FirstMonth: 12,
		Sources: []charge.DutyPeriod{
			{Name: "drive out", CurrentA: d("28"), FromH: d("7"), ToH: d("7.75"), Weekdays: []int{1, 2, 3, 4, 5}},
			{Name: "drive home", CurrentA: d("28"), FromH: d("16.5"), ToH: d("17.25"), Weekdays: []int{1, 2, 3, 4, 5}},
			{Name: "sun", CurrentA: d("9"), FromH: d("8"), ToH: d("16"), Sun: true, Months: []decimal.Decimal{
				d("0.2"), d("0.3"), d("0.5"), d("0.8"), d("1"), d("1"), d("1"), d("0.9"), d("0.6"), d("0.4"), d("0.2"), d("0.1"),
			}},
		},
		Loads: []charge.DutyPeriod{
			{Name: "fridge", CurrentA: d("1.4"), FromH: d("0"), ToH: d("24")},
			{Name: "tools", CurrentA: d("9"), FromH: d("9"), ToH: d("12"), Weekdays: []int{1, 2, 3, 4, 5}},
		},
	}
}

// A working week in December: the bank loses ground every day.
func ExampleBalance_Run() {
	v := workshopVan()
	v.TraceEveryH = 24
	v.Days = 5
	l, err := v.Run()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, t := range l.Trace {
		fmt.Printf("%4s h  %s %%\n", t.TimeH, t.SoCPercent)
	}
	fmt.Printf("lowest %s %% after %s h\n", l.LeastPercent, l.LeastAtH)
	fmt.Print(l.Working)
	// Output:
	// 0 h  80 %
	//   24 h  72.792 %
	//   48 h  65.585 %
	//   72 h  58.377 %
	//   96 h  51.169 %
	// lowest 38.811 % after 112.5 h
	// C = 200 Ah                            capacity (given)
	// T_b = 15 °C                           temperature of the battery (given)
	// T_lo = 0 °C                           lowest temperature at which it may be
	//                                       charged [common practice, charging and
	//                                       discharging temperatures, LiFePO4]
	// T_hi = 45 °C                          highest temperature at which it may be
	//                                       charged [common practice, charging and
	//                                       discharging temperatures, LiFePO4]
	// I_cm = 100 A                          greatest charge current of the bank
	//                                       [data sheet]
	// I_r = I_cm                            greatest charging current at this
	//     = 100                             temperature [arithmetic]
	//     = 100 A
	// s_0 = 80 %                            state of charge at the start (given)
	// R_int = 8 mΩ                          internal resistance of the battery
	//                                       (given)
	// U_s = 14 V                            voltage of the stage (given)
	// E_in = 3119.6 Wh                      energy taken from the supply
	//                                       [Kirchhoff's laws, EMF behind a
	//                                       resistance, stepped through time]
	// E_st = -952 Wh                        energy stored in the battery
	//                                       [Kirchhoff's laws, EMF behind a
	//                                       resistance, stepped through time]
	// E_ld = 3990.1 Wh                      energy given to the loads [Kirchhoff's
	//                                       laws, EMF behind a resistance, stepped
	//                                       through time]
	// E_lost = E_in − E_st − E_ld           energy lost in source, cable and
	//        = 3119.6 − (-952) − 3990.1     battery [arithmetic]
	//        = 81.5 Wh
	// t_shed = 0 h                          time that the loads were shed
	//                                       [Kirchhoff's laws, EMF behind a
	//                                       resistance, stepped through time]
	// E_um = 0 Wh                           energy that the loads went without
	//                                       [Kirchhoff's laws, EMF behind a
	//                                       resistance, stepped through time]
	// s_e = 43.962 %                        state of charge at the end
	//                                       [Kirchhoff's laws, EMF behind a
	//                                       resistance, stepped through time]
	// s_min = 38.811 %                      lowest state of charge [Kirchhoff's
	//                                       laws, EMF behind a resistance, stepped
	//                                       through time]
}

func ExampleLedger_Check() {
	l, err := workshopVan().Run()
	if err != nil {
		fmt.Println(err)
		return
	}
	verdict(l.Check(some("20")))
	// Output:
	// C08 Energy balance: fails
	// state of charge that it must not fall below 20 %, lowest state of charge 0 %
}

// Two weeks of December leave a van above its floor, but each emptier than before.
func ExampleLedger_CheckWeek() {
	v := workshopVan()
	v.StartPercent = d("100")
	v.Sources[0].CurrentA, v.Sources[1].CurrentA = d("36"), d("36")
	l, err := v.Run()
	if err != nil {
		fmt.Println(err)
		return
	}
	verdict(l.Check(some("20")))
	verdict(l.CheckWeek())
	// Output:
	// C08 Energy balance: passes
	// state of charge that it must not fall below 20 %, lowest state of charge 21.17 %
	// C08 Energy balance, week by week: fails
	// state of charge that a week must not fall short of 56.524 %, state of charge at the end 21.17 %
}

// left is a 30 A converter that works for two hours a day with the engine off.
func left() charge.Drain {
	return charge.Drain{
		Converter: charge.Converter{OutputV: d("14.4"), OutputA: d("30"), InputV: d("12.3"), Efficiency: d("0.9")},
		HoursADay: some("2"), SpareAh: d("22.8"), Filled: true, FedElsewhere: true,
	}
}

// 39 A for two hours are more than a starter battery can spare.
func ExampleDrain_Check() {
	verdict(left().Check())
	// Output:
	// C13 What feeds the converter: fails
	// charge taken from the starter battery 78.0488 Ah, charge that may be lost 22.8 Ah
}

// A converter fed from its own output only makes heat.
func ExampleDrain_Check_loop() {
	looped := left()
	looped.FedElsewhere = false
	verdict(looped.Check())
	// Output:
	// C13 What feeds the converter: fails
	// power taken from the supply 480 W, output power 432 W
}

// A 30 A converter at the lowest voltage of its input.
func ExampleConverter_Input() {
	i, err := charge.Converter{OutputV: d("14.4"), OutputA: d("30"), InputV: d("12.2"), Efficiency: d("0.9")}.Input()
	page(i.Working, err)
	// Output:
	// U_out = 14.4 V                        output voltage (given)
	// I_out = 30 A                          output current (given)
	// P_out = U_out × I_out                 output power [Ohm's law, P = U I,
	//       = 14.4 × 30                     efficiency = output ÷ input]
	//       = 432 W
	// η_s = 0.9                             efficiency of the source, output by
	//                                       input (given)
	// U_in = 12.2 V                         input voltage (given)
	// P_i = P_out ÷ η_s                     power taken from the supply [Ohm's
	//     = 432 ÷ 0.9                       law, P = U I, efficiency = output ÷
	//     = 480 W                           input]
	// P_v = P_i − P_out                     power lost as heat [Ohm's law, P = U
	//     = 480 − 432                       I, efficiency = output ÷ input]
	//     = 48 W
	// I_i = ceil(P_out ÷ (η_s × U_in) × 10000) ÷ 10000
	//     = ceil(432 ÷ (0.9 × 12.2) × 10000) ÷ 10000
	//     ≈ 39.344 A                        current taken from the supply [Ohm's
	//                                       law, P = U I, efficiency = output ÷
	//                                       input]
}

func ExampleMainsCharger_Input() {
	i, err := charge.MainsCharger{OutputV: d("28.8"), OutputA: d("40"), MainsV: d("230"), Efficiency: d("0.9"), PowerFactor: d("0.95")}.Input()
	page(i.Working, err)
	// Output:
	// U_out = 28.8 V                        output voltage (given)
	// I_out = 40 A                          output current (given)
	// P_out = U_out × I_out                 output power [Ohm's law, P = U I,
	//       = 28.8 × 40                     efficiency = output ÷ input]
	//       = 1152 W
	// η_s = 0.9                             efficiency of the source, output by
	//                                       input (given)
	// λ = 0.95                              power factor (given)
	// U_ac = 230 V                          mains voltage (given)
	// P_i = P_out ÷ η_s                     power taken from the supply [Ohm's
	//     = 1152 ÷ 0.9                      law, P = U I, efficiency = output ÷
	//     = 1280 W                          input]
	// P_v = P_i − P_out                     power lost as heat [Ohm's law, P = U
	//     = 1280 − 1152                     I, efficiency = output ÷ input]
	//     = 128 W
	// I_ac = ceil(P_out ÷ (η_s × λ × U_ac) × 10000) ÷ 10000
	//      = ceil(1152 ÷ (0.9 × 0.95 × 230) × 10000) ÷ 10000
	//      = 5.8582 A                       current from the mains [Ohm's law, P =
	//                                       U I, efficiency = output ÷ input]
}

// round is a delivery round: twenty minutes of driving, ten of standing, twenty
// of driving, and the night.
func round(driving, cruising, resting string) []charge.DrivePhase {
	return []charge.DrivePhase{
		{Name: "out of the depot", TimeS: d("300"), Running: true, VehicleV: d(driving)},
		{Name: "on the road", TimeS: d("900"), Running: true, VehicleV: d(cruising)},
		{Name: "unloading", TimeS: d("600"), VehicleV: d(resting)},
		{Name: "back", TimeS: d("1200"), Running: true, VehicleV: d(cruising)},
		{Name: "night", TimeS: d("36000"), VehicleV: d(resting)},
	}
}

// trigger is a converter of 30 A that wakes by voltage.
func trigger() charge.Trigger {
	return charge.Trigger{
		WakeV: d("13.3"), SleepV: d("12.8"), WakeS: d("15"), SleepS: d("60"), InputA: d("36"), InputMilliohm: some("6"),
	}
}

// On an alternator that holds its voltage the trigger works.
func ExampleTrigger_Drive() {
	r, err := trigger().Drive(round("14.3", "14.1", "12.7"))
	page(r.Working, err)
	// Output:
	// U_wk = 13.3 V                         voltage at which the converter wakes
	//                                       (given)
	// U_sl = 12.8 V                         voltage below which the converter
	//                                       sleeps (given)
	// I_i = 36 A                            current taken from the supply (given)
	// R_in = 6 mΩ                           resistance of the converter's input
	//                                       lead, out and back (given)
	// t_run = 2400 s                        time that the engine ran [common
	//                                       practice, two thresholds with a delay]
	// t_aw = 2490 s                         time that the converter worked [common
	//                                       practice, two thresholds with a delay]
	// t_ms = 30 s                           time that the engine ran and the
	//                                       converter slept [common practice, two
	//                                       thresholds with a delay]
	// n_sw = 4                              times that the converter woke or slept
	//                                       [common practice, two thresholds with
	//                                       a delay]
	// t_dr = 120 s                          time that the engine stood and the
	//                                       converter worked [common practice, two
	//                                       thresholds with a delay]
	// Q_dr = I_i × t_dr ÷ 3600              charge taken from the starter battery
	//      = 36 × 120 ÷ 3600                [arithmetic]
	//      = 1.2 Ah
}

// One that lets its voltage down to 12.5 V once its battery is full charges the
// bank for five minutes of the whole round.
func ExampleTrigger_Drive_variable() {
	r, err := trigger().Drive(round("14.3", "12.5", "12.7"))
	page(r.Working, err)
	for _, l := range r.Legs {
		fmt.Printf("%-16s  %s s awake\n", l.Name, l.AwakeS)
	}
	// Output:
	// U_wk = 13.3 V                         voltage at which the converter wakes
	//                                       (given)
	// U_sl = 12.8 V                         voltage below which the converter
	//                                       sleeps (given)
	// I_i = 36 A                            current taken from the supply (given)
	// R_in = 6 mΩ                           resistance of the converter's input
	//                                       lead, out and back (given)
	// t_run = 2400 s                        time that the engine ran [common
	//                                       practice, two thresholds with a delay]
	// t_aw = 345 s                          time that the converter worked [common
	//                                       practice, two thresholds with a delay]
	// t_ms = 2055 s                         time that the engine ran and the
	//                                       converter slept [common practice, two
	//                                       thresholds with a delay]
	// n_sw = 2                              times that the converter woke or slept
	//                                       [common practice, two thresholds with
	//                                       a delay]
	// t_dr = 0 s                            time that the engine stood and the
	//                                       converter worked [common practice, two
	//                                       thresholds with a delay]
	// Q_dr = I_i × t_dr ÷ 3600              charge taken from the starter battery
	//      = 36 × 0 ÷ 3600                  [arithmetic]
	//      = 0 Ah
	// out of the depot  285 s awake
	// on the road       60 s awake
	// unloading         0 s awake
	// back              0 s awake
	// night             0 s awake
}

// Lowest running voltages of the tables: a fixed regulator, and a variable one
// in its low phase.
func ExampleTrigger_Wakes() {
	for _, condition := range []string{"fixed regulator, normal charging", "variable alternator, low phase"} {
		v, err := tables.RunningVoltageOf(condition, "voltage", d("12"))
		if err != nil {
			fmt.Println(err)
			return
		}
		lowest := v.Least
		if !lowest.Stated() {
			lowest = v.Greatest
		}
		fmt.Println(condition)
		verdict(trigger().Wakes(lowest))
	}
	// Output:
	// fixed regulator, normal charging
	// C05 Converter wakes: passes
	// voltage at which the converter wakes 13.3 V, lowest voltage of the vehicle with its engine running 13.8 V
	// variable alternator, low phase
	// C05 Converter wakes: fails
	// voltage at which the converter wakes 13.3 V, lowest voltage of the vehicle with its engine running 12.5 V
}

// A long thin input lead puts the converter to sleep while the engine runs.
func ExampleTrigger_StaysAwake() {
	t := trigger()
	t.InputMilliohm = some("35")
	verdict(t.StaysAwake(working.Figure{Value: d("13.8")}))
	// Output:
	// C05 Converter stays awake: fails
	// voltage below which the converter sleeps 12.8 V, lowest voltage at the converter's input while it works 12.54 V
}

func ExampleTrigger_Sleeps() {
	verdict(trigger().Sleeps(working.Figure{Value: d("12.7")}))
	verdict(trigger().Sleeps(working.Figure{Value: d("12.9")}))
	// Output:
	// C05 Converter sleeps: passes
	// highest voltage of the vehicle with its engine standing 12.7 V, voltage below which the converter sleeps 12.8 V
	// C05 Converter sleeps: fails
	// highest voltage of the vehicle with its engine standing 12.9 V, voltage below which the converter sleeps 12.8 V
}

// bus is a vehicle whose alternator is marked 70/140A 13.5V.
func bus() charge.Alternator {
	return charge.Alternator{RatedA: d("140"), IdleA: decimal.NewNullDecimal(d("70")), VehicleA: some("45")}
}

func ExampleAlternator_OnRoad() {
	spares, err := bus().OnRoad()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range spares {
		fmt.Println(s.Working)
	}
	// Output:
	// I_R = 140 A                           output marked for the rated speed
	//                                       (given)
	// f_h = 0.8                             share of the marked output left when
	//                                       hot [common practice, alternators, hot
	//                                       output, ordinary duty]; without a
	//                                       curve for heat; up to a quarter is
	//                                       lost
	// I_h = f_h × I_R                       output when hot [common practice]
	//     = 0.8 × 140
	//     = 112 A
	// I_v = 45 A                            current of the vehicle's own loads
	//                                       (given)
	// I_sp = I_h − I_v                      current left over [Kirchhoff's laws]
	//      = 112 − 45
	//      = 67 A
	//
	// I_R = 140 A                           output marked for the rated speed
	//                                       (given)
	// f_h = 0.6                             share of the marked output left when
	//                                       hot [common practice, alternators, hot
	//                                       output, long bulk charging; from
	//                                       memory]; 0.5 to 0.7 usual
	// I_h = f_h × I_R                       output when hot [common practice; from
	//     = 0.6 × 140                       memory]
	//     = 84 A
	// I_v = 45 A                            current of the vehicle's own loads
	//                                       (given)
	// I_sp = I_h − I_v                      current left over [Kirchhoff's laws]
	//      = 84 − 45
	//      = 39 A
}

func ExampleAlternator_AtIdle() {
	known := bus()
	known.HotFactor = decimal.NewNullDecimal(d("0.8")) // by its maker
	spares, err := known.AtIdle()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(spares[0].Working)
	// Output:
	// I_idle = 70 A                         output marked for the idle speed
	//                                       (given)
	// f_h = 0.8                             share of the marked output left when
	//                                       hot [data sheet]
	// I_h = f_h × I_idle                    output when hot [data sheet]
	//     = 0.8 × 70
	//     = 56 A
	// I_v = 45 A                            current of the vehicle's own loads
	//                                       (given)
	// I_sp = I_h − I_v                      current left over [Kirchhoff's laws]
	//      = 56 − 45
	//      = 11 A
}

func ExampleAlternator_CheckRoad() {
	verdict(bus().CheckRoad(some("36")))
	// Output:
	// C04 Alternator on the road: passes
	// current the bank asks for 36 A, current left over 39 A
}

// What the converter draws at idle comes out of the starter battery.
func ExampleAlternator_CheckIdle() {
	c, err := bus().CheckIdle(some("36"))
	verdict(c, err)
	page(c.Working, err)
	unread := bus()
	unread.IdleA = decimal.NullDecimal{}
	verdict(unread.CheckIdle(some("36")))
	// Output:
	// C03 Alternator at idle: fails
	// current the bank asks for 36 A, current left over -3 A
	// I_idle = 70 A                         output marked for the idle speed
	//                                       (given)
	// f_h = 0.6                             share of the marked output left when
	//                                       hot [common practice, alternators, hot
	//                                       output, long bulk charging; from
	//                                       memory]; 0.5 to 0.7 usual
	// I_h = f_h × I_idle                    output when hot [common practice; from
	//     = 0.6 × 70                        memory]
	//     = 42 A
	// I_v = 45 A                            current of the vehicle's own loads
	//                                       (given)
	// I_sp = I_h − I_v                      current left over [Kirchhoff's laws]
	//      = 42 − 45
	//      = -3 A
	// I_dr = 36 A                           current the bank asks for (given)
	// I_def = max(0, I_dr − I_sp)           current taken from the starter
	//       = max(0, 36 − (-3))             battery, Ah each hour [Kirchhoff's
	//       = 39 A                          laws]
	// C03 Alternator at idle: cannot tell
	// wanted: the alternator's output at idle: the number before the stroke on its plate, the maker's curve, or a clamp meter on its lead, hot and idling with everything on
}

// A hot machine of the tables, at an engine speed between two of its points.
func ExampleSpeedCurve_OutputInterpolated() {
	points, err := tables.AlternatorOutput("50 A class, 12 V", "hot")
	if err != nil {
		fmt.Println(err)
		return
	}
	curve := charge.SpeedCurve{PulleyRatio: d("1.78")}
	for _, p := range points {
		curve.Points = append(curve.Points, charge.SpeedPoint{PerMin: p.PerMin, OutputA: p.Output.Value})
	}
	o, err := curve.OutputInterpolated(d("1000"))
	page(o.Working, err)
	// Output:
	// r_p = 1.78                            pulley ratio, alternator by engine
	//                                       (given)
	// n_e = 1000 1/min                      speed of the engine (given)
	// n_a = r_p × n_e                       speed of the alternator [arithmetic]
	//     = 1.78 × 1000
	//     = 1780 1/min
	// n_1 = 1300 1/min                      next slower speed of the curve (given)
	// n_2 = 2500 1/min                      next faster speed of the curve (given)
	// I_a1 = 16 A                           output at the next slower speed
	//                                       (given)
	// I_a2 = 41 A                           output at the next faster speed
	//                                       (given)
	// I_out = I_a1 + (I_a2 − I_a1) × (n_a − n_1) ÷ (n_2 − n_1)
	//       = 16 + (41 − 16) × (1780 − 1300) ÷ (2500 − 1300)
	//       = 26 A                          output current [arithmetic, straight
	//                                       line]
}

// A flat lithium bank behind a relay, and no converter.
func ExampleCoupled_Current() {
	i, err := charge.Coupled{VehicleV: d("14.2"), BankV: d("13.0"), Milliohm: d("11")}.Current()
	page(i.Working, err)
	// Output:
	// U_v = 14.2 V                          voltage of the vehicle (given)
	// E_b = 13 V                            voltage of the bank at rest (given)
	// R = 11 mΩ                             resistance of the loop, out and back
	//                                       (given)
	// I_dr = (U_v − E_b) × 1000 ÷ R         current the bank asks for [Ohm's law]
	//      = (14.2 − 13) × 1000 ÷ 11
	//      = 109.09 A
}

func ExampleCombinedSources_Checks() {
	checks, err := charge.CombinedSources{
		Supplies: []charge.Supply{{Name: "mains charger", CurrentA: d("60")}, {Name: "sun", CurrentA: d("22")}},
		LimitsA:  []charge.NamedLimit{{Name: "battery 1", CurrentA: d("50")}, {Name: "battery 2", CurrentA: d("50")}},
		BusbarA:  decimal.NewNullDecimal(d("150")),
	}.Checks()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range checks {
		verdict(c, nil)
	}
	// Output:
	// C01 Sum of the sources: passes
	// charging current of all sources together 82 A, greatest charging current of the batteries 100 A
	// C01 Sum of the sources, without battery 1: fails
	// charging current of all sources together 82 A, greatest charging current of the batteries 50 A
	// C01 Sum of the sources, without battery 2: fails
	// charging current of all sources together 82 A, greatest charging current of the batteries 50 A
	// C01 Sum of the sources on the busbar: passes
	// charging current of all sources together 82 A, rating of the busbar 150 A
}

// Every rule of thumb for 80 Ah at 25 A with a fridge running.
func ExampleRefill_Times() {
	times, err := charge.Refill{Chemistry: "lead-acid flooded", MissingAh: d("80"), CurrentA: d("25"), LoadA: some("3")}.Times()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, t := range times {
		fmt.Printf("%s h  %s\n", t.TimeH, t.Rule)
	}
	fmt.Println()
	fmt.Print(times[0].Working)
	// Output:
	// 5.091 h  common practice, tutorials on charging time, lead-acid, tutorials, 40 % loss allowed
	// 4.1819 h  Woodbridge 1935, ampere-hour law, lead-acid, over-charge of 15 %; second hand
	// 4.3637 h  common practice, lead-acid charging, lead-acid flooded; from memory
	// 4.5455 h  common practice, lead-acid charging, lead-acid, by reserve capacity in minutes; from memory
	//
	// Q_m = 80 Ah                           charge missing (given)
	// k_r = 1.4                             charge put in for each charge taken
	//                                       out [common practice, tutorials on
	//                                       charging time, lead-acid, tutorials,
	//                                       40 % loss allowed]
	// I_max = 25 A                          greatest current of the source (given)
	// I_ld = 3 A                            current of the loads that run (given)
	// t_fill = ceil((k_r × Q_m ÷ (I_max − I_ld)) × 10000) ÷ 10000
	//        = ceil((1.4 × 80 ÷ (25 − 3)) × 10000) ÷ 10000
	//        = 5.091 h                      time to put the charge back [common
	//                                       practice]
}

// Four hours do by one rule and not by another; the longest governs.
func ExampleRefill_Checks() {
	checks, err := charge.Refill{Chemistry: "lead-acid flooded", MissingAh: d("80"), CurrentA: d("25"), LoadA: some("3")}.Checks(d("4.4"))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range checks {
		fmt.Printf("%s: %s\n", c.Title, c.Verdict())
	}
	worst, _ := working.Strictest(checks...)
	fmt.Println()
	verdict(checks[worst], nil)
	// Output:
	// Time to refill, by common practice, tutorials on charging time, lead-acid, tutorials, 40 % loss allowed: fails
	// Time to refill, by Woodbridge 1935, ampere-hour law, lead-acid, over-charge of 15 %; second hand: passes
	// Time to refill, by common practice, lead-acid charging, lead-acid flooded; from memory: passes
	// Time to refill, by common practice, lead-acid charging, lead-acid, by reserve capacity in minutes; from memory: fails
	//
	// C06 Time to refill, by common practice, tutorials on charging time, lead-acid, tutorials, 40 % loss allowed: fails
	// time to put the charge back 5.091 h, hours available 4.4 h
}

func ExampleChargerFor() {
	c, err := charge.ChargerFor(d("100"), d("10"), d("8"))
	page(c.Working, err)
	// Output:
	// I_ld = 10 A                           current of the loads that run (given)
	// Q_m = 100 Ah                          charge missing (given)
	// t_av = 8 h                            hours available (given)
	// k_r = 1.1                             charge put in for each charge taken
	//                                       out [IEEE 946, charger sizing,
	//                                       lead-acid, stationary; from memory]
	// I_max = ceil((I_ld + k_r × Q_m ÷ t_av) × 10000) ÷ 10000
	//       = ceil((10 + 1.1 × 100 ÷ 8) × 10000) ÷ 10000
	//       = 23.75 A                       greatest current of the source [IEEE
	//                                       946, charger sizing; from memory]
}

func ExamplePlateRate() {
	c, err := charge.PlateRate(13)
	page(c.Working, err)
	// Output:
	// n_p = 13                              plates in a cell (given)
	// k_p = 1 A                             slow charging current for each
	//                                       positive plate [TM 5-4210-230-14&P-1,
	//                                       battery charging, lead-acid, slow
	//                                       charge by plates]
	// I = k_p × (n_p − 1) ÷ 2               current [TM 5-4210-230-14&P-1, battery
	//   = 1 × (13 − 1) ÷ 2                  charging, lead-acid, slow charge by
	//   = 6 A                               plates]
}

// Near full, at the ten-hour rate, three quarters of the charge stay.
func ExampleLeadAcidEfficiency() {
	k, err := charge.LeadAcidEfficiency(d("90"), d("10"), d("10"))
	page(k.Working, err)
	// Output:
	// s = 90 %                              state of charge (given)
	// I = 10 A                              current (given)
	// I_10 = 10 A                           current of the ten-hour rate (given)
	// η_q = 1 − exp(20.73 × (s ÷ 100 − 1) ÷ (I ÷ I_10 + 0.55))
	//     = 1 − exp(20.73 × (90 ÷ 100 − 1) ÷ (10 ÷ 10 + 0.55))
	//     = 0.73748                         share of the charge that the battery
	//                                       keeps [Copetti 1993, charge
	//                                       efficiency; second hand]
}

func ExampleLeadAcidSteps() {
	steps, err := charge.LeadAcidSteps(d("20"), d("20"))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range steps {
		if s.FromPercent.GreaterThanOrEqual(d("80")) && s.FromPercent.Mod(d("5")).IsZero() {
			fmt.Printf("from %s %%: %s\n", s.FromPercent, s.Efficiency)
		}
	}
	// Output:
	// from 80 %: 0.92632
	// from 85 %: 0.85619
	// from 90 %: 0.71932
	// from 95 %: 0.4522
}

// A 12 V fridge on the middle of a 24 V bank, with an equaliser of 1 A.
func ExampleCentreTap_Imbalance() {
	i, err := charge.CentreTap{TapA: d("3.5"), TapH: d("9"), EqualiserA: d("1")}.Imbalance()
	page(i.Working, err)
	// Output:
	// I_tap = 3.5 A                         current taken from the middle of the
	//                                       bank (given)
	// t_tap = 9 h                           hours a day that it is taken (given)
	// I_eq = 1 A                            current of the equaliser (given)
	// Q_tap = I_tap × t_tap                 charge a day that one half loses more
	//       = 3.5 × 9                       than the other [arithmetic]
	//       = 31.5 Ah
	// Q_eq = 24 × I_eq                      charge a day that the equaliser moves
	//      = 24 × 1                         [arithmetic]
	//      = 24 Ah
}

func ExampleCentreTap_Check() {
	verdict(charge.CentreTap{TapA: d("3.5"), TapH: d("9"), EqualiserA: d("1")}.Check())
	// Output:
	// C09 Centre tap: fails
	// charge a day that one half loses more than the other 31.5 Ah, charge a day that the equaliser moves 24 Ah
}

// Flooded cells may be equalised, sealed ones not.
func ExampleCharacteristic_Equalising() {
	c := charge.Characteristic{Letters: "IUoU", Chemistry: "lead-acid flooded", Cells: 6, CapacityAh: d("220")}
	v, err := c.Equalising(decimal.NullDecimal{}, d("20"))
	page(v.Working, err)
	c.Chemistry = "lead-acid gel"
	_, err = c.Equalising(decimal.NullDecimal{}, d("20"))
	fmt.Println(err)
	// Output:
	// U_z = 2.5 V                           voltage of a cell at the reference
	//                                       temperature [common practice,
	//                                       deep-cycle charging, lead-acid
	//                                       flooded, equalise, deep-cycle; from
	//                                       memory]
	// α = -3 mV/°C                          change of the voltage of a cell with
	//                                       temperature [common practice, tutorial
	//                                       on batteries, lead-acid, float and
	//                                       absorption]
	// n_c = 6                               cells in series (given)
	// T_u = 25 °C                           temperature at which the voltage holds
	//                                       (given)
	// T_b = 20 °C                           temperature of the battery (given)
	// T_k = T_b                             temperature that the compensation
	//     = 20                              works with [arithmetic]
	//     = 20 °C
	// U_s = n_c × (U_z + α × (T_k − T_u) ÷ 1000)
	//     = 6 × (2.5 + (-3) × (20 − 25) ÷ 1000)
	//     = 15.09 V                         voltage of the stage [BCI practice,
	//                                       temperature compensation]; equalise
	// equalise_cell_v is unset: want the data sheet's voltage: the tables have none at 25 °C for lead-acid gel
}

// A lithium iron phosphate battery beside an engine.
func ExampleBatteryOnCharge_HotCharge() {
	verdict(charge.BatteryOnCharge{Chemistry: "LiFePO4"}.HotCharge(some("52")))
	// Output:
	// C02 Charging in the heat: fails
	// hottest that the battery's place gets 52 °C, highest temperature at which it may be charged 45 °C
}
