package protect_test

import (
	"testing"

	"example.org/extralow/protect"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
)

// numbers parses what the fuzzer made up; ok is false where one is no number.
func numbers(texts ...string) (all []decimal.Decimal, ok bool) {
	for _, text := range texts {
		v, err := decimal.NewFromString(text)
		if err != nil {
			return nil, false
		}
		all = append(all, v)
	}
	return all, true
}

// made holds checks to what every check keeps: it was made, and its working
// stands up to the guard.
func made(t *testing.T, checks ...working.Check) {
	t.Helper()
	for _, c := range checks {
		if c.Verdict() == working.NotMade {
			t.Errorf("a check was not made: %+v", c)
		}
		if c.Working != nil {
			workingtest.Guard(t, c.Working)
		}
	}
}

func FuzzWindow(f *testing.F) {
	f.Add("9", "24", "40", "15", "ISO 8820-3 C", "european", true)
	f.Add("22", "26", "-5", "25", "IEC 60269 gG", "european", false)
	f.Add("0.01", "1e3", "55.5", "1e-9", "NFPA 70 240.6(A)", "us-boat", true)
	f.Fuzz(func(t *testing.T, load, ampacity, ambient, fitted, family, set string, lasts bool) {
		v, ok := numbers(load, ampacity, ambient, fitted)
		if !ok {
			return
		}
		rules := rulesOf("european")
		if set == "us-boat" || set == "us-rv" || set == "au-nz" {
			rules = rulesOf(set)
		}
		n := protect.Need{DesignA: v[0], AmpacityA: v[1], AmbientC: decimal.NewNullDecimal(v[2]), Brief: !lasts, SetName: rules.Name}
		w, err := n.Window(rules.Device, family)
		if err != nil {
			return
		}
		workingtest.Guard(t, w.Working)
		if w.Reason == "" || w.BestA.Valid != (len(w.InsideA) > 0) {
			t.Errorf("best %v, inside %v, reason %q", w.BestA, w.InsideA, w.Reason)
		}
		for _, a := range w.InsideA {
			if a.GreaterThan(v[1]) {
				t.Errorf("%s A is inside on a conductor of %s A", a, v[1])
			}
		}
		checks := w.Checks(v[3])
		made(t, checks...)
		if i, ok := working.Strictest(checks...); ok && v[3].GreaterThan(v[1]) && checks[i].Verdict() == working.Passes {
			t.Errorf("%s A passes on a conductor of %s A", v[3], v[1])
		}
	})
}

func FuzzOpening(f *testing.F) {
	f.Add("15", "31.3", "0.4", "2.5", "900", "ISO 8820-3 C")
	f.Add("63", "500", "7", "16", "4000", "IEC 60269 gG")
	f.Add("16", "1e5", "0.001", "0.5", "1e5", "IEC 60898-2 C")
	f.Fuzz(func(t *testing.T, rating, current, lasts, area, largest, family string) {
		v, ok := numbers(rating, current, lasts, area, largest)
		if !ok {
			return
		}
		device := protect.Device{Family: family, RatingA: v[0]}
		if o, err := device.OpeningTime(v[1]); err == nil {
			workingtest.Guard(t, o.Working)
		}
		if c, err := device.RidesThrough(protect.Surge{CurrentA: v[1], DurationS: v[2]}); err == nil {
			made(t, c)
		}
		if let, err := device.LetThrough(v[1]); err == nil {
			workingtest.Guard(t, let.Working)
		}
		fault := protect.FarFault{
			LeastFaultA: v[1], GreatestFaultA: decimal.NewNullDecimal(v[4]), HeatsInS: decimal.NewNullDecimal(v[2]),
			Cable: protect.Cable{K: d("115"), AreaMM2: v[3]},
		}
		if checks, err := device.Clears(fault); err == nil {
			made(t, checks...)
		}
		lower := protect.Device{Family: family, RatingA: v[0].Div(d("1.6"))}
		if c, err := (protect.SeriesPair{Upper: device, Lower: lower}).Selective(v[4]); err == nil {
			made(t, c)
		}
	})
}

