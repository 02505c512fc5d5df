package job

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"sync"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// links judges what single keys cannot show: names that point to something,
// keys that need each other, and numbers that must fit together. A rule whose
// keys are faulty already stays silent.
type links struct{ *walker }

func (l links) check() {
	batteries, sources := l.roll("batteries"), l.roll("alternators", "chargers", "solar")
	inverters, loads, circuits := l.roll("inverters"), l.roll("loads"), l.roll("circuits")
	articles := l.roll("batteries", "alternators", "chargers", "solar", "inverters")
	for i, b := range l.job.Batteries {
		l.battery(b, fmt.Sprintf("batteries[%d]", i))
	}
	l.oneBank()
	l.shortCircuit()
	for i, a := range l.job.Alternators {
		l.alternator(a, fmt.Sprintf("alternators[%d]", i))
	}
	for i, c := range l.job.Chargers {
		l.charger(c, fmt.Sprintf("chargers[%d]", i))
	}
	for i, x := range l.job.Solar {
		l.equalising(x.EqualiseV, x.OutputV, fmt.Sprintf("solar[%d]", i))
	}
	for i, v := range l.job.Inverters {
		l.inverter(v, fmt.Sprintf("inverters[%d]", i))
	}
	for i, d := range l.job.Loads {
		l.load(d, fmt.Sprintf("loads[%d]", i), inverters)
		l.starter(d, fmt.Sprintf("loads[%d]", i))
	}
	for i, c := range l.job.Circuits {
		path := fmt.Sprintf("circuits[%d]", i)
		l.circuit(c, path)
		l.backUp(c.Device, under(path, "device"), c.Name, circuits)
		l.backUp(c.FarDevice, under(path, "far_device"), c.Name, circuits)
	}
	for i, s := range l.job.States {
		path := fmt.Sprintf("states[%d]", i)
		l.noBattery(s.Sources, under(path, "sources"), batteries)
		l.turns(s, path, l.roll("alternators"))
		l.listed(s.Sources, under(path, "sources"), "an alternator, charger or solar array", sources)
		l.listed(s.Loads, under(path, "loads"), "a load", loads)
		l.noStarter(s.Loads, under(path, "loads"))
	}
	l.known()
	l.day()
	l.unlisted()
	l.outside()
	l.spaces(articles)
	l.bay(l.roll("batteries", "chargers", "solar", "inverters"))
	l.weights()
	l.contradictions()
	l.uniqueNames(articles)
	l.nodes(articles)
	for _, list := range []string{"loads", "circuits", "states", "spaces"} {
		l.uniqueNames(l.roll(list))
	}
}

// use is a place in the file where a name stands.
type use struct{ name, path string }

// roll is every name of some lists. It is not whole where one cannot be used:
// nothing can then be said to be missing from it.
type roll struct {
	uses  []use
	names []string
	has   map[string]bool
	whole bool
}

// roll calls the names of some lists of the file.
func (l links) roll(lists ...string) roll {
	r := roll{has: map[string]bool{}, whole: true}
	for _, list := range lists {
		k, _ := find(keysOf(reflect.TypeFor[Job]()), list)
		entries := reflect.ValueOf(*l.job).FieldByIndex(k.field)
		r.whole = r.whole && !l.bad[list]
		for i := range entries.Len() {
			path := fmt.Sprintf("%s[%d].name", list, i)
			if !l.good("", path) {
				r.whole = false
				continue
			}
			name := entries.Index(i).FieldByName("Name").String()
			r.uses, r.names, r.has[name] = append(r.uses, use{name, path}), append(r.names, name), true
		}
	}
	return r
}

// given reports whether every key stands in the file, usable or not.
func (l links) given(path string, keys ...string) bool {
	return !slices.ContainsFunc(keys, func(k string) bool {
		_, ok := l.survey.at[under(path, k)]
		return !ok && !l.bad[under(path, k)]
	})
}

// good reports whether every key stands in the file and can be used.
func (l links) good(path string, keys ...string) bool {
	return l.given(path, keys...) && !slices.ContainsFunc(keys, func(k string) bool { return l.bad[under(path, k)] })
}

