package rules_test

import (
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
)

// starterLithium is the clinic with a lithium starter battery.
func starterLithium(t *testing.T) job.Job {
	j := read(t, "clinic.yaml")
	b := &j.Batteries[2]
	b.Chemistry, b.NominalV, b.FullV, b.EmptyV = "LiFePO4", d("12.8"), d("13.4"), d("13")
	b.MaxChargeA, b.MaxDischargeA, b.CutOutV = null("200"), null("200"), null("10")
	return j
}

// TestBanksByTheirCables: what is called starter and stands on the bus of the house
// serves the house: two of 200 Ah, whatever their names.
func TestBanksByTheirCables(t *testing.T) {
	j := read(t, "clinic.yaml")
	usable := judge(t, j).Bank.UsableWh
	j.Batteries[1].Bank = "starter"
	r := judge(t, j)
	assert.Empty(t, bad(r))
	assert.Equal(t, usable.String(), r.Bank.UsableWh.String())
	assert.Equal(t, "the house bank, without battery B", found(t, r, "C01", "the house bank, without battery B").Where)
}

// TestStarterBatteryInTheCold: lithium iron phosphate takes no charge below 0 °C
// (common practice), and the van stands in -10 °C. With a unit that blocks it, it
// passes; a limit of -20 °C with nothing said about what warms the cells is a
// question.
func TestStarterBatteryInTheCold(t *testing.T) {
	j := starterLithium(t)
	assert.Equal(t, working.Fails, finding(t, judge(t, j), "C02", "starter battery").Verdict())
	j.Batteries[2].LeastChargeC, j.Batteries[2].ColdGuard = null("0"), true
	assert.Equal(t, working.Passes, finding(t, judge(t, j), "C02", "starter battery").Verdict())
	j.Batteries[2].LeastChargeC = null("-20")
	f := finding(t, judge(t, j), "C02", "starter battery")
	assert.Equal(t, working.CannotTell, f.Verdict())
	assert.Contains(t, f.Missing, "above 0 °C")
	j.ColdestC = d("5")
	assert.Equal(t, working.Passes, finding(t, judge(t, j), "C02", "starter battery").Verdict(), "it never gets so cold")
}

// TestStarterBatteryInTheHeat: lead-acid is charged in up to 50 °C (common practice).
// The van's leads beside the engine lie in more, which says nothing of the battery:
// asked where nothing else is stated, judged where it is.
func TestStarterBatteryInTheHeat(t *testing.T) {
	const where = "starter battery, in the heat"
	for hottest, want := range map[string]working.Verdict{"": working.CannotTell, "50": working.Passes, "51": working.Fails} {
		j := read(t, "clinic.yaml")
		j.Batteries[2].HottestC = decimal.NullDecimal{}
		if hottest != "" {
			j.Batteries[2].HottestC = null(hottest)
		}
		assert.Equal(t, want, finding(t, judge(t, j), "C02", where).Verdict(), hottest)
	}
	j := read(t, "clinic.yaml")
	circuit(&j, "battery A lead").AmbientC = d("46") // lithium: 45 °C
	assert.Equal(t, working.Fails, finding(t, judge(t, j), "C02", "battery A, in the heat").Verdict())
}

// TestStarterBatteryCharged: 180 A marked less 45 A are 135 A, and a battery of 95 Ah
// that is 30 % empty lacks 28.5 Ah and takes 28.5 A (the ampere-hour law, k = 1 per
// hour). Where no limit is stated none is asked of lead-acid.
func TestStarterBatteryCharged(t *testing.T) {
	j := read(t, "clinic.yaml")
	f := finding(t, judge(t, j), "C01", "starter battery")
	assert.Equal(t, working.NotApplicable, f.Verdict())
	j.Batteries[2].MaxChargeA = null("28.4")
	f = finding(t, judge(t, j), "C01", "starter battery")
	assert.Equal(t, []string{"fails", "28.5"}, []string{f.Verdict().String(), f.Demand.String()})
	j.Batteries[2].MaxChargeA = null("28.6")
	assert.Equal(t, working.Passes, finding(t, judge(t, j), "C01", "starter battery").Verdict())

	j = starterLithium(t)
	j.Batteries[2].MaxChargeA = decimal.NullDecimal{}
	assert.Equal(t, working.CannotTell, finding(t, judge(t, j), "C01", "starter battery").Verdict())
}

