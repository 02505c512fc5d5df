package charge

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// ChargingSource is what charges, as the battery sees it.
type ChargingSource struct {
	CurrentA      decimal.Decimal     `json:"limit_a"`           // 0 to 10 000
	VoltageV      decimal.NullDecimal `json:"source_v"`          // its own greatest; unset: the stages alone decide; above 0 to 1000
	PowerW        decimal.NullDecimal `json:"source_w"`          // greatest output; unset: the current alone decides; above 0 to 1 000 000
	Efficiency    decimal.Decimal     `json:"source_efficiency"` // output ÷ input, 1 for what the source gives
	CableMilliohm decimal.Decimal     `json:"cable_milliohm"`    // out and back, joints included; 0 to 10 000
	RemoteSensing bool                `json:"remote_sensing"`    // it holds the voltage at the battery
}

// Stage is one stage of a charge.
type Stage struct {
	Name     string              `json:"stage"`
	Letter   string              `json:"letter"`  // I: ends when VoltageV is reached or after its time; U: holds it
	VoltageV decimal.NullDecimal `json:"stage_v"` // of the whole battery; unset in an I stage: no control of voltage; above 0 to 1000
	CurrentA decimal.NullDecimal `json:"stage_a"` // unset: the source's limit; 0 to 10 000
	TailA    decimal.NullDecimal `json:"tail_a"`  // U: ends when the current has fallen to it; 0 to 10 000
	AfterH   decimal.NullDecimal `json:"after_h"` // ends after so long
}

// Simulation is a charge to step through time: [Simulation.Run] has the whole model.
type Simulation struct {
	Battery      BatteryOnCharge     `json:"battery"`
	Source       ChargingSource      `json:"source"`
	Stages       []Stage             `json:"stages,omitempty"`
	LoadA        decimal.Decimal     `json:"load_a"` // taken off at the battery all the time; 0 to 10 000
	StartPercent decimal.Decimal     `json:"start_percent"`
	StopPercent  decimal.NullDecimal `json:"stop_percent"`           // unset: when the stages end
	WithinH      decimal.Decimal     `json:"within_h"`               // it ends then at the latest
	MarkPercent  []decimal.Decimal   `json:"mark_percent,omitempty"` // states whose time is wanted
	StepS        int                 `json:"step_s"`                 // longest step; the answer does not hang on it
	TraceEveryS  int                 `json:"trace_every_s"`          // 0: only where a stage changes; 0 to 86 400
}

// Charge is how a charge went.
type Charge struct {
	Reached    bool            `json:"reached"` // the state to stop at or, without one, the end of every stage that has one
	Flat       bool            `json:"flat"`    // the load emptied the battery, and the simulation ended there
	TimeH      decimal.Decimal `json:"charge_time_h"`
	EndPercent decimal.Decimal `json:"end_percent"`
	InWh       decimal.Decimal `json:"in_wh"`     // taken from the supply
	StoredWh   decimal.Decimal `json:"stored_wh"` // in the battery, at its EMF
	LoadWh     decimal.Decimal `json:"load_wh"`
	LostWh     decimal.Decimal `json:"lost_wh"` // source, cable and battery
	Marks      []Mark          `json:"marks,omitempty"`
	Trace      []Sample        `json:"trace,omitempty"`
	Working    working.Working `json:"working"`
}

// Mark is the time at which a state of charge was first reached from below.
type Mark struct {
	SoCPercent decimal.Decimal     `json:"soc_percent"`
	TimeH      decimal.NullDecimal `json:"charge_time_h"` // unset: never
}

// Sample is one line of a trace.
type Sample struct {
	TimeH      decimal.Decimal `json:"charge_time_h"`
	Stage      string          `json:"stage"`
	SoCPercent decimal.Decimal `json:"soc_percent"`
	BatteryV   decimal.Decimal `json:"battery_v"`
	BatteryA   decimal.Decimal `json:"battery_a"`
	SourceA    decimal.Decimal `json:"source_a"`
}

