package browser

import "strings"

// Point is a place in the tab, in CSS pixels.
type Point struct{ X, Y float64 }

// Press presses keys one after the other and lets each go: by the name of its place on a US keyboard ("KeyA", "Digit2", "Enter", "Space", "ArrowUp", "F1").
func (p *Page) Press(codes ...string) error {
	for _, code := range codes {
		if err := p.Key(code, true); err != nil {
			return err
		}
		if err := p.Key(code, false); err != nil {
			return err
		}
	}
	return nil
}

// named are the keys that write nothing, or a name: their virtual codes of the protocol.
var named = map[string]struct {
	key  string
	code int
}{
	"Enter": {"Enter", 13}, "Escape": {"Escape", 27}, "Space": {" ", 32}, "Tab": {"Tab", 9}, "Backspace": {"Backspace", 8}, "ArrowLeft": {"ArrowLeft", 37},
	"ArrowUp": {"ArrowUp", 38}, "ArrowRight": {"ArrowRight", 39}, "ArrowDown": {"ArrowDown", 40}, "PageUp": {"PageUp", 33}, "PageDown": {"PageDown", 34},
	"Home": {"Home", 36}, "End": {"End", 35}, "Delete": {"Delete", 46}, "ShiftLeft": {"Shift", 16}, "ControlLeft": {"Control", 17}, "AltLeft": {"Alt", 18},
	"Comma": {",", 188}, "Period": {".", 190}, "Slash": {"/", 191}, "Minus": {"-", 189}, "Equal": {"=", 187},
}

// Key presses a key or lets it go.
func (p *Page) Key(code string, down bool) error {
	k, known := named[code]
	switch {
	case known:
	case strings.HasPrefix(code, "Key"):
		k.key, k.code = strings.ToLower(code[3:]), int(code[3])
	case strings.HasPrefix(code, "Digit"):
		k.key, k.code = code[5:], int(code[5])
	case strings.HasPrefix(code, "F"):
		k.key, k.code = code, 111
		for _, d := range code[1:] {
			if k.code == 111 && len(code) == 3 {
				k.code = 111 + 10*int(d-'0')
				continue
			}
			k.code += int(d - '0')
		}
	}
	m := with{"type": "keyUp", "code": code, "key": k.key, "windowsVirtualKeyCode": k.code}
	if down {
		m["type"] = "rawKeyDown"
		switch {
		case len(k.key) == 1:
			m["type"], m["text"] = "keyDown", k.key
		case code == "Enter":
			m["type"], m["text"] = "keyDown", "\r"
		}
	}
	return p.Call("Input.dispatchKeyEvent", m, nil)
}

// Type writes text as an input method does, into whatever has the keyboard.
func (p *Page) Type(text string) error {
	return p.Call("Input.insertText", with{"text": text}, nil)
}

// Mouse moves the mouse to a place; what is "mouseMoved", "mousePressed" or "mouseReleased".
func (p *Page) Mouse(what string, at Point) error {
	m := with{"type": what, "x": at.X, "y": at.Y}
	if what != "mouseMoved" {
		m["button"], m["clickCount"] = "left", 1
	}
	return p.Call("Input.dispatchMouseEvent", m, nil)
}

// Click presses the mouse at a place and lets it go.
func (p *Page) Click(at Point) error {
	for _, what := range []string{"mouseMoved", "mousePressed", "mouseReleased"} {
		if err := p.Mouse(what, at); err != nil {
			return err
		}
	}
	return nil
}

// Wheel turns the wheel at a place, by CSS pixels.
func (p *Page) Wheel(at Point, dy float64) error {
	return p.Call("Input.dispatchMouseEvent", with{"type": "mouseWheel", "x": at.X, "y": at.Y, "deltaX": 0, "deltaY": dy}, nil)
}

// Drop drags files of this machine onto a place and lets them go there.
func (p *Page) Drop(at Point, files ...string) error {
	for _, what := range []string{"dragEnter", "dragOver", "drop"} {
		m := with{"type": what, "x": at.X, "y": at.Y, "data": with{"items": []with{}, "files": files, "dragOperationsMask": 1}}
		if err := p.Call("Input.dispatchDragEvent", m, nil); err != nil {
			return err
		}
	}
	return nil
}

// Touch says where fingers are: what is "touchStart", "touchMove" or "touchEnd" (then the fingers that stay).
func (p *Page) Touch(what string, fingers ...Point) error {
	list := []with{}
	for i, f := range fingers {
		list = append(list, with{"x": f.X, "y": f.Y, "id": i})
	}
	return p.Call("Input.dispatchTouchEvent", with{"type": what, "touchPoints": list}, nil)
}

// Tap touches a place and lifts the finger.
func (p *Page) Tap(at Point) error {
	if err := p.Touch("touchStart", at); err != nil {
		return err
	}
	return p.Touch("touchEnd")
}
