package protect_test

import (
	"testing"

	"example.org/extralow/protect"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
)

var (
	blade = protect.Device{Family: "ISO 8820-3 C", RatingA: d("15")}
	own   = protect.Device{Family: "ISO 8820-3 E", RatingA: d("40"), Gates: []protect.Gate{
		{CurrentA: d("60"), LeastS: some("30"), GreatestS: some("900")},
		{CurrentA: d("240"), LeastS: some("0.1"), GreatestS: some("1")},
	}}
	farFault = protect.FarFault{
		LeastFaultA: d("100"), GreatestFaultA: some("900"), AmpacityA: some("50"),
		Cable: protect.Cable{K: d("115"), AreaMM2: d("10")}, HeatsInS: some("500"),
	}
	load = protect.Need{
		DesignA: d("9"), AmpacityA: d("24"), AmbientC: some("40"), SetName: "European", AmbientFactor: some("0.9"),
		OperatingRatio: some("1.35"), RatingsA: []decimal.Decimal{d("15"), d("20")},
	}
	upstream = protect.Upstream{AmpacityA: d("50"), SourcesA: d("5"), SetName: "European", Devices: []protect.UpstreamDevice{
		{Name: "feeder, at bus", Device: protect.Device{Family: "IEC 60269 gG", RatingA: d("20")}},
	}}
	pair = protect.SeriesPair{
		Upper: protect.Device{Family: "IEC 60269 gG", RatingA: d("100")},
		Lower: protect.Device{Family: "IEC 60269 gG", RatingA: d("50")},
	}
)

func windowOf(n protect.Need) protect.Window {
	w, err := n.Window(rulesOf("european").Device, "ISO 8820-3 C")
	if err != nil {
		panic(err)
	}
	return w
}

var boatWindow = func() protect.Window {
	w, err := protect.Need{DesignA: d("9"), AmpacityA: d("24")}.Window(
		tables.DeviceRule{OfAmpacity: rulesOf("us-boat").Device.OfAmpacity, OperatingCurrent: rulesOf("european").Device.OperatingCurrent}, "ISO 8820-3 C")
	if err != nil {
		panic(err)
	}
	return w
}()

const (
	label         = "it names the set where the set is silent"
	strict        = "false is the strict side"
	ofItsStandard = "unset: that of its standard"
	unlimited     = "unset: what feeds it does not limit itself"
	neverOpens    = "a limited source opens no device"
	ofItsOwn      = "its data sheet says what is asked"
)

