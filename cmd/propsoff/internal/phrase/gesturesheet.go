package phrase

import (
	"strconv"
	"strings"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/gestures"
	"propsoff/sim"
	"propsoff/sim/happening"
	"propsoff/sim/pulse"
)

// GesturesTitle heads the list of gestures, and names the file that they are from.
func GesturesTitle(file string, shipped bool) string {
	switch {
	case file == "":
		return "gestures"
	case shipped:
		return "gestures, from the shipped " + file
	}
	return "gestures, from " + file
}

// NoGestures stands where the craft has none; key records one, empty where it does not now.
func NoGestures(key string) string {
	none := "There are no gestures: the gesture file has none."
	if key == "" {
		return none
	}
	return none + " Press " + key + " to record one from your own hand."
}

// GestureScore says how often a gesture was made in this session, and how often it was nearly made.
func GestureScore(made, near int) string {
	switch {
	case made+near == 0:
		return "not tried"
	case near == 0:
		return "made " + count(made, "time")
	}
	return "made " + strconv.Itoa(made) + " of " + strconv.Itoa(made+near)
}

// GestureNears counts the near misses by their kind, in the order of happening.Near; empty for none.
func GestureNears(near [happening.NearCount]int) string {
	words := [happening.NearCount]string{happening.NearEarly: "let go too early", happening.NearCorner: "one stick not there", happening.NearOvershot: "went too far",
		happening.NearLate: "next part too late"}
	var all []string
	for i, n := range near {
		if n > 0 {
			all = append(all, words[i]+" "+strconv.Itoa(n))
		}
	}
	if len(all) == 0 {
		return ""
	}
	return "Near misses: " + list(all, "and") + "."
}

// GestureOf heads what there is to know of the gesture looked at.
func GestureOf() string { return "what it is" }

// GestureYours says that the shipped gestures are invented; key records one, empty where it does not now.
func GestureYours(key string) string {
	if key != "" {
		key = " (" + key + ")"
	}
	return "Yours will differ: record your own from your craft's manual" + key + "."
}

// GestureOpens says which menu a gesture opens; empty for none.
func GestureOpens(menu string, camera bool) string {
	switch {
	case menu == "":
		return "Opens no menu."
	case camera:
		return "Opens a menu of a camera: “" + menu + "”."
	}
	return "Opens a menu of the craft: “" + menu + "”."
}

// The words of a physical stick direction at its low end, in its middle and at its high end, by gestures.Zone: across and up.
var (
	acrossZones = [...]string{"any side", "left", "centre", "right"}
	uprightZone = [...]string{"any height", "down", "mid height", "up"}
)

// StickZone is where one physical stick direction is asked to stand; upright is its up and down.
func StickZone(upright bool, z gestures.Zone) string {
	if upright {
		return uprightZone[z]
	}
	return acrossZones[z]
}

// stickPlace says where one stick is to be: "down and to the left".
func stickPlace(across, up gestures.Zone) string {
	const any, mid = gestures.Any, gestures.Middle
	switch {
	case across == any && up == any:
		return "anywhere"
	case across == mid && up == mid:
		return "in the middle"
	case across == mid:
		return [...]string{"in the middle from side to side", "straight down", "", "straight up"}[up]
	case across == any:
		return [...]string{"", "down", "at mid height", "up"}[up]
	}
	side := "to the " + acrossZones[across]
	switch up {
	case any:
		return side
	case mid:
		return side + ", at mid height"
	}
	return uprightZone[up] + " and " + side
}

// GestureStand says where both sticks are to be, by physical stick: left across, left up, right across, right up.
func GestureStand(z [gestures.Directions]gestures.Zone) string {
	left, right := stickPlace(z[gestures.LeftAcross], z[gestures.LeftUp]), stickPlace(z[gestures.RightAcross], z[gestures.RightUp])
	switch {
	case left == "anywhere":
		return "right stick " + right
	case right == "anywhere":
		return "left stick " + left
	}
	return "left stick " + left + "; right stick " + right
}

// GestureGiven says whether a pattern is given by stick or by job, and by job what each of its directions carries.
func GestureGiven(p *gestures.Pattern, mode uint8) string {
	if p.Physical {
		return "Given by stick: the same sticks in every stick mode."
	}
	var all []string
	for i := range int(p.Count) {
		all = append(all, GestureJobs(p, i, mode))
	}
	return "Given by job: " + strings.Join(all, "; then ") + "."
}

