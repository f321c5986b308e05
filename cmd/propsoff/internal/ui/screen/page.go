package screen

import "propsoff.example/assets/words"

// stoodNote is how long it is said why the bench stood still, in ticks (ours).
const stoodNote = 8000

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
		s.goesOn("notice.hidden")
	}
	s.Options.Loop.Hold(s.unseen || s.rests)
}

// Rest has the bench stand still while its radio is moved for another purpose: what a check asks hands to do must arm nothing there, and open no menu.
func (s *Screen) Rest(is bool) {
	if is == s.rests {
		return
	}
	if s.rests = is; !is {
		s.goesOn("notice.checked")
	}
	s.Options.Loop.Hold(s.unseen || s.rests)
}

// Rests tells whether the bench stands still for that.
func (s *Screen) Rests() bool { return s.rests }

// Seen tells whether anybody can see the sheet.
func (s *Screen) Seen() bool { return !s.unseen }

// goesOn notes why the bench stood still, as it goes on.
func (s *Screen) goesOn(why words.ID) {
	s.Options.Loop.Snapshot(&s.Flight.Live)
	s.stood, s.stoodAt = why, s.Flight.Live.Tick
}

// whyStood says for a while why the bench stood still.
func (s *Screen) whyStood() (t words.Text) {
	if age := s.Flight.Live.Tick - s.stoodAt; s.stood != "" && !s.rests && age >= 0 && age < stoodNote {
		t = words.T(s.stood)
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
