package workingtest

import (
	"reflect"
	"slices"
	"strings"
	"unicode"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// field is one place in the arguments of a question.
type field struct {
	key   string // "sections.length_m"
	kind  reflect.Type
	steps []step
}

// step leads one level down: to a field of a struct or an element of a list.
type step struct {
	index  int
	inList bool
}

var (
	exactly  = reflect.TypeFor[decimal.Decimal]()
	optional = reflect.TypeFor[decimal.NullDecimal]()
)

// fieldsOf lists the places in arguments of those names. What came from a table
// (a figure, a rule) is one place, and so is a list; its first element is looked
// into as well. Lines of working and sources are no inputs.
func fieldsOf(args []any, names []string) []field {
	var all []field
	for i, a := range args {
		all = append(all, within(reflect.ValueOf(a), snake(names[i]), []step{{index: i}}, true)...)
	}
	return all
}

func within(v reflect.Value, key string, steps []step, argument bool) []field {
	kind := v.Type()
	own := field{key, kind, steps}
	switch {
	case kind == reflect.TypeFor[working.Working]() || kind == reflect.TypeFor[cite.Source]():
		return nil
	case isWhole(kind):
		return []field{own}
	case kind.Kind() == reflect.Struct:
		return members(v, key, steps, argument)
	case kind.Kind() == reflect.Slice && v.Len() > 0:
		deeper := append(append([]step{}, steps...), step{0, true})
		return append([]field{own}, within(v.Index(0), key, deeper, false)...)
	default:
		return []field{own}
	}
}

// members lists the places in the exported fields of a struct. Those of an
// argument stand under their own keys.
func members(v reflect.Value, key string, steps []step, argument bool) []field {
	var all []field
	for i := range v.NumField() {
		f := v.Type().Field(i)
		if !f.IsExported() {
			continue
		}
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		if name == "" || name == "-" {
			name = snake(f.Name)
		}
		if !argument {
			name = key + "." + name
		}
		deeper := append(append([]step{}, steps...), step{index: i})
		all = append(all, within(v.Field(i), name, deeper, false)...)
	}
	return all
}

// isWhole reports a struct that is one value: a number, a size, a figure, a rule
// out of a table. What is made of numbers alone somebody states.
func isWhole(kind reflect.Type) bool {
	if kind == exactly || kind == optional || kind == reflect.TypeFor[working.Figure]() {
		return true
	}
	return kind.Kind() == reflect.Struct && strings.HasSuffix(kind.PkgPath(), "extralow/tables") && !ofNumbers(kind)
}

func ofNumbers(kind reflect.Type) bool {
	for i := range kind.NumField() {
		if f := kind.Field(i); !f.IsExported() || f.Type != exactly && f.Type.Kind() != reflect.Int {
			return false
		}
	}
	return true
}

// demanded reports whether leaving the field out has to be noticed. A number that
// may be unset bears on a verdict only.
func (f field) demanded(judges bool) bool {
	switch {
	case f.kind == optional || f.kind.Kind() == reflect.Bool:
		return judges
	case f.kind.Kind() == reflect.Func || f.kind.Kind() == reflect.Interface:
		return false
	}
	return true
}

// named reports an InputError about the field. What stands for itself, an argument
// that is no struct, may go by any name.
func (f field) named(err error) bool {
	last := f.key[strings.LastIndex(f.key, ".")+1:]
	return slices.ContainsFunc(working.Inputs(err), func(e *working.InputError) bool {
		name := e.Field[strings.LastIndex(e.Field, ".")+1:]
		name, _, _ = strings.Cut(name, "[")
		return name == last || len(f.steps) == 1
	})
}

// of returns the field's value in the arguments.
func (f field) of(args []any) reflect.Value {
	v := reflect.ValueOf(args[f.steps[0].index])
	for _, s := range f.steps[1:] {
		v = s.down(v)
	}
	return v
}

func (s step) down(v reflect.Value) reflect.Value {
	if s.inList {
		return v.Index(s.index)
	}
	return v.Field(s.index)
}

// set puts a value in the field's place. The arguments are clones.
func (f field) set(args []any, value reflect.Value) {
	i := f.steps[0].index
	root := reflect.New(reflect.TypeOf(args[i])).Elem()
	root.Set(reflect.ValueOf(args[i]))
	v := root
	for _, s := range f.steps[1:] {
		v = s.down(v)
	}
	v.Set(value)
	args[i] = root.Interface()
}

// clones copies arguments as deep as their lists go.
func clones(args []any) []any {
	all := make([]any, len(args))
	for i, a := range args {
		all[i] = clone(reflect.ValueOf(a)).Interface()
	}
	return all
}

func clone(v reflect.Value) reflect.Value {
	out := reflect.New(v.Type()).Elem()
	out.Set(v)
	switch {
	case isWhole(v.Type()):
	case v.Kind() == reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				out.Field(i).Set(clone(v.Field(i)))
			}
		}
	case v.Kind() == reflect.Slice && !v.IsNil():
		out.Set(reflect.MakeSlice(v.Type(), v.Len(), v.Len()))
		for i := range v.Len() {
			out.Index(i).Set(clone(v.Index(i)))
		}
	}
	return out
}

