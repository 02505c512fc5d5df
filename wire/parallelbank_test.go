package wire_test

import (
	"errors"
	"fmt"
	"testing"

	"example.org/extralow/tables/working/workingtest"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// inARow is a bank of equal batteries of 1 mΩ and equal links.
func inARow(batteries int, linkMilliohm string) wire.ParallelBank {
	r := wire.ParallelBank{EMFV: d("12.8"), CurrentA: d("100")}
	for i := range batteries {
		r.BatteryMilliohm = append(r.BatteryMilliohm, d("1"))
		if i > 0 {
			r.PlusMilliohm = append(r.PlusMilliohm, d(linkMilliohm))
			r.MinusMilliohm = append(r.MinusMilliohm, d(linkMilliohm))
		}
	}
	return r
}

// TestRowShares: common practice, worked by hand as in [TestBankShares].
func TestRowShares(t *testing.T) {
	for _, c := range []struct {
		link        string
		plus, minus int
		share       []string
	}{
		{"1", 1, 4, []string{"37.5", "12.5", "12.5", "37.5"}},
		{"1", 1, 1, []string{"73", "20", "5", "2"}},
		{"0.1", 1, 4, []string{"27", "23", "23", "27"}},
	} {
		got, err := inARow(4, c.link).TakeOff(c.plus, c.minus)
		require.NoError(t, err)
		workingtest.Guard(t, got.Working)
		for i, want := range c.share {
			near(t, want, got.ShareA[i], c.link, c.plus, c.minus, i+1)
		}
	}
	got, err := inARow(2, "1").TakeOff(1, 1)
	require.NoError(t, err)
	near(t, "75.0", got.GreatestA, "two batteries in the ratio 3 mΩ to 1 mΩ")
}

// TestEvenRow: no pair of terminals loads a battery less than the one chosen.
func TestEvenRow(t *testing.T) {
	uneven := inARow(5, "0.4")
	uneven.BatteryMilliohm[1], uneven.PlusMilliohm[2], uneven.MinusMilliohm[0] = d("2.5"), d("1.9"), d("0.05")
	for _, r := range []wire.ParallelBank{inARow(2, "1"), inARow(4, "1"), inARow(4, "0.1"), uneven} {
		best, err := r.EvenTakeOff()
		require.NoError(t, err)
		for plus := range r.BatteryMilliohm {
			for minus := range r.BatteryMilliohm {
				other, err := r.TakeOff(plus+1, minus+1)
				require.NoError(t, err)
				assert.True(t, best.GreatestA.LessThanOrEqual(other.GreatestA), "%d %d", plus, minus)
			}
		}
		sum := decimal.Sum(best.ShareA[0], best.ShareA[1:]...)
		assert.InDelta(t, 100, sum.InexactFloat64(), 1e-6)
	}
}

func TestRowRefuses(t *testing.T) {
	_, err := wire.ParallelBank{EMFV: d("0"), BatteryMilliohm: []decimal.Decimal{d("0")}, PlusMilliohm: []decimal.Decimal{d("1")}}.TakeOff(2, 0)
	require.Error(t, err)
	for _, field := range []string{"emf_v", "battery_milliohm", "battery_milliohm[0]", "plus_link_milliohm", "current_a", "plus_at", "minus_at"} {
		assert.ErrorContains(t, err, field)
	}
	_, err = wire.ParallelBank{}.EvenTakeOff()
	assert.Error(t, err)
	tooMuch := inARow(3, "1")
	tooMuch.CurrentA = d("10000")
	_, err = tooMuch.EvenTakeOff()
	assert.True(t, errors.Is(err, wire.ErrNoOperatingPoint), "%v", err)
}

func ExampleParallelBank_TakeOff() {
	r := inARow(4, "1") // four batteries of 1 mΩ, links of 1 mΩ, 100 A
	t, err := r.TakeOff(1, 1)
	printed(t.Working, err)
	// Output:
	// Take-off at plus 1 and minus 1:
	// I_so.1 ≈ 73.214 A                     current of the source (1) [Kirchhoff's
	//                                       laws]; solved with the whole network
	// I_so.2 ≈ 19.643 A                     current of the source (2) [Kirchhoff's
	//                                       laws]; solved with the whole network
	// I_so.3 ≈ 5.3571 A                     current of the source (3) [Kirchhoff's
	//                                       laws]; solved with the whole network
	// I_so.4 ≈ 1.7857 A                     current of the source (4) [Kirchhoff's
	//                                       laws]; solved with the whole network
	// I_mxs = max(I_so.1, I_so.2, I_so.3, I_so.4)
	//       = max(73.214, 19.643, 5.3571, 1.7857)
	//       ≈ 73.214 A                      greatest share of a battery in the
	//                                       bank [Kirchhoff's laws]
}

func ExampleParallelBank_EvenTakeOff() {
	t, err := inARow(4, "1").EvenTakeOff()
	fmt.Println("plus at", t.Plus, "minus at", t.Minus, "greatest share", t.GreatestA.StringFixed(1), "A", err)
	// Output:
	// plus at 1 minus at 4 greatest share 37.5 A <nil>
}

func BenchmarkRowEven(b *testing.B) {
	r := inARow(16, "0.1")
	for b.Loop() {
		if _, err := r.EvenTakeOff(); err != nil {
			b.Fatal(err)
		}
	}
}
