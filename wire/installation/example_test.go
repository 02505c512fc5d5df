package installation_test

import (
	"fmt"

	"example.org/extralow/tables"
	"example.org/extralow/wire"
	"example.org/extralow/wire/installation"
	"github.com/shopspring/decimal"
)

var (
	d    = decimal.RequireFromString
	some = func(s string) decimal.NullDecimal { return decimal.NewNullDecimal(d(s)) }
)

// must keeps the examples short: a program handles the error.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// run is a circuit of flexible 90 °C cable, clipped in 40 °C, with 1 mΩ of contacts.
func run(from, to, lengthM, size string) installation.Circuit {
	return installation.Circuit{
		Name: from + " to " + to, From: from, To: to, JointsMilliohm: d("1"),
		Sections: []wire.Section{{LengthM: d(lengthM), Conductor: wire.Conductor{
			Size: must(tables.ParseSize(size)), Class: tables.Flexible, PlainCopper: true, Method: "C", InsulationC: d("90"), AmbientC: some("40"), Grouped: 1,
		}}},
	}
}

// van is two batteries, a charger, a fridge and a heater on one bus.
func van() installation.Installation {
	a := installation.Battery{Name: "A", Bank: "house", FullV: d("13.4"), EmptyV: d("12.4"), LeastV: d("12.4"), LowMilliohm: d("3"), HighMilliohm: d("8")}
	b := a
	b.Name = "B"
	return installation.Installation{
		Rule: must(tables.RuleSetOf("european")).Ampacity,
		Circuits: []installation.Circuit{
			run("A", "bus", "0.6", "35 mm2"), run("B", "bus", "0.6", "35 mm2"), run("charger", "bus", "1.5", "10 mm2"),
			run("bus", "fridge", "4", "4 mm2"), run("bus", "heater", "3", "6 mm2"),
		},
		Batteries: []installation.Battery{a, b},
		Sources:   []installation.Source{{Name: "charger", HeldV: d("14.4"), GreatestA: d("30"), LimitsItself: true}},
		Loads: []installation.Load{
			{Name: "fridge", Node: "fridge", Takes: installation.Demand{PowerW: some("60")}, Starts: installation.Demand{PowerW: some("180")}},
			{Name: "heater", Node: "heater", Takes: installation.Demand{Ohm: some("0.6")}},
		},
		States: []installation.State{
			{Name: "parked", Loads: []installation.LoadUse{{Load: "fridge"}, {Load: "heater"}}},
			{Name: "mains", Sources: []installation.Supply{{Source: "charger"}}, Loads: []installation.LoadUse{{Load: "fridge"}}},
		},
	}
}

// amps prints a current, or none.
func amps(a decimal.NullDecimal, places int32) string {
	if !a.Valid {
		return "none"
	}
	return a.Decimal.StringFixed(places) + " A"
}

// What flows in each circuit, how hot it gets and what its device still sees.
func Example() {
	solved, err := van().Solve()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range van().Circuits {
		x := must(solved.Circuit(c.Name))
		least := must(solved.LeastFault(installation.End{Circuit: c.Name, Node: c.From}, c.To))
		fmt.Printf("%s: %s (%s), %s °C; one lost %s; least fault %s\n", c.Name, amps(x.DesignA, 2), x.DesignCase,
			x.ConductorC.Decimal, amps(x.LostA, 2), amps(least.FaultA, 0))
	}
	// Output:
	// A to bus: 16.66 A (parked, A new among aged), 41.8 °C; one lost 30.00 A; least fault 1259 A
	// B to bus: 16.66 A (parked, B new among aged), 41.8 °C; one lost 30.00 A; least fault 1259 A
	// charger to bus: 30.00 A (mains, with its sources), 48.3 °C; one lost 30.00 A; least fault none
	// bus to fridge: 4.99 A (parked, on the batteries alone), 40.7 °C; one lost 5.04 A; least fault 202 A
	// bus to heater: 21.43 A (parked, on full batteries), 48 °C; one lost 19.54 A; least fault 344 A
}

// tablesRule is the ampacity rule of these examples.
func tablesRule() (tables.AmpacityRule, error) {
	set, err := tables.RuleSetOf("european")
	return set.Ampacity, err
}

