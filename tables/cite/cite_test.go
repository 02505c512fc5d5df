package cite_test

import (
	"encoding/json"
	"fmt"
	"regexp"
	"testing"

	"example.org/extralow/tables/cite"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func ExampleDocument_At() {
	read := cite.IEC60228.At("table 3", cite.Published)
	recalled := cite.IEC60228.At("annex", cite.FromMemory)
	fmt.Println(read)
	fmt.Println(recalled)
	// Output:
	// IEC 60228:2004, table 3
	// IEC 60228:2004, annex; from memory
}

// A chain of figures is as sure as its weakest; one without a source does not
// weaken it.
func ExampleWeakest() {
	fmt.Println(cite.Weakest(cite.Published, cite.SecondHand, cite.Unstated))
	fmt.Println(cite.Weakest())
	// Output:
	// second hand
	// no source
}

func ExampleFind() {
	d, ok := cite.Find("33 CFR 183")
	fmt.Println(d.Title, ok)
	// Output:
	// Boats and associated equipment, subpart I: electrical systems true
}

func ExampleParseConfidence() {
	c, err := cite.ParseConfidence("common practice")
	fmt.Println(c, err)
	// Output:
	// common practice <nil>
}

func ExampleConfidence_String() {
	fmt.Println(cite.FromMemory)
	// Output:
	// from memory
}

func ExampleSource_Document() {
	s := cite.BS7671.At("appendix 4, table 4D1A", cite.Published)
	fmt.Println(s.Document())
	// Output:
	// BS 7671:2008
}

func ExampleSource_String() {
	fmt.Println(cite.Practice.At("terminals", cite.CommonPractice))
	// Output:
	// common practice, terminals
}

func ExampleDocuments() {
	fmt.Println(cite.Documents()[0].Key)
	// Output:
	// Ohm's law
}

func ExampleConfidence_MarshalText() {
	text, err := json.Marshal(cite.AC4313.At("11-66d", cite.Published))
	fmt.Println(string(text), err)
	// Output:
	// {"document":"FAA AC 43.13-1B","where":"11-66d","confidence":"published"} <nil>
}

func TestScaleRises(t *testing.T) {
	scale := []cite.Confidence{cite.FromMemory, cite.CommonPractice, cite.SecondHand, cite.Published, cite.Given}
	for i, lower := range scale {
		for _, higher := range scale[i:] {
			assert.Equal(t, lower, cite.Weakest(higher, lower))
		}
		back, err := cite.ParseConfidence(lower.String())
		require.NoError(t, err)
		assert.Equal(t, lower, back)
	}
	_, err := cite.ParseConfidence("sure")
	assert.Error(t, err)
	assert.Equal(t, "confidence 99", cite.Confidence(99).String())
}

// A document is no article of a web handbook, known by its site's code alone.
func TestNoDocumentIsAnArticleCode(t *testing.T) {
	code := regexp.MustCompile(`^[A-Z]{2}-\d{3,4}[a-z]?$`)
	for _, d := range cite.Documents() {
		assert.NotRegexp(t, code, d.Key)
	}
}

func TestDocumentsAreNamedOnce(t *testing.T) {
	seen := map[string]bool{}
	for _, d := range cite.Documents() {
		assert.False(t, seen[d.Key], d.Key)
		assert.NotEmpty(t, d.Title, d.Key)
		seen[d.Key] = true
	}
	_, ok := cite.Find("no such document")
	assert.False(t, ok)
}

// TestConfidenceComesBack reads what JSON writes.
func TestConfidenceComesBack(t *testing.T) {
	for c := cite.Unstated; c <= cite.Given; c++ {
		text, err := json.Marshal(cite.Source{Key: "X", Confidence: c})
		require.NoError(t, err)
		var back cite.Source
		require.NoError(t, json.Unmarshal(text, &back))
		assert.Equal(t, c, back.Confidence)
	}
	var back cite.Confidence
	assert.Error(t, back.UnmarshalText([]byte("sure")))
}
