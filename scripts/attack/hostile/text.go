//go:build linux

// Package hostile makes inputs that mean harm: spoilt texts and takes, huge files, things that are no files, bad names and values.
package hostile

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"regexp"
	"strings"
	"unicode/utf16"
)

// Spoil is one way to spoil a good text.
type Spoil struct {
	Name string
	Make func(r *rand.Rand, good []byte) []byte
}

// control holds what must never reach a terminal: an escape sequence, C0, DEL, C1 as UTF-8 and as a bare byte, both families of bidi controls.
var controls = []string{"\x1b[2J\x1b]0;x\a", "\a\b\v\f", "\x7f", "\u009b31m", "\x9b31m", "\u202e\u202a", "\u2066\u2069", "\r"}

// escapes are the same, as YAML and JSON write them within quotes.
var escapes = []string{`\u001b[31m`, `\u0007`, `\u007f`, `\u009b31m`, `\u202e`, `\u2066`, `\u0000`, `\r`, `\ud800`, `\n\n`}

var numbers = []string{"9007199254740992", "9007199254740993", "9223372036854775807", "-9223372036854775808", "18446744073709551616", "1e309", "-1e309", "NaN", ".nan", "nan", ".inf",
	"-.inf", "Infinity", "-0", "0", "-1", "4294967296", "2147483648", "65536", "1e-400", "0x7fffffff", "1_000", "١٢", "1:30", "0.30000000000000004", strings.Repeat("9", 5000)}

var (
	aNumber = regexp.MustCompile(`-?\d+(\.\d+)?`)
	aWord   = regexp.MustCompile(`[A-Za-z][A-Za-z-]*`)
	aValue  = regexp.MustCompile(`[:=,] *("[^"\n]*"|[^\s{}\[\],"]+)`)
)

// Texts are the ways to spoil a text; every one of them also does for a take.
var Texts = []Spoil{
	{"cut", func(r *rand.Rand, b []byte) []byte { return b[:r.IntN(len(b)+1)] }},
	{"bits flipped", flip},
	{"lines doubled", lines(func(r *rand.Rand, l [][]byte) [][]byte {
		i := r.IntN(len(l))
		return append(l[:i:i], append([][]byte{l[i]}, l[i:]...)...)
	})},
	{"lines shuffled", lines(func(r *rand.Rand, l [][]byte) [][]byte {
		r.Shuffle(len(l), func(i, j int) { l[i], l[j] = l[j], l[i] })
		return l
	})},
	{"line left out", lines(func(r *rand.Rand, l [][]byte) [][]byte {
		i := r.IntN(len(l))
		return append(l[:i:i], l[i+1:]...)
	})},
	{"line moved in", lines(func(r *rand.Rand, l [][]byte) [][]byte {
		i := r.IntN(len(l))
		l[i] = append(bytes.Repeat([]byte(" "), 1+r.IntN(9)), l[i]...)
		return l
	})},
	{"number", swap(aNumber, func(r *rand.Rand, _ []string) string { return pick(r, numbers) })},
	{"number nudged", swap(aNumber, func(r *rand.Rand, _ []string) string {
		return fmt.Sprint(r.Int64N(1<<uint(1+r.IntN(62))) - r.Int64N(9))
	})},
	{"word", swap(aWord, func(r *rand.Rand, all []string) string { return pick(r, all) })},
	{"word doubled", swap(aWord, func(r *rand.Rand, all []string) string { return pick(r, all) + "x" + pick(r, all) })},
	{"controls in a value", swap(aValue, func(r *rand.Rand, _ []string) string { return `: "x` + pick(r, escapes) + pick(r, escapes) + ` y"` })},
	{"controls in a key", swap(aWord, func(r *rand.Rand, _ []string) string { return `"x` + pick(r, escapes) + `y"` })},
	{"value of another kind", swap(aValue, func(r *rand.Rand, _ []string) string {
		return ": " + pick(r, []string{"", "{}", "[]", "[[[]]]", "{a: {b: c}}", "~", "!!binary aGk=", "!!float x", "&a [*a]", "*none", "|", ">-", "'", `"`, "? x", "yes", "{a: 1, a: 2}", "- -"})
	})},
	{"raw controls", insert(func(r *rand.Rand) string { return pick(r, controls) })},
	{"NULs", insert(func(r *rand.Rand) string { return strings.Repeat("\x00", 1+r.IntN(40)) })},
	{"no UTF-8", insert(func(r *rand.Rand) string {
		return pick(r, []string{"\xff\xfe", "\xc0\x80", "\xed\xa0\x80", "\xf4\x90\x80\x80", "\xe2\x82"})
	})},
	{"odd spaces", insert(func(r *rand.Rand) string {
		return pick(r, []string{"\u2028", "\u2029", "\u0085", "\u00a0", "\t", "\ufeff", "\u3000", "\u200b"})
	})},
	{"long line", insert(func(r *rand.Rand) string {
		return strings.Repeat(pick(r, []string{"a", " ", "#", "9", "é", "- "}), 1<<20)
	})},
	{"deep", insert(func(r *rand.Rand) string {
		return strings.Repeat(pick(r, []string{"[", "{", "{a: ", `{"a":`, "- ", "? ", "((", "[{"}), 1+r.IntN(100_000))
	})},
	{"aliases", func(r *rand.Rand, b []byte) []byte { return append(aliases(2+r.IntN(30), 2+r.IntN(9)), b...) }},
	{"an anchor on itself", insert(func(*rand.Rand) string { return "\nz: &z {y: *z, <<: *z}\n" })},
	{"byte-order mark", func(_ *rand.Rand, b []byte) []byte { return append([]byte("\ufeff"), b...) }},
	{"CRLF", func(_ *rand.Rand, b []byte) []byte { return bytes.ReplaceAll(b, []byte("\n"), []byte("\r\n")) }},
	{"CR", func(_ *rand.Rand, b []byte) []byte { return bytes.ReplaceAll(b, []byte("\n"), []byte("\r")) }},
	{"UTF-16", sixteen},
	{"empty", func(*rand.Rand, []byte) []byte { return nil }},
	{"one byte", func(r *rand.Rand, _ []byte) []byte { return []byte{byte(r.IntN(256))} }},
	{"noise", func(r *rand.Rand, _ []byte) []byte { return noise(r, r.IntN(20_000)) }},
	{"many documents", func(_ *rand.Rand, b []byte) []byte { return append(append(bytes.Clone(b), "\n---\n"...), b...) }},
	{"many keys", func(r *rand.Rand, b []byte) []byte {
		out := bytes.Clone(b)
		for i := range r.IntN(60_000) {
			out = fmt.Appendf(out, "\nkey%d: %d", i, i)
		}
		return out
	}},
	{"doubled many times", func(r *rand.Rand, b []byte) []byte { return bytes.Repeat(b, 1+r.IntN(1+(1<<20)/(1+len(b)))) }},
	{"comments alone", func(r *rand.Rand, _ []byte) []byte { return bytes.Repeat([]byte("# nothing\n"), r.IntN(10_000)) }},
}

