package propsoff_test

import (
	"go/ast"
	"go/token"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"text/template/parse"

	"github.com/nicksnyder/go-i18n/v2/i18n"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/text/language"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
)

// asks are the placeholders that the forms of a message have, and forms the plural forms, by name.
func asks(t *testing.T, m *i18n.Message) (asks, forms []string) {
	has := map[string]bool{}
	for name, src := range map[string]string{"zero": m.Zero, "one": m.One, "two": m.Two, "few": m.Few, "many": m.Many, "other": m.Other} {
		if src == "" {
			continue
		}
		forms = append(forms, name)
		tmpl, err := words.Template(src)
		if !assert.NoError(t, err, m.ID) || tmpl.Tree == nil {
			continue
		}
		fields(tmpl.Root, has)
	}
	slices.Sort(forms)
	return slices.Sorted(maps.Keys(has)), forms
}

// fields notes every placeholder below a node of a template.
func fields(n parse.Node, has map[string]bool) {
	switch n := n.(type) {
	case *parse.ListNode:
		if n != nil {
			for _, one := range n.Nodes {
				fields(one, has)
			}
		}
	case *parse.ActionNode:
		fields(n.Pipe, has)
	case *parse.PipeNode:
		for _, c := range n.Cmds {
			for _, a := range c.Args {
				fields(a, has)
			}
		}
	case *parse.IfNode:
		fields(n.Pipe, has)
		fields(n.List, has)
		fields(n.ElseList, has)
	case *parse.FieldNode:
		has[n.Ident[0]] = true
	}
}

func catalogue(t *testing.T, tag language.Tag) map[string]*i18n.Message {
	out := map[string]*i18n.Message{}
	for _, m := range words.Messages(tag) {
		assert.NotContains(t, out, m.ID, "%s: twice", tag)
		assert.Regexp(t, `^[a-z][a-z0-9-]*(\.[a-z0-9][a-z0-9-]*)+$`, m.ID)
		assert.NotEmpty(t, m.Other, "%s: %s says nothing", tag, m.ID)
		out[m.ID] = m
	}
	require.NotEmpty(t, out)
	return out
}

// Every language has the same messages, with the same placeholders and plural forms (English and German have the same two).
func TestEveryLanguageSaysTheSame(t *testing.T) {
	first := catalogue(t, language.English)
	for _, tag := range words.Languages()[1:] {
		other := catalogue(t, tag)
		for id, m := range first {
			o := other[id]
			if !assert.NotNil(t, o, "%s has no %s", tag, id) {
				continue
			}
			asks1, forms1 := asks(t, m)
			asks2, forms2 := asks(t, o)
			assert.Equal(t, asks1, asks2, "%s: placeholders of %s", tag, id)
			assert.Equal(t, forms1, forms2, "%s: plural forms of %s", tag, id)
		}
		for id := range other {
			assert.NotNil(t, first[id], "only %s has %s", tag, id)
		}
	}
}

// A text that scripts/newlanguage wrote and that was not translated yet is owed.
func TestNoLanguageOwesAText(t *testing.T) {
	for _, tag := range words.Languages() {
		var owed []string
		for _, m := range words.Messages(tag) {
			if strings.HasPrefix(m.One, wordstest.Owed) || strings.HasPrefix(m.Other, wordstest.Owed) {
				owed = append(owed, m.ID)
			}
		}
		for file, texts := range words.ShippedIn(tag) {
			for english, said := range texts {
				if strings.HasPrefix(said, wordstest.Owed) {
					owed = append(owed, file+": "+english)
				}
			}
		}
		slices.Sort(owed)
		assert.Zero(t, len(owed), "%s owes so many texts, the first of them %q", tag, owed[:min(10, len(owed))])
	}
}

