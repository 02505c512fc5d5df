package battery

import (
	"errors"
	"math"
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Kinetic is a battery of two wells: charge at hand, and bound charge that
// flows to it. It shows why a rest brings a battery back, and why a heavy load
// empties it early.
type Kinetic struct {
	RatePerHour decimal.Decimal `json:"flow_per_hour"`   // how fast the wells level
	Share       decimal.Decimal `json:"available_share"` // of the whole that is at hand when full
	WholeAh     decimal.Decimal `json:"whole_ah"`        // both wells, full
	Working     working.Working `json:"working"`         // the lines that gave them
}

// KineticRatings are three capacities of one battery, the slowest first.
type KineticRatings struct {
	Slow   HourRating      `json:"slow"`
	Middle HourRating      `json:"middle"`
	Fast   HourRating      `json:"fast"`
	From   working.Working `json:"from,omitempty"`
}

// Fit returns the two wells that give the three ratings:
//
//	c = ((1 − e1) F t2 − (1 − e2) t1) ÷ (the same + k t1 t2 (1 − F))
//	e = exp(−k t), F = C(t1) ÷ C(t2)
//	C(t) = q_max k c t ÷ (1 − e + c (k t − 1 + e))
//
// k is the one, to 0.001 per hour up to 5, for which the fast rating with the
// middle one and the fast with the slow one give the same c; c is their mean,
// and q_max follows from the slow rating. Ratings that no k fits to 0.02 in c
// are an error: the battery is not of this kind, and so are those that leave one
// well less than a thousandth. k is given to 0.001, c to 0.00001, q_max to 0.0001 Ah.
// Capacities 0.1 to 10 000 Ah, hours 0.01 to 1000. Source: Manwell and McGowan,
// fitted as in NREL ssc.
func (r KineticRatings) Fit() (Kinetic, error) {
	if err := r.check(); err != nil {
		return Kinetic{}, err
	}
	type pair struct{ c, h float64 }
	rating := func(x HourRating) pair { return pair{x.CapacityAh.InexactFloat64(), x.RateH.InexactFloat64()} }
	slow, middle, fast := rating(r.Slow), rating(r.Middle), rating(r.Fast)
	best, k, c := math.Inf(1), 0.0, 0.0
	for n := 1; n <= 5000; n++ {
		try := float64(n) / 1000
		c1 := availableShare(try, fast.h, middle.h, fast.c/middle.c)
		c2 := availableShare(try, fast.h, slow.h, fast.c/slow.c)
		if apart := math.Abs(c1 - c2); apart < best {
			best, k, c = apart, try, (c1+c2)/2
		}
	}
	if best > 0.02 || !(c > leastShare) || !(c < 1-leastShare) {
		return Kinetic{}, &working.InputError{Field: "middle", Got: r.Middle.CapacityAh.String() + " Ah in " + r.Middle.RateH.String() + " h",
			Want: "three ratings that two wells can give"}
	}
	return r.fitted(k, c)
}

// fitted lays the two wells out and works out what both hold.
func (r KineticRatings) fitted(k, c float64) (Kinetic, error) {
	rate, errK := fixed("middle", k, 3)
	share, errC := fixed("middle", c, 5)
	if err := errors.Join(errK, errC); err != nil {
		return Kinetic{}, err
	}
	w := working.Start(r.From)
	law := cite.Kinetic.At("as fitted in NREL ssc", cite.Published)
	w.Given("C.1", r.Slow.CapacityAh)
	w.Given("H.1", r.Slow.RateH)
	w.Given("C.2", r.Middle.CapacityAh)
	w.Given("H.2", r.Middle.RateH)
	w.Given("C.3", r.Fast.CapacityAh)
	w.Given("H.3", r.Fast.RateH)
	m := Kinetic{
		RatePerHour: w.Step("k_w", rate, law),
		Share:       w.Step("c_w", share, law),
	}
	const formula = "C.1 × (1 − exp(−k_w × H.1) + c_w × (k_w × H.1 − 1 + exp(−k_w × H.1))) ÷ (k_w × c_w × H.1)"
	k, c = m.RatePerHour.InexactFloat64(), m.Share.InexactFloat64()
	gives, hours := r.Slow.CapacityAh.InexactFloat64(), r.Slow.RateH.InexactFloat64()
	e := math.Exp(-k * hours)
	both, err := fixed("slow", gives*(1-e+c*(k*hours-1+e))/(k*c*hours), 4)
	if err != nil {
		return Kinetic{}, err
	}
	m.WholeAh = w.Calc("q_max", formula, both, law)
	m.Working = slices.Clip(w)
	return m, nil
}

// leastShare is what a well must hold at least: the share is stored to five
// places, and what rests on it divides by it.
const leastShare = 0.001

// availableShare is the c for which capacities at t1 and t2 hours stand as f.
func availableShare(k, t1, t2, f float64) float64 {
	e1, e2 := math.Exp(-k*t1), math.Exp(-k*t2)
	top := (1-e1)*f*t2 - (1-e2)*t1
	return top / (top + k*t1*t2*(1-f))
}

func (r KineticRatings) check() error {
	if err := errors.Join(working.In("slow", r.Slow.check()), working.In("middle", r.Middle.check()), working.In("fast", r.Fast.check())); err != nil {
		return err
	}
	return errors.Join(
		working.In("slow", Peukert{Slow: r.Slow, Fast: r.Middle}.check()),
		working.In("middle", Peukert{Slow: r.Middle, Fast: r.Fast}.check()),
	)
}

// KineticState is the state of both wells.
type KineticState struct {
	AvailableAh decimal.Decimal `json:"available_ah"` // 0 to 100 000
	BoundAh     decimal.Decimal `json:"bound_ah"`     // 0 to 100 000
	DeliveredA  decimal.Decimal `json:"delivered_a"`  // through the step that led here
	Working     working.Working `json:"working"`
}

// At returns the wells level at a state of charge: a battery long at rest.
//
//	q_1 = q_max × c × s ÷ 100,  q_2 = q_max × (1 − c) × s ÷ 100   [Ah], to 0.0001
//
// State of charge 0 to 100 %. Source: Manwell and McGowan.
func (m Kinetic) At(socPercent decimal.Decimal) (KineticState, error) {
	if err := errors.Join(m.check(), working.Between("soc_percent", socPercent, 0, 100)); err != nil {
		return KineticState{}, err
	}
	w := m.lines()
	law := cite.Kinetic.At("", cite.FromMemory)
	s := w.Given("s", socPercent)
	q := m.WholeAh.Mul(s).Shift(-2)
	var z KineticState
	z.BoundAh = w.Calc("q_2", "q_max × (1 − c_w) × s ÷ 100", q.Mul(one.Sub(m.Share)).Round(4), law)
	z.AvailableAh = w.Calc("q_1", "q_max × c_w × s ÷ 100", q.Mul(m.Share).Round(4), law)
	z.Working = slices.Clip(w)
	return z, nil
}

func (m Kinetic) lines() working.Working {
	w := working.Start(m.Working)
	w.Given("k_w", m.RatePerHour)
	w.Given("c_w", m.Share)
	w.Given("q_max", m.WholeAh)
	return w
}

// KineticStep is one step: a current through some hours.
type KineticStep struct {
	State    KineticState    `json:"state"`     // at its beginning
	CurrentA decimal.Decimal `json:"current_a"` // wanted; 0 is a rest
	TimeH    decimal.Decimal `json:"step_h"`
}

// Step returns the wells after a discharge or a rest:
//
//	q_1' = q_1 e + (q k c − I)(1 − e) ÷ k − I c (k t − 1 + e) ÷ k
//	q_2' = q_2 e + q (1 − c)(1 − e) − I (1 − c)(k t − 1 + e) ÷ k
//	I ≤ (k q_1 e + q k c (1 − e)) ÷ (1 − e + c (k t − 1 + e))
//
// with e = exp(−k t) and q = q_1 + q_2. Where the current wanted would empty the
// available well before the time is over, the greatest that lasts is delivered.
// Currents 0 to 10 000 A, steps 0.001 to 1000 h; answers to 0.0001. Source:
// Manwell and McGowan.
func (m Kinetic) Step(s KineticStep) (KineticState, error) {
	if err := errors.Join(m.check(), s.check()); err != nil {
		return KineticState{}, err
	}
	k, c := m.RatePerHour.InexactFloat64(), m.Share.InexactFloat64()
	q1, q2 := s.State.AvailableAh.InexactFloat64(), s.State.BoundAh.InexactFloat64()
	t := s.TimeH.InexactFloat64()
	e, q := math.Exp(-k*t), q1+q2
	flow := k*t - 1 + e
	amps := min(s.CurrentA.InexactFloat64(), (k*q1*e+q*k*c*(1-e))/(1-e+c*flow))
	next1 := q1*e + (q*k*c-amps)*(1-e)/k - amps*c*flow/k
	next2 := q2*e + q*(1-c)*(1-e) - amps*(1-c)*flow/k
	w := m.lines()
	law := cite.Kinetic.At("", cite.FromMemory)
	w.Given("q_1", s.State.AvailableAh)
	w.Given("q_2", s.State.BoundAh)
	w.Given("I", s.CurrentA)
	w.Given("t_s", s.TimeH)
	delivered, errD := fixed("state", amps, 4)
	bound, errB := fixed("state", next2, 4)
	available, errA := fixed("state", next1, 4)
	if err := errors.Join(errD, errB, errA); err != nil {
		return KineticState{}, err
	}
	var z KineticState
	z.DeliveredA = w.Step("I_del", decimal.Max(decimal.Zero, delivered), law)
	z.BoundAh = w.Step("q_2", decimal.Max(decimal.Zero, bound), law)
	z.AvailableAh = w.Step("q_1", decimal.Max(decimal.Zero, available), law)
	z.Working = slices.Clip(w)
	return z, nil
}

func (m Kinetic) check() error {
	err := fromTo("available_share", m.Share, "0.001", 1)
	if err == nil && m.Share.GreaterThan(decimal.New(999, -3)) {
		err = &working.InputError{Field: "available_share", Got: m.Share.String(), Want: "0.001 to 0.999"}
	}
	return errors.Join(fromTo("flow_per_hour", m.RatePerHour, "0.001", 10), fromTo("whole_ah", m.WholeAh, "0.1", 100_000), err)
}

func (s KineticStep) check() error {
	return errors.Join(
		working.Between("state.available_ah", s.State.AvailableAh, 0, 100_000),
		working.Between("state.bound_ah", s.State.BoundAh, 0, 100_000),
		working.Between("current_a", s.CurrentA, 0, 10_000),
		fromTo("step_h", s.TimeH, "0.001", 1000), // below, the model loses its digits
	)
}
