package fakeradio

import (
	"encoding/hex"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func unhex(t require.TestingT, s string) []byte {
	b, err := hex.DecodeString(strings.ReplaceAll(s, " ", ""))
	require.NoError(t, err)
	return b
}

// The bytes of a descriptor and of one report, worked out by hand from HID 1.11 section 6.2.2 and the HID Usage Tables.
func TestNine_DescriptorAndReportByHand(t *testing.T) {
	l := Nine().Layout
	got, err := l.Descriptor()
	require.NoError(t, err)
	assert.Equal(t, unhex(t, "05 01 09 04 a1 01 05 01 09 30 09 31 09 32 09 33 09 34 09 35 09 36 09 37 09 38 15 00 26 ff 07 75 10 95 09 81 02"+
		"05 09 19 01 29 15 15 00 25 01 75 01 95 15 81 02 75 03 95 01 81 01 c0"), got)
	assert.Equal(t, 21, l.ReportSize())

	r := l.Rest()
	r.Axes = []int32{0, 2047, 1023, 1024, 0, 0, 0, 0, 2047}
	r.Pressed[0], r.Pressed[20] = true, true
	assert.Equal(t, unhex(t, "00 00 ff 07 ff 03 00 04 00 00 00 00 00 00 00 00 ff 07 01 00 10"), l.Pack(r))
}

// The mouse of Documentation/hid/hidintro.rst: 3 buttons, 5 bits of padding, X, Y, wheel in 4 bytes (the document
// 3.2). The bytes are from memory; their number, 52, is the document's.
func TestParse_MouseOfTheKernelDocument(t *testing.T) {
	desc := unhex(t, "05 01 09 02 a1 01 09 01 a1 00 05 09 19 01 29 03 15 00 25 01 75 01 95 03 81 02 75 05 95 01 81 01"+
		"05 01 09 30 09 31 09 38 15 81 25 7f 75 08 95 03 81 06 c0 c0")
	require.Len(t, desc, 52)
	fields, err := Parse(desc)
	require.NoError(t, err)
	require.Len(t, fields, 7)
	for i := range 3 {
		assert.Equal(t, Field{Page: 9, Usage: uint32(i + 1), Bit: i, Bits: 1, Min: 0, Max: 1, Flags: flagVariable}, fields[i])
	}
	assert.True(t, fields[3].Constant())
	assert.Equal(t, 5, fields[3].Bits)
	for i, u := range []uint32{0x30, 0x31, 0x38} {
		f := fields[4+i]
		assert.Equal(t, [4]int{0x01, int(u), -127, 127}, [4]int{int(f.Page), int(f.Usage), int(f.Min), int(f.Max)})
		assert.True(t, f.Relative())
	}
	last := fields[6]
	assert.Equal(t, 32, last.Bit+last.Bits, "4 bytes")
	assert.EqualValues(t, -127, last.Value([]byte{0, 0, 0, 0x81}))
}

// Short items (Documentation/hid/hidintro.rst): logical limits are signed.
func TestDescriptor_SignedLimits(t *testing.T) {
	for v, want := range map[int32]string{127: "257f", 255: "26ff00", -1: "25ff", -127: "2581", -32768: "260080", 65535: "27ffff0000"} {
		var d descriptor
		d.signed(itemLogMax, v)
		assert.Equal(t, want, hex.EncodeToString(d.bytes), "%d", v)
		var p parser
		require.NoError(t, p.item(d.bytes[0]&^3, d.bytes[1:]))
		assert.Equal(t, v, p.max)
	}
}

func TestRadios_SizesAndFieldOrder(t *testing.T) {
	for _, c := range []struct {
		radio                       Radio
		bytes, axes, buttons, hats  int
		firstAxisBit, firstButtonAt int
	}{
		{Main(), 14, 7, 20, 1, 20, 0},
		{Nine(), 21, 9, 21, 0, 0, 144},
		{Signed(), 13, 6, 8, 0, 0, 96},
		{Small(), 4, 4, 0, 0, 0, -1},
	} {
		l := c.radio.Layout
		assert.Equal(t, [4]int{c.bytes, c.axes, c.buttons, c.hats},
			[4]int{l.ReportSize(), l.AxisCount(), l.ButtonCount(), l.HatCount()}, c.radio.Name)
		desc, err := l.Descriptor()
		require.NoError(t, err)
		fields, err := Parse(desc)
		require.NoError(t, err)
		axis, button := -1, -1
		for _, f := range fields {
			if f.Page == pageDesktop && f.Usage == UsageX {
				axis = f.Bit
			}
			if f.Page == pageButton && f.Usage == 1 {
				button = f.Bit
			}
		}
		assert.Equal(t, [2]int{c.firstAxisBit, c.firstButtonAt}, [2]int{axis, button}, c.radio.Name)
	}
}

func TestParse_SaysWhatIsWrong(t *testing.T) {
	for name, desc := range map[string]string{
		"long item": "fe 02 00 01 02", "cut short": "26 ff", "left open": "05 01 09 04 a1 01", "end without begin": "c0",
		"pop without push": "b4", "fields too wide": "75 40 95 01 81 02",
	} {
		_, err := Parse(unhex(t, desc))
		assert.ErrorContains(t, err, "descriptor byte", name)
	}
}

func TestDescriptor_RefusesWhatCannotBe(t *testing.T) {
	for name, l := range map[string]Layout{
		"nothing":         {},
		"ten axes":        {Parts: []Part{{Kind: Axes, Count: 10, Bits: 8, Max: 255}}},
		"too wide":        {Parts: []Part{{Kind: Axes, Count: 1, Bits: 8, Max: 256}}},
		"sign not stored": {Parts: []Part{{Kind: Axes, Count: 1, Bits: 8, Min: -1, Max: 128}}},
		"two hats":        {Parts: []Part{{Kind: Hat, Count: 2}}},
		"backwards":       {Parts: []Part{{Kind: Axes, Count: 1, Bits: 8, Min: 5, Max: 5}}},
	} {
		_, err := l.Descriptor()
		assert.Error(t, err, name)
	}
}

// For every layout the parser, which knows nothing of Layout, finds in a packed report what was put in.
func TestPack_ParserFindsWhatWasPutIn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLayout(t)
		r := l.Rest()
		for i := range r.Axes {
			lo, hi := l.AxisRange(i)
			r.Axes[i] = rapid.Int32Range(lo, hi).Draw(t, "axis")
		}
		for i := range r.Pressed {
			r.Pressed[i] = rapid.Bool().Draw(t, "pressed")
		}
		if l.HatCount() > 0 {
			r.Hat = rapid.SampledFrom([]int{0, 1, 2, 3, 4, 5, 6, 7, HatRest}).Draw(t, "hat")
		}
		desc, err := l.Descriptor()
		require.NoError(t, err)
		fields, err := Parse(desc)
		require.NoError(t, err)
		report := l.Pack(r)
		got := Report{Axes: make([]int32, len(r.Axes)), Pressed: make([]bool, len(r.Pressed)), Hat: r.Hat}
		bits := 0
		for _, f := range fields {
			bits = max(bits, f.Bit+f.Bits)
			switch {
			case f.Constant():
			case f.Page == pageButton:
				got.Pressed[f.Usage-1] = f.Value(report) != 0
			case f.Usage == UsageHat:
				got.Hat = int(f.Value(report))
			default:
				got.Axes[f.Usage-UsageX] = f.Value(report)
			}
		}
		require.Equal(t, len(report)*8, bits, "the fields and the padding fill the report")
		require.Equal(t, r, got)
	})
}

