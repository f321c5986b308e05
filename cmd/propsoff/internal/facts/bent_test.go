package facts

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/sim/arming"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// bent is a fact told wrongly on purpose; it reports false where there was nothing to bend.
type bent struct {
	name string
	bend func(*Facts) bool
}

// turn bends a field that has one value into another.
func turn[T comparable](field func(*Facts) *T, from, to T) func(*Facts) bool {
	return func(f *Facts) bool {
		p := field(f)
		if *p != from {
			return false
		}
		*p = to
		return true
	}
}

func hearingOf(f *Facts) *Hearing  { return &f.Hearing }
func silenceOf(f *Facts) *IfSilent { return &f.IfSilent }

// way bends whether a way disarms.
func way(w Way, from, to bool) func(*Facts) bool {
	return func(f *Facts) bool {
		if !f.Snap.Armed || f.Disarm[w].OK != from || from && f.Disarm[w].Ms > 0 && w == ByHand {
			return false
		}
		f.Disarm[w].OK = to
		return true
	}
}

// cure bends the cure of a refusal that is known.
func cure(r Refusal, bend func(*Plan)) func(*Facts) bool {
	return func(f *Facts) bool {
		for i := range f.Refusals() {
			if x := &f.Refusing[i]; x.Refusal == r && x.Cure.OK {
				bend(&x.Cure)
				return true
			}
		}
		return false
	}
}

func last(p *Plan) *Deed { return &p.Deed[p.N-1] }

