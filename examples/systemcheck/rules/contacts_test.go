package rules_test

import (
	"testing"

	"example.org/extralow/examples/systemcheck/job"
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

// TestContactClosesOnStart: 1900 W behind an inverter start with more than 160.5 A
// in its feed. A contactor of 107 A makes 1.5 times that without a word of its
// maker (IEC 60947-4-1, DC-1); one that its maker lets close on 250 A does.
func TestContactClosesOnStart(t *testing.T) {
	const start = "inverter feed, its contactor, as it closes on a start"
	j := read(t, "clinic.yaml")
	sw := &job.Switch{Kind: "contactor", RatingA: d("107"), Load: "resistive"}
	circuit(&j, "inverter feed").Switch = sw
	j.Loads[4].SurgeW = null("1900")
	r := judge(t, j)
	assert.Equal(t, working.Passes, verdict(r, "P14", "inverter feed, its contactor"))
	f := finding(t, r, "P14", start)
	assert.Equal(t, []string{"fails", "160.5"}, []string{f.Verdict().String(), f.Limit.String()})
	sw.MakesA = null("250")
	assert.Equal(t, working.Passes, verdict(judge(t, j), "P14", start))
}

// TestResistiveThatStarts: what draws 900 W to start and 450 W running is no
// resistor, whatever the file calls it. At 24 V a motor wants three times its
// current of the contact, and a resistor twice (AC 43.13-1B, table 11-4).
func TestResistiveThatStarts(t *testing.T) {
	at := func(load string) working.Check {
		j := read(t, "library-truck.yaml")
		circuit(&j, "lift").Switch.Load = load
		return finding(t, judge(t, j), "P14", "lift, its contactor").Check
	}
	assert.True(t, at("motor").Demand.Equal(at("resistive").Demand))
	assert.True(t, at("inductive").Demand.GreaterThan(at("motor").Demand))
}
