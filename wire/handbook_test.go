package wire_test

import (
	"strings"
	"testing"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

type (
	row     = workingtest.Row
	answers = workingtest.Answers
)

// Units of the books in ours, exactly.
var (
	foot        = d("0.3048")
	inch        = d("25.4")
	circularMil = d("0.00050670748") // mm²
)

// asks ties each question of testdata/handbook.csv to the function that answers
// it, in the book's own units.
var asks = workingtest.Asks{
	"Run.Drop loop": func(r row) (answers, error) {
		drop, err := oneConductor(r, "run_length").Drop()
		return workingtest.Answer("voltage_drop", drop.DropV, drop.Working), err
	},
	"Run.GreatestLength loop": func(r row) (answers, error) {
		l, err := wire.Run{CurrentA: r.D("current"), MilliohmPerM: perFoot(r.D("resistance"))}.GreatestLength(r.D("allowable_drop"))
		return workingtest.Answer("max_run_length", l.LengthM.Mul(d("2")).Div(foot), l.Working), err
	},
	// The length that loses at the hot conductor what the given length loses at
	// 20 °C, at 1 A and 1 mΩ/m.
	"Run.GreatestLength hot": func(r row) (answers, error) {
		hot, err := wire.KnownResistance{Metal: "copper", MilliohmPerM: d("1"), KnownC: some("20"), ConductorC: decimal.NewNullDecimal(r.D("conductor_temperature"))}.Resistance()
		if err != nil {
			return answers{}, err
		}
		cold := r.D("length_at_20c").Mul(d("2")).Shift(-3)
		l, err := wire.Run{CurrentA: d("1"), MilliohmPerM: hot.MilliohmPerM, From: hot.Working}.GreatestLength(cold)
		return workingtest.Answer("length_derated", l.LengthM, l.Working), err
	},
	"Run.Drop resistance": wholeResistance,
	"KnownResistance.Resistance": func(r row) (answers, error) {
		name := "resistance_" + r.Text("temperature") + "c"
		got, err := wire.KnownResistance{Metal: r.Text("material"), MilliohmPerM: perKft(r.D("resistance_25c")), KnownC: some("25"), ConductorC: decimal.NewNullDecimal(r.D("temperature"))}.Resistance()
		return workingtest.Answer(name, got.MilliohmPerM.Mul(foot), got.Working), err
	},
	"KnownResistance.Resistance coefficient": func(r row) (answers, error) {
		got, err := wire.KnownResistance{Metal: "copper", MilliohmPerM: r.D("resistance_20c").Shift(3), KnownC: some("20"),
			ConductorC: decimal.NewNullDecimal(r.D("temperature")), PerK: decimal.NewNullDecimal(r.D("alpha"))}.Resistance()
		return workingtest.Answer("resistance", got.MilliohmPerM.Shift(-3), got.Working), err
	},
	"KnownResistance.Resistance factor": func(r row) (answers, error) {
		got, err := wire.KnownResistance{Metal: "copper", MilliohmPerM: d("1000"), KnownC: some("20"), ConductorC: decimal.NewNullDecimal(r.D("conductor_temperature")), PerK: some("0.004")}.Resistance()
		return workingtest.Answer("kt", d("1000").Div(got.MilliohmPerM), got.Working), err
	},
	"SolidConductor.Resistance": func(r row) (answers, error) {
		size, err := tables.ParseSize("AWG " + r.Text("awg"))
		if err != nil {
			return answers{}, err
		}
		g, err := wire.AWG(size)
		if err != nil {
			return answers{}, err
		}
		got, err := wire.SolidConductor{Metal: "copper", AreaMM2: g.AreaMM2, ConductorC: decimal.NewNullDecimal(r.D("temperature")), From: g.Working}.Resistance()
		return workingtest.Answer("resistance", got.MilliohmPerM.Mul(foot), got.Working), err
	},
	"Strands.Geometry": func(r row) (answers, error) {
		g, err := wire.Strands{Wires: int(r.D("strands").IntPart()), DiameterMM: r.D("strand_radius").Mul(d("2")).Mul(inch)}.Geometry()
		return workingtest.Answer("area", g.AreaCmil, g.Working), err
	},
	"CodeDrop.Drop": func(r row) (answers, error) {
		c := codeDrop(r)
		c.AreaMM2 = r.D("area").Mul(circularMil)
		drop, err := c.Drop()
		return workingtest.Answer("voltage_drop", drop.DropV, drop.Working), err
	},
	"CodeDrop.LeastArea": func(r row) (answers, error) {
		a, err := codeDrop(r).LeastArea(r.D("allowable_drop"))
		area := a.AreaMM2
		if r.Has("K") {
			area = area.Div(circularMil)
		}
		return workingtest.Answer("area", area, a.Working), err
	},
	"CodeDrop.LeastArea size": func(r row) (answers, error) {
		a, err := codeDrop(r).LeastArea(r.D("limit"))
		if err != nil {
			return answers{}, err
		}
		size, err := a.LeastSize(tables.System(r.Text("system")))
		return workingtest.Answer("area", a.AreaMM2.Div(circularMil), size.Working).AndText("size", size.Size.String()), err
	},
	"CodeDrop.GreatestCurrent": func(r row) (answers, error) {
		c := codeDrop(r)
		c.AreaMM2 = r.D("area")
		limit := d("0.36") // 3 % of 12 V
		if r.Has("allowable_drop") {
			limit = r.D("allowable_drop")
		}
		i, err := c.GreatestCurrent(limit)
		return workingtest.Answer("max_current", i.CurrentA, i.Working), err
	},
	"Conductor.Ampacity": ampacity,
	"AircraftBundle.GreatestCurrent": func(r row) (answers, error) {
		b := wire.AircraftBundle{LoadingPercent: d("100"), AltitudeM: some("0"), BundleFactor: decimal.NewNullDecimal(r.D("bundle_factor"))}
		for _, name := range []string{"wires", "wires_in_bundle"} {
			if r.Has(name) {
				b.Wires = int(r.D(name).IntPart())
			}
		}
		answer := "current_per_wire"
		if r.Has("free_air_current") {
			b.FreeAirA = r.D("free_air_current")
		} else {
			b.FreeAirA, answer = r.D("current_after_altitude"), "max_current"
		}
		if r.Has("altitude_factor") {
			b.AltitudeFactor = decimal.NewNullDecimal(r.D("altitude_factor"))
		}
		i, err := b.GreatestCurrent()
		return workingtest.Answer(answer, i.CurrentA, i.Working), err
	},
	"HarnessCurrent": func(r row) (answers, error) {
		var kinds []wire.HarnessWires
		for _, k := range []string{"", "_awg22", "_awg20"} {
			if r.Has("wires" + k) {
				kinds = append(kinds, wire.HarnessWires{Wires: int(r.D("wires" + k).IntPart()), CurrentA: r.D("current" + k)})
			}
		}
		i, err := wire.HarnessCurrent(r.D("loading"), kinds...)
		return workingtest.Answer("total_harness_current", i.CurrentA, i.Working), err
	},
	"AircraftWire.Temperature": func(r row) (answers, error) {
		t, err := wire.AircraftWire{AmbientC: decimal.NewNullDecimal(r.D("ambient")), InsulationC: r.D("conductor_rating"), CurrentA: r.D("current"), GreatestA: r.D("max_current")}.Temperature()
		return workingtest.Answer("conductor_temperature", t.ConductorC, t.Working), err
	},
	"Melting.Onderdonk": func(r row) (answers, error) {
		i, err := wire.Melting{AreaMM2: r.D("area").Mul(circularMil), AmbientC: decimal.NewNullDecimal(r.D("ambient")), TimeS: r.D("time")}.Onderdonk()
		return workingtest.Answer("fusing_current", i.CurrentA, i.Working), err
	},
	"MeltingPreece": func(r row) (answers, error) {
		i, err := wire.MeltingPreece("copper", r.D("diameter").Mul(inch))
		return workingtest.Answer("fusing_current", i.CurrentA, i.Working), err
	},
}

func perFoot(ohm decimal.Decimal) decimal.Decimal { return ohm.Shift(3).DivRound(foot, 9) }
func perKft(ohm decimal.Decimal) decimal.Decimal  { return ohm.DivRound(foot, 9) }

// oneConductor is a run whose length the book states as that of one conductor.
func oneConductor(r row, length string) wire.Run {
	run := wire.Run{LengthM: r.D(length).Mul(foot).Div(d("2"))}
	if r.Has("current") {
		run.CurrentA = r.D("current")
	}
	if r.Unit("resistance") == "ohm/ft" {
		run.MilliohmPerM = perFoot(r.D("resistance"))
	} else {
		run.MilliohmPerM = perKft(r.D("resistance"))
	}
	return run
}

// wholeResistance asks for the resistance of a whole conductor, and of what it
// does to a load.
func wholeResistance(r row) (answers, error) {
	length := "length"
	if r.Has("loop_length") {
		length = "loop_length"
	}
	loop, err := oneConductor(r, length).Loop()
	if err != nil {
		return answers{}, err
	}
	got := workingtest.Answer("resistance_total", loop.LoopMilliohm.Shift(-3), loop.Working)
	if !r.Has("source_voltage") {
		return got, nil
	}
	drop, err := loop.Drop(r.D("current"))
	if err != nil {
		return answers{}, err
	}
	left, err := drop.VoltageLeft(r.D("source_voltage"))
	got.Working = left.Working
	return got.And("voltage_drop", drop.DropV).And("load_voltage", left.LeftV), err
}

// codeDrop reads the formula's constant and length, in either system of units.
func codeDrop(r row) wire.CodeDrop {
	c := wire.CodeDrop{}
	if r.Has("current") {
		c.CurrentA = r.D("current")
	}
	metre := d("1")
	source := cite.DataSheet.At("as the book states it", cite.Given)
	if r.Has("K") {
		c.Constant, metre = working.Figure{Value: r.D("K"), Unit: "ohm cmil per ft", Source: source}, foot
	} else {
		name := "constant"
		if r.Has("resistivity") {
			name = "resistivity"
		}
		c.Constant = working.Figure{Value: r.D(name), Unit: "ohm mm2 per m", Source: source}
	}
	if r.Has("loop_length") {
		c.LengthM = r.D("loop_length").Mul(metre).Div(d("2"))
	} else {
		c.LengthM = r.D("one_way_length").Mul(metre)
	}
	return c
}

// ampacity reads a conductor; terminals bear as much as its insulation.
func ampacity(r row) (answers, error) {
	size, err := tables.ParseSize(strings.TrimSpace(r.Text("size") + " " + r.Unit("size")))
	if err != nil {
		return answers{}, err
	}
	rule := tables.AmpacityRule{Metric: []string{"IEC 60364-5-52"}, Ambient: "IEC 60364-5-52 B.52.14"}
	if r.Text("rules") != "iec-three-loaded" {
		set, err := tables.RuleSetOf(r.Text("rules"))
		if err != nil {
			return answers{}, err
		}
		rule = set.Ampacity
	}
	a, err := wire.Conductor{
		Size: size, Class: tables.Stranded, PlainCopper: true, Method: "F", InsulationC: r.D("insulation"),
		AmbientC: decimal.NewNullDecimal(r.D("ambient")), Grouped: int(r.D("grouped").IntPart()),
		OutsideEngineSpace: r.Text("engine_space") != "yes", TerminalC: decimal.NewNullDecimal(r.D("insulation")),
	}.Ampacity(rule)
	return workingtest.Answer("ampacity", a.AmpacityA, a.Working), err
}

func TestHandbook(t *testing.T) { workingtest.Handbook(t, asks, 64) }

// TestPages checks the arithmetic printed in the Examples.
func TestPages(t *testing.T) { workingtest.Pages(t) }
