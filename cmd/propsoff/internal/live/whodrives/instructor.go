package whodrives

import (
	"slices"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/live/whichradio"
	"propsoff/cmd/propsoff/internal/radioreach"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/input"
	"propsoff/input/pair"
	"propsoff/input/radio"
	"propsoff/input/usb"
	"propsoff/sim/handset"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
)

// instructor is a second radio whose sticks can replace the pupil's.
type instructor struct {
	on     bool
	device radio.Device
	name   string
	// takes says which switch takes the sticks.
	takes  words.Text
	source *radio.Source
	both   *pair.Source // with the pupil's; nil where source is
}

// NextInstructor makes the next radio that the pupil does not use the instructor's; after the last one there is none. What drives is
// opened anew with it or without it.
func (d *Driver) NextInstructor() {
	if d.who != Radio && d.who != Keyboard {
		return
	}
	found := d.o.Radios.Found()
	others := slices.DeleteFunc(slices.Clone(found), func(f usb.Found) bool {
		return d.who == Radio && f.Path == d.radio.Radio().Path
	})
	next := 0
	if d.tutor.on {
		next = 1 + slices.IndexFunc(others, func(f usb.Found) bool { return whichradio.Same(d.tutor.device, f) })
	}
	d.drop(TutorUnknown, "")
	if next >= len(others) {
		d.tutor = instructor{}
	} else {
		d.tutor = instructor{on: true, device: whichradio.DeviceOf(others[next]), name: others[next].Name}
	}
	if d.who == Radio {
		d.driveOn()
		return
	}
	d.keyboard()
}

// withInstructor joins the instructor's radio to what drives, from its 0 at epoch on; where there is none, or it is not learned, it
// gives back what drives alone.
func (d *Driver) withInstructor(s input.Source, epoch int64) input.Source {
	d.tutor.source, d.tutor.both, d.tutor.takes = nil, nil, words.Text{}
	if !d.tutor.on {
		return s
	}
	f, ok := whichradio.Again(d.tutor.device, d.o.Radios.Found())
	if !ok {
		return s
	}
	without := func(n Notice) input.Source {
		n.Name = f.Name
		d.notice(n)
		d.tutor = instructor{}
		return s
	}
	now := d.o.Clock.Now()
	dev, err := d.o.Radios.Open(f.Path, now)
	if err != nil {
		return without(Notice{Code: NotOpened, Why: words.Error(err)})
	}
	info := dev.Info()
	a := d.policy.FileFor(info)
	if a.How == whichradio.Unknown {
		_ = dev.Close()
		return without(Notice{Code: TutorUnknown})
	}
	src, err := radio.NewSource(radio.Config{Device: dev, File: a.File, Names: d.o.Names, Reopen: d.reopens(d.tutor.device, now)})
	if err != nil {
		_ = dev.Close()
		return without(Notice{Code: FileDoesNotFit, Why: words.Error(err)})
	}
	if epoch == 0 {
		epoch = now
	}
	cfg, takes := d.pairing(&a.File, &info)
	cfg.Later = now - epoch
	both, err := pair.New(s, src, cfg)
	if err != nil {
		_ = src.Close()
		return without(Notice{Code: FileDoesNotFit, Why: words.Error(err)})
	}
	d.tutor.source, d.tutor.both, d.tutor.takes = src, both, takes
	return both
}

// pairing says what on the instructor's radio does what: a switch without a job takes the sticks, one that springs back before any
// other; where there is none the mode switch does, fully high.
func (d *Driver) pairing(file *radio.File, info *input.Info) (pair.Config, words.Text) {
	l := &d.o.Loop.Craft().Layout
	cfg := pair.Config{Switch: l.Mode, SwitchSpan: pair.Span{Low: pulse.Micros(1800), High: pulse.Highest}, Arm: l.Arm, ArmSpan: pair.Span{Low: l.ArmSpan.Low, High: l.ArmSpan.High}}
	takes := words.T("control.mode-switch")
	for _, c := range [...]int8{l.Throttle, l.Roll, l.Pitch, l.Yaw} {
		cfg.Sticks |= 1 << c
	}
	h := radioreach.Handset(file, info, d.o.Names)
	best := 0
	for i := range h.Controls {
		c := &h.Controls[i]
		if c.Kind != handset.Switch || c.Channel == l.Arm || c.Channel == l.Second || c.Channel == l.Mode {
			continue
		}
		worth := 1
		if c.Momentary {
			worth = 2
		}
		if worth <= best {
			continue
		}
		top := c.Positions[len(c.Positions)-1].Width
		below := c.Positions[len(c.Positions)-2].Width
		if top < below {
			top, below = below, top
		}
		best, cfg.Switch, takes = worth, c.Channel, words.AsIs(c.Called)
		cfg.SwitchSpan = pair.Span{Low: below + (top-below)/2, High: pulse.Highest}
		if takes.Empty() {
			takes = tell.ControlName(c)
		}
	}
	if cfg.Switch != l.Mode && l.Mode != layout.NoChannel {
		cfg.Sticks |= 1 << l.Mode
	}
	return cfg, takes
}
