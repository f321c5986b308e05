package check

import "propsoff.example/sim/pulse"

// crossing watches a stick go through its middle. A flat spot there shows as a stop on the way: the value stands while the
// hand goes on at the speed that it had before and has after. A hand may stop too, but not at every crossing, so the least
// of them counts.
type crossing struct {
	on   bool
	way  pulse.Width // +1 up, −1 down
	far  pulse.Width // the farthest value on the way
	side pulse.Width // the side beyond crossFrom on which the stick was last; 0 unknown
	// at is when it came inside crossFrom, in when it came into crossZone, out when it left that on the other side, in µs;
	// −1 for not yet.
	at, in, out int64
	// most is the longest stop in the zone, usual the longest before and after it, in µs.
	most, usual int64

	count int
	flat  pulse.Width // the least so far
}

// drop gives up the crossing that is going on.
func (x *crossing) drop() { x.on, x.side = false, 0 }

// stood takes a value that stood between two times, in µs.
func (x *crossing) stood(w pulse.Width, from, until int64) {
	off := w - pulse.Centre
	if abs(off) > crossFrom {
		side := pulse.Width(1)
		if off < 0 {
			side = -1
		}
		if x.on && side == x.way && x.in >= 0 && x.out >= 0 {
			x.finish(from)
		}
		x.on, x.side = false, side
		return
	}
	if !x.on {
		if x.side == 0 {
			return
		}
		*x = crossing{on: true, way: -x.side, far: w, at: from, in: -1, out: -1, count: x.count, flat: x.flat}
	}
	if (w-x.far)*x.way < -standNear || until-x.at > crossMost { // turned back, or no stroke
		x.drop()
		return
	}
	if (w-x.far)*x.way > 0 {
		x.far = w
	}
	if abs(off) > crossZone {
		if x.in >= 0 && x.out < 0 {
			x.out = from
		}
		x.usual = max(x.usual, until-from)
		return
	}
	if x.in < 0 {
		x.in = from
	}
	if x.most = max(x.most, until-from); x.most > crossPause {
		x.drop() // a hand that rests
	}
}

// finish works out the flat spot of a whole crossing that ends at at: what the hand went, at the slower of its two speeds,
// during the longest stop, less what it goes between two reports.
func (x *crossing) finish(at int64) {
	slow := max(x.in-x.at, at-x.out)
	if slow <= 0 {
		return
	}
	flat := pulse.Width(int64(crossFrom-crossZone) * max(0, x.most-x.usual) / slow)
	if x.count == 0 || flat < x.flat {
		x.flat = flat
	}
	x.count++
}
