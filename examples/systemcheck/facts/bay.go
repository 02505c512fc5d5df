package facts

import (
	"fmt"
	"math"
	"slices"

	"example.org/extralow/battery"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire/installation"
	"github.com/shopspring/decimal"
)

// Standing are the batteries that stand in the bay: those of the house, and what
// else it holds.
func (m *Facts) Standing() []job.Battery {
	return slices.DeleteFunc(slices.Clone(m.Job.Batteries), func(b job.Battery) bool { return !m.InTheBay(b) })
}

// InTheBay reports whether a battery stands in the bay, where the job describes one.
func (m *Facts) InTheBay(b job.Battery) bool {
	return m.Job.Bay != nil && (m.IsHouse(b.Name) || slices.Contains(m.Job.Bay.Holds, b.Name))
}

// AsksForVent reports whether house batteries gas in a space that the job does not
// describe.
func (m *Facts) AsksForVent() bool {
	return m.Job.Bay == nil && slices.ContainsFunc(m.House(), func(b job.Battery) bool { return b.Chemistry.Has(tables.Gasses) })
}

// GasOf is batteries in one space as they charge at once. They are cells of 2 V.
func (m *Facts) GasOf(batteries []job.Battery) battery.GasRoom {
	room := battery.GasRoom{DesignFactor: decimal.NewFromInt(1)}
	for _, b := range batteries {
		room.Batteries = append(room.Batteries, battery.Gassing{
			Chemistry: b.Chemistry, Cells: int(m.Job.SystemV.DivRound(decimal.NewFromInt(2), 0).IntPart()), CapacityAh: b.CapacityAh, Charge: "boost",
		})
	}
	return room
}

func (m *Facts) BankAh() decimal.Decimal {
	sum := decimal.Zero
	for _, b := range m.House() {
		sum = sum.Add(b.CapacityAh)
	}
	return sum
}

func BoxOf(b job.Bay) battery.Box {
	return battery.Box{
		HeightM: b.HeightMM.Shift(-3), WidthM: b.LengthMM.Shift(-3), DepthM: b.WidthMM.Shift(-3),
		Position: b.Position, Material: b.Material,
	}
}

// findBayAir works out the air in the bay with everything in it at full load.
func (m *Facts) findBayAir() (battery.BoxTemperature, error) {
	if m.Job.Bay == nil {
		return battery.BoxTemperature{}, nil
	}
	full, _, err := m.BayLoss(*m.Job.Bay)
	if err != nil {
		return battery.BoxTemperature{}, err
	}
	box := BoxOf(*m.Job.Bay)
	box.From = full
	return box.Temperature(decimal.NewNullDecimal(full[len(full)-1].Value), decimal.NewNullDecimal(m.Job.Bay.OutsideC))
}

// loss is the heat of one thing in the bay.
type loss struct {
	name      string
	fullW     decimal.Decimal
	hoursADay decimal.Decimal
}

// BayLoss adds up the heat of what stands in the bay: at full load, and spread
// over the day.
func (m *Facts) BayLoss(b job.Bay) (full, mean working.Working, err error) {
	var all []loss
	for _, c := range m.Job.Chargers {
		if slices.Contains(b.Holds, c.Name) {
			in, err := Converter(c, m.Job.SystemV).Input()
			if err != nil {
				return nil, nil, err
			}
			all = append(all, loss{c.Name, in.LossW, m.hoursOfSource(c.Name)})
		}
	}
	for _, inv := range m.Job.Inverters {
		if slices.Contains(b.Holds, inv.Name) {
			d, err := inverterOf(inv).Draw(inv.RatedW, inv.CutOutV)
			if err != nil {
				return nil, nil, err
			}
			all = append(all, loss{inv.Name, d.LossW, m.hoursOn(inv)})
		}
	}
	warming, err := m.warming()
	if err != nil {
		return nil, nil, err
	}
	for _, x := range m.Standing() {
		all = append(all, m.ohmic(x.Name, warming, func(c Solved) decimal.Decimal { return lost(c.given(x.Name), m.milliohmIn(x, c)) }))
	}
	for _, r := range m.Runs {
		if within := m.withinBay(r, m.insideBay(b)); within.IsPositive() {
			all = append(all, m.ohmic(r.Name, warming, func(c Solved) decimal.Decimal { return lost(c.current(r.Name), within) }))
		}
	}
	return atFullLoad(all), overTheDay(all), nil
}

// warming are the cases as they warm the bay, which takes hours: what runs for minutes at
// a time counts with what makes as much heat, spread over its state.
func (m *Facts) warming() ([]Solved, error) {
	if !slices.ContainsFunc(m.Job.Loads, func(l job.Load) bool { return m.brief(l) && !l.Cranking }) {
		return m.Cases, nil
	}
	var all []Solved
	for _, c := range m.Cases {
		if c.Kind == installation.Brief {
			continue
		}
		spread, err := m.spread(c.State)
		if err != nil {
			return nil, err
		}
		x, err := m.askIn(c.Case, c.Index, spread)
		if err != nil {
			return nil, err
		}
		all = append(all, x)
	}
	return all, nil
}

