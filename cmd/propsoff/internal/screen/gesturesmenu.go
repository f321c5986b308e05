package screen

import (
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/gestures/menu"
)

// goggles is the menu that is open, as the goggles show it; the zero value where none is. The facts are those of now.
func (p *gesturesPart) goggles(f *facts.Facts) sheet.GogglesView {
	cfg, s := p.s.cfg.Menus, &p.menu
	if cfg == nil {
		return sheet.GogglesView{}
	}
	return gogglesOf(cfg, s, p.s, f)
}

// gogglesOf is the menu of a state as the goggles show it.
func gogglesOf(cfg *menu.Config, s *menu.State, of *Screen, f *facts.Facts) sheet.GogglesView {
	t := cfg.Tree(s)
	if t == nil {
		return sheet.GogglesView{}
	}
	v := sheet.GogglesView{Open: true, Name: t.Name, Camera: t.Camera, Path: []string{t.Name}, Changed: cfg.Changed(s), Leaving: s.Asked != menu.NoQuestion}
	for _, page := range s.Path[:s.Depth] {
		v.Path = append(v.Path, cfg.Items[page].Name)
	}
	first, count := cfg.Page(s)
	v.Mark = cfg.Marked(s) - first
	for i := range count {
		v.Items = append(v.Items, gogglesItem(&cfg.Items[first+i], s, t.Way, i == v.Mark))
	}
	if v.Leaving {
		v.Answers, v.Answer = phrase.GogglesAnswers(), int(s.Asked-menu.Keep)
	}
	v.Moves = phrase.GogglesMoves(t.Way, s, uint8(of.driver.StickMode), f)
	if t.Camera && facts.BySticks(&of.cfg) && !of.cfg.Arming.CameraMenuCounts {
		if words := phrase.MenuArms(t.Way, uint8(of.driver.StickMode)); words != "" {
			v.Moves = append(v.Moves, words)
		}
	}
	if v.Mark >= 0 && v.Mark < len(v.Items) {
		it := &v.Items[v.Mark]
		v.Stands = phrase.MenuStands(t.Name, it.Label, it.Value, v.Leaving)
	}
	return v
}

// gogglesItem is one line of a page.
func gogglesItem(it *menu.Item, s *menu.State, way menu.Way, marked bool) sheet.GogglesItem {
	out := sheet.GogglesItem{Label: it.Name}
	switch it.Kind {
	case menu.Page:
		out.Kind, out.Holds = sheet.GogglesPage, int(it.Count)-1
	case menu.Out:
		out.Kind = sheet.GogglesLeave
	default:
		now, kept := s.Now[it.Index], s.Kept[it.Index]
		out.Value, out.Was, out.Changed = phrase.MenuValueText(it, now), phrase.MenuValueText(it, kept), now != kept
		out.Less, out.More = now > it.Low, now < it.High
		out.Upright, out.Inside = way == menu.OneStick, marked && s.Inside
		out.Moves = marked && (way == menu.TwoSticks || s.Inside)
	}
	return out
}
