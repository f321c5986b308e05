package radio

import (
	"fmt"
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
)

// View is one of the sides from which a radio is looked at.
type View uint8

// The views. The back is seen through the radio from the front, so that left stays left; of the shoulders the lower rim is the near one.
const (
	NoView View = iota // nobody has said
	Face
	Shoulders
	Back
)

// Way is how a hand takes a control from its low end to its high one.
type Way uint8

// The ways, as the view shows them.
const (
	NoWay Way = iota
	GoesUp
	GoesRight
	GoesDown
	GoesLeft
	TurnsClockwise
	TurnsBack
	GoesIn // a button that is pressed
)

// Spot is where on the radio a control sits, as the pilot said: from the left and from the top of a view, in thousandths of it.
type Spot struct {
	View View
	X, Y int16
	Way  Way
}

// farOff is the farthest that a spot lies from the left or the top.
const farOff = 1000

var (
	views = [...]string{Face: "face", Shoulders: "shoulders", Back: "back"}
	ways  = [...]string{GoesUp: "up", GoesRight: "right", GoesDown: "down", GoesLeft: "left", TurnsClockwise: "clockwise", TurnsBack: "anticlockwise", GoesIn: "in"}
)

// Side is the side that a spot lies on.
func (s *Spot) Side() Side {
	switch {
	case s.View == NoView:
		return NoSide
	case s.X < 400:
		return Left
	case s.X > 600:
		return Right
	}
	return Top
}

// readSpot reads {where: shoulders, across: 180, down: 300, goes: up}; false where a part of it could not be read.
func readSpot(n yamldoc.Node) (s Spot, ok bool) {
	m := n.Map("radio.sits")
	view, okV := m.Need("where").Word(views[Face:]...)
	x, okX := m.Need("across").Int(0, farOff)
	y, okY := m.Need("down").Int(0, farOff)
	way, okW := m.Need("goes").Word(ways[GoesUp:]...)
	m.Done()
	if !okV || !okX || !okY || !okW {
		return Spot{}, false
	}
	return Spot{View(slices.Index(views[:], view)), int16(x), int16(y), Way(slices.Index(ways[:], way))}, true
}

// field is a spot as it is written.
func (s *Spot) field() string {
	return fmt.Sprintf("sits: {where: %s, across: %d, down: %d, goes: %s}", views[s.View], s.X, s.Y, ways[s.Way])
}

// checkSpot finds what is wrong with the place of a control.
func checkSpot(i int, c Control, say sayer) {
	s, args := &c.Spot, words.Args{"job": words.Quote(c.Job)}
	switch {
	case *s == Spot{}:
	case s.View == NoView, int(s.View) >= len(views), s.Way == NoWay, int(s.Way) >= len(ways), min(s.X, s.Y) < 0, max(s.X, s.Y) > farOff:
		say(i, "sits", "radio.sits-nowhere", args)
	case slices.Contains(Needed(), c.Job):
		say(i, "sits", "radio.sits-of-stick", args)
	case c.Side != s.Side():
		say(i, "side", "radio.side-elsewhere", args)
	case s.Way == GoesIn && c.Form == Axis && len(c.Positions) == 0:
		say(i, "sits", "radio.knob-in", args)
	}
}
