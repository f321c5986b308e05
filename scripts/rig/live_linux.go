package main

import (
	"fmt"
	"runtime"
	"slices"
	"sync"
	"time"

	"golang.org/x/sys/unix"

	"propsoff.example/scripts/rig/fakeradio"
	"propsoff.example/scripts/rig/hand"
	"propsoff.example/scripts/rig/kernelrule"
)

// reportEvery is the pace of a made radio: 125 reports a second, the least of USB radios (common practice, no source). Eight
// radios at once must not starve an emulated machine.
const reportEvery = 8 * time.Millisecond

// lookEvery is how often a pilot looks at what is asked: soon enough for a person.
const lookEvery = 10 * time.Millisecond

// live is a made radio in the guest, held by a hand that goes on sending until it is put away. The hand's time goes by
// reports, one after the other: where an emulated machine holds the rig up, a movement takes longer, and nothing leaps.
type live struct {
	made fakeradio.Made

	mu    sync.Mutex
	hand  *hand.Hand
	now   time.Duration      // of the hand
	until time.Duration      // the hand has something to do
	gap   time.Duration      // the longest between two reports
	p     *fakeradio.Plugged // nil while it is pulled out
	event string             // its node
	stop  chan struct{}
	done  chan struct{}
	lost  error // why the sending ended by itself
}

// pickUp plugs a made radio in and begins to hold it.
func pickUp(m fakeradio.Made, seed uint64) (*live, error) {
	if err := m.Check(); err != nil {
		return nil, err
	}
	l := &live{made: m, hand: hand.New(&m, seed)}
	return l, l.plugIn()
}

// plugIn plugs the radio in with its controls where they stand now. It sends from the first moment on, as a real one does
// when it is opened: until the first report the kernel answers 0 for every axis.
func (l *live) plugIn() error {
	p, err := fakeradio.Plug(l.made.Radio, plugLimit)
	if err != nil {
		return err
	}
	l.stop, l.done = make(chan struct{}), make(chan struct{})
	go l.send(p, l.stop, l.done)
	n, err := findNodes(l.made.Radio, nodeLimit)
	l.mu.Lock()
	l.p, l.event, l.lost = p, n.event, nil
	l.mu.Unlock()
	if err != nil {
		closing(&err, l.pullOut)
	}
	return err
}

// send is the radio's own work, so it comes before everything else that the guest does.
func (l *live) send(p *fakeradio.Plugged, stop, done chan struct{}) {
	defer close(done)
	runtime.LockOSThread() // never unlocked: the thread goes with its haste
	_ = unix.Setpriority(unix.PRIO_PROCESS, 0, -20)
	tick := time.NewTicker(reportEvery)
	defer tick.Stop()
	last := time.Now()
	for {
		select {
		case <-stop:
			return
		case <-tick.C:
			err := p.Send(l.report())
			at := time.Now()
			l.mu.Lock()
			l.gap = max(l.gap, at.Sub(last))
			l.lost = err
			l.mu.Unlock()
			if err != nil {
				return
			}
			last = at
		}
	}
}

// report is what the radio sends next.
func (l *live) report() fakeradio.Report {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.now += reportEvery
	return l.hand.Report(l.now)
}

// move begins movements as soon as those before are over.
func (l *live) move(moves ...hand.Move) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.lost != nil {
		return l.lost
	}
	end, err := l.hand.Begin(max(l.now, l.until), moves...)
	l.until = max(l.until, end)
	return err
}

// turn begins movements at once, also of what moves already.
func (l *live) turn(moves ...hand.Move) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.lost != nil {
		return l.lost
	}
	_, err := l.hand.Begin(l.now, moves...)
	return err
}

// idle says that the hand has nothing left to do.
func (l *live) idle() bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.now > l.until
}

// moved makes movements and waits until they are over.
func (l *live) moved(moves ...hand.Move) error {
	if err := l.move(moves...); err != nil {
		return err
	}
	return waitUntil(time.Minute, "the hand to be done", func() bool { return l.idle() || l.p == nil })
}

// standing gives where every axis stands, without noise.
func (l *live) standing() []int32 {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.hand.Standing()
}

// longest gives the longest time between two reports since it was asked last.
func (l *live) longest() time.Duration {
	l.mu.Lock()
	defer l.mu.Unlock()
	gap := l.gap
	l.gap = 0
	return gap
}

// pullOut takes the plug out; the hand goes on holding.
func (l *live) pullOut() error {
	close(l.stop)
	<-l.done
	l.mu.Lock()
	p := l.p
	l.p = nil
	l.mu.Unlock()
	if err := p.Unplug(); err != nil {
		return err
	}
	return nodesGone(l.made.Radio)
}

