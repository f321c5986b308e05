package tell

import (
	"strconv"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/codes"
	"propsoff/sim"
	"propsoff/sim/happening"
	"propsoff/sim/pulse"
)

// moveSentence tells what the sticks did besides flying, and what the instructor did; nothing for any other happening.
func moveSentence(h happening.Happening, cfg *sim.Config) words.Text {
	switch h.Code {
	case happening.StickMode:
		return words.T("move.stick-mode", words.Args{"n": words.Whole(h.A)})
	case happening.Gesture:
		return words.T("move.gesture", words.Args{"gesture": gestureName(h.A, cfg), "time": Seconds(int64(h.B))})
	case happening.GestureNear:
		return words.T("move.nearly", words.Args{"gesture": gestureName(h.A, cfg), "why": nearSentence(h.A, h.B, cfg)})
	case happening.MenuMark, happening.MenuValue, happening.MenuLeft:
		return menuLine(h, cfg)
	case happening.Instructed:
		if s := FaultSentence(pulse.Deed(h.A), h.B, &cfg.Layout); !s.Empty() {
			return s
		}
		return instructedSentence(pulse.Deed(h.A), h.B)
	}
	return words.Text{}
}

// gestureName is what a craft's gesture, counted from 0, is called; its number where the craft does not have it.
func gestureName(n int32, cfg *sim.Config) words.Text {
	if cfg == nil || cfg.Gestures == nil || n < 0 || int(n) >= len(cfg.Gestures.Patterns) {
		return words.T("move.gesture-number", words.Args{"n": words.Whole(n + 1)})
	}
	return GestureName(&cfg.Gestures.Patterns[n])
}

// instructedSentence tells what the instructor did. A pupil's record leaves these lines out, all but what his radio does to the sticks and
// to the arm switch.
func instructedSentence(d pulse.Deed, number int32) words.Text {
	switch d {
	case pulse.DeedHands:
		return words.T("move.hands", words.Args{"instructor": words.Flag(number != 0)})
	case pulse.DeedArmOff:
		return words.T("move.arm-off", words.Args{"against": words.Flag(number != 0)})
	case pulse.DeedMark:
		return words.T("move.mark", words.Args{"n": words.Whole(number)})
	}
	return words.T("move.instructor", words.Args{"deed": words.Quote(strconv.Itoa(int(d)) + " " + strconv.Itoa(int(number)))})
}

// nearSentence says what was wrong with a gesture that was nearly made, as a clause.
func nearSentence(gesture, near int32, cfg *sim.Config) words.Text {
	control := JobDirection(int(near >> 8 & 3))
	if codes.Physical(gesture, cfg) {
		control = StickDirection(int(near >> 8 & 3))
	}
	switch happening.Near(near) {
	case happening.NearEarly:
		return words.T("move.near-early")
	case happening.NearCorner:
		return words.T("move.near-corner", words.Args{"control": control})
	case happening.NearOvershot:
		return words.T("move.near-overshot", words.Args{"control": control})
	case happening.NearLate:
		return words.T("move.near-late")
	}
	way, _ := codes.NearOf(gesture, near, cfg)
	return words.AsIs(way)
}
