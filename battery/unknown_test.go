package battery_test

import (
	"encoding/json"
	"testing"

	"example.org/extralow/battery"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// alone is one battery without leads, whose resistances a test states.
func alone(chemistry tables.Chemistry, low, high decimal.NullDecimal) battery.Bank {
	return battery.Bank{Series: 1, Batteries: []battery.BankBattery{{
		Name: "b", Chemistry: chemistry, NominalV: d("12"), CapacityAh: d("70"), FullV: d("12.8"), EmptyV: d("12"),
		LowMilliohm: low, HighMilliohm: high, LeadMilliohm: n("0"),
	}}}
}

// TestColdResistanceIsNoFault: cranking amperes of 600 A (SAE: 7.2 V at -18 °C)
// from 12.6 V make (12.6 − 7.2) ÷ 600 = 9 mΩ. Taken for a fault they would promise
// 1423 A; with the least share, 40 % or 3.6 mΩ, it is 12.8 ÷ 3.6 mΩ = 3556 A.
func TestColdResistanceIsNoFault(t *testing.T) {
	r, err := battery.CrankingRating{Rating: "SAE CCA", RatedA: d("600"), RestedV: d("12.6")}.Resistance()
	require.NoError(t, err)
	require.Equal(t, "9", r.Milliohm.String())
	f, err := alone("lead-acid flooded", decimal.NullDecimal{}, decimal.NewNullDecimal(r.Milliohm)).Fault(atPosts)
	require.NoError(t, err)
	assert.Empty(t, f.Missing)
	assert.Equal(t, "3555.56", f.GreatestA.Decimal.String())
	assert.Equal(t, "1333.33", f.LeastA.Decimal.String(), "12 V over 9 mΩ")
	assert.Equal(t, "from memory", f.Working.Confidence().String(), "the share is remembered, and says so")
	workingtest.Guard(t, f.Working)
}

// TestOneResistanceAlone: each current is told from its own resistance, and what
// the other would tell is asked for.
func TestOneResistanceAlone(t *testing.T) {
	low := alone("LiFePO4", n("4"), decimal.NullDecimal{})
	f, err := low.Fault(atPosts)
	require.NoError(t, err)
	assert.Equal(t, "3200", f.GreatestA.Decimal.String(), "12.8 V over 4 mΩ")
	assert.False(t, f.LeastA.Valid)
	assert.Contains(t, f.Missing, "nearly empty, aged and cold")
	workingtest.Guard(t, f.Working)
	s, err := low.Source()
	require.NoError(t, err)
	assert.True(t, s.FullV.Valid && s.LowMilliohm.Valid && !s.EmptyV.Valid && !s.HighMilliohm.Valid)
	u, err := low.UnderLoad(d("10"))
	require.NoError(t, err)
	assert.False(t, u.VoltageV.Valid)
	assert.NotEmpty(t, u.Missing)

	high := alone("LiFePO4", decimal.NullDecimal{}, n("20"))
	f, err = high.Fault(atPosts)
	require.NoError(t, err)
	assert.False(t, f.GreatestA.Valid, "no share is known for this chemistry: no pass of breaking capacity")
	assert.Empty(t, f.Strings)
	assert.Equal(t, "600", f.LeastA.Decimal.String(), "12 V over 20 mΩ")
	assert.Contains(t, f.Missing, "full, new and warm")
	u, err = high.UnderLoad(d("10"))
	require.NoError(t, err)
	assert.Equal(t, "11.8", u.VoltageV.Decimal.String())
}

// TestLeadsAreAsked: leads that nobody stated are not leads of nought.
func TestLeadsAreAsked(t *testing.T) {
	b := pair()
	b.Batteries[1].LeadMilliohm = decimal.NullDecimal{}
	f, err := b.Fault(atPosts)
	require.NoError(t, err)
	assert.Contains(t, f.Missing, "leads of battery 2 (right)")
	assert.False(t, f.GreatestA.Valid || f.LeastA.Valid)
	c, err := b.CheckDischarge(d("10"))
	require.NoError(t, err)
	assert.Equal(t, working.CannotTell, c.Verdict())
}

// TestUnknownIsNull: what is not known is null in JSON, never 0.
func TestUnknownIsNull(t *testing.T) {
	f, err := alone("LiFePO4", decimal.NullDecimal{}, decimal.NullDecimal{}).Fault(atPosts)
	require.NoError(t, err)
	text, err := json.Marshal(f)
	require.NoError(t, err)
	assert.Contains(t, string(text), `"greatest_fault_a":null,"least_fault_a":null`)
}

// TestAbsorbingString, by hand: 13.6 V and 10 V, each behind 1 mΩ, on a path of 9
// mΩ. Both together would hold (13.6 + 10) × 9 ÷ (1 + 2 × 9) = 11.18 V at the bank,
// above the second: it takes current. Without it 13.6 ÷ 10 mΩ = 1360 A flow, with it
// 23.6 × 1000 ÷ 19 = 1242.1 A. On the posts both feed the fault: 23 600 A.
func TestAbsorbingString(t *testing.T) {
	b := alone("lead-acid AGM", n("1"), n("2"))
	other := b.Batteries[0]
	b.Batteries[0].FullV, other.FullV, other.EmptyV = d("13.6"), d("10"), d("9")
	b.Batteries = append(b.Batteries, other)
	f, err := b.Fault(battery.FaultPath{LowMilliohm: d("9"), HighMilliohm: n("9"), LimitedA: n("0")})
	require.NoError(t, err)
	assert.Equal(t, "1360", f.GreatestA.Decimal.String())
	assert.Contains(t, f.Working.String(), "string 2")
	workingtest.Guard(t, f.Working)
	f, err = b.Fault(atPosts)
	require.NoError(t, err)
	assert.Equal(t, "23600", f.GreatestA.Decimal.String())
	// never less than with any string taken away
	for _, path := range []string{"0", "1", "3", "9", "100"} {
		on := battery.FaultPath{LowMilliohm: d(path), HighMilliohm: n("100"), LimitedA: n("0")}
		both, err := b.Fault(on)
		require.NoError(t, err)
		for k := range 2 {
			rest, err := b.Without(k)
			require.NoError(t, err)
			one, err := rest.Fault(on)
			require.NoError(t, err)
			assert.True(t, both.GreatestA.Decimal.GreaterThanOrEqual(one.GreatestA.Decimal), "%s mΩ without %d", path, k)
		}
	}
}

// TestRatingsGiveThemselves: at its own current each rating gives itself back, and
// between them less than the slow and more than the fast one.
func TestRatingsGiveThemselves(t *testing.T) {
	for _, p := range []battery.Peukert{
		twoRatings, {Slow: wells().Slow, Fast: wells().Middle}, {Slow: wells().Middle, Fast: wells().Fast},
		{Slow: battery.HourRating{CapacityAh: d("220"), RateH: d("100")}, Fast: battery.HourRating{CapacityAh: d("171"), RateH: d("7")}},
	} {
		for _, own := range []battery.HourRating{p.Slow, p.Fast} {
			amps := own.CapacityAh.DivRound(own.RateH, 12)
			if !amps.Mul(own.RateH).Equal(own.CapacityAh) {
				amps = amps.RoundDown(6) // 171 ÷ 7 has no last place
			}
			got, err := p.At(amps)
			require.NoError(t, err)
			workingtest.Guard(t, got.Working)
			assert.True(t, got.CapacityAh.Sub(own.CapacityAh).Abs().LessThanOrEqual(d("0.01")), "%s Ah of %s", got.CapacityAh, own.CapacityAh)
		}
	}
	whole, err := twoRatings.At(d("60"))
	require.NoError(t, err)
	assert.Equal(t, "60", whole.CapacityAh.String())
	assert.Equal(t, "1", whole.TimeH.String())
}

// TestNoBatteryIsSoSteep: ratings a hair apart make an exponent of millions.
func TestNoBatteryIsSoSteep(t *testing.T) {
	p := battery.Peukert{Slow: battery.HourRating{CapacityAh: d("100"), RateH: d("20")}, Fast: battery.HourRating{CapacityAh: d("60.0000001"), RateH: d("12")}}
	_, err := p.Exponent()
	assert.ErrorContains(t, err, "exponent is above 5")
	_, err = p.At(d("5.000000001"))
	assert.Error(t, err)
}

// TestTinyIsRefused: what made a division by nought, or an answer about nothing.
func TestTinyIsRefused(t *testing.T) {
	tiny := battery.HourRating{CapacityAh: d("0.00000001"), RateH: d("1000")}
	_, err := battery.Peukert{Slow: tiny, Fast: battery.HourRating{CapacityAh: d("0.000000009"), RateH: d("1")}}.At(d("1"))
	assert.ErrorContains(t, err, "slow.capacity_ah")
	_, err = battery.KineticRatings{Slow: tiny, Middle: tiny, Fast: tiny}.Fit()
	assert.ErrorContains(t, err, "capacity_ah")
	_, err = battery.KineticRatings{
		Slow: battery.HourRating{CapacityAh: d("100"), RateH: d("20")}, Middle: battery.HourRating{CapacityAh: d("50.5"), RateH: d("10")}, Fast: battery.HourRating{CapacityAh: d("2.7425"), RateH: d("0.5")},
	}.Fit()
	assert.ErrorContains(t, err, "three ratings that two wells can give", "a well of three millionths of the whole")
	feed := yard()
	feed.SourceV = d("0.000000000001")
	_, err = feed.Check()
	assert.ErrorContains(t, err, "emf_v")
	feed = yard()
	feed.SurgeW = decimal.Zero
	_, err = feed.Check()
	assert.ErrorContains(t, err, "surge_w", "a forgotten demand is no demand of nought")
}

// TestMassesLeaveTheRearOnTheRoad: a winch of 900 kg three metres before the front
// axle of a wheelbase of 3 m takes 900 kg off the rear, which had 800.
func TestMassesLeaveTheRearOnTheRoad(t *testing.T) {
	v := trailer()
	v.Items = []battery.AddedMass{{Name: "winch", MassKg: d("900"), BehindM: n("-3")}}
	_, err := v.Axles()
	assert.ErrorContains(t, err, "items is masses that leave the rear axle -100 kg")
	v.Items = []battery.AddedMass{{Name: "all of it", MassKg: d("-2000"), BehindM: n("2")}}
	_, err = v.Axles()
	assert.Error(t, err, "no vehicle weighs less than nothing")
	v.Items = []battery.AddedMass{{Name: "forgotten", BehindM: n("2")}}
	_, err = v.Axles()
	assert.ErrorContains(t, err, "items[0].mass_kg")
}

// TestCycle: a lead-acid battery as PVEducation has it, 85 % of the charge and 70 %
// of the energy: 100 Ah in, 85 Ah out; 1400 Wh in, 980 Wh out.
func TestCycle(t *testing.T) {
	c := battery.ChargeCycle{ChargedAh: d("100"), DischargedAh: d("85"), ChargedWh: n("1400"), DischargedWh: n("980")}
	e, err := c.Efficiency()
	require.NoError(t, err)
	assert.Equal(t, "85", e.CoulombicPercent.String())
	assert.Equal(t, "70", e.EnergyPercent.Decimal.String())
	c.DischargedWh = decimal.NullDecimal{}
	e, err = c.Efficiency()
	require.NoError(t, err)
	assert.False(t, e.EnergyPercent.Valid)
	assert.Contains(t, e.Missing, "watt-hours")
	c.DischargedAh = d("101")
	_, err = c.Efficiency()
	assert.ErrorContains(t, err, "as full as it began")
}

// TestRoomAddsUp: the two batteries of the standards' own figures, 0.27 m³/h for 108
// sealed cells of 50 Ah on float (EN 50272-2) and as much again, are 0.54 m³/h, and
// with a quarter on top 0.675; a lithium battery among them adds nothing.
func TestRoomAddsUp(t *testing.T) {
	one := battery.Gassing{Chemistry: "lead-acid AGM", Cells: 108, CapacityAh: d("50"), Charge: "float"}
	lithium := battery.Gassing{Chemistry: "LiFePO4", Cells: 4, CapacityAh: d("100"), Charge: "float"}
	for factor, flow := range map[string]string{"1": "0.54", "1.25": "0.675"} {
		r := battery.GasRoom{Batteries: []battery.Gassing{one, lithium, one}, DesignFactor: d(factor)}
		v, err := r.Ventilation()
		require.NoError(t, err)
		workingtest.Guard(t, v.Working)
		assert.Equal(t, flow, v.FlowM3H.Decimal.String())
		assert.Contains(t, v.Working.String(), "LiFePO4")
	}
	_, err := battery.GasRoom{Batteries: []battery.Gassing{one}}.Ventilation()
	assert.ErrorContains(t, err, "design_factor")
	c, err := battery.GasRoom{Batteries: []battery.Gassing{lithium}, DesignFactor: d("1")}.CheckOpening(d("1"))
	require.NoError(t, err)
	assert.Equal(t, working.NotApplicable, c.Verdict())
}
