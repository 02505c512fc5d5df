package job

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"go.yaml.in/yaml/v3"
)

// mostLetters is the longest text of a value: longer names fit no paper.
const mostLetters = 200

// scalar fills a value that is one text.
func (w *walker) scalar(n *yaml.Node, out reflect.Value, k key, path string) {
	name := lastKey(w.survey.at[path].Key)
	if wrong := k.notOneText(n, name); wrong != "" {
		w.faultGot(path, whatIs(n), wrong)
		return
	}
	if wrong := w.put(out, n.Value, k, name); wrong != "" {
		w.fault(path, wrong)
	}
}

// notOneText says what is wanted in place of a value that is no readable line
// of text.
func (k key) notOneText(n *yaml.Node, name string) (wrong string) {
	switch text := n.Value; {
	case n.Kind != yaml.ScalarNode:
		return k.wanted(name)
	case (n.Tag == "!!null" || text == "") && k.optional:
		return k.wanted(name) + ", or the key left out"
	case n.Tag == "!!null" || text == "":
		return k.wanted(name)
	case utf8.RuneCountInString(text) > mostLetters:
		return fmt.Sprintf("at most %d letters", mostLetters)
	case strings.ContainsFunc(text, func(r rune) bool { return !unicode.IsPrint(r) }):
		return "one line of letters that can be printed"
	case strings.TrimSpace(text) != text:
		return "no space before or behind it"
	default:
		return ""
	}
}

// put reads a text into the model, or says what is wanted instead.
func (w *walker) put(out reflect.Value, text string, k key, name string) (wrong string) {
	switch p := out.Addr().Interface().(type) {
	case *string:
		*p = text
		return w.notWord(text, k)
	case *tables.Chemistry:
		*p = tables.Chemistry(text)
		return w.notWord(text, k)
	case *bool:
		*p = text == "true"
		if text != "true" && text != "false" {
			return k.wanted(name)
		}
	case *decimal.Decimal:
		*p, wrong = k.quantity(text, name)
	case *decimal.NullDecimal:
		p.Decimal, wrong = k.quantity(text, name)
		p.Valid = wrong == ""
	case *tables.Size:
		var err error
		if *p, err = tables.ParseSize(text); err != nil {
			return wantOf(err)
		}
	}
	return wrong
}

// notWord says what is wanted in place of a text that is not one of the key's
// words or not a day of the calendar.
func (w *walker) notWord(text string, k key) (wrong string) {
	if k.want.form == "date" {
		if _, err := time.Parse(time.DateOnly, text); err != nil {
			return k.wanted("")
		}
	}
	if k.want.words != nil && !slices.Contains(k.want.words, text) {
		return k.wanted("") + w.orNearest(text, k.want.words)
	}
	return ""
}

// wantOf returns what an input error wants, or the words of any other error.
func wantOf(err error) string {
	if inputs := working.Inputs(err); len(inputs) > 0 {
		return inputs[0].Want
	}
	return "what can be read: " + err.Error()
}
