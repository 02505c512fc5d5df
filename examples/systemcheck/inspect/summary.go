package inspect

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

// Bank is the house bank in short.
type Bank struct {
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

// volts works out what reaches every load and inverter in every state.
func (m *model) volts() []LoadVolts {
	type wanted struct{ name, node string }
	var all []wanted
	for _, l := range m.job.Loads {
		if l.At != "" && !l.Cranking {
			all = append(all, wanted{l.Name, l.At})
		}
	}
	for _, inv := range m.job.Inverters {
		all = append(all, wanted{inv.Name, inv.Name})
	}
	rows := make([]LoadVolts, len(all))
	for i, w := range all {
		rows[i] = LoadVolts{w.name, make([]decimal.NullDecimal, len(m.job.States)), make([]decimal.NullDecimal, len(m.job.States))}
		for _, c := range m.cases {
			if !c.alone() || !c.feeds(w.name) {
				continue
			}
			left, _ := c.voltage(w.node)
			rows[i].DropV[c.index] = decimal.NewNullDecimal(c.lost(m.toBattery(w.node, "")))
			rows[i].LeftV[c.index] = decimal.NewNullDecimal(left)
		}
	}
	return rows
}

// alone reports the plain case of a state: its loads on all batteries.
func (s setting) alone() bool {
	return s == setting{name: s.name, index: s.index, state: s.state, loads: true}
}

// bankInShort gathers the figures that a customer asks for.
func (m *model) bankInShort() (Bank, error) {
	bank := m.bank()
	rating, err := bank.Rating()
	if err != nil {
		return Bank{}, err
	}
	usable, _, err := m.usable()
	if err != nil {
		return Bank{}, err
	}
	sum, err := m.audit()
	if err != nil {
		return Bank{}, err
	}
	b := Bank{
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
func (m *model) inputs() ([]Input, error) {
	var all []Input
	for i, inv := range m.job.Inverters {
		if !inv.InputUF.Valid {
			continue
		}
		filled, err := m.fills(inv)
		if err != nil {
			return nil, working.In(indexed("inverters", i), err)
		}
		in := Input{Inverter: inv.Name, CapacitanceUF: inv.InputUF.Decimal, Ohm: inv.PrechargeOhm, PeakA: filled.PeakA, EnergyJ: filled.EnergyJ}
		if inv.PrechargeOhm.Valid {
			in.TimeS = decimal.NewNullDecimal(filled.TimeS)
		}
		all = append(all, in)
	}
	return all, nil
}

func (m *model) shares() ([]Share, error) {
	var all []Share
	for _, b := range m.house() {
		s := Share{Battery: b.Name, LimitA: b.MaxDischargeA}
		for _, c := range m.cases {
			a := c.given(b.Name)
			switch {
			case c.short():
			case c.missing == "":
				s.TogetherA = decimal.Max(s.TogetherA, a)
			default:
				s.AloneA = decimal.Max(s.AloneA, a)
			}
		}
		f, err := m.fault(b.Name)
		if err != nil {
			return nil, err
		}
		s.FaultA = f.CurrentA
		all = append(all, s)
	}
	return all, nil
}
