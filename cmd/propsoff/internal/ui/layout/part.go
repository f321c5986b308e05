package layout

import (
	"bytes"
	"path/filepath"
	"slices"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/belongings"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/input/radio"
	"propsoff.example/sim"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/switches"
)

// part is the work behind the sheet: the facts, and the changes to the craft file.
type part struct {
	screen.Base
	s *screen.Screen

	// file is the craft as changed, saved as it stands on disk at path; undo are those before each change, and kept is how
	// many of them led to saved.
	file, saved *craftfile.File
	path        string
	shipped     bool
	undo        []*craftfile.File
	kept        int

	cfg   sim.Config
	facts *switches.Facts
	radio handset.Radio
	named map[string]bool // jobs by which the radio file calls a control
	seen  int             // the revision of craft and radio that the facts are of
	stale bool

	channel int8 // of the chosen switch
	// waits is a saved craft that comes on the bench when the drill that runs has ended, waitsAt its path.
	waits   *craftfile.File
	waitsAt string
	// began is the path that this start was given. where says where a file was saved, for whoever has left, until the time until.
	began string
	where words.Text
	until int64
	View
}

// New makes the sheet.
func New(s *screen.Screen) screen.Sheet {
	p := &part{s: s, began: s.Options.CraftPath}
	s.Edit, s.Fly, s.Moved = p.edit, p.fly, p.moved
	s.Unsaved = func() *craftfile.File {
		if p.unsaved() {
			return p.file
		}
		return nil
	}
	s.Notes = append(s.Notes, p.note)
	s.Losses = append(s.Losses, screen.Loss{At: ui.OnLayout, Lost: p.lost, Keep: p.save, Drop: func() { p.file, p.undo, p.kept, p.stale = p.saved, nil, 0, true },
		Also: []screen.Answer{{Says: words.T("asked.compare-layout"), Do: func() { s.TurnTo(ui.OnCompare.Open()) }}}})
	return p
}

// Open looks at the craft of the bench, but where changes to another are not saved.
func (p *part) Open() {
	p.Said = words.Text{}
	if c := p.s.Options.Craft; p.waits == nil && c != p.saved && !p.unsaved() {
		p.file, p.saved, p.path, p.undo, p.kept = c, c, p.s.Options.CraftPath, nil, 0
		_, _, p.shipped = assets.Craft(p.path)
		p.shipped = p.shipped || p.path == ""
	}
	p.stale = true
}

// edit takes a craft file that was changed elsewhere as one more change of the craft of the bench. Where changes to it are not saved yet, it says so.
func (p *part) edit(f *craftfile.File) (why words.Text) {
	if p.unsaved() || p.waits != nil {
		return tell.LayoutNo("unsaved")
	}
	p.Open()
	p.take(f, nil)
	return words.Text{}
}

// Turn puts a craft that waits on the bench.
func (p *part) Turn() {
	if p.waits != nil && !p.s.Drilling() {
		p.use(p.waits, p.waitsAt)
	}
}

// unsaved reports whether the file on disk is not what is seen.
func (p *part) unsaved() bool {
	return p.file != nil && p.saved != nil && !bytes.Equal(p.file.Text, p.saved.Text)
}

// changes counts the changes that are not saved.
func (p *part) changes() int {
	if !p.unsaved() {
		return 0
	}
	return max(1, len(p.undo)-p.kept, p.kept-len(p.undo))
}

// look finds the facts anew.
func (p *part) look() {
	p.stale = false
	if p.file == nil {
		p.facts = &switches.Facts{}
		return
	}
	p.file.Learn(p.s.Config.Gestures, p.s.Config.Menus)
	l := p.s.LayoutOf(p.file)
	p.cfg, p.radio = l.Config, l.Radio
	p.named = map[string]bool{}
	if f := p.s.Known.File; f != nil {
		for i := range f.Controls {
			p.named[f.Controls[i].Job] = true
		}
	}
	p.facts = facts.Look(&p.cfg, p.file.More(), &p.radio)
	if p.lever() == nil && len(p.facts.Switches) > 0 {
		p.channel, p.At = p.facts.Switches[0].Channel, 0
	}
	p.hold()
}

// hold keeps the chosen position among those of the chosen switch.
func (p *part) hold() {
	if s := p.lever(); s != nil {
		p.At = max(0, min(p.At, len(s.Positions)-1))
	}
}

// index is the chosen switch in the facts, −1 for none; lever is it.
func (p *part) index() int {
	return slices.IndexFunc(p.facts.Switches, func(s switches.Switch) bool { return s.Channel == p.channel })
}

func (p *part) lever() *switches.Switch {
	if i := p.index(); i >= 0 {
		return &p.facts.Switches[i]
	}
	return nil
}

// Fill shows the facts, anew where something has changed, and where each switch stands now.
func (p *part) Fill(v *ui.View) {
	if now := p.s.Revision(); p.stale || p.facts == nil || p.seen != now {
		p.seen = now
		p.look()
		p.word()
	}
	for i := range p.Levers {
		s := &p.facts.Switches[i]
		p.Levers[i].Live = -1
		if v.Snap.In.HasSent {
			p.Levers[i].Live = s.Live(v.Snap.In.Sent[s.Channel])
		}
	}
	*Of(v) = p.View
}