// craft is the van with a starter battery behind a link, an alternator, and a
// converter that feeds a radio.
func craft() installation.Installation {
	in := van()
	link := run("starter battery", "bus", "2", "25 mm2")
	link.Switch = installation.UsuallyOpen
	cable := run("starter battery", "starter", "1.5", "50 mm2")
	line := run("starter battery", "alternator", "1.5", "25 mm2")
	in.Circuits = append(in.Circuits, link, cable, line, run("bus", "converter input", "1", "6 mm2"), run("converter", "radio", "2", "2.5 mm2"))
	in.Batteries = append(in.Batteries, installation.Battery{
		Name: "starter battery", Bank: "starter", FullV: d("12.7"), EmptyV: d("12.1"), LeastV: d("11.8"), LowMilliohm: d("4"), HighMilliohm: d("9"),
	})
	in.Sources = append(in.Sources,
		installation.Source{Name: "alternator", HeldV: d("14.2"), LeastHeldV: some("13.4"), GreatestA: d("70"), OwnLoadsA: some("15")},
		installation.Source{Name: "converter", HeldV: d("13.8"), GreatestA: d("10"), LimitsItself: true, FedAt: "converter input", InputW: some("160"), InputA: some("15")})
	in.Loads = append(in.Loads,
		installation.Load{Name: "starter", Node: "starter", Cranks: true, Starts: installation.Demand{CurrentA: some("220")}},
		installation.Load{Name: "radio", Node: "radio", Takes: installation.Demand{PowerW: some("40")}, LeastV: some("10.5"), Full: installation.Demand{PowerW: some("90")}})
	in.States[0].Loads = append(in.States[0].Loads, installation.LoadUse{Load: "radio"})
	in.States = append(in.States, installation.State{Name: "driving", Sources: []installation.Supply{{Source: "alternator", CurrentA: some("45")}}})
	return in
}

// fuses are the devices of the craft.
func fuses() []installation.Device {
	fuse := func(circuit, node, rating string) installation.Device {
		return installation.Device{End: installation.End{Circuit: circuit, Node: node}, RatingA: d(rating)}
	}
	return []installation.Device{
		fuse("A to bus", "A", "60"), fuse("B to bus", "B", "60"), fuse("starter battery to bus", "starter battery", "80"),
		fuse("starter battery to bus", "bus", "80"), fuse("bus to fridge", "bus", "15"),
	}
}

// thicker is the fridge's cable in another size.
func thicker() installation.Circuit { return run("bus", "fridge", "4", "10 mm2") }

// What an alternator, a link and a converter add to the van.
func ExampleInstallation_Solve() {
	in := craft()
	solved, err := in.Solve()
	if err != nil {
		fmt.Println(err) // every bad field, what it got and what it wants
		return
	}
	for _, c := range in.Circuits[5:] {
		x := must(solved.Circuit(c.Name))
		fmt.Printf("%s: %s (%s); cranking %s (%s)\n", c.Name, amps(x.DesignA, 1), x.DesignCase, amps(x.CrankingA, 0), x.CrankingCase)
	}
	// A name that there is not is refused, and the nearest offered.
	in.Loads[0].Node = "frigde"
	_, err = in.Solve()
	fmt.Println(err)
	// Output:
	// starter battery to bus: 15.1 A (mains, starter battery to bus closed); cranking 220 A (cranking starter on A alone, every switch closed)
	// starter battery to starter: 0.0 A (); cranking 220 A (cranking starter)
	// starter battery to alternator: 70.0 A (alternator at its limit); cranking none ()
	// bus to converter input: 15.0 A (the input of converter at its limit); cranking none ()
	// converter to radio: 8.6 A (radio at its limit); cranking none ()
	// loads[0].node is "frigde": want the name of a node; nearest: fridge
}

// What an alternator's line carries.
func ExampleSolved_Currents() {
	x, err := must(craft().Solve()).Currents("starter battery to alternator")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(amps(x.DesignA, 0), x.DesignCase)
	// Output:
	// 70 A alternator at its limit
}

