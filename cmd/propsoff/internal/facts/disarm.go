package facts

import "propsoff.example/sim/practice"

// disarms tries every way to end the armed state.
func (t *Teller) disarms(f *Facts) {
	a := &t.cfg().Arming
	soon := t.slots(2)
	long := t.slots(t.cfg().Link.SilenceSlots) + t.slots(a.SinkSlots) + t.slots(a.DisarmDwell) + soon
	in := &t.snap.In
	for w := range Ways {
		within := soon
		switch w {
		case ByHand:
			if !f.Tried {
				continue
			}
		case ByItself:
			within = long
		case ByRadioBack:
			if !f.Tried || in.Transmitting() || f.Silent == Unread {
				continue
			}
		case BySilence:
			if !in.Transmitting() {
				continue
			}
			within = long
		}
		f.Disarm[w] = t.try(disarmed, within, t.deedsOf(w, t.deeds[:0])...)
	}
	if i := f.Disarm[ByItself]; i.OK { // what comes by itself is nobody else's doing
		for _, w := range [...]Way{ByHand, ByRadioBack, BySilence} {
			if o := &f.Disarm[w]; o.OK && o.Ms >= i.Ms && (w != ByHand || f.Silent != NotSilent) { // a hand may hold the corner already
				*o = Outcome{}
			}
		}
	}
}

// IfSilent is what comes of a radio that goes silent now.
type IfSilent uint8

const (
	Unchanged     IfSilent = iota // it is silent already, or the craft has no power
	Cuts                          // the craft takes the link for lost after the silence limit, and cuts
	Sinks                         // … and sinks, then cuts
	DisarmsStored                 // its receiver's stored values disarm it
	DisarmsHeld                   // its receiver repeats the disarm corner, which the sticks stand in, until that disarms
	StaysArmed                    // its receiver goes on sending: it stays armed
	ArmsItself                    // what its receiver sends arms it
	StaysDisarmed                 // it is not armed, and takes the link for lost
	NeverNotices                  // it is not armed, and its receiver goes on sending
	IfSilentCount                 // how many there are
)

// silence tries what comes if the radio goes silent.
func (t *Teller) silence(f *Facts) {
	if !t.snap.In.Transmitting() {
		return
	}
	was := t.snap.Armed
	a := &t.cfg().Arming
	within := t.slots(t.cfg().Link.SilenceSlots) + max(t.slots(a.DisarmDwell), t.slots(a.ArmDwell)) + t.slots(3)
	changed := t.try(func(p *practice.Practice) bool { return p.Bench().Armed() != was || p.Bench().Sinking() }, within, Deed{Do: RadioOff})
	b := t.what.Bench()
	switch {
	case changed.OK && b.Sinking():
		f.IfSilent = Sinks
	case changed.OK && was && !b.Believes():
		f.IfSilent = Cuts
	case changed.OK && was && b.Stored():
		f.IfSilent = DisarmsStored
	case changed.OK && was:
		f.IfSilent = DisarmsHeld
	case changed.OK:
		f.IfSilent = ArmsItself
	case was:
		f.IfSilent = StaysArmed
	case b.Believes():
		f.IfSilent = NeverNotices
	default:
		f.IfSilent = StaysDisarmed
	}
}
