package battery

import (
	"errors"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Parked is a vehicle that stands, with its drain.
type Parked struct {
	Chemistry    tables.Chemistry    `json:"chemistry"`
	CapacityAh   decimal.Decimal     `json:"capacity_ah"`
	SpareAh      decimal.Decimal     `json:"spare_ah"`               // may be lost before it no longer starts or serves
	DrainA       decimal.NullDecimal `json:"parked_a"`               // [Audit.Sum], and the vehicle's own, measured after it sleeps
	MonthPercent decimal.NullDecimal `json:"self_discharge_percent"` // a month; unset: the greatest that the tables have
	From         working.Working     `json:"from,omitempty"`
}

// StandingTime is how long it may stand.
type StandingTime struct {
	Days    decimal.Decimal `json:"parked_days"`
	Working working.Working `json:"working"`
}

// Days returns how long the vehicle may stand before the spare charge is gone:
//
//	N_pk = Q_sp ÷ (I_pk × 24 + C × p_sd ÷ 100 ÷ 30)   [d], rounded down to 0.01
//
// Self-discharge counts on the whole capacity, at 20 °C; a warm battery loses
// more. Capacity 0.1 to 10 000 Ah, spare charge 0 to that, drain 0 to 100
// A, self-discharge 0 to 100 % a month. No loss at all is an error: nothing
// lasts for ever. Sources: arithmetic; the figure of self-discharge names its own.
func (p Parked) Days() (StandingTime, error) {
	if err := p.check(); err != nil {
		return StandingTime{}, err
	}
	w := working.Start(p.From)
	drain, c := w.Given("I_pk", p.DrainA.Decimal), w.Given("C", p.CapacityAh)
	loss, err := p.month(&w)
	if err != nil {
		return StandingTime{}, err
	}
	daily := drain.Mul(day).Mul(decimal.NewFromInt(3000)).Add(c.Mul(loss)) // × 3000
	if !daily.IsPositive() {
		return StandingTime{}, &working.InputError{Field: "parked_a", Got: "0 without self-discharge", Want: "a loss above 0"}
	}
	spare := w.Given("Q_sp", p.SpareAh)
	days := w.CalcDown("N_pk", "Q_sp ÷ (I_pk × 24 + C × p_sd ÷ 3000)", spare.Mul(decimal.NewFromInt(3000)), daily, 2, arithmetic)
	return StandingTime{Days: days, Working: slices.Clip(w)}, nil
}

func (p Parked) month(w *working.Working) (decimal.Decimal, error) {
	if p.MonthPercent.Valid {
		return w.Given("p_sd", p.MonthPercent.Decimal), nil
	}
	_, greatest, err := tables.SelfDischarge(p.Chemistry)
	if err != nil {
		return decimal.Decimal{}, err
	}
	return w.LookUp("p_sd", greatest), nil
}

func (p Parked) check() error {
	err := errors.Join(
		p.Chemistry.Check("chemistry"),
		fromTo("capacity_ah", p.CapacityAh, "0.1", 10_000),
		working.Between("spare_ah", p.SpareAh, 0, 10_000),
		stated("parked_a", p.DrainA, 0, 100),
		betweenIf("self_discharge_percent", p.MonthPercent, 0, 100),
	)
	if err == nil && p.SpareAh.GreaterThan(p.CapacityAh) {
		err = &working.InputError{Field: "spare_ah", Got: p.SpareAh.String(), Want: "at most capacity_ah, " + p.CapacityAh.String()}
	}
	return err
}

// Cycling is a battery that is cycled to one depth.
type Cycling struct {
	Chemistry    tables.Chemistry `json:"chemistry"`
	DepthPercent decimal.Decimal  `json:"depth_percent"`
	CyclesAYear  decimal.Decimal  `json:"cycles_a_year"`
	From         working.Working  `json:"from,omitempty"`
}

// CycleLife is how long a battery lasts when cycled, by the table that promises least.
type CycleLife struct {
	Cycles  decimal.Decimal `json:"cycles"`
	Years   decimal.Decimal `json:"life_years"`
	Working working.Working `json:"working"`
}

// Life returns the cycles of the tables at a depth of discharge and the years
// that they last:
//
//	n_y = min(n_y.1, n_y.2 ...)   the least of the tables
//	N_y = n_y ÷ n_ya               [a], rounded down to 0.01
//
// Tables end at 60, 70 or 80 % of the capacity; the lines say at which. Age and
// heat end a battery too, whatever its cycles. Depth above 0 to 100 %, 1
// to 1000 cycles a year. Sources: each line; none of them speaks of your
// battery: its data sheet comes first.
func (c Cycling) Life() (CycleLife, error) {
	if err := errors.Join(
		c.Chemistry.Check("chemistry"),
		working.Above("depth_percent", c.DepthPercent, 0, 100),
		working.Between("cycles_a_year", c.CyclesAYear, 1, 1000),
	); err != nil {
		return CycleLife{}, err
	}
	all, err := tables.CycleLives(c.Chemistry, c.DepthPercent)
	if err != nil {
		return CycleLife{}, err
	}
	w := working.Start(c.From)
	w.Given("d_u", c.DepthPercent)
	a := w.Given("n_ya", c.CyclesAYear)
	var symbols []string
	for k, f := range all {
		w.LookUp(nth("n_y", k), f)
		symbols = append(symbols, nth("n_y", k))
	}
	n := w.Calc("n_y", "min("+joined(symbols)+")", least(w, symbols), arithmetic)
	years := w.CalcDown("N_y", "n_y ÷ n_ya", n, a, 2, arithmetic)
	return CycleLife{Cycles: n, Years: years, Working: slices.Clip(w)}, nil
}

// AmpereHourCount is charge counted in and out of a battery.
type AmpereHourCount struct {
	CapacityAh   decimal.Decimal     `json:"capacity_ah"`
	ChargeAh     decimal.Decimal     `json:"stored_ah"`
	ColdPercent  decimal.Decimal     `json:"cold_percent"`      // capacity at the temperature: 100 where it is that of the rating
	FloorPercent decimal.NullDecimal `json:"soc_floor_percent"` // that the discharge stops at; 0: none
	CurrentA     decimal.Decimal     `json:"current_a"`         // discharge wanted; 0 is a rest
	TimeH        decimal.Decimal     `json:"step_h"`
	From         working.Working     `json:"from,omitempty"`
}

// ChargeLeft is the state after it.
type ChargeLeft struct {
	ChargeAh   decimal.Decimal `json:"stored_ah"`
	SoCPercent decimal.Decimal `json:"soc_percent"`
	DeliveredA decimal.Decimal `json:"delivered_a"`
	Working    working.Working `json:"working"`
}

// After counts the ampere-hours of a discharge:
//
//	C_T   = C × c_T ÷ 100                                   capacity at the temperature
//	Q_a   = min(Q_st, C_T)                                  what is out of reach in the cold stays
//	I_la  = max(0, Q_a − C_T × s_fl ÷ 100) ÷ t_s             lasts the step, rounded down to 0.0001
//	I_del = min(I, I_la)
//	Q_b   = Q_a − I_del × t_s                               [Ah]
//	s     = Q_b × 100 ÷ C_T                                 [%], to 0.0001
//
// Capacity 0.1 to 10 000 Ah, of it in the cold 1 to 100 %, charge 0 to that, current
// 0 to 10 000 A, time 0.001 to 1000 h. Source: arithmetic; NREL ssc for the capacity in the cold.
func (c AmpereHourCount) After() (ChargeLeft, error) {
	if err := c.check(); err != nil {
		return ChargeLeft{}, err
	}
	w := working.Start(c.From)
	capacity, stored := w.Given("C", c.CapacityAh), w.Given("Q_st", c.ChargeAh)
	cold := w.Given("c_T", c.ColdPercent)
	floor, i, t := w.Given("s_fl", c.FloorPercent.Decimal), w.Given("I", c.CurrentA), w.Given("t_s", c.TimeH)
	reach := w.Calc("C_T", "C × c_T ÷ 100", capacity.Mul(cold).Shift(-2), arithmetic)
	held := w.Calc("Q_a", "min(Q_st, C_T)", decimal.Min(stored, reach), cite.Arithmetic.At("the rest waits for warmth", cite.Published))
	spare := decimal.Max(decimal.Zero, held.Sub(reach.Mul(floor).Shift(-2)))
	var z ChargeLeft
	lasts := w.CalcDown("I_la", "max(0, Q_a − C_T × s_fl ÷ 100) ÷ t_s", spare, t, 4, arithmetic)
	z.DeliveredA = w.Calc("I_del", "min(I, I_la)", decimal.Min(i, lasts), arithmetic)
	z.ChargeAh = w.Calc("Q_b", "Q_a − I_del × t_s", held.Sub(z.DeliveredA.Mul(t)), arithmetic)
	z.SoCPercent = w.Calc("s", "Q_b × 100 ÷ C_T", z.ChargeAh.Mul(hundred).DivRound(reach, 4), arithmetic)
	z.Working = slices.Clip(w)
	return z, nil
}

func (c AmpereHourCount) check() error {
	err := errors.Join(
		fromTo("capacity_ah", c.CapacityAh, "0.1", 10_000),
		working.Between("stored_ah", c.ChargeAh, 0, 10_000),
		working.Between("cold_percent", c.ColdPercent, 1, 100),
		stated("soc_floor_percent", c.FloorPercent, 0, 100),
		working.Between("current_a", c.CurrentA, 0, 10_000),
		fromTo("step_h", c.TimeH, "0.001", 1000),
	)
	if err == nil && c.ChargeAh.GreaterThan(c.CapacityAh) {
		err = &working.InputError{Field: "stored_ah", Got: c.ChargeAh.String(), Want: "at most capacity_ah, " + c.CapacityAh.String()}
	}
	return err
}
