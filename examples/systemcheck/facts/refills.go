package facts

import (
	"slices"

	"example.org/extralow/charge"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Refill is how long a state's chargers take to put a day's use back, whatever
// the weather, net of the loads that run in it.
type Refill struct {
	State     string
	TimeH     decimal.NullDecimal // unset: never
	ToPercent decimal.Decimal     // where the bank counts as full
}

// Charging is how a day's use comes back, by each source and by rules of thumb.
type Charging struct {
	Sources []SourceRefill
	Sun     []SunDay
	Rules   []RuleOfThumb // the least first; of the quickest state
	State   string        // that state; "" where none refills, or no rule is published for the chemistry
	Whole   bool          // a day's use is more than the bank holds: every time is that of the whole bank, from empty
}

// SourceRefill is how long one source takes by itself, with no load on.
type SourceRefill struct {
	Source  string
	TimeH   decimal.NullDecimal // unset: never
	Working working.Working

	toPercent decimal.Decimal
}

// SunDay is what an array puts in on the mean day of a month.
type SunDay struct {
	Array    string
	Month    string
	ChargeAh decimal.Decimal
	Working  working.Working
}

// RuleOfThumb is the time that a published recharge factor gives.
type RuleOfThumb struct {
	Rule    string
	TimeH   decimal.Decimal
	Working working.Working
}

// refillTimes steps the refill in every state in which something charges that
// does not wait for the sun.
func (m *Facts) refillTimes(dayAh decimal.Decimal) ([]Refill, error) {
	bank, err := m.ChargedBank()
	if err != nil || BeyondLaw(bank) != "" {
		return nil, err
	}
	var all []Refill
	for i := range m.Job.States {
		s := &m.Job.States[i]
		supplies, err := m.WorksIn(s)
		if err != nil {
			return nil, err
		}
		if len(supplies) == 0 {
			continue
		}
		went, err := m.refilled(s, dayAh)
		if err != nil {
			return nil, working.In(Indexed("states", i), err)
		}
		all = append(all, Refill{s.Name, went.TimeH, went.toPercent})
	}
	return all, nil
}

// refilled steps the refill with the sources and loads of a state.
func (m *Facts) refilled(s *job.State, dayAh decimal.Decimal) (SourceRefill, error) {
	sim, err := m.refillOf(s)
	if err != nil || !sim.Source.CurrentA.IsPositive() {
		return SourceRefill{}, err
	}
	r, err := m.Refill(s, dayAh)
	return SourceRefill{TimeH: decimal.NullDecimal{Decimal: r.Went.TimeH, Valid: r.Went.Reached}, Working: r.Went.Working, toPercent: r.StopPercent.Decimal}, err
}

// ChargingInFull gathers each source by itself, the sun of the worst and the
// best month, and the rules of thumb.
func (m *Facts) ChargingInFull(bank BankSummary, dayAh decimal.Decimal) (Charging, error) {
	var c Charging
	held, err := m.ChargedBank()
	if err != nil {
		return c, err
	}
	c.Whole = dayAh.GreaterThan(held.CapacityAh)
	if BeyondLaw(held) == "" {
		if c.Sources, err = m.sourcesAlone(dayAh); err != nil {
			return c, err
		}
	}
	if c.Sun, err = m.sunDays(); err != nil {
		return c, err
	}
	c.Rules, c.State, err = m.byRules(bank, decimal.Min(dayAh, held.CapacityAh))
	return c, err
}

// sourcesAlone asks of each charger and of each alternator that cables join to
// the house bank how long it takes by itself, in a state made for it.
func (m *Facts) sourcesAlone(dayAh decimal.Decimal) ([]SourceRefill, error) {
	var names, paths []string
	for i, c := range m.Job.Chargers[:len(m.Job.Chargers)-len(m.Job.Solar)] { // the controllers stand last
		if m.OfHouse(c.Name) {
			names, paths = append(names, c.Name), append(paths, m.ChargerPath(i))
		}
	}
	for i, a := range m.Job.Alternators {
		if m.OfHouse(a.Name) {
			names, paths = append(names, a.Name), append(paths, Indexed("alternators", i))
		}
	}
	var all []SourceRefill
	for i, name := range names {
		one, err := m.refilled(&job.State{Name: name, Sources: []string{name}}, dayAh)
		if err != nil {
			return nil, working.In(paths[i], err)
		}
		one.Source = name
		all = append(all, one)
	}
	return all, nil
}

// sunDays asks of each array what it puts in on the mean day of the worst and of
// the best month.
func (m *Facts) sunDays() ([]SunDay, error) {
	if len(m.Job.Solar) == 0 {
		return nil, nil
	}
	months, err := m.Months()
	if err != nil {
		return nil, err
	}
	var all []SunDay
	for i, s := range m.Job.Solar {
		if !m.OfHouse(s.Name) {
			continue
		}
		for _, month := range months {
			day, err := m.ModuleDay(s, i, month)
			if err != nil {
				return nil, err
			}
			put, err := charge.ArrayDay{
				EnergyWh: day.EnergyWh, InSeries: Whole(s.InSeries), Strings: Whole(s.Strings),
				ChargingV: s.OutputV, LimitA: s.MaxA, From: day.Working,
			}.Charge()
			if err != nil {
				return nil, working.In(Indexed("solar", i), err)
			}
			all = append(all, SunDay{s.Name, MonthNames[month-1], put.ChargeAh, put.Working})
		}
	}
	return all, nil
}

// byRules asks the published recharge factors for the quickest state.
func (m *Facts) byRules(bank BankSummary, missingAh decimal.Decimal) (all []RuleOfThumb, state string, err error) {
	s := m.quickest(bank.Refills)
	if s == nil {
		return nil, "", nil
	}
	supplies, err := m.WorksIn(s)
	if err != nil {
		return nil, "", err
	}
	r := charge.Refill{Chemistry: m.House()[0].Chemistry, MissingAh: missingAh, LoadA: decimal.NewNullDecimal(m.average(s))}
	for _, x := range supplies {
		r.CurrentA = r.CurrentA.Add(x.LeastA)
	}
	if !missingAh.IsPositive() || !r.CurrentA.GreaterThan(r.LoadA.Decimal) {
		return nil, "", nil
	}
	times, err := r.Times()
	if NoCapacity(err) { // no rule for the chemistry
		return nil, "", nil
	}
	for _, t := range times {
		all = append(all, RuleOfThumb{t.Rule, t.TimeH, t.Working})
	}
	slices.SortStableFunc(all, func(a, b RuleOfThumb) int { return a.TimeH.Cmp(b.TimeH) })
	return all, s.Name, err
}

// quickest is the state that refills soonest, without its sun; nil where none
// does.
func (m *Facts) quickest(refills []Refill) *job.State {
	var least decimal.NullDecimal
	name := ""
	for _, r := range refills {
		if r.TimeH.Valid && (!least.Valid || r.TimeH.Decimal.LessThan(least.Decimal)) {
			least, name = r.TimeH, r.State
		}
	}
	i := slices.IndexFunc(m.Job.States, func(s job.State) bool { return s.Name == name })
	if !least.Valid || i < 0 {
		return nil
	}
	return &m.Job.States[i]
}
