package main

import (
	"fmt"
	"slices"
	"syscall"
	"time"

	"propsoff.example/scripts/rig/fakeradio"
)

// The flood counts in the buttons of the main radio, in Gray's code: one button changes with each count. (The input core
// cuts a packet in two when it holds more events than it expects of the device, which is one for each axis and eight
// more: drivers/input/input.c, found by this rig with a plain binary count, which may change twenty buttons of two
// events each.) Each axis is a function of the count whose steps are at least twice the kernel's fuzz, so that its
// filter passes them unchanged: a state shows by itself whether it is whole.
const (
	floodRate    = 1000 // reports a second
	floodFor     = 10 * time.Second
	floodLeast   = 500 // achieved, fed and read
	countButtons = 20
	// unsettled is how many states after a mark may mix two counts: the axes and the buttons are asked for one after
	// the other while reports go on coming.
	unsettled = 64
)

// counted is the report of a count.
func counted(l fakeradio.Layout, n uint32) fakeradio.Report {
	r := l.Rest()
	gray := n ^ n>>1
	for b := range countButtons {
		r.Pressed[b] = gray>>b&1 != 0
	}
	for i := range r.Axes {
		r.Axes[i] = countedAxis(n, i)
	}
	return r
}

func countedAxis(n uint32, axis int) int32 { return int32(n * uint32(64+32*axis) % 4096) }

// count reads the count of a state, and whether its axes are those of the count.
func (l rawLine) count(axes int) (n uint32, whole bool) {
	for _, b := range l.Buttons {
		if b <= countButtons {
			n |= 1 << (b - 1)
		}
	}
	for shift := 1; shift < 32; shift *= 2 { // back from Gray's code
		n ^= n >> shift
	}
	whole = len(l.Axes) >= axes
	for i := 0; whole && i < axes; i++ {
		whole = l.Axes[i] == countedAxis(n, i)
	}
	return n, whole
}

// checkCounts holds a run of states against the count: the next state is the next count or carries a mark; a state that
// mixes counts stands shortly after a mark or not at all.
func checkCounts(seen []rawLine, axes int) (marks, lost, mixed int, err error) {
	sinceMark := unsettled + 1
	var last uint32
	for i, l := range seen {
		n, whole := l.count(axes)
		sinceMark++
		if l.Resync {
			marks++
			sinceMark = 0
		}
		if !whole {
			mixed++
			if sinceMark > unsettled {
				return marks, lost, mixed, fmt.Errorf("state %d shows count %d, but axes %v of another, %d states after the last mark", i+1, n, l.Axes, sinceMark)
			}
		}
		if i > 0 && n != last+1 {
			switch {
			case l.Resync && n > last:
				lost += int(n - last - 1)
			case n < last:
				return marks, lost, mixed, fmt.Errorf("state %d goes back from count %d to %d", i+1, last, n)
			case sinceMark > unsettled:
				return marks, lost, mixed, fmt.Errorf("state %d jumps from count %d to %d without a mark", i+1, last, n)
			default:
				lost += int(max(n, last+1) - last - 1)
			}
		}
		last = n
	}
	return marks, lost, mixed, nil
}

// flood sends 1000 reports a second for 10 s.
func flood(f *figures) (err error) {
	p, raw, err := floodStart()
	if err != nil {
		return err
	}
	defer closing(&err, raw.stop, p.out)
	l := p.Radio.Layout
	began := time.Now()
	n := uint32(1)
	for ; time.Since(began) < floodFor; n++ {
		if err := p.Send(counted(l, n)); err != nil {
			return err
		}
		time.Sleep(time.Until(began.Add(time.Duration(n) * time.Second / floodRate)))
	}
	took := time.Since(began).Seconds()
	if err := endsAsKernel(p, raw); err != nil {
		return err
	}
	fed := float64(n-1) / took
	read := float64(len(raw.seen)) / took
	f.add("fed", fmt.Sprintf("%.0f/s", fed))
	f.add("read", fmt.Sprintf("%.0f/s", read))
	marks, lost, mixed, err := checkCounts(raw.seen, l.AxisCount())
	f.add("marks", marks)
	f.add("lost under marks", lost)
	f.add("mixed after marks", mixed)
	if err != nil {
		return err
	}
	if fed < floodLeast || read < floodLeast {
		return fmt.Errorf("under %d a second", floodLeast)
	}
	return nil
}

