package learn_test

import (
	"testing"

	"propsoff.example/input"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
	"propsoff.example/sim/pulse"

	"github.com/stretchr/testify/require"
)

// Everything is answered as it is asked, and nothing is called out.
func TestAllAsAsked(t *testing.T) {
	d := newDesk(t)
	d.options = learn.Options{Free: []int{8, 9}}
	d.sticks()
	d.flip(4, 1000)
	d.do(func(l *learn.Learner) { l.SetSide(radio.Left); l.SetCalled("front: long") })
	d.flip(5, 500, 1000)
	placed := radio.Spot{View: radio.Shoulders, X: 900, Y: 300, Way: radio.GoesDown}
	d.do(func(l *learn.Learner) {
		l.SetSpot("mode", placed)
		l.SetSpot("throttle", placed)
		l.SetSpot("second", placed)
	})
	d.flip(6, 200, 400, 600, 800, 1000)
	d.do(func(l *learn.Learner) { l.SetSide(radio.Top) })
	d.press(3, true)
	d.wait(300 * ms)
	d.press(3, false)
	d.wait(2000 * ms)
	v := d.play()
	require.Equal(t, learn.More, v.Question)
	require.Zero(t, v.FreeLeft)
	require.Equal(t, 7, v.Last)
	d.noMore()
	d.corner()
	d.replaySticks()
	d.flip(4, 0)
	d.flip(5, 500)
	d.press(3, true)
	d.wait(100 * ms)
	d.press(3, false)
	d.wait(600 * ms)
	v = d.play()
	require.Equal(t, learn.Replay, v.Question)
	require.Equal(t, []learn.Replayed{{"pitch", true}, {"yaw", true}, {"roll", true}, {"throttle", true}, {"arm", true}, {"mode", true},
		{"channel 9", false}, {"channel 10", true}}, v.Replayed)
	d.flip(6, 0)
	v = d.play()
	require.Empty(t, d.noticed)
	require.Equal(t, learn.Done, v.Question)
	require.Equal(t, learn.Finished, v.Phase)
	require.Equal(t, len(v.Plan), v.Now)
	f, done := d.l.File()
	require.True(t, done)
	own, mid := func() *radio.Scale { s := radio.Own(d.info.Axes[0]); return &s }, radio.Reach{Low: 0, Rest: 500, High: 1000}
	full := radio.Reach{Low: 0, Rest: 0, High: 1000}
	at := func(raw ...int32) (out []radio.Position) {
		for _, r := range raw {
			out = append(out, radio.Position{At: radio.Halves(r)})
		}
		return out
	}
	require.Equal(t, []radio.Control{
		{Job: "pitch", Form: radio.Axis, Axis: 1, Scale: own(), Reach: &mid},
		{Job: "yaw", Form: radio.Axis, Axis: 3, Scale: own(), Reach: &mid},
		{Job: "roll", Form: radio.Axis, Axis: 0, Scale: own(), Reach: &mid},
		{Job: "throttle", Form: radio.Axis, Axis: 2, Scale: own(), Reach: &full, Stays: true},
		{Job: "arm", Form: radio.Axis, Axis: 4, Scale: own(), Reach: &full, Positions: at(0, 1000), Side: radio.Left, Called: "front: long"},
		{Job: "mode", Form: radio.Axis, Axis: 5, Side: radio.Right, Spot: placed, Scale: own(), Reach: &full, Positions: at(0, 500, 1000)},
		{Job: "channel 9", Form: radio.Axis, Axis: 6, Scale: own(), Reach: &full, Positions: at(0, 200, 400, 600, 800, 1000), Side: radio.Top},
		{Job: "channel 10", Form: radio.Button, Buttons: []int{3}, Momentary: true},
	}, f.Controls)
	require.Equal(t, radio.File{Device: radio.Device{Name: "Desk"}, StickMode: 2, Controls: f.Controls}, f)
}

