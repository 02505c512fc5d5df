package battery

import (
	"errors"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// DischargeShare is what one battery of a bank gives without end, as it was found with
// the whole installation: by the resistances of batteries and leads.
type DischargeShare struct {
	Battery  string              `json:"battery"`
	CurrentA decimal.NullDecimal `json:"source_a"`        // 0 to 10 000
	LimitA   decimal.NullDecimal `json:"battery_limit_a"` // its greatest steady discharge; above 0 to 10 000
	Lost     bool                `json:"lost"`            // another battery has dropped out meanwhile
	From     working.Working     `json:"from,omitempty"`  // the lines that gave the current
}

// Check judges the share against the battery's own limit: B01, and B02 while another
// has dropped out. A share or a limit that is not stated is a thing to ask. Source: none
// beside the limit's data sheet.
func (s DischargeShare) Check() (working.Check, error) {
	if err := errors.Join(betweenIf("source_a", s.CurrentA, 0, 10_000), aboveIf("battery_limit_a", s.LimitA, 0, 10_000)); err != nil {
		return working.Check{}, err
	}
	id, title := "B01", "Share of one battery"
	if s.Lost {
		id, title = "B02", "Share of one battery, another missing"
	}
	switch {
	case !s.CurrentA.Valid:
		return working.Check{ID: id, Title: title, Missing: "what " + s.Battery + " gives: solve the installation, or measure with a clamp meter"}, nil
	case !s.LimitA.Valid:
		return working.Check{ID: id, Title: title, Missing: "the greatest steady discharge current of " + s.Battery + ", from its data sheet"}, nil
	}
	w := working.Start(s.From)
	if line, ok := w.Value("I_so"); !ok || !line.Equal(s.CurrentA.Decimal) {
		w.Given("I_so", s.CurrentA.Decimal)
	}
	w.Given("I_bm", s.LimitA.Decimal)
	return w.Check(id, title, "I_so", "I_bm"), nil
}
