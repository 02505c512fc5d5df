package charge

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var dd = decimal.RequireFromString

// vanBank is four lithium iron phosphate cells, 200 Ah, round figures.
func vanBank() BatteryOnCharge {
	return BatteryOnCharge{
		Chemistry: "LiFePO4", CapacityAh: dd("200"), BatteryC: dd("20"), ChargeA: decimal.NewNullDecimal(dd("100")),
		InternalMilliohm: dd("8"),
		EMF: []EMFPoint{
			{dd("0"), dd("10.8")}, {dd("5"), dd("12.4")}, {dd("20"), dd("13.0")}, {dd("60"), dd("13.2")},
			{dd("95"), dd("13.36")}, {dd("100"), dd("14.0")},
		},
		Efficiency: []EfficiencyStep{{dd("0"), dd("0.99")}},
	}
}

func boatBank() BatteryOnCharge {
	return BatteryOnCharge{
		Chemistry: "lead-acid flooded", CapacityAh: dd("220"), BatteryC: dd("15"), ChargeA: decimal.NewNullDecimal(dd("44")),
		Cells: 6, Strings: 2, InternalMilliohm: dd("6"),
		EMF:        []EMFPoint{{dd("0"), dd("11.6")}, {dd("50"), dd("12.2")}, {dd("100"), dd("12.7")}},
		Efficiency: []EfficiencyStep{{dd("0"), dd("0.95")}, {dd("80"), dd("0.7")}, {dd("90"), dd("0.5")}},
	}
}

func truckBank() BatteryOnCharge {
	b := vanBank()
	b.CapacityAh, b.ChargeA, b.InternalMilliohm = dd("100"), decimal.NewNullDecimal(dd("50")), dd("20")
	for i, p := range b.EMF {
		b.EMF[i].EMFV = p.EMFV.Mul(dd("2"))
	}
	return b
}

func iuou(absorption, float, tail string) []Stage {
	return []Stage{
		{Name: "bulk", Letter: "I", VoltageV: decimal.NewNullDecimal(dd(absorption))},
		{Name: "absorption", Letter: "U", VoltageV: decimal.NewNullDecimal(dd(absorption)), TailA: decimal.NewNullDecimal(dd(tail))},
		{Name: "float", Letter: "U", VoltageV: decimal.NewNullDecimal(dd(float))},
	}
}

func simulations() map[string]Simulation {
	source := func(amps, milliohm string) ChargingSource {
		return ChargingSource{CurrentA: dd(amps), Efficiency: dd("0.9"), CableMilliohm: dd(milliohm)}
	}
	sensing := func(s ChargingSource) ChargingSource { s.RemoteSensing = true; return s }
	power := func(s ChargingSource, watts string) ChargingSource {
		s.PowerW = decimal.NewNullDecimal(dd(watts))
		return s
	}
	own := func(s ChargingSource, volts string) ChargingSource {
		s.VoltageV = decimal.NewNullDecimal(dd(volts))
		return s
	}
	s := func(b BatteryOnCharge, start string, src ChargingSource, stages []Stage, load string) Simulation {
		return Simulation{
			Battery: b, Source: src, Stages: stages, LoadA: dd(load), StartPercent: dd(start), WithinH: dd("24"),
			StepS: 60, MarkPercent: []decimal.Decimal{dd("80"), dd("90"), dd("95")},
		}
	}
	leadAcid := func(b BatteryOnCharge, start string, src ChargingSource, absorption, load string) Simulation {
		of := s(b, start, src, iuou(absorption, "13.5", "4.4"), load)
		of.MarkPercent = []decimal.Decimal{dd("60"), dd("80"), dd("88")}
		return of
	}
	poor, single := boatBank(), boatBank()
	poor.AcceptPerHour = decimal.NewNullDecimal(dd("0.2"))
	single.Strings, single.BatteryC = 1, dd("35")
	mains, thin := source("60", "4"), source("60", "30")
	lithium := iuou("14.2", "13.5", "10")
	return map[string]Simulation{
		"lithium":                    s(vanBank(), "20", mains, lithium, "0"),
		"lithium sensing":            s(vanBank(), "20", sensing(mains), lithium, "0"),
		"lithium power":              s(vanBank(), "20", power(mains, "500"), lithium, "5"),
		"lithium own":                s(vanBank(), "20", own(mains, "14.0"), lithium, "5"),
		"lithium thin cable":         s(vanBank(), "20", thin, lithium, "5"),
		"lithium thin cable sensing": s(vanBank(), "20", sensing(thin), lithium, "5"),
		"lithium empty":              s(vanBank(), "1", power(source("150", "4"), "1500"), lithium, "0"),
		"lithium 24 V":               s(truckBank(), "20", source("30", "20"), iuou("28.4", "27", "5"), "2"),
		"lead":                       leadAcid(boatBank(), "20", mains, "14.4", "3"),
		"lead half full":             leadAcid(boatBank(), "50", source("20", "20"), "14.4", "3"),
		"lead own":                   leadAcid(boatBank(), "20", own(mains, "13.9"), "14.4", "8"),
		"lead sensing":               leadAcid(boatBank(), "20", sensing(source("60", "20")), "14.4", "3"),
		"lead power":                 leadAcid(boatBank(), "20", power(mains, "300"), "14.4", "3"),
		"lead poor":                  leadAcid(poor, "20", mains, "14.4", "3"),
		"lead one string":            leadAcid(single, "50", source("12", "4"), "14", "3"),
		"lead overloaded":            leadAcid(boatBank(), "20", mains, "14.4", "64"),
	}
}

