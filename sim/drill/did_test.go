package drill

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/fault"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/mark"
	"propsoff.example/sim/pulse"
)

// walk is a desk whose hands are followed; what is held is what the facts say.
type walk struct {
	*desk
	way Way
}

func newWalk(c Case) *walk {
	c.WaitLow, c.WaitHigh, c.Within = 2000, 2500, 1000
	w := &walk{desk: newDesk(&Config{Code: "w", Tries: 9, InARow: 9, Cases: []Case{c}}, 2)}
	for j := Throttle; j <= Second; j++ {
		w.in.Facts.Held[j] = pulse.Centre
	}
	w.in.Facts.Held[Throttle], w.in.Facts.Held[Arm], w.in.Facts.Held[ModeJob] = pulse.Low, pulse.Low, pulse.Low
	return w
}

// pass lets ms pass.
func (w *walk) pass(ms int) *walk {
	for range ms {
		w.run(1)
		w.way.Step(&w.s, &w.in)
	}
	return w
}

func (w *walk) to(p Phase) *walk {
	for range 200_000 {
		if w.s.Phase == p {
			return w
		}
		w.pass(1)
	}
	panic(p)
}

// stick takes a stick somewhere within ms, as a hand does.
func (w *walk) stick(j Job, to pulse.Width, ms int) *walk {
	from := w.in.Facts.Held[j]
	for i := range ms {
		h := from + pulse.Width(int(to-from)*(i+1)/ms)
		w.in.Facts.Held[j] = h
		w.in.Facts.Sticks[j-Throttle] = zone(h)
		w.pass(1)
	}
	return w
}

func (w *walk) armSwitch(on bool) *walk {
	w.in.Facts.Arm, w.in.Facts.Held[Arm] = layout.Outside, pulse.Low
	if on {
		w.in.Facts.Arm, w.in.Facts.Held[Arm] = layout.Inside, pulse.High
	}
	return w
}

