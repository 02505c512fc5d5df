package facts

import (
	"fmt"
	"slices"

	"example.org/extralow/charge"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire/installation"
	"github.com/shopspring/decimal"
)

// inputW is what a converter takes at full output, from the definition of
// efficiency.
func inputW(c job.Charger) decimal.Decimal {
	return c.OutputV.Mul(c.MaxA).Mul(decimal.NewFromInt(100)).DivRound(c.EfficiencyPercent, 4)
}

// Plate is an alternator as the charge package takes it.
func Plate(a job.Alternator) charge.Alternator {
	p := charge.Alternator{RatedA: a.RatedA, IdleA: a.IdleA, VehicleA: decimal.NewNullDecimal(a.VehicleA)}
	if a.HotPercent.Valid {
		p.HotFactor = decimal.NewNullDecimal(a.HotPercent.Decimal.Shift(-2))
	}
	return p
}

// Output is what an alternator gives hot, on the road or at idle: the least of
// what the hot factors say.
func (m *Facts) Output(a job.Alternator, engine string) (decimal.Decimal, error) {
	ask := Plate(a).OnRoad
	if engine == "idle" && a.IdleA.Valid {
		ask = Plate(a).AtIdle
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

// Lowest is the lowest voltage that an alternator holds while it runs.
func Lowest(a job.Alternator) decimal.Decimal {
	if a.LeastV.Valid {
		return decimal.Min(a.LeastV.Decimal, a.RunsAtV)
	}
	return a.RunsAtV
}

// Runs reports whether an alternator turns in a state, listed there or not.
func Runs(a job.Alternator, s *job.State) bool {
	return slices.Contains(s.Sources, a.Name) || s.Engine == "road" || s.Engine == "idle"
}

// Supply is something that charges a bank in a state.
type Supply struct {
	Name              string
	MostA, LeastA     decimal.Decimal // of an alternator: cold and hot, less the vehicle's own loads
	volts             decimal.Decimal
	efficiencyPercent decimal.Decimal
}

// WorksIn lists those supplies that are known to charge: a converter that never wakes
// at the voltage the engine runs at, or whose input is below its least, gives nothing
// that may be counted on, though it counts where chargers add up.
func (m *Facts) WorksIn(s *job.State) ([]Supply, error) {
	all, err := m.SuppliesIn(s)
	return slices.DeleteFunc(all, func(x Supply) bool {
		i := slices.IndexFunc(m.Job.Chargers, func(c job.Charger) bool { return c.Name == x.Name })
		return i >= 0 && !m.gives(m.Job.Chargers[i], s)
	}), err
}

// gives reports whether a charger is known to charge in a state that lists it: a
// converter that never wakes, or whose input is below its least, gives nothing.
func (m *Facts) gives(c job.Charger, s *job.State) bool {
	return c.Kind != "converter" || !m.neverWakes(c) && !m.starvesIn(c, s)
}

// neverWakes reports whether the lowest voltage that an alternator holds at a
// converter's input is below that at which it wakes.
func (m *Facts) neverWakes(c job.Charger) bool {
	running, known := m.RunningV(c)
	return c.WakesBy == "voltage" && known && running.LessThan(c.WakeV.Decimal)
}

// starvesIn reports whether a converter's input is below its least in a case of a
// state with its sources.
func (m *Facts) starvesIn(c job.Charger, s *job.State) bool {
	return c.LeastInputV.Valid && slices.ContainsFunc(m.Cases, func(of Solved) bool {
		v, ok := of.Voltage(c.FedAt)
		own := of.State.Name == s.Name || s.Name == c.Name // a state made for it alone
		return own && of.Sources && slices.Contains(of.State.Sources, c.Name) && (ok || of.CollapsedAt() != "") && v.LessThan(c.LeastInputV.Decimal)
	})
}

// SuppliesIn lists what charges the house bank in a state whatever the weather.
func (m *Facts) SuppliesIn(s *job.State) ([]Supply, error) { return m.suppliesTo(m.Banks[0], s) }

// suppliesTo lists what charges a bank in a state whatever the weather: the
// chargers, and the alternators that cables join straight to it. The sun is apart
// (sunTo, [Facts.SunOn]).
func (m *Facts) suppliesTo(k Bank, s *job.State) ([]Supply, error) {
	var all []Supply
	for _, c := range m.SteadyIn(s) {
		if m.reachesBank(c.Name, k) {
			all = append(all, Supply{c.Name, c.MaxA, c.MaxA, c.OutputV, c.EfficiencyPercent})
		}
	}
	for i, a := range m.Job.Alternators {
		if !m.reachesBank(a.Name, k) || !Runs(a, s) {
			continue
		}
		hot, err := m.Output(a, s.Engine)
		if err != nil {
			return nil, working.In(fmt.Sprintf("alternators[%d]", i), err)
		}
		cold := a.RatedA
		if s.Engine == "idle" && a.IdleA.Valid {
			cold = a.IdleA.Decimal
		}
		all = append(all, Supply{a.Name, SpareOf(cold, a), SpareOf(hot, a), Lowest(a), decimal.NewFromInt(100)})
	}
	return all, nil
}

func SpareOf(output decimal.Decimal, a job.Alternator) decimal.Decimal {
	return decimal.Max(decimal.Zero, output.Sub(a.VehicleA))
}

// Charges reports whether anything can charge a bank.
func (m *Facts) Charges(k Bank) bool {
	return slices.ContainsFunc(m.Job.Chargers, func(c job.Charger) bool { return m.reachesBank(c.Name, k) }) ||
		slices.ContainsFunc(m.Job.Alternators, func(a job.Alternator) bool { return m.reachesBank(a.Name, k) })
}

// HottestAt is the hottest air round a battery: as stated of it, else that of the
// cables at its posts; and where it stands in the bay that of the bay, as it comes to
// be with everything in it at full load.
func (m *Facts) HottestAt(b job.Battery) decimal.Decimal {
	hottest := m.Job.ColdestC
	if m.Job.Bay != nil && m.InTheBay(b) {
		hottest = decimal.Max(hottest, m.BayAir.InsideC)
	}
	if b.HottestC.Valid {
		return decimal.Max(hottest, b.HottestC.Decimal)
	}
	for _, r := range m.Runs {
		if r.From == b.Name || r.To == b.Name {
			hottest = decimal.Max(hottest, r.AmbientC)
		}
	}
	return hottest
}

// ChargeLimit is the most that a battery may be charged with at the coldest that
// it is while it is charged. Where that is too cold for any charge rule C02 says so.
func (m *Facts) ChargeLimit(b job.Battery) (charge.Acceptance, error) {
	at := m.servedBy(b)
	if b.ColdGuard && b.LeastChargeC.Valid {
		at = decimal.Max(at, b.LeastChargeC.Decimal)
	}
	limit, err := charge.BatteryOnCharge{
		Chemistry: b.Chemistry, CapacityAh: b.CapacityAh, BatteryC: at, ChargeA: b.MaxChargeA, LeastC: b.LeastChargeC,
	}.Acceptance(decimal.Zero)
	if err == nil && !limit.CurrentA.IsPositive() {
		return charge.Acceptance{CurrentA: b.MaxChargeA.Decimal}, nil
	}
	return limit, err
}

// Together returns what charges a bank in the state that charges it hardest, the
// sun included.
func (m *Facts) Together(k Bank) (hardest charge.CombinedSources, state string, err error) {
	most := decimal.Zero
	for i := range m.Job.States {
		s := &m.Job.States[i]
		supplies, err := m.suppliesTo(k, s)
		if err != nil {
			return hardest, state, err
		}
		var t charge.CombinedSources
		sum := decimal.Zero
		for _, x := range append(supplies, m.sunTo(k)...) {
			a, err := m.goesIn(k, x)
			if err != nil {
				return hardest, state, err
			}
			t.Supplies = append(t.Supplies, charge.Supply{Name: x.Name, CurrentA: a})
			sum = sum.Add(a)
		}
		if sum.GreaterThan(most) {
			most, hardest, state = sum, t, s.Name
		}
	}
	return hardest, state, nil
}

// ByChargers is the most that chargers and the sun on a bank's own side of any link give
// it together in a state: what comes through a link the other bank shares, and an
// alternator holds a voltage and gives what is taken.
func (m *Facts) ByChargers(k Bank) decimal.Decimal {
	most, sun := decimal.Zero, decimal.Zero
	beside := func(name string) bool { return m.sides[name] == m.sides[k.Batteries[0].Name] }
	for _, x := range m.Job.Solar {
		if beside(x.Name) {
			sun = sun.Add(x.MaxA)
		}
	}
	for i := range m.Job.States {
		sum := sun
		for _, c := range m.SteadyIn(&m.Job.States[i]) {
			if beside(c.Name) {
				sum = sum.Add(c.MaxA)
			}
		}
		most = decimal.Max(most, sum)
	}
	return most
}

// UsualChargeA is the most that chargers usually give a bank by its capacity; nought
// where no table says.
func UsualChargeA(k Bank) decimal.Decimal {
	sum := decimal.Zero
	for _, b := range k.Batteries {
		spans, err := tables.BatteryLimits(b.Chemistry, "charge_rate_limit")
		if err == nil && spans[0].Condition == "" {
			sum = sum.Add(spans[0].Greatest.Value.Mul(b.CapacityAh))
		}
	}
	return sum
}

// goesIn is what a supply gives a bank at the most. An alternator holds a voltage
// and gives its starter battery what that takes; beside the house bank, whose
// limits its design chose, the whole of it counts.
func (m *Facts) goesIn(k Bank, x Supply) (decimal.Decimal, error) {
	alternator := slices.ContainsFunc(m.Job.Alternators, func(a job.Alternator) bool { return a.Name == x.Name })
	if k.House || !alternator {
		return x.MostA, nil
	}
	return m.accepted(k, x.MostA)
}

// sunOnHouse lists the controllers that the house bank is charged through.
func (m *Facts) sunOnHouse() []Supply { return m.sunTo(m.Banks[0]) }

// sunTo lists the controllers that a bank is charged through. They are wired for
// good and charge in every state by day, whether it lists them or not: a converter
// or a mains charger runs by day too.
func (m *Facts) sunTo(k Bank) []Supply {
	var all []Supply
	for _, x := range m.Job.Solar {
		if m.reachesBank(x.Name, k) {
			all = append(all, Supply{x.Name, x.MaxA, decimal.Zero, x.OutputV, x.EfficiencyPercent})
		}
	}
	return all
}

// sunIn lists those of the house bank that a state lists: what a line carries is
// asked there.
func (m *Facts) sunIn(s *job.State) []Supply {
	return slices.DeleteFunc(m.sunOnHouse(), func(x Supply) bool { return !slices.Contains(s.Sources, x.Name) })
}

func (m *Facts) chargersIn(s *job.State) []job.Charger {
	var all []job.Charger
	for _, c := range m.Job.Chargers {
		if slices.Contains(s.Sources, c.Name) {
			all = append(all, c)
		}
	}
	return all
}

// SteadyIn lists those of them that charge in every hour of the state: the sun does
// not, by night or under cloud.
func (m *Facts) SteadyIn(s *job.State) []job.Charger {
	return slices.DeleteFunc(m.chargersIn(s), func(c job.Charger) bool { return c.Kind == "solar" })
}

// DrawFrom is the most that is drawn from an alternator's side with the engine as
// asked: by the converters, by the loads there, and by a house bank that is
// joined straight to it.
func (m *Facts) DrawFrom(a job.Alternator, engine string) (most decimal.Decimal, corner string, err error) {
	for _, c := range m.Cases {
		if c.State.Engine != engine || !c.Sources || c.short() {
			continue
		}
		inputs, err := m.converterDraw(c, a)
		if err != nil {
			return most, corner, err
		}
		loads := m.loadDraw(c, a)
		bank, err := m.BankDraw(a)
		if err != nil {
			return most, corner, err
		}
		if sum := inputs.Add(loads).Add(bank); sum.GreaterThan(most) {
			most, corner = sum, c.Name
		}
	}
	return most, corner, nil
}

// converterDraw is what the converters on an alternator's side take in a case.
func (m *Facts) converterDraw(c Solved, a job.Alternator) (decimal.Decimal, error) {
	sum := decimal.Zero
	for _, x := range m.chargersIn(c.State) {
		if x.Kind != "converter" || !m.Joined(x.FedAt, a.Name) {
			continue
		}
		in, err := Converter(x, m.voltsOr(c, x.FedAt)).Input()
		if err != nil {
			return sum, err
		}
		sum = sum.Add(in.InputA)
	}
	return sum, nil
}

// loadDraw is what the loads on an alternator's side take in a case; where no voltage
// holds, at the nominal one.
func (m *Facts) loadDraw(c Solved, a job.Alternator) decimal.Decimal {
	sum := decimal.Zero
	for _, u := range m.states[c.Index].Loads {
		l := m.loads[u.Load]
		if !c.Loads || !m.Joined(l.Node, a.Name) {
			continue
		}
		drawn, _ := c.Drawn(l.Name)
		if !drawn.Valid {
			drawn.Decimal = m.nominal(u, l)
		}
		sum = sum.Add(drawn.Decimal)
	}
	return sum
}

// nominal is what a load draws at the nominal voltage.
func (m *Facts) nominal(u installation.LoadUse, l installation.Load) decimal.Decimal {
	takes := l.Takes
	if u.Takes.PowerW.Valid {
		takes = u.Takes
	}
	switch {
	case takes.PowerW.Valid:
		return takes.PowerW.Decimal.DivRound(m.Job.SystemV, 4)
	case takes.CurrentA.Valid:
		return takes.CurrentA.Decimal
	}
	return m.Job.SystemV.DivRound(takes.Ohm.Decimal, 4)
}

// voltsOr is a node's voltage in a case; the nominal one where none holds.
func (m *Facts) voltsOr(c Solved, node string) decimal.Decimal {
	if v, ok := c.Voltage(node); ok && v.IsPositive() {
		return v
	}
	return m.Job.SystemV
}

// BankDraw is what a house bank that cables join straight to an alternator takes:
// empty, new, through cold cable. A lithium bank takes what the resistances let
// through for as long as it charges. Lead-acid takes that for a moment only, then
// what its ampere-hour law says, which counts: a moment does not heat a winding
// (common practice).
func (m *Facts) BankDraw(a job.Alternator) (decimal.Decimal, error) {
	if !m.OfHouse(a.Name) {
		return decimal.Zero, nil
	}
	siemens, cable := decimal.Zero, decimal.Zero
	for i, b := range m.House() {
		siemens = siemens.Add(decimal.NewFromInt(1).DivRound(m.low(b), 9))
		way := decimal.Zero
		for _, r := range m.way(a.Name, b.Name) {
			way = way.Add(r.coldMilliohm)
		}
		if i == 0 || way.LessThan(cable) {
			cable = way
		}
	}
	draw, err := charge.Coupled{
		VehicleV: a.RunsAtV, BankV: m.lowestBankV(), Milliohm: cable.Add(decimal.NewFromInt(1).DivRound(siemens, 6)),
	}.Current()
	if err != nil || !draw.CurrentA.IsPositive() {
		return decimal.Zero, err
	}
	return m.accepted(m.Banks[0], draw.CurrentA)
}

// accepted is what a bank takes of a current offered, new and warm, at the depth of
// its design. No greatest charging current of a data sheet holds it down.
func (m *Facts) accepted(k Bank, offeredA decimal.Decimal) (decimal.Decimal, error) {
	sum := decimal.Zero
	for _, b := range k.Batteries {
		a, err := charge.BatteryOnCharge{
			Chemistry: b.Chemistry, CapacityAh: b.CapacityAh, BatteryC: decimal.NewFromInt(20), ChargeA: decimal.NewNullDecimal(offeredA),
		}.Acceptance(decimal.NewFromInt(100).Sub(b.DepthPercent))
		if err != nil {
			return sum, err
		}
		sum = sum.Add(a.CurrentA)
	}
	return decimal.Min(offeredA, sum), nil
}

func Converter(c job.Charger, inputV decimal.Decimal) charge.Converter {
	return charge.Converter{OutputV: c.OutputV, OutputA: c.MaxA, InputV: inputV, Efficiency: c.EfficiencyPercent.Shift(-2)}
}

// RunningV is the lowest voltage that an alternator holds on a converter's input
// side; not known where the job has none there, or has not said how low.
func (m *Facts) RunningV(c job.Charger) (low decimal.Decimal, known bool) {
	for _, a := range m.Job.Alternators {
		if !m.Joined(c.FedAt, a.Name) {
			continue
		}
		if a.Variable && !a.LeastV.Valid {
			return low, false
		}
		if v := Lowest(a); !known || v.LessThan(low) {
			low, known = v, true
		}
	}
	return low, known
}

// FeedMilliohm is the resistance of a converter's feed, out and back.
func (m *Facts) FeedMilliohm(c job.Charger) decimal.Decimal {
	sum := decimal.Zero
	for _, r := range m.Path(c.FedAt, m.IsBattery) {
		sum = sum.Add(r.HotMilliohm)
	}
	return sum
}

// Aged is the corner of what is judged with the capacity that is left then.
const Aged = "with the bank at the end of its life"

// NearlyFull is where a refill ends at the latest: the rest is a tail that never quite
// ends.
var NearlyFull = decimal.NewFromInt(98)

// BeyondLaw says what to do where no law tells how the voltage of the house bank
// climbs under charge; "" where one does, or none is needed.
func BeyondLaw(bank charge.BatteryOnCharge) string {
	if !bank.Chemistry.Is(tables.LeadAcid) {
		return ""
	}
	ah := bank.CapacityAh.DivRound(decimal.NewFromInt(int64(bank.Strings)), 6)
	_, err := charge.LeadAcidCell{TenHourAh: ah, SoCPercent: decimal.NewFromInt(50), BatteryC: bank.BatteryC}.Voltage()
	if err == nil {
		return ""
	}
	return fmt.Sprintf("charge the bank after a day's use and note the hours by a clock until an ammeter at it shows the tail current: "+
		"the law of lead-acid under charge does not reach %s Ah a string at %s °C", ah.Round(1), bank.BatteryC)
}

// Refill is the charge of a day's use with the chargers and loads of a state, up to
// where the bank counts as full, and what it came to. It is stepped once.
func (m *Facts) Refill(s *job.State, dayAh decimal.Decimal) (Refilling, error) {
	sim, err := m.refillOf(s)
	if err != nil {
		return Refilling{}, err
	}
	alike := fmt.Sprint(sim.Source.CurrentA, sim.Source.VoltageV.Decimal, sim.Source.Efficiency, sim.LoadA, dayAh)
	return m.refills.get(alike, func() (Refilling, error) { return stepped(sim, dayAh) })
}

// Refilling is a charge and what it came to.
type Refilling struct {
	charge.Simulation
	Went charge.Charge
}

// stepped runs the charge of a day's use up to where the bank counts as full.
func stepped(sim charge.Simulation, dayAh decimal.Decimal) (Refilling, error) {
	b, full := sim.Battery, NearlyFull
	if b.Chemistry.Is(tables.LeadAcid) && sim.Source.CurrentA.IsPositive() && BeyondLaw(b) == "" {
		var err error
		if full, sim.Battery.From, err = absorbed(sim); err != nil {
			return Refilling{}, err
		}
	}
	used := dayAh.Mul(decimal.NewFromInt(100)).DivRound(b.CapacityAh, 2)
	sim.StartPercent, sim.StopPercent = decimal.Max(decimal.Zero, full.Sub(used)), decimal.NewNullDecimal(full)
	went, err := sim.Run()
	return Refilling{sim, went}, err
}

// refillOf is a charge with the chargers and loads of a state.
func (m *Facts) refillOf(s *job.State) (charge.Simulation, error) {
	hundred := decimal.NewFromInt(100)
	b, err := m.ChargedBank()
	if err != nil {
		return charge.Simulation{}, err
	}
	supplies, err := m.WorksIn(s)
	if err != nil {
		return charge.Simulation{}, err
	}
	amps, volts, efficiency := decimal.Zero, decimal.Zero, hundred
	for i, x := range supplies {
		amps, efficiency = amps.Add(x.LeastA), decimal.Min(efficiency, x.efficiencyPercent)
		if i == 0 || x.volts.LessThan(volts) {
			volts = x.volts
		}
	}
	return charge.Simulation{
		Battery: b,
		Source:  charge.ChargingSource{CurrentA: amps, VoltageV: decimal.NewNullDecimal(volts), Efficiency: efficiency.Shift(-2)},
		Stages: []charge.Stage{
			{Name: "bulk", Letter: "I", VoltageV: decimal.NewNullDecimal(volts)},
			{Name: "absorption", Letter: "U", VoltageV: decimal.NewNullDecimal(volts)},
		},
		LoadA:   m.average(s),
		WithinH: decimal.NewFromInt(200),
		StepS:   60,
	}, nil
}

// absorbed is the state of charge to which a charge brings a lead-acid bank day by day:
// where absorption ends by its tail current, and the charger goes over to float. The
// last tenth, which takes the float as long as all before, is no matter of hours given.
func absorbed(sim charge.Simulation) (percent decimal.Decimal, from working.Working, err error) {
	rule, err := tables.AbsorptionRule(sim.Battery.Chemistry, "tail current")
	if err != nil {
		return percent, nil, err
	}
	tail := from.Calc("I_tail", "r_t × C", from.LookUp("r_t", rule).Mul(from.Given("C", sim.Battery.CapacityAh)), cite.Arithmetic.At("", cite.Published))
	sim.StartPercent, sim.Stages = decimal.Zero, slices.Clone(sim.Stages)
	sim.Stages[1].TailA = decimal.NewNullDecimal(tail)
	went, err := sim.Run()
	if err != nil || !went.Reached || went.EndPercent.GreaterThan(NearlyFull) {
		return NearlyFull, nil, err
	}
	percent = from.Step("s_nf", went.EndPercent, cite.Kirchhoff.At("EMF behind a resistance, stepped through time", cite.Published))
	from.Note("where absorption ends by its tail current, from empty")
	return percent, from, nil
}

// average is what the loads draw from the house bank in a state on average, at the
// nominal voltage: what a day's use takes there, in the hours that the state lasts. A
// state that is not the job's runs none.
func (m *Facts) average(s *job.State) decimal.Decimal {
	d, spans := m.Draws(), m.Spans()
	i := slices.IndexFunc(m.Job.States, func(x job.State) bool { return x.Name == s.Name && x.HoursDay.Equal(s.HoursDay) })
	if i < 0 {
		return decimal.Zero
	}
	w := perHour(d.AllDay, DayH)
	if h := spans[i].Hours(); h.IsPositive() {
		w = w.Add(perHour(d.States[i], h))
	}
	return w.DivRound(m.Job.SystemV, 4)
}

// ChargedBank is the house bank as a charger meets it at the end of its life, at
// the coldest that it serves at.
func (m *Facts) ChargedBank() (charge.BatteryOnCharge, error) {
	house := m.House()
	first := house[0]
	b := charge.BatteryOnCharge{Chemistry: first.Chemistry, LeastC: first.LeastChargeC, Strings: len(house)}
	b.Cells = int(m.Job.SystemV.Div(leadAcidCellV).IntPart())
	siemens := decimal.Zero
	limit := decimal.Zero
	for _, x := range house {
		b.CapacityAh = b.CapacityAh.Add(x.CapacityAh.Mul(x.AgeingPercent).Shift(-2))
		siemens = siemens.Add(decimal.NewFromInt(1).DivRound(m.High(x), 9))
		limit = limit.Add(x.MaxChargeA.Decimal)
	}
	b.InternalMilliohm = decimal.NewFromInt(1).DivRound(siemens, 6)
	if limit.IsPositive() {
		b.ChargeA = decimal.NewNullDecimal(limit)
	}
	b.BatteryC = decimal.Min(decimal.NewFromInt(20), m.servedC())
	hundred := decimal.NewFromInt(100)
	b.EMF = []charge.EMFPoint{{SoCPercent: decimal.Zero, EMFV: first.EmptyV}, {SoCPercent: hundred, EMFV: first.FullV}}
	if first.DepthPercent.LessThan(hundred) {
		b.EMF = slices.Insert(b.EMF, 1, charge.EMFPoint{SoCPercent: hundred.Sub(first.DepthPercent), EMFV: first.EmptyV})
	}
	kept, err := keeps(first.Chemistry)
	b.Efficiency = []charge.EfficiencyStep{{FromPercent: decimal.Zero, Efficiency: kept}}
	return b, err
}

// leadAcidCellV is the nominal voltage of a lead-acid cell, the only kind whose cells
// the refill counts.
var leadAcidCellV = decimal.NewFromInt(2)

// keeps is the share of its charge that a battery keeps, over the whole range.
func keeps(chemistry tables.Chemistry) (decimal.Decimal, error) {
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
