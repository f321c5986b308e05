package yamldoc

import (
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
	"pgregory.net/rapid"
)

// texts are strings that are hard on a writer of YAML.
func texts() *rapid.Generator[string] {
	return rapid.OneOf(
		rapid.String(),
		rapid.SampledFrom(trapWords),
		rapid.StringMatching(`[a-zA-Z0-9 _./-]{0,12}`),
		rapid.StringMatching(`[-?:,\[\]{}#&*!|>'"%@\x60<=~ \t\n\r\\xnou0]{0,8}`),
		rapid.SampledFrom([]string{"", " ", "a ", " a", "a: b", "a #b", "- a", "---", "...", "<<", "\u0085", "\u2028", "\uFEFF", "\uFFFE", "\x00", "\x7f", "é", "\U0001F600", "\U000E0001"}),
	)
}

// A general reader (yaml.v3 into an interface) and ours get the string back,
// as value, as name, in a list and in brackets.
func TestQuoteIsReadBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := texts().Draw(rt, "text")
		q := Quote(s)
		if strings.ContainsAny(q, "\n\r") {
			rt.Fatalf("%q is on several lines", q)
		}
		if !utf8.ValidString(s) {
			rt.Skip("not a text")
		}
		for _, file := range []string{q + "\n", "k: " + q + "\n", "- " + q + " # c\n", "{k: [" + q + ", x]}\n"} {
			var v any
			if err := yaml.Unmarshal([]byte(file), &v); err != nil {
				rt.Fatalf("%q: %v", file, err)
			}
			for {
				if m, ok := v.(map[string]any); ok {
					v = m["k"]
				} else if l, ok := v.([]any); ok {
					v = l[0]
				} else {
					break
				}
			}
			if v != s {
				rt.Fatalf("%q read as %#v", file, v)
			}
		}
		if len(q) > 900 {
			return
		}
		d, err := Parse("f", []byte(q+": "+q+"\n"))
		if err != nil {
			rt.Fatalf("%q: %v", q, err)
		}
		for k, v := range d.Root().Map("file").Rest() {
			kt, _ := k.Text()
			vt, _ := v.Text()
			if kt != s || vt != s || d.Err() != nil {
				rt.Fatalf("%q read as %q: %q (%v)", q, kt, vt, d.Err())
			}
		}
	})
}

// resolved11 and resolved12 match what a reader turns into something else than
// a string: yaml.org/type/{bool,null,int,float,timestamp,merge,value}.html for
// 1.1 (bool from yaml.org/type/bool.html, the others from memory), YAML 1.2.2
// section 10.3.2 for 1.2 (from memory).
var (
	resolved11 = regexp.MustCompile(`^(y|Y|yes|Yes|YES|n|N|no|No|NO|true|True|TRUE|false|False|FALSE|on|On|ON|off|Off|OFF` +
		`|~|null|Null|NULL||<<|=` +
		`|[-+]?0b[0-1_]+|[-+]?0[0-7_]+|[-+]?(0|[1-9][0-9_]*)|[-+]?0x[0-9a-fA-F_]+|[-+]?[1-9][0-9_]*(:[0-5]?[0-9])+` +
		`|[-+]?([0-9][0-9_]*)?\.[0-9.]*([eE][-+][0-9]+)?|[-+]?[0-9][0-9_]*(:[0-5]?[0-9])+\.[0-9_]*|[-+]?\.(inf|Inf|INF)|\.(nan|NaN|NAN)` +
		`|[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}.*)$`)
	resolved12 = regexp.MustCompile(`^(null|Null|NULL|~||true|True|TRUE|false|False|FALSE` +
		`|[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+|[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?|[-+]?(\.inf|\.Inf|\.INF)|\.nan|\.NaN|\.NAN)$`)
)

func TestQuoteLeavesNoWordToGuess(t *testing.T) {
	for _, w := range trapWords {
		if q := Quote(w); q != `"`+w+`"` {
			t.Errorf("%s is written %s", w, q)
		}
	}
	rapid.Check(t, func(rt *rapid.T) {
		s := texts().Draw(rt, "text")
		if q := Quote(s); q[0] != '"' && (resolved11.MatchString(q) || resolved12.MatchString(q)) {
			rt.Fatalf("%q is written plain", s)
		}
	})
	for s, want := range map[string]string{
		"roll": "roll", "air mode": "air mode", "two-stick_2": "two-stick_2", "": `""`, "a, b": `"a, b"`, "a\nb\t\"c\\": `"a\nb\t\"c\\"`, "\x1b\u2028\U000E0001": `"\x1B\u2028\U000E0001"`, "\xff": "\"\uFFFD\"", "schön": `"schön"`,
	} {
		if got := Quote(s); got != want {
			t.Errorf("%q is written %s, want %s", s, got, want)
		}
	}
}

func TestWriter(t *testing.T) {
	var w Writer
	w.Comment("learned by propsoff\nkeep\tit")
	w.Text("name", "on")
	w.Value("centre", "1500.125")
	w.Value("dwell", "300ms")
	w.Value("part", "-35 %")
	w.Value("odd", "1e3")
	w.Value("octal", "010")
	w.Open("throttle")
	w.Value("axis", "2")
	w.Open("reach")
	w.Value("low", "3")
	w.Close()
	w.Close()
	w.OpenList("switches")
	w.Item()
	w.Comment("the left one")
	w.Text("no", "left: front")
	w.Value("axis", "4")
	w.Close()
	w.TextItem("yes")
	w.Close()
	w.Text("end", "x")
	const want = `# learned by propsoff
# keep it
name: "on"
centre: 1500.125
dwell: 300ms
part: -35 %
odd: "1e3"
octal: "010"
throttle:
  axis: 2
  reach:
    low: 3
switches:
  # the left one
  - "no": "left: front"
    axis: 4
  - "yes"
end: x
`
	if got := string(w.Bytes()); got != want {
		t.Fatalf("got\n%s", got)
	}
	d := parse(t, want)
	if got, want := outline(d.Root()), `{name=on,centre=1500.125,dwell=300ms,part=-35 %,odd=1e3,octal=010,throttle={axis=2,reach={low=3}},switches=[{no=left: front,axis=4},yes],end=x}`; got != want {
		t.Errorf("got %s", got)
	}
}

// Whatever is written is read back: as a field by Text and by Value.
func TestWriterIsReadBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := rapid.OneOf(texts(), rapid.StringMatching(`[-+]?[0-9.]{1,4} ?[a-z%e+]{0,4}`)).Filter(utf8.ValidString).Draw(rt, "text")
		var w Writer
		w.Comment(s)
		w.Text("a", s)
		w.Value("b", s)
		w.OpenList("c")
		w.TextItem(s)
		w.Item()
		w.Text("d", s)
		w.Close()
		w.Close()
		d, err := Parse("f", w.Bytes())
		if err != nil {
			rt.Fatalf("%s\n%v", w.Bytes(), err)
		}
		m := d.Root().Map("file")
		list := m.Need("c").List()
		for _, n := range []Node{m.Need("a"), m.Need("b"), list[0], list[1].Map("item").Need("d")} {
			if got, _ := n.Text(); got != s {
				rt.Fatalf("%s\n%v: %q, want %q", w.Bytes(), n.Pos(), got, s)
			}
		}
	})
}
