package wire

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Sizing is a run whose size is wanted, or whose size is known and whose length
// or current is wanted, under the rules of one set: its ampacity tables, its
// limit of drop and its smallest size. A zero figure or size is the set's
// silence.
type Sizing struct {
	Lay            Conductor           `json:"lay"` // as it will lie
	System         tables.System       `json:"system"`
	CurrentA       decimal.Decimal     `json:"current_a"`
	SurgeA         decimal.NullDecimal `json:"surge_a"`         // short: it counts for the drop alone; 0 to 10 000
	LengthM        decimal.Decimal     `json:"length_m"`        // above 0 to 1000
	JointsMilliohm decimal.Decimal     `json:"joints_milliohm"` // 0 to 1000
	SystemV        decimal.Decimal     `json:"system_v"`
	Ampacity       tables.AmpacityRule `json:"ampacity_rule"`
	Drop           working.Figure      `json:"drop_limit"` // in V or %; zero: the set allows any
	Least          tables.MinSize      `json:"least_size"` // zero: the set allows any
}

// Choice is a size, or that none exists: then Size is the largest that was
// tried, with its figures.
type Choice struct {
	Size      tables.Size         `json:"size"`
	Found     bool                `json:"found"`
	Governs   []string            `json:"governs,omitempty"` // what the next smaller size fails, or the largest where none is found
	AmpacityA decimal.NullDecimal `json:"ampacity_a"`        // unset: not asked for
	DropV     decimal.NullDecimal `json:"drop_v"`            // unset where the ampacity fails already
	SurgeV    decimal.NullDecimal `json:"surge_drop_v"`      // unset there too, and without a surge
	Working   working.Working     `json:"working"`
}

// What a size can fail.
const (
	ByAmpacity = "ampacity"
	ByDrop     = "voltage drop"
	BySurge    = "voltage drop in the surge"
	ByLeast    = "smallest size"
)

// LeastSize returns the smallest size of the system for which
//
//	I ≤ I_z, ΔU ≤ ΔU_max, ΔU_sg ≤ ΔU_max and S_min ≤ S
//
// with the resistance at the temperature that the steady current gives the
// conductor; the surge is too short to change it. Where no size passes, that is
// the answer. Ranges as for [Conductor.Ampacity] and [Run.Drop]; current from
// 0.01 A, the surge not below it. Sources: the set's tables and figures as shown.
func (s Sizing) LeastSize() (Choice, error) {
	if err := errors.Join(s.check(), working.Above("length_m", s.LengthM, 0, 1000)); err != nil {
		return Choice{}, err
	}
	sizes := tables.Sizes(s.System)
	lay := s.Lay
	lay.Size = sizes[0]
	l, err := lay.lay(s.Ampacity)
	if err != nil {
		return Choice{}, err
	}
	var before trial
	for _, size := range sizes {
		t, err := s.try(size, l)
		if err != nil {
			return Choice{}, err
		}
		if len(t.fails) == 0 {
			return s.found(t, before), nil
		}
		before = t
	}
	return before.choice(before.fails), nil
}

// trial is one size tried.
type trial struct {
	size    tables.Size
	area    working.Figure
	fails   []string
	a       Ampacity
	run     Run
	drop    Drop
	surgeV  decimal.NullDecimal
	limited bool // a limit of drop is stated
	w       working.Working
}

func (t trial) choice(governs []string) Choice {
	c := Choice{Size: t.size, Found: len(t.fails) == 0, Governs: governs, SurgeV: t.surgeV, Working: slices.Clip(t.w)}
	c.AmpacityA = decimal.NullDecimal{Decimal: t.a.AmpacityA, Valid: len(t.a.Working) > 0}
	c.DropV = decimal.NullDecimal{Decimal: t.drop.DropV, Valid: len(t.drop.Working) > 0}
	return c
}

