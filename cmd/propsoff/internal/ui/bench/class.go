package bench

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/figure"
)

// class draws the bench for a room: state, how to change it, why not, sticks and switches. What is left out is found in the window.
func (b *board) class() {
	r := b.ClassKeys(ui.OnBench, ui.TurnFullScreen, ui.ShowHelp, ui.Leave)
	larger := 1.0
	if b.W < b.H { // a portrait screen has the height for more
		larger = 3
	}
	beside, r := b.StateAfar(r, larger)
	d := b.Down(r, 4*b.U)
	b.classFacts(beside, d)
	d.Say("how", b.V.How(b.On), ink.Style{Size: b.Body, Weight: ink.Bold})
	if counts, share, any := tell.Countdown(&b.V.Facts); any {
		row := d.Row(ink.BlockHeight(b.Body, 1) + 8*b.U)
		b.Fitted("countdown", ink.Rect{X: row.X, Y: row.Y, W: row.W, H: ink.BlockHeight(b.Body, 1)}, ink.Style{Size: b.Body}, b.Say(counts))
		b.Filling(ink.Rect{X: row.X, Y: row.Bottom() - 6*b.U, W: row.W, H: 6 * b.U}, share)
	}
	b.Line("class-rule", d.R.X, d.R.Y, d.R.Right(), d.R.Y, ink.Paint{Line: ink.Grid})
	d.Row(0)
	why, hands := d.R.CutLeft(d.R.W*0.56, b.Gap*1.5)
	if b.Tall {
		why, hands = d.R.CutTop(d.R.H*0.5, b.Gap)
	}
	b.classWhy(why)
	b.classHands(hands)
}

// classFacts are link, mode and motors, a line each beside the state; where there is no room for one, all below it.
func (b *board) classFacts(r ink.Rect, below *ui.Down) {
	s := &b.V.Snap
	last := tell.ClassMotors(s, b.V.Config)
	if s.In.Air {
		last = tell.ClassHeight(-s.Air.Body.Pos.Z, -s.Air.Body.Vel.Z)
	}
	all, style := [...]words.Text{tell.ClassLink(&b.V.Facts), tell.ClassMode(s), last}, ink.Style{Size: b.Body}
	for _, t := range all {
		if ink.Width(b.Say(t), b.Body, ink.Regular) > r.W {
			below.Say("fact", words.Clauses(all[:]...), style)
			return
		}
	}
	for i, t := range all {
		b.Fitted("fact", r.Cell(i, 1, len(all), 0), style, b.Say(t))
	}
}

// classWhy writes the refusals that stand, as many as there is room for; where there is room left, the craft with its motors.
func (b *board) classWhy(r ink.Rect) {
	b.Group("why-not")
	rows := b.V.RefusalRows()
	d := b.Down(r, 6*b.U)
	d.Say("why-sentence", tell.ClassWhy(&b.V.Facts, len(rows) > 0), ink.Style{Size: b.Body})
	y, all := b.RowsFor(d.R, rows, b.Body)
	if !all {
		return
	}
	_, rest := d.R.CutTop(y-d.R.Y, 6*b.U)
	switch {
	case b.V.Snap.In.Air:
		b.classFlight(rest)
	case rest.H > 5*b.RowHeight()+50*b.U:
		b.Group("craft")
		b.FromAbove(rest)
	}
}

// classHands draws the sticks, and the switches as words.
func (b *board) classHands(r ink.Rect) {
	if b.V.ChoosesRadio() {
		b.Choice(r)
		return
	}
	b.Group("sticks")
	all, n := figure.Levers(b.V)
	line := ink.LineHeight(b.Body)
	low, sticks := r.CutBottom(float64(n)*line, 6*b.U)
	b.BothSticks(sticks, b.Stick)
	b.Group("switches")
	for i := range all[:n] {
		b.Fitted(all[i].Name+" switch", low.Cell(i, 1, n, 0), ink.Style{Size: b.Body}, b.Say(all[i].Stands(b.V)))
	}
}

// classFlight draws the flying craft for a room: from behind and from above, with how it flies in words where there is room.
func (b *board) classFlight(r ink.Rect) {
	b.Group("flight")
	s, re := &b.V.Snap, &b.V.Flight.Replay
	stands, style := tell.FlightStands(b.V.FlightFacts(s)), ink.Style{Size: b.Body, Weight: ink.Bold}
	if b.SayHeight(stands, r.W, style) > r.H {
		return
	}
	d := b.Down(r, 5*b.U)
	d.Say("flight-stands", stands, style)
	if p := &b.V.Flight.Pace; re.On || p.Paused || p.Slow > 1 {
		row := d.Row(max(25*b.U, b.Cap+2*b.U))
		if re.On {
			b.LookBack(row, re)
		} else {
			b.ThreePace(row)
		}
	}
	if d.R.H < 100*b.U {
		return
	}
	fl := figure.NewFlying(s, b.V.Config, b.V.Flight.Trail)
	b.Upright("behind", d.R.Cell(0, 2, 1, b.Gap), figure.EyeBehind(fl.Facing), &fl)
	b.Downward(d.R.Cell(1, 2, 1, b.Gap), &fl)
}
