package learn

import (
	"cmp"
	"math"
	"slices"

	"propsoff.example/input"
)

// track follows one axis: how long it has been still, where it stood, where it rested when the question began, how far
// it ever went, and how restless it is.
type track struct {
	axis     input.Axis
	now      int32
	low, top int32 // the band in which it has stayed since the time since
	since    int64
	trimmed  bool // the band has been taken anew, trimAfter later than since
	tremble  int  // how wide the band may be, in tenths of a percent

	// stand sums up the band from trimAfter on, without its newest two parts, which may be the beginning of a movement.
	stand  dwell
	newer  dwell
	newest dwell
	held   bool  // somebody holds it there: not counted as noise
	dwelt  int64 // how far stand has been summed up
	stands []stand
	moving int64 // when the stand before was left
	crept  bool  // the band follows upon that of the stand before

	shake shake

	rest int32 // when the question began
	left int64 // when it left its rest by more than crosstalk, −1 while it is there

	// middling and elsewhere are how long it was seen about the middle of its range and elsewhere, up to the time seen.
	middling, elsewhere, seen int64

	swingLow, swingTop int32 // over the window of watching

	// reach is how far it was seen to go: the places where it stood, and quick values. Of quick ones the middle one of
	// three in a row counts, so that a jump of one report is no reach; a value that stood for a moment counts by itself.
	reach        ends
	quick        ends
	last, before int32
	lastAt       int64

	calm  [mostCalm]dwell // the newest stands in which nobody moved it, each about its own mean
	calms int             // how many there were
	asked int64           // when the question began
	// rested and rests are calm and calms, but only of the stands that began before that.
	rested [mostCalm]dwell
	rests  int
}

// ends are the lowest and highest of some values.
type ends struct {
	some      bool
	low, high float64
}

func (e *ends) add(v float64) {
	if !e.some {
		*e = ends{true, v, v}
	}
	e.low, e.high = min(e.low, v), max(e.high, v)
}

// dwell sums up values, each weighted by how long it stood in µs: their weight, their mean and the sum of squares about
// it (the weighted form of Welford's running update).
type dwell struct{ weight, mean, m2 float64 }

func (d *dwell) add(v, weight float64) {
	if weight <= 0 {
		return
	}
	d.weight += weight
	off := v - d.mean
	d.mean += off * (weight / d.weight) // in this order the first value is the mean exactly
	d.m2 += weight * off * (v - d.mean)
}

// join adds another sum (Chan, Golub, LeVeque 1979: the pairwise form of the same update; from memory).
func (d *dwell) join(o dwell) {
	if o.weight <= 0 {
		return
	}
	w := d.weight + o.weight
	off := o.mean - d.mean
	d.m2 += o.m2 + off*off*d.weight*o.weight/w
	d.mean += off * (o.weight / w)
	d.weight = w
}

func (d *dwell) variance() float64 {
	if d.weight <= 0 {
		return 0
	}
	return d.m2 / d.weight
}

// stand is one place in which an axis stood for a moment: when it came there, how long it took, and what it was.
type stand struct {
	at, coming int64
	crept      bool // it came from the stand before without any jump, as a slow movement does
	dwell      dwell
}

// Times of the track in µs, all ours.
const (
	trimAfter = 60_000    // after an axis came to rest its band is taken anew, and what it is counts
	standFor  = 150_000   // a stand is at least so long
	stoodFor  = 20_000    // a value that stands so long counts as reached without neighbours
	partFor   = 60_000    // of the parts of a stand
	mostDwell = 2_000_000 // a stand weighs at most this
)

// mostStands bounds how many stands of one question are remembered; a knob that creeps makes many.
const mostStands = 96

// mostCalm bounds how many stands are remembered for the noise.
const mostCalm = 32

func newTrack(a input.Axis) track { return track{axis: a, tremble: trembling, left: -1} }

func (t *track) dead() bool { return t.axis.Min >= t.axis.Max }

func (t *track) span() float64 { return float64(t.axis.Max) - float64(t.axis.Min) }

// share is a distance in raw values as tenths of a percent of the axis' own range.
func (t *track) share(distance int64) int {
	if t.dead() {
		return 0
	}
	return int(distance * 1000 / (int64(t.axis.Max) - int64(t.axis.Min)))
}

// place is where raw value v stands in the axis' range, in tenths of a percent.
func (t *track) place(v int32) int { return t.share(int64(v) - int64(t.axis.Min)) }

