package logbook

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// endless gives a text again and again, up to so many bytes.
func endless(text string, size int) io.Reader {
	block := strings.Repeat(text, max(1, 1<<16/len(text)))
	var parts []io.Reader
	for n := 0; n < size; n += len(block) {
		parts = append(parts, strings.NewReader(block))
	}
	return io.MultiReader(parts...)
}

// names is a line with so many different names in one object.
func names(n int) string {
	var b strings.Builder
	b.WriteByte('{')
	for i := range n {
		fmt.Fprintf(&b, "\"%x\":1,", i)
	}
	return b.String() + "\"kind\":\"x\"}\n"
}

var strangers = map[string]string{
	"newlines":    "\n",
	"one line":    "x",
	"zeros":       "\x00",
	"valid":       `{"kind":"ended","at":"2031-04-05T08:20:11Z","day":"2031-04-05"}` + "\n",
	"one drill":   `{"kind":"drill","at":"2031-04-05T08:20:11Z","day":"2031-04-05","drill":"a","tries":[{"verdict":"right","reaction_ms":1}]}` + "\n",
	"opened":      `{"a":`,
	"open lines":  `{"a":` + "\n",
	"nested":      `{"kind":"x","a":` + strings.Repeat("[", 4000) + strings.Repeat("]", 4000) + "}\n",
	"later kinds": `{"kind":"x"}` + "\n",
	"first lines": `{"propsoff":"logbook 1","pupil":"B"}` + "\n",
	"names":       names(90_000),
	"no logbook":  `{"propsoff":"` + strings.Repeat("y", 5000) + `"}` + "\n",
}

// spent is what reading took: what was asked of the memory in all, and how much was held at the end with what the index keeps.
func spent(t *testing.T, text string, size int) (asked, kept uint64, c *Contents) {
	var before, after runtime.MemStats
	r := endless(text, size)
	x := Index{Later: true}
	c = &Contents{Pupil: "A", Files: []string{"f"}}
	p := pass{c: c, take: x.Take, path: "f"}
	runtime.GC()
	runtime.ReadMemStats(&before)
	require.NoError(t, p.read(r))
	runtime.ReadMemStats(&after)
	asked = after.TotalAlloc - before.TotalAlloc
	runtime.GC()
	runtime.ReadMemStats(&after)
	runtime.KeepAlive(&x)
	return asked, max(after.HeapAlloc, before.HeapAlloc) - before.HeapAlloc, c
}

// Whatever a file from a stranger holds, twice as much of it takes about twice the work, and hardly anything of it is held: each file tells
// of its damage once.
func TestFilesFromStrangers(t *testing.T) {
	const size = 2 << 20
	for name, text := range strangers {
		t.Run(name, func(t *testing.T) {
			once, _, _ := spent(t, text, size)
			twice, kept, c := spent(t, text, 2*size)
			assert.Less(t, twice, 3*once+1<<20, "the work grows faster than the file")
			assert.Less(t, twice, uint64(2*size*60), "%d bytes asked for by each byte of the file", twice/(2*size))
			assert.Less(t, kept, uint64(2*size), "held of the file")
			assert.LessOrEqual(t, len(c.Notices), 3, "%v", c.Notices)
			for _, n := range c.Notices {
				assert.Less(t, len(n.Problem().Error()), 1500)
			}
		})
	}
}

func TestOneNoticeForAllDamage(t *testing.T) {
	c, err := readAll(strings.NewReader("{\"propsoff\":\"logbook 1\",\"pupil\":\"A\"}\n\n{\n\n"+strings.Repeat("\n", 5000)), "f", "A")
	require.NoError(t, err)
	require.Len(t, c.Notices, 1)
	assert.Equal(t, "f:2: 5003 lines were left out, everything else is read; the first 3 are these: line 2: it is empty; "+
		"line 3: it is not whole, or it was changed by hand and is no longer JSON; line 4: it is empty", c.Notices[0].Problem().Error())
	assert.Equal(t, 5003, c.Damaged)
}

