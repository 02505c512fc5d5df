package facts

import (
	"slices"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/protect"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// HardestStart is the most that a run carries while something starts: what the
// job states of its switch, or a load that the run feeds on top of all others.
// It is unset where nothing does.
func (m *Facts) HardestStart(r *Run) (decimal.NullDecimal, working.Working) {
	hardest, lines := r.Switch.StartA, working.Working(nil)
	for _, l := range m.Job.Loads {
		if !StartsHard(l) || !m.OnTheWay(r, l.Node()) {
			continue
		}
		w, ok := m.Starting(r, l)
		if a, _ := w.Value("I_sg"); ok && a.GreaterThan(hardest.Decimal) {
			hardest, lines = decimal.NewNullDecimal(a), w
		}
	}
	if lines != nil {
		lines.Calc("I_st", "I_sg", hardest.Decimal, Sums)
	}
	return hardest, lines
}

// OnTheWay reports whether a run lies between a node and a source.
func (m *Facts) OnTheWay(r *Run, node string) bool {
	return m.Between(r, node, m.sourceNodes())
}

// Contact is a switch or relay with what it carries at the worst. One that is
// said to switch a resistive load and feeds what starts hard switches a motor.
func (m *Facts) Contact(r *Run) protect.Switch {
	s := protect.Switch{SystemV: m.Job.SystemV, CurrentA: decimal.Max(r.Switched().A, Least), Load: r.Switch.Load, RatingA: r.Switch.RatingA, MakesA: r.Switch.MakesA}
	for _, l := range m.Job.Loads {
		if s.Load == "resistive" && l.At != "" && StartsHard(l) && m.OnTheWay(r, l.At) && (l.Cranking || l.SurgeW.Decimal.GreaterThan(m.watts(l))) {
			s.Load = "motor"
			s.From.Given("P_su", l.SurgeW.Decimal)
			s.From.Note("what " + l.Name + " takes to start is no resistive load: judged as a motor")
		}
	}
	return s
}

// HasOwnContact reports whether a switch stands in the run that ends at a node.
func (m *Facts) HasOwnContact(node string) bool {
	return slices.ContainsFunc(m.Runs, func(r *Run) bool { return r.Switch != nil && r.OtherEnd(node) != "" })
}

// OnLithium reports whether cables join a node to a lithium battery.
func (m *Facts) OnLithium(node string) bool {
	return slices.ContainsFunc(m.Job.Batteries, func(b job.Battery) bool {
		return b.Chemistry.Is(tables.LiIon) && m.Joined(b.Name, node)
	})
}

// Fills is the filling of an inverter's input: through its resistor, taken down
// to 0.01 Ω, or with what the installation gives into a short circuit.
func (m *Facts) Fills(inv job.Inverter) (protect.Resistor, error) {
	if !inv.PrechargeOhm.Valid {
		f, err := m.Fault(inv.Name)
		if err != nil {
			return protect.Resistor{}, err
		}
		filled, err := m.Filling(inv, One)
		filled.PeakA = f.FaultA
		return filled, err
	}
	const places = 9
	ohm := inv.PrechargeOhm.Decimal.RoundFloor(2)
	return m.Filling(inv, m.HighestV(inv.Name).DivRound(ohm, places).Add(decimal.New(1, -places)))
}

// One ampere is as good as any where only the energy is wanted, which does not
// depend on the current.
var One = decimal.NewFromInt(1)

// Filling is the filling of an inverter's input with a greatest current.
func (m *Facts) Filling(inv job.Inverter, limitA decimal.Decimal) (protect.Resistor, error) {
	return protect.Precharge{
		HighestV: m.HighestV(inv.Name), CapacitanceUF: inv.InputUF.Decimal, LimitA: limitA,
	}.Resistor()
}

// WeakestContact is the switch on the way from the batteries to a node that
// bears least, or nil.
func (m *Facts) WeakestContact(node string) *job.Switch {
	var weakest *job.Switch
	for _, r := range m.Runs {
		if r.Switch == nil || !m.OnTheWay(r, node) {
			continue
		}
		if weakest == nil || Bears(r.Switch).LessThan(Bears(weakest)) {
			weakest = r.Switch
		}
	}
	return weakest
}

// Momentary is the symbol of what a contact bears for a moment.
func Momentary(s *job.Switch) string {
	if s.ShortTimeA.Valid {
		return "I_cw"
	}
	return "I_sw"
}

// Bears is what a contact bears for a moment, as far as the job states it.
func Bears(s *job.Switch) decimal.Decimal {
	if s.ShortTimeA.Valid {
		return s.ShortTimeA.Decimal
	}
	return s.RatingA
}
