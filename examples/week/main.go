// Week follows the charge of a vehicle's bank through a week, or a year, minute
// by minute: loads by the hour of the day, driving with stops, mains where it is
// to be had, and the sun of a month on a flat roof. Its sample is the van of a
// travelling knife grinder.
//
//	go run ./examples/week
//	go run ./examples/week -place Amsterdam -driving_h 2 -o week.svg
//	go run ./examples/week -latitude 52 -sunshine_percent 30 -month 3
//	go run ./examples/week -days 365
//
// It sets the months of least and of most sun side by side, and the month of
// -month between them: the lowest charge and when, the hours below a limit, what
// the loads went without, and how long the vehicle must drive a day to hold the
// balance. Beyond 14 days it follows one run instead, from the first of -month,
// and lists its months. With -o it also draws the charge as SVG, whole or not at
// all, on a sheet of A4 laid across; the picture does without colour.
//
// A drive begins at each hour of -drives on -drive_days, and -driving_h, counted
// in whole minutes, is shared out among them; the converter gives its current as
// long as the engine runs. -mains and -loads are lists of "NAME A FROM-TO DAYS":
// amperes at the battery, hours of the day up to 24, days of the week 1 (Monday)
// to 7 or none for all. They are parted by a semicolon; give what runs past
// midnight as two. A load behind an inverter includes its losses.
//
// The sun is the month's mean day at a tabulated place ("go run
// ./examples/tablebook insolation" lists them) or, with -latitude, that of
// FAO-56 for a share of sunshine. It rises and falls as half a sine about 12 h.
// Real days differ from the mean: a dark week brings less.
//
// The steps are those of charge.Balance. Hours below the limit are counted by
// its hourly trace. The driving that holds the balance is found by bisection on
// the same Balance without its cut-out, to the minute: in two weeks from the first
// of the month the bank never falls below the limit, and the second week ends no
// lower than the first. A long run has only the limit. Days of autonomy are those
// from full to the limit with no source at all.
//
// A flag left out has the value of our sample. The exit status is 0 where there
// is an answer, whatever the verdicts, and 2 where a flag or a file cannot be
// used, with one line a fault.
package main

import (
	"io"
	"os"

	"example.org/extralow/examples/form"
	"example.org/extralow/examples/sheet"
)

var entries = []form.Entry{
	{Name: "place", Sample: "Leeds", Means: "tabulated place", Words: form.Names("place")},
	{Name: "latitude", Means: "in its stead, °, north positive"},
	{Name: "sunshine_percent", Means: "share of the daylight, with latitude"},
	{Name: "month", Means: "1 to 12: set beside, or of the first day"},
	{Name: "days", Sample: "7", Means: "1 to 14, or up to 366 in one run"},
	{Name: "driving_h", Sample: "1.5", Means: "a day, shared out among the drives"},
	{Name: "drives", Sample: "7,12,16", Means: "hours at which they begin"},
	{Name: "drive_days", Sample: "1-6", Means: "of the week"},
	{Name: "converter_a", Sample: "30", Means: "output of the charging converter, A"},
	{Name: "mains", Sample: "yard 15 10-16 7", Means: "name, A at the battery, hours, days"},
	{Name: "loads", Sample: "fridge 1.2 0-24; wheels 8 9-11.5 1-6; wheels 8 13-15.5 1-6; lamps 2 17-22; heater 1.5 0-7; heater 1.5 20-24", Means: "name, A at the battery, hours, days"},
	{Name: "module_w", Sample: "200", Means: "solar modules, W; 0: none"},
	{Name: "capacity_ah", Sample: "200", Means: "LiFePO4 bank, Ah"},
	{Name: "cells", Sample: "4", Means: "in series: 4 for 12 V, 8 for 24 V"},
	{Name: "internal_milliohm", Sample: "10", Means: "of the bank, mΩ"},
	{Name: "charge_limit_a", Sample: "100", Means: "of its data sheet, A"},
	{Name: "battery_c", Sample: "10", Means: "temperature of the bank, °C"},
	{Name: "stage_v", Sample: "14.2", Means: "that the sources hold, V"},
	{Name: "start_percent", Sample: "80", Means: "charge at the start, %"},
	{Name: "limit_percent", Sample: "20", Means: "that it should not fall below, %"},
	{Name: "cut_out_percent", Sample: "10", Means: "the loads are shed here, %"},
	{Name: "resume_percent", Sample: "20", Means: "and come back here, %"},
}

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run is the whole program; it returns the exit status.
func run(args []string, out, errs io.Writer) int {
	return form.Program{Name: "week", Entries: entries, Heading: "Asked", Picture: "week.svg", Caution: caution}.Run(args, out, errs, reply)
}

// reply answers what the flags ask.
func reply(f *form.Form) (form.Answer, error) {
	p := read(f)
	if err := f.Faults(); err != nil {
		return form.Answer{}, err
	}
	a, err := p.answer()
	return form.Answer{Print: a.print, Save: func(file string, force bool) error { return sheet.WriteWhole(file, force, a.chart().draw) }}, err
}
