package inspect

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"

	"example.org/extralow/battery"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// low and high are a battery's resistance for faults and for volts: as stated,
// or the typical range from memory, which a stated one of the two widens. Where
// neither is known the smallest stands
// in, which understates no fault, and unknown lists the battery: what fails on
// it fails anyway, and what passes cannot be told.
func (m *model) low(b job.Battery) decimal.Decimal {
	if b.LowMilliohm.Valid {
		return b.LowMilliohm.Decimal
	}
	low, _, err := tables.InternalResistance(b.Chemistry, b.NominalV, b.CapacityAh)
	switch {
	case err != nil:
		return regulated()
	case b.HighMilliohm.Valid:
		return decimal.Min(low.Value, b.HighMilliohm.Decimal)
	default:
		return low.Value
	}
}

func (m *model) high(b job.Battery) decimal.Decimal {
	if b.HighMilliohm.Valid {
		return b.HighMilliohm.Decimal
	}
	_, high, err := tables.InternalResistance(b.Chemistry, b.NominalV, b.CapacityAh)
	if err != nil {
		high.Value = regulated()
	}
	return decimal.Max(high.Value, b.LowMilliohm.Decimal)
}

// onResistance are the rules whose pass rests on how large the resistance of a
// battery is.
var onResistance = []string{"W01", "W02", "W04", "P01", "P09", "P17", "B01", "B02", "B05", "B22", "C06", "C10"}

// unknown names a battery whose high resistance is neither stated nor listed;
// "" where there is none.
func (m *model) unknown() string {
	for _, b := range m.job.Batteries {
		if b.HighMilliohm.Valid {
			continue
		}
		if _, _, err := tables.InternalResistance(b.Chemistry, b.NominalV, b.CapacityAh); err != nil {
			return b.Name
		}
	}
	return ""
}

// tellable takes back a pass that rests on currents which nobody knows, or on a
// resistance.
func (m *model) tellable(c working.Check) working.Check {
	if c.Verdict() == working.Passes && slices.Contains(onCurrents, c.ID) && m.collapsed() {
		return working.Check{ID: c.ID, Title: c.Title, Silent: collapsedText}
	}
	name := m.unknown()
	if name == "" || !slices.Contains(onResistance, c.ID) || c.Verdict() != working.Passes {
		return c
	}
	return working.Check{ID: c.ID, Title: c.Title, Missing: "measure the resistance of " + name + " first (see B17): no typical range is listed for such a battery"}
}

// resistanceKnown asks for the resistance of each battery that states none.
func resistanceKnown(m *model) ([]Finding, error) {
	var all []Finding
	for i, b := range m.job.Batteries {
		if b.LowMilliohm.Valid && b.HighMilliohm.Valid {
			continue
		}
		stands := "Until then a typical range stands in, from memory"
		if m.unknown() == b.Name {
			stands = "Until then no rule that rests on it can pass: no typical range is listed for such a battery"
		}
		all = append(all, Finding{Where: b.Name, Path: fmt.Sprintf("batteries[%d]", i), Check: working.Check{
			ID: "B17",
			Missing: "ask the maker for its resistance new and full, and at the end of its life; or measure volts and amperes at two loads " +
				"(IEC 60896-21, with a voltmeter at the posts and a clamp meter). " + stands,
		}})
	}
	return all, nil
}

// dischargeInside compares each battery's share of the steady current with its
// limit, in the worst case with all batteries there: aged, new or of unlike age.
func dischargeInside(m *model) ([]Finding, error) { return m.discharge("B01", m.job.Batteries, false) }

// dischargeWithout does so with each of the others missing in turn.
func dischargeWithout(m *model) ([]Finding, error) {
	if len(m.several()) == 0 {
		return []Finding{{Where: "the house bank", Path: "batteries", Check: working.Check{ID: "B02", Silent: "it has one battery"}}}, nil
	}
	return m.discharge("B02", m.droppable(), true)
}

func (m *model) discharge(id string, batteries []job.Battery, missing bool) ([]Finding, error) {
	var all []Finding
	for _, b := range batteries {
		f := Finding{Where: b.Name, Path: m.batteryPath(b.Name)}
		if !b.MaxDischargeA.Valid {
			f.Check = working.Check{ID: id, Silent: "its discharge limit is not stated"}
			if b.Chemistry.Has(tables.ManagementUnit) { // whose management unit opens beyond it
				f.Silent, f.Missing = "", "ask the maker for its greatest steady discharge current"
			}
			all = append(all, f)
			continue
		}
		worst, corner, err := m.mostGiven(b, missing)
		if err != nil {
			return nil, working.In(f.Path, err)
		}
		var w working.Working
		w.Step("I_so", worst, cite.Kirchhoff.At("", cite.Published))
		w.Given("I_bm", b.MaxDischargeA.Decimal)
		f.Check, f.Corner = w.Check(id, "", "I_so", "I_bm"), corner
		all = append(all, f)
	}
	return all, nil
}

