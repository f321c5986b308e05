package screen

import (
	"propsoff/cmd/propsoff/internal/drive"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/cmd/propsoff/internal/lossrun"
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/sim"
	"propsoff/sim/happening"
	"propsoff/sim/pulse"
)

// lossHeight is how high the demonstration's own pilot hovers, m (ours).
const lossHeight = 8

// lossPart is the work behind the sheet of three receivers on a lost link: while it is open, three crafts do what the pilot's own
// does.
type lossPart struct {
	s        *Screen
	told     events
	stored   lossrun.Stored
	seen     loop.Loss
	teller   [lossrun.Receivers]facts.Teller
	tracks   [lossrun.Receivers]track
	refusals [lossrun.Receivers]sheet.Refusals
	// flown: the demonstration's own pilot drives; was is what stood on the bench before it. steady: it has come to hover.
	flown, steady bool
	was           sim.Inputs
}

func (p *lossPart) open() {
	p.told.since(p.s.o.Loop)
	p.stored = lossrun.FirstStored(&p.s.cfg)
	p.begin()
	p.s.o.Loop.FlyLoss(true, p.stored)
}

// begin forgets what was seen.
func (p *lossPart) begin() {
	p.steady = false
	for i := range p.tracks {
		p.tracks[i], p.refusals[i] = track{from: p.tracks[i].from}, sheet.Refusals{}
	}
}

func (p *lossPart) close() {
	p.s.o.Loop.FlyLoss(false, p.stored)
	p.land()
}

// turn follows what carries the craft, and who drives: the pilot of the demonstration may have been sent away.
func (p *lossPart) turn() {
	for _, h := range p.told.since(p.s.o.Loop) {
		if h.Code == happening.Moved {
			for i := range p.tracks {
				p.tracks[i].cut(h.Tick)
			}
		}
	}
	if p.flown && !p.s.o.Driver.Showing() {
		p.putBack()
	}
}

func (p *lossPart) fill(v *sheet.View) {
	l := &v.Loss
	there := p.s.o.Loop.Loss(&p.seen)
	l.Stored, l.Flown = p.stored, p.flown
	frame := v.Snap.Received
	stored := p.stored.Frame(&p.s.cfg, &frame)
	for i := range l.Crafts {
		c := &l.Crafts[i]
		if there {
			c.Facts = p.teller[i].Of(&p.seen.Craft[i], p.s.told.whose(p.s))
			p.teller[i].Back(&c.Facts)
			c.Run = p.seen.Run[i]
		} else { // until the next turn of the loop they are where the pilot's own is
			cfg := lossrun.WithReceiver(p.s.cfg, facts.OnLoss(i), stored)
			c.Facts, c.Run = facts.Seen(&v.Snap, &cfg), lossrun.NewRun(&p.s.cfg)
		}
		c.Snap, c.Config = c.Facts.Snap, c.Facts.Craft
		t := &p.tracks[i]
		t.follow(p.s.o.Loop, loop.WithReceiver(facts.OnLoss(i)), &p.s.cfg)
		c.Trail = t.trail
		p.refusals[i].Update(&c.Facts)
		c.Refusals = &p.refusals[i]
	}
	if !v.Flight.Replay.On {
		p.s.told.teller.Back(&v.Facts)
	}
	p.steady = p.flown && lossrun.Hovering(&v.Snap, lossHeight, p.steady)
	l.Steady = p.steady
	var ready []pulse.Reading
	if !p.flown || !v.Snap.In.Air {
		ready = p.ready()
	}
	l.Pilot = p.s.told.teller.Pilot(&p.s.told.live, ready)
}

func (p *lossPart) act(a sheet.Action) bool {
	switch a {
	case sheet.LossStored:
		p.stored = p.stored.Next(&p.s.cfg)
		p.s.o.Loop.FlyLoss(true, p.stored)
	case sheet.LossAnew:
		p.anew()
	case sheet.LossFly:
		if p.flown {
			p.land()
		} else {
			p.fly()
		}
	default:
		return false
	}
	return true
}

// anew begins again: the radio on, and in the air the craft at the start.
func (p *lossPart) anew() {
	if p.flown {
		p.fly()
		return
	}
	p.s.o.Loop.Desk().Put(pulse.Link, 1)
	if p.s.flight.live.In.Air {
		p.s.flight.carry(1)
	}
	p.begin()
	p.s.o.Loop.LossAnew()
}

// ready are the readings that make the bench ready for the demonstration's own pilot.
func (p *lossPart) ready() []pulse.Reading {
	return append(drive.Tidied(), lossrun.Carried(&p.s.cfg)...)
}

// fly lets the demonstration's own pilot fly, outside, with the right propellers.
func (p *lossPart) fly() {
	if !p.flown {
		p.was = p.s.flight.live.In
	}
	p.s.flight.resume()
	p.s.o.Driver.Show(lossrun.NewPilot(p.s.cfg, lossHeight, p.s.o.Loop.Snapshot))
	for _, r := range lossrun.Carried(&p.s.cfg) { // the bench was tidied as that pilot came
		p.s.o.Loop.Desk().Put(r.Kind, r.Value)
	}
	p.flown = true
	p.begin()
	p.s.o.Loop.LossAnew()
}

// land sends the pilot of the demonstration away.
func (p *lossPart) land() {
	if !p.flown {
		return
	}
	if p.s.o.Driver.Showing() {
		p.s.o.Driver.Next()
	}
	p.putBack()
}

// putBack leaves bench and propellers as they were before the pilot of the demonstration came.
func (p *lossPart) putBack() {
	p.flown = false
	put := p.s.o.Loop.Desk().Put
	put(pulse.Propellers, pulse.PropellersValue(p.was.Hands, p.was.Checked))
	if p.was.Air {
		put(pulse.Air, 1)
	}
	p.begin()
	p.s.o.Loop.LossAnew()
}

func (p *lossPart) key(name string, down bool) bool { return false }
func (p *lossPart) hit(name string) bool            { return false }
