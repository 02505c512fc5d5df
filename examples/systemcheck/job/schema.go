package job

import (
	"encoding/json"
	"io"
	"reflect"
	"strings"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// schema is what a JSON Schema says of one place in the file. A keyword about
// numbers says nothing of a text, and the reverse, so that a number may stand
// in quotes.
type schema struct {
	Dialect     string             `json:"$schema,omitempty"`
	Title       string             `json:"title,omitempty"`
	Description string             `json:"description,omitempty"`
	Ref         string             `json:"$ref,omitempty"`
	Type        any                `json:"type,omitempty"` // one name or several
	Enum        []any              `json:"enum,omitempty"`
	Minimum     json.Number        `json:"minimum,omitempty"`
	Maximum     json.Number        `json:"maximum,omitempty"`
	Pattern     string             `json:"pattern,omitempty"`
	Format      string             `json:"format,omitempty"`
	MinLength   int                `json:"minLength,omitempty"`
	MaxLength   int                `json:"maxLength,omitempty"`
	MinItems    int                `json:"minItems,omitempty"`
	MaxItems    int                `json:"maxItems,omitempty"`
	Items       *schema            `json:"items,omitempty"`
	Properties  map[string]*schema `json:"properties,omitempty"`
	Required    []string           `json:"required,omitempty"`
	OneOf       []*schema          `json:"oneOf,omitempty"`
	Not         *schema            `json:"not,omitempty"`
	AllOf       []*schema          `json:"allOf,omitempty"`
	Closed      *bool              `json:"additionalProperties,omitempty"`
	Defs        map[string]*schema `json:"$defs,omitempty"`
}

// Schema writes a JSON Schema (draft 2020-12) of the job file from the tags
// that the reader itself goes by, for editors that complete and check keys as
// they are typed. Names that point to nothing and keys that need each other are
// found by [Read] alone, which also takes a bare number as a name.
func Schema(w io.Writer) error {
	all := sections()
	root := schemaOf(all[0].of)
	root.Dialect, root.Title = "https://json-schema.org/draft/2020-12/schema", "Job file"
	root.Defs = map[string]*schema{}
	for _, s := range all[1:] {
		root.Defs[defName(s.of)] = schemaOf(s.of)
	}
	text, err := json.MarshalIndent(root, "", "  ")
	if err != nil {
		return err
	}
	_, err = w.Write(append(text, '\n'))
	return err
}

func defName(t reflect.Type) string { return strings.ToLower(t.Name()) }

// schemaOf describes a struct of the model.
func schemaOf(t reflect.Type) *schema {
	s := &schema{Type: "object", Properties: map[string]*schema{}, Closed: new(bool)}
	for _, k := range keysOf(t) {
		for _, name := range k.names {
			s.Properties[name] = k.schema(name)
		}
		switch {
		case len(k.names) == 1 && !k.optional:
			s.Required = append(s.Required, k.names[0])
		case len(k.names) > 1 && k.optional:
			s.AllOf = append(s.AllOf, &schema{Not: &schema{Required: k.names}})
		case len(k.names) > 1:
			s.AllOf = append(s.AllOf, oneOf(k.names))
		}
	}
	return s
}

// oneOf wants exactly one of some keys.
func oneOf(names []string) *schema {
	s := &schema{}
	for _, name := range names {
		s.OneOf = append(s.OneOf, &schema{Required: []string{name}})
	}
	return s
}

// schema describes what a key takes under one of its names.
func (k key) schema(name string) *schema {
	switch section, isList := k.section(); {
	case section != nil && isList:
		return k.listOf(&schema{Ref: "#/$defs/" + defName(section)})
	case section != nil:
		return &schema{Ref: "#/$defs/" + defName(section), Description: k.is}
	case isList:
		return k.listOf(&schema{Type: "string", MinLength: 1, MaxLength: mostLetters})
	case k.want.words != nil:
		return &schema{Enum: k.words(), Description: k.is}
	case k.isNumber():
		low, high := k.bounds(name)
		s := &schema{Type: []string{"number", "string"}, Minimum: low, Maximum: high, Pattern: working.NumberPattern, Description: k.is}
		if k.want.whole {
			s.Type, s.Pattern = []string{"integer", "string"}, wholeNumber
		}
		return s
	case k.kind.Kind() == reflect.Bool:
		return &schema{Enum: []any{true, false, "true", "false"}, Description: k.is}
	case k.want.form == "date":
		return &schema{Type: "string", Format: "date", Description: k.is}
	default:
		return &schema{Type: "string", MinLength: 1, MaxLength: mostLetters, Description: k.is}
	}
}

// wholeNumber is a plain number with nothing but noughts behind the point.
const wholeNumber = `^[+-]?(0|[1-9][0-9]*)(\.0+)?$`

func (k key) listOf(items *schema) *schema {
	s := &schema{Type: "array", Items: items, MaxItems: k.want.most, Description: k.is}
	if !k.optional {
		s.MinItems = 1
	}
	return s
}

// words returns the words of a key, numbers both bare and in quotes.
func (k key) words() (words []any) {
	for _, w := range k.want.words {
		if k.isNumber() {
			words = append(words, json.Number(w))
		}
		words = append(words, w)
	}
	return words
}

// bounds returns the range under one name of the key. In US units it is
// widened to the next 0.0001, so that the schema refuses nothing that the
// reader takes.
func (k key) bounds(name string) (low, high json.Number) {
	if u, us := k.us(name); us {
		least, most := u.fromMetric(k.want.low), u.fromMetric(k.want.high)
		return json.Number(least.RoundFloor(4).String()), json.Number(most.RoundCeil(4).String())
	}
	return json.Number(k.want.low.String()), json.Number(k.want.high.String())
}

// fromMetric is the reverse of metric, to eight places.
func (u usUnit) fromMetric(v decimal.Decimal) decimal.Decimal {
	return v.Mul(u.over).DivRound(u.times, 8).Add(u.offset)
}