// TestChargeLimitInTheCold: from 0 to 10 °C a lithium cell takes 0.2 A for each Ah
// (common practice), so that two of 200 Ah take 80 A and one 40 A, whatever their
// data sheets say of warm ones: less than the mains charger and the sun give.
func TestChargeLimitInTheCold(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.BankC = null("9.9")
	f := finding(t, judge(t, j), "C01", "the house bank, without battery B")
	assert.Equal(t, []string{"fails", "45", "40"}, []string{f.Verdict().String(), f.Demand.String(), f.Limit.String()})
	j.BankC = null("10")
	assert.Equal(t, working.Passes, finding(t, judge(t, j), "C01", "the house bank, without battery B").Verdict())
}

// TestStarterBatteryFeedsTheConverter: 25 A × 14.2 V ÷ 90 % are 394 W, which at some
// 12.2 V are 32 to 33 A, until the alternator is above the battery.
func TestStarterBatteryFeedsTheConverter(t *testing.T) {
	j := read(t, "clinic.yaml")
	for limit, want := range map[string]working.Verdict{"31": working.Fails, "35": working.Passes} {
		j.Batteries[2].MaxDischargeA = null(limit)
		f := finding(t, judge(t, j), "B01", "starter battery")
		assert.Equal(t, want, f.Verdict(), limit)
		assert.Contains(t, f.Case, "before an alternator holds it up")
	}
}

// TestStarterBatteryStands: of 95 Ah 30 % of 80 % may go, 22.8 Ah. Its self-discharge
// of at most 6 % a month (Encyclopedia of Alternative Energy) is 0.19 Ah a day: 120
// days. A watt of standby at 12 V, 0.084 A rounded up, is
// 2.016 Ah a day more: 10.33 days.
func TestStarterBatteryStands(t *testing.T) {
	j := read(t, "clinic.yaml")
	f := finding(t, judge(t, j), "B19", "starter battery")
	assert.Equal(t, []string{"passes", "120"}, []string{f.Verdict().String(), f.Limit.String()})
	alarm := job.Load{
		Name: "alarm", At: "converter input", PowerW: null("3"), StandbyW: null("1"), Behaves: "power", Percent: d("100"), LeastV: null("9"),
		Supplied: job.Supplied{WorksFromV: null("9"), WorksToV: null("16"), SurvivesV: null("120")},
	}
	j.Loads = append(j.Loads, alarm)
	j.States[0].Loads = append(j.States[0].Loads, "alarm")
	f = finding(t, judge(t, j), "B19", "starter battery")
	assert.Equal(t, []string{"fails", "10.33"}, []string{f.Verdict().String(), f.Limit.String()})
	assert.Equal(t, "the engine does not start", f.Danger)

	last := &j.Loads[len(j.Loads)-1]
	last.Isolated = true // of the standby, for nothing runs
	assert.Equal(t, working.Passes, finding(t, judge(t, j), "B19", "starter battery").Verdict())
	last.HoursADay = d("24") // with the engine for 3 h: 3 W × 21 h are 5.25 Ah a day more
	f = finding(t, judge(t, j), "B19", "starter battery")
	assert.Equal(t, []string{"fails", "4.19"}, []string{f.Verdict().String(), f.Limit.String()})
}

