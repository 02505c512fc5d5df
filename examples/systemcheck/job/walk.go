package job

import (
	"fmt"
	"reflect"

	"go.yaml.in/yaml/v3"
)

// mostFaults is ten for each circuit of the largest job.
const mostFaults = 2000

// walker fills the model from the nodes of a file, notes where each key stands
// and gathers the faults.
type walker struct {
	survey *Survey
	job    *Job // of the survey
	faults []*Fault
	bad    map[string]bool // paths that cannot be used: faulty, or missing
}

func newWalker(name string) *walker {
	s := &Survey{name: name, at: map[string]At{}}
	return &walker{survey: s, job: &s.job, bad: map[string]bool{}}
}

// full reports whether there are more faults than anybody will read.
func (w *walker) full() bool { return len(w.faults) >= mostFaults }

// add gathers a fault; the last that there is room for says that there are more.
func (w *walker) add(f Fault) {
	if w.full() {
		return
	}
	w.faults = append(w.faults, &f)
	if w.full() {
		w.faults[mostFaults-1] = &Fault{f.File, f.Line, f.Column, "file", "", "faulty in more places", "the faults listed here mended first"}
	}
}

// fault notes that the text at a path is wrong.
func (w *walker) fault(path, want string) { w.faultGot(path, "", want) }

// faultGot notes that what stands at a path is wrong; got says what that is,
// where it is not a text.
func (w *walker) faultGot(path, got, want string) {
	w.bad[path] = true
	w.remark(path, got, want)
}

// remark notes a fault that leaves the value usable.
func (w *walker) remark(path, got, want string) {
	at := w.survey.at[path]
	if got != "" {
		at.Text = ""
	}
	w.add(Fault{w.survey.name, at.Line, at.Column, at.Key, at.Text, got, want})
}

// faultMissing notes that a key is not there, at the place of what should hold
// it.
func (w *walker) faultMissing(parent, name, want string) {
	path := under(parent, name)
	at := w.survey.at[parent]
	w.bad[path] = true
	w.add(Fault{w.survey.name, at.Line, at.Column, path, "", "missing", want})
}

// note records where a path stands and what was typed there.
func (w *walker) note(path, typed string, where, value *yaml.Node) {
	at := At{Line: where.Line, Column: where.Column, Key: typed}
	if value.Kind == yaml.ScalarNode {
		at.Text = value.Value
	}
	w.survey.at[path] = at
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
	case w.full() || w.isReference(n, path):
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
		w.faultGot(path, "an alias, *"+clip(n.Value), "the value itself")
		return true
	case n.Anchor != "":
		w.remark(path, "an anchor, &"+clip(n.Anchor), "the value alone")
	case n.Style&yaml.TaggedStyle != 0:
		w.remark(path, fmt.Sprintf("tagged %q", clip(n.Tag)), "the value alone")
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
		return "an alias"
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
			w.keyFault(path, name, value, "a plain name as the key")
		case !ok:
			meant[w.unknown(path, name, value, keys)] = true
		case w.isFirst(path, name, value, k):
			at := under(path, k.names[0])
			w.note(at, under(path, name.Value), name, value)
			w.fill(value, out.FieldByIndex(k.field), k, at)
		}
	}
	for _, k := range keys {
		w.wantGiven(path, k, meant)
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
	if k.want.most > 0 && len(n.Content) > k.want.most {
		w.faultGot(path, fmt.Sprintf("a list of %d", len(n.Content)), fmt.Sprintf("at most %d", k.want.most))
		return
	}
	out.Set(reflect.MakeSlice(out.Type(), len(n.Content), len(n.Content)))
	entry := key{kind: out.Type().Elem(), names: []string{""}}
	for i, item := range n.Content {
		at := fmt.Sprintf("%s[%d]", path, i)
		w.note(at, at, item, item)
		w.fill(item, out.Index(i), entry, at)
	}
}
