package live

import (
	"slices"

	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// Companion is a set of crafts that are stepped beside the practice with the same inputs each millisecond, such as the same craft in
// each of the flight modes. They are looked on only: nothing of theirs is recorded or acts on the practice. The loop alone calls its
// methods, in its own goroutine.
type Companion interface {
	// Turn gives the crafts that go along from the next tick on, nil for none now. Own is the pilot's; changed says that another craft
	// has just taken its place. The same pointers are the same crafts still.
	Turn(own *practice.Practice, changed bool) []*practice.Practice
	// Step runs the next millisecond of those that go along with the readings that fall on it.
	Step(readings []pulse.Reading)
	// Publish keeps what the companion itself can tell of the latest step for those who look (Beside.Look).
	Publish()
}

// Beside is a companion that was begun, in the hands of whoever began it. Its methods may be called from any goroutine.
type Beside struct {
	loop *Loop
	c    Companion
	// crafts are those that go along; the loop's goroutine only, which alone changes seen, under its lock.
	crafts []*practice.Practice
	seen   []*Seen
}

// Begin lets a companion go along from the next turn of the loop on, until it is ended.
func (l *Loop) Begin(c Companion) *Beside {
	b := &Beside{loop: l, c: c}
	l.mu.Lock()
	l.companions = append(slices.Clip(l.companions), b)
	l.mu.Unlock()
	ring(l.wake)
	return b
}

// End sends the companion away. Ending it again changes nothing.
func (b *Beside) End() {
	b.loop.mu.Lock()
	b.loop.companions = slices.DeleteFunc(slices.Clone(b.loop.companions), func(x *Beside) bool { return x == b })
	b.loop.mu.Unlock()
	ring(b.loop.wake)
}

// Do runs f in the loop's goroutine before the next tick, for what is asked of the companion. It must not block.
func (b *Beside) Do(f func()) {
	b.loop.mu.Lock()
	b.loop.wishes = append(b.loop.wishes, f)
	b.loop.mu.Unlock()
	ring(b.loop.wake)
}

// Look calls see with each of the crafts as it stands after the latest step, and reports false where none go along. What it reads of
// them, and of what the companion has published, is of one step. See must not keep its argument nor call the loop.
func (b *Beside) Look(see func(i int, p *practice.Practice)) bool {
	b.loop.public.mu.Lock()
	defer b.loop.public.mu.Unlock()
	for i, s := range b.seen {
		see(i, &s.now)
	}
	return len(b.seen) > 0
}

// Craft is craft i as others may see it, nil where it does not go along. Crafts that begin anew are others, and seen anew.
func (b *Beside) Craft(i int) *Seen {
	b.loop.public.mu.Lock()
	defer b.loop.public.mu.Unlock()
	if i >= len(b.seen) {
		return nil
	}
	return b.seen[i]
}

// Companions are those that were begun and not ended.
func (l *Loop) Companions() []*Beside {
	l.mu.Lock()
	defer l.mu.Unlock()
	return slices.Clone(l.companions)
}

// turnCompanions takes over who is to go along.
func (l *Loop) turnCompanions(asked []*Beside, changed bool) {
	for _, b := range l.beside {
		if !slices.Contains(asked, b) {
			b.goAlong(nil)
		}
	}
	l.beside = asked
	for _, b := range asked {
		b.goAlong(b.c.Turn(l.p, changed))
	}
}

// goAlong has these crafts go along, where they are not those that do so already.
func (b *Beside) goAlong(crafts []*practice.Practice) {
	if slices.Equal(crafts, b.crafts) {
		return
	}
	mu := &b.loop.public.mu
	mu.Lock()
	defer mu.Unlock()
	b.crafts, b.seen = append(b.crafts[:0], crafts...), nil
	for _, p := range crafts {
		s := newSeen(mu, p)
		s.film = &film{}
		b.seen = append(b.seen, s)
	}
	if len(crafts) > 0 {
		b.c.Publish()
	}
}

// step runs one tick of those that go along.
func (b *Beside) step(readings []pulse.Reading, tick int64) {
	if len(b.crafts) == 0 {
		return
	}
	b.c.Step(readings)
	for i, p := range b.crafts {
		b.seen[i].stepped(p, tick)
	}
}

// publish shows what the ticks since the last time brought; the lock is held.
func (b *Beside) publish() {
	for i, p := range b.crafts {
		b.seen[i].publish(p)
	}
	if len(b.crafts) > 0 {
		b.c.Publish()
	}
}