// The working of one circuit.
func ExampleSolved_Circuit() {
	x, err := must(van().Solve()).Circuit("charger to bus")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(x.Working)
	// Output:
	// I_b = 30 A                            design current [Kirchhoff's laws];
	//                                       mains, with its sources, solved with
	//                                       the whole installation
	// I_ls = 30 A                           greatest current with a battery lost
	//                                       [Kirchhoff's laws]; mains, charging
	//                                       without loads and without A, solved
	//                                       with the whole installation
	// I = max(I_b, I_ls)                    current [arithmetic]
	//   = max(30, 30)
	//   = 30 A
	// charger to bus, section 1:
	// I_t = 81 A                            ampacity in the table [BS 7671:2008,
	//                                       appendix 4 table 4E1A, method C, 90
	//                                       °C, 10 mm2]
	// C_a = 0.91                            factor for ambient temperature [BS
	//                                       7671:1992, appendix 4, ambient
	//                                       factors, 90 °C insulation, 40 °C;
	//                                       second hand]
	// I_c = I_t × C_a                       ampacity of the cable by itself [BS
	//     = 81 × 0.91                       7671:2008]
	//     = 73.71 A
	// T_r = 90 °C                           highest conductor temperature of the
	//                                       insulation [BS 7671:2008]; of the
	//                                       column taken
	// T_a = 40 °C                           ambient temperature (given)
	// T_t = 70 °C                           highest temperature of the terminals
	//                                       [BS 7671:2008, 512.1.2; 523.1 note b,
	//                                       fixed wiring, unless the maker
	//                                       confirms more; second hand]
	// I_tt = 65 A                           ampacity in the table that stands at
	//                                       the terminals [BS 7671:2008, appendix
	//                                       4 table 4D1A, method C, 70 °C, 10 mm2]
	// C_at = 0.87                           factor for ambient temperature in that
	//                                       table [BS 7671:1992, appendix 4,
	//                                       ambient factors, 70 °C insulation, 40
	//                                       °C; second hand]
	// I_zt = I_tt × C_at                    ampacity by the terminals [BS
	//      = 65 × 0.87                      7671:2008, note to the 90 C tables of
	//      = 56.55 A                        appendix 4; second hand]
	// I_z = min(I_c, I_zt)                  ampacity as installed [arithmetic]
	//     = min(73.71, 56.55)
	//     = 56.55 A
	// T_c = T_a + (T_r − T_a) × I × I ÷ (I_c × I_c)
	//     = 40 + (90 − 40) × 30 × 30 ÷ (73.71 × 73.71)
	//     = 48.3 °C                         conductor temperature [BS 7671:2008,
	//                                       appendix 4, clause 6.1; second hand]
	// R_ref = 1.91 mΩ/m                     resistance in the table [IEC
	//                                       60228:2004, table 3, class 5, 10 mm2]
	// T_ref = 20 °C                         temperature at which the table gives
	//                                       it [IEC 60228:2004]
	// T_0 = 234.5 °C                        temperature of zero resistance, as a
	//                                       positive number [IEC 60028, from the
	//                                       coefficient, copper]
	// R_T = R_ref × (T_0 + T_c) ÷ (T_0 + T_ref)
	//     = 1.91 × (234.5 + 48.3) ÷ (234.5 + 20)
	//     = 2.1224 mΩ/m                     resistance at the conductor's
	//                                       temperature [FAA AC 43.13-1B,
	//                                       11-66d(4)]
	// L = 1.5 m                             one-way length (given)
	// R.1 = 2 × L × R_T                     resistance of the loop, out and back
	//     = 2 × 1.5 × 2.1224                (1) [Ohm's law]
	//     = 6.3672 mΩ
	// charger to bus:
	// R_j = 1 mΩ                            joints and contacts in the loop
	//                                       (given)
	// R = R.1 + R_j                         resistance of the loop, out and back
	//   = 6.3672 + 1                        [Ohm's law]
	//   = 7.3672 mΩ
	// ΔU = I_b × R ÷ 1000                   voltage drop [Ohm's law]
	//    = 30 × 7.3672 ÷ 1000
	//    ≈ 0.22102 V
}

// The cases that can occur in a van of two batteries.
func ExampleSolved_Cases() {
	for _, c := range must(van().Solve()).Cases() {
		fmt.Printf("%s: %s\n", c.Kind, c.Name)
	}
	// Output:
	// normal: parked, on the batteries alone
	// normal: parked, on full batteries
	// normal: parked, on new batteries
	// normal: parked, A new among aged
	// normal: parked, B new among aged
	// battery lost: parked, without A
	// battery lost: parked, without B
	// brief: parked, fridge starting
	// normal: mains, on the batteries alone
	// normal: mains, with its sources
	// normal: mains, charging without loads
	// normal: mains, on new batteries
	// normal: mains, A new among aged
	// normal: mains, B new among aged
	// battery lost: mains, charging without loads and without A
	// battery lost: mains, charging without loads and without B
	// at its limit: charger at its limit
}

// The lowest voltage that the fridge gets, and where the volts are lost then.
func ExampleSolved_Volts() {
	solved := must(van().Solve())
	volts, err := solved.Volts("fridge")
	if err != nil {
		fmt.Println(err)
		return
	}
	lowest := volts[0]
	for _, v := range volts {
		if v.VoltageV.Decimal.LessThan(lowest.VoltageV.Decimal) {
			lowest = v
		}
	}
	fmt.Printf("%s V, %s\n", lowest.VoltageV.Decimal, solved.Cases()[lowest.Case].Name)
	// Output:
	// 11.545619 V, parked, fridge starting
}

