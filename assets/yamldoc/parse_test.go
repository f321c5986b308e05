package yamldoc

import (
	"errors"
	"strings"
	"testing"

	"propsoff.example/assets/words"
)

// badFiles have the beginning of the error of each; the places were counted by hand.
var badFiles = []struct{ name, file, want string }{
	// What is no text.
	{"empty", "", "f:1:1: the file is empty: write at least one `name: value` line, or leave the file out"},
	{"blanks", " \n\t\n", "f:1:1: the file is empty"},
	{"comments only", "# nothing\n\n# here\n", "f:1:1: the file is empty"},
	{"mark only", "---\n", "f:1:1: the file is empty"},
	{"BOM only", "\xEF\xBB\xBF", "f:1:1: the file is empty"},
	{"zero byte", "a: 1\nb: x\x00y\n", "f:2:5: a zero byte: this is a binary file"},
	{"latin 1", "a: 1\nname: \xE9t\xE9\n", "f:2:7: the byte 0xE9 is not UTF-8 text: save the file as UTF-8"},
	{"UTF-16 little", "\xFF\xFEa\x00:\x00", "f:1:1: the file is encoded in UTF-16: save it as UTF-8"},
	{"UTF-16 big", "\xFE\xFF\x00a\x00:", "f:1:1: the file is encoded in UTF-16: save it as UTF-8"},
	{"UTF-16 without mark", "a\x00:\x00", "f:1:2: a zero byte: this is a binary file or a text in UTF-16"},
	{"escape character", "a: \x1b[31m\n", "f:1:4: the invisible character U+001B: delete it, or write it as \"\\u001B\""},
	{"line separator", "a: x\u2028b: y\n", "f:1:5: the invisible character U+2028"},
	{"BOM inside", "a: 1\n\uFEFFb: 2\n", "f:2:1: the invisible character U+FEFF"},

	// What is YAML and refused.
	{"anchor", "a: &x 1\nb: 2\n", "f:1:4: anchors (`&name`) are not read here"},
	{"alias", "a: *x\n", "f:1:4: aliases (`*name`) are not read here: write the value out"},
	{"alias in list", "- 1\n- [2, *x]\n", "f:2:7: aliases"},
	{"alias as name", "*x : 1\n", "f:1:1: aliases"},
	{"all of them", "a: &x 1\nb: *x\nc: !!str 3\nd: !t {e: 1}\n",
		"f:1:4: anchors (`&name`) are not read here: take the mark out; a text that begins with `&` goes in quotes\n" +
			"f:2:4: aliases (`*name`) are not read here: write the value out; a text that begins with `*` goes in quotes\n" +
			"f:3:4: tags (`!name`, `!!type`) are not read here: take the mark out; a text that begins with `!` goes in quotes\n" +
			"f:4:4: tags (`!name`, `!!type`) are not read here: take the mark out; a text that begins with `!` goes in quotes"},
	{"bare tag", "! a: 1\n", "f:1:1: tags"},
	{"directive", "%YAML 1.1\n---\na: 1\n", "f:1:1: directives (`%`) are not read here"},
	{"two documents", "a: 1\n---\nb: 2\n", "f:2:1: a second document begins here: keep one document in a file"},
	{"two marks", "---\n---\na: 1\n", "f:2:1: a second document begins here"},
	{"beside the mark", "--- a\n", "f:1:5: something stands behind `---`"},
	{"behind the end", "a: 1\n...\nb: 2\n", "f:3:1: something stands behind `...`"},
	{"question mark", "? a\n: b\n", "f:1:1: a `?` begins nothing here"},
	{"question mark in brackets", "a: [what?]\n", "f:1:9: a `?` begins nothing here"},

	// Tabs and levels.
	{"tab before a field", "a:\n\tb: 1\n", "f:2:1: a tab where the level of the line is told by spaces"},
	{"tab behind spaces", "a:\n  \tb: 1\n", "f:2:3: a tab"},
	{"tab behind a dash", "-\ta\n", "f:1:2: a tab"},
	{"tab in a long text", "a: b\n\tc\n", "f:2:1: a tab"},
	{"tab in lines", "a: |\n\tb\n", "f:2:1: a tab"},
	{"too far right", "a: 1\n# c\n  b: 2\n", "f:3:3: this line is indented to column 3, which fits no line above: start it at column 1"},
	{"between levels", "a:\n    b: 1\n  c: 2\n", "f:3:3: this line is indented to column 3, which fits no line above: start it at column 1"},
	{"left of everything", "  a: 1\nb: 2\n", "f:2:1: this does not belong to anything"},
	{"joined line", "a: 1\n  b: 2\n", "f:2:4: a second colon in one value"},
	{"item among fields", "a: 1\n- b\n", "f:2:1: a list item stands among fields"},
	{"field among items", "- a\nb: 1\n", "f:2:1: a list goes on here, and its items begin with `- `"},
	{"list on the line of its field", "a: - b\n", "f:1:4: a list cannot begin here: start it on the next line"},

	// Colons, quotes, brackets.
	{"two colons", "a: b: c\n", "f:1:5: a second colon in one value"},
	{"no space", "a: 1\nb:2\nc: 3\n", "f:2:1: no space behind the colon of `b:2`: write `name: value`, with a space"},
	{"no colon", "a: 1\nb\nc: 3\n", "f:2:1: `b` stands where a field must stand"},
	{"no colon at the end", "a: 1\nb\n", "f:2:1: `b` stands where a field must stand"},
	{"no name", ": 1\n", "f:1:1: a value without a name"},
	{"no name in brackets", "a: {: 1}\n", "f:1:5: a value without a name"},
	{"colon below", "a: {b\n  : 1}\n", "f:2:3: the colon stands on a line without its name"},
	{"open quote", "a: 1\nb: \"x\nc: 2\n", "f:2:4: the quote that begins here is never closed: write \" where the text ends"},
	{"open single quote", "b: 'it''s\n", "f:1:4: the quote that begins here is never closed: write ' where the text ends"},
	{"behind a quote", "a: \"b\" c\n", "f:1:8: something stands behind the value on the same line"},
	{"wrong escape", `a: "C:\dir"` + "\n", "f:1:7: `\\d` means nothing in double quotes: write `\\\\` for one backslash"},
	{"short escape", `a: "\x4"` + "\n", "f:1:5: `\\x` must be followed by 2 digits"},
	{"half a pair", `a: "\uD800"` + "\n", "f:1:5: `\\u` does not name a character"},
	{"open bracket", "a: 1\nb: [1, 2\nc: 3\n", "f:3:2: a second colon in one value"},
	{"open bracket at the end", "a: 1\nb: [1, 2\n", "f:2:4: this [ is never closed: write ] where the values end"},
	{"crossed brackets", "a: [{b: 1]}\n", "f:1:10: a ] cannot close the { of 1:5: write }"},
	{"lone bracket", "a: 1\n]\n", "f:2:1: a ] closes nothing"},
	{"no comma", "a: [\"b\" \"c\"]\n", "f:1:9: something stands behind the value: write a comma between values"},
	{"two commas", "a: [b,, c]\n", "f:1:7: nothing stands before this comma"},
	{"comma outside", "a: , b\n", "f:1:4: a comma begins nothing outside brackets"},
	{"dash in brackets", "a: [- b]\n", "f:1:5: a `- ` inside brackets"},
	{"percent first", "a: %5\n", "f:1:4: no plain text may begin with %: put the text in quotes"},
	{"at first", "a: @home\n", "f:1:4: no plain text may begin with @"},
	{"bar in brackets", "a: [| b]\n", "f:1:5: no plain text may begin with |"},
	{"bar and text", "a: |text\n  b\n", "f:1:4: | begins a text of whole lines"},
	{"bar with too much", "a: 1\nb: |--\n  x\n", "f:2:1: this is not well-formed YAML near here (did not find expected comment or line break): check indentation"},
	{"behind no lines", "a:\n  b: |\n  c: d: e\n", "f:3:7: a second colon in one value"},
	{"behind lines with a width", "a:\n  b: |1\n    x\n  c: d: e\n", "f:4:7: a second colon in one value"},
	{"bar and text apart", "a: > text\n", "f:1:4: a text of whole lines stands on the lines after this mark"},
}

