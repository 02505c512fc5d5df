// Fuse answers which rating of a family of devices fits between a load and its
// conductor, and whether such a device can break what the bank drives into a
// short circuit.
//
//	go run ./examples/fuse
//	go run ./examples/fuse -family "ISO 8820-5 SF51" -design_a 34 -working
//	go run ./examples/fuse -rating_a 50 -breaking_a 25000 -breaking_at_v 80
//
// A rating fits that carries the load, is no more than the conductor carries,
// and opens before an overload hurts it: the current that opens a device in its
// conventional time may be at most 1.45 times the ampacity. A gG link from 16 A
// opens at 1.6 times its rating, so that for it the last rule is the stricter
// one. The ratings on both sides of the window are printed with each rule by
// itself. That none exists is an answer: then both sides are shown, and the
// next larger conductor that makes one exist. With -rating_a the device in hand
// is judged too.
//
// The breaking capacity is judged against the largest current of the bank, all
// batteries full, new and without contacts. The data sheet of the device
// (-breaking_a with -breaking_at_v) goes before what the standard of the family
// asks. What is not known is not passed.
//
// The flags bear the names of the library's own fields, unit included, and all
// have a sample value; the answer marks with a star those that were left at it.
//
// The exit status is 0 where there is an answer, also that none exists or that
// something must be asked first, and 2 where a flag cannot be used, with one
// line a fault.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"example.org/extralow/battery"
	"example.org/extralow/protect"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

var entries = []entry{
	{"design_a", "30", "load, steady, A"},
	{"continuous", "yes", "lasts over 10 minutes: yes or no"},
	{"family", "IEC 60269 gG", "of devices"},
	{"rating_a", "", "device in hand, A"},
	{"device_ambient_c", "", "air round the device, °C"},
	{"device_ambient_factor", "", "its derating there, data sheet"},
	{"operating_ratio", "", "opens at ÷ rating, data sheet"},
	{"rules", "european", "rule set"},
	{"size", "16 mm2", "conductor"},
	{"insulation_c", "90", "its insulation bears, °C"},
	{"method", "B", "of laying, IEC 60364-5-52"},
	{"ambient_c", "40", "air round the cable, °C"},
	{"grouped", "3", "circuits together, itself too"},
	{"terminal_c", "75", "terminals bear, °C"},
	{"ampacity_a", "", "as installed, in place of these"},
	{"chemistry", "LiFePO4", "of the bank"},
	{"batteries", "2", "side by side"},
	{"battery_v", "12.8", "nominal, each, V"},
	{"capacity_ah", "100", "each, Ah"},
	{"full_v", "13.4", "at rest, full, V"},
	{"empty_v", "12.8", "at rest, empty, V"},
	{"low_milliohm", "", "each, new and full, mΩ"},
	{"high_milliohm", "", "each, aged and empty, mΩ"},
	{"path_low_milliohm", "0", "bank to device, cold, mΩ"},
	{"path_high_milliohm", "0", "the same, hot, contacts, mΩ"},
	{"source_limit_a", "0", "chargers that feed in, A"},
	{"highest_v", "14.6", "when charging, V"},
	{"rated_v", "", "marked on the device, V d.c."},
	{"breaking_a", "", "capacity, data sheet, A"},
	{"breaking_at_v", "", "stated for, V d.c."},
}

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run is the whole program; it returns the exit status.
func run(args []string, out, errs io.Writer) int {
	f := newForm("fuse", entries)
	withWorking := f.Bool("working", false, "print every line of the sums")
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
		fmt.Fprintf(out, "\nWorking of the window\n%s", a.window.Working)
		fmt.Fprintf(out, "\nWorking of the fault current\n%s", a.fault.Working)
	}
	fmt.Fprintln(out, "\nCaution: a wrong fuse burns or bursts. Local codes and competent people decide.")
	return 0
}

// read turns the flags into a question.
func read(f *form) question {
	q := question{
		need: protect.Need{
			DesignA: f.number("design_a"), Continuous: f.text("continuous") == "yes", AmbientC: f.optional("device_ambient_c"),
			AmbientFactor: f.optional("device_ambient_factor"), OperatingRatio: f.optional("operating_ratio"),
		},
		family: f.text("family"), ratingA: f.optional("rating_a"), ampacityA: f.optional("ampacity_a"),
		lay: wire.Conductor{
			Class: tables.Flexible, Method: f.text("method"), InsulationC: f.number("insulation_c"),
			AmbientC: decimal.NewNullDecimal(f.number("ambient_c")), Grouped: f.whole("grouped"), TerminalC: f.optional("terminal_c"),
		},
		bank: readBank(f),
		path: battery.FaultPath{
			LowMilliohm: f.number("path_low_milliohm"), HighMilliohm: f.number("path_high_milliohm"), LimitedA: f.number("source_limit_a"),
		},
		breaking: protect.Breaking{
			HighestV: f.number("highest_v"), RatedV: f.optional("rated_v"), BreaksA: f.optional("breaking_a"), BreaksAtV: f.optional("breaking_at_v"),
		},
	}
	var sizeFault, setFault error
	q.lay.Size, sizeFault = tables.ParseSize(f.text("size"))
	q.set, setFault = tables.RuleSetOf(f.text("rules"))
	f.refuse(sizeFault)
	f.refuse(setFault)
	f.refuse(working.OneOf("continuous", f.text("continuous"), "yes", "no"))
	return q
}

// readBank reads a bank of like batteries side by side.
func readBank(f *form) battery.Bank {
	one := battery.Battery{
		Name: f.text("chemistry"), Chemistry: f.text("chemistry"), NominalV: f.number("battery_v"), CapacityAh: f.number("capacity_ah"),
		FullV: f.number("full_v"), EmptyV: f.number("empty_v"),
		LowMilliohm: f.optional("low_milliohm"), HighMilliohm: f.optional("high_milliohm"),
	}
	count := f.whole("batteries")
	f.refuse(working.Between("batteries", decimal.NewFromInt(int64(count)), 1, 48))
	bank := battery.Bank{Series: 1}
	for range min(count, 48) {
		bank.Batteries = append(bank.Batteries, one)
	}
	return bank
}
