package whodrives

import (
	"cmp"
	"errors"
	"io/fs"
	"slices"

	"propsoff.example/cmd/propsoff/internal/live/whichradio"
	"propsoff.example/input"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
	"propsoff.example/input/usb"
)

// change takes note of what came or went.
func (d *Driver) change(c *usb.Change) {
	d.radio.Hear(c)
	switch c.Kind {
	case usb.OtherArrived:
		d.notice(Notice{Code: OtherMode, Name: cmp.Or(c.Notice.Name, c.Notice.Maker), Detail: c.Notice.Port, Storage: c.Notice.Storage})
	case usb.OtherDeparted:
		d.drop(OtherMode, cmp.Or(c.Notice.Name, c.Notice.Maker))
	}
}

// settle makes sure that the right radio is read. While none is, one that was there before takes nothing over.
func (d *Driver) settle() {
	if !d.radio.Any() && !d.radio.News() {
		return
	}
	a := d.radio.Look(d.o.Radios.Found(), d.policy.Choose)
	if a.Went {
		d.note(Unplugged, d.info.Name, "")
	}
	if a.Back {
		d.drop(Unplugged, d.info.Name)
	}
	switch {
	case a.Err != nil:
		d.fail(NoSuchRadio, d.policy.Wanted, a.Err)
	case a.Step == whichradio.Take:
		d.take(a.Radio)
	case d.radio.Out():
		if d.who == Which { // who is asked nothing can be told of it; it is asked again when it comes back
			d.demo()
		}
	case d.who == Radio && a.Step == whichradio.Reread:
		d.driveOn()
	case d.who == Radio:
		if t := d.tutor.source; t != nil {
			t.Arrived()
		}
		d.source.Arrived() // it opens its radio again by itself, and takes no notice where that is open
	case d.who == Questions && d.device == nil:
		d.resume(a.Radio)
	}
}

// reopens makes the function by which a source opens the radio was again, with stamps from epoch on. It is called by the loop.
func (d *Driver) reopens(was radio.Device, epoch int64) func() (input.Device, error) {
	return whichradio.Reopens(was, d.o.Radios.Found, func(path string) (input.Device, error) { return d.o.Radios.Open(path, epoch) })
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
		d.fail(NoSuchRadio, d.policy.Wanted, err)
		return false
	}
	return d.take(f)
}

// Guard has no radio read that sure does not know as one that may be: it waits to be confirmed (View.Unsure).
func (d *Driver) Guard(sure func(radio.Device) bool) { d.guard = sure }

// Confirmed reads the radio that waited to be, Declined lets it be. Neither is for ever: it is asked again when somebody chooses it.
func (d *Driver) Confirmed() {
	if f := d.unsure; f != nil {
		d.unsure = nil
		d.take(*f)
	}
}

// Declined leaves the radio that waited to be confirmed.
func (d *Driver) Declined() { d.unsure = nil }

// Doubt takes a radio that drives, or is learned, out of the hand until it is confirmed: somebody else practises now.
func (d *Driver) Doubt() {
	if d.who != Radio && d.who != Questions && d.who != Which {
		return
	}
	f := d.radio.Radio()
	if d.guarded(f) {
		d.keyboard()
	}
}

// guarded tells whether a radio must be confirmed first, and notes that it waits.
func (d *Driver) guarded(f usb.Found) bool {
	if d.guard == nil || d.guard(whichradio.DeviceOf(f)) {
		return false
	}
	d.unsure = &f
	return true
}

// take opens a radio and drives with it, has it learned, or asks which file applies. It reports whether it could be opened.
func (d *Driver) take(f usb.Found) bool {
	if d.guarded(f) {
		return false
	}
	epoch := d.o.Clock.Now()
	dev, ok := d.open(f, epoch)
	if !ok {
		return false
	}
	a := d.policy.FileFor(dev.Info())
	d.known = d.files()
	d.drop(OfAnother, "")
	d.drop(SpoiltFile, "")
	for _, err := range append(a.Spoilt, a.Trouble) {
		if err != nil {
			d.fail(SpoiltFile, d.info.Name, err)
			break // one is enough to send a person to the folder
		}
	}
	switch a.How {
	case whichradio.Given:
		if a.Other {
			d.note(OfAnother, d.info.Name, a.File.Device.Name)
		}
		if d.drive(dev, epoch, a.File, nil) {
			return true
		}
		_ = dev.Close() // a file given by hand is never replaced by questions
		d.letGo()
		return false
	case whichradio.Exact:
		if d.byFile(dev, epoch, a.File) {
			return true
		}
	case whichradio.Alike:
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
		d.fail(NotOpened, f.Name, err)
		return nil, false
	}
	info := dev.Info()
	d.drop(NotOpened, f.Name)
	d.drop(NoSuchRadio, "")
	d.drop(Unplugged, info.Name)
	if info.Blunted {
		d.note(Blunted, info.Name, "")
		if errors.Is(f.Trouble, fs.ErrPermission) {
			d.note(NoRights, info.Name, "")
		}
	} else {
		d.drop(Blunted, info.Name)
		d.drop(NoRights, info.Name)
	}
	d.info = info
	d.radio.Reads(f)
	return dev, true
}

