// Package working lays a calculation out line by line, as on paper: symbol,
// formula, numbers, result and the source of each.
//
// A function that answers a question of the trade returns its [Working] with
// the answer. A line is data, not text: the numbers under a formula are put in
// when it is printed and cannot disagree with the inputs, and a test evaluates
// every printed formula again (package workingtest). Symbols, names and units
// come from one vocabulary (names.go).
package working

import (
	"encoding/json"
	"slices"
	"strings"

	"example.org/extralow/tables/cite"
	"github.com/shopspring/decimal"
)

// Figure is one looked-up value with its source: a cell of a table or what one
// rule asks. The zero Figure means that the document is silent.
type Figure struct {
	Value  decimal.Decimal `json:"value"`
	Unit   string          `json:"unit"`
	Source cite.Source     `json:"source"`
	Note   string          `json:"note,omitempty"` // which row was taken, and any doubt about it
}

// Stated reports whether the document says anything.
func (f Figure) Stated() bool { return f.Source.Key != "" }

// Kind says how a line of working came about.
type Kind uint8

const (
	Given      Kind = iota // stated by the reader
	LookedUp               // taken from a table; has a source
	Calculated             // formula over earlier symbols; rounded at most once, last
	Chosen                 // picked so that the condition in Formula holds
	Solved                 // found by a solver; Formula gives it back to within Within
	Stepped                // found by stepping or iterating a model; cannot be redone by hand
	Part                   // a heading
)

var kindWords = [...]string{"given", "looked up", "calculated", "chosen", "solved", "stepped", "part"}

// String returns the kind in words.
func (k Kind) String() string { return kindWords[min(int(k), len(kindWords)-1)] }

// MarshalText makes JSON show the word of [Kind.String].
func (k Kind) MarshalText() ([]byte, error) { return []byte(k.String()), nil }

// UnmarshalText reads the word of [Kind.String] back.
func (k *Kind) UnmarshalText(text []byte) error { return parseWord(k, "kind", text, kindWords[:]) }

// parseWord reads back one of the words that stand for 0, 1, 2 and so on.
func parseWord[T ~uint8](v *T, field string, text []byte, words []string) error {
	if err := OneOf(field, string(text), words...); err != nil {
		return err
	}
	*v = T(slices.Index(words, string(text)))
	return nil
}

// Step is one line of working.
type Step struct {
	Kind    Kind            `json:"kind"`
	Symbol  string          `json:"symbol,omitempty"`
	Name    string          `json:"name"`
	Formula string          `json:"formula,omitempty"`
	Value   decimal.Decimal `json:"value"`           // whole, never rounded for show
	Within  decimal.Decimal `json:"within,omitzero"` // of a Solved line
	Unit    string          `json:"unit,omitempty"`
	Source  cite.Source     `json:"source,omitzero"`
	Note    string          `json:"note,omitempty"`
}

// Working is a calculation laid out line by line; its last line is the answer.
// The methods that add a line return its value, so that a function reads as the
// calculation does. A symbol stands for its latest value.
type Working []Step

// Start returns a working that begins with the lines that gave the inputs. A
// given line whose value stands already is left out. It never shares memory
// with what it was made of.
func Start(from ...Working) Working {
	lines := 0
	for _, part := range from {
		lines += len(part)
	}
	if lines == 0 {
		return nil
	}
	w := make(Working, 0, lines+room)
	for _, part := range from {
		for i := range part {
			if s := &part[i]; s.Kind != Given || !w.stands(s.Symbol, s.Value) {
				w = append(w, *s)
			}
		}
	}
	return w
}

// room is for the lines that most calculations add to those they begin with.
const room = 8

// stands reports whether that is the latest value of a symbol.
func (w Working) stands(symbol string, v decimal.Decimal) bool {
	known, ok := w.Value(symbol)
	return ok && known.Equal(v)
}

// Given adds a value stated by the reader. A symbol that already stands at that
// value gets no second line.
func (w *Working) Given(symbol string, v decimal.Decimal) decimal.Decimal {
	if w.stands(symbol, v) {
		return v
	}
	return w.add(Step{Kind: Given, Symbol: symbol, Value: v})
}

// LookUp adds a figure from a table, or from the article's own data sheet.
func (w *Working) LookUp(symbol string, f Figure) decimal.Decimal {
	return w.add(Step{Kind: LookedUp, Symbol: symbol, Value: f.Value, Source: f.Source, Note: f.Note})
}

