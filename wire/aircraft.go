package wire

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// AircraftBundle is one wire of an aircraft bundle, by the manner of FAA AC 43.13-1B.
type AircraftBundle struct {
	FreeAirA       decimal.Decimal     `json:"free_air_a"` // one wire in free air, read off figure 11-4
	Wires          int                 `json:"wires"`
	LoadingPercent decimal.Decimal     `json:"loading_percent"` // share of all wires' capacity in use
	AltitudeM      decimal.NullDecimal `json:"altitude_m"`      // 0 at sea level
	BundleFactor   decimal.NullDecimal `json:"bundle_factor"`   // read off figure 11-6; unset: the table
	AltitudeFactor decimal.NullDecimal `json:"altitude_factor"` // read off figure 11-5; unset: that of the altitude
}

// GreatestCurrent returns what the wire may carry in its bundle:
//
//	I_w = I_fa × k_bu × k_al      [A]
//
// Free-air current above 0 to 1000 A, 1 to 100 wires (19 in the table),
// loading above 0 to 100 %, altitude 0 to 18 288 m, factors above 0 to 1.
// Source: FAA AC 43.13-1B 11-66 to 11-69; bundle factors of MIL-W-5088L.
func (b AircraftBundle) GreatestCurrent() (Current, error) {
	if err := b.check(); err != nil {
		return Current{}, err
	}
	var w working.Working
	i := w.Given("I_fa", b.FreeAirA)
	bundle, err := factorOr(&w, "k_bu", b.BundleFactor, func() (working.Figure, error) {
		return tables.BundleFactor(b.Wires, b.LoadingPercent)
	})
	if err != nil {
		return Current{}, err
	}
	current, formula := i.Mul(bundle), "I_fa × k_bu"
	if b.AltitudeFactor.Valid || b.AltitudeM.Decimal.IsPositive() {
		altitude, err := factorOr(&w, "k_al", b.AltitudeFactor, func() (working.Figure, error) {
			return tables.AltitudeFactor(b.AltitudeM.Decimal)
		})
		if err != nil {
			return Current{}, err
		}
		current, formula = current.Mul(altitude), formula+" × k_al"
	}
	w.Calc("I_w", formula, current, cite.AC4313.At("11-67", cite.Published))
	return Current{current, slices.Clip(w)}, nil
}

// factorOr takes the factor that the reader states, else looks it up.
func factorOr(w *working.Working, symbol string, stated decimal.NullDecimal, look func() (working.Figure, error)) (decimal.Decimal, error) {
	if stated.Valid {
		return w.Given(symbol, stated.Decimal), nil
	}
	f, err := look()
	if err != nil {
		return decimal.Zero, err
	}
	return w.LookUp(symbol, f), nil
}

func (b AircraftBundle) check() error {
	altitude := checkOptional("altitude_m", b.AltitudeM, 0, 18_288)
	if !b.AltitudeFactor.Valid {
		altitude = checkStated("altitude_m", b.AltitudeM, 0, 18_288)
	}
	return errors.Join(
		working.Above("free_air_a", b.FreeAirA, 0, 1000),
		working.Between("wires", decimal.NewFromInt(int64(b.Wires)), 1, 100),
		working.Above("loading_percent", b.LoadingPercent, 0, 100),
		altitude,
		checkAbove("bundle_factor", b.BundleFactor, 1),
		checkAbove("altitude_factor", b.AltitudeFactor, 1),
	)
}

// HarnessWires is so many wires of a harness with one current each.
type HarnessWires struct {
	Wires    int             `json:"wires"`
	CurrentA decimal.Decimal `json:"current_a"` // of each
}

