package battery_test

import (
	"testing"

	"example.org/extralow/battery"
)

func BenchmarkInverterDraw(b *testing.B) {
	i := battery.Inverter{EfficiencyPercent: n("90"), IdleW: n("12")}
	out, at := d("2000"), d("11")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := i.Draw(out, at); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFeedTerminals(b *testing.B) {
	feed := battery.Feed{
		Inverter: battery.Inverter{EfficiencyPercent: n("90"), IdleW: n("12")},
		SteadyW:  d("2000"), SurgeW: d("4000"), SourceV: d("12.6"), PathMilliohm: d("4.94"),
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := feed.Terminals(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkBankFault(b *testing.B) {
	bank := bankOf(4, "0.5")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := bank.Fault(atPosts); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkKineticFit(b *testing.B) {
	r := wells()
	for b.Loop() {
		if _, err := r.Fit(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkKineticStep(b *testing.B) {
	m, err := wells().Fit()
	if err != nil {
		b.Fatal(err)
	}
	state, err := m.At(d("100"))
	if err != nil {
		b.Fatal(err)
	}
	step := battery.KineticStep{State: state, CurrentA: d("5"), TimeH: d("0.1")}
	for b.Loop() {
		if _, err := m.Step(step); err != nil {
			b.Fatal(err)
		}
	}
}
