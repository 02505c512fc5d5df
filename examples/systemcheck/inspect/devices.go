package inspect

import (
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/protect"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
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
		if e.device == nil && !back.unlimited && e.unrated() {
			all = append(all, Finding{Check: working.Check{ID: "P07", Missing: noAmpacityText}, Where: e.where(), Path: e.run.path, RuleSet: m.set.Name})
			continue
		}
		due := protect.ConductorEnd{Fitted: e.device != nil, Cranking: e.Cranking && m.cranks(e.run), AmpacityA: e.carried(), From: e.ampacity.Working}
		if !back.unlimited {
			due.LimitA = decimal.NewNullDecimal(back.limitA)
		}
		c, err := due.Check(m.placeRule(e))
		if err != nil {
			return nil, working.In(e.run.path, err)
		}
		all = append(all, Finding{Check: c, Where: e.where(), Path: e.run.path, RuleSet: m.set.Name})
	}
	return all, nil
}

// cranks reports whether a run serves nothing but cranking: behind one of its
// ends stands an engine's starter, and no battery, no charger and nothing else
// that draws current but at a device of its own, where it branches off. An
// alternator on the starter's posts charges through it: what guards its lead is
// asked at that lead.
func (m *model) cranks(r *run) bool {
	starters, others := m.starters(), append(m.consumers(), m.storesAndChargers()...)
	serves := func(node string) bool {
		found, alone := false, true
		m.reach(node, r, func(branch *run, at string) bool { return branch.endAt(at).device == nil }, func(at string) bool {
			found = found || slices.Contains(starters, at)
			alone = alone && !slices.Contains(others, at) && at != r.otherEnd(node)
			return false
		})
		return found && alone
	}
	return serves(r.From) || serves(r.To)
}

// starters lists the nodes of engines' starters.
func (m *model) starters() []string {
	var all []string
	for _, l := range m.job.Loads {
		if l.Cranking {
			all = append(all, l.At)
		}
	}
	return all
}

// storesAndChargers lists the nodes of batteries and chargers.
func (m *model) storesAndChargers() []string {
	var all []string
	for _, b := range m.job.Batteries {
		all = append(all, b.Name)
	}
	for _, c := range m.job.Chargers {
		all = append(all, c.Name)
	}
	return all
}

// noAmpacityText is of a run whose ampacity nobody can tell.
const noAmpacityText = "the rule set gives the conductor no ampacity: judge the job by one that does"

// unrated reports whether the rule set gives a run no ampacity.
func (r *run) unrated() bool { return r.noAmps != nil && !errors.Is(r.noAmps, tables.ErrOutside) }

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

// deviceWindow is the window of one fitted device, and beside it that of what its run
// carries among others, where its rule set derates none.
type deviceWindow struct {
	window   protect.Window
	bundled  *protect.Window
	allowedA decimal.Decimal // greatest rating on the conductor
}

// window returns the window of the device at an end; it is worked out once.
func (m *model) window(e end) (deviceWindow, error) {
	if f, ok := m.windows[e.path]; ok {
		return f, nil
	}
	need := protect.Need{
		DesignA: decimal.Max(e.designA, least), AmpacityA: e.carried(), Brief: !m.lasts(e.run),
		AmbientC: e.deviceAmbient(), AmbientFactor: e.ambientFactor(), SetName: m.set.Name, From: e.ampacity.Working,
		RatingsA: e.ownRatings(),
	}
	w, err := need.Window(m.set.Device, e.device.Family)
	if err != nil {
		return deviceWindow{}, working.In(e.path, err)
	}
	f := deviceWindow{window: w, allowedA: e.carried()}
	if of := m.set.Device.OfAmpacity; of.Stated() {
		f.allowedA = decimal.Min(of.Value, one).Mul(e.carried())
	}
	if e.bundle.set != "" {
		need.AmpacityA, need.From = e.carriedOverall(), e.bundle.Working
		among, err := need.Window(m.set.Device, e.device.Family)
		if err != nil {
			return deviceWindow{}, working.In(e.path, err)
		}
		f.bundled, f.allowedA = &among, decimal.Min(f.allowedA, e.carriedOverall())
	}
	m.windows[e.path] = f
	return f, nil
}

// windowChecks are the three checks of a window: that the device carries its load, that
// it protects the conductor as that holds overall, that it opens in time; and the
// second as the rule set has it by name, where that is the laxer.
type windowChecks struct {
	checks []working.Check
	named  *working.Check
}

func (f deviceWindow) judge(ratingA decimal.Decimal) windowChecks {
	all := f.window.Checks(ratingA)
	j := windowChecks{checks: all[:3]}
	if len(all) > 3 {
		named := all[1]
		all[1], j.named = all[3], &named
	}
	if f.bundled != nil {
		among := f.bundled.Checks(ratingA)
		all[1] = among[1]
		if len(among) > 3 {
			all[1] = among[3]
		}
	}
	return j
}

// ownRatings is the rating that is fitted, where the standard of its family lists
// none to choose from.
func (e end) ownRatings() []decimal.Decimal {
	if _, err := tables.Ratings(e.device.Family); errors.Is(err, tables.ErrNotListed) {
		return []decimal.Decimal{e.device.RatingA}
	}
	return nil
}