// uniqueNames wants every name of a roll once.
func (l links) uniqueNames(r roll) {
	first := map[string]string{} // name to path
	for _, u := range r.uses {
		if earlier, taken := first[u.name]; taken {
			where := earlier
			if line := l.survey.at[earlier].Line; line > 0 {
				where += fmt.Sprintf(" on line %d", line)
			}
			l.fault(u.path, "a name of its own; "+where+" has it")
			continue
		}
		first[u.name] = u.path
	}
}

func (l links) battery(b Battery, path string) {
	if l.good(path, "empty_v", "full_v") && !b.EmptyV.LessThan(b.FullV) {
		l.fault(under(path, "empty_v"), "less than full_v, which is "+b.FullV.String())
	}
	if l.good(path, "low_milliohm", "high_milliohm") && b.LowMilliohm.Decimal.GreaterThan(b.HighMilliohm.Decimal) {
		l.fault(under(path, "low_milliohm"), "at most high_milliohm, which is "+b.HighMilliohm.Decimal.String())
	}
	l.ratings(b, path)
	if l.good(path, "nominal_v", "chemistry") && l.good("", "system_v") && !wholeString(b, l.job.SystemV) {
		l.fault(under(path, "nominal_v"), "that of the whole string, system_v "+l.job.SystemV.String()+": blocks in series are one battery here")
	}
	l.restsAt(b, path)
	l.chargedTo(b, path)
	l.guards(b, path)
	l.chargedNoHigher(b, path)
}

// restsAt wants a full lead-acid battery to rest at what such cells rest at: the law of
// its charge counts them.
func (l links) restsAt(b Battery, path string) {
	if !l.good(path, "nominal_v", "chemistry", "full_v") || !b.Chemistry.Is(tables.LeadAcid) {
		return
	}
	least, most := b.NominalV.Mul(decimal.New(95, -2)), b.NominalV.Mul(decimal.New(115, -2)) // 1.9 and 2.3 V of 2 V
	if b.FullV.LessThan(least) || b.FullV.GreaterThan(most) {
		l.fault(under(path, "full_v"), least.String()+" to "+most.String()+", 1.9 to 2.3 V for each lead-acid cell")
	}
}

// chargedTo wants what the management unit does under charge above what the
// battery may be charged with.
func (l links) chargedTo(b Battery, path string) {
	for _, pair := range []struct {
		key, most         string
		value, mostAmount decimal.NullDecimal
	}{
		{"charge_least_v", "charge_most_v", b.ChargeLeastV, b.ChargeMostV},
		{"charge_most_v", "charge_cut_out_v", b.ChargeMostV, b.ChargeCutOutV},
		{"cut_out_v", "charge_cut_out_v", b.CutOutV, b.ChargeCutOutV},
		{"max_charge_a", "charge_cut_out_a", b.MaxChargeA, b.ChargeCutOutA},
	} {
		if l.good(path, pair.key, pair.most) && pair.value.Decimal.GreaterThan(pair.mostAmount.Decimal) {
			l.fault(under(path, pair.key), "at most "+pair.most+", which is "+pair.mostAmount.Decimal.String())
		}
	}
}

// mostCharged is how far above its nominal voltage a management unit may let a
// battery come: a third, beyond which no cell is whole (common practice: 3.65 V of
// 3.2 V for lithium iron phosphate, 2.67 V of 2 V while lead-acid equalises).
var mostCharged = ofSizing("charge_cut_out_over_nominal")

// leastLeft is how far below its nominal voltage a cut-out may let a battery fall:
// below that no cell is whole (common practice: 2 V of 3.2 V for lithium iron
// phosphate).
var leastLeft = ofSizing("cut_out_over_nominal")

// ofSizing is a figure that the tables are known to hold.
func ofSizing(parameter string) func() decimal.Decimal {
	return sync.OnceValue(func() decimal.Decimal {
		f, err := tables.SizingFigure(parameter)
		if err != nil {
			panic(err) // a library without it is broken
		}
		return f.Value
	})
}

