// Package programtest holds the small programs to what they print: golden files
// in their testdata, renewed by go test -update and then read.
package programtest

import (
	"bytes"
	"flag"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"example.org/extralow/examples/form"
	"example.org/extralow/tables/working/workingtest"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the golden files; then read the difference")

// Program is the whole of one: it takes the arguments and returns the exit status.
type Program func(args []string, out, errs io.Writer) int

// Ask runs the program.
func (run Program) Ask(args ...string) (status int, out, errs string) {
	var o, e bytes.Buffer
	status = run(args, &o, &e)
	return status, o.String(), e.String()
}

// Golden wants the text that a golden file holds.
func Golden(t *testing.T, name, got string) {
	t.Helper()
	golden := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.WriteFile(golden, []byte(got), 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	assert.Equal(t, string(want), got, name)
}

// Narrow wants no line beyond 80 columns.
func Narrow(t *testing.T, out string) {
	t.Helper()
	for line := range strings.Lines(out) {
		assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), 80, line)
	}
}

// Answers runs the program with the arguments of each golden file, and checks
// the width of every line, the printed arithmetic and the caution at the end. The
// answers that are no end with status 1.
func (run Program) Answers(t *testing.T, answers map[string][]string, no ...string) {
	for name, args := range answers {
		t.Run(name, func(t *testing.T) {
			status, out, errs := run.Ask(args...)
			want := 0
			if slices.Contains(no, name) {
				want = 1
			}
			require.Equal(t, want, status, errs)
			assert.Empty(t, errs)
			Golden(t, name, out)
			Narrow(t, out)
			workingtest.Page(t, name, out)
			assert.Regexp(t, `\nCaution: [^\n]+\n$`, out)
		})
	}
}

// NoArguments wants an answer by the sample values, without the working.
func (run Program) NoArguments(t *testing.T) {
	t.Helper()
	status, out, errs := run.Ask()
	assert.Zero(t, status)
	assert.Empty(t, errs)
	assert.NotContains(t, out, "(given)", "the working is printed on request only")
}

// Help wants every flag of the form in the help, with the words that it takes; it
// takes the first and the last of them, and no other.
func (run Program) Help(t *testing.T, entries []form.Entry) {
	t.Helper()
	status, out, errs := run.Ask("-h")
	assert.Zero(t, status)
	assert.Empty(t, out)
	for _, e := range entries {
		assert.Contains(t, errs, "-"+e.Name)
		if e.Words != nil {
			run.takes(t, e.Name, e.Words(), errs)
		}
	}
}

func (run Program) takes(t *testing.T, flag string, words []string, help string) {
	t.Helper()
	require.NotEmpty(t, words, flag)
	list := strings.Join(strings.Fields(help), " ")
	for _, word := range []string{words[0], words[len(words)-1]} {
		assert.Contains(t, list, word)
		_, _, errs := run.Ask("-"+flag, word)
		assert.NotContains(t, errs, flag+" is", "%s %s", flag, word)
	}
	status, _, errs := run.Ask("-"+flag, "no such word")
	assert.Equal(t, 2, status, flag)
	assert.Contains(t, errs, flag+` is "no such word"`)
}
