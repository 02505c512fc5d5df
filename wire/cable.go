package wire

import (
	"errors"
	"fmt"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Cable is a conductor of a length that carries a current, out and back: its
// temperature follows from the current, and its resistance from that.
type Cable struct {
	Conductor      Conductor           `json:"conductor"`
	CurrentA       decimal.Decimal     `json:"current_a"`
	LengthM        decimal.Decimal     `json:"length_m"`        // one way; the return is added
	JointsMilliohm decimal.Decimal     `json:"joints_milliohm"` // every contact of the loop together
	Cables         int                 `json:"parallel_cables"` // alike and side by side, out and back alike; 0 is one
	ReturnMilliohm decimal.NullDecimal `json:"return_milliohm"` // chassis or bus in place of the return cable
}

// Drop returns the voltage lost out and back, joints included, with the conductor
// as hot as the current makes it:
//
//	T_c = T_a + (T_r − T_a) × (I ÷ I_c)²                    [°C]
//	R_T = R_ref × (T_0 + T_c) ÷ (T_0 + T_ref)               [mΩ/m]
//	ΔU  = I × (2 × L × R_T + R_j) ÷ 1000                    [V]
//
// It is [Conductor.Ampacity], [Ampacity.Temperature], [Conductor.Resistance] and
// [Run.Drop] in one, with their ranges and sources, and the working of all four: as
// sure as the weakest figure among them. It answers above the ampacity as well,
// until the conductor would be hotter than 250 °C; [Ampacity.Check] judges that. A
// cable whose surroundings change on the way is a [Route].
func (c Cable) Drop(rule tables.AmpacityRule) (Drop, error) {
	l, err := c.Loop(rule)
	if err != nil {
		return Drop{}, err
	}
	return l.drop(c.CurrentA, working.Start(l.Working)), nil
}

// Loop returns the resistance of the cable out and back, as hot as the current
// makes it: what a surge meets, too short to warm it further. Ranges as for
// [Cable.Drop].
func (c Cable) Loop(rule tables.AmpacityRule) (Loop, error) {
	a, err := c.Ampacity(rule)
	if err != nil {
		return Loop{}, err
	}
	return c.loop(a)
}

// loop goes on from an ampacity.
func (c Cable) loop(a Ampacity) (Loop, error) {
	run, at, err := c.run(a)
	if err != nil {
		return Loop{}, err
	}
	l, err := run.Loop()
	l.ConductorC = decimal.NewNullDecimal(at)
	return l, err
}

// run is the cable with its resistance, and how hot it is.
func (c Cable) run(a Ampacity) (Run, decimal.Decimal, error) {
	t, err := a.Temperature(c.CurrentA)
	if err != nil {
		return Run{}, decimal.Zero, err
	}
	r, err := c.Conductor.warm(t, c.CurrentA)
	return Run{CurrentA: c.CurrentA, LengthM: c.LengthM, MilliohmPerM: r.MilliohmPerM, JointsMilliohm: c.JointsMilliohm,
		Cables: c.Cables, ReturnMilliohm: c.ReturnMilliohm, From: r.Working}, t.ConductorC, err
}

// warm is the resistance of the conductor as hot as the current makes it, with
// the lines that lead there.
func (c Conductor) warm(t Temperature, currentA decimal.Decimal) (Resistance, error) {
	if working.Between("conductor_c", t.ConductorC, -60, hottest) != nil {
		return Resistance{}, &working.InputError{Field: "current_a", Got: currentA.String(),
			Want: fmt.Sprintf("a current that leaves the conductor at %d °C or less; this one makes it %s °C", hottest, t.ConductorC)}
	}
	return c.resistance(t.ConductorC, t.Working)
}

// Ampacity returns what all its cables carry together: [Conductor.Ampacity], and
// [Ampacity.InParallel] where there are several. Ranges as for [Cable.Drop].
func (c Cable) Ampacity(rule tables.AmpacityRule) (Ampacity, error) {
	if err := c.check(); err != nil {
		return Ampacity{}, err
	}
	a, err := c.Conductor.Ampacity(rule)
	if err != nil || c.Cables < 2 {
		return a, working.In("conductor", err)
	}
	return a.InParallel(c.Cables)
}

func (c Cable) check() error {
	var group error
	if c.Cables > c.Conductor.Grouped {
		group = &working.InputError{Field: "conductor.grouped", Got: fmt.Sprint(c.Conductor.Grouped), Want: "each of the cables side by side counted"}
	}
	return errors.Join(
		working.In("conductor", c.Conductor.check()), group,
		working.Above("current_a", c.CurrentA, 0, greatestAmperes),
		working.Above("length_m", c.LengthM, 0, 1000),
		working.Between("joints_milliohm", c.JointsMilliohm, 0, 1000),
		working.Between("parallel_cables", decimal.NewFromInt(int64(c.Cables)), 0, 20),
		checkOptional("return_milliohm", c.ReturnMilliohm, 0, 1000),
	)
}
