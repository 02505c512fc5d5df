package paper

import (
	"fmt"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/rules"
	"example.org/extralow/tables/working"
)

// sizing prints the capacity that the worksheet asks for against the one fitted,
// what governs it, and whether the volts govern before that.
func (p *page) sizing(r Report) {
	z := r.Sizing
	if len(z.Worksheets) == 0 {
		p.para(0, "The bank's size by the published worksheet cannot be told: "+z.Missing+".")
		p.sag(z.Sag)
		return
	}
	first := z.Worksheets[0]
	p.para(0, fmt.Sprintf("The published worksheet asks, with the depth, age and cold stated, for %s d without charging", r.Job.Needs.AutonomyDays))
	p.hang(4, fmt.Sprintf("  for the energy %s Ah;", first.EnergyAh.RoundCeil(0)))
	p.hang(4, "  "+forDischarge(z, first)+";")
	sheets := z.Worksheets
	if z.ChargeIn == "" {
		sheets = sheets[:1] // they differ in how fast it is filled
	}
	for i, x := range sheets {
		end := ";"
		if i == len(sheets)-1 {
			end = "."
		}
		p.hang(4, "  "+forCharge(z, x)+end)
	}
	for i, x := range sheets {
		p.para(0, wanted(z, x, i == 0))
	}
	p.sag(z.Sag)
}

// forDischarge is the line of the worksheet's second limit.
func forDischarge(z rules.Sizing, x facts.Worksheet) string {
	if z.DischargeIn == "" {
		return "for the discharge nothing: no state draws on it"
	}
	return fmt.Sprintf("for a discharge of %s (%s) %s Ah: emptied in no less than %s, by the batteries' own limits",
		Meter(z.DischargeA, "A"), z.DischargeIn, x.PowerAh.RoundCeil(0), Meter(x.LoadRateH, "h"))
}

// forCharge is the line of the worksheet's third limit.
func forCharge(z rules.Sizing, x facts.Worksheet) string {
	by := "by the worksheet's own rule, one for common lead-acid"
	if x.OwnRate {
		by = "by the batteries' own limits"
	}
	if z.ChargeIn == "" {
		return "for the charge nothing: no state charges it"
	}
	return fmt.Sprintf("for a charge of %s (%s) %s Ah: filled in no less than %s, %s",
		Meter(z.ChargeA, "A"), z.ChargeIn, x.ChargeAh.RoundCeil(0), Meter(x.ChargeRateH, "h"), by)
}

// governs names what decides the size.
var governs = map[string]string{"energy": "the energy", "power": "the discharge current", "charge": "the charge current"}

// wanted says what governs, and sets what is wanted against what is fitted. Beside
// the batteries' own limits the worksheet's hours of charging only serve to compare.
func wanted(z rules.Sizing, x facts.Worksheet, first bool) string {
	many := ""
	if x.Batteries > 0 {
		many = fmt.Sprintf(" (%d of these batteries)", x.Batteries)
	}
	need := fmt.Sprintf("%s governs: %s Ah wanted%s", governs[x.Governs], x.NeedAh.RoundCeil(0), many)
	if !first {
		return fmt.Sprintf("The worksheet's own %s of charging are for common lead-acid whose limit nobody states; by them %s.", Meter(x.ChargeRateH, "h"), need)
	}
	by := "By it"
	if x.OwnRate {
		by = "By the batteries' own limits"
	}
	return fmt.Sprintf("%s %s, %s Ah fitted (%d).", by, need, z.FittedAh, z.Fitted)
}

// sag says in words whether the voltage governs before the capacity does.
func (p *page) sag(f rules.Finding) {
	if f.ID == "" {
		return
	}
	asked, left := MeterPair(f.Demand, f.Limit, "V")
	at := fmt.Sprintf("%s: %s there, %s wanted (rule %s; %s)", f.Where, left, asked, f.ID, f.Case)
	switch f.Verdict() {
	case working.Fails:
		p.para(0, "Voltage sag governs, whatever the capacity, at "+at+".")
	case working.CannotTell:
		p.para(0, fmt.Sprintf("Whether voltage sag governs cannot be told (rule %s, %s): %s.", f.ID, f.Where, f.Missing))
	default:
		p.para(0, fmt.Sprintf("Voltage sag does not govern: the least to spare is %s, at %s.", Meter(f.Margin().RoundFloor(2), "V"), at))
	}
}
