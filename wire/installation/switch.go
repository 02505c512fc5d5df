package installation

import (
	"slices"

	"example.org/extralow/tables/working"
)

// Switch says how the switch of a circuit stands. Those of circuits between the
// same two nodes open and close together.
type Switch uint8

const (
	AlwaysClosed  Switch = iota // none, or one that parts nothing of interest
	UsuallyClosed               // an isolator, a selector, a relay between banks
	UsuallyOpen                 // a link that is closed in need alone
)

var switchWords = []string{"always closed", "usually closed", "usually open"}

// String returns the words: "usually open".
func (s Switch) String() string { return word(s, switchWords) }

// MarshalText makes JSON show the words of [Switch.String].
func (s Switch) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// UnmarshalText reads the words of [Switch.String] back.
func (s *Switch) UnmarshalText(text []byte) error { return parse(s, "switch", text, switchWords) }

// word is the one that stands for a number.
func word[T ~uint8](of T, words []string) string { return words[min(int(of), len(words)-1)] }

// parse reads back one of the words that stand for 0, 1, 2 and so on.
func parse[T ~uint8](v *T, field string, text []byte, words []string) error {
	if err := working.OneOf(field, string(text), words...); err != nil {
		return err
	}
	*v = T(slices.Index(words, string(text)))
	return nil
}