// Run steps the charge through time. What follows is all that there is to it.
//
// The battery holds Q = C × s ÷ 100 [Ah] at the state of charge s; I is the current
// into it, I_ld is the load's, R_i and R_w are the resistances of battery and cable:
//
//	E     the EMF, on a straight line between its points
//	η     the coulombic efficiency, from each of its steps up to the next
//	dQ/dt = η × I, or I where the battery is discharged     [A]
//	U_b   = E + R_i × I                                     [V], at the battery
//	U_q   = U_b + R_w × (I + I_ld)                          [V], at the source
//
// A lead-acid battery that is charged (I > 0) stands higher, as a meter shows it,
// by the law of [LeadAcidCell.Voltage], of n_c cells in series and n_par strings:
//
//	U_b   = max(E + R_i × I, n_c × U_ch(I ÷ n_par, s, T_b)),  C_10 = C ÷ n_par
//
// At full charge, where U_cr has no end, U_ch is U_cf.
//
// The current into the battery is the least of these; of equals the first counts:
//
//	source      the lesser of the source's and the stage's current, less I_ld
//	voltage     that at which the stage's voltage stands: as U_b with remote
//	            sensing, as U_q without
//	own voltage that at which U_q is the source's own greatest voltage, in any case
//	power       that at which U_q × (I + I_ld) is the source's greatest power
//	acceptance  k_a × (C − Q), by the ampere-hour law or AcceptPerHour
//	full        0 at Q = C
//	rate        I_r of [BatteryOnCharge.Acceptance], which is 0 outside the charging window
//
// A voltage below the EMF gives a negative current: the battery feeds the load. One
// between the EMF and n_c × U_ch(0) lets nothing into a lead-acid battery. But the
// source takes nothing in, I ≥ −I_ld, and nothing flows out of an empty battery.
// Acceptance counts only where a voltage or a power is held at all; where it is the
// least, or the battery is full, the battery takes less than the source offers, and U_b rises to the first of
//
//	U_s (with remote sensing), U_s − R_w × (I + I_ld) (without),
//	own voltage − R_w × (I + I_ld), power ÷ (I + I_ld) − R_w × (I + I_ld)
//
// A stage is at its voltage while voltage, own voltage, acceptance or full is the
// least. An I stage ends as soon as it is at its voltage, at once if it begins so.
// A U stage ends when it is at its voltage and I ≤ TailA; while source, power or
// rate holds the current down the tail does not count. Either ends AfterH after its
// beginning. The simulation is over when StopPercent is reached, after the last
// stage, after WithinH, with an empty battery that has to give more, and with a full
// one where no voltage or power is held.
//
// A mark is the first time at which Q is not below it. The energies are, over time,
//
//	E_in  of U_q × (I + I_ld) ÷ η_s     taken from the supply      [Wh]
//	E_st  of E × dQ/dt                  stored
//	E_ld  of U_b × I_ld                 given to the loads
//	E_lost = E_in − E_st − E_ld         lost in source, cable and battery
//
// The law of lead-acid holds up to the gassing voltage of its source. Beyond it,
// which is most of an absorption, the same law goes on here, bounded by the final
// voltage: the current falls from the moment at which the voltage stands, and the
// last fifth takes as long as the first four or longer, as the trade has it.
//
// The battery is charged within its own limits, which a management unit or the
// charger must see to; the simulation protects nothing. States of charge 0 to 100 %,
// at most 8784 h, step 1 to 3600 s: the longest; where current or voltage is bent it
// is a minute at most, and the answer does not hang on it. Lead-acid: 30 to 2000 Ah a
// string, -20 to 50 °C. Time is given to 0.0001 h, energy to 0.001 Wh. A simulation is
// a model: a real battery ages, warms and rests. Sources: Kirchhoff's laws; Copetti
// and others 1993; Woodbridge 1935.
func (s Simulation) Run() (Charge, error) {
	if err := s.check(); err != nil {
		return Charge{}, err
	}
	var w working.Working
	rate, accept, err := s.Battery.limits(&w)
	if err != nil {
		return Charge{}, err
	}
	law, err := s.law(&w, rate)
	if err != nil {
		return Charge{}, err
	}
	r := newRun(s, rate, accept)
	r.m.law = law
	if err := r.charge(); err != nil {
		return Charge{}, err
	}
	c := r.result(w)
	return c, r.out.err
}

// law adds the lines of the law of a lead-acid battery's voltage under charge,
// where it may be charged at all.
func (s Simulation) law(w *working.Working, rate decimal.Decimal) (*chargeLaw, error) {
	if !rate.IsPositive() {
		return nil, nil
	}
	return s.Battery.chargeLaw(w)
}

// run is a simulation under way.
type run struct {
	Simulation
	state
	stage     int
	stageEndH float64 // the hour at which the clock ends the stage; +Inf: it does not
	stopAh    float64 // +Inf: none
	withinH   float64
	marksAh   []float64
	markedH   []float64
	trace     []Sample
	nextTrace float64
	steps     int
	stopped   bool
}

