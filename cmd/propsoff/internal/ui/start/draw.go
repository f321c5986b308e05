package start

import (
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
)

// board is a page being drawn, with what this sheet draws on it.
type board struct{ *figure.Board }

// doors are what the doors are called.
func doors(i int) words.Text {
	return words.Of("start", [...]string{"plug", "practise", "check", "teach"}[i])
}

// Draw draws the four doors, or what is behind the open one.
func Draw(p *ink.Page, v *ui.View) {
	on, r := figure.Open(p, v, ui.OnStart)
	b := &board{on}
	b.Group("start")
	own := Of(v)
	own.single = b.Tall || own.Door != NoDoor
	title, size := words.T("start.title"), b.TextSize(30)
	if own.Door != NoDoor {
		title = doors(own.Door)
	}
	if v.Class {
		size = b.Body * 1.5
	}
	size, _ = ink.Fit(r.W, b.Body, size, ink.Bold, b.Say(title))
	d := b.Down(r, b.Gap)
	d.Say("title", title, ink.Style{Size: size, Weight: ink.Bold})
	if own.Door == NoDoor {
		b.doors(d.R)
		return
	}
	if !v.Class {
		note := words.AsIs(ui.BreakLong(b.Say(own.Note), d.R.W, b.Head, ink.Regular))
		d.Say("note", note, ink.Style{Size: b.Head})
	}
	b.rows(d.R)
}

// doors draws the four doors: two beside two, or on a portrait page one below the other.
func (b *board) doors(r ink.Rect) {
	columns, rows := 2, 2
	if b.Tall {
		columns, rows = 1, 4
	}
	for i := range Doors {
		b.door(r.Cell(i, columns, rows, b.Gap*1.4), i)
	}
}

// door draws one door: its picture, what it is called, how it stands.
func (b *board) door(r ink.Rect, i int) {
	own := Of(b.V)
	marked, next := i == own.At, i == own.Next
	frame := ink.Paint{Line: ink.Rule, Width: b.U, Fill: ink.Panel}
	if next {
		frame.Line, frame.Width = ink.Ink, 4*b.U
	}
	if marked {
		frame.Line, frame.Width = ink.Focus, max(frame.Width, 3*b.U)
	}
	b.RoundRect("door", r.Inset(2*b.U), 8*b.U, frame)
	in := r.Inset(14 * b.U)
	picture, text := in.CutLeft(min(in.W*0.36, in.H), 14*b.U)
	b.picture(i, picture)
	name, stands := ink.Style{Size: b.TextSize(24), Weight: ink.Bold}, ink.Style{Size: b.Head}
	if b.V.Class {
		name.Size = b.Body * 1.2
	}
	draw := func(d *ui.Down) {
		if next {
			d.Say("next", words.T("start.next"), ink.Style{Size: stands.Size, Weight: ink.Bold, Colour: ink.Focus})
		}
		d.Say("name", doors(i), name)
		if !b.V.Class || next {
			d.Say("stands", own.Stands[i], stands)
		}
	}
	takes := func() float64 {
		return b.Takes(text.W, func(d *ui.Down) { d.Gap = 4 * b.U; draw(d) })
	}
	for name.Size > b.Body && takes() > text.H {
		name.Size--
	}
	_, text = text.CutTop(max(text.H-takes(), 0)/2, 0)
	draw(b.Down(text, 4*b.U))
	if marked {
		x, y, s := r.X+4*b.U, r.Centre().Y, 7*b.U
		b.Triangle("door-mark", ink.Paint{Fill: ink.Focus}, ink.Point{X: x, Y: y - s}, ink.Point{X: x + 1.2*s, Y: y}, ink.Point{X: x, Y: y + s})
	}
	n := strconv.Itoa(i + 1)
	if !b.V.Class {
		b.KeyCap("door-key", r.Right()-b.Cap, r.Y+b.Cap, b.Cap+b.U, n)
	}
	b.Hit(rowPrefix+n, n, r)
}

// rows lists what is behind the open door, as many as there is room for round the one marked.
func (b *board) rows(r ink.Rect) {
	own := Of(b.V)
	h := 0.0
	for i := range own.Rows {
		if b.V.Class {
			own.Rows[i].Size = b.Body
		}
		h = max(h, b.OfferHeight(r.W, &own.Rows[i]))
	}
	gap := b.Gap * 0.5
	var free ink.Rect // for the picture of the door
	switch left := r.H - float64(len(own.Rows))*(h+gap); {
	case b.Tall && left > r.H*0.2:
		free, r = r.CutTop(left*0.7, b.Gap)
		b.picture(own.Door, free)
	case !b.Tall && left > r.H*0.4:
		free, r = r.CutRight(r.W*0.3, 2*b.Gap)
		b.picture(own.Door, free)
	}
	h += ui.Clamp((r.H-float64(len(own.Rows))*(h+gap))/float64(max(len(own.Rows), 1)), 0, 26*b.U)
	b.ListAll("doors "+strconv.Itoa(own.Door), r, len(own.Rows), own.At, h+gap, func(at ink.Rect, i int) {
		n := strconv.Itoa(i + 1)
		at.H -= gap
		b.Offer(at, rowPrefix+n, n, &own.Rows[i])
	})
}
