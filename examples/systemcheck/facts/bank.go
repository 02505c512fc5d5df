package facts

import (
	"errors"
	"slices"
	"strings"
	"sync"

	"example.org/extralow/battery"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire/installation"
	"github.com/shopspring/decimal"
)

// low and high are a battery's resistance for faults and for volts: as stated,
// or the typical range from memory, which a stated one of the two widens. Where
// neither is known the smallest stands
// in, which understates no fault, and unknown lists the battery: what fails on
// it fails anyway, and what passes cannot be told.
func (m *Facts) low(b job.Battery) decimal.Decimal {
	if b.LowMilliohm.Valid {
		return b.LowMilliohm.Decimal
	}
	low, _, err := tables.InternalResistance(b.Chemistry, b.NominalV, b.CapacityAh)
	switch {
	case err != nil:
		return regulated()
	case b.HighMilliohm.Valid:
		return decimal.Min(low.Value, b.HighMilliohm.Decimal)
	default:
		return low.Value
	}
}

func (m *Facts) High(b job.Battery) decimal.Decimal {
	if b.HighMilliohm.Valid {
		return b.HighMilliohm.Decimal
	}
	_, high, err := tables.InternalResistance(b.Chemistry, b.NominalV, b.CapacityAh)
	if err != nil {
		high.Value = regulated()
	}
	return decimal.Max(high.Value, b.LowMilliohm.Decimal)
}

// Unknown names the batteries whose high resistance is neither stated nor listed.
func (m *Facts) Unknown() []string {
	var all []string
	for _, b := range m.Job.Batteries {
		if _, _, err := tables.InternalResistance(b.Chemistry, b.NominalV, b.CapacityAh); err != nil && !b.HighMilliohm.Valid {
			all = append(all, b.Name)
		}
	}
	return all
}

func (m *Facts) BatteryPath(name string) string {
	return Indexed("batteries", slices.IndexFunc(m.Job.Batteries, func(b job.Battery) bool { return b.Name == name }))
}

// MostGiven is the most that a battery gives without end. One outside the house
// bank also feeds the converters on its side while no alternator holds it up: before
// it does, and after a belt is gone.
func (m *Facts) MostGiven(b job.Battery, missing bool) (worst decimal.Decimal, corner string, err error) {
	for _, c := range m.Cases {
		if a := c.given(b.Name); !c.short() && (c.BatteryMissing != "") == missing && a.GreaterThan(worst) {
			worst, corner = a, c.Name
		}
	}
	if missing || m.IsHouse(b.Name) {
		return worst, corner, nil
	}
	for i := range m.Job.States {
		s := &m.Job.States[i]
		c, err := m.withoutAlternators(i)
		if err != nil {
			return worst, corner, err
		}
		if a := c.given(b.Name); a.GreaterThan(worst) {
			worst, corner = a, s.Name+", before an alternator holds it up"
		}
	}
	return worst, corner, nil
}

// withoutAlternators solves a state with its chargers and its loads while no
// alternator gives anything.
func (m *Facts) withoutAlternators(state int) (Solved, error) {
	still := m.states[state]
	still.Sources = slices.DeleteFunc(slices.Clone(still.Sources), func(u installation.Supply) bool {
		return slices.ContainsFunc(m.Job.Alternators, func(a job.Alternator) bool { return a.Name == u.Source })
	})
	return m.askIn(installation.Case{Name: still.Name, Loads: true, Sources: true}, state, still)
}

// milliohmIn is the resistance of a battery in a case. Where all are new, one outside the
// house bank is taken as aged: its source, not its resistance, sets what it takes.
func (m *Facts) milliohmIn(b job.Battery, c Solved) decimal.Decimal {
	full := c.Full || c.Fuller != "" && m.sides[c.Fuller] == m.sides[b.Name]
	if full || c.NewBattery == b.Name || c.NewBattery == installation.EveryBattery && m.IsHouse(b.Name) {
		return m.low(b)
	}
	return m.High(b)
}