func (m *model) batteryPath(name string) string {
	return indexed("batteries", slices.IndexFunc(m.job.Batteries, func(b job.Battery) bool { return b.Name == name }))
}

// mostGiven is the most that a battery gives without end. One outside the house
// bank also feeds the converters on its side while no alternator holds it up: before
// it does, and after a belt is gone.
func (m *model) mostGiven(b job.Battery, missing bool) (worst decimal.Decimal, corner string, err error) {
	for _, c := range m.cases {
		if a := c.given(b.Name); !c.short() && (c.missing != "") == missing && a.GreaterThan(worst) {
			worst, corner = a, c.name
		}
	}
	if missing || m.isHouse(b.Name) {
		return worst, corner, nil
	}
	for i := range m.job.States {
		s := &m.job.States[i]
		c, err := m.withoutAlternators(s)
		if err != nil {
			return worst, corner, err
		}
		if a := c.given(b.Name); a.GreaterThan(worst) {
			worst, corner = a, s.Name+", before an alternator holds it up"
		}
	}
	return worst, corner, nil
}

// withoutAlternators solves a state with its chargers and its loads while no
// alternator gives anything.
func (m *model) withoutAlternators(s *job.State) (c solved, err error) {
	still := *s
	still.Sources = slices.DeleteFunc(slices.Clone(s.Sources), func(name string) bool {
		return slices.ContainsFunc(m.job.Alternators, func(a job.Alternator) bool { return a.Name == name })
	})
	n, err := m.network(setting{name: s.Name, state: &still, sources: true, loads: true})
	if err != nil {
		return c, err
	}
	c.Solution, err = n.Solve()
	return c, err
}

// given is what a source gives in a case.
func (c solved) given(name string) decimal.Decimal {
	for _, s := range c.Sources {
		if s.Name == name {
			return s.CurrentA
		}
	}
	return decimal.Decimal{}
}

// bank is the house bank as the battery package takes it.
func (m *model) bank() battery.Bank { return m.bankOf(m.house()) }

// bankOf is batteries of one bank as that package takes them, at the coldest that
// they get while they serve.
func (m *model) bankOf(batteries []job.Battery) battery.Bank {
	b := battery.Bank{Series: 1, BatteryC: decimal.NewNullDecimal(m.servedBy(batteries[0]))}
	for _, x := range batteries {
		b.Batteries = append(b.Batteries, battery.BankBattery{
			Name: x.Name, Chemistry: x.Chemistry, NominalV: x.NominalV, CapacityAh: x.CapacityAh,
			RateH: decimal.NewNullDecimal(x.RatedH), FastAh: x.FastAh, FastH: x.FastH,
			LowMilliohm: x.LowMilliohm, HighMilliohm: x.HighMilliohm, FullV: x.FullV, EmptyV: x.EmptyV,
			DepthPercent: decimal.NewNullDecimal(x.DepthPercent), AgeingPercent: decimal.NewNullDecimal(x.AgeingPercent),
			GreatestDischargeA: x.MaxDischargeA, GreatestChargeA: x.MaxChargeA, CutOutV: x.CutOutV,
		})
	}
	return b
}

// lasts compares the usable energy of the house bank with what the loads take
// in the days that the customer asks for.
func lasts(m *model) ([]Finding, error) {
	house, err := m.houseLasts()
	if err != nil {
		return nil, err
	}
	others, err := m.keepsItsStart()
	return append(house, others...), err
}

func (m *model) houseLasts() ([]Finding, error) {
	f := Finding{Where: "the house bank", Path: "needs.autonomy_days", Check: working.Check{ID: "B03"}}
	use, err := m.use()
	if err != nil {
		return nil, err
	}
	f.Corner = use.PartWhere
	c, err := use.Check()
	if noCapacity(err) {
		f.Missing = capacityText
		return []Finding{f}, nil
	}
	f.Check = c
	return []Finding{f}, err
}

