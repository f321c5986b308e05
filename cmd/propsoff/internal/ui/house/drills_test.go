package house_test

import (
	"cmp"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/drills"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/examine"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// notebook keeps runs in memory.
type notebook struct {
	asked    []examine.Asked
	pupil    string
	names    []string
	runs     []drill.Run
	refusals int
	held     screen.Held
	kept     []drillrun.Result
	where    string
}

func (n *notebook) Open(pupil string) error {
	if n.pupil, n.runs = pupil, nil; pupil != "" && !slices.Contains(n.names, pupil) {
		n.names = append(n.names, pupil)
	}
	return nil
}
func (n *notebook) Pupil() string     { return n.pupil }
func (n *notebook) Runs() []drill.Run { return n.runs }
func (n *notebook) Names() []string   { return n.names }
func (n *notebook) Count(string) int  { return 12 }
func (n *notebook) Rename(was, name string) error {
	n.names[slices.Index(n.names, was)] = name
	return nil
}
func (n *notebook) Merge(from, _ string) error {
	n.names = slices.DeleteFunc(n.names, func(s string) bool { return s == from })
	return nil
}
func (n *notebook) Asked() []examine.Asked { return n.asked }
func (n *notebook) KeepAsked(a examine.Asked, held screen.Held) error {
	n.held = held
	n.asked = append(n.asked, a)
	return nil
}
func (n *notebook) Refused(int32) { n.refusals++ }
func (n *notebook) Where() string { return cmp.Or(n.where, "a notebook") }
func (n *notebook) Keep(r *drillrun.Result, _ *drillfile.Drill, held screen.Held) error {
	n.kept = append(n.kept, *r)
	if len(r.Tries) > 0 {
		n.held = held
		n.runs = append(n.runs, r.Run)
	}
	return nil
}

// atDrills is a person who drives by keyboard, with the sheet of drills open.
func atDrills(t *testing.T) (*person, *notebook) {
	book := &notebook{}
	p := sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, o *screen.Options) { o.Drills.Pupils, o.Bare = book, true })
	p.tap("W") // the keyboard takes over from the demo pilot
	p.tap("X")
	p.wait(3000)
	p.tap("C")
	require.True(t, p.reads("Drills: "))
	return p, book
}

// atDrill is a pupil who has just begun the drill with a name.
func atDrill(t *testing.T, pupil, name string) (*person, *notebook) {
	p, book := atDrills(t)
	p.named(pupil)
	p.goTo(name)
	p.tap("Enter")
	return p, book
}

// goTo opens the chapter that has the drill with a name, and looks at it.
func (p *person) goTo(name string) {
	d := drills.Of(p.s.View())
	for i, c := range d.Chapters {
		for _, k := range c.Drills {
			if d.Drills[k].Name != name {
				continue
			}
			if d.Chapter >= 0 {
				p.tap("Backspace")
			}
			for n := 0; d.Looked != i && n < 30; n++ {
				p.tap("PageDown")
			}
			p.tap("Enter")
			for n := 0; !p.boldRead(name) && n < 30; n++ {
				p.tap("PageDown")
			}
			require.True(p.t, p.boldRead(name), name)
			return
		}
	}
	p.t.Fatalf("there is no drill %q", name)
}

// boldRead tells whether the facts beside the list are those of a drill.
func (p *person) boldRead(name string) bool {
	for _, it := range ink.Describe(p.page).Items {
		if it.Group == "facts" && it.Name == "name" && it.Text == name {
			return true
		}
	}
	return false
}

// named has somebody of a new name practise, and goes back to the drills.
func (p *person) named(name string) {
	p.taps("V Insert")
	p.types(name)
	p.taps("Enter Esc C")
}

