package pageside

import "syscall/js"

// Files is what the program does with files that the page gives or wants. Each may take its time.
type Files struct {
	// Take puts a file where it belongs and says what became of it.
	Take func(name string, data []byte) string
	// Kept lists as JSON what is kept; Read gives one of these files by its name, nil for none, and Pack all of them as one archive.
	Kept func() string
	Read func(name string) []byte
	Pack func() []byte
	// Link gives as JSON the link that gives a file away, by its name and the page's address.
	Link func(name, page string) string
	// With does something with one of these files, by its name, on the sheet of files: action is a code word of that sheet.
	With func(action, name string)
	// Opened tells what the page's own address carries behind its #.
	Opened func(fragment string) string
}

// Offer lets the page use them from now on.
func Offer(f Files) {
	p := object()
	if !p.Truthy() {
		return
	}
	set := func(name string, do func(args []js.Value) any) {
		p.Set(name, js.FuncOf(func(_ js.Value, args []js.Value) any {
			return promised(func(answer func(any)) { go func() { answer(do(args)) }() })
		}))
	}
	set("take", func(args []js.Value) any {
		data := make([]byte, args[1].Length())
		js.CopyBytesToGo(data, args[1])
		return f.Take(args[0].String(), data)
	})
	set("kept", func([]js.Value) any { return f.Kept() })
	set("read", func(args []js.Value) any { return bytes(f.Read(args[0].String())) })
	set("pack", func([]js.Value) any { return bytes(f.Pack()) })
	set("link", func(args []js.Value) any { return f.Link(args[0].String(), args[1].String()) })
	set("withFile", func(args []js.Value) any {
		f.With(args[0].String(), args[1].String())
		return nil
	})
	set("opened", func(args []js.Value) any { return f.Opened(args[0].String()) })
	tell("offered")
}

// bytes copies data for the page, null for nil.
func bytes(data []byte) js.Value {
	if data == nil {
		return js.Null()
	}
	to := js.Global().Get("Uint8Array").New(len(data))
	js.CopyBytesToJS(to, data)
	return to
}
