package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"image"
	_ "image/png" // a picture is a PNG
	"io"
	"math"
	"os"
	"slices"
	"strings"
	"time"

	"propsoff.example/input/take"
	"propsoff.example/scripts/rig/fakeradio"
	"propsoff.example/sim/pulse"
)

// What the window is asked for, and how the radio is moved meanwhile. The window draws one or two frames a second here.
const (
	pictureAfter = 25 * time.Second // since the window stands
	rollMoves    = 900
	rollEvery    = 10 * time.Millisecond
	rollLast     = 1700.0 // µs at the end
	throttleLast = 1300.0
	windowLimit  = 150 * time.Second
)

// windowRadio runs the program with its window on the real radio: it is armed by the radio's button, the picture that it
// writes shows it, and its recording holds every single movement although drawing is slow.
func windowRadio(f *figures) (err error) {
	x, screen, err := display()
	if err != nil {
		return err
	}
	defer closing(&err, x.stop)
	defer screen.Close()
	r := fakeradio.Main()
	p, err := plugAt(r, standing(r))
	if err != nil {
		return err
	}
	h, err := hold(p, standing(r))
	if err != nil {
		closing(&err, p.out)
		return err
	}
	defer closing(&err, h.leave)
	if err := os.WriteFile(outShare+"/radio.yaml", []byte(pilotFile(r, byButton)), 0o644); err != nil {
		return err
	}
	opened := time.Now()
	c, err := start(
		started{chroot: hostRoot, env: windowEnvironment()},
		outInside+"/propsoff", windowArguments(outInside, pictureAfter)...)
	if err != nil {
		return err
	}
	defer closing(&err, c.stop)
	if err := waitUntil(60*time.Second, "the program to open the radio", func() bool {
		return c.ended() || c.holds(p.nodes.event)
	}); err != nil {
		return err
	}
	f.add("radio opened after", fmt.Sprintf("%.0f s", time.Since(opened).Seconds()))
	if c.ended() {
		return fmt.Errorf("the program ended (%v): %s", c.err, c.said())
	}
	time.Sleep(4 * time.Second) // still for 2 s, link clean for 1.2 s
	fed, err := wander(h)
	if err != nil {
		return err
	}
	for _, move := range []func() error{
		func() error { return h.press(buttonArm, true) },
		func() error { return h.stick(axisThrottle, throttleLast) },
	} {
		if err := move(); err != nil {
			return err
		}
		time.Sleep(500 * time.Millisecond)
	}
	// A second picture, which the program had no hand in: only for looking at.
	if img, err := screen.picture(); err == nil {
		if err := save(img, "screen.png"); err != nil {
			return err
		}
	}
	if err := waitUntil(windowLimit, "the picture", func() bool {
		_, err := readDrawn()
		return err == nil || c.ended()
	}); err != nil {
		return err
	}
	f.add("the picture came after", fmt.Sprintf("%.0f s", time.Since(opened).Seconds()))
	began := time.Now()
	if err := errors.Join(looksUp(screen), c.leave()); err != nil {
		return err
	}
	f.add("keys looked up by mouse, and left, in", fmt.Sprintf("%.0f s", time.Since(began).Seconds()))
	return errors.Join(checkPicture(f), checkTake(fed, f))
}

// looksUp goes with the mouse from the bench to the sheet of all keys: the word for the bench's state, which nothing else takes away, is gone from its place.
func looksUp(screen *xscreen) error {
	h, err := handAt(screen)
	if err != nil {
		return err
	}
	page, err := readDrawn()
	if err != nil {
		return err
	}
	state, key := boxOf(page.Items, "state"), boxOf(page.Hits, "help")
	if state.Empty() || key.Empty() {
		return fmt.Errorf("the picture has no state, or no place that opens the sheet of all keys: %+v", page)
	}
	img, err := readPicture()
	if err != nil {
		return err
	}
	shows := func(want bool) func() bool {
		return func() bool {
			var now image.Image
			now, err = screen.picture()
			return err != nil || alike(img, now, state) == want
		}
	}
	if e := waitUntil(time.Minute, "the state on the screen, as in the picture", shows(true)); e != nil || err != nil {
		return errors.Join(e, err)
	}
	at := key.Min.Add(key.Max).Div(2)
	if err := h.drags(at.X, at.Y, 0, 0, 0); err != nil {
		return err
	}
	e := waitUntil(time.Minute, "the mouse to open the sheet of all keys", shows(false))
	return errors.Join(e, err)
}