// What a hand did is told from its readings: which control moved, when, how far.
func TestWhatTheHandDid(t *testing.T) {
	yawLeft := Case{Wants: []Want{{Kind: Stick, A: 3, B: 1 << Low}}, Nevers: []Want{{Kind: Stick, A: 1, B: 1<<Low | 1<<High}, {Kind: Stick, A: 3, B: 1 << High}}}
	down := Case{Wants: []Want{{Kind: Stick, A: 0, B: 1<<Down | 1<<Low}}}
	offAtOnce := Case{Wants: []Want{{Kind: DisarmedBy, A: 1 << happening.BySwitch}}, Before: []Preparation{{Until: []Want{{Kind: ArmSwitch, A: 0}}}}}
	both := Case{Wants: []Want{{Kind: Stick, A: 0, B: 1 << High}, {Kind: Stick, A: 3, B: 1 << Low}}, InOrder: true}
	corner := Case{Wants: []Want{{Kind: DisarmedBy, A: 1 << happening.BySticks}}}
	held := Case{Wants: []Want{{Kind: Stick, A: 3, B: 1 << Low, For: 500}}}
	mark := Case{Wants: []Want{{Kind: Stick, A: 0, B: 1 << Down}}}
	twice := Case{Wants: []Want{{Kind: Armed, A: 1}, {Kind: DisarmedBy, A: 1 << happening.BySwitch}}, InOrder: true}
	horizon := Case{Wants: []Want{{Kind: ModeSwitch, A: 1}}}
	planted := Case{Wants: yawLeft.Wants, Set: []Put{{Kind: pulse.Instructor, Fault: Fault{Deed: fault.Swapped, Job: Yaw, Other: Pitch}}}}
	high := Task{Set: 1 << OfHeight, Spans: [Bounds]Span{OfHeight: {1000, NoHigh}}}
	alarm := Case{InOrder: true, Before: []Preparation{{Until: []Want{{Kind: Flies, Task: high}}}}, Wants: []Want{{Kind: DisarmedBy, A: 1 << happening.BySwitch}, {Kind: Stick, A: 0, B: 1 << Down}}}
	us := pulse.Micros
	for _, c := range []struct {
		name string
		of   Case
		hand func(w *walk)
		want Did
	}{
		{"nothing at all", yawLeft, func(w *walk) { w.to(Running) }, Did{Kind: DidNothing, Job: Yaw}},
		{"another stick, not to its end", yawLeft, func(w *walk) { w.to(Running).pass(200).stick(Pitch, us(1700), 40) }, Did{Kind: DidOther, Job: Yaw, Instead: Pitch, Way: us(200)}},
		{"another stick, to its end", yawLeft, func(w *walk) { w.to(Running).pass(200).stick(Roll, us(2012), 40) }, Did{Kind: DidFirst, Job: Roll, Way: us(448)}},
		{"another stick too", yawLeft, func(w *walk) { w.to(Running).pass(200).stick(Yaw, us(1300), 40).stick(Roll, us(2012), 64) }, Did{Kind: DidToo, Job: Roll, Way: us(440)}},
		{"the other way", yawLeft, func(w *walk) { w.to(Running).pass(200).stick(Yaw, us(2012), 64) }, Did{Kind: DidWrongWay, Job: Yaw, Way: us(440)}},
		{"too short", yawLeft, func(w *walk) { w.to(Running).pass(200).stick(Yaw, us(1200), 50).pass(20).stick(Yaw, us(1500), 50) }, Did{Kind: DidShort, Job: Yaw, Zones: 1 << Low, Way: us(300), At: us(1200)}},
		{"swept through", yawLeft, func(w *walk) { w.to(Running).pass(200).stick(Yaw, us(988), 64).pass(50).stick(Yaw, us(1500), 64) }, Did{Kind: DidThrough, Job: Yaw, Zones: 1 << Low, Way: us(512), By: 74}},
		{"not low", down, func(w *walk) {
			w.in.Facts.Held[Throttle], w.in.Facts.Sticks[0] = us(1800), Above
			w.to(Running).pass(200).stick(Throttle, us(1420), 50)
		}, Did{Kind: DidShort, Job: Throttle, Zones: 1<<Down | 1<<Low, Way: us(380), At: us(1420)}},
		{"before the call", offAtOnce, func(w *walk) {
			w.to(Waiting)
			for w.s.Due > w.in.Tick+300 {
				w.pass(1)
			}
			w.armSwitch(true).pass(1)
		}, Did{Kind: DidEarly, Job: Arm, By: 299}},
		{"the switch was not touched", offAtOnce, func(w *walk) { w.to(Running).pass(200).stick(Throttle, us(1420), 50) }, Did{Kind: DidOther, Job: Arm, Instead: Throttle, Way: us(432)}},
		{"the second before the first", both, func(w *walk) { w.to(Running).pass(200).stick(Yaw, us(988), 64) }, Did{Kind: DidFirst, Job: Yaw, Way: us(512)}},
		{"the second after something else", both, func(w *walk) { w.to(Running).pass(200).stick(Pitch, us(1700), 40).stick(Yaw, us(988), 64) }, Did{Kind: DidToo, Job: Yaw, Way: us(512)}},
		{"another one first, and to its end another", yawLeft, func(w *walk) { w.to(Running).pass(200).stick(Pitch, us(1700), 40).stick(Roll, us(2012), 64) }, Did{Kind: DidToo, Job: Roll, Way: us(440)}},
		{"the other way, not to its end", yawLeft, func(w *walk) { w.to(Running).pass(200).stick(Yaw, us(1700), 50) }, Did{Kind: DidWrongWay, Job: Yaw, Way: us(200)}},
		{"there when the time was up", yawLeft, func(w *walk) { w.to(Running).pass(1100).stick(Yaw, us(988), 64) }, Did{Kind: DidLate, By: 157}},
		{"there, and not yet for long enough", held, func(w *walk) { w.to(Running).pass(700).stick(Yaw, us(988), 64) }, Did{}},
		{"below the mark when the time was up", mark, func(w *walk) {
			w.in.Facts.Held[Throttle], w.in.Facts.Sticks[0] = us(1500), Middle
			w.to(Running).pass(1100).stick(Throttle, us(990), 20).in.Facts.Sticks[0] = Down
			w.in.Facts.Held[Throttle] = us(988)
		}, Did{Kind: DidLate, By: 125}},
		{"moved before the call, and then nothing", yawLeft, func(w *walk) { w.to(Waiting).stick(Pitch, us(1700), 50).to(Running) }, Did{Kind: DidNothing, Job: Yaw}},
		{"disarmed in flight, the throttle left", alarm, func(w *walk) {
			w.in.Facts.Flown, w.in.Facts.Held[Throttle], w.in.Facts.Sticks[0] = Flown{On: true, Height: 3000}, us(1310), Below
			w.armSwitch(true).to(Waiting).stick(Pitch, us(1700), 50).to(Running).pass(200).stick(Pitch, us(1400), 50).armSwitch(false)
			w.run(1, happening.Happening{Code: happening.Disarmed, A: int32(happening.BySwitch)})
		}, Did{Kind: DidNothing, Job: Throttle}},
		{"armed, and not disarmed", twice, func(w *walk) {
			w.to(Running).pass(200).armSwitch(true).in.Happened = []happening.Happening{{Code: happening.Armed}}
			w.in.Facts.Armed = true
			w.pass(1).in.Happened = nil
		}, Did{}},
		{"the right mode, too late", horizon, func(w *walk) { w.to(Running).pass(1100).in.Facts.HandMode = 2 }, Did{}},
		{"another mode", horizon, func(w *walk) { w.to(Running).pass(300).in.Facts.HandMode = 3 }, Did{Kind: DidElsewhere, Job: ModeJob}},
		{"what is sent is not what the hand did", planted, func(w *walk) { w.to(Running).pass(200).stick(Pitch, us(1700), 40) }, Did{}},
		{"half the corner", corner, func(w *walk) {
			w.in.Facts.Held[Arm] = pulse.Missing
			w.to(Running).pass(200).stick(Throttle, us(1200), 50).stick(Throttle, us(988), 50)
		}, Did{Kind: DidNothing, Job: Yaw}},
		{"the corner was not reached", corner, func(w *walk) {
			w.in.Facts.Held[Arm] = pulse.Missing
			w.to(Running).pass(200).stick(Yaw, us(1150), 50)
		}, Did{Kind: DidShort, Job: Yaw, Zones: 1 << Low, Way: us(350), At: us(1150)}},
	} {
		w := newWalk(c.of)
		c.hand(w)
		w.to(Looking)
		try := w.last(t)
		assert.Equal(t, c.want, DidOf(w.cfg, &try, &w.way), "%s: verdict %d, why %d", c.name, try.Verdict, try.Why)
	}

	w := newWalk(yawLeft)
	w.to(Running).pass(200).stick(Yaw, us(988), 64).to(Resting)
	try := w.last(t)
	assert.Equal(t, Right, try.Verdict)
	assert.Zero(t, DidOf(w.cfg, &try, &w.way), "there is nothing to say of a right one")
	late := Try{Verdict: TooLate, Why: CameLate, Reaction: 1310}
	assert.Equal(t, Did{Kind: DidLate, By: 310}, DidOf(w.cfg, &late, &w.way))
}

