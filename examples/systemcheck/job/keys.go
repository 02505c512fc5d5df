package job

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"
)

var plainKey = regexp.MustCompile(`^[A-Za-z0-9_]{1,60}$`)

// keyFault notes that a key does not belong where it stands.
func (w *walker) keyFault(path string, name, value *yaml.Node, want string) {
	typed := name.Value
	if name.Kind != yaml.ScalarNode {
		typed = whatIs(name)
	}
	if !plainKey.MatchString(typed) {
		typed = strconv.Quote(clip(typed))
	}
	w.add(Fault{w.survey.name, name.Line, name.Column, under(path, typed), value.Value, whatIs(value), want})
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
	first, again := w.survey.at[under(path, k.names[0])]
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
	if _, given := w.survey.at[under(path, name)]; given {
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
