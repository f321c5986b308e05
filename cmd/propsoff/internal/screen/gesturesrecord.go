package screen

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"propsoff/assets/door"
	"propsoff/assets/yamldoc"
	"propsoff/cmd/propsoff/internal/drive"
	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/gestures"
	"propsoff/gestures/patternfile"
	"propsoff/sim/pulse"
)

// The limits of a recording (ours): how far the sticks must come from their rest to be away, how long a rest ends it, and how long
// it may be.
const (
	awayFrom     = pulse.Travel / 4
	endsRecord   = 2000
	longestTicks = 60_000
)

// recording is a gesture being recorded from the hand.
type recording struct {
	phase sheet.RecordPhase
	// trail are the sticks once a slot from tick from on, points room for the chart, next the tick of the next slot, back the tick
	// since which the sticks rest again.
	trail            [][gestures.Directions]pulse.Width
	points           []loop.Point
	from, next, back int64
	rest             [gestures.Directions]pulse.Width

	pattern  gestures.Pattern
	verdict  gestures.Verdict
	physical bool
	opens    int // one more than the index of the menu
	trouble  string
}

func (r *recording) on() bool { return r.phase != sheet.NoRecord }

func (r *recording) drop() { r.phase, r.trouble = sheet.NoRecord, "" }

// whyNot says why nothing can be recorded now; empty where it can.
func (p *gesturesPart) whyNot() string {
	s := p.s
	switch {
	case s.driver.Who == drive.Script && !s.driver.Ended:
		return phrase.RecordNotNow("played")
	case s.drills.on():
		return phrase.RecordNotNow("drill")
	case s.o.Gestures.Own == "":
		return phrase.RecordNotNow("folder")
	}
	return ""
}

// begin starts a recording where the sticks rest now.
func (p *gesturesPart) begin() {
	p.said = ""
	now := p.s.flight.live.Tick
	p.rec = recording{phase: sheet.RecordRest, trail: p.rec.trail[:0], points: p.rec.points, from: now, next: now, rest: p.sticks(&p.s.flight.live.In.Sent), physical: p.rec.physical}
}

// record takes down what the sticks did since the last turn. A menu that opens meanwhile is closed again.
func (p *gesturesPart) record() {
	r := &p.rec
	if !r.on() || r.phase >= sheet.RecordDone {
		return
	}
	if p.menu.Open != 0 {
		p.s.o.Loop.Desk().Put(pulse.Menu, pulse.MenuClosed)
	}
	slot := int64(max(p.s.cfg.SlotTicks, 1))
	r.points = p.s.o.Loop.Chart(r.points[:0])
	for i := range r.points {
		pt := &r.points[i]
		for ; pt.Tick >= r.next && pt.HasSent; r.next += slot {
			at := pt
			if pt.Tick > r.next && i > 0 && r.points[i-1].Tick >= r.from {
				at = &r.points[i-1]
			}
			r.trail = append(r.trail, p.sticks(&at.Sent))
			r.slot(r.next)
		}
	}
	now := p.s.flight.live.Tick
	if r.phase == sheet.RecordBack && now-r.back >= endsRecord || now-r.from >= longestTicks {
		p.end()
	}
}

// slot follows the phase by the sample taken last, at a tick.
func (r *recording) slot(tick int64) {
	at := &r.trail[len(r.trail)-1]
	away := false
	for i := range at {
		away = away || max(at[i]-r.rest[i], r.rest[i]-at[i]) > awayFrom
	}
	switch {
	case away:
		r.phase = sheet.RecordMoving
	case r.phase == sheet.RecordMoving:
		r.phase, r.back = sheet.RecordBack, tick
	}
}

// end makes a pattern of what was recorded.
func (p *gesturesPart) end() {
	r := &p.rec
	set := gestures.Default(p.s.cfg.SlotTicks)
	if g := p.s.cfg.Gestures; g != nil {
		set = *g
	}
	r.pattern, r.verdict = gestures.Record(&set, r.trail, r.physical, uint8(p.s.view.StickMode))
	r.phase, r.trouble = sheet.RecordDone, ""
}

func (p *gesturesPart) fillRecord(g *sheet.GesturesView) {
	r := &p.rec
	g.Record = sheet.GestureRecord{Phase: r.phase, Pattern: r.pattern, Verdict: r.verdict, Trouble: r.trouble, Typed: p.s.typed}
	g.Record.Millis = p.s.flight.live.Tick - r.from
	if m := p.s.cfg.Menus; m != nil && r.opens > 0 && r.opens <= len(m.Menus) {
		g.Record.Opens = m.Menus[r.opens-1].Name
	}
}

