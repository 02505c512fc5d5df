package protect

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Need is a load and the conductor that feeds it, to be guarded by one device.
type Need struct {
	DesignA   decimal.Decimal     `json:"design_a"`
	AmpacityA decimal.Decimal     `json:"ampacity_a"`       // corrected, as installed
	Brief     bool                `json:"brief"`            // its longest run is stated, as 10 minutes or less (US codes: under 3 hours)
	AmbientC  decimal.NullDecimal `json:"device_ambient_c"` // of the device; unset: that of its rating, and a line says so
	SetName   string              `json:"rules"`            // of the rule set, to name it where it is silent

	// Of the article's own data sheet, in place of the tables.
	AmbientFactor  decimal.NullDecimal `json:"device_ambient_factor"` // at AmbientC
	OperatingRatio decimal.NullDecimal `json:"operating_ratio"`       // current that opens it in its conventional time ÷ rating; above 1 to 20
	RatingsA       []decimal.Decimal   `json:"ratings_a,omitempty"`   // that its maker lists; unset: those of its standard

	From working.Working `json:"from,omitempty"` // the lines that gave the load and the ampacity
}

// Window holds the ratings that carry the load and protect the conductor. It
// remembers the load and the rule set it was asked with: one that comes back from
// JSON has its data and judges nothing ([Window.Checks] cannot tell).
type Window struct {
	LeastA    decimal.Decimal     `json:"least_rating_a"`
	GreatestA decimal.Decimal     `json:"greatest_rating_a"` // never above the ampacity
	InsideA   []decimal.Decimal   `json:"inside_a,omitzero"` // standard ratings, rising; empty: none exists
	BestA     decimal.NullDecimal `json:"best_a"`            // the smallest of them
	Reason    string              `json:"reason"`            // why that one, or what would make one exist
	Missing   string              `json:"missing,omitempty"`

	// What the rule set alone would allow. A set may allow more than the conductor
	// carries, or name no upper side: such ratings are none to fit.
	GreatestAllowedA decimal.NullDecimal `json:"greatest_allowed_a"` // unset: the set names no upper side
	AllowedA         []decimal.Decimal   `json:"allowed_a,omitzero"` // that carry the load, rising

	OperatingRatio decimal.NullDecimal `json:"operating_ratio"` // of the greatest rating; unset: not asked, or not known

	// Where none exists: the smallest rating that carries the load, and the
	// ampacity that it wants.
	CarriesA       decimal.NullDecimal `json:"carries_rating_a"`
	WantsAmpacityA decimal.NullDecimal `json:"wanted_ampacity_a"`

	Working working.Working `json:"working,omitempty"`

	judge judge
}

// judge knows one load, one rule set and one family of devices.
type judge struct {
	need   Need
	rule   tables.DeviceRule
	family string
	share  working.Figure // of the rating that the load may take; zero: all of it

	allowedA   decimal.Decimal // k_n × I_z
	operatingA decimal.Decimal // k_o × I_z
}

// terms are the figures that a rating is judged by. A zero figure plays no part.
type terms struct {
	share, ambient, opens working.Figure
	missing               []string // what the maker must be asked for
}

// Window returns the standard ratings of a family that fit between the load and
// the conductor:
//
//	I_lo = I_b ÷ k_L ÷ C_d                          [A], rounded up to 0.001
//	I_hi = min(I_z, k_n × I_z, k_o × I_z ÷ k_2)     [A], rounded down to 0.001
//
// k_L is the share of the rating that a lasting load may take, by the rule set
// or by practice (0.8, from memory of ISO 8820-2) where it is silent; C_d the
// factor for the device's own ambient; k_n the greatest ratio of rating to
// ampacity; k_2 × rating the current that opens the device in its conventional
// time, at most k_o times the ampacity. Factors that do not apply are left out.
// A rating inside I_b ≤ I_n ≤ I_z alone may fail the last rule: a gG link from
// 16 A opens at 1.6 times its rating, so that I_n ≤ 0.906 I_z.
//
// Where no table has C_d of the family, that of the strictest of all serves as long
// as it suffices. Where k_2 or C_d is wanted and not known, Missing says whom to ask; the
// rule it bears on is left out of the window, and its check cannot tell. The
// limits shown are those of the ratings inside, where they differ by rating.
//
// Design current above 0 to 10 000 A, ampacity above 0 to 10 000 A, ambient -40
// to 150 °C. A family without standard ratings is [tables.ErrNotListed], unless
// RatingsA gives its maker's, above 0 to 10 000 A.
// Sources: IEC 60364-4-43 clause 433.1 and the rule set's own figures.
func (n Need) Window(r tables.DeviceRule, family string) (Window, error) {
	ratings, err := n.ratings(family)
	if err = errors.Join(n.check(), checkRule(r), err); err != nil {
		return Window{}, err
	}
	w := Window{InsideA: []decimal.Decimal{}, AllowedA: []decimal.Decimal{}, judge: judge{
		need: n, rule: r, family: family, share: n.share(r),
		allowedA:   r.OfAmpacity.Value.Mul(n.AmpacityA),
		operatingA: r.OperatingCurrent.Value.Mul(n.AmpacityA),
	}}
	w.fill(ratings)
	return w, nil
}

