package main

import (
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/charge"
	"example.org/extralow/examples/form"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var entries = []form.Entry{
	{Name: "characteristic", Sample: "IUoU", Means: "letters: I, Ia, U, IU, IUIa or IUoU"},
	{Name: "chemistry", Sample: "lead-acid flooded", Means: "of the battery", Words: form.Names("chemistry")},
	{Name: "cells", Sample: "6", Means: "in series"},
	{Name: "strings", Sample: "2", Means: "of such cells in parallel"},
	{Name: "capacity_ah", Sample: "220", Means: "of the battery, all strings, Ah"},
	{Name: "battery_c", Sample: "10", Means: "of the battery itself, °C"},
	{Name: "temperatures_c", Sample: "-10,0,10,20,30,40,50", Means: "of the table, up to 15"},
	{Name: "start_percent", Sample: "50", Means: "state of charge at the start, %"},
	{Name: "limit_a", Sample: "20", Means: "greatest current of the source, A"},
	{Name: "source_efficiency", Sample: "0.88", Means: "output by input"},
	{Name: "cable_milliohm", Sample: "12", Means: "out and back, with joints, mΩ"},
	{Name: "remote_sensing", Sample: "no", Means: "yes: it holds the battery's volts"},
	{Name: "internal_milliohm", Sample: "5", Means: "of the battery, mΩ"},
	{Name: "within_h", Sample: "24", Means: "it is followed so long, h"},
	{Name: "absorption_cell_v", Means: "a cell; unset: the tables' lowest"},
	{Name: "float_cell_v", Means: "a cell; unset: the tables' lowest"},
	{Name: "voltage_reference_c", Means: "of these two; unset: 25 °C"},
	{Name: "compensation_mv_per_c", Means: "a cell, mV/°C; unset: the tables'"},
	{Name: "tail_a", Means: "ends absorption, A; unset: tables'"},
	{Name: "finish_a", Means: "of I, Ia or the end of IUIa, A"},
	{Name: "finish_h", Means: "and for how long, h"},
	{Name: "charge_limit_a", Means: "of the data sheet, A"},
	{Name: "least_charge_c", Means: "of the data sheet, °C"},
	{Name: "most_charge_c", Means: "of the data sheet, °C"},
	{Name: "emf", Means: "% and V at rest: 0 11.9; 100 12.7"},
	{Name: "coulombic_efficiency", Means: "kept of the charge put in"},
}

// read turns the flags into a question.
func read(f *form.Form) question {
	q := question{
		characteristic: charge.Characteristic{
			Letters: f.Text("characteristic"), Chemistry: tables.Chemistry(f.Text("chemistry")),
			Cells: f.Whole("cells", form.Between(1, 48)), CapacityAh: f.Number("capacity_ah", form.Above(0, 100_000)),
			AbsorptionV: f.Optional("absorption_cell_v", form.Between(1, 5)), FloatV: f.Optional("float_cell_v", form.Between(1, 5)),
			ReferenceC: f.Optional("voltage_reference_c", form.Between(-60, 100)), MilliVPerC: f.Optional("compensation_mv_per_c", form.Between(-10, 0)),
			TailA: f.Optional("tail_a", form.Between(0, 10_000)), FinishA: f.Optional("finish_a", form.Above(0, 10_000)), FinishH: f.Optional("finish_h", form.Above(0, 1000)),
		},
		source: charge.ChargingSource{
			CurrentA: f.Number("limit_a", form.Above(0, 10_000)), Efficiency: f.Number("source_efficiency", form.Above(0, 1)),
			CableMilliohm: f.Number("cable_milliohm", form.Between(0, 10_000)), RemoteSensing: f.Text("remote_sensing") == "yes",
		},
		startPercent: f.Number("start_percent", form.Between(0, 100)),
		withinH:      f.Number("within_h", form.Above(0, 1000)),
	}
	f.Refuse(working.OneOf("remote_sensing", f.Text("remote_sensing"), "yes", "no"))
	f.Refuse(tables.Chemistry(f.Text("chemistry")).Check("chemistry"))
	if _, err := tables.CharacteristicMeaning(f.Text("characteristic")); err != nil {
		f.Refuse(err)
	}
	q.battery = charge.BatteryOnCharge{
		Chemistry: tables.Chemistry(f.Text("chemistry")), CapacityAh: q.characteristic.CapacityAh, BatteryC: f.Number("battery_c", form.Between(-60, 100)),
		Cells: q.characteristic.Cells, Strings: f.Whole("strings", form.Between(1, 100)),
		InternalMilliohm: f.Number("internal_milliohm", form.Above(0, 10_000)), ChargeA: f.Optional("charge_limit_a", form.Above(0, 100_000)),
		LeastC: f.Optional("least_charge_c", form.Between(-60, 100)), GreatestC: f.Optional("most_charge_c", form.Between(-60, 100)),
		EMF: readEMF(f),
	}
	if low, high := q.battery.LeastC, q.battery.GreatestC; low.Valid && high.Valid && low.Decimal.GreaterThan(high.Decimal) {
		f.Refuse(&working.InputError{Field: "least_charge_c", Got: low.Decimal.String(), Want: "at most most_charge_c, " + high.Decimal.String()})
	}
	if ref := q.characteristic.ReferenceC; ref.Valid && !q.characteristic.AbsorptionV.Valid && !q.characteristic.FloatV.Valid {
		f.Refuse(&working.InputError{Field: "voltage_reference_c", Got: ref.Decimal.String(), Want: "absorption_cell_v or float_cell_v with it: the tables' voltages have their own"})
	}
	if kept := f.Optional("coulombic_efficiency", form.Above(0, 1)); kept.Valid {
		q.battery.Efficiency = []charge.EfficiencyStep{{Efficiency: q.battery.From.Given("η_q", kept.Decimal)}}
	}
	if finish := q.characteristic.FinishA; finish.Valid && finish.Decimal.GreaterThan(q.source.CurrentA) {
		f.Refuse(&working.InputError{Field: "finish_a", Got: finish.Decimal.String(), Want: "at most limit_a, " + q.source.CurrentA.String()})
	}
	q.temperatures = readTemperatures(f, q.battery.BatteryC)
	return q
}

// readTemperatures reads a list and puts the battery's own among it.
func readTemperatures(f *form.Form, batteryC decimal.Decimal) []decimal.Decimal {
	const name = "temperatures_c"
	words := strings.Split(f.Text(name), ",")
	if len(words) > 15 {
		f.Refuse(&working.InputError{Field: name, Got: fmt.Sprintf("%d temperatures", len(words)), Want: "up to 15 with commas, such as 0,10,20"})
		return nil
	}
	all := []decimal.Decimal{batteryC}
	for _, word := range words {
		v, err := form.ReadNumber(name, strings.TrimSpace(word), form.Between(-60, 100))
		f.Refuse(err)
		all = append(all, v)
	}
	slices.SortFunc(all, decimal.Decimal.Compare)
	return slices.CompactFunc(all, decimal.Decimal.Equal)
}

// readEMF reads the voltage at rest as "0 11.9; 100 12.7"; none where it is unset.
func readEMF(f *form.Form) []charge.EMFPoint {
	const name = "emf"
	if f.Text(name) == "" {
		return nil
	}
	var all []charge.EMFPoint
	for _, text := range strings.Split(f.Text(name), ";") {
		words := strings.Fields(text)
		if len(words) != 2 {
			f.Refuse(badEMF(f))
			return nil
		}
		percent, err := form.ReadNumber(name, words[0], form.Between(0, 100))
		f.Refuse(err)
		volts, err := form.ReadNumber(name, words[1], form.Above(0, 200))
		f.Refuse(err)
		all = append(all, charge.EMFPoint{SoCPercent: percent, EMFV: volts})
	}
	if f.Faults() == nil && !rises(all) {
		f.Refuse(badEMF(f))
	}
	return all
}

func badEMF(f *form.Form) error {
	return &working.InputError{Field: "emf", Got: fmt.Sprintf("%q", f.Text("emf")), Want: "state of charge and volts from 0 to 100 %, rising, such as 0 11.9; 100 12.7"}
}

// rises reports whether the points run from 0 to 100 % and never fall.
func rises(all []charge.EMFPoint) bool {
	for i := range all[1:] {
		if all[i+1].SoCPercent.LessThanOrEqual(all[i].SoCPercent) || all[i+1].EMFV.LessThan(all[i].EMFV) {
			return false
		}
	}
	return all[0].SoCPercent.IsZero() && all[len(all)-1].SoCPercent.Equal(decimal.NewFromInt(100))
}
