package rules_test

import (
	"slices"
	"testing"
	"testing/quick"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/paper"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// audited is the row of a load.
func audited(t *testing.T, r paper.Report, name string) facts.LoadAudit {
	t.Helper()
	i := slices.IndexFunc(r.Audit.Loads, func(l facts.LoadAudit) bool { return l.Load == name })
	require.GreaterOrEqual(t, i, 0, name)
	return r.Audit.Loads[i]
}

// TestAuditByHand: 40 W for 24 h at 50 % are 480 Wh. Of 480 + 48 × 7 + 70 × 0.5 +
// 36 × 8 + 800 × 0.6 ÷ 0.88 + 9 × 6 = 1738.46 Wh that is 27.61 %. The bank's
// 3047.424 Wh, 400 Ah × 12.8 V × 0.8 × 0.8 × 0.93, carry its mean of 20 W for
// 152.37 h. The inverter's load takes 800 ÷ 0.88 + 9 = 918.1 W: 3.31 h.
func TestAuditByHand(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Loads[0].PowerW, j.Loads[0].Percent = null("40"), d("50")
	r := judge(t, j)
	fridge := audited(t, r, "vaccine fridge")
	assert.Equal(t, "480", fridge.EnergyWh.String())
	assert.Equal(t, "1738.46", r.Audit.EnergyWh.String())
	assert.Equal(t, "27.61", fridge.SharePercent.String())
	assert.Equal(t, "152.37", fridge.AloneH.Decimal.String())
	assert.Equal(t, "always on", fridge.Class)
	assert.True(t, fridge.MustRun)
	assert.Equal(t, "3.31", audited(t, r, "centrifuge and steriliser").AloneH.Decimal.String())
	assert.Equal(t, "continuous", audited(t, r, "ventilation").Class)
	assert.Equal(t, "intermittent", audited(t, r, "water pump").Class)
	assert.Equal(t, []facts.IdleAudit{{Inverter: "inverter", IdleW: d("9"), OnHours: d("6"), EnergyWh: d("54"), SharePercent: d("3.11")}}, r.Audit.Idle)
}

// TestStandby: 2 W through the 17 h in which a lamp of 48 W is off are 34 Wh
// beside its 336; standing, 2 W and the inverter's 9 are 264 Wh a day, or nothing
// where switches cut them off.
func TestStandby(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Loads[1].StandbyW, j.Inverters[0].Isolated = null("2"), false
	a := judge(t, j).Audit
	assert.Equal(t, "370", a.Loads[1].EnergyWh.String())
	assert.Equal(t, []string{"11", "264"}, []string{a.ParkedW.String(), a.ParkedWh.String()})
	j.Loads[1].Isolated, j.Inverters[0].Isolated = true, true
	assert.Equal(t, "0", judge(t, j).Audit.ParkedWh.String())
}

// TestSharesAreTheWhole: whatever the loads, their shares and those of the idle
// inverters are 100 %, to half a unit of the last place of each.
func TestSharesAreTheWhole(t *testing.T) {
	whole := func(r paper.Report) {
		sum, n := decimal.Zero, int64(0)
		for _, l := range r.Audit.Loads {
			sum, n = sum.Add(l.SharePercent), n+1
		}
		for _, v := range r.Audit.Idle {
			sum, n = sum.Add(v.SharePercent), n+1
		}
		assert.True(t, sum.Sub(d("100")).Abs().LessThanOrEqual(d("0.005").Mul(decimal.NewFromInt(n))), sum)
		workingtest.Guard(t, r.Audit.Working)
		for _, l := range r.Audit.Loads {
			workingtest.Guard(t, l.Working)
		}
	}
	for _, name := range samples {
		whole(judge(t, read(t, name)))
	}
	require.NoError(t, quick.Check(func(watts uint16, hours, duty uint8) bool {
		j := read(t, "library-truck.yaml")
		l := &j.Loads[int(watts)%len(j.Loads)]
		l.PowerW, l.CurrentA = decimal.NewNullDecimal(decimal.New(int64(watts%500)+1, -1)), decimal.NullDecimal{}
		l.HoursADay, l.Percent = decimal.New(int64(hours%241), -1), decimal.NewFromInt(int64(duty%100)+1)
		whole(judge(t, j))
		return !t.Failed()
	}, &quick.Config{MaxCount: 30}))
}

// TestAloneOnLeadAcid: 96 Ah left of 120 Ah, rated in 20 h, give 4.8 A: 5 A empty
// it faster, 2 A do not. What hangs on the other battery is named.
func TestAloneOnLeadAcid(t *testing.T) {
	r := judge(t, read(t, "river-workboat.yaml"))
	assert.True(t, audited(t, r, "bilge pump").TooFast)
	assert.False(t, audited(t, r, "navigation lights").TooFast)
	assert.Equal(t, []string{"engine gauges"}, r.Audit.Elsewhere)
}

// TestAloneUnknown: colder than every table nobody knows how long it runs.
func TestAloneUnknown(t *testing.T) {
	j := read(t, "library-truck.yaml")
	j.BankC, j.ColdestC = null("-30"), d("-30")
	r := judge(t, j)
	assert.False(t, audited(t, r, "door lift").AloneH.Valid)
	assert.Contains(t, r.Bank.Missing, "ask the maker")
	assert.Contains(t, r.Sizing.Missing, "ask the maker")
	assert.Empty(t, r.Sizing.Worksheets)
}

// TestNothingDrawn: a job whose loads never run is refused, whatever is not known
// of its bank.
func TestNothingDrawn(t *testing.T) {
	j := read(t, "river-workboat.yaml")
	j.Batteries[0].RatedH = d("100") // what it gives in a day is to be asked first
	for i := range j.Loads {
		j.Loads[i].HoursADay = decimal.Zero
	}
	_, err := paper.ReportOn(j)
	assert.ErrorContains(t, err, "draws on the house bank")
}
