package learn_test

import (
	"testing"

	"propsoff.example/input"
	"propsoff.example/input/inputtest"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
)

const ms = int64(1000)

// desk is a radio with its sticks on axes 1 to 4 (throttle on 3), four more axes and twenty buttons, and a hand with a
// clock of its own.
type desk struct {
	*inputtest.Radio
	t       testing.TB
	info    input.Info
	options learn.Options
	file    *radio.File // one that is tried
	now     int64
	acts    []act // what is done on the screen meanwhile
	l       *learn.Learner
	noticed []learn.Notice
}

// act is something done on the screen at a time.
type act struct {
	at int64
	do func(l *learn.Learner)
}

func deskInfo() input.Info {
	info := input.Info{Name: "Desk", Buttons: 20}
	for i := range 8 {
		info.Axes = append(info.Axes, input.Axis{Code: i, Min: 0, Max: 1000})
	}
	return info
}

func newDesk(t testing.TB) *desk { return deskOf(t, deskInfo(), learn.Options{}) }

func deskOf(t testing.TB, info input.Info, o learn.Options) *desk {
	d := &desk{Radio: inputtest.NewRadio(info), t: t, info: info, options: o, now: 500 * ms}
	for i := 4; i < 8; i++ {
		d.Rest(i, info.Axes[i].Min)
	}
	d.Rest(2, info.Axes[2].Min)
	d.wait(500 * ms)
	return d
}

func (d *desk) wait(us int64) { d.now += us }

func (d *desk) do(f func(l *learn.Learner)) { d.acts = append(d.acts, act{d.now, f}) }

func (d *desk) skip()   { d.do((*learn.Learner).Skip); d.wait(400 * ms) }
func (d *desk) enough() { d.do((*learn.Learner).Enough); d.wait(400 * ms) }

// noMore ends the question for further controls, and says which hand carries what.
func (d *desk) noMore() {
	d.enough()
	d.do(func(l *learn.Learner) { l.SetStickMode(2) })
	d.wait(400 * ms)
}

func (d *desk) back() { d.do((*learn.Learner).Back); d.wait(400 * ms) }

// to brings an axis to a share of its range, in tenths of a percent.
func (d *desk) to(axis int, share int64, over int64) {
	a := d.info.Axes[axis]
	d.Move(d.now, over, axis, int32(int64(a.Min)+(int64(a.Max)-int64(a.Min))*share/1000))
	d.now += over
}

// press presses a button for good, or lets it go.
func (d *desk) press(button int, on bool) { d.Press(d.now, button, on) }

// stick answers a stick's question: to its high end, its low end, and let go.
func (d *desk) stick(axis int, high, low, rest int64) {
	d.to(axis, high, 100*ms)
	d.wait(400 * ms)
	d.to(axis, low, 150*ms)
	d.wait(400 * ms)
	if rest != low {
		d.to(axis, rest, 60*ms)
	}
	d.wait(1100 * ms)
}

func (d *desk) throttle() { d.stick(2, 1000, 0, 0); d.wait(350 * ms) }

// sprung answers the question about a stick that springs back: pitch is on axis 2, yaw on axis 4, roll on axis 1.
func (d *desk) sprung(axis int) { d.stick(axis, 1000, 0, 500) }

func (d *desk) pitch() { d.sprung(1) }

// sticks answers the four stick questions.
func (d *desk) sticks() {
	for _, axis := range []int{1, 3, 0} {
		d.sprung(axis)
	}
	d.throttle()
}

// flip leads an axis through places, with a moment in each.
func (d *desk) flip(axis int, shares ...int64) {
	for _, s := range shares {
		d.to(axis, s, 20*ms)
		d.wait(350 * ms)
	}
	d.wait(1700 * ms)
}

// corner holds both sticks in the corner and lets them go.
func (d *desk) corner() {
	for _, axis := range []int{0, 1, 2, 3} {
		d.Move(d.now, 100*ms, axis, d.info.Axes[axis].Max)
	}
	d.wait(800 * ms)
	for _, axis := range []int{0, 1, 3} {
		a := d.info.Axes[axis]
		d.Move(d.now, 60*ms, axis, int32((int64(a.Min)+int64(a.Max))/2))
	}
	d.Move(d.now, 200*ms, 2, d.info.Axes[2].Min)
	d.wait(1000 * ms)
}

// nudge moves an axis away and back.
func (d *desk) nudge(axis int, to, back int64) {
	d.to(axis, to, 60*ms)
	d.wait(250 * ms)
	d.to(axis, back, 60*ms)
	d.wait(600 * ms)
}

// replaySticks replays the four stick directions.
func (d *desk) replaySticks() {
	d.nudge(2, 1000, 0)
	for _, axis := range []int{0, 1, 3} {
		d.nudge(axis, 1000, 500)
	}
}

// play feeds everything so far, with a tick each 10 ms, and what is done on the screen at its time.
func (d *desk) play() learn.View {
	d.Until(d.now)
	d.l, d.noticed = learn.New(d.info, d.options), nil
	if d.file != nil {
		d.l = learn.Try(d.info, *d.file)
	}
	next, acts := int64(0), d.acts
	see := func(until int64) {
		for ; next <= until; next += 10 * ms {
			for len(acts) > 0 && acts[0].at <= next {
				acts[0].do(d.l)
				acts = acts[1:]
				d.see()
			}
			d.l.Tick(next)
			d.see()
		}
	}
	for _, raw := range d.States(0) {
		if raw.At > d.now {
			break
		}
		see(raw.At - 1)
		d.l.Feed(raw)
		d.see()
	}
	see(d.now)
	return d.l.View()
}

func (d *desk) see() {
	n := d.l.View().Notice
	if n.Code != learn.Nothing && (len(d.noticed) == 0 || d.noticed[len(d.noticed)-1] != n) {
		d.noticed = append(d.noticed, n)
	}
}
