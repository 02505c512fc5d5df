package tables

import (
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables/working"
)

type surgeRow struct {
	load, quantity string
	least, most    working.Figure
}

var surgeRows = load("load-surge", func(r *record) surgeRow {
	label := strings.ReplaceAll(r.text("quantity"), "_", " ")
	return surgeRow{r.text("load"), r.text("quantity"), r.figure("value_min", "", r.text("load"), label), r.figure("value_max", "", r.text("load"), label)}
})

// LoadKinds returns the kinds of load for which [SurgeMultiple] and
// [PowerFactor] have a range.
func LoadKinds() []string {
	return surgeKinds().all()
}

var surgeKinds = indexed("load_kind", surgeRows, func(r surgeRow) string { return r.load })

// SurgeMultiple returns the least and the greatest starting power of a kind of
// load, in multiples of its rated one. Most are from memory: the rating plate
// or a measurement comes first.
func SurgeMultiple(kind string) (least, most working.Figure, err error) {
	return surgeOf(kind, "surge_multiple")
}

// PowerFactor returns the least and the greatest power factor of a kind of load.
func PowerFactor(kind string) (least, most working.Figure, err error) {
	return surgeOf(kind, "power_factor")
}

func surgeOf(kind, quantity string) (least, most working.Figure, err error) {
	rows, err := surgeKinds().of(kind)
	if err != nil {
		return least, most, err
	}
	for _, r := range rows {
		if r.quantity == quantity {
			return r.least, r.most, nil
		}
	}
	return least, most, fmt.Errorf("%s of %s: %w", strings.ReplaceAll(quantity, "_", " "), kind, ErrNotListed)
}

type rotorRow struct {
	letter             string
	least, middle, end working.Figure
}

var rotorRows = load("locked-rotor", func(r *record) rotorRow {
	row := rotorRow{letter: r.text("code_letter"), least: r.figure("kva_per_hp_min", "kVA/hp", "letter "+r.text("code_letter"))}
	for column, f := range map[string]*working.Figure{"kva_per_hp_mid": &row.middle, "kva_per_hp_max": &row.end} {
		if r.optional(column).Valid {
			*f = r.figure(column, "kVA/hp", "letter "+r.text("code_letter"))
		}
	}
	return row
})

// LockedRotor returns the apparent power that a motor draws with its rotor
// held, in kVA for each horsepower, by the code letter on its plate: the least,
// the middle and the greatest of the letter. The middle is that of an
// engineering table and stands only up to R; V has no upper end. A figure that
// is not there is the zero one.
func LockedRotor(letter string) (least, middle, most working.Figure, err error) {
	r, err := rotorLetters().first(letter)
	return r.least, r.middle, r.end, err
}

var rotorLetters = indexed("code_letter", rotorRows, func(r rotorRow) string { return r.letter })

// TypicalLoad is what an appliance draws according to a list: a rating plate,
// not an average.
type TypicalLoad struct {
	Name     string         `json:"name"`
	Quantity string         `json:"quantity"`               // "power", "current", ...
	NominalV string         `json:"list_voltage,omitempty"` // of the list, empty where it does not say
	Least    working.Figure `json:"least,omitzero"`
	Greatest working.Figure `json:"greatest,omitzero"`
}

var householdLoads = load("loads-household", func(r *record) TypicalLoad {
	return TypicalLoad{Name: r.text("appliance"), Quantity: "power",
		Least: r.figure("power_min_w", "W", r.text("appliance")), Greatest: r.figure("power_max_w", "W", r.text("appliance"))}
})

var mobileLoads = load("loads-mobile", func(r *record) TypicalLoad {
	l := TypicalLoad{Name: r.text("load"), Quantity: r.text("quantity"), NominalV: r.text("nominal_v")}
	for column, f := range map[string]*working.Figure{"value_min": &l.Least, "value_max": &l.Greatest} {
		if r.optional(column).Valid {
			*f = r.figure(column, r.text("unit"), l.Name)
		}
	}
	return l
})

// TypicalLoads returns every row of the load lists with that name: household
// appliances by their plates, and loads of vehicles and boats. None is
// [ErrNotListed]. They are for a first audit: read the plate, or measure.
func TypicalLoads(name string) ([]TypicalLoad, error) {
	all, err := loadsByName().of(name)
	return slices.Clone(all), err
}

var loadsByName = indexed("typical_load", func() []TypicalLoad { return slices.Concat(householdLoads(), mobileLoads()) },
	func(l TypicalLoad) string { return l.Name })

// TypicalLoadNames returns the names that [TypicalLoads] knows.
func TypicalLoadNames() []string {
	return loadsByName().all()
}
