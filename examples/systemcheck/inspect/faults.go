package inspect

import (
	"slices"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// fault returns the greatest short-circuit current at a node: every source
// connected, batteries full and new, conductors at 20 °C, no contacts.
func (m *model) fault(node string) (wire.Fault, error) {
	if f, ok := m.faults[node]; ok {
		return f, nil
	}
	f, err := m.strong().Fault(node, decimal.Zero)
	if err == nil {
		m.faults[node] = f
	}
	return f, err
}

// strong is the installation as it feeds the greatest fault.
func (m *model) strong() wire.Network {
	n := wire.Network{Branches: m.branches(func(r *run) decimal.Decimal { return r.coldMilliohm })}
	for _, b := range m.job.Batteries {
		n.Sources = append(n.Sources, wire.Source{Name: b.Name, Node: b.Name, EMFV: b.FullV, Milliohm: m.low(b)})
	}
	for _, a := range m.job.Alternators {
		n.Sources = append(n.Sources, wire.Source{
			Name: a.Name, Node: a.Name, EMFV: a.RunsAtV, Milliohm: regulated, LimitA: decimal.NewNullDecimal(a.RatedA),
		})
	}
	for _, c := range m.job.Chargers {
		n.Sources = append(n.Sources, wire.Source{
			Name: c.Name, Node: c.Name, EMFV: c.OutputV, Milliohm: regulated, LimitA: decimal.NewNullDecimal(c.MaxA),
		})
	}
	return n
}

// end is one end of a run, where a device may stand.
type end struct {
	*run
	node, far string
	device    *job.Device
	path      string // of the device
}

// ends lists both ends of every run.
func (m *model) ends() []end {
	var all []end
	for _, r := range m.runs {
		all = append(all, r.endAt(r.From), r.endAt(r.To))
	}
	return all
}

// endAt is the end of a run at one of its two nodes.
func (r *run) endAt(node string) end {
	if node == r.From {
		return end{r, r.From, r.To, r.Device, r.path + ".device"}
	}
	return end{r, r.To, r.From, r.FarDevice, r.path + ".far_device"}
}

func (e end) where() string { return e.Name + ", at " + e.node }

// throughDevice is what a device at an end may have to break: what the run's
// far side brings to a fault at the node, or what everything else brings to a
// fault just inside the run, whichever is greater.
func (m *model) throughDevice(e end) (working.Working, error) {
	f, err := m.fault(e.node)
	if err != nil {
		return nil, err
	}
	w := working.Start(f.Working)
	w.Part("Through the device: the fault on either side of it")
	i := slices.IndexFunc(f.Branches, func(b wire.BranchCurrent) bool { return b.Name == e.Name })
	law := cite.Kirchhoff.At("", cite.Published)
	far := w.Step("I_br", f.Branches[i].CurrentA.Abs(), law)
	w.Calc("I_k", "max(I_br, I_k − I_br)", decimal.Max(far, f.CurrentA.Sub(far)), law)
	return w, nil
}

// backing is what stands behind a node, looking away from one run: the sum of
// the currents that can flow in without opening a device. It is not limited
// where a battery feeds the node without one.
type backing struct {
	limitA    decimal.Decimal
	unlimited bool
	fed       bool // any source at all
	battery   bool // a battery, devices between or not
}

// behind looks from a node into everything but one run.
func (m *model) behind(node string, but *run) backing {
	return m.look(node, map[string]bool{but.Name: true})
}

func (m *model) look(node string, seen map[string]bool) backing {
	b := m.sourceAt(node)
	for _, r := range m.runs {
		far := r.otherEnd(node)
		if far == "" || seen[r.Name] {
			continue
		}
		seen[r.Name] = true
		b.add(r.guard(m.look(far, seen)))
	}
	return b
}

// sourceAt is what is connected at a node itself.
func (m *model) sourceAt(node string) backing {
	if m.isBattery(node) {
		return backing{unlimited: true, fed: true, battery: true}
	}
	for _, a := range m.job.Alternators {
		if a.Name == node {
			return backing{limitA: a.RatedA, fed: true}
		}
	}
	for _, c := range m.job.Chargers {
		if c.Name == node {
			return backing{limitA: c.MaxA, fed: true}
		}
	}
	return backing{}
}

func (b *backing) add(o backing) {
	b.limitA = b.limitA.Add(o.limitA)
	b.unlimited = b.unlimited || o.unlimited
	b.fed = b.fed || o.fed
	b.battery = b.battery || o.battery
}

// guard is what passes a run with the devices at its ends.
func (r *run) guard(b backing) backing {
	if !b.fed {
		return b
	}
	for _, d := range []*job.Device{r.Device, r.FarDevice} {
		if d != nil && (b.unlimited || d.RatingA.LessThan(b.limitA)) {
			b.limitA, b.unlimited = d.RatingA, false
		}
	}
	return b
}

// otherEnd returns the far end of a run that touches the node, "" if it does not.
func (r *run) otherEnd(node string) string {
	switch node {
	case r.From:
		return r.To
	case r.To:
		return r.From
	default:
		return ""
	}
}

// highestV is the highest voltage in operation at a node: that of the chargers
// and alternators connected with it, or of its batteries full.
func (m *model) highestV(node string) decimal.Decimal {
	high := decimal.Zero
	take := func(source string, v decimal.Decimal) {
		if m.joined(source, node) {
			high = decimal.Max(high, v)
		}
	}
	for _, b := range m.job.Batteries {
		take(b.Name, b.FullV)
	}
	for _, a := range m.job.Alternators {
		take(a.Name, a.RunsAtV)
	}
	for _, c := range m.job.Chargers {
		take(c.Name, c.OutputV)
	}
	return high
}

// lithium reports whether a lithium battery is in the same network part.
func (m *model) lithium() bool {
	for _, b := range m.job.Batteries {
		if b.Chemistry == "LiFePO4" {
			return true
		}
	}
	return false
}
