// Package examples_test guards the house: which package may import which, what
// stands at the top level, and which names and keys others rely on.
package examples_test

import (
	"flag"
	"go/ast"
	"go/doc"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the golden lists; then read the difference")

const module = "example.org/extralow/"

// libraries are the packages that others import, lowest first. Each may import
// those in its list and nothing else of this module.
var libraries = map[string][]string{
	"tables/cite":       {},
	"tables/working":    {"tables/cite"},
	"tables":            {"tables/cite", "tables/working"},
	"wire":              {"tables", "tables/cite", "tables/working", "wire/internal/nodal"},
	"wire/installation": {"tables", "tables/cite", "tables/working", "wire", "wire/internal/nodal"},
	"protect":           {"tables", "tables/cite", "tables/working"},
	"battery":           {"tables", "tables/cite", "tables/working"},
	"charge":            {"tables", "tables/cite", "tables/working"},
}

// internals serve libraries alone. Their floats never leave a library, and nobody
// else relies on their names.
var internals = map[string][]string{"wire/internal/nodal": {}}

// parse returns the files of a package that are not tests.
func parse(t *testing.T, dir string) []*ast.File {
	t.Helper()
	return parseInto(t, token.NewFileSet(), dir)
}

func parseInto(t *testing.T, fset *token.FileSet, dir string) []*ast.File {
	t.Helper()
	names, err := filepath.Glob(filepath.Join("..", dir, "*.go"))
	require.NoError(t, err)
	var files []*ast.File
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(fset, name, nil, parser.ParseComments)
		require.NoError(t, err)
		files = append(files, f)
	}
	return files
}

func TestImports(t *testing.T) {
	all := maps.Clone(libraries)
	maps.Copy(all, internals)
	for dir, may := range all {
		for _, f := range parse(t, dir) {
			for _, spec := range f.Imports {
				path := strings.Trim(spec.Path.Value, `"`)
				own, inside := strings.CutPrefix(path, module)
				switch {
				case inside:
					assert.Contains(t, may, own, "%s imports %s", dir, path)
				case strings.Contains(strings.Split(path, "/")[0], "."):
					assert.Equal(t, "github.com/shopspring/decimal", path, "%s imports %s", dir, path)
					assert.NotEqual(t, "tables/cite", dir, "cite takes nothing but the standard library")
				}
			}
		}
	}
}

// rooms are those of the whole check. Each may import the rooms before it, and none
// after it.
var rooms = []string{"job", "facts", "rules", "mend", "paper"}

func TestRoomsImportOneWay(t *testing.T) {
	const check = "examples/systemcheck/"
	for i, room := range rooms {
		for _, f := range parse(t, check+room) {
			for _, spec := range f.Imports {
				if own, inside := strings.CutPrefix(strings.Trim(spec.Path.Value, `"`), module+check); inside {
					assert.Contains(t, rooms[:i], own, "%s imports %s", room, own)
				}
			}
		}
	}
}

// TestARuleStandsInOneFile wants the id of each rule, as code, in the file of its
// subject alone: whoever adds one touches that and a sample. What a finding of one
// rule says of another is prose.
func TestARuleStandsInOneFile(t *testing.T) {
	id := regexp.MustCompile(`^"[WPBC]\d\d"$`)
	files := map[string]map[string]bool{}
	for _, room := range rooms[1:] {
		fset := token.NewFileSet()
		for _, f := range parseInto(t, fset, "examples/systemcheck/"+room) {
			ast.Inspect(f, func(n ast.Node) bool {
				if x, ok := n.(*ast.BasicLit); ok && id.MatchString(x.Value) {
					if files[x.Value] == nil {
						files[x.Value] = map[string]bool{}
					}
					files[x.Value][filepath.Base(fset.Position(x.Pos()).Filename)] = true
				}
				return true
			})
		}
	}
	assert.NotEmpty(t, files)
	for rule, in := range files {
		assert.Len(t, in, 1, "%s: %v", rule, slices.Sorted(maps.Keys(in)))
	}
}

func TestTopLevel(t *testing.T) {
	want := []string{"DEVELOPERS.md", "LICENSE", "README.md", "battery", "charge", "examples", "go.mod", "go.sum", "protect", "tables", "wire"}
	entries, err := os.ReadDir("..")
	require.NoError(t, err)
	var got []string
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), ".") {
			got = append(got, e.Name())
		}
	}
	assert.Equal(t, want, got)
}

// TestNoDrawers keeps out packages and files that are named for nothing.
func TestNoDrawers(t *testing.T) {
	err := filepath.WalkDir("..", func(path string, e fs.DirEntry, err error) error {
		require.NoError(t, err)
		name := strings.TrimSuffix(e.Name(), ".go")
		assert.NotContains(t, []string{"util", "utils", "common", "helpers", "types", "base", "misc"}, name, path)
		if e.IsDir() && e.Name() == ".git" {
			return filepath.SkipDir
		}
		return nil
	})
	require.NoError(t, err)
}

// golden compares lines with a file of testdata.
func golden(t *testing.T, name string, lines []string) {
	t.Helper()
	slices.Sort(lines)
	got := strings.Join(slices.Compact(lines), "\n") + "\n"
	file := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(want), got, "run go test ./examples -update and read the difference")
}