// use is the house bank with a day's use and the days that the customer asks.
func (m *model) use() (battery.BankAutonomy, error) {
	sum, err := m.audit()
	a := battery.BankAutonomy{Bank: m.bank(), EnergyWh: sum.EnergyWh, Days: m.job.Needs.AutonomyDays, From: sum.Working}
	if part := a.Days.Sub(a.Days.Floor()); part.IsPositive() {
		wh, where := m.worstPart(part.Mul(dayH), sum.EnergyWh)
		a.PartWh, a.PartWhere = decimal.NewNullDecimal(wh), where
	}
	return a, err
}

const capacityText = "ask the maker for the capacity at the coldest that the bank gets: no table reaches that cold"

// noCapacity reports that no table has the capacity at the bank's temperature.
func noCapacity(err error) bool {
	return errors.Is(err, tables.ErrOutside) || errors.Is(err, tables.ErrNotListed)
}

// usable is what the house bank gives in its use, as B03 has it. Where no table
// reaches its temperature or no rating its current, it says what to ask.
func (m *model) usable() (u battery.Usable, known bool, err error) {
	use, err := m.use()
	if err != nil {
		return battery.Usable{}, false, err
	}
	u, err = use.Usable()
	if noCapacity(err) {
		return battery.Usable{Missing: capacityText}, false, nil
	}
	return u, u.Missing == "", err
}

// audit sums what the loads take from the house bank in a day.
func (m *model) audit() (battery.AuditSum, error) {
	return m.auditOf(func(l job.Load) decimal.Decimal { return l.HoursADay }, m.hoursOn)
}

// auditOf sums a day of the house bank in which each load and each inverter is on
// for the hours given.
func (m *model) auditOf(hours func(job.Load) decimal.Decimal, on func(job.Inverter) decimal.Decimal) (battery.AuditSum, error) {
	return m.auditOn(m.banks[0], hours, on)
}

// auditOn sums such a day of a bank; nothing where nothing draws on it.
func (m *model) auditOn(k bank, hours func(job.Load) decimal.Decimal, on func(job.Inverter) decimal.Decimal) (battery.AuditSum, error) {
	var loads []battery.AuditLoad
	for _, l := range m.drawingOn(k) {
		loads = append(loads, m.audited(l, hours(l)))
	}
	return m.audits(k, loads, on)
}

// drawingOn lists what draws on a bank. What a converter takes of another than that
// of the house is asked apart (rule C13).
func (m *model) drawingOn(k bank) []job.Load {
	var all []job.Load
	if k.house {
		for _, c := range m.onHouse() {
			all = append(all, c.Load)
		}
		return all
	}
	for _, l := range m.job.Loads {
		if m.drawsOn(k, l.Node()) && !l.Cranking {
			all = append(all, l)
		}
	}
	return all
}

// audits sums a day of loads on a bank and of the inverters there.
func (m *model) audits(k bank, loads []battery.AuditLoad, on func(job.Inverter) decimal.Decimal) (battery.AuditSum, error) {
	a := battery.Audit{SystemV: m.job.SystemV, LowestV: lowestV(k.batteries), Loads: loads}
	for _, inv := range m.job.Inverters {
		if m.drawsOn(k, inv.Name) {
			a.Inverters = append(a.Inverters, battery.AuditInverter{
				Inverter: inverterOf(inv), OnHours: decimal.NewNullDecimal(on(inv)), Isolated: inv.Isolated,
			})
		}
	}
	if len(a.Loads)+len(a.Inverters) == 0 {
		return battery.AuditSum{}, nil
	}
	return a.Sum()
}

func (m *model) audited(l job.Load, hours decimal.Decimal) battery.AuditLoad {
	x := battery.AuditLoad{
		Name: l.Name, PowerW: l.PowerW, CurrentA: l.CurrentA, HoursADay: decimal.NewNullDecimal(hours), DutyPercent: l.Percent,
		StandbyW: l.StandbyW, SurgeW: l.SurgeW, Inverter: l.Inverter, Isolated: l.Isolated,
	}
	if l.CurrentA.Valid {
		x.AtV = decimal.NewNullDecimal(m.job.SystemV)
	}
	return x
}

// hoursOn is how long a day an inverter is switched on: through every state in
// which it feeds something.
func (m *model) hoursOn(inv job.Inverter) decimal.Decimal {
	hours := decimal.Zero
	for i := range m.job.States {
		if s := &m.job.States[i]; m.inverterOut(inv, s).IsPositive() {
			hours = hours.Add(s.HoursDay)
		}
	}
	return hours
}

func inverterOf(inv job.Inverter) battery.Inverter {
	return battery.Inverter{Name: inv.Name, EfficiencyPercent: decimal.NewNullDecimal(inv.EfficiencyPercent), IdleW: decimal.NewNullDecimal(inv.IdleW)}
}

