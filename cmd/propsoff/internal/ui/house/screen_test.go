package house_test

import (
	"bytes"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/takes"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	drillssheet "propsoff.example/cmd/propsoff/internal/ui/drills"
	"propsoff.example/cmd/propsoff/internal/ui/house"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/input/script"
	"propsoff.example/input/usb"
	"propsoff.example/sim"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

type clock struct{ now int64 }

func (c *clock) Now() int64    { return c.now }
func (c *clock) Passed() int64 { return c.now }

type noRadios struct{}

func (noRadios) Poll(dst []usb.Change) []usb.Change       { return dst }
func (noRadios) Found() []usb.Found                       { return nil }
func (noRadios) Open(string, int64) (input.Device, error) { return nil, usb.ErrNone }
func (noRadios) Close() error                             { return nil }

// person sits before a screen without a radio and presses keys.
type person struct {
	t     *testing.T
	s     *screen.Screen
	loop  *live.Loop
	clock *clock
	page  *ink.Page
	quit  bool
}

func sitDown(t *testing.T, readFile string) *person {
	return sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, s *screen.Options) { s.ReadFile = readFile })
}

// sitDownAt is sitDown with another craft; more, where given, changes what driver and screen begin with.
func sitDownAt(t *testing.T, craftName string, more func(*whodrives.Options, *screen.Options)) *person {
	return sitDownTo(t, craftName, changed(t, craftName), more)
}

// sitDownTo is sitDownAt with a craft file that was read.
func sitDownTo(t *testing.T, craftName string, craft *craftfile.File, more func(*whodrives.Options, *screen.Options)) *person {
	names := craft.Names()
	names.Refusals, names.Happenings = []string{"throttle-up", "off-first"}, []string{"link lost"}
	c := &clock{now: 1_000_000}
	ended := make(chan whodrives.Ended, 4)
	trainer := drillrun.New()
	rec := takes.NewRecorder(takes.Papers{CraftName: craft.Name, CraftText: string(craft.Text)})
	l := live.New(live.Options{Craft: craft.Config(), Clock: c, Listen: trainer.Listen, Take: rec,
		Begin: []pulse.Reading{{Kind: pulse.Link, Value: 1}, {Kind: pulse.Power, Value: 1}},
		Ended: func(s input.Source, why error) { ended <- whodrives.Ended{Source: s, Why: why} }})
	t.Cleanup(func() { l.Close() })
	do := whodrives.Options{Loop: l, Clock: c, Names: names, Radios: noRadios{}, Store: radio.Store{Dir: t.TempDir()}}
	_, demo, _ := assets.Script("demo")
	if pilot, err := script.Parse("demo", demo, names); err == nil {
		do.Demo = func() input.Source { return pilot.Source() }
	} else {
		require.NotEqual(t, assets.BuiltIn, craftName, "the demo fits the built-in craft: %v", err)
	}
	so := screen.Options{Loop: l, CraftName: craft.Name, Craft: craft, Names: names, Ended: ended, Record: screen.RecordOptions{Recorder: rec}}
	course, drills, err := drillfile.Shipped("beginner", knownMoves(t))
	require.NoError(t, err)
	so.Drills = screen.DrillOptions{Coach: trainer, Course: tell.CourseText(course.Code, course.Name), Drills: drills, Chapters: screen.ChaptersOf(course, drills), Pupils: &notebook{}, Day: func() int32 { return 20000 }, Seed: 7}
	if more != nil {
		more(&do, &so)
	}
	so.Driver = whodrives.New(do)
	s := house.New(so)
	p := &person{t: t, s: s, loop: l, clock: c, page: ink.NewPage(1280, 800, 0, nil)}
	p.wait(20)
	return p
}

// changed is a shipped craft in whose file some words are others: old, new, old, new …
func changed(t *testing.T, name string, words ...string) *craftfile.File {
	_, text, ok := assets.Craft(name)
	require.True(t, ok)
	for i := 0; i < len(words); i += 2 {
		require.Contains(t, string(text), words[i])
		text = bytes.Replace(text, []byte(words[i]), []byte(words[i+1]), 1)
	}
	c, err := craftfile.Parse(name, text)
	require.NoError(t, err)
	return c
}

// ready puts the throttle down by the keyboard, and waits until a craft may be armed.
func ready(p *person) *person {
	p.tap("X")
	p.wait(2500)
	return p
}

// wait lets ms pass at sixty pictures a second.
func (p *person) wait(ms int) {
	for range max(ms/16, 1) {
		p.clock.now += 16_000
		quit, _ := p.s.Turn()
		p.quit = p.quit || quit
		p.loop.Turn()
		p.s.Page(p.page, 1280, 800)
		p.s.Shown()
	}
}

func (p *person) tap(key string) {
	if sign := map[string]string{"Space": " ", "Period": ".", "Minus": "-"}[key]; sign != "" {
		p.s.Type(sign)
	} else if len(key) == 1 {
		p.s.Type(strings.ToLower(key))
	}
	p.s.Key(key, true)
	p.wait(50)
	p.s.Key(key, false)
	p.wait(50)
}

