package paper

import (
	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/rules"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// audit is the load audit in JSON.
type audit struct {
	EnergyWh  decimal.Decimal `json:"energy_wh_a_day"`
	ChargeAh  decimal.Decimal `json:"charge_ah_a_day"`
	Loads     []load          `json:"loads"`
	Idle      []idle          `json:"idle,omitempty"`
	Elsewhere []string        `json:"elsewhere,omitempty"`
	ParkedW   decimal.Decimal `json:"parked_w"`
	ParkedA   decimal.Decimal `json:"parked_a"`
	ParkedWh  decimal.Decimal `json:"parked_wh"`
	Working   working.Working `json:"working"`
}

type load struct {
	Name         string           `json:"name"`
	PowerW       *decimal.Decimal `json:"power_w,omitempty"`
	CurrentA     *decimal.Decimal `json:"current_a,omitempty"`
	HoursADay    decimal.Decimal  `json:"hours_a_day"`
	DutyPercent  decimal.Decimal  `json:"duty_percent"`
	StandbyW     *decimal.Decimal `json:"standby_w,omitempty"`
	SurgeW       *decimal.Decimal `json:"surge_w,omitempty"`
	Inverter     string           `json:"inverter,omitempty"`
	Class        string           `json:"class"`
	MustRun      bool             `json:"must_run"`
	EnergyWh     decimal.Decimal  `json:"load_wh"`
	SharePercent decimal.Decimal  `json:"share_percent"`
	RunsA        decimal.Decimal  `json:"load_a"`
	StartA       decimal.Decimal  `json:"start_a"`
	AloneH       *decimal.Decimal `json:"time_h,omitempty"`
	TooFast      bool             `json:"faster_than_rated,omitempty"`
	Working      working.Working  `json:"working,omitempty"`
}

type idle struct {
	Name         string          `json:"name"`
	IdleW        decimal.Decimal `json:"idle_w"`
	OnHours      decimal.Decimal `json:"inverter_on_h"`
	EnergyWh     decimal.Decimal `json:"inverter_idle_wh"`
	SharePercent decimal.Decimal `json:"idle_share_percent"`
}

// bank is the house bank in JSON: what it gives, how large it should be, how it
// is filled and how it fares.
type bank struct {
	CapacityAh   decimal.Decimal  `json:"capacity_ah"`
	UsableWh     *decimal.Decimal `json:"usable_wh,omitempty"`
	LastsDays    *decimal.Decimal `json:"days_lasting,omitempty"`
	Missing      string           `json:"missing,omitempty"`
	Size         sizing           `json:"size"`
	Refills      []refill         `json:"states,omitempty"`
	Sources      []refill         `json:"sources,omitempty"`
	Whole        bool             `json:"times_from_empty,omitempty"`
	Sun          []sunDay         `json:"sun,omitempty"`
	RulesState   string           `json:"rules_of_thumb_state,omitempty"`
	RulesOfThumb []ruleOfThumb    `json:"rules_of_thumb,omitempty"`
	Months       []month          `json:"months,omitempty"`
}

type sizing struct {
	Missing     string           `json:"missing,omitempty"`
	DischargeA  *decimal.Decimal `json:"load_a,omitempty"`
	DischargeIn string           `json:"load_case,omitempty"`
	ChargeA     *decimal.Decimal `json:"charger_a,omitempty"`
	ChargeIn    string           `json:"charger_case,omitempty"`
	Batteries   int              `json:"batteries"`
	Worksheets  []worksheet      `json:"worksheets,omitempty"`
	Sag         *sag             `json:"sag,omitempty"`
}

type worksheet struct {
	NeedAh      decimal.Decimal `json:"need_ah"`
	EnergyAh    decimal.Decimal `json:"for_energy_ah"`
	PowerAh     decimal.Decimal `json:"for_power_ah"`
	ChargeAh    decimal.Decimal `json:"for_charge_ah"`
	Governs     string          `json:"governs"`
	LoadRateH   decimal.Decimal `json:"load_rate_h"`
	ChargeRateH decimal.Decimal `json:"charge_rate_h"`
	OwnRate     bool            `json:"own_charge_rate"`
	Batteries   int             `json:"batteries,omitempty"`
	Working     working.Working `json:"working"`
}

// sag names the tightest finding about volts, which stands among the findings.
type sag struct {
	ID      string          `json:"id"`
	Where   string          `json:"where"`
	Verdict working.Verdict `json:"verdict"`
}

type refill struct {
	Name    string           `json:"name"`
	TimeH   *decimal.Decimal `json:"charge_time_h"` // null: never
	Working working.Working  `json:"working,omitempty"`
}

type sunDay struct {
	Name     string          `json:"name"`
	Month    string          `json:"month"`
	ChargeAh decimal.Decimal `json:"solar_ah"`
	Working  working.Working `json:"working"`
}

type ruleOfThumb struct {
	Rule    string          `json:"rule"`
	TimeH   decimal.Decimal `json:"refill_h"`
	Working working.Working `json:"working"`
}

type month struct {
	Month         string          `json:"month,omitempty"`
	Weeks         int             `json:"weeks"`
	LowestPercent decimal.Decimal `json:"least_percent"`
	EndPercent    decimal.Decimal `json:"end_percent"`
	ShedH         decimal.Decimal `json:"shed_h"`
	Verdict       working.Verdict `json:"verdict"`
}

// stated is a value for JSON, nothing where it is unset.
func stated(v decimal.NullDecimal) *decimal.Decimal {
	if !v.Valid {
		return nil
	}
	return &v.Decimal
}

func jsonAudit(a facts.Audit) audit {
	j := audit{
		EnergyWh: a.EnergyWh, ChargeAh: a.ChargeAh, Elsewhere: a.Elsewhere,
		ParkedW: a.ParkedW, ParkedA: a.ParkedA, ParkedWh: a.ParkedWh, Working: a.Working,
	}
	for _, l := range a.Loads {
		j.Loads = append(j.Loads, load{
			Name: l.Load, PowerW: stated(l.PowerW), CurrentA: stated(l.CurrentA), HoursADay: l.HoursADay, DutyPercent: l.DutyPercent,
			StandbyW: stated(l.StandbyW), SurgeW: stated(l.SurgeW), Inverter: l.Inverter, Class: l.Class, MustRun: l.MustRun,
			EnergyWh: l.EnergyWh, SharePercent: l.SharePercent, RunsA: l.RunsA, StartA: l.StartA,
			AloneH: stated(l.AloneH), TooFast: l.TooFast, Working: l.Working,
		})
	}
	for _, v := range a.Idle {
		j.Idle = append(j.Idle, idle{v.Inverter, v.IdleW, v.OnHours, v.EnergyWh, v.SharePercent})
	}
	return j
}

func jsonBank(r Report) bank {
	j := bank{
		CapacityAh: r.Bank.CapacityAh, Missing: r.Bank.Missing, Size: jsonSize(r.Sizing),
		Whole: r.Charging.Whole, RulesState: r.Charging.State,
	}
	if r.Bank.Missing == "" {
		j.UsableWh, j.LastsDays = &r.Bank.UsableWh, &r.Bank.LastsDays
	}
	for _, f := range r.Bank.Refills {
		j.Refills = append(j.Refills, refill{f.State, stated(f.TimeH), nil})
	}
	for _, s := range r.Charging.Sources {
		j.Sources = append(j.Sources, refill{s.Source, stated(s.TimeH), s.Working})
	}
	for _, s := range r.Charging.Sun {
		j.Sun = append(j.Sun, sunDay{s.Array, s.Month, s.ChargeAh, s.Working})
	}
	for _, t := range r.Charging.Rules {
		j.RulesOfThumb = append(j.RulesOfThumb, ruleOfThumb{t.Rule, t.TimeH, t.Working})
	}
	for _, m := range r.Months {
		j.Months = append(j.Months, month{m.Month, m.Weeks, m.LowestPercent, m.EndPercent, m.ShedH, m.Verdict})
	}
	return j
}

func jsonSize(z rules.Sizing) sizing {
	j := sizing{Missing: z.Missing, Batteries: z.Fitted, DischargeIn: z.DischargeIn, ChargeIn: z.ChargeIn}
	if z.Missing == "" {
		j.DischargeA, j.ChargeA = &z.DischargeA, &z.ChargeA
	}
	for _, x := range z.Worksheets {
		j.Worksheets = append(j.Worksheets, worksheet{
			x.NeedAh, x.EnergyAh, x.PowerAh, x.ChargeAh, x.Governs, x.LoadRateH, x.ChargeRateH, x.OwnRate, x.Batteries, x.Working,
		})
	}
	if z.Sag.ID != "" {
		j.Sag = &sag{z.Sag.ID, z.Sag.Where, z.Sag.Verdict()}
	}
	return j
}
