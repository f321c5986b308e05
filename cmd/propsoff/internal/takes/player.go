package takes

import (
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/input/take"
	"propsoff.example/sim/pulse"
)

// Player plays the readings of a take, part after part (live.Parts).
type Player struct {
	*take.Source
	// Begins is told of each part but the first as it begins; nil for nobody.
	Begins func(*Part)

	read func(*take.Settings) (*Part, error)
	err  error
}

var _ live.Parts = (*Player)(nil)

// NewPlayer plays what r has still to give; read makes a part of its settings. Closing it closes r.
func NewPlayer(r *take.Reader, read func(*take.Settings) (*Part, error)) *Player {
	return &Player{Source: take.NewSource(r), read: read}
}

// Poll is input.Source's. A part that cannot be played ends it with the reason.
func (p *Player) Poll(dst []pulse.Reading, until int64) ([]pulse.Reading, error) {
	if p.err != nil {
		return dst, p.err
	}
	return p.Source.Poll(dst, until)
}

// Part is live.Parts'.
func (p *Player) Part(until int64) (*live.Start, bool) {
	s, ok := p.Source.Part(until)
	if !ok {
		return nil, false
	}
	part, err := p.read(&s)
	if err != nil {
		p.err = err
		return nil, false
	}
	if p.Begins != nil {
		p.Begins(part)
	}
	return part.Start(), true
}
