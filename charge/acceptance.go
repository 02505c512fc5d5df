package charge

import (
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Acceptance is the most current that a battery takes.
type Acceptance struct {
	CurrentA decimal.Decimal `json:"acceptance_a"`
	Working  working.Working `json:"working"`
}

// Acceptance returns the most current that the battery takes at a state of
// charge:
//
//	I_r   = the data sheet's limit, or r_c × C    [A]
//	I_ah  = k_a × Q_m, Q_m = C × (100 − s) ÷ 100  [A]
//	I_acc = min(I_r, I_ah), 0 outside the charging window
//
// The second line is the ampere-hour law, which holds for lead-acid and is left
// out for other chemistries unless k_a is given. State of charge 0 to 100 %,
// capacity above 0 to 100 000 Ah, temperature -60 to 100 °C.
func (b BatteryOnCharge) Acceptance(socPercent decimal.Decimal) (Acceptance, error) {
	if err := errors.Join(b.check(), working.Between("soc_percent", socPercent, 0, 100)); err != nil {
		return Acceptance{}, err
	}
	var w working.Working
	rate, accept, err := b.limits(&w)
	if err != nil {
		return Acceptance{}, err
	}
	current, formula := rate, "I_r"
	if accept.IsPositive() {
		s := w.Given("s", socPercent)
		missing := w.Calc("Q_m", "C × (100 − s) ÷ 100", b.CapacityAh.Mul(hundred.Sub(s)).Shift(-2), sums)
		law := w.Calc("I_ah", "k_a × Q_m", accept.Mul(missing), woodbridge)
		current, formula = least(rate, law), "min(I_r, I_ah)"
	}
	w.Calc("I_acc", formula, current, sums)
	return Acceptance{CurrentA: current, Working: slices.Clip(w)}, nil
}

// limits adds the lines of what the battery takes at its temperature whatever
// its state of charge, and returns that current and the ampere-hour law's
// factor, nought where no such law holds.
func (b BatteryOnCharge) limits(w *working.Working) (rate, accept decimal.Decimal, err error) {
	*w = working.Start(b.From)
	w.Given("C", b.CapacityAh)
	low, high, err := b.window()
	if err != nil {
		return rate, accept, err
	}
	t := w.Given("T_b", b.BatteryC)
	lo, hi := w.LookUp("T_lo", low), w.LookUp("T_hi", high)
	switch {
	case t.LessThan(lo):
		rate = w.Choose("I_r", "T_b < T_lo", decimal.Zero, low.Source.Document())
		w.Note("too cold to be charged")
	case t.GreaterThan(hi):
		rate = w.Choose("I_r", "T_b > T_hi", decimal.Zero, high.Source.Document())
		w.Note("too hot to be charged")
	default:
		rate, err = b.rate(w)
	}
	if err != nil {
		return rate, accept, err
	}
	accept, err = b.acceptPerHour(w)
	return rate, accept, err
}

// window returns the charging window: the data sheet's, else that of the tables.
func (b BatteryOnCharge) window() (low, high working.Figure, err error) {
	if !b.LeastC.Valid || !b.GreatestC.Valid {
		low, high, err = listedWindow(b.Chemistry)
	}
	if b.LeastC.Valid {
		low = ofDataSheet(b.LeastC.Decimal, "°C")
	}
	if b.GreatestC.Valid {
		high = ofDataSheet(b.GreatestC.Decimal, "°C")
	}
	return low, high, err
}

func ofDataSheet(v decimal.Decimal, unit string) working.Figure {
	return working.Figure{Value: v, Unit: unit, Source: cite.DataSheet.At("", cite.Given)}
}

// listedWindow returns the charging window of the tables that holds without
// further conditions ("fast charge", "best").
func listedWindow(chemistry tables.Chemistry) (low, high working.Figure, err error) {
	spans, err := tables.BatteryLimits(chemistry, "charge_temperature")
	if err != nil {
		return low, high, err
	}
	for _, s := range spans {
		if s.Condition == "" {
			return s.Least, s.Greatest, nil
		}
	}
	return low, high, fmt.Errorf("charging window of %s: %w", chemistry, tables.ErrNotListed)
}

// rate adds the lines of the greatest charging current inside the window.
func (b BatteryOnCharge) rate(w *working.Working) (decimal.Decimal, error) {
	formula, rate := "I_cm", b.ChargeA.Decimal
	if b.ChargeA.Valid {
		w.LookUp("I_cm", ofDataSheet(b.ChargeA.Decimal, "A"))
	} else {
		usual, err := usualRate(b.Chemistry)
		if err != nil {
			return rate, err
		}
		formula, rate = "r_c × C", w.LookUp("r_c", usual).Mul(b.CapacityAh)
	}
	cold, err := tables.ColdChargeRate(b.Chemistry, b.BatteryC)
	if err == nil {
		formula = "min(" + formula + ", r_k × C)"
		rate = least(rate, w.LookUp("r_k", cold).Mul(b.CapacityAh))
	} else if !errors.Is(err, tables.ErrNotListed) {
		return rate, err
	}
	return w.Calc("I_r", formula, rate, sums), nil
}

// usualRate returns the usual charging current by capacity where the data sheet
// is silent.
func usualRate(chemistry tables.Chemistry) (working.Figure, error) {
	spans, err := tables.BatteryLimits(chemistry, "charge_rate_limit")
	if err == nil && spans[0].Condition == "" {
		usual := spans[0].Typical
		usual.Note = "usual; take the data sheet's limit"
		return usual, nil
	}
	return working.Figure{}, &working.InputError{
		Field: "charge_limit_a", Got: "unset",
		Want: "the data sheet's greatest charging current: the tables have no usual one for " + string(chemistry),
	}
}

// acceptPerHour returns the ampere-hour law's factor, where there is one.
func (b BatteryOnCharge) acceptPerHour(w *working.Working) (decimal.Decimal, error) {
	if b.AcceptPerHour.Valid {
		return w.Given("k_a", b.AcceptPerHour.Decimal), nil
	}
	law, err := tables.AcceptPerHour(b.Chemistry)
	if errors.Is(err, tables.ErrNotListed) {
		return decimal.Zero, nil
	}
	if err != nil {
		return decimal.Zero, err
	}
	return w.LookUp("k_a", law), nil
}

// ColdCharge checks (C02) that the battery is never charged below its window:
//
//	T_chg = max(T_min, T_g)   the coldest it gets, or where a guard stops the charge
//	T_lo ≤ T_chg
//
// The guard is a management unit or a charger that measures the battery's own
// temperature and stops charging below it; unset, there is none. A lithium cell
// charged in the cold is harmed for good and may fail later without warning:
// this is a hard stop. The coldest has to be stated: 0 °C too.
// Both temperatures -60 to 100 °C.
func (b BatteryOnCharge) ColdCharge(coldestC, guardC decimal.NullDecimal) (working.Check, error) {
	err := errors.Join(
		b.Chemistry.Check("chemistry"), b.checkWindow(),
		demanded("coldest_c", coldestC, -60, 100), checkOptional("guard_c", guardC, -60, 100),
	)
	if err != nil {
		return working.Check{}, err
	}
	low, _, err := b.window()
	if err != nil {
		return working.Check{}, err
	}
	w := working.Start(b.From)
	w.LookUp("T_lo", low)
	charged, formula := w.Given("T_min", coldestC.Decimal), "T_min"
	if guardC.Valid {
		charged, formula = greatest(charged, w.Given("T_g", guardC.Decimal)), "max(T_min, T_g)"
	}
	w.Calc("T_chg", formula, charged, sums)
	return w.Check("C02", "Charging in the cold", "T_lo", "T_chg"), nil
}

// HotCharge checks (C02) that the place of a battery never gets hotter than the
// battery may be charged: T_hot ≤ T_hi. The battery itself is warmer while it
// works, so that a small margin is none.
// Temperature -60 to 200 °C.
func (b BatteryOnCharge) HotCharge(hottestC decimal.NullDecimal) (working.Check, error) {
	err := errors.Join(
		b.Chemistry.Check("chemistry"), b.checkWindow(),
		demanded("hottest_c", hottestC, -60, 200),
	)
	if err != nil {
		return working.Check{}, err
	}
	_, high, err := b.window()
	if err != nil {
		return working.Check{}, err
	}
	w := working.Start(b.From)
	w.Given("T_hot", hottestC.Decimal)
	w.LookUp("T_hi", high)
	return w.Check("C02", "Charging in the heat", "T_hot", "T_hi"), nil
}
