package sheet

import (
	"strings"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
)

// CardView is what the sheet of card may know.
type CardView struct {
	// Page is the card as it will be printed; nil where there is none.
	Page *ink.Page
	// Paper is the name of its size, Other that of the one which the key turns to.
	Paper, Other string
	// Part 0 shows the whole page; 1 to CardParts a part of it as wide as the sheet, from the top down.
	Part int
	// Of says whose radio is drawn, where that needs saying.
	Of string
	// Folder is where the card will be saved; it is told until the card was saved, or could not be.
	Folder string
	// Said tells what became of the last saving of this card; Bad: it failed.
	Said string
	Bad  bool
}

// Card draws the switch card as it will be printed, and what can be done with it.
func Card(p *ink.Page, v *View) {
	b := newBoard(p, v)
	r := b.footer(b.sheetArea(), OnCard)
	b.Group("card")
	c := &v.Card
	r = b.section(r, "card heading", phrase.CardPreviewTitle(c.Paper))
	if c.Page == nil {
		b.Block("no card", r.X, r.Y, ink.Style{Size: b.body}, ink.Block{Width: r.W}, phrase.CardNone())
		return
	}
	if c.Part > 0 {
		b.cardPart(r, c.Part)
		return
	}
	// The words stand beside the page, or below it where the sheet is tall.
	shape := c.Page.W / c.Page.H
	if b.tall {
		words := 96 * b.u
		low, top := r.CutBottom(words, b.gap)
		b.cardPage(fitInto(top, shape))
		b.cardWords(low)
		return
	}
	page := ink.Rect{X: r.X, Y: r.Y, W: min(r.H*shape, r.W*0.6), H: r.H}
	b.cardPage(fitInto(page, shape))
	side := ink.Rect{X: page.Right() + 2*b.gap, Y: r.Y, W: r.Right() - page.Right() - 2*b.gap, H: r.H}
	side.Y = b.cardWords(side) + b.gap
	side.H = r.Bottom() - side.Y
	b.cardPart(side, 1)
}

// fitInto is the largest rectangle of a shape (width to height) in the middle of r.
func fitInto(r ink.Rect, shape float64) ink.Rect {
	w := min(r.W, r.H*shape)
	return ink.Rect{X: r.X + (r.W-w)/2, Y: r.Y + (r.H-w/shape)/2, W: w, H: w / shape}
}

// cardWords says what the card is for, where it goes, and what became of it. It gives where it ends.
func (b *board) cardWords(r ink.Rect) float64 {
	b.Group("card")
	c := &b.v.Card
	y := r.Y
	where := ""
	if c.Said == "" && c.Folder != "" {
		where = phrase.CardWhere(c.Folder)
	}
	for i, text := range [...]string{c.Said, c.Of, phrase.CardHow(), where} {
		if text == "" {
			continue
		}
		s := ink.Style{Size: b.head}
		if i == 0 {
			s.Weight = ink.Bold
			if c.Bad {
				s.Colour = ink.Refusal
			}
		}
		if _, fits := ink.CountLines(text, r.W, s.Size, s.Weight); !fits {
			text = breakable(text)
		}
		most := max(1, int((r.Bottom()-y)/ink.LineHeight(s.Size)))
		h, _ := b.Block("card words", r.X, y, s, ink.Block{Width: r.W, MaxLines: min(most, 6), Shorten: true}, text)
		y += h + b.gap*0.6
	}
	return y
}

// breakable lets a long path be broken at its strokes, where the lines of a block are broken at spaces only.
func breakable(text string) string {
	return strings.ReplaceAll(strings.ReplaceAll(text, "/", "/ "), "\\", "\\ ")
}

// CardParts is how many parts the page is looked at closely in: each shows a little of the one before, on any sheet.
const CardParts = 4

// cardPart shows a part of the page, from 1, as wide as the place for it, or so wide that the parts still meet.
func (b *board) cardPart(r ink.Rect, part int) {
	c := &b.v.Card
	shape := c.Page.W / c.Page.H
	page := ink.Rect{Y: r.Y, W: min(r.W, r.H*(CardParts-0.6)*shape)}
	page.X, page.H = r.X+(r.W-page.W)/2, page.W/shape
	if over := page.H - r.H; over > 0 {
		page.Y -= over * float64(min(part, CardParts)-1) / (CardParts - 1)
	}
	b.printed(page, r)
}

// cardPage draws the whole page in its frame.
func (b *board) cardPage(r ink.Rect) {
	b.Rect("paper", r, ink.Paint{Fill: ink.Paper, Line: ink.Rule})
	b.printed(r, r)
}

// printed draws the page into a place, and of it only what lies inside the window. Text sizes are whole pixels, so each
// word is put where it will stand.
func (b *board) printed(at, window ink.Rect) {
	b.Group("printed")
	src := b.v.Card.Page
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
			b.v.pts = b.v.pts[:0]
			for _, q := range src.Points(it) {
				b.v.pts = append(b.v.pts, ink.Point{X: x(q.X), Y: y(q.Y)})
			}
			b.Polygon(it.Name, b.v.pts, c)
		}
	}
}