// away is how far the axis is from v, in tenths of a percent without sign.
func (t *track) away(v int32) int { return abs(t.off(v)) }

// off is how far the axis is from v, with its sign.
func (t *track) off(v int32) int { return t.share(int64(t.now) - int64(v)) }

func (t *track) feed(v int32, at int64, first bool) {
	v = min(max(v, t.axis.Min), t.axis.Max)
	if first || t.dead() {
		*t = track{axis: t.axis, shake: newShake(v, at), tremble: trembling, left: -1, now: v, low: v, top: v, since: at, dwelt: at, moving: at,
			rest: v, seen: at, swingLow: v, swingTop: v, last: v, before: v, lastAt: at, stands: t.stands[:0]}
		return
	}
	t.stood(at)
	if at-t.lastAt >= stoodFor {
		t.before = t.last
	}
	t.quick.add(float64(middleOf(t.before, t.last, v)))
	t.before, t.last, t.lastAt = t.last, v, at

	t.now = v
	if swing := t.shake.feed(v, at); swing > 0 {
		t.allow(swing)
	}
	low, top := min(t.low, v), max(t.top, v)
	switch {
	case t.share(int64(top)-int64(low)) > t.tremble:
		past := max(int64(v)-int64(t.top), int64(t.low)-int64(v))
		stood := t.leave(at)
		t.crept = stood && t.share(past) <= crept
		low, top = v, v
	case !t.trimmed && at-t.since >= trimAfter:
		// The last of the way in may fill the band, and noise would break it at any time later.
		low, top, t.trimmed = v, v, true
	}
	t.low, t.top = low, top
	t.swingLow, t.swingTop = min(t.swingLow, v), max(t.swingTop, v)
	t.leaving(at)
}

// allow lets an axis that trembles over swing raw values count as still.
func (t *track) allow(swing int64) {
	if t.shake.low <= t.axis.Min || t.shake.top >= t.axis.Max {
		swing *= 2 // the end of the range cuts half of it off
	}
	if s := t.share(swing); s <= mostTremble && s+s/4+1 > t.tremble {
		t.tremble = s + s/4 + 1
		t.shake.said = false
	}
}

// stood takes it that time has gone on without a new value.
func (t *track) stood(at int64) {
	if t.dead() {
		return
	}
	if at-t.lastAt >= stoodFor {
		t.quick.add(float64(t.last))
	}
	if p := t.place(t.last); p > lowerEnd && p < upperEnd {
		t.middling += at - t.seen
	} else {
		t.elsewhere += at - t.seen
	}
	t.seen = at
	from := max(t.dwelt, t.since+trimAfter)
	if at > from {
		t.dwell(float64(t.last), float64(at-from))
		t.dwelt = at
	}
}

// dwell adds to the stand a value v that stood for w µs.
func (t *track) dwell(v, w float64) {
	if w >= partFor {
		t.settled(t.newer)
		t.settled(t.newest)
		t.settled(dwell{w - partFor, v, 0})
		t.newer, t.newest = dwell{partFor, v, 0}, dwell{}
		return
	}
	if t.newest.add(v, w); t.newest.weight >= partFor {
		t.settled(t.newer)
		t.newer, t.newest = t.newest, dwell{}
	}
}

func (t *track) settled(d dwell) {
	if t.stand.weight < mostDwell {
		t.stand.join(d)
	}
}

// so is what is known so far of the stand that goes on.
func (t *track) so() dwell {
	switch {
	case t.stand.weight > 0:
		return t.stand
	case t.newer.weight > 0:
		return t.newer
	}
	return t.newest
}

// leave ends the band at a time; true where it was a stand.
func (t *track) leave(at int64) bool {
	s, ok := t.standing(at)
	if ok {
		if len(t.stands) < mostStands {
			t.stands = append(t.stands, s)
		}
		t.moving = at
		t.reach.add(s.dwell.mean)
		t.count(at)
	}
	t.since, t.trimmed, t.dwelt, t.held = at, false, at, false
	t.stand, t.newer, t.newest = dwell{}, dwell{}, dwell{}
	return ok
}

// count takes the stand that goes on as one in which nobody moves the axis, unless somebody holds it there. It counts
// once.
func (t *track) count(at int64) {
	if s, ok := t.standing(at); ok && !t.held {
		t.calm[t.calms%mostCalm] = dwell{weight: s.dwell.weight, m2: s.dwell.m2}
		t.calms++
		if t.since < t.asked {
			t.rested, t.rests = t.calm, t.calms
		}
	}
	t.held = true
}

