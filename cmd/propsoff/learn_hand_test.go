package main

import (
	"context"
	"encoding/json"
	"io"
	"os"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
	"propsoff.example/input/inputtest"
	"propsoff.example/input/radio"
	"propsoff.example/input/usb"
)

// stride is how finely the learner's time goes, in µs, and patience how many strides something is waited for. The time is the hand's: it goes
// on only once the command has looked at the radio, so a busy machine makes a test longer and changes nothing in it.
const stride, patience = 20_000, 20_000

// deskPort is a USB port with radios that a hand moves while the test runs.
type deskPort struct {
	mu     sync.Mutex
	now    func() int64
	lines  atomic.Pointer[terminal.Lines]
	there  []usb.Found
	infos  map[string]input.Info
	raw    input.Raw
	open   *deskDevice
	wake   chan struct{}
	opened int
	late   int64 // stamp of the newest state
}

func (p *deskPort) List() ([]usb.Found, []usb.Notice, error) { return p.Found(), nil, nil }
func (p *deskPort) Watch() (world.Watcher, error)            { return p, nil }
func (p *deskPort) Poll(dst []usb.Change) []usb.Change       { return dst }
func (p *deskPort) Wake() <-chan struct{}                    { return p.wake }
func (p *deskPort) Close() error                             { return nil }
func (p *deskPort) Found() []usb.Found {
	p.mu.Lock()
	defer p.mu.Unlock()
	return slices.Clone(p.there)
}

func (p *deskPort) plug(info input.Info) {
	p.mu.Lock()
	p.infos[info.Path] = info
	p.there = append(p.there, usb.Found{Path: info.Path, Event: info.Path, Name: info.Name, Vendor: info.Vendor, Product: info.Product, Serial: info.Serial, Port: info.Port, Way: usb.WayEvent})
	p.mu.Unlock()
	p.wake <- struct{}{}
}

func (p *deskPort) pull(path string) {
	p.mu.Lock()
	p.there = slices.DeleteFunc(p.there, func(f usb.Found) bool { return f.Path == path })
	if p.open != nil && p.open.info.Path == path {
		p.open.gone = true
		p.open = nil
	}
	p.mu.Unlock()
	p.wake <- struct{}{}
}

func (p *deskPort) Open(path string, epoch int64) (input.Device, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	info, ok := p.infos[path]
	if !ok {
		return nil, os.ErrNotExist
	}
	p.opened++
	d := &deskDevice{port: p, info: info, epoch: epoch, wake: make(chan struct{}, 1), looked: make(chan struct{}, 1)}
	first := p.raw
	first.At = p.now() - epoch
	d.states = []input.Raw{first}
	p.open = d
	return d, nil
}

// change moves something, and reports each of n states on its way, 10 ms apart: the stamps are those of a steady hand, however
// busy the machine is.
func (p *deskPort) change(n int32, f func(raw *input.Raw, i int32)) {
	p.mu.Lock()
	defer p.mu.Unlock()
	at := max(p.now(), p.late)
	for i := int32(1); i <= n; i++ {
		f(&p.raw, i)
		if p.open != nil {
			raw := p.raw
			raw.At = at - p.open.epoch
			p.open.states = append(p.open.states, raw)
		}
		p.late = at
		at += 10_000
	}
	if d := p.open; d != nil {
		select {
		case d.wake <- struct{}{}:
		default:
		}
	}
}

type deskDevice struct {
	port   *deskPort
	info   input.Info
	epoch  int64
	states []input.Raw
	gone   bool
	wake   chan struct{}
	looked chan struct{} // carries a value when the command has looked
}

func (d *deskDevice) Info() input.Info      { return d.info }
func (d *deskDevice) Wake() <-chan struct{} { return d.wake }
func (d *deskDevice) Close() error          { return nil }
func (d *deskDevice) Poll(dst []input.Raw) ([]input.Raw, error) {
	d.port.mu.Lock()
	defer d.port.mu.Unlock()
	select {
	case d.looked <- struct{}{}:
	default:
	}
	dst = append(dst, d.states...)
	d.states = nil
	if d.gone {
		return dst, inputtest.Gone{At: d.port.now() - d.epoch}
	}
	return dst, nil
}

