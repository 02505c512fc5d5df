package battery

import (
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// BankBattery is one battery as its data sheet and the measuring give it.
type BankBattery struct {
	Name               string              `json:"name"`
	Chemistry          tables.Chemistry    `json:"chemistry"` // one of [tables.Chemistries]
	NominalV           decimal.Decimal     `json:"battery_v"` // 1 to 60
	CapacityAh         decimal.Decimal     `json:"capacity_ah"`
	RateH              decimal.NullDecimal `json:"rate_h"`               // in which that capacity is drawn; unset: not known
	FastAh             decimal.NullDecimal `json:"fast_ah"`              // a second rating, for [Bank.CapacityAt]
	FastH              decimal.NullDecimal `json:"fast_h"`               // fewer hours than RateH
	LowMilliohm        decimal.NullDecimal `json:"low_milliohm"`         // full, new, warm: for the greatest fault; unset: a tabled share of the high one
	HighMilliohm       decimal.NullDecimal `json:"high_milliohm"`        // empty, aged, cold: for volts and the least fault
	FullV              decimal.Decimal     `json:"full_v"`               // rested, full; 1 to 70
	EmptyV             decimal.Decimal     `json:"empty_v"`              // rested, at the depth of discharge allowed; 1 to 70
	DepthPercent       decimal.NullDecimal `json:"depth_percent"`        // unset: the shallowest design depth in the tables; above 0 to 100
	AgeingPercent      decimal.NullDecimal `json:"ageing_percent"`       // unset: the end of life in the tables; above 0 to 100
	GreatestDischargeA decimal.NullDecimal `json:"greatest_discharge_a"` // steady
	GreatestChargeA    decimal.NullDecimal `json:"greatest_charge_a"`
	CutOutV            decimal.NullDecimal `json:"cut_out_v"`     // where its own protection opens, whole battery; above 0 to 100
	LeadMilliohm       decimal.NullDecimal `json:"lead_milliohm"` // its own leads, out and back, and their joints; 0: none, bolted to the next; 0 to 1000
}

// Bank is batteries in series and parallel. The list goes string by string: of
// four 6 V batteries with Series 2 the first two are one string. Batteries of
// one string have one capacity and chemistry, all strings the same voltage.
type Bank struct {
	Batteries []BankBattery       `json:"batteries,omitempty"` // 1 to 48
	Series    int                 `json:"series"`              // batteries in one string: 1 where all are in parallel; 1 to 24
	BatteryC  decimal.NullDecimal `json:"battery_c"`           // the coldest in which it has to serve; unset: no word on usable charge; -40 to 80
	From      working.Working     `json:"from,omitempty"`      // the lines that gave the inputs
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
	series := w.Given("n_s", whole(b.Series))
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
	EnergyWh    decimal.NullDecimal `json:"usable_wh"`
	ChargeAh    decimal.NullDecimal `json:"usable_ah"`
	CapacityAh  decimal.NullDecimal `json:"capacity_ah"`       // of which that is a part: rated, or at the mean current
	MeanA       decimal.NullDecimal `json:"mean_a"`            // of [BankAutonomy.Usable], where the capacity depends on it
	ColdPercent decimal.NullDecimal `json:"cold_percent"`      // share of the capacity that is there at the temperature
	Strings     []UsableString      `json:"strings,omitempty"` // in the order of the bank
	Missing     string              `json:"missing,omitempty"` // of [BankAutonomy.Usable]: the rating to ask for; then the figures are unset
	Working     working.Working     `json:"working"`
}

// UsableString is what one string is counted with.
type UsableString struct {
	CapacityAh    decimal.Decimal `json:"string_ah"`
	DepthPercent  decimal.Decimal `json:"depth_percent"`
	AgeingPercent decimal.Decimal `json:"ageing_percent"`
}

// Usable returns what the bank gives at its depth of discharge, at the end of
// its life and at its temperature:
//
//	Q_u = Σ C_s × d_u × a_g × c_T ÷ 10^6   [Ah]
//	E_u = U_n × Q_u                        [Wh]
//
// Each share is the one given, or that of the tables with its source: the
// shallowest design depth and the end of life listed for the chemistry. c_T is the
// capacity at BatteryC or the next colder temperature listed; no battery takes
// credit for warmth. The capacity is that of the rated hours: see
// [Bank.CapacityAt] for faster discharge. Sources: the shares name theirs.
func (b Bank) Usable() (Usable, error) {
	if err := errors.Join(b.check(), b.checkServed()); err != nil {
		return Usable{}, err
	}
	w := working.Start(b.From)
	volts, capacity := b.rating(&w)
	cold, err := capacityShare(&w, b.Batteries[0].Chemistry, b.BatteryC.Decimal)
	if err != nil {
		return Usable{}, err
	}
	u := Usable{CapacityAh: decimal.NewNullDecimal(capacity), ColdPercent: decimal.NewNullDecimal(cold)}
	var parts []string
	sum := decimal.Zero
	for k, s := range b.strings() {
		one, err := usableString(&w, k, s[0])
		if err != nil {
			return Usable{}, working.In(at("batteries", k*b.Series), err)
		}
		u.Strings = append(u.Strings, one)
		sum = sum.Add(one.CapacityAh.Mul(one.DepthPercent).Mul(one.AgeingPercent).Mul(cold))
		parts = append(parts, fmt.Sprintf("%s × %s × %s × c_T ÷ 1000000", nth("C_s", k), nth("d_u", k), nth("a_g", k)))
	}
	charge := w.Calc("Q_u", sumOf(parts...), sum.Shift(-6), arithmetic)
	u.ChargeAh = decimal.NewNullDecimal(charge)
	u.EnergyWh = decimal.NewNullDecimal(w.Calc("E_u", "U_n × Q_u", volts.Mul(charge), arithmetic))
	u.Working = slices.Clip(w)
	return u, nil
}

// checkServed wants the temperature that usable charge is judged at.
func (b Bank) checkServed() error {
	if b.BatteryC.Valid {
		return nil // within its range by check
	}
	return stated("battery_c", b.BatteryC, -40, 80)
}

// usableString adds the shares of one string.
func usableString(w *working.Working, k int, of BankBattery) (UsableString, error) {
	depth, errD := share(w, nth("d_u", k), of.DepthPercent, of.Chemistry, "depth_of_discharge_design", "depth_percent")
	ageing, errA := share(w, nth("a_g", k), of.AgeingPercent, of.Chemistry, "end_of_life_capacity", "ageing_percent")
	return UsableString{CapacityAh: of.CapacityAh, DepthPercent: depth, AgeingPercent: ageing}, errors.Join(errD, errA)
}

// share adds a percentage as given, or the smallest that the tables have for
// the chemistry. Where they have none it has to be given.
func share(w *working.Working, symbol string, given decimal.NullDecimal, chemistry tables.Chemistry, parameter, field string) (decimal.Decimal, error) {
	if given.Valid {
		return w.Given(symbol, given.Decimal), nil
	}
	spans, err := tables.BatteryLimits(chemistry, parameter)
	if errors.Is(err, tables.ErrNotListed) {
		return decimal.Decimal{}, &working.InputError{Field: field, Got: "unset", Want: "a share in %: the tables have none for " + string(chemistry)}
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

// strings returns the batteries string by string.
func (b Bank) strings() [][]BankBattery {
	return slices.Collect(slices.Chunk(b.Batteries, b.Series))
}

// Without returns the bank with one string missing, counted from 0: what is
// left when a fuse opens or a battery's own protection does. Ask it whatever the
// whole bank is asked. A bank of one string leaves nothing, which is an error.
func (b Bank) Without(index int) (Bank, error) {
	if err := b.check(); err != nil {
		return Bank{}, err
	}
	n := len(b.strings())
	if n < 2 {
		return Bank{}, &working.InputError{Field: "batteries", Got: "one string", Want: "more than one: without it nothing is left"}
	}
	if err := working.Between("index", whole(index), 0, int64(n-1)); err != nil {
		return Bank{}, err
	}
	rest, from := b, index*b.Series
	rest.Batteries = slices.Concat(b.Batteries[:from], b.Batteries[from+b.Series:])
	return rest, nil
}

func (b Bank) check() error {
	faults := []error{
		working.Between("series", whole(b.Series), 1, 24),
		working.Between("batteries", whole(len(b.Batteries)), 1, 48),
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
			faults = append(faults, &working.InputError{Field: path + ".chemistry", Got: string(x.Chemistry), Want: "that of the whole bank, " + string(first.Chemistry)})
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
		x.Chemistry.Check("chemistry"),
		fromTo("battery_v", x.NominalV, "1", 60),
		fromTo("capacity_ah", x.CapacityAh, "0.1", 5000),
		fromToIf("rate_h", x.RateH, "0.01", 1000),
		fromToIf("fast_ah", x.FastAh, "0.1", 5000),
		fromToIf("fast_h", x.FastH, "0.01", 1000),
		fromToIf("low_milliohm", x.LowMilliohm, "0.001", 1000),
		fromToIf("high_milliohm", x.HighMilliohm, "0.001", 1000),
		fromTo("full_v", x.FullV, "1", 70),
		fromTo("empty_v", x.EmptyV, "1", 70),
		aboveIf("depth_percent", x.DepthPercent, 0, 100),
		aboveIf("ageing_percent", x.AgeingPercent, 0, 100),
		aboveIf("greatest_discharge_a", x.GreatestDischargeA, 0, 10_000),
		aboveIf("greatest_charge_a", x.GreatestChargeA, 0, 10_000),
		aboveIf("cut_out_v", x.CutOutV, 0, 100),
		betweenIf("lead_milliohm", x.LeadMilliohm, 0, 1000),
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

// checkResistances wants the low one no higher than the high one.
func (x BankBattery) checkResistances() error {
	if !x.LowMilliohm.Valid || !x.HighMilliohm.Valid {
		return nil
	}
	return x.checkOrder("low_milliohm", x.LowMilliohm.Decimal, "high_milliohm", x.HighMilliohm.Decimal)
}
