// Command covered asks a coverage profile whether what must be walked was walked.
//
//	covered steps PROFILE    at least 95 % of the statements of the steps of arming and link, by a run of prove
//	covered locks PROFILE    each start of a goroutine, lock and channel of the packages that were tested with the race detector
//
// Run it from the module's root. scripts/test makes the profiles.
package main

import (
	"bufio"
	"errors"
	"fmt"
	"go/ast"
	"go/build"
	"go/parser"
	"go/token"
	"maps"
	"os"
	"path"
	"slices"
	"strings"
)

func main() {
	ask := map[string]func(profile) (string, []string){"steps": steps, "locks": locks}
	if len(os.Args) != 3 || ask[os.Args[1]] == nil {
		fmt.Fprintln(os.Stderr, "say steps or locks, and the profile")
		os.Exit(2)
	}
	p, err := read(os.Args[2])
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(2)
	}
	sum, bad := ask[os.Args[1]](p)
	fmt.Println(sum)
	for _, b := range bad {
		fmt.Fprintln(os.Stderr, b)
	}
	if len(bad) > 0 {
		os.Exit(1)
	}
}

// block is a run of statements without a branch.
type block struct{ fromLine, fromColumn, toLine, toColumn, statements int }

// has tells whether a place lies in a block.
func (b block) has(at token.Position) bool {
	after := at.Line > b.fromLine || at.Line == b.fromLine && at.Column >= b.fromColumn
	before := at.Line < b.toLine || at.Line == b.toLine && at.Column < b.toColumn
	return after && before
}

// profile counts for each file how often each block was walked.
type profile map[string]map[block]int

// read takes a profile in: lines such as propsoff.example/sim/link/link.go:93.2,96.3 2 1. Several test binaries say the same blocks: their counts are added.
func read(name string) (profile, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	p := profile{}
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		if strings.HasPrefix(lines.Text(), "mode:") {
			continue
		}
		at, rest, ok := strings.Cut(lines.Text(), ":")
		var b block
		var times int
		if n, err := fmt.Sscanf(rest, "%d.%d,%d.%d %d %d", &b.fromLine, &b.fromColumn, &b.toLine, &b.toColumn, &b.statements, &times); !ok || n != 6 {
			return nil, fmt.Errorf("%s: no line of a profile: %q: %v", name, lines.Text(), err)
		}
		file := strings.TrimPrefix(at, "propsoff.example/")
		if p[file] == nil {
			p[file] = map[block]int{}
		}
		p[file][b] += times
	}
	if len(p) == 0 {
		return nil, fmt.Errorf("%s: the profile is empty", name)
	}
	return p, lines.Err()
}

// notSteps are functions of arming and link that no step runs: they serve screens and files.
var notSteps = map[string]bool{
	"Has":   true,
	"table": true, "row": true, "Ever": true, "Shown": true, "Code": true, "RefusalOf": true, "Group": true, "Today": true, // what a refusal is called
}

// steps looks whether a run of prove over the layouts of its tables walked the steps of arming and link; what it left out is said.
func steps(p profile) (sum string, bad []string) {
	all, walked := 0, 0
	var left []string
	for _, file := range slices.Sorted(maps.Keys(p)) {
		set := token.NewFileSet()
		f, err := parser.ParseFile(set, file, nil, 0)
		if err != nil {
			return "", []string{err.Error()}
		}
		for b, times := range p[file] {
			switch {
			case notSteps[functionAt(set, f, b.fromLine)]:
			case times > 0:
				all, walked = all+b.statements, walked+b.statements
			default:
				all += b.statements
				left = append(left, fmt.Sprintf("not walked: %s:%d", file, b.fromLine))
			}
		}
	}
	slices.Sort(left)
	if all <= 100 {
		bad = append(bad, fmt.Sprintf("%d statements: the profile must hold both packages", all))
	}
	if 100*walked < 95*all {
		bad = append(bad, fmt.Sprintf("only %d of %d statements of arming and link were walked; at least 95 %%", walked, all))
	}
	return strings.Join(append(left, fmt.Sprintf("%d of %d statements", walked, all)), "\n"), bad
}

