package learn

// cornersSeen is what was seen in the corner check.
type cornersSeen struct {
	since int64 // of the check
}

func (s *cornersSeen) begin(l *Learner) { s.since = l.at }

// sticksInOrder are the jobs of the four stick directions, in the order of the questions.
var sticksInOrder = [...]string{"pitch", "yaw", "roll", "throttle"}

// corner tells how one direction stands in the corner check.
func (l *Learner) corner(job string) (c Corner, a *answer) {
	a = l.answerTo(job)
	c.Job = job
	if a == nil || a.low == a.high {
		return c, a
	}
	t := &l.axes[a.control.Axis]
	c.Share = int((float64(t.now) - a.low) * 1000 / (a.high - a.low))
	c.There = c.Share >= cornered
	c.Turned = c.Share <= 1000-cornered && t.away(t.rest) > little
	return c, a
}

// judgeCorners waits until all four directions stand at their high ends, and gives a notice of the first that does not
// when the hand holds still.
func (l *Learner) judgeCorners() {
	l.phase, l.candidate = Moving, none()
	all, still, moved, since := true, true, 0, int64(0)
	var bad Notice
	turned, short := TurnedRound, NotThere
	if l.tried != nil {
		turned, short = WrongEnd, TooShort
	}
	for _, job := range sticksInOrder {
		c, a := l.corner(job)
		if a == nil {
			continue
		}
		t := &l.axes[a.control.Axis]
		since = max(since, t.since)
		all = all && c.There
		still = still && t.still(l.at, wordAfter)
		if c.There || t.away(t.rest) > little {
			moved++
		}
		switch {
		case c.There:
		case c.Turned && bad.Code != turned:
			bad = note(turned).job(job).axis(a.control.Axis).share(c.Share)
		case bad.Code == Nothing:
			bad = note(short).job(job).axis(a.control.Axis).share(c.Share)
		}
	}
	switch {
	case all:
		l.phase = Holding
		l.candidate = candidate{axis: -1, button: -1, since: max(since, l.corners.since), holdFor: endFor}
		if l.at-l.candidate.since >= endFor {
			l.plan[l.now].Answered = true
			l.next()
		}
	case still && (moved == len(sticksInOrder) || moved > 0 && l.at-since >= waitAfter):
		l.notice = bad
	}
}
