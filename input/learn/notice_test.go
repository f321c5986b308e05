package learn_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"propsoff/input/learn"
	"propsoff/input/radio"
)

// said is a notice about what is set in it.
func said(code learn.Code, set func(n *learn.Notice)) learn.Notice {
	n := learn.Notice{Code: code, Axis: -1, Button: -1, OtherAxis: -1, OtherButton: -1}
	set(&n)
	return n
}

// What a hand does wrong is called out with its numbers, and the question stays open.
func TestNotices(t *testing.T) {
	sticks := func(d *desk) { d.sticks() }
	sticksAndArm := func(d *desk) { d.sticks(); d.press(3, true); d.wait(2000 * ms) }
	for name, c := range map[string]struct {
		before func(d *desk)
		hand   func(d *desk)
		want   learn.Notice
		open   learn.Question
		phase  learn.Phase
	}{
		"the stick before": {(*desk).throttle, func(d *desk) { d.to(2, 1000, 100*ms); d.wait(600 * ms) },
			said(learn.Taken, func(n *learn.Notice) { n.Job, n.Axis = "throttle", 2 }), learn.Yaw, learn.Moving},
		"too little": {(*desk).throttle, func(d *desk) { d.to(0, 750, 100*ms); d.wait(900 * ms) },
			said(learn.TooLittle, func(n *learn.Notice) { n.Axis, n.Share = 0, 250 }), learn.Yaw, learn.Moving},
		"not at the end": {nil, func(d *desk) { d.to(2, 620, 100*ms); d.wait(900 * ms) },
			said(learn.NotAtEnd, func(n *learn.Notice) { n.Axis, n.Share = 2, 620 }), learn.Throttle, learn.Holding},
		"not at the low end": {nil, func(d *desk) { d.to(2, 1000, 100*ms); d.wait(500 * ms); d.to(2, 370, 100*ms); d.wait(900 * ms) },
			said(learn.NotAtEnd, func(n *learn.Notice) { n.Axis, n.Share = 2, 370 }), learn.Throttle, learn.Holding},
		"two sticks": {(*desk).throttle, func(d *desk) { d.Move(d.now, 100*ms, 0, 1000); d.to(1, 800, 100*ms); d.wait(900 * ms) },
			said(learn.Two, func(n *learn.Notice) { n.Axis, n.OtherAxis = 0, 1 }), learn.Yaw, learn.Returning},
		"two sticks, one of them known": {(*desk).throttle, func(d *desk) { d.Move(d.now, 100*ms, 2, 1000); d.to(3, 1000, 100*ms); d.wait(900 * ms) },
			said(learn.Two, func(n *learn.Notice) { n.Axis, n.OtherAxis, n.OtherJob = 3, 2, "throttle" }), learn.Yaw, learn.Returning},
		"another stick for the low end": {(*desk).throttle, func(d *desk) {
			d.to(3, 1000, 100*ms)
			d.wait(500 * ms)
			d.to(3, 500, 100*ms)
			d.to(1, 0, 100*ms)
			d.wait(500 * ms)
		}, said(learn.Two, func(n *learn.Notice) { n.Axis, n.OtherAxis = 3, 1 }), learn.Yaw, learn.Moving},
		"a button for a stick": {(*desk).throttle, func(d *desk) { d.press(3, true); d.wait(500 * ms) },
			said(learn.WantStick, func(n *learn.Notice) { n.Button = 3 }), learn.Yaw, learn.Moving},
		"a throttle that springs back": {nil, func(d *desk) { d.stick(2, 1000, 0, 480) },
			said(learn.Springs, func(n *learn.Notice) { n.Axis, n.Share, n.Job = 2, 480, "throttle" }), learn.Throttle, learn.Deciding},
		"a throttle that is held down and springs back later": {(*desk).throttle, func(d *desk) { d.to(2, 480, 60*ms); d.wait(1200 * ms) },
			said(learn.Springs, func(n *learn.Notice) { n.Axis, n.Share, n.Job = 2, 480, "throttle" }), learn.Throttle, learn.Deciding},
		"a stick that does not spring": {(*desk).throttle, func(d *desk) { d.stick(3, 1000, 20, 20); d.wait(2500 * ms) },
			said(learn.NoSpring, func(n *learn.Notice) { n.Axis, n.Share, n.Job = 3, 20, "yaw" }), learn.Yaw, learn.Deciding},
		"a hand that never rests": {func(d *desk) { d.to(2, 1000, 100*ms); d.wait(400 * ms); d.to(2, 0, 100*ms); d.wait(900 * ms) }, func(d *desk) {
			for i := range int64(40) {
				d.to(0, 900-400*(i%2), 140*ms)
			}
		}, said(learn.StillMoving, func(n *learn.Notice) { n.Axis, n.Share = 0, 400 }), learn.Yaw, learn.Settling},
		"readings lost": {(*desk).throttle, func(d *desk) { d.Lose(d.now, d.now+30*ms); d.wait(200 * ms) },
			said(learn.Lost, func(n *learn.Notice) {}), learn.Yaw, learn.Settling},
		"two switches": {sticks, func(d *desk) { d.press(3, true); d.wait(100 * ms); d.to(4, 1000, 20*ms); d.wait(400 * ms) },
			said(learn.Two, func(n *learn.Notice) { n.Axis, n.OtherButton = 4, 3 }), learn.Arm, learn.Returning},
		"two buttons": {sticks, func(d *desk) { d.press(3, true); d.wait(50 * ms); d.press(6, true); d.wait(400 * ms) },
			said(learn.Two, func(n *learn.Notice) { n.Button, n.OtherButton = 3, 6 }), learn.Arm, learn.Returning},
		"a button too quickly": {sticks, func(d *desk) { d.press(3, true); d.wait(60 * ms); d.press(3, false); d.wait(400 * ms) },
			said(learn.TooQuick, func(n *learn.Notice) { n.Button = 3 }), learn.Arm, learn.Moving},
		"a stick for the arm control": {sticks, func(d *desk) { d.to(1, 0, 50*ms); d.wait(500 * ms) },
			said(learn.Taken, func(n *learn.Notice) { n.Job, n.Axis = "pitch", 1 }), learn.Arm, learn.Moving},
		"half way to on": {sticks, func(d *desk) { d.to(4, 500, 20*ms); d.wait(900 * ms) },
			said(learn.NotAtEnd, func(n *learn.Notice) { n.Axis, n.Share = 4, 500 }), learn.Arm, learn.Holding},
		"hardly to on": {sticks, func(d *desk) { d.to(4, 180, 20*ms); d.wait(900 * ms) },
			said(learn.TooLittle, func(n *learn.Notice) { n.Axis, n.Share = 4, 180 }), learn.Arm, learn.Holding},
		// It was left on; off is where it was found, and on again is a movement.
		"the arm button for the mode": {sticksAndArm, func(d *desk) { d.press(3, false); d.wait(700 * ms); d.press(3, true); d.wait(250 * ms) },
			said(learn.Taken, func(n *learn.Notice) { n.Job, n.Button = "arm", 3 }), learn.Mode, learn.Moving},
		"the arm axis for the mode": {func(d *desk) { d.sticks(); d.flip(4, 1000) }, func(d *desk) { d.to(4, 0, 20*ms); d.wait(500 * ms); d.to(4, 1000, 20*ms); d.wait(250 * ms) },
			said(learn.Taken, func(n *learn.Notice) { n.Job, n.Axis = "arm", 4 }), learn.Mode, learn.Moving},
		"mode from the middle": {func(d *desk) { d.Rest(5, 500); sticksAndArm(d) }, func(d *desk) { d.flip(5, 1000) },
			said(learn.StartFirst, func(n *learn.Notice) { n.Axis = 5 }), learn.Mode, learn.Holding},
		"positions out of order": {func(d *desk) { d.Press(0, 8, true); sticksAndArm(d) }, func(d *desk) {
			for i, b := range []int{9, 8, 10, 11} { // 8, 9, 8, 10, 11: no line of places gives that path from an end
				d.press([]int{8, 9, 8, 10}[i], false)
				d.press(b, true)
				d.wait(300 * ms)
			}
			d.wait(1250 * ms)
		}, said(learn.StartFirst, func(n *learn.Notice) { n.Button = 8 }), learn.Mode, learn.Moving},
		"one more switch than channels": {func(d *desk) { d.sticks(); d.skip(); d.skip() }, func(d *desk) { d.flip(5, 1000) },
			said(learn.NoChannel, func(n *learn.Notice) { n.Axis = 5 }), learn.More, learn.Moving},
		"a stick turned round": {func(d *desk) {
			d.throttle()
			d.stick(3, 0, 1000, 500) // yaw to the left first
			d.stick(1, 1000, 0, 500)
			d.stick(0, 1000, 0, 500)
			d.skip()
			d.skip()
			d.enough()
		}, (*desk).intoCorner, said(learn.TurnedRound, func(n *learn.Notice) { n.Job, n.Axis = "yaw", 3 }), learn.TopRight, learn.Moving},
		"a stick that does not get there": {func(d *desk) { d.sticks(); d.skip(); d.skip(); d.enough() }, func(d *desk) {
			for axis, share := range []int64{1000, 1000, 1000, 850} {
				d.Move(d.now, 100*ms, axis, int32(share))
			}
			d.wait(900 * ms)
		}, said(learn.NotThere, func(n *learn.Notice) { n.Job, n.Axis, n.Share = "yaw", 3, 850 }), learn.TopRight, learn.Moving},
	} {
		t.Run(name, func(t *testing.T) {
			d := newDesk(t)
			if c.before != nil {
				c.before(d)
			}
			d.play()
			require.Empty(t, d.noticed, "before the slip")
			c.hand(d)
			v := d.play()
			require.Contains(t, d.noticed, c.want)
			require.Equal(t, c.open, v.Question)
			require.Equal(t, c.phase, v.Phase)
		})
	}
}

