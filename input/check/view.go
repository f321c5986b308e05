package check

import (
	"propsoff.example/input/radio"
	"propsoff.example/sim/pulse"
)

// Ask is what to do now.
type Ask uint8

// What may be asked; AskCount is how many there are.
const (
	AskAnything Ask = iota // nothing was read yet: move any stick a little
	AskPlug                // the radio is out: plug it in
	AskCorners             // both sticks into their top right corners, and hold
	AskMove                // one control, everywhere and back
	AskRest                // hands off for two seconds
	AskQuick               // a stick quickly from end to end, several times
	AskNothing             // all is settled
	AskCount
)

var askCodes = [AskCount]string{"anything", "plug-in", "top-right", "move", "hands-off", "quickly", "nothing"}

// Code names what is asked in JSON Lines.
func (a Ask) Code() string { return codeOf(askCodes[:], int(a)) }

// Place is one position of a switch.
type Place struct {
	Width pulse.Width
	Seen  bool
}

// Control is one control as it stands and as far as it was taken.
type Control struct {
	Job, Called string
	Form        Form
	Side        radio.Side
	// Channel counts from 0; −1 where the craft listens to none.
	Channel int
	// Sprung: it comes back to its middle by itself.
	Sprung, Momentary bool
	// Known is false before it was read. Width is where it stands.
	Known bool
	Width pulse.Width
	// Moved: it has left where it stood at first. Low and High are the ends seen so far (not of a Switch).
	Moved     bool
	Low, High pulse.Width
	// Rested: it was seen at rest, at Rest (on an axis).
	Rested bool
	Rest   pulse.Width
	// Places are those of a Switch, from low to high; Place is the one in which it stands, −1 for none.
	Places []Place
	At     int
	// MissLow and MissHigh: that end is still to be reached; MissThrough: the way through the middle; MissBack: the way
	// back to the middle.
	MissLow, MissHigh, MissThrough, MissBack bool
	// Done: it was taken everywhere and back.
	Done bool
}

// Corner is one stick direction in the quick direction check.
type Corner struct {
	// Control is its index in View.Controls.
	Control int
	// There: it stands at its high end now.
	There   bool
	Verdict Verdict
}

// View is all that there is to show of a check.
type View struct {
	Controls []Control
	Items    []Item
	Ask      Ask
	// Control is the index of the control of AskMove, −1 otherwise.
	Control int
	// Corners are throttle, yaw, pitch, roll; CornersDone: they were held and told.
	Corners     [4]Corner
	CornersDone bool
	// Heard: something was read. Out: the radio is pulled out. OutFor is how long it was out in all, in µs.
	Heard, Out bool
	OutFor     int64
	// Lost is how often readings were lost, Gone how often the radio was pulled out.
	Lost, Gone int
	// Settled: every item has its verdict and nothing more is asked for.
	Settled bool
	// Count is how many items there are of each verdict.
	Count [VerdictCount]int
}

// View fills dst, whose buffers are used again.
func (c *Checker) View(dst *View) {
	controls, items := dst.Controls[:0], dst.Items[:0]
	rest := true
	for i := range c.controls {
		var places []Place
		if i < cap(controls) {
			places = controls[:i+1][i].Places[:0]
		}
		controls = append(controls, c.controls[i].view(places))
		items = c.controls[i].items(items, i, true)
	}
	for i := range items {
		rest = rest && items[i].Verdict != Waiting
	}
	finalRest := c.rested && c.doneAt >= 0 && c.restedAt >= c.doneAt+restTime
	_, _, rated := c.rate.perSecond()
	items = c.radioItems(items, rest && finalRest && rated)
	*dst = View{Controls: controls, Items: items, Control: -1, CornersDone: c.corner.done, Heard: c.heard, Out: c.out, OutFor: c.outFor, Lost: c.lost, Gone: c.gone}
	if c.out {
		dst.OutFor += c.now - c.outSince
	}
	for i := range items {
		dst.Count[items[i].Verdict]++
	}
	for k, i := range c.corner.of {
		ct := &c.controls[i]
		dst.Corners[k] = Corner{Control: i, There: ct.known && ct.width >= pulse.FullyHigh, Verdict: ct.corner}
	}
	dst.Ask = c.ask(dst, finalRest)
	dst.Settled = dst.Ask == AskNothing
}

func (c *Checker) ask(v *View, finalRest bool) Ask {
	switch {
	case c.out:
		return AskPlug
	case !c.heard:
		return AskAnything
	case !c.corner.done:
		return AskCorners
	}
	for _, i := range c.order {
		if !c.controls[i].done() {
			v.Control = i
			return AskMove
		}
	}
	switch {
	case !finalRest:
		return AskRest
	case v.Count[Waiting] > 0: // the rate alone is left, or it bounds too low
		return AskQuick
	}
	return AskNothing
}

func (c *control) view(places []Place) Control {
	v := Control{
		Job: c.Job, Called: c.Called, Form: c.form, Side: c.Side, Channel: c.channel, Sprung: c.sprung(), Momentary: c.Momentary,
		Known: c.known, Width: c.width, Moved: c.moved, Low: c.low.best, High: c.high.best, Rested: c.hasRest, Rest: c.restAt,
		Places: places, At: c.at, Done: c.done(),
	}
	for i, w := range c.widths {
		v.Places = append(v.Places, Place{Width: w, Seen: c.seen[i]})
	}
	if c.form != Switch {
		v.MissLow, v.MissHigh, v.MissThrough = !c.low.settled, !c.high.settled, c.missThrough()
		v.MissBack = !c.back
	}
	return v
}
