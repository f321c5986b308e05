// Package help is one sheet: all keys, and the cautions.
package help

import (
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
)

// searchHit names the hit area of what is searched for: pressed, that is written on the board of letters.
const searchHit = "help-search"

// rowPrefix and the code word of an action name the hit area of its row.
const rowPrefix = "help-row "

// About is what there is to know of the sheet.
func About() *ui.About { return new(part).About() }

// View is what the sheet knows besides what all do.
type View struct {
	// Typed is what is searched for.
	Typed string
}

// Of is what the sheet knows besides what all do.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// part is the sheet in the window.
type part struct {
	screen.Base
	s      *screen.Screen
	search screen.Writing
}

// New makes the sheet.
func New(s *screen.Screen) screen.Sheet {
	p := &part{s: s}
	p.look("")
	return p
}

// look has something searched for from the first page on.
func (p *part) look(text string) {
	p.s.Leaf, p.search = 0, screen.Writing{Typed: text, Most: longestSearch}
}

// About is what there is to know of the sheet.
func (p *part) About() *ui.About {
	return &ui.About{
		Place: ui.OnHelp, NoClass: true, Front: []ui.Action{ui.LeafBack, ui.LeafOn},
		Shared: []ui.Action{ui.LeafBack, ui.LeafOn, ui.TurnSheet, ui.TurnFullScreen, ui.ShowHelp, ui.Leave}, // every letter and sign is searched for
		Common: []ui.Action{ui.TurnSheet, ui.TurnFullScreen},
	}
}

// Turn begins anew when the sheet is left.
func (p *part) Turn() {
	if place := p.s.Place(); place != ui.OnHelp && place != ui.OnWrite { // which stands over it
		p.search.Typed = ""
	}
}

// Fill brings what is searched for up to date.
func (p *part) Fill(v *ui.View) {
	Of(v).Typed = p.search.Typed
}

// Type takes what is searched for.
func (p *part) Type(text string) {
	p.search.Add(text)
	p.look(strings.TrimLeft(p.search.Typed, " "))
}

// longestSearch is the longest text that is searched for, in letters (ours).
const longestSearch = 60

// Key takes the keys by which is searched; letters come by Type.
func (p *part) Key(name string, down bool) bool {
	switch {
	case !down:
		return false
	case name == "Esc" && p.search.Typed != "":
		p.look("")
	case name == "Backspace":
		p.search.Back()
		p.s.Leaf = 0
	case name == "Enter": // the first that was found
		v := p.s.View()
		for _, r := range found(v, rowsOf(v, ofSheet(v)), p.search.Typed) {
			if r.does != "" && p.search.Typed != "" {
				p.s.FromHelp(r.does)
				break
			}
		}
	default:
		return ui.Writes(name) || name == "Space" || screen.Digit(name) > 0 || name == "0"
	}
	return true
}

// write has what is searched for written as names are, for whoever has no keyboard.
func (p *part) write() {
	p.s.Write(screen.Writing{Says: words.T("help-sheet.write"), Typed: p.search.Typed, Most: longestSearch, Loose: true, Take: func(text string) (why words.Text) {
		p.look(text)
		return why
	}})
}

// Hit does what the key of a row does.
func (p *part) Hit(name string) bool {
	if name == searchHit {
		p.write()
		return true
	}
	code, ok := strings.CutPrefix(name, rowPrefix)
	if ok {
		p.s.FromHelp(ui.Action(code))
	}
	return ok
}

// Draw draws the sheet.
func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }

// board is a page being drawn, with what this sheet draws on it.
type board struct{ *figure.Board }

// ofSheet is the sheet on which help was asked for.
func ofSheet(v *ui.View) ui.Place {
	if v.HelpOf == "" {
		return ui.OnBench
	}
	return v.HelpOf
}

// Draw draws every key in columns, page by page, and the cautions below the last of them, the transmitting radio first, which stands on every page.
func Draw(p *ink.Page, v *ui.View) {
	was := v.Leaves
	if draw(p, v); v.Leaves != was { // the keys that turn pages stand there or not, and take room
		p.Reset(p.W, p.H, p.Scale, p.Theme)
		draw(p, v)
	}
}