// lowestBankV is the lowest rested voltage of the house bank.
func (m *model) lowestBankV() decimal.Decimal { return lowestV(m.house()) }

func lowestV(batteries []job.Battery) decimal.Decimal {
	low := batteries[0].EmptyV
	for _, b := range batteries {
		low = decimal.Min(low, b.EmptyV)
	}
	return low
}

// cutOutOrder compares the voltage at which each battery's own unit opens with
// the lowest at which anything that need not run to the last gives up.
func cutOutOrder(m *model) ([]Finding, error) {
	var all []Finding
	for i, b := range m.job.Batteries {
		k := m.bankWith(b.Name)
		lowest, name := m.lowestCutOut(k)
		f := Finding{Where: b.Name, Path: fmt.Sprintf("batteries[%d]", i)}
		if name == "" && !k.house && (b.CutOutV.Valid || !b.Chemistry.Has(tables.ManagementUnit)) {
			f.Check = working.Check{ID: "B04", Silent: "nothing that it feeds says at what voltage it gives up"}
			all = append(all, f)
			continue
		}
		c, err := m.bankOf([]job.Battery{b}).CheckCutOut(lowest)
		f.Check = c
		if name != "" {
			f.Corner = "the first to reach it is " + name
		}
		if err != nil {
			return nil, ofOne(err, f.Path)
		}
		all = append(all, f)
	}
	return all, nil
}

// ofOne puts the path of a battery in the job in place of that in a bank of one.
func ofOne(err error, path string) error {
	var all []error
	for _, e := range working.Inputs(err) {
		own := *e
		own.Field = path + strings.TrimPrefix(e.Field, "batteries[0]")
		all = append(all, &own)
	}
	return errors.Join(all...)
}

// lowestCutOut is the lowest voltage at which an inverter switches off, a device
// sheds a load of a bank or a load gives up by itself; unset where none states one.
// Of a load that is shed that voltage alone counts: below its own lowest it may draw
// on.
func (m *model) lowestCutOut(k bank) (lowest decimal.NullDecimal, name string) {
	on := func(node string) bool { return m.drawsOn(k, node) }
	take := func(v decimal.NullDecimal, of string) {
		if v.Valid && (!lowest.Valid || v.Decimal.LessThan(lowest.Decimal)) {
			lowest, name = v, of
		}
	}
	for _, inv := range m.job.Inverters {
		if on(inv.Name) {
			take(decimal.NewNullDecimal(inv.CutOutV), inv.Name)
		}
	}
	for _, l := range m.job.Loads {
		if !l.MustRun && !l.Cranking && on(l.Node()) {
			take(letsGo(l), l.Name)
		}
	}
	return lowest, name
}

// surgeOut is the most that an inverter gives in a state: the load whose start
// adds most, of those asked for, starts while the others run.
func (m *model) surgeOut(inv job.Inverter, s *job.State, asked func(job.Load) bool) decimal.Decimal {
	running, most := m.inverterOut(inv, s), decimal.Zero
	for _, l := range m.job.Loads {
		if l.Inverter == inv.Name && slices.Contains(s.Loads, l.Name) && l.SurgeW.Valid && asked(l) {
			most = decimal.Max(most, l.SurgeW.Decimal.Sub(m.watts(l)))
		}
	}
	return running.Add(most)
}

func anyStart(job.Load) bool { return true }

// startsFor is how long a start may take, at the most: what lasts longer heats as a
// load that lasts, and no short-time rating is meant for it (common practice).
var startsFor = sync.OnceValue(func() decimal.Decimal {
	f, err := tables.SizingFigure("longest_start")
	return tabled(f, err)
})

// startLasts reports whether what a load takes to start lasts for so long that it is
// no start.
func startLasts(l job.Load) bool { return l.SurgeW.Valid && l.SurgeS.Decimal.GreaterThan(startsFor()) }

// hardestOut is what an inverter is judged at in a state: with a start of its loads;
// where none of them states any, at its own rated surge, which something will ask of
// it some day.
func (m *model) hardestOut(inv job.Inverter, s *job.State) (w decimal.Decimal, corner string) {
	if slices.ContainsFunc(m.job.Loads, func(l job.Load) bool { return l.Inverter == inv.Name && l.SurgeW.Valid }) {
		return m.surgeOut(inv, s, anyStart), "one load starting"
	}
	return decimal.Max(inv.SurgeW, m.inverterOut(inv, s)), "at its rated surge: no load states its start"
}

