package protect

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// BreakingDuty is a device where a fault current meets it. What its own data sheet
// says goes before what its standard asks of every such device.
type BreakingDuty struct {
	GreatestFaultA decimal.NullDecimal `json:"greatest_fault_a"` // the largest at its terminals, from every source connected
	HighestV       decimal.Decimal     `json:"highest_v"`        // that the circuit ever works at: charging, not nominal
	Family         string              `json:"family"`           // empty: none of those listed
	NoLithium      bool                `json:"no_lithium"`       // no lithium battery feeds it

	BreaksA   decimal.NullDecimal `json:"breaking_a"`    // of its data sheet
	BreaksAtV decimal.NullDecimal `json:"breaking_at_v"` // the d.c. voltage that it states it for
	RatedV    decimal.NullDecimal `json:"rated_v"`       // as marked, d.c.

	// Tested by the makers behind the device that stands upstream, which all of
	// the fault current has to pass; unset: no such test.
	BackedUpA   decimal.NullDecimal `json:"backed_up_a"`
	BackedUpAtV decimal.NullDecimal `json:"backed_up_at_v"` // d.c. voltage of the test

	From working.Working `json:"from,omitempty"` // the lines that gave the fault current
}

const (
	breaksTitle = "the device can break the fault current"
	backedTitle = "the device can break the fault current with the one upstream"
	ratedTitle  = "the device is rated for the voltage"
)

// Checks judges the device where it sits:
//
//	P04  I_k ≤ I_cn, stated for a voltage U_cn ≥ U_hi
//	     or I_k ≤ I_up, tested at a voltage U_up ≥ U_hi
//	P05  U_hi ≤ U_r
//
// The fault current is the largest that all sources together can drive through
// the device; there is no judging without it. No current at all, as a solver finds
// where nothing feeds a device, passes; on a lithium bank, which drives thousands of
// amperes, that is no figure and cannot be told. An unknown capacity cannot be told
// and is never a pass. A capacity
// stated for a lower voltage still fails a fault above it: it is no higher at
// more volts. A family that is made for several voltages counts as its lowest,
// unless the marking is given. A device upstream backs a smaller one up only in a
// combination that was tested: two data sheets side by side do not tell it, and
// nothing here reckons it. Where its standard leaves a d.c. marking open,
// P05 cannot be told without one.
//
// Fault 0 to 1 000 000 A, voltages above 0 to 1000 V.
// Sources: NFPA 70 clause 110.9; for the test IEC 60947-2 annex A, from memory;
// the scope of the family's standard.
func (b BreakingDuty) Checks() ([]working.Check, error) {
	var family tables.Family
	var unlisted error
	if b.Family != "" {
		family, unlisted = tables.FamilyOf(b.Family)
	}
	if err := errors.Join(b.check(), unlisted); err != nil {
		return nil, err
	}
	return []working.Check{b.breaks(family), b.rated(family)}, nil
}

func (b BreakingDuty) check() error {
	return errors.Join(
		b.checkFault(),
		working.Above("highest_v", b.HighestV, 0, 1000),
		unsetOr(working.Above, "breaking_a", b.BreaksA, 0, 1_000_000),
		unsetOr(working.Above, "breaking_at_v", b.BreaksAtV, 0, 1000),
		unsetOr(working.Above, "rated_v", b.RatedV, 0, 1000),
		unsetOr(working.Above, "backed_up_a", b.BackedUpA, 0, 1_000_000),
		unsetOr(working.Above, "backed_up_at_v", b.BackedUpAtV, 0, 1000),
		withVolts(b.BreaksA, "breaking_at_v", b.BreaksAtV),
		withVolts(b.BackedUpA, "backed_up_at_v", b.BackedUpAtV),
	)
}

// checkFault wants a current: none stated is none known.
func (b BreakingDuty) checkFault() error {
	if !b.GreatestFaultA.Valid {
		return &working.InputError{Field: "greatest_fault_a", Got: "unset", Want: "the greatest fault current at the device, 0 to 1000000"}
	}
	return working.Between("greatest_fault_a", b.GreatestFaultA.Decimal, 0, 1_000_000)
}

// withVolts wants the voltage that a breaking capacity is stated for.
func withVolts(capacity decimal.NullDecimal, field string, at decimal.NullDecimal) error {
	if capacity.Valid && !at.Valid {
		return &working.InputError{Field: field, Got: "unset", Want: "the d.c. voltage that the breaking capacity is stated for"}
	}
	return nil
}

// capacity returns the breaking capacity and the voltage it holds at: that of
// the data sheet or, of the versions that the standard has, the first that
// serves the voltage.
func (b BreakingDuty) capacity(family tables.Family) (capacity, at working.Figure) {
	if b.BreaksA.Valid {
		return dataSheet(b.BreaksA.Decimal, "A"), dataSheet(b.BreaksAtV.Decimal, "V")
	}
	for _, v := range family.Breaking {
		if !v.CapacityA.Valid || !v.AtV.Valid || !b.is(v) {
			continue
		}
		capacity = working.Figure{Value: v.CapacityA.Decimal, Unit: "A", Source: v.Source, Note: "the least that the standard allows"}
		at = working.Figure{Value: v.AtV.Decimal, Unit: "V", Source: v.Source}
		if v.AtV.Decimal.GreaterThanOrEqual(b.HighestV) {
			break
		}
	}
	return capacity, at
}

// is reports whether the article may be that version: where its marking is
// given, only that of the same voltage is.
func (b BreakingDuty) is(v tables.FamilyBreaking) bool {
	return !b.RatedV.Valid || v.RatedV.Valid && v.RatedV.Decimal.Equal(b.RatedV.Decimal)
}

