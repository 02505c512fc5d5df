package workingtest

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestLimitsWantWords: the limits of an error have to stand in the text, each as a
// number of its own.
func TestLimitsWantWords(t *testing.T) {
	text := thousands.ReplaceAllString("Current above 0 to 10 000 A, ambient -40 to 120 °C, 1 to 24. Not 0.5 nor 3.75.", "$1$2")
	for want, missing := range map[string]string{
		"above 0 and at most 10000": "",
		"above 0 and at most 10001": "10001",
		"above 0 and at most 1000":  "1000",
		"-40 to 120":                "",
		"-41 to 120":                "-41",
		"1 to 24":                   "",
		"1 to 75":                   "75",
		"5 to 24":                   "5",
		"0 to 2000000":              "", // holds back what nobody means
		"9 to 4":                    "", // the low one is another input, absurd itself
		"one of copper, aluminium":  "",
	} {
		got, _ := undocumented(want, text)
		assert.Equal(t, missing, got, want)
	}
}

// TestLimitThatIsAnInput is no number for a comment to say.
func TestLimitThatIsAnInput(t *testing.T) {
	args := []any{struct {
		Circuits   int `json:"circuits"`
		Conductors int `json:"conductors"`
	}{3, 6}}
	q := inquiry{Question: Question{With: args}, fields: fieldsOf(args, []string{"bundle"})}
	assert.True(t, q.has("3"))
	assert.False(t, q.has("4"))
}
