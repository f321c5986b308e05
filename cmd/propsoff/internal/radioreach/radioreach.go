// Package radioreach puts a radio file and a craft file together: what this radio can send to this craft.
package radioreach

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// leastNoise is what noise counts as at the least: the kernel's own filter hides less (input.c).
const leastNoise = pulse.Eighths

// Handset is what the radio of file can send to a craft. info, where the device is at hand, gives the ranges of axes whose
// scale the file leaves out. What neither tells is taken for granted: full travel;
// where a control sits of which the file does not say it is guessed.
func Handset(file *radio.File, info *input.Info, names input.Names) handset.Radio {
	r := handset.Radio{Name: file.Device.Name, StickMode: file.StickMode}
	for i := range file.Controls {
		c := &file.Controls[i]
		channel, ok := radio.ChannelOf(c.Job, names)
		if !ok {
			continue // this craft has no such channel
		}
		h := handset.Control{Channel: int8(channel), Job: c.Job, Called: c.Called, Side: side(c.Side), Spot: spot(c.Spot), Momentary: c.Momentary, Source: source(c)}
		switch c.Form {
		case radio.Axis:
			axis(&h, c, info)
			r.Measured = r.Measured || !h.Assumed
		case radio.Button:
			h.Kind = handset.Switch
			h.Positions = []handset.Position{{Width: pulse.Low}, {Width: pulse.High}}
		case radio.Row:
			h.Kind = handset.Switch
			for n := range c.Buttons {
				h.Positions = append(h.Positions, handset.Position{Width: radio.RowWidth(n, len(c.Buttons))})
			}
		}
		r.Controls = append(r.Controls, h)
	}
	slices.SortStableFunc(r.Controls, func(a, b handset.Control) int { return cmp.Compare(a.Channel, b.Channel) })
	together(&r, file)
	r.Settle()
	return r
}

// together says which controls are one piece of the radio: of these the first counts as the one that is moved, and the others send what it
// sends, or the same turned round.
func together(r *handset.Radio, file *radio.File) {
	first := map[string]int{} // by the job of the control that the others name
	for i := range r.Controls {
		c := &r.Controls[i]
		of, ok := file.Control(c.Job)
		if !ok {
			continue
		}
		name := cmp.Or(of.With, of.Job)
		at, seen := first[name]
		if !seen {
			first[name] = i
			continue
		}
		root, _ := file.Control(r.Controls[at].Job)
		channel, job := c.Channel, c.Job
		*c = r.Controls[at]
		c.Channel, c.Job, c.Same, c.Turned = channel, job, at+1, of.Turned != root.Turned
		c.Positions = slices.Clone(c.Positions)
		if c.Turned {
			turn(c)
		}
	}
}

// turn turns what a control sends round about the centre.
func turn(c *handset.Control) {
	about := func(w pulse.Width) pulse.Width { return 2*pulse.Centre - w }
	c.Low, c.Rest, c.High = about(c.High), about(c.Rest), about(c.Low)
	slices.Reverse(c.Positions)
	for i := range c.Positions {
		c.Positions[i].Width = about(c.Positions[i].Width)
	}
}

