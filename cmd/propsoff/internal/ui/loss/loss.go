// Package loss is one sheet: three receivers side by side on a lost link.
package loss

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/lossrun"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// What its own keys do.
const (
	keyFly    ui.Action = "loss-fly"    // the demonstration's own pilot flies, or no longer
	keyStored ui.Action = "loss-stored" // other values stored in the third receiver
	keyAnew   ui.Action = "loss-anew"   // begin again
)

// About is what there is to know of the sheet.
func About() *ui.About {
	return &ui.About{
		Place: ui.OnLoss, Key: "F", Flown: true,
		Shared: ui.Usual(ui.SwitchRadio, ui.NextDriver, ui.TurnRecording, ui.PauseFlight, ui.SlowFlight, ui.StepFlight),
		Own:    append([]ui.Act{{Action: keyFly, Physical: "Enter"}, {Action: keyStored, Physical: "Period"}, {Action: keyAnew, Physical: "Delete"}}, mapKeys()...),
		Front:  []ui.Action{ui.SwitchRadio},
		Shows:  shows,
		Does: func(v *ui.View, a ui.Action) (does words.Text) {
			if a == keyFly {
				does = tell.Does(a.Code(), Of(v).Flown, 0)
			}
			return does
		},
	}
}

func shows(v *ui.View, a ui.Action) (shows, known bool) {
	if shows, known := Of(v).mapShows(a); known {
		return shows, true
	}
	free := !v.Playing() || Of(v).Flown
	switch a {
	case ui.SwitchRadio: // no hand reaches those that began at the worst of the map, and their radio is silent
		return free && Of(v).Played.Empty(), true
	case keyFly, keyAnew:
		return free, true
	case keyStored: // a receiver does not think of something else in the air
		return free && Of(v).Crafts[facts.SendsStored].Run.Phase != lossrun.Off, true
	}
	return false, false
}

// View is what the sheet knows besides what all know. The sticks, the radio and the pace are those of ui.View.
type View struct {
	Crafts [lossrun.Receivers]Craft
	Stored lossrun.Stored
	// Flown: the demonstration's own pilot drives. Steady: it hovers. Pilot is what it comes to with the pilot's own craft.
	Flown, Steady bool
	Pilot         facts.Pilot
	// Map is the map of a lost link, while it is shown. Played: the three began at its worst, which is what words say.
	Map    *Map
	Played words.Text
}

// Of is what this sheet knows besides what all know.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// Craft is one of the three.
type Craft struct {
	// Facts are those of the craft with its receiver, as it now is.
	facts.Facts
	Run lossrun.Run
	// Trail as in ui.FlightView.
	Trail []ui.TrailPoint
	// Refusals has been fed with every snapshot that was shown.
	Refusals *ui.Refusals
}

// asks tells whether it is to be shown what the craft asks for before it can be armed again.
func (c *Craft) asks() bool { return c.Run.Phase == lossrun.Back && !c.Snap.Armed }

// told is the craft as its sentences need it.
func (c *Craft) told() tell.LossCraft {
	return tell.LossCraft{Cfg: &c.Craft, Run: &c.Run, Snap: &c.Snap, Facts: &c.Facts}
}

// on tells whether the radio is heard.
func on(v *ui.View) bool {
	return v.Snap.In.Transmitting() && Of(v).Crafts[0].Run.Phase != lossrun.Off
}

// next says what to do now; one who paused is told how time goes on, and one whom a drill asks nothing else.
func next(v *ui.View) words.Text {
	if v.Facts.Plain || v.Snap.In.Air && v.Flight.Pace.Paused {
		return v.How(ui.OnLoss)
	}
	key := func(a ui.Action) words.Text { return v.KeyHere(a, ui.OnLoss) }
	l := Of(v)
	if l.Map != nil { // and no map is drawn
		return words.T("loss-map.no-map")
	}
	if !l.Played.Empty() && l.Crafts[0].Run.Phase != lossrun.Waiting {
		return words.Row(l.Played, tell.MapAnew(key(keyAnew)))
	}
	return tell.LossNext(&l.Crafts[0].Run, &v.Facts,
		tell.LossKeys{Radio: key(ui.SwitchRadio), Fly: key(keyFly), Anew: key(keyAnew), Bench: v.KeyWords(ui.OnLoss), Short: v.Class},
		tell.LossPilot{Flown: l.Flown, Steady: l.Steady, Comes: l.Pilot})
}

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
	maps          maps
}

// New makes the sheet.
func New(s *screen.Screen) screen.Sheet { return &part{s: s} }

func (p *part) Open() {
	p.told.Since(p.s.Options.Loop)
	p.stored = lossrun.FirstStored(&p.s.Config)
	p.maps.open(&p.s.Config)
	if in := &p.s.Flight.Live.In; (in.Hung || in.Held) && !p.s.Played() { // what comes of a lost link, only the whole craft shows
		p.s.Flight.Carry(pulse.InAir)
	}
	p.begin()
	p.three = &lossrun.Companion{Wanted: p.stored}
	p.beside = p.s.Options.Loop.Begin(p.three)
}

// begin forgets what was seen.
func (p *part) begin() {
	p.steady, p.maps.played = false, words.Text{}
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
	l.Map, l.Played = p.maps.shown(&p.s.Config, p.stored), p.maps.played
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
		return p.actMap(a)
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
		put(pulse.Air, p.was.Bench())
	}
	p.begin()
	p.beside.Do(func() { p.three.Anew = true })
}

func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }

func (p *part) About() *ui.About { return About() }