// GestureStep heads one step of a chain: its number, how long it is held, and how long the way to it may take.
func GestureStep(cfg *gestures.Config, p *gestures.Pattern, i int) string {
	s := GestureTimes(cfg, p, i)
	if p.Count > 1 {
		s = "step " + strconv.Itoa(i+1) + ": " + s
	}
	return s
}

// StickMove says which way one physical stick direction must go still; empty where it is in its place.
func StickMove(upright bool, at gestures.Place) string {
	if at.In {
		return ""
	}
	way, off := "to the right", at.Off
	switch {
	case upright && off > 0:
		way = "up"
	case upright:
		way = "down"
	case off < 0:
		way = "to the left"
	}
	if at.Zone == gestures.Middle {
		way += ", to the middle"
	}
	switch off = max(off, -off); { // shares of travel, ours
	case off <= pulse.Travel*3/20:
		return "a little more " + way
	case off <= pulse.Travel*2/5:
		return "more " + way
	}
	return way
}

// StickName names a physical stick: 0 the left one, 1 the right one.
func StickName(stick int) string { return [2]string{"left stick", "right stick"}[stick] }

// GestureMissing says what is missing now, of one physical direction: left across, left up, right across, right up.
func GestureMissing(direction int, at gestures.Place) string {
	return capital(StickName(direction/2)) + ": " + StickMove(direction%2 == 1, at) + "."
}

// GestureHold says how long a part has been held, of how long.
func GestureHold(held, of int64) string {
	return "Hold it: " + tenthsOf(held) + " of " + tenthsOf(of) + "."
}

// GestureNext says what comes after a part that is made. left is how many ms are left for it, −1 where none run yet.
func GestureNext(stand string, left int64) string {
	if left >= 0 {
		return "Now, within " + tenthsOf(left) + ": " + stand + "."
	}
	return "Now " + stand + "."
}

// GestureBegin tells someone whose sticks are elsewhere what to do.
func GestureBegin(stand string, dwell int64) string {
	return "Hold for " + Seconds(dwell) + ": " + stand + "."
}

// GestureRelease tells someone whose sticks stand in the pattern that they must leave it before it counts; made: it was made by this stand.
func GestureRelease(made bool) string {
	if made {
		return "Made. Let go first: the sticks must leave it before it can be made again."
	}
	return "Let go first: the sticks stand in it already, and must come into it anew."
}

// GestureReleaseNext tells someone whose sticks stand in the next step of a chain before its turn.
func GestureReleaseNext() string {
	return "Let go first: the sticks stand in the next step already, and must come into it anew."
}

// GestureStepShort heads a step where there is room for little.
func GestureStepShort(i int) string { return "step " + strconv.Itoa(i+1) }

// ShortSeconds is a time in tenths of a second.
func ShortSeconds(ms int64) string { return tenthsOf(ms) }

// GestureTime is the time that a try has taken so far; negative while there is none.
func GestureTime(ms int64) string {
	if ms < 0 {
		return "sticks at rest"
	}
	return "under way for " + tenthsOf(ms)
}

// GestureMade is the verdict on a gesture that was made.
func GestureMade(ms int64) string { return "Made in " + tenthsOf(ms) + "." }

// GestureOther says that another gesture was made than the one looked at.
func GestureOther(name string) string { return "Another one was made: " + name + "." }

// GestureMissed is the verdict on a near miss; direction is in the pattern's own order, early how much too early it was let go in
// ms, 0 where that is not known.
func GestureMissed(p *gestures.Pattern, how happening.Near, direction int, mode uint8, early int64) string {
	control := GestureControl(p, direction, mode)
	switch how {
	case happening.NearEarly:
		if early > 0 {
			return "Let go " + tenthsOf(early) + " early."
		}
		return "Let go too early."
	case happening.NearCorner:
		return capital(control) + " did not get there."
	case happening.NearOvershot:
		return capital(control) + " went too far."
	case happening.NearLate:
		return "The next step came too late."
	}
	return ""
}

