package screen

import "propsoff.example/assets/words"

// hiddenNote is how long it stands that the sheet could not be seen, in ticks (ours).
const hiddenNote = 8000

// Unsee tells that nobody can see the sheet any more, or that it is seen again. A browser lets a page that is hidden run once a second, later once a
// minute, and shows it no new reading of a radio: so time stands meanwhile, no link is lost by it, and a drill that measures something is ended.
func (s *Screen) Unsee(is bool) {
	if is == s.unseen {
		return
	}
	s.unseen = is
	if is {
		for _, tell := range s.Shared.Unseen {
			tell()
		}
		s.Focus(false)
	} else {
		s.Options.Loop.Snapshot(&s.Flight.Live)
		s.seenAt = s.Flight.Live.Tick
	}
	s.Options.Loop.Hold(is)
}

// wasHidden says for a while that the bench stood still.
func (s *Screen) wasHidden() (t words.Text) {
	if age := s.Flight.Live.Tick - s.seenAt; s.seenAt >= 0 && age >= 0 && age < hiddenNote {
		t = words.T("notice.hidden")
	}
	return t
}

// NoRadio says that no radio is plugged in, and what to do; or why none can be read.
func (s *Screen) NoRadio() words.Text {
	switch {
	case !s.Options.NoRadios.Empty():
		return s.Options.NoRadios
	case s.Options.InPage:
		return words.T("notice.no-radio-page")
	}
	return words.T("notice.no-radio")
}

// WouldLose tells whether the end of the program would lose something now.
func (s *Screen) WouldLose() bool { return !s.lost().Empty() }
