package prove

import (
	"cmp"
	"reflect"

	"propsoff.example/assets/words"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/prove/explore"
	"propsoff.example/sim/pulse"
)

// Answer is what a pilot can tell of a craft in one millisecond. A craft without power gives the zero Answer.
type Answer struct {
	Armed bool
	// Mode is the flight mode, of a disarmed craft too: it is what would be flown.
	Mode layout.Mode
	// Motors are asked to turn: they idle, follow the throttle, are kept awake by air mode, or carry a craft that sinks.
	Motors  bool
	Sinking bool
	// Refused is why arming was refused in this very slot; 0 where it was not.
	Refused arming.Set
}

// Part is a set of things in which two answers differ.
type Part uint8

const (
	InArming   Part = 1 << iota // one is armed, the other is not
	InSinking                   // one sinks, the other does not
	InMotors                    // the motors of one turn, those of the other stand still
	InMode                      // they fly in different modes
	InRefusing                  // one refuses and the other does not, or for other reasons
)

// unlike says in what two answers differ.
func unlike(a, b Answer) (p Part) {
	for _, one := range [...]struct {
		is   Part
		same bool
	}{{InArming, a.Armed == b.Armed}, {InSinking, a.Sinking == b.Sinking}, {InMotors, a.Motors == b.Motors}, {InMode, a.Mode == b.Mode}, {InRefusing, a.Refused == b.Refused}} {
		if !one.same {
			p |= one.is
		}
	}
	return p
}

// Difference is the shortest thing that hands can do to which two layouts answer differently.
type Difference struct {
	// Parts says in what they differ at the end, Answers what each of them then does.
	Parts   Part
	Answers [2]Answer
	// Ways are the same movements, as each of the two radios sends them and each of the two crafts takes them. A movement of a control
	// that one of the radios does not have is there a step without a control.
	Ways [2]*Way
	// Lasts is after how many ms they agree again while nothing moves, −1 where they do not. A refusal lasts no time.
	Lasts int64
}

// Comparison is what came of holding two layouts against each other.
type Comparison struct {
	// Partial: the search was stopped or ran out of memory, so that a difference may have been missed, or a shorter way.
	Partial bool
	// Situations is how many were searched: each is one of both crafts at once. Steps is how many slots of either bench were stepped.
	Situations, Steps uint64
	// Bytes is the most memory that situations took at any one time.
	Bytes int64
	// Difference is nil where none was found. Where it is in what is refused alone, Graver is the shortest in anything else; nil where none was found.
	Difference, Graver *Difference
	// LeftOut are the stretches of sticks that were left out: where the two radios do not reach equally far, a stretch of less than a hundredth
	// of the travel, in which the two crafts take a stick differently, is less than a hand can hold.
	LeftOut []LeftOut
	// Shaken are the places of controls of which noise makes something else: each control is compared as it stands without noise.
	Shaken []Shaken
	// ByNoise: what noise does is not the same of both, so no search without it proves that they are alike.
	ByNoise bool
	// Same are the controls of the two radios, as indices, that are one to the hand; −1 in one that has none.
	Same [][2]int
	// Apart is what is data and not searched, and differs.
	Apart Apart
}

// Apart is a set of things that two layouts may differ in and that are not compared by what they come to.
type Apart uint8

const (
	ApartGestures Apart = 1 << iota // gestures and menus
	ApartFlight                     // how it flies: curves, gains, body, how fast the motors turn
	ApartPeriod                     // the frame period: what goes by time comes at different moments
	ApartOnTheWay                   // a gesture lies on the shortest way to a difference and keeps the two from it; other ways were not looked for
	ApartTransit                    // how late frames come, and how many never do
)

// Likeness is what a comparison came to as a whole.
type Likeness uint8

const (
	Alike         Likeness = iota // every situation was searched, and there is no difference
	Different                     // there is one
	Undetermined                  // none was found, and not everything was searched, or noise sets them apart
	LikenessCount                 // one more than the last
)

// Code is the likeness's name in reports.
func (k Likeness) Code() string { return code([]string{"alike", "different", "unfinished"}, int(k)) }

// Likeness is what the comparison came to.
func (c *Comparison) Likeness() Likeness {
	switch {
	case c.Difference != nil:
		return Different
	case c.Partial || c.ByNoise:
		return Undetermined
	}
	return Alike
}

// Verdict is the likeness as that of a search, by which a command ends.
func (c *Comparison) Verdict() Verdict {
	return [...]Verdict{Alike: AllHold, Different: SomeBroken, Undetermined: Unfinished}[c.Likeness()]
}

// Compare searches for the shortest thing that hands can do to which two layouts answer differently. Both crafts get their packs at the same
// moment and are moved alike; the same hand moves both radios, each control to the same place on either.
//
// Each craft is stepped when its own slot falls due, in the one order of milliseconds that both live in, so two frame periods may differ:
// then a craft answers at other moments, which is a difference, told with the few ms that it lasts.
//
// The cable stands for a menu that a gesture opened, as for all that refuses with both. A way that is found is played with the gestures of both.
func Compare(a, b Layout, o Options) (Comparison, error) {
	c := comparing{l: [2]*Layout{&a, &b}, o: o}
	for _, l := range c.l {
		if err := l.check(); err != nil {
			return Comparison{}, err
		}
	}
	whole, err := newPairHands(c.l, lens{modes: true, arming: true, motors: true, refusals: true})
	if err != nil {
		return Comparison{}, err
	}
	var evenly bool
	c.r.Shaken, evenly = whole.shaken()
	c.r.Same, c.r.LeftOut, c.r.ByNoise, c.r.Apart = whole.pairs, whole.leftOut, !evenly, apart(&a.Config, &b.Config)
	if whole.sameMotors() {
		err = c.through(lens{modes: true}, lens{arming: true, refusals: true})
	} else {
		err = c.through(whole.lens)
	}
	if err != nil {
		return Comparison{}, err
	}
	return c.r, nil
}

