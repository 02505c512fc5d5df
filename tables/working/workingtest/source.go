package workingtest

import (
	"go/ast"
	"go/doc"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
)

// described are the methods that the language gives its meaning to.
var described = []string{"String", "Error", "MarshalText", "UnmarshalText", "MarshalJSON", "UnmarshalJSON"}

// packageDoc reads the package that is tested, in the folder where its tests run.
func packageDoc(t *testing.T) *doc.Package {
	t.Helper()
	p, err := parsed()
	if err != nil {
		t.Fatal(err)
	}
	return p
}

var parsed = sync.OnceValues(func() (*doc.Package, error) {
	names, err := filepath.Glob("*.go")
	if err != nil {
		return nil, err
	}
	fset := token.NewFileSet()
	var files []*ast.File
	for _, name := range names {
		f, err := parser.ParseFile(fset, name, nil, parser.ParseComments)
		if err != nil {
			return nil, err
		}
		files = append(files, f)
	}
	return doc.NewFromFiles(fset, files, "package")
})

// declared returns the exported functions and methods by name: "Run.Drop".
func declared(t *testing.T) map[string]*ast.FuncDecl {
	p := packageDoc(t)
	all := map[string]*ast.FuncDecl{}
	for _, f := range p.Funcs {
		all[f.Name] = f.Decl
	}
	for _, kind := range p.Types {
		for _, f := range kind.Funcs {
			all[f.Name] = f.Decl
		}
		for _, m := range kind.Methods {
			if !slices.Contains(described, m.Name) {
				all[kind.Name+"."+m.Name] = m.Decl
			}
		}
	}
	return all
}

// exportedFunctions lists those with an input.
func exportedFunctions(t *testing.T) []string {
	t.Helper()
	var all []string
	for name, decl := range declared(t) {
		if decl.Recv != nil || decl.Type.Params.NumFields() > 0 {
			all = append(all, name)
		}
	}
	slices.Sort(all)
	return all
}

// parameterNames returns the names of a function's arguments, its receiver first.
func parameterNames(t *testing.T, name string) []string {
	t.Helper()
	decl, ok := declared(t)[name]
	if !ok {
		t.Fatalf("%s is no exported function of the package", name)
	}
	var all []string
	if decl.Recv != nil {
		all = append(all, "receiver")
	}
	for _, p := range decl.Type.Params.List {
		for _, n := range p.Names {
			all = append(all, n.Name)
		}
	}
	return all
}

// functionName is the name of a function or method expression within its package.
func functionName(ask any) string {
	name := runtime.FuncForPC(reflect.ValueOf(ask).Pointer()).Name()
	name = name[strings.LastIndex(name, "/")+1:]
	_, name, _ = strings.Cut(name, ".")
	return strings.NewReplacer("(*", "", ")", "").Replace(name)
}

var link = regexp.MustCompile(`\[(\*?[A-Z]\w*(?:\.[A-Z]\w*)?)\]`)

// Index holds the package comment to its index of questions: every link leads to
// something exported, and every function that it leads to has an Example.
func Index(t *testing.T) {
	t.Helper()
	p := packageDoc(t)
	links := link.FindAllStringSubmatch(p.Doc, -1)
	if len(links) < 5 {
		t.Errorf("the package comment leads to %d functions: it has no index of questions", len(links))
	}
	known, shown := declared(t), examples(t)
	types := map[string]bool{}
	for _, kind := range p.Types {
		types[kind.Name] = true
	}
	for _, l := range links {
		name := strings.TrimPrefix(l[1], "*")
		_, isFunction := known[name]
		switch {
		case !isFunction && !types[name]:
			t.Errorf("the package comment leads to %s, which is not there", name)
		case isFunction && !shown[strings.ReplaceAll(name, ".", "_")]:
			t.Errorf("the package comment leads to %s, which has no Example", name)
		}
	}
}

// examples lists what has an Example: "Run_Drop".
func examples(t *testing.T) map[string]bool {
	t.Helper()
	names, err := filepath.Glob("*_test.go")
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]bool{}
	for _, name := range names {
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range f.Decls {
			if fn, ok := d.(*ast.FuncDecl); ok {
				subject, isExample := strings.CutPrefix(fn.Name.Name, "Example")
				parts := strings.Split(subject, "_")
				parts = slices.DeleteFunc(parts, func(s string) bool { return s == "" || !ast.IsExported(s) })
				if isExample {
					all[strings.Join(parts, "_")] = true
				}
			}
		}
	}
	return all
}