func TestBadFiles(t *testing.T) {
	for _, c := range badFiles {
		t.Run(c.name, func(t *testing.T) {
			d, err := Parse("f", []byte(c.file))
			if err == nil {
				t.Fatalf("accepted %q: %v", c.file, d.root)
			}
			if whole := strings.Contains(c.want, "\n"); whole && err.Error() != c.want || !strings.HasPrefix(err.Error(), c.want) {
				t.Errorf("%q:\n got %s\nwant %s", c.file, err, c.want)
			}
			var es words.Problems
			if !errors.As(err, &es) || d != nil {
				t.Errorf("want Problems and no Doc, got %T and %v", err, d)
			}
		})
	}
}

// What does not stop the reading is told by Err, together with the rest.
func TestNames(t *testing.T) {
	for _, c := range []struct{ name, file, want string }{
		{"twice", "a: 1\nb: 2\n\"a\": 3\n", "f:3:1: `a` is given twice, first at 1:1: keep one of the two"},
		{"twice inside", "- {x: 1, y: 2, x: 3}\n", "f:1:16: `x` is given twice, first at 1:4: keep one of the two"},
		{"on is a word", "on: 1\ntrue: 2\n'on': 3\n", "f:3:1: `on` is given twice, first at 1:1: keep one of the two"},
		{"merge", "a: {<<: {b: 1}}\n", "f:1:5: merge keys `<<` are not read here: write the fields out in full"},
		{"group as name", "[a, b]: 1\n", "f:1:1: a group in brackets stands where a name must stand: write `name: value`"},
		{"all at once", "a: 1\na: 2\nb:\n  <<: x\n  c: 1\n  c: 2\n",
			"f:2:1: `a` is given twice, first at 1:1: keep one of the two\n" +
				"f:4:3: merge keys `<<` are not read here: write the fields out in full\n" +
				"f:6:3: `c` is given twice, first at 5:3: keep one of the two"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d, err := Parse("f", []byte(c.file))
			if err != nil {
				t.Fatal(err)
			}
			if got := message(d); got != c.want {
				t.Errorf("got %s\nwant %s", got, c.want)
			}
		})
	}
}

