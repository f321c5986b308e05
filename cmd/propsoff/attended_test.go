//go:build linux && !window

package main

import (
	"bufio"
	"flag"
	"fmt"
	"image/png"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ink/raster"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/presses"
	"propsoff.example/cmd/propsoff/internal/pupils"
	"propsoff.example/cmd/propsoff/internal/takes"
	"propsoff.example/cmd/propsoff/internal/ui/house"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/input/script"
	"propsoff.example/input/usb"
)

// The window's program without a window, for whoever wants to try it as its user would where there is neither a screen nor a radio: every sheet, key and
// press is the program's own, the radio is made, and time goes on only as it is told. See scripts/attended.
var (
	attendedDir  = flag.String("attended", "", "a folder in which a person is attended: commands are read from the pipe in, pictures written to page.png")
	attendedSize = flag.String("attended-size", "1280x800", "the window's size")
	attendedIn   = flag.String("attended-language", "en", "the language")
)

// attendedMade is the made radio: eight axes (roll, pitch, throttle, yaw, then a lever of two positions, one of three, a knob, nothing) and two buttons.
type attendedMade struct {
	now     *int64
	plugged bool
	told    bool
	axes    [8]float64
	goals   [8]struct {
		to    float64
		until int64
	}
	buttons uint64
	open    *attendedDevice
}

const attendedMost = 2047

func (m *attendedMade) info() input.Info {
	info := input.Info{Path: "/dev/input/made", Name: "Moorland Desk 7", Vendor: 0x1f4a, Product: 7, Serial: "A12", Buttons: 2, Way: usb.WayEvent}
	for i := range m.axes {
		info.Axes = append(info.Axes, input.Axis{Code: i, Max: attendedMost})
	}
	return info
}

func (m *attendedMade) found() usb.Found {
	i := m.info()
	return usb.Found{Path: i.Path, Event: i.Path, Name: i.Name, Vendor: i.Vendor, Product: i.Product, Serial: i.Serial, Way: i.Way}
}

// Poll tells of the plug.
func (m *attendedMade) Poll(dst []usb.Change) []usb.Change {
	switch {
	case m.plugged && !m.told:
		dst = append(dst, usb.Change{Kind: usb.Arrived, Radio: m.found()})
	case !m.plugged && m.told:
		dst = append(dst, usb.Change{Kind: usb.Departed, Radio: m.found()})
	}
	m.told = m.plugged
	return dst
}

func (m *attendedMade) Found() []usb.Found {
	if !m.plugged {
		return nil
	}
	return []usb.Found{m.found()}
}

func (m *attendedMade) Open(_ string, epoch int64) (input.Device, error) {
	m.open = &attendedDevice{made: m, epoch: epoch, wake: make(chan struct{}, 1)}
	m.open.say()
	return m.open, nil
}

func (m *attendedMade) Close() error { return nil }

// step moves what moves, with a step of noise as a real stick has, and reports.
func (m *attendedMade) step() {
	for i := range m.axes {
		g := &m.goals[i]
		if left := g.until - *m.now; left > 0 {
			m.axes[i] += (g.to - m.axes[i]) * min(1, 4000/float64(left))
		} else {
			m.axes[i] = g.to
		}
	}
	if m.open != nil && m.plugged {
		m.open.say()
	}
}

type attendedDevice struct {
	made   *attendedMade
	epoch  int64
	wake   chan struct{}
	states []input.Raw
	closed bool
}

func (d *attendedDevice) say() {
	r := input.Raw{At: *d.made.now - d.epoch}
	for i, v := range d.made.axes {
		r.Axes[i] = int32((v + 1) / 2 * attendedMost)
	}
	r.Buttons[0] = d.made.buttons
	d.states = append(d.states, r)
	select {
	case d.wake <- struct{}{}:
	default:
	}
}

func (d *attendedDevice) Info() input.Info      { return d.made.info() }
func (d *attendedDevice) Wake() <-chan struct{} { return d.wake }
func (d *attendedDevice) Close() error          { d.closed = true; return nil }
func (d *attendedDevice) Poll(dst []input.Raw) ([]input.Raw, error) {
	dst = append(dst, d.states...)
	d.states = d.states[:0]
	if !d.made.plugged || d.closed {
		return dst, input.ErrGone
	}
	return dst, nil
}

