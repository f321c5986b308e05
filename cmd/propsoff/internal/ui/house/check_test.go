package house_test

import (
	"cmp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/gestures/patternfile"
	"propsoff.example/input"
	"propsoff.example/input/inputtest"
	"propsoff.example/input/radio"
	"propsoff.example/input/usb"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/pulse"
)

// handsRadio is one radio whose hands are written in the clock's time; pulled, it is not there. called is another name for it, empty for its own.
type handsRadio struct {
	noRadios
	r      *inputtest.Radio
	clock  func() int64
	open   []*stampedDevice
	pulled bool
	called string
	news   []usb.Change
}

func (h *handsRadio) found() usb.Found {
	i := h.r.Info()
	return usb.Found{Name: cmp.Or(h.called, i.Name), Path: i.Path, Event: i.Path, Vendor: i.Vendor, Product: i.Product, Serial: i.Serial, Port: i.Port, Way: i.Way}
}

func (h *handsRadio) Found() []usb.Found {
	if h.pulled {
		return nil
	}
	return []usb.Found{h.found()}
}

func (h *handsRadio) Poll(dst []usb.Change) []usb.Change {
	dst = append(dst, h.news...)
	h.news = nil
	return dst
}

func (h *handsRadio) pull(out bool) {
	h.pulled = out
	kind := usb.Arrived
	if out {
		kind = usb.Departed
	}
	h.news = append(h.news, usb.Change{Kind: kind, Radio: h.found()})
}

func (h *handsRadio) Open(_ string, epoch int64) (input.Device, error) {
	d := &stampedDevice{h.r.OpenSlow(h.clock()), epoch}
	h.open = append(h.open, d)
	return d, nil
}

// stampedDevice tells its times from epoch on.
type stampedDevice struct {
	*inputtest.Device
	epoch int64
}

func (d *stampedDevice) Poll(dst []input.Raw) ([]input.Raw, error) {
	n := len(dst)
	dst, err := d.Device.Poll(dst)
	for i := n; i < len(dst); i++ {
		dst[i].At -= d.epoch
	}
	if g, ok := err.(inputtest.Gone); ok {
		err = inputtest.Gone{At: g.At - d.epoch}
	}
	return dst, err
}

// atTheRadio sits before the bench with a learned radio of four sticks and an arm switch.
func atTheRadio(t *testing.T) (*person, *handsRadio) {
	return atTheRadioBeside(t, func(h *handsRadio, _ *clock) whodrives.Radios { return h })
}

// atTheRadioBeside is atTheRadio with whatever else is plugged in.
func atTheRadioBeside(t *testing.T, all func(*handsRadio, *clock) whodrives.Radios) (*person, *handsRadio) {
	return radioBefore(t, all, nil)
}

// atTheRadioWith is atTheRadio with more that driver and screen begin with.
func atTheRadioWith(t *testing.T, more func(*whodrives.Options, *screen.Options)) (*person, *handsRadio) {
	return radioBefore(t, func(h *handsRadio, _ *clock) whodrives.Radios { return h }, more)
}

func radioBefore(t *testing.T, all func(*handsRadio, *clock) whodrives.Radios, more func(*whodrives.Options, *screen.Options)) (*person, *handsRadio) {
	return radioFor(t, changed(t, assets.BuiltIn), all, more)
}

// radioFor is atTheRadio with a craft that was read.
func radioFor(t *testing.T, c *craftfile.File, all func(*handsRadio, *clock) whodrives.Radios, more func(*whodrives.Options, *screen.Options)) (*person, *handsRadio) {
	info := input.Info{Path: "/dev/input/event9", Name: "Moorland Desk 7", Vendor: 0x1f4a, Product: 7, Serial: "A", Way: "event"}
	for i := range 5 {
		info.Axes = append(info.Axes, input.Axis{Code: i, Max: 2047})
	}
	h := &handsRadio{r: inputtest.NewRadio(info)}
	h.r.Rest(0, 0)
	h.r.Rest(4, 0)
	s := radio.Own(info.Axes[0])
	file := radio.File{Device: radio.DeviceOf(info), StickMode: 2}
	for i, job := range []string{"throttle", "roll", "pitch", "yaw", "arm"} {
		file.Controls = append(file.Controls, radio.Control{Job: job, Form: radio.Axis, Axis: i, Scale: &s, Stays: i == 0})
	}
	file.Controls[4].Positions = []radio.Position{{At: 0}, {At: 4094}}
	p := sitDownTo(t, assets.BuiltIn, c, func(do *whodrives.Options, so *screen.Options) {
		h.clock = do.Clock.Now
		do.Radios = all(h, do.Clock.(*clock))
		so.Names = do.Names
		_, err := do.Store.Save(file)
		require.NoError(t, err)
		if so.Bare = true; more != nil {
			more(do, so)
		}
	})
	return p, h
}

