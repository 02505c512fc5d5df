package inspect

import (
	"example.org/extralow/charge"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"github.com/shopspring/decimal"
)

// servedC is the coldest that the house bank gets while it serves.
func (m *model) servedC() decimal.Decimal {
	if m.job.BankC.Valid {
		return m.job.BankC.Decimal
	}
	return m.job.ColdestC
}

// servedBy is the coldest that a battery gets while it serves: bank_c speaks of the
// house bank alone.
func (m *model) servedBy(b job.Battery) decimal.Decimal {
	if m.isHouse(b.Name) {
		return m.servedC()
	}
	return m.job.ColdestC
}

// stoodC is the coldest that a battery gets at all, parked too.
func (m *model) stoodC(b job.Battery) decimal.Decimal {
	return decimal.Min(m.job.ColdestC, m.servedBy(b))
}

// beginsC is the coldest that a battery may be when a charge begins. Lithium is
// harmed by the first minutes of it, so that it counts as cold as it has stood;
// lead-acid only takes less until it is warm.
func (m *model) beginsC(b job.Battery) decimal.Decimal {
	if b.Chemistry.Has(tables.HarmedByColdCharge) {
		return m.stoodC(b)
	}
	return m.servedBy(b)
}

// outsideC is the coldest air over the roof.
func (m *model) outsideC() decimal.Decimal {
	if m.job.OutsideC.Valid {
		return m.job.OutsideC.Decimal
	}
	return m.job.ColdestC
}

// tooCold says what to do where the house bank takes no charge at the coldest
// that it serves at; "" where it takes one, or nothing charges it.
func (m *model) tooCold(bank charge.BatteryOnCharge) (string, error) {
	if !m.charges(m.banks[0]) {
		return "", nil
	}
	takes, err := bank.Acceptance(decimal.Zero)
	if err != nil || takes.CurrentA.IsPositive() {
		return "", err
	}
	return "heat the bank, or measure with a thermometer on a case how warm it gets while it is charged, and state that as bank_c: at " +
		bank.BatteryC.String() + " °C no charge goes in", nil
}
