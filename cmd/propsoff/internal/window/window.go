//go:build cgo || windows || js

// Package window is Ebitengine: shows a page, passes keys on.
//
// It decides nothing: what is on the page and what a key does is the Program's. Drawing runs apart from reading the
// radio, so a slow screen loses no reading.
package window

import (
	"bytes"
	"encoding/json"
	"errors"
	"image"
	"image/png"
	"math"
	"runtime"
	"sync"
	"time"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/inpututil"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/engineaxes"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ink/raster"
	"propsoff.example/cmd/propsoff/internal/presses"
)

// Program is what the window shows and tells. One call comes at a time, not always from the same goroutine.
type Program interface {
	// Page makes the page for a window of w by h pixels. It need not come to be shown.
	Page(p *ink.Page, w, h float64)
	// Shown tells that the page that was made last goes to the screen now.
	Shown()
	// Key tells of a key going down or up, by its place on a keyboard with US letters: "W", "Up", "Shift", "Space", "F1".
	Key(name string, down bool)
	// Type tells of text that is typed, in the letters that the keyboard is set to; before the keys that it was typed by.
	Type(text string)
	// Keyboard tells what the keys write as the keyboard is set, by the names of their places; empty where the system does not say.
	Keyboard(writes map[string]string)
	// Focus tells that the window has the keyboard, or lost it.
	Focus(on bool)
	// Point tells what a mouse or a finger does over the page that was drawn last.
	Point(e ink.Pointer)
	// Closing tells that a person wants the window closed, by the system's own means.
	Closing()
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
	Icons []image.Image // in the sizes that there are
	W, H  int           // 0: 1280 by 800
	Shots []Shot
	// Wake, where given, tells that the page may have changed; without it that is seen some sixty times a second.
	Wake <-chan struct{}
	// Do gives what is to be done between two calls of the program, at once, also while nothing is drawn; each is given the page that stands drawn.
	Do <-chan func(drawn *ink.Page)
	// Pan, where given, is told how far fingers have moved that have hold of nothing, in pixels of the system: what is larger than the screen is moved so.
	Pan func(across, down float64)
	// Pads, where given, is told at every update what gamepads the engine sees.
	Pads func([]engineaxes.Pad)
}

// Run opens the window and shows the program until it wishes to quit, the window is closed, or the last shot is taken.
func Run(p Program, o Options) error {
	if o.W == 0 || o.H == 0 {
		o.W, o.H = 1280, 800
	}
	ebiten.SetWindowTitle(o.Title)
	ebiten.SetWindowIcon(o.Icons)
	ebiten.SetWindowSize(o.W, o.H)
	ebiten.SetWindowSizeLimits(ink.LeastWidth, ink.LeastHeight, -1, -1)
	ebiten.SetWindowResizingMode(ebiten.WindowResizingModeEnabled)
	ebiten.SetScreenClearedEveryFrame(false)
	ebiten.SetWindowClosingHandled(true)
	g := &game{tell: o.Pads, shots: o.Shots, pan: o.Pan}
	g.sight = sight{program: p, next: ink.NewPage(ink.LeastWidth, ink.LeastHeight, 0, nil), drawn: ink.NewPage(ink.LeastWidth, ink.LeastHeight, 0, nil), moving: true}
	stop := make(chan struct{})
	defer close(stop)
	go g.watch(o.Wake, o.Do, stop)
	err := ebiten.RunGameWithOptions(g, &ebiten.RunGameOptions{X11ClassName: o.Title, X11InstanceName: o.Title})
	if g.trouble != nil {
		return g.trouble
	}
	if errors.Is(err, ebiten.Termination) {
		return nil
	}
	return err
}

type game struct {
	sight   sight
	drawer  *Drawer
	begun   time.Time
	focused bool
	full    bool
	shots   []Shot
	presses presses.Keys
	seen    presses.Seen
	keys    []ebiten.Key
	text    []rune
	caps    map[string]string // what a key types, by its place; nil: not asked yet
	points  presses.Pointers
	sees    presses.Sight
	fingers fingers
	pan     func(across, down float64)
	tell    func([]engineaxes.Pad)
	ids     []ebiten.GamepadID
	pad     []engineaxes.Pad
	trouble error
	done    bool
	once    sync.Once
}