// What a screen shows on the way.
func TestView(t *testing.T) {
	d := newDesk(t)
	l := learn.New(d.info, learn.Options{StickMode: 4, Also: []string{"second"}})
	v := l.View()
	require.Equal(t, learn.Pitch, v.Question)
	require.Equal(t, learn.HighEnd, v.Step)
	require.Equal(t, "pitch", v.Job)
	require.Equal(t, 4, v.StickMode)
	require.False(t, v.ModeKnown)
	require.False(t, v.Begun)
	require.False(t, v.CanBack)
	require.Equal(t, learn.NoUse, v.Enough)
	require.Equal(t, -1, v.Last)
	var asked []learn.Question
	var jobs []string
	for _, i := range v.Plan {
		asked, jobs = append(asked, i.Question), append(jobs, i.Job)
	}
	require.Equal(t, []learn.Question{learn.Pitch, learn.Yaw, learn.Roll, learn.Throttle, learn.Arm, learn.Mode, learn.Also, learn.More, learn.StickMode, learn.TopRight, learn.Replay}, asked)
	require.Equal(t, []string{"pitch", "yaw", "roll", "throttle", "arm", "mode", "second", "", "", "", ""}, jobs)

	d.to(1, 1000, 100*ms)
	d.wait(100 * ms)
	v = d.play()
	require.Equal(t, learn.Holding, v.Phase)
	require.Equal(t, 1, v.Axis)
	require.Equal(t, -1, v.Button)
	require.InDelta(t, 100*ms, v.Held, 15e3)
	require.Equal(t, 300*ms, v.HoldFor)
	require.Equal(t, 1000, v.Shares[1])
	require.Equal(t, 500, v.Shares[0])
	require.Equal(t, -1, v.Shares[8], "no such axis")
	d.wait(250 * ms)
	require.Equal(t, learn.LowEnd, d.play().Step)
	require.True(t, d.l.View().CanBack, "it can be begun again, though no question was before it")
	d.to(1, 0, 100*ms)
	d.wait(350 * ms)
	require.Equal(t, learn.LetGo, d.play().Step)
	_, done := d.l.File()
	require.False(t, done)
	d.to(1, 500, 60*ms)
	d.wait(600 * ms)
	v = d.play()
	require.Equal(t, learn.Yaw, v.Question)
	require.Len(t, v.Answers, 1)
	d.wait(400 * ms)
	d.sprung(3)
	d.sprung(0)
	d.throttle()
	d.to(5, 500, 20*ms)
	d.wait(300 * ms)
	d.to(5, 1000, 20*ms)
	d.wait(300 * ms)
	v = d.play()
	require.Equal(t, learn.Through, v.Step)
	require.Equal(t, 3, v.Positions)
	require.Equal(t, []int{0, 500, 1000}, v.Levels)
	require.Equal(t, 0, v.Start)
	require.Equal(t, learn.TakeIt, v.Enough)
	require.True(t, v.CanSkip)
}

// A stick that came from its high end and rests is not on its way to the other one yet, and no time runs before it is there.
func TestNothingIsWaitedForOnTheWay(t *testing.T) {
	d := newDesk(t)
	d.wait(2000 * ms)
	d.to(1, 1000, 200*ms)
	d.wait(1500 * ms)
	v := d.play()
	require.Equal(t, learn.LowEnd, v.Step)
	d.to(1, 500, 200*ms)
	d.wait(1000 * ms)
	v = d.play()
	require.Equal(t, learn.Moving, v.Phase, "let go")
	require.Zero(t, v.HoldFor)
	d.to(1, 250, 200*ms)
	d.wait(400 * ms)
	v = d.play()
	require.Equal(t, learn.Holding, v.Phase, "on its way")
	require.Zero(t, v.HoldFor)
	d.to(1, 0, 100*ms)
	d.wait(100 * ms)
	v = d.play()
	require.Equal(t, learn.LowEnd, v.Step)
	require.Equal(t, learn.Holding, v.Phase, "there")
	require.NotZero(t, v.HoldFor)
}

