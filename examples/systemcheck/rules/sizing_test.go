package rules_test

import (
	"strings"
	"testing"

	"example.org/extralow/battery"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestWorksheetOfLithium works the clinic by hand: a day of 1786.46 Wh and the worst
// quarter of one, 1242.4 Wh, over 12.8 V ÷ 0.8 ÷ 0.8 ÷ 0.93 are 397.56 Ah. Its 200 Ah may be emptied at 200 A and filled
// at 100 A, in 1 and in 2 h; 30 A of the mains charger and 15 A of the sun ask for
// 45 × 2 ÷ 0.93 Ah.
func TestWorksheetOfLithium(t *testing.T) {
	z := judge(t, read(t, "clinic.yaml")).Sizing
	require.Len(t, z.Worksheets, 1)
	x := z.Worksheets[0]
	assert.Equal(t, []string{"397.56", "397.56", "96.78", "1", "2"},
		[]string{x.NeedAh.String(), x.EnergyAh.String(), x.ChargeAh.String(), x.LoadRateH.String(), x.ChargeRateH.String()})
	assert.Equal(t, "energy", x.Governs)
	assert.True(t, x.OwnRate)
	assert.Equal(t, []int{2, 2}, []int{x.Batteries, z.Fitted})
	assert.Equal(t, "at the practice", z.ChargeIn)
}

// TestWorksheetOfLeadAcid: the published worksheet fills no faster than in 10 h,
// so 20 A ask for 200 Ah, 1.3 times as much at 4.4 °C (its own multiplier); AGM
// of 120 Ah for 30 A may be filled in 4 h.
func TestWorksheetOfLeadAcid(t *testing.T) {
	j := read(t, "river-workboat.yaml")
	z := judge(t, j).Sizing
	require.Len(t, z.Worksheets, 2)
	rule := z.Worksheets[1]
	assert.Equal(t, []string{"10", "260", "charge"}, []string{rule.ChargeRateH.String(), rule.ChargeAh.Round(0).String(), rule.Governs})
	own := z.Worksheets[0]
	assert.Equal(t, []string{"4", "104"}, []string{own.ChargeRateH.String(), own.ChargeAh.Round(0).String()})
	assert.True(t, own.OwnRate && own.NeedAh.LessThan(z.FittedAh), "a sound bank comes first as large enough")
	j.Batteries[0].MaxChargeA = decimal.NullDecimal{}
	assert.Len(t, judge(t, j).Sizing.Worksheets, 1, "nobody knows the batteries' own limit")
}

// TestWorksheetAgreesWithB03: a bank of the capacity that the worksheet asks for
// gives the energy that rule B03 wants, and the bank fitted passes that rule
// just where it is as large. The worksheet rounds up to 0.01 Ah.
func TestWorksheetAgreesWithB03(t *testing.T) {
	for _, name := range samples {
		for _, days := range []string{"", "0.4", "1.7", "3", "7"} {
			if testing.Short() && days != "" {
				break
			}
			j := read(t, name)
			if days != "" {
				j.Needs.AutonomyDays = d(days)
			}
			r := judge(t, j)
			b03 := found(t, r, "B03", "the house bank")
			if b03.Verdict() == working.CannotTell {
				assert.NotEmpty(t, r.Sizing.Missing, "%s, %s days", name, days)
				continue
			}
			for _, x := range r.Sizing.Worksheets {
				workingtest.Guard(t, x.Working)
				assert.True(t, x.NeedAh.GreaterThanOrEqual(x.EnergyAh))
				assert.True(t, gives(t, j, x.EnergyAh).GreaterThanOrEqual(b03.Demand), "%s, %s days", name, days)
				if b03.Verdict() == working.Passes {
					assert.True(t, x.EnergyAh.LessThan(r.Sizing.FittedAh.Add(d("0.01"))), "%s, %s days", name, days)
				} else {
					assert.True(t, x.EnergyAh.GreaterThan(r.Sizing.FittedAh), "%s, %s days", name, days)
				}
			}
		}
	}
}

// gives is what the job's bank gives with another capacity.
func gives(t *testing.T, j job.Job, capacityAh decimal.Decimal) decimal.Decimal {
	t.Helper()
	b := j.Batteries[0]
	coldest := j.BankC
	if !coldest.Valid {
		coldest = decimal.NewNullDecimal(j.ColdestC)
	}
	usable, err := battery.Bank{Series: 1, BatteryC: coldest, Batteries: []battery.BankBattery{{
		Name: "sized", Chemistry: b.Chemistry, NominalV: b.NominalV, CapacityAh: capacityAh, FullV: b.FullV, EmptyV: b.EmptyV,
		DepthPercent: decimal.NewNullDecimal(b.DepthPercent), AgeingPercent: decimal.NewNullDecimal(b.AgeingPercent),
	}}}.Usable()
	require.NoError(t, err)
	return usable.EnergyWh.Decimal
}

// TestWorksheetAsks: without the limits that its hours follow from it says whom
// to ask, as it does where lead-acid is emptied faster than it is rated at.
func TestWorksheetAsks(t *testing.T) {
	for name, spoil := range map[string]func(j *job.Job){
		"discharge current": func(j *job.Job) { j.Batteries[1].MaxDischargeA = decimal.NullDecimal{} },
		"charging current":  func(j *job.Job) { j.Batteries[1].MaxChargeA = decimal.NullDecimal{} },
		"no table reaches":  func(j *job.Job) { j.ColdestC, j.BankC = d("-40"), null("-40") },
		"by hand":           func(j *job.Job) { j.Batteries[1].MaxDischargeA = null("0.1") }, // 2000 h
	} {
		j := read(t, "clinic.yaml")
		spoil(&j)
		assert.Contains(t, judge(t, j).Sizing.Missing, name)
	}
	j := read(t, "library-truck.yaml")
	for i := range j.Batteries {
		j.Batteries[i].RatedH = d("120")
	}
	assert.Contains(t, judge(t, j).Sizing.Missing, "120 h")
}

// TestB03NamesTheCapacity: 9 days of 1786.46 Wh at 12.8 V, 0.8 deep, aged to 0.8
// and at 93 % in the cool are 2110.4 Ah, or 11 batteries of 200 Ah.
func TestB03NamesTheCapacity(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Needs.AutonomyDays = d("9")
	f := found(t, judge(t, j), "B03", "the house bank")
	assert.True(t, strings.HasPrefix(f.Remedy, "add capacity: the worksheet asks for 2111 Ah, 400 are fitted (11 such batteries in place of 2)"), f.Remedy)
}

// TestSagIsTheTightest: of rules B05 and W04 the one with the fewest volts to
// spare is named; it governs where it fails.
func TestSagIsTheTightest(t *testing.T) {
	j := read(t, "clinic.yaml")
	r := judge(t, j)
	for _, f := range r.Findings {
		if f.ID == "B05" || f.ID == "W04" {
			assert.False(t, f.Margin().LessThan(r.Sizing.Sag.Margin()), "%s %s", f.ID, f.Where)
		}
	}
	assert.Equal(t, working.Passes, r.Sizing.Sag.Verdict())
	j.Loads[2].LeastV = null("12.6")
	sag := judge(t, j).Sizing.Sag
	assert.Equal(t, []string{"W04", "water pump", "fails"}, []string{sag.ID, sag.Where, sag.Verdict().String()})
}
