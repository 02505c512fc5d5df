package job

import (
	"fmt"
	"io"
	"reflect"
	"strings"
	"unicode/utf8"
)

const pageWidth = 80

const explainHead = `THE JOB FILE

One installation, in YAML or in JSON, as UTF-8 text of at most 1 MB. Every key
below must be given unless it is marked optional; a key that is not below is a
fault. Where a key has two names give one of them; values in ft, in, lb and °F
are converted, and the range holds for what they make.

A number is plain digits with a point, without a unit: 0.5, not ,5 or 1e3 or
"4 m". A length is one way along the cable. W is not VA.

A node is a place where circuits meet. Every battery, alternator, charger and
inverter is a node of its own name; all other nodes exist because something
names them: an end of a circuit, the place of a load, the input of a converter.

A load is at a node or behind an inverter, and has power_w or current_a. A
converter needs fed_at, least_input_v and wakes_by, and wake_v and sleep_v where
it wakes by voltage. A chassis return needs chassis_milliohm. A switch other
than an isolator needs load. Given together or not at all: breaks_a and
breaks_at_v, holds_a and holds_s, opens_a and opens_by_s. surge_s needs surge_w,
and precharge_ohm needs input_uf.
`

// Explain writes the description of the job file, 80 columns wide, from the
// tags that the reader itself goes by.
func Explain(w io.Writer) error {
	var b strings.Builder
	b.WriteString(explainHead)
	for _, s := range sections() {
		b.WriteString("\n" + s.title + "\n")
		for _, k := range keysOf(s.of) {
			b.WriteString(wrap(k.heading(), "  ", "      "))
			b.WriteString(wrap(k.is, "      ", "      "))
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// heading returns a key's names and what it takes.
func (k key) heading() string {
	names := strings.Join(k.names, " or ")
	if k.optional {
		names += " (optional)"
	}
	switch section, isList := k.section(); {
	case k.want.form == "size":
		return names + ": a size of cable"
	case section != nil && isList:
		return fmt.Sprintf("%s: a list of at most %d, each with the keys of %s", names, k.want.most, strings.ToUpper(section.Name()))
	case section != nil:
		return names + ": the keys of " + strings.ToUpper(section.Name())
	case isList:
		return names + ": a list of names"
	}
	return names + ": " + k.wanted(k.names[0])
}

// section returns the struct that a key holds, one or a list of them, or nil.
func (k key) section() (t reflect.Type, isList bool) {
	t, isList = k.kind, k.kind.Kind() == reflect.Slice
	if isList || t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	if !isSection(t) {
		return nil, isList
	}
	return t, isList
}

// section is one struct of the model.
type section struct {
	title string
	of    reflect.Type
}

// sections returns the structs of the model, outermost first, each once.
func sections() []section {
	job := reflect.TypeFor[Job]()
	all := []section{{"THE FILE", job}}
	for seen, i := map[reflect.Type]bool{job: true}, 0; i < len(all); i++ {
		for _, k := range keysOf(all[i].of) {
			if t, _ := k.section(); t != nil && !seen[t] {
				seen[t] = true
				all = append(all, section{strings.ToUpper(t.Name()), t})
			}
		}
	}
	return all
}

// wrap breaks a text into lines of the page's width.
func wrap(text, first, rest string) string {
	var b strings.Builder
	line := first
	for i, word := range strings.Fields(text) {
		switch {
		case i == 0:
			line += word
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > pageWidth:
			b.WriteString(line + "\n")
			line = rest + word
		default:
			line += " " + word
		}
	}
	return b.String() + line + "\n"
}
