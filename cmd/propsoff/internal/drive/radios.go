package drive

import (
	"errors"
	"io/fs"
	"slices"

	"propsoff/cmd/propsoff/internal/follow"
	"propsoff/input"
	"propsoff/input/radio"
	"propsoff/input/usb"
)

// change says what came or went, and reports whether a radio came or became readable.
func (d *Driver) change(c *usb.Change) (arrived bool) {
	switch c.Kind {
	case usb.Arrived, usb.Altered: // rights often come a moment after the node
		return true
	case usb.OtherArrived:
		offers := "a serial port"
		if c.Notice.Storage {
			offers = "storage"
		}
		d.note(OtherMode, c.Notice.Name, offers)
	case usb.OtherDeparted:
		d.drop(OtherMode, c.Notice.Name)
	}
	return false
}

// settle does what the policy says after radios came or went.
func (d *Driver) settle(arrived bool) {
	found := d.o.Radios.Found()
	reads := d.who == Radio || d.who == Questions || d.who == Which
	if !reads && !arrived {
		return
	}
	now := follow.Reading{Any: reads, Radio: d.found, Open: d.who != Questions || d.device != nil}
	step, f, err := d.policy.Next(now, found, arrived)
	switch {
	case err != nil:
		d.note(NoSuchRadio, d.policy.Wanted, err.Error())
	case step == follow.Take:
		d.take(f)
	case reads:
		d.here(step, f, found)
	}
}

// here takes note of whether the radio that drives, or is learned, is plugged in.
func (d *Driver) here(step follow.Step, f usb.Found, found []usb.Found) {
	there := step == follow.Reopen || slices.ContainsFunc(found, func(x usb.Found) bool { return x.Path == f.Path && follow.Same(follow.DeviceOf(d.found), x) })
	if !there {
		if !d.out {
			d.note(Unplugged, d.info.Name, "")
		}
		d.out = true
		if d.who == Which { // who is asked nothing can be told of it; it is asked again when it comes back
			d.demo()
		}
		return
	}
	if d.out {
		d.drop(Unplugged, d.info.Name)
	}
	d.out, d.found = false, f
	switch d.who {
	case Radio:
		if t := d.tutor.source; t != nil {
			t.Arrived()
		}
		d.source.Arrived() // it opens its radio again by itself, and takes no notice where that is open
	case Questions:
		if d.device == nil {
			d.resume(f)
		}
	}
}

// best is the name of the radio that takeBest would take, empty where it could not be opened when that was tried last; false where there
// is none. Files are looked at only after something has changed: it is asked for every picture.
func (d *Driver) best() (name string, there bool) {
	if !d.looked {
		f, _ := d.policy.Choose(d.o.Radios.Found())
		d.likely, d.looked = f.Name, true
	}
	if slices.ContainsFunc(d.notices, func(n Notice) bool { return n.Code == NotOpened && n.Name == d.likely }) {
		return "", true
	}
	return d.likely, d.likely != ""
}

// takeBest takes the radio that the policy names, and reports whether there was one that could be opened.
func (d *Driver) takeBest() bool {
	found := d.o.Radios.Found()
	if len(found) == 0 {
		return false
	}
	f, err := d.policy.Choose(found)
	if err != nil {
		d.note(NoSuchRadio, d.policy.Wanted, err.Error())
		return false
	}
	return d.take(f)
}

// take opens a radio and drives with it, has it learned, or asks which file applies. It reports whether it could be opened.
func (d *Driver) take(f usb.Found) bool {
	epoch := d.o.Clock.Now()
	dev, ok := d.open(f, epoch)
	if !ok {
		return false
	}
	a := d.policy.FileFor(dev.Info())
	d.drop(OfAnother, "")
	d.drop(SpoiltFile, "")
	for _, err := range append(a.Spoilt, a.Trouble) {
		if err != nil {
			d.note(SpoiltFile, d.info.Name, err.Error())
			break // one is enough to send a person to the folder
		}
	}
	switch a.How {
	case follow.Given:
		if a.Other {
			d.note(OfAnother, d.info.Name, a.File.Device.Name)
		}
		if d.drive(dev, epoch, a.File, nil) {
			return true
		}
		_ = dev.Close() // a file given by hand is never replaced by questions
		return false
	case follow.Exact:
		if d.drive(dev, epoch, a.File, nil) {
			return true
		}
	case follow.Alike:
		_ = dev.Close()
		d.hand(Which, nil, 0)
		d.alike = a.Alike
		return true
	}
	d.question(dev, epoch)
	return true
}

// open opens a radio, which is the one that everything is about from then on; where it cannot be opened it says so, and
// nothing changes.
func (d *Driver) open(f usb.Found, epoch int64) (input.Device, bool) {
	dev, err := d.o.Radios.Open(f.Path, epoch)
	if err != nil {
		d.note(NotOpened, f.Name, err.Error())
		return nil, false
	}
	info := dev.Info()
	d.drop(NotOpened, f.Name)
	d.drop(NoSuchRadio, "")
	d.drop(Unplugged, info.Name)
	if info.Blunted {
		d.note(Blunted, info.Name, info.Way)
		if errors.Is(f.Trouble, fs.ErrPermission) {
			d.note(NoRights, info.Name, "")
		}
	} else {
		d.drop(Blunted, info.Name)
		d.drop(NoRights, info.Name)
	}
	d.found, d.info, d.out = f, info, false
	return dev, true
}

// drive hands the radio to the loop; false, with a notice, where the file does not fit it. A nil device is waited for.
func (d *Driver) drive(dev input.Device, epoch int64, file radio.File, first *input.Raw) bool {
	now := d.o.Clock.Now() // the source counts from here, though the device may have been read for the questions before
	was := follow.DeviceOf(d.found)
	turn := d.tap.next()
	src, err := radio.NewSource(radio.Config{
		Device: dev, File: file, Names: d.o.Names, Opened: now - epoch, First: first,
		Tap: func(raw *input.Raw, gone bool) { d.tap.hear(turn, raw, gone) },
		Reopen: func() (input.Device, error) { // called by the loop
			f, ok := follow.Again(was, d.o.Radios.Found())
			if !ok {
				return nil, nil
			}
			return d.o.Radios.Open(f.Path, epoch)
		},
	})
	if err != nil {
		d.note(FileDoesNotFit, d.info.Name, err.Error())
		return false
	}
	d.drop(FileDoesNotFit, d.info.Name)
	d.source, d.file = src, file
	if file.StickMode != 0 {
		d.mode = file.StickMode
	}
	d.hand(Radio, src, now)
	return true
}

// driveOn lets the radio that drove drive again with the same file; where it is pulled out it is waited for.
func (d *Driver) driveOn() bool {
	epoch := d.o.Clock.Now()
	file, found := d.file, d.o.Radios.Found()
	i := slices.IndexFunc(found, func(f usb.Found) bool { return f.Path == d.found.Path && follow.Same(follow.DeviceOf(d.found), f) })
	var dev input.Device
	if i >= 0 {
		dev, _ = d.open(found[i], epoch)
	}
	if !d.drive(dev, epoch, file, nil) {
		if dev != nil {
			_ = dev.Close()
		}
		return false
	}
	d.settle(false)
	return true
}

// Apply answers Which: file n of View.Alike, from 0, is read for this radio, and a copy is kept as its
// own.
func (d *Driver) Apply(n int) {
	if d.who != Which || n < 0 || n >= len(d.alike) {
		return
	}
	c, epoch := d.alike[n], d.o.Clock.Now()
	dev, ok := d.open(d.found, epoch)
	if !ok {
		return
	}
	info := dev.Info()
	if !d.drive(dev, epoch, c.File, nil) {
		_ = dev.Close()
		return
	}
	d.file = follow.Own(c, info)
	_, _ = d.keep(Adopted, d.file) // which says so where it fails
}

// LearnAnew answers Which: no file applies, the radio is to be learned.
func (d *Driver) LearnAnew() {
	if d.who != Which {
		return
	}
	epoch := d.o.Clock.Now()
	if dev, ok := d.open(d.found, epoch); ok {
		d.question(dev, epoch)
	}
}

// keep writes the file of the radio that drives to the store and says how that went. Where it cannot be written it holds
// all the same until the program ends.
func (d *Driver) keep(code Code, file radio.File) (path string, err error) {
	path, err = d.o.Store.Save(file)
	d.drop(NotKept, "")
	d.policy.Forget(file.Device)
	if err != nil {
		d.policy.Unkept = append(d.policy.Unkept, file)
		d.note(NotKept, d.info.Name, err.Error())
		return "", err
	}
	d.note(code, d.info.Name, path)
	return path, nil
}

// KeepAgain tries once more to keep the file of the radio that drives, where that failed.
func (d *Driver) KeepAgain() {
	if d.who != Radio || !d.policy.IsUnkept(d.file.Device) {
		return
	}
	path, err := d.keep(Kept, d.file)
	if d.result != nil {
		d.result.kept(path, err)
	}
}

// Choose takes radio n of View.Choices, from 0.
func (d *Driver) Choose(n int) {
	found := d.o.Radios.Found()
	if d.who == Script || n < 0 || n >= len(found) {
		return
	}
	d.take(found[n])
}

// AskAgain begins to learn the radio that drives anew; where none drives, the one that the policy names.
func (d *Driver) AskAgain() {
	if d.who == Questions && d.learner != nil {
		d.learner.Restart()
		return
	}
	found := d.o.Radios.Found()
	if d.who == Script || len(found) == 0 {
		return
	}
	f, err := d.policy.Choose(found)
	if i := d.chosen(found); i >= 0 {
		f, err = found[i], nil
	}
	if err != nil {
		return
	}
	epoch := d.o.Clock.Now()
	if dev, ok := d.open(f, epoch); ok {
		d.question(dev, epoch)
	}
}

// chosen is the radio of found that everything is about, −1 for none.
func (d *Driver) chosen(found []usb.Found) int {
	if d.who != Radio && d.who != Questions && d.who != Which {
		return -1
	}
	return slices.IndexFunc(found, func(f usb.Found) bool {
		return follow.Same(follow.DeviceOf(d.found), f) && (f.Path == d.found.Path || f.Event == d.found.Path || f.Classic == d.found.Path)
	})
}
