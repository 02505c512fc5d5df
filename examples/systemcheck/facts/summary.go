package facts

import (
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// LoadVolts is what reaches one load in each state, on the batteries alone.
type LoadVolts struct {
	Load  string
	DropV []decimal.NullDecimal // along the whole path, in the order of the states; unset where it does not run
	LeftV []decimal.NullDecimal // at the load, batteries nearly empty and aged
}

// BankSummary is the house bank in short.
type BankSummary struct {
	CapacityAh, UsableWh, DayWh, LastsDays decimal.Decimal
	Shares                                 []Share
	Refills                                []Refill
	Inputs                                 []Input
	Missing                                string // what to ask where nobody knows what is usable; then UsableWh and LastsDays are nought
}

// Input is what the capacitors at an inverter's input take when they are filled.
type Input struct {
	Inverter      string
	CapacitanceUF decimal.Decimal
	Ohm           decimal.NullDecimal // unset: no resistor is stated
	PeakA         decimal.Decimal     // first current: through the resistor, or what batteries and cables let through
	EnergyJ       decimal.Decimal     // in the resistor, or in batteries and cables, at each charge
	TimeS         decimal.NullDecimal // to 95 % of the voltage; unset without a resistor
}

// Share is what one battery gives at the worst.
type Share struct {
	Battery   string
	TogetherA decimal.Decimal     // with all batteries there
	AloneA    decimal.Decimal     // with another missing
	LimitA    decimal.NullDecimal // its own
	FaultA    decimal.Decimal     // short circuit at its posts, every source there
}

// Volts works out what reaches every load and inverter in every state.
func (m *Facts) Volts() []LoadVolts {
	type wanted struct{ name, node string }
	var all []wanted
	for _, l := range m.Job.Loads {
		if l.At != "" && !l.Cranking {
			all = append(all, wanted{l.Name, l.At})
		}
	}
	for _, inv := range m.Job.Inverters {
		all = append(all, wanted{inv.Name, inv.Name})
	}
	rows := make([]LoadVolts, len(all))
	for i, w := range all {
		rows[i] = LoadVolts{w.name, make([]decimal.NullDecimal, len(m.Job.States)), make([]decimal.NullDecimal, len(m.Job.States))}
		for _, c := range m.Cases {
			if !c.alone() || !m.Feeds(c, w.name) {
				continue
			}
			left, _ := c.Voltage(w.node)
			rows[i].DropV[c.Index] = decimal.NewNullDecimal(c.LostTo(m.ToBattery(w.node, "")))
			rows[i].LeftV[c.Index] = decimal.NewNullDecimal(left)
		}
	}
	return rows
}

// BankInShort gathers the figures that a customer asks for.
func (m *Facts) BankInShort() (BankSummary, error) {
	bank := m.bank()
	rating, err := bank.Rating()
	if err != nil {
		return BankSummary{}, err
	}
	usable, _, err := m.usable()
	if err != nil {
		return BankSummary{}, err
	}
	sum, err := m.Audit()
	if err != nil {
		return BankSummary{}, err
	}
	b := BankSummary{
		CapacityAh: rating.CapacityAh, UsableWh: usable.EnergyWh.Decimal, DayWh: sum.EnergyWh,
		LastsDays: usable.EnergyWh.Decimal.DivRound(sum.EnergyWh, 2), Missing: usable.Missing,
	}
	if b.Shares, err = m.shares(); err != nil {
		return b, err
	}
	if b.Refills, err = m.refillTimes(sum.ChargeAh); err != nil {
		return b, err
	}
	b.Inputs, err = m.inputs()
	return b, err
}

// inputs gathers the inverters that state their input capacitance.
func (m *Facts) inputs() ([]Input, error) {
	var all []Input
	for i, inv := range m.Job.Inverters {
		if !inv.InputUF.Valid {
			continue
		}
		filled, err := m.Fills(inv)
		if err != nil {
			return nil, working.In(Indexed("inverters", i), err)
		}
		in := Input{Inverter: inv.Name, CapacitanceUF: inv.InputUF.Decimal, Ohm: inv.PrechargeOhm, PeakA: filled.PeakA, EnergyJ: filled.EnergyJ}
		if inv.PrechargeOhm.Valid {
			in.TimeS = decimal.NewNullDecimal(filled.TimeS)
		}
		all = append(all, in)
	}
	return all, nil
}

func (m *Facts) shares() ([]Share, error) {
	var all []Share
	for _, b := range m.House() {
		s := Share{Battery: b.Name, LimitA: b.MaxDischargeA}
		for _, c := range m.Cases {
			a := c.given(b.Name)
			switch {
			case c.short():
			case c.BatteryMissing == "":
				s.TogetherA = decimal.Max(s.TogetherA, a)
			default:
				s.AloneA = decimal.Max(s.AloneA, a)
			}
		}
		f, err := m.Fault(b.Name)
		if err != nil {
			return nil, err
		}
		s.FaultA = f.FaultA
		all = append(all, s)
	}
	return all, nil
}
