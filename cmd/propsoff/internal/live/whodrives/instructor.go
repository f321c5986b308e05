package whodrives

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/live/whichradio"
	"propsoff.example/cmd/propsoff/internal/radioreach"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/input"
	"propsoff.example/input/pair"
	"propsoff.example/input/radio"
	"propsoff.example/input/usb"
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
	if a.File.Given {
		d.note(NotTried, f.Name, "")
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

// pairing says what on the instructor's radio does what, and what takes the sticks is called.
func (d *Driver) pairing(file *radio.File, info *input.Info) (pair.Config, words.Text) {
	h := radioreach.Handset(file, info, d.o.Names)
	l := &d.o.Loop.Craft().Layout
	cfg, takes := radioreach.Pairing(l, &h)
	switch {
	case cfg.Switch == l.Mode:
		return cfg, words.T("control.mode-switch")
	case h.Controls[takes].Called != "":
		return cfg, words.AsIs(h.Controls[takes].Called)
	}
	return cfg, tell.ControlName(&h.Controls[takes])
}