// pass is wait while the hands move.
func (p *person) pass(h *handsRadio, ms int) {
	for range ms / 16 {
		for _, d := range h.open {
			d.Pass(p.clock.now + 16_000)
		}
		p.wait(16)
	}
}

// hands writes what is asked for, from at on, and gives the time at which it is done.
func (h *handsRadio) hands(at int64) int64 {
	move := func(axis int, to int32, us int64) { h.r.Move(at, us, axis, to); at += us }
	for _, to := range [2][4]int32{{2047, 2047, 2047, 2047}, {0, 1023, 1023, 1023}} {
		from := at
		for a := range 4 {
			at = from
			move(a, to[a], 300_000)
		}
		at += 500_000
	}
	for _, a := range []int{3, 2, 1} {
		move(a, 2047, 300_000)
		at += 600_000
		move(a, 0, 600_000)
		at += 600_000
		move(a, 2047, 600_000)
		move(a, 1023, 200_000)
		at += 200_000
	}
	move(4, 2047, 4000)
	at += 400_000
	move(4, 0, 4000)
	at += 400_000
	h.r.Until(at + 100_000_000)
	return at
}

func TestTheCheckOfARadioInTheWindow(t *testing.T) {
	p, h := atTheRadio(t)
	// The radio was opened with hands that did nothing yet; the same radio with hands comes back.
	h.pull(true)
	for _, d := range h.open {
		_ = d.Close()
	}
	p.pass(h, 100)
	end := h.hands(p.clock.now + 1_000_000)
	h.pull(false)
	p.pass(h, 600)
	p.tap("F4")
	p.pass(h, 200)
	assert.True(t, p.reads("controls check: every control full and free"))
	p.pass(h, int(end-p.clock.now)/1000-300)
	assert.True(t, p.reads("Let go of everything for two seconds"))
	p.pass(h, 4000)
	assert.True(t, p.reads("Full and free: all 31 items pass."))
	assert.True(t, p.snap().In.Plugged, "the radio drives on meanwhile")

	p.tap("Enter")
	assert.True(t, p.reads("Nothing to set."))
	p.tap("Enter")
	p.tap("PageDown")
	p.tap("Delete")
	p.pass(h, 100)
	assert.True(t, p.reads("Push both sticks to the top right"), "it begins anew, and knows where a still hand stands")
	p.tap("Esc")
	assert.False(t, p.reads("controls check"))
	assert.True(t, p.reads("DISARMED"))
}

// What a check asks hands to do would open the camera's menu (full rolls while the throttle is low), and move the arm switch. On the bench it does: the hands are good
// for it.
// While a check is open the bench stands still, both sheets say so, and the check itself sees every move.
func TestACheckMovesNothingOnTheBench(t *testing.T) {
	moved := func(check bool) (*person, *handsRadio) {
		c := changed(t, assets.BuiltIn)
		_, text, _ := assets.Gestures("examples")
		f, err := patternfile.Parse("examples", text, 20)
		require.NoError(t, err)
		c.Learn(&f.Gestures, &f.Menus)
		p, h := radioFor(t, c, func(h *handsRadio, _ *clock) whodrives.Radios { return h }, nil)
		h.pull(true) // it was opened with hands that did nothing yet
		for _, d := range h.open {
			_ = d.Close()
		}
		p.pass(h, 100)
		at := p.clock.now + 6_000_000
		for _, to := range []int32{2047, 0, 1023} {
			h.r.Move(at, 50_000, 1, to)
			at += 500_000
		}
		h.r.Move(at, 4000, 4, 2047)
		h.r.Until(at + 100_000_000)
		h.pull(false)
		p.pass(h, 5000)
		require.True(t, p.snap().In.HasSent)
		if check {
			p.tap("F4")
		}
		return p, h
	}
	opened := func(p *person, h *handsRadio, ms int) (is bool) {
		for range ms / 16 {
			p.pass(h, 16)
			is = is || p.snap().In.Craft.Menu != pulse.MenuClosed
		}
		return is
	}
	p, h := moved(false)
	assert.True(t, opened(p, h, 2200), "%q", texts(p))

	p, h = moved(true)
	before := p.snap()
	require.True(t, p.reads("The bench stands still meanwhile: nothing that you move here reaches it."), "%q", texts(p))
	p.pass(h, 1200) // roll is held at the right
	assert.Equal(t, pulse.High, p.s.View().Snap.In.Sent[1], "the sheet draws the stick as it is held")
	trails := 0
	for range 20 {
		p.pass(h, 48)
		for _, it := range ink.Describe(p.page).Items {
			if strings.HasSuffix(it.Name, " trail") {
				trails++
				break
			}
		}
	}
	assert.NotZero(t, trails, "and the way that it came")
	p.pass(h, 840)
	assert.Equal(t, before.Tick, p.snap().Tick)
	assert.Equal(t, pulse.Low, p.snap().In.Sent[4])
	p.taps("Esc PageDown Enter")
	assert.False(t, opened(p, h, 3000))
	assert.True(t, p.reads("The bench stood still while you checked your radio. It goes on from where you left it."), "%q", texts(p))
	assert.Equal(t, pulse.High, p.snap().In.Sent[4], "what the hands hold now counts")
	p.pass(h, 8000)
	assert.False(t, p.reads("The bench stood still"))
}

