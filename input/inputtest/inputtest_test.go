package inputtest

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"propsoff.example/input"
	"propsoff.example/sim/pulse"

	"github.com/stretchr/testify/require"
)

func fourAxes() input.Info {
	axes := make([]input.Axis, 4)
	for i := range axes {
		axes[i] = input.Axis{Code: i, Min: 0, Max: 2047}
	}
	return input.Info{Name: "Fake", Axes: axes, Buttons: 8}
}

func TestRadioPlaysWhatWasWritten(t *testing.T) {
	r := NewRadio(fourAxes())
	r.Rest(2, 0)
	r.Move(10_000, 100_000, 2, 1000)
	r.Press(50_000, 3, true)
	r.Press(60_000, 3, false)
	got := r.States(0)
	require.Equal(t, int64(0), got[0].At)
	require.Equal(t, [4]int32{1023, 1023, 0, 1023}, [4]int32(got[0].Axes[:4]))
	for i := 1; i < len(got); i++ {
		require.Greater(t, got[i].At, got[i-1].At)
		require.True(t, got[i].Axes != got[i-1].Axes || got[i].Buttons != got[i-1].Buttons, "a still hand sends nothing")
		require.Equal(t, int32(min(max((got[i].At-10_000)/100, 0), 1000)), got[i].Axes[2])
		require.Equal(t, got[i].At >= 50_000 && got[i].At < 60_000, got[i].Button(3))
	}
	require.Equal(t, int64(110_000), got[len(got)-1].At)
}

func TestRadioFaults(t *testing.T) {
	r := NewRadio(fourAxes())
	r.Noise(0, 5, 1)
	r.ShortTravel(1, 200, 1800)
	r.OffCentre(2, -40)
	r.Move(0, 0, 1, 0)
	r.Move(20_000, 0, 1, 2047)
	r.Spike(30_000, 3, 2047)
	r.Lose(40_000, 50_000)
	r.Vanish(100_000)
	r.Until(200_000)
	got := r.States(0)
	seen, resyncs, spikes := map[int32]bool{}, 0, 0
	for _, s := range got {
		seen[s.Axes[0]] = true
		require.InDelta(t, 1023, s.Axes[0], 5)
		require.Contains(t, []int32{200, 1800}, s.Axes[1])
		require.Equal(t, int32(983), s.Axes[2])
		require.False(t, s.At >= 40_000 && s.At < 50_000, "a lost report was given")
		require.Less(t, s.At, int64(100_000))
		if s.Resync {
			resyncs++
			require.Equal(t, int64(50_000), s.At)
		}
		if s.Axes[3] == 2047 {
			spikes++
			require.Equal(t, int64(30_000), s.At)
		}
	}
	require.Len(t, seen, 11, "every value of the noise comes up")
	require.Equal(t, 1, resyncs)
	require.Equal(t, 1, spikes)
	require.Equal(t, got, r.States(0), "the same seed gives the same noise")
}

func TestDevice(t *testing.T) {
	r := NewRadio(fourAxes())
	r.Move(10_000, 0, 0, 7)
	r.Move(30_000, 0, 0, 9)
	r.Vanish(20_000)
	d := r.OpenSlow(0)
	got, err := d.Poll(nil)
	require.NoError(t, err)
	require.Len(t, got, 1, "the first state is there at once")
	d.Pass(10_000)
	select {
	case <-d.Wake():
	default:
		t.Fatal("no wake")
	}
	got, err = d.Poll(nil)
	require.NoError(t, err)
	require.Len(t, got, 1)
	d.Pass(25_000)
	got, err = d.Poll(nil)
	require.ErrorIs(t, err, input.ErrGone)
	require.Empty(t, got)

	back := r.Open(25_000) // plugged in again
	got, err = back.Poll(nil)
	require.NoError(t, err)
	require.Equal(t, []int64{25_000, 30_000}, []int64{got[0].At, got[1].At})
	require.Equal(t, []int32{7, 9}, []int32{got[0].Axes[0], got[1].Axes[0]})
	require.NoError(t, back.Close())
	_, err = back.Poll(nil)
	require.ErrorIs(t, err, ErrClosed)

	// Opened long after everything has happened, it still tells its state.
	got, err = r.Open(10_000_000).Poll(nil)
	require.NoError(t, err)
	require.Len(t, got, 1)
	require.Equal(t, int32(9), got[0].Axes[0])
}

// play is a right source: it plays a list and ends.
type play struct {
	list   []pulse.Reading
	next   int
	closed bool
}

func (p *play) Name() string          { return "play" }
func (p *play) Wake() <-chan struct{} { return nil }
func (p *play) Close() error          { p.closed = true; return nil }
func (p *play) Poll(dst []pulse.Reading, until int64) ([]pulse.Reading, error) {
	if p.closed {
		return dst, input.ErrEnd
	}
	for p.next < len(p.list) && p.list[p.next].At <= until {
		dst = append(dst, p.list[p.next])
		p.next++
	}
	if p.next == len(p.list) {
		return dst, input.ErrEnd
	}
	return dst, nil
}

func list() []pulse.Reading {
	l := []pulse.Reading{{Kind: pulse.Plug, Value: 1}}
	for i := range 100 {
		l = append(l, pulse.Reading{At: int64(i) * 9_000, Kind: pulse.Controls, Frame: pulse.Frame{pulse.Micros(1000 + i)}})
	}
	return append(l, pulse.Reading{At: 950_000, Kind: pulse.Tilt, Value: 300})
}

// broken is a source with one thing wrong.
type broken struct {
	play
	name  string
	poll  func(p *play, dst []pulse.Reading, until int64) ([]pulse.Reading, error)
	close func(p *play) error
}