// functionAt names the function in which a row of a file lies.
func functionAt(set *token.FileSet, f *ast.File, row int) string {
	for _, d := range f.Decls {
		if fn, ok := d.(*ast.FuncDecl); ok && set.Position(fn.Pos()).Line <= row && row <= set.Position(fn.End()).Line {
			return fn.Name.Name
		}
	}
	return ""
}

// unpicked are functions with places that no test of scripts/test passes under the detector yet. A line goes when there is one.
var unpicked = map[string]string{
	"cmd/propsoff/internal/drillrun/drillrun.go Answer":   "only whole drills come to a question, and they take minutes under the detector",
	"cmd/propsoff/internal/live/public.go stepped":        "more happenings in a millisecond than there is room for",
	"cmd/propsoff/internal/live/public.go HappeningsLost": "more happenings in a millisecond than there is room for",
}

// locks looks whether each place at which goroutines meet was walked. Files of other machines are in no profile of this one.
func locks(p profile) (sum string, bad []string) {
	all := 0
	for _, file := range slices.Sorted(maps.Keys(p)) {
		set := token.NewFileSet()
		f, err := parser.ParseFile(set, file, nil, 0)
		if err != nil {
			return "", []string{err.Error()}
		}
		for _, m := range meetings(f) {
			at := set.Position(m.Pos())
			found := false
			for b, times := range p[file] {
				found = found || times > 0 && b.has(at)
			}
			if all++; !found && unpicked[file+" "+functionAt(set, f, at.Line)] == "" {
				bad = append(bad, fmt.Sprintf("%s:%d: no test with the race detector comes here: pick one in scripts/raced", file, at.Line))
			}
		}
	}
	meets, err := uncounted(p)
	if err != nil {
		return "", append(bad, err.Error())
	}
	bad = append(bad, meets...)
	if all < 50 {
		bad = append(bad, fmt.Sprintf("%d places: the profile must hold the packages of scripts/raced", all))
	}
	return fmt.Sprintf("%d places at which goroutines meet", all), bad
}

// windowPackage opens a window, which no test under the detector can.
const windowPackage = "cmd/propsoff/internal/window"

// uncounted finds the places in packages of scripts/raced of which the profile counts nothing: none may be there.
func uncounted(p profile) (bad []string, err error) {
	raced, err := os.ReadFile("scripts/raced")
	if err != nil {
		return nil, err
	}
	counted := map[string]bool{}
	for file := range p {
		counted[path.Dir(file)] = true
	}
	for line := range strings.Lines(string(raced)) {
		name, _, _ := strings.Cut(strings.TrimSpace(line), " ")
		if name == "" || name == "#" || counted[name] || strings.HasPrefix(name, "scripts/") || name == windowPackage {
			continue
		}
		pkg, err := build.ImportDir(name, 0)
		if none := new(build.NoGoError); errors.As(err, &none) {
			continue // all of it is for other machines
		}
		if err != nil {
			return nil, err
		}
		for _, file := range pkg.GoFiles {
			set := token.NewFileSet()
			f, err := parser.ParseFile(set, path.Join(name, file), nil, 0)
			if err != nil {
				return nil, err
			}
			for _, m := range meetings(f) {
				bad = append(bad, fmt.Sprintf("%v: scripts/test counts nothing in this package, and goroutines meet there: count it", set.Position(m.Pos())))
			}
		}
	}
	return bad, nil
}

// meetings are the starts of goroutines, the sends and receives, the selects and the locks below a piece of source.
func meetings(below ast.Node) (out []ast.Node) {
	ast.Inspect(below, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CommClause: // what a select waits for is counted with the select
			for _, s := range n.Body {
				out = append(out, meetings(s)...)
			}
			return false
		case *ast.GoStmt, *ast.SendStmt, *ast.SelectStmt:
			out = append(out, n)
		case *ast.UnaryExpr:
			if n.Op == token.ARROW {
				out = append(out, n)
			}
		case *ast.SelectorExpr:
			if n.Sel.Name == "Lock" || n.Sel.Name == "RLock" {
				out = append(out, n)
			}
		}
		return true
	})
	return out
}