type attended struct {
	t        *testing.T
	now      int64
	made     *attendedMade
	s        *screen.Screen
	loop     *live.Loop
	page     *ink.Page
	w, h     float64
	quit     bool
	fingers  bool
	pointers map[int]ink.Point
}

func (a *attended) Now() int64    { return a.now }
func (a *attended) Passed() int64 { return a.now }

func (a *attended) wait(ms int) {
	for at := 0; at < max(ms, 16); at += 16 {
		for range 4 {
			a.now += 4000
			a.made.step()
		}
		quit, _ := a.s.Turn()
		a.quit = a.quit || quit
		a.loop.Turn()
		a.s.Page(a.page, a.w, a.h)
		a.s.Shown()
	}
}

// point does one thing with a pointer.
func (a *attended) point(id int, phase ink.Phase, x, y float64) {
	e := presses.Over(a.page, ink.Pointer{ID: id, Phase: phase, At: ink.Point{X: x, Y: y}, Finger: a.fingers || id > 0}, a.page.Scale)
	a.s.Point(e)
	a.pointers[id] = e.At
	a.wait(32)
}

func (a *attended) key(name string, down bool) { a.s.Key(name, down); a.wait(32) }

// do does one command; an error says what it did not understand.
func (a *attended) do(line string) error {
	said := strings.Fields(line)
	if len(said) == 0 {
		return nil
	}
	n := make([]float64, len(said))
	for i, w := range said[1:] {
		n[i], _ = strconv.ParseFloat(w, 64)
	}
	n = append(n, 0, 0, 0, 0, 0)
	switch said[0] {
	case "wait":
		a.wait(int(n[0]))
	case "key":
		for _, k := range said[1:] {
			if k == "Space" {
				a.s.Type(" ")
			} else if len(k) == 1 {
				a.s.Type(strings.ToLower(k))
			}
			a.key(k, true)
			a.key(k, false)
		}
	case "down", "up":
		a.key(said[1], said[0] == "down")
	case "type":
		for _, r := range strings.TrimPrefix(line, "type ") {
			a.s.Type(string(r))
			if up := unicode.ToUpper(r); up >= 'A' && up <= 'Z' {
				a.key(string(up), true)
				a.key(string(up), false)
			} else {
				a.wait(32)
			}
		}
	case "press":
		a.point(0, ink.Down, n[0], n[1])
		a.wait(80)
		a.point(0, ink.Up, n[0], n[1])
	case "drag": // from, to, over so many ms; then it is let go
		a.point(0, ink.Down, n[0], n[1])
		for i := 1.0; i <= 10; i++ {
			a.point(0, ink.Move, n[0]+(n[2]-n[0])*i/10, n[1]+(n[3]-n[1])*i/10)
			a.wait(int(n[4] / 10))
		}
		a.point(0, ink.Up, n[2], n[3])
	case "wheel": // place, notches towards the hand
		a.s.Point(presses.Over(a.page, ink.Pointer{Phase: ink.Wheel, At: ink.Point{X: n[0], Y: n[1]}, By: n[2]}, a.page.Scale))
		a.wait(32)
	case "touch": // number of the finger from 1, place: it is down, or moves there
		phase := ink.Down
		if _, is := a.pointers[int(n[0])]; is {
			phase = ink.Move
		}
		a.point(int(n[0]), phase, n[1], n[2])
	case "lift":
		p := a.pointers[int(n[0])]
		a.point(int(n[0]), ink.Up, p.X, p.Y)
		delete(a.pointers, int(n[0]))
	case "fingers":
		a.fingers = said[1] == "on"
	case "axis": // number from 1, −1 to 1, over so many ms; what moves together is told in one line with commas
		for _, part := range strings.Split(strings.TrimPrefix(line, "axis "), ",") {
			var i int
			var to float64
			var over int64
			if _, err := fmt.Sscan(part, &i, &to, &over); err != nil || i < 1 || i > len(a.made.goals) {
				return fmt.Errorf("axis NUMBER VALUE MS, …: %q", part)
			}
			if i == 5 || i == 6 { // a lever snaps over, however slow the hand
				over = 0
			}
			a.made.goals[i-1].to, a.made.goals[i-1].until = to, a.now+over*1000
		}
		a.wait(16)
	case "button":
		a.made.buttons = a.made.buttons&^(1<<int(n[0]-1)) | map[bool]uint64{true: 1}[said[2] == "on"]<<int(n[0]-1)
		a.wait(16)
	case "plug", "pull":
		a.made.plugged = said[0] == "plug"
		a.wait(200)
	case "size":
		a.w, a.h = n[0], n[1]
		a.wait(16)
	default:
		return fmt.Errorf("not known: %q", said[0])
	}
	return nil
}

