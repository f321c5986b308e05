package tell

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/gestures"
	"propsoff/sim"
	"propsoff/sim/happening"
)

// GesturesTitle heads the list of gestures, and names the file that they are from.
func GesturesTitle(file string, shipped bool) words.Text {
	switch {
	case file == "":
		return words.T("gesture.title")
	case shipped:
		return words.T("gesture.title-shipped", words.Args{"file": words.Quote(file)})
	}
	return words.T("gesture.title-own", words.Args{"file": words.Quote(file)})
}

// NoGestures stands where the craft has none; key records one, empty where it does not now.
func NoGestures(key words.Text) words.Text {
	if key.Empty() {
		return words.T("gesture.none")
	}
	return words.T("gesture.none-record", words.Args{"key": key})
}

// GestureScore says how often a gesture was made in this session, and how often it was nearly made.
func GestureScore(made, near int) words.Text {
	switch {
	case made+near == 0:
		return words.T("gesture.not-tried")
	case near == 0:
		return words.T("gesture.made-times", words.Args{"n": words.Count(made)})
	}
	return words.T("gesture.made-of", words.Args{"made": words.Whole(made), "tries": words.Whole(made + near)})
}

var nearKinds = [happening.NearCount]words.ID{happening.NearEarly: "gesture.nears-early", happening.NearCorner: "gesture.nears-corner",
	happening.NearOvershot: "gesture.nears-overshot", happening.NearLate: "gesture.nears-late"}

// GestureNears counts the near misses by their kind, in the order of happening.Near; it says nothing for none.
func GestureNears(near [happening.NearCount]int) words.Text {
	var all []words.Text
	for i, n := range near {
		if n > 0 {
			all = append(all, words.T(nearKinds[i], words.Args{"n": words.Whole(n)}))
		}
	}
	if len(all) == 0 {
		return words.Text{}
	}
	return words.T("gesture.nears", words.Args{"all": words.And(all...)})
}

// GestureYours says that the shipped gestures are invented; key records one, empty where it does not now.
func GestureYours(key words.Text) words.Text {
	return words.T("gesture.yours", words.Args{"key": key})
}

// GestureOpens says which menu a gesture opens; menu says nothing for none.
func GestureOpens(menu words.Text, camera bool) words.Text {
	switch {
	case menu.Empty():
		return words.T("gesture.opens-none")
	case camera:
		return words.T("gesture.opens-camera", words.Args{"menu": menu})
	}
	return words.T("gesture.opens-craft", words.Args{"menu": menu})
}

// The messages of a physical stick direction at its low end, in its middle and at its high end, by gestures.Zone: across and up.
var (
	acrossZones  = [...]words.ID{"gesture.any-side", "gesture.left", "gesture.centre", "gesture.right"}
	uprightZones = [...]words.ID{"gesture.any-height", "gesture.down", "gesture.mid-height", "gesture.up"}
)

// StickZone is where one physical stick direction is asked to stand; upright is its up and down.
func StickZone(upright bool, z gestures.Zone) words.Text {
	if upright {
		return words.T(uprightZones[z])
	}
	return words.T(acrossZones[z])
}

// stickPlaces are the messages of where one stick is to be, by its zone across and then up: "down and to the left".
var stickPlaces = [...][4]words.ID{
	gestures.Any:    {"gesture.place-anywhere", "gesture.place-down", "gesture.place-mid-height", "gesture.place-up"},
	gestures.Low:    {"gesture.place-left", "gesture.place-down-left", "gesture.place-mid-left", "gesture.place-up-left"},
	gestures.Middle: {"gesture.place-across-middle", "gesture.place-straight-down", "gesture.place-middle", "gesture.place-straight-up"},
	gestures.High:   {"gesture.place-right", "gesture.place-down-right", "gesture.place-mid-right", "gesture.place-up-right"},
}

// GestureStand says where both sticks are to be, by physical stick: left across, left up, right across, right up.
func GestureStand(z [gestures.Directions]gestures.Zone) words.Text {
	const free = gestures.Any
	right := words.T("gesture.stand-right", words.Args{"place": words.T(stickPlaces[z[gestures.RightAcross]][z[gestures.RightUp]])})
	if z[gestures.LeftAcross] == free && z[gestures.LeftUp] == free {
		return right
	}
	left := words.T("gesture.stand-left", words.Args{"place": words.T(stickPlaces[z[gestures.LeftAcross]][z[gestures.LeftUp]])})
	if z[gestures.RightAcross] == free && z[gestures.RightUp] == free {
		return left
	}
	return words.Clauses(left, right)
}

// GestureGiven says whether a pattern is given by stick or by job, and by job what each of its directions carries.
func GestureGiven(p *gestures.Pattern, mode uint8) words.Text {
	if p.Physical {
		return words.T("gesture.by-stick")
	}
	stands := GestureJobs(p, 0, mode)
	for i := 1; i < int(p.Count); i++ {
		stands = words.T("gesture.then", words.Args{"a": stands, "b": GestureJobs(p, i, mode)})
	}
	return words.T("gesture.by-job", words.Args{"stands": stands})
}

// GestureStep heads one step of a chain: its number, how long it is held, and how long the way to it may take.
func GestureStep(cfg *gestures.Config, p *gestures.Pattern, i int) words.Text {
	times := GestureTimes(cfg, p, i)
	if p.Count > 1 {
		return words.T("gesture.step-times", words.Args{"n": words.Whole(i + 1), "times": times})
	}
	return times
}

// StickName names a physical stick: 0 the left one, 1 the right one.
func StickName(stick int) words.Text {
	return words.T([2]words.ID{"gesture.stick-left", "gesture.stick-right"}[stick])
}

// CornerFacts says what a gesture has to do with the corners in which this craft is armed and disarmed by sticks.
func CornerFacts(cfg *sim.Config, p *gestures.Config, n int, mode uint8) []words.Text {
	if !facts.BySticks(cfg) {
		return []words.Text{words.T("gesture.corners-none")}
	}
	if all := cornerNotes(p, n, mode); len(all) > 0 {
		return all
	}
	return []words.Text{words.T("gesture.corners-apart")}
}

// GestureInside says which other gestures the sticks stand in too when they stand in this one.
func GestureInside(cfg *gestures.Config, n int, mode uint8) []words.Text {
	var all []words.Text
	for k := range cfg.Patterns {
		other := &cfg.Patterns[k]
		if k == n || other.Count == 0 {
			continue
		}
		name := words.Args{"other": GestureName(other)}
		in, out := gestures.Contains(cfg, n, k, mode), gestures.Contains(cfg, k, n, mode)
		switch {
		case in && out:
			all = append(all, words.T("gesture.ends-with", name))
		case in:
			all = append(all, words.T("gesture.asks-more", name))
		case out:
			all = append(all, words.T("gesture.asks-less", name))
		}
	}
	return all
}
