package comfort

import (
	"context"
	"syscall/js"
)

// The media features of a browser (W3C Media Queries Level 5), by what they ask for.
const (
	lessMotion = "(prefers-reduced-motion: reduce)"
	moreContr  = "(prefers-contrast: more)"
	ownColours = "(forced-colors: active)"
	darkGround = "(prefers-color-scheme: dark)"
)

// usualText is the size in CSS pixels of text for which nobody chose another in the browser (common practice, no source).
const usualText = 16

// follow reads what the browser says at once, and again at each change. Page and program end together: nothing is taken back.
func follow(_ context.Context, tell func(Wishes)) {
	asks := map[string]js.Value{}
	for _, query := range []string{lessMotion, moreContr, ownColours, darkGround} {
		asks[query] = js.Global().Call("matchMedia", query)
	}
	rule := line()
	say := func() {
		is := func(query string) bool { return asks[query].Get("matches").Truthy() }
		tell(Wishes{
			LessMotion: is(lessMotion), MoreContrast: is(moreContr) || is(ownColours), Dark: is(darkGround),
			Text: percent(rule.Call("getBoundingClientRect").Get("width").Float() / usualText),
		})
	}
	changed := js.FuncOf(func(js.Value, []js.Value) any {
		say()
		return nil
	})
	for _, ask := range asks {
		ask.Call("addEventListener", "change", changed)
	}
	js.Global().Get("ResizeObserver").New(changed).Call("observe", rule)
	say()
}

// line puts an unseen line into the page that is as long as text is large for which the page asks no size of its own.
func line() js.Value {
	document := js.Global().Get("document")
	rule := document.Call("createElement", "div")
	for name, value := range map[string]string{"position": "fixed", "width": "1rem", "height": "0", "visibility": "hidden"} {
		rule.Get("style").Call("setProperty", name, value)
	}
	document.Get("documentElement").Call("append", rule)
	return rule
}
