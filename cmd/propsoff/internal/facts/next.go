package facts

import "propsoff.example/sim/arming"

// Next is what there is to do now, as a code; its deeds stand in the facts.
type Next uint8

const (
	NextWatch        Next = iota // nobody could do anything: what there is, is told
	NextPack                     // connect the pack
	NextDisarmByHand             // disarm by the arm switch, or by the disarm corner
	NextDisarmNeeds              // the craft hears the radio, and this hand does not bring about what it must read: that is told
	NextDisarmByBack             // disarm by the radio back
	NextDisarmItself             // wait: it disarms by itself
	NextDisarmByPack             // disarm by pulling the pack: nothing else does
	NextArm                      // arm: nothing refuses
	NextCureThenArm              // clear the one thing that refuses, then arm
	NextClearThenArm             // clear all that refuses, then arm
	NextSwitchOver               // the arm control stands at on, yet the craft is disarmed: off, clear what refuses, on
	NextRadio                    // the radio first: without it nobody knows what refuses
	NextCannotArm                // no way was found in which this hand arms it
	NextCount                    // how many there are
)

// Next says what there is to do now.
func (f *Facts) Next() Next {
	s := &f.Snap
	switch {
	case f.Watched || !f.Tried && f.Hearing != NoPower:
		return NextWatch
	case f.Hearing == NoPower:
		return NextPack
	case s.Armed:
		return f.nextArmed()
	case !f.Arm.OK:
		return NextCannotArm
	}
	first := f.Arm.Deed[0]
	switch {
	case first.Do == RadioOn || first.Do == PlugIn, f.Hearing != TheRadio && len(f.RadioFirst()) > 0:
		return NextRadio
	case f.Arm.Sudden:
		return NextCannotArm
	case f.Arm.N == 1:
		return NextArm
	}
	if f.standsAtOn() {
		return NextSwitchOver
	}
	if f.N == 1 && f.Arm.N == 2 {
		return NextCureThenArm
	}
	return NextClearThenArm
}

// standsAtOn: the craft sees its arm control at on, and must see it off first.
func (f *Facts) standsAtOn() bool {
	if f.BySticks {
		_, spent := f.Of(arming.OffFirst)
		return spent
	}
	return f.Believes() && f.ArmOn()
}

// nextArmed is the gentlest way that ends the armed state: by the hand; by waiting; by the radio, where it is the silent radio that
// keeps the hand from it; and by the pack, which always does.
func (f *Facts) nextArmed() Next {
	d := &f.Disarm
	switch {
	case d[ByHand].OK:
		return NextDisarmByHand
	case d[ByItself].OK && f.Silent != NotSilent:
		return NextDisarmItself
	case f.Reaches():
		return NextDisarmNeeds
	case d[ByRadioBack].OK:
		return NextDisarmByBack
	}
	return NextDisarmByPack
}

// Reaches: frames of the radio's come to the craft, so that what the hand does may reach it. Where they do not, nothing that sticks and
// switches do reaches it.
func (f *Facts) Reaches() bool { return f.Hearing == TheRadio || f.Hearing == Damaged }

// RadioFirst are the deeds of the plan to arm up to the one that brings the radio back, none where it is there.
func (f *Facts) RadioFirst() []Deed {
	for i, d := range f.Arm.Deeds() {
		if d.Do == RadioOn || d.Do == PlugIn {
			return f.Arm.Deed[:i+1]
		}
	}
	return nil
}

// RadioWaits tells whether Next asks for something else of sticks or switches before the radio comes back.
func (f *Facts) RadioWaits() bool {
	first := f.RadioFirst()
	return f.Next() == NextRadio && len(first) > 0 && (first[0].Do == Move || first[0].Do == LeaveCorner)
}

// Asked is what the sentence of Next asks of sticks and switches first; ok is false where it asks nothing of them, or where something planted bends what
// the hand does, so that it can only name what must be read.
func (f *Facts) Asked() (d Deed, ok bool) {
	if f.Plain || f.Unsure {
		return d, false
	}
	switch n := f.Next(); {
	case n == NextArm, n == NextCureThenArm && f.ThrottleUp():
		d = f.Arm.Deed[0]
	case n == NextDisarmByHand && f.BySticks:
		d.Do = ToDisarm
	case n == NextSwitchOver && f.BySticks:
		d.Do = LeaveCorner
	case n == NextDisarmByHand, n == NextSwitchOver:
		d = Deed{Do: Move, Channel: f.Craft.Layout.Arm, Span: f.Craft.Layout.ArmSpan, Out: true}
	}
	return d, d.Do == Move || d.Do == ToArm || d.Do == ToDisarm || d.Do == LeaveCorner
}
