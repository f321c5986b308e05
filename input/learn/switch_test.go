package learn_test

import (
	"testing"

	"propsoff.example/input"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"

	"github.com/stretchr/testify/require"
)

func positions(halves ...radio.Half) (out []radio.Position) {
	for _, h := range halves {
		out = append(out, radio.Position{At: h})
	}
	return out
}

// presses leads a switch of buttons through places, −1 for none pressed, with a moment in each.
func (d *desk) presses(path ...int) {
	for i := 1; i < len(path); i++ {
		if path[i-1] >= 0 {
			d.press(path[i-1], false)
		}
		d.wait(20 * ms) // between two contacts
		if path[i] >= 0 {
			d.press(path[i], true)
		}
		d.wait(350 * ms)
	}
	d.wait(1700 * ms)
}

// Every form of a switch or knob: what the hand does with it as the mode control, and what is learned.
func TestForms(t *testing.T) {
	const none = radio.None
	info := deskInfo()
	info.Axes = append(info.Axes, input.Axis{Code: 16, Min: -1, Max: 1, Hat: true})
	own, hat := radio.Own(info.Axes[5]), radio.Own(info.Axes[8])
	turned := own.Turned()
	for name, c := range map[string]struct {
		first int // button that is pressed from the beginning, −1 for none
		rest  int32
		hand  func(d *desk)
		want  radio.Control
	}{
		"two levels":          {-1, 0, func(d *desk) { d.flip(5, 1000) }, radio.Control{Form: radio.Axis, Axis: 5, Scale: &own, Positions: positions(0, 2000)}},
		"three levels":        {-1, 0, func(d *desk) { d.flip(5, 500, 1000) }, radio.Control{Form: radio.Axis, Axis: 5, Scale: &own, Positions: positions(0, 1000, 2000)}},
		"three, and back":     {-1, 0, func(d *desk) { d.flip(5, 500, 1000, 500, 0) }, radio.Control{Form: radio.Axis, Axis: 5, Scale: &own, Positions: positions(0, 1000, 2000)}},
		"six levels downward": {-1, 1000, func(d *desk) { d.flip(5, 800, 600, 400, 200, 0) }, radio.Control{Form: radio.Axis, Axis: 5, Scale: &turned, Positions: positions(2000, 1600, 1200, 800, 400, 0)}},
		"twelve levels": {-1, 0, func(d *desk) { d.flip(5, 90, 181, 272, 363, 454, 545, 636, 727, 818, 909, 1000) },
			radio.Control{Form: radio.Axis, Axis: 5, Scale: &own, Positions: positions(0, 180, 362, 544, 726, 908, 1090, 1272, 1454, 1636, 1818, 2000)}},
		"from the middle":      {-1, 500, func(d *desk) { d.flip(5, 1000, 500, 0) }, radio.Control{Form: radio.Axis, Axis: 5, Scale: &turned, Positions: positions(2000, 1000, 0)}},
		"an axis springs back": {-1, 0, func(d *desk) { d.flip(5, 1000, 0) }, radio.Control{Form: radio.Axis, Axis: 5, Scale: &own, Positions: positions(0, 2000), Momentary: true}},
		"a hat's half":         {-1, 0, func(d *desk) { d.flip(8, 0, 500, 1000, 500) }, radio.Control{Form: radio.Axis, Axis: 8, Scale: &hat, Positions: positions(-2, 0, 2), Momentary: true}},
		"a hat to one side":    {-1, 0, func(d *desk) { d.flip(8, 1000, 500) }, radio.Control{Form: radio.Axis, Axis: 8, Scale: &hat, Positions: positions(0, 2), Momentary: true}},
		"a knob":               {-1, 0, func(d *desk) { d.to(5, 1000, 700*ms); d.wait(1700 * ms) }, radio.Control{Form: radio.Axis, Axis: 5, Scale: &own, Stays: true}},
		"a knob with pauses": {-1, 0, func(d *desk) {
			for _, s := range []int64{250, 420, 810, 1000} {
				d.to(5, s, 300*ms)
				d.wait(400 * ms)
			}
			d.wait(1500 * ms)
		}, radio.Control{Form: radio.Axis, Axis: 5, Scale: &own, Stays: true}},
		"a knob, very slowly": {-1, 0, func(d *desk) { d.to(5, 1000, 9000*ms); d.wait(1700 * ms) }, radio.Control{Form: radio.Axis, Axis: 5, Scale: &own, Stays: true}},
		"a wheel with a spring": {-1, 500, func(d *desk) {
			d.to(5, 0, 400*ms)
			d.wait(300 * ms)
			d.to(5, 1000, 500*ms)
			d.wait(300 * ms)
			d.to(5, 500, 200*ms)
			d.wait(1700 * ms)
		}, radio.Control{Form: radio.Axis, Axis: 5, Scale: &own}},
		"a button that stays":    {-1, 0, func(d *desk) { d.presses(none, 7) }, radio.Control{Form: radio.Button, Buttons: []int{7}}},
		"a button, let go":       {-1, 0, func(d *desk) { d.presses(none, 7, none) }, radio.Control{Form: radio.Button, Buttons: []int{7}, Momentary: true}},
		"released is on":         {7, 0, func(d *desk) { d.presses(7, none) }, radio.Control{Form: radio.Row, Buttons: []int{7, none}}},
		"a pair":                 {7, 0, func(d *desk) { d.presses(7, 8) }, radio.Control{Form: radio.Row, Buttons: []int{7, 8}}},
		"three on two":           {7, 0, func(d *desk) { d.presses(7, none, 9) }, radio.Control{Form: radio.Row, Buttons: []int{7, none, 9}}},
		"three on two, sprung":   {-1, 0, func(d *desk) { d.presses(none, 7, none, 9, none) }, radio.Control{Form: radio.Row, Buttons: []int{7, none, 9}, Momentary: true}},
		"a row of six":           {7, 0, func(d *desk) { d.presses(7, 8, 9, 12, 11, 10) }, radio.Control{Form: radio.Row, Buttons: []int{7, 8, 9, 12, 11, 10}}},
		"keys, one a position":   {-1, 0, func(d *desk) { d.presses(none, 7, none, 8, none, 9, none) }, radio.Control{Form: radio.Row, Buttons: []int{7, 8, 9}}},
		"a row from the middle":  {8, 0, func(d *desk) { d.presses(8, 7, 8, 9) }, radio.Control{Form: radio.Row, Buttons: []int{7, 8, 9}}},
		"told twice":             {7, 0, func(d *desk) { d.twice(5, 7, 500, 8, 1000, 9) }, radio.Control{Form: radio.Axis, Axis: 5, Scale: &own, Positions: positions(0, 1000, 2000)}},
		"enough, without a wait": {7, 0, func(d *desk) { d.presses(7, 8); d.now -= 1500 * ms; d.enough() }, radio.Control{Form: radio.Row, Buttons: []int{7, 8}}},
	} {
		t.Run(name, func(t *testing.T) {
			d := deskOf(t, info, learn.Options{})
			d.Rest(5, c.rest)
			d.Press(0, 14, true) // another switch that stands on
			if c.first >= 0 {
				d.Press(0, c.first, true)
			}
			d.sticks()
			d.skip()
			c.hand(d)
			v := d.play()
			require.Empty(t, d.noticed)
			require.Equal(t, learn.More, v.Question, "phase %d", v.Phase)
			got := v.Answers[len(v.Answers)-1]
			c.want.Job = "mode"
			if got.Form == radio.Axis {
				require.NotNil(t, got.Reach)
				got.Reach = nil
			}
			require.Equal(t, c.want, got)
		})
	}
}

