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
	p := charge.Alternator{RatedA: a.RatedA, IdleA: a.IdleA, VehicleA: decimal.NewNullDecimal(a.VehicleA)}
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
	if a.LeastV.Valid {
		return decimal.Min(a.LeastV.Decimal, a.RunsAtV)
	}
	return a.RunsAtV
}

// runs reports whether an alternator turns in a state, listed there or not.
func runs(a job.Alternator, s *job.State) bool {
	return slices.Contains(s.Sources, a.Name) || s.Engine == "road" || s.Engine == "idle"
}

// supply is something that charges a bank in a state.
type supply struct {
	name              string
	mostA, leastA     decimal.Decimal // of an alternator: cold and hot, less the vehicle's own loads
	volts             decimal.Decimal
	efficiencyPercent decimal.Decimal
}

// worksIn lists those supplies that are known to charge: a converter that never wakes
// at the voltage the engine runs at, or whose input is below its least, gives nothing
// that may be counted on, though it counts where chargers add up.
func (m *model) worksIn(s *job.State) ([]supply, error) {
	all, err := m.suppliesIn(s)
	return slices.DeleteFunc(all, func(x supply) bool {
		i := slices.IndexFunc(m.job.Chargers, func(c job.Charger) bool { return c.Name == x.name })
		return i >= 0 && !m.gives(m.job.Chargers[i], s)
	}), err
}

// gives reports whether a charger is known to charge in a state that lists it: a
// converter that never wakes, or whose input is below its least, gives nothing.
func (m *model) gives(c job.Charger, s *job.State) bool {
	return c.Kind != "converter" || !m.neverWakes(c) && !m.starvesIn(c, s)
}

// neverWakes reports whether the lowest voltage that an alternator holds at a
// converter's input is below that at which it wakes.
func (m *model) neverWakes(c job.Charger) bool {
	running, known := m.runningV(c)
	return c.WakesBy == "voltage" && known && running.LessThan(c.WakeV.Decimal)
}

// starvesIn reports whether a converter's input is below its least in a case of a
// state with its sources.
func (m *model) starvesIn(c job.Charger, s *job.State) bool {
	return c.LeastInputV.Valid && slices.ContainsFunc(m.cases, func(of solved) bool {
		v, ok := of.voltage(c.FedAt)
		own := of.state.Name == s.Name || s.Name == c.Name // a state made for it alone
		return own && of.sources && slices.Contains(of.state.Sources, c.Name) && (ok || of.CollapsedAt != "") && v.LessThan(c.LeastInputV.Decimal)
	})
}

// suppliesIn lists what charges the house bank in a state whatever the weather.
func (m *model) suppliesIn(s *job.State) ([]supply, error) { return m.suppliesTo(m.banks[0], s) }

// suppliesTo lists what charges a bank in a state whatever the weather: the
// chargers, and the alternators that cables join straight to it. The sun is apart
// ([model.sunTo], [model.sunOn]).
func (m *model) suppliesTo(k bank, s *job.State) ([]supply, error) {
	var all []supply
	for _, c := range m.steadyIn(s) {
		if m.reachesBank(c.Name, k) {
			all = append(all, supply{c.Name, c.MaxA, c.MaxA, c.OutputV, c.EfficiencyPercent})
		}
	}
	for i, a := range m.job.Alternators {
		if !m.reachesBank(a.Name, k) || !runs(a, s) {
			continue
		}
		hot, err := m.output(a, s.Engine)
		if err != nil {
			return nil, working.In(fmt.Sprintf("alternators[%d]", i), err)
		}
		cold := a.RatedA
		if s.Engine == "idle" && a.IdleA.Valid {
			cold = a.IdleA.Decimal
		}
		all = append(all, supply{a.Name, spareOf(cold, a), spareOf(hot, a), lowest(a), decimal.NewFromInt(100)})
	}
	return all, nil
}

func spareOf(output decimal.Decimal, a job.Alternator) decimal.Decimal {
	return decimal.Max(decimal.Zero, output.Sub(a.VehicleA))
}

// charges reports whether anything can charge a bank.
func (m *model) charges(k bank) bool {
	return slices.ContainsFunc(m.job.Chargers, func(c job.Charger) bool { return m.reachesBank(c.Name, k) }) ||
		slices.ContainsFunc(m.job.Alternators, func(a job.Alternator) bool { return m.reachesBank(a.Name, k) })
}