// guards refuses a limit of the management unit so high, or a cut-out so low, that
// it guards nothing.
func (l links) guards(b Battery, path string) {
	if least := leastLeft().Mul(b.NominalV); l.good(path, "cut_out_v", "nominal_v") && b.CutOutV.Decimal.LessThan(least) {
		l.fault(under(path, "cut_out_v"), "at least "+least.String()+": so far below nominal_v, which is "+b.NominalV.String()+", it guards no cell")
	}
	if most := mostCharged().Mul(b.NominalV); l.good(path, "charge_cut_out_v", "nominal_v") && b.ChargeCutOutV.Decimal.GreaterThan(most) {
		l.fault(under(path, "charge_cut_out_v"), "at most "+most.String()+": a third above nominal_v guards no cell")
	}
}

// chargedNoHigher refuses a charging voltage of a data sheet that no cell of the
// chemistry is charged with in any stage.
func (l links) chargedNoHigher(b Battery, path string) {
	cell, err := tables.GreatestCellVoltage(b.Chemistry)
	if err != nil || !l.good(path, "chemistry", "nominal_v", "charge_most_v") {
		return
	}
	cells := b.NominalV.DivRound(decimal.NewFromInt(2), 0)
	if b.Chemistry.Is(tables.LiFePO4) {
		cells = b.NominalV.DivRound(decimal.New(32, -1), 0)
	}
	if most := cell.Value.Mul(cells).Mul(chargedOver()); b.ChargeMostV.Decimal.GreaterThan(most) {
		l.fault(under(path, "charge_most_v"), fmt.Sprintf("at most %s: %s cells of %s, of which none is charged higher than %s V in any stage", most, cells, b.Chemistry, cell.Value))
	}
}

// chargedOver is how far above what the tables list a data sheet may go.
var chargedOver = ofSizing("charge_over_listed")

// equalising wants the voltage for equalising above the ordinary one.
func (l links) equalising(equalise decimal.NullDecimal, outputV decimal.Decimal, path string) {
	if l.good(path, "equalise_v", "output_v") && equalise.Decimal.LessThan(outputV) {
		l.fault(under(path, "equalise_v"), "at least output_v, which is "+outputV.String())
	}
}

// ratings wants a second rating whole, and faster than the first.
func (l links) ratings(b Battery, path string) {
	l.pair(path, "fast_ah", "fast_h")
	if !l.good(path, "capacity_ah", "rated_h", "fast_ah", "fast_h") {
		return
	}
	ah, h := b.FastAh.Decimal, b.FastH.Decimal
	switch {
	case !h.LessThan(b.RatedH):
		l.fault(under(path, "fast_h"), "less than rated_h, which is "+b.RatedH.String())
	case ah.GreaterThan(b.CapacityAh):
		l.fault(under(path, "fast_ah"), "at most capacity_ah, which is "+b.CapacityAh.String())
	case !ah.Mul(b.RatedH).GreaterThan(b.CapacityAh.Mul(h)):
		l.fault(under(path, "fast_ah"), "a greater current in fast_h, "+h.String()+" h, than capacity_ah in rated_h")
	}
}

// oneBank wants a house bank, and the batteries of each bank of one chemistry and
// one voltage: unlike ones, side by side, are never all charged as each asks.
func (l links) oneBank() {
	house := !l.good("", "batteries")
	bank := l.parallel()
	first := map[int]Battery{}
	for i, b := range l.job.Batteries {
		path := fmt.Sprintf("batteries[%d]", i)
		house = house || !l.good(path, "bank") || b.Bank == "house"
		if bank[i] < 0 || !l.good(path, "chemistry", "nominal_v") {
			continue
		}
		other, met := first[bank[i]]
		switch {
		case !met:
			first[bank[i]] = b
		case b.Chemistry != other.Chemistry:
			l.fault(under(path, "chemistry"), "that of the whole "+other.Bank+" bank, "+string(other.Chemistry))
		case !b.NominalV.Equal(other.NominalV):
			l.fault(under(path, "nominal_v"), "that of the whole "+other.Bank+" bank, "+other.NominalV.String())
		}
	}
	if !house {
		l.faultGot("batteries", "a list without a house battery", "one at least with bank: house")
	}
}

