package charge

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Weather is what a module stands in.
type Weather struct {
	IrradianceWPerM2 decimal.Decimal `json:"irradiance_w_per_m2"` // 0 to 1500
	AmbientC         decimal.Decimal `json:"ambient_c"`           // -60 to 60
	WindMPerS        decimal.Decimal `json:"wind_m_per_s"`        // 0 to 60
}

// Cell is the temperature of a module's cells, or of its back where the law says
// so.
type Cell struct {
	CellC   decimal.Decimal `json:"cell_c"`
	Working working.Working `json:"working"`
}

// CellByNOCT returns the cells' temperature by the nominal operating cell
// temperature of the data sheet:
//
//	T_cell = T_a + (T_N + ΔT_N − 20) ÷ 800 × G   [°C], to 0.01
//
// ΔT_N is added for the gap under the module ("0 to 0.5 in gap": a module flush
// on a vehicle's roof); on an "open rack" it is nought. It takes no wind but that
// of the rating, 1 m/s. Nominal temperature 20 to 80 °C, irradiance 0 to 1500
// W/m², ambient -60 to 60 °C. Source: PVPMC modelling guide.
func (x Weather) CellByNOCT(nominalC decimal.Decimal, gap string) (Cell, error) {
	if err := errors.Join(x.check(), working.Between("nominal_cell_c", nominalC, 20, 80)); err != nil {
		return Cell{}, err
	}
	var w working.Working
	g, t := x.begin(&w)
	rise, formula := w.Given("T_N", nominalC), "T_a + (T_N − 20) ÷ 800 × G"
	if gap != openRack {
		adder, err := tables.CellTemperature("NOCT stand-off adder", gap, "adder")
		if err != nil {
			return Cell{}, unlisted("gap", gap, err)
		}
		rise, formula = rise.Add(w.LookUp("ΔT_N", adder)), "T_a + (T_N + ΔT_N − 20) ÷ 800 × G"
	}
	above := rise.Sub(decimal.NewFromInt(20)).Mul(g).DivRound(decimal.NewFromInt(800), 16)
	c := w.Calc("T_cell", formula, t.Add(above).Round(2), cite.PVPMC.At("NOCT", cite.Published))
	return Cell{c, slices.Clip(w)}, nil
}

// openRack is a module with air all around it.
const openRack = "open rack"

// unlisted is the error of a word that a table does not have.
func unlisted(field, word string, err error) error {
	if !errors.Is(err, tables.ErrNotListed) {
		return err
	}
	return &working.InputError{Field: field, Got: fmt.Sprintf("%q", word), Want: err.Error()}
}

// CellByMounting returns the cells' temperature by the mounting and the wind:
//
//	T_mod  = T_a + G exp(a_m + b_m v_w)    [°C], to 0.0001
//	T_cell = T_mod + G ÷ 1000 × ΔT_m       [°C]
//
// The mounting is one of the tables' ("insulated back glass/polymer" is nearest
// to a vehicle's roof). Wind 0 to 60 m/s, else as for [Weather.CellByNOCT].
// Source: Sandia array performance model.
func (x Weather) CellByMounting(mounting string) (Cell, error) {
	if err := x.check(); err != nil {
		return Cell{}, err
	}
	var w working.Working
	g, t := x.begin(&w)
	v := w.Given("v_w", x.WindMPerS)
	var constants [3]decimal.Decimal
	for i, c := range []struct{ parameter, symbol string }{{"a", "a_m"}, {"b", "b_m"}, {"dT", "ΔT_m"}} {
		f, err := tables.CellTemperature("SAPM", mounting, c.parameter)
		if err != nil {
			return Cell{}, unlisted("mounting", mounting, err)
		}
		constants[i] = w.LookUp(c.symbol, f)
	}
	law := cite.SandiaArray.At("cell temperature", cite.SecondHand)
	var out exit
	exponent := constants[0].Add(constants[1].Mul(v)).InexactFloat64()
	back := w.Calc("T_mod", "T_a + G × exp(a_m + b_m × v_w)", out.fixed(t.InexactFloat64()+g.InexactFloat64()*math.Exp(exponent), 4), law)
	c := w.Calc("T_cell", "T_mod + G ÷ 1000 × ΔT_m", back.Add(g.Mul(constants[2]).Shift(-3)), law)
	return Cell{c, slices.Clip(w)}, out.err
}

// ModuleByWind returns the temperature of the module's back by two heat-loss
// factors:
//
//	T_mod = T_a + G ÷ (u_0 + u_1 v_w)   [°C], to 0.0001
//
// Factors above 0 to 100 W/m²/K and 0 to 50 W s/m³/K; an open rack has 25 and
// 6.84. Source: Faiman 2008.
func (x Weather) ModuleByWind(u0, u1 decimal.Decimal) (Cell, error) {
	err := errors.Join(x.check(), working.Above("still_loss", u0, 0, 100), working.Between("wind_loss", u1, 0, 50))
	if err != nil {
		return Cell{}, err
	}
	var w working.Working
	g, t := x.begin(&w)
	v, a, b := w.Given("v_w", x.WindMPerS), w.Given("u_0", u0), w.Given("u_1", u1)
	c := w.Calc("T_mod", "T_a + G ÷ (u_0 + u_1 × v_w)", t.Add(g.DivRound(a.Add(b.Mul(v)), 16)).Round(4), cite.Faiman.At("cell temperature", cite.SecondHand))
	return Cell{c, slices.Clip(w)}, nil
}

// CellByHeatLoss returns the cells' temperature by the heat that the module does
// not turn into current:
//
//	T_cell = T_a + G α_m (1 − η_m) ÷ (u_0 + u_1 v_w)   [°C], to 0.0001
//
// Absorptance above 0 to 1 (0.9 usual), module efficiency 0 to 1, factors as for
// [Weather.ModuleByWind]: 29 W/m²/K free standing, 15 with its back insulated, the
// nearest to a vehicle's roof. Source: pvlib-python.
func (x Weather) CellByHeatLoss(u0, u1, absorptance, efficiency decimal.Decimal) (Cell, error) {
	err := errors.Join(
		x.check(), working.Above("still_loss", u0, 0, 100), working.Between("wind_loss", u1, 0, 50),
		working.Above("absorptance", absorptance, 0, 1), working.Between("module_efficiency", efficiency, 0, 1),
	)
	if err != nil {
		return Cell{}, err
	}
	var w working.Working
	g, t := x.begin(&w)
	v, a, b := w.Given("v_w", x.WindMPerS), w.Given("u_0", u0), w.Given("u_1", u1)
	heat := g.Mul(w.Given("α_m", absorptance)).Mul(one.Sub(w.Given("η_m", efficiency)))
	c := w.Calc("T_cell", "T_a + G × α_m × (1 − η_m) ÷ (u_0 + u_1 × v_w)", t.Add(heat.DivRound(a.Add(b.Mul(v)), 16)).Round(4), cite.PVLib.At("cell temperature", cite.Published))
	return Cell{c, slices.Clip(w)}, nil
}

func (x Weather) begin(w *working.Working) (irradiance, ambient decimal.Decimal) {
	return w.Given("G", x.IrradianceWPerM2), w.Given("T_a", x.AmbientC)
}

func (x Weather) check() error {
	return errors.Join(
		working.Between("irradiance_w_per_m2", x.IrradianceWPerM2, 0, 1500),
		working.Between("ambient_c", x.AmbientC, -60, 60), working.Between("wind_m_per_s", x.WindMPerS, 0, 60),
	)
}