// learner is a learn command that runs beside the test, and the hand of whoever sits before it.
type learner struct {
	t     *testing.T
	port  *deskPort
	clock *atomic.Int64
	out   *output
	err   *output
	in    *io.PipeWriter
	code  chan int
	store radio.Store
	read  int // bytes of out that the hand has read
	// What was told last.
	question, step, phase string
	acted                 string   // on which question and step
	left                  []string // to be moved once more
}

func deskInfo(serial string) input.Info {
	info := input.Info{Path: "/dev/input/" + serial, Name: "Moorland Desk 7", Vendor: 0x1f4a, Product: 7, Serial: serial, Port: "1-1", Buttons: 8, Way: usb.WayEvent}
	for i := range 7 {
		info.Axes = append(info.Axes, input.Axis{Code: i, Max: 2047})
	}
	return info
}

// sit begins to learn; change, where given, alters the world first.
func sit(t *testing.T, change func(*world.World), args ...string) *learner {
	t.Helper()
	w, out, errs := testWorld(t)
	clock := new(atomic.Int64)
	clock.Store(1)
	w.Now = clock.Load
	l := &learner{t: t, clock: clock, out: out, err: errs, code: make(chan int, 1), store: w.Store,
		port: &deskPort{now: w.Now, infos: map[string]input.Info{}, wake: make(chan struct{}, 16)}}
	for _, axis := range []int{0, 1, 3} {
		l.port.raw.Axes[axis] = 1023
	}
	w.Radios, w.Saw = l.port, l.port.lines.Store
	r, in := io.Pipe()
	w.In, l.in = r, in
	if change != nil {
		change(w)
	}
	l.store = w.Store
	ctx, stop := context.WithCancel(context.Background())
	go func() { l.code <- execute(ctx, append([]string{"learn"}, args...), w) }()
	t.Cleanup(func() { stop(); _ = in.Close() })
	return l
}

func (l *learner) say(line string) {
	_, err := l.in.Write([]byte(line + "\n"))
	require.NoError(l.t, err)
}

// wait lets µs of the learner's time pass.
func (l *learner) wait(us int64) {
	for ; us > 0; us -= stride {
		l.clock.Add(min(us, stride))
		if _, over := l.ended(); !over {
			l.port.heard()
		}
	}
}

// heard waits until the command has looked at the radio that it reads, and done what it does thereupon. One that asks nothing more does
// not look.
func (p *deskPort) heard() {
	p.mu.Lock()
	d := p.open
	p.mu.Unlock()
	if d == nil {
		time.Sleep(time.Millisecond)
		return
	}
	for range 3 { // one look may have been told of before, and a second be under way
		select {
		case d.wake <- struct{}{}:
		default:
		}
		select {
		case <-d.looked:
		case <-time.After(50 * time.Millisecond):
			return
		}
	}
	for lines := p.lines.Load(); lines != nil && lines.Waits(); { // what it said thereupon is told a little later
		time.Sleep(50 * time.Microsecond)
	}
}

// reads waits until a text was printed.
func (l *learner) reads(text string) {
	l.t.Helper()
	for range patience {
		if strings.Contains(l.out.String(), text) {
			return
		}
		l.wait(stride)
	}
	l.t.Fatalf("no %q in %s", text, l.out)
}

// to brings an axis to a value as a hand does.
func (l *learner) to(axis int, value int32) {
	from := l.port.raw.Axes[axis]
	l.port.change(8, func(raw *input.Raw, i int32) { raw.Axes[axis] = from + (value-from)*i/8 })
	l.wait(100_000)
}

// flip throws a switch over.
func (l *learner) flip(axis int, value int32) {
	l.port.change(1, func(raw *input.Raw, _ int32) { raw.Axes[axis] = value })
	l.wait(600_000)
}

func (l *learner) press(button int, on bool) {
	l.port.change(1, func(raw *input.Raw, _ int32) {
		raw.Buttons[0] &^= 1 << button
		if on {
			raw.Buttons[0] |= 1 << button
		}
	})
}

func (l *learner) ended() (code int, ok bool) {
	select {
	case code = <-l.code:
		l.code <- code
		return code, true
	default:
		return 0, false
	}
}

