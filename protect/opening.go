package protect

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Gate is one gate of a device's own data sheet: at its current the device
// opens not before LeastS and has opened by MostS. Leave out what the sheet
// does not state.
type Gate struct {
	CurrentA  decimal.Decimal     `json:"gate_a"` // above 0 to 1 000 000
	LeastS    decimal.NullDecimal `json:"opens_from_s"`
	GreatestS decimal.NullDecimal `json:"opens_by_s"`
}

// Device is one fuse or breaker. Without gates of its own it has those of its
// standard; with gates that say only how long it holds, its standard still says by when
// it opens.
type Device struct {
	Family  string          `json:"family"`   // empty: of none, judged as a breaker, the stricter
	RatingA decimal.Decimal `json:"rating_a"` // above 0 to 10 000
	Gates   []Gate          `json:"gates,omitempty"`
}

// OpeningTime is the band of time in which a device opens at a current.
type OpeningTime struct {
	LeastS    decimal.NullDecimal `json:"opens_from_s"` // not before; unset: not known, it may open at once
	GreatestS decimal.NullDecimal `json:"opens_by_s"`   // by then; unset: it need not open
	Working   working.Working     `json:"working,omitempty"`
}

// OpeningTime returns the band of time in which the device opens at a current, from
// cold. Each side follows its own gates, straight from gate to gate on
// logarithmic axes:
//
//	t = t_g1 × (t_g2 ÷ t_g1)^(ln(I ÷ I_g1) ÷ ln(I_g2 ÷ I_g1))
//
// the earlier side rounded down to 0.001 s, the later up. Nothing is carried on
// beyond the gates: above the last gate its later time still bounds and the
// earlier side is not known, below the first the reverse; for what a fuse lets
// through there [Device.LetThrough] has a closer bound. The straight line between
// gates is practice, no clause of a standard.
//
// Current above 0 to 1 000 000 A. Without gates of its own the device's family
// and rating must be in the tables, or the error is [tables.ErrNotListed].
// Gates of the data sheet must rise in current and fall in time.
// Sources: the standard of the device's family, from memory for most of them.
func (d Device) OpeningTime(currentA decimal.Decimal) (OpeningTime, error) {
	c, err := d.characteristic()
	if err = errors.Join(err, working.Above("current_a", currentA, 0, 1_000_000)); err != nil {
		return OpeningTime{}, err
	}
	w := make(working.Working, 0, 12)
	w.Given("I_n", d.RatingA)
	w.Given("I", currentA)
	o := c.opening(currentA, &w)
	o.Working = slices.Clip(w)
	return o, nil
}

// point is one corner of one side of the band.
type point struct {
	current working.Figure
	timeS   decimal.Decimal
}

// characteristic is the time-current band of a device: both sides with the
// current rising.
type characteristic struct {
	least, most []point
	fuse        bool
	ownMost     bool // the later side is that of the article's own data sheet
}

func (d Device) characteristic() (characteristic, error) {
	if err := d.check(); err != nil {
		return characteristic{}, err
	}
	c := characteristic{fuse: d.isFuse()}
	c.least, c.most = sides(d.own())
	c.ownMost = len(c.most) > 0
	if c.ownMost {
		return c, nil
	}
	standard, err := tables.Gates(d.Family, d.RatingA)
	if err != nil && (len(d.Gates) == 0 || !errors.Is(err, tables.ErrNotListed)) {
		return characteristic{}, err
	}
	least, most := sides(standard)
	if len(d.Gates) == 0 {
		c.least = least
	}
	c.most = most
	return c, nil
}

// sides parts gates into those of the earlier side and those of the later.
func sides(gates []tables.Gate) (least, most []point) {
	for _, g := range gates {
		if g.LeastS.Valid {
			least = append(least, point{g.Current, g.LeastS.Decimal})
		}
		if g.GreatestS.Valid {
			most = append(most, point{g.Current, g.GreatestS.Decimal})
		}
	}
	return least, most
}

// known is the characteristic, or what to ask for where no table has the gates of
// such a device.
func (d Device) known() (c characteristic, missing string, err error) {
	c, err = d.characteristic()
	if errors.Is(err, tables.ErrNotListed) {
		return c, fmt.Sprintf("ask the maker for the time-current curve of a %s A %s: no table has its gates", d.RatingA, cmp.Or(d.Family, "device")), nil
	}
	return c, "", err
}

// own returns the gates of the data sheet.
func (d Device) own() []tables.Gate {
	if len(d.Gates) == 0 {
		return nil
	}
	all := make([]tables.Gate, len(d.Gates))
	for i, g := range d.Gates {
		all[i] = tables.Gate{Current: dataSheet(g.CurrentA, "A"), LeastS: g.LeastS, GreatestS: g.GreatestS}
	}
	return all
}