func TestTheCheckWithoutARadioSaysWhatToDo(t *testing.T) {
	p := sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, so *screen.Options) { so.Bare = true })
	p.tap("F4")
	assert.True(t, p.reads("No radio drives."))
	p.tap("Delete")
	p.tap("Enter")
	p.tap("PageUp")
	p.tap("F4")
	assert.False(t, p.reads("No radio drives."))
}

// What it says to do is true at every moment: while something is played, once that has ended, and with a radio that does not drive.
func TestTheCheckSaysWhatToDoNow(t *testing.T) {
	p := atGestures(t, assets.BuiltIn, "  - {at: 1s, throttle: 1400}\nend: 3s\n", nil)
	p.tap("F4")
	assert.True(t, p.reads("Something is being played, so no radio drives. Wait until it has ended."))
	p.wait(4000)
	assert.False(t, p.reads("Something is being played"))
	assert.True(t, p.reads("No radio drives. Plug one in by USB"))

	p, h := atTheRadio(t)
	p.pass(h, 500)
	p.tap("Tab")
	p.tap("F4")
	require.True(t, p.reads("No radio drives. Let one drive (Tab on the bench)"))
	p.tap("F4")
	for range 2 { // the demo pilot first
		p.tap("Tab")
	}
	p.pass(h, 500)
	p.tap("F4")
	p.pass(h, 500)
	assert.False(t, p.reads("No radio drives"))
}

// With a radio asked for that is not there, and another one plugged in, the key of the next driver leads to none, and is not named for it;
// the one that is there can be chosen.
func TestAnotherRadioThanTheOneAskedFor(t *testing.T) {
	_, h := atTheRadio(t)
	p := sitDownAt(t, assets.BuiltIn, func(do *whodrives.Options, so *screen.Options) {
		h.clock, do.Radios, do.Device = do.Clock.Now, h, "Nowhere"
		so.Bare, so.Names = true, do.Names
	})
	for range 3 {
		p.tap("Tab")
		require.NotEqual(t, ui.Radio, p.s.View().Driver)
	}
	p.tap("F2")
	assert.True(t, p.reads("A radio is learned while it drives. Let it drive (F7) first."), "%q", texts(p))
	p.tap("F4")
	assert.True(t, p.reads("No radio drives. Let one drive (F7 on the bench): only a radio's own controls can be checked."), "%q", texts(p))
	p.tap("F4")
	p.tap("F7")
	require.True(t, p.reads("1 radio plugged in: press a number"), "%q", texts(p))
	p.tap("1")
	p.pass(h, 300)
	assert.NotEqual(t, -1, p.s.View().Reading, "%q", texts(p))
	p.pass(h, 3000)
	assert.NotEqual(t, -1, p.s.View().Reading, "it stays")
}

// The need of a checked radio asks for one that drives first, for nothing else can be checked.
func TestTheNeedOfACheckAsksForARadio(t *testing.T) {
	p := sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, so *screen.Options) { so.Bare = true })
	p.tap("B")
	assert.True(t, p.reads("Plug your radio in and let it drive; then press F4 and move every stick and switch as it asks. By keyboard nothing is checked."), "%q", texts(p))
	p, h := atTheRadio(t)
	p.pass(h, 300)
	p.tap("B")
	require.True(t, p.reads("Press F4 and move every stick and switch as it asks."), "%q", texts(p))
	p.tap("B")
	p.tap("Tab")
	p.tap("Tab")
	require.Equal(t, ui.Demo, p.s.View().Driver)
	p.tap("B")
	assert.True(t, p.reads("Let your radio drive (Tab on the bench); then press F4 and move every stick and switch as it asks."), "%q", texts(p))
}
