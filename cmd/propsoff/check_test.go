package main

import (
	"bytes"
	"context"
	"encoding/json"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/console"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/termlive"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
	"propsoff.example/input/check"
	"propsoff.example/input/inputtest"
	"propsoff.example/input/radio"
	"propsoff.example/input/usb"
)

// checkedRadio is a radio with scripted hands that do everything that is asked for, and its file: a throttle that ends at 1012 µs,
// a yaw that rests 29 µs off, a roll that trembles, and the rest sound.
func checkedRadio(sound bool) (*inputtest.Radio, radio.File, int64) {
	info := input.Info{Path: "/dev/input/event7", Name: "Moorland Desk 7", Vendor: 0x1f4a, Product: 7, Serial: "A", Port: "1-A", Buttons: 2, Way: usb.WayEvent}
	for i := range 6 {
		info.Axes = append(info.Axes, input.Axis{Code: i, Max: 2047})
	}
	r := inputtest.NewRadio(info)
	r.Rest(0, 0)
	r.Rest(4, 0)
	rest := [4]int32{0, 1023, 1023, 1023}
	if !sound {
		rest[3] = 1082
		r.Rest(3, rest[3])
		r.ShortTravel(0, 48, 2047)
		r.Noise(1, 8, 5)
	}
	s := radio.Own(info.Axes[0])
	file := radio.File{Device: radio.DeviceOf(info), StickMode: 2}
	for i, job := range []string{"throttle", "roll", "pitch", "yaw"} {
		file.Controls = append(file.Controls, radio.Control{Job: job, Form: radio.Axis, Axis: i, Scale: &s, Stays: i == 0})
	}
	file.Controls = append(file.Controls,
		radio.Control{Job: "mode", Form: radio.Axis, Axis: 4, Scale: &s, Positions: []radio.Position{{At: 0}, {At: 2046}, {At: 4094}}},
		radio.Control{Job: "arm", Form: radio.Button, Buttons: []int{0}, Called: "red switch"})
	at := int64(300_000)
	move := func(axis int, to int32, us int64) { r.Move(at, us, axis, to); at += us }
	begin := at
	for a := range 4 {
		at = begin
		move(a, 2047, 300_000)
	}
	at += 600_000
	begin = at
	for a := range 4 {
		at = begin
		move(a, rest[a], 200_000)
	}
	at += 100_000
	move(0, 2047, 400_000)
	at += 200_000
	move(0, 0, 400_000)
	at += 2_300_000 // a throttle may stand anywhere for a moment
	for _, a := range []int{3, 2, 1} {
		move(a, 2047, 300_000)
		at += 200_000
		move(a, 0, 600_000)
		at += 200_000
		move(a, 2047, 600_000)
		move(a, rest[a], 200_000)
		at += 100_000
	}
	for _, to := range []int32{1023, 2047, 0} {
		move(4, to, 4000)
		at += 300_000
	}
	r.Press(at, 0, true)
	r.Press(at+300_000, 0, false)
	at += 5_500_000
	r.Until(at)
	return r, file, at
}

// fastPort is a USB port with one radio on which time runs fast.
type fastPort struct {
	radio  *inputtest.Radio
	there  []usb.Found
	failed error
	now    atomic.Int64
	mu     sync.Mutex
	open   []*inputtest.Device
	once   sync.Once
	begun  chan struct{} // closed when a device was opened
	stop   chan struct{}
}

func newFastPort(t *testing.T, r *inputtest.Radio) *fastPort {
	i := r.Info()
	p := &fastPort{radio: r, begun: make(chan struct{}), stop: make(chan struct{})}
	p.there = []usb.Found{{Name: i.Name, Path: i.Path, Event: i.Path, Vendor: i.Vendor, Product: i.Product, Serial: i.Serial, Port: i.Port, Way: i.Way}}
	t.Cleanup(func() { close(p.stop) })
	go p.pass()
	return p
}

