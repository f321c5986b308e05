package drillfile_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/sim"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// run drives one run of a drill in a stick mode and gives the lab at its end. each is told of every try as it ends.
func run(t *testing.T, d *drillfile.Drill, mode uint8, q pupil, seed uint64, each func(l *lab, q *pupil, x drill.Try)) *lab {
	return runOn(t, teasel(t), d, mode, q, seed, each)
}

// runOn is run with another craft.
func runOn(t *testing.T, base sim.Config, d *drillfile.Drill, mode uint8, q pupil, seed uint64, each func(l *lab, q *pupil, x drill.Try)) *lab {
	l := newLab(d, base, mode, seed)
	q.l = l
	for l.s.Phase != drill.Over {
		q.turn()
		n := len(l.tries)
		l.tick()
		if each != nil && len(l.tries) > n {
			each(l, &q, l.tries[n])
		}
		if l.in.Tick > 3_000_000 {
			c := l.kase()
			m := ""
			if int(l.s.At) < len(c.Before) {
				m = fmt.Sprintf("step %d, missing %b of %v", l.s.At, drill.Missing(&d.Config, &l.s, &l.in), c.Before[l.s.At].Until)
			}
			require.Fail(t, "the run never ends", "%s case %d phase %d %s; refusals %b link %d armed %v", d.Config.Code, l.s.Case, l.s.Phase, m, l.snap.Refusals, l.snap.Link, l.snap.Armed)
		}
	}
	return l
}

// A perfect pupil, one who is slow and one who is careless go through the whole course in each stick mode.
func TestPupilsGetWhatTheyDeserve(t *testing.T) {
	_, drills, err := drillfile.Shipped("beginner", known(t))
	require.NoError(t, err)
	require.Len(t, drills, len(assets.Drills()))
	for _, d := range drills {
		if d.Flown() { // by pilots: TestPilotsGetWhatTheyDeserve
			continue
		}
		t.Run(d.Config.Code, func(t *testing.T) {
			// In the other modes, and on an emulated machine, one wrong try of each case is enough.
			brief := *d
			brief.Config.Tries = uint16(len(d.Cases))
			if testing.Short() { // the usual mode, and the one in which the right stick carries throttle and yaw
				perfect(t, d, 2, 0)
				slowAndCareless(t, &brief, 2)
				perfect(t, d, 3, 1)
				return
			}
			for seed := range uint64(3) {
				perfect(t, d, 2, seed)
			}
			slowAndCareless(t, d, 2)
			for _, mode := range []uint8{1, 3, 4} {
				perfect(t, d, mode, uint64(mode))
				slowAndCareless(t, &brief, mode)
			}
		})
	}
}

func perfect(t *testing.T, d *drillfile.Drill, mode uint8, seed uint64) {
	l := run(t, d, mode, pupil{delay: 193 + 37*int64(seed)}, seed, func(l *lab, q *pupil, x drill.Try) {
		assert.Equal(t, drill.Right, x.Verdict, "mode %d, case %d %q: why %d, number %d", mode, x.Case, d.Cases[x.Case].Say, x.Why, x.Number)
		exact(t, d, l, x)
	})
	assert.True(t, l.s.Learned, "mode %d: a perfect pupil has learned it", mode)
}

func slowAndCareless(t *testing.T, d *drillfile.Drill, mode uint8) {
	for verdict, q := range map[drill.Verdict]pupil{drill.TooLate: {delay: 230, late: 61_000}, drill.Wrong: {delay: 230, careless: true}} {
		l := run(t, d, mode, q, 4, func(l *lab, q *pupil, x drill.Try) {
			if l.kase().Mark.On() { // who begins when it is over has followed nothing
				assert.Equal(t, drill.NotMeasured, x.Why)
				return
			}
			assert.Equal(t, verdict, x.Verdict, "mode %d, case %d: why %d, number %d", mode, x.Case, x.Why, x.Number)
		})
		assert.False(t, l.s.Learned)
		assert.GreaterOrEqual(t, len(l.tries), len(d.Cases))
	}
}

