package ui

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/lesson"
)

// Wreck is what there is of a wreck on the air bench; it counts while Is.
type Wreck struct {
	Is bool
	// Broke is the tick in which the craft broke, Found until when it could have been saved, nil while that is being found out.
	Broke int64
	Found *lesson.Found
	// Back is how far before that a flight may go on, in ms.
	Back int64
}

// Saved says it for one who looks at a tick of the flight: the present one, or one that is looked back at.
func (w *Wreck) Saved(tick int64) words.Text {
	switch {
	case !w.Is:
		return words.Text{}
	case w.Found == nil:
		return tell.Seeking()
	case tick >= w.Broke:
		return tell.Saved(w.Found)
	}
	return tell.SavedAt(w.Found, tick)
}

// Mark is the last moment at which it could have been saved, for a drawing; ok is false where there is none.
func (w *Wreck) Mark() (tick int64, ok bool) {
	if !w.Is || w.Found == nil {
		return 0, false
	}
	return w.Found.Last.At, w.Found.Last.Any && w.Found.Turns == w.Found.Fitted
}

// Again is a flight that goes on from before a wreck: Apart says that nothing is recorded of it, Waits that time stands until hands let it go on.
type Again struct {
	Apart, Waits bool
	Hands        tell.HandsThen
}
