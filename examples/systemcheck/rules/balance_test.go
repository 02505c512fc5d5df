package rules

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.org/extralow/charge"
	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func modelOf(t *testing.T, name string, edit func(*job.Job)) *facts.Facts {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "jobs", name))
	require.NoError(t, err)
	defer f.Close()
	file, err := job.Read(name, f)
	require.NoError(t, err)
	j := file.Job()
	edit(&j)
	m, err := facts.New(j)
	require.NoError(t, err)
	return m
}

// named are the spells whose name begins so.
func named(spells []charge.DutyPeriod, name string) []charge.DutyPeriod {
	return slices.DeleteFunc(slices.Clone(spells), func(s charge.DutyPeriod) bool { return !strings.HasPrefix(s.Name, name) })
}

// The sun is counted once, by its own hours; a state that lists the controller
// does not add its greatest output to that.
func TestSunCountsOnce(t *testing.T) {
	m := modelOf(t, "clinic.yaml", func(*job.Job) {})
	b, err := m.Balance(12)
	require.NoError(t, err)
	sun := named(b.Sources, "roof array")
	require.Len(t, sun, 1)
	assert.True(t, sun[0].Sun)
	for i := range m.Job.States {
		supplies, err := m.SuppliesIn(&m.Job.States[i])
		require.NoError(t, err)
		assert.NotContains(t, namesOf(supplies), "roof array")
	}
}

func namesOf(all []facts.Supply) (names []string) {
	for _, x := range all {
		names = append(names, x.Name)
	}
	return names
}

// An alternator that cables join to the bank counts where the engine runs or the
// state lists it, at idle with what it gives there, and where it is not joined in
// no state.
func TestAlternatorCountsInItsStates(t *testing.T) {
	m := modelOf(t, "clinic.yaml", func(j *job.Job) {
		i := slices.IndexFunc(j.Circuits, func(c job.Circuit) bool { return c.Name == "alternator lead" })
		j.Circuits[i].To = "main bus"
		j.Alternators[0].Variable, j.Alternators[0].LeastV = false, decimal.NullDecimal{}
		j.States[1].Sources = nil // the engine idles there all the same
	})
	b, err := m.Balance(12)
	require.NoError(t, err)
	var got []string
	for _, s := range named(b.Sources, "alternator") {
		got = append(got, s.Name+" "+s.CurrentA.String()+" A "+s.FromH.String()+"-"+s.ToH.String())
	}
	// 200 A at 80 % less 45 A; 120 A at 80 % less 45 A
	assert.Equal(t, []string{"alternator, driving 99 A 0-3", "alternator, idling at the roadside 51 A 3-3.5"}, got)

	b, err = modelOf(t, "clinic.yaml", func(*job.Job) {}).Balance(12)
	require.NoError(t, err)
	assert.Empty(t, named(b.Sources, "alternator"))
}

// The loads draw in the hours of their states, and in a day what the audit says,
// rounded up: a lamp of 7 h in states of 6 h and half an hour runs half an hour of
// its time all day long.
func TestLoadsDrawInTheirStates(t *testing.T) {
	for _, name := range []string{"clinic.yaml", "library-truck.yaml", "river-workboat.yaml"} {
		m := modelOf(t, name, func(*job.Job) {})
		sum, err := m.Audit()
		require.NoError(t, err)
		drawn := decimal.Zero
		for _, s := range m.DrawnIn(sum.ChargeAh) {
			drawn = drawn.Add(s.CurrentA.Mul(s.ToH.Sub(s.FromH)))
		}
		assert.True(t, drawn.GreaterThanOrEqual(sum.ChargeAh), name)
		assert.InDelta(t, sum.ChargeAh.InexactFloat64(), drawn.InexactFloat64(), 0.01, name)
	}
	m := modelOf(t, "clinic.yaml", func(j *job.Job) {
		j.Loads = j.Loads[1:2] // 48 W, 7 h a day
		for i := range j.States {
			j.States[i].Loads = slices.DeleteFunc(slices.Clone(j.States[i].Loads), func(l string) bool { return l != "examination lights" })
		}
		j.States[1].HoursDay, j.States[2].HoursDay = decimal.RequireFromString("0.5"), decimal.NewFromInt(6)
	})
	got := m.DrawnIn(decimal.NewFromInt(28)) // 4 A for 7 h
	require.Len(t, got, 3)
	assert.Equal(t, "0.0834", got[0].CurrentA.String()) // 4 A × 0.5 h ÷ 24 h
	assert.Equal(t, []string{"4", "3", "3.5"}, []string{got[1].CurrentA.String(), got[1].FromH.String(), got[1].ToH.String()})
	assert.Equal(t, []string{"4", "3.5", "9.5"}, []string{got[2].CurrentA.String(), got[2].FromH.String(), got[2].ToH.String()})
}

