package charge_test

import (
	"errors"
	"testing"

	"example.org/extralow/charge"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// parse reads the numbers of a fuzz input; ok is false where one is no number.
func parse(texts ...string) (all []decimal.Decimal, ok bool) {
	for _, text := range texts {
		v, err := decimal.NewFromString(text)
		if err != nil || len(text) > 40 {
			return nil, false
		}
		all = append(all, v)
	}
	return all, true
}

// FuzzSimulation: any numbers lead to an error or to an answer that keeps its
// books.
func FuzzSimulation(f *testing.F) {
	f.Add("25", "0.88", "5", "3", "40", "12", "14.5", "4.4", "15", uint8(0), false)
	f.Add("0", "1", "0", "100", "100", "3", "10", "0", "-5", uint8(4), true)
	f.Add("1e3", "0.001", "1000", "0.1", "0.1", "1", "1000", "0", "50", uint8(6), true)
	f.Fuzz(func(t *testing.T, amps, efficiency, cable, load, start, within, volts, tail, celsius string, kind uint8, remote bool) {
		v, ok := parse(amps, efficiency, cable, load, start, within, volts, tail, celsius)
		if !ok || v[5].GreaterThan(d("48")) {
			return
		}
		s := overnight()
		s.Battery.Chemistry = tables.Chemistries()[int(kind)%len(tables.Chemistries())]
		s.Battery.ChargeA = some("44")
		s.Battery.BatteryC = v[8]
		s.Source = charge.ChargingSource{CurrentA: v[0], Efficiency: v[1], CableMilliohm: v[2], RemoteSensing: remote}
		s.LoadA, s.StartPercent, s.WithinH = v[3], v[4], v[5]
		for i := range s.Stages {
			s.Stages[i].VoltageV = decimal.NewNullDecimal(v[6])
		}
		s.Stages[1].TailA = decimal.NewNullDecimal(v[7])
		c, err := s.Run()
		if err != nil {
			return
		}
		workingtest.Guard(t, c.Working)
		if c.EndPercent.IsNegative() || c.EndPercent.GreaterThan(d("100")) || c.TimeH.GreaterThan(s.WithinH.Add(d("0.0001"))) {
			t.Errorf("ends at %s %% after %s h", c.EndPercent, c.TimeH)
		}
		if c.LostWh.LessThan(d("-0.01")) {
			t.Errorf("%s Wh lost", c.LostWh)
		}
	})
}

// FuzzTrigger: any numbers lead to an error or to a drive that adds up.
func FuzzTrigger(f *testing.F) {
	f.Add("13.3", "12.8", "15", "60", "36", "6", "14.2", "12.6", "600")
	f.Add("1", "1", "1", "1", "9999", "9999", "99", "0", "86400")
	f.Fuzz(func(t *testing.T, wake, sleep, wakeS, sleepS, amps, milliohm, running, resting, seconds string) {
		v, ok := parse(wake, sleep, wakeS, sleepS, amps, milliohm, running, resting, seconds)
		if !ok || v[8].GreaterThan(d("86400")) { // a week of the worst takes half a second: see below
			return
		}
		trigger := charge.Trigger{WakeV: v[0], SleepV: v[1], WakeS: v[2], SleepS: v[3], InputA: v[4], InputMilliohm: decimal.NewNullDecimal(v[5])}
		r, err := trigger.Drive([]charge.DrivePhase{
			{Name: "drive", TimeS: v[8], Running: true, VehicleV: v[6]}, {Name: "stop", TimeS: v[8], VehicleV: v[7]},
		})
		if err != nil {
			return
		}
		workingtest.Guard(t, r.Working)
		if !r.AwakeS.Sub(r.DrainS).Add(r.MissedS).Equal(r.RunningS) {
			t.Errorf("awake %s, drain %s, missed %s, running %s", r.AwakeS, r.DrainS, r.MissedS, r.RunningS)
		}
	})
}

// A trigger that switches every second for the longest drive there is ends too.
func TestTriggerThroughAWeek(t *testing.T) {
	trigger := charge.Trigger{WakeV: d("1"), SleepV: d("1"), WakeS: d("1"), SleepS: d("1"), InputA: d("9999"), InputMilliohm: some("9999")}
	r, err := trigger.Drive([]charge.DrivePhase{{Name: "drive", TimeS: d("604800"), Running: true, VehicleV: d("99")}})
	require.NoError(t, err)
	assert.Equal(t, "604800", r.RunningS.String())
}

// FuzzDecimals puts any numbers to the functions that only reckon.
func FuzzDecimals(f *testing.F) {
	f.Add("14.4", "30", "12.2", "0.9", uint8(105))
	f.Add("60", "1", "30", "0.5", uint8(1))
	f.Add("-90", "1e20", "1e-20", "-0.3", uint8(255))
	f.Add("14.4", "-8", "40", "-30", uint8(6))
	f.Fuzz(func(t *testing.T, a, b, c, e string, n uint8) {
		v, ok := parse(a, b, c, e)
		if !ok {
			return
		}
		if r, err := (charge.Converter{OutputV: v[0], OutputA: v[1], InputV: v[2], Efficiency: v[3]}).Input(); err == nil {
			workingtest.Guard(t, r.Working)
		}
		if r, err := (charge.Taper{MissingAh: v[0], AcceptPerHour: v[1], LimitA: v[2]}).After(v[3]); err == nil {
			workingtest.Guard(t, r.Working)
		}
		if r, err := (charge.Taper{MissingAh: v[0], AcceptPerHour: v[1], LimitA: v[2]}).Until(v[3]); err == nil {
			workingtest.Guard(t, r.Working)
		}
		if r, err := (charge.StageVoltage{CellV: v[0], Cells: int(n), ReferenceC: v[1], MilliVPerC: v[2]}).At(v[3]); err == nil {
			workingtest.Guard(t, r.Working)
		}
		if r, err := (charge.Coupled{VehicleV: v[0], BankV: v[1], Milliohm: v[2]}).Current(); err == nil {
			workingtest.Guard(t, r.Working)
		}
		if r, err := (charge.Sky{LatitudeDeg: v[0], Day: int(n)}).Radiation(); err == nil {
			workingtest.Guard(t, r.Working)
		}
		if r, err := (charge.Slope{LatitudeDeg: v[0], Day: int(n), TiltDeg: v[1], GroundMJ: v[2], Albedo: v[3]}).Monthly(); err == nil {
			workingtest.Guard(t, r.Working)
		}
		if r, err := (charge.Module{OpenV: v[0], OpenPercentPerC: decimal.NewNullDecimal(v[1])}).ColdVoltage(decimal.NewNullDecimal(v[2]), int(n)); err == nil {
			workingtest.Guard(t, r.Working)
		}
		if r, err := (charge.Module{PowerW: v[0], PowerPercentPerC: v[1]}).Power(v[2], v[3]); err == nil {
			workingtest.Guard(t, r.Working)
		}
		for _, chemistry := range tables.Chemistries() {
			if r, err := (charge.BatteryOnCharge{Chemistry: chemistry, CapacityAh: v[0], BatteryC: v[1]}).Acceptance(v[2]); err == nil {
				workingtest.Guard(t, r.Working)
			}
			window := charge.VoltageWindow{Chemistry: chemistry, Cells: int(n), ColdestC: decimal.NewNullDecimal(v[1]), HottestC: decimal.NewNullDecimal(v[2]), CutOutV: decimal.NewNullDecimal(v[0])}
			setting := charge.Setting{HeldV: v[0], MilliVPerC: decimal.NewNullDecimal(v[3]), EqualiseV: decimal.NewNullDecimal(v[1])}
			if checks, err := window.Checks(setting); err == nil {
				for _, c := range checks {
					workingtest.Guard(t, c.Working)
				}
			}
			if c, err := window.CheckClosed(setting); err == nil {
				workingtest.Guard(t, c.Working)
			}
			times, err := charge.Refill{Chemistry: chemistry, MissingAh: v[0], CurrentA: v[1], LoadA: decimal.NewNullDecimal(v[2])}.Times()
			if err == nil && len(times) > 0 {
				workingtest.Guard(t, times[0].Working)
			}
		}
	})
}

// FuzzBalance: any numbers lead to an error or to days that end with the books
// kept.
func FuzzBalance(f *testing.F) {
	f.Add("14.4", "40", "12", "50", "8", "44", "15", uint8(0))
	f.Add("12.7", "15", "30", "100", "9", "44", "0", uint8(6)) // below the EMF of the empty bank
	f.Add("5", "1e4", "1e4", "0", "0.001", "0", "-30", uint8(4))
	f.Fuzz(func(t *testing.T, volts, amps, load, start, milliohm, most, celsius string, kind uint8) {
		v, ok := parse(volts, amps, load, start, milliohm, most, celsius)
		if !ok {
			return
		}
		b := workshopVan()
		b.Days = 2
		b.Battery.Chemistry = tables.Chemistries()[int(kind)%len(tables.Chemistries())]
		b.Battery.InternalMilliohm, b.Battery.ChargeA, b.Battery.BatteryC = v[4], decimal.NewNullDecimal(v[5]), v[6]
		b.VoltageV, b.StartPercent = v[0], v[3]
		b.Sources[0].CurrentA, b.Loads[0].CurrentA = v[1], v[2]
		l, err := b.Run()
		if err != nil {
			if len(working.Inputs(err)) == 0 && !errors.Is(err, tables.ErrNotListed) && !errors.Is(err, tables.ErrOutside) {
				t.Error(err)
			}
			return
		}
		workingtest.Guard(t, l.Working)
		if l.LeastPercent.IsNegative() || l.EndPercent.GreaterThan(d("100")) {
			t.Errorf("lowest %s %%, ends at %s %%", l.LeastPercent, l.EndPercent)
		}
	})
}
