package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/charge"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// read turns the flags into a plan.
func read(f *form) plan {
	above, between := working.Above, working.Between
	p := plan{
		days:         f.whole("days", 1, 366),
		converterA:   f.number("converter-a", between, 0, 10_000),
		stageV:       f.number("stage-v", above, 0, 100),
		startPercent: f.number("start-percent", between, 0, 100), limitPercent: f.number("limit-percent", between, 0, 100),
		cutOut: f.optional("cut-out-percent", 0, 100), resume: f.optional("resume-percent", 0, 100),
	}
	if f.text("month") != "" {
		p.month = f.whole("month", 1, 12)
	}
	if len(f.faults) == 0 && p.startPercent.LessThan(p.limitPercent) {
		f.refuse(&working.InputError{Field: "start-percent", Got: p.startPercent.String(), Want: "at least limit-percent, " + p.limitPercent.String()})
	}
	p.mains, p.loads = f.spells("mains"), f.spells("loads")
	f.readDriving(&p)
	cells := f.whole("cells", 1, 16)
	moduleW := f.number("module-w", between, 0, 100_000)
	capacityAh, batteryC := f.number("capacity-ah", above, 0, 100_000), f.number("battery-c", between, -60, 100)
	milliohm, limitA := f.number("internal-milliohm", above, 0, 10_000), f.optional("charge-limit-a", 0, 100_000)
	sky := f.sky()
	if len(f.faults) > 0 {
		return p
	}
	var err error
	p.battery, err = bank(cells)
	f.refuse(err)
	p.battery.CapacityAh, p.battery.BatteryC, p.battery.InternalMilliohm, p.battery.ChargeA = capacityAh, batteryC, milliohm, limitA
	p.sun, err = sky.sun(moduleW)
	f.refuse(err)
	return p
}

// readDriving reads when the drives begin and how long they last together.
func (f *form) readDriving(p *plan) {
	for _, text := range strings.Split(f.text("drives"), ",") {
		h, err := plain("drives", strings.TrimSpace(text))
		if err == nil {
			err = working.Between("drives", h, 0, 23)
		}
		f.refuse(err)
		p.drives = append(p.drives, minutes(h))
	}
	slices.Sort(p.drives)
	f.refuse(working.Between("drives", decimal.NewFromInt(int64(len(p.drives))), 1, 16))
	var err error
	p.driveDays, err = weekdays("drive-days", f.text("drive-days"))
	f.refuse(err)
	driving := f.number("driving-h", working.Between, 0, 24)
	p.drivingMin = minutes(driving)
	if len(f.faults) == 0 && p.drivingMin > p.mostDriving() {
		f.refuse(&working.InputError{Field: "driving-h", Got: driving.String(), Want: "at most " + clock(p.mostDriving()) + ", or one drive runs into the next"})
	}
}

// minutes turns hours into whole minutes; what is left over does not count.
func minutes(hours decimal.Decimal) int {
	return int(hours.Mul(decimal.NewFromInt(60)).IntPart())
}

// spells reads a list of "NAME A FROM-TO DAYS".
func (f *form) spells(name string) []charge.Spell {
	var all []charge.Spell
	for _, text := range strings.Split(f.text(name), ";") {
		if strings.TrimSpace(text) == "" {
			continue
		}
		s, err := spell(name, text)
		f.refuse(err)
		all = append(all, s)
	}
	f.refuse(working.Between(name, decimal.NewFromInt(int64(len(all))), 0, 16))
	return all
}

func spell(field, text string) (charge.Spell, error) {
	words := strings.Fields(text)
	if len(words) < 3 || len(words) > 4 || len(words[0]) > 12 {
		return charge.Spell{}, &working.InputError{Field: field, Got: fmt.Sprintf("%q", strings.TrimSpace(text)), Want: `a name of up to 12 letters, amperes and hours, such as "lamps 2 17-22", and days if not all`}
	}
	s := charge.Spell{Name: words[0]}
	from, to, _ := strings.Cut(words[2], "-")
	var errs [4]error
	s.CurrentA, errs[0] = plain(field, words[1])
	s.FromH, errs[1] = plain(field, from)
	s.ToH, errs[2] = plain(field, to)
	if len(words) == 4 {
		s.Weekdays, errs[3] = weekdays(field, words[3])
	}
	if err := errors.Join(errs[:]...); err != nil {
		return s, err
	}
	return s, errors.Join(working.Between(field, s.CurrentA, 0, 10_000), inDay(field, words[2], s))
}

// inDay checks that a spell lasts a minute at least and ends with its day.
func inDay(field, got string, s charge.Spell) error {
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

// sky reads where the van stands.
func (f *form) sky() sky {
	if f.text("latitude") == "" {
		if f.given("sunshine-percent") {
			f.refuse(&working.InputError{Field: "sunshine-percent", Got: f.text("sunshine-percent"), Want: "latitude with it: a place has its own sun"})
		}
		place, err := tables.InsolationOf(f.text("place"), "horizontal")
		if err != nil {
			err = &working.InputError{Field: "place", Got: fmt.Sprintf("%q", f.text("place")), Want: "a place of go run ./examples/tablebook insolation"}
		}
		f.refuse(err)
		return sky{name: place.Place, latitudeDeg: place.LatitudeDeg, place: &place}
	}
	if f.given("place") {
		f.refuse(&working.InputError{Field: "latitude", Got: f.text("latitude"), Want: "place or latitude, not both"})
	}
	f.Lookup("place").Value.Set("") // as the sample does not count
	s := sky{latitudeDeg: f.number("latitude", working.Between, -90, 90), sunshine: f.number("sunshine-percent", working.Between, 0, 100)}
	s.name = "latitude " + s.latitudeDeg.String() + "°"
	return s
}
