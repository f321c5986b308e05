package drill

import (
	"propsoff.example/sim/arming"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
)

// run judges one tick after the cue.
func (s *State) run(cfg *Config, in *Input, out *Events) {
	c := &cfg.Cases[s.Case]
	if in.Cued && s.CueAt < 0 {
		s.CueAt, s.Uncertain = in.CueAt, in.Uncertain
	}
	s.with(c, in, out)
	if in.Followed && !in.Hand.Measured {
		s.end(cfg, in, out, Wrong, NotMeasured, 0)
		return
	}
	if !s.complete(c) {
		for i := range c.Nevers {
			if s.forbidden(&c.Nevers[i], i, in, cfg.times().Dwell) {
				s.end(cfg, in, out, Wrong, NeverSeen, i)
				return
			}
		}
		if why, number := s.follow(cfg, c, in, out); why != 0 {
			s.end(cfg, in, out, Wrong, why, number)
			return
		}
	}
	switch {
	case s.CueAt < 0 && in.Tick > s.Given+tellWithin:
		s.end(cfg, in, out, Void, NotShown, 0)
	case s.CueAt < 0: // judged once it is known when the cue was shown
	case s.complete(c):
		s.judge(cfg, c, in, out)
	case in.Tick > s.CueAt+int64(c.Within)+grace+lag(c, cfg.times().Dwell):
		s.end(cfg, in, out, TooLate, StillMissing, s.missing(c))
	}
}

// lag is how much later than its time a want may be seen: where a hand must stay, that long.
func lag(c *Case, dwell int32) int64 {
	for i := range c.Wants {
		if c.Wants[i].goes() {
			return int64(dwell)
		}
	}
	return 0
}

// complete reports whether every want was seen.
func (s *State) complete(c *Case) bool { return s.Done == 1<<len(c.Wants)-1 }

// missing is the first want that was not seen.
func (s *State) missing(c *Case) int {
	for i := range c.Wants {
		if s.Done>>i&1 == 0 {
			return i
		}
	}
	return 0
}

// judge gives the verdict on a try in which everything came.
func (s *State) judge(cfg *Config, c *Case, in *Input, out *Events) {
	unannounced := c.WaitHigh > c.WaitLow
	switch {
	case s.Mark < 0 || s.First >= 0 && s.First < s.CueAt:
		s.end(cfg, in, out, FalseStart, ActedBefore, int(s.Last))
	case unannounced && s.First >= 0 && s.First < s.CueAt+anticipation:
		s.end(cfg, in, out, Anticipated, UnderHundred, int(s.Last))
	case s.Mark > s.CueAt+int64(c.Within):
		s.end(cfg, in, out, TooLate, CameLate, int(s.Last))
	default:
		s.end(cfg, in, out, Right, 0, 0)
	}
}

// forbidden reports whether a never has come.
func (s *State) forbidden(w *Want, i int, in *Input, dwell int32) bool {
	if !w.holds(in) {
		s.freed |= 1 << i
		s.nevers[i] = -1
		return false
	}
	if s.freed>>i&1 == 0 {
		return false
	}
	if s.nevers[i] < 0 {
		s.nevers[i] = in.Tick
	}
	long := w.For
	if w.passes() {
		long = max(long, dwell)
	}
	return in.Tick >= s.nevers[i]+int64(long)
}

// stays reports whether want i holds, and has for its time; a hand that goes somewhere must have stayed there, unless it was there before.
func (s *State) stays(w *Want, i int, in *Input, dwell int32) bool {
	long := w.For
	if long == 0 && w.goes() && s.Standing>>i&1 == 0 {
		long = dwell
	}
	return w.holds(in) && in.Tick >= s.since[i]+int64(long)
}

// goesOn reports whether the hand did something of what is asked after want i in this tick: then it was where want i had it go, and has gone on.
func (s *State) goesOn(c *Case, i int, in *Input) bool {
	w := &c.Wants[i]
	if !w.goes() || w.For > 0 || !w.holds(in) {
		return false
	}
	for j := i + 1; j < len(c.Wants); j++ {
		next := &c.Wants[j]
		same := next.goes() && next.control() == w.control() // which has not been elsewhere
		if s.since[j] == in.Tick && next.byHands() && !same {
			return true
		}
	}
	return false
}

