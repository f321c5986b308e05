package phrase

import (
	"strconv"
	"strings"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/gestures"
	"propsoff/gestures/menu"
)

// GogglesMovesTitle heads how a menu is moved.
func GogglesMovesTitle() string { return "how the sticks move it" }

// GogglesLine are the instruments at the lower edge of the goggles picture: pack, mode, armed or not, link.
func GogglesLine(f *facts.Facts) [4]string {
	s := &f.Snap
	link := "link: " + uncapital(LinkLine(f))
	pack := "no power"
	switch {
	case s.In.Powered && s.In.Air:
		pack = "pack " + PackVolts(s.Volts)
	case s.In.Powered && s.Senses.PackMilliVolts > 0:
		pack = "pack " + Volts(int(s.Senses.PackMilliVolts))
	case s.In.Powered:
		pack = "pack in"
	}
	return [4]string{pack, "mode " + Mode(s.Mode), strings.ToLower(Armed(s.Armed)), link}
}

// GogglesPath are the pages of a menu, from the first to the one that is shown.
func GogglesPath(path []string) string { return strings.Join(path, "  ›  ") }

// GogglesWas says that a value is changed, and what it was when the menu was opened; short where there is little room.
func GogglesWas(value string, short bool) string {
	if short {
		return "was " + value
	}
	return "changed, was " + value
}

// CourseWithout names a course; unfit is how many of its drills name gestures that there are not.
func CourseWithout(name string, unfit int) string {
	if unfit == 0 {
		return name
	}
	return name + " (" + strconv.Itoa(unfit) + " need the shipped gestures)"
}

// DrillsUnfit says which drills are left out.
func DrillsUnfit(codes []string) string {
	return "Left out, as your gesture file has not what they ask for: " + strings.Join(codes, ", ") + "."
}

// GogglesInside says how many items stand in a page.
func GogglesInside(n int) string { return strconv.Itoa(n) + " inside" }

// GogglesChanged says how many values are changed and not kept yet; where none is, that the menu is for practice.
func GogglesChanged(n int) string {
	if n == 0 {
		return "For practice only: nothing kept here changes the craft."
	}
	return capital(count(n, "value")) + " changed, not kept yet."
}

// GogglesLeaving heads the question of what is to become of what was changed.
func GogglesLeaving(changed int) string {
	return "Leaving, with " + count(changed, "change") + "."
}

// GogglesAnswers are what can be answered on leaving, in the order of menu.Answer from Keep on.
func GogglesAnswers() []string {
	return []string{"keep the changes", "put back as it was", "stay in the menu"}
}

// GogglesMoves says how the sticks move the menu as it stands, a sentence each; the first two say which direction does what.
func GogglesMoves(way menu.Way, s *menu.State, mode uint8, f *facts.Facts) []string {
	side := "Right stick"
	if way == menu.TwoSticks {
		side = "Left stick"
	}
	var all []string
	switch {
	case s.Asked != menu.NoQuestion:
		all = []string{"Right stick up and down: from one answer to the next.", side + " to the right takes the answer; to the left is stay."}
	case s.Inside:
		all = []string{"Right stick up and down changes the value.", side + " to the left: done with this value."}
	case way == menu.TwoSticks:
		all = []string{"Right stick up and down moves the mark.", side + " to the right goes in, or raises a value; to the left goes out, or lowers it."}
	default:
		all = []string{"Right stick up and down moves the mark.", side + " to the right goes in, or into a value; to the left goes out."}
	}
	throttle := gestures.OnSticks(mode)[gestures.RightUp] == gestures.Throttle
	switch {
	case f.Snap.Armed:
		return append([]string{"The menu stands still: the craft is armed."}, all...)
	case f.Hearing == facts.ItsReceiver: // a push that was held goes on in what the receiver sends
		return append([]string{"No stick moves the menu now: nothing of the radio's reaches the craft, and the receiver goes on sending."}, all...)
	case !f.Reaches():
		return append([]string{"The menu stands still: nothing of the radio's reaches the craft."}, all...)
	case f.Hearing == facts.Damaged:
		return append([]string{"The menu stands still: no whole frame of the radio's comes."}, all...)
	case f.Snap.Link != facts.Good:
		return append([]string{"The menu stands still: there is no good link."}, all...)
	case !s.Rested && throttle:
		return append([]string{"First bring the sticks to the middle: the right stick carries the throttle here, which does not spring back."}, all...)
	case !s.Rested:
		return append([]string{"First let the sticks come to rest in the middle."}, all...)
	case throttle:
		return append(all, "The right stick carries the throttle: bring it back to the middle after each step.")
	}
	return all
}

// MenuArms warns of a menu of which the craft does not know, where going in can arm a craft that is armed by its sticks; empty where the
// stick that goes in does not carry yaw.
func MenuArms(way menu.Way, mode uint8) string {
	stick, across := "right", gestures.RightAcross
	if way == menu.TwoSticks {
		stick, across = "left", gestures.LeftAcross
	}
	on := gestures.OnSticks(mode)
	if on[across] != gestures.Yaw {
		return ""
	}
	s := "With the throttle low, the " + stick + " stick held to the right arms this craft, which knows nothing of a camera's menu"
	if on[gestures.RightUp] != gestures.Throttle {
		s += ": bring the throttle to the middle first"
	}
	return s + "."
}

// MenuStands says which menu is open, and where the mark stands; value is that of the item, empty for none.
func MenuStands(name, item, value string, asked bool) string {
	out := "menu “" + name + "” open, "
	switch {
	case asked:
		return out + "asking whether to keep, put back or stay"
	case value != "":
		return out + "the mark on " + item + ": " + value
	}
	return out + "the mark on " + item
}

// MenuFirst sets which menu is open before how the craft stands.
func MenuFirst(stands, craft string) string { return capital(stands) + ". " + craft }
