package inspect

import (
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/battery"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// inBay runs one question of the bay; a job that describes none has no answer.
func (m *model) inBay(id string, ask func(b job.Bay) ([]working.Check, error)) ([]Finding, error) {
	where := Finding{Where: "the bay", Path: "bay"}
	if m.job.Bay == nil {
		where.Check = working.Check{ID: id, Silent: "the job does not describe the bay"}
		return []Finding{where}, nil
	}
	checks, err := ask(*m.job.Bay)
	if err != nil {
		return nil, working.In("bay", err)
	}
	var all []Finding
	for _, c := range checks {
		f := where
		f.Check = c
		all = append(all, f)
	}
	return all, nil
}

// undescribed asks for the bay where what is not known of it decides a danger.
func undescribed(id, with string) []Finding {
	return []Finding{{Where: "the bay", Path: "bay", Check: working.Check{ID: id, Missing: "measure the space in which the house batteries stand and describe it as bay, " + with}}}
}

// standing are the batteries that stand in the bay: those of the house, and what
// else it holds.
func (m *model) standing() []job.Battery {
	return slices.DeleteFunc(slices.Clone(m.job.Batteries), func(b job.Battery) bool { return !m.inTheBay(b) })
}

// inTheBay reports whether a battery stands in the bay, where the job describes one.
func (m *model) inTheBay(b job.Battery) bool {
	return m.job.Bay != nil && (m.isHouse(b.Name) || slices.Contains(m.job.Bay.Holds, b.Name))
}

// vented compares the opening of the bay with what the gas of all its batteries
// asks; lithium cells give off none in use.
func vented(m *model) ([]Finding, error) {
	if m.asksForVent() {
		return undescribed("B08", "with the free area of its smaller vent opening and the fixings that hold each of them in a crash: its batteries gas, flooded ones whenever they charge, sealed ones when they are overcharged"), nil
	}
	return m.inBay("B08", func(b job.Bay) ([]working.Check, error) {
		gassing := slices.DeleteFunc(m.standing(), func(x job.Battery) bool { return !x.Chemistry.Has(tables.Gasses) })
		switch {
		case len(gassing) == 0:
			return []working.Check{{ID: "B08", Silent: "lithium cells give off no gas in use"}}, nil
		case !b.OpeningCM2.Valid:
			return []working.Check{{ID: "B08", Missing: "measure the free area of the smaller vent opening, in cm2"}}, nil
		}
		c, err := m.gasOf(gassing).CheckOpening(b.OpeningCM2.Decimal)
		return []working.Check{c}, err
	})
}

// asksForVent reports whether house batteries gas in a space that the job does not
// describe.
func (m *model) asksForVent() bool {
	return m.job.Bay == nil && slices.ContainsFunc(m.house(), func(b job.Battery) bool { return b.Chemistry.Has(tables.Gasses) })
}

// gasOf is batteries in one space as they charge at once. They are cells of 2 V.
func (m *model) gasOf(batteries []job.Battery) battery.GasRoom {
	room := battery.GasRoom{DesignFactor: decimal.NewFromInt(1)}
	for _, b := range batteries {
		room.Batteries = append(room.Batteries, battery.Gassing{
			Chemistry: b.Chemistry, Cells: int(m.job.SystemV.DivRound(decimal.NewFromInt(2), 0).IntPart()), CapacityAh: b.CapacityAh, Charge: "boost",
		})
	}
	return room
}

func (m *model) bankAh() decimal.Decimal {
	sum := decimal.Zero
	for _, b := range m.house() {
		sum = sum.Add(b.CapacityAh)
	}
	return sum
}

// coolEnough compares the temperature in the bay with the ambient at which its
// cables were judged: with the mean of the duty, and with everything in it at
// full load.
func coolEnough(m *model) ([]Finding, error) {
	return m.inBay("B09", func(b job.Bay) ([]working.Check, error) {
		box := boxOf(b)
		full, mean, err := m.bayLoss(b)
		if err != nil {
			return nil, err
		}
		var all []working.Check
		for _, loss := range []working.Working{mean, full} {
			box.From = loss
			c, err := box.CheckTemperature(decimal.NewNullDecimal(loss[len(loss)-1].Value), decimal.NewNullDecimal(b.OutsideC), decimal.NewNullDecimal(m.judgedAt(b)))
			if err != nil {
				return nil, err
			}
			all = append(all, c)
		}
		worst, _ := working.Strictest(all...)
		return all[worst : worst+1], nil
	})
}

func boxOf(b job.Bay) battery.Box {
	return battery.Box{
		HeightM: b.HeightMM.Shift(-3), WidthM: b.LengthMM.Shift(-3), DepthM: b.WidthMM.Shift(-3),
		Position: b.Position, Material: b.Material,
	}
}

// findBayAir works out the air in the bay with everything in it at full load.
func (m *model) findBayAir() (battery.BoxTemperature, error) {
	if m.job.Bay == nil {
		return battery.BoxTemperature{}, nil
	}
	full, _, err := m.bayLoss(*m.job.Bay)
	if err != nil {
		return battery.BoxTemperature{}, err
	}
	box := boxOf(*m.job.Bay)
	box.From = full
	return box.Temperature(decimal.NewNullDecimal(full[len(full)-1].Value), decimal.NewNullDecimal(m.job.Bay.OutsideC))
}

// loss is the heat of one thing in the bay.
type loss struct {
	name      string
	fullW     decimal.Decimal
	hoursADay decimal.Decimal
}

// bayLoss adds up the heat of what stands in the bay: at full load, and spread
// over the day.
func (m *model) bayLoss(b job.Bay) (full, mean working.Working, err error) {
	var all []loss
	for _, c := range m.job.Chargers {
		if slices.Contains(b.Holds, c.Name) {
			in, err := converter(c, m.job.SystemV).Input()
			if err != nil {
				return nil, nil, err
			}
			all = append(all, loss{c.Name, in.LossW, m.hoursOfSource(c.Name)})
		}
	}
	for _, inv := range m.job.Inverters {
		if slices.Contains(b.Holds, inv.Name) {
			d, err := inverterOf(inv).Draw(inv.RatedW, inv.CutOutV)
			if err != nil {
				return nil, nil, err
			}
			all = append(all, loss{inv.Name, d.LossW, m.hoursOn(inv)})
		}
	}
	for _, x := range m.standing() {
		all = append(all, m.ohmic(x.Name, m.high(x), func(c solved) decimal.Decimal { return c.given(x.Name) }))
	}
	for _, r := range m.runs {
		if inside := m.insideBay(b); slices.Contains(inside, r.From) && slices.Contains(inside, r.To) {
			all = append(all, m.ohmic(r.Name, r.hotMilliohm, func(c solved) decimal.Decimal { return c.current(r.Name) }))
		}
	}
	return atFullLoad(all), overTheDay(all), nil
}

// ohmic is the heat of a resistance, I² × R: of the greatest current that lasts with
// every battery there, and spread over the day by the hours in which each state would
// take as much.
func (m *model) ohmic(name string, milliohm decimal.Decimal, amps func(solved) decimal.Decimal) loss {
	byState := make([]decimal.Decimal, len(m.job.States))
	most := decimal.Zero
	for _, c := range m.cases {
		if c.short() || c.missing != "" || c.CollapsedAt != "" {
			continue
		}
		a := amps(c)
		w := a.Mul(a).Mul(milliohm).Shift(-3).RoundCeil(2)
		byState[c.index], most = decimal.Max(byState[c.index], w), decimal.Max(most, w)
	}
	hours := decimal.Zero
	for i, w := range byState {
		if w.IsPositive() {
			hours = hours.Add(m.job.States[i].HoursDay.Mul(w).DivRound(most, 9))
		}
	}
	return loss{name, most, hours.RoundCeil(2)}
}

// insideBay names what stands in the bay.
func (m *model) insideBay(b job.Bay) []string {
	all := slices.Clone(b.Holds)
	for _, x := range m.standing() {
		all = append(all, x.Name)
	}
	return all
}

var sums = cite.Arithmetic.At("", cite.Published)

// atFullLoad lays out the losses and their sum.
func atFullLoad(all []loss) working.Working {
	var w working.Working
	sum, formula := decimal.Zero, "0"
	for i, l := range all {
		symbol := fmt.Sprintf("P_v.%d", i+1)
		sum, formula = sum.Add(w.Given(symbol, l.fullW)), formula+" + "+symbol
		w.Note(l.name + ", at full load")
	}
	w.Calc("P_v", formula, sum, sums)
	return w
}

// overTheDay lays out their mean over 24 hours.
func overTheDay(all []loss) working.Working {
	var w working.Working
	sum, formula := decimal.Zero, "0"
	for i, l := range all {
		p, t := fmt.Sprintf("P_v.%d", i+1), fmt.Sprintf("t_on.%d", i+1)
		sum = sum.Add(w.Given(p, l.fullW).Mul(w.Given(t, l.hoursADay)))
		w.Note(l.name)
		formula += " + " + p + " × " + t
	}
	w.Calc("P_v", "("+formula+") ÷ 24", sum.DivRound(decimal.NewFromInt(24), 4), sums)
	return w
}

func (m *model) hoursOfSource(name string) decimal.Decimal {
	hours := decimal.Zero
	for _, s := range m.job.States {
		if slices.Contains(s.Sources, name) {
			hours = hours.Add(s.HoursDay)
		}
	}
	return hours
}

// judgedAt is the lowest ambient that a run with an end in the bay was judged
// at.
func (m *model) judgedAt(b job.Bay) decimal.Decimal {
	inside := m.insideBay(b)
	lowest := decimal.NewFromInt(1000)
	for _, r := range m.runs {
		if slices.Contains(inside, r.From) || slices.Contains(inside, r.To) {
			lowest = decimal.Min(lowest, r.AmbientC)
		}
	}
	return lowest
}

// fits compares the measured space with what the cases want, axis by axis: every
// place as large as the largest case wants it, for any may stand there.
func fits(m *model) ([]Finding, error) {
	return m.inBay("B10", func(b job.Bay) ([]working.Check, error) {
		all := []working.Check{m.places(b)}
		var byAxis [3][]working.Check
		var unmeasured []string
		for _, x := range m.standing() {
			if !x.LengthMM.Valid || !x.WidthMM.Valid || !x.HeightMM.Valid {
				unmeasured = append(unmeasured, x.Name)
				continue
			}
			f, err := fitting(x, b).Fit()
			if err != nil {
				return nil, err
			}
			for axis, c := range f.Checks {
				byAxis[axis] = append(byAxis[axis], c)
			}
		}
		for _, checks := range byAxis {
			if worst, ok := working.Strictest(checks...); ok {
				all = append(all, checks[worst])
			}
		}
		if len(unmeasured) > 0 {
			all = append(all, working.Check{ID: "B10", Missing: "measure the delivered case of " + strings.Join(unmeasured, ", ") + " over everything, with a rule: length, width, height with terminals"})
		}
		return all, nil
	})
}

// fitting is the bay with cases like that of one battery in every place.
func fitting(x job.Battery, b job.Bay) battery.Fit {
	return battery.Fit{
		Case: battery.Case{
			LengthMM: x.LengthMM.Decimal, WidthMM: x.WidthMM.Decimal, HeightMM: x.HeightMM.Decimal, ToleranceMM: decimal.NewNullDecimal(b.CaseMM),
		},
		Space: battery.Space{LengthMM: b.LengthMM, WidthMM: b.WidthMM, HeightMM: b.HeightMM, ToleranceMM: decimal.NewNullDecimal(b.ToleranceMM)},
		Along: int(b.Along.IntPart()), Across: int(b.Across.IntPart()),
		GapMM: decimal.NewNullDecimal(b.GapMM), WallMM: decimal.NewNullDecimal(b.WallMM), AboveMM: decimal.NewNullDecimal(b.AboveMM),
		CableMM: decimal.NewNullDecimal(b.CableMM), BendTimes: b.BendTimes, LugMM: decimal.NewNullDecimal(b.LugMM),
	}
}

// places compares the batteries in the bay with the places for them. A
// battery of several cases takes more than one.
func (m *model) places(b job.Bay) working.Check {
	var w working.Working
	w.Given("n_bt", decimal.NewFromInt(int64(len(m.standing()))))
	along, across := w.Given("n_x", b.Along), w.Given("n_yr", b.Across)
	w.Calc("n_pl", "n_x × n_yr", along.Mul(across), sums)
	return w.Check("B10", "", "n_bt", "n_pl")
}

// heldDown compares the force on each fixing of the heaviest battery with what it
// bears.
func heldDown(m *model) ([]Finding, error) {
	switch {
	case m.asksForVent():
		return notHere("B13", "the bay", "bay", "the job does not describe the bay: see B08"), nil
	case m.job.Bay == nil && m.job.Craft != "boat":
		return undescribed("B13", "with the fixings that hold each of them in a crash"), nil
	}
	return m.inBay("B13", func(b job.Bay) ([]working.Check, error) {
		var all, checks []working.Check
		var unweighed []string
		for _, x := range m.standing() {
			if !x.MassKg.Valid {
				unweighed = append(unweighed, x.Name)
				continue
			}
			c, err := battery.HoldDown{
				MassKg: x.MassKg.Decimal, Times: b.Gravities, Fixings: int(b.Fixings.IntPart()),
				HeightMM: decimal.NewNullDecimal(b.CentreMM), SpacingMM: b.RowsMM, StrengthN: b.FixingN,
			}.Check()
			if err != nil {
				return nil, err
			}
			checks = append(checks, c)
		}
		if worst, ok := working.Strictest(checks...); ok {
			all = append(all, checks[worst])
		}
		if len(unweighed) > 0 {
			all = append(all, working.Check{ID: "B13", Missing: "weigh " + strings.Join(unweighed, ", ")})
		}
		return all, nil
	})
}

// axles compares each axle and the whole with the plate. A boat has none.
func axles(m *model) ([]Finding, error) {
	all, err := m.onAxles("B14", []string{"front axle", "rear axle", "gross mass"})
	if f, ok := m.unweighed(); ok && err == nil {
		all = append(all, f)
	}
	return all, err
}

// unweighed finds house batteries that were neither on the scales nor are among
// the items: what is added weighs less than they do.
func (m *model) unweighed() (Finding, bool) {
	w := m.job.Weights
	if w == nil || w.Weighed || m.job.Craft == "boat" {
		return Finding{}, false
	}
	var items, bank decimal.Decimal
	for _, i := range w.Items {
		items = items.Add(i.MassKg)
	}
	for _, b := range m.house() {
		bank = bank.Add(b.MassKg.Decimal)
	}
	f := Finding{Where: "the house batteries", Path: "weights.items", Check: working.Check{ID: "B14", Missing: fmt.Sprintf(
		"the house batteries weigh %s kg and all items together %s kg: say with batteries_weighed that they were in it on the scales, or list them among the items", bank, items)}}
	return f, items.LessThan(bank)
}

// frontKeeps compares what is left on the front axle or coupling with the least
// that it must keep.
func frontKeeps(m *model) ([]Finding, error) {
	return m.onAxles("B21", []string{"front axle or coupling"})
}

// onAxles names the checks of the axles from the one of that id on.
func (m *model) onAxles(id string, where []string) ([]Finding, error) {
	f := Finding{Where: "the vehicle", Path: "weights"}
	switch {
	case m.job.Craft == "boat":
		f.Check = working.Check{ID: id, Silent: "a boat has no axles"}
		return []Finding{f}, nil
	case m.job.Weights == nil && id == "B14":
		f.Check = working.Check{ID: id, Missing: "weigh each axle, or axle and coupling, ready for the road (a public weighbridge), read the plate, and state weights"}
		return []Finding{f}, nil
	case m.job.Weights == nil:
		f.Check = working.Check{ID: id, Silent: "the job states no weights: see B14"}
		return []Finding{f}, nil
	}
	loaded, err := vehicle(*m.job.Weights).Axles()
	if err != nil {
		return nil, working.In(f.Path, err)
	}
	first := slices.IndexFunc(loaded.Checks, func(c working.Check) bool { return c.ID == id })
	var all []Finding
	for i, name := range where {
		all = append(all, Finding{Check: loaded.Checks[first+i], Where: name, Path: f.Path})
	}
	return all, nil
}

// vehicle is the vehicle as the battery package takes it.
func vehicle(w job.Weights) battery.Vehicle {
	v := battery.Vehicle{
		WheelbaseM: w.WheelbaseM, FrontKg: w.FrontKg, RearKg: w.RearKg, LeastFrontKg: w.FrontLeastKg,
		FrontLimitKg: w.FrontMostKg, RearLimitKg: w.RearMostKg, GrossLimitKg: w.GrossMostKg,
	}
	for _, i := range w.Items {
		v.Items = append(v.Items, battery.AddedMass{Name: i.Name, MassKg: i.MassKg, BehindM: decimal.NewNullDecimal(i.BehindM)})
	}
	return v
}

// freezes compares the freezing point of each lead-acid battery, at the depth that
// the design uses, with the coldest that it stands in. Sealed ones are judged as flooded ones, whose acid is the weaker.
func freezes(m *model) ([]Finding, error) {
	var all []Finding
	for i, b := range m.job.Batteries {
		f := Finding{Where: b.Name, Path: fmt.Sprintf("batteries[%d]", i)}
		f.Check = working.Check{ID: "B07", Silent: "no acid in it"}
		if b.Chemistry.Has(tables.Freezes) {
			var err error
			left := decimal.NewFromInt(100).Sub(b.DepthPercent)
			if f.Check, err = battery.CheckFreezing(left, decimal.NewNullDecimal(m.stoodC(b))); err != nil {
				return nil, working.In(f.Path, err)
			}
		}
		all = append(all, f)
	}
	return all, nil
}
