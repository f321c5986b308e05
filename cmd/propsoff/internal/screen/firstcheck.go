package screen

import (
	"slices"

	"propsoff/cmd/propsoff/internal/drive"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/input/check"
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
func (p *firstPart) watchCheck() {
	for i := range p.s.tools {
		c, ok := p.s.tools[i].part.(*checkPart)
		if !ok || c.checker == nil || !c.view.Settled || !c.same() {
			continue
		}
		passed := c.view.Count[check.Fails] == 0
		if passed && p.isChecked() {
			return
		}
		p.radio = checkedRadio{}
		if passed {
			p.radio = checkedRadio{any: true, device: radio.DeviceOf(c.info), controls: slices.Clone(c.file.Controls), tick: p.s.flight.live.Tick}
		}
	}
}

// isChecked tells whether the radio that drives is the one that was checked, and is read as it was then.
func (p *firstPart) isChecked() bool {
	d, r := &p.s.driver, &p.radio
	return d.Who == drive.Radio && d.File != nil && r.any && radio.DeviceOf(d.Info) == r.device && slices.EqualFunc(d.File.Controls, r.controls, sameControl)
}

// checked tells whether the controls of what drives were checked.
func (p *firstPart) checked() sheet.Need {
	switch {
	case p.s.driver.Who == drive.Keyboard:
		return sheet.Need{Done: true, Tick: -1, How: phrase.NothingToCheck()}
	case p.isChecked():
		return sheet.Need{Done: true, Tick: p.radio.tick}
	}
	return sheet.Need{Tick: -1}
}
