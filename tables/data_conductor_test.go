package tables

import (
	"math"
	"strings"
)

// iacs is the resistivity of annealed copper at 20 °C in Ω mm²/m, 1/58 (IEC
// 60028), here in mΩ mm²/m.
const iacs = 1000.0 / 58

// conductorGuards hold the tables of conductors.
var conductorGuards = []guard{
	{"AWG by the formula of ASTM B258 and the resistivity of IEC 60028", []string{"awg"}, func(b book, f *faults) {
		for _, r := range b.rows("awg") {
			_, gauge, _ := strings.Cut(r.text("size"), " ")
			inch := gaugeInches(gauge)
			mils := inch * 1000
			law := map[string]float64{
				"area mm2": area(r), "diameter mm": inch * 25.4, "area cmil": mils * mils, "diameter mil": mils,
				"resistance_20c ohm per kft": 10.371 / (mils * mils) * 1000,
			}[r.text("quantity")+" "+r.text("unit")]
			within := r.half("value")
			if r.text("source") != "ASTM B258" { // the NBS computed on from rounded diameters
				within += law * map[string]float64{"area": 2e-4, "diameter": 4e-5, "resistance_20c": 3e-4}[r.text("quantity")]
			}
			f.near(r, "value", law, within)
		}
	}},
	{"factors to 20 °C are 1 ÷ (1 + 0.004 (t − 20)) (IEC 60228, annex)", []string{"temperature-factors-60228"}, func(b book, f *faults) {
		for _, r := range b.rows("temperature-factors-60228") {
			f.near(r, "factor", 1/(1+0.004*(r.num("conductor_c")-20)), 0.0005)
		}
		for i, r := range b.rows("temperature-factors-60228") {
			f.near(r, "conductor_c", float64(5+5*i), 0)
		}
	}},
	{"drop of BS 7671 4E1B is twice IEC 60228 class 2 at 90 °C", []string{"voltage-drop-4e1b", "conductor-resistance"}, func(b book, f *faults) {
		for _, r := range b.rows("voltage-drop-4e1b") {
			for _, c := range b.where("conductor-resistance", "class", "2", "metal", "copper", "coating", "plain", "size", r.text("size")) {
				within := 1.05 * r.half("mv_per_a_per_m")
				switch r.text("size") {
				case "25 mm2", "35 mm2": // printed in steps of 0.05
					within = 0.025
				case "10 mm2", "16 mm2", "240 mm2": // lower than IEC 60228 makes it
					within = 5 * r.half("mv_per_a_per_m")
				}
				f.near(r, "mv_per_a_per_m", 2*c.num("mohm_per_m")*(234.5+90)/254.5, within)
			}
		}
	}},
	{"IEC 60228: resistance × area, by stranding, coating and metal", []string{"conductor-resistance"}, func(b book, f *faults) {
		const column = "mohm_per_m"
		for _, r := range b.rows("conductor-resistance") {
			f.holds(r, r.text("class") == "2" || r.text("class") == "5", "another class")
		}
		for _, rows := range groups(b.rows("conductor-resistance"), "class", "metal", "coating") {
			f.sinking(rows, column)
			for _, r := range rows {
				metal := iacs
				if r.text("metal") == "aluminium" {
					metal = 28.264 // Ω mm²/km, 61 % IACS
				}
				f.band(r, column, metal/area(r), 1.03, 1.21)
			}
		}
		at := map[string]row{}
		for _, r := range b.rows("conductor-resistance") {
			at[r.text("class")+r.text("metal")+r.text("coating")+r.text("size")] = r
		}
		for _, r := range b.rows("conductor-resistance") {
			if plain, ok := at[r.text("class")+"copperplain"+r.text("size")]; ok && r.text("coating") == "tinned" {
				f.band(r, column, plain.num(column), 1.005, 1.035) // a coated wire conducts a little less
			}
			if two, ok := at["2copper"+r.text("coating")+r.text("size")]; ok && r.text("class") == "5" {
				f.band(r, column, two.num(column), 0.99, 1.125) // a finer wire has more slack in its lay
			}
			if copper, ok := at["2copperplain"+r.text("size")]; ok && r.text("metal") == "aluminium" {
				f.band(r, column, copper.num(column), 1.63, 1.70) // 100 to 61 % of IACS
			}
		}
	}},
	{"ISO 6722-1: resistance × area lies 3 to 15 % above annealed copper", []string{"iso6722-resistance"}, func(b book, f *faults) {
		rows := b.rows("iso6722-resistance")
		f.sinking(rows, "mohm_per_m")
		for _, r := range rows {
			f.band(r, "mohm_per_m", iacs/area(r), 1.025, 1.15)
		}
	}},
	{"ISO 6722-1: a strand fits its circle and the walls grow with it", []string{"iso6722-dimensions"}, func(b book, f *faults) {
		at := map[string]row{}
		for _, r := range b.rows("iso6722-dimensions") {
			at[r.text("quantity")+r.text("size")] = r
			if r.text("quantity") == "conductor_diameter_max" {
				full := r.num("mm") * r.num("mm") * math.Pi / 4
				f.holds(r, area(r)/full > 0.5 && area(r)/full < 0.75, "copper fills %.2f of the circle", area(r)/full)
			}
		}
		for _, rows := range groups(b.rows("iso6722-dimensions"), "quantity") {
			f.climbing(rows, "mm")
			for _, r := range rows {
				wall := (r.num("mm") - at["conductor_diameter_max"+r.text("size")].num("mm")) / 2
				switch r.text("quantity") {
				case "cable_diameter_max_thin_wall":
					f.holds(r, wall > 0.2 && wall < 0.5, "wall %.2f mm", wall)
				case "cable_diameter_max_thick_wall":
					f.holds(r, wall > 0.55 && wall < 1.65, "wall %.2f mm", wall)
				}
			}
		}
	}},
	{"IEC 60228: strands lie in whole layers, 1 + 3 n (n + 1)", []string{"conductor-strands"}, func(b book, f *faults) {
		for _, rows := range groups(b.rows("conductor-strands"), "quantity") {
			f.rising(rows, "value")
			for _, r := range rows {
				f.near(r, "class", map[string]float64{"least_wires": 2, "largest_wire_diameter": 5}[r.text("quantity")], 0)
				if r.text("quantity") == "least_wires" {
					v := r.num("value")
					f.holds(r, v == 7 || v == 19 || v == 37 || v == 61, "%v wires are no whole layer", v)
				} else {
					f.holds(r, r.num("value") == 0.21 || math.Mod(100*r.num("value")+1e-6, 5) < 1.1, "a wire of %v mm", r.num("value"))
				}
			}
		}
	}},
	{"SAE gauges have 5 to 12 % less copper than AWG; the floor lies below the nominal", []string{"sae-gauge"}, func(b book, f *faults) {
		nominal := map[string]row{}
		for _, r := range b.where("sae-gauge", "quantity", "nominal_area") {
			nominal[r.text("size")] = r
			f.band(r, "value", area(r)/circularMils, 0.88, 0.975)
		}
		for _, r := range b.where("sae-gauge", "quantity", "least_area") {
			f.band(r, "value", area(r), 0.82, 1.0)
			if n, ok := nominal[r.text("size")]; ok {
				f.band(r, "value", n.num("value")*circularMils, 0.925, 0.99)
			}
		}
		for _, rows := range groups(b.rows("sae-gauge"), "quantity") {
			f.climbing(by(rows, area), "value")
		}
	}},
	{"NFPA 70 table 8: areas, strands and resistances at 75 °C by geometry", []string{"nec-table8"}, nec8Geometry},
	{"NEETS figure 1B: IACS at 25 and 65 °C within 0.5 %", []string{"neets-1b"}, func(b book, f *faults) {
		for _, r := range b.rows("neets-1b") {
			f.holds(r, r.num("conductor_c") == 25 || r.num("conductor_c") == 65, "another temperature")
			law := iacs / area(r) * 0.3048 * (234.5 + r.num("conductor_c")) / 254.5
			f.band(r, "ohm_per_kft", law, 0.995, 1.005)
		}
	}},
	{"AC 43.13-1B: resistance × area lies 7 to 31 % above the metal's own; areas 10 % below to 19 % above AWG", []string{"ac4313-resistance"}, func(b book, f *faults) {
		areas := map[string]row{}
		for _, r := range b.where("ac4313-resistance", "quantity", "area") {
			areas[r.text("table")+r.text("size")] = r
			f.band(r, "value", area(r)/circularMils, 0.899, 1.191)
		}
		for _, r := range b.where("ac4313-resistance", "quantity", "resistance_20c") {
			metal := iacs
			if strings.Contains(r.text("metal"), "aluminium") {
				metal = 28.264
			}
			law := metal / area(r) * 0.3048
			if n, ok := areas[r.text("table")+r.text("size")]; ok {
				law = metal / (n.num("value") * circularMils) * 0.3048
			}
			f.band(r, "value", law, 0.985, 1.31)
		}
		for _, rows := range groups(b.rows("ac4313-resistance"), "table", "quantity") {
			order := f.sinking
			if rows[0].text("quantity") == "area" {
				order = f.climbing
			}
			order(by(rows, area), "value")
		}
	}},
	{"constants of copper and aluminium follow from each other", []string{"material-constants"}, constantsChain},
	{"k = K sqrt(ln((Tf + b) ÷ (Ti + b))) (IEC 60949)", []string{"adiabatic-k", "material-constants"}, func(b book, f *faults) {
		for _, r := range b.rows("adiabatic-k") {
			k := b.where("material-constants", "material", r.text("conductor"), "quantity", "adiabatic_constant")[0].num("value")
			beta := b.where("material-constants", "material", r.text("conductor"), "quantity", "adiabatic_beta")[0].num("value")
			f.near(r, "k_a_sqrt_s_per_mm2", k*math.Sqrt(math.Log((r.num("final_c")+beta)/(r.num("initial_c")+beta))), 0.5)
			for _, column := range []string{"area_over_mm2", "area_to_mm2"} { // PVC alone knows two sizes
				f.holds(r, r.text(column) == "" || r.text(column) == "300", "%s is %s", column, r.text(column))
			}
		}
	}},
	{"Preece's copper table is I = 10244 d^1.5", []string{"preece-copper", "preece"}, func(b book, f *faults) {
		a := b.where("preece", "material", "copper")[0].num("constant_a_per_in_1_5")
		for _, r := range b.rows("preece-copper") {
			f.near(r, "diameter_in", math.Pow(r.num("fusing_a")/a, 2.0/3), 1.05*r.half("diameter_in"))
		}
	}},
}

