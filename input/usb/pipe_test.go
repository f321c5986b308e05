//go:build unix

package usb

import (
	"errors"
	"io"
	"os"
	"runtime"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/input"
)

// report appends the packet that takes the counter from n-1 to n: one event for each button that changes, as the kernel sends.
func report(b []byte, at int64, n int) []byte {
	for i := range 16 {
		if bit := n >> i & 1; bit != (n-1)>>i&1 {
			b = AppendEvent(b, at, evKey, uint16(0x120+i), int32(bit))
		}
	}
	return AppendEvent(b, at, evSyn, synReport, 0)
}

// collect polls until n states are there or the device has ended.
func collect(t *testing.T, d input.Device, n int) ([]input.Raw, error) {
	t.Helper()
	var states []input.Raw
	deadline := time.After(2 * time.Minute)
	for {
		var err error
		if states, err = d.Poll(states); err != nil || len(states) >= n {
			return states, err
		}
		select {
		case <-d.Wake():
		case <-deadline:
			t.Fatalf("only %d of %d states came", len(states), n)
		}
	}
}

func openPipe(t testing.TB, p Pipe) (input.Device, *os.File) {
	t.Helper()
	r, w, err := os.Pipe()
	require.NoError(t, err)
	d, err := NewFromPipe(r, p)
	require.NoError(t, err)
	t.Cleanup(func() { d.Close(); w.Close() })
	return d, w
}

func TestFirstStateIsThereAtOnce(t *testing.T) {
	p := counter16()
	p.Ask = func(s *input.Raw) error { s.Axes[0] = 1024; setBit(s, 3, true); return nil }
	d, _ := openPipe(t, p)
	states, err := d.Poll(nil)
	require.NoError(t, err)
	require.Len(t, states, 1)
	assert.Equal(t, int32(1024), states[0].Axes[0])
	assert.True(t, states[0].Button(3))
	assert.False(t, states[0].Resync)
	assert.Equal(t, p.Info, d.Info())
	states, err = d.Poll(states[:0])
	require.NoError(t, err)
	assert.Empty(t, states, "polling never blocks and says nothing twice")
}

func TestADeviceThatDoesNotAnswerCannotBeOpened(t *testing.T) {
	p := counter16()
	p.Ask = func(*input.Raw) error { return errors.New("no") }
	r, w, err := os.Pipe()
	require.NoError(t, err)
	defer r.Close()
	defer w.Close()
	_, err = NewFromPipe(r, p)
	require.EqualError(t, err, "no")
}

func TestAFloodLosesNothingForASlowConsumer(t *testing.T) {
	const n = 100_000
	d, w := openPipe(t, counter16())
	go func() {
		var b []byte
		for i := 1; i <= n; i++ {
			if b = report(b, int64(i), i); len(b) > 1000 || i == n {
				w.Write(b[:len(b)-5]) // a cut through the middle of an event
				w.Write(b[len(b)-5:])
				b = b[:0]
			}
		}
		w.Close()
	}()
	<-d.(*device).done // not polled before all is over
	states, err := collect(t, d, n+1)
	require.ErrorIs(t, err, input.ErrGone)
	require.Len(t, states, n+1)
	for i, s := range states {
		require.Equal(t, int64(i), s.At)
		require.Equal(t, uint64(i)&0xffff, s.Buttons[0])
		require.False(t, s.Resync)
	}
}

func TestPulledOut(t *testing.T) {
	d, w := openPipe(t, counter16())
	_, err := w.Write(report(nil, 1, 1))
	require.NoError(t, err)
	require.NoError(t, w.Close())
	<-d.(*device).done
	states, err := d.Poll(nil)
	require.ErrorIs(t, err, input.ErrGone)
	assert.EqualError(t, err, "Counter: the radio was unplugged")
	require.Len(t, states, 2, "what was left comes with it")
	var when interface{ GoneAt() int64 }
	require.ErrorAs(t, err, &when)
	assert.InDelta(t, Now(), when.GoneAt(), 10e6)
	_, err = d.Poll(nil)
	require.ErrorIs(t, err, input.ErrGone, "and it stays gone")
}

func TestCloseEndsTheGoroutine(t *testing.T) {
	before := runtime.NumGoroutine()
	for range 50 {
		r, w, err := os.Pipe()
		require.NoError(t, err)
		d, err := NewFromPipe(r, counter16())
		require.NoError(t, err)
		require.NoError(t, d.Close(), "while the reader waits")
		require.NoError(t, d.Close(), "twice")
		_, err = w.Write([]byte{1})
		require.Error(t, err, "the reading end is closed")
		w.Close()
		states, err := d.Poll(nil)
		require.ErrorIs(t, err, os.ErrClosed)
		require.NotErrorIs(t, err, input.ErrGone)
		require.Len(t, states, 1)
	}
	requireGoroutines(t, before)
}

