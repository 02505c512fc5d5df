package rules

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v3"
)

// edit is one alteration of a sample, as the tables of testdata state
// it. A path names an item of a list by its name or its number:
// circuits[panel feed].device.rating_a.
type edit struct {
	ID     string
	In     string               // the sample, without .yaml
	Why    string               // what makes it unsafe, or harmless
	Text   map[string]string    // text by text in its place; each stands in the file once
	Rename map[string]string    // a value by the value in its place, wherever it stands
	Set    map[string]yaml.Node // a key that is there gets another value
	Add    map[string]yaml.Node // a key that is not there; "loads[]" adds to a list
	Delete []string             // a key or an item that is there
}

// edits are all changes of one class.
type edits struct {
	Class   string
	Changes []edit
}

// readEdits reads a table of testdata.
func readEdits(t *testing.T, name string) []edits {
	t.Helper()
	f, err := os.Open(filepath.Join("testdata", name))
	require.NoError(t, err)
	defer f.Close()
	var all []edits
	decoder := yaml.NewDecoder(f)
	decoder.KnownFields(true)
	require.NoError(t, decoder.Decode(&all))
	seen := map[string]bool{}
	for _, class := range all {
		for _, e := range class.Changes {
			require.False(t, seen[e.ID], "two changes are called %s", e.ID)
			require.NotEmpty(t, e.Why, e.ID)
			seen[e.ID] = true
		}
	}
	return all
}

// apply returns the sample with the change; one that finds nothing to change is a
// mistake of the table.
func (e edit) apply(t *testing.T) []byte {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "jobs", e.In+".yaml"))
	require.NoError(t, err)
	for from, to := range e.Text {
		require.Equal(t, 1, strings.Count(string(text), from), "%q in %s", from, e.In)
		text = []byte(strings.Replace(string(text), from, to, 1))
	}
	var root yaml.Node
	require.NoError(t, yaml.Unmarshal(text, &root))
	for from, to := range e.Rename {
		require.Positive(t, rename(&root, from, to), "%q in %s", from, e.In)
	}
	for _, path := range e.Delete {
		require.NoError(t, deleteAt(&root, path), e.ID)
	}
	for path, value := range e.Set {
		require.NoError(t, setAt(&root, path, unaliased(&value)), e.ID)
	}
	for path, value := range e.Add {
		require.NoError(t, addAt(&root, path, unaliased(&value)), e.ID)
	}
	if len(e.Rename)+len(e.Delete)+len(e.Set)+len(e.Add) == 0 {
		return text
	}
	edited, err := yaml.Marshal(&root)
	require.NoError(t, err)
	return edited
}

// rename puts a value in place of another wherever it stands, and counts.
func rename(n *yaml.Node, from, to string) (count int) {
	if n.Kind == yaml.ScalarNode && n.Value == from {
		n.Value, count = to, 1
	}
	for _, inside := range n.Content {
		count += rename(inside, from, to)
	}
	return count
}

// unaliased copies a value, with what an alias in it stands for in its place.
func unaliased(n *yaml.Node) *yaml.Node {
	if n.Kind == yaml.AliasNode {
		return unaliased(n.Alias)
	}
	own := *n
	own.Anchor, own.Content = "", nil
	for _, inside := range n.Content {
		own.Content = append(own.Content, unaliased(inside))
	}
	return &own
}

// setAt gives a key that is there another value.
func setAt(root *yaml.Node, path string, value *yaml.Node) error {
	n, _, _, err := find(root, path)
	if err == nil {
		*n = *value
	}
	return err
}

