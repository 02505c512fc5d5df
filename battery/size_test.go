package battery_test

import (
	"testing"

	"example.org/extralow/battery"
	"example.org/extralow/tables/working/workingtest"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestStandAloneAged: 1000 Wh at 12 V and 50 % deep are 166.67 Ah; at 80 % of
// the capacity left, a quarter more, 208.34 Ah. The bank so sized gives the day
// at the end of its life (IEEE 485 puts the end at 80 %, from memory).
func TestStandAloneAged(t *testing.T) {
	s := battery.StandAlone{
		EnergyWh: d("1000"), SystemV: d("12"), Days: d("1"), Chemistry: "lead-acid AGM", DepthPercent: n("50"),
		ColdPercent: n("100"), AgeingPercent: n("100"), LoadA: n("0"), ChargeA: n("0"),
	}
	fresh, err := s.Size()
	require.NoError(t, err)
	assert.Equal(t, "166.67", fresh.NeedAh.String())
	s.AgeingPercent = n("80")
	aged, err := s.Size()
	require.NoError(t, err)
	assert.Equal(t, "208.34", aged.NeedAh.String())
	workingtest.Guard(t, aged.Working)
	usable, err := battery.Bank{Series: 1, BatteryC: n("27"), Batteries: []battery.BankBattery{{
		Name: "bank", Chemistry: "lead-acid AGM", NominalV: d("12"), CapacityAh: aged.NeedAh, FullV: d("12.8"), EmptyV: d("12.2"),
		DepthPercent: n("50"), AgeingPercent: n("80"),
	}}}.Usable()
	require.NoError(t, err)
	assert.True(t, usable.EnergyWh.Decimal.GreaterThanOrEqual(s.EnergyWh), usable.EnergyWh.Decimal)
	s.AgeingPercent = n("101")
	_, err = s.Size()
	assert.ErrorContains(t, err, "ageing_percent")
}
