package first

import (
	"slices"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/live/whodrives"
	"propsoff/cmd/propsoff/internal/ui/screen"
	"propsoff/input/radio"
)

// checkedRadio is the radio whose controls were checked last, as it was then.
type checkedRadio struct {
	any      bool
	device   radio.Device
	controls []radio.Control
	tick     int64 // when the check was through
}

// watchCheck notes a controls check that came to its end without anything that fails.
func (p *part) watchCheck() {
	c, ok := p.s.Checks()
	if !ok {
		return
	}
	if c.Fails == 0 && p.isChecked() {
		return
	}
	p.radio = checkedRadio{}
	if c.Fails == 0 {
		p.radio = checkedRadio{any: true, device: c.Device, controls: slices.Clone(c.Controls), tick: p.s.Flight.Live.Tick}
	}
}

// isChecked tells whether the radio that drives is the one that was checked, and is read as it was then.
func (p *part) isChecked() bool {
	d, r := &p.s.Driving, &p.radio
	return d.Who == whodrives.Radio && d.File != nil && r.any && radio.DeviceOf(d.Info) == r.device && slices.EqualFunc(d.File.Controls, r.controls, screen.SameControl)
}

// checked tells whether the controls of what drives were checked.
func (p *part) checked() Need {
	switch {
	case p.s.Driving.Who == whodrives.Keyboard:
		return Need{Done: true, Tick: -1, How: words.T("gate.nothing-to-check")}
	case p.isChecked():
		return Need{Done: true, Tick: p.radio.tick}
	}
	return Need{Tick: -1}
}
