package charge_test

import (
	"testing"

	"example.org/extralow/charge"
	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Loads that a cut-out sheds are not served, though the bank stays above its
// floor.
func TestLedgerFailsWhereLoadsAreShed(t *testing.T) {
	for _, c := range []struct {
		ledger charge.Ledger
		unit   string
		want   working.Verdict
	}{
		{charge.Ledger{LowestPercent: d("21"), ShedH: d("656")}, "h", working.Fails},
		{charge.Ledger{LowestPercent: d("19"), ShedH: d("656")}, "%", working.Fails},
		{charge.Ledger{LowestPercent: d("21")}, "%", working.Passes},
	} {
		c.ledger.Working.Given("s_min", c.ledger.LowestPercent)
		c.ledger.Working.Given("t_shed", c.ledger.ShedH)
		got, err := c.ledger.Check(d("20"))
		require.NoError(t, err)
		assert.Equal(t, c.want, got.Verdict())
		assert.Equal(t, c.unit, got.Unit)
	}
}
