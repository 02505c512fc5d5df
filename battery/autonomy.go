package battery

import (
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// BankAutonomy asks a bank for days without charging.
type BankAutonomy struct {
	Bank     Bank            `json:"bank"`
	EnergyWh decimal.Decimal `json:"energy_wh_a_day"` // from the battery, inverter losses included: see [Audit.Sum]; above 0 to 1 000 000
	Days     decimal.Decimal `json:"days"`            // asked for; above 0 to 365

	PartWh    decimal.NullDecimal `json:"part_wh"`    // of the part of a day beyond the whole ones; unset: of the mean day; 0 to 1 000 000
	PartWhere string              `json:"part_where"` // which part that is

	From working.Working `json:"from,omitempty"` // the lines that gave the energy
}

// Reserve is how long a bank lasts.
type Reserve struct {
	Days    decimal.NullDecimal `json:"days_lasting"`
	Missing string              `json:"missing,omitempty"` // the rating to ask for; then the days are unset
	Working working.Working     `json:"working"`
}

// Usable returns what the bank gives in this use: [Bank.Usable] of its capacity
// at the mean current ([Bank.CapacityAt]), where a battery is rated in more
// hours than the days asked:
//
//	I_mn = E_d ÷ (U_n × 24)                                     [A], rounded up to 0.01
//	I_mn = (E_d × floor(N_d) + E_pt) ÷ (U_n × N_d × 24)         where E_pt is given
//
// Energy above 0 to 1 000 000 Wh a day, days above 0 to 365. Sources: Peukert's law,
// arithmetic.
func (a BankAutonomy) Usable() (Usable, error) {
	if err := a.check(); err != nil {
		return Usable{}, err
	}
	bank, missing, err := a.inUse()
	if err != nil || missing != "" {
		return Usable{Missing: missing}, working.In("bank", err)
	}
	usable, err := bank.Usable()
	if err != nil {
		return Usable{}, working.In("bank", err)
	}
	if mean, ok := bank.From.Value("I_mn"); ok {
		usable.MeanA = decimal.NewNullDecimal(mean)
	}
	return usable, nil
}

// inUse is the bank with its capacity at the mean current of the use.
func (a BankAutonomy) inUse() (Bank, string, error) {
	hours := a.Days.Mul(day)
	if !slices.ContainsFunc(a.Bank.Batteries, func(x BankBattery) bool { return x.slowerThan(hours) }) {
		return a.Bank, "", nil
	}
	w := working.Start(a.Bank.From)
	volts, _ := a.Bank.rating(&w)
	w.Given("E_d", a.EnergyWh)
	formula, energy, over := "E_d ÷ (U_n × 24)", a.EnergyWh, volts.Mul(day)
	if a.PartWh.Valid {
		w.Given("N_d", a.Days)
		w.Given("E_pt", a.PartWh.Decimal)
		formula, energy, over = "(E_d × floor(N_d) + E_pt) ÷ (U_n × N_d × 24)", a.wanted(), volts.Mul(hours)
	}
	mean := w.CalcUp("I_mn", formula, energy, over, 2, arithmetic)
	c, err := a.Bank.capacityAt(w, mean, hours)
	return c.Bank, c.Missing, err
}

// WantedEnergy is the energy for some days.
type WantedEnergy struct {
	EnergyWh decimal.Decimal `json:"wanted_wh"`
	Working  working.Working `json:"working"`
}

// Wanted returns the energy for the days asked: of whole days the mean, of the rest
// what the part of a day takes.
//
//	E_w = E_d × N_d                    [Wh]
//	E_w = E_d × floor(N_d) + E_pt      where E_pt is given: a day is not even
//
// Source: arithmetic.
func (a BankAutonomy) Wanted() (WantedEnergy, error) {
	if err := a.checkUse(); err != nil {
		return WantedEnergy{}, err
	}
	w := working.Start(a.From)
	w.Given("E_d", a.EnergyWh)
	wh := a.layWanted(&w)
	return WantedEnergy{EnergyWh: wh, Working: slices.Clip(w)}, nil
}

// layWanted adds the energy for the days asked.
func (a BankAutonomy) layWanted(w *working.Working) decimal.Decimal {
	w.Given("N_d", a.Days)
	formula := "E_d × N_d"
	if a.PartWh.Valid {
		w.Given("E_pt", a.PartWh.Decimal)
		w.Note(a.PartWhere)
		formula = "E_d × floor(N_d) + E_pt"
	}
	return w.Calc("E_w", formula, a.wanted(), arithmetic)
}

func (a BankAutonomy) wanted() decimal.Decimal {
	if !a.PartWh.Valid {
		return a.EnergyWh.Mul(a.Days)
	}
	return a.EnergyWh.Mul(a.Days.Floor()).Add(a.PartWh.Decimal)
}

func (a BankAutonomy) check() error {
	return errors.Join(working.In("bank", errors.Join(a.Bank.check(), a.Bank.checkServed())), a.checkUse())
}

func (a BankAutonomy) checkUse() error {
	if err := errors.Join(
		working.Above("energy_wh_a_day", a.EnergyWh, 0, 1_000_000),
		working.Above("days", a.Days, 0, 365),
		betweenIf("part_wh", a.PartWh, 0, 1_000_000),
	); err != nil {
		return err
	}
	return a.checkPart()
}

// checkPart wants no more for a part of a day than for the whole of it, and a part
// at all.
func (a BankAutonomy) checkPart() error {
	if !a.PartWh.Valid {
		return nil
	}
	if a.Days.Equal(a.Days.Floor()) {
		return &working.InputError{Field: "part_wh", Got: a.PartWh.Decimal.String(), Want: "nothing where days are whole"}
	}
	if part := a.PartWh.Decimal; part.GreaterThan(a.EnergyWh) {
		return &working.InputError{Field: "part_wh", Got: part.String(), Want: "0 to that of a whole day, " + a.EnergyWh.String()}
	}
	return nil
}

// Reserve returns the days that the bank carries its loads without charging:
//
//	N_r = E_u ÷ E_d   [d], rounded down to 0.01
//
// E_u as in [BankAutonomy.Usable]. Source: arithmetic.
func (a BankAutonomy) Reserve() (Reserve, error) {
	w, usable, err := a.usable()
	if err != nil || usable.Missing != "" {
		return Reserve{Missing: usable.Missing}, err
	}
	days := w.CalcDown("N_r", "E_u ÷ E_d", usable.EnergyWh.Decimal, a.EnergyWh, 2, arithmetic)
	return Reserve{Days: decimal.NewNullDecimal(days), Working: slices.Clip(w)}, nil
}

// Check judges the energy for the days asked against the usable energy (B03):
//
//	E_w = E_d × N_d                    [Wh]
//	E_w = E_d × floor(N_d) + E_pt      where E_pt is given: a day is not even
//	E_w ≤ E_u
//
// Where the rate of the use is faster than every rating, it says which to ask
// for.
func (a BankAutonomy) Check() (working.Check, error) {
	const id, title = "B03", "Energy for the days asked"
	w, usable, err := a.usable()
	if err != nil {
		return working.Check{}, err
	}
	if usable.Missing != "" {
		return working.Check{ID: id, Title: title, Missing: usable.Missing}, nil
	}
	a.layWanted(&w)
	return w.Check(id, title, "E_w", "E_u"), nil
}

func (a BankAutonomy) usable() (working.Working, Usable, error) {
	usable, err := a.Usable()
	if err != nil {
		return nil, Usable{}, err
	}
	w := working.Start(a.From, usable.Working)
	w.Given("E_d", a.EnergyWh)
	return w, usable, nil
}

// Runtime is how long a bank carries one load.
type Runtime struct {
	TimeH   decimal.Decimal `json:"time_h"`
	Working working.Working `json:"working"`
}

// Runtime returns the hours that the bank carries a steady power:
//
//	t_e = E_u ÷ P   [h], rounded down to 0.01
//
// Power above 0 to 100 000 W, taken from the battery. The capacity is that of
// the rated hours: at a heavier load lead-acid gives less ([Peukert.At]).
// Source: arithmetic.
func (b Bank) Runtime(powerW decimal.Decimal) (Runtime, error) {
	usable, err := b.Usable()
	if err = errors.Join(err, working.Above("power_w", powerW, 0, 100_000)); err != nil {
		return Runtime{}, err
	}
	w := working.Start(usable.Working)
	w.Given("P", powerW)
	t := w.CalcDown("t_e", "E_u ÷ P", usable.EnergyWh.Decimal, powerW, 2, arithmetic)
	return Runtime{TimeH: t, Working: slices.Clip(w)}, nil
}

// CheckDischarge judges a steady discharge current against the bank's limit by
// shares: B01.
func (b Bank) CheckDischarge(currentA decimal.Decimal) (working.Check, error) {
	limits, err := b.Discharge()
	return judge("B01", "Steady discharge within the limit", currentA, limits, err)
}

// CheckCharge judges the sum of the charge currents against the bank's limit by
// shares: B06.
func (b Bank) CheckCharge(currentA decimal.Decimal) (working.Check, error) {
	limits, err := b.Charge()
	return judge("B06", "Charge current within the limit", currentA, limits, err)
}

// CheckDischargeMissing is [Bank.CheckDischarge] with each string missing in
// turn, and returns the strictest: B02. A bank of one string has no such case.
func (b Bank) CheckDischargeMissing(currentA decimal.Decimal) (working.Check, error) {
	const id, title = "B02", "Steady discharge with one battery missing"
	if err := errors.Join(b.check(), working.Above("current_a", currentA, 0, 10_000)); err != nil {
		return working.Check{}, err
	}
	if len(b.Batteries) == b.Series {
		return working.Check{ID: id, Title: title, Silent: "one string only: without it nothing is carried"}, nil
	}
	var all []working.Check
	for k := range b.strings() {
		rest, err := b.Without(k)
		if err != nil {
			return working.Check{}, err
		}
		limits, err := rest.Discharge()
		c, err := judge(id, title, currentA, limits, err)
		if err != nil {
			return working.Check{}, err
		}
		all = append(all, c)
	}
	strictest, _ := working.Strictest(all...)
	return all[strictest], nil
}

func judge(id, title string, currentA decimal.Decimal, limits BankLimits, err error) (working.Check, error) {
	if err = errors.Join(err, working.Above("current_a", currentA, 0, 10_000)); err != nil {
		return working.Check{}, err
	}
	if !limits.LimitA.Valid {
		return working.Check{ID: id, Title: title, Missing: limits.Missing}, nil
	}
	w := working.Start(limits.Working)
	w.Given("I", currentA)
	return w.Check(id, title, "I", "I_lim"), nil
}

// CheckCutOut judges the voltage at which a load switches itself off against
// the one at which the bank's own protection opens: B04. The load has to go
// first, or the protection takes everything with it. A bank of lead-acid or
// nickel without protection of its own has no such case; of a lithium bank it
// is a thing to ask. On a chemistry with a flat curve a note says that no voltage
// guards the charge.
//
// Load cut-out 1 to 100 V; unset where it is not known.
func (b Bank) CheckCutOut(loadCutOutV decimal.NullDecimal) (working.Check, error) {
	if err := errors.Join(b.check(), betweenIf("cut_out_v", loadCutOutV, 1, 100)); err != nil {
		return working.Check{}, err
	}
	c := working.Check{ID: "B04", Title: "The load's cut-out above the battery's own"}
	w := working.Start(b.From)
	protected, unknown := b.cutOuts(&w)
	switch {
	case len(protected) == 0 && !b.Batteries[0].Chemistry.Has(tables.ManagementUnit):
		c.Silent = "the batteries have no protection of their own"
		return c, nil
	case unknown != "":
		c.Missing = unknown
		return c, nil
	case !loadCutOutV.Valid:
		c.Missing = "the voltage at which the load switches itself off, from its data sheet"
		return c, nil
	}
	w.Calc("U_bo", "max("+joined(protected)+")", greatest(w, protected), arithmetic)
	w.Given("U_c", loadCutOutV.Decimal)
	w.Note(b.flatCurve())
	c = w.Check(c.ID, c.Title, "U_bo", "U_c")
	c.Below = true
	return c, nil
}

// cutOuts adds the cut-out of every string, the sum of its batteries'.
func (b Bank) cutOuts(w *working.Working) (opens []string, unknown string) {
	for k, s := range b.strings() {
		if n := slices.IndexFunc(s, func(x BankBattery) bool { return !x.CutOutV.Valid }); n >= 0 {
			unknown = fmt.Sprintf("the voltage at which the protection of battery %d (%s) opens, from its data sheet", k*b.Series+n+1, s[n].Name)
			continue
		}
		b.inSeries(w, k, "U_bs", "U_bb", func(x BankBattery) decimal.Decimal { return x.CutOutV.Decimal })
		opens = append(opens, nth("U_bs", k))
	}
	return opens, unknown
}

func greatest(w working.Working, symbols []string) decimal.Decimal {
	var values []decimal.Decimal
	for _, s := range symbols {
		v, _ := w.Value(s)
		values = append(values, v)
	}
	return decimal.Max(values[0], values[1:]...)
}
