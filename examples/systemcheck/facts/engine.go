package facts

import (
	"slices"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// CrankedOn lays the drops down to a starter out that some batteries alone turn, nearly
// empty and aged; where no voltage holds, nothing is left there.
func (m *Facts) CrankedOn(l job.Load, on map[string]bool) (working.Working, error) {
	n := wire.Network{Loads: []wire.NodeLoad{{Name: l.Name, Node: l.At}}}
	drawn, _ := m.Cranking(l).Value("I_sg")
	n.Loads[0].CurrentA = decimal.NewNullDecimal(drawn)
	for _, r := range m.Runs {
		if m.Joined(r.From, l.At) && m.Joined(r.To, l.At) {
			n.Branches = append(n.Branches, wire.Branch{Name: r.Name, From: r.From, To: r.To, Milliohm: r.HotMilliohm})
		}
	}
	for _, b := range m.Job.Batteries {
		if on[b.Name] {
			n.Sources = append(n.Sources, wire.NodeSource{Name: b.Name, Node: b.Name, EMFV: b.EmptyV, Milliohm: m.High(b)})
		}
	}
	s, err := n.Solve()
	if err != nil {
		return nil, err
	}
	if s.CollapsedAt == "" {
		ladder, err := s.Ladder(l.At)
		return working.Start(ladder.Working), err
	}
	var w working.Working
	w.Calc("U_L", "0", decimal.Zero, cite.Kirchhoff.At("", cite.Published))
	w.Note("no voltage holds: the starter asks more than the batteries can give")
	return w, nil
}

// TurnsAt adds the least voltage at which a starter cranks: its own, or that to which
// SAE J537 lets a battery of 12 V sink while it cranks.
func (m *Facts) TurnsAt(w *working.Working, own decimal.NullDecimal) decimal.Decimal {
	if own.Valid {
		return w.Given("U_lo", own.Decimal)
	}
	test, err := tables.CrankingTestOf("SAE CCA")
	end := w.LookUp("U_e", working.Figure{Value: Tabled(test.EndV, err), Source: test.EndV.Source, Note: "of a battery of 12 V"})
	return w.Calc("U_lo", "U_e × U_n ÷ 12", end.Mul(w.Given("U_n", m.Job.SystemV)).DivRound(decimal.NewFromInt(12), 9), test.EndV.Source)
}

// Carrying is a path on which every run carries the same.
func Carrying(path []*Run, a decimal.Decimal) []decimal.Decimal {
	return slices.Repeat([]decimal.Decimal{a}, len(path))
}

// RestedAt is the voltage of the battery at the end of a path, full and at rest.
func (m *Facts) RestedAt(node string, path []*Run) decimal.Decimal {
	for _, r := range path {
		node = r.OtherEnd(node)
	}
	i := slices.IndexFunc(m.Job.Batteries, func(b job.Battery) bool { return b.Name == node })
	return m.Job.Batteries[i].FullV
}
