package charge

import "math"

// limit says what holds the current into the battery down.
type limit uint8

const (
	bySource     limit = iota // the source's greatest current
	byVoltage                 // the stage's voltage
	byOwnVoltage              // the source's own greatest voltage
	byPower                   // the source's greatest power
	byBattery                 // what the battery accepts; the voltage stands at its limit
	byRate                    // the battery's greatest charging current
	byLoad                    // the source gives nothing, the battery feeds the load
	byEmptiness               // the battery is flat, the source gives what it can
)

// atVoltage reports whether the voltage has reached its limit.
func (l limit) atVoltage() bool { return l == byVoltage || l == byOwnVoltage || l == byBattery }

// span is a stretch of the state of charge in which the EMF is a straight line
// and the coulombic efficiency is constant.
type span struct {
	fromAh, toAh float64
	emfV         float64 // at fromAh
	slope        float64 // V/Ah
	efficiency   float64 // 0 to 1, of the charge
}

// model is the battery, the source and the cable between them as the time loop
// sees them: a source of EMF behind a resistance, in ohms, amperes and hours.
type model struct {
	spans      []span
	capacityAh float64
	ri, rc     float64    // of the battery; of the cable out and back
	law        *chargeLaw // its voltage under charge; nil: EMF and resistance alone
	accept     float64    // A for each Ah missing; 0: no such law
	rateA      float64    // the battery's own limit

	sourceA, sourceV, powerW float64 // +Inf: no limit
	efficiency               float64 // of the source
	remote                   bool    // the source senses the voltage at the battery
	stageV, stageA           float64
	loadA                    float64 // taken off at the battery
	full, flat               bool    // at the end of the last span, at the start of the first
	guess                    guess
}

// point is what flows at one state of charge.
type point struct {
	by     limit
	emf    float64
	amps   float64 // into the battery
	change float64 // of amps, for an ampere-hour more
	volts  float64 // at the battery's terminals

	missing, steepness float64 // what the law of lead-acid asks for at this state
}

// sensed is the resistance between the EMF and where a voltage is held.
func (m *model) sensed(remote bool) (r, loadDrop float64) {
	if remote {
		return m.ri, 0
	}
	return m.ri + m.rc, m.loadA * m.rc
}

// at works out what flows at a state of charge: the least of the currents that
// each limit by itself would allow, and never so little that the source would
// have to take current in. Points go by reference: there are millions in a year.
func (m *model) at(p *point, s *span, ah float64) {
	p.emf = s.emfV + s.slope*(ah-s.fromAh)
	p.by, p.amps, p.change = bySource, min(m.sourceA, m.stageA)-m.loadA, 0
	if m.law != nil {
		p.missing = max(1-ah/m.capacityAh, leastMissing)
		p.steepness = m.law.v[4] * m.law.ofMissing.of(p.missing)
	}
	m.holdVoltage(p, s, byVoltage, m.stageV, m.remote)
	if m.remote && m.sourceV < unlimited || m.sourceV < m.stageV {
		m.holdVoltage(p, s, byOwnVoltage, m.sourceV, false)
	}
	if m.powerW < unlimited {
		m.holdPower(p, s)
	}
	if m.accept > 0 {
		if takes := m.accept * (m.capacityAh - ah); takes < p.amps && m.controlled() {
			p.by, p.amps, p.change = byBattery, max(takes, 0), -m.accept
		}
	}
	if m.full && p.amps > 0 {
		p.by, p.amps, p.change = byBattery, 0, 0
	}
	if m.rateA < p.amps {
		p.by, p.amps, p.change = byRate, m.rateA, 0
	}
	if p.amps < -m.loadA {
		p.by, p.amps, p.change = byLoad, -m.loadA, 0
	}
	if m.flat && p.amps < 0 {
		p.by, p.amps, p.change = byEmptiness, 0, 0
	}
	p.volts = p.emf + p.amps*m.ri
	switch {
	case p.by == byBattery && m.controlled(), m.law != nil && p.amps > 0 && (p.by == byVoltage || p.by == byOwnVoltage || p.by == byPower):
		p.volts = m.raised(p.amps)
	case m.law != nil:
		p.volts = m.terminal(p, s, p.amps).volts
	}
}

