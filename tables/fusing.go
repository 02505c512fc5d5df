package tables

import (
	"fmt"

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

// FusingConstant returns Preece's constant of a material, for a long wire in
// still air: "copper", "aluminium", "tin-lead".
func FusingConstant(material string) (working.Figure, error) {
	for _, row := range fusingConstants() {
		if row.material == material {
			return row.figure, nil
		}
	}
	return working.Figure{}, fmt.Errorf("fusing constant of %q: %w", material, ErrNotListed)
}
