package usb

import (
	"encoding/binary"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/input"
)

func jsEvent(b []byte, stamp uint32, value int16, typ, number uint8) []byte {
	b = binary.NativeEndian.AppendUint32(b, stamp)
	b = binary.NativeEndian.AppendUint16(b, uint16(value))
	return append(b, typ, number)
}

// jsBurst is the whole state as the kernel gives it: all buttons, then all axes.
func jsBurst(stamp uint32, buttons []int16, axes []int16) []byte {
	var b []byte
	for i, v := range buttons {
		b = jsEvent(b, stamp, v, jsButton|jsInit, uint8(i))
	}
	for i, v := range axes {
		b = jsEvent(b, stamp, v, jsAxis|jsInit, uint8(i))
	}
	return b
}

func newTestClassic(buttons, axes int) (*classicDecoder, *int64) {
	now := new(int64)
	return &classicDecoder{out: newQueue(), axes: axes, buttons: buttons, clock: func() int64 { return *now }}, now
}

func TestClassicEventBytes(t *testing.T) {
	littleEndian(t)
	// include/uapi/linux/joystick.h, struct js_event, laid out by hand: time 0x12345678, value -32767, AXIS|INIT, number 3.
	d, _ := newTestClassic(0, 4)
	require.Equal(t, 8, d.feed(bytesOf(t, "78 56 34 12 01 80 82 03")))
	got := polled(t, d.out)
	require.Len(t, got, 1, "the last of the burst")
	assert.Equal(t, int32(-32767), got[0].Axes[3])
	assert.Equal(t, uint32(0x12345678), d.stamp)
	require.Zero(t, d.feed(bytesOf(t, "78 56 34 12 01 80 82")), "half an event stays where it is")
}

func TestClassicStartsWithAWholeBurst(t *testing.T) {
	// drivers/input/joydev.c: buttons first, then axes.
	buttons, axes := make([]int16, 24), make([]int16, 8)
	buttons[23], axes[7] = 1, -500
	b := jsBurst(7, buttons, axes)
	for i := range 32 {
		assert.Equal(t, []byte{0x81, 0x82}[i/24], b[i*8+6], "type of event %d", i)
	}
	d, _ := newTestClassic(24, 8)
	d.feed(b[:len(b)-8])
	require.Empty(t, polled(t, d.out), "no state before it is whole")
	require.False(t, d.started)
	d.feed(b[len(b)-8:])
	got := polled(t, d.out)
	require.Len(t, got, 1)
	require.True(t, d.started)
	assert.True(t, got[0].Button(23))
	assert.Equal(t, int32(-500), got[0].Axes[7])
	assert.False(t, got[0].Resync, "the first state is no loss")
}

func TestClassicSecondBurstResynchronises(t *testing.T) {
	d, _ := newTestClassic(2, 2)
	d.feed(jsBurst(1, []int16{0, 0}, []int16{0, 0}))
	polled(t, d.out)
	var b []byte
	b = jsEvent(b, 5, 100, jsAxis, 0)
	b = append(b, jsBurst(6, []int16{1, 0}, []int16{200, 300})...)
	b = jsEvent(b, 7, 0, jsButton, 0)
	d.feed(b)
	got := polled(t, d.out)
	require.Len(t, got, 3)
	assert.Equal(t, []bool{false, true, false}, []bool{got[0].Resync, got[1].Resync, got[2].Resync})
	assert.Equal(t, []int32{100, 0}, got[0].Axes[:2])
	assert.Equal(t, []int32{200, 300}, got[1].Axes[:2], "all of it at once")
	assert.True(t, got[1].Button(0))
	assert.False(t, got[2].Button(0))

	// A burst that begins again half way, because events were dropped again, is one burst.
	b = jsBurst(8, []int16{1, 1}, []int16{1, 1})[:2*8]
	d.feed(append(b, jsBurst(9, []int16{0, 1}, []int16{2, 3})...))
	got = polled(t, d.out)
	require.Len(t, got, 1)
	assert.True(t, got[0].Resync)
	assert.False(t, got[0].Button(0))
	assert.Equal(t, []int32{2, 3}, got[0].Axes[:2])

	// One that is broken off by an ordinary event: what is known is a loss, then the event.
	b = jsBurst(10, []int16{1, 1}, nil)
	d.feed(jsEvent(b, 11, -9, jsAxis, 1))
	got = polled(t, d.out)
	require.Len(t, got, 2)
	assert.True(t, got[0].Resync)
	assert.False(t, got[1].Resync)
	assert.Equal(t, int32(-9), got[1].Axes[1])
}

