package whichradio

import (
	"slices"

	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/input/usb"
)

// Policy is what a person asked for, and where radio files are.
type Policy struct {
	// Wanted is the radio of --device, by name, number or path; empty leaves it to the files.
	Wanted string
	// Likes tells the radio that was chosen at an earlier start: of several that are known equally well it is read; nil for none.
	Likes func(radio.Device) bool
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
		m := p.known(f)
		liked := m == rank && p.Likes != nil && p.Likes(DeviceOf(f)) && !p.Likes(DeviceOf(found[best]))
		if m > rank || liked || found[best].Way == "" && f.Way != "" {
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
