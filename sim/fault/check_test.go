package fault_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/input"
	"propsoff.example/input/check"
	"propsoff.example/input/inputtest"
	"propsoff.example/input/radio"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/pulse"
)

// A desk is a radio in scripted hands that take every control to all its places: sticks on axes 0 to 3 (throttle, roll, pitch, yaw), a
// two-position arm switch on axis 4, a three-position mode switch on axis 5. One raw step is one eighth of a µs, from 860 to 2140.
type desk struct {
	r     *inputtest.Radio
	at    int64
	state fault.State
}

const steps = int32(2 * 640 * pulse.Eighths)

func raw(w pulse.Width) int32 { return int32(w - pulse.Lowest) }

func newDesk(rs ...pulse.Reading) *desk {
	d := &desk{}
	info := input.Info{Name: "Fell Desk", Way: "event"}
	for i := range 6 {
		info.Axes = append(info.Axes, input.Axis{Code: i, Max: steps})
	}
	d.r = inputtest.NewRadio(info)
	for a := range 6 {
		d.r.Rest(a, raw(pulse.Low))
	}
	for a := 1; a < 4; a++ {
		d.r.Rest(a, raw(pulse.Centre))
	}
	first := controls(d.frame(d.r.States(0)[0]))
	d.state.Take(&first, 0)
	for i := range rs {
		d.state.Take(&rs[i], 0)
	}
	return d
}

func (d *desk) frame(s input.Raw) (f pulse.Frame) {
	for a := range 6 {
		f[a] = pulse.Lowest + pulse.Width(s.Axes[a])
	}
	return f
}

func (d *desk) wait(us int64) *desk { d.at += us; return d }

func (d *desk) move(axis int, to pulse.Width, us int64) *desk {
	d.r.Move(d.at, us, axis, raw(to))
	d.at += us
	return d
}

// all holds the corners and takes every control to both ends and back.
func (d *desk) all() *desk {
	d.wait(500_000)
	together := func(to [4]pulse.Width) {
		at := d.at
		for a := range 4 {
			d.at = at
			d.move(a, to[a], 300_000)
		}
	}
	together([4]pulse.Width{pulse.High, pulse.High, pulse.High, pulse.High})
	d.wait(2_500_000)
	together([4]pulse.Width{pulse.Low, pulse.Centre, pulse.Centre, pulse.Centre})
	d.wait(200_000)
	d.move(0, pulse.High, 400_000).wait(2_200_000).move(0, pulse.Low, 400_000).wait(2_200_000)
	for _, a := range []int{3, 2, 1} {
		for range 2 {
			d.move(a, pulse.High, 300_000).wait(600_000).move(a, pulse.Low, 600_000).wait(600_000)
		}
		d.move(a, pulse.High, 600_000).move(a, pulse.Centre, 200_000).wait(100_000)
	}
	d.move(4, pulse.High, 4000).wait(400_000).move(4, pulse.Low, 4000).wait(400_000)
	d.move(5, pulse.Centre, 4000).wait(400_000).move(5, pulse.High, 4000).wait(400_000).move(5, pulse.Low, 8000).wait(400_000)
	return d.wait(4_500_000)
}

// look bends every state of the radio, at each millisecond, and checks what comes of it.
func (d *desk) look(t *testing.T) *check.View {
	t.Helper()
	d.all().r.Until(d.at)
	states := d.r.States(0)
	scale := func() *radio.Scale {
		s := radio.Scale{Low: radio.Halves(raw(pulse.Low)), Middle: radio.Halves(raw(pulse.Centre)), High: radio.Halves(raw(pulse.High))}
		return &s
	}
	at := func(w ...pulse.Width) (p []radio.Position) {
		for _, w := range w {
			p = append(p, radio.Position{At: radio.Halves(raw(w))})
		}
		return p
	}
	file := radio.File{StickMode: 2, Controls: []radio.Control{
		{Job: "throttle", Form: radio.Axis, Axis: 0, Scale: scale(), Stays: true}, {Job: "roll", Form: radio.Axis, Axis: 1, Scale: scale()},
		{Job: "pitch", Form: radio.Axis, Axis: 2, Scale: scale()}, {Job: "yaw", Form: radio.Axis, Axis: 3, Scale: scale()},
		{Job: "arm", Form: radio.Axis, Axis: 4, Scale: scale(), Positions: at(pulse.Low, pulse.High)},
		{Job: "mode", Form: radio.Axis, Axis: 5, Scale: scale(), Positions: at(pulse.Low, pulse.Centre, pulse.High)},
	}}
	names := input.Names{Channel: map[string]int{"throttle": 0, "roll": 1, "pitch": 2, "yaw": 3, "arm": 4, "mode": 5}}
	info := input.Info{Name: "Fell Desk", Way: "event"}
	for i := range 6 {
		info.Axes = append(info.Axes, input.Axis{Code: i, Max: steps})
	}
	file.Device = radio.DeviceOf(info)
	c, err := check.New(check.Config{Info: info, File: file, Names: names})
	require.NoError(t, err)
	var last input.Raw
	n := 0
	for ms := int64(0); ms*1000 <= d.at; ms++ {
		for ; n < len(states) && states[n].At <= ms*1000; n++ {
			r := controls(d.frame(states[n]))
			d.state.Take(&r, ms)
		}
		f, ok := d.state.Frame(ms)
		require.True(t, ok)
		now := input.Raw{At: ms * 1000}
		for a := range 6 {
			now.Axes[a] = min(max(raw(f[a]), 0), steps)
		}
		if ms == 0 || now.Axes != last.Axes {
			c.Feed(&now)
			last = now
		}
		c.Tick(ms * 1000)
	}
	v := new(check.View)
	c.View(v)
	return v
}

