package whodrives

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/input"
	"propsoff.example/input/inputtest"
	"propsoff.example/input/keyboard"
	"propsoff.example/input/radio"
	"propsoff.example/input/usb"
	"propsoff.example/sim/pulse"
)

// filed is a radio file for r with the throttle on one of its axes, by which files are told apart.
func filed(r *inputtest.Radio, throttle int) radio.File {
	f := radio.File{Device: radio.DeviceOf(r.Info()), StickMode: 2}
	for i, job := range radio.Needed() {
		f.Controls = append(f.Controls, radio.Control{Job: job, Form: radio.Axis, Axis: (throttle + i) % 6})
	}
	return f
}

// at is a radio like moorland without a serial number, on a port.
func at(port string) *inputtest.Radio {
	info := moorland("").Info()
	info.Path, info.Port = "/dev/input/"+port, port
	r := inputtest.NewRadio(info)
	r.Rest(3, 2047)
	return r
}

func (d *desk) save(f radio.File) string {
	path, err := d.store.Save(f)
	require.NoError(d.t, err)
	return path
}

// Several radios of one make in a class: the first time each is plugged in a person says which file it is, and never again.
func TestIdenticalRadiosAreAskedForOnce(t *testing.T) {
	d := newDesk(t, nil)
	one := d.save(filed(moorland("A1"), 0))
	two := d.save(filed(moorland("B2"), 3))
	r := moorland("C3")
	r.Rest(3, 2047)
	d.bus.plug("C3", r)
	d.pass(50)
	v := d.View()
	require.Equal(t, Which, v.Who)
	require.Len(t, v.Alike, 2)
	assert.Equal(t, []string{one, two}, []string{v.Alike[0].Path, v.Alike[1].Path})
	assert.Equal(t, radio.OtherSerial, v.Alike[0].Why)
	assert.Equal(t, "C3", v.Info.Serial)
	assert.False(t, d.snap().In.HasSent, "nobody drives until it is said")
	d.Apply(7)
	assert.Equal(t, Which, d.View().Who)
	d.Apply(1)
	d.pass(50)
	v = d.View()
	require.Equal(t, Radio, v.Who)
	assert.True(t, d.has(Adopted))
	assert.Equal(t, pulse.Micros(2012), d.snap().In.Sent[0], "by the second file its throttle is axis 4")
	assert.Equal(t, "C3", v.File.Device.Serial)
	assert.Empty(t, v.Alike)

	again := newDesk(t, func(o *Options) { o.Store = d.store })
	back := moorland("C3")
	back.Rest(3, 2047)
	again.bus.plug("C3", back)
	again.pass(50)
	require.Equal(t, Radio, again.View().Who)
	assert.Equal(t, pulse.Micros(2012), again.snap().In.Sent[0])
	for serial, axis := range map[string]int{"A1": 0, "B2": 3} {
		f, err := d.store.Find(moorland(serial).Info())
		require.NoError(t, err)
		assert.Equal(t, radio.Exact, f.Match)
		c, _ := f.File.Control("throttle")
		assert.Equal(t, axis, c.Axis, "%s has its own file as before", serial)
	}
}

func TestAnIdenticalRadioMayBeLearnedAnew(t *testing.T) {
	d := newDesk(t, nil)
	d.save(filed(moorland("A1"), 0))
	d.bus.plug("C3", moorland("C3"))
	d.pass(50)
	require.Equal(t, Which, d.View().Who)
	d.LearnAnew()
	d.pass(50)
	assert.Equal(t, Questions, d.View().Who)
	d.Next()
	d.pass(50)
	assert.Equal(t, Keyboard, d.View().Who)
	after, _ := d.After()
	assert.Equal(t, Demo, after)
}

// Without serial numbers a port tells two radios apart, and a plug that was moved asks.
func TestWithoutSerialNumbersPortsTell(t *testing.T) {
	d := newDesk(t, nil)
	d.save(filed(at("1-1"), 3))
	d.save(filed(at("1-2"), 0))
	d.bus.plug("1-1", at("1-1"))
	d.pass(50)
	require.Equal(t, Radio, d.View().Who)
	assert.Equal(t, pulse.Micros(2012), d.snap().In.Sent[0])
	d.bus.plug("1-2", at("1-2"))
	d.pass(50)
	d.Choose(1)
	d.pass(50)
	require.Equal(t, Radio, d.View().Who)
	assert.NotEqual(t, pulse.Micros(2012), d.snap().In.Sent[0])
	assert.Equal(t, 1, d.View().Chosen, "of two of one name")

	d.bus.pull("1-2")
	d.pass(50)
	assert.Equal(t, Radio, d.View().Who, "the other one does not push itself forward")
	assert.False(t, d.View().Plugged)
	d.bus.plug("1-7", at("1-7"))
	d.pass(50)
	require.Equal(t, Radio, d.View().Who, "of those there, the one that is known is the better one")
	assert.Equal(t, "1-1", d.View().Info.Port)
	d.bus.pull("1-1")
	d.bus.pull("1-7")
	d.bus.plug("1-8", at("1-8"))
	d.pass(50)
	require.Equal(t, Which, d.View().Who)
	assert.Equal(t, radio.OtherPort, d.View().Alike[0].Why)
	d.bus.pull("1-8")
	d.pass(50)
	assert.Equal(t, Demo, d.View().Who, "it is asked again when it comes back")
	assert.True(t, d.has(Unplugged))
	d.bus.plug("1-8", at("1-8"))
	d.pass(50)
	assert.Equal(t, Which, d.View().Who)
	assert.False(t, d.has(Unplugged))
}

