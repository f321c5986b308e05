package screen

import (
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/sim/pulse"
)

// Act does one action.
func (s *Screen) Act(a ui.Action) {
	in := &s.Flight.Live.In
	put := s.Options.Loop.Desk().Put
	other := func(on bool) int32 {
		if on {
			return 0
		}
		return 1
	}
	d := s.Options.Driver
	if t := s.open(); t != nil && t.Act(a) || s.Flight.act(a) {
		s.Driving = d.View()
		return
	}
	if s.isTool(ui.Place(a)) {
		s.TurnTo(a)
		s.Driving = d.View()
		return
	}
	switch a {
	case ui.SwitchRadio:
		put(pulse.Link, other(in.Transmitter))
	case ui.SwitchPack:
		put(pulse.Power, other(in.Powered))
	case ui.PlugCable:
		put(pulse.Cable, other(in.Craft.Cable))
	case ui.TiltCraft:
		put(pulse.Tilt, int32(ui.NextTilt(in.Craft.TiltTenths)))
	case ui.NudgeCraft:
		put(pulse.Nudge, 1)
	case ui.TurnMenu:
		put(pulse.Menu, int32(ui.NextMenu(in.Craft.Menu, s.view.LastMenu)))
	case ui.NextDriver:
		d.DropResult()
		d.Next()
	case ui.ChooseRadio:
		s.Choosing = !s.Choosing
	case ui.TurnStickMode:
		d.SetStickMode(ui.NextStickMode(s.view.StickMode))
	case ui.AskAgain:
		d.AskAgain()
	case ui.TurnLanguage:
		s.view.Book = s.view.Language().Next()
	case ui.TurnSheet:
		s.dark = !s.dark
	case ui.TurnFullScreen:
		s.full = !s.full
	case ui.TurnSound:
		s.sound.turnAll()
	case ui.TurnRecording:
		s.Record.turnOver()
	case ui.ShowHelp:
		s.helpOf = s.Place() // while help is on top, this is set and not used
		s.help = !s.help
	case ui.Leave:
		s.leave()
	case ui.Understood:
		s.cautions = false
		s.markRead()
	case ui.KeepAgain:
		d.KeepAgain()
	}
	s.Driving = d.View()
}

// leave closes the sheet on top; on the bench, the program.
func (s *Screen) leave() {
	switch s.Place() {
	case ui.OnHelp:
		s.help = false
	case ui.OnQuestions:
		if s.Driving.Result != nil {
			s.Options.Driver.DropResult()
		} else {
			s.Options.Driver.Next()
		}
	case ui.OnWhich:
		s.Options.Driver.Next()
	case ui.OnBench:
		s.quit = true
	default:
		s.TurnTo(ui.NoAction)
	}
}
