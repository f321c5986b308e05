package examine

import (
	"math/rand/v2"

	"propsoff/sim/handset"
	"propsoff/sim/layout"
	"propsoff/sim/prove"
)

// What is made up for one question (all ours): how many pairs are tried, how many are enough to choose from, the most movements before the last
// one, and how long a story may take, in ms.
const (
	tries     = 1500
	enough    = 48
	movements = 5
	longest   = 45_000
	// reached bounds the part of the search that beginnings are drawn from.
	reached = 1 << 18
	// alikeIn: of so many questions one is about what makes no difference, so that nobody can go by the second answer.
	alikeIn = 4
)

// Asked is a question of before, and what the answer showed.
type Asked struct {
	ID      string
	Ask     Ask
	About   About
	Verdict Verdict
}

// Examiner makes questions about one layout.
type Examiner struct {
	l      *prove.Layout
	salt   string
	begins *prove.Reached
	actor  *prove.Actor
	// goes are the places of each control that a hand moves by itself, along the controls; deepest is the most movements that beginnings take.
	goes    [][]prove.Step
	deepest int
}

// New searches the beginnings of a layout. Salt tells its questions from those about another layout. It fails where the layout cannot be searched.
func New(l *prove.Layout, salt string) (*Examiner, error) {
	e := &Examiner{l: l, salt: salt}
	var err error
	if e.actor, err = prove.NewActor(l); err != nil {
		return nil, err
	}
	if e.begins, err = prove.Reach(l, reached); err != nil {
		return nil, err
	}
	e.deepest = min(movements, e.begins.Movements())
	for i := range l.Radio.Controls {
		e.goes = append(e.goes, places(i, &l.Radio.Controls[i]))
	}
	return e, nil
}

// Next makes a question that was not asked before: most likely about what the pupil took wrongly when it last came up, least likely about what he
// knew twice. False where no new one was found. The same seed and the same history make the same question.
func (e *Examiner) Next(seed uint64, asked []Asked) (Question, bool) {
	r := rand.New(rand.NewPCG(seed, uint64(len(asked))))
	known := map[string]bool{}
	for i := range asked {
		known[asked[i].ID] = true
	}
	var all [2][]Question // that differ, that end alike
	for range tries {
		if len(all[0]) >= enough && len(all[1]) >= enough/alikeIn {
			break
		}
		q, ok := e.try(r)
		if n := bit(q.Alike()); ok && !known[q.ID] && len(all[n]) < enough {
			known[q.ID] = true
			all[n] = append(all[n], q)
		}
	}
	n := bit(r.IntN(alikeIn) == 0)
	if len(all[n]) == 0 {
		n = 1 - n
	}
	if len(all[n]) == 0 {
		return Question{}, false
	}
	return choose(r, all[n], weights(asked)), true
}

func bit(b bool) int {
	if b {
		return 1
	}
	return 0
}

// weights say how much each thing is worth being asked about (ours).
func weights(asked []Asked) (w [AskCount][AboutCount]float64) {
	var right [AskCount][AboutCount]int // in a row, up to now
	var met [AskCount][AboutCount]bool
	for i := range asked {
		a := &asked[i]
		n := &right[a.Ask][a.About]
		if *n++; a.Verdict != Foreseen {
			*n = 0
		}
		met[a.Ask][a.About] = true
	}
	for ask := range w {
		for about := range w[ask] {
			switch n := right[ask][about]; {
			case !met[ask][about]:
				w[ask][about] = 3
			case n == 0:
				w[ask][about] = 8
			case n == 1:
				w[ask][about] = 1.5
			default:
				w[ask][about] = 0.5
			}
		}
	}
	return w
}

// choose takes one of some questions: first a thing by its weight, then, of two about it, the one that is told in fewer movements.
func choose(r *rand.Rand, all []Question, w [AskCount][AboutCount]float64) Question {
	var about [AskCount][AboutCount][]int
	sum := 0.0
	for i := range all {
		of := &about[all[i].Ask][all[i].About]
		if *of = append(*of, i); len(*of) == 1 {
			sum += w[all[i].Ask][all[i].About]
		}
	}
	at, chosen := r.Float64()*sum, []int{len(all) - 1}
	for ask := range about {
		for n, of := range about[ask] {
			if len(of) == 0 {
				continue
			}
			if at -= w[ask][n]; at < 0 {
				a, b := of[r.IntN(len(of))], of[r.IntN(len(of))]
				if moves(&all[b]) < moves(&all[a]) {
					a = b
				}
				return all[a]
			}
			chosen = of
		}
	}
	return all[chosen[0]]
}