// axis fills in what an axis sends, in widths.
func axis(h *handset.Control, c *radio.Control, info *input.Info) {
	scale, ok := c.ScaleOn(info)
	h.Assumed = !ok || c.Reach == nil && len(c.Positions) == 0
	if !ok {
		scale, ok = asFarAsTold(c)
	}
	h.Kind, h.Stays = handset.Stick, c.Stays
	h.Low, h.Rest, h.High = pulse.Low, pulse.Centre, pulse.High
	if c.Job == "throttle" {
		h.Rest = pulse.Low
	}
	if _, isStick := stickJobs[c.Job]; !isStick {
		h.Kind = handset.Knob
	}
	if ok && c.Reach != nil {
		h.Low, h.Rest, h.High, h.RestSeen = scale.Width(c.Reach.Low), scale.Width(c.Reach.Rest), scale.Width(c.Reach.High), true
		if h.Low > h.High {
			h.Low, h.High = h.High, h.Low
		}
		if !h.Assumed {
			h.Noise = max(span(scale, c.Noise), leastNoise)
		}
	}
	if len(c.Positions) < 2 {
		if h.Kind == handset.Knob && c.Reach == nil && switchJobs[c.Job] { // a switch that nobody has looked at
			h.Kind = handset.Switch
			h.Positions = []handset.Position{{Width: pulse.Low}, {Width: pulse.Centre}, {Width: pulse.High}}
		}
		return
	}
	h.Kind = handset.Switch
	for n, p := range c.Positions {
		at := handset.Position{Width: radio.RowWidth(n, len(c.Positions))}
		if ok {
			at.Width = scale.WidthOf(p.At)
		}
		if !h.Assumed {
			at.Spread = max(span(scale, p.Spread), leastNoise)
		}
		h.Positions = append(h.Positions, at)
		h.Noise = max(h.Noise, at.Spread)
	}
	slices.SortFunc(h.Positions, func(a, b handset.Position) int { return cmp.Compare(a.Width, b.Width) })
}

// asFarAsTold is the scale of an axis of which the file tells none and whose device is not at hand: its own lowest, middle and
// highest value would be the scale, and nobody knows them. The ends that were found are taken for them; false where the file
// has none, or none that lie apart.
func asFarAsTold(c *radio.Control) (radio.Scale, bool) {
	var ends []radio.Half
	if r := c.Reach; r != nil {
		ends = append(ends, radio.Halves(r.Low), radio.Halves(r.High))
	}
	for _, p := range c.Positions {
		ends = append(ends, p.At)
	}
	if len(ends) == 0 {
		return radio.Scale{}, false
	}
	low, high := slices.Min(ends), slices.Max(ends)
	s := radio.Scale{Low: low, Middle: low + (high-low)/2, High: high}
	if c.Backwards {
		s = s.Turned()
	}
	return s, s.Sound()
}

// span is a raw spread in widths, by the mean slope of the scale, rounded up.
func span(s radio.Scale, raw radio.Tenth) pulse.Width {
	whole := int64(s.High - s.Low) // halves of a raw step for twice the travel
	if whole < 0 {
		whole = -whole
	}
	if whole == 0 {
		return 0
	}
	n := int64(raw) * 2 * 2 * int64(pulse.Travel)
	return pulse.Width((n + 10*whole - 1) / (10 * whole))
}

var (
	stickJobs  = map[string]struct{}{"throttle": {}, "roll": {}, "pitch": {}, "yaw": {}}
	switchJobs = map[string]bool{"arm": true, "second": true, "mode": true}
)

func side(s radio.Side) handset.Side {
	return [...]handset.Side{radio.NoSide: handset.NoSide, radio.Left: handset.Left, radio.Right: handset.Right, radio.Top: handset.Top}[s]
}

// views and ways are those of a radio file as the bench has them, which knows no radio file.
var (
	views = [...]handset.View{radio.NoView: handset.NoView, radio.Face: handset.OnFace, radio.Shoulders: handset.OnShoulders, radio.Back: handset.OnBack}
	ways  = [...]handset.Way{radio.NoWay: handset.NoWay, radio.GoesUp: handset.GoesUp, radio.GoesRight: handset.GoesRight, radio.GoesDown: handset.GoesDown,
		radio.GoesLeft: handset.GoesLeft, radio.TurnsClockwise: handset.TurnsClockwise, radio.TurnsBack: handset.TurnsBack, radio.GoesIn: handset.Pressed}
)

func spot(s radio.Spot) handset.Spot {
	return handset.Spot{View: views[s.View], X: s.X, Y: s.Y, Way: ways[s.Way]}
}

// SpotOf is a place as a radio file keeps it: one that is only guessed is none.
func SpotOf(s handset.Spot) radio.Spot {
	if s.Guessed {
		return radio.Spot{}
	}
	return radio.Spot{View: radio.View(slices.Index(views[:], s.View)), X: s.X, Y: s.Y, Way: radio.Way(slices.Index(ways[:], s.Way))}
}

