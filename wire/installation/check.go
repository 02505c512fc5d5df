package installation

import (
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// Ranges, as far as package wire solves networks.
const (
	greatestVolts    = 1000
	greatestMilliohm = 1_000_000
	greatestAmperes  = 10_000
	greatestWatts    = 1_000_000
	greatestOhms     = 1_000_000
	greatestThings   = 4000 // circuits, batteries, sources and loads together
	greatestStates   = 100
)

var (
	leastMilliohm = decimal.RequireFromString("0.001")
	leastOhm      = decimal.RequireFromString("0.000001")
)

// check gathers every fault of the description but those of the cables.
func (in Installation) check() error {
	things := len(in.Circuits) + len(in.Batteries) + len(in.Sources) + len(in.Loads)
	if things > greatestThings || len(in.States) > greatestStates {
		return &working.InputError{Field: "circuits", Got: fmt.Sprintf("%d with batteries, sources and loads, in %d states", things, len(in.States)),
			Want: fmt.Sprintf("at most %d in %d states", greatestThings, greatestStates)}
	}
	if len(in.Batteries)+len(in.Sources) == 0 {
		return &working.InputError{Field: "batteries", Got: "none, and no source", Want: "at least one of them"}
	}
	nodes, live := in.nodeNames()
	return errors.Join(
		each("circuits", in.Circuits, Circuit.check),
		each("batteries", in.Batteries, func(b Battery) error {
			return errors.Join(b.check(), unknown("return", returnOf(b.Return), "node", nodes))
		}),
		each("sources", in.Sources, func(s Source) error {
			return errors.Join(s.check(), s.checkInput(live), unknown("return", returnOf(s.Return), "node", nodes))
		}),
		each("loads", in.Loads, func(l Load) error {
			return errors.Join(l.check(), unknown("node", l.Node, "node", live), unknown("return", returnOf(l.Return), "node", nodes))
		}),
		each("states", in.States, func(s State) error { return in.checkState(s) }),
		in.checkNames(),
	)
}

// each checks every element of a list and puts its place before what it finds.
func each[T any](list string, all []T, check func(T) error) error {
	var faults []error
	for i, one := range all {
		if err := check(one); err != nil {
			faults = append(faults, working.In(fmt.Sprintf("%s[%d]", list, i), err))
		}
	}
	return errors.Join(faults...)
}

// nodeNames lists the nodes that circuits end at, and those of batteries and
// sources; live ones are all but the common return.
func (in Installation) nodeNames() (all, live []string) {
	for _, c := range in.Circuits {
		all = append(all, c.From, c.To)
	}
	for _, b := range in.Batteries {
		all = append(all, b.Name)
	}
	for _, s := range in.Sources {
		all = append(all, s.Name)
	}
	slices.Sort(all)
	live = slices.DeleteFunc(slices.Compact(all), func(n string) bool { return n == wire.CommonReturn })
	return append(slices.Clone(live), wire.CommonReturn), live
}

// names are those of one kind.
type names map[string]bool

// unique refuses an empty name and one that its kind already has.
func (seen names) unique(path, kind, name string) error {
	if name == "" || seen[name] {
		return &working.InputError{Field: path + ".name", Got: fmt.Sprintf("%.60q", name), Want: "a name that no other " + kind + " has"}
	}
	seen[name] = true
	return nil
}

// checkNames wants each name once among its kind; batteries and sources are both
// nodes.
func (in Installation) checkNames() error {
	circuits, feeders, loads, states := names{}, names{wire.CommonReturn: true}, names{}, names{}
	var faults []error
	for i, c := range in.Circuits {
		faults = append(faults, circuits.unique(fmt.Sprintf("circuits[%d]", i), "circuit", c.Name))
	}
	for i, b := range in.Batteries {
		faults = append(faults, feeders.unique(fmt.Sprintf("batteries[%d]", i), "battery or source", b.Name))
	}
	for i, s := range in.Sources {
		faults = append(faults, feeders.unique(fmt.Sprintf("sources[%d]", i), "battery or source", s.Name))
	}
	for i, l := range in.Loads {
		faults = append(faults, loads.unique(fmt.Sprintf("loads[%d]", i), "load", l.Name))
	}
	for i, s := range in.States {
		faults = append(faults, states.unique(fmt.Sprintf("states[%d]", i), "state", s.Name))
	}
	return errors.Join(faults...)
}

// unknown refuses a name that is not among those known, and offers the nearest.
func unknown(field, got, kind string, known []string) error {
	if slices.Contains(known, got) {
		return nil
	}
	want := "the name of a " + kind
	if near, ok := working.Nearest(got, known...); ok {
		want += "; nearest: " + near
	}
	return &working.InputError{Field: field, Got: fmt.Sprintf("%.60q", got), Want: want}
}

func (c Circuit) check() error {
	return errors.Join(
		checkEnds("from_node", c.From, "to_node", c.To),
		working.Between("joints_milliohm", c.JointsMilliohm, 0, 1000),
		optional(c.ReturnMilliohm, func(v decimal.Decimal) error { return working.Between("return_milliohm", v, 0, 1000) }),
		working.Between("parallel_cables", decimal.NewFromInt(int64(c.Cables)), 0, 20),
		working.Between("switch", decimal.NewFromInt(int64(c.Switch)), 0, int64(UsuallyOpen)),
		c.checkBare(),
	)
}

// checkBare wants what has no cable to have a resistance.
func (c Circuit) checkBare() error {
	if len(c.Sections) > 0 {
		return nil
	}
	if !c.ReturnMilliohm.Valid {
		return &working.InputError{Field: "sections", Got: "none", Want: "one at least, or return_milliohm of a frame, a busbar or a switch"}
	}
	return from("return_milliohm", c.ReturnMilliohm.Decimal, leastMilliohm, greatestMilliohm)
}

func (b Battery) check() error {
	return errors.Join(
		checkEnds("name", b.Name, "return", returnOf(b.Return)),
		working.Above("full_v", b.FullV, 0, greatestVolts),
		working.Above("empty_v", b.EmptyV, 0, greatestVolts),
		working.Above("least_rested_v", b.LeastV, 0, greatestVolts),
		from("low_milliohm", b.LowMilliohm, leastMilliohm, greatestMilliohm),
		from("high_milliohm", b.HighMilliohm, leastMilliohm, greatestMilliohm),
		order("empty_v", b.EmptyV, "full_v", b.FullV),
		order("least_rested_v", b.LeastV, "full_v", b.FullV),
		order("low_milliohm", b.LowMilliohm, "high_milliohm", b.HighMilliohm),
	)
}

func (s Source) check() error {
	return errors.Join(
		checkEnds("name", s.Name, "return", returnOf(s.Return)),
		working.Above("held_v", s.HeldV, 0, greatestVolts),
		working.Above("limit_a", s.GreatestA, 0, greatestAmperes),
		optional(s.LeastHeldV, func(v decimal.Decimal) error {
			return errors.Join(working.Above("held_least_v", v, 0, greatestVolts), order("held_least_v", v, "held_v", s.HeldV))
		}),
		optional(s.ShortA, func(v decimal.Decimal) error {
			return errors.Join(working.Above("short_a", v, 0, greatestAmperes), s.checkShort(v))
		}),
		optional(s.OwnLoadsA, func(v decimal.Decimal) error { return working.Between("vehicle_a", v, 0, greatestAmperes) }),
		optional(s.InputW, func(v decimal.Decimal) error { return working.Above("rated_input_w", v, 0, greatestWatts) }),
		optional(s.InputA, func(v decimal.Decimal) error { return working.Above("input_a", v, 0, greatestAmperes) }),
	)
}

// checkShort wants no less of a short circuit than of work.
func (s Source) checkShort(shortA decimal.Decimal) error {
	if shortA.GreaterThanOrEqual(s.GreatestA) {
		return nil
	}
	return &working.InputError{Field: "short_a", Got: shortA.String(), Want: "at least limit_a, " + s.GreatestA.String()}
}

// checkInput wants the node of an input and its power, or neither.
func (s Source) checkInput(live []string) error {
	var power error
	switch {
	case s.FedAt == "" && (s.InputW.Valid || s.InputA.Valid):
		return &working.InputError{Field: "fed_at", Got: "empty", Want: "the node of the input whose power or current is stated"}
	case s.FedAt == "":
		return nil
	case !s.InputW.Valid:
		power = &working.InputError{Field: "rated_input_w", Got: "unset", Want: "what the input takes at full output"}
	}
	return errors.Join(power, unknown("fed_at", s.FedAt, "node", live))
}

func (l Load) check() error {
	takes := l.Takes.check()
	if l.Takes.none() && !(l.Cranks && !l.Starts.none()) {
		takes = &working.InputError{Field: "current_a", Got: "unset", Want: oneDemand}
	}
	return errors.Join(
		checkEnds("node", l.Node, "return", returnOf(l.Return)),
		working.In("takes", takes), working.In("starts", l.Starts.check()), working.In("full", l.Full.check()),
		optional(l.EquivalentA, func(v decimal.Decimal) error { return working.Above("equivalent_a", v, 0, greatestAmperes) }),
		optional(l.LeastV, func(v decimal.Decimal) error { return working.Between("lowest_v", v, 1, greatestVolts) }),
	)
}

const oneDemand = "exactly one of current_a, power_w and ohm"

func (d Demand) none() bool { return !d.CurrentA.Valid && !d.PowerW.Valid && !d.Ohm.Valid }

// check wants one way of drawing or none, and names each that is too many.
func (d Demand) check() error {
	var given []string
	for _, one := range []struct {
		key   string
		value decimal.NullDecimal
	}{{"current_a", d.CurrentA}, {"power_w", d.PowerW}, {"ohm", d.Ohm}} {
		if one.value.Valid {
			given = append(given, one.key)
		}
	}
	var faults []error
	if len(given) > 1 {
		for _, key := range given {
			faults = append(faults, &working.InputError{Field: key, Got: "one of several", Want: oneDemand})
		}
	}
	return errors.Join(append(faults,
		optional(d.CurrentA, func(v decimal.Decimal) error { return working.Between("current_a", v, 0, greatestAmperes) }),
		optional(d.PowerW, func(v decimal.Decimal) error { return working.Between("power_w", v, 0, greatestWatts) }),
		optional(d.Ohm, func(v decimal.Decimal) error { return from("ohm", v, leastOhm, greatestOhms) }),
	)...)
}

// checkState wants sources and loads that there are, each once.
func (in Installation) checkState(s State) error {
	var sources, loads []string
	for _, x := range in.Sources {
		sources = append(sources, x.Name)
	}
	for _, x := range in.Loads {
		if !x.Cranks {
			loads = append(loads, x.Name)
		}
	}
	seen := names{}
	faults := []error{each("sources", s.Sources, func(x Supply) error {
		return errors.Join(unknown("source", x.Source, "source", sources), once(seen, "source", x.Source), in.checkSupply(x))
	})}
	seen = names{}
	faults = append(faults, each("loads", s.Loads, func(x LoadUse) error {
		return errors.Join(unknown("load", x.Load, "load that is no starter", loads), once(seen, "load", x.Load), working.In("takes", x.Takes.check()))
	}))
	return errors.Join(faults...)
}

// once refuses what a state lists twice.
func once(seen names, field, name string) error {
	if seen[name] {
		return &working.InputError{Field: field, Got: fmt.Sprintf("%.60q", name), Want: "each once"}
	}
	seen[name] = true
	return nil
}

// checkSupply wants no more of a source than its greatest current.
func (in Installation) checkSupply(x Supply) error {
	i := slices.IndexFunc(in.Sources, func(s Source) bool { return s.Name == x.Source })
	if !x.CurrentA.Valid || i < 0 {
		return nil
	}
	if err := working.Between("current_a", x.CurrentA.Decimal, 0, greatestAmperes); err != nil {
		return err
	}
	return order("current_a", x.CurrentA.Decimal, "limit_a of "+x.Source, in.Sources[i].GreatestA)
}

// optional checks what is stated.
func optional(v decimal.NullDecimal, check func(decimal.Decimal) error) error {
	if !v.Valid {
		return nil
	}
	return check(v.Decimal)
}

// from checks a range whose low end is no whole number.
func from(field string, v, low decimal.Decimal, high int64) error {
	if err := working.Between(field, v, 0, high); err != nil {
		return err
	}
	if v.LessThan(low) {
		return &working.InputError{Field: field, Got: v.String(), Want: fmt.Sprintf("%s to %d", low, high)}
	}
	return nil
}

// order wants one number no higher than another. What is absurd is refused
// elsewhere.
func order(field string, v decimal.Decimal, than string, limit decimal.Decimal) error {
	if working.Between(field, v, 0, greatestMilliohm) != nil || working.Between(than, limit, 0, greatestMilliohm) != nil || v.LessThanOrEqual(limit) {
		return nil
	}
	return &working.InputError{Field: field, Got: v.String(), Want: "at most " + than + ", " + limit.String()}
}

// checkEnds wants two nodes, not one and the same.
func checkEnds(field, node, field2, node2 string) error {
	switch {
	case node == "":
		return &working.InputError{Field: field, Got: "empty", Want: "the name of a node"}
	case node2 == "":
		return &working.InputError{Field: field2, Got: "empty", Want: "the name of a node"}
	case node == node2:
		return &working.InputError{Field: field2, Got: fmt.Sprintf("%.60q", node2), Want: "another node than " + field}
	}
	return nil
}

func returnOf(name string) string {
	if name == "" {
		return wire.CommonReturn
	}
	return name
}