// bank is the house bank as the battery package takes it.
func (m *Facts) bank() battery.Bank { return m.BankOf(m.House()) }

// BankOf is batteries of one bank as that package takes them, at the coldest that
// they get while they serve.
func (m *Facts) BankOf(batteries []job.Battery) battery.Bank {
	b := battery.Bank{Series: 1, BatteryC: decimal.NewNullDecimal(m.servedBy(batteries[0]))}
	for _, x := range batteries {
		b.Batteries = append(b.Batteries, battery.BankBattery{
			Name: x.Name, Chemistry: x.Chemistry, NominalV: x.NominalV, CapacityAh: x.CapacityAh,
			RateH: decimal.NewNullDecimal(x.RatedH), FastAh: x.FastAh, FastH: x.FastH,
			LowMilliohm: x.LowMilliohm, HighMilliohm: x.HighMilliohm, FullV: x.FullV, EmptyV: x.EmptyV,
			DepthPercent: decimal.NewNullDecimal(x.DepthPercent), AgeingPercent: decimal.NewNullDecimal(x.AgeingPercent),
			GreatestDischargeA: x.MaxDischargeA, GreatestChargeA: x.MaxChargeA, CutOutV: x.CutOutV,
		})
	}
	return b
}

// Use is the house bank with a day's use and the days that the customer asks.
func (m *Facts) Use() (battery.BankAutonomy, error) {
	sum, err := m.Audit()
	a := battery.BankAutonomy{Bank: m.bank(), EnergyWh: sum.EnergyWh, Days: m.Job.Needs.AutonomyDays, From: sum.Working}
	if part := a.Days.Sub(a.Days.Floor()); part.IsPositive() {
		wh, where := m.WorstPart(part.Mul(DayH), sum.EnergyWh)
		a.PartWh, a.PartWhere = decimal.NewNullDecimal(wh), where
	}
	return a, err
}

const CapacityText = "ask the maker for the capacity at the coldest that the bank gets: no table reaches that cold"

// NoCapacity reports that no table has the capacity at the bank's temperature.
func NoCapacity(err error) bool {
	return errors.Is(err, tables.ErrOutside) || errors.Is(err, tables.ErrNotListed)
}

// usable is what the house bank gives in its use, as B03 has it. Where no table
// reaches its temperature or no rating its current, it says what to ask.
func (m *Facts) usable() (u battery.Usable, known bool, err error) {
	u, err = m.usables.get("", func() (battery.Usable, error) {
		use, err := m.Use()
		if err != nil {
			return battery.Usable{}, err
		}
		u, err := use.Usable()
		if NoCapacity(err) {
			return battery.Usable{Missing: CapacityText}, nil
		}
		return u, err
	})
	return u, err == nil && u.Missing == "", err
}

// Audit sums what the loads take from the house bank in a day. It is summed once.
func (m *Facts) Audit() (battery.AuditSum, error) {
	return m.audits.get("", func() (battery.AuditSum, error) {
		return m.auditOf(func(l job.Load) decimal.Decimal { return l.HoursADay }, m.hoursOn)
	})
}

// auditOf sums a day of the house bank in which each load and each inverter is on
// for the hours given.
func (m *Facts) auditOf(hours func(job.Load) decimal.Decimal, on func(job.Inverter) decimal.Decimal) (battery.AuditSum, error) {
	return m.auditOn(m.Banks[0], hours, on)
}

// auditOn sums such a day of a bank; nothing where nothing draws on it.
func (m *Facts) auditOn(k Bank, hours func(job.Load) decimal.Decimal, on func(job.Inverter) decimal.Decimal) (battery.AuditSum, error) {
	var loads []battery.AuditLoad
	for _, l := range m.drawingOn(k) {
		loads = append(loads, m.audited(l, hours(l)))
	}
	return m.sumOf(k, loads, on)
}

// drawingOn lists what draws on a bank. What a converter takes of another than that
// of the house is asked apart (rule C13).
func (m *Facts) drawingOn(k Bank) []job.Load {
	var all []job.Load
	if k.House {
		for _, c := range m.onHouse() {
			all = append(all, c.Load)
		}
		return all
	}
	for _, l := range m.Job.Loads {
		if m.drawsOn(k, l.Node()) && !l.Cranking {
			all = append(all, l)
		}
	}
	return all
}

