package battery

import (
	"errors"
	"fmt"
	"math/big"
	"slices"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// FaultPath is what lies between the bank's terminals and a fault, out and
// back. The zero path is a fault on the terminals themselves.
type FaultPath struct {
	LowMilliohm  decimal.Decimal `json:"path_low_milliohm"`  // cold conductors, no contacts
	HighMilliohm decimal.Decimal `json:"path_high_milliohm"` // hot conductors, every contact
	LimitedA     decimal.Decimal `json:"source_limit_a"`     // sources that limit themselves: chargers, converters, modules
	From         working.Working `json:"-"`                  // the lines that gave it
}

// BankFault is what a bank feeds into a short circuit.
type BankFault struct {
	GreatestA decimal.Decimal `json:"fault_a"`       // for breaking capacity
	LeastA    decimal.Decimal `json:"least_fault_a"` // for whether and when a device opens
	Strings   []StringFault   `json:"strings"`       // what the device of each string may have to break
	Missing   string          `json:"missing"`       // what to measure; then the figures are nought
	Working   working.Working `json:"working"`
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
//	I_kl = Σ (E_e ÷ R_sg) × 1000 ÷ (1 + R_ch × Σ (1 ÷ R_sg))          smallest
//	I_ow = E_f × 1000 ÷ R_lo                                          own, at its posts
//	I_ot = Σ of the others (E_f ÷ R_sl) × 1000 + I_s                  the others
//	I_dv = max(I_ow, I_ot)
//
// The greatest takes the lowest resistance, full voltage and every limited
// source; it is rounded up. The smallest takes the highest resistance and empty
// voltage, and no help; it is rounded down. With one string missing the smallest
// is smaller still: ask [Bank.Without]. A rule of thumb in multiples of the
// ampere-hours has no place here. Inductance is left out, which is on the safe
// side for the greatest.
//
// Path 0 to 1000 mΩ, limited sources 0 to 10 000 A. Sources: Kirchhoff's laws;
// the low and high cases are common practice.
func (b Bank) Fault(path FaultPath) (BankFault, error) {
	if err := errors.Join(b.check(), path.check()); err != nil {
		return BankFault{}, err
	}
	w := working.Start(b.From, path.From)
	strings, missing := b.sources(&w)
	if missing != "" {
		return BankFault{Missing: missing}, nil
	}
	w.Given("R_cl", path.LowMilliohm)
	w.Given("R_ch", path.HighMilliohm)
	w.Given("I_s", path.LimitedA)
	var f BankFault
	feed, formula := short(strings, "E_f", "R_sl", "R_cl", path.LowMilliohm, func(s branch) (e, r decimal.Decimal) { return s.fullV, s.low })
	f.GreatestA = w.Calc("I_k", upOf("("+formula+" + I_s)"), upRat(feed.Add(feed, path.LimitedA.Rat())), kirchhoff)
	feed, formula = short(strings, "E_e", "R_sg", "R_ch", path.HighMilliohm, func(s branch) (e, r decimal.Decimal) { return s.emptyV, s.high })
	f.LeastA = w.Calc("I_kl", downOf(formula), downRat(feed), kirchhoff)
	for k := range strings {
		f.Strings = append(f.Strings, device(&w, strings, k, path.LimitedA))
	}
	f.Working = slices.Clip(w)
	return f, nil
}

// short returns the current that strings feed through a common path, and its
// formula.
func short(strings []branch, emf, resistance, path string, pathMilliohm decimal.Decimal, corner func(branch) (e, r decimal.Decimal)) (*big.Rat, string) {
	feed, conductance := new(big.Rat), new(big.Rat)
	var feeds, conductances []string
	for k, s := range strings {
		e, r := corner(s)
		feed.Add(feed, new(big.Rat).Quo(e.Rat(), r.Rat()))
		conductance.Add(conductance, new(big.Rat).Inv(r.Rat()))
		feeds = append(feeds, nth(emf, k)+" ÷ "+nth(resistance, k))
		conductances = append(conductances, "1 ÷ "+nth(resistance, k))
	}
	feed.Mul(feed, big.NewRat(1000, 1))
	below := conductance.Mul(conductance, pathMilliohm.Rat())
	below.Add(below, big.NewRat(1, 1))
	formula := fmt.Sprintf("(%s) × 1000 ÷ (1 + %s × (%s))", sumOf(feeds...), path, sumOf(conductances...))
	return feed.Quo(feed, below), formula
}

// device adds what the device at the posts of string k may have to break.
func device(w *working.Working, strings []branch, k int, limitedA decimal.Decimal) StringFault {
	own := strings[k]
	f := StringFault{OwnA: w.Calc(nth("I_ow", k), upOf(nth("E_f", k)+" × 1000 ÷ "+bracketed(own.bare)), up(own.fullV.Shift(3), own.bareLow), ohm)}
	sum := limitedA.Rat()
	terms := []string{"I_s"}
	for j, s := range strings {
		if j == k {
			continue
		}
		sum = new(big.Rat).Add(sum, new(big.Rat).Quo(s.fullV.Shift(3).Rat(), s.low.Rat()))
		terms = append(terms, nth("E_f", j)+" × 1000 ÷ "+nth("R_sl", j))
	}
	f.OthersA = w.Calc(nth("I_ot", k), upOf("("+sumOf(terms...)+")"), upRat(sum), kirchhoff)
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
	return errors.Join(
		working.Between("path_low_milliohm", p.LowMilliohm, 0, 1000),
		working.Between("path_high_milliohm", p.HighMilliohm, 0, 1000),
		working.Between("source_limit_a", p.LimitedA, 0, 10_000),
	)
}

// BankSource is a bank as one source: rested voltage behind one resistance, at both
// ends of its life and charge.
type BankSource struct {
	FullV        decimal.Decimal `json:"bank_full_v"`
	EmptyV       decimal.Decimal `json:"bank_empty_v"`
	LowMilliohm  decimal.Decimal `json:"bank_low_milliohm"`
	HighMilliohm decimal.Decimal `json:"bank_high_milliohm"`
	Missing      string          `json:"missing"` // what to measure; then the figures are nought
	Working      working.Working `json:"working"`
}

// Source returns the bank as one voltage behind one resistance:
//
//	R_bl = 1 ÷ Σ (1 ÷ R_sl)                  [mΩ], rounded down to 0.0001
//	E_Bf = Σ (E_f ÷ R_sl) ÷ Σ (1 ÷ R_sl)     [V], rounded up
//	R_bh = 1 ÷ Σ (1 ÷ R_sg)                  [mΩ], rounded up
//	E_Be = Σ (E_e ÷ R_sg) ÷ Σ (1 ÷ R_sg)     [V], rounded down
//
// The full pair serves faults, the empty pair volts. Source: Kirchhoff's laws
// (the theorem of Thévenin and Helmholtz).
func (b Bank) Source() (BankSource, error) {
	if err := b.check(); err != nil {
		return BankSource{}, err
	}
	w := working.Start(b.From)
	strings, missing := b.sources(&w)
	if missing != "" {
		return BankSource{Missing: missing}, nil
	}
	var s BankSource
	r, e, rText, eText := merged(strings, "E_f", "R_sl", func(s branch) (e, r decimal.Decimal) { return s.fullV, s.low })
	s.LowMilliohm = w.Calc("R_bl", downOf4(rText), downRatTo(r, 4), kirchhoff)
	s.FullV = w.Calc("E_Bf", upOf4(eText), upRatTo(e, 4), kirchhoff)
	r, e, rText, eText = merged(strings, "E_e", "R_sg", func(s branch) (e, r decimal.Decimal) { return s.emptyV, s.high })
	s.HighMilliohm = w.Calc("R_bh", upOf4(rText), upRatTo(r, 4), kirchhoff)
	s.EmptyV = w.Calc("E_Be", downOf4(eText), downRatTo(e, 4), kirchhoff)
	s.Working = slices.Clip(w)
	return s, nil
}

// merged returns resistance and rested voltage of strings in parallel, with
// their formulas.
func merged(strings []branch, emf, resistance string, corner func(branch) (e, r decimal.Decimal)) (r, e *big.Rat, rText, eText string) {
	feed, conductance := new(big.Rat), new(big.Rat)
	var feeds, conductances []string
	for k, s := range strings {
		volts, milliohm := corner(s)
		feed.Add(feed, new(big.Rat).Quo(volts.Rat(), milliohm.Rat()))
		conductance.Add(conductance, new(big.Rat).Inv(milliohm.Rat()))
		feeds = append(feeds, nth(emf, k)+" ÷ "+nth(resistance, k))
		conductances = append(conductances, "1 ÷ "+nth(resistance, k))
	}
	total := sumOf(conductances...)
	return new(big.Rat).Inv(conductance), feed.Quo(feed, conductance), "1 ÷ (" + total + ")", "(" + sumOf(feeds...) + ") ÷ (" + total + ")"
}

// BankUnderLoad is a bank under load, nearly empty and at its highest resistance.
type BankUnderLoad struct {
	VoltageV decimal.Decimal   `json:"bank_v"`
	StringA  []decimal.Decimal `json:"string_a"` // of each string; negative where it is charged by the others
	Missing  string            `json:"missing"`  // what to measure; then the figures are nought
	Working  working.Working   `json:"working"`
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
	strings, missing := b.sources(&w)
	if missing != "" {
		return BankUnderLoad{Missing: missing}, nil
	}
	i := w.Given("I", currentA)
	feed, conductance := new(big.Rat), new(big.Rat)
	var feeds, conductances []string
	for k, s := range strings {
		feed.Add(feed, new(big.Rat).Quo(s.emptyV.Rat(), s.high.Rat()))
		conductance.Add(conductance, new(big.Rat).Inv(s.high.Rat()))
		feeds = append(feeds, nth("E_e", k)+" ÷ "+nth("R_sg", k))
		conductances = append(conductances, "1 ÷ "+nth("R_sg", k))
	}
	rest := feed.Sub(feed, i.Shift(-3).Rat())
	if rest.Sign() <= 0 {
		return BankUnderLoad{}, &working.InputError{Field: "current_a", Got: i.String(), Want: "less than the bank feeds into a short circuit"}
	}
	formula := "(" + sumOf(feeds...) + " − I ÷ 1000) ÷ (" + sumOf(conductances...) + ")"
	u := BankUnderLoad{VoltageV: w.Calc("U_bk", downOf4(formula), downRatTo(rest.Quo(rest, conductance), 4), kirchhoff)}
	for k, s := range strings {
		own := s.emptyV.Sub(u.VoltageV).Shift(3).DivRound(s.high, 2)
		u.StringA = append(u.StringA, w.Calc(nth("I_s1", k), "("+nth("E_e", k)+" − U_bk) × 1000 ÷ "+nth("R_sg", k), own, kirchhoff))
	}
	u.Working = slices.Clip(w)
	return u, nil
}
