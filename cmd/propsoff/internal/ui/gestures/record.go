package gestures

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"propsoff/assets/door"
	"propsoff/assets/words"
	"propsoff/assets/yamldoc"
	"propsoff/cmd/propsoff/internal/live"
	"propsoff/cmd/propsoff/internal/live/whodrives"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/gestures"
	"propsoff/gestures/menu"
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

// recorder records a gesture from the hand.
type recorder struct {
	Recording // as it is shown
	// trail are the sticks once a slot from tick from on, points room for the chart, next the tick of the next slot, back the tick
	// since which the sticks rest again.
	trail            [][gestures.Directions]pulse.Width
	points           []live.Point
	from, next, back int64
	rest             [gestures.Directions]pulse.Width

	physical bool
	opens    int // one more than the index of the menu
}

func (r *recorder) drop() { r.Phase, r.Trouble = NoRecording, words.Text{} }

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
		return tell.RecordNotNow("played")
	case s.Drilling():
		return tell.RecordNotNow("drill")
	case s.Options.Gestures.Own == "":
		return tell.RecordNotNow("folder")
	}
	return words.Text{}
}

// begin starts a recording where the sticks rest now.
func (p *part) begin() {
	p.said = words.Text{}
	now := p.s.Flight.Live.Tick
	p.rec = recorder{Recording: Recording{Phase: AtRest}, trail: p.rec.trail[:0], points: p.rec.points, from: now, next: now, rest: p.sticks(&p.s.Flight.Live.In.Sent), physical: p.rec.physical}
}

// record takes down what the sticks did since the last turn. A menu that opens meanwhile is closed again.
func (p *part) record() {
	r := &p.rec
	if !r.runs() {
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
			r.slot(r.next)
		}
	}
	now := p.s.Flight.Live.Tick
	if r.Phase == Back && now-r.back >= endsRecord || now-r.from >= longestTicks {
		p.end()
	}
}

// slot follows the phase by the sample taken last, at a tick.
func (r *recorder) slot(tick int64) {
	at := &r.trail[len(r.trail)-1]
	away := false
	for i := range at {
		away = away || max(at[i]-r.rest[i], r.rest[i]-at[i]) > awayFrom
	}
	switch {
	case away:
		r.Phase = Moving
	case r.Phase == Moving:
		r.Phase, r.back = Back, tick
	}
}

// end makes a pattern of what was recorded.
func (p *part) end() {
	r := &p.rec
	set := gestures.Default(p.s.Config.SlotTicks)
	if g := p.s.Config.Gestures; g != nil {
		set = *g
	}
	r.Pattern, r.Verdict = gestures.Record(&set, r.trail, r.physical, uint8(p.s.View().StickMode))
	r.Phase, r.Trouble = Ended, words.Text{}
}

// actRecord does what a key of the recording stands for.
func (p *part) actRecord(a ui.Action) bool {
	r := &p.rec
	switch a {
	case Record:
		if r.runs() {
			p.end()
		} else {
			p.begin()
		}
	case ByJob:
		r.physical = !r.physical
		p.end()
	case Opens:
		if m := p.s.Config.Menus; m != nil {
			r.opens = (r.opens + 1) % (len(m.Menus) + 1)
		}
	case Keep:
		if r.Phase == Naming {
			p.keep()
		} else {
			r.Phase, p.s.Typed = Naming, ""
		}
	case Drop:
		r.drop()
	case ui.Leave: // first out of the recording, then of the sheet
		if !r.on() {
			return false
		}
		r.drop()
	default:
		return false
	}
	return true
}

// Key takes keys while a name is typed.
func (p *part) Key(name string, down bool) bool {
	if p.rec.Phase != Naming || strings.HasPrefix(name, "F") && len(name) > 1 {
		return false
	}
	if !down {
		return true
	}
	switch name {
	case "Enter":
		p.keep()
	case "Esc":
		p.rec.Phase = Ended
	default:
		p.s.TypeLetter(name)
	}
	return true
}

// keep writes the recorded gesture into the pilot's own file, and gives it to the craft on the bench.
func (p *part) keep() {
	r := &p.rec
	name := strings.TrimSpace(p.s.Typed)
	if name == "" {
		r.Trouble = words.T("gesture.record-needs-name")
		return
	}
	if why := p.whyNot(); !why.Empty() {
		r.Trouble = tell.RecordNotKept(why)
		return
	}
	o := &p.s.Options.Gestures
	running, err := p.write(name)
	f := (*patternfile.File)(nil)
	if err == nil {
		f, err = patternfile.Parse(o.Own, running, p.s.Config.SlotTicks)
	}
	if err != nil {
		r.Phase, r.Trouble = Ended, tell.RecordNotKept(words.Error(err))
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
	r.drop()
	p.look(len(f.Gestures.Patterns) - 1)
	p.said = tell.RecordKept(name, o.Own)
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
	e := patternfile.Entry{Pattern: p.rec.Pattern, SlotTicks: p.s.Config.SlotTicks}
	e.Pattern.Name, e.Pattern.Code = name, patternfile.FreeCode(f, name)
	if m := p.rec.menu(p); m != nil {
		e.Opens = m.Code
	}
	return patternfile.Append(o.Own, slices.Clone(text), e)
}
