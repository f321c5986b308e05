package termlive

import (
	"cmp"
	"context"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/live/whichradio"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/input/usb"
)

// LookEvery is how often a session looks for news by itself, should a wake have been missed.
const LookEvery = time.Second

// session opens the radio that the policy names, keeps it through unplugging and plugging in, and gives it to a loop: as
// channels where it has been learned, else as raw states to onRaw. Its methods belong to the goroutine of run; the functions
// that it calls may be called from there and, for reopening, from the loop's.
type session struct {
	*reader
	craft *world.Craft
	// filePath is where the file of --radio lies, if one was given.
	filePath string
	rawOnly  bool

	use    func(...live.Player) error
	notice func(words.Text)
	reads  func(source string, raw *terminal.Radio)
	onRaw  func(*input.Info, *input.Raw)
	// mode is told the stick mode of each radio file that is read; filed, where given, the file and its radio.
	mode  func(int)
	filed func(*radio.File, *input.Info)
	// waits says, where given, how what waits for a radio is left; looked is told how many radios were there at the beginning.
	waits  words.Text
	looked func(found int)

	source *radio.Source // of a learned radio; one that is not is read here
	said   once          // since a radio was opened: nothing is said over and over
}

// begin begins a session for a practice on a craft, with the radio file that was named, nil for the stored one, and the take that was asked for.
// The options are those of the loop that it is to feed.
func begin(w *world.World, named *world.Named, device string, c *world.Craft, file *radio.File, note string) (*session, *live.Options, error) {
	r, err := newReader(w, device, file)
	if err != nil {
		return nil, nil, err
	}
	papers := c.Papers()
	rec, err := w.BeginTake(named.Record, papers.WithRadio(file, nil), &live.Start{Craft: c.Config(), Note: note})
	if err != nil {
		r.close()
		return nil, nil, err
	}
	lo := &live.Options{Craft: c.Config(), Clock: live.RealClock(w.Now)}
	if rec != nil {
		lo.Take, lo.Begun = rec, true
	}
	return &session{reader: r, craft: c, filePath: named.Radio, filed: world.NoteRadio(rec, papers)}, lo, nil
}

// run follows the radios until ctx is done. The error is one in the file of --radio.
func (s *session) run(ctx context.Context) error {
	defer s.shut()
	if err := s.settle(); err != nil {
		return err
	}
	s.watcher.Poll(nil) // they are those that were there from the beginning
	if s.looked != nil {
		s.looked(len(s.watcher.Found()))
	}
	tick := time.NewTicker(LookEvery)
	defer tick.Stop()
	for {
		s.readRaw()
		select {
		case <-ctx.Done():
			return nil
		case <-s.wake():
		case <-tick.C:
			if s.device != nil || s.source != nil {
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

// settle makes sure that the right radio is read.
func (s *session) settle() error {
	found := s.watcher.Found()
	a := s.radio.Look(found, s.policy.Choose)
	if a.Went {
		s.say(tell.Unplugged(s.radio.Radio().Name))
	}
	switch {
	case a.Err != nil:
		s.sayWaits(tell.NoSuchRadio(s.policy.Wanted))
	case a.Step == whichradio.Take:
		if s.policy.Wanted == "" && len(found) > 1 {
			s.say(tell.Another(a.Radio.Name, len(found)))
		}
		return s.take(a.Radio)
	case a.Step == whichradio.Reopen && s.source == nil, a.Step == whichradio.Reread:
		return s.take(a.Radio)
	case s.source != nil:
		s.source.Arrived() // it opens its radio again by itself, and takes no notice where that is open
	case s.radio.Any():
	case s.policy.Wanted != "":
		s.sayWaits(tell.NoSuchRadio(s.policy.Wanted))
	default:
		s.sayWaits(words.T("notice.no-radio"))
	}
	return nil
}

// sayWaits says that no radio is read, and how to leave what waits for one.
func (s *session) sayWaits(t words.Text) {
	s.say(t)
	if !s.waits.Empty() {
		s.say(s.waits)
	}
}

// take begins to read f.
func (s *session) take(f usb.Found) error {
	if err := s.open(f); err != nil {
		s.say(words.Error(err))
		return nil
	}
	s.source = nil
	info := s.info
	clear(s.said)
	s.say(tell.Found(info.Name, info.Way))
	if info.Blunted {
		s.say(tell.BluntedCentre(info.Name))
	}
	s.reads(info.Name, nil)
	file, err := s.learned(&info)
	if err != nil {
		return err
	}
	if file == nil && !s.rawOnly {
		s.say(tell.NotLearned(info.Name))
	}
	if s.rawOnly || file == nil {
		return s.use()
	}
	source, err := radio.NewSource(radio.Config{Device: s.device, File: *file, Names: s.craft.Words, Reopen: s.reopens(f)})
	if err != nil { // a stored file that does not fit the device any more
		s.say(words.Error(err))
		return s.use()
	}
	s.source, s.device = source, nil // the source reads it from here on
	if s.filed != nil {
		s.filed(file, &info)
	}
	if file.StickMode != 0 {
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
			s.say(words.T("notice.of-another", words.Args{"name": words.Quote(info.Name), "other": words.Quote(a.File.Device.Name)}))
		}
		f, err := radio.Load(s.filePath, radio.Known{Info: info, Names: &s.craft.Words})
		if err != nil {
			return nil, exit.BadInput(err)
		}
		if f.Given {
			s.say(tell.NotTried(info.Name, words.Text{}, false))
		}
		return &f, nil
	}
	if a.File.Given {
		s.say(tell.NotTried(info.Name, words.Text{}, true))
	}
	return &a.File, nil
}

// reopens makes the function by which a source opens f again. It runs in the loop's goroutine.
func (s *session) reopens(f usb.Found) func() (input.Device, error) {
	return whichradio.Reopens(whichradio.DeviceOf(f), s.watcher.Found, func(path string) (input.Device, error) { return s.world.Radios.Open(path, s.epoch) })
}

// readRaw hands on what a radio that has not been learned has reported.
func (s *session) readRaw() {
	if s.device == nil {
		return
	}
	if s.read(func(raw *input.Raw) { s.onRaw(&s.info, raw) }) != nil && s.radio.Lost() {
		s.say(tell.Unplugged(s.info.Name))
	}
}

// OtherMode is the notice about a USB device that may be a radio in another USB mode.
func OtherMode(n usb.Notice) words.Text {
	return tell.OtherUSBMode(cmp.Or(n.Name, n.Maker), n.Port, !n.SerialPort)
}
