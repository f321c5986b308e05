//go:build cgo || windows || js

package window

import (
	"math"
	"runtime"
	"sync"
	"sync/atomic"
	"time"

	"github.com/hajimehoshi/ebiten/v2"

	"propsoff.example/cmd/propsoff/internal/ink"
)

const (
	// turnEvery is how often the program is turned and looked at, also while nothing is drawn; leastBetween is between two looks, however
	// fast a radio sends (ours).
	turnEvery    = time.Second / 60
	leastBetween = turnEvery / 2
	// movesAfter pictures, each soon after the one before, the page counts as moving; restsAfter without a new one it is at rest (ours).
	movesAfter = 3
	restsAfter = 300 * time.Millisecond
)

// restTurns is how many turns go by, while the page rests and nothing wakes it, until it is made once more to see whether it has changed by itself: in a
// browser to make it costs many times more (ours).
var restTurns = map[bool]int{false: 1, true: 4}[runtime.GOOS == "js"]

// sight is the program and what of it stands on the screen. The window's goroutine and the watcher take turns at it.
//
// At rest the engine sleeps. The watcher turns the program, has it make its page, and wakes the engine where the page has other items
// than the one that stands drawn; keys and the pointer wake the engine by themselves. While the page moves, the engine goes at its own
// pace, in step with the display.
type sight struct {
	mu      sync.Mutex
	program Program
	wish    Wish
	next    *ink.Page     // built on at each look
	drawn   *ink.Page     // what stands on the screen
	on      *ebiten.Image // the screen on which it stands, nil before the first picture
	parts   []ink.Rect
	// How many pictures were drawn, and how many pixels anew for them: for tests.
	pictures int
	pixels   float64
	asked    bool // the engine was woken and has not drawn since
	rested   int  // turns since the page was made
	moving   bool // the engine goes at its own pace
	soon     int  // pictures in a row that came soon after the one before
	last     time.Time
	// dense is how many pixels of the page one of the system's has, as the bits of a number, since the last layout: to ask the engine from beside its own
	// thread would wait for as long as it sleeps.
	dense atomic.Uint64
}

// watch looks at the program until stop is closed: some sixty times a second, and sooner where wake tells of something, or something is to be done.
func (g *game) watch(wake <-chan struct{}, do <-chan func(*ink.Page), stop <-chan struct{}) {
	t := time.NewTimer(turnEvery)
	defer t.Stop()
	for last := time.Now(); ; {
		came := true
		select {
		case <-stop:
			return
		case <-t.C:
			came = false
		case f := <-do:
			g.sight.mu.Lock()
			f(g.sight.drawn)
			g.sight.mu.Unlock()
		case <-wake:
			if soonest := leastBetween - time.Since(last); soonest > 0 {
				t.Reset(soonest)
				continue
			}
		}
		last = time.Now()
		t.Reset(turnEvery)
		if g.look(came) {
			ebiten.ScheduleFrame() //lint:ignore SA1019 no other way wakes an engine that sleeps
		}
	}
}

// look turns the program and tells whether the engine is to be woken; came: something did.
func (g *game) look(came bool) bool {
	s := &g.sight
	s.mu.Lock()
	defer s.mu.Unlock()
	was := s.wish
	s.wish = s.program.Turn()
	switch {
	case s.on == nil || s.moving || s.asked:
		return false
	case s.wish != was || g.tell != nil || g.due():
		s.asked = true
	case !came && s.rested+1 < restTurns:
		s.rested++
	default:
		s.rested = 0
		s.build(s.drawn.W, s.drawn.H)
		s.asked = len(s.parts) > 0
	}
	return s.asked
}

// build makes the page anew, and finds what of it is to be drawn.
func (s *sight) build(w, h float64) {
	s.next.Dense = math.Float64frombits(s.dense.Load())
	s.program.Page(s.next, w, h)
	s.parts = s.next.Since(s.drawn, s.parts[:0])
	for i, r := range s.parts {
		s.parts[i] = coarse(r)
	}
}

// grid is what the edges of a part lie on, in pixels (ours). The engine keeps what it drew with for each place of its own for a second: of places that differ
// by a pixel from picture to picture it keeps tens of megabytes.
const grid = 32

// coarse is the least rectangle on the grid that holds another.
func coarse(r ink.Rect) ink.Rect {
	x, y := math.Floor(r.X/grid)*grid, math.Floor(r.Y/grid)*grid
	return ink.Rect{X: x, Y: y, W: math.Ceil(r.Right()/grid)*grid - x, H: math.Ceil(r.Bottom()/grid)*grid - y}
}

// draw brings the screen up to date and tells whether anything was drawn.
func (s *sight) draw(d *Drawer, screen *ebiten.Image) bool {
	size := screen.Bounds().Size()
	s.build(float64(size.X), float64(size.Y))
	if s.on != screen { // another image: nothing stands on it
		s.parts = append(s.parts[:0], s.next.Bounds())
	}
	s.asked = false
	if len(s.parts) > 0 {
		s.pictures++
	}
	for _, r := range s.parts {
		s.pixels += r.W * r.H
	}
	d.Draw(screen, s.next, s.parts)
	s.next, s.drawn, s.on = s.drawn, s.next, screen
	return len(s.parts) > 0
}

// pace follows whether the page moves, and tells whether that has changed.
func (s *sight) pace(drew bool, now time.Time) (changed bool) {
	was := s.moving
	if drew {
		if now.Sub(s.last) > restsAfter/2 {
			s.soon = 0
		}
		s.soon++
		s.last = now
	}
	if s.soon >= movesAfter {
		s.moving = true
	}
	if now.Sub(s.last) > restsAfter {
		s.moving, s.soon = false, 0
	}
	return s.moving != was
}

// setPace lets the engine go on at its own pace while the page moves, and sleep until it is woken while it rests.
func setPace(moving bool) {
	mode := ebiten.FPSModeVsyncOffMinimum //lint:ignore SA1019 no other mode sleeps until a frame is scheduled
	if moving {
		mode = ebiten.FPSModeVsyncOn //lint:ignore SA1019 as above
	}
	ebiten.SetFPSMode(mode) //lint:ignore SA1019 as above
}
