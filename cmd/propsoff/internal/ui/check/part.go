package check

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/input"
	"propsoff.example/input/check"
	"propsoff.example/input/radio"
	"propsoff.example/sim/pulse"
)

// part is the work behind the sheet: while it is open it listens to the radio that drives.
type part struct {
	screen.Base
	s       *screen.Screen
	on      bool
	checker *check.Checker
	// The radio that is checked, as it was when the check began.
	radio screen.ControlsCheck
	wants check.Wants
	needs words.Text // why this radio cannot be checked; says nothing where it can, or where none drives
	heard []whodrives.Heard
	// The latest state heard, and the time on the radio's clock: that of the latest state, and what has passed since, as a still hand sends nothing. now is
	// the loop's clock at the last turn; the bench's own time stands meanwhile.
	last    input.Raw
	has     bool
	at, now int64
	picked  bool // a person has chosen what to look at
	asked   [2]int
	ended   bool         // the findings were shown at the end
	been    []live.Point // where the sticks have been of late, by the radio's clock
	View
}

// Open begins to listen to the radio that drives.
func (p *part) Open() {
	p.on, p.has = true, false
	p.s.Options.Driver.Listen(true)
	p.begin()
}

// Close ends listening.
func (p *part) Close() {
	p.on, p.checker = false, nil
	p.s.Options.Driver.Listen(false)
	p.s.Rest(false)
}

// begin begins afresh with whoever drives now. What is checked does not move the bench meanwhile.
func (p *part) begin() {
	defer func() { p.s.Rest(p.checker != nil) }()
	d := &p.s.Driving
	p.checker, p.needs, p.View = nil, words.Text{}, View{}
	p.picked, p.ended, p.asked, p.been = false, false, [2]int{-1, -1}, p.been[:0]
	if d.Who != whodrives.Radio || d.File == nil {
		return
	}
	info, file := d.Info, *d.File
	info.Axes, file.Controls = slices.Clone(info.Axes), slices.Clone(file.Controls)
	p.radio, p.wants = screen.ControlsCheck{Device: radio.DeviceOf(info), Controls: file.Controls}, wantsOf(p.s)
	c, err := check.New(check.Config{Info: info, File: file, Names: p.s.Options.Names, Wants: p.wants})
	if err != nil {
		p.needs = words.Error(err)
		return
	}
	p.checker = c
}

// wantsOf is what the check of a radio for the craft on the bench is to hold.
func wantsOf(s *screen.Screen) check.Wants {
	return check.Wants{LowThrottle: s.Options.Loop.Craft().Arming.LowThrottle}
}

// New makes the sheet, and tells the screen how to ask what the check came to.
func New(s *screen.Screen) screen.Sheet {
	p := &part{s: s}
	s.Checks = func() (screen.ControlsCheck, bool) {
		if p.checker == nil || !p.Check.Settled || !p.same() {
			return screen.ControlsCheck{}, false
		}
		p.radio.Fails = p.Check.Count[check.Fails]
		return p.radio, true
	}
	s.Losses = append(s.Losses, screen.Loss{At: ui.OnCheck, Lost: p.lost})
	return p
}

// lost says how much of a check would be lost that is not at its end.
func (p *part) lost() (t words.Text) {
	done := 0
	for i := range p.Check.Controls {
		if p.Check.Controls[i].Done {
			done++
		}
	}
	if p.checker != nil && !p.Check.Settled && done > 0 {
		t = words.T("asked.lost-check", words.Args{"n": words.Count(done), "all": words.Whole(len(p.Check.Controls))})
	}
	return t
}

// same reports whether the radio that drives is still the one that is checked.
func (p *part) same() bool {
	d := &p.s.Driving
	if d.Who != whodrives.Radio || d.File == nil {
		return p.checker == nil
	}
	return p.checker != nil && p.radio.Holds(d) && p.wants == wantsOf(p.s)
}

