// Package follow says which radio is read, and which radio file applies to it.
//
// Window and terminal follow radios through plugging by this one policy. It holds no device and no state: it is asked with
// what is plugged in and what is being read, and whoever asks does what it says.
//
// The radio that a person wants is read, else the best known of those plugged in, else the first. A radio that was pulled
// out is waited for; only one that arrives takes its place. Its file is the one that a person gave, else the one of this
// very radio, by serial number, or by port where there is none. Where only files of its kind are there (radios alike in
// vendor, product and name), which of them applies is for a person to say.
package follow

import (
	"slices"

	"propsoff/input"
	"propsoff/input/radio"
	"propsoff/input/usb"
)

// Policy is what a person asked for, and where radio files are.
type Policy struct {
	// Wanted is the radio of --device, by name, number or path; empty leaves it to the files.
	Wanted string
	// File is the one of --radio and always applies; nil looks in Store.
	File *radio.File
	// Store may have no folder: then no file is known.
	Store radio.Store
	// Unkept are files of single radios that could not be written to Store; they apply before those that are there.
	Unkept []radio.File
}

// Forget takes the file of a radio out of Unkept.
func (p *Policy) Forget(d radio.Device) {
	p.Unkept = slices.DeleteFunc(p.Unkept, func(f radio.File) bool { return f.Device == d })
}

// IsUnkept reports whether the file of a radio stands in Unkept.
func (p *Policy) IsUnkept(d radio.Device) bool {
	return slices.ContainsFunc(p.Unkept, func(f radio.File) bool { return f.Device == d })
}

// unkept is the index in Unkept of the file of this very radio, −1 for none.
func (p *Policy) unkept(d radio.Device) int {
	return slices.IndexFunc(p.Unkept, func(f radio.File) bool { m, _ := f.Device.Compare(d); return m == radio.Exact })
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

// Step is what is to be done.
type Step uint8

const (
	// Stay with what is read or waited for; there may be nothing.
	Stay Step = iota
	// Reopen the radio that was pulled out: it is back.
	Reopen
	// Take another radio, or the first.
	Take
)

// Reading is what is read now.
type Reading struct {
	// Any is false where no radio is read and none is waited for; the rest means nothing then.
	Any bool
	// Radio as it was found; Open while it is read, false while it is waited for.
	Radio usb.Found
	Open  bool
}

// Next says what to do while found are plugged in. arrived tells that some radio came or became readable since it was
// asked last. The error is that the wanted radio is not there, or is not the only one of that name.
func (p *Policy) Next(now Reading, found []usb.Found, arrived bool) (Step, usb.Found, error) {
	if now.Any {
		was := DeviceOf(now.Radio)
		if now.Open {
			for _, f := range found {
				if f.Path == now.Radio.Path && DeviceOf(f) == was {
					return Stay, f, nil
				}
			}
		}
		if f, ok := Again(was, found); ok {
			return Reopen, f, nil
		}
		if !arrived {
			return Stay, now.Radio, nil
		}
	}
	if len(found) == 0 {
		return Stay, usb.Found{}, nil
	}
	f, err := p.Choose(found)
	if err != nil {
		return Stay, usb.Found{}, err
	}
	return Take, f, nil
}

// Choose picks the radio to be read: the wanted one, else the best known, else the first.
func (p *Policy) Choose(found []usb.Found) (usb.Found, error) {
	if p.Wanted != "" || len(found) == 0 {
		return usb.Choose(found, p.Wanted)
	}
	best, rank := 0, radio.NoMatch
	for i, f := range found {
		if f.Way == "" && found[best].Way != "" {
			continue
		}
		if m := p.known(f); m > rank || found[best].Way == "" && f.Way != "" {
			best, rank = i, m
		}
	}
	return found[best], nil
}

// known tells how well a radio is known.
func (p *Policy) known(f usb.Found) radio.Match {
	if p.File != nil {
		m, _ := p.File.Device.Compare(DeviceOf(f))
		return m
	}
	if p.unkept(DeviceOf(f)) >= 0 {
		return radio.Exact
	}
	if p.Store.Dir == "" {
		return radio.NoMatch
	}
	k, err := p.Store.Find(InfoOf(f))
	if err != nil {
		return radio.NoMatch
	}
	return k.Match
}

// How sure it is which file applies.
type How uint8

const (
	// Unknown: there is none; the radio is to be learned.
	Unknown How = iota
	// Given: a person gave it by --radio.
	Given
	// Exact: it is this very radio's.
	Exact
	// Alike: there are files of radios of its kind only. A person says which applies; the first of Answer.Alike is the
	// likeliest.
	Alike
)

// Answer says which file applies.
type Answer struct {
	How How
	// File and where it lies (empty for Given and Unkept), of the likeliest where How is Alike.
	File radio.File
	Path string
	// Other is true where the file that was given is of a radio of another make, whose name is File.Device.Name.
	Other bool
	// Alike are the files of its kind, the likeliest first.
	Alike []radio.Candidate
	// Spoilt are the files in the folder that cannot be read or do not fit this radio; Trouble is about the folder as a
	// whole.
	Spoilt  []error
	Trouble error
}

// FileFor says which file applies to an open device.
func (p *Policy) FileFor(info input.Info) Answer {
	if p.File != nil {
		m, _ := p.File.Device.Compare(radio.DeviceOf(info))
		named := p.File.Device != radio.Device{} // a file may leave its device out
		return Answer{How: Given, File: *p.File, Other: named && m == radio.NoMatch}
	}
	if i := p.unkept(radio.DeviceOf(info)); i >= 0 {
		return Answer{How: Exact, File: p.Unkept[i]}
	}
	if p.Store.Dir == "" {
		return Answer{}
	}
	all, spoilt, err := p.Store.FindAll(info)
	a := Answer{Spoilt: spoilt, Trouble: err}
	if len(all) == 0 {
		return a
	}
	a.How, a.File, a.Path = Exact, all[0].File, all[0].Path
	if all[0].Match != radio.Exact {
		a.How, a.Alike = Alike, all
	}
	return a
}

// Own makes the file of a radio of the same kind this very radio's. Once that is kept nobody needs to ask again; the other
// radio's file stays as it is.
func Own(c radio.Candidate, info input.Info) radio.File {
	file := c.File
	file.Device = radio.DeviceOf(info)
	return file
}
