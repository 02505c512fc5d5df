package job

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables/working"
)

// Fault is one thing wrong with a job file, and where it stands.
type Fault struct {
	File   string
	Line   int    // from 1; 0 where the file could not be read at all
	Column int    // from 1, in characters
	Key    string // path of the key as typed: "circuits[2].length_ft"
	Text   string // the value as typed
	Got    string // what stands there where no text does: "missing", "a list"
	Want   string
}

// Error returns one line: file:line:column: key is "text": want ...
func (f *Fault) Error() string {
	return fmt.Sprintf("%s: %s is %s: want %s", f.place(), f.Key, f.found(), f.Want)
}

// found says what stands there.
func (f *Fault) found() string {
	switch {
	case f.Got != "":
		return f.Got
	case f.Text == "":
		return "empty"
	default:
		return fmt.Sprintf("%q", clip(f.Text))
	}
}

func (f *Fault) place() string {
	if f.Line == 0 {
		return f.File
	}
	return fmt.Sprintf("%s:%d:%d", f.File, f.Line, f.Column)
}

// clip keeps a message to one readable line.
func clip(text string) string {
	const most = 60
	if r := []rune(text); len(r) > most {
		return string(r[:most]) + "..."
	}
	return text
}

// join returns the faults in the order of the file, and other errors behind
// them, as one error.
func join(faults []*Fault, others ...error) error {
	slices.SortStableFunc(faults, func(a, b *Fault) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	all := make([]error, 0, len(faults)+len(others))
	for _, f := range faults {
		all = append(all, f)
	}
	return errors.Join(append(all, others...)...)
}

// Place turns each [working.InputError] inside err into a [Fault] at the key
// that it speaks of, with the text as typed. A field that does not stand in the
// file is placed at the nearest thing round it that does. Any other error gets
// the name of the file in front and comes after the faults. Nil stays nil.
func (s *Survey) Place(err error) error {
	faults, others := s.sortOut(err)
	return join(faults, others...)
}

// sortOut parts the input errors of a tree of errors from all others.
func (s *Survey) sortOut(err error) (faults []*Fault, others []error) {
	switch e := err.(type) {
	case nil:
	case *Fault:
		faults = []*Fault{e}
	case *working.InputError:
		faults = []*Fault{s.faultOf(e)}
	case interface{ Unwrap() []error }:
		for _, one := range e.Unwrap() {
			more, rest := s.sortOut(one)
			faults, others = append(faults, more...), append(others, rest...)
		}
	case interface{ Unwrap() error }:
		if faults, others = s.sortOut(e.Unwrap()); len(faults) == 0 {
			others = []error{fmt.Errorf("%s: %w", s.name, err)}
		}
	default:
		others = []error{fmt.Errorf("%s: %w", s.name, err)}
	}
	return faults, others
}

// faultOf places one input error. Where the key was typed in US units the
// value that the error speaks of is shown beside the text.
func (s *Survey) faultOf(e *working.InputError) *Fault {
	at, ok := s.at[e.Field]
	if !ok || at.Text == "" {
		around := s.around(e.Field)
		return &Fault{File: s.name, Line: around.Line, Column: around.Column, Key: e.Field, Got: e.Got, Want: e.Want}
	}
	want := e.Want
	if at.Key != e.Field {
		want = fmt.Sprintf("%s (as %s it is %s)", want, lastKey(e.Field), e.Got)
	}
	return &Fault{File: s.name, Line: at.Line, Column: at.Column, Key: at.Key, Text: at.Text, Want: want}
}

// around returns the place of a path, or of the nearest one that holds it.
func (s *Survey) around(path string) At {
	for path != "" {
		if at, ok := s.at[path]; ok {
			return at
		}
		path = path[:max(0, strings.LastIndexAny(path, ".["))]
	}
	return s.at[""]
}

// lastKey returns the last key of a path.
func lastKey(path string) string {
	return path[strings.LastIndexByte(path, '.')+1:]
}