// HarnessCurrent returns what a harness carries in all when a share of what its
// wires could carry is in use:
//
//	I_hs = (n_k1 × I_w1 + n_k2 × I_w2 + ...) × p_l ÷ 100      [A]
//
// 1 to 20 kinds of wire. Source: FAA AC 43.13-1B 11-69.
// Above 0 to 1000 A and 1 to 1000 wires of a kind, loading above 0 to 100 %.
func HarnessCurrent(loadingPercent decimal.Decimal, kinds ...HarnessWires) (Current, error) {
	faults := []error{
		working.Above("loading_percent", loadingPercent, 0, 100),
		working.Between("kinds", decimal.NewFromInt(int64(len(kinds))), 1, 20),
	}
	for i, k := range kinds {
		faults = append(faults, working.In(fmt.Sprintf("kinds[%d]", i), errors.Join(
			working.Between("wires", decimal.NewFromInt(int64(k.Wires)), 1, 1000), working.Above("current_a", k.CurrentA, 0, 1000))))
	}
	if err := errors.Join(faults...); err != nil {
		return Current{}, err
	}
	var w working.Working
	sum, terms := decimal.Zero, []string{}
	for i, k := range kinds {
		n, a := fmt.Sprintf("n_k.%d", i+1), fmt.Sprintf("I_w.%d", i+1)
		sum = sum.Add(w.Given(n, decimal.NewFromInt(int64(k.Wires))).Mul(w.Given(a, k.CurrentA)))
		terms = append(terms, n+" × "+a)
	}
	p := w.Given("p_l", loadingPercent)
	total := w.Calc("I_hs", "("+strings.Join(terms, " + ")+") × p_l ÷ 100", sum.Mul(p).Shift(-2), cite.AC4313.At("11-69", cite.FromMemory))
	return Current{total, slices.Clip(w)}, nil
}

// AircraftWire is a wire in a bundle and the most that it may carry there.
type AircraftWire struct {
	AmbientC    decimal.NullDecimal `json:"ambient_c"`
	InsulationC decimal.Decimal     `json:"insulation_c"`
	CurrentA    decimal.Decimal     `json:"current_a"`
	GreatestA   decimal.Decimal     `json:"ampacity_a"`
}

// Temperature estimates how hot the wire is by the manner of FAA AC 43.13-1B:
//
//	T_c = T_a + (T_r − T_a) × √(I ÷ I_z)      [°C], to 0.1
//
// The root in place of the square of [Ampacity.Temperature] makes it hotter
// below the rating and cooler above it, where it must not be used: current above 0 to
// the most it may carry, which is above 0 to 1000 A. Ambient -60 to 250 °C,
// rating above it to 260 °C. Source: FAA AC 43.13-1B 11-66d(6).
func (a AircraftWire) Temperature() (Temperature, error) {
	err := errors.Join(
		checkStated("ambient_c", a.AmbientC, -60, 250),
		working.Between("insulation_c", a.InsulationC, -60, 260),
		working.Above("current_a", a.CurrentA, 0, 1000),
		working.Above("ampacity_a", a.GreatestA, 0, 1000),
	)
	switch {
	case err != nil:
		return Temperature{}, err
	case a.CurrentA.GreaterThan(a.GreatestA):
		return Temperature{}, &working.InputError{Field: "current_a", Got: a.CurrentA.String(), Want: "at most ampacity_a, " + a.GreatestA.String()}
	case !a.InsulationC.GreaterThan(a.AmbientC.Decimal):
		return Temperature{}, &working.InputError{Field: "insulation_c", Got: a.InsulationC.String(), Want: "above ambient_c, " + a.AmbientC.Decimal.String()}
	}
	var w working.Working
	ta, tr := w.Given("T_a", a.AmbientC.Decimal), w.Given("T_r", a.InsulationC)
	i, most := w.Given("I", a.CurrentA), w.Given("I_z", a.GreatestA)
	share := math.Sqrt(i.InexactFloat64() / most.InexactFloat64())
	hot := ta.InexactFloat64() + tr.Sub(ta).InexactFloat64()*share
	t, err := calcFixed(&w, "T_c", "T_a + (T_r − T_a) × sqrt(I ÷ I_z)", hot, 1, cite.AC4313.At("11-66d(6)", cite.Published))
	return Temperature{t, slices.Clip(w)}, err
}
