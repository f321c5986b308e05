package logbook

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/arming"
	"propsoff.example/sim/drill"
)

var begun = time.Date(2031, 4, 5, 8, 20, 11, 123456789, time.UTC)

// zone is a pupil's time zone far from UTC.
var zone = time.FixedZone("far", 11*3600)

// some is the i-th of many entries, every kind in turn.
func some(i int) Entry {
	at := begun.Add(time.Duration(i) * 37 * time.Minute).In(zone)
	switch i % 5 {
	case 0:
		return Began(at, Practice{Program: "0.5", Radio: "Moorland Desk 7", Craft: Craft{Name: "Teasel", Arming: "switch", StickMode: 2, Digest: "ab12"}})
	case 1:
		var t Tally
		t.Add(arming.Set(0).With(arming.ThrottleUp, true).With(arming.OffFirst, i%2 == 0))
		t.Add(arming.Set(0).With(arming.ThrottleUp, true))
		e, _ := t.Entry(at)
		return e
	case 2:
		return Changed(at, "Curlew Field 2", Craft{Name: "Teasel", Arming: "sticks", StickMode: 1, Gestures: "course"})
	case 3:
		return Ended(at, time.Duration(i)*time.Second)
	}
	cfg := &drill.Config{Cases: []drill.Case{{Within: 1000, WaitLow: 500, WaitHigh: 3000}, {Within: 1500}}}
	return OfRun(at, &drill.Run{Drill: "alarm-by-switch", Day: Day(at), Seed: 1<<63 + uint64(i), Learned: i%2 == 0, BrokenOff: i%3 == 0, Tries: []drill.Try{
		{Tick: int64(i) * 1000, Verdict: drill.Right, Reaction: int32(300 + i%400), Uncertain: 17},
		{Tick: int64(i)*1000 + 500, Case: 1, Verdict: drill.Wrong, Why: drill.NeverSeen, Number: 1, Reaction: -1},
	}}, cfg, "Disarm at the alarm")
}

// bare takes off where an entry was read from.
func bare(es []Entry) (out []Entry) {
	for _, e := range es {
		e.Line, e.Raw = 0, nil
		out = append(out, e)
	}
	return out
}

func written(t testing.TB, s Store, pupil string, from, to int) *Book {
	t.Helper()
	b, err := s.Open(pupil, begun)
	require.NoError(t, err)
	for i := from; i < to; i++ {
		require.NoError(t, b.Append(some(i)))
	}
	return b
}

func wants(from, to int) (out []Entry) {
	for i := from; i < to; i++ {
		out = append(out, some(i))
	}
	return out
}

func TestWhatIsWrittenIsRead(t *testing.T) {
	s := Store{filepath.Join(t.TempDir(), "a", "logbook")}
	require.NoError(t, written(t, s, "  Zoë \t Łódź ", 0, 25).Close())
	c, err := s.all("Zoë Łódź")
	require.NoError(t, err)
	assert.Empty(t, c.Notices)
	assert.Equal(t, wants(0, 25), bare(c.Entries))
	assert.Equal(t, begun, c.Begun)
	assert.Equal(t, 1, c.Version)
	assert.Equal(t, "Zoë Łódź", c.Pupil)
	for i, e := range c.Entries {
		assert.Equal(t, i+2, e.Line)
		_, back, err := parse(e.Raw)
		require.NoError(t, err)
		assert.Equal(t, some(i), back)
	}
	for path, want := range map[string]os.FileMode{s.Dir: 0o700, filepath.Dir(s.Dir): 0o700, c.Files[0]: 0o600} {
		st, err := os.Stat(path)
		require.NoError(t, err)
		assert.Equal(t, want, st.Mode().Perm(), path)
	}
	names, notices, err := s.Pupils()
	require.NoError(t, err)
	assert.Empty(t, notices)
	assert.Equal(t, []string{"Zoë Łódź"}, names)
}

