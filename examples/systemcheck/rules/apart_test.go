package rules_test

import (
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestBankDoesWithoutTheOther: a link that is closed lets the starter battery
// carry half of the house bank's load; open, the house bank carries all of it. So
// an isolator that the house bank's whole load is too much for fails, linked or
// not.
func TestBankDoesWithoutTheOther(t *testing.T) {
	isolated := func(linkedTo bool) job.Job {
		j := read(t, "no-fuse-fits.yaml")
		if linkedTo {
			j = linked(t, job.Switch{Kind: "isolator", RatingA: d("200")})
			j.Batteries[1].EmptyV, j.Batteries[1].FullV = d("12.8"), d("12.9") // it helps
			alike(&j, 1)                                                       // and rests as high when it is empty
			j.Batteries[0].FullV = d("12.9")                                   // and takes little
		}
		circuit(&j, "battery lead").Switch = &job.Switch{Kind: "isolator", RatingA: d("20")}
		return j
	}
	for _, linked := range []bool{false, true} {
		f := finding(t, judge(t, isolated(linked)), "P15", "battery lead, its isolator")
		assert.Equal(t, working.Fails, f.Verdict())
		assert.Equal(t, "24", f.Demand.Round(1).String(), "22 A and 2 A of the file")
		if linked {
			assert.Equal(t, "harvest, link open", f.Case)
		}
	}
}

// TestOwnSwitchIsNoLink: the isolator of the only house battery parts nothing that
// goes on without it.
func TestOwnSwitchIsNoLink(t *testing.T) {
	j := linked(t, job.Switch{Kind: "isolator", RatingA: d("200")})
	alike(&j, 1)
	circuit(&j, "link").Switch = nil
	circuit(&j, "battery lead").Switch = &job.Switch{Kind: "isolator", RatingA: d("200")}
	for _, f := range judge(t, j).Findings {
		require.NotContains(t, f.Case, "the banks apart")
	}
}

// TestLinkInNeedAlone: a link that is usually open leaves each bank to its own
// charging, and stays closed where a fault, a load or the moment of closing asks
// most of it.
func TestLinkInNeedAlone(t *testing.T) {
	clinic := func(usuallyOpen bool) job.Job {
		j := read(t, "clinic.yaml")
		link := *circuit(&j, "battery A lead")
		far := *link.Device
		link.Name, link.From, link.To, link.FarDevice = "link", "starter battery", "main bus", &far
		link.Switch = &job.Switch{Kind: "isolator", RatingA: d("500"), ShortTimeA: null("1000"), UsuallyOpen: usuallyOpen}
		j.Circuits = append(j.Circuits, link)
		return j
	}
	joined, apart := judge(t, clinic(false)), judge(t, clinic(true))
	assert.Equal(t, working.Fails, finding(t, joined, "C04", "alternator").Verdict(), "the whole bank hangs on the alternator")
	assert.Equal(t, working.Passes, finding(t, apart, "C04", "alternator").Verdict())
	for _, r := range []string{"P27 link, its isolator", "P04 fridge, at panel"} {
		id, where := r[:3], r[4:]
		assert.Equal(t, finding(t, joined, id, where).Demand.String(), finding(t, apart, id, where).Demand.String(), r)
	}
	assert.Equal(t, judge(t, read(t, "clinic.yaml")).Bank.DayWh.String(), apart.Bank.DayWh.String())
}