func (p *gesturesPart) actRecord(a sheet.Action) bool {
	r := &p.rec
	switch a {
	case sheet.RecordGesture:
		if r.on() && r.phase < sheet.RecordDone {
			p.end()
		} else {
			p.begin()
		}
	case sheet.GestureByJob:
		r.physical = !r.physical
		p.end()
	case sheet.GestureMenu:
		if m := p.s.cfg.Menus; m != nil {
			r.opens = (r.opens + 1) % (len(m.Menus) + 1)
		}
	case sheet.KeepGesture:
		if r.phase == sheet.RecordNaming {
			p.keep()
		} else {
			r.phase, p.s.typed = sheet.RecordNaming, ""
		}
	case sheet.DropGesture:
		r.drop()
	case sheet.Leave: // first out of the recording, then of the sheet
		if !r.on() {
			return false
		}
		r.drop()
	default:
		return false
	}
	return true
}

// key takes keys while a name is typed.
func (p *gesturesPart) key(name string, down bool) bool {
	if p.rec.phase != sheet.RecordNaming || strings.HasPrefix(name, "F") && len(name) > 1 {
		return false
	}
	if !down {
		return true
	}
	switch name {
	case "Enter":
		p.keep()
	case "Esc":
		p.rec.phase = sheet.RecordDone
	default:
		p.s.typeLetter(name)
	}
	return true
}

// keep writes the recorded gesture into the pilot's own file, and gives it to the craft on the bench.
func (p *gesturesPart) keep() {
	r := &p.rec
	name := strings.TrimSpace(p.s.typed)
	if name == "" {
		r.trouble = phrase.RecordNeedsName()
		return
	}
	if why := p.whyNot(); why != "" {
		r.trouble = phrase.RecordNotKept(why)
		return
	}
	o := &p.s.o.Gestures
	running, err := p.write(name)
	if err != nil {
		r.phase, r.trouble = sheet.RecordDone, phrase.RecordNotKept(err.Error())
		return
	}
	f, err := patternfile.Parse(o.Own, running, p.s.cfg.SlotTicks)
	if err != nil {
		r.phase, r.trouble = sheet.RecordDone, phrase.RecordNotKept(err.Error())
		return
	}
	cfg := p.s.cfg
	cfg.Gestures, cfg.Menus = &f.Gestures, &f.Menus
	p.s.cfg = cfg
	if p.s.o.Craft != nil {
		p.s.o.Craft.Learn(cfg.Gestures, cfg.Menus)
	}
	o.Text = running
	p.s.record.turn() // the next part has them
	p.s.o.Loop.UseCraft(cfg, "")
	p.s.o.Names.Gestures = f.Gestures.Codes()
	p.s.o.Driver.UseNames(p.s.o.Names)
	r.drop()
	p.look(len(f.Gestures.Patterns) - 1)
	p.said = phrase.RecordKept(name, o.Own)
}

// write adds the recorded gesture to the pilot's own file, and gives the text of the gestures that the craft has from now on. A file
// that is not there yet begins with what the craft has now, or its gestures would be gone at the next start.
func (p *gesturesPart) write(name string) ([]byte, error) {
	o := &p.s.o.Gestures
	own, err := door.Read(o.Own, "", yamldoc.Most)
	there := err == nil
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	base := o.Text
	if there {
		base = own
	}
	kept, err := p.with(base, name)
	if err != nil {
		return nil, err
	}
	running := kept
	if there && !bytes.Equal(own, o.Text) { // the craft has those of another file: it learns this one too
		if running, err = p.with(o.Text, name); err != nil {
			return nil, err
		}
	}
	if err := os.MkdirAll(filepath.Dir(o.Own), 0o700); err != nil {
		return nil, err
	}
	if err := door.Edit(o.Own, own, kept); err != nil {
		return nil, err
	}
	if !there {
		o.Name, o.Shipped = o.Own, false
	}
	return running, nil
}

// with is the text of a gesture file with the recorded gesture behind the others.
func (p *gesturesPart) with(text []byte, name string) ([]byte, error) {
	o := &p.s.o.Gestures
	var f *patternfile.File
	if len(text) > 0 {
		var err error
		if f, err = patternfile.Parse(o.Own, text, p.s.cfg.SlotTicks); err != nil {
			return nil, err
		}
	}
	e := patternfile.Entry{Pattern: p.rec.pattern, SlotTicks: p.s.cfg.SlotTicks}
	e.Pattern.Name, e.Pattern.Code = name, patternfile.FreeCode(f, name)
	if m := p.s.cfg.Menus; m != nil && p.rec.opens > 0 && p.rec.opens <= len(m.Menus) {
		e.Opens = m.Menus[p.rec.opens-1].Code
	}
	return patternfile.Append(o.Own, slices.Clone(text), e)
}