// sumOf sums a day of loads on a bank and of the inverters there.
func (m *Facts) sumOf(k Bank, loads []battery.AuditLoad, on func(job.Inverter) decimal.Decimal) (battery.AuditSum, error) {
	a := battery.Audit{SystemV: m.Job.SystemV, LowestV: lowestV(k.Batteries), Loads: loads}
	for _, inv := range m.Job.Inverters {
		if m.drawsOn(k, inv.Name) {
			a.Inverters = append(a.Inverters, battery.AuditInverter{
				Inverter: inverterOf(inv), OnHours: decimal.NewNullDecimal(on(inv)), Isolated: inv.Isolated,
			})
		}
	}
	if len(a.Loads)+len(a.Inverters) == 0 {
		return battery.AuditSum{}, nil
	}
	return a.Sum()
}

func (m *Facts) audited(l job.Load, hours decimal.Decimal) battery.AuditLoad {
	x := battery.AuditLoad{
		Name: l.Name, PowerW: l.PowerW, CurrentA: l.CurrentA, HoursADay: decimal.NewNullDecimal(hours), DutyPercent: l.Percent,
		StandbyW: l.StandbyW, SurgeW: l.SurgeW, Inverter: l.Inverter, Isolated: l.Isolated,
	}
	if l.CurrentA.Valid {
		x.AtV = decimal.NewNullDecimal(m.Job.SystemV)
	}
	return x
}

// hoursOn is how long a day an inverter is switched on: through every state in
// which it feeds something.
func (m *Facts) hoursOn(inv job.Inverter) decimal.Decimal {
	hours := decimal.Zero
	for i := range m.Job.States {
		if s := &m.Job.States[i]; m.InverterOut(inv, s).IsPositive() {
			hours = hours.Add(s.HoursDay)
		}
	}
	return hours
}

func inverterOf(inv job.Inverter) battery.Inverter {
	return battery.Inverter{Name: inv.Name, EfficiencyPercent: decimal.NewNullDecimal(inv.EfficiencyPercent), IdleW: decimal.NewNullDecimal(inv.IdleW)}
}

// lowestBankV is the lowest rested voltage of the house bank.
func (m *Facts) lowestBankV() decimal.Decimal { return lowestV(m.House()) }

func lowestV(batteries []job.Battery) decimal.Decimal {
	low := batteries[0].EmptyV
	for _, b := range batteries {
		low = decimal.Min(low, b.EmptyV)
	}
	return low
}

// OfOne puts the path of a battery in the job in place of that in a bank of one.
func OfOne(err error, path string) error {
	var all []error
	for _, e := range working.Inputs(err) {
		own := *e
		own.Field = path + strings.TrimPrefix(e.Field, "batteries[0]")
		all = append(all, &own)
	}
	return errors.Join(all...)
}

// LowestCutOut is the lowest voltage at which an inverter switches off or a device sheds
// a load of a bank; where the job has neither on it, that at which a load gives up by
// itself; unset where none states one. A voltage at which a load still works is none at
// which it lets go.
func (m *Facts) LowestCutOut(k Bank) (lowest decimal.NullDecimal, name string) {
	take := func(v decimal.NullDecimal, of string) {
		if v.Valid && (!lowest.Valid || v.Decimal.LessThan(lowest.Decimal)) {
			lowest, name = v, of
		}
	}
	for _, inv := range m.Job.Inverters {
		if m.drawsOn(k, inv.Name) {
			take(decimal.NewNullDecimal(inv.CutOutV), inv.Name)
		}
	}
	mayGo := slices.DeleteFunc(slices.Clone(m.Job.Loads), func(l job.Load) bool { return l.MustRun || l.Cranking || !m.drawsOn(k, l.Node()) })
	for _, l := range mayGo {
		take(l.ShedsV, l.Name)
	}
	if lowest.Valid {
		return lowest, name
	}
	for _, l := range mayGo {
		take(l.LeastV, l.Name)
	}
	return lowest, name
}

