package rules

import (
	"fmt"
	"slices"

	"example.org/extralow/charge"
	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var ofCharging = []Rule{
	{
		ID: "C02", Title: "No charging in cold or heat",
		Danger:  "charged too cold or too hot, a battery is harmed for good",
		Why:     "the chemistry accepts no charge below its least temperature or above its highest",
		Sources: []string{"data sheet", "common practice"},
		Grade:   Dangerous, Forbids: Charge, Rank: 120,
		Advice: "in the cold fit a management unit or charger that blocks charging, or heat the battery first; in the heat let air to it, or move it or what heats it",
		Worse: []Growth{
			{"circuits.ambient_c", "+15"}, {"batteries.least_charge_c", "+5"}, {"batteries.cold_guard", "gone"},
			{"coldest_c", "-7"}, {"bay.outside_c", "+6"},
		},
		Judge: coldCharge,
	},
	{
		ID: "C01", Title: "The batteries bear all chargers together",
		Danger:  "a battery is charged faster than it may be",
		Why:     "chargers on one bank add up, also when a battery is missing",
		Sources: []string{"Kirchhoff's laws", "data sheet"},
		Grade:   Dangerous, Forbids: Charge, Rank: 410,
		Advice: "set the chargers to less, so that all together stay inside the limit with a battery missing",
		Worse: []Growth{
			{"batteries.max_charge_a", "÷2"}, {"chargers.max_a", "×1.6"},
		},
		Judge: chargeInside,
	},
	{
		ID: "C04", Title: "The alternator bears the charge under way",
		Danger:  "the alternator runs at its limit until its windings fail",
		Why:     "a hot alternator gives less than its plate says",
		Sources: []string{"Kirchhoff's laws"},
		Grade:   Dangerous, Forbids: Charge, Rank: 550,
		RestsOn: Currents,
		Changes: Cables,
		Advice:  "let a converter limit the current, set it to less, or fit a larger alternator",
		Worse: []Growth{
			{"alternators.rated_a", "÷1.5"}, {"alternators.hot_percent", "÷1.5"}, {"alternators.vehicle_a", "×1.5"},
			{"chargers.max_a", "×1.6"},
		},
		Judge: roadSpare,
	},
	{
		ID: "C03", Title: "The alternator bears the charge at idle",
		Danger:  "the starter battery pays for the charge and is flat in the end",
		Why:     "at idle an alternator gives a fraction of its rating",
		Sources: []string{"Kirchhoff's laws"},
		Grade:   WillNotServe, Rank: 560,
		RestsOn: Currents,
		Changes: Cables,
		Advice:  "let the converter run only on the road, or set it to less",
		Worse: []Growth{
			{"alternators.idle_a", "÷1.5"}, {"alternators.hot_percent", "÷1.5"}, {"alternators.vehicle_a", "×1.5"},
			{"chargers.max_a", "×1.6"},
		},
		Judge: idleSpare,
	},
	{
		ID: "C05", Title: "The converter wakes when the engine runs",
		Danger:  "the bank is never charged on the road",
		Why:     "a vehicle that varies its alternator's voltage runs below the waking voltage",
		Sources: []string{"Ohm's law"},
		Grade:   WillNotServe, Rank: 570,
		Changes: Cables,
		Advice:  "wake the converter by a signal that the engine runs, not by voltage",
		Worse: []Growth{
			{"chargers.wake_v", "×1.05"}, {"chargers.sleep_v", "÷1.04"},
		},
		Judge: wakes,
	},
	{
		ID: "C10", Title: "The converter's input is high enough",
		Danger:  "the converter throttles or stops",
		Why:     "its input draws more current as the voltage falls",
		Sources: []string{"Kirchhoff's laws"},
		Grade:   WillNotServe, Rank: 590,
		RestsOn: Currents | Resistance,
		Changes: Cables,
		Tries:   []Try{ThickerPath},
		Advice:  "thicken or shorten the converter's feed",
		Worse: []Growth{
			{"circuits.length_m", "×3.5"}, {"circuits.size", "thinner"}, {"circuits.contacts_milliohm", "×3"},
			{"circuits.chassis_milliohm", "×4"}, {"batteries.high_milliohm", "×3"}, {"batteries.empty_v", "÷1.05"},
			{"chargers.least_input_v", "×1.05"},
		},
		Judge: inputHigh,
	},
	{
		ID: "C06", Title: "The sources refill a day in the hours asked",
		Danger:  "the bank is a little emptier every day",
		Why:     "chargers feed the running loads first",
		Sources: []string{"Copetti 1993", "Woodbridge 1935"},
		Grade:   WillNotServe, Rank: 660,
		RestsOn: Resistance,
		Advice:  "charge longer or with more, or use less",
		Worse: []Growth{
			{"needs.refill_h", "÷3"},
		},
		Judge: refills,
	},
}

// coldCharge asks of each battery whether anything charges it below its least
// temperature, or above the chemistry's highest.
func coldCharge(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for i, b := range m.Job.Batteries {
		if !m.Charges(m.BankWith(b.Name)) {
			continue
		}
		path := fmt.Sprintf("batteries[%d]", i)
		cold, err := inTheCold(m, b)
		if err != nil {
			return nil, working.In(path, err)
		}
		hot, err := inTheHeat(m, b)
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
func inTheCold(m *facts.Facts, b job.Battery) (working.Check, error) {
	var guard decimal.NullDecimal
	if b.ColdGuard {
		guard = b.LeastChargeC
	}
	charged := charge.BatteryOnCharge{Chemistry: b.Chemistry, CapacityAh: b.CapacityAh, LeastC: b.LeastChargeC}
	own, err := charged.ColdCharge(decimal.NewNullDecimal(m.BeginsC(b)), guard)
	if err != nil || own.Verdict() != working.Passes || !b.Chemistry.Has(tables.HarmedByColdCharge) {
		return own, err
	}
	charged.LeastC = decimal.NullDecimal{}
	cells, err := charged.ColdCharge(decimal.NewNullDecimal(m.BeginsC(b)), guard)
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
func inTheHeat(m *facts.Facts, b job.Battery) (working.Check, error) {
	hottest := m.HottestAt(b)
	charged := charge.BatteryOnCharge{Chemistry: b.Chemistry, CapacityAh: b.CapacityAh}
	if m.InTheBay(b) && hottest.Equal(m.BayAir.InsideC) {
		charged.From = m.BayAir.Working
	}
	c, err := charged.HotCharge(decimal.NewNullDecimal(decimal.Min(hottest, decimal.NewFromInt(200))))
	if err != nil || c.Verdict() == working.Passes || b.HottestC.Valid || m.IsHouse(b.Name) || m.InTheBay(b) {
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

// chargeInside adds up what charges each bank at once in a state, and compares the
// greatest sum with what the bank bears, whole and with each battery missing.
func chargeInside(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, k := range m.Banks {
		found, err := chargeInsideOf(m, k)
		if err != nil {
			return nil, err
		}
		all = append(all, found...)
	}
	return all, nil
}

func chargeInsideOf(m *facts.Facts, k facts.Bank) ([]Finding, error) {
	t, state, err := m.Together(k)
	if err != nil {
		return nil, err
	}
	f := Finding{Where: k.Name, Path: "chargers", Case: state, Check: working.Check{ID: "C01"}}
	if len(t.Supplies) == 0 {
		f.Silent = "no state charges it"
		return []Finding{f}, nil
	}
	for _, b := range k.Batteries {
		if !b.MaxChargeA.Valid {
			f.unlimited(k, b, m.ByChargers(k))
			return []Finding{f}, nil
		}
		limit, err := m.ChargeLimit(b)
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
// rule C11 judges: its maker states no limit as a rule. Of all others it is asked,
// and where chargers give it more than is usual by capacity.
func (f *Finding) unlimited(k facts.Bank, b job.Battery, chargersA decimal.Decimal) {
	if !k.House && !b.Chemistry.Has(tables.ManagementUnit) && chargersA.LessThanOrEqual(facts.UsualChargeA(k)) {
		f.Silent = "no greatest charge of " + b.Name + " is stated, and lead-acid takes no more than it is short of (the ampere-hour law)"
		return
	}
	f.Missing = "ask the maker of " + b.Name + " for its greatest charging current"
}

// roadSpare and idleSpare compare what a state draws from the alternator's side
// besides the vehicle itself with what the alternator has to spare, hot.
func roadSpare(m *facts.Facts) ([]Finding, error) { return spare(m, "C04", "road") }

func idleSpare(m *facts.Facts) ([]Finding, error) { return spare(m, "C03", "idle") }

func spare(m *facts.Facts, id, engine string) ([]Finding, error) {
	var all []Finding
	for i, a := range m.Job.Alternators {
		f := Finding{Where: a.Name, Path: fmt.Sprintf("alternators[%d]", i)}
		draw, corner, err := m.DrawFrom(a, engine)
		switch {
		case err != nil:
		case corner == "":
			f.Check = working.Check{ID: id, Silent: "no state draws from it with the engine at " + engine}
		case engine == "idle":
			f.Check, err = facts.Plate(a).CheckIdle(decimal.NewNullDecimal(draw))
		default:
			f.Check, err = facts.Plate(a).CheckRoad(decimal.NewNullDecimal(draw))
		}
		if err != nil {
			return nil, working.In(f.Path, err)
		}
		f.Case = corner
		all = append(all, f)
	}
	return all, nil
}

// wakes asks of each converter that watches the voltage whether it wakes at the
// lowest at which the vehicle runs, stays awake under its own load, and sleeps
// when the engine stands.
func wakes(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for i, c := range m.Job.Chargers {
		if c.Kind != "converter" {
			continue
		}
		f := Finding{Where: c.Name, Path: m.ChargerPath(i)}
		if c.WakesBy != "voltage" {
			f.Check = working.Check{ID: "C05", Silent: "it is woken by a signal that the engine runs"}
			all = append(all, f)
			continue
		}
		found, err := wakesByVoltage(m, c, f)
		if err != nil {
			return nil, working.In(f.Path, err)
		}
		all = append(all, found...)
	}
	return all, nil
}

func wakesByVoltage(m *facts.Facts, c job.Charger, f Finding) ([]Finding, error) {
	t := charge.Trigger{
		WakeV: c.WakeV.Decimal, SleepV: c.SleepV.Decimal, WakeS: decimal.NewFromInt(1), SleepS: decimal.NewFromInt(1),
	}
	woken, awake, asleep := f, f, f
	awake.Where, asleep.Where = f.Where+", at work", f.Where+", engine stopped"
	asleep.Danger = "it works on with the engine stopped and empties the battery that feeds it"
	asleep.Advice = "set sleep_v above the rested voltage of the battery that feeds it, or wake the converter by a signal that the engine runs"
	var err error
	if asleep.Check, err = sleeps(m, c, t); err != nil {
		return nil, err
	}
	running, known := m.RunningV(c)
	if !known {
		woken.Check = working.Check{ID: "C05", Missing: "measure the voltage at its input with a voltmeter after some minutes of driving and of idling"}
		return []Finding{woken, asleep}, nil
	}
	in, err := facts.Converter(c, running).Input()
	if err != nil {
		return nil, err
	}
	t.InputA, t.InputMilliohm, t.From = in.InputA, decimal.NewNullDecimal(m.FeedMilliohm(c)), in.Working
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

// sleeps asks whether a converter sleeps at the rested voltage of a full battery
// on its input side: else it goes on to empty that battery.
func sleeps(m *facts.Facts, c job.Charger, t charge.Trigger) (working.Check, error) {
	var rested decimal.NullDecimal
	for _, b := range m.Job.Batteries {
		if m.Joined(c.FedAt, b.Name) && (!rested.Valid || b.FullV.GreaterThan(rested.Decimal)) {
			rested = decimal.NewNullDecimal(b.FullV)
		}
	}
	if !rested.Valid {
		return working.Check{ID: "C05", Missing: "measure the voltage at its input with a voltmeter when the engine has stood for some hours"}, nil
	}
	return t.Sleeps(working.Figure{Value: rested.Decimal})
}

// inputHigh compares the voltage at each converter's input, while it works, with
// the lowest at which it holds its output.
func inputHigh(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for i, c := range m.Job.Chargers {
		if c.Kind != "converter" {
			continue
		}
		f := Finding{Where: c.Name + ", input", Node: c.FedAt, Path: m.ChargerPath(i), Check: working.Check{ID: "C10", Silent: "no state uses it"}}
		works := slices.DeleteFunc(slices.Clone(m.Cases), func(s facts.Solved) bool { return !s.Sources || !slices.Contains(s.State.Sources, c.Name) })
		if worst, ok := facts.LeastAt(works, c.FedAt); ok {
			check, err := worst.CheckVoltage(c.FedAt, c.LeastInputV)
			if err != nil {
				return nil, working.In(f.Path, err)
			}
			check.ID = "C10"
			f.Check, f.Case = check, worst.Name
		}
		all = append(all, f)
	}
	return all, nil
}

// refills steps the refill of a day's use in each state that charges, and
// compares the shortest with the hours that the customer gives.
func refills(m *facts.Facts) ([]Finding, error) {
	sum, err := m.Audit()
	if err != nil {
		return nil, err
	}
	best := Finding{Where: "the house bank", Path: "needs.refill_h", Check: working.Check{ID: "C06", Silent: "no state charges it"}}
	bank, err := m.ChargedBank()
	if err != nil {
		return nil, err
	}
	unknown, err := m.TooCold(bank)
	if err != nil {
		return nil, err
	}
	if unknown == "" {
		unknown = facts.BeyondLaw(bank)
	}
	for i := range m.Job.States {
		s := &m.Job.States[i]
		supplies, err := m.WorksIn(s)
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
		c, never, err := refillIn(m, s, sum.ChargeAh)
		if err != nil {
			return nil, working.In(fmt.Sprintf("states[%d]", i), err)
		}
		if best.Working == nil || sooner(c, best.Check) {
			best.Check, best.Case = c, s.Name+", "+facts.Aged+never
		}
	}
	return []Finding{best}, nil
}

// refillIn compares the time of a refill with the hours asked. One that never ends
// is judged by the state of charge that it comes to; never says why.
func refillIn(m *facts.Facts, s *job.State, dayAh decimal.Decimal) (c working.Check, never string, err error) {
	r, err := m.Refill(s, dayAh)
	if err != nil {
		return c, "", err
	}
	w := working.Start(r.Went.Working)
	if r.Went.Reached {
		w.Calc("t_fill", "t_c", r.Went.TimeH, cite.Arithmetic.At("", cite.Published))
		w.Given("t_av", m.Job.Needs.RefillH)
		return w.Check("C06", "", "t_fill", "t_av"), "", nil
	}
	never = "; it is never full: the loads take what the chargers give, or their voltage is too low"
	if !r.Source.CurrentA.IsPositive() {
		never = "; it is never full: the vehicle takes all that the alternator gives"
	}
	if _, known := w.Value("s_nf"); !known {
		w.Choose("s_nf", "s_e ≤ s_nf", facts.NearlyFull, cite.Practice.At("a full charge", cite.CommonPractice))
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