func (p *person) reads(words string) bool {
	for _, it := range ink.Describe(p.page).Items {
		if strings.Contains(it.Text, words) {
			return true
		}
	}
	return false
}

func (p *person) snap() (s sim.Snapshot) { p.loop.Snapshot(&s); return s }

func TestCautionsComeFirstAndOnce(t *testing.T) {
	file := filepath.Join(t.TempDir(), "propsoff", "read")
	p := sitDown(t, file)
	assert.True(t, p.reads("Your radio may be transmitting"))
	p.tap("Space")
	assert.True(t, p.reads("Your radio may be transmitting"), "a stick key does not wave them away")
	p.tap("Enter")
	assert.False(t, p.reads("Your radio may be transmitting"))
	p = sitDown(t, file)
	assert.False(t, p.reads("Your radio may be transmitting"), "not at the next start")
}

// Somebody who has never seen it arms and disarms with the keyboard within a minute.
func TestABeginnerArmsAndDisarmsByKeys(t *testing.T) {
	p := sitDown(t, "")
	p.tap("Enter")
	p.wait(4000) // watches the demo pilot
	assert.True(t, p.reads("No radio is plugged in"))
	p.tap("S") // takes over
	p.wait(2500)
	assert.Zero(t, p.snap().Refusals)
	p.tap("Space")
	assert.True(t, p.snap().Armed)
	assert.True(t, p.reads("ARMED"))
	p.s.Key("W", true)
	p.wait(600)
	p.s.Key("W", false)
	p.wait(100)
	assert.Greater(t, p.snap().Motor[0], uint16(1000))
	p.tap("Space")
	assert.False(t, p.snap().Armed)
	assert.Less(t, p.snap().Tick, int64(60_000))
	p.tap("Space")
	assert.False(t, p.snap().Armed, "the throttle is up")
	assert.True(t, p.reads("bring it below 1000"))
}

func TestTheDemoBeginsWhenTheCautionsAreRead(t *testing.T) {
	p := sitDown(t, "")
	p.wait(6000)
	assert.False(t, p.snap().In.HasSent, "nobody drives behind the cautions")
	p.tap("Enter")
	p.wait(3300)
	assert.True(t, p.reads("Throttle reads 1300"), "its first lesson is seen from the beginning")
}

func TestTakingOverByTheArmSwitchDoesNotArm(t *testing.T) {
	p := sitDown(t, "")
	p.tap("Enter")
	p.wait(2500) // the demo pilot stands with the throttle up, the craft is ready otherwise
	p.tap("Space")
	p.wait(500)
	assert.False(t, p.snap().Armed, "the press took over and did no more")
	p.tap("Space")
	assert.True(t, p.snap().Armed)
}

func TestTheKeyBesideARefusalCuresIt(t *testing.T) {
	p := sitDown(t, "")
	p.tap("Enter")
	p.tap("S")
	p.wait(2500)
	caps := func() (n int) {
		for _, it := range p.page.Items() {
			if it.Name == "cure-key" {
				n++
			}
		}
		return n
	}
	p.tap("U")
	assert.Equal(t, 1, caps(), "U pulls the cable out again")
	p.tap("U")
	p.tap("T")
	p.tap("T")
	assert.True(t, p.reads("tilted by 45"))
	assert.Zero(t, caps(), "T would turn it over")
	p.tap("M")
	assert.True(t, p.reads("own menu is open"))
	assert.Equal(t, 1, caps(), "M closes it")
	p.tap("M")
	require.Zero(t, p.snap().In.Craft.Menu)
	p.tap("T")
	assert.True(t, p.reads("tilted by 170"))
	assert.Equal(t, 1, caps(), "T sets it level")
}

func TestBenchKeys(t *testing.T) {
	p := sitDown(t, "")
	p.tap("Enter")
	p.tap("X")
	p.wait(2500)
	p.tap("L")
	p.wait(400)
	assert.Equal(t, link.Lost, p.snap().Link)
	p.tap("L")
	p.tap("U")
	p.tap("T")
	p.tap("M")
	s := p.snap().In
	assert.True(t, s.Transmitter)
	assert.True(t, s.Craft.Cable)
	assert.Equal(t, int16(200), s.Craft.TiltTenths)
	assert.Equal(t, uint8(pulse.MenuCraft), s.Craft.Menu)
	p.tap("P")
	assert.False(t, p.snap().In.Powered)
	p.tap("F5")
	assert.Equal(t, "dark", ink.Describe(p.page).Theme)
	p.tap("F1")
	assert.True(t, p.reads("Your radio may be transmitting"), "the cautions stand on the help sheet too")
	p.tap("Esc")
	assert.False(t, p.quit, "it leaves the help sheet first")
	p.tap("Esc")
	assert.False(t, p.quit)
	assert.True(t, p.reads("What do you want to do?"), "from the bench one comes to the start")
}

