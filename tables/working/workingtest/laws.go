package workingtest

import (
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/extralow/tables/working"
	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// Keys names inputs by their key in JSON ("path.low_milliohm"; of an argument that
// is no struct its name in snake case) and says of each why it is excepted.
type Keys map[string]string

// Question is one exported function or method with arguments, the receiver
// first, to which its answer is sensible and its checks pass.
type Question struct {
	Ask   any
	With  []any
	Unset Keys // inputs that may be left at their zero value, and why that leads to no false pass
	Any   Keys // inputs that take any value, and why
}

// Laws holds a package to what the library promises of every function:
//
//   - each exported function and method with an input is asked by a question;
//   - an input that was forgotten is an error or no pass: from the sensible
//     arguments one field at a time is set to its zero value;
//   - nonsense is refused by an error that names the field, and nothing panics
//     or hangs, whatever number, word or list stands in a field;
//   - the limits that an error names stand in the doc comments;
//   - every working returned satisfies [Guard];
//   - inputs and answers go out to JSON and come back equal.
//
// An exception that is not needed fails as well.
func Laws(t *testing.T, questions []Question) {
	t.Helper()
	if testing.Short() {
		t.Skip("it asks every question hundreds of times")
	}
	asked := map[string]bool{}
	for i := range questions {
		q := inquiry{Question: questions[i], name: functionName(questions[i].Ask)}
		asked[q.name] = true
		t.Run(q.name, func(t *testing.T) {
			q.put(t, parameterNames(t, q.name))
			q.limits(t, documentedBy(t, q.name, typesIn(q.With)))
		})
	}
	t.Run("every function is asked", func(t *testing.T) {
		for _, name := range exportedFunctions(t) {
			if !asked[name] {
				t.Errorf("%s has no question", name)
			}
		}
	})
}

// inquiry is a question as it is put.
type inquiry struct {
	Question
	name   string
	fields []field
	usual  outcome
	used   map[string]bool // exceptions that were needed
}

// outcome is what one call came to.
type outcome struct {
	answers []reflect.Value
	err     error
	fault   string // it panicked or hung
}

// put asks the question in every way; params are the names of the arguments.
func (q *inquiry) put(t testing.TB, params []string) {
	t.Helper()
	if n := reflect.TypeOf(q.Ask).NumIn(); n != len(q.With) || n != len(params) {
		t.Errorf("%s takes %d arguments, has %d", q.name, n, len(q.With))
		return
	}
	q.used = map[string]bool{}
	q.fields = fieldsOf(q.With, params)
	if q.usual = q.call(q.With); q.usual.fault != "" || q.usual.err != nil {
		t.Errorf("the sensible arguments: %s %v", q.usual.fault, q.usual.err)
		return
	}
	q.sensible(t)
	q.omission(t)
	q.nonsense(t)
	q.exceptions(t)
}

// sensible holds the answer to the sensible arguments to the laws of workings and
// of JSON.
func (q *inquiry) sensible(t testing.TB) {
	t.Helper()
	if checks := q.usual.checks(); len(checks) > 0 && !q.usual.passes() {
		t.Errorf("the sensible arguments do not pass: %s", checks)
	}
	q.usual.guard(t, "the sensible arguments")
	for _, a := range q.With {
		roundTrip(t, reflect.ValueOf(a))
	}
	for _, a := range q.usual.answers {
		roundTrip(t, a)
	}
}

// omission sets one field at a time to its zero value.
func (q *inquiry) omission(t testing.TB) {
	t.Helper()
	judges := len(q.usual.checks()) > 0
	for _, f := range q.fields {
		if !f.demanded(judges) || !q.bears(f) {
			continue
		}
		got := q.with(f, reflect.Zero(f.kind))
		switch {
		case got.fault != "":
			t.Errorf("%s left out: %s", f.key, got.fault)
		case got.err == nil && (got.passes() || !judges):
			if q.excepted(q.Unset, f.key) {
				continue
			}
			t.Errorf("%s left out: no error, and an answer as if it were nought; want an error, no pass, or a reason in Unset", f.key)
		}
	}
	for _, f := range q.fields {
		q.lenient(t, f)
	}
}

// lenient finds a bool whose false, its zero value, is the side that passes.
func (q *inquiry) lenient(t testing.TB, f field) {
	t.Helper()
	if f.kind.Kind() != reflect.Bool || f.of(q.With).Bool() {
		return
	}
	if turned := q.with(f, reflect.ValueOf(true).Convert(f.kind)); turned.passes() || turned.err != nil || len(turned.checks()) == 0 {
		return
	}
	if !q.excepted(q.Unset, f.key) {
		t.Errorf("%s: false passes and true does not: a forgotten field would be the lenient side", f.key)
	}
}

// nonsense puts into each field what nobody means.
func (q *inquiry) nonsense(t testing.TB) {
	t.Helper()
	for _, f := range q.fields {
		if !q.bears(f) {
			continue
		}
		for _, p := range probes(f) {
			got := q.with(f, p.value)
			switch {
			case got.fault != "":
				t.Errorf("%s = %s: %s", f.key, p.text, got.fault)
			case got.err == nil:
				got.guard(t, f.key+" = "+p.text)
				if p.absurd && q.believed(got) && !q.excepted(q.Any, f.key) {
					t.Errorf("%s = %s is answered; want an error that names it, or a reason in Any", f.key, p.text)
				}
			case p.absurd && !f.named(got.err) && !q.excepted(q.Any, f.key):
				t.Errorf("%s = %s: the error does not name it: %v", f.key, p.text, got.err)
			}
		}
	}
}

// believed reports an answer that takes the input for good.
func (q *inquiry) believed(got outcome) bool {
	return len(got.checks()) == 0 || got.passes()
}

// excepted reports whether the key or one that it stands under is in the list.
func (q *inquiry) excepted(list Keys, key string) bool {
	for {
		if reason, ok := list[key]; ok && reason != "" {
			q.used[key] = true
			return true
		}
		i := strings.LastIndex(key, ".")
		if i < 0 {
			return false
		}
		key = key[:i]
	}
}

// exceptions that no law needed are stale.
func (q *inquiry) exceptions(t testing.TB) {
	t.Helper()
	for _, list := range []Keys{q.Unset, q.Any} {
		for key := range list {
			if !q.used[key] {
				t.Errorf("the exception for %s is not needed", key)
			}
		}
	}
}

// bears reports whether the field changes the answer at all.
func (q *inquiry) bears(f field) bool {
	if f.kind.Kind() == reflect.Bool {
		return true
	}
	usual := q.usual.text()
	tries := append(probes(f), probe{value: reflect.Zero(f.kind)})
	return slices.ContainsFunc(tries, func(p probe) bool {
		got := q.with(f, p.value)
		return got.err != nil || got.fault != "" || got.text() != usual
	})
}

// with calls with one field changed.
func (q *inquiry) with(f field, v reflect.Value) outcome {
	args := clones(q.With)
	f.set(args, v)
	return q.call(args)
}

// patience is how long an answer may take before it counts as hanging: far more
// than any needs, so that a busy machine fails nothing.
const patience = 20 * time.Second

// call asks, and survives a panic.
func (q *inquiry) call(args []any) outcome {
	done := make(chan outcome, 1)
	go func() {
		defer func() {
			if r := recover(); r != nil {
				done <- outcome{fault: fmt.Sprintf("panics: %v", r)}
			}
		}()
		in := make([]reflect.Value, len(args))
		for i, a := range args {
			in[i] = reflect.ValueOf(a)
		}
		done <- result(reflect.ValueOf(q.Ask), in)
	}()
	select {
	case o := <-done:
		return o
	case <-time.After(patience):
		return outcome{fault: "hangs"}
	}
}

func result(ask reflect.Value, in []reflect.Value) outcome {
	out := ask.Call
	if ask.Type().IsVariadic() {
		out = ask.CallSlice
	}
	var o outcome
	for _, v := range out(in) {
		if err, ok := v.Interface().(error); ok {
			o.err = err
		} else if v.Type() != reflect.TypeFor[error]() {
			o.answers = append(o.answers, v)
		}
	}
	return o
}

// text is the whole outcome in words, to tell two apart.
func (o outcome) text() string {
	var b strings.Builder
	for _, a := range o.answers {
		text, err := json.Marshal(a.Interface())
		fmt.Fprintln(&b, string(text), err)
	}
	return b.String()
}

// checks returns every check in the answers.
func (o outcome) checks() (all []working.Check) {
	for _, a := range o.answers {
		walk(a, func(v reflect.Value) {
			if c, ok := v.Interface().(working.Check); ok {
				all = append(all, c)
			}
		})
	}
	return all
}

// passes reports checks of which every one that applies passes.
func (o outcome) passes() bool {
	some := false
	for _, c := range o.checks() {
		switch c.Verdict() {
		case working.Passes:
			some = true
		case working.NotApplicable:
		default:
			return false
		}
	}
	return some
}

// guard holds every working in the answers to the drift guard.
func (o outcome) guard(t testing.TB, about string) {
	t.Helper()
	said := &once{TB: t, about: about}
	for _, a := range o.answers {
		walk(a, func(v reflect.Value) {
			if w, ok := v.Interface().(working.Working); ok && len(w) > 0 && !said.failed {
				Guard(said, w)
			}
		})
	}
}

// once passes on the first fault of a guard, and says what it is about.
type once struct {
	testing.TB
	about  string
	failed bool
}

// Helper does nothing: the fault is told where the law stands.
func (o *once) Helper() {}

// Error is Errorf without a format.
func (o *once) Error(args ...any) { o.Errorf("%s", fmt.Sprint(args...)) }

// Errorf fails the test the first time, with what it is about.
func (o *once) Errorf(format string, args ...any) {
	o.TB.Helper()
	if !o.failed {
		o.TB.Errorf("%s: working: %s", o.about, fmt.Sprintf(format, args...))
	}
	o.failed = true
}

// walk visits a value and what it holds in exported fields.
func walk(v reflect.Value, visit func(reflect.Value)) {
	if !v.IsValid() || !v.CanInterface() {
		return
	}
	visit(v)
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				walk(v.Field(i), visit)
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			walk(v.Index(i), visit)
		}
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			walk(v.Elem(), visit)
		}
	}
}

