package examine

import (
	"errors"
	"math/rand/v2"
	"slices"

	"propsoff.example/sim/arming"
	"propsoff.example/sim/prove"
)

// What questions are chosen from (all ours): how many pairs are tried at first and how many for each question more, how many about one thing are
// kept, the most movements before those that are added, and how long a story may take, in ms.
const (
	atFirst   = 2500
	eachTime  = 300
	ofEach    = 4
	movements = 5
	longest   = 45_000
	// reached bounds the part of the search that beginnings are drawn from.
	reached = 1 << 18
	// eachAsks is after how many situations that were found somebody is asked whether to stop.
	eachAsks = 1 << 12
	// alikeIn: of so many questions one is about what makes no difference, so that nobody can go by the second answer.
	alikeIn = 3
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
	// from are the places of situations from which stories begin: of a craft that is disarmed, and of one that is armed, by how many movements
	// they take.
	from [2][movements + 1][]int32
	// goes are the places of each control.
	goes [][]prove.Step
	r    *rand.Rand
	// pool are questions that were made and not asked yet: those whose stories end differently, and those that end alike.
	pool [2][]Question
}

// ErrStopped: somebody asked to stop before the beginnings were searched.
var ErrStopped = errors.New("stopped")

// New searches the beginnings of a layout. Salt tells its questions from those about another layout, and the seed decides which come first. It
// fails where the layout cannot be searched. Stop, where given, is asked every few ms whether to give up.
func New(l *prove.Layout, salt string, seed uint64, stop func() bool) (*Examiner, error) {
	if stop == nil {
		stop = goesOn
	}
	e := &Examiner{l: l, salt: salt, r: rand.New(rand.NewPCG(seed, 0))}
	over := false
	halt := func() bool {
		over = over || stop()
		return over
	}
	var err error
	if e.actor, err = prove.NewActor(l); err != nil {
		return nil, err
	}
	if e.begins, err = prove.Reach(l, reached, halt); err != nil {
		return nil, err
	}
	e.begins.Each(func(place, n int, armed bool) {
		if place%eachAsks == 0 {
			halt()
		}
		if n <= movements {
			e.from[bit(armed)][n] = append(e.from[bit(armed)][n], int32(place))
		}
	})
	if halt() {
		return nil, ErrStopped
	}
	for i := range l.Radio.Controls {
		all := places(i, &l.Radio.Controls[i])
		if e.several(i) { // a story tells of one thing at a time
			all = nil
		}
		e.goes = append(e.goes, all)
	}
	return e, nil
}

// Next makes a question that was not asked before: most likely about what the pupil took wrongly when it last came up, least likely about what he
// knew twice. False where no new one was found, or where stop, which may be nil and is asked every few ms, said so. The same seed and the same
// history, from the first question on, make the same questions.
func (e *Examiner) Next(asked []Asked, stop func() bool) (Question, bool) {
	if stop == nil {
		stop = goesOn
	}
	known := map[string]bool{}
	for i := range asked {
		known[asked[i].ID] = true
	}
	for n := range e.pool {
		e.pool[n] = slices.DeleteFunc(e.pool[n], func(q Question) bool { return known[q.ID] })
		for i := range e.pool[n] {
			known[e.pool[n][i].ID] = true
		}
	}
	if !e.fill(known, stop) {
		return Question{}, false
	}
	n := bit(e.r.IntN(alikeIn) == 0)
	if len(e.pool[n]) == 0 {
		n = 1 - n
	}
	from := e.pool[n]
	if n == 1 { // as often both yes as both no, where there are any
		ends := e.r.IntN(2) == 0
		if some := slices.DeleteFunc(slices.Clone(from), func(q Question) bool { return q.Stories[0].Ends != ends }); len(some) > 0 {
			from = some
		}
	}
	if len(from) == 0 {
		return Question{}, false
	}
	return choose(e.r, from, weights(asked)), true
}

// goesOn never stops.
func goesOn() bool { return false }