// inverterBigEnough compares what runs through each inverter with its rating,
// and the start of the hardest load with its surge rating.
func inverterBigEnough(m *model) ([]Finding, error) {
	var all []Finding
	for i, inv := range m.job.Inverters {
		steady, surge := decimal.Zero, decimal.Zero
		for k := range m.job.States {
			steady = decimal.Max(steady, m.surgeOut(inv, &m.job.States[k], startLasts))
			surge = decimal.Max(surge, m.surgeOut(inv, &m.job.States[k], anyStart))
		}
		path := fmt.Sprintf("inverters[%d]", i)
		all = append(all,
			Finding{Check: compareW("B18", "P", steady, "P_r", inv.RatedW), Where: inv.Name + ", steady", Path: path},
			Finding{Check: compareW("B18", "P_su", surge, "P_rs", inv.SurgeW), Where: inv.Name + ", at a start", Path: path})
	}
	return all, nil
}

func compareW(id, demand string, d decimal.Decimal, limit string, l decimal.Decimal) working.Check {
	var w working.Working
	w.Given(demand, d)
	w.Given(limit, l)
	return w.Check(id, "", demand, limit)
}

// surgeHolds solves each state with the inverter at its surge, on the batteries
// alone, whole and with each missing, and compares the voltage at its terminals
// with its cut-out.
func surgeHolds(m *model) ([]Finding, error) {
	var all []Finding
	for i, inv := range m.job.Inverters {
		f := Finding{Where: inv.Name, Path: fmt.Sprintf("inverters[%d]", i)}
		for k := range m.job.States {
			s := &m.job.States[k]
			if !m.inverterOut(inv, s).IsPositive() {
				continue
			}
			for _, of := range m.absences(s) {
				out, how := m.hardestOut(inv, s)
				c, err := m.atSurge(inv, of, out)
				if err != nil {
					return nil, working.In(f.Path, err)
				}
				if check := c.holds(inv); f.ID == "" || check.Margin().LessThan(f.Margin()) {
					f.Check, f.Corner = check, of.name+", "+how
				}
			}
		}
		if f.ID == "" {
			f.Check = working.Check{ID: "B05", Silent: "no state uses it"}
		}
		all = append(all, f)
	}
	return all, nil
}

// absences are the ways in which the bank may stand in a state: whole, of several
// batteries with each missing in turn, and parted from another bank.
func (m *model) absences(s *job.State) []setting {
	plain := setting{name: s.Name + ", on the batteries alone", state: s, loads: true}
	all := []setting{plain}
	if house := m.house(); len(house) > 1 {
		for _, b := range house {
			without := plain
			without.name, without.missing = s.Name+", without "+b.Name, b.Name
			all = append(all, without)
		}
	}
	return append(all, m.apartSettings(all)...)
}

// atSurge solves a case with an inverter at an output.
func (m *model) atSurge(inv job.Inverter, of setting, outW decimal.Decimal) (solved, error) {
	n, err := m.network(of)
	if err != nil {
		return solved{}, err
	}
	in, err := inverterIn(inv, outW)
	if err != nil {
		return solved{}, err
	}
	i := slices.IndexFunc(n.Loads, func(l wire.NodeLoad) bool { return l.Name == inv.Name })
	n.Loads[i].PowerW = decimal.NewNullDecimal(in)
	solution, err := n.Solve()
	return solved{setting: of, Solution: solution}, err
}

// holds compares the voltage at an inverter with its cut-out.
func (c solved) holds(inv job.Inverter) working.Check {
	v, _ := c.voltage(inv.Name)
	check := voltsAt(c, inv.Name, v, inv.CutOutV)
	check.ID, check.Below = "B05", true
	return check
}

// inverterOut is what an inverter feeds in a state.
func (m *model) inverterOut(inv job.Inverter, s *job.State) decimal.Decimal {
	sum := decimal.Zero
	for _, l := range m.job.Loads {
		if l.Inverter == inv.Name && slices.Contains(s.Loads, l.Name) {
			sum = sum.Add(m.watts(l))
		}
	}
	return sum
}

// watts is the power of a load; amperes are stated at the nominal voltage.
func (m *model) watts(l job.Load) decimal.Decimal {
	if l.PowerW.Valid {
		return l.PowerW.Decimal
	}
	return l.CurrentA.Decimal.Mul(m.job.SystemV)
}

// inverterIn is what an inverter takes from the bank for an output, as a load
// of constant power.
func inverterIn(inv job.Inverter, outW decimal.Decimal) (decimal.Decimal, error) {
	d, err := inverterOf(inv).Draw(outW, inv.CutOutV)
	return d.InputW, err
}
