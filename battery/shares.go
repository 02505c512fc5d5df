package battery

import (
	"errors"
	"slices"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// EnergyShares is how the energy of a day divides, and what a day of standing takes.
type EnergyShares struct {
	Loads    []EnergyShare   `json:"loads,omitempty"` // in the order of the audit
	Idle     []EnergyShare   `json:"idle,omitempty"`  // inverters without load, in the order of the audit
	ParkedWh decimal.Decimal `json:"parked_wh"`
	Working  working.Working `json:"working"`
}

// EnergyShare is one part of the energy of a day.
type EnergyShare struct {
	Name         string          `json:"name"`
	SharePercent decimal.Decimal `json:"share_percent"`
}

// Shares returns what each load and each idle inverter has in the energy of a
// day, and the energy of a day on which nothing is used:
//
//	p_E = E_l ÷ E_d × 100    [%], to 0.01; of an idle inverter E_i ÷ E_d × 100
//	E_pk = P_pk × 24         [Wh]
//
// The sum must be one that [Audit.Sum] returned: one whose figures are not those of
// its working is an error, and so is a day without energy, which has no shares.
// Source: arithmetic.
func (s AuditSum) Shares() (EnergyShares, error) {
	if err := s.check(); err != nil {
		return EnergyShares{}, err
	}
	var all EnergyShares
	w := working.Start(s.Working)
	w.Part("shares")
	share := func(symbol, of string, wh decimal.Decimal) decimal.Decimal {
		return w.Calc(symbol, of+" ÷ E_d × 100", wh.Mul(hundred).DivRound(s.EnergyWh, 2), arithmetic)
	}
	for i, l := range s.Loads {
		all.Loads = append(all.Loads, EnergyShare{l.Name, share(nth("p_E", i), nth("E_l", i), l.EnergyWh)})
		w.Note(l.Name)
	}
	for k, x := range s.Idle {
		all.Idle = append(all.Idle, EnergyShare{x.Name, share(nth("p_Ei", k), nth("E_i", k), x.EnergyWh)})
		w.Note(x.Name + ", idle")
	}
	w.Part("standing")
	all.ParkedWh = w.Calc("E_pk", "P_pk × 24", s.ParkedW.Mul(day), arithmetic)
	all.Working = slices.Clip(w)
	return all, nil
}

// check holds the figures to the working that gave them.
func (s AuditSum) check() error {
	faults := []error{
		working.Above("energy_wh_a_day", s.EnergyWh, 0, 1_000_000_000),
		s.own("energy_wh_a_day", "E_d", s.EnergyWh),
		s.own("parked_w", "P_pk", s.ParkedW),
		s.all("loads", nth("E_l", len(s.Loads))),
		s.all("idle", nth("E_i", len(s.Idle))),
	}
	for i, l := range s.Loads {
		faults = append(faults, working.In(at("loads", i), s.own("load_wh", nth("E_l", i), l.EnergyWh)))
	}
	for k, x := range s.Idle {
		faults = append(faults, working.In(at("idle", k), s.own("inverter_idle_wh", nth("E_i", k), x.EnergyWh)))
	}
	return errors.Join(faults...)
}

// own wants the value of a symbol of the sum's working.
func (s AuditSum) own(field, symbol string, v decimal.Decimal) error {
	stands, ok := s.Working.Value(symbol)
	if ok && ordinary(v) && v.Equal(stands) {
		return nil
	}
	return &working.InputError{Field: field, Got: "not what its working has", Want: "a sum as the audit returned it"}
}

// all refuses a list that is shorter than the working: it has a next symbol.
func (s AuditSum) all(field, next string) error {
	if _, more := s.Working.Value(next); !more {
		return nil
	}
	return &working.InputError{Field: field, Got: "fewer than its working has", Want: "a sum as the audit returned it"}
}
