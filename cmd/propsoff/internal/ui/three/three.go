// Package three is one sheet: three crafts side by side, one in each mode.
package three

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/flightlog"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/threemodes"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/sim"
	control "propsoff.example/sim/flight"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/practice"
)

// About is what there is to know of the sheet.
func About() *ui.About {
	return &ui.About{
		Place: ui.OnThree, Key: "End", Flown: true, InAir: true,
		Shared: ui.Usual(ui.TurnRecording, ui.PauseFlight, ui.SlowFlight, ui.StepFlight, ui.StandAgain, ui.NextBench, ui.FlyAgain),
		Front:  []ui.Action{ui.PauseFlight, ui.SlowFlight, ui.StepFlight, ui.StandAgain, ui.FlyAgain, ui.NextBench},
	}
}

// View is what the sheet may know: three crafts that fly the same sticks at once, one in each mode. The sticks, armed or not, and the pace are
// those of ui.View.
type View struct {
	Crafts [threemodes.Number]Craft
	// Horizon is what a held stick does in horizon.
	Horizon facts.Horizon
}

// Craft is one of them.
type Craft struct {
	// Mode is the mode that it is held in; Snap.Mode may say otherwise.
	Mode layout.Mode
	Snap sim.Snapshot
	// Trail as in ui.FlightView.
	Trail []ui.TrailPoint
}

// Of is what this sheet knows besides what all know.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// part is the work behind the sheet: while it is open they fly with the pilot's own.
type part struct {
	screen.Base
	s      *screen.Screen
	told   screen.Events
	tracks [threemodes.Number]screen.Track
	snaps  [threemodes.Number]sim.Snapshot
	beside *live.Beside
	// horizon is what a held stick does in horizon, of the craft with the control of which it was measured.
	horizon facts.Horizon
	control control.Control
}

// New makes the sheet.
func New(s *screen.Screen) screen.Sheet { return &part{s: s} }

func (p *part) Open() {
	p.told.Since(p.s.Options.Loop)
	p.tracks = [threemodes.Number]screen.Track{}
	if !p.s.Played() {
		p.s.Flight.HoldHeight() // no hand minds one throttle for three
	}
	p.beside = p.s.Options.Loop.Begin(&threemodes.Crafts{})
}

func (p *part) Close() { p.beside.End() }

// Turn leaves the sheet when the craft is back on the desk bench.
func (p *part) Turn() {
	for _, h := range p.told.Since(p.s.Options.Loop) {
		if h.Code == happening.Moved {
			for i := range p.tracks {
				p.tracks[i].Cut(h.Tick)
			}
		}
	}
	if p.s.Tool == ui.OnThree && !p.s.Flight.Live.In.Air {
		p.s.TurnTo(ui.OnBench.Open())
	}
}

func (p *part) Fill(v *ui.View) {
	if c := &v.Config.Control; p.control != *c {
		p.control, p.horizon = *c, facts.HorizonOf(v.Config)
	}
	Of(v).Horizon = p.horizon
	fly := p.beside.Look(func(i int, c *practice.Practice) { c.Snapshot(&p.snaps[i]) })
	for i, m := range threemodes.Modes() {
		c := Craft{Mode: m, Snap: v.Snap}
		if fly { // from the next turn of the loop on; until then they are where the pilot's own is
			t := &p.tracks[i]
			t.Follow(p.beside.Craft(i), &p.s.Config)
			c.Snap, c.Trail = p.snaps[i], t.Trail
		}
		Of(v).Crafts[i] = c
	}
}

func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }

func (p *part) About() *ui.About { return About() }

// board is a page being drawn, with what this sheet draws on it.
type board struct{ *figure.Board }

// Draw draws three crafts that fly the same sticks, one in each mode, and the sticks once.
func Draw(p *ink.Page, v *ui.View) {
	on, r := figure.Open(p, v, ui.OnThree)
	b := &board{on}
	hands := b.hands
	if v.Class {
		if r, hands = b.StateAndHow(r), b.Sticks; v.Flight.Wreck.Is { // which takes their room to tell
			b.crafts(r)
			return
		}
	}
	left, right := b.Split(r, r.W*0.27, r.H*0.25, 1.4)
	hands(left)
	b.crafts(right)
}

