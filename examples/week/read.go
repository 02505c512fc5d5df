package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/charge"
	"example.org/extralow/examples/form"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// read turns the flags into a plan.
func read(f *form.Form) plan {
	p := plan{
		days:         f.Whole("days", form.Between(1, 366)),
		converterA:   f.Number("converter_a", form.Between(0, 10_000)),
		stageV:       f.Number("stage_v", form.Above(0, 100)),
		startPercent: f.Number("start_percent", form.Between(0, 100)), limitPercent: f.Number("limit_percent", form.Between(0, 100)),
		cutOut: f.Optional("cut_out_percent", form.Between(0, 100)), resume: f.Optional("resume_percent", form.Between(0, 100)),
	}
	if f.Text("month") != "" {
		p.month = f.Whole("month", form.Between(1, 12))
	}
	if f.Faults() == nil && p.startPercent.LessThan(p.limitPercent) {
		f.Refuse(&working.InputError{Field: "start_percent", Got: p.startPercent.String(), Want: "at least limit_percent, " + p.limitPercent.String()})
	}
	p.mains, p.loads = spells(f, "mains"), spells(f, "loads")
	readDriving(f, &p)
	cells := f.Whole("cells", form.Between(1, 16))
	moduleW := f.Number("module_w", form.Between(0, 100_000))
	capacityAh, batteryC := f.Number("capacity_ah", form.Above(0, 100_000)), f.Number("battery_c", form.Between(-60, 100))
	milliohm, limitA := f.Number("internal_milliohm", form.Above(0, 10_000)), f.Optional("charge_limit_a", form.Between(0, 100_000))
	sky := readSky(f)
	if f.Faults() != nil {
		return p
	}
	var err error
	p.battery, err = bank(cells)
	f.Refuse(err)
	f.Refuse(p.checkStage(cells))
	p.battery.CapacityAh, p.battery.BatteryC, p.battery.InternalMilliohm, p.battery.ChargeA = capacityAh, batteryC, milliohm, limitA
	p.sun, err = sky.sun(moduleW)
	f.Refuse(err)
	return p
}

// readDriving reads when the drives begin and how long they last together.
func readDriving(f *form.Form, p *plan) {
	for _, text := range strings.Split(f.Text("drives"), ",") {
		h, err := form.ReadNumber("drives", strings.TrimSpace(text), form.Between(0, 23))
		f.Refuse(err)
		p.drives = append(p.drives, minutes(h))
	}
	slices.Sort(p.drives)
	f.Refuse(working.Between("drives", decimal.NewFromInt(int64(len(p.drives))), 1, 16))
	var err error
	p.driveDays, err = weekdays("drive_days", f.Text("drive_days"))
	f.Refuse(err)
	driving := f.Number("driving_h", form.Between(0, 24))
	p.drivingMin = minutes(driving)
	if f.Faults() == nil && p.drivingMin > p.mostDriving() {
		f.Refuse(&working.InputError{Field: "driving_h", Got: driving.String(), Want: "at most " + clock(p.mostDriving()) + ", or one drive runs into the next"})
	}
}

// minutes turns hours into whole minutes; what is left over does not count.
func minutes(hours decimal.Decimal) int {
	return int(hours.Mul(decimal.NewFromInt(60)).IntPart())
}

// spells reads a list of "NAME A FROM-TO DAYS".
func spells(f *form.Form, name string) []charge.DutyPeriod {
	var all []charge.DutyPeriod
	for _, text := range strings.Split(f.Text(name), ";") {
		if strings.TrimSpace(text) == "" {
			continue
		}
		s, err := spell(name, text)
		f.Refuse(err)
		all = append(all, s)
	}
	f.Refuse(working.Between(name, decimal.NewFromInt(int64(len(all))), 0, 16))
	return all
}

func spell(field, text string) (charge.DutyPeriod, error) {
	words := strings.Fields(text)
	if len(words) < 3 || len(words) > 4 || len(words[0]) > 12 {
		return charge.DutyPeriod{}, &working.InputError{Field: field, Got: fmt.Sprintf("%q", strings.TrimSpace(text)), Want: `a name of up to 12 letters, amperes and hours, such as "lamps 2 17-22", and days if not all`}
	}
	s := charge.DutyPeriod{Name: words[0]}
	from, to, _ := strings.Cut(words[2], "-")
	var errs [4]error
	s.CurrentA, errs[0] = form.ReadNumber(field, words[1], form.Between(0, 10_000))
	s.FromH, errs[1] = form.ReadNumber(field, from)
	s.ToH, errs[2] = form.ReadNumber(field, to)
	if len(words) == 4 {
		s.Weekdays, errs[3] = weekdays(field, words[3])
	}
	if err := errors.Join(errs[:]...); err != nil {
		return s, err
	}
	return s, inDay(field, words[2], s)
}

// inDay checks that a spell lasts a minute at least and ends with its day.
func inDay(field, got string, s charge.DutyPeriod) error {
	if minutes(s.FromH) < 0 || minutes(s.ToH) <= minutes(s.FromH) || s.ToH.GreaterThan(decimal.NewFromInt(24)) {
		return &working.InputError{Field: field, Got: got, Want: "rising hours from 0 to 24: give what runs past midnight as two"}
	}
	return nil
}

// weekdays reads days of the week: "6", "1-5" or "1-3,6".
func weekdays(field, text string) ([]int, error) {
	var all []int
	for _, part := range strings.Split(text, ",") {
		first, last, several := strings.Cut(part, "-")
		if !several {
			last = first
		}
		from, to := strings.Index("1234567", first)+1, strings.Index("1234567", last)+1
		if len(first) != 1 || len(last) != 1 || from < 1 || to < from {
			return nil, &working.InputError{Field: field, Got: fmt.Sprintf("%q", text), Want: `days from 1 to 7, such as "6" or "1-5"`}
		}
		for day := from; day <= to; day++ {
			all = append(all, day)
		}
	}
	return all, nil
}

// readSky reads where the van stands.
func readSky(f *form.Form) sky {
	if f.Text("latitude") == "" {
		if f.Given("sunshine_percent") {
			f.Refuse(&working.InputError{Field: "sunshine_percent", Got: f.Text("sunshine_percent"), Want: "latitude with it: a place has its own sun"})
		}
		place, err := tables.InsolationOf(f.Text("place"), "horizontal")
		if err != nil {
			err = &working.InputError{Field: "place", Got: fmt.Sprintf("%q", f.Text("place")), Want: "a place of go run ./examples/tablebook insolation"}
		}
		f.Refuse(err)
		return sky{name: place.Place, latitudeDeg: place.LatitudeDeg, place: &place}
	}
	if f.Given("place") {
		f.Refuse(&working.InputError{Field: "latitude", Got: f.Text("latitude"), Want: "place or latitude, not both"})
	}
	f.Unset("place")
	s := sky{latitudeDeg: f.Number("latitude", form.Between(-90, 90)), sunshine: f.Number("sunshine_percent", form.Between(0, 100))}
	s.name = "latitude " + s.latitudeDeg.String() + "°"
	return s
}
