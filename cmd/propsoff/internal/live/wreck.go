package live

import (
	"context"
	"sync"
	"sync/atomic"

	"propsoff.example/cmd/propsoff/internal/breath"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/lesson"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// Wreck is what was kept of the pilot's own craft when it broke.
type Wreck struct {
	past  *lesson.Past
	found atomic.Pointer[lesson.Found]
	once  sync.Once
	over  atomic.Bool   // nobody asks any more
	done  chan struct{} // closed once nothing more is found out
}

// Broke is the tick in which it broke.
func (w *Wreck) Broke() int64 { return w.past.Broke }

// Back is how long before the wreck GoBack puts the practice, in ticks.
func (w *Wreck) Back() int64 { return w.past.Broke - w.past.Back() }

// Found is until when it could have been saved, nil while that is being found out: the first who asks begins it, beside the loop.
func (w *Wreck) Found() *lesson.Found {
	w.once.Do(func() {
		go func() {
			defer close(w.done)
			var b breath.Breath
			stop := func() bool {
				b.Take()
				return w.over.Load()
			}
			if f, whole := lesson.Find(w.past, stop); whole {
				w.found.Store(&f)
			}
		}()
	})
	return w.found.Load()
}

// Wait is Found, once it is known, also after the loop has ended; nil where the craft was put back before, or ctx has ended.
func (w *Wreck) Wait(ctx context.Context) *lesson.Found {
	w.Found()
	select {
	case <-ctx.Done():
		return nil
	case <-w.done:
		return w.found.Load()
	}
}

// Again is a practice that was put back to before a wreck. Until a hand lets it go on, time stands.
type Again struct {
	// Apart: nothing is recorded since then, until the craft is put back or another takes its place.
	Apart bool
	// Then is what the hands held at the moment it was put back to, Now what they hold.
	Then, Now pulse.Frame
	// Times is how often that was done, Before how long before the wreck it stands then, in ticks.
	Times  int
	Before int64
}

// Wreck is the wreck of the pilot's own craft, nil where it is whole, or where nothing was kept.
func (l *Loop) Wreck() *Wreck {
	l.public.mu.Lock()
	defer l.public.mu.Unlock()
	return l.public.wreck
}

// GoBack puts the practice back to before its wreck (lesson.Past.Back) and pauses it. The ticks count on. The part that is
// recorded ends there, since no reading can tell of that jump: in a take a part without anything follows, and the next begins once the craft is put
// back.
func (l *Loop) GoBack() {
	l.mu.Lock()
	l.back = true
	l.mu.Unlock()
	ring(l.wake)
}

// Again is how a practice stands that was put back.
func (l *Loop) Again() Again {
	l.public.mu.Lock()
	defer l.public.mu.Unlock()
	return l.public.again
}

// watchWreck keeps what the step just made tells of a wreck, and forgets it when the craft is carried.
func (l *Loop) watchWreck(happened []happening.Happening) {
	for _, h := range happened {
		switch h.Code {
		case happening.Broke:
			if past := l.kept.Past(h.Tick); past != nil {
				l.setWreck(&Wreck{past: past, done: make(chan struct{})})
			}
		case happening.Moved:
			l.setWreck(nil)
		}
	}
}

func (l *Loop) setWreck(w *Wreck) {
	l.public.mu.Lock()
	defer l.public.mu.Unlock()
	if was := l.public.wreck; was != nil {
		was.over.Store(true)
	}
	l.public.wreck = w
}

// goBack does what GoBack asks for.
func (l *Loop) goBack(now int64) {
	w := l.Wreck()
	if w == nil {
		return
	}
	in, tick := l.p.Bench().State().In, l.p.Tick()
	var hands pulse.Frame
	held := l.p.Hands()
	if held != nil {
		hands = *held
	}
	if !l.again.Apart {
		l.endDigest()
		stands := l.p.Stands([]pulse.Reading{})
		l.partFrom = tick
		if l.rec != nil {
			l.rec.add(entry{kind: partEntry, part: &Start{Craft: l.p.Craft(), Tick: tick, Stands: stands, Note: l.note}})
		}
	}
	var p practice.Practice
	w.past.At(&p, w.past.Back())
	l.again = Again{Apart: true, Times: l.again.Times + 1, Before: w.Back()}
	if then := p.Hands(); then != nil {
		l.again.Then = *then
	}
	p.Later(tick - p.Tick())
	p.CopyTo(l.p)
	l.kept.Forget()
	l.setWreck(nil)
	l.mu.Lock()
	l.asked, l.steps = Paused, 0
	l.mu.Unlock()
	l.turnPace(now)

	// The hands and their plug stand as they do now: hands that stay still send nothing more. The radio's switch, which a key of the sheet moves, goes back too.
	at, plugged := l.from.practice, int32(0)
	if in.Plugged {
		plugged = 1
	}
	l.insert(reading{at: at, Reading: pulse.Reading{Kind: pulse.Plug, Value: plugged}})
	if l.again.Now = hands; held != nil {
		l.insert(reading{at: at, Reading: pulse.Reading{Kind: pulse.Controls, Frame: hands}})
	}
	l.turnCompanions(l.beside, true)
}

// followHands notes what the hands hold that are to let a practice go on.
func (l *Loop) followHands(r *pulse.Reading) {
	if l.again.Apart && r.Kind == pulse.Controls {
		l.again.Now = r.Frame
	}
}

// backInParts begins a new part where a craft that flies apart is put back by the readings of the next tick.
func (l *Loop) backInParts() {
	if !l.again.Apart {
		return
	}
	for _, r := range l.pending {
		if r.at > l.p.Tick()*1000 {
			return
		}
		if r.Kind == pulse.Air {
			l.change(&Start{Craft: l.p.Craft(), Note: l.note})
			return
		}
	}
}
