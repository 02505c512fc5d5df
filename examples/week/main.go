// Week follows the charge of a vehicle's bank through a week, or a year, minute
// by minute: loads by the hour of the day, driving with stops, mains where it is
// to be had, and the sun of a month on a flat roof. Its sample is the van of a
// travelling knife grinder.
//
//	go run ./examples/week
//	go run ./examples/week -place Amsterdam -driving-h 2 -o week.svg
//	go run ./examples/week -latitude 52 -sunshine-percent 30 -month 3
//	go run ./examples/week -days 365
//
// It sets the months of least and of most sun side by side, and the month of
// -month between them: the lowest charge and when, the hours below a limit, what
// the loads went without, and how long the vehicle must drive a day to hold the
// balance. Beyond 14 days it follows one run instead, from the first of -month,
// and lists its months. With -o it also draws the charge as SVG, whole or not at
// all, on a sheet of A4 laid across; the picture does without colour.
//
// A drive begins at each hour of -drives on -drive-days, and -driving-h, counted
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
// its hourly trace; what the loads went without is their charge at the traced
// voltage less the energy given, and is good to about a hundredth of all that
// they take. The driving that holds the balance is found by bisection on the same
// Balance without its cut-out, to the minute: in two weeks from the first of the
// month the bank never falls below the limit, and the second week ends no lower
// than the first. A long run has only the limit. Days of autonomy are those from
// full to the limit with no source at all.
//
// A flag left out has the value of our sample. The exit status is 0 where there
// is an answer, whatever the verdicts, and 2 where a flag or a file cannot be
// used, with one line a fault.
package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"syscall"

	"example.org/extralow/tables/working"
)

var entries = []entry{
	{"place", "Leeds", "tabulated place"},
	{"latitude", "", "in its stead, °, north positive"},
	{"sunshine-percent", "", "share of the daylight, with latitude"},
	{"month", "", "1 to 12: set beside, or of the first day"},
	{"days", "7", "1 to 14, or up to 366 in one run"},
	{"driving-h", "1.5", "a day, shared out among the drives"},
	{"drives", "7,12,16", "hours at which they begin"},
	{"drive-days", "1-6", "of the week"},
	{"converter-a", "30", "output of the charging converter, A"},
	{"mains", "yard 15 10-16 7", "name, A at the battery, hours, days"},
	{"loads", "fridge 1.2 0-24; wheels 8 9-11.5 1-6; wheels 8 13-15.5 1-6; lamps 2 17-22; heater 1.5 0-7; heater 1.5 20-24", "name, A at the battery, hours, days"},
	{"module-w", "200", "solar modules, W; 0: none"},
	{"capacity-ah", "200", "LiFePO4 bank, Ah"},
	{"cells", "4", "in series: 4 for 12 V, 8 for 24 V"},
	{"internal-milliohm", "10", "of the bank, mΩ"},
	{"charge-limit-a", "100", "of its data sheet, A"},
	{"battery-c", "10", "temperature of the bank, °C"},
	{"stage-v", "14.2", "that the sources hold, V"},
	{"start-percent", "80", "charge at the start, %"},
	{"limit-percent", "20", "that it should not fall below, %"},
	{"cut-out-percent", "10", "the loads are shed here, %"},
	{"resume-percent", "20", "and come back here, %"},
}

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run is the whole program; it returns the exit status.
func run(args []string, out, errs io.Writer) int {
	f := newForm("week", entries)
	file := f.String("o", "", "file to write the picture to, as SVG")
	if err := f.parse(args); err != nil {
		return f.refused(errs, err)
	}
	p := read(f)
	if err := errors.Join(f.faults...); err != nil {
		return f.refused(errs, err)
	}
	a, err := p.answer()
	if err == nil && f.given("o") {
		err = write(*file, a)
	}
	if err != nil {
		return f.refused(errs, err)
	}
	var page bytes.Buffer
	f.print(&page)
	a.print(&page)
	if f.given("o") {
		fmt.Fprintf(&page, "\nThe picture is in %s.\n", *file)
	} else {
		fmt.Fprintln(&page, "\nTo draw it: go run ./examples/week -o week.svg")
	}
	para(&page, "", caution)
	if _, err := page.WriteTo(out); err != nil {
		return f.refused(errs, err)
	}
	return 0
}

// write writes the picture to a file, whole or not at all.
func write(name string, a answer) error {
	if old, err := os.Lstat(name); name == "" || err == nil && !old.Mode().IsRegular() {
		return &working.InputError{Field: "o", Got: fmt.Sprintf("%q", name), Want: "the name of a file, new or to be replaced"}
	}
	temp, err := os.CreateTemp(filepath.Dir(name), ".week-*")
	if err != nil {
		return unwritten(name, err)
	}
	defer os.Remove(temp.Name()) // gone already where all went well
	err = errors.Join(a.chart().draw(temp), temp.Chmod(0o644), temp.Close())
	if err == nil {
		err = os.Rename(temp.Name(), name)
	}
	return unwritten(name, err)
}

// unwritten says in one line why a file could not be written.
func unwritten(name string, err error) error {
	if err == nil {
		return nil
	}
	if plain, ok := errors.AsType[syscall.Errno](err); ok {
		err = plain
	}
	return fmt.Errorf("o: cannot write %q: %w", name, err)
}
