// Inverter shows what 6000 W of inverters ask of a 12 V bank: how many amperes
// at rest, at the cut-out and through a real path, what heat they shed into
// their space, and at which resistance the path collapses.
//
//	go run ./examples/inverter
//	go run ./examples/inverter -surge_w 15000 -joints_milliohm 0.8 -working
//
// Watts divided by 12 V are not the answer. The current rises as the voltage
// sags, and is greatest at the cut-out. Through the resistance of bank, cables,
// devices and joints the voltage settles where the path still brings the power,
// if it does: beyond a certain resistance no voltage carries it, and the supply
// collapses before any fuse opens. The table puts the path of the flags beside
// worse ones: an aged or cold bank, a long cable, a bad joint.
//
// 6000 W on 12 V is common practice of the trade, without a source, and near
// the end of what 12 V can do. All inverters count as one, with one path. The
// size of cables and fuses is another question: see the examples cable and fuse,
// and ask them for the current at the cut-out.
//
// The flags bear the names of the library's own fields, unit included, and all
// have a sample value; the answer marks with a star those that were left at it.
//
// The exit status is 0 where there is an answer, 1 where the load
// switches off or the path collapses, and 2 where a flag cannot be
// used, with one line a fault.
package main

import (
	"io"
	"os"

	"example.org/extralow/battery"
	"example.org/extralow/examples/form"
	"example.org/extralow/tables"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

var entries = []form.Entry{
	{Name: "power_w", Sample: "6000", Means: "output, steady, W"},
	{Name: "surge_w", Sample: "12000", Means: "output, short, W"},
	{Name: "efficiency_percent", Sample: "90", Means: "of the inverters, %"},
	{Name: "idle_w", Sample: "40", Means: "drawn at no load, W"},
	{Name: "cut_out_v", Sample: "10.5", Means: "they switch off below, V"},
	{Name: "emf_v", Sample: "13", Means: "bank at rest, V"},
	{Name: "bank_high_milliohm", Sample: "1", Means: "bank, aged and nearly empty, mΩ"},
	{Name: "size", Sample: "120 mm2", Means: "of each cable"},
	{Name: "length_m", Sample: "1.2", Means: "one way, m"},
	{Name: "parallel_cables", Sample: "2", Means: "side by side, out and back"},
	{Name: "conductor_c", Sample: "70", Means: "of the cables at work, °C"},
	{Name: "joints_milliohm", Sample: "0.3", Means: "fuses, switches, joints, mΩ"},
	{Name: "box_height_m", Sample: "0.5", Means: "space round the inverters, m"},
	{Name: "box_width_m", Sample: "1.2", Means: "m"},
	{Name: "box_depth_m", Sample: "0.6", Means: "m"},
	{Name: "position", Sample: "single, on a wall", Means: "of that space", Words: form.Names("position")},
	{Name: "material", Sample: "painted sheet steel", Means: "of its walls", Words: form.Names("material")},
	{Name: "outside_c", Sample: "30", Means: "air outside, °C"},
	{Name: "rise_c", Sample: "15", Means: "rise allowed inside, K"},
}

const caution = "A design aid, not a certificate. Mains wiring is for licensed people.\nCaution: such currents weld and burn. Disconnect before work; obey local codes."

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run is the whole program; it returns the exit status.
func run(args []string, out, errs io.Writer) int {
	return form.Program{Name: "inverter", Entries: entries, Heading: "Asked", Sums: true, Caution: caution}.Run(args, out, errs, reply)
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
	cables := f.Whole("parallel_cables", form.Between(1, 20))
	q := question{
		feed: battery.Feed{
			Inverter: battery.Inverter{EfficiencyPercent: decimal.NewNullDecimal(f.Number("efficiency_percent")), IdleW: decimal.NewNullDecimal(f.Number("idle_w"))},
			SteadyW:  f.Number("power_w"), SurgeW: f.Number("surge_w"), SourceV: f.Number("emf_v"), CutOutV: decimal.NewNullDecimal(f.Number("cut_out_v")),
		},
		bankMilliohm: f.Number("bank_high_milliohm"),
		conductor:    wire.Conductor{Class: tables.Flexible, PlainCopper: true},
		conductorC:   f.Number("conductor_c"),
		run:          wire.Run{LengthM: f.Number("length_m"), JointsMilliohm: f.Number("joints_milliohm"), Cables: cables},
		box: battery.Box{
			HeightM: f.Number("box_height_m"), WidthM: f.Number("box_width_m"), DepthM: f.Number("box_depth_m"),
			Position: f.Text("position"), Material: f.Text("material"),
		},
		outsideC: f.Number("outside_c"), riseC: f.Number("rise_c"),
	}
	var err error
	q.conductor.Size, err = tables.ParseSize(f.Text("size"))
	f.Refuse(err)
	return q
}
