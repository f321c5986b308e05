package take

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"runtime"
	"testing"

	"propsoff.example/assets/words"
	"propsoff.example/sim/pulse"
)

// hands is a source of readings as two hands make them on a radio of 2048 steps: four axes move smoothly all the time
// with a step of noise each, so that most readings change all four.
type hands struct {
	random *rand.Rand
	every  int64 // ticks between readings
	tick   int64
	r      pulse.Reading
}

func newHands(perSecond int64) *hands {
	return &hands{random: rand.New(rand.NewPCG(1, 2)), every: 1000 / perSecond, r: pulse.Reading{
		Kind: pulse.Controls, Frame: pulse.Frame{4: pulse.Low, 5: pulse.Centre, 6: pulse.High}}}
}

func (h *hands) next() (int64, pulse.Reading) {
	s := float64(h.tick) / 1000
	for c := range 4 {
		x := 0.6*math.Sin(s*(1.3+0.7*float64(c))) + 0.2*math.Sin(s*(5+float64(c)))
		h.r.Frame[c] = pulse.FromTicks(992 + int(math.Round(x*820)) + h.random.IntN(3) - 1)
	}
	h.tick += h.every
	return h.tick, h.r
}

// recordHands writes so many seconds, flushed every so many ms, with a digest a second.
func recordHands(t interface{ Fatal(...any) }, m file, perSecond, seconds, every int64) (readings int64) {
	w, err := newWriter("x", m, testSettings)
	if err != nil {
		t.Fatal(err)
	}
	h := newHands(perSecond)
	var flushed, digest int64
	for h.tick < seconds*1000 {
		tick, r := h.next()
		w.Reading(tick, r)
		readings++
		if tick-digest >= 1000 {
			digest = tick
			w.Digest(tick, h.random.Uint64())
		}
		if tick-flushed >= every {
			flushed = tick
			w.Flush()
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return readings
}

// The sizes that the README gives are measured here, and may not grow unseen.
func TestSizePerMinute(t *testing.T) {
	for _, c := range []struct{ perSecond, every, most int64 }{{500, 100, 180_000}, {500, 20, 200_000}, {50, 100, 36_000}, {50, 20, 50_000}} {
		m := &memory{room: -1}
		n := recordHands(t, m, c.perSecond, 60, c.every)
		t.Logf("%d readings/s, all four stick axes moving, flushed every %d ms: %d bytes a minute, %.2f bytes a reading with everything", c.perSecond, c.every, m.Len(), float64(m.Len())/float64(n))
		if int64(m.Len()) > c.most {
			t.Errorf("%d readings/s: %d bytes a minute, more than %d", c.perSecond, m.Len(), c.most)
		}
	}
	w, _ := newWriter("x", &memory{room: -1}, testSettings)
	h := newHands(500)
	h.next()
	tick, r := h.next()
	w.Reading(tick, r)
	before, total := 0, 0
	for range 1000 {
		w.endRecord()
		tick, r := h.next()
		r.Frame[2], r.Frame[3] = pulse.Centre, pulse.Centre // one stick
		w.Reading(tick, r)
		before++
		total += len(w.rec)
	}
	mean := float64(total) / float64(before)
	t.Logf("one moving stick: %.2f bytes of payload a reading", mean)
	if mean > 8 {
		t.Errorf("one moving stick: %.2f bytes a reading, more than 8", mean)
	}
}

// discard is a file that keeps nothing.
type discard struct{ n int64 }

func (d *discard) Write(b []byte) (int, error) { d.n += int64(len(b)); return len(b), nil }
func (d *discard) Truncate(int64) error        { return nil }
func (d *discard) Sync() error                 { return nil }
func (d *discard) Close() error                { return nil }

func TestNoAllocationPerEntry(t *testing.T) {
	w, err := newWriter("x", &discard{}, testSettings)
	if err != nil {
		t.Fatal(err)
	}
	h := newHands(500)
	if n := testing.AllocsPerRun(20_000, func() {
		tick, r := h.next()
		w.Reading(tick, r)
		w.Happening(tick, 3, 1, 2)
		w.Digest(tick, 99)
		if tick%20 == 0 {
			w.Flush()
		}
	}); n != 0 {
		t.Errorf("writing: %v allocations an entry", n)
	}
	m := &memory{room: -1}
	recordHands(t, m, 500, 60, 100)
	r, err := NewReader(bytes.NewReader(m.Bytes()), "x")
	if err != nil {
		t.Fatal(err)
	}
	for range 1000 {
		r.Next()
	}
	if n := testing.AllocsPerRun(20_000, func() {
		if _, err := r.Next(); err != nil {
			t.Fatal(err)
		}
	}); n != 0 {
		t.Errorf("reading: %v allocations an entry", n)
	}
}

// A take of ten hours is read in the memory of a short one.
func TestLongTakeIsStreamed(t *testing.T) {
	if testing.Short() {
		t.Skip("half a second of writing and reading")
	}
	pr, pw := io.Pipe()
	go func() {
		recordHands(t, pipeFile{pw}, 50, 36_000, 100)
		pw.Close()
	}()
	r, err := NewReader(pr, "x")
	if err != nil {
		t.Fatal(err)
	}
	var before, after runtime.MemStats
	n := 0
	for {
		_, err := r.Next()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		if n++; n == 1000 {
			runtime.GC()
			runtime.ReadMemStats(&before)
		}
	}
	runtime.GC()
	runtime.ReadMemStats(&after)
	grown := int64(after.HeapAlloc) - int64(before.HeapAlloc)
	t.Logf("%d entries up to %s; the heap grew by %d bytes, the window holds %d", n, words.English().Say(clock(r.Tick())), grown, cap(r.scan.buf))
	if r.Tick() < 36_000_000 || n < 1_800_000 || grown > 256<<10 || cap(r.scan.buf) > 64<<10 || !r.Closed() {
		t.Errorf("%d entries up to tick %d, heap grew by %d, window %d", n, r.Tick(), grown, cap(r.scan.buf))
	}
}

type pipeFile struct{ *io.PipeWriter }

func (pipeFile) Truncate(int64) error { return nil }
func (pipeFile) Sync() error          { return nil }

func BenchmarkWriteReading(b *testing.B) {
	d := &discard{}
	w, err := newWriter("x", d, testSettings)
	if err != nil {
		b.Fatal(err)
	}
	h := newHands(500)
	rs := make([]pulse.Reading, 4096)
	for i := range rs {
		_, rs[i] = h.next()
	}
	b.ReportAllocs()
	b.ResetTimer()
	for i := range b.N {
		w.Reading(int64(i)*2, rs[i%len(rs)])
		if i%10 == 0 {
			w.Flush()
		}
	}
	b.ReportMetric(float64(d.n)/float64(b.N), "B/reading")
}

// BenchmarkRead reads whole takes at 500 readings a second: ns/reading must not depend on the length.
func BenchmarkRead(b *testing.B) {
	for _, minutes := range []int64{1, 10, 60} {
		b.Run(fmt.Sprintf("%dmin", minutes), func(b *testing.B) {
			m := &memory{room: -1}
			n := recordHands(b, m, 500, minutes*60, 100)
			b.ReportAllocs()
			b.SetBytes(int64(m.Len()))
			for b.Loop() {
				r, err := NewReader(bytes.NewReader(m.Bytes()), "x")
				if err != nil {
					b.Fatal(err)
				}
				for err == nil {
					_, err = r.Next()
				}
				if err != io.EOF {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/reading")
			b.ReportMetric(float64(minutes*60)/(b.Elapsed().Seconds()/float64(b.N)), "x-real-time")
		})
	}
}
