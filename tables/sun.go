package tables

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"

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
	if err := errors.Join(working.Between("latitude_deg", latitude, -90, 90), inYear(month)); err != nil {
		return working.Figure{}, err
	}
	for _, r := range rows {
		if r.month == int64(month) && r.latitude.Equal(latitude) {
			return r.figure, nil
		}
	}
	return working.Figure{}, fmt.Errorf("%s at latitude %s° in month %d: %w", what, latitude, month, ErrNotListed)
}

func inYear(month int) error {
	return working.Between("month", decimal.NewFromInt(int64(month)), 1, 12)
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
	return working.Figure{}, inYear(month)
}

// Insolation is the radiation on a surface at a place, month by month.
type Insolation struct {
	Place       string             `json:"place"`
	Country     string             `json:"country"`
	Data        string             `json:"data"`
	LatitudeDeg decimal.Decimal    `json:"latitude_deg"`
	Tilt        string             `json:"tilt"`   // "horizontal" or the angle as the source gives it
	Months      [12]working.Figure `json:"months"` // kWh/m² a day
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
func Insolations() []Insolation { return slices.Clone(insolations()) }

var insolations = sync.OnceValue(func() []Insolation {
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
})

var places = indexed("place", insolations, func(i Insolation) string { return i.Place })

// Places returns the names of the places that [InsolationOf] has.
func Places() []string { return places().all() }

// InsolationOf returns the radiation on a surface ("horizontal", "lat", ...) at
// a place (see [Places]); the first data set listed serves. A surface that the
// place has no row for is refused with those that it has.
func InsolationOf(place, tilt string) (Insolation, error) {
	all, err := places().of(place)
	if err != nil {
		return Insolation{}, err
	}
	var tilts []string
	for i := range all {
		if all[i].Tilt == tilt {
			return all[i], nil
		}
		tilts = append(tilts, all[i].Tilt)
	}
	return Insolation{}, unlisted("tilt", tilt, unique(tilts))
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
	if err := inKelvins("lowest_c", lowestC); err != nil {
		return working.Figure{}, err
	}
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
// "SAPM", "open rack glass/glass", "a". [Names] "cell_temperature_model", "mounting"
// and "parameter" list them.
func CellTemperature(model, mounting, parameter string) (working.Figure, error) {
	rows, err := cellModels().of(model)
	if err != nil {
		return working.Figure{}, err
	}
	if rows, err = named(rows, "mounting", mounting, func(r parameterRow) string { return r.mounting }); err != nil {
		return working.Figure{}, err
	}
	if rows, err = named(rows, "parameter", parameter, func(r parameterRow) string { return r.parameter }); err != nil {
		return working.Figure{}, err
	}
	return rows[0].figure, nil
}

var cellModels = indexed("cell_temperature_model", cellTemperatures, func(r parameterRow) string { return r.model })

var _ = also("mounting", cellTemperatures, func(r parameterRow) string { return r.mounting })
var _ = also("parameter", cellTemperatures, func(r parameterRow) string { return r.parameter })
var _ = also("tilt", insolations, func(i Insolation) string { return i.Tilt })

// SystemLoss is one loss of a photovoltaic system.
type SystemLoss struct {
	Name    string         `json:"name"`
	Percent working.Figure `json:"loss"`
}

var systemLosses = load("system-losses", func(r *record) SystemLoss {
	return SystemLoss{r.text("loss"), r.figure("percent", "%", r.text("loss"))}
})

// SystemLosses returns the usual losses of a photovoltaic system, each in percent
// of what the ones before leave.
func SystemLosses() []SystemLoss {
	return slices.DeleteFunc(slices.Clone(systemLosses()), func(l SystemLoss) bool { return l.Name == "total" })
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
	r, err := solarRuleNames().first(rule)
	return r.figure, err
}

var solarRuleNames = indexed("solar_rule", where(solarRules, func(r solarRule) bool { return r.figure.Stated() }), func(r solarRule) string { return r.rule })