func TestARadioThatIsWaitedForGivesWayToOneThatComes(t *testing.T) {
	d := newDesk(t, nil)
	d.save(filed(moorland("A1"), 0))
	d.save(filed(moorland("B2"), 3))
	d.bus.plug("A1", moorland("A1"))
	d.pass(50)
	d.bus.pull("A1")
	d.pass(50)
	require.False(t, d.View().Plugged)
	d.bus.plug("B2", moorland("B2"))
	d.pass(50)
	assert.True(t, d.View().Plugged)
	assert.Equal(t, "B2", d.View().File.Device.Serial, "by its own file, not by its twin's")
}

// Rights often come a moment after the radio: it is then read in the better way, as in the terminal, and drives on.
func TestARadioThatMayBeReadBetterIsReadAnew(t *testing.T) {
	d := newDesk(t, nil)
	d.save(filed(moorland("A1"), 3))
	r := moorland("A1")
	r.Rest(3, 2047)
	d.bus.plug("A1", r)
	f := &d.bus.found[0]
	f.Way = usb.WayClassic
	d.bus.changes[0].Radio = *f
	d.pass(50)
	require.Equal(t, Radio, d.View().Who)
	require.Len(t, d.bus.open, 1)
	f.Way = usb.WayEvent
	d.bus.changes = append(d.bus.changes, usb.Change{Kind: usb.Altered, Radio: *f})
	d.pass(50)
	assert.Len(t, d.bus.open, 2)
	assert.Equal(t, Radio, d.View().Who)
	assert.True(t, d.View().Plugged)
	assert.Equal(t, pulse.Micros(2012), d.snap().In.Sent[0])
	assert.False(t, d.has(Unplugged))
	d.bus.changes = append(d.bus.changes, usb.Change{Kind: usb.Altered, Radio: *f})
	d.pass(50)
	assert.Len(t, d.bus.open, 2, "nothing better: it is left alone")
}

// A file given by hand that does not fit leaves the keyboard or the demo pilot where they are.
func TestARadioWhoseGivenFileDoesNotFitIsNotFollowed(t *testing.T) {
	other := filed(moorland("A1"), 3)
	other.Controls[0].Axis = 20
	d := newDesk(t, func(o *Options) { o.File = &other })
	d.bus.plug("A1", moorland("A1"))
	d.pass(50)
	require.Equal(t, Demo, d.View().Who)
	assert.Equal(t, -1, d.View().Chosen)
	d.bus.pull("A1")
	d.pass(50)
	assert.False(t, d.has(Unplugged), "it was not in use")
}

func TestTheBestKnownRadioDrives(t *testing.T) {
	d := newDesk(t, nil)
	d.save(filed(moorland("B2"), 0))
	d.bus.plug("1-1", at("1-1"))
	d.bus.plug("B2", moorland("B2"))
	d.pass(50)
	assert.Equal(t, Radio, d.View().Who)
	assert.Equal(t, 1, d.View().Chosen)
}

// What is said of who drives next is what comes: with two radios it is the known one; of one that cannot be opened nothing is promised.
func TestTheRadioThatIsSaidToComeNextComes(t *testing.T) {
	d := newDesk(t, func(o *Options) { o.Demo = nil })
	d.save(filed(moorland("B2"), 0))
	d.bus.plug("1-1", at("1-1"))
	d.bus.plug("B2", moorland("B2"))
	d.bus.found[0].Name = "Another"
	d.pass(50)
	d.Next()
	require.Equal(t, Keyboard, d.View().Who)
	next, name := d.After()
	require.Equal(t, Radio, next)
	require.Equal(t, "Moorland Desk", name)
	d.Next()
	require.Equal(t, Radio, d.View().Who)
	require.Equal(t, 1, d.View().Chosen)

	d.Next()
	d.bus.shut = true
	d.Next()
	require.Equal(t, Keyboard, d.View().Who)
	require.True(t, d.has(NotOpened))
	next, name = d.After()
	require.Equal(t, Radio, next, "it may be tried again")
	require.Empty(t, name)
}

