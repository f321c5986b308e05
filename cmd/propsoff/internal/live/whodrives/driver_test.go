package whodrives

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/input"
	"propsoff.example/input/inputtest"
	"propsoff.example/input/keyboard"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
	"propsoff.example/input/usb"
	"propsoff.example/sim"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/pulse"
)

// clock stands still until it is moved.
type clock struct{ now int64 }

func (c *clock) Now() int64    { return c.now }
func (c *clock) Passed() int64 { return c.now }

// bus is a USB bus on which fake radios come and go.
type bus struct {
	clock   *clock
	found   []usb.Found
	radios  map[string]*inputtest.Radio
	open    map[*inputtest.Device]int64
	changes []usb.Change
	shut    bool // nothing can be opened
}

func (b *bus) Poll(dst []usb.Change) []usb.Change {
	dst = append(dst, b.changes...)
	b.changes = nil
	return dst
}
func (b *bus) Found() []usb.Found { return slices.Clone(b.found) }
func (b *bus) Close() error       { return nil }
func (b *bus) Open(path string, epoch int64) (input.Device, error) {
	if b.shut {
		return nil, usb.ErrNone
	}
	d := b.radios[path].OpenSlow(b.clock.now)
	b.open[d] = epoch
	return &late{d, epoch}, nil
}

// late is a device whose radio was written in the bus' own time and whose stamps count from epoch.
type late struct {
	*inputtest.Device
	epoch int64
}

func (l *late) Poll(dst []input.Raw) ([]input.Raw, error) {
	n := len(dst)
	dst, err := l.Device.Poll(dst)
	for i := n; i < len(dst); i++ {
		dst[i].At -= l.epoch
	}
	if g, ok := err.(inputtest.Gone); ok {
		err = inputtest.Gone{At: g.At - l.epoch}
	}
	return dst, err
}

func (b *bus) plug(name string, r *inputtest.Radio) {
	f := usb.Found{Path: "/dev/input/" + name, Event: "/dev/input/" + name, Name: r.Info().Name, Vendor: r.Info().Vendor, Product: r.Info().Product, Serial: r.Info().Serial, Port: r.Info().Port, Way: usb.WayEvent}
	b.found = append(b.found, f)
	b.radios[f.Path] = r
	b.changes = append(b.changes, usb.Change{Kind: usb.Arrived, Radio: f})
}

func (b *bus) pull(name string) {
	i := slices.IndexFunc(b.found, func(f usb.Found) bool { return f.Path == "/dev/input/"+name })
	b.changes = append(b.changes, usb.Change{Kind: usb.Departed, Radio: b.found[i]})
	b.found = slices.Delete(b.found, i, i+1)
}

type desk struct {
	*Driver
	t     *testing.T
	clock *clock
	bus   *bus
	loop  *live.Loop
	store radio.Store
	// silent: nobody answers what is asked on the sheet.
	silent bool
}

func newDesk(t *testing.T, more func(*Options)) *desk {
	_, text, _ := assets.Craft(assets.BuiltIn)
	craft, err := craftfile.Parse("built-in", text)
	require.NoError(t, err)
	c := &clock{now: 5_000_000}
	b := &bus{clock: c, radios: map[string]*inputtest.Radio{}, open: map[*inputtest.Device]int64{}}
	l := live.New(live.Options{Craft: craft.Config(), Clock: c, Begin: []pulse.Reading{{Kind: pulse.Link, Value: 1}, {Kind: pulse.Power, Value: 1}}})
	d := &desk{t: t, clock: c, bus: b, loop: l, store: radio.Store{Dir: t.TempDir()}}
	o := Options{Loop: l, Clock: c, Names: craft.Names(), Radios: b, Store: d.store,
		Demo: func() input.Source { return keyboard.New(craft.Names()) }}
	if more != nil {
		more(&o)
	}
	d.Driver = New(o)
	t.Cleanup(func() { l.Close() })
	return d
}

// pass lets ms go by in steps of 5.
func (d *desk) pass(ms int) {
	for range ms / 5 {
		d.clock.now += 5000
		for dev := range d.bus.open {
			dev.Pass(d.clock.now)
		}
		d.Turn()
		d.loop.Turn()
		switch v := d.View(); { // what is said on the sheet meanwhile
		case v.Who != Questions || d.silent:
		case v.Learn.Question == learn.StickMode:
			d.SetStickMode(2)
		case v.Learn.Question == learn.More && v.Learn.Phase == learn.Moving:
			d.Enough()
		}
	}
}

func (d *desk) snap() (s sim.Snapshot) { d.loop.Snapshot(&s); return s }

func (d *desk) has(c Code) bool {
	return slices.ContainsFunc(d.View().Notices, func(n Notice) bool { return n.Code == c })
}

