package tables

import (
	"errors"
	"fmt"
	"strings"
	"sync"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Class is the class of stranding of IEC 60228: its number, in JSON as well.
type Class uint8

const (
	Stranded Class = 2 // for fixed wiring
	Flexible Class = 5 // fine strands
)

// check refuses a class that is none, where the size has one: a gauge has not.
func (c Class) check(s Size) error {
	if s.System() != Metric || c == Stranded || c == Flexible {
		return nil
	}
	return &working.InputError{Field: "class", Got: fmt.Sprint(uint8(c)), Want: "2 (stranded) or 5 (flexible)"}
}

type conductorRow struct {
	class   string
	metal   string
	coating string
	size    Size
	figure  working.Figure
}

// conductors is IEC 60228, tables 2 and 3: the greatest resistance at 20 °C.
var conductors = load("conductor-resistance", func(r *record) conductorRow {
	size := r.text("size")
	return conductorRow{
		r.text("class"), r.text("metal"), r.text("coating"), Size{size},
		r.figure("mohm_per_m", "mΩ/m", "class "+r.text("class"), size),
	}
})

type vehicleRow struct {
	size   Size
	figure working.Figure
}

// vehicleCables is ISO 6722-1, from memory: it names sizes between those of
// IEC 60228.
var vehicleCables = load("iso6722-resistance", func(r *record) vehicleRow {
	return vehicleRow{Size{r.text("size")}, r.figure("mohm_per_m", "mΩ/m", r.text("size"))}
})

type gaugeRow struct {
	size Size
	area working.Figure
}

// gauges holds the copper area of AWG sizes, by the formula of ASTM B258, and
// of SAE sizes: the least that the standard allows, the nominal construction
// where that is not known.
var gauges = sync.OnceValue(func() []gaugeRow {
	rows := awgAreas()
	seen := map[Size]bool{}
	for _, quantity := range []string{"least_area", "nominal_area"} {
		for _, g := range saeGauges() {
			if g.quantity == quantity && !seen[g.size] {
				seen[g.size] = true
				rows = append(rows, gaugeRow{g.size, inMM2(g.figure)})
			}
		}
	}
	return rows
})

func awgAreas() []gaugeRow {
	var rows []gaugeRow
	for _, g := range awgWire() {
		if g.quantity == "area" && g.figure.Unit == "mm²" {
			rows = append(rows, gaugeRow{g.size, g.figure})
		}
	}
	return rows
}

type quantityRow struct {
	size     Size
	quantity string
	figure   working.Figure
}

func quantityOf(r *record) quantityRow {
	size := r.text("size")
	unit := strings.Replace(r.text("unit"), "mm2", "mm²", 1)
	return quantityRow{Size{size}, r.text("quantity"), r.figure("value", unit, size)}
}

var (
	awgWire   = load("awg", quantityOf)
	saeGauges = load("sae-gauge", quantityOf)
)

// circularMil is π/4 × (0.0254 mm)², in mm².
var circularMil = decimal.RequireFromString("0.00050670748")

func inMM2(f working.Figure) working.Figure {
	if f.Unit == "cmil" {
		f.Note = strings.TrimPrefix(f.Note+"; printed as "+f.Value.String()+" cmil", "; ")
		f.Value, f.Unit = f.Value.Mul(circularMil).Round(3), "mm²"
	}
	return f
}

// ColdResistance is a tabulated resistance of a copper conductor and the
// temperature at which the table gives it.
type ColdResistance struct {
	Figure working.Figure  `json:"figure"` // mΩ/m
	AtC    decimal.Decimal `json:"table_resistance_c"`
}

// Resistance returns the tabulated resistance of a plain copper conductor: for
// a metric size the greatest that IEC 60228 tables 2 and 3 allow at 20 °C, for
// an AWG size that of a stranded conductor at 75 °C in NEC chapter 9 table 8.
// Any other size takes the largest metric one with no more copper. Of a gauge
// size the class decides nothing: one that is not in table 8 takes class 5, the
// worse of the two. Tinned copper has up to 3 % more, [TinnedResistance].
func Resistance(s Size, class Class) (ColdResistance, error) {
	return listedResistance(s, class, "plain", plainGauges())
}

// TinnedResistance returns the resistance of a conductor of tinned copper: the
// greatest that IEC 60228 tables 2 and 3 allow at 20 °C for strands with a
// metal coat or, for an AWG size, the coated column of NEC chapter 9 table 8.
// Any other size as in [Resistance].
func TinnedResistance(s Size, class Class) (ColdResistance, error) {
	return listedResistance(s, class, "tinned", coatedGauges())
}

func listedResistance(s Size, class Class, coating string, gauges map[Size]ColdResistance) (ColdResistance, error) {
	if err := errors.Join(s.check(), class.check(s)); err != nil {
		return ColdResistance{}, err
	}
	if r, ok := gauges[s]; ok {
		return r, nil
	}
	if s.System() != Metric {
		class = Flexible
	}
	r, size, err := metricResistance(s, class, coating)
	if err != nil {
		return ColdResistance{}, err
	}
	if size != s {
		r.Figure.Note = fmt.Sprintf("%s is not listed: %s has no more copper", s, size)
	}
	return r, nil
}

func metricResistance(s Size, class Class, coating string) (ColdResistance, Size, error) {
	area, err := s.Area()
	if err != nil {
		return ColdResistance{}, Size{}, err
	}
	var best conductorRow
	number := fmt.Sprint(uint8(class))
	for _, c := range conductors() {
		if c.class != number || c.metal != "copper" || c.coating != coating {
			continue
		}
		a := sizes()[c.size].Value
		if a.LessThanOrEqual(area.Value) && (best.size.IsZero() || a.GreaterThan(sizes()[best.size].Value)) {
			best = c
		}
	}
	if best.size.IsZero() {
		return ColdResistance{}, Size{}, fmt.Errorf("resistance of %s, class %d: %w; IEC 60228 begins at 0.5 mm2", s, class, ErrNotListed)
	}
	return ColdResistance{best.figure, decimal.NewFromInt(20)}, best.size, nil
}

type nec8Row struct {
	quantityRow
	strands string
}

// necTable8 is chapter 9 table 8 of NFPA 70.
var necTable8 = load("nec-table8", func(r *record) nec8Row {
	return nec8Row{quantityOf(r), r.text("strands")}
})

var (
	plainGauges  = sync.OnceValue(func() map[Size]ColdResistance { return gaugeResistance("copper_uncoated_75c") })
	coatedGauges = sync.OnceValue(func() map[Size]ColdResistance { return gaugeResistance("copper_coated_75c") })
)

// gaugeResistance turns a column of that table, its stranded conductors, from
// ohms per 1000 ft into mΩ/m.
func gaugeResistance(column string) map[Size]ColdResistance {
	feet := decimal.RequireFromString("0.3048")
	m := map[Size]ColdResistance{}
	for _, row := range necTable8() {
		if row.strands == "1" || row.quantity != column {
			continue
		}
		f := row.figure
		f.Note = "printed as " + f.Value.String() + " Ω per 1000 ft"
		f.Value, f.Unit = f.Value.DivRound(feet, 4), "mΩ/m"
		m[row.size] = ColdResistance{f, decimal.NewFromInt(75)}
	}
	return m
}

type constantRow struct {
	material, quantity string
	figure             working.Figure
}

var constants = load("material-constants", func(r *record) constantRow {
	return constantRow{r.text("material"), r.text("quantity"), r.figure("value", r.text("unit"), r.text("material"))}
})

var materials = indexed("metal", constants, func(r constantRow) string { return r.material })

var _ = also("material_constant", constants, func(r constantRow) string { return r.quantity })

// Material returns a constant of a material: "copper", "density_20c". Where
// sources differ it returns the first that the data file lists;
// [Constants] returns all.
func Material(material, quantity string) (working.Figure, error) {
	all, err := Constants(material, quantity)
	if err != nil {
		return working.Figure{}, err
	}
	return all[0], nil
}

// Constants returns every figure for a constant of a material: sources differ
// on some of them. [Names] "metal" and "material_constant" list both.
func Constants(material, quantity string) ([]working.Figure, error) {
	rows, err := materials().of(material)
	if err != nil {
		return nil, err
	}
	if rows, err = named(rows, "material_constant", quantity, func(r constantRow) string { return r.quantity }); err != nil {
		return nil, err
	}
	var all []working.Figure
	for _, r := range rows {
		all = append(all, r.figure)
	}
	return all, nil
}
