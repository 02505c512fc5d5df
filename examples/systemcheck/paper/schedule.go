package paper

import (
	"fmt"
	"strings"
	"text/tabwriter"
	"unicode/utf8"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"github.com/shopspring/decimal"
)

// schedule prints the circuits as a fitter reads them: what each carries, what
// it may carry, what guards it and what it loses.
func (p *page) schedule(r Report) {
	p.title("Circuit schedule")
	rows := [][]string{{"circuit", "m", "size", "I_b", "I_z", "T_c", "drop", "fault", "device"}}
	for i, c := range r.Circuits {
		in := r.Job.Circuits[i]
		rows = append(rows, []string{c.Name, in.LengthM.Round(2).String(), size(in),
			amperes(c.DesignA, 1), amperes(c.AmpacityA.RoundFloor(0), 0), celsius(c.ConductorC),
			bare(c.DropV.StringFixed(2), "V"), bare(c.FaultA.Shift(-3).StringFixed(1), "kA"), devices(in)})
	}
	most := min(22, room(rows, 1))
	t := tabwriter.NewWriter(p, 0, 0, 1, ' ', tabwriter.AlignRight)
	for _, row := range rows {
		fmt.Fprintln(t, short(row[0], most)+"\t"+strings.Join(row[1:], "\t")+"\t")
	}
	t.Flush()
	p.para(0, "I_b greatest steady current, I_z ampacity as installed, T_c conductor temperature, drop of the run itself at I_b, fault the greatest short-circuit current at its ends; device in amperes at the from end, then the to end.")
}

// celsius is the temperature of a conductor as far as its resistance is reckoned.
func celsius(t decimal.Decimal) string {
	if most := decimal.NewFromInt(250); t.GreaterThan(most) {
		return bare(">"+most.String(), "C")
	}
	return bare(t.StringFixed(0), "C")
}

// across is how many states a page has room for side by side.
const across = 5

// volts prints what each load loses along its whole path, and what is left
// there, in every state.
func (p *page) volts(r Report) {
	p.title("Volts lost along the whole path, and volts left")
	for from := 0; from < len(r.Job.States); from += across {
		if from > 0 {
			fmt.Fprintln(p)
		}
		p.voltsIn(r, from, min(from+across, len(r.Job.States)))
	}
	var legend []string
	for i, s := range r.Job.States {
		legend = append(legend, fmt.Sprintf("(%d) %s", i+1, s.Name))
	}
	p.para(0, strings.Join(legend, ", ")+". On the batteries alone, nearly empty and aged; lost from the battery's posts with every contact, left at the load.")
}

// voltsIn prints them for some of the states.
func (p *page) voltsIn(r Report, from, to int) {
	t := tabwriter.NewWriter(p, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprint(t, "load\t")
	for i := from; i < to; i++ {
		fmt.Fprintf(t, "(%d)\t", i+1)
	}
	fmt.Fprintln(t)
	for _, l := range r.Volts {
		fmt.Fprintf(t, "%s\t", short(l.Load, 22))
		for i := from; i < to; i++ {
			if l.DropV[i].Valid {
				fmt.Fprintf(t, "%s %s\t", l.DropV[i].Decimal.StringFixed(2), l.LeftV[i].Decimal.StringFixed(1))
			} else {
				fmt.Fprint(t, "-\t")
			}
		}
		fmt.Fprintln(t)
	}
	t.Flush()
}

// bank prints what a customer asks of it.
func (p *page) bank(r Report) {
	p.title("Bank and charging")
	b := r.Bank
	if b.Missing == "" {
		p.para(0, fmt.Sprintf("%s rated, %s usable; a day takes %s, so it lasts %s days.",
			Meter(b.CapacityAh, "Ah"), Meter(b.UsableWh, "Wh"), Meter(b.DayWh, "Wh"), b.LastsDays.StringFixed(1)))
	} else {
		p.para(0, fmt.Sprintf("%s rated; a day takes %s. What is usable cannot be told: %s.",
			Meter(b.CapacityAh, "Ah"), Meter(b.DayWh, "Wh"), b.Missing))
	}
	p.sizing(r)
	for _, s := range b.Shares {
		limit := "no limit stated"
		if s.LimitA.Valid {
			limit = "limit " + Meter(s.LimitA.Decimal, "A")
		}
		most := Meter(s.TogetherA, "A")
		if len(b.Shares) > 1 {
			most += " with all there, " + Meter(s.AloneA, "A") + " with another missing"
		}
		p.para(0, fmt.Sprintf("%s: at most %s, %s; short circuit at its posts %s.", s.Battery, most, limit, Meter(s.FaultA, "A")))
	}
	p.charging(r)
	p.months(r)
	for _, in := range b.Inputs {
		p.para(0, input(in))
	}
}

// input says what closes on the capacitors of an inverter's input.
func input(in facts.Input) string {
	text := fmt.Sprintf("%s: its input of %s takes %s to fill; ", in.Inverter, Meter(in.CapacitanceUF, "µF"), Meter(in.EnergyJ, "J"))
	if !in.Ohm.Valid {
		return text + fmt.Sprintf("nothing but batteries and cables limits the first current, up to %s.", Meter(in.PeakA, "A"))
	}
	return text + fmt.Sprintf("the first current through %s is %s, and it is filled to 95 %% in %s.",
		Meter(in.Ohm.Decimal, "Ω"), Meter(in.PeakA, "A"), Meter(in.TimeS.Decimal, "s"))
}

// size is that of a run's cable, and how many lie side by side: "2 x 35 mm2".
func size(c job.Circuit) string {
	if c.Cables == nil {
		return c.Size.String()
	}
	return c.Cables.Count.String() + " x " + c.Size.String()
}

// room is how wide the first column of a table may be for the rest to keep to the
// page, but no less than eight.
func room(rows [][]string, gap int) int {
	left := width - gap
	for i := range rows[0][1:] {
		widest := 0
		for _, row := range rows {
			widest = max(widest, utf8.RuneCountInString(row[i+1]))
		}
		left -= widest + gap
	}
	return max(8, left)
}

// amperes shows a current with its places, in a column: large ones without.
func amperes(a decimal.Decimal, places int32) string {
	if a.GreaterThanOrEqual(decimal.NewFromInt(100)) {
		places = 0
	}
	return bare(a.StringFixed(places), "A")
}

func bare(value, unit string) string { return value + " " + unit }

func devices(c job.Circuit) string {
	var all []string
	for _, d := range []*job.Device{c.Device, c.FarDevice} {
		if d == nil {
			all = append(all, "-")
		} else {
			all = append(all, d.RatingA.String()+" A")
		}
	}
	return strings.TrimSuffix(strings.Join(all, ", "), ", -")
}

// short cuts a name to a width.
func short(name string, most int) string {
	if r := []rune(name); len(r) > most {
		return string(r[:most-1]) + "."
	}
	return name
}
