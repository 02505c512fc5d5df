package randomjob_test

import (
	"bytes"
	"fmt"
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/examples/systemcheck/paper"
	"example.org/extralow/examples/systemcheck/randomjob"
	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func ExampleText() {
	text := randomjob.Text(7)
	fmt.Println(bytes.Equal(text, randomjob.Text(7)), bytes.Equal(text, randomjob.Text(8)))
	// Output: true false
}

// TestSound wants every job read without a fault, and no rule to fail; what
// cannot be told is listed with its seed.
func TestSound(t *testing.T) {
	for seed := range uint64(100) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			t.Parallel()
			file, err := job.Read("job.yaml", bytes.NewReader(randomjob.Text(seed)))
			require.NoError(t, err)
			n := len(file.Job().Circuits)
			assert.True(t, n >= 3 && n <= 12, "%d circuits", n)
			report, err := paper.ReportOn(file.Job())
			require.NoError(t, err)
			for _, f := range report.Findings {
				switch f.Verdict() {
				case working.Fails:
					t.Errorf("%s %s: %s %s, %s %s", f.ID, f.Where, f.Asks, f.Demand, f.Allows, f.Limit)
				case working.CannotTell:
					t.Logf("%s %s: %s", f.ID, f.Where, f.Missing)
				}
			}
		})
	}
}
