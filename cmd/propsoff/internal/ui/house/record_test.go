package house_test

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/takes"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/input"
	"propsoff.example/input/take"
	"propsoff.example/sim"
	"propsoff.example/sim/practice"
)

// atRecording is a person who drives by keyboard and may record into a folder.
func atRecording(t *testing.T, folder string) *person {
	at := time.Date(2031, 4, 5, 8, 20, 11, 0, time.UTC)
	p := sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, o *screen.Options) {
		o.Bare, o.Record.Folder, o.Now = true, folder, func() time.Time { return at }
	})
	p.tap("W")
	p.tap("X")
	p.wait(3000)
	return p
}

// eventually lets time pass until something is read; what writes a take goes its own pace.
func (p *person) eventually(words string) {
	p.t.Helper()
	p.until("never read: "+words, func() bool { return p.reads(words) })
}

// replayed plays a take through all its parts; every line of each must come out the same. It gives the notes of the parts.
func replayed(t *testing.T, path string) (notes []string) {
	t.Helper()
	r, err := take.Open(path)
	require.NoError(t, err)
	read := func(s *take.Settings) (*takes.Part, error) {
		notes = append(notes, s.Note)
		return takes.Read(path, s)
	}
	s := r.Settings()
	first, err := read(&s)
	require.NoError(t, err)
	j, err := takes.NewJudge(func() (*take.Reader, error) { return take.Open(path) })
	require.NoError(t, err)
	defer j.Close()
	play := takes.NewPlayer(r, read)
	defer play.Close()
	start := first.Start()
	p := practice.Begin(start.Craft, start.Tick, start.Stands)
	for end := error(nil); end == nil; {
		rs, err := play.Poll(nil, p.Tick()*1000)
		if start, ok := play.Part(p.Tick() * 1000); ok {
			p = practice.Begin(start.Craft, start.Tick, start.Stands)
			continue
		}
		if end = err; end != nil {
			require.ErrorIs(t, end, input.ErrEnd)
		}
		p.Step(rs)
		j.Tick(p)
	}
	require.NoError(t, j.Finish(p.Tick()-1))
	cfg := first.Craft.Config()
	_, text, differs := j.Difference(&cfg)
	require.False(t, differs, text)
	require.Greater(t, j.Compared(), 5)
	require.True(t, r.Closed())
	return notes
}

// A key begins a take and ends it; the sheets say that it is written and where it is; drills with crafts of their own go on in it, and it
// replays, part for part.
func TestATakeIsBegunAndEndedByAKey(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "takes")
	p := atRecording(t, folder)
	require.False(t, p.reads("recording to"))
	p.tap("Space")
	require.True(t, p.snap().Armed)
	p.tap("F12")
	p.eventually("recording to 2031-04-05-082011.take")
	p.tap("Space")
	p.tap("C")
	require.True(t, p.reads("recording to 2031-04-05-082011.take"), "on every sheet")
	p.goTo("Arm and disarm by sticks")
	p.tap("Enter")
	p.wait(1000)
	require.False(t, p.reads("Practise without"))
	p.s.Key("D", true)
	p.wait(1500)
	p.s.Key("D", false)
	p.wait(500)
	p.taps("Esc PageDown Enter") // it is asked first
	p.wait(300)
	p.tap("C")
	p.tap("F12")
	p.eventually("The recording is kept in " + filepath.Join(folder, "2031-04-05-082011.take"))
	require.False(t, p.reads("recording to"))
	notes := replayed(t, filepath.Join(folder, "2031-04-05-082011.take"))
	assert.Equal(t, []string{"", "drill arm-by-sticks", ""}, notes)

	// The same second, and the same again: no file is written over.
	p.tap("F12")
	p.eventually("recording to 2031-04-05-082011-2.take")
	p.wait(21_000)
	p.tap("F12")
	p.eventually("2031-04-05-082011-2.take.")
	replayed(t, filepath.Join(folder, "2031-04-05-082011-2.take"))
	p.wait(21_000)
	assert.False(t, p.reads("The recording is kept"), "said for a while")
}

// Nothing that a person does with the craft's files stops a take: a saved layout is another part of it.
func TestASavedLayoutIsAnotherPart(t *testing.T) {
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	folder := t.TempDir()
	p := atRecording(t, folder)
	p.tap("F12")
	p.eventually("recording to")
	p.tap("F6")
	p.tap("Slash")
	p.tap("Enter")
	require.True(t, p.reads("The bench flies it now."))
	p.tap("F6")
	p.wait(500)
	require.NotZero(t, p.loop.Craft().Arming.SinkSlots)
	p.tap("F12")
	p.eventually("The recording is kept in")
	path := filepath.Join(folder, "2031-04-05-082011.take")
	assert.Len(t, replayed(t, path), 2)
	r, err := take.Open(path)
	require.NoError(t, err)
	defer r.Close()
	first := r.Settings()
	for err == nil {
		_, err = r.Next()
	}
	require.ErrorIs(t, err, io.EOF)
	last := r.Settings()
	assert.Equal(t, sim.Model, last.Model)
	assert.NotContains(t, first.CraftText, "when-lost: sink")
	assert.Contains(t, last.CraftText, "when-lost: sink", "the person's own file, as it was saved")
	assert.Contains(t, last.CraftFilled, "when-lost: sink")
}

// What cannot be begun is said for a while, and the practice goes on.
func TestATakeThatCannotBeBegun(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "takes")
	require.NoError(t, os.WriteFile(folder, nil, 0o600)) // a file in the folder's place
	p := atRecording(t, folder)
	p.tap("F12")
	p.eventually("Nothing is recorded: ")
	require.False(t, p.reads("recording to"))
	p.tap("Space")
	require.True(t, p.snap().Armed)
	p.wait(25_000)
	require.False(t, p.reads("Nothing is recorded"))
	require.NoError(t, p.loop.Close())

	none := sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, o *screen.Options) { o.Bare = true })
	none.tap("F12")
	none.wait(200)
	for _, h := range none.page.Hits() {
		assert.NotEqual(t, "F12", h.Key, "where no take can be kept none is offered")
	}
}

// The radio that drives stands in the take with what its file leaves to the device, though it came after the take had begun.
func TestTheRadioStandsInTheTake(t *testing.T) {
	p, h := atTheRadio(t)
	path := filepath.Join(t.TempDir(), "a.take")
	p.loop.StartRecording(path)
	p.pass(h, 1000)
	p.loop.StopRecording()
	p.until("the take is not kept", func() bool { return p.loop.Recording().Kept == path })
	r, err := take.Open(path)
	require.NoError(t, err)
	defer r.Close()
	for err == nil {
		_, err = r.Next()
	}
	s := r.Settings()
	assert.Equal(t, "Moorland Desk 7", s.RadioName)
	assert.Contains(t, s.RadioText, "throttle:")
	assert.Equal(t, 5, strings.Count(s.RadioFilled, "1500: 1023.5"))
}
