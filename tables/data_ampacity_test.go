package tables

import (
	"math"
	"slices"
)

// power is one column of ampacity as I = a S^m (IEC 60364-5-52, annex D, from
// memory), from a size on.
type power struct{ from, a, m float64 }

// annexD holds the coefficients of IEC 60364-5-52, table D.52.1, for the columns
// of BS 7671 and IEC tables that follow it. The annex takes the 50 mm² size as
// 47.5 mm² of copper.
var annexD = map[string][]power{
	"BS 7671 4D1A A":            {{0, 11.2, 0.6118}},
	"BS 7671 4D1A B":            {{0, 13.5, 0.625}},
	"BS 7671 4D1A F":            {{0, 17.1, 0.632}},
	"BS 7671 4D1A G horizontal": {{0, 18.75, 0.637}},
	"BS 7671 4D1A G vertical":   {{0, 15.8, 0.654}},
	"BS 7671 4E1A A":            {{0, 14.9, 0.611}},
	"BS 7671 4E1A B":            {{0, 17.76, 0.625}},
	"BS 7671 4E1A F":            {{0, 20.8, 0.636}},
	"BS 7671 4E1A G horizontal": {{0, 22.9, 0.644}},
	"BS 7671 4E1A G vertical":   {{0, 19.1, 0.662}},
	"IEC 60364-5-52 B2 70":      {{0, 11.65, 0.6005}},
	"IEC 60364-5-52 C 70":       {{0, 13.5, 0.625}, {20, 12.4, 0.635}},
	"IEC 60364-5-52 F 70":       {{0, 13.28, 0.6564}},
	"IEC 60364-5-52 F 90":       {{0, 16.0, 0.6633}},
}

// largeInConduit: from 150 mm² up BS 7671 gives method B 3 to 4 % less than the
// annex.
func largeInConduit(r row) bool { return r.text("method") == "B" && area(r) >= 150 }

