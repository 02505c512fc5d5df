package inspect

import (
	"fmt"
	"slices"

	"example.org/extralow/battery"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Sizing is the capacity that the published worksheet asks for against what is
// fitted.
type Sizing struct {
	Worksheets  []Worksheet     // none where Missing is set
	FittedAh    decimal.Decimal // rated
	Fitted      int             // batteries
	DischargeA  decimal.Decimal // greatest steady one of the whole bank
	DischargeIn string          // the case in which it flows
	ChargeA     decimal.Decimal // greatest one
	ChargeIn    string          // the state in which it flows; "" where nothing charges
	Missing     string          // what to ask before the worksheet can be filled in
	Sag         Finding         // the tightest voltage of rules B05 and W04; zero where neither applies
}

// Worksheet is the capacity by each of the worksheet's three limits. The first is
// by the batteries' own limits, where their greatest charging current is stated;
// lead-acid has one more, with the worksheet's own hours of charging.
type Worksheet struct {
	NeedAh      decimal.Decimal
	EnergyAh    decimal.Decimal // for the days asked
	PowerAh     decimal.Decimal // for the greatest steady discharge
	ChargeAh    decimal.Decimal // for the greatest charge
	Governs     string          // "energy", "power" or "charge"
	LoadRateH   decimal.Decimal // fastest hours in which the bank may be emptied: by the batteries' own limits
	ChargeRateH decimal.Decimal // and filled
	OwnRate     bool            // ChargeRateH follows from the batteries' own limits; else it is the worksheet's
	Batteries   int             // as fitted that make NeedAh; 0 where they are not alike
	Working     working.Working
}

// sized fills in the worksheet, and names the voltage that may govern before it.
func (m *model) sized(findings []Finding) (Sizing, error) {
	z, err := m.worksheets()
	z.Sag = tightestVolts(findings)
	return z, err
}

// worksheets fills in the worksheet for stand-alone systems with the job's
// audit, days, depth, age and cold, by each way of reckoning the charge.
func (m *model) worksheets() (z Sizing, err error) {
	z = Sizing{FittedAh: m.bankAh(), Fitted: len(m.house()), Missing: m.unfillable()}
	if z.Missing != "" {
		return z, nil
	}
	z.DischargeA, z.DischargeIn = m.mostDischarge()
	if z.ChargeA, z.ChargeIn, err = m.mostCharge(); err != nil {
		return z, err
	}
	ways := []bool{true}
	if !m.house()[0].Chemistry.Is(tables.LiIon) {
		ways = append(ways, false)
	}
	for _, ownRate := range ways {
		if ownRate && !m.chargeLimitsKnown() {
			continue
		}
		x, missing, err := m.worksheet(z, ownRate)
		if err != nil || missing != "" {
			return Sizing{FittedAh: z.FittedAh, Fitted: z.Fitted, Missing: missing}, err
		}
		z.Worksheets = append(z.Worksheets, x)
	}
	return z, nil
}

// worksheet fills in one; missing says what to ask where it cannot be.
func (m *model) worksheet(z Sizing, ownRate bool) (x Worksheet, missing string, err error) {
	s, err := m.standAlone()
	if err != nil {
		return x, "", err
	}
	x.OwnRate = ownRate
	s.From = m.rates(&x, z, s.From)
	s.LoadA, s.LoadRateH = decimal.NewNullDecimal(z.DischargeA), x.LoadRateH
	s.ChargeA, s.ChargeRateH = decimal.NewNullDecimal(z.ChargeA), x.ChargeRateH
	size, err := s.Size()
	switch {
	case noCapacity(err):
		return x, capacityText, nil
	case len(working.Inputs(err)) > 0: // a job that the check judges, and the worksheet does not reach
		return x, "size it by hand: " + working.Inputs(err)[0].Error(), nil
	}
	x.NeedAh, x.EnergyAh, x.PowerAh, x.ChargeAh = size.NeedAh, size.EnergyAh, size.PowerAh, size.ChargeAh
	x.Governs, x.Batteries, x.Working = size.Governs, size.Strings*size.Series, size.Working
	return x, "", err
}

// standAlone is the worksheet with everything but the currents and hours. Of
// batteries that are not alike the strictest figures count.
func (m *model) standAlone() (battery.StandAlone, error) {
	sum, err := m.audit()
	if err != nil {
		return battery.StandAlone{}, err
	}
	bank := m.bank()
	rating, err := bank.Rating()
	if err != nil {
		return battery.StandAlone{}, err
	}
	first := m.house()[0]
	use, err := m.use()
	if err != nil {
		return battery.StandAlone{}, err
	}
	wanted, err := use.Wanted()
	if err != nil {
		return battery.StandAlone{}, err
	}
	days := wanted.EnergyWh.DivRound(sum.EnergyWh, 12).RoundCeil(9) // of mean use: a part of a day takes more
	s := battery.StandAlone{
		EnergyWh: sum.EnergyWh, SystemV: rating.NominalV, Days: days, Chemistry: first.Chemistry,
		DepthPercent: decimal.NewNullDecimal(first.DepthPercent), AgeingPercent: decimal.NewNullDecimal(first.AgeingPercent),
		BatteryC: bank.BatteryC, From: sum.Working,
	}
	for _, b := range m.house() {
		s.DepthPercent.Decimal = decimal.Min(s.DepthPercent.Decimal, b.DepthPercent)
		s.AgeingPercent.Decimal = decimal.Min(s.AgeingPercent.Decimal, b.AgeingPercent)
	}
	if m.alike() {
		s.BlockV, s.BlockAh = decimal.NewNullDecimal(first.NominalV), decimal.NewNullDecimal(first.CapacityAh)
	}
	return s, nil
}

// unfillable says what to ask first: for the limits that the hours follow from,
// and for the capacity of lead-acid that is emptied faster than it is rated at.
func (m *model) unfillable() string {
	for _, b := range m.house() {
		switch {
		case !b.MaxDischargeA.Valid:
			return "ask the maker of " + b.Name + " for its greatest steady discharge current: how fast it may be emptied follows from it"
		case b.Chemistry.Is(tables.LiIon) && !b.MaxChargeA.Valid:
			return "ask the maker of " + b.Name + " for its greatest charging current: how fast it may be filled follows from it"
		}
	}
	use, err := m.use()
	if err != nil {
		return "" // what is wrong with the use is said where it is judged
	}
	usable, _ := use.Usable()
	return usable.Missing
}

// alike reports whether the batteries of the bank are of one size.
func (m *model) alike() bool {
	house := m.house()
	return !slices.ContainsFunc(house, func(b job.Battery) bool { return !b.CapacityAh.Equal(house[0].CapacityAh) })
}

// chargeLimitsKnown reports whether every battery states its greatest charge.
func (m *model) chargeLimitsKnown() bool {
	return !slices.ContainsFunc(m.house(), func(b job.Battery) bool { return !b.MaxChargeA.Valid })
}

// rates fills in the fastest hours, and adds their lines and those of the
// currents. The worksheet leaves the hours of discharge to the battery's data;
// for charging it has ten, which are those of common lead-acid.
func (m *model) rates(x *Worksheet, z Sizing, audit working.Working) working.Working {
	w := working.Start(audit)
	w.Part("greatest currents of the bank")
	w.Step("I_so", z.DischargeA, cite.Kirchhoff.At("", cite.Published))
	w.Note(z.DischargeIn)
	w.Calc("I_l", "I_so", z.DischargeA, sums)
	w.Given("I_ch", z.ChargeA)
	w.Note(z.ChargeIn)
	w.Part("fastest hours")
	x.LoadRateH = m.fastest(&w, "H_p", func(b job.Battery) decimal.Decimal { return b.MaxDischargeA.Decimal })
	if x.OwnRate {
		x.ChargeRateH = m.fastest(&w, "H_c", func(b job.Battery) decimal.Decimal { return b.MaxChargeA.Decimal })
		return w
	}
	x.ChargeRateH = w.LookUp("H_c", working.Figure{
		Value: decimal.NewFromInt(10), Unit: "h", Source: cite.PVWorksheet.At("battery, greatest charge current", cite.Published),
	})
	return w
}

// fastest adds the hours in which a battery at its own limit is emptied or
// filled, of the slowest of them.
func (m *model) fastest(w *working.Working, symbol string, limit func(job.Battery) decimal.Decimal) decimal.Decimal {
	var slowest job.Battery
	for i, b := range m.house() { // capacity ÷ limit, compared as products
		if i == 0 || b.CapacityAh.Mul(limit(slowest)).GreaterThan(slowest.CapacityAh.Mul(limit(b))) {
			slowest = b
		}
	}
	c, i := w.Given("C", slowest.CapacityAh), w.Given("I_bm", limit(slowest))
	hours := w.Calc(symbol, "ceil(C ÷ I_bm × 10000) ÷ 10000", c.DivRound(i, 12).RoundCeil(4), sums)
	w.Note("by the own limit of " + slowest.Name)
	return hours
}

// mostDischarge is the greatest steady current that the whole house bank gives,
// in any case that can occur; a start is too short to count.
func (m *model) mostDischarge() (most decimal.Decimal, in string) {
	for _, c := range m.cases {
		sum := decimal.Zero
		for _, b := range m.house() {
			sum = sum.Add(c.given(b.Name))
		}
		if !c.short() && c.missing == "" && sum.GreaterThan(most) {
			most, in = sum, c.name
		}
	}
	return most, in
}

// mostCharge is the sum of what charges in the state that charges hardest, the
// sun at the most that its controllers give.
func (m *model) mostCharge() (most decimal.Decimal, in string, err error) {
	for i := range m.job.States {
		s := &m.job.States[i]
		sum := decimal.Zero
		supplies, err := m.suppliesIn(s)
		if err != nil {
			return most, in, err
		}
		for _, x := range append(supplies, m.sunOnHouse()...) {
			sum = sum.Add(x.mostA)
		}
		if sum.GreaterThan(most) {
			most, in = sum, s.Name
		}
	}
	return most, in, nil
}

// tightestVolts is the finding of rules B05 and W04 with the least margin, in
// the order of verdicts of [working.Strictest].
func tightestVolts(findings []Finding) Finding {
	var asked []Finding
	var checks []working.Check
	for _, f := range findings {
		if f.ID == "B05" || f.ID == "W04" {
			asked, checks = append(asked, f), append(checks, f.Check)
		}
	}
	i, ok := working.Strictest(checks...)
	if !ok {
		return Finding{}
	}
	return asked[i]
}

// enlarge is what to do where the bank does not last: the capacity that the
// worksheet asks for.
func (m *model) enlarge() string {
	z, err := m.worksheets()
	if err != nil || z.Missing != "" {
		return advice["B03"]
	}
	x, more := z.Worksheets[0], ""
	if x.Governs == "energy" && x.Batteries > 0 {
		more = fmt.Sprintf(" (%d such batteries in place of %d)", x.Batteries, z.Fitted)
	}
	return fmt.Sprintf("add capacity: the worksheet asks for %s Ah, %s are fitted%s; or use less, or ask for fewer days",
		x.EnergyAh.RoundCeil(0), z.FittedAh, more)
}
