package inspect

import (
	"fmt"
	"slices"

	"example.org/extralow/protect"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// selective judges every two devices in series on the way from a source to
// what it feeds, each pair once. Where the upper one guards one battery of several,
// those carry the current together, and the upper device bears a share; it is
// judged with one of them missing, as everything is (a management unit opens when
// it likes): of two batteries the other bears it all.
func selective(m *model) ([]Finding, error) {
	var all []Finding
	seen := map[[2]string]bool{}
	for _, chain := range m.chains() {
		for i, lower := range chain.devices {
			for _, upper := range chain.devices[i+1:] {
				pair := [2]string{lower.path, upper.path}
				if seen[pair] || !m.asks(lower) && !m.asks(upper) {
					continue
				}
				seen[pair] = true
				left, corner := m.leftBeside(chain, lower, upper)
				c, err := m.opensFirst(lower, upper, left)
				if err != nil {
					return nil, working.In(lower.path, err)
				}
				all = append(all, Finding{Check: c, Where: lower.where() + ", under " + upper.where(), Path: lower.path, Corner: corner})
			}
		}
	}
	return all, nil
}

// chain is the devices between a consumer and a source, the one nearest to the
// consumer first.
type chain struct {
	node, source string
	bank         []string // the batteries that the consumer hangs on
	devices      []end
}

// chains lists the devices on the way from each consumer to each source that
// opens them.
func (m *model) chains() []chain {
	var all []chain
	for _, node := range m.consumers() {
		bank := m.ownBank(node)
		for _, source := range m.opening(bank) {
			all = append(all, chain{node, source, bank, inSeries(node, m.way(node, source))})
		}
	}
	return all
}

// leftBeside is how many batteries share what flows through the lower of two
// devices where the upper guards one of several and another of them is missing;
// one, without a corner, where it guards all of it.
func (m *model) leftBeside(c chain, lower, upper end) (left int64, corner string) {
	var beside []string
	for _, b := range c.bank {
		way := m.way(c.node, b)
		if b != c.source && m.isBattery(c.source) && onPath(way, lower.run) && !onPath(way, upper.run) {
			beside = append(beside, b)
		}
	}
	switch len(beside) {
	case 0:
		return 1, ""
	case 1:
		return 1, "without " + beside[0]
	}
	return int64(len(beside)), fmt.Sprintf("without one of the others, %d left that share it evenly", len(beside))
}

// opening lists the sources that open what guards a consumer: the batteries of
// its own bank, and the alternators there that do not limit themselves. What
// comes from another bank through a link comes on top of that.
func (m *model) opening(bank []string) []string {
	all := slices.Clone(bank)
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
// Of several upper devices side by side, so many are left: together they are one
// of the sum of their ratings. Of their energies one counts, on the strict side.
func (m *model) opensFirst(lower, upper end, left int64) (working.Check, error) {
	if lower.run == upper.run {
		return working.Check{ID: "P13", Silent: sameRunText}, nil
	}
	if over, err := m.overrated(lower); over || err != nil {
		return working.Check{ID: "P13", Silent: lower.overratedText()}, err
	}
	pair := protect.SeriesPair{Upper: article(upper.device), Lower: article(lower.device)}
	together := protect.SeriesPair{Upper: sideBySide(pair.Upper, left), Lower: pair.Lower}
	ratio, err := together.Ratio("gG16")
	if err != nil || ratio.Verdict() == working.Fails {
		return ratio, err
	}
	gates, err := m.byGates(together, lower)
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

// sideBySide is several devices that share a current evenly, as if they were one.
func sideBySide(d protect.Device, count int64) protect.Device {
	times := decimal.NewFromInt(count)
	d.RatingA, d.Gates = d.RatingA.Mul(times), slices.Clone(d.Gates)
	for i := range d.Gates {
		d.Gates[i].CurrentA = d.Gates[i].CurrentA.Mul(times)
	}
	return d
}

// byGates leaves a pair alone that its gates do not settle: they are wide, and
// most pairs of good practice overlap in them.
func (m *model) byGates(pair protect.SeriesPair, lower end) (working.Check, error) {
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