// The run that went in comes out, word for word: the scheme that chooses the next drill sees what happened.
func TestRunsComeBack(t *testing.T) {
	s := Store{t.TempDir()}
	run := drill.Run{Drill: "own.drill", Day: Day(begun), Seed: 1<<64 - 1, Learned: true}
	for v := drill.Right; v < drill.Verdicts; v++ {
		for w := range drill.Whys {
			run.Tries = append(run.Tries, drill.Try{Tick: 1 << 40, Case: 3, Verdict: v, Why: w, Number: 7, Reaction: int32(w) - 1, Uncertain: uint16(w)})
		}
	}
	b, err := s.Open("A", begun)
	require.NoError(t, err)
	require.NoError(t, b.Append(OfRun(begun, &run, nil, "")))
	c, err := s.all("A")
	require.NoError(t, err)
	require.Len(t, c.Entries, 1)
	assert.Equal(t, run, c.Entries[0].Run())
}

// RFC 3339 with Z, the calendar day of the pupil beside it, no clever numbers; as a person reads it.
func TestTheLineAsItStands(t *testing.T) {
	s := Store{t.TempDir()}
	e := some(4)
	e.At, e.Day = time.Date(2031, 4, 5, 23, 30, 0, 5e6, time.UTC), Day(time.Date(2031, 4, 6, 10, 30, 0, 0, zone))
	b, err := s.Open("Ann <&> \"x\"", begun)
	require.NoError(t, err)
	require.NoError(t, b.Append(e, Ended(begun, time.Minute)))
	text, err := os.ReadFile(b.Path())
	require.NoError(t, err)
	assert.Equal(t, `{"propsoff":"logbook 1","pupil":"Ann <&> \"x\"","begun":"2031-04-05T08:20:11.123456789Z"}
{"at":"2031-04-05T23:30:00.005Z","day":"2031-04-06","kind":"drill","drill":"alarm-by-switch","name":"Disarm at the alarm","seed":"9223372036854775812","learned":true,"broken_off":false,"unannounced":true,"tries":[{"tick":4000,"case":0,"verdict":"right","reaction_ms":304,"uncertain_ms":17,"allowed_ms":1000},{"tick":4500,"case":1,"verdict":"wrong","why":"never-seen","number":1,"allowed_ms":1500}]}
{"at":"2031-04-05T08:20:11.123Z","day":"2031-04-05","kind":"ended","lasted_ms":60000}
`, string(text))
}

func TestDay(t *testing.T) {
	assert.EqualValues(t, 0, Day(time.Unix(0, 0).UTC()))
	assert.EqualValues(t, 11017, Day(time.Date(2000, 3, 1, 23, 59, 59, 0, zone))) // 30 years with 7 leap days, and 60 days
	assert.EqualValues(t, -1, Day(time.Date(1969, 12, 31, 0, 0, 0, 0, zone)))
	assert.Equal(t, "2000-03-01", Date(11017).Format(time.DateOnly))
}

func TestNoEntryIsNotWritten(t *testing.T) {
	s := Store{t.TempDir()}
	b := written(t, s, "A", 0, 3)
	for name, e := range map[string]Entry{
		"no kind":     {At: begun},
		"other kind":  {At: begun, Kind: "flown"},
		"no time":     {Kind: KindEnded},
		"no drill":    {At: begun, Kind: KindDrill},
		"no verdict":  {At: begun, Kind: KindDrill, Drill: Drill{Code: "a", Tries: []Try{{}}}},
		"year 10000":  {At: begun.AddDate(8000, 0, 0), Kind: KindEnded},
		"less than 0": {At: begun, Kind: KindRefusals, Counts: map[string]int64{"tilted": -1}},
		"too long":    Began(begun, Practice{Radio: strings.Repeat("x", mostLine)}),
	} {
		assert.Error(t, b.Append(some(5), e), name)
	}
	c, err := s.all("A")
	require.NoError(t, err)
	assert.Equal(t, wants(0, 3), bare(c.Entries))
	assert.Zero(t, b.Waiting())
}

