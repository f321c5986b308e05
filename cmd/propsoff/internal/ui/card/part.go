package card

import (
	"path/filepath"
	"slices"
	"strings"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/paper"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/sim/prove"
)

// part is the work behind the sheet: it has the layout searched, lays the card out whenever something on it has changed, and saves it.
type part struct {
	screen.Base
	s *screen.Screen

	book  *words.Book
	size  Size
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
	by        facts.By
	notProved string        // why it is not; empty where its layout was searched to an end, or stopped
	found     *prove.Report // what was found
	size      Size
	paper     int
	day, whom string
	like      tell.Like // the zero value for none
	book      *words.Book
	finger    bool // a finger is told of no key
}

// Open begins with the whole page.
func (p *part) Open() {
	p.view.Said, p.view.Bad, p.view.Saved, p.view.Part = words.Text{}, false, "", 0
}

// Close forgets the card: it is laid out anew when the sheet is opened. A search that was begun for it goes on.
func (p *part) Close() { p.view.Page, p.made = nil, key{} }

// turn turns to the other card.
func (p *part) turn() { p.size, p.view.Part = (p.size+1)%sizeCount, 0 }

// turnPaper turns to the next size of paper.
func (p *part) turnPaper() { p.paper = (p.paper + 1) % len(paper.Sizes()) }

// look looks at another part, or at the whole.
func (p *part) look(by int) { p.view.Part = ui.ClampInt(p.view.Part+by, 0, len(p.view.Frames)) }

// now brings data and page up to date where craft, radio, proof, paper, day or language have changed. A layout that nobody has searched is searched
// from now on.
func (p *part) now() {
	craft, by, today := p.s.Options.Craft, p.s.Known.By, p.s.Now()
	if craft == nil {
		p.view.Page, p.view.Frames = nil, nil
		return
	}
	p.s.Proof.Begin()
	p.view.Searching, p.view.Done, p.view.Search = p.s.Proof.Progress()
	of, layout, _ := p.s.Proof.Now()
	found, on, notProved := p.s.Proof.Proved(of)
	if p.view.Unsaid = p.view.Searching && found == nil; p.view.Searching {
		p.view.Search = tell.CardProgress(p.view.Done, p.view.Unsaid)
	}
	like := p.s.Proof.Like()
	k := key{of, by, p.book.Say(notProved), found, p.size, p.paper, today.Format(time.DateOnly), p.s.Pupil(), tell.Like{}, p.book, p.s.View().Touch}
	if like != nil {
		k.like = *like
	}
	if k == p.made && p.view.Page != nil {
		return
	}
	before := p.made
	if p.made = k; before != (key{}) { // what was saved is not this card
		before.notProved, before.found, before.finger = k.notProved, k.found, k.finger
		if before == k && p.view.Saved != "" && !p.view.Bad {
			p.view.Said = words.T("card.saved-before", words.Args{"path": words.Quote(p.view.Saved)})
		} else {
			p.view.Said, p.view.Bad = words.Text{}, false
		}
		p.view.Saved = ""
	}
	p.data = Make(craft, p.s.Options.CraftPath, layout.Radio, !by.Ideal())
	p.data.Date, p.data.Proved, p.data.Searched, p.data.NotProved, p.data.Whom, p.data.Like = today, found, on, notProved, k.whom, like
	press := func(a ui.Action) words.Text { return p.s.View().Named(a, ui.OnCard) }
	if p.view.Of = tell.CardOf(by); !by.Ideal() && p.data.unplaced() {
		p.view.Of = words.Row(p.view.Of, words.T("card.unplaced", words.Args{"sheet": press(ui.OnCheck.Open()), "key": press(ui.ShowSeats)}))
	}
	p.data.Searching = p.view.Unsaid
	if p.view.Craft = tell.CardCraft(craft.Name, p.data.Shipped, p.data.File); p.data.Shipped {
		p.view.Craft = words.Row(p.view.Craft, words.T("card.craft-yours", words.Args{"sheet": press(ui.OnLayout.Open())}))
	}
	sizes := paper.Sizes()
	p.view.Page, p.view.Frames = p.size.Lay(sizes[p.paper], p.book, &p.data)
	p.view.Size, p.view.Paper, p.view.Other = p.size, sizes[p.paper].Name, sizes[(p.paper+1)%len(sizes)].Name
}

// Fill shows the card as it is now.
func (p *part) Fill(v *ui.View) {
	p.book = v.Language()
	p.now()
	if p.s.Options.Give == nil { // else nobody looks into that folder
		p.view.Folder, _ = paper.Folder() // empty where there is none
	}
	*Of(v) = p.view
	if p.view.Part > 0 { // a closer look has no other place for them
		var notices []ui.Notice
		if !p.view.Said.Empty() {
			notices = append(notices, ui.Notice{Text: p.view.Said, Good: !p.view.Bad})
		}
		if p.view.Searching {
			notices = append(notices, ui.Notice{Text: p.view.Search, Good: true})
		}
		v.Notices = slices.Insert(v.Notices, 0, notices...)
	}
}

// save writes the card into the folder for documents, under a name that is free, and says what became of it.
func (p *part) save() {
	p.now()
	if p.view.Page == nil {
		return
	}
	folder, err := paper.Folder()
	path, name := "", words.T("card.title")
	if p.size == Bank {
		name = p.size.name()
	}
	if err == nil {
		d := p.size.Paper(p.view.Page, p.book, &p.data)
		path, err = d.SaveFree(folder, fileName(p.book.Say(name)+" "+p.data.Craft), ".pdf")
	}
	if give := p.s.Options.Give; err == nil && give != nil {
		path, err = filepath.Base(path), give(path)
	}
	p.view.Saved = path
	if p.view.Said, p.view.Bad = words.T("card.saved", words.Args{"path": words.Quote(path)}), err != nil; p.view.Bad {
		p.view.Said = words.T("card.not-saved", words.Args{"why": words.Error(err)})
	}
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
