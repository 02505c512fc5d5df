package facts

import (
	"os"
	"slices"
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/wire/installation"
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
	j := file.Job()
	for _, edit := range edits {
		edit(&j)
	}
	m, err := New(j)
	require.NoError(t, err)
	return m
}

// TestDrawnColdAndFull reads the sample as it is drawn: 13.5 V and 3 mΩ of a battery
// full, 12.8 V and 9 mΩ nearly empty, 180 A marked on the alternator (45 A of them are
// the vehicle's), 25 A of the converter, 0.4 mΩ of contacts in the lead of a battery.
func TestDrawnColdAndFull(t *testing.T) {
	in, err := clinic(t).drawn()
	require.NoError(t, err)
	a := in.Batteries[slices.IndexFunc(in.Batteries, func(b installation.Battery) bool { return b.Name == "battery A" })]
	assert.Equal(t, []string{"13.5", "3", "12.8", "9", "12.8"}, []string{a.FullV.String(), a.LowMilliohm.String(), a.EmptyV.String(), a.HighMilliohm.String(), a.LeastV.String()})
	most := map[string]string{}
	for _, s := range in.Sources {
		most[s.Name] = s.GreatestA.String()
	}
	assert.Equal(t, []string{"180", "25"}, []string{most["alternator"], most["engine converter"]})
	lead := in.Circuits[slices.IndexFunc(in.Circuits, func(c installation.Circuit) bool { return c.Name == "battery A lead" })]
	assert.Equal(t, []string{"0.4", "0.6"}, []string{lead.JointsMilliohm.String(), lead.Sections[0].LengthM.String()})
}

// TestWeakWithoutBattery wants the smallest fault with one battery gone, and named.
func TestWeakWithoutBattery(t *testing.T) {
	m := clinic(t)
	r := m.run("inverter feed")
	e := r.EndAt(r.From)
	f, corner, err := m.OfBattery(e, e)
	require.NoError(t, err)
	assert.Contains(t, corner, "without battery ")
	assert.True(t, f.LeastFaultA.LessThan(f.GreatestFaultA.Decimal), "%s, %s", f.LeastFaultA, f.GreatestFaultA.Decimal)
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
