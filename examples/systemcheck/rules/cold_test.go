package rules_test

import (
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/examples/systemcheck/paper"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
)

// TestEachColdCountsWhereItIs: acid freezes where the battery stands, parked or
// in use; lithium is harmed where a charge begins, and begins as cold as it has
// stood; lead-acid in a heated body takes its charge there; modules are as cold
// as the air over them. A half charged lead-acid battery freezes at -15 °C
// (OD1002); AGM may be charged down to -20 °C (the table of limits); two modules
// of 22.4 V at -0.30 %/°C give 49.5 V at -10 °C and 47.5 V at 5 °C.
func TestEachColdCountsWhereItIs(t *testing.T) {
	for _, sample := range []string{"library-truck.yaml", "clinic.yaml"} {
		j := read(t, sample)
		j.ColdestC, j.BankC = d("5"), null("-16")
		_, err := paper.ReportOn(j)
		assert.ErrorContains(t, err, "bank_c", "colder in use than the air stated: one of the two is wrong")
	}
	for _, c := range []struct {
		what, sample, rule, where string
		spoil                     func(*job.Job)
		want                      working.Verdict
	}{
		{"parked colder than in use", "library-truck.yaml", "B07", "string A", func(j *job.Job) { j.ColdestC = d("-16") }, working.Fails},
		{"heated in hard frost", "library-truck.yaml", "C02", "string A", func(j *job.Job) { j.ColdestC = d("-25") }, working.Passes},
		{"heated in hard frost", "library-truck.yaml", "C06", "the house bank", func(j *job.Job) { j.ColdestC = d("-25") }, working.Passes},
		{"heated in hard frost", "library-truck.yaml", "C08", "the house bank", func(j *job.Job) { j.ColdestC = d("-25") }, working.Passes},
		{"not heated", "library-truck.yaml", "C02", "string A", func(j *job.Job) { j.ColdestC, j.BankC = d("-25"), decimal.NullDecimal{} }, working.Fails},
		{"lithium that has stood in the frost", "clinic.yaml", "C02", "battery A", func(j *job.Job) { j.Batteries[0].ColdGuard = false }, working.Fails},
		{"roof in a garage", "clinic.yaml", "C07", "roof array", func(j *job.Job) { j.ColdestC, j.Solar[0].ControllerV = d("5"), d("48") }, working.Passes},
		{"roof in the frost", "clinic.yaml", "C07", "roof array", func(j *job.Job) {
			j.ColdestC, j.OutsideC, j.Solar[0].ControllerV = d("5"), null("-10"), d("48")
		}, working.Fails},
	} {
		j := read(t, c.sample)
		c.spoil(&j)
		assert.Equal(t, c.want, found(t, judge(t, j), c.rule, c.where).Verdict(), "%s: %s", c.what, c.rule)
	}
}

// TestNothingGoesIntoAColdBank: where a guard at 0 °C blocks the charge nothing is
// refilled, and nobody knows for how long the bank is so cold. One with no guard
// takes no charge that does it good either.
func TestNothingGoesIntoAColdBank(t *testing.T) {
	for _, guard := range []bool{true, false} {
		j := read(t, "clinic.yaml")
		j.BankC = null("-10")
		j.Batteries[0].ColdGuard, j.Batteries[1].ColdGuard = guard, guard
		r := judge(t, j)
		for _, f := range [][2]string{{"C06", "the house bank"}, {"C08", "the house bank, December"}} {
			got := found(t, r, f[0], f[1])
			assert.Equal(t, working.CannotTell, got.Verdict(), f[0])
			assert.Contains(t, got.Missing, "heat the bank")
			assert.Contains(t, got.Missing, "-10 °C")
		}
	}
	j := read(t, "clinic.yaml")
	j.BankC = null("0.1")
	assert.NotEqual(t, working.CannotTell, found(t, judge(t, j), "C06", "the house bank").Verdict())
}
