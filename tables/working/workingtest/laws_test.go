package workingtest

import (
	"testing"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
)

// demand is an input of the functions that the laws are tried on.
type demand struct {
	LoadA  decimal.Decimal     `json:"load_a"`
	LimitA decimal.NullDecimal `json:"limit_a"`
	Kind   string              `json:"kind"`
	Light  bool                `json:"light"`
	Label  string              `json:"label"`
	Shares []decimal.Decimal   `json:"shares,omitempty"`
}

func good() demand {
	return demand{LoadA: d("5"), LimitA: decimal.NewNullDecimal(d("9")), Kind: "cable", Light: true}
}

func (x demand) check() error {
	if err := working.Above("load_a", x.LoadA, 0, 100); err != nil {
		return err
	}
	if !x.LimitA.Valid {
		return &working.InputError{Field: "limit_a", Got: "unset", Want: "a limit"}
	}
	if err := working.Between("limit_a", x.LimitA.Decimal, 0, 100); err != nil {
		return err
	}
	return working.OneOf("kind", x.Kind, "cable", "busbar")
}

func (x demand) judge() working.Check {
	var w working.Working
	w.Given("I", x.LoadA)
	if !x.Light {
		w.Calc("I", "2 × I", x.LoadA.Mul(d("2")), cite.Arithmetic.At("", cite.Published))
	}
	w.Given("I_z", x.LimitA.Decimal)
	return w.Check("W01", "Ampacity", "I", "I_z")
}

func clipped(c working.Check) working.Check {
	c.Working = c.Working[:len(c.Working):len(c.Working)]
	return c
}

// TestLawsCatch breaks one law at a time.
func TestLawsCatch(t *testing.T) {
	refusing := func(x demand) (working.Check, error) { return clipped(x.judge()), x.check() }
	for _, c := range []struct {
		name string
		ask  any
		with demand
		want int // faults at least; 0: none
	}{
		{"nothing wrong", refusing, good(), 0},
		{"nothing is checked", func(x demand) (working.Check, error) { return clipped(x.judge()), nil }, good(), 3},
		{"it panics on nought", func(x demand) (working.Check, error) {
			if err := x.check(); err != nil {
				return working.Check{}, err
			}
			d("1").Div(x.LimitA.Decimal)
			return clipped(x.judge()), nil
		}, good(), 1},
		{"the sensible input is refused", refusing, demand{}, 1},
		{"the sensible input does not pass", refusing, demand{LoadA: d("8"), LimitA: decimal.NewNullDecimal(d("7")), Kind: "cable", Light: true}, 1},
		{"the error names another field", func(x demand) (working.Check, error) {
			return clipped(x.judge()), working.In("other", map[bool]error{true: &working.InputError{Field: "x", Got: "y", Want: "z"}}[x.check() != nil])
		}, good(), 3},
		{"false is the lenient side", func(x demand) (working.Check, error) {
			x.Light = !x.Light
			x.LoadA = x.LoadA.Add(d("1"))
			return clipped(x.judge()), x.check()
		}, demand{LoadA: d("5"), LimitA: decimal.NewNullDecimal(d("9")), Kind: "cable"}, 1},
		{"the working drifts", func(x demand) (working.Check, error) {
			var w working.Working
			w.Given("I", x.LoadA)
			w.Calc("I_z", "2 × I", x.LoadA.Mul(d("3")), cite.Arithmetic.At("", cite.Published))
			return clipped(w.Check("W01", "", "I", "I_z")), x.check()
		}, good(), 1},
	} {
		f := &faults{TB: t}
		q := inquiry{Question: Question{Ask: c.ask, With: []any{c.with}}, name: c.name}
		q.put(f, []string{"x"})
		if c.want == 0 {
			assert.Zero(t, f.n, c.name)
		} else {
			assert.GreaterOrEqual(t, f.n, c.want, c.name)
		}
	}
}

// TestExceptionsAreNeeded: one that is not is stale.
func TestExceptionsAreNeeded(t *testing.T) {
	for key, want := range map[string]int{"load_a": 1, "label": 1} {
		f := &faults{TB: t}
		q := inquiry{Question: Question{
			Ask:  func(x demand) (working.Check, error) { return clipped(x.judge()), x.check() },
			With: []any{good()}, Unset: Keys{key: "a reason"},
		}}
		q.put(f, []string{"x"})
		assert.Equal(t, want, f.n, key)
	}
}

type silent struct {
	Lines []string `json:"lines"`
	From  string   `json:"-"`
}

// TestRoundTripCatches finds what would be lost on the way.
func TestRoundTripCatches(t *testing.T) {
	f := &faults{TB: t}
	q := inquiry{Question: Question{Ask: func(a int) silent { return silent{} }, With: []any{1}, Unset: Keys{"a": "free"}, Any: Keys{"a": "free"}}}
	q.put(f, []string{"a"})
	assert.GreaterOrEqual(t, f.n, 2) // null, and no key
}

func TestSnake(t *testing.T) {
	for name, want := range map[string]string{"currentA": "current_a", "lengthMM": "length_mm", "LoadWh": "load_wh", "areaMM2": "area_mm2"} {
		assert.Equal(t, want, snake(name))
	}
}
