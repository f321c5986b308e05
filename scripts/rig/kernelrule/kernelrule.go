// Package kernelrule says what Linux makes of an axis before a program sees it: the fuzz filter of the input core and
// the dead zone of the classic joystick interface. The rig feeds a real kernel and compares.
package kernelrule

// Axis is what the kernel holds of one axis: its limits and the noise it assumes, in raw steps.
type Axis struct {
	Min, Max, Fuzz, Flat int32
}

// Joystick gives the axis as drivers/hid/hid-input.c sets it up for an application collection Joystick or Gamepad:
// fuzz (max−min)>>8, flat (max−min)>>4 (drivers/hid/hid-input.c).
func Joystick(lo, hi int32) Axis {
	return Axis{Min: lo, Max: hi, Fuzz: (hi - lo) >> 8, Flat: (hi - lo) >> 4}
}

// Defuzz gives what the input core reports for value when it last reported old: input_defuzz_abs_event of
// drivers/input/input.c. Division is the integer division of C, which is Go's.
func (a Axis) Defuzz(value, old int32) int32 {
	f := a.Fuzz
	if f == 0 {
		return value
	}
	switch {
	case value > old-f/2 && value < old+f/2:
		return old
	case value > old-f && value < old+f:
		return (old*3 + value) / 4
	case value > old-f*2 && value < old+f*2:
		return (old + value) / 2
	}
	return value
}

// Correct gives what the classic interface reports for a value of the input core, −32767 to 32767: joydev_connect and
// joydev_correct of drivers/input/joydev.c.
func (a Axis) Correct(value int32) int32 {
	if a.Min == a.Max {
		return max(-32767, min(32767, value))
	}
	lo, hi, k := a.correction()
	out := int32(0)
	switch {
	case value <= lo:
		out = (k * (value - lo)) >> 14
	case value >= hi:
		out = (k * (value - hi)) >> 14
	}
	return max(-32767, min(32767, out))
}

// correction gives the ends of the dead zone and the factor outside it, as joydev_connect sets them up.
func (a Axis) correction() (lo, hi, k int32) {
	mid := (a.Max + a.Min) / 2
	if span := (a.Max-a.Min)/2 - 2*a.Flat; span != 0 {
		k = (1 << 29) / span
	}
	return mid - a.Flat, mid + a.Flat, k
}
