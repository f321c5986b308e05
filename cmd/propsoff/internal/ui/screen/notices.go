package screen

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/live/whodrives"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
)

// sentence says a notice on the sheet that is shown.
func (s *Screen) sentence(n whodrives.Notice) words.Text {
	switch n.Code {
	case whodrives.Unplugged:
		return tell.Unplugged(n.Name)
	case whodrives.OtherMode:
		return tell.OtherUSBMode(n.Name, n.Detail, n.Storage)
	case whodrives.Blunted:
		return tell.BluntedCentre(n.Name)
	case whodrives.NoRights:
		return words.T("notice.permission")
	case whodrives.NotOpened:
		return tell.NotOpened(n.Name)
	case whodrives.Adopted:
		return tell.AdoptedIn(n.Name, n.Detail)
	case whodrives.OfAnother:
		return tell.OfAnother(n.Name, n.Detail)
	case whodrives.SpoiltFile:
		return tell.SpoiltFile(n.Why)
	case whodrives.Kept:
		return tell.KeptIn(n.Name, n.Detail)
	case whodrives.NotKept:
		return tell.NotKept(n.Name, n.Why, s.view.KeyFor(ui.KeepAgain, s.Place()))
	case whodrives.TutorUnknown:
		return tell.InstructorNotLearned(n.Name, s.view.KeyFor(ui.ChooseRadio, s.Place()))
	case whodrives.FileDoesNotFit:
		return tell.FileDoesNotFit(n.Name, n.Why)
	case whodrives.NoSuchRadio:
		return tell.NoSuchRadio(n.Name)
	case whodrives.SourceFailed:
		return tell.SourceFailed(n.Name, n.Why)
	}
	return words.Text{}
}

func (s *Screen) choose(n int) {
	s.Choosing = false
	s.Options.Driver.Choose(n)
}
