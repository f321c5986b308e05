package logbook

import (
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/text/unicode/norm"
	"pgregory.net/rapid"
)

// What every file system of today takes: few characters, no large letters, at most 255 bytes (POSIX NAME_MAX on Linux), not a device
// of Windows, which ends at the first dot.
var safe = regexp.MustCompile(`^pupil-[a-z0-9_+%-]+\.jsonl$`)

func TestAnyNameIsAFileAndBack(t *testing.T) {
	files := map[string]string{}
	for _, name := range []string{
		"Ann", "ann", "ANN", "a n n", "a_n_n", "a+n", "a%6e", "..", ".", "../../etc/passwd", `..\x`, "/", "CON", "nul", "COM1", "a:b", "a*?", "~", "-rf", "$HOME",
		"Zo\u00eb", "Zoe\u0308", "小林 さくら", "Łódź", "עדה", "علی\u200cرضا", "👩\u200d🚀", "O'Brien", `"`, "=1+1", strings.Repeat("ü", 40), strings.Repeat("Z", 80), "pupil-a.jsonl",
	} {
		tidy, err := Name(name)
		require.NoError(t, err)
		require.Equal(t, name, tidy)
		file := fileName(name)
		assert.Regexp(t, safe, file)
		assert.LessOrEqual(t, len(file), 255)
		assert.Equal(t, file, filepath.Base(file))
		assert.Empty(t, files[strings.ToLower(file)], "%q and %q share a file", name, files[file])
		files[strings.ToLower(file)] = name
		back, ok := pupilOf(file)
		assert.True(t, ok)
		assert.Equal(t, name, back)
	}
}

// What is said of a name that cannot be one makes it one.
func TestWhatIsSaidOfANameMakesItOne(t *testing.T) {
	for _, c := range []struct{ wrong, says, right string }{
		{"\xff", "type it anew", "ÿ"},
		{"a\u202eb", "(U+202E); leave it out", "ab"},
		{strings.Repeat("x", 81), "80 are the most; choose a shorter one", strings.Repeat("x", 80)},
	} {
		_, err := Name(c.wrong)
		require.ErrorContains(t, err, c.says)
		name, err := Name(c.right)
		assert.NoError(t, err)
		assert.Equal(t, c.right, name)
	}
}

func TestNoNames(t *testing.T) {
	for name, want := range map[string]string{
		"": "at least one letter", " \t\n ": "at least one letter", "\u200d": "at least one letter", "\u0301": "at least one letter", "\xff": "not UTF-8", "a\x00b": "U+0000",
		// Nothing to be seen: fillers of Hangul, blank of Braille, of music, of hieroglyphs; variation selectors, joiners, soft hyphen, tags.
		"\u3164": "at least one letter", "\uffa0\u115f\u1160": "at least one letter", "\u2800 \u2800": "at least one letter", "\U0001d159": "at least one letter", "\U00013441\U00013442": "at least one letter",
		"\ufe0f": "at least one letter", "\U000e0100": "at least one letter", "\u200c\u200d": "at least one letter", "\u180b": "at least one letter", "\u034f\u17b4": "at least one letter",
		"\u00ad": "U+00AD", "Ann\u00ad": "U+00AD", "\U000e0041": "U+E0041", "a\u200bb": "U+200B", "a\u2060b": "U+2060", "a\u200fb": "U+200F",
		"a\x1b[31m": "U+001B", "a\u202eb": "U+202E", "\ufeffa": "U+FEFF", "a\u2066b": "U+2066", "a\ufffe": "U+FFFE",
		strings.Repeat("x", 81): "81 bytes", strings.Repeat("名", 27): "81 bytes",
	} {
		_, err := Name(name)
		assert.ErrorContains(t, err, want, "%q", name)
	}
}

func TestNoFileOfOurs(t *testing.T) {
	for _, file := range []string{"", "pupil-.jsonl", "pupil-a.json", "a.jsonl", "pupil-A.jsonl", "pupil-%61.jsonl", "pupil-%zz.jsonl", "pupil-%c3.jsonl", "pupil-+.jsonl", "pupil-%.jsonl",
		"pupil-+1.jsonl", "pupil-a b.jsonl", "pupil-%C3%AB.jsonl", "pupil-_a.jsonl", "pupil-a__b.jsonl", "pupil-+ann (copy).jsonl", "pupil-%+a.jsonl", "pupil-% a.jsonl"} {
		name, ok := pupilOf(file)
		assert.False(t, ok, "%q as %q", file, name)
	}
}