// The drops from a battery's posts to the fridge while it runs on the batteries
// alone, the first case.
func ExampleCaseResult_Ladder() {
	ladder, err := must(must(van().Solve()).Case(0)).Ladder("fridge")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s V at the fridge, %s V lost\n", ladder.VoltageV.Round(3), ladder.DropV.Round(3))
	// Output:
	// 12.062 V at the fridge, 0.239 V lost
}

// What happens in one case.
func ExampleSolved_Case() {
	solved := must(van().Solve())
	for i := range solved.Cases()[:7] {
		x, err := solved.Case(i)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s: A gives %s, the fridge takes %s\n", x.Name, amps(must(x.Given("A")), 2), amps(must(x.Current("bus to fridge")), 2))
	}
	// Output:
	// parked, on the batteries alone: A gives 12.34 A, the fridge takes 4.97 A
	// parked, on full batteries: A gives 12.99 A, the fridge takes 4.57 A
	// parked, on new batteries: A gives 12.38 A, the fridge takes 4.95 A
	// parked, A new among aged: A gives 16.65 A, the fridge takes 4.96 A
	// parked, B new among aged: A gives 8.09 A, the fridge takes 4.96 A
	// parked, without A: A gives 0.00 A, the fridge takes 5.02 A
	// parked, without B: A gives 24.55 A, the fridge takes 5.02 A
}

// asked is a case of one's own: a start with a battery missing.
func asked() installation.Case {
	return installation.Case{Name: "a start without A", Kind: installation.Brief, Loads: true, Sources: true, BatteryMissing: "A", Starting: "fridge"}
}

// surge is a state of one's own, in which the heater draws twice what it does.
func surge() installation.State {
	return installation.State{Name: "surge", Loads: []installation.LoadUse{{Load: "fridge"}, {Load: "heater", Takes: installation.Demand{Ohm: some("0.3")}}}}
}

// A fridge that starts while a heater draws twice what it should, and one of two
// batteries is gone.
func ExampleSolved_Ask() {
	x, err := must(van().Solve()).Ask(asked(), surge())
	if err != nil {
		fmt.Println(err)
		return
	}
	v, _ := x.Voltage("fridge")
	fmt.Printf("%s V at the fridge\n", v.Decimal.Round(2))
	// Output:
	// 11.18 V at the fridge
}

// The voltage of a node in a case, and none where nothing reaches it.
func ExampleCaseResult_Voltage() {
	x := must(must(van().Solve()).Case(0))
	v, err := x.Voltage("fridge")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(v.Decimal, "V")
	_, err = x.Voltage("frigde")
	fmt.Println(err)
	// Output:
	// 12.062026 V
	// node is "frigde": want the name of a live node; nearest: fridge
}

// What flows in a circuit in a case, towards its second node.
func ExampleCaseResult_Current() {
	a, err := must(must(van().Solve()).Case(0)).Current("charger to bus")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(a.Decimal, "A")
	// Output:
	// 0 A
}

// What a charger gives beside loads.
func ExampleCaseResult_Given() {
	solved := must(van().Solve())
	for i, c := range solved.Cases() {
		if c.State == 1 && c.Loads && c.Sources {
			a, err := must(solved.Case(i)).Given("charger")
			fmt.Println(a.Decimal, "A", err)
		}
	}
	// Output:
	// 30 A <nil>
}

// What a fridge draws: its power over the voltage that it gets.
func ExampleCaseResult_Drawn() {
	x := must(must(van().Solve()).Case(0))
	a, err := x.Drawn("fridge")
	if err != nil {
		fmt.Println(err)
		return
	}
	v := must(x.Voltage("fridge"))
	fmt.Println(a.Decimal.Mul(v.Decimal).Round(3), "W")
	// Output:
	// 60 W
}

// What carries the fridge's current from either battery.
func ExampleSolved_Between() {
	circuits, err := must(van().Solve()).Between("fridge", "A")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(circuits)
	// Output:
	// [A to bus bus to fridge]
}

