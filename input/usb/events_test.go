package usb

import (
	"encoding/binary"
	"encoding/hex"
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/input"
)

// twoAxes is a small radio: X and Y of 0..2047, two joystick buttons.
func twoAxes() (input.Info, []uint16) {
	return input.Info{
		Name: "Curlew Field 2", Buttons: 2,
		Axes: []input.Axis{{Code: 0, Max: 2047}, {Code: 1, Max: 2047}},
	}, []uint16{0x120, 0x121}
}

func newTestDecoder(ask func(*input.Raw) error) *eventDecoder {
	info, keys := twoAxes()
	if ask == nil {
		ask = func(*input.Raw) error { return nil }
	}
	d := newEventDecoder(newQueue(), &info, keys, ask, 0)
	d.clock = func() int64 { return 0 }
	return d
}

// polled gives what waits in a decoder's queue.
func polled(t *testing.T, q *queue) []input.Raw {
	t.Helper()
	states, err := q.poll(nil)
	require.NoError(t, err)
	return states
}

func bytesOf(t *testing.T, s string) []byte {
	t.Helper()
	b, err := hex.DecodeString(strings.ReplaceAll(s, " ", ""))
	require.NoError(t, err)
	return b
}

func littleEndian(t *testing.T) {
	t.Helper()
	if binary.NativeEndian.Uint16([]byte{1, 0}) != 1 {
		t.Skip("the written-out bytes are those of a little-endian machine")
	}
}

func TestEventBytes(t *testing.T) {
	littleEndian(t)
	// include/uapi/linux/input.h, struct input_event, laid out by hand.
	for name, x := range map[string]struct {
		long          int
		event, report string
	}{
		"64 bit": {8, "01 00 00 00 00 00 00 00 20 a1 07 00 00 00 00 00 03 00 00 00 ff 03 00 00",
			"01 00 00 00 00 00 00 00 20 a1 07 00 00 00 00 00 00 00 00 00 00 00 00 00"},
		"32 bit": {4, "01 00 00 00 20 a1 07 00 03 00 00 00 ff 03 00 00", "01 00 00 00 20 a1 07 00 00 00 00 00 00 00 00 00"},
	} {
		d := newTestDecoder(nil)
		d.long = x.long
		b := append(bytesOf(t, x.event), bytesOf(t, x.report)...)
		require.Equal(t, len(b)/2, d.feed(b[:len(b)-1]), name+": half an event stays where it is")
		require.Empty(t, polled(t, d.out), name+": a packet counts when it is whole")
		require.Equal(t, len(b)/2, d.feed(b[len(b)/2:]))
		got := polled(t, d.out)
		require.Len(t, got, 1, name)
		assert.Equal(t, int64(1_500_000), got[0].At, name)
		assert.Equal(t, int32(1023), got[0].Axes[0], name)
		assert.False(t, got[0].Resync)
	}
}

func TestAppendEventIsTheKernelsLayout(t *testing.T) {
	littleEndian(t)
	if nativeLong != 8 {
		t.Skip("the written-out bytes are those of a 64-bit machine")
	}
	assert.Equal(t, bytesOf(t, "01 00 00 00 00 00 00 00 20 a1 07 00 00 00 00 00 03 00 00 00 ff 03 00 00"),
		AppendEvent(nil, 1_500_000, evAbs, 0, 1023))
}

func TestTwoAxesOfOnePacketMoveAtOneInstant(t *testing.T) {
	// Documentation/input/event-codes.rst: a packet is everything up to SYN_REPORT.
	d := newTestDecoder(nil)
	var b []byte
	b = AppendEvent(b, 10, evAbs, 0, 100)
	b = AppendEvent(b, 11, evAbs, 1, 200)
	b = AppendEvent(b, 11, evKey, 0x121, 1)
	b = AppendEvent(b, 12, evSyn, synReport, 0)
	b = AppendEvent(b, 20, evAbs, 1, 201)
	b = AppendEvent(b, 20, evSyn, synReport, 0)
	d.feed(b)
	got := polled(t, d.out)
	require.Len(t, got, 2)
	assert.Equal(t, int64(12), got[0].At)
	assert.Equal(t, []int32{100, 200}, got[0].Axes[:2])
	assert.True(t, got[0].Button(1))
	assert.False(t, got[0].Button(0))
	assert.Equal(t, []int32{100, 201}, got[1].Axes[:2], "what was not said again stays")
	assert.True(t, got[1].Button(1))
}

