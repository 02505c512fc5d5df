package inspect

import (
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// model is a job with what every rule needs worked out once: each run as a
// conductor, and the installation solved in every case that can occur.
type model struct {
	job  job.Job
	set  tables.RuleSet
	runs []*run
	kept
	cases   []solved
	faults  map[string]wire.NetworkFault // by node: the greatest there
	weakest map[string]wire.NetworkFault // by battery missing, link open and node: the smallest there
	through map[string]working.Working   // by end: the greatest that a device there may have to break
	windows map[string]ruled             // by end: its device's window
	backs   map[string]backing           // by end: what stands behind it
	only    map[string]bool              // the ends that are asked about; nil: every one
}

// kept is what stays as it is when a cable or a device is changed.
type kept struct {
	laid      []run                      // the runs before a current warms them
	nodes     []string                   // their names
	index     map[string]int             // by name: the number of a node
	touching  [][]int                    // by number: the runs that end there
	wired     map[string]int             // by node: the part with every link closed
	parts     map[string]int             // by node: the part of the network that cables join it to
	ways      map[[2]string][]int        // by node and source: the runs between them
	lines     map[[2]string][]int        // by node and battery missing: the runs up to the nearest other
	heights   map[string]decimal.Decimal // by source: the highest voltage that it ever holds
	linkedBy  []string                   // the places of the switches between banks: see links
	occurring []setting                  // the cases that can occur
	first     []solved                   // each of them as it was solved first of all
}

// run is one circuit of the job as a conductor.
type run struct {
	job.Circuit
	path      string    // "circuits[2]"
	devices   [2]string // the places of its devices: "circuits[2].device"
	between   [2]int    // the numbers of its two nodes
	conductor wire.Conductor
	one       wire.Ampacity // of one cable
	ampacity  wire.Ampacity // of all its cables that share the current evenly
	noAmps    error         // why the rule set gives it no ampacity

	designA      decimal.Decimal
	worst        string          // the case in which it carries designA
	atC          decimal.Decimal // the temperature that designA makes it
	hot          wire.Resistance
	warmth       working.Working // the lines behind them
	hotMilliohm  decimal.Decimal // out and back with its contacts, at that temperature
	coldMilliohm decimal.Decimal // out and back without contacts, at 20 °C
}

func newModel(j job.Job) (*model, error) {
	if !slices.ContainsFunc(j.Batteries, func(b job.Battery) bool { return b.Bank == "house" }) {
		return nil, &working.InputError{Field: "batteries", Got: "a list without a house battery", Want: "one at least"}
	}
	set, err := tables.RuleSetOf(j.RuleSet)
	if err != nil {
		return nil, err
	}
	m := &model{job: withControllers(j), set: set.At(j.SystemV)}
	for i, c := range j.Circuits {
		r, err := newRun(c, m.set, fmt.Sprintf("circuits[%d]", i))
		if err != nil {
			return nil, working.In(r.path, err)
		}
		m.laid = append(m.laid, *r)
		m.runs = append(m.runs, r)
	}
	m.join()
	m.linkedBy = m.findLinks()
	m.part(func(r *run) bool { return !m.usuallyOpen(r.place()) })
	if err := m.findHeights(); err != nil {
		return nil, err
	}
	m.occurring = m.settings()
	return m, m.settle()
}

// withControllers lists the controllers of solar arrays among the chargers: to
// the cables and the bank they are chargers that the sun feeds.
func withControllers(j job.Job) job.Job {
	j.Chargers = slices.Clone(j.Chargers)
	for _, s := range j.Solar {
		j.Chargers = append(j.Chargers, job.Charger{
			Name: s.Name, Kind: "solar", MaxA: s.MaxA, OutputV: s.OutputV, EfficiencyPercent: s.EfficiencyPercent,
			Regulation: s.Regulation, RemoteSense: s.RemoteSense,
		})
	}
	return j
}

// chargerPath is where a charger stands in the job file.
func (m *model) chargerPath(i int) string {
	if own := len(m.job.Chargers) - len(m.job.Solar); i >= own {
		return fmt.Sprintf("solar[%d]", i-own)
	}
	return fmt.Sprintf("chargers[%d]", i)
}

func newRun(c job.Circuit, set tables.RuleSet, path string) (*run, error) {
	r := &run{Circuit: c, path: path, devices: [2]string{path + ".device", path + ".far_device"}, atC: c.InsulationC, conductor: wire.Conductor{
		Size: c.Size, Class: tables.Class(c.Strands.IntPart()), Method: c.Method, InsulationC: c.InsulationC,
		AmbientC: decimal.NewNullDecimal(c.AmbientC), Grouped: int(c.Grouped.IntPart()),
		OutsideEngineSpace: !c.EngineSpace, TerminalC: c.TerminalC, PlainCopper: true,
	}}
	var err error
	r.one, err = r.conductor.Ampacity(set.Ampacity)
	if len(working.Inputs(err)) > 0 {
		return r, err
	}
	r.noAmps = err
	if r.ampacity, err = r.together(); err != nil {
		return r, err
	}
	cold, err := r.conductor.Resistance(decimal.NewFromInt(20))
	if errors.Is(err, tables.ErrNotListed) {
		return r, &working.InputError{Field: "size", Got: c.Size.String(), Want: "a size of the table: " + err.Error()}
	}
	if err != nil {
		return r, err
	}
	bare, err := r.lying(cold.MilliohmPerM, decimal.Zero, r.count()).Loop()
	if err != nil {
		return r, err
	}
	r.coldMilliohm = bare.LoopMilliohm
	return r, r.heat()
}

// lying is the run with so many of its cables.
func (r *run) lying(milliohmPerM, contacts decimal.Decimal, cables int) wire.Run {
	x := wire.Run{LengthM: r.LengthM, MilliohmPerM: milliohmPerM, JointsMilliohm: contacts, Cables: cables}
	if r.Return == "chassis" {
		x.ReturnMilliohm = r.ChassisMilliohm
	}
	return x
}

// hottest is as warm as the resistance of copper is reckoned.
var hottest = decimal.NewFromInt(250)

// heat sets the resistance at the run's temperature.
func (r *run) heat() (err error) {
	if r.hot, err = r.conductor.Resistance(decimal.Min(r.atC, hottest)); err != nil {
		return err
	}
	loop, err := r.lying(r.hot.MilliohmPerM, r.ContactsMilliohm, r.sharing()).Loop()
	r.hotMilliohm = loop.LoopMilliohm
	return err
}

// drop is what the run loses at a current, at the temperature that its design
// current makes it.
func (r *run) drop(currentA decimal.Decimal) (wire.Drop, error) {
	x := r.lying(r.hot.MilliohmPerM, r.ContactsMilliohm, r.sharing())
	x.From = r.warmth
	loop, err := x.Loop()
	if err != nil {
		return wire.Drop{}, err
	}
	return loop.Drop(currentA)
}

// settle solves every case twice: first with every conductor as hot as its
// insulation bears, which gives the currents on the safe side; then at the
// temperature that each one's own current makes it, which gives the voltages.
func (m *model) settle() error {
	if err := m.warm(); err != nil {
		return err
	}
	return m.solveCases(everyCase)
}

// warm solves every case the first time and sets the temperatures.
func (m *model) warm() error {
	m.faults, m.weakest = map[string]wire.NetworkFault{}, map[string]wire.NetworkFault{}
	m.through = map[string]working.Working{}
	m.windows, m.backs = map[string]ruled{}, map[string]backing{}
	if err := m.solveCases(everyCase); err != nil {
		return err
	}
	if m.first == nil {
		m.first = m.cases
	}
	for _, r := range m.runs {
		if err := r.warmUp(m); err != nil {
			return working.In(r.path, err)
		}
	}
	return nil
}

// fullOutput is what passes a run that ends at an alternator or an inverter, at its
// full output: whatever the loads of the job ask today, what stands at its end
// gives or takes that some day.
func (m *model) fullOutput(r *run) (most decimal.Decimal, of string, err error) {
	take := func(a decimal.Decimal, name string) {
		if a.GreaterThan(most) {
			most, of = a, name
		}
	}
	for i, a := range m.job.Alternators {
		if r.otherEnd(a.Name) == "" {
			continue
		}
		hot, err := m.output(a, "road")
		if err != nil {
			return most, of, working.In(indexed("alternators", i), err)
		}
		take(hot, a.Name+" at full output, hot")
	}
	for i, inv := range m.job.Inverters {
		if r.otherEnd(inv.Name) == "" {
			continue
		}
		d, err := inverterOf(inv).Draw(inv.RatedW, inv.CutOutV)
		if err != nil {
			return most, of, working.In(indexed("inverters", i), err)
		}
		take(d.CurrentA, inv.Name+" at full output, at its cut-out voltage")
	}
	return most, of, nil
}

// warmUp sets the design current and what it does to the conductor; a start is
// too short to count. A run that the rule set gives no ampacity stays as hot as
// its insulation bears.
func (r *run) warmUp(m *model) error {
	for _, c := range m.cases {
		if a := c.current(r.Name).Abs(); c.starts == "" && a.GreaterThan(r.designA) {
			r.designA, r.worst = a, c.name
		}
	}
	full, of, err := m.fullOutput(r)
	if err != nil {
		return err
	}
	if full.GreaterThan(r.designA) {
		r.designA, r.worst = full, of
	}
	if r.noAmps == nil {
		t, err := r.ampacity.Temperature(r.designA)
		if err != nil {
			return err
		}
		r.atC, r.warmth = t.ConductorC, t.Working
	}
	if err := r.heat(); err != nil {
		return err
	}
	r.warmth = working.Start(r.warmth, r.hot.Working)
	return nil
}
