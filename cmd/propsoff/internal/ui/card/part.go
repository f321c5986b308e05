package card

import (
	"slices"
	"strings"
	"time"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/paper"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/screen"
)

// part is the work behind the sheet: it lays the card out whenever something on it has changed, and saves it.
type part struct {
	screen.Base
	s *screen.Screen

	book  *words.Book
	paper int // index in paper.Sizes
	made  key // of data and view.Page
	data  Data
	view  View
}

// New makes the sheet.
func New(s *screen.Screen) screen.Sheet { return &part{s: s, book: words.English()} }

// key tells one card from another.
type key struct {
	of        screen.SearchKey
	given     bool
	notProved string // why it is not; empty where its layout was searched to an end, or stopped
	paper     int
	day       string
	book      *words.Book
}

// Open begins with the whole page.
func (p *part) Open() { p.view.Said, p.view.Bad, p.view.Part = words.Text{}, false, 0 }

// Close forgets the card: it is laid out anew when the sheet is opened.
func (p *part) Close() { p.view.Page, p.made = nil, key{} }

// now brings data and page up to date where craft, radio, proof, paper, day or language have changed.
func (p *part) now() {
	craft, by, today := p.s.Options.Craft, p.s.Known.By, p.s.Now()
	if craft == nil {
		p.view.Page = nil
		return
	}
	p.view.Of = tell.CardOf(by)
	of, layout, _ := p.s.Proof.Now()
	found, notProved := p.s.Proof.Proved(of)
	k := key{of, !by.Ideal(), p.book.Say(notProved), p.paper, today.Format(time.DateOnly), p.book}
	if k == p.made && p.view.Page != nil {
		return
	}
	if p.made != (key{}) { // what was saved is not this card
		p.view.Said, p.view.Bad = words.Text{}, false
	}
	p.made = k
	p.data = Make(craft, layout.Radio, k.given)
	p.data.Date, p.data.Proved, p.data.NotProved = today, found, notProved
	sizes := paper.Sizes()
	size := sizes[p.paper]
	page := size.Page(paper.Fine)
	Print(page, p.book, &p.data)
	p.view.Page, p.view.Paper, p.view.Other = page, size.Name, sizes[(p.paper+1)%len(sizes)].Name
}

// Fill shows the card as it is now.
func (p *part) Fill(v *ui.View) {
	p.book = v.Language()
	p.now()
	p.view.Folder, _ = paper.Folder() // empty where there is none
	*Of(v) = p.view
	if !p.view.Said.Empty() && p.view.Part > 0 { // a closer look has no other place for it
		v.Notices = slices.Insert(v.Notices, 0, p.view.Said)
	}
}

// save writes the card into the folder for documents, under a name that is free, and says what became of it.
func (p *part) save() {
	p.now()
	if p.view.Page == nil {
		return
	}
	folder, err := paper.Folder()
	path := ""
	if err == nil {
		d := Paper(p.view.Page, p.book, &p.data)
		path, err = d.SaveFree(folder, fileName(p.book.Say(words.T("card.title"))+" "+p.data.Craft), ".pdf")
	}
	if p.view.Said, p.view.Bad = words.T("card.saved", words.Args{"path": words.Quote(path)}), err != nil; p.view.Bad {
		p.view.Said = words.T("card.not-saved", words.Args{"why": words.Error(err)})
	}
}

// Paper is a card that was printed on a page as it goes on paper, for paper.Fine pixels to the inch.
func Paper(page *ink.Page, book *words.Book, c *Data) paper.Print {
	return paper.Print{Page: page, DPI: paper.Fine, Title: book.Say(words.T("card.file-title", words.Args{"craft": words.Quote(c.Craft)})), About: book.Say(words.T("card.file-about", words.Args{"given": words.Flag(c.Given), "radio": words.Quote(c.Radio.Name)})),
		Language: book.Code(), Date: c.Date}
}

// fileName is a file name that says a title, in letters that every file system takes.
func fileName(title string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(title) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= 52 {
			break
		}
	}
	return strings.TrimRight(b.String(), "-")
}

// Draw draws the sheet.
func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }
