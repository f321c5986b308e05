package learn_test

import (
	"testing"

	"propsoff.example/input"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"

	"github.com/stretchr/testify/require"
)

// deskFile is what somebody else learned of a radio like the desk's: sticks, an arm switch on axis 5, a mode switch on axis 6, a knob
// on axis 7 and a button that springs back, button 4.
func deskFile() radio.File {
	at := func(raw ...int32) (out []radio.Position) {
		for _, r := range raw {
			out = append(out, radio.Position{At: radio.Halves(r)})
		}
		return out
	}
	scale := func() *radio.Scale { s := radio.Own(input.Axis{Max: 1000}); return &s }
	mid, full := radio.Reach{Low: 0, Rest: 500, High: 1000}, radio.Reach{Low: 0, Rest: 0, High: 1000}
	return radio.File{Device: radio.Device{Name: "Desk"}, StickMode: 1, Given: true, Controls: []radio.Control{
		{Job: "throttle", Form: radio.Axis, Axis: 2, Scale: scale(), Reach: &full, Stays: true},
		{Job: "pitch", Form: radio.Axis, Axis: 1, Scale: scale(), Reach: &mid},
		{Job: "yaw", Form: radio.Axis, Axis: 3, Scale: scale(), Reach: &mid},
		{Job: "roll", Form: radio.Axis, Axis: 0, Scale: scale(), Reach: &mid},
		{Job: "arm", Form: radio.Axis, Axis: 4, Scale: scale(), Reach: &full, Positions: at(0, 1000)},
		{Job: "mode", Form: radio.Axis, Axis: 5, Scale: scale(), Reach: &full, Positions: at(0, 500, 1000)},
		{Job: "channel 9", Form: radio.Axis, Axis: 6, Scale: scale(), Reach: &full, Stays: true},
		{Job: "channel 10", Form: radio.Button, Buttons: []int{3}, Momentary: true},
		{Job: "channel 11", Form: radio.Row, Buttons: []int{5, radio.None, 6}},
		{Job: "channel 12", With: "arm", Form: radio.Axis, Axis: 4, Scale: scale(), Reach: &full, Positions: at(0, 1000)},
	}}
}

// trying is a desk whose radio has a file that is tried; change says in what it differs from deskFile.
func trying(t *testing.T, change func(f *radio.File)) *desk {
	d := newDesk(t)
	f := deskFile()
	if change != nil {
		change(&f)
	}
	d.file = &f
	d.press(5, true)
	d.wait(500 * ms)
	return d
}

func (f *fileOf) control(job string) *radio.Control {
	for i := range f.Controls {
		if f.Controls[i].Job == job {
			return &f.Controls[i]
		}
	}
	return nil
}

type fileOf radio.File

// trySticks does what the first five questions ask for.
func (d *desk) trySticks() {
	d.corner()
	for _, axis := range []int{1, 3, 0} {
		d.nudge(axis, 1000, 500)
	}
	d.to(2, 1000, 100*ms)
	d.wait(300 * ms)
	d.to(2, 0, 100*ms)
	d.wait(1200 * ms)
}

// trySwitches does what is asked for of the others.
func (d *desk) trySwitches() {
	d.flip(4, 1000)
	d.flip(5, 500, 1000)
	d.to(6, 1000, 600*ms)
	d.wait(1000 * ms)
	d.press(3, true)
	d.wait(300 * ms)
	d.press(3, false)
	d.wait(1000 * ms)
	d.press(5, false)
	d.wait(300 * ms)
	d.press(6, true)
	d.wait(1500 * ms)
}

