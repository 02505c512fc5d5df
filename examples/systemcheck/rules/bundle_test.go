package rules_test

import (
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/examples/systemcheck/paper"
	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/assert"
)

// TestBundleWithoutARule: 33 CFR 183.425 derates no bundle at all, and gives AWG 16
// of 105 °C 25 A. Twelve circuits of two conductors keep half of that by ABYC E-11
// (7 to 24 conductors: 0.5), which a fuse of 20 A does not protect.
func TestBundleWithoutARule(t *testing.T) {
	at := func(grouped string) paper.Report {
		j := read(t, "river-workboat.yaml")
		j.RuleSet = "us-boat"
		c := circuit(&j, "console")
		c.Size, c.AmbientC, c.Grouped, c.Device.RatingA = size(t, "AWG 16"), d("30"), d(grouped), d("20")
		return judge(t, j)
	}
	alone, bunched := at("1"), at("12")
	assert.Equal(t, working.Passes, verdict(alone, "P02", "console, at panel, overall"))
	assert.Equal(t, working.Passes, verdict(bunched, "P02", "console, at panel"), "by name")
	f := finding(t, bunched, "P02", "console, at panel, overall")
	assert.Equal(t, []string{"fails", "12.5"}, []string{f.Verdict().String(), f.Limit.String()})
	f = finding(t, bunched, "W01", "console, overall")
	assert.Equal(t, []string{"passes", "12.5", "US voluntary small-craft code (ABYC E-11)"}, []string{f.Verdict().String(), f.Limit.String(), f.RuleSet})
}

// TestParallelBundleWithoutARule: two of those cables alike lie with their returns as
// four conductors, which carry 0.6 of 25 A each (ABYC E-11): 30 A together. Among
// twelve circuits they carry half: 25 A.
func TestParallelBundleWithoutARule(t *testing.T) {
	for _, c := range []struct {
		grouped, ratingA string
		want             working.Verdict
	}{
		{"2", "30", working.Passes}, {"2", "40", working.Fails},
		{"12", "25", working.Passes}, {"12", "30", working.Fails},
	} {
		j := read(t, "river-workboat.yaml")
		j.RuleSet = "us-boat"
		run := circuit(&j, "console")
		run.Size, run.AmbientC, run.Grouped, run.Device.RatingA = size(t, "AWG 16"), d("30"), d(c.grouped), d(c.ratingA)
		run.Cables = &job.Cables{Count: d("2"), Identical: true}
		assert.Equal(t, c.want, verdict(judge(t, j), "P24", "console, at panel"), c)
	}
}

// TestBundleUnderItsOwnRule: a set with factors of its own is judged by those.
func TestBundleUnderItsOwnRule(t *testing.T) {
	for _, f := range judge(t, read(t, "library-truck.yaml")).Findings {
		assert.False(t, f.ID == "W01" && f.Where == "lamps, overall", f.Where)
	}
}
