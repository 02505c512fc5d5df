package charge_test

import (
	"math"
	"testing"

	"example.org/extralow/charge"
	"github.com/shopspring/decimal"
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

// BenchmarkYearBare is the same model as a bare loop over float64, with no
// energy account, no exact ends of spans and nothing decimal: what the library's
// care is measured against.
func BenchmarkYearBare(b *testing.B) {
	v := workshopVan()
	var sink float64
	for b.Loop() {
		sink = bareYear(v)
	}
	_ = sink
}

func bareYear(v charge.Balance) float64 {
	capacity := v.Battery.CapacityAh.InexactFloat64()
	ri := v.Battery.InternalMilliohm.InexactFloat64() / 1000
	volts := v.VoltageV.InexactFloat64()
	kept := v.Battery.Efficiency[0].Efficiency.InexactFloat64()
	var at, emf []float64
	for _, p := range v.Battery.EMF {
		at, emf = append(at, p.SoCPercent.InexactFloat64()/100*capacity), append(emf, p.EMFV.InexactFloat64())
	}
	flow := func(spells []charge.Spell, share *[1440]float64) {
		for _, s := range spells {
			from, to, amps := s.FromH.InexactFloat64()*60, s.ToH.InexactFloat64()*60, s.CurrentA.InexactFloat64()
			for minute := from; minute < to; minute++ {
				k := 1.0
				if s.Sun {
					k = math.Sin(math.Pi * (minute - from + 0.5) / (to - from))
				}
				share[int(minute)] += k * amps
			}
		}
	}
	var source, load [1440]float64
	flow(v.Sources, &source)
	flow(v.Loads, &load)
	ah := v.StartPercent.InexactFloat64() / 100 * capacity
	lowest, stored, span := ah, 0.0, 0
	for range 365 {
		for minute := range 1440 {
			for span > 0 && ah < at[span] {
				span--
			}
			for span < len(at)-2 && ah >= at[span+1] {
				span++
			}
			slope := (emf[span+1] - emf[span]) / (at[span+1] - at[span])
			e := emf[span] + slope*(ah-at[span])
			amps := source[minute] - load[minute]
			rate, gain := 0.0, amps
			if held := (volts - e) / ri; held < amps {
				amps, rate = held, -slope/ri*kept
			}
			if amps = max(amps, -load[minute]); amps > 0 {
				gain = amps * kept
			} else {
				gain = amps
			}
			if rate != 0 {
				gain *= math.Expm1(rate/60) / rate
			} else {
				gain /= 60
			}
			ah = min(max(ah+gain, 0), capacity)
			stored += e * gain
			lowest = min(lowest, ah)
		}
	}
	return lowest + stored
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
