package battery

import (
	"errors"
	"fmt"
	"math/big"
	"slices"
	"strconv"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// FaultPath is what lies between the bank's terminals and a fault, out and
// back. On the terminals themselves all three are nought.
type FaultPath struct {
	LowMilliohm  decimal.Decimal     `json:"path_low_milliohm"`  // cold conductors, no contacts; 0 is the strict side
	HighMilliohm decimal.NullDecimal `json:"path_high_milliohm"` // hot conductors, every contact
	LimitedA     decimal.NullDecimal `json:"source_limit_a"`     // sources that limit themselves: chargers, converters, modules; 0: none
	From         working.Working     `json:"from,omitempty"`     // the lines that gave it
}

// BankFault is what a bank feeds into a short circuit.
type BankFault struct {
	GreatestA decimal.NullDecimal `json:"greatest_fault_a"`  // for breaking capacity
	LeastA    decimal.NullDecimal `json:"least_fault_a"`     // for whether and when a device opens
	Strings   []StringFault       `json:"strings,omitempty"` // what the device of each string may have to break
	Missing   string              `json:"missing,omitempty"` // what to measure; what rests on it is unset
	Working   working.Working     `json:"working"`
}

// StringFault is what the device at a string's own posts sees.
type StringFault struct {
	OwnA    decimal.Decimal `json:"own_fault_a"`    // the fault is beyond the device: the string feeds it
	OthersA decimal.Decimal `json:"others_fault_a"` // the fault is in the string: all others feed it
	DeviceA decimal.Decimal `json:"device_fault_a"` // the greater of both
}

// Fault returns the prospective short-circuit currents of the bank beyond a
// path:
//
//	I_k  = Σ (E_f ÷ R_sl) × 1000 ÷ (1 + R_cl × Σ (1 ÷ R_sl)) + I_s    greatest
//	I_kl = Σ (E_e ÷ R_sg) × 1000 ÷ (1 + R_ch × Σ (1 ÷ R_sg))          least
//	I_ow = E_f × 1000 ÷ R_lo                                          own, at its posts
//	I_ot = Σ of the others (E_f ÷ R_sl) × 1000 + I_s                  the others
//	I_dv = max(I_ow, I_ot)
//
// The greatest takes the lowest resistance, full voltage and every limited
// source; it is rounded up. A string that rests below the voltage which the others
// hold at the bank would take current from the fault: it is left out there, as it
// need not be connected. The least takes the highest resistance and empty voltage,
// every string, and no help; it is rounded down. With one string missing the least
// is smaller still: ask [Bank.Without]. A rule of thumb in multiples of the
// ampere-hours has no place here. Inductance is left out, which is on the safe
// side for the greatest.
//
// Where only one resistance of a battery is known, only the current that rests on
// it is answered, and Missing says what to measure; a high one alone gives a low
// one by the share that the tables have.
//
// Path 0 to 1000 mΩ, limited sources 0 to 10 000 A. Sources: Kirchhoff's laws;
// the low and high cases are common practice.
func (b Bank) Fault(path FaultPath) (BankFault, error) {
	if err := errors.Join(b.check(), path.check()); err != nil {
		return BankFault{}, err
	}
	w := working.Start(b.From, path.From)
	strings, lacks := b.sources(&w)
	f := BankFault{Missing: lacks.text()}
	if lacks.low != "" && lacks.high != "" {
		return f, nil
	}
	w.Given("R_cl", path.LowMilliohm)
	w.Given("R_ch", path.HighMilliohm.Decimal)
	w.Given("I_s", path.LimitedA.Decimal)
	if lacks.low == "" {
		f.GreatestA = decimal.NewNullDecimal(greatestFault(&w, strings, path))
	}
	if lacks.high == "" {
		feed, formula := short(strings, everyOne(strings), emptyCorner, "R_ch", path.HighMilliohm.Decimal)
		f.LeastA = decimal.NewNullDecimal(calcDown(&w, "I_kl", formula, feed, 2, kirchhoff))
	}
	for k := range strings {
		if lacks.low == "" {
			f.Strings = append(f.Strings, device(&w, strings, k, path.LimitedA.Decimal))
		}
	}
	f.Working = slices.Clip(w)
	return f, nil
}

// text joins what is lacking, each thing once.
func (l lacking) text() string {
	if l.low == l.high {
		return l.low
	}
	return remarks(l.low, l.high)
}

// greatestFault adds the greatest current, without the strings that would take
// from it.
func greatestFault(w *working.Working, strings []branch, path FaultPath) decimal.Decimal {
	giving, absorbing := feeding(strings, path.LowMilliohm)
	feed, formula := short(strings, giving, fullCorner, "R_cl", path.LowMilliohm)
	a := calcUp(w, "I_k", formula+" + I_s", feed.Add(feed, path.LimitedA.Decimal.Rat()), 2, kirchhoff)
	if len(absorbing) > 0 {
		w.Note("left out, as it would take current from the fault: string " + joined(absorbing))
	}
	return a
}

// feeding parts the strings that feed a fault from those that rest below the
// voltage which is left at the bank. Each that is left out raises that voltage.
func feeding(strings []branch, pathMilliohm decimal.Decimal) (giving []int, absorbing []string) {
	giving = everyOne(strings)
	for {
		feed, _ := short(strings, giving, fullCorner, "R_cl", pathMilliohm)
		volts := feed.Mul(feed, pathMilliohm.Shift(-3).Rat())
		below := func(k int) bool { return strings[k].fullV.Rat().Cmp(volts) < 0 }
		if !slices.ContainsFunc(giving, below) {
			return giving, absorbing
		}
		for _, k := range giving {
			if below(k) {
				absorbing = append(absorbing, strconv.Itoa(k+1))
			}
		}
		giving = slices.DeleteFunc(giving, below)
	}
}

func everyOne(strings []branch) []int {
	all := make([]int, len(strings))
	for k := range all {
		all[k] = k
	}
	return all
}

// corner is one end of a battery's life and charge.
type corner struct {
	emf, resistance string
	of              func(branch) (e, r decimal.Decimal)
}

var (
	fullCorner  = corner{"E_f", "R_sl", func(s branch) (e, r decimal.Decimal) { return s.fullV, s.low.Decimal }}
	emptyCorner = corner{"E_e", "R_sg", func(s branch) (e, r decimal.Decimal) { return s.emptyV, s.high.Decimal }}
)

// conductance sums what strings feed into a short circuit and what they conduct,
// with the terms of both: Σ (E ÷ R) and Σ (1 ÷ R).
func (c corner) conductance(strings []branch, which []int) (feed, conducts *big.Rat, feeds, conductors string) {
	feed, conducts = new(big.Rat), new(big.Rat)
	var above, below []string
	for _, k := range which {
		e, r := c.of(strings[k])
		feed.Add(feed, new(big.Rat).Quo(e.Rat(), r.Rat()))
		conducts.Add(conducts, new(big.Rat).Inv(r.Rat()))
		above = append(above, nth(c.emf, k)+" ÷ "+nth(c.resistance, k))
		below = append(below, "1 ÷ "+nth(c.resistance, k))
	}
	return feed, conducts, sumOf(above...), sumOf(below...)
}

// short returns the current that strings feed through a common path, and its
// formula.
func short(strings []branch, which []int, c corner, path string, pathMilliohm decimal.Decimal) (*big.Rat, string) {
	feed, conducts, feeds, conductors := c.conductance(strings, which)
	feed.Mul(feed, big.NewRat(1000, 1))
	below := conducts.Mul(conducts, pathMilliohm.Rat())
	below.Add(below, big.NewRat(1, 1))
	return feed.Quo(feed, below), fmt.Sprintf("(%s) × 1000 ÷ (1 + %s × (%s))", feeds, path, conductors)
}

// device adds what the device at the posts of string k may have to break.
func device(w *working.Working, strings []branch, k int, limitedA decimal.Decimal) StringFault {
	own := strings[k]
	var f StringFault
	f.OwnA = w.CalcUp(nth("I_ow", k), nth("E_f", k)+" × 1000 ÷ "+bracketed(own.bare), own.fullV.Shift(3), own.bareLow, 2, ohm)
	sum := limitedA.Rat()
	terms := []string{"I_s"}
	for j, s := range strings {
		if j == k {
			continue
		}
		sum = new(big.Rat).Add(sum, new(big.Rat).Quo(s.fullV.Shift(3).Rat(), s.low.Decimal.Rat()))
		terms = append(terms, nth("E_f", j)+" × 1000 ÷ "+nth("R_sl", j))
	}
	f.OthersA = calcUp(w, nth("I_ot", k), sumOf(terms...), sum, 2, kirchhoff)
	f.DeviceA = w.Calc(nth("I_dv", k), "max("+nth("I_ow", k)+", "+nth("I_ot", k)+")", decimal.Max(f.OwnA, f.OthersA), arithmetic)
	return f
}

// bracketed writes a sum as a divisor.
func bracketed(terms []string) string {
	if len(terms) == 1 {
		return terms[0]
	}
	return "(" + sumOf(terms...) + ")"
}

func (p FaultPath) check() error {
	if err := errors.Join(
		working.Between("path_low_milliohm", p.LowMilliohm, 0, 1000),
		stated("path_high_milliohm", p.HighMilliohm, 0, 1000),
		stated("source_limit_a", p.LimitedA, 0, 10_000),
	); err != nil {
		return err
	}
	if p.HighMilliohm.Decimal.LessThan(p.LowMilliohm) {
		return &working.InputError{Field: "path_high_milliohm", Got: p.HighMilliohm.Decimal.String(), Want: "at least path_low_milliohm, " + p.LowMilliohm.String()}
	}
	return nil
}

// BankSource is a bank as one source: rested voltage behind one resistance, at
// both ends of its life and charge.
type BankSource struct {
	FullV        decimal.NullDecimal `json:"bank_full_v"`
	EmptyV       decimal.NullDecimal `json:"bank_empty_v"`
	LowMilliohm  decimal.NullDecimal `json:"bank_low_milliohm"`
	HighMilliohm decimal.NullDecimal `json:"bank_high_milliohm"`
	Missing      string              `json:"missing,omitempty"` // what to measure; what rests on it is unset
	Working      working.Working     `json:"working"`
}

// Source returns the bank as one voltage behind one resistance:
//
//	R_bl = 1 ÷ Σ (1 ÷ R_sl)                  [mΩ], rounded down to 0.0001
//	E_Bf = Σ (E_f ÷ R_sl) ÷ Σ (1 ÷ R_sl)     [V], rounded up
//	R_bh = 1 ÷ Σ (1 ÷ R_sg)                  [mΩ], rounded up
//	E_Be = Σ (E_e ÷ R_sg) ÷ Σ (1 ÷ R_sg)     [V], rounded down
//
// The full pair serves faults, the empty pair volts; a pair whose resistance is
// not known is unset, and Missing says what to measure. Source: Kirchhoff's laws
// (the theorem of Thévenin and Helmholtz).
func (b Bank) Source() (BankSource, error) {
	if err := b.check(); err != nil {
		return BankSource{}, err
	}
	w := working.Start(b.From)
	strings, lacks := b.sources(&w)
	s := BankSource{Missing: lacks.text()}
	if lacks.low != "" && lacks.high != "" {
		return s, nil
	}
	if lacks.low == "" {
		feed, conducts, feeds, conductors := fullCorner.conductance(strings, everyOne(strings))
		s.LowMilliohm = decimal.NewNullDecimal(calcDown(&w, "R_bl", "1 ÷ ("+conductors+")", new(big.Rat).Inv(conducts), 4, kirchhoff))
		s.FullV = decimal.NewNullDecimal(calcUp(&w, "E_Bf", "("+feeds+") ÷ ("+conductors+")", feed.Quo(feed, conducts), 4, kirchhoff))
	}
	if lacks.high == "" {
		feed, conducts, feeds, conductors := emptyCorner.conductance(strings, everyOne(strings))
		s.HighMilliohm = decimal.NewNullDecimal(calcUp(&w, "R_bh", "1 ÷ ("+conductors+")", new(big.Rat).Inv(conducts), 4, kirchhoff))
		s.EmptyV = decimal.NewNullDecimal(calcDown(&w, "E_Be", "("+feeds+") ÷ ("+conductors+")", feed.Quo(feed, conducts), 4, kirchhoff))
	}
	s.Working = slices.Clip(w)
	return s, nil
}

// BankUnderLoad is a bank under load, nearly empty and at its highest resistance.
type BankUnderLoad struct {
	VoltageV decimal.NullDecimal `json:"bank_v"`
	StringA  []decimal.Decimal   `json:"string_a,omitempty"` // of each string; negative where it is charged by the others
	Missing  string              `json:"missing,omitempty"`  // what to measure; then the figures are unset
	Working  working.Working     `json:"working"`
}

// UnderLoad returns the voltage of the bank at a current and what each string
// carries of it:
//
//	U_bk = (Σ (E_e ÷ R_sg) − I ÷ 1000) ÷ Σ (1 ÷ R_sg)   [V], rounded down to 0.0001
//	I_s1 = (E_e − U_bk) × 1000 ÷ R_sg                   of each string [A], to 0.01
//
// Strings that rest at different voltages feed each other even without a load.
// Current 0 to 10 000 A; more than the bank feeds into a short circuit is an
// error. Source: Kirchhoff's laws.
func (b Bank) UnderLoad(currentA decimal.Decimal) (BankUnderLoad, error) {
	if err := errors.Join(b.check(), working.Between("current_a", currentA, 0, 10_000)); err != nil {
		return BankUnderLoad{}, err
	}
	w := working.Start(b.From)
	strings, lacks := b.sources(&w)
	if lacks.high != "" {
		return BankUnderLoad{Missing: lacks.high}, nil
	}
	i := w.Given("I", currentA)
	feed, conducts, feeds, conductors := emptyCorner.conductance(strings, everyOne(strings))
	rest := feed.Sub(feed, i.Shift(-3).Rat())
	if rest.Sign() <= 0 {
		return BankUnderLoad{}, &working.InputError{Field: "current_a", Got: i.String(), Want: "less than the bank feeds into a short circuit"}
	}
	volts := calcDown(&w, "U_bk", "("+feeds+" − I ÷ 1000) ÷ ("+conductors+")", rest.Quo(rest, conducts), 4, kirchhoff)
	u := BankUnderLoad{VoltageV: decimal.NewNullDecimal(volts)}
	for k, s := range strings {
		own := s.emptyV.Sub(volts).Shift(3).DivRound(s.high.Decimal, 2)
		u.StringA = append(u.StringA, w.Calc(nth("I_s1", k), "("+nth("E_e", k)+" − U_bk) × 1000 ÷ "+nth("R_sg", k), own, kirchhoff))
	}
	u.Working = slices.Clip(w)
	return u, nil
}
