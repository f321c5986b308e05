package live

import (
	"errors"
	"math"
	"slices"
	"time"

	"propsoff.example/input"
	"propsoff.example/sim/pulse"
)

// Turn goes round once: it takes what the sources have, runs every tick that is due and publishes what came of it. It gives
// the time until the next turn is due by itself. Run calls it; a test with a clock of its own may call it instead.
func (l *Loop) Turn() time.Duration {
	now, passed := l.opt.Clock.Now(), l.opt.Clock.Passed()
	if !l.begun {
		l.from.clock, l.lastNow, l.lastPass = now, now, passed
	}
	l.takeOver(now)
	if !l.begun {
		l.begun = true
		for _, r := range l.opt.Begin {
			l.pending = append(l.pending, reading{at: l.from.practice, Reading: r})
		}
		l.desk.open(now)
	} else if gap := max(now-l.lastNow, passed-l.lastPass); gap > sleepLimit && l.pace != Paused {
		l.slept(gap)
		l.from = anchor{now, l.p.Tick() * 1000} // the next tick is due now
	}
	l.lastNow, l.lastPass = now, passed

	l.collectDesk(now)
	l.collectAll(false, now)
	l.stepOn()
	at := l.time(now)
	due := at / 1000
	if len(l.pending) > 0 {
		due = (at + 999) / 1000 // what came in need not wait for its tick
	}
	l.collectAll(true, due*1000)
	for start, ok := l.nextPart(due); ok; start, ok = l.nextPart(due) {
		l.stepTo(start.Tick - 1)
		l.change(start)
		l.collectAll(true, due*1000)
	}
	l.stepTo(due)
	l.turnPace(now)
	l.publish()
	if l.came && l.opt.Came != nil {
		ring(l.opt.Came)
	}
	l.came = false
	if l.published != nil {
		l.published()
	}
	if len(l.pending) > 0 {
		// The tick that they fall on has run already: the next one may run once its millisecond has begun.
		return time.Duration(l.wait(max((l.p.Tick()-1)*1000+1-l.time(now), 1))) * time.Microsecond
	}
	return idleWait
}

// collectAll polls those that play by time alone, or the others.
func (l *Loop) collectAll(timed bool, until int64) {
	for i := 0; i < len(l.players); i++ {
		if l.players[i].timed == timed && !l.collect(i, until) {
			i--
		}
	}
}

// collect polls player i up to until, a time of the practice for one that plays by time alone and of the clock for others,
// and reports false when the player has ended and left the list.
func (l *Loop) collect(i int, until int64) bool {
	p := &l.players[i]
	zero := p.Opened
	if p.timed {
		zero = p.zero
	}
	var err error
	l.polled, err = p.Source.Poll(l.polled[:0], until-zero)
	l.came = l.came || !p.timed && len(l.polled) > 0
	for _, r := range l.polled {
		l.followHands(&r)
		at := zero + r.At
		if !p.timed {
			at = l.time(at)
		}
		l.insert(reading{at: max(at, p.since), Reading: r})
	}
	if err == nil {
		return true
	}
	source := p.Source
	l.players = slices.Delete(l.players, i, i+1)
	if !errors.Is(err, input.ErrEnd) {
		l.public.trouble(err)
	}
	if l.opt.Ended != nil {
		l.opt.Ended(source, err)
	}
	l.closing.Go(func() { _ = source.Close() })
	return false
}

func (l *Loop) collectDesk(now int64) {
	l.polled = l.desk.take(l.polled[:0])
	l.came = l.came || len(l.polled) > 0
	for _, r := range l.polled {
		l.insert(reading{at: max(l.time(min(r.At, now)), l.floor), Reading: r})
	}
}

// insert keeps pending in order of time; equal times stay in the order in which they came. While the practice is paused only
// the newest of controls that follow each other is kept: all would fall on one tick, where the newest stays.
func (l *Loop) insert(r reading) {
	i := len(l.pending)
	if last := i - 1; l.pace == Paused && i > 0 && l.pending[last].at == r.at && l.pending[last].Kind == pulse.Controls && r.Kind == pulse.Controls {
		l.pending[last] = r
		return
	}
	for i > 0 && l.pending[i-1].at > r.at {
		i--
	}
	l.pending = slices.Insert(l.pending, i, r)
}

// stepTo runs all ticks up to and including last, each with the readings that fall on it.
func (l *Loop) stepTo(last int64) {
	for l.p.Tick() <= last {
		l.backInParts()
		n := 0
		for n < len(l.pending) && l.pending[n].at <= l.p.Tick()*1000 {
			n++
		}
		l.due = l.due[:0]
		for _, r := range l.pending[:n] {
			l.due = append(l.due, r.Reading)
		}
		l.pending = l.pending[:copy(l.pending, l.pending[n:])]
		l.step(l.due)
	}
}

// step runs one tick and tells everyone of it.
func (l *Loop) step(readings []pulse.Reading) {
	tick, records := l.p.Tick(), l.rec != nil && !l.again.Apart
	for i := range readings {
		if readings[i].Kind == pulse.Instructor {
			l.noteTutor(readings[i].Value)
		}
		if records {
			l.rec.add(entry{kind: readingEntry, tick: tick, reading: readings[i]})
		}
	}
	l.kept.Before(l.p, readings)
	l.p.Step(readings)
	happened := l.p.Happenings()
	l.watchWreck(happened)
	l.stepped(tick)
	for _, b := range l.beside {
		b.step(readings, tick)
	}
	if records {
		for _, h := range happened {
			l.rec.add(entry{kind: happeningEntry, tick: h.Tick, happening: h})
		}
		if tick%digestEvery == digestEvery-1 {
			l.rec.add(entry{kind: digestEntry, tick: tick, digest: l.p.Digest()})
		}
	}
	if l.opt.Listen != nil {
		l.opt.Listen(l.p)
	}
}

// slept makes up for a gap in which the loop did not run: the bench is stepped through it with a silent radio, so that a
// craft that was armed cuts as it would have. Readings that came in meanwhile count after it.
func (l *Loop) slept(gap int64) {
	ms := gap / 1000
	n := min(ms, l.gapTicks)
	s := l.p.Bench().State()
	l.step([]pulse.Reading{{Kind: pulse.Sleep, Value: int32(min(ms, math.MaxInt32))}, {Kind: pulse.Link, Value: 0}})
	for range n - 1 {
		l.step(nil)
	}
	if s.In.Transmitter {
		l.insert(reading{at: l.p.Tick() * 1000, Reading: pulse.Reading{Kind: pulse.Link, Value: 1}})
	}
}
