package main

import (
	"context"
	"errors"
	"io/fs"
	"time"

	"propsoff/cmd/propsoff/internal/follow"
	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/terminal"
	"propsoff/input"
	"propsoff/input/radio"
	"propsoff/input/usb"
)

// lookEvery is how often a session looks for news by itself, should a wake have been missed.
const lookEvery = time.Second

// session opens the radio that the policy names, keeps it through unplugging and plugging in, and gives it to a loop: as
// channels where it has been learned, else as raw states to onRaw. Its methods belong to the goroutine of run; the functions
// that it calls may be called from there and, for reopening and tap, from the loop's.
type session struct {
	world   *world
	watcher portWatcher
	craft   *craft
	policy  follow.Policy
	// filePath is where the file of --radio lies, if one was given.
	filePath string
	// epoch is when the times of all states begin, on the world's clock.
	epoch   int64
	rawOnly bool

	use    func(...loop.Player) error
	notice func(text string)
	reads  func(source string, raw *terminal.Radio)
	onRaw  func(*input.Info, *input.Raw)
	// mode, where given, is told the stick mode of each radio file that is read, filed the file and its radio.
	mode  func(int)
	filed func(*radio.File, *input.Info)
	// tap, where given, is radio.Config.Tap of every learned radio.
	tap func(raw *input.Raw, gone bool)

	follows bool          // a radio is read or waited for
	found   usb.Found     // it, as it was found
	source  *radio.Source // of a learned radio
	raw     input.Device  // of one that is not
	states  []input.Raw
	said    map[string]bool // since a radio was opened: nothing is said over and over
}

// run follows the radios until ctx is done. The error is one in the file of --radio.
func (s *session) run(ctx context.Context) error {
	defer func() {
		if s.raw != nil {
			_ = s.raw.Close()
		}
	}()
	if err := s.settle(true); err != nil {
		return err
	}
	s.watcher.Poll(nil) // they are those that were there from the beginning
	tick := time.NewTicker(lookEvery)
	defer tick.Stop()
	for {
		var states <-chan struct{}
		if s.raw != nil {
			s.readRaw()
		}
		if s.raw != nil {
			states = s.raw.Wake()
		}
		select {
		case <-ctx.Done():
			return nil
		case <-states:
		case <-tick.C:
			if s.reading() {
				continue
			}
			if err := s.settle(false); err != nil { // one that could not be opened before
				return err
			}
		case <-s.watcher.Wake():
			if err := s.changed(s.watcher.Poll(nil)); err != nil {
				return err
			}
		}
	}
}

func (s *session) say(text string) {
	if s.said[text] {
		return
	}
	if s.said == nil {
		s.said = map[string]bool{}
	}
	s.said[text] = true
	s.notice(text)
}

// changed takes note of what came and went.
func (s *session) changed(changes []usb.Change) error {
	arrived := false
	for _, c := range changes {
		switch c.Kind {
		case usb.Arrived:
			arrived = true
		case usb.OtherArrived:
			s.say(otherMode(c.Notice))
		case usb.Departed:
			if s.reading() && sameRadio(c.Radio, s.found) {
				s.say(phrase.Unplugged(c.Radio.Name))
			}
		case usb.Altered:
			arrived = true
			if s.reading() && sameRadio(c.Radio, s.found) && c.Radio.Way != s.found.Way && c.Radio.Way != "" {
				s.drop() // it can be read in another way now: open it afresh
			}
		}
	}
	return s.settle(arrived)
}

// reading reports whether a radio is read, or waited for by its source.
func (s *session) reading() bool { return s.raw != nil || s.source != nil }

// drop gives up the radio that is read; it is opened again when it is found.
func (s *session) drop() {
	if s.raw != nil {
		_ = s.raw.Close()
	}
	s.raw, s.source = nil, nil
}

