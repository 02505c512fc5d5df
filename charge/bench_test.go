package charge_test

import (
	"math"
	"slices"
	"testing"

	"example.org/extralow/charge"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// BenchmarkDay is a day of charging at minute steps, with its working.
func BenchmarkDay(b *testing.B) {
	s := overnight()
	s.WithinH = d("24")
	for b.Loop() {
		if _, err := s.Run(); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkYear is a year of energy balance at minute steps, traced hourly.
func BenchmarkYear(b *testing.B) {
	y := workshopVan()
	y.Days, y.TraceEveryH = 365, 1
	for b.Loop() {
		if _, err := y.Run(); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkYearBare is the same model as a bare loop over float64: what the
// library's care (exact ends of spans, an account of each loss, decimals out) is
// measured against.
func BenchmarkYearBare(b *testing.B) {
	v := workshopVan()
	v.Days = 365
	for b.Loop() {
		bareYear(v)
	}
}

// TestBareYear holds the library to the bare loop, which has none of its code:
// they part by what a minute at a bend of the EMF matters.
func TestBareYear(t *testing.T) {
	v := workshopVan()
	v.Days = 365
	l, err := v.Run()
	require.NoError(t, err)
	lowest, in, stored, load := bareYear(v)
	assert.InDelta(t, lowest, l.LeastPercent.InexactFloat64(), 0.02)
	assert.InEpsilon(t, in, l.InWh.InexactFloat64(), 1e-3)
	assert.InEpsilon(t, load, l.LoadWh.InexactFloat64(), 1e-3)
	assert.InDelta(t, stored, l.StoredWh.InexactFloat64(), 1e-3*in)
}

func bareYear(v charge.Balance) (lowest, in, stored, load float64) {
	capacity := v.Battery.CapacityAh.InexactFloat64()
	ri := v.Battery.InternalMilliohm.InexactFloat64() / 1000
	volts := v.VoltageV.InexactFloat64()
	most := v.Battery.ChargeA.Decimal.InexactFloat64()
	kept := v.Battery.Efficiency[0].Efficiency.InexactFloat64()
	var at, emf []float64
	for _, p := range v.Battery.EMF {
		at, emf = append(at, p.SoCPercent.InexactFloat64()/100*capacity), append(emf, p.EMFV.InexactFloat64())
	}
	ah := v.StartPercent.InexactFloat64() / 100 * capacity
	lowest = ah
	span, days := 0, [12]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
	left, month := 0, v.FirstMonth-2
	for day := range v.Days {
		if left == 0 {
			month = (month + 1) % 12
			left = days[month]
		}
		left--
		source, draw := bareDay(v.Sources, day, month), bareDay(v.Loads, day, month)
		for minute := range 1440 {
			for span > 0 && ah < at[span] {
				span--
			}
			for span < len(at)-2 && ah >= at[span+1] {
				span++
			}
			slope := (emf[span+1] - emf[span]) / (at[span+1] - at[span])
			e := emf[span] + slope*(ah-at[span])
			amps, rate := source[minute]-draw[minute], 0.0
			if held := (volts - e) / ri; held < amps {
				amps, rate = held, -slope/ri*kept
			}
			amps = max(min(amps, most), -draw[minute])
			gain := amps / 60
			if amps > 0 {
				gain *= kept
			}
			if rate != 0 {
				gain *= 60 * math.Expm1(rate/60) / rate
			}
			if gain = min(max(gain, -ah), capacity-ah); gain > 0 {
				amps = gain * 60 / kept
			} else {
				amps = gain * 60
			}
			middle := e + slope*gain/2
			terminal := middle + amps*ri
			served := max(min(draw[minute], source[minute]-amps), 0)
			in += terminal * (amps + served) / 60
			load += terminal * served / 60
			stored += middle * gain
			ah += gain
			lowest = min(lowest, ah)
		}
	}
	return lowest / capacity * 100, in, stored, load
}

// bareDay adds the currents of a day by the minute.
func bareDay(spells []charge.DutyPeriod, day, month int) (amps [1440]float64) {
	for _, s := range spells {
		if len(s.Weekdays) > 0 && !slices.Contains(s.Weekdays, day%7+1) {
			continue
		}
		from, to, most := s.FromH.InexactFloat64()*60, s.ToH.InexactFloat64()*60, s.CurrentA.InexactFloat64()
		if len(s.Months) > 0 {
			most *= s.Months[month].InexactFloat64()
		}
		for minute := from; minute < to; minute++ {
			share := 1.0
			if s.Sun {
				share = math.Sin(math.Pi * (minute - from + 0.5) / (to - from))
			}
			amps[int(minute)] += share * most
		}
	}
	return amps
}

func BenchmarkAcceptance(b *testing.B) {
	bank := flooded()
	for b.Loop() {
		if _, err := bank.Acceptance(d("60")); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkConverter(b *testing.B) {
	c := charge.Converter{OutputV: d("14.4"), OutputA: d("30"), InputV: d("12.2"), Efficiency: d("0.9")}
	for b.Loop() {
		if _, err := c.Input(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRadiation(b *testing.B) {
	s := charge.Sky{LatitudeDeg: decimal.NewFromInt(52), Day: 172}
	for b.Loop() {
		if _, err := s.Radiation(); err != nil {
			b.Fatal(err)
		}
	}
}
