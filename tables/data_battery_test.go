package tables

import (
	"math"
	"slices"
	"strings"
)

// celsius turns degrees Fahrenheit into Celsius.
func celsius(f float64) float64 { return (f - 32) / 1.8 }

// batteryGuards hold the tables of batteries, charging, bays and loads.
var batteryGuards = []guard{
	{"a management unit cuts out a third above the nominal voltage at most, and batteries are joined within 0.1 V", []string{"battery-limits"}, func(b book, f *faults) {
		f.near(b.where("battery-limits", "parameter", "charge_cut_out_over_nominal")[0], "value_typ", 2.67/2, 0.005)
		f.near(b.where("battery-limits", "parameter", "cut_out_over_nominal")[0], "value_typ", 2.0/3.2, 0.0051)
		f.near(b.where("battery-limits", "parameter", "apart_when_joined")[0], "value_typ", 0.1, 0)
	}},
	{"rested cells differ by 0.1 V on a battery of six at most, and a range of a third of the charge is no answer", []string{"rested-spread"}, func(b book, f *faults) {
		for _, r := range b.where("rested-spread", "quantity", "spread") {
			f.holds(r, r.num("value") >= 0 && math.Abs(6*r.num("value")-0.1) < 0.005 || r.num("value") == 0 || r.text("chemistry") == "any", "6 cells differ by %v V", 6*r.num("value"))
		}
		f.near(b.where("rested-spread", "chemistry", "any")[0], "value", 0.01, 0)
		f.near(b.where("rested-spread", "chemistry", "any")[1], "value", 35, 0)
	}},
	{"a hot alternator gives more on ordinary duty than through a long bulk stage", []string{"alternator-definitions"}, func(b book, f *faults) {
		hot := b.where("alternator-definitions", "term", "hot output")
		f.sinking(hot, "value")
		f.near(hot[0], "value", 0.8, 0) // a fifth off without a curve
		f.near(hot[1], "value", (0.5+0.7)/2, 1e-9)
	}},
	{"a hydrometer is corrected by 0.0004 for each degree F from 80 (TM 5-4210)", []string{"density-correction", "density-slopes"}, func(b book, f *faults) {
		for i, r := range b.rows("density-correction") {
			f.near(r, "correction_sg", 0.0004*(r.num("electrolyte_f")-80), 1e-9)
			f.near(r, "electrolyte_c", celsius(r.num("electrolyte_f")), 0.05)
			f.near(r, "electrolyte_f", float64(10*i), 0)
		}
		slopes := b.rows("density-slopes") // they agree on 0.0003 to 0.0004 for a degree F
		for i, perDegreeF := range []float64{slopes[0].num("value") / 10, slopes[1].num("value") / 10, slopes[2].num("value") / 3, slopes[3].num("value") / 1.8} {
			f.holds(slopes[i], perDegreeF >= 0.0003-1e-12 && perDegreeF <= 0.0004+1e-12, "%.6f for a degree F", perDegreeF)
		}
	}},
	{"TM 5-1185 table IV is the density at 80 °F moved by 0.0004 a degree F", []string{"density-tm5-1185"}, func(b book, f *faults) {
		for _, r := range b.rows("density-tm5-1185") {
			f.near(r, "apparent_sg", r.num("sg_at_80f")+0.0004*(80-r.num("inferred_f")), 0.00151)
			f.near(r, "inferred_c", celsius(r.num("inferred_f")), 0.05)
		}
		for _, rows := range groups(b.rows("density-tm5-1185"), "sg_at_80f") {
			f.sinking(by(rows, figure("inferred_f")), "apparent_sg")
			for _, r := range rows {
				f.near(r, "cranking_power_percent", rows[0].num("cranking_power_percent"), 0)
			}
		}
		for _, rows := range groups(b.rows("density-tm5-1185"), "where") {
			f.rising(by(rows, figure("sg_at_80f")), "cranking_power_percent")
		}
	}},
	{"a rested cell has its density plus 0.84 to 0.86 V", []string{"ocv-lead-acid"}, func(b book, f *faults) {
		for _, rows := range groups(b.rows("ocv-lead-acid"), "table", "condition", "soc_percent") {
			volts := slices.IndexFunc(rows, func(r row) bool { return r.text("quantity") == "voltage_12v" })
			gravity := slices.IndexFunc(rows, func(r row) bool { return r.text("quantity") == "specific_gravity" })
			if volts < 0 || gravity < 0 {
				continue
			}
			density := (rows[gravity].num("value_min") + rows[gravity].num("value_max")) / 2
			for _, column := range []string{"value_min", "value_max"} {
				f.near(rows[volts], column, 6*(density+0.8475), 0.088)
			}
		}
	}},
	{"voltage and density fall with the state of charge, in steps that are alike", []string{"ocv-lead-acid"}, func(b book, f *faults) {
		for _, rows := range groups(b.rows("ocv-lead-acid"), "table", "quantity") {
			f.sinking(rows, "soc_percent")
			for _, r := range rows {
				soc := r.num("soc_percent")
				f.holds(r, soc == 10 || math.Mod(soc, 25) == 0, "no usual state of charge")
				for _, column := range []string{"value_min", "value_max"} {
					if !r.has(column) {
						continue
					}
					low, high := 1.11, 1.30
					if r.text("quantity") == "voltage_12v" {
						low, high = 11.6, 12.9
					}
					f.holds(r, r.num(column) >= low && r.num(column) <= high, "%s %s", column, r.text(column))
				}
			}
			for _, column := range []string{"value_min", "value_max"} {
				f.sinking(slices.DeleteFunc(slices.Clone(rows), func(r row) bool { return !r.has(column) }), column)
			}
		}
		for _, rows := range groups(b.where("ocv-lead-acid", "table", "TM 5-1185"), "table") {
			for i := 1; i < len(rows); i++ { // 30 points a row
				f.near(rows[i], "value_min", rows[i-1].num("value_min")-0.03, 1e-9)
				f.near(rows[i], "value_max", rows[i-1].num("value_max")-0.03, 1e-9)
			}
		}
		for _, r := range b.where("ocv-lead-acid", "table", "leisure bands", "quantity", "specific_gravity") {
			f.near(r, "value_max", r.num("value_min")+0.02, 1e-9)
			f.near(r, "value_min", 1.14+0.0012*r.num("soc_percent"), 1e-9)
		}
		for i, r := range b.where("ocv-lead-acid", "table", "TM 10-6140-200-14") { // the two manuals agree but at a quarter
			other := b.where("ocv-lead-acid", "table", "TM 5-1185")[i]
			if r.text("soc_percent") != "25" {
				f.near(r, "value_min", other.num("value_min"), 0)
				f.near(r, "value_max", other.num("value_max"), 0)
			}
		}
		for _, r := range b.rows("ocv-lead-acid") {
			f.holds(r, !r.has("reference_c") || r.num("reference_c") == 25 || r.num("reference_c") == 26.7, "reference %s", r.text("reference_c"))
		}
	}},
	{"cells of lithium and nickel rise with the state of charge, without a jump", []string{"ocv-lithium-nickel"}, func(b book, f *faults) {
		for _, rows := range groups(b.rows("ocv-lithium-nickel"), "table", "chemistry", "condition") {
			f.climbing(by(rows, figure("soc_percent")), "ocv_v_per_cell")
			for i := 1; i+1 < len(rows); i++ {
				a, c := rows[i-1], rows[i+1]
				share := (rows[i].num("soc_percent") - a.num("soc_percent")) / (c.num("soc_percent") - a.num("soc_percent"))
				within := 0.08
				switch soc := rows[i].num("soc_percent"); { // the knees of an empty and of a full cell
				case soc <= 10 && a.num("soc_percent") == 0 && soc-a.num("soc_percent") > 5:
					within = 0.5
				case soc <= 5:
					within = 0.3
				case soc > 95:
					within = 0.13
				}
				f.near(rows[i], "ocv_v_per_cell", a.num("ocv_v_per_cell")+share*(c.num("ocv_v_per_cell")-a.num("ocv_v_per_cell")), within)
			}
		}
	}},
	{"freezing points of four manuals agree and fall with the density", []string{"freezing-point"}, func(b book, f *faults) {
		for _, rows := range groups(b.rows("freezing-point"), "table") {
			f.climbing(rows, "specific_gravity")
			f.sinking(rows, "freezing_f")
		}
		faa := by(b.where("freezing-point", "table", "FAA AC 43.13-1B"), figure("specific_gravity"))
		for _, r := range b.rows("freezing-point") {
			for i := 1; i < len(faa); i++ {
				a, c := faa[i-1], faa[i]
				density := r.num("specific_gravity")
				if density < a.num("specific_gravity") || density > c.num("specific_gravity") || r.text("table") == "FAA AC 43.13-1B" {
					continue
				}
				share := (density - a.num("specific_gravity")) / (c.num("specific_gravity") - a.num("specific_gravity"))
				within := 1.0
				if density != a.num("specific_gravity") && density != c.num("specific_gravity") {
					within = 12 // between two rows
				}
				f.near(r, "freezing_f", a.num("freezing_f")+share*(c.num("freezing_f")-a.num("freezing_f")), within)
			}
		}
		pure := b.where("freezing-point", "specific_gravity", "1.0")[0]
		f.near(pure, "freezing_f", 32, 0) // water
	}},
	{"degrees of both scales are one temperature", []string{"capacity-temperature", "capacity-temperature-ieee485"}, func(b book, f *faults) {
		for _, r := range b.rows("capacity-temperature") {
			switch fahrenheit := r.num("temperature_c")*1.8 + 32; {
			case strings.Contains(r.text("temperature_f"), "."):
				f.near(r, "temperature_f", fahrenheit, 0.05)
			default:
				f.near(r, "temperature_c", celsius(r.num("temperature_f")), 0.05)
			}
		}
		for _, r := range b.rows("capacity-temperature-ieee485") {
			f.near(r, "electrolyte_c", celsius(r.num("electrolyte_f")), 0.11)
		}
	}},
	{"IEEE 485: the factor falls evenly and is 1 at 77 °F", []string{"capacity-temperature-ieee485"}, func(b book, f *faults) {
		rows := by(b.rows("capacity-temperature-ieee485"), figure("electrolyte_f"))
		f.sinking(rows, "factor")
		for i, r := range rows {
			if r.text("electrolyte_f") == "77" {
				f.near(r, "factor", 1, 0)
			}
			if i == 0 || i+1 == len(rows) {
				continue
			}
			a, c := rows[i-1], rows[i+1]
			share := (r.num("electrolyte_f") - a.num("electrolyte_f")) / (c.num("electrolyte_f") - a.num("electrolyte_f"))
			f.near(r, "factor", a.num("factor")+share*(c.num("factor")-a.num("factor")), 0.016)
		}
	}},
	{"capacity rises with warmth, the multiplier of size falls", []string{"capacity-temperature"}, func(b book, f *faults) {
		for _, rows := range groups(b.rows("capacity-temperature"), "table") {
			by(rows, figure("temperature_c"))
			if rows[0].text("quantity") == "size_multiplier" {
				f.sinking(rows, "value")
				for _, r := range rows { // IEEE 485 lies within 0.06 of the worksheet
					for _, other := range b.where("capacity-temperature-ieee485", "electrolyte_f", r.text("temperature_f")) {
						f.near(r, "value", other.num("factor"), 0.061)
					}
				}
				continue
			}
			f.rising(rows, "value")
		}
	}},
	{"a bank gives more at a slower rate; two tables and the kinetic model start from the same", []string{"capacity-rate", "kinetic-battery"}, func(b book, f *faults) {
		for _, rows := range groups(b.rows("capacity-rate"), "table") {
			f.climbing(by(rows, figure("hour_rate_h")), "capacity_percent")
		}
		for _, table := range []string{"ssc lead-acid", "VRLA typical"} {
			for _, k := range b.rows("kinetic-battery") {
				same := b.where("capacity-rate", "table", table, "hour_rate_h", k.text("hour_rate_h"))
				f.holds(k, len(same) == 1, "%s has no such rate", table)
				if len(same) == 1 {
					f.near(same[0], "capacity_percent", k.num("capacity_ah"), 0)
				}
			}
		}
	}},
	{"cycle life: less depth, more cycles; the models are straight", []string{"cycle-life"}, func(b book, f *faults) {
		test := b.where("cycle-life", "table", "ssc test")
		for _, i := range []int{1, 3} { // twice the loss, twice the cycles
			for _, column := range []string{"cycles_min", "cycles_max"} {
				loss := (100 - test[i].num("capacity_percent")) / (100 - test[i-1].num("capacity_percent"))
				f.near(test[i], column, test[i-1].num(column)*loss, 0)
			}
		}
		for _, rows := range groups(b.where("cycle-life", "table", "ssc lithium"), "dod_percent") {
			f.sinking(rows, "capacity_percent")
			for i, r := range rows {
				f.near(r, "cycles_min", float64(1250*i), 0)
				f.near(r, "cycles_max", float64(1250*i), 0)
				if i == 0 {
					f.near(r, "capacity_percent", 100.853, 0) // where every line of the model starts
				}
				if i == 0 || i == 4 {
					continue
				}
				within := 0.0003 + map[string]float64{"80": 0.08, "100": 0.46}[r.text("dod_percent")]
				f.near(r, "capacity_percent", (rows[i-1].num("capacity_percent")+rows[i+1].num("capacity_percent"))/2, within)
			}
		}
		for _, table := range []string{"lithium by depth", "lead-acid by depth", "GB/T 19064-2003"} {
			for _, rows := range groups(b.where("cycle-life", "table", table), "chemistry", "condition") {
				f.sinking(by(rows, figure("dod_percent")), "cycles_min")
				for _, r := range rows {
					f.near(r, "capacity_percent", map[bool]float64{true: 80, false: 70}[table == "GB/T 19064-2003"], 0)
					f.holds(r, math.Mod(r.num("dod_percent"), 10) == 0 && math.Mod(r.num("cycles_min"), 50) == 0, "an uneven figure")
					if table == "lithium by depth" {
						f.near(r, "cycles_max", r.num("cycles_min"), 0)
					}
				}
			}
		}
	}},
	{"weights of inverter efficiency sum to 1", []string{"inverter-weights"}, func(b book, f *faults) {
		for _, rows := range groups(b.rows("inverter-weights"), "method") {
			sum := 0.0
			for _, r := range rows {
				sum += r.num("weight")
				f.holds(r, slices.Contains([]float64{5, 10, 20, 30, 50, 75, 100}, r.num("load_percent")), "no usual load")
			}
			f.holds(rows[0], math.Abs(sum-1) < 1e-9, "they sum to %v", sum)
			f.climbing(rows, "load_percent")
		}
	}},
	{"gas current is current × emission × safety (IEC 62485-2, table 1)", []string{"gas-stationary", "charge-voltages"}, func(b book, f *faults) {
		for _, rows := range groups(b.rows("gas-stationary"), "chemistry", "charge") {
			at := map[string]row{}
			for _, r := range rows {
				at[r.text("quantity")] = r
			}
			f.near(at["gas_current"], "value", at["current"].num("value")*at["gas_emission_factor"].num("value")*at["safety_factor"].num("value"), 1e-9)
			f.near(at["safety_factor"], "value", 5, 0)
			for _, r := range b.where("charge-voltages", "source", "IEC 62485-2", "chemistry", rows[0].text("chemistry"), "stage", rows[0].text("charge")) {
				f.near(r, "v_per_cell_min", at["cell_voltage"].num("value"), 0)
				f.near(r, "v_per_cell_max", at["cell_voltage"].num("value"), 0)
			}
		}
	}},
	{"constants of ventilation follow from Faraday and the limits (IEC 62485-2)", []string{"gas-constants"}, func(b book, f *faults) {
		of := func(quantity string) row { return b.where("gas-constants", "quantity", quantity)[0] }
		limit := of("lower_flammable_limit").num("value")
		f.near(of("lower_flammable_limit"), "value", 4, 0)
		f.near(of("dilution_factor"), "value", (100-limit)/limit, 0)
		perAh := 3600 / 96485.0 / 2 * 0.022414 // m³ of hydrogen at 0 °C
		f.near(of("hydrogen_per_ah"), "value", perAh, 0.000005)
		flow := b.where("gas-constants", "quantity", "flow_constant")
		f.near(flow[0], "value", 24*perAh*of("safety_factor").num("value"), 0.0005)
		f.near(flow[1], "value", 24*perAh*5*298.15/273.15, 0.0005)
		f.near(of("safety_factor"), "value", 5, 0)
		f.near(of("opening_area_per_flow"), "value", 1e4/3600/0.1, 0.5) // air at 0.1 m/s
		f.near(of("hydrogen_rate"), "value", perAh/3600*298.15/273.15, 0.5e-9)
		f.near(b.where("gas-constants", "condition", "per cell", "quantity", "hydrogen_per_ah")[0], "value", perAh*298.15/273.15/0.0283168, 0.0005)
	}},
	{"the cooling area is the sum of the faces (IEC 60890, table III)", []string{"enclosure-area"}, func(b book, f *faults) {
		const free, covered, top, coveredTop = 0.9, 0.5, 1.4, 0.7
		back := func(position string) float64 {
			if strings.Contains(position, "wall") {
				return covered
			}
			return free
		}
		for _, r := range b.rows("enclosure-area") {
			position := r.text("position")
			sides := 2 * free
			if strings.HasPrefix(position, "end of a row") {
				sides = free + covered
			} else if strings.HasPrefix(position, "in a row") {
				sides = 2 * covered
			}
			want := map[string]float64{"height x width": free + back(position), "height x depth": sides, "width x depth": top}[r.text("face")]
			if r.text("face") == "width x depth" && strings.HasSuffix(position, "top covered") {
				want = coveredTop
			}
			f.near(r, "factor", want, 1e-9)
		}
	}},
	{"steps of cranking current follow on and coarsen", []string{"cranking-steps"}, func(b book, f *faults) {
		rows := b.rows("cranking-steps")
		for i, r := range rows {
			f.near(r, "step_a", float64(10*(i+1)), 0)
			from := 0.0
			if i > 0 {
				from = rows[i-1].num("current_to_a")
			}
			f.near(r, "current_from_a", from, 0)
			f.holds(r, !r.has("current_to_a") || math.Mod(r.num("current_to_a")-from, r.num("step_a")) == 0, "no whole number of steps")
		}
	}},
	{"cranking is at −18 °C or named otherwise; a battery of six cells ends at 1.0 to 1.5 V each", []string{"cranking-definitions"}, func(b book, f *faults) {
		for _, r := range b.rows("cranking-definitions") {
			switch r.text("quantity") {
			case "temperature":
				want := map[string]float64{"CA or MCA": 0, "HCA": 26.7}[r.text("rating")]
				if r.text("rating") != "CA or MCA" && r.text("rating") != "HCA" {
					want = -18
				}
				f.near(r, "value", want, 0)
			case "end_voltage_12v", "second_end_voltage_12v":
				cell := r.num("value") / 6
				f.holds(r, slices.ContainsFunc([]float64{1, 1.2, 1.25, 1.4, 1.5}, func(v float64) bool { return math.Abs(v-cell) < 1e-9 }), "%.4f V a cell", cell)
			}
		}
	}},
	{"a rating's name is its hours", []string{"rating-definitions"}, func(b book, f *faults) {
		for _, r := range b.where("rating-definitions", "quantity", "discharge_time") {
			f.near(r, "value", atof(strings.TrimPrefix(r.text("rating"), "C")), 0)
		}
		for _, r := range b.where("rating-definitions", "quantity", "end_voltage", "chemistry", "lead-acid") {
			f.holds(r, math.Mod(r.num("value")*100+1e-6, 5) < 1e-5 && r.num("value") >= 1.7 && r.num("value") <= 1.85, "an uneven end voltage")
		}
	}},
	{"the regulator's slope is that of its band (six cells)", []string{"regulator-temperature", "temperature-compensation"}, func(b book, f *faults) {
		for _, set := range []string{"1", "2"} {
			rows := b.where("regulator-temperature", "set", set)
			f.sinking(rows, "v_min")
			f.sinking(rows, "v_max")
			first, last := rows[0], rows[len(rows)-1]
			middle := func(r row) float64 { return (r.num("v_min") + r.num("v_max")) / 2 }
			slope := (middle(last) - middle(first)) / (last.num("temperature_c") - first.num("temperature_c")) / 6 * 1000
			of := b.where("temperature-compensation", "condition", "car alternator regulator, set "+set)[0]
			f.near(of, "mv_per_c_per_cell", slope, 0.005)
			f.near(of, "low_limit_c", first.num("temperature_c"), 0)
			f.near(of, "high_limit_c", last.num("temperature_c"), 0)
			for _, r := range rows {
				law := middle(first) + slope*6/1000*(r.num("temperature_c")-first.num("temperature_c"))
				f.holds(r, math.Abs(middle(r)-law) < 0.11, "the middle lies %.2f V off the line", middle(r)-law)
			}
		}
		fahrenheit := b.where("temperature-compensation", "condition", "in Fahrenheit")[0]
		f.near(fahrenheit, "mv_per_c_per_cell", -2.8*1.8, 0.005)
		f.near(fahrenheit, "reference_c", celsius(80), 0.05)
	}},
	{"alternators give more at speed and cold", []string{"alternator-output"}, func(b book, f *faults) {
		for _, rows := range groups(b.rows("alternator-output"), "state") {
			f.climbing(rows, "alternator_per_min")
			f.climbing(rows, "current_a")
		}
		hot := b.where("alternator-output", "state", "hot")
		for i, cold := range b.where("alternator-output", "state", "cold") {
			f.near(cold, "alternator_per_min", hot[i].num("alternator_per_min"), 0)
			f.holds(cold, cold.num("current_a") > hot[i].num("current_a"), "less than hot")
		}
	}},
	{"the W characteristic runs straight through its points (DIN 41774)", []string{"w-characteristic"}, func(b book, f *faults) {
		rows := b.rows("w-characteristic")
		for i, share := range []float64{1, 0.5, 0.25} {
			f.near(rows[i], "current_over_rated", share, 0)
		}
		f.climbing(rows, "v_per_cell")
		drop := (rows[1].num("v_per_cell") - rows[0].num("v_per_cell")) / 0.5
		f.near(rows[2], "v_per_cell", rows[1].num("v_per_cell")+0.25*drop, 0.0501)
	}},
	{"loads stand at the voltage of a battery or of the mains", []string{"loads-mobile"}, func(b book, f *faults) {
		for _, r := range b.rows("loads-mobile") {
			f.holds(r, r.text("nominal_v") == "12" || r.text("nominal_v") == "120", "at %s V", r.text("nominal_v"))
		}
	}},
	{"no band ends before it begins", bandFiles(), func(b book, f *faults) {
		for _, band := range bands {
			for _, r := range b.rows(band[0]) {
				if low, high := r.num(band[1]), r.num(band[2]); low > high {
					f.add(r, "%s is %v, %s is %v", band[1], low, band[2], high)
				}
			}
		}
	}},
}

