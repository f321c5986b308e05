package tell

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
	"text/template/parse"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/text/language"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
)

// instructing finds the imperative that begins a sentence or a clause, and the instructions without one.
var instructing = regexp.MustCompile(`(?i)(?:^ ?|[.;:,–…(] |\b(?:then|or|and|but|first|now|also) )(?:` +
	`add|answer (?:the|with)|arm(?: as| by| and|,|;)|bank one|begin|bring|calibrate|call this|charge|check (?:that|again)|choose|clear|click|close other|compare|connect|delete it|` +
	`disarm(?: it| first|\.)|disconnect|do not|end (?:it|the name)|fly under|follow the|give|go (?:back|on|without)|hold|keep|lead the page|lean|learn|leave|lengthen|let|look|lower|` +
	`make (?:it|room|the)|mend|move|nudge|pass (?:a|on)|plant|plug|practise|press|pull|push|put|raise|read the|record (?:your|gestures)|replay the|rest in|reverse|` +
	`save|say|see|set (?:the|its|it|HOME)|show|start (?:with|anew|this|over)|store|switch (?:the|it|on)|take|tell|test the|throttle up|try again|turn|type|` +
	`use (?:that|the|a)|wait|watch|write)(?:$|\b[ .,;…])|\bhands off\b|\bplease\b|\bon to (?:its|the)\b|^sticks at rest\.`)

// codeTables are the tables that tie codes to their sentences, with the codes that they must have.
var codeTables = []string{"advice", "refusalSentences"}

// apart are the messages that no code and no test holds, by name, or by their file where all of it is meant ("key.*"). What stands on a key,
// or on the list of keys, says what the key does, as the help of a command, and a table to look things up in, says what that does. Some things only a hand outside can do: to the craft, its propellers and its pack, to the
// machine, to the settings of a radio, or by asking somebody. And some read as if they instructed, and tell.
var apart = map[string][]string{
	"key": {
		"ask.enough-accept", "ask.enough-done", "ask.enough-leave", "ask.enough-rest", "ask.enough-take", "command.*", "desk.plant-key", "drill.back", "drill.key",
		"field-craft.*", "field-drill.*", "first.fit", "flag.*", "goggles.answer.keep", "goggles.answer.put-back", "hand.*", "help.*", "key.*", "layout-key.*", "look-up.*", "usage.*",
	},
	"hand": {
		"card.cautions", "caution.no-clearance", "caution.propellers-off", "caution.radio-transmits", "check.good", "kept-file.cautions-read", "model.newer", "notice.other-usb-mode", "notice.permission", "serve.port-not-allowed",
	},
	"telling": {
		"belongings.takes", "card.stored-disarms", "card.stored-stays", "check.sees.reports", "check.sum-waits", "fault.does.short-travel", "flight.cuts",
		"flight.cuts-rising", "gesture.missed-early", "gesture.nears-early",
		"goggles.stands", "manual.section-see-also", "move.near.early", "prove-why.stored-sticks-flying", "receiver.repeats-last-trade", "run.running",
		"state.corner-spent",
	},
}

// instructions counts the texts of an English message that instruct, in all its forms: texts between one value or choice and the next.
func instructions(t *testing.T, forms ...string) (n int) {
	var count func(node parse.Node)
	count = func(node parse.Node) {
		switch node := node.(type) {
		case *parse.ListNode:
			if node != nil {
				for _, one := range node.Nodes {
					count(one)
				}
			}
		case *parse.IfNode:
			count(node.List)
			count(node.ElseList)
		case *parse.TextNode:
			if instructing.Match(node.Text) {
				n++
			}
		}
	}
	for _, form := range forms {
		if form == "" {
			continue
		}
		tmpl, err := words.Template(form)
		require.NoError(t, err)
		if tmpl.Tree != nil {
			count(tmpl.Root)
		}
	}
	return n
}

// instructingMessages are the messages of the English catalogue, each with how many of its texts instruct.
func instructingMessages(t *testing.T) map[string]int {
	out := map[string]int{}
	for _, m := range words.Messages(language.English) {
		if room, _, _ := strings.Cut(m.ID, "."); slices.Contains(ofReaders, room) {
			continue
		}
		out[m.ID] = instructions(t, m.Zero, m.One, m.Two, m.Few, m.Many, m.Other)
	}
	return out
}

// ofReaders are the rooms of what is wrong with a file, a device or what was typed, and what to do about it: the tests of those who read them
// make each.
var ofReaders = []string{
	"check-input", "craft-file", "door", "drill-file", "gesture-file", "logbook-file", "named-file", "pair", "play", "radio", "refused", "script", "sound-file",
	"source", "system", "take", "takes", "typed", "usb", "yaml",
}

