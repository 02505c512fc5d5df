package job

import (
	"fmt"

	"example.org/extralow/tables"
	"github.com/shopspring/decimal"
)

// contradictions finds statements of which one must be wrong: no installation has
// both.
func (l links) contradictions() {
	l.air()
	for i, s := range l.job.Solar {
		l.module(s, fmt.Sprintf("solar[%d]", i))
		l.switching(s, fmt.Sprintf("solar[%d]", i))
	}
	for i, b := range l.job.Batteries {
		l.heavyEnough(b, fmt.Sprintf("batteries[%d]", i))
		l.asEmpty(b, fmt.Sprintf("batteries[%d]", i))
	}
	l.converters()
	l.rows()
}

// heavyEnough wants no more energy in a battery than so much of its chemistry holds.
func (l links) heavyEnough(b Battery, path string) {
	spans, err := tables.BatteryLimits(b.Chemistry, "specific_energy")
	if err != nil || !l.good(path, "chemistry", "nominal_v", "capacity_ah", "mass_kg") {
		return
	}
	most := spans[0].Greatest.Value.Mul(b.MassKg.Decimal)
	if holds := b.NominalV.Mul(b.CapacityAh); holds.GreaterThan(most) {
		l.fault(under(path, "capacity_ah"), fmt.Sprintf("no more than %s Wh, not %s Wh: %s kg of %s hold no more", most, holds, b.MassKg.Decimal, b.Chemistry))
	}
}

// restsApart is by how many points of charge designs of batteries rest apart at one
// voltage, besides what the tables show.
var restsApart = ofSizing("rests_apart")

// asEmpty wants the rested voltage of a lead-acid battery at its depth of discharge no
// higher than every table has it there. Of a flat curve no voltage tells.
func (l links) asEmpty(b Battery, path string) {
	if !b.Chemistry.Is(tables.LeadAcid) || !l.good(path, "chemistry", "nominal_v", "depth_percent", "empty_v") {
		return
	}
	cells := b.NominalV.DivRound(decimal.NewFromInt(2), 0)
	cell, differ := b.EmptyV.DivRound(cells, 6), tables.RestedSpread(b.Chemistry).Value
	bands, err := tables.ChargeByVoltage(b.Chemistry, cell.Sub(differ), cell.Add(differ))
	if err != nil || len(bands) == 0 {
		return
	}
	least := bands[0].Least.Value
	for _, band := range bands {
		least = decimal.Min(least, band.Least.Value)
	}
	if most := decimal.NewFromInt(100).Add(restsApart()).Sub(least); b.DepthPercent.GreaterThan(most) {
		l.fault(under(path, "depth_percent"), fmt.Sprintf("at most %s: at empty_v, which is %s, such a battery still holds %s %% or more", most, b.EmptyV, least))
	}
}

// rows wants the fixings of the cases no further apart than the bay is wide: the
// further, the less each of them bears.
func (l links) rows() {
	b := l.job.Bay
	if b == nil || !l.good("bay", "rows_mm", "length_mm", "width_mm") {
		return
	}
	if most := decimal.Max(b.LengthMM, b.WidthMM); b.RowsMM.GreaterThan(most) {
		l.fault("bay.rows_mm", "no more than the bay is long, which is "+most.String()+" mm")
	}
}

// figure is a number of the file and the path of its key.
type figure struct {
	path  string
	value decimal.Decimal
}

// atLeast wants a number no lower than another, where both can be read.
func (l links) atLeast(path, key string, value decimal.NullDecimal, other string, least decimal.NullDecimal, why string) {
	if l.good(path, key, other) && value.Valid && least.Valid && value.Decimal.LessThan(least.Decimal) {
		l.fault(under(path, key), "at least "+other+", which is "+least.Decimal.String()+why)
	}
}

// air wants no air that is called the hottest below the coldest in which the
// batteries stand, and no bank warmer than every air that is stated.
func (l links) air() {
	hot, whole := l.hottestAir()
	if !l.good("", "coldest_c") {
		return
	}
	for _, h := range hot {
		if h.value.LessThan(l.job.ColdestC) {
			l.fault(h.path, "at least coldest_c, which is "+l.job.ColdestC.String())
		}
	}
	l.atLeast("", "bank_c", l.job.BankC, "coldest_c", decimal.NewNullDecimal(l.job.ColdestC), ": the bank stands in that air")
	most := l.job.ColdestC
	for _, h := range hot {
		most = decimal.Max(most, h.value)
	}
	if whole && l.good("", "bank_c") && l.job.BankC.Decimal.GreaterThan(most) {
		l.fault("bank_c", "no more than the hottest air of the file: the greatest ambient_c or outside_c, which is "+most.String())
	}
}

