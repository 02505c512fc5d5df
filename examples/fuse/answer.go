package main

import (
	"errors"

	"example.org/extralow/battery"
	"example.org/extralow/protect"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// question is a load, its conductor, the family of its device, and the bank
// behind it.
type question struct {
	need      protect.Need
	family    string
	ratingA   decimal.NullDecimal // in hand
	set       tables.RuleSet
	lay       wire.Conductor
	ampacityA decimal.NullDecimal // in place of the one that lay has
	bank      battery.Bank
	path      battery.FaultPath
	breaking  protect.BreakingDuty
}

// answer is the window and whether such a device breaks the bank's fault.
type answer struct {
	question question
	ampacity wire.Ampacity
	window   protect.Window
	ratings  []row // on both sides of the window and in it
	larger   larger
	fault    battery.BankFault
	breaks   []working.Check // none where the fault current is not known
}

// row is one rating and what each rule says of it.
type row struct {
	ratingA decimal.Decimal
	checks  []working.Check
}

// larger is the next larger conductor for which a rating exists.
type larger struct {
	size      tables.Size
	ampacityA decimal.Decimal
	ratingA   decimal.Decimal
	found     bool
}

func (q question) answer() (answer, error) {
	a := answer{question: q}
	var cable, window, fault, breaks error
	if a.ampacity, cable = q.carries(); cable == nil {
		a.window, window = q.windowFor(a.ampacity)
	}
	a.fault, fault = q.bank.Fault(q.path)
	a.breaks, breaks = q.breaksFault(a.fault)
	if err := errors.Join(cable, window, fault, breaks); err != nil {
		return a, err
	}
	if !a.window.BestA.Valid && !q.ampacityA.Valid {
		a.larger = q.enlarge()
	}
	var err error
	a.ratings, err = q.rows(a.window)
	return a, err
}

// carries is the ampacity that is stated, or that of the conductor as it lies.
func (q question) carries() (wire.Ampacity, error) {
	if q.ampacityA.Valid {
		return wire.Ampacity{AmpacityA: q.ampacityA.Decimal}, nil
	}
	if len(q.set.Ampacity.Metric)+len(q.set.Ampacity.Gauge) == 0 {
		return wire.Ampacity{}, &working.InputError{Field: "ampacity_a", Got: "unset", Want: "the ampacity as installed: " + q.set.Key + " lists none"}
	}
	return q.lay.Ampacity(q.set.Ampacity)
}

// windowFor asks for the window behind a conductor.
func (q question) windowFor(a wire.Ampacity) (protect.Window, error) {
	q.need.AmpacityA, q.need.From, q.need.SetName = a.AmpacityA, a.Working, q.set.Name
	return q.need.Window(q.set.Device, q.family)
}

// rows judges the ratings of the window, and two on each side.
func (q question) rows(w protect.Window) ([]row, error) {
	ratings, err := tables.Ratings(q.family)
	if err != nil {
		return nil, err
	}
	first := countBelow(ratings, w.LeastA)
	last := first + len(w.InsideA)
	var rows []row
	for _, f := range ratings[max(0, first-2):min(len(ratings), max(first+1, last)+2)] {
		rows = append(rows, row{f.Value, w.Checks(f.Value)})
	}
	return rows, nil
}

// countBelow is how many of the rising ratings are below a current.
func countBelow(ratings []working.Figure, currentA decimal.Decimal) int {
	n := 0
	for n < len(ratings) && ratings[n].Value.LessThan(currentA) {
		n++
	}
	return n
}

// enlarge looks for the next larger conductor, laid alike, for which a rating
// exists. A size that the tables do not serve ends the search.
func (q question) enlarge() larger {
	for size, ok := q.lay.Size.Next(); ok; size, ok = size.Next() {
		lay := q.lay
		lay.Size = size
		a, err := lay.Ampacity(q.set.Ampacity)
		if err != nil {
			break
		}
		w, err := q.windowFor(a)
		if err != nil {
			break
		}
		if w.BestA.Valid {
			return larger{size, a.AmpacityA, w.BestA.Decimal, true}
		}
	}
	return larger{}
}

// breaksFault judges the family, or the device's own data sheet, against the
// bank's fault current.
func (q question) breaksFault(fault battery.BankFault) ([]working.Check, error) {
	b := q.breaking
	b.GreatestFaultA = fault.GreatestA
	b.From, b.Family = fault.Working, q.family
	if !b.GreatestFaultA.Valid {
		return nil, nil
	}
	b.NoLithium = !q.bank.Batteries[0].Chemistry.Is(tables.LiIon)
	return b.Checks()
}
