// Package pageside is the program's side of the page that it stands in: what the page tells it, and what it tells the page.
//
// The page makes one object, propsoffPage, before the program runs; either side puts its own functions there. Where there is no such object, or not that
// function, nothing is told.
package pageside

import "syscall/js"

// Hears is what the program does with what the page tells. All of it is called within the browser's own turn, so it must not wait for anything.
type Hears struct {
	// Typed takes text from the page's own field: an end of line stands for Enter, \b for Backspace.
	Typed func(text string)
	// Hidden tells that nobody can see the page any more, or that it is seen again.
	Hidden func(is bool)
	// WouldLose tells whether the end of the page would lose something: then the browser asks before it closes it.
	WouldLose func() bool
	// Sheet answers, at once or later, with what is drawn, as JSON: what a report of a fault may hold, and what a test of the page reads.
	Sheet func(answer func(string))
}

// Listen lets the page tell from now on. It is never taken back: page and program end together.
func Listen(h Hears) {
	js.Global().Call("addEventListener", "beforeunload", js.FuncOf(func(_ js.Value, args []js.Value) any {
		if h.WouldLose() {
			args[0].Call("preventDefault")
		}
		return nil
	}))
	p := object()
	if !p.Truthy() {
		return
	}
	p.Set("typed", js.FuncOf(func(_ js.Value, args []js.Value) any {
		h.Typed(args[0].String())
		return nil
	}))
	p.Set("hidden", js.FuncOf(func(_ js.Value, args []js.Value) any {
		h.Hidden(args[0].Truthy())
		return nil
	}))
	p.Set("sheet", js.FuncOf(func(js.Value, []js.Value) any {
		return promised(func(answer func(any)) { h.Sheet(func(text string) { answer(text) }) })
	}))
	if js.Global().Get("document").Get("hidden").Truthy() { // it was hidden before anybody listened
		h.Hidden(true)
	}
}

// ByFinger tells whether a finger is what one points with first of all.
func ByFinger() bool {
	return js.Global().Call("matchMedia", "(pointer: coarse)").Get("matches").Truthy()
}

// Say has assistive technology read a text out when it has nothing else to read; Alarm at once. lang is the code of its language.
func Say(text, lang string) { tell("say", text, lang) }

// Alarm is Say of what cannot wait.
func Alarm(text, lang string) { tell("alarm", text, lang) }

// Language tells in which language the sheets are.
func Language(code string) { tell("language", code) }

// Unused tells that what the page's address asks for by a name cannot be had, and why.
func Unused(name, why string) { tell("unused", name, why) }

// Coloured tells of which colours the sheets are, as CSS has them by the names of the page's style sheet, and whether their ground is dark.
func Coloured(dark bool, colours map[string]string) {
	of := map[string]any{}
	for name, colour := range colours {
		of[name] = colour
	}
	tell("coloured", dark, of)
}

// Download gives a person a file.
func Download(name string, content []byte, kind string) {
	tell("download", name, bytes(content), kind)
}

// Asks tells what is to be typed now, empty for nothing, and what stands there: a phone has its keyboard only for a field of the page.
func Asks(what, typed string) { tell("asks", what, typed) }

// Pan moves what is larger than the screen by so many CSS pixels.
func Pan(across, down float64) { tell("pan", across, down) }

// Shown is closed once the page shows the program's first picture; at once where it does not tell.
func Shown() <-chan struct{} {
	is := make(chan struct{})
	shown := js.Undefined()
	if p := object(); p.Truthy() {
		shown = p.Get("shown")
	}
	if !shown.Truthy() {
		close(is)
		return is
	}
	var then js.Func
	then = js.FuncOf(func(js.Value, []js.Value) any {
		then.Release()
		close(is)
		return nil
	})
	shown.Call("then", then)
	return is
}

func object() js.Value { return js.Global().Get("propsoffPage") }

// tell calls a function of the page, where it has it.
func tell(name string, args ...any) {
	if p := object(); p.Truthy() && p.Get(name).Type() == js.TypeFunction {
		p.Call(name, args...)
	}
}

// promised is a promise of what ask is answered.
func promised(ask func(answer func(any))) js.Value {
	var begin js.Func
	begin = js.FuncOf(func(_ js.Value, args []js.Value) any {
		ask(func(it any) {
			args[0].Invoke(it)
			begin.Release()
		})
		return nil
	})
	return js.Global().Get("Promise").New(begin)
}