// twice leads a switch that is told as an axis and as a row of buttons.
func (d *desk) twice(axis, first int, path ...int) {
	for i := 0; i < len(path); i += 2 {
		d.press(first, false)
		d.to(axis, int64(path[i]), 20*ms)
		first = path[i+1]
		d.press(first, true)
		d.wait(350 * ms)
	}
	d.wait(1700 * ms)
}

// SetMomentary puts right what only the pilot knows.
func TestSetMomentary(t *testing.T) {
	d := newDesk(t)
	d.sticks()
	d.presses(-1, 7, -1)
	v := d.play()
	require.True(t, v.Answers[v.Last].Momentary)
	d.l.SetMomentary(false)
	v = d.l.View()
	require.False(t, v.Answers[v.Last].Momentary)
}

// A slow hand leads a lever through its positions as it would turn a knob: the pilot says that it clicks, and it is a switch; said twice, it
// is the knob that it was.
func TestSetClicks(t *testing.T) {
	d := newDesk(t)
	d.sticks()
	for _, s := range []int64{500, 1000} {
		d.to(5, s, 300*ms)
		d.wait(500 * ms)
	}
	d.wait(1700 * ms)
	v := d.play()
	knob := v.Answers[v.Last]
	require.True(t, v.CanClick && knob.Stays && knob.Positions == nil, "%+v", knob)
	d.l.SetMomentary(true)
	require.Equal(t, knob, d.l.View().Answers[v.Last], "a knob does not spring back")

	d.l.SetClicks(true)
	v = d.l.View()
	is := v.Answers[v.Last]
	require.Equal(t, radio.Control{Job: knob.Job, Form: radio.Axis, Axis: 5, Scale: knob.Scale, Reach: knob.Reach, Noise: knob.Noise, Positions: is.Positions}, is)
	require.Len(t, is.Positions, 3)
	for k, at := range []radio.Half{0, 1000, 2000} {
		require.InDelta(t, int(at), int(is.Positions[k].At), 4)
	}

	d.l.SetClicks(false)
	v = d.l.View()
	require.Equal(t, knob, v.Answers[v.Last])
}

