package facts

import (
	"slices"
	"strings"
	"sync"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/protect"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"example.org/extralow/wire/installation"
	"github.com/shopspring/decimal"
)

// Overrated reports whether the device's rating is above what its conductor
// bears.
func (m *Facts) Overrated(e End) (bool, error) {
	r, err := m.Window(e)
	return err == nil && !e.Unrated() && e.Fitted.RatingA.GreaterThan(decimal.Min(e.Carried(), r.allowedA)), err
}

// FarFault is the short circuit at the far end of a run, at its smallest:
// batteries nearly empty and aged, one of them missing where there are more,
// conductors warm, every contact in, no charger helping.
func (m *Facts) FarFault(e End, back Backing) (protect.FarFault, string, error) {
	if !back.Battery {
		return protect.FarFault{
			LimitedA: decimal.NewNullDecimal(decimal.Max(back.LimitA, Least)), AmpacityA: decimal.NewNullDecimal(e.Carried()), From: e.Ampacity.Working,
		}, "", nil
	}
	return m.OfBattery(e, e)
}

// OfBattery is the fault that a battery drives into the far end of a run, and
// what of it flows through the device of another, or of itself.
func (m *Facts) OfBattery(e, guard End) (protect.FarFault, string, error) {
	least, err := m.solved.LeastFault(installation.End{Circuit: guard.Name, Node: guard.Node}, e.Far)
	if err != nil || !least.FaultA.Valid {
		return protect.FarFault{}, "", err
	}
	smallest, corner := least.FaultA.Decimal, least.Case
	largest, err := m.ThroughDevice(guard)
	if err != nil {
		return protect.FarFault{}, "", err
	}
	most, _ := largest.Value("I_k")
	f := protect.FarFault{
		LeastFaultA: smallest, GreatestFaultA: decimal.NewNullDecimal(decimal.Max(most, smallest)),
		AmpacityA: decimal.NewNullDecimal(e.Carried()), From: least.Working,
	}
	limits, err := e.bears()
	if err != nil {
		return f, corner, err
	}
	f.Cable = limits.cable
	f.HeatsInS, err = e.heatsIn(smallest, limits.finalC)
	return f, corner, err
}

// faultLimits is what a run bears in a fault.
type faultLimits struct {
	cable  protect.Cable
	finalC decimal.Decimal
}

// bears looks up what the run's insulation bears. Where the job does not name
// it, the weakest of its temperature is taken; where the cable may be hotter
// than the row begins at, the constant begins there.
func (r *Run) bears() (faultLimits, error) {
	area, err := r.Size.Area()
	if err != nil {
		return faultLimits{}, err
	}
	k, err := tables.AdiabaticOf("copper", r.material(), area.Value)
	if err != nil {
		return faultLimits{}, err
	}
	if r.InsulationC.GreaterThan(k.InitialC) {
		from, err := protect.FaultHeating{Name: "copper", InitialC: decimal.NewNullDecimal(r.InsulationC), FinalC: k.FinalC}.Constant()
		return faultLimits{protect.Cable{K: from.K, AreaMM2: area.Value, From: from.Working}, k.FinalC}, err
	}
	var w working.Working
	w.LookUp("k", k.K)
	if r.Insulation == "" {
		w.Note("the insulation is not named: as for the weakest of its temperature")
	}
	return faultLimits{protect.Cable{K: k.K.Value, AreaMM2: area.Value, From: w}, k.FinalC}, nil
}

func (r *Run) material() string {
	switch {
	case r.Insulation != "":
		return r.Insulation
	case r.InsulationC.GreaterThanOrEqual(decimal.NewFromInt(90)):
		return "PVC 90 C"
	default:
		return "PVC 70 C"
	}
}

// Nameless reports whether the insulation is not named and too hot to be the
// weakest: nothing is known of what it bears.
func (r *Run) Nameless() bool {
	return r.Insulation == "" && r.InsulationC.GreaterThanOrEqual(decimal.NewFromInt(140))
}

