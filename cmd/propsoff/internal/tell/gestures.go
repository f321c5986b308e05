package tell

import (
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/gestures"
	"propsoff.example/gestures/menu"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
)

// GestureName is what a person calls a gesture; those that ship are named in the reader's language.
func GestureName(p *gestures.Pattern) words.Text { return words.Shipped("gestures/"+p.Code, p.Name) }

// MenuName is what a person calls a menu.
func MenuName(t *menu.Tree) words.Text { return words.Shipped("gestures/"+t.Code, t.Name) }

// jobZones are the messages of a zone by job.
var jobZones = [gestures.Directions][4]words.ID{
	gestures.Throttle: {"", "gesture.throttle-low", "gesture.throttle-middle", "gesture.throttle-high"},
	gestures.Roll:     {"", "gesture.roll-left", "gesture.roll-middle", "gesture.roll-right"},
	gestures.Pitch:    {"", "gesture.pitch-back", "gesture.pitch-middle", "gesture.pitch-forward"},
	gestures.Yaw:      {"", "gesture.yaw-left", "gesture.yaw-middle", "gesture.yaw-right"},
}

// GestureJobs says in half a sentence what each stick direction carries there, in a stick mode; directions that are free are left
// out.
func GestureJobs(p *gestures.Pattern, part int, mode uint8) words.Text {
	var all []words.Text
	for d, z := range p.JobZones(part, mode) {
		if z != gestures.Any {
			all = append(all, words.T(jobZones[d][z]))
		}
	}
	return words.Listed(all...)
}

// GestureTimes says how long a part is held, and within what time it must follow.
func GestureTimes(cfg *gestures.Config, p *gestures.Pattern, part int) words.Text {
	dwell, within := partTimes(cfg, p, part)
	if part > 0 {
		return words.T("gesture.within-hold-for", words.Args{"way": within, "time": dwell})
	}
	return words.T("gesture.hold-for", words.Args{"time": dwell})
}

func partTimes(cfg *gestures.Config, p *gestures.Pattern, part int) (dwell, within words.Text) {
	slot := int64(cfg.SlotTicks)
	return Seconds(int64(p.Parts[part].Dwell) * slot), Seconds(int64(p.Parts[part].Within) * slot)
}

// GestureRecipe says how a gesture is made, by the sticks of a stick mode; of a later step only what moves.
func GestureRecipe(cfg *gestures.Config, p *gestures.Pattern, mode uint8) words.Text {
	var steps []words.Text
	before := [gestures.Directions]gestures.Zone{}
	for i := range int(p.Count) {
		at := p.StickZones(i, mode)
		z := at
		dwell, within := partTimes(cfg, p, i)
		if i == 0 {
			steps = append(steps, words.T("gesture.begin", words.Args{"time": dwell, "stand": GestureStand(z)}))
			before = at
			continue
		}
		for stick := gestures.LeftAcross; stick <= gestures.RightAcross; stick += 2 {
			if at[stick] == before[stick] && at[stick+1] == before[stick+1] {
				z[stick], z[stick+1] = gestures.Any, gestures.Any
			}
		}
		if z == [gestures.Directions]gestures.Zone{} {
			z = at // the same stand once more
		}
		steps = append(steps, words.T("gesture.begin-then", words.Args{"way": within, "time": dwell, "stand": GestureStand(z)}))
		before = at
	}
	return words.Row(steps...)
}

// cornerMessages are what is said of one of the two arming corners, by what a gesture has to do with it.
type cornerMessages struct {
	touch                 func(gestures.CornerTouch) gestures.Touch
	inside, may, onTheWay words.ID
}

var bothCorners = [...]cornerMessages{
	{func(c gestures.CornerTouch) gestures.Touch { return c.Disarm }, "gesture.inside-disarms", "gesture.may-disarm", "gesture.way-disarms"},
	{func(c gestures.CornerTouch) gestures.Touch { return c.Arm }, "gesture.inside-arms", "gesture.may-arm", "gesture.way-arms"},
}

