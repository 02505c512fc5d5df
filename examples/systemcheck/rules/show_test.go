package rules_test

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"example.org/extralow/examples/programtest"
	"example.org/extralow/examples/systemcheck/rules"
	"example.org/extralow/tables/cite"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Each rule says everything of itself, once: the pages of -rules and -rule and the
// order of findings rest on it.
func TestRulesAreWhole(t *testing.T) {
	ranks, ids := map[int]string{}, map[string]bool{}
	for _, r := range rules.Rules() {
		assert.Regexp(t, `^[WPBC]\d\d$`, r.ID)
		assert.False(t, ids[r.ID], "%s stands twice", r.ID)
		assert.Empty(t, ranks[r.Rank], "%s has the rank of another", r.ID)
		ids[r.ID], ranks[r.Rank] = true, r.ID
		for what, text := range map[string]string{"title": r.Title, "danger": r.Danger, "why": r.Why} {
			assert.NotEmpty(t, text, "%s: %s", r.ID, what)
			assert.False(t, strings.HasSuffix(text, "."), "%s: %s", r.ID, what)
		}
		assert.NotNil(t, r.Judge, r.ID)
		for id := range r.AdviceFor {
			assert.Contains(t, r.Also, id, r.ID)
		}
		if len(r.Tries) > 0 {
			assert.NotZero(t, r.Changes, "%s: what is tried can change it", r.ID)
		}
	}
}

// A reader may shorten the list: the rules stay as they are.
func TestRulesAreACopy(t *testing.T) {
	all := rules.Rules()
	before := all[0].ID
	all[0].ID = "X"
	assert.Equal(t, before, rules.Rules()[0].ID)
}

func TestFind(t *testing.T) {
	for id, want := range map[string]string{"P09": "P09", "P11": "P09", "B16": "B14", "P16": "P15"} {
		r, ok := rules.Find(id)
		require.True(t, ok, id)
		assert.Equal(t, want, r.ID)
	}
	_, ok := rules.Find("Z01")
	assert.False(t, ok)
}

// The pages of every rule, as a reader sees them.
func TestPagesOfRules(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, rules.List(&out))
	for _, r := range rules.Rules() {
		out.WriteString("\n")
		require.NoError(t, rules.Show(&out, strings.ToLower(r.ID)))
	}
	programtest.Golden(t, "rules.txt", out.String())
	programtest.Narrow(t, out.String())
	assert.ErrorContains(t, rules.Show(&out, "P99"), `rule is "P99": want one of B01, B02`)
}

// No set at all has no strictest, and an unknown rule none either.
func TestStrictestOfNone(t *testing.T) {
	_, _, ok := rules.StrictestSet(nil, "W01")
	assert.False(t, ok)
	all, err := rules.Compare(read(t, "clinic.yaml"))
	require.NoError(t, err)
	_, _, ok = rules.StrictestSet(all, "Z01")
	assert.False(t, ok)
	set, _, ok := rules.StrictestSet(all, "W01")
	assert.True(t, ok)
	assert.True(t, slices.ContainsFunc(all, func(v rules.SetVerdict) bool { return v.Set.Key == set.Set.Key }))
}

// TestSourcesOfRules: the law that a rule names is one that its findings cite. Of those
// whose findings have no lines nothing but practice or arithmetic is claimed.
func TestSourcesOfRules(t *testing.T) {
	cited := map[string]map[string]bool{}
	for _, name := range []string{"clinic", "library-truck", "river-workboat", "trailer-with-faults", "survey-launch-with-faults", "no-fuse-fits"} {
		for _, f := range judge(t, read(t, name+".yaml")).Findings {
			if cited[f.Rule] == nil {
				cited[f.Rule] = map[string]bool{}
			}
			cited[f.Rule][f.Source.Key] = true
			for _, line := range f.Working {
				cited[f.Rule][line.Source.Key] = true
			}
		}
	}
	for _, r := range rules.Rules() {
		assert.NotEmpty(t, r.Sources, r.ID)
		for _, source := range r.Sources {
			plain := source == cite.Practice.Key || source == cite.Arithmetic.Key
			assert.True(t, plain || cited[r.ID][source], "%s: %s", r.ID, source)
		}
	}
}
