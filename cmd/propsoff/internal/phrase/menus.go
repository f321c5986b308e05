package phrase

import (
	"strconv"
	"strings"

	"propsoff/gestures/menu"
	"propsoff/sim"
	"propsoff/sim/happening"
)

// item finds an item of a craft's menus by its number.
func item(n int32, cfg *sim.Config) *menu.Item {
	if cfg == nil || cfg.Menus == nil || n < 0 || int(n) >= len(cfg.Menus.Items) {
		return nil
	}
	return &cfg.Menus.Items[n]
}

// MenuItem names an item of a craft's menus by its number; the number itself where the craft has none of it.
func MenuItem(n int32, cfg *sim.Config) string {
	if it := item(n, cfg); it != nil {
		return it.Name
	}
	return strconv.Itoa(int(n))
}

// MenuValue is a value of an item as it is shown.
func MenuValue(n, value int32, cfg *sim.Config) string {
	if it := item(n, cfg); it != nil {
		return MenuValueText(it, value)
	}
	return strconv.Itoa(int(value))
}

// MenuValueText is a value as it is shown: a word, or a number with its decimals and unit.
func MenuValueText(it *menu.Item, v int32) string {
	if it.Kind == menu.Choice {
		if v < 0 || int(v) >= len(it.Choices) {
			return strconv.Itoa(int(v))
		}
		return it.Choices[v]
	}
	sign := ""
	if v < 0 {
		sign, v = "−", -v
	}
	digits := strconv.Itoa(int(v))
	if d := int(it.Decimals); d > 0 {
		digits = strings.Repeat("0", max(d+1-len(digits), 0)) + digits
		digits = digits[:len(digits)-d] + "." + digits[len(digits)-d:]
	}
	switch it.Unit {
	case "":
		return sign + digits
	case "deg":
		return sign + digits + "°"
	case "deg/s":
		return sign + digits + " °/s"
	}
	return sign + digits + " " + it.Unit
}

// menuLine tells what was done in a menu; empty for any other happening.
func menuLine(h happening.Happening, cfg *sim.Config) string {
	switch h.Code {
	case happening.MenuMark:
		return "Menu: the mark stands on \"" + MenuItem(h.A, cfg) + "\"."
	case happening.MenuValue:
		return "Menu: \"" + MenuItem(h.A, cfg) + "\" is now " + MenuValue(h.A, h.B, cfg) + "."
	case happening.MenuLeft:
		switch {
		case h.A != 0:
			return "Menu left: " + changes(h.B) + " kept."
		case h.B == 0:
			return "Menu left: nothing was changed."
		}
		return "Menu left: " + changes(h.B) + " put back."
	}
	return ""
}

func changes(n int32) string {
	if n == 1 {
		return "1 change"
	}
	return strconv.Itoa(int(n)) + " changes"
}
