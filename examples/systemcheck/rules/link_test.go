package rules_test

import (
	"slices"
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/examples/systemcheck/rules"
	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// linked is a job whose bank a relay joins to a starter battery.
func linked(t *testing.T, sw job.Switch) job.Job {
	j := read(t, "no-fuse-fits.yaml")
	circuit(&j, "battery lead").Switch = nil // the link alone closes
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

// alike gives a battery the chemistry of the first: side by side with no switch
// between them others are refused.
func alike(j *job.Job, i int) {
	j.Batteries[i].Chemistry, j.Batteries[i].NominalV = j.Batteries[0].Chemistry, j.Batteries[0].NominalV
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

// TestCablesBearAFullAndAnEmptyBank: in no state does anything flow through the link,
// which makes a thin one look idle; one bank full and the other empty drives 1.3 V
// and the charger through it. A class 5 cable of 1.5 mm² has 13.3 mΩ over 0.5 m, out
// and back (IEC 60228, 13.3 Ω/km): some 60 A, of which it carries a third.
func TestCablesBearAFullAndAnEmptyBank(t *testing.T) {
	for area, want := range map[string]working.Verdict{"70 mm2": working.Passes, "1.5 mm2": working.Fails} {
		j := linked(t, job.Switch{Kind: "relay", RatingA: d("200"), Load: "resistive"})
		link := circuit(&j, "link")
		link.Size, link.LengthM, link.ContactsMilliohm = size(t, area), d("0.5"), d("0.1")
		got := verdict(judge(t, j), "P27", "link, as link closes")
		if want == working.Passes { // by this rule, or by W01 where a state asks for more
			assert.NotEqual(t, working.Fails, got, area)
			continue
		}
		assert.Equal(t, want, got, area)
	}
}

// TestDevicesOnTheWayBearAFullAndAnEmptyBank: the 105 A of the link come through the
// device on the lead of the battery too, which no state asks for more than 80 A.
func TestDevicesOnTheWayBearAFullAndAnEmptyBank(t *testing.T) {
	for rating, want := range map[string]working.Verdict{"80": working.Fails, "110": working.Passes} {
		j := linked(t, job.Switch{Kind: "relay", RatingA: d("200"), Load: "resistive"})
		lead := circuit(&j, "battery lead")
		lead.Device.RatingA = d(rating)
		f := finding(t, judge(t, j), "P27", "battery lead, at "+j.Batteries[0].Name+", as link closes")
		assert.Equal(t, want, f.Verdict(), rating)
		assert.Equal(t, "battery lead", f.Circuit)
	}
}

// TestBanksAreNotEmptyTogether: with both banks as empty as each other next to nothing
// passes the link. The battery full (13.5 V behind 4 mΩ, contacts of 0.6 mΩ and a lead of
// 1.248 mΩ at 20 °C), the starter battery empty and aged (12.2 V behind 12 + 0.6 + 3.12 mΩ)
// and 24 A of loads between them: (1.3 V − 24 A × 5.848 mΩ) ÷ 21.568 mΩ = 53.8 A; with
// copper at 90 °C, 1.275 times its resistance, 50.5 A.
func TestBanksAreNotEmptyTogether(t *testing.T) {
	f := finding(t, judge(t, linked(t, job.Switch{Kind: "isolator", RatingA: d("50")})), "P15", "link, its isolator")
	assert.True(t, f.Demand.GreaterThan(d("50.5")) && f.Demand.LessThan(d("53.8")), f.Demand)
	assert.Equal(t, working.Fails, f.Verdict())
	assert.Contains(t, f.Case, "the bank of battery full and the others nearly empty")

	// a relay carries it, and breaks no motor of that current
	for rating, want := range map[string]working.Verdict{"50": working.Fails, "55": working.Passes} {
		r := judge(t, linked(t, job.Switch{Kind: "relay", RatingA: d(rating), ShortTimeA: null("150"), Load: "resistive"}))
		i := slices.IndexFunc(r.Findings, func(x rules.Finding) bool { return x.ID == "P14" && x.Demand.Equal(f.Demand) })
		require.GreaterOrEqual(t, i, 0)
		assert.Equal(t, want, r.Findings[i].Verdict(), rating)
	}
}

// TestOnlyLinksClose: a switch in the feed of a load joins no batteries.
func TestOnlyLinksClose(t *testing.T) {
	f := finding(t, judge(t, read(t, "clinic.yaml")), "P27", "the circuits")
	assert.Equal(t, working.NotApplicable, f.Verdict())
}

// TestBatteriesOfOneBank: they are joined within 0.1 V of each other, which drives
// 0.1 V ÷ (4 + 1.248 + 3.12 + 4 mΩ) = 8.1 A, whatever the 20 A of the charger.
func TestBatteriesOfOneBank(t *testing.T) {
	own := func(sw job.Switch) job.Job {
		j := linked(t, sw)
		another := j.Batteries[0]
		another.Name = j.Batteries[1].Name
		j.Batteries[1] = another
		return j
	}
	f := finding(t, judge(t, own(job.Switch{Kind: "isolator", RatingA: d("200")})), "P27", "link, its isolator")
	assert.Equal(t, []string{"8.1", "passes"}, []string{f.Demand.Round(1).String(), f.Verdict().String()})
	assert.Contains(t, f.Case, "0.1 V")

	// An isolator of each battery's own joins it to the other that is in.
	j := own(job.Switch{Kind: "isolator", RatingA: d("8")})
	circuit(&j, "battery lead").Switch = &job.Switch{Kind: "isolator", RatingA: d("200")}
	r := judge(t, j)
	assert.Equal(t, working.Passes, verdict(r, "P27", "battery lead, its isolator"))
	assert.Equal(t, working.Fails, verdict(r, "P27", "link, its isolator"))
}

// TestLinksSideBySide: the first of two that closes bears what one alone does;
// and where a cable already joins the banks, a battery's own isolator closes on
// both.
func TestLinksSideBySide(t *testing.T) {
	j := linked(t, job.Switch{Kind: "relay", RatingA: d("100"), Load: "resistive"})
	second := *circuit(&j, "link")
	second.Name = "second link"
	j.Circuits = append(j.Circuits, second)
	r := judge(t, j)
	for _, name := range []string{"link, its relay", "second link, its relay"} {
		f := finding(t, r, "P27", name)
		assert.Equal(t, []string{"105.1", "fails"}, []string{f.Demand.Round(1).String(), f.Verdict().String()}, name)
	}

	// With the battery behind an isolator of its own nothing else changes: that is
	// shut first, as the other relay cannot be.
	circuit(&j, "battery lead").Switch = &job.Switch{Kind: "isolator", RatingA: d("200")}
	r = judge(t, j)
	for _, name := range []string{"link, its relay", "second link, its relay"} {
		f := finding(t, r, "P27", name)
		assert.Equal(t, []string{"105.1", "fails"}, []string{f.Demand.Round(1).String(), f.Verdict().String()}, name)
	}

	j = linked(t, job.Switch{})
	alike(&j, 1)
	circuit(&j, "link").Switch = nil
	circuit(&j, "battery lead").Switch = &job.Switch{Kind: "isolator", RatingA: d("50")}
	assert.Equal(t, working.Fails, verdict(judge(t, j), "P27", "battery lead, its isolator"))
}

// TestFuseOfLinkCarriesOn: a link of 35 mm² class 5 (0.554 mΩ/m, 2.216 mΩ) lets
// (1.3 V + 20 A × 5.248 mΩ) ÷ 12.464 mΩ = 112.7 A flow. A fuse of class T carries
// its rating, and what it holds above that was not found: 110 A does not, and the
// next rating does where the cable bears it.
func TestFuseOfLinkCarriesOn(t *testing.T) {
	rated := func(a string) rules.Finding {
		j := linked(t, job.Switch{Kind: "relay", RatingA: d("200"), Load: "resistive"})
		link := circuit(&j, "link")
		link.Size, link.Device.RatingA = size(t, "35 mm2"), d("125")
		link.FarDevice.Refit(d(a))
		return finding(t, judge(t, j), "P27", "link, at panel")
	}
	f := rated("125")
	assert.Equal(t, []string{"112.7", "passes"}, []string{f.Demand.Round(1).String(), f.Verdict().String()})
	f = rated("110")
	assert.Equal(t, working.Fails, f.Verdict())
	assert.Contains(t, f.Remedy, "125 A")
}

// TestManagementUnitAsALinkCloses: of the 105.1 A above the battery gives all but
// the charger's 20 A, 85.1 A; a unit of 80 A opens in the very moment of need.
func TestManagementUnitAsALinkCloses(t *testing.T) {
	j := linked(t, job.Switch{Kind: "isolator", RatingA: d("200")})
	const where = "battery, as link closes"
	f := finding(t, judge(t, j), "P27", where)
	assert.Equal(t, []string{"passes", "85.1"}, []string{f.Verdict().String(), f.Demand.Round(1).String()}, "of 120 A")
	j.Batteries[0].MaxDischargeA = null("80")
	assert.Equal(t, working.Fails, finding(t, judge(t, j), "P27", where).Verdict())
}

// TestLinesOfLinksSideBySide: one line has two relays behind each other, the other has
// one. As any of them closes the rest stands so that it is the one that joins the
// banks, with the battery's own isolator shut.
func TestLinesOfLinksSideBySide(t *testing.T) {
	relay := job.Switch{Kind: "relay", RatingA: d("100"), Load: "resistive"}
	j := linked(t, relay)
	alike(&j, 1)
	circuit(&j, "battery lead").Switch = &job.Switch{Kind: "isolator", RatingA: d("200")}
	circuit(&j, "link").To = "middle"
	rest := *circuit(&j, "link")
	rest.Name, rest.From, rest.To = "rest of the link", "middle", "panel"
	second := rest
	second.Name, second.From = "second link", "starter battery"
	j.Circuits = append(j.Circuits, rest, second)
	r := judge(t, j)
	for _, name := range []string{"link", "rest of the link", "second link"} {
		assert.Equal(t, 1, about(r, "P27", name+", its relay"), name)
	}
}
