package protect_test

import (
	"testing"

	"example.org/extralow/protect"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// gated are devices of every kind of gate that the tables have.
var gated = []protect.Device{
	{Family: "ISO 8820-3 C", RatingA: d("15")},
	{Family: "ISO 8820-3 C", RatingA: d("40")},
	{Family: "ISO 8820-3 E", RatingA: d("40")},
	{Family: "ISO 8820-5 SF51", RatingA: d("200")},
	{Family: "UL 248-14", RatingA: d("20")},
	{Family: "IEC 60269 gG", RatingA: d("10")},
	{Family: "IEC 60269 gG", RatingA: d("63")},
	{Family: "IEC 60127-2 T", RatingA: d("2.5")},
	{Family: "IEC 60898-1 C", RatingA: d("16")},
	{Family: "IEC 60898-2 C", RatingA: d("16")},
	{Family: "IEC 60947-2", RatingA: d("100")},
	{RatingA: d("50"), Gates: []protect.Gate{
		{CurrentA: d("60"), LeastS: some("3600")},
		{CurrentA: d("70"), LeastS: some("40"), GreatestS: some("900")},
		{CurrentA: d("200"), LeastS: some("0.5"), GreatestS: some("4")},
		{CurrentA: d("500"), GreatestS: some("0.05")},
	}},
}

// TestBiggerFaultNeverOpensLater: neither side of the band ever rises with the
// current, the earlier side is never above the later, and what is known of a
// side begins and ends where its gates do.
func TestBiggerFaultNeverOpensLater(t *testing.T) {
	for _, device := range gated {
		var before protect.OpeningTime
		for multiple := int64(50); multiple < 2500; multiple += 11 {
			current := device.RatingA.Mul(decimal.New(multiple, -2))
			o, err := device.OpeningTime(current)
			require.NoError(t, err)
			workingtest.Guard(t, o.Working)
			if o.LeastS.Valid && o.GreatestS.Valid {
				assert.True(t, o.LeastS.Decimal.LessThanOrEqual(o.GreatestS.Decimal), "%v at %s A", device, current)
			}
			if before.GreatestS.Valid {
				require.True(t, o.GreatestS.Valid, "above its last gate the later time still bounds: %v at %s A", device, current)
				assert.True(t, o.GreatestS.Decimal.LessThanOrEqual(before.GreatestS.Decimal), "%v at %s A", device, current)
			}
			if multiple > 50 && !before.LeastS.Valid {
				require.False(t, o.LeastS.Valid, "what is not known stays so: %v at %s A", device, current)
			}
			if o.LeastS.Valid && before.LeastS.Valid {
				assert.True(t, o.LeastS.Decimal.LessThanOrEqual(before.LeastS.Decimal), "%v at %s A", device, current)
			}
			before = o
		}
	}
}

// TestEveryGateOfTheTablesHolds: each side of each standard device falls, and
// at each gate the band gives the gate's own times.
func TestEveryGateOfTheTablesHolds(t *testing.T) {
	for _, family := range tables.Families() {
		ratings, err := tables.Ratings(family.Name)
		if err != nil {
			continue
		}
		for _, r := range ratings {
			gates, err := tables.Gates(family.Name, r.Value)
			if err != nil {
				continue
			}
			for _, g := range gates {
				o, err := protect.Device{Family: family.Name, RatingA: r.Value}.OpeningTime(g.Current.Value)
				require.NoError(t, err)
				if g.LeastS.Valid {
					assert.True(t, o.LeastS.Valid && o.LeastS.Decimal.Equal(g.LeastS.Decimal), "%s %s at %s", family.Name, r.Value, g.Current.Value)
				}
				if g.GreatestS.Valid {
					assert.True(t, o.GreatestS.Valid && o.GreatestS.Decimal.Equal(g.GreatestS.Decimal), "%s %s at %s", family.Name, r.Value, g.Current.Value)
				}
			}
		}
	}
}

// TestBeyondTheGates: 15 A blade, gates at 16.5, 20.25, 24, 30, 52.5 and 90 A.
func TestBeyondTheGates(t *testing.T) {
	fuse := protect.Device{Family: "ISO 8820-3 C", RatingA: d("15")}
	for current, want := range map[string][2]string{
		"10":    {"360000", ""}, // below the first: holds at least as long, need not open
		"16.5":  {"360000", ""},
		"20.24": {"0.774", ""}, // one step under the first gate that opens it
		"20.25": {"0.75", "600"},
		"90":    {"0.03", "0.1"},
		"90.01": {"", "0.1"}, // above the last: may open at once, has opened by then
		"2000":  {"", "0.1"},
	} {
		o, err := fuse.OpeningTime(d(current))
		require.NoError(t, err)
		assert.Equal(t, want, [2]string{shown(o.LeastS), shown(o.GreatestS)}, current)
		assert.Equal(t, cite.FromMemory, o.Working.Confidence())
	}
}

func shown(v decimal.NullDecimal) string {
	if !v.Valid {
		return ""
	}
	return v.Decimal.String()
}

// TestReleaseForMainsDoesNotHoldOnDC: the magnetic release of an a.c. breaker
// trips later on d.c.; only the breaker for d.c. has opened at 10 times.
func TestReleaseForMainsDoesNotHoldOnDC(t *testing.T) {
	mains, err := protect.Device{Family: "IEC 60898-1 C", RatingA: d("16")}.OpeningTime(d("400"))
	require.NoError(t, err)
	assert.Equal(t, "60", shown(mains.GreatestS))
	direct, err := protect.Device{Family: "IEC 60898-2 C", RatingA: d("16")}.OpeningTime(d("400"))
	require.NoError(t, err)
	assert.Equal(t, "0.1", shown(direct.GreatestS))
}

func TestSurge(t *testing.T) {
	fuse := protect.Device{Family: "ISO 8820-3 E", RatingA: d("40")} // at 80 A not before 2 s
	for duration, want := range map[string]working.Verdict{"1.999": working.Passes, "2": working.Passes, "2.001": working.Fails} {
		c, err := fuse.RidesThrough(protect.Surge{CurrentA: d("80"), DurationS: d(duration)})
		require.NoError(t, err)
		workingtest.Guard(t, c.Working)
		assert.Equal(t, want, c.Verdict(), duration)
	}
	c, err := fuse.RidesThrough(protect.Surge{CurrentA: d("400"), DurationS: d("0.01")})
	require.NoError(t, err)
	assert.Equal(t, working.CannotTell, c.Verdict())
	c, err = fuse.RidesThrough(protect.Surge{CurrentA: d("40"), DurationS: d("900000")})
	require.NoError(t, err)
	assert.Equal(t, working.NotApplicable, c.Verdict())
}

func TestOpeningRefusesBadInput(t *testing.T) {
	gates := func(g ...protect.Gate) protect.Device { return protect.Device{RatingA: d("50"), Gates: g} }
	for name, device := range map[string]protect.Device{
		"no such family":  {Family: "nothing", RatingA: d("5")},
		"no rating":       {Family: "ISO 8820-3 C"},
		"empty gate":      gates(protect.Gate{CurrentA: d("60")}),
		"gate at nought":  gates(protect.Gate{CurrentA: d("60"), GreatestS: some("0")}),
		"currents fall":   gates(protect.Gate{CurrentA: d("60"), GreatestS: some("9")}, protect.Gate{CurrentA: d("50"), GreatestS: some("8")}),
		"times rise":      gates(protect.Gate{CurrentA: d("60"), GreatestS: some("9")}, protect.Gate{CurrentA: d("70"), GreatestS: some("10")}),
		"earlier is last": gates(protect.Gate{CurrentA: d("60"), GreatestS: some("9"), LeastS: some("10")}),
	} {
		_, err := device.OpeningTime(d("100"))
		assert.NotEmpty(t, working.Inputs(err), name)
	}
	_, err := protect.Device{Family: "ISO 8820-3 C", RatingA: d("33")}.OpeningTime(d("100"))
	assert.ErrorIs(t, err, tables.ErrNotListed)
	_, err = protect.Device{Family: "ISO 8820-6", RatingA: d("100")}.ConventionalCurrents()
	assert.ErrorIs(t, err, tables.ErrNotListed)
	_, err = protect.Device{Family: "ISO 8820-6", RatingA: d("100")}.ReleaseCurrents()
	assert.ErrorIs(t, err, tables.ErrNotListed)
}
