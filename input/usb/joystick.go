package usb

import (
	"errors"
	"strconv"
	"strings"

	"propsoff.example/input"
)

// Codes that tell a joystick from other devices. Source: include/uapi/linux/input-event-codes.h.
const (
	absX, absY, absRudder = 0x00, 0x01, 0x07

	relX      = 0x00
	btnMisc   = 0x100
	btnMouse  = 0x110 // the left button
	btnJoy    = 0x120 // joystick buttons, then gamepad buttons
	btnDigi   = 0x140 // pens, fingers, touch
	btnWheel  = 0x150
	btnHappy  = 0x2c0
	btnBeyond = 0x2e8

	propPointer, propDirect, propAccelerometer = 0, 1, 6
)

// enoughAxes is how many of the eight stick axes make a joystick of a device without any button (ours).
const enoughAxes = 4

// set is a set of event codes, bit by bit, as the kernel gives it.
type set [keyCount / 64]uint64

func (s *set) has(n int) bool { return s[n/64]>>(n%64)&1 == 1 }

// any tells whether a code from lo up to, but not including, hi is in the set.
func (s *set) any(lo, hi int) bool {
	for n := lo; n < hi; n++ {
		if s.has(n) {
			return true
		}
	}
	return false
}

// errBadSet is what parseSet says; nobody is told of it.
var errBadSet = errors.New("bad-set")

// parseSet reads a set as sysfs prints it: words of word bits, highest first, in base 16.
// Source: drivers/input/input.c, input_print_bitmap.
func parseSet(text string, word int) (set, error) {
	var s set
	fields := strings.Fields(text)
	for i, f := range fields {
		v, err := strconv.ParseUint(f, 16, 64)
		if err != nil || word < 64 && v>>word != 0 {
			return set{}, errBadSet
		}
		at := (len(fields) - 1 - i) * word
		if at/64 >= len(s) {
			if v != 0 {
				return set{}, errBadSet
			}
			continue
		}
		s[at/64] |= v << (at % 64)
	}
	return s, nil
}

// caps is what a device can send.
type caps struct{ keys, abs, rel, props set }

// joystick tells whether a device is one that hands hold: it has axes, and buttons that only joysticks and gamepads have, or
// no buttons but many axes, or the kernel itself made a joystick of it (sibling). Tablets, touchpads, mice, keyboards with
// a stray axis and accelerometers are none.
func (c *caps) joystick(sibling bool) bool {
	if !c.abs.any(0, absCount) {
		return false
	}
	if c.props.has(propAccelerometer) || c.props.has(propPointer) || c.props.has(propDirect) || c.keys.any(btnDigi, btnWheel) {
		return false
	}
	if c.rel.has(relX) && c.keys.has(btnMouse) && !c.keys.any(btnJoy, btnDigi) {
		return false
	}
	if c.keys.any(btnJoy, btnDigi) || c.keys.any(btnHappy, btnBeyond) || sibling {
		return true
	}
	n := 0
	for code := absX; code <= absRudder; code++ {
		if c.abs.has(code) {
			n++
		}
	}
	return n >= enoughAxes && c.abs.has(absX) && c.abs.has(absY) && !c.keys.any(0, btnMisc)
}

// axes gives the axis codes in ascending order, which is the classic interface's order too, MaxAxes at most.
// Source: drivers/input/joydev.c, joydev_connect.
func (c *caps) axes() []uint16 {
	var codes []uint16
	for n := 0; n < absCount && len(codes) < input.MaxAxes; n++ {
		if c.abs.has(n) {
			codes = append(codes, uint16(n))
		}
	}
	return codes
}

// buttons gives the button codes in the classic interface's order: from the first joystick button up, then those below it
// down to the first that is no keyboard key; MaxButtons at most. Source: drivers/input/joydev.c, joydev_connect.
func (c *caps) buttons() []uint16 {
	var codes []uint16
	for n := btnJoy; n < keyCount; n++ {
		if c.keys.has(n) {
			codes = append(codes, uint16(n))
		}
	}
	for n := btnMisc; n < btnJoy; n++ {
		if c.keys.has(n) {
			codes = append(codes, uint16(n))
		}
	}
	return codes[:min(len(codes), input.MaxButtons)]
}

// text cuts a name that the system padded with zero bytes, and trims it.
func text(b []byte) string {
	s, _, _ := strings.Cut(string(b), "\x00")
	return strings.TrimSpace(strings.ToValidUTF8(s, "?"))
}

func isHat(code int) bool { return code >= absHat0X && code <= absHat3Y }