// ratings are the maker's, or else those of the family's standard.
func (n Need) ratings(family string) ([]working.Figure, error) {
	if len(n.RatingsA) == 0 {
		return tables.Ratings(family)
	}
	if _, err := tables.FamilyOf(family); err != nil {
		return nil, err
	}
	var all []working.Figure
	for _, a := range n.RatingsA {
		all = append(all, dataSheet(a, "A"))
	}
	slices.SortFunc(all, func(a, b working.Figure) int { return a.Value.Cmp(b.Value) })
	return all, nil
}

func (n Need) check() error {
	var ratings []error
	for i, a := range n.RatingsA {
		ratings = append(ratings, working.Above(fmt.Sprintf("ratings_a[%d]", i), a, 0, 10_000))
	}
	return errors.Join(
		errors.Join(ratings...),
		working.Above("design_a", n.DesignA, 0, 10_000),
		working.Above("ampacity_a", n.AmpacityA, 0, 10_000),
		unsetOr(working.Between, "device_ambient_c", n.AmbientC, -40, 150),
		unsetOr(working.Above, "device_ambient_factor", n.AmbientFactor, 0, 2),
		unsetOr(working.Above, "operating_ratio", n.OperatingRatio, 1, 20),
	)
}

// checkRule wants figures that a conductor can be judged by.
func checkRule(r tables.DeviceRule) error {
	return errors.Join(
		stated("rating_of_ampacity", r.OfAmpacity, 0, 10),
		stated("operating_of_ampacity", r.OperatingCurrent, 0, 10),
		stated("load_of_rating", r.LoadOfRating, 0, 1),
	)
}

// lax reports whether a rule set alone lets a device exceed what its conductor
// carries.
func lax(r tables.DeviceRule) bool {
	return !r.OfAmpacity.Stated() || r.OfAmpacity.Value.GreaterThan(whole)
}

var whole = decimal.NewFromInt(1)

// overall is the ratio of rating to ampacity that holds whatever a rule set says.
func overall() working.Figure {
	f, _ := tables.DeviceRuleOf("iec-433-1")
	return f
}

// share is that of the rule set, or of practice where the set is silent.
func (n Need) share(r tables.DeviceRule) working.Figure {
	if n.Brief {
		return working.Figure{}
	}
	if r.LoadOfRating.Stated() {
		return r.LoadOfRating
	}
	f := tables.Loading()
	f.Note = "practice: the rule set is silent"
	return f
}

// fill finds the ratings inside and lays out why.
func (w *Window) fill(ratings []working.Figure) {
	carries, best, last := w.collect(ratings)
	switch {
	case w.BestA.Valid:
		w.layOut(best, last)
	case w.CarriesA.Valid:
		w.layOut(carries, carries)
	default:
		largest := w.judge.terms(ratings[len(ratings)-1].Value)
		w.layOut(largest, largest)
	}
	w.explain(ratings)
}

