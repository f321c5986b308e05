package propsoff_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// banned are phrases that no text of this program uses: learning a radio says what the craft does instead. They are found however they
// are broken into lines, in large letters or small ones.
var banned = []string{
	"all the way", "hold it there", "hold them there", "keep it there", "moves: hold it", "as far as it will go", "as far as it goes",
	"which stick does what", "choose a picture", "with a foot under its stick", "every other direction springs back", "many radios are stick mode 2",
	"before you move it", "let the other directions rest", "the other stick let go", "in its first position, away from you", "now move it", "let it go now",
	"the throttle should stay where it is", "it should spring back to its middle", "waiting until all is still", "let everything rest", "let everything go back",
	"with a moment in each", "through every other to its last", "the switch that is to arm the craft", "choose the switch for", "move any other switch",
	"needs no such switch", "in one mode needs none", "it stands in its first position", "when there is nothing left to show", "go on to the next, or rest in the last",
	"hold both sticks in", "must stand at their high ends", "hold the sticks until", "quickest check of the directions",
	"move every control once more", "each is ticked off", "move them one after the other", "what does not move was learned wrongly", "that was all: this",
	"let both go back", "move it all", "short of an end", "a stick is asked for", "did not start in its first position", "too quickly to be sure",
	"was that the throttle", "was that the right stick", "as the radio sends them", "a pressed one is filled",
	"push the left stick", "push the right stick", "pull the left stick", "pull the right stick", "move the left stick all", "move the right stick all",
	"and held there",
}

var blanks = regexp.MustCompile(`\s+`)

// bannedIn are the banned phrases of a text.
func bannedIn(text string) (found []string) {
	text = blanks.ReplaceAllString(strings.ToLower(text), " ")
	for _, p := range banned {
		if strings.Contains(text, p) {
			found = append(found, p)
		}
	}
	return found
}

// literals are the strings of a Go file; those that are put together are one, with … for what is no literal in them.
func literals(file string, text []byte) (all []string, err error) {
	f, err := parser.ParseFile(token.NewFileSet(), file, text, 0)
	if err != nil {
		return nil, err
	}
	var joined func(e ast.Expr) string
	joined = func(e ast.Expr) string {
		switch e := e.(type) {
		case *ast.BasicLit:
			if s, err := strconv.Unquote(e.Value); err == nil && e.Kind == token.STRING {
				return s
			}
		case *ast.ParenExpr:
			return joined(e.X)
		case *ast.BinaryExpr:
			if e.Op == token.ADD {
				return joined(e.X) + joined(e.Y)
			}
		}
		return "…"
	}
	ast.Inspect(f, func(n ast.Node) bool {
		switch e := n.(type) {
		case *ast.BinaryExpr:
			all = append(all, joined(e)) // its parts follow by themselves
		case *ast.BasicLit:
			all = append(all, joined(e))
		}
		return true
	})
	return all, nil
}

// readable is every text below root that a person can read, by its file.
func readable(t *testing.T, root string) map[string][]string {
	out := map[string][]string{}
	add := func(file string) {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		all := []string{string(text)}
		if strings.HasSuffix(file, ".go") {
			all, err = literals(file, text)
			require.NoError(t, err)
		}
		out[file] = all
	}
	for _, dir := range []string{"cmd", "input", "gestures", "sim", "assets"} {
		err := filepath.WalkDir(filepath.Join(root, dir), func(p string, d fs.DirEntry, err error) error {
			switch {
			case err != nil:
				return err
			case d.IsDir() && d.Name() == "testdata":
				return filepath.SkipDir
			case dir == "assets" && strings.HasSuffix(p, ".yaml"), strings.HasSuffix(p, ".go") && !strings.HasSuffix(p, "_test.go"):
				add(p)
			}
			return nil
		})
		require.NoError(t, err)
	}
	add(filepath.Join(root, "README.md"))
	for _, name := range []string{"learn", "do", "why", "measured", "look-up/formats"} {
		add(filepath.Join(root, "docs", name+".md"))
	}
	add(filepath.Join(root, "DEVELOPERS.md"))
	return out
}

func TestNoTextHasABannedPhrase(t *testing.T) {
	files, strung := readable(t, "."), 0
	for file, all := range files {
		for _, text := range all {
			strung++
			assert.Empty(t, bannedIn(text), "%s: %.200q", file, text)
		}
	}
	assert.Greater(t, len(files), 200, "the walk found hardly anything: is the test run from the module's root?")
	assert.Greater(t, strung, 5000)
}

// The check can fail: each phrase is found, also in capitals, where it is broken into lines, or put together in code.
func TestBannedPhrasesAreFound(t *testing.T) {
	for _, p := range banned {
		words := strings.Fields(p)
		assert.Contains(t, bannedIn("Now "+strings.ToUpper(words[0])+"\n\t"+strings.Join(words[1:], "  ")+"."), p)
	}
	assert.NotEmpty(t, bannedIn("Lean it ALL\n  the way."))

	all, err := literals("made.go", []byte("package made\nfunc say(n string) string { return \"push it all\" +\n \" the\" + (\" way up, \") + n }\nvar raw = `to hold it\n there`\n"))
	require.NoError(t, err)
	found := map[string]bool{}
	for _, text := range all {
		for _, p := range bannedIn(text) {
			found[p] = true
		}
	}
	assert.Equal(t, map[string]bool{"all the way": true, "hold it there": true}, found)
}