// Turn feeds the check with what was heard since the last turn.
func (p *part) Turn() {
	if !p.on {
		return
	}
	p.heard = p.s.Options.Driver.HeardSince(p.heard[:0])
	if !p.same() {
		p.has = false
		p.begin()
	}
	if p.checker == nil {
		return
	}
	now := p.s.Options.Loop.Clock().Now()
	if p.s.Seen() { // else a browser shows no reading, and nothing counts as still
		p.at += now - p.now
	}
	p.now = now
	for i := range p.heard {
		h := &p.heard[i]
		if h.Gone {
			p.checker.Gone(h.Raw.At)
			p.has = false
		} else {
			p.checker.Feed(&h.Raw)
			p.last, p.has = h.Raw, true
		}
		p.at = h.Raw.At
	}
	p.checker.Tick(p.at)
	p.checker.View(&p.Check)
	p.trace()
	p.follow()
}

// follow looks at what is asked for, until a person looks elsewhere, and shows at the end what is to be seen to.
func (p *part) follow() {
	if asked := [2]int{int(p.Check.Ask), p.Check.Control}; asked != p.asked {
		p.asked = asked
		if p.Check.Control >= 0 {
			p.picked = false
		}
	}
	if p.Check.Settled && !p.ended {
		p.ended, p.From = true, 0
		p.Findings = p.Check.Count[check.Fails]+p.Check.Count[check.Warns] > 0
	}
	if !p.picked && p.Check.Control >= 0 {
		p.Selected = p.Check.Control
	}
}

// Fill shows how far the check is, or what it needs.
func (p *part) Fill(v *ui.View) {
	p.Needs = p.needs
	if p.s.Driving.Who != whodrives.Radio {
		p.Needs = tell.CheckNeedsRadio(p.s.Played(), len(v.Radios), v.KeyToRadio(ui.OnCheck))
	}
	*Of(v) = p.View
	if p.checker != nil {
		p.show(v)
	}
}

// show draws the radio as the check reads it, since the bench reads nothing, and says so.
func (p *part) show(v *ui.View) {
	v.GoodNews(words.T("check.stands-still"))
	p.held(&v.Snap.In.Sent, &v.Snap.In.HasSent)
	v.Chart = v.Chart[:0]
	for _, at := range p.been { // the bench's time stands, and what is drawn ends at it
		at.Tick += v.Snap.Tick - p.at/1000
		v.Chart = append(v.Chart, at)
	}
}

// held is how the controls are held, in what a craft would be sent.
func (p *part) held(sent *pulse.Frame, has *bool) {
	for i := range p.Check.Controls {
		if c := &p.Check.Controls[i]; c.Known && c.Channel >= 0 && c.Channel < pulse.Channels {
			sent[c.Channel], *has = c.Width, true
		}
	}
}

// traced is how long the way of the sticks is kept, in ms (ours): longer than any sheet draws it.
const traced = 1000

// trace keeps where the sticks have been.
func (p *part) trace() {
	now := p.at / 1000
	p.been = slices.DeleteFunc(p.been, func(at live.Point) bool { return at.Tick < now-traced || at.Tick >= now }) // a reading may bear an earlier time than was thought
	at := live.Point{Tick: now}
	if p.held(&at.Sent, &at.HasSent); at.HasSent && p.has {
		p.been = append(p.been, at)
	}
}

// anew begins the check again. A still hand sends nothing: the latest state stands.
func (p *part) anew() {
	p.begin()
	if p.checker != nil && p.has {
		p.last.At, p.last.Resync = p.at, false
		p.checker.Feed(&p.last)
	}
}

// step looks at the control, or with the findings at the finding, above or below.
func (p *part) step(d int) {
	if p.Findings {
		p.From = max(0, min(p.From+d, len(p.View.findings())-1))
		return
	}
	n := len(p.Check.Controls) + 1
	p.picked, p.Selected = true, (p.Selected+d+n)%n
}

// Draw draws the sheet.
func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }
