package charge

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// DutyPeriod is a current that flows at the same hours of some days: a load, a drive,
// a mains charger, the sun.
type DutyPeriod struct {
	Name     string            `json:"duty"`
	CurrentA decimal.Decimal   `json:"duty_a"`             // at the battery; the greatest of it for the sun
	FromH    decimal.Decimal   `json:"from_h"`             // of the day
	ToH      decimal.Decimal   `json:"to_h"`               // up to 24
	Weekdays []int             `json:"weekdays,omitempty"` // 1 to 7; none: every day
	Sun      bool              `json:"sun"`                // it rises and falls between these hours as half a sine
	Months   []decimal.Decimal `json:"months,omitempty"`   // shares of CurrentA from January on; none: the whole
}

// Balance is a bank through days, weeks or a year of loads and sources. The first
// day is the first of a week and, by the months, the first of FirstMonth.
type Balance struct {
	Battery       BatteryOnCharge     `json:"battery"`
	VoltageV      decimal.Decimal     `json:"stage_v"` // that the sources hold and do not pass; above 0 to 1000
	Sources       []DutyPeriod        `json:"sources,omitempty"`
	Loads         []DutyPeriod        `json:"loads,omitempty"`
	NoLoads       bool                `json:"no_loads"` // nothing is drawn: a bank without loads has to be stated
	StartPercent  decimal.Decimal     `json:"start_percent"`
	CutOutPercent decimal.NullDecimal `json:"cut_out_percent"` // the loads are shed here; unset: never
	ResumePercent decimal.NullDecimal `json:"resume_percent"`  // and come back here
	BelowPercent  decimal.NullDecimal `json:"below_percent"`   // the hours below it are counted; unset: not asked
	Days          int                 `json:"days"`
	FirstMonth    int                 `json:"first_month"`   // 1 to 12
	TraceEveryH   int                 `json:"trace_every_h"` // 0: no trace
}

// Ledger is how the bank fared.
type Ledger struct {
	LeastPercent      decimal.Decimal     `json:"least_percent"`
	LeastAtH          decimal.Decimal     `json:"least_at_h"` // since the start
	EndPercent        decimal.Decimal     `json:"end_percent"`
	WeekBeforePercent decimal.NullDecimal `json:"week_before_percent"` // a week before the end; unset where it ran for less
	ShedH             decimal.Decimal     `json:"shed_h"`              // the loads were shed, or the bank was flat
	BelowH            decimal.Decimal     `json:"below_h"`             // the bank was below BelowPercent
	UnmetWh           decimal.Decimal     `json:"unmet_wh"`            // the loads went without
	InWh              decimal.Decimal     `json:"in_wh"`
	StoredWh          decimal.Decimal     `json:"stored_wh"`
	LoadWh            decimal.Decimal     `json:"load_wh"`
	LostWh            decimal.Decimal     `json:"lost_wh"`
	Trace             []LedgerLine        `json:"trace,omitempty"`
	Working           working.Working     `json:"working"`
}

// LedgerLine is one line of its trace.
type LedgerLine struct {
	TimeH      decimal.Decimal `json:"balance_h"`
	SoCPercent decimal.Decimal `json:"soc_percent"`
	BatteryV   decimal.Decimal `json:"battery_v"`
}

