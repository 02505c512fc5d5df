package job

import (
	"fmt"
	"maps"
	"slices"
)

// nodes judges the circuit diagram: every node named must be at something, and
// every circuit must lead back to a source. Batteries, alternators, chargers
// and inverters are articles, each a node of its own name.
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
	l.unreached(ends)
}

// circuitEnds returns both ends of every circuit, one behind the other.
func (l links) circuitEnds() (ends []use, whole bool) {
	whole = !l.bad["circuits"]
	for i, c := range l.file.Circuits {
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
	for i, c := range l.file.Chargers {
		tap(c.FedAt, fmt.Sprintf("chargers[%d].fed_at", i))
	}
	for i, d := range l.file.Loads {
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

// unreached finds circuits that no source feeds, one for each part of the
// diagram that hangs in the air. Current may flow either way in a circuit.
func (l links) unreached(ends []use) {
	beside := map[string][]string{} // node to its neighbours
	for i, u := range ends {
		beside[u.name] = append(beside[u.name], ends[i^1].name)
	}
	reached := map[string]bool{}
	for _, source := range l.roll("batteries", "alternators", "chargers").names {
		reach(source, beside, reached)
	}
	for i := 0; i < len(ends); i += 2 {
		if from := ends[i]; !reached[from.name] {
			l.fault(from.path, "a node that a source reaches; no source reaches "+from.name)
			reach(from.name, beside, reached)
		}
	}
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
