package phrase

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
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/cmd/propsoff/internal/facts"
)

// instructing finds the imperative that begins a sentence or a clause, and the instructions without one.
var instructing = regexp.MustCompile(`(?i)(?:^ ?|[.;:,–…(] |\b(?:then|or|and|but|first|now|also) )(?:` +
	`add|answer the|arm(?: as| by| and|,|;)|bank one|begin|bring|calibrate|call this|charge|check (?:that|again)|choose|clear|click|close other|compare|connect|` +
	`disarm(?: it| first|\.)|disconnect|do not|end (?:it|the name)|fly under|follow the|give|go (?:back|on|without)|hold|keep|lean|learn|leave|lengthen|let|look|lower|` +
	`make (?:it|room|the)|mend|move|nudge|plant|plug|practise|press|pull|push|put|raise|read the|record (?:your|gestures)|replay the|rest in|reverse|` +
	`save|say|see|set (?:the|its|it|HOME)|show|start (?:with|anew|this|over)|store|switch (?:the|it|on)|take|tell|test the|throttle up|try again|turn|type|` +
	`use (?:that|the|a)|wait|watch|write)(?:$|\b[ .,;…])|\bhands off\b|\bplease\b|\bon to (?:its|the)\b|^sticks at rest\.`)

// codes are the tables that tie codes to their sentences, with the codes that they must have.
var codes = map[string]bool{"advice": true, "refusalSentences": true}

// telling are texts that read as if they instructed, and tell.
var telling = []string{
	"script or take", "A script or take is played: it brings its own gestures.", "let go too early", "Let go too early.", "Let go ", " put back.",
	"asking whether to keep, put back or stay", ", leave the arming corner first",
	"Plug and reports: readings lost, and how often the radio reports while a control moves.",
	"Craft: the stored values stand at the edge of the disarming corner and begin no dwell there: ",
	"The receiver's stored values stand at the edge of the disarm corner and begin no dwell there, so a silent radio leaves a flying craft armed.",
}

// apart are the units that no code and no test holds. What stands on a key, or on the list of keys, says what the key does. And some things
// only a hand outside can do: to the craft, its propellers and its pack, to the machine, to the settings of a radio, or by asking somebody.
var apart = map[string][]string{
	"key":  {"DeskPlantKey", "Does", "DrillKey", "EnoughWord", "FitNext", "GogglesAnswers", "LayoutKey", "actionHelp", "does", "keyHelp"},
	"hand": {"Cautions", "CheckGood", "NewerModel", "OtherUSBMode", "Permission"},
}

// drawnName is what the sheet calls a thing that it draws; it is no text.
var drawnName = regexp.MustCompile(`^[a-z0-9 ]*$`)

// unit is a function, a package variable, or an entry of a table of codes.
type unit struct {
	says    int // texts that instruct
	reaches map[string]bool
}

// units are those of a package, by name, with what each refers to. An entry of a table of codes is one of its own, called by its key.
func units(t *testing.T, dir string) map[string]*unit {
	out, fset := map[string]*unit{}, token.NewFileSet()
	says := func(s string) bool {
		return strings.Contains(s, " ") && instructing.MatchString(s) && !slices.Contains(telling, s) && !(filepath.Base(dir) == "sheet" && drawnName.MatchString(s))
	}
	files, err := filepath.Glob(filepath.Join(dir, "*.go"))
	require.NoError(t, err)
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(fset, file, nil, 0)
		require.NoError(t, err)
		note := func(name string, n ast.Node) {
			u := out[name]
			if u == nil {
				u = &unit{reaches: map[string]bool{}}
				out[name] = u
			}
			ast.Inspect(n, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.KeyValueExpr: // what a command is for is told, not asked
					if id, ok := n.Key.(*ast.Ident); ok && slices.Contains([]string{"Use", "Short", "Long"}, id.Name) {
						return false
					}
				case *ast.CallExpr: // nor what a flag is for
					if s, ok := n.Fun.(*ast.SelectorExpr); ok && strings.Contains(s.Sel.Name, "Var") {
						return false
					}
				case *ast.Ident:
					u.reaches[n.Name] = true
				case *ast.BasicLit:
					if s, err := strconv.Unquote(n.Value); err == nil && n.Kind == token.STRING && says(s) {
						u.says++
					}
				}
				return true
			})
		}
		for _, d := range f.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				note(d.Name.Name, d)
			case *ast.GenDecl:
				for _, s := range d.Specs {
					v, ok := s.(*ast.ValueSpec)
					if !ok {
						continue
					}
					if dir != "." || !codes[v.Names[0].Name] {
						note(v.Names[0].Name, v)
						continue
					}
					for _, e := range v.Values[0].(*ast.CompositeLit).Elts {
						kv := e.(*ast.KeyValueExpr)
						note("facts."+kv.Key.(*ast.SelectorExpr).Sel.Name, kv.Value)
					}
				}
			}
		}
	}
	return out
}

