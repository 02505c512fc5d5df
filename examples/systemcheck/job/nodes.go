package job

import (
	"fmt"
	"maps"
	"slices"
)

// nodes judges the circuit diagram: every node named must be at something, every
// circuit must lead back to a battery, and the house bank must be one. Batteries,
// alternators, chargers and inverters are articles, each a node of its own name.
func (l links) nodes(articles roll) {
	ends, endsWhole := l.circuitEnds()
	taps, tapsWhole := l.taps()
	if !articles.whole || !endsWhole || !tapsWhole {
		return // a name that cannot be read may be the one that is looked for
	}
	if l.strayEnds(articles.uses, ends, taps)+l.strayTaps(articles.uses, ends, taps) > 0 {
		return // names decide what reaches what
	}
	l.unwired(articles.uses, ends, taps)
	if slices.ContainsFunc(articles.uses, func(a use) bool { return l.bad[a.path] }) {
		return // of two articles of one name nobody knows which is meant
	}
	beside := neighbours(ends)
	l.unreached(ends, beside)
	l.houseBank(beside)
}

// circuitEnds returns both ends of every circuit, one behind the other.
func (l links) circuitEnds() (ends []use, whole bool) {
	whole = !l.bad["circuits"]
	for i, c := range l.job.Circuits {
		path := fmt.Sprintf("circuits[%d]", i)
		whole = whole && l.good(path, "from", "to")
		ends = append(ends, use{c.From, under(path, "from")}, use{c.To, under(path, "to")})
	}
	return ends, whole
}

// taps returns the nodes at which loads and the inputs of converters sit.
func (l links) taps() (taps []use, whole bool) {
	whole = !l.bad["loads"] && !l.bad["chargers"]
	tap := func(node, path string) {
		whole = whole && !l.bad[path]
		if l.given("", path) {
			taps = append(taps, use{node, path})
		}
	}
	for i, c := range l.job.Chargers {
		tap(c.FedAt, fmt.Sprintf("chargers[%d].fed_at", i))
	}
	for i, d := range l.job.Loads {
		tap(d.At, fmt.Sprintf("loads[%d].at", i))
	}
	return taps, whole
}

// strayEnds finds the ends of circuits at which nothing else is, and returns
// how many there are.
func (l links) strayEnds(articles, ends, taps []use) (strays int) {
	times := map[string]int{}
	for _, u := range slices.Concat(articles, ends, taps) {
		times[u.name]++
	}
	names := slices.Sorted(maps.Keys(times))
	for _, u := range ends {
		if times[u.name] == 1 {
			l.fault(u.path, "a node at which something else is"+l.orNearest(u.name, names))
			strays++
		}
	}
	return strays
}

// strayTaps finds loads and converters at nodes to which no circuit leads, and
// returns how many there are.
func (l links) strayTaps(articles, ends, taps []use) (strays int) {
	known := namesOf(articles, ends)
	names := slices.Sorted(maps.Keys(known))
	for _, u := range taps {
		if !known[u.name] {
			l.fault(u.path, "a node to which a circuit leads"+l.orNearest(u.name, names))
			strays++
		}
	}
	return strays
}

// unwired finds articles to which nothing is connected.
func (l links) unwired(articles, ends, taps []use) {
	wired := namesOf(ends, taps)
	for _, a := range articles {
		if !wired[a.name] {
			l.fault(a.path, "a circuit from it or to it")
		}
	}
}

func namesOf(lists ...[]use) map[string]bool {
	names := map[string]bool{}
	for _, u := range slices.Concat(lists...) {
		names[u.name] = true
	}
	return names
}

// neighbours are the nodes to which circuits lead from each.
func neighbours(ends []use) map[string][]string {
	beside := map[string][]string{}
	for i, u := range ends {
		beside[u.name] = append(beside[u.name], ends[i^1].name)
	}
	return beside
}

// unreached finds circuits that no battery feeds, one for each part of the
// diagram that hangs in the air: what charges there has nothing to charge, and
// nothing holds the voltage when it rests. Current may flow either way in a
// circuit.
func (l links) unreached(ends []use, beside map[string][]string) {
	reached := map[string]bool{}
	for _, battery := range l.roll("batteries").names {
		reach(battery, beside, reached)
	}
	for i := 0; i < len(ends); i += 2 {
		if from := ends[i]; !reached[from.name] {
			l.fault(from.path, "a node that a battery reaches; no battery reaches "+from.name)
			reach(from.name, beside, reached)
		}
	}
}

// houseBank wants the house batteries joined to one bank, and a load that takes
// something from it.
func (l links) houseBank(beside map[string][]string) {
	first, reached := "", map[string]bool{}
	for i, b := range l.job.Batteries {
		switch path := fmt.Sprintf("batteries[%d]", i); {
		case !l.good(path, "bank"):
			return // it may be one of them
		case b.Bank != "house" || reached[b.Name] || l.bad[under(path, "chemistry")]:
		case first == "":
			first = b.Name
			reach(first, beside, reached)
		default:
			l.fault(under(path, "name"), "circuits that join it to the rest of the house bank, "+first)
		}
	}
	if first != "" && !l.bad["inverters"] && !l.draws(reached) {
		l.faultGot("loads", "a list of which nothing draws on the house bank", "one that circuits join to it, with hours_a_day or standby_w above 0")
	}
}

// draws reports whether a load takes something from what is reached, or may.
func (l links) draws(reached map[string]bool) bool {
	for i, d := range l.job.Loads {
		path := fmt.Sprintf("loads[%d]", i)
		if l.bad[under(path, "at")] || l.bad[under(path, "inverter")] || !l.good(path, "hours_a_day") || l.bad[under(path, "standby_w")] {
			return true
		}
		if reached[d.Node()] && (d.HoursADay.IsPositive() || d.StandbyW.Decimal.IsPositive()) {
			return true
		}
	}
	return false
}

// reach marks a node and everything connected to it.
func reach(node string, beside map[string][]string, reached map[string]bool) {
	todo := []string{node}
	for len(todo) > 0 {
		n := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		if !reached[n] {
			reached[n] = true
			todo = append(todo, beside[n]...)
		}
	}
}
