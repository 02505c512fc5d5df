package rules

import (
	"fmt"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

var ofJoints = []Rule{
	{
		ID: "W09", Title: "The joints stay cool",
		Danger:  "a lug or a contact burns its insulation and what lies beside it, and no device opens",
		Why:     "a bad joint heats with the square of the current, and its cable carries off only so much",
		Sources: []string{"IEC 60947-1", "common practice"},
		Grade:   Dangerous, Rank: 160,
		RestsOn: Currents,
		Changes: Cables,
		Advice:  "make the joints anew: clean, crimped with the right die, tightened to their torque, and measure the millivolts across each under load",
		Worse: []Growth{
			{"circuits.contacts_milliohm", "×3"}, {"circuits.chassis_milliohm", "×4"},
		},
		Judge: jointsCool,
	},
}

// The contacts of a run are at least the four lugs of its two conductors, and those
// of a chassis return its two bolts; that they share its resistance evenly is what
// can be asked of a plan (common practice). What one of them really has is measured,
// and judged against its twins (W05).
var lugs, bolts = decimal.NewFromInt(4), decimal.NewFromInt(2)

// jointsCool asks of the contacts of each run, and of the bolts of a chassis return,
// how warm they get at the current that it carries without end, and on the way to a
// starter while the engine is cranked.
func jointsCool(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, r := range m.Runs {
		found, err := jointsOf(m, r, Finding{Where: r.Name, Circuit: r.Name, Path: r.Path, Case: r.Lasting().In}, wire.HotJoint{CurrentA: r.Lasting().A})
		if err != nil {
			return nil, working.In(r.Path, err)
		}
		all = append(all, found...)
	}
	cranked, err := jointsCranked(m)
	return append(all, cranked...), err
}

// jointsCranked asks so of each run on the way to a starter.
func jointsCranked(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, l := range m.StarterMotors() {
		drawn := m.Cranking(l)
		a, _ := drawn.Value("I_sg")
		for _, r := range m.Cranked(l) {
			f := Finding{Where: r.Name + whileCranked, Circuit: r.Name, Path: r.Path, Case: cranks()}
			found, err := jointsOf(m, r, f, wire.HotJoint{CurrentA: a, TimeS: decimal.NewNullDecimal(facts.CranksFor()), From: drawn})
			if err != nil {
				return nil, working.In(r.Path, err)
			}
			all = append(all, found...)
		}
	}
	return all, nil
}

// jointsOf judges a run's contacts and its chassis return at a current.
func jointsOf(m *facts.Facts, r *facts.Run, f Finding, j wire.HotJoint) ([]Finding, error) {
	var all []Finding
	for _, c := range []struct {
		what     string
		key      string
		milliohm decimal.Decimal
		joints   decimal.Decimal
	}{
		{", its contacts", "R_j", r.ContactsMilliohm, lugs},
		{", its chassis return", "R_rt", r.ChassisMilliohm.Decimal, bolts},
	} {
		if c.key == "R_rt" && r.Return != "chassis" {
			continue
		}
		g, err := f, error(nil)
		g.Where += c.what
		switch {
		case r.NoAmps != nil:
			g.Check = working.Check{ID: "W09", Silent: "the rule set gives its cable no ampacity: see W01"}
		case !j.CurrentA.IsPositive():
			g.Check = working.Check{ID: "W09", Silent: "no case puts a current on it"}
		case !c.milliohm.IsPositive() && c.key == "R_rt":
			g.Check = working.Check{ID: "W09", Silent: "no resistance is stated of it: see W08"}
		case !c.milliohm.IsPositive():
			g.Check = working.Check{ID: "W09", Missing: "measure the volts across them at a known current and state contacts_milliohm: lugs, a device or a switch have some"}
		default:
			g.Check, err = joint(r, j, c.key, c.milliohm, c.joints)
		}
		if err != nil {
			return nil, err
		}
		all = append(all, g)
	}
	return all, nil
}

// joint judges one of several joints that share a resistance.
func joint(r *facts.Run, j wire.HotJoint, symbol string, milliohm, joints decimal.Decimal) (working.Check, error) {
	area, err := r.Size.Area()
	if err != nil {
		return working.Check{}, err
	}
	w := working.Start(j.From)
	w.Given(symbol, milliohm)
	w.LookUp("n_jt", working.Figure{Value: joints, Source: cite.Practice.At("contacts alike", cite.CommonPractice)})
	j.Milliohm = w.CalcUp("R_jt", symbol+" ÷ n_jt", milliohm, joints, 6, cite.Arithmetic.At("", cite.Published))
	j.Ampacity, j.AreaMM2, j.From = r.Ampacity, area.Value.Mul(decimal.NewFromInt(int64(r.Sharing()))), w
	return j.Check()
}

const whileCranked = ", while the engine is cranked"

// cranks says for how long.
func cranks() string { return fmt.Sprintf("for %s s (SAE J537)", facts.CranksFor()) }