// All answers as the file has it: nothing is called out, and of the file nothing changes but that it was given.
func TestATryOfARightFile(t *testing.T) {
	d := trying(t, nil)
	v := d.play()
	require.True(t, v.Trying)
	require.Equal(t, learn.TopRight, v.Question)
	require.True(t, v.ModeKnown)
	require.Equal(t, 1, v.StickMode)
	require.Equal(t, learn.Untried, v.Enough)
	require.True(t, v.CanSkip)
	require.False(t, v.CanBack)
	var jobs []string
	for _, i := range v.Plan {
		jobs = append(jobs, i.Job)
	}
	require.Equal(t, []string{"", "pitch", "yaw", "roll", "throttle", "arm", "mode", "channel 9", "channel 10", "channel 11"}, jobs, "what moves with another is asked for with it")
	d.trySticks()
	v = d.play()
	require.Empty(t, d.noticed)
	require.Equal(t, "arm", v.Job)
	require.Equal(t, learn.Once, v.Question)
	require.Equal(t, learn.ItsWay, v.Step)
	require.Equal(t, [2]int{1, 2}, [2]int{v.Seen, v.Places})
	f, done := d.l.File()
	require.False(t, done)
	require.True(t, f.Given)
	d.trySwitches()
	v = d.play()
	require.Empty(t, d.noticed)
	require.Equal(t, learn.Done, v.Question)
	f, done = d.l.File()
	require.True(t, done)
	want := deskFile()
	want.Given = false
	require.Equal(t, want, f)
}

// at plays up to the question about a job.
func (d *desk) at(job string) learn.View {
	v := d.play()
	require.Equal(d.t, job, v.Job)
	return v
}

// Two axes are exchanged: all four directions at once look right, and each alone is told from the other.
func TestATryOfExchangedAxes(t *testing.T) {
	d := trying(t, func(f *radio.File) {
		of := (*fileOf)(f)
		of.control("yaw").Axis, of.control("roll").Axis = 0, 3
	})
	d.corner()
	d.nudge(1, 1000, 500)
	d.at("yaw")
	require.Empty(t, d.noticed)
	d.to(3, 1000, 60*ms)
	d.wait(400 * ms)
	v := d.at("yaw")
	require.Equal(t, said(learn.Another, func(n *learn.Notice) { n.Job, n.Axis, n.OtherAxis, n.OtherJob = "yaw", 0, 3, "roll" }), v.Notice)
	require.Equal(t, learn.Returning, v.Phase)
	d.to(3, 500, 60*ms)
	d.wait(600 * ms)
	v = d.at("yaw")
	require.Equal(t, learn.Moving, v.Phase)
	require.Equal(t, learn.Another, v.Notice.Code, "it stays to be read")
	d.nudge(0, 1000, 500) // whoever gives in and moves roll gets on, and then roll is wrong
	d.at("roll")
	d.do((*learn.Learner).Enough)
	d.wait(100 * ms)
	require.Equal(t, learn.Done, d.play().Question)
	f, done := d.l.File()
	require.True(t, done)
	require.True(t, f.Given, "it was not tried to its end")
}

// An axis is turned round: the corner check says so, and so does its own question.
func TestATryOfATurnedAxis(t *testing.T) {
	d := trying(t, func(f *radio.File) {
		c := (*fileOf)(f).control("roll")
		s := c.Scale.Turned()
		c.Scale = &s
	})
	d.intoCorner()
	d.wait(1000 * ms)
	v := d.play()
	require.Equal(t, learn.TopRight, v.Question)
	require.Equal(t, said(learn.WrongEnd, func(n *learn.Notice) { n.Job, n.Axis = "roll", 0 }), v.Notice)
	require.Equal(t, learn.Corner{Job: "roll", Turned: true}, v.Corners[2])
	d.skip()
	for _, axis := range []int{0, 1, 3} {
		d.to(axis, 500, 50*ms)
	}
	d.to(2, 0, 100*ms)
	d.wait(1000 * ms)
	d.nudge(1, 1000, 500)
	d.nudge(3, 1000, 500)
	d.to(0, 1000, 60*ms)
	d.wait(400 * ms)
	v = d.at("roll")
	require.Equal(t, learn.WrongEnd, v.Notice.Code)
	d.to(0, 0, 60*ms) // the end that the file takes for the right one
	d.wait(300 * ms)
	d.to(0, 500, 60*ms)
	d.wait(600 * ms)
	v = d.at("throttle")
	require.Equal(t, learn.Nothing, v.Notice.Code)
	d.do((*learn.Learner).Back)
	d.wait(500 * ms)
	d.at("roll")
	d.do((*learn.Learner).Restart)
	d.wait(500 * ms)
	v = d.play()
	require.Equal(t, learn.TopRight, v.Question)
	for _, i := range v.Plan {
		require.False(t, i.Answered || i.Skipped)
	}
}

