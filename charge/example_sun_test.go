package charge_test

import (
	"fmt"

	"example.org/extralow/charge"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Midsummer at 52° north.
func ExampleSky_Radiation() {
	r, err := charge.Sky{LatitudeDeg: d("52"), Day: 172}.Radiation()
	page(r.Working, err)
	// Output:
	// J = 172                               day of the year (given)
	// φ_d = 52 °                            latitude, north positive (given)
	// φ = pi ÷ 180 × φ_d                    latitude [FAO-56, eq. 22]
	//   = pi ÷ 180 × 52
	//   ≈ 0.90757 rad
	// d_r = 1 + 0.033 × cos(2 × pi × J ÷ 365)
	//     = 1 + 0.033 × cos(2 × pi × 172 ÷ 365)
	//     ≈ 0.96754                         inverse relative distance of earth and
	//                                       sun [FAO-56, eq. 23]
	// δ = 0.409 × sin(2 × pi × J ÷ 365 − 1.39)
	//   = 0.409 × sin(2 × pi × 172 ÷ 365 − 1.39)
	//   = 0.409 rad                         declination of the sun [FAO-56, eq.
	//                                       24]
	// ω_s = acos(max(−1, min(1, −tan(φ) × tan(δ))))
	//     = acos(max(−1, min(1, −tan(0.90757) × tan(0.409))))
	//     ≈ 2.1589 rad                      hour angle of sunset [FAO-56, eq. 25]
	// R_a = 24 × 60 ÷ pi × 0.0820 × d_r × (ω_s × sin(φ) × sin(δ) + cos(φ) ×
	//       cos(δ) × sin(ω_s))              radiation of a day above the
	//     = 24 × 60 ÷ pi × 0.0820 × 0.96754 × (2.1589 × sin(0.90757) ×
	//       sin(0.409) + cos(0.90757) × cos(0.409) × sin(2.1589))
	//     ≈ 41.695 MJ/m²                    atmosphere [FAO-56, eq. 21]
	// N = 24 × ω_s ÷ pi                     daylight hours [FAO-56, eq. 34]
	//   = 24 × 2.1589 ÷ pi
	//   ≈ 16.493 h
}

func ExampleSky_MeanDayRadiation() {
	r, err := charge.Sky{LatitudeDeg: d("43"), Day: 105}.MeanDayRadiation()
	page(r.Working, err)
	// Output:
	// J = 105                               day of the year (given)
	// φ_d = 43 °                            latitude, north positive (given)
	// φ = pi ÷ 180 × φ_d                    latitude [FAO-56, eq. 22]
	//   = pi ÷ 180 × 43
	//   ≈ 0.75049 rad
	// d_r = 1 + 0.033 × cos(2 × pi × J ÷ 365)
	//     = 1 + 0.033 × cos(2 × pi × 105 ÷ 365)
	//     ≈ 0.99226                         inverse relative distance of earth and
	//                                       sun [Duffie and Beckman 2013, eq.
	//                                       1.4.1a; from memory]
	// δ = pi ÷ 180 × 23.45 × sin(2 × pi × (284 + J) ÷ 365)
	//   = pi ÷ 180 × 23.45 × sin(2 × pi × (284 + 105) ÷ 365)
	//   ≈ 0.16432 rad                       declination of the sun [Duffie and
	//                                       Beckman 2013, eq. 1.6.1a; from memory]
	// ω_s = acos(max(−1, min(1, −tan(φ) × tan(δ))))
	//     = acos(max(−1, min(1, −tan(0.75049) × tan(0.16432))))
	//     ≈ 1.726 rad                       hour angle of sunset [Duffie and
	//                                       Beckman 2013, eq. 1.6.10; from memory]
	// N = 24 × ω_s ÷ pi                     daylight hours [Duffie and Beckman
	//   = 24 × 1.726 ÷ pi                   2013, eq. 1.6.11; from memory]
	//   = 13.186 h
	// R_a = 0.0864 × 1367 ÷ pi × d_r × (ω_s × sin(φ) × sin(δ) + cos(φ) ×
	//       cos(δ) × sin(ω_s))              radiation of a day above the
	//     = 0.0864 × 1367 ÷ pi × 0.99226 × (1.726 × sin(0.75049) ×
	//       sin(0.16432) + cos(0.75049) × cos(0.16432) × sin(1.726))
	//     ≈ 33.775 MJ/m²                    atmosphere [Duffie and Beckman 2013,
	//                                       eq. 1.10.3; from memory]
}

// southernWinter is a day in the southern winter.
func southernWinter() charge.Radiation {
	r, err := charge.Sky{LatitudeDeg: d("-34"), Day: 180}.Radiation()
	if err != nil {
		fmt.Println(err)
	}
	return r
}

func ExampleRadiation_FromSunshine() {
	g, err := southernWinter().FromSunshine(d("6.5"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(g.MJPerM2, "MJ/m²")
	// Output:
	// 9.49 MJ/m²
}

func ExampleRadiation_FromTemperatures() {
	g, err := southernWinter().FromTemperatures(d("17"), d("8"), true)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(g.MJPerM2, "MJ/m²")
	// Output:
	// 9.28 MJ/m²
}

func ExampleRadiation_ClearSky() {
	g, err := southernWinter().ClearSky(d("600"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(g.MJPerM2, "MJ/m²")
	// Output:
	// 12.4 MJ/m²
}

// A panel raised to 60° in a snowy January.
func ExampleSlope_Monthly() {
	s, err := charge.Slope{LatitudeDeg: d("43"), Day: 17, TiltDeg: d("60"), GroundMJ: d("6.44"), Albedo: d("0.7")}.Monthly()
	page(s.Working, err)
	// Output:
	// J = 17                                day of the year (given)
	// φ_d = 43 °                            latitude, north positive (given)
	// φ = pi ÷ 180 × φ_d                    latitude [FAO-56, eq. 22]
	//   = pi ÷ 180 × 43
	//   ≈ 0.75049 rad
	// d_r = 1 + 0.033 × cos(2 × pi × J ÷ 365)
	//     = 1 + 0.033 × cos(2 × pi × 17 ÷ 365)
	//     ≈ 1.0316                          inverse relative distance of earth and
	//                                       sun [Duffie and Beckman 2013, eq.
	//                                       1.4.1a; from memory]
	// δ = pi ÷ 180 × 23.45 × sin(2 × pi × (284 + J) ÷ 365)
	//   = pi ÷ 180 × 23.45 × sin(2 × pi × (284 + 17) ÷ 365)
	//   ≈ -0.36507 rad                      declination of the sun [Duffie and
	//                                       Beckman 2013, eq. 1.6.1a; from memory]
	// ω_s = acos(max(−1, min(1, −tan(φ) × tan(δ))))
	//     = acos(max(−1, min(1, −tan(0.75049) × tan((-0.36507)))))
	//     ≈ 1.2064 rad                      hour angle of sunset [Duffie and
	//                                       Beckman 2013, eq. 1.6.10; from memory]
	// N = 24 × ω_s ÷ pi                     daylight hours [Duffie and Beckman
	//   = 24 × 1.2064 ÷ pi                  2013, eq. 1.6.11; from memory]
	//   = 9.216 h
	// R_a = 0.0864 × 1367 ÷ pi × d_r × (ω_s × sin(φ) × sin(δ) + cos(φ) ×
	//       cos(δ) × sin(ω_s))              radiation of a day above the
	//     = 0.0864 × 1367 ÷ pi × 1.0316 × (1.2064 × sin(0.75049) ×
	//       sin((-0.36507)) + cos(0.75049) × cos((-0.36507)) × sin(1.2064))
	//     ≈ 13.363 MJ/m²                    atmosphere [Duffie and Beckman 2013,
	//                                       eq. 1.10.3; from memory]
	// R_s = 6.44 MJ/m²                      radiation of a day on level ground
	//                                       (given)
	// K_T = R_s ÷ R_a                       clearness: radiation on the ground by
	//     = 6.44 ÷ 13.363                   that above the atmosphere [Duffie and
	//     = 0.48192                         Beckman 2013, eq. 2.9.1; from memory]
	// f_d = 1.391 − 3.560 × K_T + 4.189 × K_T ^ 2 − 2.137 × K_T ^ 3
	//     = 1.391 − 3.560 × 0.48192 + 4.189 × 0.48192 ^ 2 − 2.137 × 0.48192
	//       ^ 3                             diffuse share of the radiation [Duffie
	//     ≈ 0.40907                         and Beckman 2013, eq. 2.12.1; from
	//                                       memory]
	// β_d = 60 °                            tilt from level (given)
	// φ_t = pi ÷ 180 × (φ_d − β_d)          latitude as the slope has it [Duffie
	//     = pi ÷ 180 × (43 − 60)            and Beckman 2013, section 2.19; from
	//     ≈ -0.29671 rad                    memory]
	// ω_t = min(ω_s, acos(max(−1, min(1, −tan(φ_t) × tan(δ)))))
	//     = min(1.2064, acos(max(−1, min(1, −tan((-0.29671)) ×
	//       tan((-0.36507))))))             earlier hour angle of sunset, on the
	//     ≈ 1.2064 rad                      slope or on level ground [Duffie and
	//                                       Beckman 2013, eq. 2.19.3b; from
	//                                       memory]
	// R_beam = (ω_t × sin(φ_t) × sin(δ) + cos(φ_t) × cos(δ) × sin(ω_t)) ÷
	//       (ω_s × sin(φ) × sin(δ) + cos(φ) × cos(δ) × sin(ω_s))
	//        = (1.2064 × sin((-0.29671)) × sin((-0.36507)) + cos((-0.29671))
	//       × cos((-0.36507)) × sin(1.2064)) ÷ (1.2064 × sin(0.75049) ×
	//       sin((-0.36507)) + cos(0.75049) × cos((-0.36507)) × sin(1.2064))
	//        ≈ 2.7877                       direct radiation on the slope by that
	//                                       on level ground [Duffie and Beckman
	//                                       2013, eq. 2.19.3a; from memory]
	// β_r = pi ÷ 180 × β_d                  tilt from level [arithmetic]
	//     = pi ÷ 180 × 60
	//     ≈ 1.0472 rad
	// ρ = 0.7                               share of the light that the ground
	//                                       throws back (given)
	// H_T = R_s × ((1 − f_d) × R_beam + f_d × (1 + cos(β_r)) ÷ 2 + ρ × (1 −
	//       cos(β_r)) ÷ 2)                  radiation of a day on the slope
	//     = 6.44 × ((1 − 0.40907) × 2.7877 + 0.40907 × (1 + cos(1.0472)) ÷ 2
	//       + 0.7 × (1 − cos(1.0472)) ÷ 2)
	//     = 13.71 MJ/m²                     [Duffie and Beckman 2013, eq. 2.19.1;
	//                                       from memory]
}

// noon is a hot still noon.
func noon() charge.Weather {
	return charge.Weather{IrradianceWPerM2: d("950"), AmbientC: d("30"), WindMPerS: d("1")}
}

// A module flush on the roof of a van.
func ExampleWeather_CellByNOCT() {
	c, err := noon().CellByNOCT(d("45"), "0 to 0.5 in gap")
	page(c.Working, err)
	// Output:
	// G = 950 W/m²                          irradiance on the module (given)
	// T_a = 30 °C                           ambient temperature (given)
	// T_N = 45 °C                           nominal operating cell temperature
	//                                       (given)
	// ΔT_N = 18 °C                          added to it for a gap under the module
	//                                       [PVPMC modelling guide, NOCT, NOCT
	//                                       stand-off adder, 0 to 0.5 in gap,
	//                                       adder]
	// T_cell = T_a + (T_N + ΔT_N − 20) ÷ 800 × G
	//        = 30 + (45 + 18 − 20) ÷ 800 × 950
	//        = 81.06 °C                     temperature of the cells [PVPMC
	//                                       modelling guide, NOCT]
}

func ExampleWeather_CellByMounting() {
	c, err := noon().CellByMounting("insulated back glass/polymer")
	page(c.Working, err)
	// Output:
	// G = 950 W/m²                          irradiance on the module (given)
	// T_a = 30 °C                           ambient temperature (given)
	// v_w = 1 m/s                           wind (given)
	// a_m = -2.81                           constant a of the mounting
	//                                       [SAND2004-3535, cell temperature,
	//                                       SAPM, insulated back glass/polymer, a;
	//                                       second hand]
	// b_m = -0.0455 s/m                     constant b of the mounting
	//                                       [SAND2004-3535, cell temperature,
	//                                       SAPM, insulated back glass/polymer, b;
	//                                       second hand]
	// ΔT_m = 0 K                            cells above the module's back, at 1000
	//                                       W/m² [SAND2004-3535, cell temperature,
	//                                       SAPM, insulated back glass/polymer,
	//                                       dT; second hand]
	// T_mod = T_a + G × exp(a_m + b_m × v_w)
	//       = 30 + 950 × exp((-2.81) + (-0.0455) × 1)
	//       ≈ 84.651 °C                     temperature of the module's back
	//                                       [SAND2004-3535, cell temperature;
	//                                       second hand]
	// T_cell = T_mod + G ÷ 1000 × ΔT_m      temperature of the cells
	//        = 84.651 + 950 ÷ 1000 × 0      [SAND2004-3535, cell temperature;
	//        ≈ 84.651 °C                    second hand]
}

func ExampleWeather_ModuleByWind() {
	c, err := noon().ModuleByWind(d("25"), d("6.84"))
	page(c.Working, err)
	// Output:
	// G = 950 W/m²                          irradiance on the module (given)
	// T_a = 30 °C                           ambient temperature (given)
	// v_w = 1 m/s                           wind (given)
	// u_0 = 25 W/m²/K                       heat loss in still air (given)
	// u_1 = 6.84 W s/m³/K                   heat loss for each m/s of wind (given)
	// T_mod = T_a + G ÷ (u_0 + u_1 × v_w)   temperature of the module's back
	//       = 30 + 950 ÷ (25 + 6.84 × 1)    [Faiman 2008, cell temperature; second
	//       ≈ 59.837 °C                     hand]
}

func ExampleWeather_CellByHeatLoss() {
	c, err := noon().CellByHeatLoss(d("15"), d("0"), d("0.9"), d("0.2"))
	page(c.Working, err)
	// Output:
	// G = 950 W/m²                          irradiance on the module (given)
	// T_a = 30 °C                           ambient temperature (given)
	// v_w = 1 m/s                           wind (given)
	// u_0 = 15 W/m²/K                       heat loss in still air (given)
	// u_1 = 0 W s/m³/K                      heat loss for each m/s of wind (given)
	// α_m = 0.9                             share of the light that the module
	//                                       absorbs (given)
	// η_m = 0.2                             efficiency of the module (given)
	// T_cell = T_a + G × α_m × (1 − η_m) ÷ (u_0 + u_1 × v_w)
	//        = 30 + 950 × 0.9 × (1 − 0.2) ÷ (15 + 0 × 1)
	//        = 75.6 °C                      temperature of the cells
	//                                       [pvlib-python, cell temperature]
}

// module is a module of 200 W.
func module() charge.Module {
	return charge.Module{
		PowerW: d("200"), OpenV: d("24.3"), ShortA: d("10.4"), WorkingV: d("20.4"), PowerPercentPerC: d("-0.35"),
	}
}

func ExampleModule_Power() {
	p, err := module().Power(d("950"), d("72"))
	page(p.Working, err)
	// Output:
	// P_stc = 200 W                         power of the module at 1000 W/m² and
	//                                       25 °C (given)
	// G = 950 W/m²                          irradiance on the module (given)
	// γ_P = -0.35 %/°C                      change of the power with temperature
	//                                       (given)
	// T_cell = 72 °C                        temperature of the cells (given)
	// P_m = P_stc × G ÷ 1000 × (1 + γ_P ÷ 100 × (T_cell − 25))
	//     = 200 × 950 ÷ 1000 × (1 + (-0.35) ÷ 100 × (72 − 25))
	//     ≈ 158.75 W                        power of the module
	//                                       [NREL/TP-6A20-62641, module model;
	//                                       second hand]
}

// Two in series at -18 °C by the table, as the data sheet has no coefficient.
func ExampleModule_ColdVoltage() {
	c, err := module().ColdVoltage(some("-18"), 2)
	page(c.Working, err)
	// Output:
	// n_ser = 2                             modules in series (given)
	// U_oc = 24.3 V                         open-circuit voltage of the module at
	//                                       25 °C (given)
	// T_cold = -18 °C                       lowest ambient expected (given)
	// f_oc = 1.18                           factor on the open-circuit voltage in
	//                                       the cold [NFPA 70, table 690.7(A),
	//                                       from -20 °C]
	// U_cold = n_ser × U_oc × f_oc          open-circuit voltage of the string in
	//        = 2 × 24.3 × 1.18              the cold [NFPA 70]
	//        = 57.348 V
}

func ExampleColdString_CheckController() {
	known := module()
	known.OpenPercentPerC = decimal.NewNullDecimal(d("-0.27"))
	c, err := known.ColdVoltage(some("-18"), 2)
	if err != nil {
		fmt.Println(err)
		return
	}
	verdict(c.CheckController(d("50")))
	// Output:
	// C07 Solar string in the cold: fails
	// open-circuit voltage of the string in the cold 54.24246 V, greatest input voltage of the controller 50 V
}

func ExampleModule_Circuit() {
	c, err := module().Circuit(2)
	page(c.Working, err)
	// Output:
	// I_sc = 10.4 A                         short-circuit current of the module
	//                                       (given)
	// n_par = 2                             strings in parallel (given)
	// k_sc = 1.25                           factor on the short-circuit current
	//                                       [NFPA 70, 690.8(A), greatest circuit
	//                                       current]
	// I_pv = k_sc × n_par × I_sc            greatest current of the solar circuit
	//      = 1.25 × 2 × 10.4                [NFPA 70, 690.8(A), greatest circuit
	//      = 26 A                           current]
	// k_dev = 1.25                          factor on the greatest circuit current
	//                                       [NFPA 70, 690.8(B), conductor and
	//                                       overcurrent device]
	// I_dev = k_dev × I_pv                  least rating and ampacity of the solar
	//       = 1.25 × 26                     circuit [NFPA 70, 690.8(B), conductor
	//       = 32.5 A                        and overcurrent device]
}

// The same module through either kind of controller.
func ExampleTracking() {
	i, err := charge.Tracking(d("165"), d("13.6"), d("0.95"))
	page(i.Working, err)
	// Output:
	// P_m = 165 W                           power of the module (given)
	// U_bat = 13.6 V                        voltage of the battery while it
	//                                       charges (given)
	// η_s = 0.95                            efficiency of the source, output by
	//                                       input (given)
	// I_mppt = η_s × P_m ÷ U_bat            charging current through a tracking
	//        = 0.95 × 165 ÷ 13.6            controller [Ohm's law, P = U I,
	//        ≈ 11.526 A                     efficiency = output ÷ input]
}

func ExampleModule_Series() {
	i, err := module().Series(d("165"), d("13.6"))
	page(i.Working, err)
	// Output:
	// P_m = 165 W                           power of the module (given)
	// U_mp = 20.4 V                         voltage of the module at its greatest
	//                                       power (given)
	// I_pwm = P_m ÷ U_mp                    charging current through a series
	//       = 165 ÷ 20.4                    controller [common practice, series
	//       = 8.0882 A                      controller]
}

func ExampleCombinedLosses() {
	l, err := charge.CombinedLosses(d("3"), d("5"), d("2"))
	page(l.Working, err)
	// Output:
	// l.1 = 3 %                             loss (1) (given)
	// l.2 = 5 %                             loss (2) (given)
	// l.3 = 2 %                             loss (3) (given)
	// l_sys = 100 × (1 − (1 − l.1 ÷ 100) × (1 − l.2 ÷ 100) × (1 − l.3 ÷
	//       100))                           losses together [NREL/TP-6A20-62641,
	//       = 100 × (1 − (1 − 3 ÷ 100) × (1 − 5 ÷ 100) × (1 − 2 ÷ 100))
	//       = 9.693 %                       system losses; second hand]
}

// Edinburgh in December and in June, on the flat roof of a van.
func ExampleSolarYield_Day() {
	place, err := tables.InsolationOf("Edinburgh", "horizontal")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, m := range []struct {
		month int
		cellC string
	}{{12, "10"}, {6, "45"}} {
		var w working.Working
		w.LookUp("H_d", place.Months[m.month-1])
		e, err := charge.SolarYield{
			From: w, Module: module(), SunKWhPerM2: place.Months[m.month-1].Value, DayCellC: d(m.cellC),
			LossesPercent: some("10"), Efficiency: d("0.95"), Tracking: true,
		}.Day()
		page(e.Working, err)
	}
	// Output:
	// H_d = 0.4 kWh/m²                      radiation of a day on the module [NASA
	//                                       POWER, climatology, Edinburgh,
	//                                       horizontal, month 12; second hand]
	// P_stc = 200 W                         power of the module at 1000 W/m² and
	//                                       25 °C (given)
	// γ_P = -0.35 %/°C                      change of the power with temperature
	//                                       (given)
	// T_day = 10 °C                         mean temperature of the cells by day
	//                                       (given)
	// l_sys = 10 %                          losses together (given)
	// η_s = 0.95                            efficiency of the source, output by
	//                                       input (given)
	// E_pv = P_stc × H_d × (1 + γ_P ÷ 100 × (T_day − 25)) × (1 − l_sys ÷
	//       100) × η_s                      energy of a day from the sun
	//      = 200 × 0.4 × (1 + (-0.35) ÷ 100 × (10 − 25)) × (1 − 10 ÷ 100) ×
	//       0.95                            [NREL/TP-6A20-62641, module model;
	//      = 72 Wh                          second hand]
	// H_d = 4.57 kWh/m²                     radiation of a day on the module [NASA
	//                                       POWER, climatology, Edinburgh,
	//                                       horizontal, month 6; second hand]
	// P_stc = 200 W                         power of the module at 1000 W/m² and
	//                                       25 °C (given)
	// γ_P = -0.35 %/°C                      change of the power with temperature
	//                                       (given)
	// T_day = 45 °C                         mean temperature of the cells by day
	//                                       (given)
	// l_sys = 10 %                          losses together (given)
	// η_s = 0.95                            efficiency of the source, output by
	//                                       input (given)
	// E_pv = P_stc × H_d × (1 + γ_P ÷ 100 × (T_day − 25)) × (1 − l_sys ÷
	//       100) × η_s                      energy of a day from the sun
	//      = 200 × 4.57 × (1 + (-0.35) ÷ 100 × (45 − 25)) × (1 − 10 ÷ 100) ×
	//       0.95                            [NREL/TP-6A20-62641, module model;
	//      = 726.8 Wh                       second hand]
}
