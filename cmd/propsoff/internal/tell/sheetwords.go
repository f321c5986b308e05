package tell

import (
	"propsoff/assets/words"
	"propsoff/sim"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
)

// Does says in at most sixteen letters what the key of an action does now. on tells how its thing stands; next is the
// value it goes to, for those that go through several.
func Does(code string, on bool, next int) words.Text {
	switch code {
	case "tilt":
		return words.T("key.tilt", words.Args{"level": words.Flag(next == 0), "tilt": Degrees(next)})
	case "menu":
		return words.T([...]words.ID{"key.menu-close", "key.menu-craft", "key.menu-camera"}[min(max(next, 0), 2)])
	case "stick-mode":
		return words.T("key.stick-mode", words.Args{"n": words.Whole(next)})
	case "next-driver":
		switch next {
		case 1:
			return words.T("key.driver-demo")
		case 2:
			return words.T("key.driver-keys")
		}
		return words.T("key.driver-radio")
	}
	return words.Of("key", code, words.Args{"on": words.Flag(on)})
}

// SticksTitle heads the two sticks.
func SticksTitle(mode int) words.Text {
	return words.T("sheet.sticks", words.Args{"n": words.Whole(mode)})
}

// Corner names the side of the stick that arms, and the one that disarms.
func Corner(arms bool) words.Text {
	return words.T("sheet.corner", words.Args{"arms": words.Flag(arms)})
}

// Position is a position of a switch that is on or off.
func Position(on bool) words.Text { return words.T("sheet.position", words.Args{"on": words.Flag(on)}) }

// Gap is a position of the mode switch that no span of the craft file holds.
func Gap(mode words.Text) words.Text { return words.T("sheet.gap", words.Args{"mode": mode}) }

// SpanWords is a span as it stands beside a position. The ends of the pulse range are no ends.
func SpanWords(s layout.Span) words.Text {
	low, high := Exact(s.Low), Exact(s.High)
	switch {
	case s.Low <= pulse.Lowest && s.High >= pulse.Highest:
		return words.T("sheet.span-anywhere")
	case s.Low <= pulse.Lowest:
		return words.T("sheet.span-below", words.Args{"high": high})
	case s.High >= pulse.Highest:
		return words.T("sheet.span-from", words.Args{"low": low})
	}
	return words.T("sheet.span", words.Args{"low": low, "high": high})
}

// ChannelsTitle heads the channel values. made: the receiver makes them up while the radio is silent.
func ChannelsTitle(receiving, made bool) words.Text {
	switch {
	case made:
		return words.T("sheet.channels-made-up")
	case !receiving:
		return words.T("sheet.channels-unheard")
	}
	return words.T("sheet.channels")
}

// ChoiceTitle heads the radios to choose from.
func ChoiceTitle(n int) words.Text { return words.T("sheet.choice", words.Args{"n": words.Count(n)}) }

// BeingRead marks the radio that is being read.
func BeingRead(name string) words.Text {
	return words.T("sheet.being-read", words.Args{"name": words.Quote(name)})
}

// CraftTitle heads the drawings of the craft.
func CraftTitle(name string) words.Text {
	return words.T("sheet.craft", words.Args{"name": words.Quote(name)})
}

// CraftStands says how the craft stands and what hangs on it.
func CraftStands(s *sim.Snapshot) words.Text {
	c := &s.In.Craft
	tilt := words.Args{"tilt": Degrees(int(c.TiltTenths))}
	how := []words.Text{words.T("sheet.stands-level")}
	switch {
	case c.TiltTenths > 900:
		how[0] = words.T("sheet.stands-upside-down", tilt)
	case c.TiltTenths > 0:
		how[0] = words.T("sheet.stands-tilted", tilt)
	}
	if c.Cable {
		how = append(how, words.T("sheet.stands-cable"))
	}
	switch c.Menu {
	case pulse.MenuCraft:
		how = append(how, words.T("sheet.stands-menu"))
	case pulse.MenuCamera:
		how = append(how, words.T("sheet.stands-camera-menu"))
	}
	if !s.In.Powered {
		how = append(how, words.T("sheet.stands-no-power"))
	}
	return words.T("sheet.stands", words.Args{"how": words.Clauses(how...)})
}

// ViewFrom names a drawing of the craft: above, behind, side. Short leaves out what the place says already.
func ViewFrom(where string, short bool) words.Text {
	return words.Of("view", where, words.Args{"short": words.Flag(short)})
}

// RecordingTo is the tag of a sheet while a take is written; file is its name.
func RecordingTo(file string) words.Text {
	return words.T("sheet.recording", words.Args{"file": words.Quote(file)})
}

// AndMore counts what there is no room for, at the end of a list.
func AndMore(n int) words.Text { return words.T("sheet.more", words.Args{"n": words.Whole(n)}) }

// Unlisted counts what there is no room for above and below the rows of a list.
func Unlisted(above, below int) words.Text {
	switch {
	case above == 0:
		return words.T("sheet.unlisted-below", words.Args{"n": words.Whole(below)})
	case below == 0:
		return words.T("sheet.unlisted-above", words.Args{"n": words.Whole(above)})
	}
	return words.T("sheet.unlisted", words.Args{"above": words.Whole(above), "below": words.Whole(below)})
}