// Every message that the program names is there and gets the values that it asks for; none stands in the catalogues for nothing.
func TestEveryMessageIsSaidAndThere(t *testing.T) {
	all := catalogue(t, language.English)
	used, families := map[string]bool{}, map[string]bool{}
	type family struct {
		file, name string
		given      []string
	}
	var told []family
	said := 0
	for _, r := range rooms(t) {
		for file, f := range r.names {
			ast.Inspect(f, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.BasicLit:
					if s, err := strconv.Unquote(n.Value); err == nil && n.Kind == token.STRING && all[s] != nil {
						used[s] = true
					}
				case *ast.CallExpr:
					name := ""
					switch fun := n.Fun.(type) {
					case *ast.SelectorExpr:
						if x, ok := fun.X.(*ast.Ident); ok && (x.Name == "words" || x.Name == "b") || fun.Sel.Name == "Wrong" {
							name = fun.Sel.Name
						}
					case *ast.Ident:
						if r.path == "assets/words" {
							name = fun.Name
						}
					}
					// A message may also be named among the arguments of a function of a package's own, with its values behind it.
					if i := slices.IndexFunc(n.Args, func(e ast.Expr) bool { return namesOne(e, all) }); i >= 0 && name != "T" && name != "Wrong" && name != "Of" && name != "Each" {
						if want, _ := asks(t, all[text(n.Args[i])]); i+1 < len(n.Args) {
							if given, counts, plain := given(n.Args[i+1:]); plain {
								assert.Equal(t, want, given, "%s: values of %s", file, text(n.Args[i]))
								assert.LessOrEqual(t, counts, 1, "%s: %s counts several things", file, text(n.Args[i]))
							}
						}
						return true
					}
					if len(n.Args) == 0 {
						return true
					}
					lit, ok := n.Args[0].(*ast.BasicLit)
					if !ok || lit.Kind != token.STRING {
						return true
					}
					id, _ := strconv.Unquote(lit.Value)
					args := n.Args[1:]
					switch name {
					case "T", "Wrong":
					case "Each":
						for _, a := range args {
							want, _ := asks(t, all[id+"."+text(a)])
							assert.True(t, all[id+"."+text(a)] != nil && want == nil, "%s: no message %s.%s without values", file, id, text(a))
							used[id+"."+text(a)] = true
						}
						return true
					case "Of":
						families[id] = true
						two, ok := args[0].(*ast.BasicLit)
						if !ok {
							if given, _, plain := given(args[1:]); plain {
								told = append(told, family{file, id, given})
							}
							return true
						}
						code, _ := strconv.Unquote(two.Value)
						id, args = id+"."+code, args[1:]
					default:
						return true
					}
					said++
					m := all[id]
					if !assert.NotNil(t, m, "%s: no message %s", file, id) {
						return true
					}
					used[id] = true
					want, forms := asks(t, m)
					given, counts, plain := given(args)
					if plain {
						assert.Equal(t, want, given, "%s: values of %s", file, id)
						assert.LessOrEqual(t, counts, 1, "%s: %s counts several things", file, id)
						assert.True(t, len(forms) == 1 || counts == 1, "%s: %s has plural forms and no count", file, id)
					}
				}
				return true
			})
		}
	}
	for _, f := range told { // every message of a family gets what it asks for, but for those that are named by themselves
		for id, m := range all {
			if want, _ := asks(t, m); id[:strings.LastIndex(id, ".")] == f.name && !used[id] {
				assert.Subset(t, f.given, want, "%s: values of %s", f.file, id)
			}
		}
	}
	for id := range all {
		family := id[:strings.LastIndex(id, ".")]
		assert.True(t, used[id] || families[family], "nobody says %s", id)
	}
	assert.NotZero(t, said)
}

// fixedKey finds a key by its name in a sentence: by a value it is named, as the tables of keys have it in each language. What the shell does
// with a key of its own (Tab), and the system (Ctrl-C), is its affair.
var fixedKey = regexp.MustCompile(`\b(F\d\d?|Enter|Esc|Space|Backspace|Shift|Page(?:Up|Down)|Leertaste|Umschalt|Rücktaste|Bild[↑↓])\b|[←↑→↓]|(?:dann |drücke |\()Eingabe\b|\([A-Z]\)|\b(?i:press|hold|drücke|halte) [A-Z]\b`)

// No sentence holds the name of a key.
func TestNoSentenceHoldsAKey(t *testing.T) {
	for _, tag := range words.Languages() {
		for id, m := range catalogue(t, tag) {
			if !strings.HasPrefix(id, "key-cap.") {
				assert.NotRegexp(t, fixedKey, m.One+" "+m.Other, "%s: %s", tag, id)
			}
		}
	}
	for _, named := range []string{"press B to", "the sheet (F6)", "then Enter.", "Drücke S für", "↑ ↓ for", "mit Bild↓", "dann Eingabe."} {
		assert.Regexp(t, fixedKey, named)
	}
}

// text is a literal's string, empty for anything else; named reports whether it is the name of a message.
func text(e ast.Expr) string {
	lit, ok := e.(*ast.BasicLit)
	if !ok || lit.Kind != token.STRING {
		return ""
	}
	s, _ := strconv.Unquote(lit.Value)
	return s
}

func namesOne(e ast.Expr, all map[string]*i18n.Message) bool { return all[text(e)] != nil }

// given are the names in a literal of words.Args, sorted, and how many are written as counts; plain where it is a literal, or none is given.
func given(args []ast.Expr) (names []string, counts int, plain bool) {
	if len(args) == 0 {
		return nil, 0, true
	}
	lit, ok := args[0].(*ast.CompositeLit)
	if !ok {
		return nil, 0, false
	}
	for _, e := range lit.Elts {
		kv, ok := e.(*ast.KeyValueExpr)
		if !ok {
			return nil, 0, false
		}
		k, ok := kv.Key.(*ast.BasicLit)
		if !ok {
			return nil, 0, false
		}
		s, _ := strconv.Unquote(k.Value)
		names = append(names, s)
		if call, ok := kv.Value.(*ast.CallExpr); ok {
			sel, selected := call.Fun.(*ast.SelectorExpr)
			own, inside := call.Fun.(*ast.Ident) // in package words itself
			if selected && sel.Sel.Name == "Count" || inside && own.Name == "Count" {
				counts++
			}
		}
	}
	slices.Sort(names)
	return names, counts, true
}
