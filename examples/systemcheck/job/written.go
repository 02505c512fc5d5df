package job

import (
	"errors"
	"fmt"
	"reflect"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"go.yaml.in/yaml/v3"
)

// Check puts a job that no file was read for through the judgement of a file: the
// range of every number, the words, the names that must point to something. The
// error joins a [*working.InputError] for everything that is wrong, with its path:
// "circuits[2].length_m".
func (j Job) Check() error {
	root := written(reflect.ValueOf(j))
	w := newWalker("")
	w.note("", "job", root, root)
	w.fill(root, reflect.ValueOf(w.job).Elem(), key{}, "")
	if !w.full() {
		links{w}.check()
	}
	var all []error
	for _, f := range w.faults {
		all = append(all, &working.InputError{Field: f.Key, Got: f.found(), Want: f.Want})
	}
	return errors.Join(all...)
}

// written is a part of a job as a file would have it. What is optional and not
// there is left out.
func written(v reflect.Value) *yaml.Node {
	switch x := v.Interface().(type) {
	case decimal.Decimal:
		return plain(shown(x))
	case decimal.NullDecimal:
		return plain(shown(x.Decimal))
	case tables.Size:
		return plain(x.String())
	}
	switch v.Kind() {
	case reflect.Pointer:
		return written(v.Elem())
	case reflect.Slice:
		list := &yaml.Node{Kind: yaml.SequenceNode}
		for i := range v.Len() {
			list.Content = append(list.Content, written(v.Index(i)))
		}
		return list
	case reflect.Struct:
		return mapped(v)
	default:
		return plain(fmt.Sprint(v.Interface()))
	}
}

func plain(text string) *yaml.Node {
	return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: text}
}

// mapped writes the keys of a struct under their first names.
func mapped(v reflect.Value) *yaml.Node {
	n := &yaml.Node{Kind: yaml.MappingNode}
	for _, k := range keysOf(v.Type()) {
		value := v.FieldByIndex(k.field)
		if k.optional && value.IsZero() {
			continue
		}
		n.Content = append(n.Content, plain(k.names[0]), written(value))
	}
	return n
}

// shown is a number in digits; one of a million digits is none of a job.
func shown(v decimal.Decimal) string {
	const most = 30
	if v.Exponent() > most || v.Exponent() < -most || v.NumDigits() > most {
		return "a number of absurd size"
	}
	return v.String()
}