var questions = []workingtest.Question{
	{Ask: protect.Upstream.Check, With: []any{upstream, rulesOf("european").Device},
		Unset: workingtest.Keys{"devices": "limited sources alone may feed it", "devices.name": "a heading", "source_limit_a": "devices alone may feed it"}, Any: workingtest.Keys{"devices.name": "a heading"}},
	{Ask: protect.Need.Window, With: []any{load, rulesOf("european").Device, "ISO 8820-3 C"},
		Unset: workingtest.Keys{"ratings_a": "unset: those of its standard", "r": "a set that asks nothing leaves what holds overall"}},
	{Ask: protect.Window.Checks, With: []any{windowOf(load), d("20")}},
	{Ask: protect.BreakingDuty.Checks, With: []any{
		protect.BreakingDuty{
			GreatestFaultA: some("800"), HighestV: d("14.6"), Family: "ISO 8820-3 C", BreaksA: some("1000"), BreaksAtV: some("32"), RatedV: some("32"),
			BackedUpA: some("5000"), BackedUpAtV: some("32"),
		},
	},
		Unset: workingtest.Keys{"no_lithium": strict, "family": ofItsOwn, "breaking_a": ofItsStandard, "rated_v": ofItsStandard, "backed_up_a": "unset: judged by itself"}},
	{Ask: protect.ByCranking, With: []any{d("12"), d("700")}},
	{Ask: protect.Place.Check, With: []any{protect.Place{AlongMM: some("600"), Sheathed: true, AtBattery: true}, rulesOf("us-boat").Place},
		Unset: workingtest.Keys{"at_battery": strict}},
	{Ask: protect.ConductorEnd.Check, With: []any{protect.ConductorEnd{AmpacityA: d("50"), LimitA: some("40")}, rulesOf("us-boat").Place},
		Unset: workingtest.Keys{"fitted": strict, "cranking": strict}},
	{Ask: protect.Device.OpeningTime, With: []any{own, d("100")},
		Unset: workingtest.Keys{"family": ofItsOwn, "gates": ofItsStandard}},
	{Ask: protect.Device.LetThrough, With: []any{own, d("100")},
		Unset: workingtest.Keys{"family": ofItsOwn, "gates": ofItsStandard}},
	{Ask: protect.Device.ConventionalCurrents, With: []any{blade},
		Unset: workingtest.Keys{"gates": ofItsStandard}},
	{Ask: protect.Device.ReleaseCurrents, With: []any{protect.Device{Family: "IEC 60898-2 C", RatingA: d("16")}},
		Unset: workingtest.Keys{"gates": ofItsStandard}},
	{Ask: protect.Device.Carries, With: []any{protect.Device{Family: "IEC 60269 gG", RatingA: d("40")}, d("55")},
		Unset: workingtest.Keys{"ambient_c": "0 °C is an ambient"}},
	{Ask: protect.Device.RidesThrough, With: []any{own, protect.Surge{CurrentA: d("80"), DurationS: d("0.3")}},
		Unset: workingtest.Keys{"family": ofItsOwn, "gates": ofItsStandard, "gates.opens_by_s": "unset: need not open"}},
	{Ask: protect.Device.Clears, With: []any{own, farFault},
		Unset: workingtest.Keys{"family": ofItsOwn, "gates": ofItsStandard, "gates.opens_from_s": "unset: may open at once", "greatest_fault_a": "of a fuse the least fault decides", "source_limit_a": unlimited, "ampacity_a": "asked with source_limit_a alone"}},
	{Ask: protect.Device.StopsStall, With: []any{own, protect.Stall{CurrentA: d("100"), BearsS: some("600")}},
		Unset: workingtest.Keys{"family": ofItsOwn, "gates": ofItsStandard, "gates.opens_from_s": "unset: may open at once"}},
	{Ask: protect.FaultHeating.Constant, With: []any{protect.FaultHeating{Name: "copper", InitialC: some("70"), FinalC: d("160")}}},
	{Ask: protect.Cable.Withstand, With: []any{protect.Cable{K: d("115"), AreaMM2: d("2.5")}, d("300")}},
	{Ask: protect.FaultArea, With: []any{d("900"), d("0.5"), d("115")}},
	{Ask: protect.SeriesPair.Ratio, With: []any{pair, "gG16"},
		Unset: workingtest.Keys{"upper.gates": "no part of the rule", "lower.gates": "no part of the rule"}},
	{Ask: protect.SeriesPair.Selective, With: []any{pair, d("600")},
		Unset: workingtest.Keys{"upper.gates": ofItsStandard, "lower.gates": ofItsStandard}},
	{Ask: protect.SeriesPair.Energies, With: []any{pair, d("21000"), some("27000")},
		Unset: workingtest.Keys{"upper.family": "its data sheet has the energy", "lower.family": "its data sheet has the energy", "upper.gates": "no part of the rule", "lower.gates": "no part of the rule", "upper_pre_arcing_a2_s": "the least of its standard"}},
	{Ask: protect.Parallel.Checks, With: []any{
		protect.Parallel{Cables: 2, AmpacityA: d("150"), Identical: true, RatingA: d("250")}, rulesOf("european").Device,
	},
		Unset: workingtest.Keys{"r": "a set that asks nothing leaves what holds overall"}},
	{Ask: protect.SmallWire.Check, With: []any{protect.SmallWire{Size: sizeOf("AWG 14"), RatingA: d("15")}, small("nec-small")}},
	{Ask: protect.Switch.Check, With: []any{protect.Switch{SystemV: d("24"), CurrentA: d("6"), Load: "lamp", RatingA: d("50")}}},
	{Ask: protect.Switch.Start, With: []any{protect.Switch{RatingA: d("80"), StartA: some("100"), MakesA: some("120")}},
		Unset: workingtest.Keys{"switch_rating_a": "makes_a goes before it", "makes_a": "1.5 times its rating, the least of all"}},
	{Ask: protect.Isolator.Checks, With: []any{protect.Isolator{CurrentA: some("230"), RatingA: d("275"), StartA: some("450"), ShortTimeA: some("600")}}},
	{Ask: protect.Precharge.Resistor, With: []any{protect.Precharge{HighestV: d("13.3"), CapacitanceUF: d("20000"), LimitA: d("1.4")}}},
	{Ask: protect.ConnectedUnit.Checks, With: []any{
		protect.ConnectedUnit{LeastSupplyV: some("10.8"), GreatestSupplyV: d("15"), Code: "D", LeastV: some("10"), GreatestV: some("16")},
	},
		Unset: workingtest.Keys{"supply_code": "its data sheet has the voltages", "least_unit_v": "that of its code", "greatest_unit_v": "that of its code"}},
	{Ask: protect.LoadDump.Check, With: []any{protect.LoadDump{NominalV: d("12"), SurvivesV: some("120")}},
		Unset: workingtest.Keys{"suppressed": strict}},
	{Ask: protect.SupplyTest.Check, With: []any{protect.SupplyTest{NominalV: d("12"), Kind: "jump start", SurvivesV: some("30")}}},
	{Ask: protect.SolarArray.LeastRating, With: []any{protect.SolarArray{Count: 3, ShortA: d("10.5"), ModuleFuseA: some("20"), FittedA: some("20")}, 2}},
	{Ask: protect.SolarArray.Checks, With: []any{protect.SolarArray{Count: 3, ShortA: d("10.5"), ModuleFuseA: some("20"), FittedA: some("20")}}},
	{Ask: protect.Window.Checks, With: []any{boatWindow, d("20")}},
	{Ask: protect.Parallel.Checks, With: []any{protect.Parallel{Cables: 3, AmpacityA: d("80"), RatingA: d("70")}, rulesOf("us-rv").Device},
		Unset: workingtest.Keys{"identical": strict, "rules": label}, Any: workingtest.Keys{"rules": label}},
	{Ask: protect.Device.Clears, With: []any{
		protect.Device{Family: "IEC 60898-2 C", RatingA: d("16")},
		protect.FarFault{LeastFaultA: d("300"), GreatestFaultA: some("1400"), Cable: protect.Cable{K: d("115"), AreaMM2: d("4")}},
	}, Unset: workingtest.Keys{"gates": ofItsStandard, "source_limit_a": unlimited, "heats_in_s": "asked above 5 s", "ampacity_a": "asked with source_limit_a alone"}},
	{Ask: protect.Device.Clears, With: []any{blade, protect.FarFault{LimitedA: some("15"), AmpacityA: some("20")}},
		Unset: workingtest.Keys{
			"gates": neverOpens, "least_fault_a": neverOpens, "greatest_fault_a": neverOpens,
		}},
	{Ask: protect.SolarArray.Checks, With: []any{protect.SolarArray{Count: 2, ShortA: d("10.5"), ModuleFuseA: some("20")}},
		Unset: workingtest.Keys{"rating_a": "unset: none is fitted, which the other strings are asked about"}},
	{Ask: protect.ProtectiveArea, With: []any{d("70")}},
}

// TestLaws asks every function of the package with one thing left out, with nonsense,
// and what it gives as JSON.
func TestLaws(t *testing.T) { workingtest.Laws(t, questions) }

// TestIndex holds the package comment to its index of questions.
func TestIndex(t *testing.T) { workingtest.Index(t) }
