package charge

import (
	"errors"
	"fmt"
	"strings"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// CombinedSources is every source that can charge a bank at the same time, and the
// batteries in parallel that share it.
type CombinedSources struct {
	Supplies []Supply            `json:"supplies,omitempty"`  // 1 to 100
	LimitsA  []NamedLimit        `json:"batteries,omitempty"` // 1 to 100
	BusbarA  decimal.NullDecimal `json:"busbar_a"`            // rating of the bar that they meet on; unset: not asked
	From     working.Working     `json:"from,omitempty"`      // the lines that gave any of it
}

// Supply is one source's greatest charging current.
type Supply struct {
	Name     string          `json:"name"`
	CurrentA decimal.Decimal `json:"supply_a"`
}

// NamedLimit is one battery's greatest charging current.
type NamedLimit struct {
	Name     string          `json:"name"`
	CurrentA decimal.Decimal `json:"battery_charge_limit_a"`
}

// Checks checks (C01) that all sources together stay within what the bank may be
// charged with, and within what is left of it when one battery has dropped out
// (its management unit opened, its fuse blew), for each battery in turn:
//
//	I_srcs = sum of the sources      [A]
//	I_bank = sum of the batteries    [A]
//	I_srcs ≤ I_bank
//
// and, where its rating is given, within the busbar's. It takes the batteries to share in proportion to their limits; unequal leads
// do not. A bank of one battery has no second case: with it gone the sources
// stand without a battery, and their voltage may rise. At most 100 sources and
// batteries, each 0 to 10 000 A.
func (t CombinedSources) Checks() ([]working.Check, error) {
	if err := t.check(); err != nil {
		return nil, err
	}
	checks := t.each(mayCharge)
	if t.BusbarA.Valid {
		w := t.sum()
		w.Given("I_bus", t.BusbarA.Decimal)
		checks = append(checks, w.Check("C01", "Sum of the sources on the busbar", "I_srcs", "I_bus"))
	}
	return checks, nil
}

// CheckClosed checks (C12) that the batteries' management units stay closed while
// all sources charge: that together they stay below the currents at which the
// units open, here LimitsA, and below what is left when one battery has dropped
// out, for each battery in turn:
//
//	I_srcs = sum of the sources            [A]
//	I_ovs  = sum of the opening currents   [A]
//	I_srcs < I_ovs
//
// It takes the batteries to share in proportion to those currents; the busbar is
// not asked. Ranges as for [CombinedSources.Checks].
func (t CombinedSources) CheckClosed() ([]working.Check, error) {
	if err := t.check(); err != nil {
		return nil, err
	}
	checks := t.each(staysClosed)
	for i := range checks {
		checks[i].Below = true
	}
	return checks, nil
}

// limitRule is what the currents of the batteries stand for.
type limitRule struct{ id, title, one, all string }

var (
	mayCharge   = limitRule{"C01", "Sum of the sources", "I_cb", "I_bank"}
	staysClosed = limitRule{"C12", "Management unit, current", "I_ov", "I_ovs"}
)

// each checks the whole bank, and that of several batteries with each one gone.
func (t CombinedSources) each(r limitRule) []working.Check {
	checks := []working.Check{t.without(-1, r)}
	if len(t.LimitsA) > 1 {
		for gone := range t.LimitsA {
			checks = append(checks, t.without(gone, r))
		}
	}
	return checks
}

// sum adds the lines of the sources together.
func (t CombinedSources) sum() working.Working {
	w := working.Start(t.From)
	var symbols []string
	sum := decimal.Zero
	for i, s := range t.Supplies {
		symbol := fmt.Sprintf("I_src.%d", i+1)
		sum = sum.Add(w.Given(symbol, s.CurrentA))
		w.Note(s.Name)
		symbols = append(symbols, symbol)
	}
	w.Calc("I_srcs", strings.Join(symbols, " + "), sum, cite.Kirchhoff.At("", cite.Published))
	return w
}

// without checks the bank with one battery gone; -1: all there.
func (t CombinedSources) without(gone int, r limitRule) working.Check {
	w := t.sum()
	var symbols []string
	limit := decimal.Zero
	for i, b := range t.LimitsA {
		if i == gone {
			continue
		}
		symbol := fmt.Sprintf("%s.%d", r.one, i+1)
		limit = limit.Add(w.Given(symbol, b.CurrentA))
		w.Note(b.Name)
		symbols = append(symbols, symbol)
	}
	w.Calc(r.all, strings.Join(symbols, " + "), limit, cite.Kirchhoff.At("", cite.Published))
	title := r.title
	if gone >= 0 {
		title += ", without " + t.LimitsA[gone].Name
	}
	return w.Check(r.id, title, "I_srcs", r.all)
}

func (t CombinedSources) check() error {
	errs := []error{
		working.Between("supplies", count(len(t.Supplies)), 1, 100),
		working.Between("batteries", count(len(t.LimitsA)), 1, 100),
	}
	for i, s := range t.Supplies[:min(len(t.Supplies), 100)] {
		errs = append(errs, working.In(fmt.Sprintf("supplies[%d]", i), working.Above("supply_a", s.CurrentA, 0, 10_000)))
	}
	for i, b := range t.LimitsA[:min(len(t.LimitsA), 100)] {
		errs = append(errs, working.In(fmt.Sprintf("batteries[%d]", i), working.Between("battery_charge_limit_a", b.CurrentA, 0, 10_000)))
	}
	errs = append(errs, checkOptional("busbar_a", t.BusbarA, 0, 10_000))
	return errors.Join(errs...)
}