// found are the items that do not pass, as "job kind verdict".
func found(v *check.View) (out []string) {
	for _, it := range v.Items {
		name := "radio"
		if it.Control >= 0 {
			name = v.Controls[it.Control].Job
		}
		if it.Verdict != check.Passes {
			out = append(out, name+" "+it.Kind.Code()+" "+it.Verdict.Code())
		}
	}
	return out
}

// Each fault of the radio's controls is found by the controls check, at that control and nowhere else. What the check cannot
// know is left out: two swapped sticks both go everywhere, and a silent or ailing link has nothing to do with the radio's USB side.
func TestTheControlsCheckFindsFaults(t *testing.T) {
	line := func(job string, k check.Kind, v check.Verdict) string { return job + " " + k.Code() + " " + v.Code() }
	v := newDesk().look(t)
	require.Empty(t, found(v), "a healthy radio passes")
	require.True(t, v.Settled)

	for name, c := range map[string]struct {
		plant   pulse.Reading
		settles bool     // the check comes to its end; where a control never gets to some place, it waits for that
		must    []string // is found …
		may     []string // … and this may warn or fail with it
	}{
		"throttle ends at 1012": {plant(t, fault.ShortTravel, 1, 1012), true, []string{line("throttle", check.LowEnd, check.Fails)}, nil},
		"yaw ends at 1900":      {plant(t, fault.ShortTravel, 4, 1900), true, []string{line("yaw", check.HighEnd, check.Fails)}, nil},
		"pitch reversed":        {plant(t, fault.Reversed, 3, 0), true, []string{line("pitch", check.Direction, check.Fails)}, nil},
		"roll trembles": {plant(t, fault.Noisy, 2, 15), false, []string{line("roll", check.Noise, check.Fails)},
			[]string{line("roll", check.HighEnd, check.Warns), line("roll", check.LowEnd, check.Warns)}},
		"pitch off its centre": {plant(t, fault.OffCentre, 3, 60), true, []string{line("pitch", check.Centre, check.Fails)},
			[]string{line("pitch", check.LowEnd, check.Warns), line("pitch", check.HighEnd, check.Warns)}},
		"mode stuck":           {plant(t, fault.Stuck, 6, 0), false, []string{line("mode", check.Positions, check.Waiting)}, nil},
		"roll stuck":           {plant(t, fault.Stuck, 2, 0), false, []string{line("roll", check.LowEnd, check.Waiting), line("roll", check.HighEnd, check.Waiting)}, nil},
		"arm and mode swapped": {plant(t, fault.Swapped, 5, 6), false, []string{line("arm", check.Positions, check.Fails), line("mode", check.Positions, check.Waiting)}, nil},
		"throttle and yaw":     {plant(t, fault.Swapped, 1, 4), false, []string{line("yaw", check.Centre, check.Waiting)}, nil},
	} {
		t.Run(name, func(t *testing.T) {
			v := newDesk(c.plant).look(t)
			got := found(v)
			assert.Subset(t, got, c.must, "%v", got)
			assert.Equal(t, c.settles, v.Settled, "it asks for %s", v.Ask.Code())
			for _, g := range got {
				if !strings.HasSuffix(g, " "+check.Waiting.Code()) && !slices.Contains(c.must, g) {
					assert.Contains(t, c.may, g, "nothing else")
				}
			}
		})
	}
	assert.Empty(t, found(newDesk(plant(t, fault.Swapped, 2, 3)).look(t)), "roll and pitch swapped: only a hand that looks can tell")
	for _, r := range []pulse.Reading{plant(t, fault.RadioOff, 0, 0), plant(t, fault.CableIn, 0, 0), plant(t, fault.LowPack, 13000, 0), plant(t, fault.WrongPropeller, 1, 0), plant(t, fault.ModeGap, 100, 0), plant(t, fault.Receiver, 1, 0)} {
		assert.Empty(t, found(newDesk(r).look(t)))
	}
}
