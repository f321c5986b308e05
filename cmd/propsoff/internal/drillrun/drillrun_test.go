package drillrun

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/input"
	"propsoff.example/sim"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// bed is a real practice with a coach that looks on; the test is the hand and the eye.
type bed struct {
	t     *testing.T
	p     *practice.Practice
	c     *Coach
	base  sim.Config
	d     *drillfile.Drill
	queue []pulse.Reading
	frame pulse.Frame
	moved bool
	// used are the crafts that the coach has put on the bench, noted what was noted of each; by drives.
	used  []sim.Config
	noted []string
	by    input.By
	ended []Result
	view  View
}

func (b *bed) UseCraft(cfg sim.Config, note string) {
	b.used, b.noted = append(b.used, cfg), append(b.noted, note)
	if b.p.Bench().State().In.Powered {
		b.queue = append(b.queue, pulse.Reading{Kind: pulse.Power, Value: 1})
	}
	b.p.Change(cfg)
}

func (b *bed) Driving() input.By { return b.by }

func newBed(t *testing.T, code string, o Options) *bed {
	name, text, ok := assets.Craft(assets.BuiltIn)
	require.True(t, ok)
	f, err := craftfile.Parse(name, text)
	require.NoError(t, err)
	b := &bed{t: t, base: f.Config(), c: New(), moved: true, by: input.ByRadio}
	_, text, ok = assets.Drill(code)
	require.True(t, ok)
	b.d, err = drillfile.Parse(code, text, drillfile.Known{})
	require.NoError(t, err)
	b.p = practice.New(b.base)
	b.queue = []pulse.Reading{{Kind: pulse.Plug, Value: 1}, {Kind: pulse.Link, Value: 1}, {Kind: pulse.Power, Value: 1}}
	for i := range b.frame {
		b.frame[i] = pulse.Low
	}
	l := &b.base.Layout
	b.frame[l.Roll], b.frame[l.Pitch], b.frame[l.Yaw] = pulse.Centre, pulse.Centre, pulse.Centre
	o.Bench, o.Put, o.Ended = b, func(k pulse.Kind, v int32) { b.queue = append(b.queue, pulse.Reading{Kind: k, Value: v}) }, func(r Result) { b.ended = append(b.ended, r) }
	b.c.Attach(o)
	return b
}

func (b *bed) start(seed uint64) { b.c.Start(&b.d.Config, b.base, 20000, seed) }

// tick runs one ms and gives its number.
func (b *bed) tick() int64 {
	if b.moved {
		b.queue = append(b.queue, pulse.Reading{Kind: pulse.Controls, Frame: b.frame})
		b.moved = false
	}
	now := b.queue
	b.queue = nil
	b.p.Step(now)
	b.c.Listen(b.p)
	b.c.View(&b.view)
	return b.p.Tick() - 1
}

// until runs on to what is waited for.
func (b *bed) until(what string, is func(*View) bool) int64 {
	for range 120_000 {
		if tick := b.tick(); is(&b.view) {
			return tick
		}
	}
	b.t.Fatalf("never: %s", what)
	return 0
}

func cueDue(v *View) bool { return v.Cue > 0 && v.State.CueAt < 0 }

func (b *bed) yaw(w pulse.Width) {
	b.frame[b.base.Layout.Yaw], b.moved = w, true
}

// asked is where the case that runs wants the yaw stick (find-yaw: the first case is left, the second right).
func (b *bed) asked() pulse.Width {
	if b.view.State.Case == 0 {
		return pulse.Low
	}
	return pulse.High
}

// oneTry shows the cue when it is due, moves after so many ms, and comes back to the middle; seen is when the cue was seen.
func (b *bed) oneTry(after int64, to func() pulse.Width) (seen int64) {
	seen = b.until("a cue", cueDue)
	require.Equal(b.t, len(b.view.Tries)+1, b.view.Cue, "cues are counted over the run")
	b.c.Shown(b.view.Cue, seen, 17)
	for n := int64(1); n < after; n++ {
		b.tick()
	}
	n := len(b.view.Tries)
	b.yaw(to())
	require.Equal(b.t, seen+after, b.tick())
	b.until("a verdict", func(v *View) bool { return len(v.Tries) > n })
	b.yaw(pulse.Centre)
	return seen
}