// probe is something to put into a field; an absurd one has to be refused.
type probe struct {
	text   string
	value  reflect.Value
	absurd bool
}

// manyElements is longer than any list of a job.
const manyElements = 3000

// rubbish is no name of anything.
const rubbish = "no such \x1b name"

func probes(f field) []probe {
	switch {
	case f.kind == exactly:
		return numberProbes(func(v decimal.Decimal) reflect.Value { return reflect.ValueOf(v) })
	case f.kind == optional:
		return numberProbes(func(v decimal.Decimal) reflect.Value { return reflect.ValueOf(decimal.NewNullDecimal(v)) })
	case f.kind.Kind() == reflect.String:
		return []probe{{"rubbish", reflect.ValueOf(rubbish).Convert(f.kind), true}}
	case f.kind.Kind() == reflect.Int || f.kind.Kind() == reflect.Int64:
		return []probe{
			{"-1e9", reflect.ValueOf(-1_000_000_000).Convert(f.kind), true},
			{"1e9", reflect.ValueOf(1_000_000_000).Convert(f.kind), true},
		}
	case f.kind.Kind() == reflect.Uint8:
		return []probe{{"255", reflect.ValueOf(255).Convert(f.kind), true}}
	case f.kind.Kind() == reflect.Slice && f.kind != reflect.TypeFor[working.Working]():
		return []probe{{"a list of thousands of empty entries", reflect.MakeSlice(f.kind, manyElements, manyElements), false}}
	}
	return nil
}

func numberProbes(as func(decimal.Decimal) reflect.Value) []probe {
	var all []probe
	for _, n := range []struct {
		text   string
		value  decimal.Decimal
		absurd bool
	}{
		{"0", decimal.Zero, false},
		{"1e-12", decimal.New(1, -12), false}, {"-1e-12", decimal.New(-1, -12), false},
		{"1e9", decimal.New(1, 9), true}, {"-1e9", decimal.New(-1, 9), true},
		{"1e30", decimal.New(1, 30), false}, {"1e-99", decimal.New(1, -99), false},
		{"1e1000000", decimal.New(1, 1_000_000), false}, {"1e-1000000", decimal.New(1, -1_000_000), false},
	} {
		all = append(all, probe{n.text, as(n.value), n.absurd})
	}
	return all
}

// snake writes a Go name as a key: currentA as current_a, lengthMM as length_mm.
func snake(name string) string {
	var b strings.Builder
	runes := []rune(name)
	for i, r := range runes {
		if unicode.IsUpper(r) {
			if i > 0 && !unicode.IsUpper(runes[i-1]) {
				b.WriteByte('_')
			}
			r = unicode.ToLower(r)
		}
		b.WriteRune(r)
	}
	return b.String()
}