// settle makes sure that the right radio is read. arrived tells that one came.
func (s *session) settle(arrived bool) error {
	found := s.watcher.Found()
	step, f, err := s.policy.Next(follow.Reading{Any: s.follows, Radio: s.found, Open: s.reading()}, found, arrived)
	switch {
	case err != nil:
		s.say(phrase.NoSuchRadio(s.policy.Wanted))
		return nil
	case step == follow.Take:
		if s.policy.Wanted == "" && len(found) > 1 {
			s.say(phrase.Another(f.Name, len(found)))
		}
		return s.open(f)
	case s.source != nil:
		s.source.Arrived() // it opens its radio again by itself, and takes no notice where that is open
	case step == follow.Reopen:
		return s.open(f)
	case s.follows:
	case s.policy.Wanted != "":
		s.say(phrase.NoSuchRadio(s.policy.Wanted))
	default:
		s.say(phrase.NoRadio())
	}
	return nil
}

// open begins to read f.
func (s *session) open(f usb.Found) error {
	d, err := s.world.radios.Open(f.Path, s.epoch)
	if err != nil {
		if errors.Is(err, fs.ErrPermission) || f.Way == "" {
			s.say(phrase.NotOpened(f.Name))
		} else {
			s.say(err.Error())
		}
		return nil
	}
	s.drop()
	info := d.Info()
	clear(s.said)
	s.found, s.follows = f, true
	s.say(phrase.Found(info.Name, info.Way))
	if info.Blunted {
		s.say(phrase.BluntedCentre(info.Name))
	}
	s.reads(info.Name, nil)
	file, err := s.learned(&info)
	if err != nil {
		return errors.Join(err, d.Close())
	}
	if s.rawOnly || file == nil {
		if !s.rawOnly {
			s.say(phrase.NotLearned(info.Name))
		}
		s.raw = d
		return s.use()
	}
	source, err := radio.NewSource(radio.Config{Device: d, File: *file, Names: s.craft.names, Reopen: s.reopen(follow.DeviceOf(f)), Tap: s.tap})
	if err != nil { // a stored file that does not fit the device any more
		s.say(err.Error())
		s.raw = d
		return s.use()
	}
	s.source = source
	if s.filed != nil {
		s.filed(file, &info)
	}
	if s.mode != nil && file.StickMode != 0 {
		s.mode(file.StickMode)
	}
	return s.use(loop.Player{Source: source, Opened: s.epoch, By: input.ByRadio})
}

// learned gives the radio file for a device, nil where there is none, and says what there is to say about it.
func (s *session) learned(info *input.Info) (*radio.File, error) {
	a := s.policy.FileFor(*info)
	if a.Trouble != nil {
		s.say(a.Trouble.Error())
	}
	for _, e := range a.Spoilt {
		s.say(e.Error())
	}
	switch a.How {
	case follow.Unknown:
		return nil, nil
	case follow.Alike:
		s.say(phrase.ReadAlike(info.Name, a.Path, len(a.Alike)))
	case follow.Given:
		if a.Other {
			s.say(phrase.OfAnother(info.Name, a.File.Device.Name))
		}
		f, err := radio.Load(s.filePath, radio.Known{Info: info, Names: &s.craft.names})
		if err != nil {
			return nil, badInput(err)
		}
		return &f, nil
	}
	return &a.File, nil
}

// reopen makes the function by which a source opens its radio again. It runs in the loop's goroutine.
func (s *session) reopen(was radio.Device) func() (input.Device, error) {
	return func() (input.Device, error) {
		f, ok := follow.Again(was, s.watcher.Found())
		if !ok {
			return nil, nil
		}
		return s.world.radios.Open(f.Path, s.epoch)
	}
}

// readRaw hands on what a radio that has not been learned has reported.
func (s *session) readRaw() {
	var err error
	s.states, err = s.raw.Poll(s.states[:0])
	info := s.raw.Info()
	for i := range s.states {
		s.onRaw(&info, &s.states[i])
	}
	if err != nil {
		s.say(phrase.Unplugged(info.Name))
		s.drop()
	}
}

func sameRadio(a, b usb.Found) bool {
	return a.Path == b.Path && follow.DeviceOf(a) == follow.DeviceOf(b)
}
