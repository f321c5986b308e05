// Package card is the sheet of the switch card, and the two cards themselves: one as large as a bank card, to be taped to the radio, and a page
// with every control of the radio and what it does.
package card

import (
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
)

// What its own keys do.
const (
	SaveCard   ui.Action = "card-save"   // save it as a PDF file
	TurnCard   ui.Action = "card-size"   // the other card
	TurnPaper  ui.Action = "card-paper"  // the next size of paper
	LookCloser ui.Action = "card-closer" // the next part closely
	LookBack   ui.Action = "card-back"   // the part before it, before the first the whole sheet
)

// View is what this sheet knows besides what all know.
type View struct {
	// Page is the card as it will be printed; nil where there is none. Frames are the parts of it that are looked at closely.
	Page   *ink.Page
	Frames []ink.Rect
	// Size is which card it is.
	Size Size
	// Paper is the name of its size, Other that of the one which the key turns to.
	Paper, Other string
	// Part 0 shows the whole sheet, others a frame, from 1.
	Part int
	// Of says whose radio is drawn, where that needs saying.
	Of words.Text
	// Craft says whose craft the card tells of, and where one tells the program of one's own.
	Craft words.Text
	// Search says how far the search of its layout is, Searching that it goes on, Done the share that was searched; Unsaid: the card cannot say yet
	// what was found.
	Search            words.Text
	Searching, Unsaid bool
	Done              float64
	// Folder is where the card will be saved; it is told until the card was saved, or could not be.
	Folder string
	// Said tells what became of the last saving of this card, into the file Saved; Bad: it failed.
	Said  words.Text
	Saved string
	Bad   bool
}

// Of is what this sheet knows besides what all know.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// About is what there is to know of the sheet.
func About() *ui.About { return new(part).About() }

// About is what there is to know of the sheet.
func (p *part) About() *ui.About {
	there := func(v *ui.View) bool { return Of(v).Page != nil }
	return &ui.About{
		Place: ui.OnCard, Key: "F9", Everywhere: true, NoClass: true,
		Shared: ui.Usual(),
		Own: []ui.Act{
			{Action: SaveCard, Physical: "Enter", Shows: there, Says: func(v *ui.View) words.Text {
				if Of(v).Unsaid {
					return words.T("card.save-unproved")
				}
				return words.T("key.card-save")
			}, Do: p.save},
			{Action: TurnCard, Physical: "Right", Shows: there, Says: func(v *ui.View) words.Text {
				return words.T("card.turn-size", words.Args{"page": words.Flag(Of(v).Size == Bank)})
			}, Do: p.turn},
			{Action: LookCloser, Physical: "PageDown", Shows: func(v *ui.View) bool { return Of(v).Part < len(Of(v).Frames) }, Says: func(v *ui.View) words.Text {
				return words.T("card.look", words.Args{"closer": words.Flag(Of(v).Part > 0)})
			}, Do: func() { p.look(1) }},
			{Action: LookBack, Physical: "PageUp", Shows: func(v *ui.View) bool { return Of(v).Part > 0 }, Says: func(v *ui.View) words.Text {
				return words.T("card.look-back", words.Args{"whole": words.Flag(Of(v).Part == 1)})
			}, Do: func() { p.look(-1) }},
			{Action: TurnPaper, Physical: "Down", Shows: there, Says: func(v *ui.View) words.Text {
				return words.T("card.turn-to", words.Args{"paper": words.Quote(Of(v).Other)})
			}, Do: p.turnPaper},
		},
	}
}

// sheet is the sheet being drawn.
type sheet struct {
	*figure.Board
	c *View
}

// Draw draws the card as it will be printed, and what can be done with it: the whole sheet of paper with its first parts beside it, or one part.
func Draw(p *ink.Page, v *ui.View) {
	b := sheet{figure.NewBoard(p, v), Of(v)}
	r := b.Footer(b.SheetArea(), ui.OnCard)
	b.Group("card")
	title := words.T("card.preview-title", words.Args{"size": b.c.Size.name(), "paper": words.Quote(b.c.Paper)})
	if b.c.Part > 0 {
		title = words.Listed(title, words.T("card.part", words.Args{"i": words.Whole(b.c.Part), "n": words.Whole(len(b.c.Frames))}))
	}
	r = b.Section(r, "card-heading", b.Say(title))
	if b.c.Page == nil {
		d := b.Down(r, b.Gap)
		d.Say("no-card", words.T("card.none"), ink.Style{Size: b.Body})
		return
	}
	shape := b.c.Page.W / b.c.Page.H
	switch {
	case b.c.Part > 0 && b.c.Part <= len(b.c.Frames):
		b.part(r, b.c.Frames[b.c.Part-1])
	case b.Tall:
		low, top := r.CutBottom(b.sentencesHeight(r.W), b.Gap)
		b.whole(top, shape)
		b.sentences(low)
	default:
		share := 0.5
		if b.c.Size == Bank { // most of its sheet is blank
			share = 0.24
		}
		left, right := r.CutLeft(min(r.H*shape, r.W*share), 2*b.Gap)
		b.whole(left, shape)
		b.parts(b.sentences(right))
	}
}