// requireGoroutines waits a moment for the last goroutine to be gone that has done its work already.
func requireGoroutines(t *testing.T, most int) {
	t.Helper()
	for range 1000 {
		if runtime.NumGoroutine() <= most {
			return
		}
		time.Sleep(time.Millisecond)
	}
	t.Fatalf("%d goroutines, %d at the beginning", runtime.NumGoroutine(), most)
}

func TestAnErrorOfTheSystemIsHandedOn(t *testing.T) {
	boom := errors.New("boom")
	d, err := NewFromPipe(io.NopCloser(io.MultiReader(brokenReader{boom})), counter16())
	require.NoError(t, err)
	<-d.(*device).done
	_, err = d.Poll(nil)
	require.ErrorIs(t, err, boom)
	require.NotErrorIs(t, err, input.ErrGone)
	require.NoError(t, d.Close())
}

type brokenReader struct{ err error }

func (b brokenReader) Read([]byte) (int, error) { return 0, b.err }

// overflowing stands for a node whose queue the kernel had to empty: reads give pieces, readNow gives late until it is empty.
type overflowing struct {
	pieces, late [][]byte
	asked        bool
	open         chan struct{}
}

func (o *overflowing) Read(p []byte) (int, error) {
	if len(o.pieces) == 0 {
		<-o.open
		return 0, os.ErrClosed
	}
	n := copy(p, o.pieces[0])
	o.pieces = o.pieces[1:]
	return n, nil
}

func (o *overflowing) readNow(p []byte) (int, error) {
	if len(o.late) == 0 {
		return 0, nil
	}
	n := copy(p, o.late[0])
	o.late = o.late[1:]
	return n, nil
}

func (o *overflowing) Close() error { close(o.open); return nil }

func TestWhatIsOlderThanTheAnswerIsReadAwayBeforeItIsAskedFor(t *testing.T) {
	// The kernel answers with the newest state, 40. Reports 31 to 40 waited behind the mark, in the same buffer and in the
	// queue; played upon the answer they would bring the counter out of step, a gap without a mark.
	var behind []byte
	for i := 31; i <= 35; i++ {
		behind = report(behind, int64(i), i)
	}
	o := &overflowing{open: make(chan struct{})}
	lost := AppendEvent(nil, 30, evSyn, synDropped, 0)
	lost = AppendEvent(lost, 30, evKey, 0x120, 0)
	lost = AppendEvent(lost, 30, evSyn, synReport, 0)
	o.pieces = [][]byte{report(nil, 1, 1), append(lost, behind...), report(nil, 41, 41)}
	for i := 36; i <= 40; i++ {
		o.late = append(o.late, report(nil, int64(i), i))
	}
	p, q := counter16(), newQueue()
	dec := newEventDecoder(q, &p.Info, p.Keys, func(s *input.Raw) error {
		if o.asked = len(o.late) == 0; o.asked {
			s.Buttons[0] = 40
		}
		return nil
	}, 0)
	d := start(p.Info, q, o, dec, 0, make([]byte, eventBuffer), 0)
	states, err := collect(t, d, 3)
	require.NoError(t, err)
	require.NoError(t, d.Close())
	require.True(t, o.asked, "asked after the last waiting report")
	var counts []uint64
	for _, s := range states {
		counts = append(counts, s.Buttons[0])
	}
	assert.Equal(t, []uint64{1, 40, 41}, counts)
	assert.True(t, states[1].Resync)
	assert.Equal(t, int64(40), states[1].At, "the time of the last report that the answer covers")
	assert.False(t, states[2].Resync)
}

func TestALossIsSettledThoughNothingFollows(t *testing.T) {
	p := counter16()
	p.Ask = func(s *input.Raw) error { s.Buttons[0] = 40; return nil }
	lost := AppendEvent(AppendEvent(nil, 7, evSyn, synDropped, 0), 7, evSyn, synReport, 0)
	d, w := openPipe(t, p)
	_, err := w.Write(lost)
	require.NoError(t, err)
	states, err := collect(t, d, 2)
	require.NoError(t, err)
	assert.True(t, states[1].Resync)
	time.Sleep(2 * freshWait)
	_, err = w.Write(report(nil, 8, 41)) // reading goes on after the wait, without a time limit
	require.NoError(t, err)
	states, err = collect(t, d, 1)
	require.NoError(t, err)
	assert.Equal(t, uint64(41), states[0].Buttons[0])
	assert.False(t, states[0].Resync)

	_, err = w.Write(lost)
	require.NoError(t, err)
	require.NoError(t, w.Close())
	<-d.(*device).done
	states, err = d.Poll(nil)
	require.ErrorIs(t, err, input.ErrGone)
	require.Len(t, states, 1, "also if it vanishes meanwhile")
	assert.True(t, states[0].Resync)
}

