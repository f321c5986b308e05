package prove

import (
	"cmp"
	"runtime"
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/gestures"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/prove/explore"
	"propsoff.example/sim/pulse"
)

// mostBytes is how much memory situations may take where Options does not say.
const mostBytes = 2 << 30

// Search walks every situation that this layout can come into, and holds every rule against it. It fails where the layout
// cannot be searched, or where the bench does not do what the search relies on.
//
// Movements are what hands do on purpose: a control to another place, the radio's own switch, the craft's pack, its set-up
// cable, a nudge of the craft; one at most in a slot. Single damaged frames are no one's movement and are left out.
func Search(l Layout, o Options) (Report, error) {
	if err := l.check(); err != nil {
		return Report{}, err
	}
	h, err := newHands(&l, question{})
	if err != nil {
		return Report{}, err
	}
	s := &search{l: &l, o: o, h: h, firm: h}
	if h.trembles() {
		if s.firm, err = l.firmHands(); err != nil {
			return Report{}, err
		}
	}
	s.begin()
	if err := s.all(); err != nil {
		return Report{}, err
	}
	s.positions()
	s.abilities()
	s.moves()
	s.fears()
	if sound := s.conditions(); sound && s.folding != nil {
		return Report{}, s.folding
	}
	s.settle()
	return s.r, nil
}

// settle marks as not asked what other results have made meaningless: whether a craft that never arms can be disarmed.
func (s *search) settle() {
	if d := &s.r.Results[CanDisarm]; s.r.Results[CanArm].Outcome == Broken && d.Outcome == Holds {
		d.Outcome, d.Searched = NotAsked, 0
	}
}

// search is one Search under way.
type search struct {
	l *Layout
	o Options
	h *hands
	// firm are hands on a radio without noise: what it must be able to do it must not owe to noise.
	firm *hands
	r    Report
	// before is how many situations earlier passes found; stopped ends all further passes.
	before  uint64
	stopped bool
	// told is what was told last of how far it is; asked is how many situations there were when somebody asked how many there will be.
	told  Progress
	asked uint64
	best  [RuleCount]explore.Cost
	// armed is a way to being armed; cornered says whether sticks disarmed anywhere.
	armed *Way
	// blocked: gestures keep the craft from ever arming. unsure: whether they do was not decided.
	blocked, unsure bool
	unreal          []unreal
	// undecided: whether some gesture breaks its rule was not decided.
	undecided bool
	cornered  bool
	main      uint64
	complete  bool
	// folding says what the search took for one though the bench tells it apart.
	folding error
}

// check finds what no search could work with.
func (l *Layout) check() error {
	c := &l.Config
	if c.SlotTicks < 1 || c.Link.SilenceSlots < 1 {
		return words.Wrong("search.no-period")
	}
	for _, ch := range [...]int8{c.Layout.Throttle, c.Layout.Roll, c.Layout.Pitch, c.Layout.Yaw} {
		if ch < 0 || ch >= pulse.Channels {
			return words.Wrong("search.no-stick-channel")
		}
	}
	if (c.Layout.Arm == layout.NoChannel) != (c.Arming.By == arming.BySticks) {
		return words.Wrong("search.arm-channel")
	}
	for _, ch := range [...]int8{c.Layout.Arm, c.Layout.Second, c.Layout.Mode} {
		if ch < layout.NoChannel || ch >= pulse.Channels {
			return words.Wrong("search.no-channel")
		}
	}
	if n := c.Layout.SpanCount; n < 0 || n > layout.MaxModeSpans {
		return words.Wrong("search.many-spans")
	}
	return nil
}

