package drills

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/gestures"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// step is the step of a gesture that is next from a tick on.
type step struct {
	from int64
	part uint8
}

// gesture is the gesture among some wants, by the craft of the case that runs; set is nil where there is none.
func (r *Run) gesture(wants []drill.Want) (set *gestures.Config, n int) {
	c, _ := r.asked()
	for i := range wants {
		if g := c.Craft.Gestures; g != nil && wants[i].Kind == drill.Gesture && int(wants[i].A) < len(g.Patterns) {
			return g, int(wants[i].A)
		}
	}
	return nil, 0
}

// inGesture is where a stick direction is to stand for the step of a gesture that is next, as far as the sheet tells it.
func (b *board) inGesture(j drill.Job) (from, to pulse.Width, ok bool) {
	v := Of(b.V)
	set, n := v.Run.gesture(b.goals())
	if set == nil || j < drill.Throttle || j > drill.Yaw {
		return 0, 0, false
	}
	part := 0
	switch {
	case v.Run.looks():
		for _, s := range v.Run.Steps {
			if s.from <= v.Run.replayed(b.V.Snap.Tick) {
				part = int(s.part)
			}
		}
	case n < len(v.Gestures):
		part = next(&set.Patterns[n], v.Gestures[n])
	}
	switch set.Patterns[n].JobZones(part, uint8(ui.StickMode(b.V.StickMode)))[j-drill.Throttle] {
	case gestures.Low:
		return pulse.Low, set.LowIn, true
	case gestures.Middle:
		return pulse.Centre - set.MiddleIn, pulse.Centre + set.MiddleIn, true
	case gestures.High:
		return set.HighIn, pulse.High, true
	}
	return 0, 0, false
}

// next is the step of a gesture that is next: while one is held that is made, the one after it.
func next(p *gestures.Pattern, s gestures.State) int {
	if (s.Phase == gestures.Held || s.Phase == gestures.HeldOver) && s.Part+1 < p.Count {
		return int(s.Part) + 1
	}
	return int(s.Part)
}

// Follow follows the hand through the gesture that the newest try wanted, where it wanted one.
func (r *Run) Follow(all []happening.Happening, mode uint8) {
	r.Steps = r.stepsOf(mode)
	r.Nearly = r.nearly(all, mode)
}

// stepsOf are the steps of the gesture that a try wants, in the order in which the hand came to them: the sticks that were held are followed as the
// craft follows them.
func (r *Run) stepsOf(mode uint8) (all []step) {
	c, _ := r.asked()
	set, n := r.gesture(c.Wants)
	if set == nil || r.Way == nil || r.Way.Moments() == 0 {
		return nil
	}
	states := make([]gestures.State, len(set.Patterns))
	held, k := &r.Way.Before, 0
	for t := r.Way.From; t <= r.Way.To; t += int64(max(set.SlotTicks, 1)) {
		for ; k < r.Way.Moments() && r.Way.At(k).Tick <= t; k++ {
			held = r.Way.At(k)
		}
		in := gestures.Input{StickMode: mode, Valid: true, Live: true}
		copy(in.Sticks[:], held.Held[drill.Throttle:])
		gestures.Step(set, states, &in, t, nil)
		if part := uint8(next(&set.Patterns[n], states[n])); len(all) == 0 || all[len(all)-1].part != part {
			all = append(all, step{t, part})
		}
	}
	return all
}

// nearly says how the hand missed the gesture that the newest try wants, where it nearly made it, or else how far it came.
func (r *Run) nearly(all []happening.Happening, mode uint8) words.Text {
	c, _ := r.asked()
	set, n := r.gesture(c.Wants)
	if set == nil {
		return words.Text{}
	}
	for i := len(all) - 1; i >= 0; i-- {
		h := &all[i]
		if h.Code == happening.GestureNear && int(h.A) == n && h.Tick >= r.State.Given && h.Tick <= r.last().Tick {
			return tell.GestureMissed(&set.Patterns[n], happening.Near(h.B&0xff), int(h.B>>8), mode, 0)
		}
	}
	if w := int(r.last().Number); r.last().Why == drill.StillMissing && w < len(c.Wants) && c.Wants[w].Kind == drill.Gesture && len(r.Steps) > 0 {
		most := uint8(0)
		for _, s := range r.Steps {
			most = max(most, s.part)
		}
		return words.T("drill.did-step", words.Args{"none": words.Flag(most == 0), "n": words.Whole(int(most)), "of": words.Whole(int(set.Patterns[n].Count))})
	}
	return words.Text{}
}
