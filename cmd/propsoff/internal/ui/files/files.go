// Package files is one sheet: the files that are kept: a craft of them flown, one renamed or deleted.
package files

import (
	"cmp"
	"path/filepath"
	"slices"
	"strings"

	"propsoff.example/assets"
	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/cmd/propsoff/internal/belongings"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/sim/craftfile"
)

// View is what the sheet knows.
type View struct {
	// Rows are the files that are kept, then the crafts that ship. At is the one marked; Flies, Goes and Renames tell what may be done with it.
	Rows                 []ui.Offer
	At                   int
	Flies, Goes, Renames bool
	// Says tells what can be done here, Said what came of the last act.
	Says, Said words.Text
}

// What the sheet's own keys do.
const (
	Before ui.Action = "file-before" // mark the one before
	After  ui.Action = "file-after"  // mark the one after
	Fly    ui.Action = "file-fly"    // put the marked craft on the bench
	Rename ui.Action = "file-rename" // give the marked file another name
	Delete ui.Action = "file-delete" // delete the marked file, once that is said again
)

// rowPrefix and a number from 1 name the hit areas of rows.
const rowPrefix = "file-row-"

// longestName is the longest name that is typed, in letters (ours).
const longestName = 60

// Of is what this sheet knows besides what all know.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// About is what there is to know of the sheet.
func About() *ui.About { return new(part).About() }

// part is the sheet in the window.
type part struct {
	screen.Base
	s *screen.Screen
	// kept are the files that are kept, as they were when the sheet was opened or something was done to one; shipped are the crafts behind them.
	kept    []belongings.Kept
	shipped []string
	at      int
	said    words.Text
	later   func() // waits for the cautions, nil for nothing
}

// New makes the sheet.
func New(s *screen.Screen) screen.Sheet {
	p := &part{s: s, shipped: assets.Crafts()}
	s.WithFile = p.from
	return p
}

// About is what there is to know of the sheet.
func (p *part) About() *ui.About {
	return &ui.About{
		Place: ui.OnFiles, ByDoor: true,
		Shared: ui.Usual(ui.TurnLanguage),
		Own: []ui.Act{
			{Action: Before, Physical: "PageUp", Do: func() { p.move(-1) }},
			{Action: After, Physical: "PageDown", Do: func() { p.move(1) }},
			{Action: Fly, Physical: "Enter", Do: p.fly, Shows: func(v *ui.View) bool { return Of(v).Flies }},
			{Action: Rename, Physical: "Quote", Do: p.rename, Shows: func(v *ui.View) bool { return Of(v).Renames }},
			{Action: Delete, Physical: "Delete", Do: p.delete, Shows: func(v *ui.View) bool { return Of(v).Goes }},
		},
		More:  ui.ArrowsMark,
		Picks: []ui.Pick{{Prefix: rowPrefix, Do: p.mark}},
	}
}

// Open looks what is there.
func (p *part) Open() {
	p.said = words.Text{}
	p.look("")
}

// look reads anew what is kept, and marks the file of a name, where it is there.
func (p *part) look(name string) {
	p.kept = nil
	if k := p.s.Options.Kept; k != nil {
		p.kept = slices.DeleteFunc(k.Files(), func(f belongings.Kept) bool { return !f.Goes }) // settings are changed where each has its key
	}
	if i := slices.IndexFunc(p.kept, func(f belongings.Kept) bool { return f.Name == name }); i >= 0 {
		p.at = i
	}
	p.mark(p.at)
}

// mark marks a row; it stops at the ends.
func (p *part) mark(i int) { p.at = ui.ClampInt(i, 0, len(p.kept)+len(p.shipped)-1) }

func (p *part) move(by int) { p.mark(p.at + by) }

// marked is the file that is marked, nil for a craft that ships.
func (p *part) marked() *belongings.Kept {
	if p.at < len(p.kept) {
		return &p.kept[p.at]
	}
	return nil
}

// Turn does what was asked for before the cautions were read.
func (p *part) Turn() {
	if later := p.later; later != nil && p.s.Place() != ui.OnCautions {
		p.later = nil
		later()
	}
}

// from does something with a file, by its name, for whoever asks for it beside the sheets; once the cautions are read.
func (p *part) from(a ui.Action, name string) {
	if p.s.Place() == ui.OnCautions {
		p.later = func() { p.from(a, name) }
		return
	}
	if p.s.Place() == ui.OnHelp {
		p.s.Act(ui.ShowHelp)
	}
	p.s.SeatThem(false)
	do := func() {
		if p.s.Tool != ui.OnFiles {
			p.s.TurnTo(ui.OnFiles.Open())
		}
		if p.look(name); p.marked() == nil || p.marked().Name != name {
			return // it has gone meanwhile
		}
		switch a {
		case Fly:
			p.fly()
		case Rename:
			p.rename()
		case Delete:
			p.delete()
		}
	}
	p.s.Leaving(p.s.Place(), false, func() { p.s.Leaving(p.s.Tool, false, do) }) // what stands on top, and the sheet below it
}

