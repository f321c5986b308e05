//go:build unix

package main

import (
	"fmt"
	"io/fs"
	"os"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
	"propsoff.example/input/usb"
)

// Event types and codes: include/uapi/linux/input-event-codes.h.
const (
	evSyn, evKey, evAbs = 0, 1, 3
	btnJoystick         = 0x120
)

// bus is a fake USB port: radios whose events come through pipes, by way of the very reader of the event interface.
type bus struct {
	mu      sync.Mutex
	there   []usb.Found
	refuse  bool // opening is not allowed
	blunted bool
	writers map[string]*os.File
	last    map[string]input.Raw
	changes []usb.Change
	wake    chan struct{}
}

func newBus() *bus {
	return &bus{wake: make(chan struct{}, 1), writers: map[string]*os.File{}, last: map[string]input.Raw{}}
}

func found(name, path, serial string) usb.Found {
	return usb.Found{Name: name, Path: path, Event: path, Vendor: 0x1f4a, Product: 7, Serial: serial, Port: "1-" + serial, Way: usb.WayEvent}
}

func (b *bus) plug(f usb.Found) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.there = append(b.there, f)
	b.changes = append(b.changes, usb.Change{Kind: usb.Arrived, Radio: f})
	b.ring()
}

func (b *bus) unplug(path string) {
	b.mu.Lock()
	defer b.mu.Unlock()
	for i, f := range b.there {
		if f.Path == path {
			b.there = append(b.there[:i:i], b.there[i+1:]...)
			b.changes = append(b.changes, usb.Change{Kind: usb.Departed, Radio: f})
			break
		}
	}
	if w := b.writers[path]; w != nil {
		_ = w.Close()
		delete(b.writers, path)
	}
	b.ring()
}

func (b *bus) ring() {
	select {
	case b.wake <- struct{}{}:
	default:
	}
}

// send reports axis values (from axis 0) and buttons 0.. of the radio at path in one packet.
func (b *bus) send(t *testing.T, path string, axes []int32, buttons ...int32) {
	t.Helper()
	require.NoError(t, b.packet(path, axes, buttons...))
}

// packet is send where there is no test to fail.
func (b *bus) packet(path string, axes []int32, buttons ...int32) error {
	b.mu.Lock()
	defer b.mu.Unlock()
	w := b.writers[path]
	if w == nil {
		return fmt.Errorf("%s is not open", path)
	}
	at := usb.Now()
	var buf []byte
	raw := b.last[path]
	for i, v := range axes {
		buf = usb.AppendEvent(buf, at, evAbs, uint16(i), v)
		raw.Axes[i] = v
	}
	for i, v := range buttons {
		buf = usb.AppendEvent(buf, at, evKey, uint16(btnJoystick+i), v)
	}
	b.last[path] = raw
	buf = usb.AppendEvent(buf, at, evSyn, 0, 0)
	_, err := w.Write(buf)
	return err
}

func (b *bus) List() ([]usb.Found, []usb.Notice, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	return append([]usb.Found(nil), b.there...), []usb.Notice{{Name: "Odd Stick", Storage: true}}, nil
}
func (b *bus) Watch() (world.Watcher, error) { return b, nil }
func (b *bus) Wake() <-chan struct{}         { return b.wake }
func (b *bus) Close() error                  { return nil }
func (b *bus) Found() []usb.Found            { f, _, _ := b.List(); return f }
func (b *bus) Poll(dst []usb.Change) []usb.Change {
	b.mu.Lock()
	defer b.mu.Unlock()
	dst = append(dst, b.changes...)
	b.changes = nil
	return dst
}

func (b *bus) Open(path string, epoch int64) (input.Device, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	for _, f := range b.there {
		if f.Path != path {
			continue
		}
		if b.refuse {
			return nil, fmt.Errorf("%s: %w", path, fs.ErrPermission)
		}
		r, w, err := os.Pipe()
		if err != nil {
			return nil, err
		}
		b.writers[path] = w
		info := input.Info{Path: path, Name: f.Name, Vendor: f.Vendor, Product: f.Product, Serial: f.Serial, Port: f.Port, Way: f.Way, Buttons: 2, Blunted: b.blunted}
		for code := range 6 {
			info.Axes = append(info.Axes, input.Axis{Code: code, Max: 2047})
		}
		last := b.last[path]
		return usb.NewFromPipe(r, usb.Pipe{
			Info: info, Keys: []uint16{btnJoystick, btnJoystick + 1}, Epoch: epoch,
			Ask: func(raw *input.Raw) error { *raw = last; return nil },
		})
	}
	return nil, fs.ErrNotExist
}