// SurgeOut is the most that an inverter gives in a state: the load whose start
// adds most, of those asked for, starts while the others run.
func (m *Facts) SurgeOut(inv job.Inverter, s *job.State, asked func(job.Load) bool) decimal.Decimal {
	running, most := m.InverterOut(inv, s), decimal.Zero
	for _, l := range m.Job.Loads {
		if l.Inverter == inv.Name && slices.Contains(s.Loads, l.Name) && l.SurgeW.Valid && asked(l) {
			most = decimal.Max(most, l.SurgeW.Decimal.Sub(m.watts(l)))
		}
	}
	return running.Add(most)
}

func AnyStart(job.Load) bool { return true }

// startsFor is how long a start may take, at the most: what lasts longer heats as a
// load that lasts, and no short-time rating is meant for it (common practice).
var startsFor = sync.OnceValue(func() decimal.Decimal {
	f, err := tables.SizingFigure("longest_start")
	return Tabled(f, err)
})

// StartLasts reports whether what a load takes to start lasts for so long that it is
// no start.
func StartLasts(l job.Load) bool { return l.SurgeW.Valid && l.SurgeS.Decimal.GreaterThan(startsFor()) }

// HardestOut is what an inverter is judged at in a state: with a start of its loads;
// where none of them states any, at its own rated surge, which something will ask of
// it some day.
func (m *Facts) HardestOut(inv job.Inverter, s *job.State) (w decimal.Decimal, corner string) {
	if slices.ContainsFunc(m.Job.Loads, func(l job.Load) bool { return l.Inverter == inv.Name && l.SurgeW.Valid }) {
		return m.SurgeOut(inv, s, AnyStart), "one load starting"
	}
	return decimal.Max(inv.SurgeW, m.InverterOut(inv, s)), "at its rated surge: no load states its start"
}

// Absences are the ways in which the bank may stand in a state: whole, of several
// batteries with each missing in turn, and parted from another bank.
func (m *Facts) Absences(s *job.State) []installation.Case {
	all := []installation.Case{{Name: s.Name + ", on the batteries alone", Loads: true}}
	if house := m.House(); len(house) > 1 {
		for _, b := range house {
			all = append(all, installation.Case{Name: s.Name + ", without " + b.Name, Loads: true, BatteryMissing: b.Name})
		}
	}
	for _, c := range all {
		for _, link := range m.usuallyClosedLinks() {
			c.Name, c.Open = c.Name+", the banks apart", link
			all = append(all, c)
		}
	}
	return all
}

// AtSurge solves a case of a state, by its number, with an inverter at an output.
func (m *Facts) AtSurge(inv job.Inverter, of installation.Case, state int, outW decimal.Decimal) (Solved, error) {
	in, err := inverterIn(inv, outW)
	if err != nil {
		return Solved{}, err
	}
	return m.ask(of, state, installation.LoadUse{Load: inv.Name, Takes: watts(in)})
}

// InverterOut is what an inverter feeds in a state.
func (m *Facts) InverterOut(inv job.Inverter, s *job.State) decimal.Decimal {
	sum := decimal.Zero
	for _, l := range m.Job.Loads {
		if l.Inverter == inv.Name && slices.Contains(s.Loads, l.Name) {
			sum = sum.Add(m.watts(l))
		}
	}
	return sum
}

// watts is the power of a load; amperes are stated at the nominal voltage.
func (m *Facts) watts(l job.Load) decimal.Decimal {
	if l.PowerW.Valid {
		return l.PowerW.Decimal
	}
	return l.CurrentA.Decimal.Mul(m.Job.SystemV)
}

// inverterIn is what an inverter takes from the bank for an output, as a load
// of constant power.
func inverterIn(inv job.Inverter, outW decimal.Decimal) (decimal.Decimal, error) {
	d, err := inverterOf(inv).Draw(outW, inv.CutOutV)
	return d.InputW, err
}