// bands are the columns of a table whose first is never above the second.
var bands = [][3]string{
	{"adiabatic-k", "area_over_mm2", "area_to_mm2"},
	{"airflow-altitude", "altitude_from_m", "altitude_to_m"},
	{"battery-efficiency", "min_percent", "max_percent"},
	{"battery-limits", "value_min", "value_max"},
	{"battery-limits", "value_min", "value_typ"},
	{"battery-limits", "value_typ", "value_max"},
	{"bend-radius", "diameter_over_mm", "diameter_to_mm"},
	{"breaker-instantaneous", "no_trip_multiple", "trip_multiple"},
	{"breaking-capacity-by-cranking", "system_from_v", "system_to_v"},
	{"breaking-capacity-by-cranking", "cca_from", "cca_to"},
	{"charge-letters", "min", "max"},
	{"charge-voltages", "v_per_cell_min", "v_per_cell_max"},
	{"converter-efficiency", "min", "max"},
	{"converter-efficiency", "min", "typ"},
	{"converter-efficiency", "typ", "max"},
	{"coulombic-efficiency", "soc_min_percent", "soc_max_percent"},
	{"coulombic-efficiency", "efficiency_min", "efficiency_max"},
	{"coulombic-efficiency", "efficiency_min", "efficiency_typ"},
	{"coulombic-efficiency", "efficiency_typ", "efficiency_max"},
	{"cranking-steps", "current_from_a", "current_to_a"},
	{"cycle-life", "cycles_min", "cycles_max"},
	{"device-derating", "rating_from_a", "rating_to_a"},
	{"device-gates", "rating_from_a", "rating_to_a"},
	{"device-gates", "opening_min_s", "opening_max_s"},
	{"device-ranges", "rating_min_a", "rating_max_a"},
	{"engine-running", "v_min", "v_max"},
	{"gg-gates", "current_min_a", "current_max_a"},
	{"gg-i2t", "i2t_min_a2s", "i2t_max_a2s"},
	{"grouping-factors", "count_from", "count_to"},
	{"insulation-ratings", "min_c", "max_c"},
	{"internal-resistance", "capacity_from_ah", "capacity_to_ah"},
	{"internal-resistance", "min_mohm", "max_mohm"},
	{"load-surge", "value_min", "value_max"},
	{"loads-household", "power_min_w", "power_max_w"},
	{"loads-mobile", "value_min", "value_max"},
	{"locked-rotor", "kva_per_hp_min", "kva_per_hp_max"},
	{"ocv-lead-acid", "value_min", "value_max"},
	{"open-circuit-cold", "ambient_min_c", "ambient_max_c"},
	{"peukert", "exponent_min", "exponent_max"},
	{"regulator-temperature", "v_min", "v_max"},
	{"self-discharge", "value_min", "value_max"},
	{"supply-voltage-codes", "min_v", "max_v"},
	{"temperature-compensation", "low_limit_c", "high_limit_c"},
	{"transients", "min", "max"},
}

func bandFiles() []string {
	var names []string
	for _, band := range bands {
		if !slices.Contains(names, band[0]) {
			names = append(names, band[0])
		}
	}
	return names
}
