package rules_test

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/examples/systemcheck/paper"
	"example.org/extralow/examples/systemcheck/rules"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// straight leads the clinic's alternator to the house bank, with no converter
// between.
func straight(t *testing.T) job.Job {
	j := read(t, "clinic.yaml")
	circuit(&j, "alternator lead").To = "main bus"
	for i := range j.States {
		j.States[i].Sources = slices.DeleteFunc(slices.Clone(j.States[i].Sources), func(s string) bool { return s == "engine converter" })
	}
	return j
}

// found is the finding of a rule about a thing.
func found(t *testing.T, r paper.Report, rule, where string) rules.Finding {
	t.Helper()
	i := slices.IndexFunc(r.Findings, func(f rules.Finding) bool { return f.ID == rule && f.Where == where })
	require.GreaterOrEqual(t, i, 0, "%s %s", rule, where)
	return r.Findings[i]
}

// value is what a finding's working gives a symbol.
func value(t *testing.T, f rules.Finding, symbol string) string {
	t.Helper()
	i := slices.IndexFunc(f.Working, func(s working.Step) bool { return s.Symbol == symbol })
	require.GreaterOrEqual(t, i, 0, symbol)
	return f.Working[i].Value.String()
}

// An alternator that cables join to the house bank charges it: 180 A marked less
// 45 A of the vehicle and 15 A of the sun are 150 A, by Kirchhoff's current law.
func TestAlternatorStraightToTheBank(t *testing.T) {
	j := straight(t)
	j.Batteries[0].MaxChargeA, j.Batteries[1].MaxChargeA = null("74"), null("75")
	j.Batteries[0].ColdGuard = false
	r := judge(t, j)
	c01 := found(t, r, "C01", "the house bank")
	assert.Equal(t, working.Fails, c01.Verdict())
	assert.Equal(t, "150", value(t, c01, "I_srcs"))
	assert.Equal(t, "driving", c01.Case)
	assert.Equal(t, working.Fails, found(t, r, "C02", "battery A").Verdict())
	assert.Equal(t, working.Passes, found(t, r, "C02", "battery B").Verdict())
	for _, rule := range []string{"C03", "C04"} { // a lithium bank asks for all that the alternator has
		assert.Equal(t, working.Fails, found(t, r, rule, "alternator").Verdict(), rule)
	}
}

// Without any charger the cold still counts, where the alternator charges.
func TestColdChargeByTheAlternatorAlone(t *testing.T) {
	j := straight(t)
	j.Chargers, j.Solar, j.Bay.Holds = nil, nil, nil
	for i := range j.States {
		j.States[i].Sources = slices.DeleteFunc(j.States[i].Sources, func(s string) bool { return s != "alternator" })
	}
	j.Circuits = slices.DeleteFunc(j.Circuits, func(c job.Circuit) bool {
		return slices.Contains([]string{"engine converter", "mains charger", "roof array"}, c.From)
	})
	j.Batteries[1].ColdGuard = false
	j.Alternators[0].Variable, j.Alternators[0].LeastV = false, decimal.NullDecimal{}
	r := judge(t, j)
	assert.Equal(t, working.Fails, found(t, r, "C02", "battery B").Verdict())
	assert.Equal(t, working.Passes, found(t, r, "C06", "the house bank").Verdict(), "115 A refill a day in two hours")
	assert.Contains(t, found(t, r, "C06", "the house bank").Case, "driving")

	j.Alternators[0].VehicleA = d("165") // more than 80 % of 200 A, hot
	assert.Equal(t, working.Fails, found(t, judge(t, j), "C06", "the house bank").Verdict())
}

// A converter whose sleep voltage is no higher than the starter battery's rested
// voltage never sleeps, and empties it.
func TestConverterSleeps(t *testing.T) {
	for _, c := range []struct {
		sleepV string
		want   working.Verdict
	}{
		{"12.0", working.Fails}, {"12.7", working.Fails}, {"12.71", working.Passes},
	} {
		j := read(t, "clinic.yaml")
		x := &j.Chargers[0]
		x.WakesBy, x.WakeV, x.SleepV = "voltage", null("13.3"), null(c.sleepV)
		assert.Equal(t, c.want, found(t, judge(t, j), "C05", "engine converter, engine stopped").Verdict(), c.sleepV)
	}
}

