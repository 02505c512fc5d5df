package inspect_test

import (
	"testing"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
)

// TestUnknownCapacitance: a switch that closes on the input of an inverter meets a
// short circuit for a moment, behind the few milliohms of a lithium bank.
func TestUnknownCapacitance(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Inverters[0].InputUF, j.Inverters[0].PrechargeOhm = decimal.NullDecimal{}, decimal.NullDecimal{}
	f := finding(t, judge(t, j), "P26", "inverter")
	assert.Equal(t, working.CannotTell, f.Verdict())
	assert.Contains(t, f.Missing, "input_uf")
	circuit(&j, "inverter feed").Switch = nil
	assert.Equal(t, working.NotApplicable, verdict(judge(t, j), "P26", "inverter"))
}
