// Package write is one sheet: text that is typed, by keys or on a board of letters.
package write

import (
	"strconv"
	"strings"
	"unicode"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
)

// View is what the sheet knows.
type View struct {
	// Says is what is asked for, Typed what stands there, Trouble why that will not do, or why a letter was not taken.
	Says, Trouble words.Text
	Typed         string
	// Letters are those of the board, as they would be typed. More is what else may be done.
	Letters []rune
	More    []words.Text
}

// What the sheet's own keys do.
const (
	Take    ui.Action = "write-take"    // take what is typed
	Back    ui.Action = "write-back"    // take the last letter off
	Capital ui.Action = "write-capital" // the board has capitals, or small letters
)

// With a number from 1 these name the hit areas of letters, and of what else may be done.
const (
	letterPrefix = "write-letter-"
	morePrefix   = "write-more-"
)

// Of is what this sheet knows besides what all know.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// About is what there is to know of the sheet.
func About() *ui.About { return new(part).About() }

// part is the sheet in the window.
type part struct {
	screen.Base
	s *screen.Screen
	// other: the board has small letters though a name would begin with a capital here, or the other way round.
	other bool
}

// New makes the sheet.
func New(s *screen.Screen) screen.Sheet { return &part{s: s} }

// About is what there is to know of the sheet.
func (p *part) About() *ui.About {
	return &ui.About{
		Place:  ui.OnWrite,
		Shared: []ui.Action{ui.TurnSheet, ui.TurnFullScreen, ui.Leave},
		Own: []ui.Act{
			{Action: Take, Physical: "Enter", Do: func() { p.s.EndWriting(true) }},
			{Action: Back, Physical: "Backspace", Do: func() { p.s.Written().Back() }},
			{Action: Capital, Physical: "Insert", Do: func() { p.other = !p.other }},
		},
		Picks: []ui.Pick{{Prefix: letterPrefix, Do: p.letter}, {Prefix: morePrefix, Do: p.more}},
	}
}

// letter types a letter of the board.
func (p *part) letter(i int) {
	if all := p.letters(); i >= 0 && i < len(all) {
		p.s.Type(string(all[i]))
		p.other = false
	}
}

// more does what else may be done.
func (p *part) more(i int) {
	if w := p.s.Written(); i >= 0 && i < len(w.More) {
		w.More[i].Do()
	}
}

// letters are those of the board: figures, the letters of the language, and what stands between parts of names.
func (p *part) letters() []rune {
	w := p.s.Written()
	if w.Numbers {
		return []rune("1234567890. ")
	}
	all := []rune(p.s.View().Say(words.T("write.letters")) + "1234567890- ")
	typed := []rune(w.Typed)
	capital := len(typed) == 0 || typed[len(typed)-1] == ' ' || typed[len(typed)-1] == '-'
	for i, r := range all {
		if capital != p.other && r != 'ß' {
			all[i] = unicode.ToUpper(r)
		}
	}
	return all
}

// Act drops what is typed where the sheet is left, once that was asked.
func (p *part) Act(a ui.Action) bool {
	if a == ui.Leave {
		p.s.Leaving(ui.OnWrite, true, func() { p.s.EndWriting(false) })
	}
	return a == ui.Leave
}

// Key lets no key do anything else meanwhile: what it types comes by Type.
func (p *part) Key(name string, down bool) bool {
	return !ui.FunctionKey(name) && down && name != "Enter" && name != "Backspace" && name != "Esc" && name != "Insert"
}

// Fill tells what is typed.
func (p *part) Fill(v *ui.View) {
	w, own := p.s.Written(), Of(v)
	*own = View{Says: w.Says, Trouble: w.Trouble, Typed: w.Typed, Letters: p.letters(), More: own.More[:0]}
	if w.Full {
		own.Trouble = words.T("write.full", words.Args{"n": words.Count(w.Most)})
	}
	for _, m := range w.More {
		own.More = append(own.More, m.Says)
	}
}

// Draw draws the sheet.
func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }

// board is a page being drawn, with what this sheet draws on it.
type board struct{ *figure.Board }

// Draw draws what is asked for, what is typed, and the board of letters.
func Draw(p *ink.Page, v *ui.View) {
	on, r := figure.Open(p, v, ui.OnWrite)
	b := &board{on}
	b.Group("write")
	own := Of(v)
	title, large := b.TextSize(22), b.TextSize(26)
	if v.Class {
		title, large = b.Body, b.Body*1.2
	}
	d := b.Down(r, b.Gap*0.8)
	d.Say("says", own.Says, ink.Style{Size: title, Weight: ink.Bold})
	field := d.Row(ink.BlockHeight(large, 1) + 12*b.U)
	b.RoundRect("field", field.Inset(1.5*b.U), 4*b.U, ink.Paint{Fill: ink.Panel, Line: ink.Focus, Width: 2.5 * b.U})
	b.Fitted("typed", ink.Rect{X: field.X + 8*b.U, Y: field.Y, W: field.W - 16*b.U, H: field.H}, ink.Style{Size: large, Weight: ink.Bold}, b.tail(own.Typed, field.W-16*b.U, large)+"_")
	style := ink.Style{Size: b.Head, Weight: ink.Bold}
	h := max(b.SayHeight(own.Trouble, d.R.W, style), ink.BlockHeight(b.Head, 1))
	b.Down(d.Row(h), 0).Say("trouble", own.Trouble, style)
	for i, m := range own.More {
		o := ui.Offer{Says: m}
		b.Offer(d.Row(b.OfferHeight(d.R.W, &o)), morePrefix+strconv.Itoa(i+1), "", &o)
	}
	b.letters(d.R, own.Letters)
}

// tail is the end of a text that fits a width: what is typed now stands there.
func (b *board) tail(text string, w, size float64) string {
	for all := []rune(text); len(all) > 0; all = all[1:] {
		if ink.Width(string(all)+"_", size, ink.Bold) <= w {
			return string(all)
		}
	}
	return ""
}

// letters draws the board of letters.
func (b *board) letters(r ink.Rect, all []rune) {
	columns := 10
	if len(all) < 20 {
		columns = 6
	}
	rows := (len(all) + columns - 1) / columns
	for i, l := range all {
		cell := r.Cell(i, columns, rows, 5*b.U)
		b.RoundRect("letter-box", cell.Inset(b.U), 4*b.U, ink.Paint{Fill: ink.Panel, Line: ink.Rule})
		name := string(l)
		if l == ' ' {
			name = b.Say(words.T("write.space"))
		}
		size, _ := ink.Fit(cell.W-6*b.U, b.Small, ui.Clamp(cell.H*0.55, b.Body, b.TextSize(24)), ink.Bold, name)
		b.Text("letter", cell.Centre().X, cell.Centre().Y, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Centre | ink.Middle, Within: cell}, strings.TrimSpace(name))
		b.Hit(letterPrefix+strconv.Itoa(i+1), "", cell)
	}
}