// TestEnergyCloses holds the float state to the books: what goes in is stored,
// given to the loads or lost, and what is stored is the area under the EMF.
func TestEnergyCloses(t *testing.T) {
	for name, s := range simulations() {
		for _, step := range []int{1, 60, 3600} {
			t.Run(fmt.Sprintf("%s %d s", name, step), func(t *testing.T) {
				s.StepS = step
				var w = s.Battery.From
				rate, accept, err := s.Battery.limits(&w)
				require.NoError(t, err)
				r := newRun(s, rate, accept)
				from := r.ah
				require.NoError(t, r.charge())
				f := r.tally
				t.Log(r.steps, r.hours, r.ah, f)
				assert.InDelta(t, f.in, f.stored+f.load+f.lost(), 1e-9*f.in)
				for _, lost := range []float64{f.converter, f.cable, f.battery, f.charge} {
					assert.GreaterOrEqual(t, lost, -1e-9)
				}
				assert.InDelta(t, area(r.m.spans, from, r.ah), f.stored, 1e-6*math.Abs(f.stored)+1e-9)
			})
		}
	}
}

// area is the energy between two states of charge.
func area(spans []span, from, to float64) float64 {
	if to < from {
		return -area(spans, to, from)
	}
	var sum float64
	for _, s := range spans {
		a, b := max(from, s.fromAh), min(to, s.toAh)
		if b > a {
			sum += (b - a) * (s.emfV + s.slope*((a+b)/2-s.fromAh))
		}
	}
	return sum
}

// TestNoNumberIsNoAnswer: what is no number is refused, not turned into nought.
func TestNoNumberIsNoAnswer(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		var out exit
		out.fixed(x, 2)
		out.fixed(1, 2)
		assert.ErrorIs(t, out.err, errBeyond, "a number after it does not take the refusal back")
	}
	var out exit
	assert.Equal(t, "1.23", out.fixed(1.2345, 2).String())
	assert.NoError(t, out.err)
}

// TestPower holds the powers of the time loop to those of package math, along a charge
// and back and by leaps.
func TestPower(t *testing.T) {
	for _, y := range []float64{0.86, -1.2, 2, 0.5} {
		p := newPower(y)
		assert.Zero(t, p.of(0))
		for i := range 20_000 {
			x := math.Abs(math.Cos(float64(i)/3000)) + 1e-9
			if i%97 == 0 {
				x *= 1000
			}
			assert.InEpsilon(t, math.Pow(x, y), p.of(x), 1e-9)
		}
	}
}

// TestAgainstODESolver compares times, energy and states with the golden numbers
// of another program: testdata/ode.py, which has scipy's solver integrate an
// independent statement of the model.
func TestAgainstODESolver(t *testing.T) {
	f, err := os.Open(filepath.Join("testdata", "ode.csv"))
	require.NoError(t, err)
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(lines), 10)
	for _, line := range lines[1:] {
		t.Run(line[0], func(t *testing.T) {
			s, ok := simulations()[line[0]]
			require.True(t, ok)
			c, err := s.Run()
			require.NoError(t, err)
			for i, m := range c.Marks {
				require.True(t, m.TimeH.Valid)
				assert.InDelta(t, golden(line[i+1]), m.TimeH.Decimal.InexactFloat64(), 1e-4, "%s %%", m.SoCPercent)
			}
			assert.InDelta(t, golden(line[5]), c.EndPercent.InexactFloat64(), 1e-3)

			s.StopPercent = decimal.NewNullDecimal(s.MarkPercent[2])
			c, err = s.Run()
			require.NoError(t, err)
			require.True(t, c.Reached)
			assert.InEpsilon(t, golden(line[4]), c.InWh.InexactFloat64(), 1e-4)
		})
	}
}

func golden(figure string) float64 { return dd(figure).InexactFloat64() }

// Each month ends on its last day, and the next begins on the day after, from
// whichever month the days are counted: a common year of the calendar.
func TestMonthOfEachDay(t *testing.T) {
	days := []int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
	for first := 1; first <= 12; first++ {
		day := 0
		for n := range 24 {
			month := (first - 1 + n) % 12
			assert.Equal(t, month, monthOf(day, first), "first day of month %d, counted from %d", month+1, first)
			day += days[month]
			assert.Equal(t, month, monthOf(day-1, first), "last day of month %d, counted from %d", month+1, first)
		}
	}
}

// Shares of the months are twelve or none.
func TestSharesOfMonths(t *testing.T) {
	spell := DutyPeriod{Name: "sun", CurrentA: dd("5"), FromH: dd("6"), ToH: dd("18")}
	for _, n := range []int{0, 1, 11, 12, 13} {
		spell.Months = make([]decimal.Decimal, n)
		for i := range spell.Months {
			spell.Months[i] = dd("0.5")
		}
		assert.Equal(t, n == 0 || n == 12, spell.check() == nil, n)
	}
}