// begin notes for each rule whether it applies to this craft.
func (s *search) begin() {
	c := &s.l.Config
	for r := range RuleCount {
		asked := true
		switch r {
		case StoredNeverArms:
			asked = c.Link.OnLoss == link.SendsStored
		case HeldNeverArms:
			asked = c.Link.OnLoss == link.RepeatsLast
		case UnheardIsSilent:
			asked = c.Link.OnLoss != link.FallsSilent
		case EveryModeReached, NoModeGap, ModeStays:
			asked = c.Layout.Mode != layout.NoChannel
		case ArmControlStays:
			asked = c.Arming.By == arming.BySwitch
		case CornerDisarmsInFlight:
			asked = c.Arming.By == arming.BySticks
		case GestureNeverArms, ArmedOpensNoMenu, OneGestureAtATime, GestureCanBeMade:
			asked = c.Gestures != nil && len(c.Gestures.Patterns) > 0
		case ArmingOpensNoMenu:
			asked = c.Arming.By == arming.BySticks && opensWhatRefuses(c)
		case MenuSticksNeverArm:
			asked = c.Gestures != nil && opensMenu(c)
		case GestureAlsoDisarms:
			asked = c.Gestures != nil && len(c.Gestures.Patterns) > 0 && c.Arming.By == arming.BySticks
		default:
			if fear, is := fearAsked(r, c); is {
				asked = fear
			}
			asked = asked && !r.OfTwoRadios()
		}
		result := Result{Rule: r, Control: -1, Position: -1}
		if asked {
			result.Outcome = Undecided
		}
		s.r.Results = append(s.r.Results, result)
	}
}

// opensMenu reports whether a gesture opens a menu.
func opensMenu(c *sim.Config) bool {
	return c.Menus != nil && slices.ContainsFunc(c.Gestures.Patterns, func(p gestures.Pattern) bool { return p.Opens > 0 })
}

// walk runs one pass from where everything stands at its normal place.
func (s *search) walk(x *space) (*explore.Walk, explore.End) {
	o := s.options()
	if s.o.Progress != nil {
		first := s.before == 0
		o.Progress = func(w *explore.Walk, at explore.Cost) bool {
			s.told.Broken = x.brokenYet()
			s.stopped = s.tell(w, at, first)
			return s.stopped
		}
	}
	if x.goal != nil || x.fine != nil {
		o.Workers = 1 // it is found soon, or numbers situations as they come
	}
	w := explore.New(o)
	x.stop = w.Stop
	start := uint64(x.h.start)
	if x.fine != nil {
		start, x.fine.full = x.fine.id(finely{key: start}), w.Stop
	} else {
		x.marks = w.Marks()
	}
	w.Begin(start)
	end := w.Run(x)
	s.before += w.Found()
	s.r.Steps += x.steps
	s.r.Bytes = max(s.r.Bytes, w.Peak())
	return w, end
}

// asksEvery is after how many situations Progress is asked (ours): in a browser a search holds up the whole page until then.
func asksEvery() uint64 {
	if runtime.GOOS == "js" {
		return 1 << 9
	}
	return 1 << 15
}

// options are those of every walk.
func (s *search) options() explore.Options {
	return explore.Options{
		MostBytes: cmp.Or(s.o.MostBytes, mostBytes), Every: asksEvery(), Workers: cmp.Or(s.o.Workers, runtime.GOMAXPROCS(0)), Grain: s.o.grain,
	}
}

// all searches every situation, then again, told apart by age, for each rule whose guess some step contradicted.
func (s *search) all() error {
	x, fits := newSpace(s.h, noWatch)
	if !fits {
		return words.Wrong("search.too-long")
	}
	x.guesses = guessed(x.cfg)
	w, end := s.walk(x)
	if x.wrong || x.c.full {
		return words.Wrong("search.not-whole")
	}
	s.complete = end == explore.Complete
	s.r.Partial = !s.complete
	s.r.Situations, s.main, s.r.Edges = w.Found(), w.Found(), w.Edges()
	for p := range uint32(w.Found()) {
		s.r.Standing += s.h.fold[uint32(w.Key(p))&s.h.sentBits()]
	}
	if s.complete {
		s.folding = x.sameWithin(w)
	}
	s.take(x, w)
	s.cornered = x.cornered
	doubtful, armed := x.doubtful, x.firstArmed != nil
	var first *Way
	real := false
	if armed {
		first, real = x.way(w, x.firstArmed)
	}
	broken := x.found
	x, w = nil, nil // their memory is needed now
	if armed && s.firm != s.h {
		first, real, armed = s.armsFirmly()
	}
	if armed {
		s.canArm(first, real)
	}
	if s.complete && !s.stopped && opensWhatRefuses(&s.l.Config) {
		s.anyMenu(&broken, doubtful)
	}
	s.lookAgain(doubtful, armed)
	return nil
}