// parallel numbers the bank of each battery; -1 where it cannot be told. Those of
// the house are one bank by name, and whatever they are called those that stand
// side by side are one.
func (l links) parallel() []int {
	beside, whole := l.closed()
	bank := make([]int, len(l.job.Batteries))
	for i, b := range l.job.Batteries {
		bank[i] = -1
		if !l.good(fmt.Sprintf("batteries[%d]", i), "bank") {
			continue
		}
		bank[i] = i
		reached := map[string]bool{}
		if whole {
			reach(b.Name, beside, reached)
		}
		for k, other := range l.job.Batteries[:i] {
			if b.Bank == "house" && other.Bank == "house" || reached[other.Name] && other.Name != b.Name {
				merge(bank, bank[k], bank[i])
			}
		}
	}
	return bank
}

// merge makes one bank of two; of one that cannot be told it makes none.
func merge(bank []int, into, from int) {
	for i, b := range bank {
		if b == from && into >= 0 {
			bank[i] = into
		}
	}
}

// closed are the nodes to which circuits lead from each while every link between
// banks is open.
func (l links) closed() (beside map[string][]string, whole bool) {
	ends, whole := l.circuitEnds()
	if taps, known := l.taps(); whole && known && l.roll("batteries").whole {
		return neighbours(slices.Concat(l.kept(ends, func(i int) bool { return !l.link(i, ends, taps) })...)), true
	}
	return nil, false
}

// kept are the ends of those circuits that are asked for, one pair for each.
func (l links) kept(ends []use, ask func(i int) bool) (all [][]use) {
	for i := range l.job.Circuits {
		if ask(i) {
			all = append(all, ends[2*i:2*i+2])
		}
	}
	return all
}

// link reports whether the switch of a circuit may link banks: open, it leaves each
// battery of the house something to feed. What does not is the battery's own switch.
func (l links) link(circuit int, ends, taps []use) bool {
	if l.job.Circuits[circuit].Switch == nil {
		return false
	}
	place := [2]string{ends[2*circuit].name, ends[2*circuit+1].name}
	open := neighbours(slices.Concat(l.kept(ends, func(i int) bool {
		from, to := ends[2*i].name, ends[2*i+1].name
		return [2]string{from, to} != place && [2]string{to, from} != place
	})...))
	return !slices.ContainsFunc(l.job.Batteries, func(b Battery) bool {
		reached := map[string]bool{}
		reach(b.Name, open, reached)
		return b.Bank == "house" && !slices.ContainsFunc(taps, func(t use) bool { return reached[t.name] }) &&
			!slices.ContainsFunc(l.job.Inverters, func(v Inverter) bool { return reached[v.Name] })
	})
}

// mostShortA is the greatest short-circuit current of all batteries together. A
// hundred times that of the largest banks, it only refuses a slip of the pen.
const mostShortA = 900_000

// shortCircuit refuses resistances so low that no device could be judged by the
// fault current.
func (l links) shortCircuit() {
	all := decimal.Zero
	for i, b := range l.job.Batteries {
		path := fmt.Sprintf("batteries[%d]", i)
		if !l.good(path, "full_v", "low_milliohm") {
			continue
		}
		all = all.Add(b.FullV.Shift(3).DivRound(b.LowMilliohm.Decimal, 0))
		if all.GreaterThan(decimal.NewFromInt(mostShortA)) {
			l.fault(under(path, "low_milliohm"), fmt.Sprintf("so much that all batteries together give no more than %d A into a short circuit, not %s A", mostShortA, all))
			return
		}
	}
}

// wholeString reports whether a battery has the voltage of the system: blocks in
// series are one battery here. Lithium iron phosphate is marked 3.2 V a cell,
// four cells for each 12 V (common practice): 12.8 V and 25.6 V stand for 12 V
// and 24 V.
func wholeString(b Battery, systemV decimal.Decimal) bool {
	marked := systemV.Mul(decimal.RequireFromString("12.8")) // × 12
	return b.NominalV.Equal(systemV) || b.Chemistry.Is(tables.LiFePO4) && marked.Equal(b.NominalV.Mul(decimal.NewFromInt(12)))
}