func message(d *Doc) string {
	if err := d.Err(); err != nil {
		return err.Error()
	}
	return ""
}

// says is what a message that asks for nothing says.
func says(id words.ID) string { return words.English().Say(words.T(id)) }

// The second locks behind the scanner, which no file known to us reaches.
func TestSecondLocks(t *testing.T) {
	bad := guard(func() *words.Problem { panic("index out\nof range") })
	if want := "this is not well-formed YAML (the reader gave up: `index out\\nof range`): look for stray marks and write the file more plainly"; bad == nil || words.English().Say(bad.Text) != want {
		t.Errorf("got %v", bad)
	}
	for file, want := range map[string]string{
		"a: &x 1\nb: *x\nc: !t 2\n": "f:1:4: " + says(refusedAnchor) + "\nf:2:4: " + says(refusedAlias) + "\nf:3:4: " + says(refusedTag),
		"a: &x [*x, *x]\n":          "f:1:4: " + says(refusedAnchor) + "\nf:1:8: " + says(refusedAlias) + "\nf:1:12: " + says(refusedAlias),
		"&x a: 1\n":                 "f:1:1: " + says(refusedAnchor),
		"a: 1\n---\nb: 2\n":         "f:2:1: " + says(oneDocument),
		"a: 1\n b: 2\n":             "f:2:2: this is not well-formed YAML near here (mapping values are not allowed in this context): check indentation, colons, quotes and brackets in this line and the one before",
		"c: 0\na:\n  b: 1\n c: 2\n": "f:4:2: this is not well-formed YAML near here (did not find expected key): check indentation, colons, quotes and brackets in this line and the one before",
		"# only\n":                  "f:" + emptyFile().Error(),
		"a: 1\n---\nb: [\n":         "f:4:1: this is not well-formed YAML near here (did not find expected node content): check indentation, colons, quotes and brackets in this line and the one before",
	} {
		root, bad := build(file)
		d := &Doc{name: "f"}
		if bad != nil {
			d.wrong = words.Problems{bad.In("f")}
		} else {
			d.refuseMarks(root)
		}
		if got := message(d); got != want {
			t.Errorf("%q:\n got %s\nwant %s", file, got, want)
		}
	}
}

