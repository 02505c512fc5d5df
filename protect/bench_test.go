package protect_test

import (
	"testing"

	"example.org/extralow/protect"
)

func BenchmarkWindow(b *testing.B) {
	rule := rulesOf("european").Device
	n := need(d("9"), d("24"))
	for b.Loop() {
		if _, err := n.Window(rule, "ISO 8820-3 C"); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWindowChecks(b *testing.B) {
	w, err := need(d("9"), d("24")).Window(rulesOf("european").Device, "ISO 8820-3 C")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		w.Checks(d("15"))
	}
}

func BenchmarkOpening(b *testing.B) {
	device := protect.Device{Family: "ISO 8820-3 E", RatingA: d("40")}
	for b.Loop() {
		if _, err := device.OpeningTime(d("100")); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFarEndFault(b *testing.B) {
	device := protect.Device{Family: "ISO 8820-3 C", RatingA: d("15")}
	f := protect.FarFault{LeastFaultA: d("140"), Cable: protect.Cable{K: d("115"), AreaMM2: d("1.5")}}
	for b.Loop() {
		if _, err := device.Clears(f); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkFortyCircuits asks of each of forty circuits what a job asks: the
// window, its checks, the far-end fault and which of two devices opens first.
func BenchmarkFortyCircuits(b *testing.B) {
	rule := rulesOf("european").Device
	n := need(d("9"), d("24"))
	device := protect.Device{Family: "ISO 8820-3 C", RatingA: d("15")}
	fault := protect.FarFault{LeastFaultA: d("140"), Cable: protect.Cable{K: d("115"), AreaMM2: d("1.5")}}
	pair := protect.SeriesPair{Upper: protect.Device{Family: "ISO 8820-3 E", RatingA: d("60")}, Lower: device}
	for b.Loop() {
		for range 40 {
			w, err := n.Window(rule, device.Family)
			if err != nil {
				b.Fatal(err)
			}
			w.Checks(device.RatingA)
			if _, err := device.Clears(fault); err != nil {
				b.Fatal(err)
			}
			if _, err := pair.Selective(fault.LeastFaultA); err != nil {
				b.Fatal(err)
			}
		}
	}
}
