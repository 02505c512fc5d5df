package tables

import (
	"math"
	"regexp"
	"slices"
	"strings"
)

// renard holds the preferred numbers R20 of ISO 3, as rounded by it.
var renard = []float64{1, 1.12, 1.25, 1.4, 1.6, 1.8, 2, 2.24, 2.5, 2.8, 3.15, 3.55, 4, 4.5, 5, 5.6, 6.3, 7.1, 8, 9}

func preferred(v float64) bool {
	whole := math.Pow(10, math.Floor(math.Log10(v)+1e-9))
	return slices.ContainsFunc(renard, func(r float64) bool { return math.Abs(v/whole-r) < 1e-9 })
}

// everydayStep is what the ratings of North American codes and of road vehicles
// are a multiple of.
func everydayStep(v float64) float64 {
	for _, s := range [][2]float64{{5, 1}, {10, 2.5}, {50, 5}, {120, 10}, {250, 25}, {500, 50}, {1000, 100}, {1600, 200}, {2000, 400}, {3000, 500}} {
		if v <= s[0] {
			return s[1]
		}
	}
	return 1000
}

// odd are ratings off the rules: rounded Renard numbers of fuse-links and
// breakers, and the glass tubes of SAE J554.
var odd = map[string][]float64{
	"IEC 60269 gG": {6, 12, 32, 35}, "IEC 60898-1 B": {6, 13, 32}, "IEC 60898-1 C": {6, 13, 32}, "IEC 60898-1 D": {6, 13, 32},
	"IEC 60898-2 B": {6, 13, 32}, "IEC 60898-2 C": {6, 13, 32}, "SAE J554": {6, 9, 14}, "NFPA 70 240.6(A) fuses only": {6, 601},
	"IEC 60127-2 F": {0.032}, "IEC 60127-2 T": {0.032}, "IEC 60127-9": {150},
	"ISO 8820-6": {75}, "ISO 8820-4 B": {140},
}

func knownRating(family string, v float64) bool {
	if slices.Contains(odd[family], v) {
		return true
	}
	if strings.HasPrefix(family, "IEC 60") {
		return preferred(v)
	}
	_, part := math.Modf(v / everydayStep(v))
	return part == 0
}

var inches = regexp.MustCompile(`(?:^|[;(, ])(\d+(?:\.\d+)?) in(?:$|[;,])`)

// holdOfUL248 reports whether a time is what UL 248 has its classes C, H and K
// hold 1.1 times their rating: 15 minutes up to 200 A, 30 above.
func holdOfUL248(r row, seconds float64) bool {
	want := 900.0
	if r.num("rating_from_a") > 200 {
		want = 1800
	}
	return r.text("multiple") == "1.1" && seconds == want && seconds == r.num("opening_min_s")
}

var surroundings = regexp.MustCompile(`surroundings of (\d+) C at most`)

