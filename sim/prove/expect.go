package prove

import (
	"math"

	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/prove/explore"
)

// How many situations a search will find is not seen from how many it has found: their number goes up and down with each movement more, and
// with sinking it has two hills. But it is known how it grows with the times of a craft. Of the counters of slots that tell situations
// apart, two run at the same time at most where a switch arms, and three where sticks do. So the same layout is searched with all times much
// shorter, and the count is drawn on: as s² by a switch, as a s² + b s³ by sticks, where two such searches give a and b. They take an eighth
// of the time by a switch and a twentieth by sticks. TestExpected holds what comes of it against whole searches.

// shorter and short are the factors; patience is how many situations the search itself has found before anybody asks (ours).
const (
	shorter  = 1.0 / 4
	short    = 1.0 / 3
	patience = 1 << 19
)

// expect gives about how many situations the first pass will find in all; 0 where that cannot be told.
func (s *search) expect() uint64 {
	more, ok := s.countShortened(short)
	if !ok {
		return 0
	}
	if s.l.Config.Arming.By == arming.BySwitch {
		return uint64(float64(more) / (short * short))
	}
	few, ok := s.countShortened(shorter)
	if !ok {
		return 0
	}
	return drawnOn(few, more)
}

// tell tells how far a pass has come, and reports whether it is to stop.
func (s *search) tell(w *explore.Walk, at explore.Cost, first bool) bool {
	p := &s.told
	*p = Progress{Situations: s.before + w.Found(), Open: w.Open(), Movements: int(at.Moves), Slots: int(at.Time), Expected: p.Expected, Again: !first, Broken: p.Broken}
	if first && s.asked == 0 && w.Found() >= patience {
		s.asked = w.Found()
		p.Expected = s.expect()
	}
	if !first || p.Expected <= p.Situations { // it was less than there are: nothing is known then
		p.Expected = 0
	}
	return s.stopped || s.o.Progress(*p)
}

// drawnOn is the count of a layout by sticks at its whole times, from those at the two factors.
func drawnOn(few, more uint64) uint64 {
	low, high := float64(few)/(shorter*shorter), float64(more)/(short*short)
	return uint64(max(high+(high-low)/(short-shorter)*(1-short), high))
}

// countShortened searches the layout with all times shortened and counts its situations; false where that was stopped or cannot be done.
func (s *search) countShortened(factor float64) (uint64, bool) {
	l := *s.l
	if !shorten(&l.Config, factor) {
		return 0, false
	}
	h, err := newHands(&l, question{})
	if err != nil {
		return 0, false
	}
	x, fits := newSpace(h, noWatch)
	if !fits {
		return 0, false
	}
	o := s.options()
	o.Progress = func(*explore.Walk, explore.Cost) bool {
		s.stopped = s.o.Progress(s.told) // no further by now, but it may be stopped
		return s.stopped
	}
	w := explore.New(o)
	x.stop, x.marks = w.Stop, w.Marks()
	w.Begin(uint64(h.start))
	end := w.Run(x)
	return w.Found(), end == explore.Complete
}

// shorten shortens all times that link and arming keep; false where they are too short for that already.
func shorten(c *sim.Config, factor float64) bool {
	slots := func(n *uint16) bool {
		if *n > 0 {
			*n = uint16(max(math.Round(float64(*n)*factor), 1))
		}
		return true
	}
	long := max(c.Link.CleanSlots, c.Arming.StillSlots, c.Arming.ArmDwell, c.Arming.SinkSlots) >= 24
	return long && slots(&c.Link.SilenceSlots) && slots(&c.Link.CleanSlots) && slots(&c.Arming.StillSlots) && slots(&c.Arming.ArmDwell) &&
		slots(&c.Arming.DisarmDwell) && slots(&c.Arming.SinkSlots)
}
