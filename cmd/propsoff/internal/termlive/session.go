package termlive

import (
	"cmp"
	"context"
	"errors"
	"time"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/exit"
	"propsoff/cmd/propsoff/internal/live"
	"propsoff/cmd/propsoff/internal/live/whichradio"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/terminal"
	"propsoff/cmd/propsoff/internal/world"
	"propsoff/input"
	"propsoff/input/radio"
	"propsoff/input/usb"
)

// LookEvery is how often a session looks for news by itself, should a wake have been missed.
const LookEvery = time.Second

// session opens the radio that the policy names, keeps it through unplugging and plugging in, and gives it to a loop: as
// channels where it has been learned, else as raw states to onRaw. Its methods belong to the goroutine of run; the functions
// that it calls may be called from there and, for reopening and tap, from the loop's.
type session struct {
	world   *world.World
	watcher world.Watcher
	craft   *world.Craft
	policy  whichradio.Policy
	// filePath is where the file of --radio lies, if one was given.
	filePath string
	// epoch is when the times of all states begin, on the world's clock.
	epoch   int64
	rawOnly bool

	use    func(...live.Player) error
	notice func(words.Text)
	reads  func(source string, raw *terminal.Radio)
	onRaw  func(*input.Info, *input.Raw)
	// mode, where given, is told the stick mode of each radio file that is read, filed the file and its radio.
	mode  func(int)
	filed func(*radio.File, *input.Info)
	// tap, where given, is radio.Config.Tap of every learned radio.
	tap func(raw *input.Raw, gone bool)

	radio  whichradio.Follower
	source *radio.Source // of a learned radio
	raw    input.Device  // of one that is not
	states []input.Raw
	said   once // since a radio was opened: nothing is said over and over
}

// run follows the radios until ctx is done. The error is one in the file of --radio.
func (s *session) run(ctx context.Context) error {
	defer func() {
		if s.raw != nil {
			_ = s.raw.Close()
		}
	}()
	if err := s.settle(); err != nil {
		return err
	}
	s.watcher.Poll(nil) // they are those that were there from the beginning
	tick := time.NewTicker(LookEvery)
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
			if err := s.settle(); err != nil { // one that could not be opened before
				return err
			}
		case <-s.watcher.Wake():
			if err := s.changed(s.watcher.Poll(nil)); err != nil {
				return err
			}
		}
	}
}

func (s *session) say(t words.Text) {
	if s.said.new(t) {
		s.notice(t)
	}
}

// changed takes note of what came and went.
func (s *session) changed(changes []usb.Change) error {
	for _, c := range changes {
		s.radio.Hear(&c)
		if c.Kind == usb.OtherArrived {
			s.say(OtherMode(c.Notice))
		}
	}
	return s.settle()
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

// settle makes sure that the right radio is read.
func (s *session) settle() error {
	found := s.watcher.Found()
	a := s.radio.Look(found, s.policy.Choose)
	if a.Went {
		s.say(tell.Unplugged(s.radio.Radio().Name))
	}
	switch {
	case a.Err != nil:
		s.say(tell.NoSuchRadio(s.policy.Wanted))
	case a.Step == whichradio.Take:
		if s.policy.Wanted == "" && len(found) > 1 {
			s.say(tell.Another(a.Radio.Name, len(found)))
		}
		return s.open(a.Radio)
	case a.Step == whichradio.Reopen && s.source == nil, a.Step == whichradio.Reread:
		return s.open(a.Radio)
	case s.source != nil:
		s.source.Arrived() // it opens its radio again by itself, and takes no notice where that is open
	case s.radio.Any():
	case s.policy.Wanted != "":
		s.say(tell.NoSuchRadio(s.policy.Wanted))
	default:
		s.say(words.T("notice.no-radio"))
	}
	return nil
}

// open begins to read f.
func (s *session) open(f usb.Found) error {
	d, err := s.world.Radios.Open(f.Path, s.epoch)
	if err != nil {
		s.say(words.Error(whyShut(f, err)))
		return nil
	}
	s.drop()
	info := d.Info()
	clear(s.said)
	s.radio.Reads(f)
	s.say(tell.Found(info.Name, info.Way))
	if info.Blunted {
		s.say(tell.BluntedCentre(info.Name))
	}
	s.reads(info.Name, nil)
	file, err := s.learned(&info)
	if err != nil {
		return errors.Join(err, d.Close())
	}
	if s.rawOnly || file == nil {
		if !s.rawOnly {
			s.say(tell.NotLearned(info.Name))
		}
		s.raw = d
		return s.use()
	}
	source, err := radio.NewSource(radio.Config{Device: d, File: *file, Names: s.craft.Words, Reopen: s.reopens(f), Tap: s.tap})
	if err != nil { // a stored file that does not fit the device any more
		s.say(words.Error(err))
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
	return s.use(live.Player{Source: source, Opened: s.epoch, By: input.ByRadio})
}

// learned gives the radio file for a device, nil where there is none, and says what there is to say about it.
func (s *session) learned(info *input.Info) (*radio.File, error) {
	a := s.policy.FileFor(*info)
	if a.Trouble != nil {
		s.say(words.Error(a.Trouble))
	}
	for _, e := range a.Spoilt {
		s.say(words.Error(e))
	}
	switch a.How {
	case whichradio.Unknown:
		return nil, nil
	case whichradio.Alike:
		s.say(tell.ReadAlike(info.Name, a.Path, len(a.Alike)))
	case whichradio.Given:
		if a.Other {
			s.say(tell.OfAnother(info.Name, a.File.Device.Name))
		}
		f, err := radio.Load(s.filePath, radio.Known{Info: info, Names: &s.craft.Words})
		if err != nil {
			return nil, exit.BadInput(err)
		}
		return &f, nil
	}
	return &a.File, nil
}

// reopens makes the function by which a source opens f again. It runs in the loop's goroutine.
func (s *session) reopens(f usb.Found) func() (input.Device, error) {
	return whichradio.Reopens(whichradio.DeviceOf(f), s.watcher.Found, func(path string) (input.Device, error) { return s.world.Radios.Open(path, s.epoch) })
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
		if s.radio.Lost() {
			s.say(tell.Unplugged(info.Name))
		}
		s.drop()
	}
}

// OtherMode is the notice about a USB device that may be a radio in another USB mode.
func OtherMode(n usb.Notice) words.Text {
	return tell.OtherUSBMode(cmp.Or(n.Name, n.Maker), n.Port, !n.SerialPort)
}
