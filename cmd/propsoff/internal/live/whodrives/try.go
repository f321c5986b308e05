package whodrives

import (
	"slices"

	"propsoff.example/cmd/propsoff/internal/live/whichradio"
	"propsoff.example/input"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
)

// byFile drives an open device by its file. One that came from elsewhere is tried first, unless a person would not.
func (d *Driver) byFile(dev input.Device, epoch int64, file radio.File) bool {
	if file.Given && !slices.Contains(d.left, whichradio.DeviceOf(d.radio.Radio())) {
		if _, err := radio.NewMapper(file, dev.Info(), d.o.Names); err == nil { // else it fits this radio not at all, which drive says
			d.questions(dev, epoch, learn.Try(dev.Info(), file))
			return true
		}
	}
	return d.drive(dev, epoch, file, nil)
}

// untried has the radio that is followed drive by a file that was not tried to its end.
func (d *Driver) untried() {
	if was := whichradio.DeviceOf(d.radio.Radio()); !slices.Contains(d.left, was) {
		d.left = append(d.left, was)
	}
}

// LookAgain looks for the file of a radio that is being learned, or asked about, once more: one was kept meanwhile that may be its.
func (d *Driver) LookAgain() {
	d.looked = false
	now := d.files()
	news := slices.ContainsFunc(now, func(path string) bool { return !slices.Contains(d.known, path) })
	d.known = now
	if !news || d.trying() || d.who != Questions && d.who != Which {
		return
	}
	if a := d.policy.FileFor(d.info); a.How == whichradio.Exact || a.How == whichradio.Alike {
		if d.device != nil { // a browser or a system may open it but once
			_ = d.device.Close()
			d.device = nil
		}
		d.take(d.radio.Radio())
	}
}

// files are the paths of the radio files that may be read for the radio that everything is about.
func (d *Driver) files() (paths []string) {
	if d.o.Store.Dir == "" {
		return nil
	}
	all, _, _ := d.o.Store.FindAll(d.info)
	for i := range all {
		paths = append(paths, all[i].Path)
	}
	return paths
}

// trying tells whether a radio file is tried now.
func (d *Driver) trying() bool { return d.who == Questions && d.learner != nil && d.learner.Tries() }