// fly puts the craft that is marked on the bench, as the sheet of the switch layout does with one that it saved.
func (p *part) fly() {
	path, what := "", words.ID("craft-file.craft")
	var text []byte
	var err error
	if f := p.marked(); f != nil {
		path = f.Path
		text, err = door.Read(path, what, yamldoc.Most)
	} else {
		path = p.shipped[p.at-len(p.kept)]
		_, text, _ = assets.Craft(path)
	}
	f := (*craftfile.File)(nil)
	if err == nil {
		f, err = craftfile.Parse(filepath.Base(path), text)
	}
	if err != nil {
		p.said = words.Error(err)
		return
	}
	p.said = p.s.Fly(f, path)
}

// rename has another name typed for the file that is marked.
func (p *part) rename() {
	f := *p.marked()
	was := f.Called()
	p.s.Write(screen.Writing{Says: words.T("files.rename", words.Args{"name": words.Quote(was)}), Typed: strings.TrimSuffix(was, filepath.Ext(was)), Most: longestName,
		Take: func(name string) words.Text {
			if why := p.busy(&f); !why.Empty() {
				return why
			}
			is, err := p.s.Options.Kept.Rename(f, name)
			if err != nil {
				return words.Error(err)
			}
			p.s.Moved(f.Path, is.Path)
			if p.said = (words.Text{}); is.Path != f.Path {
				p.said = words.T("files.renamed", words.Args{"name": words.Quote(was), "now": words.Quote(is.Called())})
			}
			p.look(is.Name)
			return words.Text{}
		}})
}

// busy says why a file can neither be deleted nor renamed now.
func (p *part) busy(f *belongings.Kept) (why words.Text) {
	same := func(path string) bool { return path != "" && filepath.Clean(path) == filepath.Clean(f.Path) }
	switch {
	case same(p.s.View().Recording):
		return words.T("files.recorded")
	case p.s.Pupil() != "" && same(p.s.Options.Drills.Pupils.Where()):
		return words.T("files.practises", words.Args{"name": words.Quote(p.s.Pupil())})
	}
	return why
}

// onBench tells whether a file, or a craft that ships, is that on the bench.
func (p *part) onBench(path string) bool {
	file, _, ships := assets.Craft(path)
	now, _, shipped := assets.Craft(cmp.Or(p.s.Options.CraftPath, assets.BuiltIn))
	return p.s.Options.CraftPath == path || ships && shipped && file == now
}

// delete asks whether the file that is marked is to be deleted, and says what is lost by it.
func (p *part) delete() {
	f := *p.marked()
	if p.said = p.busy(&f); !p.said.Empty() {
		return
	}
	name := words.Quote(f.Called())
	p.s.AskOf(screen.Question{
		Says: words.T("files.delete", words.Args{"name": name}),
		Lost: func() words.Text { return words.T(lost[f.Kind], words.Args{"flown": words.Flag(p.onBench(f.Path))}) },
		Answers: []screen.Answer{{Says: words.T("files.delete-no")}, {Says: words.T("files.delete-yes"), Do: func() {
			if err := p.s.Options.Kept.Delete(f); err != nil {
				p.said = words.Error(err)
			} else {
				p.said = words.T("files.deleted", words.Args{"name": name})
			}
			p.look("")
		}}},
	})
}

// lost say what is lost with a file of each kind.
var lost = map[words.ID]words.ID{
	"radio.file": "files.lost-radio", "craft-file.craft": "files.lost-craft", "gesture-file.file": "files.lost-gestures", "door.logbook": "files.lost-logbook", "door.take": "files.lost-take",
}

// Key lets the arrows move the mark.
func (p *part) Key(name string, down bool) bool {
	return ui.MovesMark(name, down, p.move)
}

// Fill tells what is kept.
func (p *part) Fill(v *ui.View) {
	own := Of(v)
	*own = View{Rows: own.Rows[:0], At: p.at, Flies: true, Said: p.said, Says: words.T("files.about", words.Args{"any": words.Flag(len(p.kept) > 0), "unseen": words.Flag(p.s.Options.Kept == nil)})}
	if f := p.marked(); f != nil {
		own.Flies, own.Goes, own.Renames = f.Flies, f.Goes, f.Renames
	}
	for i := range p.kept {
		f := &p.kept[i]
		own.Rows = append(own.Rows, ui.Offer{Says: words.AsIs(f.Called()), Stands: words.T("files.stands", words.Args{"kind": words.T(f.Kind), "day": tell.Day(f.At), "flown": words.Flag(f.Flies && p.onBench(f.Path))})})
	}
	for _, name := range p.shipped {
		own.Rows = append(own.Rows, ui.Offer{Says: words.AsIs(name), Stands: words.T("files.ships", words.Args{"flown": words.Flag(p.onBench(name))})})
	}
	own.Rows[p.at].Marked = true
}

// Draw draws the sheet.
func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }

// Draw draws what is kept.
func Draw(p *ink.Page, v *ui.View) {
	b, r := figure.Open(p, v, ui.OnFiles)
	b.Group("files")
	own := Of(v)
	size := b.TextSize(26)
	if v.Class {
		size = b.Body * 1.3
	}
	d := b.Down(r, b.Gap*0.8)
	d.Say("title", words.T("files.title"), ink.Style{Size: size, Weight: ink.Bold})
	d.Say("says", own.Says, ink.Style{Size: b.Body})
	if d.Say("said", own.Said, ink.Style{Size: b.Body, Weight: ink.Bold}); own.Said.Empty() { // its line stays free, so that nothing moves when something is said
		d.Row(ink.BlockHeight(b.Body, 1))
	}
	b.Offers("files", d.R, own.Rows, own.At, 6, rowPrefix)
}
