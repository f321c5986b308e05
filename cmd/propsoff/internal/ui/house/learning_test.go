package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/input"
	"propsoff.example/input/inputtest"
	"propsoff.example/input/radio"
	"propsoff.example/input/usb"
)

// oneRadio is a USB port with one radio on it.
type oneRadio struct {
	radio  *inputtest.Radio
	clock  *clock
	device *inputtest.Device
	told   bool
}

func (o *oneRadio) Poll(dst []usb.Change) []usb.Change {
	if o.told {
		return dst
	}
	o.told = true
	return append(dst, usb.Change{Kind: usb.Arrived, Radio: o.Found()[0]})
}

func (o *oneRadio) Found() []usb.Found {
	i := o.radio.Info()
	return []usb.Found{{Path: i.Path, Event: i.Path, Name: i.Name, Vendor: i.Vendor, Product: i.Product, Serial: i.Serial, Way: usb.WayEvent}}
}

func (o *oneRadio) Open(string, int64) (input.Device, error) {
	o.device = o.radio.OpenSlow(o.clock.now)
	return o.device, nil
}

func (o *oneRadio) Close() error { return nil }

func curlew(serial string) *inputtest.Radio {
	info := input.Info{Path: "/dev/input/curlew", Name: "Curlew Two", Vendor: 0x1f4a, Product: 9, Serial: serial, Buttons: 4, Way: usb.WayEvent}
	for i := range 6 {
		info.Axes = append(info.Axes, input.Axis{Code: i, Max: 2047})
	}
	return inputtest.NewRadio(info)
}

// plugIn sits down before a radio, with the radio files of others of its make.
func plugIn(t *testing.T, serials ...string) (*person, *oneRadio) {
	o := &oneRadio{radio: curlew("Z9"), clock: &clock{}}
	store := radio.Store{Dir: t.TempDir()}
	for i, serial := range serials {
		f := radio.File{Device: radio.DeviceOf(curlew(serial).Info()), StickMode: i + 1}
		for k, job := range radio.Needed() {
			f.Controls = append(f.Controls, radio.Control{Job: job, Form: radio.Axis, Axis: (k + i) % 6})
		}
		_, err := store.Save(f)
		require.NoError(t, err)
	}
	p := sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, s *screen.Options) {
		o.clock = d.Clock.(*clock)
		d.Radios, d.Store, s.Bare = o, store, true
	})
	p.wait(100)
	return p, o
}

func (p *person) click(name string) {
	for _, h := range p.page.Hits() {
		if h.Name == name {
			p.s.Click(h)
			p.wait(50)
			return
		}
	}
	p.t.Fatalf("nothing named %s can be clicked", name)
}

// In a class of identical radios the sheet asks whose file applies; a number or a click answers.
func TestWhichFileIsChosenByNumberOrClick(t *testing.T) {
	for how, answer := range map[string]func(p *person){"number": func(p *person) { p.tap("2") }, "click": func(p *person) { p.click("file-2") }} {
		t.Run(how, func(t *testing.T) {
			p, _ := plugIn(t, "A1", "B2")
			require.True(t, p.reads("Curlew Two looks like 2 radios that are known"))
			p.tap("9")
			p.tap("Backspace")
			require.True(t, p.reads("Which one is it?"), "nothing else answers")
			answer(p)
			assert.True(t, p.reads("The radio file that you chose is kept for Curlew Two"))
			assert.True(t, p.reads("stick mode 2"))
			assert.False(t, p.quit)
		})
	}
	p, _ := plugIn(t, "A1")
	p.tap("Esc")
	assert.True(t, p.reads("The keyboard drives"))
	assert.False(t, p.quit)
	p, _ = plugIn(t, "A1")
	p.tap("Period")
	assert.True(t, p.reads("lean the craft forward"))
}

func TestLearningByKeysAndClicks(t *testing.T) {
	p, o := plugIn(t)
	require.True(t, p.reads("Pitch: lean the craft forward, nose down."))
	assert.False(t, p.reads("start over"), "there is nothing to begin again yet")
	for range 120 {
		o.device.Pass(p.clock.now)
		p.wait(16)
	}
	p.tap("2")
	assert.True(t, p.reads("Pitch: lean"), "numbers mean nothing now")
	assert.True(t, p.reads("Ready when you are."))
	for _, size := range [][2]float64{{960, 600}, {3840, 2160}} {
		p.s.Page(p.page, size[0], size[1])
		assert.Empty(t, ink.Check(p.page), "%v", size)
	}
	p.tap("Esc")
	assert.True(t, p.reads("The keyboard drives"))
}

