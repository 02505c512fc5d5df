package wire_test

import (
	"strings"
	"testing"

	"example.org/extralow/tables"
	"example.org/extralow/wire"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestSmallInFreeAir: BS 7671:2008 table 4E1A has 10 mm2 of 90 °C at 81 A clipped
// direct and begins at 25 mm2 with 161 A in free air, where C has 143 A.
func TestSmallInFreeAir(t *testing.T) {
	set, err := tables.RuleSetOf("european")
	require.NoError(t, err)
	lying := func(size, method string) wire.Ampacity {
		c := wire.Conductor{Size: must(tables.ParseSize(size)), Class: 5, Method: method, InsulationC: d("90"), AmbientC: some("30"), Grouped: 1, TerminalC: some("90"), PlainCopper: true, OutsideEngineSpace: true}
		a, err := c.Ampacity(set.Ampacity)
		require.NoError(t, err)
		return a
	}
	small := lying("10 mm2", "F")
	assert.Equal(t, "81", small.AmpacityA.String())
	assert.Contains(t, strings.Join(strings.Fields(small.Working.String()), " "), "method F begins at 25 mm2, in method C it carries no more")
	assert.Equal(t, "161", lying("25 mm2", "F").AmpacityA.String())
	assert.NotContains(t, lying("25 mm2", "F").Working.String(), "method F begins")
	cool := lying("10 mm2", "C")
	assert.NotContains(t, cool.Working.String(), "method F begins")
}

// TestNeverLessInFreeAir: in every table that has both, a size carries no less in
// free air than clipped direct, on which TestSmallInFreeAir rests.
func TestNeverLessInFreeAir(t *testing.T) {
	compared := 0
	for _, name := range tables.AmpacityRules() {
		rule, err := tables.AmpacityRuleOf(name)
		require.NoError(t, err)
		for _, insulation := range []string{"70", "90"} {
			free, err := rule.Column(must(tables.ParseSize("25 mm2")), "F", d(insulation))
			if err != nil || free.Method != "F" {
				continue
			}
			clipped, err := rule.Column(must(tables.ParseSize("25 mm2")), "C", d(insulation))
			require.NoError(t, err)
			for _, size := range free.Sizes() {
				f, err := free.At(size)
				require.NoError(t, err)
				c, err := clipped.At(size)
				if err != nil || clipped.Table != free.Table {
					continue
				}
				assert.True(t, f.Value.GreaterThanOrEqual(c.Value), "%s %s: %s in free air, %s clipped", name, size, f.Value, c.Value)
				compared++
			}
		}
	}
	assert.Positive(t, compared)
}

// TestHeatOfSilicone: IEC 60364-5-54 lets silicone rubber of 180 °C come to
// 350 °C in a fault; the heating equation answers for it.
func TestHeatOfSilicone(t *testing.T) {
	short := winch()
	short.CurrentA = d("900")
	hot, err := short.TimeTo(d("350"))
	require.NoError(t, err)
	warm, err := short.TimeTo(d("250"))
	require.NoError(t, err)
	require.True(t, hot.Reached && warm.Reached)
	assert.True(t, hot.TimeS.Decimal.GreaterThan(warm.TimeS.Decimal))
}
