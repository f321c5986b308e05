package radio

import (
	"errors"
	"sync/atomic"

	"propsoff.example/assets/words"
	"propsoff.example/input"
	"propsoff.example/sim/pulse"
)

// retryAfter is how long a radio that is out is not asked for again, in µs (ours).
const retryAfter = 500_000

// Config says what a Source is made of.
type Config struct {
	// Device is the one that is open now. Nil where no radio is plugged in yet: then Reopen must be given.
	Device input.Device
	File   File
	Names  input.Names
	// Opened is the time at which the source counts 0 µs, on the clock of the device's stamps.
	Opened int64
	// First is the state last read from Device by somebody else (learning), nil where nobody did: a device gives its
	// first state once only, and a still hand sends no other.
	First *input.Raw
	// Reopen opens the radio again after it was pulled out; it must not block. A nil device with a nil error means
	// "not yet". Its stamps are on the same clock. Nil: the source ends when the radio is gone.
	Reopen func() (input.Device, error)
	// Tap, where given, is shown every raw state as it is taken, and once, with gone true and nothing but the time, when the
	// radio was pulled out. It is called by whoever polls, must not block and must not keep raw.
	Tap func(raw *input.Raw, gone bool)
}

// Source is a radio that has been learned, as an input.Source. It takes no goroutine of its own: the device reads apart,
// and Poll turns what has come in into readings.
//
// It begins with a Plug reading at 0 µs (1, or 0 where no radio is there yet) and gives one Controls reading for each raw
// state that changes the frame; a radio that is pulled out gives Plug 0, one that comes back Plug 1 and its fresh state.
type Source struct {
	cfg     Config
	device  input.Device
	mapper  *Mapper
	raws    []input.Raw     // from the device, used again
	queue   []pulse.Reading // made and not yet handed out, from head on
	head    int
	frame   pulse.Frame
	fresh   bool  // the next state is handed out even if the frame is the same
	late    int64 // stamp of the newest reading made: time never runs backwards
	retryAt int64
	arrived atomic.Bool
	arrival chan struct{}
	trouble error
	end     error // why it ends, once the queue is empty
	closed  bool
}

// NewSource makes a source of cfg. The error lists what in the file does not fit the device (as NewMapper).
func NewSource(cfg Config) (*Source, error) {
	if cfg.Device == nil && cfg.Reopen == nil {
		return nil, words.Wrong("radio.needs-device")
	}
	s := &Source{cfg: cfg, arrival: make(chan struct{}, 1)}
	if cfg.Device == nil {
		s.push(pulse.Reading{Kind: pulse.Plug, Value: 0})
		return s, nil
	}
	m, err := NewMapper(cfg.File, cfg.Device.Info(), cfg.Names)
	if err != nil {
		return nil, err
	}
	s.device, s.mapper, s.fresh = cfg.Device, m, true
	s.push(pulse.Reading{Kind: pulse.Plug, Value: 1})
	if cfg.First != nil {
		s.take(cfg.First)
	}
	return s, nil
}

// Name is the radio's name as its file or the device gives it.
func (s *Source) Name() string {
	if s.cfg.File.Device.Name != "" {
		return s.cfg.File.Device.Name
	}
	if s.device != nil && s.device.Info().Name != "" {
		return s.device.Info().Name
	}
	return "radio"
}

// Wake carries a value when Poll may have something new. The channel changes when the radio is pulled out or comes back,
// so ask for it before each wait.
func (s *Source) Wake() <-chan struct{} {
	if s.device == nil {
		return s.arrival
	}
	return s.device.Wake()
}

// Arrived tells the source that a device was plugged in, so that the next Poll tries Reopen at once. It may be called
// from any goroutine.
func (s *Source) Arrived() {
	s.arrived.Store(true)
	select {
	case s.arrival <- struct{}{}:
	default:
	}
}

// Trouble is why the radio was lost or could not be opened again, nil while it is plugged in.
func (s *Source) Trouble() error { return s.trouble }

// Device is the device that is open now, nil while the radio is out.
func (s *Source) Device() input.Device { return s.device }

