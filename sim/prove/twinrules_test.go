package prove

import (
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// slotSeen is what a person sees in one slot.
type slotSeen struct {
	cfg           *sim.Config
	was, is       sim.SlotState
	wasOn         bool // had power
	before, after held
	kind          Kind
	moved         uint16 // channels that a hand moved
	frame         pulse.Frame
	got, valid    bool
	heardBefore   bool
	happened      happenings
	armed, ended  bool
	invalid       bool // some needed control stands where it sends no pulse
}

// plain is one rule written down: what it remembers after a slot, and whether the slot breaks it.
type plain func(w watched, s *slotSeen) (watched, bool)

// still reports whether no hand moved.
func (s *slotSeen) still() bool { return s.kind == Wait || s.kind == Tremble }

func (s *slotSeen) wide(ch int8) pulse.Width { return s.frame[ch] }

func (s *slotSeen) armOut() bool {
	return s.valid && !s.cfg.Layout.ArmSpan.Contains(s.wide(s.cfg.Layout.Arm))
}

// sticks: in the arm corner and in the disarm corner, fully in it, or not yet out of it.
func (s *slotSeen) sticks() (fullyRight, right, fullyLeft, left bool) {
	a := &s.cfg.Arming
	t, y := s.wide(s.cfg.Layout.Throttle), s.wide(s.cfg.Layout.Yaw)
	low, near := t < a.LowThrottle, t < a.LeaveThrottle
	return low && y >= a.YawRight, near && y >= a.LeaveRight, low && y <= a.YawLeft, near && y <= a.LeaveLeft
}

// reason reports whether anything but the arm control's own latch refuses now.
func (s *slotSeen) reason() bool {
	l, a := &s.cfg.Layout, &s.cfg.Arming
	for _, ch := range []int8{l.Second, l.Mode} {
		if ch != layout.NoChannel && !s.wide(ch).Valid() {
			return true
		}
	}
	return s.wide(l.Throttle) >= a.LowThrottle || s.after.cable || l.Second != layout.NoChannel && !l.SecondSpan.Contains(s.wide(l.Second)) ||
		a.OnlySelfLevelling && s.is.Layout.Mode == layout.Rate || s.is.Link.Phase != link.Good || s.is.Arming.Still < a.StillSlots
}

// rulesOf are the rules, each with every way in which it is watched.
func rulesOf(cfg *sim.Config) map[Rule][]plain {
	a, l := &cfg.Arming, &cfg.Layout
	sticks := a.By == arming.BySticks
	made := func(s *slotSeen) bool { return !s.after.on }
	once := func(broken func(*slotSeen) bool) []plain {
		return []plain{func(w watched, s *slotSeen) (watched, bool) { return watched{}, broken(s) }}
	}
	out := map[Rule][]plain{
		PowerUpNeverArms: {func(w watched, s *slotSeen) (watched, bool) {
			w.flag = s.kind == PowerOn || s.still() && w.flag && s.after.powered
			return w, w.flag && s.armed
		}},
		LinkBackNeverArms: {func(w watched, s *slotSeen) (watched, bool) {
			counting := s.was.Link.Phase.Up() && s.was.Link.Gap > 0 // the silence is not over its limit yet
			w.flag = s.wasOn && s.after.powered && (s.kind == RadioOn && !counting || s.still() && w.flag)
			return w, w.flag && s.armed
		}},
		OnlyArmControlArms: once(func(s *slotSeen) bool {
			if !s.armed || made(s) && cfg.Link.OnLoss != link.FallsSilent {
				return false
			}
			if sticks {
				_, right, _, _ := s.sticks()
				return !right
			}
			return s.kind != PowerOn && s.kind != RadioOn && (s.kind == Tremble || s.moved>>l.Arm&1 == 0)
		}),
		NothingElseDisarms: once(func(s *slotSeen) bool {
			if !s.ended || made(s) || s.was.Arming.Sink > 0 {
				return false
			}
			if s.invalid {
				return true
			}
			if sticks {
				_, _, _, left := s.sticks()
				return !s.valid || !left
			}
			return !s.got || s.kind == Tremble || l.ArmSpan.Contains(s.wide(l.Arm))
		}),
		ThrottleUpNeverArms: once(func(s *slotSeen) bool {
			return s.armed && (s.wide(l.Throttle) >= a.LowThrottle || s.wide(l.Throttle) > pulse.Micros(1000))
		}),
		RefusalNeverArms: once(func(s *slotSeen) bool {
			return s.armed && (!s.valid || s.wide(l.Throttle) < a.LowThrottle && s.reason())
		}),
		ClearingNeverArms: {func(w watched, s *slotSeen) (watched, bool) {
			asked := s.happened.has(happening.Refused)
			bad := w.flag && (asked || s.armed)
			_, right, _, _ := s.sticks()
			switch {
			case !s.after.powered, sticks && !s.is.Link.Phase.Up(), sticks && s.valid && !right, !sticks && s.armOut():
				w.flag = false
			}
			w.flag = w.flag || asked
			return w, bad
		}},
		LossStopsMotors: {
			func(w watched, s *slotSeen) (watched, bool) { // flag: motors turned in the radio's last frame, or since
				if !(s.wasOn && s.was.Arming.Armed && s.is.Arming.Armed && s.after.powered) {
					return watched{}, false
				}
				up := s.wide(l.Throttle) > pulse.Micros(1000) && (!sticks || s.wide(l.Throttle) >= a.LeaveThrottle)
				if s.after.on && s.valid {
					return watched{flag: up}, false
				}
				w.n, w.flag = min(w.n+1, int(cfg.Link.SilenceSlots)+int(a.SinkSlots)), w.flag || up
				return w, w.flag && w.n >= int(cfg.Link.SilenceSlots)+int(a.SinkSlots)
			},
			func(w watched, s *slotSeen) (watched, bool) { // with motors that cannot turn
				if !(s.wasOn && s.was.Arming.Armed && s.is.Arming.Armed && s.after.powered) || s.after.on && s.valid {
					return watched{}, false
				}
				w.n++
				return w, w.n >= int(cfg.Link.SilenceSlots)+int(a.SinkSlots)
			},
		},
		TimesAreKept: {
			func(w watched, s *slotSeen) (watched, bool) { // still time: n slots of it are left
				switch {
				case !s.after.powered:
					return watched{}, false
				case s.kind == PowerOn, s.kind == Nudge && w.n > 0:
					w.n = int(a.StillSlots)
				case w.n > 0:
					w.n--
				}
				return w, s.armed && w.n > 0
			},
			func(w watched, s *slotSeen) (watched, bool) { // clean time: n valid slots so far; flag: it is over
				was := w
				switch {
				case !s.after.powered || !s.is.Link.Phase.Up():
					w = watched{}
				case s.valid && !w.flag:
					w.n++
					if w.n == int(cfg.Link.CleanSlots)+1 {
						w = watched{flag: true}
					}
				case !w.flag:
					w.n = 0
				}
				back := s.happened.has(happening.SinkEnded)
				return w, s.armed && !was.flag || back && !w.flag
			},
		},
		HeldNeverArms:   once(func(s *slotSeen) bool { return s.armed && made(s) }),
		StoredNeverArms: once(func(s *slotSeen) bool { return s.armed && made(s) }),
		UnheardIsSilent: once(func(s *slotSeen) bool { return made(s) && s.got && !s.heardBefore }),
		ArmControlStays: once(func(s *slotSeen) bool { return s.kind == LetGo && s.moved>>l.Arm&1 == 1 && (s.armed || s.ended) }),
		ArmControlDisarms: once(func(s *slotSeen) bool {
			if !s.is.Arming.Armed || !s.after.on || !s.got {
				return false
			}
			w := s.wide(l.Arm)
			return w.Valid() && !l.ArmSpan.Contains(w) || !w.Valid() && s.moved>>l.Arm&1 == 1
		}),
		OffBeforeArming: {func(w watched, s *slotSeen) (watched, bool) { // flag: on since power-up, as far as frames tell
			bad := s.armed && (w.flag || s.kind == PowerOn)
			_, right, _, _ := s.sticks()
			w.flag = s.after.powered && (w.flag || s.kind == PowerOn) && !(sticks && s.valid && !right || !sticks && s.armOut())
			return w, bad
		}},
		// CanArm is the other way round: broken here where prove says that it holds.
		CanArm: once(func(s *slotSeen) bool { return s.armed }),
	}
	if !sticks {
		return out
	}
	out[ArmControlDisarms] = []plain{func(w watched, s *slotSeen) (watched, bool) {
		_, _, left, _ := s.sticks()
		if !(s.wasOn && s.was.Arming.Armed && s.is.Arming.Armed && s.valid && left) {
			return watched{}, false
		}
		w.n++
		return w, w.n > int(a.DisarmDwell)
	}}
	out[TimesAreKept] = append(out[TimesAreKept],
		func(w watched, s *slotSeen) (watched, bool) { // arm dwell: n slots of it so far
			fully, right, _, _ := s.sticks()
			switch {
			case !s.after.powered || !s.is.Link.Phase.Up() || s.wasOn && s.was.Arming.Armed:
				w.n = 0
			case !s.valid && w.n > 0:
				w.n++
			case !s.valid:
			case !right || s.reason():
				w.n = 0
			case w.n > 0 || fully:
				w.n++
			}
			w.n = min(w.n, int(a.ArmDwell)+1)
			return w, s.armed && w.n <= int(a.ArmDwell)
		},
		func(w watched, s *slotSeen) (watched, bool) { // disarm dwell
			_, _, fully, left := s.sticks()
			switch {
			case !s.after.powered || !s.is.Link.Phase.Up() || !(s.wasOn && s.was.Arming.Armed):
				w.n = 0
			case !s.valid && w.n > 0:
				w.n++
			case !s.valid:
			case !left:
				w.n = 0
			case w.n > 0 || fully:
				w.n++
			}
			w.n = min(w.n, int(a.DisarmDwell)+1)
			ended := s.happened.has(happening.Disarmed)
			return w, ended && heldInCorner(a, s) && w.n <= int(a.DisarmDwell)
		})
	out[CornerDisarmsInFlight] = []plain{func(w watched, s *slotSeen) (watched, bool) {
		ended := s.happened.has(happening.Disarmed)
		bad := w.flag && ended && heldInCorner(a, s)
		w.flag = s.is.Arming.Armed && s.after.powered && (w.flag || s.wasOn && s.was.Arming.Armed && s.valid && s.wide(l.Throttle) >= a.LeaveThrottle)
		return w, bad
	}}
	return out
}

// heldInCorner reports whether a craft that arms by sticks was disarmed by its corner, whoever held it there.
func heldInCorner(a *arming.Config, s *slotSeen) bool {
	c := s.happened.cause
	return a.By == arming.BySticks && (c == happening.BySticks || c == happening.ByStored || c == happening.ByRepeated)
}
