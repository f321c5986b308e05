package drillrun

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/input"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/pulse"
)

func (b *bed) put(k pulse.Kind, v int32) { b.queue = append(b.queue, pulse.Reading{Kind: k, Value: v}) }

func (b *bed) plant(d pulse.Deed, x, y int32) {
	v, ok := fault.Plant(d, x, y)
	require.True(b.t, ok)
	b.put(pulse.Instructor, v)
}

// Whatever comes in that is not the pupil's own hand ends the run at once: the try under way has no verdict, and what was done before
// stays as it was, in a run that was broken off.
func TestAnotherHandEndsTheRun(t *testing.T) {
	deed := func(d pulse.Deed) func(b *bed) {
		return func(b *bed) { b.put(pulse.Instructor, pulse.InstructorValue(d, 1)) }
	}
	for name, c := range map[string]struct {
		comes func(b *bed)
		other Other
	}{
		"demo":            {func(b *bed) { b.by = input.ByDemo }, Demo},
		"script":          {func(b *bed) { b.by = input.ByScript }, Script},
		"sticks":          {deed(pulse.DeedHands), Instructor},
		"arm switch":      {deed(pulse.DeedArmOff), Instructor},
		"fault":           {func(b *bed) { b.plant(fault.Reversed, 2, 0) }, Planted},
		"fault of no use": {func(b *bed) { b.plant(fault.CableIn, 0, 0) }, Planted},
		"lift all":        {func(b *bed) { b.put(pulse.Instructor, fault.LiftAll()) }, Planted},
	} {
		t.Run(name, func(t *testing.T) {
			b := newBed(t, "find-yaw", Options{})
			b.start(5)
			b.oneTry(250, b.asked)
			seen := b.until("a cue", cueDue)
			b.c.Shown(b.view.Cue, seen, 17)
			b.tick()
			c.comes(b)
			b.frame[b.base.Layout.Roll], b.moved = pulse.High, true // what would be wrong
			b.tick()
			require.Len(t, b.ended, 1)
			r := b.ended[0]
			assert.True(t, r.BrokenOff && !r.Learned)
			assert.Equal(t, c.other, r.Other)
			require.Len(t, r.Tries, 1, "the one before is the pupil's")
			assert.Equal(t, drill.Right, r.Tries[0].Verdict)
			assert.Equal(t, OtherHand, b.view.Trouble)
			assert.Equal(t, c.other, b.view.Other)
			assert.Equal(t, b.base, b.used[len(b.used)-1])
			for range 3000 {
				b.tick()
			}
			assert.Len(t, b.ended, 1)
		})
	}
}

// Nothing begins for the demo pilot, a script, or an instructor who has the sticks; a mark is nothing.
func TestNothingBeginsForAnotherHand(t *testing.T) {
	b := newBed(t, "find-yaw", Options{})
	b.by = input.ByDemo
	b.start(1)
	b.tick()
	require.Len(t, b.ended, 1)
	assert.Empty(t, b.ended[0].Tries)
	assert.Equal(t, Demo, b.view.Other)
	b.by = input.ByRadio
	b.put(pulse.Instructor, pulse.InstructorValue(pulse.DeedHands, 1))
	b.tick()
	b.start(2)
	b.tick()
	require.Len(t, b.ended, 2)
	assert.Equal(t, Instructor, b.view.Other)
	b.put(pulse.Instructor, pulse.InstructorValue(pulse.DeedHands, 0))
	b.tick()
	b.start(3)
	b.put(pulse.Instructor, pulse.InstructorValue(pulse.DeedMark, 1))
	b.oneTry(300, b.asked)
	assert.Len(t, b.ended, 2)
	assert.Equal(t, NoOther, b.view.Other)
}

// A drill lifts what an instructor planted before it began, plants and lifts itself, and that is no other hand; each shipped drill that
// plants runs to its first cue so. When it is left, what the instructor had planted stands again, and nothing of the drill's.
func TestADrillsOwnFaultsAreItsOwn(t *testing.T) {
	for _, code := range []string{"find-the-fault", "reversed-channel", "short-travel", "find-yaw"} {
		b := newBed(t, code, Options{})
		b.plant(fault.OffCentre, 2, 60)
		b.plant(fault.LowPack, 13000, 0)
		b.tick()
		b.start(7)
		b.until("a cue of "+code, func(v *View) bool {
			return v.Cue > 0 || v.State.Phase == drill.Over || v.State.Phase == drill.Preparing && b.p.Tick() > 2001
		})
		assert.Empty(t, b.ended, code)
		assert.NotZero(t, b.view.State.Attempt, code)
		b.c.Leave()
		for range 100 {
			b.tick()
		}
		assert.EqualValues(t, 1<<fault.OffCentre|1<<fault.LowPack, b.p.Faults().All(), code)
		b.start(8)
		b.tick()
		assert.Equal(t, NoTrouble, b.view.Trouble, "what the drill lifted at its end was its own doing too")
	}
}

// Both of a pupil's own hands are his, and the run says which it was.
func TestTheRunSaysWhichHandDrove(t *testing.T) {
	b := newBed(t, "find-yaw", Options{})
	b.start(5)
	b.oneTry(250, b.asked)
	b.by = input.ByKeyboard
	b.oneTry(250, b.asked)
	b.c.Leave()
	require.Len(t, b.ended, 1)
	assert.True(t, b.ended[0].Radio && b.ended[0].Keyboard)
	b.start(6)
	b.oneTry(250, b.asked)
	b.c.Leave()
	assert.True(t, !b.ended[1].Radio && b.ended[1].Keyboard)
	assert.Equal(t, NoOther, b.ended[1].Other)
}

// A refusal counts for the pupil where his own hand met it, run or not.
func TestOnlyThePupilsRefusalsCount(t *testing.T) {
	b := newBed(t, "find-yaw", Options{})
	arm := b.base.Layout.Arm
	flick := func() (got []int32) {
		for _, w := range []pulse.Width{pulse.High, pulse.Low} {
			b.frame[arm], b.moved = w, true
			for range 40 {
				b.tick()
			}
		}
		return b.c.Refusals(nil)
	}
	for range 100 {
		b.tick()
	}
	got := flick()
	require.Len(t, got, 1)
	assert.True(t, arming.Set(got[0]).Has(arming.LinkTooFresh))
	b.by = input.ByDemo
	assert.Empty(t, flick())
	b.by = input.ByScript
	assert.Empty(t, flick())
	b.by = input.ByKeyboard
	assert.Len(t, flick(), 1)
	b.plant(fault.Noisy, 6, 100)
	assert.Empty(t, flick(), "somebody makes it harder")
	b.put(pulse.Instructor, fault.Lift(fault.Noisy))
	b.tick()
	assert.Len(t, flick(), 1)
	b.put(pulse.Instructor, pulse.InstructorValue(pulse.DeedHands, 1))
	assert.Empty(t, flick())
	b.put(pulse.Instructor, pulse.InstructorValue(pulse.DeedHands, 0))
	b.by = input.Nobody
	assert.Empty(t, flick())
}
