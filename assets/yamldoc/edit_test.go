package yamldoc

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"
	"pgregory.net/rapid"
)

const editFile = `# top
propsoff: craft 1   # kind
"quoted name": 'x'

arming:           # how
  by: switch      # switch | sticks
  # own line
  on: {from: 1600, to: 2180}   # the span
  text: |  # lines
    one # no comment
    two

  list:           # of two
    - a           # first
    - {b: 1}
  empty:          # nothing
flow: {a: 1, "b":2, c: {d: [x, y]}, e: } # end
spread: {p: 1, # one
  q: 2,  # two
  r: 3 } # three
last: end
`

func TestSetByHand(t *testing.T) {
	order := []string{"by", "on", "low", "text"}
	for _, c := range []struct {
		path     string
		value    Inline
		order    [][]string
		old, new string
	}{
		{"propsoff", InlineText("craft two"), nil, "propsoff: craft 1   # kind", "propsoff: craft two   # kind"},
		{"quoted name", InlineText("it's"), nil, `"quoted name": 'x'`, `"quoted name": "it's"`},
		{"arming/by", InlineText("sticks"), nil, "by: switch      # switch", "by: sticks      # switch"},
		{"arming/on/from", InlineValue("1700.125"), nil, "{from: 1600,", "{from: 1700.125,"},
		{"arming/on", InlineList(InlineValue("1"), InlineText("on")), nil, "{from: 1600, to: 2180}", `[1, "on"]`},
		{"arming/text", InlineText("z"), nil, "|  # lines\n    one # no comment\n    two\n", "z  # lines"},
		{"arming/list", InlineText("none left"), nil, "list:           # of two\n    - a           # first\n    - {b: 1}\n", "list: none left           # of two\n    # first\n"},
		{"arming/empty", InlineValue("3"), nil, "empty:          #", "empty: 3          #"},
		{"arming/empty/x/y", InlineValue("3"), nil, "empty:          #", "empty: {x: {y: 3}}          #"},
		{"flow/b", InlineGroup(InlineField{"x y", InlineText("z")}), nil, `"b":2`, `"b":{x y: z}`},
		{"flow/c/d", InlineValue("0"), nil, "[x, y]", "0"},
		{"flow/e", InlineValue("5"), nil, "e: }", "e: 5 }"},
		{"flow/new", InlineValue("5"), nil, "e: }", "e: , new: 5 }"},
		{"flow/c/new", InlineValue("5"), nil, "[x, y]}", "[x, y], new: 5}"},
		{"spread/q", InlineValue("9"), nil, "q: 2,", "q: 9,"},
		{"spread", InlineValue("9"), nil, "{p: 1, # one\n  q: 2,  # two\n  r: 3 } # three", "9 # one\n  # two\n  # three"},
		{"arming/low", InlineValue("1000"), [][]string{nil, order}, "# the span\n", "# the span\n  low: 1000\n"},
		{"arming/by2", InlineValue("1"), [][]string{nil, {"by2", "by"}}, "# how\n", "# how\n  by2: 1\n"},
		{"arming/far", InlineValue("1"), nil, "# nothing\n", "# nothing\n  far: 1\n"},
		{"second/on/from", InlineValue("1"), [][]string{{"arming", "second"}}, "# nothing\n", "# nothing\n\nsecond:\n  on:\n    from: 1\n"},
		{"tail", InlineText("off"), nil, "last: end\n", "last: end\ntail: \"off\"\n"},
	} {
		for _, eol := range []string{"\n", "\r\n", "\r"} {
			text := "\uFEFF" + strings.ReplaceAll(editFile, "\n", eol)
			old, want := strings.ReplaceAll(c.old, "\n", eol), strings.ReplaceAll(c.new, "\n", eol)
			if strings.Count(text, old) != 1 {
				t.Fatalf("%s: %q stands %d times", c.path, old, strings.Count(text, old))
			}
			got, err := Set("f", []byte(text), strings.Split(c.path, "/"), c.value, c.order...)
			if err != nil {
				t.Errorf("%s: %v", c.path, err)
				continue
			}
			if want := strings.Replace(text, old, want, 1); string(got) != want {
				t.Errorf("%s with line break %q: got\n%q\nwant\n%q", c.path, eol, got, want)
			}
		}
	}
}