func TestTornLines(t *testing.T) {
	s := Store{t.TempDir()}
	b := written(t, s, "A", 0, 5)
	whole, err := os.ReadFile(b.Path())
	require.NoError(t, err)
	extra, err := appendEntry(nil, &Entry{At: begun, Kind: KindEnded, Lasted: time.Second})
	require.NoError(t, err)
	for cut := range len(extra) {
		require.NoError(t, os.WriteFile(b.Path(), append(bytes.Clone(whole), extra[:cut]...), 0o600))
		c, err := s.all("A")
		require.NoError(t, err)
		if cut == len(extra)-1 { // all of it but the line's end: that is whole
			assert.Empty(t, c.Notices)
			assert.Len(t, c.Entries, 6)
			continue
		}
		assert.Equal(t, wants(0, 5), bare(c.Entries))
		if cut > 0 {
			require.Len(t, c.Notices, 1, cut)
			assert.True(t, c.Notices[0].Torn)
			assert.Equal(t, 7, c.Notices[0].Line)
			assert.Contains(t, c.Notices[0].Problem().Error(), b.Path()+":7: the last line is torn")
		}
		require.NoError(t, b.Append(some(8)))
		c, err = s.all("A")
		require.NoError(t, err)
		assert.Equal(t, append(wants(0, 5), some(8)), bare(c.Entries), "%d", cut)
		if cut > 0 {
			require.Len(t, c.Notices, 1)
			assert.Contains(t, c.Notices[0].Problem().Error(), ":7: this line was left out: it is not whole")
			text, err := os.ReadFile(b.Path())
			require.NoError(t, err)
			assert.Contains(t, string(text), "\n"+string(extra[:cut])+"\n{", "the torn rest is kept")
		}
	}
}

// Killed while the first line was written, at each of its bytes: the logbook goes on.
func TestTornFirstLine(t *testing.T) {
	head, err := appendHeader(nil, "A", begun)
	require.NoError(t, err)
	for cut := range len(head) {
		s := Store{t.TempDir()}
		path := filepath.Join(s.Dir, fileName("A"))
		require.NoError(t, os.WriteFile(path, head[:cut], 0o600))
		written(t, s, "A", 0, 3)
		written(t, s, "A", 3, 6)
		c, err := s.all("A")
		require.NoError(t, err)
		assert.Equal(t, wants(0, 6), bare(c.Entries), "%d", cut)
		assert.Equal(t, begun, c.Begun)
		assert.LessOrEqual(t, len(c.Notices), 1)
	}
}

func TestWhatStandsInTheWay(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	_, err := Store{file}.Open("A", begun)
	assert.ErrorContains(t, err, "a file stands where the folder should be; choose another folder")
	_, err = Store{filepath.Join(file, "under")}.Open("A", begun)
	assert.ErrorContains(t, err, "a file stands where the folder should be; choose another folder")
	_, _, err = Store{file}.Pupils()
	assert.ErrorContains(t, err, file+": the folder of logbooks cannot be read: a file stands")
	_, err = Store{}.Open("A", begun)
	assert.ErrorContains(t, err, "no folder for logbooks is known")
	names, _, err := Store{filepath.Join(dir, "none")}.Pupils()
	require.NoError(t, err)
	assert.Empty(t, names)
	written(t, Store{filepath.Join(dir, "another")}, "A", 0, 1)

	s := Store{filepath.Join(dir, "logbook")}
	written(t, s, "B", 0, 1)
	require.NoError(t, os.Mkdir(filepath.Join(s.Dir, fileName("A")), 0o700))
	require.NoError(t, os.Symlink(file, filepath.Join(s.Dir, fileName("L"))))
	for pupil, what := range map[string]string{"A": "folder", "L": "link"} {
		_, err = s.Open(pupil, begun)
		assert.ErrorContains(t, err, "this is a "+what+", not an ordinary file")
		_, err = s.all(pupil)
		assert.ErrorContains(t, err, "this is a "+what+", not an ordinary file")
		found, err := s.Traces(pupil)
		assert.ErrorIs(t, err, ErrNoPupil)
		require.Len(t, found.Unjudged, 1)
		assert.Contains(t, found.Unjudged[0].Problem().Error(), fileName("L")+": this is a link, not an ordinary file; it is not read")
	}
	names, notices, err := s.Pupils()
	require.NoError(t, err)
	assert.Equal(t, []string{"B"}, names)
	assert.Len(t, notices, 2)
	require.NoError(t, os.Rename(filepath.Join(s.Dir, fileName("A")), filepath.Join(s.Dir, "out of the way")))
	written(t, s, "A", 0, 1)
	written(t, Store{filepath.Join(dir, "another")}, "L", 0, 1)

	b := written(t, s, "C", 0, 1)
	require.NoError(t, os.Rename(s.Dir, s.Dir+"x")) // as when a disk is pulled out
	err = b.Append(some(1))
	assert.ErrorContains(t, err, "1 entry is not written yet and kept in memory")
	assert.ErrorContains(t, err, "the folder is not there; make it, or choose another")
	assert.NotErrorIs(t, err, ErrForgotten)
	require.NoError(t, os.Rename(s.Dir+"x", s.Dir))
	require.NoError(t, b.Append(some(2)))
	c, err := s.all("C")
	require.NoError(t, err)
	assert.Equal(t, wants(0, 3), bare(c.Entries))
}