// circularMils is π/4 × (0.0254 mm)².
const circularMils = math.Pi / 4 * 0.0254 * 0.0254

func nec8Geometry(b book, f *faults) {
	at := map[string]row{}
	for _, r := range b.rows("nec-table8") {
		at[r.text("size")+"/"+r.text("strands")+r.text("quantity")] = r
	}
	for _, r := range b.rows("nec-table8") {
		key := r.text("size") + "/" + r.text("strands")
		n := r.num("strands")
		cmil := at[key+"area"].num("value")
		lay := 1.02 // the strands lie in spirals
		if n == 1 {
			lay = 1
		}
		layers := map[float64]float64{1: 1, 7: 3, 19: 5, 37: 7}[n]
		strand := math.Sqrt(cmil/n) / 1000
		switch r.text("quantity") {
		case "area": // four figures of the formula
			f.band(r, "value", area(r)/circularMils, 0.997, 1.001)
			f.near(r, "value", area(r)/circularMils, math.Max(5, area(r)/circularMils*7e-4))
		case "strand_diameter":
			f.near(r, "value", strand, 1.15*r.half("value"))
		case "overall_diameter":
			f.near(r, "value", layers*strand, 1.55*r.half("value"))
		case "overall_area":
			d := at[key+"overall_diameter"].num("value")
			f.near(r, "value", math.Pi/4*d*d, 1.3*r.half("value"))
		case "copper_uncoated_75c":
			law := 10.371 * (1 + 0.00393*55) * 1000 * lay / cmil
			f.near(r, "value", law, r.half("value")+0.004*law)
		case "aluminium_75c":
			law := 17.002 * (1 + 0.00403*55) * 1000 * lay / cmil
			f.near(r, "value", law, r.half("value")+0.003*law)
		case "copper_coated_75c":
			f.band(r, "value", at[key+"copper_uncoated_75c"].num("value"), 1.027, 1.064)
		default:
			f.add(r, "no law")
		}
	}
}

