// Package card is the sheet of the switch card, and the card itself: one page with every control of the radio and what it does, to be printed
// and hung up.
package card

import (
	"strings"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/paper"
	"propsoff/cmd/propsoff/internal/ui"
)

// What its own keys do.
const (
	SaveCard   ui.Action = "card-save"   // save it as a PDF file
	TurnPaper  ui.Action = "card-paper"  // the next size of paper
	LookCloser ui.Action = "card-closer" // the next part of the page closely, then the whole page again
)

// View is what this sheet knows besides what all know.
type View struct {
	// Page is the card as it will be printed; nil where there is none.
	Page *ink.Page
	// Paper is the name of its size, Other that of the one which the key turns to.
	Paper, Other string
	// Part 0 shows the whole page; 1 to Parts a part of it as wide as the sheet, from the top down.
	Part int
	// Of says whose radio is drawn, where that needs saying.
	Of words.Text
	// Folder is where the card will be saved; it is told until the card was saved, or could not be.
	Folder string
	// Said tells what became of the last saving of this card; Bad: it failed.
	Said words.Text
	Bad  bool
}

// Of is what this sheet knows besides what all know.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// Parts is how many parts the page is looked at closely in: each shows a little of the one before, on any sheet.
const Parts = 4

// About is what there is to know of the sheet.
func About() *ui.About { return new(part).About() }

// About is what there is to know of the sheet.
func (p *part) About() *ui.About {
	there := func(v *ui.View) bool { return Of(v).Page != nil }
	return &ui.About{
		Place: ui.OnCard, Key: "F9", Everywhere: true, NoClass: true,
		Shared: ui.Usual(),
		Own: []ui.Act{
			{Action: SaveCard, Physical: "Enter", Shows: there, Do: p.save},
			{Action: TurnPaper, Physical: "O", Shows: there, Says: func(v *ui.View) words.Text {
				return words.T("card.turn-to", words.Args{"paper": words.Quote(Of(v).Other)})
			}, Do: func() {
				p.paper, p.view.Said = (p.paper+1)%len(paper.Sizes()), words.Text{}
			}},
			{Action: LookCloser, Physical: "Z", Shows: there, Says: func(v *ui.View) words.Text {
				return words.T("card.look", words.Args{"closer": words.Flag(Of(v).Part > 0), "whole": words.Flag(Of(v).Part >= Parts)})
			}, Do: func() {
				p.view.Part = (p.view.Part + 1) % (Parts + 1)
			}},
		},
	}
}

// sheet is the sheet being drawn.
type sheet struct {
	*ui.Board
	c *View
}

// Draw draws the switch card as it will be printed, and what can be done with it: the whole page with its top part beside it, or one part.
func Draw(p *ink.Page, v *ui.View) {
	b := sheet{ui.NewBoard(p, v), Of(v)}
	r := b.Footer(b.SheetArea(), ui.OnCard)
	b.Group("card")
	r = b.Section(r, "card-heading", b.Say(words.T("card.preview-title", words.Args{"paper": words.Quote(b.c.Paper)})))
	if b.c.Page == nil {
		d := b.Down(r, b.Gap)
		d.Say("no-card", words.T("card.none"), ink.Style{Size: b.Body})
		return
	}
	shape := b.c.Page.W / b.c.Page.H
	switch {
	case b.c.Part > 0:
		b.part(r, b.c.Part)
	case b.Tall:
		low, top := r.CutBottom(96*b.U, b.Gap)
		b.whole(top, shape)
		b.sentences(low)
	default:
		left, right := r.CutLeft(min(r.H*shape, r.W*0.6), 2*b.Gap)
		b.whole(left, shape)
		b.part(b.sentences(right), 1)
	}
}

// sentences say what became of the card, what it is for and where it goes; below them is what is left.
func (b sheet) sentences(r ink.Rect) ink.Rect {
	b.Group("card")
	where := words.Text{}
	if b.c.Said.Empty() && b.c.Folder != "" {
		where = words.T("card.where", words.Args{"folder": words.Quote(b.c.Folder)})
	}
	d := b.Down(r, b.Gap*0.6)
	for i, t := range [...]words.Text{b.c.Said, b.c.Of, words.T("card.how"), where} {
		s := ink.Style{Size: b.Head}
		if i == 0 {
			s.Weight = ink.Bold
			if b.c.Bad {
				s.Colour = ink.Refusal
			}
		}
		d.Write("card-words", ui.BreakLong(b.Say(t), r.W, s.Size, s.Weight), s)
	}
	return d.R
}

// part shows a part of the page, from 1, as wide as the place for it, or so wide that the parts still meet.
func (b sheet) part(r ink.Rect, part int) {
	shape := b.c.Page.W / b.c.Page.H
	page := ink.Rect{Y: r.Y, W: min(r.W, r.H*(Parts-0.6)*shape)}
	page.X, page.H = r.X+(r.W-page.W)/2, page.W/shape
	if over := page.H - r.H; over > 0 {
		page.Y -= over * float64(min(part, Parts)-1) / (Parts - 1)
	}
	b.printed(page, r)
}

// whole draws the whole page in its frame, in the middle of r.
func (b sheet) whole(r ink.Rect, shape float64) {
	w := min(r.W, r.H*shape)
	page := ink.Rect{X: r.X + (r.W-w)/2, Y: r.Y + (r.H-w/shape)/2, W: w, H: w / shape}
	b.Rect("paper", page, ink.Paint{Fill: ink.Paper, Line: ink.Rule})
	b.printed(page, page)
}

// printed draws the page into a place, and of it only what lies inside the window. Text sizes are whole pixels, so each
// word is put where it will stand.
func (b sheet) printed(at, window ink.Rect) {
	b.Group("printed")
	src := b.c.Page
	f := at.W / src.W
	x := func(v float64) float64 { return at.X + v*f }
	y := func(v float64) float64 { return at.Y + v*f }
	for i := range src.Items() {
		it := &src.Items()[i]
		box := ink.Rect{X: x(it.Box.X), Y: y(it.Box.Y), W: it.Box.W * f, H: it.Box.H * f}
		if !window.Holds(box, 0.5) {
			continue
		}
		c := ink.Paint{Fill: it.Fill, Line: it.Line, Width: it.Width * f, Dash: ink.Dash{On: it.Dash.On * f, Off: it.Dash.Off * f}, Under: true}
		switch it.Kind {
		case ink.KindText:
			at := it.A.X
			for _, word := range strings.SplitAfter(it.Text, " ") {
				if said := strings.TrimSuffix(word, " "); said != "" {
					b.Text(it.Name, x(at), y(it.A.Y), ink.Style{Size: it.Size * f, Weight: it.Weight, Colour: it.Fill, State: it.State}, said)
				}
				at += ink.Width(word, it.Size, it.Weight)
			}
		case ink.KindLine:
			b.Line(it.Name, x(it.A.X), y(it.A.Y), x(it.B.X), y(it.B.Y), c)
		case ink.KindRect:
			b.Rect(it.Name, box, c)
		case ink.KindRoundRect:
			b.RoundRect(it.Name, box, it.Radius*f, c)
		case ink.KindCircle:
			b.Circle(it.Name, x(it.A.X), y(it.A.Y), it.Radius*f, c)
		case ink.KindPolygon:
			b.V.Pts = b.V.Pts[:0]
			for _, q := range src.Points(it) {
				b.V.Pts = append(b.V.Pts, ink.Point{X: x(q.X), Y: y(q.Y)})
			}
			b.Polygon(it.Name, b.V.Pts, c)
		}
	}
}