// hands is the state, what is to be seen, how time runs, and the sticks.
func (b *board) hands(r ink.Rect) {
	b.Group("state")
	low := r
	if b.Tall {
		r, low = r.CutLeft(r.W*0.5, b.Gap)
	}
	d := b.Down(b.StateHead(r, b.Px(32), b.Px(18), b.Px(60), 4*b.U), 6*b.U)
	if how := b.V.How(b.On); b.V.Flight.Wreck.Is { // it is long, and whole
		d.Say("how", how, ink.Style{Size: b.Body})
	} else {
		d.Lines(4, "how", b.Say(how), ink.Style{Size: b.Head})
	}
	if what, s := tell.ThreeWhat(&b.V.Snap), (ink.Style{Size: b.Small, Colour: ink.Faint}); b.SayHeight(what, r.W, s) < d.R.H*0.4 {
		d.Say("three-what", what, s)
	}
	b.Group("pace")
	b.PaceLine(d.Row(max(25*b.U, b.Cap)))
	if !b.Tall {
		low = d.R
	}
	b.Sticks(low)
}

// crafts draws the crafts side by side, each under the name of its mode, all to the same scales.
func (b *board) crafts(r ink.Rect) {
	v := Of(b.V)
	var all [len(v.Crafts)]figure.Flying
	for i := range v.Crafts {
		all[i] = figure.NewFlying(&v.Crafts[i].Snap, b.V.Config, v.Crafts[i].Trail)
	}
	figure.SameScales(all[:])
	does := 0.0 // what the longest of them takes, so that the drawings of all three stand at one height
	for i := range v.Crafts {
		w := r.Cell(i, len(all), 1, b.Gap*1.4).W
		does = max(does, b.SayHeight(tell.ThreeMode(v.Crafts[i].Mode, v.Horizon), w, ink.Style{Size: b.Small}))
	}
	does = min(does, ink.BlockHeight(b.Small, doesLines))
	b.Abreast(r, len(all), func(i int, cell ink.Rect) { b.craft(cell, &v.Crafts[i], &all[i], does) })
}

// doesLines is the most lines that what a mode does takes.
const doesLines = 2

// craft draws one of them: its mode, what that does in a room so high, bank and height large, how it flies, and the views from behind and from above.
func (b *board) craft(r ink.Rect, c *Craft, fl *figure.Flying, does float64) {
	b.Group("craft-in " + c.Mode.Code())
	size := b.TextSize(24)
	if b.V.Class {
		size = b.Body * 1.5
	}
	mode := words.T("three.mode", words.Args{"mode": tell.Mode(c.Mode), "broken": words.Flag(c.Snap.Air.Wreck != 0)})
	for size > b.Body && ink.Width(b.Say(mode), size, ink.Bold) > r.W {
		size--
	}
	d := b.Down(r, 4*b.U)
	d.Say("mode", mode, ink.Style{Size: size, Weight: ink.Bold})
	if !b.V.Class {
		b.Down(d.Row(does), 0).Lines(doesLines, "mode-does", b.Say(tell.ThreeMode(c.Mode, Of(b.V).Horizon)), ink.Style{Size: b.Small, Colour: ink.Faint})
	}
	bank, _, _ := flightlog.Angles(c.Snap.Air.Body.Att.Unit())
	bankNames, bankIs := tell.FlightNumber(3), tell.Bank(bank)
	row := d.Row(b.NumberHeight(b.Large))
	wide := max(ink.Width(b.Say(bankNames[0]), b.Small, ink.Regular), ink.Width(b.Say(bankIs), b.Large, ink.Bold)) + b.U
	left, right := row.CutLeft(max(row.W/2, wide), 4*b.U)
	b.Number(left, bankNames, bankIs, b.Large)
	b.Number(right, tell.FlightNumber(0), tell.Metres(-c.Snap.Air.Body.Pos.Z), b.Large)
	if !b.V.Class { // three lines are kept free, so that nothing moves when the sentence changes
		stands := b.V.FlightFacts(&c.Snap)
		if b.V.Touch { // three lines have no room for the words of its button, which stands below
			stands.Again = words.Text{}
		}
		b.Down(d.Row(ink.BlockHeight(b.Small, 3)), 0).Say("flight-stands", tell.FlightStands(stands), ink.Style{Size: b.Small})
	}
	b.Upright("behind", d.R.Cell(0, 1, 2, 6*b.U), figure.EyeBehind(fl.Facing), fl)
	b.Downward(d.R.Cell(1, 1, 2, 6*b.U), fl)
}
