package tables

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables/working"
)

type gasRow struct {
	chemistry, condition, charge, quantity string
	figure                                 working.Figure
}

var stationaryGas = load("gas-stationary", func(r *record) gasRow {
	f := r.figure("value", gasUnit(r.text("unit")), r.text("chemistry"), r.text("charge"))
	f.Note = r.text("note")
	return gasRow{r.text("chemistry"), r.text("condition"), r.text("charge"), r.text("quantity"), f}
})

func gasUnit(text string) string { return strings.Replace(text, "mA per Ah", "mA/Ah", 1) }

var gasCharges = indexed("charge", stationaryGas, func(r gasRow) string { return r.charge })

// GasCurrent returns the current that makes gas in a battery on "float" or "boost"
// charge, in mA for each Ah, safety factor included: IEC 62485-2 table 1. It
// lists flooded lead-acid of little antimony, sealed lead-acid and vented
// nickel-cadmium; a lithium battery makes no gas in service and is [ErrNotListed].
func GasCurrent(chemistry Chemistry, charge string) (working.Figure, error) {
	if _, err := gasCharges().of(charge); err != nil {
		return working.Figure{}, errors.Join(chemistry.Check("chemistry"), err)
	}
	rows, err := chemistryRows(stationaryGas(), chemistry, func(r gasRow, name string) bool {
		return r.chemistry == name && r.charge == charge && r.quantity == "gas_current"
	})
	if err != nil {
		return working.Figure{}, fmt.Errorf("gas current of %s on %s: %w", chemistry, charge, err)
	}
	return rows[0].figure, nil
}

type tractionRow struct {
	charger, chemistry string
	figure             working.Figure
}

var tractionGas = load("gas-traction", func(r *record) tractionRow {
	return tractionRow{r.text("charger"), r.text("chemistry"), r.figure("gas_a_per_100ah", "A/100Ah", r.text("chemistry"), r.text("charger"))}
})

var tractionChargers = indexed("charger", tractionGas, func(r tractionRow) string { return r.charger })

// TractionGasCurrent returns the current that makes gas at the end of a charge,
// in A for each 100 Ah, by the characteristic of the charger ([Names] "charger"):
// IEC 62485-3.
func TractionGasCurrent(chemistry Chemistry, charger string) (working.Figure, error) {
	rows, err := tractionChargers().of(charger)
	if err := errors.Join(chemistry.Check("chemistry"), err); err != nil {
		return working.Figure{}, err
	}
	if rows, err = chemistryRows(rows, chemistry, func(r tractionRow, name string) bool { return r.chemistry == name }); err != nil {
		return working.Figure{}, fmt.Errorf("gas current of %s: %w", chemistry, err)
	}
	return rows[0].figure, nil
}

type namedFigure struct {
	quantity, condition string
	figure              working.Figure
}

var gasConstants = load("gas-constants", func(r *record) namedFigure {
	f := r.figure("value", gasConstantUnit(r.text("unit")), strings.ReplaceAll(r.text("quantity"), "_", " "))
	f.Note = r.text("note")
	return namedFigure{r.text("quantity"), r.text("condition"), f}
})

func gasConstantUnit(text string) string {
	return strings.NewReplacer("m3", "m³", "cm2", "cm²", "mm2", "mm²", "percent by volume", "%", "ratio", "", " per ", "/").Replace(text)
}

// GasConstants returns what sources give for a constant of hydrogen and its
// air: "flow_constant" (m³ for each Ah and cell), "opening_area_per_flow" (cm²
// for each m³/h), "hydrogen_limit" (% by volume), "hydrogen_per_ah". The first
// is that of IEC 62485-2 where it has one; the others differ and stay visible.
func GasConstants(quantity string) ([]working.Figure, error) {
	rows, err := gasQuantities().of(quantity)
	var all []working.Figure
	for _, r := range rows {
		all = append(all, r.figure)
	}
	return all, err
}

