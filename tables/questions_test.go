package tables_test

import (
	"io"
	"testing"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
)

// Reasons that several questions share.
const (
	atNought  = "0 °C is a temperature, and an argument is always stated"
	onEquator = "0° is a latitude, and an argument is always stated"
	noSize    = "no size is a size to ask about, and the answer is that there is none"
	handle    = "a table without rows has nothing to show"
	unknown   = "what is not listed, of which nothing is known, is of no kind and has every trait"
	silence   = "a rule that says nothing has nothing to answer"
)

var (
	twelve   = number("12")
	sixteen  = mustSize("16 mm2")
	euSet    = mustRules("european")
	column   = mustColumn(euSet.Ampacity, sixteen, "B", "70")
	hotter   = mustColumn(euSet.Ampacity, sixteen, "B", "90")
	awgTable = mustTable("awg")
	ninety   = tables.AmpacityBase{InsulationC: number("90"), AmbientC: number("30")}
)

func mustRules(key string) tables.RuleSet {
	r, err := tables.RuleSetOf(key)
	if err != nil {
		panic(err)
	}
	return r
}

func mustColumn(r tables.AmpacityRule, s tables.Size, method, insulationC string) tables.AmpacityColumn {
	c, err := r.Column(s, method, number(insulationC))
	if err != nil {
		panic(err)
	}
	return c
}

func mustTable(name string) tables.Table {
	t, err := tables.TableOf(name)
	if err != nil {
		panic(err)
	}
	return t
}

// firstOf returns the first name of a kind.
func firstOf(kind string) string {
	names, err := tables.Names(kind)
	if err != nil {
		panic(err)
	}
	return names[0]
}

