package screen

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/remembered"
)

// Practise has somebody practise from now on, empty for nobody. It says why that cannot be, nothing where it can.
func (s *Screen) Practise(name string) (why words.Text) {
	k := s.Options.Drills.Pupils
	if k == nil {
		return words.T("people.no-folder")
	}
	was := k.Pupil()
	if err := k.Open(name); err != nil {
		return words.Error(err)
	}
	s.remember(func(r *remembered.Settings) { r.Person = k.Pupil() })
	if k.Pupil() != was {
		s.Options.Driver.Doubt()
	}
	return why
}

// Named gives somebody another name.
func (s *Screen) Named(was, name string) (why words.Text) {
	return s.moved(was, name, func(k Pupils) error { return k.Rename(was, name) })
}

// Merged moves what one has done into the logbook of another one.
func (s *Screen) Merged(from, into string) (why words.Text) {
	return s.moved(from, into, func(k Pupils) error { return k.Merge(from, into) })
}

// moved has somebody's logbook moved; one who practises goes on under the other name.
func (s *Screen) moved(from, to string, move func(Pupils) error) (why words.Text) {
	k := s.Options.Drills.Pupils
	if s.Drilling() {
		return words.T("people.drill")
	}
	practises := k.Pupil() == from
	if practises {
		if err := k.Open(""); err != nil {
			return words.Error(err)
		}
		defer func() {
			if !why.Empty() {
				to = from
			}
			if bad := s.Practise(to); why.Empty() {
				why = bad
			}
		}()
	}
	if err := move(k); err != nil {
		return words.Error(err)
	}
	return why
}
