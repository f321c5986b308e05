// Package pair makes one source of a pupil's radio and an instructor's, who can take the sticks and disarm.
//
// While a chosen switch on the instructor's radio stands in its span his sticks replace the pupil's. Each hand-over is a reading of
// the kind Instructor (pulse.DeedHands, 1 the instructor has them, 0 the pupil has them again) at the moment of the switch, before
// the controls that follow from it.
//
// Whoever has the sticks, either of the two disarms, and arming takes both: the arm channel that comes out is the pupil's while the
// instructor's arm switch stands in the arm span, and off while it stands outside. After that the pupil's switch must be seen off
// before it counts again, so no movement of the instructor's ever arms. An instructor's radio without a pulse on the arm channel
// takes no part in arming. While the arm channel is held off though the pupil's switch is on, that is told too (pulse.DeedArmOff), for
// it is not the pupil's doing. A craft armed by sticks has no arm channel (Config.Arm −1): there the instructor disarms by taking the
// sticks and holding the corner.
//
// What the craft hears is the radio of whoever has the sticks: its plug and its transmitter are told, those of the other are not.
// So an instructor who has the sticks flies on when the pupil's plug falls out.
//
// An instructor's radio that is pulled out or switched off takes no part any more: the pupil arms alone. If that happens while the
// instructor has the sticks, the pupil gets them back with the arm channel held off until his own switch was seen off: the motors
// stop. Nobody is handed a flying craft that he does not expect, and one that drops lies near where it was (ours). An instructor's
// radio that comes back takes part at once, but its switch takes the sticks only when it was seen off since.
package pair

import (
	"errors"
	"sync"

	"propsoff.example/assets/words"
	"propsoff.example/input"
	"propsoff.example/sim/pulse"
)

// Span is a range of widths: its low end is inside, its high end is not, but for the highest width of all.
type Span struct{ Low, High pulse.Width }

func (s Span) holds(w pulse.Width) bool {
	return w.Valid() && w >= s.Low && (w < s.High || w == pulse.Highest && s.High == pulse.Highest)
}

// outside is a width that a switch can have and that lies outside s; ok is false where there is none.
func (s Span) outside() (w pulse.Width, ok bool) {
	for _, w := range [...]pulse.Width{pulse.Low, pulse.High, pulse.Centre} {
		if !s.holds(w) {
			return w, true
		}
	}
	return 0, false
}

// Config says what on the two radios does what. Channels count from 0; both radios send on the craft's channels.
type Config struct {
	// Switch is the channel of the instructor's radio that takes the sticks while it stands in SwitchSpan.
	Switch     int8
	SwitchSpan Span
	// Sticks has the bit of every channel set that changes hands: throttle, roll, pitch and yaw, and best the mode too, so that
	// the instructor flies in the mode that his own switch says. The arm channel never does.
	Sticks uint16
	// Arm is the arm channel, −1 where the craft is armed by sticks; ArmSpan is where it is on.
	Arm     int8
	ArmSpan Span
	// Later is how much later the instructor's source was opened than the pupil's, in µs: it is added to its stamps.
	Later int64
}

// check gives what is wrong with c.
func (c *Config) check() error {
	var wrong []error
	say := func(id words.ID, args ...words.Args) { wrong = append(wrong, words.Wrong(id, args...)) }
	channel := func(outside words.ID, n int8) {
		if n < 0 || n >= pulse.Channels {
			say(outside, words.Args{"channel": words.Whole(n + 1), "most": words.Whole(pulse.Channels)})
		}
	}
	channel("pair.switch-channel", c.Switch)
	if c.SwitchSpan.Low >= c.SwitchSpan.High {
		say("pair.switch-span")
	}
	if c.Arm >= 0 {
		channel("pair.arm-channel", c.Arm)
		if _, ok := c.ArmSpan.outside(); !ok || c.ArmSpan.Low >= c.ArmSpan.High {
			say("pair.arm-span")
		}
		if c.Arm == c.Switch {
			say("pair.same-channel", words.Args{"channel": words.Whole(c.Arm + 1)})
		}
	}
	if c.Sticks == 0 {
		say("pair.no-sticks")
	}
	return errors.Join(wrong...)
}

// side is one of the two radios.
type side struct {
	source input.Source
	later  int64
	next   []pulse.Reading // read and not yet taken, from head on
	head   int
	last   int64 // stamp of the newest reading
	err    error // why it ended
	Side
}

// read takes what the source has up to until, in µs.
func (s *side) read(until int64) {
	if s.err != nil {
		return
	}
	s.next, s.head = s.next[:0], 0
	s.next, s.err = s.source.Poll(s.next, until-s.later)
	for i := range s.next {
		s.next[i].At = max(s.next[i].At+s.later, s.last)
		s.last = s.next[i].At
	}
}

func (s *side) waits() bool { return s.head < len(s.next) }

// Source is both radios as one. Taken and Close may be called from any goroutine, the rest by one at a time.
type Source struct {
	cfg Config

	mu         sync.Mutex
	pupil, his side // his is the instructor's
	held       Held
	sent       bool // frame was given
	frame      pulse.Frame
	plug, link Known // as last given
	end        error
	closed     bool
}

