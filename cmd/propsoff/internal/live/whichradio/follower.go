// Package whichradio says which radio is read, and which radio file applies to it.
//
// Window and terminal follow radios through plugging by one state machine, the Follower. It holds no device, reads no clock and no file:
// it is told what is plugged in and what became of reading it, and whoever asks does what it says. A Policy is what a person asked for,
// with the folder of radio files.
//
// The radio that a person wants is read, else the best known of those plugged in, else the first. A radio that was pulled
// out is waited for; only one that arrives takes its place. Its file is the one that a person gave, else the one of this
// very radio, by serial number, or by port where there is none. Where only files of its kind are there (radios alike in
// vendor, product and name), which of them applies is for a person to say.
package whichradio

import (
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/input/usb"
)

// Step is what is to be done.
type Step uint8

const (
	// Stay with what is read or waited for; there may be nothing.
	Stay Step = iota
	// Reopen the radio that was pulled out, or could be read no more: it is back.
	Reopen
	// Reread the radio that is read: it can be read in another way now.
	Reread
	// Take another radio, or the first.
	Take
)

// Advice is what is to be done, and what is new of the radio that is read or waited for.
type Advice struct {
	Step Step
	// Radio is the one to be opened, as it was found; where Step is Stay the one that is read or waited for, empty for none.
	Radio usb.Found
	// Went: it was pulled out since the last look; Back: it is plugged in again. Both are so where that was quick.
	Went, Back bool
	// Err is that the wanted radio is not there, or is not the only one of that name.
	Err error
}

// Follower is the state machine. The zero value follows no radio and takes the first that it is shown.
type Follower struct {
	// Faithful: once a radio is read no other ever takes its place, as while it is learned or checked.
	Faithful bool

	radio usb.Found // as it was found last; kept when it is let go
	any   bool      // it is read or waited for
	out   bool      // it is not plugged in
	lost  bool      // nobody has it open
	gone  bool      // it departed since the last look
	news  bool      // some radio came or became readable since the last look
}

// Radio is the radio that is read or waited for, or was before it was let go; empty before the first.
func (f *Follower) Radio() usb.Found { return f.radio }

// Any reports whether a radio is read or waited for.
func (f *Follower) Any() bool { return f.any }

// Out reports whether it is pulled out.
func (f *Follower) Out() bool { return f.any && f.out }

// News reports whether some radio came, or became readable, since the last Look.
func (f *Follower) News() bool { return f.news }

// Hear takes note of what came or went.
func (f *Follower) Hear(c *usb.Change) {
	switch c.Kind {
	case usb.Arrived, usb.Altered: // rights often come a moment after the node
		f.news = true
	case usb.Departed:
		f.gone = f.gone || f.any && !f.lost && f.is(&c.Radio)
	}
}

// Reads tells that a radio was opened: it is the one that is followed from now on.
func (f *Follower) Reads(r usb.Found) {
	f.radio, f.any, f.out, f.lost, f.gone = r, true, false, false, false
}

// Lost tells that the radio can be read no more, and reports whether that is news: it is waited for from now on.
func (f *Follower) Lost() (news bool) {
	news = !f.out
	f.out, f.lost = true, true
	return news
}

// LetGo tells that nobody is to read a radio any more.
func (f *Follower) LetGo() { f.any = false }

// Look says what to do while these radios are plugged in; choose is asked where one is to be picked of them, which are then one at least.
func (f *Follower) Look(found []usb.Found, choose func([]usb.Found) (usb.Found, error)) (a Advice) {
	news, gone := f.news, f.gone
	f.news, f.gone = false, false
	if f.any {
		r, step := f.among(found)
		there := step != Take
		a = Advice{Step: step, Radio: r, Went: !f.out && (gone || !there), Back: there && (gone || f.out)}
		f.out = !there
		if there {
			f.radio = r
			return a
		}
		a.Step, a.Radio = Stay, f.radio
		if !news || f.Faithful {
			return a
		}
	}
	if len(found) == 0 {
		return a
	}
	r, err := choose(found)
	if err != nil {
		a.Err = err
		return a
	}
	a.Step, a.Radio = Take, r
	return a
}

// among finds the followed radio and says what to do with it: Take where it is not there.
func (f *Follower) among(found []usb.Found) (usb.Found, Step) {
	if !f.lost {
		for _, r := range found {
			switch {
			case !f.is(&r):
			case r.Way != f.radio.Way && r.Way != "":
				return r, Reread
			default:
				return r, Stay
			}
		}
	}
	if r, ok := Again(DeviceOf(f.radio), found); ok {
		return r, Reopen
	}
	return usb.Found{}, Take
}

// is reports whether r is the followed radio at its own place.
func (f *Follower) is(r *usb.Found) bool {
	return r.Path == f.radio.Path && DeviceOf(*r) == DeviceOf(f.radio)
}

// DeviceOf is what a radio file keeps of a radio that was found.
func DeviceOf(f usb.Found) radio.Device { return radio.DeviceOf(InfoOf(f)) }

// InfoOf is what is known of a radio before it is opened: not its axes.
func InfoOf(f usb.Found) input.Info {
	return input.Info{Path: f.Path, Name: f.Name, Vendor: f.Vendor, Product: f.Product, Serial: f.Serial, Port: f.Port, Way: f.Way}
}

// Same reports whether f is the radio was, as surely as serial number or port tell.
func Same(was radio.Device, f usb.Found) bool {
	m, _ := was.Compare(DeviceOf(f))
	return m == radio.Exact
}

// Again looks among found for the radio was, which was pulled out, and leaves out what cannot be read.
func Again(was radio.Device, found []usb.Found) (usb.Found, bool) {
	for _, f := range found {
		if f.Way != "" && Same(was, f) {
			return f, true
		}
	}
	return usb.Found{}, false
}

// Reopens makes the function by which a source opens its radio again (radio.Config.Reopen): the radio was, once it is among found.
func Reopens(was radio.Device, found func() []usb.Found, open func(path string) (input.Device, error)) func() (input.Device, error) {
	return func() (input.Device, error) {
		f, ok := Again(was, found())
		if !ok {
			return nil, nil
		}
		return open(f.Path)
	}
}