// Which hand carries what is asked once everything is found, and told by no reading; where it is known already it is not asked.
func TestWhichHandCarriesWhat(t *testing.T) {
	d := newDesk(t)
	d.options.StickMode = 3
	d.sticks()
	d.skip()
	d.skip()
	d.enough()
	d.to(0, 1000, 60*ms)
	d.wait(2000 * ms)
	v := d.play()
	require.Equal(t, learn.StickMode, v.Question)
	require.Equal(t, learn.Choose, v.Step)
	require.False(t, v.ModeKnown)
	require.Equal(t, 3, v.StickMode, "it is marked")
	require.Equal(t, []learn.Corner{{Job: "pitch", Share: 500}, {Job: "yaw", Share: 500}, {Job: "roll", Share: 1000, There: true}, {Job: "throttle"}}, v.Corners, "so that every picture can move as the sticks do")
	require.Equal(t, learn.TakeIt, v.Enough)
	d.l.SetStickMode(7)
	require.Equal(t, learn.StickMode, d.l.View().Question, "there is no such mode")
	d.l.SetStickMode(4)
	v = d.l.View()
	require.Equal(t, learn.TopRight, v.Question)
	require.Equal(t, 4, v.StickMode)
	require.True(t, v.ModeKnown)
	d.l.Back()
	v = d.l.View()
	require.Equal(t, learn.StickMode, v.Question)
	require.False(t, v.ModeKnown, "it is asked again")
	d.l.Enough()
	require.Equal(t, 4, d.l.View().StickMode)
	require.Equal(t, learn.TopRight, d.l.View().Question)
	d.l.Back()
	d.l.Back()
	require.Equal(t, learn.More, d.l.View().Question)

	d = newDesk(t)
	d.options = learn.Options{StickMode: 1, ModeGiven: true}
	d.sticks()
	d.skip()
	d.skip()
	d.enough()
	v = d.play()
	require.Equal(t, learn.TopRight, v.Question)
	require.Len(t, v.Plan, 9)
	require.True(t, v.ModeKnown)
	d.l.Restart()
	require.True(t, d.l.View().ModeKnown)
	require.Equal(t, 1, d.l.View().StickMode)
	l := learn.New(d.info, learn.Options{StickMode: 9, ModeGiven: true})
	require.False(t, l.View().ModeKnown, "no such mode is known")
}

// Who moves the sticks about to see which hand carries what holds them: how his hand trembles is no noise of the radio.
func TestAHandThatLooksForItselfIsNoNoise(t *testing.T) {
	d := newDesk(t)
	d.Noise(0, 1, 5)
	d.sticks()
	d.skip()
	d.skip()
	d.enough()
	for i := range int64(40) {
		at := 300 + 400*(i%2)
		d.to(0, at, 60*ms)
		for k := range int64(15) {
			d.to(0, at-10+20*(k%2), 20*ms)
		}
	}
	v := d.play()
	require.Equal(t, learn.StickMode, v.Question)
	require.InDelta(t, 8, int(v.Answers[2].Noise), 2, "whole numbers from −1 to 1: a deviation of 0.8")
}

func TestSkipBackRestart(t *testing.T) {
	d := newDesk(t)
	d.play()
	d.l.Skip()
	require.Equal(t, learn.CannotSkip, d.l.View().Notice.Code)
	require.Equal(t, learn.Pitch, d.l.View().Question)
	d.sticks()
	d.play()
	require.Equal(t, learn.Arm, d.l.View().Question)
	d.l.Back()
	v := d.l.View()
	require.Equal(t, learn.Throttle, v.Question)
	require.Len(t, v.Answers, 3)
	d.l.Skip()
	require.Equal(t, learn.Throttle, d.l.View().Question)
	d.l.Restart()
	v = d.l.View()
	require.Equal(t, learn.Pitch, v.Question)
	require.Empty(t, v.Answers)
	d.l.Back()
	require.Equal(t, learn.Pitch, d.l.View().Question)

	// Back in the middle of a question begins that one again, the first one too; in More it forgets what was found last.
	d = newDesk(t)
	d.options.Free = []int{10, 11}
	d.to(1, 1000, 100*ms)
	d.wait(500 * ms)
	require.Equal(t, learn.LowEnd, d.play().Step)
	d.back()
	d.to(1, 500, 100*ms)
	require.Equal(t, learn.Pitch, d.play().Question)
	require.Equal(t, learn.HighEnd, d.l.View().Step)
	d.wait(400 * ms)
	d.sticks()
	d.skip()
	d.skip()
	d.flip(4, 1000)
	d.flip(5, 1000)
	v = d.play()
	require.Len(t, v.Answers, 6)
	d.back()
	v = d.play()
	require.Equal(t, learn.More, v.Question)
	require.Equal(t, "channel 11", v.Answers[4].Job)
	require.Len(t, v.Answers, 5)
	require.Equal(t, -1, v.Last)
	require.Equal(t, 1, v.FreeLeft)
	require.True(t, v.Plan[4].Skipped)
	d.back()
	d.back()
	require.Equal(t, learn.Mode, d.play().Question)
	d.l.Back()
	require.Equal(t, learn.Arm, d.l.View().Question)
	d.l.Skip()
	d.l.Skip()
	require.Equal(t, learn.More, d.l.View().Question)
	d.l.Enough()
	require.Equal(t, learn.StickMode, d.l.View().Question)
	d.l.SetStickMode(1)
	require.Equal(t, learn.TopRight, d.l.View().Question)
	d.l.Enough()
	require.Equal(t, learn.Replay, d.l.View().Question)
	d.l.Back()
	require.Equal(t, learn.TopRight, d.l.View().Question)
	d.l.Back()
	d.l.Back()
	require.Equal(t, learn.More, d.l.View().Question)
	for range 4 {
		d.l.Enough()
	}
	f, done := d.l.File()
	require.True(t, done)
	require.Equal(t, 1, f.StickMode)
	require.Len(t, f.Controls, 4)
	d.l.Back()
	d.l.Enough()
	require.Equal(t, learn.Done, d.l.View().Question)
}

