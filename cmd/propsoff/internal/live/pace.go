package live

import "propsoff.example/sim/pulse"

// Pace is how fast practice time runs beside the clock. Nobody but a person changes it; Hold alone stops it without one.
//
// Slower than the clock, readings are stamped with the practice time that stands at their moment, so they keep their order,
// none is lost, and the newest hand always acts at the next tick. The steps of the bench are the same at every pace: a take
// notes ticks, and replays as if there had been none.
type Pace uint8

const (
	Running Pace = iota // practice time is the clock's
	Quarter             // a quarter of it
	Tenth               // a tenth of it
	Paused              // practice time stands; StepOn lets it go on by one step
)

// StepTicks is how far StepOn goes, in ticks.
const StepTicks = 10

// slower is how many µs of the clock make one of the practice; 0 where practice time stands.
func (p Pace) slower() int64 {
	switch p {
	case Running:
		return 1
	case Quarter:
		return 4
	case Tenth:
		return 10
	}
	return 0
}

// anchor ties a moment of the clock to one of the practice, both in µs; from there practice time runs at the pace.
type anchor struct{ clock, practice int64 }

// time is the practice time in µs at the clock's now.
func (l *Loop) time(now int64) int64 {
	n := l.pace.slower()
	if n == 0 {
		return l.from.practice
	}
	return l.from.practice + (now-l.from.clock)/n
}

// wait is how long the clock takes for us µs of the practice.
func (l *Loop) wait(us int64) int64 {
	n := l.pace.slower()
	if n == 0 {
		return idleWait.Microseconds()
	}
	return min(us*n, idleWait.Microseconds())
}

// SetPace changes the pace at the end of the next turn. It may be called from any goroutine.
func (l *Loop) SetPace(p Pace) {
	l.mu.Lock()
	if l.asked != p {
		l.asked, l.steps = p, 0
	}
	l.mu.Unlock()
	ring(l.wake)
}

// Hold has practice time stand until it is let go, whatever pace is asked for: nobody can see the practice, or nobody could act on it in
// time. As for a pause, no time passes for the craft, so nothing counts as missed and no link as lost. It may be called from any goroutine.
func (l *Loop) Hold(on bool) {
	l.mu.Lock()
	l.held = on
	l.mu.Unlock()
	ring(l.wake)
}

// Pace is the pace that was asked for last.
func (l *Loop) Pace() Pace {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.asked
}

// StepOn lets a paused practice go on by StepTicks; it does nothing at another pace.
func (l *Loop) StepOn() {
	l.mu.Lock()
	if l.asked == Paused {
		l.steps++
	}
	l.mu.Unlock()
	ring(l.wake)
}

// Waiting are the bench inputs that were told to a practice whose time stands, and come about once it goes on.
type Waiting struct {
	kinds uint32 // bit k: kind k
	value [pulse.KindCount]int32
}

// Of is how a bench input will stand once time goes on: as it was told last, or as it stands now.
func (w *Waiting) Of(k pulse.Kind, now int32) int32 {
	if w.Has(k) {
		return w.value[k]
	}
	return now
}

// Has tells whether one of a kind waits.
func (w *Waiting) Has(k pulse.Kind) bool { return w.kinds>>k&1 == 1 }

// Waiting is what waits for time to go on.
func (l *Loop) Waiting() Waiting {
	l.public.mu.Lock()
	defer l.public.mu.Unlock()
	return l.public.waiting
}

// waits gathers it. The plug is no input of the desk.
func (l *Loop) waits() (w Waiting) {
	if l.pace != Paused {
		return w
	}
	for i := range l.pending {
		if k := l.pending[i].Kind; k != pulse.Controls && k != pulse.Plug && k < pulse.KindCount {
			w.kinds |= 1 << k
			w.value[k] = l.pending[i].Value
		}
	}
	return w
}

// stepOn moves the time of a paused practice by the steps that were asked for.
func (l *Loop) stepOn() {
	if l.pace != Paused {
		return
	}
	l.mu.Lock()
	n := l.steps
	l.steps = 0
	l.mu.Unlock()
	l.from.practice += n * StepTicks * 1000
}

// turnPace takes over the pace that was asked for. What sources say later of the time before counts now, in order.
func (l *Loop) turnPace(now int64) {
	l.mu.Lock()
	p := l.asked
	if l.held {
		p = Paused
	}
	l.mu.Unlock()
	if p == l.pace {
		return
	}
	at := l.time(now)
	if p == Paused {
		at = (l.p.Tick() - 1) * 1000 // on a tick, so that every step is a whole one
	}
	l.from, l.pace, l.floor = anchor{now, at}, p, at
	for i := range l.players {
		l.players[i].since = max(l.players[i].since, at)
	}
}
