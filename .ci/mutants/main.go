// Command mutants asks whether the tests would notice: it changes one thing at a
// time in a package (a comparison, a sign, a limit, an early return) and runs the
// package's tests on the change. What survives wants a test, or is no change in
// truth.
//
//	go run ./.ci/mutants -n 30 -seed 1 ./protect
//	go run ./.ci/mutants -n 30 ./wire ./examples/cable   # with the tests of the second as well
//
// The tree stays as it is: a change is laid over it for one run of go test. It takes
// minutes and is not part of .ci/run.
package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/printer"
	"go/token"
	"log"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// mutant is one change of a parsed file: done, it is undone by calling undo.
type mutant struct {
	file *ast.File
	path string
	at   token.Position
	says string
	do   func() (undo func())
}

func main() {
	log.SetFlags(0)
	count := flag.Int("n", 20, "changes to try")
	seed := flag.Uint64("seed", 1, "of the choice among all changes")
	flag.Parse()
	if flag.NArg() == 0 {
		log.Fatal("name a package: ./protect")
	}
	fset := token.NewFileSet()
	all := mutants(fset, flag.Arg(0))
	rand.New(rand.NewPCG(*seed, 0)).Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	all = all[:min(*count, len(all))]
	survived := 0
	for _, m := range all {
		verdict := m.try(fset, flag.Args())
		if verdict == "survived" {
			survived++
		}
		fmt.Printf("%-9s %s:%d: %s\n", verdict, filepath.Base(m.path), m.at.Line, m.says)
	}
	fmt.Printf("%d of %d survived\n", survived, len(all))
}

// mutants lists every change of the files of a package that are not tests.
func mutants(fset *token.FileSet, dir string) []mutant {
	paths, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		log.Fatal(err)
	}
	var all []mutant
	for _, path := range paths {
		if strings.HasSuffix(path, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(fset, path, nil, parser.ParseComments)
		if err != nil {
			log.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if says, do := change(n); do != nil {
				all = append(all, mutant{file, path, fset.Position(n.Pos()), says, do})
			}
			return true
		})
	}
	return all
}

var operators = map[token.Token]token.Token{
	token.LSS: token.LEQ, token.LEQ: token.LSS, token.GTR: token.GEQ, token.GEQ: token.GTR,
	token.EQL: token.NEQ, token.NEQ: token.EQL, token.LAND: token.LOR, token.LOR: token.LAND,
	token.ADD: token.SUB, token.SUB: token.ADD, token.MUL: token.QUO, token.QUO: token.MUL,
}

var methods = map[string]string{
	"LessThan": "LessThanOrEqual", "LessThanOrEqual": "LessThan",
	"GreaterThan": "GreaterThanOrEqual", "GreaterThanOrEqual": "GreaterThan",
	"Add": "Sub", "Sub": "Add", "IsPositive": "IsNegative", "CalcUp": "CalcDown", "CalcDown": "CalcUp",
	"Above": "Between", "Max": "Min", "Min": "Max",
}

var functions = map[string]string{"min": "max", "max": "min", "true": "false", "false": "true", "break": "continue"}

// change returns what can be changed about a node, if anything.
func change(n ast.Node) (says string, do func() (undo func())) {
	switch n := n.(type) {
	case *ast.BinaryExpr:
		if to, ok := operators[n.Op]; ok && !isText(n) {
			return fmt.Sprintf("%s becomes %s", n.Op, to), swap(&n.Op, to)
		}
	case *ast.SelectorExpr:
		if to, ok := methods[n.Sel.Name]; ok {
			return fmt.Sprintf("%s becomes %s", n.Sel.Name, to), swap(&n.Sel.Name, to)
		}
	case *ast.Ident:
		if to, ok := functions[n.Name]; ok {
			return fmt.Sprintf("%s becomes %s", n.Name, to), swap(&n.Name, to)
		}
	case *ast.BranchStmt:
		if n.Label == nil && n.Tok == token.CONTINUE {
			return "continue becomes break", swap(&n.Tok, token.BREAK)
		}
	case *ast.IfStmt:
		return "the condition is turned round", swap[ast.Expr](&n.Cond, &ast.UnaryExpr{Op: token.NOT, X: &ast.ParenExpr{X: n.Cond}})
	case *ast.BasicLit:
		if n.Kind == token.INT && n.Value != "0" {
			return n.Value + " becomes one more", swap(&n.Value, "("+n.Value+"+1)")
		}
	}
	return "", nil
}

// isText reports a sum of words.
func isText(n *ast.BinaryExpr) bool {
	for _, side := range []ast.Expr{n.X, n.Y} {
		if lit, ok := side.(*ast.BasicLit); ok && lit.Kind == token.STRING && n.Op == token.ADD {
			return true
		}
		if sum, ok := side.(*ast.BinaryExpr); ok && isText(sum) {
			return true
		}
	}
	return false
}

func swap[T any](place *T, to T) func() func() {
	return func() func() {
		was := *place
		*place = to
		return func() { *place = was }
	}
}

// try runs the tests on the change.
func (m mutant) try(fset *token.FileSet, packages []string) string {
	undo := m.do()
	var text bytes.Buffer
	err := printer.Fprint(&text, fset, m.file)
	undo()
	if err != nil {
		return "unprinted"
	}
	dir, err := os.MkdirTemp("", "mutant")
	if err != nil {
		log.Fatal(err)
	}
	defer os.RemoveAll(dir)
	changed, overlay := filepath.Join(dir, "changed.go"), filepath.Join(dir, "overlay.json")
	path, _ := filepath.Abs(m.path)
	replace, _ := json.Marshal(map[string]map[string]string{"Replace": {path: changed}})
	for name, content := range map[string][]byte{changed: text.Bytes(), overlay: replace} {
		if err := os.WriteFile(name, content, 0o600); err != nil {
			log.Fatal(err)
		}
	}
	if exec.Command("go", "build", "-overlay", overlay, packages[0]).Run() != nil {
		return "unbuilt"
	}
	if exec.Command("go", append([]string{"test", "-short", "-failfast", "-vet=off", "-timeout=4m", "-overlay", overlay}, packages...)...).Run() != nil {
		return "caught"
	}
	return "survived"
}
