package loss

import (
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/live"
	"propsoff/cmd/propsoff/internal/live/whodrives"
	"propsoff/cmd/propsoff/internal/lossrun"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/screen"
	"propsoff/sim"
	"propsoff/sim/happening"
	"propsoff/sim/practice"
	"propsoff/sim/pulse"
)

// hoverHeight is how high the demonstration's own pilot hovers, m (ours).
const hoverHeight = 8

// part is the work behind the sheet of three receivers on a lost link: while it is open, three crafts do what the pilot's own
// does.
type part struct {
	screen.Base
	s        *screen.Screen
	told     screen.Events
	stored   lossrun.Stored
	seen     lossrun.Now
	three    *lossrun.Companion
	beside   *live.Beside
	teller   [lossrun.Receivers]facts.Teller
	tracks   [lossrun.Receivers]screen.Track
	refusals [lossrun.Receivers]ui.Refusals
	// flown: the demonstration's own pilot drives; was is what stood on the bench before it. steady: it has come to hover.
	flown, steady bool
	was           sim.Inputs
}

// New makes the sheet.
func New(s *screen.Screen) screen.Sheet { return &part{s: s} }

func (p *part) Open() {
	p.told.Since(p.s.Options.Loop)
	p.stored = lossrun.FirstStored(&p.s.Config)
	p.begin()
	p.three = &lossrun.Companion{Wanted: p.stored}
	p.beside = p.s.Options.Loop.Begin(p.three)
}

// begin forgets what was seen.
func (p *part) begin() {
	p.steady = false
	for i := range p.tracks {
		p.tracks[i], p.refusals[i] = screen.Track{From: p.tracks[i].From}, ui.Refusals{}
	}
}

func (p *part) Close() {
	p.beside.End()
	p.land()
}

// Turn follows what carries the craft, and who drives: the pilot of the demonstration may have been sent away.
func (p *part) Turn() {
	for _, h := range p.told.Since(p.s.Options.Loop) {
		if h.Code == happening.Moved {
			for i := range p.tracks {
				p.tracks[i].Cut(h.Tick)
			}
		}
	}
	if p.flown && !p.s.Options.Driver.Showing() {
		p.putBack()
	}
}

func (p *part) Fill(v *ui.View) {
	l := Of(v)
	there := p.beside.Look(func(i int, c *practice.Practice) { p.three.See(&p.seen, i, c) })
	l.Stored, l.Flown = p.stored, p.flown
	frame := v.Snap.Received
	stored := p.stored.Frame(&p.s.Config, &frame)
	for i := range l.Crafts {
		c := &l.Crafts[i]
		if there {
			c.Facts = p.teller[i].Of(&p.seen.Craft[i], p.s.Told.Whose(p.s))
			p.teller[i].Back(&c.Facts)
			c.Run = p.seen.Run[i]
		} else { // until the next turn of the loop they are where the pilot's own is
			cfg := lossrun.WithReceiver(p.s.Config, facts.OnLoss(i), stored)
			c.Facts, c.Run = facts.Seen(&v.Snap, &cfg), lossrun.NewRun(&p.s.Config)
		}
		c.Snap, c.Config = c.Facts.Snap, c.Facts.Craft
		t := &p.tracks[i]
		t.Follow(p.beside.Craft(i), &p.s.Config)
		c.Trail = t.Trail
		p.refusals[i].Update(&c.Facts)
		c.Refusals = &p.refusals[i]
	}
	if !v.Flight.Replay.On {
		p.s.Told.Teller.Back(&v.Facts)
	}
	p.steady = p.flown && lossrun.Hovering(&v.Snap, hoverHeight, p.steady)
	l.Steady = p.steady
	var ready []pulse.Reading
	if !p.flown || !v.Snap.In.Air {
		ready = p.ready()
	}
	l.Pilot = p.s.Told.Teller.Pilot(&p.s.Told.Live, ready)
}

func (p *part) Act(a ui.Action) bool {
	switch a {
	case keyStored:
		p.stored = p.stored.Next(&p.s.Config)
		wanted := p.stored
		p.beside.Do(func() { p.three.Wanted = wanted })
	case keyAnew:
		p.anew()
	case keyFly:
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
func (p *part) anew() {
	if p.flown {
		p.fly()
		return
	}
	p.s.Options.Loop.Desk().Put(pulse.Link, 1)
	if p.s.Flight.Live.In.Air {
		p.s.Flight.Carry(1)
	}
	p.begin()
	p.beside.Do(func() { p.three.Anew = true })
}

// ready are the readings that make the bench ready for the demonstration's own pilot.
func (p *part) ready() []pulse.Reading {
	return append(whodrives.Tidied(), lossrun.Carried(&p.s.Config)...)
}

// fly lets the demonstration's own pilot fly, outside, with the right propellers.
func (p *part) fly() {
	if !p.flown {
		p.was = p.s.Flight.Live.In
	}
	p.s.Flight.Resume()
	p.s.Options.Driver.Show(lossrun.NewPilot(p.s.Config, hoverHeight, p.s.Options.Loop.Snapshot))
	for _, r := range lossrun.Carried(&p.s.Config) { // the bench was tidied as that pilot came
		p.s.Options.Loop.Desk().Put(r.Kind, r.Value)
	}
	p.flown = true
	p.begin()
	p.beside.Do(func() { p.three.Anew = true })
}

// land sends the pilot of the demonstration away.
func (p *part) land() {
	if !p.flown {
		return
	}
	if p.s.Options.Driver.Showing() {
		p.s.Options.Driver.Next()
	}
	p.putBack()
}

// putBack leaves bench and propellers as they were before the pilot of the demonstration came.
func (p *part) putBack() {
	p.flown = false
	put := p.s.Options.Loop.Desk().Put
	put(pulse.Propellers, pulse.PropellersValue(p.was.Hands, p.was.Checked))
	if p.was.Air {
		put(pulse.Air, 1)
	}
	p.begin()
	p.beside.Do(func() { p.three.Anew = true })
}

func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }

func (p *part) About() *ui.About { return About() }
