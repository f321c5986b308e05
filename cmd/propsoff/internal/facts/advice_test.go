package facts

import (
	"flag"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/arming"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

var (
	situations = flag.Int("situations", inCI, "random situations in TestAdviceIsKept")
	firstSeed  = flag.Uint64("first", 1, "seed of the first of them")
)

// stirs: a craft outside lies tilted or does not stand still. Facts take such a craft to stay as it lies (sim.Bench.Leap), and it need not.
func stirs(p *practice.Practice) bool {
	r := p.Bench().Refusals()
	return p.Bench().State().In.Air && (r.Has(arming.IsTilted) || r.Has(arming.NotYetStill))
}

// check holds every fact of a situation against what comes of it. It is what bent facts must fail (bent_test.go).
func check(s *situation, f *Facts) (wrong string) {
	for _, c := range [...]func(*situation, *Facts) string{whatIsHeard, refusing, arming_, disarming, silences, nexts} {
		if wrong = c(s, f); wrong != "" {
			return wrong
		}
	}
	return ""
}

func TestAdviceIsKept(t *testing.T) {
	var tell Teller
	seen := map[string]int{}
	for i := range *situations {
		s := newSituation(*firstSeed + uint64(i))
		f := tell.Of(s.p, s.whose)
		if wrong := check(s, &f); wrong != "" {
			require.Fail(t, wrong, "seed %d: %+v", *firstSeed+uint64(i), s)
		}
		f.count(seen)
	}
	t.Logf("%v", seen)
	if *situations >= 2000 { // the test is worth something only where everything is met
		for n := range NextCount {
			assert.NotZero(t, seen["next "+nextName[n]], "no situation asked for %s", nextName[n])
		}
		for r := range RefusalsKnown() {
			assert.NotZero(t, seen[refusalName(r)], "no situation was refused by %d", r)
		}
		for n := range IfSilentCount {
			assert.NotZero(t, seen[silenceName[n]], "no situation had silence %s", silenceName[n])
		}
	}
}

var nextName = [NextCount]string{"watch", "pack", "disarm-by-hand", "disarm-needs", "disarm-by-back", "disarms-itself", "disarm-by-pack", "arm", "cure-then-arm",
	"clear-then-arm", "switch-over", "radio", "cannot-arm"}

var silenceName = [IfSilentCount]string{"unchanged", "cuts", "sinks", "disarms-stored", "disarms-held", "stays-armed", "arms-itself", "stays-disarmed", "never-notices"}

// RefusalsKnown are those of today.
func RefusalsKnown() map[Refusal]bool {
	out := map[Refusal]bool{}
	for _, r := range arming.Shown() {
		out[r] = true
	}
	return out
}

func refusalName(r Refusal) string { return "refusal " + string(rune('a'+r)) }

func (f *Facts) count(seen map[string]int) {
	seen["next "+nextName[f.Next()]]++
	seen[silenceName[f.IfSilent]]++
	for _, r := range f.Refusals() {
		seen[refusalName(r.Refusal)]++
		if !r.Cure.OK {
			seen["no cure"]++
		}
	}
	for w := range f.Disarm {
		if f.Disarm[w].OK {
			seen["way "+string(rune('0'+w))]++
		}
	}
}

// whatIsHeard: what the craft hears is what it hears.
func whatIsHeard(s *situation, f *Facts) string {
	if f.Hearing == NoPower {
		return ""
	}
	moved := func(c int8) bool {
		h := s.takesOver()
		h.until(func(*practice.Practice) bool { return false }, 1)
		was := h.p.Bench().Received()[c]
		h.f[c] = pulse.Micros(1431)
		h.show()
		return h.until(func(p *practice.Practice) bool { return p.Bench().Received()[c] != was }, 3*int32(s.cfg.SlotTicks))
	}
	roll := s.cfg.Layout.Roll
	switch f.Hearing {
	case ItsReceiver, Nothing:
		if f.Silent == SwitchedOff && moved(roll) {
			return "a stick reaches a craft that hears nothing of the radio"
		}
	case TheRadio:
		if !f.Unsure && f.Silent == NotSilent && !moved(roll) {
			return "a stick does not reach a craft that hears the radio"
		}
	}
	if f.Hearing == TheRadio && f.Snap.Origin != link.FromRadio || f.Hearing == ItsReceiver && f.Snap.Origin == link.FromStore && f.Craft.Link.OnLoss != link.SendsStored {
		return "frames are not from where it is said"
	}
	return ""
}

// refusing: every refusal that stands is told, and its cure ends it.
func refusing(s *situation, f *Facts) string {
	now := s.p.Bench().Refusals()
	told := Set(0)
	for _, x := range f.Refusals() {
		told = told.With(x.Refusal, true)
		gone := func(p *practice.Practice) bool {
			now := p.Bench().Refusals()
			return !now.Has(x.Refusal) && !(x.Refusal == arming.LinkTooFresh && now.Has(arming.NoLink)) // the link is there then
		}
		if x.Cure.OK {
			if s.whose.Hand == Played && (x.Cure.N != 1 || x.Cure.Deed[0].Do != Wait) {
				return "a cure for what plays to do: " + refusalName(x.Refusal)
			}
			if ok, why := s.keeps(gone, x.Cure.Within, x.Cure.Deeds()...); !ok {
				return "the cure of refusal " + refusalName(x.Refusal) + " fails: " + why
			}
			continue
		}
		if f.Snap.Armed || x.Cure.N == 0 || !f.Tried {
			continue
		}
		// What is said then is only what the craft must read: with every fault lifted and a hand that can do everything, that ends it.
		whole := *s
		whole.p = &practice.Practice{}
		s.p.CopyTo(whole.p)
		whole.whose.Reach, whole.whose.Taken = nil, 0
		whole.step(pulse.Reading{Kind: pulse.Instructor, Value: fault.LiftAll()}, pulse.Reading{Kind: pulse.Link, Value: 1}, pulse.Reading{Kind: pulse.Plug, Value: 1})
		if x.Refusal == arming.ThrottleUp || x.Refusal == arming.SecondSwitchOff {
			if ok, why := whole.keeps(gone, x.Cure.Within+int32(s.cfg.SlotTicks), x.Cure.Deeds()...); !ok {
				return "what is needed against refusal " + refusalName(x.Refusal) + " does not help: " + why
			}
		}
	}
	if told != now {
		return "the refusals that are told are not those that stand"
	}
	return ""
}

// arming_: the plan arms; and where it says that nothing refuses, moving the arm control alone does.
func arming_(s *situation, f *Facts) string {
	if !f.Arm.OK {
		return ""
	}
	if f.Snap.Armed {
		return "a plan to arm an armed craft"
	}
	if f.Believes() && f.Snap.SilentMillis > 0 {
		return "" // the link is lost in a moment, and the plan is for whoever is quicker than that
	}
	var last *practice.Practice
	reached := func(p *practice.Practice) bool { last = p; return armed(p) }
	if ok, why := s.keeps(reached, f.Arm.Within, f.Arm.Deeds()...); !ok && !stirs(s.p) && (last == nil || !stirs(last)) {
		return "the plan does not arm: " + why
	}
	return ""
}

// disarming: each way that is said to disarm does, within its time, and each that is said not to does not.
func disarming(s *situation, f *Facts) string {
	if !f.Snap.Armed {
		for w := range f.Disarm {
			if f.Disarm[w].OK {
				return "a way to disarm a disarmed craft"
			}
		}
		return ""
	}
	t := Teller{hand: s.whose.Hand, reach: s.whose.Reach, taken: s.whose.Taken}
	s.p.CopyTo(&t.now)
	t.now.Snapshot(&t.snap)
	a := &f.Craft.Arming
	slot := int32(s.cfg.SlotTicks)
	long := slot * int32(f.Craft.Link.SilenceSlots+a.SinkSlots+a.DisarmDwell+3)
	for w, o := range f.Disarm {
		deeds := t.deedsOf(Way(w), nil)
		if o.OK {
			within := o.Ms
			for _, d := range deeds {
				within -= d.Ms
			}
			if ok, why := s.keeps(disarmed, max(within, 0), deeds...); !ok {
				return "way " + string(rune('0'+w)) + " to disarm fails: " + why
			}
			if h := s.takesOver(); (Way(w) == ByHand && f.Silent != NotSilent || Way(w) == ByRadioBack) && h.until(disarmed, o.Ms) {
				return "way " + string(rune('0'+w)) + " is said to disarm what disarms by itself"
			}
		}
	}
	if !f.Disarm[ByItself].OK {
		h := s.takesOver()
		if h.until(disarmed, long) {
			return "it disarms by itself, and that is not said"
		}
	}
	if !f.Disarm[ByPack].OK {
		return "the pack always disarms"
	}
	if f.Snap.In.Transmitting() && !f.Disarm[BySilence].OK && !f.Disarm[ByItself].OK {
		if ok, _ := s.keeps(disarmed, long, Deed{Do: RadioOff}); ok {
			return "a silent radio disarms it, and that is not said"
		}
	}
	if f.Tried && !f.Reaches() && !f.Disarm[ByItself].OK {
		return nothingReaches(s, f)
	}
	if f.Next() == NextDisarmNeeds {
		return needs(s, f)
	}
	return ""
}

// nothingReaches tries every single movement of a control, and the disarm corner: none may disarm.
func nothingReaches(s *situation, f *Facts) string {
	if s.p.Faults().All().Has(fault.Dropouts) {
		return "" // that is true of now: the radio may be heard again in the next moment
	}
	wait := int32(s.cfg.SlotTicks) * 4
	for c := range int8(8) {
		for _, w := range s.takesOver().places(c) {
			h := s.takesOver()
			h.f[c] = w
			h.show()
			if h.until(disarmed, wait) {
				return "moving a control disarms it, and the hand is said not to reach it"
			}
		}
	}
	if f.BySticks {
		h := s.takesOver()
		if h.do(Deed{Do: ToDisarm, Ms: int32(f.Craft.Arming.DisarmDwell) * int32(s.cfg.SlotTicks)}) && h.until(disarmed, wait) {
			return "the disarm corner disarms it, and the hand is said not to reach it"
		}
	}
	return ""
}

// needs: what the craft is said to have to read disarms it, when every fault is lifted and a hand that can do all does it.
func needs(s *situation, f *Facts) string {
	whole := *s
	whole.p = &practice.Practice{}
	s.p.CopyTo(whole.p)
	whole.whose.Reach, whole.whose.Taken = nil, 0
	whole.step(pulse.Reading{Kind: pulse.Instructor, Value: fault.LiftAll()})
	h := whole.takesOver()
	for c, w := range h.f { // where a channel carries no pulse, that is said too
		if f.Craft.Link.Needed>>c&1 == 1 && !w.Valid() {
			h.f[c] = pulse.Centre
		}
	}
	whole.step(pulse.Reading{Kind: pulse.Controls, Frame: h.f})
	d := Deed{Do: Move, Channel: f.Craft.Layout.Arm, Span: f.Craft.Layout.ArmSpan, Out: true}
	if f.BySticks {
		d = Deed{Do: ToDisarm, Ms: int32(f.Craft.Arming.DisarmDwell) * int32(s.cfg.SlotTicks)}
	}
	if ok, why := whole.keeps(disarmed, 2*int32(s.cfg.SlotTicks), d); !ok {
		return "what the craft is said to have to read does not disarm it: " + why
	}
	return ""
}

// silences: what is said to come of a silent radio comes.
func silences(s *situation, f *Facts) string {
	in := &f.Snap.In
	if f.IfSilent == Unchanged {
		if in.Powered && in.Transmitting() {
			return "a radio that sends is said to be silent"
		}
		return ""
	}
	h := s.takesOver()
	h.tell(pulse.Link, 0)
	slot := int32(s.cfg.SlotTicks)
	h.until(func(*practice.Practice) bool { return false }, slot)
	a := &f.Craft.Arming
	within := slot * int32(f.Craft.Link.SilenceSlots+max(a.DisarmDwell, a.ArmDwell)+4)
	was := f.Snap.Armed
	changed := h.until(func(p *practice.Practice) bool { return p.Bench().Armed() != was || p.Bench().Sinking() }, within)
	b := h.p.Bench()
	var came IfSilent
	switch {
	case !changed && was:
		came = StaysArmed
	case !changed && b.Believes():
		came = NeverNotices
	case !changed:
		came = StaysDisarmed
	case b.Sinking():
		came = Sinks
	case !was:
		came = ArmsItself
	case !b.Believes():
		came = Cuts
	case f.Craft.Link.OnLoss == link.SendsStored:
		came = DisarmsStored
	default:
		came = DisarmsHeld
	}
	if came != f.IfSilent && !(f.IfSilent == ArmsItself && (stirs(s.p) || stirs(h.p))) {
		return "a silent radio brings " + silenceName[came] + ", not " + silenceName[f.IfSilent]
	}
	return ""
}

// nexts: what there is to do now leads to what it is for.
func nexts(s *situation, f *Facts) string {
	n := f.Next()
	switch n {
	case NextPack:
		if ok, _ := s.keeps(func(p *practice.Practice) bool { return p.Bench().Config() != nil && p.Bench().State().In.Powered }, 1, Deed{Do: PackIn}); !ok {
			return "the pack gives no power"
		}
		return packFirst(s, f)
	case NextDisarmByHand, NextDisarmNeeds, NextDisarmItself, NextDisarmByBack, NextDisarmByPack:
		if !f.Snap.Armed {
			return "told to disarm what is not armed"
		}
	case NextArm, NextCureThenArm, NextClearThenArm, NextSwitchOver, NextRadio, NextCannotArm:
		if f.Snap.Armed {
			return "told to arm what is armed"
		}
		if n == NextArm && f.N != 0 {
			return "told to arm while something refuses"
		}
		if n == NextCannotArm && !f.Arm.Sudden {
			return cannotArm(s, f)
		}
	}
	if n != NextWatch && s.whose.Hand <= NoHand {
		return "told to do something where nobody can"
	}
	return ""
}

// packFirst: what the hand is said to hold refuses arming once the pack is in and the link there, and what it is not said to hold does not.
func packFirst(s *situation, f *Facts) string {
	h := s.takesOver()
	h.p.Step([]pulse.Reading{{Kind: pulse.Plug, Value: 1}, {Kind: pulse.Link, Value: 1}, {Kind: pulse.Power, Value: 1}, {Kind: pulse.Controls, Frame: h.f}})
	if h.p.Faults().All()&(1<<fault.Dropouts|1<<fault.Noisy|1<<fault.RadioOff|1<<fault.ChannelOut) != 0 || s.whose.Taken != 0 || s.whose.Hand <= NoHand ||
		!h.until(func(p *practice.Practice) bool {
			return p.Bench().Believes() && p.Bench().Refusals()&(1<<arming.NoLink|1<<arming.LinkTooFresh) == 0
		}, 4000) {
		return ""
	}
	now := h.p.Bench().Refusals()
	for _, x := range []struct {
		told bool
		by   Refusal
		out  Deed
	}{
		{f.HoldsUp, arming.ThrottleUp, Deed{Channel: s.cfg.Layout.Throttle, Span: layout.Span{Low: pulse.Lowest, High: s.cfg.Arming.LowThrottle}}},
		{f.HoldsOn, arming.OffFirst, Deed{Channel: max(s.cfg.Layout.Arm, 0), Span: s.cfg.Layout.ArmSpan, Out: true}},
	} {
		if x.told && !now.Has(x.by) {
			return "the hand is told to bring down what stands low"
		}
		if !x.told && now.Has(x.by) && !f.BySticks && h.bring(x.out) {
			return "the pack is to go in before what stands on or high is brought down"
		}
	}
	return ""
}

// cannotArm: with nothing but the hand's own controls and keys, tried one after the other against each refusal, it does not come to be
// armed.
func cannotArm(s *situation, f *Facts) string {
	h := s.takesOver()
	if h.p.Faults().All()&(1<<fault.Dropouts|1<<fault.Noisy|1<<fault.Swapped) != 0 || f.Snap.In.Air || !f.Reaches() {
		return "" // time alone may bring the link back or the craft level, chance or a receiver a value; and who moves the wrong stick may find the right one
	}
	if f.BySticks && f.SticksTaken || h.until(armed, int32(s.cfg.SlotTicks)) {
		return "" // an instructor's sticks may be about to arm; what the hand did last had not reached the craft yet
	}
	cfg := h.cfg()
	l, slot := &cfg.Layout, int32(cfg.SlotTicks)
	for _, d := range []Deed{{Do: PlugIn}, {Do: RadioOn}, {Do: StickMoves}, {Do: CableOut}, {Do: MenuClosed}, {Do: SetLevel}, {Do: LookedOver}} {
		h.do(d)
	}
	h.do(Deed{Do: Move, Channel: l.Throttle, Span: layout.Span{Low: pulse.Lowest, High: cfg.Arming.LowThrottle}})
	if l.Second != layout.NoChannel {
		h.do(Deed{Do: Move, Channel: l.Second, Span: l.SecondSpan})
	}
	if f.BySticks {
		h.do(Deed{Do: LeaveCorner})
	} else {
		h.do(Deed{Do: Move, Channel: l.Arm, Span: l.ArmSpan, Out: true})
	}
	h.until(func(p *practice.Practice) bool { return p.Bench().Refusals() == 0 }, 6000)
	if h.p.Bench().Refusals() != 0 || h.p.Bench().Armed() {
		return ""
	}
	last := Deed{Do: Move, Channel: l.Arm, Span: l.ArmSpan}
	if f.BySticks {
		last = Deed{Do: ToArm, Ms: int32(cfg.Arming.ArmDwell) * slot}
	}
	if h.do(last) && h.until(armed, 3*slot) {
		return "said that nothing arms it, and this does"
	}
	return ""
}
