package protect

import (
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// SolarArray is a solar array: strings of modules in parallel.
type SolarArray struct {
	Count       int                 `json:"strings"`
	ShortA      decimal.Decimal     `json:"module_short_a"`      // short-circuit current of one module, at test conditions
	ModuleFuseA decimal.NullDecimal `json:"module_fuse_limit_a"` // greatest series device, on the module's plate; above 0 to 1000
	FittedA     decimal.NullDecimal `json:"rating_a"`            // of the device in each string; unset: none is fitted; above 0 to 1000
}

// ArrayCurrent is what a device in the array must carry.
type ArrayCurrent struct {
	LastingA decimal.Decimal `json:"sun_current_a"`  // greatest current, in strong sun
	LeastA   decimal.Decimal `json:"least_rating_a"` // of the device
	Working  working.Working `json:"working,omitempty"`
}

const (
	stringTitle = "no string is fed more than its modules bear"
	sunTitle    = "the string's device carries the strongest sun"
	plateTitle  = "the string's device is within the module's limit"
)

// LeastRating returns the least rating of a device that carries the current of so
// many strings together:
//
//	I_con = k_su × I_mod × n    [A], strong sun
//	I_lo  = k_co × I_con        [A], because it lasts
//
// Both factors are 1.25. Short-circuit current above 0 to 100 A, 1 to 100
// strings together and no more than the array has. Source: NFPA 70 clauses
// 690.8(A) and 210.20.
// Together: 1 to as many as there are strings, of three 1 to 3.
func (s SolarArray) LeastRating(together int) (ArrayCurrent, error) {
	if err := errors.Join(s.check(), working.Between("together", decimal.NewFromInt(int64(together)), 1, int64(max(1, s.Count)))); err != nil {
		return ArrayCurrent{}, err
	}
	var w working.Working
	a, err := s.lasting(together, &w)
	if err != nil {
		return ArrayCurrent{}, err
	}
	a.Working = slices.Clip(w)
	return a, nil
}

func (s SolarArray) check() error {
	return errors.Join(
		working.Between("strings", decimal.NewFromInt(int64(s.Count)), 1, 100),
		working.Above("module_short_a", s.ShortA, 0, 100),
		unsetOr(working.Above, "module_fuse_limit_a", s.ModuleFuseA, 0, 1000),
		unsetOr(working.Above, "rating_a", s.FittedA, 0, 1000),
	)
}

// lasting adds the lines of the current that lasts and of the least rating.
func (s SolarArray) lasting(together int, w *working.Working) (ArrayCurrent, error) {
	sun, err := tables.DeviceRuleOf("nec-pv")
	if err != nil {
		return ArrayCurrent{}, err
	}
	lasts, err := tables.DeviceRuleOf("nec-continuous")
	if err != nil {
		return ArrayCurrent{}, err
	}
	one := w.Given("I_mod", s.ShortA)
	n := w.Given("n_par", decimal.NewFromInt(int64(together)))
	a := ArrayCurrent{LastingA: w.Calc("I_con", "k_su × I_mod × n_par", w.LookUp("k_su", sun).Mul(one).Mul(n), sum)}
	a.LeastA = w.Calc("I_lo", "k_co × I_con", w.LookUp("k_co", lasts).Mul(a.LastingA), sum)
	return a, nil
}

// Checks judges the devices of the strings:
//
//	P20  (n − 1) × k_su × I_mod ≤ I_mf   no device is due in the strings
//	P21  k_co × k_su × I_mod ≤ I_n       what is fitted carries the sun
//	P22  I_n ≤ I_mf                      and is within the module's limit
//
// P20 asks whether the other strings can push more into a faulty one than its
// modules bear: from three strings on they commonly can. It does not apply to
// one string alone, nor where each string has its device, which P21 and P22
// then judge. A module whose plate names no limit cannot be told.
// Short-circuit current above 0 to 100 A, 1 to 100 strings, limits above 0 to
// 1000 A. Source: NFPA 70 clauses 690.8 and 690.9.
func (s SolarArray) Checks() ([]working.Check, error) {
	if err := s.check(); err != nil {
		return nil, err
	}
	reverse, err := s.reverse()
	if err != nil {
		return nil, err
	}
	sun, err := s.carriesSun()
	return []working.Check{reverse, sun, s.plate()}, err
}

func (s SolarArray) reverse() (working.Check, error) {
	switch {
	case s.Count == 1:
		return notApplicable("P20", stringTitle, "one string has no other to feed it"), nil
	case s.FittedA.Valid:
		return notApplicable("P20", stringTitle, "each string has its own device"), nil
	}
	sun, err := tables.DeviceRuleOf("nec-pv")
	if err != nil {
		return working.Check{}, err
	}
	var w working.Working
	one := w.Given("I_mod", s.ShortA)
	n := w.Given("n_par", decimal.NewFromInt(int64(s.Count)))
	others := n.Sub(decimal.NewFromInt(1))
	back := w.Calc("I_rev", "(n_par − 1) × k_su × I_mod", others.Mul(w.LookUp("k_su", sun)).Mul(one), sun.Source.Document())
	if !s.ModuleFuseA.Valid {
		return cannotTell("P20", stringTitle, fmt.Sprintf(
			"read the greatest series device on the module's plate: the other strings can push %s A back", back), slices.Clip(w)), nil
	}
	w.LookUp("I_mf", dataSheet(s.ModuleFuseA.Decimal, "A"))
	return w.Check("P20", stringTitle, "I_rev", "I_mf"), nil
}

func (s SolarArray) carriesSun() (working.Check, error) {
	if !s.FittedA.Valid {
		return notApplicable("P21", sunTitle, "no device is fitted in the strings"), nil
	}
	var w working.Working
	_, err := s.lasting(1, &w)
	w.Given("I_n", s.FittedA.Decimal)
	return w.Check("P21", sunTitle, "I_lo", "I_n"), err
}

func (s SolarArray) plate() working.Check {
	if !s.FittedA.Valid {
		return notApplicable("P22", plateTitle, "no device is fitted in the strings")
	}
	var w working.Working
	w.Given("I_n", s.FittedA.Decimal)
	if !s.ModuleFuseA.Valid {
		return cannotTell("P22", plateTitle, "read the greatest series device on the module's plate", slices.Clip(w))
	}
	w.LookUp("I_mf", dataSheet(s.ModuleFuseA.Decimal, "A"))
	return w.Check("P22", plateTitle, "I_n", "I_mf")
}