// alternator wants the lowest voltage where the vehicle varies it: a converter's
// trigger and input are judged there.
func (l links) alternator(a Alternator, path string) {
	if l.good(path, "variable") && a.Variable {
		l.needs(path, "variable is true", "least_v")
	}
	if l.good(path, "self_limiting") && a.SelfLimiting {
		l.without(path, "self_limiting is true", "short_a")
	}
	l.atLeast(path, "short_a", a.ShortA, "rated_a", decimal.NewNullDecimal(a.RatedA), "")
	if l.good(path, "least_v", "runs_at_v") && a.LeastV.Decimal.GreaterThan(a.RunsAtV) {
		l.fault(under(path, "least_v"), "at most runs_at_v, which is "+a.RunsAtV.String())
	}
}

// charger wants of a converter what decides whether it charges at all, and of
// a mains charger none of that.
func (l links) charger(c Charger, path string) {
	l.equalising(c.EqualiseV, c.OutputV, path)
	if !l.good(path, "kind") {
		return
	}
	if c.Kind == "mains" {
		l.without(path, "kind is mains", "fed_at", "lead", "least_input_v", "wakes_by", "wake_v", "sleep_v", "survives_v")
		return
	}
	l.needs(path, "kind is converter", "fed_at", "least_input_v", "wakes_by")
	if l.good(path, "wakes_by") && c.WakesBy == "voltage" {
		l.needs(path, "wakes_by is voltage", "wake_v", "sleep_v")
	}
	if l.good(path, "wake_v", "sleep_v") && !c.SleepV.Decimal.LessThan(c.WakeV.Decimal) {
		l.fault(under(path, "sleep_v"), "less than wake_v, which is "+c.WakeV.Decimal.String())
	}
}

// needs wants keys that are optional in general.
func (l links) needs(path, where string, keys ...string) {
	for _, name := range keys {
		if !l.given(path, name) {
			l.faultMissing(path, name, "it where "+where)
		}
	}
}

// without wants keys left out that mean nothing here.
func (l links) without(path, where string, keys ...string) {
	for _, name := range keys {
		if l.good(path, name) {
			l.fault(under(path, name), "it left out where "+where)
		}
	}
}

// pair wants both of two keys that say nothing without each other, or neither.
func (l links) pair(path, a, b string) {
	l.wants(path, a, b)
	l.wants(path, b, a)
}

// wants wants a second key where the first is given.
func (l links) wants(path, first, second string) {
	if l.given(path, first) {
		l.needs(path, first+" is given", second)
	}
}

// worksBetween wants the ends of a range of supply voltage in order.
func (l links) worksBetween(from, to decimal.NullDecimal, path string) {
	if l.good(path, "works_from_v", "works_to_v") && !from.Decimal.LessThan(to.Decimal) {
		l.fault(under(path, "works_from_v"), "less than works_to_v, which is "+to.Decimal.String())
	}
}

func (l links) inverter(v Inverter, path string) {
	l.worksBetween(v.WorksFromV, v.WorksToV, path)
	l.wants(path, "precharge_ohm", "input_uf")
	l.atLeast(path, "surge_w", decimal.NewNullDecimal(v.SurgeW), "rated_w", decimal.NewNullDecimal(v.RatedW), "")
}

func (l links) load(d Load, path string, inverters roll) {
	l.exactlyOne(path, "at", "inverter")
	l.exactlyOne(path, "power_w", "current_a")
	l.wants(path, "surge_s", "surge_w")
	l.wants(path, "stall_s", "stall_a")
	l.worksBetween(d.WorksFromV, d.WorksToV, path)
	l.sheds(d, path)
	l.surge(d, path)
	l.neverStops(d, path)
	if l.given(path, "inverter") {
		l.without(path, "an inverter feeds it", "lead", "sheds_v", "works_from_v", "works_to_v", "supply_code", "survives_v", "survives_reversed_v", "survives_jump_v", "stall_a", "stall_s")
	}
	if inverters.whole && l.good(path, "inverter") && !inverters.has[d.Inverter] {
		l.fault(under(path, "inverter"), "the name of an inverter"+l.orNearest(d.Inverter, inverters.names))
	}
}

// sheds refuses a device that takes a load off even a full battery at rest.
func (l links) sheds(d Load, path string) {
	full := decimal.Zero
	for i, b := range l.job.Batteries {
		if !l.good(fmt.Sprintf("batteries[%d]", i), "full_v") {
			return
		}
		full = decimal.Max(full, b.FullV)
	}
	if l.good(path, "sheds_v") && d.ShedsV.Decimal.GreaterThanOrEqual(full) && full.IsPositive() {
		l.fault(under(path, "sheds_v"), "less than full_v of the batteries, which is "+full.String()+": else it is never on at rest")
	}
}

