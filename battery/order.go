package battery

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// ShedLoad is something that leaves the bank as its voltage falls.
type ShedLoad struct {
	Name  string              `json:"name"`
	AtV   decimal.NullDecimal `json:"cut_out_v"`      // where it switches off, or a device switches it off; unset: nothing does
	DropV decimal.Decimal     `json:"path_drop_v"`    // lost between the bank and where that voltage is measured
	From  working.Working     `json:"from,omitempty"` // the lines that gave the drop
}

// MustRun is a load that has to outlast the rest at its bank.
type MustRun struct {
	Name    string              `json:"name"`
	LowestV decimal.NullDecimal `json:"lowest_v"`       // lowest voltage at which it works; of an inverter its cut-out
	DropV   decimal.NullDecimal `json:"path_drop_v"`    // lost between the bank and the load; 0: it hangs on the posts
	From    working.Working     `json:"from,omitempty"` // the lines that gave the drop
}

// CheckOutlasts judges the order in which loads leave the bank as its voltage
// falls: B20. Everything that a voltage switches off has to be off before the
// load that must run starves, both seen from the bank:
//
//	U_g  = U_c + ΔU_p    at which each switch lets go [V]
//	U_sh = min(U_g)      at which the last of them does [V]
//	U_ms = U_lo + ΔU_p   at which the load starves [V]
//
// U_ms has to be below U_sh. The drops are those of one state of use: ask it of
// each. Where a switch measures is often not known; no drop is the strict case.
// Each switches on again higher up, which is not judged here.
//
// What nothing switches off is named in a note and not judged. It drains the
// bank beneath the load that must run, but gives up by itself somewhere, and to
// ask for a switch in front of every lamp would be an alarm that nobody heeds.
// Where that is all there is, the check does not apply. On a chemistry with a
// flat curve a note says that no voltage guards the charge.
//
// Voltages 1 to 100 V, drops 0 to 1 000 000 V. Source: Kirchhoff's laws.
func (b Bank) CheckOutlasts(last MustRun, rest []ShedLoad) (working.Check, error) {
	if err := errors.Join(b.check(), last.check(), checkRest(rest)); err != nil {
		return working.Check{}, err
	}
	c := working.Check{ID: "B20", Title: "What must run outlasts the rest"}
	var switched []ShedLoad
	var stay []string
	for _, x := range rest {
		if x.AtV.Valid {
			switched = append(switched, x)
		} else {
			stay = append(stay, x.Name)
		}
	}
	switch {
	case len(rest) == 0:
		c.Silent = "nothing else draws on its bank"
		return c, nil
	case len(switched) == 0:
		c.Silent = unswitched(stay)
		return c, nil
	case !last.LowestV.Valid:
		c.Missing = "the lowest voltage at which " + last.Name + " works, from its data sheet"
		return c, nil
	}
	w := working.Start(b.From)
	var goes []string
	for i, x := range switched {
		goes = append(goes, x.letsGo(&w, i))
	}
	w.Calc("U_sh", "min("+joined(goes)+")", least(w, goes), arithmetic)
	w.Note(remarks(unswitched(stay), b.flatCurve()))
	w.Part(last.Name)
	w = append(w, last.From...)
	lo, drop := w.Given("U_lo", last.LowestV.Decimal), w.Given("ΔU_p", last.DropV.Decimal)
	w.Calc("U_ms", "U_lo + ΔU_p", lo.Add(drop), kirchhoff)
	c = w.Check(c.ID, c.Title, "U_ms", "U_sh")
	c.Below = true
	return c, nil
}

// letsGo adds the voltage of the bank at which the i-th switch lets go.
func (x ShedLoad) letsGo(w *working.Working, i int) (symbol string) {
	w.Part(x.Name)
	*w = append(*w, x.From...)
	cut, drop := w.Given(nth("U_c", i), x.AtV.Decimal), w.Given("ΔU_p", x.DropV)
	w.Calc(nth("U_g", i), nth("U_c", i)+" + ΔU_p", cut.Add(drop), kirchhoff)
	return nth("U_g", i)
}

func unswitched(names []string) string {
	if len(names) == 0 {
		return ""
	}
	return "no voltage switches these off, they give up by themselves at best: " + joined(names)
}

// remarks joins what there is to say.
func remarks(all ...string) string {
	return strings.Join(slices.DeleteFunc(all, func(s string) bool { return s == "" }), "; ")
}

// halfFull is the rested voltage of a LiFePO4 cell in the middle of its curve
// (Sunil 2025: 3.299 V at 50 %).
var halfFull = decimal.New(33, -1)

// flatCurve says that a cut-out by voltage does not guard the charge, where the
// rested voltage leaves it open in the middle of the curve.
func (b Bank) flatCurve() string {
	if b.Batteries[0].Chemistry != "LiFePO4" {
		return ""
	}
	s, err := Rested{Chemistry: b.Batteries[0].Chemistry, VoltageV: halfFull, Cells: 1, MeterV: decimal.NewNullDecimal(decimal.Zero)}.StateOfCharge()
	if err != nil || s.Missing == "" {
		return ""
	}
	i := slices.IndexFunc(s.Working, func(l working.Step) bool { return l.Symbol == "s_2.1" })
	return fmt.Sprintf("the curve is flat, and a voltage says little about the charge left. Rested at %s V a cell, %s [%s]", halfFull, s.Missing, s.Working[i].Source.Key)
}

func (x MustRun) check() error {
	return errors.Join(betweenIf("lowest_v", x.LowestV, 1, 100), stated("path_drop_v", x.DropV, 0, 1_000_000))
}

func checkRest(rest []ShedLoad) error {
	var faults []error
	for i, x := range rest {
		faults = append(faults, working.In(at("rest", i), errors.Join(
			betweenIf("cut_out_v", x.AtV, 1, 100), working.Between("path_drop_v", x.DropV, 0, 1_000_000))))
	}
	return errors.Join(faults...)
}