// A still hand sends nothing: without a tick nothing goes on, and one late tick is enough.
func TestTimeMustBeTold(t *testing.T) {
	l := learn.New(deskInfo(), learn.Options{})
	var raw input.Raw
	raw.Axes[0] = 500
	l.Feed(raw)
	require.Equal(t, learn.Settling, l.View().Phase)
	l.Tick(10_000 * ms)
	require.Equal(t, learn.Moving, l.View().Phase)
	l.Tick(5)
	raw.At, raw.Axes[0] = 10_100*ms, 1000
	l.Feed(raw)
	l.Tick(10_399 * ms)
	require.Equal(t, learn.HighEnd, l.View().Step, "held for less than 300 ms")
	l.Tick(10_400 * ms)
	require.Equal(t, learn.LowEnd, l.View().Step)
}

// frameOf is what the learned radio sends for a raw state.
func frameOf(t *testing.T, d *desk, change func(raw *input.Raw)) pulse.Frame {
	t.Helper()
	f, done := d.l.File()
	require.True(t, done, "%+v", d.l.View())
	names := input.Names{Channel: map[string]int{"roll": 0, "pitch": 1, "throttle": 2, "yaw": 3, "arm": 4, "mode": 5}}
	m, err := radio.NewMapper(f, d.info, names)
	require.NoError(t, err)
	raw := d.l.View().Raw
	change(&raw)
	var out pulse.Frame
	m.Map(&raw, &out)
	return out
}

// finish skips everything after the sticks.
func (d *desk) finish() {
	for range 6 {
		d.do(func(l *learn.Learner) { l.Skip(); l.Enough() })
		d.wait(400 * ms)
	}
}

// A throttle that ends at 1012 µs reads 1012 µs after it was learned: the reach says so, and the scale is the device's.
func TestThrottleThatEndsShort(t *testing.T) {
	info := deskInfo()
	for i := range info.Axes {
		info.Axes[i].Max = 2047
	}
	d := deskOf(t, info, learn.Options{})
	d.ShortTravel(2, 48, 2047) // 988 + 48·1024/2047 = 1012.01 µs
	d.Noise(2, 3, 9)
	d.OffCentre(0, 60) // 30 µs
	d.sticks()
	d.finish()
	d.play()
	f, _ := d.l.File()
	throttle, _ := f.Control("throttle")
	require.InDelta(t, 48, throttle.Reach.Low, 1)
	require.InDelta(t, 20, int(throttle.Noise), 3, "uniform from −3 to 3: a deviation of 2")
	roll, _ := f.Control("roll")
	require.Equal(t, int32(1083), roll.Reach.Rest)
	w := frameOf(t, d, func(raw *input.Raw) { raw.Axes[2] = throttle.Reach.Low })
	require.InDelta(t, 1012, float64(w[2])/pulse.Eighths, 0.6)
	require.InDelta(t, 1530, float64(w[0])/pulse.Eighths, 0.6)
}