var bents = []bent{
	{"a receiver that goes on by itself is taken for the radio", turn(hearingOf, ItsReceiver, TheRadio)},
	{"a craft that hears the radio is said to hear nothing, the radio being off", func(f *Facts) bool {
		if f.Hearing != TheRadio {
			return false
		}
		f.Hearing, f.Silent = Nothing, SwitchedOff
		return true
	}},
	{"a refusal is left out", func(f *Facts) bool {
		if f.N == 0 {
			return false
		}
		f.N--
		return true
	}},
	{"one is told that does not stand", func(f *Facts) bool {
		if _, stands := f.Of(arming.IsTilted); stands || f.N == len(f.Refusing) {
			return false
		}
		f.Refusing[f.N] = Refusing{Refusal: arming.IsTilted}
		f.N++
		return true
	}},
	{"the throttle is to go up", cure(arming.ThrottleUp, func(p *Plan) { last(p).Span = layout.Span{Low: pulse.Micros(1500), High: pulse.Highest} })},
	{"the arm switch is to go on to be seen off", cure(arming.OffFirst, func(p *Plan) {
		if last(p).Do == Move {
			last(p).Out = false
		} else {
			last(p).Do = Wait
		}
	})},
	{"the second switch is to go off", cure(arming.SecondSwitchOff, func(p *Plan) { last(p).Out = true })},
	{"a lost link is to be cured by the radio off", cure(arming.NoLink, func(p *Plan) { last(p).Do = RadioOff })},
	{"half the clean time", cure(arming.LinkTooFresh, func(p *Plan) { last(p).Ms, p.Within = last(p).Ms/2, 0 })},
	{"half the still time", cure(arming.NotYetStill, func(p *Plan) { last(p).Ms, p.Within = last(p).Ms/2, 0 })},
	{"a menu is to be left by waiting, a cable too", cure(arming.BeingSetUp, func(p *Plan) { last(p).Do, last(p).Ms = Wait, 500 })},
	{"another pack of no more volts", cure(arming.PackLow, func(p *Plan) { last(p).Ms = 9_000 })},
	{"no need to look the propellers over", cure(arming.PropellersUnchecked, func(p *Plan) { last(p).Do, last(p).Ms = Wait, 100 })},
	{"the way to arm without its last deed", func(f *Facts) bool {
		if !f.Arm.OK || f.Arm.Sudden || f.Arm.N < 2 {
			return false
		}
		f.Arm.N--
		return true
	}},
	{"the way to arm without its first deed", func(f *Facts) bool {
		if !f.Arm.OK || f.Arm.Sudden || f.Arm.N < 2 {
			return false
		}
		copy(f.Arm.Deed[:], f.Arm.Deeds()[1:])
		f.Arm.N--
		return true
	}},
	{"the arm corner held half as long", func(f *Facts) bool {
		if !f.Arm.OK || last(&f.Arm).Do != ToArm || last(&f.Arm).Ms < 200 {
			return false
		}
		last(&f.Arm).Ms, f.Arm.Within = last(&f.Arm).Ms/2, 0
		return true
	}},
	{"no way to arm where there is one", func(f *Facts) bool {
		if !f.Arm.OK || f.Arm.Sudden {
			return false
		}
		f.Arm = Plan{}
		return true
	}},
	{"the hand is said to disarm a craft that it does not reach", way(ByHand, false, true)},
	{"the hand is said to disarm what disarms by itself", func(f *Facts) bool {
		if !f.Snap.Armed || !f.Disarm[ByItself].OK || f.Disarm[ByHand].OK || f.Silent == NotSilent {
			return false
		}
		f.Disarm[ByHand] = f.Disarm[ByItself]
		return true
	}},
	{"a link that is lost again is taken for a cure", func(f *Facts) bool {
		for i := range f.Refusals() {
			if x := &f.Refusing[i]; x.Refusal == arming.LinkTooFresh && !x.Cure.OK && f.Unsure {
				x.Cure.OK, x.Cure.Within = true, 1000
				return true
			}
		}
		return false
	}},
	{"an instructor who has the sticks is left out", func(f *Facts) bool {
		x, up := f.Of(arming.ThrottleUp)
		if !up || !f.SticksTaken || x.Cure.OK || x.Cure.N == 0 || f.Unsure {
			return false
		}
		for i := range f.Refusals() {
			if r := &f.Refusing[i]; r.Refusal == arming.ThrottleUp {
				r.Cure.OK, r.Cure.Within = true, 40
			}
		}
		return true
	}},
	{"it is said to disarm by itself", way(ByItself, false, true)},
	{"it is not said that it disarms by itself", way(ByItself, true, false)},
	{"a silent radio is said to disarm a craft whose receiver goes on", way(BySilence, false, true)},
	{"it is not said that a silent radio disarms it", way(BySilence, true, false)},
	{"the pack is said not to disarm", way(ByPack, true, false)},
	{"the silence limit is told as half of what it is", func(f *Facts) bool {
		if f.IfSilent != Cuts || !f.Disarm[BySilence].OK {
			return false
		}
		f.Disarm[BySilence].Ms /= 2
		return true
	}},
	{"a craft that sinks is said to cut", turn(silenceOf, Sinks, Cuts)},
	{"one that cuts is said to sink", turn(silenceOf, Cuts, Sinks)},
	{"one that stored values disarm is said to lose the link", turn(silenceOf, DisarmsStored, Cuts)},
	{"one that stays armed is said to cut", turn(silenceOf, StaysArmed, Cuts)},
	{"one that its receiver arms is said to notice nothing", turn(silenceOf, ArmsItself, NeverNotices)},
	{"one that never notices is said to lose the link", turn(silenceOf, NeverNotices, StaysDisarmed)},
	{"one that the held corner disarms is said to stay armed", turn(silenceOf, DisarmsHeld, StaysArmed)},
}

// Each fact told wrongly is noticed by the check that the advice test makes.
func TestBentFactsAreNoticed(t *testing.T) {
	const situations = 6000
	var tell Teller
	open := map[int]bool{}
	for i := range bents {
		open[i] = true
	}
	for seed := uint64(1); seed <= situations && len(open) > 0; seed++ {
		s := newSituation(seed)
		f := tell.Of(s.p, s.whose)
		for i := range bents {
			g := f
			if open[i] && bents[i].bend(&g) && check(s, &g) != "" {
				delete(open, i)
			}
		}
	}
	for i := range open {
		assert.Fail(t, "not noticed", bents[i].name)
	}
	assert.GreaterOrEqual(t, len(bents), 20)
}
