package examples_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestReadmeProgramRuns: what the README shows to those who import the library
// builds, runs and prints an answer with its sources.
func TestReadmeProgramRuns(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "README.md"))
	require.NoError(t, err)
	_, rest, ok := strings.Cut(string(text), "```go\n")
	require.True(t, ok)
	program, _, ok := strings.Cut(rest, "```")
	require.True(t, ok)
	file := filepath.Join(t.TempDir(), "main.go")
	require.NoError(t, os.WriteFile(file, []byte(program), 0o600))
	out, err := exec.Command("go", "run", file).CombinedOutput()
	require.NoError(t, err, string(out))
	assert.Regexp(t, `^[0-9.]+ V; as sure as: [a-z ]+\n`, string(out))
	assert.Contains(t, string(out), "BS 7671")
}

// TestReadmeNamesWhatIsThere: every path that the README leads to exists.
func TestReadmeNamesWhatIsThere(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "README.md"))
	require.NoError(t, err)
	links := 0
	for _, part := range strings.Split(string(text), "](")[1:] {
		target, _, _ := strings.Cut(part, ")")
		if strings.Contains(target, "://") {
			continue
		}
		links++
		_, err := os.Stat(filepath.Join("..", target))
		assert.NoError(t, err, target)
	}
	for _, line := range strings.Split(string(text), "\n") {
		for _, word := range strings.FieldsFunc(line, func(r rune) bool { return strings.ContainsRune(" `|()", r) }) {
			if path, ok := strings.CutPrefix(word, "./examples/"); ok {
				_, err := os.Stat(path)
				assert.NoError(t, err, line)
			}
		}
	}
	assert.Greater(t, links, 8)
}
