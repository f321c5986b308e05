package prove

import (
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/link"
)

// watch is a rule about what went before: it counts slots since something, and is broken by what must not happen at that
// count. The count is told by what happens alone, never by the counters of link and arming.
//
// Counting every situation apart by its age would cost time and memory, and on a bench without fault it is not needed: each
// watch has a guess at its count from the counters that the bench has anyway. Where no step of any situation contradicts the
// guess (contradicts, below), the guess bounds the true count in every situation by induction over the steps, and where the
// guess cannot break the rule, neither can the count. Only when some step contradicts it are the situations told apart by
// age, in a search of their own that finds the shortest way, or that there is none.
type watch uint8

const (
	watchStill   watch = iota // slots since power-up, or since the last movement before the still time was complete
	watchClean                // valid slots since the link was last lost or ailing before it was good
	watchArm                  // by sticks: slots in the arm corner with nothing that refuses
	watchDisarm               // by sticks: slots in the disarm corner, for "not before its dwell"
	watchCorner               // by sticks: slots in the disarm corner, every one valid, for "after one dwell at the latest"
	watchRefusal              // 1: the arm control was refused on this visit
	watchLoss                 // armed slots without a valid frame from the radio
	watchPower                // 1: since power-up nothing moved
	watchBack                 // 1: since the radio came back after a loss nothing moved
	watchUnseen               // 1: since power-up the arm control was never seen off
	watchFlight               // 1: armed, and the throttle has been up since
	watchTurned               // twice watchLoss, and 1 more: the motors turned when the radio fell silent, or since
	watchCount
	noWatch
)

// watches is what each watch counts, as data: a row names the rule and the small function that judges it.
var watches = [watchCount]struct {
	rule Rule
	// sticks: only a craft that arms by sticks is asked.
	sticks bool
	// most is how far it counts for a craft, nil where it counts to 1.
	most func(cfg *sim.Config) uint32
	// guess is a guess at the count in a situation with power, from the bench's own counters; nil for a watch that always has a search
	// of its own.
	guess func(s *sim.SlotState, cfg *sim.Config) uint32
	// judge gives the count after a step with power, and the cause where the step breaks the rule. age is the count before it, and
	// grow one more than that, but never more than most.
	judge func(e *step, age, grow, most uint32) (uint32, Cause)
}{
	watchStill:   {TimesAreKept, false, stillSlots, stillGuess, judgeStill},
	watchClean:   {TimesAreKept, false, cleanSlots, cleanGuess, judgeClean},
	watchArm:     {TimesAreKept, true, armSlots, armGuess, judgeArm},
	watchDisarm:  {TimesAreKept, true, disarmSlots, disarmGuess, judgeDisarm},
	watchCorner:  {ArmControlDisarms, true, disarmSlots, disarmGuess, judgeCorner},
	watchRefusal: {ClearingNeverArms, false, nil, refusalGuess, judgeRefusal},
	watchLoss:    {LossStopsMotors, false, lossSlots, lossGuess, judgeLoss},
	watchPower:   {PowerUpNeverArms, false, nil, restGuess, judgePower},
	watchBack:    {LinkBackNeverArms, false, nil, restGuess, judgeBack},
	watchUnseen:  {OffBeforeArming, false, nil, unseenGuess, judgeUnseen},
	watchFlight:  {CornerDisarmsInFlight, false, nil, nil, judgeFlight},
	watchTurned:  {LossStopsMotors, false, turnedSlots, nil, judgeTurned},
}

func stillSlots(cfg *sim.Config) uint32  { return uint32(cfg.Arming.StillSlots) }
func cleanSlots(cfg *sim.Config) uint32  { return uint32(cfg.Link.CleanSlots) + 1 }
func armSlots(cfg *sim.Config) uint32    { return uint32(cfg.Arming.ArmDwell) + 1 }
func disarmSlots(cfg *sim.Config) uint32 { return uint32(cfg.Arming.DisarmDwell) + 1 }
func lossSlots(cfg *sim.Config) uint32 {
	return uint32(cfg.Link.SilenceSlots) + uint32(cfg.Arming.SinkSlots)
}
func turnedSlots(cfg *sim.Config) uint32 { return 2*lossSlots(cfg) + 1 }