func TestACutReportWithoutARestIsNotHeldForLong(t *testing.T) {
	d, w := openPipe(t, counter16())
	for i := 1; i <= 3; i++ {
		at := Now()
		b := AppendEvent(nil, at, evKey, 0x120, int32(i%2))
		_, err := w.Write(AppendEvent(b, at, evSyn, synReport, cutReport))
		require.NoError(t, err)
		states, err := collect(t, d, 1)
		for err == nil && states[len(states)-1].At != at {
			states, err = collect(t, d, 1)
		}
		require.NoError(t, err)
		assert.Equal(t, uint64(i%2), states[len(states)-1].Buttons[0])
	}
}

func TestTheReaderDoesNotAllocatePerEvent(t *testing.T) {
	p := counter16()
	q := newQueue()
	dec := newEventDecoder(q, &p.Info, p.Keys, func(*input.Raw) error { return nil }, 0)
	var b []byte
	for i := 1; i <= 100; i++ {
		b = report(b, int64(i), i)
	}
	dst := make([]input.Raw, 0, 1000)
	allocs := testing.AllocsPerRun(100, func() {
		dec.feed(b)
		dst, _ = q.poll(dst[:0])
	})
	require.Len(t, dst, 100)
	assert.Zero(t, allocs, "decoder and queue")

	// The whole way through the goroutine and the system's pipe.
	d, w := openPipe(t, p)
	const rounds = 200
	feed := func() {
		if _, err := w.Write(b); err != nil {
			t.Error(err)
		}
		for n := 0; n < 100; {
			<-d.Wake()
			dst, _ = d.Poll(dst[:0])
			n += len(dst)
		}
	}
	dst, _ = d.Poll(dst[:0])
	feed()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	for range rounds {
		feed()
	}
	runtime.ReadMemStats(&after)
	assert.Less(t, after.Mallocs-before.Mallocs, uint64(rounds), "of %d events", rounds*100*2)
}

func TestTheQueueEndsAtAnAbsurdLengthWithAMark(t *testing.T) {
	q := newQueue()
	require.GreaterOrEqual(t, q.most, 1_000_000)
	q.most = 5
	for i := range 9 {
		q.push(&input.Raw{At: int64(i)})
	}
	got := polled(t, q)
	require.Len(t, got, 5)
	for i, s := range got[:4] {
		assert.Equal(t, input.Raw{At: int64(i)}, s)
	}
	assert.Equal(t, input.Raw{At: 8, Resync: true}, got[4], "the newest is never lost")
	q.push(&input.Raw{At: 10})
	assert.Equal(t, []input.Raw{{At: 10}}, polled(t, q))
}

func TestTheQueueGivesItsRoomBackAfterAFlood(t *testing.T) {
	q := newQueue()
	for range queueKept * 4 {
		q.push(&input.Raw{})
	}
	require.Len(t, polled(t, q), queueKept*4)
	assert.Zero(t, cap(q.states))
}

// BenchmarkPipeToState measures the delay from the event's stamp, taken just before it is written into a pipe, to the state in
// the hands of a consumer that waits for the wake.
func BenchmarkPipeToState(b *testing.B) {
	d, w := openPipe(b, counter16())
	var states []input.Raw
	states, _ = d.Poll(states)
	delays := make([]int64, 0, b.N)
	buf := make([]byte, 0, 1000)
	b.ReportAllocs()
	b.ResetTimer()
	for i := range b.N {
		buf = report(buf[:0], Now(), i+1)
		if _, err := w.Write(buf); err != nil {
			b.Fatal(err)
		}
		for states = states[:0]; len(states) == 0; states, _ = d.Poll(states) {
			<-d.Wake()
		}
		delays = append(delays, Now()-states[0].At)
	}
	slices.Sort(delays)
	b.ReportMetric(float64(delays[len(delays)/2]), "µs-median")
	b.ReportMetric(float64(delays[len(delays)*99/100]), "µs-99th")
}

func BenchmarkDecode(b *testing.B) {
	p, q := counter16(), newQueue()
	dec := newEventDecoder(q, &p.Info, p.Keys, func(*input.Raw) error { return nil }, 0)
	ev := report(nil, 1, 1)
	var dst []input.Raw
	b.ReportAllocs()
	for range b.N {
		dec.feed(ev)
		dst, _ = q.poll(dst[:0])
	}
}
