package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"

	"example.org/extralow/battery"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// entry is one flag with its sample value. Its name is the library's own key,
// so that an error of the library names what was typed.
type entry struct{ name, sample, means string }

var entries = []entry{
	{"case", "both", "case to ask: drawn, delivered or both"},
	{"case_length_mm", "280", "case as drawn, mm"},
	{"longer_mm", "35", "the delivered one is longer by, mm"},
	{"case_width_mm", "170", "mm"},
	{"case_height_mm", "210", "mm, terminals included"},
	{"terminal_mm", "18", "of them, the terminals, mm"},
	{"case_tolerance_mm", "2", "it may arrive bigger by, mm"},
	{"case_kg", "11.8", "one battery, kg"},
	{"along", "2", "cases in the length"},
	{"across", "2", "cases in the width"},
	{"space_length_mm", "783", "space as measured, mm"},
	{"space_width_mm", "396", "mm"},
	{"space_height_mm", "275", "mm"},
	{"space_tolerance_mm", "5", "it may turn out smaller by, mm"},
	{"gap_mm", "10", "between cases, mm"},
	{"wall_mm", "15", "to every wall: straps, hands, mm"},
	{"above_mm", "50", "over the terminals, mm"},
	{"cable_diameter_mm", "14", "outer, mm; 0: none that way"},
	{"bend_multiple", "4", "least bend radius, in diameters"},
	{"lug_mm", "40", "straight before the bend, mm"},
	{"straps", "2", "across each row, two fixings each"},
	{"fixing_n", "", "what one fixing bears, N"},
	{"g_times", "10", "acceleration, in g"},
	{"chemistry", "LiFePO4", "of the batteries"},
	{"cells", "4", "in series"},
	{"capacity_ah", "400", "of the whole bank, Ah"},
	{"charge", "boost", "highest stage: float or boost"},
	{"fitted_cm2", "60", "free area of the smaller opening, cm²"},
	{"loss_w", "25", "heat made in the bay, W"},
	{"outside_c", "35", "air round the bay, °C"},
	{"ambient_c", "50", "its cables were judged at, °C"},
	{"position", "single, on a wall", "of the bay"},
	{"material", "plastic", "of its walls"},
	{"wheelbase_m", "3.6", "m"},
	{"front_kg", "1510", "front axle as weighed, kg"},
	{"rear_kg", "1620", "rear axle as weighed, kg"},
	{"front_limit_kg", "1850", "of the plate, kg"},
	{"rear_limit_kg", "2120", "of the plate, kg"},
	{"gross_limit_kg", "3500", "of the plate, kg"},
	{"behind_m", "2.9", "batteries behind the front axle, m"},
}

// form is the flags as typed, and every fault found in them.
type form struct {
	*flag.FlagSet
	faults []error
}

func newForm() *form {
	f := &form{FlagSet: flag.NewFlagSet("bay", flag.ContinueOnError)}
	f.SetOutput(io.Discard)
	f.Usage = func() {}
	for _, e := range entries {
		f.String(e.name, e.sample, e.means)
	}
	return f
}

// parse reads the arguments. A word that is no flag is a fault.
func (f *form) parse(args []string) error {
	if err := f.Parse(args); err != nil || f.NArg() == 0 {
		return err
	}
	return fmt.Errorf("%q is no flag: want flags only, such as -along 2", f.Arg(0))
}

func (f *form) text(name string) string { return f.Lookup(name).Value.String() }

// given reports whether a flag was typed.
func (f *form) given(name string) (typed bool) {
	f.Visit(func(one *flag.Flag) { typed = typed || one.Name == name })
	return typed
}

var plainNumber = regexp.MustCompile(`^[+-]?[0-9]{1,12}(\.[0-9]{1,12})?$`)

// number reads a flag. What cannot be read becomes 1, so that the other flags
// can still be judged.
func (f *form) number(name string) decimal.Decimal {
	text := f.text(name)
	v, err := decimal.NewFromString(text)
	if err != nil || !plainNumber.MatchString(text) {
		f.refuse(&working.InputError{Field: name, Got: fmt.Sprintf("%q", text), Want: "a number of plain digits, such as 12.5, without a unit"})
		return decimal.NewFromInt(1)
	}
	return v
}

// optional is a number that may be left out.
func (f *form) optional(name string) decimal.NullDecimal {
	if f.text(name) == "" {
		return decimal.NullDecimal{}
	}
	return decimal.NewNullDecimal(f.number(name))
}

