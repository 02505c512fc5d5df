package tables_test

import (
	"fmt"
	"testing"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// number reads a number that a test is sure of.
func number(text string) decimal.Decimal { return decimal.RequireFromString(text) }

// TestGatesFall: of every standard device that has gates, each side falls as
// the current rises, and no earlier time is above the later one of its gate.
func TestGatesFall(t *testing.T) {
	devices := 0
	for _, family := range tables.Families() {
		ratings, err := tables.Ratings(family.Name)
		if err != nil {
			continue
		}
		for _, r := range ratings {
			gates, err := tables.Gates(family.Name, r.Value)
			if err != nil {
				assert.ErrorIs(t, err, tables.ErrNotListed)
				continue
			}
			devices++
			var least, most decimal.NullDecimal
			for _, g := range gates {
				require.True(t, g.LeastS.Valid || g.GreatestS.Valid)
				require.True(t, g.Current.Stated() && g.Current.Unit == "A")
				least, most = falls(t, family.Name, least, g.LeastS), falls(t, family.Name, most, g.GreatestS)
				assert.False(t, g.LeastS.Valid && g.GreatestS.Valid && g.LeastS.Decimal.GreaterThan(g.GreatestS.Decimal))
			}
		}
	}
	assert.Greater(t, devices, 100)
}

func falls(t *testing.T, family string, before, now decimal.NullDecimal) decimal.NullDecimal {
	t.Helper()
	if !now.Valid {
		return before
	}
	assert.True(t, !before.Valid || now.Decimal.LessThanOrEqual(before.Decimal), "%s: %s after %s", family, now.Decimal, before.Decimal)
	return now
}

// TestConventionalCurrentsHoldBeforeTheyOpen: k1 is below k2 in every family.
func TestConventionalCurrentsHoldBeforeTheyOpen(t *testing.T) {
	for _, family := range tables.Families() {
		for _, rating := range []string{"2", "10", "16", "20", "63", "100", "400"} {
			c, err := tables.ConventionalOf(family.Name, number(rating))
			if err != nil {
				continue
			}
			assert.True(t, c.Opens.Stated() && c.TimeS.IsPositive(), family.Name)
			assert.True(t, !c.Holds.Stated() || c.Holds.Value.LessThan(c.Opens.Value), family.Name)
		}
	}
}

// TestBandsOfRatings: IEC bands exclude their lower end after the first: 63 A
// takes one hour, above it two.
func TestBandsOfRatings(t *testing.T) {
	for rating, want := range map[string]string{"12": "1.9", "16": "1.6", "63": "1.6"} {
		c, err := tables.ConventionalOf("IEC 60269 gG", number(rating))
		require.NoError(t, err)
		assert.Equal(t, want, c.Opens.Value.String(), rating)
		assert.Equal(t, "3600", c.TimeS.String(), rating)
	}
	c, err := tables.ConventionalOf("IEC 60269 gG", number("80"))
	require.NoError(t, err)
	assert.Equal(t, "7200", c.TimeS.String())
	_, err = tables.ConventionalOf("IEC 60269 gG", number("14"))
	assert.ErrorIs(t, err, tables.ErrNotListed, "between two bands")
}

// TestEnergiesChain: two steps apart, the most of the lower link is the least of
// the upper (63 and 100 A), which is what makes them selective.
func TestEnergiesChain(t *testing.T) {
	lower, err := tables.PreArcing("IEC 60269 gG", number("63"))
	require.NoError(t, err)
	upper, err := tables.PreArcing("IEC 60269 gG", number("100"))
	require.NoError(t, err)
	assert.True(t, lower.Greatest.Value.Equal(upper.Least.Value))
	_, err = tables.PreArcing("IEC 60269 gG", number("35"))
	assert.ErrorIs(t, err, tables.ErrNotListed)
}

func TestStrictlyBelow(t *testing.T) {
	within, err := tables.DeviceRuleOf("asnzs-1000")
	require.NoError(t, err)
	assert.True(t, tables.StrictlyBelow(within))
	for _, id := range []string{"asnzs-200", "cfr33-7in"} {
		f, err := tables.DeviceRuleOf(id)
		require.NoError(t, err)
		assert.False(t, tables.StrictlyBelow(f), id)
	}
	_, err = tables.DeviceRuleOf("none")
	assert.ErrorIs(t, err, tables.ErrNotListed)
}

func TestLookUpsThatAreNotListed(t *testing.T) {
	for name, err := range map[string]error{
		"ratings":  second(tables.Ratings("UL 489")),
		"gates":    second(tables.Gates("ISO 8820-6", number("100"))),
		"release":  second(tables.ReleaseOf("UL 489")),
		"derating": second(tables.DeviceDerating("ISO 8820-3 E", number("30"), number("60"))),
		"torque":   second(tables.Torque("screw terminal", number("7"), "II")),
		"test":     second(tables.VoltageTest("jump start", number("24"))),
		"aircraft": second(tables.AircraftProtector(mustSize("AWG 1"), "breaker")),
	} {
		assert.ErrorIs(t, err, tables.ErrNotListed, name)
	}
	_, _, err := tables.Colour("ISO 8820-3 C", number("12"))
	assert.ErrorIs(t, err, tables.ErrNotListed)
	for name, err := range map[string]error{
		"family":      second(tables.FamilyOf("none")),
		"selectivity": second(tables.SelectivityRatio("cb-fuse")),
		"code":        second(tables.SupplyCodeOf("Z")),
		"bond":        second(tables.BondOf("cfr33-common")),
		"load":        second(tables.SwitchFactor(number("12"), "heater")),
	} {
		assert.ErrorContains(t, err, "want one of", name)
	}
}

func second[T any](_ T, err error) error { return err }

func mustSize(text string) tables.Size {
	s, err := tables.ParseSize(text)
	if err != nil {
		panic(err)
	}
	return s
}

// TestRatingsRise: every list rises, and no rating stands twice.
func TestRatingsRise(t *testing.T) {
	for _, family := range tables.Families() {
		ratings, err := tables.Ratings(family.Name)
		if err != nil {
			continue
		}
		for i := 1; i < len(ratings); i++ {
			assert.True(t, ratings[i].Value.GreaterThan(ratings[i-1].Value), "%s %s", family.Name, ratings[i].Value)
		}
	}
}

// TestTorqueRises with the thread, in each column.
func TestTorqueRises(t *testing.T) {
	for _, terminal := range tables.TorqueTerminals() {
		for _, column := range []string{"", "I", "II", "III"} {
			before := decimal.Zero
			for _, thread := range []string{"3", "3.5", "4", "4.5", "5", "6", "8", "10", "12", "14", "16", "20", "24"} {
				f, err := tables.Torque(terminal, number(thread), column)
				if err != nil {
					continue
				}
				assert.True(t, f.Value.GreaterThanOrEqual(before), "%s M%s %s", terminal, thread, column)
				before = f.Value
			}
		}
	}
}

func TestBreakingIsPublishedWhereStated(t *testing.T) {
	f, err := tables.FamilyOf("ISO 8820-3 C")
	require.NoError(t, err)
	require.Len(t, f.Breaking, 2)
	assert.Equal(t, "1000", f.Breaking[0].CapacityA.Decimal.String())
	assert.Equal(t, cite.Published, f.Breaking[0].Source.Confidence)
}

// BenchmarkConventional is one look-up in a band.
func BenchmarkConventional(b *testing.B) {
	rating := number("15")
	for b.Loop() {
		if _, err := tables.ConventionalOf("ISO 8820-3 C", rating); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleFamilyOf() {
	f, err := tables.FamilyOf("ISO 8820-3 E")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(f.Kind, f.Form)
	for _, b := range f.Breaking {
		fmt.Printf("%s V: %s A at %s V [%s]\n", b.RatedV.Decimal, b.CapacityA.Decimal, b.AtV.Decimal, b.Source)
	}
	// Output:
	// fuse blade with tabs, high current
	// 32 V: 1000 A at 32 V [ISO 8820-3:2015, scope, ISO 8820-3 E]
	// 58 V: 1000 A at 58 V [ISO 8820-3:2015, scope, ISO 8820-3 E]
}

func ExampleFamilies() {
	fmt.Println(tables.Families()[0].Name)
	// Output:
	// ISO 8820-3 C
}

func ExampleRatings() {
	ratings, err := tables.Ratings("ISO 8820-3 E")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range ratings {
		fmt.Print(r.Value, " ")
	}
	fmt.Println()
	// Output:
	// 20 25 30 35 40 50 60 70 80 100
}

func ExampleColour() {
	colour, source, err := tables.Colour("ISO 8820-3 C", number("15"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(colour, "["+source.String()+"]")
	// Output:
	// blue [ISO 8820-3:2015, colours, ISO 8820-3 C, 15 A]
}

func ExampleGates() {
	gates, err := tables.Gates("ISO 8820-3 E", number("40"))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, g := range gates {
		opens := "need not open"
		if g.GreatestS.Valid {
			opens = "by " + g.GreatestS.Decimal.String() + " s"
		}
		fmt.Printf("%s A: from %s s, %s\n", g.Current.Value, g.LeastS.Decimal, opens)
	}
	// Output:
	// 40 A: from 360000 s, need not open
	// 54 A: from 60 s, by 1800 s
	// 80 A: from 2 s, by 50 s
	// 140 A: from 0.2 s, by 7 s
	// 240 A: from 0.04 s, by 1 s
}

func ExampleConventionalOf() {
	c, err := tables.ConventionalOf("IEC 60269 gG", number("63"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(c.Holds.Value, c.Opens.Value, c.TimeS)
	// Output:
	// 1.25 1.6 3600
}

func ExampleReleaseOf() {
	r, err := tables.ReleaseOf("IEC 60898-2 B")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(r.Supply, r.NoTrip.Value, r.Trip.Value, "times the", r.MultipleOf)
	// Output:
	// d.c. 4 7 times the rating
}

func ExampleDeviceDerating() {
	f, err := tables.DeviceDerating("ISO 8820-3 E", number("40"), number("70"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(f.Value, "["+f.Source.String()+"]", f.Note)
	// Output:
	// 0.75 [common practice, data for a 40 A fuse-link, 85 °C] the next hotter row for 70 °C; 30 A on one data sheet; the standard has no such table
}

func ExampleDeviceRuleOf() {
	f, err := tables.DeviceRuleOf("nec-continuous")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(f.Value, f.Source)
	// Output:
	// 1.25 NFPA 70, 210.20(A); 215.3
}

func ExampleBriefRun() {
	f := tables.BriefRun()
	fmt.Println(f.Value, f.Unit, f.Source.Confidence)
	// Output: 600 s common practice
}

func ExampleLoading() {
	f := tables.Loading()
	fmt.Println(f.Value, f.Source)
	// Output:
	// 0.8 ISO 8820-2, user guide; from memory
}

func ExampleStrictlyBelow() {
	f, err := tables.DeviceRuleOf("asnzs-1000")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(f.Value, f.Unit, tables.StrictlyBelow(f))
	// Output:
	// 1000 mm true
}

func ExampleSmallConductors() {
	small, err := tables.SmallConductors("nec-small")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range small {
		fmt.Println(s.Size, s.Rating.Value, s.Rating.Unit, s.Rating.Source)
	}
	// Output:
	// AWG 14 15 A NFPA 70, 240.4(D)
	// AWG 12 20 A NFPA 70, 240.4(D)
	// AWG 10 30 A NFPA 70, 240.4(D)
}

func ExampleDeviceRule_Cap() {
	vehicles, err := tables.RuleSetOf("us-rv")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, size := range []string{"AWG 14", "AWG 6"} {
		limit, ok := vehicles.Device.Cap(mustSize(size))
		fmt.Println(size, ok, limit.Value, limit.Unit)
	}
	// Output:
	// AWG 14 true 15 A
	// AWG 6 false 0
}

func ExampleAdiabaticOf() {
	a, err := tables.AdiabaticOf("copper", "PVC 70 C", number("16"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(a.K.Value, a.K.Unit, "from", a.InitialC, "to", a.FinalC, "°C")
	// Output:
	// 115 A√s/mm² from 70 to 160 °C
}

func ExampleSwitchFactor() {
	f, err := tables.SwitchFactor(number("24"), "motor")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(f.Value, f.Note)
	// Output:
	// 3 the row above 24 V
}

func ExampleBreakingByCranking() {
	f, err := tables.BreakingByCranking(number("12"), number("900"), true)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(f.Value, f.Unit, f.Source)
	// Output:
	// 3000 A ABYC E-11, table V-A, main; second hand
}

func ExampleSelectivityRatio() {
	f, err := tables.SelectivityRatio("gG16")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(f.Value, f.Source)
	// Output:
	// 1.6 IEC 60269-2, selectivity, gG over gG, from 16 A; second hand
}

func ExamplePreArcing() {
	e, err := tables.PreArcing("IEC 60269 gG", number("63"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(e.Least.Value, e.Greatest.Value, e.Greatest.Unit)
	// Output:
	// 9000 27000 A²s
}

func ExampleSupplyCodeOf() {
	c, err := tables.SupplyCodeOf("B")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(c.Least.Value, "to", c.Greatest.Value, c.Greatest.Unit)
	// Output:
	// 8 to 16 V
}

func ExampleVoltageTest() {
	test, err := tables.VoltageTest("load dump without central suppression, test A", number("12"))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range test {
		fmt.Println(p.Name, p.Least.Value, "to", p.Greatest.Value, p.Greatest.Unit)
	}
	// Output:
	// Us 79 to 101 V
	// Ri 0.5 to 4 Ω
	// td 40 to 400 ms
	// tr 5 to 10 ms
}

func ExampleVoltageTests() {
	fmt.Println(len(tables.VoltageTests()), tables.VoltageTests()[0])
	// Output:
	// 15 load dump without central suppression, test A
}

func ExampleTorque() {
	f, err := tables.Torque("screw terminal", number("6"), "II")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(f.Value, f.Unit, f.Note)
	// Output:
	// 2.5 Nm a test torque, not for assembly; one terminal table has the same number
}

func ExampleTorqueTerminals() {
	for _, kind := range tables.TorqueTerminals() {
		fmt.Println(kind)
	}
	// Output:
	// screw terminal
	// bolted copper bars, steel 8.8 lightly oiled
	// strip fuse-link nut
	// brass or tinned-copper stud
}

func ExampleBondOf() {
	b, err := tables.BondOf("nfpa70-552-chassis")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(b.Item, b.Figure.Value, b.Figure.Unit)
	// Output:
	// copper bond from battery terminal to chassis, least size 8 AWG
}

func ExampleAircraftProtector() {
	f, err := tables.AircraftProtector(mustSize("AWG 14"), "fuse")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(f.Value, f.Unit, f.Source)
	// Output:
	// 15 A FAA AC 43.13-1B, table 11-3, AWG 14, fuse
}