func (p *fastPort) List() ([]usb.Found, []usb.Notice, error) { return p.there, nil, nil }
func (p *fastPort) Watch() (world.Watcher, error)            { return p, nil }
func (p *fastPort) Poll(dst []usb.Change) []usb.Change       { return dst }
func (p *fastPort) Wake() <-chan struct{}                    { return nil }
func (p *fastPort) Found() []usb.Found                       { return p.there }
func (p *fastPort) Close() error                             { return nil }
func (p *fastPort) Open(string, int64) (input.Device, error) {
	if p.failed != nil {
		return nil, p.failed
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	d := p.radio.OpenSlow(p.now.Load())
	p.open = append(p.open, d)
	p.once.Do(func() { close(p.begun) })
	return d, nil
}

// pass lets time pass from the first opening on, a hundred times as fast as it does.
func (p *fastPort) pass() {
	select {
	case <-p.stop:
		return
	case <-p.begun:
	}
	for {
		select {
		case <-p.stop:
			return
		case <-time.After(200 * time.Microsecond):
		}
		now := p.now.Load() + 20_000
		p.mu.Lock()
		for _, d := range p.open {
			d.Pass(now)
		}
		p.mu.Unlock()
		p.now.Store(now) // afterwards: what is stamped before the time can be read by then
	}
}

// soon ends a check that hangs, so that its report says what was still asked for.
func soon(t *testing.T) context.Context {
	ctx, cancel := context.WithTimeout(context.Background(), 2*time.Minute)
	t.Cleanup(cancel)
	return ctx
}

// checkRun runs `propsoff check` on a radio.
func checkRun(t *testing.T, p *fastPort, keep *radio.File, args ...string) (code int, out, errs string) {
	t.Helper()
	w, o, e := testWorld(t)
	w.Radios, w.Now = p, p.now.Load
	if keep != nil {
		_, err := w.Store.Save(*keep)
		require.NoError(t, err)
	}
	code = execute(soon(t), append([]string{"check"}, args...), w)
	return code, o.String(), e.String()
}

func TestCheckOfASoundRadio(t *testing.T) {
	r, file, _ := checkedRadio(true)
	code, out, errs := checkRun(t, newFastPort(t, r), &file)
	assert.Equal(t, exit.CodeDone, code, out)
	assert.Contains(t, errs, "transmitting")
	for _, want := range []string{"-> Push both sticks to the top right", "-> Let go of everything", "Full and free: all 33 items pass.", "red switch, positions: passes. All 2 seen."} {
		assert.Contains(t, out, want)
	}
}

func TestCheckNamesWhatFailsAndExitsWithOne(t *testing.T) {
	r, file, _ := checkedRadio(false)
	code, out, _ := checkRun(t, newFastPort(t, r), &file, "--json")
	assert.Equal(t, exit.CodeFailed, code)
	lines := strings.Split(strings.TrimSpace(out), "\n")
	var end struct {
		Code                          string
		Whole                         bool
		Passes, Warns, Fails, Waiting int
		Items                         []struct {
			Control, Item, Verdict, Matters, Do string
			Value, Limit                        float64
		}
	}
	for _, l := range lines {
		require.True(t, json.Valid([]byte(l)), l)
	}
	require.NoError(t, json.Unmarshal([]byte(lines[len(lines)-1]), &end))
	assert.Equal(t, "check-finished", end.Code)
	assert.True(t, end.Whole)
	assert.Equal(t, []int{2, 1, 0}, []int{end.Fails, end.Warns, end.Waiting})
	bad := map[string]float64{}
	for _, it := range end.Items {
		if it.Verdict != "passes" {
			bad[it.Control+" "+it.Item+" "+it.Matters+" "+it.Do] = it.Value
		}
	}
	assert.Len(t, bad, 3)
	assert.Equal(t, 1012.0, bad["throttle low-end never-low more-low"])
	assert.Equal(t, 29.25, bad["yaw centre drifts trim-back"])
	assert.InDelta(t, 2.45, bad["roll noise trembles steady"], 0.1)
}

// The craft's own mark counts: with a low throttle of 1040 the same radio's throttle is low.
func TestCheckHonoursTheCraft(t *testing.T) {
	r, file, _ := checkedRadio(false)
	path := filepath.Join(t.TempDir(), "craft.yaml")
	_, text, _ := assets.Craft(assets.BuiltIn)
	require.NoError(t, os.WriteFile(path, bytes.Replace(text, []byte("low-throttle: 1000"), []byte("low-throttle: 1040"), 1), 0o600))
	code, out, errs := checkRun(t, newFastPort(t, r), &file, "--craft", path)
	assert.Equal(t, exit.CodeFailed, code, errs)
	assert.Contains(t, out, "throttle, low end: warns. 1012 µs; must be below 1040 µs.")
}

func TestCheckEndsInTimeAndSaysWhatWasNotMoved(t *testing.T) {
	r, file, _ := checkedRadio(true)
	code, out, _ := checkRun(t, newFastPort(t, r), &file, "--for", "60ms")
	assert.Equal(t, exit.CodeFailed, code)
	assert.Contains(t, out, "Not finished: ")
}

func TestCheckWaitsForARadioThatWasPulledOut(t *testing.T) {
	r, file, at := checkedRadio(true)
	r.Vanish(at - 5_000_000)
	code, out, _ := checkRun(t, newFastPort(t, r), &file)
	assert.Equal(t, exit.CodeFailed, code)
	for _, want := range []string{"Moorland Desk 7 was unplugged", "Moorland Desk 7 is back", "the radio, lost readings: fails. Once; must be none.", "Take another USB cable"} {
		assert.Contains(t, out, want)
	}
}

func TestCheckOnATerminalDrawsInPlace(t *testing.T) {
	r, file, _ := checkedRadio(false)
	p := newFastPort(t, r)
	w, o, _ := testWorld(t)
	w.Radios, w.Now, w.Screen = p, p.now.Load, func() (int, int, bool) { return 100, 40, true }
	_, err := w.Store.Save(file)
	require.NoError(t, err)
	assert.Equal(t, exit.CodeFailed, execute(soon(t), []string{"check"}, w))
	out := o.String()
	for _, want := range []string{"\x1b[2J", "propsoff check · Moorland Desk 7", "-> throttle", "=", "XX throttle, low end: fails."} {
		assert.Contains(t, out, want)
	}
	assert.True(t, strings.Contains(out, "\x1b[?25l") && strings.Contains(out, "\x1b[?25h"), "the cursor comes back")
}

func TestCheckOfBadInput(t *testing.T) {
	r, file, _ := checkedRadio(true)
	dir := t.TempDir()
	write := func(name string, change func(*radio.File)) string {
		f := file
		f.Controls = append([]radio.Control(nil), file.Controls...)
		change(&f)
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, f.Marshal(), 0o600))
		return path
	}
	other := write("other.yaml", func(f *radio.File) { f.Device = radio.Device{Name: "Heath 2", Vendor: 1, Product: 2} })
	wide := write("wide.yaml", func(f *radio.File) { f.Controls[1].Axis = 20 })
	for _, c := range []struct {
		name string
		args []string
		code int
		want string
		set  func(*fastPort)
	}{
		{"no radio file", nil, exit.CodeBadInput, "has not been learned yet", nil},
		{"file of another radio", []string{"--radio", other}, exit.CodeBadInput, "was learned for Heath 2, but the radio is Moorland Desk 7", nil},
		{"file that does not fit", []string{"--radio", wide}, exit.CodeBadInput, "wide.yaml:", nil},
		{"no such file", []string{"--radio", "nope.yaml"}, exit.CodeBadInput, "nope.yaml: there is no such radio file", nil},
		{"no such craft", []string{"--craft", "nope.yaml"}, exit.CodeBadInput, "there is no such craft file", nil},
		{"no radio of that name", []string{"--device", "fen"}, exit.CodeBadInput, "no radio is called", nil},
		{"no time", []string{"--for", "0s"}, exit.CodeBadInput, "--for needs a time", nil},
		{"no radio", nil, exit.CodeTrouble, "No radio is plugged in", func(p *fastPort) { p.there = nil }},
		{"not allowed", nil, exit.CodeTrouble, "may not be read", func(p *fastPort) { p.failed = fs.ErrPermission }},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := newFastPort(t, r)
			if c.set != nil {
				c.set(p)
			}
			code, _, errs := checkRun(t, p, nil, c.args...)
			assert.Equal(t, c.code, code, errs)
			assert.Contains(t, errs, c.want)
		})
	}
}

