package main

import (
	"fmt"
	"math"
	"slices"
	"time"

	"propsoff.example/scripts/rig/fakeradio"
)

// Limits (ours) in µs: what is shown against the kernel's value, and against the device's.
const (
	kernelLimit = 1.0 / 16
	deviceLimit = 4.1
	// seenShare is the least share of the kernel's values that the lines of channel values must show: they come at most
	// once a millisecond, so two steps that an emulated machine lets fall together show as one. The raw states have no
	// such limit and must be complete.
	seenShare = 0.9
	// together is how many reports are sent before the program must have read them: the kernel keeps no more than about
	// 14 packets of 9 events (drivers/input/evdev.c: eight times the packet it expects, as a power of two).
	together = 8
)

// sweep moves every axis of a radio from end to end, the odd ones up and the even ones down, step raw values a report.
func sweep(r fakeradio.Radio, step int32, pace time.Duration) func(*figures) error {
	return func(f *figures) (err error) {
		p, err := plug(r)
		if err != nil {
			return err
		}
		defer closing(&err, p.out)
		if err := p.Send(sweepAt(r, 0, step)); err != nil {
			return err
		}
		begin, err := p.view.values()
		if err != nil {
			return err
		}
		w, err := watch(started{}, straight(r), craftBuiltIn)
		if err != nil {
			return err
		}
		defer closing(&err, w.stop)
		raw, err := watchRaw(started{})
		if err != nil {
			return err
		}
		defer closing(&err, raw.stop)
		n := r.Layout.AxisCount()
		if _, err := raw.await(firstLine, 0, "the raw state before the sweep", func(l rawLine) bool { return slices.Equal(l.Axes, begin) }); err != nil {
			return err
		}
		from, err := w.await(firstLine, 0, "the channel values before the sweep", func(l line) bool { return shows(l, r, begin) })
		if err != nil {
			return err
		}

		lo, hi := r.Layout.AxisRange(0)
		steps := int((int64(hi) - int64(lo) + int64(step) - 1) / int64(step))
		kernel := make([][]int32, 0, steps+1) // the kernel's values after each report
		fed := make([][]int32, 0, steps+1)

		states, base := 1, len(raw.seen) // of the kernel, and how many the program had shown of them
		for k := range steps + 1 {
			at := sweepAt(r, k, step)
			if err := p.Send(at); err != nil {
				return err
			}
			v, err := p.view.values()
			if err != nil {
				return err
			}
			kernel, fed = append(kernel, v), append(fed, at.Axes)
			time.Sleep(pace)
			if k > 0 && !slices.Equal(kernel[k], kernel[k-1]) {
				states++
			}
			// A sweep is about values, not about speed, which the flood is for: on a slow machine it waits.
			if k%4 == 0 {
				if err := abreast(p, raw, states-(together+1)+base); err != nil {
					return err
				}
			}
		}
		last := kernel[len(kernel)-1]
		if _, err := raw.await(3*time.Second, 0, "the raw state after the sweep", func(l rawLine) bool { return slices.Equal(l.Axes, last) }); err != nil {
			return err
		}
		to, err := w.await(3*time.Second, from, "the channel values after the sweep", func(l line) bool { return shows(l, r, last) })
		if err != nil {
			return err
		}
		f.add("reports", len(kernel))
		if err := sameStates(raw.seen, kernel, f); err != nil {
			return err
		}
		return sweepValues(w.seen[from:to+1], r, n, kernel, fed, f)
	}
}

// abreast waits until the program has shown so many states; where some were lost it waits for the last one.
func abreast(p *plugged, raw *stream[rawLine], count int) error {
	var broken error
	late := waitUntil(200*time.Millisecond, "the program to keep up", func() bool {
		_, broken = raw.take()
		return broken != nil || len(raw.seen) >= count
	})
	if broken == nil && late != nil {
		return endsAsKernel(p, raw)
	}
	return broken
}

// sweepAt is report k of a sweep.
func sweepAt(r fakeradio.Radio, k int, step int32) fakeradio.Report {
	at := r.Layout.Rest()
	for i := range at.Axes {
		lo, hi := r.Layout.AxisRange(i)
		up := min(int64(hi), int64(lo)+int64(k)*int64(step))
		at.Axes[i] = int32(up)
		if i%2 != 0 {
			at.Axes[i] = int32(int64(lo) + int64(hi) - up)
		}
	}
	return at
}

