package wire

import (
	"math"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// end is the column that stands where the cable ends on terminals of a rating.
type end struct {
	terminalC decimal.Decimal
	bed
	from cite.Source // what asks for it; the zero source: our deduction
}

// atTerminals adds the lines that cap the cable's ampacity by its terminals.
func (l *laid) atTerminals(a *Ampacity, size tables.Size, w *working.Working) error {
	tt, known := l.terminal(size, w)
	switch {
	case !known:
		a.AmpacityA = w.Calc("I_z", "I_c", a.CableA, arithmetic)
		w.Note("what the terminals bear is not stated, and the rules are silent on it: ask")
		return nil
	case tt.GreaterThanOrEqual(a.InsulationC):
		a.AmpacityA = w.Calc("I_z", "I_c", a.CableA, arithmetic)
		return nil
	case a.AmbientC.GreaterThanOrEqual(tt):
		a.TerminalA = decimal.NewNullDecimal(w.Calc("I_zt", "max(0, T_t − T_a)", decimal.Zero, temperatureLaw))
		a.AmpacityA = w.Calc("I_z", "min(I_c, I_zt)", decimal.Zero, arithmetic)
		return nil
	}
	limit, err := l.terminalLimit(a, tt, size, w)
	if err != nil {
		return err
	}
	a.TerminalA = decimal.NewNullDecimal(limit)
	a.AmpacityA = w.Calc("I_z", "min(I_c, I_zt)", decimal.Min(a.CableA, limit), arithmetic)
	return nil
}

// terminal adds the line of what the terminals bear, if it is known.
func (l *laid) terminal(size tables.Size, w *working.Working) (decimal.Decimal, bool) {
	if l.TerminalC.Valid {
		return w.Given("T_t", l.TerminalC.Decimal), true
	}
	f, ok := l.rule.Terminals.Unstated(size, decimal.NullDecimal{})
	if !ok {
		return decimal.Zero, false
	}
	return w.LookUp("T_t", f), true
}

// terminalLimit adds the lines of the ampacity by terminals that bear less than
// the insulation.
func (l *laid) terminalLimit(a *Ampacity, tt decimal.Decimal, size tables.Size, w *working.Working) (decimal.Decimal, error) {
	e, err := l.end(tt)
	if err != nil {
		return decimal.Zero, err
	}
	if e.column.Table == "" || !l.cable.own.Stated() && e.column.InsulationC.Equal(l.cable.column.InsulationC) {
		return byLaw("I_c", "T_r", a.CableA, a.InsulationC, a.AmbientC, tt, w)
	}
	table, err := e.start(size, w)
	if err != nil {
		return decimal.Zero, err
	}
	limit := e.derated(table, w)
	if e.from != (cite.Source{}) {
		(*w)[len(*w)-1].Source = e.from
	}
	if e.hotter == "" && e.column.InsulationC.LessThanOrEqual(tt) {
		return limit, nil
	}
	w.LookUp("T_rt", working.Figure{Value: e.column.InsulationC, Source: table.Source.Document()})
	limit, err = e.cap(limit, a.AmbientC, table, w)
	if err == nil && e.column.InsulationC.GreaterThan(tt) {
		return byLaw("I_zt", "T_rt", limit, e.column.InsulationC, a.AmbientC, tt, w)
	}
	return limit, err
}

// end returns the column at terminals of a rating, looked up once.
func (l *laid) end(tt decimal.Decimal) (*end, error) {
	for i := range l.ends {
		if l.ends[i].terminalC.Equal(tt) {
			return &l.ends[i], nil
		}
	}
	column, from := l.rule.AtTerminals(l.cable.column, tt)
	e := end{terminalC: tt, bed: bed{column: column}, from: from}
	if column.Table != "" {
		var err error
		if e.bed, err = l.bed(ofTerminals, column); err != nil {
			return nil, err
		}
	}
	l.ends = append(l.ends, e)
	return &l.ends[len(l.ends)-1], nil
}

// byLaw adds the line that brings an ampacity down from the temperature that it
// holds for to what the terminals bear.
func byLaw(ampacity, holds string, of, at, ambient, tt decimal.Decimal, w *working.Working) (decimal.Decimal, error) {
	share := tt.Sub(ambient).Div(at.Sub(ambient)).InexactFloat64()
	formula := "floor(" + ampacity + " × sqrt((T_t − T_a) ÷ (" + holds + " − T_a)) × 100) ÷ 100"
	return calcFixed(w, "I_zt", formula, floorTo(of.InexactFloat64()*math.Sqrt(share), 2), 2, temperatureLaw)
}
