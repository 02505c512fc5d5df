package job_test

import (
	"os"
	"path/filepath"
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestASampleChecksAsItReads: what a file was read for is sound as a value too.
func TestASampleChecksAsItReads(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("..", "jobs", "*.yaml"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, name := range files {
		f, err := os.Open(name)
		require.NoError(t, err)
		file, err := job.Read(name, f)
		require.NoError(t, f.Close())
		require.NoError(t, err)
		assert.NoError(t, file.Job().Check(), name)
	}
}

// TestAJobOfNoFileIsJudgedAsOne: the same faults, each with its path.
func TestAJobOfNoFileIsJudgedAsOne(t *testing.T) {
	sound := func() job.Job {
		f, err := os.Open(filepath.Join("testdata", "van.yaml"))
		require.NoError(t, err)
		defer f.Close()
		file, err := job.Read("van.yaml", f)
		require.NoError(t, err)
		return file.Job()
	}
	for _, c := range []struct {
		field string
		spoil func(j *job.Job)
	}{
		{"circuits[0].length_m", func(j *job.Job) { j.Circuits[0].LengthM = decimal.Zero }},
		{"circuits[0].contacts_milliohm", func(j *job.Job) { j.Circuits[0].ContactsMilliohm = decimal.New(1, 2_000_000_000) }},
		{"system_v", func(j *job.Job) { j.SystemV = decimal.NewFromInt(13) }},
		{"batteries[0].name", func(j *job.Job) { j.Batteries[0].Name = "" }},
		{"circuits", func(j *job.Job) { j.Circuits = nil }},
		{"needs.refill_h", func(j *job.Job) { j.Needs = job.Needs{} }},
		{"batteries[0].max_charge_a", func(j *job.Job) { j.Batteries[0].MaxChargeA = decimal.NewNullDecimal(decimal.NewFromInt(-5)) }},
	} {
		j := sound()
		require.NoError(t, j.Check())
		c.spoil(&j)
		err := j.Check()
		require.Error(t, err, c.field)
		var fields []string
		for _, e := range working.Inputs(err) {
			fields = append(fields, e.Field)
		}
		assert.Contains(t, fields, c.field, "%v", err)
	}
	assert.Error(t, job.Job{}.Check())
}