func newRun(s Simulation, rate, accept decimal.Decimal) *run {
	r := &run{Simulation: s, stopAh: math.Inf(1), withinH: s.WithinH.InexactFloat64(), nextTrace: math.Inf(1)}
	capacity := s.Battery.CapacityAh.InexactFloat64()
	ofCapacity := func(percent decimal.Decimal) float64 { return percent.InexactFloat64() / 100 * capacity }
	if s.StopPercent.Valid {
		r.stopAh = ofCapacity(s.StopPercent.Decimal)
	}
	for _, percent := range s.MarkPercent {
		r.marksAh = append(r.marksAh, ofCapacity(percent))
		r.markedH = append(r.markedH, math.NaN())
	}
	r.state = newState(s.Battery, ofCapacity(s.StartPercent), append([]float64{r.stopAh}, r.marksAh...), rate, accept)
	r.m.sourceA, r.m.sourceV, r.m.powerW = s.Source.CurrentA.InexactFloat64(), orInf(s.Source.VoltageV), orInf(s.Source.PowerW)
	r.m.rc = s.Source.CableMilliohm.InexactFloat64() / 1000
	r.m.efficiency, r.m.remote = s.Source.Efficiency.InexactFloat64(), s.Source.RemoteSensing
	r.m.loadA = s.LoadA.InexactFloat64()
	if s.TraceEveryS > 0 {
		r.nextTrace = 0
	}
	return r
}

func orInf(v decimal.NullDecimal) float64 {
	if !v.Valid {
		return math.Inf(1)
	}
	return v.Decimal.InexactFloat64()
}

// mostSteps ends a simulation whose limits chatter; a year at one-second steps
// has fewer.
const mostSteps = 40_000_000

// charge steps from the start to the end.
func (r *run) charge() error {
	r.enter(0)
	r.mark()
	for !r.done() {
		if r.steps++; r.steps > mostSteps {
			return errors.New("simulation: the limits of source and battery chatter; change one of them")
		}
		r.step()
		if !finite(r.ah, r.hours, r.tally.in, r.tally.stored, r.tally.lost()) {
			return errBeyond
		}
	}
	r.sample(r.here())
	return nil
}