// What goes from end to end without a stand between may be a switch of two; a button is neither that nor a knob.
func TestCanClick(t *testing.T) {
	for name, c := range map[string]struct {
		hand func(d *desk)
		want bool
	}{
		"a switch":                  {func(d *desk) { d.flip(5, 500, 1000) }, true},
		"a knob from end to end":    {func(d *desk) { d.to(5, 1000, 700*ms); d.wait(1700 * ms) }, true},
		"a button":                  {func(d *desk) { d.presses(-1, 7) }, false},
		"a knob, and back to begin": {func(d *desk) { d.to(5, 300, 700*ms); d.to(5, 0, 700*ms); d.wait(1700 * ms) }, false},
	} {
		t.Run(name, func(t *testing.T) {
			d := newDesk(t)
			d.sticks()
			c.hand(d)
			v := d.play()
			require.Equal(t, c.want, v.CanClick)
			was := v.Answers
			d.l.SetClicks(true)
			d.l.SetClicks(false)
			if !c.want {
				require.Equal(t, was, d.l.View().Answers)
			}
		})
	}
}

// A movement that moves two axes is called out once as two; done again alike it is a mix, and the stronger one is taken.
func TestMix(t *testing.T) {
	for _, c := range []struct {
		other, share int64 // where the second axis goes, and how far for each 1000 of the first
		slight       bool  // so little that the first try counts
	}{{800, 600, false}, {200, -600, false}, {550, 100, true}} {
		d := newDesk(t)
		d.pitch()
		both := func(to, other, over int64) {
			d.Move(d.now, over, 0, int32(other))
			d.to(3, to, over)
			d.wait(450 * ms)
		}
		if !c.slight {
			both(1000, c.other, 100*ms)
			require.Equal(t, learn.Two, d.play().Notice.Code)
			both(500, 500, 60*ms)
			require.Equal(t, learn.Moving, d.play().Phase)
		}
		both(1000, c.other, 100*ms)
		both(0, 1000-c.other, 100*ms)
		both(500, 500, 60*ms)
		d.wait(400 * ms)
		v := d.play()
		require.Equal(t, learn.Roll, v.Question)
		require.Equal(t, 3, v.Answers[1].Axis)
		require.Equal(t, said(learn.Mixed, func(n *learn.Notice) {
			n.Axis, n.OtherAxis, n.Share, n.Job = 3, 0, int(c.share), "yaw"
		}), v.Notice)
	}
}

// Two axes that carry two jobs between them, half and half: each job finds one of them, and the replay lets them move
// together.
func TestCrossedAxes(t *testing.T) {
	d := newDesk(t)
	move := func(a, b int64) {
		d.Move(d.now, 80*ms, 0, int32(a))
		d.to(1, b, 80*ms)
		d.wait(450 * ms)
	}
	pitch := func() { move(1000, 1000); move(0, 0); move(500, 500); d.wait(400 * ms) }
	move(1000, 1000)
	move(500, 500)
	pitch()
	require.Equal(t, learn.Yaw, d.play().Question)
	d.sprung(3)
	move(1000, 0)
	move(0, 1000)
	move(500, 500)
	d.wait(600 * ms)
	d.throttle()
	v := d.play()
	require.Equal(t, learn.Arm, v.Question)
	require.ElementsMatch(t, []int{0, 1}, []int{v.Answers[0].Axis, v.Answers[2].Axis})
	d.skip()
	d.skip()
	d.noMore()
	d.enough() // the corner cannot be reached
	d.nudge(2, 1000, 0)
	d.nudge(3, 1000, 500)
	move(1000, 1000)
	move(500, 500)
	move(0, 1000)
	move(500, 500)
	require.Equal(t, learn.Replay, d.play().Question)
	d.enough()
	require.Equal(t, learn.Done, d.play().Question)
}

// One switch on two axes: two at first, a mix when it is done again.
func TestSwitchOnTwoAxes(t *testing.T) {
	d := newDesk(t)
	d.sticks()
	both := func(to int64) {
		d.Move(d.now, 20*ms, 6, int32(to*6/10))
		d.to(4, to, 20*ms)
		d.wait(400 * ms)
	}
	both(1000)
	require.Equal(t, learn.Two, d.play().Notice.Code)
	both(0)
	both(1000)
	d.wait(1700 * ms)
	v := d.play()
	require.Equal(t, learn.Mode, v.Question)
	require.Equal(t, 4, v.Answers[4].Axis)
	require.Equal(t, learn.Mixed, v.Notice.Code)
	require.Equal(t, 600, v.Notice.Share)
}
