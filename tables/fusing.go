package tables

import (
	"example.org/extralow/tables/working"
)

type fusingRow struct {
	material string
	figure   working.Figure
}

var fusingConstants = load("preece", func(r *record) fusingRow {
	material := r.text("material")
	return fusingRow{material, r.figure("constant_a_per_in_1_5", "A/in^1.5", material)}
})

var fusingMaterials = indexed("fusing_material", fusingConstants, func(r fusingRow) string { return r.material })

// FusingConstant returns Preece's constant of a material, for a long wire in
// still air: "copper", "aluminium", "tin-lead" ([Names] "fusing_material").
func FusingConstant(material string) (working.Figure, error) {
	row, err := fusingMaterials().first(material)
	return row.figure, err
}
