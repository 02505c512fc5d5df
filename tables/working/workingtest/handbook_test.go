package workingtest

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// reader stands in for a test and keeps what it is failed with.
type reader struct {
	testing.TB
	said string
}

func (r *reader) Helper()                           {}
func (r *reader) Name() string                      { return "" }
func (r *reader) Errorf(format string, args ...any) { r.said += fmt.Sprintf(format, args...) }
func (r *reader) FailNow()                          { panic(r) }

// refusal returns what the reader of the handbook says against a row, or "".
func refusal(cells string) (said string) {
	r := &reader{}
	defer func() {
		if recover() != nil {
			said = r.said
		}
	}()
	readRow(r, strings.Split(cells, ","))
	return r.said
}

// TestHandbookRefusesRows: a tolerance is half the last digit unless the row says
// why, and what nobody has read is no check from outside.
func TestHandbookRefusesRows(t *testing.T) {
	const from = "A1,Run.Drop,a book,page 1,I=1 A,U=12.3 V,"
	for cells, want := range map[string]string{
		"0.05,,read,yes,,":                          "",
		"exact,,cross-checked,yes,,":                "",
		"0.05,,read,no: the answer was not seen,,":  "",
		"0.06,the book cuts 12.35,read,yes,,":       "",
		"0.06,,read,yes,,":                          "wider than half",
		"1 %,,read,yes,,a note is no reason":        "wider than half",
		"0.05,the book cuts it,read,yes,,":          "wider than half",
		"0.05,,memory,no: from memory,,":            "",
		"0.05,,memory,yes,,":                        "counts, and is memory",
		"0.05,,computed,yes,,":                      "counts, and is computed",
		"0.05,,common practice,yes,,":               "counts, and is common practice",
		"0.05,,read,,,":                             "want yes, or no",
		"0.05,,read,no: it is a duplicate,,":        "want yes, or no",
		"0.05,,read,no: the answer was not seen;,,": "want yes, or no",
		"a bit,,read,yes,,":                         "tolerance",
		"0.05,,seen somewhere,yes,,":                "A1",
	} {
		if got := refusal(from + cells); want == "" {
			assert.Empty(t, got, cells)
		} else {
			assert.Contains(t, got, want, cells)
		}
	}
}
