package main

import (
	"errors"

	"example.org/extralow/charge"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// sky is where the van stands: a tabulated place, or a latitude with a share of
// sunshine in percent of the daylight.
type sky struct {
	name        string
	latitudeDeg decimal.Decimal
	place       *tables.Insolation
	sunshine    decimal.Decimal
}

// sun is what it gives, month by month.
type sun struct {
	name   string
	module charge.SolarYield
	months [12]sunDay
}

// sunDay is the mean day of a month.
type sunDay struct {
	groundKWh decimal.Decimal // on a square metre of level ground
	offeredWh decimal.Decimal // behind the controller
	upMin     int             // the sun is up so long, about 12 h
	working   working.Working
}

func (s sky) sun(moduleW decimal.Decimal) (sun, error) {
	module, err := flatModule(moduleW)
	all := sun{name: s.name, module: module}
	for m := range all.months {
		d, noDay := s.day(m + 1)
		if err = errors.Join(err, noDay); err != nil {
			return all, err
		}
		if moduleW.IsPositive() {
			module.SunKWhPerM2, module.From = d.groundKWh, working.Start(all.module.From, d.working)
			given, noYield := module.Day()
			err = errors.Join(err, noYield)
			d.offeredWh, d.working = given.EnergyWh, given.Working
		}
		all.months[m] = d
	}
	return all, err
}

// day returns daylight and radiation of a month's mean day.
func (s sky) day(month int) (sunDay, error) {
	mean, err := tables.MeanDay(month)
	if err != nil {
		return sunDay{}, err
	}
	r, err := charge.Sky{LatitudeDeg: s.latitudeDeg, Day: int(mean.Value.IntPart())}.Radiation()
	d := sunDay{upMin: minutes(r.DaylightH), working: r.Working}
	if err != nil || s.place != nil {
		if err == nil {
			d.groundKWh = d.working.LookUp("H_d", s.place.Months[month-1])
		}
		return d, err
	}
	if d.upMin == 0 {
		return d, nil // polar night
	}
	g, err := r.FromSunshine(r.DaylightH.Mul(s.sunshine).Shift(-2))
	d.groundKWh, d.working = g.MJPerM2.DivRound(decimal.New(36, -1), 4), g.Working
	return d, err
}

// Of a module on a hot roof: on a cold day it gives more than is counted.
var (
	dayCellC    = decimal.NewFromInt(45)
	percentPerC = decimal.New(-35, -2)
)

// flatModule is a module on the roof with the usual losses, behind the poorer of
// the controllers that track its power.
func flatModule(powerW decimal.Decimal) (charge.SolarYield, error) {
	var percent []decimal.Decimal
	for _, l := range tables.SystemLosses() {
		percent = append(percent, l.Percent.Value)
	}
	losses, err := charge.CombinedLosses(percent...)
	controller, noController := tables.ConverterEfficiency("MPPT controller")
	w := working.Start(losses.Working)
	w.LookUp("η_s", controller.Least)
	return charge.SolarYield{
		Module:   charge.Module{PowerW: powerW, PowerPercentPerC: percentPerC},
		DayCellC: dayCellC, LossesPercent: decimal.NewNullDecimal(losses.Percent), Efficiency: controller.Least.Value, Tracking: true, From: w,
	}, errors.Join(err, noController)
}

// halfPi turns the mean of half a sine into its greatest.
var halfPi = decimal.RequireFromString("1.5707963268")

// spells are the sun of each month as half a sine. Its current is that at the
// voltage held, below which the controller would give more.
func (s sun) spells(stageV decimal.Decimal) []charge.DutyPeriod {
	var all []charge.DutyPeriod
	for m, d := range s.months {
		if d.upMin < 2 || !d.offeredWh.IsPositive() {
			continue
		}
		from, to := d.rises(), d.sets()
		only := make([]decimal.Decimal, 12)
		only[m] = decimal.NewFromInt(1)
		wattHours := stageV.Mul(hours(to - from))
		all = append(all, charge.DutyPeriod{
			Name: "sun", CurrentA: halfPi.Mul(d.offeredWh).DivRound(wattHours, 4),
			FromH: hours(from), ToH: hours(to), Sun: true, Months: only,
		})
	}
	return all
}

// rises and sets are minutes of the day.
func (d sunDay) rises() int { return 12*60 - d.upMin/2 }
func (d sunDay) sets() int  { return 12*60 + d.upMin/2 }

// hours turns minutes into hours.
func hours(minutes int) decimal.Decimal {
	return decimal.NewFromInt(int64(minutes)).DivRound(decimal.NewFromInt(60), 4)
}

// extremes are the months, 1 to 12, of least and of most sun.
func (s sun) extremes() (worst, best int) {
	for m, d := range s.months {
		if d.groundKWh.LessThan(s.months[worst].groundKWh) {
			worst = m
		}
		if d.groundKWh.GreaterThan(s.months[best].groundKWh) {
			best = m
		}
	}
	return worst + 1, best + 1
}
