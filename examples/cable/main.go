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
// The exit status is 0 where there is an answer, 1 where no size exists
// or the one in hand fails, and 2 where a flag cannot be
// used, with one line a fault.
package main

import (
	"io"
	"os"

	"example.org/extralow/examples/form"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

var entries = []form.Entry{
	{Name: "current_a", Sample: "45", Means: "steady current, A"},
	{Name: "surge_a", Means: "short peak, A: counts for the drop"},
	{Name: "length_m", Sample: "4", Means: "one way, m"},
	{Name: "system_v", Sample: "12", Means: "nominal voltage, V"},
	{Name: "run_supply_v", Sample: "12.2", Means: "voltage before the run, V"},
	{Name: "circuit", Sample: "other", Means: "charge, critical or other"},
	{Name: "system", Sample: "mm2", Means: "sizes in mm2, AWG or SAE"},
	{Name: "size", Means: "cable in hand, such as 10 mm2"},
	{Name: "insulation_c", Sample: "90", Means: "insulation bears, °C"},
	{Name: "method", Sample: "B", Means: "A, B, C or F of IEC 60364-5-52"},
	{Name: "ambient_c", Sample: "40", Means: "air round the cable, °C"},
	{Name: "engine_space", Sample: "no", Means: "lies in one: yes or no"},
	{Name: "grouped", Sample: "3", Means: "circuits together, itself too"},
	{Name: "terminal_c", Means: "terminals bear, °C; unset: as the set says"},
	{Name: "joints_milliohm", Sample: "0.6", Means: "contacts of the loop, mΩ"},
	{Name: "rules", Sample: "european", Means: "rule set that decides", Words: deciding},
}

const caution = "Caution: undersized cable burns. Disconnect before work; local codes come first."

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run is the whole program; it returns the exit status.
func run(args []string, out, errs io.Writer) int {
	return form.Program{Name: "cable", Entries: entries, Heading: "Asked", Sums: true, Caution: caution}.Run(args, out, errs, reply)
}

// reply answers what the flags ask.
func reply(f *form.Form) (form.Answer, error) {
	q := read(f)
	if err := f.Faults(); err != nil {
		return form.Answer{}, err
	}
	a, err := q.answer()
	return form.Answer{Print: a.print, Working: a.printWorking, No: a.no()}, err
}

// read turns the flags into a question.
func read(f *form.Form) question {
	q := question{
		Sizing: wire.Sizing{
			Lay: wire.Conductor{
				Class: tables.Flexible, PlainCopper: true, OutsideEngineSpace: f.Text("engine_space") != "yes", Method: f.Text("method"), InsulationC: f.Number("insulation_c"),
				AmbientC: decimal.NewNullDecimal(f.Number("ambient_c")), Grouped: f.Whole("grouped"), TerminalC: f.Optional("terminal_c"),
			},
			System: tables.System(f.Text("system")), CurrentA: f.Number("current_a"), SurgeA: f.Optional("surge_a"),
			LengthM: f.Number("length_m"), JointsMilliohm: f.Number("joints_milliohm"), SystemV: f.Number("system_v"),
		},
		supplyV: f.Number("run_supply_v"), circuit: f.Text("circuit"),
	}
	f.Refuse(q.checkSupply())
	f.Refuse(working.OneOf("system", f.Text("system"), string(tables.Metric), string(tables.AWG), string(tables.SAE)))
	f.Refuse(working.OneOf("circuit", q.circuit, "charge", "critical", "other"))
	f.Refuse(working.OneOf("engine_space", f.Text("engine_space"), "yes", "no"))
	var err error
	q.set, err = tables.RuleSetOf(f.Text("rules"))
	f.Refuse(err)
	if text := f.Text("size"); text != "" {
		q.Lay.Size, err = tables.ParseSize(text)
		q.System = q.Lay.Size.System()
		f.Refuse(err)
	}
	return q
}
