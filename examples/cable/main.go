// Cable answers the question that a fitter asks most: what size for this
// current over this length?
//
//	go run ./examples/cable
//	go run ./examples/cable -current_a 60 -length_m 2.5 -system AWG -working
//	go run ./examples/cable -size "10 mm2"
//
// It looks for the smallest standard size that carries the current as it will
// lie, with its insulation, method, ambient, grouping and terminals, and whose
// drop out and back, at the temperature that the current gives the conductor,
// stays within what one rule set allows. It then puts the other sets beside it:
// each judges on its own. With -size it judges the cable in hand instead, and
// says how long it may be and what it may carry. With -working it prints every
// line of the sum and where each figure comes from.
//
// The flags bear the names of the library's own fields, unit included, and all
// have a sample value; the answer marks with a star those that were left at it.
// A size says what it measures: "10 mm2", "AWG 8" or "SAE 8". A bare "4 mm" is
// refused, because cable sold by its outer diameter has less than half that
// copper.
//
// The exit status is 0 where there is an answer, also that no size exists, and
// 2 where a flag cannot be used, with one line a fault.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

var entries = []entry{
	{"current_a", "45", "steady current, A"},
	{"surge_a", "", "short peak, A: counts for the drop"},
	{"length_m", "4", "one way, m"},
	{"system_v", "12", "nominal voltage, V"},
	{"run_supply_v", "12.2", "voltage before the run, V"},
	{"circuit", "other", "charge, critical or other"},
	{"system", "mm2", "sizes in mm2, AWG or SAE"},
	{"size", "", "cable in hand, such as 10 mm2"},
	{"insulation_c", "90", "insulation bears, °C"},
	{"method", "B", "of laying, IEC 60364-5-52"},
	{"ambient_c", "40", "air round the cable, °C"},
	{"grouped", "3", "circuits together, itself too"},
	{"terminal_c", "70", "terminals bear, °C"},
	{"joints_milliohm", "0.6", "contacts of the loop, mΩ"},
	{"rules", "european", "rule set that decides"},
}

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run is the whole program; it returns the exit status.
func run(args []string, out, errs io.Writer) int {
	f := newForm("cable", entries)
	withWorking := f.Bool("working", false, "print every line of the sum")
	if err := f.parse(args); err != nil {
		return f.refused(errs, err)
	}
	q := read(f)
	if err := errors.Join(f.faults...); err != nil {
		return f.refused(errs, err)
	}
	a, err := q.answer()
	if err != nil {
		return f.refused(errs, err)
	}
	f.print(out)
	a.print(out)
	if *withWorking {
		fmt.Fprintf(out, "\nWorking\n%s", a.lines())
	}
	fmt.Fprintln(out, "\nCaution: an undersized cable burns. Local codes and competent people decide.")
	return 0
}

// read turns the flags into a question.
func read(f *form) question {
	q := question{
		Sizing: wire.Sizing{
			Lay: wire.Conductor{
				Class: tables.Flexible, Method: f.text("method"), InsulationC: f.number("insulation_c"),
				AmbientC: decimal.NewNullDecimal(f.number("ambient_c")), Grouped: f.whole("grouped"), TerminalC: f.optional("terminal_c"),
			},
			System: tables.System(f.text("system")), CurrentA: f.number("current_a"), SurgeA: f.optional("surge_a"),
			LengthM: f.number("length_m"), JointsMilliohm: f.number("joints_milliohm"), SystemV: f.number("system_v"),
		},
		supplyV: f.number("run_supply_v"), circuit: f.text("circuit"),
	}
	f.refuse(working.OneOf("system", f.text("system"), string(tables.Metric), string(tables.AWG), string(tables.SAE)))
	f.refuse(working.OneOf("circuit", q.circuit, "charge", "critical", "other"))
	var err error
	q.set, err = tables.RuleSetOf(f.text("rules"))
	f.refuse(err)
	if text := f.text("size"); text != "" {
		q.Lay.Size, err = tables.ParseSize(text)
		q.System = q.Lay.Size.System()
		f.refuse(err)
	}
	return q
}