// attend sits down, with a folder for everything that is kept.
func attend(t *testing.T, dir string) *attended {
	a := &attended{t: t, now: 1_000_000, pointers: map[int]ink.Point{}}
	_, err := fmt.Sscanf(*attendedSize, "%fx%f", &a.w, &a.h)
	require.NoError(t, err)
	a.made = &attendedMade{now: &a.now}
	for _, i := range []int{2, 4, 5, 6} {
		a.made.axes[i], a.made.goals[i].to = -1, -1
	}
	w := &world.World{Door: new(door.Keeper), Store: radio.Store{Dir: filepath.Join(dir, "propsoff", "radios")}, Now: a.Now}
	w.Book = spoken([]string{"--language=" + *attendedIn}, words.English())
	f := &windowFlags{theme: "light"}
	o, err := f.options(w, &world.Named{})
	require.NoError(t, err)
	trainer, rec := drillrun.New(), takes.NewRecorder(o.craft.Papers())
	a.loop = live.New(live.Options{Craft: o.craft.Config(), Clock: a, Listen: trainer.Listen, Take: rec, Begin: o.begins(nil)})
	drills, end, err := pupils.Course(o.craft, trainer, "")
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, end()) })
	name, text, _ := assets.Script(demoName)
	pilot, err := script.Parse(name, text, o.craft.Words)
	require.NoError(t, err)
	demo := func() input.Source { return pilot.Source() }
	d := whodrives.New(whodrives.Options{Loop: a.loop, Clock: a, Names: o.craft.Words, Store: w.Store, Radios: a.made, Demo: demo})
	so := o.screen(a.loop, d)
	so.Drills, so.Record = drills, screen.RecordOptions{Recorder: rec, Folder: world.TakesFolder(), Program: world.Version}
	a.s, a.page = house.New(so), ink.NewPage(a.w, a.h, 0, nil)
	a.wait(50)
	return a
}

// TestAttended does what the pipe says until it says end.
func TestAttended(t *testing.T) {
	dir := *attendedDir
	if dir == "" {
		t.Skip("-attended DIR was not given")
	}
	t.Setenv("XDG_CONFIG_HOME", dir)
	t.Setenv("XDG_DATA_HOME", dir)
	t.Setenv("HOME", dir)
	a := attend(t, dir)
	for n := 1; ; n++ {
		in, err := os.Open(filepath.Join(dir, "in"))
		require.NoError(t, err)
		said := ""
		for lines := bufio.NewScanner(in); lines.Scan(); {
			line := strings.TrimSpace(lines.Text())
			if line == "end" {
				return
			}
			if err := a.do(line); err != nil {
				said += err.Error() + "\n"
			}
		}
		require.NoError(t, in.Close())
		if a.quit {
			said += "the program has ended\n"
		}
		img, err := raster.Image(a.page)
		require.NoError(t, err)
		out, err := os.Create(filepath.Join(dir, "page.png"))
		require.NoError(t, err)
		require.NoError(t, png.Encode(out, img))
		require.NoError(t, out.Close())
		require.NoError(t, os.WriteFile(filepath.Join(dir, "said"), []byte(fmt.Sprintf("%d\n%s", n, said)), 0o600))
	}
}