// leastMissing keeps the law of lead-acid finite at full charge, where its final
// voltage is what counts.
const leastMissing = 1e-12

// terminal is the voltage at the battery at a current into it: its EMF behind its
// resistance and, while it is charged, no less than the law of lead-acid gives.
func (m *model) terminal(p *point, s *span, amps float64) terminal {
	behind := terminal{p.emf + amps*m.ri, m.ri, s.slope}
	if m.law == nil || amps <= 0 {
		return behind
	}
	if risen := m.law.at(amps, p.missing, p.steepness); risen.volts > behind.volts {
		return risen
	}
	return behind
}

// unlimited is above any limit that a simulation may be given.
const unlimited = 1e9

// controlled reports whether anything holds the voltage down: a constant current
// that nothing does goes into the battery, whether it accepts it or gasses.
func (m *model) controlled() bool {
	return m.stageV < unlimited || m.sourceV < unlimited || m.powerW < unlimited
}

// holdVoltage lowers the current to what a voltage lets through.
func (m *model) holdVoltage(p *point, s *span, by limit, volts float64, remote bool) {
	r, drop := m.sensed(remote)
	if amps := (volts - p.emf - drop) / r; amps < p.amps {
		p.by, p.amps, p.change = by, amps, -s.slope/r
	}
	if m.law != nil {
		m.holdRisen(p, by, bound{volts: volts, rc: r - m.ri})
	}
}

// holdPower lowers the current to what the source's power gives: I of the source
// solves (R_i + R_c) × I² + (E − I_load × R_i) × I = P.
func (m *model) holdPower(p *point, s *span) {
	a, b := m.ri+m.rc, p.emf-m.loadA*m.ri
	amps := 2 * m.powerW / (b + math.Sqrt(b*b+4*a*m.powerW))
	if amps-m.loadA < p.amps {
		p.by, p.amps, p.change = byPower, amps-m.loadA, -amps*s.slope/(2*a*amps+b)
	}
	if m.law != nil {
		m.holdRisen(p, byPower, bound{watts: m.powerW, rc: m.rc})
	}
}

// bound is what a source holds through so much of its cable: a voltage or, where
// watts are given, a power.
type bound struct{ volts, watts, rc float64 }

// excess is by how much a current into a lead-acid battery goes beyond a bound, and
// how that changes with an ampere and with an ampere-hour more.
func (m *model) excess(p *point, b bound, amps float64) terminal {
	t, source := m.law.at(amps, p.missing, p.steepness), amps+m.loadA
	u, perA := t.volts+source*b.rc, t.perA+b.rc
	if b.watts == 0 {
		return terminal{u - b.volts, perA, t.perAh}
	}
	return terminal{u*source - b.watts, perA*source + u, t.perAh * source}
}

// holdRisen lowers the current to what a bound lets into a lead-acid battery by the
// law of its voltage; to nought where the law's voltage is above it without current.
// It goes by Newton's steps from where the last current leads to, within the bracket
// that shrinks around the answer; an end of the bracket is asked when a step gets there.
func (m *model) holdRisen(p *point, by limit, b bound) {
	if p.amps <= 0 || math.IsInf(b.volts, 1) {
		return
	}
	low, high := -1.0, math.Inf(1)
	amps := min(m.guess.at(p.missing), p.amps)
	for n := 0; ; n++ {
		e := m.excess(p, b, amps)
		switch {
		case e.volts >= 0 && amps == 0:
			p.by, p.amps, p.change = by, 0, 0
			m.guess = guess{}
			return
		case e.volts > 0:
			high = amps
		case amps == p.amps:
			return
		default:
			low = amps
		}
		step := e.volts / e.perA
		next := min(max(amps-step, 0), p.amps)
		if math.Abs(step) <= 1e-5*amps || high-low <= 1e-13*p.amps || n == 100 { // the next step would be as its square
			p.by, p.amps, p.change = by, next, -e.perAh/e.perA
			m.guess = guess{next, p.change * m.capacityAh, p.missing}
			return
		}
		if !(next > low && next < high) {
			next = (max(low, 0) + min(high, p.amps)) / 2
		}
		amps = next
	}
}