// A vehicle that varies its alternator's voltage must say how low.
func TestVariableWantsLeastVolts(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "jobs", "clinic.yaml"))
	require.NoError(t, err)
	for _, c := range []struct{ to, want string }{
		{"", "least_v"},
		{"    least_v: 14.3\n", "at most runs_at_v, which is 14.2"},
	} {
		edited := strings.Replace(string(text), "    least_v: 12.5\n", c.to, 1)
		require.NotEqual(t, string(text), edited)
		_, err = job.Read("clinic.yaml", strings.NewReader(edited))
		assert.ErrorContains(t, err, c.want)
	}
	j := read(t, "clinic.yaml")
	x := &j.Chargers[0]
	x.WakesBy, x.WakeV, x.SleepV = "voltage", null("13.3"), null("12.8")
	j.Alternators[0].LeastV = decimal.NullDecimal{}
	_, err = paper.ReportOn(j)
	assert.ErrorContains(t, err, "alternators[0].least_v is missing", "nor does a program get past it")
}

// 200 A at 80 % less 45 A leave 115 A on the road; 96 A less 45 A leave 51 A at
// idle. What loads draw on the engine's side counts against both.
func TestEngineSideLoads(t *testing.T) {
	j := read(t, "clinic.yaml")
	before := judge(t, j)
	j.Loads = append(slices.Clone(j.Loads), job.Load{
		Name: "winch", At: "converter input", CurrentA: null("90"), Behaves: "current", HoursADay: d("0.1"), Percent: d("100"),
	})
	j.States = slices.Clone(j.States)
	for i := range j.States[:2] {
		j.States[i].Loads = append(slices.Clone(j.States[i].Loads), "winch")
	}
	r := judge(t, j)
	for _, rule := range []string{"C03", "C04"} {
		assert.Equal(t, working.Passes, found(t, before, rule, "alternator").Verdict(), rule)
		f := found(t, r, rule, "alternator")
		assert.Equal(t, working.Fails, f.Verdict(), rule)
		assert.True(t, d(value(t, f, "I_dr")).GreaterThan(d(value(t, found(t, before, rule, "alternator"), "I_dr")).Add(d("90"))), "more volts are lost in the feed")
	}
}

// Two chargers over one line lose on it by the sum of their currents.
func TestChargersShareALine(t *testing.T) {
	j := read(t, "clinic.yaml")
	circuit(&j, "mains charger output").To = "engine converter"
	alone := d(value(t, found(t, judge(t, j), "W02", "engine converter, line to the batteries"), "ΔU_p"))
	j.States = slices.Clone(j.States)
	j.States[3].Sources = []string{"mains charger", "engine converter"}
	f := found(t, judge(t, j), "W02", "engine converter, line to the batteries")
	together := d(value(t, f, "ΔU_p"))
	assert.Contains(t, f.Case, "at the practice")
	// 25 A alone, 55 A together: Ohm's law, and a warmer conductor
	assert.True(t, together.Mul(d("25")).GreaterThanOrEqual(alone.Mul(d("55"))), "%s V, then %s V", alone, together)
}

// A bank that may be emptied altogether still fails where it runs flat.
func TestBalanceShedsNothing(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Batteries[0].DepthPercent, j.Batteries[1].DepthPercent = d("100"), d("100")
	j.States[0].HoursDay, j.States[3].HoursDay = d("0.5"), d("0.5")
	f := found(t, judge(t, j), "C08", "the house bank, December")
	assert.Equal(t, working.Fails, f.Verdict())
	assert.Equal(t, "0", value(t, f, "s_floor"))
	assert.True(t, d(value(t, f, "t_shed")).IsPositive())
}

// C06 and C08 reckon with what is left of the capacity, and at the coldest
// that the bank serves at: 2 batteries of 200 Ah at 80 % are 320 Ah.
func TestRefillAndBalanceOfAnAgedBank(t *testing.T) {
	r := judge(t, read(t, "clinic.yaml"))
	for _, c := range [][2]string{{"C06", "the house bank"}, {"C08", "the house bank, December"}} {
		f := found(t, r, c[0], c[1])
		assert.Equal(t, "320", value(t, f, "C"), c[0])
		assert.Equal(t, "15", value(t, f, "T_b"), c[0])
		assert.Contains(t, f.Case, "at the end of its life", c[0])
	}
}