// moorland is a radio with six axes; hands answer the six questions, beginning at at.
func moorland(serial string) *inputtest.Radio {
	info := input.Info{Path: "/dev/input/" + serial, Name: "Moorland Desk", Vendor: 0x1f4a, Product: 7, Serial: serial, Buttons: 8, Way: usb.WayEvent}
	for i := range 6 {
		info.Axes = append(info.Axes, input.Axis{Code: i, Min: 0, Max: 2047})
	}
	r := inputtest.NewRadio(info)
	for _, a := range []int{2, 4, 5} { // throttle, arm and mode stand low
		r.Rest(a, 0)
	}
	return r
}

func TestWithoutARadioTheDemoPilotFliesAndAKeyTakesOver(t *testing.T) {
	d := newDesk(t, nil)
	d.pass(100)
	assert.Equal(t, Demo, d.View().Who)
	d.loop.Desk().Put(pulse.Link, 0)
	d.pass(100)
	d.Press(keyboard.ThrottleUp)
	d.pass(1500)
	assert.Equal(t, Keyboard, d.View().Who)
	assert.Greater(t, d.snap().In.Sent[0], pulse.Micros(1900))
	assert.True(t, d.snap().In.Transmitter, "whatever the demo showed, the bench is found in order")
	d.ReleaseAll()
	d.Next()
	d.pass(50)
	assert.Equal(t, Demo, d.View().Who)
}

func TestANewRadioIsAskedAndItsFileKept(t *testing.T) {
	d := newDesk(t, nil)
	d.pass(50)
	r := moorland("A1")
	answer(r, d.clock.now)
	d.bus.plug("A1", r)
	d.pass(20)
	require.Equal(t, Questions, d.View().Who)
	assert.Equal(t, "Moorland Desk", d.View().Name)
	d.pass(50_000)
	v := d.View()
	require.Equal(t, Radio, v.Who, "questions: %+v", v.Learn.Notice)
	assert.True(t, d.has(Kept))
	s := d.snap()
	assert.True(t, s.In.HasSent, "the state read by the questions is handed on: a still hand sends no other")
	assert.Equal(t, pulse.Micros(988), s.In.Sent[0])
	f, err := d.store.Find(r.Info())
	require.NoError(t, err)
	assert.Equal(t, radio.Exact, f.Match)

	// The next start finds the file and asks nothing.
	again := newDesk(t, func(o *Options) { o.Store = d.store })
	again.bus.plug("A1", moorland("A1"))
	again.pass(50)
	assert.Equal(t, Radio, again.View().Who)
	assert.True(t, again.snap().In.HasSent)
}

func TestPulledOutAndPluggedInAgain(t *testing.T) {
	d := newDesk(t, nil)
	r := moorland("A1")
	answer(r, d.clock.now)
	r.Vanish(d.clock.now + 52_000_000)
	d.bus.plug("A1", r)
	d.pass(50_000)
	require.Equal(t, Radio, d.View().Who)
	assert.True(t, d.snap().In.Plugged)
	d.pass(2100)
	d.bus.pull("A1")
	d.pass(100)
	assert.True(t, d.has(Unplugged))
	assert.False(t, d.View().Plugged)
	assert.False(t, d.snap().In.Plugged, "the bench sees a lost radio")
	assert.Equal(t, Radio, d.View().Who, "nobody else takes over by himself")
	d.bus.plug("A1", moorland("A1"))
	d.pass(100)
	assert.True(t, d.View().Plugged)
	assert.True(t, d.snap().In.Plugged)
	assert.False(t, d.has(Unplugged))
}

func TestPulledOutInTheMiddleOfTheQuestions(t *testing.T) {
	d := newDesk(t, nil)
	r := moorland("A1")
	answer(r, d.clock.now)
	r.Vanish(d.clock.now + 9_500_000)
	d.bus.plug("A1", r)
	d.pass(9600)
	require.Equal(t, Questions, d.View().Who)
	asked := d.View().Learn.Question
	assert.Equal(t, learn.Roll, asked)
	assert.False(t, d.View().Plugged)
	d.bus.pull("A1")
	d.pass(500)
	back := moorland("A1")
	answerFrom(back, d.clock.now, 2)
	d.bus.plug("A1", back)
	d.pass(100)
	assert.True(t, d.View().Plugged)
	assert.Equal(t, asked, d.View().Learn.Question, "they go on where they were")
	d.pass(45_000)
	v := d.View()
	require.Equal(t, Radio, v.Who)
	for i, job := range []string{"roll", "pitch", "throttle", "yaw", "arm", "mode"} {
		c, ok := v.File.Control(job)
		assert.True(t, ok && c.Form == radio.Axis && c.Axis == i, "%s: %+v", job, c)
		falls := c.Scale != nil && c.Scale.High < c.Scale.Low
		assert.Equal(t, job == "pitch", falls, job)
	}
	c, _ := v.File.Control("mode")
	assert.Len(t, c.Positions, 3)
}

