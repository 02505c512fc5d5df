package charge

import (
	"errors"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Refill is charge to be put back at a source's current.
type Refill struct {
	Chemistry tables.Chemistry    `json:"chemistry"`
	MissingAh decimal.Decimal     `json:"missing_ah"`     // above 0 to 100 000
	CurrentA  decimal.Decimal     `json:"limit_a"`        // of the source; above 0 to 10 000
	LoadA     decimal.NullDecimal `json:"running_load_a"` // of the loads that run meanwhile; has to be stated; 0 to 10 000
	From      working.Working     `json:"from,omitempty"` // the lines that gave any of it
}

// RefillTime is how long it takes by one rule.
type RefillTime struct {
	Rule    string          `json:"rule"`
	Factor  decimal.Decimal `json:"recharge_factor"`
	TimeH   decimal.Decimal `json:"refill_h"`
	Working working.Working `json:"working"`
}

// Times returns how long it takes by every published recharge factor for the
// chemistry, net of the loads that run:
//
//	t_fill = k_r × Q_m ÷ (I_max − I_ld)   [h], rounded up to 0.0001
//
// The factors are rules of thumb that differ (1.15 to 1.4 for lead-acid); each
// counts the taper in part at best. [Simulation] steps the charge itself. A
// source that gives no more than the loads take is an error: it never refills.
// Missing charge and the source's current above 0 to 100 000 Ah and 10 000 A, loads 0 to
// 10 000 A.
func (r Refill) Times() ([]RefillTime, error) {
	if err := r.check(); err != nil {
		return nil, err
	}
	factors, err := tables.RechargeFactors(r.Chemistry)
	if err != nil {
		return nil, err
	}
	var all []RefillTime
	for _, f := range factors {
		t := r.by(f.Factor)
		t.Rule = f.Factor.Source.String()
		all = append(all, t)
	}
	return all, nil
}

// by returns the time by one factor; the inputs are known to be good.
func (r Refill) by(factor working.Figure) RefillTime {
	w := working.Start(r.From)
	q, k := w.Given("Q_m", r.MissingAh), w.LookUp("k_r", factor)
	i, load := w.Given("I_max", r.CurrentA), w.Given("I_ld", r.LoadA.Decimal)
	t := w.CalcUp("t_fill", "k_r × Q_m ÷ (I_max − I_ld)", k.Mul(q), i.Sub(load), 4, factor.Source.Document())
	return RefillTime{Factor: k, TimeH: t, Working: slices.Clip(w)}
}

// Checks checks (C06) by every published factor that the charge is back within
// the hours available: t_fill ≤ t_av. Where the factors disagree the verdicts
// do, and [working.Strictest] names the longest.
// Time above 0 to 10 000 h.
func (r Refill) Checks(availableH decimal.Decimal) ([]working.Check, error) {
	if err := errors.Join(r.check(), working.Above("available_h", availableH, 0, 10_000)); err != nil {
		return nil, err
	}
	times, err := r.Times()
	if err != nil {
		return nil, err
	}
	var checks []working.Check
	for _, t := range times {
		w := working.Start(t.Working)
		w.Given("t_av", availableH)
		checks = append(checks, w.Check("C06", "Time to refill, by "+t.Rule, "t_fill", "t_av"))
	}
	return checks, nil
}

func (r Refill) check() error {
	errs := []error{
		r.Chemistry.Check("chemistry"),
		working.Above("missing_ah", r.MissingAh, 0, 100_000),
		working.Above("limit_a", r.CurrentA, 0, 10_000), demanded("running_load_a", r.LoadA, 0, 10_000),
	}
	if errors.Join(errs...) == nil && r.CurrentA.LessThanOrEqual(r.LoadA.Decimal) {
		errs = append(errs, &working.InputError{Field: "limit_a", Got: r.CurrentA.String(), Want: "more than the loads that run, " + r.LoadA.Decimal.String() + " A"})
	}
	return errors.Join(errs...)
}

// ChargerSize is the current that a charger must give.
type ChargerSize struct {
	CurrentA decimal.Decimal `json:"limit_a"`
	Working  working.Working `json:"working"`
}

// ChargerFor returns the charger that puts charge back in a time while it
// carries a standing load:
//
//	I_max = I_ld + k_r × Q_m ÷ t_av   [A], rounded up to 0.0001
//
// Removed charge above 0 to 100 000 Ah, standing load 0 to 10 000 A, above 0 to 1000
// h. Source: IEEE 946 with k_r = 1.1 for stationary lead-acid, from memory.
func ChargerFor(removedAh, standingA, hours decimal.Decimal) (ChargerSize, error) {
	err := errors.Join(
		working.Above("missing_ah", removedAh, 0, 100_000), working.Between("running_load_a", standingA, 0, 10_000),
		working.Above("available_h", hours, 0, 1000),
	)
	if err != nil {
		return ChargerSize{}, err
	}
	var w working.Working
	load, q, t := w.Given("I_ld", standingA), w.Given("Q_m", removedAh), w.Given("t_av", hours)
	factor := tables.StandingLoadFactor()
	k := w.LookUp("k_r", factor)
	i := w.CalcUp("I_max", "I_ld + k_r × Q_m ÷ t_av", load.Mul(t).Add(k.Mul(q)), t, 4, cite.IEEE946.At("charger sizing", cite.FromMemory))
	return ChargerSize{CurrentA: i, Working: slices.Clip(w)}, nil
}

// PlateRate returns the slow charging current of an old-style battery by its
// plates:
//
//	I = k_p × (n_p − 1) ÷ 2   [A]
//
// k_p is 1 A for each positive plate, of which a cell has one fewer than
// negatives. Plates of a cell 3 to 99, odd. Source: TM 5-4210-230-14&P-1.
func PlateRate(plates int) (ChargerSize, error) {
	if err := working.Between("plates", count(plates), 3, 99); err != nil {
		return ChargerSize{}, err
	}
	if plates%2 == 0 {
		return ChargerSize{}, &working.InputError{Field: "plates", Got: count(plates).String(), Want: "an odd number: one negative more than positives"}
	}
	rule := tables.PlateCurrent()
	var w working.Working
	n, k := w.Given("n_p", count(plates)), w.LookUp("k_p", rule)
	i := w.Calc("I", "k_p × (n_p − 1) ÷ 2", k.Mul(n.Sub(one)).DivRound(decimal.NewFromInt(2), 1), rule.Source)
	return ChargerSize{CurrentA: i, Working: slices.Clip(w)}, nil
}