func FuzzGates(f *testing.F) {
	f.Add("60", "9", "70", "3", "65")
	f.Add("1e-30", "1e5", "1e5", "1e-30", "77.7777777")
	f.Fuzz(func(t *testing.T, firstA, firstS, secondA, secondS, current string) {
		v, ok := numbers(firstA, firstS, secondA, secondS, current)
		if !ok {
			return
		}
		device := protect.Device{RatingA: d("50"), Gates: []protect.Gate{
			{CurrentA: v[0], LeastS: decimal.NewNullDecimal(v[1])},
			{CurrentA: v[2], GreatestS: decimal.NewNullDecimal(v[3]), LeastS: decimal.NewNullDecimal(v[3])},
		}}
		o, err := device.OpeningTime(v[4])
		if err != nil {
			return
		}
		workingtest.Guard(t, o.Working)
		for _, side := range []decimal.NullDecimal{o.LeastS, o.GreatestS} {
			if side.Valid && side.Decimal.IsNegative() {
				t.Errorf("opens in %s s", side.Decimal)
			}
		}
	})
}

func FuzzRest(f *testing.F) {
	f.Add("4200", "14.4", "20", "10.5", "UL 248-14", "lamp", 3)
	f.Add("0", "29", "0.5", "100", "ISO 10924-4 CB15", "motor", 1)
	f.Fuzz(func(t *testing.T, a, b, c, e, family, load string, n int) {
		v, ok := numbers(a, b, c, e)
		if !ok {
			return
		}
		other := decimal.NewNullDecimal(v[2])
		var checks []working.Check
		keep := func(more []working.Check, err error) {
			if err == nil {
				checks = append(checks, more...)
			}
		}
		keep(protect.BreakingDuty{GreatestFaultA: decimal.NewNullDecimal(v[0]), HighestV: v[1], Family: family, BreaksA: other, BreaksAtV: other}.Checks())
		keep(one(protect.Place{AlongMM: decimal.NewNullDecimal(v[0]), Sheathed: n > 1}.Check(rulesOf("au-nz").Place)))
		keep(one(protect.ConductorEnd{AmpacityA: v[0], LimitA: other}.Check(rulesOf("us-boat").Place)))
		contact := protect.Switch{SystemV: v[1], CurrentA: v[0], Load: load, RatingA: v[2], StartA: decimal.NewNullDecimal(v[0])}
		keep(one(contact.Check()))
		keep(one(contact.Start()))
		keep(protect.Isolator{CurrentA: decimal.NewNullDecimal(v[0]), RatingA: v[1], StartA: other}.Checks())
		keep(protect.ConnectedUnit{LeastSupplyV: other, GreatestSupplyV: v[1], Code: load}.Checks())
		keep(one(protect.LoadDump{NominalV: v[1], SurvivesV: other}.Check()))
		keep(one(protect.SupplyTest{NominalV: v[1], Kind: load, SurvivesV: other}.Check()))
		keep(protect.SolarArray{Count: n, ShortA: v[3], ModuleFuseA: other}.Checks())
		keep(protect.Parallel{Cables: n, AmpacityA: v[0], RatingA: v[1]}.Checks(rulesOf("us-boat").Device))
		made(t, checks...)
		if r, err := (protect.Precharge{HighestV: v[1], CapacitanceUF: v[0], LimitA: v[2]}).Resistor(); err == nil {
			workingtest.Guard(t, r.Working)
		}
		if r, err := (protect.FaultHeating{Name: "copper", InitialC: decimal.NewNullDecimal(v[1]), FinalC: v[0]}).Constant(); err == nil {
			workingtest.Guard(t, r.Working)
		}
		if r, err := protect.FaultArea(v[0], v[2], v[3]); err == nil {
			workingtest.Guard(t, r.Working)
		}
		if r, err := (protect.Cable{K: v[1], AreaMM2: v[3]}).Withstand(v[0]); err == nil {
			workingtest.Guard(t, r.Working)
		}
		if r, err := protect.ByCranking(v[1], v[0]); err == nil {
			workingtest.Guard(t, r.Working)
		}
		if r, err := protect.ProtectiveArea(v[0]); err == nil {
			workingtest.Guard(t, r.Working)
		}
		if r, err := (protect.Device{Family: family, RatingA: v[0]}).Carries(v[1]); err == nil {
			workingtest.Guard(t, r.Working)
		}
	})
}
