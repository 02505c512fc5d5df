package facts

import (
	"slices"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire/installation"
	"github.com/shopspring/decimal"
)

// Fault returns the greatest short-circuit current at a node: every source
// connected, batteries full and new, conductors at 20 °C, no contacts.
func (m *Facts) Fault(node string) (installation.Fault, error) {
	return m.faults.get(node, func() (installation.Fault, error) { return m.solved.GreatestFault(node) })
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
	return m.through.get(e.Path, func() (working.Working, error) {
		x, err := m.solved.ThroughEnd(installation.End{Circuit: e.Name, Node: e.Node})
		return x.Working, err
	})
}

// Backing is what stands behind a node, looking away from one run: the greatest
// current that can flow in without opening a device. It is not limited where a
// battery feeds the node without one.
type Backing struct {
	LimitA    decimal.Decimal
	Unlimited bool
	Fed       bool            // any source at all
	Battery   bool            // a battery, devices between or not
	Guards    []End           // the nearest devices that set the limit together
	OwnA      decimal.Decimal // the part of it that sources limit themselves
}

// Behind looks from a node into everything but one run. It is found once. An end of the
// job is known to the installation; were it not, anything would stand behind it.
func (m *Facts) Behind(node string, but *Run) Backing {
	in, err := m.backs.get(but.EndAt(node).Path, func() (installation.Infeed, error) {
		return m.solved.FedFrom(installation.End{Circuit: but.Name, Node: node}, m.devices())
	})
	if err != nil {
		return Backing{Unlimited: true, Fed: true, Battery: true}
	}
	b := Backing{LimitA: in.LimitA.Decimal, Unlimited: !in.LimitA.Valid, Fed: in.Fed, Battery: in.Battery, OwnA: in.SourceA}
	for _, d := range in.Devices {
		b.Guards = append(b.Guards, m.run(d.End.Circuit).EndAt(d.End.Node))
	}
	return b
}

// OverloadedBeyond reports whether what draws beyond a run, seen from an end of it, can
// take more through the run than that carries: what no device stands before can, and
// devices let through the sum of their ratings.
func (m *Facts) OverloadedBeyond(e End) bool {
	through := map[*Run]decimal.Decimal{}
	_, _, bare := m.reach(e.Far, e.Run, func(r *Run, at string) bool {
		rating, guarded := r.leastRating()
		if guarded && m.drawsPast(r, at) {
			through[r] = rating
		}
		return !guarded
	}, m.draws)
	sum := decimal.Zero
	for _, rating := range through {
		sum = sum.Add(rating)
	}
	return bare || sum.GreaterThan(e.Carried())
}

// draws reports whether something at a node draws: a vehicle does on its own batteries
// and alternators.
func (m *Facts) draws(at string) bool {
	return slices.Contains(m.consumers(), at) || m.IsBattery(at) && !m.calledHouse(at) ||
		slices.ContainsFunc(m.Job.Alternators, func(a job.Alternator) bool { return a.Name == at && a.VehicleA.IsPositive() })
}

// drawsPast reports whether anything draws behind a run, seen from a node that it
// touches.
func (m *Facts) drawsPast(r *Run, at string) bool {
	_, _, draws := m.reach(r.OtherEnd(at), r, func(*Run, string) bool { return true }, m.draws)
	return draws
}

// leastRating is that of the smaller of a run's devices, if it has any.
func (r *Run) leastRating() (least decimal.Decimal, ok bool) {
	for _, d := range []*job.Device{r.Device, r.FarDevice} {
		if d != nil && (!ok || d.RatingA.LessThan(least)) {
			least, ok = d.RatingA, true
		}
	}
	return least, ok
}

// devices are those at all ends, as far as a cable sees them.
func (m *Facts) devices() []installation.Device {
	var all []installation.Device
	for _, r := range m.Runs {
		for _, e := range []End{r.EndAt(r.From), r.EndAt(r.To)} {
			if e.Fitted != nil {
				all = append(all, installation.Device{End: installation.End{Circuit: e.Name, Node: e.Node}, RatingA: e.Fitted.RatingA})
			}
		}
	}
	return all
}

// run is that of a name.
func (m *Facts) run(name string) *Run {
	return m.Runs[slices.IndexFunc(m.Runs, func(r *Run) bool { return r.Name == name })]
}

// sourceAt reports whether a battery, an alternator or a charger stands at a node.
func (m *Facts) sourceAt(node string) bool {
	return m.IsBattery(node) || slices.ContainsFunc(m.Job.Alternators, func(a job.Alternator) bool { return a.Name == node }) ||
		slices.ContainsFunc(m.Job.Chargers, func(c job.Charger) bool { return c.Name == node })
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
