package fakeradio

// The radios that learning and the controls check are held against. Each has traits of its own; names are invented.
// Widths in comments are what the raw value means when the field's lowest, middle and highest value are 988, 1500 and
// 2012 µs.

// Whole is the healthy one: 9 axes, one of them without a control, and 21 buttons, switches of two, three and six levels on axes, a knob, a key.
func Whole() Made {
	return Made{
		Radio: Nine(), Noise: 1,
		Controls: []Control{
			stick("roll", 0, 0, 1023, 2047),
			stick("pitch", 1, 0, 1023, 2047),
			throttle(2, 0, 2047),
			stick("yaw", 3, 0, 1024, 2047),
			switched("arm", 4, levels(0, 2047)),
			switched("mode", 5, levels(0, 1024, 2047)),
			switched("channel 7", 6, levels(0, 409, 819, 1228, 1638, 2047)),
			{Job: "channel 8", Grip: Knob, Axis: 7, Low: 0, Rest: 0, High: 2047},
			{Job: "channel 9", Grip: Key, Axis: Nothing, Places: buttons(Nothing, 20)},
		},
	}
}

// Leaning has 6 axes of 12 bits, 10 buttons and a hat. Its arm switch is one button, its mode switch has three positions on
// two buttons, and roll rests 30 µs above the centre.
func Leaning() Made {
	hat := Control{Job: "channel 7", Grip: Key, Axis: Nothing, Places: []Place{
		{Button: Nothing, Hat: Nothing}, {Button: Nothing, Hat: 0},
	}}
	return Made{
		Radio: Radio{
			Name: "Redshank Hat", Port: "rig/redshank/1", Serial: "RH-0610", Vendor: vendor, Product: 0x0e06,
			Layout: Layout{Parts: []Part{
				{Kind: Axes, Count: 6, Bits: 12, Min: 0, Max: 4095},
				{Kind: Hat, Count: 1},
				{Kind: Buttons, Count: 10},
			}},
		},
		Noise: 1,
		Controls: []Control{
			throttle(0, 0, 4095),
			stick("yaw", 1, 0, 2048, 4095),
			stick("roll", 2, 0, 2167, 4095), // 1529.9 µs
			stick("pitch", 3, 0, 2047, 4095),
			switched("arm", Nothing, buttons(Nothing, 2)),
			switched("mode", Nothing, buttons(4, Nothing, 5)),
			hat,
		},
	}
}

// Turned is the 16-bit signed one: throttle and pitch run backwards, and so does the arm switch; the levels of the mode
// switch stop short of the ends.
func Turned() Made {
	return Made{
		Radio: Signed(), Noise: 20,
		Controls: []Control{
			stick("pitch", 0, 32767, 0, -32768),
			stick("roll", 1, -32768, -1, 32767),
			stick("yaw", 2, -32768, 0, 32767),
			throttle(3, 32767, -32768),
			switched("arm", 4, levels(32767, -32768)),
			switched("mode", 5, levels(-30000, 0, 30000)),
		},
	}
}

// Keyed has 6 axes of 8 bits, and all its switches are buttons: a row of three, a row of six, and a key.
func Keyed() Made {
	return Made{
		Radio: Radio{
			Name: "Sanderling Row", Port: "rig/sanderling/1", Serial: "SR-0618", Vendor: vendor, Product: 0x0f06,
			Layout: Layout{Parts: []Part{
				{Kind: Buttons, Count: 18},
				{Kind: Axes, Count: 6, Bits: 8, Min: 0, Max: 255},
			}},
		},
		Controls: []Control{
			stick("yaw", 0, 0, 128, 255),
			throttle(1, 0, 255),
			stick("roll", 2, 0, 127, 255),
			stick("pitch", 3, 0, 128, 255),
			switched("arm", Nothing, buttons(Nothing, 17)),
			switched("mode", Nothing, buttons(6, 7, 8)),
			switched("channel 7", Nothing, buttons(10, 11, 12, 13, 14, 15)),
			{Job: "channel 8", Grip: Key, Axis: Nothing, Places: buttons(Nothing, 0)},
		},
	}
}

