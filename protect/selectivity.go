package protect

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// SeriesPair is two devices in series: the lower, nearer the load, should open first
// and leave the upper closed.
type SeriesPair struct {
	Upper Device `json:"upper"`
	Lower Device `json:"lower"`
}

const (
	ratioTitle  = "the lower device opens first, by the ratio of ratings"
	gatesTitle  = "the lower device opens first, by the gates"
	energyTitle = "the lower device opens first, by the energies"
)

// Ratio judges the pair by a rule of thumb or of a standard:
//
//	P12  k_s × I_n2 ≤ I_n1     (1 upper, 2 lower)
//
// The rule is named by its id of [tables.SelectivityRatio], because each holds
// for its own kinds of device; gG16 and gG20 hold for gG links from 16 A and
// apply to no others. A lower device of the larger rating fails under any rule.
// By gG16 two steps of the standard ratings count as 1.6, as 63 and 100 A do.
// Ratings above 0 to 10 000 A.
// Sources: IEC 60269-2; handbooks to NFPA 70.
func (p SeriesPair) Ratio(rule string) (working.Check, error) {
	ratio, err := tables.SelectivityRatio(rule)
	if err = errors.Join(p.check(), err); err != nil {
		return working.Check{}, err
	}
	if p.inverted() {
		return p.inversion("P12", ratioTitle), nil
	}
	if why := p.beyond(rule); why != "" {
		return notApplicable("P12", ratioTitle, why), nil
	}
	var w working.Working
	w.Given("I_n.1", p.Upper.RatingA)
	lower := w.Given("I_n.2", p.Lower.RatingA)
	k := w.LookUp("k_s", ratio)
	least := w.Calc("I_ns", "k_s × I_n.2", k.Mul(lower), ratio.Source.Document())
	if step, ok := twoSteps(p.Lower, least); ok && rule == "gG16" {
		w.LookUp("I_ns", step)
	}
	return w.Check("P12", ratioTitle, "I_ns", "I_n.1"), nil
}

func (p SeriesPair) check() error {
	return errors.Join(working.In("upper", p.Upper.check()), working.In("lower", p.Lower.check()))
}

// inverted reports whether the device nearer the load has the larger rating: no
// rule and no curve makes such a pair selective, since between the two ratings
// only the upper device opens.
func (p SeriesPair) inverted() bool { return p.Lower.RatingA.GreaterThan(p.Upper.RatingA) }

// inversion is the check that an inverted pair fails: I_n2 ≤ I_n1.
func (p SeriesPair) inversion(id, title string) working.Check {
	var w working.Working
	w.Given("I_n.1", p.Upper.RatingA)
	w.Given("I_n.2", p.Lower.RatingA)
	return w.Check(id, title, "I_n.2", "I_n.1")
}

// twoSteps returns the standard rating nearest to 1.6 times that of a standard
// link, where the series of ratings rounds that product.
func twoSteps(lower Device, product decimal.Decimal) (working.Figure, bool) {
	ratings, err := tables.Ratings(lower.Family)
	if err != nil {
		return working.Figure{}, false
	}
	var nearest working.Figure
	standard := false
	for _, r := range ratings {
		standard = standard || r.Value.Equal(lower.RatingA)
		if !nearest.Stated() || product.Sub(r.Value).Abs().LessThan(product.Sub(nearest.Value).Abs()) {
			nearest = r
		}
	}
	nearest.Note = "two steps up the standard ratings count as 1.6"
	apart := product.Sub(nearest.Value).Abs()
	return nearest, standard && apart.IsPositive() && apart.Mul(forty).LessThanOrEqual(product)
}

const gG = "IEC 60269 gG"

var (
	sixteen = decimal.NewFromInt(16)
	forty   = decimal.NewFromInt(40) // a step is rounded by less than 1 part in 40
)

// beyond says why a rule for gG links is not for this pair.
func (p SeriesPair) beyond(rule string) string {
	if rule != "gG16" && rule != "gG20" {
		return ""
	}
	for _, d := range []Device{p.Upper, p.Lower} {
		if d.Family != gG || d.RatingA.LessThan(sixteen) {
			return "the rule is for gG links from 16 A; compare curves"
		}
	}
	return ""
}

// Selective judges the pair by its gates, for every current up to a fault:
//
//	P13  t_hi2 ≤ t_lo1     (1 upper, 2 lower)
//
// at each gate of either device and at the fault itself, from the first current
// that opens the lower one; the check is of the current that decides. Gates that
// touch pass. The pair fails where the upper device has opened before the lower
// can, and at any fault where the lower has the larger rating. Where the bands
// overlap, and above the last gate of the upper device, where nothing says how
// long it holds, it cannot be told: the gates are wide, and even links that a
// ratio rule calls selective may overlap in them. Nor can it where no table has the
// gates of one of the two.
// Fault above 0 to 1 000 000 A.
// Sources: those of [Device.OpeningTime].
func (p SeriesPair) Selective(faultA decimal.Decimal) (working.Check, error) {
	if p.inverted() {
		if err := errors.Join(p.check(), working.Above("greatest_fault_a", faultA, 0, 1_000_000)); err != nil {
			return working.Check{}, err
		}
		return p.inversion("P13", gatesTitle), nil
	}
	upper, upperMissing, err := p.Upper.known()
	err = errors.Join(working.In("upper", err), working.Above("greatest_fault_a", faultA, 0, 1_000_000))
	lower, lowerMissing, more := p.Lower.known()
	if err = errors.Join(err, working.In("lower", more)); err != nil {
		return working.Check{}, err
	}
	if missing := cmp.Or(upperMissing, lowerMissing); missing != "" {
		return cannotTell("P13", gatesTitle, missing, nil), nil
	}
	currents := meetings(upper, lower, faultA)
	checks := make([]working.Check, len(currents))
	scrap := make(working.Working, 0, 32)
	for i, current := range currents {
		checks[i] = p.at(current, upper, lower, scrap)
	}
	i, ok := working.Strictest(checks...)
	if !ok {
		return notApplicable("P13", gatesTitle, fmt.Sprintf("%s A is not known to open the lower device", asShown(faultA))), nil
	}
	return p.at(currents[i], upper, lower, nil), nil // the others share one scrap of paper
}

