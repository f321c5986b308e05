package take

import (
	"io"

	"propsoff.example/input"
	"propsoff.example/sim/pulse"
)

// Source plays a take's readings as an input.Source. Each comes at the tick that consumed it when it was recorded, so a
// bench stepped with the same settings does the same again. It ends with input.ErrEnd at the last tick of the take; a
// torn take ends there too (Torn tells), and one with damage in the middle ends with the *Damage.
type Source struct {
	r    *Reader
	next Entry
	have bool
	err  error
}

var _ input.Source = (*Source)(nil)

// Play opens the take at path as a source. Its errors are those of Open.
func Play(path string) (*Source, error) {
	r, err := Open(path)
	if err != nil {
		return nil, err
	}
	return NewSource(r), nil
}

// NewSource plays what r has still to give, and closes r when it is closed.
func NewSource(r *Reader) *Source { return &Source{r: r} }

// Name is the take's file name.
func (s *Source) Name() string { return s.r.name }

// Settings are those of the part that was read last.
func (s *Source) Settings() Settings { return s.r.settings }

// Torn and Closed are as those of Reader, once Poll has given input.ErrEnd.
func (s *Source) Torn() *Torn { return s.r.torn }

// Closed is true when the take was played whole and had been closed cleanly.
func (s *Source) Closed() bool { return s.r.closed }

// Poll appends every reading whose tick begins at or before until (µs) and that was not handed out before. It goes no further than to the
// beginning of another part: what follows comes once Part has given that.
func (s *Source) Poll(dst []pulse.Reading, until int64) ([]pulse.Reading, error) {
	for {
		if !s.have {
			if s.err != nil {
				return dst, s.ended(until)
			}
			if s.next, s.err = s.r.Next(); s.err != nil {
				continue
			}
			s.have = true
		}
		if s.next.Tick*1000 > until {
			return dst, nil
		}
		switch s.next.Kind {
		case Part:
			return dst, nil
		case Reading:
			dst = append(dst, s.next.Reading)
		}
		s.have = false
	}
}

// Part gives the settings of the part that comes next, once Poll has handed out all readings before it and it begins at or before
// until (µs): from its tick on the practice is another one.
func (s *Source) Part(until int64) (Settings, bool) {
	if !s.have || s.next.Kind != Part || s.next.Tick*1000 > until {
		return Settings{}, false
	}
	s.have = false
	return s.r.Settings(), true
}

// ended gives the end when it has come: the end record may lie later than the last entry.
func (s *Source) ended(until int64) error {
	if s.err != io.EOF {
		return s.err
	}
	if s.r.tick*1000 > until {
		return nil
	}
	s.err = input.ErrEnd
	return s.err
}

// Wake is nil: a take plays by time alone.
func (s *Source) Wake() <-chan struct{} { return nil }

// Close closes the file.
func (s *Source) Close() error {
	s.have = false
	if s.err == nil || s.err == io.EOF || s.err == input.ErrEnd {
		s.err = errClosed
	}
	return s.r.Close()
}
