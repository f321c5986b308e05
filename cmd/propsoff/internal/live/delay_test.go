//go:build unix

package live

import (
	"context"
	"os"
	"slices"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/input/usb"
	"propsoff.example/sim"
	"propsoff.example/sim/pulse"
)

// Event types and codes: include/uapi/linux/input-event-codes.h.
const (
	evSyn, evAbs = 0, 3
	synReport    = 0
)

// pipeRadio is a radio of eight axes 0..2047 that is fed through a pipe by way of the very reader of the event interface.
func pipeRadio(t testing.TB, epoch int64) (*radio.Source, *os.File) {
	t.Helper()
	r, w, err := os.Pipe()
	require.NoError(t, err)
	info := input.Info{Name: "pipe", Way: usb.WayEvent}
	for code := range 8 {
		info.Axes = append(info.Axes, input.Axis{Code: code, Max: 2047})
	}
	d, err := usb.NewFromPipe(r, usb.Pipe{Info: info, Epoch: epoch})
	require.NoError(t, err)
	names := input.Names{Channel: map[string]int{"throttle": 0, "roll": 1, "pitch": 2, "yaw": 3, "arm": 4, "mode": 5}}
	file := radio.File{StickMode: 2}
	for i, job := range []string{"throttle", "roll", "pitch", "yaw", "arm", "mode"} {
		file.Controls = append(file.Controls, radio.Control{Job: job, Form: radio.Axis, Axis: i})
	}
	s, err := radio.NewSource(radio.Config{Device: d, File: file, Names: names})
	require.NoError(t, err)
	return s, w
}

// measure sends n packets, one every gap, and gives the delay of each in µs from its stamp to the snapshot that holds it,
// sorted.
func measure(t testing.TB, n int, gap time.Duration) []int64 {
	t.Helper()
	epoch := usb.Now()
	s, w := pipeRadio(t, epoch)
	l := New(Options{Craft: sim.Default(), Clock: RealClock(usb.Now), Begin: begin()})
	require.NoError(t, l.Use(Player{Source: s, Opened: epoch}))
	stamps := make([]atomic.Int64, n)
	var delays []int64
	seen := 0
	var arrived atomic.Int64
	width := map[pulse.Width]int{} // roll's width to the packet's number modulo 2048
	l.published = func() {
		now := usb.Now()
		to, ok := width[l.now.Bench().State().In.Sent[1]]
		if !ok || seen == 0 && to >= 1024-16 && to <= 1024+16 { // where it rests before the first packet has come
			return
		}
		for seen < n && stamps[seen].Load() != 0 && (to-seen%2048+2048)%2048 < 1024 {
			delays = append(delays, now-stamps[seen].Load())
			seen++
		}
		arrived.Store(int64(seen))
	}
	own := radio.Own(input.Axis{Max: 2047})
	for v := range 2048 {
		width[own.Width(int32(v))] = v
	}
	require.Len(t, width, 2048, "every value of the axis can be told from every other")
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error)
	go func() { done <- l.Run(ctx) }()
	time.Sleep(20 * time.Millisecond)
	var buf []byte
	for i := range n {
		at := usb.Now()
		buf = usb.AppendEvent(buf[:0], at, evAbs, 1, int32(i%2048))
		buf = usb.AppendEvent(buf, at, evSyn, synReport, 0)
		stamps[i].Store(at)
		if _, err := w.Write(buf); err != nil {
			require.NoError(t, err)
		}
		if gap > 0 {
			time.Sleep(gap - time.Duration(i%7)*gap/16) // not in step with the ticks
		}
	}
	for i := 0; i < 60_000 && arrived.Load() < int64(n); i++ { // a busy machine takes longer
		time.Sleep(time.Millisecond)
	}
	cancel()
	require.NoError(t, <-done)
	require.NoError(t, w.Close())
	require.Equal(t, n, len(delays), "every packet is seen")
	slices.Sort(delays)
	return delays
}

func TestEveryPacketReachesTheSnapshot(t *testing.T) {
	d := measure(t, 1500, 500*time.Microsecond)
	assert.GreaterOrEqual(t, d[0], int64(0), "nothing is seen before it was sent")
}

// BenchmarkReadingToSnapshot measures the delay from the stamp of an event, through pipe, reader, decoder, radio file and
// one tick of the bench, to the published snapshot. Aim: under 2000 µs at the 99th percentile.
func BenchmarkReadingToSnapshot(b *testing.B) {
	for _, c := range []struct {
		name string
		gap  time.Duration
	}{{"every 4 ms", 4 * time.Millisecond}, {"every 1 ms", time.Millisecond}} {
		b.Run(c.name, func(b *testing.B) {
			d := measure(b, max(b.N, 1000), c.gap)
			b.ReportMetric(float64(d[len(d)/2]), "p50-µs")
			b.ReportMetric(float64(d[len(d)*99/100]), "p99-µs")
			b.ReportMetric(float64(d[len(d)-1]), "max-µs")
			b.ReportMetric(0, "ns/op")
		})
	}
}

// BenchmarkIdleLoop reports the share of one processor that a loop takes while nothing comes in.
func BenchmarkIdleLoop(b *testing.B) {
	epoch := usb.Now()
	s, w := pipeRadio(b, epoch)
	defer w.Close()
	l := New(Options{Craft: sim.Default(), Clock: RealClock(usb.Now), Begin: begin()})
	require.NoError(b, l.Use(Player{Source: s, Opened: epoch}))
	ctx, cancel := context.WithTimeout(context.Background(), 2*time.Second)
	defer cancel()
	before, start := used(b), time.Now()
	require.NoError(b, l.Run(ctx))
	b.ReportMetric(100*float64(used(b)-before)/float64(time.Since(start)), "%cpu")
	b.ReportMetric(0, "ns/op")
}

// used is the processor time that this process has taken.
func used(b *testing.B) time.Duration {
	var r syscall.Rusage
	require.NoError(b, syscall.Getrusage(syscall.RUSAGE_SELF, &r))
	return time.Duration(r.Utime.Nano() + r.Stime.Nano())
}