// found adds the lines of the choice.
func (s Sizing) found(t, before trial) Choice {
	conditions := []string{"I ≤ I_z"}
	if t.limited {
		conditions = append(conditions, "ΔU ≤ ΔU_max")
	}
	if t.limited && s.SurgeA.Valid {
		conditions = append(conditions, "ΔU_sg ≤ ΔU_max")
	}
	if !s.Least.Size.IsZero() {
		conditions = append(conditions, "S_min ≤ S")
	}
	for _, c := range conditions {
		t.w.Choose("S", c, t.area.Value, t.area.Source)
	}
	t.w.Note(t.size.String() + " is the smallest listed")
	if len(before.fails) > 0 {
		t.w.Note(fmt.Sprintf("%s; %s fails by %s", t.size, before.size, strings.Join(before.fails, " and ")))
	}
	return t.choice(before.fails)
}

// try asks everything of one size. What the table does not list, being too
// small for it, fails by ampacity.
func (s Sizing) try(size tables.Size, l *laid) (trial, error) {
	t := trial{size: size}
	var err error
	if t.area, err = size.Area(); err != nil {
		return t, err
	}
	if _, err := l.cable.figure(l.cable.column, size); err != nil {
		t.fails = []string{ByAmpacity}
		t.w.LookUp("S", t.area)
		t.w.Note("smaller than the table's sizes")
		return t, nil
	}
	c := s.Lay
	c.Size = size
	if t.a, err = l.ampacity(size, true); err != nil {
		return t, err
	}
	if t.w, err = s.hot(c, &t); err != nil {
		return t, err
	}
	s.weigh(&t)
	return t, nil
}

// hot adds the lines of the drop at the conductor's real temperature, unless
// the current is too much for the size.
func (s Sizing) hot(c Conductor, t *trial) (working.Working, error) {
	if s.CurrentA.GreaterThan(t.a.AmpacityA) {
		w := working.Start(t.a.Working)
		w.Given("I", s.CurrentA)
		return w, nil
	}
	var err error
	t.run, _, err = Cable{Conductor: c, CurrentA: s.CurrentA, LengthM: s.LengthM, JointsMilliohm: s.JointsMilliohm}.run(t.a)
	if err != nil || s.LengthM.IsZero() {
		return t.run.From, err
	}
	t.drop, err = t.run.Drop()
	return t.drop.Working, err
}

// weigh adds the limits and notes what fails.
func (s Sizing) weigh(t *trial) {
	if s.CurrentA.GreaterThan(t.a.AmpacityA) {
		t.fails = append(t.fails, ByAmpacity)
	} else if s.Drop.Stated() {
		s.weighDrop(t)
	}
	if least, err := s.Least.Size.Area(); err == nil {
		least.Source, least.Note = s.Least.Source, s.Least.Size.String()
		if t.w.LookUp("S_min", least).GreaterThan(t.area.Value) {
			t.fails = append(t.fails, ByLeast)
		}
	}
}

func (s Sizing) weighDrop(t *trial) {
	limit, err := limitLine(&t.w, s.Drop, s.SystemV)
	t.limited = err == nil
	if t.drop.DropV.GreaterThan(limit) {
		t.fails = append(t.fails, ByDrop)
	}
	if !s.SurgeA.Valid {
		return
	}
	i := t.w.Given("I_sg", s.SurgeA.Decimal)
	t.surgeV = decimal.NewNullDecimal(t.w.Calc("ΔU_sg", "I_sg × R ÷ 1000", i.Mul(t.drop.LoopMilliohm).Shift(-3), ohm))
	if t.surgeV.Decimal.GreaterThan(limit) {
		t.fails = append(t.fails, BySurge)
	}
}

func (s Sizing) check() error {
	known := s.Lay
	if all := tables.Sizes(s.System); len(all) > 0 {
		known.Size = all[0]
	}
	current := checkFrom("current_a", s.CurrentA, leastAmpere, greatestAmperes)
	var surge, limit error
	if s.SurgeA.Valid {
		surge = working.Between("surge_a", s.SurgeA.Decimal, 0, greatestAmperes)
		if surge == nil && current == nil && s.SurgeA.Decimal.LessThan(s.CurrentA) {
			surge = &working.InputError{Field: "surge_a", Got: s.SurgeA.Decimal.String(), Want: "not below current_a"}
		}
	}
	if s.Drop.Stated() {
		_, limit = limitLine(new(working.Working), s.Drop, s.SystemV)
	}
	return errors.Join(
		working.OneOf("system", string(s.System), string(tables.Metric), string(tables.AWG), string(tables.SAE)),
		working.In("lay", known.check()),
		current,
		working.Between("joints_milliohm", s.JointsMilliohm, 0, 1000),
		surge, limit,
	)
}

