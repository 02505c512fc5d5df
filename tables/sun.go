package tables

import (
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

type monthRow struct {
	latitude decimal.Decimal
	month    int64
	figure   working.Figure
}

func monthly(column, unit string) func(*record) monthRow {
	return func(r *record) monthRow {
		latitude, month := r.number("latitude_deg"), r.number("month")
		return monthRow{latitude, month.IntPart(), r.figure(column, unit, "latitude "+latitude.String()+"°", "month "+month.String())}
	}
}

var (
	radiationRows = load("fao56-ra", monthly("mj_per_m2_day", "MJ/m²"))
	daylightRows  = load("fao56-daylight", monthly("daylight_h", "h"))
	h0Rows        = load("extraterrestrial-h0", monthly("mj_per_m2_day", "MJ/m²"))
)

// MonthRadiation returns the radiation above the atmosphere on the 15th of a
// month (1 to 12) by FAO-56 table 2.6: latitudes 70 to -70° in steps of 2°,
// north positive. Another latitude is [ErrNotListed].
func MonthRadiation(latitudeDeg decimal.Decimal, month int) (working.Figure, error) {
	return atMonth(radiationRows(), latitudeDeg, month, "radiation above the atmosphere")
}

// MonthDaylight returns the daylight hours in the middle of a month by FAO-56
// table 2.7; latitudes as for [MonthRadiation].
func MonthDaylight(latitudeDeg decimal.Decimal, month int) (working.Figure, error) {
	return atMonth(daylightRows(), latitudeDeg, month, "daylight hours")
}

// MeanDayRadiation returns the daily radiation above the atmosphere, the mean of
// all days of a month (1 to 12), by Duffie and Beckman table 1.10.1 for the nine
// latitudes listed. The day of [MeanDay] alone differs from it by up to 0.7 MJ/m².
// Another latitude is [ErrNotListed].
func MeanDayRadiation(latitudeDeg decimal.Decimal, month int) (working.Figure, error) {
	return atMonth(h0Rows(), latitudeDeg, month, "mean daily radiation above the atmosphere")
}

// RadiationLatitudes returns the latitudes of FAO-56 tables 2.6 and 2.7, from
// north to south.
func RadiationLatitudes() []decimal.Decimal {
	var all []decimal.Decimal
	for _, r := range radiationRows() {
		if r.month == 1 {
			all = append(all, r.latitude)
		}
	}
	slices.SortFunc(all, func(a, b decimal.Decimal) int { return b.Cmp(a) })
	return all
}

func atMonth(rows []monthRow, latitude decimal.Decimal, month int, what string) (working.Figure, error) {
	for _, r := range rows {
		if r.month == int64(month) && r.latitude.Equal(latitude) {
			return r.figure, nil
		}
	}
	return working.Figure{}, fmt.Errorf("%s at latitude %s° in month %d: %w", what, latitude, month, ErrNotListed)
}

type dayRow struct {
	month    int64
	quantity string
	figure   working.Figure
}

var averageDays = load("average-days", func(r *record) dayRow {
	unit := strings.NewReplacer("deg", "°", "d", "").Replace(r.text("unit"))
	return dayRow{r.number("month").IntPart(), r.text("quantity"), r.figure("value", unit, "month "+r.text("month"))}
})

// MeanDay returns the day of the year that stands for a month (1 to 12): the one
// whose radiation above the atmosphere is nearest the month's mean.
func MeanDay(month int) (working.Figure, error) {
	for _, r := range averageDays() {
		if r.month == int64(month) && r.quantity == "day of the year" {
			return r.figure, nil
		}
	}
	return working.Figure{}, &working.InputError{Field: "month", Got: fmt.Sprint(month), Want: "1 to 12"}
}

// Insolation is the radiation on a surface at a place, month by month.
type Insolation struct {
	Place, Country, Data string
	LatitudeDeg          decimal.Decimal
	Tilt                 string             // "horizontal" or the angle as the source gives it
	Months               [12]working.Figure // kWh/m² a day
}

type insolationRow struct {
	place, country, data, tilt string
	latitude                   decimal.Decimal
	month                      decimal.NullDecimal // unset: the year
	figure                     working.Figure
}

var insolationRows = load("insolation", func(r *record) insolationRow {
	row := insolationRow{r.text("place"), r.text("country"), r.text("data"), r.text("tilt"), r.number("latitude_deg"), decimal.NullDecimal{},
		r.figure("kwh_per_m2_day", "kWh/m²", r.text("place"), r.text("tilt"), "month "+r.text("month"))}
	if m, err := decimal.NewFromString(r.text("month")); err == nil {
		row.month = decimal.NewNullDecimal(m)
	}
	return row
})

// Insolations returns every place and surface that the tables know.
func Insolations() []Insolation {
	var all []Insolation
	for _, r := range insolationRows() {
		i := slices.IndexFunc(all, func(a Insolation) bool { return a.Place == r.place && a.Tilt == r.tilt && a.Data == r.data })
		if i < 0 {
			i = len(all)
			all = append(all, Insolation{Place: r.place, Country: r.country, Data: r.data, LatitudeDeg: r.latitude, Tilt: r.tilt})
		}
		if r.month.Valid {
			all[i].Months[r.month.Decimal.IntPart()-1] = r.figure
		}
	}
	return all
}

// InsolationOf returns the radiation on a surface ("horizontal", "lat", ...) at
// a place; the first data set listed serves. Another place is [ErrNotListed].
func InsolationOf(place, tilt string) (Insolation, error) {
	for _, i := range Insolations() {
		if i.Place == place && i.Tilt == tilt {
			return i, nil
		}
	}
	return Insolation{}, fmt.Errorf("insolation of %q, %s: %w", place, tilt, ErrNotListed)
}

type openCircuitRow struct {
	from, to decimal.NullDecimal
	figure   working.Figure
}

var openCircuitRows = load("open-circuit-cold", func(r *record) openCircuitRow {
	low := r.text("ambient_min_c")
	return openCircuitRow{r.optional("ambient_min_c"), r.optional("ambient_max_c"), r.figure("factor", "", "from "+low+" °C")}
})

// OpenCircuitFactor returns the factor on the open-circuit voltage of crystalline
// silicon modules at the lowest ambient expected. The rows have whole degrees: a
// temperature between two takes the colder row. Below -40 °C it is
// [ErrOutside].
func OpenCircuitFactor(lowestC decimal.Decimal) (working.Figure, error) {
	whole := lowestC.Floor()
	for _, r := range openCircuitRows() {
		if whole.GreaterThanOrEqual(r.from.Decimal) {
			return r.figure, nil
		}
	}
	return working.Figure{}, fmt.Errorf("open-circuit voltage at %s °C: %w; the table ends at -40 °C", lowestC, ErrOutside)
}

type parameterRow struct {
	model, mounting, parameter string
	figure                     working.Figure
}

var cellTemperatures = load("cell-temperature", func(r *record) parameterRow {
	unit := strings.NewReplacer("ratio", "", "C", "°C", "W/m2", "W/m²").Replace(r.text("unit"))
	label := strings.Trim(r.text("mounting")+", "+r.text("parameter"), ", ")
	return parameterRow{r.text("model"), r.text("mounting"), r.text("parameter"), r.figure("value", unit, r.text("model"), label)}
})

// CellTemperature returns a parameter of a cell temperature model for a mounting:
// "SAPM", "open rack glass/glass", "a". Another is [ErrNotListed].
func CellTemperature(model, mounting, parameter string) (working.Figure, error) {
	var have []string
	for _, r := range cellTemperatures() {
		if r.model != model {
			continue
		}
		if r.mounting == mounting && r.parameter == parameter {
			return r.figure, nil
		}
		if !slices.Contains(have, r.mounting) {
			have = append(have, r.mounting)
		}
	}
	return working.Figure{}, fmt.Errorf("%s of %q for %q: %w; it has %s", parameter, model, mounting, ErrNotListed, strings.Join(have, "; "))
}

// Loss is one loss of a photovoltaic system.
type Loss struct {
	Name    string
	Percent working.Figure
}

var systemLosses = load("system-losses", func(r *record) Loss {
	return Loss{r.text("loss"), r.figure("percent", "%", r.text("loss"))}
})

// SystemLosses returns the usual losses of a photovoltaic system, each in percent
// of what the ones before leave.
func SystemLosses() []Loss {
	return slices.DeleteFunc(slices.Clone(systemLosses()), func(l Loss) bool { return l.Name == "total" })
}

type solarRule struct {
	rule   string
	figure working.Figure
}

var solarRules = load("solar-current-rules", func(r *record) solarRule {
	if !r.optional("factor").Valid {
		r.source()
		return solarRule{rule: r.text("rule")}
	}
	return solarRule{r.text("rule"), r.figure("factor", "", r.text("rule"))}
})

// SolarCurrentFactor returns the factor of a rule for photovoltaic circuits:
// "greatest circuit current" or "conductor and overcurrent device".
func SolarCurrentFactor(rule string) (working.Figure, error) {
	for _, r := range solarRules() {
		if r.rule == rule && r.figure.Stated() {
			return r.figure, nil
		}
	}
	return working.Figure{}, fmt.Errorf("factor for %q: %w", rule, ErrNotListed)
}
