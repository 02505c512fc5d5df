package main

import (
	"testing"

	"example.org/extralow/examples/form"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var d = decimal.RequireFromString

// asked is the answer to flags.
func asked(t *testing.T, args ...string) answer {
	t.Helper()
	f := form.New("profile", entries)
	require.NoError(t, f.Parse(args))
	q := read(f)
	require.NoError(t, f.Faults())
	a, err := q.answer()
	require.NoError(t, err)
	return a
}

// TestVolts: by hand from the published volts a cell, n × (U − 3 mV × (T − 25)):
// six flooded cells absorb from 14.2 V (2.37 a cell), float from 13.2 V (2.20) and
// are equalised from 15.0 V (2.50); gel from 14.0 V (2.33) and 13.5 V (2.25). The 3
// mV are the tutorial's 30 mV a cell for 10 °C.
func TestVolts(t *testing.T) {
	for _, c := range []struct {
		chemistry, cells, atC       string
		absorption, float, equalise string
	}{
		{"lead-acid flooded", "6", "25", "14.22", "13.2", "15"},      // 6 × 2.37, 6 × 2.2, 6 × 2.5
		{"lead-acid flooded", "6", "10", "14.49", "13.47", "15.27"},  // + 6 × 0.045
		{"lead-acid flooded", "6", "-10", "14.85", "13.83", "15.63"}, // + 6 × 0.105
		{"lead-acid flooded", "6", "50", "13.77", "12.75", "14.55"},  // − 6 × 0.075
		{"lead-acid flooded", "12", "5", "29.16", "27.12", "30.72"},  // 12 × (2.37 + 0.06) ...
		{"lead-acid gel", "12", "35", "27.6", "26.64", ""},           // 12 × (2.33 − 0.03), 12 × (2.25 − 0.03); never equalised
		{"LiFePO4", "4", "10", "13.8", "13.4", ""},                   // 4 × 3.45, 4 × 3.35
		{"LiFePO4", "8", "45", "27.6", "26.8", ""},                   // no compensation
	} {
		a := asked(t, "-chemistry", c.chemistry, "-cells", c.cells, "-battery_c", c.atC)
		stages := a.own.profile.Stages
		require.Len(t, stages, 3)
		assert.Equal(t, c.absorption, stages[0].VoltageV.Decimal.String(), "%v: bulk", c)
		assert.Equal(t, c.absorption, stages[1].VoltageV.Decimal.String(), "%v: absorption", c)
		assert.Equal(t, c.float, stages[2].VoltageV.Decimal.String(), "%v: float", c)
		if c.equalise == "" {
			assert.Empty(t, a.own.equalise.Working, "%v", c)
		} else {
			assert.Equal(t, c.equalise, a.own.equalise.VoltageV.String(), "%v: equalise", c)
		}
	}
}

// TestBarred: lead-acid may be charged from -20 to 50 °C and lithium iron phosphate
// from 0 to 45 °C; of 200 Ah it takes 40 A up to 10 °C (0.2 an hour) and
// 100 A above (0.5 an hour).
func TestBarred(t *testing.T) {
	a := asked(t, "-chemistry", "LiFePO4", "-cells", "4", "-capacity_ah", "200", "-temperatures_c", "-1,0,9.9,10,45,46")
	got := map[string]string{}
	for _, r := range a.rows {
		got[r.atC.String()] = r.mostA.String() + " " + r.barred
	}
	assert.Equal(t, map[string]string{
		"-1": "0 not to be charged below 0 °C", "0": "40 ", "9.9": "40 ", "10": "100 ", "45": "100 ", "46": "0 not to be charged above 45 °C",
	}, got)
	a = asked(t, "-temperatures_c", "-21,-20,50,51")
	for i, barred := range []string{"not to be charged below -20 °C", "", "", "", "not to be charged above 50 °C"} {
		assert.Equal(t, barred, a.rows[i].barred, a.rows[i].atC)
	}
	for _, atC := range []string{"-21", "51"} {
		a = asked(t, "-battery_c", atC)
		assert.NotEmpty(t, a.barred, atC)
		assert.Empty(t, a.runs, "there is no charge at %s °C", atC)
	}
}

// TestHours: the sample by hand, held so high that the ampere-hour law alone ends bulk. 20 A of which 0.95 is kept up to 79 %, 0.55 to 84 %
// and 0.5 above; the battery takes an ampere for each ampere-hour missing
// (Woodbridge), so that bulk ends with 20 Ah missing and absorption, dying away by
// a half an hour, with 0.02 × 220 = 4.4 Ah missing.
func TestHours(t *testing.T) {
	a := asked(t, "-absorption_cell_v", "3.5")
	for _, c := range a.runs {
		// 63.8 ÷ 19 + 2.2 ÷ 11; + 8.8 ÷ 11 + 13.2 ÷ 10
		assert.InDelta(t, 3.55789, c.Marks[0].TimeH.Decimal.InexactFloat64(), 1e-4)
		assert.InDelta(t, 5.67789, c.Marks[1].TimeH.Decimal.InexactFloat64(), 1e-4)
		assert.False(t, c.Marks[2].TimeH.Valid, "the law never gets to full")
		// + 2 ÷ 10; + ln(20 ÷ 4.4) ÷ 0.5
		assert.InDelta(t, 5.87789, c.stages[0].toH.InexactFloat64(), 3e-4)
		assert.InDelta(t, 8.90615, c.stages[1].toH.InexactFloat64(), 3e-4)
		assert.InDelta(t, 98, c.stages[1].endPercent.InexactFloat64(), 1e-3) // 100 − 4.4 ÷ 2.2
		assert.True(t, c.stages[0].ended && c.stages[1].ended && !c.stages[2].ended)
		assert.Equal(t, "24", c.stages[2].toH.String())
	}
}

// TestClimb: the sample by hand. At 10 °C two strings of 110 Ah with 10 A each stand, half
// full, at 6 × (2 + 0.16 × 0.5 + 10 ÷ 110 × (6 ÷ (1 + 10^0.86) + 0.48 ÷ 0.5^1.2 + 0.036) × 1.375)
// = 13.880 V, and climb to the 14.49 V held less 20 A × 12 mΩ.
func TestClimb(t *testing.T) {
	trace := asked(t).runs[0].Trace
	assert.InDelta(t, 13.880, trace[0].BatteryV.InexactFloat64(), 0.001)
	for i, line := range trace[1:] {
		if line.Stage != "bulk" {
			assert.InDelta(t, 14.25, trace[i].BatteryV.InexactFloat64(), 0.001)
			break
		}
		assert.True(t, line.BatteryV.GreaterThanOrEqual(trace[i].BatteryV))
	}
}

// TestByTheClock: 10 A for 8 h from half: to 79 % in 63.8 ÷ 9.5 h, and 5.5 Ah in
// each hour that is left: 79 % + (8 − 6.71579) × 5.5 ÷ 220.
func TestByTheClock(t *testing.T) {
	c := asked(t, "-characteristic", "Ia", "-finish_a", "10", "-finish_h", "8").runs[0]
	assert.InDelta(t, 82.2105, c.EndPercent.InexactFloat64(), 1e-3)
	assert.True(t, c.stages[0].ended)
	assert.Equal(t, "8 h 00 min", c.stages[0].lasts())
}

// TestCable: in absorption the battery stands at the stage's voltage with sense
// wires, and else lower by I × R (Ohm).
func TestCable(t *testing.T) {
	a := asked(t, "-chemistry", "LiFePO4", "-cells", "4", "-limit_a", "60", "-cable_milliohm", "3", "-internal_milliohm", "8")
	for _, c := range a.runs {
		seen := 0
		for _, line := range c.Trace {
			if line.Stage != "absorption" {
				continue
			}
			seen++
			want := d("13.8")
			if !c.remote {
				want = want.Sub(line.BatteryA.Mul(d("0.003")))
			}
			assert.InDelta(t, want.InexactFloat64(), line.BatteryV.InexactFloat64(), 0.0011, "%s h, %v", line.TimeH, c.remote)
		}
		assert.Positive(t, seen)
	}
}

// TestSensingIsNoSlower: with the voltage held at the battery no state of charge is
// reached later.
func TestSensingIsNoSlower(t *testing.T) {
	for _, args := range [][]string{nil, {"-chemistry", "LiFePO4", "-cells", "4", "-limit_a", "80"}, {"-chemistry", "lead-acid AGM", "-internal_milliohm", "60"}} {
		a := asked(t, append(args, "-remote_sensing", "yes")...)
		sensed, not := a.runs[0], a.runs[1]
		require.True(t, sensed.remote && !not.remote)
		for i, m := range not.Marks {
			if m.TimeH.Valid {
				require.True(t, sensed.Marks[i].TimeH.Valid)
				assert.False(t, sensed.Marks[i].TimeH.Decimal.GreaterThan(m.TimeH.Decimal), "%v: %s %%", args, m.SoCPercent)
			}
		}
	}
}

// TestEnergy: what goes in is stored or lost; at a flat EMF of 13 V what is stored
// is 13 V times the ampere-hours gained.
func TestEnergy(t *testing.T) {
	a := asked(t, "-emf", "0 13; 100 13", "-coulombic_efficiency", "0.9")
	for _, c := range a.runs {
		assert.True(t, c.InWh.Equal(c.StoredWh.Add(c.LostWh)))
		gained := c.EndPercent.Sub(d("50")).Mul(d("2.2"))
		assert.InDelta(t, gained.Mul(d("13")).InexactFloat64(), c.StoredWh.InexactFloat64(), 0.05)
	}
}

// TestNoCable: without a cable it is the same wherever the voltage is held.
func TestNoCable(t *testing.T) {
	a := asked(t, "-cable_milliohm", "0")
	assert.Equal(t, a.runs[0].Marks, a.runs[1].Marks)
	assert.True(t, a.runs[0].InWh.Equal(a.runs[1].InWh))
}

// TestLinesAreWorked: the drift guard evaluates every line; those of the charge are
// package charge's own.
func TestLinesAreWorked(t *testing.T) {
	for _, args := range pages {
		a := asked(t, withoutSwitches(args)...)
		for _, r := range a.rows {
			for _, w := range []working.Working{r.profile.Working, r.equalise.Working, r.window, r.most} {
				if len(w) > 0 {
					workingtest.Guard(t, w)
				}
			}
		}
	}
}

func withoutSwitches(args []string) []string {
	if len(args) > 0 && args[0] == "-working" {
		return args[1:]
	}
	return args
}

// TestRest: six flooded cells rest at the volts of the five-point table, twelve at
// double; four of lithium iron phosphate end at four times 3.5981 V.
func TestRest(t *testing.T) {
	ends := func(args ...string) (string, string) {
		emf := asked(t, args...).battery.EMF
		return emf[0].EMFV.String(), emf[len(emf)-1].EMFV.String()
	}
	for _, c := range []struct {
		args        []string
		empty, full string
	}{
		{nil, "11.89", "12.65"},
		{[]string{"-cells", "12"}, "23.78", "25.3"},
		{[]string{"-chemistry", "lead-acid gel"}, "11.8", "12.8"},
		{[]string{"-chemistry", "LiFePO4", "-cells", "4"}, "8.0408", "14.3924"},
		{[]string{"-emf", "0 11.5; 100 12.9"}, "11.5", "12.9"},
	} {
		empty, full := ends(c.args...)
		assert.Equal(t, []string{c.empty, c.full}, []string{empty, full}, "%q", c.args)
	}
}

// TestKept: between two bands of the source the next, lower one holds.
func TestKept(t *testing.T) {
	steps := func(args ...string) (all []string) {
		for _, s := range asked(t, args...).battery.Efficiency {
			all = append(all, s.FromPercent.String()+" "+s.Efficiency.String())
		}
		return all
	}
	assert.Equal(t, []string{"0 0.95", "79 0.55", "84 0.5"}, steps())
	assert.Equal(t, []string{"0 0.85"}, steps("-chemistry", "lead-acid AGM"))
	assert.Equal(t, []string{"0 0.7"}, steps("-coulombic_efficiency", "0.7"))
}

func TestClock(t *testing.T) {
	for h, want := range map[string]string{"0": "0 min", "0.0001": "1 min", "0.5": "30 min", "1": "1 h 00 min", "1.0001": "1 h 01 min", "24.05": "24 h 03 min"} {
		assert.Equal(t, want, clock(d(h)), h)
	}
}

func TestApart(t *testing.T) {
	all := apart([]level{{13.4, "float"}, {13.3, "absorption"}, {14, "limit"}}, 0.25)
	assert.InDelta(t, 13.3, all[0].value, 1e-9)
	assert.InDelta(t, 13.55, all[1].value, 1e-9)
	assert.InDelta(t, 14, all[2].value, 1e-9)
}

// TestFit: a scale holds what it must, in at most eight marks.
func TestFit(t *testing.T) {
	for _, c := range [][2]float64{{12.3, 14.49}, {0, 20}, {0, 0.3}, {13.4, 13.4}, {0, 137}, {23.1, 30.72}} {
		var b band
		b.fit(c[0], c[1])
		assert.LessOrEqual(t, b.low, c[0]+1e-9, "%v", c)
		assert.GreaterOrEqual(t, b.high, c[1]-1e-9, "%v", c)
		assert.LessOrEqual(t, len(b.ticks()), 8, "%v", c)
	}
}
