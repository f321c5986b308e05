package spoken

import (
	"hash/fnv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/gestures/menu"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// Bench says what the craft on the bench does. It belongs to one goroutine. Use NewBench.
type Bench struct {
	say      Say
	things   [happening.CodeCount]steady
	times    [happening.CodeCount]int64 // how often each thing came that is no state
	refusals [facts.RefusalCount]steady
	refused  bool // some reason was told, and not yet that none is left
	motors   steady
	sticks   sticks
	asked    steady // the answer on which the mark of a menu stands that asks what to keep
	begun    bool
	heard    int64 // tick of the newest happening
	// HideMode: which mode the craft is in is not told, for it is to be found out.
	HideMode bool
}

// LookEvery is how often a bench should be looked at, in ticks (ours).
const LookEvery = 50

// NewBench says what it is told by say.
func NewBench(say Say) *Bench { return &Bench{say: say} }

// secret tells whether a happening is for the instructor alone.
func secret(h *happening.Happening) bool {
	d := pulse.Deed(h.A)
	return h.Code == happening.Instructed && d != pulse.DeedHands && d != pulse.DeedArmOff
}

// Happened takes one line of the record of a craft. What is urgent is said at once.
func (b *Bench) Happened(h happening.Happening, craft *sim.Config) {
	if h.Code == 0 || h.Code >= happening.CodeCount || secret(&h) || h.Code == happening.Mode && b.HideMode || h.Code == happening.Settled { // it is what is put right then
		return
	}
	t := thingOf(h.Code)
	s := &b.things[t.of]
	now := t.number(&h)
	if !t.stands {
		b.times[t.of]++
		now = b.times[t.of]
	}
	s.set(h.Tick, now, tell.Happening(h, craft))
	b.heard = h.Tick
	if t.settle == 0 {
		b.tell(h.Tick, s, t)
	}
}

// tell says what is due of a thing.
func (b *Bench) tell(tick int64, s *steady, t thing) {
	switch s.due(tick, t.settle) {
	case change:
		b.say(s.text, t.urgent)
	case tooOften:
		b.say(words.Of("spoken.unsteady", t.unsteady), t.urgent)
	}
}

// Look takes the facts of the bench as it stands, and says what has settled. At the first it says how all stands.
func (b *Bench) Look(f *facts.Facts) {
	tick := f.Snap.Tick
	first := !b.begun
	if first {
		b.begun = true
		b.say(words.T("spoken.stands", words.Args{"state": tell.State(f)}), false)
		b.stands(f)
		b.things[happening.Armed].quietly()
		b.things[happening.Mode].quietly()
		b.motors.set(tick, turning(f), words.Text{})
		b.motors.quietly()
	}
	b.stands(f)
	for c := range b.things {
		if s := &b.things[c]; s.told != s.now || s.wild {
			b.tell(tick, s, thingOf(happening.Code(c)))
		}
	}
	b.motors.set(tick, turning(f), words.T("spoken.motors", words.Args{"on": words.Flag(turning(f) == 1)}))
	b.tell(tick, &b.motors, thing{settle: settleFor, unsteady: "motors"})
	b.refuses(f, first)
	b.reads(f)
}

// Menu takes a menu as it stands at a tick, for what its happenings do not tell: what it asks on leaving.
func (b *Bench) Menu(tick int64, m *menu.State) {
	b.asked.set(tick, int64(m.Asked), words.T("happening.menu-mark", words.Args{"item": tell.MenuAnswer(m.Asked)}))
	if m.Asked == menu.NoQuestion {
		b.asked.quietly()
	}
	b.tell(tick, &b.asked, thing{settle: settleFor, unsteady: "menu"})
}

// stands has the words for armed or not and for the mode right, also where another craft came onto the bench, or a new pack, without a happening.
func (b *Bench) stands(f *facts.Facts) {
	if b.heard > f.Snap.Tick { // it looks back
		return
	}
	if m := (happening.Happening{Code: happening.Mode, A: int32(f.Snap.Mode)}); !b.HideMode && f.Snap.In.Powered {
		s, now := &b.things[happening.Mode], thingOf(happening.Mode).number(&m)
		if s.now != now {
			s.set(f.Snap.Tick, now, words.T("spoken.mode", words.Args{"mode": tell.Mode(f.Snap.Mode)}))
		}
	}
	s, now := &b.things[happening.Armed], int64(happening.Disarmed)
	if f.Snap.Armed {
		now = int64(happening.Armed)
	}
	if s.now != now {
		s.set(f.Snap.Tick, now, words.T("spoken.stands", words.Args{"state": tell.Armed(f.Snap.Armed)}))
	}
}

// turning is 1 where a motor turns.
func turning(f *facts.Facts) int64 {
	for _, m := range f.Snap.Motor {
		if m > 0 {
			return 1
		}
	}
	return 0
}

// refuses says each reason that has come, then those that are gone in one sentence, and once nothing is left that. While the craft is armed, or has no power, none
// counts: those that stand when it is disarmed are news then.
func (b *Bench) refuses(f *facts.Facts, first bool) {
	tick, unsteady := f.Snap.Tick, false
	if f.Snap.Armed || f.Hearing == facts.NoPower {
		for r := range b.refusals {
			b.refusals[r].set(tick, 0, words.Text{})
			b.refusals[r].quietly()
		}
		b.refused = false
		return
	}
	settle := int64(settleFor)
	if first {
		settle = 0
	}
	var gone []words.Text
	b.refused = b.refused || first
	told := false // some reason stands told
	for _, r := range facts.Shown() {
		s, now, text := &b.refusals[r], int64(0), words.Text{}
		if x, stands := f.Of(r); stands {
			text = tell.Sentence(x, f)
			now = sentenceNumber(text)
		}
		s.set(tick, now, text)
		was := s.told
		switch due := s.due(tick, settle); {
		case due == tooOften:
			unsteady, b.refused = true, true
		case due == change && now != 0:
			b.say(text, false)
			b.refused = true
		case due == change && was != 0 && r.Group() != facts.OnLink: // of the link it was said already that it is there, or good
			gone = append(gone, tell.Reason(r))
		}
		told = told || s.told != 0 || s.wild
	}
	if unsteady {
		b.say(words.Of("spoken.unsteady", "refusals"), false)
	}
	if len(gone) > 0 {
		b.say(words.T("spoken.put-right", words.Args{"what": words.And(gone...)}), false)
	}
	if b.refused && f.N == 0 && !told {
		b.refused = false
		b.say(tell.WhySentence(f, false), false)
	}
}

// sentenceNumber is a number for which sentence a reason is told with, whatever values stand in it; never 0.
func sentenceNumber(t words.Text) int64 {
	h := fnv.New32a()
	_, _ = h.Write([]byte(t.ID()))
	return int64(h.Sum32()) + 1
}
