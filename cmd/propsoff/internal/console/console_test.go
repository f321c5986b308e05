package console

import (
	"bytes"
	"context"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

type screen struct {
	mu  sync.Mutex
	b   bytes.Buffer
	let chan struct{} // nil: takes everything
	// began is told of each write.
	began chan struct{}
}

func (s *screen) Write(p []byte) (int, error) {
	if s.let != nil {
		s.began <- struct{}{}
		<-s.let
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.Write(p)
}

func (s *screen) String() string { s.mu.Lock(); defer s.mu.Unlock(); return s.b.String() }

func TestRedraw(t *testing.T) {
	out := string(redraw(nil, []string{"a", "b\x1b[31m\x07\u009b"}, true))
	assert.Equal(t, "\x1b[2J\x1b[Ha\x1b[K\r\nb[U+001B][31m[U+0007][U+009B]\x1b[K\x1b[J", out)
	assert.False(t, strings.HasPrefix(string(redraw(nil, nil, false)), "\x1b[2J"), "cleared once only")
}

// A terminal that takes nothing stops nobody who shows a picture; of those that wait the newest is drawn.
func TestAStuckTerminalHoldsNobodyUp(t *testing.T) {
	s := &screen{let: make(chan struct{}), began: make(chan struct{}, 8)}
	restored := 0
	c := New(s, nil, func() (func(), bool) { return func() { restored++ }, true })
	require.True(t, c.Keys())
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- c.Run(ctx) }()
	c.Show([]string{"one"})
	<-s.began // and there it sticks
	c.Show([]string{"two"})
	c.Show([]string{"three"})
	stop()
	c.Restore() // it comes back all the same
	assert.Equal(t, 1, restored, "keys come as they did")
	close(s.let)
	require.NoError(t, <-done)
	require.NoError(t, c.End(false))
	out := s.String()
	assert.Contains(t, out, "one")
	assert.NotContains(t, out, "two")
	assert.Contains(t, out, "three")
	assert.Equal(t, strings.Count(out, hideCursor), strings.Count(out, showCursor))
	assert.True(t, strings.HasSuffix(out, showCursor+"\r\n"))
	assert.Equal(t, 1, restored)
}

// After the terminal was put back the next picture takes it again, whole.
func TestAPictureComesBack(t *testing.T) {
	s := &screen{}
	c := New(s, nil, nil)
	c.Show([]string{"one"})
	require.NoError(t, c.End(true))
	assert.True(t, strings.HasSuffix(s.String(), erase+home+showCursor+"\r\n"))
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	go func() { _ = c.Run(ctx) }()
	c.Show([]string{"two"})
	require.Eventually(t, func() bool { return strings.HasSuffix(s.String(), hideCursor+erase+home+"two"+eraseLine+eraseBelow) }, time.Minute, time.Millisecond)
}

// Whatever goroutine panics, the terminal is as it was when the program dies of it.
func TestAPanicPutsTheTerminalBack(t *testing.T) {
	s := &screen{}
	restored := false
	c := New(s, nil, func() (func(), bool) { return func() { restored = true }, true })
	c.Keys()
	c.Show([]string{"one"})
	assert.Panics(t, func() {
		_ = c.Guard(func() error {
			c.writing <- struct{}{}
			_ = c.draw()
			<-c.writing
			panic("broken")
		})
	})
	assert.True(t, restored)
	assert.True(t, strings.HasSuffix(s.String(), showCursor+"\r\n"))
	restored = false
	require.NoError(t, c.Guard(func() error { c.Keys(); return nil }))
	assert.False(t, restored, "who ends in order leaves the terminal to others")
}
