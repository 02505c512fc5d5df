package main

import (
	"errors"
	"sort"

	"example.org/extralow/charge"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// answer is a plan with what the balance says of it.
type answer struct {
	plan
	worst, best int       // months
	runs        []outcome // the worst month first, the best last; or the one long run
	autonomyH   int       // from full to the limit with no source; below nought: longer than reserveDays
}

// outcome is one run from the first of a month.
type outcome struct {
	charge.Ledger
	month   int
	check   working.Check
	belowH  int // hours below the limit, by the trace
	holdMin int // driving a day that holds the balance; -1: none does
}

// long reports whether this is a run over months, not a week or two of one.
func (p plan) long() bool { return p.days > 14 }

func (p plan) answer() (answer, error) {
	a := answer{plan: p}
	a.worst, a.best = p.sun.extremes()
	for _, month := range a.months() {
		o, err := p.outcome(month)
		if err != nil {
			return a, err
		}
		a.runs = append(a.runs, o)
	}
	var err error
	a.autonomyH, err = p.autonomy()
	return a, err
}

// months are those whose first day begins a run.
func (a answer) months() []int {
	if a.long() {
		return []int{max(a.month, 1)}
	}
	all := []int{a.worst}
	if a.month > 0 && a.month != a.worst && a.month != a.best {
		all = append(all, a.month)
	}
	if a.best != a.worst {
		all = append(all, a.best)
	}
	return all
}

func (p plan) outcome(month int) (outcome, error) {
	o := outcome{month: month}
	var err error
	if o.Ledger, err = p.balance(month).Run(); err != nil {
		return o, err
	}
	for _, line := range o.Trace {
		if line.SoCPercent.LessThan(p.limitPercent) {
			o.belowH++
		}
	}
	var unchecked error
	o.check, unchecked = o.Check(decimal.NewNullDecimal(p.limitPercent))
	o.holdMin, err = p.hold(month)
	return o, errors.Join(unchecked, err)
}

// hold finds by bisection the shortest driving a day that holds the balance; -1
// where none does. Without the cut-out more driving never leaves less charge at
// any time, on which the bisection rests.
func (p plan) hold(month int) (int, error) {
	p.cutOut, p.resume = decimal.NullDecimal{}, decimal.NullDecimal{}
	if !p.long() {
		p.days = 14
	}
	most := p.mostDriving()
	var errs error
	found := sort.Search(most+1, func(driving int) bool {
		p.drivingMin = driving
		l, err := p.balance(month).Run()
		errs = errors.Join(errs, err)
		return err == nil && p.held(l)
	})
	if found > most {
		return -1, errs
	}
	return found, errs
}

// held reports whether the bank never falls below the limit and, of two weeks,
// ends the second no lower than the first: it may go on so.
func (p plan) held(l charge.Ledger) bool {
	return l.LeastPercent.GreaterThanOrEqual(p.limitPercent) &&
		(p.long() || l.EndPercent.GreaterThanOrEqual(l.Trace[7*24].SoCPercent))
}

// reserveDays is how long a bank is watched without a source.
const reserveDays = 60

// autonomy returns the whole hours that the bank carries its loads from full to
// the limit without any source; below nought: longer than reserveDays.
func (p plan) autonomy() (int, error) {
	b := p.balance(1)
	b.Days, b.StartPercent = reserveDays, decimal.NewFromInt(100)
	a, err := b.Autonomy(decimal.NewNullDecimal(p.limitPercent))
	if a.Longer {
		return -1, err
	}
	return int(a.TimeH.IntPart()), err
}
