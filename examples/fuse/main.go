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
// The exit status is 0 where there is an answer, 1 where none exists, the
// one in hand fails or something must be asked first, and 2 where a flag cannot be
// used, with one line a fault.
package main

import (
	"io"
	"os"
	"slices"

	"example.org/extralow/battery"
	"example.org/extralow/examples/form"
	"example.org/extralow/protect"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

var entries = []form.Entry{
	{Name: "design_a", Sample: "30", Means: "load, steady, A"},
	{Name: "continuous", Sample: "yes", Means: "lasts over 10 minutes: yes or no"},
	{Name: "family", Sample: "IEC 60269 gG", Means: "of devices", Words: form.Names("family")},
	{Name: "rating_a", Means: "device in hand, A"},
	{Name: "device_ambient_c", Means: "air round the device, °C"},
	{Name: "device_ambient_factor", Means: "its derating there, data sheet"},
	{Name: "operating_ratio", Means: "opens at ÷ rating, data sheet"},
	{Name: "rules", Sample: "european", Means: "rule set", Words: form.Names("rules")},
	{Name: "size", Sample: "16 mm2", Means: "conductor"},
	{Name: "insulation_c", Sample: "90", Means: "its insulation bears, °C"},
	{Name: "method", Sample: "B", Means: "A, B, C or F of IEC 60364-5-52"},
	{Name: "ambient_c", Sample: "40", Means: "air round the cable, °C"},
	{Name: "grouped", Sample: "3", Means: "circuits together, itself too"},
	{Name: "terminal_c", Sample: "70", Means: "terminals bear, °C"},
	{Name: "ampacity_a", Means: "as installed, in place of these"},
	{Name: "chemistry", Sample: "LiFePO4", Means: "of the bank", Words: form.Names("chemistry")},
	{Name: "batteries", Sample: "2", Means: "side by side"},
	{Name: "battery_v", Sample: "12.8", Means: "nominal, each, V"},
	{Name: "capacity_ah", Sample: "100", Means: "each, Ah"},
	{Name: "full_v", Sample: "13.4", Means: "at rest, full, V"},
	{Name: "empty_v", Sample: "12.8", Means: "at rest, empty, V"},
	{Name: "low_milliohm", Means: "each, new and full, mΩ"},
	{Name: "high_milliohm", Means: "each, aged and empty, mΩ"},
	{Name: "path_low_milliohm", Sample: "0", Means: "bank to device, cold, mΩ"},
	{Name: "path_high_milliohm", Sample: "0", Means: "the same, hot, contacts, mΩ"},
	{Name: "source_limit_a", Sample: "0", Means: "chargers that feed in, A"},
	{Name: "highest_v", Sample: "14.6", Means: "when charging, V"},
	{Name: "rated_v", Sample: "80", Means: "marked on the device, V d.c."},
	{Name: "breaking_a", Sample: "25000", Means: "capacity, data sheet, A"},
	{Name: "breaking_at_v", Sample: "80", Means: "stated for, V d.c."},
}

const caution = `A wrong fuse burns or bursts, and none protects against a bad joint.
Caution: a design aid. Disconnect first. Local codes and licensed people decide.`

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run is the whole program; it returns the exit status.
func run(args []string, out, errs io.Writer) int {
	return form.Program{Name: "fuse", Entries: entries, Heading: "Asked", Sums: true, Caution: caution}.Run(args, out, errs, reply)
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
	forgetSampleDevice(f)
	q := question{
		need: protect.Need{
			DesignA: f.Number("design_a"), Brief: f.Text("continuous") == "no", AmbientC: f.Optional("device_ambient_c"),
			AmbientFactor: f.Optional("device_ambient_factor"), OperatingRatio: f.Optional("operating_ratio"),
		},
		family: f.Text("family"), ratingA: f.Optional("rating_a"), ampacityA: f.Optional("ampacity_a"),
		lay: wire.Conductor{
			Class: tables.Flexible, PlainCopper: true, OutsideEngineSpace: true, Method: f.Text("method"), InsulationC: f.Number("insulation_c"),
			AmbientC: decimal.NewNullDecimal(f.Number("ambient_c")), Grouped: f.Whole("grouped"), TerminalC: f.Optional("terminal_c"),
		},
		bank: readBank(f),
		path: battery.FaultPath{
			LowMilliohm: f.Number("path_low_milliohm"), HighMilliohm: decimal.NewNullDecimal(f.Number("path_high_milliohm")), LimitedA: decimal.NewNullDecimal(f.Number("source_limit_a")),
		},
		breaking: protect.BreakingDuty{
			HighestV: f.Number("highest_v"), RatedV: f.Optional("rated_v"), BreaksA: f.Optional("breaking_a"), BreaksAtV: f.Optional("breaking_at_v"),
		},
	}
	var sizeFault, setFault error
	q.lay.Size, sizeFault = tables.ParseSize(f.Text("size"))
	q.set, setFault = tables.RuleSetOf(f.Text("rules"))
	f.Refuse(sizeFault)
	f.Refuse(setFault)
	f.Refuse(working.OneOf("continuous", f.Text("continuous"), "yes", "no"))
	return q
}

// forgetSampleDevice lets the sample's data sheet hold for the sample alone: whoever asks
// of his own job takes no figure from it.
func forgetSampleDevice(f *form.Form) {
	if !slices.ContainsFunc(entries, func(e form.Entry) bool { return f.Given(e.Name) }) {
		return
	}
	for _, name := range []string{"rated_v", "breaking_a", "breaking_at_v"} {
		if !f.Given(name) {
			f.Unset(name)
		}
	}
}

// readBank reads a bank of like batteries side by side.
func readBank(f *form.Form) battery.Bank {
	one := battery.BankBattery{
		Name: f.Text("chemistry"), Chemistry: tables.Chemistry(f.Text("chemistry")), NominalV: f.Number("battery_v"), CapacityAh: f.Number("capacity_ah"),
		FullV: f.Number("full_v"), EmptyV: f.Number("empty_v"),
		LowMilliohm: f.Optional("low_milliohm"), HighMilliohm: f.Optional("high_milliohm"),
		LeadMilliohm: decimal.NewNullDecimal(decimal.Zero), // they count as path
	}
	bank := battery.Bank{Series: 1}
	for range f.Whole("batteries", form.Between(1, 48)) {
		bank.Batteries = append(bank.Batteries, one)
	}
	return bank
}