// meetings lists the currents at which the two can be nearest and that open the
// lower one: every gate up to the fault, and the fault.
func meetings(upper, lower characteristic, faultA decimal.Decimal) []decimal.Decimal {
	all := []decimal.Decimal{faultA}
	for _, p := range slices.Concat(upper.least, lower.most) {
		if p.current.Value.LessThan(faultA) {
			all = append(all, p.current.Value)
		}
	}
	return slices.DeleteFunc(all, func(current decimal.Decimal) bool { return reached(lower.most, current) == 0 })
}

// at compares the two at one current, laid out on w.
func (p SeriesPair) at(currentA decimal.Decimal, upper, lower characteristic, w working.Working) working.Check {
	w.Part("lower device")
	w.Given("I_n", p.Lower.RatingA)
	w.Given("I", currentA)
	lowerOpens := OpeningTime{LeastS: leastTime(lower.least, currentA, &w), GreatestS: mostTime(lower.most, currentA, &w)}
	restate("t_lo.2", "t_lo", lowerOpens.LeastS, &w)
	restate("t_hi.2", "t_hi", lowerOpens.GreatestS, &w)
	w.Part("upper device")
	w.Given("I_n", p.Upper.RatingA)
	upperOpens := OpeningTime{LeastS: leastTime(upper.least, currentA, &w), GreatestS: mostTime(upper.most, currentA, &w)}
	restate("t_lo.1", "t_lo", upperOpens.LeastS, &w)
	restate("t_hi.1", "t_hi", upperOpens.GreatestS, &w)
	w = slices.Clip(w)

	reversed := w.Check("P13", gatesTitle, "t_lo.2", "t_hi.1")
	if reversed.Verdict() == working.Fails {
		return reversed // the upper has opened before the lower can
	}
	c := w.Check("P13", gatesTitle, "t_hi.2", "t_lo.1")
	switch c.Verdict() {
	case working.NotMade:
		return cannotTell("P13", gatesTitle, fmt.Sprintf(
			"no gate says how long the upper device holds at %s A: ask the maker for its pre-arcing energy and for the lower device's total (I²t), or for a test table of the pair", currentA), w)
	case working.Fails:
		c.Missing = fmt.Sprintf(
			"the gates overlap at %s A: the lower device may take %s s, and the upper may open after %s s; ask the makers for curves or a test table, or go by the ratio of ratings", currentA, c.Demand, c.Limit)
	}
	return c
}

// Energies judges the pair where both open within a fraction of a second, by
// what they let through:
//
//	P25  W_t ≤ W_p
//
// The total energy of the lower device, arc included, is that of its data sheet
// at the voltage and fault; the pre-arcing energy of the upper is that of its
// data sheet or, of a gG link, the least that the standard allows. Energies
// above 0 to 500 000 000 A²s. Sources: IEC 60269-1 table 7, from memory; IEC
// 60947-2 annex A.
func (p SeriesPair) Energies(lowerTotalA2S decimal.Decimal, upperPreArcingA2S decimal.NullDecimal) (working.Check, error) {
	err := errors.Join(
		p.check(),
		working.Above("total_a2s", lowerTotalA2S, 0, 500_000_000),
		unsetOr(working.Above, "pre_arcing_a2s", upperPreArcingA2S, 0, 500_000_000),
	)
	if err != nil {
		return working.Check{}, err
	}
	var w working.Working
	w.LookUp("W_t", dataSheet(lowerTotalA2S, "A²s"))
	if upperPreArcingA2S.Valid {
		w.LookUp("W_p", dataSheet(upperPreArcingA2S.Decimal, "A²s"))
		return w.Check("P25", energyTitle, "W_t", "W_p"), nil
	}
	e, err := tables.PreArcing(p.Upper.Family, p.Upper.RatingA)
	if err != nil {
		return cannotTell("P25", energyTitle, "ask the maker for the pre-arcing energy (I²t) of the upper device", slices.Clip(w)), nil
	}
	w.LookUp("W_p", e.Least)
	return w.Check("P25", energyTitle, "W_t", "W_p"), nil
}

// restate keeps a time under a number of its own, so that the other device's
// does not take its place.
func restate(symbol, of string, t decimal.NullDecimal, w *working.Working) {
	if t.Valid {
		w.Calc(symbol, of, t.Decimal, sum)
	}
}
