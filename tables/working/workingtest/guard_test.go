package workingtest

import (
	"slices"
	"testing"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
)

// faults counts the errors that a guard reports.
type faults struct {
	testing.TB
	n int
}

func (f *faults) Helper()               {}
func (f *faults) Error(...any)          { f.n++ }
func (f *faults) Errorf(string, ...any) { f.n++ }

func d(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// TestGuardCatches changes one thing at a time in a working that holds.
func TestGuardCatches(t *testing.T) {
	law := cite.OhmsLaw.At("", cite.Published)
	good := func() working.Working {
		var w working.Working
		w.Given("I", d("18"))
		w.LookUp("R_20", working.Figure{Value: d("3.3"), Source: cite.IEC60228.At("table 3", cite.Published)})
		w.Given("L", d("7"))
		w.Calc("R", "2 × L × R_20", d("46.2"), law)
		w.Calc("ΔU", "I × R ÷ 1000", d("0.8316"), law)
		w.Choose("I_n", "I ≤ I_n", d("20"), law)
		w.Solve("I_b", "I_n ÷ 3", d("6.667"), d("0.001"), law)
		return slices.Clip(w)
	}
	for _, c := range []struct {
		name  string
		spoil func(w working.Working) working.Working
		want  int
	}{
		{"nothing", func(w working.Working) working.Working { return w }, 0},
		{"value", func(w working.Working) working.Working { w[4].Value = d("0.8317"); return w }, 1},
		{"rounded value", func(w working.Working) working.Working { w[4].Value = d("0.83"); return w }, 0},
		{"wrongly rounded", func(w working.Working) working.Working { w[4].Value = d("0.84"); return w }, 1},
		{"formula", func(w working.Working) working.Working { w[3].Formula = "L × R_20"; return w }, 1},
		{"unknown symbol", func(w working.Working) working.Working { w[3].Formula = "2 × L × R_x"; return w }, 1},
		{"no formula", func(w working.Working) working.Working { w[3].Formula = ""; return w }, 1},
		{"unit", func(w working.Working) working.Working { w[3].Unit = "Ω"; return w }, 1},
		{"symbol", func(w working.Working) working.Working { w[2].Symbol = "Q"; return w }, 2},
		{"no source", func(w working.Working) working.Working { w[1].Source = cite.Source{}; return w }, 1},
		{"condition", func(w working.Working) working.Working { w[5].Value = d("17"); return w }, 2},
		{"tolerance", func(w working.Working) working.Working { w[6].Within = d("0.0001"); return w }, 1},
		{"no tolerance", func(w working.Working) working.Working { w[6].Within = d("0"); return w }, 1},
		{"stepped", func(w working.Working) working.Working {
			w[6].Kind, w[6].Formula = working.Stepped, ""
			return w
		}, 1},
		{"not clipped", func(w working.Working) working.Working { return append(w, w[0])[: len(w) : len(w)+1] }, 1},
		{"empty", func(working.Working) working.Working { return nil }, 1},
		{"heading last", func(w working.Working) working.Working { w.Part("more"); return slices.Clip(w) }, 1},
	} {
		f := &faults{}
		Guard(f, c.spoil(good()))
		assert.Equal(t, c.want, f.n, c.name)
	}
}

func TestPageCatchesMisprints(t *testing.T) {
	page := `
  I = 18 A                               current (given)
  ΔU = I × R ÷ 1000                      voltage drop [Ohm's law]
     = 18 × 42.9 ÷ 1000                  and what more there is to say
     = 0.7722 V
  R = 2 ÷ 3
    ≈ 0.66667
  I_co.1 = I_l.1                         current together
         = 4.3                           (1) [arithmetic]
         = 4.3 A
`
	f := &faults{}
	Page(f, "good", page)
	assert.Zero(t, f.n)
	for _, wrong := range []string{"0.7725", "0.773", "0.78", "0.7"} {
		assert.NotEmpty(t, misprint("18 × 42.9 ÷ 1000", wrong), wrong)
	}
	assert.NotEmpty(t, misprint("2 ÷ 3", "0.665"))
	assert.Empty(t, misprint("1234.5 − 1234", "0.5"), "the numbers shown may have been rounded")
}
