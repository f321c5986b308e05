package house_test

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/sound"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
)

// ear hears what is played.
type ear struct {
	clock  interface{ Now() int64 }
	heard  []sound.Code
	at     map[sound.Code]int64
	broken error
}

func (e *ear) Play(c sound.Code) {
	if e.broken == nil {
		e.heard = append(e.heard, c)
		e.at[c] = e.clock.Now()
	}
}

func (e *ear) Played(c sound.Code) (at, uncertain int64, ok bool) {
	at, ok = e.at[c]
	return at, 60_000, ok
}

func (e *ear) Trouble() error { return e.broken }

// since gives what was heard since the last call.
func (e *ear) since() []sound.Code {
	all := e.heard
	e.heard = nil
	return all
}

// listening is a beginner with an ear; the bench is quiet when it begins.
func listening(t *testing.T, more func(*screen.Options)) (*person, *ear) {
	e := &ear{at: map[sound.Code]int64{}}
	p := beginner(t, func(_ *whodrives.Options, s *screen.Options) {
		e.clock = s.Loop.Clock()
		s.Sounds.Speaker = e
		if more != nil {
			more(s)
		}
	})
	p.wait(3000)
	e.since()
	return p, e
}

func (p *person) caption() string {
	text, _ := ink.Describe(p.page).Text("sound-caption")
	return text
}

func TestWhatHappensIsHeardAndWritten(t *testing.T) {
	p, e := listening(t, nil)
	require.Empty(t, p.caption())
	p.tap("Space")
	assert.Equal(t, []sound.Code{sound.Armed}, e.since())
	assert.Equal(t, "♪ armed", p.caption())
	p.wait(1600)
	assert.Equal(t, "♪ armed", p.caption(), "about two seconds")
	p.wait(600)
	assert.Empty(t, p.caption())
	assert.Empty(t, e.since(), "once each")

	p.tap("2")
	assert.Equal(t, []sound.Code{sound.OfMode(layout.Horizon)}, e.since())
	p.wait(500)
	p.tap("3")
	assert.Equal(t, []sound.Code{sound.OfMode(layout.Rate)}, e.since())
	p.wait(500)
	p.tap("1")
	assert.Equal(t, []sound.Code{sound.OfMode(layout.Angle)}, e.since())
	p.wait(500)
	p.tap("Space")
	assert.Equal(t, []sound.Code{sound.Disarmed}, e.since())
	p.wait(500)
	p.hold("W", 552)
	p.tap("Space")
	assert.Equal(t, []sound.Code{sound.Refused}, e.since())
	p.wait(500)
	assert.Equal(t, "♪ arming refused", p.caption())
}

// A link that is lost in flight is two things at once: the more urgent is heard, both are written.
func TestTheMostUrgentIsHeard(t *testing.T) {
	p, e := listening(t, nil)
	p.tap("Space")
	p.wait(1000)
	e.since()
	p.tap("L")
	p.wait(400)
	require.False(t, p.snap().Armed)
	require.Equal(t, link.Lost, p.snap().Link)
	assert.Equal(t, []sound.Code{sound.LinkLost}, e.since())
	p.wait(400)
	assert.Equal(t, "♪ link lost, disarmed", p.caption())
	p.tap("Space")
	p.tap("L")
	p.wait(2500)
	assert.Equal(t, []sound.Code{sound.LinkBack, sound.LinkClean}, e.since())
	assert.Equal(t, "♪ link good", p.caption())
}

func TestSoundsOffByKeyAndKept(t *testing.T) {
	file := filepath.Join(t.TempDir(), "propsoff", sound.FileName)
	kept := func(s *screen.Options) { s.Sounds.File = file }
	p, e := listening(t, kept)
	require.Equal(t, "sound off", p.does(ui.TurnSound), "what the key does")
	p.tap("Z")
	require.Equal(t, "sound on", p.does(ui.TurnSound))
	p.tap("Space")
	assert.Empty(t, e.since())
	assert.Equal(t, "♪ armed (no sound)", p.caption())
	s, err := sound.Load(file)
	require.NoError(t, err)
	assert.True(t, s.Off)

	again, e := listening(t, kept)
	again.tap("Space")
	assert.Empty(t, e.since(), "it was kept")
	again.wait(500)
	again.tap("Z")
	again.tap("Space")
	assert.Equal(t, []sound.Code{sound.Disarmed}, e.since())
	s, err = sound.Load(file)
	require.NoError(t, err)
	assert.Equal(t, sound.Settings{}, s)
}

func TestOneToneIsMuted(t *testing.T) {
	file := filepath.Join(t.TempDir(), sound.FileName)
	require.NoError(t, os.WriteFile(file, []byte("propsoff: sounds 1\neach: {armed: off}\n"), 0o600))
	p, e := listening(t, func(s *screen.Options) { s.Sounds.File = file })
	p.tap("Space")
	assert.Equal(t, "♪ armed (no sound)", p.caption())
	p.wait(500)
	p.tap("Space")
	assert.Equal(t, []sound.Code{sound.Disarmed}, e.since())
}

func TestAFileThatIsNotRightIsToldAndLeftAlone(t *testing.T) {
	file := filepath.Join(t.TempDir(), sound.FileName)
	text := "propsoff: sounds 1\neach: {armd: off}\n"
	require.NoError(t, os.WriteFile(file, []byte(text), 0o600))
	p, e := listening(t, func(s *screen.Options) { s.Sounds.File = file })
	notices := func() (n int) {
		for _, notice := range p.s.View().Notices {
			if text := uitest.Say(notice.Text); text == uitest.Say(words.T("sound.not-read", words.Args{"why": words.AsIs(file + ":2:8: this field is not known here")})) || len(text) > 20 && text[:18] == "All sounds are on." {
				n++
			}
		}
		return n
	}
	assert.Equal(t, 1, notices())
	assert.True(t, p.reads("All sounds are on."))
	p.tap("Space")
	assert.Equal(t, []sound.Code{sound.Armed}, e.since(), "the defaults go on")
	p.wait(15_000)
	assert.Zero(t, notices(), "told for a while")
	p.tap("Z")
	assert.True(t, p.reads("Set until the end of this session only."))
	now, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, text, string(now))
}

