package screen

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/remembered"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/sim/pulse"
)

// Act does one action.
func (s *Screen) Act(a ui.Action) {
	defer func() { s.Driving = s.Options.Driver.View() }()
	switch do := s.deeds[a]; {
	case s.House.Do(s.Place(), a), s.open().Act(a):
	case s.isTool(ui.Place(a)):
		s.goTo(a)
	case do != nil:
		do()
	}
}

// shared are the deeds that several sheets have.
func (s *Screen) shared() map[ui.Action]func() {
	in, d, f := &s.Flight.Live.In, s.Options.Driver, s.Flight
	put := func(k pulse.Kind, value func() int32) func() {
		return func() { s.Options.Loop.Desk().Put(k, value()) }
	}
	other := func(k pulse.Kind, on *bool) func() {
		return put(k, func() int32 {
			if s.view.WillBe(k, *on) {
				return 0
			}
			return 1
		})
	}
	tells := func(k pulse.Kind, now int32) int32 { return s.view.Waiting.Of(k, now) }
	turn := func(on *bool) func() { return func() { *on = !*on } }
	return map[ui.Action]func(){
		ui.SwitchRadio: other(pulse.Link, &in.Transmitter),
		ui.SwitchPack:  other(pulse.Power, &in.Powered),
		ui.PlugCable:   other(pulse.Cable, &in.Craft.Cable),
		ui.TiltCraft:   put(pulse.Tilt, func() int32 { return int32(ui.NextTilt(int16(tells(pulse.Tilt, int32(in.Craft.TiltTenths))))) }),
		ui.NudgeCraft:  put(pulse.Nudge, func() int32 { return 1 }),
		ui.TurnMenu: put(pulse.Menu, func() int32 {
			return int32(ui.NextMenu(uint8(tells(pulse.Menu, int32(in.Craft.Menu))), s.view.LastMenu))
		}),
		ui.NextDriver:  func() { s.Leaving(ui.OnQuestions, true, func() { d.DropResult(); d.Next() }) },
		ui.ChooseRadio: turn(&s.Choosing),
		ui.TurnStickMode: func() {
			mode := ui.NextStickMode(s.view.StickMode)
			d.SetStickMode(mode)
			s.remember(func(r *remembered.Settings) { r.StickMode = mode })
		},
		ui.AskAgain: d.AskAgain,
		ui.TurnLanguage: func() {
			s.view.Book = s.view.Language().Next()
			s.remember(func(r *remembered.Settings) { r.Language = s.view.Book.Code() })
		},
		ui.TurnSheet: s.turnTheme,
		ui.TurnTextSize: func() {
			s.remember(func(r *remembered.Settings) { r.TextSize = s.view.NextTextSize() })
		},
		ui.TurnFullScreen: turn(&s.full),
		ui.TurnSound:      s.sound.turnAll,
		ui.TurnRecording:  s.Record.turnOver,
		ui.ShowHelp: func() {
			s.helpOf = s.Place() // while help is on top, this is set and not used
			s.help = !s.help
		},
		ui.Leave:        s.leave,
		ui.Understood:   s.markRead,
		ui.KeepAgain:    d.KeepAgain,
		ui.ShowSeats:    func() { s.SeatThem(!s.seats) },
		ui.PauseFlight:  f.pauseOrGo,
		ui.SlowFlight:   f.slower,
		ui.StepFlight:   f.step,
		ui.ReplayFlight: f.lookBack,
		ui.SeeFrom:      func() { f.from = f.from.Next() },
		ui.StandAgain:   func() { f.Carry(f.Live.In.Bench()) },
		ui.NextBench:    func() { f.Carry(ui.BenchAfter(f.Live.In.Bench())) },
		ui.FlyAgain:     f.flyAgain,
		ui.LeafBack:     func() { s.Leaf = max(s.view.Leaves.At-1, 0) },
		ui.LeafOn:       func() { s.Leaf = max(min(s.view.Leaves.At+1, s.view.Leaves.Of-1), 0) },
	}
}

// FromHelp leaves help and does an action on the sheet on which help was asked for; where that does nothing there now, it is said why.
func (s *Screen) FromHelp(a ui.Action) {
	s.help = false
	place := s.Place()
	switch {
	case s.view.Shows(a, place):
		s.Act(a)
	case s.open().Hit(a.Code()): // a key that comes and goes with what the sheet shows
	case s.House.Has(place, a):
		s.noteIdle(s.view.Idle(a, place))
	default:
		s.noteIdle(words.T("idle.on-the-bench", words.Args{"key": s.view.Named(a, ui.OnBench)}))
	}
}

// noteIdle has it said for a while why a key did nothing.
func (s *Screen) noteIdle(why words.Text) {
	s.idle, s.idleAt, s.idleOn, s.idleGood = why, s.Flight.Live.Tick, s.Place(), false
}

// Click does what a hit area stands for that acts when it is let go of.
func (s *Screen) Click(h ink.Hit) {
	if n, ok := ui.ChoiceOf(h.Name); ok {
		s.Choose(n)
		return
	}
	for _, p := range s.House.Of(s.Place()).Picks {
		if n, ok := ui.NumberOf(h.Name, p.Prefix); ok {
			p.Do(n)
			return
		}
	}
	if s.turnOn(h.Name) || s.open().Hit(h.Name) || s.Flight.key(h.Name) {
		return
	}
	if a := ui.Action(h.Name); s.House.KeyOf(a) != "" {
		s.Act(a)
	}
}

// Key does what a key stands for on the sheet that is on top, or passes it on to the keyboard pilot.
func (s *Screen) Key(name string, down bool) {
	place := s.Place()
	if down && name != "Enter" && name != "Backspace" { // which a phone's text field has too
		s.touch = false
	}
	if s.open().Key(name, down) || down && (s.Flight.key(name) || s.keyed(name, place)) {
		return
	}
	for _, b := range ui.LayoutKeys {
		switch {
		case b.Physical != name:
		case !down:
			s.Options.Driver.Release(b.Key)
		case s.House.Flown(place):
			s.Options.Driver.Press(b.Key)
		}
	}
}

// keyed does what a key that is pressed stands for besides moving sticks and switches; false leaves it.
func (s *Screen) keyed(name string, place ui.Place) bool {
	if slices.ContainsFunc(s.Hidden, func(takes func(string, ui.Place) bool) bool { return takes(name, place) }) {
		return true
	}
	if n := Digit(name); n > 0 && s.Choosing && place != ui.OnCautions {
		s.Choose(n - 1)
		return true
	} else if n > 0 {
		for _, p := range s.House.Of(place).Picks {
			if p.Keys {
				p.Do(n - 1)
				return true
			}
		}
	}
	for _, a := range s.House.Keys(place) {
		if a.Physical == name && s.view.Shows(a.Action, place) {
			s.idle = words.Text{}
			s.Act(a.Action)
			return true
		}
	}
	for _, a := range s.House.Keys(place) {
		if why := s.view.Idle(a.Action, place); a.Physical == name && !why.Empty() {
			s.noteIdle(why)
			return true
		}
	}
	return false
}

// Choose takes a radio by its number from 0.
func (s *Screen) Choose(n int) {
	s.Choosing = false
	s.Options.Driver.Choose(n)
	s.noteChoice(n)
}

// Digit is the number on a key, 0 for none.
func Digit(name string) int {
	if len(name) == 1 && name[0] >= '1' && name[0] <= '9' {
		return int(name[0] - '0')
	}
	return 0
}
