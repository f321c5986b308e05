package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
)

// xhand is a person's mouse and keyboard at an X server. The server itself is asked for what lies under them, so nothing here knows the window: the numbers are
// those of the extension XTEST, version 2.2 (FakeInput, request 2), and of the core protocol (QueryExtension, opcode 98; GetKeyboardMapping, 101).
type xhand struct {
	screen  *xscreen
	xtest   byte
	letters []uint32 // keysyms by keycode, in so many columns each; the second is with Shift
	columns int
}

// Kinds of events (X protocol, appendix B).
const (
	keyPress = iota + 2
	keyRelease
	buttonPress
	buttonRelease
	motion
)

// xEvery is how long the hand rests after each thing that it does: the window must have had a picture of it. What is pressed twice between two pictures counts
// once, and there are two or three pictures a second here (ours).
const xEvery = 400 * time.Millisecond

// keysyms are those of keys that write nothing, and of keys whose name is not what they write (X protocol, appendix A).
var keysyms = map[string]uint32{
	"Backspace": 0xff08, "Tab": 0xff09, "Enter": 0xff0d, "Esc": 0xff1b, "Home": 0xff50, "Left": 0xff51, "Up": 0xff52, "Right": 0xff53, "Down": 0xff54,
	"PageUp": 0xff55, "PageDown": 0xff56, "End": 0xff57, "Insert": 0xff63, "Shift": 0xffe1, "Control": 0xffe3, "Alt": 0xffe9, "Delete": 0xffff,
	"Space": ' ', "Comma": ',', "Period": '.', "Slash": '/', "Semicolon": ';', "Quote": '\'', "Minus": '-', "Equal": '=', "BracketLeft": '[', "BracketRight": ']',
	"Backslash": '\\', "Backquote": '`',
}

// keysym is that of a key by the name that the program has for it, 0 for none.
func keysym(name string) uint32 {
	if r := []rune(strings.ToLower(name)); len(r) == 1 {
		return uint32(r[0])
	}
	if n, err := strconv.Atoi(strings.TrimPrefix(name, "F")); err == nil && n >= 1 && n <= 12 {
		return 0xffbe + uint32(n) - 1
	}
	return keysyms[name]
}

func handAt(x *xscreen) (*xhand, error) {
	const name = "XTEST"
	req := make([]byte, 8, 16)
	req[0], req[4] = 98, byte(len(name))
	head, _, err := x.ask(append(req, name+"\x00\x00\x00"...))
	if err != nil {
		return nil, err
	}
	if head[8] == 0 {
		return nil, fmt.Errorf("the X server has no %s", name)
	}
	h := &xhand{screen: x, xtest: head[9]}
	head, data, err := x.ask([]byte{101, 0, 0, 0, x.keycodes[0], x.keycodes[1] - x.keycodes[0] + 1, 0, 0})
	if err != nil {
		return nil, err
	}
	h.columns = int(head[1])
	for i := 0; i < len(data); i += 4 {
		h.letters = append(h.letters, le.Uint32(data[i:]))
	}
	return h, nil
}

// does makes one event and rests for a while.
func (h *xhand) does(kind, detail byte, x, y int, rest time.Duration) error {
	req := make([]byte, 36)
	req[0], req[1], req[4], req[5] = h.xtest, 2, kind, detail
	le.PutUint32(req[12:], h.screen.root)
	le.PutUint16(req[24:], uint16(x))
	le.PutUint16(req[26:], uint16(y))
	err := h.screen.tell(req)
	time.Sleep(rest)
	return err
}

// keycode finds the key of a keysym, and whether it needs Shift.
func (h *xhand) keycode(sym uint32) (code byte, shift bool, err error) {
	i := slices.Index(h.letters, sym)
	if sym == 0 || i < 0 || i%h.columns > 1 {
		return 0, false, fmt.Errorf("no such key on this keyboard")
	}
	return h.screen.keycodes[0] + byte(i/h.columns), i%h.columns == 1, nil
}

// key puts a key down or lets it go.
func (h *xhand) key(name string, down bool) error {
	code, _, err := h.keycode(keysym(name))
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	if down {
		return h.does(keyPress, code, 0, 0, xEvery)
	}
	return h.does(keyRelease, code, 0, 0, xEvery)
}

// types writes one letter, with Shift where it needs that.
func (h *xhand) types(r rune) (err error) {
	code, shift, err := h.keycode(uint32(r)) // of Latin letters the keysym is the letter
	if err != nil {
		return fmt.Errorf("%c: %w", r, err)
	}
	if shift {
		if err := h.key("Shift", true); err != nil {
			return err
		}
		defer func() { closing(&err, func() error { return h.key("Shift", false) }) }()
	}
	if err := h.does(keyPress, code, 0, 0, xEvery); err != nil {
		return err
	}
	return h.does(keyRelease, code, 0, 0, xEvery)
}

// drags takes the mouse somewhere, presses, takes it elsewhere within a time, and lets go. It comes before it presses: what is pressed where nobody saw a
// mouse come is taken for a finger.
func (h *xhand) drags(x, y, toX, toY int, over time.Duration) error {
	err := h.does(motion, 0, x, y, xEvery)
	if err == nil {
		err = h.does(buttonPress, 1, 0, 0, xEvery)
	}
	const steps = 10
	for i := 1; i <= steps && err == nil && over > 0; i++ {
		err = h.does(motion, 0, x+(toX-x)*i/steps, y+(toY-y)*i/steps, over/steps)
	}
	if err == nil {
		err = h.does(buttonRelease, 1, 0, 0, xEvery)
	}
	return err
}