func draw(p *ink.Page, v *ui.View) {
	b := &board{figure.NewBoard(p, v)}
	own := Of(v)
	area := b.SheetArea()
	inner := area
	inner.H -= b.keysHeight(area) // of the keys below
	b.Group("help")
	head, rest := inner.CutTop(b.ForFinger(ink.BlockHeight(b.Large, 1)+8*b.U), 4*b.U)
	rows := found(v, rowsOf(v, ofSheet(v)), own.Typed)
	columns := max(int(rest.W/(24*b.Body)), 1)
	if b.Tall {
		columns = min(columns, 2)
	}
	_, cautions := b.cautionsFit(rest, b.Body, b.Body, 2)
	first, style := tell.Cautions()[0], ink.Style{Size: b.Body, Weight: ink.Bold}
	foot, keys := rest.CutBottom(b.SayHeight(first, rest.W, style), b.Gap)
	pages, low, more := b.spread(rows, rest, keys, columns, cautions, 0)
	if len(pages) > 1 {
		pages, low, more = b.spread(rows, rest, keys, columns, cautions, b.UnlistedHeight())
	}
	v.Leaves.Of = len(pages)
	at := min(v.Leaves.At, len(pages)-1)
	v.Leaves.At = at
	b.head(head, own)
	most := b.TextSize(44)
	if own.Typed != "" { // what was found is what is looked for
		most = b.TextSize(36)
	}
	if len(rows) == 0 {
		d := b.Down(low, b.Gap)
		d.Say("nothing-found", words.T("help-sheet.nothing"), ink.Style{Size: b.Head, Weight: ink.Bold})
		low = d.R
	}
	apart := 1.0
	if at < len(pages)-1 { // what room is left stands between the rows
		deep := 0.0
		for _, placed := range pages[at] {
			deep = max(deep, placed.at.Bottom())
		}
		apart = ui.Clamp((more.Y-keys.Y)/deep, 1, 1.6)
	}
	for _, placed := range pages[at] {
		r := placed.at
		b.row(ink.Rect{X: keys.X + r.X, Y: keys.Y + r.Y*apart, W: r.W, H: r.H * apart}, placed.row)
	}
	if len(pages) > 1 {
		b.RollLeaves(rest)
		if at == len(pages)-1 {
			more, low = low.CutBottom(more.H, 2*b.U)
		}
		b.others(more, pages, at)
	}
	switch b.Group("cautions"); {
	case at == len(pages)-1 && len(pages[at]) == 0:
		b.cautions(low, most, 1)
	case at == len(pages)-1:
		b.cautions(low, most, 2)
	default:
		b.Down(foot, 0).Say("caution", first, style)
	}
	b.Actions(area, ui.OnHelp)
}

// spread sets rows in columns on pages, and the cautions below the last of them or on one more; line is how high the line is that counts the rows on other
// pages. low is where the cautions stand on the last page, more that line on the others.
func (b *board) spread(rows []row, rest, keys ink.Rect, columns int, cautions, line float64) (pages [][]placed, low, more ink.Rect) {
	more, keys = keys.CutBottom(line, 2*b.U)
	pages, low = b.paged(rows, keys.W, keys.H, columns), rest
	for _, placed := range pages[len(pages)-1] {
		low.Y = max(low.Y, rest.Y+placed.at.Bottom()+b.Gap)
	}
	if low.H = rest.Bottom() - low.Y; low.H-line-2*b.U < cautions {
		pages, low = append(pages, nil), rest
	}
	return pages, low, more
}

// others counts the keys on the pages before and after the one that is shown; pressed, the next is turned to.
func (b *board) others(line ink.Rect, pages [][]placed, at int) {
	counts, here := [2]int{}, 0
	for i, page := range pages {
		for _, p := range page {
			switch {
			case p.key == "":
			case i == at:
				here++
			case i < at:
				counts[0]++
			default:
				counts[1]++
			}
		}
	}
	if counts[0]+counts[1] > 0 {
		b.Unlisted(ui.LeavesRoll, line, counts[0], counts[0]+here, counts[0]+here+counts[1])
	}
}

// keysHeight is what the keys at the lower edge take.
func (b *board) keysHeight(area ink.Rect) float64 {
	seen := b.Page
	b.Page = &b.V.Unseen
	b.Page.Reset(seen.W, seen.H, seen.Scale, seen.Theme)
	left := b.Actions(area, ui.OnHelp)
	b.Page = seen
	return area.H - left.H
}

