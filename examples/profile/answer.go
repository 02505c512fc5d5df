package main

import (
	"errors"
	"slices"

	"example.org/extralow/charge"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// question is a battery, what charges it and how.
type question struct {
	characteristic        charge.Characteristic
	battery               charge.BatteryOnCharge
	source                charge.ChargingSource
	startPercent, withinH decimal.Decimal
	temperatures          []decimal.Decimal // rising, the battery's own among them
}

// answer is what package charge says to it.
type answer struct {
	question
	restFrom origin
	barred   string // why the battery may not be charged; empty: it may
	rows     []row
	own      row      // that of the battery's temperature
	runs     []course // as asked, then the other way; none where it is barred
	atStart  charge.Acceptance
}

// row is one temperature.
type row struct {
	atC      decimal.Decimal
	barred   string // why it may not be charged there; empty: it may
	window   working.Working
	profile  charge.Profile
	equalise charge.Voltage  // without working where the tables have none
	mostA    decimal.Decimal // that it may take, empty
	most     working.Working // the lines of mostA
}

// course is one charge.
type course struct {
	charge.Charge
	remote bool
	stages []span
}

// span is the time of one stage.
type span struct {
	charge.Stage
	begun, ended bool
	full         bool            // the run ended in it with a full battery
	fromH, toH   decimal.Decimal // to the end of the run where it has not ended
	endPercent   decimal.Decimal
}

func (q question) answer() (answer, error) {
	a := answer{question: q}
	var restErr error
	a.restFrom, restErr = rest(&a.battery, q.characteristic.Cells)
	_, acceptErr := a.battery.Acceptance(decimal.Zero)
	_, stagesErr := q.characteristic.Stages(q.battery.BatteryC)
	if errors.Is(stagesErr, tables.ErrNotListed) {
		stagesErr = nil // which the flags wanted say better
	}
	if err := errors.Join(unlistedStages(q.characteristic), stagesErr, acceptErr, restErr, kept(&a.battery)); err != nil {
		return a, err
	}
	for _, t := range q.temperatures {
		r, err := a.row(t)
		if err != nil {
			return a, err
		}
		a.rows = append(a.rows, r)
		if t.Equal(q.battery.BatteryC) {
			a.own, a.barred = r, r.barred
		}
	}
	return a, a.follow()
}

// row asks for the stages at a temperature.
func (a answer) row(atC decimal.Decimal) (row, error) {
	r := row{atC: atC}
	b := a.battery
	b.BatteryC, b.From = atC, nil
	cold, coldErr := b.ColdCharge(decimal.NewNullDecimal(atC), decimal.NullDecimal{})
	hot, hotErr := b.HotCharge(decimal.NewNullDecimal(atC))
	if err := errors.Join(coldErr, hotErr); err != nil {
		return r, err
	}
	r.window = slices.Clip(working.Start(cold.Working, hot.Working))
	switch {
	case cold.Verdict() == working.Fails:
		r.barred = "not to be charged below " + cold.Demand.String() + " °C"
	case hot.Verdict() == working.Fails:
		r.barred = "not to be charged above " + hot.Limit.String() + " °C"
	}
	taken, err := b.Acceptance(decimal.Zero)
	if err != nil {
		return r, err
	}
	limit := slices.IndexFunc(taken.Working, func(s working.Step) bool { return s.Symbol == "I_r" })
	r.most, r.mostA = slices.Clip(taken.Working[:limit+1]), taken.Working[limit].Value
	if r.profile, err = a.characteristic.Stages(atC); err != nil {
		return r, err
	}
	if v, err := a.characteristic.Equalising(decimal.NullDecimal{}, atC); err == nil {
		r.equalise = v
	}
	return r, nil
}

// follow runs the charge, as asked and with the voltage held at the other end of
// the cable.
func (a *answer) follow() error {
	if a.barred != "" {
		return nil
	}
	var err error
	if a.atStart, err = a.battery.Acceptance(a.startPercent); err != nil {
		return err
	}
	for _, remote := range []bool{a.source.RemoteSensing, !a.source.RemoteSensing} {
		c, err := a.course(remote)
		if err != nil {
			return err
		}
		a.runs = append(a.runs, c)
	}
	return nil
}

// wanted are the states of charge whose time is asked.
func wanted() []decimal.Decimal {
	return []decimal.Decimal{decimal.NewFromInt(80), decimal.NewFromInt(90), decimal.NewFromInt(100)}
}

func (a *answer) course(remote bool) (course, error) {
	source := a.source
	source.RemoteSensing = remote
	went, err := charge.Simulation{
		Battery: a.battery, Source: source, Stages: a.own.profile.Stages, StartPercent: a.startPercent,
		WithinH: a.withinH, MarkPercent: wanted(), StepS: 60, TraceEveryS: traceS(a.withinH),
	}.Run()
	return course{went, remote, spans(a.own.profile.Stages, went, a.withinH)}, err
}

// traceS is the time between two points of the curve: some 1500 of them.
func traceS(withinH decimal.Decimal) int {
	return max(10, int(withinH.Mul(decimal.New(24, -1)).IntPart()))
}

// spans finds the stages in a trace, which has a line at the end of each.
func spans(stages []charge.Stage, went charge.Charge, withinH decimal.Decimal) []span {
	var all []span
	for i, s := range stages {
		one := span{Stage: s, toH: went.TimeH, endPercent: went.EndPercent}
		if i > 0 {
			one.fromH = all[i-1].toH
		}
		for _, line := range went.Trace {
			if line.Stage == s.Name {
				one.begun, one.toH, one.endPercent = true, line.TimeH, line.SoCPercent
			}
		}
		one.ended = one.begun && (one.toH.LessThan(went.TimeH) || went.Reached && ends(s))
		one.full = one.begun && !one.ended && went.EndPercent.Equal(decimal.NewFromInt(100)) && went.TimeH.LessThan(withinH)
		all = append(all, one)
	}
	return all
}

// ends reports whether a stage has an end.
func ends(s charge.Stage) bool {
	return s.Letter == "I" && s.VoltageV.Valid || s.TailA.Valid || s.AfterH.Valid
}