func TestDroppedEventsAreAskedAfresh(t *testing.T) {
	// Documentation/input/event-codes.rst, SYN_DROPPED: "ignore all events up to and including next SYN_REPORT event and
	// query the device".
	asked := 0
	d := newTestDecoder(func(s *input.Raw) error {
		asked++
		s.Axes[0], s.Axes[1] = 700, 5000
		setBit(s, 1, true)
		return nil
	})
	d.now.Buttons[0] = 1
	var b []byte
	b = AppendEvent(b, 1, evAbs, 0, 5)
	b = AppendEvent(b, 2, evSyn, synDropped, 0)
	b = AppendEvent(b, 3, evAbs, 1, 9)
	d.feed(b)
	require.False(t, d.lost(), "not before the next SYN_REPORT")
	d.feed(AppendEvent(nil, 4, evSyn, synReport, 0))
	require.True(t, d.lost())
	require.Empty(t, polled(t, d.out), "nothing before the answer")
	require.NoError(t, d.resync())
	require.Positive(t, d.unsettled())
	require.Empty(t, polled(t, d.out), "the rest of a report may follow")
	d.settle()
	require.Zero(t, d.unsettled())
	got := polled(t, d.out)
	require.Len(t, got, 1)
	assert.Equal(t, 1, asked)
	assert.True(t, got[0].Resync)
	assert.Equal(t, int64(4), got[0].At)
	assert.Equal(t, []int32{700, 2047}, got[0].Axes[:2], "the answers, kept within the range")
	assert.Equal(t, uint64(2), got[0].Buttons[0], "buttons too: the first is released, the second pressed")

	b = AppendEvent(nil, 5, evAbs, 1, 9)
	d.feed(AppendEvent(b, 5, evSyn, synReport, 0))
	got = polled(t, d.out)
	require.Len(t, got, 1)
	assert.False(t, got[0].Resync, "the mark stands on one state only")
	assert.Equal(t, []int32{700, 9}, got[0].Axes[:2])
}

func TestAnAnswerInTheMiddleOfAReportIsCompleted(t *testing.T) {
	// The counter goes from 511 to 512, and the kernel is asked when it has released six of the nine buttons.
	p := counter16()
	d := newEventDecoder(newQueue(), &p.Info, p.Keys, func(s *input.Raw) error { s.Buttons[0] = 511 &^ 63; return nil }, 0)
	d.clock = func() int64 { return 2 }
	lose := func(at int64) {
		d.feed(AppendEvent(AppendEvent(nil, at, evSyn, synDropped, 0), at, evSyn, synReport, 0))
	}
	lose(1)
	require.NoError(t, d.resync())
	// What the kernel left of an older packet when it took the buttons out of it settles nothing.
	d.feed(AppendEvent(AppendEvent(nil, 1, 4, 4, 0x90001), 1, evSyn, synReport, 0))
	require.Empty(t, polled(t, d.out))
	require.Positive(t, d.unsettled())
	var b []byte
	for i := range 10 {
		b = AppendEvent(b, 2, evKey, uint16(0x120+i), int32(i/9))
	}
	b = AppendEvent(b, 2, evSyn, synReport, 0)
	b = AppendEvent(b, 3, evKey, 0x120, 1)
	d.feed(AppendEvent(b, 3, evSyn, synReport, 0))
	got := polled(t, d.out)
	require.Len(t, got, 2)
	assert.Equal(t, uint64(512), got[0].Buttons[0])
	assert.True(t, got[0].Resync)
	assert.Equal(t, uint64(513), got[1].Buttons[0])
	assert.False(t, got[1].Resync)

	// A packet that says nothing new settles it too, and lost events while it waits only mean another answer.
	lose(4)
	require.NoError(t, d.resync())
	lose(5)
	require.True(t, d.lost())
	require.NoError(t, d.resync())
	d.feed(AppendEvent(nil, 6, evSyn, synReport, 0))
	got = polled(t, d.out)
	require.Len(t, got, 1)
	assert.True(t, got[0].Resync)
}