// Run steps the bank through its days, a minute at a time, by the model of
// [Simulation.Run]: the sources together give their currents up to the voltage
// that they hold, the loads take theirs off, the battery takes what it accepts.
// What a full battery does not take is not counted as given.
//
// Where the bank runs flat with no cut-out, the load goes short by what the
// sources do not cover; those hours count as shed. What the loads went without
// is their current times the voltage that stood at the battery meanwhile.
//
// The voltage of a lead-acid battery under charge is that of its EMF and resistance
// here, and does not climb by the law of [LeadAcidCell.Voltage]: sources and loads are
// currents at the battery, so that the voltage weighs the watt-hours alone, some tenth
// of those taken in; the law is one of a steady charge, not of sun and loads that
// change by the minute; and a month of it would take as long as a year of this. Near
// full, where the law lets less in, the ampere-hour law is on the fast side: a bank
// that is to be full by evening is asked of [Simulation.Run].
//
// Days 1 to 366, at most 50 sources of 0 to 10 000 A and 50 loads of more than 0, or
// NoLoads. Hours are whole minutes. It ends to the minute; the state of charge is given
// to 0.001 %, energy to 0.1 Wh.
func (b Balance) Run() (Ledger, error) {
	if err := b.check(); err != nil {
		return Ledger{}, err
	}
	var w working.Working
	rate, accept, err := b.Battery.limits(&w)
	if err != nil {
		return Ledger{}, err
	}
	y := newYear(b, rate, accept)
	for day := range b.Days {
		y.day(day)
	}
	if y.chatters {
		return Ledger{}, errors.New("balance: the limits chatter, and it does not end")
	}
	l := y.ledger(w)
	return l, y.out.err
}

const minutesADay, daysAWeek = 24 * 60, 7

// year is a balance under way.
type year struct {
	Balance
	state
	sources, loads   []shape
	sourceA, loadA   [minutesADay]float64 // of the present day
	lowestAh, lowest float64              // and when
	weekBeforeAh     float64              // a week before the end
	cutAh, resumeAh  float64
	belowAh          float64 // below which the minutes are counted; below nought: none
	shed             bool
	shedMinutes      int
	belowMinutes     int
	unmetWh          float64
	trace            []LedgerLine
	mostSteps        int  // that a minute can take
	chatters         bool // one took more
}

// shape is a spell's current by the minute of a day on which it flows.
type shape struct {
	DutyPeriod
	amps     [minutesADay]float64
	weekdays [7]bool
}

func newYear(b Balance, rate, accept decimal.Decimal) *year {
	capacity := b.Battery.CapacityAh.InexactFloat64()
	y := &year{Balance: b, sources: shapes(b.Sources), loads: shapes(b.Loads), cutAh: -1, belowAh: -1}
	y.state = newState(b.Battery, b.StartPercent.InexactFloat64()/100*capacity, nil, rate, accept)
	y.m.stageV = b.VoltageV.InexactFloat64()
	y.mostSteps = stepsOfAMinute(len(y.m.spans))
	y.lowestAh = y.ah
	if b.CutOutPercent.Valid {
		y.cutAh = b.CutOutPercent.Decimal.InexactFloat64() / 100 * capacity
		y.resumeAh = b.ResumePercent.Decimal.InexactFloat64() / 100 * capacity
	}
	if b.BelowPercent.Valid {
		y.belowAh = (b.BelowPercent.Decimal.InexactFloat64()/100 - 5e-6) * capacity // to 0.001 %
	}
	return y
}

func shapes(spells []DutyPeriod) []shape {
	all := make([]shape, len(spells))
	for i, s := range spells {
		all[i].DutyPeriod = s
		from, to := minuteOf(s.FromH), minuteOf(s.ToH)
		for minute := from; minute < to; minute++ {
			share := 1.0
			if s.Sun {
				share = math.Sin(math.Pi * (float64(minute-from) + 0.5) / float64(to-from))
			}
			all[i].amps[minute] = share * s.CurrentA.InexactFloat64()
		}
		for day := range 7 {
			all[i].weekdays[day] = len(s.Weekdays) == 0 || slices.Contains(s.Weekdays, day+1)
		}
	}
	return all
}

// minuteOf turns hours of a day into its minute.
func minuteOf(hours decimal.Decimal) int {
	return int(hours.Mul(decimal.NewFromInt(60)).Round(0).IntPart())
}

// monthEnds are the days of a common year that the months have ended by.
var monthEnds = [12]int{31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365}