// Short has 6 axes of 11 bits and 4 buttons. Its throttle ends at 1012 µs: a craft that wants less than 1000 never arms.
func Short() Made {
	return Made{
		Radio: Radio{
			Name: "Turnstone Short", Port: "rig/turnstone/1", Serial: "TS-0604", Vendor: vendor, Product: 0x1006,
			Layout: Layout{Parts: []Part{
				{Kind: Axes, Count: 6, Bits: 11, Min: 0, Max: 2047},
				{Kind: Buttons, Count: 4},
			}},
		},
		Controls: []Control{
			stick("roll", 0, 0, 1023, 2047),
			stick("pitch", 1, 0, 1023, 2047),
			throttle(2, 48, 2047), // 1012.01 µs
			stick("yaw", 3, 0, 1023, 2047),
			switched("arm", 4, levels(0, 2047)),
			switched("mode", 5, levels(0, 1024, 2047)),
		},
	}
}

// Restless has 8 axes of 11 bits, each with noise of 8 raw steps (4 µs), and 8 buttons.
func Restless() Made {
	return Made{
		Radio: Radio{
			Name: "Whimbrel Worn", Port: "rig/whimbrel/1", Serial: "WW-0808", Vendor: vendor, Product: 0x1108,
			Layout: Layout{Parts: []Part{
				{Kind: Axes, Count: 8, Bits: 16, Min: 0, Max: 2047},
				{Kind: Buttons, Count: 8},
			}},
		},
		Noise: 8,
		Controls: []Control{
			throttle(0, 0, 2047),
			stick("roll", 1, 0, 1023, 2047),
			stick("pitch", 2, 0, 1023, 2047),
			stick("yaw", 3, 0, 1023, 2047),
			switched("mode", 4, levels(0, 1024, 2047)),
			switched("arm", 6, levels(100, 1940)),
			{Job: "channel 7", Grip: Knob, Axis: 7, Low: 0, Rest: 1023, High: 2047},
		},
	}
}

// Twins are two of one kind, told apart by their serial numbers alone. A pilot put their sticks together differently:
// what is roll on one is yaw on the other.
func Twins() (a, b Made) {
	a = Made{
		Radio: Radio{
			Name: "Lapwing Pair", Port: "rig/lapwing/1", Serial: "LP-0001", Vendor: vendor, Product: 0x1205,
			Layout: Layout{Parts: []Part{
				{Kind: Axes, Count: 5, Bits: 12, Min: 0, Max: 4095},
				{Kind: Buttons, Count: 4},
			}},
		},
		Controls: []Control{
			stick("roll", 0, 0, 2047, 4095),
			stick("pitch", 1, 0, 2047, 4095),
			throttle(2, 0, 4095),
			stick("yaw", 3, 0, 2047, 4095),
			switched("arm", 4, levels(0, 4095)),
		},
	}
	b = a.Twin("LP-0002", "rig/lapwing/2")
	b.Controls[0].Axis, b.Controls[3].Axis = 3, 0
	return a, b
}

// Attended is the one that a person moves by commands, the same as in scripts/attended: four directions of sticks, a lever of two places, one of three, a knob, an axis that nothing
// moves, and two buttons.
func Attended() Made {
	return Made{
		Radio: Radio{
			Name: "Moorland Desk 7", Port: "rig/moorland/1", Serial: "A12", Vendor: vendor, Product: 0x1308,
			Layout: Layout{Parts: []Part{
				{Kind: Axes, Count: 8, Bits: 16, Min: 0, Max: 2047},
				{Kind: Buttons, Count: 2},
			}},
		},
		Noise: 1,
		Controls: []Control{
			stick("roll", 0, 0, 1023, 2047),
			stick("pitch", 1, 0, 1023, 2047),
			throttle(2, 0, 2047),
			stick("yaw", 3, 0, 1023, 2047),
			switched("lever of two", 4, levels(0, 2047)),
			switched("lever of three", 5, levels(0, 1024, 2047)),
			{Job: "knob", Grip: Knob, Axis: 6, Low: 0, Rest: 0, High: 2047},
			switched("button 1", Nothing, buttons(Nothing, 0)),
			switched("button 2", Nothing, buttons(Nothing, 1)),
		},
	}
}

// Fleet gives those that are learned, the second of the twins last.
func Fleet() []Made {
	a, b := Twins()
	return []Made{Whole(), Leaning(), Turned(), Keyed(), Short(), Restless(), a, b}
}
