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
	Name    string              `json:"name"`
	MassKg  decimal.Decimal     `json:"mass_kg"`
	BehindM decimal.NullDecimal `json:"behind_m"` // of its centre behind the front axle; before it: negative
}

// Vehicle is a vehicle as weighed, with the masses of its plate. Of a trailer
// the coupling takes the place of the front axle. A boat has no axles.
type Vehicle struct {
	WheelbaseM   decimal.Decimal     `json:"wheelbase_m"` // of a trailer: coupling to axle
	FrontKg      decimal.Decimal     `json:"front_kg"`    // weighed, ready for the road
	RearKg       decimal.Decimal     `json:"rear_kg"`
	FrontLimitKg decimal.Decimal     `json:"front_limit_kg"` // of the plate
	LeastFrontKg decimal.NullDecimal `json:"least_front_kg"` // that it must keep, by its maker or a code; unset: not known
	RearLimitKg  decimal.Decimal     `json:"rear_limit_kg"`
	GrossLimitKg decimal.Decimal     `json:"gross_limit_kg"`
	Items        []AddedMass         `json:"items,omitempty"` // 1 to 200
	From         working.Working     `json:"from,omitempty"`
}

// Axles is what the axles bear with the items.
type Axles struct {
	FrontKg decimal.Decimal `json:"front_after_kg"`
	RearKg  decimal.Decimal `json:"rear_after_kg"`
	GrossKg decimal.Decimal `json:"gross_after_kg"`
	Checks  []working.Check `json:"checks,omitempty"` // B14 front, B15 rear, B16 gross, B21 front at the least
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
// Checks the plate (front, rear, gross), and m_fk against the least that is stated:
// what is not stated is to be asked, but below nought the front is lifted whatever
// is stated. Ask that again with the tanks before the axle empty. Masses that lift
// the rear axle are an error. Wheelbase 0.1 to 20 m, weighed masses above 0 to
// 50 000 kg, items -5000 to 5000 kg and not 0, at -10 to 30 m, least front 0 to
// 50 000 kg and no more than the greatest. Source: the law of moments.
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
		m, x := w.Given(nth("m", i), item.MassKg), w.Given(nth("x_m", i), item.BehindM.Decimal)
		w.Note(item.Name)
		rearMoment, frontMoment, sum = rearMoment.Add(m.Mul(x)), frontMoment.Add(m.Mul(base.Sub(x))), sum.Add(m)
		rearTerms = append(rearTerms, nth("m", i)+" × "+nth("x_m", i))
		frontTerms = append(frontTerms, nth("m", i)+" × (L_w − "+nth("x_m", i)+")")
		masses = append(masses, nth("m", i))
	}
	var a Axles
	a.FrontKg = w.CalcUp("m_fa", "m_f + ("+sumOf(frontTerms...)+") ÷ L_w", front.Mul(base).Add(frontMoment), base, 2, law)
	a.RearKg = w.CalcUp("m_ra", "m_r + ("+sumOf(rearTerms...)+") ÷ L_w", rear.Mul(base).Add(rearMoment), base, 2, law)
	if !a.RearKg.IsPositive() {
		return Axles{}, &working.InputError{Field: "items", Got: "masses that leave the rear axle " + a.RearKg.String() + " kg", Want: "some that leave it on the road"}
	}
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
	const id, title = "B21", "Least load on the front axle or coupling"
	w = working.Start(w)
	w.Given("m_fl", v.LeastFrontKg.Decimal)
	if !v.LeastFrontKg.Valid {
		w.Note("what it must keep is not stated; below nought it lifts")
	}
	keeps := w.CalcDown("m_fk", sum, moment, v.WheelbaseM, 2, cite.Moments.At("about the front axle", cite.Published))
	if !v.LeastFrontKg.Valid && !keeps.IsNegative() {
		return working.Check{ID: id, Title: title, Working: slices.Clip(w),
			Missing: "what the front axle or the coupling must keep, of its maker: too light, an axle does not steer or brake and a trailer sways"}
	}
	return w.Check(id, title, "m_fl", "m_fk")
}

func (v Vehicle) check() error {
	faults := []error{
		fromTo("wheelbase_m", v.WheelbaseM, "0.1", 20),
		working.Above("front_kg", v.FrontKg, 0, 50_000),
		working.Above("rear_kg", v.RearKg, 0, 50_000),
		working.Above("front_limit_kg", v.FrontLimitKg, 0, 50_000),
		working.Above("rear_limit_kg", v.RearLimitKg, 0, 50_000),
		working.Above("gross_limit_kg", v.GrossLimitKg, 0, 50_000),
		betweenIf("least_front_kg", v.LeastFrontKg, 0, 50_000),
		working.Between("items", whole(len(v.Items)), 1, 200),
	}
	for i, item := range v.Items {
		faults = append(faults, working.In(at("items", i), errors.Join(
			checkMass(item.MassKg),
			stated("behind_m", item.BehindM, -10, 30),
		)))
	}
	if ordinary(v.LeastFrontKg.Decimal, v.FrontLimitKg) && v.LeastFrontKg.Decimal.GreaterThan(v.FrontLimitKg) {
		faults = append(faults, &working.InputError{Field: "least_front_kg", Got: orUnset(v.LeastFrontKg), Want: "at most front_limit_kg, " + v.FrontLimitKg.String()})
	}
	return errors.Join(faults...)
}

// checkMass refuses a mass that was forgotten.
func checkMass(kg decimal.Decimal) error {
	if kg.IsZero() {
		return &working.InputError{Field: "mass_kg", Got: "0", Want: "-5000 to 5000, and not 0"}
	}
	return working.Between("mass_kg", kg, -5000, 5000)
}