// spread is a state in which each load of minutes draws, all the time, what makes as much
// heat: √d of its current for a share d of the time.
func (m *Facts) spread(s *job.State) (installation.State, error) {
	own := *m
	own.Job.Loads = slices.Clone(m.Job.Loads)
	for i := range own.Job.Loads {
		l := &own.Job.Loads[i]
		if share := m.rootOfShare(*l, s); m.brief(*l) && !l.Cranking {
			l.PowerW.Decimal, l.CurrentA.Decimal = l.PowerW.Decimal.Mul(share), l.CurrentA.Decimal.Mul(share)
		}
	}
	x, err := own.drawnState(s)
	for i, u := range x.Loads {
		if k := slices.IndexFunc(own.Job.Loads, func(l job.Load) bool { return l.Name == u.Load && l.At != "" }); k >= 0 {
			l := own.Job.Loads[k]
			x.Loads[i].Takes = own.demand(l, l.PowerW, l.CurrentA)
		}
	}
	return x, err
}

// rootOfShare is √d of the share of a state in which a load runs, at the most.
func (m *Facts) rootOfShare(l job.Load, s *job.State) decimal.Decimal {
	if !s.HoursDay.IsPositive() {
		return One
	}
	share := l.HoursADay.Mul(l.Percent).DivRound(s.HoursDay, 9).Shift(-2).InexactFloat64()
	return decimal.Min(One, decimal.NewFromFloat(math.Sqrt(share)).RoundCeil(4))
}

// withinBay is the resistance of a run that warms the bay: of the length that lies
// there, of all of it where that is not stated and it ends there, and of its contacts,
// devices and switch where it ends there.
func (m *Facts) withinBay(r *Run, inside []string) decimal.Decimal {
	contacts, lies := decimal.Zero, r.InBayM.Decimal
	if slices.Contains(inside, r.From) || slices.Contains(inside, r.To) {
		contacts = r.ContactsMilliohm
		if !r.InBayM.Valid {
			lies = r.LengthM
		}
	}
	cable := r.HotMilliohm.Sub(r.ContactsMilliohm)
	return contacts.Add(cable.Mul(lies).DivRound(r.LengthM, 9))
}

// lost is the heat of a resistance, I² × R.
func lost(a, milliohm decimal.Decimal) decimal.Decimal {
	return a.Mul(a).Mul(milliohm).Shift(-3).RoundCeil(2)
}

// ohmic is the heat of what current warms: the most that lasts with every battery
// there, and spread over the day by the hours in which each state would make as much.
func (m *Facts) ohmic(name string, in []Solved, watts func(Solved) decimal.Decimal) loss {
	byState := make([]decimal.Decimal, len(m.Job.States))
	most := decimal.Zero
	for _, c := range in {
		if c.short() || c.BatteryMissing != "" || c.CollapsedAt() != "" {
			continue
		}
		w := watts(c)
		byState[c.Index], most = decimal.Max(byState[c.Index], w), decimal.Max(most, w)
	}
	hours := decimal.Zero
	for i, w := range byState {
		if w.IsPositive() {
			hours = hours.Add(m.Job.States[i].HoursDay.Mul(w).DivRound(most, 9))
		}
	}
	return loss{name, most, hours.RoundCeil(2)}
}

// insideBay names what stands in the bay.
func (m *Facts) insideBay(b job.Bay) []string {
	all := slices.Clone(b.Holds)
	for _, x := range m.Standing() {
		all = append(all, x.Name)
	}
	return all
}

var Sums = cite.Arithmetic.At("", cite.Published)

// atFullLoad lays out the losses and their sum.
func atFullLoad(all []loss) working.Working {
	var w working.Working
	sum, formula := decimal.Zero, "0"
	for i, l := range all {
		symbol := fmt.Sprintf("P_v.%d", i+1)
		sum, formula = sum.Add(w.Given(symbol, l.fullW)), formula+" + "+symbol
		w.Note(l.name + ", at full load")
	}
	w.Calc("P_v", formula, sum, Sums)
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
	w.Calc("P_v", "("+formula+") ÷ 24", sum.DivRound(decimal.NewFromInt(24), 4), Sums)
	return w
}

func (m *Facts) hoursOfSource(name string) decimal.Decimal {
	hours := decimal.Zero
	for _, s := range m.Job.States {
		if slices.Contains(s.Sources, name) {
			hours = hours.Add(s.HoursDay)
		}
	}
	return hours
}

// JudgedAt is the lowest ambient that a run with an end in the bay was judged
// at.
func (m *Facts) JudgedAt(b job.Bay) decimal.Decimal {
	inside := m.insideBay(b)
	lowest := decimal.NewFromInt(1000)
	for _, r := range m.Runs {
		if slices.Contains(inside, r.From) || slices.Contains(inside, r.To) {
			lowest = decimal.Min(lowest, r.AmbientC)
		}
	}
	return lowest
}

// Fitting is the bay with cases like that of one battery in every place.
func Fitting(x job.Battery, b job.Bay) battery.Fit {
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

// Vehicle is the vehicle as the battery package takes it.
func Vehicle(w job.Weights) battery.Vehicle {
	v := battery.Vehicle{
		WheelbaseM: w.WheelbaseM, FrontKg: w.FrontKg, RearKg: w.RearKg, LeastFrontKg: w.FrontLeastKg,
		FrontLimitKg: w.FrontMostKg, RearLimitKg: w.RearMostKg, GrossLimitKg: w.GrossMostKg,
	}
	for _, i := range w.Items {
		v.Items = append(v.Items, battery.AddedMass{Name: i.Name, MassKg: i.MassKg, BehindM: decimal.NewNullDecimal(i.BehindM)})
	}
	return v
}
