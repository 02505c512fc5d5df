package facts

import (
	"slices"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Audit is what a day takes from the house bank, load by load.
type Audit struct {
	Loads     []LoadAudit // in the order of the job
	Idle      []IdleAudit // inverters that are on without load
	Elsewhere []string    // loads that another battery feeds
	EnergyWh  decimal.Decimal
	ChargeAh  decimal.Decimal // at the nominal voltage
	ParkedW   decimal.Decimal // drawn while nothing is used, through what no switch cuts off
	ParkedA   decimal.Decimal
	ParkedWh  decimal.Decimal // in a day of standing
	Working   working.Working // of everything but the hours
}

// LoadAudit is one load. Power or current is set, as the job states it.
type LoadAudit struct {
	Load         string
	PowerW       decimal.NullDecimal
	CurrentA     decimal.NullDecimal
	HoursADay    decimal.Decimal
	DutyPercent  decimal.Decimal
	StandbyW     decimal.NullDecimal // through the rest of the day; counted in EnergyWh
	Inverter     string              // that feeds it; its loss is counted in EnergyWh
	EnergyWh     decimal.Decimal     // a day, from the bank
	SharePercent decimal.Decimal     // of the energy of the day
	Class        string              // "always on", "continuous" or "intermittent"
	MustRun      bool                // the last to be switched off
	SurgeW       decimal.NullDecimal // while it starts, where the job states it
	RunsA        decimal.Decimal     // from the bank at its lowest voltage
	StartA       decimal.Decimal     // the same while it starts
	AloneH       decimal.NullDecimal // hours that the usable bank runs nothing else; unset: not known, or it draws nothing
	TooFast      bool                // it empties lead-acid faster than that is rated at: AloneH promises too much
	Working      working.Working     // of AloneH
}

// IdleAudit is what an inverter takes for itself.
type IdleAudit struct {
	Inverter     string
	IdleW        decimal.Decimal
	OnHours      decimal.Decimal // a day
	EnergyWh     decimal.Decimal
	SharePercent decimal.Decimal
}

// AuditInFull gathers what the loads take, one by one.
func (m *Facts) AuditInFull() (Audit, error) {
	sum, err := m.Audit()
	if err != nil {
		return Audit{}, err
	}
	shares, err := sum.Shares()
	if err != nil {
		return Audit{}, err
	}
	a := Audit{
		EnergyWh: sum.EnergyWh, ChargeAh: sum.ChargeAh,
		ParkedW: sum.ParkedW, ParkedA: sum.ParkedA, ParkedWh: shares.ParkedWh, Working: shares.Working,
	}
	for _, l := range m.Job.Loads {
		if !m.OfHouse(l.Node()) || l.Cranking {
			a.Elsewhere = append(a.Elsewhere, l.Name)
		}
	}
	for n, l := range m.onHouse() {
		one := LoadAudit{
			Load: l.Name, PowerW: l.PowerW, CurrentA: l.CurrentA, HoursADay: l.HoursADay, DutyPercent: l.Percent,
			StandbyW: l.StandbyW, Inverter: l.Inverter, Class: m.class(l.Load), MustRun: l.MustRun, SurgeW: l.SurgeW,
			EnergyWh: sum.Loads[n].EnergyWh, RunsA: sum.Loads[n].CurrentA, StartA: sum.Loads[n].StartA,
			SharePercent: shares.Loads[n].SharePercent,
		}
		if err := m.alone(l.Load, &one); err != nil {
			return a, working.In(l.path, err)
		}
		a.Loads = append(a.Loads, one)
	}
	for _, inv := range m.Job.Inverters {
		if !m.OfHouse(inv.Name) {
			continue
		}
		n := len(a.Idle)
		a.Idle = append(a.Idle, IdleAudit{inv.Name, inv.IdleW, m.hoursOn(inv), sum.Idle[n].EnergyWh, shares.Idle[n].SharePercent})
	}
	return a, nil
}

// class says how a load draws, by what the job states of it.
func (m *Facts) class(l job.Load) string {
	switch {
	case l.HoursADay.Equal(DayH):
		return "always on"
	case m.brief(l):
		return "intermittent"
	}
	return "continuous"
}

// DayH is the hours of a day.
var DayH = decimal.NewFromInt(24)

// alone works out how long the usable bank runs one load and nothing else: the
// mean power of a day on which it is on throughout, at its duty, with the
// inverter that feeds it.
func (m *Facts) alone(l job.Load, into *LoadAudit) error {
	only := *m
	only.Job.Loads, only.Job.Chargers = []job.Load{l}, nil
	only.Job.Inverters = slices.DeleteFunc(slices.Clone(m.Job.Inverters), func(v job.Inverter) bool { return v.Name != l.Inverter })
	sum, err := only.auditOf(
		func(job.Load) decimal.Decimal { return DayH },
		func(job.Inverter) decimal.Decimal { return DayH })
	if err != nil {
		return err
	}
	w := working.Start(sum.Working)
	mean := w.Calc("P", "ceil(E_d ÷ 24 × 100) ÷ 100", sum.EnergyWh.DivRound(DayH, 12).RoundCeil(2), Sums)
	w.Note("mean of a day")
	bank := m.bank()
	bank.From = w
	if _, known, err := m.usable(); !known || !mean.IsPositive() {
		return err
	}
	runs, err := bank.Runtime(mean)
	if err != nil {
		return err
	}
	into.AloneH, into.Working = decimal.NewNullDecimal(runs.TimeH), runs.Working
	into.TooFast = m.fasterThanRated(into.RunsA)
	return nil
}

// fasterThanRated reports whether a current is more than that of the rated
// hours, of a lead-acid bank at the end of its life: it gives less then.
func (m *Facts) fasterThanRated(currentA decimal.Decimal) bool {
	return slices.ContainsFunc(m.House(), func(b job.Battery) bool { // I × H > C × a_g
		return b.Chemistry.Has(tables.FallsWithRate) && currentA.Mul(b.RatedH).GreaterThan(m.BankAh().Mul(b.AgeingPercent).Shift(-2))
	})
}
