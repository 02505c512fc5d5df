package inspect

import (
	"slices"

	"example.org/extralow/protect"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// selective judges every two devices in series on the way from a source to
// what it feeds, each pair once.
func selective(m *model) ([]Finding, error) {
	var all []Finding
	seen := map[[2]string]bool{}
	for _, chain := range m.chains() {
		for i, lower := range chain {
			for _, upper := range chain[i+1:] {
				pair := [2]string{lower.path, upper.path}
				if seen[pair] || !m.asks(lower) && !m.asks(upper) {
					continue
				}
				seen[pair] = true
				c, err := m.opensFirst(lower, upper)
				if err != nil {
					return nil, working.In(lower.path, err)
				}
				all = append(all, Finding{Check: c, Where: lower.where() + ", under " + upper.where(), Path: lower.path})
			}
		}
	}
	return all, nil
}

// chains lists the devices on the way from each consumer to each source that
// opens them, the one nearest to the consumer first.
func (m *model) chains() [][]end {
	var all [][]end
	for _, node := range m.consumers() {
		for _, source := range m.opening(node) {
			all = append(all, inSeries(node, m.way(node, source)))
		}
	}
	return all
}

// opening lists the sources that open what guards a consumer: the batteries of
// its own bank, and the alternators there that do not limit themselves. What
// comes from another bank through a link comes on top of that.
func (m *model) opening(node string) []string {
	all := m.ownBank(node)
	for _, a := range m.job.Alternators {
		if !a.SelfLimiting {
			all = append(all, a.Name)
		}
	}
	return all
}

// ownBank lists the batteries of the bank that a node hangs on.
func (m *model) ownBank(node string) []string {
	var all []string
	bank := m.nearestBank(node)
	for _, b := range m.job.Batteries {
		if b.Bank == bank {
			all = append(all, b.Name)
		}
	}
	return all
}

// nearestBank is the bank of the battery that the fewest runs lie before.
func (m *model) nearestBank(node string) string {
	for _, r := range m.path(node, m.isBattery) {
		node = r.otherEnd(node)
	}
	return m.bankOn(map[string]bool{node: true})
}

// consumers lists the nodes of loads but engines' starters, of inverters and of
// the inputs of converters.
func (m *model) consumers() []string {
	var all []string
	for _, l := range m.job.Loads {
		if !l.Cranking {
			all = append(all, l.Node())
		}
	}
	for _, inv := range m.job.Inverters {
		all = append(all, inv.Name)
	}
	for _, c := range m.job.Chargers {
		if c.FedAt != "" {
			all = append(all, c.FedAt)
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// inSeries lists the devices met on a path that begins at a node.
func inSeries(node string, path []*run) []end {
	var all []end
	for _, r := range path {
		next := r.otherEnd(node)
		for _, at := range []string{node, next} {
			if e := r.endAt(at); e.device != nil {
				all = append(all, e)
			}
		}
		node = next
	}
	return all
}

const (
	sameRunText   = "both stand at the ends of one run: whichever opens, the same goes dark"
	unsettledText = "the gates of the two do not settle which opens first, and no ratio rule is for their kind: ask the makers for a test table of the pair"
)

// opensFirst judges one pair by the ratio rule where it is for both, and by the
// gates up to the greatest fault behind the lower. Energies settle the short
// circuit, where both open within a fraction of a second, and no ratio: what the
// gates show of smaller currents stands beside them.
func (m *model) opensFirst(lower, upper end) (working.Check, error) {
	if lower.run == upper.run {
		return working.Check{ID: "P13", Silent: sameRunText}, nil
	}
	if over, err := m.overrated(lower); over || err != nil {
		return working.Check{ID: "P13", Silent: lower.overratedText()}, err
	}
	pair := protect.Pair{Upper: article(upper.device), Lower: article(lower.device)}
	ratio, err := pair.Ratio("gG16")
	if err != nil || ratio.Verdict() == working.Fails {
		return ratio, err
	}
	gates, err := m.byGates(pair, lower)
	if err != nil || gates.Verdict() == working.Fails {
		return gates, err
	}
	if total := lower.device.TotalA2S; total.Valid {
		c, err := pair.Energies(total.Decimal, upper.device.PreArcingA2S)
		if err != nil || c.Verdict() != working.CannotTell {
			return c, err
		}
	}
	if ratio.Verdict() == working.Passes {
		return ratio, nil
	}
	return gates, nil
}

// byGates leaves a pair alone that its gates do not settle: they are wide, and
// most pairs of good practice overlap in them.
func (m *model) byGates(pair protect.Pair, lower end) (working.Check, error) {
	through, err := m.throughDevice(lower)
	if err != nil {
		return working.Check{}, err
	}
	fault, _ := through.Value("I_k")
	c, err := pair.Selective(decimal.Max(fault, least))
	if c.Verdict() == working.CannotTell {
		c.Missing, c.Silent = "", unsettledText
	}
	return c, err
}
