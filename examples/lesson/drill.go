package main

import (
	"math/rand/v2"
	"regexp"
	"slices"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// question is one question with its answer and the usual mistake.
type question struct {
	subject string
	asks    string
	name    string // of what is asked for
	unit    string
	answer  decimal.Decimal
	lines   working.Working // that lead to the answer
	mistake string
	wrong   decimal.Decimal // where the mistake leads
	harm    string          // what that does
}

// drill asks the ten questions with the numbers of one seed.
func drill(seed uint64) ([]question, error) {
	r := dice{rand.New(rand.NewPCG(seed, 12))}
	var all []question
	for _, ask := range []func(dice) (question, error){
		dropOfLoop, dropHot, ampacityGrouped, ampacityAtTerminals, fuseForLoad, fuseForCable,
		refillWithLoads, refillByFactor, faultOfBank, inverterAtCutOut,
	} {
		q, err := ask(r)
		if err != nil {
			return nil, err
		}
		all = append(all, q)
	}
	return all, nil
}

// dice draw the numbers.
type dice struct{ *rand.Rand }

// word draws one of several words.
func (r dice) word(words ...string) string { return words[r.IntN(len(words))] }

// number draws one of several numbers.
func (r dice) number(numbers ...string) decimal.Decimal {
	return decimal.RequireFromString(r.word(numbers...))
}

// between draws a number of so many places: 35 to 60 with one place is 3.5 to 6.
func (r dice) between(low, high int64, places int32) decimal.Decimal {
	return decimal.New(low+r.Int64N(high-low+1), -places)
}

var symbol = regexp.MustCompile(`[\p{L}\p{N}_.]+`)

// leading keeps the lines of a working that lead to one of its results.
func leading(w working.Working, result string) working.Working {
	wanted := map[string]bool{result: true}
	var lines working.Working
	for _, s := range slices.Backward(w) {
		if !wanted[s.Symbol] {
			continue
		}
		delete(wanted, s.Symbol)
		for _, other := range symbol.FindAllString(s.Formula, -1) {
			wanted[other] = true
		}
		lines = append(lines, s)
	}
	slices.Reverse(lines)
	return slices.Clip(lines)
}

func show(v decimal.Decimal) string {
	text, _ := working.Show(v)
	return text
}
