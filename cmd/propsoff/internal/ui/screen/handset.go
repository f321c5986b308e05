package screen

import (
	"slices"

	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/input/radio"
	"propsoff.example/sim/handset"
)

// handset is the radio that is known, as the sheets draw it.
func (s *Screen) handset() handset.Radio {
	if d := &s.Driving; d.Who == whodrives.Questions {
		file := radio.File{StickMode: d.Learn.StickMode, Controls: d.Learn.Answers}
		return facts.Reach(&file, &d.Info, s.Options.Names)
	}
	if d := &s.Driving; d.Who == whodrives.Which && len(d.Alike) > 0 {
		return facts.Reach(&d.Alike[0].File, &d.Info, s.Options.Names)
	}
	if now := s.Revision(); s.reachedAt != now {
		if s.reachedAt = now; s.Options.Craft != nil {
			s.reached = s.LayoutOf(s.Options.Craft).Radio
		} else {
			s.reached = facts.KeyboardReach(s.Options.Names)
		}
	}
	return s.reached
}

// HasSeats tells whether a radio is read, or learned, of which the pilot can say where its controls sit.
func (s *Screen) HasSeats() bool {
	var all []radio.Control
	switch d := &s.Driving; {
	case d.Who == whodrives.Questions && !d.Learn.Trying: // a file that is tried says it, or not
		all = d.Learn.Answers
	case d.Who == whodrives.Radio && d.File != nil:
		all = d.File.Controls
	}
	return slices.ContainsFunc(all, func(c radio.Control) bool { return !slices.Contains(radio.Needed(), c.Job) })
}

// SeatThem opens the sheet on which the pilot says where the controls sit, or goes back to the one below.
func (s *Screen) SeatThem(on bool) {
	if s.seats == on || on && !s.HasSeats() {
		return
	}
	s.seats = on
	if t := s.Sheet(ui.OnSeats); on && t != nil {
		t.Open()
	}
}