// An axis that trembles by 8 raw steps is learned, also where these are more than a hand's stillness.
func TestEightStepsOfNoise(t *testing.T) {
	info := deskInfo()
	for i := range info.Axes {
		info.Axes[i].Max = 255
	}
	d := deskOf(t, info, learn.Options{})
	for i := range info.Axes {
		d.Noise(i, 8, uint64(i)+1)
	}
	d.wait(8000 * ms)
	d.sticks()
	d.flip(4, 1000)
	d.flip(5, 500, 1000)
	d.finish()
	d.play()
	for _, n := range d.noticed {
		require.Contains(t, []learn.Code{learn.Restless, learn.StillMoving}, n.Code)
	}
	f, done := d.l.File()
	require.True(t, done)
	mode, _ := f.Control("mode")
	require.Len(t, mode.Positions, 3)
	require.InDelta(t, 127, float64(mode.Positions[1].At)/2, 4)
	require.InDelta(t, 49, int(mode.Positions[1].Spread), 12, "uniform from −8 to 8: a deviation of 4.9")
	roll, _ := f.Control("roll")
	require.InDelta(t, 127, roll.Reach.Rest, 2)
	require.InDelta(t, 49, int(roll.Noise), 8)
	require.LessOrEqual(t, roll.Reach.Low, int32(8))
	require.GreaterOrEqual(t, roll.Reach.High, int32(247))
}

// The device goes in the middle of a question and comes back with a clock of its own: that question starts again, and
// nothing learned is lost.
func TestResume(t *testing.T) {
	for _, told := range []bool{true, false} {
		l := learn.New(deskInfo(), learn.Options{})
		feed := func(from int64, at int64, axis int, v int32) {
			raw := input.Raw{At: from + at}
			raw.Axes[0], raw.Axes[1], raw.Axes[3] = 500, 500, 500
			raw.Axes[axis] = v
			l.Feed(raw)
		}
		stick := func(from int64, axis int, home int32, until int) {
			for i, v := range []int32{1000, 0, home}[:until] {
				feed(from, int64(i)*1500*ms, axis, v)
				l.Tick(from + int64(i)*1500*ms + 1400*ms)
			}
		}
		feed(0, 0, 0, 500)
		l.Tick(1000 * ms)
		stick(20_000*ms, 1, 500, 3)
		require.Equal(t, learn.Yaw, l.View().Question)
		stick(30_000*ms, 3, 500, 2)
		require.Equal(t, learn.LetGo, l.View().Step)
		if told {
			l.Resume()
			l.Tick(40_000 * ms)
		}
		feed(0, 10*ms, 3, 500) // a clock that began anew
		v := l.View()
		require.Equal(t, learn.Yaw, v.Question)
		require.Equal(t, learn.HighEnd, v.Step)
		require.Equal(t, learn.Lost, v.Notice.Code)
		require.Len(t, v.Answers, 1)
		l.Tick(1000 * ms)
		stick(1100*ms, 3, 500, 3)
		require.Equal(t, learn.Roll, l.View().Question)
	}
}

// Axes without a range, no axes at all, and more of everything than a state can hold do no harm.
func TestOddDevices(t *testing.T) {
	for _, info := range []input.Info{
		{},
		{Axes: make([]input.Axis, 5), Buttons: 3},
		{Axes: make([]input.Axis, 100), Buttons: 1000},
		{Axes: []input.Axis{{Min: -1 << 31, Max: 1<<31 - 1}}, Buttons: 200},
	} {
		l := learn.New(info, learn.Options{Free: []int{-1, 99, 7, 7}, Also: []string{"", "second", "second"}})
		for at := int64(0); at < 5000*ms; at += 50 * ms {
			raw := input.Raw{At: at}
			raw.Axes[0], raw.Buttons[1] = int32(at%2), uint64(at)
			l.Feed(raw)
			l.Enough()
			l.View()
		}
		require.Equal(t, learn.Pitch, l.View().Question)
		require.LessOrEqual(t, l.View().FreeLeft, 1)
		l.Back()
		l.SetSide(radio.Top)
		l.SetCalled("x")
		l.SetSpot("arm", radio.Spot{View: radio.Face, Way: radio.GoesUp})
		l.SetMomentary(true)
		_, done := l.File()
		require.False(t, done)
	}
}
