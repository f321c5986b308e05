package check

import (
	"github.com/stretchr/testify/require"

	"propsoff.example/input"
	"propsoff.example/input/inputtest"
	"propsoff.example/input/radio"
)

// A desk is a radio with scripted hands: 4 sticks (axes 1 to 4: throttle, roll, pitch, yaw), a two-position switch on axis 5, a
// three-position one on axis 6, a knob on axis 7, a row of three on buttons 1 and 2, and a momentary button 3.
type desk struct {
	t     require.TestingT
	info  input.Info
	file  radio.File
	r     *inputtest.Radio
	at    int64 // µs: how far the hands are written
	most  int32 // the axes' highest value; the lowest is 0
	bend  func(*input.Raw)
	rest  [4]int64 // of the sticks, in thousandths of the range
	wants Wants
}

var names = input.Names{Channel: map[string]int{"throttle": 0, "roll": 1, "pitch": 2, "yaw": 3, "arm": 4, "mode": 5}}

func newDesk(t require.TestingT, most int32) *desk {
	d := &desk{t: t, most: most, rest: [4]int64{0, 500, 500, 500}}
	d.info = input.Info{Name: "Moorland Desk", Buttons: 4, Way: "event"}
	for i := range 8 {
		d.info.Axes = append(d.info.Axes, input.Axis{Code: i, Max: most})
	}
	s := radio.Own(d.info.Axes[0])
	mid := most / 2
	at := func(v ...int32) (p []radio.Position) {
		for _, v := range v {
			p = append(p, radio.Position{At: radio.Halves(v)})
		}
		return p
	}
	d.file = radio.File{Device: radio.DeviceOf(d.info), StickMode: 2, Controls: []radio.Control{
		{Job: "throttle", Form: radio.Axis, Axis: 0, Scale: &s, Stays: true},
		{Job: "roll", Form: radio.Axis, Axis: 1, Scale: &s},
		{Job: "pitch", Form: radio.Axis, Axis: 2, Scale: &s},
		{Job: "yaw", Form: radio.Axis, Axis: 3, Scale: &s},
		{Job: "arm", Form: radio.Axis, Axis: 4, Scale: &s, Positions: at(0, most)},
		{Job: "mode", Form: radio.Axis, Axis: 5, Scale: &s, Positions: at(0, mid, most)},
		{Job: "channel 7", Form: radio.Axis, Axis: 6, Scale: &s, Stays: true},
		{Job: "channel 8", Form: radio.Row, Buttons: []int{0, radio.None, 1}},
		{Job: "channel 9", Form: radio.Button, Buttons: []int{2}, Momentary: true},
	}}
	d.r = inputtest.NewRadio(d.info)
	for _, a := range []int{0, 4, 5, 6} {
		d.r.Rest(a, 0)
	}
	d.r.Press(0, 0, true)
	return d
}

func (d *desk) wait(us int64) *desk { d.at += us; return d }

// go1 moves an axis to a share of its range, in thousandths, within us.
func (d *desk) go1(axis int, share int64, us int64) *desk {
	d.r.Move(d.at, us, axis, int32(int64(d.most)*share/1000))
	d.at += us
	return d
}

// corners holds both sticks in their top right corners; the sticks of axes in low go the other way.
func (d *desk) corners(hold int64, low ...int) *desk {
	at := d.at
	for a := range 4 {
		share := int64(1000)
		for _, l := range low {
			if l == a {
				share = 0
			}
		}
		d.at = at
		d.go1(a, share, 300_000)
	}
	d.wait(hold)
	at = d.at
	for a := range 4 {
		d.at = at
		d.go1(a, d.rest[a], 200_000)
	}
	return d.wait(200_000)
}

// sweep takes a stick with a spring from end to end, twice through its middle, and lets it go; a throttle it takes up and down.
func (d *desk) sweep(axis int) *desk {
	if axis == 0 {
		return d.go1(0, 1000, 400_000).wait(700_000).go1(0, 0, 400_000).wait(700_000)
	}
	return d.go1(axis, 1000, 300_000).wait(600_000).go1(axis, 0, 600_000).wait(600_000).go1(axis, 1000, 600_000).go1(axis, d.rest[axis], 200_000).wait(100_000)
}

func (d *desk) press(button int, down bool) *desk {
	d.r.Press(d.at, button, down)
	return d.wait(400_000)
}

// switches takes everything else through its positions.
func (d *desk) switches() *desk {
	d.go1(4, 1000, 4000).wait(400_000).go1(4, 0, 4000).wait(400_000)
	d.go1(5, 500, 4000).wait(400_000).go1(5, 1000, 4000).wait(400_000).go1(5, 0, 8000).wait(400_000)
	d.go1(6, 1000, 800_000).wait(100_000).go1(6, 0, 800_000).wait(100_000)
	d.r.Press(d.at, 0, false)
	d.wait(400_000)
	d.press(1, true).press(1, false).press(0, true)
	return d.press(2, true).press(2, false)
}

// all does everything that is asked for, in the order in which it is.
func (d *desk) all(low ...int) *desk {
	hold := int64(600_000)
	if len(low) > 0 {
		hold = 2500_000
	}
	for a, rest := range d.rest {
		d.r.Rest(a, int32(int64(d.most)*rest/1000))
	}
	d.wait(500_000).corners(hold, low...)
	for _, a := range []int{0, 3, 2, 1} {
		d.sweep(a)
	}
	return d.switches().wait(4500_000)
}

// checker makes the Checker of the desk.
func (d *desk) checker() *Checker {
	c, err := New(Config{Info: d.info, File: d.file, Names: names, Wants: d.wants})
	require.NoError(d.t, err)
	return c
}

// run feeds everything that the radio said, with a tick every 20 ms, and calls look after each tick.
func (d *desk) run(look func(c *Checker, now int64)) *Checker {
	c := d.checker()
	d.r.Until(d.at)
	states := d.r.States(0)
	next := int64(0)
	tick := func(until int64) {
		for ; next <= until; next += 20_000 {
			c.Tick(next)
			if look != nil {
				look(c, next)
			}
		}
	}
	var last *input.Raw
	for i := range states {
		now := &states[i]
		if d.bend != nil {
			d.bend(now)
		}
		tick(now.At - 1)
		if last == nil || now.Resync || now.Axes != last.Axes || now.Buttons != last.Buttons {
			c.Feed(now)
		}
		last = now
	}
	tick(d.at)
	return c
}

func view(c *Checker) *View {
	v := new(View)
	c.View(v)
	return v
}

// item finds what was said of a job; "" is the radio as a whole.
func item(t require.TestingT, v *View, job string, k Kind) Item {
	for _, it := range v.Items {
		if it.Kind == k && (it.Control < 0 && job == "" || it.Control >= 0 && v.Controls[it.Control].Job == job) {
			return it
		}
	}
	require.Failf(t, "no such item", "%s %s", job, k.Code())
	return Item{}
}

// others are the items that do not pass, besides those of a kind for a job.
func others(v *View, job string, but ...Kind) (out []string) {
	for _, it := range v.Items {
		name := ""
		if it.Control >= 0 {
			name = v.Controls[it.Control].Job
		}
		mine := false
		for _, k := range but {
			mine = mine || it.Kind == k && name == job
		}
		if it.Verdict != Passes && !mine {
			out = append(out, name+" "+it.Kind.Code()+" "+it.Verdict.Code())
		}
	}
	return out
}
