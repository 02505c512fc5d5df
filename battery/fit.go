package battery

import (
	"errors"
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Case is a battery as it stands in the hand: measure the article, with its
// handles, feet and terminals, before the space is built.
type Case struct {
	LengthMM    decimal.Decimal     `json:"case_length_mm"`
	WidthMM     decimal.Decimal     `json:"case_width_mm"`
	HeightMM    decimal.Decimal     `json:"case_height_mm"`    // terminals and what is bolted to them included
	ToleranceMM decimal.NullDecimal `json:"case_tolerance_mm"` // how much bigger it may arrive, each way
}

// Space is the inside of a bay, as measured.
type Space struct {
	LengthMM    decimal.Decimal     `json:"space_length_mm"`
	WidthMM     decimal.Decimal     `json:"space_width_mm"`
	HeightMM    decimal.Decimal     `json:"space_height_mm"`
	ToleranceMM decimal.NullDecimal `json:"space_tolerance_mm"` // how much smaller it may turn out, each way
}

// Fit is cases in rows in a space.
type Fit struct {
	Case      Case                `json:"case"`
	Space     Space               `json:"space"`
	Along     int                 `json:"along"`             // cases side by side in the length
	Across    int                 `json:"across"`            // and in the width
	GapMM     decimal.NullDecimal `json:"gap_mm"`            // between cases: air, spacers
	WallMM    decimal.NullDecimal `json:"wall_mm"`           // to every wall: straps, hands, tools
	AboveMM   decimal.NullDecimal `json:"above_mm"`          // over the highest live part: 50 is common
	CableMM   decimal.NullDecimal `json:"cable_diameter_mm"` // 0 where no cable leaves along the length; 0 to 100
	BendTimes decimal.Decimal     `json:"bend_multiple"`     // least bend radius in diameters: of the cable's maker; 1 to 30
	LugMM     decimal.NullDecimal `json:"lug_mm"`            // from the stud to where the cable may bend; 0 to 200
	From      working.Working     `json:"from,omitempty"`
}

// FitMargins is the room left on each axis; negative where it is too little.
type FitMargins struct {
	LengthMM decimal.Decimal `json:"length_margin_mm"`
	WidthMM  decimal.Decimal `json:"width_margin_mm"`
	HeightMM decimal.Decimal `json:"height_margin_mm"`
	BendMM   decimal.Decimal `json:"bend_room_mm"`     // of the length, that the cable takes with its lug
	Checks   []working.Check `json:"checks,omitempty"` // B10 length, B11 width, B12 height
	Working  working.Working `json:"working"`
}

// Fit returns the room left on each axis with everything at its worst:
//
//	x_b = l_lug + k_bd × d_cb + d_cb                           bend beyond the lug
//	x_1 = n_x × (l + t_c) + (n_x − 1) × g + 2 × b_wl + x_b     length wanted
//	y_1 = n_y × (w + t_c) + (n_y − 1) × g + 2 × b_wl           width wanted
//	z_1 = h + t_c + a                                       height wanted
//	x_2 = L_s − t_s, and so on                              there is
//
// all in mm. One layer, cables leaving along the length. Sides 1 to 5000 mm,
// tolerances and clearances 0 to 500 mm, all of them stated, 1 to 24 cases each way. Common
// practice: no code gives these clearances; allow for the case that arrives
// bigger than drawn.
func (f Fit) Fit() (FitMargins, error) {
	if err := f.check(); err != nil {
		return FitMargins{}, err
	}
	w := working.Start(f.From)
	how := cite.Practice.At("room round a battery", cite.CommonPractice)
	tc, gap, wall := w.Given("t_cs", f.Case.ToleranceMM.Decimal), w.Given("g_c", f.GapMM.Decimal), w.Given("b_wl", f.WallMM.Decimal)
	less := w.Given("t_sp", f.Space.ToleranceMM.Decimal)
	cable, times, lug := w.Given("d_cb", f.CableMM.Decimal), w.Given("k_bd", f.BendTimes), w.Given("l_lug", f.LugMM.Decimal)
	bend := w.Calc("x_b", "l_lug + k_bd × d_cb + d_cb", lug.Add(times.Mul(cable)).Add(cable), how)
	row := func(answer, count, side string, n int, length decimal.Decimal, more string, extra decimal.Decimal) decimal.Decimal {
		c, l := w.Given(count, whole(n)), w.Given(side, length)
		sum := c.Mul(l.Add(tc)).Add(c.Sub(one).Mul(gap)).Add(two.Mul(wall)).Add(extra)
		formula := count + " × (" + side + " + t_cs) + (" + count + " − 1) × g_c + 2 × b_wl" + more
		return w.Calc(answer, formula, sum, how)
	}
	left := func(answer, side string, measured decimal.Decimal) decimal.Decimal {
		return w.Calc(answer, side+" − t_sp", w.Given(side, measured).Sub(less), arithmetic)
	}
	z := FitMargins{BendMM: bend}
	wanted := row("x_1", "n_x", "l_c", f.Along, f.Case.LengthMM, " + x_b", bend)
	z.LengthMM = left("x_2", "L_sp", f.Space.LengthMM).Sub(wanted)
	wanted = row("y_1", "n_yr", "w_c", f.Across, f.Case.WidthMM, "", decimal.Zero)
	z.WidthMM = left("y_2", "W_sp", f.Space.WidthMM).Sub(wanted)
	h, above := w.Given("h_c", f.Case.HeightMM), w.Given("a_v", f.AboveMM.Decimal)
	wanted = w.Calc("z_1", "h_c + t_cs + a_v", h.Add(tc).Add(above), how)
	z.HeightMM = left("z_2", "H_sp", f.Space.HeightMM).Sub(wanted)
	z.Working = slices.Clip(w)
	z.Checks = []working.Check{
		z.Working.Check("B10", "Batteries fit in the length", "x_1", "x_2"),
		z.Working.Check("B11", "Batteries fit in the width", "y_1", "y_2"),
		z.Working.Check("B12", "Batteries fit in the height", "z_1", "z_2"),
	}
	return z, nil
}

func (f Fit) check() error {
	return errors.Join(
		working.Between("case.case_length_mm", f.Case.LengthMM, 1, 5000),
		working.Between("case.case_width_mm", f.Case.WidthMM, 1, 5000),
		working.Between("case.case_height_mm", f.Case.HeightMM, 1, 5000),
		stated("case.case_tolerance_mm", f.Case.ToleranceMM, 0, 500),
		working.Between("space.space_length_mm", f.Space.LengthMM, 1, 5000),
		working.Between("space.space_width_mm", f.Space.WidthMM, 1, 5000),
		working.Between("space.space_height_mm", f.Space.HeightMM, 1, 5000),
		stated("space.space_tolerance_mm", f.Space.ToleranceMM, 0, 500),
		working.Between("along", whole(f.Along), 1, 24),
		working.Between("across", whole(f.Across), 1, 24),
		stated("gap_mm", f.GapMM, 0, 500),
		stated("wall_mm", f.WallMM, 0, 500),
		stated("above_mm", f.AboveMM, 0, 500),
		stated("cable_diameter_mm", f.CableMM, 0, 100),
		f.checkBend(),
	)
}

// checkBend wants what a cable needs, where one leaves along the length.
func (f Fit) checkBend() error {
	if ordinary(f.CableMM.Decimal) && f.CableMM.Decimal.IsPositive() {
		return errors.Join(working.Between("bend_multiple", f.BendTimes, 1, 30), stated("lug_mm", f.LugMM, 0, 200))
	}
	return errors.Join(working.Between("bend_multiple", f.BendTimes, 0, 30), betweenIf("lug_mm", f.LugMM, 0, 200))
}
