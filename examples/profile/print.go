package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"example.org/extralow/charge"
	"example.org/extralow/examples/form"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

const caution = "Caution: a design aid, not a certificate; the battery's data sheet comes first. " +
	"Lead-acid sets hydrogen free while it absorbs and most while it is equalised, sealed kinds too when overcharged: " +
	"give it free air, keep sparks and flames away, and equalise only flooded batteries, watched, with nothing " +
	"connected that the voltage harms. A lithium cell charged below freezing is harmed for good and may fail " +
	"later without warning: something must measure the battery itself and stop the charge. " +
	"Disconnect before work; mains work is for licensed people, local codes come first."

// para writes text in lines of the page's width, all but the first indented
// further; nothing for none.
func para(out io.Writer, indent, text string) {
	if text == "" {
		return
	}
	for i, line := range working.Wrap(text, 80-len(indent)-4) {
		if i > 0 && indent != "" {
			line = "    " + line
		}
		fmt.Fprintln(out, indent+line)
	}
}

func (a answer) print(out io.Writer) {
	fmt.Fprintln(out, "\nAnswer")
	para(out, "", a.headline())
	if a.barred == "" {
		a.printStages(out)
	}
	stages, charging := a.workings()
	a.printRows(out)
	said := a.printSources(out, "Where these come from, and how sure our copy is", slices.Concat(stages...), nil)
	para(out, "  ", a.slopes())
	if a.barred == "" {
		a.printCharge(out)
		a.printSources(out, "Where these come from", slices.Concat(charging...), said)
		para(out, "  ", "voltage at rest: "+a.restFrom.text)
	}
	para(out, "", "The weakest figure of all is "+a.weakest().String()+".")
}

// subject names the battery.
func (a answer) subject() string {
	return fmt.Sprintf("%d cells of %s, %s Ah, at %s °C", a.characteristic.Cells, a.battery.Chemistry, a.battery.CapacityAh, a.battery.BatteryC)
}

// headline is the answer in short.
func (a answer) headline() string {
	if a.barred != "" {
		return fmt.Sprintf("%s: %s. There are no stages and there is no charge.", a.subject(), a.barred)
	}
	text := fmt.Sprintf("%s on %s: %s. From %s %%", a.characteristic.Letters, a.subject(), a.holds(), a.startPercent)
	var marks []string
	for _, m := range a.runs[0].Marks {
		marks = append(marks, fmt.Sprintf("%s %% %s", m.SoCPercent, reached(m)))
	}
	return text + ": " + strings.Join(marks, ", ") + "."
}

// holds lists the voltages held.
func (a answer) holds() string {
	var all []string
	for _, s := range held(a.own.profile.Stages) {
		all = append(all, s.Name+" "+volts(s.VoltageV.Decimal))
	}
	if len(all) == 0 {
		return "no voltage is held"
	}
	return strings.Join(all, ", ")
}

// held are the stages that hold a voltage.
func held(all []charge.Stage) []charge.Stage {
	return slices.DeleteFunc(slices.Clone(all), func(s charge.Stage) bool { return s.Letter != "U" })
}

func volts(v decimal.Decimal) string { return v.StringFixed(2) + " V" }

func reached(m charge.Mark) string {
	switch {
	case !m.TimeH.Valid:
		return "is not reached"
	case m.TimeH.Decimal.IsZero():
		return "from the start"
	}
	return "after " + clock(m.TimeH.Decimal)
}

// minutes rounds hours up to whole minutes.
func minutes(h decimal.Decimal) int {
	return int(h.Mul(decimal.NewFromInt(60)).Ceil().IntPart())
}

// clock writes hours as "2 h 05 min".
func clock(h decimal.Decimal) string { return clockOf(minutes(h)) }

func clockOf(all int) string {
	if all < 60 {
		return fmt.Sprintf("%d min", all)
	}
	return fmt.Sprintf("%d h %02d min", all/60, all%60)
}