// boxOf gives where a thing of a name is on the page, empty for nowhere.
func boxOf(areas []area, name string) image.Rectangle {
	i := slices.IndexFunc(areas, func(a area) bool { return a.Name == name })
	if i < 0 {
		return image.Rectangle{}
	}
	b := areas[i].Box
	return image.Rect(int(b[0]), int(b[1]), int(b[0]+b[2]), int(b[1]+b[3]))
}

// alike says whether two pictures are the same within a box.
func alike(a, b image.Image, box image.Rectangle) bool {
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			r, g, l, _ := a.At(x, y).RGBA()
			r2, g2, l2, _ := b.At(x, y).RGBA()
			if r != r2 || g != g2 || l != l2 {
				return false
			}
		}
	}
	return true
}

// wander moves the roll stick by jumps that the kernel's filter passes unchanged, and gives what was fed.
func wander(h *hands) ([]int32, error) {
	var fed []int32
	lo, hi := h.p.Radio.Layout.AxisRange(axisRoll)
	for k := range rollMoves + 1 {
		v := int32(k+1) * 131 % (hi + 1)
		if k == rollMoves {
			v = rawFor(rollLast, lo, hi)
		}
		fed = append(fed, v)
		if err := h.move(func(r *fakeradio.Report) { r.Axes[axisRoll] = v }); err != nil {
			return nil, err
		}
		time.Sleep(rollEvery)
	}
	return fed, nil
}

// drawn is what the program says of a picture.
type drawn struct {
	Items []area
	Hits  []area
}

type area struct {
	Name, Text string
	Box        [4]float64
}

func readDrawn() (page drawn, err error) {
	text, err := os.ReadFile(outShare + "/window.png.json")
	if err != nil {
		return page, err
	}
	if err := json.Unmarshal(text, &page); err != nil {
		return page, fmt.Errorf("window.png.json: %w", err)
	}
	return page, nil
}

func readPicture() (image.Image, error) {
	file, err := os.Open(outShare + "/window.png")
	if err != nil {
		return nil, err
	}
	defer file.Close()
	img, _, err := image.Decode(file)
	if err != nil {
		return nil, fmt.Errorf("window.png: %w", err)
	}
	return img, nil
}

// checkPicture holds what the page says is drawn against what the radio stood at.
func checkPicture(f *figures) error {
	img, err := readPicture()
	if err != nil {
		return err
	}
	f.add("picture", fmt.Sprintf("%d×%d", img.Bounds().Dx(), img.Bounds().Dy()))
	page, err := readDrawn()
	if err != nil {
		return err
	}
	var texts []string
	for _, i := range page.Items {
		if i.Text != "" {
			texts = append(texts, i.Text)
		}
	}
	f.add("texts drawn", len(texts))
	if !slices.Contains(texts, wordArmed) || slices.Contains(texts, wordDisarmed) {
		return fmt.Errorf("the page does not say %s; it says: %s", wordArmed, strings.Join(texts, " | "))
	}
	// shown values are rounded down, and the raw value nearest may lie just below
	for name, us := range map[string]float64{"roll": rollLast, "throttle": throttleLast} {
		near := func(s string) bool {
			return strings.Contains(s, fmt.Sprint(int(us))) || strings.Contains(s, fmt.Sprint(int(us)-1))
		}
		if !slices.ContainsFunc(texts, near) {
			return fmt.Errorf("the page does not show %s at %v µs; it says: %s", name, us, strings.Join(texts, " | "))
		}
	}
	return nil
}

// checkTake holds the recording's roll values against what was fed: every one, in order.
func checkTake(fed []int32, f *figures) error {
	t, err := take.Open(outShare + "/window.take")
	if err != nil {
		return err
	}
	defer t.Close()
	var got []float64
	for {
		e, err := t.Next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return err
		}
		if e.Kind != take.Reading {
			continue
		}
		if e.Reading.Kind == pulse.Gap {
			return fmt.Errorf("readings were lost at %d ms", e.Tick)
		}
		us := float64(e.Reading.Frame[chanRoll]) / pulse.Eighths
		if e.Reading.Kind == pulse.Controls && (len(got) == 0 || got[len(got)-1] != us) {
			got = append(got, us)
		}
	}
	if len(got) < len(fed) {
		return fmt.Errorf("the recording holds %d roll values, %d were fed", len(got), len(fed))
	}
	lo, hi := fakeradio.Main().Layout.AxisRange(axisRoll)
	for i, us := range got[len(got)-len(fed):] {
		if want := micros(fed[i], lo, hi); math.Abs(us-want) > kernelLimit {
			return fmt.Errorf("movement %d is recorded as %v µs, %v was fed", i+1, us, want)
		}
	}
	f.add("movements recorded", fmt.Sprintf("%d of %d", len(fed), len(fed)))
	return nil
}
