package prove

import (
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// Limits of what practitioners fear (all ours).
const (
	// MostTurning is how long motors may go on turning after the radio fell silent, in ms: longer, and whoever runs after the craft
	// reaches it with turning propellers.
	MostTurning = 10_000
	// MostBlind is how long a craft may fly on as its sticks last stood, in ms, before it takes the radio for lost.
	MostBlind = 1000
	// LeastSilence is the least silence limit, in slots: with one, a single lost frame is a loss.
	LeastSilence = 2
	// Upright is a tilt limit, in tenths of a degree, at which a craft that lies on its side still arms.
	Upright = 900
	// LeastDwell is the least dwell of a corner, in ms: a hand that only passes through one is out of it again sooner.
	LeastDwell = 200
	// leastClear is how far below the low mark the throttle's low end must lie: what is shown of a radio is within 4.1 µs of what its
	// device says, and a stick that is not quite down is as much.
	leastClear = 5 * pulse.Eighths
	// leastTimes is how many times the throttle's noise must go into that, as of every edge.
	leastTimes = 6
	// LowFlight is how high a beginner flies, in m: what sinks must come down from there.
	LowFlight = 3.0 // within MostTurning, since no motor may turn for longer
	// MostTouch is the greatest speed, in m/s, with which it may touch the ground: a faster craft breaks.
	MostTouch = 5.0
)

// fears are what practitioners fear, of layouts that break no promise of the bench: each with whether it is asked of a layout, and the judge
// that decides it. All is decided by what the layout is, so a search that was stopped decides them too; a way to one is an honest try,
// run on the whole bench.
var fears = [...]struct {
	rule  Rule
	asked func(c *sim.Config) bool
	judge func(*fearful)
}{
	{SecondGoesOff, hasSecond, judgeSecond},
	{SweepNeverArms, bySwitchAlone, judgeSweep},
	{ArmRestsOff, bySwitchAlone, judgeArmRests},
	{ArmHasPositions, bySwitchAlone, judgeArmHasPositions},
	{ArmControlIsAlone, armHasOthers, judgeArmIsAlone},
	{NoRateOnTheWay, hasModes, judgeRateOnTheWay},
	{SilenceStopsSoon, always, judgeStopsSoon},
	{SilenceSinks, sinks, judgeSilenceSinks},
	{SinkComesDown, sinks, judgeSinkComesDown},
	{StoredOffCorners, storedSticks, judgeStoredCorners},
	{OneFrameIsNoLoss, canBeLost, judgeOneFrame},
	{SilenceIsSeenSoon, canBeLost, judgeSeenSoon},
	{CleanTimeIsSet, always, judgeCleanTime},
	{StillTimeIsSet, always, judgeStillTime},
	{TiltRefuses, always, judgeTilt},
	{CornersTakeTime, bySticksAlone, judgeCornersTakeTime},
	{CornersBelowPower, bySticksAlone, judgeCornersBelowPower},
	{ArmingStartsNoMotor, always, judgeArmingStarts},
	{ThrottleLowIsClear, always, judgeThrottleLow},
	{ThrottleStays, always, judgeThrottleStays},
	{ThrottleStaysUp, always, judgeThrottleStaysUp},
	{NoStickMovesMode, hasModes, judgeStickMoves},
}

func always(*sim.Config) bool          { return true }
func hasSecond(c *sim.Config) bool     { return c.Layout.Second != layout.NoChannel }
func hasModes(c *sim.Config) bool      { return c.Layout.Mode != layout.NoChannel }
func bySwitchAlone(c *sim.Config) bool { return c.Arming.By == arming.BySwitch }
func bySticksAlone(c *sim.Config) bool { return c.Arming.By == arming.BySticks }
func armHasOthers(c *sim.Config) bool  { return bySwitchAlone(c) && (hasModes(c) || hasSecond(c)) }
func sinks(c *sim.Config) bool         { return c.Arming.SinkSlots > 0 }
func canBeLost(c *sim.Config) bool     { return !fillsGaps(c) }
func storedSticks(c *sim.Config) bool {
	return bySticksAlone(c) && c.Link.OnLoss == link.SendsStored
}

// fillsGaps reports whether the receiver fills each gap of the radio's with frames that count, so that the link is never lost.
func fillsGaps(c *sim.Config) bool {
	return c.Link.OnLoss == link.RepeatsLast || c.Link.OnLoss == link.SendsStored && link.ValidFrame(c.Link.Needed, &c.Link.Stored)
}

// fearAsked reports whether a rule is one of these fears, and whether it is asked of a craft.
func fearAsked(r Rule, c *sim.Config) (asked, is bool) {
	for i := range fears {
		if fears[i].rule == r {
			return fears[i].asked(c), true
		}
	}
	return false, false
}

// Tried reports whether the way to a broken rule is an honest try, not the shortest of all.
func (r Rule) Tried() bool {
	_, is := fearAsked(r, &sim.Config{})
	return is || r.OfTwoRadios()
}

// fearful judges one fear of one layout.
type fearful struct {
	s    *search
	l    *Layout
	cfg  *sim.Config
	rule Rule
}

// fears judges every fear that is asked.
func (s *search) fears() {
	for i := range fears {
		if f := &fears[i]; s.r.Results[f.rule].Outcome == Undecided {
			f.judge(&fearful{s, s.l, &s.l.Config, f.rule})
		}
	}
}

func (f *fearful) holds(searched int) { f.s.holds(f.rule, uint64(max(searched, 1))) }

// unasked is for a rule that another one makes meaningless.
func (f *fearful) unasked() { f.s.r.Results[f.rule].Outcome = NotAsked }

// broken notes that the rule is broken, held against so many things, with the way that try goes.
func (f *fearful) broken(found Result, searched int, try func(*trial)) {
	found.Searched = uint64(max(searched, 1))
	t := newTrial(f.s)
	try(t)
	f.s.broken(f.rule, found, t.end())
}

// result is one about a control; of the layout where there is none.
func (f *fearful) result(c Cause, control int, p *place1) Result {
	r := Result{Cause: c, Control: control, Position: -1}
	if p != nil {
		r.Position, r.Value = p.position, int64(p.width)
	}
	return r
}

// place1 is one position of a switch, or one stretch of a knob or stick in which every width means the same.
type place1 struct {
	// width stands for it; position is that of a switch, −1 for a stretch from low to high.
	width     pulse.Width
	position  int
	low, high pulse.Width
	means     int
}

// noPulse is what a place means that sends none.
const noPulse = -1

// places are those of a control, from its low end to its high one; a stretch of a knob or stick is as long as means stays the same.
func places(c *handset.Control, means func(pulse.Width) int) (out []place1) {
	meaning := func(w pulse.Width) int {
		if !w.Valid() {
			return noPulse
		}
		return means(w)
	}
	if c.Kind == handset.Switch {
		for i, p := range c.Positions {
			at := place1{p.Width, i, p.Width, p.Width, meaning(p.Width)}
			n := len(out)
			for n > 0 && out[n-1].width > at.width {
				n--
			}
			out = append(out[:n:n], append([]place1{at}, out[n:]...)...)
		}
		return out
	}
	low, high := min(c.Low, c.High), max(c.Low, c.High)
	for w := low; w <= high; {
		at := place1{w, -1, w, w, meaning(w)}
		for at.high < high && meaning(at.high+1) == at.means {
			at.high++
		}
		at.width = standsFor([]pulse.Width{at.low, at.high}, low, c.Rest, high)
		out = append(out, at)
		w = at.high + 1
	}
	return out
}

// What a place of a switch with one span means.
const (
	isOff = iota
	isOn
)

func inSpan(s layout.Span) func(pulse.Width) int {
	return func(w pulse.Width) int { return int(bit(s.Contains(w))) }
}

// armPlaces are the arm control, its index and its places; nil where the radio has none.
func (f *fearful) armPlaces() (*handset.Control, int, []place1) {
	c, at := f.s.h.find(f.cfg.Layout.Arm)
	if c == nil {
		return nil, -1, nil
	}
	return c, at, places(c, inSpan(f.cfg.Layout.ArmSpan))
}
