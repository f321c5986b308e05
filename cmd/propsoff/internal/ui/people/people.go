// Package people is one sheet: who practises.
package people

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
)

// View is what the sheet knows.
type View struct {
	// Rows are nobody, a new name, and everybody who has a logbook; in a merge everybody but the one whose logbook goes. At is the one marked.
	Rows []ui.Offer
	At   int
	// Merging: it is being chosen into whose logbook another one goes; Says asks so, or tells who practises. Trouble says what went wrong.
	Merging       bool
	Says, Trouble words.Text
	// Person: somebody is marked, who can be renamed; Several: there is somebody else besides.
	Person, Several bool
}

// What the sheet's own keys do.
const (
	Before ui.Action = "people-before" // mark the one before
	After  ui.Action = "people-after"  // mark the one after
	Choose ui.Action = "people-choose" // the one marked practises
	New    ui.Action = "people-new"    // type a new name
	Rename ui.Action = "people-rename" // give the one marked another name
	Merge  ui.Action = "people-merge"  // put the logbook of the one marked and another's together
)

// rowPrefix and a number from 1 name the hit areas of rows.
const rowPrefix = "people-row-"

// The rows before those of people.
const (
	rowNobody = iota
	rowNew
	firstPerson
)

// longestName is the longest name that is typed, in letters (ours); what a logbook takes is counted in bytes (logbook.MostName).
const longestName = 40

// Of is what this sheet knows besides what all know.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// About is what there is to know of the sheet.
func About() *ui.About { return new(part).About() }

// part is the sheet in the window.
type part struct {
	screen.Base
	s     *screen.Screen
	names []string
	at    int
	// merging is whose logbook is to go into another one, empty for nobody's.
	merging string
	trouble words.Text
}

// NewSheet makes the sheet.
func NewSheet(s *screen.Screen) screen.Sheet { return &part{s: s} }

// About is what there is to know of the sheet.
func (p *part) About() *ui.About {
	person := func(v *ui.View) bool { return Of(v).Person && !Of(v).Merging }
	return &ui.About{
		Place: ui.OnPeople, Key: "V", Everywhere: true,
		Shared: ui.Usual(ui.TurnLanguage),
		Own: []ui.Act{
			{Action: Before, Physical: "PageUp", Do: func() { p.move(-1) }},
			{Action: After, Physical: "PageDown", Do: func() { p.move(1) }},
			{Action: Choose, Physical: "Enter", Do: func() { p.take(p.at) }, On: func(v *ui.View) bool { return Of(v).Merging }},
			{Action: New, Physical: "Insert", Do: p.typeNew, Shows: func(v *ui.View) bool { return !Of(v).Merging }},
			{Action: Rename, Physical: "Quote", Do: p.rename, Shows: person},
			{Action: Merge, Physical: "Slash", Do: p.merge, Shows: func(v *ui.View) bool { return person(v) && Of(v).Several }},
		},
		More:  ui.ArrowsMark,
		Picks: []ui.Pick{{Prefix: rowPrefix, Do: func(i int) { p.at = i; p.take(i) }}},
	}
}

// Open looks who is there.
func (p *part) Open() {
	p.merging, p.trouble = "", words.Text{}
	p.look()
}

// look reads the names anew, and marks who practises.
func (p *part) look() {
	k := p.s.Options.Drills.Pupils
	now := k.Pupil()
	if p.names = k.Names(); now != "" && !slices.Contains(p.names, now) {
		p.names = append(p.names, now)
	}
	p.at = max(firstPerson+slices.Index(p.names, now), rowNew)
	if now == "" && len(p.names) > 0 {
		p.at = firstPerson
	}
}

// offered are the people among the rows, the first of them at row from.
func (p *part) offered() (names []string, from int) {
	if p.merging == "" {
		return p.names, firstPerson
	}
	return slices.DeleteFunc(slices.Clone(p.names), func(name string) bool { return name == p.merging }), 0
}

// person is who is marked, empty where that is nobody.
func (p *part) person() string {
	names, from := p.offered()
	if i := p.at - from; i >= 0 && i < len(names) {
		return names[i]
	}
	return ""
}

// rows is how many there are to choose between.
func (p *part) rows() int {
	names, from := p.offered()
	return from + len(names)
}

// move marks another row. It stops at the ends.
func (p *part) move(by int) { p.at = ui.ClampInt(p.at+by, 0, p.rows()-1) }

// merge has it chosen into whose logbook that of the one marked is to go.
func (p *part) merge() {
	p.merging, p.trouble = p.person(), words.Text{}
	p.move(-firstPerson) // at the one behind him
}

// merged ends that choice; somebody is marked then.
func (p *part) merged(marked string) {
	p.at, p.merging = firstPerson+max(slices.Index(p.names, marked), 0), ""
}

