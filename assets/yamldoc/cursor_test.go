package yamldoc

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"propsoff.example/assets/words"
)

func parse(t *testing.T, file string) *Doc {
	t.Helper()
	d, err := Parse("f", []byte(file))
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestMapReadsAndTellsWhatIsLeft(t *testing.T) {
	d := parse(t, "chanels: 8\nname: my craft\narm: {spam: [1700, 2180], over: 3}\nzzzz: 1\n")
	m := d.Root().Map("craft-file.craft")
	if n := m.Need("channels"); n.Exists() {
		t.Error("channels is not in the file")
	} else if _, ok := n.Int(1, 16); ok {
		t.Error("a missing node gave a number")
	}
	if s, ok := m.Need("name").Text(); !ok || s != "my craft" {
		t.Errorf("got %q %v", s, ok)
	}
	m.Need("modes")
	arm := m.Opt("arm").Map("yaml.group")
	arm.Need("span")
	arm.Done()
	if _, ok := m.Field("note"); ok {
		t.Error("note is not in the file")
	}
	m.Done()
	want := "f:1:1: the craft file has no field `modes`: add `modes: …`\n" +
		"f:1:1: unknown field `chanels` in the craft file: did you mean `channels`? fields here: channels, name, modes, arm, note\n" +
		"f:3:7: unknown field `spam` in the group: did you mean `span`? fields here: span\n" +
		"f:3:27: unknown field `over` in the group: delete it, or use another name; fields here: span\n" +
		"f:4:1: unknown field `zzzz` in the craft file: delete it, or use another name; fields here: channels, name, modes, arm, note"
	if got := message(d); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

// A needed field must never be lost, also when Done is not called or the near
// name turns out to be another field.
func TestNeedWithoutDone(t *testing.T) {
	d := parse(t, "arms: 1\n")
	m := d.Root().Map("yaml.file")
	m.Need("arm")
	m.Need("arm")
	m.Field("arms")
	m.Done()
	if got, want := message(d), "f:1:1: the file has no field `arm`: add `arm: …`"; got != want {
		t.Errorf("got %s", got)
	}
}

func TestMapOrderAndRest(t *testing.T) {
	d := parse(t, "c: 1\nb: 2\na: 3\nb: 9\n")
	m := d.Root().Map("yaml.file")
	var keys []string
	for _, k := range m.Keys() {
		s, _ := k.Text()
		keys = append(keys, s)
	}
	if got := strings.Join(keys, ""); got != "cba" || m.Len() != 3 {
		t.Errorf("keys %s", got)
	}
	if v, ok := m.Need("b").Int(0, 9); !ok || v != 2 {
		t.Errorf("b = %d %v, want the first", v, ok)
	}
	var rest []string
	for k, v := range m.Rest() {
		w, ok := k.Word("cc", "a")
		rest = append(rest, fmt.Sprintf("%s %v %v", w, ok, v.Pos()))
	}
	if got := strings.Join(rest, ", "); got != " false f:1:4, a true f:3:4" {
		t.Errorf("rest %s", got)
	}
	m.Done()
	if got, want := message(d), "f:1:1: `c` cannot stand here: did you mean `cc`? write cc or a\n"+
		"f:4:1: `b` is given twice, first at 2:1: keep one of the two"; got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
}

func TestKinds(t *testing.T) {
	d := parse(t, "m: {a: 1}\nl: [1, 2, 3]\ns: word\nq: ''\ne:\n")
	m := d.Root().Map("yaml.file")
	if d.Name() != "f" || m.Node().Pos() != (Pos{"f", 1, 1}) || !m.Opt("q").IsQuoted() || m.Opt("s").IsQuoted() {
		t.Errorf("name %s, group at %v, quoted %v %v", d.Name(), m.Node().Pos(), m.Opt("q").IsQuoted(), m.Opt("s").IsQuoted())
	}
	for _, c := range []struct {
		name                     string
		isMap, list, word, empty bool
	}{{"m", true, false, false, false}, {"l", false, true, false, false}, {"s", false, false, true, false}, {"q", false, false, true, false}, {"e", false, false, false, true}, {"none", false, false, false, false}} {
		n := m.Opt(c.name)
		if n.IsMap() != c.isMap || n.IsList() != c.list || n.IsScalar() != c.word || n.IsEmpty() != c.empty {
			t.Errorf("%s: map %v list %v scalar %v empty %v", c.name, n.IsMap(), n.IsList(), n.IsScalar(), n.IsEmpty())
		}
	}
	m.Opt("m").List()
	m.Opt("l").Map("yaml.group").Need("x")
	m.Opt("s").Map("yaml.group").Done()
	m.Opt("s").List()
	m.Opt("e").Map("yaml.group")
	m.Opt("e").Text()
	m.Opt("e").Word("on", "off")
	m.Opt("e").Int(1, 2)
	m.Opt("l").Number(0, 1.5)
	m.Opt("m").Duration(0, time.Second)
	m.Opt("m").Amount("ms")
	m.Opt("m").Fixed("us", 8, 8, 16)
	if _, ok := m.Opt("l").ListOf(1, 2); ok {
		t.Error("3 items of 1 to 2")
	}
	if items, ok := m.Opt("l").ListOf(3, 3); !ok || len(items) != 3 || items[2].Pos() != (Pos{"f", 2, 11}) {
		t.Errorf("items %v", items)
	}
	m.Opt("q").ListOf(2, 2)
	if s, ok := m.Opt("q").Text(); !ok || s != "" {
		t.Errorf("q = %q %v", s, ok)
	}
	want := []string{
		"f:1:4: this is a group of fields where a list must stand: write `- item` lines, or [item, item]",
		"f:1:4: this is a group of fields: write a time from 0s to 1s",
		"f:1:4: this is a group of fields: write a number with its unit, such as `2ms`",
		"f:1:4: this is a group of fields: write a number from 1 µs to 2 µs",
		"f:2:4: this is a list where the fields of the group must stand: write `name: value` lines",
		"f:2:4: this is a list: write a number from 0 to 1.5",
		"f:2:4: the list has 3 items: write 1 to 2",
		"f:3:4: `word` is a single value where the fields of the group must stand: write `name: value` lines",
		"f:3:4: `word` is a single value where a list must stand: write `- item` lines, or [item, item]",
		"f:4:4: `` is a single value where a list must stand: write `- item` lines, or [item, item]",
		"f:5:3: nothing is written here where the fields of the group must stand: write `name: value` lines",
		"f:5:3: nothing is written here: write a word or a text",
		"f:5:3: nothing is written here: write on or off",
		"f:5:3: nothing is written here: write a whole number from 1 to 2",
	}
	if got := strings.Split(message(d), "\n"); strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got\n%s", strings.Join(got, "\n"))
	}
}

func TestMissingNodeIsQuiet(t *testing.T) {
	d := parse(t, "a:\n  b: 1\n")
	n := d.Root().Map("yaml.file").Need("a").Map("yaml.group").Opt("c")
	n.Text()
	n.Word("x")
	n.Int(1, 2)
	n.Number(1, 2)
	n.Duration(1, 2)
	n.Amount("s")
	n.Quantity(map[string]float64{"deg": 1}, 1, 2)
	n.Fixed("us", 8, 1, 2)
	n.List()
	n.ListOf(1, 2)
	n.Map("yaml.group").Need("x")
	n.Map("yaml.group").Done()
	if err := d.Err(); err != nil {
		t.Errorf("got %v", err)
	}
	n.note(words.AsIs("no c: write c"))
	if got := message(d); got != "f:2:3: no c: write c" {
		t.Errorf("got %s", got)
	}
	Node{}.note(words.AsIs("nothing"))
	if (Node{}).IsMap() || (Node{}).Map("yaml.group").Len() != 0 {
		t.Error("the zero Node is something")
	}
}

func TestErrorsAreSortedAndCut(t *testing.T) {
	d := parse(t, "["+strings.Repeat("x,", 23)+"]")
	items := d.Root().List()
	for i := range items { // noted from both ends, the first many times
		items[len(items)-1-i].note(words.AsIs("wrong"))
		items[0].note(words.AsIs("wrong"))
	}
	err := d.Err()
	var es words.Problems
	if !errors.As(err, &es) || len(es) != 23 || es[0].Column != 2 || es[22].Column != 46 {
		t.Fatalf("got %v", err)
	}
	lines := strings.Split(err.Error(), "\n")
	if len(lines) != 21 || lines[0] != "f:1:2: wrong" || lines[19] != "f:1:40: wrong" || lines[20] != "and 3 more" {
		t.Errorf("got %v", lines)
	}
	var one *words.Problem
	if !errors.As(err, &one) || one != es[0] {
		t.Errorf("errors.As gave %v", one)
	}
}

// A message never carries the file's control characters to a terminal.
func TestMessagesAreHarmless(t *testing.T) {
	d := parse(t, `a: "\x1b[31m\u202e\"`+strings.Repeat("x", 100)+`"`)
	d.Root().Map("yaml.file").Need("a").Word("b")
	want := "f:1:4: `\\x1b[31m\\u202e\"" + strings.Repeat("x", 32) + "…` cannot stand here: write b"
	want = strings.Replace(want, strings.Repeat("x", 32), strings.Repeat("x", 39-len("\x1b[31m")-2), 1)
	if got := message(d); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

// Distances from the definition of the restricted Damerau-Levenshtein distance;
// kitten/sitting = 3 and CA/ABC = 3 are the textbook's examples (from memory).
func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{{"kitten", "sitting", 3}, {"ca", "abc", 3}, {"roll", "roll", 0}, {"rlol", "roll", 1}, {"chanels", "channels", 1}, {"", "abc", 3}, {"é", "e", 1}} {
		for _, d := range []int{distance([]rune(c.a), []rune(c.b)), distance([]rune(c.b), []rune(c.a))} {
			if d != c.want {
				t.Errorf("%s/%s: %d, want %d", c.a, c.b, d, c.want)
			}
		}
	}
}

// A word for yes is never taken for one for no, however near its letters are.
func TestNearKeepsYesFromNo(t *testing.T) {
	for _, c := range []struct {
		in    string
		words []string
		want  string
	}{
		{"on", []string{"no", "yes"}, "yes"}, {"On", []string{"no", "yes"}, "yes"}, {"true", []string{"no", "yes"}, "yes"},
		{"off", []string{"no", "yes"}, "no"}, {"FALSE", []string{"no", "yes"}, "no"},
		{"no", []string{"on", "off"}, "off"}, {"yes", []string{"on", "off"}, "on"}, {"true", []string{"on", "off"}, "on"},
		{"no", []string{"on", "from"}, ""}, {"on", []string{"no", "none"}, ""},
		{"yess", []string{"no", "yes"}, "yes"}, {"of", []string{"on", "off"}, "off"},
	} {
		if got, ok := Near(c.in, c.words); got != c.want || ok != (c.want != "") {
			t.Errorf("Near(%q, %q) = %q %v, want %q", c.in, c.words, got, ok, c.want)
		}
	}
	got := one(t, "on", func(n Node) (string, bool) { return n.Word("no", "yes") })
	if want := "`on` cannot stand here: did you mean `yes`? write no or yes"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestNear(t *testing.T) {
	words := []string{"roll", "pitch", "yaw", "throttle", "silence-limit", "on", "off"}
	for in, want := range map[string]string{
		"rol": "roll", "ROLL": "roll", "throtle": "throttle", "trhottle": "throttle", "silence_limit": "silence-limit", "Silence limit": "silence-limit",
		"pich": "pitch", "of": "off", "wheel": "", "a": "", "": "", "x": "", strings.Repeat("roll", 1000): "",
	} {
		if got, ok := Near(in, words); got != want || ok != (want != "") {
			t.Errorf("Near(%q) = %q %v, want %q", in, got, ok, want)
		}
	}
}
