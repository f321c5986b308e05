package gestures

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/gestures"
	"propsoff.example/gestures/menu"
	"propsoff.example/gestures/patternfile"
	"propsoff.example/sim/pulse"
)

// The limits of a recording (ours): how far the sticks must come from their rest to be away, how long a rest ends it, and how long
// it may be.
const (
	awayFrom     = pulse.Travel / 4
	endsRecord   = 2000
	longestTicks = 60_000
)

// recorder records a gesture from the hand.
type recorder struct {
	// trail are the sticks once a slot from tick from on, points room for the chart, next the tick of the next slot, back the tick
	// since which the sticks rest again.
	trail            [][gestures.Directions]pulse.Width
	points           []live.Point
	from, next, back int64
	rest             [gestures.Directions]pulse.Width

	physical bool
	opens    int // one more than the index of the menu
}

// drop throws the recording away.
func (p *part) drop() { p.Recording = Recording{} }

// menu is the menu that the recorded gesture is to open, nil for none.
func (r *recorder) menu(p *part) *menu.Tree {
	if m := p.s.Config.Menus; m != nil && r.opens > 0 && r.opens <= len(m.Menus) {
		return &m.Menus[r.opens-1]
	}
	return nil
}

// whyNot says why nothing can be recorded now; nothing where it can.
func (p *part) whyNot() words.Text {
	s := p.s
	switch {
	case s.Driving.Who == whodrives.Script && !s.Driving.Ended:
		return words.T("gesture.record-played")
	case s.Drilling():
		return words.T("gesture.record-drill")
	case s.Options.Gestures.Own == "":
		return words.T("gesture.record-folder")
	}
	return words.Text{}
}

// begin starts a recording where the sticks rest now.
func (p *part) begin() {
	now := p.s.Flight.Live.Tick
	p.Said, p.Recording = words.Text{}, Recording{Phase: AtRest}
	p.rec = recorder{trail: p.rec.trail[:0], points: p.rec.points, from: now, next: now, rest: p.sticks(&p.s.Flight.Live.In.Sent), physical: p.rec.physical}
}

// record takes down what the sticks did since the last turn. A menu that opens meanwhile is closed again.
func (p *part) record() {
	r := &p.rec
	if !p.Recording.runs() {
		return
	}
	if p.menu.Open != 0 {
		p.s.Options.Loop.Desk().Put(pulse.Menu, pulse.MenuClosed)
	}
	slot := int64(max(p.s.Config.SlotTicks, 1))
	r.points = p.s.Options.Loop.Chart(r.points[:0])
	for i := range r.points {
		pt := &r.points[i]
		for ; pt.Tick >= r.next && pt.HasSent; r.next += slot {
			at := pt
			if pt.Tick > r.next && i > 0 && r.points[i-1].Tick >= r.from {
				at = &r.points[i-1]
			}
			r.trail = append(r.trail, p.sticks(&at.Sent))
			p.slot(r.next)
		}
	}
	now := p.s.Flight.Live.Tick
	if p.Recording.Phase == Back && now-r.back >= endsRecord || now-r.from >= longestTicks {
		p.end()
	}
}

// slot follows the phase by the sample taken last, at a tick.
func (p *part) slot(tick int64) {
	r := &p.rec
	at := &r.trail[len(r.trail)-1]
	away := false
	for i := range at {
		away = away || max(at[i]-r.rest[i], r.rest[i]-at[i]) > awayFrom
	}
	switch {
	case away:
		p.Recording.Phase = Moving
	case p.Recording.Phase == Moving:
		p.Recording.Phase, r.back = Back, tick
	}
}

// end makes a pattern of what was recorded.
func (p *part) end() {
	r := &p.Recording
	set := gestures.Default(p.s.Config.SlotTicks)
	if g := p.s.Config.Gestures; g != nil {
		set = *g
	}
	r.Pattern, r.Verdict = gestures.Record(&set, p.rec.trail, p.rec.physical, uint8(p.s.View().StickMode))
	r.Phase, r.Trouble = Ended, words.Text{}
}

// beginOrEnd begins a recording, or ends the one that runs.
func (p *part) beginOrEnd() {
	if p.Recording.runs() {
		p.end()
	} else {
		p.begin()
	}
}

// byJob makes the pattern of the jobs that the sticks have, or of the sticks themselves.
func (p *part) byJob() {
	p.rec.physical = !p.rec.physical
	p.end()
}

// nextMenu takes the next menu to be opened, or none.
func (p *part) nextMenu() {
	if m := p.s.Config.Menus; m != nil {
		p.rec.opens = (p.rec.opens + 1) % (len(m.Menus) + 1)
	}
}

// name has a name typed for what was recorded; once it is named it is kept.
func (p *part) name() {
	p.s.Write(screen.Writing{Says: words.T("gesture.record-name"), Most: longestName, Take: func(text string) (why words.Text) {
		name := strings.TrimSpace(text)
		if name == "" {
			return words.T("gesture.record-needs-name")
		}
		p.keep(name)
		return why
	}})
}

// longestName is the longest name of a gesture that is typed, in letters (ours).
const longestName = 24

// keep writes the recorded gesture into the pilot's own file, and gives it to the craft on the bench.
func (p *part) keep(name string) {
	r := &p.Recording
	if why := p.whyNot(); !why.Empty() {
		r.Trouble = words.T("gesture.record-not-kept", words.Args{"why": why})
		return
	}
	o := &p.s.Options.Gestures
	running, err := p.write(name)
	f := (*patternfile.File)(nil)
	if err == nil {
		f, err = patternfile.Parse(o.Own, running, p.s.Config.SlotTicks)
	}
	if err != nil {
		r.Phase, r.Trouble = Ended, words.T("gesture.record-not-kept", words.Args{"why": words.Error(err)})
		return
	}
	cfg := p.s.Config
	cfg.Gestures, cfg.Menus = &f.Gestures, &f.Menus
	p.s.Config = cfg
	if p.s.Options.Craft != nil {
		p.s.Options.Craft.Learn(cfg.Gestures, cfg.Menus)
	}
	o.Text = running
	p.s.Record.Turn() // the next part has them
	p.s.Options.Loop.UseCraft(cfg, "")
	p.s.Options.Names.Gestures = f.Gestures.Codes()
	p.s.Options.Driver.UseNames(p.s.Options.Names)
	p.drop()
	p.look(len(f.Gestures.Patterns) - 1)
	p.Said = words.T("gesture.record-kept", words.Args{"name": words.Quote(name), "path": words.Quote(o.Own)})
}

// write adds the recorded gesture to the pilot's own file, and gives the text of the gestures that the craft has from now on. A file
// that is not there yet begins with what the craft has now, or its gestures would be gone at the next start.
func (p *part) write(name string) ([]byte, error) {
	o := &p.s.Options.Gestures
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
func (p *part) with(text []byte, name string) ([]byte, error) {
	o := &p.s.Options.Gestures
	var f *patternfile.File
	if len(text) > 0 {
		var err error
		if f, err = patternfile.Parse(o.Own, text, p.s.Config.SlotTicks); err != nil {
			return nil, err
		}
	}
	e := patternfile.Entry{Pattern: p.Recording.Pattern, SlotTicks: p.s.Config.SlotTicks}
	e.Pattern.Name, e.Pattern.Code = name, patternfile.FreeCode(f, name)
	if m := p.rec.menu(p); m != nil {
		e.Opens = m.Code
	}
	return patternfile.Append(o.Own, slices.Clone(text), e)
}
