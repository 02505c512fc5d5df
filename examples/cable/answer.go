package main

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// question is what the fitter asks. A size in Lay is the cable in hand.
type question struct {
	wire.Sizing
	supplyV decimal.Decimal
	circuit string
	set     tables.RuleSet
}

// under returns the question as a rule set puts it.
func (q question) under(set tables.RuleSet) question {
	set = set.At(q.SystemV)
	q.set, q.Ampacity, q.Least = set, set.Ampacity, set.Size.Single
	q.Drop = map[string]working.Figure{"charge": set.Drop.Charge, "critical": set.Drop.Critical, "other": set.Drop.Other}[q.circuit]
	return q
}

// lists reports whether the set has ampacities of its own.
func (q question) lists() bool { return len(q.Ampacity.Metric)+len(q.Ampacity.Gauge) > 0 }

// answer is what the set that decides says, and what each set says.
type answer struct {
	question question
	choice   wire.Choice
	judged   judged       // the cable in hand, or the choice
	longest  wire.Length  // of a cable in hand
	most     wire.Current // of a cable in hand
	sets     []opinion
}

func (q question) answer() (answer, error) {
	q = q.under(q.set)
	a := answer{question: q}
	if err := q.checkSet(); err != nil {
		return a, err
	}
	var err error
	if a.choice, err = q.LeastSize(); err != nil {
		return a, err
	}
	if !q.inHand() {
		q.Lay.Size = a.choice.Size
	} else if err := a.limits(); err != nil {
		return a, err
	}
	if a.judged, err = q.judge(q.Lay); err != nil {
		return a, err
	}
	for _, set := range tables.RuleSets() {
		a.sets = append(a.sets, q.under(set).opinion(a.judged))
	}
	return a, nil
}

// checkSupply refuses a voltage before the run that is that of another system.
func (q question) checkSupply() error {
	if least, most := q.SystemV.Mul(decimal.New(75, -2)), q.SystemV.Mul(decimal.New(13, -1)); q.supplyV.LessThan(least) || q.supplyV.GreaterThan(most) {
		return &working.InputError{Field: "run_supply_v", Got: q.supplyV.String(), Want: fmt.Sprintf("%s to %s at %s V", least, most, q.SystemV)}
	}
	return nil
}

// inHand reports whether a cable is to be judged, not a size to be found.
func (q question) inHand() bool { return !q.Lay.Size.IsZero() }

// checkSet refuses a set that cannot decide.
func (q question) checkSet() error {
	if q.lists() {
		return nil
	}
	return &working.InputError{Field: "rules", Got: fmt.Sprintf("%q", q.set.Key), Want: "a set that lists ampacities: one of " + strings.Join(deciding(), ", ")}
}

// deciding lists the sets with ampacities of their own.
func deciding() []string {
	var keys []string
	for _, set := range tables.RuleSets() {
		if (question{}).under(set).lists() {
			keys = append(keys, set.Key)
		}
	}
	return keys
}

// limits asks what the cable in hand may carry and how long it may be.
func (a *answer) limits() error {
	if !a.question.Drop.Stated() {
		return nil
	}
	var long, most error
	a.longest, long = a.question.GreatestLength()
	a.most, most = a.question.GreatestCurrent()
	return errors.Join(long, most)
}

// judged is one size under one set.
type judged struct {
	lay         wire.Conductor
	ampacity    wire.Ampacity
	temperature wire.Temperature
	drop        wire.Drop // zero where the ampacity fails already
	left        wire.VoltageLeft
	checks      []working.Check
}

// judge works one size out, drop and volts left only where the size carries the
// current at all.
func (q question) judge(lay wire.Conductor) (judged, error) {
	j := judged{lay: lay}
	var err error
	if j.ampacity, err = lay.Ampacity(q.Ampacity); err != nil {
		return j, err
	}
	if j.temperature, err = j.ampacity.Temperature(q.CurrentA); err != nil {
		return j, err
	}
	carries := j.temperature.Working.Check("W01", "Current against ampacity", "I", "I_z")
	j.checks = append(j.checks, carries)
	if carries.Verdict() == working.Fails {
		return j, nil
	}
	if err := j.lose(q); err != nil {
		return j, err
	}
	j.left, err = j.drop.VoltageLeft(q.supplyV)
	return j, err
}