// Named is the end with the other insulation of its temperature than the one that is
// taken for it, where the job names none and there is another.
func (e End) Named() (End, bool) {
	if e.Insulation != "" {
		return e, false
	}
	names, err := tables.Names("insulation")
	i := slices.IndexFunc(names, func(name string) bool {
		return strings.HasSuffix(name, " "+e.InsulationC.String()+" C") && name != e.material()
	})
	if err != nil || i < 0 {
		return e, false
	}
	named := *e.Run
	named.Insulation = names[i]
	e.Run = &named
	return e, true
}

// heatsIn is how long a fault takes to heat the run, from its full load, to
// what its insulation bears; unset where it never does. Of cables in parallel
// it is one alone: the fault may lie in it.
func (e End) heatsIn(faultA, finalC decimal.Decimal) (decimal.NullDecimal, error) {
	if e.NoAmps != nil {
		return decimal.NullDecimal{}, nil
	}
	area, err := e.Size.Area()
	if err != nil {
		return decimal.NullDecimal{}, err
	}
	t, err := wire.Overload{
		Ampacity: e.One, AreaMM2: area.Value, CurrentA: decimal.Min(faultA, decimal.NewFromInt(10_000)),
		StartC: decimal.NewNullDecimal(decimal.Min(e.One.InsulationC, finalC)),
	}.TimeTo(finalC)
	if err != nil || !t.TimeS.Decimal.IsPositive() {
		return decimal.NullDecimal{}, err
	}
	return t.TimeS, nil
}

// Between reports whether a run lies between a node and one of some sources.
func (m *Facts) Between(r *Run, node string, sources []string) bool {
	i := slices.Index(m.Runs, r)
	return slices.ContainsFunc(sources, func(source string) bool { return slices.Contains(m.mesh(node, source), i) })
}

// StartsHard reports whether a load draws more for a while than it runs with, or
// does nothing but crank.
func StartsHard(l job.Load) bool { return l.SurgeW.Valid || l.Cranking }

// CranksFor is how many seconds an engine is cranked at a time, at the most: the
// time for which SAE J537 rates a battery's cranking amperes.
var CranksFor = sync.OnceValue(func() decimal.Decimal {
	test, err := tables.CrankingTestOf("SAE CCA")
	return Tabled(test.TimeS, err)
})

func onPath(path []*Run, r *Run) bool {
	for _, p := range path {
		if p == r {
			return true
		}
	}
	return false
}

// Starting lays out what a run carries while one load starts on top of what it
// carries at most with that load running; it is not ok where no state runs it.
func (m *Facts) Starting(r *Run, l job.Load) (w working.Working, ok bool) {
	if l.Cranking {
		return m.Cranking(l), true
	}
	lowest, most := m.worstWith(l, r)
	if !lowest.IsPositive() {
		return nil, false
	}
	w.Given("I_b", most)
	w.Note("with it running, in the worst state that runs it")
	more := w.Given("P_su", l.SurgeW.Decimal).Sub(w.Given("P", m.watts(l)))
	volts, formula := m.startsAt(&w, l, lowest)
	if i := slices.IndexFunc(m.Job.Inverters, func(v job.Inverter) bool { return v.Name == l.Inverter }); i >= 0 {
		more, volts = more.Shift(2), volts.Mul(w.Given("η", m.Job.Inverters[i].EfficiencyPercent))
		formula = "(P_su − P) × 100 ÷ (η × " + formula + ")"
	} else {
		formula = "(P_su − P) ÷ " + formula
	}
	surge, rest := more.Add(most.Mul(volts)).QuoRem(volts, 2)
	if rest.IsPositive() {
		surge = surge.Add(decimal.New(1, -2))
	}
	w.Calc("I_sg", "ceil((I_b + "+formula+") × 100) ÷ 100", surge, cite.OhmsLaw.At("", cite.Published))
	return w, true
}

