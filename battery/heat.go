package battery

import (
	"errors"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Box is a closed box or bay that holds what makes heat.
type Box struct {
	HeightM  decimal.Decimal     `json:"box_height_m"`
	WidthM   decimal.Decimal     `json:"box_width_m"`
	DepthM   decimal.Decimal     `json:"box_depth_m"`
	Position string              `json:"position"`       // [tables.CoolingFactorsOf]: "free on all sides" ...
	Material string              `json:"material"`       // [tables.HeatTransfer]; in place of WallW
	WallW    decimal.NullDecimal `json:"wall_w_per_m2k"` // what its wall lets through, where it is known
	From     working.Working     `json:"from,omitempty"`
}

// Cooling is the area that a box cools by.
type Cooling struct {
	AreaM2  decimal.Decimal `json:"cooling_m2"`
	Working working.Working `json:"working"`
}

// Cooling returns the effective cooling area:
//
//	A_e = k_hw × H_b × W_b + k_hd × H_b × D_b + k_wd × W_b × D_b   [m²]
//
// The factors count each face by how much of it is free. Sides 0.01 to 10 m.
// Source: VDE 0660-500.
func (b Box) Cooling() (Cooling, error) {
	if err := b.checkSides(); err != nil {
		return Cooling{}, err
	}
	w := working.Start(b.From)
	area, err := b.cooling(&w)
	if err != nil {
		return Cooling{}, err
	}
	return Cooling{AreaM2: area, Working: slices.Clip(w)}, nil
}

func (b Box) cooling(w *working.Working) (decimal.Decimal, error) {
	f, err := tables.CoolingFactorsOf(b.Position)
	if err != nil {
		return decimal.Decimal{}, err
	}
	h, wide, deep := w.Given("H_b", b.HeightM), w.Given("W_b", b.WidthM), w.Given("D_b", b.DepthM)
	hw, hd, wd := w.LookUp("k_hw", f.HeightWidth), w.LookUp("k_hd", f.HeightDepth), w.LookUp("k_wd", f.WidthDepth)
	area := hw.Mul(h).Mul(wide).Add(hd.Mul(h).Mul(deep)).Add(wd.Mul(wide).Mul(deep))
	return w.Calc("A_e", "k_hw × H_b × W_b + k_hd × H_b × D_b + k_wd × W_b × D_b", area,
		cite.VDE0660500.At("effective cooling area", cite.Published)), nil
}

// BoxTemperature is how warm a box becomes inside.
type BoxTemperature struct {
	RiseC   decimal.Decimal `json:"rise_c"`
	InsideC decimal.Decimal `json:"bay_c"`
	Working working.Working `json:"working"`
}

// Temperature returns the temperature in the closed box:
//
//	ΔT  = P_v ÷ (k_U × A_e)   [K], rounded up to 0.01
//	T_y = T_o + ΔT            [°C]
//
// P_v is the heat made inside, as it lasts: the mean of the duty, and the full
// load where that lasts for hours. k_U of the material is the least that sources
// give. It is the mean air in the box; the top is warmer. Heat 0 to 10 000 W,
// outside -40 to 80 °C. Source: VDE 0660-500.
func (b Box) Temperature(lossW, outsideC decimal.NullDecimal) (BoxTemperature, error) {
	if err := errors.Join(b.check(), stated("loss_w", lossW, 0, 10_000), stated("outside_c", outsideC, -40, 80)); err != nil {
		return BoxTemperature{}, err
	}
	w := working.Start(b.From)
	area, err := b.cooling(&w)
	if err != nil {
		return BoxTemperature{}, err
	}
	k, err := b.wall(&w)
	if err != nil {
		return BoxTemperature{}, err
	}
	p, out := w.Given("P_v", lossW.Decimal), w.Given("T_o", outsideC.Decimal)
	rise := w.CalcUp("ΔT", "P_v ÷ (k_U × A_e)", p, k.Mul(area), 2, cite.VDE0660500.At("heat transfer", cite.Published))
	inside := w.Calc("T_y", "T_o + ΔT", out.Add(rise), arithmetic)
	return BoxTemperature{RiseC: rise, InsideC: inside, Working: slices.Clip(w)}, nil
}

// CheckTemperature judges the temperature in the box against the ambient at which the
// cables and devices inside were judged: B09.
// Loss 0 to 10 000 W, air outside -40 to 80 °C, ambient of the part -40 to 120 °C.
func (b Box) CheckTemperature(lossW, outsideC, judgedAtC decimal.NullDecimal) (working.Check, error) {
	inside, err := b.Temperature(lossW, outsideC)
	if err = errors.Join(err, stated("ambient_c", judgedAtC, -40, 120)); err != nil {
		return working.Check{}, err
	}
	w := working.Start(inside.Working)
	w.Given("T_a", judgedAtC.Decimal)
	return w.Check("B09", "Bay no warmer than its cables and devices were judged at", "T_y", "T_a"), nil
}

// WallLoss is the heat that the walls let through.
type WallLoss struct {
	WallW   decimal.Decimal `json:"wall_w"`
	RestW   decimal.Decimal `json:"rest_w"` // that a fan or an opening has to take
	Working working.Working `json:"working"`
}

// WallLoss returns the heat that the walls let through at a rise of temperature,
// and the rest of a loss:
//
//	P_w = k_U × A_e × ΔT      [W]
//	P_re = max(0, P_v − P_w)   [W]
//
// Rise above 0 to 100 K, loss above 0 to 10 000 W. Source: VDE 0660-500.
func (b Box) WallLoss(lossW, riseC decimal.Decimal) (WallLoss, error) {
	if err := errors.Join(b.check(), working.Above("loss_w", lossW, 0, 10_000), working.Above("rise_c", riseC, 0, 100)); err != nil {
		return WallLoss{}, err
	}
	w := working.Start(b.From)
	area, err := b.cooling(&w)
	if err != nil {
		return WallLoss{}, err
	}
	k, err := b.wall(&w)
	if err != nil {
		return WallLoss{}, err
	}
	rise, p := w.Given("ΔT", riseC), w.Given("P_v", lossW)
	wall := w.Calc("P_w", "k_U × A_e × ΔT", k.Mul(area).Mul(rise), cite.VDE0660500.At("heat transfer", cite.Published))
	rest := w.Calc("P_re", "max(0, P_v − P_w)", decimal.Max(decimal.Zero, p.Sub(wall)), arithmetic)
	return WallLoss{WallW: wall, RestW: rest, Working: slices.Clip(w)}, nil
}

func (b Box) wall(w *working.Working) (decimal.Decimal, error) {
	if b.WallW.Valid {
		return w.Given("k_U", b.WallW.Decimal), nil
	}
	f, err := tables.HeatTransfer(b.Material)
	if err != nil {
		return decimal.Decimal{}, err
	}
	return w.LookUp("k_U", f), nil
}

// checkSides wants the sides and how the box stands.
func (b Box) checkSides() error {
	_, err := tables.CoolingFactorsOf(b.Position)
	return errors.Join(
		fromTo("box_height_m", b.HeightM, "0.01", 10),
		fromTo("box_width_m", b.WidthM, "0.01", 10),
		fromTo("box_depth_m", b.DepthM, "0.01", 10),
		err,
	)
}

func (b Box) check() error {
	faults := []error{b.checkSides(), fromToIf("wall_w_per_m2k", b.WallW, "0.1", 100)}
	if b.WallW.Valid == (b.Material != "") {
		faults = append(faults, &working.InputError{Field: "material", Got: short60(b.Material) + " beside wall_w_per_m2k " + orUnset(b.WallW), Want: "one of both"})
	}
	if b.Material != "" {
		_, err := tables.HeatTransfer(b.Material)
		faults = append(faults, err)
	}
	return errors.Join(faults...)
}

// Airflow is air that carries heat away.
type Airflow struct {
	LossW decimal.Decimal `json:"loss_w"`
	RiseC decimal.Decimal `json:"rise_c"` // from inlet to outlet
	From  working.Working `json:"from,omitempty"`
}

// Flow is the air that it takes.
type Flow struct {
	FlowM3H decimal.Decimal `json:"flow_m3_per_h"`
	Working working.Working `json:"working"`
}

// Flow returns the air that carries a loss away at a rise of temperature:
//
//	Q_v = 3600 × P_v ÷ (ρ_a × c_p × ΔT)   [m³/h], rounded up to 0.01
//
// at sea level with ρ_a = 1.2 kg/m³; at 1000 m it takes an eighth more. Common
// practice rounds the factor to 3.1 × P ÷ ΔT. Loss above 0 to 10 000 W, rise
// 0.1 to 100 K. Source: the heat capacity of air.
func (a Airflow) Flow() (Flow, error) {
	if err := errors.Join(working.Above("loss_w", a.LossW, 0, 10_000), fromTo("rise_c", a.RiseC, "0.1", 100)); err != nil {
		return Flow{}, err
	}
	density, err := tables.AirConstant("air_density")
	if err != nil {
		return Flow{}, err
	}
	heat, err := tables.AirConstant("air_specific_heat")
	if err != nil {
		return Flow{}, err
	}
	w := working.Start(a.From)
	p, rise := w.Given("P_v", a.LossW), w.Given("ΔT", a.RiseC)
	d, c := w.LookUp("ρ_a", density), w.LookUp("c_p", heat)
	flow := w.CalcUp("Q_v", "3600 × P_v ÷ (ρ_a × c_p × ΔT)", decimal.NewFromInt(3600).Mul(p), d.Mul(c).Mul(rise), 2, cite.Air.At("heat balance", cite.Published))
	return Flow{FlowM3H: flow, Working: slices.Clip(w)}, nil
}
