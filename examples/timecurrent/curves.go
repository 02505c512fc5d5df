package main

import (
	"math"
	"slices"

	"github.com/shopspring/decimal"
)

// point is a current and a time.
type point struct{ currentA, timeS decimal.Decimal }

// curves is all that the picture draws as curves, on logarithmic axes straight
// from point to point.
type curves struct {
	least, most []point // of the device, gate by gate: opens not before, opens by
	beyond      []point // behind the last gate that opens it: by what it lets through
	band        []point // around what lies between both sides
	adiabatic   []point // of the cable: k²S², from 5 s down
	heating     []point // of the cable: the heating law, from 5 s up
}

func (j judged) curves() (curves, error) {
	var c curves
	for _, g := range j.gates {
		if g.LeastS.Valid {
			c.least = append(c.least, point{g.Current.Value, g.LeastS.Decimal})
		}
		if g.GreatestS.Valid {
			c.most = append(c.most, point{g.Current.Value, g.GreatestS.Decimal})
		}
	}
	var err error
	if c.beyond, err = j.beyond(c.most); err != nil {
		return c, err
	}
	if c.band, err = j.band(c); err != nil {
		return c, err
	}
	if c.adiabatic, err = j.adiabatic(); err != nil {
		return c, err
	}
	c.heating, err = j.heating(c.adiabatic[0].currentA)
	return c, err
}

// beyond goes from the last gate as far as the paper may reach, in the time that the
// energy let through lasts at each current: of a breaker always the same, of a fuse
// less and less. Its two ends suffice.
func (j judged) beyond(most []point) ([]point, error) {
	if len(most) == 0 {
		return nil, nil
	}
	last := most[len(most)-1]
	far := decimal.Min(last.currentA.Mul(decimal.NewFromInt(1000)), decimal.NewFromInt(1_000_000))
	let, err := j.device.LetThrough(far)
	if err != nil {
		return nil, err
	}
	return []point{last, {far, let.EnergyA2S.Decimal.DivRound(far.Mul(far), 12)}}, nil
}

// band goes along the later side and back along the earlier, over the currents
// that both have gates for. It is empty where there are none.
func (j judged) band(c curves) ([]point, error) {
	var there, back []point
	for _, g := range j.gates {
		o, err := j.device.OpeningTime(g.Current.Value)
		if err != nil {
			return nil, err
		}
		if covers(c.least, g.Current.Value) && covers(c.most, g.Current.Value) {
			there = append(there, point{g.Current.Value, o.GreatestS.Decimal})
			back = append(back, point{g.Current.Value, o.LeastS.Decimal})
		}
	}
	slices.Reverse(back)
	return append(there, back...), nil
}

// covers reports whether a side has a gate on either hand of a current.
func covers(side []point, currentA decimal.Decimal) bool {
	return len(side) > 0 && !currentA.LessThan(side[0].currentA) && !currentA.GreaterThan(side[len(side)-1].currentA)
}

// adiabatic is a straight line: its two ends, at 5 s and at 1 ms, suffice.
func (j judged) adiabatic() ([]point, error) {
	w, err := j.cable.Withstand(j.mostA)
	if err != nil {
		return nil, err
	}
	at := func(timeS float64) point {
		a := decimal.NewFromFloat(math.Sqrt(w.EnergyA2S.InexactFloat64() / timeS)).RoundUp(2)
		return point{a, w.EnergyA2S.DivRound(a.Mul(a), 9)}
	}
	return []point{at(5), at(0.001)}, nil
}

// heating steps by 1 % from the ampacity to where k²S² takes over, and keeps
// what ever reaches the limit. The law ends at 10 000 A.
func (j judged) heating(endA decimal.Decimal) ([]point, error) {
	var all []point
	endA = decimal.Min(endA, decimal.NewFromInt(10_000))
	step := decimal.RequireFromString("1.01")
	for a := j.ampacity.CableA; a.LessThan(endA); a = a.Mul(step).RoundUp(2) {
		t, err := j.heatsIn(a)
		if err != nil {
			return nil, err
		}
		if t.Valid {
			all = append(all, point{a, t.Decimal})
		}
	}
	t, err := j.heatsIn(endA)
	if t.Valid {
		all = append(all, point{endA, t.Decimal})
	}
	return all, err
}

// frame returns the currents and the times that the paper must show: from 10 ms
// or less, with room for the names.
func (j judged) frame(c curves) (low, high point) {
	currents := []decimal.Decimal{j.loadA, j.surge.CurrentA, j.leastA, j.mostA, c.adiabatic[0].currentA.Mul(decimal.NewFromInt(3))}
	if j.ampacity.AmpacityA.IsPositive() {
		currents = append(currents, j.ampacity.AmpacityA)
	}
	times := []decimal.Decimal{decimal.New(15, -3), decimal.NewFromInt(1000), j.surge.DurationS}
	for _, p := range slices.Concat(c.least, c.most, c.heating) {
		currents, times = append(currents, p.currentA), append(times, p.timeS)
	}
	for _, p := range c.most {
		times = append(times, p.timeS.Mul(decimal.NewFromInt(30)))
	}
	low = point{decimal.Min(currents[0], currents...), decimal.Min(times[0], times...)}
	high = point{decimal.Max(currents[0], currents...), decimal.Max(times[0], times...)}
	return low, high
}
