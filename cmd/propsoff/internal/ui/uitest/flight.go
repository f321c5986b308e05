package uitest

import (
	"testing"

	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/sim/body"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// fly keeps of a tick what a window would for the flight.
func (s *Stage) fly() {
	snap, f := &s.V.Snap, &s.V.Flight
	if !snap.In.Air {
		f.Trail = f.Trail[:0]
		return
	}
	if snap.Tick%ui.TrailEvery == 0 {
		var last *ui.TrailPoint
		if n := len(f.Trail); n > 0 {
			last = &f.Trail[n-1]
		}
		f.Trail = append(f.Trail, ui.NextTrailPoint(last, snap))
		if n := len(f.Trail) - ui.TrailTicks/ui.TrailEvery - 1; n > 0 {
			f.Trail = f.Trail[n:]
		}
	}
	if snap.Tick%live.PointTicks == 0 {
		f.Followed = append(f.Followed, ui.FollowedOf(snap, s.Cfg))
		if n := len(f.Followed) - live.ChartTicks/live.PointTicks - 1; n > 0 {
			f.Followed = f.Followed[n:]
		}
	}
}

// Outside is a craft that stands on the air bench, ready to arm.
func Outside(t testing.TB) *Stage {
	s := Ready(t)
	s.Tell(pulse.Air, 1).Tell(pulse.Propellers, pulse.PropellersValue(body.Default().Hand, true))
	return s.Wait(4000)
}

// Helped is a craft on a bench, as a value of an Air reading, armed there with its throttle low.
func Helped(t testing.TB, bench int32) *Stage {
	s := Ready(t)
	s.Tell(pulse.Air, bench).Tell(pulse.Propellers, pulse.PropellersValue(body.Default().Hand, true))
	return s.Wait(4000).Set(4, 2012).Wait(4000)
}

// Hold flies by hand: throttle so that a height is held, everything else as it stands, for a time in ms.
func (s *Stage) Hold(height float64, ms int) *Stage {
	for range ms / 20 {
		b := &s.V.Snap.Air.Body
		up := 1.0
		if c := 1 - 2*(b.Att.X*b.Att.X+b.Att.Y*b.Att.Y); c > 0.3 {
			up = 1 / c
		}
		t := 1370*(1+0.25*(up-1)) + 60*(height+b.Pos.Z) + 80*b.Vel.Z
		s.Set(0, int(ui.Clamp(t, 1010, 1800))).Wait(20)
	}
	return s
}

// Airborne is a craft that hovers at some metres.
func Airborne(t testing.TB, height float64) *Stage {
	return Outside(t).Set(4, 2012).Wait(400).Hold(height, 4000)
}

// InMode puts the mode switch over: to one of its positions where one gives the mode, else to the middle of the mode's span.
func (s *Stage) InMode(m layout.Mode) *Stage {
	l := &s.V.Config.Layout
	for _, w := range []pulse.Width{pulse.Low, pulse.Centre, pulse.High} {
		if l.ModeAt(w) == m {
			return s.Set(l.Mode, w.Whole()).Wait(60)
		}
	}
	for _, span := range l.Spans[:l.SpanCount] {
		if span.Mode == m {
			return s.Set(l.Mode, (span.Span.Low + (span.Span.High-span.Span.Low)/2).Whole()).Wait(60)
		}
	}
	return s
}

// Sinks is a craft that sinks on a lost link.
const Sinks = `propsoff: craft 1
name: Sinker
link: {when-lost: sink}
channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5, mode: 6}
modes: {angle: {from: 860, to: 1300}, horizon: {from: 1300, to: 1700}, rate: {from: 1700, to: 2180}}
`

// HoverOf is the craft of a craft file in a hover, 8 m high.
func HoverOf(t testing.TB, text string) *Stage {
	cfg, name := Craft(t, text)
	s := NewStage(t, cfg, name).On().Wait(3000)
	s.Tell(pulse.Air, 1).Tell(pulse.Propellers, pulse.PropellersValue(body.Default().Hand, true)).Wait(4000)
	return s.Set(4, 2012).Wait(400).Hold(8, 6000)
}