// Update passes keys and clicks on.
func (g *game) Update() error {
	keepSharp()
	s := &g.sight
	s.mu.Lock()
	defer s.mu.Unlock()
	g.once.Do(func() { g.begun, g.focused = time.Now(), true })
	if f := ebiten.IsFocused(); f != g.focused {
		g.focused, g.caps = f, nil
		s.program.Focus(f)
		if !f {
			g.points.Lose(s.program.Point)
		}
	}
	if ebiten.IsWindowBeingClosed() {
		s.program.Closing()
	}
	g.keyboard()
	g.typed()
	g.pointed()
	g.pads()
	if s.wish.FullScreen != g.full {
		g.full = s.wish.FullScreen
		ebiten.SetFullscreen(g.full)
	}
	if s.wish.Quit || g.done {
		return ebiten.Termination
	}
	return nil
}

// typed tells of text and keys.
func (g *game) typed() {
	p := g.sight.program
	if g.text = ebiten.AppendInputChars(g.text[:0]); len(g.text) > 0 {
		p.Type(string(g.text))
	}
	g.seen.Text, g.seen.Types = string(g.text), g.types
	g.keys = inpututil.AppendJustPressedKeys(g.keys[:0])
	g.seen.Pressed = names(g.seen.Pressed[:0], g.keys)
	g.keys = inpututil.AppendJustReleasedKeys(g.keys[:0])
	g.seen.Released = names(g.seen.Released[:0], g.keys)
	g.keys = inpututil.AppendPressedKeys(g.keys[:0])
	g.seen.Held = names(g.seen.Held[:0], g.keys)
	g.presses.Follow(g.seen, p.Key)
}

// keyboard asks what keys type as the keyboard is set; anew when the window comes to the front or goes, since it may be set otherwise by then.
func (g *game) keyboard() {
	if g.caps != nil {
		return
	}
	g.caps = map[string]string{}
	for k := ebiten.Key(0); k <= ebiten.KeyMax; k++ {
		g.caps[keyName(k)] = ebiten.KeyName(k)
	}
	g.sight.program.Keyboard(g.caps)
}

// types is what a key types as the keyboard is set.
func (g *game) types(key string) string { return g.caps[key] }

// notch is what the engine tells of one notch of a wheel: in a browser it is a length, commonly of so many pixels (common practice, no source).
var notch = map[bool]float64{false: 1, true: 100}[runtime.GOOS == "js"]

// pointed tells of mouse and fingers.
func (g *game) pointed() {
	see := &g.sees
	see.Cursor, see.Now, see.Size = cursor(), time.Since(g.begun).Microseconds(), g.sight.drawn.Scale
	for i, b := range [...]ebiten.MouseButton{presses.First: ebiten.MouseButtonLeft, presses.Second: ebiten.MouseButtonRight} {
		see.Buttons[i] = presses.Button{Pressed: inpututil.IsMouseButtonJustPressed(b), Released: inpututil.IsMouseButtonJustReleased(b), Held: ebiten.IsMouseButtonPressed(b)}
	}
	see.Touches, see.Touched = g.fingers.see(see.Touches[:0], see.Touched[:0])
	_, away := ebiten.Wheel()
	see.Wheel = -away / notch
	g.points.Follow(see, g.sight.drawn, func(e ink.Pointer) {
		g.fingers.told(e, g.pan)
		g.sight.program.Point(e)
	})
}

// pads tells what gamepads the engine sees, to whoever wants to know.
func (g *game) pads() {
	if g.tell == nil {
		return
	}
	g.ids = ebiten.AppendGamepadIDs(g.ids[:0])
	g.pad = g.pad[:0]
	for _, id := range g.ids {
		p := engineaxes.Pad{Name: ebiten.GamepadName(id)}
		for axis := range ebiten.GamepadAxisType(ebiten.GamepadAxisCount(id)) {
			p.Axes = append(p.Axes, ebiten.GamepadAxisValue(id, axis))
		}
		g.pad = append(g.pad, p)
	}
	g.tell(g.pad)
}