// TestEveryBatteryInTheBayGasses: a flooded battery of 95 Ah on boost makes 20 mA a
// Ah in each of six cells: 0.05 × 6 × 1.9 A are 0.57 m³/h, and 28 cm² for each of
// them (IEC 62485-2, 8.2 and 8.3) are 15.96 cm². What stands beside it is lithium.
func TestEveryBatteryInTheBayGasses(t *testing.T) {
	j := read(t, "clinic.yaml")
	b := &j.Batteries[2]
	b.LengthMM, b.WidthMM, b.HeightMM, b.MassKg = null("350"), null("175"), null("190"), null("22")
	j.Bay.Holds = append(j.Bay.Holds, b.Name)
	r := judge(t, j)
	assert.Equal(t, working.CannotTell, finding(t, r, "B08", "the bay").Verdict(), "of an opening nothing is said")
	assert.Contains(t, bad(r), "B10 the bay: fails", "it takes a place")
	for area, want := range map[string]working.Verdict{"15.95": working.Fails, "15.97": working.Passes} {
		j.Bay.OpeningCM2 = null(area)
		assert.Equal(t, want, finding(t, judge(t, j), "B08", "the bay").Verdict(), area)
	}
}

// TestHeatOfTheBay: of the van's inverter (1 - 0.88) ÷ 0.88 × 1000 + 9 W are lost,
// 145.37 W, 11.21 W of the array's controller (213 W at 95 %), and 17.41 W of each
// battery: 9 mΩ × (44.0 A)², half of what the state takes, the pump of half an hour in six
// with √(0.5 ÷ 6) of its current; a new one among aged gives more, which makes less in
// its 3 mΩ. Of their leads the
// contacts, 0.4 mΩ, and 0.2 m of 95 mm² (0.084 mΩ at 20 °C, out and back) make 1.9 W each,
// the array's (15 A, 1 mΩ and 0.2 m of 10 mm²) 0.4 W; of the inverter's, 74.8 A, the
// contacts alone, 0.4 mΩ, 2.2 W. Through 1.2141 m² of sheet steel at 5.5 W/m²K (VDE
// 0660-500) these 197.9 W make 29.64 K of the 26 °C outside: more than the 45 °C of
// lithium iron phosphate.
func TestHeatOfTheBay(t *testing.T) {
	j := read(t, "clinic.yaml")
	assert.Equal(t, working.Passes, finding(t, judge(t, j), "C02", "battery A, in the heat").Verdict())
	j.Bay.Holds = append(j.Bay.Holds, "inverter")
	circuit(&j, "inverter feed").InBayM = null("0")
	f := finding(t, judge(t, j), "C02", "battery A, in the heat")
	assert.Equal(t, working.Fails, f.Verdict())
	inside, _ := f.Working.Value("T_y")
	assert.Equal(t, f.Demand.String(), inside.String())
	assert.Equal(t, "55.7", f.Demand.Round(1).String())
}

// TestVehicleAsItsMakerBuiltIt: an alternator of 13.8 to 14.4 V on a flooded battery
// in 5 to 40 °C is sound, and nothing is asked.
func TestVehicleAsItsMakerBuiltIt(t *testing.T) {
	for _, volts := range []string{"13.8", "14.2", "14.4"} {
		for _, coldest := range []string{"5", "-10"} {
			j := read(t, "river-workboat.yaml")
			j.ColdestC, j.BankC, j.Alternators[0].RunsAtV = d(coldest), null("5"), d(volts)
			assert.Empty(t, bad(judge(t, j)), volts)
		}
	}
}

// TestBanksOfALink: a relay that joins the banks as the engine runs lets what charges
// either charge both, and leaves them two banks.
func TestBanksOfALink(t *testing.T) {
	r := judge(t, linked(t, job.Switch{Kind: "relay", RatingA: d("100"), Load: "resistive"}))
	var names []string
	for _, f := range r.Findings {
		if f.ID == "C01" {
			names = append(names, f.Where)
		}
	}
	assert.ElementsMatch(t, []string{"the house bank", "starter battery"}, names)
}
