package examine

import (
	"fmt"
	"slices"
	"strings"

	"propsoff.example/sim/arming"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// Pace is the time between two movements of a hand that does not hurry, in ms (ours).
const Pace = 400

// waits are how long a story waits, in ms (ours): lengths that a person can tell apart.
var waits = [...]int64{500, 1000, 2000, 3000, 5000, 8000, 12000, 20000}

// story is a story as it is made: movements and waits.
type story struct {
	steps []prove.Step
	last  int // index of the last movement
	// differs are those, from and up to, that the other story does not have.
	differs [2]int
}

func wait(ms int64) prove.Step                { return prove.Step{Kind: prove.Wait, Ms: ms, Control: -1} }
func do(k prove.Kind) prove.Step              { return prove.Step{Kind: k, Control: -1} }
func (s *story) put(at int, in ...prove.Step) { s.steps = slices.Insert(s.steps, at, in...) }

// text has everything that tells this story from another.
func (s *story) text() string {
	var b strings.Builder
	for i := range s.steps {
		st := &s.steps[i]
		fmt.Fprintf(&b, "|%d %d %d %d %d", st.Kind, st.Control, st.ToPosition, st.To, st.Ms)
	}
	return b.String()
}

// begun is the beginning of a story: the way to a situation, made by hands that do not hurry. Waits are of a length that
// a person can tell, and a third longer than they need be.
func begun(steps []prove.Step) (s story) {
	for i := range steps {
		switch st := steps[i]; st.Kind {
		case prove.Start:
		case prove.Wait:
			if st.Ms > Pace {
				at := slices.IndexFunc(waits[:], func(ms int64) bool { return ms*3 >= st.Ms*4 })
				if at < 0 {
					at = len(waits) - 1
				}
				s.steps = append(s.steps, wait(waits[at]))
			}
		case prove.LetGo:
			s.steps = append(s.steps, moved(prove.LetGo, st.Control, st.ToPosition, st.To))
		case prove.Move:
			s.steps = append(s.steps, moved(prove.Move, st.Control, st.ToPosition, st.To))
		default:
			s.steps = append(s.steps, do(st.Kind))
		}
	}
	s.last = len(s.steps)
	return s
}

func moved(k prove.Kind, control, position int, to pulse.Width) prove.Step {
	return prove.Step{Kind: k, Control: control, ToPosition: position, To: to}
}

// played is what came of a story.
type played struct {
	way *prove.Way
	// at has for each step of the story, and for its end, the index of the step of the way that it became.
	at []int
	// was and is: armed before the last movement, and after all; turns: the motors turn then; powered: the craft had its pack all along from
	// the last movement on.
	was, is, turns, powered bool
	// refused is what refused arming from the last movement on.
	refused arming.Set
	when    int64
}

// play plays a story at a pace, its waits a few percent as long; false where a step cannot be made.
func play(a *prove.Actor, s *story, pace, percent int64) (p played, ok bool) {
	a.Begin()
	for i := range s.steps {
		st := s.steps[i]
		if st.Kind == prove.Wait {
			st.Ms = st.Ms * percent / 100
		} else if i > 0 && s.steps[i-1].Kind != prove.Wait {
			a.Do(wait(pace))
		}
		if i == s.last {
			p.was, p.powered = a.Armed(), a.Powered()
			a.Forget()
		}
		p.at = append(p.at, a.Steps())
		if st.Kind == prove.Wait && i > 0 && s.steps[i-1].Kind == prove.Wait || !a.Do(st) { // two waits are one
			return p, false
		}
		if i == s.last {
			p.when = a.Tick()
		}
	}
	p.at = append(p.at, a.Steps())
	p.refused = a.Refused()
	p.is, p.turns, p.powered = a.Armed(), a.Turning(), p.powered && a.Powered()
	p.way = a.Way()
	return p, true
}

// places are where a hand takes a control on purpose: the positions of a switch, the ends of a stick or knob, and what lies between.
func places(control int, c *handset.Control) (all []prove.Step) {
	if c.Kind == handset.Switch {
		for n := range c.Positions {
			all = append(all, moved(prove.Move, control, n, c.Positions[n].Width))
		}
		return all
	}
	low, high := min(c.Low, c.High), max(c.Low, c.High)
	middle := low + (high-low)/2
	if !c.Stays && c.Rest > low && c.Rest < high {
		middle = c.Rest
	}
	for _, w := range [...]pulse.Width{low, middle, high} {
		if w.Valid() {
			all = append(all, moved(prove.Move, control, 0, w))
		}
	}
	return all
}