// drive hands the radio to the loop; false, with a notice, where the file does not fit it. A nil device is waited for.
func (d *Driver) drive(dev input.Device, epoch int64, file radio.File, first *input.Raw) bool {
	now := d.o.Clock.Now() // the source counts from here, though the device may have been read for the questions before
	turn := d.tap.next()
	src, err := radio.NewSource(radio.Config{
		Device: dev, File: file, Names: d.o.Names, Opened: now - epoch, First: first,
		Tap:    func(raw *input.Raw, gone bool) { d.tap.hear(turn, raw, gone) },
		Reopen: d.reopens(whichradio.DeviceOf(d.radio.Radio()), epoch),
	})
	if err != nil {
		d.fail(FileDoesNotFit, d.info.Name, err)
		return false
	}
	d.drop(FileDoesNotFit, d.info.Name)
	d.drop(NotTried, "")
	if file.Given {
		named := ""
		if d.policy.File != nil { // which is never tried: a person named it
			named = cmp.Or(file.Device.Name, d.info.Name)
		}
		d.note(NotTried, d.info.Name, named)
	}
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
	file, was, found := d.file, d.radio.Radio(), d.o.Radios.Found()
	d.radio.Reads(was)
	i := slices.IndexFunc(found, func(f usb.Found) bool { return f.Path == was.Path && whichradio.Same(whichradio.DeviceOf(was), f) })
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
	d.settle()
	return true
}

// Apply answers Which: file n of View.Alike, from 0, is read for this radio, and a copy is kept as its
// own.
func (d *Driver) Apply(n int) {
	if d.who != Which || n < 0 || n >= len(d.alike) {
		return
	}
	c, epoch := d.alike[n], d.o.Clock.Now()
	dev, ok := d.open(d.radio.Radio(), epoch)
	if !ok {
		return
	}
	own := whichradio.Own(c, dev.Info())
	if !d.byFile(dev, epoch, own) {
		_ = dev.Close()
		return
	}
	_, _ = d.keep(Adopted, own) // which says so where it fails
}

// LearnAnew answers Which, or gives up a try: no file applies, the radio is to be learned.
func (d *Driver) LearnAnew() {
	if d.trying() && d.device != nil {
		d.question(d.device, d.epoch)
		return
	}
	if d.who != Which {
		return
	}
	epoch := d.o.Clock.Now()
	if dev, ok := d.open(d.radio.Radio(), epoch); ok {
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
		d.fail(NotKept, d.info.Name, err)
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

// Choice is radio n of View.Choices, from 0; the zero value where there is none.
func (d *Driver) Choice(n int) (dev radio.Device) {
	if found := d.o.Radios.Found(); n >= 0 && n < len(found) {
		dev = whichradio.DeviceOf(found[n])
	}
	return dev
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
	if d.guarded(f) {
		return
	}
	// Its file has not been tried, or that is what has just been done.
	again := d.who == Radio && d.policy.File == nil && (d.file.Given || d.result != nil && d.result.Learn.Trying)
	file := d.file
	dev, ok := d.open(f, epoch)
	switch {
	case !ok:
	case again:
		d.questions(dev, epoch, learn.Try(dev.Info(), file))
	default:
		d.question(dev, epoch)
	}
}

// LeaveQuestions gives up the questions. A radio that is known by a file drives by it, as before they were asked, and one whose file was
// being tried by that untried; else the keyboard drives.
func (d *Driver) LeaveQuestions() {
	f := d.radio.Radio()
	if d.trying() {
		d.untried()
	}
	known := d.who == Questions && slices.Contains([]whichradio.How{whichradio.Given, whichradio.Exact}, d.policy.FileFor(d.info).How)
	if known && slices.ContainsFunc(d.o.Radios.Found(), func(o usb.Found) bool { return o.Path == f.Path }) && d.take(f) {
		return
	}
	d.Next()
}

// RadioFiles are the names of all radios that are known by a file.
func (d *Driver) RadioFiles() []string { return d.o.Store.Names() }

// KeptRadios are the radio files that are known.
func (d *Driver) KeptRadios() []radio.Candidate { return d.o.Store.Files() }

// chosen is the radio of found that everything is about, −1 for none.
func (d *Driver) chosen(found []usb.Found) int {
	if !d.radio.Any() {
		return -1
	}
	was := d.radio.Radio()
	return slices.IndexFunc(found, func(f usb.Found) bool {
		return whichradio.Same(whichradio.DeviceOf(was), f) && (f.Path == was.Path || f.Event == was.Path || f.Classic == was.Path)
	})
}