func drawLayout(t *rapid.T) Layout {
	parts := []Part{{Kind: Buttons, Count: rapid.IntRange(1, 32).Draw(t, "buttons")}}
	bits := rapid.IntRange(2, 32).Draw(t, "bits")
	p := Part{Kind: Axes, Count: rapid.IntRange(1, 9).Draw(t, "axes"), Bits: bits}
	top := int64(1)<<(bits-1) - 1
	p.Max = int32(top)
	if rapid.Bool().Draw(t, "signed") {
		p.Min = int32(-top - 1)
	}
	parts = append(parts, p)
	if rapid.Bool().Draw(t, "hat") {
		parts = append(parts, Part{Kind: Hat, Count: 1})
	}
	return Layout{Parts: rapid.Permutation(parts).Draw(t, "order")}
}

// Offsets of struct uhid_create2_req in include/uapi/linux/uhid.h (read from the header: packed, after a 32-bit type).
func TestCreateEvent_FollowsTheHeader(t *testing.T) {
	r := Nine()
	b, err := createEvent(r)
	require.NoError(t, err)
	require.Len(t, b, 4+128+64+64+2+2+4*4+4096)
	assert.Equal(t, byte(11), b[0], "UHID_CREATE2")
	assert.Equal(t, r.Name+"\x00", string(b[4:4+len(r.Name)+1]))
	assert.Equal(t, r.Port+"\x00", string(b[132:132+len(r.Port)+1]))
	assert.Equal(t, r.Serial+"\x00", string(b[196:196+len(r.Serial)+1]))
	assert.Equal(t, unhex(t, "3c 00 03 00 0f 7e 00 00 09 0b 00 00"), b[260:272], "size 60, bus 3, vendor, product")
	assert.Equal(t, unhex(t, "05 01 09 04"), b[280:284])
	assert.Equal(t, unhex(t, "0c 00 00 00 03 00 0a 0b 0c"), inputEvent(nil, []byte{10, 11, 12}))

	r.Name = strings.Repeat("x", 128)
	_, err = createEvent(r)
	assert.Error(t, err)
}
