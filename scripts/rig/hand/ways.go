package hand

import (
	"time"

	"propsoff.example/scripts/rig/fakeradio"
)

// Pace of a hand, all ours: a brisk person.
const (
	Way   = 250 * time.Millisecond // a stick from end to end
	Back  = 150 * time.Millisecond // a stick that is let go
	Stop  = 260 * time.Millisecond // in each place of a switch
	Press = 300 * time.Millisecond // of a key that springs back
	Turn  = 900 * time.Millisecond // a knob from end to end
	Rest  = 120 * time.Millisecond // at an end of a stick
	Apart = 120 * time.Millisecond // between two hands that move at once
)

// To brings a stick or knob somewhere and leaves it there.
func To(job string, to Target) Move { return Move{Job: job, To: to, Over: Way} }

// Gone lets a stick go: one with a spring goes back, another stays.
func Gone(job string) Move { return Move{Job: job, To: LetGo, Over: Back} }

// Both begins m together with the movement before it.
func Both(m Move) Move {
	m.With = true
	return m
}

// Beside begins m while the movement before it is still on its way, as a second hand does.
func Beside(m Move) Move {
	m.With, m.Late = true, Apart
	return m
}

// Through takes a switch from its first place through every other to its last and leaves it there; a key is pressed and let
// go; a knob goes to its low end and then slowly to its high one.
func Through(c fakeradio.Control) (out []Move) {
	if c.Grip == fakeradio.Stick || c.Grip == fakeradio.Knob {
		if c.Rest != c.Low {
			out = append(out, Move{Job: c.Job, To: Low, Over: Turn / 2, Hold: Stop})
		}
		return append(out, Move{Job: c.Job, To: High, Over: Turn, Hold: Stop})
	}
	for i := 1; i < len(c.Places); i++ {
		if c.Grip == fakeradio.Key {
			out = append(out, Move{Job: c.Job, To: Target(i), Hold: Press}, Move{Job: c.Job, To: 0, Hold: Stop})
			continue
		}
		out = append(out, Move{Job: c.Job, To: Target(i), Hold: Stop})
	}
	return out
}

// Again shows a control once more, from wherever it stands: both ends and back for a stick or knob, every place and back to
// the first for a switch.
func Again(c fakeradio.Control) (out []Move) {
	switch c.Grip {
	case fakeradio.Stick, fakeradio.Knob:
		out = append(out, Move{c.Job, High, Way, Rest, false, 0}, Move{c.Job, Low, Way, Rest, false, 0})
		switch {
		case c.Springs:
			out = append(out, Move{c.Job, LetGo, Back, Rest, false, 0})
		case c.Rest != c.Low: // back to where it was found
			share := Target((int64(c.Rest) - int64(c.Low)) * int64(High) / (int64(c.High) - int64(c.Low)))
			out = append(out, Move{c.Job, share, Way, Rest, false, 0})
		}
		return out
	case fakeradio.Key:
		return Through(c)
	}
	for i := range c.Places {
		out = append(out, Move{Job: c.Job, To: Target(i), Hold: Stop})
	}
	return append(out, Move{Job: c.Job, To: 0, Hold: Stop})
}

// Corner holds both sticks in their top right corners.
func Corner() []Move {
	return []Move{To("throttle", High), Both(To("yaw", High)), Both(To("pitch", High)), Both(To("roll", High))}
}

// OutOfCorner brings throttle down and lets the others go.
func OutOfCorner() []Move {
	return []Move{To("throttle", Low), Both(Gone("yaw")), Both(Gone("pitch")), Both(Gone("roll"))}
}
