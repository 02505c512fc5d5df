// Package cite names the documents that figures and laws come from, and says
// how sure we are of our copy of each.
//
// A [Document] is a standard, regulation, manual or textbook. A [Source] is a
// place in one, with the confidence of our copy: a figure recalled from a
// published standard is "from memory" until someone has read it there.
// Confidence is about our copy, never about the document.
package cite

import (
	"fmt"
	"slices"
	"sync"
)

// Confidence says how sure we are of our copy of a figure. The constants from
// FromMemory to Published stand in rising order; a chain of figures is as sure
// as its weakest one (see [Weakest]).
type Confidence uint8

const (
	// Unstated: no source was used. It is not "weakest".
	Unstated Confidence = iota
	// FromMemory: recalled, not seen; confirm it before you rely on it.
	FromMemory
	// CommonPractice: a fact of the trade without a published source.
	CommonPractice
	// SecondHand: read in somebody else's quotation of the document.
	SecondHand
	// Published: read in the document, or in two texts that agree.
	Published
	// Given: a figure of the article's own data sheet or rating plate, as the
	// reader states it. It stands beside the scale: we have not checked it.
	Given
)

var confidenceWords = [...]string{
	Unstated:       "no source",
	FromMemory:     "from memory",
	CommonPractice: "common practice",
	SecondHand:     "second hand",
	Published:      "published",
	Given:          "as given",
}

// String returns the word that is printed and stored: "from memory".
func (c Confidence) String() string {
	if int(c) < len(confidenceWords) {
		return confidenceWords[c]
	}
	return fmt.Sprintf("confidence %d", uint8(c))
}

// MarshalText makes JSON show the word of [Confidence.String].
func (c Confidence) MarshalText() ([]byte, error) { return []byte(c.String()), nil }

// UnmarshalText reads the word of [Confidence.String] back.
func (c *Confidence) UnmarshalText(text []byte) (err error) {
	*c, err = ParseConfidence(string(text))
	return err
}

// ParseConfidence reads the word of [Confidence.String] back.
func ParseConfidence(word string) (Confidence, error) {
	if i := slices.Index(confidenceWords[:], word); i >= 0 {
		return Confidence(i), nil
	}
	return Unstated, fmt.Errorf("confidence is %q: want one of %q", word, confidenceWords)
}

// Weakest returns the weakest of the confidences stated, and Unstated if none is.
func Weakest(all ...Confidence) Confidence {
	weakest := Unstated
	for _, c := range all {
		if c != Unstated && (weakest == Unstated || c < weakest) {
			weakest = c
		}
	}
	return weakest
}

// Document is a published text. Its Key is the short name by which the trade
// cites it, edition included where figures depend on it: "BS 7671:2008".
type Document struct {
	Key   string
	Title string
	Year  int // of the edition that we cite; 0 where it is not tied to one
}

// At returns the place in the document that a figure or law was taken from.
func (d Document) At(where string, c Confidence) Source {
	return Source{Key: d.Key, Where: where, Confidence: c}
}

// Source is a place in a document with the confidence of our copy of it. The
// zero Source means that there is none.
type Source struct {
	Key        string     `json:"document"`
	Where      string     `json:"where,omitempty"`
	Confidence Confidence `json:"confidence"`
}

// Document returns the source without its place: the document as a whole.
func (s Source) Document() Source { return Source{Key: s.Key, Confidence: s.Confidence} }

// String returns the citation as it is printed behind a figure. What is not
// published says so: "ISO 8820-3, table 4; from memory".
func (s Source) String() string {
	text := s.Key
	if s.Where != "" {
		text += ", " + s.Where
	}
	if s.Confidence != Published && s.Confidence != Given && s.Key != "" && s.Key != s.Confidence.String() {
		text += "; " + s.Confidence.String()
	}
	return text
}

// Find returns the document with that key.
func Find(key string) (Document, bool) {
	d, ok := byKey()[key]
	return d, ok
}

var byKey = sync.OnceValue(func() map[string]Document {
	all := make(map[string]Document, len(documents))
	for _, d := range documents {
		all[d.Key] = d
	}
	return all
})

// Documents returns every document cited, in the order of documents.go.
func Documents() []Document { return slices.Clone(documents) }
