package inspect

import (
	"fmt"
	"slices"

	"example.org/extralow/charge"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/protect"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

func whole(v decimal.Decimal) int { return int(v.IntPart()) }

func moduleOf(s job.Solar) charge.Module {
	return charge.Module{
		PowerW: s.ModuleW, OpenV: s.OpenV, ShortA: s.ShortA, WorkingV: s.WorkingV,
		PowerPercentPerC: s.PowerPercentPerC, OpenPercentPerC: s.OpenPercentPerC,
	}
}

// arrays runs one question over every solar array.
func (m *model) arrays(id string, ask func(s job.Solar) ([]working.Check, error)) ([]Finding, error) {
	if len(m.job.Solar) == 0 {
		return []Finding{{Where: "the roof", Path: "solar", Check: working.Check{ID: id, Silent: "the job has no solar modules"}}}, nil
	}
	var all []Finding
	for i, s := range m.job.Solar {
		path := fmt.Sprintf("solar[%d]", i)
		checks, err := ask(s)
		if err != nil {
			return nil, working.In(path, err)
		}
		for _, c := range checks {
			all = append(all, Finding{Check: c, Where: s.Name, Path: path})
		}
	}
	return all, nil
}

// coldString compares the voltage of a string on the coldest morning with what
// its controller bears.
func coldString(m *model) ([]Finding, error) {
	return m.arrays("C07", func(s job.Solar) ([]working.Check, error) {
		cold, err := moduleOf(s).ColdVoltage(decimal.NewNullDecimal(decimal.Min(m.outsideC(), decimal.NewFromInt(25))), whole(s.InSeries))
		if err != nil {
			return nil, err
		}
		c, err := cold.CheckController(s.ControllerV)
		return []working.Check{c}, err
	})
}

// stringDevices asks whether strings in parallel need devices of their own, and
// whether those fitted suit the modules.
func stringDevices(m *model) ([]Finding, error) {
	return m.arrays("P20", func(s job.Solar) ([]working.Check, error) {
		return protect.SolarArray{
			Count: whole(s.Strings), ShortA: s.ShortA, ModuleFuseA: s.ModuleFuseA, FittedA: s.StringFuseA,
		}.Checks()
	})
}

// holdsBalance compares the lowest state of charge of the best and of the worst
// month with the floor that the design sets; nothing may be shed, and the last week
// must put back what it took.
func holdsBalance(m *model) ([]Finding, error) {
	months, err := m.ledgers()
	if err != nil {
		return nil, err
	}
	var all []Finding
	for _, month := range months {
		f := Finding{Where: "the house bank", Path: "states", Corner: aged}
		if month.name != "" {
			f.Where += ", " + month.name
		}
		if f.Check, err = m.holds(month); err != nil {
			return nil, err
		}
		all = append(all, f)
	}
	return all, nil
}

func (m *model) holds(month monthLedger) (working.Check, error) {
	if month.cold != "" {
		return working.Check{ID: "C08", Missing: month.cold}, nil
	}
	c, err := month.Check(m.floor())
	if err != nil || c.Verdict() == working.Fails {
		return c, err
	}
	week, err := month.CheckWeek()
	if err != nil || week.Verdict() == working.Fails {
		return week, err
	}
	return c, nil
}

// floor is the state of charge that the design of the house bank does not fall below.
func (m *model) floor() decimal.NullDecimal {
	return decimal.NewNullDecimal(decimal.NewFromInt(100).Sub(m.house()[0].DepthPercent))
}

// monthLedger is how the house bank fares through weeks of a month's mean days.
type monthLedger struct {
	name  string // "" where no array makes one month unlike another
	cold  string // why it takes no charge at all, and was not stepped
	weeks int    // four, or a year where it still sank
	charge.Ledger
}

// ledgers steps the house bank through its best and its worst month, once. Without
// sun one month serves.
func (m *model) ledgers() ([]monthLedger, error) {
	if m.stepped != nil {
		return m.stepped, nil
	}
	months, err := m.months()
	if err != nil {
		return nil, err
	}
	for _, month := range months {
		b, err := m.balance(month)
		if err != nil {
			return nil, err
		}
		x, err := m.step(b)
		if err != nil {
			return nil, err
		}
		x.name = m.monthName(month)
		m.stepped = append(m.stepped, x)
	}
	return m.stepped, nil
}

// step runs a balance for four weeks. A bank that still sinks then, to where it
// would stay or for good, goes through a year of such days.
func (m *model) step(b charge.Balance) (x monthLedger, err error) {
	if x.cold, err = m.tooCold(b.Battery); err != nil || x.cold != "" {
		return x, err
	}
	for _, x.weeks = range []int{4, 52} {
		b.Days = x.weeks * 7
		if x.Ledger, err = b.Run(); err != nil {
			return x, err
		}
		low := x.LeastPercent.LessThan(m.floor().Decimal) || x.ShedH.IsPositive()
		week, err := x.CheckWeek()
		if err != nil || low || week.Verdict() == working.Passes {
			return x, err
		}
	}
	return x, nil
}

// monthName names a month where the sun makes one unlike another.
func (m *model) monthName(month int) string {
	if m.houseArray() < 0 {
		return ""
	}
	return monthNames[month-1]
}

// houseArray is the number of the first array that feeds the house bank, -1 where
// there is none.
func (m *model) houseArray() int {
	return slices.IndexFunc(m.job.Solar, func(s job.Solar) bool { return m.ofHouse(s.Name) })
}

var monthNames = [...]string{
	"January", "February", "March", "April", "May", "June",
	"July", "August", "September", "October", "November", "December",
}

// months returns the month with the most and the one with the least sun on the
// first array of the house bank; January where there is none.
func (m *model) months() ([]int, error) {
	first := m.houseArray()
	if first < 0 {
		return []int{1}, nil
	}
	sun, err := insolation(m.job.Solar[first], first)
	if err != nil {
		return nil, err
	}
	best, worst := 0, 0
	for i, f := range sun.Months {
		if f.Value.GreaterThan(sun.Months[best].Value) {
			best = i
		}
		if f.Value.LessThan(sun.Months[worst].Value) {
			worst = i
		}
	}
	return []int{worst + 1, best + 1}, nil
}

func insolation(s job.Solar, i int) (tables.Insolation, error) {
	sun, err := tables.InsolationOf(s.Place, "horizontal")
	if err != nil { // the reader of files has refused such a place with the list of them
		err = &working.InputError{Field: indexed("solar", i) + ".place", Got: s.Place, Want: "a place of the insolation tables"}
	}
	return sun, err
}

// balance lays the states of the job one behind the other into the day; the
// loads draw their day's use in them, the sun shines between its hours.
func (m *model) balance(month int) (charge.Balance, error) {
	bank, err := m.chargedBank()
	if err != nil {
		return charge.Balance{}, err
	}
	sum, err := m.audit()
	if err != nil {
		return charge.Balance{}, err
	}
	b := charge.Balance{
		Battery: bank, StartPercent: decimal.NewFromInt(100), Days: 28, FirstMonth: month,
		Loads: m.drawnIn(sum.ChargeAh),
	}
	hold := func(volts decimal.Decimal) { // the lowest that any of them holds
		if b.VoltageV.IsZero() || volts.LessThan(b.VoltageV) {
			b.VoltageV = volts
		}
	}
	for i, at := range m.spans() {
		s := &m.job.States[i]
		supplies, err := m.countedOn(s)
		if err != nil {
			return b, err
		}
		for _, x := range supplies {
			if at.hours().IsPositive() {
				hold(x.volts)
				b.Sources = append(b.Sources, charge.DutyPeriod{Name: spellName(x, s), CurrentA: x.leastA, FromH: at.from, ToH: at.to})
			}
		}
	}
	for i, s := range m.job.Solar {
		if !m.ofHouse(s.Name) || m.tooLow(s.OutputV) {
			continue
		}
		spell, err := m.sunOn(s, i, month)
		if err != nil {
			return b, err
		}
		hold(s.OutputV)
		b.Sources = append(b.Sources, spell)
	}
	if b.VoltageV.IsZero() {
		b.VoltageV = m.house()[0].FullV
	}
	return b, nil
}

// countedOn lists what fills the house bank in a state whatever the weather.
func (m *model) countedOn(s *job.State) ([]supply, error) {
	all, err := m.worksIn(s)
	return slices.DeleteFunc(all, func(x supply) bool { return m.tooLow(x.volts) }), err
}

// tooLow reports whether a voltage is below that of the full bank: what runs at it
// puts nothing into the bank in the end, and is not counted on.
func (m *model) tooLow(volts decimal.Decimal) bool { return volts.LessThan(m.house()[0].FullV) }

func spellName(x supply, s *job.State) string { return x.name + ", " + s.Name }

// perHour is a charge over so many hours, rounded up.
func perHour(ah, hours decimal.Decimal) decimal.Decimal { return ah.DivRound(hours, 9).RoundCeil(4) }

// span is the part of the day that a state takes, in whole minutes.
type span struct{ from, to decimal.Decimal }

func (s span) hours() decimal.Decimal { return s.to.Sub(s.from) }

// spans lays the states one behind the other into the day.
func (m *model) spans() []span {
	var all []span
	from := decimal.Zero
	for _, s := range m.job.States {
		to := decimal.Min(decimal.NewFromInt(24), from.Add(s.HoursDay))
		all = append(all, span{minutes(from), minutes(to)})
		from = to
	}
	return all
}

// minutes rounds hours down to whole minutes.
func minutes(h decimal.Decimal) decimal.Decimal {
	sixty := decimal.NewFromInt(60)
	return h.Mul(sixty).Floor().DivRound(sixty, 9)
}

// sunOn is what an array gives on the mean day of a month, as half a sine
// between six and eighteen o'clock: the same energy, whatever the real hours.
func (m *model) sunOn(s job.Solar, i, month int) (charge.DutyPeriod, error) {
	day, err := m.moduleDay(s, i, month)
	if err != nil {
		return charge.DutyPeriod{}, err
	}
	// half a sine of 12 hours and peak I holds I × 24 ÷ π ampere-hours
	modules := s.InSeries.Mul(s.Strings)
	peak := day.EnergyWh.Mul(modules).Mul(decimal.RequireFromString("0.1309")).DivRound(s.OutputV, 3) // π ÷ 24
	return charge.DutyPeriod{
		Name: s.Name, CurrentA: decimal.Min(peak, s.MaxA), FromH: decimal.NewFromInt(6), ToH: decimal.NewFromInt(18), Sun: true,
	}, nil
}

// moduleDay is what one module gives on the mean day of a month.
func (m *model) moduleDay(s job.Solar, i, month int) (charge.SolarDay, error) {
	sun, err := insolation(s, i)
	if err != nil {
		return charge.SolarDay{}, err
	}
	y := charge.SolarYield{
		Module: moduleOf(s), SunKWhPerM2: sun.Months[month-1].Value, DayCellC: s.CellC,
		LossesPercent: decimal.NewNullDecimal(s.LossesPercent), Efficiency: s.EfficiencyPercent.Shift(-2), Tracking: s.Tracking,
	}
	y.From.LookUp("H_d", sun.Months[month-1])
	if !s.Tracking {
		y.BatteryV = decimal.NewNullDecimal(m.lowestBankV())
	}
	day, err := y.Day()
	return day, working.In(fmt.Sprintf("solar[%d]", i), err)
}
