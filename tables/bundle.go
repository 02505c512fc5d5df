package tables

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

type bundleRow struct {
	wires, loading decimal.Decimal
	figure         working.Figure
}

var bundleRows = load("bundle-loading-factors", func(r *record) bundleRow {
	wires, loading := r.number("wires"), r.number("loading_percent")
	return bundleRow{wires, loading, r.figure("factor", "", wires.String()+" wires", loading.String()+" % loading")}
})

// BundleFactor returns the factor of MIL-W-5088L for a number of wires in a
// bundle of which a share, in percent of what all could carry, is in use: the
// row of as many wires or the next more, and as much loading or the next more.
// Beyond the curve's 19 wires, or 100 %, it is [ErrOutside]. One wire or more,
// loading above 0 to 100 %.
func BundleFactor(wires int, loadingPercent decimal.Decimal) (working.Figure, error) {
	count := decimal.NewFromInt(int64(wires))
	if err := errors.Join(working.Between("wires", count, 1, 1000), working.Above("loading_percent", loadingPercent, 0, 100)); err != nil {
		return working.Figure{}, err
	}
	var best *bundleRow
	for i, row := range bundleRows() {
		if row.wires.LessThan(count) || row.loading.LessThan(loadingPercent) {
			continue
		}
		if best == nil || row.figure.Value.GreaterThan(best.figure.Value) {
			best = &bundleRows()[i]
		}
	}
	if best == nil {
		return working.Figure{}, fmt.Errorf("%d wires with %s %% loading: %w; MIL-W-5088L ends at 19 wires", wires, loadingPercent, ErrOutside)
	}
	exact := best.wires.Equal(count) && best.loading.Equal(loadingPercent)
	return noteRow(best.figure, exact, "the next worse point for %v", fmt.Sprintf("%d wires, %s %%", wires, loadingPercent)), nil
}

type figureRow struct {
	quantity, condition string
	figure              working.Figure
}

var aircraftFigures = load("ac4313-figures", func(r *record) figureRow {
	return figureRow{r.text("quantity"), r.text("condition"), r.figure("value", "", r.text("condition"))}
})

// AltitudeFactor returns the factor for thin air of FAA AC 43.13-1B, figure
// 11-5, at an altitude in metres: at the next higher point that its text
// states. Above 60 000 ft (18 288 m) it is [ErrOutside]. Altitude from -500 m.
func AltitudeFactor(altitudeM decimal.Decimal) (working.Figure, error) {
	if err := working.Between("altitude_m", altitudeM, -500, 100_000); err != nil {
		return working.Figure{}, err
	}
	type point struct {
		metres decimal.Decimal
		figure working.Figure
	}
	var points []point
	for _, row := range aircraftFigures() {
		feet, ok := strings.CutSuffix(row.condition, " ft")
		if row.quantity != "altitude_factor" || !ok {
			continue
		}
		points = append(points, point{decimal.RequireFromString(feet).Mul(metresInFoot), row.figure})
	}
	slices.SortFunc(points, func(a, b point) int { return a.metres.Cmp(b.metres) })
	for _, p := range points {
		if p.metres.GreaterThanOrEqual(altitudeM) {
			return noteRow(p.figure, p.metres.Equal(altitudeM), "the next higher point for %s m", altitudeM), nil
		}
	}
	return working.Figure{}, fmt.Errorf("altitude %s m: %w; FAA AC 43.13-1B figure 11-5 ends at 60 000 ft", altitudeM, ErrOutside)
}

var metresInFoot = decimal.RequireFromString("0.3048")
