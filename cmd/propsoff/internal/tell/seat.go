package tell

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/input/radio"
	"propsoff.example/sim/handset"
)

// SeatTitle is what a view of a radio is called, in short without how it is seen.
func SeatTitle(v handset.View, short bool) words.Text {
	in := words.Args{"short": words.Flag(short)}
	switch v {
	case handset.OnFace:
		return words.T("seat.face")
	case handset.OnShoulders:
		return words.T("seat.shoulders", in)
	case handset.OnBack:
		return words.T("seat.back", in)
	}
	return words.Text{}
}

// SeatWay says which way a control on a view must be moved; back is from its high end to its low one. Empty where nobody knows it.
func SeatWay(s handset.Spot, back bool) words.Text {
	if s.Guessed {
		return words.Text{}
	}
	w := s.Way.Turned(back)
	code := [handset.WayCount]string{handset.GoesUp: "up", handset.GoesRight: "right", handset.GoesDown: "down", handset.GoesLeft: "left",
		handset.TurnsClockwise: "clockwise", handset.TurnsBack: "anticlockwise", handset.Pressed: "press"}[w]
	switch over := s.View == handset.OnShoulders; {
	case code == "":
		return words.Text{}
	case w == handset.GoesUp && over:
		code = "away"
	case w == handset.GoesDown && over:
		code = "towards"
	case w == handset.Pressed && back:
		code = "let-go"
	}
	return words.Of("seat.way", code)
}

// SeatMove asks for a move of a control, on its way or back to its low end, up to its middle or to the end; purpose is what it is for, as SeatFor has
// it. It says what a hand does, so that nobody reads in it how the control stands. Where nobody knows the way it names the control alone.
func SeatMove(name, purpose words.Text, s handset.Spot, back, middle bool) words.Text {
	w := s.Way.Turned(back)
	return words.T("seat.move", words.Args{"name": name, "for": purpose, "way": SeatWay(s, back), "middle": words.Flag(middle),
		"press": words.Flag(w == handset.Pressed && !back), "let": words.Flag(w == handset.Pressed && back),
		"turn": words.Flag(w == handset.TurnsClockwise || w == handset.TurnsBack)})
}

// SeatFor is what the move is for that the sentence of Next asks for; nothing where it asks for none.
func SeatFor(f *facts.Facts) words.Text {
	switch f.Next() {
	case facts.NextArm:
		return words.T("seat.for.arm")
	case facts.NextDisarmByHand:
		return words.T("seat.for.disarm")
	case facts.NextCureThenArm, facts.NextSwitchOver:
		return words.T("seat.for.first")
	}
	return words.Text{}
}

// Sits is where on the radio a control sits: the place that the pilot gave it, else its side; it says nothing where nobody has said.
func Sits(c *radio.Control) words.Text {
	if c.Spot.View == radio.NoView {
		return Side(c.Side)
	}
	return seatAt([...]string{radio.Face: "face", radio.Shoulders: "shoulder", radio.Back: "back"}[c.Spot.View], c.Spot.X)
}

// SeatAt is Sits of a place as it is drawn.
func SeatAt(s handset.Spot) words.Text {
	if s.View == handset.NoView {
		return words.Text{}
	}
	return seatAt([...]string{handset.OnFace: "face", handset.OnShoulders: "shoulder", handset.OnBack: "back"}[s.View], s.X)
}

func seatAt(view string, x int16) words.Text {
	side := [...]string{radio.Left: "left", radio.Right: "right", radio.Top: "middle"}[(&radio.Spot{View: radio.Face, X: x}).Side()]
	return words.Of("seat.at", view+"-"+side)
}

// RadioTaken says of which radio a file is that was taken from another pilot, how many of its controls there are besides the sticks and how many of
// them are placed, and where it is kept.
func RadioTaken(f *radio.File, path string, kept radio.Kept) words.Text {
	if kept == radio.KeptSame {
		return words.T("seat.taken-before", words.Args{"name": words.Quote(f.Device.Name), "serial": words.Quote(f.Device.Serial), "path": words.Quote(path)})
	}
	all, placed := 0, 0
	for i := range f.Controls {
		c := &f.Controls[i]
		if slices.Contains(radio.Needed(), c.Job) { // sticks have their places
			continue
		}
		if all++; c.Spot.View != radio.NoView {
			placed++
		}
	}
	return words.T("seat.taken", words.Args{"name": words.Quote(f.Device.Name), "serial": words.Quote(f.Device.Serial), "n": words.Count(all),
		"placed": words.Whole(placed), "path": words.Quote(path), "over": words.Flag(kept == radio.KeptOver)})
}
