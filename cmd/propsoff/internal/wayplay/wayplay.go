// Package wayplay plays a way on a bench of its own, beside whatever else is practised: as far as it is asked to, and again from the beginning.
package wayplay

import (
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim"
	"propsoff.example/sim/examine"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// Play is a way that is played. Use New.
type Play struct {
	// Config is the craft; read only.
	Config sim.Config
	way    *prove.Way
	p      *practice.Practice
	next   int // index of the reading to come
	sent   pulse.Frame
	// from is the tick from which on it is noted what refused and what disarmed.
	from              int64
	refused, disarmed happening.Happening
}

// New begins to play a way on a craft. From the tick from on, in ms from its beginning, it is noted why arming was refused and what disarmed.
func New(cfg sim.Config, way *prove.Way, from int64) *Play {
	p := &Play{Config: cfg, way: way, from: from}
	p.again()
	return p
}

func (p *Play) again() {
	p.p, p.next, p.refused, p.disarmed = practice.New(p.Config), 0, happening.Happening{}, happening.Happening{}
}

// Both are the two stories of a question, from their last movements on told of.
func Both(cfg sim.Config, q *examine.Question) (both [2]*Play) {
	for i := range q.Stories {
		both[i] = New(cfg, q.Stories[i].Way, q.Stories[i].At)
	}
	return both
}

// To plays on until so many ms have been stepped; where more have been, from the beginning.
func (p *Play) To(ms int64) {
	if ms < p.p.Tick() {
		p.again()
	}
	for tick := p.p.Tick(); tick < ms; tick++ {
		from := p.next
		for ; p.next < len(p.way.Readings) && p.way.Readings[p.next].At <= tick*1000; p.next++ {
			if r := &p.way.Readings[p.next]; r.Kind == pulse.Controls {
				p.sent = r.Frame
			}
		}
		p.p.Step(p.way.Readings[from:p.next])
		if tick < p.from {
			continue
		}
		for _, h := range p.p.Happenings() {
			switch h.Code {
			case happening.Refused:
				p.refused = h
			case happening.Disarmed:
				p.disarmed = h
			}
		}
	}
}

// Ms is how much has been stepped.
func (p *Play) Ms() int64 { return p.p.Tick() }

// Ends is when the way is over, in ms from its beginning.
func (p *Play) Ends() int64 { return p.way.Final + 1 }

// Sent is what the radio sends now.
func (p *Play) Sent() *pulse.Frame { return &p.sent }

// Snapshot fills dst with how the bench stands now.
func (p *Play) Snapshot(dst *sim.Snapshot) { p.p.Snapshot(dst) }

// Facts is what may be said of the bench now: what is, and nothing of what a hand could do.
func (p *Play) Facts() facts.Facts {
	var snap sim.Snapshot
	p.p.Snapshot(&snap)
	f := facts.Seen(&snap, &p.Config)
	f.Plain = true
	return f
}

// Refused is what refused arming last; false where nothing did.
func (p *Play) Refused() (happening.Happening, bool) {
	return p.refused, p.refused.Code == happening.Refused
}

// Disarmed is what disarmed the craft last; false where nothing did.
func (p *Play) Disarmed() (happening.Happening, bool) {
	return p.disarmed, p.disarmed.Code == happening.Disarmed
}
