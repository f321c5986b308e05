package gestures

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/gestures/menu"
	"propsoff.example/sim"
)

// Goggles is the menu that is open in a state, as the goggles show it in a stick mode, 1 to 4; the zero value where none is. The facts are those
// of now.
func Goggles(craft *sim.Config, s *menu.State, mode uint8, f *facts.Facts) ui.GogglesView {
	cfg := craft.Menus
	if cfg == nil || cfg.Tree(s) == nil {
		return ui.GogglesView{}
	}
	t := cfg.Tree(s)
	name := tell.MenuName(t)
	v := ui.GogglesView{Open: true, Name: name, Camera: t.Camera, Path: []words.Text{name}, Changed: cfg.Changed(s), Leaving: s.Asked != menu.NoQuestion}
	for _, page := range s.Path[:s.Depth] {
		v.Path = append(v.Path, tell.MenuItemText(cfg, int(page)))
	}
	first, count := cfg.Page(s)
	v.Mark = cfg.Marked(s) - first
	for i := range count {
		v.Items = append(v.Items, gogglesItem(cfg, first+i, s, t.Way, i == v.Mark))
	}
	if v.Leaving {
		v.Answers, v.Answer = words.Each("goggles.answer", "keep", "put-back", "stay"), int(s.Asked-menu.Keep)
	}
	v.Moves = tell.GogglesMoves(t.Way, s, mode, f)
	if t.Camera && facts.BySticks(craft) && !craft.Arming.CameraMenuCounts {
		v.Moves = slices.Insert(v.Moves, 0, tell.MenuArms(t.Way, mode)) // first: there may be room for few
	}
	if v.Mark >= 0 && v.Mark < len(v.Items) {
		it := &v.Items[v.Mark]
		v.Stands = words.T("goggles.stands", words.Args{"menu": name, "item": it.Label, "value": it.Value, "asked": words.Flag(v.Leaving)})
	}
	return v
}

// gogglesItem is item n as one line of a page.
func gogglesItem(cfg *menu.Config, n int, s *menu.State, way menu.Way, marked bool) ui.GogglesItem {
	it, out := &cfg.Items[n], ui.GogglesItem{Label: tell.MenuItemText(cfg, n)}
	switch it.Kind {
	case menu.Page:
		out.Kind, out.Holds = ui.GogglesPage, int(it.Count)-1
	case menu.Out:
		out.Kind = ui.GogglesLeave
	default:
		now, kept := s.Now[it.Index], s.Kept[it.Index]
		out.Value, out.Was, out.Changed = tell.MenuValueText(cfg, n, now), tell.MenuValueText(cfg, n, kept), now != kept
		out.Less, out.More = now > it.Low, now < it.High
		out.Upright, out.Inside = way == menu.OneStick, marked && s.Inside
		out.Moves = marked && (way == menu.TwoSticks || s.Inside)
	}
	return out
}
