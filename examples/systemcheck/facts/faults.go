package facts

import (
	"slices"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// Fault returns the greatest short-circuit current at a node: every source
// connected, batteries full and new, conductors at 20 °C, no contacts.
func (m *Facts) Fault(node string) (wire.NetworkFault, error) {
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
func (m *Facts) strong() wire.Network {
	n := wire.Network{Branches: m.Branches(func(r *Run) decimal.Decimal { return r.coldMilliohm })}
	for _, b := range m.Job.Batteries {
		n.Sources = append(n.Sources, wire.NodeSource{Name: b.Name, Node: b.Name, EMFV: b.FullV, Milliohm: m.low(b)})
	}
	for _, a := range m.Job.Alternators {
		n.Sources = append(n.Sources, wire.NodeSource{
			Name: a.Name, Node: a.Name, EMFV: a.RunsAtV, Milliohm: regulated(), LimitA: decimal.NewNullDecimal(decimal.Max(a.RatedA, a.ShortA.Decimal)),
		})
	}
	for _, c := range m.Job.Chargers {
		n.Sources = append(n.Sources, wire.NodeSource{
			Name: c.Name, Node: c.Name, EMFV: c.OutputV, Milliohm: regulated(), LimitA: decimal.NewNullDecimal(c.MaxA),
		})
	}
	return n
}

// End is one end of a run, where a device may stand.
type End struct {
	*Run
	Node, Far string
	Fitted    *job.Device
	Path      string // of the device
}

// Ends lists both ends of every run, or those of them that are asked about.
func (m *Facts) Ends() []End {
	all := make([]End, 0, 2*len(m.Runs))
	for _, r := range m.Runs {
		for _, e := range []End{r.EndAt(r.From), r.EndAt(r.To)} {
			if m.Asks(e) {
				all = append(all, e)
			}
		}
	}
	return all
}

// Asks reports whether an end is asked about.
func (m *Facts) Asks(e End) bool { return m.Only == nil || m.Only[e.Path] }

// EndAt is the end of a run at one of its two nodes.
func (r *Run) EndAt(node string) End {
	if node == r.From {
		return End{r, r.From, r.To, r.Device, r.devices[0]}
	}
	return End{r, r.To, r.From, r.FarDevice, r.devices[1]}
}

func (e End) Where() string { return e.Name + ", at " + e.Node }

// ThroughDevice is what a device at an end may have to break: what the run's
// far side brings to a fault at the node, or what everything else brings to a
// fault just inside the run, whichever is greater. It is worked out once.
func (m *Facts) ThroughDevice(e End) (working.Working, error) {
	if w, ok := m.through[e.Path]; ok {
		return w, nil
	}
	f, err := m.Fault(e.Node)
	if err != nil {
		return nil, err
	}
	w := working.Start(f.Working)
	w.Part("Through the device: the fault on either side of it")
	i := slices.IndexFunc(f.Branches, func(b wire.BranchCurrent) bool { return b.Name == e.Name })
	law := cite.Kirchhoff.At("", cite.Published)
	far := w.Step("I_br", f.Branches[i].CurrentA.Abs(), law)
	w.Calc("I_k", "max(I_br, I_k − I_br)", decimal.Max(far, f.CurrentA.Sub(far)), law)
	m.through[e.Path] = slices.Clip(w)
	return m.through[e.Path], nil
}

// Backing is what stands behind a node, looking away from one run: the greatest
// current that can flow in without opening a device. It is not limited where a
// battery, or a source that does not limit itself, feeds the node without one.
type Backing struct {
	LimitA    decimal.Decimal
	Unlimited bool
	Fed       bool            // any source at all
	Battery   bool            // a battery, devices between or not
	Guards    []End           // the nearest devices that set the limit together
	OwnA      decimal.Decimal // the part of it that sources limit themselves
}

// Behind looks from a node into everything but one run. The limit is the
// greatest flow through devices and sources: of paths side by side each counts,
// a device that they share counts once. It is found once.
func (m *Facts) Behind(node string, but *Run) Backing {
	path := but.EndAt(node).Path
	b, ok := m.backs[path]
	if !ok {
		b = m.look(node, but)
		m.backs[path] = b
	}
	return b
}

func (m *Facts) look(node string, but *Run) Backing {
	b := Backing{}
	m.reach(node, but, func(*Run, string) bool { return true }, func(at string) bool {
		s, ok := m.sourceAt(at)
		b.Fed, b.Battery = b.Fed || ok, b.Battery || s.battery
		return false
	})
	if b.Fed {
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
func (m *Facts) sourceAt(node string) (f feeder, ok bool) {
	if m.IsBattery(node) {
		return feeder{battery: true}, true
	}
	for _, a := range m.Job.Alternators {
		if a.Name == node {
			return feeder{limitA: decimal.NullDecimal{Decimal: decimal.Max(a.RatedA, a.ShortA.Decimal), Valid: a.SelfLimiting || a.ShortA.Valid}}, true
		}
	}
	for _, c := range m.Job.Chargers {
		if c.Name == node {
			return feeder{limitA: decimal.NewNullDecimal(c.MaxA)}, true
		}
	}
	return feeder{}, false
}

// step is one run of a way up to a source, walked from a node.
type step struct {
	*Run
	down string // the node that it leads down to
}

// reach walks breadth first from a node along the runs that are open to it, and
// returns the way to the first node that is an end, or by number of all nodes
// met the last step of the way to each.
func (m *Facts) reach(node string, but *Run, open func(r *Run, down string) bool, isEnd func(at string) bool) (way []step, met []step, ok bool) {
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
			r := m.Runs[i]
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
func (m *Facts) fill(b *Backing, node string, but *Run) {
	through := map[string]decimal.Decimal{} // by run: towards its To
	given := map[string]decimal.Decimal{}   // by source
	room := func(r *Run, down string) (left decimal.NullDecimal) {
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
			func(r *Run, down string) bool { left := room(r, down); return !left.Valid || left.Decimal.IsPositive() },
			func(at string) bool { _, ok := spare(at); return ok })
		if !ok {
			m.bound(b, met, but)
			return
		}
		source := node
		if len(way) > 0 {
			source = way[len(way)-1].OtherEnd(way[len(way)-1].down)
		}
		most, _ := spare(source)
		for _, s := range way {
			most = lesser(most, room(s.Run, s.down))
		}
		if !most.Valid {
			b.Unlimited, b.LimitA = true, decimal.Zero
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
		b.LimitA = b.LimitA.Add(most.Decimal)
	}
}

// bound lists the devices between the nodes that no more flow reaches and the
// rest, and what the sources on this side of them give.
func (m *Facts) bound(b *Backing, met []step, but *Run) {
	b.OwnA = b.LimitA
	for _, r := range m.Runs {
		from, to := met[r.between[0]], met[r.between[1]]
		if r == but || (from.down == "") == (to.down == "") {
			continue
		}
		e := r.smallest()
		b.Guards = append(b.Guards, e)
		b.OwnA = b.OwnA.Sub(e.Fitted.RatingA)
	}
}

// smallest is the end of a run with the smaller of its devices.
func (r *Run) smallest() End {
	from, to := r.EndAt(r.From), r.EndAt(r.To)
	if from.Fitted == nil || to.Fitted != nil && to.Fitted.RatingA.LessThan(from.Fitted.RatingA) {
		return to
	}
	return from
}

// weakest is what passes a run without opening a device at its ends; unset
// where it has none.
func (r *Run) weakest() decimal.NullDecimal {
	if e := r.smallest(); e.Fitted != nil {
		return decimal.NewNullDecimal(e.Fitted.RatingA)
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

// OtherEnd returns the far end of a run that touches the node, "" if it does not.
func (r *Run) OtherEnd(node string) string {
	switch node {
	case r.From:
		return r.To
	case r.To:
		return r.From
	default:
		return ""
	}
}

// HighestV is the highest voltage in operation at a node: that of the chargers
// and alternators connected with it, every link closed, or of its batteries full.
func (m *Facts) HighestV(node string) decimal.Decimal {
	high := decimal.Zero
	for source, v := range m.heights {
		if m.wired[source] == m.wired[node] {
			high = decimal.Max(high, v)
		}
	}
	return high
}

// Lithium reports whether the job has a lithium battery.
func (m *Facts) Lithium() bool {
	for _, b := range m.Job.Batteries {
		if b.Chemistry.Is(tables.LiIon) {
			return true
		}
	}
	return false
}
