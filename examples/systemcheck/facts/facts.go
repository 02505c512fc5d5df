// Package facts works out what is true of a job: each run as a conductor at the
// temperature that its current makes it, the installation solved in every case that
// can occur, what stands behind each end, the bank, its charging through the months,
// the bay. Facts carry their working; verdicts are the business of the rules, and all
// physics stands in the packages wire, protect, battery and charge.
//
// A job is worked out once, by [New], and asked about as often as one likes, by several
// goroutines too; what is slow to find is remembered.
package facts

import (
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/battery"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"example.org/extralow/wire/installation"
	"github.com/shopspring/decimal"
)

// Facts is a job with what every rule needs worked out once: each run as a
// conductor, and the installation solved in every case that can occur.
type Facts struct {
	Job  job.Job
	Set  tables.RuleSet
	Runs []*Run
	kept
	solved *installation.Solved
	Cases  []Solved // of the states
	*found
	Only map[string]bool // the ends that are asked about; nil: every one
}

// found is what is slow to find and the same until a cable or a device is changed.
type found struct {
	faults     *memo[string, installation.Fault]  // by node: the greatest there
	through    *memo[string, working.Working]     // by end: the greatest that a device there may have to break
	windows    *memo[string, DeviceWindow]        // by end: its device's window
	backs      *memo[string, installation.Infeed] // by end: what stands behind it
	startVolts *memo[string, decimal.Decimal]     // by load of an inverter: the lowest there while it starts
}

func nothingFound() *found {
	return &found{
		newMemo[string, installation.Fault](), newMemo[string, working.Working](), newMemo[string, DeviceWindow](),
		newMemo[string, installation.Infeed](), newMemo[string, decimal.Decimal](),
	}
}

// kept is what stays as it is when a cable or a device is changed.
type kept struct {
	nodes    []string                        // their names
	index    map[string]int                  // by name: the number of a node
	touching [][]int                         // by number: the runs that end there
	wired    map[string]int                  // by node: the part with every link closed
	parts    map[string]int                  // by node: the part of the network that cables join it to
	sides    map[string]int                  // by node: that part with every link between banks open
	Banks    []Bank                          // that of the house first
	BayAir   battery.BoxTemperature          // with everything in the bay at full load
	ways     *memo[[2]string, []int]         // by node and source: the runs between them
	lines    *memo[[2]string, []int]         // by node and battery missing: the runs up to the nearest other
	meshes   *memo[[2]string, []int]         // by node and source: the runs on any way between them
	audits   *memo[string, battery.AuditSum] // of the house bank's day
	usables  *memo[string, battery.Usable]   // of that bank
	refills  *memo[string, Refilling]        // by what charges and what is drawn meanwhile
	ledgers  *memo[int, MonthLedger]         // by month
	heights  map[string]decimal.Decimal      // by source: the highest voltage that it ever holds
	linkedBy []string                        // the places of the switches between banks: see links
	states   []installation.State            // what runs in each
	loads    map[string]installation.Load
}

// Run is one circuit of the job as a conductor.
type Run struct {
	job.Circuit
	Path      string    // "circuits[2]"
	devices   [2]string // the places of its devices: "circuits[2].device"
	between   [2]int    // the numbers of its two nodes
	conductor wire.Conductor
	One       wire.Ampacity // of one cable
	Ampacity  wire.Ampacity // of all its cables that share the current evenly
	Bundle    bundle        // what they carry among others, where the rule set derates none
	NoAmps    error         // why the rule set gives it no ampacity

	found        *installation.Currents
	DesignA      decimal.Decimal // in normal use
	Worst        string          // the case in which it carries that
	Lost         Flow            // with a battery lost, which is no normal use
	Peak         Flow            // while loads of short duty run: not for long
	atC          decimal.Decimal // the temperature that designA makes it
	hot          wire.Resistance
	Warmth       working.Working // the lines behind them
	HotMilliohm  decimal.Decimal // out and back with its contacts, at that temperature
	coldMilliohm decimal.Decimal // out and back without contacts, at 20 °C
}

