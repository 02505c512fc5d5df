package battery

import (
	"errors"
	"slices"
	"strconv"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// GasRoom is several batteries in one room or compartment, which may all be
// charged at once.
type GasRoom struct {
	Batteries    []Gassing       `json:"batteries,omitempty"` // 1 to 48
	DesignFactor decimal.Decimal `json:"design_factor"`       // 1: nothing added; more where batteries may follow or air finds its way badly; 1 to 10
	From         working.Working `json:"from,omitempty"`
}

// Ventilation returns the air flow for all of them and the natural openings:
//
//	Q_vs = Q_v of each battery, as [Gassing.Ventilation]
//	Q_v  = k_ds × (Q_vs.1 + Q_vs.2 ...)   [m³/h]
//	A_v  = k_A × Q_v                       [cm²], for inlet and outlet each
//
// A battery that makes no gas in service adds nothing, and a note names it; where
// none makes any, Silent says so. The factor has no default: who designs the room
// states it, and 1 is a statement. Batteries 1 to 48, factor 1 to 10. Source: IEC
// 62485-2 clause 8.2 (flows of batteries in one room add up) and 8.3.
func (r GasRoom) Ventilation() (Ventilation, error) {
	if err := r.check(); err != nil {
		return Ventilation{}, err
	}
	constant, err := flowConstant()
	if err != nil {
		return Ventilation{}, err
	}
	w := working.Start(r.From)
	var flows, silent []string
	total := decimal.Zero
	for i, g := range r.Batteries {
		v, err := g.Ventilation()
		if err != nil {
			return Ventilation{}, working.In(at("batteries", i), err)
		}
		if v.Silent != "" {
			silent = append(silent, string(g.Chemistry))
			continue
		}
		w.Part("battery " + strconv.Itoa(i+1))
		w = append(w, v.Working...)
		symbol := nth("Q_vs", i)
		total = total.Add(w.Calc(symbol, "Q_v", v.FlowM3H.Decimal, arithmetic))
		flows = append(flows, symbol)
	}
	if len(flows) == 0 {
		return Ventilation{Silent: "no gas in service is known of " + joined(slices.Compact(silent)) + ": the maker says what the vents need"}, nil
	}
	w.Part("the room")
	k := w.Given("k_ds", r.DesignFactor)
	flow := w.Calc("Q_v", "k_ds × ("+sumOf(flows...)+")", k.Mul(total), constant.Source)
	if len(silent) > 0 {
		w.Note("without gas in service: " + joined(silent))
	}
	return opened(w, flow)
}

// CheckOpening judges the free area of the smaller of both openings: B08.
// Opening fitted 0 to 100 000 cm².
func (r GasRoom) CheckOpening(fittedCM2 decimal.Decimal) (working.Check, error) {
	v, err := r.Ventilation()
	return checkOpening(v, err, fittedCM2)
}

func (r GasRoom) check() error {
	faults := []error{
		working.Between("batteries", whole(len(r.Batteries)), 1, 48),
		working.Between("design_factor", r.DesignFactor, 1, 10),
	}
	for i, g := range r.Batteries {
		faults = append(faults, working.In(at("batteries", i), g.check()))
	}
	return errors.Join(faults...)
}