// told reads the lines that are new, and gives the objects in them.
func (l *learner) told() []map[string]any {
	text := l.out.String()[l.read:]
	end := strings.LastIndexByte(text, '\n') + 1
	l.read += end
	var all []map[string]any
	for _, line := range strings.Split(strings.TrimSpace(text[:end]), "\n") {
		var o map[string]any
		if line == "" {
			continue
		}
		require.NoError(l.t, json.Unmarshal([]byte(line), &o), line)
		all = append(all, o)
		switch o["code"] {
		case "question":
			l.question, l.step, l.acted = o["question"].(string), o["step"].(string), ""
		case "phase":
			l.phase = o["phase"].(string)
		case "replayed":
			l.left = []string{}
			for _, job := range o["left"].([]any) {
				l.left = append(l.left, job.(string))
			}
		}
	}
	return all
}

// until lets the hand do what is asked until a line with a code (and, where given, a field with a value) is told.
func (l *learner) until(code string, more ...string) map[string]any {
	l.t.Helper()
	for waited, ended := 0, false; waited < patience && !ended; waited++ {
		_, ended = l.ended() // and then read what was told before that
		for _, o := range l.told() {
			if o["code"] == code && (len(more) == 0 || o[more[0]] == more[1]) {
				return o
			}
		}
		if !ended {
			l.act()
			l.wait(stride)
		}
	}
	l.t.Fatalf("no %s %v; %s %s %s in:\n%s%s", code, more, l.question, l.step, l.phase, l.out.String(), l.err.String())
	return nil
}

// stickAxes are the axes of the sticks on this radio; pitch runs backwards.
var stickAxes = map[string]int{"throttle": 2, "yaw": 3, "pitch": 1, "roll": 0}

// act does what is asked for, once for each question and step.
func (l *learner) act() {
	now := l.question + " " + l.step
	if l.question == "stick-mode" && l.acted != now {
		l.acted = now
		l.say("3")
		return
	}
	corners := l.question == "replay" && l.left == nil && l.phase == "returning" // that everything must go back is asked there at once
	if l.phase != "moving" && !corners || l.acted == now {
		return
	}
	l.acted = now
	axis, isStick := stickAxes[l.question]
	high, low := int32(2047), int32(0)
	if l.question == "pitch" {
		high, low = low, high
	}
	switch {
	case isStick && l.step == "high-end":
		l.to(axis, high)
	case isStick && l.step == "low-end":
		l.to(axis, low)
	case isStick && l.step == "let-go" && l.question != "throttle": // a throttle just stays
		l.to(axis, 1023)
	case l.question == "arm":
		l.press(3, true)
	case l.question == "mode":
		l.flip(5, 1023)
		l.flip(5, 2047)
	case l.question == "more" && l.port.raw.Axes[6] == 0:
		l.flip(6, 2047)
		l.until("found", "job", "channel 7")
		l.say("right")
		l.say("call lamp")
		l.until("found", "job", "channel 7") // with its side
		l.say("enough")
	case l.question == "top-right":
		l.to(2, 2047)
		l.to(3, 2047)
		l.to(1, 0)
		l.to(0, 2047)
	case l.question == "replay":
		l.acted = ""
		l.moveOnceMore()
	}
}

// moveOnceMore moves one control of those that are left, and has it rest again.
func (l *learner) moveOnceMore() {
	if l.left == nil { // first out of the corners
		for axis, rest := range []int32{1023, 1023, 0, 1023} {
			l.to(axis, rest)
		}
		l.left = []string{"pitch", "yaw", "roll", "throttle", "arm", "mode", "channel 7"}
		l.phase = "" // until it is told again
		l.wait(1_500_000)
		return
	}
	if len(l.left) == 0 {
		return
	}
	job := l.left[0]
	l.left = append(l.left[1:], job) // the next one is tried first, should this one not be seen
	switch job {
	case "arm":
		l.press(3, false)
		l.wait(600_000)
		l.press(3, true)
	case "mode":
		for _, value := range []int32{1023, 0, 1023, 2047} {
			l.flip(5, value)
		}
	case "channel 7":
		l.flip(6, 0)
		l.flip(6, 2047)
	default:
		axis := stickAxes[job]
		for _, value := range []int32{2047, 0} {
			l.to(axis, value)
			l.wait(600_000)
		}
		if job != "throttle" {
			l.to(axis, 1023)
		}
	}
	l.wait(800_000)
}

// finish waits for the end of the command.
func (l *learner) finish() int {
	l.t.Helper()
	select {
	case code := <-l.code:
		return code
	case <-time.After(2 * time.Minute):
		l.t.Fatalf("learn goes on:\n%s%s", l.out.String(), l.err.String())
		return -1
	}
}
