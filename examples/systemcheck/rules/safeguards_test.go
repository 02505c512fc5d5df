package rules_test

import (
	"slices"
	"strings"
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
)

// TestEdges: 33 CFR 183.445(a) (from memory) wants a conductor that passes a bulkhead
// or another rigid surface protected from abrasion; that other sets are silent makes it
// common practice and none of theirs. A run that says nothing is not asked, and one
// that passes an edge and does not say what guards it cannot be told.
func TestEdges(t *testing.T) {
	at := func(rules string, change func(c *job.Circuit)) (working.Verdict, string, cite.Confidence) {
		j := read(t, "river-workboat.yaml")
		j.RuleSet = rules
		for i := range j.Circuits {
			j.Circuits[i].PassesEdge, j.Circuits[i].EdgeGuard = false, ""
		}
		change(circuit(&j, "mast"))
		r := judge(t, j)
		if verdict(r, "W10", "mast") == working.NotMade {
			return verdict(r, "W10", "the circuits"), "", cite.Unstated
		}
		f := finding(t, r, "W10", "mast")
		return f.Verdict(), f.RuleSet, f.Source.Confidence
	}
	guard := func(g string) func(c *job.Circuit) { return func(c *job.Circuit) { c.EdgeGuard = g } }
	for _, g := range []string{"grommet", "sheath", "gland"} {
		v, set, c := at("us-boat", guard(g))
		assert.Equal(t, []any{working.Passes, "US boats with petrol engines (33 CFR 183)", cite.FromMemory}, []any{v, set, c}, g)
	}
	v, set, c := at("us-voluntary-craft", guard("none"))
	assert.Equal(t, []any{working.Fails, "", cite.CommonPractice}, []any{v, set, c})
	v, _, _ = at("us-boat", guard("none"))
	assert.Equal(t, working.Fails, v)
	v, _, _ = at("us-boat", func(c *job.Circuit) { c.PassesEdge, c.Sheathed = true, false })
	assert.Equal(t, working.CannotTell, v)
	v, _, _ = at("us-boat", func(c *job.Circuit) { c.PassesEdge, c.Sheathed = true, true })
	assert.Equal(t, working.Passes, v, "sheathed all the way")
	v, _, _ = at("us-boat", func(c *job.Circuit) { c.Sheathed, c.EdgeGuard = true, "none" })
	assert.Equal(t, working.Fails, v, "what is said of the edge wins")
	v, _, _ = at("us-boat", func(*job.Circuit) {})
	assert.Equal(t, working.NotApplicable, v)
}

// TestHolders: a holder of 30 A under a fuse of 40 A, and one below what its circuit
// carries, burn (common practice); at either end of a run.
func TestHolders(t *testing.T) {
	at := func(holder string, change func(c *job.Circuit)) working.Verdict {
		j := read(t, "clinic.yaml")
		feed := circuit(&j, "panel feed")
		feed.Device.HolderA = null(holder)
		change(feed)
		return verdict(judge(t, j), "P33", "panel feed, at main bus")
	}
	as := func(*job.Circuit) {}
	assert.Equal(t, working.Passes, at("40", as))
	assert.Equal(t, working.Fails, at("39.9", as))
	assert.Equal(t, working.Fails, at("15", func(c *job.Circuit) { c.Device.RatingA = d("15") }), "the panel draws more")

	j := read(t, "clinic.yaml")
	far := circuit(&j, "converter output").FarDevice
	far.HolderA = decimal.NewNullDecimal(far.RatingA.Sub(d("1")))
	r := judge(t, j)
	assert.True(t, slices.ContainsFunc(bad(r), func(f string) bool { return strings.HasPrefix(f, "P33 converter output, at ") }), "%q", bad(r))
}

// TestHolderStays: who fits another rating keeps the holder, so that a rating above it
// is no remedy.
func TestHolderStays(t *testing.T) {
	dev := job.Device{RatingA: d("30"), HolderA: null("40")}
	dev.Refit(d("50"))
	assert.Equal(t, null("40"), dev.HolderA)
}

// TestIsolatorWithinReach: by hand, without tools (common practice; the Boat Safety
// Scheme asks an isolator ready to hand of inland boats). A toggle is not asked.
func TestIsolatorWithinReach(t *testing.T) {
	at := func(reached string) working.Verdict {
		j := read(t, "clinic.yaml")
		circuit(&j, "panel feed").Switch.Reached = reached
		return verdict(judge(t, j), "P32", "panel feed, its isolator")
	}
	assert.Equal(t, working.Passes, at("by hand"))
	assert.Equal(t, working.Fails, at("with tools"))
	assert.Equal(t, working.NotMade, at(""))
}

