package rules_test

import (
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
)

// What flows through a battery heats it by I² R (Joule), by its high resistance: with
// half of it the bay of the clinic is cooler, and with four times as much too hot.
func TestBatteriesHeatTheirBay(t *testing.T) {
	heat := func(milliohm string) (working.Verdict, decimal.Decimal) {
		j := read(t, "clinic.yaml")
		for i := range j.Batteries[:2] {
			j.Batteries[i].HighMilliohm = null(milliohm)
		}
		f := found(t, judge(t, j), "B09", "the bay")
		w, _ := f.Working.Value("P_v")
		return f.Verdict(), w
	}
	_, less := heat("5")
	_, own := heat("9")
	verdict, _ := heat("36")
	assert.True(t, less.LessThan(own), "%s W, %s W", less, own)
	assert.Equal(t, working.Fails, verdict)
}

// A lead heats the bay with the length that lies in it, by I² R: 25 A through 1 m of
// 16 mm² (IEC 60228, class 5: 1.21 Ω/km), out and back, are 1.51 W at 20 °C and 1.275
// times as much, 1.93 W, at 90 °C. What ends in the bay heats it with all of its length,
// unless less is stated, and with its contacts: 25² × 1 mΩ are 0.63 W.
func TestLeadsInTheBayHeatIt(t *testing.T) {
	heat := func(edit func(*job.Job, *job.Circuit)) decimal.Decimal {
		j := read(t, "clinic.yaml")
		edit(&j, circuit(&j, "converter output"))
		w, _ := found(t, judge(t, j), "B09", "the bay").Working.Value("P_v")
		return w
	}
	none := heat(func(*job.Job, *job.Circuit) {})
	between := func(least, most string, watts decimal.Decimal) {
		t.Helper()
		more := watts.Sub(none)
		assert.True(t, more.GreaterThan(d(least)) && more.LessThan(d(most)), more)
	}
	between("1.5", "1.94", heat(func(_ *job.Job, c *job.Circuit) { c.InBayM = null("1") }))
	between("0.75", "0.98", heat(func(_ *job.Job, c *job.Circuit) { c.InBayM = null("0.5") }))
	holding := func(lies decimal.NullDecimal, contacts string) decimal.Decimal {
		return heat(func(j *job.Job, c *job.Circuit) {
			j.Bay.Holds = append(j.Bay.Holds, "engine converter")
			c.InBayM, c.ContactsMilliohm = lies, d(contacts)
		})
	}
	between("1.5", "1.94", none.Add(holding(decimal.NullDecimal{}, "1")).Sub(holding(null("0"), "1")))
	between("0.6", "0.65", none.Add(holding(null("0"), "1")).Sub(holding(null("0"), "0")))
}