// TestOneUnitInABalance: what goes into and out of a bank is counted in ampere-hours. A
// day's use is its energy over the bank's nominal voltage, what the sun gives is its
// energy over the voltage at which it charges, the two never over one another's.
func TestOneUnitInABalance(t *testing.T) {
	for _, name := range []string{"clinic.yaml", "library-truck.yaml", "river-workboat.yaml"} {
		m := modelOf(t, name, func(*job.Job) {})
		sum, err := m.Audit()
		require.NoError(t, err)
		b, err := m.Balance(6)
		require.NoError(t, err)
		drawn := decimal.Zero
		for _, s := range b.Loads {
			drawn = drawn.Add(s.CurrentA.Mul(s.ToH.Sub(s.FromH)))
		}
		assert.InDelta(t, sum.EnergyWh.Div(m.Job.SystemV).InexactFloat64(), drawn.InexactFloat64(), 0.02, name)
		assert.True(t, m.House()[0].NominalV.GreaterThanOrEqual(m.Job.SystemV), "%s: no more ampere-hours than at the bank's own", name)
		for i, s := range m.Job.Solar {
			sun, err := m.SunOn(s, i, 6)
			require.NoError(t, err)
			day, err := m.ModuleDay(s, i, 6)
			require.NoError(t, err)
			offered := day.EnergyWh.Mul(s.InSeries).Mul(s.Strings).Div(s.OutputV).InexactFloat64()
			assert.InEpsilon(t, offered, sun.CurrentA.InexactFloat64()*24/math.Pi, 0.001, "%s: half a sine", s.Name)
		}
	}
}

// Where nothing but standby draws it draws all day.
func TestNoLoadsDrawEvenly(t *testing.T) {
	m := modelOf(t, "clinic.yaml", func(j *job.Job) {
		for i := range j.Loads {
			j.Loads[i].HoursADay = decimal.Zero
		}
		j.Inverters[0].IdleW = decimal.Zero
	})
	got := m.DrawnIn(decimal.NewFromInt(12))
	require.Len(t, got, 1)
	assert.Equal(t, "0.5", got[0].CurrentA.String())
}

// A controller that holds less than the full bank's rested voltage puts nothing
// into it, for current flows from the higher voltage to the lower: it is not
// counted on, and the check ends.
func TestControllerBelowTheBankGivesNothing(t *testing.T) {
	for volts, sources := range map[string]int{"5": 0, "12": 0, "12.7": 0, "13.4": 0, "13.5": 1} {
		m := modelOf(t, "clinic.yaml", func(j *job.Job) { j.Solar[0].OutputV = decimal.RequireFromString(volts) })
		b, err := m.Balance(12)
		require.NoError(t, err)
		assert.Len(t, named(b.Sources, "roof array"), sources, volts)
		_, err = holdsBalance(m)
		assert.NoError(t, err, volts)
	}
}

// Four weeks do not tell a bank that holds from one that sinks for good: a large
// one has a long way down. On the mains alone 30 A for 5 h hardly cover what a day
// takes, 148.88 Ah; a quarter of an hour less is 7.5 Ah a day, and even of 3200 Ah
// nothing is left of that within the year.
func TestBankMustHoldForEver(t *testing.T) {
	for hours, want := range map[string]working.Verdict{"5.25": working.Passes, "4.95": working.Fails, "4.75": working.Fails} {
		m := modelOf(t, "clinic.yaml", func(j *job.Job) {
			j.Solar, j.States[0].Sources, j.States[1].Sources, j.States[2].Sources = nil, nil, nil, nil
			j.Circuits = slices.DeleteFunc(j.Circuits, func(c job.Circuit) bool { return c.From == "roof array" })
			j.Batteries[0].CapacityAh, j.Batteries[1].CapacityAh = decimal.NewFromInt(2000), decimal.NewFromInt(2000)
			j.States[3].HoursDay = decimal.RequireFromString(hours)
		})
		b, err := m.Balance(1)
		require.NoError(t, err)
		ledger, err := b.Run()
		require.NoError(t, err)
		four, err := ledger.Check(decimal.NewNullDecimal(decimal.NewFromInt(20)))
		require.NoError(t, err)
		assert.Equal(t, working.Passes, four.Verdict(), hours)
		month, err := m.Step(b)
		require.NoError(t, err)
		c, err := holds(m, month)
		require.NoError(t, err)
		workingtest.Guard(t, c.Working)
		assert.Equal(t, want, c.Verdict(), hours)
	}
}