func TestDeleteByHand(t *testing.T) {
	for _, c := range []struct{ path, old, new string }{
		{"propsoff", "propsoff: craft 1   # kind\n", "# kind\n"},
		{"arming/on", "  on: {from: 1600, to: 2180}   # the span\n", "  # the span\n"},
		{"arming/on/from", "{from: 1600, to", "{to"},
		{"arming/on/to", "1600, to: 2180}", "1600}"},
		{"arming/list", "  list:           # of two\n    - a           # first\n    - {b: 1}\n", "  # of two\n  # first\n"},
		{"flow/c/d", "{d: [x, y]}", "{}"},
		{"flow/e", ", e: }", " }"},
		{"spread/q", "q: 2,  # two", "# two"},
		{"nowhere", "x", "x"},
		{"arming/nowhere", "x", "x"},
		{"last", "last: end\n", ""},
	} {
		got, err := Delete("f", []byte(editFile), strings.Split(c.path, "/")...)
		if err != nil {
			t.Errorf("%s: %v", c.path, err)
			continue
		}
		if want := strings.Replace(editFile, c.old, c.new, 1); string(got) != want {
			t.Errorf("%s: got\n%s\nwant\n%s", c.path, got, want)
		}
	}
	got, err := Delete("f", []byte("a:\n  b: 1 # c\nd: 2"), "a", "b")
	if err != nil || string(got) != "a: {}\n  # c\nd: 2" {
		t.Errorf("%q %v", got, err)
	}
}

func TestEditsThatCannotBe(t *testing.T) {
	for file, want := range map[string]string{
		"a: 1\n":       "f:1:4: `a` is no group of fields, so nothing can be set in it: write `name: value` lines",
		"a: [1]\n":     "f:1:4: `a` is no group of fields, so nothing can be set in it: write `name: value` lines",
		"- a\n":        "f:1:1: the file is no group of fields, so nothing can be set in it: write `name: value` lines",
		"a: 1\na: 2\n": "f:2:1: `a` is given twice, first at 1:1: keep one of the two",
		"a: &x 1\n":    "f:1:4: anchors (`&name`) are not read here: take the mark out; a text that begins with `&` goes in quotes",
	} {
		if _, err := Set("f", []byte(file), []string{"a", "b"}, InlineValue("1")); err == nil || err.Error() != want {
			t.Errorf("%q: %v", file, err)
		}
		if _, err := Delete("f", []byte(file), "a", "b"); err == nil || err.Error() != want {
			t.Errorf("%q: %v", file, err)
		}
	}
	if _, err := Set("f", []byte("a: 1\n"), nil, InlineValue("1")); err == nil {
		t.Error("no path")
	}
}

// tree is what the reference reads, as plain texts; groups are lists of pairs.
func tree(y *yaml.Node) any {
	switch y.Kind {
	case yaml.ScalarNode:
		return y.Value
	case yaml.MappingNode:
		out := [][2]any{}
		for i := 0; i < len(y.Content); i += 2 {
			out = append(out, [2]any{y.Content[i].Value, tree(y.Content[i+1])})
		}
		return out
	}
	out := []any{}
	for _, c := range y.Content {
		out = append(out, tree(c))
	}
	return out
}

// changed is the tree after a change, with groups in the order of their names: v nil deletes.
func changed(v any, path []string, to any) any {
	fields, ok := v.([][2]any)
	if !ok {
		fields = nil // an empty value becomes a group
	}
	out := [][2]any{}
	found := false
	for _, f := range fields {
		if len(path) > 0 && f[0] == path[0] {
			found = true
			switch {
			case len(path) > 1:
				f[1] = changed(f[1], path[1:], to)
			case to == nil:
				continue
			default:
				f[1] = to
			}
		}
		out = append(out, f)
	}
	if !found && to != nil {
		if len(path) > 1 {
			to = changed([][2]any{}, path[1:], to)
		}
		out = append(out, [2]any{path[0], to})
	}
	return out
}

func ordered(v any) any {
	switch v := v.(type) {
	case [][2]any:
		out := [][2]any{}
		for _, f := range v {
			out = append(out, [2]any{f[0], ordered(f[1])})
		}
		slices.SortFunc(out, func(a, b [2]any) int { return strings.Compare(a[0].(string), b[0].(string)) })
		return out
	case []any:
		out := []any{}
		for _, x := range v {
			out = append(out, ordered(x))
		}
		return out
	}
	return v
}

