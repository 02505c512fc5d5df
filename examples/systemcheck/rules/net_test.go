package rules

import (
	"slices"
	"strings"
	"testing"

	"example.org/extralow/examples/programtest"
	"github.com/stretchr/testify/assert"
)

// TestUnsafeChanges wants every single unsafe change of a sound job caught, those
// of known apart, and each in the way that the golden file says: a change that is
// refused for a slip of the table would look caught.
func TestUnsafeChanges(t *testing.T) {
	if testing.Short() {
		t.Skip("it judges hundreds of jobs")
	}
	tryEdits(t, "unsafe.yaml", known, outcome.passes)
}

// TestHarmlessChanges wants every harmless change of a sound job to stay a pass.
func TestHarmlessChanges(t *testing.T) {
	if testing.Short() {
		t.Skip("it judges hundreds of jobs")
	}
	tryEdits(t, "harmless.yaml", alarms, func(o outcome) bool { return !o.passes() })
}

// tryEdits makes each change of a table; exceptions names those, and no others,
// that are judged wrongly today.
func tryEdits(t *testing.T, table string, exceptions map[string][]string, wrong func(outcome) bool) {
	all := readEdits(t, table)
	lines := make([][]string, len(all))
	t.Run("changes", func(t *testing.T) {
		for i, class := range all {
			lines[i] = make([]string, len(class.Changes))
			for k, e := range class.Changes {
				t.Run(e.ID, func(t *testing.T) {
					t.Parallel()
					o := outcomeOf(e.apply(t))
					lines[i][k] = e.ID + ": " + o.String() + "\n"
					excepted := slices.Contains(exceptions[class.Class], e.ID)
					assert.Equal(t, excepted, wrong(o), "%s: %s (%s); known: %v", class.Class, e.Why, o, excepted)
				})
			}
		}
	})
	for class, ids := range exceptions {
		for _, id := range ids {
			assert.True(t, slices.ContainsFunc(all, func(c edits) bool {
				return c.Class == class && slices.ContainsFunc(c.Changes, func(e edit) bool { return e.ID == id })
			}), "%s is in no table", id)
		}
	}
	programtest.Golden(t, strings.TrimSuffix(table, ".yaml")+".txt", strings.Join(slices.Concat(lines...), ""))
}

// known are the unsafe changes that pass today, by class: none. One that comes to be
// known stands here until it is caught.
var known = map[string][]string{}

// alarms are the harmless changes that fail today: none.
var alarms = map[string][]string{}