func moves(q *Question) int { return q.Stories[0].Way.Movements + q.Stories[1].Way.Movements }

// try makes one pair; false where nothing came of it.
func (e *Examiner) try(r *rand.Rand) (q Question, ok bool) {
	first, n := e.begins.Taking(1 + r.IntN(max(1, e.deepest)))
	if n == 0 {
		return q, false
	}
	s := begun(e.begins.Way(first + r.IntN(n)))
	if !e.last(r, &s) {
		return q, false
	}
	two := [2]story{s, s}
	if q.About, ok = e.edit(r, &s, &two[1]); !ok {
		return q, false
	}
	var came [2]played
	for i := range two {
		if came[i], ok = play(e.actor, &two[i], pace, 100); !ok || !came[i].powered || came[i].way.Ms > longest {
			return q, false
		}
	}
	if came[0].was != came[1].was {
		return q, false
	}
	if q.Ask = Arms; came[0].was {
		q.Ask = Stays + Ask(r.IntN(2))
	}
	if !e.firm(&two, &came, q.Ask) {
		return q, false
	}
	if r.IntN(2) == 0 {
		two[0], two[1], came[0], came[1] = two[1], two[0], came[1], came[0]
	}
	for i := range two {
		d := two[i].differs
		q.Stories[i] = Story{Way: came[i].way, Last: came[i].at[two[i].last], At: came[i].when, Differs: [2]int{came[i].at[d[0]], came[i].at[d[1]]}, Ends: came[i].ends(q.Ask)}
	}
	q.ID = id(q.Ask, e.salt, &two)
	return q, true
}

// ends is the answer to what is asked.
func (p *played) ends(ask Ask) bool {
	if ask == Turns {
		return p.turns
	}
	return p.is
}

// firm reports whether both end the same way where the hand is quicker or slower, and the waits are a third longer or a quarter shorter: nobody
// is asked about what hangs on a moment.
func (e *Examiner) firm(two *[2]story, came *[2]played, ask Ask) bool {
	for i := range two {
		for _, other := range [...][2]int64{{pace / 2, 75}, {pace * 2, 133}} {
			p, ok := play(e.actor, &two[i], other[0], other[1])
			if !ok || p.was != came[i].was || p.ends(ask) != came[i].ends(ask) {
				return false
			}
		}
	}
	return true
}

// last puts the last movement at the end of a story, and the wait after it.
func (e *Examiner) last(r *rand.Rand, s *story) bool {
	c := &e.l.Config
	slot := int64(c.SlotTicks)
	st, after := prove.Step{}, int64(1000)
	switch n := r.IntN(10); {
	case n < 7:
		st = e.move(r, r.IntN(len(e.goes)))
		if e.about(st.Control) == Yaw || e.about(st.Control) == Throttle { // a corner may have to be held
			after = max(after, int64(max(c.Arming.ArmDwell, c.Arming.DisarmDwell))*slot*3/2+500)
		}
	case n < 9:
		limit, sinks := int64(c.Link.SilenceSlots)*slot, int64(c.Arming.SinkSlots)*slot
		st = do(prove.RadioOff)
		after = [...]int64{limit / 2, limit + 1000, (limit+sinks)*4/3 + 1000}[r.IntN(3)]
	default:
		st = do([...]prove.Kind{prove.RadioOn, prove.CableOut, prove.Nudge}[r.IntN(3)])
	}
	s.last = len(s.steps)
	s.put(s.last, st, wait(after))
	return true
}

// move takes a control to one of its places.
func (e *Examiner) move(r *rand.Rand, control int) prove.Step {
	if all := e.goes[control]; len(all) > 0 {
		return all[r.IntN(len(all))]
	}
	return prove.Step{Kind: prove.Move, Control: -1}
}

// about is what a control is.
func (e *Examiner) about(control int) About {
	if control < 0 {
		return OtherControl
	}
	l := &e.l.Config.Layout
	ch := e.l.Radio.Controls[control].Channel
	for _, is := range [...]struct {
		channel int8
		about   About
	}{{l.Throttle, Throttle}, {l.Yaw, Yaw}, {l.Roll, RollPitch}, {l.Pitch, RollPitch}, {l.Arm, ArmControl}, {l.Second, SecondSwitch}, {l.Mode, ModeControl}} {
		if is.channel == ch && ch != layout.NoChannel {
			return is.about
		}
	}
	return OtherControl
}

// together reports whether two controls are the same one, or one piece of the radio.
func together(r *handset.Radio, a, b int) bool {
	if a == b {
		return true
	}
	for _, n := range r.Together(a) {
		if n == b {
			return true
		}
	}
	return false
}
