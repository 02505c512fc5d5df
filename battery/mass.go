package battery

import (
	"errors"
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// AddedMass is a mass added to a vehicle, or taken out of it where it is negative.
type AddedMass struct {
	Name    string          `json:"name"`
	MassKg  decimal.Decimal `json:"mass_kg"`
	BehindM decimal.Decimal `json:"behind_m"` // of its centre behind the front axle; before it: negative
}

// Vehicle is a vehicle as weighed, with the masses of its plate. Of a trailer
// the coupling takes the place of the front axle. A boat has no axles.
type Vehicle struct {
	WheelbaseM   decimal.Decimal     `json:"wheelbase_m"` // of a trailer: coupling to axle
	FrontKg      decimal.Decimal     `json:"front_kg"`    // weighed, ready for the road
	RearKg       decimal.Decimal     `json:"rear_kg"`
	FrontLimitKg decimal.Decimal     `json:"front_limit_kg"` // of the plate
	LeastFrontKg decimal.NullDecimal `json:"front_least_kg"` // that it must keep, by its maker or a code; unset: only that it is not lifted
	RearLimitKg  decimal.Decimal     `json:"rear_limit_kg"`
	GrossLimitKg decimal.Decimal     `json:"gross_limit_kg"`
	Items        []AddedMass         `json:"items"`
	From         working.Working     `json:"-"`
}

// Axles is what the axles bear with the items.
type Axles struct {
	FrontKg decimal.Decimal `json:"front_after_kg"`
	RearKg  decimal.Decimal `json:"rear_after_kg"`
	GrossKg decimal.Decimal `json:"gross_after_kg"`
	Checks  []working.Check `json:"checks"` // B14 front, B15 rear, B16 gross, B21 front at the least
	Working working.Working `json:"working"`
}

// Axles shares each mass between the axles by moments about the front one:
//
//	m_ra = m_r + Σ (m × x) ÷ L_w         rear [kg], rounded up to 0.01
//	m_ga = m_f + m_r + Σ m               gross [kg]
//	m_fa = m_f + Σ (m × (L_w − x)) ÷ L_w front [kg], rounded up to 0.01
//	m_fk = the same, rounded down: what the front keeps
//
// A mass behind the rear axle loads it by more than itself and lifts the front.
// Checks the plate (front, rear, gross), and m_fk against the least that is
// stated, or against nought: below it the front is lifted. Ask that again with the
// tanks before the axle empty. Wheelbase above 0
// to 20 m, weighed masses 0 to 50 000 kg, items -5000 to 5000 kg at -10 to 30 m,
// least front 0 to 50 000 kg and no more than the greatest. Source: the law of
// moments.
func (v Vehicle) Axles() (Axles, error) {
	if err := v.check(); err != nil {
		return Axles{}, err
	}
	w := working.Start(v.From)
	law := cite.Moments.At("about the front axle", cite.Published)
	base, front, rear := w.Given("L_w", v.WheelbaseM), w.Given("m_f", v.FrontKg), w.Given("m_r", v.RearKg)
	var rearMoment, frontMoment, sum decimal.Decimal
	var rearTerms, frontTerms, masses []string
	for i, item := range v.Items {
		m, x := w.Given(nth("m", i), item.MassKg), w.Given(nth("x_m", i), item.BehindM)
		w.Note(item.Name)
		rearMoment, frontMoment, sum = rearMoment.Add(m.Mul(x)), frontMoment.Add(m.Mul(base.Sub(x))), sum.Add(m)
		rearTerms = append(rearTerms, nth("m", i)+" × "+nth("x_m", i))
		frontTerms = append(frontTerms, nth("m", i)+" × (L_w − "+nth("x_m", i)+")")
		masses = append(masses, nth("m", i))
	}
	var a Axles
	a.FrontKg = w.Calc("m_fa", ceilOf("m_f + ("+sumOf(frontTerms...)+") ÷ L_w"), ceiling(front.Mul(base).Add(frontMoment), base), law)
	a.RearKg = w.Calc("m_ra", ceilOf("m_r + ("+sumOf(rearTerms...)+") ÷ L_w"), ceiling(rear.Mul(base).Add(rearMoment), base), law)
	a.GrossKg = w.Calc("m_ga", "m_f + m_r + "+sumOf(masses...), front.Add(rear).Add(sum), arithmetic)
	w.Given("m_fz", v.FrontLimitKg)
	w.Given("m_rz", v.RearLimitKg)
	w.Given("m_gz", v.GrossLimitKg)
	a.Checks = []working.Check{
		w.Check("B14", "Front axle", "m_fa", "m_fz"),
		w.Check("B15", "Rear axle", "m_ra", "m_rz"),
		w.Check("B16", "Gross mass", "m_ga", "m_gz"),
		v.checkFront(w, "m_f + ("+sumOf(frontTerms...)+") ÷ L_w", front.Mul(base).Add(frontMoment)),
	}
	a.Working = slices.Clip(w)
	return a, nil
}

// checkFront judges what the front keeps, the moment over the wheelbase. No axle
// bears less than nothing, whatever is stated.
func (v Vehicle) checkFront(w working.Working, sum string, moment decimal.Decimal) working.Check {
	w = working.Start(w)
	w.Given("m_fl", v.LeastFrontKg.Decimal)
	if !v.LeastFrontKg.Valid {
		w.Note("below nought it lifts; what it must keep is not stated: ask the maker. A front axle too light does not steer or brake, a trailer too light on its coupling sways")
	}
	w.Calc("m_fk", floorOf(sum), flooring(moment, v.WheelbaseM), cite.Moments.At("about the front axle", cite.Published))
	return w.Check("B21", "Least load on the front axle or coupling", "m_fl", "m_fk")
}

func ceilOf(sum string) string  { return "ceil((" + sum + ") × 100) ÷ 100" }
func floorOf(sum string) string { return "floor((" + sum + ") × 100) ÷ 100" }

// flooring returns a ÷ b rounded down to 0.01; a may be negative, b is above 0.
func flooring(a, b decimal.Decimal) decimal.Decimal { return ceiling(a.Neg(), b).Neg() }

// ceiling returns a ÷ b rounded up to 0.01; a may be negative, b is above 0.
func ceiling(a, b decimal.Decimal) decimal.Decimal {
	if a.IsNegative() {
		return down(a.Neg(), b).Neg()
	}
	return up(a, b)
}

func (v Vehicle) check() error {
	faults := []error{
		working.Above("wheelbase_m", v.WheelbaseM, 0, 20),
		working.Between("front_kg", v.FrontKg, 0, 50_000),
		working.Between("rear_kg", v.RearKg, 0, 50_000),
		working.Above("front_limit_kg", v.FrontLimitKg, 0, 50_000),
		working.Above("rear_limit_kg", v.RearLimitKg, 0, 50_000),
		working.Above("gross_limit_kg", v.GrossLimitKg, 0, 50_000),
		betweenIf("front_least_kg", v.LeastFrontKg, 0, 50_000),
		working.Between("items", decimal.NewFromInt(int64(len(v.Items))), 1, 200),
	}
	for i, item := range v.Items {
		faults = append(faults, working.In(at("items", i), errors.Join(
			working.Between("mass_kg", item.MassKg, -5000, 5000),
			working.Between("behind_m", item.BehindM, -10, 30),
		)))
	}
	if v.LeastFrontKg.Decimal.GreaterThan(v.FrontLimitKg) {
		faults = append(faults, &working.InputError{Field: "front_least_kg", Got: orUnset(v.LeastFrontKg), Want: "at most front_limit_kg, " + v.FrontLimitKg.String()})
	}
	return errors.Join(faults...)
}
