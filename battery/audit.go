package battery

import (
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// AuditLoad is one consumer. It states its watts, or its amperes at a voltage.
type AuditLoad struct {
	Name        string              `json:"name"`
	PowerW      decimal.NullDecimal `json:"power_w"`      // at its own input; through an inverter its a.c. watts
	CurrentA    decimal.NullDecimal `json:"current_a"`    // in place of PowerW; 0 to 10 000
	AtV         decimal.NullDecimal `json:"at_v"`         // where CurrentA is stated
	HoursADay   decimal.NullDecimal `json:"hours_a_day"`  // 0: not on such a day
	DutyPercent decimal.Decimal     `json:"duty_percent"` // share of those hours that it runs: 100 for a lamp
	StandbyW    decimal.NullDecimal `json:"standby_w"`    // through the rest of the day; unset: none
	SurgeW      decimal.NullDecimal `json:"surge_w"`      // while it starts; unset: no more than PowerW
	Inverter    string              `json:"inverter"`     // the name of the one that feeds it; empty: fed directly
	Isolated    bool                `json:"isolated"`     // dead while parked: a switch cuts its standby
}

// Audit is the loads of one installation.
type Audit struct {
	Loads     []AuditLoad     `json:"loads,omitempty"`
	Inverters []AuditInverter `json:"inverters,omitempty"`
	SystemV   decimal.Decimal `json:"system_v"`
	LowestV   decimal.Decimal `json:"lowest_v"`           // lowest working voltage: currents are summed there
	Together  []StateOfUse    `json:"together,omitempty"` // sets that run together; none stated: all loads at once
	From      working.Working `json:"from,omitempty"`     // the lines that gave the inputs
}

// AuditInverter is an inverter and how long a day it is switched on.
type AuditInverter struct {
	Inverter
	OnHours  decimal.NullDecimal `json:"inverter_on_h"` // it draws its idle power for all of them
	Isolated bool                `json:"isolated"`      // off while parked
}

// StateOfUse names loads that run together.
type StateOfUse struct {
	Name  string   `json:"name"`
	Loads []string `json:"loads,omitempty"`
}

// AuditSum is what the loads of an audit take.
type AuditSum struct {
	EnergyWh decimal.Decimal `json:"energy_wh_a_day"`
	ChargeAh decimal.Decimal `json:"charge_ah_a_day"` // at the nominal voltage
	Loads    []LoadSum       `json:"loads,omitempty"` // in the order of the audit
	Idle     []IdleSum       `json:"idle,omitempty"`  // of each inverter, in the order of the audit
	Together []Coincident    `json:"together,omitempty"`
	ParkedW  decimal.Decimal `json:"parked_w"`
	ParkedA  decimal.Decimal `json:"parked_a"` // at the nominal voltage
	Working  working.Working `json:"working"`
}

// LoadSum is what one load takes.
type LoadSum struct {
	Name     string          `json:"name"`
	EnergyWh decimal.Decimal `json:"load_wh"`
	CurrentA decimal.Decimal `json:"load_a"`  // from the battery, at the lowest voltage
	StartA   decimal.Decimal `json:"start_a"` // the same while it starts
}

// IdleSum is what one inverter takes for itself.
type IdleSum struct {
	Name     string          `json:"name"`
	EnergyWh decimal.Decimal `json:"inverter_idle_wh"`
}

// Coincident is what the loads of one state of use draw together, idle
// inverters included, at the lowest voltage.
type Coincident struct {
	Name      string          `json:"name"`
	SteadyA   decimal.Decimal `json:"together_a"`
	SurgeA    decimal.Decimal `json:"together_surge_a"` // the worst one starts while the others run
	AllStartA decimal.Decimal `json:"all_start_a"`      // all start at once: after a main switch, say
}

// Sum returns what the loads take in a day and at once:
//
//	t_r = t_d × d_c ÷ 100                          [h]
//	E_l = (P × t_r + P_sb × (24 − t_r)) × 100 ÷ η  [Wh]; η only through an inverter
//	E_d = Σ E_l + Σ P_0 × t_on                     [Wh]
//	Q_d = E_d ÷ U_n                                [Ah]
//	I_l = P × 100 ÷ η ÷ U_lo                       [A]; P = I × U_at where amperes are stated
//	I_au = (P_au × 100 ÷ η_au + P_0) ÷ U_lo        [A]; of an inverter, P_au = Σ P of its loads
//	I_co = Σ I_l + Σ I_au                          [A]; I_l of the loads fed directly
//
// A load counts as one of constant power, so its current rises as the voltage
// falls; of a heater or a filament lamp that is on the safe side. An inverter's
// efficiency is the one stated or, from its curve, that at the sum of its loads
// which run together; of one load's energy and current it is the worst from
// that load alone up to the largest sum that it runs in, and of its start that
// at its surge. A curve must reach all of these outputs, the one with all loads
// starting at once included. Each quotient is rounded up to 0.01.
//
// Loads 1 to 200, inverters to 50, states to 100, powers 0 to 100 000 W, 0 to 24 h,
// duty above 0 to 100 %, voltages 1 to 100 V (AtV to 400 V). VA is not W: see [PowerFromVA]. Source:
// arithmetic; the list of what to sum is common practice.
func (a Audit) Sum() (AuditSum, error) {
	if err := a.check(); err != nil {
		return AuditSum{}, err
	}
	w := working.Start(a.From)
	w.Given("U_n", a.SystemV)
	w.Given("U_lo", a.LowestV)
	var s AuditSum
	energies := a.idle(&w, &s)
	for i, l := range a.Loads {
		one, err := a.load(&w, i, l)
		if err != nil {
			return AuditSum{}, working.In(at("loads", i), err)
		}
		s.Loads = append(s.Loads, one)
		energies = append(energies, nth("E_l", i))
	}
	w.Part("a day")
	s.EnergyWh = addUp(&w, "E_d", energies...)
	s.ChargeAh = w.CalcUp("Q_d", "E_d ÷ U_n", s.EnergyWh, a.SystemV, 2, arithmetic)
	for k, state := range a.states() {
		together, err := a.coincident(&w, k, state, s.Loads)
		if err != nil {
			return AuditSum{}, working.In(at("together", k), err)
		}
		s.Together = append(s.Together, together)
	}
	s.ParkedW, s.ParkedA = a.parked(&w)
	s.Working = slices.Clip(w)
	return s, nil
}

// idle adds what each inverter draws with no load, and returns the symbols of
// its energy a day.
func (a Audit) idle(w *working.Working, s *AuditSum) []string {
	var energies []string
	for k, inverter := range a.Inverters {
		w.Part(inverter.Name + ", idle")
		p := w.Given(nth("P_0", k), inverter.IdleW.Decimal)
		t := w.Given(nth("t_on", k), inverter.OnHours.Decimal)
		e := w.Calc(nth("E_i", k), nth("P_0", k)+" × "+nth("t_on", k), p.Mul(t), arithmetic)
		s.Idle = append(s.Idle, IdleSum{inverter.Name, e})
		w.CalcUp(nth("I_0", k), nth("P_0", k)+" ÷ U_lo", p, a.LowestV, 2, ohm)
		energies = append(energies, nth("E_i", k))
	}
	return energies
}

// load adds the lines of one load.
func (a Audit) load(w *working.Working, i int, l AuditLoad) (LoadSum, error) {
	w.Part(l.Name)
	p := l.power(w, i)
	sum := LoadSum{Name: l.Name}
	through, share := "", one // what the inverter makes of it
	if k := a.inverter(l.Inverter); k >= 0 {
		percent, err := a.Inverters[k].efficiency(w, nth("η", i), p, a.greatestBeside(l))
		if err != nil {
			return LoadSum{}, err
		}
		through, share = " × 100 ÷ "+nth("η", i), percent.Shift(-2)
	}
	hours := w.Given(nth("t_d", i), l.HoursADay.Decimal)
	duty := w.Given(nth("d_c", i), l.DutyPercent)
	running := w.Calc(nth("t_r", i), nth("t_d", i)+" × "+nth("d_c", i)+" ÷ 100", hours.Mul(duty).Shift(-2), arithmetic)
	energy, formula := p.Mul(running), nth("P", i)+" × "+nth("t_r", i)
	if l.StandbyW.Valid {
		standby := w.Given(nth("P_sb", i), l.StandbyW.Decimal)
		energy = energy.Add(standby.Mul(day.Sub(running)))
		formula += " + " + nth("P_sb", i) + " × (24 − " + nth("t_r", i) + ")"
		if through != "" {
			formula = "(" + formula + ")"
		}
	}
	sum.EnergyWh = w.CalcUp(nth("E_l", i), formula+through, energy, share, 2, arithmetic)
	sum.CurrentA = w.CalcUp(nth("I_l", i), nth("P", i)+through+" ÷ U_lo", p, share.Mul(a.LowestV), 2, ohm)
	sum.StartA = sum.CurrentA
	if l.SurgeW.Valid {
		surge := w.Given(nth("P_su", i), l.SurgeW.Decimal)
		if k := a.inverter(l.Inverter); k >= 0 {
			percent, err := a.Inverters[k].efficiency(w, nth("η", i), surge, surge)
			if err != nil {
				return LoadSum{}, err
			}
			share = percent.Shift(-2)
		}
		sum.StartA = w.CalcUp(nth("I_st", i), nth("P_su", i)+through+" ÷ U_lo", surge, share.Mul(a.LowestV), 2, ohm)
	}
	return sum, nil
}

// watts is what a load draws while it runs.
func (l AuditLoad) watts() decimal.Decimal {
	if l.PowerW.Valid {
		return l.PowerW.Decimal
	}
	return l.CurrentA.Decimal.Mul(l.AtV.Decimal)
}

// greatestBeside is the greatest output of a load's inverter in any state of use
// that the load is in; its own where it is in none.
func (a Audit) greatestBeside(l AuditLoad) decimal.Decimal {
	greatest := l.watts()
	for _, state := range a.states() {
		if !slices.Contains(state.Loads, l.Name) {
			continue
		}
		sum := decimal.Zero
		for _, other := range a.Loads {
			if other.Inverter == l.Inverter && slices.Contains(state.Loads, other.Name) {
				sum = sum.Add(other.watts())
			}
		}
		greatest = decimal.Max(greatest, sum)
	}
	return greatest
}

// power adds the watts of a load, worked out where it states amperes.
func (l AuditLoad) power(w *working.Working, i int) decimal.Decimal {
	if l.PowerW.Valid {
		return w.Given(nth("P", i), l.PowerW.Decimal)
	}
	amps := w.Given(nth("I", i), l.CurrentA.Decimal)
	volts := w.Given(nth("U_at", i), l.AtV.Decimal)
	return w.Calc(nth("P", i), nth("I", i)+" × "+nth("U_at", i), amps.Mul(volts), ohm)
}

// inverter returns the index of the inverter of that name, -1 where there is none.
func (a Audit) inverter(name string) int {
	return slices.IndexFunc(a.Inverters, func(i AuditInverter) bool { return name != "" && i.Name == name })
}

// states returns the states of use, all loads at once where none is stated.
func (a Audit) states() []StateOfUse {
	if len(a.Together) > 0 {
		return a.Together
	}
	all := StateOfUse{Name: "all loads at once"}
	for _, l := range a.Loads {
		all.Loads = append(all.Loads, l.Name)
	}
	return []StateOfUse{all}
}

// coincident adds the lines of the loads of one state.
func (a Audit) coincident(w *working.Working, k int, state StateOfUse, loads []LoadSum) (Coincident, error) {
	c := Coincident{Name: state.Name}
	var steady, starts, excess []string
	worst := decimal.Zero
	for _, n := range a.idling(state) {
		more, err := a.converted(w, n, state)
		if err != nil {
			return Coincident{}, err
		}
		steady, starts = append(steady, nth("I_au", n)), append(starts, nth("I_cu", n))
		if more.IsPositive() {
			excess = append(excess, nth("I_bu", n)+" − "+nth("I_au", n))
			worst = decimal.Max(worst, more)
		}
	}
	w.Part(state.Name)
	for i, l := range a.Loads {
		if !slices.Contains(state.Loads, l.Name) || l.Inverter != "" {
			continue
		}
		steady = append(steady, nth("I_l", i))
		if !l.SurgeW.Valid {
			starts = append(starts, nth("I_l", i))
			continue
		}
		starts = append(starts, nth("I_st", i))
		excess = append(excess, nth("I_st", i)+" − "+nth("I_l", i))
		worst = decimal.Max(worst, loads[i].StartA.Sub(loads[i].CurrentA))
	}
	co := nth("I_co", k)
	c.SteadyA = addUp(w, co, steady...)
	c.SurgeA = w.Calc(nth("I_su", k), surgeFormula(co, excess), c.SteadyA.Add(worst), arithmetic)
	c.AllStartA = addUp(w, nth("I_all", k), starts...)
	return c, nil
}

// converted adds the lines of one inverter in a state of use, and returns how
// much more it takes while the worst of its loads starts.
func (a Audit) converted(w *working.Working, n int, state StateOfUse) (decimal.Decimal, error) {
	inverter := a.Inverters[n]
	w.Part(state.Name + ", " + inverter.Name)
	var run, start, more []string
	runW, startW, moreW := decimal.Zero, decimal.Zero, decimal.Zero
	for i, l := range a.Loads {
		if l.Inverter != inverter.Name || !slices.Contains(state.Loads, l.Name) {
			continue
		}
		run, runW = append(run, nth("P", i)), runW.Add(l.watts())
		if !l.SurgeW.Valid {
			start, startW = append(start, nth("P", i)), startW.Add(l.watts())
			continue
		}
		start, startW = append(start, nth("P_su", i)), startW.Add(l.SurgeW.Decimal)
		more = append(more, nth("P_su", i)+" − "+nth("P", i))
		moreW = decimal.Max(moreW, l.SurgeW.Decimal.Sub(l.watts()))
	}
	var amps [3]decimal.Decimal
	for m, output := range []struct {
		letter, formula string
		outputW         decimal.Decimal
	}{
		{"a", sumOf(run...), runW},
		{"b", surgeFormula(nth("P_au", n), more), runW.Add(moreW)},
		{"c", sumOf(start...), startW},
	} {
		p, eta := nth("P_"+output.letter+"u", n), nth("η_"+output.letter+"u", n)
		w.Calc(p, output.formula, output.outputW, arithmetic)
		percent, err := inverter.efficiency(w, eta, output.outputW, output.outputW)
		if err != nil {
			return decimal.Decimal{}, err
		}
		drawn := output.outputW.Mul(hundred).Add(inverter.IdleW.Decimal.Mul(percent))
		amps[m] = w.CalcUp(nth("I_"+output.letter+"u", n), "("+p+" × 100 ÷ "+eta+" + "+nth("P_0", n)+") ÷ U_lo", drawn, percent.Mul(a.LowestV), 2, ohm)
	}
	return amps[1].Sub(amps[0]), nil
}

func surgeFormula(together string, excess []string) string {
	if len(excess) == 0 {
		return together
	}
	return together + " + max(0, " + joined(excess) + ")"
}

// idling returns the inverters that a state needs.
func (a Audit) idling(state StateOfUse) []int {
	var all []int
	for k, inverter := range a.Inverters {
		needed := slices.ContainsFunc(a.Loads, func(l AuditLoad) bool {
			return l.Inverter == inverter.Name && slices.Contains(state.Loads, l.Name)
		})
		if needed {
			all = append(all, k)
		}
	}
	return all
}

// parked adds what is drawn while nothing is used.
func (a Audit) parked(w *working.Working) (watts, amps decimal.Decimal) {
	w.Part("parked")
	var drains []string
	for i, l := range a.Loads {
		if l.StandbyW.Valid && !l.Isolated {
			drains = append(drains, nth("P_sb", i))
		}
	}
	for k, inverter := range a.Inverters {
		if !inverter.Isolated {
			drains = append(drains, nth("P_0", k))
		}
	}
	watts = addUp(w, "P_pk", drains...)
	amps = w.CalcUp("I_pk", "P_pk ÷ U_n", watts, a.SystemV, 3, ohm)
	return watts, amps
}

func (a Audit) check() error {
	faults := []error{
		working.Between("system_v", a.SystemV, 1, 100),
		working.Between("lowest_v", a.LowestV, 1, 100),
		working.Between("loads", whole(len(a.Loads)), 1, 200),
		working.Between("inverters", whole(len(a.Inverters)), 0, 50),
		working.Between("together", whole(len(a.Together)), 0, 100),
	}
	var inverters, names []string
	for k, inverter := range a.Inverters {
		faults = append(faults, working.In(at("inverters", k), errors.Join(
			inverter.check(), stated("inverter_on_h", inverter.OnHours, 0, 24), once("name", inverter.Name, inverters))))
		inverters = append(inverters, inverter.Name)
	}
	for i, l := range a.Loads {
		faults = append(faults, working.In(at("loads", i), errors.Join(l.check(), a.checkFeed(l), once("name", l.Name, names))))
		names = append(names, l.Name)
	}
	for k, state := range a.Together {
		for _, name := range state.Loads {
			faults = append(faults, working.In(at("together", k), working.OneOf("loads", name, names...)))
		}
	}
	return errors.Join(faults...)
}

func (a Audit) checkFeed(l AuditLoad) error {
	if l.Inverter == "" || a.inverter(l.Inverter) >= 0 {
		return nil
	}
	var names []string
	for _, inverter := range a.Inverters {
		names = append(names, inverter.Name)
	}
	return working.OneOf("inverter", l.Inverter, names...)
}

func (l AuditLoad) check() error {
	return errors.Join(
		l.checkDraw(),
		stated("hours_a_day", l.HoursADay, 0, 24),
		working.Above("duty_percent", l.DutyPercent, 0, 100),
		betweenIf("standby_w", l.StandbyW, 0, 100_000),
		betweenIf("surge_w", l.SurgeW, 0, 100_000),
	)
}

// checkDraw wants watts, or amperes with their voltage.
func (l AuditLoad) checkDraw() error {
	faults := []error{
		betweenIf("power_w", l.PowerW, 0, 100_000),
		betweenIf("current_a", l.CurrentA, 0, 10_000),
		betweenIf("at_v", l.AtV, 1, 400),
	}
	if l.PowerW.Valid == l.CurrentA.Valid {
		faults = append(faults, &working.InputError{Field: "power_w", Got: fmt.Sprintf("%s beside current_a %s", orUnset(l.PowerW), orUnset(l.CurrentA)),
			Want: "one of power_w and current_a"})
	}
	if !l.PowerW.Valid && !l.AtV.Valid && l.CurrentA.Valid {
		faults = append(faults, &working.InputError{Field: "at_v", Got: "unset", Want: "the voltage at which current_a is stated"})
	}
	return errors.Join(faults...)
}

// Power is a power in watts.
type Power struct {
	PowerW  decimal.Decimal `json:"power_w"`
	Working working.Working `json:"working"`
}

// PowerFromVA returns the watts of a load that is rated in volt-amperes:
//
//	P = S_va × λ   [W]
//
// VA is not W, and the power factor λ has no default: ask the maker, or measure
// both. Apparent power above 0 to 100 000 VA, power factor above 0 to 1. Source: the
// definition of the power factor.
func PowerFromVA(apparentVA, powerFactor decimal.Decimal) (Power, error) {
	if err := errors.Join(
		working.Above("apparent_va", apparentVA, 0, 100_000),
		working.Above("power_factor", powerFactor, 0, 1),
	); err != nil {
		return Power{}, err
	}
	var w working.Working
	p := w.Given("S_va", apparentVA).Mul(w.Given("λ", powerFactor))
	w.Calc("P", "S_va × λ", p, arithmetic)
	return Power{PowerW: p, Working: slices.Clip(w)}, nil
}