func (b *broken) Name() string {
	if b.name != "" {
		return strings.TrimSpace(b.name)
	}
	return b.play.Name()
}

func (b *broken) Poll(dst []pulse.Reading, until int64) ([]pulse.Reading, error) {
	if b.poll != nil {
		return b.poll(&b.play, dst, until)
	}
	return b.play.Poll(dst, until)
}

func (b *broken) Close() error {
	if b.close != nil {
		return b.close(&b.play)
	}
	return b.play.Close()
}

var garbage []byte

// Each thing that TestSource promises to find is found in a source that has it wrong.
func TestCheckSourceFindsFaults(t *testing.T) {
	want := Want{Until: 1_000_000, End: input.ErrEnd, NoAlloc: true}
	require.Empty(t, CheckSource(func() input.Source { return &play{list: list()} }, want), "a right source")

	old := patience
	defer func() { patience = old }()
	patience = 2 * time.Second
	type pollFunc = func(p *play, dst []pulse.Reading, until int64) ([]pulse.Reading, error)
	edit := func(f func(l []pulse.Reading)) func() *broken {
		return func() *broken {
			l := list()
			f(l)
			return &broken{play: play{list: l}}
		}
	}
	poll := func(f pollFunc) func() *broken {
		return func() *broken { return &broken{play: play{list: list()}, poll: f} }
	}
	for name, c := range map[string]struct {
		open func() *broken
		say  string
	}{
		"no name": {func() *broken { return &broken{play: play{list: list()}, name: " "} }, "has no name"},
		"out of order": {edit(func(l []pulse.Reading) { l[50].At = 1 }),
			"µs after one of"},
		"before the opening": {edit(func(l []pulse.Reading) { l[0].At = -5 }), "before the opening"},
		"unknown kind":       {edit(func(l []pulse.Reading) { l[0].Kind = 99 }), "which there is not"},
		"value out of range": {edit(func(l []pulse.Reading) { l[0].Value = 2 }), "outside 0..1"},
		"two in one":         {edit(func(l []pulse.Reading) { l[5].Value = 2 }), "a bench value too"},
		"frame in an input":  {edit(func(l []pulse.Reading) { l[0].Frame[3] = 2 }), "a frame too"},
		"nothing at all":     {func() *broken { return &broken{} }, "no reading at all"},
		"too early": {poll(func(p *play, dst []pulse.Reading, until int64) ([]pulse.Reading, error) {
			return p.Poll(dst, until+9_000)
		}), "yet to come"},
		"twice": {poll(func(p *play, dst []pulse.Reading, until int64) ([]pulse.Reading, error) {
			before := p.next
			dst, err := p.Poll(dst, until)
			if p.next > before {
				p.next-- // the last one again
				return dst, nil
			}
			return dst, err
		}), "readings more"},
		"by the number of polls": {func() *broken {
			n := 0
			b := &broken{play: play{list: list()}}
			b.poll = func(p *play, dst []pulse.Reading, until int64) ([]pulse.Reading, error) {
				n++
				dst, err := p.Poll(dst, until)
				if len(dst) > 0 && dst[len(dst)-1].Kind == pulse.Tilt {
					dst[len(dst)-1].Value = int32(min(n, 1800))
				}
				return dst, err
			}
			return b
		}, "other readings"},
		"drops dst": {poll(func(p *play, _ []pulse.Reading, until int64) ([]pulse.Reading, error) {
			return p.Poll(nil, until)
		}), "must append"},
		"no end": {poll(func(p *play, dst []pulse.Reading, until int64) ([]pulse.Reading, error) {
			if p.closed {
				return dst, input.ErrEnd
			}
			dst, _ = p.Poll(dst, until)
			return dst, nil
		}), "does not end"},
		"other end": {poll(func(p *play, dst []pulse.Reading, until int64) ([]pulse.Reading, error) {
			dst, err := p.Poll(dst, until)
			if err != nil {
				err = errors.New("oops")
			}
			return dst, err
		}), "ends with oops"},
		"end but once": {func() *broken {
			b := &broken{play: play{list: list()}}
			ended := false
			b.poll = func(p *play, dst []pulse.Reading, until int64) ([]pulse.Reading, error) {
				dst, err := p.Poll(dst, until)
				if ended && !p.closed {
					return dst, nil
				}
				ended = err != nil
				return dst, err
			}
			return b
		}, "and then says"},
		"allocates": {poll(func(p *play, dst []pulse.Reading, until int64) ([]pulse.Reading, error) {
			garbage = make([]byte, 64)
			return p.Poll(dst, until)
		}), "allocates"},
		"close once": {func() *broken {
			b := &broken{play: play{list: list()}}
			b.close = func(p *play) error {
				if p.closed {
					return errors.New("already")
				}
				return p.Close()
			}
			return b
		}, "second time"},
		"after close": {func() *broken {
			b := &broken{play: play{list: list()}}
			b.close = func(*play) error { return nil }
			return b
		}, "after Close"},
		"panics": {poll(func(*play, []pulse.Reading, int64) ([]pulse.Reading, error) { panic("ouch") }), "panics: ouch"},
		"blocks": {poll(func(*play, []pulse.Reading, int64) ([]pulse.Reading, error) {
			select {}
		}), "blocks"},
	} {
		t.Run(name, func(t *testing.T) {
			errs := CheckSource(func() input.Source { return c.open() }, want)
			require.True(t, slices.ContainsFunc(errs, func(e error) bool { return strings.Contains(e.Error(), c.say) }),
				"%q not among %v", c.say, errs)
		})
	}
	errs := CheckSource(func() input.Source { return &play{list: list()} }, Want{Until: 1_000_000})
	require.NotEmpty(t, errs, "an end that was not promised")
}
