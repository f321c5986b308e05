package spoken_test

import (
	"strings"

	"propsoff.example/sim/pulse"
)

// able finds what a hand does for a word of the phrase book.
func (q *pupil) able(what string) *ability {
	lay := &q.l.base.Layout
	verb, rest, _ := strings.Cut(what, ":")
	after := func(ms int64) func(*pupil, int64) bool { return func(_ *pupil, t int64) bool { return t >= ms } }
	ends := map[string]pulse.Width{"off": pulse.Low, "on": pulse.High, "angle": pulse.Low, "horizon": pulse.Centre, "rate": pulse.High}
	put := func(channel int8) *ability {
		return &ability{do: func(q *pupil) { q.l.move(channel, ends[rest]) }, done: after(400)}
	}
	switch verb {
	case "hands":
		return &ability{do: func(q *pupil) { q.hands(rest) }, done: after(200)}
	case "arm-switch":
		return &ability{do: func(q *pupil) { q.l.move(lay.Arm, ends[rest]) }}
	case "second":
		return put(6)
	case "mode":
		return put(lay.Mode)
	case "type":
		return &ability{do: func(q *pupil) { q.l.typed(rest) }, done: after(400)}
	case "wait":
		return &ability{done: after(1600)}
	case "arm":
		return q.arming()
	case "disarm":
		return q.disarming()
	case "stop":
		if q.bySticks {
			return &ability{do: func(q *pupil) { q.hands("T- Y-") }, done: func(q *pupil, _ int64) bool { return !q.armed }}
		}
		return &ability{do: func(q *pupil) { q.l.move(lay.Arm, pulse.Low) }}
	case "corner":
		return &ability{do: func(q *pupil) { q.hands("T- Y+") }, done: func(q *pupil, t int64) bool {
			if t == 2500 { // long enough for anything to be told
				q.hands("Y0")
			}
			return t > 2900
		}}
	case "motors":
		return &ability{do: func(q *pupil) { q.hands("T0") }, done: func(q *pupil, t int64) bool { return q.turns && t > 900 }}
	case "still":
		return &ability{done: func(q *pupil, _ int64) bool { return !q.turns }}
	case "good":
		return &ability{done: func(q *pupil, _ int64) bool { return q.linkGood }}
	case "watch":
		return &ability{done: func(q *pupil, t int64) bool { return t > 1600 && !q.turns }}
	case "cure":
		return q.curing()
	case "sweep":
		return q.sweeping()
	case "turn-mode":
		return &ability{done: func(q *pupil, t int64) bool {
			q.l.move(lay.Mode, map[bool]pulse.Width{true: pulse.Centre, false: pulse.High}[t < 700])
			if t >= 1400 {
				q.l.move(lay.Mode, pulse.Low)
			}
			return t > 5200
		}}
	case "answer":
		return &ability{done: func(q *pupil, t int64) bool {
			if q.said == "" && t >= 900 && len(q.choices) > 0 && q.l.p.Tick()-q.heardAt > 600 {
				q.choose()
			}
			return q.place > 0 && len(q.queue) > 0 // there is something else to do then
		}}
	case "gesture":
		return q.gesture(rest)
	case "set":
		return q.setting(rest)
	case "keep":
		return q.keeping()
	}
	q.l.t.Fatalf("the phrase book has %q", what)
	return nil
}

// arming waits until nothing refuses, then arms as this craft is armed.
func (q *pupil) arming() *ability {
	return &ability{done: func(q *pupil, _ int64) bool {
		switch {
		case q.armed && q.bySticks:
			q.hands("Y0")
			return true
		case q.armed:
			return true
		case !q.clear:
		case q.bySticks:
			q.hands("T- Y+")
		default:
			q.l.move(q.l.base.Layout.Arm, pulse.High)
		}
		return false
	}}
}

func (q *pupil) disarming() *ability {
	return &ability{done: func(q *pupil, _ int64) bool {
		switch {
		case !q.armed:
			q.hands("Y0")
			return true
		case q.bySticks:
			q.hands("T- Y-")
		default:
			q.l.move(q.l.base.Layout.Arm, pulse.Low)
		}
		return false
	}}
}

// curing does what is known against each reason that was heard, one after the other, until nothing refuses.
func (q *pupil) curing() *ability {
	return &ability{done: func(q *pupil, t int64) bool {
		if t%1200 == 500 && len(q.refusals) > 0 {
			next := q.refusals[0]
			q.refusals = q.refusals[1:]
			for _, act := range strings.Split(next, ",") {
				if act == "" {
					continue
				}
				if a := q.able(act); a.do != nil {
					a.do(q)
				}
			}
		}
		return q.clear
	}}
}

// sweeping moves one stick after the other to an end and back.
func (q *pupil) sweeping() *ability {
	const each = 650
	steps := []string{"T+", "T-", "R+", "R0", "P+", "P0", "Y+", "Y0"}
	return &ability{done: func(q *pupil, t int64) bool {
		if n := int(t / each); t%each == 0 && n < len(steps) {
			q.hands(steps[n])
		}
		return t >= each*int64(len(steps))
	}}
}

// gesture holds what a recipe said, part by part, then lets go.
func (q *pupil) gesture(name string) *ability {
	parts := q.recipes[name]
	if len(parts) == 0 {
		q.l.t.Fatalf("nobody has told how the gesture %q is made", name)
	}
	const held = 400
	return &ability{done: func(q *pupil, t int64) bool {
		n := int(t / held)
		switch {
		case n < len(parts) && t%held == 0:
			for _, m := range q.b.stick.FindAllStringSubmatch(parts[n], -1) {
				across, up := q.b.place(m[2])
				if left := q.b.left.MatchString(m[1]); left { // stick mode 2
					q.stick('Y', across)
					q.stick('T', up)
				} else {
					q.stick('R', across)
					q.stick('P', up)
				}
			}
		case n == len(parts) && t%held == 0:
			q.hands("R0 P0 Y0")
		}
		return n > len(parts)+1
	}}
}

// push pushes the right stick for a moment, so that a line can come before the next.
func (q *pupil) push(t int64, to string) {
	switch t % 800 {
	case 0:
		q.hands(to)
	case 120:
		q.hands("R0 P0")
	}
}

// setting moves the mark to an item, goes in and changes its value: "item=value".
func (q *pupil) setting(what string) *ability {
	item, value, _ := strings.Cut(what, "=")
	in, out := false, false
	return &ability{
		do: func(q *pupil) { q.value = "" },
		done: func(q *pupil, t int64) bool {
			if t%800 == 0 {
				switch {
				case !strings.Contains(q.mark, item):
				case !in:
					in = true
					q.hands("R+")
					return false
				case strings.Contains(q.value, value):
					out = true
				}
			}
			switch {
			case out:
				return true
			case !in:
				q.push(t, "P-")
			case t%800 == 120:
				q.hands("R0 P0")
			case q.value > value && q.value != "":
				q.push(t, "P-")
			default:
				q.push(t, "P+")
			}
			return false
		},
	}
}

// keeping goes out until it is asked, and keeps.
func (q *pupil) keeping() *ability {
	stays, asked := true, false
	return &ability{done: func(q *pupil, t int64) bool {
		if t%800 == 0 {
			asked = asked || q.b.stay.MatchString(q.mark)
			stays = !q.b.keep.MatchString(q.mark)
		}
		switch {
		case !asked:
			q.push(t, "R-")
		case stays:
			q.push(t, "P+")
		default:
			q.push(t, "R+")
		}
		return false // the verdict ends it
	}}
}
