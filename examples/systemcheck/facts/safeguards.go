package facts

import (
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Due is what the set asks where an inspector looks for a safeguard, and where it says
// nothing what the trade itself does; then no set is named.
func (m *Facts) Due(of func(tables.SafeguardRule) working.Figure) (working.Figure, string) {
	if own := of(m.Set.Guards); own.Stated() {
		return own, m.Set.Name
	}
	return of(tables.SafeguardPractice()), ""
}

func Counted(there bool) decimal.Decimal {
	if there {
		return One
	}
	return decimal.Zero
}

const Unstated = "unstated"
