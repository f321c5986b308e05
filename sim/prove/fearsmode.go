package prove

import (
	"slices"

	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// judgeStickMoves: a stick that flies the craft and carries its mode too changes the mode whenever it is flown.
func judgeStickMoves(f *fearful) {
	l := &f.cfg.Layout
	c, at := f.s.h.find(l.Mode)
	if c == nil {
		f.unasked() // nothing carries it, and another rule says so
		return
	}
	all := places(c, func(w pulse.Width) int { return int(l.ModeAt(w)) })
	stick := f.stickOf(at)
	first := slices.IndexFunc(all, func(p place1) bool { return p.means != noPulse })
	if stick < 0 || first < 0 || !slices.ContainsFunc(all, func(p place1) bool { return p.means != noPulse && p.means != all[first].means }) {
		f.holds(len(all))
		return
	}
	f.broken(f.result(ModeOnStick, stick, nil), len(all), func(t *trial) {
		t.ready()
		from := l.ModeAt(t.frame[l.Mode])
		for i := range all { // to the end that is another mode: as far as a stick is flown
			p := &all[len(all)-1-i]
			if p.means != noPulse && layout.Mode(p.means) != from {
				t.moveTogether(stick, l.Mode, p.width)
				return
			}
		}
	})
}

// stickOf is the stick that is one piece of the radio with a control, −1 where none is.
func (f *fearful) stickOf(control int) int {
	l := &f.cfg.Layout
	for _, i := range append([]int{control}, f.l.Radio.Together(control)...) {
		if c := &f.l.Radio.Controls[i]; c.Kind != handset.Switch && slices.Contains([]int8{l.Throttle, l.Roll, l.Pitch, l.Yaw}, c.Channel) {
			return i
		}
	}
	return -1
}

// moveTogether moves a control, one piece of the radio with what carries a channel, to where that channel comes nearest to a width.
func (t *trial) moveTogether(control int, channel int8, to pulse.Width) {
	c := &t.l.Radio.Controls[control]
	other := slices.IndexFunc(t.l.Radio.Controls, func(o handset.Control) bool { return o.Channel == channel })
	best, off := t.frame[c.Channel], pulse.Highest
	for w := min(c.Low, c.High); w <= max(c.Low, c.High); w++ {
		if d := abs(t.l.Radio.Sends(control, other, -1, w) - to); d < off {
			best, off = w, d
		}
	}
	t.move(c.Channel, best)
}

// armTurned finds an arm switch that is one piece of the radio with another that arming asks about, and stands nowhere as arming asks of both; nil where
// it is not that.
func (s *search) armTurned() *Result {
	l, a := &s.l.Config.Layout, &s.l.Config.Arming
	c, at := s.firm.find(l.Arm)
	if c == nil {
		return nil
	}
	var stands []place1
	if c.Kind == handset.Switch {
		stands = places(c, inSpan(l.ArmSpan))
	} else {
		for w := min(c.Low, c.High); w <= max(c.Low, c.High); w++ {
			stands = append(stands, place1{width: w, position: -1, means: int(bit(l.ArmSpan.Contains(w)))})
		}
	}
	for _, k := range s.l.Radio.Together(at) {
		var as func(pulse.Width) bool
		switch o := &s.l.Radio.Controls[k]; {
		case o.Channel == l.Second:
			as = l.SecondSpan.Contains
		case o.Channel == l.Mode && a.OnlySelfLevelling:
			as = func(w pulse.Width) bool { return l.ModeAt(w).SelfLevelling() }
		default:
			continue
		}
		if !slices.ContainsFunc(stands, func(p place1) bool { return p.means == isOn && as(s.l.Radio.Sends(at, k, p.position, p.width)) }) {
			return &Result{Cause: ArmsTurned, Control: at, Position: -1, Value: int64(s.l.Radio.Controls[k].Channel) + 1}
		}
	}
	return nil
}