// coldCharge asks of each battery whether anything charges it below its least
// temperature, or above the chemistry's highest.
func coldCharge(m *model) ([]Finding, error) {
	var all []Finding
	for i, b := range m.job.Batteries {
		if !m.charges(m.bankWith(b.Name)) {
			continue
		}
		path := fmt.Sprintf("batteries[%d]", i)
		cold, err := m.inTheCold(b)
		if err != nil {
			return nil, working.In(path, err)
		}
		hot, err := m.inTheHeat(b)
		if err != nil {
			return nil, working.In(path, err)
		}
		harms := harmsOf(b.Chemistry)
		all = append(all,
			Finding{Check: cold, Where: b.Name, Path: path, Danger: harms.cold},
			Finding{Check: hot, Where: b.Name + ", in the heat", Path: path, Danger: harms.hot})
	}
	return all, nil
}

// inTheCold judges a charge at the coldest. A limit of the data sheet below that of
// the chemistry is the battery's with whatever warms its cells: nobody knows without
// asking.
func (m *model) inTheCold(b job.Battery) (working.Check, error) {
	var guard decimal.NullDecimal
	if b.ColdGuard {
		guard = b.LeastChargeC
	}
	charged := charge.BatteryOnCharge{Chemistry: b.Chemistry, CapacityAh: b.CapacityAh, LeastC: b.LeastChargeC}
	own, err := charged.ColdCharge(decimal.NewNullDecimal(m.beginsC(b)), guard)
	if err != nil || own.Verdict() != working.Passes || !b.Chemistry.Has(tables.HarmedByColdCharge) {
		return own, err
	}
	charged.LeastC = decimal.NullDecimal{}
	cells, err := charged.ColdCharge(decimal.NewNullDecimal(m.beginsC(b)), guard)
	if err != nil || cells.Verdict() == working.Passes {
		return own, err
	}
	return working.Check{ID: own.ID, Title: own.Title, Missing: fmt.Sprintf(
		"ask the maker of %s what keeps its cells above %s °C while it is charged, and state the cells' own limit: such cells take no charge below that, and its unit lets it be charged down to %s °C",
		b.Name, cells.Demand, b.LeastChargeC.Decimal)}, nil
}

// inTheHeat judges a charge in the hottest air. The cables of a battery outside the
// house bank often lie hotter than it stands: an engine's heat on them is no
// measure of it.
func (m *model) inTheHeat(b job.Battery) (working.Check, error) {
	hottest := m.hottestAt(b)
	charged := charge.BatteryOnCharge{Chemistry: b.Chemistry, CapacityAh: b.CapacityAh}
	if m.inTheBay(b) && hottest.Equal(m.bayAir.InsideC) {
		charged.From = m.bayAir.Working
	}
	c, err := charged.HotCharge(decimal.NewNullDecimal(decimal.Min(hottest, decimal.NewFromInt(200))))
	if err != nil || c.Verdict() == working.Passes || b.HottestC.Valid || m.isHouse(b.Name) || m.inTheBay(b) {
		return c, err
	}
	return working.Check{ID: c.ID, Title: c.Title, Missing: fmt.Sprintf(
		"measure with a thermometer beside %s how hot its air gets while it is charged, and state that as hottest_c: its cables lie in up to %s °C, and such a battery is charged in no more than %s °C",
		b.Name, hottest, c.Limit)}, nil
}

// harms is what charging does to a battery that is too cold or too hot.
type harms struct{ cold, hot string }

func harmsOf(chemistry tables.Chemistry) harms {
	if chemistry.Has(tables.HarmedByColdCharge) {
		return harms{
			"charging a cold lithium cell plates metal inside it: lasting loss, and a short circuit later",
			"heat ages lithium cells fast, or worse",
		}
	}
	return harms{
		"cold lead-acid takes little, gasses before it is full, and its plates harden",
		"hot lead-acid gasses and dries out, and takes ever more current until it is destroyed",
	}
}

// hottestAt is the hottest air round a battery: as stated of it, else that of the
// cables at its posts; and where it stands in the bay that of the bay, as it comes to
// be with everything in it at full load.
func (m *model) hottestAt(b job.Battery) decimal.Decimal {
	hottest := m.job.ColdestC
	if m.job.Bay != nil && m.inTheBay(b) {
		hottest = decimal.Max(hottest, m.bayAir.InsideC)
	}
	if b.HottestC.Valid {
		return decimal.Max(hottest, b.HottestC.Decimal)
	}
	for _, r := range m.runs {
		if r.From == b.Name || r.To == b.Name {
			hottest = decimal.Max(hottest, r.AmbientC)
		}
	}
	return hottest
}

