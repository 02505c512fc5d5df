package wire

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// ParallelBank is a bank of batteries side by side: a link joins each plus terminal to
// the next one's, and another each minus terminal.
type ParallelBank struct {
	EMFV            decimal.Decimal   `json:"emf_v"`                        // of each battery, at no load
	BatteryMilliohm []decimal.Decimal `json:"battery_milliohm,omitempty"`   // of each, in order
	PlusMilliohm    []decimal.Decimal `json:"plus_link_milliohm,omitempty"` // of the links, one fewer
	MinusMilliohm   []decimal.Decimal `json:"minus_link_milliohm,omitempty"`
	CurrentA        decimal.Decimal   `json:"current_a"` // taken from the bank
}

// TakeOff is where the cables of the load leave the row, and what each battery
// then gives.
type TakeOff struct {
	Plus      int               `json:"plus_at"`  // the battery, from 1
	Minus     int               `json:"minus_at"` // the battery, from 1
	ShareA    []decimal.Decimal `json:"source_a,omitempty"`
	GreatestA decimal.Decimal   `json:"greatest_share_a"`
	Working   working.Working   `json:"working"`
}

// greatestBank keeps every pair of terminals tried within a few milliseconds.
const greatestBank = 16

// TakeOff returns what each battery gives when the plus cable leaves at one
// battery and the minus cable at another, both counted from 1:
//
//	I_mxs = max(I_so1, I_so2, ...)
//
// The currents are those of [Network.Solve]. 2 to 16 batteries; EMF above 0 to
// 1000 V, resistances 0.001 to 1 000 000 mΩ, current above 0 to 10 000 A. Where
// the bank cannot give the current it is [ErrNoOperatingPoint]. Sources:
// Kirchhoff's laws, Ohm's law.
// Each lead sits at one of the batteries, of three at 1 to 3.
func (r ParallelBank) TakeOff(plus, minus int) (TakeOff, error) {
	batteries := int64(len(r.BatteryMilliohm))
	if err := errors.Join(
		r.check(),
		working.Between("plus_at", decimal.NewFromInt(int64(plus)), 1, max(1, batteries)),
		working.Between("minus_at", decimal.NewFromInt(int64(minus)), 1, max(1, batteries)),
	); err != nil {
		return TakeOff{}, err
	}
	s, err := r.network(plus, minus).Solve()
	switch {
	case err != nil:
		return TakeOff{}, err
	case s.CollapsedAt != "":
		return TakeOff{}, fmt.Errorf("a row of %d batteries: %w", batteries, ErrNoOperatingPoint)
	}
	return takeOff(plus, minus, s), nil
}

// EvenTakeOff returns the take-off whose greatest share is the smallest: the one that
// loads the batteries most evenly. Of equal ones it is the first. Ranges as for
// [ParallelBank.TakeOff].
func (r ParallelBank) EvenTakeOff() (TakeOff, error) {
	var best TakeOff
	for plus := range r.BatteryMilliohm {
		for minus := range r.BatteryMilliohm {
			t, err := r.TakeOff(plus+1, minus+1)
			if err != nil {
				return TakeOff{}, err
			}
			if best.Plus == 0 || t.GreatestA.LessThan(best.GreatestA) {
				best = t
			}
		}
	}
	return best, r.check()
}

// takeOff lays out the shares of a solved row.
func takeOff(plus, minus int, s Solution) TakeOff {
	t := TakeOff{Plus: plus, Minus: minus}
	var w working.Working
	w.Part(fmt.Sprintf("Take-off at plus %d and minus %d", plus, minus))
	var symbols []string
	for i, source := range s.Sources {
		symbols = append(symbols, fmt.Sprintf("I_so.%d", i+1))
		t.ShareA = append(t.ShareA, w.Step(symbols[i], source.CurrentA, kirchhoff))
		w.Note(solved)
	}
	t.GreatestA = w.Calc("I_mxs", "max("+strings.Join(symbols, ", ")+")", decimal.Max(t.ShareA[0], t.ShareA[1:]...), kirchhoff)
	t.Working = slices.Clip(w)
	return t
}

// network draws both poles of the row, the load between two of their terminals.
func (r ParallelBank) network(plus, minus int) Network {
	n := Network{Loads: []NodeLoad{{
		Name: "load", Node: post("plus", plus), Return: post("minus", minus), CurrentA: decimal.NewNullDecimal(r.CurrentA),
	}}}
	for i, milliohm := range r.BatteryMilliohm {
		n.Sources = append(n.Sources, NodeSource{
			Name: fmt.Sprint("battery ", i+1), Node: post("plus", i+1), Return: post("minus", i+1), EMFV: r.EMFV, Milliohm: milliohm,
		})
	}
	n.Branches = append(links("plus", r.PlusMilliohm), links("minus", r.MinusMilliohm)...)
	return n
}

// post names a terminal of a row.
func post(pole string, battery int) string { return fmt.Sprint(pole, " ", battery) }

// links joins the terminals of one pole, each to the next.
func links(pole string, milliohm []decimal.Decimal) []Branch {
	var b []Branch
	for i, m := range milliohm {
		b = append(b, Branch{Name: fmt.Sprint(pole, " link ", i+1), From: post(pole, i+1), To: post(pole, i+2), Milliohm: m})
	}
	return b
}

func (r ParallelBank) check() error {
	batteries := len(r.BatteryMilliohm)
	faults := []error{
		working.Between("battery_milliohm", decimal.NewFromInt(int64(batteries)), 2, greatestBank),
		working.Above("emf_v", r.EMFV, 0, greatestVolts),
		working.Above("current_a", r.CurrentA, 0, greatestAmperes),
		checkEach("battery_milliohm", r.BatteryMilliohm, batteries),
		checkEach("plus_link_milliohm", r.PlusMilliohm, batteries-1),
		checkEach("minus_link_milliohm", r.MinusMilliohm, batteries-1),
	}
	return errors.Join(faults...)
}

// checkEach holds a list to its length and each resistance to its range.
func checkEach(field string, milliohm []decimal.Decimal, length int) error {
	var faults []error
	if len(milliohm) != length {
		faults = append(faults, &working.InputError{Field: field, Got: fmt.Sprint(len(milliohm)), Want: fmt.Sprintf("%d, as the batteries ask", length)})
	}
	for i, m := range milliohm {
		faults = append(faults, checkFrom(fmt.Sprintf("%s[%d]", field, i), m, leastMilliohm, greatestMilliohm))
	}
	return errors.Join(faults...)
}