// collect goes through the ratings, and returns the terms of the first that carries
// the load and of the first and the last inside.
func (w *Window) collect(ratings []working.Figure) (carries, best, last terms) {
	j := w.judge
	for _, f := range ratings {
		rating := f.Value
		if rating.LessThan(j.need.DesignA) && !j.need.AmbientFactor.Valid {
			continue // no factor of a table is above 1
		}
		if w.CarriesA.Valid && !j.allows(rating) {
			break
		}
		t := j.loading(rating)
		if !j.carries(t, rating) {
			continue
		}
		t.opens = j.operating(rating, &t.missing)
		if !w.CarriesA.Valid {
			w.CarriesA, carries = decimal.NewNullDecimal(rating), t
		}
		if !j.allows(rating) || !j.opens(t, rating) {
			continue
		}
		w.AllowedA = append(w.AllowedA, rating)
		if !j.sound(rating) {
			continue
		}
		if !w.BestA.Valid {
			w.BestA, best = decimal.NewNullDecimal(rating), t
		}
		w.InsideA, last = append(w.InsideA, rating), t
	}
	return carries, best, last
}

// terms gathers the figures for one rating.
func (j judge) terms(rating decimal.Decimal) terms {
	t := j.loading(rating)
	t.opens = j.operating(rating, &t.missing)
	return t
}

// loading gathers those that say what a rating carries.
func (j judge) loading(rating decimal.Decimal) terms {
	t := terms{share: j.share}
	t.ambient = j.ambient(rating, &t.missing)
	if t.ambient.Note == byStrictest {
		t.share = working.Figure{} // that factor says itself how much of the rating a load may be
	}
	return t
}

// ratedC is the ambient that devices without a table are rated in.
var (
	ratedC  = decimal.NewFromInt(25)
	asRated = working.Figure{
		Value:  whole,
		Source: cite.Practice.At("devices are rated in 23 to 25 °C", cite.CommonPractice),
	}
	unstated = working.Figure{Value: whole, Source: asRated.Source, Note: "its ambient is not stated: taken as that"}
)

func (j judge) ambient(rating decimal.Decimal, missing *[]string) working.Figure {
	n := j.need
	if n.AmbientFactor.Valid {
		return dataSheet(n.AmbientFactor.Decimal, "")
	}
	if !n.AmbientC.Valid {
		return unstated
	}
	f, err := tables.DeviceDerating(j.family, rating, n.AmbientC.Decimal)
	switch {
	case err == nil:
		return f
	case n.AmbientC.Decimal.LessThanOrEqual(ratedC):
		return asRated
	}
	if f, err := strictest(n.AmbientC.Decimal); err == nil && j.carries(terms{ambient: f}, rating) {
		return f
	}
	*missing = append(*missing, fmt.Sprintf("ask the maker what a %s A %s carries in %s °C", rating, j.family, n.AmbientC.Decimal))
	return working.Figure{}
}

// byStrictest is the note of a factor that another family lends.
const byStrictest = "no table has this family: by the strictest that any has"

// strictest is the factor of the strictest family in the tables, the fuses of
// spacecraft: a load that is small enough by that needs no question to the maker.
func strictest(ambientC decimal.Decimal) (working.Figure, error) {
	f, err := tables.DeviceDerating("EEE-INST-002 cartridge", decimal.NewFromInt(10), ambientC)
	f.Note = byStrictest
	return f, err
}

func (j judge) operating(rating decimal.Decimal, missing *[]string) working.Figure {
	if !j.rule.OperatingCurrent.Stated() {
		return working.Figure{}
	}
	if j.need.OperatingRatio.Valid {
		return dataSheet(j.need.OperatingRatio.Decimal, "")
	}
	c, err := tables.ConventionalOf(j.family, rating)
	if err != nil {
		*missing = append(*missing, fmt.Sprintf("ask the maker at what current a %s A %s opens within an hour", rating, j.family))
	}
	return c.Opens
}

// carries reports I_b ≤ I_n × k_L × C_d.
func (j judge) carries(t terms, rating decimal.Decimal) bool {
	if t.share.Stated() {
		rating = rating.Mul(t.share.Value)
	}
	if t.ambient.Stated() {
		rating = rating.Mul(t.ambient.Value)
	}
	return j.need.DesignA.LessThanOrEqual(rating)
}

// allows reports I_n ≤ k_n × I_z.
func (j judge) allows(rating decimal.Decimal) bool {
	return !j.rule.OfAmpacity.Stated() || rating.LessThanOrEqual(j.allowedA)
}

