package facts

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

func Whole(v decimal.Decimal) int { return int(v.IntPart()) }

func ModuleOf(s job.Solar) charge.Module {
	return charge.Module{
		PowerW: s.ModuleW, OpenV: s.OpenV, ShortA: s.ShortA, WorkingV: s.WorkingV,
		PowerPercentPerC: s.PowerPercentPerC, OpenPercentPerC: s.OpenPercentPerC,
	}
}

// Floor is the state of charge that the design of the house bank does not fall below.
func (m *Facts) Floor() decimal.NullDecimal {
	return decimal.NewNullDecimal(decimal.NewFromInt(100).Sub(m.House()[0].DepthPercent))
}

// MonthLedger is how the house bank fares through weeks of a month's mean days.
type MonthLedger struct {
	Month int    // of the year
	Name  string // "" where no array makes one month unlike another
	Cold  string // why it takes no charge at all, and was not stepped
	Weeks int    // four, or a year where it still sank
	charge.Ledger
}

// Ledgers steps the house bank through its best and its worst month, once. Without
// sun one month serves.
func (m *Facts) Ledgers() ([]MonthLedger, error) {
	months, err := m.Months()
	if err != nil {
		return nil, err
	}
	all := make([]MonthLedger, len(months))
	for i, month := range months {
		if all[i], err = m.ledgers.get(month, func() (MonthLedger, error) { return m.ledger(month) }); err != nil {
			return nil, err
		}
	}
	return all, nil
}

func (m *Facts) ledger(month int) (MonthLedger, error) {
	b, err := m.Balance(month)
	if err != nil {
		return MonthLedger{}, err
	}
	x, err := m.Step(b)
	x.Month, x.Name = month, m.monthName(month)
	return x, err
}

// Step runs a balance for four weeks. A bank that still sinks then, to where it
// would stay or for good, goes through a year of such days.
func (m *Facts) Step(b charge.Balance) (x MonthLedger, err error) {
	if x.Cold, err = m.TooCold(b.Battery); err != nil || x.Cold != "" {
		return x, err
	}
	for _, x.Weeks = range []int{4, 52} {
		b.Days = x.Weeks * 7
		if x.Ledger, err = b.Run(); err != nil {
			return x, err
		}
		low := x.LeastPercent.LessThan(m.Floor().Decimal) || x.ShedH.IsPositive()
		week, err := x.CheckWeek()
		if err != nil || low || week.Verdict() == working.Passes {
			return x, err
		}
	}
	return x, nil
}

// monthName names a month where the sun makes one unlike another.
func (m *Facts) monthName(month int) string {
	if m.houseArray() < 0 {
		return ""
	}
	return MonthNames[month-1]
}

// houseArray is the number of the first array that feeds the house bank, -1 where
// there is none.
func (m *Facts) houseArray() int {
	return slices.IndexFunc(m.Job.Solar, func(s job.Solar) bool { return m.OfHouse(s.Name) })
}

var MonthNames = [...]string{
	"January", "February", "March", "April", "May", "June",
	"July", "August", "September", "October", "November", "December",
}

// Months returns the month with the most and the one with the least sun on the
// first array of the house bank; January where there is none.
func (m *Facts) Months() ([]int, error) {
	first := m.houseArray()
	if first < 0 {
		return []int{1}, nil
	}
	sun, err := insolation(m.Job.Solar[first], first)
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
		err = &working.InputError{Field: Indexed("solar", i) + ".place", Got: s.Place, Want: "a place of the insolation tables"}
	}
	return sun, err
}

