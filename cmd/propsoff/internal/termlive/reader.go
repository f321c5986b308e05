package termlive

import (
	"errors"
	"io/fs"

	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/live/whichradio"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/input/usb"
)

// reader opens the radio that is wanted and reads what it says, as it says it. It belongs to one goroutine.
type reader struct {
	world   *world.World
	watcher world.Watcher
	policy  whichradio.Policy
	epoch   int64 // when the times of all states begin, on the world's clock
	radio   whichradio.Follower
	device  input.Device // nil while none is read here
	info    input.Info   // of the one that was opened last
	states  []input.Raw
}

// newReader begins to watch for radios. wanted is the radio, by name, number or path, empty for the best known; file, where given, is the
// radio file to be used.
func newReader(w *world.World, wanted string, file *radio.File) (*reader, error) {
	watcher, err := w.Radios.Watch()
	if err != nil {
		return nil, exit.Trouble(err)
	}
	return &reader{world: w, watcher: watcher, policy: whichradio.Policy{Wanted: wanted, File: file, Store: w.Store}, epoch: w.Now()}, nil
}

// open begins to read a radio in the place of the one that is read.
func (r *reader) open(f usb.Found) error {
	d, err := r.world.Radios.Open(f.Path, r.epoch)
	switch {
	case err != nil && (errors.Is(err, fs.ErrPermission) || f.Way == ""):
		return tell.NotOpened(f.Name).Problem()
	case err != nil:
		return err
	}
	r.shut()
	r.device, r.info = d, d.Info()
	r.radio.Reads(f)
	return nil
}

// shut gives up the radio that is read.
func (r *reader) shut() {
	if r.device != nil {
		_ = r.device.Close()
	}
	r.device = nil
}

// close ends it all.
func (r *reader) close() {
	r.shut()
	_ = r.watcher.Close()
}

// wake gives something when the radio has said something; nil while none is read.
func (r *reader) wake() <-chan struct{} {
	if r.device == nil {
		return nil
	}
	return r.device.Wake()
}

// read hands on what the radio has said since the last time. The error is why it says no more, after which it is shut.
func (r *reader) read(each func(*input.Raw)) error {
	var err error
	r.states, err = r.device.Poll(r.states[:0])
	for i := range r.states {
		each(&r.states[i])
	}
	if err != nil {
		r.shut()
	}
	return err
}