// Whether the fridge, which works from 10.5 V, gets that while it starts.
func ExampleCaseResult_CheckVoltage() {
	x := must(must(van().Solve()).Ask(asked(), surge()))
	check, err := x.CheckVoltage("fridge", some("10.5"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(check.ID, check.Verdict())
	// Output:
	// W04 passes
}

// A heater that asks for more than a battery can bring.
func ExampleCaseResult_CollapsedAt() {
	in := van()
	in.Loads[0].Takes = installation.Demand{PowerW: some("30000")}
	x, err := must(in.Solve()).Case(0)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(x.Name, "does not hold: see", x.CollapsedAt())
	// Output:
	// parked, on the batteries alone does not hold: see fridge
}

// What a short circuit on the bus draws at the most, and which source gives it.
func ExampleSolved_GreatestFault() {
	f, err := must(craft().Solve()).GreatestFault("bus")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(f.FaultA.Round(0), "A")
	for _, s := range f.Sources {
		fmt.Println(s.Name, s.CurrentA.Round(0), "A, at its limit:", s.AtLimit)
	}
	// Output:
	// 9520 A
	// A 3656 A, at its limit: false
	// B 3656 A, at its limit: false
	// starter battery 1477 A, at its limit: false
	// charger 30 A, at its limit: true
	// alternator 700 A, at its limit: true
}

// What the device at the fridge's circuit may have to break.
func ExampleSolved_ThroughEnd() {
	x, err := must(van().Solve()).ThroughEnd(atBus)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(x.FaultA.Round(0), "A")
	// Output:
	// 7343 A
}

// The least that passes the device of the fridge's circuit in a short circuit at the
// fridge: one battery is missing.
func ExampleSolved_LeastFault() {
	x, err := must(van().Solve()).LeastFault(atBus, "fridge")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(x.Case)
	fmt.Print(x.Working)
	// Output:
	// without A, aged, at the lowest rested voltage
	// B:
	// E_0 = 12.4 V                          voltage of the source at rest (given)
	// R_i = 8 mΩ                            resistance of the source (given)
	// I_so ≈ 202.15 A                       current of the source [Kirchhoff's
	//                                       laws]; solved with the whole
	//                                       installation
	// bus to fridge:
	// R_b = 51.492 mΩ                       resistance of the branch (given); as
	//                                       hot as its insulation bears, with its
	//                                       contacts
	// I_br ≈ 202.15 A                       current in the branch [Kirchhoff's
	//                                       laws]
	// I_kl = I_br                           least prospective fault current
	//      = 202.15                         [Kirchhoff's laws]
	//      ≈ 202.15 A
}

// What flows into the fridge's circuit from all that stands behind it, and opens no
// device: those of the batteries and the link together, and what the charger gives.
func ExampleSolved_FedFrom() {
	x, err := must(craft().Solve()).FedFrom(atBus, fuses())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("devices and limited sources:", x.LimitA.Decimal, "A, of which sources", x.SourceA, "A")
	for _, d := range x.Devices {
		fmt.Println(d.End.Circuit, d.RatingA, "A")
	}
	// Output:
	// devices and limited sources: 230 A, of which sources 30 A
	// A to bus 60 A
	// B to bus 60 A
	// starter battery to bus 80 A
}

// What flows as the link to the starter battery is closed in need.
func ExampleSolved_Closing() {
	ways, err := must(craft().Solve()).Closing("starter battery to bus")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, x := range ways {
		fmt.Println(x.CurrentA.Round(1), "A with the side of", x.Full, "full")
	}
	// Output:
	// 151.4 A with the side of bus full
	// 64.8 A with the side of starter battery full
}

// What stays live with the link open: the bus on its own batteries, and the engine's
// side on its own.
func ExampleSolved_Live() {
	in := van()
	for i := range in.Circuits[:2] { // an isolator at each battery
		in.Circuits[i].Switch = installation.UsuallyClosed
	}
	live, err := must(in.Solve()).Live("A to bus", "B to bus")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(live, "with both isolators open, while the charger works")
	// Output:
	// [A B bus charger fridge heater] with both isolators open, while the charger works
}

// The fridge's cable in another size.
func ExampleSolved_With() {
	solved := must(van().Solve())
	with, err := solved.With(thicker())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range []*installation.Solved{solved, with} {
		x := must(s.Circuit("bus to fridge"))
		fmt.Println(x.DesignA.Decimal.Round(2), "A,", x.DropV.Decimal.Round(3), "V lost,", x.ConductorC.Decimal, "°C")
	}
	// Output:
	// 4.99 A, 0.219 V lost, 40.7 °C
	// 4.93 A, 0.086 V lost, 40.2 °C
}

func ExampleSwitch_String() {
	fmt.Println(installation.UsuallyOpen)
	// Output: usually open
}

func ExampleCaseKind_String() {
	fmt.Println(installation.BatteryLost)
	// Output: battery lost
}
