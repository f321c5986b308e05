package screen

import (
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/gestures/menu"
)

// GogglesAt is what the goggles show of a menu that stands so.
func (s *Screen) GogglesAt(st menu.State) sheet.GogglesView {
	return gogglesOf(s.cfg.Menus, &st, s, &s.view.Facts)
}
