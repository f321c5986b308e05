package tell

import (
	"strconv"

	"propsoff/assets/words"
	"propsoff/gestures/menu"
	"propsoff/sim"
	"propsoff/sim/happening"
)

// menusOf are the menus of a craft if they have an item, nil otherwise.
func menusOf(n int32, cfg *sim.Config) *menu.Config {
	if cfg == nil || cfg.Menus == nil || n < 0 || int(n) >= len(cfg.Menus.Items) {
		return nil
	}
	return cfg.Menus
}

// MenuItem names an item of a craft's menus by its number; the number itself where the craft has none of it.
func MenuItem(n int32, cfg *sim.Config) words.Text {
	if m := menusOf(n, cfg); m != nil {
		return MenuItemText(m, int(n))
	}
	return words.AsIs(strconv.Itoa(int(n)))
}

// MenuValue is a value of an item as it is shown.
func MenuValue(n, value int32, cfg *sim.Config) words.Text {
	if m := menusOf(n, cfg); m != nil {
		return MenuValueText(m, int(n), value)
	}
	return words.AsIs(strconv.Itoa(int(value)))
}

// MenuItemText names item n of menus: as their file has it, or in the reader's language where they are those that ship. What goes out of a
// page or of the menu stands in no file.
func MenuItemText(m *menu.Config, n int) words.Text {
	it, of := &m.Items[n], m.MenuOf(n)
	if it.Kind != menu.Out || of < 0 {
		return menuText(m, of, it.Name)
	}
	if t := &m.Menus[of]; n == t.First+t.Count-1 {
		return words.T("goggles.out-of-menu")
	}
	return words.T("goggles.out-of-page")
}

// menuText is a text of the file that menus stand in; of is the number of the menu, −1 for none.
func menuText(m *menu.Config, of int, text string) words.Text {
	if of < 0 {
		return words.AsIs(text)
	}
	return words.Shipped("gestures/"+m.Menus[of].Code, text)
}

// MenuValueText is a value of item n as it is shown: a word, or a number with its decimals and unit.
func MenuValueText(m *menu.Config, n int, v int32) words.Text {
	it, of := &m.Items[n], m.MenuOf(n)
	if it.Kind == menu.Choice {
		if v < 0 || int(v) >= len(it.Choices) {
			return words.AsIs(strconv.Itoa(int(v)))
		}
		return menuText(m, of, it.Choices[v])
	}
	number := words.Fixed{N: max(int64(v), -int64(v)), Places: int(it.Decimals), Least: int(it.Decimals)}
	args := words.Args{"minus": words.Flag(v < 0), "n": number}
	switch it.Unit {
	case "deg":
		return words.T("goggles.value-degrees", args)
	case "deg/s":
		return words.T("goggles.value-turning", args)
	}
	args["unit"] = menuText(m, of, it.Unit)
	return words.T("goggles.value", args)
}

// menuLine tells what was done in a menu; it says nothing for any other happening.
func menuLine(h happening.Happening, cfg *sim.Config) words.Text {
	switch h.Code {
	case happening.MenuMark:
		return words.T("goggles.line-mark", words.Args{"item": MenuItem(h.A, cfg)})
	case happening.MenuValue:
		return words.T("goggles.line-value", words.Args{"item": MenuItem(h.A, cfg), "value": MenuValue(h.A, h.B, cfg)})
	case happening.MenuLeft:
		switch {
		case h.A != 0:
			return words.T("goggles.line-kept", words.Args{"n": words.Count(h.B)})
		case h.B == 0:
			return words.T("goggles.line-unchanged")
		}
		return words.T("goggles.line-put-back", words.Args{"n": words.Count(h.B)})
	}
	return words.Text{}
}
