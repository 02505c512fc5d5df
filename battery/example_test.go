package battery_test

import (
	"fmt"

	"example.org/extralow/battery"
	"github.com/shopspring/decimal"
)

var d = decimal.RequireFromString

// n is a number that may be left out.
func n(s string) decimal.NullDecimal { return decimal.NewNullDecimal(d(s)) }

// atPosts is a fault on the terminals of a bank, with no other source.
var atPosts = battery.FaultPath{HighMilliohm: n("0"), LimitedA: n("0")}

// A day in a mobile sharpening workshop.
func ExampleAudit_Sum() {
	audit := battery.Audit{
		SystemV: d("12.8"), LowestV: d("11.5"),
		Loads: []battery.AuditLoad{
			{Name: "bench grinder", PowerW: n("420"), HoursADay: n("2"), DutyPercent: d("60"), SurgeW: n("1300"), Inverter: "inverter"},
			{Name: "lights", CurrentA: n("2.5"), AtV: n("12"), HoursADay: n("6"), DutyPercent: d("100")},
			{Name: "card reader", PowerW: n("6"), HoursADay: n("8"), DutyPercent: d("100"), StandbyW: n("0.8")},
		},
		Inverters: []battery.AuditInverter{{
			Inverter: battery.Inverter{Name: "inverter", EfficiencyPercent: n("90"), IdleW: n("9")},
			OnHours:  n("8"), Isolated: true,
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
	// I_l.2 = ceil(P.2 ÷ U_lo × 100) ÷ 100
	//       = ceil(30 ÷ 11.5 × 100) ÷ 100   current of the load at the lowest
	//       = 2.61 A                        voltage (2) [Ohm's law]
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
	// I_l.3 = ceil(P.3 ÷ U_lo × 100) ÷ 100
	//       = ceil(6 ÷ 11.5 × 100) ÷ 100    current of the load at the lowest
	//       = 0.53 A                        voltage (3) [Ohm's law]
	// a day:
	// E_d = E_i.1 + E_l.1 + E_l.2 + E_l.3   energy a day [arithmetic]
	//     = 72 + 560 + 180 + 60.8
	//     = 872.8 Wh
	// Q_d = ceil(E_d ÷ U_n × 100) ÷ 100     charge a day [arithmetic]
	//     = ceil(872.8 ÷ 12.8 × 100) ÷ 100
	//     = 68.19 Ah
	// grinding, inverter:
	// P_au.1 = P.1                          output together (1) [arithmetic]
	//        = 420
	//        = 420 W
	// η_au.1 = 90 %                         efficiency at that output (1) (given)
	// I_au.1 = ceil(((P_au.1 × 100 ÷ η_au.1 + P_0.1) ÷ U_lo) × 100) ÷ 100
	//        = ceil(((420 × 100 ÷ 90 + 9) ÷ 11.5) × 100) ÷ 100
	//        = 41.37 A                      what the inverter takes for the loads
	//                                       that run together (1) [Ohm's law]
	// P_bu.1 = P_au.1 + max(0, P_su.1 − P.1)
	//        = 420 + max(0, 1300 − 420)     output while the worst load starts (1)
	//        = 1300 W                       [arithmetic]
	// η_bu.1 = 90 %                         efficiency at that output (1) (given)
	// I_bu.1 = ceil(((P_bu.1 × 100 ÷ η_bu.1 + P_0.1) ÷ U_lo) × 100) ÷ 100
	//        = ceil(((1300 × 100 ÷ 90 + 9) ÷ 11.5) × 100) ÷ 100
	//        = 126.39 A                     what it takes while the worst of them
	//                                       starts (1) [Ohm's law]
	// P_cu.1 = P_su.1                       output while all start (1)
	//        = 1300                         [arithmetic]
	//        = 1300 W
	// η_cu.1 = 90 %                         efficiency at that output (1) (given)
	// I_cu.1 = ceil(((P_cu.1 × 100 ÷ η_cu.1 + P_0.1) ÷ U_lo) × 100) ÷ 100
	//        = ceil(((1300 × 100 ÷ 90 + 9) ÷ 11.5) × 100) ÷ 100
	//        = 126.39 A                     what it takes while all of them start
	//                                       (1) [Ohm's law]
	// grinding:
	// I_co.1 = I_au.1 + I_l.2 + I_l.3       current of the loads that run together
	//        = 41.37 + 2.61 + 0.53          (1) [arithmetic]
	//        = 44.51 A
	// I_su.1 = I_co.1 + max(0, I_bu.1 − I_au.1)
	//        = 44.51 + max(0, 126.39 − 41.37)
	//        = 129.53 A                     current together while the worst of
	//                                       them starts (1) [arithmetic]
	// I_all.1 = I_cu.1 + I_l.2 + I_l.3      current together if all start at once
	//         = 126.39 + 2.61 + 0.53        (1) [arithmetic]
	//         = 129.53 A
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

// Two inverters of 3 kW on a 12 V bank, at the voltage where they switch off
// (common practice: the current is shown there, where it is greatest). It is
// more than most 12 V switches, fuses and batteries are made for.
func ExampleInverter_Draw() {
	pair := battery.Inverter{Name: "two of 3 kW", EfficiencyPercent: n("90"), IdleW: n("40")}
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
		Inverter: battery.Inverter{Name: "inverter", EfficiencyPercent: n("90"), IdleW: n("12")},
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

// The voltage that a whole installation leaves an inverter at its surge.
func ExampleSurgeVoltage_Check() {
	check, err := battery.SurgeVoltage{TerminalV: d("10.92"), CutOutV: n("10.8")}.Check()
	if err != nil {
		fmt.Println(err) // every bad field, what it got and what it wants
		return
	}
	fmt.Println(check.ID, check.Verdict())
	// Output:
	// B05 passes
}

// At 4.5 kW for a second this bank still holds, but below the cut-out.
func ExampleFeed_Check() {
	feed := battery.Feed{
		Inverter: battery.Inverter{Name: "inverter", EfficiencyPercent: n("90"), IdleW: n("12")},
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
	one := battery.BankBattery{
		Name: "left", Chemistry: "LiFePO4", NominalV: d("12.8"), CapacityAh: d("150"),
		LowMilliohm: n("3"), HighMilliohm: n("8"), FullV: d("13.6"), EmptyV: d("12.9"),
		DepthPercent: n("80"), AgeingPercent: n("80"), GreatestDischargeA: n("150"), GreatestChargeA: n("75"),
		CutOutV: n("10"), LeadMilliohm: n("0.5"),
	}
	other := one
	other.Name, other.LeadMilliohm = "right", n("1.5")
	return battery.Bank{Batteries: []battery.BankBattery{one, other}, Series: 1, BatteryC: n("25")}
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
	// R_hi.1 = 8 mΩ                         highest resistance of a battery:
	//                                       empty, aged, cold (1) (given)
	// R_lo.1 = 3 mΩ                         lowest resistance of a battery: full,
	//                                       new, warm (1) (given)
	// R_l.1 = 0.5 mΩ                        leads of one battery (1) (given)
	// R_sl.1 = R_lo.1 + R_l.1               lowest resistance of a string with its
	//        = 3 + 0.5                      leads (1) [arithmetic]
	//        = 3.5 mΩ
	// R_sg.1 = R_hi.1 + R_l.1               highest resistance of a string with
	//        = 8 + 0.5                      its leads (1) [arithmetic]
	//        = 8.5 mΩ
	// R_hi.2 = 8 mΩ                         highest resistance of a battery:
	//                                       empty, aged, cold (2) (given)
	// R_lo.2 = 3 mΩ                         lowest resistance of a battery: full,
	//                                       new, warm (2) (given)
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
	// I_mx.1 = floor((I_m.1 × (1 + R_sl.1 ÷ R_sg.2)) × 100) ÷ 100
	//        = floor((150 × (1 + 3.5 ÷ 9.5)) × 100) ÷ 100
	//        = 205.26 A                     current of the bank at which this
	//                                       string, new among aged ones, reaches
	//                                       its limit (1) [Kirchhoff's laws]
	// I_mx.2 = floor((I_m.2 × (1 + R_sl.2 ÷ R_sg.1)) × 100) ÷ 100
	//        = floor((150 × (1 + 4.5 ÷ 8.5)) × 100) ÷ 100
	//        = 229.41 A                     current of the bank at which this
	//                                       string, new among aged ones, reaches
	//                                       its limit (2) [Kirchhoff's laws]
	// I_ad = min(I_mx.1, I_mx.2)            greatest current of the bank with one
	//      = min(205.26, 229.41)            string new beside aged ones
	//      = 205.26 A                       [Kirchhoff's laws]
	// I_sh.1 = floor((I_m.1 × (1 + R_sl.1 ÷ R_sl.2)) × 100) ÷ 100
	//        = floor((150 × (1 + 3.5 ÷ 4.5)) × 100) ÷ 100
	//        = 266.66 A                     current of the bank at which this
	//                                       string reaches its limit (1)
	//                                       [Kirchhoff's laws]
	// I_sh.2 = floor((I_m.2 × (1 + R_sl.2 ÷ R_sl.1)) × 100) ÷ 100
	//        = floor((150 × (1 + 4.5 ÷ 3.5)) × 100) ÷ 100
	//        = 342.85 A                     current of the bank at which this
	//                                       string reaches its limit (2)
	//                                       [Kirchhoff's laws]
	// I_lim = min(I_sh.1, I_sh.2)           greatest current of the bank, as its
	//       = min(266.66, 342.85)           strings share it [Kirchhoff's laws]
	//       = 266.66 A
}

func ExampleBank_Charge() {
	limits, err := pair().Charge()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("limits added up", limits.SumA.Decimal, "A, by shares", limits.LimitA.Decimal, "A, a new one among aged ones", limits.MixedA.Decimal, "A")
	// Output:
	// limits added up 150 A, by shares 133.33 A, a new one among aged ones 102.63 A
}

// One of the pair is out: the other has its own limit. Of a pair whose
// resistance nobody knows, the answer says what to measure.
func ExampleBank_Without() {
	bank := pair()
	left, err := bank.Without(1)
	if err != nil {
		fmt.Println(err)
		return
	}
	limits, err := left.Discharge()
	fmt.Println(len(left.Batteries), "left,", limits.LimitA.Decimal, "A", err)
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
	f, err := pair().Fault(battery.FaultPath{LowMilliohm: d("0.6"), HighMilliohm: n("0.9"), LimitedA: n("50")})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(f.Working)
	// Output:
	// R_hi.1 = 8 mΩ                         highest resistance of a battery:
	//                                       empty, aged, cold (1) (given)
	// R_lo.1 = 3 mΩ                         lowest resistance of a battery: full,
	//                                       new, warm (1) (given)
	// R_l.1 = 0.5 mΩ                        leads of one battery (1) (given)
	// R_sl.1 = R_lo.1 + R_l.1               lowest resistance of a string with its
	//        = 3 + 0.5                      leads (1) [arithmetic]
	//        = 3.5 mΩ
	// R_sg.1 = R_hi.1 + R_l.1               highest resistance of a string with
	//        = 8 + 0.5                      its leads (1) [arithmetic]
	//        = 8.5 mΩ
	// R_hi.2 = 8 mΩ                         highest resistance of a battery:
	//                                       empty, aged, cold (2) (given)
	// R_lo.2 = 3 mΩ                         lowest resistance of a battery: full,
	//                                       new, warm (2) (given)
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
	// I_kl = floor(((E_e.1 ÷ R_sg.1 + E_e.2 ÷ R_sg.2) × 1000 ÷ (1 + R_ch ×
	//       (1 ÷ R_sg.1 + 1 ÷ R_sg.2))) × 100) ÷ 100
	//      = floor(((12.9 ÷ 8.5 + 12.9 ÷ 9.5) × 1000 ÷ (1 + 0.9 × (1 ÷ 8.5 +
	//       1 ÷ 9.5))) × 100) ÷ 100         least prospective fault current
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
	fmt.Printf("full %s V behind %s milliohm, empty %s V behind %s milliohm\n", s.FullV.Decimal, s.LowMilliohm.Decimal, s.EmptyV.Decimal, s.HighMilliohm.Decimal)
	// Output:
	// full 13.6 V behind 1.9687 milliohm, empty 12.9 V behind 4.4862 milliohm
}

func ExampleBankAutonomy_Reserve() {
	a := battery.BankAutonomy{Bank: pair(), EnergyWh: d("950"), Days: d("3")}
	r, err := a.Reserve()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("lasts", r.Days.Decimal, "days")
	// Output:
	// lasts 2.58 days
}

func ExampleBankAutonomy_Check() {
	a := battery.BankAutonomy{Bank: pair(), EnergyWh: d("950"), Days: d("3")}
	c, err := a.Check()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(c.ID, c.Title+":", c.Verdict(), "by", c.Margin(), c.Unit)
	// Output:
	// B03 Energy for the days asked: fails by -392.4 Wh
}

// A day and a half that ends with a working day's morning.
func ExampleBankAutonomy_Wanted() {
	a := battery.BankAutonomy{Bank: pair(), EnergyWh: d("950"), Days: d("1.5"), PartWh: n("700")}
	z, err := a.Wanted()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(z.EnergyWh, "Wh")
	// Output:
	// 1650 Wh
}

// rated is two lead-acid batteries side by side, the first rated in 100 h and
// again in 10 h, the second in 20 h.
func rated() battery.Bank {
	one := battery.BankBattery{
		Name: "front", Chemistry: "lead-acid AGM", NominalV: d("12"), CapacityAh: d("200"), RateH: n("100"), FastAh: n("170"), FastH: n("10"),
		FullV: d("12.8"), EmptyV: d("12.2"), DepthPercent: n("50"), AgeingPercent: n("80"),
	}
	other := one
	other.Name, other.CapacityAh, other.RateH, other.FastAh, other.FastH = "rear", d("100"), n("20"), decimal.NullDecimal{}, decimal.NullDecimal{}
	return battery.Bank{Batteries: []battery.BankBattery{one, other}, Series: 1, BatteryC: n("27")}
}

// A day at 6 A: the first battery is emptied faster than in its 100 h.
func ExampleBank_CapacityAt() {
	c, err := rated().CapacityAt(d("6"), d("24"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(c.Working)
	c, err = rated().CapacityAt(d("30"), d("4"))
	fmt.Println(c.Missing, err)
	// Output:
	// U_bn = 12 V                           nominal voltage of one battery (given)
	// n_s = 1                               batteries in series (given)
	// U_n = n_s × U_bn                      nominal voltage [Kirchhoff's laws]
	//     = 1 × 12
	//     = 12 V
	// C_s.1 = 200 Ah                        capacity of one string (1) (given)
	// C_s.2 = 100 Ah                        capacity of one string (2) (given)
	// C = C_s.1 + C_s.2                     capacity [arithmetic]
	//   = 200 + 100
	//   = 300 Ah
	// I_mn = 6 A                            mean current of the use (given)
	// I_s1.1 = ceil(I_mn × C_s.1 ÷ C × 100) ÷ 100
	//        = ceil(6 × 200 ÷ 300 × 100) ÷ 100
	//        = 4 A                          current of one string (1) [Kirchhoff's
	//                                       laws]
	// I = I_s1.1                            current [arithmetic]
	//   = 4
	//   = 4 A
	// C.1 = 200 Ah                          capacity (1) (given)
	// H.1 = 100 h                           hours of the rating (1) (given)
	// I_1h.1 = C.1 ÷ H.1                    current of the rating (1) [arithmetic]
	//        = 200 ÷ 100
	//        = 2 A
	// C.2 = 170 Ah                          capacity (2) (given)
	// H.2 = 10 h                            hours of the rating (2) (given)
	// I_1h.2 = C.2 ÷ H.2                    current of the rating (2) [arithmetic]
	//        = 170 ÷ 10
	//        = 17 A
	// k_P = ln(H.1 ÷ H.2) ÷ ln(C.2 × H.1 ÷ (C.1 × H.2))
	//     = ln(100 ÷ 10) ÷ ln(170 × 100 ÷ (200 × 10))
	//     ≈ 1.0759                          Peukert's exponent [Peukert's law]
	// t_e = floor(H.1 × (C.1 ÷ (I × H.1)) ^ k_P × 100) ÷ 100
	//     = floor(100 × (200 ÷ (4 × 100)) ^ 1.0759 × 100) ÷ 100
	//     = 47.43 h                         time until empty [Peukert's law,
	//                                       referred to a rating; from memory]
	// C_I = floor((C.1 × (C.1 ÷ (I × H.1)) ^ (k_P − 1)) × 100) ÷ 100
	//     = floor((200 × (200 ÷ (4 × 100)) ^ (1.0759 − 1)) × 100) ÷ 100
	//     = 189.74 Ah                       capacity at the current [Peukert's
	//                                       law, referred to a rating; from
	//                                       memory]
	// C_s.1 = C_I                           capacity of one string (1)
	//       = 189.74                        [arithmetic]
	//       = 189.74 Ah
	// C = C_s.1 + C_s.2                     capacity [arithmetic]
	//   = 189.74 + 100
	//   = 289.74 Ah
	// ask the maker of front for its capacity at 20 A or more (in at most 10 h): none that is stated, 200 Ah in 100 h or 170 Ah in 10 h, tells what it gives at that current <nil>
}

func ExampleBankAutonomy_Usable() {
	a := battery.BankAutonomy{Bank: rated(), EnergyWh: d("1300"), Days: d("1")}
	u, err := a.Usable()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(u.CapacityAh.Decimal, "Ah at", u.MeanA.Decimal, "A; usable:", u.ChargeAh.Decimal, "Ah")
	a.EnergyWh = d("9000")
	u, err = a.Usable()
	fmt.Println(u.Missing, err)
	// Output:
	// 293.83 Ah at 4.52 A; usable: 117.532 Ah
	// ask the maker of front for its capacity at 20.84 A or more (in at most 9.59 h): none that is stated, 200 Ah in 100 h or 170 Ah in 10 h, tells what it gives at that current <nil>
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

// What one battery gave as a whole installation was solved, the other having dropped out.
func ExampleDischargeShare_Check() {
	check, err := battery.DischargeShare{Battery: "A", CurrentA: n("96"), LimitA: n("100"), Lost: true}.Check()
	if err != nil {
		fmt.Println(err) // every bad field, what it got and what it wants
		return
	}
	fmt.Println(check.ID, check.Verdict(), check.Demand, "A of", check.Limit, "A")
	// Output:
	// B02 passes 96 A of 100 A
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

// An inverter and the lamps are off before the fridge starves; nothing sheds the
// fan.
func ExampleBank_CheckOutlasts() {
	fridge := battery.MustRun{Name: "fridge", LowestV: n("10.4"), DropV: n("0.3")}
	rest := []battery.ShedLoad{{Name: "inverter", AtV: n("10.8"), DropV: d("0.2")}, {Name: "lamps", AtV: n("11.5")}, {Name: "fan"}}
	c, err := pair().CheckOutlasts(fridge, rest)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(c.Working)
	fmt.Println(c.ID, c.Title+":", c.Verdict(), "by", c.Margin(), c.Unit)
	c, err = pair().CheckOutlasts(fridge, rest[2:])
	fmt.Println(c.Verdict(), c.Silent, err)
	// Output:
	// inverter:
	// U_c.1 = 10.8 V                        cut-out voltage of the load (1)
	//                                       (given)
	// ΔU_p = 0.2 V                          voltage drop along the path (given)
	// U_g.1 = U_c.1 + ΔU_p                  voltage of the bank at which a load is
	//       = 10.8 + 0.2                    switched off (1) [Kirchhoff's laws]
	//       = 11 V
	// lamps:
	// U_c.2 = 11.5 V                        cut-out voltage of the load (2)
	//                                       (given)
	// ΔU_p = 0 V                            voltage drop along the path (given)
	// U_g.2 = U_c.2 + ΔU_p                  voltage of the bank at which a load is
	//       = 11.5 + 0                      switched off (2) [Kirchhoff's laws]
	//       = 11.5 V
	// U_sh = min(U_g.1, U_g.2)              voltage of the bank at which the last
	//      = min(11, 11.5)                  of the rest is switched off
	//      = 11 V                           [arithmetic]; no voltage switches
	//                                       these off, they give up by themselves
	//                                       at best: fan; the curve is flat, and a
	//                                       voltage says little about the charge
	//                                       left. Rested at 3.3 V a cell, 29.72 to
	//                                       98.33 % is no answer: count the
	//                                       ampere-hours in and out (a shunt), or
	//                                       charge until full and count from there
	//                                       [Sunil 2025]
	// fridge:
	// U_lo = 10.4 V                         lowest working voltage (given)
	// ΔU_p = 0.3 V                          voltage drop along the path (given)
	// U_ms = U_lo + ΔU_p                    voltage of the bank at which what must
	//      = 10.4 + 0.3                     run starves [Kirchhoff's laws]
	//      = 10.7 V
	// B20 What must run outlasts the rest: passes by 0.3 V
	// not applicable no voltage switches these off, they give up by themselves at best: fan <nil>
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
	// k_P = ln(H.1 ÷ H.2) ÷ ln(C.2 × H.1 ÷ (C.1 × H.2))
	//     = ln(20 ÷ 1) ÷ ln(60 × 20 ÷ (100 × 1))
	//     ≈ 1.2056                          Peukert's exponent [Peukert's law]
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
	// 2.87 h, 71.83 Ah
	// current_a is 90: want at most 60 A, that of the fast rating
	// outside the table
}

// A fridge that runs half of the day and a lamp: 480 of 600 Wh are 80 %.
func ExampleAuditSum_Shares() {
	sum, err := battery.Audit{
		SystemV: d("12"), LowestV: d("12"),
		Loads: []battery.AuditLoad{
			{Name: "fridge", PowerW: n("40"), HoursADay: n("24"), DutyPercent: d("50")},
			{Name: "lamp", PowerW: n("20"), HoursADay: n("6"), DutyPercent: d("100")},
		},
	}.Sum()
	if err != nil {
		fmt.Println(err)
		return
	}
	shares, err := sum.Shares()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range shares.Loads {
		fmt.Println(s.Name, s.SharePercent, "%")
	}
	// Output:
	// fridge 80 %
	// lamp 20 %
}

// Three days of 1200 Wh from gel batteries at -5 °C, with a 100 A load and 45 A
// of charging.
func ExampleStandAlone_Size() {
	s := battery.StandAlone{
		EnergyWh: d("1200"), SystemV: d("24"), Days: d("3"), Chemistry: "lead-acid gel", BatteryC: n("-5"),
		LoadA: n("100"), LoadRateH: d("4"), ChargeA: n("45"), ChargeRateH: d("10"), BlockV: n("12"), BlockAh: n("110"),
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
	// a_g = 80 %                            share of the capacity left when it is
	//                                       replaced [UFC 3-520-01:2002, appendix
	//                                       E, lead-acid]; not given: the smallest
	//                                       listed
	// energy:
	// C_en = ceil(E_d × N_d × 1000000 ÷ (U_n × d_u × c_T × a_g) × 100) ÷ 100
	//      = ceil(1200 × 3 × 1000000 ÷ (24 × 50 × 62.89 × 80) × 100) ÷ 100
	//      = 596.28 Ah                      capacity for the energy [PV sizing
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
	//     = max(596.28, 636.04, 715.54)     battery]; charge governs
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
	b := battery.Backup{PowerW: d("600"), EfficiencyPercent: d("88"), TimeH: d("2"), EndCellV: d("1.75"), Cells: 12, TemperatureFactor: d("1")}
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
	//                                       (given)
	// k_ag = 1.25                           factor for ageing [UFC 3-520-01:2002,
	//                                       appendix E-2, lead-acid]
	// k_d = 1.1                             design margin [industrial UPS
	//                                       worksheet, worksheet, any]
	// C_w = ceil(P × 100 × t_b × k_T × k_ag × k_d ÷ (η × U_e) × 100) ÷ 100
	//     = ceil(600 × 100 × 2 × 1 × 1.25 × 1.1 ÷ (88 × 21) × 100) ÷ 100
	//     = 89.29 Ah                        capacity wanted [industrial UPS
	//                                       worksheet, worksheet; second hand]
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
	// k_d = 1.1                             design margin [industrial UPS
	//                                       worksheet, worksheet, any]
	// k_ag = 1.25                           factor for ageing [UFC 3-520-01:2002,
	//                                       appendix E-2, lead-acid]
	// C_w = ceil(C_un × k_T × k_d × k_ag × 100) ÷ 100
	//     = ceil(160 × 1.3 × 1.1 × 1.25 × 100) ÷ 100
	//     = 286 Ah                          capacity wanted [IEEE 485, 6.2; from
	//                                       memory]
}

// Three ratings of one battery give the two wells.
func ExampleKineticRatings_Fit() {
	m, err := wells().Fit()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(m.Working)
	// Output:
	// C.1 = 100 Ah                          capacity (1) (given)
	// H.1 = 20 h                            hours of the rating (1) (given)
	// C.2 = 93 Ah                           capacity (2) (given)
	// H.2 = 10 h                            hours of the rating (2) (given)
	// C.3 = 60 Ah                           capacity (3) (given)
	// H.3 = 1 h                             hours of the rating (3) (given)
	// k_w = 0.677 1/h                       rate at which the wells level [Manwell
	//                                       and McGowan 1993, as fitted in NREL
	//                                       ssc]
	// c_w = 0.47511                         share of the charge that is at hand
	//                                       when full [Manwell and McGowan 1993,
	//                                       as fitted in NREL ssc]
	// q_max = C.1 × (1 − exp(−k_w × H.1) + c_w × (k_w × H.1 − 1 + exp(−k_w ×
	//       H.1))) ÷ (k_w × c_w × H.1)      charge of both wells, full [Manwell
	//       = 100 × (1 − exp(−0.677 × 20) + 0.47511 × (0.677 × 20 − 1 +
	//       exp(−0.677 × 20))) ÷ (0.677 × 0.47511 × 20)
	//       ≈ 108.16 Ah                     and McGowan 1993, as fitted in NREL
	//                                       ssc]
}

func wells() battery.KineticRatings {
	return battery.KineticRatings{
		Slow:   battery.HourRating{CapacityAh: d("100"), RateH: d("20")},
		Middle: battery.HourRating{CapacityAh: d("93"), RateH: d("10")},
		Fast:   battery.HourRating{CapacityAh: d("60"), RateH: d("1")},
	}
}

func ExampleKinetic_At() {
	m, err := wells().Fit()
	if err != nil {
		fmt.Println(err)
		return
	}
	full, err := m.At(d("100"))
	fmt.Println(full.AvailableAh, "Ah at hand,", full.BoundAh, "Ah bound", err)
	// Output:
	// 51.3876 Ah at hand, 56.7717 Ah bound <nil>
}

// An hour at 40 A, an hour of rest: charge flows back to where it is at hand.
func ExampleKinetic_Step() {
	m, err := wells().Fit()
	if err != nil {
		fmt.Println(err)
		return
	}
	state, err := m.At(d("100"))
	for _, amps := range []string{"40", "0"} {
		if err != nil {
			fmt.Println(err)
			return
		}
		state, err = m.Step(battery.KineticStep{State: state, CurrentA: d(amps), TimeH: d("1")})
		fmt.Println(amps, "A wanted,", state.DeliveredA, "A delivered, at hand", state.AvailableAh, "Ah, bound", state.BoundAh, "Ah")
	}
	// Output:
	// 40 A wanted, 40 A delivered, at hand 17.1292 Ah, bound 51.0301 Ah
	// 0 A wanted, 0 A delivered, at hand 24.632 Ah, bound 43.5273 Ah
}

// A flooded battery at rest: a quarter of its charge is all that a voltmeter
// can tell apart.
func ExampleRested_StateOfCharge() {
	r := battery.Rested{Chemistry: "lead-acid flooded", VoltageV: d("12.32"), Cells: 6, MeterV: n("0.02")}
	s, err := r.StateOfCharge()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(s.Working)
	flat := battery.Rested{Chemistry: "LiFePO4", VoltageV: d("13.2"), Cells: 4, MeterV: n("0.02")}
	s, err = flat.StateOfCharge()
	fmt.Println(s.Missing, err)
	// Output:
	// U_rs = 12.32 V                        rested voltage (given)
	// U_mt = 0.02 V                         how far the meter may be wrong (given)
	// n_c = 6                               cells in series (given)
	// U_sp = 0 V                            how far rested cells differ [common
	//                                       practice, rested cells differ,
	//                                       lead-acid flooded; from memory]
	// U_c1 = (U_rs − U_mt) ÷ n_c − U_sp     lowest voltage of a cell [arithmetic]
	//      = (12.32 − 0.02) ÷ 6 − 0
	//      = 2.05 V
	// U_c2 = (U_rs + U_mt) ÷ n_c + U_sp     highest voltage of a cell [arithmetic]
	//      = (12.32 + 0.02) ÷ 6 + 0
	//      ≈ 2.0567 V
	// s_1.1 = 50 %                          no less charged than (1) [BCI
	//                                       practice, five-point table, full
	//                                       1.265, rested]
	// s_2.1 = 75 %                          no more charged than (1) [BCI
	//                                       practice, five-point table, full
	//                                       1.265, rested]
	// s_1.2 = 50 %                          no less charged than (2) [TM
	//                                       5-3805-262-20, battery voltage test,
	//                                       TM 5-3805-262-20, lights on 15 s, then
	//                                       3 min off]
	// s_2.2 = 75 %                          no more charged than (2) [TM
	//                                       5-3805-262-20, battery voltage test,
	//                                       TM 5-3805-262-20, lights on 15 s, then
	//                                       3 min off]
	// s_1 = min(s_1.1, s_1.2)               no less charged than [arithmetic]
	//     = min(50, 50)
	//     = 50 %
	// s_2 = max(s_2.1, s_2.2)               no more charged than [arithmetic]
	//     = max(75, 75)
	//     = 75 %
	// 29.72 to 98.33 % is no answer: count the ampere-hours in and out (a shunt), or charge until full and count from there <nil>
}

// A hydrometer in a cold cell reads high.
func ExampleElectrolyte_Density() {
	e := battery.Electrolyte{Reading: d("1.245"), AtC: n("-5")}
	density, err := e.Density()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(density.Working)
	// Output:
	// D_m = 1.245                           relative density as read (given)
	// T_el = -5 °C                          temperature of the electrolyte (given)
	// T_F = T_el × 9 ÷ 5 + 32               temperature of the electrolyte
	//     = (-5) × 9 ÷ 5 + 32               [arithmetic]
	//     = 23 °F
	// k_D = 0.004 SG per 10 °F              correction of density [TM
	//                                       5-4210-230-14&P-1, hydrometer
	//                                       correction, 0.004 per 10 F]; about 80
	//                                       F
	// D = D_m + k_D × (T_F − 80) ÷ 10       relative density at 80 °F (26.7 °C)
	//   = 1.245 + 0.004 × (23 − 80) ÷ 10    [TM 5-4210-230-14&P-1, hydrometer
	//   = 1.2222                            correction, 0.004 per 10 F]
}

func ExampleElectrolyte_StateOfCharge() {
	e := battery.Electrolyte{Reading: d("1.245"), AtC: n("-5")}
	s, err := e.StateOfCharge()
	fmt.Println(s.LeastPercent, "to", s.GreatestPercent, "%", s.Missing, err)
	e = battery.Electrolyte{Reading: d("1.21"), AtC: n("27"), Table: "full 1.265"}
	s, err = e.StateOfCharge()
	fmt.Println(s.LeastPercent, "to", s.GreatestPercent, "% of a battery that has 1.265 when full", err)
	// Output:
	// 50 to 75 %  <nil>
	// 50 to 75 % of a battery that has 1.265 when full <nil>
}

func ExampleElectrolyte_Freezing() {
	e := battery.Electrolyte{Reading: d("1.160"), AtC: n("20")}
	f, err := e.Freezing()
	fmt.Println(f.FreezingC, "°C", err)
	// Output:
	// -15 °C <nil>
}

// A battery left flat over the winter.
func ExampleElectrolyte_CheckFreezing() {
	e := battery.Electrolyte{Reading: d("1.115"), AtC: n("20")}
	c, err := e.CheckFreezing(n("-12"))
	fmt.Println(c.ID, c.Title+":", c.Verdict(), "by", c.Margin(), c.Unit, err)
	// Output:
	// B07 Electrolyte does not freeze: fails by -4.8 °C <nil>
}

// A battery half empty in a hard winter.
func ExampleCheckFreezing() {
	c, err := battery.CheckFreezing(d("50"), n("-18"))
	fmt.Println(c.Verdict(), err)
	fmt.Print(c.Working)
	// Output:
	// fails <nil>
	// s = 50 %                              state of charge (given)
	// D = 1.19                              relative density at 80 °F (26.7 °C)
	//                                       [BCI practice, five-point table, full
	//                                       1.265, rested]
	// T_fF = 5 °F                           freezing point [OD1002, tropical
	//                                       climates, density 1.15]; the next
	//                                       lower density for 1.19
	// T_fz = ceil(((T_fF − 32) × 5 ÷ 9) × 10) ÷ 10
	//      = ceil(((5 − 32) × 5 ÷ 9) × 10) ÷ 10
	//      = -15 °C                         freezing point in °C [arithmetic]
	// T_b = -18 °C                          temperature of the battery (given)
}

func ExampleTwoLoads_Resistance() {
	m, err := battery.TwoLoads{FirstA: d("5"), FirstV: d("12.58"), SecondA: d("105"), SecondV: d("12.12")}.Resistance()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(m.Working)
	// Output:
	// I.1 = 5 A                             current (1) (given)
	// U_t.1 = 12.58 V                       voltage at the terminals (1) (given)
	// I.2 = 105 A                           current (2) (given)
	// U_t.2 = 12.12 V                       voltage at the terminals (2) (given)
	// E_0 = (U_t.1 × I.2 − U_t.2 × I.1) ÷ (I.2 − I.1)
	//     = (12.58 × 105 − 12.12 × 5) ÷ (105 − 5)
	//     = 12.603 V                        voltage of the source at rest [IEC
	//                                       60896-21, short-circuit current and
	//                                       internal resistance; from memory]
	// I_kb = (U_t.1 × I.2 − U_t.2 × I.1) ÷ (U_t.1 − U_t.2)
	//      = (12.58 × 105 − 12.12 × 5) ÷ (12.58 − 12.12)
	//      ≈ 2739.8 A                       current of the battery into a short
	//                                       circuit [IEC 60896-21, short-circuit
	//                                       current and internal resistance; from
	//                                       memory]
	// R_m = (U_t.1 − U_t.2) × 1000 ÷ (I.2 − I.1)
	//     = (12.58 − 12.12) × 1000 ÷ (105 − 5)
	//     = 4.6 mΩ                          internal resistance as measured [IEC
	//                                       60896-21, short-circuit current and
	//                                       internal resistance; from memory]
}

func ExampleCircuit_Loaded() {
	l, err := battery.Circuit{EmfV: d("12.7"), PathMilliohm: d("15"), LoadOhm: d("0.25")}.Loaded()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(l.Working)
	// Output:
	// E_0 = 12.7 V                          voltage of the source at rest (given)
	// R_p = 15 mΩ                           resistance of the source and of the
	//                                       whole path (given)
	// R_L = 0.25 Ω                          resistance of the load (given)
	// I = E_0 ÷ (R_L + R_p ÷ 1000)          current [Ohm's law]
	//   = 12.7 ÷ (0.25 + 15 ÷ 1000)
	//   ≈ 47.925 A
	// P_h = I × I × R_p ÷ 1000              heat in the source and the path [Ohm's
	//     = 47.925 × 47.925 × 15 ÷ 1000     law]
	//     ≈ 34.451 W
	// U_t = E_0 − I × R_p ÷ 1000            voltage at the terminals [Ohm's law]
	//     = 12.7 − 47.925 × 15 ÷ 1000
	//     ≈ 11.981 V
	// P = U_t × I                           power [Ohm's law]
	//   = 11.981 × 47.925
	//   ≈ 574.19 W
}

// What a plate of 680 A says about the resistance in the cold.
func ExampleCrankingRating_Resistance() {
	r, err := battery.CrankingRating{Rating: "EN1", RatedA: d("680"), RestedV: d("12.6")}.Resistance()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(r.Working)
	// Output:
	// I_cr = 680 A                          rated cranking current of one battery
	//                                       (given)
	// U_rs = 12.6 V                         rested voltage (given)
	// T_b = -18 °C                          temperature of the battery [EN
	//                                       50342-1, cranking performance, EN1]
	// U_e = 7.5 V                           voltage at the end [EN 50342-1,
	//                                       cranking performance, EN1]
	// R_cr = ceil(((U_rs − U_e) × 1000 ÷ I_cr) × 100) ÷ 100
	//      = ceil(((12.6 − 7.5) × 1000 ÷ 680) × 100) ÷ 100
	//      = 7.5 mΩ                         greatest resistance that the rating
	//                                       allows [Ohm's law]
}

// A starter battery that may lose 25 Ah before the engine no longer starts.
func ExampleParked_Days() {
	p := battery.Parked{Chemistry: "lead-acid AGM", CapacityAh: d("80"), SpareAh: d("25"), DrainA: n("0.035")}
	s, err := p.Days()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(s.Working)
	// Output:
	// I_pk = 0.035 A                        current drawn while parked (given)
	// C = 80 Ah                             capacity (given)
	// p_sd = 4 %                            self-discharge a month [battery data
	//                                       sheets, typical values, lead-acid
	//                                       VRLA, AGM or gel; from memory]
	// Q_sp = 25 Ah                          charge that may be lost (given)
	// N_pk = floor((Q_sp ÷ (I_pk × 24 + C × p_sd ÷ 3000)) × 100) ÷ 100
	//      = floor((25 ÷ (0.035 × 24 + 80 × 4 ÷ 3000)) × 100) ÷ 100
	//      = 26.4 d                         days that it may stand [arithmetic]
}

func ExampleCycling_Life() {
	l, err := battery.Cycling{Chemistry: "LiFePO4", DepthPercent: d("70"), CyclesAYear: d("150")}.Life()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(l.Working)
	// Output:
	// d_u = 70 %                            share of the charge that may be used
	//                                       (given)
	// n_ya = 150                            cycles a year (given)
	// n_y.1 = 900                           cycles (1) [common practice, cycle
	//                                       life by depth, LiFePO4, 80 % depth;
	//                                       from memory]; to 70 % of the capacity
	// n_y = min(n_y.1)                      cycles [arithmetic]
	//     = min(900)
	//     = 900
	// N_y = floor(n_y ÷ n_ya × 100) ÷ 100   years [arithmetic]
	//     = floor(900 ÷ 150 × 100) ÷ 100
	//     = 6 a
}

func ExampleAmpereHourCount_After() {
	c := battery.AmpereHourCount{CapacityAh: d("200"), ChargeAh: d("120"), ColdPercent: d("85"), FloorPercent: n("20"), CurrentA: d("60"), TimeH: d("2")}
	z, err := c.After()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(z.Working)
	// Output:
	// C = 200 Ah                            capacity (given)
	// Q_st = 120 Ah                         charge stored (given)
	// c_T = 85 %                            share of the capacity at the
	//                                       temperature (given)
	// s_fl = 20 %                           state of charge kept back (given)
	// I = 60 A                              current (given)
	// t_s = 2 h                             time of the step (given)
	// C_T = C × c_T ÷ 100                   capacity at the temperature
	//     = 200 × 85 ÷ 100                  [arithmetic]
	//     = 170 Ah
	// Q_a = min(Q_st, C_T)                  charge within reach [arithmetic, the
	//     = min(120, 170)                   rest waits for warmth]
	//     = 120 Ah
	// I_la = floor((max(0, Q_a − C_T × s_fl ÷ 100) ÷ t_s) × 10000) ÷ 10000
	//      = floor((max(0, 120 − 170 × 20 ÷ 100) ÷ 2) × 10000) ÷ 10000
	//      = 43 A                           greatest current that lasts the step
	//                                       [arithmetic]
	// I_del = min(I, I_la)                  current delivered [arithmetic]
	//       = min(60, 43)
	//       = 43 A
	// Q_b = Q_a − I_del × t_s               charge left [arithmetic]
	//     = 120 − 43 × 2
	//     = 34 Ah
	// s = Q_b × 100 ÷ C_T                   state of charge [arithmetic]
	//   = 34 × 100 ÷ 170
	//   = 20 %
}

// Six cells of 110 Ah flooded lead-acid on a charger with a boost stage.
func ExampleGassing_Ventilation() {
	v, err := battery.Gassing{Chemistry: "lead-acid flooded", Cells: 6, CapacityAh: d("110"), Charge: "boost"}.Ventilation()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(v.Working)
	// Output:
	// n_c = 6                               cells in series (given)
	// C = 110 Ah                            capacity (given)
	// I_gas = 20 mA/Ah                      current that makes gas, safety factor
	//                                       included [IEC 62485-2, table 1,
	//                                       lead-acid flooded, boost]; half with
	//                                       recombination plugs
	// I_gs = I_gas × C ÷ 1000               current that makes gas [IEC 62485-2,
	//      = 20 × 110 ÷ 1000                8.2, flow constant]
	//      = 2.2 A
	// k_v = 0.05 m³/Ah                      air for each ampere-hour of gassing in
	//                                       one cell [IEC 62485-2, 8.2, flow
	//                                       constant]; the product 0.0504, rounded
	// Q_v = k_v × n_c × I_gs                air flow [IEC 62485-2, 8.2, flow
	//     = 0.05 × 6 × 2.2                  constant]
	//     = 0.66 m³/h
	// k_A = 28 cm²/m³/h                     opening for each flow [IEC 62485-2,
	//                                       8.3, opening area per flow]; each of
	//                                       inlet and outlet; air at 0.1 m/s
	// A_v = k_A × Q_v                       free area of each opening [IEC
	//     = 28 × 0.66                       62485-2, 8.3, opening area per flow]
	//     = 18.48 cm²
}

func ExampleGassing_CheckOpening() {
	c, err := battery.Gassing{Chemistry: "lead-acid flooded", Cells: 6, CapacityAh: d("110"), Charge: "boost"}.CheckOpening(d("15"))
	fmt.Println(c.ID, c.Title+":", c.Verdict(), "by", c.Margin(), c.Unit, err)
	c, err = battery.Gassing{Chemistry: "LiFePO4", Cells: 4, CapacityAh: d("200"), Charge: "boost"}.CheckOpening(d("0"))
	fmt.Println(c.Verdict(), "-", c.Silent, err)
	// Output:
	// B08 Opening for ventilation: fails by -3.48 cm² <nil>
	// not applicable - no gas in service is known of LiFePO4: its maker says what its vents need <nil>
}

func ExampleRoundOpening() {
	o, err := battery.RoundOpening(d("18.48"))
	fmt.Println(o.DiameterCM, "cm", err)
	// Output:
	// 4.86 cm <nil>
}

func ExampleHydrogenRoom_Air() {
	a, err := battery.HydrogenRoom{
		FloatAPer100Ah: d("0.24"), TemperatureFactor: d("1"), CapacityAh: d("400"), Cells: 12, LimitPercent: d("1"), RoomM3: d("6"),
	}.Air()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(a.Working)
	// Output:
	// I_100 = 0.24 A/100Ah                  float current (given)
	// k_fl = 1                              factor of the float current for
	//                                       temperature (given)
	// C = 400 Ah                            capacity (given)
	// n_c = 12                              cells in series (given)
	// k_H ≈ 0.00045307 m³/Ah                hydrogen of one ampere-hour in one
	//                                       cell [UFC 3-410-04N:2004, 8-3,
	//                                       hydrogen per ah]; printed as 0.016 ft³
	// H_v = I_100 × k_fl ÷ 100 × C × k_H × n_c
	//     = 0.24 × 1 ÷ 100 × 400 × 0.00045307 × 12
	//     = 0.005219 m³/h                   hydrogen set free [UFC 3-410-04N:2004,
	//                                       8-3.1]
	// p_H = 1 %                             hydrogen in air that must not be
	//                                       reached (given)
	// V_r = 6 m³                            volume of the room (given)
	// Q_v = ceil(H_v × 100 ÷ p_H × 10000) ÷ 10000
	//     = ceil(0.005219 × 100 ÷ 1 × 10000) ÷ 10000
	//     = 0.5219 m³/h                     air flow [UFC 3-410-04N:2004, 8-3.1]
	// n_v = Q_v ÷ V_r                       air changes [UFC 3-410-04N:2004,
	//     = 0.5219 ÷ 6                      8-3.1]
	//     = 0.087 1/h
}

func ExampleHydrogenPerAh() {
	h, err := battery.HydrogenPerAh(d("25"))
	fmt.Println(h.M3PerAh, "m³", err)
	// Output:
	// 0.00045642 m³ <nil>
}

func ExampleDilution_Constant() {
	c, err := battery.Dilution{LimitPercent: d("4"), HydrogenM3PerAh: d("0.00042"), SafetyFactor: d("5")}.Constant()
	fmt.Println(c.Dilution, "parts of air,", c.M3PerAh, "m³ for each Ah and cell", err)
	// Output:
	// 24 parts of air, 0.0504 m³ for each Ah and cell <nil>
}

// locker is a steel locker on a wall of the load space.
func locker() battery.Box {
	return battery.Box{HeightM: d("0.45"), WidthM: d("0.9"), DepthM: d("0.4"), Position: "single, on a wall", Material: "painted sheet steel"}
}

func ExampleBox_Cooling() {
	c, err := locker().Cooling()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(c.Working)
	// Output:
	// H_b = 0.45 m                          height of the box (given)
	// W_b = 0.9 m                           width of the box (given)
	// D_b = 0.4 m                           depth of the box (given)
	// k_hw = 1.4                            factor of the faces height × width
	//                                       [VDE 0660-500, effective cooling area,
	//                                       single, on a wall, height x width]
	// k_hd = 1.8                            factor of the faces height × depth
	//                                       [VDE 0660-500, effective cooling area,
	//                                       single, on a wall, height x depth]
	// k_wd = 1.4                            factor of the faces width × depth [VDE
	//                                       0660-500, effective cooling area,
	//                                       single, on a wall, width x depth]
	// A_e = k_hw × H_b × W_b + k_hd × H_b × D_b + k_wd × W_b × D_b
	//     = 1.4 × 0.45 × 0.9 + 1.8 × 0.45 × 0.4 + 1.4 × 0.9 × 0.4
	//     = 1.395 m²                        effective cooling area [VDE 0660-500,
	//                                       effective cooling area]
}

// An inverter and a converter that lose 95 W in it, on a day of 35 °C.
func ExampleBox_Temperature() {
	inside, err := locker().Temperature(n("95"), n("35"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(inside.RiseC, "K warmer:", inside.InsideC, "°C")
	// Output:
	// 12.39 K warmer: 47.39 °C
}

func ExampleBox_CheckTemperature() {
	c, err := locker().CheckTemperature(n("95"), n("35"), n("45"))
	fmt.Println(c.ID, c.Title+":", c.Verdict(), "by", c.Margin(), c.Unit, err)
	// Output:
	// B09 Bay no warmer than its cables and devices were judged at: fails by -2.39 °C <nil>
}

func ExampleBox_WallLoss() {
	l, err := locker().WallLoss(d("95"), d("10"))
	fmt.Println("the walls take", l.WallW, "W, air has to take", l.RestW, "W", err)
	// Output:
	// the walls take 76.725 W, air has to take 18.275 W <nil>
}

func ExampleAirflow_Flow() {
	f, err := battery.Airflow{LossW: d("95"), RiseC: d("8")}.Flow()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(f.Working)
	// Output:
	// P_v = 95 W                            power lost as heat (given)
	// ΔT = 8 K                              rise of temperature (given)
	// ρ_a = 1.2 kg/m³                       density of air [properties of air,
	//                                       density, air density, for design; from
	//                                       memory]
	// c_p = 1005 J/(kg K)                   heat capacity of air [properties of
	//                                       air, heat capacity, air specific heat]
	// Q_v = ceil(3600 × P_v ÷ (ρ_a × c_p × ΔT) × 100) ÷ 100
	//     = ceil(3600 × 95 ÷ (1.2 × 1005 × 8) × 100) ÷ 100
	//     = 35.45 m³/h                      air flow [properties of air, heat
	//                                       balance]
}

// Two batteries drawn 330 mm long arrive 35 mm longer: the bay was built to
// the drawing. Measure the article first (common practice).
func ExampleFit_Fit() {
	drawn := battery.Fit{
		Case:  battery.Case{LengthMM: d("330"), WidthMM: d("172"), HeightMM: d("215"), ToleranceMM: n("2")},
		Space: battery.Space{LengthMM: d("820"), WidthMM: d("210"), HeightMM: d("275"), ToleranceMM: n("3")},
		Along: 2, Across: 1, GapMM: n("10"), WallMM: n("12"), AboveMM: n("50"),
		CableMM: n("15"), BendTimes: d("4"), LugMM: n("20"),
	}
	fitted, err := drawn.Fit()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(fitted.Working)
	arrived := drawn
	arrived.Case.LengthMM = d("365")
	fitted, err = arrived.Fit()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range fitted.Checks {
		fmt.Println(c.ID, c.Title+":", c.Verdict(), "by", c.Margin(), c.Unit)
	}
	// Output:
	// t_cs = 2 mm                           how much bigger the case may arrive
	//                                       (given)
	// g_c = 10 mm                           gap between cases (given)
	// b_wl = 12 mm                          clearance to each wall (given)
	// t_sp = 3 mm                           how much smaller the space may turn
	//                                       out (given)
	// d_cb = 15 mm                          outer diameter of the cable (given)
	// k_bd = 4                              bend radius ÷ diameter, at least
	//                                       (given)
	// l_lug = 20 mm                         from the stud to the bend (given)
	// x_b = l_lug + k_bd × d_cb + d_cb      room for the bend [common practice,
	//     = 20 + 4 × 15 + 15                room round a battery]
	//     = 95 mm
	// n_x = 2                               cases in the length (given)
	// l_c = 330 mm                          length of a case (given)
	// x_1 = n_x × (l_c + t_cs) + (n_x − 1) × g_c + 2 × b_wl + x_b
	//     = 2 × (330 + 2) + (2 − 1) × 10 + 2 × 12 + 95
	//     = 793 mm                          length wanted [common practice, room
	//                                       round a battery]
	// L_sp = 820 mm                         length of the space (given)
	// x_2 = L_sp − t_sp                     length there is [arithmetic]
	//     = 820 − 3
	//     = 817 mm
	// n_yr = 1                              cases in the width (given)
	// w_c = 172 mm                          width of a case (given)
	// y_1 = n_yr × (w_c + t_cs) + (n_yr − 1) × g_c + 2 × b_wl
	//     = 1 × (172 + 2) + (1 − 1) × 10 + 2 × 12
	//     = 198 mm                          width wanted [common practice, room
	//                                       round a battery]
	// W_sp = 210 mm                         width of the space (given)
	// y_2 = W_sp − t_sp                     width there is [arithmetic]
	//     = 210 − 3
	//     = 207 mm
	// h_c = 215 mm                          height of a case with its terminals
	//                                       (given)
	// a_v = 50 mm                           clearance above (given)
	// z_1 = h_c + t_cs + a_v                height wanted [common practice, room
	//     = 215 + 2 + 50                    round a battery]
	//     = 267 mm
	// H_sp = 275 mm                         height of the space (given)
	// z_2 = H_sp − t_sp                     height there is [arithmetic]
	//     = 275 − 3
	//     = 272 mm
	// B10 Batteries fit in the length: fails by -46 mm
	// B11 Batteries fit in the width: passes by 9 mm
	// B12 Batteries fit in the height: passes by 5 mm
}

// A 27 kg battery at 10 g on four fixings.
func ExampleHoldDown_Forces() {
	f, err := battery.HoldDown{MassKg: d("27"), Times: d("10"), Fixings: 4, HeightMM: n("110"), SpacingMM: d("200")}.Forces()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(f.Working)
	// Output:
	// m = 27 kg                             mass (given)
	// k_g = 10                              acceleration in multiples of g (given)
	// n_fx = 4                              fixings that share the force (given)
	// F = ceil(m × 9.80665 × k_g × 100) ÷ 100
	//   = ceil(27 × 9.80665 × 10 × 100) ÷ 100
	//   = 2647.8 N                          force [law of moments]
	// F_s = ceil(F ÷ n_fx × 100) ÷ 100      shear on each fixing [law of moments]
	//     = ceil(2647.8 ÷ 4 × 100) ÷ 100
	//     = 661.95 N
	// h_m = 110 mm                          centre of mass above the fixings
	//                                       (given)
	// b_f = 200 mm                          between the rows of fixings (given)
	// F_l = ceil(F × h_m ÷ (b_f × floor(n_fx ÷ 2)) × 100) ÷ 100
	//     = ceil(2647.8 × 110 ÷ (200 × floor(4 ÷ 2)) × 100) ÷ 100
	//     = 728.15 N                        lift on each fixing of a row [law of
	//                                       moments]; on the row with fewer
	//                                       fixings
	// F_e = 984.07 N                        force on each fixing [law of moments]
	//     so that F_e × F_e ≥ F_s × F_s + F_l × F_l
	//     that is 984.07 × 984.07 ≥ 661.95 × 661.95 + 728.15 × 728.15
}

func ExampleHoldDown_Check() {
	c, err := battery.HoldDown{MassKg: d("27"), Times: d("10"), Fixings: 4, HeightMM: n("110"), SpacingMM: d("200")}.Check()
	fmt.Println(c.ID, c.Title+":", c.Verdict(), "-", c.Missing, err)
	// Output:
	// B13 Force on each fixing: cannot tell - what one fixing and the structure under it bear, from a structural engineer or the maker of the kit <nil>
}

func ExampleBoatPull() {
	p, err := battery.BoatPull(d("27"))
	fmt.Println(p.ForceN, "N, moves at most", p.MovementMM, "mm", err)
	// Output:
	// 400 N, moves at most 25.4 mm <nil>
}

func ExampleCraftPull() {
	p, err := battery.CraftPull(d("27"))
	fmt.Println(p.ForceN, "N, moves at most", p.MovementMM, "mm", err)
	// Output:
	// 529.56 N, moves at most 10 mm <nil>
}

// Two batteries over the rear axle and a water tank behind it.
func ExampleVehicle_Axles() {
	a, err := battery.Vehicle{
		WheelbaseM: d("3.6"), FrontKg: d("1420"), RearKg: d("1510"),
		FrontLimitKg: d("1850"), RearLimitKg: d("1650"), GrossLimitKg: d("3300"),
		Items: []battery.AddedMass{{Name: "batteries", MassKg: d("60"), BehindM: n("3.6")}, {Name: "tank", MassKg: d("80"), BehindM: n("4.5")}},
	}.Axles()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(a.Working)
	for _, c := range a.Checks[:3] {
		fmt.Println(c.ID, c.Title+":", c.Verdict(), "by", c.Margin(), c.Unit)
	}
	// Output:
	// L_w = 3.6 m                           wheelbase (given)
	// m_f = 1420 kg                         front axle as weighed (given)
	// m_r = 1510 kg                         rear axle as weighed (given)
	// m.1 = 60 kg                           mass (1) (given)
	// x_m.1 = 3.6 m                         distance behind the front axle (1)
	//                                       (given); batteries
	// m.2 = 80 kg                           mass (2) (given)
	// x_m.2 = 4.5 m                         distance behind the front axle (2)
	//                                       (given); tank
	// m_fa = ceil((m_f + (m.1 × (L_w − x_m.1) + m.2 × (L_w − x_m.2)) ÷ L_w)
	//       × 100) ÷ 100                    front axle afterwards [law of moments,
	//      = ceil((1420 + (60 × (3.6 − 3.6) + 80 × (3.6 − 4.5)) ÷ 3.6) ×
	//       100) ÷ 100                      about the front axle]
	//      = 1400 kg
	// m_ra = ceil((m_r + (m.1 × x_m.1 + m.2 × x_m.2) ÷ L_w) × 100) ÷ 100
	//      = ceil((1510 + (60 × 3.6 + 80 × 4.5) ÷ 3.6) × 100) ÷ 100
	//      = 1670 kg                        rear axle afterwards [law of moments,
	//                                       about the front axle]
	// m_ga = m_f + m_r + m.1 + m.2          gross mass afterwards [arithmetic]
	//      = 1420 + 1510 + 60 + 80
	//      = 3070 kg
	// m_fz = 1850 kg                        greatest mass of the front axle
	//                                       (given)
	// m_rz = 1650 kg                        greatest mass of the rear axle (given)
	// m_gz = 3300 kg                        greatest gross mass (given)
	// B14 Front axle: passes by 450 kg
	// B15 Rear axle: fails by -20 kg
	// B16 Gross mass: passes by 230 kg
}

// A trailer with a tool chest behind its axle: the coupling keeps 12 kg less than
// its maker asks.
func ExampleVehicle_Axles_trailer() {
	a, err := battery.Vehicle{
		WheelbaseM: d("3.0"), FrontKg: d("60"), RearKg: d("740"),
		FrontLimitKg: d("75"), RearLimitKg: d("1000"), GrossLimitKg: d("1000"), LeastFrontKg: n("50"),
		Items: []battery.AddedMass{{Name: "tool chest", MassKg: d("88"), BehindM: n("3.75")}},
	}.Axles()
	if err != nil {
		fmt.Println(err)
		return
	}
	c := a.Checks[3]
	fmt.Print(c.Working)
	fmt.Println(c.ID, c.Title+":", c.Verdict(), "by", c.Margin(), c.Unit)
	// Output:
	// L_w = 3 m                             wheelbase (given)
	// m_f = 60 kg                           front axle as weighed (given)
	// m_r = 740 kg                          rear axle as weighed (given)
	// m.1 = 88 kg                           mass (1) (given)
	// x_m.1 = 3.75 m                        distance behind the front axle (1)
	//                                       (given); tool chest
	// m_fa = ceil((m_f + (m.1 × (L_w − x_m.1)) ÷ L_w) × 100) ÷ 100
	//      = ceil((60 + (88 × (3 − 3.75)) ÷ 3) × 100) ÷ 100
	//      = 38 kg                          front axle afterwards [law of moments,
	//                                       about the front axle]
	// m_ra = ceil((m_r + (m.1 × x_m.1) ÷ L_w) × 100) ÷ 100
	//      = ceil((740 + (88 × 3.75) ÷ 3) × 100) ÷ 100
	//      = 850 kg                         rear axle afterwards [law of moments,
	//                                       about the front axle]
	// m_ga = m_f + m_r + m.1                gross mass afterwards [arithmetic]
	//      = 60 + 740 + 88
	//      = 888 kg
	// m_fz = 75 kg                          greatest mass of the front axle
	//                                       (given)
	// m_rz = 1000 kg                        greatest mass of the rear axle (given)
	// m_gz = 1000 kg                        greatest gross mass (given)
	// m_fl = 50 kg                          least mass of the front axle (given)
	// m_fk = floor((m_f + (m.1 × (L_w − x_m.1)) ÷ L_w) × 100) ÷ 100
	//      = floor((60 + (88 × (3 − 3.75)) ÷ 3) × 100) ÷ 100
	//      = 38 kg                          front axle afterwards, rounded down
	//                                       [law of moments, about the front axle]
	// B21 Least load on the front axle or coupling: fails by -12 kg
}

// A compressor motor with code letter J.
func ExampleMotor_LockedRotor() {
	l, err := battery.Motor{CodeLetter: "J", PowerHP: d("0.5"), VoltageV: d("230")}.LockedRotor()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(l.Working)
	// Output:
	// P_hp = 0.5 hp                         power of the motor (given)
	// U_m = 230 V                           voltage of the motor (given)
	// k_lm = 7.5 kVA/hp                     apparent power with the rotor held,
	//                                       middle of the letter [NFPA 70,
	//                                       430.7(B), letter J]
	// I_lm = ceil(1000 × k_lm × P_hp ÷ U_m × 100) ÷ 100
	//      = ceil(1000 × 7.5 × 0.5 ÷ 230 × 100) ÷ 100
	//      = 16.31 A                        current with the rotor held, middle of
	//                                       the letter [NFPA 70, 430.7(B)]
	// k_lr = 7.99 kVA/hp                    apparent power with the rotor held,
	//                                       end of the letter [NFPA 70, 430.7(B),
	//                                       letter J]
	// S_lr = ceil(1000 × k_lr × P_hp × 100) ÷ 100
	//      = ceil(1000 × 7.99 × 0.5 × 100) ÷ 100
	//      = 3995 VA                        greatest apparent power with the rotor
	//                                       held [NFPA 70, 430.7(B)]
	// I_lr = ceil(S_lr ÷ U_m × 100) ÷ 100   greatest current with the rotor held
	//      = ceil(3995 ÷ 230 × 100) ÷ 100   [NFPA 70, 430.7(B)]
	//      = 17.37 A
}

// A cell by the four points of its curve, half empty, at 10 A.
func ExampleCellCurve_Voltage() {
	cell := battery.CellCurve{
		FullV: d("3.45"), BendV: d("3.32"), NominalV: d("3.2"), FullAh: d("20"), BendAh: d("1"), NominalAh: d("18"),
		RatePerHour: d("0.2"), MilliohmEach: d("2"),
	}
	v, err := cell.Voltage(d("10"), d("10"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(v.Working)
	// Output:
	// U_fu = 3.45 V                         voltage at the start of the curve
	//                                       (given)
	// U_be = 3.32 V                         voltage where the first steep part
	//                                       ends (given)
	// U_no = 3.2 V                          voltage where the last steep part
	//                                       begins (given)
	// Q_fu = 20 Ah                          whole charge of the curve (given)
	// Q_be = 1 Ah                           charge drawn at the bend (given)
	// Q_no = 18 Ah                          charge drawn at the nominal point
	//                                       (given)
	// k_C = 0.2 1/h                         rate of the curve (given)
	// R_k = 2 mΩ                            resistance of the cell (given)
	// Q_l = 10 Ah                           charge left in the cell (given)
	// I = 10 A                              current (given)
	// A_k = U_fu − U_be                     height of the first steep part
	//     = 3.45 − 3.32                     [Tremblay and Dessaint 2009, as in
	//     = 0.13 V                          NREL ssc; second hand]
	// B_k = 3 ÷ Q_be                        how fast the first steep part fades
	//     = 3 ÷ 1                           [Tremblay and Dessaint 2009, as in
	//     = 3 1/Ah                          NREL ssc; second hand]
	// K_k = (U_fu − U_no + A_k × (exp(−B_k × Q_no) − 1)) × (Q_fu − Q_no) ÷
	//       Q_no                            constant of the last steep part
	//     = (3.45 − 3.2 + 0.13 × (exp(−3 × 18) − 1)) × (20 − 18) ÷ 18
	//     ≈ 0.013333 V                      [Tremblay and Dessaint 2009, as in
	//                                       NREL ssc; second hand]
	// E_k = U_fu + K_k + R_k × k_C × Q_fu ÷ 1000 − A_k
	//     = 3.45 + 0.013333 + 2 × 0.2 × 20 ÷ 1000 − 0.13
	//     ≈ 3.3413 V                        voltage constant of the curve
	//                                       [Tremblay and Dessaint 2009, as in
	//                                       NREL ssc; second hand]
	// U_kc = E_k − K_k × Q_fu ÷ Q_l + A_k × exp(−B_k × (Q_fu − Q_l)) − R_k ×
	//       I ÷ 1000                        voltage of the cell [Tremblay and
	//      = 3.3413 − 0.013333 × 20 ÷ 10 + 0.13 × exp(−3 × (20 − 10)) − 2 ×
	//       10 ÷ 1000                       Dessaint 2009, as in NREL ssc; second
	//      = 3.2947 V                       hand]
}

// 94 % at full load, at a fifth of its input.
func ExamplePartLoadCurve_Output() {
	p, err := battery.PartLoadCurve{RatedInputW: d("2000"), EfficiencyPercent: d("94")}.Output(d("400"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(p.Working)
	// Output:
	// P_in = 2000 W                         input at full output (given)
	// η = 94 %                              efficiency (given)
	// P_i = 400 W                           power taken from the supply (given)
	// z_i = P_i ÷ P_in                      share of the input at full output
	//     = 400 ÷ 2000                      [NREL/TP-6A20-62641, inverter]
	//     = 0.2
	// P = min(P_in, P_i × (0.9858 − 0.0162 × z_i − 0.0059 ÷ z_i) ÷ 0.9637) ×
	//       η ÷ 100                         power [NREL/TP-6A20-62641, inverter]
	//   = min(2000, 400 × (0.9858 − 0.0162 × 0.2 − 0.0059 ÷ 0.2) ÷ 0.9637) ×
	//       94 ÷ 100
	//   ≈ 371.85 W
}

// A winch for six minutes, then pumps and lights, on cells whose maker lists the
// capacity for each ampere.
func ExampleDutyCycle_Uncorrected() {
	u, err := battery.DutyCycle{
		Periods: []battery.Period{{CurrentA: n("120"), TimeH: d("0.1")}, {CurrentA: n("25"), TimeH: d("2.9")}},
		Factors: []battery.CapacityFactor{{TimeH: d("0.25"), AhPerA: d("0.7")}, {TimeH: d("1"), AhPerA: d("1.6")}, {TimeH: d("3"), AhPerA: d("3.9")}},
	}.Uncorrected()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(u.Working)
	z, err := battery.Corrections{UncorrectedAh: u.CapacityAh, ElectrolyteF: d("50"), From: u.Working}.Size()
	fmt.Println("to buy:", z.CapacityAh, "Ah", err)
	// Output:
	// I.1 = 120 A                           current (1) (given)
	// t_p.1 = 0.1 h                         time of the period (1) (given)
	// I.2 = 25 A                            current (2) (given)
	// t_p.2 = 2.9 h                         time of the period (2) (given)
	// K_t.1 = 0.7 Ah/A                      capacity that each ampere takes for a
	//                                       time (1) [data sheet, capacity for
	//                                       0.25 h]; the next longer time for 0.1
	//                                       h
	// C_sec.1 = I.1 × K_t.1                 capacity for a section (1) [IEEE 485,
	//         = 120 × 0.7                   cell sizing work sheet; from memory]
	//         = 84 Ah
	// K_t.2 = 1.6 Ah/A                      capacity that each ampere takes for a
	//                                       time (2) [data sheet, capacity for 1
	//                                       h]; the next shorter time for 2.9 h
	// K_t.3 = 3.9 Ah/A                      capacity that each ampere takes for a
	//                                       time (3) [data sheet, capacity for 3
	//                                       h]
	// C_sec.2 = (I.2 − I.1) × K_t.2 + I.1 × K_t.3
	//         = (25 − 120) × 1.6 + 120 × 3.9
	//         = 316 Ah                      capacity for a section (2) [IEEE 485,
	//                                       cell sizing work sheet; from memory]
	// C_un = max(C_sec.1, C_sec.2)          capacity before corrections [IEEE 485,
	//      = max(84, 316)                   cell sizing work sheet; from memory];
	//      = 316 Ah                         section 2 governs
	// to buy: 517.06 Ah <nil>
}

// 180 A from the nearly empty pair: the shorter leads carry more.
func ExampleBank_UnderLoad() {
	u, err := pair().UnderLoad(d("180"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(u.VoltageV.Decimal, "V, left", u.StringA[0], "A, right", u.StringA[1], "A")
	// Output:
	// 12.0925 V, left 95 A, right 85 A
}

// A fortnight by the monitor of a workshop trailer, from full to full.
func ExampleChargeCycle_Efficiency() {
	c := battery.ChargeCycle{ChargedAh: d("412"), DischargedAh: d("361"), ChargedWh: n("5810"), DischargedWh: n("4480")}
	e, err := c.Efficiency()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(e.Working)
	// Output:
	// Q_ci = 412 Ah                         charge put in (given)
	// Q_di = 361 Ah                         charge taken out (given)
	// η_Q = floor(Q_di × 100 ÷ Q_ci × 100) ÷ 100
	//     = floor(361 × 100 ÷ 412 × 100) ÷ 100
	//     = 87.62 %                         share of the charge that comes back
	//                                       [arithmetic]
	// E_ci = 5810 Wh                        energy put in (given)
	// E_di = 4480 Wh                        energy taken out (given)
	// η_E = floor(E_di × 100 ÷ E_ci × 100) ÷ 100
	//     = floor(4480 × 100 ÷ 5810 × 100) ÷ 100
	//     = 77.1 %                          share of the energy that comes back
	//                                       [IEC 61427-1, energy efficiency;
	//                                       second hand]
}

// Flooded traction batteries and a sealed one charge in one locker; its designer
// adds a quarter, because air finds its way badly behind the shelf.
func ExampleGasRoom_Ventilation() {
	locker := battery.GasRoom{
		Batteries: []battery.Gassing{
			{Chemistry: "lead-acid flooded", Cells: 12, CapacityAh: d("210"), Charge: "boost"},
			{Chemistry: "lead-acid AGM", Cells: 6, CapacityAh: d("95"), Charge: "boost"},
		},
		DesignFactor: d("1.25"),
	}
	v, err := locker.Ventilation()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(v.Working)
	// Output:
	// battery 1:
	// n_c = 12                              cells in series (given)
	// C = 210 Ah                            capacity (given)
	// I_gas = 20 mA/Ah                      current that makes gas, safety factor
	//                                       included [IEC 62485-2, table 1,
	//                                       lead-acid flooded, boost]; half with
	//                                       recombination plugs
	// I_gs = I_gas × C ÷ 1000               current that makes gas [IEC 62485-2,
	//      = 20 × 210 ÷ 1000                8.2, flow constant]
	//      = 4.2 A
	// k_v = 0.05 m³/Ah                      air for each ampere-hour of gassing in
	//                                       one cell [IEC 62485-2, 8.2, flow
	//                                       constant]; the product 0.0504, rounded
	// Q_v = k_v × n_c × I_gs                air flow [IEC 62485-2, 8.2, flow
	//     = 0.05 × 12 × 4.2                 constant]
	//     = 2.52 m³/h
	// k_A = 28 cm²/m³/h                     opening for each flow [IEC 62485-2,
	//                                       8.3, opening area per flow]; each of
	//                                       inlet and outlet; air at 0.1 m/s
	// A_v = k_A × Q_v                       free area of each opening [IEC
	//     = 28 × 2.52                       62485-2, 8.3, opening area per flow]
	//     = 70.56 cm²
	// Q_vs.1 = Q_v                          air flow for one battery (1)
	//        = 2.52                         [arithmetic]
	//        = 2.52 m³/h
	// battery 2:
	// n_c = 6                               cells in series (given)
	// C = 95 Ah                             capacity (given)
	// I_gas = 8 mA/Ah                       current that makes gas, safety factor
	//                                       included [IEC 62485-2, table 1,
	//                                       lead-acid VRLA, boost]; another page
	//                                       has 50 in this column
	// I_gs = I_gas × C ÷ 1000               current that makes gas [IEC 62485-2,
	//      = 8 × 95 ÷ 1000                  8.2, flow constant]
	//      = 0.76 A
	// k_v = 0.05 m³/Ah                      air for each ampere-hour of gassing in
	//                                       one cell [IEC 62485-2, 8.2, flow
	//                                       constant]; the product 0.0504, rounded
	// Q_v = k_v × n_c × I_gs                air flow [IEC 62485-2, 8.2, flow
	//     = 0.05 × 6 × 0.76                 constant]
	//     = 0.228 m³/h
	// k_A = 28 cm²/m³/h                     opening for each flow [IEC 62485-2,
	//                                       8.3, opening area per flow]; each of
	//                                       inlet and outlet; air at 0.1 m/s
	// A_v = k_A × Q_v                       free area of each opening [IEC
	//     = 28 × 0.228                      62485-2, 8.3, opening area per flow]
	//     = 6.384 cm²
	// Q_vs.2 = Q_v                          air flow for one battery (2)
	//        = 0.228                        [arithmetic]
	//        = 0.228 m³/h
	// the room:
	// k_ds = 1.25                           design factor (given)
	// Q_v = k_ds × (Q_vs.1 + Q_vs.2)        air flow [IEC 62485-2, 8.2, flow
	//     = 1.25 × (2.52 + 0.228)           constant]
	//     = 3.435 m³/h
	// k_A = 28 cm²/m³/h                     opening for each flow [IEC 62485-2,
	//                                       8.3, opening area per flow]; each of
	//                                       inlet and outlet; air at 0.1 m/s
	// A_v = k_A × Q_v                       free area of each opening [IEC
	//     = 28 × 3.435                      62485-2, 8.3, opening area per flow]
	//     = 96.18 cm²
}

func ExampleGasRoom_CheckOpening() {
	locker := battery.GasRoom{Batteries: []battery.Gassing{{Chemistry: "lead-acid AGM", Cells: 6, CapacityAh: d("95"), Charge: "boost"}}, DesignFactor: d("1")}
	c, err := locker.CheckOpening(d("150"))
	fmt.Println(c, err)
	// Output:
	// B08 Opening for ventilation passes: 6.384 cm² against 150 cm² <nil>
}
