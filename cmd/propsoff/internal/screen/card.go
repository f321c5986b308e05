package screen

import (
	"slices"
	"strings"
	"time"

	"propsoff/cmd/propsoff/internal/paper"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/sim/prove"
)

// cardPart is the work behind the sheet of card: it lays the card out whenever something on it has changed, and saves it.
type cardPart struct {
	s *Screen

	paper int // index in paper.Sizes
	made  cardKey
	data  sheet.CardData
	view  sheet.CardView
}

// cardKey tells one card from another.
type cardKey struct {
	of        searchKey
	given     bool
	notProved string // empty where its layout was searched to an end, or stopped
	paper     int
	date      string
}

func (p *cardPart) open() { p.view.Said, p.view.Bad, p.view.Part = "", false, 0 }

func (p *cardPart) close() { p.view.Page, p.made = nil, cardKey{} }
func (p *cardPart) turn()  {}

// proof is the part behind the sheet of prove, which knows what was found.
func (p *cardPart) proof() *provePart {
	for i := range p.s.tools {
		if t, ok := p.s.tools[i].part.(*provePart); ok {
			return t
		}
	}
	return nil
}

// now brings data up to date where craft, radio, proof, paper or day have changed.
func (p *cardPart) now() {
	craft, t := p.s.o.Craft, p.proof()
	if craft == nil || t == nil {
		p.view.Page = nil
		return
	}
	by := p.s.known.by
	key := cardKey{paper: p.paper, given: !by.Ideal()}
	var of prove.Layout
	key.of, of, _, _ = t.now()
	var report *prove.Report
	report, key.notProved = t.proved(key.of)
	if p.s.o.Now != nil {
		if day := p.s.o.Now(); !day.IsZero() {
			key.date = phrase.CardDay(day)
		}
	}
	p.view.Of = phrase.CardOf(by)
	if key == p.made && p.view.Page != nil {
		return
	}
	if p.made != (cardKey{}) { // what was saved is not this card
		p.view.Said, p.view.Bad = "", false
	}
	p.made = key
	p.data = sheet.NewCard(craft, of.Radio, key.given, key.date)
	if report != nil {
		p.data.Prove(report)
	}
	p.data.NotProved = key.notProved
	sizes := paper.Sizes()
	size := sizes[p.paper]
	page := size.Page(paper.Fine)
	sheet.PrintCard(page, &p.data)
	p.view.Page, p.view.Paper, p.view.Other = page, size.Name, sizes[(p.paper+1)%len(sizes)].Name
}

func (p *cardPart) fill(v *sheet.View) {
	p.now()
	p.view.Folder = ""
	if folder, err := paper.Folder(); err == nil {
		p.view.Folder = folder
	}
	v.Card = p.view
	if p.view.Said != "" && p.view.Part > 0 { // a closer look has no other place for it
		v.Notices = slices.Insert(v.Notices, 0, p.view.Said)
	}
}

func (p *cardPart) act(a sheet.Action) bool {
	switch a {
	case sheet.SaveCard:
		p.save()
	case sheet.TurnPaper:
		p.paper = (p.paper + 1) % len(paper.Sizes())
		p.view.Said = ""
	case sheet.LookCloser:
		p.view.Part = (p.view.Part + 1) % (sheet.CardParts + 1)
	default:
		return false
	}
	return true
}

// save writes the card into the folder for documents, under a name that is free.
func (p *cardPart) save() {
	p.now()
	if p.view.Page == nil {
		return
	}
	folder, err := paper.Folder()
	if err != nil {
		p.view.Said, p.view.Bad = phrase.CardNotSaved(err.Error()), true
		return
	}
	d := paper.Print{Page: p.view.Page, DPI: paper.Fine, Title: phrase.CardFileTitle(p.data.Craft), About: phrase.CardFileAbout(p.data.Radio.Name, p.data.Given), Date: p.day()}
	path, err := d.SaveFree(folder, cardName(p.data.Craft), ".pdf")
	if err != nil {
		p.view.Said, p.view.Bad = phrase.CardNotSaved(err.Error()), true
		return
	}
	p.view.Said, p.view.Bad = phrase.CardSaved(path), false
}

func (p *cardPart) day() time.Time {
	if p.s.o.Now == nil {
		return time.Time{}
	}
	return p.s.o.Now()
}

// cardName is a file name for the card of a craft, in letters that every file system takes.
func cardName(craft string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(craft) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= 40 {
			break
		}
	}
	return strings.TrimRight("switch-card-"+b.String(), "-")
}

func (p *cardPart) key(name string, down bool) bool { return false }
func (p *cardPart) hit(name string) bool            { return false }
