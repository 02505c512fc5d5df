package main

import (
	"errors"
	"slices"

	"example.org/extralow/battery"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// question is inverters at the end of their path, in their space.
type question struct {
	feed         battery.Feed // without its path
	bankMilliohm decimal.Decimal
	conductor    wire.Conductor
	conductorC   decimal.Decimal
	run          wire.Run // without its resistance
	box          battery.Box
	outsideC     decimal.Decimal
	riseC        decimal.Decimal
}

// answer is currents, volts and heat.
type answer struct {
	question question
	rest     battery.InverterDraw // at the bank's voltage at rest: on no path at all
	cutOut   battery.InverterDraw
	drop     wire.Drop // of cables and joints, at the current at rest
	settled  battery.InverterTerminals
	worse    []path
	limits   limits
	warmth   battery.BoxTemperature
	walls    battery.WallLoss
	air      battery.Flow // zero where the walls suffice
}

func (q question) answer() (answer, error) {
	a := answer{question: q}
	_, feed := q.at(decimal.New(1, -2)) // the least path that is asked: the flags are judged before there is a real one
	r, cable := q.conductor.Resistance(q.conductorC)
	err := errors.Join(feed, cable, working.Between("bank_high_milliohm", q.bankMilliohm, 0, 1000), q.checkCutOut())
	if err != nil {
		return a, err
	}
	var rest, cutOut error
	a.rest, rest = q.feed.Inverter.Draw(q.feed.SteadyW, q.feed.SourceV)
	a.cutOut, cutOut = q.feed.Inverter.Draw(q.feed.SteadyW, q.feed.CutOutV.Decimal)
	if err := errors.Join(rest, cutOut); err != nil {
		return a, err
	}
	if err := errors.Join(a.lay(r), a.heat()); err != nil {
		return a, err
	}
	var settled, worse, limits error
	a.settled, settled = a.question.feed.Terminals()
	a.worse, worse = a.question.paths()
	a.limits, limits = a.question.limits()
	return a, errors.Join(settled, worse, limits)
}

// checkCutOut refuses a bank at which the inverters never switch on, and one of
// another nominal voltage than theirs.
func (q question) checkCutOut() error {
	emf, cutOut := q.feed.SourceV, q.feed.CutOutV.Decimal
	if emf.GreaterThan(cutOut) && emf.LessThan(cutOut.Add(cutOut)) {
		return nil
	}
	return &working.InputError{Field: "emf_v", Got: emf.String(), Want: "above cut_out_v, " + cutOut.String() + ", and less than twice that"}
}

// lay adds the path: the bank, the cables hot, and what lies in the loop.
func (a *answer) lay(r wire.Resistance) error {
	q := &a.question
	q.run.MilliohmPerM, q.run.From = r.MilliohmPerM, r.Working
	loop, err := q.run.Loop()
	if err != nil {
		return err
	}
	if a.drop, err = loop.Drop(a.rest.CurrentA); err != nil {
		return err
	}
	w := working.Start(a.drop.Working)
	bank := w.Given("R_bh", q.bankMilliohm)
	q.feed.PathMilliohm = w.Calc("R_p", "R_bh + R", bank.Add(a.drop.LoopMilliohm), cite.Kirchhoff.At("", cite.Published))
	q.feed.From = slices.Clip(w)
	return nil
}

// path is the path of the flags so many times over.
type path struct {
	times    decimal.Decimal
	milliohm decimal.Decimal
	battery.InverterTerminals
}

func (q question) paths() ([]path, error) {
	var all []path
	for _, times := range []string{"1", "1.5", "2", "3", "4", "6"} {
		p := path{times: decimal.RequireFromString(times)}
		p.milliohm = q.feed.PathMilliohm.Mul(p.times)
		var err error
		if p.InverterTerminals, err = q.at(p.milliohm); err != nil {
			return nil, err
		}
		all = append(all, p)
	}
	return all, nil
}

// at settles the same load on another path.
func (q question) at(milliohm decimal.Decimal) (battery.InverterTerminals, error) {
	q.feed.PathMilliohm, q.feed.From = milliohm, nil
	return q.feed.Terminals()
}

// limits are the greatest resistances of the path at which the load runs, and
// at which any voltage carries it.
type limits struct {
	steadyRuns, surgeRuns, steadyStands, surgeStands decimal.Decimal
}

func (q question) limits() (limits, error) {
	var l limits
	var errs [4]error
	l.steadyRuns, errs[0] = q.greatest(func(t battery.InverterTerminals) bool { return q.runs(t.Steady) })
	l.surgeRuns, errs[1] = q.greatest(func(t battery.InverterTerminals) bool { return q.runs(t.Surge) })
	l.steadyStands, errs[2] = q.greatest(func(t battery.InverterTerminals) bool { return !t.Steady.Collapses })
	l.surgeStands, errs[3] = q.greatest(func(t battery.InverterTerminals) bool { return !t.Surge.Collapses })
	return l, errors.Join(errs[:]...)
}

// runs reports whether the inverters stay on.
func (q question) runs(o battery.OperatingPoint) bool {
	return !o.Collapses && o.VoltageV.Decimal.GreaterThan(q.feed.CutOutV.Decimal)
}

// mostHundredths is the end of the search, 10 000 mΩ, that of the library.
const mostHundredths = 1_000_000

// greatest halves its way to the greatest path, to 0.01 mΩ, that holds. No path
// at all does, because the bank at rest is above the cut-out.
func (q question) greatest(holds func(battery.InverterTerminals) bool) (decimal.Decimal, error) {
	low, high := int64(0), int64(mostHundredths+1)
	for high-low > 1 {
		middle := (low + high) / 2
		t, err := q.at(decimal.New(middle, -2))
		if err != nil {
			return decimal.Decimal{}, err
		}
		if holds(t) {
			low = middle
		} else {
			high = middle
		}
	}
	return decimal.New(low, -2), nil
}

// heat adds what the steady load sheds, how warm the closed space becomes, and
// the air that keeps it cooler.
func (a *answer) heat() error {
	q := a.question
	hot := q.box
	hot.From = a.cutOut.Working
	var warmth, walls, air error
	a.warmth, warmth = hot.Temperature(decimal.NewNullDecimal(a.cutOut.LossW), decimal.NewNullDecimal(q.outsideC))
	a.walls, walls = q.box.WallLoss(a.cutOut.LossW, q.riseC)
	if a.walls.RestW.IsPositive() {
		a.air, air = battery.Airflow{LossW: a.walls.RestW, RiseC: q.riseC, From: a.walls.Working}.Flow()
	}
	return errors.Join(warmth, walls, air)
}

// airWorking is that of the air, or of the walls that suffice.
func (a answer) airWorking() working.Working {
	if len(a.air.Working) == 0 {
		return a.walls.Working
	}
	return a.air.Working
}
