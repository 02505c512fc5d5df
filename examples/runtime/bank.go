package main

import (
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/battery"
	"example.org/extralow/examples/sheet"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// question is one bank, the temperatures that it is asked at, and one load.
type question struct {
	chemistry                   tables.Chemistry
	ratings                     battery.Peukert // of the whole bank, new, at the temperature of the rating
	lithiumAh, systemV          decimal.Decimal
	depth, lithiumDepth, ageing decimal.Decimal // %
	temperatures                []decimal.Decimal
	loadA                       decimal.Decimal
}

const lithium = tables.LiFePO4

// leadAcid lists the chemistries that Peukert's law is for.
func leadAcid() []string {
	var names []string
	for _, c := range tables.Chemistries() {
		if c.Is(tables.LeadAcid) {
			names = append(names, string(c))
		}
	}
	return names
}

// line is one battery at one temperature: its hours over the current. On
// logarithmic paper it runs straight from corner to corner, and ends at the
// last.
type line struct {
	kind    tables.Chemistry
	atC     decimal.NullDecimal // unset: that of the rating
	corners []decimal.Decimal   // A, rising
	at      func(currentA decimal.Decimal) (lasting, error)
}

// lasting is how long a battery carries a current, and what is left of its label
// on the way there, in percent.
type lasting struct {
	timeH                  decimal.Decimal
	age, cold, given, used decimal.Decimal
	working.Working
}

// most is the greatest current that the line answers for.
func (l line) most() decimal.Decimal { return l.corners[len(l.corners)-1] }

// answer is every line, and what each says to a row of loads.
type answer struct {
	question
	exponent  battery.Exponent
	low, high decimal.Decimal // A, of the table and the picture
	label     line
	lines     []line // first of lead-acid, then of lithium, by temperature
	rows      []row  // rising
}

// row is one load and how long each line carries it.
type row struct {
	currentA decimal.Decimal
	label    lasting
	lines    []lasting // without working where the line gives no answer
}

func (q question) answer() (answer, error) {
	a := answer{question: q}
	limit, err := q.lithiumLimit()
	if err != nil {
		return a, err
	}
	if a.exponent, err = q.ratings.Exponent(); err != nil {
		return a, err
	}
	a.low = sheet.MarkBelow(a.exponent.SlowA.Shift(-1).Mul(decimal.NewFromInt(3)))
	a.high = sheet.MarkAbove(decimal.Max(limit, a.exponent.FastA))
	if err := a.inReach(); err != nil {
		return a, err
	}
	a.label = q.labelLine(a.low, a.high)
	for _, t := range q.temperatures {
		l, err := q.leadLine(a.low, t)
		if err != nil {
			return a, err
		}
		a.lines = append(a.lines, l)
	}
	for _, t := range q.temperatures {
		a.lines = append(a.lines, q.lithiumLine(a.low, limit, t))
	}
	return a, a.ask()
}

// inReach refuses banks whose loads lie beyond what the package answers for.
func (a answer) inReach() error {
	var faults []error
	if a.exponent.SlowA.LessThan(decimal.New(2, -1)) {
		faults = append(faults, &working.InputError{Field: "slow_ah", Got: fmt.Sprintf("%s Ah in %s h", a.ratings.Slow.CapacityAh, a.ratings.Slow.RateH), Want: "0.2 A or more"})
	}
	if watts := a.high.Mul(a.systemV); watts.GreaterThan(decimal.NewFromInt(100_000)) {
		faults = append(faults, &working.InputError{Field: "system_v", Got: fmt.Sprintf("%s V at loads up to %s A", a.systemV, a.high), Want: "no more than 100000 W"})
	}
	return errors.Join(faults...)
}

// ask puts a series of loads to every line, the one to look at among them.
func (a *answer) ask() error {
	loads := append(sheet.Marks(a.low, a.high), a.loadA)
	slices.SortFunc(loads, decimal.Decimal.Compare)
	for _, load := range slices.CompactFunc(loads, decimal.Decimal.Equal) {
		r, err := a.row(load)
		if err != nil {
			return err
		}
		a.rows = append(a.rows, r)
	}
	return nil
}

func (a *answer) row(currentA decimal.Decimal) (row, error) {
	r := row{currentA: currentA, lines: make([]lasting, len(a.lines))}
	var err error
	if r.label, err = a.label.at(currentA); err != nil {
		return r, err
	}
	for i, l := range a.lines {
		if currentA.GreaterThan(l.most()) {
			continue
		}
		if r.lines[i], err = l.at(currentA); err != nil {
			return r, err
		}
	}
	return r, nil
}

// load is the row of the load to look at.
func (a answer) load() row {
	i := slices.IndexFunc(a.rows, func(r row) bool { return r.currentA.Equal(a.loadA) })
	return a.rows[i]
}

// bank is the whole bank as one battery. Its voltages at rest take no part in
// the hours.
func (q question) bank(chemistry tables.Chemistry, capacityAh, depth, ageing decimal.Decimal, atC decimal.NullDecimal) battery.Bank {
	return battery.Bank{Series: 1, BatteryC: atC, Batteries: []battery.BankBattery{{
		Name: string(chemistry), Chemistry: chemistry, NominalV: q.systemV, CapacityAh: capacityAh, FullV: q.systemV, EmptyV: q.systemV,
		DepthPercent: decimal.NewNullDecimal(depth), AgeingPercent: decimal.NewNullDecimal(ageing),
	}}}
}

// steady asks a bank that gives the same charge at any rate.
func (q question) steady(b battery.Bank) func(decimal.Decimal) (lasting, error) {
	return func(currentA decimal.Decimal) (lasting, error) {
		usable, wrong := b.Usable()
		r, err := b.Runtime(currentA.Mul(q.systemV))
		if err := errors.Join(wrong, err); err != nil {
			return lasting{}, err
		}
		return of(usable, r.TimeH, whole, r.Working), nil
	}
}

// of is how long a bank lasts with the shares that it is counted with.
func of(u battery.Usable, timeH, given decimal.Decimal, w working.Working) lasting {
	one := u.Strings[0]
	return lasting{timeH: timeH, age: one.AgeingPercent, cold: u.ColdPercent.Decimal, given: given, used: one.DepthPercent, Working: w}
}

var (
	whole      = decimal.NewFromInt(100) // %
	arithmetic = cite.Arithmetic.At("", cite.Published)
)

// labelLine is the charge on the label, all of it at any rate.
func (q question) labelLine(low, high decimal.Decimal) line {
	b := q.bank(q.chemistry, q.ratings.Slow.CapacityAh, whole, whole, decimal.NullDecimal{})
	return line{kind: "label", corners: []decimal.Decimal{low, high}, at: func(currentA decimal.Decimal) (lasting, error) {
		r, err := b.Rating()
		if err != nil {
			return lasting{}, err
		}
		w := working.Start(r.Working)
		watts := w.Given("P", currentA.Mul(q.systemV))
		hours := w.CalcDown("t_e", "E_n ÷ P", r.EnergyWh, watts, 2, arithmetic)
		return lasting{timeH: hours, Working: slices.Clip(w)}, nil
	}}
}

func (q question) lithiumLine(low, limit, atC decimal.Decimal) line {
	t := decimal.NewNullDecimal(atC)
	b := q.bank(lithium, q.lithiumAh, q.lithiumDepth, q.ageing, t)
	return line{lithium, t, []decimal.Decimal{decimal.Min(low, limit), limit}, q.steady(b)}
}

// lithiumLimit is the current that the electronics of a battery usually allow.
func (q question) lithiumLimit() (decimal.Decimal, error) {
	spans, err := tables.BatteryLimits(lithium, "discharge_rate_limit")
	if err != nil {
		return decimal.Decimal{}, err
	}
	return q.lithiumAh.Mul(spans[0].Typical.Value), nil
}

// leadLine bends where the slow rating lies and ends at the fast one.
func (q question) leadLine(low, atC decimal.Decimal) (line, error) {
	t := decimal.NewNullDecimal(atC)
	usable, err := q.bank(q.chemistry, q.ratings.Slow.CapacityAh, q.depth, q.ageing, t).Usable()
	if err != nil {
		return line{}, err
	}
	p := q.shrunk(usable)
	slow, fast := rate(p.Slow), rate(p.Fast)
	return line{q.chemistry, t, []decimal.Decimal{decimal.Min(low, slow), slow, fast}, func(currentA decimal.Decimal) (lasting, error) {
		d, err := p.At(currentA)
		if err != nil {
			return lasting{}, err
		}
		w := working.Start(d.Working)
		hours := w.Calc("t_e", "t_e × d_u.1 ÷ 100", d.TimeH.Mul(q.depth).Shift(-2), arithmetic)
		w.Note("only so much of the charge is used")
		given := d.CapacityAh.Shift(2).DivRound(p.Slow.CapacityAh, 6)
		return of(usable, hours, given, slices.Clip(w)), nil
	}}, nil
}

// shrunk is the bank old and cold: a smaller one with the same hours, as the
// factors of IEEE 485 have it.
func (q question) shrunk(u battery.Usable) battery.Peukert {
	w := working.Start(u.Working)
	age, cold := u.Strings[0].AgeingPercent, u.ColdPercent.Decimal
	p := q.ratings
	for _, r := range []struct {
		nth string
		*battery.HourRating
	}{{".1", &p.Slow}, {".2", &p.Fast}} {
		c := w.Given("C"+r.nth, r.CapacityAh)
		r.CapacityAh = w.Calc("C"+r.nth, "C"+r.nth+" × a_g.1 × c_T ÷ 10000", c.Mul(age).Mul(cold).Shift(-4), cite.IEEE485.At("6.2", cite.FromMemory))
	}
	p.From = slices.Clip(w)
	return p
}

// rate is the current of a rating, rounded down to 0.01 A.
func rate(r battery.HourRating) decimal.Decimal {
	amps, _ := r.CapacityAh.QuoRem(r.RateH, 2)
	return amps
}
