package tables

import (
	"math"
	"slices"
	"strings"
)

// correctionGuards hold the correction factors and the limits of drop.
var correctionGuards = []guard{
	{"more length in thermal insulation carries less, down to half from 0.5 m on (BS 7671 523.9)", []string{"thermal-insulation"}, func(b book, f *faults) {
		rows := b.rows("thermal-insulation")
		f.climbing(rows, "length_m")
		f.sinking(rows, "factor")
		f.near(rows[len(rows)-1], "factor", 0.5, 0)
		f.near(rows[len(rows)-1], "length_m", 0.5, 0)
		for i, r := range rows[:len(rows)-1] {
			f.near(r, "length_m", 0.05*math.Pow(2, float64(i)), 1e-9)
			f.band(r, "factor", []float64{0.88, 0.78, 0.63, 0.51}[i], 1, 1)
		}
	}},
	{"ambient factors are sqrt((T − a) ÷ (T − r)), as each table rounds it", []string{"ambient-factors"}, func(b book, f *faults) {
		for _, r := range b.rows("ambient-factors") {
			t, a, reference := r.num("insulation_c"), r.num("ambient_c"), r.num("reference_c")
			want := math.Sqrt(math.Max(0, (t-a)/(t-reference)))
			switch table := r.text("table"); {
			case table == "BS 7671 4F2A" && a == 50: // 0.8165, the one that is rounded
				f.near(r, "factor", want, 0.005)
			case table == "BS 7671 4F2A": // cut off, not rounded
				f.near(r, "factor", math.Floor(100*want+1e-9)/100, 0)
			case table == "BS 7671 16th ambient" && a == 25: // held low on purpose
				f.band(r, "factor", want, 0.95, 0.99)
			case table == "BS 7671 16th ambient" && t == 105: // a sheath of mineral cable has a law of its own
				f.band(r, "factor", want, 0.87, 1)
			case table == "IEC 60092 ship cable":
				f.near(r, "factor", want, 0.0056)
			default:
				f.near(r, "factor", want, 0.005)
			}
		}
		for _, r := range b.rows("ambient-factors") {
			reference := map[string]float64{"NFPA 70 310.15(B)(2)(b)": 40, "IEC 60092 ship cable": 45}[r.text("table")]
			f.near(r, "reference_c", math.Max(30, reference), 0)
			f.holds(r, math.Mod(r.num("ambient_c"), 5) == 0 && math.Mod(r.num("insulation_c"), 5) == 0, "not in steps of 5 °C")
		}
		for _, rows := range groups(b.rows("ambient-factors"), "table", "insulation_c") {
			f.falling(by(rows, figure("ambient_c")), "factor")
		}
	}},
	{"sheath of mineral cable and 25 °C column fall smoothly", []string{"ambient-factors"}, func(b book, f *faults) {
		rows := by(b.where("ambient-factors", "table", "BS 7671 16th ambient", "insulation_c", "105"), figure("ambient_c"))
		for i := 1; i+1 < len(rows); i++ {
			fall := rows[i-1].num("factor") - rows[i].num("factor")
			next := rows[i].num("factor") - rows[i+1].num("factor")
			f.holds(rows[i], next >= fall-0.015 && next <= fall+0.035, "the steps are %.2f and %.2f", fall, next)
		}
	}},
	{"engine-space factors are sqrt((T − 50) ÷ (T − 30)) to two digits", []string{"engine-space-factors"}, func(b book, f *faults) {
		for _, r := range b.rows("engine-space-factors") {
			t := r.num("insulation_c")
			want := math.Sqrt((t - 50) / (t - 30))
			switch {
			case t == 200: // no loss is taken there, where the rule gives 0.94
				f.near(r, "factor", 1, 0)
			case r.text("table") == "ISO 10133 annex A" && t == 70: // one factor with 75 °C
				f.near(r, "factor", 0.75, 0)
			case r.text("table") == "ISO 10133 annex A" && t == 85: // one factor with 90 °C
				f.near(r, "factor", 0.82, 0)
			default:
				f.near(r, "factor", want, 0.0075)
			}
			ambient := 50.0
			if r.text("table") == "ISO 10133 annex A" {
				ambient = 60 // as its note states
			}
			f.near(r, "ambient_c", ambient, 0)
		}
	}},
	{"grouping factors fall with the number and follow on without a gap", []string{"grouping-factors"}, func(b book, f *faults) {
		for _, rows := range groups(b.rows("grouping-factors"), "table", "arrangement") {
			f.falling(rows, "factor")
			f.climbing(rows, "count_from")
			for i, r := range rows {
				f.holds(r, r.num("factor") <= 1 && r.num("factor") >= 0.3, "factor %s", r.text("factor"))
				if r.has("count_to") {
					f.holds(r, r.num("count_to") >= r.num("count_from"), "ends before it begins")
				}
				if i > 0 && rows[i-1].text("count_from") != rows[i-1].text("count_to") {
					f.near(r, "count_from", rows[i-1].num("count_to")+1, 0)
				}
			}
		}
	}},
	{"IEC B.52.17 is printed in BS 7671 4C1 and, simplified, in IEC 60364-5-52", []string{"grouping-factors"}, func(b book, f *faults) {
		bunched := map[string]row{}
		for _, r := range b.where("grouping-factors", "table", "BS 7671 4C1") {
			if strings.HasPrefix(r.text("arrangement"), "bunched") {
				bunched[r.text("count_from")] = r
				if n := r.num("count_from"); n > 1 { // the heat of n circuits leaves by a surface that grows as sqrt(n)
					f.band(r, "factor", math.Pow(n, -0.33), 0.96, 1.04)
				}
			}
			f.near(r, "count_to", r.num("count_from"), 0)
		}
		for _, r := range b.where("grouping-factors", "table", "IEC 60364-5-52 simplified", "arrangement", "embedded or enclosed") {
			if full, ok := bunched[r.text("count_from")]; ok {
				f.near(r, "factor", full.num("factor"), 0.051)
			}
		}
	}},
	{"bundle factors fall with wires and with loading, in even steps", []string{"bundle-loading-factors"}, func(b book, f *faults) {
		for _, rows := range groups(b.rows("bundle-loading-factors"), "loading_percent") {
			f.sinking(by(rows, figure("wires")), "factor")
			for i := 1; i+1 < len(rows); i++ {
				mean := (rows[i-1].num("factor") + rows[i+1].num("factor")) / 2
				within := 0.005
				if rows[i].num("wires") <= 6 { // the curve bends there
					within = 0.038
				}
				f.near(rows[i], "factor", mean, within)
				f.near(rows[i], "wires", rows[i-1].num("wires")+1, 0)
			}
		}
		for _, rows := range groups(b.rows("bundle-loading-factors"), "wires") {
			f.falling(by(rows, figure("loading_percent")), "factor")
			for i, r := range rows {
				f.near(r, "loading_percent", []float64{20, 40, 60, 80, 100}[i], 0)
			}
		}
	}},
	{"limits of drop at 28 V are twice those at 14 V; intermittent is twice continuous", []string{"voltage-drop-limits"}, func(b book, f *faults) {
		at := map[string]row{}
		for _, r := range b.rows("voltage-drop-limits") {
			at[r.text("id")] = r
		}
		for _, v := range []string{"14v", "28v", "115v", "200v"} {
			continuous := at["ac4313-"+v+"-continuous"]
			f.near(at["ac4313-"+v+"-intermittent"], "value", 2*continuous.num("value"), 0)
			f.near(continuous, "value", continuous.num("system_v")*0.035, 0.035) // near 3.5 % throughout
			f.near(continuous, "system_v", atof(strings.TrimSuffix(v, "v")), 0)
			f.near(at["ac4313-"+v+"-intermittent"], "system_v", atof(strings.TrimSuffix(v, "v")), 0)
		}
		for _, id := range []string{"critical", "other"} { // the two codes for small craft agree
			f.near(at["abyc-"+id], "value", at["iso10133-"+id].num("value"), 0)
		}
		for _, id := range []string{"lighting", "other"} { // a private supply is allowed 3 % more
			f.near(at["iec60364-private-"+id], "value", at["iec60364-public-"+id].num("value")+3, 0)
		}
	}},
	{"airflow falls with the pressure of the air, exp(−h ÷ 8435 m)", []string{"airflow-altitude"}, func(b book, f *faults) {
		rows := b.rows("airflow-altitude")
		for i, r := range rows {
			mean := (r.num("altitude_from_m") + r.num("altitude_to_m")) / 2
			f.near(r, "factor_m3_k_per_wh", 3.1*math.Exp(mean/8435), 0.07)
			if i > 0 {
				f.near(r, "altitude_from_m", rows[i-1].num("altitude_to_m"), 0)
			}
		}
		f.climbing(rows, "altitude_to_m")
		f.climbing(rows, "factor_m3_k_per_wh")
	}},
	{"altitude and free-air figures of AC 43.13-1B fall and rise as they must", []string{"ac4313-figures"}, func(b book, f *faults) {
		for _, rows := range groups(b.rows("ac4313-figures"), "quantity") {
			for _, r := range rows {
				if strings.HasSuffix(r.text("quantity"), "factor") {
					f.holds(r, r.num("value") > 0 && r.num("value") <= 1, "factor %s", r.text("value"))
				}
			}
		}
		free := func(gauge string) row {
			all := b.where("ac4313-figures", "quantity", "free_air_current")
			return all[slices.IndexFunc(all, func(r row) bool { return strings.HasPrefix(r.text("condition"), "AWG "+gauge+",") })]
		}
		// current goes as sqrt(rise) × d^1.4 to d^1.6 in free air
		for _, pair := range [][2]string{{"20", "22"}} {
			ratio := gaugeInches(pair[0]) / gaugeInches(pair[1])
			f.band(free(pair[0]), "value", free(pair[1]).num("value"), math.Pow(ratio, 1.1), math.Pow(ratio, 1.7))
		}
	}},
}