func (d Device) isFuse() bool {
	f, err := tables.FamilyOf(d.Family)
	return err == nil && f.Kind == "fuse"
}

func (d Device) check() error {
	all := []error{working.Above("rating_a", d.RatingA, 0, 10_000)}
	if d.Family != "" {
		_, err := tables.FamilyOf(d.Family)
		all = append(all, err)
	}
	for i, g := range d.Gates {
		all = append(all, working.In(fmt.Sprintf("gates[%d]", i), g.check()))
	}
	if err := errors.Join(all...); err != nil {
		return err
	}
	return d.checkOrder()
}

func (g Gate) check() error {
	var empty error
	if !g.LeastS.Valid && !g.GreatestS.Valid {
		empty = &working.InputError{Field: "opens_by_s", Got: "unset", Want: "a time, here or in opens_from_s"}
	}
	return errors.Join(
		working.Above("gate_a", g.CurrentA, 0, 1_000_000),
		unsetOr(working.Above, "opens_from_s", g.LeastS, 0, 1_000_000),
		unsetOr(working.Above, "opens_by_s", g.GreatestS, 0, 1_000_000),
		empty,
	)
}

// checkOrder wants currents that rise and, on each side, times that fall.
func (d Device) checkOrder() error {
	for i := 1; i < len(d.Gates); i++ {
		a, b := d.Gates[i-1], d.Gates[i]
		if !b.CurrentA.GreaterThan(a.CurrentA) || rises(a.LeastS, b.LeastS) || rises(a.GreatestS, b.GreatestS) {
			return &working.InputError{Field: fmt.Sprintf("gates[%d]", i), Got: "out of order", Want: "a current above the one before, and no longer times"}
		}
	}
	for i, g := range d.Gates {
		if rises(g.GreatestS, g.LeastS) {
			return &working.InputError{Field: fmt.Sprintf("gates[%d].opens_by_s", i), Got: g.GreatestS.Decimal.String(), Want: "no less than opens_from_s"}
		}
	}
	return nil
}

func rises(a, b decimal.NullDecimal) bool {
	return a.Valid && b.Valid && b.Decimal.GreaterThan(a.Decimal)
}

// opening adds the lines of both sides.
func (c characteristic) opening(currentA decimal.Decimal, w *working.Working) OpeningTime {
	return OpeningTime{LeastS: leastTime(c.least, currentA, w), GreatestS: mostTime(c.most, currentA, w)}
}

// leastTime adds the lines of the earlier side: below its first gate that
// gate's time still holds, above the last nothing does.
func leastTime(side []point, currentA decimal.Decimal, w *working.Working) decimal.NullDecimal {
	i := reached(side, currentA)
	switch {
	case len(side) == 0 || i == len(side) && !side[i-1].current.Value.Equal(currentA):
		return decimal.NullDecimal{}
	case i == 0 || side[i-1].current.Value.Equal(currentA):
		return atGate("t_lo", side[max(i-1, 0)], w)
	default:
		return between("t_lo", "floor", side[i-1], side[i], currentA, w)
	}
}

// mostTime adds the lines of the later side: above its last gate that gate's
// time still holds, below the first the device need not open.
func mostTime(side []point, currentA decimal.Decimal, w *working.Working) decimal.NullDecimal {
	i := reached(side, currentA)
	switch {
	case i == 0:
		return decimal.NullDecimal{}
	case i == len(side) || side[i-1].current.Value.Equal(currentA):
		return atGate("t_hi", side[i-1], w)
	default:
		return between("t_hi", "ceil", side[i-1], side[i], currentA, w)
	}
}

// reached counts the gates at or below a current.
func reached(side []point, currentA decimal.Decimal) int {
	i := 0
	for i < len(side) && side[i].current.Value.LessThanOrEqual(currentA) {
		i++
	}
	return i
}

func (p point) lines(number string, w *working.Working) {
	w.LookUp("I_g"+number, p.current)
	w.LookUp("t_g"+number, working.Figure{Value: p.timeS, Source: p.current.Source})
}

func atGate(symbol string, p point, w *working.Working) decimal.NullDecimal {
	p.lines("", w)
	return decimal.NewNullDecimal(w.Calc(symbol, "t_g", p.timeS, p.current.Source.Document()))
}

var straight = cite.Practice.At("straight from gate to gate on logarithmic axes", cite.CommonPractice)

