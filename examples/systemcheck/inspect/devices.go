package inspect

import (
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/protect"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// deviceDue asks of each end that a source can feed whether a device guards the
// conductor there: one of its own, or what stands behind the end.
func deviceDue(m *model) ([]Finding, error) {
	var all []Finding
	for _, e := range m.ends() {
		back := m.behind(e.node, e.run)
		if !back.fed {
			continue
		}
		due := protect.End{Fitted: e.device != nil, Cranking: e.Cranking, AmpacityA: e.carried(), From: e.ampacity.Working}
		if !back.unlimited {
			due.LimitA = decimal.NewNullDecimal(back.limitA)
		}
		c, err := due.Check()
		if err != nil {
			return nil, working.In(e.run.path, err)
		}
		all = append(all, Finding{Check: c, Where: e.where(), Path: e.run.path, RuleSet: m.set.Name})
	}
	return all, nil
}

// least is what a run carries where its ambient ends the table: next to nothing,
// so that no limited source is small enough for it.
var least = decimal.New(1, -2)

// carried is the ampacity of a run.
func (r *run) carried() decimal.Decimal {
	if r.noAmps != nil || !r.ampacity.AmpacityA.IsPositive() {
		return least
	}
	return r.ampacity.AmpacityA
}

// ruled is the window of one fitted device and its three checks.
type ruled struct {
	window protect.Window
	checks []working.Check
}

// window returns the window of the device at an end; it is worked out once.
func (m *model) window(e end) (ruled, error) {
	if r, ok := m.windows[e.path]; ok {
		return r, nil
	}
	need := protect.Need{
		DesignA: decimal.Max(e.designA, least), AmpacityA: e.carried(), Continuous: m.continuous(e.run),
		AmbientC: e.device.AmbientC, SetName: m.set.Name, From: e.ampacity.Working,
	}
	w, err := need.Window(m.set.Device, e.device.Family)
	if err != nil {
		return ruled{}, working.In(e.path, err)
	}
	r := ruled{w, w.Checks(e.device.RatingA)}
	m.windows[e.path] = r
	return r, nil
}

// continuous reports whether a run feeds a load that lasts, or charges, from
// whichever source.
func (m *model) continuous(r *run) bool {
	var nodes []string
	for _, l := range m.job.Loads {
		if l.Continuous {
			nodes = append(nodes, l.Node())
		}
	}
	for _, c := range m.job.Chargers {
		nodes = append(nodes, c.Name, c.FedAt)
	}
	return slices.ContainsFunc(nodes, func(node string) bool { return m.onTheWay(r, node) })
}

// sourceNodes lists the nodes of batteries and alternators.
func (m *model) sourceNodes() []string {
	var all []string
	for _, b := range m.job.Batteries {
		all = append(all, b.Name)
	}
	for _, a := range m.job.Alternators {
		all = append(all, a.Name)
	}
	return all
}

// fitted runs one question over every end that has a device.
func (m *model) fitted(ask func(e end) (working.Check, error)) ([]Finding, error) {
	var all []Finding
	for _, e := range m.ends() {
		if e.device == nil {
			continue
		}
		c, err := ask(e)
		if err != nil {
			return nil, err
		}
		all = append(all, Finding{Check: c, Where: e.where(), Path: e.path, RuleSet: m.set.Name})
	}
	return all, nil
}

// ofWindow returns one of the three checks of the window: 0 it carries its
// load, 1 it protects the conductor, 2 it opens in time.
func (m *model) ofWindow(which int) ([]Finding, error) {
	return m.fitted(func(e end) (working.Check, error) {
		r, err := m.window(e)
		if err != nil {
			return working.Check{}, err
		}
		c := r.checks[which]
		switch {
		case e.noAmps != nil && !errors.Is(e.noAmps, tables.ErrOutside):
			c = working.Check{ID: c.ID, Silent: "the rule set gives the conductor no ampacity"}
		case which == 1 && e.Cables != nil:
			c = working.Check{ID: c.ID, Silent: parallelText}
		case which == 0 && e.designA.GreaterThan(e.carried()):
			c = working.Check{ID: c.ID, Silent: "the cable itself does not carry the load: see W01"}
		case which == 2 && r.checks[1].Verdict() == working.Fails:
			c = working.Check{ID: c.ID, Silent: e.overratedText()}
		}
		return c, nil
	})
}

func carriesLoad(m *model) ([]Finding, error) { return m.ofWindow(0) }
func protects(m *model) ([]Finding, error)    { return m.ofWindow(1) }
func opensInTime(m *model) ([]Finding, error) { return m.ofWindow(2) }

// breaks compares each device's breaking capacity with the greatest fault that
// it may have to interrupt, fed from either side.
func breaks(m *model) ([]Finding, error) { return m.breaking(0) }

// ratedVolts compares its rated voltage with the highest at which the job works.
func ratedVolts(m *model) ([]Finding, error) { return m.breaking(1) }

func (m *model) breaking(which int) ([]Finding, error) {
	return m.fitted(func(e end) (working.Check, error) {
		through, err := m.throughDevice(e)
		if err != nil {
			return working.Check{}, err
		}
		fault, _ := through.Value("I_k")
		checks, err := protect.Breaking{
			FaultA: fault, HighestV: m.highestV(e.node), Family: e.device.Family, Lithium: m.lithium(),
			BreaksA: e.device.BreaksA, BreaksAtV: e.device.BreaksAtV, RatedV: e.device.RatedV, From: through,
		}.Checks()
		if err != nil {
			return working.Check{}, working.In(e.path, err)
		}
		return checks[which], nil
	})
}

// closeEnough compares the length of conductor before each device that no other
// stands behind with what the set allows.
func closeEnough(m *model) ([]Finding, error) {
	var all []Finding
	for _, e := range m.ends() {
		if e.device == nil || !m.behind(e.node, e.run).unlimited {
			continue
		}
		c, err := protect.Place{
			AlongMM: e.device.AlongMM, Sheathed: e.Sheathed, AtBattery: m.isBattery(e.node), SetName: m.set.Name,
		}.Check(m.set.Place)
		if err != nil {
			return nil, working.In(e.path, err)
		}
		all = append(all, Finding{Check: c, Where: e.where(), Path: e.path, RuleSet: m.set.Name})
	}
	return all, nil
}

// smallCodes names the code by which a rule set caps devices on small
// conductors; its figures hold at 12 V.
var smallCodes = map[string]string{"us-rv": "nec-rv"}

// withinCap compares each device with the cap that the rule set puts on a small
// conductor, whatever its ampacity.
func withinCap(m *model) ([]Finding, error) {
	code, capped := smallCodes[m.set.Key]
	if !capped || !m.job.SystemV.Equal(decimal.NewFromInt(12)) {
		return notHere("P23", "the circuits", "circuits", fmt.Sprintf("%s caps no device by the size of its conductor at %s V", m.set.Name, m.job.SystemV)), nil
	}
	return m.fitted(func(e end) (working.Check, error) {
		over, err := m.overrated(e)
		if over || err != nil {
			return working.Check{ID: "P23", Silent: e.overratedText()}, err
		}
		c, err := protect.SmallWire{Size: e.Size, RatingA: e.device.RatingA}.Check(code)
		return c, working.In(e.path, err)
	})
}
