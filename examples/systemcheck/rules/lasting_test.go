package rules_test

import (
	"slices"
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
)

// A load lasts, and its device carries it at 80 % of the rating, unless its longest
// run is stated as ten minutes or less (common practice): a day's hours are no run.
// The clinic's pump takes 6.3 A of 7.5 A, which its air leaves 95 % of.
func TestLoadLastsUnlessItsLongestRunIsShort(t *testing.T) {
	for _, c := range []struct {
		longest decimal.NullDecimal
		want    working.Verdict
	}{
		{decimal.NullDecimal{}, working.Fails},
		{null("601"), working.Fails},
		{null("600"), working.Passes},
		{null("5"), working.Passes},
	} {
		j := read(t, "clinic.yaml")
		pump := loadOf(&j, "water pump")
		pump.LongestRunS, pump.PowerW, pump.HoursADay = c.longest, null("74"), d("0.1")
		circuit(&j, "pump").Device.RatingA = d("7.5")
		assert.Equal(t, c.want, verdict(judge(t, j), "P01", "pump, at panel"), c.longest)
	}
}

// NFPA 70 calls continuous what is expected to go on for three hours or more.
func TestLoadLastsFromThreeHoursWhereItsCodeSaysSo(t *testing.T) {
	for longest, limited := range map[string]bool{"10799": false, "10800": true} {
		j := read(t, "clinic.yaml")
		j.RuleSet = "us-rv"
		loadOf(&j, "ventilation").LongestRunS = null(longest)
		_, stated := found(t, judge(t, j), "P01", "roof fan, at panel").Working.Value("k_L")
		assert.Equal(t, limited, stated, longest)
	}
}

// What an inverter feeds lasts as its loads do; an inverter without any is asked for
// its full output some day, for who knows how long.
func TestInverterLastsAsItsLoadsDo(t *testing.T) {
	limited := func(spoil func(j *job.Job)) bool {
		j := read(t, "clinic.yaml")
		spoil(&j)
		_, stated := found(t, judge(t, j), "P01", "inverter feed, at main bus").Working.Value("k_L")
		return stated
	}
	const tools = "centrifuge and steriliser"
	assert.True(t, limited(func(*job.Job) {}))
	assert.False(t, limited(func(j *job.Job) { loadOf(j, tools).LongestRunS = null("300") }))
	assert.True(t, limited(func(j *job.Job) {
		j.Loads = slices.DeleteFunc(j.Loads, func(l job.Load) bool { return l.Name == tools })
	}))
}

// The audit says of a load that its run is short only where that is stated.
func TestClassOfALoad(t *testing.T) {
	r := judge(t, read(t, "clinic.yaml"))
	for load, class := range map[string]string{"vaccine fridge": "always on", "ventilation": "continuous", "water pump": "intermittent"} {
		assert.Equal(t, class, audited(t, r, load).Class, load)
	}
}

func loadOf(j *job.Job, name string) *job.Load {
	return &j.Loads[slices.IndexFunc(j.Loads, func(l job.Load) bool { return l.Name == name })]
}

// Tubes of 5 and 7.5 A are made (common practice): NFPA 70 240.6(A), whose list serves
// for them otherwise, is of larger fuses. One of 13 A nobody lists.
func TestRatingsOfTubes(t *testing.T) {
	for rating, want := range map[string]working.Verdict{"5": working.NotMade, "7.5": working.NotMade, "13": working.CannotTell} {
		j := read(t, "clinic.yaml")
		circuit(&j, "pump").Device = &job.Device{Family: "UL 248-14", RatingA: d(rating), RatedV: null("32"), BreaksA: null("10000"), BreaksAtV: null("32")}
		assert.Equal(t, want, verdict(judge(t, j), "P31", "pump, at panel"), rating)
	}
}