// chargeInside adds up what charges each bank at once in a state, and compares the
// greatest sum with what the bank bears, whole and with each battery missing.
func chargeInside(m *model) ([]Finding, error) {
	var all []Finding
	for _, k := range m.banks {
		found, err := m.chargeInsideOf(k)
		if err != nil {
			return nil, err
		}
		all = append(all, found...)
	}
	return all, nil
}

func (m *model) chargeInsideOf(k bank) ([]Finding, error) {
	t, state, err := m.together(k)
	if err != nil {
		return nil, err
	}
	f := Finding{Where: k.name, Path: "chargers", Corner: state, Check: working.Check{ID: "C01"}}
	if len(t.Supplies) == 0 {
		f.Silent = "no state charges it"
		return []Finding{f}, nil
	}
	for _, b := range k.batteries {
		if !b.MaxChargeA.Valid {
			f.unlimited(k, b)
			return []Finding{f}, nil
		}
		limit, err := m.chargeLimit(b)
		if err != nil {
			return nil, err
		}
		if limit.CurrentA.LessThan(b.MaxChargeA.Decimal) {
			t.From = working.Start(t.From, limit.Working)
		}
		t.LimitsA = append(t.LimitsA, charge.NamedLimit{Name: b.Name, CurrentA: limit.CurrentA})
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

// unlimited says what follows where a battery states no greatest charge. Lead-acid
// behind an alternator takes what the ampere-hour law lets it, at a voltage that
// rule C11 judges: its maker states no limit as a rule. Of all others it is asked.
func (f *Finding) unlimited(k bank, b job.Battery) {
	if !k.house && !b.Chemistry.Has(tables.ManagementUnit) {
		f.Silent = "no greatest charge of " + b.Name + " is stated, and lead-acid takes no more than it is short of (the ampere-hour law)"
		return
	}
	f.Missing = "ask the maker of " + b.Name + " for its greatest charging current"
}

// chargeLimit is the most that a battery may be charged with at the coldest that
// it is while it is charged. Where that is too cold for any charge rule C02 says so.
func (m *model) chargeLimit(b job.Battery) (charge.Acceptance, error) {
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

// together returns what charges a bank in the state that charges it hardest, the
// sun included.
func (m *model) together(k bank) (hardest charge.CombinedSources, state string, err error) {
	most := decimal.Zero
	for i := range m.job.States {
		s := &m.job.States[i]
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
			t.Supplies = append(t.Supplies, charge.Supply{Name: x.name, CurrentA: a})
			sum = sum.Add(a)
		}
		if sum.GreaterThan(most) {
			most, hardest, state = sum, t, s.Name
		}
	}
	return hardest, state, nil
}

// goesIn is what a supply gives a bank at the most. An alternator holds a voltage
// and gives its starter battery what that takes; beside the house bank, whose
// limits its design chose, the whole of it counts.
func (m *model) goesIn(k bank, x supply) (decimal.Decimal, error) {
	alternator := slices.ContainsFunc(m.job.Alternators, func(a job.Alternator) bool { return a.Name == x.name })
	if k.house || !alternator {
		return x.mostA, nil
	}
	return m.accepted(k, x.mostA)
}

// sunOnHouse lists the controllers that the house bank is charged through.
func (m *model) sunOnHouse() []supply { return m.sunTo(m.banks[0]) }

// sunTo lists the controllers that a bank is charged through. They are wired for
// good and charge in every state by day, whether it lists them or not: a converter
// or a mains charger runs by day too.
func (m *model) sunTo(k bank) []supply {
	var all []supply
	for _, x := range m.job.Solar {
		if m.reachesBank(x.Name, k) {
			all = append(all, supply{x.Name, x.MaxA, decimal.Zero, x.OutputV, x.EfficiencyPercent})
		}
	}
	return all
}

// sunIn lists those of the house bank that a state lists: what a line carries is
// asked there.
func (m *model) sunIn(s *job.State) []supply {
	return slices.DeleteFunc(m.sunOnHouse(), func(x supply) bool { return !slices.Contains(s.Sources, x.name) })
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

// steadyIn lists those of them that charge in every hour of the state: the sun does
// not, by night or under cloud.
func (m *model) steadyIn(s *job.State) []job.Charger {
	return slices.DeleteFunc(m.chargersIn(s), func(c job.Charger) bool { return c.Kind == "solar" })
}

// roadSpare and idleSpare compare what a state draws from the alternator's side
// besides the vehicle itself with what the alternator has to spare, hot.
func roadSpare(m *model) ([]Finding, error) { return m.spare("C04", "road") }
func idleSpare(m *model) ([]Finding, error) { return m.spare("C03", "idle") }

func (m *model) spare(id, engine string) ([]Finding, error) {
	var all []Finding
	for i, a := range m.job.Alternators {
		f := Finding{Where: a.Name, Path: fmt.Sprintf("alternators[%d]", i)}
		draw, corner, err := m.drawFrom(a, engine)
		switch {
		case err != nil:
		case corner == "":
			f.Check = working.Check{ID: id, Silent: "no state draws from it with the engine at " + engine}
		case engine == "idle":
			f.Check, err = plate(a).CheckIdle(decimal.NewNullDecimal(draw))
		default:
			f.Check, err = plate(a).CheckRoad(decimal.NewNullDecimal(draw))
		}
		if err != nil {
			return nil, working.In(f.Path, err)
		}
		f.Corner = corner
		all = append(all, f)
	}
	return all, nil
}

// drawFrom is the most that is drawn from an alternator's side with the engine as
// asked: by the converters, by the loads there, and by a house bank that is
// joined straight to it.
func (m *model) drawFrom(a job.Alternator, engine string) (most decimal.Decimal, corner string, err error) {
	for _, c := range m.cases {
		if c.state.Engine != engine || !c.sources || c.short() {
			continue
		}
		inputs, err := m.converterDraw(c, a)
		if err != nil {
			return most, corner, err
		}
		loads, err := m.loadDraw(c, a)
		if err != nil {
			return most, corner, err
		}
		bank, err := m.bankDraw(a)
		if err != nil {
			return most, corner, err
		}
		if sum := inputs.Add(loads).Add(bank); sum.GreaterThan(most) {
			most, corner = sum, c.name
		}
	}
	return most, corner, nil
}

// converterDraw is what the converters on an alternator's side take in a case.
func (m *model) converterDraw(c solved, a job.Alternator) (decimal.Decimal, error) {
	sum := decimal.Zero
	for _, x := range m.chargersIn(c.state) {
		if x.Kind != "converter" || !m.joined(x.FedAt, a.Name) {
			continue
		}
		in, err := converter(x, m.voltsOr(c, x.FedAt)).Input()
		if err != nil {
			return sum, err
		}
		sum = sum.Add(in.InputA)
	}
	return sum, nil
}

// loadDraw is what the loads on an alternator's side take in a case.
func (m *model) loadDraw(c solved, a job.Alternator) (decimal.Decimal, error) {
	sum := decimal.Zero
	if !c.loads {
		return sum, nil
	}
	loads, err := m.loads(c.setting)
	for _, l := range loads {
		u := m.voltsOr(c, l.Node)
		switch {
		case !m.joined(l.Node, a.Name):
		case l.PowerW.Valid:
			sum = sum.Add(l.PowerW.Decimal.DivRound(u, 4))
		case l.CurrentA.Valid:
			sum = sum.Add(l.CurrentA.Decimal)
		default:
			sum = sum.Add(u.DivRound(l.Ohm.Decimal, 4))
		}
	}
	return sum, err
}

// voltsOr is a node's voltage in a case; the nominal one where none holds.
func (m *model) voltsOr(c solved, node string) decimal.Decimal {
	if v, ok := c.voltage(node); ok && v.IsPositive() {
		return v
	}
	return m.job.SystemV
}

// bankDraw is what a house bank that cables join straight to an alternator takes:
// empty, new, through cold cable. A lithium bank takes what the resistances let
// through for as long as it charges. Lead-acid takes that for a moment only, then
// what its ampere-hour law says, which counts: a moment does not heat a winding
// (common practice).
func (m *model) bankDraw(a job.Alternator) (decimal.Decimal, error) {
	if !m.ofHouse(a.Name) {
		return decimal.Zero, nil
	}
	siemens, cable := decimal.Zero, decimal.Zero
	for i, b := range m.house() {
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
	return m.accepted(m.banks[0], draw.CurrentA)
}

// accepted is what a bank takes of a current offered, new and warm, at the depth of
// its design. No greatest charging current of a data sheet holds it down.
func (m *model) accepted(k bank, offeredA decimal.Decimal) (decimal.Decimal, error) {
	sum := decimal.Zero
	for _, b := range k.batteries {
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
		if c.WakesBy != "voltage" {
			f.Check = working.Check{ID: "C05", Silent: "it is woken by a signal that the engine runs"}
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

// stopped marks the question whether a converter sleeps when the engine stands.
const stopped = ", engine stopped"

func (m *model) wakesByVoltage(c job.Charger, f Finding) ([]Finding, error) {
	t := charge.Trigger{
		WakeV: c.WakeV.Decimal, SleepV: c.SleepV.Decimal, WakeS: decimal.NewFromInt(1), SleepS: decimal.NewFromInt(1),
	}
	woken, awake, asleep := f, f, f
	awake.Where, asleep.Where = f.Where+", at work", f.Where+stopped
	asleep.Danger = "it works on with the engine stopped and empties the battery that feeds it"
	var err error
	if asleep.Check, err = m.sleeps(c, t); err != nil {
		return nil, err
	}
	running, known := m.runningV(c)
	if !known {
		woken.Check = working.Check{ID: "C05", Missing: "measure the voltage at its input with a voltmeter after some minutes of driving and of idling"}
		return []Finding{woken, asleep}, nil
	}
	in, err := converter(c, running).Input()
	if err != nil {
		return nil, err
	}
	t.InputA, t.InputMilliohm, t.From = in.InputA, decimal.NewNullDecimal(m.feedMilliohm(c)), in.Working
	if woken.Check, err = t.Wakes(working.Figure{Value: running}); err != nil {
		return nil, err
	}
	if awake.Check, err = t.StaysAwake(working.Figure{Value: running}); err != nil {
		return nil, err
	}
	if woken.Verdict() == working.Fails {
		awake.Check = working.Check{ID: "C05", Title: awake.Title, Silent: "it does not wake in the first place"}
	}
	return []Finding{woken, awake, asleep}, nil
}

// runningV is the lowest voltage that an alternator holds on a converter's input
// side; not known where the job has none there, or has not said how low.
func (m *model) runningV(c job.Charger) (low decimal.Decimal, known bool) {
	for _, a := range m.job.Alternators {
		if !m.joined(c.FedAt, a.Name) {
			continue
		}
		if a.Variable && !a.LeastV.Valid {
			return low, false
		}
		if v := lowest(a); !known || v.LessThan(low) {
			low, known = v, true
		}
	}
	return low, known
}

// sleeps asks whether a converter sleeps at the rested voltage of a full battery
// on its input side: else it goes on to empty that battery.
func (m *model) sleeps(c job.Charger, t charge.Trigger) (working.Check, error) {
	var rested decimal.NullDecimal
	for _, b := range m.job.Batteries {
		if m.joined(c.FedAt, b.Name) && (!rested.Valid || b.FullV.GreaterThan(rested.Decimal)) {
			rested = decimal.NewNullDecimal(b.FullV)
		}
	}
	if !rested.Valid {
		return working.Check{ID: "C05", Missing: "measure the voltage at its input with a voltmeter when the engine has stood for some hours"}, nil
	}
	return t.Sleeps(working.Figure{Value: rested.Decimal})
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
	bank, err := m.chargedBank()
	if err != nil {
		return nil, err
	}
	unknown, err := m.tooCold(bank)
	if err != nil {
		return nil, err
	}
	if unknown == "" {
		unknown = beyondLaw(bank)
	}
	for i := range m.job.States {
		s := &m.job.States[i]
		supplies, err := m.worksIn(s)
		if err != nil {
			return nil, err
		}
		if len(supplies) == 0 {
			continue
		}
		if unknown != "" {
			best.Check = working.Check{ID: "C06", Missing: unknown}
			return []Finding{best}, nil
		}
		c, never, err := m.refillIn(s, sum.ChargeAh)
		if err != nil {
			return nil, working.In(fmt.Sprintf("states[%d]", i), err)
		}
		if best.Working == nil || sooner(c, best.Check) {
			best.Check, best.Corner = c, s.Name+", "+aged+never
		}
	}
	return []Finding{best}, nil
}

// aged is the corner of what is judged with the capacity that is left then.
const aged = "with the bank at the end of its life"

// nearlyFull is where a refill ends at the latest: the rest is a tail that never quite
// ends.
var nearlyFull = decimal.NewFromInt(98)

// beyondLaw says what to do where no law tells how the voltage of the house bank
// climbs under charge; "" where one does, or none is needed.
func beyondLaw(bank charge.BatteryOnCharge) string {
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

// refillIn compares the time of a refill with the hours asked. One that never ends
// is judged by the state of charge that it comes to; never says why.
func (m *model) refillIn(s *job.State, dayAh decimal.Decimal) (c working.Check, never string, err error) {
	sim, err := m.refill(s, dayAh)
	if err != nil {
		return c, "", err
	}
	went, err := sim.Run()
	if err != nil {
		return c, "", err
	}
	w := working.Start(went.Working)
	if went.Reached {
		w.Calc("t_fill", "t_c", went.TimeH, cite.Arithmetic.At("", cite.Published))
		w.Given("t_av", m.job.Needs.RefillH)
		return w.Check("C06", "", "t_fill", "t_av"), "", nil
	}
	never = "; it is never full: the loads take what the chargers give, or their voltage is too low"
	if !sim.Source.CurrentA.IsPositive() {
		never = "; it is never full: the vehicle takes all that the alternator gives"
	}
	if _, known := w.Value("s_nf"); !known {
		w.Choose("s_nf", "s_e ≤ s_nf", nearlyFull, cite.Practice.At("a full charge", cite.CommonPractice))
	}
	c = w.Check("C06", "", "s_nf", "s_e")
	c.Below = true
	return c, never, nil
}

// sooner reports whether the first of two refills ends sooner than the second, or
// at all.
func sooner(a, b working.Check) bool {
	if a.Unit != b.Unit {
		return a.Unit == "h"
	}
	return a.Margin().GreaterThan(b.Margin())
}

// refill is the charge of a day's use with the chargers and loads of a state, up to
// where the bank counts as full.
func (m *model) refill(s *job.State, dayAh decimal.Decimal) (charge.Simulation, error) {
	hundred := decimal.NewFromInt(100)
	b, err := m.chargedBank()
	if err != nil {
		return charge.Simulation{}, err
	}
	supplies, err := m.worksIn(s)
	if err != nil {
		return charge.Simulation{}, err
	}
	amps, volts, efficiency := decimal.Zero, decimal.Zero, hundred
	for i, x := range supplies {
		amps, efficiency = amps.Add(x.leastA), decimal.Min(efficiency, x.efficiencyPercent)
		if i == 0 || x.volts.LessThan(volts) {
			volts = x.volts
		}
	}
	sim := charge.Simulation{
		Battery: b,
		Source:  charge.ChargingSource{CurrentA: amps, VoltageV: decimal.NewNullDecimal(volts), Efficiency: efficiency.Shift(-2)},
		Stages: []charge.Stage{
			{Name: "bulk", Letter: "I", VoltageV: decimal.NewNullDecimal(volts)},
			{Name: "absorption", Letter: "U", VoltageV: decimal.NewNullDecimal(volts)},
		},
		LoadA:   m.average(s),
		WithinH: decimal.NewFromInt(200),
		StepS:   60,
	}
	full := nearlyFull
	if b.Chemistry.Is(tables.LeadAcid) && amps.IsPositive() && beyondLaw(b) == "" {
		if full, sim.Battery.From, err = absorbed(sim); err != nil {
			return sim, err
		}
	}
	used := dayAh.Mul(hundred).DivRound(b.CapacityAh, 2)
	sim.StartPercent, sim.StopPercent = decimal.Max(decimal.Zero, full.Sub(used)), decimal.NewNullDecimal(full)
	return sim, nil
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
	if err != nil || !went.Reached || went.EndPercent.GreaterThan(nearlyFull) {
		return nearlyFull, nil, err
	}
	percent = from.Step("s_nf", went.EndPercent, cite.Kirchhoff.At("EMF behind a resistance, stepped through time", cite.Published))
	from.Note("where absorption ends by its tail current, from empty")
	return percent, from, nil
}

// average is what the loads of a state draw from the house bank on average, at
// the nominal voltage.
func (m *model) average(s *job.State) decimal.Decimal {
	sum := decimal.Zero
	for _, l := range m.onHouse() {
		if !l.runsIn(*s) {
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

// chargedBank is the house bank as a charger meets it at the end of its life, at
// the coldest that it serves at.
func (m *model) chargedBank() (charge.BatteryOnCharge, error) {
	house := m.house()
	first := house[0]
	b := charge.BatteryOnCharge{Chemistry: first.Chemistry, LeastC: first.LeastChargeC, Strings: len(house)}
	b.Cells = int(m.job.SystemV.Div(leadAcidCellV).IntPart())
	siemens := decimal.Zero
	limit := decimal.Zero
	for _, x := range house {
		b.CapacityAh = b.CapacityAh.Add(x.CapacityAh.Mul(x.AgeingPercent).Shift(-2))
		siemens = siemens.Add(decimal.NewFromInt(1).DivRound(m.high(x), 9))
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
