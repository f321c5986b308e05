package whodrives

import (
	"errors"

	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/input"
	"propsoff.example/input/keyboard"
	"propsoff.example/sim/pulse"
)

// hand gives the loop the source that drives from now on; nil for none.
func (d *Driver) hand(who Who, s input.Source, epoch int64) {
	if d.device != nil && who != Questions {
		_ = d.device.Close()
		d.device, d.learner = nil, nil
	}
	if d.who == Demo && who != Demo {
		d.tidy()
	}
	if who != Radio {
		d.source = nil
	}
	if who != Keyboard {
		d.keys = nil
	}
	if who != Which {
		d.alike = nil
	}
	d.who, d.looked = who, false
	d.letGo()
	if s == nil {
		_ = d.o.Loop.Use()
		return
	}
	if who == Radio || who == Keyboard {
		s = d.withInstructor(s, epoch)
	}
	if err := d.o.Loop.Use(live.Player{Source: s, Opened: epoch, By: by(who)}); err != nil {
		d.fail(SourceFailed, s.Name(), err)
	}
}

// letGo tells that no radio is read, where that is so.
func (d *Driver) letGo() {
	if d.who != Radio && d.who != Questions && d.who != Which {
		d.radio.LetGo()
	}
}

// by says whose hands drive.
func by(who Who) input.By {
	switch who {
	case Radio:
		return input.ByRadio
	case Keyboard:
		return input.ByKeyboard
	case Demo:
		return input.ByDemo
	case Script:
		return input.ByScript
	}
	return input.Nobody
}

// tidy puts the bench back as a person expects to find it, whatever the demo pilot was showing just then.
func (d *Driver) tidy() {
	for _, r := range Tidied() {
		d.o.Loop.Desk().Put(r.Kind, r.Value)
	}
}

// Tidied are the readings that put a bench back like that: before a demonstration is shown, and after it.
func Tidied() []pulse.Reading {
	return []pulse.Reading{
		{Kind: pulse.Link, Value: 1}, {Kind: pulse.Power, Value: 1}, {Kind: pulse.Cable}, {Kind: pulse.Menu, Value: pulse.MenuClosed},
		{Kind: pulse.Tilt}, {Kind: pulse.Air},
	}
}

func (d *Driver) demo() {
	if d.o.Demo == nil {
		d.keyboard()
		return
	}
	d.hand(Demo, d.o.Demo(), 0)
}

func (d *Driver) keyboard() {
	k := keyboard.New(d.o.Names)
	epoch := d.o.Clock.Now()
	d.hand(Keyboard, k, epoch)
	d.keys, d.keysEpoch = k, epoch
}

// UseKeys lets the keyboard drive, unless it does already or something is played.
func (d *Driver) UseKeys() {
	if d.who != Keyboard && (d.who != Script || d.ended) {
		d.keyboard()
	}
}

// Ended is a source that has ended and why, as the loop tells it.
type Ended struct {
	Source input.Source
	Why    error
}

// Ended tells the driver that a source has played to its end or failed. The demo pilot begins again.
func (d *Driver) Ended(e Ended) {
	switch {
	case d.who == Demo:
		d.demo()
	case errors.Is(e.Why, input.ErrEnd) && d.who == Script:
		d.ended = true
	case d.who == Script:
		d.fail(SourceFailed, e.Source.Name(), e.Why)
	}
}

// Press and Release pass a key of the keyboard's layout on. Pressing one while the demo pilot (or nobody) drives takes
// over.
func (d *Driver) Press(k keyboard.Key) {
	if d.who == Demo || d.who == Nobody {
		d.keyboard()
		if !k.Stick() {
			return // taking over must not arm in the same breath
		}
	}
	if d.keys != nil {
		d.keys.Press(k, d.o.Clock.Now()-d.keysEpoch)
	}
}

// Release is Press's counterpart.
func (d *Driver) Release(k keyboard.Key) {
	if d.keys != nil {
		d.keys.Release(k, d.o.Clock.Now()-d.keysEpoch)
	}
}

// Hold pulls an axis of the keyboard's sticks to a width, as a pointer does that has the stick. While the demo pilot (or nobody) drives it takes over.
func (d *Driver) Hold(a keyboard.Axis, to pulse.Width) {
	if d.who == Demo || d.who == Nobody {
		d.keyboard()
	}
	if d.keys != nil {
		d.keys.Hold(a, to, d.o.Clock.Now()-d.keysEpoch)
	}
}

// LetGo is Hold's counterpart.
func (d *Driver) LetGo(a keyboard.Axis) {
	if d.keys != nil {
		d.keys.LetGo(a, d.o.Clock.Now()-d.keysEpoch)
	}
}

// ReleaseAll releases every key and stick, as when the window loses the focus.
func (d *Driver) ReleaseAll() {
	if d.keys != nil {
		d.keys.ReleaseAll(d.o.Clock.Now() - d.keysEpoch)
	}
}

// After says who Next would let drive; Nobody where it would change nothing. Of a radio it gives the name, empty for one that could not be
// opened when that was tried last: nothing is promised of it.
func (d *Driver) After() (next Who, radio string) {
	best, there := d.best()
	switch {
	case d.who == Script && d.shown && d.before == Radio:
		return Radio, d.info.Name
	case d.who == Script && d.shown && d.before == Demo:
		return Demo, ""
	case d.who == Script && !d.ended && !d.shown:
		return Nobody, ""
	case d.who == Script, d.who == Radio, d.who == Questions, d.who == Which:
		return Keyboard, ""
	case d.who == Keyboard && d.o.Demo != nil:
		return Demo, ""
	case there:
		return Radio, best
	case d.who == Keyboard:
		return Nobody, ""
	}
	return Keyboard, ""
}

// Leads reports whether Next, again and again, comes to a radio that is not known to be shut.
func (d *Driver) Leads() bool {
	radio, _ := d.best()
	return radio != "" && (d.who != Script || d.ended || d.shown)
}

// Next changes who drives: radio, keyboard, demo pilot and round again, leaving out who cannot.
func (d *Driver) Next() {
	switch d.who {
	case Script:
		if d.shown {
			d.endShow()
		} else if d.ended {
			d.keyboard()
		}
	case Radio, Questions, Which:
		d.keyboard()
	case Keyboard:
		if d.o.Demo != nil {
			d.demo()
			return
		}
		if !d.takeBest() {
			d.keyboard()
		}
	default:
		if !d.takeBest() {
			d.keyboard()
		}
	}
}
