package screen

import (
	"bytes"
	"path/filepath"
	"strings"

	"propsoff/assets"
	"propsoff/cmd/propsoff/internal/drive"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/input/radio"
	"propsoff/sim"
	"propsoff/sim/craftfile"
	"propsoff/sim/handset"
	"propsoff/sim/switches"
)

// layoutPart is the work behind the sheet of the switch layout: the facts, and the changes to the craft file.
type layoutPart struct {
	s *Screen

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
	seen  seenRadio
	stale bool

	// channel of the chosen switch, and its position.
	channel int8
	at      int

	typing  typingWhat
	typed   string
	span    int          // while a span is typed: which of those on the channel
	leaving sheet.Action // what was asked for while changes are unsaved
	// waits is a saved craft that comes on the bench when the drill that runs has ended, waitsAt its path.
	waits   *craftfile.File
	waitsAt string
	said    string
	// began is the path that this start was given. where says where a file was saved, for whoever has left, until the time until.
	began string
	where string
	until int64
	view  sheet.LayoutView
}

type typingWhat uint8

const (
	notTyping typingWhat = iota
	typingSpan
	typingName
)

// seenRadio tells whether the radio that the facts are about is still the one that is known.
type seenRadio struct {
	by       facts.By
	file     *radio.File
	name     string
	controls int
}

func (p *layoutPart) open() {
	p.said, p.typing, p.leaving = "", notTyping, sheet.NoAction
	if c := p.s.o.Craft; p.waits == nil && c != p.saved && !p.unsaved() {
		p.file, p.saved, p.path, p.undo, p.kept = c, c, p.s.o.CraftPath, nil, 0
		_, _, p.shipped = assets.Craft(p.path)
		p.shipped = p.shipped || p.path == ""
	}
	p.stale = true
}

func (p *layoutPart) close() { p.typing, p.leaving = notTyping, sheet.NoAction }

func (p *layoutPart) turn() {
	k := &p.s.known
	now := seenRadio{by: k.by, file: k.file, name: k.info.Name}
	if k.file != nil {
		now.controls = len(k.file.Controls)
	}
	p.stale = p.stale || now != p.seen
	p.seen = now
	if p.waits != nil && !p.s.drills.on() {
		p.use(p.waits, p.waitsAt)
	}
}

// unsaved reports whether the file on disk is not what is seen.
func (p *layoutPart) unsaved() bool {
	return p.file != nil && p.saved != nil && !bytes.Equal(p.file.Text, p.saved.Text)
}

// changes counts the changes that are not saved.
func (p *layoutPart) changes() int {
	if !p.unsaved() {
		return 0
	}
	return max(1, len(p.undo)-p.kept, p.kept-len(p.undo))
}

// look finds the facts anew.
func (p *layoutPart) look() {
	p.stale = false
	if p.file == nil {
		p.facts = &switches.Facts{}
		return
	}
	p.file.Learn(p.s.cfg.Gestures, p.s.cfg.Menus)
	l := p.s.layoutOf(p.file)
	p.cfg, p.radio = l.Config, l.Radio
	p.named = map[string]bool{}
	if f := p.s.known.file; f != nil {
		for i := range f.Controls {
			p.named[f.Controls[i].Job] = true
		}
	}
	p.facts = facts.Look(&p.cfg, p.file.More(), &p.radio)
	if p.lever() == nil && len(p.facts.Switches) > 0 {
		p.channel, p.at = p.facts.Switches[0].Channel, 0
	}
	if s := p.lever(); s != nil {
		p.at = max(0, min(p.at, len(s.Positions)-1))
	}
}

// index is the chosen switch in the facts, −1 for none; lever is it.
func (p *layoutPart) index() int {
	for i := range p.facts.Switches {
		if p.facts.Switches[i].Channel == p.channel {
			return i
		}
	}
	return -1
}

func (p *layoutPart) lever() *switches.Switch {
	if i := p.index(); i >= 0 {
		return &p.facts.Switches[i]
	}
	return nil
}

func (p *layoutPart) fill(v *sheet.View) {
	if p.stale || p.facts == nil {
		p.look()
		p.word()
	}
	for i := range p.view.Levers {
		s := &p.facts.Switches[i]
		p.view.Levers[i].Live = -1
		if v.Snap.In.HasSent {
			p.view.Levers[i].Live = s.Live(v.Snap.In.Sent[s.Channel])
		}
	}
	v.Layout = p.view
}

