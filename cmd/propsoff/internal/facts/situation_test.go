package facts

import (
	"fmt"
	"math/rand/v2"
	"strings"

	"propsoff.example/assets"
	"propsoff.example/gestures/patternfile"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/body"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// situation is one moment of a made practice: some craft, some radio, some history.
type situation struct {
	*rand.Rand
	cfg   sim.Config
	p     *practice.Practice
	frame pulse.Frame // what the hands hold
	whose Whose
	diary []string
}

func (s *situation) note(f string, v ...any) { s.diary = append(s.diary, fmt.Sprintf(f, v...)) }

func (s *situation) chance(percent int) bool { return s.IntN(100) < percent }

func (s *situation) String() string {
	cfg := s.cfg
	cfg.Body, cfg.Control, cfg.Gestures, cfg.Menus = body.Config{}, flight.Control{}, nil, nil
	return fmt.Sprintf("craft %+v\nhand %+v\n%s", cfg, s.whose, strings.Join(s.diary, "\n"))
}

func one[T any](s *situation, all ...T) T { return all[s.IntN(len(all))] }

// newSituation makes a craft and lives with it for a while.
func newSituation(seed uint64) *situation {
	s := &situation{Rand: rand.New(rand.NewPCG(seed, 12))}
	s.craft()
	s.radio()
	s.instructor(seed)
	s.p = practice.New(s.cfg)
	s.frame = resting(&s.cfg)
	s.step(pulse.Reading{Kind: pulse.StickMode, Value: int32(1 + s.IntN(4))})
	if s.chance(90) { // as a practice begins
		s.step(pulse.Reading{Kind: pulse.Plug, Value: 1}, pulse.Reading{Kind: pulse.Link, Value: 1}, pulse.Reading{Kind: pulse.Power, Value: 1}, s.controls())
		s.run(s.IntN(4000))
	}
	if s.chance(25) {
		s.step(pulse.Reading{Kind: pulse.Air, Value: int32(1 + s.IntN(3))}, pulse.Reading{Kind: pulse.Propellers, Value: pulse.PropellersValue(s.cfg.Body.Turns, s.chance(85))})
		s.note("outside")
		s.run(s.IntN(3000))
	}
	if s.chance(55) {
		s.arm()
	}
	for range s.IntN(7) {
		s.deed()
		s.run(one(s, 1, 20, 100, 260, 700, 1500, 3000))
	}
	s.run(int(s.cfg.SlotTicks)) // what was done last has reached the craft, if it can
	return s
}

// craft makes a craft: arming, receiver, times and limits of every kind.
func (s *situation) craft() {
	cfg := sim.Default()
	cfg.SlotTicks = one[uint16](s, 20, 20, 4, 9, 50)
	ms := func(n ...int) uint16 { return sim.Slots(one(s, n...), cfg.SlotTicks) }
	cfg.Link.SilenceSlots, cfg.Link.CleanSlots = max(ms(240, 240, 60, 900), 1), ms(1200, 1200, 0, 300)
	a, l := &cfg.Arming, &cfg.Layout
	a.ArmDwell, a.DisarmDwell = ms(800, 800, 100, 200), ms(400, 400, 100, 1000)
	a.SinkSlots, a.StillSlots = ms(0, 0, 4000, 700), ms(2000, 2000, 0, 500)
	a.LowThrottle = one(s, pulse.Micros(1000), pulse.Micros(1000), pulse.Micros(1040), pulse.Micros(992))
	a.LeaveThrottle = a.LowThrottle + pulse.Micros(20) // as the craft file has it
	a.PackLimitMilliVolts = one[uint16](s, 0, 0, 10_500)
	a.OnlySelfLevelling, a.CameraMenuCounts = s.chance(30), s.chance(30)
	cfg.Flight.AtLowThrottle = one(s, flight.StandStill, flight.Idle)
	if s.chance(40) {
		a.By, l.Arm = arming.BySticks, layout.NoChannel
	} else {
		l.ArmSpan = one(s, layout.Span{Low: pulse.Micros(1600), High: pulse.Highest}, layout.Span{Low: pulse.Micros(1800), High: pulse.Highest},
			layout.Span{Low: pulse.Micros(1300), High: pulse.Micros(1700)}, layout.Span{Low: pulse.Lowest, High: pulse.Micros(1200)},
			layout.Span{Low: pulse.Micros(1990), High: pulse.Micros(2008)})
	}
	if s.chance(30) {
		l.Second, l.SecondSpan = 6, one(s, layout.Span{Low: pulse.Micros(1700), High: pulse.Highest}, layout.Span{Low: pulse.Lowest, High: pulse.Micros(1300)})
	}
	switch s.IntN(5) {
	case 0:
		l.Mode, l.FixedMode, l.SpanCount = layout.NoChannel, layout.Mode(s.IntN(layout.Modes)), 0
	case 1:
		l.SpanCount = 2
	}
	cfg.Link.OnLoss = one(s, link.FallsSilent, link.FallsSilent, link.RepeatsLast, link.SendsStored)
	cfg.Link.Needed = l.Needed()
	if cfg.Link.OnLoss == link.SendsStored {
		f := resting(&cfg)
		f[l.Throttle] = one(s, pulse.Micros(988), pulse.Micros(988), pulse.Micros(1300), pulse.Micros(1000))
		f[l.Yaw] = one(s, pulse.Centre, pulse.Low, pulse.High, pulse.Micros(1064))
		if l.Arm != layout.NoChannel {
			f[l.Arm] = one(s, pulse.Low, pulse.High, pulse.Centre, 0)
		}
		if s.chance(10) {
			f[l.Roll] = 0
		}
		cfg.Link.Stored = f
	}
	if s.chance(40) {
		name, text, _ := assets.Gestures("examples")
		set, err := patternfile.Parse(name, text, cfg.SlotTicks)
		if err != nil {
			panic(err)
		}
		cfg.Gestures, cfg.Menus = &set.Gestures, &set.Menus
	}
	s.cfg = cfg
}

// resting is the throttle low, sticks in the middle, switches low.
func resting(cfg *sim.Config) pulse.Frame {
	var f pulse.Frame
	for c := range f {
		f[c] = pulse.Low
	}
	l := &cfg.Layout
	f[l.Roll], f[l.Pitch], f[l.Yaw] = pulse.Centre, pulse.Centre, pulse.Centre
	return f
}

// radio makes the hand: a radio that is not known, one whose reach is known, the keyboard, or nobody.
func (s *situation) radio() {
	s.whose.Hand = one(s, Radio, Radio, Keyboard, NoHand, Played)
	if s.whose.Hand <= NoHand || s.chance(50) {
		return
	}
	l := &s.cfg.Layout
	r := handset.Radio{StickMode: 2, Measured: true}
	for c := range int8(8) {
		h := handset.Control{Channel: c, Low: pulse.Low, Rest: pulse.Centre, High: pulse.High}
		switch {
		case c == l.Throttle:
			h.Low, h.Rest, h.Stays = one(s, pulse.Micros(988), pulse.Micros(988), pulse.Micros(1012)), pulse.Low, true
		case c == l.Yaw:
			h.High = one(s, pulse.High, pulse.High, pulse.Micros(1900))
		case c >= 4:
			h.Kind = handset.Switch
			h.Positions = one(s, []handset.Position{{Width: pulse.Low}, {Width: pulse.High}}, []handset.Position{{Width: pulse.Low}, {Width: pulse.Centre}, {Width: pulse.High}},
				[]handset.Position{{Width: pulse.Micros(1100)}, {Width: pulse.Micros(1900)}})
		}
		r.Controls = append(r.Controls, h)
	}
	s.whose.Reach = &r
}

// instructor lets a second radio have the sticks now and then, or hold the arm channel off. Its chance is its own, so that all else of a
// seed stays as it is.
func (s *situation) instructor(seed uint64) {
	own := rand.New(rand.NewPCG(seed, 13))
	l := &s.cfg.Layout
	if s.whose.Hand <= NoHand || own.IntN(100) >= 15 {
		return
	}
	how := own.IntN(3)
	if how != 0 && l.Arm != layout.NoChannel {
		s.whose.Taken |= 1 << l.Arm
	}
	if how != 1 {
		for _, c := range [...]int8{l.Throttle, l.Roll, l.Pitch, l.Yaw} {
			s.whose.Taken |= 1 << c
		}
	}
}

func (s *situation) controls() pulse.Reading {
	return pulse.Reading{Kind: pulse.Controls, Frame: s.frame}
}

func (s *situation) step(r ...pulse.Reading) { s.p.Step(r) }

func (s *situation) run(ms int) {
	for range ms {
		s.p.Step(nil)
	}
}

// arm lets a hand that knows the craft arm it, and perhaps fly, or begin to disarm.
func (s *situation) arm() {
	l, a := &s.cfg.Layout, &s.cfg.Arming
	mid := func(x layout.Span) pulse.Width { return x.Low + (x.High-x.Low)/2 }
	s.run(4000)
	if l.Second != layout.NoChannel {
		s.frame[l.Second] = mid(l.SecondSpan)
	}
	if l.Arm != layout.NoChannel {
		s.frame[l.Arm] = pulse.Low
		if l.ArmSpan.Contains(pulse.Low) {
			s.frame[l.Arm] = pulse.High
		}
		s.step(s.controls())
		s.run(200)
		s.frame[l.Arm] = mid(l.ArmSpan)
		s.step(s.controls())
	} else {
		s.step(s.controls())
		s.run(200)
		s.frame[l.Yaw] = pulse.High
		s.step(s.controls())
		s.run(int(a.ArmDwell+2) * int(s.cfg.SlotTicks))
		s.frame[l.Yaw] = pulse.Centre
		s.step(s.controls())
	}
	s.run(120)
	s.note("armed: %v", s.p.Bench().Armed())
	switch s.IntN(4) {
	case 0:
		s.frame[l.Throttle] = pulse.Micros(1300)
	case 1:
		if l.Arm == layout.NoChannel {
			s.frame[l.Yaw] = pulse.Low
			s.note("in the disarm corner")
			s.step(s.controls())
			s.run(int(a.DisarmDwell/2) * int(s.cfg.SlotTicks))
			return
		}
	}
	s.step(s.controls())
	s.run(s.IntN(300))
}

// deed is one thing that hands, a class or an instructor may do.
func (s *situation) deed() {
	l := &s.cfg.Layout
	tell := func(k pulse.Kind, v int32) {
		s.note("%d ms: %v %d", s.p.Tick(), k, v)
		s.step(pulse.Reading{Kind: k, Value: v})
	}
	move := func(c int8, w pulse.Width) {
		if c == layout.NoChannel {
			return
		}
		s.frame[c] = w
		s.note("%d ms: channel %d to %v", s.p.Tick(), c+1, w)
		s.step(s.controls())
	}
	any := one(s, pulse.Low, pulse.High, pulse.Centre, pulse.Micros(1300), pulse.Micros(1010))
	switch s.IntN(24) {
	case 0, 1, 2, 3:
		if l.Arm != layout.NoChannel {
			move(l.Arm, one(s, pulse.Low, pulse.High, pulse.Centre, pulse.Micros(2000)))
			break
		}
		move(l.Throttle, pulse.Low)
		move(l.Yaw, one(s, pulse.High, pulse.Low, pulse.Centre))
		s.run(900)
	case 4, 5:
		move(l.Throttle, any)
	case 6:
		move(l.Yaw, any)
	case 7:
		move(l.Mode, any)
	case 8:
		move(l.Second, any)
	case 9:
		move(one(s, l.Roll, l.Pitch), one(s, any, pulse.Width(0)))
	case 10, 11, 12:
		tell(pulse.Link, int32(s.IntN(2)))
	case 13:
		if s.whose.Hand != Keyboard { // that is never pulled out
			tell(pulse.Plug, int32(s.IntN(2)))
		}
	case 14:
		tell(pulse.Power, int32(s.IntN(2)))
	case 15:
		tell(pulse.Cable, int32(s.IntN(2)))
	case 16:
		tell(pulse.Tilt, one[int32](s, 0, 200, 450, 1700))
	case 17:
		tell(pulse.Menu, int32(s.IntN(3)))
	case 18:
		tell(pulse.Pack, one[int32](s, 0, 9_000, 12_000))
	case 19:
		tell(pulse.Nudge, 1)
	case 20, 21, 22:
		s.plant()
	case 23:
		tell(pulse.Instructor, fault.LiftAll())
	}
}

// plant plants some fault with some number.
func (s *situation) plant() {
	l := &s.cfg.Layout
	d := pulse.Deed(1 + s.IntN(int(fault.Count)-1))
	channel := int32(one(s, l.Throttle, l.Yaw, l.Roll, max(l.Arm, 0), max(l.Mode, 0), max(l.Second, 0))) + 1
	a, b := channel, int32(0)
	switch d {
	case fault.RadioOff, fault.CableIn:
		a = 0
	case fault.Dropouts:
		a, b = one[int32](s, 100, 500, 2000), one[int32](s, 0, 3000)
	case fault.Receiver:
		a = int32(s.IntN(3))
	case fault.Swapped:
		b = channel%6 + 1
	case fault.ShortTravel:
		b = one[int32](s, 1100, 1012, 1900)
	case fault.Noisy:
		b = one[int32](s, 2, 15)
	case fault.OffCentre:
		b = one[int32](s, 40, -40)
	case fault.ModeGap:
		a = 100
	case fault.LowPack:
		a = 9_500
	case fault.WrongPropeller:
		a = int32(1 + s.IntN(4))
	}
	v, ok := fault.Plant(d, a, b)
	if !ok {
		return
	}
	s.note("%d ms: planted %s %d %d", s.p.Tick(), fault.Code(d), a, b)
	s.step(pulse.Reading{Kind: pulse.Instructor, Value: v})
}
