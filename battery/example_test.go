package battery_test

import (
	"fmt"

	"example.org/extralow/battery"
	"github.com/shopspring/decimal"
)

var d = decimal.RequireFromString

// n is a number that may be left out.
func n(s string) decimal.NullDecimal { return decimal.NewNullDecimal(d(s)) }

// A day in a mobile sharpening workshop.
func ExampleAudit_Sum() {
	audit := battery.Audit{
		SystemV: d("12.8"), LowestV: d("11.5"),
		Loads: []battery.Load{
			{Name: "bench grinder", PowerW: n("420"), HoursADay: d("2"), DutyPercent: d("60"), SurgeW: n("1300"), Inverter: "inverter"},
			{Name: "lights", CurrentA: n("2.5"), AtV: n("12"), HoursADay: d("6"), DutyPercent: d("100")},
			{Name: "card reader", PowerW: n("6"), HoursADay: d("8"), DutyPercent: d("100"), StandbyW: n("0.8")},
		},
		Inverters: []battery.AuditInverter{{
			Inverter: battery.Inverter{Name: "inverter", EfficiencyPercent: n("90"), IdleW: d("9")},
			OnHours:  d("8"), Isolated: true,
		}},
		Together: []battery.StateOfUse{{Name: "grinding", Loads: []string{"bench grinder", "lights", "card reader"}}},
	}
	sum, err := audit.Sum()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(sum.Working)
	// Output:
	// U_n = 12.8 V                          nominal voltage (given)
	// U_lo = 11.5 V                         lowest working voltage (given)
	// inverter, idle:
	// P_0.1 = 9 W                           idle draw of the inverter (1) (given)
	// t_on.1 = 8 h                          hours a day that the inverter is on
	//                                       (1) (given)
	// E_i.1 = P_0.1 × t_on.1                energy a day of an idle inverter (1)
	//       = 9 × 8                         [arithmetic]
	//       = 72 Wh
	// I_0.1 = ceil(P_0.1 ÷ U_lo × 100) ÷ 100
	//       = ceil(9 ÷ 11.5 × 100) ÷ 100    idle current of the inverter (1)
	//       = 0.79 A                        [Ohm's law]
	// bench grinder:
	// P.1 = 420 W                           power (1) (given)
	// η.1 = 90 %                            efficiency (1) (given)
	// t_d.1 = 2 h                           hours a day (1) (given)
	// d_c.1 = 60 %                          share of those hours that it runs (1)
	//                                       (given)
	// t_r.1 = t_d.1 × d_c.1 ÷ 100           running time a day (1) [arithmetic]
	//       = 2 × 60 ÷ 100
	//       = 1.2 h
	// E_l.1 = ceil(P.1 × t_r.1 × 100 ÷ η.1 × 100) ÷ 100
	//       = ceil(420 × 1.2 × 100 ÷ 90 × 100) ÷ 100
	//       = 560 Wh                        energy a day of one load (1)
	//                                       [arithmetic]
	// I_l.1 = ceil(P.1 × 100 ÷ η.1 ÷ U_lo × 100) ÷ 100
	//       = ceil(420 × 100 ÷ 90 ÷ 11.5 × 100) ÷ 100
	//       = 40.58 A                       current of the load at the lowest
	//                                       voltage (1) [Ohm's law]
	// P_su.1 = 1300 W                       power while starting (1) (given)
	// I_st.1 = ceil(P_su.1 × 100 ÷ η.1 ÷ U_lo × 100) ÷ 100
	//        = ceil(1300 × 100 ÷ 90 ÷ 11.5 × 100) ÷ 100
	//        = 125.61 A                     current of the load while it starts
	//                                       (1) [Ohm's law]
	// lights:
	// I.2 = 2.5 A                           current (2) (given)
	// U_at.2 = 12 V                         voltage at which the current is stated
	//                                       (2) (given)
	// P.2 = I.2 × U_at.2                    power (2) [Ohm's law]
	//     = 2.5 × 12
	//     = 30 W
	// t_d.2 = 6 h                           hours a day (2) (given)
	// d_c.2 = 100 %                         share of those hours that it runs (2)
	//                                       (given)
	// t_r.2 = t_d.2 × d_c.2 ÷ 100           running time a day (2) [arithmetic]
	//       = 6 × 100 ÷ 100
	//       = 6 h
	// E_l.2 = ceil(P.2 × t_r.2 × 100) ÷ 100
	//       = ceil(30 × 6 × 100) ÷ 100      energy a day of one load (2)
	//       = 180 Wh                        [arithmetic]
	// I_l.2 = ceil(P.2 ÷ U_lo × 100) ÷ 100  current of the load at the lowest
	//       = ceil(30 ÷ 11.5 × 100) ÷ 100   voltage (2) [Ohm's law]
	//       = 2.61 A
	// card reader:
	// P.3 = 6 W                             power (3) (given)
	// t_d.3 = 8 h                           hours a day (3) (given)
	// d_c.3 = 100 %                         share of those hours that it runs (3)
	//                                       (given)
	// t_r.3 = t_d.3 × d_c.3 ÷ 100           running time a day (3) [arithmetic]
	//       = 8 × 100 ÷ 100
	//       = 8 h
	// P_sb.3 = 0.8 W                        standby power (3) (given)
	// E_l.3 = ceil((P.3 × t_r.3 + P_sb.3 × (24 − t_r.3)) × 100) ÷ 100
	//       = ceil((6 × 8 + 0.8 × (24 − 8)) × 100) ÷ 100
	//       = 60.8 Wh                       energy a day of one load (3)
	//                                       [arithmetic]
	// I_l.3 = ceil(P.3 ÷ U_lo × 100) ÷ 100  current of the load at the lowest
	//       = ceil(6 ÷ 11.5 × 100) ÷ 100    voltage (3) [Ohm's law]
	//       = 0.53 A
	// a day:
	// E_d = E_i.1 + E_l.1 + E_l.2 + E_l.3   energy a day [arithmetic]
	//     = 72 + 560 + 180 + 60.8
	//     = 872.8 Wh
	// Q_d = ceil(E_d ÷ U_n × 100) ÷ 100     charge a day [arithmetic]
	//     = ceil(872.8 ÷ 12.8 × 100) ÷ 100
	//     = 68.19 Ah
	// grinding:
	// I_co.1 = I_l.1 + I_l.2 + I_l.3 + I_0.1
	//        = 40.58 + 2.61 + 0.53 + 0.79   current of the loads that run together
	//        = 44.51 A                      (1) [arithmetic]
	// I_su.1 = I_co.1 + max(0, I_st.1 − I_l.1)
	//        = 44.51 + max(0, 125.61 − 40.58)
	//        = 129.54 A                     current together while the worst of
	//                                       them starts (1) [arithmetic]
	// I_all.1 = I_st.1 + I_l.2 + I_l.3 + I_0.1
	//         = 125.61 + 2.61 + 0.53 + 0.79
	//         = 129.54 A                    current together if all start at once
	//                                       (1) [arithmetic]
	// parked:
	// P_pk = P_sb.3                         power drawn while parked [arithmetic]
	//      = 0.8
	//      = 0.8 W
	// I_pk = ceil(P_pk ÷ U_n × 1000) ÷ 1000
	//      = ceil(0.8 ÷ 12.8 × 1000) ÷ 1000
	//      = 0.063 A                        current drawn while parked [Ohm's law]
}