// creeps takes back what was counted in the places that it came to since the question began: that was no rest but a slow movement.
// Where it stood before, it rested.
func (t *track) creeps() {
	t.calm, t.calms = t.rested, t.rests
	t.stand, t.newer, t.newest = dwell{}, dwell{}, dwell{}
}

// standing is the stand that goes on now; false where it is too short to be one.
func (t *track) standing(at int64) (stand, bool) {
	d := t.so()
	ok := !t.dead() && at-t.since >= standFor && d.weight > 0
	return stand{at: t.since, coming: t.since - t.moving, crept: t.crept, dwell: d}, ok
}

// middle is the mean of the stand that goes on, or the newest value before there is one.
func (t *track) middle() int32 {
	if d := t.so(); d.weight > 0 {
		return int32(math.Round(d.mean))
	}
	return t.now
}

// leaving keeps the time at which the axis left its rest.
func (t *track) leaving(at int64) {
	switch {
	case t.away(t.rest) <= crosstalk:
		t.left = -1
	case t.left < 0:
		t.left = at
	}
}

func (t *track) forget() { t.quick, t.reach = ends{}, ends{} }

// still reports whether the axis has stayed within its band for d µs.
func (t *track) still(at, d int64) bool { return t.dead() || at-t.since >= d }

// asks begins a question: the stands begin anew.
func (t *track) asks(at int64) {
	t.stands = t.stands[:0]
	t.asked, t.rested, t.rests = at, t.calm, t.calms
}

// settle takes the place where the axis stands as its rest.
func (t *track) settle(at int64) {
	if !t.dead() {
		t.stood(at)
		t.rest = t.middle()
	}
	t.left = -1
	t.leaving(at)
}

// sprung tells whether the axis seems to have a spring that brings it to the middle: it has mostly been there.
func (t *track) sprung() bool { return t.middling > t.elsewhere }

// resting reports whether the newest value is about where it has been on the whole: no movement has begun.
func (t *track) resting() bool { return t.away(t.middle()) <= beginning }

// watch begins a window of watching.
func (t *track) watch() { t.swingLow, t.swingTop = t.now, t.now }

func (t *track) swing() int { return t.share(int64(t.swingTop) - int64(t.swingLow)) }

// atEnd reports whether v, reached from rest, stands at an end of the range on the side to which it moved.
func (t *track) atEnd(v, rest int32) bool {
	if v > rest {
		return t.place(v) > upperEnd
	}
	return t.place(v) < lowerEnd
}

// far reports whether the axis has moved from rest by so much that it counts: by a clear share of its range, or a little
// to its very end (a stick that rests far off centre).
func (t *track) far(rest int32) bool {
	away, p := t.away(rest), t.place(t.now)
	return away > clear || away > drawn && (p >= 1000-trembling || p <= trembling)
}

// deviation is the standard deviation of the raw value while nobody moves the axis: of its stands, the one in the middle
// when they are put in order, each weighed by its time. One that somebody meddled with a little does not count for more.
func (t *track) deviation(at int64) float64 {
	n := min(t.calms, mostCalm)
	all := t.calm
	some := all[:n]
	if s, ok := t.standing(at); ok && !t.held {
		if n == mostCalm {
			some = some[1:]
		}
		some = append(some, s.dwell)
	}
	slices.SortFunc(some, func(a, b dwell) int { return cmp.Compare(a.variance(), b.variance()) })
	total := 0.0
	for i := range some {
		total += some[i].weight
	}
	sum := 0.0
	for i := range some {
		if sum += some[i].weight; 2*sum >= total {
			return math.Sqrt(some[i].variance())
		}
	}
	return 0
}

// reached is how far the axis was seen to go. What it only passed through counts less three standard deviations, which
// noise alone may add.
func (t *track) reached(at int64) (low, high float64, ok bool) {
	e := t.reach
	if s, ok := t.standing(at); ok {
		e.add(s.dwell.mean)
	}
	if t.quick.some {
		margin := 3 * t.deviation(at)
		mid := (t.quick.low + t.quick.high) / 2
		e.add(min(t.quick.low+margin, mid))
		e.add(max(t.quick.high-margin, mid))
	}
	return e.low, e.high, e.some
}

func middleOf(a, b, c int32) int32 { return max(min(a, b), min(max(a, b), c)) }

func abs(n int) int { return max(n, -n) }

func abs64(n int64) int64 { return max(n, -n) }
