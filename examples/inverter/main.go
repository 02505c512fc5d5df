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
// The exit status is 0 where there is an answer, also that the path collapses,
// and 2 where a flag cannot be used, with one line a fault.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"example.org/extralow/battery"
	"example.org/extralow/tables"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

var entries = []entry{
	{"power_w", "6000", "output, steady, W"},
	{"surge_w", "12000", "output, short, W"},
	{"efficiency_percent", "90", "of the inverters, %"},
	{"idle_w", "40", "drawn at no load, W"},
	{"cut_out_v", "10.5", "they switch off below, V"},
	{"emf_v", "13", "bank at rest, V"},
	{"bank_high_milliohm", "1", "bank, aged and nearly empty, mΩ"},
	{"size", "120 mm2", "of each cable"},
	{"length_m", "1.2", "one way, m"},
	{"parallel_cables", "2", "side by side, out and back"},
	{"conductor_c", "70", "of the cables at work, °C"},
	{"joints_milliohm", "0.3", "fuses, switches, joints, mΩ"},
	{"box_height_m", "0.5", "space round the inverters, m"},
	{"box_width_m", "1.2", "m"},
	{"box_depth_m", "0.6", "m"},
	{"position", "single, on a wall", "of that space"},
	{"material", "painted sheet steel", "of its walls"},
	{"outside_c", "30", "air outside, °C"},
	{"rise_c", "15", "rise allowed inside, K"},
}

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run is the whole program; it returns the exit status.
func run(args []string, out, errs io.Writer) int {
	f := newForm("inverter", entries)
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
		fmt.Fprintf(out, "\nWorking of the path and what settles on it\n%s", a.settled.Working)
		fmt.Fprintf(out, "\nWorking of the current at the cut-out, and of the heat\n%s", a.warmth.Working)
		fmt.Fprintf(out, "\nWorking of the air\n%s", a.airWorking())
	}
	fmt.Fprintln(out, "\nCaution: such currents weld and burn. Leave mains wiring to licensed people.")
	return 0
}

// read turns the flags into a question.
func read(f *form) question {
	cables := f.whole("parallel_cables")
	q := question{
		feed: battery.Feed{
			Inverter: battery.Inverter{EfficiencyPercent: decimal.NewNullDecimal(f.number("efficiency_percent")), IdleW: f.number("idle_w")},
			SteadyW:  f.number("power_w"), SurgeW: f.number("surge_w"), SourceV: f.number("emf_v"), CutOutV: decimal.NewNullDecimal(f.number("cut_out_v")),
		},
		bankMilliohm: f.number("bank_high_milliohm"),
		conductor:    wire.Conductor{Class: tables.Flexible},
		conductorC:   f.number("conductor_c"),
		run:          wire.Run{LengthM: f.number("length_m"), JointsMilliohm: f.number("joints_milliohm"), Cables: cables},
		box: battery.Box{
			HeightM: f.number("box_height_m"), WidthM: f.number("box_width_m"), DepthM: f.number("box_depth_m"),
			Position: f.text("position"), Material: f.text("material"),
		},
		outsideC: f.number("outside_c"), riseC: f.number("rise_c"),
	}
	var err error
	q.conductor.Size, err = tables.ParseSize(f.text("size"))
	f.refuse(err)
	return q
}