// away puts the radio away; one that is pulled out already is fine.
func (l *live) away() error {
	if l.p == nil {
		return nil
	}
	return l.pullOut()
}

// kernelAxis gives the number (from 0) under which Linux shows the axis of a control: a hat comes after the axes as two, across
// and then up and down (up is −1: drivers/hid/hid-input.c, hid_hat_to_axis). Nothing for a control of buttons.
func kernelAxis(m *fakeradio.Made, c fakeradio.Control) int {
	for _, p := range c.Places {
		if p.Hat == fakeradio.Nothing {
			continue
		}
		x, _ := hatAxes(p.Hat)
		if x != 0 {
			return m.Layout.AxisCount()
		}
		return m.Layout.AxisCount() + 1
	}
	return c.Axis
}

// hatAxes gives what Linux makes of a hat direction, 0 to 7 clockwise from up: drivers/hid/hid-input.c.
func hatAxes(dir int) (x, y int32) {
	at := [...][2]int32{{0, -1}, {1, -1}, {1, 0}, {1, 1}, {0, 1}, {-1, 1}, {-1, 0}, {-1, -1}}
	if dir < 0 || dir > 7 {
		return 0, 0
	}
	return at[dir][0], at[dir][1]
}

// kernelControls takes every control of every made radio through all it can do and asks the kernel what came: the value of
// the axis by the rule of its filter, the buttons, the hat.
func kernelControls(f *figures) error {
	for _, m := range fakeradio.Fleet() {
		if err := m.Check(); err != nil {
			return err
		}
		n, err := controlsShow(m)
		if err != nil {
			return fmt.Errorf("%s: %w", m.Name, err)
		}
		f.add(m.Name, fmt.Sprintf("%d places", n))
	}
	return nil
}

func controlsShow(m fakeradio.Made) (count int, err error) {
	p, err := plug(m.Radio)
	if err != nil {
		return 0, err
	}
	defer closing(&err, p.out)
	if err := checkNodes(p, &figures{}); err != nil {
		return 0, err
	}
	h := hand.New(&m, 1)
	k, err := newKernelTwin(p)
	if err != nil {
		return 0, err
	}
	at := time.Duration(0)
	for _, c := range m.Controls {
		for _, move := range append(hand.Through(c), hand.Again(c)...) {
			end, err := h.Begin(at, move)
			if err != nil {
				return count, err
			}
			for ; at <= end; at += 20 * time.Millisecond {
				r := h.Report(at)
				if err := p.Send(r); err != nil {
					return count, err
				}
				p.view.drain()
				if err := k.shows(p, &r); err != nil {
					return count, fmt.Errorf("%s to %d: %w", c.Job, move.To, err)
				}
			}
			count++
		}
	}
	return count, nil
}

// kernelTwin follows what the kernel must make of a radio's axes. A raw value that is sent again unchanged goes no farther
// than the HID layer (drivers/hid/hid-input.c: reports of absolute data that did not change are ignored), so the input
// core's filter is not asked again and a value short of the sent one stays so.
type kernelTwin struct {
	rules      []kernelrule.Axis
	sent, seen []int32
}

func newKernelTwin(p *plugged) (*kernelTwin, error) {
	values, err := p.view.values()
	if err != nil {
		return nil, err
	}
	r := p.Radio.Layout.Rest() // as plug left it
	return &kernelTwin{axesOf(p.Radio), p.axesSent(&r), values}, nil
}

// axesSent gives the axes of a report as Linux numbers them.
func (p *plugged) axesSent(r *fakeradio.Report) []int32 {
	sent := slices.Clone(r.Axes)
	if p.Radio.Layout.HatCount() > 0 {
		x, y := hatAxes(r.Hat)
		sent = append(sent, x, y)
	}
	return sent
}

// shows holds the kernel's answer against one report that was sent.
func (k *kernelTwin) shows(p *plugged, r *fakeradio.Report) error {
	values, keys, err := p.answer()
	if err != nil {
		return err
	}
	for i, v := range p.axesSent(r) {
		if v != k.sent[i] {
			k.sent[i], k.seen[i] = v, k.rules[i].Defuzz(v, k.seen[i])
		}
		if values[i] != k.seen[i] {
			return fmt.Errorf("axis %d was sent at %d, the rule says %d, the kernel %d", i+1, v, k.seen[i], values[i])
		}
	}
	at := 0
	for b, on := range r.Pressed {
		is := at < len(keys) && keys[at] == b+1
		if is {
			at++
		}
		if is != on {
			return fmt.Errorf("button %d was sent %v, the kernel has %v pressed", b+1, on, keys)
		}
	}
	return nil
}