// deviceGuards hold the tables of devices, switches, terminals and supplies.
var deviceGuards = []guard{
	{"ratings are preferred numbers of ISO 3, or of the steps of their code, and rise", []string{"device-ratings"}, func(b book, f *faults) {
		for _, rows := range groups(b.rows("device-ratings"), "family") {
			f.climbing(rows, "rating_a")
			for _, r := range rows {
				f.holds(r, knownRating(r.text("family"), r.num("rating_a")), "no usual rating")
			}
		}
	}},
	{"a family's range is that of its ratings, and its colours belong to them", []string{"device-ranges", "device-ratings", "device-colours"}, func(b book, f *faults) {
		rated := map[string][]row{}
		for _, rows := range groups(b.rows("device-ratings"), "family") {
			rated[rows[0].text("family")] = rows
		}
		for _, r := range b.rows("device-ranges") {
			rows := rated[r.text("family")]
			if len(rows) > 0 && r.has("rating_min_a") {
				f.near(r, "rating_min_a", rows[0].num("rating_a"), 0)
			}
			if len(rows) > 0 {
				f.near(r, "rating_max_a", rows[len(rows)-1].num("rating_a"), 0)
			}
			for _, column := range []string{"rating_min_a", "rating_max_a"} {
				if r.has(column) {
					f.holds(r, knownRating(r.text("family"), r.num(column)), "%s is no usual rating", column)
				}
			}
		}
		colour := map[string]string{}
		for _, r := range b.rows("device-colours") {
			listed := slices.ContainsFunc(rated[r.text("family")], func(one row) bool { return one.num("rating_a") == r.num("rating_a") })
			f.holds(r, listed, "no rating of the family")
			kind := "small " // blades up to 40 A share their colours, large blades have others
			if strings.HasSuffix(r.text("family"), " E") || r.text("family") == "SAE J1888" {
				kind = "large "
			}
			key := kind + r.text("rating_a")
			f.holds(r, colour[key] == "" || colour[key] == r.text("colour"), "another family has %s", colour[key])
			colour[key] = r.text("colour")
		}
		for _, rows := range groups(b.rows("device-colours"), "family") {
			f.climbing(rows, "rating_a")
		}
	}},
	{"gates: times fall as the current rises, and no link opens before it may", []string{"device-gates"}, func(b book, f *faults) {
		for _, rows := range groups(b.rows("device-gates"), "family", "rating_from_a", "rating_to_a", "from_included") {
			f.climbing(rows, "multiple")
			for _, column := range []string{"opening_min_s", "opening_max_s"} {
				f.sinking(slices.DeleteFunc(slices.Clone(rows), func(r row) bool { return !r.has(column) }), column)
			}
		}
	}},
	{"gates: families of one kind have one set of gates; bands follow on", []string{"device-gates", "device-ranges"}, func(b book, f *faults) {
		kin := [][]string{
			{"ISO 8820-3 C", "ISO 8820-3 F", "SAE J1284", "SAE J2077"}, {"ISO 8820-5 SF30", "ISO 8820-5 SF51"},
			{"IEC 60898-1 B", "IEC 60898-1 C", "IEC 60898-1 D"},
		}
		for _, family := range kin {
			first := b.where("device-gates", "family", family[0])
			for _, other := range family[1:] {
				for i, r := range b.where("device-gates", "family", other) {
					if i >= len(first) { // the first has a further band of its own
						continue
					}
					for _, column := range []string{"multiple", "opening_min_s", "opening_max_s"} {
						f.holds(r, r.num(column) == first[i].num(column) || !r.has(column) && !first[i].has(column), "%s is not that of %s", column, family[0])
					}
					if family[0] == "IEC 60898-1 B" {
						f.near(r, "rating_from_a", first[i].num("rating_from_a"), 0)
						f.near(r, "rating_to_a", first[i].num("rating_to_a"), 0)
					}
				}
			}
		}
		for _, r := range b.rows("device-ranges") { // a family's first and last band end where its ratings do
			for _, g := range b.where("device-gates", "family", r.text("family")) {
				f.holds(g, !r.has("rating_min_a") || g.num("rating_to_a") >= r.num("rating_min_a"), "below the range")
				f.holds(g, !(g.num("rating_to_a") > r.num("rating_max_a")) || strings.HasPrefix(g.text("family"), "UL"), "above the range")
				f.holds(g, !(g.num("rating_from_a") < r.num("rating_min_a")) || strings.HasPrefix(g.text("family"), "UL"), "begins below the range")
			}
		}
		for _, rows := range groups(b.rows("device-gates"), "family", "multiple") {
			by(rows, figure("rating_from_a"))
			for i := 1; i < len(rows); i++ {
				before := rows[i-1].num("rating_to_a")
				step := rows[i].num("rating_from_a") - before
				first := rows[i].text("from_included") == "no"
				f.holds(rows[i], first && step == 0 || !first && step > 0, "the band before ends at %v", before)
				if !first && strings.HasPrefix(rows[i].text("family"), "UL") {
					f.near(rows[i], "rating_from_a", before+1, 0)
				}
				for _, column := range []string{"opening_min_s", "opening_max_s"} {
					if rows[i].has(column) && rows[i-1].has(column) {
						f.holds(rows[i], rows[i].num(column) >= rows[i-1].num(column), "a larger device is quicker")
					}
				}
			}
		}
	}},
	{"gates: conventional times are whole hours; UL bands take two minutes more each", []string{"device-gates"}, func(b book, f *faults) {
		conventional := []float64{1.05, 1.1, 1.13, 1.25, 1.3, 1.35, 1.45, 1.5, 1.6, 1.9, 2, 2.1, 2.55, 2.75, 3.5, 4, 5, 6, 10, 1}
		for _, r := range b.rows("device-gates") {
			f.holds(r, slices.Contains(conventional, r.num("multiple")), "no usual multiple")
			for _, column := range []string{"opening_min_s", "opening_max_s"} {
				v := r.num(column)
				f.holds(r, !(v > 1800) || math.Mod(v, 3600) == 0, "%s is no whole number of hours", column)
				f.holds(r, !(v > 60 && v <= 1800) || math.Mod(v, 120) == 0 || holdOfUL248(r, v), "%s is no multiple of two minutes", column)
				f.holds(r, !(v >= 1 && v <= 60) || v == math.Trunc(v), "%s is no whole number of seconds", column)
			}
		}
		for _, family := range []string{"UL 489", "UL 248-15 T 300 V"} {
			rows := by(b.where("device-gates", "family", family, "multiple", "2.0"), figure("rating_from_a"))
			for i := 1; i < len(rows); i++ {
				f.near(rows[i], "opening_max_s", rows[i-1].num("opening_max_s")+120, 0)
			}
		}
	}},
	{"gG links two steps apart are selective: the most of one is the least of the other (IEC 60269-1)", []string{"gg-gates", "gg-i2t"}, func(b book, f *faults) {
		quick := b.where("gg-gates", "time_s", "0.1")
		for i, r := range quick {
			if i >= 2 {
				f.near(r, "current_min_a", quick[i-2].num("current_max_a"), 0)
			}
		}
		rows := b.rows("gg-i2t")
		for i, r := range rows {
			if i >= 2 && r.num("rating_a") < 1000 {
				f.near(r, "i2t_min_a2s", rows[i-2].num("i2t_max_a2s"), 0)
			}
		}
		f.smooth(rows, figure("rating_a"), "i2t_min_a2s", func(row) float64 { return 0.18 })
		f.smooth(rows, figure("rating_a"), "i2t_max_a2s", func(row) float64 { return 0.18 })
		for _, time := range []string{"10", "5", "0.1"} {
			gates := b.where("gg-gates", "time_s", time)
			for i, r := range gates {
				f.near(r, "rating_a", rows[i].num("rating_a"), 0)
			}
			for _, column := range []string{"current_min_a", "current_max_a"} {
				if gates[0].has(column) {
					f.climbing(gates, column)
					f.smooth(gates, figure("rating_a"), column, func(row) float64 { return 0.1 })
				}
			}
		}
		for _, r := range rows {
			f.holds(r, knownRating("IEC 60269 gG", r.num("rating_a")), "no gG rating")
			f.band(r, "i2t_max_a2s", r.num("i2t_min_a2s"), 2.7, 3.7)
		}
		for i, slow := range b.where("gg-gates", "time_s", "10") {
			f.band(slow, "current_min_a", slow.num("rating_a"), 2.0, 4.05)
			five := b.where("gg-gates", "time_s", "5")[i]
			f.band(five, "current_max_a", slow.num("current_min_a"), 1.96, 2.65)
		}
	}},
	{"a breaker's bands of release meet", []string{"breaker-instantaneous"}, func(b book, f *faults) {
		rows := b.rows("breaker-instantaneous")
		for _, i := range []int{1, 2, 4} { // B to C, C to D, and B to C for direct current
			f.near(rows[i], "no_trip_multiple", rows[i-1].num("trip_multiple"), 0)
		}
		for _, i := range []int{3, 4} { // direct current needs its mean for the same pull as the crest: up to sqrt(2) more
			f.band(rows[i], "no_trip_multiple", rows[i-3].num("no_trip_multiple"), 1.3, math.Sqrt2)
			f.band(rows[i], "trip_multiple", rows[i-3].num("trip_multiple"), 1.39, 1.51)
		}
		f.near(rows[5], "no_trip_multiple", 2-rows[5].num("trip_multiple"), 1e-9)
		for _, r := range rows[:5] {
			f.near(r, "time_s", 0.1, 0)
			f.holds(r, r.num("trip_multiple") <= 2.15*r.num("no_trip_multiple"), "too wide")
		}
	}},
	{"a branch device breaks half of what the main one does; the bands follow on", []string{"breaking-capacity-by-cranking"}, func(b book, f *faults) {
		for _, rows := range groups(b.rows("breaking-capacity-by-cranking"), "system_from_v", "cca_from") {
			main, branch := rows[0], rows[1]
			f.near(branch, "breaking_a", main.num("breaking_a")/2, 0)
			f.holds(branch, branch.text("cca_to") == main.text("cca_to"), "another band")
		}
		for _, rows := range groups(b.rows("breaking-capacity-by-cranking"), "system_from_v", "system_to_v", "device") {
			f.climbing(rows, "breaking_a")
			for i, r := range rows {
				if i == 0 {
					f.near(r, "cca_from", 0, 0)
					continue
				}
				f.near(r, "cca_from", rows[i-1].num("cca_to")+1, 0)
			}
		}
	}},
	{"derating is 1 − 0.005 (T − 35) for large blades and falls for all", []string{"device-derating"}, func(b book, f *faults) {
		for _, r := range b.rows("device-derating") {
			if r.text("family") == "ISO 8820-3 E" && r.num("ambient_c") >= 65 {
				f.near(r, "value", 1-0.005*(r.num("ambient_c")-35), 1e-9)
			}
			if r.text("quantity") == "slope" {
				f.near(r, "value", -0.005, 0)
			}
		}
		f.rising(by(b.where("device-derating", "family", "EEE-INST-002 cartridge", "quantity", "factor"), figure("rating_to_a")), "value")
		for _, r := range b.rows("device-derating") {
			if r.has("rating_from_a") {
				f.holds(r, r.num("rating_from_a") <= r.num("rating_to_a"), "ends before it begins")
			}
		}
	}},
	{"protectors of aircraft wire are usual ratings, rise with the wire, and a fuse is no larger than the breaker", []string{"aircraft-wire-protector"}, func(b book, f *faults) {
		at := map[string]row{}
		for _, rows := range groups(b.rows("aircraft-wire-protector"), "device") {
			f.rising(by(rows, area), "rating_a")
			for _, r := range rows {
				at[r.text("device")+r.text("size")] = r
				f.holds(r, knownRating("", r.num("rating_a")), "no usual rating")
			}
		}
		for _, r := range b.where("aircraft-wire-protector", "device", "fuse") {
			if breaker, ok := at["breaker"+r.text("size")]; ok {
				f.band(r, "rating_a", breaker.num("rating_a"), 0.65, 1)
			}
		}
	}},
	{"torque rises with the thread, and from a screwdriver's to a spanner's", []string{"terminal-torque"}, func(b book, f *faults) {
		at := map[string]row{}
		for _, rows := range groups(b.rows("terminal-torque"), "terminal", "column") {
			f.climbing(rows, "thread_mm")
			f.rising(rows, "torque_nm")
			if len(rows) > 3 {
				f.smooth(rows, figure("thread_mm"), "torque_nm", func(row) float64 { return 0.26 })
			}
			for _, r := range rows {
				at[r.text("column")+r.text("thread_mm")] = r
				if strings.HasPrefix(r.text("terminal"), "bolted") { // T = 0.02 kN/mm² × d³
					f.band(r, "torque_nm", 0.02*math.Pow(r.num("thread_mm"), 3), 0.97, 1.16)
				}
			}
		}
		for _, r := range b.where("terminal-torque", "terminal", "screw terminal") {
			before := map[string]string{"II": "I", "III": "II"}[r.text("column")]
			if lesser, ok := at[before+r.text("thread_mm")]; ok && before != "" {
				f.holds(r, r.num("torque_nm") >= lesser.num("torque_nm"), "less than in the column before")
			}
		}
	}},
	{"letters of locked rotors are the R20 numbers of ISO 3, without a gap", []string{"locked-rotor"}, func(b book, f *faults) {
		rows := b.rows("locked-rotor")
		for i, r := range rows {
			if i > 0 {
				f.near(rows[i-1], "kva_per_hp_max", r.num("kva_per_hp_min")-0.01, 1e-9)
				f.holds(r, preferred(r.num("kva_per_hp_min")), "no preferred number")
				f.climbing(rows[i-1:i+1], "kva_per_hp_min")
			}
			if i > 0 && r.has("kva_per_hp_mid") {
				f.near(r, "kva_per_hp_mid", (r.num("kva_per_hp_min")+r.num("kva_per_hp_max"))/2, 0.06)
			}
		}
	}},
	{"test voltages are those of the nominal voltage (ISO 16750-2)", []string{"transients", "supply-voltage-codes"}, func(b book, f *faults) {
		for test, ratio := range map[string]float64{
			"test voltage, generator running": 14.0 / 12, "test voltage, generator stopped": 1, "long overvoltage": 1.5, "jump start": 2, "reversed voltage": 14.0 / 12,
		} {
			for _, r := range b.where("transients", "test", test) {
				f.near(r, "min", ratio*r.num("nominal_v"), 1e-9)
				f.near(r, "max", ratio*r.num("nominal_v"), 1e-9)
			}
		}
		for _, pair := range groups(b.where("transients", "parameter", "Ri"), "test") {
			for _, column := range []string{"min", "max"} {
				f.near(pair[1], column, 2*pair[0].num(column), 0)
			}
		}
		for _, r := range b.rows("transients") {
			f.holds(r, r.num("nominal_v") == 12 || r.num("nominal_v") == 24, "another nominal voltage")
		}
		for _, r := range b.rows("supply-voltage-codes") {
			f.near(r, "max_v", r.num("nominal_v")*4/3, 0)
			f.holds(r, r.num("min_v") < r.num("nominal_v"), "the least is no less than nominal")
			f.holds(r, r.num("nominal_v") == 12 || r.num("nominal_v") == 24, "another nominal voltage")
		}
	}},
	{"lengths in millimetres are those in inches", []string{"device-rules", "battery-installation"}, func(b book, f *faults) {
		for _, name := range []string{"device-rules", "battery-installation"} {
			for _, r := range b.rows(name) {
				if m := inches.FindStringSubmatch(r.text("note")); m != nil && r.text("unit") == "mm" {
					f.near(r, "value", 25.4*atof(m[1]), 0.51)
				}
			}
		}
	}},
	{"holds of UL 248 are those of its classes, by rating", []string{"device-gates"}, func(b book, f *faults) {
		for _, r := range b.where("device-gates", "multiple", "1.1") {
			class := slices.Contains([]string{"UL 248-2 C", "UL 248-7 H", "UL 248-9 K"}, r.text("family"))
			f.holds(r, !class || holdOfUL248(r, r.num("opening_min_s")) && (r.num("rating_to_a") == 200 || r.num("rating_to_a") == 600), "no hold of its class")
		}
	}},
	{"insulation bears surroundings 5 K below its conductor (Hong Kong wiring code, table 15(2))", []string{"insulation-ratings"}, func(b book, f *faults) {
		for _, r := range b.rows("insulation-ratings") {
			if m := surroundings.FindStringSubmatch(r.text("note")); m != nil {
				f.near(r, "max_c", atof(m[1])+5, 0)
			}
		}
	}},
	{"a load is held forward the most, and by working load limits with no more than by strengths (49 CFR 393.102)", []string{"restraint-accelerations"}, func(b book, f *faults) {
		for _, rows := range groups(b.rows("restraint-accelerations"), "source", "basis") {
			f.falling(rows[1:], "value")
			f.holds(rows[0], len(rows) == 1 || rows[0].num("value") <= 0.8 && rows[0].num("value") >= 0.4, "not braking")
		}
		for _, rows := range groups(b.where("restraint-accelerations", "source", "49 CFR 393"), "direction") {
			for i := 1; i < len(rows); i++ {
				f.holds(rows[i], rows[i].num("value") <= rows[i-1].num("value"), "more than by the strength")
			}
		}
		f.near(b.where("restraint-accelerations", "direction", "downward")[0], "value", 0.2, 0) // 20 percent
	}},
	{"larger conductors may have as many nicked strands, no fewer; broken ones are no more than nicked (AC 43.13-1B table 11-13)", []string{"damaged-strands"}, func(b book, f *faults) {
		for _, metal := range groups(b.rows("damaged-strands"), "metal") {
			for _, rows := range groups(metal, "damage") {
				f.rising(rows, "strands_most")
			}
			for _, rows := range groups(metal, "size_from") {
				f.holds(rows[1], rows[1].num("strands_most") <= rows[0].num("strands_most"), "more broken than nicked")
				for _, column := range []string{"strands_from", "strands_to"} {
					f.holds(rows[1], rows[1].text(column) == rows[0].text(column), "another conductor")
				}
				f.holds(rows[1], !(rows[1].num("strands_from") > rows[1].num("strands_to")), "ends before it begins")
			}
		}
		nicked := b.where("damaged-strands", "metal", "copper", "damage", "nicked")
		f.climbing(nicked, "strands_from")
		for i, want := range []float64{2, 4, 6, 6, 6, 6, 6} {
			f.near(nicked[i], "strands_most", want, 0)
		}
		for _, r := range b.where("damaged-strands", "damage", "broken") {
			f.holds(r, r.num("strands_most") == 0 || r.num("strands_most") == 6, "broken strands are none, or as many as nicked ones")
		}
	}},
	{"33 CFR 183.630: openings by area and volume", []string{"compartment-openings"}, func(b book, f *faults) {
		// 5 ln(V ÷ 5) is the least opening at all, 3 sq in, from 9.1 cu ft on.
		rows := b.rows("compartment-openings")
		v := rows[0].num("value") * math.Exp(rows[1].num("value")/rows[0].num("value"))
		f.holds(rows[0], math.Abs(v-9.11) < 0.01, "3 sq in at %v cu ft", v)
	}},
	{"IEC 60947-4-1: resistive contacts make 1.5 times their rating and motor contacts 4, and break what they make", []string{"utilisation-categories"}, func(b book, f *faults) {
		for i, r := range b.rows("utilisation-categories") {
			f.near(r, "breaks_multiple", r.num("makes_multiple"), 0)
			f.near(r, "makes_multiple", []float64{1.5, 4, 4}[i], 0)
		}
	}},
	{"sources of a fault: a motor's multiple is its voltage over its resistance per unit; a warm battery has less than a cold one", []string{"fault-sources"}, func(b book, f *faults) {
		of := func(id string) row { return b.where("fault-sources", "id", id)[0] }
		f.near(of("dc-motor-safe"), "value", 1/of("dc-motor-resistance-low").num("value"), 1e-9)
		f.near(of("dc-motor"), "value", 1/of("dc-motor-resistance-high").num("value"), 0.5)
		f.near(of("alternator-unlimited"), "value", of("dc-motor-safe").num("value"), 0)
		// The conductivity of battery acid doubles and more from -18 to 25 C; a
		// meter of conductance reckons with 0.45 of what SAE amperes imply.
		f.holds(of("battery-warm"), of("battery-warm").num("value") < 0.45 && of("battery-warm").num("value") > 1.0/3, "no share of a cold resistance")
		f.near(of("regulated"), "value", 1, 0)
	}},
}
