package charge_test

import (
	"math"
	"testing"

	"example.org/extralow/charge"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// This file is a second integration of a charge, written from the comment of
// Simulation.Run and of LeadAcidCell.Voltage alone, the straightforward way: small
// steps of equal length, a current found by halving. It has none of the library's
// code.

// read is a job as the comment puts it.
type read struct {
	c, ri, rw, ka, rate     float64 // rate: the greatest charging current, I_r
	emf                     [][2]float64
	kept                    [][2]float64
	cells, strings, celsius float64 // cells 0: no lead-acid
	amps, own, watts, eta   float64 // 0: unset
	remote                  bool
	load, q, within, stop   float64
	stages                  []readStage
	marks                   []float64
}

type readStage struct {
	letter                   string
	volts, amps, tail, after float64 // 0: unset, but for the tail: -Inf
}

type readAnswer struct {
	hours, q, in, stored, load float64
	marks                      []float64
}

func (r read) e(q float64) float64 {
	s := 100 * q / r.c
	for i := 1; i < len(r.emf); i++ {
		if a, b := r.emf[i-1], r.emf[i]; s <= b[0] {
			return a[1] + (b[1]-a[1])*(s-a[0])/(b[0]-a[0])
		}
	}
	return r.emf[len(r.emf)-1][1]
}

func (r read) efficiency(q float64) (eta float64) {
	for _, k := range r.kept {
		if 100*q/r.c >= k[0]-1e-9 {
			eta = k[1]
		}
	}
	return eta
}

func (r read) ub(q, i float64) float64 {
	u := r.e(q) + r.ri*i
	if i <= 0 || r.cells == 0 {
		return u
	}
	one, c10, s, dt := i/r.strings, r.c/r.strings, q/r.c, r.celsius-25
	cell := (2.45 + 2.011*math.Log(1+one/c10)) * (1 - 0.002*dt)
	if s < 1 {
		cell = math.Min(cell, 2+0.16*s+one/c10*(6/(1+math.Pow(one, 0.86))+0.48/math.Pow(1-s, 1.2)+0.036)*(1-0.025*dt))
	}
	return math.Max(u, r.cells*cell)
}

func (r read) uq(q, i float64) float64 { return r.ub(q, i) + r.rw*(i+r.load) }

// root is the greatest current from low to high at which what rises with it has not
// gone beyond its bound; the jump of a lead-acid battery's voltage at no current is
// a root too.
func root(low, high float64, beyond func(i float64) bool) float64 {
	for range 48 {
		if middle := (low + high) / 2; beyond(middle) {
			high = middle
		} else {
			low = middle
		}
	}
	return low
}

func (r read) current(q float64, s readStage) (i float64, by string, u float64) {
	i, by = r.amps-r.load, "source"
	if s.amps > 0 {
		i = math.Min(r.amps, s.amps) - r.load
	}
	least := func(name string, beyond func(i float64) bool) {
		if beyond(i) {
			i, by = root(-r.load-1, i, beyond), name
		}
	}
	if s.volts > 0 {
		least("voltage", func(i float64) bool {
			if r.remote {
				return r.ub(q, i) > s.volts
			}
			return r.uq(q, i) > s.volts
		})
	}
	if r.own > 0 {
		least("own voltage", func(i float64) bool { return r.uq(q, i) > r.own })
	}
	if r.watts > 0 {
		least("power", func(i float64) bool { return r.uq(q, i)*(i+r.load) > r.watts })
	}
	held := s.volts > 0 || r.own > 0 || r.watts > 0
	if takes := r.ka * (r.c - q); r.ka > 0 && held && takes < i {
		i, by = takes, "acceptance"
	}
	if q >= r.c-1e-7 && i > 0 {
		i, by = 0, "full"
	}
	if r.rate < i {
		i, by = r.rate, "rate"
	}
	if i < -r.load {
		i, by = -r.load, "load"
	}
	if q <= 1e-7 && i < 0 {
		i, by = 0, "empty"
	}
	u = r.ub(q, i)
	if held && (by == "acceptance" || by == "full") {
		drop := r.rw * (i + r.load)
		u = math.Inf(1)
		if s.volts > 0 {
			u = s.volts
			if !r.remote {
				u -= drop
			}
		}
		if r.own > 0 {
			u = math.Min(u, r.own-drop)
		}
		if r.watts > 0 && i+r.load > 0 {
			u = math.Min(u, r.watts/(i+r.load)-drop)
		}
	}
	return i, by, u
}

func (s readStage) over(i float64, by string, since float64) bool {
	at := by == "voltage" || by == "own voltage" || by == "acceptance" || by == "full"
	return at && (s.letter == "I" || i <= s.tail) || s.after > 0 && since >= s.after-1e-9
}

func (r read) run() readAnswer {
	a := readAnswer{q: r.q, marks: make([]float64, len(r.marks))}
	for i, m := range r.marks {
		if a.marks[i] = math.NaN(); r.q >= m*r.c/100 {
			a.marks[i] = 0
		}
	}
	const longest, shortest = 2e-3, 1e-8
	n, since, dt := 0, 0.0, longest
	for a.hours < r.within-1e-9 && (r.stop == 0 || a.q < r.stop*r.c/100) {
		s := r.stages[n]
		i, by, _ := r.current(a.q, s)
		if by == "empty" || by == "full" && s.volts == 0 && r.own == 0 && r.watts == 0 {
			break
		}
		if s.over(i, by, a.hours-since) {
			if n++; n == len(r.stages) {
				break
			}
			since, dt = a.hours, longest
			continue
		}
		dt = math.Min(dt, r.within-a.hours)
		flow := func(q, i float64) float64 {
			if i > 0 {
				return i * r.efficiency(q)
			}
			return i
		}
		half := a.q + flow(a.q, i)*dt/2
		im, bym, um := r.current(half, s)
		q := a.q + flow(half, im)*dt
		if dt <= shortest { // at an edge: what flows before it
			q = a.q + flow(a.q, i)*dt
		}
		ie, bye, _ := r.current(math.Max(0, math.Min(q, r.c)), s)
		if dt > shortest && (r.edge(a.q, q) || bym != by || bye != by || s.over(ie, bye, a.hours+dt-since)) {
			dt /= 2
			continue
		}
		a.in += (um + r.rw*(im+r.load)) * (im + r.load) / r.eta * dt
		a.stored += r.e(half) * flow(half, im) * dt
		a.load += um * r.load * dt
		a.hours += dt
		a.q = math.Max(0, math.Min(q, r.c))
		for k, m := range r.marks {
			if math.IsNaN(a.marks[k]) && a.q >= m*r.c/100-1e-6 {
				a.marks[k] = a.hours
			}
		}
		dt = longest
	}
	return a
}

// edge reports whether something that bends or is asked for lies between.
func (r read) edge(from, to float64) bool {
	low, high := math.Min(from, to), math.Max(from, to)
	all := append([]float64{0, 100, r.stop}, r.marks...)
	for _, p := range append(append([][2]float64{}, r.emf...), r.kept...) {
		all = append(all, p[0])
	}
	for _, s := range all {
		if q := s * r.c / 100; q > low+1e-9 && q < high-1e-9 {
			return true
		}
	}
	return false
}

// asRead takes a job's figures over into plain numbers. The greatest charging current
// is given for each job by hand.
func asRead(s charge.Simulation, rate, ka float64) read {
	f := func(v decimal.Decimal) float64 { return v.InexactFloat64() }
	o := func(v decimal.NullDecimal, unset float64) float64 {
		if !v.Valid {
			return unset
		}
		return f(v.Decimal)
	}
	b := s.Battery
	r := read{
		c: f(b.CapacityAh), ri: f(b.InternalMilliohm) / 1000, rw: f(s.Source.CableMilliohm) / 1000, ka: ka, rate: rate,
		cells: float64(b.Cells), strings: float64(b.Strings), celsius: f(b.BatteryC),
		amps: f(s.Source.CurrentA), own: o(s.Source.VoltageV, 0), watts: o(s.Source.PowerW, 0), eta: f(s.Source.Efficiency),
		remote: s.Source.RemoteSensing, load: f(s.LoadA), within: f(s.WithinH), stop: o(s.StopPercent, 0),
	}
	r.q = f(s.StartPercent) * r.c / 100
	for _, p := range b.EMF {
		r.emf = append(r.emf, [2]float64{f(p.SoCPercent), f(p.EMFV)})
	}
	for _, e := range b.Efficiency {
		r.kept = append(r.kept, [2]float64{f(e.FromPercent), f(e.Efficiency)})
	}
	for _, st := range s.Stages {
		r.stages = append(r.stages, readStage{st.Letter, o(st.VoltageV, 0), o(st.CurrentA, 0), o(st.TailA, math.Inf(-1)), o(st.AfterH, 0)})
	}
	for _, m := range s.MarkPercent {
		r.marks = append(r.marks, f(m))
	}
	return r
}

// TestCommentIsEnough: whoever has nothing but the comment gets the same times to
// 0.001 h and the same energies to 0.1 %.
func TestCommentIsEnough(t *testing.T) {
	type job struct {
		charge.Simulation
		rate, ka float64
	}
	lead := func(change func(s *charge.Simulation)) job {
		s := overnight()
		s.MarkPercent = []decimal.Decimal{d("60"), d("75"), d("85")}
		change(&s)
		return job{s, 22, 1}
	}
	bank := func(change func(s *charge.Simulation)) job {
		s := overnight()
		s.Battery = lithium()
		s.Source.CurrentA, s.WithinH = d("60"), d("8")
		s.Stages = []charge.Stage{
			{Name: "bulk", Letter: "I", VoltageV: some("14.2")}, {Name: "absorption", Letter: "U", VoltageV: some("14.2"), TailA: some("10")},
			{Name: "float", Letter: "U", VoltageV: some("13.4")},
		}
		change(&s)
		return job{s, 100, 0}
	}
	poor := lead(func(s *charge.Simulation) { s.Battery.AcceptPerHour = some("0.2") })
	poor.ka = 0.2
	cold := bank(func(s *charge.Simulation) { s.Battery.BatteryC = d("4") })
	cold.rate = 40
	for name, j := range map[string]job{
		"lead-acid IUoU":            lead(func(*charge.Simulation) {}),
		"lead-acid, remote sensing": lead(func(s *charge.Simulation) { s.Source.RemoteSensing, s.Source.CableMilliohm = true, d("40") }),
		"lead-acid by power":        lead(func(s *charge.Simulation) { s.Source.PowerW = some("250") }),
		"lead-acid, stage current":  lead(func(s *charge.Simulation) { s.Stages[0].CurrentA = some("12") }),
		"lead-acid, weak source":    lead(func(s *charge.Simulation) { s.Source.CurrentA, s.Source.VoltageV = d("9"), some("13.2") }),
		"lead-acid, until 80 %":     lead(func(s *charge.Simulation) { s.StopPercent, s.StartPercent = some("80"), d("10") }),
		"lead-acid, equalised": lead(func(s *charge.Simulation) {
			s.Stages = []charge.Stage{{Name: "bulk", Letter: "I", VoltageV: some("15.9"), AfterH: some("4")}, {Name: "held", Letter: "U", VoltageV: some("15.9")}}
		}),
		"lead-acid IUIa": lead(func(s *charge.Simulation) {
			s.Stages[2] = charge.Stage{Name: "finish", Letter: "I", CurrentA: some("8"), AfterH: some("5")}
			s.Stages[1].TailA, s.WithinH = some("9"), d("24")
		}),
		"lead-acid I until full": lead(func(s *charge.Simulation) {
			s.Stages = []charge.Stage{{Name: "constant current", Letter: "I"}}
			s.WithinH = d("40")
		}),
		"lead-acid that takes little":  poor,
		"lead-acid, load above source": lead(func(s *charge.Simulation) { s.LoadA, s.WithinH = d("45"), d("24") }),
		"lead-acid, held below its EMF": lead(func(s *charge.Simulation) {
			s.Stages = []charge.Stage{{Name: "held", Letter: "U", VoltageV: some("12")}}
		}),
		"lead-acid, held where none flow": lead(func(s *charge.Simulation) {
			s.Stages = []charge.Stage{{Name: "held", Letter: "U", VoltageV: some("12.3")}}
		}),
		"lithium CC/CV":             bank(func(*charge.Simulation) {}),
		"lithium CC/CV, thin cable": bank(func(s *charge.Simulation) { s.Source.CableMilliohm = d("25") }),
		"lithium by power":          bank(func(s *charge.Simulation) { s.Source.PowerW, s.LoadA = some("450"), d("5") }),
		"lithium, cold":             cold,
		"lithium, weak source":      bank(func(s *charge.Simulation) { s.Source.VoltageV = some("13.3") }),
	} {
		t.Run(name, func(t *testing.T) {
			c, err := j.Run()
			require.NoError(t, err)
			got := asRead(j.Simulation, j.rate, j.ka)
			if j.Battery.Chemistry == "LiFePO4" {
				got.cells = 0
			}
			want := got.run()
			assert.InDelta(t, want.hours, c.TimeH.InexactFloat64(), 0.001, "end")
			assert.InDelta(t, 100*want.q/got.c, c.EndPercent.InexactFloat64(), 0.01)
			for i, m := range c.Marks {
				if assert.Equal(t, !math.IsNaN(want.marks[i]), m.TimeH.Valid, "%s %%", m.SoCPercent) && m.TimeH.Valid {
					assert.InDelta(t, want.marks[i], m.TimeH.Decimal.InexactFloat64(), 0.001, "%s %%", m.SoCPercent)
				}
			}
			near := func(want float64, got decimal.Decimal, what string) {
				assert.InDelta(t, want, got.InexactFloat64(), 0.001*math.Abs(want)+0.001, what)
			}
			near(want.in, c.InWh, "in")
			near(want.stored, c.StoredWh, "stored")
			near(want.load, c.LoadWh, "load")
		})
	}
}