// fill makes questions to choose from, of each thing a few; none that is known. False where it was stopped.
func (e *Examiner) fill(known map[string]bool, stop func() bool) bool {
	tries := eachTime
	if len(e.pool[0])+len(e.pool[1]) == 0 {
		tries = atFirst
	}
	for range tries {
		if stop() {
			return false
		}
		q, ok := e.try()
		if !ok || known[q.ID] {
			continue
		}
		pool, like := &e.pool[bit(q.Alike())], 0
		for i := range *pool {
			o := &(*pool)[i]
			like += bit(o.Ask == q.Ask && o.About == q.About && o.Stories[0].Ends == q.Stories[0].Ends)
		}
		if like < ofEach {
			known[q.ID] = true
			*pool = append(*pool, q)
		}
	}
	return true
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
	if n := len(asked); n > 0 { // not twice in a row, if it can be helped
		w[asked[n-1].Ask][asked[n-1].About] /= 10
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
func (e *Examiner) try() (q Question, ok bool) {
	r := e.r
	q.Ask = [...]Ask{Arms, Arms, Stays, Turns}[r.IntN(4)]
	var s story
	if q.Ask == Arms && r.IntN(3) > 0 {
		s, ok = e.arms()
	} else if s, ok = e.begin(q.Ask != Arms); ok {
		e.last(q.Ask, &s)
	}
	if !ok {
		return q, false
	}
	for range r.IntN(3) {
		e.adorn(&s)
	}
	two := [2]story{s, s}
	if q.About, ok = e.edit(&two[0], &two[1]); !ok {
		return q, false
	}
	var came [2]played
	for i := range two {
		if came[i], ok = play(e.actor, &two[i], Pace, 100); !ok || !came[i].powered || came[i].was != (q.Ask != Arms) || came[i].way.Ms > longest || !e.asks(q.Ask) {
			return q, false
		}
	}
	if q.Ask == Arms && !came[0].is && !came[1].is && !(came[0].tells(q.About) && came[1].tells(q.About)) {
		return q, false
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

// asks reports whether the hands, as they stand after all, ask for arming, where it is about that: nobody takes another craft to arm.
func (e *Examiner) asks(ask Ask) bool {
	c := &e.l.Config
	if ask != Arms {
		return true
	}
	for i := range e.goes {
		switch w := e.actor.Stands(i); e.about(i) {
		case ArmControl:
			return c.Layout.ArmSpan.Contains(w)
		case Yaw:
			if c.Arming.By == arming.BySticks {
				return w >= c.Arming.YawRight
			}
		}
	}
	return false
}

// refusals has for each thing the refusals that are its own.
var refusals = [AboutCount][]arming.Refusal{
	Throttle: {arming.ThrottleUp}, SecondSwitch: {arming.SecondSwitchOff}, ModeControl: {arming.NotSelfLevelling}, ArmControl: {arming.OffFirst}, Silence: {arming.NoLink, arming.LinkTooFresh},
	SilentFor: {arming.NoLink, arming.LinkTooFresh}, HeardFor: {arming.NoLink, arming.LinkTooFresh}, StoodStill: {arming.NotYetStill, arming.NoLink, arming.LinkTooFresh},
	Moved: {arming.NotYetStill}, NewPack: {arming.NotYetStill, arming.NoLink, arming.LinkTooFresh}, Cable: {arming.BeingSetUp},
}

// tells reports of a story in which arming fails whether it shows that a thing makes no difference: arming was refused, and not because of it.
func (p *played) tells(about About) bool {
	return p.refused != 0 && !slices.ContainsFunc(refusals[about], p.refused.Has)
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
		for _, other := range [...][2]int64{{Pace / 2, 75}, {Pace * 2, 133}} {
			p, ok := play(e.actor, &two[i], other[0], other[1])
			if !ok || p.was != came[i].was || p.ends(ask) != came[i].ends(ask) {
				return false
			}
		}
	}
	return true
}