func TestAFolderThatCannotBeWrittenKeepsTheLearning(t *testing.T) {
	blocked := filepath.Join(t.TempDir(), "radios")
	require.NoError(t, os.WriteFile(blocked, nil, 0o600)) // a file in the folder's place
	d := newDesk(t, func(o *Options) { o.Store = radio.Store{Dir: blocked} })
	d.store.Dir = blocked
	d.save1(t)
	v := d.View()
	require.Equal(t, Radio, v.Who)
	require.True(t, d.has(NotKept))
	assert.True(t, v.Unkept)
	require.NotNil(t, v.Result)
	assert.Contains(t, words.English().Say(v.Result.Error), blocked, "it says where")
	assert.Contains(t, words.English().Say(v.Result.Error), "not a directory", "and why")
	assert.Contains(t, words.In("de").Say(v.Result.Error), "kein Ordner", "in every language")

	// It is used all the same: pulled out and plugged in, and when another was chosen meanwhile.
	d.Next()
	d.Next()
	d.Next()
	d.pass(50)
	assert.Equal(t, Radio, d.View().Who, "nothing is asked again")
	d.KeepAgain()
	assert.True(t, d.has(NotKept), "still not")
	require.NoError(t, os.Remove(blocked))
	d.KeepAgain()
	assert.False(t, d.has(NotKept))
	assert.True(t, d.has(Kept))
	assert.False(t, d.View().Unkept)
	f, err := d.store.Find(moorland("A1").Info())
	require.NoError(t, err)
	assert.Equal(t, radio.Exact, f.Match)
}

// save1 has the radio A1 learned.
func (d *desk) save1(t *testing.T) {
	r := moorland("A1")
	answer(r, d.clock.now)
	d.bus.plug("A1", r)
	d.pass(120_000)
	require.Equal(t, Radio, d.View().Who)
}

func TestAFileGivenByHandAlwaysApplies(t *testing.T) {
	other := filed(moorland("A1"), 3)
	other.Device = radio.Device{Name: "Hedge Small", Vendor: 1, Product: 2}
	d := newDesk(t, func(o *Options) { o.File = &other })
	d.save(filed(moorland("A1"), 0))
	r := moorland("A1")
	r.Rest(3, 2047)
	d.bus.plug("A1", r)
	d.pass(50)
	require.Equal(t, Radio, d.View().Who)
	assert.Equal(t, pulse.Micros(2012), d.snap().In.Sent[0])
	require.True(t, d.has(OfAnother))

	other.Controls[0].Axis = 20
	d = newDesk(t, func(o *Options) { o.File = &other })
	d.bus.plug("A1", moorland("A1"))
	d.pass(50)
	assert.Equal(t, Demo, d.View().Who)
	require.True(t, d.has(FileDoesNotFit))
}

func TestASpoiltFileIsSaid(t *testing.T) {
	d := newDesk(t, nil)
	path := filepath.Join(d.store.Dir, "mine.yaml")
	require.NoError(t, os.WriteFile(path, []byte("propsoff: radio 1\ncontrols: 3\n"), 0o600))
	d.bus.plug("A1", moorland("A1"))
	d.pass(50)
	assert.Equal(t, Questions, d.View().Who)
	require.True(t, d.has(SpoiltFile))
	for _, n := range d.View().Notices {
		if n.Code == SpoiltFile {
			said := words.English().Say(n.Why)
			assert.True(t, strings.HasPrefix(said, path+":2:"), said)
		}
	}
}

// What is shown gives the bench back to whoever drove before, with the file that was in use.
func TestWhatIsShownGivesTheBenchBack(t *testing.T) {
	d := newDesk(t, nil)
	d.save(filed(moorland("A1"), 3))
	r := moorland("A1")
	r.Rest(3, 2047)
	d.bus.plug("A1", r)
	d.pass(50)
	names := d.o.Names
	d.Show(keyboard.New(names))
	d.pass(50)
	require.Equal(t, Script, d.View().Who)
	after, name := d.After()
	assert.Equal(t, Radio, after)
	assert.NotEmpty(t, name)
	d.Next()
	d.pass(50)
	assert.Equal(t, Radio, d.View().Who)
	assert.Equal(t, pulse.Micros(2012), d.snap().In.Sent[0])

	d.Next()
	require.Equal(t, Keyboard, d.View().Who)
	d.Show(keyboard.New(names))
	d.Next()
	d.pass(50)
	assert.Equal(t, Keyboard, d.View().Who, "though a radio is plugged in")

	// Other channels, while the radio is pulled out: it is waited for and comes back with them.
	d.Next()
	d.Next()
	d.pass(50)
	require.Equal(t, Radio, d.View().Who)
	d.bus.pull("A1")
	d.pass(50)
	moved := input.Names{Channel: map[string]int{"throttle": 5, "roll": 1, "pitch": 2, "yaw": 3}}
	d.UseNames(moved)
	d.pass(50)
	assert.Equal(t, Radio, d.View().Who)
	assert.False(t, d.View().Plugged)
	back := moorland("A1")
	back.Rest(3, 2047)
	d.bus.plug("A1", back)
	d.pass(100)
	assert.True(t, d.View().Plugged)
	assert.Equal(t, pulse.Micros(2012), d.snap().In.Sent[5])
}
