package card_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/paper"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/card"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
)

// The sheet shows the page as it will be printed: every word at its place, whole and part by part.
func TestTheCardOnTheScreen(t *testing.T) {
	c := scenes[3].make(t)
	for i, s := range [...]paper.Size{paper.A4(), paper.Letter(), paper.A4()} {
		z := sizes[min(i, 1)]
		for _, size := range []uitest.Size{{W: 960, H: 600}, {W: 1280, H: 800}, {W: 1920, H: 1080}, {W: 1200, H: 1920}, {W: 2560, H: 1080}} {
			for _, book := range uitest.BooksAt(size) {
				page, frames := z.Lay(s, book, &c)
				for _, theme := range uitest.ThemesAt(size) {
					showsEveryWord(t, z, page, frames, book, s, size, theme)
				}
			}
		}
	}
}

func showsEveryWord(t *testing.T, z card.Size, page *ink.Page, frames []ink.Rect, book *words.Book, s paper.Size, size uitest.Size, theme *ink.Theme) {
	v := uitest.Ready(t).V
	v.Book = book
	*card.Of(v) = card.View{Page: page, Frames: frames, Size: z, Paper: s.Name, Other: "Letter", Folder: "/home/somebody/with/a/rather/long/name/Documents"}
	all := 0
	for i := range page.Items() {
		all += len(strings.Fields(strings.ReplaceAll(page.Items()[i].Text, "\u00a0", "x")))
	}
	seen := map[string]int{}
	for part := 0; part <= len(frames); part++ {
		card.Of(v).Part, card.Of(v).Said = part, words.AsIs(strings.Repeat("Saved: /home/somebody/a/long/folder ", part%2))
		p := ink.NewPage(size.W, size.H, 0, theme)
		card.Draw(p, v)
		for _, q := range ink.CheckWith(p, screenLimits()) {
			// A page made smaller has small letters whose places are rounded; the print itself is checked above.
			if strings.HasPrefix(q.Item, "printed/") && q.Fault != ink.TextOffPage && q.Fault != ink.ShapeOffPage && q.Fault != ink.TextGlyph {
				continue
			}
			t.Errorf("%v %d %s %s part %d: %v", size, z, s.Name, book.Tag(), part, q)
		}
		drawn := 0
		for i := range p.Items() {
			if it := &p.Items()[i]; it.Group == "printed" && it.Kind == ink.KindText {
				drawn++
				if part > 0 {
					seen[it.Text]++
				}
			}
		}
		switch {
		case part > 0:
		case size.W < size.H:
			assert.Equal(t, all, drawn, "%v %s %s", size, s.Name, book.Tag())
		default: // the whole page, and its first parts beside it
			assert.Greater(t, drawn, all+20, "%v %s %s", size, s.Name, book.Tag())
		}
		uitest.Draw(t, "sheet "+card.SizeCodes()[z]+" part "+string(rune('0'+part))+" "+book.Code(), p)
	}
	for i := range page.Items() {
		it := &page.Items()[i]
		for _, w := range strings.Split(it.Text, " ") {
			assert.True(t, w == "" || it.Group == "marks" || it.Group == "title" || seen[w] > 0, "%v %s %s: %q is in no part", size, s.Name, book.Tag(), w)
		}
	}
}

// Once it was saved, or could not be, nothing says any more where it will be saved; whose radio is drawn is said where it needs saying; a search
// that goes on is told with how far it is.
func TestTheCardOnTheScreenSaysOnlyWhatIsTrue(t *testing.T) {
	const where = "It will be saved into"
	for _, c := range []struct {
		name      string
		size      card.Size
		said      words.Text
		bad       bool
		of        facts.By
		searching bool
		says      []string
		not       string
	}{
		{"to be saved", card.Bank, words.Text{}, false, facts.ItsFile, true, []string{where, "is being searched: 40 % of those known so far", "Until then a saved card says “not proved”", "save unproved", "as a whole page", "bank card", "Teasel: a craft that comes with propsoff.", "on the layout sheet (F6)"}, "The radio is"},
		{"saved", card.Page, words.T("card.saved", words.Args{"path": words.Quote("/home/somebody/Documents/switch-card-teasel.pdf")}), false, facts.ItsFile, false, []string{"Saved: /home/somebody/Documents/switch-card-teasel.pdf", "as a bank-card", "save as PDF", "One page for the folder"}, where},
		{"not saved", card.Bank, words.T("card.not-saved", words.Args{"why": words.AsIs("there is no such folder to write into")}), true, facts.GivenFile, false, []string{"could not be saved", "The radio is that of the file given by --radio."}, where},
		{"no radio drives", card.Page, words.Text{}, false, facts.NoneDrives, true, []string{"No radio drives, so an ideal one is drawn.", where, "is being searched"}, "--radio"},
	} {
		data := scenes[2].make(t)
		data.NotProved, data.Searching = tell.CardNotProved(true), true
		pages, frames := map[*words.Book]*ink.Page{}, map[*words.Book][]ink.Rect{}
		for _, book := range languages {
			pages[book], frames[book] = c.size.Lay(paper.A4(), book, &data)
		}
		v := uitest.Ready(t).V
		for _, z := range uitest.Sizes {
			for _, theme := range uitest.ThemesAt(z) {
				for _, book := range uitest.BooksAt(z) {
					v.Theme, v.Book = theme, book
					*card.Of(v) = card.View{Page: pages[book], Frames: frames[book], Size: c.size, Paper: "A4", Other: "Letter", Folder: "/home/somebody/Documents", Said: c.said, Bad: c.bad, Of: tell.CardOf(c.of),
						Craft: words.Row(tell.CardCraft(data.Craft, data.Shipped, data.File), words.T("card.craft-yours", words.Args{"sheet": words.AsIs("F6")}))}
					if c.searching {
						card.Of(v).Searching, card.Of(v).Unsaid, card.Of(v).Done, card.Of(v).Search = true, true, 0.4, tell.CardProgress(0.4, true)
					}
					p := ink.NewPage(z.W, z.H, 0, theme)
					card.Draw(p, v)
					for _, q := range ink.CheckWith(p, screenLimits()) {
						if !strings.HasPrefix(q.Item, "printed/") {
							t.Errorf("%v %s, %s: %v", z, c.name, book.Tag(), q)
						}
					}
					uitest.Draw(t, "card on screen "+c.name+" "+book.Code(), p)
					assert.Equal(t, c.searching, len(ink.Describe(p).Named("filling")) > 0, "%v %s", z, c.name)
					if book != words.English() {
						continue
					}
					for _, want := range c.says {
						assert.Contains(t, said(p), want, "%v %s", z, c.name)
					}
					assert.NotContains(t, said(p), c.not, c.name)
				}
			}
		}
		v.Theme, v.Book = nil, nil
		uitest.PartsAlone(t, v, card.Draw, func() { card.Of(v).Part = 1 }, func() { card.Of(v).Part = 2 })
	}
}

func screenLimits() ink.Limits {
	l := ink.DefaultLimits()
	l.Hole = 0.55 // the paper of the bank-card is blank below it, and beside a page there is little to say
	return l
}

func TestWithoutACraftTheSheetSaysSo(t *testing.T) {
	v := uitest.Ready(t).V
	p := ink.NewPage(960, 600, 0, nil)
	card.Draw(p, v)
	assert.Contains(t, said(p), "There is no craft file to make a card of.")
	for _, a := range uitest.AllSheets().All() {
		if a.Action == card.SaveCard || a.Action == card.TurnCard || a.Action == card.LookCloser {
			assert.False(t, v.Shows(a.Action, ui.OnCard))
		}
	}
}
