package sim_test

import (
	"testing"

	"pgregory.net/rapid"

	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// watcher is a plain twin of the rules: from the readings alone, without any of the bench's own counters, it knows what
// must and must not be true after every tick. It holds for receivers that fall silent; for the other two kinds it is
// known that some of this breaks.
type watcher struct {
	cfg sim.Config
	// slots is every frame on the air since power-up, one entry a slot, nil where none came.
	slots []*pulse.Frame
	// moved is the slot in which the last movement was seen; settledAt the slot from which the craft had stood still.
	moved   int
	settled bool
	wasArm  bool
}

func (w *watcher) low(us pulse.Width) bool { return us < pulse.Micros(1000) }

func (w *watcher) valid(f *pulse.Frame) bool {
	if f == nil {
		return false
	}
	chans := []int{chThrottle, chRoll, chPitch, chYaw}
	if w.cfg.Arming.By == arming.BySwitch {
		chans = append(chans, chArm)
	}
	for _, c := range chans {
		if f[c] < 860*8 || f[c] > 2180*8 {
			return false
		}
	}
	return true
}

func inSpan(us pulse.Width) bool { return us >= 1600*8 && us <= 2180*8 }

// check is called after every slot.
func (w *watcher) check(t *rapid.T, h *hands) {
	now := len(w.slots) - 1
	f := w.slots[now]
	armed := h.b.State().Slot.Arming.Armed
	slot := int(w.cfg.SlotTicks)

	if armed && !w.wasArm {
		// It never arms with a refusal.
		if !w.valid(f) {
			t.Fatalf("armed in a slot without a valid frame")
		}
		if !w.low(f[chThrottle]) {
			t.Fatalf("armed with throttle at %v µs", f[chThrottle].Whole())
		}
		in := h.b.State().In
		if in.Craft.Cable || in.Craft.Menu == pulse.MenuCraft || in.Craft.TiltTenths > 300 {
			t.Fatalf("armed with %+v", in.Craft)
		}
		if !w.settled {
			t.Fatalf("armed before the craft had stood still for 2 s")
		}
		if w.cfg.Arming.OnlySelfLevelling && f[chMode].Valid() && f[chMode] >= 1750*8 {
			t.Fatalf("armed in rate")
		}
		if w.cfg.Layout.Second != layout.NoChannel && !inSpan(f[chSecond]) {
			t.Fatalf("armed with the second switch off")
		}
		// The clean time: every slot of the last 1.2 s brought a valid frame, unless the link was not lost in that time.
		for back := 0; back*slot < 1200; back++ {
			if now-back < 0 {
				t.Fatalf("armed %d slots after power-up, before the clean time", now)
			}
			if !w.valid(w.slots[now-back]) && w.lostBetween(now-back, now) {
				t.Fatalf("armed within the clean time of a loss")
			}
		}
		switch w.cfg.Arming.By {
		case arming.BySwitch:
			// Never at power-up, and no movement of another control arms: the arm channel itself has just entered.
			if !inSpan(f[chArm]) {
				t.Fatalf("armed with the arm channel outside its span")
			}
			prev := w.lastValidBefore(now)
			if prev == nil || inSpan(prev[chArm]) {
				t.Fatalf("armed though the arm channel did not enter its span in this slot")
			}
		case arming.BySticks:
			for back := 0; back*slot <= 800; back++ {
				p := w.slots[now-back]
				if w.valid(p) && (p[chThrottle] >= 1020*8 || p[chYaw] < 1884*8) {
					t.Fatalf("armed though the corner was not held for the dwell: %d slots ago", back)
				}
			}
		}
	}
	if armed && w.cfg.Arming.By == arming.BySwitch && f != nil && f[chArm].Valid() && !inSpan(f[chArm]) {
		t.Fatalf("armed though the arm channel stands at %d µs, outside its span", f[chArm].Whole())
	}
	if armed {
		// Motors stop within silence limit + sinking time of the last valid frame, unless valid frames come back.
		limit := int(w.cfg.Link.SilenceSlots) + int(w.cfg.Arming.SinkSlots)
		silent := 0
		for silent <= limit && silent <= now && !w.valid(w.slots[now-silent]) {
			silent++
		}
		if silent >= limit {
			t.Fatalf("armed after %d slots without a valid frame, limit %d", silent, limit)
		}
	} else if m := h.b.State().Motor; m != [4]uint16{} {
		t.Fatalf("disarmed and motors at %v", m)
	}
	w.wasArm = armed
}

// lostBetween reports whether the link counted as lost at some slot from a on up to b (or had never been there).
func (w *watcher) lostBetween(a, b int) bool {
	for i := a; i <= b; i++ {
		n := 0
		for n < int(w.cfg.Link.SilenceSlots) && i-n >= 0 && !w.valid(w.slots[i-n]) {
			n++
		}
		if n >= int(w.cfg.Link.SilenceSlots) || i-n < 0 {
			return true
		}
	}
	return false
}

func (w *watcher) lastValidBefore(i int) *pulse.Frame {
	for i--; i >= 0; i-- {
		if w.valid(w.slots[i]) {
			return w.slots[i]
		}
	}
	return nil
}

func drawConfig(t *rapid.T) sim.Config {
	cfg := sim.Default()
	switch rapid.IntRange(0, 2).Draw(t, "arming method") {
	case 1:
		cfg = withSecond()
	case 2:
		cfg = bySticks()
	}
	slot := rapid.SampledFrom([]uint16{20, 20, 4, 7, 50}).Draw(t, "slot ms")
	cfg.SlotTicks = slot
	cfg.Link.SilenceSlots, cfg.Link.CleanSlots = sim.Slots(240, slot), sim.Slots(1200, slot)
	cfg.Arming.ArmDwell, cfg.Arming.DisarmDwell = sim.Slots(800, slot), sim.Slots(400, slot)
	cfg.Arming.StillSlots = sim.Slots(2000, slot)
	cfg.Arming.SinkSlots = sim.Slots(rapid.SampledFrom([]int{0, 0, 300, 4000}).Draw(t, "sink ms"), slot)
	cfg.Arming.OnlySelfLevelling = rapid.Bool().Draw(t, "only self-levelling")
	return cfg
}

// TestInvariants walks benches at random: controls, link, power and timing, with a healthy start drawn often enough
// for arming to be reached.
func TestInvariants(t *testing.T) {
	armings := 0
	rapid.Check(t, func(t *rapid.T) {
		cfg := drawConfig(t)
		h := newHands(t, cfg)
		w := &watcher{cfg: cfg}
		still := 0
		h.each = func() {
			s := h.b.State()
			if !s.In.Powered || (s.SincePower-1)%int64(cfg.SlotTicks) != 0 {
				if !s.In.Powered {
					w.slots, w.wasArm, w.settled = nil, false, false
				}
				return
			}
			if s.SincePower == 1 {
				w.slots, w.wasArm, w.settled, still = nil, false, false, 0
				if s.Slot.Arming.Armed {
					t.Fatalf("armed in the slot of power-up")
				}
			} else if w.moved > 0 {
				still = 0
			} else {
				still++
			}
			w.moved = 0
			if still*int(cfg.SlotTicks) >= 2000 {
				w.settled = true
			}
			var f *pulse.Frame
			if s.In.Transmitting() {
				c := s.In.Sent
				f = &c
			}
			w.slots = append(w.slots, f)
			w.check(t, h)
			for _, x := range h.log.All() {
				if x.Code == happening.Armed {
					armings++
				}
			}
		}
		if rapid.Bool().Draw(t, "healthy start") {
			h.wait(2200)
		}
		values := []float64{988, 988, 2012, 1500, 999.875, 1000, 1020, 1599.875, 1600, 1749.875, 1750, 1884, 1935.25, 1064, 0, 859, 2180}
		t.Repeat(map[string]func(*rapid.T){
			"move": func(t *rapid.T) {
				h.move(rapid.IntRange(0, 6).Draw(t, "channel"), rapid.SampledFrom(values).Draw(t, "µs"))
			},
			"arm control on": func(t *rapid.T) {
				if cfg.Arming.By == arming.BySwitch {
					h.move(chArm, 2012)
				} else {
					h.move(chThrottle, 988).move(chYaw, 2012)
				}
			},
			"arm control off": func(t *rapid.T) {
				h.move(chThrottle, 988).move(chArm, 988).move(chYaw, 1500)
			},
			"arm properly": func(t *rapid.T) {
				h.tell(pulse.Link, 1).tell(pulse.Plug, 1).tell(pulse.Power, 1).tell(pulse.Cable, 0).tell(pulse.Menu, 0)
				for c, us := range []float64{988, 1500, 1500, 1500, 988, 988, 2012} {
					h.move(c, us)
				}
				h.wait(rapid.SampledFrom([]int{60, 1300, 2100}).Draw(t, "pause"))
				h.move(chArm, 2012).move(chYaw, 2012).wait(rapid.SampledFrom([]int{50, 700, 900}).Draw(t, "held"))
			},
			"stick disarm": func(t *rapid.T) { h.move(chThrottle, 988).move(chYaw, 988) },
			"second on":    func(t *rapid.T) { h.move(chSecond, 2012) },
			"link": func(t *rapid.T) {
				h.tell(pulse.Link, rapid.SampledFrom([]int32{0, 1, 1, 1}).Draw(t, "on"))
			},
			"plug": func(t *rapid.T) {
				h.tell(pulse.Plug, rapid.SampledFrom([]int32{0, 1, 1, 1}).Draw(t, "in"))
			},
			"power": func(t *rapid.T) {
				h.tell(pulse.Power, rapid.SampledFrom([]int32{0, 1, 1, 1}).Draw(t, "on"))
			},
			"cable": func(t *rapid.T) { h.tell(pulse.Cable, rapid.SampledFrom([]int32{0, 0, 1}).Draw(t, "in")) },
			"menu":  func(t *rapid.T) { h.tell(pulse.Menu, rapid.SampledFrom([]int32{0, 0, 1, 2}).Draw(t, "open")) },
			"tilt": func(t *rapid.T) {
				v := rapid.SampledFrom([]int32{0, 0, 300, 301, 1800}).Draw(t, "tenths")
				if int16(v) != h.b.State().In.Craft.TiltTenths {
					w.moved++
				}
				h.tell(pulse.Tilt, v)
				h.wait(1) // so that it is recorded before it is counted
			},
			"nudge": func(t *rapid.T) { w.moved++; h.tell(pulse.Nudge, 1); h.wait(1) },
			"wait": func(t *rapid.T) {
				h.wait(rapid.SampledFrom([]int{1, 7, 20, 60, 250, 420, 900, 1300, 2100}).Draw(t, "ms"))
			},
		})
	})
	least := 5000
	if testing.Short() {
		least = 500
	}
	if armings < least {
		t.Fatalf("only %d armings were reached: the walk proves little", armings)
	}
}

// TestSameInputsSameBytes steps two benches with the same readings, one of them copied and put back at every step.
func TestSameInputsSameBytes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cfg := drawConfig(t)
		cfg.Link.OnLoss = rapid.SampledFrom([]link.OnLoss{link.FallsSilent, link.RepeatsLast, link.SendsStored}).Draw(t, "on loss")
		a, b := newHands(t, cfg), newHands(t, cfg)
		b.each = func() { b.b.Restore(b.b.State()) }
		n := rapid.IntRange(1, 30).Draw(t, "moves")
		for range n {
			ch, us := rapid.IntRange(0, 6).Draw(t, "channel"), float64(rapid.IntRange(800, 2200).Draw(t, "µs"))
			k, v := pulse.Kind(rapid.IntRange(int(pulse.Link), int(pulse.Sleep)).Draw(t, "kind")), int32(rapid.IntRange(0, 2).Draw(t, "value"))
			ms := rapid.IntRange(0, 700).Draw(t, "ms")
			for _, h := range []*hands{a, b} {
				h.move(ch, us).tell(k, v)
				h.wait(ms)
			}
		}
		if a.b.State() != b.b.State() {
			t.Fatalf("states differ")
		}
		if len(a.all) != len(b.all) {
			t.Fatalf("happenings differ")
		}
		for i := range a.all {
			if a.all[i] != b.all[i] {
				t.Fatalf("happening %d differs: %+v, %+v", i, a.all[i], b.all[i])
			}
		}
	})
}
