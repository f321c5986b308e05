package drillfile_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
)

// flownDrills are the shipped drills that are flown.
func flownDrills(t testing.TB) (out []*drillfile.Drill) {
	_, drills, err := drillfile.Shipped("beginner", known(t))
	require.NoError(t, err)
	for _, d := range drills {
		if d.Flown() {
			out = append(out, d)
		}
	}
	require.GreaterOrEqual(t, len(out), 11)
	return out
}

// A pilot who flies well passes each flown drill, one who is slow and one who is careless do not, and are told why, in each stick mode.
func TestPilotsGetWhatTheyDeserve(t *testing.T) {
	for _, d := range flownDrills(t) {
		t.Run(d.Config.Code, func(t *testing.T) {
			for _, mode := range []uint8{2, 1, 3, 4} {
				l := run(t, d, mode, pupil{delay: 193 + 20*int64(mode), fly: flyer{lag: 200}}, uint64(mode), func(l *lab, q *pupil, x drill.Try) {
					assert.Equal(t, drill.Right, x.Verdict, "mode %d, case %d: why %d, number %d, %s", mode, x.Case, x.Why, x.Number, did(l, &x))
				})
				assert.True(t, l.s.Learned, "mode %d", mode)
				if testing.Short() {
					break
				}
			}
		})
	}
}

// The pilot passes with other crafts too: heavier, lighter, more draggy, with slower motors. What he can do is not made for one set of constants.
func TestThePilotFliesOtherCrafts(t *testing.T) {
	for name, change := range map[string]func(*sim.Config){
		"heavy":     func(c *sim.Config) { c.Body.Mass *= 1.2 },
		"light":     func(c *sim.Config) { c.Body.Mass *= 0.85 },
		"draggy":    func(c *sim.Config) { c.Body.Drag1, c.Body.Drag2 = 4*c.Body.Drag1, 3*c.Body.Drag2 },
		"sluggish":  func(c *sim.Config) { c.Body.Lag *= 1.4 },
		"stiff pad": func(c *sim.Config) { c.Body.Stiffness, c.Body.Damping = 1.5*c.Body.Stiffness, 2*c.Body.Damping },
	} {
		base := teasel(t)
		change(&base)
		base.FitControl()
		for _, d := range flownDrills(t) {
			l := runOn(t, base, d, 2, pupil{delay: 230, fly: flyer{lag: 220}}, 3, func(l *lab, q *pupil, x drill.Try) {
				assert.Equal(t, drill.Right, x.Verdict, "%s: %s, case %d: why %d, number %d, %s", name, d.Config.Code, x.Case, x.Why, x.Number, did(l, &x))
			})
			assert.True(t, l.s.Learned, "%s: %s", name, d.Config.Code)
		}
	}
}

// did is what the sheet would be told of a try.
func did(l *lab, x *drill.Try) string {
	return fmt.Sprintf("%+v", drill.DidOf(&l.d.Config, x, &l.way))
}

// fails are what a slow and a careless pilot are told of a flown drill, by its code: what did not come, or was not kept to.
var fails = map[string]struct{ slow, careless drill.Did }{
	"hold-height":     {drill.Did{Kind: drill.DidFly, Bound: drill.OfHeight, Side: -1}, drill.Did{Kind: drill.DidFly, Bound: drill.OfHeight, Side: 1}},
	"hover-square":    {drill.Did{Kind: drill.DidFly, Bound: drill.OfNorth, Side: -1}, drill.Did{Kind: drill.DidFly, Bound: drill.OfDistance, Side: 1}},
	"stop-on-mark":    {drill.Did{Kind: drill.DidFly, Bound: drill.OfDistance, Side: 1}, drill.Did{Kind: drill.DidFly, Bound: drill.OfDistance, Side: 1}},
	"hover-breeze":    {drill.Did{Kind: drill.DidFly, Bound: drill.OfNorth, Side: -1}, drill.Did{Kind: drill.DidFly, Bound: drill.OfDistance, Side: 1}},
	"hover-off-level": {drill.Did{Kind: drill.DidFly, Bound: drill.OfNorth, Side: -1}, drill.Did{Kind: drill.DidFly, Bound: drill.OfDistance, Side: 1}},
	"hover-gusts":     {drill.Did{Kind: drill.DidFly, Bound: drill.OfNorth, Side: -1}, drill.Did{Kind: drill.DidTouch}},
	"land-softly":     {drill.Did{}, drill.Did{Kind: drill.DidTouch}},
	"hover-nose":      {drill.Did{Kind: drill.DidFly, Bound: drill.OfNose, Side: 1}, drill.Did{Kind: drill.DidFly, Bound: drill.OfDistance, Side: 1}},
	"rate-level":      {drill.Did{Kind: drill.DidNothing, Job: drill.ModeJob}, drill.Did{Kind: drill.DidFly, Bound: drill.OfLean, Side: 1}},
	"alarm-in-air":    {drill.Did{Kind: drill.DidNothing, Job: drill.Arm}, drill.Did{Kind: drill.DidWrongWay, Job: drill.Throttle}},
	"loss-in-air":     {drill.Did{Kind: drill.DidNothing, Job: drill.Arm}, drill.Did{Kind: drill.DidWrongWay, Job: drill.Throttle}},
}

