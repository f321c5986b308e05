package check

import (
	"slices"

	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/sim/pulse"
)

// Form is what a control is in the hand.
type Form uint8

// The forms of controls.
const (
	Stick  Form = iota
	Knob        // a knob, a slider, or an axis that nobody has looked at for positions
	Switch      // a switch, on an axis or on buttons
)

// control is one learned control while it is looked at.
type control struct {
	radio.Control
	form    Form
	channel int
	scale   radio.Scale
	lo, hi  int32
	perRaw  float64 // µs of one raw step; 0 for buttons
	lowMark pulse.Width
	blunted bool
	widths  []pulse.Width

	known bool
	raw   int32
	width pulse.Width
	place int // of a Row, −1 unknown

	// since is when the present value came, before what it follows: a value counts once the next one shows that it was no
	// jump.
	since     int64
	before    pulse.Width // the last one that counted
	hasBefore bool
	counted   bool

	// The value has kept near ref since refAt.
	ref   pulse.Width
	refAt int64

	start     pulse.Width // where it stood at first
	moved     bool
	low, high end
	back      bool

	jumps    []pulse.Width // sizes of leaps there and back
	steps    int           // steps too fast for a hand
	stepped  bool          // the present value came by one
	cross    crossing
	resting  stats // of the rest that is going on
	hasRest  bool
	restAt   pulse.Width
	noise    int64 // thousandths of a µs
	seen     []bool
	at       int // position, −1 between positions
	atSince  int64
	mean     stats
	farOff   pulse.Width // farthest mean from a learned position
	strays   []pulse.Width
	corner   Verdict
	cornerAt pulse.Width
}

// unknownPlace stands for a switch of which nothing is known yet.
const unknownPlace = -2

// end is one end of a stick or knob.
type end struct {
	has     bool
	best    pulse.Width
	out     bool // on a visit
	turns   int
	settled bool
}

func newControl(c radio.Control, info *input.Info, names input.Names) control {
	ct := control{Control: c, place: -1, at: -1, channel: -1}
	if ch, ok := radio.ChannelOf(c.Job, names); ok {
		ct.channel = ch
	}
	switch c.Form {
	case radio.Axis:
		a := info.Axes[c.Axis]
		ct.blunted = info.Blunted
		ct.lo, ct.hi = a.Min, a.Max
		ct.scale, _ = c.ScaleOn(info)
		span := ct.scale.High - ct.scale.Low
		if span < 0 {
			span = -span
		}
		ct.perRaw = 4 * float64(pulse.Travel) / pulse.Eighths / float64(span)
		ct.form = Knob
		if slices.Contains(radio.Needed(), c.Job) {
			ct.form = Stick
		}
		if len(c.Positions) >= 2 && ct.form != Stick {
			ct.form = Switch
			for _, p := range c.Positions {
				ct.widths = append(ct.widths, ct.scale.WidthOf(p.At))
			}
		}
	case radio.Button:
		ct.form, ct.widths = Switch, []pulse.Width{pulse.Low, pulse.High}
	case radio.Row:
		ct.form = Switch
		for i := range c.Buttons {
			ct.widths = append(ct.widths, radio.RowWidth(i, len(c.Buttons)))
		}
	}
	ct.seen = make([]bool, len(ct.widths))
	return ct
}

// sprung tells whether a stick comes back to its middle by itself.
func (c *control) sprung() bool { return c.form == Stick && !c.Stays }

func abs(w pulse.Width) pulse.Width {
	if w < 0 {
		return -w
	}
	return w
}

// read takes the control's value out of a raw state; ok is false for a row of which no button was seen yet.
func (c *control) read(raw *input.Raw) (value int32, w pulse.Width, ok bool) {
	switch c.Form {
	case radio.Axis:
		value = min(max(raw.Axes[c.Axis], c.lo), c.hi)
		return value, c.scale.Width(value), true
	case radio.Button:
		if raw.Button(c.Buttons[0]) {
			return 1, pulse.High, true
		}
		return 0, pulse.Low, true
	}
	c.place = placeIn(c.Buttons, c.place, raw)
	if c.place < 0 {
		return 0, pulse.Missing, false
	}
	return int32(c.place), c.widths[c.place], true
}

// placeIn is the position of a row of buttons, by the rule of radio.Mapper: two pressed at once leave it where it is if
// its button is among them.
func placeIn(buttons []int, last int, raw *input.Raw) int {
	first, none := -1, -1
	for i, b := range buttons {
		switch {
		case b == radio.None:
			none = i
		case raw.Button(b):
			if i == last {
				return last
			}
			if first < 0 {
				first = i
			}
		}
	}
	if first >= 0 {
		return first
	}
	if none >= 0 {
		return none
	}
	return last
}

// feed takes the value at a time. broken: readings are missing before it, so nothing is held against the one before.
// period is the time between two reports as far as it is known, gap the time since the last one.
func (c *control) feed(raw *input.Raw, at int64, broken bool, gap, period int64) {
	value, w, ok := c.read(raw)
	if !ok {
		return
	}
	switch {
	case !c.known || broken:
		if !c.known {
			c.start = w
		}
		c.hasBefore, c.counted, c.since = false, false, at
		c.cross.drop()
		c.ref, c.refAt = w, at
		if c.form == Switch {
			c.at = unknownPlace // so that it arrives afresh
		}
	case value == c.raw:
		return
	default:
		c.follow(w, at, gap, period)
	}
	c.known, c.raw, c.width = true, value, w
	if abs(w-c.ref) > standNear {
		c.ref, c.refAt = w, at
	}
	if c.form == Switch {
		c.arrive(at)
	}
}