// What a switch does that is not as the file has it.
func TestATryOfSwitches(t *testing.T) {
	notice := func(code learn.Code, job string, more func(n *learn.Notice)) learn.Notice {
		return said(code, func(n *learn.Notice) {
			n.Job = job
			if more != nil {
				more(n)
			}
		})
	}
	arm := func(more func(n *learn.Notice)) func(n *learn.Notice) {
		return func(n *learn.Notice) {
			if n.Axis = 4; more != nil {
				more(n)
			}
		}
	}
	for name, c := range map[string]struct {
		change func(c *radio.Control) // of the arm switch
		hand   func(d *desk)
		want   learn.Notice
		at     string // the job that is asked for after that
	}{
		"dead": {nil, func(d *desk) { d.wait(9000 * ms) }, notice(learn.NothingMoves, "arm", arm(nil)), "arm"},
		"no such axis": {func(c *radio.Control) { c.Axis = 12 }, func(d *desk) { d.flip(4, 1000) },
			notice(learn.Missing, "arm", func(n *learn.Notice) { n.Axis = 12 }), "arm"},
		"no such button": {func(c *radio.Control) { *c = radio.Control{Job: "arm", Form: radio.Button, Buttons: []int{40}} }, func(d *desk) { d.wait(500 * ms) },
			notice(learn.Missing, "arm", func(n *learn.Notice) { n.Button = 40 }), "arm"},
		"an axis without a job answers": {nil, func(d *desk) { d.flip(7, 1000) },
			notice(learn.Another, "arm", arm(func(n *learn.Notice) { n.OtherAxis = 7 })), "arm"},
		"a button without a job answers": {nil, func(d *desk) { d.press(11, true); d.wait(400 * ms) },
			notice(learn.Another, "arm", arm(func(n *learn.Notice) { n.OtherButton = 11 })), "arm"},
		"the button of another job answers": {nil, func(d *desk) { d.press(5, false); d.press(6, true); d.wait(280 * ms) },
			notice(learn.Another, "arm", arm(func(n *learn.Notice) { n.OtherButton, n.OtherJob = 6, "channel 11" })), "arm"},
		"two at once": {nil, func(d *desk) { d.Move(d.now, 20*ms, 5, 1000); d.to(4, 1000, 20*ms); d.wait(400 * ms) },
			notice(learn.Two, "arm", arm(func(n *learn.Notice) { n.OtherAxis, n.OtherJob = 5, "mode" })), "arm"},
		"turned round": {func(c *radio.Control) {
			s := c.Scale.Turned()
			c.Scale, c.Positions = &s, []radio.Position{{At: 2000}, {At: 0}}
		}, func(d *desk) { d.flip(4, 1000) }, notice(learn.AtFirst, "arm", arm(nil)), "arm"},
		"stood at its last already": {nil, func(d *desk) { d.flip(4, 1000, 0); d.flip(4, 1000) }, notice(learn.WentBack, "arm", arm(nil)), "mode"},
		"springs back":              {nil, func(d *desk) { d.nudge(4, 1000, 0) }, notice(learn.WentBack, "arm", arm(nil)), "arm"},
		"does not spring back":      {func(c *radio.Control) { c.Momentary = true }, func(d *desk) { d.flip(4, 1000); d.wait(2000 * ms) }, notice(learn.Stayed, "arm", arm(nil)), "arm"},
		"a position is missing": {func(c *radio.Control) { c.Positions = []radio.Position{{At: 0}, {At: 1000}, {At: 2000}} }, func(d *desk) { d.flip(4, 1000); d.wait(1500 * ms) },
			notice(learn.FewPlaces, "arm", arm(func(n *learn.Notice) { n.Count, n.Of = 2, 3 })), "arm"},
		"a position is new": {nil, func(d *desk) { d.flip(4, 500); d.wait(500 * ms) },
			notice(learn.NoPlace, "arm", arm(func(n *learn.Notice) { n.Share = 500 })), "arm"},
	} {
		t.Run(name, func(t *testing.T) {
			d := trying(t, func(f *radio.File) {
				if c.change != nil {
					c.change((*fileOf)(f).control("arm"))
				}
			})
			d.trySticks()
			d.at("arm")
			c.hand(d)
			d.at(c.at)
			require.Contains(t, d.noticed, c.want)
			if c.at == "arm" { // it can be left out, and the file stays one that was not tried
				d.skip()
				v := d.at("mode")
				require.True(t, v.Plan[5].Skipped)
			}
		})
	}
}

