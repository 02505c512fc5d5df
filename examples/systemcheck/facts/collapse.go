package facts

import (
	"slices"
)

// Collapsed reports whether any case has no operating point.
func (m *Facts) Collapsed() bool {
	return slices.ContainsFunc(m.Cases, func(c Solved) bool { return c.CollapsedAt() != "" })
}