// printStages is the table of stages at the battery's temperature.
func (a answer) printStages(out io.Writer) {
	fmt.Fprintf(out, "\nStages at %s °C\n  %-18s%-8s%9s   %-20s%s\n", a.own.atC, "", "letter", "V", "A", "ends")
	for _, s := range a.own.profile.Stages {
		v := "-"
		if s.VoltageV.Valid {
			v = s.VoltageV.Decimal.StringFixed(2)
		}
		fmt.Fprintf(out, "  %-18s%-8s%9s   %-20s%s\n", s.Name, s.Letter, v, a.amperes(s), ending(s))
	}
	if len(a.own.equalise.Working) > 0 {
		fmt.Fprintf(out, "  %-18s%-8s%9s   %-20s%s\n", "equalise", "U", a.own.equalise.VoltageV.StringFixed(2), "small", "watched, by hand")
	}
	for _, text := range a.findings() {
		para(out, "", text)
	}
}

// amperes says what flows in a stage.
func (a answer) amperes(s charge.Stage) string {
	switch {
	case s.CurrentA.Valid:
		return s.CurrentA.Decimal.String()
	case s.Letter == "I":
		return "up to " + a.mostA().String()
	case s.Name == a.own.profile.Stages[0].Name:
		return "up to " + a.mostA().String() + ", falling"
	}
	return "what it takes"
}

func ending(s charge.Stage) string {
	switch {
	case s.AfterH.Valid:
		return "after " + clock(s.AfterH.Decimal)
	case s.TailA.Valid:
		return "at " + s.TailA.Decimal.String() + " A"
	case s.Letter == "I":
		return "at " + volts(s.VoltageV.Decimal)
	}
	return "runs on"
}

// findings say what the table of stages does not show.
func (a answer) findings() []string {
	var all []string
	if a.offered().GreaterThan(a.own.mostA) {
		all = append(all, fmt.Sprintf("The source gives up to %s A, but the battery may take no more than %s A at %s °C: set the source to that, for nothing else holds it down. The charge below counts with it.",
			a.offered(), a.own.mostA, a.own.atC))
	}
	if a.uncompensated() {
		all = append(all, fmt.Sprintf("%s has no temperature compensation: its voltages are the same at every temperature at which it may be charged. A charger that compensates must have that switched off.", a.battery.Chemistry))
	}
	if len(held(a.own.profile.Stages)) > 0 && len(a.own.equalise.Working) == 0 {
		all = append(all, fmt.Sprintf("The tables have no equalising voltage for %s: do not equalise it unless its data sheet asks for that.", a.battery.Chemistry))
	}
	return all
}

// offered is the greatest current that the source gives in any stage.
func (a answer) offered() decimal.Decimal {
	var most decimal.Decimal
	for _, s := range a.own.profile.Stages {
		if s.CurrentA.Valid {
			most = decimal.Max(most, s.CurrentA.Decimal)
		} else {
			most = decimal.Max(most, a.source.CurrentA)
		}
	}
	return most
}

// mostA is the greatest current of the charge.
func (a answer) mostA() decimal.Decimal { return decimal.Min(a.offered(), a.own.mostA) }

// uncompensated reports whether the tables have no compensation for the chemistry.
func (a answer) uncompensated() bool {
	slope := a.own.profile.MilliVPerC
	return slope.Valid && slope.Decimal.IsZero() && !a.characteristic.MilliVPerC.Valid
}

// printRows is the table of temperatures; an arrow points at the battery's own.
func (a answer) printRows(out io.Writer) {
	fmt.Fprintf(out, "\nVolts against the battery's temperature\n  %6s", "°C")
	stages := held(a.own.profile.Stages)
	for _, s := range stages {
		fmt.Fprintf(out, "%16s", s.Name+", V")
	}
	if len(a.own.equalise.Working) > 0 {
		fmt.Fprintf(out, "%16s", "equalise, V")
	}
	fmt.Fprintf(out, "%16s\n", "may take, A")
	for _, r := range a.rows {
		mark := " "
		if r.atC.Equal(a.own.atC) {
			mark = ">"
		}
		fmt.Fprintf(out, "%s %6s%s\n", mark, r.atC, r.cells())
	}
	if len(stages) == 0 {
		para(out, "", "No stage of "+a.characteristic.Letters+" holds a voltage: the current goes in whatever the voltage, and only its end by the clock guards the battery.")
	}
}

// cells are the voltages of a row, or why there are none.
func (r row) cells() string {
	if r.barred != "" {
		return "   " + r.barred
	}
	var text string
	for _, s := range held(r.profile.Stages) {
		text += fmt.Sprintf("%16s", s.VoltageV.Decimal.StringFixed(2))
	}
	if len(r.equalise.Working) > 0 {
		text += fmt.Sprintf("%16s", r.equalise.VoltageV.StringFixed(2))
	}
	return text + fmt.Sprintf("%16s", r.mostA.RoundDown(2))
}

