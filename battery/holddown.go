package battery

import (
	"errors"
	"math/big"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// HoldDown is a mass on its fixings. It gives forces; brackets, seats and the
// floor under them are for a structural engineer or an approved kit.
type HoldDown struct {
	MassKg    decimal.Decimal     `json:"mass_kg"`    // above 0 to 2000
	Times     decimal.Decimal     `json:"g_times"`    // acceleration in multiples of g, in the worst direction
	Fixings   int                 `json:"fixings"`    // that share the force; 2 to 48
	HeightMM  decimal.NullDecimal `json:"centre_mm"`  // centre of mass above the fixings; 0: level with them; 0 to 2000
	SpacingMM decimal.Decimal     `json:"spacing_mm"` // between the two rows of fixings, in that direction; 1 to 3000
	StrengthN decimal.NullDecimal `json:"fixing_n"`   // what one fixing and the floor under it bear; above 0 to 1 000 000
	From      working.Working     `json:"from,omitempty"`
}

// Forces are those of a sideways acceleration.
type Forces struct {
	ForceN  decimal.Decimal `json:"force_n"`
	ShearN  decimal.Decimal `json:"shear_n"` // on each fixing
	LiftN   decimal.Decimal `json:"lift_n"`  // on each fixing of the lifted row
	EachN   decimal.Decimal `json:"each_n"`  // both together, at right angles
	Working working.Working `json:"working"`
}

// gravity in m/s².
var gravity = decimal.RequireFromString("9.80665")

// Forces returns the force on each fixing when the mass is thrown sideways:
//
//	F   = m × 9.80665 × k_g               [N]
//	F_s = F ÷ n_fx                        shear, shared evenly
//	F_l = F × h_m ÷ (b_f × ⌊n_fx ÷ 2⌋)    lift of the row behind
//	F_e × F_e ≥ F_s × F_s + F_l × F_l     together, at right angles
//
// each rounded up to 0.01 N. Of an odd number the row behind is the one with
// fewer: of three fixings the lone one takes the whole lift. The weight that holds it down is left out, which
// is on the safe side. Mass above 0 to 2000 kg, 0.1 to 30 g, 2 to 48 fixings,
// centre 0 to 2000 mm up, rows 1 to 3000 mm apart. Source: the law of moments.
// Accelerations: 10 g for ambulances and 20 g and 8 g for traction batteries of
// light vehicles (from memory); the approval body says which.
func (h HoldDown) Forces() (Forces, error) {
	if err := h.check(); err != nil {
		return Forces{}, err
	}
	w := working.Start(h.From)
	law := cite.Moments.At("", cite.Published)
	m, k := w.Given("m", h.MassKg), w.Given("k_g", h.Times)
	n := w.Given("n_fx", whole(h.Fixings))
	var f Forces
	f.ForceN = w.CalcUp("F", "m × 9.80665 × k_g", m.Mul(gravity).Mul(k), one, 2, law)
	f.ShearN = w.CalcUp("F_s", "F ÷ n_fx", f.ForceN, n, 2, law)
	height, rows := w.Given("h_m", h.HeightMM.Decimal), w.Given("b_f", h.SpacingMM)
	f.LiftN = w.CalcUp("F_l", "F × h_m ÷ (b_f × floor(n_fx ÷ 2))", f.ForceN.Mul(height), rows.Mul(n.Div(two).Floor()), 2, law)
	w.Note("on the row with fewer fixings")
	f.EachN = w.Choose("F_e", "F_e × F_e ≥ F_s × F_s + F_l × F_l", resultant(f.ShearN, f.LiftN), law)
	f.Working = slices.Clip(w)
	return f, nil
}

// resultant returns the root of the sum of squares, rounded up to 0.01: the
// least number of hundredths whose square is not below the sum.
func resultant(a, b decimal.Decimal) decimal.Decimal {
	square := a.Mul(a).Add(b.Mul(b)).Shift(4).BigInt() // hundredths, squared: whole
	root := decimal.NewFromBigInt(new(big.Int).Sqrt(square), 0)
	if root.Mul(root).LessThan(decimal.NewFromBigInt(square, 0)) {
		root = root.Add(one)
	}
	return root.Shift(-2)
}

// Check judges the force on each fixing against what it bears: B13. An unknown
// strength is a thing to ask.
func (h HoldDown) Check() (working.Check, error) {
	f, err := h.Forces()
	if err != nil {
		return working.Check{}, err
	}
	const id, title = "B13", "Force on each fixing"
	if !h.StrengthN.Valid {
		return working.Check{ID: id, Title: title, Working: f.Working,
			Missing: "what one fixing and the structure under it bear, from a structural engineer or the maker of the kit"}, nil
	}
	w := working.Start(f.Working)
	w.Given("F_z", h.StrengthN.Decimal)
	return w.Check(id, title, "F_e", "F_z"), nil
}

func (h HoldDown) check() error {
	return errors.Join(
		working.Above("mass_kg", h.MassKg, 0, 2000),
		fromTo("g_times", h.Times, "0.1", 30),
		working.Between("fixings", whole(h.Fixings), 2, 48),
		stated("centre_mm", h.HeightMM, 0, 2000),
		working.Between("spacing_mm", h.SpacingMM, 1, 3000),
		aboveIf("fixing_n", h.StrengthN, 0, 1_000_000),
	)
}

// Pull is the force of a test that a code for boats asks for, and the movement
// that it allows.
type Pull struct {
	ForceN     decimal.Decimal `json:"pull_n"`
	MovementMM decimal.Decimal `json:"movement_mm"`
	Working    working.Working `json:"working"`
}

// BoatPull returns the pull of 33 CFR 183.420(a), for petrol boats of the United
// States, one minute each way:
//
//	F_p = min(400, 2 × m × 9.80665)   [N], rounded up to 0.01
//
// Mass above 0 to 2000 kg.
func BoatPull(massKg decimal.Decimal) (Pull, error) {
	return pull(massKg, "cfr33-pull-weight", "cfr33-movement", "cfr33-pull")
}

// CraftPull returns the pull of ISO 10133 clause 5.2, for small craft: twice the
// weight, in any direction.
//
//	F_p = 2 × m × 9.80665   [N], rounded up to 0.01
//
// Mass above 0 to 2000 kg.
func CraftPull(massKg decimal.Decimal) (Pull, error) {
	return pull(massKg, "iso10133-pull-weight", "iso10133-movement", "")
}

// pull reads a rule; greatest is the id of a greatest force, "" where there is none.
func pull(massKg decimal.Decimal, weight, movement, greatest string) (Pull, error) {
	if err := working.Above("mass_kg", massKg, 0, 2000); err != nil {
		return Pull{}, err
	}
	times, err := tables.InstallationRule(weight)
	if err != nil {
		return Pull{}, err
	}
	allowed, err := tables.InstallationRule(movement)
	if err != nil {
		return Pull{}, err
	}
	var w working.Working
	m, k := w.Given("m", massKg), w.LookUp("k_g", times)
	force, formula := m.Mul(gravity).Mul(k), "m × 9.80665 × k_g"
	if greatest != "" {
		limit, err := tables.InstallationRule(greatest)
		if err != nil {
			return Pull{}, err
		}
		force, formula = decimal.Min(w.LookUp("F_pm", limit), force), "min(F_pm, "+formula+")"
	}
	moved := w.LookUp("s_m", allowed)
	p := w.CalcUp("F_p", formula, force, one, 2, times.Source.Document())
	return Pull{ForceN: p, MovementMM: moved, Working: slices.Clip(w)}, nil
}