// Every form of YAML that is kept, its text beside it.
func TestGoodFiles(t *testing.T) {
	for _, c := range []struct{ name, file, want string }{
		{"fields", "a: 1\nb: two words\n", `{a=1,b=two words}`},
		{"levels", "a:\n  b:\n    c: 1\n  d: 2\ne: 3\n", `{a={b={c=1},d=2},e=3}`},
		{"list", "- a\n- b: 1\n  c: 2\n- - x\n  - y\n-\n  z\n", `[a,{b=1,c=2},[x,y],z]`},
		{"list at its field's column", "a:\n- 1\n- 2\nb:\n- c: 1\n  d:\n  - 3\n  e: 4\nf: 5\n", `{a=[1,2],b=[{c=1,d=[3],e=4}],f=5}`},
		{"brackets", "a: {b: [1, 2, ], c: {}, d: [], \"e\":5}\n", `{a={b=[1,2],c={},d=[],e=5}}`},
		{"brackets over lines", "a: {\n b: 1,\n# c\n\tc: 2\n}\n", `{a={b=1,c=2}}`},
		{"field in list", "a: [b: 1, c]\n", `{a=[{b=1},c]}`},
		{"one line fields", "steps:\n  - {at: 2.5s, arm: 2012}\n  - {at: 6.0s, expect: disarmed}\n", `{steps=[{at=2.5s,arm=2012},{at=6.0s,expect=disarmed}]}`},
		{"comments", "# one\na: 1 # two\n# three\nb: x#y # four\n", `{a=1,b=x#y}`},
		{"quotes", "a: \"x\\ty\\u00E9\\\"\"\nb: 'it''s'\n\"c d\": 1\n", "{a=x\tyé\",b=it's,c d=1}"},
		{"text over lines", "a: one\n  two\n\n  three\nb: \"x\n  y\"\n", "{a=one two\nthree,b=x y}"},
		{"marks inside a text", "a: x &y *z !w\nb: one\n  *two\n  - three\n", "{a=x &y *z !w,b=one *two - three}"},
		{"lines", "a: |\n  x: [\n   *y\n\n  z\nb: >-\n  p\n  q\nc: |2\n    r\n", "{a=x: [\n *y\n\nz\n,b=p q,c=  r\n}"},
		{"lines inside levels", "a:\n  b: |\n  c: |1\n    x\n  d: >\n\n   y\n  e: 1\n", "{a={b=,c= x\n,d=\ny\n,e=1}}"},
		{"lines in a list", "- |\n x\n- >\n y\n", "[x\n,y\n]"},
		{"marks of a document", "---\na: 1\n...\n# end\n", `{a=1}`},
		{"nothing", "a:\nb: 2\nc: {d: , e}\n", `{a=<>,b=2,c={d=<>,e=<>}}`},
		{"colons", "a: x:y\nb: http://h/p\nc: 1:30\n", `{a=x:y,b=http://h/p,c=1:30}`},
		{"no last line end", "a: 1", `{a=1}`},
		{"BOM", "\xEF\xBB\xBFa: 1\n", `{a=1}`},
		{"Windows", "a:\r\n  - x\r\n  - |\r\n    y\r\n    z\r\nb: 2\r\n", "{a=[x,y\nz\n],b=2}"},
		{"old Mac", "a:\r  - x\r  - y\r# c\rb: 2\r", `{a=[x,y],b=2}`},
		{"tab behind a value", "a: 1\t# c\nb:\t2\n", `{a=1,b=2}`},
	} {
		t.Run(c.name, func(t *testing.T) {
			d, err := Parse("f", []byte(c.file))
			if err != nil {
				t.Fatal(err)
			}
			if got := outline(d.Root()); got != c.want || d.Err() != nil {
				t.Errorf("%q:\n got %s (%v)\nwant %s", c.file, got, d.Err(), c.want)
			}
		})
	}
}

// outline writes a node on one line.
func outline(n Node) string {
	var w []string
	switch {
	case n.IsMap():
		for k, v := range n.Map("test").Rest() {
			w = append(w, k.y.Value+"="+outline(v))
		}
		return "{" + strings.Join(w, ",") + "}"
	case n.IsList():
		for _, v := range n.List() {
			w = append(w, outline(v))
		}
		return "[" + strings.Join(w, ",") + "]"
	case n.IsEmpty():
		return "<>"
	}
	s, _ := n.Text()
	return s
}

// Lines and columns are the editor's whatever ends the lines, and columns count
// characters.
func TestPlaces(t *testing.T) {
	for _, end := range []string{"\n", "\r\n", "\r"} {
		for _, bom := range []string{"", "\xEF\xBB\xBF"} {
			file := bom + strings.ReplaceAll("größe: 5\n\n# c\nb: {ä: \"é\", c: x}\nd:\n  - |\n    y\n  - z\n", "\n", end)
			d, err := Parse("f", []byte(file))
			if err != nil {
				t.Fatal(err)
			}
			var got []string
			var walk func(n Node)
			walk = func(n Node) {
				got = append(got, strings.TrimPrefix(n.Pos().String(), "f:"))
				for k, v := range n.mapOrNothing() {
					got = append(got, strings.TrimPrefix(k.Pos().String(), "f:"))
					walk(v)
				}
				if n.IsList() {
					for _, v := range n.List() {
						walk(v)
					}
				}
			}
			walk(d.Root())
			want := "1:1 1:1 1:8 4:1 4:4 4:5 4:8 4:13 4:16 5:1 6:3 6:5 8:5"
			if s := strings.Join(got, " "); s != want {
				t.Errorf("%q:\n got %s\nwant %s", file, s, want)
			}
		}
	}
}

func (n Node) mapOrNothing() func(func(Node, Node) bool) {
	if n.IsMap() {
		return n.Map("test").Rest()
	}
	return func(func(Node, Node) bool) {}
}