// cornerNotes say what a gesture has to do with the corners in which a craft is armed and disarmed by sticks, whatever the craft;
// none for nothing. Each is a sentence.
func cornerNotes(cfg *gestures.Config, n int, mode uint8) []words.Text {
	var out []words.Text
	p, whole := &cfg.Patterns[n], gestures.Corners(cfg, n, mode)
	for _, corner := range bothCorners {
		steps := map[gestures.Touch][]string{}
		for i := range int(p.Count) {
			touch := corner.touch(p.StandCorners(i, mode))
			steps[touch] = append(steps[touch], strconv.Itoa(i+1))
		}
		if in := steps[gestures.Inside]; in != nil {
			out = append(out, words.T(corner.inside, words.Args{"where": inSteps(in, p)}))
		}
		if in := steps[gestures.May]; in != nil {
			out = append(out, words.T(corner.may, words.Args{"where": inSteps(in, p)}))
		}
		if corner.touch(whole) == gestures.OnTheWay {
			out = append(out, words.T(corner.onTheWay))
		}
	}
	return out
}

// inSteps names steps of a gesture as a place to stay in: "in step 1"; "here" where they are all that it has.
func inSteps(steps []string, p *gestures.Pattern) words.Text {
	switch len(steps) {
	case int(p.Count):
		return words.T("gesture.here")
	case 1:
		return words.T("gesture.in-step", words.Args{"n": words.Quote(steps[0])})
	}
	return words.T("gesture.in-steps", words.Args{"steps": words.And(words.AsAre(steps...)...)})
}

// GestureDrawing draws both sticks of a part as they are seen, in a stick mode: five lines of text. A stick stands on one of the
// full dots; where a gesture leaves a stick free, its dots are hollow.
func GestureDrawing(p *gestures.Pattern, part int, mode uint8) []string {
	z := p.StickZones(part, mode)
	lines := make([]string, 5)
	for i := range 2 {
		across, height := z[2*i], z[2*i+1]
		mark := "●"
		if across == gestures.Any && height == gestures.Any {
			mark = "○"
		}
		gap := ""
		if i > 0 {
			gap = "   "
		}
		lines[0] += gap + "┌───────┐"
		lines[4] += gap + "└───────┘"
		for row, h := range []gestures.Zone{gestures.High, gestures.Middle, gestures.Low} {
			s := "│"
			for _, a := range []gestures.Zone{gestures.Low, gestures.Middle, gestures.High} {
				dot := "·"
				if (height == gestures.Any || height == h) && (across == gestures.Any || across == a) {
					dot = mark
				}
				s += " " + dot
			}
			lines[row+1] += gap + s + " │"
		}
	}
	return lines
}

// GestureText describes gesture n of a set in a stick mode, with drawings, for a terminal: lines, the first with its name. opens
// names the menu that it opens and says nothing for none.
func GestureText(cfg *gestures.Config, n int, mode uint8, opens words.Text) []words.Text {
	p := &cfg.Patterns[n]
	lines := []words.Text{words.Row(words.AsIs(p.Code+":"), GestureName(p))}
	for i := range int(p.Count) {
		beside := []words.Text{GestureStand(p.StickZones(i, mode)), GestureJobs(p, i, mode), GestureTimes(cfg, p, i)}
		if p.Count > 1 {
			of := words.T("gesture.step-of", words.Args{"n": words.Whole(i + 1), "all": words.Whole(p.Count)})
			beside = append([]words.Text{of}, beside...)
		}
		for k, line := range GestureDrawing(p, i, mode) {
			if line = "  " + line; k < len(beside) {
				lines = append(lines, words.Row(words.AsIs(line+"  "), beside[k]))
				continue
			}
			lines = append(lines, words.AsIs(line))
		}
	}
	indent := words.AsIs(" ")
	if !opens.Empty() {
		lines = append(lines, words.Row(indent, words.T("gesture.opens", words.Args{"menu": opens})))
	}
	for _, s := range cornerNotes(cfg, n, mode) {
		lines = append(lines, words.Row(indent, s))
	}
	return lines
}

// GestureList says above a list of gestures which stick mode it is drawn for, and of those that ship that a craft's own will differ.
func GestureList(mode uint8, count int, shipped bool) words.Text {
	if count == 0 {
		return words.T("gesture.list-none")
	}
	list := words.T("gesture.list", words.Args{"mode": words.Whole(mode)})
	if shipped {
		return words.Row(list, GestureYours(words.Text{}))
	}
	return list
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