// deviceAmbient is the air round a device: the run's where the job states none.
func (e end) deviceAmbient() decimal.NullDecimal {
	if e.device.AmbientC.Valid {
		return e.device.AmbientC
	}
	return decimal.NewNullDecimal(e.AmbientC)
}

// ambientFactor is what the article's own data sheet says of that air.
func (e end) ambientFactor() decimal.NullDecimal {
	share := e.device.AmbientPercent
	share.Decimal = share.Decimal.Shift(-2)
	return share
}

// brief reports whether a load does not last: its longest run is stated, as no
// longer than the rule set says, or practice where that is silent. Hours a day are no
// run. The engine's starter turns for seconds.
func (m *model) brief(l job.Load) bool {
	longest, within := m.set.Device.BriefRun, l.LongestRunS.Decimal
	if !longest.Stated() {
		longest = tables.BriefRun()
	}
	if tables.StrictlyBelow(longest) && within.Equal(longest.Value) {
		return false
	}
	return l.Cranking || l.LongestRunS.Valid && within.LessThanOrEqual(longest.Value)
}

// lasts reports whether a run feeds anything that lasts, or charges, from whichever
// source. An inverter lasts as what it feeds does, and where nothing is known of that.
func (m *model) lasts(r *run) bool {
	var nodes []string
	for _, l := range m.job.Loads {
		if !m.brief(l) {
			nodes = append(nodes, l.Node())
		}
	}
	for _, v := range m.job.Inverters {
		if !slices.ContainsFunc(m.job.Loads, func(l job.Load) bool { return l.Inverter == v.Name }) {
			nodes = append(nodes, v.Name)
		}
	}
	for _, c := range m.job.Chargers {
		nodes = append(nodes, c.Name, c.FedAt)
	}
	return slices.ContainsFunc(nodes, func(node string) bool { return m.onTheWay(r, node) }) ||
		slices.ContainsFunc(m.job.Alternators, func(a job.Alternator) bool { return r.otherEnd(a.Name) != "" })
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
		f, err := m.window(e)
		if err != nil {
			return working.Check{}, err
		}
		r := f.judge(e.device.RatingA)
		c := r.checks[which]
		switch {
		case which == 2 && c.Verdict() == working.NotApplicable:
		case which > 0 && e.unrated():
			c = working.Check{ID: c.ID, Missing: noAmpacityText}
		case which == 1 && e.Cables != nil:
			c = working.Check{ID: c.ID, Silent: parallelText}
		case which == 0 && !e.unrated() && e.designA.GreaterThan(e.carried()):
			c = working.Check{ID: c.ID, Silent: "the cable itself does not carry the load: see W01"}
		case which == 2 && r.checks[1].Verdict() == working.Fails:
			c = working.Check{ID: c.ID, Silent: e.overratedText()}
		}
		return c, nil
	})
}

func carriesLoad(m *model) ([]Finding, error) { return m.ofWindow(0) }

// protects judges each device by the set's own rule, and overall where that is
// the laxer: what passes by name alone fails.
func protects(m *model) ([]Finding, error) {
	all, err := m.ofWindow(1)
	if err != nil {
		return nil, err
	}
	if of := m.set.Device.OfAmpacity; of.Stated() && of.Value.LessThanOrEqual(one) {
		return all, nil
	}
	for i := range all {
		all[i].RuleSet = tables.RuleSets()[0].Name // whose clause it is
		all[i].Where += ", overall"
	}
	named, err := m.fitted(func(e end) (working.Check, error) {
		f, err := m.window(e)
		switch {
		case err != nil:
			return working.Check{}, err
		case e.unrated():
			return working.Check{ID: "P02", Missing: noAmpacityText}, nil
		case e.Cables != nil:
			return working.Check{ID: "P02", Silent: parallelText}, nil
		}
		return *f.judge(e.device.RatingA).named, nil
	})
	return append(named, all...), err
}

// opensInTime judges each device, and for a run without one those behind it.
func opensInTime(m *model) ([]Finding, error) {
	all, err := m.ofWindow(2)
	if err != nil || !m.set.Device.OperatingCurrent.Stated() {
		return all, err
	}
	for _, e := range m.ends() {
		back := m.behind(e.node, e.run)
		if !e.bare() || len(back.guards) == 0 {
			continue
		}
		f := Finding{Check: m.openedBehind(e, back), Where: e.where(), Path: e.run.path, RuleSet: m.set.Name}
		all = append(all, f)
	}
	return all, nil
}

// bare reports whether a run has no device of its own.
func (r *run) bare() bool { return r.Device == nil && r.FarDevice == nil }

