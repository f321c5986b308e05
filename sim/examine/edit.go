package examine

import (
	"math/rand/v2"
	"slices"

	"propsoff.example/sim/arming"
	"propsoff.example/sim/prove"
)

// edit makes a second story of one that differs from it in one thing, and notes in both where. The last movement is the same in both.
func (e *Examiner) edit(one, two *story) (about About, ok bool) {
	r := e.r
	*two = story{steps: slices.Clone(one.steps), last: one.last}
	at := one.last // mostly right before the last movement: what stands otherwise is seen at once
	if r.IntN(3) == 0 {
		at = r.IntN(one.last + 1)
	}
	switch r.IntN(10) {
	case 0, 1, 2:
		return e.elsewhere(at, one, two)
	case 3:
		return e.toAndFro(at, one, two)
	case 4:
		return instead(at, one, two, Silence, do(prove.RadioOff), wait(pick(r, 500, 1000, 2000)), do(prove.RadioOn), wait(pick(r, 500, 3000)))
	case 5:
		if r.IntN(2) == 0 {
			return adds(at, one, two, Cable, do(prove.CableIn))
		}
		return instead(at, one, two, Moved, do(prove.Nudge), wait(pick(r, 500, 3000)))
	case 6:
		return instead(at, one, two, NewPack, do(prove.PowerOff), do(prove.PowerOn), wait(pick(r, 500, 3000)))
	case 7, 8:
		return e.longer(one, two)
	}
	return swapped(r, one, two)
}

// adorn puts something more into a story that both of a pair share, so that one has to look for what counts.
func (e *Examiner) adorn(s *story) {
	r := e.r
	at, in := r.IntN(s.last+1), []prove.Step{e.move(r.IntN(len(e.goes)))}
	switch r.IntN(8) {
	case 0:
		in = []prove.Step{do(prove.Nudge)}
	case 1:
		in = []prove.Step{do(prove.RadioOff), wait(pick(r, 500, 1000, 2000)), do(prove.RadioOn)}
	case 2:
		in = []prove.Step{do(prove.CableIn), wait(1000), do(prove.CableOut)}
	case 3:
		in = []prove.Step{wait(pick(r, 500, 1000, 2000, 3000))}
	case 4:
		in = []prove.Step{do(prove.PowerOff), wait(1000), do(prove.PowerOn), wait(pick(r, 1000, 3000))}
	}
	s.put(at, in...)
	s.last += len(in)
}

func pick(r *rand.Rand, of ...int64) int64 { return of[r.IntN(len(of))] }

// adds puts something into the second story that the first does not have.
func adds(at int, one, two *story, about About, in ...prove.Step) (About, bool) {
	two.put(at, in...)
	two.last += len(in)
	one.differs, two.differs = [2]int{at, at}, [2]int{at, at + len(in)}
	return about, true
}

// instead puts something into the second story while the first waits as long: otherwise it would be the waiting that makes the difference.
func instead(at int, one, two *story, about About, in ...prove.Step) (About, bool) {
	ms := int64(0)
	for i := range in {
		ms += in[i].Ms
	}
	one.put(at, wait(ms))
	one.last++
	two.put(at, in...)
	two.last += len(in)
	one.differs, two.differs = [2]int{at, at + 1}, [2]int{at, at + len(in)}
	if in[len(in)-1].Ms == ms { // that wait is the same in both
		one.differs[1]--
		two.differs[1]--
	}
	return about, true
}

// elsewhere has another control stand elsewhere than it does.
func (e *Examiner) elsewhere(at int, one, two *story) (About, bool) {
	control := e.r.IntN(len(e.goes))
	if slices.ContainsFunc(one.steps[at:], func(st prove.Step) bool { return st.Control == control }) { // it will not stand there at the end
		return 0, false
	}
	st := e.move(control)
	return adds(at, one, two, e.about(control), st)
}

// toAndFro moves the arm control, where there is one, and back.
func (e *Examiner) toAndFro(at int, one, two *story) (About, bool) {
	for i := range e.goes {
		if e.about(i) == ArmControl {
			return adds(at, one, two, ArmControl, e.move(i), wait(500), e.stood(i, one.steps[:at]))
		}
	}
	return 0, false
}

// stood is what takes a control back to where it stands after some steps.
func (e *Examiner) stood(control int, after []prove.Step) prove.Step {
	for _, st := range slices.Backward(after) {
		if st.Control == control {
			return moved(prove.Move, control, st.ToPosition, st.To)
		}
	}
	e.actor.Begin()
	w := e.actor.Stands(control)
	return moved(prove.Move, control, e.l.Radio.Controls[control].Nearest(w), w)
}

// longer makes a wait of the story much longer or shorter; where there is none it waits.
func (e *Examiner) longer(one, two *story) (About, bool) {
	if one.last == 0 {
		return 0, false
	}
	at := 1 + e.r.IntN(one.last)
	about := e.waited(one.steps[:at])
	if one.steps[at].Kind != prove.Wait {
		return adds(at, one, two, about, wait(waits[1+e.r.IntN(len(waits)-2)]))
	}
	was, is := one.steps[at].Ms, waits[e.r.IntN(len(waits))]
	if is < 3*was && was < 3*is {
		return 0, false
	}
	two.steps[at].Ms = is
	one.differs, two.differs = [2]int{at, at + 1}, [2]int{at, at + 1}
	return about, true
}

// waited is what a wait after some steps is for: what came last that takes its time.
func (e *Examiner) waited(after []prove.Step) About {
	for _, st := range slices.Backward(after) {
		switch is := e.about(st.Control); st.Kind {
		case prove.RadioOff:
			return SilentFor
		case prove.RadioOn:
			return HeardFor
		case prove.PowerOn, prove.Nudge:
			return StoodStill
		case prove.Move, prove.LetGo:
			if e.l.Config.Arming.By == arming.BySticks && (is == Yaw || is == Throttle) {
				return Waited
			}
		}
	}
	return Waited
}

// swapped does two things of the story in the other order.
func swapped(r *rand.Rand, one, two *story) (About, bool) {
	if one.last < 2 {
		return 0, false
	}
	at := r.IntN(one.last - 1)
	a, b := one.steps[at], one.steps[at+1]
	if a.Kind == prove.Wait || b.Kind == prove.Wait || a.Control >= 0 && a.Control == b.Control {
		return 0, false
	}
	two.steps[at], two.steps[at+1] = b, a
	one.differs, two.differs = [2]int{at, at + 2}, [2]int{at, at + 2}
	return Order, true
}
