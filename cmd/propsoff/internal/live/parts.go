package live

import (
	"slices"

	"propsoff.example/sim"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// Start is how a practice begins, or a part of one: the stretch of it with one craft on the bench.
type Start struct {
	Craft sim.Config
	// Tick is its first tick, Stands what stands then already (practice.Stands).
	Tick   int64
	Stands []pulse.Reading
	// Note says in a few words what it is about, for whoever opens a take of it.
	Note string
}

// Parts is a source whose practice changes its craft on the way, as a take of several parts does.
type Parts interface {
	// Part gives the next part, once Poll has handed out every reading before it and it begins at or before until (µs).
	Part(until int64) (*Start, bool)
}

// UseCraft puts another craft on the bench, as if its pack had just been plugged in. For a take that begins another part; the note
// says what it is about.
func (l *Loop) UseCraft(cfg sim.Config, note string) {
	l.mu.Lock()
	l.craft = &Start{Craft: cfg, Note: note}
	l.mu.Unlock()
	l.public.mu.Lock()
	l.public.craft = &cfg
	l.public.mu.Unlock()
	ring(l.wake)
}

// Craft is the craft on the bench, without what faults make of it, or the one that UseCraft is just putting there. Read only.
func (l *Loop) Craft() *sim.Config {
	l.public.mu.Lock()
	defer l.public.mu.Unlock()
	return l.public.craft
}

// stood is a craft with the tick from which on it stood on the bench.
type stood struct {
	from  int64
	craft *sim.Config
}

// stand notes which craft stands now, and forgets those of which there is no film any more.
func (v *public) stand(s *Start) {
	v.stood = append(v.stood, stood{s.Tick, &s.Craft})
	for len(v.stood) > 1 && v.stood[1].from < s.Tick-FilmTicks {
		v.stood = slices.Delete(v.stood, 0, 1)
	}
}

// CraftAt is the craft that stood on the bench at a tick, one of which there is a film (Moment). Read only.
func (l *Loop) CraftAt(tick int64) *sim.Config {
	l.public.mu.Lock()
	defer l.public.mu.Unlock()
	all := l.public.stood
	for i := len(all) - 1; i > 0; i-- {
		if all[i].from <= tick {
			return all[i].craft
		}
	}
	return all[0].craft
}

// change begins another part. One that a source tells of begins as it was recorded. Else the craft that stands loses its power, where it
// has any, in a tick of its own, and the new one gets it in the next.
func (l *Loop) change(s *Start) {
	switch {
	case s.Stands != nil:
	case !l.begun:
		s.Stands = l.opt.Stands
	default:
		powered := l.p.Bench().State().In.Powered
		if powered {
			l.step([]pulse.Reading{{Kind: pulse.Power}})
		}
		s.Stands = l.p.Stands([]pulse.Reading{})
		if powered {
			at := l.p.Tick() * 1000
			if len(l.pending) > 0 {
				at = min(at, l.pending[0].at)
			}
			l.pending = slices.Insert(l.pending, 0, reading{at: at, Reading: pulse.Reading{Kind: pulse.Power, Value: 1}})
		}
	}
	l.endDigest()
	l.kept.Forget()
	l.setWreck(nil)
	l.again = Again{Times: l.again.Times}
	s.Tick = l.p.Tick()
	l.partFrom, l.note = s.Tick, s.Note
	*l.p = *practice.Begin(s.Craft, s.Tick, s.Stands)
	l.public.mu.Lock()
	l.public.craft = &s.Craft
	l.public.stand(s)
	l.public.mu.Unlock()
	if l.rec != nil {
		l.rec.add(entry{kind: partEntry, part: s})
	}
	l.turnCompanions(l.beside, true)
}

// nextPart is the part that a source has come to at a tick.
func (l *Loop) nextPart(due int64) (*Start, bool) {
	for i := range l.players {
		p := &l.players[i]
		parts, ok := p.Source.(Parts)
		if !ok || !p.timed {
			continue
		}
		if s, ok := parts.Part(due*1000 - p.zero); ok {
			s.Tick += p.zero / 1000
			if s.Stands == nil {
				s.Stands = []pulse.Reading{}
			}
			return s, true
		}
	}
	return nil, false
}