// printCharge sets the charge with the voltage held at either end of the cable side
// by side, as asked first.
func (a answer) printCharge(out io.Writer) {
	fmt.Fprintf(out, "\nCharge from %s %% with up to %s A through %s mΩ, followed for %s h\n", a.startPercent, a.offered(), a.source.CableMilliohm, a.withinH)
	a.columns(out, "", func(c course) string { return c.end() })
	for i, s := range a.own.profile.Stages {
		a.columns(out, s.Name, func(c course) string { return c.stages[i].lasts() })
	}
	for i, m := range a.runs[0].Marks {
		a.columns(out, m.SoCPercent.String()+" %", func(c course) string { return reached(c.Marks[i]) })
	}
	a.columns(out, "state at the end, %", func(c course) string { return c.EndPercent.RoundFloor(1).StringFixed(1) })
	a.columns(out, "energy in, Wh", func(c course) string { return c.InWh.StringFixed(0) })
	a.columns(out, "stored, Wh", func(c course) string { return c.StoredWh.StringFixed(0) })
	a.columns(out, "lost, Wh", func(c course) string { return c.LostWh.StringFixed(0) })
	for _, text := range a.remarks() {
		para(out, "", text)
	}
}

func (a answer) columns(out io.Writer, name string, cell func(course) string) {
	fmt.Fprintf(out, "  %-24s", name)
	for _, c := range a.runs {
		fmt.Fprintf(out, "%26s", cell(c))
	}
	fmt.Fprintln(out)
}

// end is where the voltage is held.
func (c course) end() string {
	if c.remote {
		return "held at the battery"
	}
	return "held at the source"
}

// lasts says how long a stage lasts.
func (s span) lasts() string {
	text := clockOf(minutes(s.toH) - minutes(s.fromH))
	switch {
	case !s.begun:
		return "not reached"
	case s.full:
		return text + ", till full"
	case !s.ended:
		return text + ", goes on"
	}
	return text
}

// remarks say what the charge rests on and what it hides.
func (a answer) remarks() []string {
	all := []string{"Energy in is from the supply, stored is at the battery's EMF, lost is in source, cable and battery. Times are rounded up to the minute."}
	if drop := a.mostA().Mul(a.source.CableMilliohm).Shift(-3); drop.IsPositive() && len(held(a.own.profile.Stages)) > 0 {
		all = append(all, fmt.Sprintf("The cable takes up to %s at %s A: so much less reaches the battery where the voltage is held at the source. Sense wires need a fuse at the battery.", volts(drop), a.mostA()))
	}
	for _, s := range a.runs[0].stages {
		switch {
		case s.TailA.Valid && s.ended:
			all = append(all, fmt.Sprintf("At the end of %s the charger takes the battery for full; here it stands at %s %%.", s.Name, s.endPercent.RoundFloor(1).StringFixed(1)))
		case s.full:
			all = append(all, "The model ends with a full battery; the charger goes on by its clock.")
		}
	}
	return append(all, a.limits()...)
}

// limits say where the model is coarse, or its end is not a full battery.
func (a answer) limits() []string {
	var all []string
	stages, marks, atRest := a.own.profile.Stages, a.runs[0].Marks, a.battery.EMF
	lead := a.battery.Chemistry.Is(tables.LeadAcid)
	full := atRest[len(atRest)-1].EMFV
	if top := stages[0].VoltageV; top.Valid && top.Decimal.LessThan(full) {
		all = append(all, fmt.Sprintf("At rest a full battery is taken to stand at %s, above the %s held: the last of the charge is left out.", volts(full), volts(top.Decimal)))
	} else if lead && top.Valid && !marks[len(marks)-1].TimeH.Valid {
		all = append(all, "The current dies away, and the last per cent never quite comes.")
	}
	if lead {
		all = append(all, fmt.Sprintf("Under charge its volts climb by the model of CIEMAT, from %s at the start: that of sound batteries of one size, out of one copy of the paper. A meter on yours may part by some tenths.", volts(a.runs[0].Trace[0].BatteryV)))
	}
	if lead && slices.ContainsFunc(stages, func(s charge.Stage) bool { return !s.VoltageV.Valid }) {
		all = append(all, "Under a constant current with no voltage held the battery gasses from some three quarters of its charge on.")
	}
	return all
}