// breaks judges the device by itself and, where that is no pass, as tested behind
// another.
func (b BreakingDuty) breaks(family tables.Family) working.Check {
	alone := b.breaksAlone(family)
	if alone.Verdict() == working.Passes || b.noFigure() || !b.BackedUpA.Valid || b.BackedUpAtV.Decimal.LessThan(b.HighestV) {
		return alone
	}
	w := working.Start(b.From)
	w.Given("I_k", b.GreatestFaultA.Decimal)
	w.Given("U_hi", b.HighestV)
	w.LookUp("U_up", dataSheet(b.BackedUpAtV.Decimal, "V"))
	w.LookUp("I_up", dataSheet(b.BackedUpA.Decimal, "A"))
	return w.Check("P04", backedTitle, "I_k", "I_up")
}

// noFigure reports a fault current that no lithium bank has.
func (b BreakingDuty) noFigure() bool { return b.GreatestFaultA.Decimal.IsZero() && !b.NoLithium }

func (b BreakingDuty) breaksAlone(family tables.Family) working.Check {
	capacity, at := b.capacity(family)
	w := working.Start(b.From)
	fault := w.Given("I_k", b.GreatestFaultA.Decimal)
	highest := w.Given("U_hi", b.HighestV)
	if !capacity.Stated() {
		return cannotTell("P04", breaksTitle, b.ask("its breaking capacity is not known"), slices.Clip(w))
	}
	if b.noFigure() {
		return cannotTell("P04", breaksTitle, "work out the greatest fault current: 0 A is that of no lithium bank, which drives thousands of amperes; if none feeds the device, say so", slices.Clip(w))
	}
	volts := w.LookUp("U_cn", at)
	w.LookUp("I_cn", capacity)
	c := w.Check("P04", breaksTitle, "I_k", "I_cn")
	if volts.LessThan(highest) && fault.LessThanOrEqual(capacity.Value) {
		c.Missing = b.ask(fmt.Sprintf("its breaking capacity is stated for %s V only", volts))
	}
	return c
}

// ask begins with the maker: no other advice on breaking capacity goes first.
func (b BreakingDuty) ask(why string) string {
	text := fmt.Sprintf("ask the maker for the capacity at your voltage, %s V d.c.: %s", b.HighestV, why)
	if !b.NoLithium {
		text += "; on a lithium bank do not energise without it"
	}
	return text
}

func (b BreakingDuty) rated(family tables.Family) working.Check {
	w := working.Start(b.From)
	highest := w.Given("U_hi", b.HighestV)
	if b.RatedV.Valid {
		w.LookUp("U_r", dataSheet(b.RatedV.Decimal, "V"))
		return w.Check("P05", ratedTitle, "U_hi", "U_r")
	}
	least, greatest := ratedVoltages(family)
	if !least.Stated() || slices.ContainsFunc(family.Breaking, func(v tables.FamilyBreaking) bool { return v.Optional }) {
		return cannotTell("P05", ratedTitle, "read the d.c. voltage marked on the device", slices.Clip(w))
	}
	if greatest.Value.LessThan(highest) {
		least = greatest
	}
	w.LookUp("U_r", least)
	c := w.Check("P05", ratedTitle, "U_hi", "U_r")
	if c.Verdict() == working.Fails && greatest.Value.GreaterThanOrEqual(highest) {
		c.Missing = fmt.Sprintf("read the d.c. voltage marked on the device: the family is made from %s to %s V", least.Value, greatest.Value)
	}
	return c
}

// ratedVoltages returns the lowest and the highest that a family is made for.
func ratedVoltages(family tables.Family) (least, greatest working.Figure) {
	for _, v := range family.Breaking {
		if !v.RatedV.Valid {
			continue
		}
		f := working.Figure{Value: v.RatedV.Decimal, Unit: "V", Source: v.Source}
		if !least.Stated() || f.Value.LessThan(least.Value) {
			least = f
		}
		if !greatest.Stated() || f.Value.GreaterThan(greatest.Value) {
			greatest = f
		}
	}
	return least, greatest
}

// CrankingCapacity is the least breaking capacity by cranking amperes.
type CrankingCapacity struct {
	MainA   decimal.Decimal `json:"main_breaking_a"`   // of the first device from the battery
	BranchA decimal.Decimal `json:"branch_breaking_a"` // of those behind it
	Working working.Working `json:"working,omitempty"`
}

// ByCranking looks the least breaking capacity up by the cold-cranking amperes
// of all batteries together, as the voluntary US small-craft code does. It never
// replaces a computed fault current: it knows neither lithium nor a bank without
// a cranking figure. System 12 to 24 V or 32 V, above 0 to 100 000 A.
// Source: ABYC E-11 table V-A.
// System voltage above 0 to 100 V.
func ByCranking(systemV, crankingA decimal.Decimal) (CrankingCapacity, error) {
	err := errors.Join(
		working.Above("system_v", systemV, 0, 100),
		working.Above("cranking_a", crankingA, 0, 100_000),
	)
	if err != nil {
		return CrankingCapacity{}, err
	}
	main, err := tables.BreakingByCranking(systemV, crankingA, true)
	branch, more := tables.BreakingByCranking(systemV, crankingA, false)
	if err = cmp.Or(err, more); err != nil {
		return CrankingCapacity{}, err
	}
	var w working.Working
	w.Given("U_n", systemV)
	w.Given("I_cca", crankingA)
	c := CrankingCapacity{MainA: w.LookUp("I_cn.1", main), BranchA: w.LookUp("I_cn.2", branch)}
	c.Working = slices.Clip(w)
	return c, nil
}
