package phrase

import (
	"strconv"
	"strings"

	"propsoff/gestures"
)

// jobZones are the words of a zone by job.
var jobZones = [gestures.Directions][4]string{
	gestures.Throttle: {"", "low", "in the middle", "high"},
	gestures.Roll:     {"", "left", "in the middle", "right"},
	gestures.Pitch:    {"", "back", "in the middle", "forward"},
	gestures.Yaw:      {"", "left", "in the middle", "right"},
}

// GestureJobs says in half a sentence what each stick direction carries there, in a stick mode; directions that are free are left
// out.
func GestureJobs(p *gestures.Pattern, part int, mode uint8) string {
	var all []string
	for d, z := range p.JobZones(part, mode) {
		if z != gestures.Any {
			all = append(all, jobDirections[d]+" "+jobZones[d][z])
		}
	}
	return strings.Join(all, ", ")
}

// GestureTimes says how long a part is held, and within what time it must follow.
func GestureTimes(cfg *gestures.Config, p *gestures.Pattern, part int) string {
	ms := func(slots uint16) string { return millis(int(slots) * int(cfg.SlotTicks)) }
	s := "hold for " + ms(p.Parts[part].Dwell)
	if part > 0 {
		s = "within " + ms(p.Parts[part].Within) + ", " + s
	}
	return s
}

// millis writes a time as seconds without noughts at its end: "0.6 s".
func millis(ms int) string {
	s := strconv.Itoa(ms / 1000)
	if part := strings.TrimRight(strconv.Itoa(1000 + ms%1000)[1:], "0"); part != "" {
		s += "." + part
	}
	return s + " s"
}

// cornerNotes say what a gesture has to do with the corners in which a craft is armed and disarmed by sticks, whatever the craft;
// none for nothing. Each is a sentence.
func cornerNotes(cfg *gestures.Config, n int, mode uint8) []string {
	var out []string
	p, whole := &cfg.Patterns[n], gestures.Corners(cfg, n, mode)
	for _, corner := range []struct {
		touch      func(gestures.CornerTouch) gestures.Touch
		does, side string
	}{
		{func(c gestures.CornerTouch) gestures.Touch { return c.Disarm }, "disarms", "left"},
		{func(c gestures.CornerTouch) gestures.Touch { return c.Arm }, "arms", "right"},
	} {
		steps := map[gestures.Touch][]int{}
		for i := range int(p.Count) {
			touch := corner.touch(p.StandCorners(i, mode))
			steps[touch] = append(steps[touch], i+1)
		}
		if in := steps[gestures.Inside]; in != nil {
			out = append(out, "Staying "+inSteps(in, p)+" also "+corner.does+" a craft that is armed by sticks (throttle low, yaw fully "+corner.side+").")
		}
		if in := steps[gestures.May]; in != nil {
			out = append(out, "With the throttle low and yaw fully "+corner.side+", which this gesture leaves free, staying "+inSteps(in, p)+" also "+corner.does+" a craft that is armed by sticks.")
		}
		if corner.touch(whole) == gestures.OnTheWay {
			out = append(out, "On the way there or back the sticks may pass the corner that "+corner.does+" by sticks (throttle low, yaw fully "+corner.side+"): do not stop in it.")
		}
	}
	return out
}

// inSteps names steps of a gesture as a place to stay in: "in step 1"; "here" where they are all that it has.
func inSteps(steps []int, p *gestures.Pattern) string {
	var all []string
	for _, n := range steps {
		all = append(all, strconv.Itoa(n))
	}
	switch len(all) {
	case int(p.Count):
		return "here"
	case 1:
		return "in step " + all[0]
	}
	return "in steps " + list(all, "and")
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
// names the menu that it opens, empty for none.
func GestureText(cfg *gestures.Config, n int, mode uint8, opens string) []string {
	p := &cfg.Patterns[n]
	lines := []string{p.Code + ": " + p.Name}
	for i := range int(p.Count) {
		words := []string{GestureStand(p.StickZones(i, mode)), GestureJobs(p, i, mode), GestureTimes(cfg, p, i)}
		if p.Count > 1 {
			words = append([]string{"step " + strconv.Itoa(i+1) + " of " + strconv.Itoa(int(p.Count))}, words...)
		}
		for k, line := range GestureDrawing(p, i, mode) {
			s := "  " + line
			if k < len(words) {
				s += "   " + words[k]
			}
			lines = append(lines, s)
		}
	}
	if opens != "" {
		lines = append(lines, "  Opens the menu “"+opens+"”.")
	}
	for _, s := range cornerNotes(cfg, n, mode) {
		lines = append(lines, "  "+s)
	}
	return lines
}

// GestureList says above a list of gestures which stick mode it is drawn for, and of those that ship that a craft's own will differ.
func GestureList(mode uint8, count int, shipped bool) string {
	if count == 0 {
		return "This file has no gestures."
	}
	s := "Two-stick gestures as the sticks stand in stick mode " + strconv.Itoa(int(mode)) + ", while the craft is disarmed and its link is good."
	if shipped {
		s += " " + GestureYours("")
	}
	return s
}

// Touch is the code word of what a gesture has to do with an arming corner.
func Touch(t gestures.Touch) string {
	return [...]string{"apart", "on-the-way", "may", "inside"}[t]
}

// ZoneWord is the code word of a zone.
func ZoneWord(z gestures.Zone) string { return [...]string{"any", "low", "middle", "high"}[z] }