func TestAReportThatTheKernelCutsInTwoIsOneState(t *testing.T) {
	d := newTestDecoder(nil)
	part := func(at int64, code uint16, value, report int32) {
		b := AppendEvent(nil, at, evAbs, code, value)
		d.feed(AppendEvent(b, at, evSyn, synReport, report))
	}
	part(1, 0, 100, cutReport)
	require.Empty(t, polled(t, d.out))
	require.Positive(t, d.unsettled())
	part(1, 1, 200, 0)
	require.Zero(t, d.unsettled())
	got := polled(t, d.out)
	require.Len(t, got, 1)
	assert.Equal(t, []int32{100, 200}, got[0].Axes[:2])

	// Into three.
	part(2, 0, 101, cutReport)
	part(2, 1, 201, cutReport)
	part(2, 0, 102, 0)
	got = polled(t, d.out)
	require.Len(t, got, 1)
	assert.Equal(t, []int32{102, 201}, got[0].Axes[:2])

	// One that was just as long as the kernel's room has no rest: the next report, of another time, is one of its own.
	part(3, 0, 103, cutReport)
	part(4, 0, 104, 0)
	got = polled(t, d.out)
	require.Len(t, got, 2)
	assert.Equal(t, [2]int64{3, 4}, [2]int64{got[0].At, got[1].At})
	assert.Equal(t, [2]int32{103, 104}, [2]int32{got[0].Axes[0], got[1].Axes[0]})

	// Reading stops in the middle of the rest: half a report is never handed on, however long the other half takes.
	part(4, 0, 105, cutReport)
	d.feed(AppendEvent(nil, 4, evAbs, 1, 202))
	require.Zero(t, d.unsettled())
	part(4, 0, 106, 0)
	got = polled(t, d.out)
	require.Len(t, got, 1)
	assert.Equal(t, []int32{106, 202}, got[0].Axes[:2])

	// Events are lost in between: the first part is covered by the answer.
	part(5, 0, 105, cutReport)
	d.feed(AppendEvent(AppendEvent(nil, 5, evSyn, synDropped, 0), 5, evSyn, synReport, 0))
	require.Zero(t, d.unsettled())
	require.True(t, d.lost())
	require.NoError(t, d.resync())
	d.settle()
	got = polled(t, d.out)
	require.Len(t, got, 1)
	assert.True(t, got[0].Resync)
}

// counter16 is a radio whose 16 buttons count its reports.
func counter16() Pipe {
	p := Pipe{Info: input.Info{Name: "Counter", Buttons: 16, Axes: []input.Axis{{Code: 0, Max: 2047}}}}
	for i := range 16 {
		p.Keys = append(p.Keys, uint16(0x120+i))
	}
	return p
}

func TestAnAnswerThatFailsIsAnError(t *testing.T) {
	d := newTestDecoder(func(*input.Raw) error { return errors.New("no") })
	b := AppendEvent(nil, 2, evSyn, synDropped, 0)
	d.feed(AppendEvent(b, 2, evSyn, synReport, 0))
	assert.EqualError(t, d.resync(), "no")
	assert.Empty(t, polled(t, d.out))
}

func TestValuesOutsideTheRangeAreClamped(t *testing.T) {
	d := newTestDecoder(nil)
	for i, x := range [][2]int32{{-1, 0}, {2048, 2047}, {1 << 30, 2047}, {-1 << 31, 0}, {2047, 2047}} {
		b := AppendEvent(nil, int64(i), evAbs, 0, x[0])
		d.feed(AppendEvent(b, int64(i), evSyn, synReport, 0))
		got := polled(t, d.out)
		require.Len(t, got, 1)
		assert.Equal(t, x[1], got[0].Axes[0], "value %d", x[0])
	}
	assert.Equal(t, int32(99999), clamp(99999, input.Axis{}), "an axis without a range is left alone")
}

func TestPacketsThatConcernNothingOfTheRadioAreSilent(t *testing.T) {
	d := newTestDecoder(nil)
	var b []byte
	b = AppendEvent(b, 1, 4, 4, 0x90001) // EV_MSC, MSC_SCAN: goes with every button
	b = AppendEvent(b, 1, evAbs, 0x3f, 1)
	b = AppendEvent(b, 1, evAbs, 0xffff, 1)
	b = AppendEvent(b, 1, evKey, 30, 1)
	b = AppendEvent(b, 1, evKey, 0xffff, 1)
	b = AppendEvent(b, 1, evSyn, 1, 0)
	b = AppendEvent(b, 1, evSyn, synReport, 0)
	d.feed(b)
	assert.Empty(t, polled(t, d.out))
}

