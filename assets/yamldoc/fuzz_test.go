package yamldoc

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"
	"time"

	"gopkg.in/yaml.v3"
	"pgregory.net/rapid"

	"propsoff.example/assets/words"
)

// stricter lists what this package refuses in YAML that yaml.v3 reads: the
// beginnings of the messages. A refusal for any other reason of a file that
// yaml.v3 reads would be a fault of the scanner.
var stricter = []string{
	"a zero byte", "the byte 0x", "the invisible", "the file is", "anchors", "aliases", "tags", "directives", "a second document",
	"something stands behind `", "a `?`", "a value without a name", "the colon stands", "more than", "and so on", "| begins", "> begins",
	// yaml.v3 takes a `|` that stands below its dash, in the same column; YAML 1.2.2 (rule s-l+block-scalar) asks for deeper.
	"a list goes on here",
	// A tab before a comment or behind `...` is white space to YAML; a person who sees none is helped by refusing every one.
	"a tab where",
}

// FuzzParse: no input makes the reader panic, hang or place an error outside
// the file; what yaml.v3 reads and the scanner refuses is refused on purpose;
// and what both read is the same tree.
func FuzzParse(f *testing.F) {
	for _, s := range []string{
		"a: 1\nb: [x, {c: d}]\n", "- |\n  x\n- 'y'\n- \"\\u00e9\"\n", "a: &x 1\nb: *x\n", "a:\n- b: c\n  d:\n  - e\n", "---\na: >-2\n   b\n...\n", "{a: [b, c: d], e: }",
		"a: b\n  c\n\n d: e", "? a\n: b", "a: \t|\n\n x\n # c\n", "\xEF\xBB\xBFon: off\r\n", "- - - x\n  - y\n", "'a': \"b\\\n  c\"", "a: !!t b", "%YAML 1.1\n--- a", "a: 1\n\tb", "[a,\n---\n", "#c\n a: #d\n  b: # e\n  - f",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) { checkFile(t, data) })
}

type fataler interface{ Fatalf(string, ...any) }

func checkFile(t fataler, data []byte) {
	d, err := Parse("f", data)
	text := strings.ReplaceAll(strings.ReplaceAll(string(data), "\r\n", "\n"), "\r", "\n")
	lines := strings.Count(text, "\n") + 1
	places := func(err error) {
		var es words.Problems
		if !errors.As(err, &es) || len(es) == 0 {
			t.Fatalf("%q: %T %v", data, err, err)
		}
		for _, e := range es {
			msg := words.English().Say(e.Text)
			if e.Line < 1 || e.Line > lines || e.Column < 1 || e.Column > len(data)+1 || msg == "" || strings.ContainsAny(msg, "\n\r\x1b") {
				t.Fatalf("%q: %#v %s", data, e, msg)
			}
		}
	}
	if err != nil {
		places(err)
		if judge(text) && !slices.ContainsFunc(stricter, func(s string) bool { return strings.HasPrefix(words.English().Say(err.(words.Problems)[0].Text), s) }) {
			t.Fatalf("%q is YAML and refused: %v", data, err)
		}
		return
	}
	readAll(d.Root())
	if err := d.Err(); err != nil {
		places(err)
	}
}

// judge tells whether yaml.v3 reads text as one document.
func judge(text string) (ok bool) {
	defer func() {
		if recover() != nil {
			ok = false
		}
	}()
	dec := yaml.NewDecoder(strings.NewReader(text))
	var a, b yaml.Node
	return dec.Decode(&a) == nil && errors.Is(dec.Decode(&b), io.EOF)
}

// readAll uses every reader on every node.
func readAll(n Node) {
	n.Text()
	n.Word("on", "off")
	n.Int(-5, 5)
	n.Number(-5, 5)
	n.Duration(0, time.Second)
	n.Amount("", "deg")
	n.Quantity(map[string]float64{"deg": 1, "%": 2}, -5, 5)
	n.Fixed("us", 8, 0, 100)
	n.StartsNumber()
	for _, c := range n.List() {
		readAll(c)
	}
	m := n.Map("yaml.group")
	m.Need("a")
	for k, v := range n.mapOrNothing() {
		readAll(k)
		readAll(v)
	}
	m.Done()
}

// Trees written by yaml.v3's own writer in every style come back whole.
func TestReadsWhatTheReferenceWrites(t *testing.T) {
	var grow func(rt *rapid.T, depth int) *yaml.Node
	scalar := func(rt *rapid.T, style yaml.Style) *yaml.Node {
		s := rapid.OneOf(rapid.StringMatching(`[ -~éß\n]{0,20}`), rapid.SampledFrom(trapWords), rapid.StringMatching(`([a-z*&!#:-]{1,8}[ \n]){0,40}`)).Draw(rt, "scalar")
		return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: s, Style: style}
	}
	grow = func(rt *rapid.T, depth int) *yaml.Node {
		flow := rapid.SampledFrom([]yaml.Style{0, 0, yaml.FlowStyle}).Draw(rt, "flow")
		kind := rapid.IntRange(0, 2).Draw(rt, "kind")
		if depth == 0 {
			kind = 0
		}
		switch kind {
		case 1:
			n := &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq", Style: flow}
			for range rapid.IntRange(0, 4).Draw(rt, "items") {
				n.Content = append(n.Content, grow(rt, depth-1))
			}
			return n
		case 2:
			n := &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map", Style: flow}
			for i := range rapid.IntRange(0, 4).Draw(rt, "fields") {
				k := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: fmt.Sprint("k", i, rapid.StringMatching(`[ -~]{0,10}`).Draw(rt, "name"))}
				n.Content = append(n.Content, k, grow(rt, depth-1))
			}
			return n
		}
		return scalar(rt, rapid.SampledFrom([]yaml.Style{0, yaml.DoubleQuotedStyle, yaml.SingleQuotedStyle, yaml.LiteralStyle, yaml.FoldedStyle}).Draw(rt, "style"))
	}
	rapid.Check(t, func(rt *rapid.T) {
		tree := grow(rt, 4)
		file, err := yaml.Marshal(tree)
		if err != nil {
			rt.Skip(err)
		}
		var back yaml.Node
		if err := yaml.Unmarshal(file, &back); err != nil {
			rt.Skip("the reference cannot read its own file: ", err)
		}
		d, err := Parse("f", file)
		if err != nil {
			if strings.Contains(string(file), "? ") && strings.Contains(err.Error(), "a `?`") || strings.Contains(err.Error(), "tags") {
				rt.Skip("written with what is refused")
			}
			rt.Fatalf("%s\n%v", file, err)
		}
		if !same(d.root, back.Content[0]) {
			rt.Fatalf("%s\nread otherwise", file)
		}
	})
}

func same(a, b *yaml.Node) bool {
	if a.Kind != b.Kind || a.Value != b.Value || len(a.Content) != len(b.Content) {
		return false
	}
	for i := range a.Content {
		if !same(a.Content[i], b.Content[i]) {
			return false
		}
	}
	return true
}
