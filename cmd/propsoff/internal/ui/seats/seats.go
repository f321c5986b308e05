// Package seats is one sheet: where each control sits on the radio.
package seats

import (
	"math"
	"slices"
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/radioreach"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/handheld"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/sim/handset"
)

// What its own keys do.
const (
	Keep    ui.Action = "seat-keep"  // the place of the chosen control is right: the next one
	KeepAll ui.Action = "seats-keep" // the places of all are right
	Turn    ui.Action = "seat-turn"  // the chosen control goes another way
)

// rowPrefix and a number from 1 name the rows of the list, viewPrefix and a number the views of the drawing.
const (
	rowPrefix  = "seat-"
	viewPrefix = "seat-view-"
)

// View is what the sheet may know.
type View struct {
	// Drawn is the radio with its controls where they stand. Chosen is the control that is looked at, by its number.
	Drawn  *handheld.Radio
	Chosen int
	// Guessed are how many controls nobody has placed. Given: the radio file is one that a person gave, and is not written.
	Guessed int
	Given   bool
	// Seen is where the last picture shows the radio.
	Seen handheld.Drawn
}

// Of is what this sheet knows besides what all know.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// part is the work behind the sheet.
type part struct {
	screen.Base
	s *screen.Screen
	// job is that of the chosen control; was is where each control stood when it was seen to move last.
	job  string
	was  map[string]float64
	view View
}

// New makes the sheet.
func New(s *screen.Screen) screen.Sheet { return &part{s: s} }

// About is what there is to know of the sheet.
func About() *ui.About { return new(part).About() }

// About is what there is to know of the sheet.
func (p *part) About() *ui.About {
	return &ui.About{
		Place:  ui.OnSeats,
		Shared: ui.Usual(ui.ShowSeats, ui.KeepAgain),
		Own: []ui.Act{
			{Action: Keep, Physical: "Enter", Do: p.keep, On: func(v *ui.View) bool { return Of(v).Guessed == 0 }},
			{Action: Turn, Physical: "Slash", Do: p.turn},
			{Action: KeepAll, Physical: "Semicolon", Do: p.keepAll, Shows: func(v *ui.View) bool { return Of(v).Guessed > 1 }},
		},
		More: func(*ui.View) []ui.Act {
			moves, others := func(*ui.View) words.Text { return words.T("help.arrows-seat") }, func(*ui.View) words.Text { return words.T("help.seat-others") }
			return []ui.Act{{Physical: ui.Arrows, Says: moves}, {Physical: "PageUp", Says: others}, {Physical: "PageDown", Says: others}}
		},
		Picks: []ui.Pick{{Prefix: viewPrefix, Do: p.pointed}, {Prefix: rowPrefix, Do: p.choose}},
	}
}

// Draw draws the sheet.
func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }

// Open begins with the switch that was just learned, else with the first control that nobody has placed.
func (p *part) Open() {
	p.job, p.was = "", nil
	if l := &p.s.Driving.Learn; p.s.Driving.Who == whodrives.Questions && l.Last >= 0 && l.Last < len(l.Answers) {
		p.job = l.Answers[l.Last].Job
	}
}

// Fill shows the radio; a control that has just been moved is the chosen one.
func (p *part) Fill(v *ui.View) {
	d := figure.HandheldNow(v)
	p.view = View{Drawn: d, Chosen: -1, Given: p.s.Driving.Given, Seen: Of(v).Seen}
	if p.was == nil {
		p.was = map[string]float64{}
	}
	for i := range d.Controls {
		c := &d.Controls[i]
		if was, seen := p.was[c.Job]; c.At >= 0 && (!seen || math.Abs(c.At-was) > 0.2) {
			p.was[c.Job] = c.At
			if seen {
				p.job = c.Job
			}
		}
		if c.Spot.Guessed {
			p.view.Guessed++
		}
	}
	if p.index() < 0 {
		p.job = p.next(-1)
	}
	if p.view.Chosen = p.index(); p.view.Chosen >= 0 {
		d.Controls[p.view.Chosen].Mark = handheld.Chosen
	}
	*Of(v) = p.view
}

// index is the number of the chosen control, −1 for none.
func (p *part) index() int {
	if p.view.Drawn == nil {
		return -1
	}
	return slices.IndexFunc(p.view.Drawn.Controls, func(c handheld.Control) bool { return c.Job == p.job })
}

// next is the job of the first control after one, by its number, that nobody has placed; of the first of all where all are placed.
func (p *part) next(after int) string {
	all := p.view.Drawn.Controls
	for k := range all {
		if c := &all[(after+1+k)%len(all)]; c.Spot.Guessed {
			return c.Job
		}
	}
	if len(all) == 0 {
		return ""
	}
	return all[(after+1)%len(all)].Job
}

// choose takes the control of a number from 0.
func (p *part) choose(n int) {
	if p.view.Drawn != nil && n >= 0 && n < len(p.view.Drawn.Controls) {
		p.job = p.view.Drawn.Controls[n].Job
	}
}

