package battery

import (
	"cmp"
	"fmt"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// branch is one string between the bank's terminals, with its leads.
type branch struct {
	low, high     decimal.NullDecimal // mΩ; unset where not known
	bare          []string            // symbols of its low resistances, without leads
	bareLow       decimal.Decimal     // their sum
	fullV, emptyV decimal.Decimal     // rested
	limit         decimal.Decimal     // A
}

// lacking is what to measure before a low or a high resistance is known; "" where
// it is.
type lacking struct{ low, high string }

func (l lacking) and(other lacking) lacking {
	return lacking{cmp.Or(l.low, other.low), cmp.Or(l.high, other.high)}
}

// branches adds the resistances of every string, as far as they are known.
func (b Bank) branches(w *working.Working) (all []branch, lacks lacking) {
	for k, s := range b.strings() {
		one, own := b.branch(w, k, s)
		all, lacks = append(all, one), lacks.and(own)
	}
	return all, lacks
}

func (b Bank) branch(w *working.Working, k int, batteries []BankBattery) (one branch, lacks lacking) {
	var low, high []string
	for n, x := range batteries {
		i := k*b.Series + n
		lacks = lacks.and(x.resistance(w, i)).and(x.lead(w, i))
		low = append(low, nth("R_lo", i), nth("R_l", i))
		high = append(high, nth("R_hi", i), nth("R_l", i))
		one.bare = append(one.bare, nth("R_lo", i))
		own, _ := w.Value(nth("R_lo", i))
		one.bareLow = one.bareLow.Add(own)
	}
	if lacks.low == "" {
		one.low = decimal.NewNullDecimal(addUp(w, nth("R_sl", k), low...))
	}
	if lacks.high == "" {
		one.high = decimal.NewNullDecimal(addUp(w, nth("R_sg", k), high...))
	}
	return one, lacks
}

// lead adds the leads of a battery.
func (x BankBattery) lead(w *working.Working, i int) lacking {
	if x.LeadMilliohm.Valid {
		w.Given(nth("R_l", i), x.LeadMilliohm.Decimal)
		return lacking{}
	}
	ask := fmt.Sprintf("the resistance of the leads of battery %d (%s), out and back with their joints: by their length and size, or millivolts along them at a known current", i+1, x.Name)
	return lacking{ask, ask}
}

// resistance adds the low and high resistance of a battery, as far as they are
// known: as given, else the typical range from memory. One that is given alone is
// no word on the other; a high one, which cranking amperes give too, is a cold one,
// of which a warm battery has a tabled share.
func (x BankBattery) resistance(w *working.Working, i int) (lacks lacking) {
	if !x.LowMilliohm.Valid && !x.HighMilliohm.Valid {
		return x.typical(w, i)
	}
	if x.HighMilliohm.Valid {
		w.Given(nth("R_hi", i), x.HighMilliohm.Decimal)
	} else {
		lacks.high = fmt.Sprintf("the resistance of battery %d (%s) nearly empty, aged and cold: ask its maker, or measure it so (IEC 60896-21, with a voltmeter at the posts and a clamp meter)", i+1, x.Name)
	}
	if x.LowMilliohm.Valid {
		w.Given(nth("R_lo", i), x.LowMilliohm.Decimal)
		return lacks
	}
	f, err := tables.FaultSource("battery-warm")
	if err != nil || !x.Chemistry.Is(tables.LeadAcid) {
		lacks.low = fmt.Sprintf("the resistance of battery %d (%s) full, new and warm: ask its maker, or measure it so (IEC 60896-21, with a voltmeter at the posts and a clamp meter)", i+1, x.Name)
		return lacks
	}
	share := w.LookUp("k_wm", f)
	w.CalcDown(nth("R_lo", i), "k_wm × "+nth("R_hi", i), share.Mul(x.HighMilliohm.Decimal), one, 4, f.Source)
	return lacks
}

// typical adds the range that the tables have for such a battery.
func (x BankBattery) typical(w *working.Working, i int) lacking {
	low, high, err := tables.InternalResistance(x.Chemistry, x.NominalV, x.CapacityAh)
	if err != nil {
		ask := fmt.Sprintf("the internal resistance of battery %d (%s): ask its maker, or measure it by two loads with a voltmeter and a clamp meter (IEC 60896-21)", i+1, x.Name)
		return lacking{ask, ask}
	}
	w.LookUp(nth("R_lo", i), low)
	w.LookUp(nth("R_hi", i), high)
	return lacking{}
}

// sources is branches with the rested voltage of every string.
func (b Bank) sources(w *working.Working) (all []branch, lacks lacking) {
	all, lacks = b.branches(w)
	for k := range all {
		all[k].fullV = b.inSeries(w, k, "E_f", "E_bf", func(x BankBattery) decimal.Decimal { return x.FullV })
		all[k].emptyV = b.inSeries(w, k, "E_e", "E_be", func(x BankBattery) decimal.Decimal { return x.EmptyV })
	}
	return all, lacks
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