// word puts everything that the sheet shows into words.
func (p *layoutPart) word() {
	v := sheet.LayoutView{Said: p.said, Chosen: max(p.index(), 0), At: p.at}
	defer func() { p.view = v }()
	if p.file == nil {
		v.Of = phrase.LayoutNo("no-craft")
		return
	}
	v.Of = phrase.LayoutOf(p.file.Name, &p.radio, p.s.known.by)
	v.Kept = phrase.LayoutKept(p.path, p.shipped, p.changes())
	v.ShowFacts(p.facts, &p.cfg)
	v.Doing, v.Choices = p.doing(), p.choices()
	p.question(&v)
}

// key takes what the keys of the sheet stand for; while something is typed or asked, every key but the function keys.
func (p *layoutPart) key(name string, down bool) bool {
	function := len(name) > 1 && name[0] == 'F' && name[1] >= '0' && name[1] <= '9'
	if function || p.facts == nil {
		return false
	}
	if p.typing != notTyping || p.leaving != sheet.NoAction {
		if down {
			p.answer(name)
			p.stale = true
		}
		return true
	}
	for _, keys := range [...][]sheet.LayoutKey{p.view.Doing, choiceKeys(p.view.Choices)} {
		for _, k := range keys {
			if k.Key == name {
				if down {
					p.do(k.Code)
				}
				return true
			}
		}
	}
	return false
}

func choiceKeys(all []sheet.LayoutChoice) (out []sheet.LayoutKey) {
	for _, c := range all {
		out = append(out, c.LayoutKey)
	}
	return out
}

func (p *layoutPart) hit(name string) bool {
	if lever, position, ok := sheet.LeverOf(name); ok {
		if p.facts != nil && lever < len(p.facts.Switches) {
			p.channel, p.at = p.facts.Switches[lever].Channel, max(position, 0)
			p.stale = true
		}
		return true
	}
	if !strings.HasPrefix(name, "layout-") {
		return false
	}
	for _, k := range p.view.Answers {
		if k.Code == name {
			return p.key(k.Key, true)
		}
	}
	p.do(name)
	return true
}

// act asks before unsaved changes are left.
func (p *layoutPart) act(a sheet.Action) bool {
	switch a {
	case sheet.Leave, sheet.OpenLayout, sheet.OpenCheck, sheet.OpenProve, sheet.OpenCard:
	default:
		return false
	}
	if p.typing != notTyping {
		p.typing, p.stale = notTyping, true
		return true
	}
	if !p.unsaved() {
		return false
	}
	p.leaving, p.stale = a, true
	return true
}

// save writes the craft file and puts the craft on the bench.
func (p *layoutPart) save() bool {
	if !p.unsaved() {
		p.said = phrase.LayoutNo("nothing")
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
		p.said = phrase.LayoutNotSaved(path, err)
		return false
	}
	p.where, p.until = phrase.LayoutSaved(path, path == p.began), p.s.o.Loop.Clock().Now()+savedNoteFor
	p.said = p.where + " " + phrase.LayoutCounts(p.use(p.file, path))
	p.saved, p.path, p.shipped, p.kept = p.file, path, false, len(p.undo)
	return true
}

// savedNoteFor is how long the bench says where a craft file was saved, in µs (ours).
const savedNoteFor = 20_000_000

// note says where a craft file was saved just now, empty for none; the sheet itself says so as well.
func (p *layoutPart) note() string {
	if p.s.tool == sheet.OnLayout || p.s.o.Loop.Clock().Now() >= p.until {
		return ""
	}
	return p.where
}

// use puts a saved craft on the bench, where nothing that goes on there holds the old one fast: a drill has a craft of its own, and
// gives the pupil's back when it has ended.
func (p *layoutPart) use(file *craftfile.File, path string) phrase.LayoutCount {
	s := p.s
	switch {
	case s.driver.Who == drive.Script && !s.driver.Ended:
		return phrase.LayoutNextStart
	case s.drills.on():
		p.waits, p.waitsAt = file, path
		return phrase.LayoutAfterDrill
	}
	p.waits = nil
	file.Learn(s.cfg.Gestures, s.cfg.Menus)
	cfg := file.Config()
	names := file.Names()
	names.Refusals, names.OldRefusals, names.Happenings, names.Gestures = phrase.Refusals(), phrase.OldRefusals(), phrase.Happenings(), s.o.Names.Gestures
	s.cfg, s.o.Craft, s.o.CraftPath, s.o.CraftName, s.o.Names = cfg, file, path, file.Name, names
	s.record.turn() // the next part of a take has it
	s.o.Loop.UseCraft(cfg, "")
	s.o.Driver.UseNames(names)
	return phrase.LayoutNow
}
