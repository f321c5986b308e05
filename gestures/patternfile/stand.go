package patternfile

import (
	"slices"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/gestures"
)

// The words of a stand by job: low end, middle, high end.
var jobWords = [gestures.Directions]struct {
	job   string
	zones [4]string // by gestures.Zone
}{
	gestures.Throttle: {"throttle", [4]string{"any", "low", "middle", "high"}},
	gestures.Roll:     {"roll", [4]string{"any", "left", "middle", "right"}},
	gestures.Pitch:    {"pitch", [4]string{"any", "back", "middle", "forward"}},
	gestures.Yaw:      {"yaw", [4]string{"any", "left", "middle", "right"}},
}

// The words of a physical stick, by gestures.Zone: how high it is, and where across.
var (
	heightWords = [4]string{"any-height", "down", "mid-height", "up"}
	acrossWords = [4]string{"any-side", "left", "centre", "right"}
	sticks      = [2]string{"left", "right"}
)

// readStand reads where the sticks stand: by job, or by physical stick.
func readStand(n yamldoc.Node, z *[gestures.Directions]gestures.Zone) (physical, ok bool) {
	if !n.Exists() {
		return false, false
	}
	m := n.Map("gesture-file.stand")
	if !n.IsMap() {
		return false, false
	}
	byJob, read := false, 0
	for d, w := range jobWords {
		v, there := m.Field(w.job)
		byJob = byJob || there
		if word, ok := v.Word(w.zones[1], w.zones[2], w.zones[3], w.zones[0]); ok {
			z[d] = gestures.Zone(slices.Index(w.zones[:], word))
			read++
		} else if !there && (w.job == "roll" || w.job == "yaw") {
			z[d] = unnamed
		}
	}
	var left, right yamldoc.Node
	left, physical = m.Field(sticks[0])
	if v, there := m.Field(sticks[1]); there {
		right, physical = v, true
	}
	m.Done()
	switch {
	case physical && byJob:
		n.Wrong("gesture-file.job-and-stick")
		return false, false
	case physical:
		*z = [gestures.Directions]gestures.Zone{}
		for i, one := range []yamldoc.Node{left, right} {
			if readStick(one, &z[2*i], &z[2*i+1]) {
				read++
			}
		}
	default:
		high := z[gestures.Throttle] != gestures.Any || z[gestures.Pitch] != gestures.Any
		for d := range z {
			if z[d] == unnamed {
				z[d] = gestures.Any
				if high {
					z[d] = gestures.Middle
				}
			}
		}
	}
	if read < m.Len() { // a fault has been noted
		return physical, false
	}
	if *z == [gestures.Directions]gestures.Zone{} {
		n.Wrong("gesture-file.asks-nothing")
		return physical, false
	}
	return physical, true
}

// unnamed marks a direction that a stand does not name, while the stand is read.
const unnamed gestures.Zone = 255

// readStick reads where a physical stick stands: how high, where across, or both. It reports whether that can be read.
func readStick(n yamldoc.Node, across, height *gestures.Zone) bool {
	text, ok := n.Text()
	if !ok {
		return false
	}
	if text == "middle" {
		*across, *height = gestures.Middle, gestures.Middle
		return true
	}
	seenHeight, seenAcross := false, false
	for w := range strings.FieldsSeq(text) {
		h, a := slices.Index(heightWords[:], w), slices.Index(acrossWords[:], w)
		switch {
		case h >= 0 && !seenHeight:
			*height, seenHeight = gestures.Zone(h), true
		case a >= 0 && !seenAcross:
			*across, seenAcross = gestures.Zone(a), true
		case h >= 0 || a >= 0:
			n.Wrong("gesture-file.place-twice", words.Args{"text": words.Typed(text)})
			return false
		default:
			known := slices.Concat(heightWords[1:], heightWords[:1], acrossWords[1:], acrossWords[:1])
			near, _ := yamldoc.Near(w, known)
			n.Wrong("gesture-file.no-place", words.Args{"word": words.Typed(w), "near": words.Quote(near)})
			return false
		}
	}
	if seenHeight && *height != gestures.Any && !seenAcross {
		*across = gestures.Middle
	}
	return true
}

// atRest reports whether sticks that nobody touches stand in a part, in any stick mode: throttle low, all else in the middle.
func atRest(physical bool, z [gestures.Directions]gestures.Zone) bool {
	rest := [gestures.Directions]gestures.Zone{gestures.Throttle: gestures.Low, gestures.Roll: gestures.Middle, gestures.Pitch: gestures.Middle, gestures.Yaw: gestures.Middle}
	for mode := uint8(1); mode <= 4; mode++ {
		here := true
		for d, job := range gestures.OnSticks(mode) {
			zone := z[job]
			if physical {
				zone = z[d]
			}
			here = here && (zone == gestures.Any || zone == rest[job])
		}
		if here {
			return true
		}
	}
	return false
}

// standWords gives a stand as readStand reads it: pairs of a name and a word.
func standWords(physical bool, z [gestures.Directions]gestures.Zone) (out [][2]string) {
	if !physical {
		for d, w := range jobWords {
			out = append(out, [2]string{w.job, w.zones[z[d]]})
		}
		return out
	}
	for i, stick := range sticks {
		across, height := z[2*i], z[2*i+1]
		switch {
		case across == gestures.Any && height == gestures.Any:
		case across == gestures.Middle && height == gestures.Middle:
			out = append(out, [2]string{stick, "middle"})
		default:
			out = append(out, [2]string{stick, heightWords[height] + " " + acrossWords[across]})
		}
	}
	return out
}
