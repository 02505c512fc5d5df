package facts

import (
	"fmt"
	"slices"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"example.org/extralow/wire/installation"
	"github.com/shopspring/decimal"
)

// drawn is the job as one drawing of all its conductors: what package installation
// solves. What batteries, inverters and converters are comes in as numbers.
func (m *Facts) drawn() (installation.Installation, error) {
	in := installation.Installation{Rule: m.heatRule()}
	for _, r := range m.Runs {
		in.Circuits = append(in.Circuits, m.circuit(r))
	}
	for _, b := range m.Job.Batteries {
		in.Batteries = append(in.Batteries, installation.Battery{
			Name: b.Name, Bank: b.Bank, FullV: b.FullV, EmptyV: b.EmptyV, LeastV: b.EmptyV, LowMilliohm: m.low(b), HighMilliohm: m.High(b),
		})
	}
	for _, a := range m.Job.Alternators {
		in.Sources = append(in.Sources, installation.Source{
			Name: a.Name, HeldV: a.RunsAtV, LeastHeldV: decimal.NewNullDecimal(Lowest(a)), GreatestA: decimal.Max(a.RatedA, a.IdleA.Decimal),
			LimitsItself: a.SelfLimiting, ShortA: a.ShortA, OwnLoadsA: decimal.NewNullDecimal(a.VehicleA),
		})
	}
	for _, c := range m.Job.Chargers {
		in.Sources = append(in.Sources, m.source(c))
	}
	loads, err := m.drawnLoads()
	if err != nil {
		return in, err
	}
	in.Loads = loads
	for i := range m.Job.States {
		s, err := m.drawnState(&m.Job.States[i])
		if err != nil {
			return in, err
		}
		in.States = append(in.States, s)
	}
	return in, nil
}

// heatRule is the rule set's ampacities, with the factors of the strictest other set
// where it derates no cables that lie together: copper that others heat is hot under
// whatever set.
func (m *Facts) heatRule() tables.AmpacityRule {
	rule := m.Set.Ampacity
	for _, r := range m.Runs {
		if r.Bundle.Set != "" {
			rule.Grouping = r.Bundle.grouping
		}
	}
	return rule
}

// circuit is a run as it is laid.
func (m *Facts) circuit(r *Run) installation.Circuit {
	c := installation.Circuit{
		Name: r.Name, From: r.From, To: r.To, JointsMilliohm: r.ContactsMilliohm, Cables: r.Count(), Unlike: r.Sharing() < r.Count(),
		Sections: []wire.Section{{LengthM: r.LengthM, Conductor: r.conductor}},
	}
	if r.Return == "chassis" {
		c.ReturnMilliohm = decimal.NewNullDecimal(r.ChassisMilliohm.Decimal)
	}
	if r.Switch != nil {
		c.Switch = installation.UsuallyClosed
		if m.usuallyOpen(r.place()) {
			c.Switch = installation.UsuallyOpen
		}
	}
	return c
}

// source is a charger, a converter or a controller of a solar array. The sun may shine
// in any state.
func (m *Facts) source(c job.Charger) installation.Source {
	s := installation.Source{Name: c.Name, HeldV: c.OutputV, GreatestA: c.MaxA, LimitsItself: true, Always: c.Kind == "solar", FedAt: c.FedAt}
	if c.FedAt != "" {
		s.InputW = decimal.NewNullDecimal(inputW(c))
	}
	if c.FedAt != "" && c.LeastInputV.Valid && !m.parting(c.FedAt) {
		s.InputA = decimal.NewNullDecimal(inputW(c).DivRound(c.LeastInputV.Decimal, 4))
	}
	return s
}