// monthOf returns the month, 0 to 11, of a day counted from the first of another.
func monthOf(day, firstMonth int) int {
	if firstMonth > 1 {
		day += monthEnds[firstMonth-2]
	}
	day %= 365
	return slices.IndexFunc(monthEnds[:], func(end int) bool { return day < end })
}

// sum adds the currents of a day into minutes.
func sum(into *[minutesADay]float64, all []shape, day, month int) {
	*into = [minutesADay]float64{}
	for i := range all {
		s := &all[i]
		if !s.weekdays[day%7] {
			continue
		}
		share := 1.0
		if len(s.Months) > 0 {
			share = s.Months[month].InexactFloat64()
		}
		for minute, amps := range s.amps {
			into[minute] += share * amps
		}
	}
}

// day goes through one day.
func (y *year) day(day int) {
	month := monthOf(day, y.FirstMonth)
	if day == y.Days-daysAWeek {
		y.weekBeforeAh = y.ah
	}
	sum(&y.sourceA, y.sources, day, month)
	sum(&y.loadA, y.loads, day, month)
	for minute := range minutesADay {
		if y.TraceEveryH > 0 && minute%60 == 0 && (day*24+minute/60)%y.TraceEveryH == 0 {
			y.sample()
		}
		y.minute(y.sourceA[minute], y.loadA[minute])
	}
}

// minute goes through one minute.
func (y *year) minute(sourceA, loadA float64) {
	y.shed = y.ah <= y.cutAh || y.shed && y.ah < y.resumeAh
	askedA := loadA
	if y.shed {
		loadA = 0
	}
	y.settled = y.settled && y.m.sourceA == sourceA && y.m.loadA == loadA
	y.m.sourceA, y.m.loadA = sourceA, loadA
	end := y.hours + 1.0/60
	for steps := 0; y.hours < end-tick; steps++ {
		if steps > y.mostSteps {
			y.chatters = true
			break
		}
		if y.here().by == byEmptiness {
			y.m.loadA, y.settled = y.givenToLoads(), false
			y.shed = true
			y.here()
		}
		began, volts := y.hours, y.from.volts
		y.advance(end - y.hours)
		y.unmetWh += (askedA - y.m.loadA) * volts * (y.hours - began)
	}
	y.hours = end
	if y.shed {
		y.shedMinutes++
	}
	if y.ah < y.belowAh {
		y.belowMinutes++
	}
	if y.ah < y.lowestAh {
		y.lowestAh, y.lowest = y.ah, y.hours
	}
}

// givenToLoads is what the loads get of an empty bank's sources: all that these
// give where they hold more than its EMF, else nothing, for below it they give
// nothing. Either way nothing flows out of the bank, which is empty no more than
// once a minute.
func (y *year) givenToLoads() float64 {
	if y.m.stageV < y.from.emf {
		return 0
	}
	return min(y.m.sourceA, y.m.loadA)
}

// stepsOfAMinute is the most steps that a minute can take. The currents of the
// sources and the loads stand still in it, so the current into the bank hangs on
// its state of charge alone, without a jump but to nought, and the state of charge
// goes one way only: no span is entered twice. In a span the current is the least
// of five straight lines (source, voltage, acceptance, rate, load), and each of
// them is the least on one stretch at most. So a span takes a step for each line,
// one to its end and one that the bank's running empty or full adds.
func stepsOfAMinute(spans int) int { return 7 * spans }

func (y *year) sample() {
	y.trace = append(y.trace, LedgerLine{
		TimeH: y.out.fixed(y.hours, 2), SoCPercent: y.out.fixed(y.ah/y.m.capacityAh*100, 3), BatteryV: y.out.fixed(y.here().volts, 3),
	})
}

