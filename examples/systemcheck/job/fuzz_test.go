package job

import (
	"bytes"
	"os"
	"testing"

	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/require"
)

// FuzzRead wants of any bytes a job, or faults of one line each in the order
// of the file, and no panic.
func FuzzRead(f *testing.F) {
	good := van(f)
	inJSON, err := os.ReadFile("testdata/van.json")
	require.NoError(f, err)
	f.Add([]byte(good))
	f.Add(inJSON)
	for _, m := range mistakes {
		f.Add([]byte(m.new)) // short, so that the fuzzer gets on
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		file, err := Read("fuzz.yaml", bytes.NewReader(text))
		if err == nil {
			placed := file.Place(&working.InputError{Field: "circuits[0].length_m", Got: "0", Want: "more"})
			require.Len(t, faultsOf(t, placed), 1)
			return
		}
		require.Nil(t, file)
		last := &Fault{}
		for _, fault := range faultsOf(t, err) {
			require.NotContains(t, fault.Error(), "\n")
			require.NotEmpty(t, fault.Want)
			require.GreaterOrEqual(t, fault.Line, last.Line)
			last = fault
		}
	})
}