// roundTrip writes a value and its zero value as JSON and reads them back.
func roundTrip(t testing.TB, v reflect.Value) {
	t.Helper()
	if v.Type().PkgPath() == "" && v.Kind() != reflect.Slice {
		return // a number, a word, a bool
	}
	for _, one := range []reflect.Value{v, reflect.Zero(v.Type())} {
		text, err := json.Marshal(one.Interface())
		if err != nil {
			t.Errorf("%s does not go out to JSON: %v", v.Type(), err)
			return
		}
		for _, fault := range untagged(v.Type(), text) {
			t.Errorf("%s: %s", v.Type(), fault)
		}
		back := reflect.New(v.Type())
		if err := json.Unmarshal(text, back.Interface()); err != nil {
			t.Errorf("%s does not come back from JSON: %v", v.Type(), err)
			return
		}
		again, _ := json.Marshal(back.Elem().Interface())
		if diff := cmp.Diff(one.Interface(), back.Elem().Interface(), cmpopts.EquateEmpty(), exportedOnly); diff != "" || string(again) != string(text) {
			t.Errorf("%s comes back from JSON changed: %s", v.Type(), diff)
			return
		}
	}
}

// exportedOnly leaves out what a handle remembers: its doc comment says that it
// does not come back.
var exportedOnly = cmp.FilterPath(func(p cmp.Path) bool {
	f, ok := p.Last().(cmp.StructField)
	return ok && strings.ToLower(f.Name()[:1]) == f.Name()[:1]
}, cmp.Ignore())

// untagged finds exported fields without a key, and lists written as null.
func untagged(kind reflect.Type, text []byte) (faults []string) {
	if kind.Kind() == reflect.Slice || kind.Kind() == reflect.Array {
		var elements []json.RawMessage
		if json.Unmarshal(text, &elements) != nil || len(elements) == 0 {
			return nil
		}
		return untagged(kind.Elem(), elements[0])
	}
	if kind.Kind() != reflect.Struct || kind == exactly || kind == optional {
		return nil
	}
	var keys map[string]json.RawMessage
	if json.Unmarshal(text, &keys) != nil {
		return nil // it has a text of its own
	}
	for i := range kind.NumField() {
		f := kind.Field(i)
		key, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		switch {
		case !f.IsExported() || f.Anonymous:
		case key == "" || key == "-":
			faults = append(faults, "field "+f.Name+" has no key in JSON")
		case f.Type.Kind() == reflect.Slice && string(keys[key]) == "null":
			faults = append(faults, "the list "+key+" is null; want [], or omitempty where nothing was stated")
		default:
			faults = append(faults, untagged(f.Type, keys[key])...)
		}
	}
	return faults
}
