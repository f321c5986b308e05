package screen_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/assets"
	"propsoff/cmd/propsoff/internal/drive"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/screen"
	"propsoff/input"
	"propsoff/input/inputtest"
	"propsoff/input/radio"
	"propsoff/input/usb"
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
	p := sitDownAt(t, assets.BuiltIn, func(d *drive.Options, s *screen.Options) {
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
			p.tap("B")
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
	p.tap("N")
	assert.True(t, p.reads("Which stick does what"))
}

func TestLearningByKeysAndClicks(t *testing.T) {
	p, o := plugIn(t)
	require.True(t, p.reads("Which stick does what"))
	pass := func(ms int) {
		for range ms / 16 {
			o.device.Pass(p.clock.now)
			p.wait(16)
		}
	}
	pass(200)
	p.tap("7") // no stick mode
	require.True(t, p.reads("Which stick does what"))
	p.click("picture-4")
	require.True(t, p.reads("Push the left stick all the way up and hold it there: throttle."))
	p.tap("2")
	assert.True(t, p.reads("Push the left stick"), "numbers mean nothing now")
	p.tap("B")
	require.True(t, p.reads("Which stick does what"))
	p.tap("3")
	require.True(t, p.reads("Push the right stick all the way up and hold it there: throttle."))
	pass(1000)
	assert.True(t, p.reads("Now move it."))
	for _, size := range [][2]float64{{960, 600}, {3840, 2160}} {
		p.s.Page(p.page, size[0], size[1])
		assert.Empty(t, ink.Check(p.page), "%v", size)
	}
	p.tap("O")
	assert.True(t, p.reads("Which stick does what"), "it starts over")
	p.tap("Esc")
	assert.True(t, p.reads("The keyboard drives"))
}

// The switch that was found last is given its side and a name, while the next question stands.
func TestASwitchIsPlacedAndNamed(t *testing.T) {
	p, o := plugIn(t)
	p.tap("2")
	r := curlew("Z9")
	r.Rest(2, 0)
	at := p.clock.now + 1_000_000
	to := func(axis int, value int32) {
		r.Move(at, 100_000, axis, value)
		at += 700_000
	}
	to(2, 2047)
	to(2, 0)
	at += 1_600_000
	for _, axis := range []int{3, 1, 0} {
		to(axis, 2047)
		to(axis, 0)
		to(axis, 1023)
		at += 1_600_000
	}
	r.Press(at, 2, true)
	at += 3_000_000
	r.Until(at + 5_000_000)
	o.radio = r
	p.s.Key("O", true) // it is opened anew
	p.tap("Tab")
	for range 4 {
		if !p.reads("Which stick does what") {
			p.tap("Tab")
		}
	}
	p.tap("2")
	for p.clock.now < at {
		o.device.Pass(p.clock.now)
		p.wait(16)
	}
	require.True(t, p.reads("Found: arm, button 3"), "and its side is asked for")
	require.True(t, p.reads("At which side"))
	p.tap("L")
	assert.True(t, p.reads("at the left"))
	p.tap("C")
	for _, key := range []string{"R", "E", "D", "Space", "1", "X", "Backspace"} {
		p.tap(key)
	}
	assert.True(t, p.reads("Name of the arm switch: red 1_"))
	p.tap("Enter")
	assert.True(t, p.reads(`called "red 1"`))
	p.tap("C")
	p.tap("Z")
	p.tap("Esc")
	assert.True(t, p.reads(`called "red 1"`), "the typing was left, and no more")
	assert.False(t, p.quit)
}
