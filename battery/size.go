package battery

import (
	"errors"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// StandAloneSize is the capacity that a worksheet asks for.
type StandAloneSize struct {
	NeedAh   decimal.Decimal `json:"need_ah"`
	EnergyAh decimal.Decimal `json:"for_energy_ah"`
	PowerAh  decimal.Decimal `json:"for_power_ah"`
	ChargeAh decimal.Decimal `json:"for_charge_ah"`
	Governs  string          `json:"governs"` // "energy", "power" or "charge"
	Series   int             `json:"series"`  // of the block stated; 0 where none is
	Strings  int             `json:"strings"`
	Working  working.Working `json:"working"`
}

// StandAlone sizes a bank for days without charging, by the worksheet for
// stand-alone photovoltaic systems.
type StandAlone struct {
	EnergyWh      decimal.Decimal     `json:"energy_wh_a_day"` // from the battery, inverter losses included
	SystemV       decimal.Decimal     `json:"system_v"`        // 1 to 100
	Days          decimal.Decimal     `json:"days"`
	Chemistry     tables.Chemistry    `json:"chemistry"`
	DepthPercent  decimal.NullDecimal `json:"depth_percent"`  // unset: the shallowest design depth in the tables; 1 to 100
	BatteryC      decimal.NullDecimal `json:"battery_c"`      // coldest; -40 to 80
	ColdPercent   decimal.NullDecimal `json:"cold_percent"`   // capacity there, in place of BatteryC; 1 to 100
	AgeingPercent decimal.NullDecimal `json:"ageing_percent"` // capacity at the end of its life; unset: that of the tables; 1 to 100
	LoadA         decimal.NullDecimal `json:"load_a"`         // greatest steady discharge; 0: that limit is not asked
	LoadRateH     decimal.Decimal     `json:"load_rate_h"`    // fastest hours in which the battery may be emptied
	ChargeA       decimal.NullDecimal `json:"charger_a"`      // greatest charge current; 0: that limit is not asked
	ChargeRateH   decimal.Decimal     `json:"charge_rate_h"`  // fastest hours in which it may be filled: 10 in the worksheet
	BlockV        decimal.NullDecimal `json:"battery_v"`      // of one battery, where it is chosen; 1 to 100
	BlockAh       decimal.NullDecimal `json:"battery_ah"`
	From          working.Working     `json:"from,omitempty"`
}

// Size returns the capacity wanted, each of three limits by itself, and which
// of them governs:
//
//	C_en = E_d × N_d ÷ U_n × 100 ÷ d_u × 100 ÷ c_T × 100 ÷ a_g   energy
//	C_p = I_l × H_p × 100 ÷ c_T                     power: no faster than H_p hours
//	C_c = I_ch × H_c × 100 ÷ c_T                    charge: no faster than H_c hours
//	C_w = max(C_en, C_p, C_c)                        [Ah]
//
// and, for a block, n_s = ceil(U_n ÷ U_bn) in series and n_par = ceil(C_w ÷ C)
// strings. Each is rounded up. Energy above 0 to 1 000 000 Wh a day, days above 0
// to 365, currents 0 to 10 000 A, hours above 0 to 200 where a current is asked.
// Source: PV sizing worksheet (three limits); the shares name theirs. The worksheet
// takes nothing off for age: 100 % is a statement, and a bank so sized does not last
// its days at the end of its life.
func (s StandAlone) Size() (StandAloneSize, error) {
	if err := s.check(); err != nil {
		return StandAloneSize{}, err
	}
	w := working.Start(s.From)
	sheet := cite.PVWorksheet.At("battery", cite.Published)
	e, u, n := w.Given("E_d", s.EnergyWh), w.Given("U_n", s.SystemV), w.Given("N_d", s.Days)
	depth, err := share(&w, "d_u", s.DepthPercent, s.Chemistry, "depth_of_discharge_design", "depth_percent")
	if err != nil {
		return StandAloneSize{}, err
	}
	cold, err := s.cold(&w)
	if err != nil {
		return StandAloneSize{}, err
	}
	ageing, err := share(&w, "a_g", s.AgeingPercent, s.Chemistry, "end_of_life_capacity", "ageing_percent")
	if err != nil {
		return StandAloneSize{}, err
	}
	var z StandAloneSize
	w.Part("energy")
	million := decimal.New(1, 6)
	z.EnergyAh = w.CalcUp("C_en", "E_d × N_d × 1000000 ÷ (U_n × d_u × c_T × a_g)", e.Mul(n).Mul(million), u.Mul(depth).Mul(cold).Mul(ageing), 2, sheet)
	w.Part("power")
	i, h := w.Given("I_l", s.LoadA.Decimal), w.Given("H_p", s.LoadRateH)
	z.PowerAh = w.CalcUp("C_p", "I_l × H_p × 100 ÷ c_T", i.Mul(h).Mul(hundred), cold, 2, sheet)
	w.Part("charge")
	i, h = w.Given("I_ch", s.ChargeA.Decimal), w.Given("H_c", s.ChargeRateH)
	z.ChargeAh = w.CalcUp("C_c", "I_ch × H_c × 100 ÷ c_T", i.Mul(h).Mul(hundred), cold, 2, sheet)
	z.NeedAh = w.Calc("C_w", "max(C_en, C_p, C_c)", decimal.Max(z.EnergyAh, z.PowerAh, z.ChargeAh), sheet)
	z.Governs = z.governing()
	w.Note(z.Governs + " governs")
	s.blocks(&w, &z)
	z.Working = slices.Clip(w)
	return z, nil
}

func (z StandAloneSize) governing() string {
	switch {
	case z.NeedAh.Equal(z.EnergyAh):
		return "energy"
	case z.NeedAh.Equal(z.PowerAh):
		return "power"
	default:
		return "charge"
	}
}

// blocks adds how many blocks make the bank, where a block is chosen.
func (s StandAlone) blocks(w *working.Working, z *StandAloneSize) {
	if !s.BlockV.Valid {
		return
	}
	sheet := cite.PVWorksheet.At("battery", cite.Published)
	v := w.Given("U_bn", s.BlockV.Decimal)
	c := w.Given("C", s.BlockAh.Decimal)
	series := w.CalcUp("n_s", "U_n ÷ U_bn", s.SystemV, v, 0, sheet)
	strings := w.CalcUp("n_par", "C_w ÷ C", z.NeedAh, c, 0, sheet)
	z.Series, z.Strings = int(series.IntPart()), int(strings.IntPart())
}

func (s StandAlone) cold(w *working.Working) (decimal.Decimal, error) {
	if s.ColdPercent.Valid {
		return w.Given("c_T", s.ColdPercent.Decimal), nil
	}
	return capacityShare(w, s.Chemistry, s.BatteryC.Decimal)
}

func (s StandAlone) check() error {
	faults := []error{
		working.Above("energy_wh_a_day", s.EnergyWh, 0, 1_000_000),
		working.Between("system_v", s.SystemV, 1, 100),
		working.Above("days", s.Days, 0, 365),
		s.Chemistry.Check("chemistry"),
		betweenIf("depth_percent", s.DepthPercent, 1, 100),
		betweenIf("battery_c", s.BatteryC, -40, 80),
		betweenIf("cold_percent", s.ColdPercent, 1, 100),
		betweenIf("ageing_percent", s.AgeingPercent, 1, 100),
		checkRate("load_a", s.LoadA, "load_rate_h", s.LoadRateH),
		checkRate("charger_a", s.ChargeA, "charge_rate_h", s.ChargeRateH),
	}
	if s.BatteryC.Valid == s.ColdPercent.Valid {
		faults = append(faults, &working.InputError{Field: "cold_percent", Got: orUnset(s.ColdPercent) + " beside battery_c " + orUnset(s.BatteryC), Want: "one of both"})
	}
	if s.BlockV.Valid || s.BlockAh.Valid {
		faults = append(faults,
			working.Between("battery_v", s.BlockV.Decimal, 1, 100),
			fromTo("battery_ah", s.BlockAh.Decimal, "0.1", 5000))
	}
	return errors.Join(faults...)
}

// Backup sizes a battery for one power over one time, by the worksheets for
// uninterruptible supplies.
type Backup struct {
	PowerW            decimal.Decimal     `json:"power_w"` // output
	EfficiencyPercent decimal.Decimal     `json:"efficiency_percent"`
	TimeH             decimal.Decimal     `json:"backup_h"`
	EndCellV          decimal.Decimal     `json:"end_cell_v"` // volts a cell at the end
	Cells             int                 `json:"cells"`
	TemperatureFactor decimal.Decimal     `json:"temperature_multiplier"` // 1 at the temperature of the rating
	AgeingFactor      decimal.NullDecimal `json:"ageing_factor"`          // unset: that of UFC 3-520-01
	DesignMargin      decimal.NullDecimal `json:"design_margin"`          // unset: that of the industrial UPS worksheet
	From              working.Working     `json:"from,omitempty"`
}

// BackupSize is what a backup battery has to be.
type BackupSize struct {
	BatteryW   decimal.Decimal `json:"input_w"` // from the battery
	EndV       decimal.Decimal `json:"end_v"`
	CapacityAh decimal.Decimal `json:"need_ah"` // at the rate of the backup time
	Working    working.Working `json:"working"`
}

// Size returns the capacity at the rate of the backup time:
//
//	P_i = P × 100 ÷ η                                   [W], to 0.0001
//	U_e = U_ce × n_c                                    [V]
//	C_w = P × 100 × t_b × k_T × k_ag × k_d ÷ (η × U_e)   [Ah], rounded up to 0.01
//
// Power above 0 to 100 000 W, time above 0 to 200 h, 1 to 200 cells, cell voltage
// 0.5 to 5 V, factors 0.5 to 3. Sources: UFC 3-520-01 appendix E-2 for
// efficiency and ageing, industrial UPS worksheet for the formula and the margin.
func (b Backup) Size() (BackupSize, error) {
	if err := b.check(); err != nil {
		return BackupSize{}, err
	}
	w := working.Start(b.From)
	p, eta := w.Given("P", b.PowerW), w.Given("η", b.EfficiencyPercent)
	in := w.Calc("P_i", "P × 100 ÷ η", p.Mul(hundred).DivRound(eta, 4), cite.UFC352001.At("appendix E-2.2", cite.Published))
	cell, n := w.Given("U_ce", b.EndCellV), w.Given("n_c", whole(b.Cells))
	end := w.Calc("U_e", "U_ce × n_c", cell.Mul(n), kirchhoff)
	t := w.Given("t_b", b.TimeH)
	product := p.Mul(hundred).Mul(t)
	for _, f := range []struct {
		symbol, parameter string
		given             decimal.NullDecimal
	}{{"k_T", "", decimal.NewNullDecimal(b.TemperatureFactor)}, {"k_ag", "ageing_factor", b.AgeingFactor}, {"k_d", "design_margin", b.DesignMargin}} {
		v, err := factor(&w, f.symbol, f.parameter, f.given)
		if err != nil {
			return BackupSize{}, err
		}
		product = product.Mul(v)
	}
	need := w.CalcUp("C_w", "P × 100 × t_b × k_T × k_ag × k_d ÷ (η × U_e)", product, eta.Mul(end), 2, cite.UPSWorksheet.At("worksheet", cite.SecondHand))
	return BackupSize{BatteryW: in, EndV: end, CapacityAh: need, Working: slices.Clip(w)}, nil
}

// factor adds a factor as given, else that of the tables.
func factor(w *working.Working, symbol, parameter string, given decimal.NullDecimal) (decimal.Decimal, error) {
	if given.Valid {
		return w.Given(symbol, given.Decimal), nil
	}
	f, err := tables.SizingFigure(parameter)
	if err != nil {
		return decimal.Decimal{}, err
	}
	return w.LookUp(symbol, f), nil
}

func (b Backup) check() error {
	return errors.Join(
		working.Above("power_w", b.PowerW, 0, 100_000),
		working.Between("efficiency_percent", b.EfficiencyPercent, 1, 100),
		working.Above("backup_h", b.TimeH, 0, 200),
		fromTo("end_cell_v", b.EndCellV, "0.5", 5),
		working.Between("cells", whole(b.Cells), 1, 200),
		fromTo("temperature_multiplier", b.TemperatureFactor, "0.5", 3),
		fromToIf("ageing_factor", b.AgeingFactor, "0.5", 3),
		fromToIf("design_margin", b.DesignMargin, "0.5", 3),
	)
}

// checkRate wants a limit by current: the current, nought where it is not asked, and
// the fewest hours that the battery bears.
func checkRate(field string, amps decimal.NullDecimal, hoursField string, hours decimal.Decimal) error {
	err := stated(field, amps, 0, 10_000)
	if err == nil && amps.Decimal.IsZero() {
		return working.Between(hoursField, hours, 0, 200)
	}
	return errors.Join(err, working.Above(hoursField, hours, 0, 200))
}

// Corrections turn the capacity that a duty cycle asks for into the one to buy.
type Corrections struct {
	UncorrectedAh decimal.Decimal     `json:"uncorrected_ah"` // above 0 to 100 000
	ElectrolyteF  decimal.Decimal     `json:"electrolyte_f"`  // -100 to 200
	AgeingFactor  decimal.NullDecimal `json:"ageing_factor"`  // unset: that of UFC 3-520-01
	DesignMargin  decimal.NullDecimal `json:"design_margin"`  // unset: that of the industrial UPS worksheet
	From          working.Working     `json:"from,omitempty"`
}

// CorrectedSize is the capacity to buy.
type CorrectedSize struct {
	CapacityAh decimal.Decimal `json:"need_ah"`
	Working    working.Working `json:"working"`
}

// Size returns the corrected capacity of vented lead-acid cells:
//
//	C_w = C_un × k_T × k_d × k_ag   [Ah], rounded up to 0.01
//
// k_T is table 1 of IEEE 485 at the electrolyte's temperature in °F, 25 to 200;
// colder is [tables.ErrOutside]. Source: IEEE 485 clause 6.2 (from memory).
func (c Corrections) Size() (CorrectedSize, error) {
	if err := errors.Join(
		working.Above("uncorrected_ah", c.UncorrectedAh, 0, 100_000),
		working.Between("electrolyte_f", c.ElectrolyteF, -100, 200),
		fromToIf("ageing_factor", c.AgeingFactor, "0.5", 3),
		fromToIf("design_margin", c.DesignMargin, "0.5", 3),
	); err != nil {
		return CorrectedSize{}, err
	}
	w := working.Start(c.From)
	product := w.Given("C_un", c.UncorrectedAh)
	w.Given("T_F", c.ElectrolyteF)
	f, err := tables.CellSizeFactor(c.ElectrolyteF)
	if err != nil {
		return CorrectedSize{}, err
	}
	product = product.Mul(w.LookUp("k_T", f))
	margin, err := factor(&w, "k_d", "design_margin", c.DesignMargin)
	if err != nil {
		return CorrectedSize{}, err
	}
	ageing, err := factor(&w, "k_ag", "ageing_factor", c.AgeingFactor)
	if err != nil {
		return CorrectedSize{}, err
	}
	need := w.CalcUp("C_w", "C_un × k_T × k_d × k_ag", product.Mul(margin).Mul(ageing), one, 2, cite.IEEE485.At("6.2", cite.FromMemory))
	return CorrectedSize{CapacityAh: need, Working: slices.Clip(w)}, nil
}