// starter wants a cable of its own at an engine's starter: that alone may go
// without a device. Its start is its use.
func (l links) starter(d Load, path string) {
	if !l.good(path, "cranking") || !d.Cranking {
		return
	}
	l.without(path, "cranking is true", "inverter", "longest_run_s", "surge_w", "surge_s", "sheds_v")
	whole := !l.bad["circuits"]
	for i := range l.job.Circuits {
		circuit := fmt.Sprintf("circuits[%d]", i)
		whole = whole && l.good(circuit, "from", "to") && !l.bad[under(circuit, "cranking")]
	}
	if whole && l.good(path, "at") && !slices.ContainsFunc(l.job.Circuits, func(c Circuit) bool { return c.Cranking && (c.From == d.At || c.To == d.At) }) {
		l.fault(under(path, "at"), "a node at which a circuit with cranking: true ends")
	}
}

// noStarter refuses an engine's starter among the loads of a state: it lasts for
// seconds, and no drop of its cable is judged.
func (l links) noStarter(entries []string, path string) {
	for i, name := range entries {
		starts := slices.ContainsFunc(l.job.Loads, func(d Load) bool { return d.Cranking && d.Name == name })
		if entry := fmt.Sprintf("%s[%d]", path, i); starts && l.good("", entry) {
			l.fault(entry, "it left out: a load with cranking: true is in no state")
		}
	}
}

// weights wants the limits of the front axle in order.
func (l links) weights() {
	if l.good("weights", "front_least_kg", "front_limit_kg") && l.job.Weights.FrontLeastKg.Decimal.GreaterThan(l.job.Weights.FrontMostKg) {
		l.fault(under("weights", "front_least_kg"), "at most front_limit_kg, which is "+l.job.Weights.FrontMostKg.String())
	}
}

// outside wants the air over the roof no warmer than where the batteries stand.
func (l links) outside() {
	if l.good("", "outside_coldest_c", "coldest_c") && l.job.OutsideC.Decimal.GreaterThan(l.job.ColdestC) {
		l.fault("outside_coldest_c", "at most coldest_c, which is "+l.job.ColdestC.String())
	}
}

// bay wants what stands in it to be an article of the file, once. The house bank is
// there without being named.
func (l links) bay(articles roll) {
	if l.job.Bay != nil {
		l.listed(l.job.Bay.Holds, "bay.holds", "a battery, charger, solar array or inverter", articles)
	}
}

// exactlyOne wants one of two keys.
func (l links) exactlyOne(path, a, b string) {
	switch {
	case l.given(path, a, b):
		if l.good(path, a, b) {
			l.fault(under(path, b), "either "+a+" or "+b+", not both")
		}
	case !l.given(path, a) && !l.given(path, b):
		l.faultMissing(path, a, a+" or "+b)
	}
}

func (l links) circuit(c Circuit, path string) {
	if l.good(path, "from", "to") && c.From == c.To {
		l.fault(under(path, "to"), "a node other than from")
	}
	if l.good(path, "insulation", "insulation_c") && !strings.HasSuffix(c.Insulation, " "+c.InsulationC.String()+" C") {
		l.fault(under(path, "insulation_c"), "the temperature of insulation, which is "+c.Insulation)
	}
	l.device(c.Device, under(path, "device"))
	l.device(c.FarDevice, under(path, "far_device"))
	l.along(c, c.Device, path, "device")
	l.along(c, c.FarDevice, path, "far_device")
	l.cables(c, path)
	l.contact(c, under(path, "switch"))
	l.returns(c, path)
	l.inBay(c, path)
}

// inBay wants a length in the bay to be part of the run.
func (l links) inBay(c Circuit, path string) {
	if l.good(path, "length_m", "in_bay_m") && c.InBayM.Decimal.GreaterThan(c.LengthM) {
		l.fault(under(path, "in_bay_m"), "at most the length of the run, which is "+c.LengthM.String()+" m")
	}
}

