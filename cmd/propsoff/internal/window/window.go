//go:build cgo || windows || js || darwin

// Package window is Ebitengine: shows a page, passes keys on.
//
// It decides nothing: what is on the page and what a key does is the Program's. Drawing runs apart from reading the
// radio, so a slow screen loses no reading.
package window

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"image"
	"image/png"
	"runtime"
	"sync"
	"time"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/inpututil"

	"propsoff/assets/door"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/ink/raster"
	"propsoff/cmd/propsoff/internal/pads"
)

// Program is what the window shows and tells. All calls come from the window's goroutine.
type Program interface {
	// Page draws the page for a window of w by h pixels.
	Page(p *ink.Page, w, h float64)
	// Key tells of a key going down or up, by its place on a keyboard with US letters: "W", "Up", "Shift", "Space", "F1".
	Key(name string, down bool)
	// Type tells of text that is typed, in the letters that the keyboard is set to; before the keys that it was typed by.
	Type(text string)
	// Focus tells that the window has the keyboard, or lost it.
	Focus(on bool)
	// Click tells of a click on a hit area of the page that was drawn last.
	Click(h ink.Hit)
	// Turn is called some sixty times a second.
	Turn() Wish
}

// Wish is what the program wants of the window.
type Wish struct{ Quit, FullScreen bool }

// Shot is a picture of the window to be written, for tests and documents.
type Shot struct {
	After time.Duration
	File  string // a PNG; what the page says is drawn goes to File + ".json"
	Over  bool   // both may be written over files that are there
}

// Options of the window.
type Options struct {
	Title string
	W, H  int // 0: 1280 by 800
	Shots []Shot
	// Pads, where given, is told at every update what gamepads the engine sees.
	Pads func([]pads.Pad)
}

// Run opens the window and shows the program until it wishes to quit, the window is closed, or the last shot is taken.
func Run(p Program, o Options) error {
	if o.W == 0 || o.H == 0 {
		o.W, o.H = 1280, 800
	}
	ebiten.SetWindowTitle(o.Title)
	ebiten.SetWindowSize(o.W, o.H)
	ebiten.SetWindowSizeLimits(ink.LeastWidth, ink.LeastHeight, -1, -1)
	ebiten.SetWindowResizingMode(ebiten.WindowResizingModeEnabled)
	ebiten.SetScreenClearedEveryFrame(false)
	g := &game{program: p, tell: o.Pads, shots: o.Shots, page: ink.NewPage(ink.LeastWidth, ink.LeastHeight, 0, nil), pageAll: len(o.Shots) > 0}
	err := ebiten.RunGameWithOptions(g, &ebiten.RunGameOptions{SingleThread: false})
	if g.trouble != nil {
		return g.trouble
	}
	if errors.Is(err, ebiten.Termination) {
		return nil
	}
	return err
}

type game struct {
	program Program
	page    *ink.Page
	begun   time.Time
	focused bool
	full    bool
	shots   []Shot
	pageAll bool
	keys    []ebiten.Key
	text    []rune
	tell    func([]pads.Pad)
	ids     []ebiten.GamepadID
	seen    []pads.Pad
	trouble error
	done    bool
	once    sync.Once
}

// Update passes keys, clicks and time on.
func (g *game) Update() error {
	g.once.Do(func() { g.begun, g.focused = time.Now(), true })
	if f := ebiten.IsFocused(); f != g.focused {
		g.focused = f
		g.program.Focus(f)
	}
	if g.text = ebiten.AppendInputChars(g.text[:0]); len(g.text) > 0 {
		g.program.Type(string(g.text))
	}
	g.keys = inpututil.AppendJustPressedKeys(g.keys[:0])
	for _, k := range g.keys {
		if name := keyName(k); name != "" {
			g.program.Key(name, true)
		}
	}
	g.keys = inpututil.AppendJustReleasedKeys(g.keys[:0])
	for _, k := range g.keys {
		if name := keyName(k); name != "" {
			g.program.Key(name, false)
		}
	}
	if inpututil.IsMouseButtonJustPressed(ebiten.MouseButtonLeft) {
		x, y := ebiten.CursorPosition()
		if h, ok := g.page.HitAt(float64(x), float64(y)); ok {
			g.program.Click(h)
		}
	}
	g.pads()
	wish := g.program.Turn()
	if wish.FullScreen != g.full {
		g.full = wish.FullScreen
		ebiten.SetFullscreen(g.full)
	}
	if wish.Quit || g.done {
		return ebiten.Termination
	}
	return nil
}