// hottestAir gathers every air that the file calls the hottest round something. It
// is not whole where one cannot be read.
func (l links) hottestAir() (all []figure, whole bool) {
	whole = !l.bad["circuits"]
	take := func(path string, value decimal.Decimal) {
		whole = whole && !l.bad[path]
		if l.good("", path) {
			all = append(all, figure{path, value})
		}
	}
	for i, c := range l.job.Circuits {
		path := fmt.Sprintf("circuits[%d]", i)
		take(under(path, "ambient_c"), c.AmbientC)
		for _, d := range []struct {
			end    string
			device *Device
		}{{"device", c.Device}, {"far_device", c.FarDevice}} {
			if d.device != nil {
				take(under(under(path, d.end), "ambient_c"), d.device.AmbientC.Decimal)
			}
		}
	}
	for i, b := range l.job.Batteries {
		if b.HottestC.Valid {
			take(under(fmt.Sprintf("batteries[%d]", i), "hottest_c"), b.HottestC.Decimal)
		}
	}
	if l.job.Bay != nil {
		take("bay.outside_c", l.job.Bay.OutsideC)
	}
	return all, whole
}

// module wants figures of a plate that one module can have: it works below its
// open-circuit voltage, with less than its short-circuit current.
func (l links) module(s Solar, path string) {
	if l.good(path, "open_v", "working_v") && !s.WorkingV.LessThan(s.OpenV) {
		l.fault(under(path, "working_v"), "less than open_v, which is "+s.OpenV.String())
		return
	}
	if l.good(path, "module_w", "working_v", "short_a") && s.ModuleW.GreaterThan(s.WorkingV.Mul(s.ShortA)) {
		l.fault(under(path, "module_w"), "at most working_v × short_a, which is "+s.WorkingV.Mul(s.ShortA).String()+" W: a module gives less than its short-circuit current")
	}
}

// switching wants of a controller that only switches no less than what its array gives:
// that passes through it as it is.
func (l links) switching(s Solar, path string) {
	if !l.good(path, "tracking", "strings", "short_a", "max_a") || s.Tracking {
		return
	}
	if array := s.Strings.Mul(s.ShortA); s.MaxA.LessThan(array) {
		l.fault(under(path, "max_a"), "at least strings × short_a, which is "+array.String()+" A: a controller that only switches passes what the array gives")
	}
}

// neverStops wants no longest run shorter than a day of what runs all day without a
// break.
func (l links) neverStops(d Load, path string) {
	day := decimal.NewFromInt(24)
	always := d.HoursADay.Equal(day) && d.Percent.Equal(decimal.NewFromInt(100))
	if l.good(path, "hours_a_day", "duty_percent", "longest_run_s") && always && d.LongestRunS.Decimal.LessThan(day.Mul(decimal.NewFromInt(3600))) {
		l.fault(under(path, "longest_run_s"), "86400 where it runs for 24 hours a day at 100 percent: it never stops")
	}
}

// surge wants the power or current of a start no lower than that of running.
func (l links) surge(d Load, path string) {
	l.atLeast(path, "surge_w", d.SurgeW, "power_w", d.PowerW, "")
	l.atLeast(path, "stall_a", d.StallA, "current_a", d.CurrentA, "")
	l.atLeast(path, "longest_run_s", d.LongestRunS, "surge_s", d.SurgeS, ": it starts within its run")
	l.atLeast(path, "least_v", d.LeastV, "works_from_v", d.WorksFromV, "")
}

// converters wants the two sides of a converter apart: on one part of the diagram
// it feeds itself. A switch may join them in need.
func (l links) converters() {
	ends, whole := l.circuitEnds()
	if !whole {
		return
	}
	var closed []use
	for i, c := range l.job.Circuits {
		if c.Switch == nil {
			closed = append(closed, ends[2*i], ends[2*i+1])
		}
	}
	beside := neighbours(closed)
	for i, c := range l.job.Chargers {
		path, fed := fmt.Sprintf("chargers[%d]", i), map[string]bool{}
		if !l.good(path, "name", "kind", "fed_at") || c.Kind != "converter" {
			continue
		}
		if reach(c.FedAt, beside, fed); fed[c.Name] {
			l.fault(under(path, "fed_at"), "a node that no cable joins to its output, "+c.Name+": the converter would feed itself")
		}
	}
}
