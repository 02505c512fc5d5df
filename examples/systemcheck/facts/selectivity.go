package facts

import (
	"fmt"
	"slices"

	"example.org/extralow/protect"
	"github.com/shopspring/decimal"
)

// chain is the devices between a consumer and a source, the one nearest to the
// consumer first.
type chain struct {
	node, source string
	bank         []string // the batteries that the consumer hangs on
	Devices      []End
}

// Chains lists the devices on the way from each consumer to each source that
// opens them.
func (m *Facts) Chains() []chain {
	var all []chain
	for _, node := range m.consumers() {
		bank := m.OwnBank(node)
		for _, source := range m.opening(bank) {
			all = append(all, chain{node, source, bank, InSeries(node, m.way(node, source))})
		}
	}
	return all
}

// LeftBeside is how many batteries share what flows through the lower of two
// devices where the upper guards one of several and another of them is missing;
// one, without a corner, where it guards all of it.
func (m *Facts) LeftBeside(c chain, lower, upper End) (left int64, corner string) {
	var beside []string
	for _, b := range c.bank {
		way := m.way(c.node, b)
		if b != c.source && m.IsBattery(c.source) && onPath(way, lower.Run) && !onPath(way, upper.Run) {
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
func (m *Facts) opening(bank []string) []string {
	all := slices.Clone(bank)
	for _, a := range m.Job.Alternators {
		if !a.SelfLimiting {
			all = append(all, a.Name)
		}
	}
	return all
}

// OwnBank lists the batteries of the bank that a node hangs on.
func (m *Facts) OwnBank(node string) []string {
	var all []string
	bank := m.nearestBank(node)
	for _, b := range m.Job.Batteries {
		if b.Bank == bank {
			all = append(all, b.Name)
		}
	}
	return all
}

// nearestBank is the bank of the battery that the fewest runs lie before.
func (m *Facts) nearestBank(node string) string {
	for _, r := range m.ToBattery(node, "") {
		node = r.OtherEnd(node)
	}
	return m.bankOn(map[string]bool{node: true})
}

// consumers lists the nodes of loads but engines' starters, of inverters and of
// the inputs of converters.
func (m *Facts) consumers() []string {
	var all []string
	for _, l := range m.Job.Loads {
		if !l.Cranking {
			all = append(all, l.Node())
		}
	}
	for _, inv := range m.Job.Inverters {
		all = append(all, inv.Name)
	}
	for _, c := range m.Job.Chargers {
		if c.FedAt != "" {
			all = append(all, c.FedAt)
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// InSeries lists the devices met on a path that begins at a node.
func InSeries(node string, path []*Run) []End {
	var all []End
	for _, r := range path {
		next := r.OtherEnd(node)
		for _, at := range []string{node, next} {
			if e := r.EndAt(at); e.Fitted != nil {
				all = append(all, e)
			}
		}
		node = next
	}
	return all
}

// SideBySide is several devices that share a current evenly, as if they were one.
func SideBySide(d protect.Device, count int64) protect.Device {
	times := decimal.NewFromInt(count)
	d.RatingA, d.Gates = d.RatingA.Mul(times), slices.Clone(d.Gates)
	for i := range d.Gates {
		d.Gates[i].CurrentA = d.Gates[i].CurrentA.Mul(times)
	}
	return d
}
