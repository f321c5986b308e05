package drill

import (
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// Moment is what the hands held from a tick on.
type Moment struct {
	Tick        int64
	Held        [Jobs]pulse.Width
	Sticks      [4]Zone
	Arm, Second layout.Place
	Mode        uint8
}

// The room of a way, and how far apart two moments of sticks are at least, in ticks: together they hold half a minute of hands that never
// rest (ours).
const (
	mostMoments = 4096
	apart       = 8
)

// Way is the way of the hands through one try: where the wait for the cue began, when the cue came, and what was held meanwhile. Of a try that is
// longer than there is room for, the end. Its zero value is empty.
type Way struct {
	// From is the tick at which the wait began, Cue that at which the cue was shown, or was to come: then Called is false. To is the tick of the end.
	From, Cue, To int64
	Called        bool
	// Before is what was held when the wait began.
	Before Moment

	n, first int
	at       [mostMoments]Moment
	// Flight is how the craft flew meanwhile.
	Flight Flight
}

// Moments is how many there are, and At gives one of them, the oldest first.
func (w *Way) Moments() int { return w.n }

// At is moment i.
func (w *Way) At(i int) *Moment { return &w.at[(w.first+i)%mostMoments] }

// Step follows a run by the tick that it has just run: in is what it was given, s what it came to.
func (w *Way) Step(s *State, in *Input) {
	switch s.Phase {
	case Waiting, Running:
		if s.Phase == Waiting && s.Since == in.Tick || w.From == 0 {
			*w = Way{From: in.Tick, Before: momentOf(in)}
		}
		w.note(in, apart)
		w.Flight.note(in, false)
		w.Cue, w.Called = s.Due, s.Phase == Running
		if w.Called {
			w.Cue = max(s.Given, s.CueAt)
		}
		w.To = in.Tick
	case Resting, Looking: // the tick that ended the try belongs to it
		if w.From > 0 && s.Since == in.Tick {
			w.note(in, 0)
			w.Flight.note(in, true)
			w.To = in.Tick
		}
	default:
		w.From = 0
	}
}

func momentOf(in *Input) Moment {
	f := &in.Facts
	return Moment{Tick: in.Tick, Held: f.Held, Sticks: f.Sticks, Arm: f.Arm, Second: f.Second, Mode: f.HandMode}
}

// note keeps what is held now where it is news, sticks so many ticks after the moment before.
func (w *Way) note(in *Input, apart int64) {
	m := momentOf(in)
	if w.n > 0 {
		last := w.At(w.n - 1)
		switched := m.Arm != last.Arm || m.Second != last.Second || m.Mode != last.Mode
		if m.Tick = last.Tick; m == *last || !switched && in.Tick < last.Tick+apart {
			return
		}
		m.Tick = in.Tick
	}
	if w.n == mostMoments {
		w.first = (w.first + 1) % mostMoments
		w.n--
	}
	w.at[(w.first+w.n)%mostMoments] = m
	w.n++
}

// Held is what was held at a tick.
func (w *Way) Held(tick int64) *Moment {
	m := &w.Before
	for i := range w.n {
		if w.At(i).Tick > tick {
			break
		}
		m = w.At(i)
	}
	return m
}