// Poll is input.Source's. A Source that cannot open its radio again ends, after the Plug 0 reading, with an error that
// wraps what the device said (input.ErrGone); a closed one ends with input.ErrEnd.
func (s *Source) Poll(dst []pulse.Reading, until int64) ([]pulse.Reading, error) {
	if s.closed {
		return dst, input.ErrEnd
	}
	if s.device == nil && s.end == nil {
		s.reopen(until)
	}
	if s.device != nil {
		s.read(until)
	}
	for s.head < len(s.queue) && s.queue[s.head].At <= until {
		dst = append(dst, s.queue[s.head])
		s.head++
	}
	if s.head < len(s.queue) {
		return dst, nil
	}
	s.queue, s.head = s.queue[:0], 0
	return dst, s.end
}

// read takes everything that the device has.
func (s *Source) read(until int64) {
	var err error
	s.raws, err = s.device.Poll(s.raws[:0])
	for i := range s.raws {
		s.take(&s.raws[i])
	}
	if err != nil {
		s.lost(err, until)
	}
}

// take makes readings of one raw state.
func (s *Source) take(raw *input.Raw) {
	at := raw.At - s.cfg.Opened
	if s.cfg.Tap != nil {
		s.cfg.Tap(raw, false)
	}
	if raw.Resync {
		s.push(pulse.Reading{At: at, Kind: pulse.Gap})
		s.fresh = true
	}
	var frame pulse.Frame
	s.mapper.Map(raw, &frame)
	if frame == s.frame && !s.fresh {
		return
	}
	s.frame, s.fresh = frame, false
	s.push(pulse.Reading{At: at, Kind: pulse.Controls, Frame: frame})
}

// push stamps r and puts it in the queue. Stamps before the opening count as 0, and one that runs backwards as the one
// before it: readings are in order of time, whatever a device's clock does.
func (s *Source) push(r pulse.Reading) {
	r.At = max(r.At, s.late)
	s.late = r.At
	if s.head > 0 && s.head == len(s.queue) {
		s.queue, s.head = s.queue[:0], 0
	}
	s.queue = append(s.queue, r)
}

// goneAt is what an error may know of the time at which the device vanished, on the clock of its stamps.
type goneAt interface{ GoneAt() int64 }

// lost notes that the device is gone: when, by its own error where that knows, else now.
func (s *Source) lost(err error, until int64) {
	at := until
	var when goneAt
	if errors.As(err, &when) {
		at = when.GoneAt() - s.cfg.Opened
	}
	s.push(pulse.Reading{At: at, Kind: pulse.Plug, Value: 0})
	if s.cfg.Tap != nil {
		s.cfg.Tap(&input.Raw{At: at + s.cfg.Opened}, true)
	}
	_ = s.device.Close() // what a vanished device says on closing is no news
	s.device, s.trouble = nil, err
	s.retryAt = s.late + retryAfter
	if s.cfg.Reopen == nil {
		s.end = words.Within(s.Name(), err)
	}
}

// reopen tries to open the radio again, at once after Arrived and else twice a second.
func (s *Source) reopen(until int64) {
	if !s.arrived.Swap(false) && until < s.retryAt {
		return
	}
	s.retryAt = until + retryAfter
	d, err := s.cfg.Reopen()
	if err != nil {
		s.trouble = err
		return
	}
	if d == nil {
		return
	}
	m, err := NewMapper(s.cfg.File, d.Info(), s.cfg.Names)
	if err != nil {
		// Another device under the old name: leave it alone and go on waiting.
		s.trouble = errors.Join(err, d.Close())
		return
	}
	s.device, s.mapper, s.fresh, s.trouble = d, m, true, nil
	s.raws, err = d.Poll(s.raws[:0])
	at := until
	if len(s.raws) > 0 {
		at = min(at, s.raws[0].At-s.cfg.Opened)
	}
	s.push(pulse.Reading{At: at, Kind: pulse.Plug, Value: 1})
	for i := range s.raws {
		s.take(&s.raws[i])
	}
	if err != nil {
		s.lost(err, until)
	}
}

// Close closes the device. A second call does nothing.
func (s *Source) Close() error {
	if s.closed {
		return nil
	}
	s.closed = true
	if s.device == nil {
		return nil
	}
	d := s.device
	s.device = nil
	return d.Close()
}

var _ input.Source = (*Source)(nil)