// along wants a device to stand in its run.
func (l links) along(c Circuit, d *Device, path, end string) {
	if l.good(path, "length_m") && l.good(under(path, end), "along_mm") && d.AlongMM.GreaterThan(c.LengthM.Shift(3)) {
		l.fault(under(under(path, end), "along_mm"), "at most the length of the run, which is "+c.LengthM.String()+" m")
	}
}

// device wants a current with what it holds for, volts or seconds, and a curve
// that does not hold longer than it opens.
func (l links) device(d *Device, path string) {
	l.pair(path, "breaks_a", "breaks_at_v")
	l.pair(path, "holds_a", "holds_s")
	l.pair(path, "opens_a", "opens_by_s")
	l.wants(path, "backed_up_a", "backed_up_at_v")
	l.wants(path, "backed_up_a", "backed_up_by")
	l.wants(path, "backed_up_at_v", "backed_up_a")
	l.wants(path, "backed_up_by", "backed_up_a")
	if l.good(path, "holds_a", "holds_s", "opens_a", "opens_by_s") &&
		d.HoldsA.Decimal.GreaterThanOrEqual(d.OpensA.Decimal) && d.HoldsS.Decimal.GreaterThan(d.OpensByS.Decimal) {
		l.fault(under(path, "holds_s"), "at most opens_by_s, which is "+d.OpensByS.Decimal.String()+": it has opened by then at opens_a")
	}
	if l.good(path, "rating_a", "opens_a") && d.OpensA.Decimal.LessThanOrEqual(d.RatingA) {
		l.fault(under(path, "opens_a"), "more than rating_a, which is "+d.RatingA.String()+": it carries that without end")
	}
	if l.good(path, "family", "rating_a", "opens_a", "opens_by_s") {
		l.opensTooSoon(d, path)
	}
	if l.good(path, "pre_arcing_a2s", "total_a2s") && d.TotalA2S.Decimal.LessThan(d.PreArcingA2S.Decimal) {
		l.fault(under(path, "total_a2s"), "at least pre_arcing_a2s, which is "+d.PreArcingA2S.Decimal.String()+": the arc adds to it")
	}
}

// opensTooSoon refuses a device that opens sooner than its standard lets it: one
// that must carry a current for a time carries less for as long.
func (l links) opensTooSoon(d *Device, path string) {
	gates, _ := tables.Gates(d.Family, d.RatingA) // of what is not listed nothing is known
	for _, g := range slices.Backward(gates) {
		if g.LeastS.Valid && d.OpensByS.Decimal.LessThan(g.LeastS.Decimal) && d.OpensA.Decimal.LessThanOrEqual(g.Current.Value) {
			l.fault(under(path, "opens_by_s"), fmt.Sprintf("at least %s: %s carries %s A for that long", g.LeastS.Decimal, d.Family, g.Current.Value))
			return
		}
	}
}

// backUp wants the name of another circuit that has a device.
func (l links) backUp(d *Device, path, own string, circuits roll) {
	if d == nil || !circuits.whole || !l.good(path, "backed_up_by") {
		return
	}
	at := under(path, "backed_up_by")
	i := slices.IndexFunc(l.job.Circuits, func(c Circuit) bool { return c.Name == d.BackedUpBy })
	switch {
	case i < 0:
		l.fault(at, "the name of a circuit"+l.orNearest(d.BackedUpBy, circuits.names))
	case d.BackedUpBy == own:
		l.fault(at, "another circuit than its own")
	case l.job.Circuits[i].Device == nil && l.job.Circuits[i].FarDevice == nil:
		l.fault(at, "a circuit that has a device")
	}
}

// cables wants each of several cables counted among those that lie together.
func (l links) cables(c Circuit, path string) {
	if l.good(path, "grouped") && l.good(under(path, "cables"), "count") && c.Grouped.LessThan(c.Cables.Count) {
		l.fault(under(path, "grouped"), "at least cables.count, which is "+c.Cables.Count.String()+": each of them counts")
	}
}

// contact wants of a switch what its kind is judged by.
func (l links) contact(c Circuit, path string) {
	switch {
	case !l.good(path, "kind"):
	case c.Switch.Kind == "isolator":
		l.without(path, "kind is isolator", "load", "makes_a")
	default:
		l.needs(path, "kind is "+c.Switch.Kind, "load")
		l.without(path, "kind is "+c.Switch.Kind, "start_a", "reached")
	}
}

