package charge

import (
	"errors"
	"math"
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Sky is a place and a day.
type Sky struct {
	LatitudeDeg decimal.Decimal `json:"latitude_deg"` // north positive
	Day         int             `json:"day_of_year"`  // 1 is 1 January
}

// Radiation is what would fall on level ground in a day if there were no
// atmosphere, and how long the sun is up.
type Radiation struct {
	InverseDistance decimal.Decimal `json:"inverse_distance"` // of earth and sun, relative
	DeclinationRad  decimal.Decimal `json:"declination_rad"`
	SunsetRad       decimal.Decimal `json:"sunset_rad"`          // hour angle of sunset
	MJPerM2         decimal.Decimal `json:"radiation_mj_per_m2"` // 0 to 60
	DaylightH       decimal.Decimal `json:"daylight_h"`          // 0 to 24
	Working         working.Working `json:"working"`
}

// Radiation returns the radiation above the atmosphere and the daylight hours of
// the day by FAO-56:
//
//	d_r = 1 + 0.033 cos(2 π J ÷ 365)                                    eq. 23
//	δ   = 0.409 sin(2 π J ÷ 365 − 1.39)                                 eq. 24
//	ω_s = acos(−tan φ tan δ), 0 to π beyond the polar circles           eq. 25
//	N   = 24 ω_s ÷ π                                                    eq. 34
//	R_a = 24 × 60 ÷ π × 0.0820 d_r (ω_s sin φ sin δ + cos φ cos δ sin ω_s)   eq. 21
//
// Latitude -90 to 90°, day 1 to 366; angles to 1e-7 rad, radiation to 0.0001
// MJ/m². The declination of eq. 24 is up to 1.5° off in October.
func (s Sky) Radiation() (Radiation, error) {
	if err := s.check(); err != nil {
		return Radiation{}, err
	}
	r, w, out := Radiation{}, working.Working{}, exit{}
	j, φ := s.begin(&w, &out)
	r.InverseDistance = w.Calc("d_r", "1 + 0.033 × cos(2 × pi × J ÷ 365)", out.fixed(1+0.033*math.Cos(2*math.Pi*j/365), 8), fao("eq. 23"))
	r.DeclinationRad = w.Calc("δ", "0.409 × sin(2 × pi × J ÷ 365 − 1.39)", out.fixed(0.409*math.Sin(2*math.Pi*j/365-1.39), 8), fao("eq. 24"))
	δ := r.DeclinationRad.InexactFloat64()
	ω := r.sunset(φ, δ, fao("eq. 25"), &w, &out)
	r.MJPerM2 = w.Calc("R_a", "24 × 60 ÷ pi × 0.0820 × d_r × (ω_s × sin(φ) × sin(δ) + cos(φ) × cos(δ) × sin(ω_s))",
		out.fixed(24*60/math.Pi*0.0820*r.InverseDistance.InexactFloat64()*sunlit(φ, δ, ω), 4), fao("eq. 21"))
	r.DaylightH = w.Calc("N", "24 × ω_s ÷ pi", out.fixed(24*ω/math.Pi, 4), fao("eq. 34"))
	r.Working = slices.Clip(w)
	return r, out.err
}

func fao(equation string) cite.Source { return cite.FAO56.At(equation, cite.Published) }

// latitudePlaces keep a pole's latitude below a right angle when it is rounded:
// beyond it the tangent changes sign, and day turns into night.
const latitudePlaces = 7

// begin adds the lines of the day and of the latitude in radians.
func (s Sky) begin(w *working.Working, out *exit) (day, latitude float64) {
	j := w.Given("J", count(s.Day))
	deg := w.Given("φ_d", s.LatitudeDeg)
	φ := w.Calc("φ", "pi ÷ 180 × φ_d", out.fixed(math.Pi/180*deg.InexactFloat64(), latitudePlaces), fao("eq. 22"))
	return j.InexactFloat64(), φ.InexactFloat64()
}

// sunset adds the line of the hour angle of sunset.
func (r *Radiation) sunset(φ, δ float64, from cite.Source, w *working.Working, out *exit) float64 {
	cosine := max(-1, min(1, -math.Tan(φ)*math.Tan(δ)))
	r.SunsetRad = w.Calc("ω_s", "acos(max(−1, min(1, −tan(φ) × tan(δ))))", out.fixed(math.Acos(cosine), 8), from)
	return r.SunsetRad.InexactFloat64()
}

// sunlit is the day's sum of the sine of the sun's height, by its law.
func sunlit(φ, δ, ω float64) float64 {
	return ω*math.Sin(φ)*math.Sin(δ) + math.Cos(φ)*math.Cos(δ)*math.Sin(ω)
}

// MeanDayRadiation returns the radiation above the atmosphere by Duffie and
// Beckman, for use with [Slope]:
//
//	δ   = π ÷ 180 × 23.45 sin(2 π (284 + J) ÷ 365)                             eq. 1.6.1a (Cooper)
//	ω_s = acos(−tan φ tan δ)                                                   eq. 1.6.10
//	R_a = 24 × 3600 × 1367 ÷ π × (1 + 0.033 cos(2 π J ÷ 365))
//	      × (cos φ cos δ sin ω_s + ω_s sin φ sin δ) ÷ 10^6                     eq. 1.10.3
//
// The day is the month's mean day, [tables.MeanDay]. It differs from
// [Sky.Radiation] by the solar constant and the declination: by less than 0.5
// MJ/m² between the polar circles.
func (s Sky) MeanDayRadiation() (Radiation, error) {
	if err := s.check(); err != nil {
		return Radiation{}, err
	}
	r, w, out := Radiation{}, working.Working{}, exit{}
	j, φ := s.begin(&w, &out)
	r.InverseDistance = w.Calc("d_r", "1 + 0.033 × cos(2 × pi × J ÷ 365)", out.fixed(1+0.033*math.Cos(2*math.Pi*j/365), 8), duffie("eq. 1.4.1a"))
	r.DeclinationRad = w.Calc("δ", "pi ÷ 180 × 23.45 × sin(2 × pi × (284 + J) ÷ 365)", out.fixed(math.Pi/180*23.45*math.Sin(2*math.Pi*(284+j)/365), 8), duffie("eq. 1.6.1a"))
	δ := r.DeclinationRad.InexactFloat64()
	ω := r.sunset(φ, δ, duffie("eq. 1.6.10"), &w, &out)
	r.DaylightH = w.Calc("N", "24 × ω_s ÷ pi", out.fixed(24*ω/math.Pi, 4), duffie("eq. 1.6.11"))
	r.MJPerM2 = w.Calc("R_a", "0.0864 × 1367 ÷ pi × d_r × (ω_s × sin(φ) × sin(δ) + cos(φ) × cos(δ) × sin(ω_s))",
		out.fixed(0.0864*1367/math.Pi*r.InverseDistance.InexactFloat64()*sunlit(φ, δ, ω), 4), duffie("eq. 1.10.3"))
	r.Working = slices.Clip(w)
	return r, out.err
}

func duffie(equation string) cite.Source { return cite.DuffieBeckman.At(equation, cite.FromMemory) }

func (s Sky) check() error {
	return errors.Join(working.Between("latitude_deg", s.LatitudeDeg, -90, 90), working.Between("day_of_year", count(s.Day), 1, 366))
}

// Ground is the radiation on level ground in a day.
type Ground struct {
	MJPerM2 decimal.Decimal `json:"ground_mj_per_m2"`
	Working working.Working `json:"working"`
}

// check checks a radiation that a method is asked of: whole, as it was returned, or
// R_a alone, of another source.
func (r Radiation) check() error {
	errs := []error{working.Between("radiation_mj_per_m2", r.MJPerM2, 0, 60)}
	if len(r.Working) > 0 {
		errs = append(errs, stands("radiation_mj_per_m2", r.MJPerM2, r.Working, "R_a"), stands("daylight_h", r.DaylightH, r.Working, "N"))
	}
	return errors.Join(errs...)
}

// FromSunshine returns what reaches level ground on a day with so many hours of
// bright sunshine:
//
//	R_s = (0.25 + 0.50 n_s ÷ N) × R_a   [MJ/m²], to 0.01
//
// Sunshine 0 to the daylight hours. Source: FAO-56 eq. 35 with its usual
// constants.
// Sunshine 0 to 24 h.
func (r Radiation) FromSunshine(hours decimal.Decimal) (Ground, error) {
	if err := errors.Join(working.Between("sunshine_h", hours, 0, 24), r.check(), working.Between("daylight_h", r.DaylightH, 0, 24)); err != nil {
		return Ground{}, err
	}
	if !r.DaylightH.IsPositive() || hours.GreaterThan(r.DaylightH) {
		return Ground{}, &working.InputError{Field: "sunshine_h", Got: hours.String(), Want: "at most the daylight, " + r.DaylightH.String() + " h, of a day that has any"}
	}
	w := working.Start(r.Working)
	n := w.Given("n_sun", hours)
	share := decimal.New(25, -2).Mul(r.DaylightH).Add(decimal.New(5, -1).Mul(n)).Mul(r.MJPerM2)
	v := w.Calc("R_s", "(0.25 + 0.50 × n_sun ÷ N) × R_a", share.DivRound(r.DaylightH, 2), fao("eq. 35"))
	return Ground{MJPerM2: v, Working: slices.Clip(w)}, nil
}

// FromTemperatures returns what reaches level ground on a day by its range of
// temperature:
//
//	R_s = k_Rs × sqrt(T_x − T_n) × R_a   [MJ/m²], to 0.01
//
// k_Rs is 0.16 inland and 0.19 on the coast. Temperatures -60 to 60 °C. Source:
// FAO-56 eq. 50; a rough estimate.
func (r Radiation) FromTemperatures(highestC, lowestC decimal.Decimal, coast bool) (Ground, error) {
	err := errors.Join(working.Between("day_high_c", highestC, -60, 60), working.Between("day_low_c", lowestC, -60, 60))
	err = errors.Join(err, r.check())
	if err == nil && highestC.LessThan(lowestC) {
		err = &working.InputError{Field: "day_high_c", Got: highestC.String(), Want: "at least day_low_c"}
	}
	if err != nil {
		return Ground{}, err
	}
	k := decimal.New(16, -2)
	if coast {
		k = decimal.New(19, -2)
	}
	w := working.Start(r.Working)
	if len(w) == 0 {
		w.Given("R_a", r.MJPerM2)
	}
	w.LookUp("k_Rs", working.Figure{Value: k, Source: fao("eq. 50")})
	high, low := w.Given("T_x", highestC), w.Given("T_n", lowestC)
	var out exit
	root := math.Sqrt(high.Sub(low).InexactFloat64())
	v := w.Calc("R_s", "k_Rs × sqrt(T_x − T_n) × R_a", out.fixed(k.Mul(r.MJPerM2).InexactFloat64()*root, 2), fao("eq. 50"))
	return Ground{MJPerM2: v, Working: slices.Clip(w)}, out.err
}

// ClearSky returns what reaches level ground on a cloudless day:
//
//	R_s = (0.75 + 0.00002 z) × R_a   [MJ/m²], to 0.01
//
// Height above the sea -500 to 6000 m. Source: FAO-56 eq. 37.
func (r Radiation) ClearSky(heightM decimal.Decimal) (Ground, error) {
	if err := errors.Join(working.Between("height_m", heightM, -500, 6000), r.check()); err != nil {
		return Ground{}, err
	}
	w := working.Start(r.Working)
	if len(w) == 0 {
		w.Given("R_a", r.MJPerM2)
	}
	z := w.Given("z", heightM)
	share := decimal.New(75, -2).Add(decimal.New(2, -5).Mul(z))
	v := w.Calc("R_s", "(0.75 + 0.00002 × z) × R_a", share.Mul(r.MJPerM2).Round(2), fao("eq. 37"))
	return Ground{MJPerM2: v, Working: slices.Clip(w)}, nil
}

// Slope is a plane that faces the equator, in a month.
type Slope struct {
	LatitudeDeg decimal.Decimal `json:"latitude_deg"`     // north positive; -90 to 90
	Day         int             `json:"day_of_year"`      // the month's mean day; 1 to 366
	TiltDeg     decimal.Decimal `json:"tilt_deg"`         // from level
	GroundMJ    decimal.Decimal `json:"ground_mj_per_m2"` // the month's mean day on level ground; 0 to 60
	Albedo      decimal.Decimal `json:"albedo"`           // of the ground: 0.2, snow 0.7
	From        working.Working `json:"from,omitempty"`   // the lines that gave any of it
}

// SlopeRadiation is what falls on it.
type SlopeRadiation struct {
	Clearness    decimal.Decimal `json:"clearness"`
	DiffuseShare decimal.Decimal `json:"diffuse_share"`
	BeamRatio    decimal.Decimal `json:"beam_ratio"`
	MJPerM2      decimal.Decimal `json:"slope_mj_per_m2"`
	Working      working.Working `json:"working"`
}

// Monthly returns the month's mean radiation on the slope by the isotropic
// method:
//
//	K_T = R_s ÷ R_a
//	f_d = 1.391 − 3.560 K_T + 4.189 K_T² − 2.137 K_T³    where ω_s ≤ 81.4°
//	f_d = 1.311 − 3.022 K_T + 3.427 K_T² − 1.821 K_T³    else
//	R_b = (ω_t sin φ_t sin δ + cos φ_t cos δ sin ω_t) ÷ (ω_s sin φ sin δ + cos φ cos δ sin ω_s)
//	H_T = R_s × ((1 − f_d) R_b + f_d (1 + cos β) ÷ 2 + ρ (1 − cos β) ÷ 2)   [MJ/m²], to 0.01
//
// φ_t is the latitude less the tilt (north) or plus it (south), ω_t the earlier
// of sunset on the slope and on level ground. K_T 0.3 to 0.8 as the diffuse law
// was fitted, outside which it is an error; tilt 0 to 90°, albedo 0 to 1.
// Source: Duffie and Beckman, sections 2.12 and 2.19 (diffuse law of Erbs, ratio
// of Klein).
func (s Slope) Monthly() (SlopeRadiation, error) {
	if err := s.check(); err != nil {
		return SlopeRadiation{}, err
	}
	above, err := Sky{s.LatitudeDeg, s.Day}.MeanDayRadiation()
	if err != nil {
		return SlopeRadiation{}, err
	}
	w := working.Start(s.From, above.Working)
	h := w.Given("R_s", s.GroundMJ)
	var r SlopeRadiation
	var out exit
	if !above.MJPerM2.IsPositive() {
		return r, &working.InputError{Field: "day_of_year", Got: count(s.Day).String(), Want: "a day on which the sun rises at that latitude"}
	}
	r.Clearness = w.Calc("K_T", "R_s ÷ R_a", h.DivRound(above.MJPerM2, 6), duffie("eq. 2.9.1"))
	if r.Clearness.LessThan(decimal.New(3, -1)) || r.Clearness.GreaterThan(decimal.New(8, -1)) {
		return r, &working.InputError{Field: "ground_mj_per_m2", Got: s.GroundMJ.String(), Want: "0.3 to 0.8 of the radiation above the atmosphere, " + above.MJPerM2.String()}
	}
	r.DiffuseShare = diffuse(r.Clearness, above.SunsetRad, &w, &out)
	r.BeamRatio = s.beamRatio(above, &w, &out)
	β := w.Calc("β_r", "pi ÷ 180 × β_d", out.fixed(math.Pi/180*w.Given("β_d", s.TiltDeg).InexactFloat64(), 8), sums)
	ρ := w.Given("ρ", s.Albedo).InexactFloat64()
	fd, cos := r.DiffuseShare.InexactFloat64(), math.Cos(β.InexactFloat64())
	share := (1-fd)*r.BeamRatio.InexactFloat64() + fd*(1+cos)/2 + ρ*(1-cos)/2
	r.MJPerM2 = w.Calc("H_T", "R_s × ((1 − f_d) × R_beam + f_d × (1 + cos(β_r)) ÷ 2 + ρ × (1 − cos(β_r)) ÷ 2)",
		out.fixed(h.InexactFloat64()*share, 2), duffie("eq. 2.19.1"))
	r.Working = slices.Clip(w)
	return r, out.err
}

// diffuse adds the line of the diffuse share: the law of Erbs for monthly means.
func diffuse(clearness, sunset decimal.Decimal, w *working.Working, out *exit) decimal.Decimal {
	k := clearness.InexactFloat64()
	if sunset.InexactFloat64() <= 81.4*math.Pi/180 {
		return w.Calc("f_d", "1.391 − 3.560 × K_T + 4.189 × K_T ^ 2 − 2.137 × K_T ^ 3",
			out.fixed(1.391-3.560*k+4.189*k*k-2.137*k*k*k, 6), duffie("eq. 2.12.1"))
	}
	return w.Calc("f_d", "1.311 − 3.022 × K_T + 3.427 × K_T ^ 2 − 1.821 × K_T ^ 3",
		out.fixed(1.311-3.022*k+3.427*k*k-1.821*k*k*k, 6), duffie("eq. 2.12.1"))
}

// beamRatio adds the lines of the ratio of direct radiation on the slope to that
// on level ground.
func (s Slope) beamRatio(above Radiation, w *working.Working, out *exit) decimal.Decimal {
	formula, slanted := "φ_d − β_d", s.LatitudeDeg.Sub(s.TiltDeg)
	if s.LatitudeDeg.IsNegative() {
		formula, slanted = "φ_d + β_d", s.LatitudeDeg.Add(s.TiltDeg)
	}
	w.Given("β_d", s.TiltDeg)
	t := w.Calc("φ_t", "pi ÷ 180 × ("+formula+")", out.fixed(math.Pi/180*slanted.InexactFloat64(), latitudePlaces), duffie("section 2.19")).InexactFloat64()
	δ, ω := above.DeclinationRad.InexactFloat64(), above.SunsetRad.InexactFloat64()
	cosine := max(-1, min(1, -math.Tan(t)*math.Tan(δ)))
	early := w.Calc("ω_t", "min(ω_s, acos(max(−1, min(1, −tan(φ_t) × tan(δ)))))", out.fixed(min(ω, math.Acos(cosine)), 8), duffie("eq. 2.19.3b")).InexactFloat64()
	latitude, _ := w.Value("φ")
	φ := latitude.InexactFloat64()
	return w.Calc("R_beam", "(ω_t × sin(φ_t) × sin(δ) + cos(φ_t) × cos(δ) × sin(ω_t)) ÷ (ω_s × sin(φ) × sin(δ) + cos(φ) × cos(δ) × sin(ω_s))",
		out.fixed(sunlit(t, δ, early)/sunlit(φ, δ, ω), 6), duffie("eq. 2.19.3a"))
}

func (s Slope) check() error {
	return errors.Join(
		Sky{s.LatitudeDeg, s.Day}.check(),
		working.Between("tilt_deg", s.TiltDeg, 0, 90), working.Between("albedo", s.Albedo, 0, 1),
		working.Between("ground_mj_per_m2", s.GroundMJ, 0, 60),
	)
}