// A way has the hands of one try, from the wait to the end, in bounded room; the next try begins anew.
func TestTheWayOfATry(t *testing.T) {
	w := newWalk(Case{Wants: []Want{{Kind: Stick, A: 3, B: 1 << Low}}})
	w.cfg.Cases[0].Within = 60_000
	w.to(Running)
	cue := w.in.Tick
	for range 25 { // 50 s of a hand that never rests
		w.stick(Roll, pulse.Micros(1800), 1000).stick(Roll, pulse.Micros(1200), 1000)
	}
	w.to(Looking)
	assert.Equal(t, cue, w.way.Cue)
	assert.True(t, w.way.Called)
	assert.Equal(t, w.in.Tick, w.way.To)
	assert.Equal(t, mostMoments, w.way.Moments())
	assert.Greater(t, w.way.To-w.way.At(0).Tick, int64(30_000), "the last half minute is there")
	for i := 1; i < w.way.Moments(); i++ {
		assert.Less(t, w.way.At(i-1).Tick, w.way.At(i).Tick)
	}
	at := w.way.At(100).Tick
	assert.Equal(t, *w.way.At(100), *w.way.Held(at + 1))
	assert.Equal(t, w.way.Before, *w.way.Held(w.way.From - 1))
	w.in.On = true
	w.pass(1).to(Waiting)
	assert.LessOrEqual(t, w.way.Moments(), 1)
	assert.Zero(t, testing.AllocsPerRun(1000, func() { w.way.Step(&w.s, &w.in) }))
}

// What a mark measured stays until the pupil has read it: a try that was not measured, and one that was where the run goes on; where it ends, the end tells it.
func TestWhatAMarkMeasuredStays(t *testing.T) {
	for _, c := range []struct {
		measured bool
		row      uint16
		then     Phase
	}{{false, 1, Looking}, {true, 2, Looking}, {true, 1, Resting}} {
		d := newDesk(&Config{Code: "m", Tries: 9, InARow: c.row, Cases: []Case{{Wants: []Want{{Kind: Followed}}, Within: 90_000, Mark: mark.Config{Axis: mark.Roll, Seconds: 60}}}}, 1)
		for n := 0; d.s.Phase != Running || d.s.CueAt < 0; n++ {
			require.Less(t, n, 20_000)
			d.run(1)
		}
		d.in.Followed, d.in.Hand.Measured = true, c.measured
		d.run(1)
		d.in.Followed = false
		require.Equal(t, c.then, d.s.Phase, "%+v", c)
		d.run(20_000)
		if c.then == Resting {
			require.Equal(t, Over, d.s.Phase)
			continue
		}
		require.Equal(t, Looking, d.s.Phase, "%+v", c)
		d.in.On = true
		d.run(1)
		require.NotEqual(t, Looking, d.s.Phase, "%+v", c)
	}
}