func TestARunIsKeptAsItWas(t *testing.T) {
	b := newBed(t, "find-yaw", Options{})
	b.start(5)
	times := []int64{250, 301, 447, 999}
	for i, after := range times {
		seen := b.oneTry(after, b.asked)
		if i+1 == len(times) {
			break
		}
		try := b.view.Tries[i]
		assert.Equal(t, drill.Right, try.Verdict)
		assert.EqualValues(t, after, try.Reaction, "from the tick at which the cue was seen to the reading")
		assert.EqualValues(t, 17, try.Uncertain)
		assert.Equal(t, seen, b.view.State.CueAt)
		assert.Empty(t, b.ended)
	}
	b.until("the end", func(v *View) bool { return v.State.Phase == drill.Over })
	require.Len(t, b.ended, 1)
	run := b.ended[0]
	assert.Equal(t, Result{Run: drill.Run{Drill: "find-yaw", Day: 20000, Seed: 5, Learned: true, Tries: run.Tries}, Radio: true}, run)
	assert.Equal(t, "drill find-yaw", b.noted[0])
	assert.Empty(t, b.noted[len(b.noted)-1])
	require.Len(t, run.Tries, 4)
	for i, after := range times {
		assert.EqualValues(t, after, run.Tries[i].Reaction)
	}
	require.NotEmpty(t, b.used)
	assert.Equal(t, b.base, b.used[len(b.used)-1], "the pupil's own craft is on the bench again")
	assert.True(t, b.view.On, "the end is shown until it is left")
	assert.Zero(t, b.view.Cue)
	run.Tries[0].Reaction = 1
	b.tick()
	assert.EqualValues(t, 250, b.view.Tries[0].Reaction, "a copy was handed on")
	for range 5000 {
		b.tick()
	}
	assert.Len(t, b.ended, 1, "a run ends once")
	b.c.Leave()
	b.tick()
	assert.False(t, b.view.On)
	assert.Len(t, b.ended, 1)
}

func TestAWrongHandIsWrong(t *testing.T) {
	b := newBed(t, "find-yaw", Options{})
	b.start(1)
	seen := b.until("a cue", cueDue)
	b.c.Shown(b.view.Cue, seen, 17)
	b.frame[b.base.Layout.Roll], b.moved = pulse.High, true
	b.until("a verdict", func(v *View) bool { return len(v.Tries) > 0 })
	assert.Equal(t, drill.Wrong, b.view.Tries[0].Verdict)
	assert.Empty(t, b.ended)
}

// A try that was not right waits to be looked at, with what the hand did and its way, until the pupil goes on.
func TestAWrongTryIsLookedAt(t *testing.T) {
	b := newBed(t, "find-yaw", Options{})
	b.c.GoOn() // nothing runs
	b.start(1)
	seen := b.until("a cue", cueDue)
	b.c.GoOn() // nothing is looked at
	b.c.Shown(b.view.Cue, seen, 17)
	for range 200 {
		b.tick()
	}
	b.frame[b.base.Layout.Roll], b.moved = pulse.High, true
	end := b.until("a verdict", func(v *View) bool { return len(v.Tries) > 0 })
	require.Equal(t, drill.Looking, b.view.State.Phase)
	assert.Equal(t, drill.Did{Kind: drill.DidFirst, Job: drill.Roll, Way: pulse.High - pulse.Centre}, b.view.Did)
	for range 10_000 {
		b.tick()
	}
	require.Equal(t, drill.Looking, b.view.State.Phase, "nothing goes on by itself")
	var way drill.Way
	b.c.Way(&way)
	assert.Equal(t, end, way.To)
	assert.Equal(t, seen, way.Cue)
	assert.Equal(t, pulse.Centre, way.Held(end - 1).Held[drill.Roll])
	assert.Equal(t, pulse.High, way.Held(end).Held[drill.Roll])
	b.frame[b.base.Layout.Roll], b.moved = pulse.Centre, true
	b.c.GoOn()
	b.tick()
	assert.Equal(t, drill.Preparing, b.view.State.Phase)
	assert.Zero(t, b.view.Did)
}

