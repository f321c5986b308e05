package window

import (
	"sync"
	"syscall/js"

	"github.com/hajimehoshi/ebiten/v2"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/presses"
)

// fingers are taken from the browser's events, and not from the engine: that one tells which fingers are down at a picture, so a tap that is over before the
// next one was none, and on a slow machine no tap was any. It also knows nothing of a touch that the browser takes back.
type fingers struct {
	once sync.Once
	came []presses.Touched
	// free is the finger that came down where there is nothing to have hold of, 0 for none; from is where.
	free int
	from ink.Point
}

// told follows the finger that is free: as far as it goes, what is larger than the screen goes with it, so that it stays on the same place of the page.
func (f *fingers) told(e ink.Pointer, pan func(across, down float64)) {
	switch {
	case pan == nil || !e.Finger:
	case e.Phase == ink.Down && !e.On && !e.OnList && f.free == 0:
		f.free, f.from = e.ID, e.At
	case e.ID != f.free:
	case e.Phase == ink.Move:
		dense := ebiten.Monitor().DeviceScaleFactor()
		pan((e.At.X-f.from.X)/dense, (e.At.Y-f.from.Y)/dense)
	default:
		f.free = 0
	}
}

// see appends what fingers have done since the last call, in order; always an answer, so that nobody looks at fingers that are down.
func (f *fingers) see(_ []presses.Touch, did []presses.Touched) ([]presses.Touch, []presses.Touched) {
	f.once.Do(f.listen)
	if did == nil {
		did = []presses.Touched{}
	}
	did = append(did, f.came...)
	f.came = f.came[:0]
	return nil, did
}

// listen begins to hear the canvas; the engine, which listens too, keeps the browser from scrolling by a finger.
func (f *fingers) listen() {
	for name, phase := range map[string]ink.Phase{"touchstart": ink.Down, "touchmove": ink.Move, "touchend": ink.Up, "touchcancel": ink.Lost} {
		canvas().Call("addEventListener", name, js.FuncOf(func(_ js.Value, args []js.Value) any {
			changed := args[0].Get("changedTouches")
			for i := range changed.Length() {
				t := changed.Index(i)
				f.add(presses.Touched{Phase: phase, Touch: presses.Touch{
					ID: t.Get("identifier").Int()&0xffffff + 1, At: onPage(t.Get("clientX").Float(), t.Get("clientY").Float()),
				}})
			}
			ebiten.ScheduleFrame() //lint:ignore SA1019 the engine heard of it before us, and may sleep again
			return nil
		}))
	}
}

// add keeps one; of moves of one finger that follow each other the last.
func (f *fingers) add(t presses.Touched) {
	if n := len(f.came) - 1; n >= 0 && t.Phase == ink.Move && f.came[n].Phase == ink.Move && f.came[n].ID == t.ID {
		f.came[n] = t
		return
	}
	f.came = append(f.came, t)
}

func canvas() js.Value { return js.Global().Get("document").Call("querySelector", "canvas") }

// onPage is a place of the browser's window as one on the page: the canvas may stand beside something else.
func onPage(x, y float64) ink.Point {
	box, dense := canvas().Call("getBoundingClientRect"), ebiten.Monitor().DeviceScaleFactor()
	return ink.Point{X: (x - box.Get("left").Float()) * dense, Y: (y - box.Get("top").Float()) * dense}
}

// cursor is where the mouse is on the page. The engine tells it as if the canvas stood in the corner of the browser's window.
func cursor() ink.Point {
	x, y := ebiten.CursorPosition()
	corner := onPage(0, 0)
	return ink.Point{X: float64(x) + corner.X, Y: float64(y) + corner.Y}
}