// A name that stands twice is found wherever it stands, in as many steps as sorting takes.
func TestNamesTwiceAmongMany(t *testing.T) {
	line := func(n int) []byte { return []byte(strings.TrimSuffix(names(n), "\n")) }
	for _, n := range []int{1, 2, 90_000} {
		require.NoError(t, checkLine(line(n)))
		hurt := append(bytes.TrimSuffix(line(n), []byte("}")), `,"0":2}`...)
		assert.ErrorContains(t, checkLine(hurt), `names “0” twice`)
	}
	for text, want := range map[string]string{
		`{"a":{"b":1},"c":{"b":1,"a":[{"b":1},{"b":2}]},"b":1}`: "",
		`{"a":{"b":1,"x":{},"B":2}}`:                            `names “B” twice`,
		`{"\u017f":1,"S":2}`:                                    `names “S” twice`, // the long s, as json and strings.EqualFold have it
		`[{"a":1},{"a":1}]`:                                     "not an entry of a logbook",
	} {
		if err := checkLine([]byte(text)); want == "" {
			assert.NoError(t, err, text)
		} else {
			assert.ErrorContains(t, err, want, text)
		}
	}
}

// The index gives every entry once, oldest first, whoever wrote it and whichever clock was put back.
func TestIndexIsInOrderOfTime(t *testing.T) {
	s := Store{t.TempDir()}
	a, err := s.Open("A", begun)
	require.NoError(t, err)
	b, err := s.Open("B", begun)
	require.NoError(t, err)
	require.NoError(t, a.Append(some(9), some(3), some(5)))
	require.NoError(t, b.Append(some(4), some(3), some(11)))
	f, err := os.OpenFile(a.Path(), os.O_APPEND|os.O_WRONLY, 0)
	require.NoError(t, err)
	_, err = f.WriteString("{\"kind\":\"flown\"}\n\n{\"kind\":\"sung\"}\n")
	require.NoError(t, err)
	require.NoError(t, f.Close())
	told := func(x Index) (out []string) {
		for _, name := range []string{"B", "A"} {
			_, err := s.Read(name, x.Take)
			require.NoError(t, err)
		}
		require.NoError(t, x.Each(func(c *Contents, e *Entry) error {
			n := -1
			for i := range 12 {
				if e.At.Equal(some(i).At.Truncate(time.Millisecond)) {
					n = i
				}
			}
			out = append(out, fmt.Sprint(c.Pupil, n, e.Kind))
			return nil
		}))
		return out
	}
	assert.Equal(t, []string{"A3ended", "B3ended", "B4drill", "A5began", "A9drill", "B11refusals"}, told(Index{}))
	assert.Equal(t, []string{"A3ended", "B3ended", "B4drill", "A5began", "A-1flown", "A-1sung", "A9drill", "B11refusals"}, told(Index{Later: true}))
	assert.Equal(t, []string{"B4drill", "A9drill"}, told(Index{Later: true, Filter: Filter{Drill: "alarm-by-switch"}}))
}

// A name typed in several ways when these counted as several pupils: all that was written is read as one pupil's, and what is new goes
// where the first was.
func TestOneOfTwo(t *testing.T) {
	s := Store{t.TempDir()}
	put := func(name string, at time.Time, i int) string {
		b := &Book{pupil: name, path: filepath.Join(s.Dir, fileName(name))}
		text, err := appendHeader(nil, name, at)
		require.NoError(t, err)
		e := some(i)
		text, err = appendEntry(text, &e)
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(b.path, text, 0o600))
		return b.path
	}
	put("ZOE\u0308", begun.Add(time.Hour), 8)
	first := put("Zo\u00eb", begun, 4)
	names, _, err := s.Pupils()
	require.NoError(t, err)
	assert.Equal(t, []string{"Zo\u00eb"}, names)
	c, err := s.all("zoe\u0308")
	require.NoError(t, err)
	assert.Equal(t, "Zo\u00eb", c.Pupil)
	assert.Len(t, c.Files, 2)
	assert.Equal(t, []Entry{some(4), some(8)}, bare(c.Entries))
	assert.Empty(t, c.Notices)
	b, err := s.Open("zo\u00eb", begun.Add(2*time.Hour))
	require.NoError(t, err)
	assert.Equal(t, first, b.Path())
	assert.Equal(t, "Zo\u00eb", b.Pupil())
	require.NoError(t, b.Append(some(12)))
	done, err := s.forget("ZO\u00cb")
	require.NoError(t, err)
	assert.Len(t, done, 2)
	assert.ErrorIs(t, b.Append(some(13)), ErrForgotten)
}