// startsAt adds the voltage at which the watts of a start are turned into amperes, and
// names it: for what draws constant power the lowest while it starts, for what draws a
// constant current the nominal one, at which its watts are stated. A resistance draws
// more as the voltage rises: the watts at the nominal one times the highest by it.
func (m *Facts) startsAt(w *working.Working, l job.Load, lowest decimal.Decimal) (decimal.Decimal, string) {
	switch {
	case l.At != "" && l.Behaves == "current":
		return w.Given("U_n", m.Job.SystemV), "U_n"
	case l.At != "" && l.Behaves == "resistance":
		n, high := w.Given("U_n", m.Job.SystemV), w.Given("U_hi", decimal.Max(m.HighestV(l.At), m.Job.SystemV))
		return w.CalcDown("U_L", "U_n × U_n ÷ U_hi", n.Mul(n), high, 4, cite.OhmsLaw.At("", cite.Published)), "U_L"
	case l.Inverter != "":
		lowest = decimal.Min(lowest, m.startV(l, lowest))
	}
	return w.Given("U_L", lowest), "U_L"
}

// startV is the lowest voltage at an inverter while one of its loads starts, on the
// batteries alone; below its cut-out it draws nothing. It is remembered for each load.
func (m *Facts) startV(l job.Load, lowest decimal.Decimal) decimal.Decimal {
	v, _ := m.startVolts.get(l.Name, func() (decimal.Decimal, error) { return m.findStartV(l, lowest), nil })
	return v
}

func (m *Facts) findStartV(l job.Load, lowest decimal.Decimal) decimal.Decimal {
	inv, ok := m.Inverter(l.Inverter)
	for k := range m.Job.States {
		s := &m.Job.States[k]
		if !ok || !slices.Contains(s.Loads, l.Name) {
			continue
		}
		out := m.SurgeOut(inv, s, func(x job.Load) bool { return x.Name == l.Name })
		for _, of := range m.Absences(s) {
			if c, err := m.AtSurge(inv, of, k, out); err == nil {
				v, _ := c.Voltage(inv.Name) // nought where the case collapses
				lowest = decimal.Min(lowest, decimal.Max(v, inv.CutOutV))
			}
		}
	}
	return lowest
}

// Cranking is what an engine's starter draws, whatever else runs.
func (m *Facts) Cranking(l job.Load) (w working.Working) {
	if l.CurrentA.Valid {
		w.Given("I_sg", l.CurrentA.Decimal)
		return w
	}
	p, u := w.Given("P", l.PowerW.Decimal), w.Given("U_n", m.Job.SystemV)
	amps, rest := p.QuoRem(u, 2)
	if rest.IsPositive() {
		amps = amps.Add(decimal.New(1, -2))
	}
	w.Calc("I_sg", "ceil(P ÷ U_n × 100) ÷ 100", amps, cite.OhmsLaw.At("", cite.Published))
	return w
}

// Article is a device with the gates of its own curve, where the job gives any:
// one gate where both are of one current.
func Article(d *job.Device) protect.Device {
	x := protect.Device{Family: d.Family, RatingA: d.RatingA}
	if d.HoldsA.Valid && d.HoldsS.Valid {
		x.Gates = append(x.Gates, protect.Gate{CurrentA: d.HoldsA.Decimal, LeastS: d.HoldsS})
	}
	switch opens := d.OpensA.Valid && d.OpensByS.Valid; {
	case opens && len(x.Gates) == 1 && d.OpensA.Decimal.Equal(d.HoldsA.Decimal):
		x.Gates[0].GreatestS = d.OpensByS
	case opens:
		x.Gates = append(x.Gates, protect.Gate{CurrentA: d.OpensA.Decimal, GreatestS: d.OpensByS})
	}
	slices.SortFunc(x.Gates, func(a, b protect.Gate) int { return a.CurrentA.Cmp(b.CurrentA) })
	return x
}

// worstWith is the lowest voltage at a load, and the most that a run carries
// steadily, in the cases that run the load.
func (m *Facts) worstWith(l job.Load, r *Run) (lowest, most decimal.Decimal) {
	for _, c := range m.Cases {
		v, ok := c.Voltage(l.Node())
		if !ok || !c.Loads || !slices.Contains(c.State.Loads, l.Name) {
			continue
		}
		if lowest.IsZero() || v.LessThan(lowest) {
			lowest = v
		}
		if !c.short() && c.Starting != l.Name { // its own start is added to that
			most = decimal.Max(most, c.current(r.Name).Abs())
		}
	}
	return lowest, most
}