// constantsChain derives the constants from each other: IACS, the coefficient
// at 20 °C and the density are the ground.
func constantsChain(b book, f *faults) {
	first := func(material, quantity string) row {
		return b.where("material-constants", "material", material, "quantity", quantity)[0]
	}
	copper := func(quantity string) row { return first("copper", quantity) }
	aluminium := func(quantity string) row { return first("aluminium", quantity) }
	f.rounded(copper("resistivity_20c"), "value", 1.0/58)
	f.near(copper("mass_resistivity_20c"), "value", copper("resistivity_20c").num("value")*copper("density_20c").num("value"), 0.00005)
	f.near(copper("density_20c"), "value", 0.15328*58, 0.005)
	f.rounded(copper("resistivity_20c_mil_foot"), "value", 0.3048/58/circularMils)
	f.near(copper("temperature_coefficient_20c"), "value", 1/(234.5+20), 0.000005)
	f.near(copper("zero_resistance_constant"), "value", 1/copper("temperature_coefficient_20c").num("value")-20, 0.05)
	f.rounded(copper("temperature_coefficient_75c"), "value", 1/(234.5+75))
	f.near(aluminium("temperature_coefficient_75c"), "value", 1/(228.1+75), 0.000005)
	f.near(aluminium("resistivity_20c"), "value", 1/(0.61*58), 0.000005)
	f.near(aluminium("temperature_coefficient_20c"), "value", 1/(228.1+20), 0.000005)
	zero := b.where("material-constants", "material", "aluminium", "quantity", "zero_resistance_constant")
	f.near(zero[0], "value", 1/0.00403-20, 0.05)
	f.near(zero[1], "value", 238.1, 0)                               // AC 43.13-1B differs by ten from what its coefficient gives
	f.rounded(copper("design_resistivity_hot"), "value", 1.25*0.018) // IEC 60364-5-52 takes 0.018 at 20 °C
	f.rounded(aluminium("design_resistivity_hot"), "value", 0.0225*1.6)
	// IEC 60949: K = sqrt(heat × (beta + 20) ÷ resistivity), heats 3.45 and 2.5 mJ/(K mm³).
	f.rounded(copper("adiabatic_constant"), "value", math.Sqrt(3.45*254.5*1000/(1000.0/58)))
	f.rounded(aluminium("adiabatic_constant"), "value", math.Sqrt(2.5*248*1000/28.264))
	f.near(copper("adiabatic_beta"), "value", copper("zero_resistance_constant").num("value"), 0)
	// 401 W/(K m) at 20 °C (physics texts) × resistivity ÷ absolute temperature is the
	// Lorenz number there; by theory π² ÷ 3 × (k_B ÷ e)².
	f.near(copper("lorenz_number"), "value", 401.0/58e6/293.15, 0.15e-8)
	f.near(copper("lorenz_number"), "value", math.Pi*math.Pi/3*math.Pow(1.380649e-23/1.602176634e-19, 2), 0.22e-8)
	f.near(aluminium("adiabatic_beta"), "value", zero[0].num("value"), 0.5)
	// Drop constants: two cold ones in their documents, hot ones by table 8.
	drop := b.where("material-constants", "material", "copper", "quantity", "drop_constant")
	f.near(drop[1], "value", 10.371*(234.5+29)/254.5, 0.02)
	f.near(drop[2], "value", 10.371*(1+0.00393*55)*1.02, 0.05)
	f.near(aluminium("drop_constant"), "value", 17.002*(1+0.00403*55)*1.02, 0.05)
	f.near(first("circular mil", "area"), "value", circularMils, 0.5e-11)
	f.near(b.where("material-constants", "material", "circular mil")[1], "value", math.Pi/4, 0.00005)
}