func TestClassicEventsOfOneStampAreOneState(t *testing.T) {
	d, _ := newTestClassic(1, 2)
	d.feed(jsBurst(1, []int16{0}, []int16{0, 0}))
	polled(t, d.out)
	var b []byte
	b = jsEvent(b, 5, 100, jsAxis, 0)
	b = jsEvent(b, 5, -100, jsAxis, 1)
	b = jsEvent(b, 6, 101, jsAxis, 0)
	d.feed(b)
	got := polled(t, d.out)
	require.Len(t, got, 2)
	assert.Equal(t, []int32{100, -100}, got[0].Axes[:2])
	assert.Equal(t, []int32{101, -100}, got[1].Axes[:2])
}

func TestClassicIgnoresWhatTheRadioDoesNotHave(t *testing.T) {
	d, _ := newTestClassic(200, 40)
	d.feed(jsBurst(1, make([]int16, 200), make([]int16, 40)))
	require.Len(t, polled(t, d.out), 1)
	var b []byte
	b = jsEvent(b, 2, 1, jsAxis, 40)
	b = jsEvent(b, 2, 1, jsButton, 200)
	b = jsEvent(b, 2, 1, 0x7f, 0)
	d.feed(b)
	require.Empty(t, polled(t, d.out))
	b = jsEvent(nil, 3, 1, jsAxis, input.MaxAxes)
	b = jsEvent(b, 3, 1, jsButton, input.MaxButtons)
	b = jsEvent(b, 3, -32768, jsAxis, 31)
	d.feed(b)
	got := polled(t, d.out)
	require.Len(t, got, 1)
	assert.Equal(t, int32(-32767), got[0].Axes[31])
	assert.Zero(t, got[0].Buttons)
}

func TestClassicTimesAreOnOurClock(t *testing.T) {
	d, now := newTestClassic(0, 1)
	*now = 1_000_000
	at := func(stamp uint32, arrival int64) int64 {
		*now = arrival
		d.feed(jsEvent(nil, stamp, int16(stamp), jsAxis, 0))
		got := polled(t, d.out)
		require.Len(t, got, 1)
		return got[0].At
	}
	d.feed(jsEvent(nil, 4294967000, 0, jsAxis|jsInit, 0))
	polled(t, d.out)
	assert.Equal(t, int64(1_100_300), at(4294967100, 1_100_300), "the time of arrival is finer than the stamp")
	assert.Equal(t, int64(1_210_000), at(4294967200, 1_900_000), "a reader that was 700 ms late believes the stamp")
	assert.Equal(t, int64(1_900_100), at(604, 1_900_100), "the stamp's overflow, 900 ms after the first, is no jump")
	assert.Equal(t, int64(1_900_100), at(605, 1_900_000), "never back")
}

func FuzzClassicDecoder(f *testing.F) {
	f.Add(jsBurst(1, []int16{0, 1}, []int16{5, -5}))
	f.Add(jsEvent(jsBurst(1, []int16{0, 1}, []int16{5, -5})[:24], 2, 7, jsAxis, 0))
	f.Fuzz(func(t *testing.T, b []byte) {
		d, _ := newTestClassic(2, 2)
		if used := d.feed(b); used != len(b)/8*8 {
			t.Fatalf("used %d of %d bytes", used, len(b))
		}
		states, err := d.out.poll(nil)
		if err != nil || len(states) > len(b)/8 {
			t.Fatalf("%d states of %d bytes, %v", len(states), len(b), err)
		}
		for _, s := range states {
			if s.Axes[0] < -32767 || s.Axes[1] < -32767 || s.Buttons[0] > 3 {
				t.Fatalf("impossible state %v", s)
			}
		}
	})
}