// Where nothing can be heard that is said once, and everything goes on.
func TestNoSoundDeviceIsToldOnce(t *testing.T) {
	e := &ear{at: map[sound.Code]int64{}, broken: errors.New("no device")}
	p := beginner(t, func(_ *whodrives.Options, s *screen.Options) { s.Sounds.Speaker = e })
	assert.Contains(t, p.s.View().Notices, ui.Notice{Text: words.T("sound.no-device")})
	p.wait(15_000)
	assert.NotContains(t, p.s.View().Notices, ui.Notice{Text: words.T("sound.no-device")})
	p.tap("Z")
	p.tap("Z")
	p.tap("Space")
	assert.NotContains(t, p.s.View().Notices, ui.Notice{Text: words.T("sound.no-device")}, "once")
	assert.Equal(t, "♪ armed", p.caption())
}

// Nothing sounds that is looked at again.
func TestALookBackIsSilent(t *testing.T) {
	p, e := listening(t, func(s *screen.Options) { s.Outside = true })
	p.tap("B")
	p.tap("Enter")
	require.True(t, p.snap().In.Air)
	p.wait(2500)
	e.since()
	p.tap("Space")
	p.wait(500)
	p.tap("2")
	p.wait(500)
	p.tap("Space")
	p.wait(500)
	assert.Equal(t, []sound.Code{sound.Armed, sound.OfMode(layout.Horizon), sound.Disarmed}, e.since())
	p.wait(2500)
	p.tap("R")
	require.True(t, p.s.View().Flight.Replay.On)
	p.wait(12_000)
	assert.Empty(t, e.since())
	assert.Empty(t, p.caption())
	p.tap("R")
	p.wait(500)
	assert.Empty(t, e.since())
}

// However quickly a switch is flicked, the caption changes at most three times a second (WCAG 2.2, 2.3.1).
func TestCaptionsDoNotFlash(t *testing.T) {
	p, e := listening(t, nil)
	var changes []int64
	was := ""
	for i := range 120 {
		key := []string{"1", "2", "3"}[i*i/9%3]
		p.s.Key(key, true)
		p.wait(32)
		p.s.Key(key, false)
		if now := p.caption(); now != was {
			was = now
			changes = append(changes, p.clock.now)
		}
	}
	require.Greater(t, len(e.since()), 25)
	require.Greater(t, len(changes), 5)
	for i := 3; i < len(changes); i++ {
		assert.GreaterOrEqual(t, changes[i]-changes[i-3], int64(1_000_000))
	}
}

// The alarm of a drill is heard with its cue, what came of a try after it; where the drill's own sheet is not on top the tone is the cue, and
// the reaction counts from it.
func TestADrillIsHeard(t *testing.T) {
	e := &ear{at: map[sound.Code]int64{}}
	book := &notebook{}
	p := sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, o *screen.Options) {
		o.Drills.Pupils, o.Bare, o.Sounds.Speaker = book, true, e
		e.clock = o.Loop.Clock()
	})
	p.tap("W")
	p.tap("X")
	p.wait(3000)
	p.tap("C")
	p.goTo("Stop at the alarm, by switch")
	p.tap("Enter")
	for try := range 2 {
		for n := 0; !p.reads("Arm, and bring the throttle"); n++ {
			require.Less(t, n, 200)
			p.tap("X")
		}
		p.tap("Space")
		p.s.Key("W", true)
		for n := 0; p.reads("Arm, and bring the throttle"); n++ {
			require.Less(t, n, 300)
			p.wait(16)
		}
		p.s.Key("W", false)
		e.since()
		if try == 1 {
			p.tap("C") // to the bench: the alarm is heard only
		}
		for n := 0; len(e.heard) == 0; n++ {
			require.Less(t, n, 1000, "the alarm")
			p.wait(16)
		}
		assert.Equal(t, []sound.Code{sound.DrillAlarm}, e.since())
		assert.Equal(t, try == 0, p.reads("STOP!"))
		p.wait(300)
		assert.Equal(t, "♪ alarm!", p.caption())
		p.s.Key("Space", true)
		p.wait(48)
		assert.Empty(t, e.since(), "the alarm is let finish")
		p.s.Key("Space", false)
		if try == 1 {
			p.tap("C")
		}
		p.wait(200)
		assert.Equal(t, []sound.Code{sound.Disarmed}, e.since(), "what the craft does is more urgent than how the try went")
		assert.Contains(t, []string{"♪ disarmed, right", "♪ disarmed"}, p.caption())
		p.tap("X")
	}
	p.taps("Esc PageDown Enter") // once it was asked
	p.wait(100)
	require.Len(t, book.runs, 1)
	tries := book.runs[0].Tries
	require.Len(t, tries, 2)
	for i, try := range tries {
		assert.Equal(t, drill.Right, try.Verdict, "try %d", i)
		assert.InDelta(t, []float64{529, 644}[i], try.Reaction, 60, "try %d: until the throttle had followed", i)
	}
	assert.EqualValues(t, 17, tries[0].Uncertain, "seen first")
	assert.EqualValues(t, 60, tries[1].Uncertain, "heard only")
}
