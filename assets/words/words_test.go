package words

import (
	"errors"
	"io/fs"
	"runtime"
	"syscall"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"golang.org/x/text/language"
)

func TestNumbersAreWrittenAsTheLanguageDoes(t *testing.T) {
	volts := T("unit.volts", Args{"n": Fixed{14800, 3, 0}})
	assert.Equal(t, "14.8 V", English().Say(volts))
	assert.Equal(t, "14,8 V", In("de").Say(volts))
	assert.Equal(t, "1,234,567 V", English().Say(T("unit.volts", Args{"n": Grouped(1234567)})))
	assert.Equal(t, "1.234.567 V", In("de").Say(T("unit.volts", Args{"n": Grouped(1234567)})))
	assert.Equal(t, "-0.050 s", English().Say(T("unit.seconds", Args{"n": Fixed{-50, 3, 3}})))
	assert.Equal(t, "-9223372036854775808", digits(-1<<63, 0, 0, "."))
}

func TestRowsAndLists(t *testing.T) {
	a, b, c := AsIs("a"), AsIs("b"), AsIs("c")
	assert.Equal(t, "a, b and c", English().Say(And(a, b, Text{}, c)))
	assert.Equal(t, "a oder b", In("de").Say(Or(a, b)))
	assert.Equal(t, "a b", English().Say(Row(Text{}, a, Text{}, b)))
	assert.Equal(t, "", English().Say(Row()))
	assert.True(t, Row(Text{}, And()).Empty())
}

func TestTheNearestLanguageSpeaks(t *testing.T) {
	assert.Equal(t, language.German, In("de_AT.UTF-8").Tag())
	assert.Equal(t, language.German, In("qaa", "de-CH").Tag())
	assert.Equal(t, language.English, In("C").Tag())
	assert.Equal(t, language.English, In("POSIX", "en_GB").Tag())
	assert.Equal(t, language.English, In().Tag())
	for _, name := range []string{"zz", "qaa", "", "und", "german", "run", "rn", "d"} { // rn is Rundi, whose speakers are said to know English
		_, ok := Speaks(name)
		assert.False(t, ok, name)
	}
	b, ok := Speaks("de-AT")
	assert.True(t, ok)
	assert.Equal(t, "de", b.Code())
}

// The key for it goes through all languages and comes round, and says what each calls itself.
func TestLanguagesComeRound(t *testing.T) {
	b, names := English(), map[string]bool{}
	for _, tag := range Languages() {
		assert.Equal(t, tag, b.Tag())
		assert.NotContains(t, b.Name(), "⟦", tag)
		assert.LessOrEqual(t, utf8.RuneCountInString(b.Name()), 16, "%s stands beside a key", b.Name())
		names[b.Name()] = true
		b = b.Next()
	}
	assert.Same(t, English(), b)
	assert.Len(t, names, len(Languages()))
}

// What ships is said in the reader's language. Whoever has put a file of his own in its place reads his own words, and so does the same
// text in a file that does not ship.
func TestShippedTextsAndOwnOnes(t *testing.T) {
	de := In("de")
	assert.Equal(t, "STOPP!", de.Say(Shipped("drills/alarm-by-switch", "STOP!")))
	assert.Equal(t, "STOP!", English().Say(Shipped("drills/alarm-by-switch", "STOP!")))
	for _, own := range []Text{Shipped("drills/alarm-by-switch", "DISARM NOW!"), Shipped("drills/mine", "STOP!"), Shipped("", "STOP!"), AsIs("STOP!")} {
		assert.Equal(t, English().Say(own), de.Say(own))
	}
	assert.Equal(t, "Übungen: STOPP!", de.Say(T("drill.title", Args{"course": Shipped("drills/alarm-by-switch", "STOP!")})), "as a value too")
	assert.True(t, Shipped("drills/alarm-by-switch", "").Empty())
}

func TestWhatIsMissingIsSeen(t *testing.T) {
	assert.Contains(t, English().Say(T("unit.volts")), "⟦unit.volts")
	assert.Contains(t, English().Say(T("no.such")), "⟦no.such")
}

func TestProblemsHaveTheirPlace(t *testing.T) {
	p := Wrong("unit.volts", Args{"n": Whole(3)}).In("craft.yaml")
	p.Line, p.Column = 4, 2
	assert.Equal(t, "craft.yaml:4:2: 3 V", p.Error())
	assert.Equal(t, "craft.yaml:4:2: 3 V\nplain", English().Error(errors.Join(p, errors.New("plain"))))
	cause := errors.New("deep")
	assert.ErrorIs(t, Wrong("unit.volts", Args{"n": Whole(3)}).Because(cause), cause)
}

func BenchmarkSay(b *testing.B) {
	text := T("list.and", Args{"a": T("unit.volts", Args{"n": Fixed{14800, 3, 0}}), "b": Quote("x")})
	book := English()
	b.ReportAllocs()
	for b.Loop() {
		book.Say(text)
	}
}

// What the system says is said in every language, in English as Linux words it.
func TestTheSystemIsSaid(t *testing.T) {
	for errno, id := range system {
		for _, tag := range Languages() {
			assert.NotContains(t, In(tag.String()).Error(errno), "⟦", "%s in %s", id, tag)
		}
		if runtime.GOOS == "linux" {
			assert.Equal(t, errno.Error(), English().Error(errno))
		}
	}
	err := &fs.PathError{Op: "open", Path: "x", Err: syscall.ENOENT}
	assert.Equal(t, "open x: Datei oder Ordner nicht gefunden", In("de").Error(err))
	assert.Equal(t, "f: open x: keine Berechtigung", In("de").Error(Within("f", &fs.PathError{Op: "open", Path: "x", Err: syscall.EACCES})))
}

// Problems of one file are told in its order, each once, and not without end.
func TestProblemsAreSortedAndCut(t *testing.T) {
	at := func(line int) *Problem { return Wrong("unit.volts", Args{"n": Whole(line)}).At("f", line, 1) }
	ps := Problems{at(3), nil, at(1), at(3), at(2)}
	assert.EqualError(t, ps.Err(), "f:1:1: 1 V\nf:2:1: 2 V\nf:3:1: 3 V")
	assert.NoError(t, Problems{nil}.Err())
	for i := range 20 {
		ps = append(ps, at(10+i))
	}
	assert.Contains(t, ps.Err().Error(), "f:26:1: 26 V\nand 3 more")
	assert.Contains(t, In("de").Error(ps.Err()), "\nund 3 weitere Fehler")
	assert.Equal(t, []ID{"list.and", "unit.volts"}, MessagesOf(Wrong("list.and", Args{"a": Error(Within("f", at(1)))})))
}

// A number of things is written out where its message has no forms for numbers.
func TestANumberChoosesOnlyAmongForms(t *testing.T) {
	for n, want := range map[int]string{1: "… and 1 more", 2: "… and 2 more"} {
		assert.Equal(t, want, English().Say(T("sheet.more", Args{"n": Count(n)})))
	}
}

// Each gives the messages of a family in the order of their code words.
func TestEachOfAFamily(t *testing.T) {
	assert.Equal(t, "rate, angle", English().Say(Listed(Each("mode", "rate", "angle")...)))
	assert.Equal(t, "Rate, Winkel", In("de").Say(Listed(Each("mode", "rate", "angle")...)))
}