// seat puts the control of a number at a place.
func (p *part) seat(n int, at handset.Spot) {
	c := &p.view.Drawn.Controls[n]
	at.Guessed = false
	if at.Way == handset.NoWay {
		at.Way = c.Spot.Way
	}
	c.Spot = at
	p.s.Options.Driver.Sit(c.Job, radioreach.SpotOf(at))
}

// keep says that the chosen control sits where it is drawn, and goes on; after the last one the sheet is done.
func (p *part) keep() {
	i := p.index()
	if i < 0 || p.view.Guessed == 0 {
		p.s.SeatThem(false)
		return
	}
	c := &p.view.Drawn.Controls[i]
	if c.Spot.Guessed {
		p.view.Guessed--
	}
	p.seat(i, c.Spot)
	if p.job = p.next(i); p.view.Guessed == 0 {
		p.s.SeatThem(false)
	}
}

// keepAll says that every control sits where it is drawn.
func (p *part) keepAll() {
	for i := range p.view.Drawn.Controls {
		if c := &p.view.Drawn.Controls[i]; c.Spot.Guessed {
			p.seat(i, c.Spot)
		}
	}
	p.s.SeatThem(false)
}

// turns are the ways in the order in which they are tried.
var turns = [...]handset.Way{handset.GoesUp, handset.GoesDown, handset.GoesRight, handset.GoesLeft, handset.TurnsClockwise, handset.TurnsBack, handset.Pressed}

// turn has the chosen control go the next way that it can.
func (p *part) turn() {
	i := p.index()
	if i < 0 {
		return
	}
	c := &p.view.Drawn.Controls[i]
	at := slices.Index(turns[:], c.Spot.Way)
	spot := c.Spot
	spot.Way = turns[(at+1)%len(turns)]
	if spot.Way == handset.Pressed && c.Positions == 0 { // a knob is not pressed
		spot.Way = turns[0]
	}
	p.seat(i, spot)
}

// pointed puts the chosen control where a view was pressed; where another one is drawn there, that one is chosen instead, and goes where it is drawn to.
func (p *part) pointed(view int) {
	i := p.index()
	if i < 0 || view < 0 || view+1 >= int(handset.ViewCount) {
		return
	}
	seen := &Of(p.s.View()).Seen
	in := seen.Views[view+1]
	on := func(at ink.Point) ink.Point { return ink.Point{X: in.X + at.X*in.W, Y: in.Y + at.Y*in.H} }
	from, to := on(p.s.PointedFrom), on(p.s.Pointed)
	for n, box := range seen.Boxes {
		if n != i && n < len(p.view.Drawn.Controls) && p.view.Drawn.Controls[n].Spot.View == handset.View(view+1) && box.Has(from) {
			p.choose(n)
			if box.Has(to) {
				return
			}
			i = n
			break
		}
	}
	at := func(share float64) int16 { return int16(math.Round(1000 * ui.Clamp(share, 0, 1))) }
	p.seat(i, handset.Spot{View: handset.View(view + 1), X: at(p.s.Pointed.X), Y: at(p.s.Pointed.Y)})
}

// How far an arrow key moves a control across and down, in thousandths of a view (ours); the shoulders are lower than the others.
const (
	acrossStep   = 50
	downStep     = 100
	shoulderStep = 250
)

// Key moves the chosen control by the arrow keys, over the edge of one view onto the next, and chooses another by PageUp and PageDown.
func (p *part) Key(name string, down bool) bool {
	i := p.index()
	if !down || i < 0 {
		return false
	}
	s, n := p.view.Drawn.Controls[i].Spot, len(p.view.Drawn.Controls)
	step := int16(downStep)
	if s.View == handset.OnShoulders {
		step = shoulderStep
	}
	switch name {
	case "PageDown":
		p.choose((i + 1) % n)
		return true
	case "PageUp":
		p.choose((i + n - 1) % n)
		return true
	case "Left":
		s.X -= acrossStep
	case "Right":
		s.X += acrossStep
	case "Up":
		s.Y -= step
	case "Down":
		s.Y += step
	default:
		return false
	}
	p.seat(i, over(s))
	return true
}

// over keeps a place on the radio: over the edge of a view it goes on to the next one, where there is one.
func over(s handset.Spot) handset.Spot {
	switch {
	case s.Y > 1000 && s.View == handset.OnShoulders:
		s.View, s.Y = handset.OnFace, 0
	case s.Y < 0 && s.View != handset.OnShoulders:
		s.View, s.Y = handset.OnShoulders, 1000
	case s.X > 1000 && s.View != handset.OnBack:
		s.View, s.X = handset.OnBack, 0
	case s.X < 0 && s.View == handset.OnBack:
		s.View, s.X = handset.OnFace, 1000
	}
	s.X, s.Y = max(0, min(1000, s.X)), max(0, min(1000, s.Y))
	return s
}

// viewHit is the name of the hit area of a view.
func viewHit(v handset.View) string { return viewPrefix + strconv.Itoa(int(v)) }

// title asks where the chosen control sits.
func title(v *View) words.Text {
	if v.Chosen < 0 {
		return words.T("seat.none")
	}
	return words.T("seat.where", words.Args{"name": words.Quote(v.Drawn.Controls[v.Chosen].Full), "all": words.Flag(v.Guessed == 0)})
}