// exact holds the reaction that was measured against what the pupil knows of it, to the millisecond.
func exact(t *testing.T, d *drillfile.Drill, l *lab, x drill.Try) {
	c := &d.Config.Cases[x.Case]
	last := &c.Wants[len(c.Wants)-1]
	want := l.acted
	switch {
	case c.Mark.On(): // a minute of following has no time of its own
		assert.EqualValues(t, -1, x.Reaction)
		return
	case last.Kind == drill.DisarmedBy && l.layout().Arm == layout.NoChannel:
		want = l.noted[happening.Disarmed]
	case last.Kind == drill.Gesture:
		want = l.noted[happening.Gesture]
	case last.Kind == drill.MenuLeft:
		want = l.noted[happening.MenuLeft]
	case last.Kind == drill.Link:
		want = l.noted[happening.LinkClean]
	}
	want += int64(last.For)
	assert.EqualValues(t, want-l.cueAt, x.Reaction, "case %d", x.Case)
}

// Who tries the arm switch of a craft that has a fault, and is refused, has done nothing wrong: looking for it is what was asked.
func TestARefusalWhileAFaultIsLookedForIsNotJudged(t *testing.T) {
	_, drills, err := drillfile.Shipped("beginner", known(t))
	require.NoError(t, err)
	met := map[uint8]bool{}
	for _, d := range drills {
		if d.Config.Code != "find-the-fault" {
			continue
		}
		round := *d
		round.Config.InARow = uint16(len(d.Cases))
		l, tried := newLab(&round, teasel(t), 2, 3), false
		q := pupil{l: l, delay: 193}
		for l.s.Phase != drill.Over {
			q.turn()
			if running := l.s.Phase == drill.Running; running && !tried && l.snap.Refusals != 0 {
				tried = true
				l.move(l.layout().Arm, pulse.High)
			} else if l.noted[happening.Refused] > 0 || !running {
				l.move(l.layout().Arm, pulse.Low)
			}
			n := len(l.tries)
			l.tick()
			if tried = tried && !l.begun; len(l.tries) == n {
				continue
			}
			x := l.tries[n]
			assert.Equal(t, drill.Right, x.Verdict, "case %d: why %d, number %d", x.Case, x.Why, x.Number)
			met[x.Case] = met[x.Case] || l.noted[happening.Refused] > 0
		}
		assert.True(t, l.s.Learned)
	}
	assert.True(t, met[2] && met[3], "where the link drops out, and where a channel is missing, arming was refused: %v", met)
}

// A pupil who does everything but disarm is told so.
func TestForgettingToDisarm(t *testing.T) {
	_, drills, err := drillfile.Shipped("beginner", known(t))
	require.NoError(t, err)
	seen := 0
	for _, d := range drills {
		disarms := func(i uint8) int { // which want of a case it is
			return slices.IndexFunc(d.Config.Cases[i].Wants, func(w drill.Want) bool {
				return w.Kind == drill.DisarmedBy && w.A&(1<<happening.BySwitch|1<<happening.BySticks) != 0
			})
		}
		if disarms(0) < 0 {
			continue
		}
		seen++
		run(t, d, 2, pupil{delay: 230, forgets: true}, 4, func(l *lab, q *pupil, x drill.Try) {
			if disarms(x.Case) < 0 {
				return
			}
			assert.Equal(t, drill.TooLate, x.Verdict, "%s case %d: why %d", d.Config.Code, x.Case, x.Why)
			assert.Equal(t, drill.StillMissing, x.Why, d.Config.Code)
			assert.EqualValues(t, disarms(x.Case), x.Number, "%s: the disarming is what is missing", d.Config.Code)
		})
	}
	assert.GreaterOrEqual(t, seen, 8)
}
