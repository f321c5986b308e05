package tell

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/gestures"
	"propsoff.example/gestures/menu"
)

// GogglesLine are the instruments at the lower edge of the goggles picture: pack, mode, armed or not, link.
func GogglesLine(f *facts.Facts) [4]words.Text {
	s, volts := &f.Snap, words.Text{}
	switch {
	case s.In.Air:
		volts = PackVolts(s.Volts)
	case s.Senses.PackMilliVolts > 0:
		volts = Volts(int(s.Senses.PackMilliVolts))
	}
	return [4]words.Text{words.T("goggles.pack", words.Args{"powered": words.Flag(s.In.Powered), "volts": volts}), words.T("goggles.mode", words.Args{"mode": Mode(s.Mode)}),
		words.T("goggles.armed", words.Args{"armed": words.Flag(s.Armed)}), words.T("goggles.link", words.Args{"link": judgedLink(f)})}
}

// GogglesPath are the pages of a menu, from the first to the one that is shown.
func GogglesPath(path []words.Text) words.Text {
	if len(path) == 0 {
		return words.Text{}
	}
	all := path[0]
	for _, page := range path[1:] {
		all = words.T("goggles.path", words.Args{"a": all, "b": page})
	}
	return all
}

// GogglesWas says that a value is changed, and what it was when the menu was opened; short where there is little room.
func GogglesWas(value words.Text, short bool) words.Text {
	return words.T("goggles.was", words.Args{"value": value, "short": words.Flag(short)})
}

// GogglesChanged says how many values are changed and not kept yet; where none is, that the menu is for practice.
func GogglesChanged(n int) words.Text {
	if n == 0 {
		return words.T("goggles.practice")
	}
	return words.T("goggles.changed", words.Args{"n": words.Count(n)})
}

// GogglesMoves says how the sticks move the menu as it stands, a sentence each: which direction does what, and what to mind.
func GogglesMoves(way menu.Way, s *menu.State, mode uint8, f *facts.Facts) []words.Text {
	moves := gogglesDirections(way, s)
	throttle := throttleOnRight(mode)
	before := gogglesStill(f)
	switch {
	case !before.Empty():
	case !s.Rested:
		before = words.T("goggles.rest-first", words.Args{"throttle": words.Flag(throttle)})
	case throttle:
		return append(moves, words.T("goggles.throttle-back"))
	default:
		return moves
	}
	return append([]words.Text{before}, moves...)
}

// throttleOnRight reports whether the right stick carries the throttle in a stick mode.
func throttleOnRight(mode uint8) bool {
	return gestures.OnSticks(mode)[gestures.RightUp] == gestures.Throttle
}

// gogglesDirections says which direction of the sticks does what.
func gogglesDirections(way menu.Way, s *menu.State) []words.Text {
	two := words.Args{"left": words.Flag(way == menu.TwoSticks)}
	switch {
	case s.Asked != menu.NoQuestion:
		return []words.Text{words.T("goggles.asked-choose"), words.T("goggles.asked-take", two)}
	case s.Inside:
		return []words.Text{words.T("goggles.inside-change"), words.T("goggles.inside-done", two)}
	case way == menu.TwoSticks:
		return []words.Text{words.T("goggles.mark"), words.T("goggles.in-out-two")}
	}
	return []words.Text{words.T("goggles.mark"), words.T("goggles.in-out")}
}

// gogglesStill says why the menu stands still, and nothing where the sticks move it.
func gogglesStill(f *facts.Facts) words.Text {
	switch {
	case f.Snap.Armed:
		return words.T("goggles.still-armed")
	case f.Hearing == facts.ItsReceiver: // a push that was held goes on in what the receiver sends
		return words.T("goggles.still-receiver")
	case !f.Reaches():
		return words.T("goggles.still-silent")
	case f.Hearing == facts.Damaged:
		return words.T("goggles.still-damaged")
	case f.Snap.Link != facts.Good:
		return words.T("goggles.still-link")
	}
	return words.Text{}
}

// MenuArms warns of a menu of which the craft does not know, where going in can arm a craft that is armed by its sticks; it says nothing
// where the stick that goes in does not carry yaw.
func MenuArms(way menu.Way, mode uint8) words.Text {
	left, across := way == menu.TwoSticks, gestures.RightAcross
	if left {
		across = gestures.LeftAcross
	}
	if gestures.OnSticks(mode)[across] != gestures.Yaw {
		return words.Text{}
	}
	return words.T("goggles.arms", words.Args{"left": words.Flag(left), "first": words.Flag(!throttleOnRight(mode))})
}