// After any edit of any file the reference reads the old tree with just this change, every comment is there once and is
// still a comment, and no line is new but the field's own.
func TestEditsChangeNothingElse(t *testing.T) {
	edits := 0
	rapid.Check(t, func(rt *rapid.T) {
		p := &pen{rt: rt}
		text := p.block(nil, true, "", 3)
		if p.coin("no last line break") {
			text = strings.TrimSuffix(text, "\n")
		}
		eol := rapid.SampledFrom([]string{"\n", "\r\n"}).Draw(rt, "line break")
		file := strings.ReplaceAll(text, "\n", eol)
		var before yaml.Node
		if err := yaml.Unmarshal([]byte(file), &before); err != nil {
			rt.Skip("the reference does not read it: ", err)
		}
		if d, err := Parse("f", []byte(file)); err != nil || d.Err() != nil {
			rt.Skip("not accepted here")
		}
		path := slices.Clone(rapid.SampledFrom(p.paths).Draw(rt, "path"))
		more := rapid.IntRange(0, 2).Draw(rt, "new")
		for i := range more {
			path = append(path, fmt.Sprint("new", i))
		}
		values := map[string]any{InlineValue("17").text: "17", InlineGroup(InlineField{"from", InlineText("on")}).text: [][2]any{{"from", "on"}}, InlineList(InlineText("a"), InlineText("b, c")).text: []any{"a", "b, c"}, InlineText("two words").text: "two words"}
		var out []byte
		var err error
		var want any
		was := ordered(tree(before.Content[0]))
		if rapid.IntRange(0, 2).Draw(rt, "delete") == 0 {
			out, err = Delete("f", []byte(file), path...)
			if more == 0 {
				want = changed(was, path, nil)
			} else {
				want = was
			}
		} else {
			v := rapid.SampledFrom([]string{InlineValue("17").text, `{from: "on"}`, `[a, "b, c"]`, "two words"}).Draw(rt, "value")
			out, err = Set("f", []byte(file), path, Inline{v})
			want = changed(was, path, values[v])
		}
		if err != nil {
			if strings.Contains(err.Error(), "no group") && more > 0 {
				return
			}
			// A text of whole lines takes in the blank lines behind a field that goes, and one that ends the file without a
			// line break gets one: refused, not done wrongly.
			if strings.Contains(err.Error(), "changed safely") && (strings.Contains(file, "|+") || strings.ContainsAny(file, "|>") && !strings.HasSuffix(file, "\n")) {
				return
			}
			rt.Fatalf("%q\n%v: %v", file, path, err)
		}
		edits++
		var after yaml.Node
		if err := yaml.Unmarshal(out, &after); err != nil {
			rt.Fatalf("%q\n%v\n%q: %v", file, path, out, err)
		}
		if got := ordered(tree(after.Content[0])); fmt.Sprintf("%q", got) != fmt.Sprintf("%q", ordered(want)) {
			rt.Fatalf("%s\n%v\n%s\n%q\n%q", file, path, out, got, ordered(want))
		}
		for _, m := range p.marks {
			if strings.Count(string(out), m) != 1 {
				rt.Fatalf("%s\n%v lost %s\n%s", file, path, m, out)
			}
		}
		if strings.Contains(file, "\r\n") && strings.Count(string(out), "\n") != strings.Count(string(out), "\r\n") {
			rt.Fatalf("mixed line breaks: %q", out)
		}
	})
	if edits < 50 {
		t.Fatalf("only %d edits were made: the files written are mostly refused", edits)
	}
}

// A change of one value on one line changes that line alone, and changing it back gives the very file.
func TestEditIsTakenBack(t *testing.T) {
	for _, c := range []struct{ path, was string }{{"arming/by", "switch"}, {"arming/on/to", "2180"}, {"flow/b", "2"}, {"spread/r", "3"}, {"last", "end"}} {
		path := strings.Split(c.path, "/")
		there, err := Set("f", []byte(editFile), path, InlineValue("12345"))
		if err != nil {
			t.Fatal(err)
		}
		a, b := strings.Split(editFile, "\n"), strings.Split(string(there), "\n")
		lines := 0
		for i := range a {
			if a[i] != b[i] {
				lines++
			}
		}
		if lines != 1 || len(a) != len(b) {
			t.Errorf("%s: %d lines changed", c.path, lines)
		}
		back, err := Set("f", there, path, InlineWord(c.was))
		if c.was[0] < 'a' {
			back, err = Set("f", there, path, InlineValue(c.was))
		}
		if err != nil || string(back) != editFile {
			t.Errorf("%s: %v\n%s", c.path, err, back)
		}
	}
}
