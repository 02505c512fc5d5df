package battery

import (
	"errors"
	"fmt"
	"math/big"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// BankBattery is one battery as its data sheet and the measuring give it.
type BankBattery struct {
	Name               string              `json:"name"`
	Chemistry          string              `json:"chemistry"` // one of [tables.Chemistries]
	NominalV           decimal.Decimal     `json:"battery_v"`
	CapacityAh         decimal.Decimal     `json:"capacity_ah"`
	RateH              decimal.NullDecimal `json:"rate_h"`          // in which that capacity is drawn; unset: it holds at any use
	FastAh             decimal.NullDecimal `json:"fast_ah"`         // a second rating, for [Bank.CapacityAt]
	FastH              decimal.NullDecimal `json:"fast_h"`          // fewer hours than RateH
	LowMilliohm        decimal.NullDecimal `json:"low_milliohm"`    // full, new, warm: for the greatest fault
	HighMilliohm       decimal.NullDecimal `json:"high_milliohm"`   // empty, aged, cold: for volts and the smallest fault
	FullV              decimal.Decimal     `json:"full_v"`          // rested, full
	EmptyV             decimal.Decimal     `json:"empty_v"`         // rested, at the depth of discharge allowed
	DepthPercent       decimal.NullDecimal `json:"depth_percent"`   // unset: the shallowest design depth in the tables
	AgeingPercent      decimal.NullDecimal `json:"ageing_percent"`  // unset: the end of life in the tables
	GreatestDischargeA decimal.NullDecimal `json:"max_discharge_a"` // steady
	GreatestChargeA    decimal.NullDecimal `json:"max_charge_a"`
	CutOutV            decimal.NullDecimal `json:"cut_out_v"`     // where its own protection opens, whole battery
	LeadMilliohm       decimal.Decimal     `json:"lead_milliohm"` // its own leads, out and back, and their joints
}

// Bank is batteries in series and parallel. The list goes string by string: of
// four 6 V batteries with Series 2 the first two are one string. Batteries of
// one string have one capacity and chemistry, all strings the same voltage.
type Bank struct {
	Batteries []BankBattery       `json:"batteries"`
	Series    int                 `json:"series"`    // batteries in one string: 1 where all are in parallel
	BatteryC  decimal.NullDecimal `json:"battery_c"` // temperature that the capacity is judged at; unset: that of the rating
	From      working.Working     `json:"-"`         // the lines that gave the inputs
}

// Rating is what is printed on a bank.
type Rating struct {
	NominalV   decimal.Decimal `json:"system_v"`
	CapacityAh decimal.Decimal `json:"capacity_ah"`
	EnergyWh   decimal.Decimal `json:"nominal_wh"`
	Working    working.Working `json:"working"`
}

// Rating returns the nominal figures of the bank: volts add up in series,
// ampere-hours in parallel.
//
//	U_n = n_s × U_bn   [V]
//	C = Σ C_s          [Ah]
//	E_n = U_n × C      [Wh]
//
// Batteries 1 to 48, 1 to 24 in series. Source: series and parallel connection
// of cells, any textbook.
func (b Bank) Rating() (Rating, error) {
	if err := b.check(); err != nil {
		return Rating{}, err
	}
	w := working.Start(b.From)
	volts, capacity := b.rating(&w)
	energy := w.Calc("E_n", "U_n × C", volts.Mul(capacity), arithmetic)
	return Rating{NominalV: volts, CapacityAh: capacity, EnergyWh: energy, Working: slices.Clip(w)}, nil
}

func (b Bank) rating(w *working.Working) (volts, capacity decimal.Decimal) {
	each := w.Given("U_bn", b.Batteries[0].NominalV)
	series := w.Given("n_s", decimal.NewFromInt(int64(b.Series)))
	volts = w.Calc("U_n", "n_s × U_bn", series.Mul(each), kirchhoff)
	var strings []string
	for k, s := range b.strings() {
		w.Given(nth("C_s", k), s[0].CapacityAh)
		strings = append(strings, nth("C_s", k))
	}
	return volts, addUp(w, "C", strings...)
}

// Usable is what a bank gives within its limits.
type Usable struct {
	EnergyWh decimal.Decimal `json:"usable_wh"`
	ChargeAh decimal.Decimal `json:"usable_ah"`
	Missing  string          `json:"missing"` // of [Autonomy.Usable]: the rating to ask for; then the figures are nought
	Working  working.Working `json:"working"`
}

// Usable returns what the bank gives at its depth of discharge, at the end of
// its life and at its temperature:
//
//	Q_u = Σ C_s × d_u × a_g × c_T ÷ 10^6   [Ah]
//	E_u = U_n × Q_u                        [Wh]
//
// Each share is the one given, or that of the tables with its source: the
// shallowest design depth and the end of life listed for the chemistry, and
// the capacity at the next colder temperature listed. Lead-acid takes no credit
// for warmth. The capacity is that of the rated hours: see [Bank.CapacityAt] for
// faster discharge. Sources: the shares name theirs.
func (b Bank) Usable() (Usable, error) {
	if err := b.check(); err != nil {
		return Usable{}, err
	}
	w := working.Start(b.From)
	volts, _ := b.rating(&w)
	cold, err := b.cold(&w)
	if err != nil {
		return Usable{}, err
	}
	charge, formula := decimal.Zero, ""
	for k, s := range b.strings() {
		part, text, err := b.usable(&w, k, s[0], cold)
		if err != nil {
			return Usable{}, working.In(at("batteries", k*b.Series), err)
		}
		charge = charge.Add(part)
		formula += text + " + "
	}
	formula = formula[:len(formula)-len(" + ")]
	w.Calc("Q_u", formula, charge, arithmetic)
	energy := w.Calc("E_u", "U_n × Q_u", volts.Mul(charge), arithmetic)
	return Usable{EnergyWh: energy, ChargeAh: charge, Working: slices.Clip(w)}, nil
}

// usable adds the shares of one string and returns its part of the charge.
func (b Bank) usable(w *working.Working, k int, of BankBattery, coldPercent decimal.Decimal) (decimal.Decimal, string, error) {
	depth, err := share(w, nth("d_u", k), of.DepthPercent, of.Chemistry, "depth_of_discharge_design", "depth_percent")
	if err != nil {
		return decimal.Decimal{}, "", err
	}
	ageing, err := share(w, nth("a_g", k), of.AgeingPercent, of.Chemistry, "end_of_life_capacity", "ageing_percent")
	if err != nil {
		return decimal.Decimal{}, "", err
	}
	formula := fmt.Sprintf("%s × %s × %s × c_T ÷ 1000000", nth("C_s", k), nth("d_u", k), nth("a_g", k))
	return of.CapacityAh.Mul(depth).Mul(ageing).Mul(coldPercent).Shift(-6), formula, nil
}

// share adds a percentage as given, or the smallest that the tables have for
// the chemistry. Where they have none it has to be given.
func share(w *working.Working, symbol string, given decimal.NullDecimal, chemistry, parameter, field string) (decimal.Decimal, error) {
	if given.Valid {
		return w.Given(symbol, given.Decimal), nil
	}
	spans, err := tables.BatteryLimits(chemistry, parameter)
	if errors.Is(err, tables.ErrNotListed) {
		return decimal.Decimal{}, &working.InputError{Field: field, Got: "unset", Want: "a share in %: the tables have none for " + chemistry}
	}
	if err != nil {
		return decimal.Decimal{}, err
	}
	least := spans[0].Typical
	for _, s := range spans {
		for _, f := range []working.Figure{s.Least, s.Typical} {
			if f.Stated() && f.Value.LessThan(least.Value) {
				least = f
			}
		}
	}
	least.Note = "not given: the smallest listed"
	return w.LookUp(symbol, least), nil
}

// cold adds the share of the capacity that is there at the bank's temperature.
func (b Bank) cold(w *working.Working) (decimal.Decimal, error) {
	if !b.BatteryC.Valid {
		return w.LookUp("c_T", atRating(hundred)), nil
	}
	return capacityShare(w, b.Batteries[0].Chemistry, b.BatteryC.Decimal)
}

// strings returns the batteries string by string.
func (b Bank) strings() [][]BankBattery {
	return slices.Collect(slices.Chunk(b.Batteries, b.Series))
}

// Without returns the bank with one string missing, counted from 0: what is
// left when a fuse opens or a battery's own protection does. Ask it whatever the
// whole bank is asked; a bank of one string leaves nothing, which is an error
// of its own questions.
func (b Bank) Without(index int) Bank {
	rest := b
	from := index * b.Series
	if b.Series < 1 || index < 0 || from >= len(b.Batteries) {
		return rest
	}
	rest.Batteries = slices.Concat(b.Batteries[:from], b.Batteries[min(from+b.Series, len(b.Batteries)):])
	return rest
}

// BankLimits are the greatest currents of a bank, in one direction.
type BankLimits struct {
	SumA    decimal.Decimal `json:"limits_sum_a"` // limits of the strings added up: only where they share evenly
	LimitA  decimal.Decimal `json:"limit_a"`      // by shares: the current at which the first string reaches its limit
	MixedA  decimal.Decimal `json:"aged_limit_a"` // the same with one string new and the others aged
	Missing string          `json:"missing"`      // what to measure or ask; then the figures are nought
	Working working.Working `json:"working"`
}

// Discharge returns the greatest steady discharge current of the bank:
//
//	I_sum = Σ I_m
//	I_sh  = I_m × (1 + R_sl ÷ R_sl.2 + R_sl ÷ R_sl.3 ...)   for each string
//	I_dm  = min(I_sh)
//
// Strings share in inverse proportion to their resistance with leads, so the
// one with the shortest leads reaches its limit first. I_mx is the same with
// this string at its lowest resistance and the others at their highest: a new
// battery among aged ones. Rounded down to 0.01 A. One string has its own limit. An unknown limit or
// resistance is a thing to ask or measure. Source: Kirchhoff's laws.
func (b Bank) Discharge() (BankLimits, error) {
	return b.limits("I_dm", "discharge", func(x BankBattery) decimal.NullDecimal { return x.GreatestDischargeA })
}

// Charge returns the greatest charge current of the bank, in the way of
// [Bank.Discharge].
func (b Bank) Charge() (BankLimits, error) {
	return b.limits("I_cm", "charge", func(x BankBattery) decimal.NullDecimal { return x.GreatestChargeA })
}

func (b Bank) limits(symbol, direction string, limit func(BankBattery) decimal.NullDecimal) (BankLimits, error) {
	if err := b.check(); err != nil {
		return BankLimits{}, err
	}
	w := working.Start(b.From)
	for i, x := range b.Batteries {
		if !limit(x).Valid {
			return BankLimits{Missing: fmt.Sprintf("the greatest steady %s current of battery %d (%s), from its data sheet", direction, i+1, x.Name)}, nil
		}
	}
	if len(b.Batteries) == b.Series {
		one := b.stringLimit(&w, 0, limit)
		w.Calc(symbol, "I_m.1", one, arithmetic)
		return BankLimits{SumA: one, LimitA: one, MixedA: one, Working: slices.Clip(w)}, nil
	}
	strings, missing := b.branches(&w)
	if missing != "" {
		return BankLimits{Missing: missing}, nil
	}
	var sums []string
	for k := range strings {
		strings[k].limit = b.stringLimit(&w, k, limit)
		sums = append(sums, nth("I_m", k))
	}
	var l BankLimits
	l.SumA = addUp(&w, "I_sum", sums...)
	l.MixedA = shareOut(&w, strings, "I_ad", "I_mx", "R_sg", func(s branch) decimal.Decimal { return s.high })
	l.LimitA = shareOut(&w, strings, symbol, "I_sh", "R_sl", func(s branch) decimal.Decimal { return s.low })
	l.Working = slices.Clip(w)
	return l, nil
}

// stringLimit adds the limit of string k: that of its weakest battery.
func (b Bank) stringLimit(w *working.Working, k int, limit func(BankBattery) decimal.NullDecimal) decimal.Decimal {
	own := b.strings()[k]
	if len(own) == 1 {
		return w.Given(nth("I_m", k), limit(own[0]).Decimal)
	}
	var each []string
	for n, x := range own {
		i := k*b.Series + n
		w.Given(nth("I_bm", i), limit(x).Decimal)
		each = append(each, nth("I_bm", i))
	}
	return w.Calc(nth("I_m", k), "min("+joined(each)+")", least(*w, each), arithmetic)
}

// shareOut adds, for each string, the current of the bank at which it reaches
// its limit, and the least of them.
func shareOut(w *working.Working, strings []branch, answer, symbol, other string, resistance func(branch) decimal.Decimal) decimal.Decimal {
	var all []string
	for k, s := range strings {
		sum, formula := new(big.Rat).SetInt64(1), "1"
		for j, o := range strings {
			if j != k {
				sum.Add(sum, new(big.Rat).Quo(s.low.Rat(), resistance(o).Rat()))
				formula += " + " + nth("R_sl", k) + " ÷ " + nth(other, j)
			}
		}
		w.Calc(nth(symbol, k), downOf(nth("I_m", k)+" × ("+formula+")"), downRat(sum.Mul(sum, s.limit.Rat())), kirchhoff)
		all = append(all, nth(symbol, k))
	}
	return w.Calc(answer, "min("+joined(all)+")", least(*w, all), kirchhoff)
}

// least returns the least value of symbols of the working.
func least(w working.Working, symbols []string) decimal.Decimal {
	var values []decimal.Decimal
	for _, s := range symbols {
		v, _ := w.Value(s)
		values = append(values, v)
	}
	return decimal.Min(values[0], values[1:]...)
}

// branch is one string between the bank's terminals, with its leads.
type branch struct {
	low, high     decimal.Decimal // mΩ
	bare          []string        // symbols of its low resistances, without leads
	bareLow       decimal.Decimal // their sum
	fullV, emptyV decimal.Decimal // rested
	limit         decimal.Decimal // A
}

// branches adds the resistances of every string. Where one is neither given nor
// listed it says what to measure.
func (b Bank) branches(w *working.Working) (all []branch, missing string) {
	for k, s := range b.strings() {
		var one branch
		var low, high []string
		for n, x := range s {
			i := k*b.Series + n
			if missing := x.resistance(w, i); missing != "" {
				return nil, missing
			}
			w.Given(nth("R_l", i), x.LeadMilliohm)
			one.bare = append(one.bare, nth("R_lo", i))
			low = append(low, nth("R_lo", i), nth("R_l", i))
			high = append(high, nth("R_hi", i), nth("R_l", i))
			own, _ := w.Value(nth("R_lo", i))
			one.bareLow = one.bareLow.Add(own)
		}
		one.low = addUp(w, nth("R_sl", k), low...)
		one.high = addUp(w, nth("R_sg", k), high...)
		all = append(all, one)
	}
	return all, ""
}

// sources is branches with the rested voltage of every string.
func (b Bank) sources(w *working.Working) (all []branch, missing string) {
	all, missing = b.branches(w)
	if missing != "" {
		return nil, missing
	}
	for k := range all {
		all[k].fullV = b.inSeries(w, k, "E_f", "E_bf", func(x BankBattery) decimal.Decimal { return x.FullV })
		all[k].emptyV = b.inSeries(w, k, "E_e", "E_be", func(x BankBattery) decimal.Decimal { return x.EmptyV })
	}
	return all, ""
}

// inSeries adds the voltages of string k; a string of one battery has its own.
func (b Bank) inSeries(w *working.Working, k int, sum, each string, volts func(BankBattery) decimal.Decimal) decimal.Decimal {
	own := b.strings()[k]
	if len(own) == 1 {
		return w.Given(nth(sum, k), volts(own[0]))
	}
	var terms []string
	for n, x := range own {
		i := k*b.Series + n
		w.Given(nth(each, i), volts(x))
		terms = append(terms, nth(each, i))
	}
	return addUp(w, nth(sum, k), terms...)
}

// resistance adds the low and high resistance of a battery: as given, else the
// typical range from memory, else it says what to measure.
func (x BankBattery) resistance(w *working.Working, i int) (missing string) {
	if x.LowMilliohm.Valid {
		w.Given(nth("R_lo", i), x.LowMilliohm.Decimal)
		w.Given(nth("R_hi", i), x.HighMilliohm.Decimal)
		return ""
	}
	low, high, err := tables.InternalResistance(x.Chemistry, x.NominalV, x.CapacityAh)
	if err != nil {
		return fmt.Sprintf("the internal resistance of battery %d (%s): ask its maker, or measure it by two loads with a voltmeter and a clamp meter (IEC 60896-21)", i+1, x.Name)
	}
	w.LookUp(nth("R_lo", i), low)
	w.LookUp(nth("R_hi", i), high)
	return ""
}

// downRat rounds down to 0.01, upRat up; neither number is negative.
func downRat(r *big.Rat) decimal.Decimal { return downRatTo(r, 2) }
func upRat(r *big.Rat) decimal.Decimal   { return upRatTo(r, 2) }

func downRatTo(r *big.Rat, places int32) decimal.Decimal {
	scale := decimal.New(1, places).Rat()
	scaled := scale.Mul(scale, r)
	return decimal.NewFromBigInt(new(big.Int).Quo(scaled.Num(), scaled.Denom()), -places)
}

func upRatTo(r *big.Rat, places int32) decimal.Decimal {
	d := downRatTo(r, places)
	if d.Rat().Cmp(r) < 0 {
		return d.Add(decimal.New(1, -places))
	}
	return d
}

func (b Bank) check() error {
	faults := []error{
		working.Between("series", decimal.NewFromInt(int64(b.Series)), 1, 24),
		working.Between("batteries", decimal.NewFromInt(int64(len(b.Batteries))), 1, 48),
		betweenIf("battery_c", b.BatteryC, -40, 80),
	}
	for i, x := range b.Batteries {
		faults = append(faults, working.In(at("batteries", i), x.check()))
	}
	if err := errors.Join(faults...); err != nil {
		return err
	}
	return b.checkStrings()
}

// checkStrings wants whole strings of like batteries.
func (b Bank) checkStrings() error {
	if len(b.Batteries)%b.Series != 0 {
		return &working.InputError{Field: "batteries", Got: fmt.Sprintf("%d of them, %d in series", len(b.Batteries), b.Series), Want: "whole strings"}
	}
	var faults []error
	first := b.Batteries[0]
	for i, x := range b.Batteries {
		head := b.Batteries[i/b.Series*b.Series]
		path := at("batteries", i)
		if x.Chemistry != first.Chemistry {
			faults = append(faults, &working.InputError{Field: path + ".chemistry", Got: x.Chemistry, Want: "that of the whole bank, " + first.Chemistry})
		}
		if !x.NominalV.Equal(first.NominalV) {
			faults = append(faults, &working.InputError{Field: path + ".battery_v", Got: x.NominalV.String(), Want: "that of the whole bank, " + first.NominalV.String()})
		}
		if !same(x.DepthPercent, head.DepthPercent) || !same(x.AgeingPercent, head.AgeingPercent) {
			faults = append(faults, &working.InputError{Field: path + ".depth_percent",
				Got:  orUnset(x.DepthPercent) + ", ageing_percent " + orUnset(x.AgeingPercent),
				Want: "those of its string, " + orUnset(head.DepthPercent) + " and " + orUnset(head.AgeingPercent)})
		}
		if !same(x.RateH, head.RateH) || !same(x.FastAh, head.FastAh) || !same(x.FastH, head.FastH) {
			faults = append(faults, &working.InputError{Field: path + ".rate_h",
				Got:  orUnset(x.RateH) + ", fast_ah " + orUnset(x.FastAh) + ", fast_h " + orUnset(x.FastH),
				Want: "those of its string, " + orUnset(head.RateH) + ", " + orUnset(head.FastAh) + " and " + orUnset(head.FastH)})
		}
		if !x.CapacityAh.Equal(head.CapacityAh) {
			faults = append(faults, &working.InputError{Field: path + ".capacity_ah", Got: x.CapacityAh.String(), Want: "that of its string, " + head.CapacityAh.String()})
		}
	}
	return errors.Join(faults...)
}

func same(a, b decimal.NullDecimal) bool {
	return a.Valid == b.Valid && a.Decimal.Equal(b.Decimal)
}

func (x BankBattery) check() error {
	faults := []error{
		working.OneOf("chemistry", x.Chemistry, tables.Chemistries()...),
		working.Above("battery_v", x.NominalV, 0, 60),
		working.Above("capacity_ah", x.CapacityAh, 0, 5000),
		aboveIf("rate_h", x.RateH, 0, 1000),
		aboveIf("fast_ah", x.FastAh, 0, 5000),
		aboveIf("fast_h", x.FastH, 0, 1000),
		aboveIf("low_milliohm", x.LowMilliohm, 0, 1000),
		aboveIf("high_milliohm", x.HighMilliohm, 0, 1000),
		working.Above("full_v", x.FullV, 0, 70),
		working.Above("empty_v", x.EmptyV, 0, 70),
		aboveIf("depth_percent", x.DepthPercent, 0, 100),
		aboveIf("ageing_percent", x.AgeingPercent, 0, 100),
		aboveIf("max_discharge_a", x.GreatestDischargeA, 0, 10_000),
		aboveIf("max_charge_a", x.GreatestChargeA, 0, 10_000),
		aboveIf("cut_out_v", x.CutOutV, 0, 60),
		working.Between("lead_milliohm", x.LeadMilliohm, 0, 1000),
	}
	if err := errors.Join(faults...); err != nil {
		return err
	}
	return errors.Join(x.checkOrder("empty_v", x.EmptyV, "full_v", x.FullV), x.checkResistances(), x.checkRatings())
}

func (x BankBattery) checkOrder(low string, l decimal.Decimal, high string, h decimal.Decimal) error {
	if l.LessThanOrEqual(h) {
		return nil
	}
	return &working.InputError{Field: low, Got: l.String(), Want: fmt.Sprintf("at most %s, %s", high, h)}
}

// checkResistances wants both or none: one figure cannot serve both ends.
func (x BankBattery) checkResistances() error {
	if x.LowMilliohm.Valid != x.HighMilliohm.Valid {
		return &working.InputError{Field: "high_milliohm", Got: fmt.Sprintf("%s beside low_milliohm %s", orUnset(x.HighMilliohm), orUnset(x.LowMilliohm)),
			Want: "both or none: the low one decides faults, the high one volts"}
	}
	if !x.LowMilliohm.Valid {
		return nil
	}
	return x.checkOrder("low_milliohm", x.LowMilliohm.Decimal, "high_milliohm", x.HighMilliohm.Decimal)
}