// pads tells what gamepads the engine sees, to whoever wants to know.
func (g *game) pads() {
	if g.tell == nil {
		return
	}
	g.ids = ebiten.AppendGamepadIDs(g.ids[:0])
	g.seen = g.seen[:0]
	for _, id := range g.ids {
		p := pads.Pad{Name: ebiten.GamepadName(id)}
		for axis := range ebiten.GamepadAxisType(ebiten.GamepadAxisCount(id)) {
			p.Axes = append(p.Axes, ebiten.GamepadAxisValue(id, axis))
		}
		g.seen = append(g.seen, p)
	}
	g.tell(g.seen)
}

// Draw shows the latest page and decides nothing.
func (g *game) Draw(screen *ebiten.Image) {
	size := screen.Bounds().Size()
	g.program.Page(g.page, float64(size.X), float64(size.Y))
	Draw(screen, g.page)
	g.shoot(screen)
}

// LayoutF gives the page every pixel of the screen, also where the system scales.
func (g *game) LayoutF(w, h float64) (float64, float64) {
	s := ebiten.Monitor().DeviceScaleFactor()
	return w * s, h * s
}

// Layout is never called where LayoutF is there.
func (g *game) Layout(w, h int) (int, int) { return w, h }

// shoot writes the pictures that are due.
func (g *game) shoot(screen *ebiten.Image) {
	if len(g.shots) == 0 || g.begun.IsZero() || time.Since(g.begun) < g.shots[0].After {
		return
	}
	s := g.shots[0]
	g.shots = g.shots[1:]
	if err := writeShot(s, screen, g.page); err != nil && g.trouble == nil {
		g.trouble = err
	}
	if len(g.shots) == 0 {
		g.done = true
	}
}

// told is what a picture's page says of itself: what is drawn, what is wrong with it, and the share of pixels that look
// otherwise than the same page drawn without the engine.
type told struct {
	ink.Sheet
	Problems []string `json:"problems"`
	Unlike   float64  `json:"unlike"`
	// FramesPerSecond as drawn lately, and what the Go runtime has taken from the system, before this picture.
	FramesPerSecond float64 `json:"frames_per_second"`
	RuntimeBytes    uint64  `json:"runtime_bytes"`
}

func writeShot(s Shot, screen *ebiten.Image, page *ink.Page) error {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	b := screen.Bounds()
	img := image.NewRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	screen.ReadPixels(img.Pix)
	var buf bytes.Buffer
	if err := png.Encode(&buf, img); err != nil {
		return fmt.Errorf("picture %s: %w", s.File, err)
	}
	if err := door.PublishBytes(s.File, door.Out{Over: s.Over}, buf.Bytes()); err != nil {
		return fmt.Errorf("picture: %w", err)
	}
	t := told{Sheet: ink.Describe(page), Problems: []string{}, FramesPerSecond: ebiten.ActualFPS(), RuntimeBytes: m.Sys}
	for _, q := range ink.Check(page) {
		t.Problems = append(t.Problems, q.String())
	}
	plain, err := raster.Image(page)
	if err != nil {
		return fmt.Errorf("picture %s: %w", s.File, err)
	}
	t.Unlike = unlike(img, plain)
	text, err := json.MarshalIndent(t, "", " ")
	if err != nil {
		return fmt.Errorf("picture %s: %w", s.File, err)
	}
	if err := door.PublishBytes(s.File+".json", door.Out{Over: s.Over}, text); err != nil {
		return fmt.Errorf("picture: %w", err)
	}
	return nil
}

// unlike is the share of pixels of which a colour differs by more than a quarter of its range.
func unlike(a, b *image.RGBA) float64 {
	if a.Rect.Size() != b.Rect.Size() || len(a.Pix) != len(b.Pix) {
		return 1
	}
	n := 0
	for i := 0; i < len(a.Pix); i += 4 {
		for c := range 3 {
			if d := int(a.Pix[i+c]) - int(b.Pix[i+c]); d > 64 || d < -64 {
				n++
				break
			}
		}
	}
	return float64(n) / float64(len(a.Pix)/4)
}
