package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/drills"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/input"
	"propsoff.example/input/inputtest"
	"propsoff.example/input/radio"
	"propsoff.example/input/script"
	"propsoff.example/input/usb"
)

// atFind is a pupil in the middle of the drill that asks for the throttle: one cue was answered, the next is shown or will be.
func atFind(t *testing.T, p *person) {
	p.goTo("Find the throttle")
	p.tap("Enter")
	p.answered(t, 1)
}

// answered does what the drill of finding the throttle asks for, so many times. At each try the stick is brought to one end and back.
func (p *person) answered(t *testing.T, times int) {
	t.Helper()
	for range times {
		for n := 0; !p.reads("Now") && !drills.Of(p.s.View()).Run.Cue(); n++ {
			require.Less(t, n, 600, "a cue")
			p.wait(16)
		}
		p.s.Key("W", true)
		p.wait(900)
		p.s.Key("W", false)
		p.tap("X")
		for n := 0; drills.Of(p.s.View()).Run.Cue(); n++ {
			require.Less(t, n, 600, "a verdict")
			p.wait(16)
		}
	}
}

// The demo pilot never drills: what it flies in a drill ends it, is noted as nobody's, and leaves what the pupil did before as it was.
func TestTheDemoPilotEndsADrill(t *testing.T) {
	p, book := atDrills(t)
	book.pupil = "zoe"
	atFind(t, p)
	p.tap("C") // to the bench, where Tab changes who drives
	p.tap("Tab")
	p.wait(3000)
	require.Len(t, book.kept, 1)
	kept := book.kept[0]
	assert.Equal(t, drillrun.Demo, kept.Other)
	assert.True(t, kept.BrokenOff && !kept.Learned && kept.Keyboard)
	assert.LessOrEqual(t, len(kept.Tries), 1)
	p.tap("C")
	require.True(t, p.reads("The demo pilot drives, and a drill is for the pupil's own hand: the drill was left and counts neither way."))
	before, refused := len(book.runs), book.refusals
	p.goTo("Find yaw")
	p.tap("Enter")
	p.wait(60_000)
	assert.Equal(t, before, len(book.runs), "and none begins for it")
	assert.Equal(t, refused, book.refusals, "the demo pilot is refused; that is nothing of the pupil's")
	p.tap("C")
	p.tap("W")
	p.tap("X")
	p.wait(3000)
	p.tap("C")
	p.goTo("Find the throttle")
	p.tap("Enter")
	p.answered(t, 1)
	require.True(t, drills.Of(p.s.View()).Run.On, "with the pupil's hand it goes on as ever")
}

// A script that is shown on the bench, as the way to a broken rule is, is nobody's practice.
func TestAScriptEndsADrill(t *testing.T) {
	p, book := atDrills(t)
	book.pupil = "zoe"
	atFind(t, p)
	craft := changed(t, assets.BuiltIn)
	s, err := script.Parse("way", []byte("start: {throttle: 1500, arm: off, mode: angle}\nsteps:\n  - {at: 1s, arm: on}\n  - {at: 2s, arm: off}\nend: 20s\n"), craft.Names())
	require.NoError(t, err)
	refused := book.refusals
	p.s.Driver().Show(s.Source())
	p.wait(5000)
	require.Len(t, book.kept, 1)
	assert.Equal(t, drillrun.Script, book.kept[0].Other)
	assert.Equal(t, refused, book.refusals)
	require.True(t, p.reads("A script or a take is played, and a drill is for the pupil's own hand"))
}

// A fault that an instructor plants while a drill runs makes the drill another one.
func TestAPlantedFaultEndsADrill(t *testing.T) {
	p, book := atDrills(t)
	book.pupil = "zoe"
	atFind(t, p)
	p.tap("C")
	p.tap("I")
	p.tap("PageDown")
	p.tap("Enter") // dropouts
	p.wait(500)
	require.Len(t, book.kept, 1)
	assert.Equal(t, drillrun.Planted, book.kept[0].Other)
	p.tap("Backspace")
	p.tap("I")
	p.tap("C")
	require.True(t, p.reads("An instructor planted or lifted a fault while the drill ran"))
}