// The alarm by switch, from the list to the logbook: five right ones in a row, each reaction measured from the picture to the switch.
func TestTheAlarmDrillByKeys(t *testing.T) {
	p, book := atDrills(t)
	p.named("zoe")
	require.Equal(t, "zoe", book.pupil)
	p.goTo("Stop at the alarm, by switch")
	p.tap("Enter")
	require.True(t, p.reads("Throttle down, arm switch off"))
	for try := range 5 {
		for n := 0; !p.reads("Arm, and bring the throttle"); n++ {
			require.Less(t, n, 200, "try %d: ready", try)
			p.tap("X")
		}
		p.tap("Space")
		p.s.Key("W", true)
		for n := 0; p.reads("Arm, and bring the throttle"); n++ {
			require.Less(t, n, 300, "try %d: armed", try)
			p.wait(16)
		}
		p.s.Key("W", false)
		for n := 0; !p.reads("STOP!"); n++ {
			require.Less(t, n, 2000, "try %d: the alarm", try)
			p.wait(16)
		}
		p.wait(300)
		p.tap("Space")
		p.wait(200)
		p.tap("X")
		p.wait(400)
		require.True(t, p.reads("Right"), "try %d", try)
	}
	p.wait(2500)
	require.True(t, p.reads("Learned. It is due again in 1 day."))
	require.Len(t, book.runs, 1)
	run := book.runs[0]
	assert.Equal(t, "keyboard", book.held.Radio)
	assert.Equal(t, 2, book.held.StickMode)
	require.NotNil(t, book.held.Craft)
	assert.True(t, book.kept[0].Keyboard && !book.kept[0].Radio)
	assert.Equal(t, "alarm-by-switch", run.Drill)
	assert.True(t, run.Learned)
	assert.False(t, run.BrokenOff)
	require.Len(t, run.Tries, 5)
	for _, try := range run.Tries {
		assert.Equal(t, drill.Right, try.Verdict)
		assert.InDelta(t, 578, try.Reaction, 40, "until the throttle had followed")
		assert.EqualValues(t, 17, try.Uncertain)
	}
	p.tap("Enter")
	p.goTo("Stop at the alarm, by switch")
	require.True(t, p.reads("learned, due again in 1 day"))
}

// A drill that is left counts neither way, and the bench is the pupil's own again.
func TestADrillIsLeft(t *testing.T) {
	p, book := atDrill(t, "m", "Arm and disarm by sticks")
	p.wait(500)
	require.True(t, p.snap().Armed == false)
	p.tap("Esc")
	p.wait(100)
	require.True(t, drills.Of(p.s.View()).Run.On, "it is asked first, and the drill goes on")
	p.taps("PageDown Enter")
	p.wait(500)
	require.True(t, p.reads("it counts neither way"))
	for _, r := range book.runs {
		require.True(t, r.BrokenOff)
	}
	p.taps("C C") // whoever comes back comes to the course
	require.False(t, p.reads("it counts neither way"))
	require.True(t, p.reads("Drills: "))
	p.tap("C")
	require.False(t, p.quit)
	require.True(t, p.reads("arm"), "the arm switch is there again")
}

// What is planted at the desk acts on the bench, and no other sheet tells it.
func TestTheDeskPlantsAndThePupilSeesNothingOfIt(t *testing.T) {
	p, _ := atDrills(t)
	p.tap("C")
	require.Equal(t, link.Good, p.snap().Link)
	p.tap("I")
	require.True(t, p.reads("Instructor's desk"))
	p.tap("Enter") // the first of the list: the radio is silent
	p.wait(600)
	require.Equal(t, link.Lost, p.snap().Link)
	require.True(t, p.reads("radio silent: planted"))
	require.True(t, p.reads("Fault planted: radio silent"), "the desk's record has it")
	p.tap("I")
	require.False(t, p.reads("planted"), "the bench's has not")
	require.True(t, p.snap().In.Transmitter, "the radio's own switch stands as it was")
	p.tap("I")
	p.tap("Backspace")
	p.wait(2500)
	require.Equal(t, link.Good, p.snap().Link)

	// A number is changed and planted anew.
	for range 5 {
		p.tap("PageDown")
	}
	p.tap("Slash")
	p.tap("Period")
	p.tap("Enter")
	p.wait(100)
	require.True(t, p.reads("goes no lower than 1024 µs"))
	require.Equal(t, pulse.Micros(1024), p.snap().In.Sent[0])
	p.tap("Backspace")

	// Hidden keys.
	p.tap("Backslash")
	p.tap("I")
	p.tap("4")
	p.wait(600)
	require.Equal(t, link.Lost, p.snap().Link)
	p.tap("4")
	p.wait(2500)
	require.Equal(t, link.Good, p.snap().Link)
	require.EqualValues(t, 1, fault.RadioOff)
}

// Freeze and look back on the desk bench, with a mark to be found again.
func TestTheDeskStopsTimeAndLooksBack(t *testing.T) {
	p, _ := atDrills(t)
	p.tap("C")
	p.tap("I")
	p.wait(1000)
	p.tap("Semicolon")
	p.wait(1000)
	p.tap("L")
	p.wait(600)
	require.Equal(t, link.Lost, p.snap().Link)
	require.True(t, p.reads("Bookmark 1"))
	at := p.snap().Tick
	p.tap("G")
	p.wait(500)
	require.Less(t, p.snap().Tick-at, int64(300), "time stands")
	p.tap("R")
	p.wait(300)
	require.True(t, p.reads("back to now"))
	p.tap("Esc")
	p.tap("G")
	p.wait(500)
	require.Greater(t, p.snap().Tick, at+300)
}

