package battery

import (
	"errors"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// CrankingRating is a starter battery by its cranking rating.
type CrankingRating struct {
	Rating  string          `json:"cranking_test"` // [tables.CrankingTestOf]: "SAE CCA", "EN1" ...
	RatedA  decimal.Decimal `json:"cranking_rating_a"`
	RestedV decimal.Decimal `json:"rested_v"` // of a full 12 V battery, in the cold
	From    working.Working `json:"from,omitempty"`
}

// CrankingResistance is the resistance that a rating implies.
type CrankingResistance struct {
	Milliohm decimal.Decimal `json:"cranking_milliohm"`
	AtC      decimal.Decimal `json:"battery_c"`
	Working  working.Working `json:"working"`
}

// Resistance returns the most that the battery's resistance can be in the test
// that its rating comes from:
//
//	R_cr = (U_rs − U_e) × 1000 ÷ I_cr   [mΩ], rounded up to 0.01
//
// It holds for a 12 V battery at the temperature of the test, after its
// seconds. A warm battery has about half of it or less, so this is
// HighMilliohm of a [BankBattery]: never take it for a fault current. LowMilliohm
// left unset beside it takes the share that the tables have of it. Ratings of different tests must
// not be compared by their amperes. Current 1 to 10 000 A, voltage 10 to
// 15 V. Sources: the test in the lines, Ohm's law.
func (c CrankingRating) Resistance() (CrankingResistance, error) {
	test, err := tables.CrankingTestOf(c.Rating)
	if err = errors.Join(err, working.Between("cranking_rating_a", c.RatedA, 1, 10_000), working.Between("rested_v", c.RestedV, 10, 15)); err != nil {
		return CrankingResistance{}, err
	}
	w := working.Start(c.From)
	i, u := w.Given("I_cr", c.RatedA), w.Given("U_rs", c.RestedV)
	at, end := w.LookUp("T_b", test.AtC), w.LookUp("U_e", test.EndV)
	r := w.CalcUp("R_cr", "(U_rs − U_e) × 1000 ÷ I_cr", u.Sub(end).Shift(3), i, 2, ohm)
	return CrankingResistance{Milliohm: r, AtC: at, Working: slices.Clip(w)}, nil
}
