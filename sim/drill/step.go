package drill

import (
	"propsoff.example/sim/fault"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// Times of a run, in ticks (ours, but for the first).
const (
	// anticipation: whatever comes sooner than this after an unannounced cue was begun before it. The shortest published cycles of
	// eye, thought and hand add up to 105 ms (Card, Moran & Newell 1983).
	anticipation = 100
	// settle is how long the bench inputs of a step are given to take effect before the step is judged.
	settle = 120
	// tellWithin is how long the cue may take to be shown.
	tellWithin = 1000
	// grace is how long after a reading the bench may take to show what came of it: a slot, and a little for the way.
	grace = 60
	// rest is how long a verdict is shown before the next try begins.
	rest = 1500
)

// Phase says where a run stands.
type Phase uint8

// The phases.
const (
	Starting  Phase = iota // the next Step begins a try
	Preparing              // step State.At of the preparation does not hold yet
	Settling               // everything holds; the hands do not lie still yet
	Waiting                // they do; the cue will come
	Running                // the cue was given
	Resting                // a verdict is shown
	Looking                // a try that was not right is shown once more, or what a mark measured, until the pupil wants to go on
	Over                   // the run has ended
)

// State is a run of one drill. Use Begin.
type State struct {
	Phase Phase
	// Case is the variant of this try, Attempt how many tries have begun.
	Case    uint8
	Attempt uint16
	// Counted is how many tries count so far; Recent has a bit for each of the last 64, the newest lowest, set where it was right.
	Counted uint16
	Recent  uint64
	Learned bool
	// At is the step of preparation, Since the tick at which it or the phase began, Due the tick of the next change that time alone brings.
	At         uint8
	Since, Due int64
	// Given is the tick of CueNow; CueAt that at which it was shown, −1 while nobody has said so.
	Given, CueAt int64
	Uncertain    uint16
	// Done has a bit for each want that was seen, Standing one for each that held when the cue came. First is the tick of the first
	// response, Mark that of the last want, Last which want that was.
	Done, Standing uint32
	First, Mark    int64
	Last           uint8
	// freed has a bit for each never that has been seen not to hold since the cue; since and nevers are the ticks since which each want
	// and each never has held, −1 while it does not.
	freed    uint32
	since    [MostWants]int64
	nevers   [MostNevers]int64
	withNext uint8

	seed  uint64
	order [MostCases]uint8
	// craft is one more than the case whose craft is on the bench, 0 while that is not known.
	craft uint8
	// still is what the hands held when they came to rest.
	still still
	// arm and mode are what the hands held before this tick, the fields below since when.
	arm, mode           uint8
	armSince, modeSince int64
	seen, powered       bool
	mending             bool
}

var _ = map[State]struct{}{}

// Begin gives the state of a run before its first try. The same seed gives the same times and cases.
func Begin(seed uint64) State { return State{seed: seed, CueAt: -1} }

// Step advances a run by the tick that the bench has just run. It allocates nothing.
func Step(cfg *Config, s State, in *Input, out *Events) State {
	out.n = 0
	s.watch(in)
	if slept(in) && (s.Phase == Waiting || s.Phase == Running) {
		s.end(cfg, in, out, Void, Slept, 0)
	}
	switch s.Phase {
	case Starting:
		s.begin(cfg, in, out)
	case Preparing:
		s.prepare(cfg, in, out)
	case Settling:
		s.settle(cfg, in, out)
	case Waiting:
		s.wait(cfg, in, out)
	case Running:
		s.run(cfg, in, out)
	case Resting:
		if in.Tick >= s.Due {
			s.next(cfg, in, out)
		}
	case Looking:
		if in.On {
			s.next(cfg, in, out)
		}
	}
	if s.Phase != Over {
		s.pack(cfg, in, out)
		s.mend(cfg, in, out)
	}
	return s
}

// Abandon ends a run early and gives the bench back.
func Abandon(cfg *Config, s State, out *Events) State {
	out.n = 0
	if s.Phase != Over {
		s.over(out)
	}
	return s
}

// watch notes what the hands hold, and since when.
func (s *State) watch(in *Input) {
	f := &in.Facts
	if arm := uint8(f.Arm); arm != s.arm || !s.seen {
		s.arm, s.armSince = arm, in.Tick
	}
	if f.HandMode != s.mode || !s.seen {
		s.mode, s.modeSince = f.HandMode, in.Tick
	}
	s.seen = true
}

// slept reports whether the program missed something in this tick.
func slept(in *Input) bool {
	for i := range in.Happened {
		if c := in.Happened[i].Code; c == happening.Slept || c == happening.ReadingsLost {
			return true
		}
	}
	return false
}

// begin sets the bench for the next try.
func (s *State) begin(cfg *Config, in *Input, out *Events) {
	n := uint16(len(cfg.Cases))
	if s.Attempt%n == 0 {
		s.arrange(cfg)
	}
	s.Case = s.order[s.Attempt%n]
	c := &cfg.Cases[s.Case]
	out.add(Event{Kind: TryBegins, Case: s.Case})
	if s.craft == 0 || cfg.Cases[s.craft-1].Craft != c.Craft {
		out.add(Event{Kind: UseCraft, Case: s.Case})
	}
	s.craft = s.Case + 1
	out.tell(s.Case, c.Set)
	s.Attempt++
	s.At = 0
	s.ask(cfg, in, out)
}

// arrange puts the cases of the next round in order.
func (s *State) arrange(cfg *Config) {
	for i := range cfg.Cases {
		s.order[i] = uint8(i)
	}
	if !cfg.Shuffled {
		return
	}
	r := random(s.seed, uint64(s.Attempt), 1)
	for i := len(cfg.Cases) - 1; i > 0; i-- {
		j := r.below(uint64(i + 1))
		s.order[i], s.order[j] = s.order[j], s.order[i]
	}
}

// ask begins a step of preparation, or the wait where there is none left.
func (s *State) ask(cfg *Config, in *Input, out *Events) {
	c := &cfg.Cases[s.Case]
	s.Phase, s.Since = Preparing, in.Tick
	s.forget()
	if int(s.At) < len(c.Before) {
		out.add(Event{Kind: BeforeStep, Case: s.Case, Number: int32(s.At)})
		out.tell(s.Case, c.Before[s.At].Puts)
	}
}

// forget drops what is known of since when wants have held.
func (s *State) forget() {
	for i := range s.since {
		s.since[i] = -1
	}
}

// prepare goes on to the next step once everything that is asked for holds.
func (s *State) prepare(cfg *Config, in *Input, out *Events) {
	c := &cfg.Cases[s.Case]
	if s.anew(cfg, in, out) {
		return
	}
	if int(s.At) < len(c.Before) {
		all := true
		for i := range c.Before[s.At].Until {
			ok := s.held(&c.Before[s.At].Until[i], i, in)
			all = all && ok
		}
		if !all {
			return
		}
	}
	if in.Tick < s.Since+settle {
		return
	}
	s.At++
	if int(s.At) < len(c.Before) {
		s.ask(cfg, in, out)
		return
	}
	s.Phase, s.Since, s.still = Settling, in.Tick, stillAt(in)
	out.add(Event{Kind: RestBegins, Case: s.Case})
}

// held reports whether a want has held for its time; i is its place.
func (s *State) held(w *Want, i int, in *Input) bool {
	if !w.holds(in) {
		s.since[i] = -1
		return false
	}
	if s.since[i] < 0 {
		s.since[i] = in.Tick
	}
	return in.Tick >= s.since[i]+int64(w.For)
}

// wait gives the cue when its time has come; whatever breaks the preparation before that is a false start.
func (s *State) wait(cfg *Config, in *Input, out *Events) {
	c := &cfg.Cases[s.Case]
	if i := broken(c, in); i >= 0 {
		if !s.prepareAgain(c, i, in, out) {
			s.end(cfg, in, out, FalseStart, BrokeBefore, i)
		}
		return
	}
	if in.Tick >= s.Due {
		s.cue(cfg, in, out)
	}
}

// cue gives the cue.
func (s *State) cue(cfg *Config, in *Input, out *Events) {
	c := &cfg.Cases[s.Case]
	s.Phase, s.Given, s.CueAt, s.Uncertain = Running, in.Tick, -1, 0
	s.Done, s.Standing, s.First, s.Mark, s.Last, s.freed, s.withNext = 0, 0, -1, -1, 0, 0, 0
	s.forget()
	for i := range s.nevers {
		s.nevers[i] = -1
	}
	for i := range c.Wants {
		if w := &c.Wants[i]; !w.Kind.Happening() && w.holds(in) {
			s.Standing |= 1 << i
		}
	}
	for i := range c.Nevers {
		if w := &c.Nevers[i]; w.Kind.Happening() || !w.holds(in) {
			s.freed |= 1 << i
		}
	}
	out.add(Event{Kind: CueNow, Case: s.Case})
	s.with(c, in, out)
}

// with puts the bench inputs that come with the cue and after it.
func (s *State) with(c *Case, in *Input, out *Events) {
	for int(s.withNext) < len(c.With) && in.Tick >= s.Given+int64(c.With[s.withNext].After) {
		out.add(Event{Kind: Tell, Case: s.Case, Put: c.With[s.withNext].Put})
		s.withNext++
	}
}

// end notes how a try ended.
func (s *State) end(cfg *Config, in *Input, out *Events, v Verdict, why Why, number int) {
	t := Try{Tick: in.Tick, Case: s.Case, Verdict: v, Why: why, Number: uint8(number), Reaction: -1, First: -1, Uncertain: s.Uncertain}
	if in.Followed {
		t.Hand = in.Hand
	}
	if marked := cfg.Cases[s.Case].Mark.On(); !marked && s.Phase == Running && s.Mark >= 0 && s.CueAt >= 0 && (v == Right || v == Anticipated || why == CameLate) {
		t.Reaction = int32(s.Mark - s.CueAt)
		if s.First >= s.CueAt {
			t.First = int32(s.First - s.CueAt)
		}
	}
	if v != Void {
		s.Recent <<= 1
		if v == Right {
			s.Recent |= 1
		}
		s.Counted++
		s.Learned = s.learned(cfg)
	}
	s.Phase, s.Since, s.Due = Resting, in.Tick, in.Tick+rest
	out.add(Event{Kind: TryEnds, Case: s.Case, Try: t})
	ends := v == Right && s.Learned && cfg.Cases[s.Case].Mark.On() // what is measured then stands at the end of the run
	if v != Void && (v != Right || cfg.Cases[s.Case].Mark.On()) && !ends {
		s.Phase = Looking
		out.add(Event{Kind: LookBegins, Case: s.Case})
	}
}

// learned reports whether what counts as learned has been reached.
func (s *State) learned(cfg *Config) bool {
	n, of := cfg.InARow, cfg.InARow
	if n == 0 {
		n, of = cfg.Right, cfg.Of
	}
	if n == 0 || of > 64 || s.Counted < of {
		return false
	}
	right := uint16(0)
	for i := range of {
		right += uint16(s.Recent >> i & 1)
	}
	return right >= n
}

// next begins another try or ends the run.
func (s *State) next(cfg *Config, in *Input, out *Events) {
	if s.Learned || s.Counted >= cfg.Tries || s.Attempt >= MostAttempts {
		s.over(out)
		return
	}
	s.begin(cfg, in, out)
}

// over gives the bench back: nothing that a drill has planted stays.
func (s *State) over(out *Events) {
	s.Phase = Over
	for _, p := range [...]Put{
		{Kind: pulse.Instructor, Value: fault.LiftAll()}, {Kind: pulse.Air},
		{Kind: pulse.Link, Value: 1}, {Kind: pulse.Cable}, {Kind: pulse.Tilt}, {Kind: pulse.Menu}, {Kind: pulse.Pack},
	} {
		out.add(Event{Kind: Tell, Case: s.Case, Put: p})
	}
	learned := int32(0)
	if s.Learned {
		learned = 1
	}
	out.add(Event{Kind: RunEnds, Case: s.Case, Number: learned})
}

// Choices gives the order in which this try's choices are to be shown: dst[i] is the place in the file of the choice that stands at
// place i.
func Choices(cfg *Config, s *State, dst []int) []int {
	dst = dst[:0]
	c := &cfg.Cases[s.Case]
	for i := range int(c.Choices) {
		dst = append(dst, i)
	}
	if c.KeepOrder {
		return dst
	}
	r := random(s.seed, uint64(s.Attempt), 3)
	for i := len(dst) - 1; i > 0; i-- {
		j := r.below(uint64(i + 1))
		dst[i], dst[j] = dst[j], dst[i]
	}
	return dst
}

// Missing has a bit for each want that does not hold yet: of the present step of preparation, or of the case once the cue has been given.
func Missing(cfg *Config, s *State, in *Input) uint32 {
	c := &cfg.Cases[s.Case]
	m := uint32(0)
	switch {
	case s.Phase == Preparing && int(s.At) < len(c.Before):
		for i := range c.Before[s.At].Until {
			if !c.Before[s.At].Until[i].holds(in) {
				m |= 1 << i
			}
		}
	case s.Phase == Running:
		m = (1<<len(c.Wants) - 1) &^ s.Done
	}
	return m
}
