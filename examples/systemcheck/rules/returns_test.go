package rules_test

import (
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/assert"
)

// TestHullIsNoConductor takes the return of each circuit of the boat out of its
// cable: small craft have two-wire systems (ISO 10133, from memory), whatever set
// judges, and the federal rule says nothing of it.
func TestHullIsNoConductor(t *testing.T) {
	for _, rules := range []string{"us-voluntary-craft", "us-boat"} {
		j := read(t, "river-workboat.yaml")
		j.RuleSet = rules
		assert.Equal(t, working.NotApplicable, verdict(judge(t, j), "W08", "the circuits"))
		for i := range j.Circuits {
			j.Circuits[i].Return, j.Circuits[i].ChassisMilliohm = "chassis", null("0.1")
		}
		r := judge(t, j)
		for _, c := range j.Circuits {
			assert.Equal(t, working.Fails, verdict(r, "W08", c.Name), c.Name)
		}
	}
}

// TestChassisOfAVehicle: no set of vehicles that we have forbids it.
func TestChassisOfAVehicle(t *testing.T) {
	assert.Equal(t, working.NotApplicable, verdict(judge(t, read(t, "clinic.yaml")), "W08", "alternator lead"))
}

// TestRatingThatNobodyMakes: NFPA 70 240.6(A) lists 40 and 45 A and nothing
// between; that its article breaks 20 kA says nothing of the rating.
func TestRatingThatNobodyMakes(t *testing.T) {
	at := func(rating string, own bool) working.Verdict {
		j := read(t, "clinic.yaml")
		circuit(&j, "panel feed").Device.RatingA, circuit(&j, "panel feed").Device.OwnRating = d(rating), own
		return verdict(judge(t, j), "P31", "panel feed, at main bus")
	}
	assert.Equal(t, working.CannotTell, at("43", false))
	assert.Equal(t, working.NotApplicable, at("43", true))
	j := read(t, "clinic.yaml")
	assert.Equal(t, working.NotApplicable, verdict(judge(t, j), "P31", "the devices"))
}

// TestFamilyWithoutRatings: of a family whose standard nobody here has read no
// rating is odd.
func TestFamilyWithoutRatings(t *testing.T) {
	j := read(t, "clinic.yaml")
	circuit(&j, "fridge").Device = &job.Device{Family: "ISO 8820-10 L", RatingA: d("10"), AmbientPercent: null("95"), BreaksA: null("2000"), BreaksAtV: null("32")}
	assert.Equal(t, working.NotApplicable, verdict(judge(t, j), "P31", "fridge, at panel"))
}
