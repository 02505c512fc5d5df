package facts

import (
	"math"
	"os"
	"slices"
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/wire"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// clinic is the facts of the sample, with changes.
func clinic(t *testing.T, edits ...func(*job.Job)) *Facts {
	t.Helper()
	f, err := os.Open("../jobs/clinic.yaml")
	require.NoError(t, err)
	defer f.Close()
	file, err := job.Read("clinic.yaml", f)
	require.NoError(t, err)
	for _, edit := range edits {
		edit(&file.Job)
	}
	m, err := New(file.Job)
	require.NoError(t, err)
	return m
}

func source(t *testing.T, n wire.Network, name string) wire.NodeSource {
	t.Helper()
	i := slices.IndexFunc(n.Sources, func(s wire.NodeSource) bool { return s.Name == name })
	require.GreaterOrEqual(t, i, 0, name)
	return n.Sources[i]
}

func milliohm(t *testing.T, n wire.Network, name string) float64 {
	t.Helper()
	i := slices.IndexFunc(n.Branches, func(b wire.Branch) bool { return b.Name == name })
	require.GreaterOrEqual(t, i, 0, name)
	return n.Branches[i].Milliohm.InexactFloat64()
}

// TestStrongIsColdAndFull reads the sample: 13.5 V and 3 mΩ of a battery, 180 A
// marked on the alternator (45 A of them are the vehicle's), 25 A of the
// converter. 95 mm² flexible has 0.206 Ω/km at 20 °C (IEC 60228 table 3,
// plain copper): 2 × 0.6 m are 0.2472 mΩ, without contacts.
func TestStrongIsColdAndFull(t *testing.T) {
	n := clinic(t).strong()
	a := source(t, n, "battery A")
	assert.Equal(t, []string{"13.5", "3"}, []string{a.EMFV.String(), a.Milliohm.String()})
	assert.Equal(t, "180", source(t, n, "alternator").LimitA.Decimal.String())
	assert.Equal(t, "25", source(t, n, "engine converter").LimitA.Decimal.String())
	assert.InDelta(t, 0.2472, milliohm(t, n, "battery A lead"), 0.0006) // half of 0.001 Ω/km over 1.2 m
}

// TestWeakIsHotAndEmpty reads the sample: 12.8 V and 9 mΩ of a battery, and no
// charger. Copper above 20 °C has more than those 0.2472 mΩ, and 0.4 mΩ of
// contacts stand in the loop; at the 90 °C that the insulation bears it has
// 1 + 0.00393 × 70 times as much (IEC 60228 annex A), which is the most.
func TestWeakIsHotAndEmpty(t *testing.T) {
	n := clinic(t).weak("", "")
	a := source(t, n, "battery A")
	assert.Equal(t, []string{"12.8", "9"}, []string{a.EMFV.String(), a.Milliohm.String()})
	for _, s := range n.Sources {
		assert.Contains(t, []string{"battery A", "battery B", "starter battery"}, s.Name)
	}
	lead := milliohm(t, n, "battery A lead")
	assert.Greater(t, lead, 0.2472*(1+0.00393*20)+0.4) // its air alone is 40 °C
	assert.LessOrEqual(t, lead, math.Ceil((0.2472*(1+0.00393*70)+0.4)*1000)/1000)
}

// TestWeakWithoutBattery wants the smallest fault with one battery gone: less
// than with both, and named.
func TestWeakWithoutBattery(t *testing.T) {
	m := clinic(t)
	for _, s := range m.weak("battery B", "").Sources {
		assert.NotEqual(t, "battery B", s.Name)
	}
	both, err := m.weakFault("", "", "inverter")
	require.NoError(t, err)
	i := slices.IndexFunc(m.Runs, func(r *Run) bool { return r.Name == "inverter feed" })
	_, smallest, corner, err := m.smallestThrough("inverter", m.Runs[i])
	require.NoError(t, err)
	assert.Contains(t, corner, "without battery ")
	assert.True(t, smallest.LessThan(both.CurrentA), "%s, %s", smallest, both.CurrentA)
}

// TestBackingOfSources wants what a limited source can give behind a node: the
// charger's 30 A, the alternator's marked 180 A and not what the vehicle leaves.
func TestBackingOfSources(t *testing.T) {
	m := clinic(t)
	behind := func(node, name string) Backing {
		i := slices.IndexFunc(m.Runs, func(r *Run) bool { return r.Name == name })
		return m.Behind(node, m.Runs[i])
	}
	charger := behind("mains charger", "mains charger output")
	assert.Equal(t, []any{"30", false, true, false}, []any{charger.LimitA.String(), charger.Unlimited, charger.Fed, charger.Battery})
	alternator := behind("alternator", "alternator lead")
	assert.Equal(t, []any{"180", false}, []any{alternator.LimitA.String(), alternator.Unlimited})
	// 175 A of the other battery's device, and 25 + 30 + 15 A of the chargers.
	bus := behind("main bus", "battery A lead")
	assert.Equal(t, []any{"245", "70", 1}, []any{bus.LimitA.String(), bus.OwnA.String(), len(bus.Guards)})
}