// whole is a number of things.
func (f *form) whole(name string) int {
	v := f.number(name)
	if !v.IsInteger() {
		f.refuse(&working.InputError{Field: name, Got: v.String(), Want: "a whole number"})
	}
	return int(v.IntPart())
}

func (f *form) refuse(err error) {
	if err != nil {
		f.faults = append(f.faults, err)
	}
}

// read turns the flags into a question. What the package judges is left to it.
func (f *form) read() question {
	q := question{
		fit: f.fit(), longerMM: f.number("longer_mm"), eachKg: f.number("case_kg"), terminalMM: f.number("terminal_mm"),
		straps: f.whole("straps"), times: f.number("g_times"), strengthN: f.optional("fixing_n"),
		gas: battery.Gassing{
			Chemistry: f.text("chemistry"), Cells: f.whole("cells"), CapacityAh: f.number("capacity_ah"), Charge: f.text("charge"),
		},
		openingCM2: f.number("fitted_cm2"),
		lossW:      f.number("loss_w"), outsideC: f.number("outside_c"), ambientC: f.number("ambient_c"),
		position: f.text("position"), material: f.text("material"),
		vehicle: f.vehicle(), behindM: f.number("behind_m"),
	}
	q.cases = map[string][]string{"both": {"drawn", "delivered"}, "drawn": {"drawn"}, "delivered": {"delivered"}}[f.text("case")]
	f.refuse(working.OneOf("case", f.text("case"), "drawn", "delivered", "both"))
	f.refuse(working.Between("longer_mm", q.longerMM, -500, 500))
	f.refuse(working.Between("straps", decimal.NewFromInt(int64(q.straps)), 1, 4))
	f.refuse(working.Above("case_kg", q.eachKg, 0, 500))
	if q.terminalMM.IsNegative() || q.terminalMM.GreaterThanOrEqual(q.fit.Case.HeightMM) {
		f.refuse(&working.InputError{Field: "terminal_mm", Got: q.terminalMM.String(), Want: "0 or more, and less than case_height_mm"})
	}
	return q
}

func (f *form) fit() battery.Fit {
	return battery.Fit{
		Case: battery.Case{
			LengthMM: f.number("case_length_mm"), WidthMM: f.number("case_width_mm"), HeightMM: f.number("case_height_mm"),
			ToleranceMM: f.number("case_tolerance_mm"),
		},
		Space: battery.Space{
			LengthMM: f.number("space_length_mm"), WidthMM: f.number("space_width_mm"), HeightMM: f.number("space_height_mm"),
			ToleranceMM: f.number("space_tolerance_mm"),
		},
		Along: f.whole("along"), Across: f.whole("across"),
		GapMM: f.number("gap_mm"), WallMM: f.number("wall_mm"), AboveMM: f.number("above_mm"),
		CableMM: f.number("cable_diameter_mm"), BendTimes: f.number("bend_multiple"), LugMM: f.number("lug_mm"),
	}
}

func (f *form) vehicle() battery.Vehicle {
	return battery.Vehicle{
		WheelbaseM: f.number("wheelbase_m"), FrontKg: f.number("front_kg"), RearKg: f.number("rear_kg"),
		FrontMostKg: f.number("front_limit_kg"), RearMostKg: f.number("rear_limit_kg"), GrossMostKg: f.number("gross_limit_kg"),
	}
}

// print lists what was asked, with a star at what was left at its sample value.
func (f *form) print(out io.Writer) {
	fmt.Fprintln(out, "Asked (* is a sample value of ours: give your own)")
	for _, e := range entries {
		mark, value := "*", f.text(e.name)
		if f.given(e.name) {
			mark = " "
		}
		if value == "" {
			mark, value = " ", "unset"
		}
		fmt.Fprintf(out, "%s %-19s %-18s %s\n", mark, e.name, value, e.means)
	}
}

// lines returns one line a fault, without the path that leads to its flag, and
// none twice.
func lines(err error) []string {
	var all []string
	joined, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return []string{line(err)}
	}
	for _, one := range joined.Unwrap() {
		for _, text := range lines(one) {
			if !slices.Contains(all, text) {
				all = append(all, text)
			}
		}
	}
	return all
}

func line(err error) string {
	if bad, ok := errors.AsType[*working.InputError](err); ok {
		flat := *bad
		flat.Field = flat.Field[strings.LastIndex(flat.Field, ".")+1:]
		return flat.Error()
	}
	return err.Error()
}
