package screen

import (
	"slices"

	"propsoff/cmd/propsoff/internal/drive"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/input"
	"propsoff/input/check"
	"propsoff/input/radio"
	"propsoff/sim"
)

// checkPart is the work behind the sheet of check: while it is open it listens to the radio that drives.
type checkPart struct {
	s       *Screen
	on      bool
	checker *check.Checker
	// The radio that is checked, as it was when the check began.
	info  input.Info
	file  radio.File
	mark  check.Wants
	needs string // why this radio cannot be checked; empty where it can, or where none drives
	heard []drive.Heard
	// The latest state heard, on the radio's clock, and the bench's tick then: its ticks tell how time goes on while a still
	// hand sends nothing.
	last     input.Raw
	has      bool
	at, tick int64
	snap     sim.Snapshot
	view     check.View
	picked   bool // a person has chosen what to look at
	asked    [2]int
	findings bool
	ended    bool // the findings were shown at the end
	selected int
	from     int
}

func (p *checkPart) open() {
	p.on, p.has = true, false
	p.s.o.Driver.Listen(true)
	p.begin()
}

func (p *checkPart) close() {
	p.on, p.checker = false, nil
	p.s.o.Driver.Listen(false)
}

// begin begins afresh with whoever drives now.
func (p *checkPart) begin() {
	d := &p.s.driver
	p.checker, p.needs = nil, ""
	p.picked, p.findings, p.ended, p.selected, p.from, p.asked = false, false, false, 0, 0, [2]int{-1, -1}
	if d.Who != drive.Radio || d.File == nil {
		return
	}
	p.info, p.file, p.mark = d.Info, *d.File, p.wants()
	p.info.Axes, p.file.Controls = slices.Clone(p.info.Axes), slices.Clone(p.file.Controls)
	c, err := check.New(check.Config{Info: p.info, File: p.file, Names: p.s.o.Names, Wants: p.mark})
	if err != nil {
		p.needs = err.Error()
		return
	}
	p.checker = c
}

func (p *checkPart) wants() check.Wants {
	return check.Wants{LowThrottle: p.s.o.Loop.Craft().Arming.LowThrottle}
}

// same reports whether the radio that drives is still the one that is checked. One that is pulled out keeps driving.
func (p *checkPart) same() bool {
	d := &p.s.driver
	if d.Who != drive.Radio || d.File == nil {
		return p.checker == nil
	}
	return p.checker != nil && radio.DeviceOf(d.Info) == radio.DeviceOf(p.info) && slices.EqualFunc(d.File.Controls, p.file.Controls, sameControl) && p.mark == p.wants()
}

// sameControl reports whether two controls are read alike.
func sameControl(a, b radio.Control) bool {
	return a.Job == b.Job && a.Form == b.Form && a.Axis == b.Axis && slices.Equal(a.Buttons, b.Buttons) && slices.Equal(a.Positions, b.Positions) &&
		(a.Scale == nil) == (b.Scale == nil) && (a.Scale == nil || *a.Scale == *b.Scale) && a.Backwards == b.Backwards && a.Stays == b.Stays && a.Called == b.Called
}

func (p *checkPart) turn() {
	if !p.on {
		return
	}
	p.heard = p.s.o.Driver.HeardSince(p.heard[:0])
	if !p.same() {
		p.has = false
		p.begin()
	}
	if p.checker == nil {
		return
	}
	p.s.o.Loop.Snapshot(&p.snap)
	tick := p.snap.Tick
	for i := range p.heard {
		h := &p.heard[i]
		if h.Gone {
			p.checker.Gone(h.Raw.At)
			p.has = false
		} else {
			p.checker.Feed(&h.Raw)
			p.last, p.has = h.Raw, true
		}
		p.at, p.tick = h.Raw.At, tick
	}
	p.checker.Tick(p.at + (tick-p.tick)*1000)
	p.checker.View(&p.view)
	p.follow()
}

// follow looks at what is asked for, until a person looks elsewhere, and shows at the end what is to be seen to.
func (p *checkPart) follow() {
	if asked := [2]int{int(p.view.Ask), p.view.Control}; asked != p.asked {
		p.asked = asked
		if p.view.Control >= 0 {
			p.picked = false
		}
	}
	if p.view.Settled && !p.ended {
		p.ended, p.from = true, 0
		p.findings = p.view.Count[check.Fails]+p.view.Count[check.Warns] > 0
	}
	if !p.picked && p.view.Control >= 0 {
		p.selected = p.view.Control
	}
}

func (p *checkPart) fill(v *sheet.View) {
	needs := p.needs
	if p.s.driver.Who != drive.Radio {
		needs = phrase.CheckNeedsRadio(p.s.played(), len(v.Radios), v.KeyToRadio(sheet.OnCheck))
	}
	v.Check = sheet.CheckView{Needs: needs, Name: p.info.Name, Selected: p.selected, Findings: p.findings, From: p.from}
	if p.checker != nil {
		v.Check.Check = p.view
	}
}

func (p *checkPart) act(a sheet.Action) bool {
	if p.checker == nil {
		return false
	}
	switch a {
	case sheet.CheckAbove:
		p.step(-1)
	case sheet.CheckBelow:
		p.step(1)
	case sheet.CheckFindings:
		p.findings, p.from = !p.findings, 0
	case sheet.CheckAnew:
		p.begin()
		if p.checker != nil && p.has { // a still hand sends nothing: the latest state stands
			p.last.At, p.last.Resync = p.at, false
			p.checker.Feed(&p.last)
		}
	default:
		return false
	}
	return true
}

// step looks at the control, or with the findings at the finding, above or below.
func (p *checkPart) step(d int) {
	if p.findings {
		n := p.view.Count[check.Fails] + p.view.Count[check.Warns]
		p.from = max(0, min(p.from+d, n-1))
		return
	}
	n := len(p.view.Controls) + 1
	p.picked, p.selected = true, (p.selected+d+n)%n
}

func (p *checkPart) key(name string, down bool) bool { return false }

func (p *checkPart) hit(name string) bool {
	i, ok := sheet.CheckRowOf(name)
	if ok && i <= len(p.view.Controls) {
		p.picked, p.selected = true, i
	}
	return ok
}
