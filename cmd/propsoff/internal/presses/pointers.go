package presses

import (
	"math"
	"slices"

	"propsoff.example/cmd/propsoff/internal/ink"
)

// Buttons of the mouse that count.
const (
	First = iota
	Second
	buttons
)

// Button is one button of the mouse: what happened to it since the last picture, and whether it is down, or was.
type Button struct{ Pressed, Released, Held bool }

// Touch is a finger that is down. Its ID is more than 0.
type Touch struct {
	ID int
	At ink.Point
}

// Touched is what a finger did.
type Touched struct {
	Touch
	Phase ink.Phase
}

// Sight is what an engine knows of mouse and fingers at one picture.
type Sight struct {
	Cursor  ink.Point
	Buttons [buttons]Button
	// Touches are the fingers that are down, where the engine knows no more. Touched is what fingers did since the last picture, in order, where it does: then a
	// tap that was over before the picture counts too.
	Touches []Touch
	Touched []Touched
	// Wheel is how far the mouse's wheel was turned since the last picture, in notches, towards the hand more than 0.
	Wheel float64
	// Now is the time in µs, Size a length of the page: one pixel of the least window.
	Now  int64
	Size float64
}

// Where a mouse is pressed at a place to which nobody saw it come, a finger was on a screen that the system tells of as a mouse (ours): a leap of at
// least leap pixels of the least window, after stillness in µs.
const (
	leap      = 60
	stillness = 200_000
)

// slack is how far beside a thing a finger may come down, in pixels of the least window (ours).
const slack = 14

// Pointers follows mouse and fingers. The zero value is ready.
type Pointers struct {
	cursor  ink.Point
	seen    bool // the cursor was seen once
	moved   int64
	finger  bool // the mouse is taken for a finger
	second  bool // its second button is meant
	down    bool // one of its buttons
	touches []Touch
}

// Follow tells of each pointer that came down, moved or went up. A mouse is told of only while it is down, and where its wheel is turned.
func (p *Pointers) Follow(s *Sight, page *ink.Page, tell func(ink.Pointer)) {
	p.mouse(s, page, tell)
	if s.Wheel != 0 {
		tell(Over(page, ink.Pointer{Phase: ink.Wheel, At: s.Cursor, By: s.Wheel}, s.Size))
	}
	p.fingers(s, page, tell)
}

// Lose tells that what is down is lost: the window is no longer in front.
func (p *Pointers) Lose(tell func(ink.Pointer)) {
	if p.down {
		tell(ink.Pointer{Phase: ink.Lost, At: p.cursor, Finger: p.finger, Second: p.second})
		p.down = false
	}
	for _, t := range p.touches {
		tell(ink.Pointer{ID: t.ID, Phase: ink.Lost, At: t.At, Finger: true})
	}
	p.touches = p.touches[:0]
}

func (p *Pointers) mouse(s *Sight, page *ink.Page, tell func(ink.Pointer)) {
	at := s.Cursor
	far := math.Hypot(at.X-p.cursor.X, at.Y-p.cursor.Y)
	moved := far > 0 && p.seen
	if p.down && s.Buttons[p.button()].Pressed { // so it was let go of in between
		p.down = false
		tell(p.at(ink.Up, p.cursor, s, page))
	}
	for i, b := range s.Buttons {
		if !b.Pressed || p.down {
			continue
		}
		p.down, p.second = true, i == Second
		p.finger = moved && far >= leap*s.Size && s.Now-p.moved >= stillness || p.finger && !moved
		p.cursor = at
		tell(p.at(ink.Down, at, s, page))
	}
	if p.down {
		if at != p.cursor {
			tell(p.at(ink.Move, at, s, page))
		}
		if b := s.Buttons[p.button()]; b.Released || !b.Held {
			p.down = false
			tell(p.at(ink.Up, at, s, page))
		}
	} else if moved && far < leap*s.Size {
		p.finger = false // it glides: a mouse
	}
	if moved {
		p.moved = s.Now
	}
	p.cursor, p.seen = at, true
}

func (p *Pointers) button() int {
	if p.second {
		return Second
	}
	return First
}

// at is what the mouse does at a place.
func (p *Pointers) at(phase ink.Phase, at ink.Point, s *Sight, page *ink.Page) ink.Pointer {
	return Over(page, ink.Pointer{Phase: phase, At: at, Finger: p.finger, Second: p.second}, s.Size)
}

// Over is a pointer with the area of a page that is under it, and the list; size is a length of the page: one pixel of the least window.
func Over(page *ink.Page, e ink.Pointer, size float64) ink.Pointer {
	if !e.Finger {
		size = 0
	}
	if e.Phase != ink.Move {
		e.Hit, e.On = page.Look(e.At, slack*size)
	}
	if e.Phase == ink.Down || e.Phase == ink.Wheel {
		e.List, e.OnList = page.ListAt(e.At)
	}
	if all := page.Lists(); e.Phase == ink.Wheel && !e.OnList && len(all) == 1 { // there is no other that could be meant
		e.List, e.OnList = all[0], true
	}
	return e
}

func (p *Pointers) fingers(s *Sight, page *ink.Page, tell func(ink.Pointer)) {
	event := func(t Touch, phase ink.Phase) {
		tell(Over(page, ink.Pointer{ID: t.ID, Phase: phase, At: t.At, Finger: true}, s.Size))
	}
	same := func(id int) func(Touch) bool { return func(t Touch) bool { return t.ID == id } }
	for _, t := range s.Touched {
		switch i := slices.IndexFunc(p.touches, same(t.ID)); {
		case i < 0 && t.Phase == ink.Down:
			p.touches = append(p.touches, t.Touch)
		case i < 0:
			continue // it was lost
		case t.Phase == ink.Move:
			p.touches[i] = t.Touch
		default:
			p.touches = slices.Delete(p.touches, i, i+1)
		}
		event(t.Touch, t.Phase)
	}
	if s.Touched != nil {
		return
	}
	p.touches = slices.DeleteFunc(p.touches, func(t Touch) bool {
		gone := !slices.ContainsFunc(s.Touches, same(t.ID))
		if gone {
			event(t, ink.Up)
		}
		return gone
	})
	for _, t := range s.Touches {
		switch i := slices.IndexFunc(p.touches, same(t.ID)); {
		case i < 0:
			p.touches = append(p.touches, t)
			event(t, ink.Down)
		case p.touches[i].At != t.At:
			p.touches[i] = t
			event(t, ink.Move)
		}
	}
}
