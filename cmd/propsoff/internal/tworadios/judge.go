package tworadios

import (
	"propsoff.example/sim/arming"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// hit is a step that was looked for: from which situation, which movement, and in which slot after it what was looked for comes.
type hit struct {
	from, slot int
	m          move
	// channel is one that is at fault, −1 for none.
	channel int8
	met     bool
}

// judge holds each step against the rules about two radios.
type judge struct {
	w      *walk
	l      *Layout
	canArm bool
	// What was met, by the first step that did.
	takes, gives, armed, tutorDisarms hit
	arms, disarms                     hit // by a hand-over
	under, holds                      hit // still armed: the pupil's arm control off, or his radio gone, while the instructor has the sticks
	armsBy, disarmsBy, underBy        prove.Cause
}

func (h *hit) take(from int, m move, slot int) bool {
	if h.met {
		return false
	}
	*h = hit{from: from, m: m, slot: slot, channel: -1, met: true}
	return true
}

// see takes one step.
func (j *judge) see(i int, m move, to *situation, c *came) {
	from := &j.w.all[i]
	hands, armed := to.held.Hands, to.slot.Arming.Armed
	end := max(c.slots-2, 0)
	if hands {
		j.takes.take(i, m, 0)
	} else if from.held.Hands && m.kind == prove.Move || m.kind == prove.LetGo && from.held.Hands {
		j.gives.take(i, m, 0)
	}
	if armed {
		j.armed.take(i, m, max(c.armed, 0))
	}
	was := from.slot.Arming.Armed
	if was && c.disarmed >= 0 && m.lever >= j.w.pupils {
		j.tutorDisarms.take(i, m, c.disarmed)
	}
	if m.lever >= j.w.pupils && hands != from.held.Hands {
		j.handOver(i, m, to, c)
	}
	if armed && hands {
		j.underHis(i, m, to, end)
	}
}

// handOver looks at a step in which the sticks changed hands.
func (j *judge) handOver(i int, m move, to *situation, c *came) {
	from, cfg := &j.w.all[i], j.w.cfg
	sticks := cfg.Arming.By == arming.BySticks
	switch was := from.slot.Arming.Armed; {
	case !was && c.armed >= 0:
		if j.arms.take(i, m, c.armed) {
			j.armsBy = prove.TakingShowsOn
			if sticks {
				j.armsBy = prove.TakingInCorner
			}
		}
	case was && c.disarmed >= 0 && !j.wasOff(m, c) && c.heard && from.slot.Link.Phase == link.Good && from.slot.Arming.Sink == 0:
		if !j.disarms.take(i, m, c.disarmed) {
			return
		}
		switch broken := j.noPulse(&c.sent); {
		case broken >= 0:
			j.disarmsBy, j.disarms.channel = prove.TakingBreaksLink, broken
		case !sticks && j.w.carries(m.lever, cfg.Layout.Arm):
			j.disarmsBy = prove.TakingIsArm
		case sticks && corner(cfg, &c.sent, false):
			j.disarmsBy = prove.TakingInCorner
		default:
			j.disarmsBy = prove.Unexplained
		}
	}
}

// wasOff reports whether an arm switch was off already, unheard: that it disarms once it is heard is no doing of the hand-over.
func (j *judge) wasOff(m move, c *came) bool {
	l := &j.w.cfg.Layout
	return l.Arm != layout.NoChannel && c.sent[l.Arm].Valid() && !l.ArmSpan.Contains(c.sent[l.Arm]) && !j.w.carries(m.lever, l.Arm)
}

// noPulse is a channel that is needed and carries none, −1 for none.
func (j *judge) noPulse(f *pulse.Frame) int8 {
	for ch := range int8(pulse.Channels) {
		if j.w.cfg.Link.Needed>>ch&1 == 1 && !f[ch].Valid() {
			return ch
		}
	}
	return -1
}

// underHis looks at a craft that stays armed while the instructor has the sticks.
func (j *judge) underHis(i int, m move, to *situation, end int) {
	cfg := j.w.cfg
	hand := j.w.frame(&to.at, 0, j.w.pupils) // where his levers stand, seen or not
	if cfg.Arming.By == arming.BySticks {
		switch {
		case to.out:
			j.holds.take(i, m, end)
		case corner(cfg, &hand, false) && j.under.take(i, m, end):
			j.underBy = prove.PupilOffSticks
		}
		return
	}
	at := hand[cfg.Layout.Arm]
	switch off := !cfg.Layout.ArmSpan.Contains(at); {
	case off && to.out:
		j.holds.take(i, m, end)
	case off && j.under.take(i, m, end):
		j.underBy = prove.Unexplained
	}
}

// results are what came of each rule about two radios.
func (j *judge) results() []prove.Result {
	can, canCause := j.tutorCanDisarm()
	var out []prove.Result
	for r := prove.TutorCanTake; r < prove.RuleCount; r++ {
		one := prove.Result{Rule: r, Outcome: prove.Holds, Control: -1, Position: -1, Searched: uint64(len(j.w.all))}
		switch ability := r <= prove.TutorCanDisarm; {
		case ability && j.w.partial: // that it was not met says nothing
			one.Outcome = prove.Undecided
		case r == prove.TutorCanTake:
			j.canTake(&one)
		case r == prove.TutorLetsArm:
			j.letsArm(&one)
		case r == prove.TutorCanDisarm && !j.armed.met:
			one.Outcome = prove.NotAsked
		case r == prove.TutorCanDisarm && !can:
			one = canCause
			j.breaks(&one, j.try(r))
		case !ability:
			if j.whileHis(&one, can); j.w.partial && one.Way == nil {
				one.Outcome = prove.Undecided
			}
		}
		if one.Outcome == prove.NotAsked || one.Outcome == prove.Undecided {
			one.Searched = 0
		}
		out = append(out, one)
	}
	return out
}

// whileHis are the rules about a craft whose sticks the instructor takes.
func (j *judge) whileHis(r *prove.Result, can bool) {
	if !j.takes.met || !j.armed.met {
		r.Outcome = prove.NotAsked // he never takes them, or it never arms, and another rule says so
		return
	}
	found := func(h *hit, c prove.Cause, with bool) {
		if !h.met {
			return
		}
		r.Cause, r.Outcome = c, prove.Broken
		if h.m.lever >= 0 {
			r.Control = j.w.levers[h.m.lever].control
		}
		if h.channel >= 0 {
			r.Value = int64(h.channel) + 1
		}
		j.breaks(r, j.way(h))
		if with && r.Outcome == prove.Broken {
			r.Outcome = prove.WithIt
		}
	}
	switch r.Rule {
	case prove.PupilStillDisarms:
		found(&j.under, j.underBy, j.underBy == prove.PupilOffSticks && can)
	case prove.TutorHoldsNothing:
		cause := prove.TutorFliesOn
		if !can {
			cause = prove.TutorFliesAlone
		}
		found(&j.holds, cause, can)
	case prove.TakingArmsNothing:
		found(&j.arms, j.armsBy, j.armsBy == prove.TakingInCorner)
	case prove.TakingDisarmsNothing:
		found(&j.disarms, j.disarmsBy, j.disarmsBy == prove.TakingInCorner)
	}
}

// breaks takes a way to a rule; one that does not come out on the whole bench leaves it undecided.
func (j *judge) breaks(r *prove.Result, w *prove.Way) {
	if r.Outcome, r.Way = prove.Broken, w; w == nil {
		*r = prove.Result{Rule: r.Rule, Outcome: prove.Undecided, Control: -1, Position: -1}
	}
}

// canTake judges whether his switch takes the sticks and gives them back.
func (j *judge) canTake(r *prove.Result) {
	switch {
	case j.takes.met && j.gives.met:
		return
	case j.l.Takes < 0:
		r.Cause = prove.TutorNoSwitch
	default:
		r.Control, r.Cause, r.Value = j.his(j.l.Pair.Switch), prove.TutorNeverTakes, int64(j.l.Pair.SwitchSpan.Low)
		if j.stands(j.l.Pair.Switch, j.w.takesAt) {
			r.Cause = prove.TutorNeverGives
		}
	}
	j.breaks(r, j.try(r.Rule))
}

// letsArm judges whether a craft that the pupil can arm can be armed with the instructor's radio on.
func (j *judge) letsArm(r *prove.Result) {
	switch {
	case j.armed.met:
	case !j.canArm:
		r.Outcome = prove.NotAsked // the pupil cannot by himself, and another rule says so
	default:
		l := &j.w.cfg.Layout
		r.Control, r.Cause = j.his(l.Arm), prove.Unexplained
		if l.Arm != layout.NoChannel && r.Control >= 0 && !j.stands(l.Arm, l.ArmSpan.Contains) {
			r.Cause = prove.TutorNeverOn
		}
		j.breaks(r, j.try(r.Rule))
	}
}

// tutorCanDisarm judges whether the instructor's radio disarms, and says why it does not.
func (j *judge) tutorCanDisarm() (bool, prove.Result) {
	l, a := &j.w.cfg.Layout, &j.w.cfg.Arming
	r := prove.Result{Rule: prove.TutorCanDisarm, Control: -1, Position: -1, Searched: uint64(len(j.w.all))}
	if !j.armed.met {
		return true, r
	}
	if a.By == arming.BySwitch {
		switch r.Control = j.his(l.Arm); {
		case r.Control < 0:
			r.Cause, r.Value = prove.TutorUnsent, int64(l.Arm)+1
		case !j.stands(l.Arm, func(w pulse.Width) bool { return !l.ArmSpan.Contains(w) }):
			r.Cause = prove.TutorNeverOff
		default:
			r.Cause = prove.Unexplained
		}
		return j.tutorDisarms.met && r.Cause == prove.Unexplained, r
	}
	r.Cause = prove.TutorOffCorner
	for _, s := range [...]struct {
		channel int8
		in      func(pulse.Width) bool
	}{{l.Throttle, func(w pulse.Width) bool { return w < a.LowThrottle }}, {l.Yaw, func(w pulse.Width) bool { return w <= a.YawLeft }}} {
		if r.Control = j.his(s.channel); r.Control < 0 {
			r.Cause, r.Value = prove.TutorUnsent, int64(s.channel)+1
			return false, r
		} else if !j.stands(s.channel, s.in) {
			r.Value = int64(j.w.both.Radio.Controls[r.Control].Low)
			return false, r
		}
	}
	r.Cause, r.Control = prove.Unexplained, -1
	return j.tutorDisarms.met || !j.takes.met, r
}

// his is the control of his radio on a channel, as an index into both, −1 for none.
func (j *judge) his(channel int8) int {
	for i := range j.l.His.Controls {
		if j.l.His.Controls[i].Channel == channel {
			return len(j.l.Radio.Controls) + i
		}
	}
	return -1
}

// stands reports whether some place of his lever on a channel is so, with a pulse there.
func (j *judge) stands(channel int8, is func(pulse.Width) bool) bool {
	for n := j.w.pupils; n < len(j.w.levers); n++ {
		if !j.w.carries(n, channel) {
			continue
		}
		for p := range j.w.levers[n].places {
			var at [mostLevers]uint8
			at[n] = uint8(p)
			if w := j.w.frame(&at, n, n+1)[channel]; w.Valid() && is(w) {
				return true
			}
		}
	}
	return false
}
