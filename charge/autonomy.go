package charge

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"sort"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// AutonomyTime is how long a bank carries its loads with no source.
type AutonomyTime struct {
	TimeH   decimal.Decimal `json:"autonomy_h"`
	Days    decimal.Decimal `json:"days_lasting"`
	Longer  bool            `json:"longer"` // it lasts through all of the days looked at
	Working working.Working `json:"working"`
}

// Autonomy returns how long the bank carries its loads from StartPercent down to
// a state of charge with none of its sources, by the steps of [Balance.Run]:
//
//	t_au   [h], whole minutes: the last at which it is not below s_floor
//	N_r  = t_au ÷ 24   [d], rounded down to 0.01
//
// A cut-out is left out. Where the bank outlasts Days the answer is Days, and
// longer. Floor 0 to 100 %; ranges as for [Balance.Run].
func (b Balance) Autonomy(floorPercent decimal.NullDecimal) (AutonomyTime, error) {
	b.Sources, b.CutOutPercent, b.ResumePercent, b.TraceEveryH = nil, decimal.NullDecimal{}, decimal.NullDecimal{}, 0
	if err := errors.Join(b.check(), demanded("floor_percent", floorPercent, 0, 100)); err != nil {
		return AutonomyTime{}, err
	}
	var w working.Working
	rate, accept, err := b.Battery.limits(&w)
	if err != nil {
		return AutonomyTime{}, err
	}
	minutes := newYear(b, rate, accept).until(floorPercent.Decimal.InexactFloat64())
	a := AutonomyTime{Longer: minutes == b.Days*minutesADay}
	w.Given("s_0", b.StartPercent)
	w.Given("s_floor", floorPercent.Decimal)
	a.TimeH = w.Step("t_au", count(minutes).DivRound(sixty, 4), circuit)
	if a.Longer {
		w.Note("and longer: no more days were looked at")
	}
	a.Days = w.CalcDown("N_r", "t_au ÷ 24", a.TimeH, decimal.NewFromInt(24), 2, sums)
	a.Working = slices.Clip(w)
	return a, nil
}

// until returns the minutes that pass before the bank is below a state of charge,
// to 0.001 %, or its loads go short.
func (y *year) until(floorPercent float64) int {
	if floorPercent > math.Round(y.ah/y.m.capacityAh*1e5)/1e3 {
		return 0
	}
	for day := range y.Days {
		sum(&y.loadA, y.loads, day, monthOf(day, y.FirstMonth))
		for minute := range minutesADay {
			y.minute(0, y.loadA[minute])
			if y.shed || math.Round(y.ah/y.m.capacityAh*1e5)/1e3 < floorPercent {
				return day*minutesADay + minute
			}
		}
	}
	return y.Days * minutesADay
}

// LeastDriving is the shortest driving a day that holds a balance.
type LeastDriving struct {
	Exists    bool            `json:"exists"`
	TimeH     decimal.Decimal `json:"least_driving_h"`    // of a day, all drives together; where none exists, 0
	GreatestH decimal.Decimal `json:"greatest_driving_h"` // that the drives leave room for
	Ledger    Ledger          `json:"ledger"`             // with that driving; with the most where none exists
	Working   working.Working `json:"working"`
}

// LeastDriving finds the shortest driving a day that holds the balance. The drives are
// the sources of that name: each begins at its own FromH, and the driving of a day
// is shared out among them evenly, in whole minutes, the first taking what is
// left over, in place of their own ToH. No drive goes on beyond the beginning of the
// next or beyond midnight, which sets the most:
//
//	t_mx = n × the shortest of those stretches   [h]
//
// A balance is held where the bank is never below the floor, no load is shed and
// the bank ends no emptier than it began:
//
//	s_floor ≤ s_min,  t_shed = 0,  s_0 ≤ s_e
//
// so let it begin as it stands on an ordinary morning, not full, and take whole
// weeks. As long as nothing is shed more driving never leaves less charge, on
// which the bisection rests. That none exists is an answer. Floor 0 to 100 %; ranges as for
// [Balance.Run].
func (b Balance) LeastDriving(drive string, floorPercent decimal.NullDecimal) (LeastDriving, error) {
	b.TraceEveryH = 0
	at := b.drives(drive)
	err := errors.Join(b.check(), demanded("floor_percent", floorPercent, 0, 100))
	if len(at) == 0 {
		err = errors.Join(err, &working.InputError{Field: "drive", Got: fmt.Sprintf("%q", drive), Want: "the name of a source that is no sun"})
	}
	if err != nil {
		return LeastDriving{}, err
	}
	most := b.longestDrive(at) * len(at)
	var failed error
	held := func(minutes int) (Ledger, bool) {
		l, err := b.driven(at, minutes).Run()
		failed = errors.Join(failed, err)
		return l, err == nil && b.held(l, floorPercent.Decimal)
	}
	shortest := sort.Search(most+1, func(minutes int) bool {
		_, ok := held(minutes)
		return ok
	})
	h := LeastDriving{Exists: shortest <= most, GreatestH: hoursOf(most)}
	h.Ledger, _ = held(min(shortest, most))
	if failed != nil {
		return LeastDriving{}, failed
	}
	w := working.Start(h.Ledger.Working)
	w.Given("s_floor", floorPercent.Decimal)
	w.Step("t_mx", h.GreatestH, circuit)
	if !h.Exists {
		w.Note("even that does not hold the balance")
	} else {
		h.TimeH = w.Step("t_hd", hoursOf(shortest), circuit)
	}
	h.Working = slices.Clip(w)
	return h, nil
}

func (b Balance) held(l Ledger, floorPercent decimal.Decimal) bool {
	return !l.LeastPercent.LessThan(floorPercent) && l.ShedH.IsZero() && !l.EndPercent.LessThan(b.StartPercent)
}

// hoursOf turns minutes into hours.
func hoursOf(minutes int) decimal.Decimal { return count(minutes).DivRound(sixty, 9) }

var sixty = decimal.NewFromInt(60)

// drives are the places of the sources of a name that are no sun.
func (b Balance) drives(name string) []int {
	var all []int
	for i, s := range b.Sources {
		if s.Name == name && !s.Sun {
			all = append(all, i)
		}
	}
	return all
}

// longestDrive is how many minutes each of the drives has room for.
func (b Balance) longestDrive(at []int) int {
	begins := []int{minutesADay}
	for _, i := range at {
		begins = append(begins, minuteOf(b.Sources[i].FromH))
	}
	slices.Sort(begins)
	room := minutesADay
	for i := range begins[1:] {
		room = min(room, begins[i+1]-begins[i])
	}
	return max(room, 0)
}

// driven is the balance with so much driving a day; a drive of no length is left
// out.
func (b Balance) driven(at []int, minutes int) Balance {
	var sources []DutyPeriod
	for i, s := range b.Sources {
		k := slices.Index(at, i)
		if k < 0 {
			sources = append(sources, s)
			continue
		}
		lasts := minutes / len(at)
		if k < minutes%len(at) {
			lasts++
		}
		if lasts > 0 {
			s.ToH = hoursOf(minuteOf(s.FromH) + lasts)
			sources = append(sources, s)
		}
	}
	b.Sources = sources
	return b
}