// shows says whether a line of values shows the kernel's values of every axis, channel n for axis n.
func shows(l line, r fakeradio.Radio, kernel []int32) bool {
	if l.Code != codeValues {
		return false
	}
	for i := range r.Layout.AxisCount() {
		lo, hi := r.Layout.AxisRange(i)
		if !(math.Abs(l.channel(i)-micros(kernel[i], lo, hi)) <= kernelLimit+1e-3) { // 1e-3: three decimals are written
			return false
		}
	}
	return true
}

// sameStates holds the raw states against the kernel's, one by one: none may be missing but where a mark says so.
func sameStates(raw []rawLine, kernel [][]int32, f *figures) error {
	var want [][]int32
	for _, v := range kernel {
		if len(want) == 0 || !slices.Equal(want[len(want)-1], v) {
			want = append(want, v)
		}
	}
	at, marks, missed := 0, 0, 0
	for i, l := range raw {
		if l.Resync {
			marks++
		}
		if slices.Equal(l.Axes, want[at]) {
			continue
		}
		next := at + 1
		if l.Resync {
			for next < len(want) && !slices.Equal(l.Axes, want[next]) {
				next++
			}
		}
		if next >= len(want) || !slices.Equal(l.Axes, want[next]) {
			return fmt.Errorf("raw state %d is %v; the kernel went from %v to %v there, and no mark stands before it", i+1, l.Axes, want[at], want[min(at+1, len(want)-1)])
		}
		missed += next - at - 1
		at = next
	}
	if at != len(want)-1 {
		return fmt.Errorf("the raw states end with number %d of %d", at+1, len(want))
	}
	f.add("raw states", fmt.Sprintf("%d of %d", len(want)-missed, len(want)))
	f.add("marks", marks)
	return nil
}

// sweepValues holds the channel values of a sweep against the kernel's and the device's.
func sweepValues(lines []line, r fakeradio.Radio, n int, kernel, fed [][]int32, f *figures) error {
	worstKernel, worstDevice, fewest, of := 0.0, 0.0, math.MaxInt, 0
	for i := range n {
		lo, hi := r.Layout.AxisRange(i)
		var shown []float64
		for _, l := range lines {
			if l.Code != codeValues {
				continue
			}
			us := l.channel(i)
			if math.IsNaN(us) {
				return fmt.Errorf("channel %d without a pulse at %d ms", i+1, l.At)
			}
			if len(shown) > 0 {
				if up := us - shown[len(shown)-1]; up != 0 && (up > 0) != (i%2 == 0) {
					return fmt.Errorf("channel %d goes from %v to %v at %d ms, against the sweep", i+1, shown[len(shown)-1], us, l.At)
				}
			}
			if len(shown) == 0 || shown[len(shown)-1] != us {
				shown = append(shown, us)
			}
		}
		// The values of both lists run the same way, so they are walked side by side.
		at, distinct, found := 0, 0, 0
		for k := range kernel {
			exact := micros(kernel[k][i], lo, hi)
			if k == 0 || kernel[k][i] != kernel[k-1][i] {
				distinct++
				for at+1 < len(shown) && math.Abs(shown[at+1]-exact) <= math.Abs(shown[at]-exact) {
					at++
				}
				if math.Abs(shown[at]-exact) <= kernelLimit+1e-3 {
					found++
				}
			}
			e := math.Abs(shown[at] - exact)
			if e <= kernelLimit+1e-3 {
				worstKernel = max(worstKernel, e)
				worstDevice = max(worstDevice, math.Abs(shown[at]-micros(fed[k][i], lo, hi)))
			}
		}
		if len(shown) > distinct {
			return fmt.Errorf("channel %d shows %d different values, the kernel had %d", i+1, len(shown), distinct)
		}
		if found != len(shown) {
			return fmt.Errorf("channel %d: %d of the %d values shown are none that the kernel had (within 1/16 µs)", i+1, len(shown)-found, len(shown))
		}
		if float64(found) < seenShare*float64(distinct) {
			return fmt.Errorf("channel %d shows %d of the %d values that the kernel had", i+1, found, distinct)
		}
		if found < fewest {
			fewest, of = found, distinct
		}
	}
	f.add("distinct values", fmt.Sprintf("%d of %d", fewest, of))
	f.add("error", fmt.Sprintf("%.4f µs of the kernel's, %.3f µs of the device's", worstKernel, worstDevice))
	if worstKernel > kernelLimit+1e-3 || worstDevice > deviceLimit {
		return fmt.Errorf("more than 1/16 µs of the kernel's or 4.1 µs of the device's value")
	}
	return nil
}