func finite(all ...float64) bool {
	for _, x := range all {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}

// enter begins a stage.
func (r *run) enter(stage int) {
	r.stage, r.settled = stage, false
	if stage < len(r.Stages) {
		r.stageEndH = r.hours + orInf(r.Stages[stage].AfterH)
		r.m.stageV = orInf(r.Stages[stage].VoltageV)
		r.m.stageA = orInf(r.Stages[stage].CurrentA)
		r.endsAtVoltage = r.Stages[stage].Letter == "I"
		r.tailA = math.Inf(-1)
		if tail := r.Stages[stage].TailA; tail.Valid {
			r.tailA = tail.Decimal.InexactFloat64()
		}
	}
}

// done moves on through stages that are at their end, and reports whether the
// simulation is over.
func (r *run) done() bool {
	if r.ah >= r.stopAh {
		r.stopped = true
	}
	if r.stopped || r.hours >= r.withinH-tick {
		return true
	}
	for r.stage < len(r.Stages) {
		p := r.here()
		if p.by == byEmptiness || p.by == byBattery && r.m.full && !r.m.controlled() {
			return true
		}
		if !r.ends(p) && r.hours < r.stageEndH-tick {
			return false
		}
		r.sample(p)
		r.enter(r.stage + 1)
	}
	return true
}

// step goes on by the longest step, or to the first thing that happens in it: a
// sample due, the clock, or what ends a step of [state.advance].
func (r *run) step() {
	if r.nextTrace-r.hours <= tick {
		r.sample(r.here())
		r.nextTrace += float64(r.TraceEveryS) / 3600
	}
	r.here()
	r.advance(min(float64(r.StepS)/3600, r.nextTrace-r.hours, r.stageEndH-r.hours, r.withinH-r.hours))
	r.mark()
}

// mark notes the time at which a state asked for was first reached.
func (r *run) mark() {
	for i, ah := range r.marksAh {
		if math.IsNaN(r.markedH[i]) && r.ah >= ah {
			r.markedH[i] = r.hours
		}
	}
}

func (r *run) sample(p *point) {
	r.trace = append(r.trace, Sample{
		TimeH:      r.out.fixed(r.hours, 4),
		Stage:      r.Stages[min(r.stage, len(r.Stages)-1)].Name,
		SoCPercent: r.out.fixed(r.ah/r.m.capacityAh*100, 3),
		BatteryV:   r.out.fixed(p.volts, 3),
		BatteryA:   r.out.fixed(p.amps, 3),
		SourceA:    r.out.fixed(p.amps+r.m.loadA, 3),
	})
}

// complete reports whether every stage that has an end is at it.
func (r *run) complete() bool {
	return r.stage >= len(r.Stages) || r.stage == len(r.Stages)-1 && !r.Stages[r.stage].ends()
}

func (r *run) result(w working.Working) Charge {
	c := Charge{
		Reached:    r.stopped || !r.StopPercent.Valid && r.complete(),
		Flat:       r.here().by == byEmptiness,
		TimeH:      r.out.fixed(r.hours, 4),
		EndPercent: r.out.fixed(r.ah/r.m.capacityAh*100, 3),
		InWh:       r.out.fixed(r.tally.in, 3),
		StoredWh:   r.out.fixed(r.tally.stored, 3),
		LoadWh:     r.out.fixed(r.tally.load, 3),
		Trace:      r.trace,
	}
	for i, percent := range r.MarkPercent {
		m := Mark{SoCPercent: percent}
		if h := r.markedH[i]; !math.IsNaN(h) {
			m.TimeH = decimal.NewNullDecimal(r.out.fixed(h, 4))
		}
		c.Marks = append(c.Marks, m)
	}
	c.LostWh = c.InWh.Sub(c.StoredWh).Sub(c.LoadWh)
	c.Working = r.working(w, c)
	return c
}

// model of the source of a stepped line.
var circuit = cite.Kirchhoff.At("EMF behind a resistance, stepped through time", cite.Published)

func (r *run) working(w working.Working, c Charge) working.Working {
	w.Given("s_0", r.StartPercent)
	w.Given("R_int", r.Battery.InternalMilliohm)
	w.Given("I_max", r.Source.CurrentA)
	w.Given("η_s", r.Source.Efficiency)
	w.Given("R_w", r.Source.CableMilliohm)
	w.Given("I_ld", r.LoadA)
	for i, s := range r.Stages {
		if s.VoltageV.Valid {
			w.Given(fmt.Sprintf("U_s.%d", i+1), s.VoltageV.Decimal)
			w.Note(s.Name)
		}
	}
	w.Step("E_in", c.InWh, circuit)
	w.Step("E_st", c.StoredWh, circuit)
	w.Step("E_ld", c.LoadWh, circuit)
	w.Calc("E_lost", "E_in − E_st − E_ld", c.LostWh, sums)
	w.Step("s_e", c.EndPercent, circuit)
	w.Step("t_c", c.TimeH, circuit)
	return slices.Clip(w)
}

// ends reports whether a stage has an end at all.
func (s Stage) ends() bool {
	return s.Letter == "I" && s.VoltageV.Valid || s.TailA.Valid || s.AfterH.Valid
}

func (s Simulation) check() error {
	errs := []error{
		working.In("battery", errors.Join(s.Battery.checkModel(), s.Battery.checkLeadAcid())), working.In("source", s.Source.check()),
		working.Between("load_a", s.LoadA, 0, 10_000),
		working.Between("start_percent", s.StartPercent, 0, 100), checkOptional("stop_percent", s.StopPercent, 0, 100),
		working.Above("within_h", s.WithinH, 0, 8784),
		working.Between("step_s", count(s.StepS), 1, 3600), working.Between("trace_every_s", count(s.TraceEveryS), 0, 86_400),
	}
	for i, percent := range s.MarkPercent {
		errs = append(errs, working.Between(fmt.Sprintf("mark_percent[%d]", i), percent, 0, 100))
	}
	if len(s.Stages) == 0 {
		errs = append(errs, &working.InputError{Field: "stages", Got: "none", Want: "at least one stage"})
	}
	for i, stage := range s.Stages {
		errs = append(errs, working.In(fmt.Sprintf("stages[%d]", i), stage.check(i == len(s.Stages)-1)))
	}
	return errors.Join(errs...)
}

func (s Stage) check(last bool) error {
	errs := []error{
		working.OneOf("letter", s.Letter, "I", "U"),
		s.checkVoltage(),
		checkOptional("stage_a", s.CurrentA, 0, 10_000), checkOptional("tail_a", s.TailA, 0, 10_000),
		checkOptional("after_h", s.AfterH, 0, 8784),
	}
	if !last && !s.ends() {
		errs = append(errs, &working.InputError{Field: "tail_a", Got: "unset", Want: "a tail current, or after_h: only the last stage may run on"})
	}
	return errors.Join(errs...)
}

func (s Stage) checkVoltage() error {
	if s.VoltageV.Valid {
		return working.Above("stage_v", s.VoltageV.Decimal, 0, 1000)
	}
	if s.Letter == "U" {
		return &working.InputError{Field: "stage_v", Got: "unset", Want: "the voltage that the stage holds"}
	}
	return nil
}

func (s ChargingSource) check() error {
	errs := []error{
		working.Between("limit_a", s.CurrentA, 0, 10_000),
		working.Between("cable_milliohm", s.CableMilliohm, 0, 10_000),
		working.Above("source_efficiency", s.Efficiency, 0, 1),
	}
	if s.VoltageV.Valid {
		errs = append(errs, working.Above("source_v", s.VoltageV.Decimal, 0, 1000))
	}
	if s.PowerW.Valid {
		errs = append(errs, working.Above("source_w", s.PowerW.Decimal, 0, 1_000_000))
	}
	return errors.Join(errs...)
}