// guess is where the next search for a current begins: on the tangent of the last.
type guess struct{ amps, perShare, missing float64 }

func (g guess) at(missing float64) float64 { return max(0, g.amps+g.perShare*(g.missing-missing)) }

// raised is the terminal voltage where the battery takes less than it is
// offered: the source brings it up to the first voltage or power limit.
func (m *model) raised(amps float64) float64 {
	source := amps + m.loadA
	v := m.stageV
	if !m.remote {
		v -= source * m.rc
	}
	v = min(v, m.sourceV-source*m.rc)
	if source > 0 {
		v = min(v, m.powerW/source-source*m.rc)
	}
	return v
}

// flows are the powers at a point, in W, or what has flowed, in Wh. In = stored +
// lost + load, whatever the point.
type flows struct{ in, stored, load, converter, cable, battery, charge float64 }

// count adds what flows at a point for so many hours.
func (f *flows) count(m *model, s *span, p *point, hours float64) {
	source := p.amps + m.loadA
	cable := source * source * m.rc
	out := p.volts*source + cable
	in := out / m.efficiency
	stored := p.emf * p.amps * efficiencyOf(s, p.amps)
	f.in += in * hours
	f.stored += stored * hours
	f.load += p.volts * m.loadA * hours
	f.converter += (in - out) * hours
	f.cable += cable * hours
	f.battery += (p.volts - p.emf) * p.amps * hours
	f.charge += (p.emf*p.amps - stored) * hours
}

func (f *flows) lost() float64 { return f.converter + f.cable + f.battery + f.charge }

// efficiencyOf is the share of the current that changes the state of charge.
func efficiencyOf(s *span, amps float64) float64 {
	if amps > 0 {
		return s.efficiency
	}
	return 1
}

// grown is (exp(rate × hours) − 1) ÷ rate: the hours that a growing or dying
// current is worth.
func grown(rate, hours float64) float64 {
	if math.Abs(rate*hours) < 1e-12 {
		return hours
	}
	return math.Expm1(rate*hours) / rate
}

// pace is how the state of charge moves from a point on: d(Ah)/dt = start +
// rate × (Ah gained). It is exact while the current is a straight line over the
// state of charge; under a power limit it is the tangent.
type pace struct{ start, rate float64 }

func paceOf(s *span, p *point) pace {
	kept := efficiencyOf(s, p.amps)
	return pace{kept * p.amps, kept * p.change}
}

func (c pace) gained(hours float64) float64 { return c.start * grown(c.rate, hours) }

// until returns the hours until so many ampere-hours are gained, +Inf if never.
func (c pace) until(gained float64) float64 {
	switch x := c.rate * gained / c.start; {
	case gained == 0:
		return 0
	case c.start == 0, c.start > 0 != (gained > 0), x <= -1:
		return math.Inf(1)
	case math.Abs(x) < 1e-12:
		return gained / c.start
	default:
		return math.Log1p(x) / c.rate
	}
}

// weights integrate a quantity that is a quadratic of the state of charge over
// a step: its values at the start, half-way in ampere-hours and at the end count
// so much of the step each.
func (c pace) weights(hours float64) (start, middle, end float64) {
	z := c.rate * hours
	u := 0.5 - z/12 + z*z*z/720              // the mean over time of the share gained
	uu := 1.0/3 - z/12 + z*z/180 + z*z*z/720 // and of its square
	if math.Abs(z) > 0.02 {
		growth := math.Expm1(z)
		u = 1/z - 1/growth
		uu = 1/(2*z) - 1/(z*growth) + 1/(growth*growth)
	}
	return 1 - 3*u + 2*uu, 4*u - 4*uu, 2*uu - u
}