// Who begins too late has not begun, and who does what must not be done is told what that was.
func TestSlowAndCarelessPilots(t *testing.T) {
	for _, d := range flownDrills(t) {
		t.Run(d.Config.Code, func(t *testing.T) {
			brief := *d
			brief.Config.Tries = uint16(len(d.Cases))
			for _, mode := range []uint8{2, 1, 3, 4} {
				if mode != 2 { // each case once is enough
					brief.Config.Tries = 1
				}
				slow := pupil{delay: 230, late: int64(d.Config.Cases[0].Within) + 1000, fly: flyer{lag: 200}}
				fell := func(q pupil, verdict drill.Verdict, want drill.Did) {
					l := run(t, &brief, mode, q, 4, func(l *lab, _ *pupil, x drill.Try) {
						got := drill.DidOf(&brief.Config, &x, &l.way)
						if want.Kind != drill.DidNoMatter {
							assert.Equal(t, verdict, x.Verdict, "mode %d, case %d: why %d, number %d", mode, x.Case, x.Why, x.Number)
							assert.Equal(t, want, drill.Did{Kind: got.Kind, Job: got.Job, Bound: got.Bound, Side: got.Side})
						}
					})
					assert.False(t, l.s.Learned)
				}
				fell(slow, drill.TooLate, fails[d.Config.Code].slow)
				fell(pupil{delay: 230, careless: true, fly: flyer{lag: 200}}, drill.Wrong, fails[d.Config.Code].careless)
				if testing.Short() {
					break
				}
			}
		})
	}
}

// A craft that stands over the square stays there by itself in still air; the wind, or a level that is off, takes it out of the square before its time is over.
func TestHandsOffDriftsOutOfTheSquare(t *testing.T) {
	stays := map[string]bool{"hover-square": true, "hover-breeze": false, "hover-gusts": false, "hover-off-level": false}
	for _, d := range flownDrills(t) {
		want, asked := stays[d.Config.Code]
		if !asked {
			continue
		}
		delete(stays, d.Config.Code)
		brief := *d
		brief.Config.Tries = uint16(len(d.Cases))
		seen := map[int]bool{}
		run(t, &brief, 2, pupil{delay: 230, fly: flyer{lag: 200, letsGo: map[bool]float64{true: 0.15, false: 0.4}[want]}}, 5, func(l *lab, q *pupil, x drill.Try) {
			seen[int(x.Case)] = true
			assert.True(t, q.fly.free, "%s, case %d: he never stood", d.Config.Code, x.Case)
			assert.Equal(t, want, x.Verdict == drill.Right, "%s, case %d: %s", d.Config.Code, x.Case, did(l, &x))
			if got := drill.DidOf(&brief.Config, &x, &l.way); !want {
				assert.Contains(t, []drill.Bound{drill.OfNorth, drill.OfEast, drill.OfDistance}, got.Bound, "%s, case %d: %s", d.Config.Code, x.Case, did(l, &x))
				assert.Equal(t, drill.Leaves, l.kase().Nevers[x.Number].Kind, "%s, case %d: %s", d.Config.Code, x.Case, did(l, &x))
			}
		})
		assert.Len(t, seen, len(d.Cases), d.Config.Code)
	}
	assert.Empty(t, stays)
}