// The months are those of the first array that charges the house bank; without
// one every month is alike.
func TestMonthsOfTheHouseArray(t *testing.T) {
	second := func(j *job.Job) {
		other := j.Solar[0]
		other.Name, other.Place = "bonnet array", "Denver"
		j.Solar = []job.Solar{other, j.Solar[0]}
		i := slices.IndexFunc(j.Circuits, func(c job.Circuit) bool { return c.From == "roof array" })
		line := j.Circuits[i]
		line.Name, line.From, line.To = "bonnet array output", "bonnet array", "starter battery"
		j.Circuits = append(j.Circuits, line)
	}
	m := modelOf(t, "clinic.yaml", second)
	months, err := m.Months()
	require.NoError(t, err)
	assert.Equal(t, []int{12, 6}, months, "of Leeds")
	m = modelOf(t, "clinic.yaml", func(j *job.Job) {
		second(j)
		j.Solar = j.Solar[:1]
		j.Circuits = slices.DeleteFunc(j.Circuits, func(c job.Circuit) bool { return c.From == "roof array" })
		j.States[2].Sources = nil
	})
	found, err := holdsBalance(m)
	require.NoError(t, err)
	require.Len(t, found, 1)
	assert.Equal(t, "the house bank", found[0].Where)
}

// An inverter's loss and its idling are drawn in the state on site, where it feeds
// something: 800 W for 0.6 h at 88 % and 9 W for 6 h are 545.45 and 54 Wh. Beside
// them a lamp of 48 W that no state lists draws 24 Wh all day long.
func TestInverterDrawsInItsStates(t *testing.T) {
	d := modelOf(t, "clinic.yaml", func(j *job.Job) {
		lamp := j.Loads[1]
		lamp.HoursADay = decimal.RequireFromString("0.5")
		j.Loads = []job.Load{lamp, j.Loads[4]}
		for i := range j.States {
			j.States[i].Loads = slices.DeleteFunc(slices.Clone(j.States[i].Loads), func(l string) bool { return l != "centrifuge and steriliser" })
		}
	}).Draws()
	assert.Equal(t, "24", d.AllDay.Round(2).String())
	assert.Equal(t, "599.45", d.States[2].Round(2).String())
	assert.Equal(t, "623.45", d.Sum().Round(2).String())
}

// A quarter of a day is the worst six hours on end, those on site: the fridge
// takes 22 W × 6 h, the lamps 48 W × 6 h and a quarter of the 24 Wh that their
// states have no room for, the pump 35 Wh, the fan 36 W × 8 h × 6 ÷ 9.5, the
// inverter 545.45 + 54 Wh. Half of them is less than half, and a window may wrap
// over midnight.
func TestWorstPartOfADay(t *testing.T) {
	m := modelOf(t, "clinic.yaml", func(*job.Job) {})
	sum, err := m.Audit()
	require.NoError(t, err)
	part := func(hours string) decimal.Decimal {
		most, where := m.WorstPart(decimal.RequireFromString(hours), sum.EnergyWh)
		assert.Contains(t, where, "on site", hours)
		return most
	}
	assert.InDelta(t, 132+288+6+35+181.89+545.45+54, part("6").InexactFloat64(), 0.1)
	last := decimal.Zero
	for _, hours := range []string{"1", "3", "6", "12", "20", "23.9"} {
		h := decimal.RequireFromString(hours)
		got := part(hours)
		assert.True(t, got.GreaterThan(last) && !got.GreaterThan(sum.EnergyWh), hours)
		assert.True(t, got.GreaterThanOrEqual(sum.EnergyWh.Mul(h).DivRound(facts.DayH, 9)), "%s h take no less than the mean", hours)
		last = got
	}
	night, where := modelOf(t, "clinic.yaml", func(j *job.Job) {
		j.States = []job.State{j.States[2], {Name: "resting", HoursDay: decimal.NewFromInt(12)}, {Name: "lit", HoursDay: decimal.NewFromInt(6), Loads: []string{"examination lights"}}}
	}).WorstPart(decimal.NewFromInt(12), sum.EnergyWh)
	assert.Equal(t, "the 12 h that take most: lit, on site", where)
	assert.True(t, night.LessThan(sum.EnergyWh))
}