// Calc adds a calculated line: v is what the formula gives.
func (w *Working) Calc(symbol, formula string, v decimal.Decimal, from cite.Source) decimal.Decimal {
	return w.add(Step{Kind: Calculated, Symbol: symbol, Formula: formula, Value: v, Source: from})
}

// CalcUp adds a quotient rounded up to so many decimal places, and its formula
// with the rounding in it: "ceil(I_b ÷ k_L × 1000) ÷ 1000" for I_b ÷ k_L to three
// places. The divisor is not nought. It is for what has to suffice; what must not
// be exceeded is rounded down, by [Working.CalcDown].
func (w *Working) CalcUp(symbol, formula string, dividend, divisor decimal.Decimal, places int32, from cite.Source) decimal.Decimal {
	quotient, rest := dividend.QuoRem(divisor, places)
	if rest.Sign()*divisor.Sign() > 0 { // the quotient was cut towards nought
		quotient = quotient.Add(decimal.New(1, -places))
	}
	return w.Calc(symbol, rounded("ceil", formula, places), quotient, from)
}

// CalcDown adds a quotient rounded down to so many decimal places, and its
// formula with the rounding in it: "floor(k_o × I_z ÷ k_2 × 1000) ÷ 1000". The
// divisor is not nought.
func (w *Working) CalcDown(symbol, formula string, dividend, divisor decimal.Decimal, places int32, from cite.Source) decimal.Decimal {
	quotient, rest := dividend.QuoRem(divisor, places)
	if rest.Sign()*divisor.Sign() < 0 {
		quotient = quotient.Sub(decimal.New(1, -places))
	}
	return w.Calc(symbol, rounded("floor", formula, places), quotient, from)
}

// rounded writes a formula with its rounding.
func rounded(way, formula string, places int32) string {
	if places <= 0 {
		return way + "(" + formula + ")"
	}
	if strings.ContainsAny(formula, "+−") {
		formula = "(" + formula + ")"
	}
	unit := "1" + strings.Repeat("0", int(places))
	return way + "(" + formula + " × " + unit + ") ÷ " + unit
}

// Choose adds a value picked so that a condition holds: "I_b ≤ I_n ≤ I_z".
func (w *Working) Choose(symbol, condition string, v decimal.Decimal, from cite.Source) decimal.Decimal {
	return w.add(Step{Kind: Chosen, Symbol: symbol, Formula: condition, Value: v, Source: from})
}

// Solve adds a value found by a solver; the formula gives it back to within
// the tolerance stated.
func (w *Working) Solve(symbol, formula string, v, within decimal.Decimal, from cite.Source) decimal.Decimal {
	return w.add(Step{Kind: Solved, Symbol: symbol, Formula: formula, Value: v, Within: within, Source: from})
}

// Step adds a value found by stepping a model through time, or by iterating it.
func (w *Working) Step(symbol string, v decimal.Decimal, from cite.Source) decimal.Decimal {
	return w.add(Step{Kind: Stepped, Symbol: symbol, Value: v, Source: from})
}

// Part adds a heading.
func (w *Working) Part(title string) {
	w.line(Step{Kind: Part, Name: title})
}

// Note says more about the last line: which branch was taken, and why.
func (w *Working) Note(text string) {
	if n := len(*w); n > 0 {
		(*w)[n-1].Note = text
	}
}

func (w *Working) add(s Step) decimal.Decimal {
	name, _ := Find(s.Symbol)
	s.Name, s.Unit = name.Meaning, name.Unit
	w.line(s)
	return s.Value
}

func (w *Working) line(s Step) {
	if *w == nil {
		*w = make(Working, 0, room)
	}
	*w = append(*w, s)
}

// Value returns the latest value of a symbol.
func (w Working) Value(symbol string) (v decimal.Decimal, ok bool) {
	for i := len(w) - 1; i >= 0; i-- {
		if s := &w[i]; s.Kind != Part && s.Symbol == symbol {
			return s.Value, true
		}
	}
	return decimal.Decimal{}, false
}

// Confidence returns that of the weakest source used, [cite.Unstated] if none was.
func (w Working) Confidence() cite.Confidence {
	weakest := cite.Unstated
	for i := range w {
		weakest = cite.Weakest(weakest, w[i].Source.Confidence)
	}
	return weakest
}

// MarshalJSON writes the lines as a list, which is empty and not null where there
// are none.
func (w Working) MarshalJSON() ([]byte, error) {
	if w == nil {
		w = Working{}
	}
	return json.Marshal([]Step(w))
}