// Balance lays the states of the job one behind the other into the day; the
// loads draw their day's use in them, the sun shines between its hours.
func (m *Facts) Balance(month int) (charge.Balance, error) {
	bank, err := m.ChargedBank()
	if err != nil {
		return charge.Balance{}, err
	}
	sum, err := m.Audit()
	if err != nil {
		return charge.Balance{}, err
	}
	b := charge.Balance{
		Battery: bank, StartPercent: decimal.NewFromInt(100), Days: 28, FirstMonth: month,
		Loads: m.DrawnIn(sum.ChargeAh),
	}
	hold := func(volts decimal.Decimal) { // the lowest that any of them holds
		if b.VoltageV.IsZero() || volts.LessThan(b.VoltageV) {
			b.VoltageV = volts
		}
	}
	for i, at := range m.Spans() {
		s := &m.Job.States[i]
		supplies, err := m.CountedOn(s)
		if err != nil {
			return b, err
		}
		for _, x := range supplies {
			if at.Hours().IsPositive() {
				hold(x.volts)
				b.Sources = append(b.Sources, charge.DutyPeriod{Name: SpellName(x, s), CurrentA: x.LeastA, FromH: at.From, ToH: at.To})
			}
		}
	}
	for i, s := range m.Job.Solar {
		if !m.OfHouse(s.Name) || m.tooLow(s.OutputV) {
			continue
		}
		spell, err := m.SunOn(s, i, month)
		if err != nil {
			return b, err
		}
		hold(s.OutputV)
		b.Sources = append(b.Sources, spell)
	}
	if b.VoltageV.IsZero() {
		b.VoltageV = m.House()[0].FullV
	}
	return b, nil
}

// CountedOn lists what fills the house bank in a state whatever the weather.
func (m *Facts) CountedOn(s *job.State) ([]Supply, error) {
	all, err := m.WorksIn(s)
	return slices.DeleteFunc(all, func(x Supply) bool { return m.tooLow(x.volts) }), err
}

// tooLow reports whether a voltage is below that of the full bank: what runs at it
// puts nothing into the bank in the end, and is not counted on.
func (m *Facts) tooLow(volts decimal.Decimal) bool { return volts.LessThan(m.House()[0].FullV) }

func SpellName(x Supply, s *job.State) string { return x.Name + ", " + s.Name }

// perHour is a charge over so many hours, rounded up.
func perHour(ah, hours decimal.Decimal) decimal.Decimal { return ah.DivRound(hours, 9).RoundCeil(4) }

// span is the part of the day that a state takes, in whole minutes.
type span struct{ From, To decimal.Decimal }

func (s span) Hours() decimal.Decimal { return s.To.Sub(s.From) }

// Spans lays the states one behind the other into the day.
func (m *Facts) Spans() []span {
	var all []span
	from := decimal.Zero
	for _, s := range m.Job.States {
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

// SunOn is what an array gives on the mean day of a month, as half a sine
// between six and eighteen o'clock: the same energy, whatever the real hours.
func (m *Facts) SunOn(s job.Solar, i, month int) (charge.DutyPeriod, error) {
	day, err := m.ModuleDay(s, i, month)
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

// ModuleDay is what one module gives on the mean day of a month.
func (m *Facts) ModuleDay(s job.Solar, i, month int) (charge.SolarDay, error) {
	sun, err := insolation(s, i)
	if err != nil {
		return charge.SolarDay{}, err
	}
	y := charge.SolarYield{
		Module: ModuleOf(s), SunKWhPerM2: sun.Months[month-1].Value, DayCellC: s.CellC,
		LossesPercent: decimal.NewNullDecimal(s.LossesPercent), Efficiency: s.EfficiencyPercent.Shift(-2), Tracking: s.Tracking,
	}
	y.From.LookUp("H_d", sun.Months[month-1])
	if !s.Tracking {
		low, modules := y.From.Given("E_e", m.lowestBankV()), y.From.Given("n_ser", s.InSeries)
		y.BatteryV = decimal.NewNullDecimal(y.From.CalcDown("U_bat", "E_e ÷ n_ser", low, modules, 4, cite.Kirchhoff.At("", cite.Published)))
	}
	day, err := y.Day()
	return day, working.In(fmt.Sprintf("solar[%d]", i), err)
}