// drawnLoads are the loads at nodes, and inverters, which are laid for all that they can
// give at their cut-out voltage.
func (m *Facts) drawnLoads() ([]installation.Load, error) {
	var all []installation.Load
	for i, l := range m.Job.Loads {
		if l.At == "" {
			continue
		}
		x := m.drawnLoad(l)
		var err error
		if x.EquivalentA, err = m.equivalent(l); err != nil {
			return nil, working.In(Indexed("loads", i), err)
		}
		all = append(all, x)
	}
	for i, inv := range m.Job.Inverters {
		d, err := inverterOf(inv).Draw(inv.RatedW, inv.CutOutV)
		if err != nil {
			return nil, working.In(Indexed("inverters", i), err)
		}
		all = append(all, installation.Load{
			Name: inv.Name, Node: inv.Name, Takes: watts(d.InputW), Full: installation.Demand{CurrentA: decimal.NewNullDecimal(d.CurrentA)},
		})
	}
	return append(all, m.vehicles()...), nil
}

// vehicles stand for what the vehicle itself has on its own batteries: little is known
// of it, and nothing counted here, but that it is there to feed makes a link of the
// switch that parts such a battery from the house.
func (m *Facts) vehicles() []installation.Load {
	var all []installation.Load
	for _, b := range m.Job.Batteries {
		if b.Bank != "house" {
			all = append(all, installation.Load{Name: "the vehicle on " + b.Name, Node: b.Name, Takes: installation.Demand{CurrentA: decimal.NewNullDecimal(decimal.Zero)}})
		}
	}
	return all
}

func watts(w decimal.Decimal) installation.Demand {
	return installation.Demand{PowerW: decimal.NewNullDecimal(w)}
}

// drawnLoad is a load as the solver takes it. It starts as it runs, with more.
func (m *Facts) drawnLoad(l job.Load) installation.Load {
	x := installation.Load{
		Name: l.Name, Node: l.At, Takes: m.demand(l, l.PowerW, l.CurrentA), LeastV: l.LeastV, Cranks: l.Cranking, StartLasts: StartLasts(l),
	}
	if l.SurgeW.Valid {
		x.Starts = m.demand(l, decimal.NewNullDecimal(decimal.Max(l.SurgeW.Decimal, m.watts(l))), decimal.NullDecimal{})
	}
	if l.Cranking {
		drawn, _ := m.Cranking(l).Value("I_sg")
		x.Starts = installation.Demand{CurrentA: decimal.NewNullDecimal(drawn)}
	}
	return x
}

// demand is what a load draws that is stated at the nominal voltage in watts or in
// amperes, turned into what stays the same.
func (m *Facts) demand(l job.Load, powerW, currentA decimal.NullDecimal) installation.Demand {
	power, current := powerW.Decimal, currentA.Decimal
	if powerW.Valid {
		current = power.DivRound(m.Job.SystemV, 4)
	} else {
		power = current.Mul(m.Job.SystemV)
	}
	switch l.Behaves {
	case "power":
		return watts(power)
	case "current":
		return installation.Demand{CurrentA: decimal.NewNullDecimal(current)}
	}
	return installation.Demand{Ohm: decimal.NewNullDecimal(m.Job.SystemV.DivRound(current, 6))}
}

// drawnState is what runs in a state, an inverter with what it feeds.
func (m *Facts) drawnState(s *job.State) (installation.State, error) {
	x := installation.State{Name: s.Name}
	for i, a := range m.Job.Alternators {
		if !slices.Contains(s.Sources, a.Name) {
			continue
		}
		most, err := m.Output(a, s.Engine)
		if err != nil {
			return x, working.In(Indexed("alternators", i), err)
		}
		x.Sources = append(x.Sources, installation.Supply{Source: a.Name, CurrentA: decimal.NewNullDecimal(most)})
	}
	for _, c := range m.chargersIn(s) {
		x.Sources = append(x.Sources, installation.Supply{Source: c.Name})
	}
	for _, l := range m.Job.Loads {
		if l.At != "" && slices.Contains(s.Loads, l.Name) {
			x.Loads = append(x.Loads, installation.LoadUse{Load: l.Name})
		}
	}
	for i, inv := range m.Job.Inverters {
		out := m.InverterOut(inv, s)
		if !out.IsPositive() {
			continue
		}
		in, err := inverterIn(inv, out)
		if err != nil {
			return x, working.In(fmt.Sprintf("inverters[%d]", i), err)
		}
		x.Loads = append(x.Loads, installation.LoadUse{Load: inv.Name, Takes: watts(in)})
	}
	return x, nil
}
