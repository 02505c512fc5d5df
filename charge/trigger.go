package charge

import (
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Trigger is how a converter tells by voltage that the engine runs: it wakes
// after its input has stood at WakeV for WakeS, and sleeps after it has stood
// below SleepV for SleepS.
type Trigger struct {
	WakeV         decimal.Decimal     `json:"wake_v"`         // above 0 to 100
	SleepV        decimal.Decimal     `json:"sleep_v"`        // above 0 to 100
	WakeS         decimal.Decimal     `json:"wake_delay_s"`   // 1 to 3600
	SleepS        decimal.Decimal     `json:"sleep_delay_s"`  // 1 to 3600
	InputA        decimal.Decimal     `json:"input_a"`        // that it takes while it works; needed for Drive and StaysAwake; above 0 to 10 000
	InputMilliohm decimal.NullDecimal `json:"input_milliohm"` // of its input lead, out and back; needed for the same; 0 to 10 000
	From          working.Working     `json:"from,omitempty"` // the lines that gave any of it
}

// DrivePhase is a stretch of a drive at one voltage.
type DrivePhase struct {
	Name     string          `json:"phase"`
	TimeS    decimal.Decimal `json:"phase_s"`
	Running  bool            `json:"running"`   // the engine
	VehicleV decimal.Decimal `json:"vehicle_v"` // at the beginning of the input lead
}

// Drive is how a converter went through a drive with stops.
type Drive struct {
	RunningS  decimal.Decimal `json:"running_s"` // the engine ran
	AwakeS    decimal.Decimal `json:"awake_s"`   // the converter worked
	MissedS   decimal.Decimal `json:"missed_s"`  // the engine ran, the converter slept
	DrainS    decimal.Decimal `json:"drain_s"`   // the engine stood, the converter worked
	Switched  int             `json:"switchings"`
	DrainedAh decimal.Decimal `json:"drained_ah"` // from the starter battery
	Legs      []PhaseAwake    `json:"legs,omitempty"`
	Working   working.Working `json:"working"`
}

// PhaseAwake is how long the converter worked in a leg.
type PhaseAwake struct {
	Name   string          `json:"phase"`
	AwakeS decimal.Decimal `json:"awake_s"`
}

// Drive steps the trigger through a drive; the converter sleeps at its start.
// While it works its input stands lower than the vehicle by the drop in its lead:
//
//	asleep: wakes after WakeS at U ≥ U_wk
//	awake:  sleeps after SleepS at U − I_i × R_in ÷ 1000 < U_sl
//	Q_dr = I_i × t_dr ÷ 3600   [Ah]
//
// On a vehicle whose alternator varies its voltage the input falls below the
// sleep voltage with the engine running, and stands above the wake voltage for a
// while after it has stopped: voltage alone does not prove anything there, and
// the answer shows by how much. Voltages above 0 to 100 V, delays 1 to 3600 s,
// legs 1 to 604 800 s, at most 1000 of them.
func (t Trigger) Drive(legs []DrivePhase) (Drive, error) {
	if err := errors.Join(t.check(), t.checkLead(), checkLegs(legs)); err != nil {
		return Drive{}, err
	}
	r := &driving{t: t, drop: t.InputA.Mul(t.InputMilliohm.Decimal).Shift(-3)}
	for _, leg := range legs {
		r.leg(leg)
	}
	w := working.Start(t.From)
	w.Given("U_wk", t.WakeV)
	w.Given("U_sl", t.SleepV)
	i := w.Given("I_i", t.InputA)
	w.Given("R_in", t.InputMilliohm.Decimal)
	w.Step("t_run", r.RunningS, practice)
	w.Step("t_aw", r.AwakeS, practice)
	w.Step("t_ms", r.MissedS, practice)
	w.Step("n_sw", count(r.Switched), practice)
	drain := w.Step("t_dr", r.DrainS, practice)
	r.DrainedAh = w.Calc("Q_dr", "I_i × t_dr ÷ 3600", i.Mul(drain).DivRound(decimal.NewFromInt(3600), 4), sums)
	r.Working = slices.Clip(w)
	return r.Drive, nil
}

// practice marks what follows from how such triggers are built.
var practice = cite.Practice.At("two thresholds with a delay", cite.CommonPractice)

// driving is a drive under way.
type driving struct {
	Drive
	t       Trigger
	drop    decimal.Decimal
	awake   bool
	pending decimal.Decimal // seconds that the voltage has called for a change
}

// leg goes through one leg, from change to change of the converter.
func (r *driving) leg(l DrivePhase) {
	left, awakeBefore := l.TimeS, r.AwakeS
	for left.IsPositive() {
		wants, delay := r.wants(l.VehicleV)
		if !wants {
			r.pending = decimal.Zero
			r.pass(l, left)
			break
		}
		spell := least(delay.Sub(r.pending), left)
		r.pass(l, spell)
		left, r.pending = left.Sub(spell), r.pending.Add(spell)
		if r.pending.Equal(delay) {
			r.awake, r.pending = !r.awake, decimal.Zero
			r.Switched++
		}
	}
	r.Legs = append(r.Legs, PhaseAwake{l.Name, r.AwakeS.Sub(awakeBefore)})
}

// wants reports whether the voltage calls for a change, and after what delay.
func (r *driving) wants(vehicleV decimal.Decimal) (bool, decimal.Decimal) {
	if r.awake {
		return vehicleV.Sub(r.drop).LessThan(r.t.SleepV), r.t.SleepS
	}
	return vehicleV.GreaterThanOrEqual(r.t.WakeV), r.t.WakeS
}

// pass counts so many seconds in the present state.
func (r *driving) pass(l DrivePhase, seconds decimal.Decimal) {
	if l.Running {
		r.RunningS = r.RunningS.Add(seconds)
	}
	switch {
	case r.awake:
		r.AwakeS = r.AwakeS.Add(seconds)
		if !l.Running {
			r.DrainS = r.DrainS.Add(seconds)
		}
	case l.Running:
		r.MissedS = r.MissedS.Add(seconds)
	}
}

// Wakes checks (C05) that the converter wakes at the lowest voltage at which the
// vehicle runs: U_wk ≤ U_run. The voltage is measured with a voltmeter at the
// converter's input after some minutes of driving and of idling, or asked of the
// vehicle's maker; a variable alternator goes down to 12.5 V or lower.
func (t Trigger) Wakes(running working.Figure) (working.Check, error) {
	if err := errors.Join(t.check(), working.Above("running_v", running.Value, 0, 100)); err != nil {
		return working.Check{}, err
	}
	w := working.Start(t.From)
	w.Given("U_wk", t.WakeV)
	taken(&w, "U_run", running)
	return w.Check("C05", "Converter wakes", "U_wk", "U_run"), nil
}

// StaysAwake checks (C05) that the converter does not fall asleep while it works
// with the engine running: U_sl ≤ U_run − I_i × R_in ÷ 1000.
func (t Trigger) StaysAwake(running working.Figure) (working.Check, error) {
	if err := errors.Join(t.check(), t.checkLead(), working.Above("running_v", running.Value, 0, 100)); err != nil {
		return working.Check{}, err
	}
	w := working.Start(t.From)
	u := taken(&w, "U_run", running)
	i, r := w.Given("I_i", t.InputA), w.Given("R_in", t.InputMilliohm.Decimal)
	w.Calc("U_aw", "U_run − I_i × R_in ÷ 1000", u.Sub(i.Mul(r).Shift(-3)), cite.OhmsLaw.At("", cite.Published))
	w.Given("U_sl", t.SleepV)
	return w.Check("C05", "Converter stays awake", "U_sl", "U_aw"), nil
}

// Sleeps checks (C05) that the converter sleeps once the engine stands: the
// vehicle's voltage at rest is below the sleep voltage, U_rest < U_sl, else it
// goes on to empty the starter battery. A full lead-acid battery rests at 12.6
// to 12.8 V, and higher for some hours after a charge.
func (t Trigger) Sleeps(resting working.Figure) (working.Check, error) {
	if err := errors.Join(t.check(), working.Above("resting_v", resting.Value, 0, 100)); err != nil {
		return working.Check{}, err
	}
	w := working.Start(t.From)
	taken(&w, "U_rest", resting)
	w.Given("U_sl", t.SleepV)
	c := w.Check("C05", "Converter sleeps", "U_rest", "U_sl")
	c.Below = true
	return c, nil
}

// taken adds a figure that has a source as looked up, else as given.
func taken(w *working.Working, symbol string, f working.Figure) decimal.Decimal {
	if f.Stated() {
		return w.LookUp(symbol, f)
	}
	return w.Given(symbol, f.Value)
}

func (t Trigger) check() error {
	errs := []error{
		working.Above("wake_v", t.WakeV, 0, 100), working.Above("sleep_v", t.SleepV, 0, 100),
		working.Between("wake_delay_s", t.WakeS, 1, 3600), working.Between("sleep_delay_s", t.SleepS, 1, 3600),
	}
	if errors.Join(errs...) == nil && t.SleepV.GreaterThan(t.WakeV) {
		errs = append(errs, &working.InputError{Field: "sleep_v", Got: t.SleepV.String(), Want: "at most wake_v, " + t.WakeV.String()})
	}
	return errors.Join(errs...)
}

// checkLead checks what the converter takes through its input lead.
func (t Trigger) checkLead() error {
	return errors.Join(working.Above("input_a", t.InputA, 0, 10_000), demanded("input_milliohm", t.InputMilliohm, 0, 10_000))
}

func checkLegs(legs []DrivePhase) error {
	errs := []error{working.Between("phases", count(len(legs)), 1, 1000)}
	for i, l := range legs[:min(len(legs), 1000)] {
		errs = append(errs, working.In(fmt.Sprintf("phases[%d]", i), errors.Join(
			working.Between("phase_s", l.TimeS, 1, 604_800), working.Between("vehicle_v", l.VehicleV, 0, 100))))
	}
	return errors.Join(errs...)
}
