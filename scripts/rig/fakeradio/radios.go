package fakeradio

// Radio is a device as the kernel will see it. Names and numbers are invented: no maker uses them.
type Radio struct {
	Name    string // at most 127 bytes
	Port    string // where it claims to be plugged in, at most 63 bytes
	Serial  string // at most 63 bytes
	Vendor  uint32
	Product uint32
	Layout  Layout
}

// vendor is an invented number.
const vendor = 0x7e0f

// Main is the rig's own radio: 20 buttons, then 7 axes of 12 bits, then a hat, in 14 bytes.
func Main() Radio {
	return Radio{
		Name: "Plover Seven", Port: "rig/plover/1", Serial: "PL-0007", Vendor: vendor, Product: 0x0a07,
		Layout: Layout{Parts: []Part{
			{Kind: Buttons, Count: 20},
			{Kind: Axes, Count: 7, Bits: 12, Min: 0, Max: 4095},
			{Kind: Hat, Count: 1},
		}},
	}
}

// Nine has 9 axes of 11 bits in 16-bit fields, as many as a layout can have, then 21 buttons and 3 bits of padding.
func Nine() Radio {
	return Radio{
		Name: "Dunlin Nine", Port: "rig/dunlin/1", Serial: "DU-0021", Vendor: vendor, Product: 0x0b09,
		Layout: Layout{Parts: []Part{
			{Kind: Axes, Count: 9, Bits: 16, Min: 0, Max: 2047},
			{Kind: Buttons, Count: 21},
		}},
	}
}

// Signed has 6 axes of 16 bits from -32768 to 32767, and 8 buttons.
func Signed() Radio {
	return Radio{
		Name: "Knot Sixteen", Port: "rig/knot/1", Serial: "KN-0016", Vendor: vendor, Product: 0x0c06,
		Layout: Layout{Parts: []Part{
			{Kind: Axes, Count: 6, Bits: 16, Min: -32768, Max: 32767},
			{Kind: Buttons, Count: 8},
		}},
	}
}

// Small has 4 axes of 8 bits from 0 to 255, and no button at all.
func Small() Radio {
	return Radio{
		Name: "Stint Four", Port: "rig/stint/1", Serial: "ST-0004", Vendor: vendor, Product: 0x0d04,
		Layout: Layout{Parts: []Part{{Kind: Axes, Count: 4, Bits: 8, Min: 0, Max: 255}}},
	}
}

// All gives the four radios in the order in which the rig plugs them in.
func All() []Radio { return []Radio{Main(), Nine(), Signed(), Small()} }
