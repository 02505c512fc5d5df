package battery

import (
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// DutyCycle is a load that changes by periods, on cells whose maker states what
// capacity each ampere takes for a time.
type DutyCycle struct {
	Periods []Period         `json:"periods,omitempty"` // in the order of time
	Factors []CapacityFactor `json:"factors,omitempty"` // rising in time; 1 to 100
	From    working.Working  `json:"from,omitempty"`
}

// Period is a steady current through some hours.
type Period struct {
	CurrentA decimal.NullDecimal `json:"current_a"` // 0: a rest
	TimeH    decimal.Decimal     `json:"period_h"`
}

// CapacityFactor is the rated capacity that each ampere of a discharge takes,
// so that the cell ends at its end voltage after that time: of its data sheet.
type CapacityFactor struct {
	TimeH  decimal.Decimal `json:"time_h"` // above 0 to 5000
	AhPerA decimal.Decimal `json:"ah_per_a"`
}

// Uncorrected is the capacity that a duty cycle takes, before the corrections
// for temperature, ageing and margin: see [Corrections].
type Uncorrected struct {
	CapacityAh decimal.Decimal `json:"uncorrected_ah"`
	Section    int             `json:"section"` // that governs, the first is 1
	Working    working.Working `json:"working"`
}

// Uncorrected returns the capacity by sections: the section that ends with
// period S takes
//
//	C_s = Σ over its periods (I_P − I_P−1) × K_t   [Ah]
//
// with K_t for the time from the beginning of the period to the end of the
// section, and the greatest section governs. A rise of the current takes the
// factor of the next longer time listed, a fall that of the next shorter one (or
// none): both on the safe side. One to 24 periods; currents 0 to 10 000 A, hours
// above 0 to 200, factors above 0 to 1000 Ah/A. Source: IEEE 485, the cell
// sizing work sheet (from memory).
func (d DutyCycle) Uncorrected() (Uncorrected, error) {
	if err := d.check(); err != nil {
		return Uncorrected{}, err
	}
	w := working.Start(d.From)
	for p, period := range d.Periods {
		w.Given(nth("I", p), period.CurrentA.Decimal)
		w.Given(nth("t_p", p), period.TimeH)
	}
	var u Uncorrected
	var sections []string
	factors := 0
	for s := range d.Periods {
		need, err := d.section(&w, s, &factors)
		if err != nil {
			return Uncorrected{}, err
		}
		sections = append(sections, nth("C_sec", s))
		if s == 0 || need.GreaterThan(u.CapacityAh) {
			u.CapacityAh, u.Section = need, s+1
		}
	}
	w.Calc("C_un", "max("+joined(sections)+")", u.CapacityAh, cite.IEEE485.At("cell sizing work sheet", cite.FromMemory))
	w.Note(fmt.Sprintf("section %d governs", u.Section))
	u.Working = slices.Clip(w)
	return u, nil
}

// section adds what the section that ends with period s takes.
func (d DutyCycle) section(w *working.Working, s int, factors *int) (decimal.Decimal, error) {
	need, left := decimal.Zero, decimal.Zero
	var terms []string
	for p := s; p >= 0; p-- {
		left = left.Add(d.Periods[p].TimeH)
		rise, formula := d.Periods[p].CurrentA.Decimal, nth("I", p)
		if p > 0 {
			rise = rise.Sub(d.Periods[p-1].CurrentA.Decimal)
			formula = "(" + formula + " − " + nth("I", p-1) + ")"
		}
		f, err := d.factor(left, !rise.IsNegative())
		if err != nil {
			return decimal.Decimal{}, err
		}
		symbol := nth("K_t", *factors)
		*factors++
		need = need.Add(rise.Mul(w.LookUp(symbol, f)))
		terms = append(terms, formula+" × "+symbol)
	}
	return w.Calc(nth("C_sec", s), sumOf(terms...), need, cite.IEEE485.At("cell sizing work sheet", cite.FromMemory)), nil
}

// factor is that of the next longer time for a rise, of the next shorter one for
// a fall.
func (d DutyCycle) factor(h decimal.Decimal, rise bool) (working.Figure, error) {
	figure := func(f CapacityFactor, note string) working.Figure {
		return working.Figure{Value: f.AhPerA, Source: cite.DataSheet.At("capacity for "+f.TimeH.String()+" h", cite.Given), Note: note}
	}
	for i, f := range d.Factors {
		switch {
		case f.TimeH.Equal(h):
			return figure(f, ""), nil
		case f.TimeH.LessThan(h):
			continue
		case rise:
			return figure(f, "the next longer time for "+h.String()+" h"), nil
		case i > 0:
			return figure(d.Factors[i-1], "the next shorter time for "+h.String()+" h"), nil
		}
		return figure(CapacityFactor{}, "no shorter time listed for "+h.String()+" h: no credit"), nil
	}
	last := d.Factors[len(d.Factors)-1]
	if !rise {
		return figure(last, "the next shorter time for "+h.String()+" h"), nil
	}
	return working.Figure{}, outside("factors", last.TimeH, "a time of at least "+h.String()+" h")
}

func (d DutyCycle) check() error {
	faults := []error{
		working.Between("periods", whole(len(d.Periods)), 1, 24),
		working.Between("factors", whole(len(d.Factors)), 1, 100),
	}
	for i, p := range d.Periods {
		faults = append(faults, working.In(at("periods", i), errors.Join(
			stated("current_a", p.CurrentA, 0, 10_000), working.Above("period_h", p.TimeH, 0, 200))))
	}
	for i, f := range d.Factors {
		faults = append(faults, working.In(at("factors", i), errors.Join(
			working.Above("time_h", f.TimeH, 0, 5000), working.Above("ah_per_a", f.AhPerA, 0, 1000))))
	}
	if err := errors.Join(faults...); err != nil {
		return err
	}
	for i := 1; i < len(d.Factors); i++ {
		here, before := d.Factors[i], d.Factors[i-1]
		if !here.TimeH.GreaterThan(before.TimeH) || here.AhPerA.LessThan(before.AhPerA) {
			faults = append(faults, &working.InputError{Field: at("factors", i), Got: here.AhPerA.String() + " Ah/A for " + here.TimeH.String() + " h",
				Want: "a longer time than the one before, and no smaller a factor"})
		}
	}
	return errors.Join(faults...)
}
