package learn_test

import (
	"testing"

	"propsoff.example/input"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"

	"github.com/stretchr/testify/require"
)

// atReplay answers all before the replay: sticks, an arm switch on axis 5 and a mode switch on axis 6, of which only two
// of three positions were shown.
func atReplay(t *testing.T) *desk {
	d := newDesk(t)
	d.sticks()
	d.flip(4, 1000)
	d.flip(5, 1000)
	d.noMore()
	d.corner()
	require.Equal(t, learn.Replay, d.play().Question)
	require.Empty(t, d.noticed)
	return d
}

func seen(v learn.View) (jobs []string) {
	for _, r := range v.Replayed {
		if r.Seen {
			jobs = append(jobs, r.Job)
		}
	}
	return jobs
}

// Two controls that are moved at once are not ticked off; each is, once it moves alone.
func TestReplayOneAtATime(t *testing.T) {
	d := atReplay(t)
	d.Move(d.now, 100*ms, 1, 1000)
	d.to(0, 1000, 100*ms)
	d.wait(200 * ms)
	v := d.play()
	require.Equal(t, said(learn.Two, func(n *learn.Notice) { n.Axis, n.OtherAxis, n.Job, n.OtherJob = 1, 0, "pitch", "roll" }), v.Notice)
	require.Equal(t, learn.Returning, v.Phase)
	d.to(0, 500, 100*ms)
	d.wait(200 * ms)
	require.NotContains(t, seen(d.play()), "roll", "one of the two is still away")
	d.to(1, 500, 100*ms)
	d.wait(200 * ms)
	d.nudge(0, 1000, 500)
	v = d.play()
	require.Equal(t, []string{"roll", "throttle"}, seen(v), "the throttle came down alone after the corner")
	require.Equal(t, learn.Nothing, v.Notice.Code)

	// Lost readings keep what was ticked off.
	d.Lose(d.now, d.now+30*ms)
	d.wait(500 * ms)
	v = d.play()
	require.Equal(t, learn.Lost, v.Notice.Code)
	require.Equal(t, []string{"roll", "throttle"}, seen(v))
	d.nudge(1, 0, 500)
	d.nudge(3, 0, 500)
	d.flip(4, 0)
	require.Equal(t, learn.Replay, d.play().Question)
	d.flip(5, 0)
	require.Equal(t, learn.Done, d.play().Question)
}

// A position that was passed over in its question is found in the replay.
func TestReplayFindsMorePositions(t *testing.T) {
	d := atReplay(t)
	d.to(5, 500, 20*ms)
	d.wait(500 * ms)
	v := d.play()
	require.Equal(t, said(learn.MorePositions, func(n *learn.Notice) { n.Job, n.Axis, n.Count = "mode", 5, 3 }), v.Notice)
	require.Equal(t, []radio.Position{{At: 0}, {At: 1000}, {At: 2000}}, v.Answers[5].Positions)
	require.Contains(t, seen(v), "mode")
}

// The replay can be left, and what was learned stands.
func TestReplayEnough(t *testing.T) {
	d := atReplay(t)
	require.Equal(t, learn.NoMore, d.play().Enough)
	d.enough()
	v := d.play()
	require.Equal(t, learn.Done, v.Question)
	require.True(t, v.Plan[len(v.Plan)-1].Skipped)
	_, done := d.l.File()
	require.True(t, done)
}

// From the corner check one goes back to the control that is wrong, answers it anew, and comes back to the check.
// A switch whose answer was given up stands at its last position. Its way back to the first one is no answer, the wrong way round: it is waited
// for, and then the same is learned as before, or what the hand shows better.
func TestBackToASwitchWaitsUntilItStandsWhereItBegan(t *testing.T) {
	for name, c := range map[string]struct{ hand, back func(d *desk) }{
		"axis":                  {func(d *desk) { d.flip(5, 500, 1000) }, func(d *desk) { d.to(5, 0, 20*ms) }},
		"axis, from the middle": {func(d *desk) { d.flip(5, 500); d.flip(5, 1000) }, func(d *desk) { d.to(5, 500, 20*ms); d.wait(400 * ms); d.to(5, 0, 20*ms) }},
		"button":                {func(d *desk) { d.presses(-1, 7) }, func(d *desk) { d.press(7, false) }},
		"row":                   {func(d *desk) { d.presses(-1, 7, 8) }, func(d *desk) { d.press(8, false); d.wait(300 * ms) }},
	} {
		t.Run(name, func(t *testing.T) {
			d := newDesk(t)
			d.sticks()
			c.hand(d)
			v := d.play()
			require.Equal(t, learn.Mode, v.Question)
			was := v.Answers[v.Last]

			d.back()
			d.wait(1100 * ms)
			v = d.play()
			require.Equal(t, learn.Arm, v.Question)
			require.Equal(t, learn.Returning, v.Phase)
			require.Equal(t, learn.StartFirst, v.Notice.Code)
			c.back(d)
			d.wait(3000 * ms)
			v = d.play()
			require.Equal(t, learn.Arm, v.Question, "its way back is no answer")
			require.Equal(t, learn.Moving, v.Phase)
			c.hand(d)
			v = d.play()
			require.Equal(t, learn.Mode, v.Question)
			now := v.Answers[v.Last]
			require.Equal(t, was.Buttons, now.Buttons)
			require.Equal(t, was.Scale, now.Scale, "and the same way round")
			require.Len(t, now.Positions, len(was.Positions))
			require.NotEqual(t, learn.StartFirst, v.Notice.Code)
		})
	}
}

