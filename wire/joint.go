package wire

import (
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Joint is what a meter shows at a lug, a bolted joint, a fuse holder or a
// switch under load.
type Joint struct {
	MilliV   decimal.Decimal `json:"joint_mv"`  // above 0 to 100 000
	CurrentA decimal.Decimal `json:"current_a"` // while it was read; above 0 to 10 000
}

// JointReading is what the meter's figures mean.
type JointReading struct {
	Milliohm decimal.Decimal `json:"joint_milliohm"`
	LossW    decimal.Decimal `json:"joint_w"`
	Working  working.Working `json:"working"`
}

// Reading returns the resistance of a joint and the heat in it:
//
//	R_jt = U_j ÷ I                [mΩ], to 0.0001
//	P_jt = U_j × I ÷ 1000         [W]
//
// Above 0 to 100 000 mV at above 0 to 10 000 A: a meter that shows nought has too
// coarse a range. Source: Ohm's law.
func (j Joint) Reading() (JointReading, error) {
	err := errors.Join(working.Above("joint_mv", j.MilliV, 0, 100_000), working.Above("current_a", j.CurrentA, 0, 10_000))
	if err != nil {
		return JointReading{}, err
	}
	var w working.Working
	u, i := w.Given("U_j", j.MilliV), w.Given("I", j.CurrentA)
	r := w.Calc("R_jt", "U_j ÷ I", u.DivRound(i, 4), ohm)
	p := w.Calc("P_jt", "U_j × I ÷ 1000", u.Mul(i).Shift(-3), ohm)
	return JointReading{r, p, slices.Clip(w)}, nil
}

// twice is how far joints made alike may differ: common practice, no published
// limit was found.
var twice = working.Figure{
	Value: decimal.NewFromInt(2), Source: cite.Practice.At("joints made alike", cite.CommonPractice),
	Note: "guidance: no published limit is known",
}

// AgainstTwins is check W05: the joint's resistance against twice that of the
// best of its twins, joints made alike and read alike. Without twins it cannot
// be told.
// Readings above 0 to 100 000 mV at above 0 to 10 000 A.
func (j Joint) AgainstTwins(twins ...Joint) (working.Check, error) {
	const id, title = "W05", "Joint against its twins"
	own, err := j.Reading()
	if err != nil {
		return working.Check{}, err
	}
	if len(twins) == 0 {
		return working.Check{ID: id, Title: title, Working: own.Working,
			Missing: "the millivolts across a joint made alike, at a current of the same size, with a voltmeter that shows 0.1 mV"}, nil
	}
	var best JointReading
	for i, t := range twins {
		r, err := t.Reading()
		if err != nil {
			return working.Check{}, working.In(fmt.Sprintf("twins[%d]", i), err)
		}
		if i == 0 || r.Milliohm.LessThan(best.Milliohm) {
			best = r
		}
	}
	w := working.Working{}
	w.Part("Best of its twins")
	w = append(w, best.Working...)
	twin := w.Calc("R_tw", "R_jt", best.Milliohm, arithmetic)
	k := w.LookUp("k_tw", twice)
	w.Calc("R_jm", "k_tw × R_tw", k.Mul(twin), twice.Source)
	w.Part("This joint")
	w = append(w, own.Working...)
	return w.Check(id, title, "R_jt", "R_jm"), nil
}

// ExpectedReading is a reading foretold, for a test sheet.
type ExpectedReading struct {
	Milliohm decimal.Decimal `json:"joint_milliohm"`
	CurrentA decimal.Decimal `json:"current_a"`
	From     working.Working `json:"from,omitempty"` // the lines that gave Milliohm
}

// MilliVolts is a voltage small enough for a meter's millivolt range.
type MilliVolts struct {
	MilliV  decimal.Decimal `json:"joint_mv"`
	Working working.Working `json:"working"`
}

// MilliVolts returns the millivolts that a meter should show across a resistance:
//
//	U_j = I × R_jt      [mV]
//
// Above 0 to 1000 mΩ, above 0 to 10 000 A. Source: Ohm's law.
func (e ExpectedReading) MilliVolts() (MilliVolts, error) {
	err := errors.Join(working.Above("joint_milliohm", e.Milliohm, 0, 1000), working.Above("current_a", e.CurrentA, 0, greatestAmperes))
	if err != nil {
		return MilliVolts{}, err
	}
	w := working.Start(e.From)
	r, i := w.Given("R_jt", e.Milliohm), w.Given("I", e.CurrentA)
	u := w.Calc("U_j", "I × R_jt", i.Mul(r), ohm)
	return MilliVolts{u, slices.Clip(w)}, nil
}