func TestTimeNeverRunsBackAndCountsFromTheEpoch(t *testing.T) {
	d := newTestDecoder(nil)
	d.epoch = 1_000_000
	var b []byte
	for i, at := range []int64{900_000, 1_000_500, 1_000_400, 2_500_000} {
		b = AppendEvent(b, at, evAbs, 0, int32(i))
		b = AppendEvent(b, at, evSyn, synReport, 0)
	}
	d.feed(b)
	var at []int64
	for _, s := range polled(t, d.out) {
		at = append(at, s.At)
	}
	assert.Equal(t, []int64{0, 500, 500, 1_500_000}, at)
}

func FuzzDecoder(f *testing.F) {
	f.Add([]byte{}, 3)
	b := AppendEvent(nil, 1, evAbs, 0, 5)
	b = AppendEvent(b, 1, evSyn, synDropped, 0)
	b = AppendEvent(b, 1, evAbs, 1, 9)
	f.Add(AppendEvent(b, 2, evSyn, synReport, 0), 24)
	f.Add(AppendEvent(AppendEvent(nil, -1, evKey, 0x120, 2), -5, evSyn, synReport, 0), 1)
	// The first part of a report that the kernel cut in two, and a rest that does not end.
	b = AppendEvent(AppendEvent(nil, 1, evAbs, 0, 5), 1, evSyn, synReport, cutReport)
	first := len(b)
	b = AppendEvent(b, 1, evAbs, 1, 9)
	f.Add(b, first)
	f.Add(AppendEvent(AppendEvent(b, 2, evAbs, 0, 6), 2, evSyn, synReport, 0), first)
	f.Fuzz(func(t *testing.T, b []byte, cut int) {
		answer := input.Raw{}
		answer.Axes[0], answer.Axes[1] = -7, 12345
		ask := func(s *input.Raw) error { *s = answer; return nil }
		// run feeds the pieces; after each of them that is followed by a wait, what was held back is handed on. early counts what was
		// handed on so before the last piece.
		early := 0
		run := func(wait bool, pieces ...[]byte) []input.Raw {
			early = 0
			d := newTestDecoder(ask)
			var rest []byte
			for i, p := range pieces {
				rest = append(rest, p...)
				used := d.feed(rest)
				if used < 0 || used > len(rest) || used%(2*d.long+8) != 0 || len(rest)-used >= 2*d.long+8 {
					t.Fatalf("used %d of %d bytes", used, len(rest))
				}
				rest = rest[used:]
				if d.lost() {
					if err := d.resync(); err != nil {
						t.Fatal(err)
					}
				} else if d.unsettled() > 0 && (wait || i == len(pieces)-1) {
					d.settle()
					if i < len(pieces)-1 {
						early++
					}
				}
			}
			states, err := d.out.poll(nil)
			if err != nil {
				t.Fatal(err)
			}
			last := int64(0)
			for _, s := range states {
				if s.At < last {
					t.Fatalf("time runs back from %d to %d", last, s.At)
				}
				last = s.At
				for i, a := range d.axes {
					if s.Axes[i] < a.Min || s.Axes[i] > a.Max {
						t.Fatalf("axis %d reads %d", i, s.Axes[i])
					}
				}
				if s.Buttons[0] > 3 || s.Buttons[1] != 0 {
					t.Fatalf("buttons that are not there: %x", s.Buttons)
				}
			}
			return states
		}
		// The same bytes in one piece and in two give the same states, but where a loss was answered in between.
		cut = min(max(cut, 0), len(b))
		one, two, late := run(true, b), run(false, b[:cut], b[cut:]), run(true, b[:cut], b[cut:])
		for _, s := range slices.Concat(one, two, late) {
			if s.Resync {
				return
			}
		}
		if !slices.Equal(one, two) {
			t.Fatalf("in one piece %v, in two %v", one, two)
		}
		// With a wait between the pieces, the first part of a report that the kernel cut in two comes by itself as well.
		for i := 0; early > 0 && i < len(late) && len(late) > len(one); i++ {
			if i == len(one) || late[i] != one[i] {
				late = slices.Delete(late, i, i+1)
				break
			}
		}
		if !slices.Equal(one, late) {
			t.Fatalf("in one piece %v, in two with a wait between them, but for the first part of a report, %v", one, late)
		}
	})
}