// sound reports I_n ≤ I_z, which holds whatever the rule set allows.
func (j judge) sound(rating decimal.Decimal) bool {
	return rating.LessThanOrEqual(j.need.AmpacityA)
}

// opens reports k_2 × I_n ≤ k_o × I_z.
func (j judge) opens(t terms, rating decimal.Decimal) bool {
	return !t.opens.Stated() || t.opens.Value.Mul(rating).LessThanOrEqual(j.operatingA)
}

// mostLines is how many a window adds to those it starts from.
const mostLines = 13

// overload is the source of the rule that holds whatever a rule set says.
var overload = cite.IEC6036443.At("433.1", cite.SecondHand)

// law is the source of the greatest rating: the rule set's own, where that is the
// stricter.
func (j judge) law() cite.Source {
	switch {
	case lax(j.rule):
		return overload
	case j.rule.OperatingCurrent.Stated():
		return j.rule.OperatingCurrent.Source
	}
	return j.rule.OfAmpacity.Source
}

// layOut writes the working: the least rating by the terms of one rating, the
// greatest by those of another, then the choice.
func (w *Window) layOut(low, high terms) {
	j := w.judge
	lines := slices.Grow(working.Start(j.need.From), mostLines)
	w.LeastA = j.least(low, &lines)
	w.GreatestA, w.GreatestAllowedA = j.greatest(high, &lines)
	w.OperatingRatio = decimal.NullDecimal{Decimal: high.opens.Value, Valid: high.opens.Stated()}
	w.Missing = strings.Join(low.missing, "; ")
	switch {
	case w.BestA.Valid:
		lines.Choose("I_n", "I_lo ≤ I_n ≤ I_hi", w.BestA.Decimal, j.law())
	case w.CarriesA.Valid:
		lines.Choose("I_n", "I_lo ≤ I_n", w.CarriesA.Decimal, j.law())
		lines.Note("the smallest that carries the load, above the greatest allowed")
		w.WantsAmpacityA = decimal.NewNullDecimal(j.wants(high, w.CarriesA.Decimal, &lines))
	}
	w.Working = slices.Clip(lines)
}

// least adds the lines up to the least rating.
func (j judge) least(t terms, w *working.Working) decimal.Decimal {
	load := w.Given("I_b", j.need.DesignA)
	factor, symbols := j.factors(t, w)
	if len(symbols) == 0 {
		return w.Calc("I_lo", "I_b", load, sum)
	}
	return w.CalcUp("I_lo", "I_b ÷ "+strings.Join(symbols, " ÷ "), load, factor, 3, sum)
}

// factors adds the lines of loading and ambient, and returns their product and
// their symbols.
func (j judge) factors(t terms, w *working.Working) (factor decimal.Decimal, symbols []string) {
	factor = decimal.NewFromInt(1)
	if t.share.Stated() {
		factor = factor.Mul(w.LookUp("k_L", t.share))
		symbols = append(symbols, "k_L")
	}
	if j.need.AmbientC.Valid {
		w.Given("T_d", j.need.AmbientC.Decimal)
	}
	if t.ambient.Stated() {
		factor = factor.Mul(w.LookUp("C_d", t.ambient))
		symbols = append(symbols, "C_d")
	}
	return factor, symbols
}

// greatest adds the lines up to the greatest rating, and returns what the rule set
// alone allows too.
func (j judge) greatest(t terms, w *working.Working) (greatest decimal.Decimal, allowed decimal.NullDecimal) {
	ampacity := w.Given("I_z", j.need.AmpacityA)
	if !lax(j.rule) {
		allowed = j.allowed("I_hi", t, w)
		return allowed.Decimal, allowed
	}
	greatest, formula := ampacity, "I_z"
	if allowed = j.allowed("I_al", t, w); allowed.Valid {
		greatest, formula = decimal.Min(allowed.Decimal, ampacity), "min(I_al, I_z)"
	}
	w.Calc("I_hi", formula, greatest, overload)
	w.Note("whatever the rule set allows")
	return greatest, allowed
}