func (y *year) ledger(w working.Working) Ledger {
	l := Ledger{
		LeastPercent: y.out.fixed(y.lowestAh/y.m.capacityAh*100, 3),
		LeastAtH:     y.out.fixed(y.lowest, 2),
		EndPercent:   y.out.fixed(y.ah/y.m.capacityAh*100, 3),
		ShedH:        count(y.shedMinutes).DivRound(sixty, 2),
		BelowH:       count(y.belowMinutes).DivRound(sixty, 2),
		UnmetWh:      y.out.fixed(y.unmetWh, 1),
		InWh:         y.out.fixed(y.tally.in, 1),
		StoredWh:     y.out.fixed(y.tally.stored, 1),
		LoadWh:       y.out.fixed(y.tally.load, 1),
		Trace:        y.trace,
	}
	w.Given("s_0", y.StartPercent)
	w.Given("R_int", y.Battery.InternalMilliohm)
	w.Given("U_s", y.VoltageV)
	w.Step("E_in", l.InWh, circuit)
	w.Step("E_st", l.StoredWh, circuit)
	w.Step("E_ld", l.LoadWh, circuit)
	l.LostWh = w.Calc("E_lost", "E_in − E_st − E_ld", l.InWh.Sub(l.StoredWh).Sub(l.LoadWh), sums)
	w.Step("t_shed", l.ShedH, circuit)
	w.Step("E_um", l.UnmetWh, circuit)
	if y.BelowPercent.Valid {
		w.Given("s_bel", y.BelowPercent.Decimal)
		w.Step("t_bel", l.BelowH, circuit)
	}
	if y.Days >= daysAWeek {
		w.Given("N_b", count(y.Days))
		l.WeekBeforePercent = decimal.NewNullDecimal(w.Step("s_w", y.out.fixed(y.weekBeforeAh/y.m.capacityAh*100, 3), circuit))
	}
	w.Step("s_e", l.EndPercent, circuit)
	w.Step("s_min", l.LeastPercent, circuit)
	l.Working = slices.Clip(w)
	return l
}

// Check checks (C08) that the bank never falls below a state of charge and that
// the loads are never shed, by the cut-out or by a flat bank:
//
//	s_floor ≤ s_min
//	t_shed ≤ t_no = 0
//
// It returns the first where that fails, else the second where that fails: a bank
// that a cut-out keeps above its floor does not serve its loads.
// Floor 0 to 100 %.
func (l Ledger) Check(floorPercent decimal.NullDecimal) (working.Check, error) {
	err := errors.Join(
		demanded("floor_percent", floorPercent, 0, 100),
		stands("least_percent", l.LeastPercent, l.Working, "s_min"), stands("shed_h", l.ShedH, l.Working, "t_shed"),
		stands("load_wh", l.LoadWh, l.Working, "E_ld"),
	)
	if err != nil {
		return working.Check{}, err
	}
	w := working.Start(l.Working)
	w.Given("s_floor", floorPercent.Decimal)
	if l.LeastPercent.LessThan(floorPercent.Decimal) || !l.ShedH.IsPositive() {
		return w.Check("C08", "Energy balance", "s_floor", "s_min"), nil
	}
	w.Calc("t_no", "0", decimal.Zero, sums)
	return w.Check("C08", "Energy balance, loads served", "t_shed", "t_no"), nil
}

// CheckWeek checks (C08) that the last week ended with no less charge than it
// began with, to the 0.001 % that the ledger tells:
//
//	s_k = s_w − 0.001   [%]
//	s_k ≤ s_e
//
// Of days that are all alike this means that the bank holds for ever: the charge
// that goes in and out of it hangs on its state of charge alone. What has run for
// less than a week is an error.
func (l Ledger) CheckWeek() (working.Check, error) {
	if !l.WeekBeforePercent.Valid {
		return working.Check{}, &working.InputError{Field: "days", Got: "less than a week", Want: "a balance of 7 days or more"}
	}
	if err := errors.Join(stands("load_wh", l.LoadWh, l.Working, "E_ld"), stands("week_before_percent", l.WeekBeforePercent.Decimal, l.Working, "s_w"), stands("end_percent", l.EndPercent, l.Working, "s_e")); err != nil {
		return working.Check{}, err
	}
	w := working.Start(l.Working)
	w.Calc("s_k", "s_w − 0.001", l.WeekBeforePercent.Decimal.Sub(decimal.New(1, -3)), sums)
	return w.Check("C08", "Energy balance, week by week", "s_k", "s_e"), nil
}

