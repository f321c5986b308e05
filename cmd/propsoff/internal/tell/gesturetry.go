package tell

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/gestures"
	"propsoff/sim/happening"
	"propsoff/sim/pulse"
)

// StickMove says which way one physical stick direction must go still; it says nothing where it is in its place.
func StickMove(upright bool, at gestures.Place) words.Text {
	if at.In {
		return words.Text{}
	}
	way, off := words.T("gesture.way-right"), at.Off
	switch {
	case upright && off > 0:
		way = words.T("gesture.way-up")
	case upright:
		way = words.T("gesture.way-down")
	case off < 0:
		way = words.T("gesture.way-left")
	}
	args := words.Args{"way": way, "middle": words.Flag(at.Zone == gestures.Middle)}
	switch off = max(off, -off); { // shares of travel, ours
	case off <= pulse.Travel*3/20:
		return words.T("gesture.move-little", args)
	case off <= pulse.Travel*2/5:
		return words.T("gesture.move-more", args)
	}
	return words.T("gesture.move", args)
}

// GestureMissing says what is missing now, of one physical direction: left across, left up, right across, right up.
func GestureMissing(direction int, at gestures.Place) words.Text {
	return words.T("gesture.missing", words.Args{"stick": StickName(direction / 2), "move": StickMove(direction%2 == 1, at)})
}

// GestureHold says how long a part has been held, of how long.
func GestureHold(held, of int64) words.Text {
	return words.T("gesture.held", words.Args{"held": ShortSeconds(held), "of": ShortSeconds(of)})
}

// GestureNext says what comes after a part that is made. left is how many ms are left for it, −1 where none run yet.
func GestureNext(stand words.Text, left int64) words.Text {
	if left >= 0 {
		return words.T("gesture.next-within", words.Args{"left": ShortSeconds(left), "stand": stand})
	}
	return words.T("gesture.next", words.Args{"stand": stand})
}

// GestureBegin tells someone whose sticks are elsewhere what to do.
func GestureBegin(stand words.Text, dwell int64) words.Text {
	return words.T("gesture.begin", words.Args{"time": Seconds(dwell), "stand": stand})
}

// GestureRelease tells someone whose sticks stand in the pattern that they must leave it before it counts; made: it was made by this stand.
func GestureRelease(made bool) words.Text {
	if made {
		return words.T("gesture.release-made")
	}
	return words.T("gesture.release")
}

// GestureStepShort heads a step where there is room for little.
func GestureStepShort(i int) words.Text {
	return words.T("gesture.step", words.Args{"n": words.Whole(i + 1)})
}

// ShortSeconds is a time in ms in tenths of a second, rounded to the nearest: "1.0 s".
func ShortSeconds(ms int64) words.Text {
	return unit("seconds", words.Fixed{N: (ms + 50) / 100, Places: 1, Least: 1})
}

// GestureTime is the time that a try has taken so far; negative while there is none.
func GestureTime(ms int64) words.Text {
	if ms < 0 {
		return words.T("gesture.at-rest")
	}
	return words.T("gesture.under-way", words.Args{"time": ShortSeconds(ms)})
}

// GestureMade is the verdict on a gesture that was made.
func GestureMade(ms int64) words.Text {
	return words.T("gesture.made-in", words.Args{"time": ShortSeconds(ms)})
}

// GestureOther says that another gesture was made than the one looked at.
func GestureOther(name words.Text) words.Text {
	return words.T("gesture.other-made", words.Args{"name": name})
}

// GestureMissed is the verdict on a near miss; direction is in the pattern's own order, early how much too early it was let go in
// ms, 0 where that is not known.
func GestureMissed(p *gestures.Pattern, how happening.Near, direction int, mode uint8, early int64) words.Text {
	control := words.Args{"control": GestureControl(p, direction, mode)}
	switch how {
	case happening.NearEarly:
		if early > 0 {
			return words.T("gesture.missed-early-by", words.Args{"time": ShortSeconds(early)})
		}
		return words.T("gesture.missed-early")
	case happening.NearCorner:
		return words.T("gesture.missed-corner", control)
	case happening.NearOvershot:
		return words.T("gesture.missed-overshot", control)
	case happening.NearLate:
		return words.T("gesture.missed-late")
	}
	return words.Text{}
}

// physicalDirections are the messages of physical directions: left across, left up, right across, right up.
var physicalDirections = [gestures.Directions]words.ID{"gesture.left-across", "gesture.left-upright", "gesture.right-across", "gesture.right-upright"}

// GestureControl names one direction of a pattern as a person finds it: "yaw (left stick, across)".
func GestureControl(p *gestures.Pattern, direction int, mode uint8) words.Text {
	at := direction & 3
	if p.Physical {
		return words.T(physicalDirections[at])
	}
	for i, job := range gestures.OnSticks(mode) {
		if int(job) == at {
			return words.T("gesture.control", words.Args{"job": JobDirection(at), "stick": words.T(physicalDirections[i])})
		}
	}
	return JobDirection(at)
}

// GesturesBlocked says why gestures do not count now, and nothing where they do. menu is the name of the open menu, key that which
// closes it.
func GesturesBlocked(f *facts.Facts, menu, key words.Text) words.Text {
	s := &f.Snap
	switch {
	case f.Hearing == facts.NoPower:
		return words.T("gesture.blocked-power")
	case s.Armed && f.Disarm[facts.ByHand].OK:
		return words.T("gesture.blocked-armed-disarm")
	case s.Armed:
		return words.T("gesture.blocked-armed")
	case !f.Reaches() && f.Silent == facts.Unplugged:
		return words.T("gesture.blocked-unplugged")
	case !f.Reaches() && f.Silent == facts.SwitchedOff:
		return words.T("gesture.blocked-off")
	case !f.Reaches():
		return words.T("gesture.blocked-silent")
	case s.Link == facts.Fresh:
		return words.T("gesture.blocked-fresh")
	case s.Link != facts.Good:
		return words.T("gesture.blocked-link")
	case !menu.Empty() && !key.Empty():
		return words.T("gesture.blocked-menu-leave", words.Args{"menu": menu, "key": key})
	case !menu.Empty():
		return words.T("gesture.blocked-menu", words.Args{"menu": menu})
	case s.In.Craft.Menu != pulse.MenuClosed && !key.Empty():
		return words.T("gesture.blocked-some-menu-close", words.Args{"key": key})
	case s.In.Craft.Menu != pulse.MenuClosed:
		return words.T("gesture.blocked-some-menu")
	}
	return words.Text{}
}

// CornerNow says what the corner in which the sticks stand now does; it says nothing where nothing of the sticks reaches the craft, or the
// corner does nothing. arms: it is the arm corner.
func CornerNow(f *facts.Facts, arms bool) words.Text {
	s := &f.Snap
	switch {
	case f.Hearing != facts.TheRadio, !arms && s.Armed && f.Tried && !f.Disarm[facts.ByHand].OK:
		return words.Text{}
	case arms && s.Armed:
		return words.T("gesture.arm-corner-armed")
	case arms:
		return words.T("gesture.arm-corner")
	case s.Armed:
		return words.T("gesture.disarm-corner-armed")
	}
	return words.T("gesture.disarm-corner")
}