// ampacityGuards hold the ampacity tables.
var ampacityGuards = []guard{
	{"BS 7671 4D1A and 4E1A and IEC 60364-5-52 by the power laws of IEC annex D", []string{"ampacity-bs7671", "ampacity-iec60364"}, func(b book, f *faults) {
		for _, r := range slices.Concat(b.rows("ampacity-bs7671"), b.rows("ampacity-iec60364")) {
			key := r.text("table") + " " + r.text("method")
			if r.name == "ampacity-iec60364" {
				key += " " + r.text("insulation_c")
			}
			var law power
			for _, p := range annexD[key] {
				if area(r) >= p.from {
					law = p
				}
			}
			if law.a == 0 {
				continue
			}
			size := area(r)
			if size == 50 {
				size = 47.5
			}
			want := law.a * math.Pow(size, law.m)
			switch {
			case largeInConduit(r):
				f.band(r, "ampacity_a", want, 0.96, 0.975)
			case r.text("method") == "A" && size == 240: // printed one ampere above the annex
				f.near(r, "ampacity_a", want, 0.8)
			case size == 1: // the annex begins at 1.5 mm²
				f.band(r, "ampacity_a", want, 0.93, 1.01)
			default:
				f.near(r, "ampacity_a", want, 0.51)
			}
		}
	}},
	{"BS 7671: more copper carries more, hotter insulation more, better cooling more", []string{"ampacity-bs7671"}, func(b book, f *faults) {
		for _, rows := range groups(b.rows("ampacity-bs7671"), "table", "method") {
			f.climbing(by(rows, area), "ampacity_a")
			f.smooth(rows, area, "ampacity_a", share(20, 0.045, 0.06))
		}
		at := map[string]row{}
		for _, r := range b.rows("ampacity-bs7671") {
			at[r.text("table")+r.text("method")+r.text("size")] = r
			insulation := map[string]float64{"BS 7671 4D1A": 70, "BS 7671 4E1A": 90, "BS 7671 4F1A": 60, "BS 7671 4F2A": 90}[r.text("table")]
			f.near(r, "insulation_c", insulation, 0)
		}
		for _, r := range b.rows("ampacity-bs7671") {
			if pvc, ok := at["BS 7671 4D1A"+r.text("method")+r.text("size")]; ok && r.text("table") == "BS 7671 4E1A" {
				// sqrt((90 - 30) ÷ (70 - 30)) = 1.22; the air about a hotter cable cools better
				f.band(r, "ampacity_a", pvc.num("ampacity_a"), 1.22, 1.35)
			}
			if rubber, ok := at["BS 7671 4F1A"+r.text("method")+r.text("size")]; ok && r.text("table") == "BS 7671 4F2A" {
				f.band(r, "ampacity_a", rubber.num("ampacity_a"), 1.38, 1.51) // sqrt(60 ÷ 30) = 1.41
			}
			for _, pair := range [][2]string{{"A", "B"}, {"B", "C"}, {"F", "C"}, {"G vertical", "F"}, {"F", "G horizontal"}} {
				if better, ok := at[r.text("table")+pair[1]+r.text("size")]; ok && r.text("method") == pair[0] && pair[1] != "F" && pair[0] != "F" {
					f.band(better, "ampacity_a", r.num("ampacity_a"), 1.06, 1.31)
				}
			}
		}
	}},
	{"IEC 60364-5-52: more copper carries more, and smoothly so", []string{"ampacity-iec60364"}, func(b book, f *faults) {
		for _, rows := range groups(b.rows("ampacity-iec60364"), "method", "insulation_c") {
			f.climbing(by(rows, area), "ampacity_a")
			f.smooth(rows, area, "ampacity_a", share(0, 0.04, 0.04))
			for _, r := range rows {
				f.holds(r, r.num("insulation_c") == 70 || r.num("insulation_c") == 90, "insulation %s", r.text("insulation_c"))
			}
		}
	}},
	{"33 CFR 183.425: rises both ways, smoothly in size, by the square root in insulation", []string{"ampacity-33cfr183"}, func(b book, f *faults) {
		bothWays(b.rows("ampacity-33cfr183"), f, 30, share(20, 0.025, 0.125), 0.74, 1.43)
	}},
	{"ABYC E-11 prints the 105 °C column of 33 CFR 183.425", []string{"ampacity-abyc-e11", "ampacity-33cfr183"}, func(b book, f *faults) {
		for _, r := range b.rows("ampacity-abyc-e11") {
			for _, c := range b.where("ampacity-33cfr183", "insulation_c", r.text("insulation_c"), "size", r.text("size")) {
				f.near(r, "ampacity_a", c.num("ampacity_a"), 0)
			}
			f.near(r, "insulation_c", 105, 0)
		}
	}},
	{"ISO 10133: rises both ways; near 33 CFR 183.425 at the same area", []string{"ampacity-iso10133", "ampacity-33cfr183"}, func(b book, f *faults) {
		rows := b.rows("ampacity-iso10133")
		bothWays(rows, f, 30, share(2, 0.095, 0.195), 0.77, 1.74)
		for _, r := range rows {
			us := by(b.where("ampacity-33cfr183", "insulation_c", r.text("insulation_c")), area)
			for i := 1; i < len(us); i++ {
				if lo, hi := us[i-1], us[i]; area(lo) <= area(r) && area(r) <= area(hi) {
					share := math.Log(area(r)/area(lo)) / math.Log(area(hi)/area(lo))
					low := 0.75
					if r.num("insulation_c") == 60 { // the lower of the two versions remembered
						low = 0.56
					}
					f.band(r, "ampacity_a", lo.num("ampacity_a")*math.Pow(hi.num("ampacity_a")/lo.num("ampacity_a"), share), low, 1.22)
				}
			}
		}
	}},
	{"ISO 10133 prints one column for 85 and 90 °C", []string{"ampacity-iso10133"}, func(b book, f *faults) {
		at := map[string]row{}
		for _, r := range b.where("ampacity-iso10133", "insulation_c", "85") {
			at[r.text("size")] = r
		}
		for _, r := range b.where("ampacity-iso10133", "insulation_c", "90") {
			f.near(r, "ampacity_a", at[r.text("size")].num("ampacity_a"), 0)
		}
	}},
	{"VDE 0298-4: rises smoothly; free air above the surface", []string{"ampacity-vde0298"}, func(b book, f *faults) {
		at := map[string]row{}
		for _, rows := range groups(b.rows("ampacity-vde0298"), "method") {
			f.climbing(by(rows, area), "ampacity_a")
			f.smooth(rows, area, "ampacity_a", share(2, 0.045, 0.06))
			for _, r := range rows {
				at[r.text("method")+r.text("size")] = r
				f.near(r, "insulation_c", 70, 0)
			}
		}
		for _, r := range b.rows("ampacity-vde0298") {
			if air, ok := at["single core in air"+r.text("size")]; ok && r.text("method") != "single core in air" {
				f.band(r, "ampacity_a", air.num("ampacity_a"), 0.74, 0.862)
			}
		}
	}},
	{"AC 43.13-1B: rises both ways; by the square root above 70 °C", []string{"ampacity-ac4313"}, func(b book, f *faults) {
		for _, rows := range groups(b.rows("ampacity-ac4313"), "table") {
			bothWays(rows, f, 70, func(r row) float64 {
				switch mm2 := area(r); {
				case mm2 > 12:
					return 0.025
				case mm2 > 5: // from AWG 8 up the bundle has 9 wires and no longer 33
					return 0.31
				}
				return 0.135
			}, 0.88, 1.2)
		}
	}},
}

// bothWays demands of the columns of a table that ampacity rises with size, near
// the power law of its neighbours, and with insulation, between two factors of
// what sqrt(T − ambient) makes of the column before.
func bothWays(rows []row, f *faults, ambient float64, within func(row) float64, low, high float64) {
	columns := groups(rows, "insulation_c")
	for _, column := range columns {
		f.holds(column[0], len(column) == len(columns[0]), "%d sizes, the first column has %d", len(column), len(columns[0]))
		f.climbing(by(column, area), "ampacity_a")
		f.smooth(column, area, "ampacity_a", within)
	}
	for _, line := range groups(rows, "size") {
		by(line, figure("insulation_c"))
		f.rising(line, "ampacity_a")
		for i := 1; i < len(line); i++ {
			cooler, hotter := line[i-1], line[i]
			rule := math.Sqrt((hotter.num("insulation_c") - ambient) / (cooler.num("insulation_c") - ambient))
			f.band(hotter, "ampacity_a", cooler.num("ampacity_a")*rule, low, high)
		}
	}
}
