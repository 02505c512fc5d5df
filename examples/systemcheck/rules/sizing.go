package rules

import (
	"fmt"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Sizing is the capacity that the published worksheet asks for against what is
// fitted.
type Sizing struct {
	Worksheets  []facts.Worksheet // none where Missing is set
	FittedAh    decimal.Decimal   // rated
	Fitted      int               // batteries
	DischargeA  decimal.Decimal   // greatest steady one of the whole bank
	DischargeIn string            // the case in which it flows
	ChargeA     decimal.Decimal   // greatest one
	ChargeIn    string            // the state in which it flows; "" where nothing charges
	Missing     string            // what to ask before the worksheet can be filled in
	Sag         Finding           // the tightest voltage of rules B05 and W04; zero where neither applies
}

// Sized fills in the worksheet, and names the voltage that may govern before it.
func Sized(m *facts.Facts, findings []Finding) (Sizing, error) {
	z, err := worksheets(m)
	z.Sag = tightestVolts(findings)
	return z, err
}

// worksheets fills in the worksheet for stand-alone systems with the job's
// audit, days, depth, age and cold, by each way of reckoning the charge.
func worksheets(m *facts.Facts) (z Sizing, err error) {
	z = Sizing{FittedAh: m.BankAh(), Fitted: len(m.House()), Missing: m.Unfillable()}
	if z.Missing != "" {
		return z, nil
	}
	z.DischargeA, z.DischargeIn = m.MostDischarge()
	if z.ChargeA, z.ChargeIn, err = m.MostCharge(); err != nil {
		return z, err
	}
	ways := []bool{true}
	if !m.House()[0].Chemistry.Is(tables.LiIon) {
		ways = append(ways, false)
	}
	for _, ownRate := range ways {
		if ownRate && !m.ChargeLimitsKnown() {
			continue
		}
		x, missing, err := worksheet(m, z, ownRate)
		if err != nil || missing != "" {
			return Sizing{FittedAh: z.FittedAh, Fitted: z.Fitted, Missing: missing}, err
		}
		z.Worksheets = append(z.Worksheets, x)
	}
	return z, nil
}

// worksheet fills in one; missing says what to ask where it cannot be.
func worksheet(m *facts.Facts, z Sizing, ownRate bool) (x facts.Worksheet, missing string, err error) {
	s, err := m.StandAlone()
	if err != nil {
		return x, "", err
	}
	x.OwnRate = ownRate
	s.From = rates(m, &x, z, s.From)
	s.LoadA, s.LoadRateH = decimal.NewNullDecimal(z.DischargeA), x.LoadRateH
	s.ChargeA, s.ChargeRateH = decimal.NewNullDecimal(z.ChargeA), x.ChargeRateH
	size, err := s.Size()
	switch {
	case facts.NoCapacity(err):
		return x, facts.CapacityText, nil
	case len(working.Inputs(err)) > 0: // a job that the check judges, and the worksheet does not reach
		return x, "size it by hand: " + working.Inputs(err)[0].Error(), nil
	}
	x.NeedAh, x.EnergyAh, x.PowerAh, x.ChargeAh = size.NeedAh, size.EnergyAh, size.PowerAh, size.ChargeAh
	x.Governs, x.Batteries, x.Working = size.Governs, size.Strings*size.Series, size.Working
	return x, "", err
}

// rates fills in the fastest hours, and adds their lines and those of the
// currents. The worksheet leaves the hours of discharge to the battery's data;
// for charging it has ten, which are those of common lead-acid.
func rates(m *facts.Facts, x *facts.Worksheet, z Sizing, audit working.Working) working.Working {
	w := working.Start(audit)
	w.Part("greatest currents of the bank")
	w.Step("I_so", z.DischargeA, cite.Kirchhoff.At("", cite.Published))
	w.Note(z.DischargeIn)
	w.Calc("I_l", "I_so", z.DischargeA, facts.Sums)
	w.Given("I_ch", z.ChargeA)
	w.Note(z.ChargeIn)
	w.Part("fastest hours")
	x.LoadRateH = m.Fastest(&w, "H_p", func(b job.Battery) decimal.Decimal { return b.MaxDischargeA.Decimal })
	if x.OwnRate {
		x.ChargeRateH = m.Fastest(&w, "H_c", func(b job.Battery) decimal.Decimal { return b.MaxChargeA.Decimal })
		return w
	}
	x.ChargeRateH = w.LookUp("H_c", working.Figure{
		Value: decimal.NewFromInt(10), Unit: "h", Source: cite.PVWorksheet.At("battery, greatest charge current", cite.Published),
	})
	return w
}

// tightestVolts is the finding with the least margin of the rules that tell of sag, in
// the order of verdicts of [working.Strictest].
func tightestVolts(findings []Finding) Finding {
	var asked []Finding
	var checks []working.Check
	for _, f := range findings {
		if r, _ := Find(f.Rule); r.Sags {
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
func enlarge(m *facts.Facts, f Finding) string {
	z, err := worksheets(m)
	if err != nil || z.Missing != "" || f.Path != ofAutonomy {
		return ""
	}
	x, more := z.Worksheets[0], ""
	if x.Governs == "energy" && x.Batteries > 0 {
		more = fmt.Sprintf(" (%d such batteries in place of %d)", x.Batteries, z.Fitted)
	}
	return fmt.Sprintf("add capacity: the worksheet asks for %s Ah, %s are fitted%s; or use less, or ask for fewer days",
		x.EnergyAh.RoundCeil(0), z.FittedAh, more)
}
