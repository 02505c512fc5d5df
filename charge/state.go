package charge

import (
	"math"

	"github.com/shopspring/decimal"
)

// state is a battery under way in the time loop. Its numbers are hours,
// ampere-hours, volts.
type state struct {
	m         model
	span      int
	ah, hours float64
	tally     flows
	from, to  point // what flows at the ends of the present step
	out       exit
	settled   bool // from is what flows now; who changes the model says that it is not

	endsAtVoltage bool    // the stage ends when its voltage is reached
	tailA         float64 // or when the current has fallen to this; -Inf: never
}

// newState returns a battery at a state of charge, cut also at the states wanted,
// with nothing connected.
func newState(b BatteryOnCharge, ah float64, wantedAh []float64, rate, accept decimal.Decimal) state {
	x := state{ah: ah, tailA: math.Inf(-1)}
	x.m = model{
		spans:      b.spans(wantedAh),
		capacityAh: b.CapacityAh.InexactFloat64(),
		ri:         b.InternalMilliohm.InexactFloat64() / 1000,
		accept:     accept.InexactFloat64(), rateA: rate.InexactFloat64(),
		sourceV: math.Inf(1), powerW: math.Inf(1), stageV: math.Inf(1), stageA: math.Inf(1),
		efficiency: 1,
	}
	x.span = spanOf(x.m.spans, ah)
	return x
}

// here works out what flows now.
func (x *state) here() *point {
	if x.settled {
		return &x.from
	}
	x.settled = true
	x.m.full = x.ah >= x.m.capacityAh
	x.m.flat = x.ah <= 0
	x.m.at(&x.from, &x.m.spans[x.span], x.ah)
	return &x.from
}

// ends reports whether a point is the end of the present stage.
func (x *state) ends(p *point) bool {
	return p.by.atVoltage() && (x.endsAtVoltage || p.amps <= x.tailA)
}

// tick is the hours within which two moments are one.
const tick = 1e-9

// tangentH is the longest step where current or voltage is bent over the state of
// charge, and a step follows the tangent.
const tangentH = 1.0 / 60

// bent reports whether the law of lead-acid bends the voltage or the current, a
// power limit the current, or the voltage to which the source brings up a battery
// that accepts less.
func (x *state) bent() bool {
	return x.m.law != nil && x.from.amps > 0 || x.from.by == byPower || x.from.by == byBattery && x.m.powerW < unlimited
}

// advance goes on from what flows now ([state.here]) by so many hours, or to the
// first thing that happens in them: the end of a span, another limit taking over,
// the end of the stage.
func (x *state) advance(hours float64) {
	s := &x.m.spans[x.span]
	if x.bent() {
		hours = min(hours, tangentH)
	}
	c := paceOf(s, &x.from)
	next, edge := x.ah+c.gained(hours), 0
	switch {
	case c.start > 0 && next >= s.toAh:
		hours, next, edge = c.until(max(0, s.toAh-x.ah)), s.toAh, 1
	case c.start < 0 && next <= s.fromAh:
		hours, next, edge = c.until(min(0, s.fromAh-x.ah)), s.fromAh, -1
	}
	x.m.at(&x.to, s, next)
	turns := x.differs()
	if turns {
		hours = x.turn(s, c, hours)
		next, edge = x.ah+c.gained(hours), 0
	}
	x.count(s, c, hours)
	x.ah, x.hours = next, x.hours+hours
	x.from, x.settled = x.to, edge == 0 && !turns
	x.span = min(max(x.span+edge, 0), len(x.m.spans)-1)
}

// differs reports whether another limit holds at the end of a step, or the stage
// is at its end there.
func (x *state) differs() bool { return x.from.by != x.to.by || x.ends(&x.from) != x.ends(&x.to) }

// turn returns the hours until another limit takes over within a step, and leaves
// what flows just before as its end.
func (x *state) turn(s *span, c pace, hours float64) float64 {
	low, high := 0.0, hours
	for range 60 {
		middle := (low + high) / 2
		if x.m.at(&x.to, s, x.ah+c.gained(middle)); x.differs() {
			high = middle
		} else {
			low = middle
		}
	}
	x.m.at(&x.to, s, x.ah+c.gained(low))
	return max(high, tick/1000)
}

// count adds what has flowed in a step. Without a
// change of current every power is a straight line over the step, and its middle
// tells all; else it is a quadratic of the state of charge.
func (x *state) count(s *span, c pace, hours float64) {
	middle := point{
		by: x.from.by, emf: (x.from.emf + x.to.emf) / 2, amps: (x.from.amps + x.to.amps) / 2, volts: (x.from.volts + x.to.volts) / 2,
	}
	if c.rate == 0 {
		x.tally.count(&x.m, s, &middle, hours)
		return
	}
	a, b, z := c.weights(hours)
	x.tally.count(&x.m, s, &x.from, a*hours)
	x.tally.count(&x.m, s, &middle, b*hours)
	x.tally.count(&x.m, s, &x.to, z*hours)
}
