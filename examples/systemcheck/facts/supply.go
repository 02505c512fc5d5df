package facts

import (
	"fmt"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Unit is a load at a node or an inverter, as a thing that its supply can
// starve or destroy.
type Unit struct {
	Name, Node, Path string
	LeastV           decimal.NullDecimal // that rule W04 holds it to
	job.Supplied
}

func (m *Facts) Units() []Unit {
	var all []Unit
	for i, l := range m.Job.Loads {
		if l.At != "" && !l.Cranking { // a starter motor has no electronics
			all = append(all, Unit{l.Name, l.At, Indexed("loads", i), l.LeastV, l.Supplied})
		}
	}
	for i, v := range m.Job.Inverters {
		all = append(all, Unit{v.Name, v.Name, Indexed("inverters", i), decimal.NewNullDecimal(v.CutOutV), v.Supplied})
	}
	return all
}

// Ranged reports whether anything is said of the unit's range of supply voltage.
func (u Unit) Ranged() bool { return u.SupplyCode != "" || u.WorksFromV.Valid || u.WorksToV.Valid }

// Decides reports whether the highest voltage that a unit bears decides a danger:
// of an inverter, whose input is destroyed beyond it, of all that an alternator
// feeds, which holds its voltage for its own battery alone, and of what works below half
// of the nominal voltage: it may be made for a system of half the voltage.
func (m *Facts) Decides(u Unit) bool {
	if u.LeastV.Valid && u.LeastV.Decimal.Mul(decimal.NewFromInt(2)).LessThan(m.Job.SystemV) {
		return true
	}
	charged, _ := m.AlternatorsAt(u.Node)
	_, inverter := m.Inverter(u.Name)
	return charged || inverter
}

// Indexed is the path of an entry of a list of the job file.
func Indexed(list string, i int) string { return fmt.Sprintf("%s[%d]", list, i) }

// LadderTo lays out the drops down to a node as those of its supply; nothing
// where no voltage holds.
func LadderTo(c Solved, node string, low decimal.Decimal) working.Working {
	ladder, err := c.Ladder(node)
	if err != nil || c.CollapsedAt() != "" {
		return nil
	}
	w := working.Start(ladder.Working)
	w.Calc("U_s1", "U_L", low, cite.Kirchhoff.At("", cite.Published))
	return w
}

// PartedWith names a run whose switch, as it opens, leaves an alternator to a converter's
// input without any battery, and whether every such alternator clamps its load dump; ""
// where none does.
func (m *Facts) PartedWith(c job.Charger) (by string, clamped bool) {
	clamped = true
	for _, a := range m.Job.Alternators {
		for _, r := range m.Runs {
			fed := func(node string) bool { return node == c.FedAt }
			if r.Switch != nil && c.FedAt != "" && m.reaches(a.Name, r.place(), fed) && !m.reaches(a.Name, r.place(), m.IsBattery) {
				by, clamped = r.Name, clamped && a.ClampsDump
			}
		}
	}
	return by, clamped
}

// AlternatorsAt reports whether an alternator is in a node's part of the
// network, and whether every one there clamps its load dump.
func (m *Facts) AlternatorsAt(node string) (charged, clamped bool) {
	clamped = true
	for _, a := range m.Job.Alternators {
		if m.Joined(a.Name, node) {
			charged, clamped = true, clamped && a.ClampsDump
		}
	}
	return charged, clamped
}
