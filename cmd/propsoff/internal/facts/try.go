package facts

import (
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// Teller tries what would be. It keeps its room from time to time, and belongs to one goroutine. The zero value is ready.
type Teller struct {
	now, what practice.Practice // as it is; as it would be
	snap      sim.Snapshot      // of now
	hand      Hand
	reach     *handset.Radio
	taken     uint16
	frame     pulse.Frame // what the made hand holds in what
	told      [1]pulse.Reading
	deeds     [8]Deed // room for the deeds of one way
	sinking   sinking // what was found of the sinking that goes on
	piloted   piloted
}

// Whose is the hand that things are tried with. Reach is what its radio can send, nil where that is not known: then every control goes
// from 988 to 2012 µs.
// Taken has the bit of every channel that an instructor's radio moves, or holds off, in the hand's stead.
type Whose struct {
	Hand  Hand
	Reach *handset.Radio
	Taken uint16
}

// Of gives the facts of a practice as it stands, for a hand. The practice is left as it is.
func (t *Teller) Of(p *practice.Practice, w Whose) Facts {
	p.CopyTo(&t.now)
	t.hand, t.reach, t.taken = w.Hand, w.Reach, w.Taken
	t.now.Snapshot(&t.snap)
	f := Seen(&t.snap, t.now.Bench().Config())
	f.planted(&t.now)
	f.Nobody, f.Watched = w.Hand == Nobody, w.Hand <= NoHand
	f.ByKeys = w.Hand == Keyboard
	l := &f.Craft.Layout
	f.SticksTaken, f.ArmHeld = w.Taken>>l.Throttle&1 == 1, l.Arm != layout.NoChannel && w.Taken>>l.Arm&1 == 1
	if !t.snap.In.Powered {
		if w.Hand > NoHand {
			t.holds(&f)
		}
		return f
	}
	f.Tried = !f.Watched
	t.silence(&f)
	t.sink(&f)
	if t.snap.Armed {
		t.disarms(&f)
		return f
	}
	for i := range f.Refusals() {
		t.cure(&f.Refusing[i])
	}
	if s := &f.Snap; f.Tried && !(s.In.Air && s.Air.Flying) { // how a falling craft will lie, nobody knows
		t.arms(&f)
	}
	return f
}

func (t *Teller) cfg() *sim.Config { return t.now.Bench().Config() }

// begin takes what is for the beginning of what would be.
func (t *Teller) begin() {
	t.now.CopyTo(&t.what)
	if own := t.what.Hands(); own != nil {
		t.frame = *own
	} else {
		t.frame = t.resting()
	}
}

// resting is what hands hold that nobody has moved yet: throttle low, sticks in the middle, switches low.
func (t *Teller) resting() pulse.Frame {
	var f pulse.Frame
	for c := range f {
		f[c] = pulse.Low
	}
	l := &t.cfg().Layout
	f[l.Roll], f[l.Pitch], f[l.Yaw] = pulse.Centre, pulse.Centre, pulse.Centre
	return f
}

// goal is what a try is to come to.
type goal func(*practice.Practice) bool

func disarmed(p *practice.Practice) bool { return !p.Bench().Armed() }
func armed(p *practice.Practice) bool    { return p.Bench().Armed() }
func always(*practice.Practice) bool     { return true }

// wait leaps until the goal is reached, at most ms; it gives the time that passed.
func (t *Teller) wait(reached goal, ms int32) Outcome {
	from := t.what.Tick()
	for {
		if reached(&t.what) {
			return Outcome{OK: true, Ms: int32(t.what.Tick() - from)}
		}
		if t.what.Tick()-from >= int64(ms) {
			return Outcome{}
		}
		t.what.Leap(nil)
	}
}

// try does deeds one after the other from what is now, then waits for the goal. Holding a corner ends as soon as the goal is reached.
func (t *Teller) try(reached goal, ms int32, deeds ...Deed) Outcome {
	t.begin()
	from := t.what.Tick()
	for _, d := range deeds {
		if !t.do(d, reached) {
			return Outcome{}
		}
	}
	out := t.wait(reached, ms)
	out.Ms = int32(t.what.Tick() - from)
	return out
}

// do does one deed in what would be; false where the hand cannot.
func (t *Teller) do(d Deed, reached goal) bool {
	l := &t.cfg().Layout
	put := func(k pulse.Kind, v int32) bool {
		t.told[0] = pulse.Reading{Kind: k, Value: v}
		t.what.Leap(t.told[:1])
		return true
	}
	switch d.Do {
	case Move:
		return t.hand > NoHand && t.move(d)
	case LeaveCorner:
		return t.hand > NoHand && t.move(Deed{Do: Move, Channel: l.Yaw, Span: t.neither()})
	case StickMoves:
		return t.hand > NoHand && t.hold()
	case ToArm, ToDisarm:
		return t.hand > NoHand && t.corner(d, reached)
	case Wait:
		t.wait(reached, d.Ms)
		return true
	case RadioOn:
		return put(pulse.Link, 1)
	case RadioOff:
		return put(pulse.Link, 0)
	case PlugIn:
		return put(pulse.Plug, 1)
	case PackIn:
		return put(pulse.Power, 1)
	case PackOut:
		return put(pulse.Power, 0)
	case AnotherPack:
		return put(pulse.Pack, d.Ms)
	case CableOut:
		return put(pulse.Cable, 0)
	case MenuClosed:
		return put(pulse.Menu, pulse.MenuClosed)
	case SetLevel:
		return put(pulse.Tilt, 0)
	case LookedOver:
		return put(pulse.Propellers, pulse.PropellersValue(t.what.Bench().Config().Body.Turns, true))
	}
	return false
}

// neither is where yaw is in neither corner.
func (t *Teller) neither() layout.Span {
	a := &t.cfg().Arming
	return layout.Span{Low: a.LeaveLeft + 1, High: a.LeaveRight}
}

// corner brings both sticks into a corner and holds them there.
func (t *Teller) corner(d Deed, reached goal) bool {
	cfg := t.cfg()
	a, l := &cfg.Arming, &cfg.Layout
	yaw := layout.Span{Low: a.YawRight, High: pulse.Highest}
	if d.Do == ToDisarm {
		yaw = layout.Span{Low: pulse.Lowest, High: a.YawLeft + 1}
	}
	thr := layout.Span{Low: pulse.Lowest, High: a.LowThrottle}
	if !t.put(Deed{Channel: l.Throttle, Span: thr}) || !t.put(Deed{Channel: l.Yaw, Span: yaw}) {
		return false
	}
	t.hold()
	t.wait(reached, d.Ms+2*t.slots(1))
	return true
}

// move brings one channel to where it should be read, and lets the craft read it.
func (t *Teller) move(d Deed) bool { return t.put(d) && t.hold() }

// hold gives the craft what the hand holds.
func (t *Teller) hold() bool {
	t.told[0] = pulse.Reading{Kind: pulse.Controls, Frame: t.frame}
	t.what.Leap(t.told[:])
	return true
}

// put sets one channel of the hand so that the craft reads it where it should be, as far from the edges of that as the hand can; false
// where it cannot.
func (t *Teller) put(d Deed) bool {
	best, most := pulse.Width(0), pulse.Width(-1)
	consider := func(w pulse.Width) {
		read, trembles := t.read(d.Channel, w)
		if !d.Done(read) || !d.Done(read-trembles) || !d.Done(read+trembles) {
			return
		}
		m := d.Span.Margin(read)
		if d.Out {
			m = -m
		}
		if m > most {
			best, most = w, m
		}
	}
	consider(t.frame[d.Channel]) // where it stands already
	if t.taken>>d.Channel&1 == 1 {
		return most >= 0
	}
	if t.reach == nil {
		travel(pulse.Low, pulse.High, consider)
	} else if c := t.reach.On(d.Channel); c != nil && c.Kind != handset.Switch {
		travel(c.Low, c.High, consider)
	} else if c != nil {
		for i := range c.Positions {
			consider(c.Positions[i].Width)
		}
	}
	if most < 0 {
		return false
	}
	t.frame[d.Channel] = best
	return true
}

// travel considers places from end to end.
func travel(low, high pulse.Width, consider func(pulse.Width)) {
	const places = 128
	for i := range int32(places + 1) {
		consider(low + pulse.Width(int32(high-low)*i/places))
	}
}

// read is how the craft reads a channel when the hand holds it at w, for what is planted bends it; and by how much it trembles to either
// side of that.
func (t *Teller) read(channel int8, w pulse.Width) (read, trembles pulse.Width) {
	f := t.frame
	f[channel] = w
	bent := *t.what.Faults()
	tick := t.what.Tick()
	bent.Take(&pulse.Reading{Kind: pulse.Controls, Frame: f}, tick)
	if number, noisy := bent.Planted(fault.Noisy); noisy {
		on, most := fault.Numbers(fault.Noisy, number)
		if number, swapped := bent.Planted(fault.Swapped); swapped { // what trembles is read in the other's place
			switch a, b := fault.Numbers(fault.Swapped, number); on {
			case a:
				on = b
			case b:
				on = a
			}
		}
		if int8(on-1) == channel {
			trembles = pulse.Width(most) * pulse.Eighths
		}
		bent.Take(&pulse.Reading{Kind: pulse.Instructor, Value: fault.Lift(fault.Noisy)}, tick)
	}
	out, _ := bent.Frame(tick)
	return out[channel], trembles
}

// bySticks reports whether the craft arms by sticks.
func (t *Teller) bySticks() bool { return t.cfg().Arming.By == arming.BySticks }