// The switch that was found last is given its side and a name, while the next question stands; then the hands are chosen by number or
// click.
func TestASwitchIsPlacedAndNamedAndTheHandsChosen(t *testing.T) {
	p, o := plugIn(t)
	r := curlew("Z9")
	r.Rest(2, 0)
	r.Rest(4, 0)
	at := p.clock.now + 3_000_000
	to := func(axis int, value int32) {
		r.Move(at, 100_000, axis, value)
		at += 700_000
	}
	for _, axis := range []int{1, 3, 0} {
		to(axis, 2047)
		to(axis, 0)
		to(axis, 1023)
		at += 1_600_000
	}
	to(2, 2047)
	to(2, 0)
	at += 3_000_000
	r.Press(at, 2, true)
	at += 3_000_000
	slow := at + 20_000_000
	r.Move(slow, 300_000, 4, 2047)
	r.Until(at + 60_000_000)
	o.radio = r
	p.tap("Tab") // it is opened anew
	for range 4 {
		if !p.reads("Pitch: lean") {
			p.tap("Tab")
		}
	}
	pass := func(until int64) {
		for p.clock.now < until {
			o.device.Pass(p.clock.now)
			p.wait(16)
		}
	}
	pass(at)
	require.True(t, p.reads("Found: arm, button 3"))
	require.True(t, p.reads("Where it sits is asked at the end, or now by “`”"))
	p.tap("Delete")
	require.True(t, p.reads("Begin with the first question again?"))
	require.True(t, p.reads("5 questions are answered; they are asked again."))
	p.tap("Enter")
	require.True(t, p.reads("Found: arm, button 3"), "the safe answer comes first")
	p.tap("Backquote")
	require.True(t, p.reads("Where does “arm switch” sit?"))
	p.tap("Enter")
	require.True(t, p.reads("on the left shoulder"), "back at the questions, and placed")
	assert.False(t, p.reads("asked at the end"))
	p.tap("Quote")
	for _, key := range []string{"R", "E", "D", "Space", "1", "X", "Backspace"} {
		p.tap(key)
	}
	assert.True(t, p.reads("red 1"))
	assert.True(t, p.reads("called on this radio?"))
	p.tap("Enter")
	assert.True(t, p.reads(`called “red 1”`))
	p.tap("Quote")
	p.tap("Z")
	p.taps("Esc PageDown Enter") // once it was asked
	assert.True(t, p.reads(`called “red 1”`), "the typing was left, and no more")
	assert.False(t, p.quit)

	pass(slow + 4_000_000) // a lever led from one position to the other as slowly as a knob is turned
	require.True(t, p.reads("Found: mode, axis 5"))
	require.True(t, p.reads("if it clicks from place to place, say so by “/”"))
	require.False(t, p.reads("2 positions"))
	p.tap("Slash")
	require.True(t, p.reads("2 positions at 988 and 2012 µs"))
	require.False(t, p.reads("say so by"))
	p.tap("Slash")
	require.False(t, p.reads("2 positions"), "the knob that it was")
	p.tap("Slash")
	p.tap("Enter")
	pass(p.clock.now + 1_000_000)
	require.True(t, p.reads("Which of these four are your hands"))
	p.tap("7") // no stick mode
	require.True(t, p.reads("Which of these four are your hands"))
	p.click("picture-4")
	require.True(t, p.reads("Everything at once"))
	require.True(t, p.reads("mode 4"))
	p.tap("2")
	require.True(t, p.reads("mode 4"), "numbers mean nothing now")
	p.tap("Backspace")
	require.True(t, p.reads("Which of these four are your hands"))
	p.tap("3")
	require.True(t, p.reads("Everything at once"))
	require.True(t, p.reads("mode 3"))
	p.taps("Delete PageDown Enter")
	require.True(t, p.reads("Pitch: lean the craft forward"), "it starts over")
}

// Whoever learns a known radio again and gives it up flies by it as before: what is known stays.
func TestQuestionsGivenUpLeaveTheRadioAsItWas(t *testing.T) {
	p, _ := atTheRadio(t)
	p.wait(200)
	require.Equal(t, ui.Radio, p.s.View().Driver)
	p.tap("F2")
	p.wait(200)
	require.Equal(t, ui.OnQuestions, p.s.Place())
	p.tap("Esc")
	p.wait(200)
	assert.NotEqual(t, ui.OnQuestions, p.s.Place())
	assert.Equal(t, ui.Radio, p.s.View().Driver)
	p.tap("F2")
	p.wait(200)
	p.tap("Tab")
	p.wait(200)
	assert.Equal(t, ui.Keyboard, p.s.View().Driver, "whoever wants the keys has them")

	p, _ = plugIn(t)
	require.Equal(t, ui.OnQuestions, p.s.Place())
	p.tap("Esc")
	p.wait(200)
	assert.Equal(t, ui.Keyboard, p.s.View().Driver, "nobody knows this one")
}