var gasQuantities = indexed("gas_constant", gasConstants, func(r namedFigure) string { return r.quantity })

type areaRow struct {
	position, face string
	figure         working.Figure
}

var enclosureAreas = load("enclosure-area", func(r *record) areaRow {
	return areaRow{r.text("position"), r.text("face"), r.figure("factor", "", r.text("position"), r.text("face"))}
})

// CoolingFactors are the factors of the three pairs of faces of a box, by how
// it stands.
type CoolingFactors struct {
	HeightWidth working.Figure `json:"height_width"`
	HeightDepth working.Figure `json:"height_depth"`
	WidthDepth  working.Figure `json:"width_depth"`
}

// CoolingFactorsOf returns the factors of a position ("free on all sides",
// "single, on a wall" ...): VDE 0660-500, the effective cooling area.
func CoolingFactorsOf(position string) (CoolingFactors, error) {
	rows, err := positions().of(position)
	if err != nil {
		return CoolingFactors{}, err
	}
	var f CoolingFactors
	for _, r := range rows {
		switch r.face {
		case "height x width":
			f.HeightWidth = r.figure
		case "height x depth":
			f.HeightDepth = r.figure
		case "width x depth":
			f.WidthDepth = r.figure
		}
	}
	return f, nil
}

var positions = indexed("position", enclosureAreas, func(r areaRow) string { return r.position })

var enclosureHeat = load("enclosure-heat", func(r *record) namedFigure {
	unit := strings.NewReplacer("W per m2 K", "W/(m² K)", "J per kg K", "J/(kg K)", "m3", "m³").Replace(r.text("unit"))
	return namedFigure{r.text("quantity"), r.text("condition"), r.figure("value", unit, strings.TrimSuffix(strings.ReplaceAll(r.text("quantity"), "_", " ")+", "+r.text("condition"), ", "))}
})

// HeatTransfer returns the least heat that a wall of a material lets through,
// in W for each m² and K: "painted sheet steel", "aluminium", "plastic". Sources
// differ; the least is on the safe side.
func HeatTransfer(material string) (working.Figure, error) {
	rows, err := walls().of(material)
	if err != nil {
		return working.Figure{}, err
	}
	return slices.MinFunc(rows, func(a, b namedFigure) int { return a.figure.Value.Cmp(b.figure.Value) }).figure, nil
}

var walls = indexed("material", where(enclosureHeat, func(r namedFigure) bool {
	return r.quantity == "heat_transfer" && !strings.Contains(r.figure.Unit, "F")
}), func(r namedFigure) string { return r.condition })

// AirConstant returns a constant of dry air at sea level: "air_density" (kg/m³,
// for design) or "air_specific_heat" (J/(kg K)).
func AirConstant(quantity string) (working.Figure, error) {
	all, err := airQuantities().of(quantity)
	if err != nil {
		return working.Figure{}, err
	}
	return all[len(all)-1].figure, nil
}

var airQuantities = indexed("air_constant", where(enclosureHeat, func(r namedFigure) bool { return strings.HasPrefix(r.quantity, "air_") }),
	func(r namedFigure) string { return r.quantity })

type installationRow struct {
	id     string
	figure working.Figure
	has    bool
}

var installationRows = load("battery-installation", func(r *record) installationRow {
	row := installationRow{id: r.text("id"), has: r.optional("value").Valid}
	if row.has {
		row.figure = r.figure("value", strings.NewReplacer("mm2", "mm²", "ratio", "", "deg", "°").Replace(r.text("unit")), r.text("requirement"))
	}
	return row
})

// InstallationRule returns one figure of a code for the place of a battery by
// its id in the table: "cfr33-pull", "iso10133-pull-weight", "nec551-vent-area".
func InstallationRule(id string) (working.Figure, error) {
	r, err := installationRules().first(id)
	return r.figure, err
}

var installationRules = indexed("installation_rule", where(installationRows, func(r installationRow) bool { return r.has }),
	func(r installationRow) string { return r.id })