func TestKeysCountAsReleasedWhenTheFocusIsLost(t *testing.T) {
	p := sitDown(t, "")
	p.tap("Enter")
	p.tap("S")
	p.s.Key("D", true)
	p.wait(400)
	assert.Equal(t, pulse.High, p.snap().In.Sent[3])
	p.s.Focus(false)
	p.wait(400)
	assert.Equal(t, pulse.Centre, p.snap().In.Sent[3])
}

func TestClicksDoWhatKeysDo(t *testing.T) {
	p := sitDown(t, "")
	p.tap("Enter")
	p.tap("S")
	var hit ink.Hit
	for _, h := range p.page.Hits() {
		if h.Key == "P" {
			hit = h
		}
	}
	require.NotEmpty(t, hit.Name)
	p.s.Click(hit)
	p.wait(50)
	assert.False(t, p.snap().In.Powered)
}

// A key that does nothing now says why, and the foot names no key that does nothing.
func TestKeysThatDoNothingSayWhy(t *testing.T) {
	p := sitDown(t, "")
	p.tap("Enter")
	p.wait(200)
	p.tap("S")
	p.wait(200)
	for key, why := range map[string]string{"F2": "A radio is learned while it drives", "F7": "No radio is plugged in, so there is none to choose", "End": "fly on the air bench only"} {
		p.tap(key)
		p.wait(50)
		assert.True(t, p.reads(why), "%s says nothing", key)
	}
	p.wait(7000)
	assert.False(t, p.reads("fly on the air bench only"), "it stands for a while")
	for _, sheetKey := range []string{"F6", "F8", "F9", "B", "I"} {
		p.tap(sheetKey)
		p.wait(100)
		assert.False(t, p.reads("Tab:"), "%s: Tab does nothing here", sheetKey)
		assert.False(t, p.reads("each key stands beside what it moves"), sheetKey)
		if sheetKey == "F6" {
			assert.False(t, p.reads("to take over"), "here stick keys would do something else")
		}
		p.tap(sheetKey)
		p.wait(100)
	}
	assert.True(t, p.reads("Tab:"))
}

// The reason that is given is the one that holds: on each sheet, in the air, beside a pilot that demonstrates, and while something is played.
func TestTheReasonWhyAKeyDoesNothingHolds(t *testing.T) {
	says := func(p *person, key string) string {
		p.tap(key)
		p.wait(50)
		if n := p.s.View().Notices; len(n) > 0 {
			return uitest.Say(n[0].Text)
		}
		return ""
	}
	const desk, played = "not to one that can fly", "What is played moves everything here"
	p := beginner(t, nil)
	p.tap("C")
	assert.NotContains(t, says(p, "T"), desk, "no drill runs, and it stands on the desk bench")
	p.tap("C")
	p.tap("O")
	assert.NotContains(t, says(p, "M"), desk, "no menu is open")
	p.tap("O")
	p.tap("F")
	p.tap("Enter")
	p.wait(300)
	require.True(t, p.losses().Flown)
	assert.Contains(t, says(p, "J"), "That is for time that stands still; G stops it.")
	p.tap("L")
	p.wait(300)
	assert.NotContains(t, says(p, "T"), played, "the radio is silent, and that is why")
	p.tap("Esc")

	p = inTheAir(t)
	assert.Contains(t, says(p, "J"), "G stops it")
	p.tap("G")
	p.tap("R")
	assert.Contains(t, says(p, "K"), "you are looking back; R goes back to now.")
	p.tap("R")
	p.tap("K")
	p.wait(300)
	assert.Contains(t, says(p, "N"), desk)

	p = sitDownAt(t, "teasel-by-sticks", func(_ *whodrives.Options, o *screen.Options) { o.Bare = true })
	assert.Equal(t, "A radio is learned while it drives: plug one in.", says(p, "F2"), "Tab does nothing here")
	assert.Contains(t, says(p, "Tab"), "no radio is plugged in, and there is no demo pilot")
	p.taps("C Enter Enter")
	p.wait(100)
	require.True(t, drillssheet.Of(p.s.View()).Run.On)
	assert.Equal(t, "A drill runs on this bench: leave it first.", says(p, "Tab"))
	p.taps("Backspace PageDown Enter") // leaves it, once that was asked
	assert.NotEqual(t, "A drill runs on this bench: leave it first.", says(p, "Tab"))

	p = atGestures(t, assets.BuiltIn, "  - {at: 2s, throttle: 1400}\nend: 9s\n", nil)
	p.tap("O")
	assert.NotContains(t, says(p, "F10"), played, "there is nothing to keep")
	assert.Contains(t, says(p, "Tab"), played)
	assert.Contains(t, says(p, "P"), played)
}

// does says what the key of an action does where one is, empty where it does nothing.
func (p *person) does(a ui.Action) string {
	v, place := p.s.View(), p.s.Place()
	if !v.Shows(a, place) {
		return ""
	}
	return uitest.Say(v.Does(a, place))
}