func TestExportedNames(t *testing.T) {
	var lines []string
	for dir := range libraries {
		fset := token.NewFileSet()
		p, err := doc.NewFromFiles(fset, parseInto(t, fset, dir), module+dir)
		require.NoError(t, err, dir)
		add := func(names ...string) {
			for _, n := range names {
				lines = append(lines, dir+"."+n)
			}
		}
		for _, v := range slices.Concat(p.Consts, p.Vars) {
			add(v.Names...)
		}
		for _, f := range p.Funcs {
			add(f.Name)
		}
		for _, ty := range p.Types {
			add(ty.Name)
			for _, v := range slices.Concat(ty.Consts, ty.Vars) {
				add(v.Names...)
			}
			for _, f := range ty.Funcs {
				add(f.Name)
			}
			for _, m := range ty.Methods {
				add(ty.Name + "." + m.Name)
			}
		}
	}
	golden(t, "exported.txt", slices.DeleteFunc(lines, func(l string) bool {
		name := l[strings.LastIndex(l, ".")+1:]
		return !ast.IsExported(name)
	}))
}

func TestJSONKeys(t *testing.T) {
	var lines []string
	for dir := range libraries {
		for _, f := range parse(t, dir) {
			ast.Inspect(f, func(n ast.Node) bool {
				field, ok := n.(*ast.Field)
				if !ok || field.Tag == nil {
					return true
				}
				tag := reflect.StructTag(strings.Trim(field.Tag.Value, "`")).Get("json")
				key, _, _ := strings.Cut(tag, ",")
				if key != "" && key != "-" {
					lines = append(lines, dir+" "+key)
				}
				return true
			})
		}
	}
	golden(t, "json-keys.txt", lines)
}

// numbers visits every exported field that holds numbers, with its key in JSON.
func numbers(t *testing.T, visit func(dir, kind, field, key string)) {
	t.Helper()
	for dir := range libraries {
		for _, f := range parse(t, dir) {
			ast.Inspect(f, func(n ast.Node) bool {
				spec, ok := n.(*ast.TypeSpec)
				if !ok {
					return true
				}
				of, ok := spec.Type.(*ast.StructType)
				if !ok || !ast.IsExported(spec.Name.Name) {
					return false
				}
				for _, field := range of.Fields.List {
					if len(field.Names) == 1 && field.Tag != nil && isNumber(field.Type) {
						tag := reflect.StructTag(strings.Trim(field.Tag.Value, "`")).Get("json")
						key, _, _ := strings.Cut(tag, ",")
						visit(dir, spec.Name.Name, field.Names[0].Name, key)
					}
				}
				return false
			})
		}
	}
}

func isNumber(e ast.Expr) bool {
	if list, ok := e.(*ast.ArrayType); ok {
		e = list.Elt
	}
	sel, ok := e.(*ast.SelectorExpr)
	return ok && (sel.Sel.Name == "Decimal" || sel.Sel.Name == "NullDecimal")
}

// TestOneKeyOneMeaning: the key of a number stands in the vocabulary, which ties it
// to one symbol and one unit for the whole library, and ends as its field does.
func TestOneKeyOneMeaning(t *testing.T) {
	known := map[string]working.Name{}
	for _, n := range working.Vocabulary() {
		other, taken := known[n.Key]
		assert.False(t, taken, "%s is the key of %q and of %q", n.Key, other.Symbol, n.Symbol)
		known[n.Key] = n
	}
	numbers(t, func(dir, kind, field, key string) {
		_, ok := known[key]
		assert.True(t, ok, "%s.%s: the key %s stands in no line of tables/working/names.go", dir, kind, key)
	})
}

// TestEveryDecimalFieldNamesItsUnit walks the exported structs: the name of a
// quantity ends in its unit.
func TestEveryDecimalFieldNamesItsUnit(t *testing.T) {
	units := []string{
		"A", "V", "W", "Wh", "Ah", "H", "S", "M", "MM", "MM2", "MM3", "M2", "M3", "C", "K", "Kg", "N", "Nm", "J", "Milliohm", "MilliohmPerM",
		"Ohm", "MilliV", "MilliA", "Percent", "PerHour", "PerMin", "Days", "Years", "Deg", "Rad", "UF", "F", "HP", "Cmil",
		"HoursADay", "OnHours", "CyclesAYear", "Cycles", "MilliohmEach", "Resistivity", // Ω mm²/m
		// bare numbers
		"Ratio", "Factor", "Efficiency", "Share", "Margin", "Times", "Exponent", "Density", "Reading", "Dilution",
		"Albedo", "Clearness", "Distance", "Value", "Within", "Demand", "Limit",
	}
	for dir := range libraries {
		for _, f := range parse(t, dir) {
			ast.Inspect(f, func(n ast.Node) bool {
				field, ok := n.(*ast.Field)
				if !ok || len(field.Names) == 0 || field.Tag == nil {
					return true
				}
				sel, ok := field.Type.(*ast.SelectorExpr)
				if !ok || sel.Sel.Name != "Decimal" && sel.Sel.Name != "NullDecimal" {
					return true
				}
				for _, name := range field.Names {
					named := slices.ContainsFunc(units, func(u string) bool { return strings.HasSuffix(name.Name, u) })
					assert.True(t, named, "%s: field %s does not end in a unit", dir, name.Name)
				}
				return true
			})
		}
	}
}