// Lithium iron phosphate takes no charge above 45 °C, lead-acid none
// above 50 °C.
func TestHotCharge(t *testing.T) {
	j := read(t, "clinic.yaml")
	circuit(&j, "battery A lead").AmbientC = d("46")
	r := judge(t, j)
	assert.Equal(t, working.Fails, found(t, r, "C02", "battery A, in the heat").Verdict())
	assert.Equal(t, working.Passes, found(t, r, "C02", "battery B, in the heat").Verdict())
	assert.Equal(t, working.Passes, found(t, r, "C02", "battery A").Verdict())
	j = read(t, "clinic.yaml")
	j.Bay.OutsideC = d("46")
	assert.Equal(t, working.Fails, found(t, judge(t, j), "C02", "battery B, in the heat").Verdict())
}

// TestHoursOfDrivingHold: with the hours of driving that the remedy names the
// bank holds; where the engine charges too little in any hours it says so.
func TestHoursOfDrivingHold(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.States[0].HoursDay, j.States[3].HoursDay = d("0.5"), d("0.5")
	remedy := found(t, judge(t, j), "C08", "the house bank, December").Remedy
	hours, rest, ok := strings.Cut(strings.TrimPrefix(remedy, "drive "), " h a day in place of 0.5 h; or use less")
	require.True(t, ok, remedy)
	assert.NotEmpty(t, rest)
	j.States[0].HoursDay = d(hours)
	assert.Equal(t, working.Passes, found(t, judge(t, j), "C08", "the house bank, December").Verdict(), hours)

	j.States[0].HoursDay, j.Chargers[0].MaxA = d("0.5"), d("1")
	assert.Contains(t, found(t, judge(t, j), "C08", "the house bank, December").Remedy, "no driving of up to 24 h a day holds it")
}

// TestTheSunChargesInEveryState: an array that is wired for good shines on the
// mains too: 30 A and 15 A are more than the 44.9 A that the bank bears without one
// battery, though only the state on site lists the array.
func TestTheSunChargesInEveryState(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Batteries[0].MaxChargeA, j.Batteries[1].MaxChargeA = null("44.9"), null("45")
	r := judge(t, j)
	assert.Equal(t, "45", value(t, found(t, r, "C01", "the house bank"), "I_srcs"))
	assert.Equal(t, "at the practice", found(t, r, "C01", "the house bank").Case)
	assert.Equal(t, working.Passes, found(t, r, "C01", "the house bank, without battery A").Verdict())
	assert.Equal(t, working.Fails, found(t, r, "C01", "the house bank, without battery B").Verdict())
	circuit(&j, "roof array output").To = "starter battery"
	assert.Equal(t, "30", value(t, found(t, judge(t, j), "C01", "the house bank"), "I_srcs"))
}

// TestLeadAcidTakesByItsLaw: joined by a relay, a flooded bank of 200 Ah that is
// 80 % empty takes 160 A, an ampere for each ampere-hour missing (Woodbridge 1935),
// whatever the resistances would let through; 10 % empty it takes 20 A. The loads
// of the state come on top.
func TestLeadAcidTakesByItsLaw(t *testing.T) {
	var draws []decimal.Decimal
	for _, c := range []struct {
		depth string
		want  working.Verdict
	}{{"80", working.Fails}, {"10", working.Passes}} {
		j := read(t, "survey-launch-with-faults.yaml")
		j.Batteries[0].DepthPercent = d(c.depth)
		f := found(t, judge(t, j), "C04", "alternator")
		assert.Equal(t, c.want, f.Verdict(), c.depth)
		draws = append(draws, d(value(t, f, "I_dr")))
	}
	assert.Equal(t, "140", draws[0].Sub(draws[1]).String())
	assert.True(t, draws[1].GreaterThan(d("20")) && draws[1].LessThan(d("35")), draws[1])
}

