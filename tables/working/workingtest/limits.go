package workingtest

import (
	"fmt"
	"go/ast"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.org/extralow/tables/working"
)

// wanted is how an error of [working.Above] or [working.Between] names its limits.
var wanted = regexp.MustCompile(`^(?:above (-?\d+) and at most (\d+)|(-?\d+) to (-?\d+))$`)

// absurd is a limit that only holds numbers back which nobody means.
const absurd = 1_000_000

// limits holds the limits that errors name to those of the doc comments: of the
// function, of the types of its arguments and of what these comments lead to. Who
// reads the comments alone knows what is accepted.
func (q *inquiry) limits(t testing.TB, documented string) {
	t.Helper()
	told := map[string]bool{}
	for _, f := range q.fields {
		for _, p := range probes(f) {
			for _, e := range working.Inputs(q.with(f, p.value).err) {
				about := element.ReplaceAllString(e.Field, "") + " is " + e.Want
				if told[about] {
					continue
				}
				told[about] = true
				if limit, ok := undocumented(e.Want, documented); ok && !q.has(limit) {
					t.Errorf("%s, and no comment says %s", about, limit)
				}
			}
		}
	}
}

// has reports a limit that is another input: no fewer conductors than circuits.
func (q *inquiry) has(limit string) bool {
	return slices.ContainsFunc(q.fields, func(f field) bool { return f.kind.Kind() == reflect.Int && fmt.Sprint(f.of(q.With)) == limit })
}

var element = regexp.MustCompile(`\[\d+\]`)

// undocumented returns a limit of an error that the text has not.
func undocumented(want, text string) (limit string, ok bool) {
	m := wanted.FindStringSubmatch(want)
	if m == nil {
		return "", false
	}
	limits := slices.DeleteFunc(m[1:], func(s string) bool { return s == "" })
	low, errL := strconv.Atoi(limits[0])
	high, errH := strconv.Atoi(limits[1])
	if errL != nil || errH != nil || high > absurd || low > high {
		return "", false
	}
	for _, limit := range limits {
		if !regexp.MustCompile(`(^|[^0-9.])` + limit + `($|[^0-9.]|\.($|[^0-9]))`).MatchString(text) {
			return limit, true
		}
	}
	return "", false
}

var thousands = regexp.MustCompile(`(\d)[ \n\t]+(\d{3})\b`)

// documentedBy returns the comments that stand for a function: its own, those of
// the types that it takes, of what these lead to within the package, and the package's.
func documentedBy(t testing.TB, name string, types []reflect.Type) string {
	comments := commentsOf(t)
	seen := map[string]bool{}
	var all strings.Builder
	var add func(name string)
	add = func(name string) {
		if seen[name] {
			return
		}
		seen[name] = true
		all.WriteString(comments[name] + "\n")
		for _, l := range link.FindAllStringSubmatch(comments[name], -1) {
			add(strings.TrimPrefix(l[1], "*"))
		}
	}
	add(name)
	for _, kind := range types {
		add(kind.Name())
	}
	text := comments[""] + all.String()
	for range 2 { // 1 000 000 has two gaps
		text = thousands.ReplaceAllString(text, "$1$2")
	}
	return strings.ReplaceAll(text, "−", "-")
}

// commentsOf lists the comments of the package by what they are about, its own under
// no name; that of a struct has those of its fields.
func commentsOf(t testing.TB) map[string]string {
	p, err := parsed()
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]string{"": p.Doc}
	for _, f := range p.Funcs {
		all[f.Name] = f.Doc
	}
	for _, kind := range p.Types {
		all[kind.Name] = kind.Doc + fieldComments(kind.Decl)
		for _, f := range kind.Funcs {
			all[f.Name] = f.Doc
		}
		for _, m := range kind.Methods {
			all[kind.Name+"."+m.Name] = m.Doc
		}
	}
	return all
}

func fieldComments(decl *ast.GenDecl) string {
	var b strings.Builder
	ast.Inspect(decl, func(n ast.Node) bool {
		if f, ok := n.(*ast.Field); ok {
			b.WriteString(f.Doc.Text() + " " + f.Comment.Text() + "\n")
		}
		return true
	})
	return b.String()
}

// typesIn lists the structs in arguments, and what their lists hold.
func typesIn(args []any) (all []reflect.Type) {
	var add func(kind reflect.Type)
	add = func(kind reflect.Type) {
		switch {
		case kind.Kind() == reflect.Slice:
			add(kind.Elem())
		case kind.Kind() == reflect.Struct && !slices.Contains(all, kind):
			all = append(all, kind)
			for i := range kind.NumField() {
				add(kind.Field(i).Type)
			}
		}
	}
	for _, a := range args {
		add(reflect.TypeOf(a))
	}
	return all
}