// Whoever looks at the radio itself begins with the state that stands: a still hand sends nothing.
func TestListeningBeginsWithWhatStands(t *testing.T) {
	d := newDesk(t, nil)
	_, err := d.store.Save(filed(moorland("A1"), 0))
	require.NoError(t, err)
	r := moorland("A1")
	r.Move(d.clock.now+10_000, 0, 1, 77)
	r.Move(d.clock.now+500_000, 0, 1, 99)
	r.Vanish(d.clock.now + 800_000)
	d.bus.plug("A1", r)
	d.pass(100)
	d.Listen(true)
	got := d.HeardSince(nil)
	require.Len(t, got, 1)
	assert.Equal(t, int32(77), got[0].Raw.Axes[1])
	assert.Empty(t, d.HeardSince(nil))
	d.pass(500)
	got = d.HeardSince(nil)
	require.Len(t, got, 1)
	assert.Equal(t, int32(99), got[0].Raw.Axes[1])
	d.Listen(false)
	d.bus.pull("A1")
	d.pass(400)
	d.Listen(true)
	assert.Empty(t, d.HeardSince(nil), "nothing stands while it is out")
}

func TestTwoRadiosAreChosenByNumberOrName(t *testing.T) {
	d := newDesk(t, func(o *Options) { o.Device = "2" })
	d.bus.plug("A1", moorland("A1"))
	d.bus.plug("B2", moorland("B2"))
	d.pass(20)
	v := d.View()
	assert.Equal(t, Questions, v.Who)
	assert.Equal(t, []string{"Moorland Desk", "Moorland Desk"}, v.Choices)
	assert.Equal(t, 1, v.Chosen)
	d.Choose(0)
	d.pass(20)
	assert.Equal(t, 0, d.View().Chosen)
}

func TestADeviceInAnotherUSBModeIsNamed(t *testing.T) {
	d := newDesk(t, nil)
	d.bus.changes = append(d.bus.changes, usb.Change{Kind: usb.OtherArrived, Notice: usb.Notice{Name: "Moorland", Storage: true}})
	d.pass(10)
	require.True(t, d.has(OtherMode))
	assert.True(t, d.View().Notices[0].Storage)
	d.bus.changes = append(d.bus.changes, usb.Change{Kind: usb.OtherDeparted, Notice: usb.Notice{Name: "Moorland", Storage: true}})
	d.pass(10)
	assert.False(t, d.has(OtherMode))
}

func TestARadioThatComesWhileSomethingIsPlayedWaitsToBeChosen(t *testing.T) {
	var played *keyboard.Source
	d := newDesk(t, func(o *Options) {
		played = keyboard.New(o.Names)
		o.Script = played
	})
	d.pass(50)
	d.bus.plug("A1", moorland("A1"))
	d.pass(50)
	require.Equal(t, Script, d.View().Who)
	d.Next()
	d.Choose(0)
	d.AskAgain()
	assert.Equal(t, Script, d.View().Who, "until it has ended")
	d.Ended(Ended{Source: played, Why: input.ErrEnd})
	require.True(t, d.View().Ended)
	after, _ := d.After()
	require.Equal(t, Keyboard, after)
	d.Next()
	d.pass(200)
	assert.Equal(t, Keyboard, d.View().Who, "the radio does not push itself forward")
	d.Next()
	d.pass(50)
	assert.Equal(t, Demo, d.View().Who)
	d.Next()
	d.pass(50)
	require.Equal(t, Questions, d.View().Who)
	assert.True(t, d.View().Learn.Begun, "its questions go on by themselves")
}

func TestARadioAskedForIsSaidToBeMissing(t *testing.T) {
	d := newDesk(t, func(o *Options) { o.Device = "Curlew" })
	d.pass(50)
	assert.True(t, d.has(NoSuchRadio))
	d.bus.plug("A1", moorland("A1"))
	d.pass(50)
	assert.True(t, d.has(NoSuchRadio), "another one does not do")
	assert.Equal(t, Demo, d.View().Who)
}

func TestTakingOverBySwitchKeyOnlyTakesOver(t *testing.T) {
	for _, k := range []keyboard.Key{keyboard.Arm, keyboard.Second, keyboard.Extra, keyboard.ModeHigh} {
		d := newDesk(t, nil)
		d.pass(50)
		require.Equal(t, Demo, d.View().Who)
		d.Press(k)
		d.Release(k)
		d.pass(100)
		require.Equal(t, Keyboard, d.View().Who)
		before := d.snap().In.Sent
		assert.NotContains(t, before, pulse.High, "key %d", k)
		d.Press(keyboard.ModeHigh)
		d.Release(keyboard.ModeHigh)
		d.pass(100)
		assert.NotEqual(t, before, d.snap().In.Sent, "the next press counts")
	}
}