var questions = []workingtest.Question{
	{Ask: tables.AdiabaticOf, With: []any{"copper", "PVC 70 C", number("16")}},
	{Ask: tables.RunningVoltages, With: []any{twelve}},
	{Ask: tables.RunningVoltageOf, With: []any{"fixed regulator", "on", twelve}},
	{Ask: tables.AlternatorDefinition, With: []any{"test voltage VT", twelve}},
	{Ask: tables.AlternatorOutput, With: []any{firstOf("machine"), "hot"}},
	{Ask: tables.ConverterEfficiency, With: []any{"MPPT controller"}},
	{Ask: tables.AmpacityRule.Column, With: []any{euSet.Ampacity, sixteen, "B", number("70")}},
	{Ask: tables.AmpacityRule.AtTerminals, With: []any{euSet.Ampacity, hotter, number("75")}, Unset: workingtest.Keys{"c": "a column of no table stays one", "terminal_c": atNought, "receiver": "a rule without a table for terminals leaves the cable its own, and says so by the zero source"}, Any: workingtest.Keys{"terminal_c": "terminals that bear more than the insulation change nothing, and those that bear less take the coolest column"}},
	{Ask: tables.AmpacityColumn.At, With: []any{column, sixteen}},
	{Ask: tables.AmpacityColumn.NoLarger, With: []any{column, mustSize("AWG 6")}},
	{Ask: tables.AmpacityColumn.Sizes, With: []any{column}, Unset: workingtest.Keys{"receiver": "a column of no table lists no size"}},
	{Ask: tables.BatteryLimits, With: []any{tables.LiFePO4, "charge_temperature"}},
	{Ask: tables.InternalResistance, With: []any{tables.AGM, twelve, number("100")}},
	{Ask: tables.GasCurrent, With: []any{tables.VRLA, "float"}},
	{Ask: tables.TractionGasCurrent, With: []any{tables.Flooded, firstOf("charger")}},
	{Ask: tables.GasConstants, With: []any{"flow_constant"}},
	{Ask: tables.CoolingFactorsOf, With: []any{"single, on a wall"}},
	{Ask: tables.HeatTransfer, With: []any{"aluminium"}},
	{Ask: tables.AirConstant, With: []any{"air_density"}},
	{Ask: tables.InstallationRule, With: []any{"cfr33-pull"}},
	{Ask: tables.BendMultiple, With: []any{"armoured", number("20")}},
	{Ask: tables.BondOf, With: []any{"iec60364-721-bond"}},
	{Ask: tables.BreakingByCranking, With: []any{twelve, number("700"), true}},
	{Ask: tables.BundleFactor, With: []any{7, number("50")}},
	{Ask: tables.AltitudeFactor, With: []any{number("9000")}, Unset: workingtest.Keys{"altitude_m": "0 m is the sea"}},
	{Ask: tables.ColdCapacity, With: []any{tables.Flooded, number("-10")}, Unset: workingtest.Keys{"at_c": atNought}},
	{Ask: tables.CellSizeFactor, With: []any{number("50")}},
	{Ask: tables.SizingFigure, With: []any{"ageing_factor"}},
	{Ask: tables.PeukertExponents, With: []any{tables.AGM}},
	{Ask: tables.TableOf, With: []any{"awg"}},
	{Ask: tables.Find, With: []any{[]string{"ampacity", "bs"}}, Unset: workingtest.Keys{"words": "no word finds every table"}, Any: workingtest.Keys{"words": "what is not there finds nothing"}},
	{Ask: tables.Table.Cells, With: []any{awgTable}, Unset: workingtest.Keys{"receiver": handle}},
	{Ask: tables.Table.Weak, With: []any{mustTable("iso6722-resistance")}, Unset: workingtest.Keys{"receiver": handle}},
	{Ask: tables.Table.WriteCSV, With: []any{awgTable, io.Discard}},
	{Ask: tables.Table.WriteMarkdown, With: []any{awgTable, io.Discard}},
	{Ask: tables.Table.WriteText, With: []any{awgTable, io.Discard}},
	{Ask: tables.CellVoltages, With: []any{tables.AGM, "float"}},
	{Ask: tables.Compensations, With: []any{tables.AGM}},
	{Ask: tables.AcceptPerHour, With: []any{tables.AGM}},
	{Ask: tables.AbsorptionRule, With: []any{tables.AGM, "tail current"}},
	{Ask: tables.RechargeFactors, With: []any{tables.AGM}},
	{Ask: tables.CharacteristicMeaning, With: []any{"IUoU"}},
	{Ask: tables.CoulombicEfficiencies, With: []any{tables.AGM}},
	{Ask: tables.GreatestCellVoltage, With: []any{tables.AGM}},
	{Ask: tables.ColdChargeRate, With: []any{tables.LiFePO4, number("3")}, Unset: workingtest.Keys{"battery_c": atNought}},
	{Ask: tables.Chemistry.Check, With: []any{tables.AGM, "chemistry"}},
	{Ask: tables.Chemistry.Is, With: []any{tables.AGM, tables.LeadAcid}, Unset: workingtest.Keys{"receiver": unknown, "kind": unknown}, Any: workingtest.Keys{"receiver": unknown, "kind": unknown}},
	{Ask: tables.Chemistry.Has, With: []any{tables.LiFePO4, tables.Gasses}, Unset: workingtest.Keys{"receiver": unknown, "t": unknown}, Any: workingtest.Keys{"receiver": unknown, "t": unknown}},
	{Ask: tables.Chemistry.TraitSource, With: []any{tables.LiFePO4, tables.Gasses}},
	{Ask: tables.LeadAcidConstant, With: []any{"charge voltage per cell", "c2"}},
	{Ask: tables.Resistance, With: []any{sixteen, tables.Flexible}},
	{Ask: tables.TinnedResistance, With: []any{sixteen, tables.Flexible}},
	{Ask: tables.Material, With: []any{"copper", "density_20c"}},
	{Ask: tables.Constants, With: []any{"copper", "density_20c"}},
	{Ask: tables.AmpacityBase.AmbientFactor, With: []any{ninety, "IEC 60364-5-52 B.52.14", number("43")}, Unset: workingtest.Keys{"ambient_c": atNought}},
	{Ask: tables.AmpacityBase.AmbientFactorConverted, With: []any{ninety, "IEC 60364-5-52 B.52.14", number("43")}, Unset: workingtest.Keys{"ambient_c": atNought, "table_ambient_c": "an ampacity for 0 °C is carried down the furthest"}},
	{Ask: tables.AmpacityBase.AmbientFactorInterpolated, With: []any{ninety, "IEC 60364-5-52 B.52.14", number("43")}, Unset: workingtest.Keys{"ambient_c": atNought}},
	{Ask: tables.GroupingFactor, With: []any{"BS 7671 4C1", tables.Bundle{Circuits: 3, Conductors: 6}}},
	{Ask: tables.GroupingCounts, With: []any{"BS 7671 4C1"}},
	{Ask: tables.EngineSpaceFactor, With: []any{"ISO 10133 annex A", number("90")}},
	{Ask: tables.EngineSpaceAmbient, With: []any{"ISO 10133 annex A", number("90")}},
	{Ask: tables.CrankingTestOf, With: []any{"EN1"}},
	{Ask: tables.SelfDischarge, With: []any{tables.AGM}},
	{Ask: tables.CycleLives, With: []any{tables.LiFePO4, number("80")}},
	{Ask: tables.DeviceDerating, With: []any{"ISO 8820-3 E", number("40"), number("60")}, Unset: workingtest.Keys{"ambient_c": atNought}},
	{Ask: tables.FamilyOf, With: []any{"ISO 8820-3 C"}},
	{Ask: tables.Ratings, With: []any{"ISO 8820-3 C"}},
	{Ask: tables.Colour, With: []any{"ISO 8820-3 C", number("20")}},
	{Ask: tables.StrictlyBelow, With: []any{mustRules("au-nz").Place.Sheathed}, Unset: workingtest.Keys{"f": "a figure that no code states is not strict"}},
	{Ask: tables.DeviceRuleOf, With: []any{"nec-continuous"}},
	{Ask: tables.FaultSource, With: []any{"battery-warm"}},
	{Ask: tables.FusingConstant, With: []any{"copper"}},
	{Ask: tables.ReleaseOf, With: []any{"IEC 60898-2 C"}},
	{Ask: tables.Gates, With: []any{"ISO 8820-3 C", number("20")}},
	{Ask: tables.ConventionalOf, With: []any{"ISO 8820-3 C", number("20")}},
	{Ask: tables.FreezingPointInterpolated, With: []any{number("1.15")}},
	{Ask: tables.ChargeByVoltageInterpolated, With: []any{"Sunil 2025", tables.LiFePO4, number("3.3")}},
	{Ask: tables.SurgeMultiple, With: []any{firstOf("load_kind")}},
	{Ask: tables.PowerFactor, With: []any{firstOf("load_kind")}},
	{Ask: tables.LockedRotor, With: []any{"G"}},
	{Ask: tables.TypicalLoads, With: []any{firstOf("typical_load")}},
	{Ask: tables.Names, With: []any{"chemistry"}},
	{Ask: tables.AircraftProtector, With: []any{mustSize("AWG 12"), "fuse"}},
	{Ask: tables.AmpacityRuleOf, With: []any{"european"}},
	{Ask: tables.DeviceRule.Cap, With: []any{mustRules("us-rv").Device, mustSize("AWG 14")}, Unset: workingtest.Keys{"receiver": silence, "s": "no size has no cap, and the answer says so"}},
	{Ask: tables.RuleSetOf, With: []any{"us-rv"}},
	{Ask: tables.RuleSet.At, With: []any{mustRules("us-rv"), twelve}, Unset: workingtest.Keys{"receiver": silence, "system_v": "what is tied to another voltage falls silent"}, Any: workingtest.Keys{"system_v": "what is tied to another voltage falls silent"}},
	{Ask: tables.RuleSet.Yardstick, With: []any{euSet, "vehicle"}, Unset: workingtest.Keys{"receiver": "a rule that says nothing applies to no craft", "craft": "a set applies to no craft that it does not name"}, Any: workingtest.Keys{"craft": "a set applies to no craft that it does not name"}},
	{Ask: tables.SmallConductors, With: []any{"nec-rv"}},
	{Ask: tables.SelectivityRatio, With: []any{"gG16"}},
	{Ask: tables.PreArcing, With: []any{"IEC 60269 gG", number("100")}},
	{Ask: tables.System.Check, With: []any{tables.AWG, "system"}},
	{Ask: tables.ParseSize, With: []any{"16 mm2"}},
	{Ask: tables.Size.IsZero, With: []any{sixteen}, Unset: workingtest.Keys{"receiver": noSize}},
	{Ask: tables.Size.System, With: []any{mustSize("AWG 6")}, Unset: workingtest.Keys{"receiver": noSize}},
	{Ask: tables.Size.Area, With: []any{sixteen}},
	{Ask: tables.Size.Next, With: []any{sixteen}, Unset: workingtest.Keys{"receiver": noSize}},
	{Ask: tables.Size.Previous, With: []any{sixteen}, Unset: workingtest.Keys{"receiver": noSize}},
	{Ask: tables.Sizes, With: []any{tables.SAE}, Unset: workingtest.Keys{"system": "a system that is none has no sizes"}, Any: workingtest.Keys{"system": "a system that is none has no sizes"}},
	{Ask: tables.ChargeByVoltage, With: []any{tables.Flooded, number("2.04"), number("2.06")}},
	{Ask: tables.ChargeByDensity, With: []any{tables.Flooded, number("1.2"), number("1.21")}},
	{Ask: tables.LeastDensity, With: []any{number("60")}, Unset: workingtest.Keys{"soc_percent": "0 % is a state of charge"}},
	{Ask: tables.LeastDensityInterpolated, With: []any{number("60")}, Unset: workingtest.Keys{"soc_percent": "0 % is a state of charge"}},
	{Ask: tables.FreezingPoint, With: []any{number("1.15")}},
	{Ask: tables.RestedSpread, With: []any{tables.Flooded}, Unset: workingtest.Keys{"chemistry": "one that is not listed takes that of any cell"}, Any: workingtest.Keys{"chemistry": "one that is not listed takes that of any cell"}},
	{Ask: tables.MonthRadiation, With: []any{number("50"), 6}, Unset: workingtest.Keys{"latitude_deg": onEquator}},
	{Ask: tables.MonthDaylight, With: []any{number("50"), 6}, Unset: workingtest.Keys{"latitude_deg": onEquator}},
	{Ask: tables.MeanDayRadiation, With: []any{number("45"), 6}, Unset: workingtest.Keys{"latitude_deg": onEquator}},
	{Ask: tables.MeanDay, With: []any{6}},
	{Ask: tables.InsolationOf, With: []any{firstOf("place"), firstOf("tilt")}},
	{Ask: tables.OpenCircuitFactor, With: []any{number("-10")}, Unset: workingtest.Keys{"lowest_c": atNought}},
	{Ask: tables.CellTemperature, With: []any{"SAPM", "open rack glass/glass", "a"}},
	{Ask: tables.SolarCurrentFactor, With: []any{"greatest circuit current"}},
	{Ask: tables.SupplyCodeOf, With: []any{"C"}},
	{Ask: tables.VoltageTest, With: []any{"jump start", twelve}},
	{Ask: tables.SwitchFactor, With: []any{twelve, "motor"}},
	{Ask: tables.CategoryFactors, With: []any{"DC-3"}},
	{Ask: tables.TerminalRule.Unstated, With: []any{mustRules("us-rv").Ampacity.Terminals, mustSize("AWG 6"), decimal.NewNullDecimal(number("60"))}, Unset: workingtest.Keys{"receiver": "a code that is silent answers that it is"}, Any: workingtest.Keys{"equipment_a": "above its last limit a code asks the same of any rating, and below the first the least is taken"}},
	{Ask: tables.ThermalInsulation, With: []any{number("0.15")}},
	{Ask: tables.Torque, With: []any{"screw terminal", number("4"), "II"}},
}

// TestLaws holds every function of the package to the laws of the library.
func TestLaws(t *testing.T) { workingtest.Laws(t, questions) }