// head writes what the sheet is, what is searched for, and which page this is.
func (b *board) head(r ink.Rect, own *View) {
	if l := &b.V.Leaves; l.Of > 1 {
		r = b.AtRight(r, "page", b.Say(l.Says()), ink.Style{Size: b.Head}, b.U, 12*b.U)
	}
	title := b.Say(words.T("help-sheet.title"))
	left, rest := r.CutLeft(min(ink.Width(title, b.Large, ink.Bold)+b.U, r.W*0.6), 14*b.U)
	b.Fitted("title", left, ink.Style{Size: b.Large, Weight: ink.Bold}, title)
	b.Hit(searchHit, "", rest)
	b.RoundRect("search-frame", rest, 4*b.U, ink.Paint{Line: ink.Focus, Width: 1.4 * b.U})
	in := ink.Rect{X: rest.X + 8*b.U, Y: rest.Y, W: rest.W - 16*b.U, H: rest.H}
	if own.Typed == "" {
		style := ink.Style{Size: b.Body, Colour: ink.Faint}
		b.Fitted("search", in, style, b.FirstFit(in.W, style, words.T("help-sheet.search-press"), words.T("help-sheet.search")))
	} else {
		b.Fitted("searched", in, ink.Style{Size: b.Body, Weight: ink.Bold}, own.Typed+"_")
	}
}

// placed is a row where it stands among the keys.
type placed struct {
	*row
	at ink.Rect
}

// paged sets rows in columns on as few pages as they fit on, and there in columns of about the same height.
func (b *board) paged(rows []row, w, h float64, columns int) (pages [][]placed) {
	gap := 10 * b.U
	each := (w - float64(columns-1)*gap) / float64(columns)
	high := make([]float64, len(rows))
	for i := range rows {
		high[i] = b.rowHeight(&rows[i], each)
	}
	pages = setIn(rows, high, h, each, gap, columns)
	for lower := 0.95 * h; lower > h/20; lower *= 0.95 {
		even := setIn(rows, high, lower, each, gap, columns)
		if len(even) > len(pages) {
			break
		}
		pages = even
	}
	return pages
}

// setIn sets rows of some heights one below the other in columns, and these on pages; a heading stands over its first key.
func setIn(rows []row, high []float64, h, each, gap float64, columns int) (pages [][]placed) {
	pages = append(pages, nil)
	column, y := 0, 0.0
	for i := range rows {
		need := high[i]
		if rows[i].key == "" && i+1 < len(rows) {
			need += high[i+1]
		}
		if headed := i > 0 && rows[i-1].key == ""; y+need > h && y > 0 && !headed {
			if column, y = column+1, 0; column == columns {
				pages, column = append(pages, nil), 0
			}
		}
		last := len(pages) - 1
		pages[last] = append(pages[last], placed{&rows[i], ink.Rect{X: float64(column) * (each + gap), Y: y, W: each, H: high[i]}})
		y += high[i]
	}
	return pages
}

// capRoom is how much of a row its key takes.
func (b *board) capRoom(key string) float64 { return max(b.CapWidth(b.Cap, key), 2.8*b.Body) + 7*b.U }

// rowHeight is how high a row is in a column of a width.
func (b *board) rowHeight(r *row, w float64) float64 {
	if r.key == "" {
		return ink.BlockHeight(b.Small, 1) + 7*b.U
	}
	return max(b.SayHeight(r.text, w-b.capRoom(r.key), ink.Style{Size: b.Small})+4*b.U, b.Cap+3*b.U, b.Least())
}

// row draws a heading, or a key and what it does, to be clicked; fainter where it does nothing now.
func (b *board) row(r ink.Rect, row *row) {
	if row.key == "" {
		b.Fitted(row.name, ink.Rect{X: r.X, Y: r.Y + 4*b.U, W: r.W, H: r.H - 4*b.U}, ink.Style{Size: b.Small, Weight: ink.Bold, Colour: ink.Faint}, b.Say(row.text))
		return
	}
	cap := b.CapWidth(b.Cap, row.key)
	left := b.capRoom(row.key)
	b.KeyCap(row.name+" key", r.X+left-7*b.U-cap/2, r.Centre().Y, b.Cap, row.key)
	style := ink.Style{Size: b.Small}
	if b.V.House.KeyOf(row.does) != "" && !b.V.Shows(row.does, ofSheet(b.V)) {
		style.Colour = ink.Faint
	}
	text := ink.Rect{X: r.X + left, Y: r.Y, W: r.W - left, H: r.H}
	high := b.SayHeight(row.text, text.W, style)
	text.Y, text.H = r.Centre().Y-high/2, high+1
	b.Down(text, 0).Say(row.name+" help", row.text, style)
	if row.does != "" {
		b.Hit(rowPrefix+row.name, row.key, r)
	}
}

// Listed are all keys that the help of a sheet tells of, and the code words of what they do, in their order.
func Listed(v *ui.View, of ui.Place) (keys, codes []string) {
	for _, r := range rowsOf(v, of) {
		if r.key != "" {
			keys, codes = append(keys, r.key), append(codes, r.name)
		}
	}
	return keys, codes
}