func (d *desk) intoCorner() {
	for axis := range 4 {
		d.Move(d.now, 100*ms, axis, d.info.Axes[axis].Max)
	}
	d.wait(900 * ms)
}

// After each wrong movement the right one is taken.
func TestAfterTheSlip(t *testing.T) {
	d := newDesk(t)
	d.Move(d.now, 100*ms, 2, 1000)
	d.to(6, 1000, 100*ms)
	d.wait(500 * ms)
	d.to(6, 0, 100*ms)
	d.wait(500 * ms)
	require.Equal(t, learn.Returning, d.play().Phase, "one went back and one is still up")
	d.to(2, 0, 100*ms)
	d.wait(500 * ms)
	d.throttle()
	d.to(2, 1000, 100*ms) // the wrong one
	d.wait(600 * ms)
	d.to(2, 0, 100*ms)
	d.wait(600 * ms)
	d.stick(3, 1000, 0, 500)
	v := d.play()
	require.Equal(t, learn.Pitch, v.Question)
	require.Equal(t, 2, v.Answers[0].Axis)
	require.Equal(t, 3, v.Answers[1].Axis)
}

// A throttle that springs back is accepted by going on, and asked again by going back.
func TestSpringingThrottle(t *testing.T) {
	d := newDesk(t)
	d.stick(2, 1000, 0, 480)
	require.Equal(t, learn.AcceptIt, d.play().Enough)
	d.enough()
	v := d.play()
	require.Equal(t, learn.Yaw, v.Question)
	require.False(t, v.Answers[0].Stays)
	require.Equal(t, int32(480), v.Answers[0].Reach.Rest)

	d = newDesk(t)
	d.stick(2, 1000, 0, 480)
	d.back()
	require.Equal(t, learn.HighEnd, d.play().Step)

	// What was only let go too early is put right by holding it down.
	d = newDesk(t)
	d.stick(2, 1000, 0, 200)
	require.Equal(t, learn.Deciding, d.play().Phase)
	d.to(2, 0, 100*ms)
	d.wait(1300 * ms)
	v = d.play()
	require.Equal(t, learn.Yaw, v.Question)
	require.True(t, v.Answers[0].Stays)
	require.Equal(t, learn.Nothing, v.Notice.Code)
}