// rule is the one that a watch is for.
func (w watch) rule() Rule { return watches[w].rule }

// askedOf reports whether the guess of a watch is to be held against every step of this craft.
func (w watch) askedOf(cfg *sim.Config) bool {
	return watches[w].guess != nil && (!watches[w].sticks || cfg.Arming.By == arming.BySticks)
}

// guessed are all watches whose guess is to be held against every step of a craft.
func guessed(cfg *sim.Config) (all []watch) {
	for w := range watchFlight {
		if w.askedOf(cfg) {
			all = append(all, w)
		}
	}
	return all
}

// most is how far a watch counts.
func (w watch) most(cfg *sim.Config) uint32 {
	if most := watches[w].most; most != nil {
		return most(cfg)
	}
	return 1
}

// next is the count after a step, and the cause where the step breaks the rule.
func (w watch) next(age uint32, e *step, most uint32) (uint32, Cause) {
	if !e.to.powered {
		return 0, NoCause
	}
	return watches[w].judge(e, age, min(age+1, most), most)
}

// guess is a guess at the count from the bench's own counters; 0 where the watch makes none.
func (w watch) guess(s *situation, cfg *sim.Config) uint32 {
	if guess := watches[w].guess; s.powered && guess != nil {
		return guess(&s.slot, cfg)
	}
	return 0
}

func stillGuess(s *sim.SlotState, _ *sim.Config) uint32 { return uint32(s.Arming.Still) }

func cleanGuess(s *sim.SlotState, cfg *sim.Config) uint32 {
	switch s.Link.Phase {
	case link.Good:
		return cleanSlots(cfg)
	case link.Fresh:
		return uint32(s.Link.Clean)
	}
	return 0
}

func armGuess(s *sim.SlotState, _ *sim.Config) uint32 {
	if s.Arming.Armed || s.Arming.OffFirst {
		return 0
	}
	return uint32(s.Arming.ArmDwell)
}

func disarmGuess(s *sim.SlotState, _ *sim.Config) uint32 { return uint32(s.Arming.DisarmDwell) }

func refusalGuess(s *sim.SlotState, cfg *sim.Config) uint32 {
	if cfg.Arming.By == arming.BySwitch {
		return bit(s.Arming.Inside)
	}
	return bit(s.Arming.ArmDwell == cfg.Arming.ArmDwell+2)
}

func lossGuess(s *sim.SlotState, cfg *sim.Config) uint32 { return lossCount(&s.Link, &s.Arming, cfg) }

func lossCount(l *link.State, a *arming.State, cfg *sim.Config) uint32 {
	switch {
	case !a.Armed:
		return 0
	case l.Phase.Up():
		return uint32(l.Gap)
	}
	return uint32(cfg.Link.SilenceSlots) - 1 + uint32(a.Sink)
}

func restGuess(s *sim.SlotState, cfg *sim.Config) uint32 {
	return bit(cfg.Arming.By == arming.BySwitch || s.Arming.OffFirst || s.Arming.ArmDwell == 0)
}

func unseenGuess(s *sim.SlotState, _ *sim.Config) uint32 { return bit(s.Arming.OffFirst) }

// upper reports whether the guess bounds the count from above: then a high count breaks the rule, else a low one does.
func (w watch) upper() bool { return w >= watchCorner }

// contradicts reports whether a step shows that the guess is not a bound.
func (w watch) contradicts(before uint32, e *step, most uint32) bool {
	count, cause := w.next(before, e, most)
	after := w.guess(e.to, e.cfg)
	return cause != NoCause || w.upper() && after < count || !w.upper() && after > count
}