// follow takes in what this tick brought of the wants. A wrong answer, or a want before its turn, gives the reason and its number.
func (s *State) follow(cfg *Config, c *Case, in *Input, out *Events) (Why, int) {
	dwell := cfg.times().Dwell
	for i := range c.Wants {
		if s.held(&c.Wants[i], i, in); s.since[i] < 0 { // what has ceased must come again, and then it is a response
			s.Standing &^= 1 << i
		}
	}
	for i := s.missing(c); c.InOrder && !s.complete(c) && s.goesOn(c, i, in); i++ {
		s.done(c, i, in, out)
	}
	if in.Answer > 0 {
		if why, number := s.answer(c, in.Answer-1); why != 0 {
			return why, number
		}
	}
	if !c.InOrder {
		for i := range c.Wants {
			if s.Done>>i&1 == 0 && s.stays(&c.Wants[i], i, in, dwell) {
				s.done(c, i, in, out)
			}
		}
		return 0, 0
	}
	return s.inTurn(c, in, dwell, out)
}

// inTurn takes in what this tick brought of wants that must come in their order.
func (s *State) inTurn(c *Case, in *Input, dwell int32, out *Events) (Why, int) {
	for i := s.missing(c); !s.complete(c) && s.stays(&c.Wants[i], i, in, dwell); i++ {
		s.done(c, i, in, out)
		for j := i + 1; j < len(c.Wants); j++ { // a later want that already holds when this one's turn comes was there before it
			if !c.Wants[j].Kind.Happening() && s.since[j] >= 0 && s.since[j] < in.Tick {
				s.Standing |= 1 << j
			}
		}
		if c.Wants[i].Kind.Happening() {
			return 0, 0 // one happening is one want
		}
	}
	if s.complete(c) {
		return 0, 0
	}
	for j := s.missing(c) + 1; j < len(c.Wants); j++ {
		w := &c.Wants[j]
		switch {
		case w.Kind == Answer: // judged above
		case !s.stays(w, j, in, dwell):
		case s.Standing>>j&1 == 0 && w.byHands():
			return OutOfOrder, j
		}
	}
	return 0, 0
}

// byHands reports whether a want comes about only by the pupil's doing, so that coming too early is the pupil's mistake.
func (w *Want) byHands() bool {
	switch w.Kind {
	case Armed:
		return w.A != 0
	case DisarmedBy:
		return w.A&^(1<<happening.BySwitch|1<<happening.BySticks) == 0
	case Stick, ArmSwitch, SecondSwitch, ModeSwitch, Transmitter, Power, Cable, Checked, Gesture, MenuValue, MenuLeft, Answer:
		return true
	}
	return false
}

// answer judges a choice.
func (s *State) answer(c *Case, choice int) (Why, int) {
	turn := s.missing(c)
	why, number := WrongAnswer, choice
	for i := range c.Wants {
		if w := &c.Wants[i]; w.Kind != Answer || int(w.A) != choice {
			continue
		}
		switch {
		case s.Done>>i&1 == 1 || !c.InOrder || i == turn:
			return 0, 0
		case why == WrongAnswer:
			why, number = OutOfOrder, i
		}
	}
	return why, number
}

// done notes a want as seen, and when the hand did it.
func (s *State) done(c *Case, i int, in *Input, out *Events) {
	w := &c.Wants[i]
	s.Done |= 1 << i
	out.add(Event{Kind: WantDone, Case: s.Case, Number: int32(i)})
	if s.Standing>>i&1 == 1 && !w.flown() {
		return // it was so before; a craft that flies so must go on flying so
	}
	mark := s.byHand(w, in)
	if w.For > 0 || w.goes() { // from when it held, which for a hand that goes somewhere is when it came there
		mark = s.since[i] + int64(w.For)
		if w.Kind == Mode && int32(s.mode) == w.A+1 && s.modeSince > s.Given {
			mark = s.modeSince + int64(w.For) // it holds from the reading on, though the craft hears of it only in its slot
		}
	}
	if s.First < 0 && (w.byHands() || w.Kind == Mode) { // what comes by itself is not a hand that was too early
		s.First = mark
	}
	s.Mark, s.Last = max(s.Mark, mark), uint8(i)
}

// byHand is the tick of the reading that brought a want about. The bench shows what a switch does up to a slot later; it is the
// reading that counts. A dwell ends in the slot that completes it.
func (s *State) byHand(w *Want, in *Input) int64 {
	for i := range in.Happened {
		h := &in.Happened[i]
		bySwitch := layout.Place(s.arm) == layout.Inside || layout.Place(s.arm) == layout.Outside
		switch {
		case !bySwitch:
		case w.Kind == Armed && w.A == 1 && h.Code == happening.Armed,
			w.Kind == Refused && h.Code == happening.Refused && arming.Set(h.A) != 0,
			(w.Kind == DisarmedBy || w.Kind == Armed && w.A == 0) && h.Code == happening.Disarmed && happening.Cause(h.A) == happening.BySwitch:
			return s.armSince
		}
	}
	return in.Tick
}
