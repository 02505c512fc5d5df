package facts

import (
	"example.org/extralow/charge"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"github.com/shopspring/decimal"
)

// servedC is the coldest that the house bank gets while it serves.
func (m *Facts) servedC() decimal.Decimal {
	if m.Job.BankC.Valid {
		return m.Job.BankC.Decimal
	}
	return m.Job.ColdestC
}

// servedBy is the coldest that a battery gets while it serves: bank_c speaks of the
// house bank alone.
func (m *Facts) servedBy(b job.Battery) decimal.Decimal {
	if m.IsHouse(b.Name) {
		return m.servedC()
	}
	return m.Job.ColdestC
}

// StoodC is the coldest that a battery gets at all, parked too.
func (m *Facts) StoodC(b job.Battery) decimal.Decimal {
	return decimal.Min(m.Job.ColdestC, m.servedBy(b))
}

// BeginsC is the coldest that a battery may be when a charge begins. Lithium is
// harmed by the first minutes of it, so that it counts as cold as it has stood;
// lead-acid only takes less until it is warm.
func (m *Facts) BeginsC(b job.Battery) decimal.Decimal {
	if b.Chemistry.Has(tables.HarmedByColdCharge) {
		return m.StoodC(b)
	}
	return m.servedBy(b)
}

// OutsideC is the coldest air over the roof.
func (m *Facts) OutsideC() decimal.Decimal {
	if m.Job.OutsideC.Valid {
		return m.Job.OutsideC.Decimal
	}
	return m.Job.ColdestC
}

// TooCold says what to do where the house bank takes no charge at the coldest
// that it serves at; "" where it takes one, or nothing charges it.
func (m *Facts) TooCold(bank charge.BatteryOnCharge) (string, error) {
	if !m.Charges(m.Banks[0]) {
		return "", nil
	}
	takes, err := bank.Acceptance(decimal.Zero)
	if err != nil || takes.CurrentA.IsPositive() {
		return "", err
	}
	return "heat the bank, or measure with a thermometer on a case how warm it gets while it is charged, and state that as bank_c: at " +
		bank.BatteryC.String() + " °C no charge goes in", nil
}
