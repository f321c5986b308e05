package mouth

import (
	"bytes"
	"encoding/json"
	"fmt"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// bidi is the list of Unicode Standard Annex #9, sections 2.1 to 2.6, written out: embeddings, overrides, isolates, marks.
var bidi = []rune{0x202a, 0x202b, 0x202c, 0x202d, 0x202e, 0x2066, 0x2067, 0x2068, 0x2069, 0x200e, 0x200f, 0x061c}

func TestWhatSteers(t *testing.T) {
	want := map[rune]bool{0x7f: true, 0x2028: true, 0x2029: true}
	for r := range rune(0x20) { // C0, ECMA-48 section 5.2
		want[r] = true
	}
	for r := rune(0x80); r <= 0x9f; r++ { // C1, ECMA-48 section 5.3
		want[r] = true
	}
	for _, r := range bidi {
		want[r] = true
	}
	for r := range rune(utf8.MaxRune + 1) {
		if Steers(r) != want[r] {
			t.Errorf("U+%04X steers: %v", r, Steers(r))
		}
	}
}

func TestPrintable(t *testing.T) {
	for in, want := range map[string]string{
		"":                         "",
		"Moorland Desk 7 · Jürgen": "Moorland Desk 7 · Jürgen",
		"a\x1b[31mb":               "a[U+001B][31mb",
		"x\u202egnp.exe":           "x[U+202E]gnp.exe",
		"caf\xe9.yaml":             "caf[0xE9].yaml",
		"\u009b2J\x7f":             "[U+009B]2J[U+007F]",
		"one\ntwo\t":               "one[U+000A]two[U+0009]",
		"क्\u200dष":                "क्\u200dष", // a joiner is a part of writing
		"\ufffd":                   "\ufffd",
	} {
		assert.Equal(t, want, Printable(in))
	}
	assert.Equal(t, "one\ntwo[U+0009][U+000D]", Lines("one\ntwo\t\r"))
}

// An escape in JSON is the same text to whoever reads it.
func TestJSONLosesNothing(t *testing.T) {
	text := "a\x1b\u009b\x7f\u2028\u202e\u2067\u061c\"<&>\\é\U0001F681"
	line := AppendJSON([]byte("#"), map[string]string{text: text})
	assert.Equal(t, "#", string(line[:1]))
	assert.Empty(t, raw(string(line)))
	var back map[string]string
	require.NoError(t, json.Unmarshal(line[1:], &back))
	assert.Equal(t, map[string]string{text: text}, back)
	assert.Panics(t, func() { AppendJSON(nil, func() {}) })
}

// raw lists what would steer whoever shows a text.
func raw(s string) (out []string) {
	for i, r := range s {
		if _, n := utf8.DecodeRuneInString(s[i:]); Steers(r) && r != '\n' && r != '\t' || r == utf8.RuneError && n == 1 {
			out = append(out, fmt.Sprintf("U+%04X at %d", r, i))
		}
	}
	return out
}

// However a text is cut into writes, the same comes out as from one write.
func TestWriterInPieces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		piece := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"\r\n", "\r", "\n", "\xe2", "\x80", "\u202e", "\x1b[2J", "\U0001F681", "\xff"}))
		var text []byte
		for _, s := range rapid.SliceOf(piece).Draw(t, "text") {
			text = append(text, s...)
		}
		var whole, pieces bytes.Buffer
		w := NewWriter(&whole)
		n, err := w.Write(text)
		if err != nil || n != len(text) || w.Close() != nil {
			t.Fatal(n, err)
		}
		w = NewWriter(&pieces)
		for rest := text; len(rest) > 0; {
			n := rapid.IntRange(1, len(rest)).Draw(t, "n")
			if _, err := w.Write(rest[:n]); err != nil {
				t.Fatal(err)
			}
			rest = rest[n:]
		}
		_ = w.Close()
		if whole.String() != pieces.String() {
			t.Fatalf("%q, in pieces %q", whole.String(), pieces.String())
		}
		if found := raw(string(bytes.ReplaceAll(whole.Bytes(), []byte("\r\n"), nil))); found != nil {
			t.Fatalf("%q: %v", whole.String(), found)
		}
	})
}

func TestWriterKeepsRowsOfTables(t *testing.T) {
	var b bytes.Buffer
	w := NewWriter(&b)
	fmt.Fprintf(w, "\"a\",\"b\rc\"\r")
	fmt.Fprintf(w, "\n\"d\"\r\n\r")
	require.NoError(t, w.Close())
	assert.Equal(t, "\"a\",\"b[U+000D]c\"\r\n\"d\"\r\n[U+000D]", b.String())
}

func BenchmarkPrintable(b *testing.B) {
	b.ReportAllocs()
	for range b.N {
		Printable("Moorland Desk 7 · armed · the throttle is low, and the switch is off")
	}
}