// A look back shows a moment with the craft that stood on the bench then.
func TestALookBackKnowsTheCraftOfThen(t *testing.T) {
	p, _ := atDrills(t)
	p.tap("C")
	p.tap("I")
	p.wait(2000)
	cfg := *p.loop.Craft()
	was := cfg.Flight.IdleSpeed
	cfg.Flight.IdleSpeed++
	p.loop.UseCraft(cfg, "")
	p.wait(400)
	require.Equal(t, was+1, p.s.View().Config.Flight.IdleSpeed)
	p.tap("R")
	for range 3 {
		p.tap("Left")
	}
	p.wait(100)
	v := p.s.View()
	require.True(t, v.Flight.Replay.On)
	assert.Equal(t, was, v.Config.Flight.IdleSpeed)
	p.tap("Esc")
	p.wait(100)
	assert.Equal(t, was+1, p.s.View().Config.Flight.IdleSpeed)
}

// A drill asks for the pupil's hand before it begins. While another drives it says who must take over and how, begins nothing and notes
// nothing.
func TestADrillAsksForTheHand(t *testing.T) {
	nothing := func(p *person, book *notebook) {
		p.wait(5000)
		assert.False(t, drills.Of(p.s.View()).Run.On)
		assert.Empty(t, book.runs)
		assert.Zero(t, book.refusals, "what another hand was refused is not the pupil's")
	}
	t.Run("the demo pilot drives", func(t *testing.T) {
		book := &notebook{}
		p := sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, o *screen.Options) {
			o.Drills.Pupils, o.Bare, o.Open = book, true, ui.OnDrills.Open()
		})
		p.wait(500)
		p.goTo("Stop at the alarm, by switch")
		p.tap("Enter")
		require.True(t, p.reads("The demo pilot drives, and a drill needs your own hand: press any stick key, such as S, or plug your radio in. Then begin."), "%q", texts(p))
		nothing(p, book)
		p.tap("S") // the keyboard takes over, and the sentence goes
		p.wait(100)
		require.False(t, p.reads("a drill needs your own hand"))
		p.tap("Enter")
		p.wait(100)
		require.True(t, drills.Of(p.s.View()).Run.On)
	})
	t.Run("the radio is pulled out", func(t *testing.T) {
		p, h := atTheRadio(t)
		p.pass(h, 500)
		h.pull(true)
		for _, d := range h.open {
			_ = d.Close()
		}
		p.pass(h, 300)
		p.taps("C Enter Enter")
		require.True(t, p.reads("Moorland Desk 7 is unplugged, and a drill needs your own hand: plug it in again, or press Tab to go on by keyboard. Then begin."), "%q", texts(p))
		h.pull(false)
		p.pass(h, 1000)
		require.False(t, p.reads("a drill needs your own hand"))
		p.tap("Enter")
		p.pass(h, 100)
		require.True(t, drills.Of(p.s.View()).Run.On)
	})
	t.Run("a script is played", func(t *testing.T) {
		book := &notebook{}
		p := atGestures(t, assets.BuiltIn, "  - {at: 2s, throttle: 1400}\nend: 9s\n", func(o *screen.Options) { o.Drills.Pupils, o.Open = book, ui.OnDrills.Open() })
		p.wait(500)
		p.taps("Enter Enter")
		require.True(t, p.reads("A script or a take is played, and a drill needs your own hand. Begin once it has ended."), "%q", texts(p))
		nothing(p, book)
		p.wait(4500)
		require.True(t, p.reads("What was played has ended, and a drill needs your own hand: press Tab to go on by keyboard. Then begin."), "%q", texts(p))
		p.tap("Enter")
		nothing(p, book)
		p.tap("Tab")
		p.tap("Enter")
		p.wait(100)
		require.True(t, drills.Of(p.s.View()).Run.On)
	})
}

// Where a finger points, the chapters that have no page left are one press away.
func TestTheNextPageOfTheCourseIsPressed(t *testing.T) {
	p, _ := atDrills(t)
	p.tap("Backspace")
	p.point(ink.Pointer{Finger: true}, ink.Rect{X: 3, Y: 3}, 0, 0)
	p.point(ink.Pointer{Finger: true, Phase: ink.Up}, ink.Rect{X: 3, Y: 3}, 0, 0)
	require.False(t, p.reads("Before the first flight"))
	was := drills.Of(p.s.View()).Looked
	next := func() {
		more := p.hit("roll chapters").Box
		p.point(ink.Pointer{Finger: true}, more, 0.5, 0.5)
		p.point(ink.Pointer{Finger: true, Phase: ink.Up}, more, 0.5, 0.5)
	}
	next()
	assert.True(t, p.reads("Before the first flight"))
	assert.Equal(t, was, drills.Of(p.s.View()).Looked, "it is turned, and nothing is chosen")
	next()
	assert.False(t, p.reads("Before the first flight"), "at the end it goes round")
}