// word puts everything that the sheet shows into words.
func (p *part) word() {
	v := &p.View
	v.Chosen = max(p.index(), 0)
	if p.file == nil {
		v.Of = tell.LayoutNo("no-craft")
		return
	}
	v.Of = tell.LayoutOf(p.file.Name, &p.radio, p.s.Known.By)
	v.Kept = tell.LayoutKept(p.s.View().PathShown(p.path), p.shipped, p.changes())
	v.ShowFacts(p.facts, &p.cfg)
	v.Radio = p.radio
	v.Doing, v.Choices = p.doing(), p.choices()
}

// Key takes what the keys of the sheet stand for.
func (p *part) Key(name string, down bool) bool {
	if ui.FunctionKey(name) || p.facts == nil {
		return false
	}
	for _, k := range p.View.keys() {
		if k.Key == name {
			if down {
				p.press(k)
			}
			return true
		}
	}
	return false
}

// Hit takes what was clicked: a switch, a position, or a key of the sheet.
func (p *part) Hit(name string) bool {
	if lever, position, ok := LeverOf(name); ok {
		if p.facts != nil && lever < len(p.facts.Switches) {
			p.channel, p.At = p.facts.Switches[lever].Channel, max(position, 0)
			p.stale = true
		}
		return true
	}
	for _, c := range p.Choices {
		if o, ok := ui.NumberOf(name, c.Code+"-"); ok && o < len(c.Options) {
			if o != c.Taken {
				p.press(Key{do: func() { c.take(o) }})
			}
			return true
		}
	}
	for _, k := range p.View.keys() {
		if k.Code == name {
			p.press(k)
			return true
		}
	}
	return false
}

// lost says what is not saved.
func (p *part) lost() (t words.Text) {
	if n := p.changes(); n > 0 {
		t = words.T("asked.lost-layout", words.Args{"n": words.Count(n)})
	}
	return t
}

// save writes the craft file and puts the craft on the bench.
func (p *part) save() bool {
	if !p.unsaved() {
		p.Said = tell.LayoutNo("nothing")
		return true
	}
	path, err := p.path, error(nil)
	if p.shipped {
		var dir string
		if dir, err = radio.Folder(); err == nil {
			path, err = p.file.SaveNew(filepath.Join(filepath.Dir(dir), "crafts"), p.file.Name)
		}
	} else {
		err = p.file.Save(path, p.saved.Text)
	}
	if err != nil {
		p.Said = tell.LayoutNotSaved(path, err)
		return false
	}
	p.where, p.until = words.T("layout.saved", words.Args{"path": words.Quote(p.s.View().PathShown(path)), "named": words.Flag(path == p.began), "page": words.Flag(p.s.Options.InPage), "craft": words.Quote(belongings.CraftNamed(path))}), p.s.Options.Loop.Clock().Now()+savedNoteFor
	p.Said = words.Row(p.where, tell.LayoutCounts(p.use(p.file, path)))
	p.saved, p.path, p.shipped, p.kept = p.file, path, false, len(p.undo)
	return true
}

// savedNoteFor is how long the bench says where a craft file was saved, in µs (ours).
const savedNoteFor = 20_000_000

// note says where a craft file was saved just now, nothing for none; the sheet itself says so as well.
func (p *part) note() words.Text {
	if p.s.Tool == ui.OnLayout || p.s.Options.Loop.Clock().Now() >= p.until {
		return words.Text{}
	}
	return p.where
}

// fly puts the craft file of a path on the bench, but while something is played. Changes to another one that are not saved were asked about where this
// sheet was left.
func (p *part) fly(f *craftfile.File, path string) words.Text {
	if p.s.Driving.Who == whodrives.Script && !p.s.Driving.Ended {
		return words.T("files.played")
	}
	counts := p.use(f, path)
	p.file, p.saved, p.path, p.undo, p.kept, p.stale = f, f, path, nil, 0, true
	_, _, p.shipped = assets.Craft(path)
	return words.T("files.flies", words.Args{"craft": words.Quote(f.Name), "drill": words.Flag(counts == tell.LayoutAfterDrill)})
}

// moved follows a craft file that has another path now.
func (p *part) moved(from, to string) {
	for _, path := range []*string{&p.path, &p.waitsAt, &p.began, &p.s.Options.CraftPath} {
		if *path == from {
			*path = to
		}
	}
	p.stale = true
}

// use puts a saved craft on the bench, where nothing that goes on there holds the old one fast: a drill has a craft of its own, and
// gives the pupil's back when it has ended.
func (p *part) use(file *craftfile.File, path string) tell.LayoutCount {
	s := p.s
	switch {
	case s.Driving.Who == whodrives.Script && !s.Driving.Ended:
		return tell.LayoutNextStart
	case s.Drilling():
		p.waits, p.waitsAt = file, path
		return tell.LayoutAfterDrill
	}
	p.waits = nil
	file.Learn(s.Config.Gestures, s.Config.Menus)
	cfg := file.Config()
	names := file.Names()
	names.Refusals, names.OldRefusals, names.Happenings, names.Gestures = codes.Refusals(), codes.OldRefusals(), codes.Happenings(), s.Options.Names.Gestures
	s.Config, s.Options.Craft, s.Options.CraftPath, s.Options.CraftName, s.Options.Names = cfg, file, path, file.Name, names
	s.Record.Turn() // the next part of a take has it
	s.Options.Loop.UseCraft(cfg, "")
	s.Options.Driver.UseNames(names)
	return tell.LayoutNow
}

// About is that of the package.
func (p *part) About() *ui.About { return About() }

// Draw is that of the package.
func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }
