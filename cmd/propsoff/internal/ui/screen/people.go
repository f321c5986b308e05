package screen

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/remembered"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/examine"
)

// Pupil is who practises, empty for nobody.
func (s *Screen) Pupil() string { return s.Options.Drills.Pupils.Pupil() }

// Practise has somebody practise from now on, empty for nobody. It says why that cannot be, nothing where it can.
func (s *Screen) Practise(name string) (why words.Text) {
	k := s.Options.Drills.Pupils
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

// nobody keeps nothing, where there is no folder for logbooks.
type nobody struct{}

// Open refuses every name: nothing could be kept under it.
func (nobody) Open(pupil string) error {
	if pupil == "" {
		return nil
	}
	return words.Wrong("people.no-folder")
}

func (nobody) Pupil() string                                       { return "" }
func (nobody) Names() []string                                     { return nil }
func (nobody) Count(string) int                                    { return 0 }
func (nobody) Rename(string, string) error                         { return nil }
func (nobody) Merge(string, string) error                          { return nil }
func (nobody) Runs() []drill.Run                                   { return nil }
func (nobody) Keep(*drillrun.Result, *drillfile.Drill, Held) error { return nil }
func (nobody) Asked() []examine.Asked                              { return nil }
func (nobody) KeepAsked(examine.Asked, Held) error                 { return nil }
func (nobody) Refused(int32)                                       {}
func (nobody) Where() string                                       { return "" }
