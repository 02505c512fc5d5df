package main

import (
	"slices"
	"sort"
	"time"

	"example.org/extralow/charge"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// answer is a plan with what the balance says of it.
type answer struct {
	plan
	worst, best   int // months
	runs          []outcome
	autonomyH     int // from full to the limit without any source
	lastsForLong  bool
	overrun, down []decimal.Decimal
}

// outcome is one run from the first of a month.
type outcome struct {
	charge.Ledger
	month   int
	check   working.Check
	belowH  int             // hours below the limit, by the trace
	unmetWh decimal.Decimal // what the loads went without, about
	holdMin int             // driving a day that holds the balance
	holds   bool            // none does
}

// long is a run over months rather than a week or two of one.
func (p plan) long() bool { return p.days > 14 }
