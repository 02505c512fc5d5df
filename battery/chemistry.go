package battery

import "strings"

// wantsManagement reports whether the battery cannot be without protection of its
// own.
func (x BankBattery) wantsManagement() bool {
	c := x.Chemistry
	return !strings.HasPrefix(c, "lead-acid") && c != "NiCd" && c != "NiMH"
}

// cranks reports whether the battery is of the kind that cranking ratings are for,
// and the share of its cold resistance that it has warm.
func (x BankBattery) cranks() bool { return strings.HasPrefix(x.Chemistry, "lead-acid") }

// fallsWithRate reports whether the battery gives less charge the faster it is
// drawn.
func (x BankBattery) fallsWithRate() bool { return !x.wantsManagement() }