// said are the sentences, the first of them what became of the card.
func (b sheet) said() []words.Text {
	where := words.Text{}
	if b.c.Said.Empty() && b.c.Folder != "" {
		where = words.T("card.where", words.Args{"folder": words.Quote(b.c.Folder)})
	}
	return []words.Text{b.c.Said, b.c.Search, b.c.Craft, b.c.Of, words.T("card.how", words.Args{"page": words.Flag(b.c.Size == Page)}), where}
}

// style is how sentence i is written.
func (b sheet) style(i int) ink.Style {
	s := ink.Style{Size: b.Body}
	if i < 2 {
		s.Size, s.Weight = b.Head, ink.Bold
	}
	if i == 0 && b.c.Bad {
		s.Colour = ink.Refusal
	}
	return s
}

// sentencesHeight is what they take in a width.
func (b sheet) sentencesHeight(w float64) (h float64) {
	for i, t := range b.said() {
		if s := b.style(i); !t.Empty() {
			h += ui.TextHeight(ui.BreakLong(b.Say(t), w, s.Size, s.Weight), w, s) + b.Gap*0.6
		}
	}
	if b.c.Searching {
		h += 8*b.U + b.Gap*0.6
	}
	return h
}

// sentences say what became of the card, how far the search of its layout is, what it is for and where it goes; below them is what is left.
func (b sheet) sentences(r ink.Rect) ink.Rect {
	b.Group("card")
	d := b.Down(r, b.Gap*0.6)
	for i, t := range b.said() {
		s := b.style(i)
		d.Write("card-words", ui.BreakLong(b.Say(t), r.W, s.Size, s.Weight), s)
		if i == 1 && b.c.Searching {
			b.Filling(d.Row(8*b.U), b.c.Done)
		}
	}
	return d.R
}

// parts shows as many parts as have room beside the whole sheet, so large that they can be read: of the bank-card both, of the page the first.
func (b sheet) parts(r ink.Rect) {
	if b.c.Size == Page {
		b.part(r, b.c.Frames[0])
		return
	}
	n := len(b.c.Frames)
	shape := b.c.Frames[0].W / b.c.Frames[0].H
	beside, over := r.Cell(0, n, 1, b.Gap), r.Cell(0, 1, n, b.Gap)
	columns, rows := n, 1
	if min(over.W, over.H*shape) > min(beside.W, beside.H*shape) {
		columns, rows = 1, n
	}
	for i, f := range b.c.Frames {
		b.part(r.Cell(i, columns, rows, b.Gap), f)
	}
}

// part shows a frame of the page whole, as large as it fits.
func (b sheet) part(r, frame ink.Rect) {
	f := min(r.W/frame.W, r.H/frame.H)
	shown := ink.Rect{X: r.X + (r.W-frame.W*f)/2, Y: r.Y + (r.H-frame.H*f)/2, W: frame.W * f, H: frame.H * f}
	b.Group("card")
	b.Rect("frame", shown, ink.Paint{Fill: ink.Paper, Line: ink.Rule})
	b.printed(ink.Rect{X: shown.X - frame.X*f, Y: shown.Y - frame.Y*f, W: b.c.Page.W * f, H: b.c.Page.H * f}, shown)
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
		case ink.KindPolygon, ink.KindArc:
			b.V.Pts = b.V.Pts[:0]
			pts, closed := src.Outline(nil, it, 0)
			for _, q := range pts {
				b.V.Pts = append(b.V.Pts, ink.Point{X: x(q.X), Y: y(q.Y)})
			}
			if closed {
				b.Polygon(it.Name, b.V.Pts, c)
			} else {
				b.Polyline(it.Name, b.V.Pts, c)
			}
		}
	}
}
