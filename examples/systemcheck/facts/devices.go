package facts

import (
	"cmp"
	"errors"
	"slices"
	"sync"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/protect"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Cranks reports whether a run serves nothing but cranking: behind one of its
// ends stands an engine's starter, and no battery, no charger and nothing else
// that draws current but at a device of its own, where it branches off. An
// alternator on the starter's posts charges through it: what guards its lead is
// asked at that lead.
func (m *Facts) Cranks(r *Run) bool {
	starters, others := m.starters(), append(m.consumers(), m.storesAndChargers()...)
	serves := func(node string) bool {
		found, alone := false, true
		m.reach(node, r, func(branch *Run, at string) bool { return branch.EndAt(at).Fitted == nil }, func(at string) bool {
			found = found || slices.Contains(starters, at)
			alone = alone && !slices.Contains(others, at) && at != r.OtherEnd(node)
			return false
		})
		return found && alone
	}
	return serves(r.From) || serves(r.To)
}

// starters lists the nodes of engines' starters.
func (m *Facts) starters() []string {
	var all []string
	for _, l := range m.Job.Loads {
		if l.Cranking {
			all = append(all, l.At)
		}
	}
	return all
}

// storesAndChargers lists the nodes of batteries and chargers.
func (m *Facts) storesAndChargers() []string {
	var all []string
	for _, b := range m.Job.Batteries {
		all = append(all, b.Name)
	}
	for _, c := range m.Job.Chargers {
		all = append(all, c.Name)
	}
	return all
}

// Unrated reports whether the rule set gives a run no ampacity.
func (r *Run) Unrated() bool { return r.NoAmps != nil && !errors.Is(r.NoAmps, tables.ErrOutside) }

// Least is what a run carries where its ambient ends the table: next to nothing,
// so that no limited source is small enough for it.
var Least = decimal.New(1, -2)

// Carried is the ampacity of a run.
func (r *Run) Carried() decimal.Decimal {
	if r.NoAmps != nil || !r.Ampacity.AmpacityA.IsPositive() {
		return Least
	}
	return r.Ampacity.AmpacityA
}

// DeviceWindow is the window of one fitted device, and beside it that of what its run
// carries among others, where its rule set derates none.
type DeviceWindow struct {
	Window   protect.Window
	Bundled  *protect.Window
	allowedA decimal.Decimal // greatest rating on the conductor
}

// Window returns the window of the device at an end; it is worked out once.
func (m *Facts) Window(e End) (DeviceWindow, error) {
	return m.windows.get(e.Path, func() (DeviceWindow, error) { return m.window(e) })
}

func (m *Facts) window(e End) (DeviceWindow, error) {
	need := protect.Need{
		DesignA: decimal.Max(e.DesignA, Least), AmpacityA: e.Carried(), Brief: !m.lasts(e.Run),
		AmbientC: e.deviceAmbient(), AmbientFactor: e.ambientFactor(), SetName: m.Set.Name, From: e.Ampacity.Working,
		RatingsA: e.ownRatings(),
	}
	w, err := need.Window(m.Set.Device, e.Fitted.Family)
	if err != nil {
		return DeviceWindow{}, working.In(e.Path, err)
	}
	f := DeviceWindow{Window: w, allowedA: e.Carried()}
	if of := m.Set.Device.OfAmpacity; of.Stated() {
		f.allowedA = decimal.Min(of.Value, One).Mul(e.Carried())
	}
	if e.Bundle.Set != "" {
		need.AmpacityA, need.From = e.carriedOverall(), e.Bundle.Working
		among, err := need.Window(m.Set.Device, e.Fitted.Family)
		if err != nil {
			return DeviceWindow{}, working.In(e.Path, err)
		}
		f.Bundled, f.allowedA = &among, decimal.Min(f.allowedA, e.carriedOverall())
	}
	return f, nil
}

// ownRatings is the rating that is fitted, where the standard of its family lists
// none to choose from.
func (e End) ownRatings() []decimal.Decimal {
	if _, err := tables.Ratings(e.Fitted.Family); errors.Is(err, tables.ErrNotListed) {
		return []decimal.Decimal{e.Fitted.RatingA}
	}
	return nil
}

// deviceAmbient is the air round a device: the run's where the job states none.
func (e End) deviceAmbient() decimal.NullDecimal {
	if e.Fitted.AmbientC.Valid {
		return e.Fitted.AmbientC
	}
	return decimal.NewNullDecimal(e.AmbientC)
}

// ambientFactor is what the article's own data sheet says of that air.
func (e End) ambientFactor() decimal.NullDecimal {
	share := e.Fitted.AmbientPercent
	share.Decimal = share.Decimal.Shift(-2)
	return share
}

// brief reports whether a load does not last: its longest run is stated, as no
// longer than the rule set says, or practice where that is silent. Hours a day are no
// run. The engine's starter turns for seconds.
func (m *Facts) brief(l job.Load) bool {
	longest, within := m.Set.Device.BriefRun, l.LongestRunS.Decimal
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
func (m *Facts) lasts(r *Run) bool {
	var nodes []string
	for _, l := range m.Job.Loads {
		if !m.brief(l) {
			nodes = append(nodes, l.Node())
		}
	}
	for _, v := range m.Job.Inverters {
		if !slices.ContainsFunc(m.Job.Loads, func(l job.Load) bool { return l.Inverter == v.Name }) {
			nodes = append(nodes, v.Name)
		}
	}
	for _, c := range m.Job.Chargers {
		nodes = append(nodes, c.Name, c.FedAt)
	}
	return slices.ContainsFunc(nodes, func(node string) bool { return m.OnTheWay(r, node) }) ||
		slices.ContainsFunc(m.Job.Alternators, func(a job.Alternator) bool { return r.OtherEnd(a.Name) != "" })
}

// sourceNodes lists the nodes of batteries and alternators.
func (m *Facts) sourceNodes() []string {
	var all []string
	for _, b := range m.Job.Batteries {
		all = append(all, b.Name)
	}
	for _, a := range m.Job.Alternators {
		all = append(all, a.Name)
	}
	return all
}

// Bare reports whether a run has no device of its own.
func (r *Run) Bare() bool { return r.Device == nil && r.FarDevice == nil }

// BackedUp is what a device was tested to behind another; unset where a source
// reaches it past that other, which the test does not cover.
func (m *Facts) BackedUp(e End) decimal.NullDecimal {
	if !e.Fitted.BackedUpA.Valid || m.Behind(e.Far, e.Run).Fed {
		return decimal.NullDecimal{}
	}
	_, _, past := m.reach(e.Node, e.Run,
		func(r *Run, _ string) bool { return r.Name != e.Fitted.BackedUpBy },
		m.sourceAt)
	return decimal.NullDecimal{Decimal: e.Fitted.BackedUpA.Decimal, Valid: !past}
}

// Boundless names an alternator in a node's part of the network that does not limit its
// own current and of which nobody states what it gives, "" where there is none; and how
// much all such there are taken to give beyond their marked output.
func (m *Facts) Boundless(node string) (name string, assumedA decimal.Decimal) {
	for _, a := range m.Job.Alternators {
		if !a.SelfLimiting && !a.ShortA.Valid && m.Joined(a.Name, node) {
			name, assumedA = cmp.Or(name, a.Name), assumedA.Add(a.RatedA.Mul(unlimited().Sub(One)))
		}
	}
	return name, assumedA
}

// unlimited is what multiple of its marked output a source that does not limit itself
// is taken to drive into a short circuit.
var unlimited = sync.OnceValue(func() decimal.Decimal {
	f, err := tables.FaultSource("alternator-unlimited")
	return Tabled(f, err)
})

// PlaceRule is the set's rule for the distance of a device, which may have a
// limit of its own at an alternator.
func (m *Facts) PlaceRule(e End) tables.PlaceRule {
	isAlternator := slices.ContainsFunc(m.Job.Alternators, func(a job.Alternator) bool { return a.Name == e.Node })
	if own := m.Set.Place.Charging; isAlternator && own.Stated() {
		return tables.PlaceRule{Bare: own}
	}
	return m.Set.Place
}
