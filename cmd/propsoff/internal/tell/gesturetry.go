package tell

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/gestures"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
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

// GestureNext says what comes after a part that is made. left is how many ms are left for it, −1 where none run yet.
func GestureNext(stand words.Text, left int64) words.Text {
	within := words.Text{}
	if left >= 0 {
		within = ShortSeconds(left)
	}
	return words.T("gesture.next", words.Args{"left": within, "stand": stand})
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

// missedBy are the messages of the ways in which a gesture is nearly made.
var missedBy = [happening.NearCount]words.ID{happening.NearEarly: "gesture.missed-early", happening.NearCorner: "gesture.missed-corner",
	happening.NearOvershot: "gesture.missed-overshot", happening.NearLate: "gesture.missed-late"}

// GestureMissed is the verdict on a near miss; direction is in the pattern's own order, early how much too early it was let go in
// ms, 0 where that is not known.
func GestureMissed(p *gestures.Pattern, how happening.Near, direction int, mode uint8, early int64) words.Text {
	time := words.Text{}
	if early > 0 {
		time = ShortSeconds(early)
	}
	return words.T(missedBy[how], words.Args{"control": GestureControl(p, direction, mode), "time": time})
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
	case s.Armed:
		return words.T("gesture.blocked-armed", words.Args{"disarm": words.Flag(f.Disarm[facts.ByHand].OK)})
	case !f.Reaches():
		return words.T("gesture.blocked-silent", words.Args{"unplugged": words.Flag(f.Silent == facts.Unplugged), "off": words.Flag(f.Silent == facts.SwitchedOff)})
	case s.Link == facts.Fresh:
		return words.T("gesture.blocked-fresh")
	case s.Link != facts.Good:
		return words.T("gesture.blocked-link")
	case !menu.Empty(), s.In.Craft.Menu != pulse.MenuClosed:
		return words.T("gesture.blocked-menu", words.Args{"menu": menu, "key": key})
	}
	return words.Text{}
}

// CornerNow says what the corner in which the sticks stand now does; it says nothing where nothing of the sticks reaches the craft, or the
// corner does nothing. arms: it is the arm corner.
func CornerNow(f *facts.Facts, arms bool) words.Text {
	armed := f.Snap.Armed
	if f.Hearing != facts.TheRadio || !arms && armed && f.Tried && !f.Disarm[facts.ByHand].OK {
		return words.Text{}
	}
	return words.T("gesture.corner-now", words.Args{"arms": words.Flag(arms), "armed": words.Flag(armed)})
}

// RecordVerdict says what came of a recording.
func RecordVerdict(v gestures.Verdict, p *gestures.Pattern, mode uint8) words.Text {
	switch v.Recording {
	case gestures.Recorded:
		return words.T("gesture.recorded", words.Args{"n": words.Count(p.Count)})
	case gestures.NothingHeld:
		return words.T("gesture.nothing-held")
	case gestures.StoodBetween:
		return words.T("gesture.stood-between", words.Args{"control": GestureControl(p, int(v.Direction), mode)})
	case gestures.TooManyParts:
		return words.T("gesture.too-many")
	}
	return words.Text{}
}
