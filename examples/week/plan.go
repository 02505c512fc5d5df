package main

import (
	"fmt"
	"slices"
	"strconv"

	"example.org/extralow/charge"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// plan is a vehicle's days: its bank, what fills it and what empties it.
type plan struct {
	battery                    charge.BatteryOnCharge
	stageV                     decimal.Decimal
	converterA                 decimal.Decimal
	drives, driveDays          []int // minutes of the day at which they begin; days of the week
	drivingMin                 int   // a day, together
	mains, loads               []charge.DutyPeriod
	sun                        sun
	month, days                int // month 0: not asked for
	startPercent, limitPercent decimal.Decimal
	cutOut, resume             decimal.NullDecimal
}

// balance is the plan from the first of a month.
func (p plan) balance(month int) charge.Balance {
	return charge.Balance{
		Battery: p.battery, VoltageV: p.stageV,
		Sources: slices.Concat(p.driving(), p.mains, p.sun.spells(p.stageV)), Loads: p.loads, NoLoads: len(p.loads) == 0,
		StartPercent: p.startPercent, CutOutPercent: p.cutOut, ResumePercent: p.resume,
		Days: p.days, FirstMonth: month, TraceEveryH: 1,
	}
}

// driving shares the day's minutes out among the drives; the first ones get what
// does not go up evenly, so that a longer day has every minute of a shorter one.
func (p plan) driving() []charge.DutyPeriod {
	var all []charge.DutyPeriod
	n := len(p.drives)
	for i, start := range p.drives {
		if share := (p.drivingMin + n - 1 - i) / n; share > 0 {
			all = append(all, charge.DutyPeriod{
				Name: "driving", CurrentA: p.converterA, FromH: hours(start), ToH: hours(start + share), Weekdays: p.driveDays,
			})
		}
	}
	return all
}

// mostDriving is the longest a day may have before a drive runs into the next, or
// past midnight.
func (p plan) mostDriving() int {
	room := 24 * 60
	for i, start := range p.drives {
		end := 24 * 60
		if i+1 < len(p.drives) {
			end = p.drives[i+1]
		}
		room = min(room, end-start)
	}
	return room * len(p.drives)
}

// restTable and restRows are the cell's voltage at rest over its charge.
const restTable, restRows = "ocv-lithium-nickel", "Sunil 2025 ten points"

// bank is so many lithium iron phosphate cells in series, as the tables have
// them.
func bank(cells int) (charge.BatteryOnCharge, error) {
	b := charge.BatteryOnCharge{Chemistry: "LiFePO4"}
	table, err := tables.TableOf(restTable)
	if err != nil {
		return b, err
	}
	column := func(name string) int { return slices.Index(table.Columns, name) }
	name, chemistry, soc, volts := column("table"), column("chemistry"), column("soc_percent"), column("ocv_v_per_cell")
	for _, row := range table.Cells() {
		if row[name] != restRows || row[chemistry] != string(b.Chemistry) {
			continue
		}
		b.EMF = append(b.EMF, charge.EMFPoint{
			SoCPercent: decimal.RequireFromString(row[soc]),
			EMFV:       decimal.RequireFromString(row[volts]).Mul(decimal.NewFromInt(int64(cells))),
		})
	}
	kept, err := tables.CoulombicEfficiencies(b.Chemistry)
	if err == nil {
		b.Efficiency = []charge.EfficiencyStep{{Efficiency: b.From.LookUp("η_q", kept[0].Least)}}
	}
	return b, err
}

// checkStage refuses a voltage at which nothing flows into the bank even when it is
// half empty, and one above what its cells bear: it belongs to another number of cells.
func (p plan) checkStage(cells int) error {
	greatest, err := tables.GreatestCellVoltage(p.battery.Chemistry)
	if err != nil {
		return err
	}
	least, most := p.battery.EMF[len(p.battery.EMF)/2].EMFV, greatest.Value.Mul(decimal.NewFromInt(int64(cells)))
	if p.stageV.GreaterThan(least) && p.stageV.LessThanOrEqual(most) {
		return nil
	}
	return &working.InputError{Field: "stage_v", Got: p.stageV.String(), Want: fmt.Sprintf("above %s and at most %s with %d cells", least, most, cells)}
}

// clock writes minutes as "2 h 05 min".
func clock(minutes int) string {
	if minutes < 60 {
		return strconv.Itoa(minutes) + " min"
	}
	return fmt.Sprintf("%d h %02d min", minutes/60, minutes%60)
}
