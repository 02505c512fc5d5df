package job

import (
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strconv"
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

// walker fills the model from the nodes of a file, notes where each key stands
// and gathers the faults.
type walker struct {
	file   *File
	faults []*Fault
	bad    map[string]bool // paths that cannot be used: faulty, or missing
}

// fault notes that what stands at a path is wrong.
func (w *walker) fault(path, want string) { w.faultGot(path, "", want) }

// faultGot says what stands there, where that is not a text.
func (w *walker) faultGot(path, got, want string) {
	at := w.file.around(path)
	if got != "" {
		at.Text = ""
	}
	w.bad[path] = true
	w.faults = append(w.faults, &Fault{w.file.name, at.Line, at.Column, at.Key, at.Text, got, want})
}

// faultMissing notes that a key is not there, at the place of what should hold
// it.
func (w *walker) faultMissing(parent, name, want string) {
	path := under(parent, name)
	at := w.file.around(parent)
	w.bad[path] = true
	w.faults = append(w.faults, &Fault{w.file.name, at.Line, at.Column, path, "", "missing", want})
}

// note records where a path stands and what was typed there.
func (w *walker) note(path, typed string, where, value *yaml.Node) {
	at := At{Line: where.Line, Column: where.Column, Key: typed}
	if value.Kind == yaml.ScalarNode {
		at.Text = value.Value
	}
	w.file.at[path] = at
}

// under returns the path of a key inside a path.
func under(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

// fill puts a node into a part of the model.
func (w *walker) fill(n *yaml.Node, out reflect.Value, k key, path string) {
	if out.Kind() == reflect.Pointer {
		out.Set(reflect.New(out.Type().Elem()))
		out = out.Elem()
	}
	switch {
	case w.isReference(n, path):
	case out.Kind() == reflect.Slice:
		w.list(n, out, k, path)
	case isSection(out.Type()):
		w.mapping(n, out, path)
	default:
		w.scalar(n, out, k, path)
	}
}

// isReference refuses what YAML can do and a job file has no use for: a value
// that stands elsewhere, and a tag that makes something else of a text.
func (w *walker) isReference(n *yaml.Node, path string) bool {
	switch {
	case n.Kind == yaml.AliasNode:
		w.faultGot(path, "a reference to *"+clip(n.Value), "the value itself")
		return true
	case n.Anchor != "":
		w.faultGot(path, "marked &"+clip(n.Anchor), "the value without a mark for references")
	case n.Style&yaml.TaggedStyle != 0:
		w.faultGot(path, fmt.Sprintf("tagged %q", clip(n.Tag)), "the value without a tag")
	}
	return false
}

// whatIs names a node that is not one text.
func whatIs(n *yaml.Node) string {
	switch n.Kind {
	case yaml.SequenceNode:
		return "a list"
	case yaml.MappingNode:
		return "keys with values"
	case yaml.AliasNode:
		return "a reference"
	default:
		return ""
	}
}

// mapping fills a struct from the keys of a node.
func (w *walker) mapping(n *yaml.Node, out reflect.Value, path string) {
	if n.Kind != yaml.MappingNode {
		w.faultGot(path, whatIs(n), "keys with values")
		return
	}
	keys := keysOf(out.Type())
	meant := map[string]bool{} // keys that an unknown one is taken for
	for i := 0; i+1 < len(n.Content); i += 2 {
		name, value := n.Content[i], n.Content[i+1]
		k, ok := find(keys, name.Value)
		switch {
		case name.Kind != yaml.ScalarNode || name.Anchor != "":
			w.keyFault(path, name, value, "a plain name as a key, without references")
		case !ok:
			meant[w.unknown(path, name, value, keys)] = true
		case w.isFirst(path, name, value, k):
			at := under(path, k.names[0])
			w.note(at, under(path, name.Value), name, value)
			w.fill(value, out.Field(k.field), k, at)
		}
	}
	for _, k := range keys {
		w.wantGiven(path, k, meant)
	}
}

var plainKey = regexp.MustCompile(`^[A-Za-z0-9_]{1,60}$`)

// keyFault notes that a key does not belong where it stands.
func (w *walker) keyFault(path string, name, value *yaml.Node, want string) {
	typed := name.Value
	if !plainKey.MatchString(typed) {
		typed = strconv.Quote(clip(typed))
	}
	w.faults = append(w.faults, &Fault{w.file.name, name.Line, name.Column, under(path, typed), value.Value, whatIs(value), want})
}

// unknown notes a key that the model does not have, and returns the first name
// of the one that was meant.
func (w *walker) unknown(path string, name, value *yaml.Node, keys []key) (meant string) {
	var names []string
	for _, k := range keys {
		names = append(names, k.names...)
	}
	near, ok := w.nearest(name.Value, names)
	want := "a known key; nearest: " + near
	if !ok {
		want = "one of the keys " + strings.Join(names, ", ")
	}
	if stem, isVA := strings.CutSuffix(name.Value, "_va"); isVA && slices.Contains(names, stem+"_w") {
		near, want = stem+"_w", "the key "+stem+"_w; "+vaIsNotW
	}
	w.keyFault(path, name, value, want)
	if k, ok := find(keys, near); ok {
		return k.names[0]
	}
	return ""
}

// isFirst reports whether a key is given for the first time, under any of its
// names.
func (w *walker) isFirst(path string, name, value *yaml.Node, k key) bool {
	first, again := w.file.at[under(path, k.names[0])]
	if !again {
		return true
	}
	want := fmt.Sprintf("it once; it stands on line %d already", first.Line)
	if lastKey(first.Key) != name.Value {
		want = "either " + anyOf(k.names) + ", not both"
	}
	w.keyFault(path, name, value, want)
	return false
}

// wantGiven notes a key that must be there and is not. One fault is enough for
// a key that is there under a wrong name.
func (w *walker) wantGiven(path string, k key, meant map[string]bool) {
	name := k.names[0]
	if _, given := w.file.at[under(path, name)]; given {
		return
	}
	switch {
	case meant[name]:
		w.bad[under(path, name)] = true
	case !k.optional && len(k.names) > 1:
		w.faultMissing(path, name, fmt.Sprintf("%s, %s (%s)", anyOf(k.names), k.wanted(name), k.is))
	case !k.optional:
		w.faultMissing(path, name, fmt.Sprintf("%s (%s)", k.wanted(name), k.is))
	}
}

// list fills a slice from the entries of a node.
func (w *walker) list(n *yaml.Node, out reflect.Value, k key, path string) {
	if n.Kind != yaml.SequenceNode {
		w.faultGot(path, whatIs(n), "a list")
		return
	}
	if len(n.Content) == 0 && !k.optional {
		w.faultGot(path, "an empty list", "at least one entry")
	}
	out.Set(reflect.MakeSlice(out.Type(), len(n.Content), len(n.Content)))
	entry := key{kind: out.Type().Elem(), names: []string{""}}
	for i, item := range n.Content {
		at := fmt.Sprintf("%s[%d]", path, i)
		w.note(at, at, item, item)
		w.fill(item, out.Index(i), entry, at)
	}
}

// scalar fills a value that is one text.
func (w *walker) scalar(n *yaml.Node, out reflect.Value, k key, path string) {
	name := lastKey(w.file.at[path].Key)
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
