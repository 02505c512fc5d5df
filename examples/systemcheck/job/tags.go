package job

import (
	"reflect"
	"slices"
	"strings"
	"sync"

	"example.org/extralow/tables"
	"github.com/shopspring/decimal"
)

// key is one key of the job file as the tags of the model give it.
type key struct {
	names    []string // alternatives; the model holds the unit of the first
	optional bool
	want     want
	is       string
	field    []int // index in its struct, and in what that embeds
	kind     reflect.Type
}

// want is what a key takes: a range, words, a form by name, or anything of its
// kind.
type want struct {
	ranged    bool
	whole     bool // no part behind the point
	low, high decimal.Decimal
	words     []string
	most      int    // entries of a list; 0: as many as the file holds
	form      string // "date" or "size"
}

var (
	decimalType     = reflect.TypeFor[decimal.Decimal]()
	nullDecimalType = reflect.TypeFor[decimal.NullDecimal]()
	sizeType        = reflect.TypeFor[tables.Size]()
)

// isSection reports whether a type is a struct of the model, with keys of its
// own.
func isSection(t reflect.Type) bool {
	return t.Kind() == reflect.Struct && t != decimalType && t != nullDecimalType && t != sizeType
}

var keysByType sync.Map // reflect.Type to []key

// keysOf returns the keys of a struct of the model, in its order.
func keysOf(t reflect.Type) []key {
	if known, ok := keysByType.Load(t); ok {
		return known.([]key)
	}
	var keys []key
	for _, f := range reflect.VisibleFields(t) {
		if f.Anonymous {
			continue // its own fields follow
		}
		names, optional := strings.CutPrefix(f.Tag.Get("job"), "?")
		keys = append(keys, key{strings.Split(names, "|"), optional, parseWant(f.Tag.Get("want")), f.Tag.Get("is"), f.Index, f.Type})
	}
	keysByType.Store(t, keys)
	return keys
}

// parseWant reads a want tag: "0.01..200", "1..60 whole", "cable|chassis",
// "date", "at most 50"; a range that is no range is a mistake of the model and panics in
// every test.
func parseWant(tag string) want {
	if most, ok := strings.CutPrefix(tag, "at most "); ok {
		return want{most: int(decimal.RequireFromString(most).IntPart())}
	}
	span, whole := strings.CutSuffix(tag, " whole")
	if low, high, ok := strings.Cut(span, ".."); ok {
		return want{ranged: true, whole: whole, low: decimal.RequireFromString(low), high: decimal.RequireFromString(high)}
	}
	if tag == "" || tag == "date" || tag == "size" {
		return want{form: tag}
	}
	return want{words: strings.Split(tag, "|")}
}

// takes reports whether a number is in the range or one of the words; the model
// gives every number the one or the other.
func (w want) takes(v decimal.Decimal) bool {
	if w.ranged {
		return (v.IsInteger() || !w.whole) && v.GreaterThanOrEqual(w.low) && v.LessThanOrEqual(w.high)
	}
	return slices.Contains(w.words, v.String())
}

// find returns the key that has a name.
func find(keys []key, name string) (key, bool) {
	i := slices.IndexFunc(keys, func(k key) bool { return slices.Contains(k.names, name) })
	if i < 0 {
		return key{}, false
	}
	return keys[i], true
}

func (k key) isNumber() bool { return k.kind == decimalType || k.kind == nullDecimalType }

// us returns how a name of the key converts to the first one's unit.
func (k key) us(name string) (usUnit, bool) {
	u, ok := usUnits[unitOf(name)]
	return u, ok && name != k.names[0]
}

// wanted says in words what the key takes under one of its names.
func (k key) wanted(name string) string {
	switch _, us := k.us(name); {
	case k.want.ranged && us:
		return "a number in " + unitOf(name) + " that makes " + k.span()
	case k.want.whole:
		return "a whole number from " + k.span()
	case k.want.ranged:
		return "a number from " + k.span()
	case k.want.words != nil && k.isNumber():
		return strings.TrimSpace(anyOf(k.want.words) + " " + unitOf(name))
	case k.want.words != nil:
		return anyOf(k.want.words)
	case k.want.form == "date":
		return "a date such as 2031-05-17"
	case k.want.form == "size":
		return "a size"
	case k.kind.Kind() == reflect.Bool:
		return "true or false"
	case k.kind.Kind() == reflect.Slice:
		return "a list"
	case k.kind.Kind() == reflect.String:
		return "text"
	default:
		return "keys with values"
	}
}

// span returns the range with its unit: "0.01 to 200 m".
func (k key) span() string {
	return strings.TrimSpace(k.want.low.String() + " to " + k.want.high.String() + " " + unitOf(k.names[0]))
}

// anyOf returns "a, b or c".
func anyOf(words []string) string {
	last := len(words) - 1
	if last < 1 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:last], ", ") + " or " + words[last]
}
