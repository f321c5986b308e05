package examine

import (
	"math/rand/v2"
	"slices"

	"propsoff/sim/prove"
)

// edit makes a second story of one that differs from it in one thing, and notes in both where. The last movement is the same in both.
func (e *Examiner) edit(r *rand.Rand, one, two *story) (about About, ok bool) {
	*two = story{steps: slices.Clone(one.steps), last: one.last}
	at := one.last // mostly right before the last movement: what stands otherwise is seen at once
	if r.IntN(3) == 0 {
		at = r.IntN(one.last + 1)
	}
	switch r.IntN(10) {
	case 0, 1, 2:
		return e.elsewhere(r, at, one, two)
	case 3:
		return e.toAndFro(r, at, one, two)
	case 4:
		return adds(at, one, two, Silence, do(prove.RadioOff), wait(pick(r, 100, 500, 2000)), do(prove.RadioOn), wait(pick(r, 500, 3000)))
	case 5:
		if r.IntN(2) == 0 {
			return adds(at, one, two, Cable, do(prove.CableIn))
		}
		return adds(at, one, two, Moved, do(prove.Nudge), wait(pick(r, 500, 4000)))
	case 6:
		return adds(at, one, two, NewPack, do(prove.PowerOff), do(prove.PowerOn), wait(pick(r, 500, 4000)))
	case 7, 8:
		return longer(r, one, two)
	}
	return swapped(r, one, two)
}

func pick(r *rand.Rand, of ...int64) int64 { return of[r.IntN(len(of))] }

// adds puts something into the second story that the first does not have.
func adds(at int, one, two *story, about About, in ...prove.Step) (About, bool) {
	two.put(at, in...)
	two.last += len(in)
	one.differs, two.differs = [2]int{at, at}, [2]int{at, at + len(in)}
	return about, true
}

// elsewhere has another control stand elsewhere than it does.
func (e *Examiner) elsewhere(r *rand.Rand, at int, one, two *story) (About, bool) {
	control := r.IntN(len(e.goes))
	if last := one.steps[one.last].Control; last >= 0 && together(&e.l.Radio, last, control) {
		return 0, false
	}
	st := e.move(r, control)
	return adds(at, one, two, e.about(control), st)
}

// toAndFro moves the arm control, where there is one, and back.
func (e *Examiner) toAndFro(r *rand.Rand, at int, one, two *story) (About, bool) {
	for i := range e.goes {
		if e.about(i) == ArmControl {
			return adds(at, one, two, ArmControl, e.move(r, i), wait(500), e.stood(i, one.steps[:at]))
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

// longer makes a wait of the story much longer or shorter; where there is none it waits, of which what comes before says what for.
func longer(r *rand.Rand, one, two *story) (About, bool) {
	if one.last == 0 {
		return 0, false
	}
	at := 1 + r.IntN(one.last)
	about := HeldFor
	switch one.steps[at-1].Kind {
	case prove.RadioOff:
		about = SilentFor
	case prove.RadioOn:
		about = HeardFor
	case prove.PowerOn, prove.Nudge:
		about = StoodStill
	}
	if one.steps[at].Kind != prove.Wait {
		return adds(at, one, two, about, wait(waits[1+r.IntN(len(waits)-2)]))
	}
	if at == one.last { // the wait after the last movement is the same in both
		return 0, false
	}
	was, is := one.steps[at].Ms, waits[r.IntN(len(waits))]
	if is < 3*was && was < 3*is {
		return 0, false
	}
	two.steps[at].Ms = is
	one.differs, two.differs = [2]int{at, at + 1}, [2]int{at, at + 1}
	return about, true
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
