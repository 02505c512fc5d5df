package tables

import (
	"math"
	"strings"
)

// monthDays holds the days of the months.
var monthDays = []float64{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

// dayRadiation is the radiation above the atmosphere of one day in MJ/m² for a
// solar constant in W/m², the inverse square of the distance and the
// declination, and the hour angle of sunset.
func dayRadiation(latitude, constant, distance, declination float64) (radiation, sunset float64) {
	phi := latitude * math.Pi / 180
	sunset = math.Acos(math.Max(-1, math.Min(1, -math.Tan(phi)*math.Tan(declination))))
	radiation = 86400 / math.Pi * constant / 1e6 * distance *
		(sunset*math.Sin(phi)*math.Sin(declination) + math.Cos(phi)*math.Cos(declination)*math.Sin(sunset))
	return radiation, sunset
}

// fao56 is the day that annex 2 of FAO-56 was computed for, the 15th of the
// month: equations 21 and 34 with 0.0172 for 2π ÷ 365 and 37.6 for 24 × 60 ÷ π ×
// 0.0820, as in the report that came before it (Smith 1991, from memory). With
// the constants that FAO-56 prints, cells differ by up to 0.14 MJ/m² and 0.08 h.
func fao56(r row) (radiation, daylight float64) {
	day := 15.0
	for m := range int(r.num("month")) - 1 {
		day += monthDays[m]
	}
	angle := 0.0172 * day
	radiation, sunset := dayRadiation(r.num("latitude_deg"), 37.6*math.Pi/86400*1e6, 1+0.033*math.Cos(angle), 0.409*math.Sin(angle-1.39))
	return radiation, 24 / math.Pi * sunset
}

// cooper is the declination of Cooper (1969), in radians.
func cooper(day float64) float64 {
	return 23.45 * math.Pi / 180 * math.Sin(2*math.Pi*(284+day)/365)
}

// sunGuards hold the tables of the sun.
var sunGuards = []guard{
	{"FAO-56 table 2.6 is equation 21 on the 15th, to the last digit", []string{"fao56-ra"}, func(b book, f *faults) {
		for _, r := range b.rows("fao56-ra") {
			if !calendar(r, f) {
				continue
			}
			radiation, _ := fao56(r)
			f.near(r, "mj_per_m2_day", radiation, 0.05)
		}
	}},
	{"FAO-56 table 2.7 is equation 34 on the 15th, to the last digit", []string{"fao56-daylight"}, func(b book, f *faults) {
		for _, r := range b.rows("fao56-daylight") {
			if !calendar(r, f) {
				continue
			}
			_, daylight := fao56(r)
			f.near(r, "daylight_h", daylight, 0.05)
		}
	}},
	{"Duffie and Beckman table 1.10.1 is the mean of all days of the month, to the last digit", []string{"extraterrestrial-h0"}, func(b book, f *faults) {
		for _, r := range b.rows("extraterrestrial-h0") {
			month := int(r.num("month"))
			if month < 1 || month > 12 {
				f.add(r, "no such month")
				continue
			}
			first, sum := 1.0, 0.0
			for _, days := range monthDays[:month-1] {
				first += days
			}
			for day := range int(monthDays[month-1]) {
				n := first + float64(day)
				radiation, _ := dayRadiation(r.num("latitude_deg"), 1367, 1+0.033*math.Cos(2*math.Pi*n/365), cooper(n))
				sum += radiation
			}
			f.near(r, "mj_per_m2_day", sum/monthDays[month-1], 0.0502)
		}
	}},
	{"the mean day lies in its month and has the declination of Cooper", []string{"average-days"}, func(b book, f *faults) {
		day := map[string]row{}
		for _, r := range b.where("average-days", "quantity", "day of the year") {
			day[r.text("month")] = r
			last := 0.0
			for m := range int(r.num("month")) {
				last += monthDays[m%12]
			}
			f.holds(r, r.num("value") <= last-12 && r.num("value") >= last-21, "not in the middle of the month")
		}
		for _, r := range b.where("average-days", "quantity", "declination") {
			n, ok := day[r.text("month")]
			f.holds(r, ok, "no day for the month")
			if ok {
				f.near(r, "value", cooper(n.num("value"))*180/math.Pi, 0.05)
			}
		}
	}},
	{"radiation on the ground is 0.19 to 0.77 of that above the air; the year is the mean", []string{"insolation"}, func(b book, f *faults) {
		for _, rows := range groups(b.rows("insolation"), "place", "tilt", "data") {
			total, months, year := 0.0, 0, -1
			for i, r := range rows {
				f.near(r, "latitude_deg", rows[0].num("latitude_deg"), 0)
				if r.text("month") == "year" {
					year = i
					continue
				}
				month := int(r.num("month"))
				if month != months+1 || month > 12 {
					f.add(r, "month %d after %d", month, months)
					return
				}
				months++
				total += r.num("kwh_per_m2_day") * monthDays[month-1]
				if r.text("tilt") == "horizontal" {
					day := 15.0
					for _, days := range monthDays[:month-1] {
						day += days
					}
					above, _ := dayRadiation(r.num("latitude_deg"), 1367, 1+0.033*math.Cos(2*math.Pi*day/365), cooper(day))
					if above > 2 { // else the sun hardly rises
						f.band(r, "kwh_per_m2_day", above/3.6, 0.185, 0.775)
					}
				}
			}
			if year >= 0 && months == 12 {
				f.near(rows[year], "kwh_per_m2_day", total/365, 0.065)
			}
		}
	}},
	{"Spencer's series is the sun of the almanac", []string{"solar-geometry"}, func(b book, f *faults) {
		series := func(quantity string, day float64) float64 {
			angle, sum := 2*math.Pi*(day-1)/365, 0.0
			for _, r := range b.where("solar-geometry", "law", "Spencer", "quantity", quantity) {
				term := map[string]float64{
					"1": 1, "cos B": math.Cos(angle), "sin B": math.Sin(angle), "cos 2B": math.Cos(2 * angle), "sin 2B": math.Sin(2 * angle),
					"cos 3B": math.Cos(3 * angle), "sin 3B": math.Sin(3 * angle),
				}[r.text("term")]
				sum += term * r.num("value")
			}
			return sum
		}
		at := b.where("solar-geometry", "law", "Spencer")[0]
		minutes := b.where("solar-geometry", "law", "Spencer", "quantity", "equation of time", "term", "multiplier")[0]
		f.rounded(minutes, "value", 720/math.Pi)
		for day := 1.0; day <= 365; day += 7 {
			declination, distance, equation := almanac(day)
			f.holds(at, math.Abs(series("declination", day)-declination) < 0.0005, "day %v: declination %.5f, almanac %.5f", day, series("declination", day), declination)
			f.holds(at, math.Abs(series("eccentricity factor", day)-distance) < 0.001, "day %v: factor %.5f, almanac %.5f", day, series("eccentricity factor", day), distance)
			of := minutes.num("value") * series("equation of time", day)
			f.holds(at, math.Abs(of-equation) < 0.65, "day %v: equation of time %.3f min, almanac %.3f", day, of, equation)
		}
		f.near(b.where("solar-geometry", "law", "Cooper")[0], "value", 23.439, 0.02) // the slope of the ecliptic
	}},
	{"factors of the cold are 1 + 0.004 (25 − T), less below −25 °C; the rows leave no gap", []string{"open-circuit-cold"}, func(b book, f *faults) {
		rows := b.rows("open-circuit-cold")
		for i, r := range rows {
			want, within := 1+0.004*(25-r.num("ambient_min_c")), 0.0001
			if r.num("ambient_min_c") < -25 {
				within = 0.0101
			}
			f.near(r, "factor", want, within)
			f.near(r, "ambient_min_c", float64(25-5*i), 0)
			if i > 0 {
				f.near(r, "ambient_max_c", rows[i-1].num("ambient_min_c")-1, 0)
			}
		}
		f.climbing(rows, "factor")
	}},
	{"the losses make their total, each on what the one before leaves", []string{"system-losses"}, func(b book, f *faults) {
		left := 1.0
		for _, r := range b.rows("system-losses") {
			if r.text("loss") == "total" {
				f.rounded(r, "percent", 100*(1-left))
				continue
			}
			left *= 1 - r.num("percent")/100
		}
	}},
	{"1.25 twice is 1.56; a kilowatt-hour is 3.6 MJ and 86 langley", []string{"solar-current-rules", "sizing-defaults"}, func(b book, f *faults) {
		rules := b.rows("solar-current-rules")
		f.near(rules[0], "factor", 1.25, 0)
		f.near(rules[1], "factor", 1.25, 0)
		f.near(rules[2], "factor", 1.25*1.25, 0.005)
		units := b.where("sizing-defaults", "quantity", "1 kWh/m2")
		f.near(units[0], "value", 3.6, 0)
		f.near(units[1], "value", 3600/41.84, 0.12) // the worksheet prints 85.93
	}},
	{"a wider gap cools a module; more wind never warms it", []string{"cell-temperature"}, func(b book, f *faults) {
		adders := b.where("cell-temperature", "parameter", "adder")
		f.sinking(by(adders, func(r row) float64 { return -r.num("value") }), "value")
		for _, r := range b.rows("cell-temperature") {
			if p := r.text("parameter"); p == "b" || p == "a" {
				f.holds(r, r.num("value") < 0, "%s is not negative", p)
			}
		}
		// a closed back is hotter than an open one, at 1000 W/m² in still air
		at := func(mounting, parameter string) float64 {
			return b.where("cell-temperature", "model", "SAPM", "mounting", mounting, "parameter", parameter)[0].num("value")
		}
		for _, mounting := range []string{"open rack glass/glass", "close mount glass/glass", "open rack glass/polymer", "insulated back glass/polymer"} {
			r := b.where("cell-temperature", "mounting", mounting)[0]
			low, high := 22.0, 36.0
			if !strings.HasPrefix(mounting, "open") {
				low, high = 45, 63
			}
			rise := 1000*math.Exp(at(mounting, "a")+at(mounting, "b")) + at(mounting, "dT")
			f.holds(r, rise > low && rise < high, "%s: %.1f K above the air in 1 m/s", mounting, rise)
		}
	}},
}

// calendar holds the month and the latitude of a cell to the table's grid.
func calendar(r row, f *faults) bool {
	lines := len(r.sheet.rows)
	months := 12
	ok := r.text("month") == []string{"1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12"}[(r.line-2)%months]
	ok = ok && r.num("latitude_deg") == float64(70-2*((r.line-2)/months)) && lines == 71*months
	f.holds(r, ok, "out of the grid")
	return ok
}

// almanac is the sun at noon of a day in a mean year, by the low-precision
// formulas of the Astronomical Almanac (from memory), good to 0.0003 rad. The
// year of Spencer lies 0.375 day before that of 2000. It gives the declination in radians, the
// inverse square of the distance and the equation of time in minutes.
func almanac(day float64) (declination, distance, equation float64) {
	const radian = math.Pi / 180
	n := day - 1 - 0.375
	longitude := 280.46 + 0.9856474*n
	anomaly := (357.528 + 0.9856003*n) * radian
	ecliptic := (longitude + 1.915*math.Sin(anomaly) + 0.020*math.Sin(2*anomaly)) * radian
	slope := 23.439 * radian
	declination = math.Asin(math.Sin(slope) * math.Sin(ecliptic))
	ascension := math.Atan2(math.Cos(slope)*math.Sin(ecliptic), math.Cos(ecliptic))
	distance = math.Pow(1.00014-0.01671*math.Cos(anomaly)-0.00014*math.Cos(2*anomaly), -2)
	turn := math.Mod(longitude-ascension/radian, 360)
	turn -= 360 * math.Round(turn/360)
	return declination, distance, 4 * turn
}