func TestALaterVersionIsReadAndNotWritten(t *testing.T) {
	s := Store{t.TempDir()}
	path := filepath.Join(s.Dir, fileName("A"))
	line, err := appendEntry(nil, &Entry{At: begun, Kind: KindEnded})
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, append([]byte("{\"propsoff\":\"logbook 2\",\"pupil\":\"A\"}\n"), line...), 0o600))
	_, err = s.Open("A", begun)
	assert.ErrorIs(t, err, ErrLater)
	another, err := s.Open("B", begun)
	require.NoError(t, err)
	require.NoError(t, another.Close())
	c, err := s.all("A")
	require.NoError(t, err)
	assert.Len(t, c.Entries, 1)
	require.Len(t, c.Notices, 1)
	assert.Contains(t, c.Notices[0].Problem().Error(), path+":1: this logbook is of version 2, and this program knows 1")
}

func TestFolders(t *testing.T) {
	for _, c := range []struct{ data, home, want string }{
		{"/data", "/home/a", "/data"},
		{"", "/home/a", "/home/a/.local/share"},
		{"rel/path", "/home/a", "/home/a/.local/share"}, // XDG Base Directory 0.8: a relative path is ignored
		{"", "", ""},
		{"", "rel", ""},
	} {
		got, err := dataFolder("linux", func(k string) string { return map[string]string{"XDG_DATA_HOME": c.data, "HOME": c.home}[k] })
		assert.Equal(t, c.want, got)
		assert.Equal(t, c.want == "", err != nil)
	}
	t.Setenv("XDG_DATA_HOME", "/x")
	got, err := Folder()
	require.NoError(t, err)
	assert.Equal(t, "/x/propsoff/logbook", got)
}

// A pupil whose entries cannot go out keeps so many in memory and no more.
func TestWaitingEnds(t *testing.T) {
	s := Store{t.TempDir()}
	b := written(t, s, "A", 0, 1)
	require.NoError(t, os.Rename(b.Path(), b.Path()+"x"))
	require.NoError(t, os.Mkdir(b.Path(), 0o700))
	big := Began(begun, Practice{Radio: strings.Repeat("r", 900_000)})
	for i := range 4 {
		err := b.Append(big)
		assert.ErrorContains(t, err, fmt.Sprintf("%d entr", i+1))
	}
	assert.ErrorContains(t, b.Append(big), "4 entries wait already")
	require.NoError(t, os.Remove(b.Path()))
	require.NoError(t, os.Rename(b.Path()+"x", b.Path()))
	require.NoError(t, b.Close())
	c, err := s.all("A")
	require.NoError(t, err)
	assert.Len(t, c.Entries, 5)
	assert.False(t, errors.Is(err, ErrForgotten))
}
