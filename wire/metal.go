package wire

import (
	"errors"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// KnownResistance is a resistance known at one temperature and wanted at another.
type KnownResistance struct {
	Metal        string              `json:"metal"` // copper or aluminium
	MilliohmPerM decimal.Decimal     `json:"known_mohm_per_m"`
	KnownC       decimal.NullDecimal `json:"known_c"`        // where it is known
	ConductorC   decimal.NullDecimal `json:"conductor_c"`    // where it is wanted
	PerK         decimal.NullDecimal `json:"per_k"`          // coefficient at AtC; unset: from the metal's temperature of zero resistance
	From         working.Working     `json:"from,omitempty"` // the lines that gave MilliohmPerM
}

// Resistance returns the resistance at the other temperature:
//
//	R_T = R_1 × (T_0 + T_c) ÷ (T_0 + T_1)     [mΩ/m], to 0.0001
//	R_T = R_1 × (1 + α_1 × (T_c − T_1))       with a coefficient stated
//
// T_0 is 234.5 °C for copper and 228.1 °C for aluminium; FAA AC 43.13-1B prints
// 238.1 for aluminium, which does not follow from its coefficient. Resistance
// above 0 to 1 000 000 mΩ/m, temperatures -60 to 250 °C, coefficient 0 to 1.
// Sources: IEC 60028, IEC 60889; FAA AC 43.13-1B 11-66d(4).
func (r KnownResistance) Resistance() (Resistance, error) {
	if err := r.check(); err != nil {
		return Resistance{}, err
	}
	w := working.Start(r.From)
	r1, t1, tc := w.Given("R_1", r.MilliohmPerM), w.Given("T_1", r.KnownC.Decimal), w.Given("T_c", r.ConductorC.Decimal)
	if r.PerK.Valid {
		a := w.Given("α_1", r.PerK.Decimal)
		rT := r1.Mul(one.Add(a.Mul(tc.Sub(t1)))).Round(4)
		w.Calc("R_T", "R_1 × (1 + α_1 × (T_c − T_1))", rT, cite.NFPA70.At("chapter 9 table 8 note 2", cite.FromMemory))
		return Resistance{rT, slices.Clip(w)}, nil
	}
	rT, err := warmed(&w, r.Metal, "R_1", "T_1")
	return Resistance{rT, slices.Clip(w)}, err
}

func (r KnownResistance) check() error {
	return errors.Join(
		working.OneOf("metal", r.Metal, "copper", "aluminium"),
		working.Above("known_mohm_per_m", r.MilliohmPerM, 0, 1_000_000),
		checkStated("known_c", r.KnownC, -60, hottest),
		checkStated("conductor_c", r.ConductorC, -60, hottest),
		checkOptional("per_k", r.PerK, 0, 1),
	)
}

// warmed adds the lines that bring a resistance from its temperature to T_c.
func warmed(w *working.Working, metal, resistance, at string) (decimal.Decimal, error) {
	zero, err := tables.Material(metal, "zero_resistance_constant")
	if err != nil {
		return decimal.Zero, err
	}
	r, _ := w.Value(resistance)
	t1, _ := w.Value(at)
	tc, _ := w.Value("T_c")
	t0 := w.LookUp("T_0", zero)
	rT := r.Mul(t0.Add(tc)).DivRound(t0.Add(t1), 4)
	formula := resistance + " × (T_0 + T_c) ÷ (T_0 + " + at + ")"
	return w.Calc("R_T", formula, rT, cite.AC4313.At("11-66d(4)", cite.Published)), nil
}

// SolidConductor is a bar or wire of one metal.
type SolidConductor struct {
	Metal       string              `json:"metal"`                     // copper or aluminium
	AreaMM2     decimal.Decimal     `json:"area_mm2"`                  // of metal
	Resistivity decimal.NullDecimal `json:"resistivity_ohm_mm2_per_m"` // at 20 °C; unset: that of the metal
	ConductorC  decimal.NullDecimal `json:"conductor_c"`
	From        working.Working     `json:"from,omitempty"` // the lines that gave AreaMM2
}

// Resistance returns the resistance of one metre from resistivity and area:
//
//	R_20 = ρ_20 ÷ S × 1000                    [mΩ/m], to 0.000001
//	R_T  = R_20 × (T_0 + T_c) ÷ (T_0 + 20)    [mΩ/m], to 0.0001
//
// It is the least that a conductor of that area can have: what a standard
// allows lies above it, by stranding and tolerance. Area 0.001 to 10 000 mm²,
// resistivity above 0 to 10 Ω mm²/m, temperature -60 to 250 °C. Sources:
// resistivity as shown, FAA AC 43.13-1B 11-66d(4) for the temperature.
func (s SolidConductor) Resistance() (Resistance, error) {
	err := errors.Join(
		working.OneOf("metal", s.Metal, "copper", "aluminium"),
		checkFrom("area_mm2", s.AreaMM2, leastArea, 10_000),
		checkAbove("resistivity_ohm_mm2_per_m", s.Resistivity, 10),
		checkStated("conductor_c", s.ConductorC, -60, hottest),
	)
	if err != nil {
		return Resistance{}, err
	}
	w := working.Start(s.From)
	rho, err := s.resistivity(&w)
	if err != nil {
		return Resistance{}, err
	}
	area := w.Given("S", s.AreaMM2)
	w.Calc("R_20", "ρ_20 × 1000 ÷ S", rho.Shift(3).DivRound(area, 6), ohm)
	w.Given("T_ref", decimal.NewFromInt(20))
	w.Given("T_c", s.ConductorC.Decimal)
	r, err := warmed(&w, s.Metal, "R_20", "T_ref")
	return Resistance{r, slices.Clip(w)}, err
}

func (s SolidConductor) resistivity(w *working.Working) (decimal.Decimal, error) {
	if s.Resistivity.Valid {
		return w.Given("ρ_20", s.Resistivity.Decimal), nil
	}
	f, err := tables.Material(s.Metal, "resistivity_20c")
	if err != nil {
		return decimal.Zero, err
	}
	return w.LookUp("ρ_20", f), nil
}
