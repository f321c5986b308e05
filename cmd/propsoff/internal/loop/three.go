package loop

import (
	"propsoff/sim"
	"propsoff/sim/layout"
	"propsoff/sim/practice"
	"propsoff/sim/pulse"
)

// trio is three crafts that fly what the pilot's own flies, each in a mode of its own, so that the modes can be compared. They
// are looked on only: nothing of theirs is recorded or acts on the practice.
type trio struct {
	craft [layout.Modes]practice.Practice
}

// InMode is the craft as it would be without a mode channel, always in one mode. It arms in that mode whatever the craft itself
// refuses, because the three are there to be flown.
func InMode(cfg sim.Config, m layout.Mode) sim.Config {
	cfg.Layout.Mode, cfg.Layout.FixedMode = layout.NoChannel, m
	cfg.Arming.OnlySelfLevelling = false
	return cfg
}

// newTrio begins three crafts where the pilot's own is: on the ground or in the air, armed or not, with its propellers.
func newTrio(own *practice.Practice) *trio {
	t := &trio{}
	s := own.Bench().State()
	for i := range t.craft {
		m := layout.Mode(i)
		t.craft[i] = *practice.New(InMode(own.Craft(), m))
		s.Slot.Layout.Mode = m
		t.craft[i].Bench().Restore(s)
		t.craft[i].LikeFaults(own)
	}
	return t
}

func (t *trio) step(readings []pulse.Reading) {
	for i := range t.craft {
		t.craft[i].Step(readings)
	}
}

// FlyThree lets three more crafts fly with the pilot's own, from its place and attitude at that moment on: one in angle, one in
// horizon, one in rate. While the pilot's own is on the desk bench there are none; they begin as it comes to the air bench.
func (l *Loop) FlyThree(on bool) {
	l.mu.Lock()
	l.askedThree = on
	l.mu.Unlock()
	ring(l.wake)
}

// Three fills dst with the latest step of the three, in the order of modes, and reports false while they do not fly.
func (l *Loop) Three(dst *[layout.Modes]sim.Snapshot) bool {
	v := &l.public
	v.mu.Lock()
	defer v.mu.Unlock()
	if v.flown {
		*dst = v.three
	}
	return v.flown
}

// turnThree begins the three or ends them; anew where the pilot's own craft has been changed for another.
func (l *Loop) turnThree(asked, anew bool) {
	fly := asked && l.p.Bench().State().In.Air
	if fly == (l.three != nil) && !anew {
		return
	}
	l.three = nil
	if fly {
		l.three = newTrio(l.p)
	}
	l.public.openFilms(InAngle, fly)
}

// steppedThree notes one tick of the three.
func (v *public) steppedThree(t *trio, tick int64) {
	if tick%PointTicks != 0 {
		return
	}
	v.mu.Lock()
	defer v.mu.Unlock()
	for i := range t.craft {
		v.films[ThirdIn(layout.Mode(i))].add(&t.craft[i], tick)
	}
}