// A charger's plate says 900 VA; its maker states a power factor of 0.62.
func ExamplePowerFromVA() {
	p, err := battery.PowerFromVA(d("900"), d("0.62"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(p.Working)
	// Output:
	// S_va = 900 VA                         apparent power (given)
	// λ = 0.62                              power factor (given)
	// P = S_va × λ                          power [arithmetic]
	//   = 900 × 0.62
	//   = 558 W
}

// Two inverters of 3 kW on a 12 V bank, at the voltage where they switch off:
// more than most 12 V switches, fuses and batteries are made for.
func ExampleInverter_Draw() {
	pair := battery.Inverter{Name: "two of 3 kW", EfficiencyPercent: n("90"), IdleW: d("40")}
	draw, err := pair.Draw(d("6000"), d("10.5"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(draw.Working)
	// Output:
	// P = 6000 W                            power (given)
	// η = 90 %                              efficiency (given)
	// P_0 = 40 W                            idle draw of the inverter (given)
	// P_i = ceil((P × 100 ÷ η + P_0) × 100) ÷ 100
	//     = ceil((6000 × 100 ÷ 90 + 40) × 100) ÷ 100
	//     ≈ 6706.7 W                        power taken from the supply [UFC
	//                                       3-520-01:2002, appendix E-2.2]
	// P_v = P_i − P                         power lost as heat [arithmetic]
	//     = 6706.7 − 6000
	//     = 706.67 W
	// U_t = 10.5 V                          voltage at the terminals (given)
	// I_i = ceil(P_i ÷ U_t × 100) ÷ 100     current taken from the supply [Ohm's
	//     = ceil(6706.7 ÷ 10.5 × 100) ÷ 100
	//     = 638.74 A                        law]
}

// The same 2 kW inverter on a bank that is nearly empty, with its cables.
func ExampleFeed_Terminals() {
	feed := battery.Feed{
		Inverter: battery.Inverter{Name: "inverter", EfficiencyPercent: n("90"), IdleW: d("12")},
		SteadyW:  d("2000"), SurgeW: d("4000"), SourceV: d("12.6"), PathMilliohm: d("4.94"),
	}
	t, err := feed.Terminals()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(t.Working)
	// Output:
	// E_0 = 12.6 V                          voltage of the source at rest (given)
	// R_p = 4.94 mΩ                         resistance of the source and of the
	//                                       whole path (given)
	// steady:
	// P = 2000 W                            power (given)
	// η = 90 %                              efficiency (given)
	// P_0 = 12 W                            idle draw of the inverter (given)
	// P_i = ceil((P × 100 ÷ η + P_0) × 100) ÷ 100
	//     = ceil((2000 × 100 ÷ 90 + 12) × 100) ÷ 100
	//     ≈ 2234.2 W                        power taken from the supply [UFC
	//                                       3-520-01:2002, appendix E-2.2]
	// U_t ≈ 11.653 V                        voltage at the terminals [Ohm's law]
	//     where U_t = E_0 − R_p × P_i ÷ 1000 ÷ U_t
	//     that is 12.6 − 4.94 × 2234.2 ÷ 1000 ÷ 11.653
	// I_i = ceil(P_i ÷ U_t × 100) ÷ 100     current taken from the supply [Ohm's
	//     = ceil(2234.2 ÷ 11.653 × 100) ÷ 100
	//     = 191.74 A                        law]
	// surge:
	// P = 4000 W                            power (given)
	// P_i = ceil((P × 100 ÷ η + P_0) × 100) ÷ 100
	//     = ceil((4000 × 100 ÷ 90 + 12) × 100) ÷ 100
	//     ≈ 4456.5 W                        power taken from the supply [UFC
	//                                       3-520-01:2002, appendix E-2.2]
	// U_t ≈ 10.504 V                        voltage at the terminals [Ohm's law]
	//     where U_t = E_0 − R_p × P_i ÷ 1000 ÷ U_t
	//     that is 12.6 − 4.94 × 4456.5 ÷ 1000 ÷ 10.504
	// I_i = ceil(P_i ÷ U_t × 100) ÷ 100     current taken from the supply [Ohm's
	//     = ceil(4456.5 ÷ 10.504 × 100) ÷ 100
	//     = 424.26 A                        law]
}

// At 4.5 kW for a second this bank still holds, but below the cut-out.
func ExampleFeed_Check() {
	feed := battery.Feed{
		Inverter: battery.Inverter{Name: "inverter", EfficiencyPercent: n("90"), IdleW: d("12")},
		SteadyW:  d("2000"), SurgeW: d("4500"), SourceV: d("12.6"), PathMilliohm: d("4.94"), CutOutV: n("10.5"),
	}
	c, err := feed.Check()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(c.ID, c.Title+":", c.Verdict(), "by", c.Margin(), c.Unit)
	// Output:
	// B05 Voltage at the inverter at surge: fails by -0.336 V
}

// pair is two lithium iron phosphate batteries side by side, the second on
// longer leads.
func pair() battery.Bank {
	one := battery.Battery{
		Name: "left", Chemistry: "LiFePO4", NominalV: d("12.8"), CapacityAh: d("150"),
		LowMilliohm: n("3"), HighMilliohm: n("8"), FullV: d("13.6"), EmptyV: d("12.9"),
		DepthPercent: n("80"), AgeingPercent: n("80"), MaxDischargeA: n("150"), MaxChargeA: n("75"),
		CutOutV: n("10"), LeadMilliohm: d("0.5"),
	}
	other := one
	other.Name, other.LeadMilliohm = "right", d("1.5")
	return battery.Bank{Batteries: []battery.Battery{one, other}, Series: 1}
}

func ExampleBank_Rating() {
	rating, err := pair().Rating()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(rating.Working)
	// Output:
	// U_bn = 12.8 V                         nominal voltage of one battery (given)
	// n_s = 1                               batteries in series (given)
	// U_n = n_s × U_bn                      nominal voltage [Kirchhoff's laws]
	//     = 1 × 12.8
	//     = 12.8 V
	// C_s.1 = 150 Ah                        capacity of one string (1) (given)
	// C_s.2 = 150 Ah                        capacity of one string (2) (given)
	// C = C_s.1 + C_s.2                     capacity [arithmetic]
	//   = 150 + 150
	//   = 300 Ah
	// E_n = U_n × C                         nominal energy [arithmetic]
	//     = 12.8 × 300
	//     = 3840 Wh
}

// What the pair gives at 3 °C in its last year.
func ExampleBank_Usable() {
	bank := pair()
	bank.BatteryC = n("3")
	usable, err := bank.Usable()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(usable.Working)
	// Output:
	// U_bn = 12.8 V                         nominal voltage of one battery (given)
	// n_s = 1                               batteries in series (given)
	// U_n = n_s × U_bn                      nominal voltage [Kirchhoff's laws]
	//     = 1 × 12.8
	//     = 12.8 V
	// C_s.1 = 150 Ah                        capacity of one string (1) (given)
	// C_s.2 = 150 Ah                        capacity of one string (2) (given)
	// C = C_s.1 + C_s.2                     capacity [arithmetic]
	//   = 150 + 150
	//   = 300 Ah
	// T_b = 3 °C                            temperature of the battery (given)
	// c_T = 85 %                            share of the capacity at the
	//                                       temperature [battery data sheets,
	//                                       typical values, LiFePO4, 0 °C; from
	//                                       memory]; the next colder row for 3 °C
	// d_u.1 = 80 %                          share of the charge that may be used
	//                                       (1) (given)
	// a_g.1 = 80 %                          share of the capacity left when it is
	//                                       replaced (1) (given)
	// d_u.2 = 80 %                          share of the charge that may be used
	//                                       (2) (given)
	// a_g.2 = 80 %                          share of the capacity left when it is
	//                                       replaced (2) (given)
	// Q_u = C_s.1 × d_u.1 × a_g.1 × c_T ÷ 1000000 + C_s.2 × d_u.2 × a_g.2 ×
	//       c_T ÷ 1000000                   usable charge [arithmetic]
	//     = 150 × 80 × 80 × 85 ÷ 1000000 + 150 × 80 × 80 × 85 ÷ 1000000
	//     = 163.2 Ah
	// E_u = U_n × Q_u                       usable energy [arithmetic]
	//     = 12.8 × 163.2
	//     ≈ 2089 Wh
}

// The limits add up to 300 A, but the shorter leads take the greater share.
func ExampleBank_Discharge() {
	limits, err := pair().Discharge()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(limits.Working)
	// Output:
	// R_lo.1 = 3 mΩ                         lowest resistance of a battery: full,
	//                                       new, warm (1) (given)
	// R_hi.1 = 8 mΩ                         highest resistance of a battery:
	//                                       empty, aged, cold (1) (given)
	// R_l.1 = 0.5 mΩ                        leads of one battery (1) (given)
	// R_sl.1 = R_lo.1 + R_l.1               lowest resistance of a string with its
	//        = 3 + 0.5                      leads (1) [arithmetic]
	//        = 3.5 mΩ
	// R_sg.1 = R_hi.1 + R_l.1               highest resistance of a string with
	//        = 8 + 0.5                      its leads (1) [arithmetic]
	//        = 8.5 mΩ
	// R_lo.2 = 3 mΩ                         lowest resistance of a battery: full,
	//                                       new, warm (2) (given)
	// R_hi.2 = 8 mΩ                         highest resistance of a battery:
	//                                       empty, aged, cold (2) (given)
	// R_l.2 = 1.5 mΩ                        leads of one battery (2) (given)
	// R_sl.2 = R_lo.2 + R_l.2               lowest resistance of a string with its
	//        = 3 + 1.5                      leads (2) [arithmetic]
	//        = 4.5 mΩ
	// R_sg.2 = R_hi.2 + R_l.2               highest resistance of a string with
	//        = 8 + 1.5                      its leads (2) [arithmetic]
	//        = 9.5 mΩ
	// I_m.1 = 150 A                         greatest current of a string (1)
	//                                       (given)
	// I_m.2 = 150 A                         greatest current of a string (2)
	//                                       (given)
	// I_sum = I_m.1 + I_m.2                 limits of the strings together
	//       = 150 + 150                     [arithmetic]
	//       = 300 A
	// I_mx.1 = floor(I_m.1 × (1 + R_sl.1 ÷ R_sg.2) × 100) ÷ 100
	//        = floor(150 × (1 + 3.5 ÷ 9.5) × 100) ÷ 100
	//        = 205.26 A                     current of the bank at which this
	//                                       string, new among aged ones, reaches
	//                                       its limit (1) [Kirchhoff's laws]
	// I_mx.2 = floor(I_m.2 × (1 + R_sl.2 ÷ R_sg.1) × 100) ÷ 100
	//        = floor(150 × (1 + 4.5 ÷ 8.5) × 100) ÷ 100
	//        = 229.41 A                     current of the bank at which this
	//                                       string, new among aged ones, reaches
	//                                       its limit (2) [Kirchhoff's laws]
	// I_ad = min(I_mx.1, I_mx.2)            greatest current of the bank with one
	//      = min(205.26, 229.41)            string new beside aged ones
	//      = 205.26 A                       [Kirchhoff's laws]
	// I_sh.1 = floor(I_m.1 × (1 + R_sl.1 ÷ R_sl.2) × 100) ÷ 100
	//        = floor(150 × (1 + 3.5 ÷ 4.5) × 100) ÷ 100
	//        = 266.66 A                     current of the bank at which this
	//                                       string reaches its limit (1)
	//                                       [Kirchhoff's laws]
	// I_sh.2 = floor(I_m.2 × (1 + R_sl.2 ÷ R_sl.1) × 100) ÷ 100
	//        = floor(150 × (1 + 4.5 ÷ 3.5) × 100) ÷ 100
	//        = 342.85 A                     current of the bank at which this
	//                                       string reaches its limit (2)
	//                                       [Kirchhoff's laws]
	// I_dm = min(I_sh.1, I_sh.2)            greatest discharge current of the bank
	//      = min(266.66, 342.85)            [Kirchhoff's laws]
	//      = 266.66 A
}

func ExampleBank_Charge() {
	limits, err := pair().Charge()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("limits added up", limits.SumA, "A, by shares", limits.LimitA, "A, a new one among aged ones", limits.MixedA, "A")
	// Output:
	// limits added up 150 A, by shares 133.33 A, a new one among aged ones 102.63 A
}

// Nobody knows the resistance of these: the answer says what to measure.
func ExampleBank_Without() {
	bank := pair()
	left := bank.Without(1)
	limits, err := left.Discharge()
	fmt.Println(len(left.Batteries), "left,", limits.LimitA, "A", err)
	bank.Batteries[0].LowMilliohm, bank.Batteries[0].HighMilliohm = decimal.NullDecimal{}, decimal.NullDecimal{}
	limits, err = bank.Discharge()
	fmt.Println(limits.Missing, err)
	// Output:
	// 1 left, 150 A <nil>
	// the internal resistance of battery 1 (left): ask its maker, or measure it by two loads with a voltmeter and a clamp meter (IEC 60896-21) <nil>
}

// What a short circuit at the end of 2 m of cable draws, and what the device on
// each battery may have to break.
func ExampleBank_Fault() {
	f, err := pair().Fault(battery.FaultPath{LowMilliohm: d("0.6"), HighMilliohm: d("0.9"), LimitedA: d("50")})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(f.Working)
	// Output:
	// R_lo.1 = 3 mΩ                         lowest resistance of a battery: full,
	//                                       new, warm (1) (given)
	// R_hi.1 = 8 mΩ                         highest resistance of a battery:
	//                                       empty, aged, cold (1) (given)
	// R_l.1 = 0.5 mΩ                        leads of one battery (1) (given)
	// R_sl.1 = R_lo.1 + R_l.1               lowest resistance of a string with its
	//        = 3 + 0.5                      leads (1) [arithmetic]
	//        = 3.5 mΩ
	// R_sg.1 = R_hi.1 + R_l.1               highest resistance of a string with
	//        = 8 + 0.5                      its leads (1) [arithmetic]
	//        = 8.5 mΩ
	// R_lo.2 = 3 mΩ                         lowest resistance of a battery: full,
	//                                       new, warm (2) (given)
	// R_hi.2 = 8 mΩ                         highest resistance of a battery:
	//                                       empty, aged, cold (2) (given)
	// R_l.2 = 1.5 mΩ                        leads of one battery (2) (given)
	// R_sl.2 = R_lo.2 + R_l.2               lowest resistance of a string with its
	//        = 3 + 1.5                      leads (2) [arithmetic]
	//        = 4.5 mΩ
	// R_sg.2 = R_hi.2 + R_l.2               highest resistance of a string with
	//        = 8 + 1.5                      its leads (2) [arithmetic]
	//        = 9.5 mΩ
	// E_f.1 = 13.6 V                        rested voltage, full (1) (given)
	// E_e.1 = 12.9 V                        rested voltage, empty (1) (given)
	// E_f.2 = 13.6 V                        rested voltage, full (2) (given)
	// E_e.2 = 12.9 V                        rested voltage, empty (2) (given)
	// R_cl = 0.6 mΩ                         lowest resistance of the path to the
	//                                       fault: cold (given)
	// R_ch = 0.9 mΩ                         highest resistance of the path to the
	//                                       fault: hot (given)
	// I_s = 50 A                            greatest current of the limited
	//                                       sources (given)
	// I_k = ceil(((E_f.1 ÷ R_sl.1 + E_f.2 ÷ R_sl.2) × 1000 ÷ (1 + R_cl × (1
	//       ÷ R_sl.1 + 1 ÷ R_sl.2)) + I_s) × 100) ÷ 100
	//     = ceil(((13.6 ÷ 3.5 + 13.6 ÷ 4.5) × 1000 ÷ (1 + 0.6 × (1 ÷ 3.5 + 1
	//       ÷ 4.5)) + 50) × 100) ÷ 100      prospective fault current [Kirchhoff's
	//     ≈ 5344.4 A                        laws]
	// I_kl = floor((E_e.1 ÷ R_sg.1 + E_e.2 ÷ R_sg.2) × 1000 ÷ (1 + R_ch × (1
	//       ÷ R_sg.1 + 1 ÷ R_sg.2)) × 100) ÷ 100
	//      = floor((12.9 ÷ 8.5 + 12.9 ÷ 9.5) × 1000 ÷ (1 + 0.9 × (1 ÷ 8.5 +
	//       1 ÷ 9.5)) × 100) ÷ 100          least prospective fault current
	//      ≈ 2395 A                         [Kirchhoff's laws]
	// I_ow.1 = ceil(E_f.1 × 1000 ÷ R_lo.1 × 100) ÷ 100
	//        = ceil(13.6 × 1000 ÷ 3 × 100) ÷ 100
	//        ≈ 4533.3 A                     fault current that the string itself
	//                                       feeds through its device (1) [Ohm's
	//                                       law]
	// I_ot.1 = ceil((I_s + E_f.2 × 1000 ÷ R_sl.2) × 100) ÷ 100
	//        = ceil((50 + 13.6 × 1000 ÷ 4.5) × 100) ÷ 100
	//        ≈ 3072.2 A                     fault current that all others feed
	//                                       through its device (1) [Kirchhoff's
	//                                       laws]
	// I_dv.1 = max(I_ow.1, I_ot.1)          greatest fault current through the
	//        = max(4533.3, 3072.2)          device of the string (1) [arithmetic]
	//        ≈ 4533.3 A
	// I_ow.2 = ceil(E_f.2 × 1000 ÷ R_lo.2 × 100) ÷ 100
	//        = ceil(13.6 × 1000 ÷ 3 × 100) ÷ 100
	//        ≈ 4533.3 A                     fault current that the string itself
	//                                       feeds through its device (2) [Ohm's
	//                                       law]
	// I_ot.2 = ceil((I_s + E_f.1 × 1000 ÷ R_sl.1) × 100) ÷ 100
	//        = ceil((50 + 13.6 × 1000 ÷ 3.5) × 100) ÷ 100
	//        ≈ 3935.7 A                     fault current that all others feed
	//                                       through its device (2) [Kirchhoff's
	//                                       laws]
	// I_dv.2 = max(I_ow.2, I_ot.2)          greatest fault current through the
	//        = max(4533.3, 3935.7)          device of the string (2) [arithmetic]
	//        ≈ 4533.3 A
}

func ExampleBank_Source() {
	s, err := pair().Source()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("full %s V behind %s milliohm, empty %s V behind %s milliohm\n", s.FullV, s.LowMilliohm, s.EmptyV, s.HighMilliohm)
	// Output:
	// full 13.6 V behind 1.9687 milliohm, empty 12.9 V behind 4.4862 milliohm
}

func ExampleAutonomy_Reserve() {
	a := battery.Autonomy{Bank: pair(), EnergyWh: d("950"), Days: d("3")}
	r, err := a.Reserve()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("lasts", r.Days, "days")
	// Output:
	// lasts 2.58 days
}

func ExampleAutonomy_Check() {
	a := battery.Autonomy{Bank: pair(), EnergyWh: d("950"), Days: d("3")}
	c, err := a.Check()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(c.ID, c.Title+":", c.Verdict(), "by", c.Margin(), c.Unit)
	// Output:
	// B03 Energy for the days asked: fails by -392.4 Wh
}

func ExampleBank_Runtime() {
	r, err := pair().Runtime(d("320"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(r.TimeH, "h")
	// Output:
	// 7.68 h
}

// 200 A are within the limit of the pair, but not of either one alone.
func ExampleBank_CheckDischarge() {
	whole, err := pair().CheckDischarge(d("200"))
	fmt.Println(whole.ID, whole.Title+":", whole.Verdict(), "by", whole.Margin(), whole.Unit, err)
	// Output:
	// B01 Steady discharge within the limit: passes by 66.66 A <nil>
}

func ExampleBank_CheckDischargeMissing() {
	c, err := pair().CheckDischargeMissing(d("200"))
	fmt.Println(c.ID, c.Title+":", c.Verdict(), "by", c.Margin(), c.Unit, err)
	// Output:
	// B02 Steady discharge with one battery missing: fails by -50 A <nil>
}

func ExampleBank_CheckCharge() {
	c, err := pair().CheckCharge(d("120"))
	fmt.Println(c.ID, c.Title+":", c.Verdict(), "by", c.Margin(), c.Unit, err)
	// Output:
	// B06 Charge current within the limit: passes by 13.33 A <nil>
}

// A pump that gives up at 9.6 V keeps drawing until the battery's own
// protection opens at 10 V and takes the lights with it.
func ExampleBank_CheckCutOut() {
	c, err := pair().CheckCutOut(n("9.6"))
	fmt.Println(c.ID, c.Title+":", c.Verdict(), "by", c.Margin(), c.Unit, err)
	// Output:
	// B04 The load's cut-out above the battery's own: fails by -0.4 V <nil>
}

// The exponent of a lead-acid battery of 100 Ah in 20 h and 60 Ah in 1 h.
func ExamplePeukert_Exponent() {
	p := battery.Peukert{Slow: battery.HourRating{CapacityAh: d("100"), RateH: d("20")}, Fast: battery.HourRating{CapacityAh: d("60"), RateH: d("1")}}
	e, err := p.Exponent()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(e.Working)
	// Output:
	// C.1 = 100 Ah                          capacity (1) (given)
	// H.1 = 20 h                            hours of the rating (1) (given)
	// I_1h.1 = C.1 ÷ H.1                    current of the rating (1) [arithmetic]
	//        = 100 ÷ 20
	//        = 5 A
	// C.2 = 60 Ah                           capacity (2) (given)
	// H.2 = 1 h                             hours of the rating (2) (given)
	// I_1h.2 = C.2 ÷ H.2                    current of the rating (2) [arithmetic]
	//        = 60 ÷ 1
	//        = 60 A
	// k_P = ln(H.1 ÷ H.2) ÷ ln(I_1h.2 ÷ I_1h.1)
	//     = ln(20 ÷ 1) ÷ ln(60 ÷ 5)         Peukert's exponent [Peukert's law]
	//     = 1.2056
}

func ExamplePeukert_At() {
	p := battery.Peukert{Slow: battery.HourRating{CapacityAh: d("100"), RateH: d("20")}, Fast: battery.HourRating{CapacityAh: d("60"), RateH: d("1")}}
	t, err := p.At(d("25"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(t.TimeH, "h,", t.CapacityAh, "Ah")
	_, err = p.At(d("90"))
	fmt.Println(err)
	// Output:
	// 2.87 h, 71.75 Ah
	// current_a is 90: want at most 60 A, that of the fast rating
	// outside the table
}

// Three days of 1200 Wh from gel batteries at -5 °C, with a 100 A load and 45 A
// of charging.
func ExampleStandAlone_Size() {
	s := battery.StandAlone{
		EnergyWh: d("1200"), SystemV: d("24"), Days: d("3"), Chemistry: "lead-acid gel", BatteryC: n("-5"),
		LoadA: d("100"), LoadRateH: d("4"), ChargeA: d("45"), ChargeRateH: d("10"), BlockV: n("12"), BlockAh: n("110"),
	}
	z, err := s.Size()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(z.Working)
	// Output:
	// E_d = 1200 Wh                         energy a day (given)
	// U_n = 24 V                            nominal voltage (given)
	// N_d = 3 d                             days without charging (given)
	// d_u = 50 %                            share of the charge that may be used
	//                                       [GB/T 19064-2003, design depth of
	//                                       discharge, lead-acid, shallow cycle;
	//                                       second hand]; not given: the smallest
	//                                       listed
	// T_b = -5 °C                           temperature of the battery (given)
	// k_T = 1.59                            capacity wanted at the temperature ÷
	//                                       capacity wanted at the reference [PV
	//                                       sizing worksheet, battery temperature
	//                                       multiplier, lead-acid, -6.7 °C]; the
	//                                       next colder row for -5 °C
	// c_T = floor(100 ÷ k_T × 100) ÷ 100    share of the capacity at the
	//     = floor(100 ÷ 1.59 × 100) ÷ 100   temperature [arithmetic]
	//     = 62.89 %
	// energy:
	// C_en = ceil(E_d × N_d × 10000 ÷ (U_n × d_u × c_T) × 100) ÷ 100
	//      = ceil(1200 × 3 × 10000 ÷ (24 × 50 × 62.89) × 100) ÷ 100
	//      = 477.03 Ah                      capacity for the energy [PV sizing
	//                                       worksheet, battery]
	// power:
	// I_l = 100 A                           current of the load at the lowest
	//                                       voltage (given)
	// H_p = 4 h                             fastest hours in which it may be
	//                                       emptied (given)
	// C_p = ceil(I_l × H_p × 100 ÷ c_T × 100) ÷ 100
	//     = ceil(100 × 4 × 100 ÷ 62.89 × 100) ÷ 100
	//     = 636.04 Ah                       capacity for the greatest load [PV
	//                                       sizing worksheet, battery]
	// charge:
	// I_ch = 45 A                           greatest charge current of the sources
	//                                       (given)
	// H_c = 10 h                            fastest hours in which it may be
	//                                       filled (given)
	// C_c = ceil(I_ch × H_c × 100 ÷ c_T × 100) ÷ 100
	//     = ceil(45 × 10 × 100 ÷ 62.89 × 100) ÷ 100
	//     = 715.54 Ah                       capacity for the greatest charge
	//                                       current [PV sizing worksheet, battery]
	// C_w = max(C_en, C_p, C_c)             capacity wanted [PV sizing worksheet,
	//     = max(477.03, 636.04, 715.54)     battery]; charge governs
	//     = 715.54 Ah
	// U_bn = 12 V                           nominal voltage of one battery (given)
	// C = 110 Ah                            capacity (given)
	// n_s = ceil(U_n ÷ U_bn)                batteries in series [PV sizing
	//     = ceil(24 ÷ 12)                   worksheet, battery]
	//     = 2
	// n_par = ceil(C_w ÷ C)                 strings in parallel [PV sizing
	//       = ceil(715.54 ÷ 110)            worksheet, battery]
	//       = 7
}

// A 600 W communications rack for two hours on twelve lead-acid cells.
func ExampleBackup_Size() {
	b := battery.Backup{PowerW: d("600"), EfficiencyPercent: d("88"), TimeH: d("2"), EndCellV: d("1.75"), Cells: 12}
	z, err := b.Size()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(z.Working)
	// Output:
	// P = 600 W                             power (given)
	// η = 88 %                              efficiency (given)
	// P_i = P × 100 ÷ η                     power taken from the supply [UFC
	//     = 600 × 100 ÷ 88                  3-520-01:2002, appendix E-2.2]
	//     ≈ 681.82 W
	// U_ce = 1.75 V                         voltage of a cell at the end (given)
	// n_c = 12                              cells in series (given)
	// U_e = U_ce × n_c                      voltage at the end [Kirchhoff's laws]
	//     = 1.75 × 12
	//     = 21 V
	// t_b = 2 h                             time to carry the load (given)
	// k_T = 1                               capacity wanted at the temperature ÷
	//                                       capacity wanted at the reference
	//                                       (given); not stated: at the
	//                                       temperature of the rating
	// k_ag = 1.25                           factor for ageing [UFC 3-520-01:2002,
	//                                       appendix E-2, lead-acid]
	// k_d = 1.1                             design margin [SAES, worksheet, any]
	// C_w = ceil(P × 100 × t_b × k_T × k_ag × k_d ÷ (η × U_e) × 100) ÷ 100
	//     = ceil(600 × 100 × 2 × 1 × 1.25 × 1.1 ÷ (88 × 21) × 100) ÷ 100
	//     = 89.29 Ah                        capacity wanted [SAES, worksheet;
	//                                       second hand]
}

func ExampleCorrections_Size() {
	c := battery.Corrections{UncorrectedAh: d("160"), ElectrolyteF: d("42")}
	z, err := c.Size()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(z.Working)
	// Output:
	// C_un = 160 Ah                         capacity before corrections (given)
	// T_F = 42 °F                           temperature of the electrolyte (given)
	// k_T = 1.3                             capacity wanted at the temperature ÷
	//                                       capacity wanted at the reference [IEEE
	//                                       485, table 1, 40 °F]; the next colder
	//                                       row for 42 °F
	// k_d = 1.1                             design margin [SAES, worksheet, any]
	// k_ag = 1.25                           factor for ageing [UFC 3-520-01:2002,
	//                                       appendix E-2, lead-acid]
	// C_w = ceil(C_un × k_T × k_d × k_ag × 100) ÷ 100
	//     = ceil(160 × 1.3 × 1.1 × 1.25 × 100) ÷ 100
	//     = 286 Ah                          capacity wanted [IEEE 485, 6.2; from
	//                                       memory]
}
