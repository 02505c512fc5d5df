package inspect

import (
	"fmt"
	"slices"

	"example.org/extralow/charge"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// inputW is what a converter takes at full output, from the definition of
// efficiency.
func inputW(c job.Charger) decimal.Decimal {
	return c.OutputV.Mul(c.MaxA).Mul(decimal.NewFromInt(100)).DivRound(c.EfficiencyPercent, 4)
}

// plate is an alternator as the charge package takes it.
func plate(a job.Alternator) charge.Alternator {
	p := charge.Alternator{RatedA: a.RatedA, IdleA: a.IdleA, VehicleA: a.VehicleA}
	if a.HotPercent.Valid {
		p.HotFactor = decimal.NewNullDecimal(a.HotPercent.Decimal.Shift(-2))
	}
	return p
}

// output is what an alternator gives hot, on the road or at idle: the least of
// what the hot factors say.
func (m *model) output(a job.Alternator, engine string) (decimal.Decimal, error) {
	ask := plate(a).OnRoad
	if engine == "idle" && a.IdleA.Valid {
		ask = plate(a).AtIdle
	}
	spares, err := ask()
	if err != nil {
		return decimal.Decimal{}, err
	}
	least := spares[0].OutputA
	for _, s := range spares[1:] {
		least = decimal.Min(least, s.OutputA)
	}
	return least, nil
}

// lowest is the lowest voltage that an alternator holds while it runs.
func lowest(a job.Alternator) decimal.Decimal {
	if a.Variable && a.LeastV.Valid {
		return a.LeastV.Decimal
	}
	return a.RunsAtV
}

// coldCharge asks of each battery of the house bank whether anything charges it
// below its least temperature.
func coldCharge(m *model) ([]Finding, error) {
	var all []Finding
	for i, b := range m.job.Batteries {
		if b.Bank != "house" || len(m.job.Chargers) == 0 {
			continue
		}
		path := fmt.Sprintf("batteries[%d]", i)
		var guard decimal.NullDecimal
		if b.ColdGuard {
			guard = b.LeastChargeC
		}
		c, err := charge.Battery{Chemistry: b.Chemistry, CapacityAh: b.CapacityAh, LeastC: b.LeastChargeC}.ColdCharge(m.job.ColdestC, guard)
		if err != nil {
			return nil, working.In(path, err)
		}
		all = append(all, Finding{Check: c, Where: b.Name, Path: path})
	}
	return all, nil
}

// chargeInside adds up the chargers that run together in a state, and compares
// the greatest sum with what the bank bears, whole and with each battery
// missing.
func chargeInside(m *model) ([]Finding, error) {
	t, state := m.together()
	f := Finding{Where: "the house bank", Path: "chargers", Corner: state}
	if len(t.Supplies) == 0 {
		f.Check = working.Check{ID: "C01", Silent: "no state charges it"}
		return []Finding{f}, nil
	}
	for _, b := range m.house() {
		if !b.MaxChargeA.Valid {
			f.Check = working.Check{ID: "C01", Missing: "ask the maker of " + b.Name + " for its greatest charging current"}
			return []Finding{f}, nil
		}
		t.LimitsA = append(t.LimitsA, charge.NamedLimit{Name: b.Name, CurrentA: b.MaxChargeA.Decimal})
	}
	checks, err := t.Checks()
	if err != nil {
		return nil, err
	}
	var all []Finding
	for i, c := range checks {
		g := f
		g.Check = c
		if i > 0 {
			g.Where += ", without " + t.LimitsA[i-1].Name
		}
		all = append(all, g)
	}
	return all, nil
}

// together returns the chargers of the state that charges hardest.
func (m *model) together() (hardest charge.Together, state string) {
	most := decimal.Zero
	for i := range m.job.States {
		s := &m.job.States[i]
		var t charge.Together
		sum := decimal.Zero
		for _, c := range m.chargersIn(s) {
			t.Supplies = append(t.Supplies, charge.Supply{Name: c.Name, CurrentA: c.MaxA})
			sum = sum.Add(c.MaxA)
		}
		if sum.GreaterThan(most) {
			most, hardest, state = sum, t, s.Name
		}
	}
	return hardest, state
}

func (m *model) chargersIn(s *job.State) []job.Charger {
	var all []job.Charger
	for _, c := range m.job.Chargers {
		if slices.Contains(s.Sources, c.Name) {
			all = append(all, c)
		}
	}
	return all
}

// roadSpare and idleSpare compare what the converters of a state draw with what
// the alternator has to spare, hot.
func roadSpare(m *model) ([]Finding, error) { return m.spare("C04", "road") }
func idleSpare(m *model) ([]Finding, error) { return m.spare("C03", "idle") }

func (m *model) spare(id, engine string) ([]Finding, error) {
	var all []Finding
	for i, a := range m.job.Alternators {
		f := Finding{Where: a.Name, Path: fmt.Sprintf("alternators[%d]", i)}
		draw, corner, err := m.converterDraw(engine)
		if err != nil {
			return nil, err
		}
		switch {
		case corner == "":
			f.Check = working.Check{ID: id, Silent: "no state charges from it with the engine at " + engine}
		case engine == "idle":
			f.Check, err = plate(a).CheckIdle(draw)
		default:
			f.Check, err = plate(a).CheckRoad(draw)
		}
		if err != nil {
			return nil, working.In(f.Path, err)
		}
		f.Corner = corner
		all = append(all, f)
	}
	return all, nil
}

// converterDraw is the most that the converters take together with the engine
// as asked, at the voltage that reaches their inputs then.
func (m *model) converterDraw(engine string) (most decimal.Decimal, corner string, err error) {
	for _, c := range m.cases {
		if c.state.Engine != engine || !c.sources {
			continue
		}
		sum, any := decimal.Zero, false
		for _, x := range m.chargersIn(c.state) {
			if v, ok := c.voltage(x.FedAt); x.Kind == "converter" && ok {
				in, err := converter(x, v).Input()
				if err != nil {
					return most, corner, err
				}
				sum, any = sum.Add(in.InputA), true
			}
		}
		if any && (corner == "" || sum.GreaterThan(most)) {
			most, corner = sum, c.name
		}
	}
	return most, corner, nil
}

func converter(c job.Charger, inputV decimal.Decimal) charge.Converter {
	return charge.Converter{OutputV: c.OutputV, OutputA: c.MaxA, InputV: inputV, Efficiency: c.EfficiencyPercent.Shift(-2)}
}

// wakes asks of each converter that watches the voltage whether it wakes at the
// lowest at which the vehicle runs, stays awake under its own load, and sleeps
// when the engine stands.
func wakes(m *model) ([]Finding, error) {
	var all []Finding
	for i, c := range m.job.Chargers {
		if c.Kind != "converter" {
			continue
		}
		f := Finding{Where: c.Name, Path: m.chargerPath(i)}
		switch {
		case c.WakesBy != "voltage":
			f.Check = working.Check{ID: "C05", Silent: "it is woken by a signal that the engine runs"}
			all = append(all, f)
			continue
		case len(m.job.Alternators) == 0:
			f.Check = working.Check{ID: "C05", Missing: "measure the voltage at its input with a voltmeter after some minutes of driving and of idling"}
			all = append(all, f)
			continue
		}
		found, err := m.wakesByVoltage(c, f)
		if err != nil {
			return nil, working.In(f.Path, err)
		}
		all = append(all, found...)
	}
	return all, nil
}

func (m *model) wakesByVoltage(c job.Charger, f Finding) ([]Finding, error) {
	running := lowest(m.job.Alternators[0])
	in, err := converter(c, running).Input()
	if err != nil {
		return nil, err
	}
	t := charge.Trigger{
		WakeV: c.WakeV.Decimal, SleepV: c.SleepV.Decimal, WakeS: decimal.NewFromInt(1), SleepS: decimal.NewFromInt(1),
		InputA: in.InputA, InputMilliohm: m.feedMilliohm(c), From: in.Working,
	}
	wake, err := t.Wakes(working.Figure{Value: running})
	if err != nil {
		return nil, err
	}
	stay, err := t.StaysAwake(working.Figure{Value: running})
	if err != nil {
		return nil, err
	}
	woken, awake := f, f
	woken.Check = wake
	awake.Check, awake.Where = stay, f.Where+", at work"
	if wake.Verdict() == working.Fails {
		awake.Check = working.Check{ID: "C05", Title: stay.Title, Silent: "it does not wake in the first place"}
	}
	return []Finding{woken, awake}, nil
}

// feedMilliohm is the resistance of a converter's feed, out and back.
func (m *model) feedMilliohm(c job.Charger) decimal.Decimal {
	sum := decimal.Zero
	for _, r := range m.path(c.FedAt, m.isBattery) {
		sum = sum.Add(r.hotMilliohm)
	}
	return sum
}

// inputHigh compares the voltage at each converter's input, while it works, with
// the lowest at which it holds its output.
func inputHigh(m *model) ([]Finding, error) {
	var all []Finding
	for i, c := range m.job.Chargers {
		if c.Kind != "converter" {
			continue
		}
		f := Finding{Where: c.Name + ", input", Path: m.chargerPath(i), Check: working.Check{ID: "C10", Silent: "no state uses it"}}
		for _, s := range m.cases {
			v, ok := s.voltage(c.FedAt)
			if !s.sources || !ok && s.CollapsedAt == "" || !slices.Contains(s.state.Sources, c.Name) {
				continue
			}
			check := voltsAt(s, c.FedAt, v, c.LeastInputV.Decimal)
			if f.Working == nil || check.Margin().LessThan(f.Margin()) {
				check.ID = "C10"
				f.Check, f.Corner = check, s.name
			}
		}
		all = append(all, f)
	}
	return all, nil
}

// refills steps the refill of a day's use in each state that charges, and
// compares the shortest with the hours that the customer gives.
func refills(m *model) ([]Finding, error) {
	sum, err := m.audit()
	if err != nil {
		return nil, err
	}
	best := Finding{Where: "the house bank", Path: "needs.refill_h", Check: working.Check{ID: "C06", Silent: "no state charges it"}}
	for i := range m.job.States {
		s := &m.job.States[i]
		if len(m.chargersIn(s)) == 0 {
			continue
		}
		c, err := m.refillIn(s, sum.ChargeAh)
		if err != nil {
			return nil, working.In(fmt.Sprintf("states[%d]", i), err)
		}
		if best.Working == nil || c.Margin().GreaterThan(best.Margin()) {
			best.Check, best.Corner = c, s.Name
		}
	}
	return []Finding{best}, nil
}

// nearlyFull is where a refill ends: the rest is a tail that never quite ends.
var nearlyFull = decimal.NewFromInt(98)

func (m *model) refillIn(s *job.State, dayAh decimal.Decimal) (working.Check, error) {
	sim, err := m.refill(s, dayAh)
	if err != nil {
		return working.Check{}, err
	}
	went, err := sim.Run()
	if err != nil {
		return working.Check{}, err
	}
	w := working.Start(went.Working)
	if !went.Reached {
		w.Given("t_av", m.job.Needs.RefillH)
		w.Calc("t_fill", "t_av × 1000", m.job.Needs.RefillH.Shift(3), cite.Arithmetic.At("", cite.Published))
		w.Note("it is not reached at all: the loads take what the chargers give")
	} else {
		w.Calc("t_fill", "t_c", went.TimeH, cite.Arithmetic.At("", cite.Published))
		w.Given("t_av", m.job.Needs.RefillH)
	}
	return w.Check("C06", "", "t_fill", "t_av"), nil
}

// refill is the charge of a day's use with the chargers and loads of a state.
func (m *model) refill(s *job.State, dayAh decimal.Decimal) (charge.Simulation, error) {
	hundred := decimal.NewFromInt(100)
	b, err := m.chargedBank()
	if err != nil {
		return charge.Simulation{}, err
	}
	amps, volts, efficiency := decimal.Zero, decimal.Zero, hundred
	for _, c := range m.chargersIn(s) {
		amps, volts = amps.Add(c.MaxA), decimal.Max(volts, c.OutputV)
		efficiency = decimal.Min(efficiency, c.EfficiencyPercent)
	}
	used := dayAh.Mul(hundred).DivRound(b.CapacityAh, 2)
	return charge.Simulation{
		Battery: b,
		Source:  charge.Source{CurrentA: amps, VoltageV: decimal.NewNullDecimal(volts), Efficiency: efficiency.Shift(-2)},
		Stages: []charge.Stage{
			{Name: "bulk", Letter: "I", VoltageV: decimal.NewNullDecimal(volts)},
			{Name: "absorption", Letter: "U", VoltageV: decimal.NewNullDecimal(volts)},
		},
		LoadA:        m.average(s),
		StartPercent: decimal.Max(decimal.Zero, decimal.Min(hundred.Sub(used), nearlyFull)),
		StopPercent:  decimal.NewNullDecimal(nearlyFull),
		WithinH:      decimal.NewFromInt(200),
		StepS:        60,
	}, nil
}

// average is what the loads of a state draw from the house bank on average, at
// the nominal voltage.
func (m *model) average(s *job.State) decimal.Decimal {
	sum := decimal.Zero
	for _, l := range m.job.Loads {
		if !slices.Contains(s.Loads, l.Name) || !m.ofHouse(l.Node()) {
			continue
		}
		amps := l.CurrentA.Decimal
		if l.PowerW.Valid {
			amps = l.PowerW.Decimal.DivRound(m.job.SystemV, 4)
		}
		sum = sum.Add(amps.Mul(l.Percent).Shift(-2))
	}
	return sum.Round(4)
}

// chargedBank is the house bank as a charger meets it.
func (m *model) chargedBank() (charge.Battery, error) {
	house := m.house()
	first := house[0]
	b := charge.Battery{Chemistry: first.Chemistry, LeastC: first.LeastChargeC}
	siemens := decimal.Zero
	limit := decimal.Zero
	for _, x := range house {
		b.CapacityAh = b.CapacityAh.Add(x.CapacityAh)
		siemens = siemens.Add(decimal.NewFromInt(1).DivRound(m.high(x), 9))
		limit = limit.Add(x.MaxChargeA.Decimal)
	}
	b.InternalMilliohm = decimal.NewFromInt(1).DivRound(siemens, 6)
	if limit.IsPositive() {
		b.ChargeA = decimal.NewNullDecimal(limit)
	}
	b.BatteryC = decimal.NewFromInt(20)
	hundred := decimal.NewFromInt(100)
	b.EMF = []charge.EMFPoint{
		{SoCPercent: decimal.Zero, EMFV: first.EmptyV},
		{SoCPercent: hundred.Sub(first.DepthPercent), EMFV: first.EmptyV},
		{SoCPercent: hundred, EMFV: first.FullV},
	}
	kept, err := keeps(first.Chemistry)
	b.Efficiency = []charge.EfficiencyStep{{FromPercent: decimal.Zero, Efficiency: kept}}
	return b, err
}

// keeps is the share of its charge that a battery keeps, over the whole range.
func keeps(chemistry string) (decimal.Decimal, error) {
	bands, err := tables.CoulombicEfficiencies(chemistry)
	if err != nil {
		return decimal.Decimal{}, err
	}
	for _, b := range bands {
		if b.Kind != "coulombic, overall" {
			continue
		}
		if b.Usual.Stated() {
			return b.Usual.Value, nil
		}
		return b.Least.Value, nil
	}
	return decimal.Decimal{}, fmt.Errorf("coulombic efficiency of %s: %w", chemistry, tables.ErrNotListed)
}
