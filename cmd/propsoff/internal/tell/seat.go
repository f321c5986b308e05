package tell

import (
	"propsoff/assets/words"
	"propsoff/sim/handset"
)

// SeatTitle is what a view of a radio is called.
func SeatTitle(v handset.View) words.Text {
	switch v {
	case handset.OnFace:
		return words.T("seat.face")
	case handset.OnShoulders:
		return words.T("seat.shoulders")
	case handset.OnBack:
		return words.T("seat.back")
	}
	return words.Text{}
}

// SeatWay says which way a control on a view must be moved; back is from its high end to its low one. Empty where nobody knows it.
func SeatWay(s handset.Spot, back bool) words.Text {
	if s.Guessed {
		return words.Text{}
	}
	over := s.View == handset.OnShoulders
	switch w := s.Way.Turned(back); {
	case w == handset.GoesUp && over:
		return words.T("seat.way.away")
	case w == handset.GoesDown && over:
		return words.T("seat.way.towards")
	case w == handset.GoesUp:
		return words.T("seat.way.up")
	case w == handset.GoesDown:
		return words.T("seat.way.down")
	case w == handset.GoesLeft:
		return words.T("seat.way.left")
	case w == handset.GoesRight:
		return words.T("seat.way.right")
	case w == handset.TurnsClockwise:
		return words.T("seat.way.clockwise")
	case w == handset.TurnsBack:
		return words.T("seat.way.anticlockwise")
	case w == handset.Pressed && back:
		return words.T("seat.way.let-go")
	case w == handset.Pressed:
		return words.T("seat.way.press")
	}
	return words.Text{}
}
