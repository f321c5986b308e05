package screen

import (
	"path/filepath"
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/input/learn"
)

// Loss is something that would be lost where a sheet is left, or the program.
type Loss struct {
	// At is the sheet that must not be left for it; empty where only the end of the program would lose it.
	At ui.Place
	// Stays: it goes on while other sheets are open, and is lost only where one goes back from its own.
	Stays bool
	// Lost says what would be lost as things stand now; it says nothing where nothing would be.
	Lost func() words.Text
	// Keep saves it and tells whether that went well, Drop gives it up; nil where there is no such thing to do.
	Keep func() bool
	Drop func()
	// Also are more answers, the last ones.
	Also []Answer
}

// losses are those of the screen itself.
func (s *Screen) losses() []Loss {
	return []Loss{
		{At: ui.OnWrite, Lost: s.lostTyping},
		{At: ui.OnBench, Stays: true, Lost: func() (t words.Text) {
			if w := s.Options.Driver.View().Who; s.Flight.Live.Armed && (w == whodrives.Keyboard || w == whodrives.Radio) {
				t = words.T("asked.lost-armed", words.Args{"flying": words.Flag(s.Flight.Live.Air.Flying)})
			}
			return t
		}},
		{At: ui.OnQuestions, Lost: func() (t words.Text) {
			if d := &s.Driving; d.Who == whodrives.Questions && d.Learn.CanBack && !d.Learn.Trying && d.Learn.Question < learn.Done {
				t = words.T("asked.lost-learn", words.Args{"radio": words.Quote(d.Info.Name)})
			}
			return t
		}},
		{Lost: func() (t words.Text) {
			if to := s.Record.told.To; to != "" {
				t = words.T("asked.lost-take", words.Args{"file": words.Quote(filepath.Base(to))})
			}
			return t
		}},
	}
}

// Leaving does what leaves a sheet, once a person has said so where something would be lost by it. back: it goes back from the sheet, and not
// to another one.
func (s *Screen) Leaving(at ui.Place, back bool, do func()) {
	i := slices.IndexFunc(s.Losses, func(l Loss) bool { return l.At == at && (back || !l.Stays) && !l.Lost().Empty() })
	if i < 0 {
		do()
		return
	}
	l := &s.Losses[i]
	q := Question{Says: words.Of("asked", "leave-"+string(at)), Lost: l.Lost, Answers: []Answer{{Says: words.Of("asked", "stay-"+string(at))}}}
	if l.Keep != nil {
		q.Answers = append(q.Answers, Answer{words.T("asked.keep"), func() {
			if l.Keep() {
				do()
			}
		}})
	}
	q.Answers = append(q.Answers, Answer{words.Of("asked", "go-"+string(at)), func() {
		if l.Drop != nil {
			l.Drop()
		}
		do()
	}})
	q.Answers = append(q.Answers, l.Also...)
	s.AskOf(q)
}

// lost says everything that the end of the program would lose.
func (s *Screen) lost() words.Text {
	var all []words.Text
	for _, l := range s.Losses {
		if t := l.Lost(); !t.Empty() {
			all = append(all, t)
		}
	}
	return words.Row(all...)
}

// askQuit asks whether to leave the program.
func (s *Screen) askQuit() {
	s.AskOf(Question{Says: words.T("asked.program"), Lost: s.lost, Answers: []Answer{
		{Says: words.T("asked.program-stay")}, {words.T("asked.program-go"), func() { s.quit = true }},
	}})
	s.quitting = true
}

// Closing tells that the window is to be closed: where something would be lost it is asked first, and only once.
func (s *Screen) Closing() {
	if asked := s.asked != nil && s.quitting; asked || s.lost().Empty() {
		s.quit = true
		return
	}
	s.askQuit()
}

// leave goes back: out of a look back, off the sheet on top, from the bench to the first sheet, and from there, once that is said, out of the
// program.
func (s *Screen) leave() {
	switch place := s.Place(); {
	case place.LeavesProgram() && s.Options.InPage: // nothing leads out of it
	case s.Flight.looksBack():
		s.Flight.lookBack()
	case place == ui.OnHelp:
		s.help = false
	case place == ui.OnSeats:
		s.SeatThem(false)
	case place == ui.OnQuestions && s.Driving.Result != nil:
		s.Options.Driver.DropResult()
	case place == ui.OnQuestions || place == ui.OnWhich:
		s.Leaving(place, true, s.Options.Driver.LeaveQuestions)
	case place.LeavesProgram():
		s.askQuit()
	case place == ui.OnBench:
		s.Act(ui.OnStart.Open())
	default:
		s.Leaving(place, true, func() { s.TurnTo(ui.NoAction) })
	}
}

// goTo opens another sheet. The bench is left for the first of all, and for the one that carries a craft in that is outside.
func (s *Screen) goTo(a ui.Action) {
	place, start := s.Place(), a == ui.OnStart.Open()
	carried := a == ui.OnFirst.Open() && s.Flight.Live.In.Air
	s.Leaving(place, place == ui.OnBench && (start || carried), func() {
		if start { // by its key it is the four doors; who goes back comes to the one gone through
			s.from = ""
		}
		s.TurnTo(a)
	})
}
