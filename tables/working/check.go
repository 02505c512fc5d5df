package working

import (
	"encoding/json"
	"slices"
	"strings"

	"github.com/shopspring/decimal"
)

// Verdict is the outcome of a [Check].
type Verdict uint8

const (
	NotMade       Verdict = iota // the zero Check: a mistake in a program, never printed
	CannotTell                   // something must be measured or asked first
	NotApplicable                // the rule set is silent, or the rule is not for this case
	Passes                       // demand ≤ limit, or < where the rule says below
	Fails
)

var verdictWords = [...]string{"not made", "cannot tell", "not applicable", "passes", "fails"}

// String returns the verdict in words.
func (v Verdict) String() string { return verdictWords[min(int(v), len(verdictWords)-1)] }

// MarshalText makes JSON show the words of [Verdict.String].
func (v Verdict) MarshalText() ([]byte, error) { return []byte(v.String()), nil }

// UnmarshalText reads the words of [Verdict.String] back.
func (v *Verdict) UnmarshalText(text []byte) error {
	return parseWord(v, "verdict", text, verdictWords[:])
}

// Check is one rule asked of one thing. It keeps two numbers and derives the
// verdict: a demand has no default, and a quotient decides nothing. A rule
// about a minimum has the minimum as its demand.
type Check struct {
	ID      string          `json:"id"`
	Title   string          `json:"title"`
	Demand  decimal.Decimal `json:"demand"`
	Limit   decimal.Decimal `json:"limit"`
	Unit    string          `json:"unit,omitempty"`
	Asks    string          `json:"asks,omitempty"`    // what the demand is: "voltage drop"
	Allows  string          `json:"allows,omitempty"`  // what the limit is
	Below   bool            `json:"below,omitempty"`   // the demand must stay below the limit
	Missing string          `json:"missing,omitempty"` // what to measure, with what, or whom to ask
	Silent  string          `json:"silent,omitempty"`  // why the rule does not apply
	Working Working         `json:"working,omitempty"`
}

// Check compares two symbols of the working, which have one unit. A symbol that
// does not stand in the working leaves the check not made.
func (w Working) Check(id, title, demand, limit string) Check {
	d, okD := w.Value(demand)
	l, okL := w.Value(limit)
	if !okD || !okL {
		return Check{}
	}
	asks, _ := Find(demand)
	allows, _ := Find(limit)
	return Check{
		ID: id, Title: title, Demand: d, Limit: l, Unit: asks.Unit,
		Asks: asks.Meaning, Allows: allows.Meaning, Working: slices.Clip(w),
	}
}

// Verdict compares demand and limit.
func (c Check) Verdict() Verdict {
	switch {
	case c.ID == "":
		return NotMade
	case c.Silent != "":
		return NotApplicable
	case c.Missing != "":
		return CannotTell
	case c.Demand.LessThan(c.Limit), !c.Below && c.Demand.Equal(c.Limit):
		return Passes
	default:
		return Fails
	}
}

// String returns the check in one line: what was asked, the verdict and why.
//
//	W02 Voltage drop passes: 0.7722 V against 0.8 V
func (c Check) String() string {
	text := c.ID + " " + c.Title + " " + c.Verdict().String()
	switch c.Verdict() {
	case NotMade:
		return c.Verdict().String()
	case NotApplicable:
		return text + ": " + c.Silent
	case CannotTell:
		return text + ": " + c.Missing
	}
	demand, _ := Show(c.Demand)
	limit, _ := Show(c.Limit)
	unit := strings.TrimRight(" "+c.Unit, " ")
	return text + ": " + demand + unit + " against " + limit + unit
}

// plainCheck is a Check without its methods.
type plainCheck Check

// judged is a check as it stands in JSON: with the verdict that follows from it.
type judged struct {
	plainCheck
	Verdict Verdict `json:"verdict"`
}

// MarshalJSON writes the check and its verdict. What holds a check holds it as a
// named field: embedded, this method would hide the fields beside it.
func (c Check) MarshalJSON() ([]byte, error) {
	return json.Marshal(judged{plainCheck(c), c.Verdict()})
}

// UnmarshalJSON reads a check back. A verdict that does not follow from the
// check's own numbers is refused; it may be left out.
func (c *Check) UnmarshalJSON(text []byte) error {
	var j judged
	if err := json.Unmarshal(text, &j); err != nil {
		return err
	}
	own := Check(j.plainCheck)
	if j.Verdict != NotMade && j.Verdict != own.Verdict() {
		return &InputError{"verdict", j.Verdict.String(), own.Verdict().String() + ", which follows from demand and limit"}
	}
	*c = own
	return nil
}

// Margin returns limit less demand, in the unit of the check.
func (c Check) Margin() decimal.Decimal { return c.Limit.Sub(c.Demand) }

// noRatio lists the units of which a ratio says nothing: their zero is a
// matter of convention, or (volts) the useful span does not begin at nought.
var noRatio = []string{"°C", "V"}

// Utilisation returns demand ÷ limit, rounded up to two places so that no
// failure shows as 1.00; ok is false where a ratio has no meaning.
func (c Check) Utilisation() (ratio decimal.Decimal, ok bool) {
	v := c.Verdict()
	if v != Passes && v != Fails || !c.Limit.IsPositive() || slices.Contains(noRatio, c.Unit) {
		return decimal.Decimal{}, false
	}
	quotient, rest := c.Demand.QuoRem(c.Limit, 2)
	if rest.IsPositive() {
		quotient = quotient.Add(decimal.New(1, -2))
	}
	return quotient, true
}

// Strictest returns the index of the check that decides among several
// judgements of one question: a failure before a "cannot tell" before a pass,
// and among equals the one with the least margin. The checks have one unit. It
// is not ok where none of them was made and applies.
func Strictest(checks ...Check) (index int, ok bool) {
	index = -1
	for i, c := range checks {
		if severity(c) > 0 && (index < 0 || stricter(c, checks[index])) {
			index = i
		}
	}
	return max(index, 0), index >= 0
}

func stricter(a, b Check) bool {
	if severity(a) != severity(b) {
		return severity(a) > severity(b)
	}
	return a.Margin().LessThan(b.Margin())
}

// severity ranks the verdicts that count.
func severity(c Check) int { return severities[c.Verdict()] }

var severities = [...]int{Passes: 1, CannotTell: 2, Fails: 3}