func (b Balance) check() error {
	errs := []error{
		working.In("battery", b.Battery.checkModel()),
		working.Above("stage_v", b.VoltageV, 0, 1000),
		working.Between("start_percent", b.StartPercent, 0, 100),
		working.Between("days", count(b.Days), 1, 366), working.Between("first_month", count(b.FirstMonth), 1, 12),
		working.Between("trace_every_h", count(b.TraceEveryH), 0, 8784),
		b.checkCutOut(), checkOptional("below_percent", b.BelowPercent, 0, 100), checkSpells("sources", b.Sources), checkSpells("loads", b.Loads), b.checkLoads(),
	}
	return errors.Join(errs...)
}

func (b Balance) checkCutOut() error {
	if b.CutOutPercent.Valid != b.ResumePercent.Valid {
		return &working.InputError{Field: "resume_percent", Got: "one of the two", Want: "both cut_out_percent and resume_percent, or neither"}
	}
	err := errors.Join(checkOptional("cut_out_percent", b.CutOutPercent, 0, 100), checkOptional("resume_percent", b.ResumePercent, 0, 100))
	if err == nil && b.CutOutPercent.Valid && b.ResumePercent.Decimal.LessThan(b.CutOutPercent.Decimal) {
		err = &working.InputError{Field: "resume_percent", Got: b.ResumePercent.Decimal.String(), Want: "at least cut_out_percent, " + b.CutOutPercent.Decimal.String()}
	}
	return err
}

// checkLoads finds loads that were forgotten: all of them, or what one takes.
func (b Balance) checkLoads() error {
	if b.NoLoads != (len(b.Loads) == 0) {
		return &working.InputError{Field: "loads", Got: fmt.Sprintf("%d, and no_loads is %t", len(b.Loads), b.NoLoads), Want: "what is drawn, or no_loads where nothing is"}
	}
	var errs []error
	for i, l := range b.Loads[:min(len(b.Loads), 50)] {
		if l.CurrentA.IsZero() {
			errs = append(errs, &working.InputError{Field: fmt.Sprintf("loads[%d].duty_a", i), Got: "0", Want: "more than 0: a load that takes nothing is none"})
		}
	}
	return errors.Join(errs...)
}

func checkSpells(field string, spells []DutyPeriod) error {
	errs := []error{working.Between(field, count(len(spells)), 0, 50)}
	for i, s := range spells[:min(len(spells), 50)] {
		errs = append(errs, working.In(fmt.Sprintf("%s[%d]", field, i), s.check()))
	}
	return errors.Join(errs...)
}

func (s DutyPeriod) check() error {
	errs := []error{
		working.Between("duty_a", s.CurrentA, 0, 10_000),
		working.Between("from_h", s.FromH, 0, 24), working.Between("to_h", s.ToH, 0, 24),
	}
	if errors.Join(errs...) == nil && s.ToH.LessThanOrEqual(s.FromH) {
		errs = append(errs, &working.InputError{Field: "to_h", Got: s.ToH.String(), Want: "later than from_h: give a spell past midnight as two"})
	}
	for i, day := range s.Weekdays {
		errs = append(errs, working.Between(fmt.Sprintf("weekdays[%d]", i), count(day), 1, 7))
	}
	if n := len(s.Months); n != 0 && n != 12 {
		errs = append(errs, &working.InputError{Field: "months", Got: fmt.Sprintf("%d shares", n), Want: "12, or none"})
	}
	for i, share := range s.Months {
		errs = append(errs, working.Between(fmt.Sprintf("months[%d]", i), share, 0, 10))
	}
	return errors.Join(errs...)
}