// A radio with a file of another make: what is said is what is there, and no state hangs.
func TestATryOnAnotherRadio(t *testing.T) {
	d := trying(t, func(f *radio.File) {
		of := (*fileOf)(f)
		of.control("throttle").Axis, of.control("pitch").Axis = 1, 2 // pitch is what stays down here
		of.control("mode").Axis = 31
	})
	d.corner()
	v := d.play()
	require.Equal(t, "pitch", v.Job, "in the corner all are high")
	d.nudge(1, 1000, 500)
	v = d.at("pitch")
	require.Equal(t, said(learn.Another, func(n *learn.Notice) { n.Job, n.Axis, n.OtherAxis, n.OtherJob = "pitch", 2, 1, "throttle" }), v.Notice)
	d.to(2, 1000, 60*ms)
	d.wait(3500 * ms)
	v = d.at("pitch")
	require.Equal(t, learn.AndBack, v.Step)
	require.Equal(t, learn.Stayed, v.Notice.Code, "a pitch stick springs back")
	d.do((*learn.Learner).Skip)
	d.wait(300 * ms)
	require.Equal(t, learn.Returning, d.at("yaw").Phase)
	d.to(2, 0, 60*ms)
	d.wait(500 * ms)
	require.Equal(t, learn.Moving, d.at("yaw").Phase)
}

// A throttle that does not come down, a stick that goes only a part of its way, a knob that does.
func TestATryOfShortWays(t *testing.T) {
	d := trying(t, nil)
	d.corner()
	d.to(1, 800, 60*ms)
	d.wait(900 * ms)
	require.Equal(t, said(learn.TooShort, func(n *learn.Notice) { n.Job, n.Axis, n.Share = "pitch", 1, 800 }), d.at("pitch").Notice)
	d.to(1, 1000, 60*ms)
	d.wait(300 * ms)
	v := d.at("pitch")
	require.Equal(t, learn.Nothing, v.Notice.Code)
	require.Equal(t, learn.AndBack, v.Step)
	d.to(1, 500, 60*ms)
	d.wait(600 * ms)
	d.nudge(3, 1000, 500)
	d.nudge(0, 1000, 500)
	d.to(2, 1000, 100*ms)
	d.wait(300 * ms)
	d.to(2, 400, 100*ms)
	d.wait(900 * ms)
	require.Equal(t, said(learn.NotDown, func(n *learn.Notice) { n.Job, n.Axis, n.Share = "throttle", 2, 400 }), d.at("throttle").Notice)
	d.to(2, 0, 100*ms)
	d.wait(1200 * ms)
	d.flip(4, 1000)
	d.flip(5, 500, 1000)
	d.to(6, 600, 600*ms)
	d.wait(3000 * ms)
	require.Equal(t, said(learn.TooShort, func(n *learn.Notice) { n.Job, n.Axis, n.Share = "channel 9", 6, 600 }), d.at("channel 9").Notice)
}

// A radio that is pulled out in the middle is asked for the same control again.
func TestATryResumes(t *testing.T) {
	d := trying(t, nil)
	d.trySticks()
	d.at("arm")
	d.do((*learn.Learner).Resume)
	d.to(4, 300, 20*ms)
	d.to(4, 0, 20*ms)
	d.wait(1500 * ms)
	v := d.at("arm")
	require.Equal(t, learn.Lost, v.Notice.Code)
	require.True(t, v.Plan[4].Answered)
	d.flip(4, 1000)
	d.at("mode")
}

// Whatever answers nothing of the file but that it was given changes: what a person would say of a switch is not for a try.
func TestATryLeavesTheFileAlone(t *testing.T) {
	d := trying(t, nil)
	d.trySticks()
	d.do(func(l *learn.Learner) {
		l.SetStickMode(4)
		l.SetSpot("arm", radio.Spot{View: radio.Face, X: 1, Y: 1, Way: radio.GoesUp})
		l.SetSide(radio.Left)
		l.SetCalled("mine")
		l.SetMomentary(true)
		l.SetClicks(false)
	})
	d.trySwitches()
	require.Equal(t, learn.Done, d.play().Question)
	f, _ := d.l.File()
	want := deskFile()
	want.Given = false
	require.Equal(t, want, f)
	require.Equal(t, 1, d.l.View().StickMode)
}
