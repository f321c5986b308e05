package seats

import (
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/sim/handset"
)

// board is a page being drawn, with what this sheet draws on it.
type board struct{ *figure.Board }

// Draw draws the radio with every control where it sits, the chosen one marked, and what is to be done.
func Draw(p *ink.Page, v *ui.View) {
	page, r := figure.Open(p, v, ui.OnSeats)
	b := &board{page}
	own := Of(v)
	if own.Drawn == nil {
		return
	}
	b.Group("seat")
	d := b.Down(r, 4*b.U)
	d.Say("question", title(own), ink.Style{Size: max(b.TextSize(20), b.Large), Weight: ink.Bold})
	if own.Chosen < 0 {
		return
	}
	if !v.Class {
		d.Say("how", words.T("seat.how", words.Args{"keep": v.Named(Keep, ui.OnSeats), "up": v.Key("PageUp"), "down": v.Key("PageDown")}), ink.Style{Size: b.Body})
	}
	c := &own.Drawn.Controls[own.Chosen]
	d.Say("way", words.T("seat.flick", words.Args{"key": v.Named(Turn, ui.OnSeats), "pressed": words.Flag(c.Spot.Way == handset.Pressed), "turns": words.Flag(c.Spot.Way == handset.TurnsClockwise || c.Spot.Way == handset.TurnsBack)}), ink.Style{Size: b.Body})
	if own.Given {
		d.Say("given", words.T("seat.given"), ink.Style{Size: b.Small, Colour: ink.Faint})
	}
	_, r = d.R.CutTop(0, 4*b.U)
	if v.Class { // the drawing names them, large
		b.drawing(r, own)
		return
	}
	list, drawing := b.Split(r, r.W*0.24, min(r.H*0.3, float64(len(own.Drawn.Controls)+1)*max(b.Least(), 34*b.U)), 1)
	b.list(list, own)
	b.drawing(drawing, own)
}

// list lists the controls, each with where it sits, or that this is only guessed.
func (b *board) list(r ink.Rect, own *View) {
	b.Group("seats")
	r = b.Section(r, "seats-heading", b.Say(words.T("seat.list")))
	all := own.Drawn.Controls
	two := 2*ink.LineHeight(b.Small) + 8*b.U
	b.ListAll("seats", r, len(all), own.Chosen, max(b.Least(), two), func(row ink.Rect, i int) {
		c := &all[i]
		if i == own.Chosen {
			b.Chosen(row.Inset(b.U))
		}
		mark := ink.Point{X: row.X + 12*b.U, Y: row.Centre().Y}
		says, colour := words.T("seat.guessed"), ink.Faint
		if c.Spot.Guessed {
			b.Circle("seat-open", mark.X, mark.Y, 4*b.U, ink.Paint{Line: ink.Faint, Width: 1.2 * b.U})
		} else {
			says, colour = tell.SeatAt(c.Spot), ink.Ink
			b.Tick("seat-said", mark.X, mark.Y, 6*b.U, ink.Paint{Line: ink.Link, Width: 2 * b.U})
		}
		in := ink.Rect{X: row.X + 26*b.U, Y: row.Y + (row.H-two)/2 + 4*b.U, W: row.W - 30*b.U, H: ink.LineHeight(b.Small)}
		b.Fitted("seat-name", in, ink.Style{Size: b.Small, Weight: ink.Bold}, c.Full)
		in.Y += in.H
		b.Fitted("seat-place", in, ink.Style{Size: b.Small, Colour: colour}, b.Say(says))
		b.Hit(rowPrefix+strconv.Itoa(i+1), "", row)
	})
}

// drawing draws the radio. Each view takes a press where the chosen control sits, or on another one.
func (b *board) drawing(r ink.Rect, own *View) {
	if r.W < 60*b.U || r.H < 60*b.U {
		return // what can be seen of so small a drawing is no help
	}
	own.Drawn.All = true
	own.Seen = b.Handheld(r, own.Drawn)
	b.Group("seat-views")
	for v := handset.OnFace; v < handset.ViewCount; v++ {
		if in := own.Seen.Views[v]; !in.Empty() {
			b.Hit(viewHit(v), "", in)
		}
	}
}
