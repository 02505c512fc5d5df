package working

import (
	"io"
	"regexp"
	"strings"
	"unicode/utf8"

	"github.com/shopspring/decimal"
)

const (
	pageWidth  = 76 // leaves four columns to indent it by
	noteColumn = 38
	showDigits = 5
)

// token is a symbol, a function's name or a number.
var token = regexp.MustCompile(`[\p{L}\p{N}_.]+`)

// Show returns v to five digits as it is printed, and whether that rounded it.
// Whole digits are never dropped.
func Show(v decimal.Decimal) (text string, rounded bool) {
	places := max(0, showDigits-int32(v.NumDigits())-v.Exponent())
	r := v.Round(places)
	return r.String(), !r.Equal(v)
}

// equals returns "= 0.5" or "≈ 0.33333", with the unit.
func equals(v decimal.Decimal, unit string) string {
	text, rounded := Show(v)
	sign := "= "
	if rounded {
		sign = "≈ "
	}
	return strings.TrimSpace(sign + text + " " + unit)
}

// Numbers returns the formula of line i with each symbol's value put in.
func (w Working) Numbers(i int) string {
	known := w[:i]
	if k := w[i].Kind; k == Chosen || k == Solved {
		known = w[:i+1] // its own value stands in the condition
	}
	return token.ReplaceAllStringFunc(w[i].Formula, func(t string) string {
		v, ok := known.Value(t)
		if !ok {
			return t
		}
		text, _ := Show(v)
		if v.IsNegative() {
			text = "(" + text + ")"
		}
		return text
	})
}

// equation returns the lines of the left half of the page.
func (w Working) equation(i int) []string {
	s := w[i]
	value := s.Symbol + " " + equals(s.Value, s.Unit)
	indent := strings.Repeat(" ", utf8.RuneCountInString(s.Symbol)+1)
	switch s.Kind {
	case Calculated:
		lines := []string{s.Symbol + " = " + s.Formula}
		if numbers := w.Numbers(i); numbers != s.Formula {
			lines = append(lines, indent+"= "+numbers)
		}
		return append(lines, indent+equals(s.Value, s.Unit))
	case Chosen:
		return []string{value, indent + "so that " + s.Formula, indent + "that is " + w.Numbers(i)}
	case Solved:
		return []string{value, indent + "where " + s.Symbol + " = " + s.Formula, indent + "that is " + w.Numbers(i)}
	default:
		return []string{value}
	}
}

// remark returns the right half of the page: name, source and note.
func (s Step) remark() string {
	text := s.Name
	switch {
	case s.Kind == Given:
		text += " (given)"
	case s.Source.Key != "":
		text += " [" + s.Source.String() + "]"
	}
	if s.Note != "" {
		text += "; " + s.Note
	}
	return text
}

// String returns the working as text of at most 76 columns: equations on the
// left, on the right what each line is and where it comes from. A value shown
// rounded has ≈ before it.
func (w Working) String() string {
	var b strings.Builder
	for i, s := range w {
		if s.Kind == Part {
			b.WriteString(s.Name + ":\n")
			continue
		}
		layOut(&b, w.equation(i), s.remark())
	}
	return b.String()
}

// WriteText writes the text of [Working.String].
func (w Working) WriteText(out io.Writer) error {
	_, err := io.WriteString(out, w.String())
	return err
}

// layOut writes the equation with the remark beside it, where there is room.
func layOut(b *strings.Builder, equation []string, remark string) {
	right := Wrap(remark, pageWidth-noteColumn)
	for _, line := range equation {
		for n, part := range Wrap(line, pageWidth-6) {
			if n > 0 {
				part = "      " + part
			}
			gap := noteColumn - utf8.RuneCountInString(part)
			if len(right) > 0 && gap >= 3 {
				part += strings.Repeat(" ", gap) + right[0]
				right = right[1:]
			}
			b.WriteString(part + "\n")
		}
	}
	for _, line := range right {
		b.WriteString(strings.Repeat(" ", noteColumn) + line + "\n")
	}
}

// Wrap breaks text at spaces into lines of at most width characters, keeping
// the spaces at its beginning. A longer word stands alone.
func Wrap(text string, width int) []string {
	lead := text[:len(text)-len(strings.TrimLeft(text, " "))]
	var lines []string
	line := lead
	for _, word := range strings.Fields(text) {
		switch {
		case strings.TrimSpace(line) == "":
			line += word
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) <= width:
			line += " " + word
		default:
			lines = append(lines, line)
			line = word
		}
	}
	if strings.TrimSpace(line) == "" {
		return lines
	}
	return append(lines, line)
}
