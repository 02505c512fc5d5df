package rules

import (
	"errors"
	"slices"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var ofLink = []Rule{
	{
		ID: "P27", Title: "The link bears the moment that it closes",
		Danger:  "the contact welds or the fuse of the link opens when the banks are joined",
		Why:     "a full battery and its charging sources drive their whole difference of voltage through the link into an empty one",
		Sources: []string{"Kirchhoff's laws"},
		Grade:   Dangerous, Rank: 110,
		Changes: Cables | Devices,
		Tries:   []Try{OtherRating},
		Advice:  "fit a link for that current, charge the empty bank before the two are joined, or charge it through a converter that limits the current",
		Worse: []Growth{
			{"batteries.low_milliohm", "÷3"},
		},
		Judge: linksBear,
	},
}

// linksBear asks of each switch that joins batteries to batteries what flows
// through it at the moment when it closes: the difference of their voltages over
// all resistance, as far as the sources go. The contact must bear that, the devices
// beside it carry it, so do the cables on its way, and the units of lithium batteries
// stay closed: it lasts for as long as the two sides differ.
func linksBear(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, r := range m.Runs {
		if r.Switch == nil {
			continue
		}
		ways, err := m.Closings(r)
		if err != nil {
			return nil, working.In(r.Path, err)
		}
		carried, corner := facts.Most(r, ways)
		if carried == nil {
			continue
		}
		all = append(all, unitsBear(m, r, ways)...)
		all = append(all, cablesBear(m, r, ways)...)
		contact := working.Start(carried)
		contact.Given(facts.Momentary(r.Switch), facts.Bears(r.Switch))
		all = append(all, Finding{
			Check: contact.Check("P27", "", "I_cl", facts.Momentary(r.Switch)), Where: r.Name + ", its " + r.Switch.Kind, Circuit: r.Name, Path: r.Path + ".switch", Case: corner,
		})
		fitted, err := devicesBear(m, r, ways)
		if err != nil {
			return nil, err
		}
		all = append(all, fitted...)
	}
	if len(all) == 0 {
		return notHere("P27", "the circuits", "circuits", "no switch joins batteries to others"), nil
	}
	return all, nil
}

// devicesBear asks of each device on the way of a link whether it carries what flows
// as that closes: at the ends of the link whatever that is, elsewhere what one full bank
// drives into an empty one beyond what the run is designed for.
func devicesBear(m *facts.Facts, link *facts.Run, ways []facts.Closing) ([]Finding, error) {
	var all []Finding
	uneven := slices.DeleteFunc(slices.Clone(ways), func(c facts.Closing) bool { return c.OneBank })
	for _, e := range m.Ends() {
		if e.Fitted == nil {
			continue
		}
		f := Finding{Where: e.Where(), Circuit: e.Name, Node: e.Node, Path: e.Path}
		carried, corner := facts.Most(e.Run, ways)
		if e.Run != link {
			f.Where += ", as " + link.Name + " closes"
			carried, corner = facts.Most(e.Run, uneven)
			if carried == nil || !carried[0].Value.GreaterThan(decimal.Max(e.DesignA, facts.Least)) {
				continue
			}
		}
		var err error
		if f.Check, err = withoutEnd(e, "P27", carried, "I_cl"); err != nil {
			return nil, working.In(e.Path, err)
		}
		f.Case = corner
		all = append(all, f)
	}
	return all, nil
}

// withoutEnd compares a current with what a device carries without end: its conventional
// holding current, or its rating where its standard fixes none. That it holds for a
// moment does not help: two banks take minutes to come together.
func withoutEnd(e facts.End, id string, from working.Working, demand string) (working.Check, error) {
	held, err := facts.Article(e.Fitted).ConventionalCurrents()
	if err != nil && !errors.Is(err, tables.ErrNotListed) {
		return working.Check{}, err
	}
	if err == nil && held.HoldsA.Valid {
		w := working.Start(from, held.Working)
		return w.Check(id, "", demand, "I_1"), nil
	}
	w := working.Start(from)
	w.Given("I_n", e.Fitted.RatingA)
	return w.Check(id, "", demand, "I_n"), nil
}

// unitsBear asks of each lithium battery whether its management unit stays closed
// as banks are joined: what the battery gives or takes against its own limit.
func unitsBear(m *facts.Facts, r *facts.Run, all []facts.Closing) []Finding {
	var found []Finding
	for i, b := range m.Job.Batteries {
		if !b.Chemistry.Has(tables.ManagementUnit) {
			continue
		}
		f := Finding{Where: b.Name + ", as " + r.Name + " closes", Path: facts.Indexed("batteries", i)}
		for _, c := range all {
			a := c.Given(b.Name)
			limit := b.MaxDischargeA
			if a.IsNegative() {
				limit = b.MaxChargeA
			}
			if c.OneBank || !limit.Valid {
				continue
			}
			w := c.Line(a.Abs())
			w.Given("I_bm", limit.Decimal)
			if check := w.Check("P27", "", "I_cl", "I_bm"); f.Working == nil || check.Margin().LessThan(f.Margin()) {
				f.Check = check
			}
		}
		if f.Working != nil {
			found = append(found, f)
		}
	}
	return found
}

// cablesBear asks of the link and of every lead on its way whether it carries what one
// full bank drives into one that is nearly empty: they are not empty together, and take
// minutes to come together. Batteries of one bank differ for a moment only.
func cablesBear(m *facts.Facts, link *facts.Run, all []facts.Closing) []Finding {
	var found []Finding
	for _, r := range m.Runs {
		if r.NoAmps != nil {
			continue // W01 says so
		}
		f := Finding{Where: r.Name + ", as " + link.Name + " closes", Path: r.Path}
		for _, c := range all {
			a := c.Through(r)
			if c.OneBank || !a.GreaterThan(decimal.Max(r.Lasting().A, facts.Least)) {
				continue
			}
			w := working.Start(c.Line(a), r.Overall().Working)
			if check := w.Check("P27", "", "I_cl", "I_z"); f.Working == nil || check.Margin().LessThan(f.Margin()) {
				f.Check = check
			}
		}
		if f.Working != nil {
			found = append(found, f)
		}
	}
	return found
}
