package sim

import (
	"propsoff.example/sim/body"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// apply takes one reading: the controls, or one bench input. Telling what is already so changes nothing and is not
// recorded.
func (b *Bench) apply(r *pulse.Reading, log *happening.Log) {
	s := &b.s
	in := &s.In
	on := r.Value != 0
	switch r.Kind {
	case pulse.Controls:
		in.Sent, in.HasSent = r.Frame, true
	case pulse.Link:
		b.flip(&in.Transmitter, on, happening.Transmitter, log)
	case pulse.Plug:
		b.flip(&in.Plugged, on, happening.Plug, log)
	case pulse.Power:
		if in.Powered != on {
			b.power(on, log)
		}
	case pulse.Cable:
		b.flip(&in.Craft.Cable, on, happening.Cable, log)
	case pulse.Tilt:
		tenths := int16(min(max(r.Value, 0), 1800))
		if s.Air.Flying {
			break // nobody holds a craft that flies
		}
		if in.Craft.TiltTenths != tenths {
			in.Craft.TiltTenths, in.Craft.Moved = tenths, true
			log.Add(s.Tick, happening.Tilted, int32(tenths), 0)
		}
	case pulse.Nudge:
		in.Craft.Moved = true
		if in.Air {
			s.Air.Body.Spin.X += gust
		}
		log.Add(s.Tick, happening.Nudged, 0, 0)
	case pulse.Menu:
		menu := uint8(min(max(r.Value, pulse.MenuClosed), pulse.MenuCamera))
		if in.Craft.Menu != menu {
			in.Craft.Menu = menu
			log.Add(s.Tick, happening.Menu, int32(menu), 0)
		}
	case pulse.Pack:
		mv := uint16(min(max(r.Value, 0), 65000))
		if in.Craft.PackMilliVolts != mv {
			in.Craft.PackMilliVolts = mv
			log.Add(s.Tick, happening.Pack, int32(mv), 0)
		}
	case pulse.Air:
		if mm, hovers := pulse.HoverOf(r.Value); hovers {
			b.flyThere(mm, log)
		} else if to := min(max(r.Value, pulse.OnDesk), pulse.HeightHeld); in.Bench() != to {
			b.carry(to, log)
		}
	case pulse.Propellers:
		hands, checked := pulse.PropellersOf(r.Value)
		if in.Hands != hands || in.Checked != checked {
			in.Hands, in.Checked = hands, checked
			log.Add(s.Tick, happening.Fitted, pulse.PropellersValue(hands, checked), 0)
		}
	case pulse.Wind:
		in.Wind = r.Value
		b.blow()
	case pulse.LevelOff:
		in.LevelOff = r.Value
	case pulse.StickMode:
		mode := uint8(min(max(r.Value, 1), 4))
		was := in.StickMode
		if was == 0 {
			was = 2 // what counts until somebody says it
		}
		if in.StickMode = mode; was != mode {
			log.Add(s.Tick, happening.StickMode, int32(mode), 0)
		}
	case pulse.Instructor:
		deed, number := pulse.InstructorOf(r.Value)
		log.Add(s.Tick, happening.Instructed, int32(deed), number)
	case pulse.Gap:
		log.Add(s.Tick, happening.ReadingsLost, r.Value, 0)
	case pulse.Sleep:
		log.Add(s.Tick, happening.Slept, r.Value, 0)
	}
}

// flip sets what is either on or off, and records it where it changes.
func (b *Bench) flip(to *bool, on bool, code happening.Code, log *happening.Log) {
	if *to == on {
		return
	}
	*to = on
	bit := int32(0)
	if on {
		bit = 1
	}
	log.Add(b.s.Tick, code, bit, 0)
}

// power gives the craft its pack or takes it. Taking it ends everything at once; giving it starts from the beginning,
// disarmed, not yet still, with the latches set.
func (b *Bench) power(on bool, log *happening.Log) {
	s := &b.s
	s.In.Powered = on
	if on {
		log.Add(s.Tick, happening.Power, 1, 0)
	} else {
		if s.Slot.Arming.Armed {
			log.Add(s.Tick, happening.Disarmed, int32(happening.ByPowerLoss), 0)
		}
		log.Add(s.Tick, happening.Power, 0, 0)
	}
	in, tick := s.In, s.Tick
	in.Craft.Moved = false
	air := s.Air
	*s = State{Tick: tick, In: in, Slot: b.cfg.PowerUp()}
	if in.Air { // a craft without power goes on falling
		s.Air = AirState{Body: air.Body, Flying: air.Flying, Top: air.Top, Wreck: air.Wreck, Gusts: air.Gusts, Hold: air.Hold}
	}
}

// carry takes the craft to another bench, where it stands on the ground or hangs on the stand; its pack is out meanwhile. One on the air
// bench stays where it is as its height is held from now on, but one that is armed on the ground: it would leave that by surprise.
func (b *Bench) carry(to int32, log *happening.Log) {
	s := &b.s
	if stays := s.Air.Flying || !s.Slot.Arming.Armed; stays && s.In.Bench() == pulse.InAir && to == pulse.HeightHeld && s.Air.Wreck == 0 {
		if s.In.Held = true; s.Air.Flying {
			s.Air.Hold = -s.Air.Body.Pos.Z
		}
		log.Add(s.Tick, happening.Moved, to, 0)
		return
	}
	powered := s.In.Powered
	if powered {
		b.power(false, log)
	}
	b.place(to)
	log.Add(s.Tick, happening.Moved, to, 0)
	if powered {
		b.power(true, log)
	}
}

// place has a craft whose pack is out stand on a bench, or hang on the stand.
func (b *Bench) place(to int32) {
	s := &b.s
	s.In.Air, s.In.Hung, s.In.Held = to != pulse.OnDesk, to == pulse.OnStand, to == pulse.HeightHeld
	s.Air = AirState{}
	if s.In.Air {
		s.Air.Body, s.Air.Hold = body.Standing(&b.cfg.Body), HeldHigh
		if s.In.Hung {
			s.Air.Body.Pos.Z = -StandHigh
		}
		b.blow()
	}
}