// What is written for one radio, with exact times: text, JSON Lines and the live screen.
func TestGoldenCheck(t *testing.T) {
	r, file, until := checkedRadio(false)
	craft, err := bareWorld().LoadCraft("", "")
	require.NoError(t, err)
	c, err := check.New(check.Config{Info: r.Info(), File: file, Names: craft.Words})
	require.NoError(t, err)
	var view check.View
	var text, lines, screens bytes.Buffer
	outs := []*termlive.CheckLines{
		termlive.NewCheckLines(&world.World{Out: &text, Console: console.New(&text, nil, nil)}, &view, false),
		termlive.NewCheckLines(&world.World{Out: &lines}, &view, true),
	}
	states := r.States(0)
	for at := int64(0); at <= until; at += 50_000 {
		for len(states) > 0 && states[0].At <= at {
			c.Feed(&states[0])
			states = states[1:]
		}
		c.Tick(at)
		c.View(&view)
		for _, o := range outs {
			o.Shown.Radio, o.Shown.At = "Moorland Desk 7", at
			o.Tell()
		}
		if at == 2_000_000 {
			screens.WriteString(strings.Join(outs[0].Shown.Screen(100, 40), "\n") + "\n")
		}
	}
	require.True(t, view.Settled)
	for _, o := range outs {
		require.NoError(t, o.Finish())
	}
	golden(t, filepath.Join("testdata", "check", "faulty.text"), text.String())
	golden(t, filepath.Join("testdata", "check", "faulty.jsonl"), lines.String())
	golden(t, filepath.Join("testdata", "check", "faulty.screen"), screens.String())
}
