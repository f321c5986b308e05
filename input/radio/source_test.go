package radio_test

import (
	"errors"
	"testing"

	"propsoff.example/input"
	"propsoff.example/input/inputtest"
	"propsoff.example/input/radio"
	"propsoff.example/sim/pulse"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const ms = 1000

func deskInfo() input.Info {
	info := input.Info{Name: "Desk", Buttons: 20}
	for i := range 6 {
		info.Axes = append(info.Axes, input.Axis{Code: i, Min: 0, Max: 4095})
	}
	return info
}

func deskFile() radio.File {
	return radio.File{Device: radio.Device{Name: "Desk"}, StickMode: 2, Controls: []radio.Control{
		{Job: "throttle", Form: radio.Axis, Axis: 2},
		{Job: "roll", Form: radio.Axis, Axis: 0},
		{Job: "pitch", Form: radio.Axis, Axis: 1, Backwards: true},
		{Job: "yaw", Form: radio.Axis, Axis: 3},
		{Job: "arm", Form: radio.Button, Buttons: []int{4}},
		{Job: "mode", Form: radio.Row, Buttons: []int{5, radio.None, 7}},
	}}
}

func names() input.Names {
	return input.Names{Channel: map[string]int{"throttle": 0, "roll": 1, "pitch": 2, "yaw": 3, "arm": 4, "mode": 5}}
}

// hands is a radio on which something happens for ten seconds.
func hands() *inputtest.Radio {
	r := inputtest.NewRadio(deskInfo())
	r.Rest(2, 0)
	r.Noise(0, 3, 1)
	r.OffCentre(3, 60)
	r.ShortTravel(2, 96, 4000)
	r.Move(500*ms, 700*ms, 2, 4095)
	r.Move(2000*ms, 100*ms, 1, 0)
	r.Press(3000*ms, 4, true)
	r.Press(3000*ms, 11, true) // no job
	r.Press(4000*ms, 7, true)
	r.Spike(5000*ms, 3, 4095)
	r.Lose(6000*ms, 6200*ms)
	r.Until(9000 * ms)
	return r
}

func open(t *testing.T, cfg radio.Config) *radio.Source {
	t.Helper()
	if len(cfg.File.Controls) == 0 {
		cfg.File = deskFile()
	}
	if cfg.Names.Channel == nil {
		cfg.Names = names()
	}
	s, err := radio.NewSource(cfg)
	require.NoError(t, err)
	return s
}

func TestConformance(t *testing.T) {
	inputtest.TestSource(t, func() input.Source {
		return open(t, radio.Config{Device: hands().Open(0)})
	}, inputtest.Want{NoAlloc: true})
}

func TestConformanceOfAVanishingRadio(t *testing.T) {
	inputtest.TestSource(t, func() input.Source {
		r := hands()
		r.Vanish(5500 * ms)
		return open(t, radio.Config{Device: r.Open(0)})
	}, inputtest.Want{End: input.ErrGone})
}

// What comes in piece by piece is what comes in at once.
func TestSlowDevice(t *testing.T) {
	want, err := open(t, radio.Config{Device: hands().Open(0)}).Poll(nil, 10_000*ms)
	require.NoError(t, err)
	rapid.Check(t, func(rt *rapid.T) {
		d := hands().OpenSlow(0)
		s := open(t, radio.Config{Device: d})
		var got []pulse.Reading
		for at := int64(0); at < 10_000*ms; {
			at += rapid.Int64Range(1, 2_000*ms).Draw(rt, "step")
			d.Pass(at)
			got, err = s.Poll(got, at)
			if err != nil {
				rt.Fatal(err)
			}
		}
		require.Equal(rt, want, got)
	})
}

func TestReadings(t *testing.T) {
	r := inputtest.NewRadio(deskInfo())
	r.Move(10*ms, 0, 0, 4095)
	r.Move(10*ms, 0, 1, 4095)
	r.Press(20*ms, 11, true)
	r.Lose(30*ms, 40*ms)
	s := open(t, radio.Config{Device: r.Open(0), Opened: -5 * ms})
	require.Equal(t, "Desk", s.Name())
	got, err := s.Poll(nil, 100*ms)
	require.NoError(t, err)
	c, hi, lo := pulse.Width(12001), pulse.High, pulse.Low // 2047 of 4095 is 1499.875, 2048 would be 1500.125
	rest := pulse.Frame{c - 2, c - 2, c, c - 2, lo, pulse.Centre}
	moved := rest
	moved[1], moved[2] = hi, lo
	require.Equal(t, []pulse.Reading{
		{At: 0, Kind: pulse.Plug, Value: 1},
		{At: 5 * ms, Kind: pulse.Controls, Frame: rest},
		{At: 15 * ms, Kind: pulse.Controls, Frame: moved}, // two sticks of one report move at one instant
		{At: 45 * ms, Kind: pulse.Gap},                    // lost readings; the button without a job said nothing
		{At: 45 * ms, Kind: pulse.Controls, Frame: moved},
	}, got)
}

func TestStampsNeverRunBackwards(t *testing.T) {
	d := &list{info: deskInfo(), states: []input.Raw{
		{At: -50 * ms}, {At: 30 * ms, Axes: [input.MaxAxes]int32{1}}, {At: 20 * ms, Axes: [input.MaxAxes]int32{2000}}}}
	got, err := open(t, radio.Config{Device: d}).Poll(nil, 100*ms)
	require.NoError(t, err)
	var at []int64
	for _, r := range got {
		at = append(at, r.At)
	}
	require.Equal(t, []int64{0, 0, 30 * ms, 30 * ms}, at)
}

// A state that somebody else has read already is where the controls stand.
func TestFirst(t *testing.T) {
	d := hands().Open(0)
	states, err := d.Poll(nil)
	require.NoError(t, err)
	s := open(t, radio.Config{Device: d, First: &states[0]})
	got, err := s.Poll(nil, 0)
	require.NoError(t, err)
	require.Len(t, got, 2)
	require.Equal(t, pulse.Controls, got[1].Kind)
}

func TestVanishWithoutReopen(t *testing.T) {
	r := hands()
	r.Vanish(1000 * ms)
	d := r.OpenSlow(0)
	s := open(t, radio.Config{Device: d})
	d.Pass(1500 * ms)
	got, err := s.Poll(nil, 999*ms)
	require.NoError(t, err, "what is stamped later waits, and the end with it")
	require.NotEmpty(t, got)
	got, err = s.Poll(nil, 1500*ms)
	require.ErrorIs(t, err, input.ErrGone)
	require.Equal(t, []pulse.Reading{{At: 1000 * ms, Kind: pulse.Plug, Value: 0}}, got, "by the device's own time")
	require.Equal(t, 1, d.Closed())
	require.NoError(t, s.Close())
	require.Equal(t, 1, d.Closed())
}

func TestUnplugAndPlugAgain(t *testing.T) {
	r := hands()
	r.Vanish(3500 * ms) // the arm button is pressed by then
	r.Press(3800*ms, 4, false)
	d := r.OpenSlow(0)
	asked, there := 0, false
	var again *inputtest.Device
	s := open(t, radio.Config{Device: d, Reopen: func() (input.Device, error) {
		if asked++; !there {
			return nil, nil
		}
		again = r.OpenSlow(4600 * ms)
		return again, nil
	}})
	var got []pulse.Reading
	var err error
	play := func(from, to int64) {
		t.Helper()
		for at := from; at <= to; at += 10 * ms {
			d.Pass(at)
			if again != nil {
				again.Pass(at)
			}
			got, err = s.Poll(got, at)
			require.NoError(t, err)
		}
	}
	play(0, 3500*ms)
	require.Equal(t, pulse.Reading{At: 3500 * ms, Kind: pulse.Plug, Value: 0}, got[len(got)-1])
	require.ErrorIs(t, s.Trouble(), input.ErrGone)
	require.Nil(t, s.Device())
	before := len(got)
	play(3510*ms, 4590*ms)
	require.Equal(t, 2, asked, "asked every 500 ms")
	require.Len(t, got, before)

	there = true
	s.Arrived()
	select {
	case <-s.Wake():
	default:
		t.Fatal("Arrived must wake")
	}
	play(4600*ms, 4600*ms)
	require.Equal(t, 3, asked, "and at once when told")
	require.Equal(t, pulse.Reading{At: 4600 * ms, Kind: pulse.Plug, Value: 1}, got[before])
	fresh := got[before+1]
	require.Equal(t, int64(4600*ms), fresh.At)
	require.Equal(t, pulse.Controls, fresh.Kind)
	require.Equal(t, pulse.Low, fresh.Frame[4], "the fresh state: the button was let go meanwhile")
	require.NoError(t, s.Trouble())
	play(4610*ms, 9000*ms)
	require.Equal(t, input.Device(again), s.Device())
	require.NoError(t, s.Close())
	require.Equal(t, 1, again.Closed())
	require.NoError(t, s.Close())
	require.Equal(t, 1, again.Closed())
}

func TestStartWithoutARadio(t *testing.T) {
	var d input.Device
	var fail error
	s := open(t, radio.Config{Reopen: func() (input.Device, error) { return d, fail }})
	got, err := s.Poll(nil, 0)
	require.NoError(t, err)
	require.Equal(t, []pulse.Reading{{Kind: pulse.Plug, Value: 0}}, got)

	fail = errors.New("no right to open it")
	got, err = s.Poll(nil, 500*ms)
	require.NoError(t, err)
	require.Empty(t, got)
	require.ErrorIs(t, s.Trouble(), fail)

	small := deskInfo()
	small.Axes = small.Axes[:2]
	wrong := inputtest.NewRadio(small).Open(0)
	d, fail = wrong, nil
	got, err = s.Poll(nil, 1000*ms)
	require.NoError(t, err)
	require.Empty(t, got, "a radio that does not fit the file is left alone")
	require.ErrorContains(t, s.Trouble(), "this radio has 2 axes")
	require.Equal(t, 1, wrong.Closed())

	d = hands().Open(1400 * ms)
	got, err = s.Poll(nil, 1500*ms)
	require.NoError(t, err)
	require.Equal(t, pulse.Reading{At: 1400 * ms, Kind: pulse.Plug, Value: 1}, got[0])
	require.Equal(t, pulse.Controls, got[1].Kind)

	_, err = radio.NewSource(radio.Config{File: deskFile(), Names: names()})
	require.Error(t, err)
	_, err = radio.NewSource(radio.Config{File: deskFile(), Names: names(), Device: inputtest.NewRadio(small).Open(0)})
	require.ErrorContains(t, err, "axis 3 of throttle: this radio has 2 axes")
}

// A device that fails in some other way is a lost radio too; without a time of its own it was lost now.
func TestOtherFailure(t *testing.T) {
	d := &list{info: deskInfo(), states: []input.Raw{{At: 1 * ms}}, err: errors.New("read: input/output error")}
	s := open(t, radio.Config{Device: d})
	got, err := s.Poll(nil, 70*ms)
	require.ErrorIs(t, err, d.err)
	require.Equal(t, pulse.Reading{At: 70 * ms, Kind: pulse.Plug, Value: 0}, got[len(got)-1])
}

// list is a device that says what it is told to and then fails.
type list struct {
	info   input.Info
	states []input.Raw
	err    error
}

func (l *list) Info() input.Info      { return l.info }
func (l *list) Wake() <-chan struct{} { return nil }
func (l *list) Close() error          { return nil }
func (l *list) Poll(dst []input.Raw) ([]input.Raw, error) {
	dst = append(dst, l.states...)
	l.states = nil
	return dst, l.err
}

func BenchmarkPoll(b *testing.B) {
	r := hands()
	states := r.States(0)
	d := &list{info: deskInfo()}
	s, err := radio.NewSource(radio.Config{Device: d, File: deskFile(), Names: names()})
	if err != nil {
		b.Fatal(err)
	}
	one := make([]input.Raw, 1)
	var dst []pulse.Reading
	b.ReportAllocs()
	for i := int64(0); b.Loop(); i++ {
		one[0] = states[int(i)%len(states)]
		one[0].At = i * ms
		d.states = one
		dst, _ = s.Poll(dst[:0], i*ms)
	}
}