// lose adds the drop, steady and in the surge.
func (j *judged) lose(q question) error {
	cable := wire.Cable{Conductor: j.lay, CurrentA: q.CurrentA, LengthM: q.LengthM, JointsMilliohm: q.JointsMilliohm}
	loop, err := cable.Loop(q.Ampacity)
	if err != nil {
		return err
	}
	if j.drop, err = loop.Drop(q.CurrentA); err != nil {
		return err
	}
	if err := j.check(q, j.drop, "Voltage drop, hot"); err != nil || !q.SurgeA.Valid {
		return err
	}
	surge, err := loop.Drop(q.SurgeA.Decimal)
	return cmp.Or(err, j.check(q, surge, "Voltage drop in the surge"))
}

func (j *judged) check(q question, drop wire.Drop, title string) error {
	c, err := drop.Check(q.Drop, q.SystemV)
	c.Title = title
	j.checks = append(j.checks, c)
	return err
}

// passes reports whether no check fails, and that the set's smallest size is
// kept.
func (j judged) passes(least tables.MinSize) bool {
	for _, c := range j.checks {
		if c.Verdict() == working.Fails {
			return false
		}
	}
	return !j.tooThin(least)
}

func (j judged) tooThin(least tables.MinSize) bool {
	own, err := j.lay.Size.Area()
	wanted, none := least.Size.Area()
	return err == nil && none == nil && own.Value.LessThan(wanted.Value)
}

// opinion is what one set says by itself.
type opinion struct {
	key, applies string
	smallest     string
	area         decimal.Decimal // of the smallest
	allowed      string          // drop
	verdict      string          // on the size judged
	trouble      error
}

func (q question) opinion(of judged) opinion {
	o := opinion{key: q.set.Key, applies: q.set.Applies, allowed: "no limit", smallest: "-"}
	if q.Drop.Stated() {
		o.allowed = q.Drop.Value.String() + " " + q.Drop.Unit
	}
	if !q.lists() {
		o.verdict = q.dropAlone(of)
		return o
	}
	if o.trouble = q.search(&o, of.lay); o.trouble != nil {
		o.verdict = "cannot tell"
	}
	return o
}

// dropAlone is what a set can say that lists no ampacities.
func (q question) dropAlone(of judged) string {
	c, err := of.drop.Check(q.Drop, q.SystemV)
	if err != nil || c.Verdict() == working.NotApplicable {
		return "no ampacities"
	}
	return "no ampacities; drop " + c.Verdict().String()
}

// search finds the smallest size of the set and judges the one asked about.
func (q question) search(o *opinion, lay wire.Conductor) error {
	choice, err := q.LeastSize()
	if err != nil {
		return err
	}
	o.smallest = "none"
	if choice.Found {
		area, err := choice.Size.Area()
		if err != nil {
			return err
		}
		o.smallest, o.area = choice.Size.String(), area.Value
	}
	j, err := q.judge(lay)
	o.verdict = "fails"
	if j.passes(q.Least) {
		o.verdict = "passes"
	}
	return err
}

// lines are the working of the answer.
func (a answer) lines() working.Working {
	w := a.choice.Working
	if a.question.inHand() {
		w = a.judged.lines()
	}
	if before := len(a.judged.drop.Working); before > 0 {
		return slices.Clip(working.Start(w, a.judged.left.Working[before:]))
	}
	return w
}

// lines lead to the steady drop and its limit, as far as it was worked out.
func (j judged) lines() working.Working {
	switch {
	case len(j.checks) > 1 && j.checks[1].Verdict() != working.NotApplicable:
		return j.checks[1].Working
	case len(j.drop.Working) > 0:
		return j.drop.Working
	default:
		return j.checks[0].Working
	}
}
