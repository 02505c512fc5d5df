package rules_test

import (
	"testing"

	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/assert"
)

// TestCollapseIsSaidOfEachLoad: 6 V from a source of 12 V is the most that a load takes
// (P = U² ÷ 4R); through an ohm it is 36 W, and the extractor asks more. What no case
// can tell its rules hand over, and do not leave out.
func TestCollapseIsSaidOfEachLoad(t *testing.T) {
	j := read(t, "no-fuse-fits.yaml")
	j.Batteries[0].HighMilliohm = null("1000")
	r := judge(t, j)
	assert.Equal(t, working.Fails, verdict(r, "W07", "harvest"))
	for _, id := range []string{"W02", "W04"} {
		f := finding(t, r, id, "honey extractor")
		assert.Equal(t, working.NotApplicable, f.Verdict(), id)
		assert.Contains(t, f.Silent, "see W07", id)
	}
}
