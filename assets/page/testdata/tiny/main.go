// Command tiny stands in for the program in tests of the page: it draws once, and says what it was told.
package main

import (
	"os"
	"strings"
	"syscall/js"
)

func main() {
	page, document := js.Global().Get("propsoffPage"), js.Global().Get("document")
	for _, name := range []string{"typed", "hidden"} {
		js.Global().Set(name, js.Global().Get("Array").New())
		page.Set(name, js.FuncOf(func(_ js.Value, args []js.Value) any {
			js.Global().Get(name).Call("push", args[0])
			return nil
		}))
	}
	page.Set("take", js.FuncOf(func(_ js.Value, args []js.Value) any {
		return js.Global().Get("Promise").Call("resolve", "took "+args[0].String())
	}))
	end := make(chan struct{})
	js.Global().Set("end", js.FuncOf(func(js.Value, []js.Value) any { close(end); return nil }))
	js.Global().Set("args", strings.Join(os.Args[1:], " "))
	js.Global().Set("home", os.Getenv("HOME"))
	canvas := document.Call("createElement", "canvas")
	canvas.Set("width", 300)
	canvas.Set("tabIndex", 1)
	document.Get("body").Call("appendChild", canvas)
	<-end
	os.Exit(3)
}