// Where nobody can say that he wants to go on, nothing is waited for.
func TestNobodyIsWaitedFor(t *testing.T) {
	b := newBed(t, "find-yaw", Options{AtOnce: 20})
	b.c.Alone()
	b.start(1)
	b.until("the end", func(v *View) bool { return v.State.Phase == drill.Over })
	assert.Len(t, b.view.Tries, int(b.d.Config.Tries), "each too late")
	assert.True(t, b.view.Alone)
}

// What was not the present cue, or was told already, changes nothing.
func TestOnlyThePresentCueCounts(t *testing.T) {
	b := newBed(t, "find-yaw", Options{})
	b.c.Shown(1, 0, 17) // nothing runs
	b.start(3)
	b.c.Shown(1, 0, 17) // nothing is due
	due := b.until("a cue", cueDue)
	b.c.Shown(b.view.Cue+1, due, 17)
	b.tick()
	require.Less(t, b.view.State.CueAt, int64(0), "a cue that is to come")
	seen := due + 1
	b.c.Shown(b.view.Cue, seen, 17)
	b.c.Shown(b.view.Cue, seen+50, 99)
	b.tick()
	require.Equal(t, seen, b.view.State.CueAt)
	b.c.Shown(b.view.Cue, seen+500, 99)
	for range 100 {
		b.tick()
	}
	assert.Equal(t, seen, b.view.State.CueAt)
	b.yaw(b.asked())
	acted := b.tick()
	b.until("a verdict", func(v *View) bool { return len(v.Tries) > 0 })
	assert.EqualValues(t, acted-seen, b.view.Tries[0].Reaction)
	assert.EqualValues(t, 17, b.view.Tries[0].Uncertain)
}

// In a terminal a cue counts as seen when its line is out.
func TestACueAtOnce(t *testing.T) {
	var cues []int64
	b := newBed(t, "find-yaw", Options{AtOnce: 20, Told: func(tick int64, e drill.Event, _ *View) {
		if e.Kind == drill.CueNow {
			cues = append(cues, tick)
		}
	}})
	b.start(9)
	b.until("a cue", func(v *View) bool { return v.Cue > 0 })
	for range 299 {
		b.tick()
	}
	b.yaw(b.asked())
	acted := b.tick()
	b.until("a verdict", func(v *View) bool { return len(v.Tries) > 0 })
	require.Len(t, cues, 1)
	assert.EqualValues(t, acted-cues[0], b.view.Tries[0].Reaction)
	assert.EqualValues(t, 20, b.view.Tries[0].Uncertain)
	assert.Equal(t, drill.Right, b.view.Tries[0].Verdict)
}

func TestAnotherPaceEndsARunThatMeasures(t *testing.T) {
	b := newBed(t, "find-yaw", Options{})
	b.c.OffPace()
	b.c.View(&b.view)
	assert.Equal(t, NoTrouble, b.view.Trouble, "nothing runs")
	b.start(2)
	b.oneTry(300, b.asked)
	b.until("the next cue", cueDue)
	b.c.OffPace()
	b.c.View(&b.view)
	assert.Equal(t, OffPace, b.view.Trouble)
	require.Len(t, b.ended, 1)
	assert.True(t, b.ended[0].BrokenOff)
	assert.False(t, b.ended[0].Learned)
	assert.Len(t, b.ended[0].Tries, 1, "what was done stays")
	assert.Equal(t, b.base, b.used[len(b.used)-1])
	b.start(4)
	b.tick()
	assert.Equal(t, NoTrouble, b.view.Trouble, "the next run begins afresh")
	assert.Empty(t, b.view.Tries)
}

func TestARunThatIsLeftOrReplacedIsBrokenOff(t *testing.T) {
	b := newBed(t, "find-yaw", Options{})
	b.start(1)
	b.oneTry(300, b.asked)
	b.start(2)
	require.Len(t, b.ended, 1)
	assert.True(t, b.ended[0].BrokenOff)
	assert.EqualValues(t, 1, b.ended[0].Seed)
	b.oneTry(400, b.asked)
	b.c.Leave()
	require.Len(t, b.ended, 2)
	assert.EqualValues(t, 2, b.ended[1].Seed)
	require.Len(t, b.ended[1].Tries, 1)
	assert.EqualValues(t, 400, b.ended[1].Tries[0].Reaction)
	b.c.Leave()
	assert.Len(t, b.ended, 2, "leaving twice changes nothing")
}