// addAt adds a key that is not there, or an item to a list.
func addAt(root *yaml.Node, path string, value *yaml.Node) error {
	if list, ok := strings.CutSuffix(path, "[]"); ok {
		n, _, _, err := find(root, list)
		if err != nil {
			return err
		}
		n.Content = append(n.Content, value)
		return nil
	}
	if _, _, _, err := find(root, path); err == nil {
		return fmt.Errorf("%s is there already", path)
	}
	in, key := root.Content[0], path
	if dot := strings.LastIndex(path, "."); dot >= 0 {
		var err error
		if in, _, _, err = find(root, path[:dot]); err != nil {
			return err
		}
		key = path[dot+1:]
	}
	in.Content = append(in.Content, &yaml.Node{Kind: yaml.ScalarNode, Value: key}, value)
	return nil
}

// deleteAt takes a key or an item away.
func deleteAt(root *yaml.Node, path string) error {
	_, in, at, err := find(root, path)
	if err != nil {
		return err
	}
	size := 1
	if in.Kind == yaml.MappingNode {
		at, size = at-1, 2
	}
	in.Content = slices.Delete(in.Content, at, at+size)
	return nil
}

// find returns what stands at a path, what it stands in and as which of it.
func find(root *yaml.Node, path string) (n, in *yaml.Node, at int, err error) {
	n = root.Content[0]
	for _, key := range split(path) {
		in, at = n, slices.IndexFunc(n.Content, func(c *yaml.Node) bool { return c.Kind == yaml.ScalarNode && c.Value == key })
		switch {
		case in.Kind == yaml.MappingNode && at >= 0:
			at++
		case in.Kind == yaml.SequenceNode:
			at = item(in, key)
		}
		if at < 0 || at >= len(in.Content) {
			return nil, nil, 0, fmt.Errorf("no %s in %s", key, path)
		}
		n = in.Content[at]
	}
	return n, in, at, nil
}

// split returns the keys and the names of items of a path.
func split(path string) []string {
	return strings.FieldsFunc(strings.ReplaceAll(path, "[", "."), func(r rune) bool { return r == '.' || r == ']' })
}

// item finds an item of a list by its number, or its name, or what it is.
func item(list *yaml.Node, name string) int {
	if i, err := strconv.Atoi(name); err == nil {
		return i
	}
	return slices.IndexFunc(list.Content, func(n *yaml.Node) bool {
		if n.Kind == yaml.ScalarNode {
			return n.Value == name
		}
		named, _, _, err := find(&yaml.Node{Content: []*yaml.Node{n}}, "name")
		return err == nil && named.Value == name
	})
}

// outcome is what becomes of a file: refused, or what fails and cannot be told.
type outcome struct {
	refused string // the first fault of it
	bad     []string
}

// passes reports whether the head verdict is a pass.
func (o outcome) passes() bool { return o.refused == "" && len(o.bad) == 0 }

// String is one line.
func (o outcome) String() string {
	switch {
	case o.refused != "":
		return "refused: " + o.refused
	case len(o.bad) > 0:
		return strings.Join(o.bad, "; ")
	default:
		return "passes"
	}
}

// outcomeOf reads a file and judges it, without looking for remedies.
func outcomeOf(text []byte) outcome {
	file, err := job.Read("job.yaml", strings.NewReader(string(text)))
	if err != nil {
		first, _, _ := strings.Cut(err.Error(), "\n")
		_, said, _ := strings.Cut(first, ": ")
		return outcome{refused: said}
	}
	found, err := judged(file.Job())
	if err != nil {
		first, _, _ := strings.Cut(err.Error(), "\n")
		return outcome{refused: first}
	}
	return outcome{bad: badOf(found)}
}

// judged judges a job by every rule, without remedies and tables.
func judged(j job.Job) ([]Finding, error) {
	m, err := facts.New(j)
	if err != nil {
		return nil, err
	}
	return Judge(m)
}

// badOf lists each rule that fails or cannot tell, once: "P02 fails".
func badOf(found []Finding) []string {
	var all []string
	for _, f := range found {
		if v := f.Verdict(); v == working.Fails || v == working.CannotTell {
			all = append(all, fmt.Sprintf("%s %s", f.ID, v))
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}