// A stick without a spring, and one that goes only a part of its way, are taken as they are by Enough.
func TestTakenAsItIs(t *testing.T) {
	d := newDesk(t)
	d.throttle()
	d.to(3, 700, 100*ms)
	d.wait(500 * ms)
	require.Equal(t, learn.TakeIt, d.play().Enough)
	d.enough()
	d.to(3, 310, 100*ms)
	d.wait(500 * ms)
	require.Equal(t, learn.TakeIt, d.play().Enough)
	d.enough()
	d.wait(3000 * ms)
	require.Equal(t, learn.NoSpring, d.play().Notice.Code)
	d.enough()
	v := d.play()
	require.Equal(t, learn.Pitch, v.Question)
	c := v.Answers[1]
	require.True(t, c.Stays)
	require.Equal(t, &radio.Reach{Low: 310, Rest: 310, High: 700}, c.Reach)
}

// A stick that was held before its question began, and let go, is no movement; its next push is.
func TestHeldTooEarly(t *testing.T) {
	d := newDesk(t)
	d.to(2, 1000, 100*ms)
	d.wait(400 * ms)
	d.to(2, 0, 100*ms)
	d.wait(1150 * ms)
	d.to(3, 1000, 20*ms) // before all was still
	d.wait(1000 * ms)
	d.to(3, 500, 50*ms)
	d.wait(1000 * ms)
	require.Equal(t, learn.Yaw, d.play().Question)
	d.stick(3, 1000, 0, 500)
	v := d.play()
	require.Equal(t, learn.Pitch, v.Question)
	own := radio.Own(d.info.Axes[3])
	require.Equal(t, &own, v.Answers[1].Scale)
}

// A jump of one report is neither a movement nor a reach.
func TestJump(t *testing.T) {
	d := newDesk(t)
	d.Spike(d.now+50*ms, 0, 0)
	d.wait(400 * ms)
	d.stick(2, 900, 0, 0)
	d.Spike(d.now-200*ms, 2, 1000)
	d.wait(400 * ms)
	d.stick(3, 1000, 0, 500)
	v := d.play()
	require.Empty(t, d.noticed)
	require.Equal(t, &radio.Reach{Low: 0, Rest: 0, High: 900}, v.Answers[0].Reach)
}
