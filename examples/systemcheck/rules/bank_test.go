package rules_test

import (
	"slices"
	"strings"
	"testing"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/examples/systemcheck/paper"
	"example.org/extralow/examples/systemcheck/rules"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// finding is the worst of a rule about one thing.
func finding(t *testing.T, r paper.Report, id, where string) rules.Finding {
	t.Helper()
	i := slices.IndexFunc(r.Findings, func(f rules.Finding) bool { return f.ID == id && f.Where == where })
	require.GreaterOrEqual(t, i, 0, "%s %s", id, where)
	f := r.Findings[i]
	if f.Working != nil {
		workingtest.Guard(t, f.Working)
	}
	return f
}

func schedule(t *testing.T, r paper.Report, name string) facts.Circuit {
	t.Helper()
	i := slices.IndexFunc(r.Circuits, func(c facts.Circuit) bool { return c.Name == name })
	require.GreaterOrEqual(t, i, 0, name)
	return r.Circuits[i]
}

// TestSurgeWithABatteryMissing: on both batteries the inverter keeps more than
// 11.3 V through its surge, on one it does not. By hand, of one battery of 12.8 V
// and 9 mΩ: 1500 ÷ 0.88 + 9 W and 18 A beside it are 160 to 180 A, and with some
// 1 mΩ of cable 1.6 to 1.9 V are lost, so 10.9 to 11.2 V are left.
func TestSurgeWithABatteryMissing(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Inverters[0].CutOutV = d("11.3")
	f := finding(t, judge(t, j), "B05", "inverter")
	assert.Equal(t, working.Fails, f.Verdict())
	assert.Contains(t, f.Case, "without battery")
	assert.True(t, f.Below, "a least value is no greatest one")
	left, _ := f.Working.Value("U_L")
	assert.True(t, left.GreaterThan(d("10.8")) && left.LessThan(d("11.2")), left)
}

// TestChargingWithABatteryMissing: what charged two batteries goes into the one
// left, so its lead carries all of it, 15 A of the sun by day too (Kirchhoff).
func TestChargingWithABatteryMissing(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Chargers[1].MaxA = d("120")
	r := judge(t, j)
	assert.Equal(t, "67.5", schedule(t, r, "battery A lead").DesignA.Round(2).String(), "in normal use they share it")
	f := finding(t, r, "P36", "battery A lead, at battery A")
	assert.Equal(t, "135", f.Demand.Round(2).String())
	assert.Contains(t, f.Case, "charging without loads and without battery B")
}

// TestFullBattery: lamps of 4 A at 12 V are 3 Ω. No more than 12.8 V ÷ 3 Ω =
// 4.27 A flows from empty batteries; from full ones at 14.2 V up to 4.73 A.
func TestFullBattery(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Loads[1].Behaves = "resistance"
	lights := schedule(t, judge(t, j), "lights")
	assert.True(t, lights.DesignA.GreaterThan(d("4.27")), lights.DesignA)
	assert.True(t, lights.DesignA.LessThan(d("4.74")), lights.DesignA)
	assert.Contains(t, lights.Case, "full batteries")
}

// TestStartOfADirectLoad: the pump runs at 5 A, but its start at 500 W leaves it
// less than 11 V of 12.2 V. Its cable is not rated for the start.
func TestStartOfADirectLoad(t *testing.T) {
	j := read(t, "river-workboat.yaml")
	i := slices.IndexFunc(j.Loads, func(l job.Load) bool { return l.Name == "bilge pump" })
	j.Loads[i].LeastV = null("11")
	assert.Equal(t, working.Passes, finding(t, judge(t, j), "W04", "bilge pump").Verdict())
	j.Loads[i].SurgeW = null("500")
	r := judge(t, j)
	f := finding(t, r, "W04", "bilge pump")
	assert.Equal(t, working.Fails, f.Verdict())
	assert.Contains(t, f.Case, "bilge pump starting")
	assert.Equal(t, working.Passes, finding(t, r, "W02", "bilge pump").Verdict(), "the limit of the code is for what runs")
	assert.Equal(t, "5", schedule(t, r, "bilge pump").DesignA.Round(2).String())
}

// TestGassingWithoutBay: IEC 62485-2 table 1 has hydrogen from vented and from
// valve-regulated cells, so no answer is not a pass.
func TestGassingWithoutBay(t *testing.T) {
	for chemistry, want := range map[tables.Chemistry]working.Verdict{
		tables.Flooded: working.CannotTell, tables.AGM: working.CannotTell, tables.LiFePO4: working.NotApplicable,
	} {
		j := read(t, "library-truck.yaml")
		if chemistry == tables.LiFePO4 {
			j = read(t, "clinic.yaml")
		}
		for i := range j.Batteries {
			if j.Batteries[i].Bank == "house" {
				j.Batteries[i].Chemistry = chemistry
			}
		}
		j.Bay = nil
		r := judge(t, j)
		assert.Equal(t, want, finding(t, r, "B08", "the bay").Verdict(), chemistry)
		fixed := finding(t, r, "B13", "the bay").Verdict()
		assert.True(t, (fixed == working.CannotTell) != (want == working.CannotTell), "%s: the bay is asked for once", chemistry)
		assert.Equal(t, working.NotApplicable, finding(t, r, "B10", "the bay").Verdict(), chemistry)
		assert.Contains(t, strings.Join(r.Unjudged, "\n"), "The bay, which is not described")
	}
}

// TestWithoutWeights: whether the axles bear a job on wheels is not known from
// nothing; a boat has none.
func TestWithoutWeights(t *testing.T) {
	for craft, want := range map[string]working.Verdict{"vehicle": working.CannotTell, "trailer": working.CannotTell, "boat": working.NotApplicable} {
		j := read(t, "clinic.yaml")
		j.Craft, j.Weights = craft, nil
		r := judge(t, j)
		assert.Equal(t, want, finding(t, r, "B14", "the vehicle").Verdict(), craft)
		assert.Equal(t, working.NotApplicable, finding(t, r, "B21", "the vehicle").Verdict(), craft)
	}
}

// TestWhatSupplyItBears: what an inverter or a unit on an alternator's bus bears at
// the most decides whether it is destroyed; of other loads it is listed.
func TestWhatSupplyItBears(t *testing.T) {
	j := read(t, "clinic.yaml")
	assert.Equal(t, []string{
		"Starts, of which no surge_w is stated: whether device and inverter ride through them, and what is left meanwhile: examination lights, water pump, ventilation.",
		"Stalls, of which no stall_a and stall_s are stated: whether device or protector opens before a motor burns: vaccine fridge, centrifuge and steriliser.",
		"Ranges of supply voltage, of which no works_from_v, works_to_v or supply_code is stated: water pump, ventilation.",
		"What the vehicle itself draws while it stands, of which no vehicle_parked_a is stated: it is not in the drain of starter battery.",
		"Holders of devices, of which no holder_a is stated: 11.",
		"Edges and bulkheads, of which neither passes_edge nor edge_guard is stated: circuits that may pass one, 11.",
		"Spaces in which petrol vapour or liquefied gas may gather, of which none is stated: whether what stands there is ignition protected.",
	}, judge(t, j).Unjudged)
	j.Inverters[0].WorksFromV, j.Inverters[0].WorksToV = decimal.NullDecimal{}, decimal.NullDecimal{}
	assert.Equal(t, working.CannotTell, finding(t, judge(t, j), "P18", "inverter").Verdict())
	j.Loads[2].At = "converter input" // of the water pump, where the alternator feeds
	j.Circuits = slices.DeleteFunc(j.Circuits, func(c job.Circuit) bool { return c.Name == "pump" })
	assert.Equal(t, working.CannotTell, finding(t, judge(t, j), "P18", "water pump").Verdict())
	j.Needs.ParkedDays = decimal.NullDecimal{}
	j.Loads[2].SurgeW = null("90")
	assert.Equal(t, []string{
		"Starts, of which no surge_w is stated: whether device and inverter ride through them, and what is left meanwhile: examination lights, ventilation.",
		"Stalls, of which no stall_a and stall_s are stated: whether device or protector opens before a motor burns: vaccine fridge, water pump, centrifuge and steriliser.",
		"Ranges of supply voltage, of which no works_from_v, works_to_v or supply_code is stated: ventilation.",
		"The time of standing, of which no parked_days is stated: what drains the batteries meanwhile.",
		"Holders of devices, of which no holder_a is stated: 10.",
		"Edges and bulkheads, of which neither passes_edge nor edge_guard is stated: circuits that may pass one, 10.",
		"Spaces in which petrol vapour or liquefied gas may gather, of which none is stated: whether what stands there is ignition protected.",
	}, judge(t, j).Unjudged)
}

// TestUnguardedCrankingCableIsListed: no rule asks for a device in it; so it is said
// that none judged its short circuit.
func TestUnguardedCrankingCableIsListed(t *testing.T) {
	j := starter(t, "50 mm2", nil)
	list := func() string { return strings.Join(judge(t, j).Unjudged, "\n") }
	assert.Contains(t, list(), "Short circuits of cranking cables, which no device guards, as is common practice: starter cable.")
	circuit(&j, "starter cable").Device = &job.Device{Family: "UL 248-15 T 300 V", RatingA: d("400"), AlongMM: d("100")}
	assert.NotContains(t, list(), "Short circuits of cranking cables")
}

// TestPlacesForBatteries: two batteries do not stand in one place.
func TestPlacesForBatteries(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Bay.Across = d("1")
	assert.Contains(t, bad(judge(t, j)), "B10 the bay: fails")
}

// TestEveryBatteryInBay: the second battery of a bank stands in the bay and pulls
// at its fixings as the first does. 700 mm do not go into 760 with 15 mm to each
// wall and the bend of a cable; 90 kg at 10 g pull with 8826 N at four fixings.
func TestEveryBatteryInBay(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Batteries[1].LengthMM, j.Batteries[1].WidthMM, j.Batteries[1].HeightMM = null("700"), null("400"), null("400")
	j.Batteries[1].MassKg = null("90")
	got := bad(judge(t, j))
	for _, id := range []string{"B10", "B11", "B12", "B13"} {
		assert.Contains(t, got, id+" the bay: fails")
	}

	j = read(t, "clinic.yaml")
	b := &j.Batteries[1]
	b.WidthMM, b.MassKg = decimal.NullDecimal{}, decimal.NullDecimal{}
	r := judge(t, j)
	assert.Equal(t, []string{"B13 the bay: cannot tell", "B10 the bay: cannot tell"}, bad(r))
	for _, f := range r.Findings {
		if f.Verdict() == working.CannotTell {
			assert.Contains(t, f.Missing, b.Name, f.ID)
		}
	}
}

// TestBatteriesOnTheScales: two batteries of 235 kg are 470 kg. An item of 58 kg
// cannot hold them, so either they stood in the van when it was weighed or they
// are forgotten; 593 kg of items altogether could hold them, and 300 kg could not.
func TestBatteriesOnTheScales(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Batteries[0].MassKg, j.Batteries[1].MassKg = null("235"), null("235")
	j.Bay.FixingN = null("40000") // B13 is not asked here
	assert.Empty(t, bad(judge(t, j)), "593 kg of items")
	j.Weights.Items = j.Weights.Items[:2]
	r := judge(t, j)
	assert.Equal(t, []string{"B14 the house batteries: cannot tell"}, bad(r))
	assert.Contains(t, finding(t, r, "B14", "the house batteries").Missing, "470 kg and all items together 72 kg")
	j.Weights.Weighed = true
	assert.Empty(t, bad(judge(t, j)))
}

// TestBoatWithWeights: a boat has no axles, whatever was weighed (nothing to hold against a plate).
func TestBoatWithWeights(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Craft, j.Weights.GrossMostKg = "boat", d("10")
	r := judge(t, j)
	for _, id := range []string{"B14", "B21"} {
		assert.Equal(t, "a boat has no axles", finding(t, r, id, "the vehicle").Silent)
	}
}

// TestFrontLifted: no axle bears less than nothing. 593 kg at 7 m lift the front
// of a van of 3.6 m by 593 × 3.4 ÷ 3.6 = 560 kg, and a van of 500 kg there by all.
func TestFrontLifted(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Weights.FrontKg, j.Weights.RearMostKg = d("500"), d("5000")
	for i := range j.Weights.Items {
		j.Weights.Items[i].BehindM = d("7")
	}
	assert.Equal(t, []string{"B21 front axle or coupling: fails"}, bad(judge(t, j)))
}

// TestNoHouseBattery: without a house bank there is nothing to judge, and a caller
// is told so.
func TestNoHouseBattery(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Batteries = j.Batteries[2:]
	_, err := paper.ReportOn(j)
	assert.ErrorContains(t, err, "batteries is a list without a house battery")
}

// TestNothingAtIdle: an alternator that gives 0 A at idle leaves the vehicle's own
// 45 A and the converter's input to the starter battery: 0 − 45 = −45 A to spare.
func TestNothingAtIdle(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Alternators[0].IdleA = null("0")
	r := judge(t, j)
	assert.Equal(t, []string{"C03 alternator: fails"}, bad(r))
	assert.Equal(t, "-45", finding(t, r, "C03", "alternator").Limit.String())
}

// TestLongerThanItsStates: the clinic's lamps are on for 7 h, half an hour at the
// roadside and six on site listed; the rest is taken for granted, and said.
func TestLongerThanItsStates(t *testing.T) {
	j := read(t, "clinic.yaml")
	note := "examination lights: in use for 7 h a day, but the states that list it last 6.5 h; the rest counts as spread over the day."
	assert.Contains(t, judge(t, j).Assumed, note)
	j.Loads[1].HoursADay = d("6.5")
	assert.Len(t, judge(t, j).Assumed, 1, "of the terminals alone")
}

// TestColdBank: two of 200 Ah at 12.8 V, 80 % deep and 80 % aged, give 3276.8
// Wh warm and 70 % of that, 2293.76 Wh, at -10 °C (typical of data sheets, from
// memory).
func TestColdBank(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.BankC = decimal.NullDecimal{}
	r := judge(t, j)
	assert.Equal(t, "2293.76", r.Bank.UsableWh.String())
	assert.Equal(t, working.Fails, finding(t, r, "B03", "the house bank").Verdict())
}

// TestNoCapacityStated: colder than every table, or emptied faster than rated,
// the capacity has to be asked for.
func TestNoCapacityStated(t *testing.T) {
	j := read(t, "library-truck.yaml")
	j.BankC, j.ColdestC = null("-30"), d("-30")
	r := judge(t, j)
	for _, id := range []string{"B03", "B19"} {
		assert.Equal(t, working.CannotTell, finding(t, r, id, "the house bank").Verdict(), id)
	}
	j = read(t, "library-truck.yaml")
	j.Batteries[1].RatedH = d("120") // 220 Ah: a day of use takes more than 1.83 A
	assert.Equal(t, working.CannotTell, finding(t, judge(t, j), "B03", "the house bank").Verdict())
}

// TestSecondRating: by hand, 2492 Wh a day of 24 V are 4.33 A, 2.17 A a string.
// 220 Ah in 120 h are 1.83 A, 200 Ah in 20 h are 10 A: k_P = ln 6 ÷ ln(10 ÷ 1.833)
// = 1.056, and 220 × (1.833 ÷ 2.17)^0.056 = 217.9 Ah. One rated in 20 h stands as
// it is, and so does one whose 100 h take 2.2 A.
func TestSecondRating(t *testing.T) {
	j := read(t, "library-truck.yaml")
	rated := judge(t, j).Bank.UsableWh
	j.Batteries[1].RatedH = d("100")
	assert.Equal(t, rated.String(), judge(t, j).Bank.UsableWh.String())
	j.Batteries[1].RatedH = d("120")
	r := judge(t, j)
	f := finding(t, r, "B03", "the house bank")
	assert.Equal(t, working.CannotTell, f.Verdict())
	assert.Contains(t, f.Missing, "ask the maker of string B for its capacity at ")
	assert.Equal(t, f.Missing, r.Bank.Missing, "the summary asks what the rule asks")
	j.Batteries[1].FastAh, j.Batteries[1].FastH = null("200"), null("20")
	r = judge(t, j)
	f = finding(t, r, "B03", "the house bank")
	assert.Equal(t, working.Passes, f.Verdict())
	gives, ok := f.Working.Value("C_I")
	assert.True(t, ok && gives.Round(1).Equal(d("217.9")), gives)
	ah, _ := f.Working.Value("C_s.2")
	assert.Equal(t, gives.String(), ah.String())
	usable, _ := f.Working.Value("E_u")
	assert.Equal(t, usable.String(), r.Bank.UsableWh.String(), "the summary says what the rule says")
	assert.True(t, usable.LessThan(rated))
	j.Batteries[1].FastAh, j.Batteries[1].FastH = null("219"), null("110") // 1.99 A
	assert.Contains(t, finding(t, judge(t, j), "B03", "the house bank").Missing, "219 Ah in 110 h")
}

// TestMustRunBehindAnInverter: what must run behind an inverter lasts until that
// switches off, at 10.8 V of its own; lamps that are shed at 10.7 V outlast it.
func TestMustRunBehindAnInverter(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Loads[0].MustRun, j.Loads[4].MustRun = false, true
	f := finding(t, judge(t, j), "B20", "centrifuge and steriliser")
	assert.Equal(t, working.NotApplicable, f.Verdict())
	assert.Contains(t, f.Silent, "vaccine fridge, examination lights, water pump, ventilation")
	j.Loads[1].ShedsV = null("10.7")
	assert.Equal(t, working.Fails, finding(t, judge(t, j), "B20", "centrifuge and steriliser").Verdict())
	j.Loads[1].ShedsV = null("12")
	f = finding(t, judge(t, j), "B20", "centrifuge and steriliser")
	assert.Equal(t, working.Passes, f.Verdict())
	lo, _ := f.Working.Value("U_lo")
	assert.Equal(t, "10.8", lo.String())
}

// TestInverterSeesItsOwnVolts: in every state the inverter and the fridge lose
// what they share alike; by hand the rest of the fridge's way, 18 A through 15 mΩ
// and 4.6 A through 40 mΩ, is some 0.45 V, and that of the inverter, 75 A through
// 1.2 mΩ, some 0.09 V.
func TestInverterSeesItsOwnVolts(t *testing.T) {
	j := read(t, "clinic.yaml")
	for leastV, want := range map[string]working.Verdict{"10.3": working.Passes, "10.5": working.Fails} {
		j.Loads[0].LeastV = null(leastV)
		f := finding(t, judge(t, j), "B20", "vaccine fridge")
		assert.Equal(t, want, f.Verdict(), leastV)
		assert.Contains(t, f.Case, "on site")
	}
}

// TestShedBelowTheBattery: a device that sheds a load at 9.5 V lets it draw on
// past the 10 V at which the batteries open, whatever the load says itself.
func TestShedBelowTheBattery(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Loads[1].ShedsV = null("9.5")
	f := finding(t, judge(t, j), "B04", "battery A")
	assert.Equal(t, working.Fails, f.Verdict())
	assert.Contains(t, f.Case, "examination lights")
	j.Loads[1].ShedsV = null("11.5")
	assert.Equal(t, working.Passes, finding(t, judge(t, j), "B04", "battery A").Verdict())
}

// TestMustRunOutOfTheWay: at the posts nothing is lost on the way, and in no state
// no current flows: 10.8 V at the inverter against 10 V either way. On the
// starter battery, of lead-acid, no note is due on a flat curve.
func TestMustRunOutOfTheWay(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Loads[0].At = "battery A"
	f := finding(t, judge(t, j), "B20", "vaccine fridge")
	starves, _ := f.Working.Value("U_ms")
	assert.Equal(t, "10", starves.String())
	j = read(t, "clinic.yaml")
	for i := range j.States {
		j.States[i].Loads = slices.DeleteFunc(slices.Clone(j.States[i].Loads), func(l string) bool { return l == "vaccine fridge" })
	}
	_, err := paper.ReportOn(j)
	assert.ErrorContains(t, err, "want a state that lists it", "one that no state runs is no question")
	j = read(t, "clinic.yaml")
	assert.Contains(t, finding(t, judge(t, j), "B20", "vaccine fridge").Working.String(), "the curve is flat")
	j.Loads[0].At, j.Loads[1].At, j.Loads[1].ShedsV = "converter input", "converter input", null("10.4")
	f = finding(t, judge(t, j), "B20", "vaccine fridge")
	assert.Equal(t, working.Passes, f.Verdict())
	assert.NotContains(t, f.Working.String(), "the curve is flat")
}

// TestMustRunStarvedAnyway: on 200 m of 0.75 mm2 no voltage holds at 100 A, or
// little is left; the order is then not the question, or fails, and nothing
// stops.
func TestMustRunStarvedAnyway(t *testing.T) {
	for _, behaves := range []string{"power", "current"} {
		j := read(t, "clinic.yaml")
		circuit(&j, "fridge").LengthM, circuit(&j, "fridge").Size = d("200"), size(t, "0.75 mm2")
		j.Loads[0].PowerW, j.Loads[0].Behaves = null("1200"), behaves
		j.Loads[0].SurgeW, j.Loads[0].SurgeS = decimal.NullDecimal{}, decimal.NullDecimal{}
		f := finding(t, judge(t, j), "B20", "vaccine fridge")
		assert.NotEqual(t, working.Passes, f.Verdict(), behaves)
	}
}

// TestNoSwitchNoOrder: nothing on the boat switches off by voltage.
func TestNoSwitchNoOrder(t *testing.T) {
	f := finding(t, judge(t, read(t, "river-workboat.yaml")), "B20", "bilge pump")
	assert.Equal(t, working.NotApplicable, f.Verdict())
	assert.Contains(t, f.Silent, "sounder and radio")
	assert.NotContains(t, f.Silent, "engine gauges", "they hang on the cranking battery")
}

// TestFreezing: half charged a battery has a density of 1.190 at the least (the
// five-point table), and acid of 1.150 freezes at 5 °F, -15 °C (OD1002).
func TestFreezing(t *testing.T) {
	j := read(t, "library-truck.yaml")
	j.ColdestC = d("-14.9")
	assert.Equal(t, working.Passes, finding(t, judge(t, j), "B07", j.Batteries[0].Name).Verdict())
	j.ColdestC = d("-15.1")
	assert.Equal(t, working.Fails, finding(t, judge(t, j), "B07", j.Batteries[0].Name).Verdict())
	clinic := read(t, "clinic.yaml") // lithium
	assert.Equal(t, working.NotApplicable, finding(t, judge(t, clinic), "B07", "battery A").Verdict())
}

// TestNewAmongAged: 3 mΩ beside 9 mΩ, each with some 0.6 mΩ of lead, share as
// 9.6 to 3.6: the new one takes 73 % of 90 A, about 66 A, and the aged pair half
// of 92 A each.
func TestNewAmongAged(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Batteries[0].MaxDischargeA = null("60")
	f := finding(t, judge(t, j), "B01", "battery A")
	assert.Equal(t, working.Fails, f.Verdict())
	assert.Contains(t, f.Case, "battery A new among aged")
	amps, _ := f.Working.Value("I_so")
	assert.Equal(t, "66", amps.Round(0).String())
}

// TestNewBatteries: with 0.1 mΩ inside, the leads alone decide the shares, and
// the battery on the short one takes more than on aged batteries.
func TestNewBatteries(t *testing.T) {
	j := read(t, "clinic.yaml")
	circuit(&j, "battery B lead").LengthM = d("5")
	for i := range 2 {
		j.Batteries[i].LowMilliohm, j.Batteries[i].HighMilliohm = null("0.1"), null("0.1")
	}
	even := judge(t, j).Bank.Shares[0].TogetherA
	for i := range 2 {
		j.Batteries[i].HighMilliohm = null("30")
	}
	assert.True(t, judge(t, j).Bank.Shares[0].TogetherA.GreaterThanOrEqual(even.Mul(d("0.99"))))
}

// TestResistanceNobodyKnows: none is listed for 12.8 V and 200 Ah, so no
// voltage that rests on it passes; a fault still fails.
func TestResistanceNobodyKnows(t *testing.T) {
	j := read(t, "clinic.yaml")
	b := &j.Batteries[0]
	b.LowMilliohm, b.HighMilliohm = decimal.NullDecimal{}, decimal.NullDecimal{}
	j.Loads[2].LeastV = null("12.7")
	r := judge(t, j)
	assert.Equal(t, working.CannotTell, finding(t, r, "P17", "vaccine fridge").Verdict())
	assert.Equal(t, working.CannotTell, finding(t, r, "B05", "inverter").Verdict())
	assert.Equal(t, working.Fails, finding(t, r, "W04", "water pump").Verdict())
	assert.Contains(t, finding(t, r, "B17", "battery A").Missing, "no typical range")
}

// TestEachOfTwoUnknown: what holds of one of two batteries alike holds of the other.
func TestEachOfTwoUnknown(t *testing.T) {
	j := read(t, "clinic.yaml")
	for i := range 2 {
		j.Batteries[i].LowMilliohm, j.Batteries[i].HighMilliohm = decimal.NullDecimal{}, decimal.NullDecimal{}
	}
	r := judge(t, j)
	assert.Equal(t, finding(t, r, "B17", "battery A").Missing, finding(t, r, "B17", "battery B").Missing)
	assert.Contains(t, finding(t, r, "B05", "inverter").Missing, "the resistance of battery A and battery B first")
}

// TestStandsWithTheFridgeOn: 55 W at 40 % are 22 W, 528 Wh a day: of no more
// than 3276.8 Wh nothing is left after 6.3 days.
func TestStandsWithTheFridgeOn(t *testing.T) {
	j := read(t, "clinic.yaml")
	assert.Equal(t, working.Passes, finding(t, judge(t, j), "B19", "the house bank").Verdict())
	j.States[4].Parked = true
	f := finding(t, judge(t, j), "B19", "the house bank")
	assert.Equal(t, working.Fails, f.Verdict())
	days, _ := f.Working.Value("N_pk")
	assert.True(t, days.GreaterThan(d("4")) && days.LessThan(d("6.3")), days)
}

// TestOneResistanceStated: the typical range of the other, from memory, gives way to
// the one that is stated: no battery is worse new than old.
func TestOneResistanceStated(t *testing.T) {
	for _, stated := range []string{"0.2", "900"} {
		for _, one := range []func(b *job.Battery){
			func(b *job.Battery) { b.LowMilliohm, b.HighMilliohm = null(stated), decimal.NullDecimal{} },
			func(b *job.Battery) { b.LowMilliohm, b.HighMilliohm = decimal.NullDecimal{}, null(stated) },
		} {
			j := read(t, "clinic.yaml")
			one(&j.Batteries[2])
			r, err := paper.ReportOn(j)
			require.NoError(t, err)
			assert.Equal(t, working.CannotTell, finding(t, r, "B17", "starter battery").Verdict())
		}
	}
}

// TestTwoAlternatorsInOneState: the vehicle's own loads of each are its own.
func TestTwoAlternatorsInOneState(t *testing.T) {
	j := read(t, "clinic.yaml")
	second, lead := j.Alternators[0], j.Circuits[12]
	require.Equal(t, "alternator lead", lead.Name)
	second.Name, lead.Name, lead.From = "second alternator", "second alternator lead", "second alternator"
	j.Alternators, j.Circuits = append(j.Alternators, second), append(j.Circuits, lead)
	j.States[0].Sources = append(j.States[0].Sources, second.Name)
	_, err := paper.ReportOn(j)
	require.NoError(t, err)
}
