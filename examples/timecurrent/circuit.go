package main

import (
	"errors"

	"example.org/extralow/protect"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// circuit is one load with its cable and its device.
type circuit struct {
	device     protect.Device
	lay        wire.Conductor
	insulation string
	loadA      decimal.Decimal
	surge      protect.Surge
	leastA     decimal.Decimal // fault at the far end, at its smallest
	mostA      decimal.Decimal // fault at the device, at its largest
}

// judged is a circuit with what the packages say about it.
type judged struct {
	circuit
	gates    []tables.Gate
	ampacity wire.Ampacity
	cable    protect.Cable
	finalC   decimal.Decimal // what the insulation bears in a fault
	reason   string          // of the window
	checks   []working.Check
	times    []times
}

// times are those of the device and the cable at one current.
type times struct {
	name     string
	currentA decimal.Decimal
	opens    protect.OpeningTime
	lasts    decimal.NullDecimal // until the device has opened, as P09 judges it; unset: it need not
	bears    decimal.NullDecimal // until the cable is as hot as it bears; unset: it never is
}

// judge asks the packages.
func (c circuit) judge() (judged, error) {
	j := judged{circuit: c}
	err := errors.Join(j.lookUpDevice(), j.lookUpCable())
	if err != nil {
		return j, err
	}
	if err := j.window(); err != nil {
		return j, err
	}
	rides, err := c.device.RidesThrough(c.surge)
	if err != nil {
		return j, err
	}
	heats, err := j.heatsIn(c.leastA)
	if err != nil {
		return j, err
	}
	clears, err := c.device.Clears(protect.FarFault{
		LeastFaultA: c.leastA, GreatestFaultA: decimal.NewNullDecimal(c.mostA),
		AmpacityA: decimal.NewNullDecimal(j.ampacity.AmpacityA), Cable: j.cable, HeatsInS: heats, From: j.ampacity.Working,
	})
	if err != nil {
		return j, err
	}
	j.checks = append(append(j.checks, rides), clears...)
	return j, j.atEach()
}

// atEach asks for the times at each current of the circuit.
func (j *judged) atEach() error {
	j.times = []times{
		{name: "load", currentA: j.loadA}, {name: "ampacity", currentA: j.ampacity.AmpacityA}, {name: "surge", currentA: j.surge.CurrentA},
		{name: "smallest fault", currentA: j.leastA}, {name: "largest fault", currentA: j.mostA},
	}
	for i := range j.times {
		t := &j.times[i]
		let, energy := j.device.LetThrough(t.currentA)
		t.lasts = let.TimeS
		var device, cable error
		t.opens, device = j.device.OpeningTime(t.currentA)
		t.bears, cable = j.bears(t.currentA)
		if err := errors.Join(device, energy, cable); err != nil {
			return err
		}
	}
	return nil
}

func (j *judged) lookUpDevice() (err error) {
	j.gates, err = tables.Gates(j.device.Family, j.device.RatingA)
	return err
}

// lookUpCable finds what the cable carries without end and what it bears in a
// fault.
func (j *judged) lookUpCable() error {
	area, err := j.lay.Size.Area()
	if err != nil {
		return err
	}
	k, err := tables.AdiabaticOf("copper", j.insulation, area.Value)
	if err != nil {
		return working.In("insulation", err)
	}
	var w working.Working
	w.LookUp("k", k.K)
	j.cable, j.finalC = protect.Cable{K: k.K.Value, AreaMM2: area.Value, From: w}, k.FinalC
	j.lay.InsulationC = k.InitialC
	rules, err := tables.RuleSetOf("european")
	if err != nil {
		return err
	}
	j.ampacity, err = j.lay.Ampacity(rules.Ampacity)
	return err
}

// window judges the rating between load and cable. A family without a list of
// standard ratings has no window.
func (j *judged) window() error {
	rules, err := tables.RuleSetOf("european")
	if err != nil {
		return err
	}
	w, err := protect.Need{
		DesignA: j.loadA, AmpacityA: j.ampacity.AmpacityA, SetName: rules.Name, From: j.ampacity.Working,
	}.Window(rules.Device, j.device.Family)
	if errors.Is(err, tables.ErrNotListed) {
		j.reason = "no window: " + err.Error()
		j.checks = []working.Check{{ID: "P01", Title: "the device stands in its window", Missing: "ask the maker for the ratings: " + err.Error()}}
		return nil
	}
	j.reason, j.checks = w.Reason, w.Checks(j.device.RatingA)
	return err
}

// heatsIn is how long a current takes to heat the cable, from its full load, to
// what its insulation bears; unset where it never does.
func (j judged) heatsIn(currentA decimal.Decimal) (decimal.NullDecimal, error) {
	t, err := wire.Overload{
		Ampacity: j.ampacity, AreaMM2: j.cable.AreaMM2, CurrentA: currentA,
		StartC: decimal.NewNullDecimal(j.ampacity.InsulationC),
	}.TimeTo(j.finalC)
	if err != nil || !t.TimeS.Decimal.IsPositive() {
		return decimal.NullDecimal{}, err
	}
	return t.TimeS, nil
}

// bears is how long the cable bears a fault: k²S² to 5 s, else the heating law.
func (j judged) bears(faultA decimal.Decimal) (decimal.NullDecimal, error) {
	w, err := j.cable.Withstand(faultA)
	if err != nil || w.TimeS.Valid {
		return w.TimeS, err
	}
	return j.heatsIn(faultA)
}
