package facts

import (
	"slices"

	"example.org/extralow/battery"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

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

// StandAlone is the worksheet with everything but the currents and hours. Of
// batteries that are not alike the strictest figures count.
func (m *Facts) StandAlone() (battery.StandAlone, error) {
	sum, err := m.Audit()
	if err != nil {
		return battery.StandAlone{}, err
	}
	bank := m.bank()
	rating, err := bank.Rating()
	if err != nil {
		return battery.StandAlone{}, err
	}
	first := m.House()[0]
	use, err := m.Use()
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
	for _, b := range m.House() {
		s.DepthPercent.Decimal = decimal.Min(s.DepthPercent.Decimal, b.DepthPercent)
		s.AgeingPercent.Decimal = decimal.Min(s.AgeingPercent.Decimal, b.AgeingPercent)
	}
	if m.alike() {
		s.BlockV, s.BlockAh = decimal.NewNullDecimal(first.NominalV), decimal.NewNullDecimal(first.CapacityAh)
	}
	return s, nil
}

// Unfillable says what to ask first: for the limits that the hours follow from,
// and for the capacity of lead-acid that is emptied faster than it is rated at.
func (m *Facts) Unfillable() string {
	for _, b := range m.House() {
		switch {
		case !b.MaxDischargeA.Valid:
			return "ask the maker of " + b.Name + " for its greatest steady discharge current: how fast it may be emptied follows from it"
		case b.Chemistry.Is(tables.LiIon) && !b.MaxChargeA.Valid:
			return "ask the maker of " + b.Name + " for its greatest charging current: how fast it may be filled follows from it"
		}
	}
	use, err := m.Use()
	if err != nil {
		return "" // what is wrong with the use is said where it is judged
	}
	usable, _ := use.Usable()
	return usable.Missing
}

// alike reports whether the batteries of the bank are of one size.
func (m *Facts) alike() bool {
	house := m.House()
	return !slices.ContainsFunc(house, func(b job.Battery) bool { return !b.CapacityAh.Equal(house[0].CapacityAh) })
}

// ChargeLimitsKnown reports whether every battery states its greatest charge.
func (m *Facts) ChargeLimitsKnown() bool {
	return !slices.ContainsFunc(m.House(), func(b job.Battery) bool { return !b.MaxChargeA.Valid })
}

// Fastest adds the hours in which a battery at its own limit is emptied or
// filled, of the slowest of them.
func (m *Facts) Fastest(w *working.Working, symbol string, limit func(job.Battery) decimal.Decimal) decimal.Decimal {
	var slowest job.Battery
	for i, b := range m.House() { // capacity ÷ limit, compared as products
		if i == 0 || b.CapacityAh.Mul(limit(slowest)).GreaterThan(slowest.CapacityAh.Mul(limit(b))) {
			slowest = b
		}
	}
	c, i := w.Given("C", slowest.CapacityAh), w.Given("I_bm", limit(slowest))
	hours := w.Calc(symbol, "ceil(C ÷ I_bm × 10000) ÷ 10000", c.DivRound(i, 12).RoundCeil(4), Sums)
	w.Note("by the own limit of " + slowest.Name)
	return hours
}

// MostDischarge is the greatest steady current that the whole house bank gives,
// in any case that can occur; a start is too short to count.
func (m *Facts) MostDischarge() (most decimal.Decimal, in string) {
	for _, c := range m.Cases {
		sum := decimal.Zero
		for _, b := range m.House() {
			sum = sum.Add(c.given(b.Name))
		}
		if !c.short() && c.BatteryMissing == "" && sum.GreaterThan(most) {
			most, in = sum, c.Name
		}
	}
	return most, in
}

// MostCharge is the sum of what charges in the state that charges hardest, the
// sun at the most that its controllers give.
func (m *Facts) MostCharge() (most decimal.Decimal, in string, err error) {
	for i := range m.Job.States {
		s := &m.Job.States[i]
		sum := decimal.Zero
		supplies, err := m.SuppliesIn(s)
		if err != nil {
			return most, in, err
		}
		for _, x := range append(supplies, m.sunOnHouse()...) {
			sum = sum.Add(x.MostA)
		}
		if sum.GreaterThan(most) {
			most, in = sum, s.Name
		}
	}
	return most, in, nil
}