// Spliced is the beginning of one text with the end of another.
func Spliced(r *rand.Rand, a, b []byte) []byte {
	return append(bytes.Clone(a[:r.IntN(len(a)+1)]), b[r.IntN(len(b)+1):]...)
}

// Lines are hostile lines for a command that reads commands; words are some that it knows.
func Lines(r *rand.Rand, words []string) []byte {
	var b []byte
	for range 1 + r.IntN(40) {
		switch r.IntN(8) {
		case 0:
			b = append(b, pick(r, controls)...)
		case 1:
			b = append(b, strings.Repeat(pick(r, words), 1+r.IntN(40_000))...)
		case 2:
			b = append(b, noise(r, r.IntN(200))...)
		default:
			b = append(b, pick(r, words)+" "+pick(r, numbers)...)
		}
		b = append(b, '\n')
	}
	return b
}

func pick[T any](r *rand.Rand, from []T) T { return from[r.IntN(len(from))] }

func noise(r *rand.Rand, n int) []byte {
	b := make([]byte, n)
	for i := range b {
		b[i] = byte(r.IntN(256))
	}
	return b
}

func flip(r *rand.Rand, b []byte) []byte {
	b = bytes.Clone(b)
	for range 1 + r.IntN(8) {
		if len(b) > 0 {
			b[r.IntN(len(b))] ^= 1 << r.IntN(8)
		}
	}
	return b
}

func lines(change func(*rand.Rand, [][]byte) [][]byte) func(*rand.Rand, []byte) []byte {
	return func(r *rand.Rand, b []byte) []byte {
		return bytes.Join(change(r, bytes.Split(b, []byte("\n"))), []byte("\n"))
	}
}

// swap puts something else in the place of one to three matches.
func swap(what *regexp.Regexp, with func(*rand.Rand, []string) string) func(*rand.Rand, []byte) []byte {
	return func(r *rand.Rand, b []byte) []byte {
		for range 1 + r.IntN(3) {
			at := what.FindAllIndex(b, 4000)
			if len(at) == 0 {
				return b
			}
			var all []string
			for _, m := range at {
				all = append(all, string(b[m[0]:m[1]]))
			}
			m := pick(r, at)
			b = bytes.Join([][]byte{b[:m[0]], []byte(with(r, all)), b[m[1]:]}, nil)
		}
		return b
	}
}

func insert(what func(*rand.Rand) string) func(*rand.Rand, []byte) []byte {
	return func(r *rand.Rand, b []byte) []byte {
		for range 1 + r.IntN(3) {
			i := r.IntN(len(b) + 1)
			b = bytes.Join([][]byte{b[:i], []byte(what(r)), b[i:]}, nil)
			if len(b) > 1<<20 {
				break
			}
		}
		return b
	}
}

// aliases is a text that grows by wide at each of its levels when its aliases are followed.
func aliases(levels, wide int) []byte {
	b := []byte("a0: &a0 [x]\n")
	for i := 1; i <= levels; i++ {
		b = fmt.Appendf(b, "a%d: &a%d [%s]\n", i, i, strings.TrimSuffix(strings.Repeat(fmt.Sprintf("*a%d, ", i-1), wide), ", "))
	}
	return b
}

func sixteen(r *rand.Rand, b []byte) []byte {
	little := r.IntN(2) == 0
	var out []byte
	for _, u := range utf16.Encode([]rune("\ufeff" + string(b))) {
		if little {
			out = append(out, byte(u), byte(u>>8))
		} else {
			out = append(out, byte(u>>8), byte(u))
		}
	}
	return out
}