func TestBackFromTheCorner(t *testing.T) {
	d := newDesk(t)
	d.pitch()
	d.stick(3, 0, 1000, 500) // yaw the wrong way round
	d.sprung(0)
	d.throttle()
	d.flip(4, 1000)
	d.skip()
	d.noMore()
	d.corner()
	v := d.play()
	require.Equal(t, learn.TurnedRound, v.Notice.Code)
	require.Equal(t, learn.Corner{Job: "yaw", Share: 500}, v.Corners[1], "it has been let go")
	d.back()
	v = d.play()
	require.Equal(t, learn.Yaw, v.Question)
	require.Len(t, v.Answers, 4)
	d.sprung(3)
	v = d.play()
	require.Equal(t, learn.TopRight, v.Question)
	require.Equal(t, []string{"pitch", "yaw", "roll", "throttle", "arm"}, []string{v.Answers[0].Job, v.Answers[1].Job, v.Answers[2].Job, v.Answers[3].Job, v.Answers[4].Job})
	d.corner()
	require.Equal(t, learn.Replay, d.play().Question)
	own := radio.Own(d.info.Axes[3])
	require.Equal(t, &own, d.l.View().Answers[1].Scale)
}

// Turned: the directions that are at their low ends, as long as they are held there.
func TestCorners(t *testing.T) {
	d := newDesk(t)
	d.pitch()
	d.stick(3, 0, 1000, 500)
	d.sprung(0)
	d.throttle()
	d.skip()
	d.skip()
	d.noMore()
	d.intoCorner()
	v := d.play()
	require.Equal(t, []learn.Corner{{"pitch", 1000, true, false}, {"yaw", 0, false, true}, {"roll", 1000, true, false}, {"throttle", 1000, true, false}}, v.Corners)

	// A throttle that stays down is not turned round: it has not moved.
	d = newDesk(t)
	d.sticks()
	d.skip()
	d.skip()
	d.noMore()
	for _, axis := range []int{0, 1, 3} {
		d.Move(d.now, 100*ms, axis, 1000)
	}
	d.wait(3000 * ms)
	require.Equal(t, said(learn.NotThere, func(n *learn.Notice) { n.Job, n.Axis = "throttle", 2 }), d.play().Notice)
}

// Feed at a thousand reports a second, from a radio of 12 axes and 24 buttons that are all known but one, while the
// questions wait: what one report costs.
func BenchmarkFeed(b *testing.B) {
	info := input.Info{Buttons: 24}
	for i := range 12 {
		info.Axes = append(info.Axes, input.Axis{Code: i, Max: 2047})
	}
	for name, answered := range map[string]bool{"pitch": false, "more": true} {
		b.Run(name, func(b *testing.B) {
			d := deskOf(b, info, learn.Options{Free: []int{8, 9, 10}})
			if answered {
				d.sticks()
				d.flip(4, 1000)
				d.flip(5, 500, 1000)
				d.flip(6, 1000)
				d.press(3, true)
				d.wait(2000 * ms)
			}
			for i := range info.Axes {
				d.Noise(i, 3, uint64(i))
			}
			d.play()
			if want := map[bool]learn.Question{false: learn.Pitch, true: learn.More}[answered]; d.l.View().Question != want {
				b.Fatalf("at question %d", d.l.View().Question)
			}
			raw, at := d.l.View().Raw, d.now
			b.ReportAllocs()
			b.ResetTimer()
			for i := range b.N {
				at += 1000
				raw.At = at
				for k := range info.Axes {
					raw.Axes[k] += int32((i+k)%5) - 2
				}
				d.l.Feed(raw)
			}
		})
	}
}