// take has a row's person practise, or takes it for the other one of a merge.
func (p *part) take(i int) {
	p.trouble = words.Text{}
	switch {
	case i < 0 || i >= p.rows():
	case p.merging != "":
		p.into(p.person())
	case p.s.Drilling():
		p.trouble = words.T("people.drill")
	case i == rowNobody:
		p.practise("")
	case i == rowNew:
		p.typeNew()
	default:
		p.practise(p.person())
	}
}

// practise has somebody practise from now on, and goes back: that was what the sheet was opened for.
func (p *part) practise(name string) {
	if p.trouble = p.s.Practise(name); p.trouble.Empty() {
		p.s.TurnTo(ui.NoAction)
	}
}

// typeNew has a new name typed.
func (p *part) typeNew() {
	if p.s.Drilling() {
		p.trouble = words.T("people.drill")
		return
	}
	p.s.Write(screen.Writing{Says: words.T("people.type"), Most: longestName, Take: func(name string) words.Text {
		if _, bad := logbook.Name(name); bad != nil { // no name would be nobody
			return words.Error(bad)
		}
		if p.practise(name); !p.trouble.Empty() {
			p.look()
		}
		return p.trouble
	}})
}

// rename has another name typed for the one marked.
func (p *part) rename() {
	was := p.person()
	p.s.Write(screen.Writing{Says: words.T("people.rename", words.Args{"name": words.Quote(was)}), Typed: was, Most: longestName, Take: func(name string) words.Text {
		why := p.s.Named(was, name)
		p.look()
		return why
	}})
}

// into asks whether one logbook is to go into another one.
func (p *part) into(other string) {
	from := p.merging
	p.merged(other)
	n := p.s.Options.Drills.Pupils.Count(from)
	p.s.AskOf(screen.Question{
		Says: words.T("people.merge", words.Args{"from": words.Quote(from), "into": words.Quote(other)}),
		Lost: func() words.Text {
			return words.T("people.merge-does", words.Args{"n": words.Count(n), "from": words.Quote(from), "into": words.Quote(other)})
		},
		Answers: []screen.Answer{{Says: words.T("people.merge-no")}, {Says: words.T("people.merge-yes"), Do: func() {
			p.trouble = p.s.Merged(from, other)
			p.look()
		}}},
	})
}

// Act ends the choice of another one before the sheet is left.
func (p *part) Act(a ui.Action) bool {
	ends := a == ui.Leave && p.merging != ""
	if ends {
		p.merged(p.merging)
	}
	return ends
}

// Key lets the arrows move the mark.
func (p *part) Key(name string, down bool) bool {
	return ui.MovesMark(name, down, p.move)
}

// Fill tells who is there.
func (p *part) Fill(v *ui.View) {
	now, own, begun := p.s.Pupil(), Of(v), words.T("people.new-stands")
	if p.s.Options.Drills.Pupils.Where() == "" {
		begun = words.T("people.no-folder")
	}
	*own = View{Rows: own.Rows[:0], At: p.at, Merging: p.merging != "", Trouble: p.trouble, Person: p.person() != "", Several: len(p.names) > 1}
	own.Says = words.T("people.now", words.Args{"name": words.Quote(now)})
	if own.Merging {
		own.Says = words.T("people.into", words.Args{"name": words.Quote(p.merging)})
	}
	names, from := p.offered()
	if from > 0 {
		own.Rows = append(own.Rows, ui.Offer{Says: words.T("people.nobody"), Stands: words.T("people.nobody-stands", words.Args{"now": words.Flag(now == "")})},
			ui.Offer{Says: words.T("people.new"), Stands: begun})
	}
	for _, name := range names {
		o := ui.Offer{Says: words.AsIs(name)}
		if name == now {
			o.Stands = words.T("people.practises")
		}
		own.Rows = append(own.Rows, o)
	}
	own.Rows[ui.ClampInt(p.at, 0, len(own.Rows)-1)].Marked = true
}

// Draw draws the sheet.
func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }

// Draw draws who practises, and who may.
func Draw(p *ink.Page, v *ui.View) {
	b, r := figure.Open(p, v, ui.OnPeople)
	b.Group("people")
	own := Of(v)
	size := b.TextSize(26)
	if v.Class {
		size = b.Body * 1.3
	}
	d := b.Down(r, b.Gap*0.8)
	d.Say("title", own.Says, ink.Style{Size: size, Weight: ink.Bold})
	d.Say("trouble", own.Trouble, ink.Style{Size: b.Large, Weight: ink.Bold})
	b.Offers("people", d.R, own.Rows, own.At, 8, rowPrefix)
}