func New(j job.Job) (*Facts, error) {
	if !slices.ContainsFunc(j.Batteries, func(b job.Battery) bool { return b.Bank == "house" }) {
		return nil, &working.InputError{Field: "batteries", Got: "a list without a house battery", Want: "one at least"}
	}
	set, err := tables.RuleSetOf(j.RuleSet)
	if err != nil {
		return nil, err
	}
	m := &Facts{Job: withControllers(j), Set: set.At(j.SystemV)}
	for i, c := range j.Circuits {
		r, err := NewRun(c, m.Set, fmt.Sprintf("circuits[%d]", i))
		if err != nil {
			return nil, working.In(r.Path, err)
		}
		m.Runs = append(m.Runs, r)
	}
	m.join()
	m.linkedBy = m.findLinks()
	if err := m.usuallyOpenLinks(); err != nil {
		return nil, err
	}
	m.parts = m.part(func(r *Run) bool { return !m.usuallyOpen(r.place()) })
	m.sides = m.part(func(r *Run) bool { return !slices.Contains(m.links(), r.place()) })
	m.Banks = m.findBanks()
	if err := m.findHeights(); err != nil {
		return nil, err
	}
	if err := m.settle(); err != nil {
		return nil, err
	}
	if m.BayAir, err = m.findBayAir(); err != nil {
		return nil, working.In("bay", err)
	}
	return m, nil
}

// withControllers lists the controllers of solar arrays among the chargers: to
// the cables and the bank they are chargers that the sun feeds.
func withControllers(j job.Job) job.Job {
	j.Chargers = slices.Clone(j.Chargers)
	for _, s := range j.Solar {
		j.Chargers = append(j.Chargers, job.Charger{
			Name: s.Name, Kind: "solar", MaxA: s.MaxA, OutputV: s.OutputV, EfficiencyPercent: s.EfficiencyPercent,
			Regulation: s.Regulation, RemoteSense: s.RemoteSense, Sparks: s.Sparks,
		})
	}
	return j
}

// ChargerPath is where a charger stands in the job file.
func (m *Facts) ChargerPath(i int) string {
	if own := len(m.Job.Chargers) - len(m.Job.Solar); i >= own {
		return fmt.Sprintf("solar[%d]", i-own)
	}
	return fmt.Sprintf("chargers[%d]", i)
}

func NewRun(c job.Circuit, set tables.RuleSet, path string) (*Run, error) {
	r := &Run{Circuit: c, Path: path, devices: [2]string{path + ".device", path + ".far_device"}, atC: c.InsulationC, conductor: wire.Conductor{
		Size: c.Size, Class: tables.Class(c.Strands.IntPart()), Method: c.Method, InsulationC: c.InsulationC,
		AmbientC: decimal.NewNullDecimal(c.AmbientC), Grouped: int(c.Grouped.IntPart()),
		OutsideEngineSpace: !c.EngineSpace, TerminalC: c.TerminalC, PlainCopper: true,
	}}
	var err error
	r.One, err = r.conductor.Ampacity(set.Ampacity)
	if len(working.Inputs(err)) > 0 {
		return r, err
	}
	r.NoAmps = err
	if r.Ampacity, err = r.together(r.One); err != nil {
		return r, err
	}
	if r.Bundle, err = r.bundled(set); err != nil {
		return r, err
	}
	cold, err := r.conductor.Resistance(decimal.NewFromInt(20))
	if errors.Is(err, tables.ErrNotListed) {
		return r, &working.InputError{Field: "size", Got: c.Size.String(), Want: "a size of the table: " + err.Error()}
	}
	if err != nil {
		return r, err
	}
	bare, err := r.lying(cold.MilliohmPerM, decimal.Zero, r.Count()).Loop()
	if err != nil {
		return r, err
	}
	r.coldMilliohm = bare.LoopMilliohm
	return r, r.heat()
}

// lying is the run with so many of its cables.
func (r *Run) lying(milliohmPerM, contacts decimal.Decimal, cables int) wire.Run {
	x := wire.Run{LengthM: r.LengthM, MilliohmPerM: milliohmPerM, JointsMilliohm: contacts, Cables: cables}
	if r.Return == "chassis" {
		x.ReturnMilliohm = r.ChassisMilliohm
	}
	return x
}

// hottest is as warm as the resistance of copper is reckoned.
var hottest = decimal.NewFromInt(250)

// heat sets the resistance at the run's temperature.
func (r *Run) heat() (err error) {
	if r.hot, err = r.conductor.Resistance(decimal.Min(r.atC, hottest)); err != nil {
		return err
	}
	loop, err := r.lying(r.hot.MilliohmPerM, r.ContactsMilliohm, r.Sharing()).Loop()
	r.HotMilliohm = loop.LoopMilliohm
	return err
}