// allowed adds the lines of the greatest rating that the rule set allows; it is
// unset where the set names no upper side.
func (j judge) allowed(symbol string, t terms, w *working.Working) decimal.NullDecimal {
	of, opens := j.rule.OfAmpacity, t.opens.Stated()
	if of.Stated() {
		w.LookUp("k_n", of)
	}
	if opens {
		w.LookUp("k_2", t.opens)
		w.LookUp("k_o", j.rule.OperatingCurrent)
	}
	switch law := j.rule.OperatingCurrent.Source; {
	case of.Stated() && opens:
		dividend, divisor := j.operatingA, t.opens.Value
		if j.allowedA.Mul(divisor).LessThan(dividend) {
			dividend, divisor = j.allowedA, whole
		}
		return decimal.NewNullDecimal(w.CalcDown(symbol, "min(k_n × I_z, k_o × I_z ÷ k_2)", dividend, divisor, 3, law))
	case of.Stated():
		return decimal.NewNullDecimal(w.Calc(symbol, "k_n × I_z", j.allowedA, of.Source.Document()))
	case opens:
		return decimal.NewNullDecimal(w.CalcDown(symbol, "k_o × I_z ÷ k_2", j.operatingA, t.opens.Value, 3, law))
	}
	return decimal.NullDecimal{}
}

// wants adds the line of the ampacity that a rating wants.
func (j judge) wants(t terms, rating decimal.Decimal, w *working.Working) decimal.Decimal {
	formula, divisor := "I_n", whole
	if !lax(j.rule) {
		formula, divisor = "I_n ÷ k_n", j.rule.OfAmpacity.Value
	}
	dividend := rating
	if t.opens.Stated() {
		formula = "max(" + formula + ", k_2 × I_n ÷ k_o)"
		if k := j.rule.OperatingCurrent.Value; t.opens.Value.Mul(divisor).GreaterThan(k) {
			dividend, divisor = t.opens.Value.Mul(rating), k
		}
	}
	return w.CalcUp("I_zw", formula, dividend, divisor, 3, j.law())
}

// explain says why the best rating is the best, or the smallest change that
// would make one exist.
func (w *Window) explain(ratings []working.Figure) {
	if w.BestA.Valid {
		w.Reason = fmt.Sprintf("%s A is the smallest rating that carries the load; up to %s A protects the conductor",
			w.BestA.Decimal, w.InsideA[len(w.InsideA)-1])
		w.Reason += w.beyond()
		return
	}
	n := w.judge.need
	w.Reason = fmt.Sprintf("none exists: the family ends at %s A and the load wants %s A", ratings[len(ratings)-1].Value, w.LeastA)
	if w.CarriesA.Valid {
		w.Reason = fmt.Sprintf("none exists: %s A carries the load, but wants a conductor of %s A and this one has %s A",
			w.CarriesA.Decimal, w.WantsAmpacityA.Decimal, n.AmpacityA)
	}
	if rating, load, ok := w.judge.protects(ratings); ok {
		w.Reason += fmt.Sprintf("; %s A protects the conductor, but carries a load of %s A at most", rating, load)
	}
	w.Reason += w.beyond()
}

// beyond says what the rule set alone would allow above what is sound.
func (w *Window) beyond() string {
	switch {
	case len(w.AllowedA) == len(w.InsideA):
		return ""
	case w.GreatestAllowedA.Valid:
		return fmt.Sprintf("; the rule set alone would allow %s A, more than the conductor carries", w.AllowedA[len(w.AllowedA)-1])
	}
	return "; the rule set names no upper side, but more than the conductor carries is not to be fitted"
}

// protects returns the greatest standard rating that protects the conductor and
// the load that it carries.
func (j judge) protects(ratings []working.Figure) (rating, load decimal.Decimal, ok bool) {
	for _, f := range slices.Backward(ratings) {
		t := j.terms(f.Value)
		if j.allows(f.Value) && j.sound(f.Value) && j.opens(t, f.Value) {
			var lines working.Working
			factor, _ := j.factors(t, &lines)
			return f.Value, f.Value.Mul(factor), true
		}
	}
	return rating, load, false
}

const (
	carriesTitle  = "the device carries its load"
	protectsTitle = "the device protects the conductor"
	overallTitle  = "the device protects the conductor, whatever the rule set allows"
	opensTitle    = "the device opens in time on overload"
)

