package three

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/flightlog"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/figure"
)

// board is a page being drawn, with what this sheet draws on it.
type board struct{ *figure.Board }

// Draw draws three crafts that fly the same sticks, one in each mode, and the sticks once.
func Draw(p *ink.Page, v *ui.View) {
	b := &board{figure.NewBoard(p, v)}
	hands := b.hands
	var r ink.Rect
	if v.Class {
		r = b.ThreeState(b.ClassKeys(ui.OnThree, ui.PauseFlight, ui.SlowFlight, ui.StandAgain, ui.TurnFullScreen, ui.ShowHelp, ui.Leave))
		hands = b.Sticks
	} else {
		r = b.Footer(b.SheetArea(), ui.OnThree)
	}
	left, right := r.CutLeft(r.W*0.27, b.Gap*1.4)
	if b.Tall {
		left, right = r.CutTop(r.H*0.25, b.Gap)
	}
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
	d.Lines(4, "how", b.Say(b.V.How(b.On)), ink.Style{Size: b.Head})
	if what, s := words.T("three.what"), (ink.Style{Size: b.Small, Colour: ink.Faint}); b.SayHeight(what, r.W, s) < d.R.H*0.4 {
		d.Say("three-what", what, s)
	}
	b.Group("pace")
	b.ThreePace(d.Row(max(25*b.U, b.Cap)))
	if !b.Tall {
		low = d.R
	}
	b.Sticks(low)
}

// crafts draws the crafts side by side, each under the name of its mode, all to the same scales.
func (b *board) crafts(r ink.Rect) {
	v := Of(b.V)
	var all [len(v.Crafts)]figure.Flying
	top, wide := 0.0, 0.0
	for i := range v.Crafts {
		all[i] = figure.NewFlying(&v.Crafts[i].Snap, b.V.Config, v.Crafts[i].Trail)
		top, wide = max(top, all[i].Top), max(wide, all[i].Wide)
	}
	for i := range all {
		all[i].Top, all[i].Wide = top, wide
		cell := r.Cell(i, len(all), 1, b.Gap*1.4)
		if i > 0 {
			x := cell.X - b.Gap*0.7
			b.Line("three-edge", x, cell.Y, x, cell.Bottom(), ink.Paint{Line: ink.Grid})
		}
		b.craft(cell, &v.Crafts[i], &all[i])
	}
}

// craft draws one of them: its mode, what that does, bank and height large, how it flies, and the views from behind and from above.
func (b *board) craft(r ink.Rect, c *Craft, fl *figure.Flying) {
	b.Group("craft-in " + c.Mode.Code())
	size := b.TextSize(24)
	if b.V.Class {
		size = b.Body * 1.5
	}
	d, small := b.Down(r, 4*b.U), ink.Style{Size: b.Small, Colour: ink.Faint}
	d.Say("mode", tell.Mode(c.Mode), ink.Style{Size: size, Weight: ink.Bold})
	if !b.V.Class {
		d.Lines(2, "mode-does", b.Say(tell.ThreeMode(c.Mode, Of(b.V).Horizon)), small)
	}
	bank, _, _ := flightlog.Angles(c.Snap.Air.Body.Att.Unit())
	large := ink.Style{Size: b.Large, Weight: ink.Bold}
	numbers := [2][2]words.Text{{tell.FlightNumber(3), tell.Bank(bank)}, {tell.FlightNumber(0), tell.Metres(-c.Snap.Air.Body.Pos.Z)}}
	row, name := d.Row(ink.BlockHeight(b.Small, 1)+ink.BlockHeight(b.Large, 1)), ink.BlockHeight(b.Small, 1)
	left, right := row.CutLeft(max(row.W/2, ink.Width(b.Say(numbers[0][0]), b.Small, ink.Regular)+b.U, ink.Width(b.Say(numbers[0][1]), b.Large, ink.Bold)+b.U), 4*b.U)
	for i, cell := range [2]ink.Rect{left, right} {
		top, low := cell.CutTop(name, 0)
		b.Fitted("number-name", top, small, b.Say(numbers[i][0]))
		b.Fitted("number", low, large, b.Say(numbers[i][1]))
	}
	if !b.V.Class { // two lines are kept free, so that nothing moves when the sentence changes
		b.Down(d.Row(ink.BlockHeight(b.Small, 2)), 0).Say("flight-stands", tell.FlightStands(b.V.FlightFacts(&c.Snap)), ink.Style{Size: b.Small})
	}
	b.Upright("behind", d.R.Cell(0, 1, 2, 6*b.U), figure.EyeBehind(fl.Facing), fl)
	b.Downward(d.R.Cell(1, 1, 2, 6*b.U), fl)
}