// openedBehind adds up the currents that open the devices behind a run, and
// what sources give that limit themselves.
func (m *model) openedBehind(e end, back backing) working.Check {
	switch {
	case e.unrated():
		return working.Check{ID: "P03", Missing: noAmpacityText}
	case back.limitA.GreaterThan(e.carried()):
		return working.Check{ID: "P03", Silent: "no device protects it in the first place: see P07"}
	}
	law := cite.IEC6036443.At("433.1", cite.SecondHand)
	w := working.Start(e.ampacity.Working)
	sum, formula := w.Given("I_s", back.ownA), "I_s"
	for i, g := range back.guards {
		c, err := tables.ConventionalOf(g.device.Family, g.device.RatingA)
		if err != nil {
			return working.Check{ID: "P03", Missing: fmt.Sprintf("ask the maker at what current a %s A %s opens within an hour", g.device.RatingA, g.device.Family)}
		}
		w.Part("Behind it: " + g.where())
		rating := w.Given("I_n", g.device.RatingA)
		part := fmt.Sprintf("I_2.%d", i+1)
		opens := w.Calc(part, "k_2 × I_n", w.LookUp("k_2", c.Opens).Mul(rating), law)
		sum, formula = sum.Add(opens), formula+" + "+part
	}
	w.Part("All together")
	w.Calc("I_2", formula, sum, law)
	ampacity := w.Given("I_z", e.carried())
	w.Calc("I_2z", "k_o × I_z", w.LookUp("k_o", m.set.Device.OperatingCurrent).Mul(ampacity), law)
	return w.Check("P03", "", "I_2", "I_2z")
}

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
		checks, err := protect.BreakingDuty{
			GreatestFaultA: decimal.NewNullDecimal(fault), HighestV: m.highestV(e.node), Family: e.device.Family, NoLithium: !m.lithium(),
			BreaksA: e.device.BreaksA, BreaksAtV: e.device.BreaksAtV, RatedV: e.device.RatedV,
			BackedUpA: m.backedUp(e), BackedUpAtV: e.device.BackedUpAtV, From: through,
		}.Checks()
		if err != nil {
			return working.Check{}, working.In(e.path, err)
		}
		c := checks[which]
		if boundless := m.boundless(e.node); which == 0 && boundless != "" && c.Verdict() == working.Passes {
			c = working.Check{ID: c.ID, Missing: "ask for the greatest short-circuit current of " + boundless + ": it does not limit itself"}
		}
		return c, nil
	})
}

// backedUp is what a device was tested to behind another; unset where a source
// reaches it past that other, which the test does not cover.
func (m *model) backedUp(e end) decimal.NullDecimal {
	if !e.device.BackedUpA.Valid || m.behind(e.far, e.run).fed {
		return decimal.NullDecimal{}
	}
	_, _, past := m.reach(e.node, e.run,
		func(r *run, _ string) bool { return r.Name != e.device.BackedUpBy },
		func(at string) bool { _, ok := m.sourceAt(at); return ok })
	return decimal.NullDecimal{Decimal: e.device.BackedUpA.Decimal, Valid: !past}
}

// boundless names an alternator in a node's part of the network that does not
// limit its own current; "" where there is none.
func (m *model) boundless(node string) string {
	for _, a := range m.job.Alternators {
		if !a.SelfLimiting && m.joined(a.Name, node) {
			return a.Name
		}
	}
	return ""
}

// closeEnough compares the length of conductor before each device with what the
// set allows, wherever that length bears less than what can reach it: no device
// stands behind it, or one too large for it.
func closeEnough(m *model) ([]Finding, error) {
	var all []Finding
	for _, e := range m.ends() {
		back := m.behind(e.node, e.run)
		if e.device == nil || !back.unlimited && back.limitA.LessThanOrEqual(e.carried()) {
			continue
		}
		c, err := protect.Place{
			AlongMM: decimal.NewNullDecimal(e.device.AlongMM), Sheathed: e.Sheathed, AtBattery: m.isBattery(e.node), SetName: m.set.Name,
		}.Check(m.placeRule(e))
		if err != nil {
			return nil, working.In(e.path, err)
		}
		all = append(all, Finding{Check: c, Where: e.where(), Path: e.path, RuleSet: m.set.Name})
	}
	return all, nil
}

// placeRule is the set's rule for the distance of a device, which may have a
// limit of its own at an alternator.
func (m *model) placeRule(e end) tables.PlaceRule {
	isAlternator := slices.ContainsFunc(m.job.Alternators, func(a job.Alternator) bool { return a.Name == e.node })
	if own := m.set.Place.Charging; isAlternator && own.Stated() {
		return tables.PlaceRule{Bare: own}
	}
	return m.set.Place
}

// withinCap compares each device with the cap that the rule set puts on a small
// conductor, whatever its ampacity.
func withinCap(m *model) ([]Finding, error) {
	if len(m.set.Device.BySize) == 0 {
		return notHere("P23", "the circuits", "circuits", fmt.Sprintf("%s caps no device by the size of its conductor at %s V", m.set.Name, m.job.SystemV)), nil
	}
	return m.fitted(func(e end) (working.Check, error) {
		over, err := m.overrated(e)
		if over || err != nil {
			return working.Check{ID: "P23", Silent: e.overratedText()}, err
		}
		c, err := protect.SmallWire{Size: e.Size, RatingA: e.device.RatingA, SetName: m.set.Name}.Check(m.set.Device)
		return c, working.In(e.path, err)
	})
}
