package inspect_test

import (
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/assert"
)

// linked is a job whose bank a relay joins to a starter battery.
func linked(t *testing.T, sw job.Switch) job.Job {
	j := read(t, "no-fuse-fits.yaml")
	j.Batteries = append(j.Batteries, job.Battery{
		Name: "starter battery", Bank: "starter", Chemistry: "lead-acid flooded", NominalV: d("12"), CapacityAh: d("80"), RatedH: d("20"),
		LowMilliohm: null("5"), HighMilliohm: null("12"), FullV: d("12.7"), EmptyV: d("12.2"), DepthPercent: d("30"), AgeingPercent: d("80"),
	})
	link := *circuit(&j, "battery lead")
	far := *link.Device
	link.Name, link.From, link.To, link.LengthM = "link", "starter battery", "panel", d("2")
	link.FarDevice, link.Switch = &far, &sw
	j.Circuits = append(j.Circuits, link)
	return j
}

// TestLinkAsItCloses works the current by hand: of 25 mm² class 5 (IEC 60228,
// 0.78 mΩ/m) the battery's lead has 1.248 mΩ and the link 3.12 mΩ, out and back.
// 13.5 V behind 5.248 mΩ, and 20 A of the charger, stand against 12.2 V behind
// 8.12 mΩ: (1.3 V + 20 A × 5.248 mΩ) ÷ 13.368 mΩ = 105.1 A.
func TestLinkAsItCloses(t *testing.T) {
	r := judge(t, linked(t, job.Switch{Kind: "relay", RatingA: d("100"), Load: "resistive"}))
	f := finding(t, r, "P27", "link, its relay")
	assert.Equal(t, "105.1", f.Demand.Round(1).String())
	assert.Equal(t, working.Fails, f.Verdict())
	assert.Equal(t, working.Fails, finding(t, r, "P27", "link, at panel").Verdict(), "80 A opens as well")

	r = judge(t, linked(t, job.Switch{Kind: "isolator", RatingA: d("80"), ShortTimeA: null("110")}))
	assert.Equal(t, working.Passes, finding(t, r, "P27", "link, its isolator").Verdict())
}

// TestOnlyLinksClose: a switch in the feed of a load, or between batteries of one
// bank, joins no two banks.
func TestOnlyLinksClose(t *testing.T) {
	j := linked(t, job.Switch{Kind: "isolator", RatingA: d("200")})
	own := j.Batteries[0]
	own.Name = j.Batteries[1].Name
	j.Batteries[1] = own // another of the house
	for _, j := range []job.Job{read(t, "clinic.yaml"), j} {
		assert.Equal(t, working.NotApplicable, finding(t, judge(t, j), "P27", "the circuits").Verdict())
	}
}
