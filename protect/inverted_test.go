package protect_test

import (
	"testing"

	"example.org/extralow/protect"
	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestInvertedPair: 10 A above 100 A; at any current between them only the
// upper device opens.
func TestInvertedPair(t *testing.T) {
	p := protect.SeriesPair{Upper: protect.Device{Family: "ISO 8820-3 C", RatingA: d("10")}, Lower: protect.Device{Family: "ISO 8820-3 E", RatingA: d("100")}}
	for _, fault := range []string{"20", "100", "1000"} {
		c, err := p.Selective(d(fault))
		require.NoError(t, err)
		assert.Equal(t, working.Fails, c.Verdict(), fault)
	}
	c, err := p.Ratio("gG16")
	require.NoError(t, err)
	assert.Equal(t, working.Fails, c.Verdict())
}

// TestOptionalMarking: UL 248-15 leaves a d.c. marking open, so only the marking
// tells.
func TestOptionalMarking(t *testing.T) {
	checks, err := protect.BreakingDuty{GreatestFaultA: some("5000"), HighestV: d("14.6"), Family: "UL 248-15 T 300 V"}.Checks()
	require.NoError(t, err)
	assert.Equal(t, working.CannotTell, checks[1].Verdict())
}