// between adds the lines of a time between two gates; rounding is "floor" or
// "ceil". Of gates too near each other to draw a line through, the stricter holds.
func between(symbol, rounding string, a, b point, currentA decimal.Decimal, w *working.Working) decimal.NullDecimal {
	round, strict := math.Ceil, a
	if rounding == "floor" {
		round, strict = math.Floor, b
	}
	i, i1, i2 := currentA.InexactFloat64(), a.current.Value.InexactFloat64(), b.current.Value.InexactFloat64()
	t1, t2 := a.timeS.InexactFloat64(), b.timeS.InexactFloat64()
	t, err := fixed(round(t1*math.Pow(t2/t1, math.Log(i/i1)/math.Log(i2/i1))*1000)/1000, 3)
	if err != nil {
		return atGate(symbol, strict, w)
	}
	a.lines(".1", w)
	b.lines(".2", w)
	return decimal.NewNullDecimal(w.Calc(symbol,
		rounding+"(t_g.1 × (t_g.2 ÷ t_g.1)^(ln(I ÷ I_g.1) ÷ ln(I_g.2 ÷ I_g.1)) × 1000) ÷ 1000", t, straight))
}

// ConventionalCurrents holds the conventional currents of a device.
type ConventionalCurrents struct {
	HoldsA  decimal.NullDecimal `json:"holding_a"` // carried for TimeS; unset: the standard fixes none
	OpensA  decimal.Decimal     `json:"operating_a"`
	TimeS   decimal.Decimal     `json:"conventional_s"`
	Working working.Working     `json:"working,omitempty"`
}

// ConventionalCurrents returns the current that the device carries for its conventional
// time and the one that opens it within that time:
//
//	I_1 = k_1 × I_n,  I_2 = k_2 × I_n   [A]
//
// The lowest multiple that its standard says opens it counts as k_2. A family or
// rating without any is [tables.ErrNotListed]. Gates of a data sheet play no
// part. Sources: IEC 60269-1 table 2, IEC 60898-1 table 7, or the family's own.
func (d Device) ConventionalCurrents() (ConventionalCurrents, error) {
	if err := d.check(); err != nil {
		return ConventionalCurrents{}, err
	}
	c, err := tables.ConventionalOf(d.Family, d.RatingA)
	if err != nil {
		return ConventionalCurrents{}, err
	}
	var w working.Working
	var a ConventionalCurrents
	rating := w.Given("I_n", d.RatingA)
	if c.Holds.Stated() {
		a.HoldsA = decimal.NewNullDecimal(w.Calc("I_1", "k_1 × I_n", w.LookUp("k_1", c.Holds).Mul(rating), sum))
	}
	a.TimeS = w.LookUp("t_cv", working.Figure{Value: c.TimeS, Source: c.Opens.Source})
	a.OpensA = w.Calc("I_2", "k_2 × I_n", w.LookUp("k_2", c.Opens).Mul(rating), sum)
	a.Working = slices.Clip(w)
	return a, nil
}

// ReleaseCurrents holds the currents of a breaker's short-circuit release.
type ReleaseCurrents struct {
	Supply  string          `json:"supply"` // that the standard gives them for
	NoTripA decimal.Decimal `json:"no_trip_a"`
	TripA   decimal.Decimal `json:"trip_a"`
	Working working.Working `json:"working"`
}

// ReleaseCurrents returns the current up to which a breaker does not trip at once and
// the one from which it does:
//
//	I_r1 = k_r1 × I_n,  I_r2 = k_r2 × I_n   [A]
//
// A breaker of IEC 60947-2 has a setting in place of I_n: give it as the rating.
// Where the supply is "a.c." the currents do not hold on d.c., where it trips
// later; [Device.OpeningTime] leaves them out. A family without a release is
// [tables.ErrNotListed]. Sources: IEC 60898-1, 60898-2, 60947-2.
func (d Device) ReleaseCurrents() (ReleaseCurrents, error) {
	if err := d.check(); err != nil {
		return ReleaseCurrents{}, err
	}
	r, err := tables.ReleaseOf(d.Family)
	if err != nil {
		return ReleaseCurrents{}, err
	}
	var w working.Working
	rating := w.Given("I_n", d.RatingA)
	a := ReleaseCurrents{Supply: r.Supply}
	a.NoTripA = w.Calc("I_r1", "k_r1 × I_n", w.LookUp("k_r1", r.NoTrip).Mul(rating), sum)
	a.TripA = w.Calc("I_r2", "k_r2 × I_n", w.LookUp("k_r2", r.Trip).Mul(rating), sum)
	a.Working = slices.Clip(w)
	return a, nil
}
