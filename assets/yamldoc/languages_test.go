package yamldoc

import (
	"io/fs"
	"strings"
	"testing"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
)

// Every language says each thing that can be wrong.
func TestEveryLanguageSaysIt(t *testing.T) {
	room := wordstest.Of("yaml")
	for _, c := range badFiles {
		_, err := Parse("f", []byte(c.file))
		room.Error(t, err)
	}
	for _, file := range []string{strings.Repeat("- &a b\n", 101), strings.Repeat("[", 40), strings.Repeat("- a\n", usual.nodes)} {
		_, err := Parse("f", []byte(file))
		room.Error(t, err)
	}
	for _, most := range []int{10, 1 << 10, 1 << 20} {
		_, err := limits{most, usual.depth, usual.nodes}.parse("f", make([]byte, most+1))
		room.Error(t, err)
	}
	room.Error(t, words.Wrong("yaml.cannot-be-read", words.Args{"why": words.Error(fs.ErrPermission)})) // whoever reads a file says it
	room.Error(t, guard(func() *words.Problem { panic("lost") }))

	wrong := func(file string, read func(Node)) {
		t.Helper()
		d := parse(t, file)
		read(d.Root())
		room.Error(t, d.Err())
	}
	for _, file := range []string{"a: 1\na: 2", "{<<: {b: 1}}", "[a, b]: 1"} {
		wrong(file, func(Node) {})
	}
	for _, file := range []string{"1", "[1]", "a: 1", "''", "{a: }"} {
		wrong(file, func(n Node) {
			n.Map("yaml.group").Done()
			n.List()
			n.Text()
			n.ListOf(2, 2)
			n.ListOf(2, 3)
			n.Duration(0, time.Second)
			n.Number(-1, 0)
			for _, v := range n.mapOrNothing() {
				v.Int(0, 1)
				v.Amount("")
				v.Amount("s")
				v.Word("on", "off")
			}
		})
	}
	wrong("{a: 1, tow: 2, long: 3}", func(n Node) {
		m := n.Map("yaml.file")
		m.Need("one")
		m.Need("two")
		m.Done()
	})
	for _, value := range []string{"2", "−1", "--1", ".inf", "x", "0x1", "1e1", "1.2.3", "1_0", "1,0", strings.Repeat("1", 41), "1.", "01", "1.5", "-1"} {
		wrong(value, func(n Node) { n.Int(0, 1) })
	}
	wrong("holt", func(n Node) { n.Word("hold", "cut") })
	for _, value := range []string{"1", "1S", "1x", "0.0000000001s"} {
		wrong(value, func(n Node) { n.Duration(0, time.Second) })
	}
	for _, value := range []string{"1.1", "1ms"} {
		wrong(value, func(n Node) { n.Fixed("us", 8, 0, 80) })
	}
	wrong("1ms", func(n Node) { n.Fixed("", 8, 0, 80) })

	for _, file := range []string{"a: 1", "- a"} {
		_, err := Set("f", []byte(file), []string{"a", "b"}, InlineText("x"))
		room.Error(t, err)
	}
	_, err := Set("f", []byte("a: 1"), nil, InlineText("x"))
	room.Error(t, err)
	room.Error(t, (&edit{name: "f"}).odd())

	_, err = ParseAs("craft", "f", []byte("propsoff: radio 1"))
	room.Error(t, err)

	// The scanner finds a value without a name before the tree is made.
	room.Whole(t, "yaml.no-name")
}
