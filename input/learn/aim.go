package learn

// Zone is where target zones begin: View.Lean counts so far to where a movement is taken, and 1000 to the end of the axis.
const Zone = 700

// levelled is how far from level a craft whose stick was let go may lean, ground where the zone of a throttle that was taken down begins, and
// stayed how far from where it was taken one may stand that was let go, in parts of Lean.
const (
	levelled = 200
	ground   = 1000 - Zone
	stayed   = drawn * ground / lowerEnd
)

// aim says how the craft is to be drawn in a question about a stick: how it leans, the zone that it is to come into, and whether it is in.
func (l *Learner) aim() (lean int, zone [2]int, in bool) {
	throttle := l.question() == Throttle
	switch l.step {
	case HighEnd:
		zone = [2]int{Zone, 1000}
	case LowEnd:
		zone = [2]int{-1000, -Zone}
		if throttle {
			zone = [2]int{0, ground}
		}
	case LetGo:
		zone = [2]int{-levelled, levelled}
		if throttle {
			low := l.heightOf(int32(l.stick.low))
			zone = [2]int{max(low-stayed, 0), low + stayed}
		}
	default:
		return 0, zone, false
	}
	switch {
	case l.step != HighEnd:
		lean = l.leanOf(throttle)
	case l.begun && l.phase != Settling:
		lean = l.leanFirst()
	}
	return lean, zone, lean >= zone[0] && lean <= zone[1]
}

// leanFirst is how far the axis that has moved farthest is on its way to the first end; 0 while none has.
func (l *Learner) leanFirst() int {
	m := l.look()
	i := m.strongest
	if i < 0 || l.broughtHome(m) || l.axes[i].away(l.axes[i].rest) <= l.axes[i].tremble {
		return 0
	}
	t := &l.axes[i]
	return t.leanTo(t.now, t.rest, t.now > t.rest, t.far(t.rest) && t.atEnd(t.now, t.rest))
}

// leanOf is how the axis stands whose high end is known: between that, its rest and its low end; a throttle between its two ends.
func (l *Learner) leanOf(throttle bool) int {
	s := &l.stick
	t := &l.axes[s.axis]
	high := int32(s.high)
	if throttle {
		return l.heightOf(t.now)
	}
	if above := (t.now > s.rest) == s.up; above && !l.atLowEnd() {
		return min(t.away(s.rest)*1000/max(t.share(abs64(int64(high)-int64(s.rest))), 1), 1000)
	}
	return -t.leanTo(t.now, s.rest, !s.up, l.atLowEnd())
}

// heightOf is how high a throttle whose upper end is known stands at a value of its axis.
func (l *Learner) heightOf(v int32) int {
	s := &l.stick
	t := &l.axes[s.axis]
	high := int32(s.high)
	low := t.place(v) < lowerEnd && s.up || t.place(v) > upperEnd && !s.up
	return 1000 - t.leanTo(v, high, !s.up, low && t.share(abs64(int64(v)-int64(high))) > opposite)
}

// leanTo is how far v is on the way from a place towards the upper or lower end of the axis: Zone and more where it is far enough to be
// taken.
func (t *track) leanTo(v, from int32, up, taken bool) int {
	start, now := t.place(from), t.place(v)
	if !up {
		start, now = 1000-start, 1000-now
	}
	// This is as far and atEnd have it; where the start is already beyond it, the way leads back.
	edge := max(min(start+clear, max(start+drawn, 1000-trembling)), upperEnd)
	switch {
	case !taken:
		return min(max((now-start)*Zone/max(edge-start, 1), 0), Zone-1)
	case now <= edge:
		return Zone
	}
	return min(Zone+(now-edge)*(1000-Zone)/max(1000-edge, 1), 1000)
}