// GestureControl names one direction of a pattern as a person finds it: "yaw (left stick, across)".
func GestureControl(p *gestures.Pattern, direction int, mode uint8) string {
	at := direction & 3
	name := ""
	if !p.Physical {
		name = jobDirections[at]
		for i, job := range gestures.OnSticks(mode) {
			if int(job) == at {
				at = i
				break
			}
		}
	}
	side := StickName(at/2) + ", " + [2]string{"across", "up and down"}[at%2]
	if name == "" {
		return side
	}
	return name + " (" + side + ")"
}

// GestureLast heads the verdict on the last try.
func GestureLast() string { return "last try" }

// NoTryYet stands in its place before the first one.
func NoTryYet() string { return "No try yet." }

// GesturesBlocked says why gestures do not count now; empty where they do. menu is the name of the open menu, key that which
// closes it.
func GesturesBlocked(f *facts.Facts, menu, key string) string {
	const no = "Gestures do not count now: "
	s := &f.Snap
	switch {
	case f.Hearing == facts.NoPower:
		return no + "the craft has no power."
	case s.Armed && f.Disarm[facts.ByHand].OK:
		return no + "the craft is armed. Disarm first."
	case s.Armed:
		return no + "the craft is armed."
	case !f.Reaches():
		return no + "nothing of the radio's reaches the craft. " + silentNow(f) + "."
	case s.Link == facts.Fresh:
		return no + "the link is back and must stay clean a moment longer."
	case s.Link != facts.Good:
		return no + "there is no link."
	case menu != "" && key != "":
		return no + "the menu “" + menu + "” is open. Leave it by the sticks, or press " + key + "."
	case menu != "":
		return no + "the menu “" + menu + "” is open."
	case s.In.Craft.Menu != pulse.MenuClosed && key != "":
		return no + "a menu is open. Press " + key + " to close it."
	case s.In.Craft.Menu != pulse.MenuClosed:
		return no + "a menu is open."
	}
	return ""
}

// CornerFacts says what a gesture has to do with the corners in which this craft is armed and disarmed by sticks.
func CornerFacts(cfg *sim.Config, p *gestures.Config, n int, mode uint8) []string {
	if !facts.BySticks(cfg) {
		return []string{"This craft arms by its switch: no corner of the sticks arms or disarms it."}
	}
	if all := cornerNotes(p, n, mode); len(all) > 0 {
		return all
	}
	return []string{"It comes near neither of the two corners in which this craft is armed and disarmed."}
}

// GestureInside says which other gestures the sticks stand in too when they stand in this one.
func GestureInside(cfg *gestures.Config, n int, mode uint8) []string {
	var all []string
	for k := range cfg.Patterns {
		other := &cfg.Patterns[k]
		if k == n || other.Count == 0 {
			continue
		}
		in, out := gestures.Contains(cfg, n, k, mode), gestures.Contains(cfg, k, n, mode)
		switch {
		case in && out:
			all = append(all, "Ends where “"+other.Name+"” ends.")
		case in:
			all = append(all, "Asks for all of “"+other.Name+"” and more: that one waits while you are in this.")
		case out:
			all = append(all, "“"+other.Name+"” asks for all of this and more: in that one this waits.")
		}
	}
	return all
}

// CornerNow says what the corner in which the sticks stand now does; empty where nothing of the sticks reaches the craft, or it does
// nothing. arms: it is the arm corner.
func CornerNow(f *facts.Facts, arms bool) string {
	s := &f.Snap
	switch {
	case f.Hearing != facts.TheRadio, !arms && s.Armed && f.Tried && !f.Disarm[facts.ByHand].OK:
		return ""
	case arms && s.Armed:
		return "This is the arm corner; the craft is armed already."
	case arms:
		return "This is the arm corner: where nothing refuses, staying here also arms."
	case s.Armed:
		return "This is the disarm corner: staying here also disarms."
	}
	return "This is the disarm corner too: of an armed craft, staying here also disarms."
}

// tenthsOf is a time in ms in tenths of a second, rounded to the nearest.
func tenthsOf(ms int64) string {
	t := (ms + 50) / 100
	return strconv.FormatInt(t/10, 10) + "." + strconv.FormatInt(t%10, 10) + " s"
}
