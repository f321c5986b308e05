package tell

import (
	"strconv"

	"propsoff/assets/words"
	"propsoff/gestures"
	"propsoff/gestures/menu"
)

// GestureName and MenuName are what a person calls a gesture and a menu; those that ship are named in the reader's language.
func GestureName(p *gestures.Pattern) words.Text { return words.Shipped("gestures/"+p.Code, p.Name) }

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
