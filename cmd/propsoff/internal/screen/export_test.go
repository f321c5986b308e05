package screen

import (
	"propsoff/cmd/propsoff/internal/drive"
	"propsoff/cmd/propsoff/internal/sheet"
)

// View is what the sheets were given for the last picture.
func (s *Screen) View() *sheet.View { return &s.view }

// Outing is what the last flight came to, as the gate knows it.
func (s *Screen) Outing() sheet.Outing {
	for i := range s.tools {
		if p, ok := s.tools[i].part.(*firstPart); ok {
			return p.view.Came
		}
	}
	return sheet.NoOuting
}

// Place is the sheet on top.
func (s *Screen) Place() sheet.Place { return s.place() }

// Driver is who decides who drives.
func (s *Screen) Driver() *drive.Driver { return s.o.Driver }