// atTwoRadios is a pupil at the keyboard with an instructor's radio of six axes beside it, learned.
func atTwoRadios(t *testing.T, write func(r *inputtest.Radio)) (*person, *handsRadio, *notebook) {
	info := input.Info{Path: "/dev/input/event9", Name: "Moorland Desk 7", Vendor: 0x1f4a, Product: 7, Serial: "A", Way: "event"}
	for i := range 6 {
		info.Axes = append(info.Axes, input.Axis{Code: i, Max: 2047})
	}
	h := &handsRadio{r: inputtest.NewRadio(info)}
	h.r.Rest(0, 0)
	h.r.Rest(5, 0)
	h.r.Rest(4, 2047) // armed by him as far as it goes
	write(h.r)
	s := radio.Own(info.Axes[0])
	file := radio.File{Device: radio.DeviceOf(info), StickMode: 2}
	for i, job := range []string{"throttle", "roll", "pitch", "yaw", "arm", "mode"} {
		file.Controls = append(file.Controls, radio.Control{Job: job, Form: radio.Axis, Axis: i, Scale: &s, Stays: i == 0})
	}
	file.Controls[4].Positions = []radio.Position{{At: 0}, {At: 4094}}
	file.Controls[5].Positions = []radio.Position{{At: 0}, {At: 2047}, {At: 4094}}
	book := &notebook{pupil: "zoe"}
	p := sitDownAt(t, assets.BuiltIn, func(do *whodrives.Options, so *screen.Options) {
		h.clock = do.Clock.Now
		do.Radios, so.Drills.Pupils, so.Bare = h, book, true
		_, err := do.Store.Save(file)
		require.NoError(t, err)
	})
	p.pass(h, 300)
	p.tap("Tab")                  // from the radio to the keys
	p.s.Driver().NextInstructor() // and the radio is the instructor's
	p.pass(h, 300)
	require.Equal(t, "Moorland Desk 7", p.s.Driver().View().Instructor)
	p.tap("X")
	p.pass(h, 2000)
	p.tap("C")
	return p, h, book
}

// An instructor who takes the sticks, or whose arm switch goes against the pupil's, is not the pupil.
func TestAnInstructorsRadioEndsADrill(t *testing.T) {
	t.Run("while he only looks on", func(t *testing.T) {
		p, _, book := atTwoRadios(t, func(*inputtest.Radio) {})
		atFind(t, p)
		assert.Empty(t, book.kept)
		p.taps("Esc PageDown Enter") // once it was asked
		p.wait(300)
		require.Len(t, book.kept, 1)
		assert.Equal(t, drillrun.NoOther, book.kept[0].Other, "left by the pupil himself")
	})
	t.Run("takes the sticks", func(t *testing.T) {
		p, h, book := atTwoRadios(t, func(r *inputtest.Radio) { r.Move(14_000_000, 0, 5, 2047) })
		p.goTo("Find the throttle")
		p.tap("Enter")
		for p.clock.now < 15_500_000 {
			p.pass(h, 16)
		}
		require.Len(t, book.kept, 1)
		assert.Equal(t, drillrun.Instructor, book.kept[0].Other)
		assert.True(t, book.kept[0].BrokenOff)
		require.True(t, p.reads("The instructor's radio came in, and a drill is for the pupil's own hand"))
	})
	t.Run("goes against the arm switch", func(t *testing.T) {
		p, h, book := atTwoRadios(t, func(r *inputtest.Radio) { r.Move(9_000_000, 0, 4, 0) })
		for p.clock.now < 9_500_000 {
			p.pass(h, 16)
		}
		p.goTo("Stop at the alarm, by switch")
		p.tap("Enter")
		p.pass(h, 1000)
		require.Empty(t, book.kept, "both are off")
		p.tap("Space")
		p.pass(h, 300)
		require.Len(t, book.kept, 1)
		assert.Equal(t, drillrun.Instructor, book.kept[0].Other)
		assert.Empty(t, book.kept[0].Tries)
		assert.Empty(t, book.runs)
	})
}

// knownAndNew are two radios: one that is learned, and one that is not.
type knownAndNew struct {
	*handsRadio
	fresh *oneRadio
}

func (k knownAndNew) Found() []usb.Found { return append(k.handsRadio.Found(), k.fresh.Found()...) }

func (k knownAndNew) Open(path string, epoch int64) (input.Device, error) {
	if path == k.fresh.Found()[0].Path {
		return k.fresh.Open(path, epoch)
	}
	return k.handsRadio.Open(path, epoch)
}

// A radio that is not learned cannot be the instructor's: what the desk says to do about it leads to its questions. Where the demo pilot
// drives nobody can be joined, and no key is named for it.
func TestARadioThatIsNotLearnedIsLearnedBeforeItIsTheInstructors(t *testing.T) {
	p, h := atTheRadioBeside(t, func(h *handsRadio, c *clock) whodrives.Radios {
		return knownAndNew{h, &oneRadio{radio: curlew("Z9"), clock: c, told: true}}
	})
	p.pass(h, 500)
	p.tap("I")
	require.True(t, p.reads("No second radio is the instructor's; press “'” to take one."))
	p.tap("Quote")
	require.True(t, p.reads("The radio Curlew Two is not learned yet, so it cannot be the instructor's: choose it (F7 on the bench), learn it once, and come back."), "%q", texts(p))
	p.taps("I F7 2")
	p.wait(100)
	assert.True(t, p.reads("The questions are about Curlew Two."), "%q", texts(p))

	p.taps("Tab Tab I")
	require.Equal(t, ui.Demo, p.s.View().Driver)
	assert.True(t, p.reads("No second radio is the instructor's. It joins a pupil who drives by radio or keyboard."))
}