// Checks judges the rating that is fitted, standard or not:
//
//	P01  I_b ≤ k_L × C_d × I_n     it carries the load
//	P02  I_n ≤ k_n × I_z           it protects the conductor, by the rule set
//	P03  k_2 × I_n ≤ k_o × I_z     it opens in time
//	P02  I_n ≤ I_z                 it protects the conductor, whatever the set allows
//
// in this order. The last stands there where the rule set alone would allow more
// than the ampacity, or names no upper side: a rating may pass the first P02 and
// fail the second, and then it fails. The first P02 and P03 do not apply where the
// rule set is silent. A rating that is not above 0 and at most 10 000 A cannot be
// told, nor can any of a Window that no [Need.Window] gave.
func (w Window) Checks(fittedA decimal.Decimal) []working.Check {
	j := w.judge
	if err := errors.Join(j.need.check(), working.Above("rating_a", fittedA, 0, 10_000)); err != nil {
		missing := "state the rating of the device that is fitted, and ask for its window first: " + err.Error()
		return []working.Check{
			cannotTell("P01", carriesTitle, missing, nil),
			cannotTell("P02", protectsTitle, missing, nil),
			cannotTell("P03", opensTitle, missing, nil),
		}
	}
	checks := []working.Check{j.carriesCheck(fittedA), j.protectsCheck(fittedA), j.opensCheck(fittedA)}
	if lax(j.rule) {
		checks = append(checks, j.protectsBy(overallTitle, overall(), fittedA))
	}
	return checks
}

func (j judge) carriesCheck(fittedA decimal.Decimal) working.Check {
	t := j.loading(fittedA)
	w := working.Start(j.need.From)
	w.Given("I_b", j.need.DesignA)
	carried := w.Given("I_n", fittedA)
	factor, symbols := j.factors(t, &w)
	w.Calc("I_d", strings.Join(append([]string{"I_n"}, symbols...), " × "), carried.Mul(factor), sum)
	c := w.Check("P01", carriesTitle, "I_b", "I_d")
	if len(t.missing) > 0 && c.Verdict() == working.Passes {
		c.Missing = fmt.Sprintf("%s: its load of %s A needs that to be %s A or more", t.missing[0], j.need.DesignA.RoundCeil(2), j.atLeast(t))
	}
	return c
}

// atLeast is what the maker must vouch for, in the device's ambient.
func (j judge) atLeast(t terms) decimal.Decimal {
	if !t.share.Stated() {
		return j.need.DesignA.RoundCeil(2)
	}
	var scrap working.Working
	return scrap.CalcUp("I_d", "I_b ÷ k_L", j.need.DesignA, t.share.Value, 2, sum)
}

func (j judge) protectsCheck(fittedA decimal.Decimal) working.Check {
	if !j.rule.OfAmpacity.Stated() {
		return notApplicable("P02", protectsTitle, silence(j.need.SetName, "the rating of a device against its conductor"))
	}
	return j.protectsBy(protectsTitle, j.rule.OfAmpacity, fittedA)
}

// protectsBy judges a rating by one ratio to the ampacity.
func (j judge) protectsBy(title string, of working.Figure, fittedA decimal.Decimal) working.Check {
	w := working.Start(j.need.From)
	w.Given("I_n", fittedA)
	ampacity := w.Given("I_z", j.need.AmpacityA)
	w.Calc("I_nz", "k_n × I_z", w.LookUp("k_n", of).Mul(ampacity), of.Source)
	return w.Check("P02", title, "I_n", "I_nz")
}

func (j judge) opensCheck(fittedA decimal.Decimal) working.Check {
	if !j.rule.OperatingCurrent.Stated() {
		return notApplicable("P03", opensTitle, silence(j.need.SetName, "the current that opens a device against its conductor"))
	}
	var missing []string
	multiple := j.operating(fittedA, &missing)
	w := working.Start(j.need.From)
	rating := w.Given("I_n", fittedA)
	w.Given("I_z", j.need.AmpacityA)
	w.LookUp("k_o", j.rule.OperatingCurrent)
	if len(missing) > 0 {
		return cannotTell("P03", opensTitle, missing[0], slices.Clip(w))
	}
	law := j.rule.OperatingCurrent.Source
	w.Calc("I_2", "k_2 × I_n", w.LookUp("k_2", multiple).Mul(rating), law)
	w.Calc("I_2z", "k_o × I_z", j.operatingA, law)
	return w.Check("P03", opensTitle, "I_2", "I_2z")
}