// TestLeadAcidIsBackWhereAbsorptionEnds: the last tenth of a lead-acid charge takes as
// long as all before, so that a day's use counts as back where absorption ends by its
// tail current (0.02 A an Ah, from memory; 0.01 to 0.04 usual). The whole of the day's
// use is put back, up to there, however little it is.
func TestLeadAcidIsBackWhereAbsorptionEnds(t *testing.T) {
	for _, share := range []string{"1", "0.1"} {
		j := read(t, "library-truck.yaml")
		for i := range j.States {
			j.States[i].HoursDay = j.States[i].HoursDay.Mul(d(share))
		}
		f := found(t, judge(t, j), "C06", "the house bank")
		c, tail, ends := d(value(t, f, "C")), d(value(t, f, "I_tail")), d(value(t, f, "s_nf"))
		assert.Equal(t, "7.04", tail.String(), "0.02 of 352 Ah")
		assert.True(t, ends.GreaterThan(d("85")) && ends.LessThan(d("95")), ends)
		back := ends.Sub(d(value(t, f, "s_0"))).Mul(c).Shift(-2)
		day := judge(t, j).Audit.ChargeAh
		assert.InDelta(t, day.InexactFloat64(), back.InexactFloat64(), 0.02, "a hundredth of a percent of 352 Ah")
		atLeast := back.Div(d("40"))
		assert.True(t, d(value(t, f, "t_fill")).GreaterThan(atLeast), "40 A give no more")
		assert.Equal(t, cite.FromMemory, f.Working.Confidence())
		workingtest.Guard(t, f.Working)
	}
}

// TestBeyondTheLawIsNotTold: no law of ours tells how a lead-acid string of less than
// 30 Ah, or of more than 2000 Ah, or a very cold one that its data sheet lets be
// charged, takes its charge; the rest of the job is judged as ever.
func TestBeyondTheLawIsNotTold(t *testing.T) {
	size := func(ah string) func(*job.Job) {
		return func(j *job.Job) {
			for i := range j.Batteries {
				j.Batteries[i].CapacityAh, j.Batteries[i].MassKg = d(ah), decimal.NullDecimal{}
			}
		}
	}
	for name, spoil := range map[string]func(*job.Job){
		"small": size("36"), "large": size("2600"), // 80 % is left of them
		"cold": func(j *job.Job) {
			j.ColdestC, j.BankC = d("-25"), null("-25")
			for i := range j.Batteries {
				j.Batteries[i].LeastChargeC = null("-30")
			}
		},
	} {
		j := read(t, "library-truck.yaml")
		spoil(&j)
		r := judge(t, j)
		f := found(t, r, "C06", "the house bank")
		assert.Equal(t, working.CannotTell, f.Verdict(), name)
		assert.Contains(t, f.Missing, "clock", name)
		assert.Empty(t, r.Bank.Refills, name)
		assert.Empty(t, r.Charging.Sources, name)
		assert.NotEqual(t, working.CannotTell, found(t, r, "C08", "the house bank").Verdict(), name)
	}
	for _, ah := range []string{"38", "2500"} {
		j := read(t, "library-truck.yaml")
		size(ah)(&j)
		assert.NotEqual(t, working.CannotTell, found(t, judge(t, j), "C06", "the house bank").Verdict(), ah)
	}
}

// TestNoLossesStated: a day without any loss of shade, dirt or wires is asked like any
// other.
func TestNoLossesStated(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Solar[0].LossesPercent = decimal.Zero
	assert.Equal(t, working.Passes, found(t, judge(t, j), "C08", "the house bank, December").Verdict())
}

// TestNeverIsNoTime: a bank whose loads take more than the chargers give is judged
// by the charge that it comes to, not by a time.
func TestNeverIsNoTime(t *testing.T) {
	j := read(t, "library-truck.yaml")
	j.Chargers[0].MaxA, j.Chargers[1].MaxA = d("0.5"), d("0.5")
	j.States = slices.Clone(j.States)
	j.States[2].Loads = []string{"ventilation"} // 2.8 A on the mean
	f := found(t, judge(t, j), "C06", "the house bank")
	assert.Equal(t, []string{"fails", "%", "98"}, []string{f.Verdict().String(), f.Unit, f.Demand.String()})
	assert.Contains(t, f.Case, "never full")
	workingtest.Guard(t, f.Working)
}

// TestHarmByChemistry: what plates metal is lithium;
// lead-acid only takes less and gasses.
func TestHarmByChemistry(t *testing.T) {
	j := read(t, "library-truck.yaml")
	j.ColdestC, j.BankC = d("-25"), null("-25")
	assert.NotContains(t, found(t, judge(t, j), "C02", "string A").Danger, "lithium")
	assert.Contains(t, found(t, judge(t, read(t, "clinic.yaml")), "C02", "battery A").Danger, "plates metal")
}