func source(c *radio.Control) string {
	switch c.Form {
	case radio.Axis:
		return fmt.Sprintf("axis %d", c.Axis+1)
	case radio.Button:
		return fmt.Sprintf("button %d", c.Buttons[0]+1)
	}
	var n []string
	for _, b := range c.Buttons {
		if b != radio.None {
			n = append(n, fmt.Sprint(b+1))
		}
	}
	return "buttons " + strings.Join(n, ", ")
}

// Keyboard is what the keyboard sends in a radio's place (input/keyboard): full travel on the sticks, arm and second switch at the craft's
// own off and on, the mode switch at three positions.
func Keyboard(names input.Names) handset.Radio {
	r := handset.Radio{Name: "keyboard", StickMode: 2}
	for job, channel := range names.Channel {
		c := handset.Control{Channel: int8(channel), Job: job, Low: pulse.Low, Rest: pulse.Centre, High: pulse.High}
		switch job {
		case "throttle":
			c.Rest, c.Stays = pulse.Low, true
		case "roll", "pitch", "yaw":
		case "mode":
			c.Kind, c.Positions = handset.Switch, []handset.Position{{Width: pulse.Low}, {Width: pulse.Centre}, {Width: pulse.High}}
		default:
			at := func(word string, otherwise pulse.Width) handset.Position {
				if w, ok := names.Position[job][word]; ok && w.Valid() {
					otherwise = w
				}
				return handset.Position{Width: otherwise}
			}
			c.Kind, c.Positions = handset.Switch, []handset.Position{at("off", pulse.Low), at("on", pulse.High)}
		}
		r.Controls = append(r.Controls, c)
	}
	slices.SortStableFunc(r.Controls, func(a, b handset.Control) int { return cmp.Compare(a.Channel, b.Channel) })
	r.Settle()
	return r
}

// Ideal is a radio that nothing is wrong with, for a craft where no radio file is at hand: full travel on every channel that
// the craft listens to, three positions on every switch.
func Ideal(f *craftfile.File) handset.Radio { return handset.Ideal(wanted(f)) }

// IdealForBoth is one such radio for two crafts: each control is on one channel, whichever craft listens there. A job that the second craft has on a
// channel of its own is called by that channel.
func IdealForBoth(f, g *craftfile.File) handset.Radio {
	wants := wanted(f)
	for _, w := range wanted(g) {
		if slices.ContainsFunc(wants, func(v handset.Want) bool { return v.Channel == w.Channel }) {
			continue
		}
		if slices.ContainsFunc(wants, func(v handset.Want) bool { return v.Job == w.Job }) {
			w.Job = fmt.Sprintf("channel %d", w.Channel+1)
		}
		wants = append(wants, w)
	}
	sortByChannel(wants)
	return handset.Ideal(wants)
}

func sortByChannel(wants []handset.Want) {
	slices.SortStableFunc(wants, func(a, b handset.Want) int { return cmp.Compare(a.Channel, b.Channel) })
}

// wanted is what a craft listens to.
func wanted(f *craftfile.File) []handset.Want {
	cfg := f.Config()
	l := &cfg.Layout
	wants := []handset.Want{{Channel: l.Throttle, Job: "throttle"}, {Channel: l.Roll, Job: "roll"}, {Channel: l.Pitch, Job: "pitch"}, {Channel: l.Yaw, Job: "yaw"}}
	add := func(channel int8, job string) {
		if channel == layout.NoChannel || slices.ContainsFunc(wants, func(w handset.Want) bool { return w.Channel == channel }) {
			return
		}
		wants = append(wants, handset.Want{Channel: channel, Job: job, Kind: handset.Switch})
	}
	add(l.Arm, "arm")
	add(l.Second, "second")
	add(l.Mode, "mode")
	for _, j := range f.More() {
		add(j.Channel, j.Name)
	}
	sortByChannel(wants)
	return wants
}
