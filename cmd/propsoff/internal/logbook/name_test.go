package logbook

import (
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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
