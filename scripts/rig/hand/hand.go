// Package hand moves the controls of a made radio as a person does: smooth ways, a stop at each end, back again; wrong ones
// and two at once too. It has no clock: it is asked for the report of a moment.
package hand

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"propsoff.example/scripts/rig/fakeradio"
)

// Target is where a movement goes: for a stick or knob a share of its way from low to high in 1/1000, or LetGo; for a
// switch or key the number of the place, from 0.
type Target int

// Ends of a stick or knob, and what its spring does.
const (
	Low   Target = 0
	High  Target = 1000
	LetGo Target = -1
)

// Move is one movement.
type Move struct {
	Job string
	To  Target
	// Over is how long the way takes; a switch takes Snap whatever it says.
	Over time.Duration
	// Hold is how long the hand rests at the end before the next movement.
	Hold time.Duration
	// With begins this movement together with the one before it, or a moment later: no two hands begin at once.
	With bool
	Late time.Duration
}

// Snap is how long a switch is between two places: an axis runs from one to the other, and no button of it is pressed
// (ours).
const Snap = 15 * time.Millisecond

// Hand holds a radio. Its moments go forward. It is not safe for concurrent use.
type Hand struct {
	made  *fakeradio.Made
	grips []grip
	queue []begun
	noise noise
	last  time.Duration
}

// grip is one control in the hand.
type grip struct {
	// from and to are raw values of an axis, or the two places of a switch without one.
	from, to int32
	at, over time.Duration
	places   [2]int // of a switch: before and after
}

// begun is a movement with its moment.
type begun struct {
	at      time.Duration
	control int
	Move
}

// New takes a radio into the hand: everything stands where it does at first. The same seed gives the same noise.
func New(made *fakeradio.Made, seed uint64) *Hand {
	h := &Hand{made: made, noise: noise{state: seed}}
	for _, c := range made.Controls {
		g := grip{from: c.Rest, to: c.Rest}
		if len(c.Places) > 0 {
			g.from, g.to = c.Places[0].Value, c.Places[0].Value
		}
		h.grips = append(h.grips, g)
	}
	return h
}

// Begin plans movements one after the other from the moment at, which may not be past already, and gives the moment at
// which the last one and its hold are over. A job that the radio has not, or a place that a switch has not, is an error.
func (h *Hand) Begin(at time.Duration, moves ...Move) (end time.Duration, err error) {
	start, end := at, at
	for _, m := range moves {
		i := slices.IndexFunc(h.made.Controls, func(c fakeradio.Control) bool { return c.Job == m.Job })
		if i < 0 {
			return 0, fmt.Errorf("%s has no control for %q", h.made.Name, m.Job)
		}
		c := h.made.Controls[i]
		if n := len(c.Places); n > 0 && (m.To < 0 || int(m.To) >= n) || n == 0 && (m.To < LetGo || m.To > High) {
			return 0, fmt.Errorf("%s of %s cannot go to %d", m.Job, h.made.Name, m.To)
		}
		if len(c.Places) > 0 {
			m.Over = Snap
		}
		if !m.With {
			start = end
		}
		h.queue = append(h.queue, begun{start + m.Late, i, m})
		end = max(end, start+m.Late+m.Over+m.Hold)
	}
	slices.SortStableFunc(h.queue, func(a, b begun) int { return cmp.Compare(a.at, b.at) })
	return end, nil
}

// Report gives what the radio sends at a moment.
func (h *Hand) Report(at time.Duration) fakeradio.Report {
	at = max(at, h.last)
	h.last = at
	for len(h.queue) > 0 && h.queue[0].at <= at {
		h.take(h.queue[0])
		h.queue = h.queue[1:]
	}
	r := h.made.Layout.Rest()
	for i, c := range h.made.Controls {
		g := &h.grips[i]
		if c.Axis != fakeradio.Nothing {
			lo, hi := h.made.Layout.AxisRange(c.Axis)
			v := g.value(at) + h.noise.next(h.made.Noise)
			r.Axes[c.Axis] = int32(min(max(math.Round(v), float64(lo)), float64(hi)))
		}
		if len(c.Places) == 0 {
			continue
		}
		p := c.Places[g.places[1]]
		if at < g.at+g.over { // on the way nothing is pressed
			p = fakeradio.Place{Button: fakeradio.Nothing, Hat: fakeradio.Nothing}
		}
		if p.Button != fakeradio.Nothing {
			r.Pressed[p.Button] = true
		}
		if p.Hat != fakeradio.Nothing {
			r.Hat = p.Hat
		}
	}
	return r
}

// Standing gives where every axis with a control goes or stands, without noise; the others at the middle.
func (h *Hand) Standing() []int32 {
	axes := h.made.Layout.Rest().Axes
	for i, c := range h.made.Controls {
		if c.Axis != fakeradio.Nothing {
			axes[c.Axis] = h.grips[i].to
		}
	}
	return axes
}

// take begins a movement from where its control is.
func (h *Hand) take(b begun) {
	c, g := h.made.Controls[b.control], &h.grips[b.control]
	g.from, g.at, g.over = int32(math.Round(g.value(b.at))), b.at, b.Over
	switch {
	case len(c.Places) > 0:
		if int(b.To) == g.places[1] {
			g.over = 0 // it stands there already and is not lifted
		}
		g.places = [2]int{g.places[1], int(b.To)}
		g.to = c.Places[b.To].Value
	case b.To == LetGo:
		g.to = g.from
		if c.Springs {
			g.to = c.Rest
		}
	default:
		g.to = c.Low + int32((int64(c.High)-int64(c.Low))*int64(b.To)/int64(High))
	}
}

// value is where the axis of a control is at a moment, without noise.
func (g *grip) value(at time.Duration) float64 {
	if at >= g.at+g.over {
		return float64(g.to)
	}
	return float64(g.from) + (float64(g.to)-float64(g.from))*way(float64(at-g.at)/float64(g.over))
}

// way is the smoothest way of a hand, as a share of the distance for a share t of the time, 0 to 1: the curve of least
// jerk, 10t³ − 15t⁴ + 6t⁵ (T. Flash, N. Hogan, The coordination of arm movements, 1985; from memory).
func way(t float64) float64 {
	t = min(max(t, 0), 1)
	return t * t * t * (10 - 15*t + 6*t*t)
}

// noise is a small generator, the same everywhere: splitmix64 (Steele, Lea, Flood, 2014; from memory).
type noise struct{ state uint64 }

// next gives a value with mean 0 and the given standard deviation: the sum of twelve even values, nearly normal, never
// more than six deviations out.
func (n *noise) next(deviation float64) float64 {
	if deviation == 0 {
		return 0
	}
	sum := -6.0
	for range 12 {
		n.state += 0x9e3779b97f4a7c15
		z := n.state
		z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
		z = (z ^ z>>27) * 0x94d049bb133111eb
		sum += float64((z^z>>31)>>11) / (1 << 53)
	}
	return sum * deviation
}
