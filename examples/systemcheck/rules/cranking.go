package rules

import (
	"slices"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// crankedHeat asks of each run on any way to an engine's starter how hot it is
// after it was cranked for as long as a battery is rated for: no fuse need guard
// it, so that the copper has to bear it.
func crankedHeat(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, l := range m.StarterMotors() {
		for _, r := range m.Cranked(l) {
			f := Finding{Where: r.Name + whileCranked, Path: r.Path, RuleSet: m.Set.Name, Corner: cranks()}
			var err error
			if f.Check, err = crankedFor(m, r, l); err != nil {
				return nil, working.In(r.Path, err)
			}
			all = append(all, f)
		}
	}
	return all, nil
}

func crankedFor(m *facts.Facts, r *facts.Run, l job.Load) (working.Check, error) {
	if r.NoAmps != nil {
		return working.Check{ID: "W01", Missing: noAmpacityText}, nil
	}
	area, err := r.Size.Area()
	if err != nil {
		return working.Check{}, err
	}
	drawn, _ := m.Cranking(l).Value("I_sg")
	each := drawn.DivRound(decimal.NewFromInt(int64(r.Sharing())), 9).RoundCeil(2)
	t, err := wire.Overload{Ampacity: r.One, AreaMM2: area.Value, CurrentA: each}.Temperature(facts.CranksFor())
	if err != nil {
		return working.Check{}, err
	}
	w := slices.Clone(t.Working)
	w.Given("T_r", r.InsulationC)
	return w.Check("W01", "", "T_c", "T_r"), nil
}