// drop is what the run loses at a current, at the temperature that its design
// current makes it.
func (r *Run) drop(currentA decimal.Decimal) (wire.Drop, error) {
	x := r.lying(r.hot.MilliohmPerM, r.ContactsMilliohm, r.Sharing())
	x.From = r.Warmth
	loop, err := x.Loop()
	if err != nil {
		return wire.Drop{}, err
	}
	return loop.Drop(currentA)
}

// settle solves the job as it is drawn, and takes from that what each run carries at the
// most and how hot this makes it.
func (m *Facts) settle() error {
	in, err := m.drawn()
	if err != nil {
		return err
	}
	m.states, m.loads = in.States, map[string]installation.Load{}
	for _, l := range in.Loads {
		m.loads[l.Name] = l
	}
	s, err := in.Solve()
	if err != nil {
		return err
	}
	return m.warm(s)
}

// warm takes the currents of what was solved, and forgets what was found before.
func (m *Facts) warm(s *installation.Solved) error {
	m.found = nothingFound()
	if err := m.solve(s); err != nil {
		return err
	}
	for _, r := range m.Runs {
		if err := r.warmUp(m); err != nil {
			return working.In(r.Path, err)
		}
	}
	return nil
}

// warmUp sets the design current and what it does to the conductor; a start is
// too short to count. A run that the rule set gives no ampacity stays as hot as
// its insulation bears.
func (r *Run) warmUp(m *Facts) error {
	x, err := m.solved.Currents(r.Name)
	if err != nil {
		return err
	}
	if r.found != nil && alike(x, *r.found) {
		return nil
	}
	r.found, r.DesignA, r.Worst = &x, x.DesignA.Decimal, x.DesignCase
	r.Lost, r.Peak = Flow{x.LostA.Decimal, x.LostCase}, m.peakOf(r)
	if x.AtLeastA.Decimal.GreaterThan(r.DesignA) { // rules that rest on currents tell nothing then
		r.DesignA, r.Worst = x.AtLeastA.Decimal, x.AtLeastCase
	}
	if r.NoAmps == nil {
		t, err := r.Overall().Temperature(decimal.Max(r.DesignA, x.LostA.Decimal, x.UnequalA.Decimal))
		if err != nil {
			return err
		}
		r.atC, r.Warmth = t.ConductorC, t.Working
	}
	if err := r.heat(); err != nil {
		return err
	}
	r.Warmth = working.Start(r.Warmth, r.hot.Working)
	return nil
}

// alike reports whether two say the same of what heats.
func alike(a, b installation.Currents) bool {
	same := func(x, y decimal.NullDecimal) bool { return x.Valid == y.Valid && x.Decimal.Equal(y.Decimal) }
	return same(a.DesignA, b.DesignA) && same(a.LostA, b.LostA) && same(a.UnequalA, b.UnequalA) && same(a.AtLeastA, b.AtLeastA) &&
		a.DesignCase == b.DesignCase && a.LostCase == b.LostCase && a.UnequalCase == b.UnequalCase && a.AtLeastCase == b.AtLeastCase
}

// Flow is a current and the case that makes it.
type Flow struct {
	A  decimal.Decimal
	In string
}

// peakOf is the most that a run carries while loads of short duty run.
func (m *Facts) peakOf(r *Run) (most Flow) {
	for _, c := range m.Cases {
		if a := c.current(r.Name).Abs(); c.Peaks && a.GreaterThan(most.A) {
			most = Flow{a, c.Name}
		}
	}
	return most
}

// Switched is the most that a contact of the run makes, carries and breaks: in normal
// use, short duty too, or with a battery lost as far as the run's own device lets it.
func (r *Run) Switched() Flow {
	normal := Flow{r.DesignA, r.Worst}
	if r.Peak.A.GreaterThan(normal.A) {
		normal = r.Peak
	}
	return r.orElse(normal, r.Lost)
}

// Lasting is the most that the run carries for long, likewise: while a full bank feeds an
// empty one too, which nothing switches.
func (r *Run) Lasting() Flow {
	return r.orElse(r.orElse(Flow{r.DesignA, r.Worst}, r.Lost), Flow{r.found.UnequalA.Decimal, r.found.UnequalCase})
}

// orElse is the greater of two flows, the second as far as a device of the run lets it.
func (r *Run) orElse(a, b Flow) Flow {
	for _, d := range []*job.Device{r.Device, r.FarDevice} {
		if d != nil {
			b.A = decimal.Min(b.A, d.RatingA)
		}
	}
	if b.A.GreaterThan(a.A) {
		return b
	}
	return a
}
