// Package console is the terminal as this program changes it: pictures drawn in place without a cursor, keys one at a time, and all of it put
// back before the program ends or is stopped, however that comes.
//
// Nobody who has something to show waits for the terminal: Show keeps the newest picture, and Run writes it when the terminal takes it.
package console

import (
	"context"
	"io"
	"sync"
	"time"

	"propsoff.example/assets/mouth"
)

// Console is one terminal. Use New.
type Console struct {
	out  io.Writer
	size func() (columns, rows int, ok bool)
	raw  func() (restore func(), ok bool)

	writing chan struct{} // holds one, taken by whoever writes
	shown   bool          // the cursor is away; for whoever writes

	mu     sync.Mutex
	latest []string // the picture that is not written yet, nil for none
	undo   func()   // gives the keys back; nil where they come as they did
	wake   chan struct{}
}

// New is the terminal behind out. size gives its size, ok false where it is none; raw, where given, has keys come one at a time until restore
// is called, ok false where that cannot be.
func New(out io.Writer, size func() (columns, rows int, ok bool), raw func() (restore func(), ok bool)) *Console {
	return &Console{out: out, size: size, raw: raw, writing: make(chan struct{}, 1), wake: make(chan struct{}, 1)}
}

// Size is the size of the terminal, ok false for none.
func (c *Console) Size() (columns, rows int, ok bool) {
	if c.size == nil {
		return 0, 0, false
	}
	return c.size()
}

// Keys has keys come one at a time until End or Restore; it reports whether they do.
func (c *Console) Keys() bool {
	if c.raw == nil {
		return false
	}
	undo, ok := c.raw()
	if ok {
		c.mu.Lock()
		c.undo = undo
		c.mu.Unlock()
	}
	return ok
}

// Show puts a picture in the place of the one that still waits. It never waits for the terminal.
func (c *Console) Show(lines []string) {
	c.mu.Lock()
	c.latest = lines
	c.mu.Unlock()
	select {
	case c.wake <- struct{}{}:
	default:
	}
}

// Run writes pictures until ctx is done; a picture that waits then is left to End.
func (c *Console) Run(ctx context.Context) error {
	for {
		select {
		case <-ctx.Done():
			return nil
		case <-c.wake:
			c.writing <- struct{}{}
			err := c.draw()
			<-c.writing
			if err != nil {
				return err
			}
		}
	}
}

// draw writes the newest picture, if there is one that was not written.
func (c *Console) draw() error {
	c.mu.Lock()
	lines := c.latest
	c.latest = nil
	c.mu.Unlock()
	if lines == nil {
		return nil
	}
	var out []byte
	first := !c.shown
	if first {
		out = append(out, hideCursor...)
	}
	c.shown = true
	_, err := c.out.Write(redraw(out, lines, first))
	return err
}

// End writes the last picture and puts the terminal back; clear takes the picture away.
func (c *Console) End(clear bool) error {
	c.writing <- struct{}{}
	defer func() { <-c.writing }()
	err := c.draw()
	if c.shown && clear && err == nil {
		_, err = io.WriteString(c.out, erase+home)
	}
	c.cursorBack()
	c.keysBack()
	return err
}

// Restore puts the terminal back as it was found. Where it takes nothing it gets its keys back all the same, and its cursor once it does.
func (c *Console) Restore() { c.putBack()() }

// patience is how long putBack waits for a terminal that takes nothing (ours).
const patience = time.Second

// putBack puts the terminal back; nobody writes to it until release is called.
func (c *Console) putBack() (release func()) {
	c.keysBack()
	back, over := make(chan struct{}), make(chan struct{})
	go func() { // a cursor that cannot be written must not keep the program
		c.writing <- struct{}{}
		c.cursorBack()
		close(back)
		<-over
		<-c.writing
	}()
	select {
	case <-back:
	case <-time.After(patience):
	}
	return func() { close(over) }
}

func (c *Console) cursorBack() {
	if c.shown {
		_, _ = io.WriteString(c.out, showCursor+"\r\n")
	}
	c.shown = false
}

// keysBack reports whether keys came one at a time.
func (c *Console) keysBack() bool {
	c.mu.Lock()
	undo := c.undo
	c.undo = nil
	c.mu.Unlock()
	if undo != nil {
		undo()
	}
	return undo != nil
}

// Guard runs f and puts the terminal back should f panic: a panic ends the program from whichever goroutine it comes.
func (c *Console) Guard(f func() error) error {
	whole := false
	defer func() {
		if !whole {
			c.Restore()
		}
	}()
	err := f()
	whole = true
	return err
}

// Suspend puts the terminal back, stops the program as the terminal's stop key does, and takes the terminal again once somebody has it go on:
// keys at once, the cursor with the next picture. Where nobody could have it go on, nothing is done.
func (c *Console) Suspend() {
	if !canGoOn() {
		return
	}
	keyed := c.keysBack()
	release := c.putBack()
	stop()
	if keyed {
		c.Keys()
	}
	release()
}

// What a terminal is told (ECMA-48, 5th edition: CUP 8.3.21, ED 8.3.39, EL 8.3.41; the cursor's being seen is a private mode, DECTCEM, that
// every terminal of today knows: common practice, no source).
const (
	hideCursor = "\x1b[?25l"
	showCursor = "\x1b[?25h"
	home       = "\x1b[H"
	erase      = "\x1b[2J"
	eraseLine  = "\x1b[K"
	eraseBelow = "\x1b[J"
)

// redraw appends the bytes that show lines in place. The first picture clears the screen before.
func redraw(dst []byte, lines []string, first bool) []byte {
	if first {
		dst = append(dst, erase...)
	}
	dst = append(dst, home...)
	for i, l := range lines {
		if i > 0 {
			dst = append(dst, "\r\n"...)
		}
		dst = append(append(dst, mouth.Printable(l)...), eraseLine...)
	}
	return append(dst, eraseBelow...)
}