// TestSensorOnThePost: what returns to the post itself passes no sensor (common
// practice), whether by a cable or by the chassis; without a sensor nothing is asked.
func TestSensorOnThePost(t *testing.T) {
	at := func(sensor bool, place string) working.Verdict {
		j := read(t, "clinic.yaml")
		j.Batteries[2].PostSensor = sensor
		for i, c := range j.Circuits {
			j.Circuits[i].ReturnAt = ""
			if sensor && (c.From == "starter battery" || c.To == "starter battery") {
				j.Circuits[i].ReturnAt = place
			}
		}
		r := judge(t, j)
		assert.Equal(t, verdict(r, "B23", "alternator lead, at starter battery"), verdict(r, "B23", "converter feed, at starter battery"))
		return verdict(r, "B23", "alternator lead, at starter battery")
	}
	assert.Equal(t, working.Passes, at(true, "past the sensor"))
	assert.Equal(t, working.Fails, at(true, "post"))
	assert.Equal(t, working.CannotTell, at(true, ""))
	assert.Equal(t, working.NotMade, at(false, ""))
}

// TestChassisReturnIsAConductor: it has a resistance and contacts, and its thinnest
// cable carries what the devices of the run let pass. 6 mm² is far below a fuse of
// 150 A (BS 7671 table 4E1A gives it 66 A at the most, in free air).
func TestChassisReturnIsAConductor(t *testing.T) {
	at := func(where string, change func(c *job.Circuit)) working.Verdict {
		j := read(t, "clinic.yaml")
		change(circuit(&j, "alternator lead"))
		return verdict(judge(t, j), "W08", where)
	}
	const lead = "alternator lead"
	assert.Equal(t, working.CannotTell, at(lead+", its return", func(c *job.Circuit) { c.ChassisMilliohm = null("0") }))
	assert.Equal(t, working.CannotTell, at(lead+", its return", func(c *job.Circuit) { c.ContactsMilliohm = d("0") }))
	assert.Equal(t, working.NotMade, at(lead+", its return", func(*job.Circuit) {}))
	strap := func(s string) func(c *job.Circuit) { return func(c *job.Circuit) { c.ReturnSize = size(t, s) } }
	assert.Equal(t, working.Fails, at(lead+", the cable of its return", strap("6 mm2")))
	assert.Equal(t, working.Passes, at(lead+", the cable of its return", func(c *job.Circuit) { c.ReturnSize = c.Size }))
}

// TestChassisReturnByTheSet: NFPA 70 552.10(C) allows it (second hand).
func TestChassisReturnByTheSet(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.RuleSet = "us-rv"
	f := finding(t, judge(t, j), "W08", "alternator lead")
	assert.Equal(t, []any{working.Passes, "552.10(C)"}, []any{f.Verdict(), f.Source.Where[:9]})
}

// TestVehicleDrawsParked: 50 mA more for 30 days are 36 Ah more of the battery that
// starts the engine, and it is no part of the house bank's drain.
func TestVehicleDrawsParked(t *testing.T) {
	at := func(parkedA string) (starter, house decimal.Decimal) {
		j := read(t, "clinic.yaml")
		j.Needs.ParkedDays = null("30")
		j.Batteries[2].VehicleParkedA = decimal.NullDecimal{}
		if parkedA != "" {
			j.Batteries[2].VehicleParkedA = null(parkedA)
		}
		r := judge(t, j)
		return finding(t, r, "B19", "starter battery").Limit, finding(t, r, "B19", "the house bank").Limit
	}
	without, house := at("")
	with, same := at("0.05")
	assert.True(t, with.LessThan(without), "%s and %s days", with, without)
	assert.Equal(t, house, same)
	// 95 Ah × 30 % × 80 % spare ÷ (50 mA × 24 h), less what it loses by itself, is the most.
	assert.True(t, with.LessThanOrEqual(d("95").Mul(d("0.3")).Mul(d("0.8")).DivRound(d("1.2"), 4)), "%s days", with)
}

// TestVehicleIsNotForgotten: where nobody measured it the report says so.
func TestVehicleIsNotForgotten(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Needs.ParkedDays = null("10")
	said := func() bool {
		return slices.ContainsFunc(judge(t, j).Unjudged, func(s string) bool {
			return strings.Contains(s, "vehicle_parked_a") && strings.Contains(s, "starter battery")
		})
	}
	j.Batteries[2].VehicleParkedA = decimal.NullDecimal{}
	assert.True(t, said())
	j.Batteries[2].VehicleParkedA = null("0.02")
	assert.False(t, said())
}