// Draw draws what the page has become other than it stands on the screen.
func (g *game) Draw(screen *ebiten.Image) {
	if g.drawer == nil {
		var err error
		if g.drawer, err = NewDrawer(); err != nil {
			panic(err) // the built-in face cannot be read: a broken build
		}
	}
	s := &g.sight
	s.mu.Lock()
	drew := s.draw(g.drawer, screen)
	if drew {
		s.program.Shown()
	}
	g.shoot(screen)
	changed, moving := s.pace(drew, time.Now()), s.moving
	s.mu.Unlock()
	if changed {
		setPace(moving)
	}
}

// LayoutF gives the page every pixel of the screen, also where the system scales.
func (g *game) LayoutF(w, h float64) (float64, float64) {
	s := ebiten.Monitor().DeviceScaleFactor()
	g.sight.dense.Store(math.Float64bits(s))
	return w * s, h * s
}

// Layout is never called where LayoutF is there.
func (g *game) Layout(w, h int) (int, int) { return w, h }

// due tells whether a picture is to be written, or the window is done.
func (g *game) due() bool {
	return g.done || len(g.shots) > 0 && !g.begun.IsZero() && time.Since(g.begun) >= g.shots[0].After
}

// shoot writes the pictures that are due.
func (g *game) shoot(screen *ebiten.Image) {
	if g.done || !g.due() {
		return
	}
	s := g.shots[0]
	g.shots = g.shots[1:]
	if err := writeShot(s, screen, g); err != nil && g.trouble == nil {
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
	// Patched are the pixels that look otherwise than where the engine draws the same page whole and at once.
	Patched int `json:"patched"`
	// Pictures is how many were drawn so far, Pixels how many pixels were drawn anew for them.
	Pictures int     `json:"pictures"`
	Pixels   float64 `json:"pixels"`
	// RuntimeBytes is what the Go runtime has taken from the system before this picture.
	RuntimeBytes uint64 `json:"runtime_bytes"`
}

func writeShot(s Shot, screen *ebiten.Image, g *game) error {
	page := g.sight.drawn
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	b := screen.Bounds()
	img := image.NewRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	screen.ReadPixels(img.Pix)
	var buf bytes.Buffer
	if err := png.Encode(&buf, img); err != nil {
		return words.Within(s.File, err)
	}
	if err := door.PublishBytes(s.File, door.Out{Over: s.Over}, buf.Bytes()); err != nil {
		return err
	}
	t := told{Sheet: ink.Describe(page), Problems: []string{}, Pictures: g.sight.pictures, Pixels: g.sight.pixels, RuntimeBytes: m.Sys}
	t.Patched = g.patched(img, page)
	for _, q := range ink.Check(page) {
		t.Problems = append(t.Problems, q.String())
	}
	plain, err := raster.Image(page)
	if err != nil {
		return words.Within(s.File, err)
	}
	t.Unlike = unlike(img, plain)
	text, err := json.MarshalIndent(t, "", " ")
	if err != nil {
		return words.Within(s.File, err)
	}
	return door.PublishBytes(s.File+".json", door.Out{Over: s.Over}, text)
}

// patched is how many pixels of a picture look otherwise than the page drawn whole and at once.
func (g *game) patched(picture *image.RGBA, page *ink.Page) (n int) {
	again := ebiten.NewImageWithOptions(picture.Rect, &ebiten.NewImageOptions{Unmanaged: true})
	defer again.Deallocate()
	g.drawer.Draw(again, page, []ink.Rect{page.Bounds()})
	whole := make([]byte, len(picture.Pix))
	again.ReadPixels(whole)
	for i := 0; i < len(whole); i += 4 {
		if !bytes.Equal(whole[i:i+4], picture.Pix[i:i+4]) {
			n++
		}
	}
	return n
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
