package workingtest

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestEvaluate(t *testing.T) {
	symbols := map[string]*big.Rat{"I": big.NewRat(18, 1), "R_20": big.NewRat(33, 10), "ΔU": big.NewRat(1, 2)}
	for _, c := range []struct {
		formula string
		want    float64
		exact   bool
	}{
		{"2 + 3 × 4", 14, true},
		{"(2 + 3) × 4", 20, true},
		{"12 − 2 − 3", 7, true},
		{"8 ÷ 4 ÷ 2", 1, true},
		{"I × R_20 ÷ 1000", 0.0594, true},
		{"-ΔU + 1", 0.5, true},
		{"2 ^ 3 ^ 0.5", 3.3219970854839, false},
		{"sqrt(2)", 1.4142135623731, false},
		{"ln(exp(2))", 2, false},
		{"acos(0) × 2 − pi", 0, false},
		{"max(1, 3, 2)", 3, true},
		{"min(I, R_20)", 3.3, true},
		{"ceil(2.1) + floor(2.9)", 5, true},
		{"floor(-2.5) + ceil(-2.5)", -5, true},
	} {
		got, holds, err := evaluate(c.formula, symbols)
		require.NoError(t, err, c.formula)
		assert.True(t, holds)
		assert.InDelta(t, c.want, got.real, 1e-12, c.formula)
		assert.Equal(t, c.exact, got.exact != nil, c.formula)
	}
}

func TestEvaluateConditions(t *testing.T) {
	for formula, want := range map[string]bool{
		"1 ≤ 2 ≤ 2": true, "1 < 1": false, "3 ≥ 2 > 2": false, "0.1 + 0.2 = 0.3": true, "sqrt(2) ^ 2 ≤ 2": true,
	} {
		_, holds, err := evaluate(formula, nil)
		require.NoError(t, err, formula)
		assert.Equal(t, want, holds, formula)
	}
}

func TestEvaluateRefuses(t *testing.T) {
	for _, formula := range []string{"", "2 ×", "(2", "2 3", "U × 2", "nosuch(2)", "1 ÷ 0", "min", "2 % 3"} {
		_, _, err := evaluate(formula, nil)
		assert.Error(t, err, formula)
	}
}
