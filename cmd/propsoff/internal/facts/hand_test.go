package facts

import (
	"propsoff.example/sim"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// hand carries out what a fact says, on a copy of the practice, millisecond by millisecond; it knows nothing of how the fact was found.
type hand struct {
	s *situation
	p *practice.Practice
	f pulse.Frame
}

func (s *situation) takesOver() *hand {
	h := &hand{s: s, p: &practice.Practice{}}
	s.p.CopyTo(h.p)
	h.f = s.frame
	if own := h.p.Hands(); own != nil {
		h.f = *own
	}
	return h
}

func (h *hand) tell(k pulse.Kind, v int32) { h.p.Step([]pulse.Reading{{Kind: k, Value: v}}) }
func (h *hand) show()                      { h.p.Step([]pulse.Reading{{Kind: pulse.Controls, Frame: h.f}}) }
func (h *hand) cfg() *sim.Config           { return h.p.Bench().Config() }

// until steps until a thing is so, at most ms, and tells whether it came.
func (h *hand) until(so func(*practice.Practice) bool, ms int32) bool {
	for range ms {
		if so(h.p) {
			return true
		}
		h.p.Step(nil)
	}
	return so(h.p)
}

// places are where the hand can hold a channel.
func (h *hand) places(c int8) []pulse.Width {
	var out []pulse.Width
	if h.s.whose.Taken>>c&1 == 1 {
		return nil
	}
	low, high := pulse.Low, pulse.High
	if r := h.s.whose.Reach; r != nil {
		k := r.On(c)
		if k == nil {
			return nil
		}
		if k.Kind == handset.Switch {
			for _, p := range k.Positions {
				out = append(out, p.Width)
			}
			return out
		}
		low, high = k.Low, k.High
	}
	for i := range int32(65) {
		out = append(out, low+pulse.Width(int32(high-low)*i/64))
	}
	return out
}

// bring moves one control through its places and holds it in the middle of those where the channel reads as asked, for a few slots
// together, so that what trembles does not pass for it; false where it never does. What the craft would read without a link is seen on a
// copy with everything else whole.
func (h *hand) bring(d Deed) bool {
	was := h.f[d.Channel]
	if h.reads(d) {
		h.show()
		return true
	}
	var good []pulse.Width
	for _, w := range h.places(d.Channel) {
		if h.f[d.Channel] = w; h.reads(d) {
			good = append(good, w)
		} else if len(good) > 0 {
			break // enough: one stretch of places
		}
	}
	if len(good) == 0 {
		h.f[d.Channel] = was
		return false
	}
	h.f[d.Channel] = good[len(good)/2]
	h.show()
	return true
}

func (h *hand) reads(d Deed) bool {
	var look practice.Practice
	h.p.CopyTo(&look)
	var all []pulse.Reading
	for _, f := range []pulse.Deed{fault.RadioOff, fault.Dropouts} {
		all = append(all, pulse.Reading{Kind: pulse.Instructor, Value: fault.Lift(f)})
	}
	look.Step(append(all, pulse.Reading{Kind: pulse.Link, Value: 1}, pulse.Reading{Kind: pulse.Plug, Value: 1}, pulse.Reading{Kind: pulse.Power, Value: 1},
		pulse.Reading{Kind: pulse.Controls, Frame: h.f}))
	slot, watched := int(h.cfg().SlotTicks), 4
	if look.Faults().All().Has(fault.Noisy) { // a hand that looks at what trembles looks longer
		watched = 60
	}
	for i := range watched * slot {
		look.Step(nil)
		if i >= slot && !d.Done(look.Bench().Received()[d.Channel]) {
			return false
		}
	}
	return true
}

// do carries out one deed; false where it cannot be done.
func (h *hand) do(d Deed) bool {
	cfg := h.cfg()
	a, l := &cfg.Arming, &cfg.Layout
	switch d.Do {
	case Move:
		return h.bring(d)
	case LeaveCorner:
		return h.bring(Deed{Channel: l.Yaw, Span: layout.Span{Low: pulse.Micros(1400), High: pulse.Micros(1600)}})
	case StickMoves:
		if h.s.whose.Taken>>l.Roll&1 == 0 {
			h.f[l.Roll] = pulse.Micros(1520)
		}
		h.show()
	case ToArm, ToDisarm:
		yaw := layout.Span{Low: a.YawRight, High: pulse.Highest}
		if d.Do == ToDisarm {
			yaw = layout.Span{Low: pulse.Lowest, High: a.YawLeft + 1}
		}
		if !h.bring(Deed{Channel: l.Throttle, Span: layout.Span{Low: pulse.Lowest, High: a.LowThrottle}}) || !h.bring(Deed{Channel: l.Yaw, Span: yaw}) {
			return false
		}
		h.until(func(*practice.Practice) bool { return false }, d.Ms)
	case Wait:
		h.until(func(*practice.Practice) bool { return false }, d.Ms)
	case RadioOn, RadioOff:
		h.tell(pulse.Link, int32(btoi(d.Do == RadioOn)))
	case PlugIn:
		h.tell(pulse.Plug, 1)
	case PackIn, PackOut:
		h.tell(pulse.Power, int32(btoi(d.Do == PackIn)))
	case AnotherPack:
		h.tell(pulse.Pack, d.Ms+100)
	case CableOut:
		h.tell(pulse.Cable, 0)
	case MenuClosed:
		h.tell(pulse.Menu, pulse.MenuClosed)
	case SetLevel:
		h.tell(pulse.Tilt, 0)
	case LookedOver:
		h.tell(pulse.Propellers, pulse.PropellersValue(cfg.Body.Turns, true))
	default:
		return false
	}
	return true
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

// keeps carries out deeds one after the other, a slot between them, and looks whether what was promised comes within ms of the last.
func (s *situation) keeps(so func(*practice.Practice) bool, within int32, deeds ...Deed) (ok bool, why string) {
	h := s.takesOver()
	slot := int32(s.cfg.SlotTicks)
	for i, d := range deeds {
		switch {
		case d.Do == Wait && h.until(so, d.Ms): // it may be over again soon, where frames drop out
			return true, ""
		case d.Do != Wait && !h.do(d):
			return false, "the deed cannot be done"
		}
		if i < len(deeds)-1 {
			h.until(func(*practice.Practice) bool { return false }, slot)
		}
	}
	return h.until(so, within+3*slot), "it did not come"
}