// TestConverterEmptiesTheStarter: 25 A at 14.2 V and 90 % are 32.07 A at 12.3 V.
// Working for 6 h a day with the engine off it takes 192.4 Ah out of a starter
// battery that can spare 95 × 0.3 × 0.8 = 22.8 Ah; half an hour takes 16 Ah.
func TestConverterEmptiesTheStarter(t *testing.T) {
	const where = "engine converter, what feeds it"
	j := read(t, "clinic.yaml")
	assert.Equal(t, working.NotApplicable, found(t, judge(t, j), "C13", where).Verdict())
	j.States = slices.Clone(j.States)
	j.States[2].Sources = []string{"roof array", "engine converter"}
	f := found(t, judge(t, j), "C13", where)
	assert.Equal(t, working.Fails, f.Verdict())
	assert.Equal(t, []string{"192.4", "22.8", "on site"}, []string{f.Demand.Round(1).String(), f.Limit.String(), f.Case})
	workingtest.Guard(t, f.Working)
	j.States[2].HoursDay = d("0.5")
	assert.Equal(t, working.Passes, found(t, judge(t, j), "C13", where).Verdict())
	for i := range j.States[:2] { // nothing ever fills it again
		j.States[i].Engine, j.States[i].Sources = "off", nil
	}
	f = found(t, judge(t, j), "C13", where)
	assert.Equal(t, []string{"fails", "0"}, []string{f.Verdict().String(), f.Limit.String()})
}

// TestSunFeedsNoConverter: an array on the starter battery may give its 15 A at noon
// and nothing by night, so it spares that battery none of the 192.4 Ah.
func TestSunFeedsNoConverter(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.States, j.Circuits = slices.Clone(j.States), slices.Clone(j.Circuits)
	j.States[2].Sources = []string{"roof array", "engine converter"}
	circuit(&j, "roof array output").To = "starter battery"
	f := found(t, judge(t, j), "C13", "engine converter, what feeds it")
	assert.Equal(t, []string{"fails", "192.4"}, []string{f.Verdict().String(), f.Demand.Round(1).String()})
}

// TestConverterFedByItself: no efficiency lets a converter charge the bank that
// feeds it.
func TestConverterFedByItself(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Chargers[0].FedAt = "main bus"
	_, err := paper.ReportOn(ended(j))
	assert.ErrorContains(t, err, "would feed itself")
}

// TestConverterFedByTheHouse: one that keeps the starter battery charged takes 25 A
// × 14.2 V ÷ 90 % for 10 h a day out of the house bank: 3944 Wh.
func TestConverterFedByTheHouse(t *testing.T) {
	j := read(t, "clinic.yaml")
	before := judge(t, j)
	x := j.Chargers[0]
	x.Name, x.FedAt, x.WakesBy = "keeper", "panel", "engine signal"
	j.Chargers = append(slices.Clone(j.Chargers), x)
	line := *circuit(&j, "converter output")
	line.Name, line.From, line.To = "keeper output", "keeper", "starter battery"
	j.Circuits = append(slices.Clone(j.Circuits), line)
	j.States = slices.Clone(j.States)
	j.States[3].Sources = []string{"mains charger", "keeper"}
	r := judge(t, j)
	assert.Equal(t, "3944", r.Audit.EnergyWh.Sub(before.Audit.EnergyWh).Round(0).String())
	assert.Equal(t, "input of keeper", r.Audit.Loads[len(r.Audit.Loads)-1].Load)
	assert.Equal(t, working.NotApplicable, found(t, r, "C13", "keeper, what feeds it").Verdict())
	assert.Equal(t, working.Fails, found(t, r, "C08", "the house bank, December").Verdict())
}

// TestEmergencyLinkIsNoLoop: a switch that joins the banks for a jump start is open
// in ordinary use, and feeds no converter from its own output.
func TestEmergencyLinkIsNoLoop(t *testing.T) {
	j := read(t, "clinic.yaml")
	link := *circuit(&j, "converter feed")
	link.Name, link.From, link.To, link.Switch = "jump link", "starter battery", "main bus", &job.Switch{Kind: "isolator", RatingA: d("200")}
	j.Circuits = append(slices.Clone(j.Circuits), link)
	assert.Equal(t, working.NotApplicable, found(t, judge(t, j), "C13", "engine converter, what feeds it").Verdict())
}