// workings are the lines that the answer rests on: of the stages, then of the
// charge.
func (a answer) workings() (stages, charging []working.Working) {
	stages = []working.Working{a.own.profile.Working, a.own.equalise.Working, a.own.window}
	for _, r := range a.rows {
		stages = append(stages, r.most)
	}
	if a.barred != "" {
		return stages, nil
	}
	return stages, []working.Working{a.atStart.Working, a.runs[0].law()}
}

// law are the first lines of the law of the volts under charge: the rest of its
// constants come from the same place.
func (c course) law() working.Working {
	i := slices.IndexFunc(c.Working, func(s working.Step) bool { return s.Symbol == "v_0" })
	if i < 0 {
		return nil
	}
	return c.Working[i : i+1 : i+1]
}

// printSources names each figure that was looked up, with how sure our copy is,
// and what was given in its place.
func (a answer) printSources(out io.Writer, title string, lines working.Working, said []string) []string {
	fmt.Fprintln(out, title)
	for i, s := range lines {
		if s.Kind != working.LookedUp && (s.Kind != working.Given || !slices.Contains([]string{"U_z", "α", "I_tail", "η_q"}, s.Symbol)) {
			continue
		}
		if text := figure(s, lines[i:]); !slices.Contains(said, text) {
			para(out, "  ", text)
			said = append(said, text)
		}
	}
	return said
}

// slopes says how far the sources of the compensation differ; nothing where they
// do not.
func (a answer) slopes() string {
	if !a.own.profile.MilliVPerC.Valid || a.characteristic.MilliVPerC.Valid {
		return ""
	}
	listed, err := tables.Compensations(a.battery.Chemistry)
	if err != nil {
		return ""
	}
	low, high := listed[0].Slope.Value, listed[0].Slope.Value
	for _, one := range listed[1:] {
		low, high = decimal.Min(low, one.Slope.Value), decimal.Max(high, one.Slope.Value)
	}
	if low.Equal(high) {
		return ""
	}
	return fmt.Sprintf("sources of the change with temperature differ, from %s to %s mV/°C: the data sheet comes first", high, low)
}

// figure is a line with its source and how sure our copy is. The note of a stage's
// voltage, further down, says which stage it is.
func figure(s working.Step, rest working.Working) string {
	name := s.Name
	switch s.Symbol {
	case "U_z":
		stage := slices.IndexFunc(rest, func(s working.Step) bool { return s.Symbol == "U_s" })
		name = rest[stage].Note + " voltage of a cell"
	case "η_q":
		name += " " + s.Note
	}
	from := "given"
	if s.Kind == working.LookedUp {
		from = strings.TrimSuffix(s.Source.Key+", "+s.Source.Where, ", ")
		if s.Source.Confidence != cite.Given {
			from += " (" + s.Source.Confidence.String() + ")"
		}
	}
	return strings.TrimSpace(s.Value.String()+" "+s.Unit) + ", " + strings.TrimSpace(name) + ": " + from
}

func (a answer) weakest() cite.Confidence {
	weakest := cite.Unstated
	if a.barred == "" {
		weakest = a.restFrom.confidence
	}
	stages, charging := a.workings()
	for _, w := range append(stages, charging...) {
		weakest = cite.Weakest(weakest, w.Confidence())
	}
	return weakest
}

// printWorking prints the sums at the battery's temperature.
func (a answer) printWorking(out io.Writer) {
	parts := []struct {
		title string
		lines working.Working
	}{{"whether it may be charged", a.own.window}}
	if a.barred == "" {
		parts = append(parts, []struct {
			title string
			lines working.Working
		}{
			{"the stages", a.own.profile.Working}, {"equalising", a.own.equalise.Working},
			{"what it takes at the start", a.atStart.Working}, {"the charge, " + a.runs[0].end(), a.runs[0].Working},
		}...)
	}
	for _, p := range parts {
		if len(p.lines) > 0 {
			fmt.Fprintf(out, "\nWorking of %s\n%s", p.title, p.lines)
		}
	}
}

// without is the answer of a battery that may not be charged: there is no picture.
func (a answer) without() form.Answer {
	return form.Answer{Print: a.print, Working: a.printWorking, No: true, Undrawn: &working.InputError{
		Field: "battery_c", Got: a.battery.BatteryC.String(), Want: "a temperature at which there is a charge to draw: " + a.barred,
	}}
}