// follow takes the next value w after the present one.
func (c *control) follow(w pulse.Width, at, gap, period int64) {
	if !c.counted && c.hasBefore && at-c.since <= JumpTime {
		out, in := c.width-c.before, w-c.width
		least := min(abs(out), abs(in))
		if (out > 0) != (in > 0) && least > JumpLeast && abs(w-c.before) < least/2 {
			if len(c.jumps) < 64 {
				c.jumps = append(c.jumps, least)
			}
			c.since, c.counted, c.stepped = at, false, false
			c.cross.drop()
			return // the present value was a jump: what counted before it still does
		}
	}
	c.count(at)
	c.before, c.hasBefore, c.stepped = c.width, true, false
	if c.form != Switch {
		us := max(min(gap, 2*period), 1000)
		if int64(abs(w-c.width)) > int64(pulse.Eighths)*(HandFastest*us/1000+handSlack) {
			c.stepped = true
		}
	}
	c.since, c.counted = at, false
}

// count lets the present value count, which stood up to until.
func (c *control) count(until int64) {
	if c.sprung() {
		c.cross.stood(c.width, c.since, until)
	}
	if c.counted {
		return
	}
	c.counted = true
	if c.stepped {
		c.steps++
	}
	w := c.width
	if abs(w-c.start) > half {
		c.moved = true
	}
	c.low.visit(w, pulse.Centre-half, w < pulse.Centre-half, w > pulse.Centre-halfBack, w < c.low.best)
	c.high.visit(w, pulse.Centre+half, w > pulse.Centre+half, w < pulse.Centre+halfBack, w > c.high.best)
}

func (e *end) visit(w, from pulse.Width, out, in, further bool) {
	if !e.has || further {
		e.has, e.best = true, w
	}
	switch {
	case out:
		e.out = true
	case in && e.out:
		e.out = false
		e.turns++
	}
}

// pass lets time go on to now with the present value.
func (c *control) pass(now int64) {
	if !c.known {
		return
	}
	if !c.counted && now-c.since > JumpTime {
		c.count(now)
	}
	switch c.form {
	case Switch:
		c.stay(now)
	default:
		c.settle(now)
	}
}

// settle decides whether an end was reached, and whether the control came back.
func (c *control) settle(now int64) {
	long := int64(standTime)
	if !c.sprung() {
		long = standLong
	}
	stands := now-c.refAt >= long
	for _, e := range [2]struct {
		*end
		fine, at bool
	}{
		{&c.low, c.lowVerdict() == Passes, c.width < pulse.Centre-half && abs(c.width-c.low.best) <= standBest},
		{&c.high, c.highVerdict() == Passes, c.width > pulse.Centre+half && abs(c.width-c.high.best) <= standBest},
	} {
		if e.has && c.moved && (e.fine || e.turns >= fewTurns || e.at && stands) {
			e.settled = true
		}
	}
	if c.low.settled && c.high.settled {
		switch {
		case c.sprung():
			c.back = c.back || abs(c.width-pulse.Centre) <= backNear
		case c.Job == "throttle":
			c.back = c.back || c.width <= c.low.best+downNear
		default:
			c.back = true
		}
	}
}

// arrive notes that a switch has come to a place.
func (c *control) arrive(at int64) {
	was := c.at
	c.at = c.nearest()
	if c.at != was {
		c.atSince = at
		c.mean.begin(c.raw)
	}
}

// nearest is the learned position at which the switch stands, −1 where it is too far from every one.
func (c *control) nearest() int {
	best := -1
	for i, w := range c.widths {
		if best < 0 || abs(w-c.width) < abs(c.widths[best]-c.width) {
			best = i
		}
	}
	if best >= 0 && abs(c.widths[best]-c.width) > c.allow() {
		return -1
	}
	return best
}

// allow is how far from a learned position a switch may read and still stand there: noise may add to the limit.
func (c *control) allow() pulse.Width {
	return PositionWarn + pulse.Width(c.noise*3*pulse.Eighths/1000)
}

// stay lets time go on at a place: it counts as seen, and where it is a little off the mean of a while is noted.
func (c *control) stay(now int64) {
	if c.at < 0 {
		near := func(w pulse.Width) bool { return abs(w-c.width) <= PositionWarn }
		if now-max(c.atSince, c.refAt) >= strayTime && len(c.strays) < radio.MostPositions && !slices.ContainsFunc(c.strays, near) {
			c.strays = append(c.strays, c.width)
		}
		return
	}
	if now-c.atSince >= seenTime {
		c.seen[c.at] = true
	}
	if c.Form != radio.Axis {
		return
	}
	if c.mean.add(c.raw, now); c.mean.time < strayTime {
		return
	}
	if off := abs(c.widthAt(c.mean.mean()) - c.widths[c.at]); off > c.farOff {
		c.farOff = off
	}
	c.mean.begin(c.raw)
}

// done tells whether the control was taken everywhere and back.
func (c *control) done() bool {
	if c.form == Switch {
		return c.seenPlaces()+len(c.strays) >= len(c.widths)
	}
	return c.low.settled && c.high.settled && c.back && !c.missThrough()
}

func (c *control) missThrough() bool { return c.sprung() && c.cross.count < crossings }

func (c *control) seenPlaces() (n int) {
	for _, s := range c.seen {
		if s {
			n++
		}
	}
	return n
}
