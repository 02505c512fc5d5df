package wire_test

import (
	"testing"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// second keeps the error of a question.
func second[T any](_ T, err error) error { return err }

// TestRefuses asks each question with one bad input: the error names its field.
func TestRefuses(t *testing.T) {
	set := european().At(d("12"))
	odd := func(change func(c *wire.Conductor)) error {
		c := feeder()
		change(&c)
		return second(c.Ampacity(set.Ampacity))
	}
	run := func(change func(r *wire.Run)) error {
		r := wire.Run{CurrentA: d("1"), LengthM: d("1"), MilliohmPerM: d("1")}
		change(&r)
		return second(r.Drop())
	}
	sizing := func(change func(s *wire.Sizing)) error {
		s := fridge()
		change(&s)
		return second(s.LeastSize())
	}
	code := func(change func(c *wire.CodeDrop)) error {
		c := wire.CodeDrop{CurrentA: d("1"), LengthM: d("1"), AreaMM2: d("1"), Constant: set.Drop.Constant}
		change(&c)
		return second(c.Drop())
	}
	drop := must(wire.Run{CurrentA: d("1"), LengthM: d("1"), MilliohmPerM: d("1")}.Drop())
	for field, err := range map[string]error{
		"size":                      odd(func(c *wire.Conductor) { c.Size = tables.Size{} }),
		"class":                     odd(func(c *wire.Conductor) { c.Class = 3 }),
		"insulation_c":              odd(func(c *wire.Conductor) { c.InsulationC = d("20") }),
		"ambient_c":                 odd(func(c *wire.Conductor) { c.AmbientC = some("130") }),
		"grouped":                   odd(func(c *wire.Conductor) { c.Grouped = 0 }),
		"method":                    odd(func(c *wire.Conductor) { c.Method = "Z" }),
		"material":                  second(wire.MeltingPreece("wood", d("1"))),
		"terminal_c":                odd(func(c *wire.Conductor) { c.TerminalC = some("20") }),
		"current_a":                 run(func(r *wire.Run) { r.CurrentA = d("-1") }),
		"length_m":                  run(func(r *wire.Run) { r.LengthM = d("0") }),
		"resistance_mohm_per_m":     run(func(r *wire.Run) { r.MilliohmPerM = d("0") }),
		"joints_milliohm":           run(func(r *wire.Run) { r.JointsMilliohm = d("-1") }),
		"parallel_cables":           run(func(r *wire.Run) { r.Cables = -1 }),
		"return_milliohm":           run(func(r *wire.Run) { r.ReturnMilliohm = some("-1") }),
		"system":                    sizing(func(s *wire.Sizing) { s.System = "inch" }),
		"lay.grouped":               sizing(func(s *wire.Sizing) { s.Lay.Grouped = 0 }),
		"surge_a":                   sizing(func(s *wire.Sizing) { s.SurgeA = some("1") }),
		"system_v":                  second(drop.Check(tables.RuleSets()[1].Drop.Critical, d("0"))),
		"drop_limit":                second(drop.Check(working.Figure{Value: d("1"), Unit: "A", Source: set.Drop.Other.Source}, d("12"))),
		"drop_limit_v":              second(wire.Run{CurrentA: d("1"), MilliohmPerM: d("1")}.GreatestLength(d("0"))),
		"drop_constant":             code(func(c *wire.CodeDrop) { c.Constant = working.Figure{} }),
		"area_mm2":                  code(func(c *wire.CodeDrop) { c.AreaMM2 = d("0") }),
		"run_supply_v":              second(drop.VoltageLeft(d("0"))),
		"drop_v":                    second(wire.Drop{DropV: d("1")}.Loss()),
		"ampacity_a":                second(wire.Ampacity{AmpacityA: d("1")}.InParallel(2)),
		"sections":                  second(wire.Route{}.Ampacity(set.Ampacity)),
		"metal":                     second(wire.KnownResistance{MilliohmPerM: d("1")}.Resistance()),
		"known_mohm_per_m":          second(wire.KnownResistance{Metal: "copper"}.Resistance()),
		"resistivity_ohm_mm2_per_m": second(wire.SolidConductor{Metal: "copper", AreaMM2: d("1"), Resistivity: some("0")}.Resistance()),
		"strands_of_wire":           second(wire.Strands{DiameterMM: d("1")}.Geometry()),
		"pulses":                    second(wire.Duty{PeriodS: d("1")}.Equivalent()),
		"period_s":                  second(wire.Duty{Pulses: []wire.Pulse{{CurrentA: d("1"), TimeS: d("2")}}, PeriodS: d("1")}.Equivalent()),
		"time_s":                    second(winch().Temperature(d("-1"))),
		"limit_c":                   second(winch().TimeTo(d("351"))),
		"wire_mm":                   second(wire.MeltingPreece("copper", d("0"))),
		"free_air_a":                second(wire.AircraftBundle{Wires: 1, LoadingPercent: d("1")}.GreatestCurrent()),
		"loading_percent":           second(wire.HarnessCurrent(d("0"), wire.HarnessWires{Wires: 1, CurrentA: d("1")})),
		"joint_mv":                  second(wire.Joint{MilliV: d("-1"), CurrentA: d("1")}.Reading()),
		"joint_milliohm":            second(wire.ExpectedReading{Milliohm: d("-1")}.MilliVolts()),
		"cable":                     second(wire.Bend{Cable: "rope", DiameterMM: d("1")}.LeastRadius()),
		"bend_mm":                   second(wire.Bend{Cable: "armoured", DiameterMM: d("1")}.Check(d("0"))),
		"bar_width_mm":              second(wire.Busbar{ThicknessMM: d("1")}.Guess()),
		"total_m":                   second(wire.CopperMass(feeder().Size, d("0"))),
		"cable_ampacity_a":          second(wire.Ampacity{}.Temperature(d("1"))),
	} {
		require.Error(t, err, field)
		faults := working.Inputs(err)
		require.NotEmpty(t, faults, "%s: %v", field, err)
		assert.Equal(t, field, faults[0].Field)
	}
	assert.ErrorIs(t, odd(func(c *wire.Conductor) { c.AmbientC = some("100") }), tables.ErrOutside)
	assert.ErrorIs(t, second(wire.AircraftBundle{FreeAirA: d("1"), Wires: 30, LoadingPercent: d("1"), AltitudeM: some("0")}.GreatestCurrent()), tables.ErrOutside)
	assert.Len(t, working.Inputs(second(wire.Run{}.Drop())), 3, "all faults at once")
}

// TestSilence: where a set says nothing the check does not apply, and where
// nothing can be compared it cannot be told.
func TestSilence(t *testing.T) {
	drop := must(wire.Run{CurrentA: d("1"), LengthM: d("1"), MilliohmPerM: d("1")}.Drop())
	c, err := drop.Check(working.Figure{}, d("12"))
	require.NoError(t, err)
	assert.Equal(t, working.NotApplicable, c.Verdict())
	c, err = wire.CheckLeastSize(tables.MinSize{}, feeder().Size)
	require.NoError(t, err)
	assert.Equal(t, working.NotApplicable, c.Verdict())
	c, err = wire.Joint{MilliV: d("1"), CurrentA: d("1")}.AgainstTwins()
	require.NoError(t, err)
	assert.Equal(t, working.CannotTell, c.Verdict())
}

// TestNoSizeExists: 400 A in a bundle at 60 °C are too much for any cable of
// the tables, and 60 A over 900 m for any drop of 0.8 V: both sides stand in
// the answer.
func TestNoSizeExists(t *testing.T) {
	s := fridge()
	s.CurrentA, s.SurgeA, s.Lay.AmbientC = d("1400"), decimal.NullDecimal{}, some("60")
	c, err := s.LeastSize()
	require.NoError(t, err)
	assert.False(t, c.Found)
	assert.Equal(t, []string{wire.ByAmpacity}, c.Governs)
	assert.True(t, c.AmpacityA.Decimal.LessThan(s.CurrentA) && c.AmpacityA.Decimal.IsPositive())

	s = fridge()
	s.CurrentA, s.SurgeA, s.LengthM = d("60"), some("90"), d("900")
	c, err = s.LeastSize()
	require.NoError(t, err)
	assert.False(t, c.Found)
	assert.Equal(t, []string{wire.ByDrop, wire.BySurge}, c.Governs)
	limit, _ := c.Working.Value("ΔU_max")
	assert.True(t, c.DropV.Decimal.GreaterThan(limit))

	l, err := wire.Run{CurrentA: d("10"), MilliohmPerM: d("1"), JointsMilliohm: d("100")}.GreatestLength(d("0.5"))
	require.NoError(t, err)
	assert.True(t, l.LengthM.IsZero(), "the joints alone lose too much")

	a := wire.LeastArea{AreaMM2: d("5000")}
	choice, err := a.LeastSize(tables.AWG)
	require.NoError(t, err)
	assert.False(t, choice.Found)
}

// TestHeatingNeverReaches: a current within the ampacity never heats the
// conductor beyond its insulation's limit.
func TestHeatingNeverReaches(t *testing.T) {
	o := winch()
	o.CurrentA = d("40")
	got, err := o.TimeTo(d("90"))
	require.NoError(t, err)
	assert.False(t, got.Reached)
	o.StartC = some("95")
	got, err = o.TimeTo(d("90"))
	require.NoError(t, err)
	assert.True(t, got.Reached && got.TimeS.Decimal.IsZero(), "there from the start")
}

// TestHeatingMeetsTheAdiabaticLaw: for a short time the heating equation can
// lose no heat, so it cannot outrun k²S² = I²t: with k from 40 to 90 °C by IEC
// 60949, k² = 226² × ln((90 + 234.5) ÷ (40 + 234.5)) = 8544, 16 mm² bears 1000 A
// for 2.187 s. Within 10 % for the resistance that the law holds constant.
func TestHeatingMeetsTheAdiabaticLaw(t *testing.T) {
	o := winch()
	o.CurrentA = d("1000")
	got, err := o.TimeTo(d("90"))
	require.NoError(t, err)
	assert.True(t, got.TimeS.Decimal.LessThanOrEqual(d("2.187")) && got.TimeS.Decimal.GreaterThan(d("1.9")), got.TimeS)
}

// TestAbsurdNumbers: a number of a million digits is refused at once.
func TestAbsurdNumbers(t *testing.T) {
	huge := decimal.New(1, 900_000_000)
	for name, err := range map[string]error{
		"drop":        second(wire.Drop{DropV: huge}.Loss()),
		"ampacity":    second(wire.Ampacity{AmpacityA: huge}.Check(d("1"))),
		"temperature": second(wire.Ampacity{CableA: huge}.Temperature(huge)),
		"duty":        second(wire.Duty{Pulses: []wire.Pulse{{CurrentA: huge, TimeS: huge}}, PeriodS: huge}.Equivalent()),
		"sizing":      second(wire.Sizing{CurrentA: huge, SurgeA: some("1")}.LeastSize()),
		"area":        second(wire.LeastArea{AreaMM2: huge}.LeastSize(tables.AWG)),
		"network": second(wire.Network{
			Sources: []wire.NodeSource{{Name: "s", Node: "a", EMFV: huge, Milliohm: huge, LimitA: decimal.NewNullDecimal(huge)}},
			Loads:   []wire.NodeLoad{{Name: "l", Node: "a", Ohm: decimal.NewNullDecimal(huge)}},
		}.Solve()),
		"aircraft": second(wire.AircraftWire{CurrentA: huge, GreatestA: huge}.Temperature()),
	} {
		assert.ErrorContains(t, err, "is", name)
		assert.Less(t, len(err.Error()), 1000, name)
	}
}
