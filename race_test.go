package propsoff_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// between are the packages of the library whose only use is between goroutines.
var between = []string{`"sync"`, `"sync/atomic"`, `"golang.org/x/sync/errgroup"`}

// starts tells whether a piece of source starts a goroutine: by a statement, by a timer that calls back, or by a test that runs beside others.
func starts(n ast.Node) (how string) {
	ast.Inspect(n, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.GoStmt:
			how = "go"
		case *ast.SelectorExpr:
			if n.Sel.Name == "AfterFunc" || n.Sel.Name == "Parallel" {
				how = n.Sel.Name
			}
		}
		return how == ""
	})
	return how
}

// shares tells what in a file has to do with goroutines. A type that only names a channel, as a source without a wake does, has not.
func shares(f *ast.File) (what string) {
	for _, i := range f.Imports {
		if slices.Contains(between, i.Path.Value) {
			return i.Path.Value
		}
	}
	ast.Inspect(f, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.SendStmt:
			what = "a send"
		case *ast.SelectStmt:
			what = "select"
		case *ast.UnaryExpr:
			if n.Op == token.ARROW {
				what = "a receive"
			}
		case *ast.CallExpr:
			if id, ok := n.Fun.(*ast.Ident); ok && id.Name == "make" && len(n.Args) > 0 {
				if _, ok := n.Args[0].(*ast.ChanType); ok {
					what = "a channel"
				}
			}
		}
		return what == ""
	})
	if what == "" {
		what = starts(f)
	}
	return what
}

// sources are the files of each package of the module, its tests and every machine's among them.
func sources(t *testing.T) map[string]map[string]*ast.File {
	out := map[string]map[string]*ast.File{}
	set := token.NewFileSet()
	require.NoError(t, filepath.WalkDir(".", func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (d.Name() == "testdata" || d.Name() == "dist" || strings.HasPrefix(d.Name(), ".") && p != ".") {
			return filepath.SkipDir
		}
		if d.IsDir() || !strings.HasSuffix(p, ".go") {
			return nil
		}
		f, err := parser.ParseFile(set, p, nil, 0)
		if err != nil {
			return err
		}
		dir := filepath.ToSlash(filepath.Dir(p))
		if out[dir] == nil {
			out[dir] = map[string]*ast.File{}
		}
		out[dir][p] = f
		return nil
	}))
	require.Greater(t, len(out), 15)
	return out
}

// raced reads scripts/raced: the packages, and what picks their tests where that is not all.
func raced(t *testing.T) map[string]string {
	text, err := os.ReadFile("scripts/raced")
	require.NoError(t, err)
	out := map[string]string{}
	for line := range strings.Lines(string(text)) {
		if line = strings.TrimSpace(line); line == "" || line[0] == '#' {
			continue
		}
		name, pick, _ := strings.Cut(line, " ")
		_, twice := out[name]
		assert.False(t, twice, "%s stands twice in scripts/raced", name)
		out[name] = pick
	}
	return out
}

// The race detector costs much and finds races only where two goroutines meet: it runs where one is started, a lock is taken, a channel
// is used. A package that others call from a goroutine of theirs is built with the detector in their tests.
func TestRacedAreThoseWithGoroutines(t *testing.T) {
	have := map[string]string{}
	for name, files := range sources(t) {
		for _, file := range slices.Sorted(maps.Keys(files)) {
			if what := shares(files[file]); what != "" {
				have[name] = file + ": " + what
				break
			}
		}
	}
	listed := raced(t)
	for name, why := range have {
		_, ok := listed[name]
		assert.True(t, ok, "%s is not in scripts/raced, and has goroutines: %s", name, why)
	}
	for name := range listed {
		assert.NotEmpty(t, have[name], "%s is in scripts/raced, and has no goroutine, lock or channel", name)
	}
	assert.Greater(t, len(have), 15)
}

// A test that starts a goroutine, by itself or by a function of its package's tests, is among those that are picked. Functions are told by
// their names alone, methods by theirs, so two of one name are taken for one: that picks too many, never too few.
func TestWhatStartsAGoroutineIsPicked(t *testing.T) {
	all, picked := sources(t), 0
	for name, pick := range raced(t) {
		if pick == "" {
			continue
		}
		not := strings.HasPrefix(pick, "!")
		wanted, err := regexp.Compile(strings.TrimPrefix(pick, "!"))
		require.NoError(t, err, name)
		uses, how := map[string]map[string]bool{}, map[string]string{}
		for file, f := range all[name] {
			if !strings.HasSuffix(file, "_test.go") {
				continue
			}
			packages := map[string]bool{}
			for _, i := range f.Imports {
				packages[strings.Trim(i.Path.Value[strings.LastIndex(i.Path.Value, "/")+1:], `"`)] = true
			}
			for _, d := range f.Decls {
				if fn, ok := d.(*ast.FuncDecl); ok {
					self := fn.Name.Name
					if fn.Recv != nil {
						self = "." + self
					}
					if s := starts(fn); s != "" {
						how[self] = s
					}
					if uses[self] == nil {
						uses[self] = map[string]bool{}
					}
					ast.Inspect(fn, func(n ast.Node) bool {
						switch n := n.(type) {
						case *ast.Ident:
							uses[self][n.Name] = true
						case *ast.SelectorExpr:
							if id, ok := n.X.(*ast.Ident); ok && packages[id.Name] {
								return false // another package's
							}
							uses[self]["."+n.Sel.Name] = true
							ast.Inspect(n.X, func(n ast.Node) bool { // x.f names the method f, never a function of that name
								if id, ok := n.(*ast.Ident); ok {
									uses[self][id.Name] = true
								}
								return true
							})
							return false
						}
						return true
					})
				}
			}
		}
		for more := true; more; {
			more = false
			for user, used := range uses {
				for u := range used {
					if how[u] != "" && how[user] == "" {
						how[user], more = "by "+u, true
					}
				}
			}
		}
		for fn, why := range how {
			if strings.HasPrefix(fn, "Test") && fn != "TestMain" { // which goes with each
				picked++
				assert.NotEqual(t, not, wanted.MatchString(fn), "%s: %s starts a goroutine (%s), and %q does not pick it", name, fn, why, pick)
			}
		}
	}
	assert.Greater(t, picked, 20)
}
