package tables

import (
	"io/fs"
	"testing"
	"testing/fstest"

	"example.org/extralow/tables/cite"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestEveryFileLoads reads every data file as text: a known document, a word of
// the confidence scale and no figure without a source on any row.
func TestEveryFileLoads(t *testing.T) {
	names, err := fs.Glob(files, "data/*.csv")
	require.NoError(t, err)
	used := map[string]bool{}
	for _, name := range names {
		if name == "data/catalogue.csv" {
			continue
		}
		_, err := read(files, name, func(r *record) cite.Source {
			used[r.text("source")] = true
			return r.source()
		})
		assert.NoError(t, err, name)
	}
}

func TestBrokenDataReportsEveryFault(t *testing.T) {
	broken := fstest.MapFS{"data/x.csv": {Data: []byte("size,area_mm2,source,confidence,where\n16 mm2,sixteen,nowhere,sure,\n")}}
	_, err := read(broken, "data/x.csv", func(r *record) int {
		r.figure("area_mm2", "mm²")
		r.text("colour")
		return 0
	})
	require.Error(t, err)
	for _, want := range []string{`x.csv:2: area_mm2 is "sixteen"`, `source "nowhere", confidence "sure"`, "no column colour"} {
		assert.ErrorContains(t, err, want)
	}
	_, err = read(broken, "data/y.csv", func(*record) int { return 0 })
	assert.Error(t, err)
}

func TestRuleSetsAreWhole(t *testing.T) {
	for _, r := range RuleSets() {
		got, err := RuleSetOf(r.Key)
		require.NoError(t, err)
		assert.Equal(t, r.Name, got.Name)
		for _, name := range append(r.Ampacity.Metric, r.Ampacity.Gauge...) {
			assert.Condition(t, func() bool {
				for _, c := range columns() {
					if c.Table == name {
						return true
					}
				}
				return false
			}, "%s: no ampacity table %s", r.Key, name)
		}
	}
}
