package wire

import (
	"errors"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Resistance is that of one conductor at a temperature.
type Resistance struct {
	MilliohmPerM decimal.Decimal `json:"resistance_mohm_per_m"`
	Working      working.Working `json:"working"`
}

// hottest is as far as the resistance of copper is reckoned.
const hottest = 250

// Resistance returns the resistance of one metre of the copper conductor at a
// temperature:
//
//	R_T = R_ref × (T_0 + T_c) ÷ (T_0 + T_ref)   [mΩ/m], to 0.0001
//
// R_ref is the greatest that IEC 60228 tables 2 and 3 allow at 20 °C or, for an
// AWG size, that of NEC chapter 9 table 8 at 75 °C. A size in neither takes the
// largest metric one with no more copper. T_0 is 234.5 °C for copper (IEC
// 60028). The temperature runs from -60 to 250 °C. It begins a working of its own:
// at the temperature of a current ask [Cable.Loop] or [Cable.Drop], which know how
// that was found.
func (c Conductor) Resistance(conductorC decimal.Decimal) (Resistance, error) {
	if err := errors.Join(c.checkKind(), working.Between("conductor_c", conductorC, -60, hottest)); err != nil {
		return Resistance{}, err
	}
	return c.resistance(conductorC, nil)
}

// resistance goes on from the lines that gave the temperature.
func (c Conductor) resistance(conductorC decimal.Decimal, from working.Working) (Resistance, error) {
	look := tables.TinnedResistance
	if c.PlainCopper {
		look = tables.Resistance
	}
	listed, err := look(c.Size, c.Class)
	if err != nil {
		return Resistance{}, err
	}
	w := working.Start(from)
	w.LookUp("R_ref", listed.Figure)
	w.LookUp("T_ref", working.Figure{Value: listed.AtC, Unit: "°C", Source: listed.Figure.Source.Document()})
	w.Given("T_c", conductorC)
	r, err := warmed(&w, "copper", "R_ref", "T_ref")
	if err != nil {
		return Resistance{}, err
	}
	return Resistance{MilliohmPerM: r, Working: slices.Clip(w)}, nil
}