// floodMarks makes the kernel drop events for certain: the program is stopped while reports come, then goes on with no
// report coming. The state under the mark, and the last one, must be what the kernel answers.
func floodMarks(f *figures) (err error) {
	const rounds, burst, quiet = 12, 400, 40
	p, raw, err := floodStart()
	if err != nil {
		return err
	}
	defer closing(&err, raw.stop, p.out)
	l := p.Radio.Layout
	n := uint32(0)
	send := func(count int, pace time.Duration) error {
		for range count {
			n++
			if err := p.Send(counted(l, n)); err != nil {
				return err
			}
			time.Sleep(pace)
		}
		return nil
	}
	back := 0
	for round := range rounds {
		if err := raw.freeze(); err != nil {
			return err
		}
		if err := send(burst+round*7, 0); err != nil {
			return err
		}
		values, keys, err := p.answer()
		if err != nil {
			return err
		}
		raw.take()
		from := len(raw.seen)
		if err := raw.cmd.Process.Signal(syscall.SIGCONT); err != nil {
			return err
		}
		at, err := raw.await(3*time.Second, from, "a mark after the reader was held up", func(r rawLine) bool { return r.Resync })
		if err != nil {
			return fmt.Errorf("round %d: %w", round+1, err)
		}
		if got := raw.seen[at]; !slices.Equal(got.Axes, values) || !slices.Equal(got.Buttons, keys) {
			return fmt.Errorf("round %d: the marked state is %v %v, the kernel answers %v %v", round+1, got.Axes, got.Buttons, values, keys)
		}
		time.Sleep(60 * time.Millisecond)
		if err := endsAsKernel(p, raw); err != nil {
			return fmt.Errorf("round %d: %w", round+1, err)
		}
		for _, s := range raw.seen[at:] {
			if !slices.Equal(s.Axes, values) || !slices.Equal(s.Buttons, keys) {
				back++
			}
		}
		if err := send(quiet, 2*time.Millisecond); err != nil {
			return err
		}
		if err := endsAsKernel(p, raw); err != nil {
			return fmt.Errorf("round %d, after it: %w", round+1, err)
		}
	}
	marks, lost, mixed, err := checkCounts(raw.seen, l.AxisCount())
	f.add("rounds", rounds)
	f.add("marks", marks)
	f.add("lost under marks", lost)
	f.add("states after a mark that were not the kernel's answer", back)
	f.add("mixed", mixed)
	if err == nil && marks < rounds {
		err = fmt.Errorf("%d marks in %d rounds", marks, rounds)
	}
	return err
}

// floodStart plugs the main radio in at count 0 and starts the program on its raw states.
func floodStart() (*plugged, *stream[rawLine], error) {
	p, err := plug(fakeradio.Main())
	if err != nil {
		return nil, nil, err
	}
	if err := p.Send(counted(p.Radio.Layout, 0)); err != nil {
		closing(&err, p.out)
		return nil, nil, err
	}
	raw, err := watchRaw(started{})
	if err != nil {
		closing(&err, p.out)
		return nil, nil, err
	}
	if _, err := raw.await(firstLine, 0, "the first state", func(rawLine) bool { return true }); err != nil {
		closing(&err, raw.stop, p.out)
		return nil, nil, err
	}
	return p, raw, nil
}

// answer is what the kernel answers: axes and pressed buttons.
func (p *plugged) answer() ([]int32, []int, error) {
	values, err := p.view.values()
	if err != nil {
		return nil, nil, err
	}
	keys, err := p.view.pressed()
	return values, keys, err
}

// endsAsKernel waits until the last state is what the kernel answers; no report is sent meanwhile.
func endsAsKernel(p *plugged, raw *stream[rawLine]) error {
	values, keys, err := p.answer()
	if err != nil {
		return err
	}
	var last rawLine
	var broken error
	late := waitUntil(3*time.Second, "the last state to be the kernel's", func() bool {
		if _, broken = raw.take(); broken != nil {
			return true
		}
		if len(raw.seen) > 0 {
			last = raw.seen[len(raw.seen)-1]
		}
		return slices.Equal(last.Axes, values) && slices.Equal(last.Buttons, keys)
	})
	if broken != nil {
		return broken
	}
	if late != nil {
		return fmt.Errorf("%w: it is %v %v, the kernel answers %v %v", late, last.Axes, last.Buttons, values, keys)
	}
	return nil
}