// New makes one source of two, which belong to it from then on. The error lists everything that is wrong with cfg.
func New(pupil, instructor input.Source, cfg Config) (*Source, error) {
	if pupil == nil || instructor == nil {
		return nil, words.Wrong("pair.two-radios")
	}
	if err := cfg.check(); err != nil {
		return nil, err
	}
	s := &Source{cfg: cfg, pupil: side{source: pupil}, his: side{source: instructor, later: cfg.Later}}
	if cfg.Arm >= 0 {
		s.cfg.Sticks &^= 1 << cfg.Arm
	}
	return s, nil
}

// Name is input.Source's.
func (s *Source) Name() string { return s.pupil.source.Name() + " + " + s.his.source.Name() }

// Wake is the pupil's; what the instructor's radio has is found at the next Poll. Nil where both play by time alone.
func (s *Source) Wake() <-chan struct{} {
	if w := s.pupil.source.Wake(); w != nil {
		return w
	}
	return s.his.source.Wake()
}

// Taken has the bit of every channel that the pupil does not move now: the sticks while the instructor has them, the arm channel while it
// is held off.
func (s *Source) Taken() (channels uint16) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.held.Hands {
		channels = s.cfg.Sticks
	}
	if s.held.armOff {
		channels |= 1 << s.cfg.Arm
	}
	return channels
}

// Poll is input.Source's. A pair ends with its pupil's source, if that fails, and with input.ErrEnd once both have played to their
// end; one that has played to its end stays as it stands meanwhile. An instructor's source that fails is a radio pulled out.
func (s *Source) Poll(dst []pulse.Reading, until int64) ([]pulse.Reading, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.closed {
		return dst, input.ErrEnd
	}
	if s.end != nil {
		return dst, s.end
	}
	s.pupil.read(until)
	heard := s.his.err == nil
	s.his.read(until)
	if failed := s.his.err; heard && failed != nil && !errors.Is(failed, input.ErrEnd) {
		s.his.next = append(s.his.next, pulse.Reading{At: s.his.last, Kind: pulse.Plug})
	}
	failed := s.pupil.err != nil && !errors.Is(s.pupil.err, input.ErrEnd)
	for {
		p, h := &s.pupil, &s.his
		switch {
		case p.waits() && (!h.waits() || p.next[p.head].At <= h.next[h.head].At):
			dst = s.fromPupil(dst, &p.next[p.head])
			p.head++
			continue
		case h.waits() && !(failed && h.next[h.head].At > p.last):
			dst = s.fromInstructor(dst, &h.next[h.head])
			h.head++
			continue
		}
		break
	}
	switch {
	case failed:
		s.end = s.pupil.err
	case s.pupil.err != nil && s.his.err != nil:
		s.end = input.ErrEnd
	}
	return dst, s.end
}

func (s *Source) fromPupil(dst []pulse.Reading, r *pulse.Reading) []pulse.Reading {
	if !s.pupil.Note(r) {
		return append(dst, *r)
	}
	return s.settle(dst, r.At)
}

// fromInstructor takes what the instructor's source says. Lost readings are told only while he flies; bench inputs always.
func (s *Source) fromInstructor(dst []pulse.Reading, r *pulse.Reading) []pulse.Reading {
	switch {
	case s.his.Note(r):
		return s.settle(dst, r.At)
	case r.Kind == pulse.Gap && !s.held.Hands:
		return dst
	}
	return append(dst, *r)
}

// settle decides anew who has the sticks and whether the arm channel is held off, and gives what has changed.
func (s *Source) settle(dst []pulse.Reading, at int64) []pulse.Reading {
	was := s.held
	s.held = s.cfg.Settle(was, &s.pupil.Side, &s.his.Side)
	dst = deed(dst, at, pulse.DeedHands, s.held.Hands, was.Hands)
	dst = deed(dst, at, pulse.DeedArmOff, s.held.against, was.against)
	flies := &s.pupil.Side
	if s.held.Hands {
		flies = &s.his.Side
	}
	dst = tell(dst, at, pulse.Plug, flies.Plug, &s.plug)
	dst = tell(dst, at, pulse.Link, flies.Link, &s.link)
	if !s.pupil.Has {
		return dst
	}
	if f := s.cfg.Sends(s.held, &s.pupil.Side, &s.his.Side); f != s.frame || !s.sent {
		s.frame, s.sent = f, true
		dst = append(dst, pulse.Reading{At: at, Kind: pulse.Controls, Frame: f})
	}
	return dst
}

// deed tells what the instructor's radio does, where that is another than before.
func deed(dst []pulse.Reading, at int64, d pulse.Deed, now, was bool) []pulse.Reading {
	if now == was {
		return dst
	}
	by := int32(0)
	if now {
		by = 1
	}
	return append(dst, pulse.Reading{At: at, Kind: pulse.Instructor, Value: pulse.InstructorValue(d, by)})
}

// tell gives an input of the radio that the craft hears, where it has changed. One of which that radio says nothing counts as on, and
// is given only where the other radio's was given before.
func tell(dst []pulse.Reading, at int64, k pulse.Kind, now Known, was *Known) []pulse.Reading {
	if now == 0 && *was != 0 {
		now = 2
	}
	if now == *was {
		return dst
	}
	*was = now
	return append(dst, pulse.Reading{At: at, Kind: k, Value: int32(now) - 1})
}

// Close closes both sources. A second call does nothing.
func (s *Source) Close() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.closed {
		return nil
	}
	s.closed = true
	return errors.Join(s.pupil.source.Close(), s.his.source.Close())
}

var _ input.Source = (*Source)(nil)
