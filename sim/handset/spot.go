package handset

import (
	"slices"

	"propsoff.example/sim/pulse"
)

// View is one of the sides from which a radio is drawn.
type View uint8

// The views.
const (
	NoView      View = iota // nobody has said
	OnFace                  // the face, which the pilot looks at
	OnShoulders             // the upper edge, seen from the face over it: its lower rim is the near one
	OnBack                  // the back, seen through the radio from the front, so that left stays left
	ViewCount
)

// Way is how a hand takes a control from its low end to its high one, as the view shows it.
type Way uint8

// The ways. Up on the shoulders is away from the pilot.
const (
	NoWay Way = iota // nobody has said
	GoesUp
	GoesRight
	GoesDown
	GoesLeft
	TurnsClockwise
	TurnsBack // anticlockwise
	Pressed
	WayCount
)

// Spot is where on the radio a control sits: X from the left and Y from the top of a view, in thousandths of it.
type Spot struct {
	View View
	X, Y int16
	Way  Way
	// Guessed: nobody has said it, it is only likely.
	Guessed bool
}

// usualWay is how a control of its kind is moved as a rule (common practice, no source).
func (c *Control) usualWay() Way {
	switch {
	case c.Kind == Knob, len(c.Positions) > 3:
		return TurnsClockwise
	case c.Momentary && len(c.Positions) == 2:
		return Pressed
	}
	return GoesUp
}

// Where controls are likely to sit that nobody has placed, the likeliest first (ours): the front row of a shoulder from the outside, then its
// back row.
var (
	leftShoulder  = []Spot{at(OnShoulders, 90, 700), at(OnShoulders, 90, 250), at(OnShoulders, 210, 700), at(OnShoulders, 210, 250), at(OnShoulders, 330, 700), at(OnShoulders, 330, 250)}
	rightShoulder = []Spot{at(OnShoulders, 910, 700), at(OnShoulders, 910, 250), at(OnShoulders, 790, 700), at(OnShoulders, 790, 250), at(OnShoulders, 670, 700), at(OnShoulders, 670, 250)}
	centre        = []Spot{at(OnFace, 420, 120), at(OnFace, 580, 120), at(OnFace, 500, 300), at(OnFace, 500, 120), at(OnFace, 500, 480), at(OnFace, 500, 660), at(OnFace, 500, 840)}
	elsewhere     = []Spot{at(OnFace, 60, 80), at(OnFace, 940, 80), at(OnFace, 200, 80), at(OnFace, 800, 80), at(OnBack, 150, 250), at(OnBack, 850, 250), at(OnBack, 300, 250), at(OnBack, 700, 250)}
)

func at(v View, x, y int16) Spot { return Spot{View: v, X: x, Y: y, Guessed: true} }

// Settle gives every control that nobody has placed a place where it is likely to be: by its side, its job and its kind. It says of each that
// it is guessed. Sticks have their wells.
func (r *Radio) Settle() {
	for i := range r.Controls {
		c := &r.Controls[i]
		if c.Kind == Stick {
			continue
		}
		if c.Spot.View == NoView {
			c.Spot = r.likely(c)
		}
		if c.Spot.Way == NoWay {
			c.Spot.Way = c.usualWay()
		}
	}
}

// likely is the first free place of those that suit a control; where there are more controls than places, two share the last one.
func (r *Radio) likely(c *Control) (s Spot) {
	suits := rightShoulder
	switch {
	case c.Side == Left:
		suits = leftShoulder
	case c.Side == Top, c.Side == NoSide && c.Kind == Knob:
		suits = centre
	case c.Side == NoSide && (c.Job == "arm" || c.Job == "second"):
		suits = leftShoulder
	}
	others := slices.Concat(suits, elsewhere, rightShoulder, leftShoulder, centre)
	if c.Side == NoSide {
		others = slices.Concat(suits, rightShoulder, leftShoulder, centre, elsewhere)
	}
	for _, s = range others {
		if !r.taken(s) {
			break
		}
	}
	return s
}

// near is how close to one place another counts as the same, in thousandths across; down it is twice that.
const near = 90

// taken tells whether a control sits at a place or close to it.
func (r *Radio) taken(s Spot) bool {
	return slices.ContainsFunc(r.Controls, func(c Control) bool {
		o := c.Spot
		return o.View == s.View && abs(o.X-s.X) < near && abs(o.Y-s.Y) < 2*near
	})
}

func abs(v int16) int16 { return max(v, -v) }

// Turned is the other way round; a button is pressed or let go, and its way stays as it is.
func (w Way) Turned(back bool) Way {
	if !back {
		return w
	}
	return [WayCount]Way{GoesUp: GoesDown, GoesDown: GoesUp, GoesLeft: GoesRight, GoesRight: GoesLeft, TurnsClockwise: TurnsBack, TurnsBack: TurnsClockwise, Pressed: Pressed}[w]
}

// Share is where a control stands that sends a width, from its low end, 0, to its high one, 1.
func (c *Control) Share(w pulse.Width) float64 {
	if n := len(c.Positions); n > 1 {
		return float64(c.Nearest(w)) / float64(n-1)
	}
	if c.High <= c.Low {
		return 0
	}
	return max(0, min(1, float64(w-c.Low)/float64(c.High-c.Low)))
}

// Nearest is the position that sends what comes nearest to a width, the lower of equals; −1 of what has no positions.
func (c *Control) Nearest(w pulse.Width) int {
	best := -1
	for i := range c.Positions {
		if best < 0 || apart(c.Positions[i].Width, w) < apart(c.Positions[best].Width, w) {
			best = i
		}
	}
	return best
}

// Springs reports whether it goes back to where it rests once nobody holds it.
func (c *Control) Springs() bool {
	return c.Kind == Switch && c.Momentary || c.Kind != Switch && !c.Stays
}

// RestPosition is where a switch that springs back stands once it is let go: where the radio file says it rests, else its lowest position.
func (c *Control) RestPosition() int {
	if c.Rest == 0 {
		return 0
	}
	return c.Nearest(c.Rest)
}

func apart(a, b pulse.Width) pulse.Width { return max(a-b, b-a) }