// saidBy are the codes from whose entries in the tables each message is reached, through the functions and variables of this package.
func saidBy(t *testing.T, all map[string]int) map[string][]string {
	reaches, codes := map[string]map[string]bool{}, []string{}
	var note func(name string, n ast.Node)
	note = func(name string, n ast.Node) {
		to := reaches[name]
		if to == nil {
			to = map[string]bool{}
			reaches[name] = to
		}
		ast.Inspect(n, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.SelectorExpr: // what another package or a thing has is none of this package's
				note(name, n.X)
				return false
			case *ast.Ident:
				to[n.Name] = true
			case *ast.BasicLit:
				s, _ := strconv.Unquote(n.Value)
				for id := range all { // a family is named by its code word alone
					if id == s || n.Kind == token.STRING && id[:strings.LastIndex(id, ".")] == s {
						to[id] = true
					}
				}
			}
			return true
		})
	}
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
		require.NoError(t, err)
		for _, d := range f.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				note(d.Name.Name, d)
			case *ast.GenDecl:
				for _, s := range d.Specs {
					v, ok := s.(*ast.ValueSpec)
					switch {
					case !ok:
					case !slices.Contains(codeTables, v.Names[0].Name):
						note(v.Names[0].Name, v)
					default:
						for _, e := range v.Values[0].(*ast.CompositeLit).Elts {
							kv := e.(*ast.KeyValueExpr)
							code := "facts." + kv.Key.(*ast.SelectorExpr).Sel.Name
							codes = append(codes, code)
							note(code, kv.Value)
						}
					}
				}
			}
		}
	}
	out := map[string][]string{}
	slices.Sort(codes)
	for _, code := range codes {
		open, seen := []string{code}, map[string]bool{}
		for len(open) > 0 {
			name := open[0]
			if open = open[1:]; seen[name] {
				continue
			}
			seen[name] = true
			out[name] = append(out[name], code)
			open = append(open, slices.Sorted(maps.Keys(reaches[name]))...)
		}
	}
	return out
}

// everyTest are the names of all test functions of the repository, each with its package's name before it.
func everyTest(t *testing.T) map[string]bool {
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

// Every message that instructs stands in testdata/instructs.txt under what holds it: a code, from whose entry it is reached (the advice test
// of facts carries out every code), or tests. Nothing stands there that is not needed any more.
func TestEverySentenceThatInstructsIsHeld(t *testing.T) {
	all, known := instructingMessages(t), everyTest(t)
	from := saidBy(t, all)
	text, err := os.ReadFile("testdata/instructs.txt")
	require.NoError(t, err)
	var by []string
	rows, without := map[string]bool{}, map[string][]string{}
	for why := range apart {
		without[why] = []string{}
	}
	for n, line := range strings.Split(string(text), "\n") {
		at := "instructs.txt:" + strconv.Itoa(n+1)
		fields := strings.Fields(line)
		if len(fields) == 0 || fields[0] == "#" {
			continue
		}
		if line[0] != '\t' {
			for by = fields; len(fields) > 0; fields = fields[1:] {
				code := strings.HasPrefix(fields[0], "facts.") && !strings.HasPrefix(fields[0], "facts.Test")
				assert.True(t, code && from[fields[0]] != nil || known[fields[0]] || len(by) == 1 && apart[fields[0]] != nil, "%s: there is no %s", at, fields[0])
			}
			continue
		}
		for ; len(fields) >= 2; fields = fields[2:] {
			name := fields[0]
			says, ids := instructionsOf(name, all)
			for _, id := range ids {
				assert.False(t, rows[id], "%s: %s stands there already", at, id)
				rows[id] = true
			}
			if apart[by[0]] != nil {
				without[by[0]] = append(without[by[0]], name)
				slices.Sort(without[by[0]])
			} else {
				assert.NotContains(t, name, "*", "%s: each by its own name", at)
			}
			if !assert.NotEmpty(t, ids, "%s: there is no %s", at, name) {
				continue
			}
			assert.NotZero(t, says, "%s: %s does not instruct", at, name)
			assert.Equal(t, fields[1], strconv.Itoa(says), "%s: how many texts of %s instruct; is what is new held by %v?", at, name, by)
			if own := slices.DeleteFunc(slices.Clone(by), func(s string) bool { return known[s] || apart[s] != nil }); len(own) > 0 {
				slices.Sort(own)
				assert.Equal(t, from[name], own, "%s: the codes by which %s is said", at, name)
			}
		}
		assert.Empty(t, fields, "%s: names and counts", at)
	}
	assert.Equal(t, apart, without)
	var missing []string
	for _, id := range slices.Sorted(maps.Keys(all)) {
		if all[id] > 0 && !rows[id] {
			missing = append(missing, "\t"+id+" "+strconv.Itoa(all[id])+"\t# said by "+strings.Join(from[id], " "))
		}
	}
	assert.Empty(t, missing, "these instruct: put each row into instructs.txt under what holds it\n%s", strings.Join(missing, "\n"))
}

// instructionsOf are the messages of a row, one or those of a whole file, and how many of their texts instruct.
func instructionsOf(row string, all map[string]int) (says int, ids []string) {
	room, whole := strings.CutSuffix(row, "*")
	for id, n := range all {
		if id == row || whole && strings.HasPrefix(id, room) {
			says, ids = says+n, append(ids, id)
		}
	}
	return says, ids
}

// Every code has its sentence, and none that is no more.
func TestEveryCodeHasItsSentence(t *testing.T) {
	for n := range facts.NextCount {
		assert.NotNil(t, advice[n], "the advice %d of facts/next.go has no sentence: give it a row in advice", n)
	}
	for r := range facts.RefusalCount {
		if r.Today() == r {
			assert.NotNil(t, refusalSentences[r], "the refusal %s has no sentence: give it a row in refusalSentences in tell/refusal.go, and its text in assets/words/*/refusal.yaml", r.Code())
		} else {
			assert.Nil(t, refusalSentences[r], "the refusal %s is no more: take its row out of refusalSentences in tell/refusal.go", r.Code())
		}
	}
}
