package inspect

import (
	"slices"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// fault returns the greatest short-circuit current at a node: every source
// connected, batteries full and new, conductors at 20 °C, no contacts.
func (m *model) fault(node string) (wire.NetworkFault, error) {
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
		n.Sources = append(n.Sources, wire.NodeSource{Name: b.Name, Node: b.Name, EMFV: b.FullV, Milliohm: m.low(b)})
	}
	for _, a := range m.job.Alternators {
		n.Sources = append(n.Sources, wire.NodeSource{
			Name: a.Name, Node: a.Name, EMFV: a.RunsAtV, Milliohm: regulated(), LimitA: decimal.NewNullDecimal(a.RatedA),
		})
	}
	for _, c := range m.job.Chargers {
		n.Sources = append(n.Sources, wire.NodeSource{
			Name: c.Name, Node: c.Name, EMFV: c.OutputV, Milliohm: regulated(), LimitA: decimal.NewNullDecimal(c.MaxA),
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

// ends lists both ends of every run, or those of them that are asked about.
func (m *model) ends() []end {
	all := make([]end, 0, 2*len(m.runs))
	for _, r := range m.runs {
		for _, e := range []end{r.endAt(r.From), r.endAt(r.To)} {
			if m.asks(e) {
				all = append(all, e)
			}
		}
	}
	return all
}

// asks reports whether an end is asked about.
func (m *model) asks(e end) bool { return m.only == nil || m.only[e.path] }

// endAt is the end of a run at one of its two nodes.
func (r *run) endAt(node string) end {
	if node == r.From {
		return end{r, r.From, r.To, r.Device, r.devices[0]}
	}
	return end{r, r.To, r.From, r.FarDevice, r.devices[1]}
}

func (e end) where() string { return e.Name + ", at " + e.node }

// throughDevice is what a device at an end may have to break: what the run's
// far side brings to a fault at the node, or what everything else brings to a
// fault just inside the run, whichever is greater. It is worked out once.
func (m *model) throughDevice(e end) (working.Working, error) {
	if w, ok := m.through[e.path]; ok {
		return w, nil
	}
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
	m.through[e.path] = slices.Clip(w)
	return m.through[e.path], nil
}

// backing is what stands behind a node, looking away from one run: the greatest
// current that can flow in without opening a device. It is not limited where a
// battery, or a source that does not limit itself, feeds the node without one.
type backing struct {
	limitA    decimal.Decimal
	unlimited bool
	fed       bool            // any source at all
	battery   bool            // a battery, devices between or not
	guards    []end           // the nearest devices that set the limit together
	ownA      decimal.Decimal // the part of it that sources limit themselves
}

// behind looks from a node into everything but one run. The limit is the
// greatest flow through devices and sources: of paths side by side each counts,
// a device that they share counts once. It is found once.
func (m *model) behind(node string, but *run) backing {
	path := but.endAt(node).path
	b, ok := m.backs[path]
	if !ok {
		b = m.look(node, but)
		m.backs[path] = b
	}
	return b
}

func (m *model) look(node string, but *run) backing {
	b := backing{}
	m.reach(node, but, func(*run, string) bool { return true }, func(at string) bool {
		s, ok := m.sourceAt(at)
		b.fed, b.battery = b.fed || ok, b.battery || s.battery
		return false
	})
	if b.fed {
		m.fill(&b, node, but)
	}
	return b
}

// feeder is a source at a node; one without a limit does not limit itself.
type feeder struct {
	limitA  decimal.NullDecimal
	battery bool
}

// sourceAt is what is connected at a node itself.
func (m *model) sourceAt(node string) (f feeder, ok bool) {
	if m.isBattery(node) {
		return feeder{battery: true}, true
	}
	for _, a := range m.job.Alternators {
		if a.Name == node {
			return feeder{limitA: decimal.NullDecimal{Decimal: a.RatedA, Valid: a.SelfLimiting}}, true
		}
	}
	for _, c := range m.job.Chargers {
		if c.Name == node {
			return feeder{limitA: decimal.NewNullDecimal(c.MaxA)}, true
		}
	}
	return feeder{}, false
}

// step is one run of a way up to a source, walked from a node.
type step struct {
	*run
	down string // the node that it leads down to
}

// reach walks breadth first from a node along the runs that are open to it, and
// returns the way to the first node that is an end, or by number of all nodes
// met the last step of the way to each.
func (m *model) reach(node string, but *run, open func(r *run, down string) bool, isEnd func(at string) bool) (way []step, met []step, ok bool) {
	first, known := m.index[node]
	if !known { // no run ends there
		return nil, make([]step, len(m.nodes)), isEnd(node)
	}
	met = make([]step, len(m.nodes))
	met[first].down = node
	for queue := append(make([]int, 0, len(m.nodes)), first); len(queue) > 0; queue = queue[1:] {
		at := queue[0]
		if isEnd(m.nodes[at]) {
			for ; at != first; at = m.index[met[at].down] {
				way = append(way, met[at])
			}
			slices.Reverse(way)
			return way, nil, true
		}
		for _, i := range m.touching[at] {
			r := m.runs[i]
			far := r.between[0] + r.between[1] - at
			if met[far].down != "" || r == but || !open(r, m.nodes[at]) {
				continue
			}
			met[far] = step{r, m.nodes[at]}
			queue = append(queue, far)
		}
	}
	return nil, met, false
}

// fill adds flow along the shortest way that still carries some, until none
// does. What bounds it then are the devices nearest to the node.
func (m *model) fill(b *backing, node string, but *run) {
	through := map[string]decimal.Decimal{} // by run: towards its To
	given := map[string]decimal.Decimal{}   // by source
	room := func(r *run, down string) (left decimal.NullDecimal) {
		if left = r.weakest(); left.Valid && down == r.To {
			left.Decimal = left.Decimal.Sub(through[r.Name])
		} else if left.Valid {
			left.Decimal = left.Decimal.Add(through[r.Name])
		}
		return left
	}
	spare := func(at string) (left decimal.NullDecimal, ok bool) {
		s, ok := m.sourceAt(at)
		s.limitA.Decimal = s.limitA.Decimal.Sub(given[at])
		return s.limitA, ok && (!s.limitA.Valid || s.limitA.Decimal.IsPositive())
	}
	for {
		way, met, ok := m.reach(node, but,
			func(r *run, down string) bool { left := room(r, down); return !left.Valid || left.Decimal.IsPositive() },
			func(at string) bool { _, ok := spare(at); return ok })
		if !ok {
			m.bound(b, met, but)
			return
		}
		source := node
		if len(way) > 0 {
			source = way[len(way)-1].otherEnd(way[len(way)-1].down)
		}
		most, _ := spare(source)
		for _, s := range way {
			most = lesser(most, room(s.run, s.down))
		}
		if !most.Valid {
			b.unlimited, b.limitA = true, decimal.Zero
			return
		}
		for _, s := range way {
			add := most.Decimal
			if s.down == s.From {
				add = add.Neg()
			}
			through[s.Name] = through[s.Name].Add(add)
		}
		given[source] = given[source].Add(most.Decimal)
		b.limitA = b.limitA.Add(most.Decimal)
	}
}

// bound lists the devices between the nodes that no more flow reaches and the
// rest, and what the sources on this side of them give.
func (m *model) bound(b *backing, met []step, but *run) {
	b.ownA = b.limitA
	for _, r := range m.runs {
		from, to := met[r.between[0]], met[r.between[1]]
		if r == but || (from.down == "") == (to.down == "") {
			continue
		}
		e := r.smallest()
		b.guards = append(b.guards, e)
		b.ownA = b.ownA.Sub(e.device.RatingA)
	}
}

// smallest is the end of a run with the smaller of its devices.
func (r *run) smallest() end {
	from, to := r.endAt(r.From), r.endAt(r.To)
	if from.device == nil || to.device != nil && to.device.RatingA.LessThan(from.device.RatingA) {
		return to
	}
	return from
}

// weakest is what passes a run without opening a device at its ends; unset
// where it has none.
func (r *run) weakest() decimal.NullDecimal {
	if e := r.smallest(); e.device != nil {
		return decimal.NewNullDecimal(e.device.RatingA)
	}
	return decimal.NullDecimal{}
}

// lesser is the smaller of two limits; an unset one is none.
func lesser(a, b decimal.NullDecimal) decimal.NullDecimal {
	if !a.Valid || b.Valid && b.Decimal.LessThan(a.Decimal) {
		return b
	}
	return a
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
// and alternators connected with it, every link closed, or of its batteries full.
func (m *model) highestV(node string) decimal.Decimal {
	high := decimal.Zero
	for source, v := range m.heights {
		if m.wired[source] == m.wired[node] {
			high = decimal.Max(high, v)
		}
	}
	return high
}

// lithium reports whether the job has a lithium battery.
func (m *model) lithium() bool {
	for _, b := range m.job.Batteries {
		if b.Chemistry.Is(tables.LiIon) {
			return true
		}
	}
	return false
}