// GreatestLength returns the longest one-way length of the size in Lay at which the
// steady current and the surge stay within the drop; 0 where the ampacity does
// not carry the current. LengthM does not count. The set must state a drop.
func (s Sizing) GreatestLength() (Length, error) {
	s.LengthM = decimal.Zero
	s.System = s.Lay.Size.System()
	if err := errors.Join(s.check(), s.Lay.check(), s.checkLimit()); err != nil {
		return Length{}, err
	}
	t := trial{size: s.Lay.Size}
	var err error
	if t.a, err = s.Lay.Ampacity(s.Ampacity); err != nil {
		return Length{}, err
	}
	if t.w, err = s.hot(s.Lay, &t); err != nil {
		return Length{}, err
	}
	if s.CurrentA.GreaterThan(t.a.AmpacityA) {
		t.w.Choose("L_max", "I > I_z", decimal.Zero, t.a.Working[0].Source)
		t.w.Note("no length: the size does not carry the current")
		return Length{decimal.Zero, slices.Clip(t.w)}, nil
	}
	limit, err := limitLine(&t.w, s.Drop, s.SystemV)
	if err != nil {
		return Length{}, err
	}
	if s.SurgeA.Decimal.GreaterThan(s.CurrentA) {
		t.run.CurrentA = t.w.Given("I", s.SurgeA.Decimal)
		t.w.Note("the surge, at the temperature of the steady current")
	}
	return t.run.longest(&t.w, limit), nil
}

// GreatestCurrent returns the most steady current of the size in Lay within both
// its ampacity and the drop, on a grid of 0.01 A: the drop is that at the
// temperature which this very current gives. CurrentA, SurgeA and
// Least do not count.
// It is 0 where the joints alone lose too much.
func (s Sizing) GreatestCurrent() (Current, error) {
	s.CurrentA, s.SurgeA, s.Least = one, decimal.NullDecimal{}, tables.MinSize{}
	s.System = s.Lay.Size.System()
	if err := errors.Join(s.check(), s.Lay.check(), working.Above("length_m", s.LengthM, 0, 1000)); err != nil {
		return Current{}, err
	}
	a, err := s.Lay.Ampacity(s.Ampacity)
	if err != nil {
		return Current{}, err
	}
	low, high := int64(0), a.AmpacityA.RoundFloor(2).Shift(2).IntPart()+1
	for high-low > 1 {
		middle := (low + high) / 2
		t, err := s.at(a, decimal.New(middle, -2))
		if err != nil {
			return Current{}, err
		}
		if len(t.fails) == 0 {
			low = middle
		} else {
			high = middle
		}
	}
	return s.most(a, decimal.New(low, -2))
}

// at tries a current on the size in Lay.
func (s Sizing) at(a Ampacity, current decimal.Decimal) (trial, error) {
	s.CurrentA = current
	t := trial{size: s.Lay.Size, a: a}
	var err error
	if t.w, err = s.hot(s.Lay, &t); err == nil {
		s.weigh(&t)
	}
	return t, err
}

// most lays out the answer.
func (s Sizing) most(a Ampacity, current decimal.Decimal) (Current, error) {
	t, err := s.at(a, current)
	if err != nil {
		return Current{}, err
	}
	t.w.Choose("I_du", "I_du ≤ I_z", current, a.Working[0].Source)
	if t.limited {
		t.w.Choose("I_du", "I_du × R ÷ 1000 ≤ ΔU_max", current, s.Drop.Source)
	}
	return Current{current, slices.Clip(t.w)}, nil
}

func (s Sizing) checkLimit() error {
	if s.Drop.Stated() {
		return nil
	}
	return &working.InputError{Field: "drop_limit", Got: "unset", Want: "a limit in V or %"}
}