// lookAgain searches once more, told apart by age, for each rule whose guess was contradicted, and for what comes with sticks; then it notes what
// holds.
func (s *search) lookAgain(doubtful []watch, armed bool) {
	undecided := map[Rule]bool{}
	for _, d := range doubtful {
		if s.stopped || !s.complete {
			undecided[d.rule()] = true
			continue
		}
		// A pilot tries a silent radio with turning motors, so the way is looked for with those first. Where there is none, that the
		// craft stays armed breaks the rule all the same.
		if d == watchLoss {
			s.again(watchTurned, only{})
			if s.r.Results[LossStopsMotors].Way != nil {
				continue
			}
		}
		if s.stopped || !s.again(d, only{}) {
			undecided[d.rule()] = true
		}
	}
	if s.cornered && armed && !s.stopped {
		// Radio, cable, nudges and taking the pack away bring nobody into the air or out of it any sooner, so the way is looked
		// for without them first; every control may move.
		// A receiver that makes up frames may take the sticks to the corner by itself, so there the radio counts as well.
		if s.again(watchFlight, only{some: true, channels: 1<<pulse.Channels - 1, radio: s.l.Config.Link.OnLoss != link.FallsSilent}) && s.r.Results[CornerDisarmsInFlight].Way == nil {
			if s.again(watchFlight, only{}) {
				s.holds(CornerDisarmsInFlight, s.main)
			}
		}
	}
	s.follow()
	for r := range RuleCount {
		if r.ofSteps() && s.r.Results[r].Outcome == Undecided && s.complete && !undecided[r] {
			s.holds(r, s.main)
		}
	}
	for r := range undecided {
		s.r.Partial = s.r.Partial || s.r.Results[r].Outcome == Undecided
	}
}

// again searches with situations told apart by the count of a watch, until its rule is broken or all have been seen. It
// reports whether that was brought to an end.
func (s *search) again(d watch, few only) bool {
	x, fits := newSpace(s.h, d)
	if !fits {
		return false
	}
	x.few = few
	w, end := s.walk(x)
	if x.wrong || x.c.full {
		return false
	}
	s.take(x, w)
	return end == explore.Complete || end == explore.Enough
}

// holds notes that a rule holds in so many situations or positions.
func (s *search) holds(r Rule, searched uint64) {
	if o := &s.r.Results[r]; o.Outcome == Undecided {
		o.Outcome, o.Searched = Holds, searched
	}
}

// take keeps what a pass found broken, where it is the shortest way.
func (s *search) take(x *space, w *explore.Walk) {
	for r := range RuleCount {
		b, o := x.found[r], &s.r.Results[r]
		if b == nil || o.Outcome == NotAsked || o.Way != nil && !b.cost.Less(s.best[r]) {
			continue
		}
		way, real := x.way(w, b)
		if !real {
			s.unreal = append(s.unreal, unreal{r, x.watched, x.few})
			continue
		}
		s.found(x, w, r, way)
	}
}

// found notes a rule that a pass found broken, with the way to it.
func (s *search) found(x *space, w *explore.Walk, r Rule, way *Way) {
	b, o := x.found[r], &s.r.Results[r]
	s.best[r] = b.cost
	o.Outcome, o.Searched, o.Way = Broken, w.Found(), way
	if r == CornerDisarmsInFlight {
		o.Outcome = WithIt
	}
	o.Control, o.Position, o.Value, o.Turning = -1, -1, 0, x.watched == watchTurned
	s.explain(o, b, x)
}