func TestNames(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		anything := rapid.OneOf(rapid.String(), rapid.StringOf(rapid.RuneFrom(nil, unicode.L, unicode.P, unicode.M)), rapid.StringMatching(`[a-cA-C%+_ .0-9/-]{1,20}`))
		a, errA := Name(anything.Draw(t, "a"))
		b, errB := Name(anything.Draw(t, "b"))
		if errA != nil || errB != nil {
			t.SkipNow()
		}
		for _, n := range []string{a, b} {
			again, err := Name(n)
			if err != nil || again != n {
				t.Fatalf("%q is tidied to %q, %v", n, again, err)
			}
			f := fileName(n)
			if back, ok := pupilOf(f); !ok || back != n || !safe.MatchString(f) || len(f) > 255 {
				t.Fatalf("%q is %q, and back %q", n, f, back)
			}
		}
		if again := Key(Key(a)); again != Key(a) {
			t.Fatalf("%q: %q becomes %q", a, Key(a), again)
		}
		if (a == b) != strings.EqualFold(fileName(a), fileName(b)) {
			t.Fatalf("%q %q: %q %q", a, b, fileName(a), fileName(b))
		}
	})
}

func FuzzFileName(f *testing.F) {
	f.Add("pupil-+ann.jsonl")
	f.Add("pupil-%c3%ab_%2e.jsonl")
	f.Fuzz(func(t *testing.T, file string) {
		if name, ok := pupilOf(file); ok && fileName(name) != file {
			t.Errorf("%q is read as %q, which is %q", file, name, fileName(name))
		}
	})
}

// One pupil is one however the name is typed.
func TestKeys(t *testing.T) {
	for _, same := range [][]string{
		{"Ann", "ann", "ANN", " aNN "},
		{"Ann L", "Ann \u200c L", "Ann L \u200d", "\u034f Ann L"}, // what is not drawn is not there, nor the space beside it
		{"Zo\u00eb \u0141\u00f3d\u017a", "Zoe\u0308 \u0142o\u0301dz\u0301", "ZOE\u0308 \u0141\u00d3D\u0179"},
		{"Stra\u00dfe", "STRASSE", "Stra\u1e9ee", "strasse"}, // CaseFolding.txt, F: 00DF to "ss"
		{"\u03a3\u03af\u03c3\u03c5\u03c6\u03bf\u03c2", "\u03a3\u038a\u03a3\u03a5\u03a6\u039f\u03a3"},
		{"\u212b", "\u00c5", "A\u030a", "\u00e5"}, // NormalizationTest.txt, part 1, from memory
		{"\u1e69", "s\u0323\u0307", "s\u0307\u0323", "S\u0307\u0323"},
		{"\uac01", "\u1100\u1161\u11a8"},
		{"\u1f80", "\u03b1\u0313\u0345", "\u03b1\u0345\u0313", "\u1f88"}, // the iota below, for which D145 normalises first
		{"\u0639\u0644\u06cc\u200c\u0631\u0636\u0627", "\u0639\u0644\u06cc\u0631\u0636\u0627"},
		{"\u2764", "\u2764\ufe0f"},
	} {
		for _, name := range same {
			assert.Equal(t, Key(same[0]), Key(name), "%q", name)
		}
	}
	for _, other := range [][2]string{{"Ann", "Anne"}, {"Zoe", "Zo\u00eb"}, {"I", "\u0131"}, {"\u0430", "a"}, {"a b", "ab"}, {"\uff21", "A"}, {"\u3164", "\u2800"}} {
		assert.NotEqual(t, Key(other[0]), Key(other[1]))
	}
}

// Every letter against the tables of the standard library (unicode.SimpleFold) and of x/text (decompositions): what differs in
// being large or small, or in how it is put together, is one.
func TestKeysOfAllLetters(t *testing.T) {
	folds, parts := 0, 0
	for r := rune(1); r <= unicode.MaxRune; r++ {
		if !utf8.ValidRune(r) || unicode.IsSpace(r) {
			continue
		}
		key := Key("x" + string(r))
		if d := norm.NFD.String(string(r)); d != string(r) {
			parts++
			require.Equal(t, key, Key("x"+d), "U+%04X", r)
		}
		require.True(t, norm.NFC.IsNormalString(key), "U+%04X", r)
		for other := unicode.SimpleFold(r); other != r; other = unicode.SimpleFold(other) {
			folds++
			require.Equal(t, key, Key("x"+string(other)), "U+%04X and U+%04X", r, other)
		}
	}
	assert.Greater(t, folds, 2800)
	assert.Greater(t, parts, 13000, "with 11,172 syllables of Hangul")
}

// A name that would not do today is still read back from its file: nobody's logbook is lost.
func TestNamesOfOnceAreRead(t *testing.T) {
	for _, name := range []string{"\u3164", "\u2800"} {
		_, err := Name(name)
		require.Error(t, err)
		back, ok := pupilOf(fileName(name))
		assert.True(t, ok)
		assert.Equal(t, name, back)
	}
}
