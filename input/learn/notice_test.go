package learn_test

import (
	"testing"

	"propsoff.example/input/learn"
	"propsoff.example/input/radio"

	"github.com/stretchr/testify/require"
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
	untilThrottle := func(d *desk) { d.sprung(1); d.sprung(3); d.sprung(0) }
	sticksAndArm := func(d *desk) { d.sticks(); d.press(3, true); d.wait(2000 * ms) }
	for name, c := range map[string]struct {
		before func(d *desk)
		hand   func(d *desk)
		want   learn.Notice
		open   learn.Question
		phase  learn.Phase
	}{
		"the stick before": {(*desk).pitch, func(d *desk) { d.to(1, 1000, 100*ms); d.wait(600 * ms) },
			said(learn.Taken, func(n *learn.Notice) { n.Job, n.Axis = "pitch", 1 }), learn.Yaw, learn.Moving},
		"too little": {(*desk).pitch, func(d *desk) { d.to(0, 750, 100*ms); d.wait(900 * ms) },
			said(learn.TooLittle, func(n *learn.Notice) { n.Axis, n.Share = 0, 250 }), learn.Yaw, learn.Moving},
		"not at the end": {untilThrottle, func(d *desk) { d.to(2, 620, 100*ms); d.wait(900 * ms) },
			said(learn.NotAtEnd, func(n *learn.Notice) { n.Axis, n.Share = 2, 620 }), learn.Throttle, learn.Holding},
		"not at the low end": {untilThrottle, func(d *desk) { d.to(2, 1000, 100*ms); d.wait(500 * ms); d.to(2, 370, 100*ms); d.wait(900 * ms) },
			said(learn.NotAtEnd, func(n *learn.Notice) { n.Axis, n.Share = 2, 370 }), learn.Throttle, learn.Holding},
		"two sticks": {(*desk).pitch, func(d *desk) { d.Move(d.now, 100*ms, 0, 1000); d.to(3, 800, 100*ms); d.wait(900 * ms) },
			said(learn.Two, func(n *learn.Notice) { n.Axis, n.OtherAxis = 0, 3 }), learn.Yaw, learn.Returning},
		"two sticks, one of them known": {(*desk).pitch, func(d *desk) { d.Move(d.now, 100*ms, 1, 1000); d.to(3, 1000, 100*ms); d.wait(900 * ms) },
			said(learn.Two, func(n *learn.Notice) { n.Axis, n.OtherAxis, n.OtherJob = 3, 1, "pitch" }), learn.Yaw, learn.Returning},
		"a stick and the throttle, which nobody knows yet": {(*desk).pitch, func(d *desk) { d.Move(d.now, 100*ms, 2, 700); d.to(3, 1000, 100*ms); d.wait(900 * ms) },
			said(learn.Two, func(n *learn.Notice) { n.Axis, n.OtherAxis = 2, 3 }), learn.Yaw, learn.Returning},
		"another stick for the low end": {(*desk).pitch, func(d *desk) {
			d.to(3, 1000, 100*ms)
			d.wait(500 * ms)
			d.to(3, 500, 100*ms)
			d.to(0, 0, 100*ms)
			d.wait(500 * ms)
		}, said(learn.Two, func(n *learn.Notice) { n.Axis, n.OtherAxis = 3, 0 }), learn.Yaw, learn.Moving},
		"a button for a stick": {(*desk).pitch, func(d *desk) { d.press(3, true); d.wait(500 * ms) },
			said(learn.WantStick, func(n *learn.Notice) { n.Button = 3 }), learn.Yaw, learn.Moving},
		"a throttle that springs back": {untilThrottle, func(d *desk) { d.stick(2, 1000, 0, 480) },
			said(learn.Springs, func(n *learn.Notice) { n.Axis, n.Share, n.Job = 2, 480, "throttle" }), learn.Throttle, learn.Deciding},
		"a throttle that is held down and springs back later": {func(d *desk) { untilThrottle(d); d.throttle() }, func(d *desk) { d.to(2, 480, 60*ms); d.wait(1200 * ms) },
			said(learn.Springs, func(n *learn.Notice) { n.Axis, n.Share, n.Job = 2, 480, "throttle" }), learn.Throttle, learn.Deciding},
		"a stick that does not spring": {(*desk).pitch, func(d *desk) { d.stick(3, 1000, 20, 20); d.wait(2500 * ms) },
			said(learn.NoSpring, func(n *learn.Notice) { n.Axis, n.Share, n.Job = 3, 20, "yaw" }), learn.Yaw, learn.Deciding},
		"a hand that never rests": {func(d *desk) {
			d.to(1, 1000, 100*ms)
			d.wait(400 * ms)
			d.to(1, 0, 100*ms)
			d.wait(400 * ms)
			d.to(1, 500, 60*ms)
			d.wait(400 * ms)
		}, func(d *desk) {
			for i := range int64(40) {
				d.to(0, 900-400*(i%2), 140*ms)
			}
		}, said(learn.StillMoving, func(n *learn.Notice) { n.Axis, n.Share = 0, 400 }), learn.Yaw, learn.Settling},
		"readings lost": {(*desk).pitch, func(d *desk) { d.Lose(d.now, d.now+30*ms); d.wait(200 * ms) },
			said(learn.Lost, func(n *learn.Notice) {}), learn.Yaw, learn.Settling},
		"two switches": {sticks, func(d *desk) { d.press(3, true); d.wait(100 * ms); d.to(4, 1000, 20*ms); d.wait(400 * ms) },
			said(learn.Two, func(n *learn.Notice) { n.Axis, n.OtherButton = 4, 3 }), learn.Arm, learn.Returning},
		"two buttons": {sticks, func(d *desk) { d.press(3, true); d.wait(50 * ms); d.press(6, true); d.wait(400 * ms) },
			said(learn.Two, func(n *learn.Notice) { n.Button, n.OtherButton = 3, 6 }), learn.Arm, learn.Returning},
		"a button too quickly": {sticks, func(d *desk) { d.press(3, true); d.wait(60 * ms); d.press(3, false); d.wait(400 * ms) },
			said(learn.TooQuick, func(n *learn.Notice) { n.Button = 3 }), learn.Arm, learn.Moving},
		"a stick for the arm control": {sticks, func(d *desk) { d.to(1, 0, 50*ms); d.wait(500 * ms) },
			said(learn.Taken, func(n *learn.Notice) { n.Job, n.Axis = "pitch", 1 }), learn.Arm, learn.Moving},
		"half way to on": {sticks, func(d *desk) { d.to(4, 500, 20*ms); d.wait(1600 * ms) },
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
			d.pitch()
			d.stick(3, 0, 1000, 500) // yaw to the left first
			d.sprung(0)
			d.throttle()
			d.skip()
			d.skip()
			d.noMore()
		}, (*desk).intoCorner, said(learn.TurnedRound, func(n *learn.Notice) { n.Job, n.Axis = "yaw", 3 }), learn.TopRight, learn.Moving},
		"a stick that does not get there": {func(d *desk) { d.sticks(); d.skip(); d.skip(); d.noMore() }, func(d *desk) {
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

// Who goes on holding the stick when it is to be let go is told that it still stands there; let go then, it is taken as one with a spring.
func TestAStickLetGoLate(t *testing.T) {
	d := newDesk(t)
	d.wait(2000 * ms)
	d.to(1, 1000, 100*ms)
	d.wait(400 * ms)
	d.to(1, 0, 150*ms)
	d.wait(4000 * ms)
	v := d.play()
	require.Equal(t, learn.NoSpring, v.Notice.Code)
	require.Equal(t, learn.Deciding, v.Phase)
	require.Equal(t, learn.AcceptIt, v.Enough, "or the stick has no spring, and it goes on as it is")
	d.to(1, 500, 60*ms)
	d.wait(1100 * ms)
	v = d.play()
	require.Equal(t, learn.Yaw, v.Question)
	require.Equal(t, learn.Nothing, v.Notice.Code)
	require.False(t, v.Answers[0].Stays)
}

// A moment at a position on the way is what was asked for: nothing is called out, and the last one counts.
func TestAMomentAtAMiddlePositionIsNoSlip(t *testing.T) {
	d := newDesk(t)
	d.sticks()
	d.to(4, 500, 20*ms)
	d.wait(1300 * ms)
	d.to(4, 1000, 20*ms)
	d.wait(1700 * ms)
	v := d.play()
	require.Empty(t, d.noticed)
	require.Equal(t, learn.Mode, v.Question)
	require.Len(t, v.Answers[v.Last].Positions, 3)
}

// After each wrong movement the right one is taken.
func TestAfterTheSlip(t *testing.T) {
	d := newDesk(t)
	d.Move(d.now, 100*ms, 1, 1000)
	d.to(6, 1000, 100*ms)
	d.wait(500 * ms)
	d.to(6, 0, 100*ms)
	d.wait(500 * ms)
	require.Equal(t, learn.Returning, d.play().Phase, "one went back and one is still up")
	d.to(1, 500, 100*ms)
	d.wait(500 * ms)
	d.pitch()
	d.to(1, 1000, 100*ms) // the wrong one
	d.wait(600 * ms)
	d.to(1, 500, 100*ms)
	d.wait(600 * ms)
	d.sprung(3)
	v := d.play()
	require.Equal(t, learn.Roll, v.Question)
	require.Equal(t, 1, v.Answers[0].Axis)
	require.Equal(t, 3, v.Answers[1].Axis)
}

// The throttle has no spring and is asked for last: what of it was drawn along with a stick may stay.
func TestTheThrottleMayStayWhereItWasDrawn(t *testing.T) {
	for _, share := range []int64{120, 190} {
		d := newDesk(t)
		d.Move(d.now, 100*ms, 2, int32(share))
		for _, axis := range []int{1, 3, 0} {
			d.sprung(axis)
		}
		require.Equal(t, learn.Throttle, d.play().Question, "%d", share)
		require.Empty(t, d.noticed)
		d.to(2, 0, 100*ms) // it is asked to begin there
		d.wait(600 * ms)
		v := d.play()
		require.Equal(t, learn.HighEnd, v.Step)
		require.Zero(t, v.Lean)
		require.Equal(t, learn.Moving, v.Phase)
		d.throttle()
		v = d.play()
		require.Equal(t, learn.Arm, v.Question)
		require.Empty(t, d.noticed)
		require.Equal(t, []int{1, 3, 0, 2}, []int{v.Answers[0].Axis, v.Answers[1].Axis, v.Answers[2].Axis, v.Answers[3].Axis})
		require.Less(t, v.Answers[3].Scale.Low, v.Answers[3].Scale.High)
		require.Equal(t, &radio.Reach{Low: 0, Rest: 0, High: 1000}, v.Answers[3].Reach)
	}
	// Farther it is a movement, and goes back; wherever it was meanwhile, that was no rest of it.
	for _, share := range []int64{400, 1000} {
		d := newDesk(t)
		d.wait(2000 * ms) // the question is read
		d.Move(d.now, 100*ms, 2, int32(share))
		d.to(1, 900, 100*ms)
		d.wait(600 * ms)
		d.to(1, 500, 60*ms)
		d.wait(900 * ms)
		v := d.play()
		require.Equal(t, learn.Two, v.Notice.Code)
		require.Equal(t, learn.Returning, v.Phase, "%d", share)
		d.to(2, 0, 100*ms)
		d.wait(900 * ms)
		require.Equal(t, learn.Moving, d.play().Phase, "%d", share)
		d.sticks()
		v = d.play()
		require.Equal(t, learn.Arm, v.Question)
		require.Equal(t, []int{1, 3, 0, 2}, []int{v.Answers[0].Axis, v.Answers[1].Axis, v.Answers[2].Axis, v.Answers[3].Axis})
	}
	// The same while a stick is asked for its other end: that is called out, and holds nothing up.
	d := newDesk(t)
	d.to(1, 1000, 100*ms)
	d.wait(400 * ms)
	d.to(2, 950, 100*ms)
	d.wait(600 * ms)
	require.Equal(t, learn.Two, d.play().Notice.Code)
	d.to(1, 0, 100*ms)
	d.wait(400 * ms)
	v := d.play()
	require.Equal(t, learn.LetGo, v.Step)
	require.Equal(t, learn.Nothing, v.Notice.Code)

	// Asked for the throttle it must be brought back: it is what is looked for.
	d = newDesk(t)
	for _, axis := range []int{1, 3, 0} {
		d.sprung(axis)
	}
	d.Move(d.now, 100*ms, 2, 1000)
	d.to(6, 900, 100*ms)
	d.wait(500 * ms)
	d.to(6, 0, 100*ms)
	d.wait(3000 * ms)
	require.Equal(t, learn.Returning, d.play().Phase)
}

// A throttle that springs back is accepted by going on, and asked again by going back.
func TestSpringingThrottle(t *testing.T) {
	at := func() *desk {
		d := newDesk(t)
		for _, axis := range []int{1, 3, 0} {
			d.sprung(axis)
		}
		return d
	}
	d := at()
	d.stick(2, 1000, 0, 480)
	require.Equal(t, learn.AcceptIt, d.play().Enough)
	d.enough()
	v := d.play()
	require.Equal(t, learn.Arm, v.Question)
	require.False(t, v.Answers[3].Stays)
	require.Equal(t, int32(480), v.Answers[3].Reach.Rest)

	d = at()
	d.stick(2, 1000, 0, 480)
	d.back()
	require.Equal(t, learn.HighEnd, d.play().Step)

	// What was only let go too early is put right by bringing it down.
	d = at()
	d.stick(2, 1000, 0, 200)
	require.Equal(t, learn.Deciding, d.play().Phase)
	d.to(2, 0, 100*ms)
	d.wait(1300 * ms)
	v = d.play()
	require.Equal(t, learn.Arm, v.Question)
	require.True(t, v.Answers[3].Stays)
	require.Equal(t, learn.Nothing, v.Notice.Code)
}

// A stick without a spring, and one that goes only a part of its way, are taken as they are by Enough.
func TestTakenAsItIs(t *testing.T) {
	d := newDesk(t)
	d.pitch()
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
	require.Equal(t, learn.Roll, v.Question)
	c := v.Answers[1]
	require.True(t, c.Stays)
	require.Equal(t, &radio.Reach{Low: 310, Rest: 310, High: 700}, c.Reach)
}

// A stick is asked to go as far to its low end as to its high one.
func TestBothEndsAreAskedAlike(t *testing.T) {
	d := newDesk(t)
	d.to(1, 1000, 100*ms)
	d.wait(400 * ms)
	d.to(1, 200, 100*ms)
	d.wait(900 * ms)
	v := d.play()
	require.Equal(t, learn.LowEnd, v.Step)
	require.Equal(t, said(learn.NotAtEnd, func(n *learn.Notice) { n.Axis, n.Share = 1, 200 }), v.Notice)
	d.to(1, 140, 50*ms)
	d.wait(400 * ms)
	require.Equal(t, learn.LetGo, d.play().Step)
}

// A stick that was moved before its question began, and let go, is no movement; its next push is.
func TestHeldTooEarly(t *testing.T) {
	d := newDesk(t)
	d.to(1, 1000, 100*ms)
	d.wait(400 * ms)
	d.to(1, 0, 100*ms)
	d.wait(400 * ms)
	d.to(1, 500, 60*ms)
	d.wait(650 * ms)
	d.to(3, 1000, 20*ms) // before all was still
	d.wait(1000 * ms)
	d.to(3, 500, 50*ms)
	d.wait(1000 * ms)
	require.Equal(t, learn.Yaw, d.play().Question)
	d.sprung(3)
	v := d.play()
	require.Equal(t, learn.Roll, v.Question)
	own := radio.Own(d.info.Axes[3])
	require.Equal(t, &own, v.Answers[1].Scale)
}

// A jump of one report is neither a movement nor a reach.
func TestJump(t *testing.T) {
	d := newDesk(t)
	d.Spike(d.now+50*ms, 0, 0)
	d.wait(400 * ms)
	d.stick(1, 900, 0, 500)
	d.Spike(d.now-200*ms, 1, 1000)
	d.wait(400 * ms)
	d.sprung(3)
	v := d.play()
	require.Empty(t, d.noticed)
	require.Equal(t, &radio.Reach{Low: 0, Rest: 500, High: 900}, v.Answers[0].Reach)
}
