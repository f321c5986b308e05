package screen

import (
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/sim/pulse"
)

// act does one action.
func (s *Screen) act(a sheet.Action) {
	in := &s.flight.live.In
	put := s.o.Loop.Desk().Put
	other := func(on bool) int32 {
		if on {
			return 0
		}
		return 1
	}
	d := s.o.Driver
	if t := s.open(); t != nil && t.act(a) || s.flight.act(a) {
		s.driver = d.View()
		return
	}
	switch a {
	case sheet.OpenCheck, sheet.OpenLayout, sheet.OpenProve, sheet.OpenCard, sheet.OpenFirst, sheet.OpenThree,
		sheet.OpenGestures, sheet.OpenLoss, sheet.OpenDrills, sheet.OpenDesk:
		s.turnTo(a)
	case sheet.SwitchRadio:
		put(pulse.Link, other(in.Transmitter))
	case sheet.SwitchPack:
		put(pulse.Power, other(in.Powered))
	case sheet.PlugCable:
		put(pulse.Cable, other(in.Craft.Cable))
	case sheet.TiltCraft:
		put(pulse.Tilt, int32(sheet.NextTilt(in.Craft.TiltTenths)))
	case sheet.NudgeCraft:
		put(pulse.Nudge, 1)
	case sheet.TurnMenu:
		put(pulse.Menu, int32(sheet.NextMenu(in.Craft.Menu, s.view.LastMenu)))
	case sheet.NextDriver:
		d.DropResult()
		d.Next()
	case sheet.ChooseRadio:
		s.choosing = !s.choosing
	case sheet.TurnStickMode:
		d.SetStickMode(sheet.NextStickMode(s.view.StickMode))
	case sheet.AskAgain:
		d.AskAgain()
	case sheet.TurnSheet:
		s.dark = !s.dark
	case sheet.TurnFullScreen:
		s.full = !s.full
	case sheet.TurnSound:
		s.sound.turnAll()
	case sheet.TurnRecording:
		s.record.turnOver()
	case sheet.ShowHelp:
		s.helpOf = s.place() // while help is on top, this is set and not used
		s.help = !s.help
	case sheet.Leave:
		s.leave()
	case sheet.Understood:
		s.cautions = false
		s.markRead()
	default:
		s.actLearning(a)
	}
	s.driver = d.View()
}

// leave closes the sheet on top; on the bench, the program.
func (s *Screen) leave() {
	switch s.place() {
	case sheet.OnHelp:
		s.help = false
	case sheet.OnQuestions:
		if s.driver.Result != nil {
			s.o.Driver.DropResult()
		} else {
			s.o.Driver.Next()
		}
	case sheet.OnWhich:
		s.o.Driver.Next()
	case sheet.OnBench:
		s.quit = true
	default:
		s.turnTo(sheet.NoAction)
	}
}
