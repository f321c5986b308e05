package loop

import (
	"propsoff/cmd/propsoff/internal/lossrun"
	"propsoff/sim"
	"propsoff/sim/link"
	"propsoff/sim/practice"
)

// Loss is what is known of the crafts of FlyLoss: each as it is, a copy to be asked what would be, and what was measured of it.
type Loss struct {
	Snap  [lossrun.Receivers]sim.Snapshot
	Craft [lossrun.Receivers]practice.Practice
	Run   [lossrun.Receivers]lossrun.Run
}

// lossAsked is what was asked of the three receivers. Turn counts the times that they were to begin anew.
type lossAsked struct {
	on     bool
	stored lossrun.Stored
	turn   int
}

// WithReceiver is the one of FlyLoss with a receiver.
func WithReceiver(way link.OnLoss) Which { return WithSilent + Which(way) }

// FlyLoss lets three more crafts do what the pilot's own does, from its place, attitude and speed at that moment on, on either
// bench: one with each receiver, the third with these stored values. Asked for again with other values, they are stored at once,
// or as soon as the radio is no longer silent.
func (l *Loop) FlyLoss(on bool, stored lossrun.Stored) {
	l.mu.Lock()
	l.askedLoss.on, l.askedLoss.stored = on, stored
	l.mu.Unlock()
	ring(l.wake)
}

// LossAnew lets the three of FlyLoss begin again where the pilot's own craft is.
func (l *Loop) LossAnew() {
	l.mu.Lock()
	l.askedLoss.turn++
	l.mu.Unlock()
	ring(l.wake)
}

// Loss fills dst with the latest step of the three, and reports false while there are none.
func (l *Loop) Loss(dst *Loss) bool {
	v := &l.public
	v.mu.Lock()
	defer v.mu.Unlock()
	if v.losing {
		dst.Snap, dst.Run = v.loss.Snap, v.loss.Run
		for i := range dst.Craft {
			v.loss.Craft[i].CopyTo(&dst.Craft[i])
		}
	}
	return v.losing
}

// turnLoss begins the three, ends them, or begins them anew, also where the pilot's own craft has been changed for another.
func (l *Loop) turnLoss(asked lossAsked, changed bool) {
	was := l.lossNow
	l.lossNow = asked
	if l.loss != nil && asked.on && !changed && asked.turn == was.turn {
		if l.loss.Stored() != asked.stored {
			l.loss.Choose(asked.stored)
		}
		return
	}
	if l.loss == nil && !asked.on {
		return
	}
	l.loss = nil
	if asked.on {
		l.loss = lossrun.New(l.p, asked.stored)
	}
	l.public.openFilms(WithSilent, asked.on)
}

// steppedLoss notes one tick of the three.
func (v *public) steppedLoss(s *lossrun.Set, tick int64) {
	if tick%PointTicks != 0 {
		return
	}
	v.mu.Lock()
	defer v.mu.Unlock()
	for i := range lossrun.Receivers {
		v.films[WithSilent+Which(i)].add(s.Craft(i), tick)
	}
}
