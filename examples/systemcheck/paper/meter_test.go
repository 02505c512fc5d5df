package paper_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/quick"

	"example.org/extralow/examples/systemcheck/paper"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var d = decimal.RequireFromString

func ExampleMeterPair() {
	fmt.Println(paper.MeterPair(d("199.2"), d("206.53"), "A"))
	fmt.Println(paper.MeterPair(d("0.803"), d("0.8"), "V"))
	fmt.Println(paper.MeterPair(d("1930"), d("960"), "A"))
	// Output:
	// 200 A 206 A
	// 0.81 V 0.80 V
	// 2.0 kA 960 A
}

func TestMeter(t *testing.T) {
	for _, c := range []struct{ value, unit, want string }{
		{"99.96", "A", "100.0 A"}, {"100", "A", "100 A"}, {"8449", "A", "8.4 kA"}, {"12.345", "V", "12.35 V"}, {"0.1778", "Ω", "0.178 Ω"}, {"3", "", "3"},
	} {
		assert.Equal(t, c.want, paper.Meter(d(c.value), c.unit))
	}
}

// TestPairIsStrict: what is printed compares as the values do, asks for no less
// and allows no more.
func TestPairIsStrict(t *testing.T) {
	read := func(text string) decimal.Decimal {
		number, unit, _ := strings.Cut(text, " ")
		if unit == "kA" {
			return d(number).Shift(3)
		}
		return d(number)
	}
	require.NoError(t, quick.Check(func(a, b uint32, places uint8, ofUnit uint8) bool {
		asked, allowed := decimal.New(int64(a), -int32(places%9)), decimal.New(int64(b), -int32(places%9))
		unit := []string{"A", "V", "mm", "Ω"}[ofUnit%4]
		first, second := paper.MeterPair(asked, allowed, unit)
		x, y := read(first), read(second)
		return x.Cmp(y) == asked.Cmp(allowed) && !x.LessThan(asked) && !y.GreaterThan(allowed)
	}, &quick.Config{MaxCount: 2000}))
}
