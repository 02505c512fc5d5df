package protect_test

import (
	"fmt"
	"strings"

	"example.org/extralow/protect"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var d = decimal.RequireFromString

func some(v string) decimal.NullDecimal { return decimal.NewNullDecimal(d(v)) }

// verdict prints a check as one line and what is missing or silent.
func verdict(c working.Check) {
	fmt.Printf("%s %s: %s", c.ID, c.Title, c.Verdict())
	switch c.Verdict() {
	case working.Passes, working.Fails:
		fmt.Printf(", %s against %s\n", c.Demand, strings.TrimSpace(c.Limit.String()+" "+c.Unit))
	default:
		fmt.Printf("\n  %s%s\n", c.Missing, c.Silent)
	}
}

// A refrigerator of 9 A that runs for hours, on a cable of 24 A: which blade
// fuse?
func ExampleNeed_Window() {
	european, err := tables.RuleSetOf("european")
	if err != nil {
		fmt.Println(err)
		return
	}
	need := protect.Need{DesignA: d("9"), AmpacityA: d("24"), SetName: european.Name}
	window, err := need.Window(european.Device, "ISO 8820-3 C")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(window.Working)
	fmt.Println(window.InsideA)
	fmt.Println(window.Reason)
	// Output:
	// I_b = 9 A                             design current (given)
	// k_L = 0.8                             greatest share of the rating that the
	//                                       load may take [ISO 8820-2, user guide;
	//                                       from memory]; practice: the rule set
	//                                       is silent
	// C_d = 1                               factor of the device for its ambient
	//                                       [common practice, devices are rated in
	//                                       23 to 25 °C]; its ambient is not
	//                                       stated: taken as that
	// I_lo = ceil(I_b ÷ k_L ÷ C_d × 1000) ÷ 1000
	//      = ceil(9 ÷ 0.8 ÷ 1 × 1000) ÷ 1000
	//      = 11.25 A                        least rating that carries the load
	//                                       [arithmetic]
	// I_z = 24 A                            ampacity as installed (given)
	// k_n = 1                               greatest rating ÷ ampacity [IEC
	//                                       60364-4-43, 433.1; second hand]
	// k_2 = 1.35                            current that opens the device in its
	//                                       conventional time ÷ rating [ISO
	//                                       8820-3:2015, time-current gates,
	//                                       multiple 1.35; from memory]; some
	//                                       prints have 0.75 to 120 s for the
	//                                       small ratings
	// k_o = 1.45                            greatest such current ÷ ampacity [IEC
	//                                       60364-4-43, 433.1; second hand]
	// I_hi = floor(min(k_n × I_z, k_o × I_z ÷ k_2) × 1000) ÷ 1000
	//      = floor(min(1 × 24, 1.45 × 24 ÷ 1.35) × 1000) ÷ 1000
	//      = 24 A                           greatest rating that protects the
	//                                       conductor [IEC 60364-4-43, 433.1;
	//                                       second hand]
	// I_n = 15 A                            rating of the device [IEC 60364-4-43,
	//     so that I_lo ≤ I_n ≤ I_hi         433.1; second hand]
	//     that is 11.25 ≤ 15 ≤ 24
	// [15 20]
	// 15 A is the smallest rating that carries the load; up to 20 A protects the conductor
}

// A load of 22 A on a cable of 26 A: a gG link of 25 A lies between the two, but
// opens too late, at 1.6 times its rating.
func ExampleNeed_Window_none() {
	european, err := tables.RuleSetOf("european")
	if err != nil {
		fmt.Println(err)
		return
	}
	need := protect.Need{DesignA: d("22"), AmpacityA: d("26"), Brief: true}
	window, err := need.Window(european.Device, "IEC 60269 gG")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(window.Working)
	fmt.Println(window.Reason)
	// Output:
	// I_b = 22 A                            design current (given)
	// C_d = 1                               factor of the device for its ambient
	//                                       [common practice, devices are rated in
	//                                       23 to 25 °C]; its ambient is not
	//                                       stated: taken as that
	// I_lo = ceil(I_b ÷ C_d × 1000) ÷ 1000
	//      = ceil(22 ÷ 1 × 1000) ÷ 1000     least rating that carries the load
	//      = 22 A                           [arithmetic]
	// I_z = 26 A                            ampacity as installed (given)
	// k_n = 1                               greatest rating ÷ ampacity [IEC
	//                                       60364-4-43, 433.1; second hand]
	// k_2 = 1.6                             current that opens the device in its
	//                                       conventional time ÷ rating [IEC
	//                                       60269-1, table 2, multiple 1.6];
	//                                       conventional fusing current
	// k_o = 1.45                            greatest such current ÷ ampacity [IEC
	//                                       60364-4-43, 433.1; second hand]
	// I_hi = floor(min(k_n × I_z, k_o × I_z ÷ k_2) × 1000) ÷ 1000
	//      = floor(min(1 × 26, 1.45 × 26 ÷ 1.6) × 1000) ÷ 1000
	//      = 23.562 A                       greatest rating that protects the
	//                                       conductor [IEC 60364-4-43, 433.1;
	//                                       second hand]
	// I_n = 25 A                            rating of the device [IEC 60364-4-43,
	//     so that I_lo ≤ I_n                433.1; second hand]; the smallest that
	//     that is 22 ≤ 25                   carries the load, above the greatest
	//                                       allowed
	// I_zw = ceil(max(I_n ÷ k_n, k_2 × I_n ÷ k_o) × 1000) ÷ 1000
	//      = ceil(max(25 ÷ 1, 1.6 × 25 ÷ 1.45) × 1000) ÷ 1000
	//      = 27.587 A                       ampacity wanted for that rating [IEC
	//                                       60364-4-43, 433.1; second hand]
	// none exists: 25 A carries the load, but wants a conductor of 27.587 A and this one has 26 A; 20 A protects the conductor, but carries a load of 20 A at most
}

// The same gG link of 25 A, had it been fitted.
func ExampleWindow_Checks() {
	european, err := tables.RuleSetOf("european")
	if err != nil {
		fmt.Println(err)
		return
	}
	need := protect.Need{DesignA: d("22"), AmpacityA: d("26"), Brief: true, SetName: european.Name}
	window, err := need.Window(european.Device, "IEC 60269 gG")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range window.Checks(d("25")) {
		verdict(c)
	}
	// Output:
	// P01 the device carries its load: passes, 22 against 25 A
	// P02 the device protects the conductor: passes, 25 against 26 A
	// P03 the device opens in time on overload: fails, 40 against 37.7 A
}

// A strip fuse-link of 2 kA on a lithium bank that can drive 4.2 kA at 14.4 V.
func ExampleBreakingDuty_Checks() {
	checks, err := protect.BreakingDuty{
		GreatestFaultA: some("4200"), HighestV: d("14.4"), Family: "ISO 8820-5 SF51",
	}.Checks()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range checks {
		verdict(c)
	}
	checks, err = protect.BreakingDuty{GreatestFaultA: some("4200"), HighestV: d("14.4")}.Checks()
	if err != nil {
		fmt.Println(err)
		return
	}
	verdict(checks[0])
	// Output:
	// P04 the device can break the fault current: fails, 4200 against 2000 A
	// P05 the device is rated for the voltage: passes, 14.4 against 32 V
	// P04 the device can break the fault current: cannot tell
	//   ask the maker for the capacity at your voltage, 14.4 V d.c.: its breaking capacity is not known; on a lithium bank do not energise without it
}

// A blade fuse that its maker tested behind a class T fuse.
func ExampleBreakingDuty_Checks_backedUp() {
	checks, err := protect.BreakingDuty{
		GreatestFaultA: some("4200"), HighestV: d("14.4"), Family: "ISO 8820-3 C",
		BackedUpA: some("10000"), BackedUpAtV: some("32"),
	}.Checks()
	if err != nil {
		fmt.Println(err)
		return
	}
	verdict(checks[0])
	// Output:
	// P04 the device can break the fault current with the one upstream: passes, 4200 against 10000 A
}

func ExampleByCranking() {
	c, err := protect.ByCranking(d("12"), d("760"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(c.Working)
	// Output:
	// U_n = 12 V                            nominal voltage (given)
	// I_cca = 760 A                         cold-cranking current of all batteries
	//                                       (given)
	// I_cn.1 = 3000 A                       breaking capacity of the device (1)
	//                                       [ABYC E-11, table V-A, main; second
	//                                       hand]
	// I_cn.2 = 1500 A                       breaking capacity of the device (2)
	//                                       [ABYC E-11, table V-A, branch; second
	//                                       hand]
}

// A fuse holder 600 mm along a sheathed lead from a battery, under three sets.
func ExamplePlace_Check() {
	for _, key := range []string{"us-boat", "iso-craft", "european"} {
		set, err := tables.RuleSetOf(key)
		if err != nil {
			fmt.Println(err)
			return
		}
		place := protect.Place{AlongMM: some("600"), Sheathed: true, AtBattery: true, SetName: set.Name}
		c, err := place.Check(set.Place)
		if err != nil {
			fmt.Println(err)
			return
		}
		verdict(c)
	}
	// Output:
	// P06 the device is near enough to its source: passes, 600 against 1828.8 mm
	// P06 the device is near enough to its source: fails, 600 against 200 mm
	// P06 the device is near enough to its source: passes, 600 against 3000 mm
}

// The alternator end of a charging cable of 85 A, whose alternator gives no
// more than 70 A; and a battery end without a device.
func ExampleConductorEnd_Check() {
	boats, err := tables.RuleSetOf("us-boat")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, end := range []protect.ConductorEnd{
		{AmpacityA: d("85"), LimitA: some("70")},
		{AmpacityA: d("85")},
		{AmpacityA: d("85"), Cranking: true},
	} {
		c, err := end.Check(boats.Place)
		if err != nil {
			fmt.Println(err)
			return
		}
		verdict(c)
	}
	// Output:
	// P07 a device guards the conductor where it is due: passes, 70 against 85 A
	// P07 a device guards the conductor where it is due: fails, 1 against 0
	// P07 a device guards the conductor where it is due: not applicable
	//   the conductor's purpose is cranking; what branches off it wants a device
}

// When does a high-current blade fuse of 40 A open at 100 A?
func ExampleDevice_OpeningTime() {
	opening, err := protect.Device{Family: "ISO 8820-3 E", RatingA: d("40")}.OpeningTime(d("100"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(opening.Working)
	// Output:
	// I_n = 40 A                            rating of the device (given)
	// I = 100 A                             current (given)
	// I_g.1 = 80 A                          current of a gate (1) [ISO
	//                                       8820-3:2015, time-current gates,
	//                                       multiple 2.0; second hand]; read in
	//                                       one reproduction
	// t_g.1 = 2 s                           opening time at that gate (1) [ISO
	//                                       8820-3:2015, time-current gates,
	//                                       multiple 2.0; second hand]
	// I_g.2 = 140 A                         current of a gate (2) [ISO
	//                                       8820-3:2015, time-current gates,
	//                                       multiple 3.5; second hand]; read in
	//                                       one reproduction
	// t_g.2 = 0.2 s                         opening time at that gate (2) [ISO
	//                                       8820-3:2015, time-current gates,
	//                                       multiple 3.5; second hand]
	// t_lo = floor(t_g.1 × (t_g.2 ÷ t_g.1)^(ln(I ÷ I_g.1) ÷ ln(I_g.2 ÷
	//       I_g.1)) × 1000) ÷ 1000          opens not before [common practice,
	//      = floor(2 × (0.2 ÷ 2)^(ln(100 ÷ 80) ÷ ln(140 ÷ 80)) × 1000) ÷
	//       1000                            straight from gate to gate on
	//      = 0.798 s                        logarithmic axes]
	// I_g.1 = 80 A                          current of a gate (1) [ISO
	//                                       8820-3:2015, time-current gates,
	//                                       multiple 2.0; second hand]; read in
	//                                       one reproduction
	// t_g.1 = 50 s                          opening time at that gate (1) [ISO
	//                                       8820-3:2015, time-current gates,
	//                                       multiple 2.0; second hand]
	// I_g.2 = 140 A                         current of a gate (2) [ISO
	//                                       8820-3:2015, time-current gates,
	//                                       multiple 3.5; second hand]; read in
	//                                       one reproduction
	// t_g.2 = 7 s                           opening time at that gate (2) [ISO
	//                                       8820-3:2015, time-current gates,
	//                                       multiple 3.5; second hand]
	// t_hi = ceil(t_g.1 × (t_g.2 ÷ t_g.1)^(ln(I ÷ I_g.1) ÷ ln(I_g.2 ÷
	//       I_g.1)) × 1000) ÷ 1000          has opened by [common practice,
	//      = ceil(50 × (7 ÷ 50)^(ln(100 ÷ 80) ÷ ln(140 ÷ 80)) × 1000) ÷ 1000
	//      = 22.83 s                        straight from gate to gate on
	//                                       logarithmic axes]
}

func ExampleDevice_ConventionalCurrents() {
	c, err := protect.Device{Family: "IEC 60269 gG", RatingA: d("32")}.ConventionalCurrents()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(c.Working)
	// Output:
	// I_n = 32 A                            rating of the device (given)
	// k_1 = 1.25                            current carried for the conventional
	//                                       time ÷ rating [IEC 60269-1, table 2,
	//                                       multiple 1.25]; conventional
	//                                       non-fusing current
	// I_1 = k_1 × I_n                       current that the device carries for
	//     = 1.25 × 32                       its conventional time [arithmetic]
	//     = 40 A
	// t_cv = 3600 s                         conventional time of the device [IEC
	//                                       60269-1, table 2, multiple 1.6]
	// k_2 = 1.6                             current that opens the device in its
	//                                       conventional time ÷ rating [IEC
	//                                       60269-1, table 2, multiple 1.6];
	//                                       conventional fusing current
	// I_2 = k_2 × I_n                       current that opens the device in its
	//     = 1.6 × 32                        conventional time [arithmetic]
	//     = 51.2 A
}

func ExampleDevice_ReleaseCurrents() {
	r, err := protect.Device{Family: "IEC 60898-2 C", RatingA: d("16")}.ReleaseCurrents()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(r.Working)
	fmt.Println(r.Supply)
	// Output:
	// I_n = 16 A                            rating of the device (given)
	// k_r1 = 7                              current that does not trip the breaker
	//                                       at once ÷ rating [IEC 60898-2,
	//                                       short-circuit release, d.c.; from
	//                                       memory]
	// I_r1 = k_r1 × I_n                     current up to which the breaker does
	//      = 7 × 16                         not trip at once [arithmetic]
	//      = 112 A
	// k_r2 = 15                             current that trips the breaker at once
	//                                       ÷ rating [IEC 60898-2, short-circuit
	//                                       release, d.c.; from memory]
	// I_r2 = k_r2 × I_n                     current from which the breaker trips
	//      = 15 × 16                        at once [arithmetic]
	//      = 240 A
	// d.c.
}

// A gG link of 40 A behind a warm panel.
func ExampleDevice_Carries() {
	c, err := protect.Device{Family: "IEC 60269 gG", RatingA: d("40")}.Carries(d("55"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(c.Working)
	// Output:
	// I_n = 40 A                            rating of the device (given)
	// T_d = 55 °C                           ambient temperature of the device
	//                                       (given)
	// C_d = 0.925                           factor of the device for its ambient
	//                                       [common practice, guidance for gG
	//                                       fuse-links, 40 °C]; 1 at 40 °C, -0.005
	//                                       for each K above
	// I_d = C_d × I_n                       load that the device may carry
	//     = 0.925 × 40                      [arithmetic]
	//     = 37 A
}

// A compressor draws 60 A for 0.4 s as it starts, through a blade fuse of 30 A.
func ExampleDevice_RidesThrough() {
	fuse := protect.Device{Family: "ISO 8820-3 C", RatingA: d("30")}
	c, err := fuse.RidesThrough(protect.Surge{CurrentA: d("60"), DurationS: d("0.4")})
	if err != nil {
		fmt.Println(err)
		return
	}
	verdict(c)
	fmt.Print(c.Working)
	// Output:
	// P08 the device rides through the surge: fails, 0.4 against 0.15 s
	// I_n = 30 A                            rating of the device (given)
	// I = 60 A                              current (given)
	// t_su = 0.4 s                          duration of the surge (given)
	// I_g = 60 A                            current of a gate [ISO 8820-3:2015,
	//                                       time-current gates, multiple 2.0; from
	//                                       memory]; read for 10 A in one
	//                                       reproduction, the same figures
	// t_g = 0.15 s                          opening time at that gate [ISO
	//                                       8820-3:2015, time-current gates,
	//                                       multiple 2.0; from memory]
	// t_lo = t_g                            opens not before [ISO 8820-3:2015;
	//      = 0.15                           from memory]
	//      = 0.15 s
}

// A short circuit at the end of 1.5 mm² behind a blade fuse of 15 A; then the
// same cable fed by a charger of 20 A alone, which opens no fuse.
func ExampleDevice_Clears() {
	fuse := protect.Device{Family: "ISO 8820-3 C", RatingA: d("15")}
	checks, err := fuse.Clears(protect.FarFault{
		LeastFaultA: d("140"), Cable: protect.Cable{K: d("115"), AreaMM2: d("1.5")},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(checks[0].Working)
	verdict(checks[0])
	checks, err = fuse.Clears(protect.FarFault{LimitedA: some("20"), AmpacityA: some("17.5")})
	if err != nil {
		fmt.Println(err)
		return
	}
	verdict(checks[0])
	// Output:
	// I_n = 15 A                            rating of the device (given)
	// I_kl = 140 A                          least prospective fault current
	//                                       (given)
	// I_g = 90 A                            current of a gate [ISO 8820-3:2015,
	//                                       time-current gates, multiple 6.0; from
	//                                       memory]; some prints have 0.02 s
	//                                       minimum; 35 and 40 A are read with
	//                                       0.15 s maximum
	// I = min(I_kl, I_g)                    current [common practice, what a fuse
	//   = min(140, 90)                      lets through falls as the current
	//   = 90 A                              rises]
	// I_g = 90 A                            current of a gate [ISO 8820-3:2015,
	//                                       time-current gates, multiple 6.0; from
	//                                       memory]; some prints have 0.02 s
	//                                       minimum; 35 and 40 A are read with
	//                                       0.15 s maximum
	// t_g = 0.1 s                           opening time at that gate [ISO
	//                                       8820-3:2015, time-current gates,
	//                                       multiple 6.0; from memory]
	// t_hi = t_g                            has opened by [ISO 8820-3:2015; from
	//      = 0.1                            memory]
	//      = 0.1 s
	// W_k = I × I × t_hi                    energy let through (I²t) [IEC
	//     = 90 × 90 × 0.1                   60364-4-43, 434.5.2; second hand]
	//     = 810 A²s
	// k = 115 A√s/mm²                       constant of the adiabatic equation
	//                                       (given)
	// S = 1.5 mm²                           conductor cross-section (given)
	// W_z = k × k × S × S                   energy that the conductor bears (I²t)
	//     = 115 × 115 × 1.5 × 1.5           [IEC 60364-4-43, 434.5.2; second hand]
	//     ≈ 29756 A²s
	// P09 the device opens before the cable is hurt: passes, 810 against 29756.25 A²s
	// P10 a limited source alone need never open the device, and stays within the cable: fails, 20 against 17.5 A
}

// What a class T fuse of 60 A lets through of 1200 A at the most, by a standard that
// says no more than by when it opens at twice its rating.
func ExampleDevice_LetThrough() {
	let, err := protect.Device{Family: "UL 248-15 T 300 V", RatingA: d("60")}.LetThrough(d("1200"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(let.Working)
	// Output:
	// I_n = 60 A                            rating of the device (given)
	// I_k = 1200 A                          prospective fault current (given)
	// I_g = 120 A                           current of a gate [UL 248-1,
	//                                       time-current gates, multiple 2.0; from
	//                                       memory]; uncertain: the older class H
	//                                       list is two minutes shorter at each
	//                                       step
	// I = min(I_k, I_g)                     current [common practice, what a fuse
	//   = min(1200, 120)                    lets through falls as the current
	//   = 120 A                             rises]
	// I_g = 120 A                           current of a gate [UL 248-1,
	//                                       time-current gates, multiple 2.0; from
	//                                       memory]; uncertain: the older class H
	//                                       list is two minutes shorter at each
	//                                       step
	// t_g = 360 s                           opening time at that gate [UL 248-1,
	//                                       time-current gates, multiple 2.0; from
	//                                       memory]
	// t_hi = t_g                            has opened by [UL 248-1; from memory]
	//      = 360
	//      = 360 s
	// W_k = I × I × t_hi                    energy let through (I²t) [IEC
	//     = 120 × 120 × 360                 60364-4-43, 434.5.2; second hand]
	//     = 5184000 A²s
	// t_k = ceil(W_k ÷ (I_k × I_k) × 1000) ÷ 1000
	//     = ceil(5184000 ÷ (1200 × 1200) × 1000) ÷ 1000
	//     = 3.6 s                           duration of the fault [IEC 60364-4-43,
	//                                       434.5.2; second hand]
}

func ExampleFaultHeating_Constant() {
	k, err := protect.FaultHeating{Name: "copper", InitialC: some("70"), FinalC: d("160")}.Constant()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(k.Working)
	// Output:
	// K_m = 226 A√s/mm²                     constant of the conductor's metal [IEC
	//                                       60949, table 1, copper; second hand]
	// β = 234.5 °C                          temperature of zero resistance in the
	//                                       adiabatic equation, as a positive
	//                                       number [IEC 60949, table 1, copper;
	//                                       from memory]
	// T_i = 70 °C                           conductor temperature before the fault
	//                                       (given)
	// T_f = 160 °C                          conductor temperature that the
	//                                       insulation bears in a fault (given)
	// k = floor(K_m × sqrt(ln((β + T_f) ÷ (β + T_i))) × 100) ÷ 100
	//   = floor(226 × sqrt(ln((234.5 + 160) ÷ (234.5 + 70))) × 100) ÷ 100
	//   = 115 A√s/mm²                       constant of the adiabatic equation
	//                                       [IEC 60949; second hand]
}

func ExampleCable_Withstand() {
	w, err := protect.Cable{K: d("115"), AreaMM2: d("2.5")}.Withstand(d("300"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(w.Working)
	// Output:
	// I_k = 300 A                           prospective fault current (given)
	// k = 115 A√s/mm²                       constant of the adiabatic equation
	//                                       (given)
	// S = 2.5 mm²                           conductor cross-section (given)
	// W_z = k × k × S × S                   energy that the conductor bears (I²t)
	//     = 115 × 115 × 2.5 × 2.5           [IEC 60364-4-43, 434.5.2; second hand]
	//     ≈ 82656 A²s
	// t_z = floor(W_z ÷ (I_k × I_k) × 1000) ÷ 1000
	//     = floor(82656 ÷ (300 × 300) × 1000) ÷ 1000
	//     = 0.918 s                         time that the conductor bears the
	//                                       fault [IEC 60364-4-43, 434.5.2; second
	//                                       hand]
}

func ExampleFaultArea() {
	a, err := protect.FaultArea(d("900"), d("0.5"), d("115"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(a.Working)
	// Output:
	// I_k = 900 A                           prospective fault current (given)
	// t_k = 0.5 s                           duration of the fault (given)
	// k = 115 A√s/mm²                       constant of the adiabatic equation
	//                                       (given)
	// S_k = ceil(I_k × sqrt(t_k) ÷ k × 1000) ÷ 1000
	//     = ceil(900 × sqrt(0.5) ÷ 115 × 1000) ÷ 1000
	//     = 5.534 mm²                       least cross-section for the fault [IEC
	//                                       60364-4-43, 434.5.2; second hand]
}

func ExampleSeriesPair_Ratio() {
	pair := protect.SeriesPair{
		Upper: protect.Device{Family: "IEC 60269 gG", RatingA: d("100")},
		Lower: protect.Device{Family: "IEC 60269 gG", RatingA: d("63")},
	}
	c, err := pair.Ratio("gG16")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(c.Working)
	verdict(c)
	// Output:
	// I_n.1 = 100 A                         rating of the device (1) (given)
	// I_n.2 = 63 A                          rating of the device (2) (given)
	// k_s = 1.6                             least rating of the upper device ÷
	//                                       that of the lower [IEC 60269-2,
	//                                       selectivity, gG over gG, from 16 A;
	//                                       second hand]; whatever the make;
	//                                       compare curves below 16 A; read in one
	//                                       reproduction
	// I_ns = k_s × I_n.2                    least rating of the upper device [IEC
	//      = 1.6 × 63                       60269-2; second hand]
	//      = 100.8 A
	// I_ns = 100 A                          least rating of the upper device [IEC
	//                                       60269-1, ratings, IEC 60269 gG, 100 A;
	//                                       from memory]; two steps up the
	//                                       standard ratings count as 1.6
	// P12 the lower device opens first, by the ratio of ratings: passes, 100 against 100 A
}

func ExampleSeriesPair_Selective() {
	pair := protect.SeriesPair{
		Upper: protect.Device{Family: "IEC 60269 gG", RatingA: d("80")},
		Lower: protect.Device{Family: "IEC 60269 gG", RatingA: d("63")},
	}
	c, err := pair.Selective(d("700"))
	if err != nil {
		fmt.Println(err)
		return
	}
	verdict(c)
	// Output:
	// P13 the lower device opens first, by the gates: cannot tell
	//   the gates overlap at 215 A: the lower device may take 48.155 s, and the upper may open after 10 s; ask the makers for curves or a test table, or go by the ratio of ratings
}

// A breaker lets 21 000 A²s through at the fault; the gG link of 100 A above it
// begins to melt at 27 000 A²s.
func ExampleSeriesPair_Energies() {
	pair := protect.SeriesPair{
		Upper: protect.Device{Family: "IEC 60269 gG", RatingA: d("100")},
		Lower: protect.Device{Family: "IEC 60898-2 C", RatingA: d("32")},
	}
	c, err := pair.Energies(d("21000"), decimal.NullDecimal{})
	if err != nil {
		fmt.Println(err)
		return
	}
	verdict(c)
	// Output:
	// P25 the lower device opens first, by the energies: passes, 21000 against 27000 A²s
}

// Work lamps of 6 A in a 24 V truck, on a switch rated 40 A.
func ExampleSwitch_Check() {
	c, err := protect.Switch{SystemV: d("24"), CurrentA: d("6"), Load: "lamp", RatingA: d("40")}.Check()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(c.Working)
	verdict(c)
	// Output:
	// U_n = 24 V                            nominal voltage (given)
	// I = 6 A                               current (given)
	// k_sw = 8                              switch rating ÷ load current [FAA AC
	//                                       43.13-1B, table 11-4, 28 V, lamp]; the
	//                                       row above 24 V
	// I_sn = k_sw × I                       least rating of the switch [FAA AC
	//      = 8 × 6                          43.13-1B]
	//      = 48 A
	// I_sw = 40 A                           rating of the switch (given)
	// P14 the switch bears its kind of load: fails, 48 against 40 A
}

// A contactor of 80 A, marked for no more, in the feed of an inverter that draws
// 163 A while a motor behind it starts.
func ExampleSwitch_Start() {
	c, err := protect.Switch{RatingA: d("80"), StartA: some("163")}.Start()
	if err != nil {
		fmt.Println(err)
		return
	}
	verdict(c)
	// Output:
	// P14 the switch bears to close on the start: fails, 163 against 120 A
}

func ExampleIsolator_Checks() {
	checks, err := protect.Isolator{CurrentA: some("230"), RatingA: d("275"), StartA: some("450")}.Checks()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range checks {
		verdict(c)
	}
	// Output:
	// P15 the isolator carries the full current: passes, 230 against 275 A
	// P16 the isolator bears the starting current: cannot tell
	//   ask the maker of the switch for its short-time rating, and for how long it holds
}

// An inverter with 20 mF at its input, on a bank of 13.3 V, filled at 1.4 A.
func ExamplePrecharge_Resistor() {
	r, err := protect.Precharge{HighestV: d("13.3"), CapacitanceUF: d("20000"), LimitA: d("1.4")}.Resistor()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(r.Working)
	// Output:
	// U_hi = 13.3 V                         highest operating voltage (given)
	// C_in = 20000 µF                       input capacitance (given)
	// I_pm = 1.4 A                          greatest pre-charge current wanted
	//                                       (given)
	// R_pc = ceil(U_hi ÷ I_pm × 100) ÷ 100
	//      = ceil(13.3 ÷ 1.4 × 100) ÷ 100   pre-charge resistor [Ohm's law]
	//      = 9.5 Ω
	// I_pc = U_hi ÷ R_pc                    first current through the resistor
	//      = 13.3 ÷ 9.5                     [Ohm's law]
	//      = 1.4 A
	// P_pc = U_hi × U_hi ÷ R_pc             first power in the resistor [Ohm's
	//      = 13.3 × 13.3 ÷ 9.5              law]
	//      = 18.62 W
	// E_pc = C_in × U_hi × U_hi ÷ 2 ÷ 1000000
	//      = 20000 × 13.3 × 13.3 ÷ 2 ÷ 1000000
	//      = 1.7689 J                       heat in the resistor at each charge
	//                                       [law of the capacitor]
	// t_pc = 3 × R_pc × C_in ÷ 1000000      time to 95 % of the voltage [law of
	//      = 3 × 9.5 × 20000 ÷ 1000000      the capacitor]
	//      = 0.57 s
}

func ExampleConnectedUnit_Checks() {
	checks, err := protect.ConnectedUnit{LeastSupplyV: some("10.8"), GreatestSupplyV: d("16.2"), Code: "D"}.Checks()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range checks {
		verdict(c)
	}
	// Output:
	// P17 the unit works at the lowest supply voltage: passes, 10.5 against 10.8 V
	// P18 the unit works at the highest supply voltage: fails, 16.2 against 16 V
}

func ExampleLoadDump_Check() {
	for _, dump := range []protect.LoadDump{
		{NominalV: d("12"), SurvivesV: some("60")},
		{NominalV: d("24"), Suppressed: true, SurvivesV: some("60")},
		{NominalV: d("12")},
	} {
		c, err := dump.Check()
		if err != nil {
			fmt.Println(err)
			return
		}
		verdict(c)
	}
	// Output:
	// P19 the unit survives a load dump: fails, 101 against 60 V
	// P19 the unit survives a load dump: passes, 58 against 60 V
	// P19 the unit survives a load dump: cannot tell
	//   ask the maker of the unit whether it survives a load dump of 101 V, or keep the battery from being disconnected while it is charged
}

// A reading lamp whose leads are swapped, and one that is helped to start from a
// lorry.
func ExampleSupplyTest_Check() {
	for _, test := range []protect.SupplyTest{
		{NominalV: d("12"), Kind: "reversed voltage", SurvivesV: some("14")},
		{NominalV: d("12"), Kind: "jump start", SurvivesV: some("18")},
		{NominalV: d("24"), Kind: "reversed voltage"},
	} {
		c, err := test.Check()
		if err != nil {
			fmt.Println(err)
			return
		}
		verdict(c)
	}
	// Output:
	// P28 the unit survives a reversed supply: passes, 14 against 14 V
	// P28 the unit survives a jump start: fails, 24 against 18 V
	// P28 the unit survives a reversed supply: cannot tell
	//   ask the maker of the unit whether it survives 28 V: reversed voltage
}

// A module of 10.5 A: the least device for one string.
func ExampleSolarArray_LeastRating() {
	a, err := protect.SolarArray{Count: 3, ShortA: d("10.5")}.LeastRating(1)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(a.Working)
	// Output:
	// I_mod = 10.5 A                        short-circuit current of the module
	//                                       (given)
	// n_par = 1                             strings in parallel (given)
	// k_su = 1.25                           factor for strong sun [NFPA 70,
	//                                       690.8(A); second hand]
	// I_con = k_su × I_mod × n_par          greatest lasting current of the
	//       = 1.25 × 10.5 × 1               strings [arithmetic]
	//       = 13.125 A
	// k_co = 1.25                           factor for a load that lasts [NFPA 70,
	//                                       210.20(A); 215.3]
	// I_lo = k_co × I_con                   least rating that carries the load
	//      = 1.25 × 13.125                  [arithmetic]
	//      ≈ 16.406 A
}

// Three strings whose modules bear a series device of 20 A, without devices.
func ExampleSolarArray_Checks() {
	checks, err := protect.SolarArray{Count: 3, ShortA: d("10.5"), ModuleFuseA: some("20")}.Checks()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range checks {
		verdict(c)
	}
	// Output:
	// P20 no string is fed more than its modules bear: fails, 26.25 against 20 A
	// P21 the string's device carries the strongest sun: not applicable
	//   no device is fitted in the strings
	// P22 the string's device is within the module's limit: not applicable
	//   no device is fitted in the strings
}

func ExampleProtectiveArea() {
	a, err := protect.ProtectiveArea(d("70"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(a.Working)
	// Output:
	// S_l = 70 mm²                          cross-section of the line conductor
	//                                       (given)
	// S_pe = S_l ÷ 2                        least cross-section of the protective
	//      = 70 ÷ 2                         conductor [IEC 60364-5-54; from
	//      = 35 mm²                         memory]
}

func ExampleSmallWire_Check() {
	size, err := tables.ParseSize("AWG 14")
	if err != nil {
		fmt.Println(err)
		return
	}
	vehicles, err := tables.RuleSetOf("us-rv")
	if err != nil {
		fmt.Println(err)
		return
	}
	c, err := protect.SmallWire{Size: size, RatingA: d("20")}.Check(vehicles.Device)
	if err != nil {
		fmt.Println(err)
		return
	}
	verdict(c)
	// Output:
	// P23 the device is within the cap for a small conductor: fails, 20 against 15 A
}

// A pump of 5 A that draws 28 A with a stone in it and bears that for 10 s: its
// fuse of 7.5 A opens in time, that of the whole panel need not open at all.
func ExampleDevice_StopsStall() {
	stall := protect.Stall{CurrentA: d("28"), BearsS: some("10")}
	for _, device := range []protect.Device{{Family: "ISO 8820-3 C", RatingA: d("7.5")}, {Family: "ISO 8820-3 C", RatingA: d("30")}} {
		c, err := device.StopsStall(stall)
		if err != nil {
			fmt.Println(err)
			return
		}
		verdict(c)
	}
	// Output:
	// P29 the device opens before a stalled motor is hurt: passes, 0.413 against 10 s
	// P29 the device opens before a stalled motor is hurt: cannot tell
	//   28 A of a stalled motor need not open a device of 30 A: ask whether the motor has a protector of its own
}

// Two cables of 150 A in parallel behind a fuse of 250 A.
func ExampleParallel_Checks() {
	european, err := tables.RuleSetOf("european")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, identical := range []bool{true, false} {
		checks, err := protect.Parallel{Cables: 2, AmpacityA: d("150"), RatingA: d("250"), Identical: identical}.Checks(european.Device)
		if err != nil {
			fmt.Println(err)
			return
		}
		verdict(checks[0])
	}
	// Output:
	// P24 one device protects the cables in parallel: passes, 250 against 300 A
	// P24 one device protects the cables in parallel: fails, 250 against 150 A
}

// A thin tail of 24 A without a fuse of its own, behind a fuse of 20 A and a charger that
// gives 5 A: each bears it alone, together they do not open in time.
func ExampleUpstream_Check() {
	check, err := protect.Upstream{
		AmpacityA: d("24"), SourcesA: d("5"),
		Devices: []protect.UpstreamDevice{{Name: "feeder, at bus", Device: protect.Device{Family: "IEC 60269 gG", RatingA: d("20")}}},
	}.Check(rulesOf("european").Device)
	if err != nil {
		fmt.Println(err) // every bad field, what it got and what it wants
		return
	}
	fmt.Printf("%s %s: they open at %s A together, %s A is allowed\n", check.ID, check.Verdict(), check.Demand, check.Limit)
	// Output:
	// P03 fails: they open at 37 A together, 34.8 A is allowed
}