// known wants the names that stand in the tables: of the rule set, of places and
// of families of devices.
func (l links) known() {
	if l.good("", "rules") {
		_, err := tables.RuleSetOf(l.job.RuleSet)
		l.wantOf("rules", err)
	}
	for i, s := range l.job.Solar {
		if path := fmt.Sprintf("solar[%d]", i); l.good(path, "place") {
			l.wantOf(under(path, "place"), working.OneOf("place", s.Place, places()...))
		}
	}
	for i, c := range l.job.Circuits {
		path := fmt.Sprintf("circuits[%d]", i)
		for end, d := range map[string]*Device{"device": c.Device, "far_device": c.FarDevice} {
			if d != nil && l.good(under(path, end), "family") {
				_, err := tables.FamilyOf(d.Family)
				l.wantOf(under(under(path, end), "family"), err)
			}
		}
	}
}

// wantOf notes what the tables want in place of a name that they do not have.
func (l links) wantOf(path string, err error) {
	for _, e := range working.Inputs(err) {
		l.fault(path, e.Want)
	}
}

// places lists those with the sun on a level surface.
func places() []string {
	var all []string
	for _, known := range tables.Insolations() {
		if known.Tilt == "horizontal" && !slices.Contains(all, known.Place) {
			all = append(all, known.Place)
		}
	}
	return all
}

// day wants the states to share the hours of one day.
func (l links) day() {
	sum := decimal.Zero
	for i, s := range l.job.States {
		if !l.good(fmt.Sprintf("states[%d]", i), "hours_a_day") {
			return
		}
		sum = sum.Add(s.HoursDay)
	}
	if sum.GreaterThan(decimal.NewFromInt(24)) {
		l.faultGot("states", "of "+sum.String()+" hours a day in all", "no more than 24")
	}
}

// unlisted finds loads that no state lists: no cable would be judged with them.
// An engine's starter belongs in none.
func (l links) unlisted() {
	listed := map[string]bool{}
	for i, s := range l.job.States {
		path := fmt.Sprintf("states[%d]", i)
		if l.bad[path] || l.bad[under(path, "loads")] {
			return
		}
		for k, name := range s.Loads {
			if l.bad[fmt.Sprintf("%s[%d]", under(path, "loads"), k)] {
				return
			}
			listed[name] = true
		}
	}
	for i, d := range l.job.Loads {
		if path := fmt.Sprintf("loads[%d].name", i); len(l.job.States) > 0 && l.good("", path) && !listed[d.Name] && !d.Cranking {
			l.fault(path, "a state that lists it among its loads")
		}
	}
}

// noBattery refuses a battery among the sources of a state.
func (l links) noBattery(entries []string, path string, batteries roll) {
	for i, name := range entries {
		if entry := fmt.Sprintf("%s[%d]", path, i); l.good("", entry) && batteries.has[name] {
			l.fault(entry, "it left out: a battery always runs")
		}
	}
}

// turns wants the engine to run where an alternator is among the sources of a
// state.
func (l links) turns(s State, path string, alternators roll) {
	for i, name := range s.Sources {
		entry := fmt.Sprintf("%s[%d]", under(path, "sources"), i)
		switch {
		case !l.good("", entry) || !alternators.has[name]:
		case !l.given(path, "engine"):
			l.faultMissing(path, "engine", "idle or road where an alternator is among the sources")
			return
		case l.good(path, "engine") && s.Engine == "off":
			l.fault(entry, "it left out where engine is off: it does not turn")
		}
	}
}

// listed wants each entry of a list to be a name of a roll, once.
func (l links) listed(entries []string, path, what string, known roll) {
	seen := map[string]bool{}
	for i, name := range entries {
		entry := fmt.Sprintf("%s[%d]", path, i)
		switch {
		case !l.good("", entry):
		case seen[name]:
			l.fault(entry, "each name once")
		case known.whole && !known.has[name]:
			l.fault(entry, "the name of "+what+l.orNearest(name, known.names))
		}
		seen[name] = true
	}
}
