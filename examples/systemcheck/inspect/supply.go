package inspect

import (
	"fmt"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/protect"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// unit is a load at a node or an inverter, as a thing that its supply can
// starve or destroy.
type unit struct {
	name, node, path string
	leastV           decimal.NullDecimal // that rule W04 holds it to
	job.Supplied
}

func (m *model) units() []unit {
	var all []unit
	for i, l := range m.job.Loads {
		if l.At != "" && !l.Cranking { // a starter motor has no electronics
			all = append(all, unit{l.Name, l.At, indexed("loads", i), l.LeastV, l.Supplied})
		}
	}
	for i, v := range m.job.Inverters {
		all = append(all, unit{v.Name, v.Name, indexed("inverters", i), decimal.NewNullDecimal(v.CutOutV), v.Supplied})
	}
	return all
}

// ranged reports whether anything is said of the unit's range of supply voltage.
func (u unit) ranged() bool { return u.SupplyCode != "" || u.WorksFromV.Valid || u.WorksToV.Valid }

// decides reports whether the highest voltage that a unit bears decides a danger:
// of an inverter, whose input is destroyed beyond it, and of all that an alternator
// feeds, which holds its voltage for its own battery alone.
func (m *model) decides(u unit) bool {
	charged, _ := m.alternatorsAt(u.node)
	_, inverter := m.inverter(u.name)
	return charged || inverter
}

// indexed is the path of an entry of a list of the job file.
func indexed(list string, i int) string { return fmt.Sprintf("%s[%d]", list, i) }

const (
	rangeText = "its range of supply voltage is not stated"
	highText  = "ask for the highest supply voltage that it bears (its data sheet, or its code of ISO 16750-2), and state works_to_v or supply_code"
	idleText  = "no state runs it on the batteries"
	starved   = "too little voltage reaches it in the first place: see W04"
)

// suitsSupply compares the range of supply voltage of each unit that states one
// with the lowest voltage that reaches it and the highest in its part of the
// network.
func suitsSupply(m *model) ([]Finding, error) {
	var all []Finding
	for _, u := range m.units() {
		checks, corner, err := m.supplied(u)
		if err != nil {
			return nil, working.In(u.path, err)
		}
		for _, c := range checks {
			f := Finding{Check: c, Where: u.name, Path: u.path}
			if c.ID == "P17" {
				f.Corner = corner
			}
			all = append(all, f)
		}
	}
	return all, nil
}

func (m *model) supplied(u unit) (checks []working.Check, corner string, err error) {
	worst, low, ok := m.worstFor(u.name, u.node)
	switch {
	case !u.ranged() && m.decides(u):
		return []working.Check{{ID: "P18", Missing: highText}}, "", nil
	case !u.ranged():
		return []working.Check{{ID: "P17", Silent: rangeText}}, "", nil
	case !ok:
		return []working.Check{{ID: "P17", Silent: idleText}}, "", nil
	}
	x := protect.ConnectedUnit{
		LeastSupplyV: decimal.NewNullDecimal(low), GreatestSupplyV: m.highestV(u.node), Code: u.SupplyCode, LeastV: u.WorksFromV, GreatestV: u.WorksToV,
	}
	high, err := x.Checks()
	if err != nil {
		return nil, "", err
	}
	x.From = ladderTo(worst, u.node, low)
	lowest, err := x.Checks()
	if err != nil {
		return nil, "", err
	}
	checks = []working.Check{lowest[0], high[1]}
	if checks[0].Verdict() == working.CannotTell { // W04 holds it to the lowest
		checks[0].Missing, checks[0].Silent = "", rangeText
	}
	if checks[1].Verdict() == working.CannotTell {
		checks[1].Missing = highText
	}
	if u.leastV.Valid && low.LessThan(u.leastV.Decimal) {
		checks[0].Silent = starved
	}
	return checks, worst.name, nil
}

// ladderTo lays out the drops down to a node as those of its supply; nothing
// where no voltage holds.
func ladderTo(c solved, node string, low decimal.Decimal) working.Working {
	ladder, err := c.Ladder(node)
	if err != nil || c.CollapsedAt != "" {
		return nil
	}
	w := working.Start(ladder.Working)
	w.Calc("U_s1", "U_L", low, cite.Kirchhoff.At("", cite.Published))
	return w
}

// survivesDump asks of each unit that shares its part of the network with an
// alternator whether it survives a battery that drops out while that charges.
func survivesDump(m *model) ([]Finding, error) {
	var all []Finding
	for _, u := range m.units() {
		f := Finding{Where: u.name, Path: u.path, Check: working.Check{ID: "P19"}}
		charged, clamped := m.alternatorsAt(u.node)
		switch {
		case !charged:
			f.Silent = "no alternator charges its part of the network"
		case !u.SurvivesV.Valid:
			f.Missing = "ask what load dump it survives (ISO 16750-2), and state survives_v"
		default:
			c, err := protect.LoadDump{NominalV: m.job.SystemV, Suppressed: clamped, SurvivesV: u.SurvivesV}.Check()
			if err != nil {
				return nil, working.In(u.path, err)
			}
			f.Check = c
		}
		all = append(all, f)
	}
	return all, nil
}

// survivesMishaps asks of each unit that states it whether it survives a supply
// the wrong way round and, where an alternator is, a jump start.
func survivesMishaps(m *model) ([]Finding, error) {
	var all []Finding
	for _, u := range m.units() {
		started, _ := m.alternatorsAt(u.node)
		for _, x := range []struct {
			kind  string
			bears decimal.NullDecimal
			may   bool
		}{
			{"reversed voltage", u.SurvivesReversedV, true},
			{"jump start", u.SurvivesJumpV, started && m.job.SystemV.Equal(decimal.NewFromInt(12))}, // no table has that of 24 V
		} {
			if !x.bears.Valid || !x.may {
				continue
			}
			c, err := protect.SupplyTest{NominalV: m.job.SystemV, Kind: x.kind, SurvivesV: x.bears}.Check()
			if err != nil {
				return nil, working.In(u.path, err)
			}
			all = append(all, Finding{Check: c, Where: u.name + ", " + x.kind, Path: u.path})
		}
	}
	if len(all) == 0 {
		return notHere("P28", "the loads", "loads", "none states what it survives the wrong way round or in a jump start"), nil
	}
	return all, nil
}

// alternatorsAt reports whether an alternator is in a node's part of the
// network, and whether every one there clamps its load dump.
func (m *model) alternatorsAt(node string) (charged, clamped bool) {
	clamped = true
	for _, a := range m.job.Alternators {
		if m.joined(a.Name, node) {
			charged, clamped = true, clamped && a.ClampsDump
		}
	}
	return charged, clamped
}