// everyUnit are those of the whole program. One of another package than this has its package's name before its own.
func everyUnit(t *testing.T) map[string]*unit {
	all := units(t, ".")
	const program = "../.."
	err := filepath.WalkDir(program, func(path string, d fs.DirEntry, err error) error {
		switch {
		case err != nil || !d.IsDir():
			return err
		case d.Name() == "testdata" || d.Name() == "ink": // ink draws, and has no text of its own
			return filepath.SkipDir
		case d.Name() == "phrase":
			return nil
		}
		name := d.Name()
		if path == program {
			name = "main"
		}
		for n, u := range units(t, path) {
			all[name+"/"+n] = u
		}
		return nil
	})
	require.NoError(t, err)
	for n, u := range units(t, "../../../../assets/door") { // whose errors are told as they are
		all["door/"+n] = u
	}
	return all
}

// tests are the names of all test functions of the repository, each with its package's name before it.
func tests(t *testing.T) map[string]bool {
	out, declared, ofMain := map[string]bool{}, regexp.MustCompile(`(?m)^func (Test\w+)\(`), regexp.MustCompile(`(?m)^package main$`)
	root, err := filepath.Abs("../../../..")
	require.NoError(t, err)
	err = filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, "_test.go") {
			return err
		}
		text, err := os.ReadFile(path)
		for _, m := range declared.FindAllSubmatch(text, -1) {
			name := filepath.Base(filepath.Dir(path))
			if ofMain.Match(text) {
				name = "main"
			}
			out[name+"."+string(m[1])] = true
		}
		return err
	})
	require.NoError(t, err)
	return out
}

// Every text that instructs stands in testdata/instructs.txt under what holds it: a code, from whose entry it is reached (the advice test
// of facts carries out every code), or tests. Nothing stands there that is not needed any more.
func TestEverySentenceThatInstructsIsHeld(t *testing.T) {
	all, known := everyUnit(t), tests(t)
	// from is every unit that is reached from the entry of a code, with those codes.
	from := map[string][]string{}
	for code := range all {
		if !strings.HasPrefix(code, "facts.") {
			continue
		}
		open, seen := []string{code}, map[string]bool{}
		for len(open) > 0 {
			name := open[0]
			if open = open[1:]; all[name] == nil || seen[name] {
				continue
			}
			seen[name] = true
			from[name] = append(from[name], code)
			open = append(open, slices.Sorted(maps.Keys(all[name].reaches))...)
		}
	}
	text, err := os.ReadFile("testdata/instructs.txt")
	require.NoError(t, err)
	var by []string
	rows, without := map[string]bool{}, map[string][]string{}
	for n, line := range strings.Split(string(text), "\n") {
		at := "instructs.txt:" + strconv.Itoa(n+1)
		words := strings.Fields(line)
		if len(words) == 0 || words[0] == "#" {
			continue
		}
		if line[0] != '\t' {
			for by = words; len(words) > 0; words = words[1:] {
				code := strings.HasPrefix(words[0], "facts.") && !strings.HasPrefix(words[0], "facts.Test")
				assert.True(t, code && all[words[0]] != nil || known[words[0]] || len(by) == 1 && apart[words[0]] != nil, "%s: there is no %s", at, words[0])
			}
			continue
		}
		for ; len(words) >= 2; words = words[2:] {
			name, u := words[0], all[words[0]]
			assert.False(t, rows[name], "%s: %s stands there already", at, name)
			if rows[name] = true; apart[by[0]] != nil {
				without[by[0]] = append(without[by[0]], name)
				slices.Sort(without[by[0]])
			}
			if !assert.NotNil(t, u, "%s: there is no %s", at, name) {
				continue
			}
			assert.Equal(t, words[1], strconv.Itoa(u.says), "%s: how many texts of %s instruct; is what is new held by %v?", at, name, by)
			if own := slices.DeleteFunc(slices.Clone(by), func(s string) bool { return known[s] || apart[s] != nil }); len(own) > 0 {
				slices.Sort(own)
				assert.Equal(t, slices.Sorted(slices.Values(from[name])), own, "%s: the codes by which %s is said", at, name)
			}
		}
		assert.Empty(t, words, "%s: names and counts", at)
	}
	assert.Equal(t, apart, without)
	for name, u := range all {
		assert.True(t, u.says == 0 || rows[name] || strings.HasPrefix(name, "facts."), "%s instructs (%d texts): put it into instructs.txt under what holds it", name, u.says)
	}
}

// Every code has its sentence, and none that is no more.
func TestEveryCodeHasItsSentence(t *testing.T) {
	for n := range facts.NextCount {
		assert.NotNil(t, advice[n], "advice %d", n)
	}
	for r := range facts.RefusalCount {
		assert.Equal(t, slices.Contains(facts.Shown(), r), refusalSentences[r] != nil, "refusal %d", r)
	}
}
