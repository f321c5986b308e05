package propsoff_test

import (
	"go/ast"
	"go/token"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// sentence is what a text for a person has and a code word has not: a letter, a space and a letter.
var sentence = regexp.MustCompile(`\pL \pL`)

// forTests are the packages that only tests and scripts call.
var forTests = []string{"assets/words/wordstest", "cmd/propsoff/internal/savers", "cmd/propsoff/internal/ui/uitest", "input/inputtest"}

// noSentences are the strings with a letter, a space and a letter that nobody reads as a sentence, each kind with how it begins or what it
// is. A file's head is in English, as its keywords are.
var noSentences = []struct{ kind, text string }{
	{"the head of a file", `^(# |%s: %s\n# |The cautions were read\.|propsoff take $|Written by propsoff prove: $)`},
	{"a command line", `^(source <\()?propsoff `},
	{"marks of SVG, XML or HTML", `^<`},
	{"operators of PDF", `^(%s 0 0 |0 0 %s|/%s %s Tf|%d beginbfchar|endcmap|/CID)`},
	{"a unit", `^(kg|g|N|A) (m|s)2?( s2?)?$|^N s2?/m2?$`},
	{"a code word of JSON", `^((front|rear) (left|right)|(left|right) stick (across|up and down)|(event|classic|portable joystick) interface|` +
		`browser's gamepad interface|, the axes beyond those by the window's engine)$`},
	{"what is typed", `^(answer N?|(link|power) (on|off)|cable (in|out)|menu closed|propellers checked|logbook (forget|report))$`},
	{"what the command library calls a section of a manual", `^(OPTIONS INHERITED FROM PARENT COMMANDS|SEE ALSO)$`},
	{"what the YAML library says", `^did not find expected `},
}

// Every sentence stands in the catalogues: a string of the program with a letter, a space and a letter is a tag, what a panic says, the use of
// a command or one of noSentences.
func TestNoSentenceOutsideTheCatalogues(t *testing.T) {
	var kinds []*regexp.Regexp
	for _, no := range noSentences {
		kinds = append(kinds, regexp.MustCompile(no.text))
	}
	found := make([]int, len(kinds))
	for name, r := range rooms(t) {
		if slices.Contains(forTests, name) || strings.HasPrefix(name, "scripts") {
			continue
		}
		for file, f := range r.names {
			apart := map[ast.Node]bool{}
			ast.Inspect(f, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.Field:
					apart[n.Tag] = n.Tag != nil
				case *ast.CallExpr:
					switch f, ok := n.Fun.(*ast.Ident); {
					case ok && f.Name == "panic":
						return false
					case ok && f.Name == "newCommand" && name == "cmd/propsoff": // its use
						apart[n.Args[1]] = true
					}
				case *ast.BasicLit:
					s, _ := strconv.Unquote(n.Value)
					if n.Kind != token.STRING || apart[n] || !sentence.MatchString(s) {
						break
					}
					i := slices.IndexFunc(kinds, func(k *regexp.Regexp) bool { return k.MatchString(s) })
					if assert.GreaterOrEqual(t, i, 0, "%s: %q belongs in the catalogues", file, s) {
						found[i]++
					}
				}
				return true
			})
		}
	}
	for i, n := range found {
		assert.NotZero(t, n, "nothing is %s any more", noSentences[i].kind)
	}
}
