package screen

import (
	"fmt"
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/remembered"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/input/radio"
)

// remember changes what is remembered.
func (s *Screen) remember(change func(*remembered.Settings)) { s.Options.Remembered.Change(change) }

// turnTheme takes the next theme. Where it is as the system says again, that is said: nothing else tells it from one that was chosen.
func (s *Screen) turnTheme() {
	s.theme = s.view.NextTheme()
	name := ""
	if s.theme != nil {
		name = s.theme.Name
	}
	s.remember(func(r *remembered.Settings) { r.Sheet = name })
	s.suit() // keys may come faster than pictures
	if s.theme == nil {
		s.noteIdle(tell.AsSystem(slices.Index(ink.Themes(), s.view.Theme)))
		s.idleGood = true
	}
}

// RadioID is how a radio is remembered: by what is the same wherever it is plugged in.
func RadioID(d radio.Device) string {
	return fmt.Sprintf("%s, %04x:%04x, %s", d.Name, d.Vendor, d.Product, d.Serial)
}

// confirmed is a radio as it would be confirmed now, by whoever practises.
func (s *Screen) confirmed(d radio.Device) remembered.Confirmed {
	c := remembered.Confirmed{Radio: RadioID(d), Person: s.Pupil()}
	if c.Day = int(logbook.Day(s.Now())); s.Options.Drills.Day != nil {
		c.Day = int(s.Options.Drills.Day())
	}
	return c
}

// confirm asks, before a radio is read that is new today or new to whoever practises, whether no craft hears it.
func (s *Screen) confirm() {
	d := s.Driving.Unsure
	if d == nil || s.cautions || s.asked != nil || s.writing != nil {
		return
	}
	dev := *d
	name, other := words.Quote(dev.Name), words.Flag(s.Options.Remembered.ConfirmedByAnother(s.confirmed(dev)))
	still := func() bool { return s.Driving.Unsure != nil && *s.Driving.Unsure == dev } // else it was pulled out meanwhile; another one may be there
	s.AskOf(Question{
		Says: words.T("asked.transmits", words.Args{"radio": name}),
		Lost: func() words.Text { return words.T("asked.transmits-why", words.Args{"other": other}) },
		Drives: func() (t words.Text) {
			if still() {
				t = words.T("drives.waits", words.Args{"name": name})
			}
			return t
		},
		Answers: []Answer{{words.T("asked.transmits-no"), func() {
			if still() {
				s.Options.Driver.Declined()
			}
		}}, {words.T("asked.transmits-yes"), func() {
			if s.Options.Remembered.Confirm(s.confirmed(dev)); still() {
				s.Options.Driver.Confirmed()
			}
		}}},
	})
}

// noteChoice remembers the radio that was chosen, by its number from 0.
func (s *Screen) noteChoice(n int) {
	if d := s.Options.Driver.Choice(n); d.Name != "" {
		s.remember(func(r *remembered.Settings) { r.Radio = RadioID(d) })
	}
}