// lens says what of the answers one walk compares. Modes depend on link and layout alone, and arming on them and on what it reads of
// modes; so one walk looks at modes and another at arming, each of far fewer situations than both together. What the motors do follows
// from arming, mode and throttle: where the two crafts take those alike, so do the motors, else one walk looks at everything.
type lens struct{ modes, arming, motors, refusals bool }

// comparing is one Compare under way.
type comparing struct {
	l       [2]*Layout
	o       Options
	r       Comparison
	stopped bool
}

// through walks every situation through lenses one after the other, each only as far as a shorter way than the best so far can lead. Where
// nothing but a refusal differs at the end of the best, what goes beyond that is looked for too.
func (c *comparing) through(lenses ...lens) error {
	var best, beyond *explore.Cost
	for _, n := range lenses {
		d, cost, err := c.walk(n, best)
		if err != nil || d == nil {
			if err != nil {
				return err
			}
			continue
		}
		if c.r.Difference != nil { // of another lens, and in more than a refusal
			c.r.Graver, beyond = c.r.Difference, best
		}
		c.r.Difference, best = d, cost
	}
	if c.r.Difference == nil || c.r.Difference.Parts != InRefusing {
		c.r.Graver = nil
		return nil
	}
	n := lenses[len(lenses)-1]
	n.refusals = false
	partial := c.r.Partial
	d, _, err := c.walk(n, beyond)
	if d != nil {
		c.r.Graver = d
	}
	c.r.Partial = partial // the shortest has been found
	return err
}

// walk walks every situation through one lens, as far as a shorter way than limit can lead, and gives the difference that it finds.
func (c *comparing) walk(n lens, limit *explore.Cost) (*Difference, *explore.Cost, error) {
	if c.stopped {
		c.r.Partial = true
		return nil, nil, nil
	}
	h, err := newPairHands(c.l, n)
	if err != nil {
		return nil, nil, err
	}
	x := newPairSpace(h)
	x.limit, x.mostBytes = limit, cmp.Or(c.o.MostBytes, mostBytes)
	o := explore.Options{MostBytes: x.mostBytes, Every: asksEvery()}
	if ask := c.o.Progress; ask != nil {
		before := c.r.Situations
		o.Progress = func(w *explore.Walk, at explore.Cost) bool {
			c.stopped = ask(Progress{Situations: before + w.Found(), Open: w.Open(), Movements: int(at.Moves), Slots: int(at.Time)})
			return c.stopped
		}
	}
	w := explore.New(o)
	x.stop, x.used = w.Stop, w.Bytes
	w.Begin(uint64(h.start))
	end := w.Run(x)
	c.r.Situations += w.Found()
	c.r.Steps += x.steps
	c.r.Bytes = max(c.r.Bytes, w.Peak()+x.bytes())
	c.r.Partial = c.r.Partial || end == explore.Interrupted || end == explore.Full || x.full
	if x.found == nil {
		return nil, nil, nil
	}
	d, sound := x.difference(w)
	switch {
	case !sound:
		return nil, nil, words.Wrong("search.not-whole")
	case d == nil:
		c.r.Partial = true
		c.r.Apart |= ApartOnTheWay
		return nil, nil, nil
	}
	return d, &x.found.cost, nil
}

// apart says what differs of two crafts that is not searched.
func apart(a, b *sim.Config) (p Apart) {
	if !sameGestures(a, b) {
		p |= ApartGestures
	}
	fa, fb := a.Flight, b.Flight // of which only what decides whether motors turn is compared
	fa.AtLowThrottle, fa.AirModes, fa.AirWake = fb.AtLowThrottle, fb.AirModes, fb.AirWake
	if fa != fb || !reflect.DeepEqual(a.Control, b.Control) || !reflect.DeepEqual(a.Body, b.Body) {
		p |= ApartFlight
	}
	if a.SlotTicks != b.SlotTicks {
		p |= ApartPeriod
	}
	if a.Transit != b.Transit {
		p |= ApartTransit
	}
	return p
}

// sameMotors reports whether the motors of the two crafts do the same wherever arming, sinking and modes are the same: equal rules, and
// every frame counts for both or for neither, with the throttle in the same stretch.
func (h *pairHands) sameMotors() bool {
	a, b := h.cfg[0], h.cfg[1]
	fa, fb := &a.Flight, &b.Flight
	if a.SlotTicks != b.SlotTicks || a.Link.OnLoss != b.Link.OnLoss || fa.AtLowThrottle != fb.AtLowThrottle ||
		(fa.IdleSpeed == 0) != (fb.IdleSpeed == 0) || (sinkSpeed(a) == 0) != (sinkSpeed(b) == 0) ||
		fa.AtLowThrottle == flight.StandStill && (fa.AirModes != fb.AirModes || fa.AirWake != fb.AirWake) {
		return false
	}
	same := func(f, g *pulse.Frame) bool {
		ta, oka := throttleIn(a, f)
		tb, okb := throttleIn(b, g)
		return oka == okb && ta == tb
	}
	for i := range h.frames[0] {
		if !same(&h.frames[0][i], &h.frames[1][i]) {
			return false
		}
	}
	return same(&a.Link.Stored, &b.Link.Stored)
}
