package tables_test

import (
	"bytes"
	"testing"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
)

func TestIndex(t *testing.T) { workingtest.Index(t) }

// TestZeroValuesAnswer: what nobody filled in is refused or empty, and panics
// nowhere.
func TestZeroValuesAnswer(t *testing.T) {
	var column tables.AmpacityColumn
	size := mustSize("16 mm2")
	assert.ErrorIs(t, second(column.At(size)), tables.ErrNotListed)
	assert.ErrorIs(t, second(column.At(tables.Size{})), tables.ErrNotListed)
	assert.ErrorIs(t, erring2(column.NoLarger(size)), tables.ErrNotListed)
	assert.Empty(t, column.Sizes())
	at, _ := tables.AmpacityRule{}.AtTerminals(column, number("70"))
	assert.Empty(t, at.Table)
	for _, class := range []tables.Class{0, 1, 255} {
		assert.Error(t, second(tables.Resistance(size, class)))
	}
	assert.ErrorContains(t, second(tables.Resistance(tables.Size{}, tables.Flexible)), "size is unset")
	_, more := tables.Size{}.Next()
	_, less := tables.Size{}.Previous()
	assert.False(t, more || less)
	_, capped := tables.DeviceRule{}.Cap(tables.Size{})
	assert.False(t, capped)
	var table tables.Table
	assert.Zero(t, table.Weak().Rows)
	assert.Empty(t, table.Cells())
	for _, write := range []func(*bytes.Buffer) error{
		func(b *bytes.Buffer) error { return table.WriteCSV(b) },
		func(b *bytes.Buffer) error { return table.WriteMarkdown(b) },
		func(b *bytes.Buffer) error { return table.WriteText(b) },
	} {
		var b bytes.Buffer
		assert.NotPanics(t, func() { assert.NoError(t, write(&b)) })
	}
}

// TestNonsenseIsRefused: no wires, negative volts and temperatures that nothing has
// are input errors and no rows of a table.
func TestNonsenseIsRefused(t *testing.T) {
	for _, n := range []decimal.Decimal{number("-1"), decimal.New(-1, 9), decimal.New(1, 9), decimal.New(1, 1_000_000)} {
		for name, err := range map[string]error{
			"switch": second(tables.SwitchFactor(n, "motor")), "loading": second(tables.BundleFactor(3, n)), "torque": second(tables.Torque("screw terminal", n, "II")),
			"cranking": second(tables.BreakingByCranking(number("12"), n, true)), "bend": second(tables.BendMultiple(tables.BendCables()[0], n)),
			"rating": second(tables.Gates("ISO 8820-3 C", n)), "derating": second(tables.DeviceDerating("ISO 8820-3 C", n, number("23"))),
			"density": second(tables.FreezingPoint(n)), "charge": second(tables.LeastDensity(n)), "k": second(tables.AdiabaticOf("copper", "PVC 70 C", n)),
			"latitude": second(tables.MonthRadiation(n.Mul(number("100")), 6)), "cycles": second(tables.CycleLives("LiFePO4", n)),
		} {
			assert.Error(t, err, "%s at %se%d", name, n.Coefficient(), n.Exponent())
		}
	}
	for _, wires := range []int{0, -1, -1 << 40, 1 << 40} {
		assert.Error(t, second(tables.BundleFactor(wires, number("50"))), wires)
	}
	for _, month := range []int{0, -1, 13} {
		assert.ErrorContains(t, second(tables.MeanDay(month)), "month is ")
	}
}
